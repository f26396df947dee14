/** The supply, and the service or feeder that is asked for or put up. */
import type { Draft, Fact, Value } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { ratingOf } from "./device-takes.ts";
import type { SystemName } from "../../rules/systems.ts";

/** Loads without a supply of their own: a voltage or phase beside them is the building's. */
const OF_THE_BUILDING = ["lighting", "receptacles", "load", "show-window", "multioutlet-assembly"];
type Told = {
  phases?: 1 | 3 | undefined;
  volts?: number | undefined;
  low?: number | undefined;
  highLeg: boolean;
  wye: boolean;
  /** Three lines and nothing else. */
  noNeutral: boolean;
};

export function takeSystem(t: Taker, draft: Draft): void {
  const told: Told = {
    highLeg: t.said("connection:high-leg"),
    wye: t.said("connection:wye"),
    noNeutral: t.said("connection:delta", "connection:three-wire", "circuit:no-neutral"),
  };
  t.said("connection:four-wire", "connection:two-wire", "phase:alternating current");
  for (const id of t.terms("phase")) {
    if (id === "three-phase") told.phases = 3;
    else if (id === "single-phase") told.phases = 1;
  }
  const volts = (value: Value) => {
    const { sense } = value;
    if (sense.is === "system") [told.low, told.volts] = [sense.low, sense.high];
    else if ((sense.is === "quantity" || sense.is === "number") && sense.n >= LEAST_LINE) told.volts ??= sense.n;
  };
  for (const key of ["system", "V", "volts"]) for (const value of t.free(key)) volts(value);
  // `office 5000 sq ft, 208`: a voltage and nothing else.
  const bare = t.facts.free.filter(({ key, value: { sense } }) =>
    key === "supply-volts" && sense.is === "number" && OF_THREE_PHASES.has(sense.n)
  );
  if (told.volts === undefined && bare.length === 1) {
    volts(t.free("supply-volts").find((each) => each === bare[0]!.value)!);
  }
  for (const load of t.all("load")) {
    const own = load.slots.volts?.[0];
    // `110 receptacles` are so many.
    const isCount = load.id === "receptacles" && own?.sense.is === "number" && !load.slots.count;
    const isBuilding = own?.sense.is === "system" || OF_THE_BUILDING.includes(load.id ?? "");
    if (!isBuilding) continue;
    const isLow = own !== undefined && "n" in own.sense && own.sense.n < LEAST_LINE;
    if (own && isLow && !isCount) t.aside(own, "on the lighting voltage");
    else if (own && !isCount) volts(t.slot(load, "volts")!);
    if (!isOfSupply(load)) continue;
    const phase = t.term(load, "phase");
    if (phase === "three-phase") told.phases ??= 3;
    else if (phase === "single-phase") told.phases ??= 1;
  }
  // Where it is written out, all of the supply stands there.
  const isWrittenOut = t.has("building:other-occupancy");
  if (!isWrittenOut && told.volts === undefined && told.phases === undefined) ofTheKitchen(t, told, volts);
  const system = systemOf(t, told, isWrittenOut);
  if (system) draft.system = system;
}
const LEAST_LINE = 200;
const OF_THREE_PHASES: ReadonlySet<number> = new Set([208, 480]);

/** `20 pieces of kitchen equipment at 240 V single phase`, and nothing else of the supply. */
function ofTheKitchen(t: Taker, told: Told, volts: (value: Value) => void): void {
  const [all] = t.all("load", "kitchen-equipment").filter(({ slots }) => slots.volts && slots.phase);
  if (!all) return;
  volts(all.slots.volts![0]!);
  told.phases = phaseOf(all) === "three-phase" ? 3 : 1;
}

/** Whether the phases told beside a load are those of the supply: right beside its voltages, or of no equipment. */
export function isOfSupply({ id, slots: { volts, phase } }: Fact): boolean {
  if (OF_THE_BUILDING.includes(id ?? "")) return true;
  const [a, b] = [volts?.[0], phase?.[0]];
  return a?.sense.is === "system" && b !== undefined &&
    a.pieces.some((one) => b.pieces.some((other) => Math.abs(one - other) === 1));
}

const near = (volts: number, nominal: number): boolean => Math.abs(volts - nominal) <= nominal / 12;

/** The supply that voltages and phases name together; none where they leave it open. */
function systemOf(t: Taker, told: Told, isWrittenOut: boolean): SystemName | undefined {
  const { phases, volts, low, highLeg, wye, noNeutral } = told;
  if (highLeg) return "120/240 V three-phase";
  const isThree = phases === 3 || (phases === undefined && isThreePhaseToldOfLoads(t));
  const high = volts ?? (low === undefined && !isWrittenOut ? voltsOfLoads(t) : undefined);
  if (high === undefined) return undefined;
  if (near(high, 208) && high < 220) {
    if (phases === 1) return "120/208 V single-phase";
    if (!low && !isThree && !wye) t.note(`took ${high} V as 208Y/120 V, three-phase`);
    return "208Y/120 V three-phase";
  }
  if (near(high, 240)) {
    if (low !== undefined) return isThree ? "120/240 V three-phase" : "120/240 V single-phase";
    if (phases === 1) return "120/240 V single-phase";
    if (isThree && noNeutral) return "240 V three-phase";
    if (isThree) askHighLeg(t);
    return undefined;
  }
  const names = HIGHER.find(([nominal]) => near(high, nominal));
  if (!names || phases === 1) return undefined;
  const [nominal, four, three] = names;
  if (low === undefined && noNeutral) return three;
  if (low === undefined && !wye) {
    t.note(`took ${high} V as ${four.split(" ")[0]} V, a wye of ${nominal} V with its neutral`);
  }
  return four;
}
const HIGHER: readonly (readonly [number, SystemName, SystemName])[] = [
  [480, "480Y/277 V three-phase", "480 V three-phase"],
  [600, "600Y/347 V three-phase", "600 V three-phase"],
];

