/**
 * What a further text does to the facts of a topic. A head that is named again is the same one, and what is said of it anew
 * replaces what was said before; a figure without a head goes where its like stands; a bare number answers what was asked
 * back, or is the new value of the figure told last. What finds no place is left over, for another question to explain.
 */
import type { Need } from "../core/outcome.ts";
import type { Fact, Facts, Free, Value } from "../reading/facts.ts";
import { NOMINAL_VOLTS } from "../reading/families.ts";
import type { Sense } from "../reading/pieces.ts";
import type { ReadText } from "../reading/read.ts";
import type { Side, Winding } from "../reading/windings.ts";
import { asReply, renewed, unitOf } from "./reply.ts";
import type { Last, Past } from "./thread.ts";

export type Merged = {
  readonly facts: Facts;
  readonly last?: Last;
  readonly past: readonly Past[];
  /** Pieces of the text that the merging itself used: what it removed, and the words that said so. */
  readonly used: ReadonlySet<number>;
};
type Writable = { -readonly [K in keyof Fact]: Fact[K] } & { slots: Record<string, readonly Value[]> };
/** Where a figure stands: in a slot of a fact, or by itself. */
type Place = { fact: Writable; slot: string; index: number } | { free: Free };

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
const [VOLTS, LENGTH] = ["class 0", "class 1"];
const GROUNDS: ReadonlySet<string> = new Set([
  "equipment-ground",
  "grounding-electrode-conductor",
  "main-bonding-jumper",
  "system-bonding-jumper",
  "supply-side-bonding-jumper",
]);
const SORT_CLASSES = ["phase", "metal", "methodOfLoad", "raceway", "electrode", "connection", "hours"];
const classOf = (key: string): string => {
  const found = CLASSES.findIndex((keys) => keys.includes(key));
  if (found >= 0) return `class ${found}`;
  const sort = key.split(":")[0]!;
  if (sort === "insulation" || sort === "method") return "insulation";
  return SORT_CLASSES.includes(sort) ? sort : key;
};
const AREA = classOf("ft2");
/** What a load draws, by its different names: told anew, one takes the others' place. */
const CURRENTS = ["current", "draw", "rated-load-current", "nameplate", "full-load-current"];
const MEASURES = ["rating", ...CURRENTS];
/** What belongs to a nameplate, and goes with it when another machine takes its place. */
const PLATE = [
  ...CURRENTS,
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
  "selection-current",
];
/** Kinds that are about one load. */
const OF_ONE_LOAD = new Set(["branch-circuit", "motor-circuit", "cooling-circuit", "voltage-drop"]);
/** `take the charger off`, `leave the dryer out`. */
const [TAKES, OFF] = [new Set(["take", "leave", "cut", "strike", "cross", "skip"]), new Set(["off", "out", "away"])];

export type Known = { kind: string; needs?: readonly Need[]; last?: Last; past?: readonly Past[] };

export const merge = (earlier: Facts, text: ReadText, known: Known): Merged => new Merger(earlier, text, known).merge();

class Merger {
  readonly #facts: Writable[];
  #free: Free[];
  #news: Facts;
  readonly #used = new Set<number>();
  readonly #placed = new Set<Free>();
  readonly #past: Past[];
  #told: Place | undefined;
  readonly #removes: boolean;
  readonly #adds: boolean;
  readonly #instead: boolean;

  constructor(earlier: Facts, readonly text: ReadText, readonly known: Known) {
    this.#facts = earlier.facts.map((fact) => ({ ...fact, slots: { ...fact.slots } }));
    this.#free = [...earlier.free];
    this.#news = asReply(text.facts, known.needs);
    this.#past = [...known.past ?? []];
    this.#told = this.#placeOf(known.last);
    const has = (key: string) => text.facts.free.some((each) => each.key === key);
    this.#removes = has("change:drop") || takesOff(text);
    // What is said to be on the same circuit comes to what is there.
    this.#adds = has("change:add") || has("motorWord:one-branch");
    this.#instead = has("change:instead");
  }

