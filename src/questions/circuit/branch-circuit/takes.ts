/** What one branch circuit takes of the facts: its loads, its breaker, its receptacle, its run, a plan to check. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { takeAvailable } from "../../parts/available-fault.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { isOfPark } from "../../parts/park-gate.ts";
import { asksAddedLoad } from "../../parts/added-takes.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { isHousehold } from "../../parts/load-takes.ts";
import { deviceRating } from "../../parts/device-takes.ts";
import { isWhereItStarts } from "../../parts/starts.ts";
import { MACHINES } from "../../parts/motor-takes.ts";
import {
  isCrowdedWire,
  isLoadedWire,
  isPanelOfLoads,
  lines,
  POWER_GOALS,
  takeDropLimit,
  takeLength,
  takePowerFactor,
  takeSupply,
  takeWiring,
} from "../../parts/run-takes.ts";
import { isKitchen } from "../../parts/kitchens.ts";
import { CIRCUIT_KINDS, type CircuitKind, isCooking, RATED_BY_CIRCUIT } from "./loads.ts";
import type { SaidLoad } from "./request.ts";

/** Draws a charger may be set to are four fifths of a circuit; these figures are circuits, and may not be taken for a draw. */
const CIRCUITS_NOT_DRAWS = [20, 30, 50, 60, 100];
/** Voltage and neutral of the common receptacle patterns. */
const PATTERNS: Record<number, { volts: number; neutral?: boolean }> = {
  5: { volts: 120 },
  6: { volts: 240 },
  10: { volts: 240 },
  14: { volts: 240, neutral: true },
};
/** What other questions are about: an area, a panel that is fed, a nameplate's circuit ampacity, a transformer. */
const OTHERS = ["ft2", "m2"];
const OTHER_CONDUCTORS = ["circuit:service-conductors", "circuit:feeder-conductors"];
const FED = ["panel", "subpanel", "service", "main"];

