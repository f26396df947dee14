/** `not the whole house`, `isn't on the roof`: a circumstance that is denied is the opposite one. */
import type { Piece, Sense } from "./sense.ts";
import type { Token } from "./tokens.ts";

const OPPOSITES: Readonly<Record<string, Sense>> = {
  "circuit:whole-dwelling": { is: "term", sort: "circuit", id: "part-of-dwelling" },
  "panelState:bonded-here": { is: "term", sort: "panelState", id: "isolated-here" },
  "panelState:bonded-at-transformer": { is: "aside", because: "told not to be there" },
  "end:opposite": { is: "term", sort: "end", id: "beside-main" },
  "hours:continuous": { is: "term", sort: "hours", id: "noncontinuous" },
  "place:rooftop": { is: "term", sort: "place", id: "not-rooftop" },
  "place:wet": { is: "term", sort: "place", id: "dry" },
};
const DENIES = /^(not|never|(is|are|was|does|do|will|would|ca|could|wo)n'?t|cannot|nothing|no)$/;
const ASKS = new Set(["only", "that", "it", "this"]);
/** How many words stand between: `does not carry the …`, `not in a …`. */
const REACH = 3;
const FAR = 8;
const PLASTIC = new Set(["plastic", "pvc", "pex", "poly", "polyethylene", "pe", "cpvc"]);
const NOT_MEANT = new Set(["methodOfLoad", "circuit"]);
/** How a motor starts is denied from farther off: `without playing the won't start card`. */
const DENIES_STARTING = /^(not|no|without)$/;
const FAR_STARTING = 4;

export function withoutDenied(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const isPassed = (i: number): boolean =>
    pieces[i]?.is === "common" || (pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "goal") ?? false);
  const word = (i: number): string => isPassed(i) ? tokens[pieces[i]!.from]!.text : "";
  const isDenied = (i: number): boolean => {
    for (let at = i - 1; at >= i - REACH && word(at) !== ""; at--) {
      // `not only the whole house`, `not for nothing: it runs all day`
      // `isn't that the whole house?`
      if (ASKS.has(word(at + 1))) return false;
      if (DENIES.test(word(at))) return true;
    }
    return false;
  };
  // `can't get the solar breaker at the opposite end`: with things between.
  const isFarDenied = (i: number): boolean => {
    for (
      let at = i - 1;
      at >= i - FAR && pieces[at] && pieces[at]!.is !== "border" && pieces[at]!.is !== "comma";
      at--
    ) {
      if (DENIES.test(word(at))) return true;
    }
    return false;
  };
  const isStartingDenied = (i: number): boolean =>
    pieces.slice(Math.max(0, i - FAR_STARTING), i).reverse().some(({ from, is }, k, before) =>
      is === "common" && DENIES_STARTING.test(tokens[from]!.text) &&
      before.slice(0, k).every((each) => each.is !== "comma" && each.is !== "border")
    );
  const isRightBehindNot = (i: number): boolean => {
    const before = ["the", "a", "an"].includes(word(i - 1)) ? i - 2 : i - 1;
    return word(before) === "not" && !ASKS.has(word(before + 1));
  };
  return pieces.map((piece, i) => {
    const [sense] = piece.senses;
    if (sense?.is === "term" && sense.sort === "end" && sense.id === "opposite") {
      return isFarDenied(i) ? { ...piece, senses: [OPPOSITES["end:opposite"]!] } : piece;
    }
    // `the standard one, not the optional`, `the service, not the branch circuit`: what is not meant.
    if (sense?.is === "term" && NOT_MEANT.has(sense.sort) && isRightBehindNot(i)) {
      return { ...piece, senses: [{ is: "aside", because: "you said that this is not meant" }] };
    }
    if (sense?.is === "term" && sense.id === "hard-starting" && isStartingDenied(i)) {
      return { ...piece, senses: [{ is: "aside", because: "you said that this is not meant" }] };
    }
    // `no solar`
    if (
      sense?.is === "term" && sense.sort === "source" && ["no", "without"].includes(tokens[piece.from - 1]?.text ?? "")
    ) {
      return { ...piece, senses: [{ is: "aside", because: "told not to be there" }] };
    }
    // `plastic water line`: no electrode.
    if (sense?.is === "term" && sense.id === "water pipe" && PLASTIC.has(tokens[piece.from - 1]?.text ?? "")) {
      return { ...piece, senses: [{ is: "aside", because: "plastic is no electrode" }] };
    }
    const opposite = sense?.is === "term" ? OPPOSITES[`${sense.sort}:${sense.id}`] : undefined;
    return opposite && isDenied(i) ? { ...piece, senses: [opposite] } : piece;
  });
}
