/** `a mini split, window-unit sized`, `no bigger than a dryer`: a thing that another is only compared with is not there. */
import type { Piece, Sense } from "./sense.ts";
import type { Token } from "./tokens.ts";

const COMPARED: Sense = { is: "aside", because: "only what it is compared with" };
/** Behind the thing, with what it describes right after or before. */
const BEHIND = new Set(["sized", "size", "style", "looking"]);
const BEFORE = ["size of", "bigger than", "smaller than", "larger than", "looks like", "as big as", "as small as"];
/** What these end with. */
const BEFORE_IT = new Set(["of", "than", "like", "as"]);
const ARTICLES = new Set(["a", "an", "one", "the", "your", "my", "some"]);
const REACH = 2;

export function withoutCompared(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const isThing = (i: number): boolean =>
    pieces[i]?.senses.some((s) => s.is === "term" && (s.sort === "appliance" || s.sort === "machine")) ?? false;
  const first = pieces.findIndex((_, i) => isThing(i));
  const isTold = (i: number): boolean => first >= 0 && first < i;
  const last = (i: number): string => pieces[i] ? tokens[pieces[i]!.to - 1]!.text : "";
  const described = (i: number): boolean => {
    const at = last(i + 1) === "-" ? i + 2 : i + 1;
    if (!BEHIND.has(last(at))) return false;
    // `a wall heater, hair-dryer sized, 1500 W`
    const isEnd = pieces[at + 1] === undefined || pieces[at + 1]!.is === "comma" || pieces[at + 1]!.is === "border";
    if (isEnd) return last(at) !== "size" && isTold(i);
    for (let next = at + 1; next <= at + REACH && pieces[next]; next++) {
      if (isThing(next)) return true;
      if (pieces[next]!.is !== "common" && pieces[next]!.is !== "unknown") return false;
    }
    return false;
  };
  const isCompared = (i: number): boolean => {
    const at = ARTICLES.has(last(i - 1)) ? i - 1 : i;
    const end = pieces[at]?.from ?? 0;
    if (!isTold(i) || !BEFORE_IT.has(tokens[end - 1]?.text ?? "")) return false;
    const before = [3, 2].map((n) => tokens.slice(Math.max(0, end - n), end).map(({ text }) => text).join(" "));
    return before.some((words) => BEFORE.includes(words));
  };
  return pieces.map((piece, i) =>
    isThing(i) && (described(i) || isCompared(i)) ? { ...piece, senses: [COMPARED] } : piece
  );
}
