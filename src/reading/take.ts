/**
 * What a question takes of the facts. It asks for what it can use; whatever it asked for and got is *taken*, what it says makes
 * no difference is *set aside* with the reason, and the rest is left for another question, or unread.
 */
import type { Need } from "../core/outcome.ts";
import type { Draft, Fact, Facts, FamilyId, Free, Said, Value } from "./facts.ts";
import type { Sense } from "./sense.ts";

export { HOUSE, OF_EACH } from "./facts.ts";
export { TAKEN_BACK } from "./sense.ts";

export type Taker = {
  readonly facts: Facts;
  /** Facts of a family, by their head's term where some are named. Nothing is taken by looking. */
  all(family: FamilyId, ...ids: readonly string[]): Fact[];
  /** Takes a fact's head, and says what it was taken as. */
  head(fact: Fact): void;
  /** Takes a slot's value. */
  slot(fact: Fact, slot: string): Value | undefined;
  /** Takes a slot's figure, in one of the units where some are named. */
  figure<U extends string>(fact: Fact, slot: string, ...units: readonly U[]): Said<U> | undefined;
  /** Takes a slot's bare number, or a figure's in its unit. */
  number(fact: Fact, slot: string): number | undefined;
  /** Takes the term of a slot, `gas` of `fuel:gas`. */
  term(fact: Fact, slot: string): string | undefined;
  /** Takes one value that was looked at. */
  use(value: Value, as: string): void;
  /** Takes everything said without a head under a key: a unit, a label, `place:rooftop`. */
  free(key: string): Value[];
  /** Whether it was said; takes it. */
  said(...keys: readonly string[]): boolean;
  /** The terms of one sort that were said, taken. */
  terms(sort: string): string[];
  /** The first figure without a head in one of these units or under these labels, taken. */
  loose<U extends string>(...keys: readonly U[]): Said | undefined;
  /** Whether something is asked for: a goal, or a device, conductor or label without a figure of its own. Takes the words. */
  asks(...goals: readonly string[]): boolean;
  /** The same without taking the words. */
  wants(...goals: readonly string[]): boolean;
  /** Whether a term or figure stands in the text at all; takes nothing. */
  has(key: string): boolean;
  /** Sets a fact or value aside: it was read and makes no difference here. */
  aside(what: Fact | Value, because: string): void;
  /** Says how something was understood. */
  note(text: string): void;
  /** Asks back where the words can mean two things. */
  ask(need: Need): void;
};
/** What one question made of the facts. */
export type Taken = {
  readonly draft: Draft;
  readonly taken: ReadonlyMap<Value | Fact, string>;
  readonly aside: ReadonlyMap<Value | Fact, string>;
  readonly notes: readonly string[];
  readonly asks: readonly Need[];
};
/** Reads a question's request from the facts, or `undefined` where they are none of its own. */
export type Takes = (t: Taker) => Draft | undefined;

/** A figure as a request holds it. */
export const saidOf = (sense: Sense | undefined): Said | undefined =>
  sense?.is === "quantity" ? { value: sense.exact ?? sense.n, unit: sense.unit } : undefined;

const numberOf = (sense: Sense): number | undefined =>
  sense.is === "quantity" || sense.is === "number" || sense.is === "count" || sense.is === "poles"
    ? sense.n
    : undefined;

/** Facts by what questions ask them for, found once for all questions that look at them. */
class Index {
  readonly families: ReadonlyMap<FamilyId, Fact[]>;
  readonly free: ReadonlyMap<string, Free[]>;
  /** Heads without a figure of their own, by their term: `device:breaker`. They are asked for. */
  readonly bare: ReadonlyMap<string, Fact[]>;

  constructor({ facts, free }: Facts) {
    this.families = Map.groupBy(facts, ({ family }) => family);
    this.free = Map.groupBy(free, ({ key }) => key);
    this.bare = Map.groupBy(facts.filter(isBare), ({ family, id }) => `${SORT_OF[family]}:${id}`);
  }
}
const isBare = ({ id, others, slots }: Fact): boolean =>
  id !== undefined && !others?.includes("implied") && !(slots.rating ?? slots.size ?? slots.current);
const NO_FACTS: readonly Fact[] = [];
const NO_FREE: readonly Free[] = [];