export function takes(t: Taker): Draft | undefined {
  if (isPanelCheck(t) || isOfPark(t)) return undefined;
  if (asksAddedLoad(t) || asksBackfeed(t)) return undefined;
  if (OTHERS.some((key) => t.has(key)) || t.all("transformer").length > 0) {
    return undefined;
  }
  const fed = t.all("device", ...FED).filter((panel) => !isWhereItStarts(t, panel));
  if (fed.some(({ id, slots }) => slots.rating || id === "subpanel")) return undefined;
  if (t.all("conductor", "wire").some(({ others }) => others?.some((each) => OTHER_CONDUCTORS.includes(each)))) {
    return undefined;
  }
  if (isPanelOfLoads(t) || isCrowdedWire(t) || isHousehold(t) || isKitchen(t)) return undefined;
  // `4-4-4-6 to his barn`: a row of sizes is a feeder's cable.
  const isRow = lines(t).some(({ slots }) => slots.size?.[0]?.sense.is === "sizes");
  if (isRow && (t.has("place:separate-structure") || t.has("place:garage"))) return undefined;
  const heads = t.all("load");
  // So many of one household appliance are a building's, and none of them on one circuit.
  // `how many 20 A circuits can I pull in 3/4 EMT`: how much the raceway takes.
  const isOfFill = t.wants("goal:how-many", "goal:feed-wires", "goal:fit") && t.has("in") &&
    lines(t).some(({ slots }) => slots.size);
  if (isOfFill && !t.wants("device:breaker", "role:wire")) return undefined;
  // `which of those want a GFCI and which arc fault`: a question on what protects a room.
  const isOfRoom = t.wants("goal:room-protection") && heads.length > 1 && !t.wants("role:wire", "device:breaker");
  if (isOfRoom) return undefined;
  // `three dryers in a triplex`: one in each.
  const isInHomes = t.all("building", "three-family", "four-family", "six-family", "multifamily").length > 0;
  const isMany = heads.some(({ id, slots }) =>
    HOUSEHOLD.has(id ?? "") && countOf(slots.count?.[0]) >= (isInHomes || id === "dryer" ? 2 : MANY)
  );
  if (isMany && t.all("circuit", "circuit", "multiwire").length === 0) return undefined;
  if (
    heads.some((load) =>
      COOLING.includes(load.id ?? "") || isMotor(load) || load.slots["minimum-circuit-ampacity"] ||
      load.slots["rated-load-current"]
    )
  ) {
    return undefined;
  }
  // A drop, its limit or how far: a question on the run, unless a breaker or an appliance says that it is on a circuit.
  const isOfRun = t.has("drop") || t.has("%") || t.has("label:drop") || t.has("goal:drop") ||
    t.has("goal:longest-run") ||
    t.has("goal:ampacity");
  if (
    isOfRun && !t.wants("device:breaker", "circuit:circuit") &&
    (heads.every(({ id }) => id === undefined || id === "load" || (OUTLETS.has(id) && isLimited(t))) || isHeld(t))
  ) {
    return undefined;
  }
  // A ground alone, by its breaker, is a question on grounding.
  const isGround = t.wants("role:equipment-ground") && !t.wants("role:wire", "device:breaker");
  // Amperes, kW or kVA asked for, and nothing of a circuit: a conversion.
  const isConverted = t.wants("goal:convert", "goal:current", ...POWER_GOALS) &&
    !t.wants("device:breaker", "role:wire", "circuit:circuit", "goal:size", "role:equipment-ground") &&
    !lines(t).some(({ slots }) => slots.size) && !t.all("device").some(({ slots }) => slots.rating);
  if (isConverted) return undefined;
  // What cooking appliances come to on their circuit, and nothing of the circuit itself: a demand.
  const isLoadAlone = t.wants("goal:load", "goal:branch-load") && !t.wants("device:breaker", "role:wire", "goal:size");
  if (isLoadAlone && heads.length > 0 && heads.every(({ id }) => id !== undefined && isCooking(id as CircuitKind))) {
    return undefined;
  }
  if (isGround && heads.every(({ id }) => id === undefined)) return undefined;
  if (isLoadedWire(t)) return undefined;
  const draft: Draft = {};
  const supply = takeSupply(t);
  // Below the usual supplies a drop is asked, and no branch circuit.
  if (supply.dc || Number(supply.volts?.value) < LOW_VOLTAGE) return undefined;
  if (supply.volts) draft.volts = supply.volts;
  // `4500/240 is under 20`: the load over its voltage, worked out in the question.
  for (const { key, value } of t.facts.free) {
    const isSum = key === "pair" && value.sense.is === "pair" && value.sense.b === Number(supply.volts?.value);
    if (isSum) t.aside(value, "your own sum, to be held against the one worked out here");
  }
  asideDual(t);
  if (supply.phases) draft.phases = supply.phases;
  if (supply.wye && supply.high === 208) draft.wye = true;
  takeDevice(t, draft);
  const loads = [...draft.loads as Partial<SaidLoad>[] ?? [], ...takeHeads(t, heads, draft)];
  // Hours that stand by themselves are those of all.
  const hours = t.terms("hours");
  for (const load of loads) if (hours.length === 1 && !isPlain(load)) load.continuous ??= hours[0] === "continuous";
  if (loads.length > 0) draft.loads = together(loads, draft.receptacle !== undefined);
  for (const panel of t.all("device", ...FED).filter(({ slots }) => slots.rating)) {
    t.aside(panel, "the circuit starts there");
    for (const value of Object.values(panel.slots).flat()) {
      t.aside(value, "the rating of the panel it starts from does not size this circuit");
    }
  }
  askWhetherOne(t, draft);
  if (!isItsOwnCurrent(t, draft, loads)) askWhetherDevice(t, heads);
  askWhetherTransformer(t, draft, loads);
  takeConductor(t, draft);
  Object.assign(draft, takeWiring(t));
  const length = takeLength(t);
  if (length) draft.length = length;
  const limit = takeDropLimit(t, "%");
  if (limit) draft.limit = limit;
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
  takeNeutral(t, draft, supply);
  takeAvailable(t, draft);
  t.said("motorWord:one-branch", "motorWord:at-once", "motorWord:all-at-once");
  t.asks(
    "device:breaker",
    "role:wire",
    "role:equipment-ground",
    "goal:size",
    "circuit:circuit",
    "device:fuse",
    "device:disconnect",
  );
  if (t.asks("goal:check")) draft.check = true;
  if (draft.length !== undefined && t.wants("device:breaker", "role:wire")) t.asks("label:drop", "goal:drop");
  const isPlan = draft.breaker && (draft.size || t.wants("circuit:circuit", "role:wire"));
  return draft.loads || draft.receptacle || isPlan || (draft.size && t.wants("device:breaker")) ? draft : undefined;
}

