/** What the load of several dwellings takes of the facts: units, house loads, other occupancies, supply, what is checked. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import { HOUSE, saidOf, type Taker } from "../../../reading/take.ts";
import { ratingOf } from "../../parts/device-takes.ts";
import { takeHeatPump } from "../../parts/dwelling-takes.ts";
import { placeOf, takeLoads, type ToldLoad } from "../../parts/load-takes.ts";
import { isManyDwellings } from "../../parts/many-dwellings.ts";
import { DWELLING_GOALS } from "../../parts/supply-takes.ts";
import { partOf } from "./part.ts";
import { takeUnits } from "./takes-units.ts";

const OCCUPANCIES = ["store", "office", "salon", "school", "restaurant", "church", "warehouse"];
const SECTIONS = ["220.84", "220.85", "120.84", "120.85"];
const POWER = ["W", "kW", "VA", "kVA"];

export function takes(t: Taker): Draft | undefined {
  if (!isManyDwellings(t)) return undefined;
  const draft: Draft = {};
  takeMethod(t, draft);
  takeSupply(t, draft);
  takeDevices(t, draft);
  takeConductors(t, draft);
  const others = takeOthers(t);
  const connected = takeConnected(t);
  const units = takeUnits(withoutFigures(t, others));
  if (connected) draft.connected = ofAllUnits(t, connected, units);
  draft.units = units;
  takeHeatPump(t, draft);
  const house = takeHouse(withoutFigures(partOf(t, HOUSE), others));
  if (house.length > 0) draft.house = house;
  if (others.length > 0) draft.others = others.map(({ draft }) => draft);
  t.said("building:dwelling", "building:common-part", "building:nothing-else", "building:all-else-gas", "share:each");
  t.said("place:same-building", "goal:each-side");
  t.terms("absent");
  t.asks(...DWELLING_GOALS);
  askForUnits(t, units, connected !== undefined);
  return draft;
}

function askForUnits(t: Taker, units: readonly Draft[], isConnected: boolean): void {
  if (units.some(({ count }) => count === undefined)) {
    t.ask({ field: "units", ask: "How many dwelling units are there?", example: "6 apartments" });
  }
  if (isConnected) return;
  if (units.every(({ areas }) => areas === undefined)) {
    t.ask({
      field: "areas",
      ask: "What is the floor area of each unit, from outside dimensions?",
      example: "each unit 900 sq ft",
    });
  }
  const isEmpty = units.every(({ loads }) => loads === undefined);
  const saysNone = t.facts.free.some(({ key }) =>
    key === "building:nothing-else" || key === "building:all-else-gas" || key.startsWith("absent:")
  );
  if (isEmpty && !saysNone) {
    t.ask({
      field: "loads",
      ask: "Which electric appliances, heating and cooling does each unit have, and what do their nameplates say?",
      example: "each unit 10 kW range, 4.5 kW water heater, AC 18 A; or: nothing else electric",
    });
  }
}

function takeMethod(t: Taker, draft: Draft): void {
  const methods = new Set(t.terms("methodOfLoad").filter((id) => id === "standard" || id === "optional"));
  for (const { sense } of t.free("section")) {
    if (sense.is === "section" && SECTIONS.includes(sense.section) && !sense.section.endsWith("85")) {
      methods.add("optional");
    }
  }
  if (methods.size === 1) draft.method = [...methods][0];
}

/** 120/240 V, two lines and the neutral of a 208Y/120 V network where single-phase is said, else all three of its lines. */
function takeSupply(t: Taker, draft: Draft): void {
  const phases = new Set(t.terms("phase"));
  t.said("connection:three-wire", "connection:four-wire", "connection:wye");
  const voltages = [
    ...t.facts.free.filter(({ key }) => key === "system" || key === "V" || key === "volts").map(({ value }) => value),
  ];
  for (const load of t.all("load")) {
    const phase = t.term(load, "phase");
    if (phase) phases.add(phase);
    const volts = load.slots.volts?.[0];
    if (volts?.sense.is === "system") voltages.push(volts);
  }
  let high: number | undefined;
  for (const value of voltages) {
    const { sense } = value;
    const n = sense.is === "system" ? sense.high : sense.is === "quantity" || sense.is === "number" ? sense.n : 0;
    if (n === 208 || (n >= 220 && n <= 240)) {
      t.use(value, "supply voltage");
      high ??= n;
    } else if (n >= 110 && n <= 125) t.use(value, "voltage to the neutral");
  }
  if (high === undefined && !phases.has("three-phase")) return;
  if (phases.has("three-phase") && high !== undefined && high !== 208) {
    t.ask({
      field: "system",
      ask: `${high} V on three phases is no supply that dwellings are calculated for here. Is it 208Y/120 V?`,
      example: "208Y/120 V three phase",
    });
  }
  draft.system = high === 208 || high === undefined ? phases.has("single-phase") ? "120/208" : "208Y/120" : "120/240";
  if (draft.system === "208Y/120" && !phases.has("three-phase")) t.note("took 208 V as all three lines of 208Y/120 V");
}

