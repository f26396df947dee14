/** Tokens → pieces: a demand told month by month, `jan 12 kW, feb 14, mar 11`: the highest of them is what counts. */
import { MONTHS } from "./asides.ts";
import { numberAt } from "./numbers.ts";
import { one, type Rule, text } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { type SpokenUnit, unitAt } from "./units.ts";

const UNITS: readonly SpokenUnit[] = ["kW", "W", "kVA", "VA", "A"];
const BETWEEN = new Set([",", ";", "/", "|", "and", "&", "."]);
const LEADS = new Set([":", "=", "-", "was", "is", "at", "of", "in", "for"]);
const LEAST_MONTHS = 3;

type Item = { n: number; unit?: SpokenUnit; next: number };

const powerAt = (t: readonly Token[], i: number): Item | undefined => {
  const read = numberAt(t, i);
  if (!read) return undefined;
  const unit = unitAt(t, read.next, read.n);
  return unit && UNITS.includes(unit.unit)
    ? { n: read.n, unit: unit.unit, next: unit.next }
    : unit
    ? undefined
    : { n: read.n, next: read.next };
};
const over = (t: readonly Token[], i: number, words: ReadonlySet<string>): number => {
  let at = i;
  while (words.has(text(t, at)) || (words === BETWEEN && t[at]?.is === "line")) at++;
  return at;
};
/** `jan 12 kW`, `Jan: 12`, `Jan. 2024 12 kW` */
const monthFirst = (t: readonly Token[], i: number): Item | undefined => {
  if (!MONTHS.has(text(t, i))) return undefined;
  const at = over(t, i + 1 + (text(t, i + 1) === "." ? 1 : 0), LEADS);
  return powerAt(t, at);
};
/** `12 kW in january` */
const monthLast = (t: readonly Token[], i: number): Item | undefined => {
  const power = powerAt(t, i);
  const at = power && over(t, power.next, LEADS);
  return power && MONTHS.has(text(t, at!)) ? { ...power, next: at! + 1 } : undefined;
};

/** Words that say what a list of bare figures is of. */
const OF_MONTHS = new Set(["peaks", "demands", "months", "readings"]);
const NEAR = 6;
/** `12 month peaks in kW are 7, 8, 11` */
const isListOfMonths = (t: readonly Token[], i: number): boolean => {
  const before = t.slice(Math.max(0, i - NEAR), i).map(({ text }) => text);
  return before.some((word) => OF_MONTHS.has(word)) && before.some((word) => /^month/.test(word));
};
/** The unit said once for all, before the list. */
const unitBefore = (t: readonly Token[], i: number): SpokenUnit | undefined => {
  for (let at = i - 1; at >= Math.max(0, i - NEAR); at--) {
    const unit = unitAt(t, at)?.unit;
    if (unit && UNITS.includes(unit)) return unit;
  }
  return undefined;
};

export const monthByMonth: Rule = (t, i) => {
  const form = monthFirst(t, i)
    ? monthFirst
    : monthLast(t, i)
    ? monthLast
    : isListOfMonths(t, i) && text(t, i - 1) !== ","
    ? powerAt
    : undefined;
  if (!form) return undefined;
  const items: Item[] = [];
  let at = i;
  for (let item = form(t, at); item; item = form(t, at)) {
    items.push(item);
    const next = over(t, item.next, BETWEEN);
    // A bare list goes on behind a comma only, and a sentence ends it.
    if (form === powerAt && (next === item.next || text(t, item.next) === ".")) break;
    at = next;
  }
  const units = new Set(items.flatMap(({ unit }) => unit ?? []));
  const unit = units.size === 0 ? unitBefore(t, i) : units.size === 1 ? [...units][0] : undefined;
  if (items.length < LEAST_MONTHS || unit === undefined) return undefined;
  const n = Math.max(...items.map((item) => item.n));
  return one({ is: "record", n, unit, months: items.length }, items.at(-1)!.next);
};
