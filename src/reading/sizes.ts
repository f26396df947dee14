/** Sizes of wires, cables and raceways. */
import { type Sort, termAt } from "./lexicon/lexicon.ts";
import { numberAt } from "./numbers.ts";
import { type Found, isGlued, one, pairAt, type Rule, type Sense, text } from "./sense.ts";
import { LAID } from "./supplies.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

export const GAUGES: readonly number[] = [18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1];
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
export const GAUGE_WORDS = new Set(["awg", "gauge", "guage", "gage", "ga", "gauges"]);
export const SIZE_BEFORE = new Set(["#", "awg", "no", "number", "num", "gauge", "size", "nr"]);
/** Words behind a bare number that make it a wire size. */
const MAKES_SIZE: readonly Sort[] = ["metal", "insulation", "method"];
const WIRE_WORDS = new Set(["wire", "wires", "conductor", "conductors", "stranded", "solid", "bare", "gauge"]);
const GROUND_WORDS = new Set(["ground", "egc", "grnd", "gnd"]);
/** `4 wire` is a count of wires. */
const FEWEST_WIRES_SIZE = 6;
const MANY = new Set(["many", "more"]);
export const size: Rule = (t, i) => {
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
  // `how many 12s fit`
  const areMany = text(t, found.to) === "s" && isGlued(t, found.to);
  if (areMany && MANY.has(text(t, i - 1))) return one({ is: "size", size: found.size }, found.to + 1);
  if (found.to > i && text(t, found.to - 1) !== text(t, i) && /kcmil|mcm|kcm|kc/.test(text(t, found.to - 1))) {
    return one({ is: "size", size: found.size }, found.to);
  }
  // `12 THHN`, `350 AL`, `8 copper`.
  const term = termAt(t, after);
  // `6 copper with a 10 ground`: a gauge, and no count of grounds.
  const isGround = Number(found.size) >= FEWEST_WIRES_SIZE && GROUND_WORDS.has(text(t, after));
  // `six wires in the pipe` counts them.
  const isCount = !found.size.includes("k") && ["wires", "conductors"].includes(text(t, after));
  // `2 sets of 350`
  const isOfSets = found.size.includes("k") && isBehindSets(t, i);
  const makes = isGround || isOfSets || term?.terms.some(({ sort }) => MAKES_SIZE.includes(sort)) ||
    (WIRE_WORDS.has(text(t, after)) && !isCount && (Number(found.size) >= FEWEST_WIRES_SIZE || found.size.length > 2));
  if (!makes || text(t, i - 1) === "$") return undefined;
  // `4 thhn wires`: as likely so many of them.
  const isMany = term?.terms.some(({ sort }) => sort === "insulation") && WIRES_AFTER.has(text(t, term.next));
  if (isMany && Number(found.size) < LEAST_CERTAIN) return undefined;
  // `3 romex and a switch`: none is made of that size, so many of them.
  const isNonmetallic = term?.terms.some(({ sort, id }) => sort === "method" && id === "NM cable");
  if (isNonmetallic && UNEVEN.has(found.size)) return undefined;
  // `3 romex 12-2`, `three MC whips of 12/2` are three cables.
  if (term && [0, 1, 2].some((far) => cableAt(t, term.next + far))) return undefined;
  return { senses: [{ is: "size", size: found.size, bare: true }], to: found.to };
};
const WIRES_AFTER = new Set(["wires", "conductors"]);
const LEAST_CERTAIN = 10;
const UNEVEN = new Set(["1", "3"]);
const SETS = new Set(["sets", "set", "parallel", "runs"]);
/** `two sets of`, `2 parallel`: what follows such a count is a size, if it can be one. */
function isBehindSets(t: readonly Token[], i: number): boolean {
  const at = text(t, i - 1) === "of" ? i - 2 : i - 1;
  return SETS.has(text(t, at)) && (numberAt(t, at - 1) !== undefined || text(t, at) === "parallel");
}
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
    return cableTo(t, first!, Number(second), at);
  }
  const pair = pairAt(t, i, "/-") ?? spacedCable(t, i);
  if (!pair) return undefined;
  const [gaugeOf, wires] = pair;
  if (!gauge(gaugeOf) || ![2, 3, 4].includes(wires) || gaugeOf <= wires && !(gaugeOf === 2 || gaugeOf === 4)) {
    return undefined;
  }
  // `three 14/2's`
  const isMany = text(t, i + 3) === "'" && isGlued(t, i + 3) && text(t, i + 4) === "s" && isGlued(t, i + 4);
  const to = isMany ? i + 5 : i + 3;
  if (text(t, to) === "/" && isGlued(t, to) && t[to + 1]?.is === "number") return undefined;
  const unit = unitAt(t, to);
  if (unit && ["hp", "in", "ton", "ft"].includes(unit.unit)) return undefined;
  // `4-4` is no cable without a word that says so; a fraction is none either.
  if (
    gaugeOf <= wires && !termAt(t, groundEnd(t, to))?.terms.some(({ sort }) => sort === "method" || sort === "metal")
  ) {
    return undefined;
  }
  return cableTo(t, String(gaugeOf), wires, to);
}
/** A cable whose size ends at token `at`, with the ground that is told behind it. */
function cableTo(t: readonly Token[], size: string, wires: number, at: number): Found {
  const to = groundEnd(t, at);
  return one({ is: "cable", size, wires, ...(to > at && { ground: true as const }) }, to);
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
export const cable: Rule = (t, i) => {
  if (t[i]?.is !== "number" && text(t, i) !== "#") return undefined;
  return cableAt(t, text(t, i) === "#" ? i + 1 : i);
};
/** `4/0 4/0 2/0`, `1/0,1/0,1/0,2`: sizes of the wires of one cable; spaces and commas part them. */
export const sizesInARow: Rule = (t, i) => {
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
export const ratings: Rule = (t, i) => {
  const pair = pairAt(t, i, "/");
  if (!pair || !RATINGS.includes(pair[0]) || !RATINGS.includes(pair[1])) return undefined;
  const unit = unitAt(t, i + 3);
  const isNamed = termAt(t, i + 3)?.terms.some(({ sort, id }) => sort === "label" && id === "terminals");
  if (unit?.unit !== "°C" && unit?.unit !== "°" && !isNamed) return undefined;
  return one({ is: "quantity", n: Math.max(...pair), unit: "°C" }, unit ? unit.next : i + 3);
};
/** `wire size cu 75`: what terminations are rated for, right behind the metal of a wire. */
export const degreesOfMetal: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  const isBehind = i > 0 && termAt(t, i - 1)?.terms.some(({ sort }) => sort === "metal" || sort === "insulation");
  const ends = t[i + 1] === undefined || t[i + 1]!.is !== "word" && !t[i + 1]!.glued ||
    ["and", "plus"].includes(text(t, i + 1));
  return (n === 75 || n === 90) && isBehind && ends
    ? one({ is: "quantity", n, unit: "°C", from: String(n) }, i + 1)
    : undefined;
};
/** `copper, 75s`: terminations by their temperature, in the plural; `two 75s` are so many of something. */
export const ratedTerminals: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  const isMany = text(t, i + 1) === "s" && isGlued(t, i + 1);
  if (!isMany || !RATINGS.slice(1).includes(n)) return undefined;
  const isOfWire = [i - 1, i - 2].some((at) =>
    t[at] && termAt(t, at)?.terms.some(({ sort }) => MAKES_SIZE.includes(sort))
  );
  // `90 amps with 75s`
  const isWith = text(t, i - 1) === "with" && n < 90;
  return isOfWire || isWith ? one({ is: "quantity", n, unit: "°C", from: `${n}s` }, i + 2) : undefined;
};
const TRADE_SIZES = [0.375, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6];
/** `3/4 EMT`, `1-1/4 PVC`: a raceway's trade size without its unit; `2 conduits` are two. */
export const tradeSize: Rule = (t, i) => {
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
export const sizeToChoose: Rule = (t, i) => {
  const n = sizeAt(t, i);
  if (!n || unitAt(t, n.to)) return undefined;
  if (OR.has(text(t, n.to)) && size(t, n.to + 1)) return one({ is: "size", size: n.size, bare: true }, n.to);
  const isBehind = OR.has(text(t, i - 1)) && [2, 3, 4].some((back) => size(t, i - 1 - back)?.to === i - 1);
  return isBehind ? one({ is: "size", size: n.size, bare: true }, n.to) : undefined;
};
const ARROW = new Set(["to", "→", "into"]);
/** `3 AWG to 1 AWG`, `250 -> 350 kcmil`, `#4 up to #2`: conductors made larger. */
export const raised: Rule = (t, i) => {
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
  if (!to || from.size === to.size || !(from.marked || to.marked) && !isUpsized(t, i, from, to)) return undefined;
  return one({ is: "raise", from: from.size, to: to.size }, to.to);
};
const UPSIZED = new Set(["upsized", "upsize", "upsizing", "went", "bumped", "increased", "jumped", "raised"]);
const NEAR_UPSIZED = 6;
/** `upsized a 20 A circuit from 12 to 8`: bare gauges, the second one thicker. */
const isUpsized = (t: readonly Token[], i: number, from: { size: string }, to: { size: string }): boolean => {
  const [thin, thick] = [Number(from.size), Number(to.size)];
  return text(t, i - 1) === "from" && gauge(thin) && (to.size.includes("/") || gauge(thick) && thick < thin) &&
    t.slice(Math.max(0, i - NEAR_UPSIZED), i).some(({ text }) => UPSIZED.has(text));
};
/** `two ground rods`, `a pair of 8 ft rods`: how many there are and how long makes no difference to any figure. */
export const rods: Rule = (t, i) => {
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
/** `900 feet of 14`, `250' of #6`: what a length is of. */
export const ofLength: Rule = (t, i) => {
  if (text(t, i - 1) !== "of" || t[i]?.is !== "number" || !GAUGES.includes(t[i]!.n!) || unitAt(t, i + 1, t[i]!.n)) {
    return undefined;
  }
  const isLength = [2, 3, 4].some((back) => {
    const read = i - 1 - back < 0 ? undefined : numberAt(t, i - 1 - back);
    const unit = read && unitAt(t, read.next, read.n);
    return unit?.next === i - 1 && ["ft", "m", "yd"].includes(unit.unit);
  });
  const next = t[i + 1];
  // `75 ft of 2 sets of 350`, `60 ft of 2 parallel 4/0` counts them.
  if (termAt(t, i + 1)?.terms.some(({ sort, id }) => sort === "circuit" && (id === "set" || id === "parallel"))) {
    return undefined;
  }
  return isLength && !(next?.glued && next.is !== "mark") && !["/", "-"].includes(next?.text ?? "")
    ? one({ is: "size", size: String(t[i]!.n), bare: true }, i + 1)
    : undefined;
};
const SPOKEN: Readonly<Record<string, string>> = { fourteen: "14", twelve: "12", ten: "10", eight: "8", six: "6" };
const SPOKEN_WIRES: Readonly<Record<string, number>> = { two: 2, three: 3 };
/** `six three romex`, `twelve two`: a cable as it is spoken; `ten three 5 kW heaters` counts. */
export const spokenCable: Rule = (t, i) => {
  const [size, wires] = [SPOKEN[text(t, i)], SPOKEN_WIRES[text(t, i + 1)]];
  if (size === undefined || wires === undefined) return undefined;
  const to = groundEnd(t, i + 2);
  const next = t[to];
  const isCable = next === undefined || next.is !== "word" || CABLE_WORDS.has(next.text) ||
    termAt(t, to)?.terms.some(({ sort }) => ["method", "metal", "insulation"].includes(sort));
  return isCable && next?.is !== "number" ? one({ is: "cable", size, wires }, to) : undefined;
};
const CABLE_WORDS = new Set(["wire", "cable", "in", "on", "is", "from", "to", "and", "already", "with", "for"]);
/** `120 V on 12, over 3?`: no device is rated so; `voltage drop on 10`: of a wire, and no limit. */
export const gaugeBehindOn: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  const isOfDrop = text(t, i - 2) === "drop" && gauge(n) && ["on", "with"].includes(text(t, i - 1));
  const isGauge = ([14, 12].includes(n) && text(t, i - 1) === "on" || isOfDrop) && !unitAt(t, i + 1, n);
  const ends = t[i + 1] === undefined || [",", "?", ".", ";"].includes(text(t, i + 1));
  return isGauge && ends ? one({ is: "size", size: String(t[i]!.n), bare: true }, i + 1) : undefined;
};
/** `bigger than 6 to a rod`: a gauge that runs to an electrode. */
export const gaugeToElectrode: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (!gauge(n) || text(t, i + 1) !== "to") return undefined;
  const at = ["a", "the", "my", "each"].includes(text(t, i + 2)) ? i + 3 : i + 2;
  const isElectrode = termAt(t, at)?.terms.some(({ sort }) => sort === "electrode");
  return isElectrode ? one({ is: "size", size: String(n), bare: true }, i + 1) : undefined;
};
const PULLING = new Set(["pull", "run", "use", "pulling", "running", "using"]);
/** `is 8/2 ok or do i have to pull 6`: a gauge behind what is done with wire, where a cable was told before. */
export const gaugeToPull: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  const ends = t[i + 1] === undefined || [",", "?", ".", ";", "instead"].includes(text(t, i + 1));
  if (!gauge(n) || n % 2 !== 0 || !PULLING.has(text(t, i - 1)) || !ends) return undefined;
  const isBesideWire = t.slice(0, i - 1).some((_, k) => {
    const sense = (cable(t, k) ?? size(t, k))?.senses[0];
    return sense?.is === "cable" || sense?.is === "size" && !sense.bare;
  });
  return isBesideWire ? one({ is: "size", size: String(n), bare: true }, i + 1) : undefined;
};
const BREAKERS_OF_WIRES = new Set([15, 20, 25, 30, 35, 40, 45, 50, 60, 70]);
/** `can I use 14 on a 15`: a gauge on a breaker's rating. */
export const gaugeOnRating: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  const isOn = text(t, i + 1) === "on" && ["a", "the"].includes(text(t, i + 2)) && t[i + 3]?.is === "number" &&
    BREAKERS_OF_WIRES.has(t[i + 3]!.n!);
  return gauge(n) && n % 2 === 0 && n >= 4 && isOn && t[i - 1]?.is !== "number" && t[i - 1]?.text !== "-"
    ? one({ is: "size", size: String(n), bare: true }, i + 1)
    : undefined;
};
const LAID_WORDS = new Set(["ran", "pulled", "used", "than", "installed", "laid", "run", "pull", "of"]);
/** Sizes that nothing else is numbered by. */
const PULLED = [250, 300, 350, 500, 750];
/** `ten 10s in one pipe`, `500s in aluminum`: wires by their gauge, in the plural. */
const isNumberBefore = (t: readonly Token[], i: number): boolean => {
  const read = numberAt(t, i - 1);
  return read !== undefined && Number.isInteger(read.n) && read.n > 0;
};
const LARGEST_COUNTED = 14;
export const sizesInThePlural: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (!(gauge(n) || KCMIL.includes(n)) || text(t, i + 1) !== "s" || !isGlued(t, i + 1)) return undefined;
  const at = ["in", "of"].includes(text(t, i + 2)) ? i + 3 : i + 2;
  const noun = ["a", "the", "one", "same", "that"].includes(text(t, at)) ? at + 1 : at;
  const isOfWire = [at, noun].some((each) =>
    termAt(t, each)?.terms.some(({ sort }) => ["raceway", "metal", "insulation", "method"].includes(sort))
  );
  const isAlone = PULLED.includes(n) && (t[i + 2] === undefined || t[i + 2]!.is !== "word");
  // `I ran 8s rather than 10s`
  const isPulled = gauge(n) && n % 2 === 0 && LAID_WORDS.has(text(t, i - 1));
  // `which pipe for seven 10s and three 8s`
  const isCounted = isNumberBefore(t, i) && n <= LARGEST_COUNTED &&
    t.some((_, k) => termAt(t, k)?.terms.some(({ sort }) => sort === "raceway") ?? false);
  // `3-500s and a #3 ground`
  const isDashed = KCMIL.includes(n) && text(t, i - 1) === "-" && t[i - 2]?.is === "number" &&
    t[i - 2]!.n! <= LARGEST_COUNTED;
  return isOfWire || isAlone || isPulled || isCounted || isDashed
    ? one({ is: "size", size: sizeName(n) }, i + 2)
    : undefined;
};
/** `not a motor`: what the load is said not to be. */
export const notOne: Rule = (t, i) => {
  if (text(t, i) !== "not" || !["a", "an"].includes(text(t, i + 1))) return undefined;
  const term = termAt(t, i + 2);
  return term?.terms.every(({ sort }) => sort === "appliance" || sort === "machine")
    ? one({ is: "aside", because: "said to be none" }, term.next)
    : undefined;
};
/** `two PVC conduits`, `3 raceways`: the raceway, and whether it is one for all. */
export const raceways: Rule = (t, i) => {
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
  const isSized = at > read.next && TRADE_SIZES.includes(trade?.n ?? 0);
  const many: Sense = { is: "raceways", n: read.n, ...(isSized && { inches: trade!.n }) };
  return { senses: [apart, { is: "term", ...raceway }, many], to: term.next };
};
/** `wired it in 14`, `pulled with 12`: a gauge, behind what is done with wire. */
export const laidIn: Rule = (t, i) => {
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
