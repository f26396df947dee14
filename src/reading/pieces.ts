/**
 * Tokens → pieces: neighbours that are one thing. A number with its unit, a size, a cable, a pair of voltages, a range, a term
 * of the trade. The longest reading at a place is the only one; where a spelling has several senses, all of them are kept,
 * and what takes the piece decides.
 */
import { isEveryday } from "./lexicon/common.ts";
import { type Sort, type Term, termAt } from "./lexicon/lexicon.ts";
import { isNumberWord, numberAt, type Read } from "./numbers.ts";
import { NOTATION_BEGINNINGS, notationRules, panelName, voltsOverPhases } from "./notations.ts";
import { PLATE_BEGINNINGS, plateRules } from "./plate.ts";
import { shareUnits } from "./lists.ts";
import { type Token, VULGAR } from "./tokens.ts";
import { inchAt, type SpokenUnit, unitAt } from "./units.ts";
import { type Side, type Winding, windingsBy } from "./windings.ts";
import { WORKED_BEGINNINGS, workedRules } from "./worked.ts";

/** A figure with its unit. `low` is the other end of a range whose higher end is taken. */
export type Figure = {
  readonly is: "quantity";
  readonly n: number;
  readonly exact?: string;
  readonly unit: SpokenUnit;
  readonly low?: number;
  /** What was added up. */
  readonly parts?: readonly number[];
  /** How it was come by, where it is not as typed: a product, a sum, a conversion. */
  readonly from?: string;
};
export type Sense =
  | Figure
  | { readonly is: "number"; readonly n: number; readonly exact?: string }
  /** A number marked as a count: `3x`, `(12)`, `x2`; the last one stands behind what it counts. */
  | { readonly is: "count"; readonly n: number; readonly isBehind?: true }
  | { readonly is: "size"; readonly size: string; readonly bare?: boolean }
  | { readonly is: "sizes"; readonly sizes: readonly string[] }
  | { readonly is: "cable"; readonly size: string; readonly wires: number }
  /** From one size to another. */
  | { readonly is: "raise"; readonly from: string; readonly to: string }
  /** Two voltages of one system, as typed: the smaller, the larger. */
  | { readonly is: "system"; readonly low: number; readonly high: number; readonly wye: boolean }
  /** Both voltages of a transformer, or one with its side. */
  | { readonly is: "windings"; readonly primary: Winding; readonly secondary: Winding }
  | { readonly is: "winding"; readonly side: Side; readonly winding: Winding }
  /** Currents of a nameplate for several voltages, lowest voltage first: `14.4/7.6-7.2`, `28-25.4/12.7`. */
  | { readonly is: "plate-currents"; readonly low: readonly number[]; readonly high: readonly number[] }
  | { readonly is: "pair"; readonly a: number; readonly b: number; readonly unit?: SpokenUnit }
  /** Blades and amperes of a receptacle. */
  | { readonly is: "pattern"; readonly blades: number; readonly amperes: number }
  /** Figures to choose from: `40 or 60 A`. */
  | { readonly is: "choice"; readonly of: readonly number[]; readonly unit: SpokenUnit }
  /** How many of several run at one time. */
  | { readonly is: "at-once"; readonly n: number }
  | { readonly is: "poles"; readonly n: number }
  /** So many raceways side by side. */
  | { readonly is: "raceways"; readonly n: number }
  | { readonly is: "letter"; readonly letter: string }
  /** Words that nothing knows, where they name what stands beside them. */
  | { readonly is: "words"; readonly words: string }
  | { readonly is: "edition"; readonly edition: string }
  | { readonly is: "section"; readonly section: string }
  | ({ readonly is: "term" } & Term)
  /** Read and of no consequence: a price, a date, a model number. */
  | { readonly is: "aside"; readonly because: string };
export type Piece = {
  readonly senses: readonly Sense[];
  /** First token, and the first after it. */
  readonly from: number;
  readonly to: number;
  /** What stands here instead of a fact. */
  readonly is: "fact" | "common" | "unknown" | "comma" | "border" | "mark";
};
export type Found = { senses: readonly Sense[]; to: number };
export type Rule = (t: readonly Token[], i: number) => Found | undefined;

const one = (sense: Sense, to: number): Found => ({ senses: [sense], to });
const text = (t: readonly Token[], i: number): string => t[i]?.text ?? "";
const isGlued = (t: readonly Token[], i: number): boolean => t[i]?.glued ?? false;
/** Number, mark, number, all touching. */
const pairAt = (t: readonly Token[], i: number, marks: string): [number, number] | undefined =>
  t[i]?.is === "number" && marks.includes(text(t, i + 1)) && text(t, i + 1) !== "" && t[i + 2]?.is === "number" &&
    (isGlued(t, i + 1) || text(t, i + 1) === "/")
    ? [t[i]!.n!, t[i + 2]!.n!]
    : undefined;

// ── conductor sizes
const GAUGES = [18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1];
const KCMIL = [250, 300, 350, 400, 500, 600, 700, 750, 800, 900, 1000, 1250, 1500, 1750, 2000];
const AUGHT: Record<string, number> = { aught: 1, ought: 1, naught: 1 };
const gauge = (n: number): boolean => GAUGES.includes(n);
const sizeName = (n: number): string => (n >= 250 ? `${n} kcmil` : String(n));
/** A size written out at token `i`: `2/0`, `6`, `250`, and where it ends. */
function sizeAt(t: readonly Token[], i: number): { size: string; to: number } | undefined {
  const naught = pairAt(t, i, "/");
  if (naught && naught[1] === 0 && naught[0] >= 1 && naught[0] <= 4) return { size: `${naught[0]}/0`, to: i + 3 };
  if (/^0{1,4}$/.test(text(t, i))) return { size: `${text(t, i).length}/0`, to: i + 1 };
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n)) return undefined;
  if (text(t, read.next) in AUGHT && read.n >= 1 && read.n <= 4) return { size: `${read.n}/0`, to: read.next + 1 };
  const metric = unitAt(t, read.next);
  // `#12 cu in steel conduit` is copper, and no volume.
  const isCopper = metric?.unit === "in3";
  if (metric && metric.unit !== "kcmil" && !isCopper) return undefined;
  if (KCMIL.includes(read.n)) return { size: sizeName(read.n), to: metric && !isCopper ? metric.next : read.next };
  return gauge(read.n) && (!metric || isCopper) ? { size: String(read.n), to: read.next } : undefined;
}
const GAUGE_WORDS = new Set(["awg", "gauge", "guage", "gage", "ga", "gauges"]);
const SIZE_BEFORE = new Set(["#", "awg", "no", "number", "num", "gauge", "size", "nr"]);
/** Words behind a bare number that make it a wire size. */
const MAKES_SIZE: readonly Sort[] = ["metal", "insulation", "method"];
const WIRE_WORDS = new Set(["wire", "wires", "conductor", "conductors", "stranded", "solid", "bare", "gauge"]);
/** `4 wire` is a count of wires. */
const FEWEST_WIRES_SIZE = 6;

