/** Tokens → pieces: what a meter says between two points of a panel, and heights in feet and inches. */
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt } from "./numbers.ts";
import { type Found, isGlued, one, type Rule, type Sense, speaksOf, text } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

type Point = "neutral bar" | "ground bar" | "case" | "line A" | "line B" | "line C";
const OF_TERM: Readonly<Record<string, Point>> = {
  "bar:neutral-bar": "neutral bar",
  "bar:ground-bar": "ground bar",
  "bar:case": "case",
  "role:neutral": "neutral bar",
  "role:equipment-ground": "ground bar",
  "role:ungrounded": "line A",
  "leg:A": "line A",
  "leg:B": "line B",
};
/** One letter each, only beside another: `N to G`, `N-G`. */
const LETTERS: Readonly<Record<string, Point>> = {
  n: "neutral bar",
  g: "ground bar",
  neut: "neutral bar",
  grounds: "ground bar",
  neutrals: "neutral bar",
  can: "case",
  box: "case",
  tub: "case",
  line: "line A",
};
/** More of them in a row are no words before a thing. */
const MOST_ARTICLES = 4;
const ARTICLES = new Set(["the", "my", "a", "its", "each", "any", "one", "that", "feeder", "panel"]);
/** `hot B` */
const LINES: Readonly<Record<string, Point>> = { a: "line A", b: "line B", c: "line C" };
const BARS = new Set(["bar", "bus", "block", "terminal"]);

function pointAt(t: readonly Token[], i: number): { point: Point; next: number } | undefined {
  let at = i;
  while (at < i + MOST_ARTICLES && ARTICLES.has(text(t, at))) at++;
  const term = termAt(t, at);
  for (const { sort, id } of term?.terms ?? []) {
    const point = OF_TERM[`${sort}:${id}`];
    const line = sort === "role" && point === "line A" ? LINES[text(t, term!.next)] : undefined;
    if (point && line) return { point: line, next: term!.next + 1 };
    if (point) return { point, next: term!.next + (BARS.has(text(t, term!.next)) ? 1 : 0) };
  }
  const letter = LETTERS[text(t, at)];
  return letter && !term ? { point: letter, next: at + 1 } : undefined;
}

const JOINTS = new Set(["to", "and", "-", "/", "&", "with", "against", "from", "+", "or", "versus", "vs"]);
/** `A to neutral`, `from B to A`: a line by its letter, as a capital, and only beside a joint. */
function letteredAt(t: readonly Token[], i: number): { point: Point; next: number } | undefined {
  const point = LINES[text(t, i)];
  const isCapital = t[i]?.typed !== text(t, i);
  return point && isCapital && (JOINTS.has(text(t, i + 1)) || JOINTS.has(text(t, i - 1)))
    ? { point, next: i + 1 }
    : undefined;
}

/** Words for a line that is told beside another: `leg to leg`. */
const ANY_LINE = new Set(["leg", "hot", "phase", "line", "ungrounded"]);
/** What a sum is spoken of by, and no meter. */
const OF_SUM = new Set(["fault", "impedance", "transformer", "bolted", "short"]);
function linesAt(t: readonly Token[], i: number): { from: Point; to: Point; next: number } | undefined {
  const isPair = ANY_LINE.has(text(t, i)) && text(t, i + 1) === "to" && text(t, i + 2) === text(t, i);
  if (!isPair || LINES[text(t, i + 3)] || speaksOf(t, OF_SUM)) return undefined;
  return { from: "line A", to: "line B", next: i + 3 };
}

/** Two points or more, each with the first of them: `neutral to ground`, `neutral to the case`. */
function pairAt(t: readonly Token[], i: number): { from: Point; to: Point; next: number } | undefined {
  const lines = linesAt(t, i);
  if (lines) return lines;
  const from = letteredAt(t, i) ?? pointAt(t, i);
  if (!from || !JOINTS.has(text(t, from.next))) return undefined;
  const to = letteredAt(t, from.next + 1) ?? pointAt(t, from.next + 1);
  return to && to.point !== from.point ? { from: from.point, to: to.point, next: to.next } : undefined;
}

