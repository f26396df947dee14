/** What a feeder, or the conductors of a service, takes of the facts: above all which of several amperages is which. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isManyDwellings } from "../../parts/many-dwellings.ts";
import { asksAddedLoad } from "../../parts/added-takes.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { ELECTRODES } from "../../../rules/grounding.ts";
import { takeAvailable } from "../../parts/available-fault.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { isShopFed, isWanted, isWhereItStarts } from "../../parts/starts.ts";
import { OCCUPANCIES } from "../../../rules/occupancies.ts";
import {
  isOfRunAlone,
  isOnThinWire,
  isPanelOfLoads,
  isToElectrode,
  isToldGround,
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

const PANELS = ["subpanel", "panel", "service", "main"];
const POWER = ["W", "kW", "VA", "kVA"] as const;
const NO_DWELLINGS: readonly string[] = [...OCCUPANCIES, "unlisted", "commercial", "farm", "not-dwelling"];
const GROUNDS = ["equipment-ground", "grounding-electrode-conductor", "main-bonding-jumper", "bonding-jumper"];

/** `what service for a house`: a dwelling of which nothing is told that conductors go by. */
function isHouseAlone(t: Taker): boolean {
  if (!t.has("building:dwelling")) return false;
  const others = t.facts.facts.filter(({ id }) => id !== "service");
  if (others.some(({ slots }) => slots.rating ?? slots.current ?? slots.size)) return false;
  const isTold = t.all("device", "service").some(({ slots }) => slots.rating);
  const isRun = ["ft", "m", "length"].some((key) => t.has(key));
  // `house service 150 A, copper`: a metal is its conductors'.
  const isWired =
    ["metal:", "insulation:", "method:"].some((sort) => t.facts.free.some(({ key }) => key.startsWith(sort))) ||
    t.all("device", "service").some(({ slots }) => slots.metal);
  if (isTold && isWired) return false;
  return (t.wants("device:service") || isTold) && !isRun && !t.wants("role:wire", "role:ungrounded", "role:neutral");
}

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

/** An area, a transformer, a motor in horsepower, a nameplate's circuit ampacity, appliances to be added up, a ground alone. */
function isOthers(t: Taker): boolean {
  if ((AREAS.some(t.has) && !isOfSite(t)) || t.all("transformer", "transformer").some(isToldOf)) return true;
  const isMachine = ({ slots }: Fact) =>
    slots["minimum-circuit-ampacity"] ?? slots["rated-load-current"] ?? slots["full-load-current"] ??
      (slots.rating?.[0]?.sense as { unit?: string } | undefined)?.unit === "hp";
  if (t.all("load").some(isMachine)) return true;
  // `ran #4 when #6 was enough, ground size`: a ground that grows is asked.
  const isRaised = t.has("change:raise") &&
    new Set(lines(t).flatMap(({ slots }) => slots.size?.[0]?.said ?? [])).size > 1;
  if (isRaised && t.wants("role:equipment-ground")) return true;
  if (asksSizeOf(t, "equipment-ground")) return true;
  // `the garage has a 100 A subpanel, want a 30 A outlet`: the panel is there, and a circuit is wanted.
  if (isWanted(t) && t.all("device", ...PANELS).some((panel) => isWhereItStarts(t, panel))) return true;
  // `20 A circuit for lights in the garage`: outlets are on a branch circuit, wherever they are.
  const areOutlets = t.all("load").length === 1 && !t.has("place:separate-structure") &&
    t.all("load").every(({ id, slots }) => OUTLETS.has(id ?? "") && Object.keys(slots).length === 0);
  const isPanel = t.all("device", ...PANELS, "main", "service").length > 0 || t.all("circuit", "feeder").length > 0;
  if (areOutlets && !isPanel) return true;
  // `motor feeder`: of motors that are yet to be told.
  if (t.all("load", "motor").length > 0 && t.all("circuit", "feeder").length > 0) return true;
  // The drop of a run that is there, or how far it may go, is no question on what to run.
  const isThere = lines(t).some(({ slots }) => slots.size);
  if (t.wants("goal:longest-run")) return true;
  if (isThere && t.wants("goal:drop", "label:drop") && !t.wants("goal:check")) return true;
  const asksLines = asksSets(t) || t.wants("role:wire", "role:ungrounded", "role:neutral", "device:breaker");
  const isRated = t.facts.facts.some(({ slots }) => slots.rating ?? slots.current ?? slots.draw);
  const isOfElectrode = ELECTRODES.some((id) => t.has(`electrode:${id}`));
  if ((isOfElectrode || t.wants(...GROUNDS.map((id) => `role:${id}`))) && !isRated) return true;
  if (isOfElectrode && isThere && !asksLines && (!t.wants("goal:check") || isToElectrode(t))) return true;
  const isRun = ["ft", "m", "length", "tap", "place:separate-structure"].some((key) => t.has(key));
  // `400 A feeder, 3/0 in each of two pipes, good? and what ground`: the feeder is put up, its ground asked with it.
  const isPutUp = isToldGround(t) || isThere && t.wants("goal:check") &&
      t.all("circuit", "feeder").length + t.all("device", "subpanel").length > 0;
  return t.wants(...GROUNDS.map((id) => `role:${id}`)) && !asksLines && !isRun && !isPutUp;
}

