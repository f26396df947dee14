/** Loads that a text names again, or instead of others, or by no more than a figure. */
import { is } from "../../reading/manner.ts";
import type { Fact } from "../../reading/facts.ts";
import { RATINGS } from "../../reading/passes/services.ts";
import { fuelOfAll, saysToo } from "../fuels.ts";
import { isOfThem } from "../counts.ts";
import { MEASURES } from "../plate.ts";
import { renewed, unitOf } from "../reply.ts";
import {
  alikeOf,
  CLEARLY,
  countOf,
  isBare,
  isEqual,
  isMachine,
  isOfSupply,
  isSame,
  measureOf,
  numbered,
  OF_ALL,
  type Writable,
} from "./facts.ts";
import { singleTold } from "./free.ts";
import type { Merging } from "./state.ts";

export function loadTold(m: Merging, fact: Fact): void {
  if (fact.id === undefined) return figureTold(m, fact);
  const measure = MEASURES.find((slot) => fact.slots[slot]);
  const alike = m.facts.filter(({ family, id }) => family === "load" && isSame(id, fact.id));
  const told = alike.filter(({ slots }) => Object.keys(slots).length > 0);
  const same = told.find(({ id }) => id === fact.id) ?? told[0] ?? alike.find(({ id }) => id === fact.id) ?? alike[0];
  // `they are 460 V motors`: all of them.
  if (
    !m.removes && alike.length > 1 && /s$/i.test(fact.said) &&
    Object.keys(fact.slots).every((slot) => OF_ALL.has(slot))
  ) {
    for (const each of alike) toldAgain(m, each, fact);
    return;
  }
  if (m.removes && isPutBack(m, fact)) return same ? toldAgain(m, same, fact) : m.append(fact);
  if (m.removes) {
    const pieces = [...fact.pieces, ...Object.values(fact.slots).flat().flatMap((value) => value.pieces)];
    const isPlural = /s$/i.test(fact.said);
    // Named with a figure that none of them has, nothing is taken away: it is asked about.
    if (
      measure !== undefined &&
      !fact.slots[measure]!.some(({ sense }) => alike.some(({ slots }) => isEqual(slots[measure]?.[0]?.sense, sense)))
    ) return;
    // `lose 4 receptacle circuits`: so many of those that are there.
    const some = fact.slots.count ? countOf(fact) : 0;
    if (same && some > 0 && some < countOf(same)) {
      same.slots.count = [numbered(same.slots.count![0]!, countOf(same) - some)];
      for (const piece of pieces) m.used.add(piece);
      return;
    }
    const gone = isPlural && alike.length > 1 && !m.says("one") ? alike : same ? [same] : [];
    for (const each of gone) m.removeOf(each, pieces, isPlural);
    return;
  }
  const gone = same ? undefined : m.gone.find(({ id }) => isSame(id, fact.id));
  if (gone && m.says("back", "again")) return putBack(m, gone, fact);
  if (same && !m.adds) return toldAgain(m, same, fact);
  if (same && measure === undefined) return m.append(alikeOf(same, fact));
  const added = addedInstead(m);
  if (!same && added) return inPlaceOf(m, added, fact);
  const loads = m.facts.filter(({ family }) => family === "load");
  if (!same && loads.length > 0 && isOfSupply(fact)) return ofSupply(m, fact);
  if (loads.length === 1 && !m.adds && (is(m.known, "one load") || m.instead && !m.isReplaced)) {
    return inPlaceOf(m, loads[0]!, fact);
  }
  // `and a 9 kW sauna too`, of what a service is to take: it is to be added as well.
  const isLargest = m.news.free.some(({ key }) => key === "motorWord:largest");
  // `and a hot tub 40 A`, of a service to which something is to be added.
  const goesOn = /^\W*(?:and|plus|also)\b/i.test(m.text.asked);
  const isToCome = m.known.kind === "added-load" && (m.adds || isLargest || goesOn) && !fact.others?.includes("added");
  m.append(isToCome ? { ...fact, others: [...fact.others ?? [], "added"] } : fact);
}
const [SWAPS, BY] = [
  new Set(["swap", "swapping", "swaps", "replace", "replacing", "trade", "trading", "change", "changing", "switching"]),
  new Set(["for", "with", "by", "to", "into"]),
];
/** `swapping the AC for a heat pump, 40 amps`: what is known goes, and what is named behind comes in its place. */
export function swappedLoads(m: Merging): void {
  const { tokens, pieces } = m.text;
  const heads = m.news.facts.filter(({ family, id }) => family === "load" && id !== undefined);
  const [gone, come, ...others] = heads.toSorted((a, b) => (a.pieces[0] ?? 0) - (b.pieces[0] ?? 0));
  if (!gone || !come || others.length > 0 || !isBare(gone.slots)) return;
  const at = (fact: Fact) => pieces[fact.pieces[0] ?? -1]?.from ?? -1;
  const isSwap = tokens.slice(0, at(gone)).some(({ text }) => SWAPS.has(text)) &&
    tokens.slice(at(gone), at(come)).some(({ text }) => BY.has(text));
  const known = m.facts.filter(({ family, id }) => family === "load" && isSame(id, gone.id));
  if (!isSwap || known.length !== 1 || m.facts.some(({ id }) => id === come.id)) return;
  m.remove(known[0]!, gone.pieces);
  m.settled.add(gone);
  m.append(m.known.kind === "added-load" ? { ...come, others: [...come.others ?? [], "added"] } : come);
  m.settled.add(come);
}
/** `put the dryer back`, `the charger back in but a 32 A one`: with its figures, where it has no others now. */
function putBack(m: Merging, gone: Fact, fact: Fact): void {
  m.gone = m.gone.filter((each) => each !== gone);
  m.append({ ...gone, pieces: fact.pieces });
  const back = m.facts.at(-1)!;
  if (!isBare(fact.slots)) return toldAgain(m, back, fact);
  const said = Object.values(gone.slots).flat().map(({ said }) => said.trim()).filter(Boolean).join(", ");
  if (said) m.notes.push(`took the ${gone.said} as it was told before: ${said}`);
}
/** Verbs behind which stands what comes in the place of what is taken away. */
const PUTS = new Set(["put", "putting", "install", "installing", "add", "adding"]);
/** `take out the range and put two ovens`: what stands behind the second verb is none of what is taken away. */
function isPutBack({ text }: Merging, { pieces }: Fact): boolean {
  const and = text.tokens.findIndex(({ text: word }, i) => i > 1 && PUTS.has(word));
  const at = text.pieces[pieces[0] ?? -1]?.from ?? -1;
  return and >= 0 && at > and;
}
/** `what about a 40 A charger instead`, of what is to be added to a service: the one thing that was. */
function addedInstead(m: Merging): Writable | undefined {
  const isOther = m.instead || m.news.free.some(({ key }) => key === "change:make");
  if (m.known.kind !== "added-load" || !isOther || m.adds || m.removes) return undefined;
  const added = m.facts.filter(({ family, others }) => family === "load" && others?.includes("added"));
  return added.length === 1 ? added[0] : undefined;
}
/** `they are 460 V motors`, of loads without a name: what they are supplied with. */
export function ofSupply(m: Merging, fact: Fact): void {
  for (const piece of fact.pieces) m.used.add(piece);
  for (const value of Object.values(fact.slots).flat()) {
    const { sense } = value;
    const key = sense.is === "term" ? `${sense.sort}:${sense.id}` : sense.is === "quantity" ? sense.unit : "volts";
    singleTold(m, { key, value, sentence: fact.sentence });
  }
}
export function toldAgain(m: Merging, same: Writable, fact: Fact): void {
  // `they are 4 kW dryers`, told before by no more than what each draws.
  const unnamed = m.facts.find((each) => each.family === "load" && each.id === undefined && each.slots.share);
  if (unnamed && measureOf(fact.slots) && !measureOf(same.slots)) {
    m.facts.splice(m.facts.indexOf(unnamed), 1);
  }
  m.fill(same, fact.slots);
  Object.assign(same, { pieces: fact.pieces });
  // `the fan is 2.2`: the new value of its own figure.
  const numbers = m.numbers();
  const slot = MEASURES.find((each) => same.slots[each]);
  const like = slot === undefined ? undefined : same.slots[slot]![0];
  // `bumped the receptacles to 70`, of what is only counted.
  const [number] = numbers;
  const isCount = Object.keys(fact.slots).length === 0 && numbers.length === 1 && !like && same.slots.count &&
    number!.value.sense.is === "number" && Number.isInteger(number!.value.sense.n);
  if (isCount) {
    m.put({ fact: same, slot: "count", index: 0 }, { ...number!.value });
    m.placed.add(number!);
    return;
  }
  if (Object.keys(fact.slots).length > 0 || numbers.length !== 1 || !like) return;
  const { value } = numbers[0]!;
  // `back to the ranges, ten of those too`
  if (same.slots.count && isOfThem(numbers[0]!, m.text) && "n" in value.sense) {
    m.put({ fact: same, slot: "count", index: 0 }, numbered(value, value.sense.n as number));
    m.placed.add(numbers[0]!);
    return;
  }
  const sense = renewed(like.sense, (value.sense as { n: number }).n);
  if (!sense) return;
  m.put({ fact: same, slot: slot!, index: 0 }, { ...value, sense });
  m.placed.add(numbers[0]!);
}
/** Another load instead of the only one: what was told of the supply stays. */
export function inPlaceOf(m: Merging, only: Writable, fact: Fact): void {
  const isSame = fact.id === "load" || (isMachine(fact.id) && isMachine(only.id));
  if (!isSame) {
    only.slots = Object.fromEntries(
      Object.entries(only.slots).filter(([slot]) => ["volts", "phase", "hours"].includes(slot)),
    );
  }
  Object.assign(only, { id: isSame ? only.id ?? fact.id : fact.id, pieces: fact.pieces, said: fact.said });
  m.fill(only, fact.slots);
}
/** A load that is only a figure belongs to the fact that has its like. */
function figureTold(m: Merging, fact: Fact): void {
  const slots = Object.keys(fact.slots);
  const slot = slots.find((each) => MEASURES.includes(each)) ?? slots[0];
  if (slot === undefined || m.removes) return;
  const unit = unitOf(fact.slots[slot]?.[0]);
  const loads = m.facts.filter(({ family }) => family === "load");
  // `the drop with 60 A on it`: what it carries, and no other breaker.
  const isCarried = slot === "current" &&
    m.news.free.some(({ key }) => key === "label:drop" || key === "goal:drop");
  const told = fact.slots[slot]?.[0]?.sense;
  // `50 of the 50 A`: of several groups the one that has this figure.
  const group = fact.slots.count && told && loads.length > 1
    ? loads.find(({ slots }) => isEqual(slots[slot]?.[0]?.sense, told))
    : undefined;
  const n = told && "n" in told && typeof told.n === "number" ? told.n : NaN;
  const home = group ??
    (isCarried && loads.length === 0 ? undefined : homeOf(m, slot, unit, loads, isCarried ? NaN : n));
  // Another group of what is counted, by its own figure.
  if (home && m.adds && fact.slots.count && home.slots.count && home.id !== undefined) {
    return m.append({ ...fact, id: home.id, said: home.said });
  }
  if (!home || m.adds) return m.append(fact);
  // `5.2 kW each`, of a group that is counted: of each of them, and no more of them.
  if (home.family === "load" && home.slots.count && fact.slots.share) {
    const { share, ...told } = fact.slots;
    for (const { pieces } of share) for (const piece of pieces) m.used.add(piece);
    return m.fill(home, told);
  }
  if (home.family === "load") m.fill(home, fact.slots);
  else m.fill(home, { rating: fact.slots[slot]! });
}
/** The one feeder or device of which a round figure is the rating rather than what a load draws. */
function nearerRating(m: Merging, n: number, loads: readonly Writable[]): Writable | undefined {
  const ampsOf = (slots: Fact["slots"], slot: string) => {
    const sense = slots[slot]?.[0]?.sense;
    return sense?.is === "quantity" && sense.unit === "A" || sense?.is === "number" ? sense.n : undefined;
  };
  const rated = m.facts.filter(({ family, id, slots }) =>
    (family === "device" || id === "feeder") && ampsOf(slots, "rating") !== undefined
  );
  const drawn = loads.flatMap(({ slots }) => ampsOf(slots, "current") ?? ampsOf(slots, "draw") ?? []);
  const [only, ...others] = rated;
  if (!only || others.length > 0 || drawn.length === 0 || !RATINGS.has(n)) return undefined;
  const far = (was: number) => Math.max(was / n, n / was);
  return drawn.every((each) => far(each) > far(ampsOf(only.slots, "rating")!) * CLEARLY) ? only : undefined;
}
function homeOf(
  m: Merging,
  slot: string,
  unit: string | undefined,
  loads: readonly Writable[],
  n: number,
): Writable | undefined {
  const told = m.told;
  // What is to be added and has no size yet is what a figure alone is told of.
  const open = loads.filter(({ others, slots }) => others?.includes("added") && measureOf(slots) === undefined);
  if (m.known.kind === "added-load" && open.length === 1 && MEASURES.includes(slot)) return open[0];
  // `no she picked the 11 kW one`, of the one thing that is to be added: another of its sort.
  const [toCome, ...more] = loads.filter(({ others }) => others?.includes("added"));
  if (m.known.kind === "added-load" && toCome && more.length === 0 && m.says("one", "instead", "no", "wait")) {
    return toCome;
  }
  // The figure told last, where it is of the same unit; what is drawn is a load's and no device's.
  if (told && "fact" in told && unit !== undefined && (slot === "current" || told.fact.family === "load")) {
    if (unitOf(told.fact.slots[told.slot]?.[told.index]) === unit) return told.fact;
  }
  // `boss says 400 amp now`, of a 225 A feeder with a load of 160 A: the rating it is nearer to.
  const rated = unit === "A" && slot === "current" ? nearerRating(m, n, loads) : undefined;
  if (rated) return rated;
  const ofSlot = loads.filter(({ slots }) => slots[slot]);
  const alike = ofSlot.length > 0
    ? ofSlot
    : loads.filter(({ slots }) => unit !== undefined && MEASURES.some((each) => unitOf(slots[each]?.[0]) === unit));
  // `50 kVA`, beside a load in other units: the transformer's.
  if (unit === "kVA" || unit === "VA" || unit === "MVA") {
    const transformer = m.facts.find(({ family, slots }) => family === "transformer" && slots.rating);
    const isALoads = alike.some(({ slots }) =>
      MEASURES.some((each) => ["kVA", "VA", "MVA"].includes(unitOf(slots[each]?.[0])!))
    );
    if (transformer && !isALoads) return transformer;
  }
  if (alike.length === 1) return alike[0];
  if (unit === "A" && slot === "current" && alike.length === 0) {
    const rated = m.facts.filter(({ family, slots }) => ["device", "circuit"].includes(family) && slots.rating);
    if (rated.length === 1) return rated[0];
  }
  return loads.length === 1 ? loads[0] : undefined;
}
/** `take the dryer out, it's gas`: why it goes. */
function fuelOfRemoved(m: Merging): void {
  const isAbsent = m.news.free.some(({ key }) => key.startsWith("absent:"));
  if (!isAbsent && (!m.removes || !m.news.facts.some(({ family }) => family === "load"))) return;
  for (const each of m.news.free.filter(({ key }) => key.startsWith("fuel:"))) {
    m.placed.add(each);
    for (const piece of each.value.pieces) m.used.add(piece);
  }
}
/** `it's all on propane except the ac`; `wh too`, after another one's fuel. */
export function fuelsTold(m: Merging): void {
  fuelOfRemoved(m);
  const all = fuelOfAll(m.text, m.facts);
  for (const fact of all?.of ?? []) m.fill(fact as Writable, { fuel: [all!.fuel] });
  if (all) {
    for (const fact of m.news.facts.filter(({ family }) => family === "load")) {
      m.settled.add(fact);
      for (const piece of fact.pieces) m.used.add(piece);
    }
    for (const each of m.news.free) if (each.key.startsWith("fuel:")) m.placed.add(each);
    for (const piece of all.fuel.pieces) m.used.add(piece);
  }
  const told = m.told;
  if (!told || !("fact" in told) || told.slot !== "fuel" || !saysToo(m.text)) return;
  const fuel = told.fact.slots.fuel!;
  for (const { family, id, slots, pieces } of m.news.facts) {
    const known = m.facts.find((fact) => fact.family === family && fact.id === id);
    if (family !== "load" || !known || Object.keys(slots).length > 0) continue;
    m.fill(known, { fuel });
    for (const piece of pieces) m.used.add(piece);
  }
}
