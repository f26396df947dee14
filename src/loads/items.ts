/**
 * Lexemes → loads. A list is cut into clauses; within one, a quantity belongs to the name it stands beside: before it
 * when the clause begins with a quantity (`12 kW range`), otherwise after it (`range 12 kW`). A clause of quantities alone
 * completes the load before it, or the one after it.
 */
import { isFiller, type Said } from "../text/phrases.ts";
import { CATALOGUE } from "./catalogue.ts";
import { itemOf } from "./item.ts";
import type { Lexeme } from "./lexemes.ts";
import { has, HEATING, isName, isRating, isVolts, type Item, type Name, type RatingUnit } from "./load.ts";
import { NO_APPLIANCE, NO_NAMES, unknown } from "./unknown.ts";

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
  if (item.tentative) {
    item.used = item.used.filter((l) => !isRating(l));
    item.notes.pop();
    delete item.tentative;
  }
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
  if (!load.rating || (previous.tentative && !has(clause.lexemes, "protection"))) {
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
