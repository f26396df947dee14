/** Which end of a run a rating stands at, and where each of several stretches begins and ends. */
import type { Sort } from "../lexicon/lexicon.ts";
import type { Sense } from "../sense.ts";
import type { Draft, Reading } from "./reading.ts";
import { ARTICLES, END_WORDS } from "./words.ts";

/** Sorts of terms that a stretch of wire may go to. */
const POINT_SORTS: readonly Sort[] = ["device", "place", "building"];
const END_REACH = 4;

/**
 * `from a 200 A panel`, `house has 200 A`, `want 100 A at the garage`: which end of the run a rating stands at. What is said
 * once holds up to the next comma; a rating without such a word has no end.
 */
export function ends(r: Reading): void {
  for (const fact of r.facts) {
    const figure = fact.slots.rating?.[0] ?? fact.slots.current?.[0];
    if (!figure) continue;
    const first = Math.min(...figure.pieces, ...fact.pieces);
    for (let at = first - 1; at >= Math.max(0, first - END_REACH); at--) {
      const { is, senses } = r.pieces[at]!;
      const end = senses.find((s) => s.is === "term" && s.sort === "end" && s.id in END_WORDS);
      const word = r.word(at);
      const id = end?.is === "term" ? end.id : Object.keys(END_WORDS).find((key) => END_WORDS[key]!.has(word));
      if (id !== undefined) {
        fact.slots.end = [r.value({ is: "term", sort: "end", id }, at)];
        break;
      }
      const isBuilding = senses.some((s) => s.is === "term" && s.sort === "building" && s.id === "existing");
      // `70 breaker on the primary and a 150 main`: the side is the first one's.
      if (word === "and" || (is !== "common" && is !== "mark" && !isBuilding)) break;
    }
  }
}

/**
 * `60 ft of 4/0 to the meter main, from the meter main 90 ft of #2 to the garage`: where each of several stretches begins and
 * ends, and how many sets it has, held by the stretch itself, because a conversation keeps no places.
 */
export function stretches(r: Reading): void {
  const facts = r.facts.filter(({ family, id, slots }) =>
    family === "conductor" && (id === undefined || id === "wire") && slots.size
  );
  const isFeet = (s: Sense) => s.is === "quantity" && ["ft", "m", "yd"].includes(s.unit);
  const loose = r.figures(isFeet);
  if (facts.length < 2 || facts.filter(({ slots }) => slots.length).length + loose.length < 2) return;
  // `120 ft of 2 sets of 1/0`: a length before its sets is the stretch's own.
  facts.forEach((fact, k) => {
    const size = fact.slots.size![0]!.pieces[0]!;
    const since = facts[k - 1]?.slots.size?.[0]?.pieces[0] ?? -1;
    const own = loose.filter((at) => at > since && at < size);
    if (!fact.slots.length && own.length === 1) {
      fact.slots.length = [r.value(r.pieces[own[0]!]!.senses.find(isFeet)!, own[0]!)];
    }
  });
  const wires = facts.map((fact) => {
    const own = Object.values(fact.slots).flatMap((values) => values.flatMap(({ pieces }) => pieces));
    return { fact, size: fact.slots.size![0]!.pieces[0]!, first: Math.min(...own), last: Math.max(...own) };
  });
  wires.forEach(({ fact, first, last }, k) => {
    pointsBetween(r, wires[k - 1]?.last ?? -1, first, fact, false);
    pointsBetween(r, last, wires[k + 1]?.first ?? r.pieces.length, fact, true);
  });
  for (const set of r.facts.filter(({ family, id }) => family === "circuit" && id === "set")) {
    const far = wires.map(({ size }) => Math.abs(size - set.at));
    const nearest = wires[far.lastIndexOf(Math.min(...far))]!.fact;
    const count = set.slots.count?.[0];
    if (count) nearest.slots.sets = [count];
  }
}

/** Points with a preposition: behind a stretch where it goes and comes from, in front of it where it comes from. */
function pointsBetween(r: Reading, after: number, before: number, fact: Draft, isBehind: boolean): void {
  for (let i = isBehind ? after + 1 : before - 1; i > after && i < before; i += isBehind ? 1 : -1) {
    if (r.pieces[i]!.is === "border" || (r.pieces[i]!.is === "comma" && (!isBehind || fact.slots.to))) return;
    const point = POINT_SORTS.some((sort) => r.sort(i, sort));
    if (!point) continue;
    let at = i - 1;
    while (ARTICLES.has(r.word(at))) at--;
    const words = r.said([i]).toLowerCase().split(" ");
    // `from the meter main` may be a term of its own.
    const joint = END_WORDS.from!.has(words[0]!) ? words.shift()! : r.word(at);
    while (ARTICLES.has(words[0]!)) words.shift();
    const slot = joint === "to" && isBehind ? "to" : END_WORDS.from!.has(joint) ? "from" : undefined;
    if (!slot) return;
    const sense: Sense = { is: "words", words: words.join(" ") };
    fact.slots[slot] ??= [{ sense, pieces: [i], said: r.said([i]) }];
    if (slot === "to" || !isBehind) return;
  }
}
