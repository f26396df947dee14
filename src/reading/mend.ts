/** Slips of one letter, mended only in a word that nothing knows, and only where one word of the trade can be meant. */
import { isEveryday } from "./lexicon/common.ts";
import { isKnown, isTerm, mendable } from "./lexicon/lexicon.ts";
import type { Token } from "./tokens.ts";
import { UNIT_WORDS, unitAt } from "./units.ts";

export type Mended = { readonly at: number; readonly said: string; readonly read: string };

/** Shorter words have too many neighbours to be told apart by one letter. */
const SHORTEST = 4;
const SHORTEST_UNSURE = 5;

/** The tokens with their slips mended, what was mended, and the words that may be slips of several: these are asked about. */
export function mendSlips(
  tokens: readonly Token[],
): { tokens: readonly Token[]; mended: readonly Mended[]; unsure: ReadonlySet<number> } {
  const mended: Mended[] = [];
  const unsure = new Set<number>();
  const seen = new Map<string, string[]>();
  const out = tokens.map((token, i) => {
    if (token.is !== "word" || token.text.length < SHORTEST || isEveryday(token.text) || unitAt(tokens, i)) {
      return token;
    }
    if (isKnown(token.text)) return token;
    let near = seen.get(token.text);
    if (!near) {
      // `chilled` is a form of a word, and no slip of a chiller; `unfinshed` is a slip of another such form.
      const ending = /(?:ed|ing)$/.exec(token.text)?.[0] ?? "";
      seen.set(token.text, near = neighbours(token.text).filter((each) => each.endsWith(ending)));
    }
    // `moter` is a motor: a word that is a term by itself comes before one that is only a part of some.
    // `3 precent`: behind a number it is a unit.
    const units = tokens[i - 1]?.is === "number" ? near.filter((word) => UNIT_WORDS.includes(word)) : [];
    const alone = units.length > 0 ? units : near.filter(isTerm);
    const [first, ...others] = alone.length > 0 ? alone : near;
    if (first === undefined) return token;
    if (others.some((other) => !isForm(first, other))) {
      if (token.text.length >= SHORTEST_UNSURE) unsure.add(token.at);
      return token;
    }
    mended.push({ at: token.at, said: token.typed, read: first });
    return { ...token, text: first };
  });
  return { tokens: out, mended, unsure };
}

/** Forms of one word: `dryer` and `dryers`, `aluminum` and `aluminium`. */
const isForm = (a: string, b: string): boolean =>
  (a.length !== b.length && oneLetterApart(a, b)) || a.slice(0, STEM) === b.slice(0, STEM);
/** Letters at the beginning by which two words of the trade are forms of one. */
const STEM = 6;

let byLength: Map<number, string[]> | undefined;
function neighbours(word: string): string[] {
  if (!byLength) {
    byLength = new Map();
    for (const known of [...mendable(), ...UNIT_WORDS]) {
      const alike = byLength.get(known.length);
      if (alike) alike.push(known);
      else byLength.set(known.length, [known]);
    }
  }
  return [-1, 0, 1].flatMap((d) =>
    (byLength!.get(word.length + d) ?? []).filter((known) => oneLetterApart(word, known))
  );
}

/** Whether one letter added, dropped, changed or swapped with its neighbour turns one word into the other. */
function oneLetterApart(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1 || a === b) return false;
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  const rest = (s: string, from: number) => s.slice(from);
  if (a.length === b.length) {
    return rest(a, i + 1) === rest(b, i + 1) ||
      (a[i] === b[i + 1] && a[i + 1] === b[i] && rest(a, i + 2) === rest(b, i + 2));
  }
  return a.length > b.length ? rest(a, i + 1) === rest(b, i) : rest(a, i) === rest(b, i + 1);
}
