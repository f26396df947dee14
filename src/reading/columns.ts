/** A nameplate copied line by line, each label above its value: `MCA ⏎ 27.3 ⏎ MOP ⏎ 45` is `MCA: 27.3`, `MOP: 45`. */
import { numberAt } from "./numbers.ts";
import type { Token } from "./tokens.ts";

/** More words are a sentence, and no label or value. */
const LONGEST = 4;
/** Numbers may be written out. */
const LONGEST_VALUE = 7;
/** One such pair alone may be anything. */
const LEAST_PAIRS = 2;

/** The tokens with a colon in the place of each line's end between a label and the value below it. */
export function labelsOverValues(tokens: readonly Token[]): readonly Token[] {
  const ends = tokens.flatMap(({ is }, i) => is === "line" ? [i] : []);
  if (ends.length < 2 * LEAST_PAIRS - 1) return tokens;
  const lines = [...ends, tokens.length].map((end, k) => tokens.slice(k === 0 ? 0 : ends[k - 1]! + 1, end));
  const joined: number[] = [];
  for (let k = 0; k + 1 < lines.length;) {
    let pairs = 0;
    while (isLabel(lines[k + 2 * pairs]) && isValue(lines[k + 2 * pairs + 1])) pairs++;
    if (pairs >= LEAST_PAIRS) { for (let each = 0; each < pairs; each++) joined.push(ends[k + 2 * each]!); }
    k += Math.max(1, 2 * pairs);
  }
  const colons = new Set(joined);
  return tokens.map((token, i) => colons.has(i) ? { ...token, is: "mark", text: ":" } : token);
}
/** Words alone, with a mark between or behind them: `S.F.`, `IMP %`. */
const isLabel = (line: readonly Token[] | undefined): boolean =>
  line !== undefined && line.length > 0 && line.length <= LONGEST && line[0]!.is === "word" &&
  line.every(({ is, text }) => is !== "number" && text !== "?" && text !== ",");
/** A figure, with its unit or what belongs to it. */
const isValue = (line: readonly Token[] | undefined): boolean =>
  line !== undefined && line.length > 0 && line.length <= LONGEST_VALUE && numberAt(line, 0) !== undefined;
