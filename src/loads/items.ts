/**
 * Lexemes → loads. A list is cut into clauses; within one, a quantity belongs to the name it stands beside: before it
 * when the clause begins with a quantity (`12 kW range`), otherwise after it (`range 12 kW`). A clause of quantities alone
 * completes the load before it, or the one after it.
 */
import { exact } from "../core/quantity.ts";
import { isFiller, type Said, toJson } from "../text/phrases.ts";
import { CATALOGUE, type LoadKind } from "./catalogue.ts";
import type { Lexeme, Mark } from "./lexemes.ts";

type RatingUnit = "W" | "kW" | "VA" | "kVA" | "A" | "hp";
/** A load as it was said. Facts that were not said are absent. */
export type ReadLoad = {
  kind: LoadKind;
  name?: string;
  count?: number;
  rating?: Said<RatingUnit>;
  volts?: Said<"V">;
  fuel?: "gas" | "electric";
  units?: number;
  leg?: "A" | "B";
};
export type Item = {
  load: ReadLoad;
  how: "said" | "added" | "removed";
  /** Lexemes that were used up. */
  used: Lexeme[];
  /** What was understood otherwise than written. */
  notes: string[];
  /** A question that must be asked back before this load can count. */
  ask?: string;
  /** Names what the question is about, and is no load of its own where others are named. */
  heading?: boolean;
};

const RATING_UNITS: readonly string[] = ["W", "kW", "VA", "kVA", "A", "hp"];
/** How cooling and gas appliances are sold; no electric load follows from them. */
const SIZE_UNITS: readonly string[] = ["ton", "BTU/h"];
const HEATING = ["space heating", "furnace", "continuous heating"];
/** Words that make a rating something other than an appliance: a part of the installation, or a load counted by a rule. */
const NO_APPLIANCE = new Set(
  ("service panel panels subpanel breaker breakers main mains feeder feeders circuit circuits wire wires cable conduit " +
    "lighting lights light receptacle receptacles outlet outlets laundry small appliance appliances neutral transformer " +
    "meter demand load loads bus busbar fuse disconnect generator inverter solar pv battery total general existing amp " +
    "kitchen copper aluminum conductor conductors line leg phase system supply recorded peak drop").split(" "),
);
/** Words beside a rating that name no appliance. */
const NO_NAMES = new Set(
  "same dwelling kitchen building apartment household nameplate nameplates electric existing".split(" "),
);
/** A name of an unknown appliance ends before these. */
const ENDS_A_NAME = new Set("in on at for by to from that which is are the of each rated nameplate i my we".split(" "));
const LONGEST_NAME = 3;

type Quantity = Extract<Lexeme, { is: "quantity" }>;
type Name = Extract<Lexeme, { is: "name" }>;
const isName = (l: Lexeme): l is Name => l.is === "name";
const isRating = (l: Lexeme): l is Quantity => l.is === "quantity" && RATING_UNITS.includes(l.said.unit);
const isVolts = (l: Lexeme): l is Quantity => l.is === "quantity" && l.said.unit === "V";
const has = (lexemes: readonly Lexeme[], mark: Mark): boolean => lexemes.some(({ is }) => is === mark);

type Clause = { lexemes: Lexeme[]; /** What stands before it. */ after: { text: string; hard: boolean } };

function clausesOf(lexemes: readonly Lexeme[]): Clause[] {
  const clauses: Clause[] = [{ lexemes: [], after: { text: "", hard: true } }];
  const names = lexemes.filter(isName);
  const isHeading = (l: Lexeme) =>
    isName(l) && l.heading &&
    names.some((other) => other !== l && CATALOGUE[other.kind].group === CATALOGUE[l.kind].group);
  for (const lexeme of lexemes) {
    const last = clauses.at(-1)!;
    if (isHeading(lexeme)) {
      clauses.push({ lexemes: [lexeme], after: { text: "", hard: true } }, {
        lexemes: [],
        after: { text: "", hard: true },
      });
    } else if (lexeme.is !== "end") last.lexemes.push(lexeme);
    else if (last.lexemes.length > 0) clauses.push({ lexemes: [], after: { text: lexeme.text, hard: lexeme.hard } });
    else last.after = { text: lexeme.text.trim(), hard: lexeme.hard || last.after.hard };
  }
  return clauses.filter((clause) => clause.lexemes.length > 0);
}