type Reads = { reads: "closed" | "open" } | { ohms: number };
/** Single words that are a reading only behind a pair of points. */
const BEHIND: Readonly<Record<string, "closed" | "open">> = {
  closed: "closed",
  continuous: "closed",
  continuity: "closed",
  shorted: "closed",
  zero: "closed",
  open: "open",
  ol: "open",
  infinite: "open",
};
function readsAt(t: readonly Token[], i: number, isBehind: boolean): { reads: Reads; next: number } | undefined {
  const meter = termAt(t, i);
  const found = meter?.terms.find(({ sort }) => sort === "meter");
  if (found) return { reads: { reads: found.id as "closed" | "open" }, next: meter!.next };
  const read = numberAt(t, i);
  const unit = read && unitAt(t, read.next, read.n);
  const mega = ["megohm", "megohms", "megaohm", "megaohms", "meg"].includes(text(t, read?.next ?? -1)) ||
    // `3 Mohm` is a million times what `3 mohm` is.
    read !== undefined && text(t, read.next) === "mohm" && t[read.next]!.typed.startsWith("M");
  if (read && unit?.unit === "ohm") return { reads: { ohms: read.n }, next: unit.next };
  if (read && mega) return { reads: { ohms: read.n * 1e6 }, next: read.next + 1 };
  const kilo = text(t, read?.next ?? -1) === "k" && read && unitAt(t, read.next + 1)?.unit === "ohm";
  if (kilo) return { reads: { ohms: read!.n * 1000 }, next: unitAt(t, read!.next + 1)!.next };
  const word = isBehind ? BEHIND[text(t, i)] : undefined;
  return word ? { reads: { reads: word }, next: i + 1 } : undefined;
}

/** What is only asked: `should neutral and ground beep`. */
const ASKED = new Set(["should", "shall", "supposed", "must", "ought", "shouldn't", "expect", "expected"]);
const MOST_BETWEEN = 7;
const isWordOfStory = (t: readonly Token[], i: number): boolean =>
  t[i] !== undefined &&
  (t[i]!.is === "word" || [":", "=", "-"].includes(text(t, i)) && !isGlued(t, i + 1) ||
    [":", "="].includes(text(t, i))) &&
  !ASKED.has(text(t, i));
const isAskedBefore = (t: readonly Token[], i: number): boolean =>
  [1, 2, 3, 4, 5, 6].some((back) => ASKED.has(text(t, i - back)));

const readingOf = (pairs: readonly { from: Point; to: Point }[], reads: Reads, to: number): Found => {
  const senses = pairs.map(({ from, to }): Sense => ({ is: "reading", from, to, ...reads }));
  return { senses, to };
};

/** `neutral to ground reads open`, `N-G 0.2 ohms`, `neutral to ground and ground to case closed`. */
const behindPairs: Rule = (t, i) => {
  const pairs: { from: Point; to: Point }[] = [];
  let at = i;
  for (;;) {
    const pair = pairAt(t, at);
    if (!pair) break;
    pairs.push(pair);
    at = pair.next;
    // `neutral to ground and case`: the first point with each.
    while (["and", "or", "/", "&"].includes(text(t, at)) && !pairAt(t, at + 1)) {
      const more = pointAt(t, at + 1);
      if (!more) break;
      pairs.push({ from: pairs.at(-1)!.from, to: more.point });
      at = more.next;
    }
    if (!["and", "&", ","].includes(text(t, at)) || !pairAt(t, at + 1)) break;
    at++;
  }
  if (pairs.length === 0 || isAskedBefore(t, i)) return undefined;
  for (let far = 0; far <= MOST_BETWEEN; far++) {
    const reads = readsAt(t, at + far, true);
    if (reads) return readingOf(pairs, reads.reads, reads.next);
    if (!isWordOfStory(t, at + far) || pairAt(t, at + far)) return undefined;
  }
  return undefined;
};

