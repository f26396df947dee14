/** What the path of a fault takes of the facts: the breaker, the circuit's wire and its ground, how far it goes, what feeds it. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { deviceRating } from "../../parts/device-takes.ts";
import { lines, takeLength, takeWiring } from "../../parts/run-takes.ts";
import { tradeSize } from "../../parts/sizes.ts";
import { SYSTEMS } from "./request.ts";

const MOTORS = ["motor", "pump", "compressor", "air-compressor", "fan", "machine", "gate-operator"];
const FUSES = ["fuse", "dual-element-fuse", "nontime-delay-fuse"];
/** What stands at the far end or on the way, and changes nothing of the loop. */
const ON_THE_WAY = ["panel", "subpanel", "main", "service", "disconnect"];
/** Devices that may be the one that is to trip, where no other is told. */
const MAY_TRIP = ["main"];
/** Amperes without a name from here on are what the source can deliver. */
const LEAST_FAULT = 1000;
const APPARENT: readonly string[] = ["VA", "kVA", "MVA"];
/** Of one breaker that is to trip there are not so many. */
const LEAST_MULTIPLE = 3;
/** A metal raceway that is the equipment ground itself. */
const RACEWAY_GROUNDS = [
  "boxWord:grounded-by-raceway",
  "boxWord:grounded-by-aluminum",
  "boxWord:grounded-by-emt",
  "boxWord:grounded-by-fmc",
  "boxWord:grounded-by-imc",
  "boxWord:grounded-by-lfmc",
  "boxWord:grounded-by-rmc",
];
/** Flexible ones, by how they are told. */
const FLEXIBLE = {
  FMC: ["boxWord:grounded-by-fmc", "raceway:fmc"],
  LFMC: ["boxWord:grounded-by-lfmc", "raceway:lfmc"],
};
const ANSWERED = [
  "goal:fault",
  "goal:fault-current",
  "goal:fault-path",
  "goal:check",
  "goal:current",
  "goal:size",
  "label:draw",
  "label:rated",
  "label:impedance",
  "label:available-fault-current",
  "device:breaker",
  "device:instantaneous-trip-breaker",
];

export function takes(t: Taker): Draft | undefined {
  if (!isAsked(t)) return undefined;
  const draft: Draft = {};
  takeDevices(t, draft);
  takeVolts(t, draft);
  takeWires(t, draft);
  takeGround(t, draft);
  takeSource(t, draft);
  takeLoads(t, draft);
  for (const { sense } of t.free("multiple")) draft.trips = (sense as { n: number }).n;
  for (const { sense } of t.free("count")) draft.trips ??= (sense as { n: number }).n;
  // Beside a told length the longest run stands on the answer anyway.
  if (t.asks("goal:longest-run") && !draft.length) draft.find = "longest run";
  if (t.said("place:separate-structure")) draft.separate = true;
  for (const fact of t.all("box", "gfci")) {
    t.head(fact);
    draft.groundFaultProtected = true;
  }
  t.said("place:garage", "label:nameplate", "label:phases", "leg:one", "circuit:one-way", "change:make");
  for (const fact of t.all("circuit", "circuit", "feeder")) t.head(fact);
  t.asks(...ANSWERED);
  t.terms("end");
  return draft;
}

/** A fault to the case is spoken of, and no motor that trips its breaker when it starts. */
function isAsked(t: Taker): boolean {
  const isSized = lines(t).some(({ slots }) => slots.size);
  const isFault = t.wants("goal:fault-path") || t.has("multiple") || t.has("fault:no-source-impedance") ||
    isOnBreaker(t, isSized) || isThroughEarth(t);
  const isMotors = !isThroughEarth(t) && (t.all("load", ...MOTORS).length > 0 && !isSized) ||
    t.has("motorWord:hard-starting");
  if (!isFault || isMotors || t.wants("goal:drop") || t.has("drop")) return false;
  // Rods without a breaker are a question on grounding.
  const isOfRods = t.has("electrode:rod") || t.has("electrode:earth");
  return !isOfRods || t.all("device").some(({ slots }) => slots.rating) || t.has("ohm");
}

/** `does a rod of 25 ohms trip a 15 A breaker`: a resistance of the earth beside a breaker, and no conductor to the rod asked. */
const isThroughEarth = (t: Taker): boolean =>
  (t.has("electrode:rod") || t.has("electrode:earth")) && t.has("ohm") &&
  t.all("device", "breaker").some(({ slots }) => slots.rating) &&
  !t.wants("role:grounding-electrode-conductor", "role:wire", "goal:size", "goal:bond");