/** Nothing but a rating and what belongs to it. */
const isBare = ({ lexemes }: Clause): boolean =>
  lexemes.some(isRating) &&
  lexemes.every((l) =>
    l.is !== "name" && !NO_APPLIANCE.has(l.text) && (l.is !== "word" || isFiller(l.text) || NO_NAMES.has(l.text))
  );

/** The loads of a text, in their order. */
export function itemsOf(lexemes: readonly Lexeme[]): Item[] {
  const items: Item[] = [];
  let pending: Clause[] = [];
  let group: Item[] = [];
  for (const [i, clause] of clausesOf(lexemes).entries()) {
    if (clause.after.hard) [pending, group] = [[], []];
    const previous = group.at(-1);
    const names = clause.lexemes.filter(isName);
    if (names.length > 0) {
      const made = specific(named(clause, names));
      carryOn(made, previous, clause, pending);
      pending = [];
      group.push(...made);
      items.push(...made);
      made.forEach((item) => fanOfGas(item, group[group.indexOf(item) - 1]));
      if (has(clause.lexemes, "all gas")) shareGas(group);
      continue;
    }
    if (isBare(clause)) {
      if (previous && pending.length === 0 && completes(previous, clause, items, group)) continue;
      pending.push(clause);
      continue;
    }
    if (previous && attach(previous, clause, group)) continue;
    const other = unknown(clause.lexemes);
    if (other) {
      items.push(other);
      group.push(other);
      pending = [];
    } else if (i > 0) pending = [];
  }
  return items;
}

/** `range, dryer and water heater are gas`: said of the whole row back to the first load with a rating. */
function shareGas(group: readonly Item[]): void {
  for (const { load, how } of [...group].reverse()) {
    if (load.rating || how !== "said") return;
    load.fuel = "gas";
  }
}

/** `heat 10 kW electric furnace` names one load twice: the general word gives way to the particular one. */
function specific(items: Item[]): Item[] {
  const [general, particular] = items;
  const particulars = ["furnace", "heat-pump", "thermal-storage-heat", "supplemental-heat"];
  if (items.length !== 2 || general!.load.kind !== "space-heater" || !particulars.includes(particular!.load.kind)) {
    return items;
  }
  if (general!.load.fuel || general!.how !== "said" || (general!.load.rating && particular!.load.rating)) return items;
  const { load, used, notes } = particular!;
  return [{
    ...particular!,
    load: { ...general!.load, ...load },
    used: [...general!.used, ...used],
    notes: [...general!.notes, ...notes],
  }];
}

/** The loads a clause names. */
function named({ lexemes }: Clause, names: readonly Name[]): Item[] {
  const places = names.map((name) => lexemes.indexOf(name));
  const firstRating = lexemes.findIndex((l) => isRating(l) || isVolts(l));
  const ratingsFirst = firstRating >= 0 && firstRating < places[0]!;
  // Where the lexemes of each name begin; the last takes all that follow it.
  const starts = places.map((place, i) => {
    if (i === 0) return 0;
    const gapFrom = places[i - 1]! + 1;
    const gap = lexemes.slice(gapFrom, place);
    if (ratingsFirst) return gapFrom + leadOfRating(gap);
    const ratings = gap.filter(isRating);
    // `gas furnace 8 A blower`: what burns gas leaves the rating to its fan.
    if (ratings.length > 0 && CATALOGUE[names[i]!.kind].group === "blower" && has(lexemes.slice(0, place), "gas")) {
      return lexemes.indexOf(ratings[0]!);
    }
    const isLast = i === places.length - 1;
    const nothingAfter = !lexemes.slice(place + 1, places[i + 1] ?? lexemes.length).some(isRating);
    if (isLast && nothingAfter && ratings.length >= 2) return lexemes.indexOf(ratings.at(-1)!);
    return place - leadLength(gap);
  });
  return names.map((name, i) => itemOf(name, lexemes.slice(starts[i]!, starts[i + 1] ?? lexemes.length)));
}

