/** What a feeder, or the conductors of a service, takes of the facts: its ends, its loads, its conductors, how far it goes. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isManyDwellings } from "../../parts/many-dwellings.ts";
import { asksAddedLoad } from "../../parts/added-takes.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { takeAvailable } from "../../parts/available-fault.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { isShopFed } from "../../parts/starts.ts";
import { OCCUPANCIES } from "../../../rules/occupancies.ts";
import {
  isOfRunAlone,
  isOnThinWire,
  lines,
  takeDropLimit,
  takeElectrode,
  takeLength,
  takePowerFactor,
  takeSets,
  takeSupply,
  takeWhere,
  takeWiring,
} from "../../parts/run-takes.ts";
import { AREAS, GROUNDS, isFeeder, isHouseAlone, isOthers } from "./takes-gate.ts";
import { takeRatings } from "./takes-ratings.ts";

const POWER = ["W", "kW", "VA", "kVA"] as const;
const NO_DWELLINGS: readonly string[] = [...OCCUPANCIES, "unlisted", "commercial", "farm", "not-dwelling"];

/** No wire by its gauge is for so many amperes: they are what can flow on a fault. */
const isOfFault = ({ sense }: Value): boolean => sense.is === "quantity" && sense.unit === "A" && sense.n > LEAST_FAULT;
const LEAST_FAULT = 1000;

export function takes(t: Taker): Draft | undefined {
  if (isPanelCheck(t)) return undefined;
  if (asksAddedLoad(t) || asksBackfeed(t)) return undefined;
  if (isHouseAlone(t)) return undefined;
  const ratings = t.all("device", "main", "panel", "service", "subpanel").flatMap(({ slots }) => slots.rating ?? []);
  if (isOnThinWire(t) && ratings.some(isOfFault)) return undefined;
  // A service to several dwellings of which nothing is rated is a question on their load.
  if (isManyDwellings(t) && !t.all("device").some(({ slots }) => slots.rating)) return undefined;
  if (isOthers(t) || (isOfRunAlone(t) && !t.wants("role:wire", "goal:size") && !isShopFed(t))) return undefined;
  const draft: Draft = {};
  const where = takeWhere(t);
  if (where) draft.where = where;
  takeSupplyEnd(t, draft);
  takeDwelling(t, draft);
  takeLoads(t, draft);
  takeRatings(t, draft);
  if (draft.supply === "service" && draft.where === "separate structure") {
    draft.supply = "feeder";
    t.note("took the service out there as a feeder from the main panel");
  }
  if (!isFeeder(t, draft)) return undefined;
  takeConductors(t, draft);
  takeRun(t, draft);
  takeAvailable(t, draft);
  // Rods are spoken of with any separate structure; of a service the electrode decides its conductor.
  if (draft.supply === "service") {
    const electrode = takeElectrode(t);
    if (electrode) draft.electrode = electrode;
  } else t.terms("electrode");
  for (const fact of t.all("transformer", "transformer")) t.head(fact);
  takeAsked(t, draft);
  return draft;
}

const MOST_OF_SET = 4;
/** Up to here parallel sets are two (common practice, no source); beyond it as many as are needed are looked for. */
const TWO_SETS = 600;

/** Whether the service or a feeder is spoken of by name. */
function takeSupplyEnd(t: Taker, draft: Draft): void {
  for (const feeder of t.all("circuit", "feeder")) {
    t.head(feeder);
    draft.supply = "feeder";
  }
  for (const wire of t.all("conductor", "wire")) {
    if (wire.others?.includes("circuit:service-conductors")) draft.supply ??= "service";
    else if (wire.others?.includes("circuit:feeder-conductors")) draft.supply ??= "feeder";
    else continue;
    t.head(wire);
  }
}

