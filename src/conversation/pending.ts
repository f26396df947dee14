/** Words that had no place and were asked about: explained by the next text, left out by it, or still open. */
import type { Facts, Value } from "../reading/facts.ts";
import { type ReadText, readText } from "../reading/read.ts";
import type { Taken } from "../reading/take.ts";
import type { Topic } from "./thread.ts";

const LEAVES_OUT =
  /^\W*(?:(?:ok|no|just|please|oh|sorry)\W+)*(?:(?:leave|skip|drop|take) (?:it|that|those|them) (?:out|off)|(?:ignore|forget|skip|disregard) (?:it|that|those|them|about (?:it|that))|never ?mind(?: (?:it|that))?|(?:it )?(?:doesn'?t|does not|don'?t) matter)\W*$/i;
/** `forget that`, said of words that were asked about. */
export const leavesOut = (asked: string, { left = [] }: Topic): boolean => left.length > 0 && LEAVES_OUT.test(asked);

/** A reply that only names is as short as that. */
const MOST_WORDS = 8;
/** More words than these are not told what they are by one reply. */
const MOST_LEFT = 2;
/** What a reply that only names may say beside its name. */
const NAMING = /^(?:label|end|change|place):/;
/** Whether nothing but names stands in it: no figure, no metal, no question. */
const onlyNames = ({ facts: { facts, free }, asked }: ReadText): boolean =>
  !asked.includes("?") && asked.trim().split(/\s+/).length <= MOST_WORDS &&
  facts.every(({ slots }) => Object.keys(slots).length === 0) && free.every(({ key }) => NAMING.test(key));

/** `degrees`, `that's the primary`, `dryers`, of a number that was asked about: the text with the number so named. */
export function explained(text: ReadText, { pending }: Topic): ReadText[] {
  if (!pending || pending.words.length > MOST_LEFT || !onlyNames(text)) return [];
  return pending.words.flatMap((word) =>
    [`${word} ${text.asked} `, ` ${text.asked} ${word}`].map((named) => readText(pending.asked.replace(word, named)))
  );
}

/** More words than these are told by the first and the last: somebody pasted a page. */
const MOST_SHOWN = 4;
const LONGEST_SHOWN = 80;
/** A text of which nothing counts, because some of it had no place, as later answers name it. */
export function leftOf(asked: string, words: readonly string[]): readonly string[] {
  if (asked.trim().length <= LONGEST_SHOWN) return [asked.trim()];
  return words.length > MOST_SHOWN ? [`${words[0]} … ${words.at(-1)}`] : words;
}

const numbersOf = (words: string): number[] => (words.match(/\d+(?:\.\d+)?/g) ?? []).map(Number);
/** Whether the words stand in a text, and in no longer word or figure: there is no `6` in `9.6 kW`. */
function standsIn(words: string, asked: string): boolean {
  for (let at = asked.indexOf(words); at >= 0; at = asked.indexOf(words, at + 1)) {
    const [before, after] = [
      asked.slice(Math.max(0, at - 2), at),
      asked.slice(at + words.length, at + words.length + 2),
    ];
    const goesOn = /[\p{L}\d]$|\d[.,/]$/u.test(before) && /^[\p{L}\d]/u.test(words) ||
      /^[\p{L}\d]|^[.,/]\d/u.test(after) && /[\p{L}\d]$/u.test(words);
    if (!goesOn) return true;
  }
  return false;
}
/** The words still open after a text: those that it neither says again nor tells the number of. */
export function leftAfter({ left = [] }: Topic, text: ReadText): string[] {
  const told = text.pieces.flatMap(({ senses }) => senses.flatMap((sense) => "n" in sense ? [sense.n] : []));
  return left.filter((words) => {
    const numbers = numbersOf(words);
    return !standsIn(words, text.asked) && !(numbers.length > 0 && numbers.every((n) => told.includes(n)));
  });
}

/**
 * Figures told before that the question took no part of and said nothing of: what was asked back about them found no reply,
 * and they must not be lost in silence.
 */
export function unheeded({ facts, free }: Facts, { taken, aside }: Taken): string[] {
  const isFigure = ({ sense, pieces }: Value) => sense.is === "quantity" && pieces.length === 0;
  const isHeeded = (value: Value) => taken.has(value) || aside.has(value);
  const values = [
    ...facts.flatMap((fact) => aside.has(fact) ? [] : Object.values(fact.slots).flat()),
    ...free.map(({ value }) => value),
  ];
  const said = values.filter((value) => isFigure(value) && !isHeeded(value)).map((value) => value.said.trim());
  return [...new Set(said)];
}
