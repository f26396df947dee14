/** Values that a text takes back: the wrong one is set aside, the right one stands where it belongs. */
import { HEADS } from "./families.ts";
import type { Sort } from "./lexicon/lexicon.ts";
import { type Piece, type Sense, TAKEN_BACK } from "./sense.ts";
import type { Token } from "./tokens.ts";

const NO = new Set(["no", "nope", "wait", "sorry", "oops"]);
/** Words that take a value back only where they open: `40. Wrong, 50`. */
const JUDGING = new Set(["wrong", "mistake"]);
const ITS = new Set(["its", "it's", "it", "theyre", "they're", "thats", "that's"]);
/** How much larger or smaller the right figure may be. */
const SLIGHT = 1.6;
/** How far the value that is taken back stands before the word that does it, and the right one behind. */
const NEAR = 6;
const classOf = (sense: Sense): string | undefined =>
  sense.is === "quantity"
    ? sense.unit
    : sense.is === "number"
    ? "number"
    : sense.is === "term"
    ? sense.sort as Sort
    : sense.is;
const NOT_TAKEN_BACK: ReadonlySet<string> = new Set([
  "goal",
  "change",
  "label",
  "role",
  "device",
  "aside",
  "section",
  "edition",
  "circuit",
  "end",
]);

/** `range 12 kW, no dryer`: what is named after a bare "no" is not there, and takes nothing back. */
const isThing = (sense: Sense): boolean => sense.is === "term" && HEADS[sense.sort] !== undefined;

export const isPower = (s: Sense): boolean =>
  s.is === "quantity" && ["W", "kW", "VA", "kVA", "A", "hp"].includes(s.unit);
/**
 * `5 kW dryer, scratch that, dryer is gas`: what is told anew of the same thing, or its fuel alone, takes back the figures
 * of the item before.
 */
function takeItemBack(out: Piece[], correction: number, right: number, now: Sense): void {
  const things = (i: number) => out[i]!.senses.filter(isThing).map((s) => (s as { id: string }).id);
  const end = out.findIndex(({ is }, i) => i > right && (is === "comma" || is === "border" || is === "mark"));
  const anew = out.slice(right, end < 0 ? right + 4 : Math.min(end, right + 4));
  const isFuel = (s: Sense) => s.is === "term" && s.sort === "fuel" && s.id === "gas";
  const named = anew.flatMap((_, k) => things(right + k));
  if (!anew.some(({ senses }) => senses.some((s) => isFuel(s) || (isThing(now) && isPower(s))))) return;
  let from = correction;
  while (from > 0 && correction - from < NEAR) {
    const { is } = out[from - 1]!;
    if (is === "border" || (is === "comma" && from < correction)) break;
    if (is === "mark" && from < correction - 1) break;
    from--;
  }
  const item = [...Array(correction - from).keys()].map((k) => from + k);
  const told = item.flatMap(things);
  if (told.length !== 1 || named.some((id) => id !== told[0])) return;
  for (const i of item) {
    if (out[i]!.senses.some(isPower)) out[i] = { ...out[i]!, senses: [{ is: "aside", because: TAKEN_BACK }] };
  }
  // `12 kW range, no wait, gas`: the fuel stands beside what it is of.
  if (!isFuel(now)) return;
  for (let i = correction - 1; i < right; i++) {
    if (out[i]!.is === "comma" || i === correction) out[i] = { ...out[i]!, is: "common", senses: [] };
  }
}
/** Numbers that are alike enough for one to be the other put right. */
const ALIKE = 1.5;
const FAR = 14;
/**
 * Where a bare number stood that another one, told at the end, puts right: where the nearest figure is nothing like it.
 * Both alike, it may be either.
 */
function placeOfNumber(out: readonly Piece[], correction: number, now: number): number | "either" | undefined {
  let figure = false;
  for (let i = correction - 1; i >= Math.max(0, correction - FAR); i--) {
    const sense = out[i]!.senses.find((s) => s.is === "number" || s.is === "quantity") as { n: number } | undefined;
    if (!sense || Math.max(sense.n, now) / Math.min(sense.n, now) > ALIKE) continue;
    if (out[i]!.senses.some(({ is }) => is === "number")) return figure ? "either" : i;
    figure = true;
  }
  return undefined;
}

const WISHING = new Set(["i'd", "id", "we'd", "he'd", "she'd", "they'd", "you'd", "would", "d"]);

