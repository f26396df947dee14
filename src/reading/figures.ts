/** Figures with their units, on whichever side. */
import { plateCurrents } from "./amounts.ts";
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt, type Read } from "./numbers.ts";
import { type Found, isGlued, one, pairAt, type Rule, type Sense, text } from "./sense.ts";
import { GAUGE_WORDS } from "./sizes.ts";
import { phase, system } from "./supplies.ts";
import type { Token } from "./tokens.ts";
import { inchAt, type SpokenUnit, unitAt } from "./units.ts";

const LONGEST_ROW = 16;
export const quantity: Rule = (t, i) => {
  const isMinus = (text(t, i) === "-" && !isGlued(t, i) && isGlued(t, i + 1)) ||
    ["minus", "negative"].includes(text(t, i));
  const minus = isMinus && t[i + 1]?.is === "number" ? 1 : 0;
  const read = numberAt(t, i + minus);
  if (!read) return undefined;
  const found = unitOf(t, read);
  if (minus && found?.unit !== "°C" && found?.unit !== "°F") return undefined;
  if (!found) return undefined;
  const exact = read.exact !== undefined ? { exact: read.exact } : {};
  const n = minus ? -read.n : read.n;
  const direct = found.unit === "V" && t.slice(read.next, found.next).some(({ text }) => /dc$/.test(text));
  if (direct) {
    const dc: Sense = { is: "term", sort: "phase", id: "direct current" };
    return { senses: [{ is: "quantity", n, ...exact, unit: "V" }, dc], to: found.next };
  }
  if (found.unit === "kft") return one({ is: "quantity", n: n * 1000, unit: "ft", from: `${n} kft` }, found.next);
  if (found.times) return one({ is: "quantity", n: n * found.times, unit: found.unit }, found.next);
  return one({ is: "quantity", n, ...exact, unit: found.unit }, found.next);
};
const BOX: ReadonlySet<string> = new Set(["box", "boxes", "jbox"]);
/** Ratings that gear is marked with for what it interrupts, in thousands of amperes. */
const INTERRUPTING = new Set([5, 10, 14, 18, 22, 25, 30, 35, 42, 50, 65, 85, 100, 125, 150, 200]);
const OF_GEAR = new Set([
  "panel",
  "panelboard",
  "gear",
  "switchgear",
  "switchboard",
  "breaker",
  "breakers",
  "main",
  "board",
]);
/** A word that a fault or a transformer's impedance is spoken of by. */
const isOfFault = ({ text }: Token): boolean => /^(z|imp|impedance|fault|aic|afc|infinite|series)$/.test(text);
export function unitOf(
  t: readonly Token[],
  read: Read,
): { unit: SpokenUnit; next: number; times?: number } | undefined {
  const inch = inchAt(t, read.next, read.n);
  const unit = inch !== undefined ? { unit: "in" as const, next: inch } : unitAt(t, read.next, read.n);
  // `20.3 inch box`: no box is so many eighths of an inch, and what it holds is told.
  const isVolume = unit?.unit === "in" && !Number.isInteger(read.n * 8) && BOX.has(text(t, unit.next));
  if (unit) return isVolume ? { ...unit, unit: "in3" } : unit;
  // `24k btu`, `40k sq ft`
  const thousands = text(t, read.next) === "k" && isGlued(t, read.next) ? unitAt(t, read.next + 1) : undefined;
  if (thousands && ["BTU/h", "ft2", "VA"].includes(thousands.unit)) return { ...thousands, times: 1000 };
  // `10k` is 10 kW
  if (text(t, read.next) === "k" && isGlued(t, read.next)) {
    // `is a 14k panel ok`, beside an impedance: what it can interrupt.
    const isInterrupting = INTERRUPTING.has(read.n) && OF_GEAR.has(text(t, read.next + 1)) && t.some(isOfFault);
    return { unit: isInterrupting ? "kA" : "kW", next: read.next + 1 };
  }
  return undefined;
}
/** What nameplates print before a number. */
export const unitWord = (t: readonly Token[], i: number): { unit: SpokenUnit; next: number } | undefined => {
  if (t[i]?.is !== "word" || (t[i]!.text.length === 1 && t[i]!.typed === t[i]!.text)) return undefined;
  const unit = unitAt(t, i);
  return unit && ["hp", "V", "A", "rpm", "Hz", "kW", "kVA", "W"].includes(unit.unit) ? unit : undefined;
};
/**
 * `HP 10 VOLTS 460 AMPS 14`: in a row of unit and number by turns that begins with a unit and ends with a number, a number's
 * unit is the word before it. `HP 28 A` is a heat pump of 28 A.
 */