/** `is a 45 enough for 100 A of three phase`: less than the amperes, a bare number may as well be a transformer's kVA. */
function askWhetherTransformer(t: Taker, draft: Draft, loads: readonly Partial<SaidLoad>[]): void {
  const device = t.all("device").find(({ others, slots }) =>
    others?.includes("implied") && slots.rating?.[0]?.sense.is === "number"
  );
  const n = (device?.slots.rating?.[0]?.sense as { n: number } | undefined)?.n;
  const amperes = loads.reduce((sum, { rating }) => sum + (rating?.unit === "A" ? Number(rating.value) : 0), 0);
  const isPlain = loads.every(({ kind }) => kind === "load") && !lines(t).some(({ slots }) => slots.size);
  if (n === undefined || draft.phases !== 3 || !isPlain || amperes <= n) return;
  t.ask({ field: "breaker", ask: `Is ${n} a breaker's amperes or a transformer's kVA?`, example: `${n} A breaker` });
}

/** `208/240 on the label`: made for either; the supply decides, which is told or taken as an assumption. */
function asideDual(t: Taker): void {
  for (const { key, value } of t.facts.free) {
    const { sense } = value;
    if (key !== "pair" || sense.is !== "pair" || sense.unit !== undefined) continue;
    if (sense.a === DUAL.low && DUAL.high.includes(sense.b)) {
      t.aside(value, "made for either voltage: the supply's counts");
    }
  }
}
const DUAL = { low: 208, high: [220, 230, 240] };

const HOUSEHOLD = new Set(["dryer", "range"]);
const MANY = 5;
const countOf = (value: Value | undefined): number =>
  value?.sense.is === "count" || value?.sense.is === "number" ? value.sense.n : 1;
/** Landscape lights, controls and batteries (common practice, no source). */
const LOW_VOLTAGE = 60;
/** An outlet at the end of a run whose drop is limited: the wire alone is asked, and the drop sizes it. */
const OUTLETS = new Set(["receptacles", "rv-outlet"]);
const isLimited = (t: Taker): boolean =>
  (t.has("%") || t.has("drop")) && t.wants("role:wire") && ["ft", "m", "length"].some((key) => t.has(key));
/** A wire that is there, a length and a limit: whether the drop holds. */
const isHeld = (t: Taker): boolean =>
  (t.has("%") || t.has("drop")) && lines(t).some(({ slots }) => slots.size) &&
  (["ft", "m", "length"].some((key) => t.has(key)) || lines(t).some(({ slots }) => slots.length)) &&
  !t.wants("role:wire");
const isMotor = ({ id, slots }: Fact): boolean => {
  const rating = slots.rating?.[0]?.sense;
  return MOTORS.has(id ?? "") ||
    (rating?.is === "quantity" && rating.unit === "hp" && !(CIRCUIT_KINDS as readonly string[]).includes(id ?? ""));
};
const MOTORS = new Set([...MACHINES, "hermetic-compressor"]);
/** Cooling units go by their nameplate's circuit ampacity, room units by rules of their own. */
const COOLING = ["air-conditioner", "heat-pump", "refrigeration", "room-air-conditioner"];