const BETWEEN = new Set(["between", "from", "across", "on"]);
/** `continuity between neutral and ground`, `no beep ground to case`, `0.3 ohms from N to G`. */
const beforePair: Rule = (t, i) => {
  const word = BETWEEN.has(text(t, i + 1)) ? BEHIND[text(t, i)] : undefined;
  const reads = readsAt(t, i, false) ?? (word && { reads: { reads: word }, next: i + 1 });
  if (!reads || isAskedBefore(t, i)) return undefined;
  for (let far = 0; far <= 2; far++) {
    const pair = pairAt(t, reads.next + far);
    if (pair) return readingOf([pair], reads.reads, pair.next);
    if (!BETWEEN.has(text(t, reads.next + far)) && text(t, reads.next + far) !== "the") return undefined;
  }
  return undefined;
};

/** `the neutral beeps to the case`, `ground bar has no continuity to the can`. */
const aroundReading: Rule = (t, i) => {
  const from = pointAt(t, i);
  if (!from || isAskedBefore(t, i)) return undefined;
  for (let far = 0; far <= 3; far++) {
    const reads = readsAt(t, from.next + far, false);
    if (reads) {
      if (!["to", "with", "against"].includes(text(t, reads.next))) return undefined;
      const to = pointAt(t, reads.next + 1);
      return to && to.point !== from.point
        ? readingOf([{ from: from.point, to: to.point }], reads.reads, to.next)
        : undefined;
    }
    if (!isWordOfStory(t, from.next + far)) return undefined;
  }
  return undefined;
};

const INCHES = 12;
const HEIGHTS = new Set(["handle", "height", "high", "breaker", "headroom", "ceiling"]);
/** Behind the inches of a height that are told without their unit: `6 ft 9 ok`. */
const OF_HEIGHT = new Set([
  "ok",
  "okay",
  "high",
  "tall",
  "off",
  "above",
  "up",
  "from",
  "enough",
  "good",
  "legal",
  "too",
  "allowed",
  "?",
  ".",
]);
/** `6 ft 7 in`, `6'7"`, `6 ft 7 high`: one height. */
const feetAndInches: Rule = (t, i) => {
  const feet = numberAt(t, i);
  const unit = feet && unitAt(t, feet.next, feet.n);
  if (!feet || unit?.unit !== "ft" || !Number.isInteger(feet.n)) return undefined;
  const at = text(t, unit.next) === "-" || text(t, unit.next) === "and" ? unit.next + 1 : unit.next;
  const inches = numberAt(t, at);
  const inch = inches && unitAt(t, inches.next, inches.n);
  const isGluedInches = text(t, unit.next - 1) === "'" && isGlued(t, at);
  const after = inches && text(t, inches.next);
  const isBare = inches && feet.n < INCHES && !unitAt(t, inches.next, inches.n) && Number.isInteger(inches.n) &&
    (t[inches.next] === undefined || OF_HEIGHT.has(after!)) && speaksOf(t, HEIGHTS);
  if (
    !inches || inches.n >= INCHES || (inch?.unit !== "in" && after !== "in" && !isGluedInches && !isBare)
  ) return undefined;
  const to = inch?.unit === "in" ? inch.next : text(t, inches.next) === "in" ? inches.next + 1 : inches.next;
  const n = feet.n * INCHES + inches.n;
  return one({ is: "quantity", n, unit: "in", from: `${feet.n} ft ${inches.n} in` }, to);
};

export const readingRules: readonly Rule[] = [behindPairs, beforePair, aroundReading, feetAndInches];
/** Words that a reading may begin with, besides numbers and terms. */
export const READING_BEGINNINGS: readonly string[] = [
  ...Object.keys(LETTERS),
  ...ARTICLES,
  "neutral",
  "neutrals",
  "ground",
  "equipment",
  "egc",
  "case",
  "enclosure",
  "cabinet",
  "hot",
  "leg",
  "grounded",
  "no",
  "continuity",
  "beep",
  "beeps",
  "beeping",
  "open",
  "ol",
  "rings",
  "zero",
  "getting",
  "get",
  "got",
  "reads",
  "shows",
  "there's",
  "has",
  "have",
  "is",
  "found",
  "find",
  "doesn't",
  "phase",
  "line",
  "a",
  "b",
  "c",
  "infinite",
  "dead",
  "shorted",
  "buzzes",
  "buzzing",
];