/** `20 A breaker, #12 and a #12 ground, 350 ft: fault current?`: a fault behind a breaker, and nothing told of the source. */
function isOnBreaker(t: Taker, isSized: boolean): boolean {
  if (!t.wants("goal:fault", "goal:fault-current")) return false;
  const ofSource = [
    "impedance",
    "label:impedance",
    "interrupting-rating",
    "available-fault-current",
    "kA",
    "label:interrupting-rating",
  ];
  const hasSource = ofSource.some(t.has) || t.all("transformer").length > 0 ||
    t.all("load").some(({ slots }) =>
      slots.rating?.some(({ sense }) => sense.is === "quantity" && APPARENT.includes(sense.unit))
    );
  const isRated =
    [...t.all("device"), ...t.all("circuit"), ...t.all("load")].some(({ slots }) =>
      [...slots.rating ?? [], ...slots.current ?? []].some(({ sense }) => sense.is === "quantity" && sense.unit === "A")
    ) || t.all("device", "breaker").some(({ slots }) => slots.rating?.[0]?.sense.is === "number");
  return isSized && isRated && !hasSource;
}

function takeDevices(t: Taker, draft: Draft): void {
  const hasBreaker = t.all("device").some(({ id, slots }) => slots.rating && !ON_THE_WAY.includes(id ?? ""));
  for (const fact of t.all("device")) {
    t.slot(fact, "poles");
    const isOnTheWay = ON_THE_WAY.includes(fact.id ?? "") && (hasBreaker || !MAY_TRIP.includes(fact.id ?? ""));
    const said = isOnTheWay ? undefined : deviceRating(t, fact);
    t.head(fact);
    if (isOnTheWay) {
      for (const value of Object.values(fact.slots).flat()) t.aside(value, "the breaker of the circuit decides");
      continue;
    }
    if (FUSES.includes(fact.id ?? "")) draft.fuse = true;
    if (said && draft.breaker !== undefined && (draft.breaker as Said).value !== said.value) {
      t.ask({
        field: "breaker",
        ask: `${(draft.breaker as Said).value} A and ${said.value} A: which breaker is to trip?`,
        example: `${said.value} A breaker`,
      });
    }
    if (said) draft.breaker ??= said;
    const count = fact.slots.count?.[0];
    // `10x trip`
    // `15 A breaker … (say 8x)`
    const isMultiple = count?.sense.is === "count" && (!said || count.sense.n >= LEAST_MULTIPLE);
    if (isMultiple) draft.trips = t.number(fact, "count");
  }
  for (const fact of t.all("circuit", "circuit", "feeder")) {
    const said = t.figure(fact, "rating", "A");
    if (said) draft.breaker ??= said;
  }
  // `will the 15 amp breaker trip`: what the words of the question took from its name stands beside whatever is near.
  for (const load of t.all("load")) {
    const value = load.slots.current?.[0];
    const said = saidOf(value?.sense);
    if (said?.unit !== "A" || Number(said.value) >= LEAST_FAULT || draft.breaker) continue;
    t.use(value!, "breaker");
    t.head(load);
    draft.breaker = said;
    // `clear at 10x: 50 A`
    if (load.slots.count?.[0]?.sense.is === "count") draft.trips = t.number(load, "count");
  }
}

function takeVolts(t: Taker, draft: Draft): void {
  const values = [
    ...t.facts.free.filter(({ key }) => ["V", "volts", "system", "nominal-volts"].includes(key)).map(({ value }) =>
      value
    ),
    ...t.all("load").flatMap(({ slots }) => slots.volts ?? []),
  ];
  for (const value of values) {
    t.use(value, "voltage");
    const { sense } = value;
    if (sense.is === "system") {
      const system = SYSTEMS.find((each) =>
        each === `${sense.low}/${sense.high}` || each === `${sense.high}Y/${sense.low}`
      );
      if (system) draft.system = system;
    } else if (sense.is === "quantity" || sense.is === "number") draft.volts ??= { value: sense.n, unit: "V" };
  }
  if (draft.system !== undefined) delete draft.volts;
  const phases = [...t.all("load").map((load) => t.term(load, "phase")), ...t.terms("phase")];
  if (phases.includes("three-phase")) draft.phases = 3;
  else if (phases.includes("single-phase")) draft.phases = 1;
}

function takeWires(t: Taker, draft: Draft): void {
  for (const fact of lines(t)) {
    const value = t.slot(fact, "temperature");
    if (value) draft.temperature = saidOf(value.sense);
  }
  for (const { sense } of t.free("conductor-temperature")) {
    draft.temperature = { value: (sense as { n: number }).n, unit: "°C" };
  }
  // `75C` beside a fault is how hot its conductors are.
  const degrees = t.loose("°C", "terminals");
  if (degrees) draft.temperature ??= degrees;
  const sized = lines(t).filter(({ slots }) => slots.size);
  for (const fact of lines(t)) t.head(fact);
  const [first, ...others] = sized;
  if (first) {
    const sense = t.slot(first, "size")?.sense;
    if (sense?.is === "size" || sense?.is === "cable") draft.size = sense.size;
    else if (sense?.is === "sizes") {
      draft.size = sense.sizes[0];
      if (sense.sizes.length === 4) draft.ground = sense.sizes[3];
    }
    if (sense?.is === "cable") draft.method = "NM cable";
    const count = first.slots.count?.[0];
    if (count) t.aside(count, "one line and its ground are the loop");
  }
  for (const fact of others) {
    const value = fact.slots.size![0]!;
    const same = value.sense.is === "size" && value.sense.size === draft.size;
    if (same) t.use(value, "size");
    else {
      t.ask({
        field: "size",
        ask: `${first!.slots.size![0]!.said} and ${value.said}: which is the line, and which the equipment ground?`,
        example: `${first!.slots.size![0]!.said} with a ${value.said} ground`,
      });
    }
  }
  const { material, method, conduit } = takeWiring(t);
  if (material !== undefined) draft.material = material;
  if (method !== undefined && method !== "conductors in conduit") draft.method = method;
  else if (method !== undefined) delete draft.method;
  if (conduit !== undefined) draft.conduit = conduit;
  const length = takeLength(t) ??
    t.all("conductor", "equipment-ground").map((fact) => t.figure(fact, "length")).find(Boolean);
  if (length) draft.length = length;
}