/** `40, no wait, 50 amps`; `60 not 50`: the wrong value is set aside, the right one keeps the unit. */
export function withoutTakenBack(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const out = [...pieces];
  const word = (i: number) => out[i]?.is === "common" ? tokens[out[i]!.from]!.text : "";
  const value = (i: number): Sense | undefined =>
    out[i]?.is === "fact" ? out[i]!.senses.find((s) => !NOT_TAKEN_BACK.has(classOf(s)!)) : undefined;
  const opens = (i: number) => i === 0 || ["comma", "border", "mark"].includes(out[i - 1]!.is);
  const isOr = (i: number): boolean => i >= 0 && tokens[out[i]!.from]!.text === "or";
  // `thirty-one carriers, never mind, twenty-one`
  const isNeverMind = (i: number): boolean =>
    (out[i]?.senses.some((s) => s.is === "term" && s.sort === "change" && s.id === "retract") ?? false) &&
    [i + 1, i + 2].some((at) => ["number", "quantity"].includes(value(at)?.is ?? ""));
  // `on 208 single phase sorry, still 5500`: what stays takes nothing back.
  const isOfSame = (i: number) => [i + 1, i + 2].some((at) => word(at) === "still");
  const isCorrection = (i: number) => !isOfSame(i) && isPutRight(i);
  const isPutRight = (i: number) =>
    // `on a 20 or no, the inspector says …`
    NO.has(word(i)) && !isOr(i - 1) || isNeverMind(i) ||
    (out[i]?.senses.some((s) => s.is === "term" && s.sort === "change" && s.id === "correct") &&
      // `I ran 8s rather than 10s`
      word(i + 1) !== "than" &&
      // `I'd rather turn it down`
      !WISHING.has(tokens[out[i]!.from - 1]?.text ?? "") &&
      // `I tell him that's wrong but he says 90`: it judges, and takes no value back.
      (opens(i) || !JUDGING.has(tokens[out[i]!.to - 1]!.text)));
  /** `40 amp but its 48`: what is put right so lightly is a figure, and much like the one that was wrong. */
  const isSlight = (i: number) => word(i) === "but" && ITS.has(word(i + 1));
  const isLike = (a: Sense, b: Sense): boolean =>
    "n" in a && "n" in b && a.n !== b.n && Math.max(a.n, b.n) / Math.min(a.n, b.n) <= SLIGHT;
  const agree = (a: Sense, b: Sense): boolean =>
    classOf(a) === classOf(b) || (a.is === "number" && b.is === "quantity") ||
    (a.is === "quantity" && b.is === "number") ||
    (a.is === "size" && b.is === "number") || (a.is === "number" && b.is === "size");
  for (let i = 1; i < out.length - 1; i++) {
    if (!isCorrection(i) && !isSlight(i)) continue;
    // `no laundry circuit, 5 kW dryer` names what is not there.
    const named = out.slice(i + 1, i + 3).find(({ is }) => is === "fact");
    if (word(i) === "no" && named?.senses.some(isThing)) continue;
    let right = i + 1;
    while (right < out.length && right - i <= NEAR && !value(right)) right++;
    const now = value(right);
    if (!now || right - i > NEAR) continue;
    // `actually drawing 36`: another figure is told, none is taken back.
    if (out.slice(i + 1, right).some(({ senses }) => senses.some((s) => s.is === "term" && s.sort === "label"))) {
      continue;
    }
    takeItemBack(out, i, right, now);
    const isEnd = out[right + 1] === undefined || ["border", "comma"].includes(out[right + 1]!.is);
    const inPlace = now.is === "number" && isEnd ? placeOfNumber(out, i, now.n) : undefined;
    // `6 ranges of 8 kW, actually 7`: it may be either.
    if (inPlace === "either") continue;
    if (inPlace !== undefined) {
      // `26 units with a dryer each, no wait, 28`: it stands at the end, and belongs where the wrong one stood.
      out[right] = { ...out[right]!, senses: [{ is: "aside", because: "put in the place of the one taken back" }] };
      out[inPlace] = { ...out[inPlace]!, senses: [now] };
      continue;
    }
    for (let left = i - 1; left >= 0 && i - left <= NEAR; left--) {
      const before = value(left);
      if (!before || !agree(before, now)) continue;
      if (!isCorrection(i) && !isLike(before, now)) break;
      if (NO.has(word(i)) && word(i) === "no" && (i - left > 3 || isThing(now))) break;
      out[left] = { ...out[left]!, senses: [{ is: "aside", because: TAKEN_BACK }] };
      // Nothing stands between the right value and what the wrong one belonged to.
      for (let between = left + 1; between < right; between++) {
        if (out[between]!.is === "comma" || isCorrection(between)) {
          out[between] = { ...out[between]!, is: "common", senses: [] };
        }
      }
      if (now.is === "number" && before.is === "quantity") {
        out[right] = { ...out[right]!, senses: [{ ...before, n: now.n }] };
      }
      if (now.is === "number" && before.is === "size") {
        out[right] = { ...out[right]!, senses: [{ is: "size", size: String(now.n) }] };
      }
      break;
    }
  }
  for (let i = 0; i < out.length - 1; i++) {
    // `one set instead of two`
    const isInstead = out[i]!.senses.some((s) => s.is === "term" && s.sort === "change" && s.id === "instead") &&
      value(i + 1)?.is === "number";
    if (word(i) !== "not" && !isInstead) continue;
    const at = ["a", "an", "the"].includes(word(i + 1)) ? i + 2 : i + 1;
    const wrong = value(at);
    if (!wrong || wrong.is === "term" && !["metal", "phase", "insulation"].includes(wrong.sort)) continue;
    const other = out.findIndex((_, j) =>
      j !== at && Math.abs(j - at) <= 2 * NEAR && value(j) && agree(value(j)!, wrong)
    );
    if (other >= 0) out[at] = { ...out[at]!, senses: [{ is: "aside", because: TAKEN_BACK }] };
  }
  return out;
}
