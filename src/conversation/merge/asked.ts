/** What a text asks anew, so that what was known of it counts no more. */
import { is } from "../../reading/manner.ts";
import type { Fact } from "../../reading/facts.ts";
import { MEASURES } from "../plate.ts";
import { classOf, goal, GROUNDS, isBare, isLine, LENGTH, measureOf } from "./facts.ts";
import type { Merging } from "./state.ts";

/** `what size keeps it under 2 %`, `what wire size?`: of the conductor, where nothing else is named and no size is. */
export const asksSize = (m: Merging): boolean =>
  // Of what lies in a box or a raceway, the size that is asked for is the box's or the raceway's.
  !is(m.known, "conductors") && m.news.free.some(({ key }) => key === "goal:size") &&
  m.news.facts.every((fact) => isLine(fact) && Object.keys(fact.slots).length === 0) &&
  !m.news.free.some(({ key, value: { sense } }) => sense.is === "size" || key === "number");
/** `outside it's schedule 80, what size there`, of a raceway that was put up: its size is asked for, and none is put up. */
export function forgetRaceway(m: Merging): void {
  const asks = m.news.free.some(({ key }) => key === "goal:size" || key === "goal:raceway-size");
  const isOther = m.news.free.some(({ key }) => key.startsWith("raceway:"));
  const isTold = m.news.free.some(({ key }) => key === "in");
  if (!is(m.known, "conductors") || !asks || !isOther || isTold) return;
  m.free = m.free.filter(({ key }) => key !== "in" && key !== "goal:check" && key !== "goal:fit");
}
export function forgetSize(m: Merging): void {
  for (const fact of m.facts) if (isLine(fact)) delete fact.slots.size;
}
/** `how big for 150 A?`: of the transformer, where nothing but a load is told. */
export function forgetTransformerSize(m: Merging): void {
  const asks = m.news.free.some(({ key }) => key === "goal:size" || key === "goal:transformer-size");
  const { facts } = m.news;
  if (!asks || facts.length === 0 || !facts.every(({ family, slots }) => family === "load" && measureOf(slots))) {
    return;
  }
  for (const fact of m.facts) if (fact.family === "transformer") delete fact.slots.rating;
}
/** `and the breaker for it?` after an ampacity: the largest that it may have, and no circuit of its own. */
export function breakerOfAmpacity(m: Merging): void {
  const { facts, free } = m.news;
  const asks = facts.length > 0 && facts.every(({ family, slots }) => family === "device" && isBare(slots));
  if (m.known.kind !== "conductor-ampacity" || !asks || free.some(({ key }) => key.startsWith("goal:"))) return;
  m.free.push(goal("ampacity"));
}
/** `and the main bonding jumper?`: asked instead of the conductor before; `aluminum ground`: the one that is asked for. */
export function otherGrounds(m: Merging): void {
  const isAsked = ({ family, id, slots }: Fact) => family === "conductor" && GROUNDS.has(id ?? "") && !slots.size;
  const asked = m.facts.filter(isAsked);
  for (const fact of m.news.facts.filter(isAsked)) {
    if (asked.some(({ id }) => id === fact.id)) continue;
    const [first] = asked;
    if (!first) return;
    if (fact.said.toLowerCase() === "ground" && fact.slots.metal) {
      const facts = m.news.facts.map((each) => each === fact ? { ...each, id: first.id! } : each);
      m.news = { ...m.news, facts };
    } else {
      Object.assign(first, { id: fact.id, said: fact.said });
      for (const other of asked.slice(1)) m.facts.splice(m.facts.indexOf(other), 1);
    }
    return;
  }
}
export function forgetLength(m: Merging): void {
  m.free = m.free.filter(({ key }) => classOf(key) !== LENGTH);
  for (const fact of m.facts) delete fact.slots.length;
}
/** `and if the service is 400`: the conductors that were told of a service of another rating are not its own. */
export function otherService(m: Merging): void {
  if (m.known.kind !== "grounding") return;
  const rated = (facts: readonly Fact[]) => facts.find(({ family, slots }) => family === "device" && slots.rating);
  const [was, is] = [rated(m.facts), rated(m.news.facts)];
  const sense = ({ slots }: Fact) => slots.rating![0]!.sense as { n?: number };
  if (!was || !is || sense(was).n === sense(is).n || m.news.facts.some((fact) => fact.slots.size)) return;
  for (const fact of m.facts) {
    if (isLine(fact) && fact.slots.size) m.leaveOut(fact, "size", `it was told of ${sense(was).n} A`);
  }
}
/** `what's the biggest that fits`, after a charger was put up: of the one thing that is to be added no size is told any more. */
export function forgetAdded(m: Merging): void {
  const isLargest = m.news.free.some(({ key }) => key === "motorWord:largest") &&
    m.news.facts.every(({ family, id, slots }) => family === "load" && id !== undefined && isBare(slots));
  // `so what's the biggest one that'd fit now`, after one was taken away again: of its sort.
  const [last] = m.gone.slice(-1);
  if (
    m.known.kind === "added-load" && isLargest && m.news.facts.length === 0 && m.says("one") &&
    last?.others?.includes("added")
  ) {
    const { id, said, others, family } = last;
    m.gone = m.gone.filter((each) => each !== last);
    m.append({
      family,
      ...(id !== undefined && { id }),
      said,
      ...(others && { others }),
      pieces: [],
      sentence: -1,
      slots: {},
    });
    return;
  }
  const added = m.facts.filter(({ family, others }) => family === "load" && others?.includes("added"));
  const [head] = m.news.facts;
  const [only, ...more] = head && added.length > 1 ? added.filter(({ id }) => id === head.id) : added;
  if (m.known.kind !== "added-load" || !isLargest || !only || more.length > 0) return;
  const [named] = m.news.facts;
  if (named && named.id !== only.id) return;
  for (const slot of [...MEASURES, "count"]) delete only.slots[slot];
}
/** A rating that was to be checked, and is not told when it is asked for, is not asked about again. */
export function forgetRating(m: Merging): void {
  const wasAsked = m.known.kind === "fault-current" && m.known.needs?.some(({ field }) => field === "rating");
  if (!wasAsked || m.news.free.some(({ key }) => key === "interrupting-rating" || key === "kA")) return;
  m.free = m.free.filter(({ key }) => key !== "goal:check");
}
