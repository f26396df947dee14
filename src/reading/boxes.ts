/** Boxes by their trade size: `4 square deep`, `4-11/16 x 2-1/8`, `3x2x2-1/2 device box`, `two-gang`, `1900 box`. */
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt } from "./numbers.ts";
import { isTimes, one, type Rule, type Sense, speaksOf, text } from "./sense.ts";
import { cable, size } from "./sizes.ts";
import type { Token } from "./tokens.ts";

type Box = Extract<Sense, { is: "box" }>;
type Shape = NonNullable<Box["shape"]>;

const SHAPES: Readonly<Record<string, Shape>> = {
  square: "square",
  squared: "square",
  sq: "square",
  octagon: "octagonal",
  octagonal: "octagonal",
  oct: "octagonal",
  octo: "octagonal",
  round: "octagonal",
  masonry: "masonry",
  fs: "FS",
  fd: "FD",
  gem: "device",
};
/** Words that are a shape only in front of `box`. */
const DEVICE_BOXES = new Set(["device", "switch"]);
const HANDY = new Set(["handy", "utility"]);
/** Words beside a box that change nothing of its size. */
const ADJECTIVES = new Set(
  "metal steel plastic blue nail on new old work remodel cut in fiberglass weatherproof outlet junction j pull ceiling standard"
    .split(" "),
);
const GANGS: Readonly<Record<string, number>> = { single: 1, double: 2, triple: 3 };
const BOX = new Set(["box", "boxes", "jbox"]);
const DEPTH_WORDS = new Set(["deep", "shallow"]);
/** What a square or octagonal box called deep or shallow measures, in inches. */
export const DEEP = "2-1/8";
const SHALLOW = "1-1/4";
const MOST_GANGS = 10;
export const BOX_BEGINNINGS: readonly string[] = [
  ...Object.keys(SHAPES),
  ...HANDY,
  ...DEVICE_BOXES,
  ...Object.keys(GANGS),
  ...DEPTH_WORDS,
  "how",
  ...["cuantos", "cuantas", "cuántos", "cuántas"],
  "most",
  "max",
  "maximum",
];
const SQUARES: Readonly<Record<string, string>> = { 4: "4", 4.6875: "4-11/16" };
const DEPTHS: Readonly<Record<string, string>> = {
  1.25: "1-1/4",
  1.5: "1-1/2",
  1.875: "1-7/8",
  2: "2",
  2.125: "2-1/8",
  2.25: "2-1/4",
  2.5: "2-1/2",
  2.75: "2-3/4",
  3.5: "3-1/2",
};
const INCHES = new Set(["in", "inch", "inches", '"', "''"]);

/** Sides joined by `x`, each with its inches or without. */
function sidesAt(t: readonly Token[], i: number): { sides: number[]; to: number } | undefined {
  const sides: number[] = [];
  let at = i;
  for (;;) {
    const read = t[at]?.is === "number" ? numberAt(t, at) : undefined;
    if (!read) return sides.length > 0 ? { sides, to: at - 1 } : undefined;
    sides.push(read.n);
    const unit = text(t, read.next) === "-" && INCHES.has(text(t, read.next + 1)) ? read.next + 1 : read.next;
    // `4 in square`; the `in` of `3 in 4 square` is none.
    const isInches = INCHES.has(text(t, unit)) && !(text(t, unit) === "in" && numberAt(t, unit + 1));
    const to = !isInches ? read.next : text(t, unit + 1) === "." && t[unit + 1]!.glued ? unit + 2 : unit + 1;
    if (!(isTimes(text(t, to)) || text(t, to) === "by") || sides.length === 3) return { sides, to };
    at = to + 1;
  }
}

/** What sides say: two alike and a depth, or a device box's. */
function boxOfSides(sides: readonly number[], shape?: Shape): Omit<Box, "is"> | undefined {
  const [a, b, c] = sides as [number, number?, number?];
  const square = SQUARES[a];
  if (c !== undefined) {
    const depth = DEPTHS[c];
    if (depth === undefined) return undefined;
    if (square && a === b) return { shape: shape ?? "square", across: square, depth };
    if ((a === 3 && b === 2) || (a === 2 && b === 3)) return { shape: "device", across: "3 x 2", depth };
    if (a === 4 && b === 2.125) return { shape: "device", across: "4 x 2-1/8", depth };
    return a === 3.75 && b === 2 ? { shape: "masonry", across: "3-3/4 x 2", depth } : undefined;
  }
  if (b === undefined) return square ? { across: square } : undefined;
  if (square && a === b) return { shape: shape ?? "square", across: square };
  if ((a === 3 && b === 2) || (a === 2 && b === 3)) return { shape: "device", across: "3 x 2" };
  if (a === 3.75 && b === 2) return { shape: "masonry", across: "3-3/4 x 2" };
  const depth = DEPTHS[b];
  if (!square || depth === undefined || !["1-1/4", "1-1/2", "2-1/8"].includes(depth)) return undefined;
  return { ...(shape ? { shape } : square === "4-11/16" ? { shape: "square" as const } : {}), across: square, depth };
}