const OUTLETS: ReadonlySet<string> = new Set(["receptacles", "lighting"]);
const AREAS = ["ft2", "m2"];
/** `30x40 pole barn 200 ft away, 100 A panel`: the area is that of what stands there, and a run to it is asked. */
const isOfSite = (t: Taker): boolean =>
  t.has("place:separate-structure") && ["ft", "m", "yd", "length"].some(t.has) &&
  t.facts.facts.some(({ family, slots }) =>
    (family === "device" && slots.rating) || (family === "load" && slots.current) ||
    (family === "circuit" && slots.rating)
  );

const MOST_OF_SET = 4;
/** Up to here parallel sets are two (common practice, no source); beyond it as many as are needed are looked for. */
const TWO_SETS = 600;

/** `EGC size, 300 A feeder, aluminum conductors`: the size beside a ground is the ground's. */
const asksSizeOf = (t: Taker, id: string): boolean => {
  const sizes = t.facts.free.filter(({ key }) => key === "goal:size").flatMap(({ value }) => value.pieces);
  const isOthers = t.wants("device:breaker", "role:ungrounded", "role:neutral");
  return !isOthers && sizes.length === 1 && !lines(t).some(({ slots }) => slots.size) &&
    t.all("conductor", id).some(({ pieces, slots }) =>
      !slots.size && pieces.some((at) => Math.abs(at - sizes[0]!) === 1)
    );
};

/** `from the transformer to the shop`: without figures of its own it says where the feeder begins. */
const isToldOf = ({ slots, others }: Fact): boolean =>
  Object.keys(slots).length > 0 || (others?.includes("implied") ?? false);

/** `600 A, two sets, what size and what ground in each`: sets are those of the lines. */
const asksSets = (t: Taker): boolean =>
  t.all("circuit", "set").some(({ slots }) => slots.count) && t.wants("goal:size") &&
  !lines(t).some(({ slots }) => slots.size);