/** The breaker, or a receptacle's rating; a circuit told by its amperes is its breaker. */
function takeDevice(t: Taker, draft: Draft): void {
  for (const { sense } of t.free("pattern")) if (sense.is === "pattern") setPattern(sense, draft);
  for (const device of t.all("device", "breaker").filter(({ slots }) => slots.poles && !slots.rating)) {
    t.head(device);
    t.slot(device, "poles");
    if (t.number(device, "count") === 1) t.slot(device, "count");
  }
  const devices = t.all("device", "breaker", "fuse").filter(({ slots }) => slots.rating);
  const told = devices.flatMap((device) => {
    const rating = deviceRating(t, device);
    if (!rating) return [];
    t.head(device);
    t.slot(device, "poles");
    t.slot(device, "count");
    return [rating];
  });
  // `he quoted a 60 breaker, a 50 is plenty`: of several, the one that is needed is looked for.
  const values = [...new Set(told.map(({ value }) => Number(value)))];
  if (values.length < 2) draft.breaker ??= told[0];
  else t.note(`looked for the breaker needed, of ${values.join(" and ")} A`);
  if (draft.breaker === undefined) delete draft.breaker;
  for (const circuit of t.all("circuit", "circuit", "multiwire")) {
    t.head(circuit);
    t.slot(circuit, "poles");
    const rating = t.figure(circuit, "rating", "A");
    // Ratings of devices are round figures: a circuit of 24 A is spoken of by its load.
    if (rating && Number(rating.value) % 5 !== 0) draft.loads = [{ kind: "load", count: 1, rating }];
    else if (rating) draft.breaker ??= rating;
    const count = t.number(circuit, "count");
    if (count !== undefined && count > 1) draft.circuits = count;
    if (circuit.id === "multiwire") draft.neutral = true;
  }
}

/** Every load; a blower's amperes beside the heat that it moves are part of it. */
function takeHeads(t: Taker, heads: readonly Fact[], draft: Draft): Partial<SaidLoad>[] {
  const blower = heads.find(({ id, slots }) => BLOWERS.has(id ?? "") && slots.current && !slots.rating);
  const heat = heads.find(({ id, slots }) => HEATED.has(id ?? "") && slots.rating && !slots.current);
  return heads.flatMap((head) => {
    if (head === blower && heat) return [];
    const taken = takeLoad(t, head, draft);
    if (head !== heat || !blower || taken.length !== 1) return taken;
    t.head(blower);
    const amperes = t.figure(blower, "current", "A");
    return [{ ...taken[0]!, kind: "furnace", ...(amperes && { blower: amperes as never }) }];
  });
}
const BLOWERS = new Set(["air-handler", "fan"]);
const HEATED = new Set(["furnace", "supplemental-heat"]);

function takeLoad(t: Taker, load: Fact, draft: Draft): Partial<SaidLoad>[] {
  t.head(load);
  const kind = kindOf(load.others?.find((other) => other.startsWith("for:"))?.slice(4) ?? load.id);
  const said: Partial<SaidLoad> = { kind, count: t.number(load, "count") ?? 1 };
  const rating = t.figure(load, "rating", "W", "kW", "VA", "kVA");
  const draw = t.figure(load, "draw", "W", "kW", "VA", "kVA", "A") ?? bareAmperes(t, load, "draw");
  const plate = t.figure(load, "nameplate", "A") ?? t.figure(load, "full-load-current", "A") ??
    bareAmperes(t, load, "full-load-current");
  const current = t.figure(load, "current", "A");
  const hours = t.term(load, "hours");
  if (hours) said.continuous = hours === "continuous";
  const gallons = t.figure(load, "gallons");
  if (gallons) said.gallons = Number(gallons.value);
  const duty = t.number(load, "duty") ?? t.number(load, "duty-cycle");
  if (duty !== undefined) said.dutyCycle = duty;
  // What a welder's plate gives is its primary's.
  if (kind === "welder") t.said("end:primary");
  const length = load.slots.ownLength?.[0];
  if (length) t.aside(length, "the heater's own length");
  t.term(load, "fuel");
  takePattern(t, load, draft);
  const power = rating ?? (draw && draw.unit !== "A" ? draw : undefined);
  const amperes = (draw?.unit === "A" ? draw : undefined) ?? plate;
  if (power) said.rating = power as never;
  if (amperes) {
    if (power) {
      said.current = amperes as never;
      takeVoltsOf(t, power, amperes, draft);
    } else said.rating = amperes as never;
  }
  if (current) takeAmperes(t, load, kind, said, current, draft);
  return [said];
}

