/** Circuits of a panel by what they are called: `bath is 1200`, `ckt 2 1800`. */
import type { Fact, Facts, Value } from "../../reading/facts.ts";
import { circuitNumber } from "../../reading/passes/panels.ts";
import { MEASURES } from "../plate.ts";
import { renewed, unitOf } from "../reply.ts";
import { countOf, type Figure, type Writable } from "./facts.ts";
import type { Merging } from "./state.ts";

const ROOMS: ReadonlySet<string> = new Set(["room", "space", "place"]);
const isRoom = (key: string): boolean => ROOMS.has(key.split(":")[0]!);
const isNameless = ({ family, id, slots }: Fact): boolean =>
  family === "load" && (id === undefined || id === "load") && !slots.name && measureOf(slots) !== undefined;
const measureOf = (slots: Fact["slots"]): Value | undefined => MEASURES.flatMap((slot) => slots[slot]?.[0] ?? [])[0];

/** A load with what stands beside it, its number and its name, for the texts that follow: those no more see it stand there. */
export function withNeighbours(told: Facts, kind: string): Facts {
  if (kind !== "panel-schedule") return told;
  const { facts, free } = withCounts(told);
  return {
    free,
    facts: facts.map((fact) => {
      if (!isNameless(fact)) return fact;
      const own = measureOf(fact.slots)!.pieces;
      const room = free.find(({ key, value }) =>
        isRoom(key) && value.pieces.some((at) => own.some((piece) => Math.abs(piece - at) === 1))
      );
      if (!room) return fact;
      const { said } = room.value;
      return { ...fact, slots: { ...fact.slots, name: [{ sense: { is: "words", words: said }, pieces: [], said }] } };
    }),
  };
}
const COUNT_REACH = 3;
/** `3 circuits of 900 VA`: so many of the load. */
function withCounts({ facts, free }: Facts): Facts {
  const counted = facts.filter((fact) => isNameless(fact) && !fact.slots.count).flatMap((load) => {
    const first = Math.min(...measureOf(load.slots)!.pieces);
    const circuit = facts.find(({ family, slots }) =>
      family === "circuit" && slots.count?.[0]?.pieces.some((at) => first - at > 0 && first - at <= COUNT_REACH)
    );
    return circuit ? [{ load, circuit }] : [];
  });
  // `three circuits: 1700, 1500 and 900 VA`: as many as are told.
  const nameless = facts.filter(isNameless).length;
  const isTotal = ({ circuit }: { circuit: Fact }) => nameless > 1 && countOf(circuit) === nameless;
  const own = counted.filter((each) => !isTotal(each));
  return {
    free,
    facts: facts.map((fact) => {
      const found = own.find(({ load }) => load === fact);
      if (found) return { ...fact, slots: { ...fact.slots, count: found.circuit.slots.count! } };
      const { count: _, ...slots } = fact.slots;
      return own.some(({ circuit }) => circuit === fact) ? { ...fact, slots } : fact;
    }),
  };
}
const nameOf = ({ slots }: Fact): string | undefined => {
  const sense = slots.name?.[0]?.sense;
  return sense?.is === "words" ? sense.words.toLowerCase() : undefined;
};
/** Whether words stand in the text as they are. */
function says({ text: { tokens } }: Merging, name: string): boolean {
  const words = name.split(/\s+/);
  return tokens.some((_, i) => words.every((word, k) => tokens[i + k]?.text === word));
}
const IN_THE: ReadonlySet<string> = new Set(["in", "on", "at", "for", "the", "a"]);
/** `move the laundry over to B`: a circuit that is known stands on another leg. */
function legTold(m: Merging): void {
  const leg = m.news.free.find(({ key }) => /^leg:[ABC]$/.test(key));
  const named = m.news.facts.filter(({ family, id }) => ["load", "circuit"].includes(family) && id !== undefined);
  const room = m.news.free.find(({ key }) => isRoom(key));
  const known = m.facts.filter((fact) =>
    named.some(({ family, id }) => fact.family === family && fact.id === id) ||
    named.length === 0 && room !== undefined && nameOf(fact) === room.value.said.trim().toLowerCase()
  );
  if (!leg || known.length !== 1) return;
  m.fill(known[0]!, { leg: [leg.value] });
  m.placed.add(leg);
  for (const fact of named) m.settleFact(fact);
  settleName(m, leg.value.pieces);
}
/** The figure of a circuit that is called by its name, or of a further one that has a number. */
export function circuitTold(m: Merging): void {
  if (m.known.kind !== "panel-schedule") return;
  m.news = withCounts(m.news);
  legTold(m);
  const number = circuitNumber(m.text.pieces, m.text.tokens);
  if (number) uncounted(m, number.at);
  const figures = m.figures().filter(({ value }) => number === undefined || !value.pieces.includes(number.at));
  const [figure, ...others] = figures;
  // A room that no circuit is called by yet is one more of them.
  const room = m.news.free.find(({ key }) => isRoom(key))?.value.said.trim().toLowerCase()
    .split(/\s+/).filter((word) => !IN_THE.has(word)).join(" ");
  const isIt = (fact: Fact) => nameOf(fact) === number?.said || says(m, nameOf(fact) ?? "\n");
  // `laundry 1800`: a circuit that has its own word.
  const isOwn = ({ family, id, slots }: Fact) =>
    family === "circuit" && slots.rating !== undefined &&
    m.news.facts.some((fact) => fact.family === "circuit" && fact.id === id);
  const [circuit, ...more] = m.facts.filter((fact) =>
    isOwn(fact) || fact.family === "load" && nameOf(fact) !== undefined && isIt(fact)
  );
  if (m.removes) return circuit && more.length === 0 && !figure ? taken(m, circuit, number?.pieces ?? []) : undefined;
  if (!figure || others.length > 0 || more.length > 0 || !circuit && !number && room === undefined) return;
  const model = circuit ??
    m.facts.find(({ family, slots }) => ["load", "circuit"].includes(family) && measureOf(slots));
  const slot = model && MEASURES.find((each) => model.slots[each]);
  const like = slot === undefined ? undefined : model!.slots[slot]![0]!;
  if (!slot || !like) return;
  const sense = figure.unit === undefined ? renewed(like.sense, figure.n) : figure.value.sense;
  if (!sense) return;
  const value = { ...figure.value, sense };
  const own = unitOf(value) === "A" ? "current" : "rating";
  if (circuit && !m.adds) m.fill(circuit, { [own]: [value] });
  else {
    const words = number?.said ?? (circuit && nameOf(circuit)) ?? room!;
    const name: Value = { sense: { is: "words", words }, pieces: [], said: words };
    m.append({ family: "load", said: "", pieces: [], sentence: 0, slots: { [own]: [value], name: [name] } });
  }
  settle(m, figure, number?.pieces ?? []);
}
/** A number that calls a circuit counts nothing. */
function uncounted(m: Merging, at: number): void {
  const isIt = ({ pieces }: Value) => pieces.includes(at);
  const facts = m.news.facts.map((fact) => {
    const { count, ...slots } = fact.slots;
    return count?.some(isIt) ? { ...fact, slots } : fact;
  });
  m.news = { facts, free: m.news.free.filter(({ value }) => !isIt(value)) };
}
function taken(m: Merging, circuit: Writable, pieces: readonly number[]): void {
  m.remove(circuit, pieces);
  settleName(m, pieces);
}
function settle(m: Merging, figure: Figure, pieces: readonly number[]): void {
  m.settle(figure);
  settleName(m, pieces);
}
function settleName(m: Merging, pieces: readonly number[]): void {
  for (const piece of pieces) m.used.add(piece);
  for (const each of m.news.free) {
    const isOfName = isRoom(each.key) || each.value.pieces.some((piece) => pieces.includes(piece));
    if (!isOfName) continue;
    m.placed.add(each);
    for (const piece of each.value.pieces) m.used.add(piece);
  }
  for (const fact of m.news.facts) {
    if (fact.family === "circuit" && fact.pieces.some((piece) => pieces.includes(piece))) m.settleFact(fact);
  }
}
