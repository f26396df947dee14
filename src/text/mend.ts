/** Mends typing slips of one letter in words of the trade. */
import { COMMON_WORDS } from "./words.ts";

/** Shorter words have too many neighbours to be told apart by one letter. */
const SHORTEST = 4;
const SHORTEST_MEANT = 5;

/** A word of the vocabulary with another ending is no slip. */
const ENDINGS = [/s$/, /es$/, /d$/, /ed$/, /ing$/];

/** A function that mends a mistyped word of the vocabulary, where one word alone can be meant, or leaves it as it is. */
export function makeMender(vocabulary: ReadonlySet<string>): (word: string) => string {
  const meant = [...vocabulary].filter((word) => word.length >= SHORTEST_MEANT && !COMMON_WORDS.has(word));
  const isWord = (word: string) =>
    [word, ...ENDINGS.map((ending) => word.replace(ending, ""))].some((form) => vocabulary.has(form)) ||
    COMMON_WORDS.has(word);
  return (word) => {
    if (word.length < SHORTEST || isWord(word)) return word;
    const near = meant.filter((known) => oneLetterApart(word, known));
    const [first, ...others] = near;
    return first !== undefined && others.every((other) => sameWord(first, other)) ? first : word;
  };
}

/** Two forms or spellings of one word: `dryer` and `dryers`, `aluminum` and `aluminium`. */
const sameWord = (a: string, b: string): boolean => a.length !== b.length && oneLetterApart(a, b);

/** Whether one letter added, dropped, changed or swapped with its neighbour turns one word into the other. */
export function oneLetterApart(a: string, b: string): boolean {
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