function takeDwelling(t: Taker, draft: Draft): void {
  // What a feeder's building is makes no difference to it; a service's does.
  const others = t.all("building", ...NO_DWELLINGS);
  for (const fact of others) t.aside(fact, "what stands there makes no difference to the conductors");
  const isService = draft.supply === "service" || t.all("device", "service").length > 0;
  const isNone = t.said("building:not-dwelling") || (isService && others.length > 0);
  if (t.said("circuit:part-of-dwelling")) draft.wholeDwelling = false;
  else if (t.said("circuit:whole-dwelling")) draft.wholeDwelling = true;
  else if (isNone) draft.wholeDwelling = false;
  // What carries everything carries a dwelling's whole load only where a dwelling is spoken of.
  else if (t.said("circuit:everything") && isHome(t) && draft.where !== "separate structure") {
    draft.wholeDwelling = true;
    t.note("took everything as the entire load of the dwelling");
  }
  for (const home of t.all("building", "apartment", "mobile-home", "two-family")) t.head(home);
}

const isHome = (t: Taker): boolean => t.has("building:dwelling") || t.said("place:in-house");

/** Loads in amperes or power, what of them runs for hours, and names of what is fed. */
function takeLoads(t: Taker, draft: Draft): void {
  // `feeder for 82 amps, not continuous`: what runs for so long is a load.
  const told = t.facts.free.find(({ key }) => key.startsWith("hours:"))?.key;
  const isLoadTold = t.has("calculated-load") || t.all("load").some(({ slots }) => slots.current ?? slots.draw);
  for (const feeder of told && !isLoadTold ? t.all("circuit", "feeder") : []) {
    const amperes = t.figure(feeder, "rating", "A");
    if (!amperes) continue;
    t.said(told!);
    draft[told === "hours:continuous" ? "continuous" : "load"] = amperes;
  }
  let isContinuous = false;
  for (const load of t.all("load")) {
    const isCharger = load.id === "ev-charger";
    const isNameless = load.id === undefined || load.id === "load" || GENERAL.has(load.id) || isAllOfFeeder(t, load);
    const hours = load.slots.hours?.[0]?.sense;
    const isLoad = load.id === "load" || isCharger || hours !== undefined || load.slots.draw || load.slots.rating;
    if (!isNameless && !isCharger) {
      // What is fed is named; its own figures are no part of this sum and stay without a place.
      if (!load.slots.current && !load.slots.rating) t.head(load);
      if (hours?.is === "term" && hours.id === "noncontinuous") t.term(load, "hours");
      continue;
    }
    if (!isLoad && !(GENERAL.has(load.id ?? "") && load.slots.current)) {
      if (GENERAL.has(load.id ?? "") && !load.slots.current) t.head(load);
      continue;
    }
    const field = isCharger || (hours?.is === "term" && hours.id === "continuous") ? "continuous" : "load";
    if (draft[field] !== undefined) continue;
    const said = t.figure(load, "draw", "A", ...POWER) ?? t.figure(load, "rating", ...POWER) ??
      t.figure(load, "current", "A") ?? t.figure(load, "nameplate", "A");
    t.head(load);
    const hoursOf = t.term(load, "hours");
    // `the load works out to 110 A continuous`
    if (!said) isContinuous ||= hoursOf === "continuous";
    if (!said) continue;
    const count = isCharger ? t.number(load, "count") ?? 1 : 1;
    draft[field] = count === 1 ? said : { value: Number(said.value) * count, unit: said.unit };
    if (count > 1) t.note(`${count} chargers of ${said.value} ${said.unit} each`);
    if (isCharger) t.note("a car charger's load is continuous");
  }
  // Of a load nobody says anything else, and none that runs for hours: as it is taken anyway.
  t.said("hours:noncontinuous");
  const calculated = t.loose("calculated-load") ?? bare(t, "calculated-load");
  if (calculated) draft[isContinuous ? "continuous" : "load"] ??= calculated;
  if (draft.load !== undefined || draft.continuous !== undefined) t.asks("goal:load", "goal:feeder-load");
  // `180 A of which 120 A is continuous`: the rest is what is told beside it.
  if (t.said("circuit:of-which") && draft.load && draft.continuous) {
    const [all, part] = [draft.load as Said, draft.continuous as Said];
    // Less than its part it is told beside it: `40 of it continuous, 30 not`.
    if (all.unit === part.unit && Number(all.value) >= Number(part.value)) {
      draft.load = { value: Number(all.value) - Number(part.value), unit: all.unit };
      t.note(`of ${all.value} ${all.unit} in all, ${part.value} ${part.unit} continuous`);
    }
  }
  const neutralLoad = t.loose("neutral-load") ?? bare(t, "neutral-load");
  if (neutralLoad) draft.neutralLoad = neutralLoad;
}
/** `feeder to a panel of process heat, 140 kVA`: the one thing that a feeder by that name carries. */
const isAllOfFeeder = (t: Taker, { slots }: Fact): boolean =>
  t.all("circuit", "feeder").length > 0 && t.all("device", "panel", "subpanel").length > 0 &&
  slots.rating !== undefined &&
  t.all("load").filter((load) => load.slots.rating ?? load.slots.current ?? load.slots.draw).length === 1;