const size: Rule = (t, i) => {
  const word = text(t, i);
  if (SIZE_BEFORE.has(word)) {
    const at = text(t, i + 1) === "." || text(t, i + 1) === "#" ? i + 2 : i + 1;
    const found = sizeAt(t, at);
    if (!found) return undefined;
    // `no 6 …` is a refusal as often as a number; `size 6` and `number 6` are sizes where no unit follows.
    if (word === "no" && text(t, i + 1) !== "." && text(t, i + 1) !== "#") return undefined;
    // `#14-2`, `#6/3` is a cable.
    if (cableAt(t, at)) return undefined;
    // `#12s` are several of them.
    const many = text(t, found.to) === "s" && isGlued(t, found.to) ? found.to + 1 : found.to;
    const to = GAUGE_WORDS.has(text(t, many)) ? many + 1 : many;
    return one({ is: "size", size: found.size }, kcmilEnd(t, to));
  }
  const found = sizeAt(t, i);
  if (!found) return undefined;
  if (found.size.endsWith("/0") && text(t, i) !== "0") {
    return one({ is: "size", size: found.size }, gaugeEnd(t, found.to));
  }
  const after = text(t, found.to) === "-" && isGlued(t, found.to) ? found.to + 1 : found.to;
  if (GAUGE_WORDS.has(text(t, after))) return one({ is: "size", size: found.size }, after + 1);
  if (found.to > i && text(t, found.to - 1) !== text(t, i) && /kcmil|mcm|kcm|kc/.test(text(t, found.to - 1))) {
    return one({ is: "size", size: found.size }, found.to);
  }
  // `12 THHN`, `350 AL`, `8 copper`.
  const term = termAt(t, after);
  const makes = term?.terms.some(({ sort }) => MAKES_SIZE.includes(sort)) ||
    (WIRE_WORDS.has(text(t, after)) && (Number(found.size) >= FEWEST_WIRES_SIZE || found.size.length > 2));
  if (!makes || text(t, i - 1) === "$") return undefined;
  return { senses: [{ is: "size", size: found.size, bare: true }], to: found.to };
};
const gaugeEnd = (t: readonly Token[], i: number): number =>
  GAUGE_WORDS.has(text(t, i)) || (text(t, i) === "-" && GAUGE_WORDS.has(text(t, i + 1)))
    ? (text(t, i) === "-" ? i + 2 : i + 1)
    : i;
const kcmilEnd = (t: readonly Token[], i: number): number => (unitAt(t, i)?.unit === "kcmil" ? unitAt(t, i)!.next : i);

/** `12/2`, `12-2 with ground`, `4/0-4/0-2/0`. */
function cableAt(t: readonly Token[], i: number): Found | undefined {
  const list: string[] = [];
  let at = i;
  for (;;) {
    const found = rawSize(t, at);
    if (!found) break;
    list.push(found.size);
    at = found.to;
    if (text(t, at) !== "-" || !isGlued(t, at) || !isGlued(t, at + 1)) break;
    at++;
  }
  if (list.length >= 3) return one({ is: "sizes", sizes: list }, at);
  const [first, second] = list;
  // `1/0-3`: three wires of 1/0.
  if (list.length === 2 && first!.includes("/") && /^[234]$/.test(second!)) {
    return one({ is: "cable", size: first!, wires: Number(second) }, groundEnd(t, at));
  }
  const pair = pairAt(t, i, "/-") ?? spacedCable(t, i);
  if (!pair) return undefined;
  const [gaugeOf, wires] = pair;
  if (!gauge(gaugeOf) || ![2, 3, 4].includes(wires) || gaugeOf <= wires && !(gaugeOf === 2 || gaugeOf === 4)) {
    return undefined;
  }
  const to = i + 3;
  if (text(t, to) === "/" && isGlued(t, to) && t[to + 1]?.is === "number") return undefined;
  const unit = unitAt(t, to);
  if (unit && ["hp", "in", "ton", "ft"].includes(unit.unit)) return undefined;
  // `4-4` is no cable without a word that says so; a fraction is none either.
  if (
    gaugeOf <= wires && !termAt(t, groundEnd(t, to))?.terms.some(({ sort }) => sort === "method" || sort === "metal")
  ) {
    return undefined;
  }
  return one({ is: "cable", size: String(gaugeOf), wires }, groundEnd(t, to));
}
const rawSize = (t: readonly Token[], i: number): { size: string; to: number } | undefined => {
  const naught = pairAt(t, i, "/");
  if (naught && naught[1] === 0 && naught[0] >= 1 && naught[0] <= 4) return { size: `${naught[0]}/0`, to: i + 3 };
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (gauge(n) || KCMIL.includes(n)) return { size: sizeName(n), to: i + 1 };
  return undefined;
};
/** `12 / 2`, `ten three` spoken: only with the slash. */
const spacedCable = (t: readonly Token[], i: number): [number, number] | undefined =>
  t[i]?.is === "number" && text(t, i + 1) === "/" && t[i + 2]?.is === "number" ? [t[i]!.n!, t[i + 2]!.n!] : undefined;
/** `with ground`, `w/g`, `wg`, `/g`. */
function groundEnd(t: readonly Token[], i: number): number {
  const words = [text(t, i), text(t, i + 1), text(t, i + 2)];
  const grounds = ["ground", "g", "gnd", "grnd", "grd"];
  if (words[0] === "wg" || words[0] === "wgr") return i + 1;
  if (words[0] === "w" && words[1] === "/" && grounds.includes(words[2]!)) return i + 3;
  if (
    (words[0] === "with" || words[0] === "w" || words[0] === "/" || words[0] === "+") && grounds.includes(words[1]!)
  ) return i + 2;
  return words[0] === "g" && isGlued(t, i) ? i + 1 : i;
}
const cable: Rule = (t, i) => {
  if (t[i]?.is !== "number" && text(t, i) !== "#") return undefined;
  return cableAt(t, text(t, i) === "#" ? i + 1 : i);
};
/** `4/0 4/0 2/0`, `1/0,1/0,1/0,2`: sizes of the wires of one cable; spaces and commas part them. */
const sizesInARow: Rule = (t, i) => {
  const list: string[] = [];
  let at = i;
  for (;;) {
    const naught = pairAt(t, at, "/");
    const isNaught = naught && naught[1] === 0 && naught[0] >= 1 && naught[0] <= 4;
    const n = t[at]?.is === "number" ? t[at]!.n! : NaN;
    if (!isNaught && !(list.length > 0 && (gauge(n) || KCMIL.includes(n)))) break;
    list.push(isNaught ? `${naught![0]}/0` : sizeName(n));
    at += isNaught ? 3 : 1;
    if (GAUGE_WORDS.has(text(t, at))) at++;
    if (text(t, at) === "," || text(t, at) === "/" && isGlued(t, at)) at++;
  }
  return list.length >= 3 ? one({ is: "sizes", sizes: list }, at) : undefined;
};

