/** What every kind that asks about conductors takes of the facts: metal, insulation, method, place, length, drop limit. */
import type { Draft, Fact, Said, Value } from "../../reading/facts.ts";
import { saidOf, type Taker } from "../../reading/take.ts";
import { INSULATIONS } from "../../rules/conditions.ts";
import { type Electrode, ELECTRODES, isByTable } from "../../rules/grounding.ts";

/** What a power is asked in: a conversion. */
export const POWER_GOALS = ["goal:kW", "goal:W", "goal:kVA", "goal:VA", "goal:hp"];
const RATED = [60, 75, 90];
/** Above this a bare number of degrees can only be Fahrenheit: no wire is run through air that hot in Celsius. */
const SURELY_FAHRENHEIT = 65;
/** From here on degrees are the air's as likely as the terminations'; cooler air corrects nothing that matters. */
const WARMEST = 85;
const CONDUITS: Readonly<Record<string, string | undefined>> = {
  emt: "steel",
  steel: "steel",
  rmc: "steel",
  imc: "steel",
  pvc: "PVC",
  "pvc-40": "PVC",
  "pvc-80": "PVC",
  "aluminum-conduit": "aluminum",
  fmc: "steel",
  lfmc: "steel",
  lfnc: "PVC",
  ent: "PVC",
  conduit: undefined,
};
/** Conductors that are no equipment ground, electrode conductor or jumper. */
const LINES = ["wire", "ungrounded", "neutral"];
export const lines = (t: Taker): Fact[] =>
  t.all("conductor").filter(({ id }) => id === undefined || LINES.includes(id));

/** Metal, insulation or cable, raceway, terminals, ambient and the rest of `wiring`, where they were said. */
export function takeWiring(t: Taker): Draft {
  const draft: Draft = {};
  takeMetal(t, draft);
  for (const fact of lines(t)) takeInsulation(draft, t.term(fact, "insulation"));
  for (const id of t.terms("insulation")) takeInsulation(draft, id);
  for (const id of t.terms("method")) takeInsulation(draft, id);
  for (const id of t.terms("raceway")) {
    draft.method ??= "conductors in conduit";
    const conduit = CONDUITS[id];
    if (conduit) draft.conduit = conduit;
  }
  const height = overRoof(t);
  if (height) {
    t.use(height, "height above the roof");
    draft.aboveRoof = saidOf(height.sense);
  }
  // The size of a raceway that is there already changes nothing of what its wires carry.
  if (draft.method === "conductors in conduit") {
    for (const value of t.free("in")) {
      if (value !== height) t.aside(value, "the raceway's size");
    }
  }
  if (t.said("place:not-nm") && draft.method === undefined) {
    draft.method = "conductors in conduit";
    t.note("took conductors in conduit, NM cable being ruled out");
  }
  if (t.said("place:wet")) draft.wet = true;
  t.said("place:dry");
  if (t.said("place:not-rooftop")) t.said("place:rooftop");
  else if (t.said("place:rooftop")) draft.rooftop = true;
  if (t.said("place:insulation")) draft.inInsulation = true;
  takeDegrees(t, draft);
  takeTogether(t, draft);
  return draft;
}

/** `3 in above the roof`: an upright figure right before the roof. */
function overRoof(t: Taker): Value | undefined {
  const roofs = t.facts.free.filter(({ key }) => key === "place:rooftop").flatMap(({ value }) => value.pieces);
  const raceways = t.facts.free.filter(({ key }) => key.startsWith("raceway:")).flatMap(({ value }) => value.pieces);
  const isBefore = ({ pieces }: Value) =>
    roofs.some((roof) => pieces.some((at) => at < roof && roof - at <= ROOF_REACH)) &&
    // `in 1 emt on the roof`: what touches the raceway is its trade size.
    !raceways.some((raceway) => pieces.some((at) => raceway - at === 1));
  return t.facts.free.find(({ key, value }) => (key === "in" || key === "ft") && isBefore(value))?.value;
}
const ROOF_REACH = 3;

