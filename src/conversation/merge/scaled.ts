/** `half that distance`, `twice as far`, `half of them`: a figure by what it was. */
import { classOf, countOf, isDwellings, LENGTH, numbered, type Place, type Writable } from "./facts.ts";
import type { Merging } from "./state.ts";

const TIMES: Readonly<Record<string, number>> = {
  half: 1 / 2,
  twice: 2,
  double: 2,
  triple: 3,
};
const OF_LENGTH = /\b(?:half|twice|double|triple)\b[^,.;]*\b(?:distance|length|far|long|run|way|footage)\b/i;
const OF_THEM =
  /\b(?:half of (?:them|those|em|these|the)|half as many|twice as many|double the (?:number|count|amount))\b/i;

/** A length or a number of things, halved or doubled. */
export function scaled(m: Merging): void {
  const word = m.text.tokens.find(({ text }) => text in TIMES)?.text;
  // `half as many 30s`: of the group that has this figure.
  const [figure, ...more] = m.figures();
  const named = figure && more.length === 0 && m.isPlural(figure) ? m.standing(figure)?.fact : undefined;
  // `half of them are 12`: some of them get another figure.
  const isOfSome = !named &&
    (m.numbers().length > 1 || m.news.facts.some(({ slots }) => Object.keys(slots).length > 0));
  if (word === undefined || isOfSome) return;
  const place = OF_LENGTH.test(m.text.asked)
    ? lengthOf(m)
    : OF_THEM.test(m.text.asked)
    ? countPlaceOf(m, named)
    : undefined;
  const was = place && m.senseAt(place);
  if (!place || !was || !("n" in was) || typeof was.n !== "number") return;
  const n = was.n * TIMES[word]!;
  if (was.is !== "quantity" && !Number.isInteger(n)) return;
  const said = was.is === "quantity" ? `${n} ${was.unit}` : String(n);
  const like = { sense: was, pieces: [], said };
  m.put(place, was.is === "quantity" ? { ...like, sense: { is: "quantity", n, unit: was.unit } } : numbered(like, n));
  if (figure && named) m.settle(figure);
  m.notes.push(`took ${said} for “${m.text.asked.trim()}”`);
  for (const each of m.news.free.filter(({ key }) => key === "number" || key === "count" || key === "label:length")) {
    m.placed.add(each);
    for (const piece of each.value.pieces) m.used.add(piece);
  }
}
const [FEWER, MORE] = [
  new Set(["dropped", "lost", "cut", "fewer", "less", "removed", "losing", "dropping"]),
  new Set(["added", "more", "extra", "additional", "gained", "adding"]),
];
/** `they dropped 2 units so 10`: homes fewer or more than were told; how many that makes may be told beside. */
export function otherHomes(m: Merging): void {
  const known = m.facts.filter(isDwellings);
  const [told, ...others] = m.news.facts.filter(isDwellings);
  const [homes] = known;
  if (!told || others.length > 0 || !homes || known.length > 1) return;
  const by = m.says(...FEWER) ? -countOf(told) : m.says(...MORE) ? countOf(told) : 0;
  const n = countOf(homes) + by;
  const numbers = m.numbers();
  if (by === 0 || n < 1 || numbers.some(({ value: { sense } }) => sense.is === "number" && sense.n !== n)) return;
  const value = told.slots.count![0]!;
  m.put({ fact: homes, slot: "count", index: 0 }, { ...numbered(value, n), said: String(n) });
  m.settleFact(told);
  for (const number of numbers) {
    m.placed.add(number);
    for (const piece of number.value.pieces) m.used.add(piece);
  }
}
function lengthOf(m: Merging): Place | undefined {
  const free = m.free.filter(({ key, value }) => classOf(key) === LENGTH && value.sense.is === "quantity");
  const facts = m.facts.filter(({ slots }) => slots.length?.[0]?.sense.is === "quantity");
  if (free.length + facts.length !== 1) return undefined;
  return free[0] ? { free: free[0] } : { fact: facts[0]!, slot: "length", index: 0 };
}
function countPlaceOf(m: Merging, named: Writable | undefined): Place | undefined {
  if (named) return named.slots.count ? { fact: named, slot: "count", index: 0 } : undefined;
  const loads = m.facts.filter((fact) => fact.family === "load" && countOf(fact) > 1);
  const counted = loads.length > 0 ? loads : m.facts.filter(isDwellings);
  return counted.length === 1 ? { fact: counted[0]!, slot: "count", index: 0 } : undefined;
}
