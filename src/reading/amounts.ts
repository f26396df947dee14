/** Counts, floors, ranges, sums and figures in pairs. */
import type { Token } from "./tokens.ts";
import { NOMINAL_VOLTS, SERVICES } from "./families.ts";
import { termAt } from "./lexicon/lexicon.ts";
import { voltsOverPhases } from "./notations.ts";
import { numberAt } from "./numbers.ts";
import { isGlued, isTimes, one, pairAt, type Rule, text } from "./sense.ts";
import { type SpokenUnit, unitAt } from "./units.ts";

const EACH = new Set(["each", "ea", "apiece"]);
const EACH_REACH = 8;
const THERE = new Set(["in", "inside", "through", "total", "together"]);
export const PAIRS = new Set(["dual", "twin", "double", "duplex"]);
export const count: Rule = (t, i) => {
  // `(12)`
  if (text(t, i) === "(" && t[i + 1]?.is === "number" && Number.isInteger(t[i + 1]!.n) && text(t, i + 2) === ")") {
    const n = t[i + 1]!.n!;
    // `kiln (240)`: behind the name of one thing it is its voltage.
    const isVolts = NOMINAL_VOLTS.includes(n) && t[i - 1]?.is === "word" && !/s$/.test(text(t, i - 1));
    return n > 0 && n <= 1000 && !isVolts ? one({ is: "count", n }, i + 3) : undefined;
  }
  // `qty 3`, `qty: 3`
  const isLabel = text(t, i) === "count" && [":", "="].includes(text(t, i + 1));
  if (["qty", "quantity"].includes(text(t, i)) || isLabel) {
    const at = [":", "=", "of", "-"].includes(text(t, i + 1)) ? i + 2 : i + 1;
    return t[at]?.is === "number" ? one({ is: "count", n: t[at]!.n! }, at + 1) : undefined;
  }
  // `x2`, `x 2` behind what it counts
  const isBullet = text(t, i) === "*" && (i === 0 || t[i - 1]!.is === "line");
  // `15 units x 800 sq ft`: of each of them.
  const area = isTimes(text(t, i)) && /.s$/.test(text(t, i - 1)) ? numberAt(t, i + 1) : undefined;
  if (area && unitAt(t, area.next, area.n)?.unit === "ft2") {
    return one({ is: "term", sort: "share", id: "each" }, i + 1);
  }
  if (
    !isBullet && isTimes(text(t, i)) && t[i + 1]?.is === "number" && Number.isInteger(t[i + 1]!.n) &&
    t[i + 1]!.n! <= 200
  ) {
    // `x7 a 15 kW range`: an article, and no amperes.
    const isUnit = unitAt(t, i + 2) && !(text(t, i + 2) === "a" && !isGlued(t, i + 2));
    // `100 W x 20 LED wall packs`: what it counts may stand behind it as well.
    const thing = termAt(t, i + (text(t, i + 2) === "led" ? 3 : 2));
    const isBefore = thing?.terms.some(({ sort }) => sort === "machine" || sort === "appliance") &&
      /s$/.test(text(t, thing.next - 1));
    if (isBefore && !isUnit) return one({ is: "count", n: t[i + 1]!.n! }, i + 2);
    return isUnit ? undefined : one({ is: "count", n: t[i + 1]!.n!, isBehind: true }, i + 2);
  }
  // `dual compressors`, `twin 5 hp transfer pumps`
  if (PAIRS.has(text(t, i))) {
    const figure = numberAt(t, i + 1);
    const unit = figure && unitAt(t, figure.next, figure.n);
    if (!unit && text(t, i) === "duplex") return undefined;
    let at = unit?.next ?? i + 1;
    if (unit && t[at]?.is === "word" && !termAt(t, at)) at++;
    const many = termAt(t, at);
    const isMany = many?.terms.some(({ sort }) => sort === "machine" || sort === "appliance") &&
      /s$/.test(text(t, many.next - 1));
    return isMany ? one({ is: "count", n: 2 }, i + 1) : undefined;
  }
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n) || read.n < 1 || read.n > 1000) return undefined;
  if (countsItem(t, i, read)) return one({ is: "count", n: read.n }, read.next + 1);
  const mark = text(t, read.next);
  // `floods, ten of em, 150 W apiece`
  const isOfThem = mark === "of" && ["em", "'em", "them"].includes(text(t, read.next + 1));
  const isPaused = text(t, i - 1) === "," && (t[read.next + 2] === undefined || text(t, read.next + 2) === ",") ||
    THERE.has(text(t, read.next + 2));
  // `vending machines, three, 8.5 A each`
  const isBetween = text(t, i - 1) === "," && mark === "," && /.s$/.test(text(t, i - 2)) &&
    t.slice(read.next, read.next + EACH_REACH).some(({ text: word }) => EACH.has(word));
  if (isBetween && read.n > 1) return one({ is: "count", n: read.n }, read.next);
  // `200 W per pole, 14 poles`
  const isPer = [1, 2, 3, 4, 5].some((back) => text(t, i - back - 1) === "per" && `${text(t, i - back)}s` === mark);
  const isStorey = termAt(t, read.next)?.terms.some(({ sort }) => sort === "building");
  if (isPer && !isStorey) return one({ is: "count", n: read.n, isBehind: true }, read.next + 1);
  // `baseboard 4 pieces 1000 W each`
  // `14/2 two pieces`: behind a cable's wires.
  const isOfCable = t[i - 1]?.is === "number" && ["/", "-"].includes(text(t, i - 2));
  if (PIECES.has(mark) && i > 0 && (isOfCable || t[i - 1]!.is === "word" && termAt(t, i - 1))) {
    return one({ is: "count", n: read.n, isBehind: true }, read.next + 1);
  }
  if (isOfThem && isPaused && read.n > 1) return one({ is: "count", n: read.n, isBehind: true }, read.next + 2);
  // `5-plex`, `12plex`
  const plex = mark === "-" && isGlued(t, read.next) ? read.next + 1 : read.next;
  if (text(t, plex) === "plex") return one({ is: "count", n: read.n }, plex);
  // `3x 1.5 kW`, `3 x 12/2`, `6x lamps`; `28x44` is a floor.
  if (isTimes(mark)) return one({ is: "count", n: read.n }, read.next + 1);
  // `3 @ 1.5 kW`, `3 ea`, `3 pcs`
  if (mark === "@" || mark === "ea" || mark === "pcs" || mark === "pc" || mark === "nos" || mark === "ea.") {
    return mark === "@" && unitAt(t, read.next + 1) ? undefined : one({ is: "count", n: read.n }, read.next + 1);
  }
  // `motors: 4 at 2 hp each`
  if (mark === "at" || mark === "of") {
    const figure = numberAt(t, read.next + 1);
    const unit = figure && unitAt(t, figure.next, figure.n);
    if (unit && EACH.has(text(t, unit.next))) return one({ is: "count", n: read.n }, read.next + 1);
  }
  // `2- 2 ton units`
  if (
    mark === "-" && isGlued(t, read.next) && !isGlued(t, read.next + 1) && numberAt(t, read.next + 1) && read.n < 20
  ) {
    return one({ is: "count", n: read.n }, read.next + 1);
  }
  return undefined;
};
const LEAST_SIDE = 7;
const LARGEST_SIDE = 500;
/** `28x44`, `24 by 30 ft`, `28' x 44'`: a floor. */
export const dimensions: Rule = (t, i) => {
  const a = numberAt(t, i);
  if (!a) return undefined;
  const unitA = unitAt(t, a.next);
  if (unitA && unitA.unit !== "ft" && unitA.unit !== "m") return undefined;
  let at = unitA ? unitA.next : a.next;
  if (!isTimes(text(t, at)) && text(t, at) !== "by") return undefined;
  // `17x 12 kW` counts; a floor's sides stand alike: `28x44`, `24 x 30`.
  if (!unitA && isGlued(t, at) !== isGlued(t, at + 1) && isTimes(text(t, at))) return undefined;
  at++;
  const b = numberAt(t, at);
  if (!b) return undefined;
  const unitB = unitAt(t, b.next);
  const unit = unitB?.unit ?? unitA?.unit;
  if (unitB && unitB.unit !== "ft" && unitB.unit !== "m") return undefined;
  // `8 x 12 AWG`, `10 x 12 THHN`: so many conductors of that size.
  const isWire = termAt(t, b.next)?.terms.some(({ sort, id }) =>
    sort === "insulation" || (sort === "role" && id === "wire")
  );
  if (unit === undefined && isWire) return undefined;
  const isFloor = unit !== undefined || Math.min(a.n, b.n) >= LEAST_SIDE;
  if (!isFloor || Math.max(a.n, b.n) > LARGEST_SIDE) return undefined;
  const to = unitB ? unitB.next : b.next;
  const metric = unit === "m";
  return one(
    { is: "quantity", n: a.n * b.n, unit: metric ? "m2" : "ft2", from: `${a.n} × ${b.n} ${metric ? "m" : "ft"}` },
    to,
  );
};
const PIECES = new Set(["piece", "pieces", "pcs", "pc"]);
const MOST_ITEMS = 40;
/** `2 - 3 ton units 15.6 A`, at the head of an item: a dash between blanks parts how many from what they are. */
function countsItem(t: readonly Token[], i: number, read: { n: number; next: number }): boolean {
  const before = t[i - 1];
  const opens = before === undefined || before.is === "line" || [",", ":", ";", "and"].includes(before.text);
  if (!opens || t[i]!.is !== "number" || read.n > MOST_ITEMS) return false;
  if (text(t, read.next) !== "-" || isGlued(t, read.next) || isGlued(t, read.next + 1)) return false;
  const figure = numberAt(t, read.next + 1);
  const unit = figure && unitAt(t, figure.next, figure.n);
  return unit !== undefined && ["ton", "hp", "kW", "W"].includes(unit.unit);
}
/** The ends of a range are at most this many times apart. */
const WIDEST_RANGE = 3;
const RANGE_WORDS = new Set(["-", "to", "or", "~"]);
/** `180-200 ft`, `90 to 100 ft`: the higher end, said. Two voltages, powers of motors, devices with "or", sizes are none. */
export const range: Rule = (t, i) => {
  const low = numberAt(t, i);
  if (!low) return undefined;
  const unitLow = unitAt(t, low.next, low.n);
  const at = unitLow ? unitLow.next : low.next;
  if (countsItem(t, i, low)) return undefined;
  if (!RANGE_WORDS.has(text(t, at))) return undefined;
  const high = numberAt(t, at + 1);
  if (!high || low.n >= high.n || high.n > low.n * WIDEST_RANGE) return undefined;
  const unit = unitAt(t, high.next, high.n);
  if (!unit || (unitLow && unitLow.unit !== unit.unit)) return undefined;
  if (["V", "hp", "kcmil", "kVA"].includes(unit.unit)) return undefined;
  // `MCA 28 - 40 A breaker ok?`: a dash between a labelled figure and the next.
  const isLabelled = i > 0 && termAt(t, i - 1)?.terms.some(({ sort }) => sort === "label");
  if (text(t, at) === "-" && !isGlued(t, at) && unit.unit === "A" && isLabelled) return undefined;
  if (text(t, at) === "or" && ["A", "kW", "W"].includes(unit.unit)) return undefined;
  return one({ is: "quantity", n: high.n, unit: unit.unit, low: low.n }, unit.next);
};
/** Longest sum, and longest row of labels and numbers, that is looked at in one go. */
const MOST_TERMS = 40;
/** `a 40 or 60 A breaker`, `15 A or 20 A`: not a range, and not the one said last. */
export const choice: Rule = (t, i) => {
  const of: number[] = [];
  let at = i;
  let hasOr = false;
  let hasUnit = false;
  let to: number | undefined;
  while (of.length < MOST_CHOICES) {
    const read = numberAt(t, at);
    if (!read) break;
    const unit = unitAt(t, read.next, read.n);
    if (unit && unit.unit !== "A") return undefined;
    // `ac 14 A, 100 or 125?`: what has its unit ends at the comma.
    const next = unit && text(t, unit.next) === "," ? numberAt(t, unit.next + 1) : undefined;
    if (next && unitAt(t, next.next, next.n)?.unit !== "A") return undefined;
    of.push(read.n);
    at = unit ? unit.next : read.next;
    hasUnit ||= unit !== undefined;
    // `60 amps or 55?`
    const isLast = t[at] === undefined || t[at]!.is !== "word" || ["for", "on"].includes(text(t, at));
    if (hasOr && (unit || (hasUnit && isLast))) to = at;
    if (text(t, at) !== "or" && !(text(t, at) === "," && !hasOr)) break;
    hasOr ||= text(t, at) === "or";
    at += ["a", "an", "the"].includes(text(t, at + 1)) ? 2 : 1;
  }
  // `150 or 200?`, `is 100 or 150 enough`: ratings of services need no unit.
  const isOfServices = !hasUnit && hasOr && of.length > 1 && of.every((n) => SERVICES.has(n));
  if (isOfServices && (t[at] === undefined || t[at]!.is !== "word" || BEHIND_SERVICES.has(text(t, at)))) to = at;
  // A figure that ends the list without a unit is no figure of it.
  return to !== undefined && to === at ? one({ is: "choice", of, unit: "A" }, to) : undefined;
};
const MOST_CHOICES = 6;
const BEHIND_SERVICES = new Set(["enough", "ok", "okay", "service", "services", "main", "panel"]);
const OF_THEM = new Set(["of", "them", "these", "the", "will", "can", "may", "motors", "pumps", "fans", "units"]);
const RUNS = new Set(["run", "runs", "running", "operate", "operates", "operating", "on"]);
/** `only two of them run at once`. */
export const atOnce: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n)) return undefined;
  let at = read.next;
  while (OF_THEM.has(text(t, at))) at++;
  if (RUNS.has(text(t, at)) && !["at", "together"].includes(text(t, at + 1))) return undefined;
  const term = termAt(t, at) ?? (RUNS.has(text(t, at)) ? termAt(t, at + 1) : undefined);
  return term?.terms.some(({ sort, id }) => sort === "motorWord" && id === "at-once")
    ? one({ is: "at-once", n: read.n }, term.next)
    : undefined;
};
/** `1200 + 900 W`: added up; motors are listed so and never added. */
export const sum: Rule = (t, i) => {
  const open = text(t, i) === "(" ? 1 : 0;
  const terms: number[] = [];
  let at = i + open;
  let unit: SpokenUnit | undefined;
  for (;;) {
    const read = numberAt(t, at);
    if (!read) return undefined;
    terms.push(read.n);
    at = read.next;
    const found = unitAt(t, at, read.n);
    // `4 kW + 2 ovens`, `4 kW + two 5 kW ovens`, `20x 50 A + 10x 30 A`: what counts the next item is no figure of this one.
    if (!found && unit !== undefined && (numberAt(t, at) || termAt(t, at) || isTimes(text(t, at)))) return undefined;
    if (found) {
      if (unit !== undefined && unit !== found.unit) return undefined;
      unit = found.unit;
      at = found.next;
    }
    if (text(t, at) !== "+" || terms.length >= MOST_TERMS) break;
    at++;
  }
  if (open && text(t, at) === ")") at++;
  const after = unit === undefined ? unitAt(t, at) : undefined;
  if (after) {
    unit = after.unit;
    at = after.next;
  }
  if (terms.length < 2 || unit === undefined || ["hp", "V", "%", "kcmil"].includes(unit)) return undefined;
  const n = Number(terms.reduce((total, each) => total + each, 0).toFixed(6));
  return one({ is: "quantity", n, unit, parts: terms, from: `${terms.join(" + ")} ${unit}` }, at);
};
const PATTERN_BLADES = [5, 6, 10, 14];
const PATTERN_AMPERES = [15, 20, 30, 50, 60];
/** `14-50`, `NEMA 6-20R`, `L6-30`, `TT-30`. */
export const pattern: Rule = (t, i) => {
  let at = i;
  let isNamed = false;
  if (text(t, at) === "nema") {
    isNamed = true;
    at++;
  }
  if (text(t, at) === "l" && isGlued(t, at + 1)) {
    isNamed = true;
    at++;
  }
  if (text(t, at) === "tt" && text(t, at + 1) === "-" && t[at + 2]?.n === 30) {
    return one({ is: "pattern", blades: 5, amperes: 30 }, at + 3);
  }
  const pair = pairAt(t, at, "-");
  if (
    !pair || !PATTERN_AMPERES.includes(pair[1]) || !(PATTERN_BLADES.includes(pair[0]) || (isNamed && pair[0] <= 24))
  ) return undefined;
  let to = at + 3;
  if (["r", "p"].includes(text(t, to)) && isGlued(t, to)) to++;
  const unit = unitAt(t, to);
  if (!isNamed && unit) return undefined;
  return one({ is: "pattern", blades: pair[0], amperes: pair[1] }, to);
};
/** `14.4/7.6-7.2`, `28-25.4/12.7`: larger currents first, as the voltages rise. */
export const plateCurrents: Rule = (t, i) => {
  const list: number[] = [];
  const marks: string[] = [];
  let at = i;
  while (t[at]?.is === "number" && list.length < 3) {
    list.push(t[at]!.n!);
    at++;
    if (!["/", "-"].includes(text(t, at)) || list.length === 3) break;
    marks.push(text(t, at));
    at++;
  }
  // `4 - 3/0` are four of a size.
  const falls = list.every((n, k) => n > 0 && (k === 0 || n < list[k - 1]!));
  if (list.length !== 3 || !falls || marks[0] === marks[1] || text(t, at) === "/" || text(t, at) === "-") {
    return undefined;
  }
  const unit = unitAt(t, at);
  if (unit && unit.unit !== "A") return undefined;
  const slash = marks.indexOf("/") + 1;
  return one({ is: "plate-currents", low: list.slice(0, slash), high: list.slice(slash) }, unit ? unit.next : at);
};
/** `FLA 28/14`, `200/200`, `30/20 A`: two figures of one kind. */
export const pairOfFigures: Rule = (t, i) => {
  if (voltsOverPhases(t, i)) return undefined;
  const pair = pairAt(t, i, "/");
  if (!pair) {
    // `28 A / 14 A`
    const first = numberAt(t, i);
    const unitOf = first && unitAt(t, first.next, first.n);
    if (!first || unitOf?.unit !== "A" || text(t, unitOf.next) !== "/") return undefined;
    const second = numberAt(t, unitOf.next + 1);
    const unitTwo = second && unitAt(t, second.next, second.n);
    return second && unitTwo?.unit === "A"
      ? one({ is: "pair", a: first.n, b: second.n, unit: "A" }, unitTwo.next)
      : undefined;
  }
  if (pair[1] === 0) return undefined;
  const after = text(t, i + 3);
  if (after === "/" || after === "-" && isGlued(t, i + 3)) return undefined;
  const unit = unitAt(t, i + 3);
  if (unit && unit.unit !== "A") return undefined;
  return one({ is: "pair", a: pair[0], b: pair[1], ...(unit && { unit: unit.unit }) }, unit ? unit.next : i + 3);
};