/** A blower named right after what burns gas is that furnace's, at 120 V unless a voltage is said. */
function fanOfGas({ load, notes }: Item, before: Item | undefined): void {
  if (CATALOGUE[load.kind].group !== "blower" || before?.load.fuel !== "gas" || !load.rating || load.volts) return;
  load.volts = { value: 120, unit: "V" };
  notes.push("took the blower of the gas furnace as 120 V");
}

/** Words right before a name that bear on it. */
function leadLength(gap: readonly Lexeme[]): number {
  const lead = new Set(["gas", "electric", "no", "count", "add"]);
  let length = 0;
  while (length < gap.length && lead.has(gap[gap.length - 1 - length]!.is)) length++;
  return length;
}

/** With ratings before names, what follows a name up to the next rating's own count is still the earlier name's. */
function leadOfRating(gap: readonly Lexeme[]): number {
  const rating = gap.findIndex((l) => isRating(l) || isVolts(l));
  if (rating < 0) return gap.length - leadLength(gap);
  return rating - leadLength(gap.slice(0, rating));
}

const AMPERES_FIRST = ["cooling", "heat pump", "blower", "ev"];

function itemOf(name: Name, lexemes: readonly Lexeme[]): Item {
  const place = lexemes.indexOf(name);
  const [before, after] = [lexemes.slice(0, place), lexemes.slice(place + 1)];
  const appliance = CATALOGUE[name.kind];
  const item: Item = { load: { kind: name.kind }, how: "said", used: [name], notes: [], heading: name.heading };
  const use = <L extends Lexeme>(lexeme: L | undefined) => {
    if (lexeme) item.used.push(lexeme);
    return lexeme;
  };
  const mark = (is: Mark, among: readonly Lexeme[] = lexemes) => use(among.find((l) => l.is === is)) !== undefined;

  if (mark("no", before)) item.how = "removed";
  else if (mark("add", before)) {
    item.how = "added";
    before.filter(({ is }) => is === "add").forEach(use);
  }
  if (has(lexemes, "gas") || has(lexemes, "all gas")) {
    if (!mark("gas")) mark("all gas");
    item.load.fuel = "gas";
  } else if (mark("electric", before) && appliance.fuel) item.load.fuel = "electric";

  const { rating, notes, breaker } = ratingIn(lexemes, AMPERES_FIRST.includes(appliance.group));
  item.notes.push(...notes.map((note) => `${appliance.name}: ${note}`));
  if (rating) item.load.rating = use(rating)!.said as Said<RatingUnit>;
  if (mark("minimum circuit ampacity") && rating) {
    item.notes.push(
      `took the minimum circuit ampacity of the ${appliance.name} as its load: the rated current is smaller`,
    );
  }
  if (!rating && breaker && item.load.fuel !== "gas") {
    item.ask =
      `${breaker.said.value} A is the ${appliance.name}'s circuit or breaker, not its load. What does its nameplate say?`;
  }
  lexemes.filter((l) => l.is === "quantity" && SIZE_UNITS.includes(l.said.unit)).forEach(use);
  const volts = use(lexemes.find(isVolts));
  if (volts) item.load.volts = volts.said as Said<"V">;
  const leg = use(lexemes.find((l) => l.is === "leg"));
  if (leg?.is === "leg") item.load.leg = leg.leg;
  counts(item, name, before, after, mark);
  burns(item);
  return item;
}

