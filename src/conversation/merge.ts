/**
 * What a further text does to the facts of a topic. A head that is named again is the same one, and what is said of it anew
 * replaces what was said before; a figure without a head goes where its like stands; a bare number answers what was asked
 * back, or is the new value of the figure told last. What finds no place is left over, for another question to explain.
 */
import type { Need } from "../core/outcome.ts";
import type { Fact, Facts, Free, Value } from "../reading/facts.ts";
import { NOMINAL_VOLTS } from "../reading/families.ts";
import type { Sense } from "../reading/pieces.ts";
import { type ReadText, readText } from "../reading/read.ts";
import type { Last } from "./thread.ts";

export type Merged = {
  readonly facts: Facts;
  readonly last?: Last;
  /** Pieces of the text that the merging itself used: what it removed, and the words that said so. */
  readonly used: ReadonlySet<number>;
};
type Writable = { -readonly [K in keyof Fact]: Fact[K] } & { slots: Record<string, readonly Value[]> };

/** Free keys of which one replaces the other. */
const CLASSES: readonly (readonly string[])[] = [
  ["V", "kV", "volts", "system"],
  ["ft", "m", "yd", "length"],
  ["°F", "°C", "ambient"],
  ["%", "drop"],
  ["edition"],
  ["terminals"],
  ["kVA", "VA", "MVA"],
  ["ft2", "m2", "area"],
  ["place:wet", "place:dry"],
  ["place:rooftop", "place:not-rooftop"],
  ["circuit:no-neutral", "circuit:with-neutral"],
];
const SORT_CLASSES = ["phase", "metal", "methodOfLoad", "raceway", "electrode", "connection"];
const classOf = (key: string): string => {
  const found = CLASSES.findIndex((keys) => keys.includes(key));
  if (found >= 0) return `class ${found}`;
  const sort = key.split(":")[0]!;
  if (sort === "insulation" || sort === "method") return "insulation";
  return SORT_CLASSES.includes(sort) ? sort : key;
};
/** Different ways of saying how large one load is: a new one drops the others. */
const MEASURES = ["rating", "current", "draw"];
/** What belongs to a nameplate, and goes with it when another machine takes its place. */
const PLATE = [
  "nameplate",
  "full-load-current",
  "locked-rotor-current",
  "service-factor",
  "temperature-rise",
  "code",
  "speed",
  "power-factor",
  "efficiency",
  "minimum-circuit-ampacity",
  "maximum-protection",
  "minimum-protection",
  "rated-load-current",
  "selection-current",
];
/** Kinds that are about one load. */
const OF_ONE_LOAD = new Set(["branch-circuit", "motor-circuit", "cooling-circuit", "voltage-drop"]);

