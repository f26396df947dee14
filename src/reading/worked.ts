/** Somebody's own working, pasted in: products, sums and totals are set aside, for the load is worked out here. */
import { numberAt } from "./numbers.ts";
import type { Rule } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

const OPERATORS = new Set(["+", "-", "x", "*", "×", "/", "of", "@", "at"]);
const TIMES = new Set(["x", "*", "×", "@"]);
const TOTALS = new Set(["total", "subtotal", "sum"]);
/** What a rule of this file may begin with, beside a number. */
export const WORKED_BEGINNINGS: readonly string[] = [...TIMES, ...TOTALS, "=", "("];
/** Longer workings are looked at no further: each begins a search of its own. */
const MOST_STEPS = 20;
/** Bare totals below are counts of something. */
const LEAST_TOTAL = 1000;

const text = (t: readonly Token[], i: number): string => t[i]?.text ?? "";
const aside = (to: number) =>
  ({ senses: [{ is: "aside", because: "somebody's own working: worked out here" }], to }) as const;

/** A number with its unit or percent sign, or one in brackets. */
function termEnd(t: readonly Token[], i: number): number | undefined {
  const read = numberAt(t, i);
  if (!read || read.inWords) return undefined;
  const end = text(t, read.next) === "%" ? read.next + 1 : unitAt(t, read.next, read.n)?.next ?? read.next;
  return text(t, end) === ")" ? end + 1 : end;
}
/** Where `= 18800 VA` ends. */
const resultEnd = (t: readonly Token[], i: number): number | undefined =>
  text(t, i) === "=" ? termEnd(t, i + 1) : undefined;
const open = (t: readonly Token[], i: number): number => text(t, i) === "(" ? i + 1 : i;

/** `10000 + 40% of 22000 = 18800 VA`: several steps with their result. `2 x 1500 = 3000` is a count of something. */
const equation: Rule = (t, i) => {
  let at = termEnd(t, open(t, i));
  let steps = 0;
  let isShare = false;
  while (at !== undefined && OPERATORS.has(text(t, at)) && steps < MOST_STEPS) {
    isShare ||= text(t, at - 1) === "%" || text(t, at) === "of";
    at = termEnd(t, open(t, at + 1));
    steps++;
  }
  if (at === undefined || steps === 0 || !(isShare || steps > 1)) return undefined;
  const to = resultEnd(t, at);
  return to === undefined ? undefined : aside(to);
};
/** `2000 sq ft x 3 = 6000`: behind an area, the load of each square foot. */
const ofArea: Rule = (t, i) => {
  if (!TIMES.has(text(t, i))) return undefined;
  const before = [1, 2, 3, 4].find((back) => {
    const read = i - back >= 0 ? numberAt(t, i - back) : undefined;
    const unit = read && unitAt(t, read.next, read.n);
    return unit?.next === i && (unit.unit === "ft2" || unit.unit === "m2");
  });
  const end = before === undefined ? undefined : termEnd(t, i + 1);
  const to = end === undefined ? undefined : resultEnd(t, end);
  return to === undefined ? undefined : aside(to);
};
/** `2 x 1500 = 3000`: what it comes to, where it does. */
const product: Rule = (t, i) => {
  const result = text(t, i) === "=" ? numberAt(t, i + 1) : undefined;
  const [b, times, a] = [t[i - 1], text(t, i - 2), t[i - 3]];
  if (!result || !TIMES.has(times) || a?.is !== "number" || b?.is !== "number" || a.n! * b.n! !== result.n) {
    return undefined;
  }
  return aside(termEnd(t, i + 1)!);
};
/** `total 32000` on a line of its own. */
const total: Rule = (t, i) => {
  if (!TOTALS.has(text(t, i)) || (i > 0 && t[i - 1]!.is !== "line")) return undefined;
  const at = [":", "="].includes(text(t, i + 1)) ? i + 2 : i + 1;
  const read = numberAt(t, at);
  const isAlone = read && (t[read.next] === undefined || t[read.next]!.is === "line");
  return isAlone && read.n >= LEAST_TOTAL ? aside(read.next) : undefined;
};

export const workedRules: readonly Rule[] = [equation, ofArea, product, total];