/** What a panel is spoken of by: `total lighting 160 A continuous`. */
const GENERAL = new Set(["lighting", "receptacles"]);
const bare = (t: Taker, key: string): Said | undefined => {
  const sense = t.free(key)[0]?.sense;
  return sense?.is === "number" ? { value: sense.n, unit: "A" } : undefined;
};

const TWISTED = new Set(["triplex", "overhead triplex", "quadplex", "quadruplex"]);
/** Two lines, a neutral and a ground. */
const ROW_WITH_GROUND = 4;
/** `4/0-4/0-2/0-4`: the lines, their neutral, the ground; of three the last is a service's neutral or a feeder's ground. */
function takeRow(draft: Draft, row: readonly string[]): void {
  const isWhole = row.length >= ROW_WITH_GROUND;
  const hasGround = isWhole || draft.supply !== "service";
  draft.cableWires = Math.min(4, Math.max(2, row.length - (hasGround ? 1 : 0)));
  if (isWhole) draft.neutralSize = row.at(-2);
  if (row.length < ROW_WITH_GROUND - 1) return;
  const isOfOneSize = new Set(row).size === 1;
  if (!hasGround) draft.neutralSize = row.at(-1);
  else if (isWhole || !isOfOneSize) draft.groundSize = row.at(-1);
}
/** Sizes put up for checking, the cable they lie in, and how many sets. */
function takeConductors(t: Taker, draft: Draft): void {
  const sizes: string[] = [];
  let method: string | undefined;
  for (const fact of lines(t)) {
    const sense = fact.id === "neutral" ? undefined : fact.slots.size?.[0]?.sense;
    if (!sense) continue;
    t.head(fact);
    t.slot(fact, "size");
    if (sense.is === "size") sizes.push(sense.size);
    if (sense.is === "cable") {
      sizes.push(sense.size);
      draft.cableWires = sense.wires;
      method = "NM cable";
    }
    if (sense.is === "sizes") {
      sizes.push(sense.sizes[0]!);
      // What twists around its own messenger is no SE cable.
      if (!TWISTED.has(fact.said.toLowerCase())) method = "SE cable";
      takeRow(draft, sense.sizes);
    }
  }
  if (sizes.length > 0) draft.sizes = [...new Set(sizes)];
  askWhichSets(t, draft);
  for (const [id, field] of [["neutral", "neutralSize"], ["equipment-ground", "groundSize"]] as const) {
    for (const fact of t.all("conductor", id)) {
      const sense = fact.slots.size?.[0]?.sense;
      if (sense?.is !== "size" || sizes.length === 0) continue;
      t.head(fact);
      t.slot(fact, "size");
      draft[field] = sense.size;
    }
  }
  // `three #2 aluminum and a #4`: the wires of one set.
  for (const fact of lines(t).filter(({ slots }) => slots.size && slots.count)) {
    for (const each of fact.slots.count!) {
      if (each.sense.is === "number" && each.sense.n <= MOST_OF_SET) t.aside(each, "the wires of one set");
    }
  }
  // `two hots and a neutral`: the feeder's own wires.
  for (const hot of t.all("conductor", "ungrounded").filter(({ slots }) => slots.count && !slots.size)) {
    if (hot.others?.includes("circuit:each-phase")) continue;
    t.head(hot);
    for (const each of hot.slots.count!) t.aside(each, "the feeder's own wires");
  }
  const rated = Number(((draft.breaker ?? draft.panel ?? draft.load) as Said | undefined)?.value ?? Infinity);
  takeSets(t, draft, sizes.length > 0 || draft.wholeDwelling === true || rated <= TWO_SETS);
  for (const wire of t.all("conductor", "wire")) {
    const n = wire.slots.count?.[0]?.sense;
    if (!wire.slots.size && n?.is === "number" && (n.n === 3 || n.n === 4)) draft.wires = t.number(wire, "count");
  }
  if (t.said("connection:three-wire")) draft.wires = 3;
  if (t.said("connection:four-wire")) draft.wires = 4;
  const isTogether = t.has("place:bundle");
  Object.assign(draft, takeWiring(t));
  // `3 #3 THHN` are the wires of one set, the neutral among them.
  const isCountOfSet = lines(t).some(({ slots }) => slots.size && slots.count);
  if (draft.wires !== undefined || (isCountOfSet && !t.has("conductors-together"))) delete draft.conductors;
  if (t.said("place:apart", "circuit:each-raceway")) draft.together = false;
  else if (isTogether && Number(draft.sets) > 1) {
    draft.together = true;
    delete draft.conductors;
  }
  // `6-6-6-10 THHN` are single wires, whatever their row looks like.
  const isSingle = draft.insulation !== undefined && method === "SE cable";
  if (isSingle) delete draft.cableWires;
  if (method && !isSingle && (draft.method === undefined || draft.method === "conductors in conduit")) {
    draft.method = method;
    t.note(method === "NM cable" ? "took the cable as NM" : "took the sizes as those of one SE cable");
  }
  for (const ground of t.all("conductor", "equipment-ground")) {
    const metal = t.term(ground, "metal");
    if (metal) draft.groundMaterial = metal;
    if (!ground.slots.size) t.head(ground);
  }
}