/** What an amperage beside a load is: its draw, or the circuit that it is spoken of by. */
function takeAmperes(
  t: Taker,
  load: Fact,
  kind: CircuitKind,
  said: Partial<SaidLoad>,
  current: Said,
  draft: Draft,
): void {
  const isOutlet = load.id === "receptacles" || load.id === "rv-outlet";
  // `receptacles 3 A`: none is made for so little, which is what they draw.
  if (isOutlet && (load.id === "rv-outlet" || Number(current.value) >= SMALLEST_RECEPTACLE)) {
    draft.receptacle = current;
    if (load.others?.includes("for:rv-outlet") || load.id === "rv-outlet") {
      readVehicleOutlet(draft, Number(current.value));
    }
    return;
  }
  if (isOutlet) {
    said.rating = current as never;
    return;
  }
  if (said.rating) {
    const { rating } = said;
    if (rating.unit === "A") draft.breaker ??= current;
    else if (isOfCircuit(kind, rating, current) && !draft.breaker) takeCircuit(t, current, draft);
    else {
      said.current ??= current as never;
      takeVoltsOf(t, rating, current, draft);
    }
    return;
  }
  // Ratings of devices are round figures: `my dryer says 24 A` tells what it draws.
  if (RATED_BY_CIRCUIT.includes(kind) && !draft.breaker && isRound(current)) return takeCircuit(t, current, draft);
  if (kind === "ev-charger" && CIRCUITS_NOT_DRAWS.includes(Number(current.value)) && !draft.breaker) {
    t.ask({
      field: "loads",
      ask: `Is ${current.value} A what the charger draws, or its circuit?`,
      example: `draws ${current.value} A`,
    });
    return;
  }
  said.rating = current as never;
}
function takeCircuit(t: Taker, current: Said, draft: Draft): void {
  draft.breaker = current;
  t.note(`took ${current.value} A as the circuit, not as what it draws`);
}
const isRound = ({ value }: Said): boolean => Number(value) % 5 === 0 && Number(value) >= SMALLEST_RECEPTACLE;
/** `a 30 A water heater, 4500 W`: round amperes that its power comes to at no usual voltage, and are above what it draws. */
function isOfCircuit(kind: CircuitKind, { value, unit }: { value: unknown; unit: string }, current: Said): boolean {
  if (!isRound(current)) return false;
  if (RATED_BY_CIRCUIT.includes(kind)) return true;
  const [power, amperes] = [Number(value) * (unit.startsWith("k") ? 1000 : 1), Number(current.value)];
  const isDraw = USUAL_VOLTS.some((volts) =>
    [1, Math.sqrt(3)].some((phases) => Math.abs(power / volts / phases / amperes - 1) <= NEAR)
  );
  return !isDraw && power / HOUSE_VOLTS < amperes;
}
/** `1500 W heater, 12.5 A`: the one voltage at which both are so, where none was told. */
function takeVoltsOf(t: Taker, { value, unit }: { value: unknown; unit: string }, current: Said, draft: Draft): void {
  if (draft.volts !== undefined || draft.phases === 3) return;
  const volts = Number(value) * (unit.startsWith("k") ? 1000 : 1) / Number(current.value);
  const usual = USUAL_VOLTS.filter((each) => Math.abs(volts / each - 1) <= NEAR);
  if (usual.length !== 1 || usual[0] === HOUSE_VOLTS) return;
  draft.volts = { value: usual[0], unit: "V" };
  t.note(`took ${usual[0]} V, at which ${value} ${unit} is ${current.value} A`);
}
/** Voltages that loads are supplied with, and the one of most (common practice, no source). */
const [USUAL_VOLTS, HOUSE_VOLTS] = [[120, 208, 230, 240, 277, 480], 240];
/** Ratings of receptacles begin there (common practice, no source). */
const SMALLEST_RECEPTACLE = 15;
/** Recreational vehicles: the large outlet has both voltages, the smaller ones 120 V. */
function readVehicleOutlet(draft: Draft, amperes: number): void {
  const isLarge = amperes === 50;
  draft.volts ??= { value: isLarge ? 240 : 120, unit: "V" };
  if (isLarge) draft.neutral = true;
}
const bareAmperes = (t: Taker, load: Fact, slot: string): Said | undefined => {
  const n = load.slots[slot]?.[0]?.sense.is === "number" ? t.number(load, slot) : undefined;
  return n === undefined ? undefined : { value: n, unit: "A" };
};