function takeMetal(t: Taker, draft: Draft): void {
  const said = [
    ...[...lines(t), ...t.all("device", "service")].map((fact) => t.term(fact, "metal")),
    ...t.terms("metal"),
  ]
    .filter((id) => id !== undefined);
  const metals = new Set(said);
  // Of two metals the first is worked out, and the answer names the other beside it; a choice between them takes neither.
  if (metals.size === 1 || !t.has("change:or")) draft.material = said[0];
  if (draft.material === undefined) delete draft.material;
}

function takeInsulation(draft: Draft, id: string | undefined): void {
  if (id === undefined) return;
  if ((INSULATIONS as readonly string[]).includes(id)) draft.insulation = id;
  else draft.method = id;
}

function takeDegrees(t: Taker, draft: Draft): void {
  const terminals = t.free("terminals");
  const rated = terminals.map(({ sense }) => (sense as { n: number }).n);
  if (rated.length > 0) draft.terminals = { value: Math.max(...rated), unit: "°C" };
  for (const value of t.free("ambient")) draft.ambient = degrees(t, value);
  for (const value of t.free("°")) {
    const { n } = value.sense as { n: number };
    if (n < WARMEST && RATED.includes(n) && draft.terminals === undefined && draft.ambient === undefined) {
      t.note(`took ${n} degrees as the rating of the terminations`);
      draft.terminals = { value: n, unit: "°C" };
    } else if (RATED.includes(n) && draft.terminals === undefined && draft.ambient === undefined) {
      t.ask({
        field: "terminals",
        ask: `What is ${n}°: the rating of the terminations, or the air around the conductors?`,
        example: `${n} °C terminals`,
      });
    } else draft.ambient ??= degrees(t, value);
  }
  const beside = lines(t).flatMap(({ slots }) => slots.temperature ?? []);
  for (const key of ["°F", "°C"]) {
    for (
      const value of [...beside.filter(({ sense }) => sense.is === "quantity" && sense.unit === key), ...t.free(key)]
    ) {
      t.use(value, key);
      const { n } = value.sense as { n: number };
      if (key === "°C" && RATED.includes(n) && draft.terminals === undefined) {
        t.note(`took ${n} °C as the rating of the terminations`);
        draft.terminals = { value: n, unit: "°C" };
      } else draft.ambient ??= { value: n, unit: key };
    }
  }
}
function degrees(t: Taker, { sense }: Value): Said | undefined {
  if (sense.is === "quantity" && sense.unit !== "°") return { value: sense.n, unit: sense.unit };
  if (sense.is !== "number" && sense.is !== "quantity") return undefined;
  const unit = sense.n >= SURELY_FAHRENHEIT ? "°F" : "°C";
  t.note(`took ${sense.n} degrees as ${unit}`);
  return { value: sense.n, unit };
}

/** Current-carrying conductors in one raceway: told as such, or as a number of wires that lie together. */
function takeTogether(t: Taker, draft: Draft): void {
  const bundle = t.said("place:bundle");
  const carrying = t.free("conductors-together");
  if (carrying.length > 0) draft.conductors = (carrying[0]!.sense as { n: number }).n;
  if (draft.conductors !== undefined || !(bundle || draft.method === "conductors in conduit")) return;
  for (const fact of lines(t)) {
    const count = fact.slots.count?.[0];
    if (!count || (fact.id !== undefined && fact.id !== "wire" && fact.id !== "ungrounded")) continue;
    t.head(fact);
    draft.conductors = carryingOf(t, fact);
  }
}