/** The rating put up for checking, and where the panel stands. */
function takeDevices(t: Taker, draft: Draft): void {
  if (t.said("place:after-disconnect")) draft.panel = "after the service disconnect";
  else if (t.said("place:at-disconnect")) draft.panel = "at the service disconnect";
  for (const device of t.all("device", "service", "panel", "main", "disconnect", "breaker", "meter")) {
    const rating = ratingOf(t, device);
    t.head(device);
    if (rating) draft.service ??= rating;
  }
}

function takeConductors(t: Taker, draft: Draft): void {
  const metals = new Set(t.terms("metal"));
  for (const fact of [...t.all("conductor"), ...t.all("device", "service")]) {
    const metal = t.term(fact, "metal");
    if (metal) metals.add(metal);
    if (fact.family === "conductor" && !fact.slots.size) t.head(fact);
  }
  if (metals.size === 1) draft.material = [...metals][0];
  const [electrode] = t.terms("electrode");
  if (electrode) draft.electrode = electrode;
  const terminals = t.loose("terminals");
  if (terminals) draft.terminals = { ...terminals, unit: "°C" };
}

/** `50 kVA connected altogether`: what all units have together. */
function takeConnected(t: Taker): Said | undefined {
  for (const fact of t.all("load", "connected")) {
    t.head(fact);
    const rating = t.figure(fact, "rating", ...POWER);
    if (rating) return rating;
  }
  // `I added up the connected load and get 640 kVA for all thirty`
  const hasArea = ["ft2", "m2", "area"].some(t.has);
  return hasArea ? undefined : t.loose("told-result", "calculated-load");
}

/** `31 kVA connected apiece`: so much in every one of them. */
function ofAllUnits(t: Taker, { value, unit }: Said, units: readonly Draft[]): Said {
  const isEach = t.all("load", "connected").some((fact) => t.term(fact, "share") === "each");
  const count = units.reduce((sum, each) => sum + Number(each.count ?? 1), 0);
  if (!isEach || count < 2) return { value, unit };
  const all = Number((Number(value) * count).toFixed(6));
  t.note(`took ${value} ${unit} in each of ${count} units as ${all} ${unit}`);
  return { value: all, unit };
}

