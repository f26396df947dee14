/** Wires and cables of a list of which others take the place: `swap the 14/3 for another 14/2`, `what if they were #10`. */
import { is } from "../../reading/manner.ts";
import type { Fact, Value } from "../../reading/facts.ts";
import type { Sense } from "../../reading/sense.ts";
import { countOf, isLine, isSameWire, numbered, type Writable } from "./facts.ts";
import type { Merging } from "./state.ts";

/** Verbs of an exchange, what stands before the other thing, and what tells that all of them are another. */
const SWAPS = [
  "swap",
  "swapped",
  "switch",
  "change",
  "changed",
  "replace",
  "replaced",
  "trade",
  "sub",
  "substitute",
  "exchange",
  "turn",
];
const BY = ["for", "with", "to", "by", "into"];
const WERE = ["were", "was", "are", "is", "become", "became"];
const ONE = new Set(["a", "an", "one"]);

/** Two sizes of which one is known: those go, and as many of the other come. */
export function swappedWires(m: Merging): void {
  if (!is(m.known, "conductors")) return;
  raised(m);
  const wires = m.news.facts.filter(({ family, slots }) => family === "conductor" && slots.size);
  const isVaried = m.news.free.some(({ key }) => key === "change:make") && m.says(...WERE);
  if (rolesResized(m)) return;
  if (wires.length !== 2) return;
  const isSwap = m.instead || isVaried || isNamedAgain(m, wires as [Fact, Fact]) ||
    m.says(...SWAPS) && m.says(...BY);
  if (!isSwap) return;
  // `12/3 instead of 12/2`: what goes stands behind.
  const [gone, come] = (m.instead ? [...wires].reverse() : wires) as [Fact, Fact];
  const known = knownOf(m, gone.slots.size![0]!.sense);
  if (!known) return;
  // Of those whose number is asked for only the size is another.
  if (isOpen(m, known) && !come.slots.count) {
    m.fill(known, come.slots);
    for (const fact of wires) m.settleFact(fact);
    return;
  }
  const isSome = gone.slots.count !== undefined || isOne(m, gone);
  const count = isSome ? countOf(gone) : countOf(known);
  if (count > countOf(known)) return;
  if (isSome) removeFrom(m, known, { ...gone, slots: { ...gone.slots, count: [counting(gone, count)] } });
  else m.remove(known, [...gone.pieces, ...gone.slots.size![0]!.pieces]);
  const own = come.slots.count ? countOf(come) : count;
  const there = knownOf(m, come.slots.size![0]!.sense);
  if (there) there.slots.count = [counting(come, countOf(there) + own)];
  else {m.append({
      ...known,
      pieces: come.pieces,
      slots: { ...known.slots, ...come.slots, count: [counting(come, own)] },
    });}
  for (const fact of wires) m.settleFact(fact);
}
/** `what if the hots and neutral go to 1/0`: all conductors that are no ground, where they are of one size. */
function rolesResized(m: Merging): boolean {
  const roles = m.news.facts.filter(({ family, id, slots }) =>
    family === "conductor" && ["ungrounded", "neutral"].includes(id ?? "") && !slots.count
  );
  const [size, ...others] = roles.flatMap(({ slots }) => slots.size ?? []);
  const known = m.facts.filter((fact) => isLine(fact) || fact.id === "neutral").filter(({ slots }) => slots.size);
  const isOfOne = known.every(({ slots }) => isSameWire(slots.size![0]!.sense, known[0]!.slots.size![0]!.sense));
  if (roles.length < 2 || !size || others.length > 0 || known.length === 0 || !isOfOne || m.adds || m.removes) {
    return false;
  }
  for (const fact of known) m.fill(fact, { size: [size] });
  for (const fact of roles) m.settleFact(fact);
  return true;
}
/** Whether it is asked how many of them there may be. */
const isOpen = (m: Merging, { slots }: Fact): boolean =>
  slots.count === undefined && m.free.some(({ key }) => key === "goal:how-many");
const [BE, THE] = [new Set(["is", "are", "was", "were", "becomes"]), new Set(["the", "those", "these", "my"])];
/** `make the 10s 8s`, `the 12/2 is a 12/3`: what is named is known, and the other size is told of it. */
function isNamedAgain(m: Merging, [named, told]: readonly [Fact, Fact]): boolean {
  const { pieces, tokens } = m.text;
  const at = (fact: Fact) => pieces[fact.slots.size![0]!.pieces[0] ?? -1]?.from ?? -1;
  const between = tokens.slice(at(named) + 1, at(told)).map(({ text }) => text);
  const isMade = m.news.free.some(({ key }) => key === "change:make" || key === "change:correct");
  const before = tokens.slice(Math.max(0, at(named) - 2), at(named)).map(({ text }) => text);
  const isNamed = before.some((word) => THE.has(word)) || isMade && before.includes("make");
  return isNamed && at(told) > at(named) && !between.includes("and") && !between.includes(",") &&
    (isMade || between.some((word) => BE.has(word))) && knownOf(m, named.slots.size![0]!.sense) !== undefined;
}
const counting = ({ slots, said }: Fact, n: number): Value => ({
  ...numbered(slots.count?.[0] ?? { sense: { is: "number", n }, pieces: [], said }, n),
  said: String(n),
});
const knownOf = (m: Merging, size: Sense): Writable | undefined =>
  m.facts.find(({ family, slots }) =>
    family === "conductor" && slots.size !== undefined && isSameWire(slots.size[0]!.sense, size)
  );
