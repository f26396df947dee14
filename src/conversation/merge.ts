/**
 * What a further text does to the facts of a topic. A head that is named again is the same one, and what is said of it anew
 * replaces what was said before; a figure without a head goes where its like stands; a bare number answers what was asked
 * back, or is the new value of the figure told last. What finds no place is left over, for another question to explain.
 */
import type { Need } from "../core/outcome.ts";
import type { Fact, Facts, Free, Value } from "../reading/facts.ts";
import { NOMINAL_VOLTS } from "../reading/families.ts";
import type { Sense } from "../reading/sense.ts";
import type { ReadText } from "../reading/read.ts";
import type { Side, Winding } from "../reading/windings.ts";
import { countTold, isOfThem, withoutPointers } from "./counts.ts";
import { membersTold } from "./members.ts";
import { fuelOfAll, saysToo } from "./fuels.ts";
import { CURRENTS, MEASURES, outlived, PLATE } from "./plate.ts";
import { asReply, renewed, unitOf } from "./reply.ts";
import type { Last, Past } from "./thread.ts";

export type Merged = {
  readonly facts: Facts;
  readonly last?: Last;
  readonly past: readonly Past[];
  /** Pieces of the text that the merging itself used: what it removed, and the words that said so. */
  readonly used: ReadonlySet<number>;
  /** Whether something was to be added or taken away and all is as it was. */
  readonly isIdle: boolean;
  /** What no longer counts, and why: what the plate of another machine told. */
  readonly notes: readonly string[];
};
type Writable = { -readonly [K in keyof Fact]: Fact[K] } & { slots: Record<string, readonly Value[]> };
/** A figure of the text, alone or with a head that it names. */
type Figure = { n: number; unit?: string; value: Value; from: Free | Fact };
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
const [VOLTS, LENGTH, TERMINATION] = ["class 0", "class 1", "class 5"];
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
/** What is added to a question that is not about adding is one more of what it is about. */
const ofTopic = (news: Facts, kind: string): Facts =>
  kind === "added-load" || kind === "" ? news : {
    ...news,
    facts: news.facts.map((fact) =>
      fact.others?.includes("added") ? { ...fact, others: fact.others.filter((each) => each !== "added") } : fact
    ),
  };