const CABLES = new Set(["cable", "cables"]);
/** The two wires of an ordinary cable that carry current. */
const IN_A_CABLE = 2;
/** How many conductors a count is of: wires one by one, cables by those in them. */
export function carryingOf(t: Taker, fact: Fact): number {
  const n = t.number(fact, "count")!;
  const size = fact.slots.size?.[0]?.sense;
  const wires = size?.is === "cable" ? size.wires : CABLES.has(fact.said.toLowerCase()) ? IN_A_CABLE : undefined;
  if (wires === undefined) return n;
  t.note(`counted ${n} cables of ${wires} conductors as ${n * wires}`);
  return n * wires;
}

/** `panel, continuous 60 A, the rest 30 A`: a panel of whose loads nothing but their hours is told is fed, and no circuit. */
export function isPanelOfLoads(t: Taker): boolean {
  const first = Math.min(...t.all("device", "panel").flatMap(({ pieces }) => pieces));
  const loads = t.all("load");
  return loads.some(({ slots }) => slots.hours && (slots.current ?? slots.rating)) && !t.has("end:from") &&
    t.all("circuit").length === 0 &&
    loads.every(({ id, slots }) =>
      (id === undefined || id === "load") &&
      [...slots.current ?? [], ...slots.rating ?? []].every(({ pieces }) => pieces.every((at) => at > first))
    );
}

/** `eight carrying in one pipe, is 12 good for 20`: a size, how many lie together, and no load: what it may carry is asked. */
export const isCrowdedWire = (t: Taker): boolean =>
  lines(t).some(({ slots }) => slots.size) &&
  !t.all("load").some(({ slots }) => slots.rating ?? slots.current ?? slots.draw) &&
  !t.wants("role:wire", "goal:size", "role:equipment-ground") &&
  (t.has("conductors-together") && t.wants("goal:check") && !t.wants("device:breaker", "device:fuse") ||
    // `14 hots of #12 in a trough, what breaker`
    t.wants("device:breaker") && t.all("conductor", "ungrounded").some(({ slots }) => isMany(slots.count?.[0])));
const MANY_HOTS = 4;
const isMany = (value: Value | undefined): boolean =>
  (value?.sense.is === "number" || value?.sense.is === "count") && value.sense.n >= MANY_HOTS;

/** `is #1 ok for a load of 200 A`: a wire against amperes of which nothing else is told: what it carries. */
export const isLoadedWire = (t: Taker): boolean =>
  t.wants("goal:check") && lines(t).some(({ slots }) => slots.size) && t.all("device").length === 0 &&
  t.all("circuit", "circuit", "multiwire").length === 0 && t.all("load").length === 1 &&
  t.all("load").every(({ id, slots }) =>
    (id === undefined || id === "load") && slots.current && !slots.hours && !slots.length
  ) &&
  !["V", "ft", "m", "length", "phase:three-phase", "phase:single-phase"].some((key) => t.has(key));
/** `feeder to a subpanel, copper ground`: told with its metal, and nothing asked of it, the ground is a part of the feeder. */
export const isToldGround = (t: Taker): boolean => {
  const grounds = t.all("conductor", "equipment-ground");
  return grounds.length > 0 && grounds.every(({ slots }) => slots.metal && !slots.size) &&
    t.all("device", "subpanel").length > 0 && t.all("circuit", "feeder").length > 0 &&
    !t.wants("goal:size");
};