/** `replace a 12/2`, `one of the 12/2s`. */
function isOne({ text: { pieces, tokens } }: Merging, { slots }: Fact): boolean {
  const at = pieces[slots.size![0]!.pieces[0] ?? -1]?.from ?? 0;
  const before = tokens.slice(Math.max(0, at - 3), at).map(({ text }) => text);
  return ONE.has(before.at(-1) ?? "") || before[0] === "one" && before[1] === "of";
}

/** `change the #4s to #6`, read as a size that is raised: all of that size. */
function raised(m: Merging): void {
  const told = m.news.free.find(({ value: { sense } }) => sense.is === "raise");
  if (told?.value.sense.is !== "raise") return;
  const { from, to } = told.value.sense;
  const known = knownOf(m, { is: "size", size: from });
  if (!known) return;
  m.fill(known, { size: [{ ...told.value, sense: { is: "size", size: to } }] });
  m.placed.add(told);
  for (const piece of told.value.pieces) m.used.add(piece);
}

/** `what if they were #10`: of several groups those that were told last; where none was, it stays to be asked about. */
function sizeOfLast(m: Merging, fact: Fact): boolean {
  const isVaried = m.news.free.some(({ key }) => key === "change:make" || key === "change:correct") ||
    m.says("they", "them", "those", "these");
  const groups = m.facts.filter(({ family, slots }) => family === "conductor" && slots.size);
  if (!isVaried || m.adds || m.removes || groups.length < 2 || Object.keys(fact.slots).join() !== "size") return false;
  const last = m.told && "fact" in m.told && groups.includes(m.told.fact) ? m.told.fact : undefined;
  if (last) m.fill(last, fact.slots);
  return true;
}

/** `plus a full size neutral`, `the neutral same size`: one more of the lines' size, and one conductor of its own. */
function asLines(m: Merging, fact: Fact): boolean {
  const lines = m.facts.filter((each) => isLine(each) && each.slots.size);
  const isToldSo = m.news.facts.some(({ family, slots }) => family === "conductor" && slots.size);
  const isOfLines = m.adds && !isToldSo && fact.id === "neutral" && Object.keys(fact.slots).length === 0 &&
    lines.length === 1;
  if (!isOfLines) return false;
  lines[0]!.slots.count = [counting(lines[0]!, countOf(lines[0]!) + 1)];
  m.notes.push(`took the neutral as one more ${lines[0]!.slots.size![0]!.said.trim()}`);
  m.settleFact(fact);
  for (const each of m.news.free) {
    if (each.key !== "goal:size") continue;
    m.placed.add(each);
    for (const piece of each.value.pieces) m.used.add(piece);
  }
  return true;
}
/** `with 10 all the way, ground too`: the ground is of the size that the text tells of the line. */
export function groundToo(m: Merging): void {
  const ground = m.facts.find(({ id, slots }) => id === "equipment-ground" && slots.size);
  const named = m.news.facts.find(({ id, slots }) => id === "equipment-ground" && Object.keys(slots).length === 0);
  const line = m.told && "fact" in m.told && isLine(m.told.fact) && m.told.slot === "size" ? m.told.fact : undefined;
  if (!ground || !named || !line || !m.says("too", "also", "well")) return;
  ground.slots.size = line.slots.size!.map((value) => ({ ...value, pieces: [] }));
  m.settleFact(named);
}
/** What says that something lies beside what was told. */
const BESIDE = ["forgot", "forget", "same", "also", "too", "besides", "another", "along", "plus"];