export function merge(
  earlier: Facts,
  text: ReadText,
  { kind, needs, last }: { kind: string; needs?: readonly Need[]; last?: Last },
): Merged {
  const has = (key: string) => text.facts.free.some((each) => each.key === key);
  const facts: Writable[] = earlier.facts.map((fact) => ({ ...fact, slots: { ...fact.slots } }));
  let free: Free[] = [...earlier.free];
  let told: Last | undefined = last;
  const used = new Set<number>();
  const placed = new Set<Free>();
  const removes = has("change:drop");
  const adds = has("change:add");
  const news = asReply(text.facts, needs);
  // Among words that nobody knows a bare number means nothing.
  const isPlain = text.pieces.every(({ is }) => is !== "unknown");

  if (news.free.some(({ key }) => key.startsWith("goal:"))) free = free.filter(({ key }) => !key.startsWith("goal:"));

  const fill = (fact: Writable, slots: Fact["slots"]) => {
    for (const [slot, values] of Object.entries(slots)) {
      if (MEASURES.includes(slot)) {
        for (const other of MEASURES) if (other !== slot && !slots[other]) delete fact.slots[other];
        if (slot === "rating" && isOfMotor(values)) {
          for (const plate of PLATE) if (!slots[plate]) delete fact.slots[plate];
        }
      }
      fact.slots[slot] = values;
      told = { fact: facts.indexOf(fact), slot };
      // A voltage told for a load is the whole supply's where only one was known.
      if (slot === "volts") free = free.filter(({ key }) => !CLASSES[0]!.includes(key));
    }
    if (fact.pieces.length === 0) Object.assign(fact, { sentence: -1 });
  };
  const append = (fact: Fact) => {
    facts.push({ ...fact, slots: { ...fact.slots } });
    const slot = Object.keys(fact.slots).find((each) => MEASURES.includes(each)) ?? Object.keys(fact.slots)[0];
    if (slot !== undefined) told = { fact: facts.length - 1, slot };
  };

  const remove = (gone: Writable, by: Fact) => {
    facts.splice(facts.indexOf(gone), 1);
    for (const piece of by.pieces) used.add(piece);
    for (const values of Object.values(by.slots)) {
      for (const { pieces } of values) for (const piece of pieces) used.add(piece);
    }
    told = undefined;
  };

  /** `leave out the 7.5`: the load of which that is the figure. */
  function removeWith(value: Value): boolean {
    const n = (value.sense as { n: number }).n;
    const gone = facts.find(({ family, slots }) =>
      family === "load" &&
      MEASURES.some((slot) => slots[slot]?.some(({ sense }) => sense.is === "quantity" && sense.n === n))
    );
    if (!gone) return false;
    facts.splice(facts.indexOf(gone), 1);
    for (const piece of value.pieces) used.add(piece);
    told = undefined;
    return true;
  }
  const bare = news.free.filter(({ key, value }) => key === "number" && value.sense.is === "number");
  const removedByNumber = removes ? bare.filter(({ value }) => removeWith(value)) : [];

  for (const fact of news.facts) {
    if (fact.family === "load" && fact.id !== undefined) {
      const same = facts.find((each) => each.family === "load" && each.id === fact.id);
      if (removes) {
        const gone = same ?? facts.find((each) => each.family === fact.family && each.id === fact.id);
        if (gone) remove(gone, fact);
        continue;
      }
      if (same && !adds) {
        fill(same, fact.slots);
        Object.assign(same, { pieces: fact.pieces, said: fact.said });
        // `the fan is 2.2`: the new value of its own figure.
        const slot = MEASURES.find((each) => same.slots[each]);
        const like = slot === undefined ? undefined : same.slots[slot]![0]!;
        if (Object.keys(fact.slots).length === 0 && bare.length === 1 && like?.sense.is === "quantity") {
          const { value } = bare[0]!;
          same.slots[slot!] = [{ ...value, sense: { ...like.sense, n: (value.sense as { n: number }).n } }];
          told = { fact: facts.indexOf(same), slot: slot! };
          placed.add(bare[0]!);
        }
        continue;
      }
      const loads = facts.filter(({ family }) => family === "load");
      if (loads.length === 1 && !adds && (OF_ONE_LOAD.has(kind) || has("change:instead"))) {
        const [only] = loads;
        const kept = Object.fromEntries(
          Object.entries(only!.slots).filter(([slot]) =>
            !fact.slots[slot] && ["volts", "phase", "hours"].includes(slot)
          ),
        );
        const named = fact.id === "load" || (isMachine(fact.id) && isMachine(only!.id));
        Object.assign(only!, { id: named ? only!.id ?? fact.id : fact.id, pieces: fact.pieces, said: fact.said });
        if (named) fill(only!, fact.slots);
        else {
          only!.slots = { ...kept };
          fill(only!, fact.slots);
        }
        continue;
      }
      append(fact);
      continue;
    }
    if (fact.family === "load") {
      const target = homeOf(fact, facts, told);
      if (!target) append(fact);
      else if (target.family === "load") fill(target, fact.slots);
      else fill(target, { rating: Object.values(fact.slots)[0]! });
      continue;
    }
    const isAsked = !(fact.slots.rating ?? fact.slots.size ?? fact.slots.current) &&
      Object.keys(fact.slots).length === 0;
    const same = facts.find((each) =>
      each.family === fact.family &&
      (each.id === fact.id || (fact.family === "conductor" && isLine(each) && isLine(fact)))
    );
    if (removes && same) remove(same, fact);
    else if (same && isAsked) Object.assign(same, { pieces: [...fact.pieces] });
    else if (same && !(adds && fact.family === "device")) {
      fill(same, fact.slots);
      Object.assign(same, { pieces: fact.pieces });
    } else append(fact);
  }

  for (const each of news.free) {
    const { key } = each;
    if (placed.has(each) || removedByNumber.includes(each)) continue;
    if (key.startsWith("change:")) {
      free.push(each);
      continue;
    }
    if (key === "number" && each.value.sense.is === "number" && isPlain) {
      const place = numberPlace(each.value, facts, free, told);
      if (place) {
        const at = free.indexOf(place.free!);
        if (place.fact) {
          place.fact.slots[place.slot!] = [place.value];
          told = { fact: facts.indexOf(place.fact), slot: place.slot! };
        } else if (at >= 0) {
          free[at] = { ...place.free!, value: place.value };
          told = { free: at };
        } else {
          free = free.filter((old) => classOf(old.key) !== "class 0");
          for (const fact of facts) if (fact.family === "load") delete fact.slots.volts;
          free.push({ key: "V", value: place.value, sentence: 0 });
        }
        continue;
      }
    }
    const kin = classOf(key);
    free = free.filter((old) => classOf(old.key) !== kin || old.key.startsWith("goal:"));
    if (kin === "class 0") { for (const fact of facts) if (fact.family === "load") delete fact.slots.volts; }
    if (kin === "phase") { for (const fact of facts) delete fact.slots.phase; }
    if (kin === "metal") { for (const fact of facts) if (isLine(fact)) delete fact.slots.metal; }
    if (kin === "insulation") {
      for (const fact of facts) delete fact.slots.insulation;
      // Another cable brings no conduit.
      if (key.endsWith("cable")) free = free.filter((old) => !old.key.startsWith("raceway:"));
    }
    if (kin === "class 1") { for (const fact of facts) if (fact.family === "conductor") delete fact.slots.length; }
    free.push(each);
    if (each.value.sense.is === "quantity") told = { free: free.length - 1 };
  }
  return { facts: { facts, free }, used, ...(told && { last: told }) };
}

