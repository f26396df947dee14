/**
 * Figures that a question took and that are nowhere in the request it made of them. A figure with an effect stands in the request
 * as it was told, or in a sum or product with another one that was told; one without an effect is set aside, with the reason.
 */
import type { Value } from "./facts.ts";
import type { Taken } from "./take.ts";

/** So many digits in which figures agree that are the same: a sum of decimals is none exactly. */
const DIGITS = 9;
const alike = (n: number): string => String(Number(n.toPrecision(DIGITS)));
/** As told, in percent as a fraction, in thousands, and the higher voltage of a system of which the lower was told. */
const FACTORS = [1, 1 / 100, 1000, 2, Math.sqrt(3)];

type Told = { readonly value: Value; readonly as: string; readonly n: number };

/** The figures that were taken and are in no way in the request. */
export function lostOf({ draft, taken, aside, notes, asks }: Taken): Value[] {
  // What is asked about will be told.
  if (asks.length > 0) return [];
  const told = [...taken].flatMap(([what, as]): Told[] => {
    if (!("sense" in what) || what.pieces.length === 0 || aside.has(what)) return [];
    const { sense } = what;
    return sense.is === "quantity" || sense.is === "number" || sense.is === "count"
      ? [{ value: what, as, n: sense.n }]
      : [];
  });
  const sizes = new Set(wordsIn(draft));
  const lostSizes = [...taken].flatMap(([what]) =>
    "sense" in what && what.pieces.length > 0 && !aside.has(what) && sizesOf(what).some((size) => !sizes.has(size))
      ? [what]
      : []
  );
  const kept = new Set([...numbersIn(draft), ...notes.flatMap(numbersIn)].map(alike));
  const isKept = (n: number): boolean => kept.has(alike(n));
  const counts = countsIn(draft);
  const lost = told.filter(({ value, as, n }) => {
    if (n === 1 || FACTORS.some((factor) => isKept(n * factor))) return false;
    if (as === "count" && counts.has(n)) return false;
    const others = told.filter((other) => other.value !== value);
    const sum = others.filter((other) => other.as === as).reduce((total, other) => total + other.n, n);
    // `3 % of 480 V (14.4 V)`: told twice over.
    const isIn = (other: Told) => isKept(n * other.n) || isKept(n * other.n / 100) || isKept(n + other.n);
    return !isKept(sum) && !others.some(isIn);
  });
  return [...lost.map(({ value }) => value), ...lostSizes];
}

/** The conductor sizes that a value tells. */
const sizesOf = ({ sense }: Value): readonly string[] =>
  sense.is === "size" || sense.is === "cable" ? [sense.size] : sense.is === "sizes" ? sense.sizes : [];
const wordsIn = (what: unknown): string[] =>
  typeof what === "string" ? [what] : what && typeof what === "object" ? Object.values(what).flatMap(wordsIn) : [];

/** Every number that stands in a request or a note, also within words. */
function numbersIn(what: unknown): number[] {
  if (typeof what === "number") return [what];
  if (typeof what === "string") {
    // `1-1/4` is one number.
    return [...what.matchAll(/(?:(\d+)-)?(\d+(?:\.\d+)?)(?:\/(\d+))?/g)].flatMap(([, whole, a, b]) => {
      const part = b === undefined ? [Number(a)] : [Number(a), Number(b), Number(a) / Number(b)];
      return whole === undefined ? part : [Number(whole), ...part, Number(whole) + part.at(-1)!];
    });
  }
  return what && typeof what === "object" ? Object.values(what).flatMap(numbersIn) : [];
}

/** Of each list how many it holds, and what its counts add up to: `three motors: 20, 10 and 5 hp`. */
function countsIn(what: unknown): Set<number> {
  const counts = new Set<number>();
  const walk = (each: unknown): void => {
    if (!each || typeof each !== "object") return;
    if (Array.isArray(each)) {
      counts.add(each.length);
      counts.add(each.reduce((sum: number, item) => sum + Number((item as { count?: number })?.count ?? 1), 0));
    }
    Object.values(each).forEach(walk);
  };
  walk(what);
  return counts;
}
