/** How many of a group there are, and some of a group that are told another figure. */
import { is } from "../../reading/manner.ts";
import type { Fact, Value } from "../../reading/facts.ts";
import { countTold, isOfThem } from "../counts.ts";
import { membersTold } from "../members.ts";
import { PLATE } from "../plate.ts";
import { renewed, unitOf } from "../reply.ts";
import { countOf, isBare, isDwellings, isSame, measureOf, numbered, type Writable } from "./facts.ts";
import type { Merging } from "./state.ts";

/** `two more of the 6s`: so many more of those that have this figure. */
export function moreOfThese(m: Merging): boolean {
  const [first, second, ...others] = m.figures();
  if (!first || !second || others.length > 0 || first.unit !== undefined) return false;
  const next = m.text.pieces[first.value.pieces.at(-1) ?? -1]?.to ?? -1;
  const place = m.standing(second);
  if (m.text.tokens[next]?.text !== "more" || place?.fact.family !== "load") return false;
  const count = countOf(place.fact) + first.n;
  place.fact.slots.count = [numbered(place.fact.slots.count?.[0] ?? first.value, count)];
  for (const each of [first, second]) m.settle(each);
  return true;
}
/** `add 4 more`, `back to the dryers, 4 more`: so many more of the one group that is meant. */
export function moreOfKnown(m: Merging): boolean {
  const isMore = ({ pieces }: Value) => m.text.tokens[m.text.pieces[pieces.at(-1) ?? -1]?.to ?? -1]?.text === "more";
  const heads = m.news.facts.filter(({ family }) => family === "load");
  const [told, ...others] = [
    ...m.numbers().map((from) => ({ from, value: from.value })),
    ...heads.flatMap((from) => (from.slots.count ?? []).map((value) => ({ from, value }))),
  ];
  if (!told || others.length > 0 || heads.length > 1 || !isMore(told.value) || !is(m.known, "groups")) {
    return false;
  }
  const [head] = heads;
  const loads = m.facts.filter(({ family }) => family === "load");
  const isOther = head && !loads.some(({ id }) => isSame(id, head.id));
  if (isOther || head && Object.keys(head.slots).some((slot) => slot !== "count")) return false;
  // Where it is not sure of which, or how many there were, it stays unplaced and is asked about.
  if ("key" in told.from) m.placed.add(told.from);
  if (head) m.settled.add(head);
  const [group, ...more] = loads.filter(({ id, slots }) =>
    measureOf(slots) && (head === undefined || isSame(id, head.id))
  );
  const were = group && countBefore(m, group);
  const n = "n" in told.value.sense ? told.value.sense.n : NaN;
  if (!group || more.length > 0 || were === undefined || !Number.isInteger(n)) return true;
  if (group.slots.count) m.remember({ fact: group, slot: "count", index: 0 });
  group.slots.count = [{ ...numbered(told.value, were + n), said: String(were + n) }];
  countsAlone(m, group);
  for (const piece of [...told.value.pieces, ...(head?.pieces ?? [])]) m.used.add(piece);
  return true;
}
/** How many of a group there were: by its own count, or one for each dwelling; of another building nobody said. */
function countBefore(m: Merging, group: Fact): number | undefined {
  if (group.slots.count) return countOf(group);
  const homes = m.facts.find(isDwellings);
  if (homes) return countOf(homes);
  return m.facts.some(({ family }) => family === "building") ? undefined : 1;
}
/** A group that is counted by itself is not one for each dwelling. */
function countsAlone(m: Merging, group: Writable): void {
  m.free = m.free.filter(({ key }) => key !== "share:each");
  if (group.slots.share) group.slots.share = group.slots.share.map((value) => ({ ...value, pieces: [] }));
}
/** `two of the 5s`, of one that is known: so many of them. */
export function severalOfThese(m: Merging): boolean {
  const [first, second, ...others] = m.figures();
  if (!first || !second || others.length > 0 || first.unit !== undefined || !("key" in first.from)) return false;
  const place = m.isPlural(second) ? m.standing(second) : undefined;
  if (place?.fact.family !== "load" || countOf(place.fact) > 1 || !isOfThem(first.from, m.text)) return false;
  place.fact.slots.count = [numbered(first.value, first.n)];
  for (const each of [first, second]) m.settle(each);
  return true;
}
/** `really only 20 of em get one`: fewer than there were, or than there are dwellings. */
export function onlySomeOfThem(m: Merging): boolean {
  const told = countTold(m.news, m.text);
  const n = told?.value.sense.is === "number" ? told.value.sense.n : Infinity;
  const loads = m.facts.filter(({ family }) => family === "load");
  const named = loads.filter(({ id }) => id !== undefined);
  const [group, ...others] = named.length > 0 ? named : loads;
  // Of several groups of one sort nobody knows which.
  if (others.some((each) => each.id === group?.id && each.slots.count)) return false;
  const most = Math.max(...m.facts.filter((fact) => fact === group || isDwellings(fact)).map(countOf));
  if (!told || !group || others.some(({ id }) => id !== group.id) || n > most || most === 1) return false;
  if (group.slots.count) m.remember({ fact: group, slot: "count", index: 0 });
  group.slots.count = [told.value];
  countsAlone(m, group);
  m.placed.add(told);
  return true;
}
/** Some of a group get another figure; told of a group that is not known, it stays unplaced and is asked about. */
export function someOfGroup(m: Merging): void {
  const members = membersTold(m.news, m.text);
  if (!members) return;
  const { count, head, figure, from } = members;
  const groups = m.facts.filter((fact) =>
    fact.family === "load" && countOf(fact) > 1 && (head === undefined || isSame(fact.id, head.id))
  );
  for (const each of from) "key" in each ? m.placed.add(each) : m.settled.add(each);
  const [group] = groups;
  const slot = group && measureOf(group.slots);
  const told = count.sense.is === "number" || count.sense.is === "count" ? count.sense.n : 0;
  // `half of them are 12`
  const some = told === 1 / 2 && group ? countOf(group) / 2 : told;
  if (groups.length !== 1 || !group || !slot || some < 1 || some > countOf(group) || !Number.isInteger(some)) {
    return;
  }
  const sense = figure.sense.is === "number" ? renewed(group.slots[slot]![0]!.sense, figure.sense.n) : figure.sense;
  if (sense?.is !== "quantity" || sense.unit !== unitOf(group.slots[slot]![0])) return;
  const rest = countOf(group) - some;
  const slots = Object.fromEntries(Object.entries(group.slots).filter(([name]) => !PLATE.includes(name)));
  const own: Fact["slots"] = {
    ...slots,
    count: [some === told && some > 1 ? count : numbered(count, some)],
    [slot]: [{ ...figure, sense }],
  };
  if (rest > 0) group.slots.count = [numbered(group.slots.count![0]!, rest)];
  else m.facts.splice(m.facts.indexOf(group), 1);
  m.append({ ...group, slots: own });
  for (const { pieces } of [count, figure, ...(head ? [head] : [])]) {
    for (const piece of pieces) m.used.add(piece);
  }
}
/** `no all 12`, where some of them were told another figure: one group again, of that figure. */
export function allOfThem(m: Merging): void {
  const [number, ...others] = m.numbers();
  const n = number?.value.sense.is === "number" ? number.value.sense.n : undefined;
  if (!number || n === undefined || others.length > 0 || !m.says("all", "every", "both", "each")) return;
  // `run 10 for both`: the verb is no set of conductors.
  if (!m.news.facts.every((fact) => fact.id === "set" && isBare(fact.slots))) return;
  for (const fact of m.news.facts) m.settleFact(fact);
  const loads = m.facts.filter(({ family, slots }) => family === "load" && measureOf(slots));
  const [first, ...rest] = loads;
  const slot = first && measureOf(first.slots);
  if (!first || !slot || rest.length === 0) return;
  const areAlike = rest.every(({ id, slots }) =>
    id === first.id && unitOf(slots[slot]?.[0]) === unitOf(first.slots[slot]![0])
  );
  const sense = areAlike ? renewed(first.slots[slot]![0]!.sense, n) : undefined;
  if (!areAlike || !sense) return;
  const count = loads.reduce((sum, load) => sum + countOf(load), 0);
  for (const load of rest) m.facts.splice(m.facts.indexOf(load), 1);
  // What supplies them may be told beside any of them.
  for (const { slots } of rest) {
    for (const each of ["volts", "phase"]) if (slots[each]) first.slots[each] ??= slots[each];
  }
  first.slots.count = [numbered(first.slots.count?.[0] ?? number.value, count)];
  m.put({ fact: first, slot, index: 0 }, { ...number.value, sense });
  m.placed.add(number);
}