function takeGround(t: Taker, draft: Draft): void {
  for (const fact of t.all("conductor", "equipment-ground", "bonding-jumper")) takeGroundWire(t, fact, draft);
  const isEarth = t.said("electrode:rod", "electrode:earth");
  const ohms = t.loose("ohm");
  const isNone = t.said("fault:no-ground", "boxWord:no-ground");
  const isAluminum = t.has("boxWord:grounded-by-aluminum");
  const isRaceway = t.said(...RACEWAY_GROUNDS);
  const isMetal = draft.conduit !== undefined && draft.conduit !== "PVC";
  if (isRaceway) takeTradeSize(t);
  if (isRaceway && draft.ground === undefined) {
    // Plastic leads nothing back, whatever it is called.
    draft.return = draft.conduit === "PVC" ? "earth" : "raceway";
    draft.conduit ??= isAluminum ? "aluminum" : "steel";
  } else if ((isEarth || (ohms && !isMetal)) && draft.ground === undefined) {
    draft.return = "earth";
    if (ohms) draft.earth = ohms;
  } else if (isNone) draft.return = isMetal ? "raceway" : "earth";
  if (draft.return !== "raceway") return;
  const flexible = Object.entries(FLEXIBLE).find(([, keys]) => keys.some(t.has))?.[0];
  if (flexible) draft.flexible = flexible;
  const [told] = [...t.free("ohm/kft"), ...t.free("impedance")];
  const impedance = saidOf(told?.sense) ?? ohms;
  if (impedance) draft.returnImpedance = impedance;
}
/** `in 3/4 EMT as the ground`: the words of the ground stand where its unit would follow. */
function takeTradeSize(t: Taker): void {
  for (const { key, value } of t.facts.free) {
    if (key === "number" && value.sense.is === "number" && tradeSize(value.sense.n) !== undefined) {
      t.aside(value, "the raceway's size");
    }
  }
}
function takeGroundWire(t: Taker, fact: Fact, draft: Draft): void {
  t.head(fact);
  const sense = t.slot(fact, "size")?.sense;
  if (sense?.is === "size") draft.ground = sense.size;
  const metal = t.term(fact, "metal");
  if (metal) draft.groundMaterial = metal;
}

function takeSource(t: Taker, draft: Draft): void {
  for (const { sense } of [...t.free("available-fault-current"), ...t.free("interrupting-rating"), ...t.free("kA")]) {
    const said = saidOf(sense) ?? (sense.is === "number" ? { value: sense.n, unit: "A" } : undefined);
    if (said && said.unit !== "MVA") draft.source ??= said;
  }
  for (const load of t.all("load")) {
    const value = load.slots.current?.[0];
    const said = saidOf(value?.sense);
    if (load.id !== undefined || said?.unit !== "A" || Number(said.value) < LEAST_FAULT) continue;
    t.use(value!, "source");
    t.head(load);
    draft.source ??= said;
  }
  for (const { sense } of t.free("reactance-ratio")) {
    if (sense.is === "number") draft.ratio = sense.n;
  }
  for (const value of t.free("fault:no-source-impedance")) t.aside(value, "so taken where nothing else is told");
  for (const value of t.free("fault:infinite-bus")) t.aside(value, "so taken where nothing else is told");
  // `how many times 30`: the breaker again; `source impedance taken as 0`: none.
  for (const { key, value } of t.facts.free) {
    if (key !== "number" || value.sense.is !== "number") continue;
    if (value.sense.n === (draft.breaker as Said | undefined)?.value) t.use(value, "breaker");
    else if (value.sense.n === 0) t.use(value, "source");
  }
}

/** What hangs on the circuit does not change its loop. */
function takeLoads(t: Taker, draft: Draft): void {
  for (const load of t.all("load")) {
    if (load.id === undefined) continue;
    t.head(load);
    for (const slot of ["rating", "current", "hours", "count", "pattern"]) {
      const value = load.slots[slot]?.[0];
      if (value && saidOf(value.sense)?.value !== (draft.breaker as Said | undefined)?.value) {
        t.aside(value, "what hangs on the circuit changes nothing of its loop");
      }
    }
  }
}