export const unitFirst: Rule = (t, i) => {
  const first = unitWord(t, i);
  if (!first) return undefined;
  const skip = (at: number): number => [":", "=", "is"].includes(text(t, at)) ? at + 1 : at;
  let at = skip(first.next);
  const n = numberAt(t, at);
  // `on a 1-ph service`: the number is of its phases.
  if (!n || n.inWords || phase(t, at)) return undefined;
  // `A 7-1/2 hp motor`, `A 2 GAUGE WIRE`: an article.
  const pair = n.next === at + 1 ? pairAt(t, at, "/-") : undefined;
  const opens = i === 0 || t[i - 1]!.is === "line" || [".", "?", "!"].includes(text(t, i - 1));
  if (GAUGE_WORDS.has(text(t, n.next)) || (t[i]!.text === "a" && opens && text(t, n.next) === ",")) return undefined;
  at = pair ? at + 3 : n.next;
  const end = at;
  // `derated amps: 9 conductors`: it counts what stands behind.
  const counted = termAt(t, end);
  const isCount = counted?.terms.some(({ sort }) => sort === "role" || sort === "circuit") &&
    /s$/.test(text(t, counted.next - 1));
  if (isCount) return undefined;
  // `HP: 75 hp`, `Volts 460 V`: the unit twice.
  const again = unitAt(t, end, n.n);
  if (again && again.unit === first.unit && !pair && !numberAt(t, skip(again.next))) {
    return one(
      { is: "quantity", n: n.n, ...(n.exact !== undefined && { exact: n.exact }), unit: first.unit },
      again.next,
    );
  }
  for (let pairs = 0; pairs < LONGEST_ROW; pairs++) {
    const comma = text(t, at) === "," ? at + 1 : at;
    const unit = unitWord(t, comma);
    if (!unit) break;
    const next = numberAt(t, skip(unit.next));
    // The row ends with a unit: its units stand behind their numbers.
    if (!next) return undefined;
    at = pairAt(t, skip(unit.next), "/-") ? skip(unit.next) + 3 : next.next;
    // `A 7.5 hp 460 V 3 phase motor`
    if (phase(t, skip(unit.next))) return undefined;
  }
  const after = unitAt(t, end, n.n);
  if (after && !unitWord(t, end)) return undefined;
  if (pair) {
    if (first.unit === "A") {
      return plateCurrents(t, skip(first.next)) ?? one({ is: "pair", a: pair[0], b: pair[1], unit: "A" }, end);
    }
    const found = first.unit === "V" ? system(t, skip(first.next)) : undefined;
    return found;
  }
  if (first.unit === "V" && n.n < 12) return undefined;
  return one({ is: "quantity", n: n.n, ...(n.exact !== undefined && { exact: n.exact }), unit: first.unit }, end);
};
const SUPPLIES = [110, 115, 120, 208, 220, 230, 240, 277, 480];
/** `on 220`, `at 208 three phase`: a nominal voltage without its unit. */
export const bareVolts: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (!SUPPLIES.includes(n) || !["on", "at"].includes(text(t, i - 1)) || t[i + 1]?.text === "/") return undefined;
  return one({ is: "quantity", n, unit: "V" }, i + 1);
};
const FEET = new Set(["foot", "ft", "lf"]);
/** `250 W per foot`: what a foot has, and no load by itself. */
export const perFoot: Rule = (t, i) => {
  const read = numberAt(t, i);
  const unit = read && unitAt(t, read.next, read.n);
  if (!read || (unit?.unit !== "W" && unit?.unit !== "VA") || !["per", "a", "/"].includes(text(t, unit.next))) {
    return undefined;
  }
  const at = ["linear", "lineal", "running"].includes(text(t, unit.next + 1)) ? unit.next + 2 : unit.next + 1;
  return FEET.has(text(t, at)) && text(t, at + 1) !== "2"
    ? one({ is: "words", words: "so much a foot" }, at + 1)
    : undefined;
};
export const number: Rule = (t, i) => {
  if (text(t, i) === "unity") return one({ is: "number", n: 1 }, i + 1);
  const read = numberAt(t, i);
  if (!read) return undefined;
  return one({ is: "number", n: read.n, ...(read.exact !== undefined && { exact: read.exact }) }, read.next);
};
/** Breakers of which two or more are spoken of by their number: `two twenty amp circuits`. */
const PARTED = [15, 20, 30, 40, 50, 60];
/** `two twenty amp circuits` are two; `two twenty volts` and `one fifty amp` are one figure. */
export function partedCount(t: readonly Token[], i: number): Found | undefined {
  const read = numberAt(t, i);
  if (!read?.parts) return undefined;
  // `two fifties`
  if (text(t, read.next) === "s" && isGlued(t, read.next)) {
    return one({ is: "count", n: read.parts.first }, read.parts.at);
  }
  const unit = unitOf(t, read);
  // `one ten-kW range`: powers of appliances are small.
  if (unit && ["kW", "hp", "ton"].includes(unit.unit) && read.n > 100 && unit.unit !== "hp") {
    return one({ is: "count", n: read.parts.first }, read.parts.at);
  }
  // `two fifty horsepower motors`
  const isPlural = unit?.unit === "hp" && termAt(t, unit.next)?.terms.some(({ sort }) => sort === "machine");
  if (isPlural && /s$/.test(text(t, termAt(t, unit.next)!.next - 1))) {
    return one({ is: "count", n: read.parts.first }, read.parts.at);
  }
  if (read.parts.first < 2 || !PARTED.includes(read.parts.second)) return undefined;
  if (unit?.unit !== "A") return undefined;
  // `a two twenty amp load` is one of 220 A.
  const term = termAt(t, unit.next);
  if (term && !/s$/.test(text(t, term.next - 1))) return undefined;
  return one({ is: "count", n: read.parts.first }, read.parts.at);
}