function takePattern(t: Taker, load: Fact, draft: Draft): void {
  const value = t.slot(load, "pattern");
  if (value?.sense.is === "pattern") setPattern(value.sense, draft);
}
function setPattern({ blades, amperes }: { blades: number; amperes: number }, draft: Draft): void {
  draft.receptacle = { value: amperes, unit: "A" };
  const pattern = PATTERNS[blades];
  if (pattern) draft.volts ??= { value: pattern.volts, unit: "V" };
  if (pattern?.neutral) draft.neutral = true;
}

/** Heat with its blower is sized like a furnace. */
const HEAT: ReadonlySet<string> = new Set(["supplemental-heat", "air-handler"]);
const kindOf = (id: string | undefined): CircuitKind =>
  HEAT.has(id ?? "")
    ? "furnace"
    : id === "rv-outlet"
    ? "receptacles"
    : (CIRCUIT_KINDS as readonly string[]).includes(id ?? "")
    ? id as CircuitKind
    : "load";

/** Appliances that are named side by side are on one circuit only where that is said, or where a rule puts them there. */
function askWhetherOne(t: Taker, { loads = [] }: { loads?: Partial<SaidLoad>[] }): void {
  const kinds = new Set(loads.map(({ kind }) => kind).filter((kind) => kind !== "load"));
  const isOne = t.said("motorWord:one-branch") || t.wants("circuit:circuit") || t.all("circuit").length > 0;
  // `oven and cooktop, separate circuits`
  const areApart = t.said("motorWord:alone") && kinds.size > 1;
  if (
    !areApart &&
    (kinds.size < 2 || isOne || [...kinds].every((kind) => kind && (isCooking(kind) || SHARED.includes(kind))))
  ) return;
  t.ask({
    field: "loads",
    ask:
      "Are these on one circuit together, or does each have its own? Ask for one at a time, or say “on one circuit”.",
    example: "on one circuit",
  });
}
/** `oven 8.6 kW, 208 V, 3 ph, 24 A`: what its power comes to is told beside it. */
function isItsOwnCurrent(t: Taker, draft: Draft, loads: readonly Partial<SaidLoad>[]): boolean {
  const [rated, loose, ...others] = loads;
  const volts = Number((draft.volts as Said | undefined)?.value);
  if (!rated?.rating || rated.kind === "load" || loose?.kind !== "load" || loose.rating?.unit !== "A") return false;
  if (others.length > 0 || rated.rating.unit === "A" || Number.isNaN(volts)) return false;
  const power = Number(rated.rating.value) * (rated.rating.unit.startsWith("k") ? 1000 : 1);
  const current = power / volts / (draft.phases === 3 ? Math.sqrt(3) : 1);
  const told = Number(loose.rating.value);
  if (Math.abs(told - current) / current > NEAR) return false;
  draft.loads = [{ ...rated, current: loose.rating }];
  t.note(`took ${told} A as what its power comes to`);
  return true;
}
const NEAR = 0.05;
/** `27 kW water heater, 40 A feeds`: amperes beside a load that has its power, and nothing that adds them to it. */
function askWhetherDevice(t: Taker, heads: readonly Fact[]): void {
  const isNamed = heads.some(({ id, slots }) =>
    id !== undefined && id !== "load" && (slots.rating ?? slots.nameplate ?? slots.draw ?? slots["full-load-current"])
  );
  const loose = heads.find(({ id, slots, others }) =>
    id === undefined && slots.current && !slots.hours && !others?.some((each) => ADDED.includes(each))
  );
  const n = (loose?.slots.current?.[0]?.sense as { n?: number } | undefined)?.n;
  if (!isNamed || n === undefined) return;
  t.ask({
    field: "loads",
    ask: `What is ${n} A: a breaker, or another load on the circuit?`,
    example: `${n} A breaker`,
  });
}
const ADDED = ["joined", "twin", "added"];
/** What general circuits carry side by side. */
const SHARED: readonly CircuitKind[] = ["lighting", "receptacles", "refrigerator", "microwave"];