/** Whether the drop of a run is asked for and nothing else of its circuit: a question on the run, whatever it feeds. */
export function isOfRunAlone(t: Taker): boolean {
  const asksCircuit = t.wants(
    "device:breaker",
    "device:fuse",
    "device:overload",
    "device:disconnect",
    "circuit:circuit",
    "role:equipment-ground",
  );
  const hasLength = ["ft", "m", "yd", "length"].some((key) => t.has(key)) ||
    [...lines(t), ...t.all("load")].some(({ slots }) => slots.length);
  // A gate stands at the end of a drive: its small load is sized by the drop.
  const isFarGate = hasLength && t.all("load", "gate-operator").length > 0;
  // A limit and a length, and of the motor at their end no power: the wire is sized by the drop.
  const isHeldRun = hasLength && (t.has("drop") || t.has("%")) &&
    !t.all("load").some(({ slots }) =>
      slots.rating?.some(({ sense }) => sense.is === "quantity" && sense.unit === "hp")
    );
  return !asksCircuit && (t.wants("goal:drop", "label:drop", "goal:longest-run") || isFarGate ||
    (isHeldRun && t.all("load", "pump", "motor", "well-pump", "fan").length > 0));
}
/** The same where a told size is held against a limit. */
export function isOfLimitAlone(t: Taker): boolean {
  const isHeld = t.has("drop") && lines(t).some(({ slots }) => slots.size);
  return isOfRunAlone(t) || (isHeld && !t.wants("device:breaker", "device:fuse", "device:overload", "circuit:circuit"));
}

/** One way, in feet or metres; inches and yards are turned into feet. */
export function takeLength(t: Taker): Said | undefined {
  const said = t.loose("length", "ft", "m", "yd") ??
    [...lines(t), ...t.all("load")].map((fact) => t.figure(fact, "length")).find(Boolean);
  if (said === undefined) return undefined;
  if (said.unit === "yd") {
    t.note(`took ${said.value} yards as ${Number(said.value) * 3} ft`);
    return { value: Number(said.value) * 3, unit: "ft" };
  }
  return said;
}

/** Percentages above are shares of a current, efficiencies or duties. */
const LARGEST_LIMIT = 20;
/** The limit of a voltage drop, in percent, or in volts where the kind takes them. */
export function takeDropLimit(t: Taker, ...units: ("%" | "V")[]): Said | undefined {
  const share = t.facts.free.find(({ key, value: { sense } }) =>
    key === "%" && sense.is === "quantity" && sense.n <= LARGEST_LIMIT
  );
  const value = t.free("drop")[0] ?? share?.value;
  if (!value) return undefined;
  t.use(value, "limit of the drop");
  if (value.sense.is === "number") return { value: value.sense.n, unit: "%" };
  const said = { value: (value.sense as { n: number }).n, unit: (value.sense as { unit: string }).unit };
  return (units as string[]).includes(said.unit) ? said : undefined;
}

/** Power factor: 0.05 to 1. */
export function takePowerFactor(t: Taker): number | undefined {
  for (const load of t.all("load")) {
    const value = t.slot(load, "power-factor");
    if (value?.sense.is === "number") return value.sense.n;
    if (value?.sense.is === "quantity") return value.sense.n / 100;
  }
  return t.said("circuit:resistive") ? 1 : undefined;
}

/** Between two lines of a three-phase wye with 120 V to its neutral. */
const NETWORK = 208;