/** `deep`, `2-1/8 deep`, `x 1-1/2`: how deep a box is, told behind it. */
function depthAt(t: readonly Token[], i: number): { depth: string; to: number } | undefined {
  const at = text(t, i) === "," ? i + 1 : isTimes(text(t, i)) || text(t, i) === "by" ? i + 1 : i;
  const read = t[at]?.is === "number" ? numberAt(t, at) : undefined;
  const depth = read && DEPTHS[read.n];
  if (!read || !depth) return undefined;
  const dash = text(t, read.next) === "-" ? read.next + 1 : read.next;
  const to = INCHES.has(text(t, dash)) ? dash + 1 : read.next;
  if (DEPTH_WORDS.has(text(t, to))) return { depth, to: to + 1 };
  // `4 square 2-1/8, three 12/2`: a mixed number behind a box, and no size of a raceway.
  const isAlone = !Number.isInteger(read.n) && !isTimes(text(t, to)) &&
    !termAt(t, to)?.terms.some(({ sort }) => sort === "raceway");
  if (isAlone) return { depth, to };
  return isTimes(text(t, i)) ? { depth, to } : undefined;
}

/** A number of gangs: `2 gang`, `single-gang`, `double gang`. */
function gangsAt(t: readonly Token[], i: number): { gangs: number; to: number } | undefined {
  const read = numberAt(t, i);
  const n = GANGS[text(t, i)] ?? (read && Number.isInteger(read.n) ? read.n : undefined);
  if (n === undefined || n < 1 || n > MOST_GANGS) return undefined;
  const next = text(t, i) in GANGS ? i + 1 : read!.next;
  const at = text(t, next) === "-" ? next + 1 : next;
  return text(t, at) === "gang" || text(t, at) === "gangs" ? { gangs: n, to: at + 1 } : undefined;
}