const isLine = ({ family, id }: Fact): boolean =>
  family === "conductor" && (id === undefined || id === "wire" || id === "ungrounded");
const isMachine = (id: string | undefined): boolean =>
  ["motor", "pump", "compressor", "air-compressor", "fan", "machine"].includes(id ?? "motor");
const isOfMotor = (values: readonly Value[]): boolean =>
  values.some(({ sense }) => sense.is === "quantity" && sense.unit === "hp");
/** Where a load that is only a figure belongs: the fact that has its like. */
function homeOf(fact: Fact, facts: readonly Writable[], last: Last | undefined): Writable | undefined {
  const loads = facts.filter(({ family }) => family === "load");
  const [slot] = Object.keys(fact.slots);
  if (slot === undefined) return undefined;
  const unitOf = (value: Value | undefined) => value?.sense.is === "quantity" ? value.sense.unit : undefined;
  const unit = unitOf(fact.slots[slot]?.[0]);
  // The figure told last, where it is of the same unit; what is drawn is a load's and no device's.
  if (last && "fact" in last && (slot === "current" || facts[last.fact]?.family === "load")) {
    const lately = facts[last.fact];
    if (lately && unit !== undefined && unitOf(lately.slots[last.slot]?.[0]) === unit) return lately;
  }
  const withSlot = loads.filter((load) => load.slots[slot]);
  if (withSlot.length === 1) return withSlot[0];
  if (unit === "A" && slot === "current") {
    const rated = facts.filter(({ family, slots }) => ["device", "circuit"].includes(family) && slots.rating);
    if (rated.length === 1 && withSlot.length === 0) return rated[0];
  }
  return loads.length === 1 ? loads[0] : undefined;
}