/** The rating among a load's quantities: its amperes or its power, whichever that kind of load is calculated from. */
function ratingIn(lexemes: readonly Lexeme[], amperesFirst: boolean) {
  const protectedBy = new Set(lexemes.flatMap((l, i) => l.is === "protection" ? [guardedBy(lexemes, i)] : []));
  const all = lexemes.filter(isRating);
  const ratings = all.filter((l) => !protectedBy.has(l));
  const amperes = ratings.find(({ said }) => said.unit === "A");
  const power = ratings.find(({ said }) => said.unit !== "A");
  const rating = amperesFirst ? amperes ?? power : power ?? amperes;
  const notes = lexemes.flatMap((l) =>
    l.is === "quantity" && SIZE_UNITS.includes(l.said.unit)
      ? [`set ${l.said.value} ${l.said.unit === "ton" ? "tons" : "BTU/h"} aside: only the nameplate's amperes count`]
      : []
  );
  return { rating, notes, breaker: all.find((l) => protectedBy.has(l) && l.said.unit === "A") };
}

/** The current a word such as `breaker` or `MOCP` belongs to: `60 A breaker`, `MOCP 35 A`. */
function guardedBy(lexemes: readonly Lexeme[], at: number): Lexeme | undefined {
  const [before, after] = [lexemes[at - 1], lexemes[at + 1]];
  const [first, second] = /^m(o|ax)/.test(lexemes[at]!.text) ? [after, before] : [before, after];
  return first && isRating(first) ? first : second;
}

/** How many there are, whether the rating is of each or of all, and how heating is controlled. */
function counts(
  item: Item,
  name: Name,
  before: readonly Lexeme[],
  after: readonly Lexeme[],
  mark: (is: Mark) => boolean,
): void {
  const use = (lexeme: Lexeme) => void item.used.push(lexeme);
  const { load } = item;
  // `3 fixed appliances: dishwasher 1.2 kW` counts no dishwashers.
  const counted =
    before.find((l, i) => l.is === "count" && !before.slice(i).some(({ text }) => NO_APPLIANCE.has(text))) ??
      after.find((l, i) => l.is === "count" && (i === 0 && name.plural || after[i + 1]?.is === "joint"));
  let count: number | undefined;
  if (counted?.is === "count" && Number.isInteger(counted.n) && counted.n >= 1) {
    use(counted);
    count = counted.n;
  }
  if (!load.rating && !load.fuel && count === undefined && after[0]?.is === "count") {
    const { n } = after[0];
    item.ask = `${n} of what? Give the ${CATALOGUE[name.kind].name}'s rating with its unit.`;
  }
  const controls = [...before, ...after].find((l) => l.is === "controls");
  const heating = HEATING.includes(CATALOGUE[name.kind].group);
  const together = mark("total");
  mark("each");
  let units: number | undefined;
  if (controls?.is === "controls" && heating) {
    use(controls);
    const row = [...before, name, ...after];
    const rated = row.findIndex(isRating);
    // `five separately controlled 1.5 kW heaters` are five heaters; `9 kW in five rooms` is one rating in five parts.
    const ofEach = rated > row.indexOf(controls) && rated < row.indexOf(name) || row.some(({ is }) => is === "each");
    if (controls.n !== undefined && count === undefined && ofEach && name.plural) count = controls.n;
    else units = controls.n;
  }
  if (together && load.rating && count !== undefined && count > 1) {
    if (heating) [units, count] = [units ?? count, undefined];
    else {
      const each = exact(load.rating.value).div(count);
      item.notes.push(
        `took ${load.rating.value} ${load.rating.unit} for ${count} ${CATALOGUE[name.kind].name}s as ${
          each.toFraction(true)
        } ${load.rating.unit} each`,
      );
      load.rating = { value: toJson(each), unit: load.rating.unit };
    }
  }
  if (count !== undefined && count > 1) load.count = count;
  if (units !== undefined) load.units = units;
}