function isFeeder(t: Taker, draft: Draft): boolean {
  const rated = draft.breaker ?? draft.panel ?? draft.load ?? draft.continuous ?? draft.source;
  if (rated && asksSets(t)) return true;
  const isNameless = t.all("load").every(({ id }) => id === undefined || id === "load");
  if (draft.supply ?? draft.tappedFrom ?? draft.wholeDwelling) return true;
  if (t.all("device", "subpanel").length > 0 || draft.panel) return true;
  if (isPanelOfLoads(t)) return true;
  // `400 A, load 365, parallel copper`: no branch circuit runs in parallel.
  const isParallel = t.all("circuit", "set").some(({ others, slots }) =>
    others?.includes("circuit:parallel") ?? slots.count
  );
  if (rated && isParallel) return true;
  // `3 phase 4 wire 225 A, load 180`
  if (draft.breaker && draft.load && t.has("connection:four-wire") && isNameless) return true;
  // `from a 150 A disconnect to the panel inside`
  const isFarPanel = t.all("device", "panel").some(({ slots: { end, rating } }) =>
    !(rating && end?.some(({ sense }) => sense.is === "term" && sense.id === "from"))
  );
  if (isFarPanel && (draft.source ?? draft.breaker) && t.has("end:from") && t.has("ft")) return true;
  if (t.all("device", "panel").length > 0 && t.all("device", "disconnect").some(({ slots }) => slots.rating)) {
    return true;
  }
  // `panel A, calculated load 180 A`, `load on the feeder is 92`
  if ((t.all("device", "panel").length > 0 || isNameless) && draft.load && t.has("calculated-load")) return true;
  // `garage heater. 7500 W`: a power without a name is that of the one thing named.
  const isPower = t.all("load").some(({ id, slots }) => id === undefined && slots.rating);
  const isNamed = t.all("load").some(({ id, slots }) =>
    id !== undefined && id !== "load" && (isPower || (slots.current ?? slots.draw ?? slots.rating))
  );
  // `feeder load 80 A continuous`: what asks for a load brings it.
  if (
    (t.has("goal:load") || t.has("goal:feeder-load")) && rated !== undefined &&
    t.all("load").every(({ id }) => !id || id === "load")
  ) return true;
  // `need to feed the barn, how big a wire`: what it should carry is asked.
  const isBare = t.all("load").length === 0 && t.wants("role:wire") && t.wants("goal:size");
  return draft.where === "separate structure" && (rated !== undefined || isBare) && !isNamed;
}

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
    const isNameless = load.id === undefined || load.id === "load" || GENERAL.has(load.id);
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
/** What a panel is spoken of by: `total lighting 160 A continuous`. */
const GENERAL = new Set(["lighting", "receptacles"]);
const bare = (t: Taker, key: string): Said | undefined => {
  const sense = t.free(key)[0]?.sense;
  return sense?.is === "number" ? { value: sense.n, unit: "A" } : undefined;
};

type Rating = { fact: Fact; slot: "rating" | "current"; amperes: number; end?: string };
const ratingsOf = (facts: readonly Fact[]): Rating[] =>
  facts.flatMap((fact) =>
    (["rating", "current"] as const).flatMap((slot): Rating[] => {
      const sense = fact.slots[slot]?.[0]?.sense;
      const amperes = sense?.is === "quantity" && sense.unit === "A"
        ? sense.n
        : sense?.is === "number"
        ? sense.n
        : undefined;
      const end = fact.slots.end?.[0]?.sense;
      return amperes === undefined ? [] : [{ fact, slot, amperes, ...(end?.is === "term" && { end: end.id }) }];
    })
  );

