/** What the demand of one kind of household appliance takes besides the appliances: supply, voltage, what it is asked for. */
import type { Draft, Fact } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { HOMES_IN } from "../../loads/homes.ts";
import { HOMES } from "./many-dwellings.ts";

/** Household appliances of one kind, and a demand or the load on a service asked; no area, no wire, no breaker, no distance. */
export function isDemandAsked(
  t: Taker,
  isOne: (id: string | undefined) => boolean,
  ...sections: readonly string[]
): boolean {
  // `the load for four ranges`: the word names none.
  const loads = t.all("load").filter(({ id, slots }) => id !== "load" || Object.keys(slots).length > 0);
  const own = loads.filter(({ id }) => isOne(id));
  const bySection = t.facts.free.some(({ key: at, value }) =>
    at === "section" && value.sense.is === "section" && sections.includes(value.sense.section)
  );
  const asks = t.wants(...DEMAND_GOALS) ||
    t.facts.free.some(({ key: at }) => at === "methodOfLoad:column C" || at === "methodOfLoad:note 3") ||
    t.has("methodOfLoad:standard") || t.has("calculated-load") ||
    own.some(({ others }) => others?.includes("load:load")) || bySection ||
    // On a feeder appliances of one kind alone are a demand.
    (t.wants("circuit:feeder") && own.length === loads.length);
  // `24 units, a 5 kW dryer in each`: of so many homes nothing else can be meant.
  const isOfHomes = own.length === loads.length &&
    (t.all("building", "unit", "apartment", "multifamily").some(({ slots }) => slots.count) ||
      t.all("building", ...Object.keys(HOMES_IN)).length > 0 && own.some(({ slots }) => slots.count));
  const counts = own.flatMap(({ slots }) => slots.count ?? []).map(({ sense }) => (sense as { n: number }).n);
  const all = counts.reduce((sum, n) => sum + n, own.length - counts.length);
  const isMany = (counts.length > 0 && t.all("device", "service").length > 0) ||
    (counts.length > 0 && all >= MANY && own.length === loads.length &&
      t.all("circuit").every(({ id }) => NO_BRANCH.has(id ?? "")));
  const isHouse = ["ft2", "m2", "area"].some(t.has);
  const isWiring = t.wants("role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run") ||
    t.facts.facts.some(({ family, slots }) =>
      family === "conductor" && slots.size || family === "device" && slots.rating
    );
  return (own.length > 0 || bySection) && (asks || isMany || isOfHomes) && !isHouse && !isWiring;
}

/** What asks for a demand, of a neutral or as a share of what is connected. */
const DEMAND_GOALS = [
  "goal:load",
  "goal:branch-load",
  "goal:feeder-load",
  "goal:percentage",
  "label:calculated-load",
  "label:draw",
  "label:neutral-load",
];
/** A feeder; and rooms that bear the name of a circuit, `laundry in every apartment`. */
const NO_BRANCH: ReadonlySet<string> = new Set(["feeder", "laundry", "small-appliance"]);
/** So many of one appliance are a building's, and what they come to together is asked. */
const MANY = 5;

/** The supply, and the voltage between its lines; where that changes nothing, why. */
export function takeDemandSupply(t: Taker, becauseNothing?: string): Draft {
  const draft: Draft = {};
  const phases = new Set(t.terms("phase"));
  for (const load of t.all("load")) {
    const phase = t.term(load, "phase");
    if (phase) phases.add(phase);
  }
  if (phases.has("three-phase")) draft.supply = "three-phase";
  else if (phases.has("single-phase")) draft.supply = "single-phase";
  const values = [
    ...t.all("load").flatMap((load) => load.slots.volts ? [t.slot(load, "volts")!] : []),
    ...["V", "volts", "system"].flatMap((key) => t.free(key)),
  ];
  for (const value of ["calculated-load", "told-result"].flatMap((key) => t.free(key))) {
    t.aside(value, "your own sum, to be held against the one worked out here");
  }
  for (const value of values) if (becauseNothing !== undefined) t.aside(value, becauseNothing);
  for (const { sense } of values) {
    if (sense.is === "system") draft.volts = { value: sense.high, unit: "V" };
    else if (sense.is === "quantity" || sense.is === "number") draft.volts ??= { value: sense.n, unit: "V" };
  }
  t.asks(
    "goal:load",
    "goal:percentage",
    "label:calculated-load",
    "label:draw",
    "goal:size",
    "goal:current",
    "goal:VA",
    "goal:kVA",
    "goal:kW",
  );
  t.said("methodOfLoad:standard");
  t.said("connection:three-wire", "connection:four-wire", "connection:two-wire", "connection:wye", "building:dwelling");
  for (const home of t.all("building", "apartment")) t.head(home);
  for (const panel of t.all("device", "panel", "service", "main")) if (!isRated(panel)) t.head(panel);
  return draft;
}

