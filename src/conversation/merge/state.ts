/** The facts of a topic while a further text changes them, and what every change does to them. */
import type { Need } from "../../core/outcome.ts";
import type { Fact, Facts, Free, Value } from "../../reading/facts.ts";
import type { ReadText } from "../../reading/read.ts";
import type { Sense } from "../../reading/sense.ts";
import type { Manner } from "../../reading/manner.ts";
import { CURRENTS, MEASURES, outlived, phaseChanged, PLATE } from "../plate.ts";
import { unitOf } from "../reply.ts";
import type { Last, Past } from "../thread.ts";
import { addsBeside, addsToList } from "./adds.ts";
import {
  classOf,
  countOf,
  type Figure,
  inAmperes,
  isInHorsepower,
  isLine,
  isMachine,
  isOther,
  lowers,
  type Place,
  staysAt,
  takesOff,
  VOLTS,
  type Writable,
} from "./facts.ts";
import { newsOf } from "./news.ts";

export type Known = {
  kind: string;
  manner: Manner;
  needs?: readonly Need[];
  last?: Last;
  past?: readonly Past[];
  gone?: readonly Fact[];
};

export class Merging {
  readonly facts: Writable[];
  free: Free[];
  /** What the text says, read as a reply to what was asked. */
  news: Facts;
  /** Pieces of the text that a change used up. */
  readonly used = new Set<number>();
  /** Figures and terms of the text that are dealt with. */
  readonly placed = new Set<Free>();
  /** Heads of the text that are dealt with. */
  readonly settled = new Set<Fact>();
  readonly past: Past[];
  /** Loads that were taken away, here and before. */
  gone: Fact[];
  /** Where the figure that was told last stands. */
  told: Place | undefined;
  readonly notes: string[] = [];
  /** Each known fact as it was before this text. */
  readonly was: ReadonlyMap<Writable, Fact>;
  readonly freeBefore: readonly Free[];
  readonly removes: boolean;
  readonly adds: boolean;
  readonly instead: boolean;
  /** Whether something has already gone, in whose place the text tells another thing. */
  isReplaced = false;