/** Voltage, phases and whether a wye stands behind them, from the loads or from the text as a whole. */
type Supply = { volts?: Said; phases?: 1 | 3; wye?: boolean; low?: number; high?: number; dc?: boolean };
export function takeSupply(t: Taker): Supply {
  const supply: Supply = {};
  const values = [
    ...t.all("load").flatMap((load) => load.slots.volts ?? []),
    ...t.facts.free.filter(({ key }) => ["V", "kV", "volts", "system"].includes(key)).map(({ value }) => value),
  ];
  for (const load of t.all("load")) if (load.slots.volts) t.slot(load, "volts");
  for (const key of ["V", "kV", "volts", "system"]) t.free(key);
  for (const { sense } of values) {
    if (sense.is === "quantity" || sense.is === "number") {
      const isKilo = sense.is === "quantity" && sense.unit === "kV";
      supply.volts ??= { value: isKilo ? Number((sense.n * 1000).toFixed(6)) : sense.n, unit: "V" };
    }
    if (sense.is === "system") {
      supply.low = sense.low;
      supply.high = sense.high;
      supply.wye = sense.wye;
      supply.volts ??= { value: sense.high, unit: "V" };
    }
  }
  if (supply.volts === undefined) supply.volts = takeSupplyVolts(t);
  const own = t.all("load").map((load) => t.term(load, "phase")).filter((id) => id !== undefined);
  const ofSupply = t.terms("phase");
  // `a single-phase heater on a three-phase panel`: the load's own decide, and it stands on two lines of the panel's.
  if (own.includes("single-phase") && !own.includes("three-phase") && ofSupply.includes("three-phase")) {
    supply.wye ??= supply.volts?.value === NETWORK;
  }
  for (const id of own.length > 0 ? own : ofSupply) {
    if (id === "three-phase") supply.phases = 3;
    else if (id === "single-phase") supply.phases = 1;
    else if (id === "direct current") supply.dc = true;
  }
  // Three poles, four wires of a wye, a delta: three phases where none are told.
  const poles = t.all("device").flatMap(({ slots }) => slots.poles ?? []).map(({ sense }) => sense);
  const isThree = poles.some((sense) => sense.is === "poles" && sense.n === 3) ||
    (t.has("connection:four-wire") && supply.wye === true) || t.has("connection:delta");
  if (isThree && supply.phases === undefined && !supply.dc) supply.phases = 3;
  return supply;
}

/** `3 ph 4 w 208`: a usual voltage without its unit, where no other is told. */
export function takeSupplyVolts(t: Taker): Said | undefined {
  const [value, ...others] = t.facts.free.filter(({ key }) => key === "supply-volts").map(({ value }) => value);
  if (value?.sense.is !== "number") return undefined;
  const { n } = value.sense;
  if (others.some(({ sense }) => sense.is !== "number" || sense.n !== n)) return undefined;
  for (const each of [value, ...others]) t.use(each, "volts");
  t.note(`took ${n} as ${n} V`);
  return { value: n, unit: "V" };
}

/** `5000 A at the main, 75 ft of #6 to the sub`: a gauge number, and no sets of it, carries no thousand amperes. */
export function isOnThinWire(t: Taker): boolean {
  const sizes = t.all("conductor").flatMap(({ slots }) => slots.size ?? []).map(({ sense }) => sense);
  return sizes.length > 0 && t.all("circuit", "set").length === 0 &&
    sizes.every((sense) => sense.is === "size" && (sense.size.includes("/") || Number(sense.size) <= LARGEST_GAUGE));
}
/** Above 4/0 conductors go by their area, from 250 kcmil on. */
const LARGEST_GAUGE = 18;

/** Parallel sets, told by their number; `parallel` alone is two where sizes were told or nothing else can be meant. */
export function takeSets(t: Taker, draft: Draft, isTwo: boolean): void {
  const [apart] = t.free("raceways");
  const raceways = apart?.sense.is === "raceways" ? apart.sense.n : undefined;
  for (const set of t.all("circuit", "set")) {
    const isParallel = set.others?.includes("circuit:parallel") ?? false;
    const count = t.number(set, "count");
    // `two parallel runs …, one run per conduit`: one of them, and not one in all.
    if (count === 1 && draft.sets !== undefined) {
      t.head(set);
      continue;
    }
    if (count !== undefined) draft.sets = count;
    if (count !== undefined || isParallel) t.head(set);
    if (isParallel && raceways !== undefined) draft.sets ??= raceways;
  }
  // `500 kcmil, two per phase`: so many conductors of each phase are so many sets.
  for (const fact of t.all("conductor", "ungrounded").filter(({ others }) => others?.includes("circuit:each-phase"))) {
    if (fact.slots.size) continue;
    const count = t.number(fact, "count");
    if (count !== undefined) t.head(fact);
    if (count !== undefined && count > 1) draft.sets ??= count;
  }
  // `two pipes, each pipe 3/0`: as many sets as there are raceways with the same wires.
  if (raceways !== undefined && isTwo && draft.sets === undefined && t.has("circuit:each-raceway")) {
    draft.sets = raceways;
    t.note(`took the ${raceways} raceways as ${raceways} sets`);
  }
  for (const fact of lines(t)) {
    // `4 x 500 kcmil` and `two 500 kcmil per phase` are sets; `3 #2` are the wires of one.
    const isOfSets = fact.slots.count?.[0]?.sense.is === "count" ||
      (fact.slots.count !== undefined && (fact.others?.includes("circuit:each-phase") ?? false));
    if (fact.slots.size && isOfSets && draft.sets === undefined) {
      draft.sets = t.number(fact, "count");
    }
  }
  const isParallel = t.all("circuit", "set").some(({ others }) => others?.includes("circuit:parallel"));
  if (isParallel && isTwo && draft.sets === undefined) {
    draft.sets = 2;
    t.note("took parallel as two sets");
  }
}

