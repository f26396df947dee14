/** Tokens → pieces: a wireway or gutter with its sides: `6x6 wireway`, `gutter 4 in x 4 in`, `8 by 8 trough`. */
import { numberAt } from "./numbers.ts";
import { isTimes, one, type Rule, type Sense, text } from "./sense.ts";
import type { Token } from "./tokens.ts";

type Wireway = Extract<Sense, { is: "wireway" }>;

/** What each is called, the longer names first. */
const NAMES: readonly (readonly [string, Wireway["of"]])[] = [
  ["auxiliary gutter", "auxiliary gutter"],
  ["aux gutter", "auxiliary gutter"],
  ["gutter box", "auxiliary gutter"],
  ["wiring trough", "wireway"],
  ["wire trough", "wireway"],
  ["wire way", "wireway"],
  ["wireways", "wireway"],
  ["wireway", "wireway"],
  ["gutters", "auxiliary gutter"],
  ["gutter", "auxiliary gutter"],
];
const MADE_OF: Readonly<Record<string, "metal" | "nonmetallic">> = {
  metal: "metal",
  metallic: "metal",
  steel: "metal",
  "sheet-metal": "metal",
  nonmetallic: "nonmetallic",
  plastic: "nonmetallic",
  pvc: "nonmetallic",
  fiberglass: "nonmetallic",
};
const INCHES = new Set(["in", "inch", "inches", '"', "''"]);
export const WIREWAY_BEGINNINGS: readonly string[] = [
  ...NAMES.map(([name]) => name.split(" ")[0]!),
  ...Object.keys(MADE_OF),
];

function nameAt(t: readonly Token[], i: number): { of: Wireway["of"]; to: number } | undefined {
  for (const [name, of] of NAMES) {
    const words = name.split(" ");
    if (words.every((word, k) => text(t, i + k) === word)) return { of, to: i + words.length };
  }
  return undefined;
}

/** `6x6`, `4 in by 4 in`, `6"`; the third side, its length, counts nothing. */
function sidesAt(t: readonly Token[], i: number): { sides: number[]; to: number } | undefined {
  const sides: number[] = [];
  let at = i;
  for (;;) {
    const read = t[at]?.is === "number" ? numberAt(t, at) : undefined;
    if (!read) return undefined;
    sides.push(read.n);
    const dash = text(t, read.next) === "-" ? read.next + 1 : read.next;
    at = INCHES.has(text(t, dash)) ? dash + 1 : read.next;
    if (!(isTimes(text(t, at)) || text(t, at) === "by") || sides.length === 3) return { sides, to: at };
    at++;
  }
}

const inside = ([width, height]: readonly number[]): Pick<Wireway, "width" | "height"> => ({
  width: width!,
  ...(height !== undefined && { height }),
});

export const wireway: Rule = (t, i) => {
  const before = sidesAt(t, i);
  let at = before?.to ?? i;
  const made = MADE_OF[text(t, at)];
  if (made) at++;
  const name = nameAt(t, at);
  // One side alone is a wireway's where its inches stand with it.
  if (!name || (before?.sides.length === 1 && before.to === i + 1)) return undefined;
  const told: Wireway = { is: "wireway", of: name.of, ...(made === "nonmetallic" && { nonmetallic: true as const }) };
  if (before) return one({ ...told, ...inside(before.sides) }, name.to);
  const begin = [":", "is", "of", ","].includes(text(t, name.to)) ? name.to + 1 : name.to;
  const behind = sidesAt(t, begin);
  const isTold = behind !== undefined && behind.sides.length > 1;
  return isTold ? one({ ...told, ...inside(behind.sides) }, behind.to) : one(told, name.to);
};
