/** Chance by seed: the same seed draws the same requests and the same words. */

/** One stream of draws. */
export class Draw {
  #state: number;

  /** @param seed any text; streams of different texts have nothing to do with each other */
  constructor(seed: string) {
    this.#state = hash(seed);
  }

  /** From 0 up to, not including, 1 (mulberry32). */
  number(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }

  chance(probability: number): boolean {
    return this.number() < probability;
  }

  /** A whole number from `least` to `most`. */
  int(least: number, most: number): number {
    return least + Math.floor(this.number() * (most - least + 1));
  }

  /** A multiple of `step` from `least` to `most`. */
  stepped(least: number, most: number, step: number): number {
    const steps = Math.floor((most - least) / step + 1e-9);
    return Number((least + step * this.int(0, steps)).toFixed(4));
  }

  pick<T>(from: readonly T[]): T {
    if (from.length === 0) throw new RangeError("nothing to pick from");
    return from[this.int(0, from.length - 1)]!;
  }

  /** The value, with a probability; otherwise nothing. */
  perhaps<T>(probability: number, value: () => T): T | undefined {
    return this.chance(probability) ? value() : undefined;
  }

  shuffle<T>(list: readonly T[]): T[] {
    const all = [...list];
    for (let i = all.length - 1; i > 0; i--) {
      const j = this.int(0, i);
      [all[i], all[j]] = [all[j]!, all[i]!];
    }
    return all;
  }
}

/** FNV-1a over the UTF-16 code units. */
function hash(text: string): number {
  let sum = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193);
  return sum >>> 0;
}