/** Whether what the appliances put on the neutral of a feeder is asked for. */
export const asksNeutral = (t: Taker): boolean => t.asks("label:neutral-load", "role:neutral", "goal:neutral-current");

const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;
/** How many dwelling units there are, where appliances are told of each. */
export function takeUnits(t: Taker, ...ids: readonly string[]): number | undefined {
  let units: number | undefined;
  for (const building of t.all("building", ...HOMES)) {
    t.head(building);
    units ??= t.number(building, "count") ?? HOMES_IN[building.id!];
  }
  // What is of each only by its place, `five 4 kW dryers`, is of each dryer and no home.
  const isOfEach = t.said("share:each") || t.all("load").some(({ slots }) => slots.share?.[0]?.pieces.length);
  const appliances = t.all("load", ...ids);
  // `duplex, one side has 9 kW, the other 13.6`: as many as there are homes are told one by one.
  if (!isOfEach && units !== undefined && t.all("load").filter(isRated).length >= units) return undefined;
  // `3 ranges in the fourplex, 9, 12 and 16 kW`: nor has one home several of a kind, each of its own size.
  const kinds = t.all("load", ...ids).filter(isRated).map(({ id }) => id);
  if (!isOfEach && new Set(kinds).size < kinds.length) return undefined;
  // `9 units, 7 have 5 kW dryers, two have 6 kW`: the homes are counted out one by one.
  const counted = t.all("load").filter(isRated).map(({ slots }) =>
    slots.count?.[0]?.sense as { n: number } | undefined
  );
  if (counted.some(Boolean) && counted.reduce((sum, count) => sum + (count?.n ?? 1), 0) === units) return undefined;
  return isOfEach || units === undefined || appliances.every(({ slots }) => !slots.count) ? units : undefined;
}

/** How a list lies between the phases, `6 on A-B, 6 on B-C, 8 on C-A`: one spread for each item, in the order they were told. */
export function takeSpreads(t: Taker, items: { count?: number | undefined; spread?: number[] }[]): boolean {
  const told = t.free("spread").flatMap(({ sense }) => sense.is === "spread" ? [sense] : []);
  if (told.length === 0) return false;
  const spreads: number[][] = [];
  for (const { n, pair } of told) {
    if (pair === "each") {
      spreads.push([n, n, n]);
      continue;
    }
    const open = spreads.at(-1);
    if (open && open[pair] === undefined) open[pair] = n;
    else spreads.push(Object.assign([], { [pair]: n }));
  }
  const whole = spreads.map((spread) => [0, 1, 2].map((pair) => spread[pair] ?? 0));
  const isFitting = whole.length === items.length &&
    whole.every((spread, i) => items[i]!.count === undefined || items[i]!.count === total(spread));
  if (!isFitting) {
    const all = items.map(({ count }) => count ?? 1).reduce((sum, count) => sum + count, 0);
    t.ask({
      field: "spread",
      ask: `Between the phases I read ${
        whole.map((spread) => spread.join(" + ")).join(" and ")
      }, and ${all} of them in all. How many lie between each two phases?`,
      example: "6 on A-B, 6 on B-C, 8 on C-A",
    });
    return true;
  }
  whole.forEach((spread, i) => Object.assign(items[i]!, { count: total(spread), spread }));
  return true;
}
const total = (spread: readonly number[]): number => spread.reduce((sum, n) => sum + n, 0);