/** A gas appliance with a rating has a fan or a motor: that is the load, and it is said. */
function burns({ load, notes }: Item): void {
  if (load.fuel !== "gas" || !load.rating) return;
  const heats = HEATING.includes(CATALOGUE[load.kind].group);
  const name = heats ? "gas furnace" : `gas ${CATALOGUE[load.kind].name}`;
  notes.push(
    `took ${load.rating.value} ${load.rating.unit} as what the ${name}'s fan or motor takes${
      load.volts ? "" : ", at 120 V"
    }`,
  );
  load.name = heats ? `${name} blower` : name;
  load.kind = heats ? "air-handler" : "other";
  load.volts ??= { value: 120, unit: "V" };
  delete load.fuel;
}

/** What a clause owes to its neighbours: quantities said before it, `or` after a `no`, gas said of a whole row. */
function carryOn(made: Item[], previous: Item | undefined, clause: Clause, pending: readonly Clause[]): void {
  const first = made[0]!;
  // `14 kW + 18 kW two ranges`: the count is of all of them.
  if (first.load.rating && pending.length > 0 && first.load.count === pending.length + 1) delete first.load.count;
  if (previous?.how === "removed" && /^(or|nor)$/.test(clause.after.text) && !first.load.rating) first.how = "removed";
  for (const { lexemes } of pending) {
    const rating = lexemes.find(isRating)!;
    if (!first.load.rating && first.load.fuel !== "gas") {
      completed(first, lexemes);
    } else if (first.load.rating?.unit === rating.said.unit && /^(and|&|or|plus|\+)$/.test(clause.after.text)) {
      // `a 14 kW and an 18 kW range`
      const twin: Item = { load: { kind: first.load.kind }, how: first.how, used: [], notes: [] };
      completed(twin, lexemes);
      made.unshift(twin);
    }
  }
  const bare = clause.lexemes[0]!.is === "name" && !first.load.rating && first.load.fuel === undefined;
  const together = /^(and|&|\/)$/.test(clause.after.text);
  if (previous?.load.fuel === "gas" && first.how === "said" && bare && together && CATALOGUE[first.load.kind].fuel) {
    const name = CATALOGUE[first.load.kind].name;
    first.ask = `Is the ${name} gas as well, or electric?`;
  }
}

/** Takes a bare clause into a load that lacks its rating. */
function completed(item: Item, lexemes: readonly Lexeme[]): void {
  const rating = lexemes.find(isRating)!;
  item.load.rating = rating.said as Said<RatingUnit>;
  item.used.push(rating);
  delete item.ask;
  for (const l of lexemes) {
    if (isVolts(l)) item.load.volts = l.said as Said<"V">;
    else if (l.is === "count" && l.n > 1 && Number.isInteger(l.n)) item.load.count = l.n;
    else if (l.is !== "each" && l.is !== "count") continue;
    item.used.push(l);
  }
}

/** Whether a bare clause gives the load before it a rating, or one more load of the same kind its own. */
function completes(previous: Item, clause: Clause, items: Item[], group: Item[]): boolean {
  const { load } = previous;
  if (load.fuel === "gas" || previous.how === "removed" || load.kind === "other") return false;
  if (!load.rating) {
    completed(previous, clause.lexemes);
    return true;
  }
  // `two ranges, 14 kW and 18 kW`: the count is spread over what follows.
  const rating = clause.lexemes.find(isRating)!;
  if ((load.count ?? 1) < 2 || rating.said.unit !== load.rating.unit || has(clause.lexemes, "protection")) return false;
  const twin: Item = { load: { kind: load.kind }, how: previous.how, used: [], notes: [] };
  completed(twin, clause.lexemes);
  load.count = load.count! - (twin.load.count ?? 1);
  if (load.count < 2) delete load.count;
  items.push(twin);
  group.splice(group.indexOf(previous), 0, twin);
  return true;
}

