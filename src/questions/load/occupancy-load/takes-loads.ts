/** Equipment: kitchens, motors, heating and cooling, signs, chargers. */
import { exact } from "../../../core/quantity.ts";
import { equipment, EQUIPMENT_KINDS, type EquipmentKind } from "../../../loads/equipment.ts";
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { isOfSupply } from "../../parts/supply-takes.ts";

type Told = {
  kind: EquipmentKind;
  name?: string;
  count?: number;
  rating?: Said;
  volts?: Said;
  phases?: 1 | 3;
  fuel?: "gas";
  continuous?: boolean;
};
/** Taken elsewhere, or without a load of their own. */
const NO_EQUIPMENT = [
  "lighting",
  "outdoor-lighting",
  "receptacles",
  "show-window",
  "track-lighting",
  "multioutlet-assembly",
];
const AMPERES = ["rated-load-current", "full-load-current", "nameplate", "draw", "current"];
const UNNAMED = ["rating", "current"];
const UNITS = ["W", "kW", "VA", "kVA", "A", "hp"];
const kindOf = (id: string | undefined): EquipmentKind | undefined =>
  (EQUIPMENT_KINDS as readonly string[]).includes(id ?? "") ? id as EquipmentKind : undefined;

/** @param places alike, each of which has what is told of each */
export function takeLoads(t: Taker, draft: Draft, places = 1): void {
  const list: Told[] = [];
  for (const fact of t.all("load")) {
    if (fact.id !== undefined && NO_EQUIPMENT.includes(fact.id)) continue;
    // `load` alone is what is asked for; with a figure it is one more load.
    if (fact.id === "load" && !UNNAMED.some((slot) => fact.slots[slot])) continue;
    const load = fact.id === undefined ? takeNameless(t, fact, list) : takeOne(t, fact, places);
    if (load) put(t, list, ...load);
  }
  const loads = withoutCounts(t, list);
  if (loads.length > 0) draft.loads = loads;
  // `for these six`, `8 pieces: …`: what is listed.
  const pieces = loads.reduce((sum, { count = 1 }) => sum + count, 0);
  const counts = [
    ...t.facts.free.filter(({ key }) => key === "number" || key === "count").map(({ value }) => value),
    ...t.all("load").filter(isOfList).map(({ slots }) => slots.count![0]!),
  ];
  for (const value of counts) {
    if ((value.sense as { n?: number }).n === pieces) t.aside(value, "the pieces are listed");
  }
  for (const part of t.all("circuit", "part")) t.head(part);
}

function takeOne(t: Taker, fact: Fact, places = 1): Told[] {
  t.head(fact);
  const kind = kindOf(fact.id);
  const load: Told = { kind: kind ?? "other" };
  if (fact.id !== "load" && (kind === undefined || kind === "machine")) load.name = fact.said.toLowerCase();
  const count = isOfList(fact) ? undefined : t.number(fact, "count");
  if (count !== undefined && count > 1) load.count = count;
  const fuel = t.term(fact, "fuel");
  if (fuel === "gas") load.fuel = fuel;
  const parts = takeRating(t, fact, load);
  const volts = fact.slots.volts?.[0];
  if (volts && volts.sense.is !== "system") {
    t.slot(fact, "volts");
    load.volts = { value: (volts.sense as { n: number }).n, unit: "V" };
  }
  if (!isOfSupply(fact)) {
    const phase = t.term(fact, "phase");
    if (phase === "three-phase") load.phases = 3;
    else if (phase === "single-phase") load.phases = 1;
  }
  const hours = t.term(fact, "hours");
  if (hours) load.continuous = hours === "continuous";
  for (const value of fact.slots.capacity ?? []) t.aside(value, "only the nameplate counts");
  for (const value of fact.slots.gallons ?? []) t.aside(value, "the tank's size is no load");
  for (const slot of ["maximum-protection", "minimum-protection", "locked-rotor-current"]) {
    for (const value of fact.slots[slot] ?? []) t.aside(value, "no load: the rated current counts");
  }
  const share = t.term(fact, "share");
  if (kind === "sign" && share === "each" && load.count === undefined && places > 1) {
    load.count = places;
    t.note(`took a sign for each of ${places} places`);
  }
  if (parts && parts.length > 1) {
    const { count: _, ...one } = load;
    return parts.map((value) => ({ ...one, rating: { value, unit: load.rating!.unit } }));
  }
  if (load.rating && load.count && share !== "each" && isOfAll(fact, load, share)) shareOut(t, load);
  return [load];
}

/** `8 pieces: 14 kW fryer, …`: a number that far before the first figure counts the list. */
function isOfList({ slots, pieces }: Fact): boolean {
  const [count, rating] = [slots.count?.[0]?.pieces.at(-1), slots.rating?.[0]?.pieces[0]];
  return count !== undefined && rating !== undefined && rating < Math.min(...pieces) && rating - count > FAR;
}
const FAR = 2;

/** Whether a figure is of all pieces together: told so, or behind so many that have no name of their own. */
function isOfAll(fact: Fact, { kind }: Told, share: string | undefined): boolean {
  if (share === "total") return true;
  const place = fact.slots.rating?.[0]?.pieces[0];
  return kind === "kitchen-equipment" && place !== undefined && place > Math.max(...fact.pieces);
}