/** Gives every amperage its place: breaker, panel at the far end, main or service it starts from, feeder tapped. */
function takeRatings(t: Taker, draft: Draft): void {
  const put = (field: string, { fact, slot, amperes }: Rating): void => {
    if (draft[field] !== undefined) return;
    t.head(fact);
    t.slot(fact, slot);
    t.slot(fact, "poles");
    t.term(fact, "end");
    draft[field] = { value: amperes, unit: "A" };
  };
  const isTap = t.said("label:tap") || t.has("tap");
  const panels = ratingsOf(t.all("device", "subpanel", "panel"));
  const mains = ratingsOf(t.all("device", "main", "disconnect"));
  const services = ratingsOf(t.all("device", "service"));
  const breakers = ratingsOf(t.all("device", "breaker", "fuse", "dual-element-fuse"));
  // One that was a load is no rating.
  const isTimed = t.facts.free.some(({ key }) => key.startsWith("hours:"));
  const isLoad = ({ amperes }: Rating): boolean =>
    isTimed && [draft.load, draft.continuous].some((said) => Number((said as Said | undefined)?.value) === amperes);
  const circuits = ratingsOf(t.all("circuit", "feeder", "circuit")).filter((each) => !isLoad(each));
  const loose = ratingsOf(t.all("load").filter(({ id, slots }) => id === undefined && !slots.hours));
  const all = [...panels, ...mains, ...services, ...breakers, ...circuits, ...loose];
  const isSource = (each: Rating) => each.end === "from" || each.end === "there";
  const start = isTap ? "tappedFrom" : "source";
  // `the house has a 200 and he wants 125 out there`
  const isThere = ({ end }: Rating) => end === "there" && breakers.some((other) => other.end === "wanted");
  for (const each of breakers.filter(isThere)) put(start, each);
  for (const each of breakers.filter((one) => !isThere(one))) {
    put(isTap && each.end === "from" ? start : "breaker", each);
  }
  for (const each of circuits) {
    // `a barn on a 70, he has a 40 A circuit there`: the feeder goes by its own device.
    const own = Number((draft.breaker as Said | undefined)?.value ?? 0);
    if (each.fact.id === "circuit" && each.amperes < own) {
      t.head(each.fact);
      for (const value of each.fact.slots.rating!) {
        t.aside(value, "a circuit that is fed; the feeder goes by its own device");
      }
      continue;
    }
    // Ratings of devices are round figures: a feeder of 187 A is spoken of by its load.
    if (each.amperes % 5 !== 0 && draft.load === undefined) put("load", each);
    else put(isTap && (isSource(each) || all.length > 1) ? start : "breaker", each);
  }
  for (const each of panels.filter(({ fact }) => fact.id === "subpanel")) put("panel", each);
  // `from the 100 A panel, a load of 9 A`: with a load told the panel it comes from is not the one it goes to.
  const isLoadTold = draft.load !== undefined || draft.continuous !== undefined;
  for (const each of panels.filter(({ fact }) => fact.id === "panel")) {
    const isStart = isSource(each) && (all.length > 1 || isLoadTold) || all.length > 1 && draft.panel && !isTap;
    put(isStart ? start : "panel", each);
  }
  for (const each of services) {
    const isStart = all.length > 1 && (isSource(each) || draft.panel !== undefined || draft.breaker !== undefined) ||
      t.all("device", "subpanel").length > 0;
    put(isStart ? start : "breaker", each);
    if (!isStart && draft.supply === undefined) draft.supply = "service";
  }
  for (const each of mains) putMain(t, draft, each, put, isTap, isSource(each));
  for (const each of loose) {
    if (all.length > 1 && (isSource(each) || (isTap && !draft.tappedFrom))) put(start, each);
    else if (draft.breaker === undefined && draft.panel === undefined) put("breaker", each);
    else if (draft.load === undefined && draft.continuous === undefined) {
      put("load", each);
      t.note(`took ${each.amperes} A as the load`);
    }
  }
  if (isTap && draft.tappedFrom === undefined) {
    t.ask({
      field: "tappedFrom",
      ask: "What is the rating of the device ahead of the feeder that is tapped?",
      example: "10 ft tap from a 400 A feeder to a 100 A panel",
    });
  }
  if (isTap) t.said("source:busbar");
  // An unrated service beside a rating of its own: `service for a 200 A house`.
  for (const service of t.all("device", "service", "main").filter(({ slots }) => !slots.rating)) {
    t.head(service);
    if (service.id === "service") draft.supply ??= "service";
  }
  const isDwelling = (draft.supply === "service" ? t.said("building:dwelling") : t.has("building:dwelling")) ||
    t.all("building", "apartment").length > 0;
  if (draft.supply === "service" && isDwelling) draft.wholeDwelling ??= true;
  const isWhole = draft.wholeDwelling === true && !draft.where && !draft.supply && !draft.panel;
  if (isWhole) draft.supply = "service";
}

/** A main told without its end may be the one the feeder starts from or the one at its end. */
function putMain(
  t: Taker,
  draft: Draft,
  main: Rating,
  put: (field: string, rating: Rating) => void,
  isTap: boolean,
  isSource: boolean,
): void {
  const amperes = (field: string): number => Number((draft[field] as Said | undefined)?.value ?? NaN);
  // `from a 150 A disconnect`: it protects what starts from it.
  const isOwn = main.fact.id === "disconnect" && Number.isNaN(amperes("breaker"));
  if (isTap || isOwn) put("breaker", main);
  else if (isSource || amperes("panel") < main.amperes) put("source", main);
  else if (Number.isNaN(amperes("breaker"))) put(draft.panel ? "source" : "breaker", main);
  else {
    put("panel", main);
    t.ask({
      field: "source",
      ask: `Is the ${main.amperes} A main in the panel that the feeder starts from, or at its far end?`,
      example: `from a ${main.amperes} A main panel`,
    });
  }
}

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
