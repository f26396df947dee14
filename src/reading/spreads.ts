/** Tokens → pieces: how many of something lie between which two of three phases. */
import { numberAt } from "./numbers.ts";
import { one, type Rule, text } from "./sense.ts";

/** The pairs of phases, in their order: A-B, B-C, C-A; by letters and by numbers. */
const PAIRS: Readonly<Record<string, 0 | 1 | 2>> = {
  ab: 0,
  ba: 0,
  bc: 1,
  cb: 1,
  ca: 2,
  ac: 2,
};
const BEFORE = new Set(["on", "between", "across", "over", "at"]);
const PHASES = new Set(["phase", "phases", "line", "lines", "leg", "legs"]);
const JOINED = new Set(["-", "/", "&", "and", "to"]);

/** `6 on A-C`, `8 between phases B and C`, `4 on AB`: so many between these two phases. */
const onPair: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n)) return undefined;
  let at = read.next;
  while (["of", "them", "are", "is", "each"].includes(text(t, at))) at++;
  if (!BEFORE.has(text(t, at))) return undefined;
  at++;
  if (PHASES.has(text(t, at))) at++;
  const both = PAIRS[text(t, at)];
  if (both !== undefined) return one({ is: "spread", n: read.n, pair: both }, at + 1);
  if (!JOINED.has(text(t, at + 1))) return undefined;
  const second = PHASES.has(text(t, at + 2)) ? at + 3 : at + 2;
  const pair = PAIRS[text(t, at) + text(t, second)];
  return pair === undefined ? undefined : one({ is: "spread", n: read.n, pair }, second + 1);
};

const EACH: readonly (readonly string[])[] = [
  ["per", "pair", "of", "phases"],
  ["per", "phase", "pair"],
  ["per", "pair"],
  ["between", "each", "two", "phases"],
  ["between", "each", "pair", "of", "phases"],
  ["between", "any", "two", "phases"],
  ["on", "each", "pair", "of", "phases"],
  ["on", "each", "phase", "pair"],
  ["on", "each", "pair"],
  ["to", "each", "pair", "of", "phases"],
];
/** `4 per pair of phases`: so many between each two. */
const onEach: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n)) return undefined;
  const words = EACH.find((each) => each.every((word, k) => text(t, read.next + k) === word));
  return words && one({ is: "spread", n: read.n, pair: "each" }, read.next + words.length);
};

export const spreadRules: readonly Rule[] = [onPair, onEach];
