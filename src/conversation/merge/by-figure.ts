/** Figures that name the one they belong to: `lose the 7.5`, `15 instead of the 7.5`, and what stands behind `instead of`. */
import { is } from "../../reading/manner.ts";
import type { Fact, Free } from "../../reading/facts.ts";
import { MEASURES, PLATE } from "../plate.ts";
import { renewed, unitOf } from "../reply.ts";
import { countOf, type Figure, isEqual, isLike, PAIR } from "./facts.ts";
import type { Merging } from "./state.ts";

/** `leave out the 7.5`, `lose the 7.5 horse`: the load of which that is the figure. */
export function removeByFigure(m: Merging): void {
  for (const figure of m.figures()) {
    const place = m.standing(figure);
    if (place?.fact.family === "load" && m.removeOf(place.fact, figure.value.pieces, m.isPlural(figure))) {
      m.settle(figure);
    }
  }
}
/** `swap the 7.5 for a 15`, `15 instead of the 7.5`: the figure that is known becomes the other. */
export function swapped(m: Merging): void {
  const figures = m.figures();
  const isSwap = m.instead ||
    m.news.free.some(({ key }) => key === "change:make" || key === "change:correct") ||
    m.says("for", "to", "into", "with", "not", "becomes", "became", "now", "is", "are");
  if (figures.length !== 2 || !isSwap || m.adds) return;
  if (m.news.facts.some((fact) => fact.family === "load" && !figures.some(({ from }) => from === fact))) return;
  const [first, second] = figures as [Figure, Figure];
  const [one, two] = [m.standing(first), m.standing(second)];
  const place = one && !(two && m.instead) ? one : two;
  const by = place === one ? second : first;
  const like = place && m.senseAt(place);
  if (!place || !like || (by.unit !== undefined && by.unit !== unitOf({ ...by.value, sense: like }))) return;
  const sense = renewed(like, by.n)!;
  const count = countOf(place.fact);
  const known = place === one ? first : second;
  if (count > 1 && !m.isPlural(known)) {
    if (!m.says("one")) return;
    place.fact.slots.count = [{ ...place.fact.slots.count![0]!, sense: { is: "number", n: count - 1 } }];
    const { count: _, ...slots } = place.fact.slots;
    m.append({ ...place.fact, slots: { ...slots, [place.slot]: [{ ...by.value, sense }] } });
  } else {
    m.put(place, { ...by.value, sense });
  }
  for (const figure of figures) m.settle(figure);
}
/** `add another 7.5`: one more, in the unit that all have. */
export function addByNumber(m: Merging): void {
  const numbers = m.numbers();
  const loads = m.facts.filter(({ family }) => family === "load");
  const slot = MEASURES.find((each) => loads.length > 0 && loads.every(({ slots }) => slots[each]));
  if (numbers.length !== 1 || slot === undefined || m.news.facts.some(({ family }) => family === "load")) return;
  if (is(m.known, "one load") || new Set(loads.map(({ slots }) => unitOf(slots[slot]![0]))).size !== 1) {
    return;
  }
  const [number] = numbers as [Free];
  const model = loads.at(-1)!;
  const { count: _, share: __, ...slots } = model.slots;
  const sense = renewed(slots[slot]![0]!.sense, (number.value.sense as { n: number }).n);
  if (!sense) return;
  for (const plate of PLATE) if (plate !== slot) delete slots[plate];
  m.append({ ...model, pieces: [], slots: { ...slots, [slot]: [{ ...number.value, sense }] } });
  m.placed.add(number);
}
/** `and a 3 A sign as well, so 7 amps`: what is told of all together, where it is their sum. */
export function sumTold(m: Merging): void {
  const loads = m.facts.filter(({ family }) => family === "load");
  const news = m.news.facts.filter(({ family }) => family === "load");
  const [only] = loads;
  const all = news.findLast(({ id }) => id === undefined);
  const added = news.filter((fact) => fact !== all);
  const slot = only && MEASURES.find((each) => only.slots[each]);
  if (loads.length !== 1 || !all || added.length === 0 || !only || !slot || news.some(({ slots }) => slots.count)) {
    return;
  }
  const measures = [only, ...added, all].map(({ slots }) => Object.values(slots).flat()[0]?.sense);
  const unit = unitOf(only.slots[slot]![0]);
  const figures = [only.slots[slot]![0]?.sense, ...measures.slice(1)].flatMap((sense) =>
    sense?.is === "quantity" && sense.unit === unit ? [sense.n] : []
  );
  const total = figures.at(-1)!;
  const sum = figures.slice(0, -1).reduce((a, b) => a + b, 0);
  if (figures.length !== measures.length || Math.abs(sum - total) > 1e-9) return;
  m.put({ fact: only, slot, index: 0 }, Object.values(all.slots).flat()[0]!);
  for (const fact of news) m.settleFact(fact);
}
/** `the label says 31 and 45`: the two figures of a nameplate that told these two, in its order. */
export function pairTold(m: Merging): void {
  const plate = m.facts.find(({ slots }) => PAIR.every((slot) => slots[slot]));
  const pair = m.news.free.filter(({ value: { sense } }) => sense.is === "pair");
  // `the plate says 27 and 40`: the first of them stands at the label.
  const labelled = m.news.facts.filter(({ id, slots }) =>
    id === undefined && Object.keys(slots).join() === "nameplate" && slots.nameplate![0]!.sense.is === "number"
  );
  const numbers = [
    ...labelled.map(({ slots, sentence }): Free => ({ key: "number", value: slots.nameplate![0]!, sentence })),
    ...m.numbers(),
  ];
  if (!plate || m.adds || pair.length + numbers.length !== (pair.length === 1 ? 1 : 2)) return;
  const read = [...pair, ...numbers];
  const figures = read.flatMap(({ value: { sense } }) =>
    sense.is === "pair" ? [sense.a, sense.b] : sense.is === "number" ? [sense.n] : []
  );
  if (
    figures[0]! > figures[1]! ||
    !figures.every((n) => isLike((plate.slots[PAIR[0]!]![0]!.sense as { n: number }).n, n))
  ) return;
  PAIR.forEach((slot, i) =>
    m.put({ fact: plate, slot, index: 0 }, {
      ...read[i % read.length]!.value,
      sense: { is: "quantity", n: figures[i]!, unit: "A" },
    })
  );
  for (const each of read) m.placed.add(each);
  for (const fact of labelled) m.settled.add(fact);
}
/** `the rod instead of the pipe`: what stands behind those words is no more. */
export function insteadOf(m: Merging): void {
  const { pieces, tokens } = m.text;
  const at = pieces.findIndex(({ senses, to }) =>
    senses.some((s) => s.is === "term" && s.sort === "change" && s.id === "instead") &&
      ["of", "than"].includes(tokens[to - 1]!.text) ||
    tokens[to]?.text === "than" && tokens[to - 1]!.text === "rather"
  );
  if (at < 0) return;
  const gone = pieces.findIndex(({ is, senses }, i) =>
    i > at && i <= at + 3 && is === "fact" && senses.some((s) => s.is === "term")
  );
  if (gone < 0) return;
  const fact = m.news.facts.find((each) => each.pieces.includes(gone));
  const free = m.news.free.filter(({ value }) => value.pieces.includes(gone));
  if (!fact && free.length === 0) return;
  m.used.add(gone);
  if (fact) {
    m.settled.add(fact);
    const old = m.facts.find(({ family, id }) => family === fact.family && id === fact.id);
    if (old) m.remove(old, fact.pieces);
    if (old?.family === "load") takePlace(m, old, fact);
    if (old?.family === "building") takeFloor(m, old, fact);
  }
  for (const each of free) {
    m.placed.add(each);
    m.free = m.free.filter(({ key }) => key !== each.key);
  }
}
/** `heat pump instead of the AC, 24 amps`, `…, same amps`: what comes has the figure told behind, or that of what it replaces. */
function takePlace(m: Merging, old: Fact, gone: Fact): void {
  m.isReplaced = true;
  const come = m.news.facts.find((each) =>
    each.family === "load" && each !== gone && each.id !== undefined && !MEASURES.some((slot) => each.slots[slot])
  );
  const told = Object.entries(gone.slots).filter(([slot, [value]]) =>
    MEASURES.includes(slot) && value && !isEqual(old.slots[slot]?.[0]?.sense, value.sense)
  );
  const same = MEASURES.find((each) => old.slots[each]);
  const own = told.length > 0
    ? Object.fromEntries(told)
    : same && m.says("same")
    ? { [same]: old.slots[same]!.map((value) => ({ ...value, pieces: [] })) }
    : undefined;
  if (!come || !own) return;
  m.news = {
    ...m.news,
    facts: m.news.facts.map((each) => each === come ? { ...each, slots: { ...each.slots, ...own } } : each),
  };
}
/** `retail store instead of office`: on the same floor. */
function takeFloor(m: Merging, { slots: { area } }: Fact, gone: Fact): void {
  const come = m.news.facts.find((each) => each.family === "building" && each !== gone && !each.slots.area);
  if (!come || !area) return;
  m.news = {
    ...m.news,
    facts: m.news.facts.map((each) => each === come ? { ...each, slots: { ...each.slots, area } } : each),
  };
}