const RATINGS = [60, 75, 90];
/** `60/75 °C`: terminations marked for both; the higher one is what they allow. */
const ratings: Rule = (t, i) => {
  const pair = pairAt(t, i, "/");
  if (!pair || !RATINGS.includes(pair[0]) || !RATINGS.includes(pair[1])) return undefined;
  const unit = unitAt(t, i + 3);
  const isNamed = termAt(t, i + 3)?.terms.some(({ sort, id }) => sort === "label" && id === "terminals");
  if (unit?.unit !== "°C" && unit?.unit !== "°" && !isNamed) return undefined;
  return one({ is: "quantity", n: Math.max(...pair), unit: "°C" }, unit ? unit.next : i + 3);
};
/** `copper, 75s`: terminations by their temperature, in the plural; `two 75s` are so many of something. */
const ratedTerminals: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  const isMany = text(t, i + 1) === "s" && isGlued(t, i + 1);
  if (!isMany || !RATINGS.slice(1).includes(n)) return undefined;
  const isOfWire = [i - 1, i - 2].some((at) =>
    t[at] && termAt(t, at)?.terms.some(({ sort }) => MAKES_SIZE.includes(sort))
  );
  return isOfWire ? one({ is: "quantity", n, unit: "°C", from: `${n}s` }, i + 2) : undefined;
};
const TRADE_SIZES = [0.375, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6];
/** `3/4 EMT`, `1-1/4 PVC`: a raceway's trade size without its unit; `2 conduits` are two. */
const tradeSize: Rule = (t, i) => {
  const read = t[i]?.is === "number" ? numberAt(t, i) : undefined;
  if (!read || !TRADE_SIZES.includes(read.n)) return undefined;
  const raceway = termAt(t, read.next)?.terms.find(({ sort }) => sort === "raceway");
  if (!raceway || (raceway.id === "conduit" && Number.isInteger(read.n))) return undefined;
  return one({ is: "quantity", n: read.n, unit: "in" }, read.next);
};
/** A size as written beside another: with or without its sign, its unit, its metal left where it is. */
function looseSize(t: readonly Token[], i: number): { size: string; to: number; marked: boolean } | undefined {
  const found = size(t, i);
  const sense = found?.senses[0];
  if (sense?.is === "size") return { size: sense.size, to: found!.to, marked: !sense.bare };
  const raw = sizeAt(t, text(t, i) === "#" ? i + 1 : i);
  if (!raw || unitAt(t, raw.to)) return undefined;
  return { size: raw.size, to: gaugeEnd(t, raw.to), marked: raw.to - i > 1 };
}
const OR = new Set(["or", "vs", "versus"]);
/** `6 or 4 copper`, `#6 or 4?`: a bare number beside a size that it may be chosen instead of. */
const sizeToChoose: Rule = (t, i) => {
  const n = sizeAt(t, i);
  if (!n || unitAt(t, n.to)) return undefined;
  if (OR.has(text(t, n.to)) && size(t, n.to + 1)) return one({ is: "size", size: n.size, bare: true }, n.to);
  const isBehind = OR.has(text(t, i - 1)) && [2, 3, 4].some((back) => size(t, i - 1 - back)?.to === i - 1);
  return isBehind ? one({ is: "size", size: n.size, bare: true }, n.to) : undefined;
};
const ARROW = new Set(["to", "→", "into"]);
/** `3 AWG to 1 AWG`, `250 -> 350 kcmil`, `#4 up to #2`: conductors made larger. */
const raised: Rule = (t, i) => {
  const from = looseSize(t, i);
  if (!from) return undefined;
  let at = from.to;
  if (termAt(t, at)?.terms.some(({ sort }) => sort === "metal")) at = termAt(t, at)!.next;
  if (text(t, at) === "up") at++;
  if (ARROW.has(text(t, at))) at++;
  else if (["-", ">"].includes(text(t, at)) && [">", "-"].includes(text(t, at + 1)) && isGlued(t, at + 1)) at += 2;
  else return undefined;
  // `#8 to two ground rods` runs there, and is made no larger.
  const to = rods(t, at) ? undefined : looseSize(t, at);
  if (!to || !(from.marked || to.marked) || from.size === to.size) return undefined;
  return one({ is: "raise", from: from.size, to: to.size }, to.to);
};
/** `two ground rods`, `a pair of 8 ft rods`: how many there are and how long makes no difference to any figure. */
const rods: Rule = (t, i) => {
  const read = numberAt(t, i);
  const pair = text(t, i) === "a" && ["pair", "couple"].includes(text(t, i + 1)) && text(t, i + 2) === "of";
  const isCount = read && Number.isInteger(read.n) && read.n <= 10 && !unitAt(t, read.next, read.n);
  const next = pair ? i + 3 : isCount ? read.next : i;
  const long = numberAt(t, next);
  const unit = long && unitAt(t, long.next, long.n);
  const at = unit?.unit === "ft" ? unit.next + (text(t, unit.next) === "-" ? 1 : 0) : next;
  const term = at > i ? termAt(t, at) : undefined;
  const rod = term?.terms.find(({ sort, id }) => sort === "electrode" && id === "rod");
  return term && rod ? one({ is: "term", ...rod }, term.next) : undefined;
};
/** `not a motor`: what the load is said not to be. */
const notOne: Rule = (t, i) => {
  if (text(t, i) !== "not" || !["a", "an"].includes(text(t, i + 1))) return undefined;
  const term = termAt(t, i + 2);
  return term?.terms.every(({ sort }) => sort === "appliance" || sort === "machine")
    ? one({ is: "aside", because: "said to be none" }, term.next)
    : undefined;
};
/** `two PVC conduits`, `3 raceways`: the raceway, and whether it is one for all. */
const raceways: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n) || read.n < 2 || read.n > 20 || unitAt(t, read.next)) return undefined;
  // `two 2-1/2 in conduits`: their trade size makes no difference here.
  const trade = numberAt(t, read.next);
  const inches = trade && text(t, trade.next) === "in" ? trade.next + 1 : undefined;
  const at = trade && !trade.inWords ? inches ?? unitAt(t, trade.next, trade.n)?.next ?? trade.next : read.next;
  const term = termAt(t, at);
  const raceway = term?.terms.find(({ sort }) => sort === "raceway");
  if (!term || !raceway || !/s$/.test(text(t, term.next - 1))) return undefined;
  const apart: Sense = { is: "term", sort: "place", id: "apart" };
  return { senses: [apart, { is: "term", ...raceway }, { is: "raceways", n: read.n }], to: term.next };
};

// ── voltages
const SYSTEM_PAIRS: readonly (readonly [number, number, boolean])[] = [
  [120, 240, false],
  [110, 220, false],
  [115, 230, false],
  [120, 208, true],
  [277, 480, true],
  [265, 460, true],
  [347, 600, true],
  [230, 460, false],
  [240, 480, false],
  [208, 230, false],
  [115, 208, false],
  [220, 440, false],
  [200, 230, false],
  [200, 400, false],
  [220, 380, true],
  [230, 400, true],
];
const isSystem = (a: number, b: number) =>
  SYSTEM_PAIRS.find(([low, high]) => (a === low && b === high) || (a === high && b === low));