/** `200 A service, #6 to the rods`: a wire that carries no service is the one to its electrode. */
export const isToElectrode = (t: Taker): boolean => {
  const sizes = lines(t).flatMap(({ slots }) => slots.size ?? []).map(({ sense }) => sense);
  return sizes.length >= 1 && sizes.length <= 2 && t.facts.free.some(({ key }) => key.startsWith("electrode:")) &&
    sizes.some((sense) => sense.is === "size" && Number(sense.size) >= SMALLER_THAN_SERVICE) &&
    t.all("device", "service", "main").some(({ slots }) => slots.rating);
};
/** Conductors of a service are larger: 60 A is the least that one is rated for, 100 A of a dwelling (common practice, no source). */
const SMALLER_THAN_SERVICE = 6;

/** The electrode whose conductor is asked for: of several the one that takes the full size. Asks where two are equals. */
export function takeElectrode(t: Taker): string | undefined {
  const said = [...new Set(t.terms("electrode"))].filter((id) => (ELECTRODES as readonly string[]).includes(id));
  // What the table alone decides is the largest of all.
  const full = said.some((id) => isByTable(id as Electrode))
    ? said.filter((id) => isByTable(id as Electrode)).slice(0, 1)
    : said.length > 1
    ? said.filter((id) => id !== "rod")
    : said;
  if (full.length > 1) {
    t.ask({ field: "electrode", ask: `Which electrode: ${full.join(" or ")}?`, example: `${full[0]} electrode` });
  }
  return full[0];
}

/** Whether a run ends in the same building or in another one; asked about where both were said. */
export function takeWhere(t: Taker): "same building" | "separate structure" | undefined {
  const spaces = t.all("space");
  const isOf = (place: string) => spaces.filter(({ others, id }) => others?.includes(`place:${place}`) || id === place);
  const isDetached = ({ slots: { finish } }: Fact) =>
    finish?.some(({ sense }) => sense.is === "term" && sense.id === "detached") ?? false;
  const [same, apart] = [isOf("same-building"), [...isOf("separate-structure"), ...spaces.filter(isDetached)]];
  // `a detached 24x30 garage`
  for (const { slots } of apart) {
    for (const value of [...slots.finish ?? [], ...slots.area ?? []]) {
      t.aside(value, "how large the building is makes no difference to what feeds it");
    }
  }
  for (const fact of [...same, ...apart]) t.head(fact);
  const isSame = t.said("place:same-building") || same.length > 0;
  const isApart = t.said("place:separate-structure") || apart.length > 0;
  // `a shed, fed from a 60 in the house`: the house is where it starts.
  const isFromHouse = t.has("place:in-house");
  if (isSame && isApart && apart.length === 0 && !isFromHouse) {
    t.ask({
      field: "where",
      ask: "Does it end in the same building as it starts from, or in another one?",
      example: "separate structure",
    });
  }
  if (isApart) return "separate structure";
  if (isSame) return "same building";
  if (!t.said("place:garage")) return undefined;
  t.note("took the garage as a building of its own");
  return "separate structure";
}