  merge(): Merged {
    const asks = this.#news.free.some(({ key }) => key.startsWith("goal:"));
    if (asks) this.#free = this.#free.filter(({ key }) => !key.startsWith("goal:"));
    // How far is asked of a run whose length no longer counts.
    if (this.#news.free.some(({ key }) => key === "goal:longest-run")) this.#forgetLength();
    if (this.#asksSize()) this.#forgetSize();
    if (this.known.kind === "grounding" && !this.#adds) this.#otherGrounds();
    if (this.#removes) this.#removeByNumber();
    this.#atEnds();
    for (const fact of this.#news.facts) {
      if (fact.family === "load") this.#load(fact);
      else this.#other(fact);
    }
    for (const each of this.#news.free) if (!this.#placed.has(each)) this.#single(each);
    const last = this.#lastOf(this.#told);
    return {
      facts: { facts: this.#facts, free: this.#free },
      used: this.#used,
      past: this.#past.slice(-PAST),
      ...(last && { last }),
    };
  }

  /** `what size keeps it under 2 %`, `what wire size?`: of the conductor, where nothing else is named and no size is. */
  #asksSize = (): boolean =>
    this.#news.free.some(({ key }) => key === "goal:size") &&
    this.#news.facts.every((fact) => isLine(fact) && Object.keys(fact.slots).length === 0) &&
    !this.#news.free.some(({ value: { sense } }) => sense.is === "size" || sense.is === "number");
  #forgetSize(): void {
    for (const fact of this.#facts) if (isLine(fact)) delete fact.slots.size;
  }
  /** `and the main bonding jumper?`: asked instead of the conductor before; `aluminum ground`: the one that is asked for. */
  #otherGrounds(): void {
    const isAsked = ({ family, id, slots }: Fact) => family === "conductor" && GROUNDS.has(id ?? "") && !slots.size;
    const asked = this.#facts.filter(isAsked);
    for (const fact of this.#news.facts.filter(isAsked)) {
      if (asked.some(({ id }) => id === fact.id)) continue;
      const [first] = asked;
      if (!first) return;
      if (fact.said.toLowerCase() === "ground" && fact.slots.metal) {
        const facts = this.#news.facts.map((each) => each === fact ? { ...each, id: first.id! } : each);
        this.#news = { ...this.#news, facts };
      } else {
        Object.assign(first, { id: fact.id, said: fact.said });
        for (const other of asked.slice(1)) this.#facts.splice(this.#facts.indexOf(other), 1);
      }
      return;
    }
  }
  #forgetLength(): void {
    this.#free = this.#free.filter(({ key }) => classOf(key) !== LENGTH);
    for (const fact of this.#facts) delete fact.slots.length;
  }

  // ── places
  #placeOf(last: Last | undefined): Place | undefined {
    if (!last) return undefined;
    if ("free" in last) {
      const free = this.#free[last.free];
      return free && { free };
    }
    const fact = this.#facts[last.fact];
    return fact?.slots[last.slot] ? { fact, slot: last.slot, index: last.index ?? 0 } : undefined;
  }
  #lastOf(place: Place | undefined): Last | undefined {
    if (!place) return undefined;
    if ("free" in place) {
      const free = this.#free.indexOf(place.free);
      return free < 0 ? undefined : { free };
    }
    const fact = this.#facts.indexOf(place.fact);
    return fact < 0 ? undefined : { fact, slot: place.slot, index: place.index };
  }
  #senseAt = (place: Place): Sense | undefined =>
    "free" in place ? place.free.value.sense : place.fact.slots[place.slot]?.[place.index]?.sense;
  #put(place: Place, value: Value): void {
    this.#remember(place);
    if ("free" in place) {
      const free = { ...place.free, value };
      this.#free[this.#free.indexOf(place.free)] = free;
      this.#told = { free };
      return;
    }
    const values = [...place.fact.slots[place.slot]!];
    values[place.index] = value;
    place.fact.slots[place.slot] = values;
    this.#told = place;
  }
  /** What a figure was, so that one can go back to it by its number. */
  #remember(place: Place): void {
    const sense = this.#senseAt(place);
    if ((sense?.is !== "quantity" && sense?.is !== "number") || "free" in place) return;
    this.#past.push({ fact: this.#facts.indexOf(place.fact), slot: place.slot, index: place.index, n: sense.n });
  }

  // ── heads
  #fill(fact: Writable, slots: Fact["slots"]): void {
    const drop = (names: readonly string[]) => {
      for (const name of names) if (!slots[name]) delete fact.slots[name];
    };
    for (const [slot, values] of Object.entries(slots)) {
      if (slot === "rating" && fact.family === "load") drop(isInHorsepower(values) ? PLATE : [...CURRENTS, "fuel"]);
      if (CURRENTS.includes(slot) && fact.family === "load") {
        drop(CURRENTS);
        if (!isInHorsepower(fact.slots.rating ?? [])) drop(["rating"]);
      }
      // What burns gas has no electric rating.
      if (slot === "fuel" && values.some(({ sense }) => sense.is === "term" && sense.id === "gas")) drop(MEASURES);
      if (fact.slots[slot]) this.#remember({ fact, slot, index: 0 });
      fact.slots[slot] = values;
      if (slot !== "count") this.#told = { fact, slot, index: 0 };
      // A voltage told for a load is the whole supply's where only one was known.
      if (slot === "volts") this.#free = this.#free.filter(({ key }) => classOf(key) !== VOLTS);
    }
  }
  #append(fact: Fact): void {
    const added: Writable = { ...fact, slots: { ...fact.slots } };
    this.#facts.push(added);
    const slot = Object.keys(fact.slots).find((each) => MEASURES.includes(each)) ?? Object.keys(fact.slots)[0];
    if (slot !== undefined) this.#told = { fact: added, slot, index: 0 };
  }
  #remove(gone: Writable, pieces: readonly number[]): void {
    this.#facts.splice(this.#facts.indexOf(gone), 1);
    for (const piece of pieces) this.#used.add(piece);
    this.#told = undefined;
    // What the rest goes by was told beside it.
    for (const slot of ["volts", "phase"]) {
      const [value] = gone.slots[slot] ?? [];
      if (!value || this.#facts.some(({ slots }) => slots[slot])) continue;
      const sense = value.sense.is === "number"
        ? { is: "quantity" as const, n: value.sense.n, unit: "V" as const }
        : value.sense;
      const key = sense.is === "term" ? `${sense.sort}:${sense.id}` : sense.is === "quantity" ? sense.unit : sense.is;
      this.#free.push({ key, value: { ...value, sense }, sentence: -1 });
    }
  }
  /** `leave out the 7.5`: the load of which that is the figure. */
  #removeByNumber(): void {
    for (const each of this.#numbers()) {
      const { n } = each.value.sense as { n: number };
      const gone = this.#facts.find(({ family, slots }) =>
        family === "load" &&
        MEASURES.some((slot) => slots[slot]?.some(({ sense }) => sense.is === "quantity" && sense.n === n))
      );
      if (!gone) continue;
      this.#remove(gone, each.value.pieces);
      this.#placed.add(each);
    }
  }
  #numbers = (): Free[] =>
    this.#news.free.filter((each) =>
      each.value.sense.is === "number" && each.key === "number" && !this.#placed.has(each)
    );

  #load(fact: Fact): void {
    if (fact.id === undefined) return this.#figure(fact);
    const alike = this.#facts.filter(({ family, id }) => family === "load" && isSame(id, fact.id));
    const told = alike.filter(({ slots }) => Object.keys(slots).length > 0);
    const same = told.find(({ id }) => id === fact.id) ?? told[0] ?? alike.find(({ id }) => id === fact.id) ?? alike[0];
    // `they are 460 V motors`: all of them.
    if (alike.length > 1 && /s$/i.test(fact.said) && Object.keys(fact.slots).every((slot) => OF_ALL.has(slot))) {
      for (const each of alike) this.#again(each, fact);
      return;
    }
    if (this.#removes) {
      const pieces = [...fact.pieces, ...Object.values(fact.slots).flat().flatMap((value) => value.pieces)];
      if (same) this.#remove(same, pieces);
      return;
    }
    if (same && !this.#adds) return this.#again(same, fact);
    const loads = this.#facts.filter(({ family }) => family === "load");
    if (!same && loads.length > 0 && isOfSupply(fact)) return this.#ofSupply(fact);
    if (loads.length === 1 && !this.#adds && (OF_ONE_LOAD.has(this.known.kind) || this.#instead)) {
      return this.#inPlaceOf(loads[0]!, fact);
    }
    this.#append(fact);
  }
  /** `they are 460 V motors`, of loads without a name: what they are supplied with. */
  #ofSupply(fact: Fact): void {
    for (const piece of fact.pieces) this.#used.add(piece);
    for (const value of Object.values(fact.slots).flat()) {
      const { sense } = value;
      const key = sense.is === "term" ? `${sense.sort}:${sense.id}` : sense.is === "quantity" ? sense.unit : "volts";
      this.#single({ key, value, sentence: fact.sentence });
    }
  }
  #again(same: Writable, fact: Fact): void {
    this.#fill(same, fact.slots);
    Object.assign(same, { pieces: fact.pieces });
    // `the fan is 2.2`: the new value of its own figure.
    const numbers = this.#numbers();
    const slot = MEASURES.find((each) => same.slots[each]);
    const like = slot === undefined ? undefined : same.slots[slot]![0];
    if (Object.keys(fact.slots).length > 0 || numbers.length !== 1 || !like) return;
    const { value } = numbers[0]!;
    const sense = renewed(like.sense, (value.sense as { n: number }).n);
    if (!sense) return;
    this.#put({ fact: same, slot: slot!, index: 0 }, { ...value, sense });
    this.#placed.add(numbers[0]!);
  }
  /** Another load instead of the only one: what was told of the supply stays. */
  #inPlaceOf(only: Writable, fact: Fact): void {
    const isSame = fact.id === "load" || (isMachine(fact.id) && isMachine(only.id));
    if (!isSame) {
      only.slots = Object.fromEntries(
        Object.entries(only.slots).filter(([slot]) => ["volts", "phase", "hours"].includes(slot)),
      );
    }
    Object.assign(only, { id: isSame ? only.id ?? fact.id : fact.id, pieces: fact.pieces, said: fact.said });
    this.#fill(only, fact.slots);
  }
  /** A load that is only a figure belongs to the fact that has its like. */
  #figure(fact: Fact): void {
    const slots = Object.keys(fact.slots);
    const slot = slots.find((each) => MEASURES.includes(each)) ?? slots[0];
    if (slot === undefined) return;
    const unit = unitOf(fact.slots[slot]?.[0]);
    const loads = this.#facts.filter(({ family }) => family === "load");
    const home = this.#homeOf(slot, unit, loads);
    if (!home || this.#adds) return this.#append(fact);
    if (home.family === "load") this.#fill(home, fact.slots);
    else this.#fill(home, { rating: fact.slots[slot]! });
  }
  #homeOf(slot: string, unit: string | undefined, loads: readonly Writable[]): Writable | undefined {
    const told = this.#told;
    // The figure told last, where it is of the same unit; what is drawn is a load's and no device's.
    if (told && "fact" in told && unit !== undefined && (slot === "current" || told.fact.family === "load")) {
      if (unitOf(told.fact.slots[told.slot]?.[told.index]) === unit) return told.fact;
    }
    const alike = loads.filter((load) =>
      Object.entries(load.slots).some(([each, values]) =>
        each === slot || (MEASURES.includes(each) && unitOf(values[0]) === unit)
      )
    );
    if (alike.length === 1) return alike[0];
    if (unit === "A" && slot === "current" && alike.length === 0) {
      const rated = this.#facts.filter(({ family, slots }) => ["device", "circuit"].includes(family) && slots.rating);
      if (rated.length === 1) return rated[0];
    }
    if (unit === "kVA" || unit === "VA" || unit === "MVA") {
      const transformer = this.#facts.find(({ family, slots }) => family === "transformer" && slots.rating);
      if (transformer) return transformer;
    }
    return loads.length === 1 ? loads[0] : undefined;
  }
  #other(fact: Fact): void {
    const same = this.#facts.find((each) =>
      each.family === fact.family && (each.id === fact.id || (isLine(each) && isLine(fact)))
    );
    if (same && this.#removes) return this.#remove(same, fact.pieces);
    const [winding] = fact.slots.windings ?? [];
    const transformer = this.#transformer();
    if (winding?.sense.is === "winding" && transformer) {
      return this.#wind(transformer, winding.sense.side, winding.sense.winding, winding);
    }
    if (!same || (this.#adds && fact.family === "device")) return this.#append(fact);
    this.#fill(same, fact.slots);
    Object.assign(same, { pieces: [...fact.pieces] });
  }

  // ── figures and terms without a head
  /** `120 on the low side`: a number, and the side it is of. */
  #atEnds(): void {
    const end = this.#news.free.find(({ key }) => key === "end:primary" || key === "end:secondary");
    const figures = this.#news.free.filter(({ key }) => ["V", "kV", "system", "number"].includes(key));
    const transformer = this.#transformer();
    if (!transformer || !end || figures.length !== 1) return;
    const { sense } = figures[0]!.value;
    const winding = sense.is === "system"
      ? { n: sense.high, unit: "V" as const, low: sense.low, wye: sense.wye }
      : { n: (sense as { n: number }).n, unit: figures[0]!.key === "kV" ? "kV" as const : "V" as const };
    this.#wind(transformer, end.key === "end:primary" ? "primary" : "secondary", winding, figures[0]!.value);
    for (const each of [end, figures[0]!]) {
      this.#placed.add(each);
      for (const piece of each.value.pieces) this.#used.add(piece);
    }
  }
  #transformer = (): Writable | undefined =>
    this.#facts.find(({ family, slots }) => family === "transformer" && slots.windings?.[0]?.sense.is === "windings");
  /** Another voltage of one side. */
  #wind(transformer: Writable, side: Side, winding: Winding, by: Value): void {
    const [value] = transformer.slots.windings!;
    if (value?.sense.is !== "windings") return;
    const index = side === "primary" ? 0 : 1;
    this.#past.push({ fact: this.#facts.indexOf(transformer), slot: "windings", index, n: value.sense[side].n });
    transformer.slots.windings = [{ ...by, sense: { ...value.sense, [side]: { ...winding } } }];
    this.#told = { fact: transformer, slot: "windings", index };
  }
  #single(each: Free): void {
    const { key, value } = each;
    if (key.startsWith("change:")) return void this.#free.push(each);
    if (key === "number" && value.sense.is === "number" && this.#number(value, value.sense.n)) return;
    if (key.startsWith("absent:") && this.#gone(key.slice("absent:".length), value)) return;
    // An area that is added stands beside the one that is there.
    if (this.#adds && classOf(key) === AREA) return void this.#free.push(each);
    // What is so of a load is so of the only one.
    const loads = this.#facts.filter(({ family }) => family === "load");
    if (key.startsWith("hours:") && loads.length === 1) return this.#fill(loads[0]!, { hours: [value] });
    const kin = classOf(key);
    this.#free = this.#free.filter((old) => classOf(old.key) !== kin || old.key.startsWith("goal:"));
    const drop = (slot: string, of: (fact: Writable) => boolean = () => true) => {
      for (const fact of this.#facts) if (of(fact)) delete fact.slots[slot];
    };
    if (kin === VOLTS) drop("volts", ({ family }) => family === "load");
    if (kin === LENGTH) drop("length");
    if (kin === "phase") drop("phase");
    if (kin === "metal") drop("metal", isLine);
    if (kin === "insulation") {
      drop("insulation");
      // Another cable brings no conduit.
      if (key.endsWith("cable")) this.#free = this.#free.filter((old) => !old.key.startsWith("raceway:"));
    }
    this.#free.push(each);
    if (value.sense.is === "quantity") this.#told = { free: each };
  }

  /** `no dryer`: it goes, where it was there. */
  #gone(id: string, { pieces }: Value): boolean {
    const gone = this.#facts.filter((fact) => fact.family === "load" && fact.id === id);
    for (const fact of gone) this.#remove(fact, pieces);
    const circuit = this.#facts.find((fact) => fact.family === "circuit" && fact.id === id);
    if (circuit) this.#facts.splice(this.#facts.indexOf(circuit), 1);
    return gone.length > 0;
  }

  /** A bare number: what it was before, a count in words, a nominal voltage, the figure told last, the one nearest in size. */
  #number(value: Value, n: number): boolean {
    // Among words that nobody knows a bare number means nothing.
    if (this.text.pieces.some(({ is }) => is === "unknown")) return false;
    const place = this.#before(n) ?? this.#counted(value, n) ?? this.#lately(n) ?? this.#supply(n) ?? this.#nearest(n);
    if (place && place !== "volts" && "fact" in place && place.slot === "windings") {
      this.#wind(place.fact, place.index === 0 ? "primary" : "secondary", { n, unit: "V" }, value);
      return true;
    }
    if (place === "volts") {
      this.#single({ key: "V", value: { ...value, sense: { is: "quantity", n, unit: "V" } }, sentence: 0 });
      return true;
    }
    const sense = place && renewed(this.#senseAt(place)!, n);
    if (!place || !sense) return false;
    this.#put(place, { ...value, sense });
    return true;
  }
  #before(n: number): Place | undefined {
    const was = this.#past.findLast((past) => past.n === n && this.#facts[past.fact]?.slots[past.slot]);
    return was && { fact: this.#facts[was.fact]!, slot: was.slot, index: was.index };
  }
  #counted(value: Value, n: number): Place | undefined {
    const counted = this.#facts.filter(({ family, slots }) => family === "load" && slots.count);
    return counted.length === 1 && Number.isInteger(n) && /^\p{L}/u.test(value.said)
      ? { fact: counted[0]!, slot: "count", index: 0 }
      : undefined;
  }
  /** The figure told last, where it is of a like size. */
  #lately(n: number): Place | undefined {
    const sense = this.#told && this.#senseAt(this.#told);
    if (!sense) return undefined;
    if (sense.is === "size") return this.#told;
    if (sense.is !== "quantity" && sense.is !== "number") return undefined;
    const isVolts = isNominal(n) && sense.is === "quantity" && !["A", "ft", "m", "V"].includes(sense.unit);
    return isLike(sense.n, n) && !isVolts ? this.#told : undefined;
  }
  #supply = (n: number): "volts" | undefined =>
    isNominal(n) && !this.#facts.some(({ family }) => family === "transformer") ? "volts" : undefined;
  /** The one figure that is nearest in size, and clearly nearer than any other. */
  #nearest(n: number): Place | undefined {
    const places: { place: Place; ratio: number }[] = [];
    for (const fact of this.#facts) {
      for (const [slot, values] of Object.entries(fact.slots)) {
        values.forEach(({ sense }, index) => {
          const was = sense.is === "quantity"
            ? sense.n
            : sense.is === "number" && slot !== "count"
            ? sense.n
            : undefined;
          if (was !== undefined && was > 0) {
            places.push({ place: { fact, slot, index }, ratio: Math.max(was / n, n / was) });
          }
        });
      }
    }
    for (const free of this.#free) {
      const { sense } = free.value;
      if (sense.is === "quantity" && sense.n > 0) {
        places.push({ place: { free }, ratio: Math.max(sense.n / n, n / sense.n) });
      }
    }
    places.sort((a, b) => a.ratio - b.ratio);
    const [first, second] = places;
    return first && first.ratio <= LIKE && (!second || second.ratio >= first.ratio * CLEARLY) ? first.place : undefined;
  }
}