/** Kinds that are about one load. */
const OF_ONE_LOAD = new Set(["branch-circuit", "motor-circuit", "cooling-circuit", "voltage-drop"]);
/** Kinds that are about a list of conductors and of what lies beside them. */
const OF_LISTS = new Set(["box-fill", "raceway-fill"]);
/** Kinds in which a voltage makes no difference, so that a bare number is none. */
const WITHOUT_VOLTS = new Set([
  "conductor-ampacity",
  "grounding",
  "box-fill",
  "raceway-fill",
  "cooking-demand",
  "dryer-demand",
]);
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
  /** Heads of the text that are dealt with. */
  readonly #settled = new Set<Fact>();
  readonly #past: Past[];
  #told: Place | undefined;
  readonly #notes: string[] = [];
  /** Each known fact as it was before this text. */
  readonly #was: ReadonlyMap<Writable, Fact>;
  readonly #freeBefore: readonly Free[];
  readonly #removes: boolean;
  readonly #adds: boolean;
  readonly #instead: boolean;

  constructor(earlier: Facts, readonly text: ReadText, readonly known: Known) {
    this.#facts = earlier.facts.map((fact) => ({ ...fact, slots: { ...fact.slots } }));
    this.#free = [...earlier.free];
    this.#was = new Map(this.#facts.map((fact, i) => [fact, earlier.facts[i]!]));
    this.#freeBefore = earlier.free;
    this.#news = withoutPointers(
      sameSize(ofMotor(asReply(ofTopic(text.facts, known.kind), known.needs), known.kind), text),
      text,
    );
    this.#past = [...known.past ?? []];
    this.#told = this.#placeOf(known.last);
    const has = (key: string) => text.facts.free.some((each) => each.key === key);
    this.#removes = has("change:drop") || takesOff(text);
    // What is said to be on the same circuit comes to what is there.
    this.#adds = has("change:add") || has("motorWord:one-branch");
    this.#instead = has("change:instead");
  }

  merge(): Merged {
    const before = this.#known();
    // A check is asked beside what was asked before.
    const asks = this.#news.free.some(({ key }) => key.startsWith("goal:") && key !== "goal:check");
    if (asks) this.#free = this.#free.filter(({ key }) => !key.startsWith("goal:"));
    // How far is asked of a run whose length no longer counts.
    if (this.#news.free.some(({ key }) => key === "goal:longest-run")) this.#forgetLength();
    // Where a length is told again, how far is not asked any more.
    else if (this.#news.free.some(({ key }) => classOf(key) === LENGTH)) {
      this.#free = this.#free.filter(({ key }) => key !== "goal:longest-run");
    }
    if (this.#asksSize()) this.#forgetSize();
    if (this.known.kind === "grounding" && !this.#adds) this.#otherGrounds();
    this.#forgetTransformerSize();
    this.#breakerOfAmpacity();
    this.#checkBreaker();
    this.#insteadOf();
    if (!this.#removes && !this.#more() && !this.#several() && !this.#onlySome() && !this.#adds) this.#members();
    this.#gauge();
    if (this.known.kind === "cooling-circuit") this.#forgetTried();
    if (this.#removes) this.#removeByFigure();
    else this.#swap();
    this.#fuels();
    this.#pair();
    this.#sum();
    this.#atEnds();
    if (this.#adds) this.#addByNumber();
    for (const fact of this.#news.facts) {
      if (this.#settled.has(fact)) continue;
      if (fact.family === "load") this.#load(fact);
      else this.#other(fact);
    }
    for (const each of this.#news.free) if (!this.#placed.has(each)) this.#single(each);
    this.#outlived();
    const last = this.#lastOf(this.#told);
    return {
      facts: { facts: this.#facts, free: this.#free },
      notes: this.#notes,
      used: this.#used,
      past: this.#past.slice(-PAST),
      isIdle: (this.#removes || this.#adds || this.#onlyNames()) && this.#known() === before,
      ...(last && { last }),
    };
  }

  /** Whether it names loads that are known, and neither asks nor tells anything of them. */
  #onlyNames = (): boolean =>
    this.text.facts.facts.length > 0 &&
    this.text.facts.facts.every(({ family, id, slots }) => family === "load" && id !== undefined && isBare(slots)) &&
    this.text.facts.free.every(({ key }) => key.startsWith("change:") && key !== "change:back-to") &&
    !this.text.asked.includes("?");
  /** `what size keeps it under 2 %`, `what wire size?`: of the conductor, where nothing else is named and no size is. */
  #asksSize = (): boolean =>
    this.#news.free.some(({ key }) => key === "goal:size") &&
    this.#news.facts.every((fact) => isLine(fact) && Object.keys(fact.slots).length === 0) &&
    !this.#news.free.some(({ value: { sense } }) => sense.is === "size" || sense.is === "number");
  #forgetSize(): void {
    for (const fact of this.#facts) if (isLine(fact)) delete fact.slots.size;
  }
  /** `how big for 150 A?`: of the transformer, where nothing but a load is told. */
  #forgetTransformerSize(): void {
    const asks = this.#news.free.some(({ key }) => key === "goal:size" || key === "goal:transformer-size");
    const { facts } = this.#news;
    if (!asks || facts.length === 0 || !facts.every(({ family, slots }) => family === "load" && measureOf(slots))) {
      return;
    }
    for (const fact of this.#facts) if (fact.family === "transformer") delete fact.slots.rating;
  }
  /** `and the breaker for it?` after an ampacity: the largest that it may have, and no circuit of its own. */
  #breakerOfAmpacity(): void {
    const { facts, free } = this.#news;
    const asks = facts.length > 0 && facts.every(({ family, slots }) => family === "device" && isBare(slots));
    if (this.known.kind !== "conductor-ampacity" || !asks || free.some(({ key }) => key.startsWith("goal:"))) return;
    this.#free.push(goal("ampacity"));
  }
  /** `two more of the 6s`: so many more of those that have this figure. */
  #more(): boolean {
    const [first, second, ...others] = this.#figures();
    if (!first || !second || others.length > 0 || first.unit !== undefined) return false;
    const next = this.text.pieces[first.value.pieces.at(-1) ?? -1]?.to ?? -1;
    const place = this.#standing(second);
    if (this.text.tokens[next]?.text !== "more" || place?.fact.family !== "load") return false;
    const count = countOf(place.fact) + first.n;
    place.fact.slots.count = [numbered(place.fact.slots.count?.[0] ?? first.value, count)];
    for (const each of [first, second]) this.#settle(each);
    return true;
  }
  /** `two of the 5s`, of one that is known: so many of them. */
  #several(): boolean {
    const [first, second, ...others] = this.#figures();
    if (!first || !second || others.length > 0 || first.unit !== undefined || !("key" in first.from)) return false;
    const place = this.#isPlural(second) ? this.#standing(second) : undefined;
    if (place?.fact.family !== "load" || countOf(place.fact) > 1 || !isOfThem(first.from, this.text)) return false;
    place.fact.slots.count = [numbered(first.value, first.n)];
    for (const each of [first, second]) this.#settle(each);
    return true;
  }
  /** `really only 20 of em get one`: fewer than there were, or than there are dwellings. */
  #onlySome(): boolean {
    const told = countTold(this.#news, this.text);
    const n = told?.value.sense.is === "number" ? told.value.sense.n : Infinity;
    const loads = this.#facts.filter(({ family }) => family === "load");
    const named = loads.filter(({ id }) => id !== undefined);
    const [group, ...others] = named.length > 0 ? named : loads;
    const most = Math.max(...this.#facts.filter((fact) => fact === group || isDwellings(fact)).map(countOf));
    if (!told || !group || others.some(({ id }) => id !== group.id) || n > most || most === 1) return false;
    if (group.slots.count) this.#remember({ fact: group, slot: "count", index: 0 });
    group.slots.count = [told.value];
    this.#free = this.#free.filter(({ key }) => key !== "share:each");
    this.#placed.add(told);
    return true;
  }
  /** `how far on a 10`: the conductor's size, where the run is asked about and has none. */
  #gauge(): void {
    const line = this.#facts.find(isLine);
    if (this.known.kind !== "voltage-drop" || line?.slots.size) return;
    const devices = this.#news.facts.filter(({ family, slots }) => family === "device" && slots.rating);
    const told = [...this.#numbers(), ...devices];
    const [from, ...others] = told;
    const value = from && ("key" in from ? from.value : from.slots.rating![0]!);
    const n = value?.sense.is === "number" ? value.sense.n : undefined;
    if (!from || !value || n === undefined || others.length > 0 || !GAUGES.has(n)) return;
    const at = this.text.pieces[value.pieces[0]!]?.from ?? 0;
    const words = this.text.tokens.slice(Math.max(0, at - 2), at).map(({ text }) => text);
    if (words.at(-1) !== "a" || !["on", "with", "using", "in", "of"].includes(words[0]!)) return;
    const size = [{ ...value, sense: { is: "size" as const, size: String(n) } }];
    if (line) line.slots.size = size;
    else this.#append({ family: "conductor", id: "wire", said: "", pieces: [], sentence: 0, slots: { size } });
    if ("key" in from) this.#placed.add(from);
    else this.#settled.add(from);
  }
  /** `it's all on propane except the ac`; `wh too`, after another one's fuel. */
  #fuels(): void {
    const all = fuelOfAll(this.text, this.#facts);
    for (const fact of all?.of ?? []) this.#fill(fact as Writable, { fuel: [all!.fuel] });
    if (all) {
      for (const fact of this.#news.facts.filter(({ family }) => family === "load")) {
        this.#settled.add(fact);
        for (const piece of fact.pieces) this.#used.add(piece);
      }
      for (const each of this.#news.free) if (each.key.startsWith("fuel:")) this.#placed.add(each);
      for (const piece of all.fuel.pieces) this.#used.add(piece);
    }
    const told = this.#told;
    if (!told || !("fact" in told) || told.slot !== "fuel" || !saysToo(this.text)) return;
    const fuel = told.fact.slots.fuel!;
    for (const { family, id, slots, pieces } of this.#news.facts) {
      const known = this.#facts.find((fact) => fact.family === family && fact.id === id);
      if (family !== "load" || !known || Object.keys(slots).length > 0) continue;
      this.#fill(known, { fuel });
      for (const piece of pieces) this.#used.add(piece);
    }
  }
  /** Devices that were tried one after the other are none of a nameplate that is told anew. */
  #forgetTried(): void {
    const isPlate = this.#news.facts.some(({ slots }) => slots["minimum-circuit-ampacity"]);
    const isTried = this.#past.some(({ fact }) => this.#facts[fact]?.family === "device");
    if (!isPlate || !isTried || this.#news.facts.some(({ family }) => family === "device")) return;
    for (const fact of this.#facts.filter(({ family }) => family === "device")) {
      this.#facts.splice(this.#facts.indexOf(fact), 1);
    }
    this.#free = this.#free.filter(({ key }) => key !== "goal:check");
    this.#past.length = 0;
    this.#told = undefined;
  }
  /** `is a 150 on it fine` of an ampacity, `could i use a 25` of a nameplate: a device, and no figure of what is known. */
  #checkBreaker(): void {
    const [number, ...others] = this.#numbers();
    const isPlate = this.known.kind === "cooling-circuit";
    const isChecked = this.#news.free.some(({ key }) => key === "goal:check") || isPlate && asksLeave(this.text);
    if (this.known.kind !== "conductor-ampacity" && !isPlate || !isChecked) return;
    if (!number || others.length > 0 || number.value.sense.is !== "number") return;
    if (this.#news.facts.some((fact) => !(isPlate && isLine(fact)))) return;
    this.#placed.add(number);
    if (!this.#news.free.some(({ key }) => key === "goal:check")) this.#free.push(goal("check"));
    this.#other({
      family: "device",
      id: "breaker",
      said: number.value.said,
      pieces: [],
      sentence: number.sentence,
      slots: { rating: [{ ...number.value, sense: { is: "quantity", n: number.value.sense.n, unit: "A" } }] },
    });
  }
  /** Some of a group get another figure; told of a group that is not known, it stays unplaced and is asked about. */
  #members(): void {
    const told = membersTold(this.#news, this.text);
    if (!told) return;
    const { count, head, figure, from } = told;
    const groups = this.#facts.filter((fact) =>
      fact.family === "load" && countOf(fact) > 1 && (head === undefined || isSame(fact.id, head.id))
    );
    for (const each of from) "key" in each ? this.#placed.add(each) : this.#settled.add(each);
    const [group] = groups;
    const slot = group && measureOf(group.slots);
    const some = count.sense.is === "number" || count.sense.is === "count" ? count.sense.n : 0;
    if (groups.length !== 1 || !group || !slot || some < 1 || some > countOf(group)) return;
    const sense = figure.sense.is === "number" ? renewed(group.slots[slot]![0]!.sense, figure.sense.n) : figure.sense;
    if (sense?.is !== "quantity" || sense.unit !== unitOf(group.slots[slot]![0])) return;
    const rest = countOf(group) - some;
    const slots = Object.fromEntries(Object.entries(group.slots).filter(([name]) => !PLATE.includes(name)));
    const own: Fact["slots"] = {
      ...slots,
      count: [some === 1 ? numbered(count, 1) : count],
      [slot]: [{ ...figure, sense }],
    };
    if (rest > 0) group.slots.count = [numbered(group.slots.count![0]!, rest)];
    else this.#facts.splice(this.#facts.indexOf(group), 1);
    this.#append({ ...group, slots: own });
    for (const { pieces } of [count, figure, ...(head ? [head] : [])]) {
      for (const piece of pieces) this.#used.add(piece);
    }
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

  /** What a plate told for the voltage of before counts no more. */
  #outlived(): void {
    for (const [fact, was] of this.#was) {
      if (!this.#facts.includes(fact)) continue;
      const found = outlived({ fact: was, free: this.#freeBefore }, { fact, free: this.#free });
      for (const slot of found?.slots ?? []) {
        this.#leaveOut(fact, slot, `it was told for ${found!.volts} V`);
      }
    }
  }
  #leaveOut(fact: Writable, slot: string, because: string): void {
    const said = fact.slots[slot]?.[0]?.said.trim();
    delete fact.slots[slot];
    if (said) this.#notes.push(`left out “${said}” of before: ${because}`);
  }

  /** What is known, its words left out. */
  #known = (): string =>
    JSON.stringify([
      this.#facts.map((
        { id, slots },
      ) => [id, Object.entries(slots).map(([slot, values]) => [slot, values.map(({ sense }) => sense)])]),
      this.#free.filter(({ key }) => !/^(?:change|goal|motorWord):/.test(key)).map((
        { key, value },
      ) => [key, value.sense]),
    ]);

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
    const isMachine = place.fact.family === "load" && place.slot === "rating" && isInHorsepower(values);
    if (isMachine && isOther(place.fact.slots.rating, values)) this.#forgetPlate(place.fact, value.said);
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
    // `plate really says 9.6`, of what draws amperes.
    const wasAmperes = CURRENTS.some((slot) => unitOf(fact.slots[slot]?.[0]) === "A");
    for (const [slot, values] of Object.entries(slots)) {
      if (slot === "rating" && fact.family === "load") {
        if (!isInHorsepower(values)) drop([...CURRENTS, "fuel"]);
        else if (isOther(fact.slots.rating, values)) {
          this.#forgetPlate(fact, values[0]!.said, Object.keys(slots));
        }
      }
      if (CURRENTS.includes(slot) && fact.family === "load") {
        drop(CURRENTS);
        if (!isInHorsepower(fact.slots.rating ?? [])) drop(["rating"]);
      }
      // What burns gas has no electric rating.
      if (slot === "fuel" && values.some(({ sense }) => sense.is === "term" && sense.id === "gas")) drop(MEASURES);
      if (fact.slots[slot]) this.#remember({ fact, slot, index: 0 });
      fact.slots[slot] = wasAmperes && CURRENTS.includes(slot) ? values.map(inAmperes) : values;
      if (slot !== "count") this.#told = { fact, slot, index: 0 };
      // A voltage told for a load is the whole supply's where only one was known.
      if (slot === "volts") this.#free = this.#free.filter(({ key }) => classOf(key) !== VOLTS);
      // So is the metal, told of the wire.
      if (slot === "metal" && isLine(fact)) this.#free = this.#free.filter(({ key }) => !key.startsWith("metal:"));
    }
  }
  /** What the plate of a machine told, when another one takes its place. */
  #forgetPlate(fact: Writable, by: string, again: readonly string[] = []): void {
    for (const slot of PLATE) {
      if (fact.slots[slot] && !again.includes(slot)) {
        this.#leaveOut(fact, slot, `it was told of another one than ${by}`);
      }
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
  /** One of several alike goes; all of them only where that is said. */
  #removeOf(gone: Writable, pieces: readonly number[], isPlural: boolean): boolean {
    const count = countOf(gone);
    if (count <= 1 || isPlural && !this.#says("one")) return this.#remove(gone, pieces), true;
    if (!this.#says("one", "a", "an")) return false;
    gone.slots.count = [{ ...gone.slots.count![0]!, sense: { is: "number", n: count - 1 } }];
    for (const piece of pieces) this.#used.add(piece);
    return true;
  }
  #says = (...words: readonly string[]): boolean => this.text.tokens.some(({ text }) => words.includes(text));

  // ── figures that name the one they belong to
  /** Figures of the text without a head of their own, and heads that are named by nothing but their figure. */
  #figures(): Figure[] {
    const numbers = this.#numbers().map((from): Figure => ({
      n: (from.value.sense as { n: number }).n,
      value: from.value,
      from,
    }));
    const heads = this.#news.facts.flatMap((from): Figure[] => {
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
  #standing({ n, unit }: Figure): { fact: Writable; slot: string; index: number } | undefined {
    for (const fact of this.#facts) {
      for (const [slot, [value]] of Object.entries(fact.slots)) {
        const { sense } = value ?? {};
        const isMeasure = fact.family === "load" ? MEASURES.includes(slot) : slot !== "count";
        if (isMeasure && sense?.is === "quantity" && sense.n === n && (unit === undefined || sense.unit === unit)) {
          return { fact, slot, index: 0 };
        }
      }
    }
    return undefined;
  }
  #settle({ from, value }: Figure): void {
    if ("key" in from) this.#placed.add(from);
    else {
      this.#settled.add(from);
      for (const piece of from.pieces) this.#used.add(piece);
    }
    for (const piece of value.pieces) this.#used.add(piece);
  }
  /** `leave out the 7.5`, `lose the 7.5 horse`: the load of which that is the figure. */
  #removeByFigure(): void {
    for (const figure of this.#figures()) {
      const place = this.#standing(figure);
      if (place?.fact.family === "load" && this.#removeOf(place.fact, figure.value.pieces, this.#isPlural(figure))) {
        this.#settle(figure);
      }
    }
  }
  #isPlural({ value, from }: Figure): boolean {
    const piece = this.text.pieces[value.pieces[0]!];
    const next = piece && this.text.tokens[piece.to];
    return /[a-z]s$/i.test(value.said) || (next?.text === "s" && next.glued) ||
      ("said" in from && /[a-z]{3}s$/i.test(from.said)) ||
      this.#says("both", "all");
  }
  /** `swap the 7.5 for a 15`, `15 instead of the 7.5`: the figure that is known becomes the other. */
  #swap(): void {
    const figures = this.#figures();
    const isSwap = this.#instead ||
      this.#news.free.some(({ key }) => key === "change:make" || key === "change:correct") ||
      this.#says("for", "to", "into", "with", "not", "becomes", "became", "now");
    if (figures.length !== 2 || !isSwap || this.#adds) return;
    if (this.#news.facts.some((fact) => fact.family === "load" && !figures.some(({ from }) => from === fact))) return;
    const [first, second] = figures as [Figure, Figure];
    const [one, two] = [this.#standing(first), this.#standing(second)];
    const place = one && !(two && this.#instead) ? one : two;
    const by = place === one ? second : first;
    const like = place && this.#senseAt(place);
    if (!place || !like || (by.unit !== undefined && by.unit !== unitOf({ ...by.value, sense: like }))) return;
    const sense = renewed(like, by.n)!;
    const count = countOf(place.fact);
    const known = place === one ? first : second;
    if (count > 1 && !this.#isPlural(known)) {
      if (!this.#says("one")) return;
      place.fact.slots.count = [{ ...place.fact.slots.count![0]!, sense: { is: "number", n: count - 1 } }];
      const { count: _, ...slots } = place.fact.slots;
      this.#append({ ...place.fact, slots: { ...slots, [place.slot]: [{ ...by.value, sense }] } });
    } else {
      this.#put(place, { ...by.value, sense });
    }
    for (const figure of figures) this.#settle(figure);
  }
  /** `add another 7.5`: one more, in the unit that all have. */
  #addByNumber(): void {
    const numbers = this.#numbers();
    const loads = this.#facts.filter(({ family }) => family === "load");
    const slot = MEASURES.find((each) => loads.length > 0 && loads.every(({ slots }) => slots[each]));
    if (numbers.length !== 1 || slot === undefined || this.#news.facts.some(({ family }) => family === "load")) return;
    if (OF_ONE_LOAD.has(this.known.kind) || new Set(loads.map(({ slots }) => unitOf(slots[slot]![0]))).size !== 1) {
      return;
    }
    const [number] = numbers as [Free];
    const model = loads.at(-1)!;
    const { count: _, share: __, ...slots } = model.slots;
    const sense = renewed(slots[slot]![0]!.sense, (number.value.sense as { n: number }).n);
    if (!sense) return;
    for (const plate of PLATE) if (plate !== slot) delete slots[plate];
    this.#append({ ...model, pieces: [], slots: { ...slots, [slot]: [{ ...number.value, sense }] } });
    this.#placed.add(number);
  }
  /** `and a 3 A sign as well, so 7 amps`: what is told of all together, where it is their sum. */
  #sum(): void {
    const loads = this.#facts.filter(({ family }) => family === "load");
    const news = this.#news.facts.filter(({ family }) => family === "load");
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
    this.#put({ fact: only, slot, index: 0 }, Object.values(all.slots).flat()[0]!);
    for (const fact of news) {
      this.#settled.add(fact);
      for (const piece of [...fact.pieces, ...Object.values(fact.slots).flat().flatMap(({ pieces }) => pieces)]) {
        this.#used.add(piece);
      }
    }
  }
  /** `the label says 31 and 45`: the two figures of a nameplate that told these two, in its order. */
  #pair(): void {
    const plate = this.#facts.find(({ slots }) => PAIR.every((slot) => slots[slot]));
    const pair = this.#news.free.filter(({ value: { sense } }) => sense.is === "pair");
    // `the plate says 27 and 40`: the first of them stands at the label.
    const labelled = this.#news.facts.filter(({ id, slots }) =>
      id === undefined && Object.keys(slots).join() === "nameplate" && slots.nameplate![0]!.sense.is === "number"
    );
    const numbers = [
      ...labelled.map(({ slots, sentence }): Free => ({ key: "number", value: slots.nameplate![0]!, sentence })),
      ...this.#numbers(),
    ];
    if (!plate || this.#adds || pair.length + numbers.length !== (pair.length === 1 ? 1 : 2)) return;
    const read = [...pair, ...numbers];
    const figures = read.flatMap(({ value: { sense } }) =>
      sense.is === "pair" ? [sense.a, sense.b] : sense.is === "number" ? [sense.n] : []
    );
    if (
      figures[0]! > figures[1]! ||
      !figures.every((n) => isLike((plate.slots[PAIR[0]!]![0]!.sense as { n: number }).n, n))
    ) return;
    PAIR.forEach((slot, i) =>
      this.#put({ fact: plate, slot, index: 0 }, {
        ...read[i % read.length]!.value,
        sense: { is: "quantity", n: figures[i]!, unit: "A" },
      })
    );
    for (const each of read) this.#placed.add(each);
    for (const fact of labelled) this.#settled.add(fact);
  }
  /** `the rod instead of the pipe`: what stands behind those words is no more. */
  #insteadOf(): void {
    const { pieces, tokens } = this.text;
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
    const fact = this.#news.facts.find((each) => each.pieces.includes(gone));
    const free = this.#news.free.filter(({ value }) => value.pieces.includes(gone));
    if (!fact && free.length === 0) return;
    this.#used.add(gone);
    if (fact) {
      this.#settled.add(fact);
      const old = this.#facts.find(({ family, id }) => family === fact.family && id === fact.id);
      if (old) this.#remove(old, fact.pieces);
    }
    for (const each of free) {
      this.#placed.add(each);
      this.#free = this.#free.filter(({ key }) => key !== each.key);
    }
  }
  #numbers = (): Free[] =>
    this.#news.free.filter((each) =>
      each.value.sense.is === "number" && each.key === "number" && !this.#placed.has(each)
    );

  #load(fact: Fact): void {
    if (fact.id === undefined) return this.#figure(fact);
    const measure = MEASURES.find((slot) => fact.slots[slot]);
    const alike = this.#facts.filter(({ family, id }) => family === "load" && isSame(id, fact.id));
    const told = alike.filter(({ slots }) => Object.keys(slots).length > 0);
    const same = told.find(({ id }) => id === fact.id) ?? told[0] ?? alike.find(({ id }) => id === fact.id) ?? alike[0];
    // `they are 460 V motors`: all of them.
    if (
      !this.#removes && alike.length > 1 && /s$/i.test(fact.said) &&
      Object.keys(fact.slots).every((slot) => OF_ALL.has(slot))
    ) {
      for (const each of alike) this.#again(each, fact);
      return;
    }
    if (this.#removes) {
      const pieces = [...fact.pieces, ...Object.values(fact.slots).flat().flatMap((value) => value.pieces)];
      const isPlural = /s$/i.test(fact.said);
      // Named with a figure that none of them has, nothing is taken away: it is asked about.
      if (
        measure !== undefined &&
        !fact.slots[measure]!.some(({ sense }) => alike.some(({ slots }) => isEqual(slots[measure]?.[0]?.sense, sense)))
      ) return;
      const gone = isPlural && alike.length > 1 && !this.#says("one") ? alike : same ? [same] : [];
      for (const each of gone) this.#removeOf(each, pieces, isPlural);
      return;
    }
    if (same && !this.#adds) return this.#again(same, fact);
    if (same && measure === undefined) return this.#append(alikeOf(same, fact));
    const added = this.#addedInstead();
    if (!same && added) return this.#inPlaceOf(added, fact);
    const loads = this.#facts.filter(({ family }) => family === "load");
    if (!same && loads.length > 0 && isOfSupply(fact)) return this.#ofSupply(fact);
    if (loads.length === 1 && !this.#adds && (OF_ONE_LOAD.has(this.known.kind) || this.#instead)) {
      return this.#inPlaceOf(loads[0]!, fact);
    }
    this.#append(fact);
  }
  /** `what about a 40 A charger instead`, of what is to be added to a service: the one thing that was. */
  #addedInstead(): Writable | undefined {
    const isOther = this.#instead || this.#news.free.some(({ key }) => key === "change:make");
    if (this.known.kind !== "added-load" || !isOther || this.#adds || this.#removes) return undefined;
    const added = this.#facts.filter(({ family, others }) => family === "load" && others?.includes("added"));
    return added.length === 1 ? added[0] : undefined;
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
    // `they are 4 kW dryers`, told before by no more than what each draws.
    const unnamed = this.#facts.find((each) => each.family === "load" && each.id === undefined && each.slots.share);
    if (unnamed && measureOf(fact.slots) && !measureOf(same.slots)) {
      this.#facts.splice(this.#facts.indexOf(unnamed), 1);
    }
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
    if (slot === undefined || this.#removes) return;
    const unit = unitOf(fact.slots[slot]?.[0]);
    const loads = this.#facts.filter(({ family }) => family === "load");
    // `the drop with 60 A on it`: what it carries, and no other breaker.
    const isCarried = slot === "current" &&
      this.#news.free.some(({ key }) => key === "label:drop" || key === "goal:drop");
    const home = isCarried && loads.length === 0 ? undefined : this.#homeOf(slot, unit, loads);
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
    if (OF_LISTS.has(this.known.kind) && (fact.family === "conductor" || fact.family === "box")) {
      return this.#inList(fact);
    }
    const same = this.#facts.find((each) =>
      each.family === fact.family &&
      (each.id === fact.id || (isLine(each) && isLine(fact)) || (isDwellings(each) && isDwellings(fact)))
    );
    if (same && this.#removes) return this.#remove(same, fact.pieces);
    const [winding] = fact.slots.windings ?? [];
    const transformer = this.#transformer();
    if (winding?.sense.is === "winding" && transformer) {
      return this.#wind(transformer, winding.sense.side, winding.sense.winding, winding);
    }
    if (fact.id === "unit" && fact.slots.count && !same && this.#countAgain(fact)) return;
    // A branch circuit asked for is no feeder any more.
    if (fact.id === "circuit" && isAsked(fact)) {
      const feeder = this.#facts.find((each) => each.id === "feeder" && isAsked(each));
      if (feeder) this.#facts.splice(this.#facts.indexOf(feeder), 1);
    }
    if (!same || (this.#adds && fact.family === "device")) return this.#append(fact);
    this.#fill(same, fact.slots);
    Object.assign(same, { pieces: [...fact.pieces] });
  }
  /** Of a list of conductors or parts: one more of those that are there, another number of them, or another item. */
  #inList(fact: Fact): void {
    const [size] = fact.slots.size ?? [];
    const alike = this.#facts.filter((each) =>
      each.family === fact.family && (each.id === fact.id || (isLine(each) && isLine(fact)))
    );
    // `one more cable`, `2 cables`, where there is one sort of them; another size takes its place.
    const isOfThese = size === undefined
      ? this.#adds || this.#removes || fact.slots.count !== undefined
      : !this.#adds && !this.#removes;
    const same = alike.find(({ slots }) => isSameWire(slots.size?.[0]?.sense, size?.sense)) ??
      (isOfThese && alike.length === 1 ? alike[0] : undefined);
    if (this.#removes) return same && this.#removeFrom(same, fact);
    if (!same) return this.#append(fact);
    if (this.#adds) {
      const added = fact.slots.count?.[0] ?? { sense: { is: "number" as const, n: 1 }, pieces: [], said: fact.said };
      same.slots.count = [numbered(added, countOf(same) + countOf(fact))];
      for (const value of Object.values(fact.slots).flat()) for (const piece of value.pieces) this.#used.add(piece);
    } else this.#fill(same, fact.slots);
    Object.assign(same, { pieces: [...fact.pieces] });
  }

  /** `take out one 12/2`: so many fewer, and all of them where no number is told. */
  #removeFrom(same: Writable, fact: Fact): void {
    const pieces = [...fact.pieces, ...Object.values(fact.slots).flat().flatMap((value) => value.pieces)];
    const left = countOf(same) - countOf(fact);
    if (left < 1 || !(fact.slots.count || this.#says("one", "a", "an"))) return this.#remove(same, pieces);
    same.slots.count = [numbered(same.slots.count![0]!, left)];
    for (const piece of pieces) this.#used.add(piece);
  }

  /** `twenty units now`, of appliances that were counted without them: one for each. */
  #countAgain(unit: Fact): boolean {
    const counted = this.#facts.filter(({ family, slots }) => family === "load" && slots.count);
    if (counted.length !== 1) return false;
    this.#remember({ fact: counted[0]!, slot: "count", index: 0 });
    counted[0]!.slots.count = unit.slots.count!;
    for (const piece of unit.pieces) this.#used.add(piece);
    return true;
  }

  // ── figures and terms without a head
  /** `120 on the low side`: a number, and the side it is of. */
  #atEnds(): void {
    const figures = this.#news.free.filter(({ key }) => ["V", "kV", "system", "number"].includes(key));
    const transformer = this.#transformer();
    if (!transformer || figures.length !== 1) return;
    const end = this.#news.free.find(({ key }) => key === "end:primary" || key === "end:secondary") ??
      this.#inOrOut(figures[0]!) ?? this.#fedFrom(figures[0]!);
    if (!end) return this.#sideAgain(figures[0]!);
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
  /** `back to 208`: a voltage that one side had before. */
  #sideAgain(figure: Free): void {
    const { sense } = figure.value;
    const place = this.#news.free.some(({ key }) => key === "change:back-to") && "n" in sense
      ? this.#before(sense.n)
      : undefined;
    if (!place || !("fact" in place) || place.slot !== "windings" || !("n" in sense)) return;
    this.#wind(place.fact, place.index === 0 ? "primary" : "secondary", { n: sense.n, unit: "V" }, figure.value);
    this.#placed.add(figure);
    for (const piece of figure.value.pieces) this.#used.add(piece);
  }
  /** `240 out`, `480 in`. */
  #inOrOut(figure: Free): Free | undefined {
    const piece = this.text.pieces[figure.value.pieces.at(-1)!];
    const [next, after] = [this.text.tokens[piece?.to ?? 0], this.text.tokens[(piece?.to ?? 0) + 1]];
    const side = next?.text === "out"
      ? "secondary"
      : next?.text === "in" && after?.is !== "word"
      ? "primary"
      : undefined;
    return side && { ...figure, key: `end:${side}` };
  }
  /** `coming off 240`, `fed at 240`: what supplies it. */
  #fedFrom(figure: Free): Free | undefined {
    const at = this.text.pieces[figure.value.pieces[0]!]?.from ?? 0;
    const near = this.text.tokens.slice(Math.max(0, at - 3), at + 4).map(({ text }) => text);
    return near.some((word) => FED.has(word)) ? { ...figure, key: "end:primary" } : undefined;
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
    if (kin === "electrode" && this.known.kind === "grounding") this.#askElectrode(each);
    if (value.sense.is === "quantity") this.#told = { free: each };
  }

  /** Another electrode asks for the conductor to it. */
  #askElectrode({ value, sentence }: Free): void {
    const id = "grounding-electrode-conductor";
    if (this.#news.facts.some(({ family }) => family === "conductor")) return;
    if (this.#facts.some((fact) => fact.id === id)) return;
    this.#facts.push({ family: "conductor", id, said: value.said, pieces: [], sentence, slots: {} });
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
    // Taken away or added, a number that names none of them replaces none either.
    if (this.#removes || this.#adds) return false;
    // `the 20` is one that is known, and no new figure; `back to the 20` one that was.
    const isBack = this.#news.free.some(({ key }) => key === "change:back-to") && this.#before(n) !== undefined;
    if (!isBack && this.#isNamed(value)) {
      return this.#standing({ n, value, from: { key: "number", value, sentence: 0 } }) !== undefined;
    }
    const place = this.#before(n) ?? this.#sized(value) ?? this.#gauged(value, n) ?? this.#counted(value, n) ??
      this.#lately(n) ??
      this.#supply(n) ?? this.#nearest(n);
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
  #isNamed({ pieces }: Value): boolean {
    const first = this.text.pieces[pieces[0] ?? -1];
    if (first === undefined || this.text.tokens[first.from - 1]?.text !== "the") return false;
    // `it's the 3500 one` tells which of those that are sold.
    return this.text.tokens[first.to]?.text !== "one" ||
      ITS.has(this.text.tokens[first.from - 2]?.text ?? "") === false;
  }
  #before(n: number): Place | undefined {
    const was = this.#past.findLast((past) => past.n === n && this.#facts[past.fact]?.slots[past.slot]);
    return was && { fact: this.#facts[was.fact]!, slot: was.slot, index: was.index };
  }
  #counted(value: Value, n: number): Place | undefined {
    const counted = this.#facts.filter(({ family, slots }) => family === "load" && slots.count);
    return counted.length === 1 && Number.isInteger(n) && /^\p{L}/u.test(value.said) && !IS_PLURAL.test(value.said)
      ? { fact: counted[0]!, slot: "count", index: 0 }
      : undefined;
  }
  /** `with eights`: conductors of that size, where one is known. */
  #sized(value: Value): Place | undefined {
    const line = IS_PLURAL.test(value.said) && this.#facts.find((fact) => isLine(fact) && fact.slots.size);
    return line ? { fact: line, slot: "size", index: 0 } : undefined;
  }
  /** `ok 8 then`, of a wire whose drop or ampacity is asked: its size, where no current is near that. */
  #gauged(value: Value, n: number): Place | undefined {
    // `bump it up 2 sizes`
    const next = this.text.tokens[this.text.pieces[value.pieces.at(-1) ?? -1]?.to ?? -1]?.text ?? "";
    if (["size", "sizes", "steps", "of", "more", "times"].includes(next)) return undefined;
    if (this.text.tokens.length > MOST_AROUND_A_SIZE) return undefined;
    const line = this.#facts.find((fact) => isLine(fact) && fact.slots.size);
    const isOfWire = this.known.kind === "voltage-drop" || this.known.kind === "conductor-ampacity" ||
      this.#news.free.some(({ key }) => key.startsWith("metal:"));
    if (!line || !isOfWire || !GAUGES.has(n)) return undefined;
    const currents = this.#facts.flatMap(({ slots }) => [...slots.current ?? [], ...slots.rating ?? []]);
    const isNear = currents.some(({ sense }) => sense.is === "quantity" && sense.n / n < NEAR && n / sense.n < NEAR);
    return isNear ? undefined : { fact: line, slot: "size", index: 0 };
  }
  /** The figure told last, where it is of a like size. */
  #lately(n: number): Place | undefined {
    const sense = this.#told && this.#senseAt(this.#told);
    if (!sense) return undefined;
    if (sense.is === "size") return isWireSize(n) ? this.#told : undefined;
    if (sense.is !== "quantity" && sense.is !== "number") return undefined;
    if (sense.is === "quantity" && (sense.unit === "°F" || sense.unit === "°C") && n > sense.n * WARMER) {
      return undefined;
    }
    const isVolts = isNominal(n) && sense.is === "quantity" && !["A", "ft", "m", "V"].includes(sense.unit);
    if (sense.is === "quantity" && sense.unit === "%" && !isLimit(n)) return undefined;
    return isLike(sense.n, n) && !isVolts ? this.#told : undefined;
  }
  #supply = (n: number): "volts" | undefined =>
    isNominal(n) && !WITHOUT_VOLTS.has(this.known.kind) && !this.#facts.some(({ family }) =>
        family === "transformer"
      ) &&
      !(AMPERES_TOO.has(n) && this.#isRated())
      ? "volts"
      : undefined;
  #isRated = (): boolean =>
    this.#facts.some(({ family, slots }) => ["device", "circuit"].includes(family) && slots.rating);
  /** The one figure that is nearest in size, and clearly nearer than any other. */
  #nearest(n: number): Place | undefined {
    const places: { place: Place; ratio: number }[] = [];
    // Beside a transformer's voltages a usual one tells no power, and not which side it is of.
    if (isNominal(n) && this.#transformer()) return undefined;
    for (const fact of this.#facts) {
      for (const [slot, values] of Object.entries(fact.slots)) {
        values.forEach(({ sense }, index) => {
          const was = sense.is === "quantity"
            ? sense.n
            : sense.is === "number" && slot !== "count"
            ? sense.n
            : sense.is === "size" && n >= LEAST_KCMIL && n % 50 === 0 && sense.size.endsWith("kcmil")
            ? Number.parseFloat(sense.size)
            : undefined;
          if (was !== undefined && was > 0) {
            places.push({ place: { fact, slot, index }, ratio: Math.max(was / n, n / was) });
          }
        });
      }
    }
    for (const free of this.#free) {
      const { sense } = free.value;
      if (
        sense.is === "quantity" && sense.n > 0 && (classOf(free.key) !== TERMINATION || TERMINALS.has(n)) &&
        (free.key !== "%" || isLimit(n))
      ) {
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
const NEAR = 1.5;
const isLike = (was: number, n: number): boolean => was > 0 && n / was <= LIKE && was / n <= LIKE;
/** The smallest conductor that is told in kcmil. */
const LEAST_KCMIL = 250;
const isWireSize = (n: number): boolean => GAUGES.has(n) || n >= LEAST_KCMIL && n % 50 === 0;
/** What a drop is limited to, %. */
const isLimit = (n: number): boolean => n <= 10 && (Number.isInteger(n) || n === 1.5 || n === 2.5);
/** Number words that mean several of a size, `eights`. */
const IS_PLURAL = /^\p{L}+s$/u;
/** What terminations are rated for, °C. */
const TERMINALS: ReadonlySet<number> = new Set([60, 75, 90]);
const WARMER = 1.6;
/** Usual voltages that are ratings of breakers as well. */
const AMPERES_TOO: ReadonlySet<number> = new Set([110, 125, 200, 250, 400, 600]);
/** What a nameplate tells side by side. */
const PAIR = ["minimum-circuit-ampacity", "maximum-protection"] as const;
/** Words before `the 3500 one` that tell what a thing is. */
const ITS: ReadonlySet<string> = new Set(["it's", "its", "is", "was", "be", "actually", "got", "bought"]);
const measureOf = (slots: Fact["slots"]): string | undefined => MEASURES.find((slot) => slots[slot]);
const isBare = (slots: Fact["slots"]): boolean => Object.keys(slots).length === 0;
const numbered = (value: Value, n: number): Value => ({ ...value, sense: { is: "number", n } });
/** `same size but copper` asks for no size: the one that is known stays. */
function sameSize(news: Facts, { pieces, tokens }: ReadText): Facts {
  const isSameSize = ({ key, value }: Free) =>
    key === "goal:size" && tokens[(pieces[value.pieces[0] ?? -1]?.from ?? 0) - 1]?.text === "same";
  return { ...news, free: news.free.filter((each) => !isSameSize(each)) };
}
const countOf = ({ slots }: Fact): number => {
  const sense = slots.count?.[0]?.sense;
  return sense?.is === "number" || sense?.is === "count" ? sense.n : 1;
};
const isAsked = ({ family, slots }: Fact): boolean => family === "circuit" && Object.keys(slots).length === 0;
const isEqual = (a: Sense | undefined, b: Sense): boolean =>
  a?.is === "quantity" && b.is === "quantity" && a.n === b.n && a.unit === b.unit;
/** Whether two conductors or cables are of one size. */
const isSameWire = (a: Sense | undefined, b: Sense | undefined): boolean =>
  a === b || (a?.is === "size" && b?.is === "size" && a.size === b.size) ||
  (a?.is === "cable" && b?.is === "cable" && a.size === b.size && a.wires === b.wires);
/** `another dryer`: with the figures of the one that is known. */
function alikeOf(known: Fact, { said, pieces, slots, ...fact }: Fact): Fact {
  const { count: _, ...rest } = known.slots;
  const copied = Object.entries(rest).map(([slot, values]) => [
    slot,
    values.map((value) => ({ ...value, pieces: [], note: `took ${said} like the ${known.said || known.id} before` })),
  ]);
  return { ...fact, said, pieces, slots: { ...Object.fromEntries(copied), ...slots } };
}
const isNominal = (n: number): boolean => n >= 110 && NOMINAL_VOLTS.includes(n);
/** `9 apartments`, `make it 12 units`: the dwellings of a building, by whatever word. */
const isDwellings = ({ family, id, slots }: Fact): boolean =>
  family === "building" && ["unit", "apartment"].includes(id ?? "") && slots.count !== undefined;
const isLine = ({ family, id }: Fact): boolean =>
  family === "conductor" && (id === undefined || id === "wire" || id === "ungrounded");
/** `ok 8 then`: a size is told anew in so few words. */
const MOST_AROUND_A_SIZE = 5;
/** Sizes that a bare number tells of a wire. */
const GAUGES: ReadonlySet<number> = new Set([14, 12, 10, 8, 6, 4, 3, 2, 1]);
const goal = (id: string): Free => ({
  key: `goal:${id}`,
  value: { sense: { is: "term", sort: "goal", id }, pieces: [], said: "" },
  sentence: -1,
});
/** `could i use …`, `can we put …`, `and unit 2 on a 50?`. */
const asksLeave = ({ asked }: ReadText): boolean =>
  /\b(?:can|could|may) (?:i|we|you|it|they|that)\b/i.test(asked) || /\b(?:on|with|by) an? *\d+ *\?/i.test(asked);
/** Words before a voltage that tell what supplies a transformer. */
const FED = new Set(["fed", "feed", "feeding", "off", "from", "supplied", "supply", "line", "utility", "incoming"]);
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

const inAmperes = (value: Value): Value =>
  value.sense.is === "number" ? { ...value, sense: { is: "quantity", n: value.sense.n, unit: "A" } } : value;
/** Whether a figure that was told is told otherwise. */
const isOther = (was: readonly Value[] | undefined, is: readonly Value[]): boolean =>
  was !== undefined && !isEqual(was[0]?.sense, is[0]!.sense);

/** `heaters, nameplate 15.2 A`: of a motor they are its overload device, and the figures are the motor's. */
function ofMotor(news: Facts, kind: string): Facts {
  if (kind !== "motor-circuit") return news;
  const overloads = (fact: Fact): Fact[] => {
    if (fact.id !== "space-heater" || fact.slots.rating) return [fact];
    const { slots, ...head } = fact;
    const { id: _, ...motor } = head;
    return [{ ...head, family: "device", id: "overload", slots: {} }, { ...motor, id: "motor", pieces: [], slots }];
  };
  return { ...news, facts: news.facts.flatMap(overloads) };
}

function takesOff({ tokens }: ReadText): boolean {
  const takes = tokens.findIndex(({ text }) => TAKES.has(text));
  return takes >= 0 && tokens.slice(takes).some(({ text }) => OFF.has(text));
}