export const box: Rule = (t, i) => {
  const found: { -readonly [K in keyof Omit<Box, "is">]: Omit<Box, "is">[K] } = {};
  let at = i;
  let isNamed = false;
  let isDeep: "deep" | "shallow" | undefined;
  let to: number | undefined;
  if (DEPTH_WORDS.has(text(t, at))) isDeep = text(t, at++) as "deep";
  for (;;) {
    const word = text(t, at);
    const gangs = gangsAt(t, at);
    if (gangs) {
      found.gangs = gangs.gangs;
      if (found.shape === undefined) found.shape = "device";
      isNamed = true;
      to = at = gangs.to;
    } else if (word === "1900" && (isDeep || BOX.has(text(t, at + 1)) || DEPTH_WORDS.has(text(t, at + 1)))) {
      Object.assign(found, { shape: "square", across: "4", depth: "1-1/2" });
      isNamed = true;
      to = ++at;
    } else if (
      word in SHAPES && !(word === "round" && text(t, at + 1) !== "box") && !(word === "sq" && !found.across)
    ) {
      // A square foot is no box, nor is a square anything: its side or the word stands with it.
      if (SHAPES[word] === "square" && found.across === undefined && !BOX.has(text(t, at + 1))) break;
      const isShort = ["fs", "fd", "gem", "masonry", "oct"].includes(word) && !(word === "oct" && found.across);
      if (isShort && !BOX.has(text(t, at + 1))) break;
      found.shape = SHAPES[word]!;
      isNamed = true;
      to = ++at;
    } else if (HANDY.has(word) && BOX.has(text(t, at + 1))) {
      Object.assign(found, { shape: "device", across: "4 x 2-1/8" });
      isNamed = true;
      to = ++at;
    } else if (DEVICE_BOXES.has(word) && BOX.has(text(t, at + 1))) {
      found.shape ??= "device";
      isNamed = true;
      to = ++at;
    } else if (BOX.has(word)) {
      isNamed = true;
      to = ++at;
      // `octagon box 4x1-1/2`
      const begin = [":", "is", "="].includes(text(t, at)) ? at + 1 : at;
      const sides = found.across === undefined ? sidesAt(t, begin) : undefined;
      const told = sides?.sides.length === 2 ? boxOfSides(sides.sides, found.shape) : undefined;
      if (told) to = sides!.to;
      Object.assign(found, told);
      break;
    } else if (found.across === undefined && found.depth === undefined && t[at]?.is === "number") {
      const sides = sidesAt(t, at);
      const told = sides && boxOfSides(sides.sides, found.shape);
      if (!told) break;
      Object.assign(found, told);
      at = sides.to;
      // `4x4 1-1/2 box`
      const depth = found.depth === undefined && sides.sides.length === 2 && t[at]?.is === "number"
        ? numberAt(t, at)
        : undefined;
      if (depth && DEPTHS[depth.n] && (BOX.has(text(t, depth.next)) || INCHES.has(text(t, depth.next)))) {
        found.depth = DEPTHS[depth.n]!;
        at = INCHES.has(text(t, depth.next)) ? depth.next + 1 : depth.next;
      }
      // Three sides of a listed box need no word, nor do two behind its shape.
      // Of 4-11/16 none but boxes are made.
      const isLarge = found.across === "4-11/16" && found.depth !== undefined;
      if (sides.sides.length === 3 || (isNamed || isLarge) && sides.sides.length === 2) {
        isNamed = true;
        to = at;
      }
    } else if (DEPTH_WORDS.has(word) && found.across !== undefined && isAhead(t, at + 1)) {
      isDeep = word as "deep";
      at++;
    } else if (ADJECTIVES.has(word) && isAhead(t, at)) at++;
    else break;
  }
  if (!isNamed || to === undefined) return undefined;
  const tail = found.depth === undefined || found.depth === "1-1/2" ? depthAt(t, to) : undefined;
  if (tail) {
    found.depth = tail.depth;
    to = tail.to;
  } else if (DEPTH_WORDS.has(text(t, to)) && found.shape !== undefined) isDeep = text(t, to++) as "deep";
  // Of this size none are made but square ones.
  if (found.across === "4-11/16") found.shape ??= "square";
  if (isDeep && !tail && (found.shape === "square" || found.shape === "octagonal")) {
    found.depth = isDeep === "deep" ? DEEP : SHALLOW;
    found.across ??= "4";
  }
  // `4 square deep (2-1/8)`
  const beside = text(t, to) === "(" ? numberAt(t, to + 1) : undefined;
  if (beside && DEPTHS[beside.n] && text(t, beside.next) === ")") {
    found.depth = DEPTHS[beside.n]!;
    to = beside.next + 1;
  }
  if (BOX.has(text(t, to))) to++;
  return Object.keys(found).length > 0 ? one({ is: "box", ...found }, to) : undefined;
};
const OF = new Set([
  "more",
  "of",
  "pieces",
  "runs",
  "cables",
  "wires",
  "conductors",
  "romex",
  "a",
  "can",
  "i",
  "fit",
  "insulated",
]);
const RACEWAYS = new Set(["emt", "pvc", "conduit", "pipe", "nipple", "imc", "rmc", "rigid", "raceway", "ent"]);
const MOST = new Set(["most", "max", "maximum"]);
const HOW_MANY_ABROAD = new Set(["cuantos", "cuantas", "cuántos", "cuántas"]);
const WIRES = new Set(["wires", "conductors", "cables"]);
/** `how many 12/2`, `how many more #10`: so many of a size are asked for. */
export const howMany: Rule = (t, i) => {
  const isHow = text(t, i) === "how" && text(t, i + 1) === "many";
  if (HOW_MANY_ABROAD.has(text(t, i)) && size(t, i + 1) !== undefined) {
    return one({ is: "term", sort: "goal", id: "how-many" }, i + 1);
  }
  // `the most 3/0 I can get in it`
  const isMost = MOST.has(text(t, i)) && text(t, i - 1) === "the";
  if (!isHow && !isMost && !(text(t, i) === "number" && text(t, i + 1) === "of")) return undefined;
  let at = isMost ? i + 1 : i + 2;
  while (OF.has(text(t, at))) at++;
  const isSize = size(t, at) !== undefined || cable(t, at) !== undefined || (isHow && WIRES.has(text(t, i + 2)));
  // `number 8 THHN, how many at 60 %`: of the size before it.
  const isOfLast = isHow && !isSize && ["", "?", "at", "fit", "will", "can", "go", "max"].includes(text(t, at)) &&
    [1, 2, 3, 4, 5, 6].some((far) => i >= far && size(t, i - far) !== undefined) &&
    speaksOf(t, RACEWAYS);
  if (isOfLast) return one({ is: "term", sort: "goal", id: "how-many" }, i + 2);
  return isSize ? one({ is: "term", sort: "goal", id: "how-many" }, isMost ? i + 1 : i + 2) : undefined;
};
const ON_A_DEVICE = new Set(["device", "devices", "switch", "switches", "receptacle", "receptacles", "yoke"]);
/** `14 AWG on the device`: the wire whose size a device counts by. */
export const deviceWire: Rule = (t, i) => {
  const found = size(t, i);
  const sense = found?.senses[0];
  if (!found || sense?.is !== "size" || text(t, found.to) !== "on") return undefined;
  const at = text(t, found.to + 1) === "the" ? found.to + 2 : found.to + 1;
  return ON_A_DEVICE.has(text(t, at)) ? one({ is: "device-wire", size: sense.size }, at + 1) : undefined;
};
/** Whether the words that follow lead to a box. */
function isAhead(t: readonly Token[], i: number): boolean {
  for (let at = i; at < i + 4; at++) {
    const word = text(t, at);
    if (BOX.has(word) || word in SHAPES || HANDY.has(word)) return true;
    if (!ADJECTIVES.has(word) && word !== "-") return false;
  }
  return false;
}
