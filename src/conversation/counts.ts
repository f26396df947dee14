/** `really only 20 of em get one`, `just 12 have dryers`: how many there are, told by no more than a number. */
import type { Facts, Free } from "../reading/facts.ts";
import type { ReadText } from "../reading/read.ts";

const GROUP = new Set(["em", "'em", "them", "those", "these", "the", "my", "our", "their"]);
const ONLY = new Set(["only", "just"]);
/** `they're only 5`: of what size they are. */
const IS = new Set(["they're", "theyre", "it's", "its", "are", "is", "was", "were"]);

const spanOf = ({ value }: Free, { pieces }: ReadText): readonly [from: number, to: number] => [
  pieces[value.pieces[0] ?? -1]?.from ?? -1,
  pieces[value.pieces.at(-1) ?? -1]?.to ?? -1,
];
const wordAt = ({ tokens }: ReadText, i: number): string => tokens[i]?.text ?? "";
const isWhole = ({ value: { sense } }: Free): boolean =>
  sense.is === "number" && Number.isInteger(sense.n) && sense.n >= 1;

/** Whether `of them` stands behind a number. */
export const isOfThem = (number: Free, text: ReadText): boolean => {
  const [, to] = spanOf(number, text);
  return wordAt(text, to) === "of" && GROUP.has(wordAt(text, to + 1));
};
/** The number of a text that tells how many of them there are, where it tells no other figure. */
export function countTold({ facts, free }: Facts, text: ReadText): Free | undefined {
  const [number, ...others] = free.filter(({ key }) => key === "number");
  if (!number || others.length > 0 || !isWhole(number)) return undefined;
  if (facts.some(({ family, slots }) => family === "load" && Object.keys(slots).length > 0)) return undefined;
  const [from, to] = spanOf(number, text);
  const isOnly = ONLY.has(wordAt(text, from - 1)) && !IS.has(wordAt(text, from - 2)) && text.tokens[to]?.is === "word";
  return isOnly || isOfThem(number, text) ? number : undefined;
}

/** `that one`, `the other one`: a word that points, and no count. */
const POINTING = new Set(["that", "this", "which", "other", "same", "the", "each", "first", "second", "last", "every"]);
export const withoutPointers = ({ facts, free }: Facts, text: ReadText): Facts => ({
  facts,
  free: free.filter((each) =>
    each.key !== "number" || each.value.said.toLowerCase() !== "one" ||
    !POINTING.has(wordAt(text, spanOf(each, text)[0] - 1))
  ),
});