type Place = { fact?: Writable; slot?: string; free?: Free; value: Value };
/** What a bare number is the new value of. */
function numberPlace(
  value: Value,
  facts: readonly Writable[],
  free: readonly Free[],
  last: Last | undefined,
): Place | undefined {
  const n = (value.sense as { n: number }).n;
  const renewed = (sense: Sense): Value | undefined =>
    sense.is === "quantity" || sense.is === "number" ? { ...value, sense: { ...sense, n } as Sense } : undefined;
  // `seven`, of things that were counted.
  const counted = facts.filter(({ family, slots }) => family === "load" && slots.count);
  if (counted.length === 1 && Number.isInteger(n) && /^\p{L}/u.test(value.said)) {
    return { fact: counted[0]!, slot: "count", value: { ...value, sense: { is: "number", n } } };
  }
  const isVolts = NOMINAL_VOLTS.includes(n) && n >= 110;
  const lastSense = last &&
    ("fact" in last ? facts[last.fact]?.slots[last.slot]?.[0]?.sense : free[last.free]?.value.sense);
  // A nominal voltage is one, unless the last figure is of a like size.
  const isLike = lastSense?.is === "quantity" && lastSense.unit !== "V" && lastSense.n >= n / 4 &&
    lastSense.n <= n * 4 &&
    ["A", "ft", "m"].includes(lastSense.unit);
  if (isVolts && !isLike) return { value: { ...value, sense: { is: "quantity", n, unit: "V" } } };
  if (!last || !lastSense) return undefined;
  const now = renewed(lastSense);
  if (!now) return lastSense.is === "size" ? sizePlace(value, n, facts, last) : undefined;
  return "fact" in last
    ? { fact: facts[last.fact]!, slot: last.slot, value: now }
    : { free: free[last.free]!, value: now };
}
const sizePlace = (value: Value, n: number, facts: readonly Writable[], last: Last): Place | undefined =>
  "fact" in last
    ? { fact: facts[last.fact]!, slot: last.slot, value: { ...value, sense: { is: "size", size: String(n) } } }
    : undefined;

/** A short reply takes the meaning that the question back gave an example of: `240` after “240 V”, `60 A` after “60 A breaker”. */
function asReply(news: Facts, needs: readonly Need[] | undefined): Facts {
  if (!needs?.length) return news;
  const figures = news.facts.filter(({ family, id }) => family === "load" && id === undefined);
  const numbers = news.free.filter(({ key }) => key === "number");
  if (figures.length + numbers.length !== 1) return news;
  for (const { example } of needs) {
    const model = readText(example).facts;
    const answer = figures.length === 1 ? replyOfFigure(figures[0]!, model) : replyOfNumber(numbers[0]!, model);
    if (!answer) continue;
    return {
      facts: [...news.facts.filter((fact) => !figures.includes(fact)), ...("fact" in answer ? [answer.fact] : [])],
      free: [...news.free.filter((each) => !numbers.includes(each)), ...("free" in answer ? [answer.free] : [])],
    };
  }
  return news;
}
type Reply = { fact: Fact } | { free: Free };

function replyOfFigure(said: Fact, model: Facts): Reply | undefined {
  const [value] = Object.values(said.slots)[0] ?? [];
  const unit = value?.sense.is === "quantity" ? value.sense.unit : undefined;
  if (!value || unit === undefined) return undefined;
  for (const fact of model.facts) {
    for (const [slot, [like]] of Object.entries(fact.slots)) {
      if (like?.sense.is === "quantity" && like.sense.unit === unit) {
        return { fact: { ...fact, pieces: [], slots: { [slot]: [value] } } };
      }
    }
  }
  return undefined;
}

function replyOfNumber({ value }: Free, model: Facts): Reply | undefined {
  const { n } = value.sense as { n: number };
  const renewed = (like: Sense): Sense | undefined =>
    like.is === "quantity"
      ? { is: "quantity", n, unit: like.unit }
      : like.is === "number"
      ? { is: "number", n }
      : like.is === "size"
      ? { is: "size", size: n >= 250 ? `${n} kcmil` : String(n) }
      : undefined;
  for (const fact of model.facts) {
    for (const [slot, [like]] of Object.entries(fact.slots)) {
      const sense = like && renewed(like.sense);
      if (sense && like.sense.is !== "number" || sense && slot !== "count") {
        return { fact: { ...fact, pieces: [], slots: { [slot]: [{ ...value, sense: sense! }] } } };
      }
    }
  }
  for (const { key, value: like } of model.free) {
    const sense = renewed(like.sense);
    if (sense && key !== "number") return { free: { key, value: { ...value, sense }, sentence: 0 } };
  }
  return undefined;
}