function shareOut(t: Taker, load: Told): void {
  const each = exact(load.rating!.value).div(load.count!);
  const { value, unit } = load.rating!;
  t.note(`took ${value} ${unit} for ${load.count} pieces as ${each.toFraction(true)} ${unit} each, all alike`);
  const decimal = each.valueOf();
  load.rating = { value: exact(String(decimal)).equals(each) ? decimal : each.toFraction(), unit };
}

/** The figure a load is calculated from; the others are set aside. Returns what a sum was added up from. */
function takeRating(t: Taker, fact: Fact, load: Told): readonly number[] | undefined {
  const isCooling = ["cooling", "heat pump"].includes(equipment(load.kind).group);
  const slots = [...(isCooling ? [...AMPERES, "rating"] : ["rating", ...AMPERES]), "minimum-circuit-ampacity"]
    .filter((slot) => fact.slots[slot]);
  const [chosen, ...rest] = slots;
  if (chosen === undefined) return undefined;
  const value = fact.slots[chosen]![0]!;
  const said = saidOf(value.sense) ??
    (value.sense.is === "number" ? { value: value.sense.exact ?? value.sense.n, unit: "A" } : undefined);
  if (!said || !UNITS.includes(said.unit)) return undefined;
  t.slot(fact, chosen);
  load.rating = said;
  if (chosen === "minimum-circuit-ampacity") {
    t.note(
      `took the minimum circuit ampacity of the ${equipment(load.kind).name} as its load: the rated current is smaller`,
    );
  }
  // A second figure is the same load's where it stands beside the first one, or has a label of its nameplate.
  for (const slot of rest) {
    for (const other of fact.slots[slot]!) {
      const isFar = slot === "current" && !value.pieces.some((a) => other.pieces.some((b) => Math.abs(a - b) <= FAR));
      if (!isFar) t.aside(other, `the ${said.value} ${said.unit} counts`);
    }
  }
  return value.sense.is === "quantity" ? value.sense.parts : undefined;
}

/** A figure beside words that nothing knows is a load of that name; alone behind a load without a figure it is that load's. */
function takeNameless(t: Taker, fact: Fact, list: Told[]): Told[] | undefined {
  const slot = fact.slots.rating ? "rating" : "current";
  const figure = saidOf(fact.slots[slot]?.[0]?.sense);
  if (!figure || !UNITS.includes(figure.unit)) return undefined;
  const share = fact.slots.share?.[0]?.sense;
  if (share?.is === "term" && share.id === "total") return undefined;
  const name = fact.slots.name?.[0];
  const take = (load: Told): Told[] => {
    t.head(fact);
    t.slot(fact, slot);
    const count = t.number(fact, "count");
    return [{ ...load, ...(count !== undefined && count > 1 && { count }), rating: figure }];
  };
  if (name?.sense.is === "words") {
    t.slot(fact, "name");
    return take({ kind: "other", name: name.sense.words.toLowerCase() });
  }
  const last = list.at(-1);
  if (last && !last.rating && !last.fuel) {
    const parts = fact.slots[slot]![0]!.sense;
    list.pop();
    if (parts.is === "quantity" && parts.parts && parts.parts.length > 1) {
      t.head(fact);
      t.slot(fact, slot);
      const { count: _, ...one } = last;
      return parts.parts.map((value) => ({ ...one, rating: { value, unit: figure.unit } }));
    }
    return take(last);
  }
  // `10 hp, 7.5 hp and 5 hp motors`: what is told in horsepower is a motor.
  return figure.unit === "hp" ? takeOne(t, { ...fact, id: "motor" }) : undefined;
}

/** Two mentions of one thing are one, unless each has a figure of its own. */
function put(t: Taker, list: Told[], ...loads: Told[]): void {
  for (const load of loads) {
    const same = list.find((one) => one.kind === load.kind && one.name === load.name && load.kind !== "sign");
    const isPlain = (one: Told) => !one.rating && !one.fuel;
    if (same && isPlain(load) && (load.count === undefined || same.count === load.count)) continue;
    // `90 kW of kitchen equipment in 10 pieces`
    if (same?.rating && isPlain(load) && same.count === undefined) {
      same.count = load.count!;
      shareOut(t, same);
    } else if (same && isPlain(same) && (same.count === undefined || load.count === undefined)) {
      Object.assign(same, load);
      if (same.count && same.kind === "kitchen-equipment") shareOut(t, same);
    } else list.push(load);
  }
}

/** `8 pieces: …`: how many there are, where they are listed one by one. */
function withoutCounts(t: Taker, list: readonly Told[]): Told[] {
  const isOpen = (one: Told) => one.kind === "kitchen-equipment" && !one.rating;
  const pieces = list.filter((one) => !isOpen(one) && ["kitchen", "water heating"].includes(equipment(one.kind).group))
    .reduce((sum, { count = 1 }) => sum + count, 0);
  if (pieces === 0) return [...list];
  for (const open of list.filter((one) => isOpen(one) && one.count !== undefined && one.count !== pieces)) {
    t.ask({
      field: "loads.kitchen-equipment",
      ask: `${open.count} pieces were told, and ${pieces} are listed with their ratings. Which are the others?`,
      example: "5 kW dishwasher",
    });
  }
  return list.filter((one) => !isOpen(one));
}