/** Of a list of conductors or parts: one more of those that are there, another number of them, or another item. */
export function inList(m: Merging, fact: Fact): void {
  if (asLines(m, fact)) return;
  const [size] = fact.slots.size ?? [];
  const alike = m.facts.filter((each) =>
    each.family === fact.family && (each.id === fact.id || (isLine(each) && isLine(fact)))
  );
  // `one more cable`, `2 cables`, where there is one sort of them; another size takes its place.
  const isOfThese = size === undefined ? m.adds || m.removes || fact.slots.count !== undefined : !m.adds && !m.removes;
  const same = alike.find(({ slots }) => isSameWire(slots.size?.[0]?.sense, size?.sense)) ??
    (isOfThese && alike.length === 1 ? alike[0] : undefined);
  if (m.removes) return same && removeFrom(m, same, fact);
  // `only two 14s`, of cables of that size: so many of them.
  const cables = size?.sense.is === "size" && fact.slots.count && m.says("only", "just")
    ? alike.filter(({ slots }) => slots.size !== undefined && isOfSize(slots.size[0]!.sense, size.sense))
    : [];
  const [cable, ...more] = cables;
  if (!same && cable && more.length === 0) {
    m.notes.push(
      `took ${fact.said.trim().replace("#", "")} as the ${cable.slots.size![0]!.said.trim()} that were told`,
    );
    m.fill(cable, { count: fact.slots.count! });
    return m.settleFact(fact);
  }
  // `forgot, two 12s go in the same pipe`: so many of another size, said of what is there as well.
  // `3/4 with the ten and two #8s`
  const isBeside = m.says(...BESIDE) || m.says("with") && m.says("and");
  const isMoreOfOthers = size !== undefined && fact.slots.count !== undefined && isBeside && !m.removes &&
    !alike.some(({ slots }) => isSameWire(slots.size?.[0]?.sense, size.sense));
  if (isMoreOfOthers) return m.append(fact);
  // What is added lies beside those whose number is asked for.
  if ((m.adds || m.says("with")) && alike.some((each) => isOpen(m, each))) {
    const count = fact.slots.count ?? [counting(fact, 1)];
    return m.append({ ...fact, slots: { ...fact.slots, count } });
  }
  if (!same) return sizeOfLast(m, fact) ? undefined : m.append(fact);
  if (m.adds) {
    const added = fact.slots.count?.[0] ?? { sense: { is: "number" as const, n: 1 }, pieces: [], said: fact.said };
    same.slots.count = [numbered(added, countOf(same) + countOf(fact))];
    for (const value of Object.values(fact.slots).flat()) for (const piece of value.pieces) m.used.add(piece);
  } else m.fill(same, ofCable(same, fact).slots);
  Object.assign(same, { pieces: [...fact.pieces] });
}
/** `swap to 14 gauge`, of cables: cables of that size. */
function ofCable({ slots: known }: Fact, fact: Fact): Fact {
  const [cable, size] = [known.size?.[0]?.sense, fact.slots.size?.[0]];
  if (cable?.is !== "cable" || size?.sense.is !== "size" || fact.slots.count) return fact;
  return { ...fact, slots: { ...fact.slots, size: [{ ...size, sense: { ...cable, size: size.sense.size } }] } };
}
const isOfSize = (cable: Sense, size: Sense): boolean =>
  cable.is === "cable" && size.is === "size" && cable.size === size.size;
/** `take out one 12/2`: so many fewer, and all of them where no number is told. */
function removeFrom(m: Merging, same: Writable, fact: Fact): void {
  const pieces = [...fact.pieces, ...Object.values(fact.slots).flat().flatMap((value) => value.pieces)];
  const left = countOf(same) - countOf(fact);
  if (left < 1 || !(fact.slots.count || m.says("one", "a", "an"))) return m.remove(same, pieces);
  same.slots.count = [numbered(same.slots.count![0]!, left)];
  m.told = { fact: same, slot: "count", index: 0 };
  for (const piece of pieces) m.used.add(piece);
}

const ALONE = /\b(?:by (?:themselves|itself)|alone|only|nothing else)\b/i;
/** `how many 12s fit in 3/4`: of a size no number is told any more, beside the others or, in another raceway, alone. */
export function howManyTold(m: Merging): void {
  if (!is(m.known, "conductors") || !m.news.free.some(({ key }) => key === "goal:how-many")) return;
  const [asked, ...others] = m.news.facts.filter(({ family, slots }) => family === "conductor" && slots.size);
  if (!asked || others.length > 0 || asked.slots.count) return;
  const isElsewhere = m.news.free.some(({ key }) => key === "in") || ALONE.test(m.text.asked);
  const wires = m.facts.filter(({ family, slots }) => family === "conductor" && slots.size);
  const isMore = m.says("more", "another", "additional");
  for (const wire of wires) {
    if (isElsewhere && !isMore) m.facts.splice(m.facts.indexOf(wire), 1);
    else wire.slots.count ??= [counting(wire, 1)];
  }
  const known = knownOf(m, asked.slots.size![0]!.sense);
  if (known && !isMore) delete known.slots.count;
  else m.append(asked);
  m.settleFact(asked);
}

const DEVICES = new Set(["switch", "gfci", "yoke"]);
/** `GFCI instead of one`: a device of a box in the place of one of those that are there, or of them all. */
export function swappedDevice(m: Merging): void {
  if (m.known.kind !== "box-fill" || !m.instead) return;
  const [come, ...more] = m.news.facts.filter(({ family, id }) => family === "box" && DEVICES.has(id ?? ""));
  const known = m.facts.filter(({ family, id }) =>
    family === "box" && DEVICES.has(id ?? "") || family === "load" && id === "receptacles"
  );
  const [group, ...others] = known;
  if (!come || more.length > 0 || !group || others.length > 0 || group.id === come.id) return;
  const isSome = m.says("one", "a");
  if (isSome && countOf(group) > 1) group.slots.count = [counting(group, countOf(group) - 1)];
  else m.facts.splice(m.facts.indexOf(group), 1);
  m.append(isSome ? come : { ...come, slots: { ...come.slots, count: [counting(come, countOf(group))] } });
  m.settleFact(come);
}