const isPlain = ({ rating, current }: Partial<SaidLoad>) => rating === undefined && current === undefined;
/** Two mentions of one load are one: a name without a figure goes to the figure without a name. */
function together(loads: Partial<SaidLoad>[], hasOutlet: boolean): Partial<SaidLoad>[] | undefined {
  const list: Partial<SaidLoad>[] = [];
  for (const load of loads) {
    const same = list.find((each) =>
      (each.kind === load.kind || each.kind === "load" || load.kind === "load") && (isPlain(each) || isPlain(load))
    );
    if (same) {
      Object.assign(same, load, {
        kind: same.kind === "load" ? load.kind : same.kind,
        count: Math.max(same.count ?? 1, load.count ?? 1),
      });
    } else list.push(load);
  }
  // A receptacle or a cooking appliance named beside loads with figures names the circuit.
  const rated = list.filter((load) => !isPlain(load));
  const kept = rated.length > 0
    ? list.filter((load) => !isPlain(load) || !(load.kind === "receptacles" || (load.kind && isCooking(load.kind))))
    : list;
  // A rated outlet beside what is plugged into it is no load of its own.
  const plugged = hasOutlet ? kept.filter(({ kind }) => kind !== "receptacles") : kept;
  return plugged.length > 0 ? plugged : kept;
}

function takeConductor(t: Taker, draft: Draft): void {
  const sized = lines(t).filter(({ id, slots }) => slots.size && id !== "neutral");
  const sizes: string[] = [];
  for (const fact of sized) {
    const sense = t.slot(fact, "size")!.sense;
    t.head(fact);
    if (sense.is === "size") sizes.push(sense.size);
    if (sense.is === "cable") {
      sizes.push(sense.size);
      draft.wires = sense.wires;
      if (!t.all("conductor").some(({ slots }) => slots.insulation)) {
        draft.method = "NM cable";
        t.note(`took ${sense.size}/${sense.wires} as NM cable`);
      }
    }
    if (sense.is === "sizes") sizes.push(sense.sizes[0]!);
  }
  const different = [...new Set(sizes)];
  if (different.length > 1 && t.said("change:or")) draft.options = different;
  else if (different.length === 1) draft.size = different[0];
  else if (different.length > 1) draft.options = different;
}

function takeNeutral(t: Taker, draft: Draft, { low, high, wye }: ReturnType<typeof takeSupply>): void {
  // Three wires of 120/240 V are both lines and the neutral.
  const isBoth = low !== undefined && low * 2 === high && !wye && draft.phases !== 3;
  if (isBoth && t.said("connection:three-wire", "connection:four-wire")) draft.neutral = true;
  if (t.said("circuit:no-neutral")) draft.neutral = false;
  else if (t.said("circuit:with-neutral")) draft.neutral = true;
  if (t.said("circuit:neutral-counts", "circuit:nonlinear")) draft.neutralCounts = true;
  // A neutral that carries only what the lines differ by is there, and does not count.
  else if (t.said("circuit:balanced-neutral")) draft.neutral ??= true;
  if (t.asks("role:neutral")) draft.neutral ??= true;
}