function askHighLeg(t: Taker): void {
  t.ask({
    field: "system",
    ask:
      "Does the 240 V three-phase supply have a neutral (a high-leg delta, 120/240 V), or is it a delta without one?",
    example: "high-leg delta",
  });
}

/** `240 V`, `120/240`, `@ 240`: told, and no other than what is taken anyway. */
export function asideVolts(t: Taker, because: string): void {
  const told = ["V", "system", "volts", "supply-volts", "nominal-volts"].flatMap((key) =>
    t.facts.free.filter((each) => each.key === key)
  );
  for (const value of [...told.map(({ value }) => value), ...t.all("load").flatMap(({ slots }) => slots.volts ?? [])]) {
    const { sense } = value;
    const n = sense.is === "system" ? sense.high : "n" in sense ? sense.n : 0;
    if (ONE_SYSTEM.has(n)) t.aside(value, because);
  }
}
const ONE_SYSTEM: ReadonlySet<number> = new Set([220, 230, 240]);

const phaseOf = ({ slots }: Fact): string | undefined => {
  const sense = slots.phase?.[0]?.sense;
  return sense?.is === "term" ? sense.id : undefined;
};
/** A three-phase load is on a three-phase supply. */
const isThreePhaseToldOfLoads = (t: Taker): boolean => t.all("load").some((load) => phaseOf(load) === "three-phase");

/** The supply told by its equipment alone: of 208 or 480 V three-phase there is one each. */
function voltsOfLoads(t: Taker): number | undefined {
  const told = t.all("load").filter((load) => phaseOf(load) === "three-phase").flatMap(({ slots }) => slots.volts ?? [])
    .flatMap(({ sense }) => sense.is === "quantity" || sense.is === "number" ? [sense.n] : []);
  const [first] = told;
  if (first === undefined || told.some((each) => each !== first) || !(first < 220 || near(first, 480))) {
    return undefined;
  }
  t.note(`took the supply as that of the ${first} V three-phase equipment`);
  return first;
}

/** The service or feeder, its panel, its conductors. */
export function takeService(t: Taker, draft: Draft): void {
  const isAfter = t.said("place:after-disconnect");
  const isAt = !isAfter && t.said("place:at-disconnect");
  if (isAfter || t.all("device", "subpanel").length > 0) draft.panel = "after the service disconnect";
  else if (isAt) draft.panel = "at the service disconnect";
  if (isAfter || isAt) { for (const panel of t.all("device", "panel")) t.head(panel); }
  for (const device of t.all("device", "service", "panel", "main", "subpanel", "breaker")) {
    const rating = ratingOf(t, device);
    if (!rating) continue;
    t.head(device);
    draft.service ??= rating;
  }
  const asks = [
    ...(isAfter || isAt ? [] : ["device:panel"]),
    "device:service",
    "device:main",
    "device:subpanel",
    "device:breaker",
    ...SERVICE_WIRES,
    "role:equipment-ground",
    "goal:size",
    "goal:current",
    "label:neutral-load",
  ].filter((goal) => t.asks(goal)).length > 0;
  t.asks("goal:ampacity");
  const checks = t.asks("goal:check");
  const isFeeder = t.all("circuit", "feeder").length > 0;
  for (const feeder of t.all("circuit", "feeder")) {
    t.head(feeder);
    const rating = t.figure(feeder, "rating", "A") ?? t.figure(feeder, "current", "A");
    if (rating) draft.service ??= rating;
  }
  if (isFeeder && (asks || draft.service || draft.system)) draft.panel ??= "after the service disconnect";
  if (asks || (checks && draft.service) || draft.service) draft.upTo = "service";
  const metals = new Set([...t.terms("metal"), ...t.all("device", "service").map((each) => t.term(each, "metal"))]);
  for (const fact of t.all("conductor")) metals.add(t.term(fact, "metal"));
  metals.delete(undefined);
  if (metals.size === 1) draft.material = [...metals][0];
  const [electrode] = t.terms("electrode");
  if (electrode) draft.electrode = electrode;
  const terminals = t.loose("terminals", "°C");
  if (terminals) draft.terminals = terminals;
}

/** Conductors of a service or feeder. */
const SERVICE_WIRES = [
  "role:wire",
  "role:ungrounded",
  "role:neutral",
  "role:grounding-electrode-conductor",
  "role:main-bonding-jumper",
] as const;
/** What asks for the load itself: it tells nothing more. */
export const LOAD_GOALS = [
  "goal:load",
  "goal:feeder-load",
  "goal:VA",
  "goal:kVA",
  "goal:kW",
  "label:calculated-load",
  "label:draw",
] as const;
/** What is asked beside it of dwellings: the service or feeder that it makes, its conductors, whether what is there will do. */
export const DWELLING_GOALS = [
  ...LOAD_GOALS,
  "goal:size",
  "goal:current",
  "goal:check",
  "goal:ampacity",
  "device:service",
  "device:panel",
  "device:main",
  ...SERVICE_WIRES,
  "circuit:feeder",
  "label:neutral-load",
] as const;

/** The service or feeder of parks and farms, whose load is always worked on to it. */
export function takePlainService(t: Taker, draft: Draft): void {
  takeService(t, draft);
  delete draft.upTo;
  if (t.all("circuit", "feeder").length > 0) draft.panel ??= "after the service disconnect";
}