const voltsEnd = (t: readonly Token[], i: number): number => {
  const unit = unitAt(t, i);
  return unit?.unit === "V" ? unit.next : i;
};
const system: Rule = (t, i) => {
  if (t[i]?.is !== "number") return undefined;
  let at = i + 1;
  const first = t[i]!.n!;
  let wye = false;
  const y = () => {
    if (["y", "wye"].includes(text(t, at)) && isGlued(t, at)) {
      wye = true;
      at++;
    }
  };
  // `208v/120v`
  const volts = unitAt(t, at);
  if (volts?.unit === "V" && text(t, volts.next) === "/") at = volts.next;
  y();
  if (["/", "-", "x"].includes(text(t, at))) at++;
  else if (text(t, at) === "to" || text(t, at) === "or") return undefined;
  else if (!wye) return undefined;
  const second = t[at]?.is === "number" ? t[at]!.n! : undefined;
  if (second === undefined) {
    return wye && (first === 208 || first === 480) && text(t, at) !== "/"
      ? one({ is: "system", low: first === 208 ? 120 : 277, high: first, wye: true }, voltsEnd(t, at))
      : undefined;
  }
  at++;
  y();
  const found = isSystem(first, second);
  // `208-230/460`: the nameplate of a motor for three voltages.
  if (found && first < second && text(t, at) === "/" && t[at + 1]?.n === 460) {
    return one({ is: "system", low: 208, high: 460, wye: false }, voltsEnd(t, at + 2));
  }
  if (!found) return undefined;
  // `115/208-230`
  if (first === 115 && second === 208 && text(t, at) === "-" && t[at + 1]?.n === 230) {
    return one({ is: "system", low: 115, high: 208, wye: false }, voltsEnd(t, at + 2));
  }
  const [low, high, isWye] = found;
  // `460/3/60` has a third part.
  return one({ is: "system", low, high, wye: isWye || wye }, voltsEnd(t, at));
};
const LAID = new Set(["wired", "pulled", "ran", "run", "fed", "done", "roughed"]);
/** `wired it in 14`, `pulled with 12`: a gauge, behind what is done with wire. */
const laidIn: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (!["in", "with"].includes(text(t, i - 1)) || ![14, 12, 10, 8, 6, 4, 2].includes(n) || unitAt(t, i + 1)) {
    return undefined;
  }
  const isLaid = t.slice(Math.max(0, i - 6), i - 1).some(({ text: word }) => LAID.has(word));
  const ends = t[i + 1] === undefined || t[i + 1]!.is !== "word" ||
    ["and", "but", "on", "all", "or"].includes(text(t, i + 1));
  return isLaid && ends && !["/", "-"].includes(text(t, i + 1))
    ? one({ is: "size", size: String(n), bare: true }, i + 1)
    : undefined;
};
/** `230 single`, `208 three`: behind a voltage, so many phases. */
const phaseAlone: Rule = (t, i) => {
  const id = { single: "single-phase", three: "three-phase" }[text(t, i)];
  if (id === undefined || ["phase", "ph", "-", "pole", "wire", "conductor", "speed"].includes(text(t, i + 1))) {
    return undefined;
  }
  const [before, unit] = [t[i - 1], t[i - 2]];
  const volts = before?.is === "number"
    ? before.n!
    : ["v", "volt", "volts"].includes(before?.text ?? "")
    ? unit?.n ?? 0
    : 0;
  const isEnd = t[i + 1] === undefined || t[i + 1]!.is !== "word" || !numberAt(t, i + 1) && !termAt(t, i + 1);
  return volts >= 110 && volts <= 600 && isEnd ? one({ is: "term", sort: "phase", id }, i + 1) : undefined;
};
/** `P-3`, `RTU-4`, `EF-1`: the number of one of several machines. */
const tag: Rule = (t, i) => {
  const [before, dash, n] = [t[i - 1], t[i], t[i + 1]];
  if (dash?.text !== "-" || !dash.glued || n?.is !== "number" || !n.glued || !Number.isInteger(n.n) || n.n! > 99) {
    return undefined;
  }
  if (
    before?.is !== "word" || before.text.length > 4 || t[i + 2]?.glued && !["mark", "line"].includes(t[i + 2]!.is) ||
    unitAt(t, i + 2)
  ) return undefined;
  const known = termAt(t, i - 1)?.terms ?? [];
  return known.every(({ sort }) => ["appliance", "machine", "motorWord"].includes(sort))
    ? one({ is: "aside", because: "one of several" }, i + 2)
    : undefined;
};
/** `3ph 4w`, `3W` behind phases or voltages: so many wires. */
const wires: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : 0;
  if (![2, 3, 4].includes(n) || text(t, i + 1) !== "w" || !isGlued(t, i + 1)) return undefined;
  const before = t[i - 1];
  const isBehind = ["phase", "ph", "ø", "v", "volt", "volts", "wye", "delta", ","].includes(before?.text ?? "") ||
    (before?.is === "number" && before.n! >= 100);
  const id = { 2: "two-wire", 3: "three-wire", 4: "four-wire" }[n as 2 | 3 | 4];
  return isBehind ? one({ is: "term", sort: "connection", id }, i + 2) : undefined;
};
/** `460/3/60`, `208-230/1/60`: volts, phases, hertz. */
const nameplateSupply: Rule = (t, i) => {
  const volts = t[i]?.is === "number" ? t[i]!.n! : 0;
  if (volts < 100 || volts > 700) return undefined;
  let at = i + 1;
  let pair: readonly [number, number] | undefined;
  if ((text(t, at) === "-" || text(t, at) === "/") && t[at + 1]?.is === "number" && t[at + 1]!.n! >= 100) {
    pair = [volts, t[at + 1]!.n!];
    at += 2;
  }
  const unit = unitAt(t, at);
  if (unit?.unit === "V") at = unit.next;
  if (!["/", "-"].includes(text(t, at))) return undefined;
  const ph = t[at + 1]?.n;
  at += 2;
  if (ph !== 1 && ph !== 3) return undefined;
  const isNamed = text(t, at) === "ph" || text(t, at) === "phase";
  if (isNamed) at++;
  const hasHertz = ["/", "-"].includes(text(t, at)) && [50, 60].includes(t[at + 1]?.n ?? 0);
  if (!hasHertz && !isNamed) return undefined;
  if (hasHertz) at += 2;
  if (hasHertz && unitAt(t, at)?.unit === "Hz") at = unitAt(t, at)!.next;
  const phase: Sense = { is: "term", sort: "phase", id: ph === 3 ? "three-phase" : "single-phase" };
  const found = pair && isSystem(...pair);
  return {
    senses: [
      pair
        ? { is: "system", low: Math.min(...pair), high: Math.max(...pair), wye: found?.[2] ?? false }
        : { is: "quantity", n: volts, unit: "V" },
      phase,
    ],
    to: at,
  };
};
/** `3 phase`, `1ph`, `3ø`, `ph: 3`. */
const phase: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (read && [1, 2, 3].includes(read.n)) {
    const at = text(t, read.next) === "-" ? read.next + 1 : read.next;
    if (!["phase", "phases", "ph", "ø", "fases", "phs"].includes(text(t, at))) return undefined;
    const id = read.n === 3 ? "three-phase" : read.n === 1 ? "single-phase" : "two-phase";
    return one({ is: "term", sort: "phase", id }, at + 1);
  }
  if (!["phase", "phases", "ph", "ø"].includes(text(t, i))) return undefined;
  let at = i + 1;
  if ([":", "=", "-"].includes(text(t, at))) at++;
  const n = t[at]?.is === "number" ? t[at]!.n! : NaN;
  const unit = unitAt(t, at + 1);
  // `PHASE 1 HZ 60`: the unit belongs to what follows.
  if ((n !== 1 && n !== 3) || (unit && !(unit.unit === "Hz" && t[unit.next]?.is === "number"))) return undefined;
  return one({ is: "term", sort: "phase", id: n === 3 ? "three-phase" : "single-phase" }, at + 1);
};

