/**
 * A conductor's size, a value of its own: it says itself what it is, `4 AWG`, `2/0 AWG`, `250 kcmil`. In JSON, of a request as
 * of an answer, a gauge is its digits alone.
 */
export class ConductorSize {
  static readonly #made = new Map<string, ConductorSize>();

  private constructor(readonly name: string) {}

  /**
   * The size of a name, `4`, `2/0`, `250 kcmil`: one object for each, so that sizes are compared by `===`.
   * @throws TypeError when it names none
   */
  static of(name: string): ConductorSize {
    const made = ConductorSize.#made.get(name);
    if (made) return made;
    if (!isGauge(name) && !/^\d{3,4} kcmil$/.test(name)) throw new TypeError(`"${name}" is no conductor size`);
    const size = new ConductorSize(name);
    ConductorSize.#made.set(name, size);
    return size;
  }

  toString(): string {
    return isGauge(this.name) ? `${this.name} AWG` : this.name;
  }

  toJSON(): string {
    return this.name;
  }
}

/** Whether a word of a stored answer is a gauge, whose digits stand alone there. */
export const isGauge = (word: string): boolean => /^(\d{1,2}|[1-4]\/0)$/.test(word);
