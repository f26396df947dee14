/**
 * Where something is to be added to what is there: `want to add a hot tub and a 48 A charger`, `a new range`, `an air
 * conditioner is to be added`, `replacing the gas dryer with an electric one`.
 */
import type { Sort } from "./lexicon/lexicon.ts";
import type { Piece, Sense } from "./sense.ts";
import type { Token } from "./tokens.ts";

/** Words behind which what is wanted or put in stands. */
const WANTING = new Set(["want", "wants", "wanting", "wanted", "wanna"]);
const PUTTING = new Set([
  "install",
  "installing",
  "new",
  "future",
  "proposed",
  "getting",
  "buying",
  "bought",
  "put",
  "putting",
  "hang",
  "hanging",
  "landing",
]);
/** Words between `want` and what is wanted. */
const TO_HAVE = new Set(["add", "put", "install", "hook", "have", "get", "run", "wire", "charge", "plug", "use"]);
const REPLACING = new Set([
  "replace",
  "replacing",
  "convert",
  "converting",
  "switching",
  "swapping",
  "changing",
  "going",
]);
const BY = new Set(["with", "to", "for", "by"]);
/** Verbs of `change:add` that put something in; `plus` and `another` go on with a list. */
const VERBS = new Set(["add", "also", "additional", "put", "throw"]);
/** What is there already begins here. */
const THERE = new Set(["has", "have", "had", "got", "there", "currently", "already", "includes", "existing"]);
/** Where it goes, behind what is added. */
const ONTO = new Set(["to", "on", "onto", "in", "into", "off"]);
/** What may follow a comma in a list of what is added. */
const GOES_ON = new Set(["and", "a", "an", "another", "plus", "also", "&"]);
const STOPS: readonly Sort[] = ["device", "building", "space", "source", "role"];
const LOADS: readonly Sort[] = ["appliance", "machine", "load"];

const isTerm = (piece: Piece | undefined, ...sorts: Sort[]): boolean =>
  piece?.senses.some((s) => s.is === "term" && (sorts as string[]).includes(s.sort)) ?? false;
/** `put in a 60 A breaker for a charger`: the charger is what is added. */
const isBreaker = ({ senses }: Piece): boolean =>
  senses.some((s) => s.is === "term" && s.sort === "device" && ["breaker", "disconnect"].includes(s.id));
const isArea = (s: Sense): boolean => s.is === "quantity" && (s.unit === "ft2" || s.unit === "m2");

/** The pieces that stand where something is added. */
export function toBeAdded(pieces: readonly Piece[], tokens: readonly Token[]): ReadonlySet<number> {
  const found = new Set<number>();
  const first = (i: number): string => pieces[i] ? tokens[pieces[i]!.from]!.text : "";
  const last = (i: number): string => pieces[i] ? tokens[pieces[i]!.to - 1]!.text : "";
  const endsAt = (i: number, isPast: boolean): boolean => {
    const piece = pieces[i];
    if (!piece || (piece.is === "border" && tokens[piece.from]!.is !== "line")) return true;
    if (piece.is === "comma") return !GOES_ON.has(first(i + 1));
    if (isTerm(piece, ...LOADS)) return false;
    return (isTerm(piece, ...STOPS) && !isBreaker(piece)) || piece.senses.some(isArea) || THERE.has(first(i)) ||
      (isPast && piece.is === "common" && ONTO.has(first(i)));
  };
  const forward = (from: number): void => {
    let isPast = false;
    for (let i = from; !endsAt(i, isPast); i++) {
      found.add(i);
      isPast ||= isTerm(pieces[i], ...LOADS);
    }
  };
  const backward = (from: number): void => {
    for (let i = from; i >= 0 && pieces[i]!.is !== "comma" && !endsAt(i, false); i--) found.add(i);
  };
  pieces.forEach((piece, i) => {
    const isAdd = piece.senses.some((s) =>
      s.is === "term" && (s.sort === "goal" && s.id === "add-load" || s.sort === "change" && s.id === "add")
    );
    if (isAdd && last(i) === "added") return backward(i - 1);
    if (isAdd && (isTerm(piece, "goal") || VERBS.has(first(i)))) return forward(i + 1);
    if (piece.to > piece.from + 1) return;
    if (PUTTING.has(first(i))) return forward(i + 1);
    // `want to know …` wants nothing on the panel.
    if (WANTING.has(first(i)) && (first(i + 1) !== "to" || TO_HAVE.has(first(i + 2)))) return forward(i + 1);
    if (!REPLACING.has(first(i))) return;
    const by = pieces.findIndex((_, at) => at > i && (BY.has(first(at)) || endsAt(at, false)));
    if (by > 0 && BY.has(first(by))) forward(by + 1);
  });
  return found;
}