// ── counts, dimensions, ranges, sums
const isTimes = (word: string): boolean => word === "x" || word === "*";
const EACH = new Set(["each", "ea", "apiece"]);
const PAIRS = new Set(["dual", "twin", "double", "duplex"]);
const count: Rule = (t, i) => {
  // `(12)`
  if (text(t, i) === "(" && t[i + 1]?.is === "number" && Number.isInteger(t[i + 1]!.n) && text(t, i + 2) === ")") {
    return t[i + 1]!.n! > 0 && t[i + 1]!.n! <= 1000 ? one({ is: "count", n: t[i + 1]!.n! }, i + 3) : undefined;
  }
  // `qty 3`, `qty: 3`
  const isLabel = text(t, i) === "count" && [":", "="].includes(text(t, i + 1));
  if (["qty", "quantity"].includes(text(t, i)) || isLabel) {
    const at = [":", "=", "of", "-"].includes(text(t, i + 1)) ? i + 2 : i + 1;
    return t[at]?.is === "number" ? one({ is: "count", n: t[at]!.n! }, at + 1) : undefined;
  }
  // `x2`, `x 2` behind what it counts
  const isBullet = text(t, i) === "*" && (i === 0 || t[i - 1]!.is === "line");
  if (
    !isBullet && isTimes(text(t, i)) && t[i + 1]?.is === "number" && Number.isInteger(t[i + 1]!.n) &&
    t[i + 1]!.n! <= 200
  ) {
    // `x7 a 15 kW range`: an article, and no amperes.
    const isUnit = unitAt(t, i + 2) && !(text(t, i + 2) === "a" && !isGlued(t, i + 2));
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
  const mark = text(t, read.next);
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
const dimensions: Rule = (t, i) => {
  const a = numberAt(t, i);
  if (!a) return undefined;
  const unitA = unitAt(t, a.next);
  if (unitA && unitA.unit !== "ft" && unitA.unit !== "m") return undefined;
  let at = unitA ? unitA.next : a.next;
  if (!isTimes(text(t, at)) && text(t, at) !== "by") return undefined;
  at++;
  const b = numberAt(t, at);
  if (!b) return undefined;
  const unitB = unitAt(t, b.next);
  const unit = unitB?.unit ?? unitA?.unit;
  if (unitB && unitB.unit !== "ft" && unitB.unit !== "m") return undefined;
  const isFloor = unit !== undefined || Math.min(a.n, b.n) >= LEAST_SIDE;
  if (!isFloor || Math.max(a.n, b.n) > LARGEST_SIDE) return undefined;
  const to = unitB ? unitB.next : b.next;
  const metric = unit === "m";
  return one(
    { is: "quantity", n: a.n * b.n, unit: metric ? "m2" : "ft2", from: `${a.n} × ${b.n} ${metric ? "m" : "ft"}` },
    to,
  );
};
/** The ends of a range are at most this many times apart. */
const WIDEST_RANGE = 3;
const RANGE_WORDS = new Set(["-", "to", "or", "~"]);
/** `180-200 ft`, `90 to 100 ft`: the higher end, said. Two voltages, powers of motors, devices with "or", sizes are none. */
const range: Rule = (t, i) => {
  const low = numberAt(t, i);
  if (!low) return undefined;
  const unitLow = unitAt(t, low.next, low.n);
  const at = unitLow ? unitLow.next : low.next;
  if (!RANGE_WORDS.has(text(t, at))) return undefined;
  const high = numberAt(t, at + 1);
  if (!high || low.n >= high.n || high.n > low.n * WIDEST_RANGE) return undefined;
  const unit = unitAt(t, high.next, high.n);
  if (!unit || (unitLow && unitLow.unit !== unit.unit)) return undefined;
  if (["V", "hp", "kcmil", "kVA"].includes(unit.unit)) return undefined;
  // `MCA 28 - 40 A breaker ok?`: a dash between two figures.
  if (text(t, at) === "-" && !isGlued(t, at) && unit.unit === "A") return undefined;
  if (text(t, at) === "or" && ["A", "kW", "W"].includes(unit.unit)) return undefined;
  return one({ is: "quantity", n: high.n, unit: unit.unit, low: low.n }, unit.next);
};
/** Longest sum, and longest row of labels and numbers, that is looked at in one go. */
const MOST_TERMS = 40;
const LONGEST_ROW = 16;
/** `a 40 or 60 A breaker`, `15 A or 20 A`: not a range, and not the one said last. */
const choice: Rule = (t, i) => {
  const of: number[] = [];
  let at = i;
  let hasOr = false;
  let to: number | undefined;
  while (of.length < MOST_CHOICES) {
    const read = numberAt(t, at);
    if (!read) break;
    const unit = unitAt(t, read.next, read.n);
    if (unit && unit.unit !== "A") return undefined;
    of.push(read.n);
    at = unit ? unit.next : read.next;
    if (unit && hasOr) to = at;
    if (text(t, at) !== "or" && !(text(t, at) === "," && !hasOr)) break;
    hasOr ||= text(t, at) === "or";
    at += ["a", "an", "the"].includes(text(t, at + 1)) ? 2 : 1;
  }
  // A figure that ends the list without a unit is no figure of it.
  return to !== undefined && to === at ? one({ is: "choice", of, unit: "A" }, to) : undefined;
};
const MOST_CHOICES = 6;
const OF_THEM = new Set(["of", "them", "these", "the", "will", "can", "may", "motors", "pumps", "fans", "units"]);
const RUNS = new Set(["run", "runs", "running", "operate", "operates", "operating", "on"]);
/** `only two of them run at once`. */
const atOnce: Rule = (t, i) => {
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
const sum: Rule = (t, i) => {
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
    // `4 kW + 2 ovens`, `4 kW + two 5 kW ovens`: what counts the next item is no figure of this one.
    if (!found && unit !== undefined && (numberAt(t, at) || termAt(t, at))) return undefined;
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

// ── receptacles, pairs of figures
const PATTERN_BLADES = [5, 6, 10, 14];
const PATTERN_AMPERES = [15, 20, 30, 50, 60];
/** `14-50`, `NEMA 6-20R`, `L6-30`, `TT-30`. */
const pattern: Rule = (t, i) => {
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
const plateCurrents: Rule = (t, i) => {
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
  const falls = list.every((n, k) => k === 0 || n < list[k - 1]!);
  if (list.length !== 3 || !falls || marks[0] === marks[1] || text(t, at) === "/" || text(t, at) === "-") {
    return undefined;
  }
  const unit = unitAt(t, at);
  if (unit && unit.unit !== "A") return undefined;
  const slash = marks.indexOf("/") + 1;
  return one({ is: "plate-currents", low: list.slice(0, slash), high: list.slice(slash) }, unit ? unit.next : at);
};
/** `FLA 28/14`, `200/200`, `30/20 A`: two figures of one kind. */
const pairOfFigures: Rule = (t, i) => {
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

// ── code letters, editions, sections, things of no consequence
const EDITIONS = new Set([2002, 2005, 2008, 2011, 2014, 2017, 2020, 2023, 2026]);
const CODE_WORDS = new Set(["nec", "code", "edition", "cycle", "book"]);
const edition: Rule = (t, i) => {
  let at = i;
  const before = CODE_WORDS.has(text(t, at));
  if (before) at++;
  if (["'", "(", ":"].includes(text(t, at))) at++;
  if (before && CODE_WORDS.has(text(t, at))) at++;
  const short = before || CODE_WORDS.has(text(t, at + 1)) || ["under", "per"].includes(text(t, i - 1));
  const n = t[at]?.is === "number" ? t[at]!.n! : NaN;
  const year = EDITIONS.has(n) ? n : text(t, at - 1) === "'" && EDITIONS.has(2000 + n) ? 2000 + n : undefined;
  if (year === undefined || !short) return undefined;
  let to = at + 1;
  if (text(t, to) === ")") to++;
  while (CODE_WORDS.has(text(t, to))) to++;
  return one({ is: "edition", edition: String(year) }, to);
};
const ARTICLES = [
  110,
  120,
  210,
  215,
  220,
  225,
  230,
  240,
  250,
  310,
  314,
  334,
  338,
  340,
  344,
  352,
  358,
  408,
  422,
  424,
  430,
  440,
  450,
  551,
  625,
  630,
  680,
  690,
  705,
  702,
];
const SECTION_WORDS = new Set([
  "§",
  "table",
  "section",
  "sec",
  "art",
  "article",
  "tables",
  "sections",
  "rule",
  "t",
  "nec",
]);
const section: Rule = (t, i) => {
  let at = i;
  const named = SECTION_WORDS.has(text(t, at));
  if (named) at++;
  if (text(t, at) === ".") at++;
  const n = t[at];
  if (n?.is !== "number") return undefined;
  const article = Math.floor(n.n!);
  const parted = n.text.includes(".") || (text(t, at + 1) === "-" && named && t[at + 2]?.is === "number");
  if (!(ARTICLES.includes(article) && (parted || (named && text(t, i) !== "t" && text(t, i) !== "nec")))) {
    return undefined;
  }
  let to = at + 1;
  if (text(t, to) === "-" && t[to + 1]?.is === "number") to += 2;
  while (text(t, to) === "(" && isGlued(t, to) && text(t, to + 2) === ")") to += 3;
  if (!named && unitAt(t, to)) return undefined;
  return one({ is: "section", section: n.text }, to);
};
const MONEY = new Set(["dollars", "dollar", "bucks", "usd", "grand", "cents", "€", "pesos"]);
const CLOCK = new Set(["am", "pm", "a.m.", "p.m.", "o'clock", "oclock"]);
const YEAR_BEFORE = new Set([
  "in",
  "since",
  "from",
  "built",
  "made",
  "manufactured",
  "bought",
  "rewired",
  "remodeled",
  "dated",
  "circa",
  "year",
  "vintage",
  "model",
  "installed",
  "of",
  "early",
  "late",
  "mid",
  "a",
  "the",
]);
const YEAR_AFTER = new Set([
  "house",
  "home",
  "s",
  "built",
  "build",
  "vintage",
  "era",
  "ranch",
  "model",
  "colonial",
  "cape",
  "bungalow",
  "construction",
  "wiring",
  "panel",
  "addition",
]);
/** Words with a number that name the place of the work. */
const SITES = new Set(["lot", "job", "suite", "ste", "permit", "invoice", "parcel", "tract"]);
const STREETS = new Set(
  "st street ave avenue rd road dr drive ln lane blvd boulevard ct court hwy highway pkwy parkway cir terrace".split(
    " ",
  ),
);
const TIMES = new Set([
  "years",
  "year",
  "yrs",
  "yr",
  "months",
  "month",
  "weeks",
  "week",
  "days",
  "day",
  "old",
  "times",
  "st",
  "nd",
  "rd",
  "th",
  "guys",
  "people",
  "kids",
  "feeders",
  "miles",
  "mile",
  "lbs",
  "pounds",
  "bedroom",
  "bedrooms",
  "bed",
  "bath",
  "baths",
  "bathrooms",
  "bathroom",
  "doors",
  "windows",
  "dogs",
  "trees",
  "acres",
  "burner",
  "burners",
  "questions",
  "question",
  "things",
  "acre",
  "way",
  "ways",
]);
const PEOPLE = new Set("helper apprentice son daughter boss customer partner neighbor he she grandson".split(" "));
/** `555-0157`, `extension 448`, `my helper is 19`: numbers of the story, and where they end. */
function storyEnd(t: readonly Token[], i: number, read: Read): number | undefined {
  if (t[i]!.is !== "number") return undefined;
  const phone = pairAt(t, i, "-");
  if (phone && t[i]!.text.length === 3 && t[i + 2]!.text.length === 4) return i + 3;
  if (["extension", "ext"].includes(text(t, i - 1))) return read.next;
  return text(t, i - 1) === "is" && PEOPLE.has(text(t, i - 2)) && !unitAt(t, read.next, read.n) ? read.next : undefined;
}
const CEILINGS = new Set(["ceiling", "ceilings", "headroom"]);
/** `9 ft ceilings`, `ceilings are 9 ft`: a height, and no length of anything. */
const ceiling: Rule = (t, i) => {
  const isBefore = CEILINGS.has(text(t, i));
  let at = isBefore ? i + 1 : i;
  while (isBefore && ["height", "is", "are", "at", ":"].includes(text(t, at))) at++;
  const read = numberAt(t, at);
  const unit = read && unitAt(t, read.next, read.n);
  if (!unit || !["ft", "m", "in"].includes(unit.unit)) return undefined;
  const after = text(t, unit.next) === "-" ? unit.next + 1 : unit.next;
  if (!isBefore && !CEILINGS.has(text(t, after))) return undefined;
  return one({ is: "aside", because: "a height is no floor area" }, isBefore ? unit.next : after + 1);
};
const aside: Rule = (t, i) => {
  // `S/N 40718-22`, `serial 4471`
  const serial = text(t, i) === "s" && text(t, i + 1) === "/" && text(t, i + 2) === "n"
    ? i + 3
    : ["sn", "serial"].includes(text(t, i))
    ? i + 1
    : undefined;
  if (serial !== undefined) {
    let at = [":", "#", "no", "number"].includes(text(t, serial)) ? serial + 1 : serial;
    const begin = at;
    while (
      t[at] && t[at]!.is !== "line" && (at === begin || t[at]!.glued) && (t[at]!.is !== "mark" || text(t, at) === "-")
    ) at++;
    if (at > begin && t.slice(begin, at).some(({ is }) => is === "number")) {
      return one({ is: "aside", because: "a serial number" }, at);
    }
  }
  // `panel LP-2`, `panel DP-1`: a panel's name.
  if (
    t[i]?.is === "word" && text(t, i - 1) === "panel" && text(t, i + 1) === "-" && isGlued(t, i + 1) &&
    isGlued(t, i + 2) && (t[i + 2]?.n ?? 99) < 30 && !termAt(t, i)?.terms.some(({ sort }) => sort === "device")
  ) {
    return one({ is: "aside", because: "a panel's name" }, i + 3);
  }
  if (text(t, i) === "$" && numberAt(t, i + 1)) {
    return one({ is: "aside", because: "a price" }, numberAt(t, i + 1)!.next + (text(t, i + 2) === "k" ? 1 : 0));
  }
  if (text(t, i) === "+" && text(t, i + 1) === "/" && text(t, i + 2) === "-") {
    const read = numberAt(t, i + 3);
    const unit = read && unitAt(t, read.next);
    return read ? one({ is: "aside", because: "a tolerance" }, unit ? unit.next : read.next) : undefined;
  }
  if (text(t, i) === "±") {
    const read = numberAt(t, i + 1);
    const unit = read && unitAt(t, read.next);
    return read ? one({ is: "aside", because: "a tolerance" }, unit ? unit.next : read.next) : undefined;
  }
  // `ok so …`: a beginning, and no question.
  if (["ok", "okay", "alright"].includes(text(t, i)) && (i === 0 || t[i - 1]!.is === "line")) {
    return ["so", "then", ","].includes(text(t, i + 1))
      ? one({ is: "aside", because: "a beginning" }, i + (text(t, i + 1) === "," ? 1 : 2))
      : undefined;
  }
  // `LOT 14`, `job #2231`
  if (SITES.has(text(t, i))) {
    const at = ["#", ":", "no", "number"].includes(text(t, i + 1)) ? i + 2 : i + 1;
    const isName = t[at]?.is === "number" && Number.isInteger(t[at]!.n) && !unitAt(t, at + 1, t[at]!.n);
    return isName ? one({ is: "aside", because: "where the work is" }, at + 1) : undefined;
  }
  const read = numberAt(t, i);
  if (!read) return undefined;
  const after = text(t, read.next);
  if (MONEY.has(after)) return one({ is: "aside", because: "a price" }, read.next + 1);
  const story = storyEnd(t, i, read);
  if (story !== undefined) return one({ is: "aside", because: "no figure of the calculation" }, story);
  if (
    t[i]!.is === "number" && after === ":" && isGlued(t, read.next) && t[read.next + 1]?.is === "number" &&
    isGlued(t, read.next + 1)
  ) {
    const to = read.next + 2;
    return one({ is: "aside", because: "a time of day" }, CLOCK.has(text(t, to)) ? to + 1 : to);
  }
  if (CLOCK.has(after) && (after !== "am" || read.n <= 12)) {
    return one({ is: "aside", because: "a time of day" }, read.next + 1);
  }
  // `24/7`, `24/7/365`
  if (read.n === 24 && after === "/" && t[read.next + 1]?.n === 7) {
    const isYear = text(t, read.next + 2) === "/" && t[read.next + 3]?.n === 365;
    return one({ is: "term", sort: "hours", id: "continuous" }, read.next + (isYear ? 4 : 2));
  }
  // dates
  if (
    t[i]!.is === "number" && after === "/" && t[read.next + 1]?.is === "number" && text(t, read.next + 2) === "/" &&
    t[read.next + 3]?.is === "number" && (t[read.next + 3]!.n! > 31)
  ) {
    return one({ is: "aside", because: "a date" }, read.next + 4);
  }
  // `1584 birch st`
  const mayBeHouse = t[i]!.is === "number" && Number.isInteger(read.n) && !unitAt(t, read.next, read.n);
  for (let at = read.next; mayBeHouse && at < read.next + 3 && t[at]?.is === "word"; at++) {
    if (STREETS.has(text(t, at + 1)) && !termAt(t, at) && !isEveryday(text(t, at))) {
      return one({ is: "aside", because: "an address" }, at + 2);
    }
  }
  const hyphen = after === "-" && isGlued(t, read.next) ? 1 : 0;
  if (TIMES.has(text(t, read.next + hyphen))) {
    return one({ is: "aside", because: "no figure of the calculation" }, read.next + hyphen + 1);
  }
  const isYear = t[i]!.is === "number" && !t[i]!.text.includes(",") && Number.isInteger(read.n) && read.n >= 1890 &&
    read.n <= 2035;
  if (isYear && !unitAt(t, read.next, read.n) && (YEAR_BEFORE.has(text(t, i - 1)) || YEAR_AFTER.has(after))) {
    return one({ is: "aside", because: "a year" }, after === "s" && isGlued(t, read.next) ? read.next + 1 : read.next);
  }
  return undefined;
};
/** `code letter G`, `code G`. */
const codeLetter: Rule = (t, i) => {
  if (text(t, i) !== "code" && text(t, i) !== "letter") return undefined;
  let at = i + 1;
  if (text(t, at) === "letter") at++;
  if ([":", "=", "-", "is"].includes(text(t, at))) at++;
  const letter = t[at];
  if (
    letter?.is !== "word" || letter.text.length !== 1 ||
    (letter.typed !== letter.typed.toUpperCase() && text(t, i + 1) !== "letter" &&
      (["a", "i", "e"].includes(letter.text) || t[at + 1]?.is === "word"))
  ) return undefined;
  return one({ is: "letter", letter: letter.text.toUpperCase() }, at + 1);
};

/** `2 pole`, `2p`: of a device. */
const poles: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || ![1, 2, 3].includes(read.n)) return undefined;
  const at = text(t, read.next) === "-" ? read.next + 1 : read.next;
  return ["pole", "poles", "pl"].includes(text(t, at)) ? one({ is: "poles", n: read.n }, at + 1) : undefined;
};

// ── figures
const quantity: Rule = (t, i) => {
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
function unitOf(
  t: readonly Token[],
  read: Read,
): { unit: SpokenUnit; next: number; times?: number } | undefined {
  const inch = inchAt(t, read.next, read.n);
  if (inch !== undefined) return { unit: "in", next: inch };
  const unit = unitAt(t, read.next, read.n);
  if (unit) return unit;
  // `24k btu`
  const thousands = text(t, read.next) === "k" && isGlued(t, read.next) ? unitAt(t, read.next + 1) : undefined;
  if (thousands?.unit === "BTU/h") return { ...thousands, times: 1000 };
  // `10k` is 10 kW
  if (text(t, read.next) === "k" && isGlued(t, read.next)) return { unit: "kW", next: read.next + 1 };
  return undefined;
}
/** What nameplates print before a number. */
const unitWord = (t: readonly Token[], i: number): { unit: SpokenUnit; next: number } | undefined => {
  if (t[i]?.is !== "word" || (t[i]!.text.length === 1 && t[i]!.typed === t[i]!.text)) return undefined;
  const unit = unitAt(t, i);
  return unit && ["hp", "V", "A", "rpm", "Hz", "kW", "kVA", "W"].includes(unit.unit) ? unit : undefined;
};
/**
 * `HP 10 VOLTS 460 AMPS 14`: in a row of unit and number by turns that begins with a unit and ends with a number, a number's
 * unit is the word before it. `HP 28 A` is a heat pump of 28 A.
 */
const unitFirst: Rule = (t, i) => {
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
const bareVolts: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (!SUPPLIES.includes(n) || !["on", "at"].includes(text(t, i - 1)) || t[i + 1]?.text === "/") return undefined;
  return one({ is: "quantity", n, unit: "V" }, i + 1);
};
const number: Rule = (t, i) => {
  if (text(t, i) === "unity") return one({ is: "number", n: 1 }, i + 1);
  const read = numberAt(t, i);
  if (!read) return undefined;
  return one({ is: "number", n: read.n, ...(read.exact !== undefined && { exact: read.exact }) }, read.next);
};

/** Tried at every place; the longest that reads wins, and of equals the first. */
const RULES: readonly Rule[] = [
  unitFirst,
  ...plateRules,
  ...workedRules,
  nameplateSupply,
  ...notationRules,
  aside,
  ceiling,
  edition,
  section,
  windingsBy(system),
  phase,
  phaseAlone,
  laidIn,
  tag,
  wires,
  system,
  pattern,
  cable,
  sizesInARow,
  sizeToChoose,
  raised,
  rods,
  notOne,
  raceways,
  dimensions,
  size,
  sum,
  choice,
  range,
  ratings,
  ratedTerminals,
  tradeSize,
  atOnce,
  codeLetter,
  poles,
  quantity,
  count,
  bareVolts,
  number,
  plateCurrents,
  pairOfFigures,
];

/** Abbreviations whose point ends no sentence. */
const ABBREVIATIONS = new Set(
  "sq ft in no approx max min vs temp deg amp amps hp st dr mr temp cond ckt bldg elec ea est gal cont incl misc cu al nov oct dec sept aug jan feb mar apr"
    .split(
      " ",
    ),
);
/** Words of one letter that glued behind a number belong to it; glued letters and digits that are nothing known are a model's name. */
const isSentenceEnd = (t: readonly Token[], i: number): boolean => {
  const after = t[i + 1];
  if (text(t, i) === "?" || text(t, i) === "!" || text(t, i) === ";") return true;
  if (text(t, i) !== ".") return false;
  if (!after) return true;
  if (after.glued && after.is !== "line") return false;
  const before = t[i - 1];
  // `277v.`, `90 °c.`: a unit behind its number ends a sentence like any word.
  const isUnit = before?.is === "word" && before.text.length === 1 &&
    (t[i - 2]?.is === "number" || t[i - 2]?.text === "°");
  if (isUnit) return true;
  const startsAnew = after.is === "line" || after.typed[0] !== after.typed[0]!.toLowerCase();
  return !(before && (ABBREVIATIONS.has(before.text) || (before.is === "word" && before.text.length === 1)) &&
    !startsAnew);
};

/** Whether a term stands there of which there may be one or more: `one range`, and no `new one MCA 17`. */
const countsAt = (t: readonly Token[], i: number): boolean =>
  termAt(t, i)?.terms.some(({ sort }) => sort !== "label") ?? false;

export function piecesOf(tokens: readonly Token[]): Piece[] {
  const pieces: Piece[] = [];
  let i = 0;
  while (i < tokens.length) {
    const token = tokens[i]!;
    const model = modelEnd(tokens, i);
    if (model !== undefined) {
      pieces.push({ is: "fact", senses: [{ is: "aside", because: "a model's name" }], from: i, to: model });
      i = model;
      continue;
    }
    // `range ..... 12 kW`: dots in a row lead to a figure and end nothing.
    if (token.text === "." && tokens[i + 1]?.text === ".") {
      let to = i;
      while (tokens[to]?.text === ".") to++;
      pieces.push({ is: "mark", senses: [], from: i, to });
      i = to;
      continue;
    }
    const found = token.is === "line" ? undefined : longest(tokens, i);
    if (
      found && token.text === "one" && found.to === i + 1 && !countsAt(tokens, found.to) && !numberAt(tokens, found.to)
    ) {
      // `a 24 A one`: no count, where it counts nothing.
      pieces.push({ is: "common", senses: [], from: i, to: i + 1 });
      i++;
      continue;
    }
    if (found) {
      pieces.push({ is: "fact", senses: found.senses, from: i, to: found.to });
      i = found.to;
      continue;
    }
    const is = token.is === "line" || isSentenceEnd(tokens, i)
      ? "border"
      : token.is === "mark"
      ? (token.text === "," ? "comma" : "mark")
      : isEveryday(token.text)
      ? "common"
      : "unknown";
    pieces.push({ is, senses: [], from: i, to: i + 1 });
    i++;
  }
  return shareUnits(pieces, tokens);
}

/** Breakers of which two or more are spoken of by their number: `two twenty amp circuits`. */
const PARTED = [15, 20, 30, 40, 50, 60];
/** `two twenty amp circuits` are two; `two twenty volts` and `one fifty amp` are one figure. */
function partedCount(t: readonly Token[], i: number): Found | undefined {
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

/** Marks and words, beside numbers and units, that a rule may begin with. */
const BEGINNINGS: ReadonlySet<string> = new Set([
  ...PAIRS,
  ...CEILINGS,
  ...["single", "three", "s", "sn", "serial"],
  ...["(", "$", "+", "±", "#", "-", "§"],
  ...["a", "an", "x", "*", "qty", "quantity", "count", "nema", "l", "tt", "code", "letter"],
  ...["phase", "phases", "ph", "ø", "half", "third", "quarter", "eighth"],
  ...SIZE_BEFORE,
  ...CODE_WORDS,
  ...SITES,
  ...["ok", "okay", "alright"],
  ...SECTION_WORDS,
  ...PLATE_BEGINNINGS,
  ...WORKED_BEGINNINGS,
  ...NOTATION_BEGINNINGS,
  ...["not", "minus", "negative", "unity", "primary", "secondary", "pri", "sec", "high", "low", "line", "load"],
]);
const mayBegin = (t: readonly Token[], i: number): boolean => {
  const { is, text } = t[i]!;
  return is === "number" || BEGINNINGS.has(text) || isNumberWord(text) || text in VULGAR ||
    unitWord(t, i) !== undefined ||
    // `RZ-62171`
    (is === "word" && t[i + 1]?.text === "-" && t[i + 2]?.is === "number");
};

function longest(tokens: readonly Token[], i: number): Found | undefined {
  let best = partedCount(tokens, i);
  if (best) return best;
  for (const rule of mayBegin(tokens, i) ? RULES : []) {
    const found = rule(tokens, i);
    if (found && found.to > (best?.to ?? i)) best = found;
  }
  const term = termAt(tokens, i);
  if (term && term.next > (best?.to ?? i)) {
    return { senses: term.terms.map((each) => ({ is: "term" as const, ...each })), to: term.next };
  }
  return best;
}

const MODEL_WORDS = new Set(["model", "serial", "permit", "invoice", "catalog"]);
/** `JT955`, `2475N7.5`: letters and digits in one, of which nothing is known. */
function modelEnd(t: readonly Token[], i: number): number | undefined {
  if (panelName(t, i)) return undefined;
  // `KT-98990`: a number of an order or a drawing.
  if (
    t[i]!.is === "word" && t[i]!.text.length <= 4 && text(t, i + 1) === "-" && isGlued(t, i + 1) && isGlued(t, i + 2) &&
    t[i + 2]?.is === "number" && t[i + 2]!.text.length >= 4
  ) {
    let to = i + 3;
    while (isGlued(t, to) && (t[to]!.is !== "mark" || (text(t, to) === "-" && isGlued(t, to + 1)))) to++;
    return to;
  }
  let at = i;
  let letters = 0;
  let digits = 0;
  while (
    at < t.length && (at === i || t[at]!.glued || (t[at]!.text === "-" && at > i)) &&
    (t[at]!.is === "word" || t[at]!.is === "number")
  ) {
    if (t[at]!.is === "word") letters++;
    else digits++;
    at++;
  }
  if (letters === 0 || digits === 0 || at - i < 2) return undefined;
  if (MODEL_WORDS.has(text(t, i - 1))) return at;
  // `AC24-310`: a machine's letters in front of what no figure looks like.
  const isNumbered = t[i]!.is === "word" && t[i + 1]?.is === "number" && text(t, i + 2) === "-" &&
    t[i + 3]?.is === "number" && [1, 2, 3].every((k) => isGlued(t, i + k));
  if (isNumbered && termAt(t, i)?.terms.every(({ sort }) => sort === "appliance" || sort === "machine")) {
    return i + 4;
  }
  // Known as it stands: a unit behind its number, a term with digits glued on.
  let next = i;
  while (next < at) {
    const found = longest(t, next);
    if (!found) return /^[a-z]$/.test(text(t, next)) && at - i === 2 && next > i ? undefined : at;
    if (
      found.senses.every(({ is }) => is === "number") && found.to < at && !termAt(t, found.to) &&
      !isTimes(text(t, found.to))
    ) {
      return /^(st|nd|rd|th|s)$/.test(text(t, found.to)) ? undefined : at;
    }
    next = found.to;
  }
  return undefined;
}
