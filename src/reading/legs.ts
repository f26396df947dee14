/** Tokens → pieces: what stands in a panel and on its legs: so many spaces, breakers by their poles, a leg with its own figure. */
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt } from "./numbers.ts";
import { type Leg, one, type Rule, speaksOf, text } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

const SPACES = new Set(["space", "spaces", "slot", "slots"]);
/** What a number of spaces may be of besides a panel. */
const OTHER_SPACES = new Set(["parking", "working", "clear", "living", "rv", "trailer", "mobile"]);
const BETWEEN = new Set(["-", "breaker", "full", "pole", "open", "free", "empty", "panel"]);
const LEFT = new Set(["are", "left", "full", "remaining", "is"]);
const MOST_SPACES = 84;
const LEAST_OF_PANEL = 6;
const PANELS = new Set(["panel", "panelboard", "board", "load", "loadcenter", "subpanel", "sub"]);
/** `24 spaces`, `a 30-space panel`, `20/40 space`, `12 slots`: the places of a panel, the full-size ones where both are told. */
const spaces: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n) || read.n < 2 || read.n > MOST_SPACES) return undefined;
  if (OTHER_SPACES.has(text(t, i - 1)) || OTHER_SPACES.has(text(t, read.next))) return undefined;
  let at = read.next;
  if (text(t, at) === "/" && t[at + 1]?.is === "number") at += 2;
  // `a 42 circuit panel`
  const isOfPanel = ["circuit", "position"].includes(text(t, at)) && PANELS.has(text(t, at + 1));
  if (isOfPanel && read.n >= LEAST_OF_PANEL) return one({ is: "spaces", n: read.n }, at + 1);
  while (BETWEEN.has(text(t, at))) at++;
  // `all but two slots are full`, `4 slots left`: what is left of them, which is said by other words.
  if (LEFT.has(text(t, at + 1))) return undefined;
  return SPACES.has(text(t, at)) ? one({ is: "spaces", n: read.n }, at + 1) : undefined;
};

const POLES: Readonly<Record<string, 1 | 2 | 3>> = {
  single: 1,
  one: 1,
  "1": 1,
  double: 2,
  two: 2,
  "2": 2,
  triple: 3,
  three: 3,
  "3": 3,
};
const MOST_BREAKERS = 42;
/** `6 two-pole`, `9 single pole breakers`, where a panel's spaces are spoken of: how many take how many. */
const breakers: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n) || read.n < 1 || read.n > MOST_BREAKERS) return undefined;
  const poles = POLES[text(t, read.next)];
  let at = read.next + 1;
  if (text(t, at) === "-") at++;
  if (poles === undefined || !["pole", "poles", "p"].includes(text(t, at))) return undefined;
  at++;
  const areNamed = ["breaker", "breakers", "circuit", "circuits"].includes(text(t, at));
  if (!speaksOf(t, SPACES)) return undefined;
  // `two 3-pole RTUs` are loads, each on its breaker.
  if (!areNamed && termAt(t, at)?.terms.some(({ sort }) => sort === "appliance" || sort === "machine")) {
    return undefined;
  }
  return one({ is: "breakers", n: read.n, poles }, areNamed ? at + 1 : at);
};

const LETTERS: Readonly<Record<string, Leg>> = { a: "A", b: "B", c: "C" };
const NUMBERS: Readonly<Record<string, Leg>> = { ...LETTERS, "1": "A", "2": "B", "3": "C" };
const LEG_WORDS = new Set(["leg", "legs", "line", "phase", "hot", "l"]);
const SIGNS = new Set([
  "=",
  ":",
  "-",
  "is",
  "has",
  "at",
  "with",
  "carries",
  "carrying",
  "draws",
  "reads",
  "got",
  "pulls",
]);
const NOTHING = new Set(["off", "zero", "nothing", "none", "open", "dead", "unloaded"]);