/** Replaced figures that are remembered. */
const PAST = 24;
/** A new value is of the size of the old one within this factor; another candidate lies so much farther off. */
const LIKE = 4;
const CLEARLY = 1.3;
const isLike = (was: number, n: number): boolean => was > 0 && n / was <= LIKE && was / n <= LIKE;
const isNominal = (n: number): boolean => n >= 110 && NOMINAL_VOLTS.includes(n);
const isLine = ({ family, id }: Fact): boolean =>
  family === "conductor" && (id === undefined || id === "wire" || id === "ungrounded");
/** What several of a kind share when they are spoken of together. */
const OF_ALL = new Set(["volts", "phase", "hours", "fuel"]);
const isOfSupply = ({ slots }: Fact): boolean => {
  const names = Object.keys(slots);
  return names.length > 0 && names.every((slot) => slot === "volts" || slot === "phase");
};
/** A compressor, told again, is the hermetic compressor that is known. */
const isSame = (a: string | undefined, b: string | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && (a.endsWith(`-${b}`) || b.endsWith(`-${a}`)));
const isMachine = (id: string | undefined): boolean =>
  ["motor", "pump", "compressor", "air-compressor", "fan", "machine"].includes(id ?? "motor");
const isInHorsepower = (values: readonly Value[]): boolean => values.some((value) => unitOf(value) === "hp");

function takesOff({ tokens }: ReadText): boolean {
  const takes = tokens.findIndex(({ text }) => TAKES.has(text));
  return takes >= 0 && tokens.slice(takes).some(({ text }) => OFF.has(text));
}
