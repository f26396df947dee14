/**
 * Numbers without their unit that the words beside them make amperes, and hours of use that are only denied:
 * `load comes to 92`, `75 of that continuous`, `84 A continuous, 31 not`.
 */
import { isUsualSupply } from "./families.ts";
import type { Sort } from "./lexicon/lexicon.ts";
import type { Piece, Sense } from "./sense.ts";
import type { Token } from "./tokens.ts";

/** What a load in amperes lies between. */
const [LEAST, MOST] = [5, 4000];
/** How many words stand between a figure and what makes it amperes. */
const REACH = 4;
const LINKS = new Set(
  "is are was were at of about around like to out be it that those them a the only just stuff things which else more now really actually closer"
    .split(
      " ",
    ),
);
const DENIES = /^(non|not|nots|isn't|isnt|aren't|arent|doesn't|don't|won't|ain't|aint)$/;
/** Loads that are asked for or worked out; what follows them is their result. */
const LOADS = new Set(["goal:load", "goal:feeder-load", "load:load", "label:calculated-load"]);
/** `does a #14 carry 20`: what a wire is asked to carry. */
const CARRIES = "goal:ampacity";
const COLUMNS: ReadonlySet<number> = new Set([60, 75, 90]);
const CALCULATED: Sense = { is: "term", sort: "label", id: "calculated-load" };

export function withAmperes(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const out = [...pieces];
  const text = (i: number): string => out[i] ? tokens[out[i]!.from]!.text : "";
  const isTerm = (i: number, sort: Sort): boolean =>
    out[i]?.senses.some((s) => s.is === "term" && s.sort === sort) ?? false;
  const isHours = (i: number): boolean => isTerm(i, "hours");
  const hours = out.flatMap((_, i) => isHours(i) ? [i] : []);
  const isOther = out.some(({ senses }) => senses.some((s) => s.is === "quantity" && OTHER_UNITS.has(s.unit)));
  if (isOther) return out;
  const hasVolts = out.some(({ senses }) =>
    senses.some((s) => s.is === "system" || (s.is === "quantity" && s.unit === "V"))
  );
  const bare = (i: number): number | undefined => {
    const n = (out[i]?.senses.find(({ is }) => is === "number") as { n: number } | undefined)?.n;
    return n === undefined || n < LEAST || n > MOST || (isUsualSupply(n) && !hasVolts) ? undefined : n;
  };
  const isFigure = (i: number): boolean =>
    bare(i) !== undefined || (out[i]?.senses.some((s) => s.is === "quantity" && s.unit === "A") ?? false);
  const ends = (i: number): boolean =>
    out[i] === undefined || ["border", "comma", "mark"].includes(out[i]!.is) || ["and", "plus"].includes(text(i));
  /** The figure that stands before a place, over the words that lead to it. */
  const before = (i: number): number | undefined => {
    let at = i - 1;
    while (at > i - REACH && (isTerm(at, "circuit") || (out[at]?.is === "common" && LINKS.has(text(at))))) at--;
    return isFigure(at) ? at : undefined;
  };
  const makeAmperes = (i: number): void => {
    const n = bare(i);
    if (n !== undefined) out[i] = { ...out[i]!, senses: [{ is: "quantity", n, unit: "A", from: String(n) }] };
  };
  out.forEach(({ senses }, i) => {
    const isAmperes = senses.some((s) => s.is === "quantity" && s.unit === "A");
    if (!isAmperes || !WORKED_OUT.has(text(i + 1)) || !["common", "unknown"].includes(out[i + 1]!.is)) return;
    // `connected to a panel` is no load.
    if (["to", "at", "by", "from"].includes(text(i + 2))) return;
    out[i + 1] = { ...out[i + 1]!, is: "fact", senses: [CALCULATED] };
  });
  // `no more than 6 volts lost`
  out.forEach(({ senses }, i) => {
    const isSmall = senses.some((s) => s.is === "quantity" && (s.unit === "%" || (s.unit === "V" && s.n <= MOST_LOST)));
    if (!isSmall || !LOST.has(text(i + 1)) || !["common", "unknown"].includes(out[i + 1]!.is)) return;
    out[i + 1] = { ...out[i + 1]!, is: "fact", senses: [LOSS] };
  });
  for (const at of hours) {
    const figure = before(at);
    // `3 continuous loads` counts them.
    // `310 cont. What copper`: its point ends the sentence as well.
    const isStop = out[at] !== undefined && tokens[out[at]!.to - 1]!.text.endsWith(".");
    if (figure !== undefined && (ends(at + 1) || isStop)) makeAmperes(figure);
  }
  // `84 A continuous, 31 not`
  for (let i = (hours[0] ?? Infinity) + 1; i < out.length; i++) {
    if (!DENIES.test(text(i)) || !ends(i + 1)) continue;
    const figure = before(i) ?? before(i - 1);
    if (figure === undefined || figure < hours[0]!) continue;
    makeAmperes(figure);
    out[i] = { ...out[i]!, is: "fact", senses: [NOT_CONTINUOUS] };
  }
  out.forEach((_, i) => {
    if (!isFigure(i) || !(ends(i + 1) || isHours(i + 1))) return;
    let at = i - 1;
    while (at > i - REACH && out[at]?.is === "common" && LINKS.has(text(at))) at--;
    const isCarried = out[at]?.senses.some((s) => s.is === "term" && `${s.sort}:${s.id}` === CARRIES);
    // `good for at 75`: the column that is asked for.
    if (isCarried && ends(i + 1) && !(text(i - 1) === "at" && COLUMNS.has(bare(i) ?? 0))) makeAmperes(i);
    const term = out[at]?.senses.find((s) => s.is === "term" && LOADS.has(`${s.sort}:${s.id}`));
    if (term?.is !== "term" || (at === i - 1 && term.sort === "goal")) return;
    makeAmperes(i);
    // `load on the feeder is 92`: told, and no longer asked for.
    if (term.sort === "goal") out[at] = { ...out[at]!, senses: [CALCULATED] };
  });
  return out;
}
/** `70 A calculated`, `110 amps connected`: a load by what was done to find it. */
const WORKED_OUT = new Set(["calculated", "calc'd", "calced", "computed", "connected", "figured", "calc"]);
const LOSS: Sense = { is: "term", sort: "label", id: "drop" };
const LOST = new Set(["lost", "gone", "off"]);
const MOST_LOST = 30;
const NOT_CONTINUOUS: Sense = { is: "term", sort: "hours", id: "noncontinuous" };
/** Where floors or powers are told, a bare number may be of them. */
const OTHER_UNITS: ReadonlySet<string> = new Set(["ft2", "m2", "kW", "W", "VA", "kVA", "MVA", "hp"]);