/** `600 kcmil or two sets of 4/0`: a count that stands behind one of two sizes is not that one's. */
function askWhichSets(t: Taker, draft: Draft): void {
  const sizes = draft.sizes as readonly string[] | undefined;
  if (!sizes || sizes.length < 2) return;
  const first = Math.min(...lines(t).flatMap(({ slots }) => slots.size ?? []).flatMap(({ pieces }) => pieces));
  const count = t.all("circuit", "set").flatMap(({ slots }) => slots.count ?? []).find(({ pieces }) =>
    pieces.some((at) => at > first)
  );
  if (!count) return;
  t.ask({
    field: "sizes",
    ask: `Is “${count.said}” said of ${sizes.slice(0, -1).join(", ")} as well as of ${
      sizes.at(-1)
    }? Ask for one plan at a time.`,
    example: `${count.said} sets of ${sizes.at(-1)}, ok?`,
  });
}

function takeRun(t: Taker, draft: Draft): void {
  for (const value of AREAS.flatMap((key) => t.free(key))) {
    t.aside(value, "how large the building is makes no difference to what feeds it");
  }
  const length = takeLength(t) ?? t.loose("tap");
  if (length) draft.length = length;
  const limit = takeDropLimit(t, "%");
  if (limit) draft.dropLimit = limit;
  else if (t.said("circuit:ignore-drop")) draft.ignoreDrop = true;
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
  const { volts, phases, wye } = takeSupply(t);
  if (volts) draft.volts = volts;
  if (phases ?? wye) draft.phases = phases ?? 3;
  if (t.said("circuit:no-neutral")) draft.neutral = false;
  else if (t.said("circuit:with-neutral")) draft.neutral = true;
  if (t.said("circuit:nonlinear")) draft.nonlinear = true;
}

/** What the answer gives in any case, and whether a plan was put up. */
function takeAsked(t: Taker, draft: Draft): void {
  t.asks(
    "device:breaker",
    "device:subpanel",
    "device:panel",
    "device:disconnect",
    "role:wire",
    "role:ungrounded",
    "role:neutral",
    ...GROUNDS.map((id) => `role:${id}`),
    "goal:size",
    "goal:drop",
    "label:drop",
    "goal:bond",
    "label:full-load-current",
    "goal:raceway-size",
    "circuit:circuit",
  );
  // `what feeder carries 180 A`: its conductors are looked for.
  if (!draft.sizes && t.all("circuit", "feeder").length > 0) t.asks("goal:ampacity");
  if (t.asks("goal:check") || ((draft.sizes ?? draft.wholeDwelling) && t.asks("goal:ampacity") && draft.sizes)) {
    draft.check = true;
  }
}