type Told = { leg: Leg; n: number; unit: "A" | "VA" | "W" | "kVA" | "kW"; to: number };
const UNITS: readonly string[] = ["A", "VA", "W", "kVA", "kW"];
/** Which leg is named at a place, and where its words end. */
function legAt(t: readonly Token[], i: number): { leg: Leg; to: number; isNamed: boolean } | undefined {
  const word = text(t, i);
  if (LEG_WORDS.has(word)) {
    const leg = NUMBERS[text(t, i + 1)];
    return leg && (word !== "l" || t[i + 1]!.glued) ? { leg, to: i + 2, isNamed: true } : undefined;
  }
  const leg = LETTERS[word];
  if (leg === undefined || t[i]!.is !== "word") return undefined;
  const isNamed = LEG_WORDS.has(text(t, i + 1)) && text(t, i + 1) !== "l";
  return { leg, to: isNamed ? i + 2 : i + 1, isNamed };
}
/** @param isNamedBefore whether a leg was named before by its word */
function toldAt(
  t: readonly Token[],
  i: number,
  isNamedBefore: boolean,
): (Told & { isBare: boolean }) | undefined {
  const named = legAt(t, i);
  if (!named) return undefined;
  let at = named.to;
  while (SIGNS.has(text(t, at))) at++;
  if (NOTHING.has(text(t, at))) return { leg: named.leg, n: 0, unit: "A", to: at + 1, isBare: true };
  const read = numberAt(t, at);
  if (!read) return undefined;
  // `B=35 C=20`: a letter with its own figure is no unit.
  const unit = SIGNS.has(text(t, read.next + 1)) && legAt(t, read.next) ? undefined : unitAt(t, read.next, read.n);
  if (unit && !UNITS.includes(unit.unit)) return undefined;
  const isSigned = at > named.to;
  // `a 20 A breaker`: an article before a figure is no leg unless a sign or a leg's word stands there.
  // `phase A 60 A, B 45, C 30`: a letter behind a comma, where a leg was named before.
  const isListed = isNamedBefore && [",", "and", ";"].includes(text(t, i - 1));
  if (!unit && !isSigned && !named.isNamed && !isListed && read.n !== 0) return undefined;
  // `leg A has 1200 1800 900`: all that stands on it.
  const list = unit ? undefined : listAt(t, read.next, read.n);
  if (list) {
    const isPower = t.some((_, k) => ["VA", "W"].includes(unitAt(t, k)?.unit ?? ""));
    return { leg: named.leg, n: list.sum, unit: isPower ? "VA" : "A", to: list.to, isBare: !isPower };
  }
  const to = unit?.next ?? read.next;
  // `on leg A 2 separately controlled`: a number before another word counts that.
  if (!unit && t[to]?.is === "word" && !["and", "on", "at"].includes(text(t, to)) && !legAt(t, to)) return undefined;
  // `leg A 8 A freezer`: a load that stands on it is told by itself.
  if (termAt(t, to)?.terms.some(({ sort }) => sort === "appliance" || sort === "device" || sort === "machine")) {
    return undefined;
  }
  return { leg: named.leg, n: read.n, unit: (unit?.unit ?? "A") as Told["unit"], to, isBare: !unit };
}
/** Further bare figures behind a first one, with nothing between them or an `and`. */
function listAt(t: readonly Token[], i: number, first: number): { sum: number; to: number } | undefined {
  let sum = first;
  let to = i;
  for (;;) {
    const at = ["and", "+", "&"].includes(text(t, to)) ? to + 1 : to;
    const read = numberAt(t, at);
    if (!read || unitAt(t, read.next, read.n) || (t[read.next]?.is === "word" && text(t, read.next) !== "and")) break;
    sum += read.n;
    to = read.next;
  }
  return to > i ? { sum, to } : undefined;
}
/** `40 A on leg A`, where what comes back on the neutral is spoken of, and no load that stands on the leg. */
function onNamedAt(t: readonly Token[], i: number): (Told & { isBare: boolean }) | undefined {
  const read = numberAt(t, i);
  const unit = read && unitAt(t, read.next, read.n);
  if (!read || unit?.unit !== "A" || !["on", "in", "at"].includes(text(t, unit.next))) return undefined;
  const named = legAt(t, text(t, unit.next + 1) === "the" ? unit.next + 2 : unit.next + 1);
  const isLoad = [i - 2, i - 1].some((k) => k >= 0 && termAt(t, k)?.terms.some(({ sort }) => sort === "appliance"));
  return named?.isNamed && !isLoad ? { leg: named.leg, n: read.n, unit: "A", to: named.to, isBare: false } : undefined;
}
const NEUTRAL = new Set(["neutral"]);
const toldOf = new WeakMap<readonly Token[], ReadonlyMap<number, Told>>();
/** `A 42, B 31, C 26`: all three in a row, each letter with its figure and nothing else. */
function rowAt(t: readonly Token[], i: number): (readonly [number, Told])[] | undefined {
  const row: (readonly [number, Told])[] = [];
  let at = i;
  for (const [letter, leg] of Object.entries(LETTERS)) {
    if (text(t, at) === ",") at++;
    const read = text(t, at) === letter ? numberAt(t, at + 1) : undefined;
    if (!read || unitAt(t, read.next, read.n)) return undefined;
    row.push([at, { leg, n: read.n, unit: "A", to: read.next }]);
    at = read.next;
  }
  return row;
}
function firstRow(t: readonly Token[]): (readonly [number, Told])[] | undefined {
  for (let i = 0; i < t.length; i++) {
    const row = rowAt(t, i);
    if (row) return row;
  }
  return undefined;
}
/** All legs that are told with their figures, where it is more than one and one of them has a unit, or its leg is named so. */
function allTold(t: readonly Token[]): ReadonlyMap<number, Told> {
  let found = toldOf.get(t);
  if (!found) {
    const hasNeutral = speaksOf(t, NEUTRAL);
    // `neutral current if A has 60 amps, B 40, C 30`
    const isToldSo = (i: number) => hasNeutral && toldAt(t, i, false)?.isBare === false;
    const firstNamed = t.findIndex((_, i) => legAt(t, i)?.isNamed || isToldSo(i));
    const all = t.flatMap((_, i) => {
      const told = toldAt(t, i, firstNamed >= 0 && firstNamed < i) ?? (hasNeutral ? onNamedAt(t, i) : undefined);
      return told ? [[i, told] as const] : [];
    });
    const legs = new Set(all.map(([, { leg }]) => leg));
    const isSure = all.some(([i, { isBare }]) => !isBare || legAt(t, i)?.isNamed || text(t, i + 1) === "=");
    const row = hasNeutral ? firstRow(t) : undefined;
    found = new Map(row ?? (legs.size > 1 && isSure ? all : onOneAndOther(t)));
    toldOf.set(t, found);
  }
  return found;
}
const FIRST = new Set(["one", "first", "1st"]);
const OTHER = new Set(["other", "second", "2nd"]);
const SIDES = new Set(["hot", "leg", "side", "line", "half", "phase"]);
/** `12 A on one hot and 9 on the other`: both, or nothing. */
function onOneAndOther(t: readonly Token[]): [number, Told][] {
  if (!speaksOf(t, FIRST) || !speaksOf(t, OTHER)) return [];
  const at = (words: ReadonlySet<string>, leg: Leg, i: number): [number, Told & { side: boolean }] | undefined => {
    const read = numberAt(t, i);
    if (!read) return undefined;
    const unit = unitAt(t, read.next, read.n);
    let to = unit?.next ?? read.next;
    if (unit && unit.unit !== "A" || text(t, to) !== "on") return undefined;
    to++;
    if (text(t, to) === "the") to++;
    if (!words.has(text(t, to))) return undefined;
    const side = SIDES.has(text(t, to + 1));
    return [i, { leg, n: read.n, unit: "A", to: to + (side ? 2 : 1), side }];
  };
  const first = t.flatMap((_, i) => at(FIRST, "A", i) ?? []) as unknown as [number, Told & { side: boolean }];
  const second = t.flatMap((_, i) => at(OTHER, "B", i) ?? []) as unknown as [number, Told & { side: boolean }];
  return first.length === 2 && second.length === 2 && (first[1].side || second[1].side) ? [first, second] : [];
}
/** `A 5 A, B = 8 A, C 0`, `leg 1 has 22 amps and leg 2 has 15`, `12 A on one hot and 9 on the other`. */
const onLeg: Rule = (t, i) => {
  // `with A 5 A`: no word that makes something another.
  const at = text(t, i) === "with" ? i + 1 : i;
  const told = allTold(t).get(at);
  return told && one({ is: "on-leg", leg: told.leg, n: told.n, unit: told.unit }, told.to);
};

const MOVES = new Set(["move", "moved", "shift", "put", "swap", "switch", "moving", "land"]);
/** `move the laundry over to B`: the leg by its letter alone. */
const movedTo: Rule = (t, i) => {
  const leg = LETTERS[text(t, i)];
  const isLetter = leg !== undefined && t[i]!.typed === t[i]!.typed.toUpperCase() && t[i + 1]?.is !== "word";
  return isLetter && ["to", "onto", "on"].includes(text(t, i - 1)) && speaksOf(t, MOVES)
    ? one({ is: "term", sort: "leg", id: leg }, i + 1)
    : undefined;
};
/** Words that these rules may begin with, beside numbers. */
export const LEG_BEGINNINGS: readonly string[] = [...LEG_WORDS, ...Object.keys(LETTERS), "with"];
export const legRules: readonly Rule[] = [onLeg, movedTo, breakers, spaces];