  constructor(earlier: Facts, readonly text: ReadText, readonly known: Known) {
    this.facts = earlier.facts.map((fact) => ({ ...fact, slots: { ...fact.slots } }));
    this.free = [...earlier.free];
    this.was = new Map(this.facts.map((fact, i) => [fact, earlier.facts[i]!]));
    this.freeBefore = earlier.free;
    this.news = newsOf(text, known, earlier);
    this.past = [...known.past ?? []];
    this.gone = [...known.gone ?? []];
    this.told = this.placeOf(known.last);
    const has = (key: string) => [...text.facts.free, ...this.news.free].some((each) => each.key === key);
    for (const { key, value } of text.facts.free) {
      // What is taken away, and a `then` that leads nowhere.
      const isDone = key === "change:drop" ||
        key === "circuit:segment" && !this.news.free.some((each) => each.value === value);
      if (isDone) { for (const piece of value.pieces) this.used.add(piece); }
    }
    this.removes = (has("change:drop") && !isPutRight(text) || takesOff(text)) && !lowers(text) && !staysAt(text);
    // What is said to be on the same circuit comes to what is there.
    this.adds = has("change:add") || has("motorWord:one-branch") || addsBeside(text, known) ||
      addsToList(text, known, earlier) || addsToo(text);
    this.instead = has("change:instead");
  }
  placeOf(last: Last | undefined): Place | undefined {
    if (!last) return undefined;
    if ("free" in last) {
      const free = this.free[last.free];
      return free && { free };
    }
    const fact = this.facts[last.fact];
    return fact?.slots[last.slot] ? { fact, slot: last.slot, index: last.index ?? 0 } : undefined;
  }
  lastOf(place: Place | undefined): Last | undefined {
    if (!place) return undefined;
    if ("free" in place) {
      const free = this.free.indexOf(place.free);
      return free < 0 ? undefined : { free };
    }
    const fact = this.facts.indexOf(place.fact);
    return fact < 0 ? undefined : { fact, slot: place.slot, index: place.index };
  }
  senseAt = (place: Place): Sense | undefined =>
    "free" in place ? place.free.value.sense : place.fact.slots[place.slot]?.[place.index]?.sense;
  put(place: Place, value: Value): void {
    this.remember(place);
    if ("free" in place) {
      const free = { ...place.free, value };
      this.free[this.free.indexOf(place.free)] = free;
      this.told = { free };
      return;
    }
    const values = [...place.fact.slots[place.slot]!];
    values[place.index] = value;
    const isMachine = place.fact.family === "load" && place.slot === "rating" && isInHorsepower(values);
    if (isMachine && isOther(place.fact.slots.rating, values)) this.forgetPlate(place.fact, value.said);
    place.fact.slots[place.slot] = values;
    this.told = place;
  }
  /** What a figure was, so that one can go back to it by its number. */
  remember(place: Place): void {
    const sense = this.senseAt(place);
    if ((sense?.is !== "quantity" && sense?.is !== "number") || "free" in place) return;
    this.past.push({ fact: this.facts.indexOf(place.fact), slot: place.slot, index: place.index, n: sense.n });
  }
  fill(fact: Writable, slots: Fact["slots"]): void {
    const drop = (names: readonly string[]) => {
      for (const name of names) if (!slots[name]) delete fact.slots[name];
    };
    // `plate really says 9.6`, of what draws amperes.
    const wasAmperes = CURRENTS.some((slot) => unitOf(fact.slots[slot]?.[0]) === "A");
    for (const [slot, values] of Object.entries(slots)) {
      if (slot === "rating" && fact.family === "load") {
        if (!isInHorsepower(values)) drop([...CURRENTS, "fuel"]);
        else if (isOther(fact.slots.rating, values)) {
          this.forgetPlate(fact, values[0]!.said, Object.keys(slots));
        }
      }
      if (CURRENTS.includes(slot) && fact.family === "load") {
        drop(CURRENTS);
        if (!isInHorsepower(fact.slots.rating ?? [])) drop(["rating"]);
      }
      // What burns gas has no electric rating.
      if (slot === "fuel" && values.some(({ sense }) => sense.is === "term" && sense.id === "gas")) drop(MEASURES);
      if (fact.slots[slot]) this.remember({ fact, slot, index: 0 });
      fact.slots[slot] = wasAmperes && CURRENTS.includes(slot) ? values.map(inAmperes) : values;
      // A count is what was told last only where nothing else is.
      if (slot !== "count" || Object.keys(slots).length === 1) this.told = { fact, slot, index: 0 };
      // A voltage told for a load is the whole supply's where only one was known.
      if (slot === "volts") this.free = this.free.filter(({ key }) => classOf(key) !== VOLTS);
      // So is the metal, told of the wire.
      if (slot === "metal" && isLine(fact)) this.free = this.free.filter(({ key }) => !key.startsWith("metal:"));
    }
  }
  /** What the plate of a machine told, when another one takes its place. */
  forgetPlate(fact: Writable, by: string, again: readonly string[] = []): void {
    for (const slot of PLATE) {
      if (fact.slots[slot] && !again.includes(slot)) {
        this.leaveOut(fact, slot, `it was told of another one than ${by}`);
      }
    }
  }
  append(fact: Fact): void {
    const added: Writable = { ...fact, slots: { ...fact.slots } };
    this.facts.push(added);
    const slot = Object.keys(fact.slots).find((each) => MEASURES.includes(each)) ?? Object.keys(fact.slots)[0];
    if (slot !== undefined) this.told = { fact: added, slot, index: 0 };
  }
  remove(gone: Writable, pieces: readonly number[]): void {
    this.facts.splice(this.facts.indexOf(gone), 1);
    if (gone.family === "load" && gone.id !== undefined) {
      this.gone = [...this.gone.filter(({ id }) => id !== gone.id), { ...gone, slots: { ...gone.slots } }];
    }
    for (const piece of pieces) this.used.add(piece);
    this.told = undefined;
    // What the rest goes by was told beside it.
    for (const slot of ["volts", "phase"]) {
      const [value] = gone.slots[slot] ?? [];
      if (!value || this.facts.some(({ slots }) => slots[slot])) continue;
      const sense = value.sense.is === "number"
        ? { is: "quantity" as const, n: value.sense.n, unit: "V" as const }
        : value.sense;
      const key = sense.is === "term" ? `${sense.sort}:${sense.id}` : sense.is === "quantity" ? sense.unit : sense.is;
      this.free.push({ key, value: { ...value, sense }, sentence: -1 });
    }
  }
  /** One of several alike goes; all of them only where that is said. */
  removeOf(gone: Writable, pieces: readonly number[], isPlural: boolean): boolean {
    const count = countOf(gone);
    if (count <= 1 || isPlural && !this.says("one")) return this.remove(gone, pieces), true;
    if (!this.says("one", "a", "an")) return false;
    gone.slots.count = [{ ...gone.slots.count![0]!, sense: { is: "number", n: count - 1 } }];
    for (const piece of pieces) this.used.add(piece);
    return true;
  }
  says = (...words: readonly string[]): boolean => this.text.tokens.some(({ text }) => words.includes(text));
  /** Figures of the text without a head of their own, and heads that are named by nothing but their figure. */
  figures(): Figure[] {
    const numbers = this.numbers().map((from): Figure => ({
      n: (from.value.sense as { n: number }).n,
      value: from.value,
      from,
    }));
    const heads = this.news.facts.flatMap((from): Figure[] => {
      const slots = Object.keys(from.slots);
      const value = from.slots[slots[0] ?? ""]?.[0];
      return from.family === "load" && slots.length === 1 && MEASURES.includes(slots[0]!) &&
          (from.id === undefined || isMachine(from.id)) && value?.sense.is === "quantity"
        ? [{ n: value.sense.n, unit: value.sense.unit, value, from }]
        : [];
    });
    return [...numbers, ...heads].sort((a, b) => a.value.pieces[0]! - b.value.pieces[0]!);
  }
  /** Where a figure already stands. */
  standing({ n, unit }: Pick<Figure, "n" | "unit">): { fact: Writable; slot: string; index: number } | undefined {
    for (const fact of this.facts) {
      for (const [slot, [value]] of Object.entries(fact.slots)) {
        const { sense } = value ?? {};
        const isMeasure = fact.family === "load" ? MEASURES.includes(slot) : slot !== "count";
        // `keep the 175`, of a main that was told without its unit.
        const isBare = sense?.is === "number" && slot === "rating" && unit === undefined;
        const isOfUnit = sense?.is === "quantity" && (unit === undefined || sense.unit === unit);
        if (isMeasure && (isBare || isOfUnit) && sense.n === n) {
          return { fact, slot, index: 0 };
        }
        // `14, not 12`, of a wire or a cable.
        if ((sense?.is === "size" || sense?.is === "cable") && unit === undefined && sense.size === String(n)) {
          return { fact, slot, index: 0 };
        }
      }
    }
    return undefined;
  }
  settle({ from, value }: Figure): void {
    if ("key" in from) this.placed.add(from);
    else {
      this.settled.add(from);
      for (const piece of from.pieces) this.used.add(piece);
    }
    for (const piece of value.pieces) this.used.add(piece);
  }
  /** A head of the text that is dealt with, and all that stands in it. */
  settleFact(fact: Fact): void {
    this.settled.add(fact);
    for (const { pieces } of [fact, ...Object.values(fact.slots).flat()]) {
      for (const piece of pieces) this.used.add(piece);
    }
  }
  isPlural({ value, from }: Figure): boolean {
    const piece = this.text.pieces[value.pieces[0]!];
    const next = piece && this.text.tokens[piece.to];
    return /[a-z]s$/i.test(value.said) || (next?.text === "s" && next.glued) ||
      ("said" in from && /[a-z]{3}s$/i.test(from.said)) ||
      this.says("both", "all");
  }
  numbers = (): Free[] =>
    this.news.free.filter((each) =>
      each.value.sense.is === "number" && each.key === "number" && !this.placed.has(each)
    );
  leaveOut(fact: Writable, slot: string, because: string): void {
    const said = fact.slots[slot]?.[0]?.said.trim();
    delete fact.slots[slot];
    if (said) this.notes.push(`left out “${said}” of before: ${because}`);
  }
  /** What a plate told for the voltage of before counts no more. */
  outlived(): void {
    const isCorrected = this.news.free.some(({ key }) => key === "change:correct");
    for (const [fact, was] of this.was) {
      if (!this.facts.includes(fact)) continue;
      // What is only converted has no plate: its efficiency was told for the sum.
      const isOtherPhase = this.known.kind !== "conversion" &&
        phaseChanged({ fact: was, free: this.freeBefore }, { fact, free: this.free });
      // Put right, it is the same motor, and of its plate the currents alone are in doubt.
      for (const slot of !isOtherPhase ? [] : isCorrected ? [...CURRENTS, "locked-rotor-current"] : PLATE) {
        if (fact.slots[slot] && fact.slots[slot] === was.slots[slot]) {
          this.leaveOut(fact, slot, "it was told of a motor of another phase");
        }
      }
      const found = outlived({ fact: was, free: this.freeBefore }, { fact, free: this.free });
      for (const slot of found?.slots ?? []) {
        this.leaveOut(fact, slot, `it was told for ${found!.volts} V`);
      }
    }
  }
  /** What is known, its words left out. */
  digest = (): string =>
    JSON.stringify([
      this.facts.map((
        { id, slots },
      ) => [id, Object.entries(slots).map(([slot, values]) => [slot, values.map(({ sense }) => sense)])]),
      this.free.filter(({ key }) => !/^(?:change|goal|motorWord):/.test(key)).map((
        { key, value },
      ) => [key, value.sense]),
    ]);
  transformer = (): Writable | undefined =>
    this.facts.find(({ family, slots }) => family === "transformer" && slots.windings?.[0]?.sense.is === "windings");
  earlier(n: number): Place | undefined {
    const was = this.past.findLast((past) => past.n === n && this.facts[past.fact]?.slots[past.slot]);
    return was && { fact: this.facts[was.fact]!, slot: was.slot, index: was.index };
  }
}

/** `scratch that, its two sets of 250`: what is told behind it puts right, and takes nothing away. */
function isPutRight({ pieces, facts }: ReadText): boolean {
  const isTerm = (at: number, id: string) =>
    pieces[at]?.senses.some((s) => s.is === "term" && s.sort === "change" && s.id === id) ?? false;
  const at = pieces.findIndex((_, i) => isTerm(i, "drop"));
  return at >= 0 && isTerm(at, "correct") &&
    facts.facts.some(({ slots }) => Object.values(slots).flat().some(({ pieces: own }) => own.some((i) => i > at)));
}
const TOO = new Set(["too", "also", "well"]);
/** `and a 5 kW battery inverter too`: a thing with its figure, said of what comes as well. */
export function addsToo({ tokens, facts }: ReadText): boolean {
  const words = tokens.filter(({ is }) => is === "word");
  const isToo = TOO.has(words.at(-1)?.text ?? "") || words[0]?.text === "also";
  return isToo &&
    facts.facts.some(({ family, id, slots }) =>
      (family === "load" || family === "transformer") && id !== undefined && (slots.rating ?? slots.current) ||
      // `third switch too`
      family === "box"
    );
}
