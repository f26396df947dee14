/** One load, from its name and the lexemes beside it. */
import { exact } from "../core/quantity.ts";
import { type Said, toJson } from "../text/phrases.ts";
import { CATALOGUE } from "./catalogue.ts";
import type { Lexeme, Mark } from "./lexemes.ts";
import { has, HEATING, isRating, isVolts, type Item, type Name, type RatingUnit, SIZE_UNITS } from "./load.ts";
import { NO_APPLIANCE } from "./unknown.ts";

const AMPERES_FIRST = ["cooling", "heat pump", "blower", "ev"];

/** A load from its name and the lexemes that belong to it. */
export function itemOf(name: Name, lexemes: readonly Lexeme[]): Item {
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

  const { rating, rival, least, notes, breaker } = ratingIn(lexemes, AMPERES_FIRST.includes(appliance.group));
  item.notes.push(...notes.map((note) => `${appliance.name}: ${note}`));
  if (rating) item.load.rating = use(rating)!.said as Said<RatingUnit>;
  if (rating && rival) {
    item.ask =
      `${rating.said.value} or ${rival.said.value} ${rating.said.unit}: which is the ${appliance.name}'s load?`;
  }
  mark("minimum circuit ampacity");
  if (least) {
    item.tentative = true;
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
  const free = all.filter((l) => !protectedBy.has(l));
  // The rated current is the load where it stands beside the minimum circuit ampacity.
  const least = lexemes.findIndex(({ is }) => is === "minimum circuit ampacity");
  const ampacity = least < 0 ? undefined : lexemes.slice(least).find(isRating);
  const ratings = free.length > 1 ? free.filter((l) => l !== ampacity) : free;
  const amperes = ratings.find(({ said }) => said.unit === "A");
  const power = ratings.find(({ said }) => said.unit !== "A");
  const rating = amperesFirst ? amperes ?? power : power ?? amperes;
  const notes = lexemes.flatMap((l) =>
    l.is === "quantity" && SIZE_UNITS.includes(l.said.unit)
      ? [`set ${l.said.value} ${l.said.unit === "ton" ? "tons" : "BTU/h"} aside: only the nameplate's amperes count`]
      : []
  );
  const rival = ratings.find(({ said }) => said.unit === rating?.said.unit && said.value !== rating.said.value);
  return {
    rating,
    rival,
    least: rating !== undefined && rating === ampacity,
    notes,
    breaker: all.find((l) => protectedBy.has(l) && l.said.unit === "A"),
  };
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