/** What the house has of its own; a figure that only says so is a load by that name. */
function takeHouse(t: Taker): ToldLoad[] {
  const list = takeLoads(t, () => true).map(({ load, fact }) => ({ load, fact }));
  for (const fact of t.all("load")) {
    if (fact.id !== undefined && !["load", "lighting", "receptacles"].includes(fact.id)) continue;
    const rating = saidOf((fact.slots.rating ?? fact.slots.current)?.[0]?.sense);
    if (!rating || list.some((each) => each.fact === fact)) {
      if (fact.id === "load") t.head(fact);
      continue;
    }
    t.head(fact);
    t.slot(fact, fact.slots.rating ? "rating" : "current");
    const count = t.number(fact, "count");
    const volts = t.figure(fact, "volts", "V");
    const name = fact.id === undefined || fact.id === "load" ? "house load" : fact.said.toLowerCase();
    if (!volts) t.note(`took the ${name} of the house as 120 V, on the neutral too`);
    list.push({
      fact,
      load: {
        kind: "other",
        name,
        ...(count !== undefined && count > 1 && { count }),
        rating: rating as NonNullable<ToldLoad["rating"]>,
        volts: (volts ?? { value: LIGHTING_VOLTS, unit: "V" }) as NonNullable<ToldLoad["volts"]>,
      },
    });
  }
  const order = t.all("load");
  return list.toSorted((a, b) => order.indexOf(a.fact) - order.indexOf(b.fact)).map(({ load }) => load);
}
const LIGHTING_VOLTS = 120;

/** Another occupancy, where it was named, and the fact whose figure was told of it. */
type Other = { draft: Draft; at: number | undefined; figure: Fact | undefined };

/** Shops and other occupancies on the same service: the load calculated for them, or a question for it. */
function takeOthers(t: Taker): Other[] {
  const heads: Fact[] = [...t.all("building", ...OCCUPANCIES), ...t.all("space", "shop")];
  for (const floor of t.all("space", "floor")) if (!floor.slots.area) t.head(floor);
  for (const head of heads) t.head(head);
  const signs = t.all("load", "sign");
  // The same shop named twice is one; the mention with a figure beside it tells its load.
  const found = heads.map((head): Other => {
    for (const value of head.slots.area ?? []) t.aside(value, "its load is calculated as a question of its own");
    const [at] = head.pieces;
    // The nearest figure, of two as near the one behind: `laundry room 12 kW, a shop downstairs with 9 kVA`.
    const far = (fact: Fact) => at === undefined ? 0 : Math.abs(placeOf(fact) - at) - (placeOf(fact) > at ? 0.5 : 0);
    const [figure] = [
      ...t.all("load").filter((fact) => fact.id === undefined && far(fact) <= BESIDE),
      ...signs.filter((sign) => isBefore(sign, at)),
    ].toSorted((a, b) => far(a) - far(b));
    const said = figure && saidOf((figure.slots.rating ?? figure.slots.current)?.[0]?.sense);
    if (said) {
      if (figure.id === undefined) t.head(figure);
      t.slot(figure, figure.slots.rating ? "rating" : "current");
    }
    return { draft: { name: head.said.toLowerCase(), ...(said && { load: said }) }, at, figure: said && figure };
  });
  const others = found.filter((one, i) => {
    const same = found.filter(({ draft }) => draft.name === one.draft.name);
    const told = same.find(({ figure }) => figure) ?? same[0];
    return told === one || (one.figure !== undefined && found.indexOf(one) === i && one.figure !== told?.figure);
  });
  for (const sign of signs) takeSign(t, sign, others);
  return others;
}

/** `shop 9 kVA and its sign`: a figure that does not stand right before the sign is that of the place before it. */
function isBefore(sign: Fact, at: number | undefined): boolean {
  const figure = (sign.slots.rating ?? sign.slots.current)?.[0]?.pieces[0];
  return figure !== undefined && at !== undefined && at < figure && figure < Math.min(...sign.pieces) - 1;
}

/** A sign is of the place that was named before it. */
function takeSign(t: Taker, sign: Fact, others: readonly Other[]): void {
  const place = Math.min(...sign.pieces);
  const of = others.findLast(({ at }) => at !== undefined && at < place) ?? others[0];
  if (!of) return;
  t.head(sign);
  t.term(sign, "share");
  of.draft.signs = t.number(sign, "count") ?? 1;
}
const BESIDE = 3;
const withoutFigures = (t: Taker, others: readonly Other[]): Taker => ({
  ...t,
  all: (family, ...ids) =>
    t.all(family, ...ids).filter((fact) =>
      !others.some(({ figure }) => figure === fact) && (fact.id !== "sign" || others.length === 0)
    ),
});
