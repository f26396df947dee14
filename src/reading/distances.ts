/** Bare numbers that only a distance can be: `350 to the barn`, `another 150 to the dock`, `from panel to barn 350`. */
import type { Sort } from "./lexicon/lexicon.ts";
import type { Piece } from "./sense.ts";
import type { Token } from "./tokens.ts";

/** Feet that someone runs wire over. */
const [LEAST, MOST] = [20, 5000];
const PLACES: readonly Sort[] = ["place", "space", "building", "device", "appliance", "machine"];
const ARTICLES = new Set(["the", "a", "my", "his", "her", "our", "their", "that"]);
const FURTHER = new Set(["another", "then", "plus", "more", "extra"]);
const FAR = 24;

export function withDistances(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const out = [...pieces];
  const text = (i: number): string => out[i] ? tokens[out[i]!.from]!.text : "";
  const isPlace = (i: number): boolean =>
    out[i]?.senses.some((s) => s.is === "term" && PLACES.includes(s.sort)) ?? false;
  const ends = (i: number): boolean => out[i] === undefined || ["border", "comma"].includes(out[i]!.is);
  /** `to the barn`, `to my panel`: begins at a place, and where its name stands. */
  const isTo = (i: number): boolean => text(i) === "to" && isPlace(ARTICLES.has(text(i + 1)) ? i + 2 : i + 1);
  /** `to the barn 350`: ends right before a place. */
  const isBehindTo = (i: number): boolean => {
    const to = ARTICLES.has(text(i - 2)) ? i - 3 : i - 2;
    return isPlace(i - 1) && text(to) === "to" && ends(i + 1);
  };
  /** `100 ft to the corner, then another 150`. */
  const isFurther = (i: number): boolean => {
    if (!(FURTHER.has(text(i - 1)) || /^(and )?another$/.test(said(i - 1)))) return false;
    const before = out.slice(Math.max(0, i - FAR), i).findLast(({ senses }) =>
      senses.some(({ is }) => is === "quantity" || is === "number")
    );
    return before?.senses.some((s) => s.is === "quantity" && s.unit === "ft") ?? false;
  };
  const said = (i: number): string =>
    out[i] ? tokens.slice(out[i]!.from, out[i]!.to).map((each) => each.text).join(" ") : "";
  out.forEach(({ senses }, i) => {
    const sense = senses.find(({ is }) => is === "number") as { n: number } | undefined;
    if (!sense || sense.n < LEAST || sense.n > MOST) return;
    if (!(isTo(i + 1) || isBehindTo(i) || isFurther(i))) return;
    // `on a 20 to the shed`: the breaker that it is on.
    if (text(i - 2) === "on" && ARTICLES.has(text(i - 1)) || /\bon an?$/.test(said(i - 1))) return;
    out[i] = { ...out[i]!, senses: [{ is: "quantity", n: sense.n, unit: "ft", from: `${sense.n}` }] };
  });
  return inOne(out, tokens);
}

const feetOf = ({ senses }: Piece): number | undefined => {
  const sense = senses.length === 1 ? senses[0] : undefined;
  return sense?.is === "quantity" && sense.unit === "ft" && sense.low === undefined ? sense.n : undefined;
};
const GOES_ON = new Set(["then", "plus"]);
/** Sorts of figures that make stretches of what lies between two lengths. */
const OF_STRETCHES = new Set(["size", "sizes", "cable", "quantity", "number", "raise"]);
/** `40 ft in the house, then 90 ft underground`: two parts of one run, where nothing tells their wires apart. */
function inOne(pieces: Piece[], tokens: readonly Token[]): Piece[] {
  const feet = pieces.flatMap((piece, i) => feetOf(piece) === undefined ? [] : [i]);
  const [first, second, ...others] = feet;
  if (first === undefined || second === undefined || others.length > 0) return pieces;
  const between = pieces.slice(first + 1, second);
  const goesOn = between.some(({ senses, from }) =>
    GOES_ON.has(tokens[from]!.text) &&
    (senses.length === 0 || senses.some((s) => s.is === "term" && s.id === "segment"))
  );
  const isSplit = [...between, ...pieces.slice(second + 1, second + 3)].some(({ is, senses }) =>
    is === "border" ||
    senses.some((sense) => OF_STRETCHES.has(sense.is) && !(sense.is === "quantity" && sense.unit !== "ft"))
  );
  if (!goesOn || isSplit) return pieces;
  const [a, b] = [feetOf(pieces[first]!)!, feetOf(pieces[second]!)!];
  const out = [...pieces];
  out[first] = { ...pieces[first]!, senses: [{ is: "quantity", n: a + b, unit: "ft", from: `${a} + ${b} ft` }] };
  out[second] = { ...pieces[second]!, senses: [{ is: "aside", because: "added to the length before it" }] };
  return out;
}