/** Facts that follow a load: gas, how it is controlled, its volts, its leg. */
function attach(previous: Item, { lexemes }: Clause, group: readonly Item[]): boolean {
  const controls = lexemes.find((l) => l.is === "controls");
  const heating = group.findLast(({ load }) => HEATING.includes(CATALOGUE[load.kind].group));
  if (controls?.is === "controls" && heating && !lexemes.some(isRating)) {
    heating.used.push(controls);
    const units = controls.n ?? heating.load.count;
    if (has(heating.used, "total") && heating.load.count !== undefined) delete heating.load.count;
    if (controls.n !== undefined && units !== undefined) heating.load.units = units;
    return true;
  }
  const facts = lexemes.filter((l) => l.is !== "word" || !isFiller(l.text));
  if (facts.length === 0 || facts.some((l) => isRating(l) || l.is === "word")) return false;
  const gas = facts.find(({ is }) => is === "gas" || is === "all gas");
  if (gas && !previous.load.rating) {
    previous.load.fuel = "gas";
    previous.used.push(gas);
  }
  const volts = facts.find(isVolts);
  if (volts && !previous.load.volts) {
    previous.load.volts = volts.said as Said<"V">;
    previous.used.push(volts);
  }
  const leg = facts.find((l) => l.is === "leg");
  if (leg?.is === "leg") {
    previous.load.leg = leg.leg;
    previous.used.push(leg);
  }
  return gas !== undefined || volts !== undefined || leg !== undefined;
}

/** A rating with a name that is in no catalogue: `1.5 kW kiln`. */
function unknown(lexemes: readonly Lexeme[]): Item | undefined {
  const rating = lexemes.find(isRating);
  if (!rating || has(lexemes, "protection")) return undefined;
  if (lexemes.some((l) => l.is === "word" && NO_APPLIANCE.has(l.text))) return undefined;
  const at = lexemes.indexOf(rating);
  const words = nameAfter(lexemes.slice(at + 1)) ?? nameBefore(lexemes.slice(0, at));
  if (!words) return undefined;
  const load: ReadLoad = {
    kind: "other",
    name: words.map(({ text }) => text).join(" "),
    rating: rating.said as Said<RatingUnit>,
  };
  const used: Lexeme[] = [rating, ...words];
  const count = lexemes.find((l) => l.is === "count");
  if (count?.is === "count" && count.n > 1 && Number.isInteger(count.n) && lexemes.indexOf(count) < at) {
    load.count = count.n;
    load.name = load.name!.replace(/s$/, "");
    used.push(count);
  }
  const volts = lexemes.find(isVolts);
  if (volts) {
    load.volts = volts.said as Said<"V">;
    used.push(volts);
  }
  const added = lexemes.find(({ is }) => is === "add");
  if (added) used.push(added);
  return { load, how: added ? "added" : "said", used, notes: [] };
}

const belongs = (l: Lexeme): boolean => l.is === "word" && !isFiller(l.text) && !ENDS_A_NAME.has(l.text);

function nameAfter(rest: readonly Lexeme[]): Lexeme[] | undefined {
  const from = rest.findIndex(({ is }) => is === "word");
  if (from < 0) return undefined;
  const skip = rest[from]!.text === "of" || rest[from]!.text === "for" ? 1 : 0;
  const words = rest.slice(from + skip);
  const end = words.findIndex((l) => !belongs(l));
  const name = words.slice(0, end < 0 ? undefined : end).slice(0, LONGEST_NAME);
  return name.length > 0 ? name : undefined;
}

function nameBefore(rest: readonly Lexeme[]): Lexeme[] | undefined {
  const end = rest.findLastIndex(belongs) + 1;
  let from = end;
  while (from > 0 && belongs(rest[from - 1]!)) from--;
  const name = rest.slice(from, end).slice(-LONGEST_NAME);
  return name.length > 0 ? name : undefined;
}