/** Runs a question's reading over the facts. */
export const take = (facts: Facts, takes: Takes): Taken | undefined => taking(facts)(takes);

/** The same for several questions one after the other, each for itself. */
export function taking(facts: Facts): (takes: Takes) => Taken | undefined {
  const index = new Index(facts);
  return (takes) => run(facts, index, takes);
}

function run(facts: Facts, index: Index, takes: Takes): Taken | undefined {
  const taken = new Map<Value | Fact, string>();
  const aside = new Map<Value | Fact, string>();
  const notes: string[] = [];
  const asks: Need[] = [];
  const use = (value: Value, as: string): Value => {
    taken.set(value, as);
    if (value.note !== undefined && !notes.includes(value.note)) notes.push(value.note);
    if (value.sense.is === "quantity") {
      const { n, low, from, unit } = value.sense;
      if (low !== undefined) notes.push(`took ${value.said} as ${n} ${unit}, the longer end`);
      if (from !== undefined) notes.push(`took ${from} as ${n} ${unit}`);
    }
    return value;
  };
  const freeOf = (key: string): readonly Free[] => index.free.get(key) ?? NO_FREE;
  const bareOf = (term: string): readonly Fact[] => index.bare.get(term) ?? NO_FACTS;
  const termOf = (goal: string): string => goal.includes(":") ? goal : `goal:${goal}`;
  const t: Taker = {
    facts,
    all: (family, ...ids) =>
      (index.families.get(family) ?? NO_FACTS).filter(({ id }) => ids.length === 0 || ids.includes(id ?? "")),
    head: (fact) => void taken.set(fact, fact.id ?? fact.family),
    slot(fact, slot) {
      const value = fact.slots[slot]?.[0];
      return value && use(value, slot);
    },
    figure(fact, slot, ...units) {
      const value = fact.slots[slot]?.find(({ sense }) =>
        sense.is === "quantity" && (units.length === 0 || (units as readonly string[]).includes(sense.unit))
      );
      return value && saidOf(use(value, slot).sense) as never;
    },
    number(fact, slot) {
      const value = fact.slots[slot]?.[0];
      const n = value && numberOf(value.sense);
      if (n !== undefined) use(value!, slot);
      return n;
    },
    term(fact, slot) {
      const value = fact.slots[slot]?.[0];
      return value?.sense.is === "term" ? (use(value, slot).sense as { id: string }).id : undefined;
    },
    use: (value, as) => void use(value, as),
    free: (key) => freeOf(key).map(({ value }) => use(value, key)),
    said(...keys) {
      const found = keys.flatMap((key) => freeOf(key));
      for (const { key, value } of found) use(value, key);
      return found.length > 0;
    },
    terms: (sort) =>
      facts.free.filter(({ key }) => key.startsWith(`${sort}:`)).map(({ key, value }) => {
        use(value, key);
        return key.slice(sort.length + 1);
      }),
    loose(...keys) {
      for (const key of keys) {
        for (const { value } of freeOf(key)) {
          const said = saidOf(value.sense);
          if (said && !taken.has(value)) {
            use(value, key);
            return said;
          }
        }
      }
      return undefined;
    },
    asks(...goals) {
      let found = false;
      for (const goal of goals) {
        const term = termOf(goal);
        const [bare, said] = [bareOf(term), freeOf(term)];
        for (const { key, value } of said) use(value, key);
        for (const fact of bare) taken.set(fact, goal);
        found ||= bare.length + said.length > 0;
      }
      return found;
    },
    wants: (...goals) =>
      goals.some((goal) => {
        const term = termOf(goal);
        return index.free.has(term) || index.bare.has(term);
      }),
    has: (key) => index.free.has(key),
    aside: (what, because) => void aside.set(what, because),
    note: (text) => void (notes.includes(text) || notes.push(text)),
    ask: (need) => void asks.push(need),
  };
  const draft = takes(t);
  return draft && { draft, taken, aside, notes, asks };
}

/** What sort of term heads a family, for goals such as `device:breaker`. */
const SORT_OF: Readonly<Record<FamilyId, string>> = {
  load: "load",
  device: "device",
  conductor: "role",
  transformer: "source",
  circuit: "circuit",
  space: "space",
  building: "building",
  box: "boxPart",
};
