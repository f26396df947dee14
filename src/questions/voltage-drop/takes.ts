/** What a voltage drop takes of the facts: the circuit, its load, the run, the limit, and which turn of the question is asked. */
import type { Draft, Fact, Said, Value } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { lines, takePowerFactor, takeWiring } from "../run-takes.ts";
import { SYSTEMS } from "./request.ts";

const LENGTHS = ["ft", "m", "yd"];
const POWERS = ["W", "kW", "VA", "kVA", "MVA", "hp"];
/** A voltage up to this share of the supply is the drop allowed and no second supply. */
const LARGEST_LIMIT = 0.1;
/** Percentages above are shares of a current, and no limit. */
const LARGEST_SHARE = 20;
/** Voltages from a line to the neutral of three phases. */
const TO_NEUTRAL = [120, 277, 347];
const USES: Readonly<Record<string, string>> = {
  lighting: "lights",
  receptacles: "receptacles",
  "gate-operator": "gate operator",
  motor: "motor",
  pump: "motor",
  "well-pump": "motor",
  "sump-pump": "motor",
  "pool-pump": "motor",
  compressor: "motor",
  "air-compressor": "motor",
  fan: "motor",
  machine: "motor",
};
const DIRECT = ["battery", "solar"];
const SUPPLIERS = ["panel", "subpanel", "service", "main", "disconnect"];
/** Where a run goes and what it passes: the drop does not depend on it. */
const WHERE = ["separate-structure", "same-building", "garage"];

export function takes(t: Taker): Draft | undefined {
  const isOther = t.has("ft2") || t.has("m2") || t.all("space").length > 0 ||
    t.all("transformer", "transformer", "autotransformer").length > 0 ||
    isMotorCircuit(t) || t.wants("goal:ampacity", "goal:fault-current", "goal:raceway-size") ||
    t.all("load").some(({ slots }) => slots["minimum-circuit-ampacity"] || slots["rated-load-current"]);
  // A motor's own circuit has a limit of its drop, and is sized by more than that.
  const isOfMotor = t.has("drop") && !t.wants("goal:drop", "label:drop", "goal:longest-run") &&
    t.all("load").some(({ slots }) => figureOf(slots.rating?.[0])?.unit === "hp") &&
    !lines(t).some(({ slots }) => slots.size);
  const draft: Draft = {};
  const hasLength = lengthsOf(t).length > 0 || t.has("spacing");
  if (isOther || isOfMotor || isFeeder(t) || !(isDrop(t) || (hasLength && isBesideOthers(t)))) return undefined;
  takeDevices(t, draft);
  takeVolts(t, draft);
  takeLoads(t, draft);
  takeRun(t, draft);
  takeCircuit(t, draft);
  takeConductor(t, draft);
  takeLimit(t, draft);
  takeFind(t, draft);
  return draft;
}

/** Motors told by their power, with no more than a limit of the drop: their circuit is asked for. */
const isMotorCircuit = (t: Taker): boolean =>
  !t.wants("goal:drop", "label:drop", "goal:longest-run") && lines(t).every(({ slots }) => !slots.size) &&
  t.all("load").some(({ slots }) => {
    const sense = slots.rating?.[0]?.sense;
    return sense?.is === "quantity" && sense.unit === "hp";
  });
/** A panel to be fed, with at most a limit of the drop on the way: its conductors are a feeder's. */
const isFeeder = (t: Taker): boolean =>
  !t.wants("goal:drop", "label:drop", "goal:longest-run") &&
  (t.all("device", "subpanel").length > 0 || t.all("device", "panel").some(({ slots }) => slots.rating));
/** Whether the drop itself, its limit or the longest run is spoken of. */
const isDrop = (t: Taker): boolean =>
  t.wants("goal:drop", "label:drop", "goal:longest-run") || ["drop", "constant", "impedance"].some((key) =>
    t.has(key)
  ) ||
  t.facts.free.some(({ key, value: { sense } }) => key === "%" && sense.is === "quantity" && sense.n <= LARGEST_SHARE);
/** Runs whose load has no circuit of its own kind here: spaced loads, direct current, things that start, a drive's gate. */
const isBesideOthers = (t: Taker): boolean =>
  t.has("spacing") || t.has("phase:direct current") || t.all("transformer", ...DIRECT).length > 0 ||
  t.all("load").some(({ id, slots }) =>
    (slots["locked-rotor-current"] && figureOf(slots["locked-rotor-current"][0])?.unit !== undefined) ||
    (slots.phase?.some(({ sense }) => sense.is === "term" && sense.id === "direct current")) ||
    ((id ?? "") in USES && id !== "lighting" && id !== "receptacles" && (slots.draw || slots.current))
  );

const figureOf = (value: Value | undefined): Said | undefined =>
  value?.sense.is === "quantity"
    ? { value: value.sense.exact ?? value.sense.n, unit: value.sense.unit }
    : value?.sense.is === "number"
    ? { value: value.sense.exact ?? value.sense.n, unit: "A" }
    : undefined;
const spoken = ({ value, unit }: Said): string => `${value} ${unit}`;
const distinct = (list: readonly Said[]): Said[] => [...new Map(list.map((each) => [spoken(each), each])).values()];

/** The overcurrent device; a panel's rating stands for the load only where nothing else does. */
function takeDevices(t: Taker, draft: Draft): void {
  const facts = [...t.all("device"), ...t.all("circuit", "circuit", "feeder", "multiwire")];
  for (const fact of facts) {
    const value = fact.slots.rating?.[0];
    if (!value) {
      if (SUPPLIERS.includes(fact.id ?? "") || fact.family === "circuit") t.head(fact);
      continue;
    }
    t.head(fact);
    t.slot(fact, "poles");
    if (SUPPLIERS.includes(fact.id ?? "")) continue;
    // Ratings of devices are round figures: a circuit of 12 A is spoken of by its load.
    if (fact.family === "circuit" && Number(figureOf(value)?.value) % 5 !== 0) draft.load ??= figureOf(value);
    t.use(value, "rating");
    if (draft.load) continue;
    draft.breaker ??= figureOf(value);
  }
}
function takePanel(t: Taker, draft: Draft): void {
  for (const fact of t.all("device", ...SUPPLIERS)) {
    const value = fact.slots.rating?.[0];
    if (!value) continue;
    if (draft.load || draft.points || draft.breaker || draft.count) t.aside(value, "a panel's rating is not the load");
    else draft.breaker = figureOf(t.slot(fact, "rating"));
  }
}

/** The supply, and a second voltage far below it, which is the drop allowed. */
function takeVolts(t: Taker, draft: Draft): void {
  const values = [
    ...t.all("load").flatMap(({ slots }) => slots.volts ?? []),
    ...t.facts.free.filter(({ key }) => ["V", "kV", "volts", "system", "drop"].includes(key)).map(({ value }) => value),
  ];
  const told: Said[] = [];
  for (const value of values) {
    const { sense } = value;
    if (sense.is === "system") takeSystem(t, draft, sense);
    else if (sense.is === "quantity" && sense.unit === "V") told.push({ value: sense.n, unit: "V" });
    else if (sense.is === "number" && !t.facts.free.some((free) => free.value === value && free.key === "drop")) {
      told.push({ value: sense.n, unit: "V" });
    } else continue;
    t.use(value, "volts");
  }
  const volts = distinct(told).sort((a, b) => Number(b.value) - Number(a.value));
  const [supply, second, ...more] = volts;
  const highest = supply ?? (draft.system ? { value: NaN, unit: "V" } : undefined);
  if (!highest) return;
  if (supply && second && Number(second.value) <= Number(supply.value) * LARGEST_LIMIT && more.length === 0) {
    draft.limit = second;
  } else if (supply && second) {
    t.ask({
      field: "volts",
      ask: `Which voltage is the load on: ${volts.map(spoken).join(" or ")}?`,
      example: spoken(supply),
    });
  }
  if (supply && draft.system && Number(supply.value) < 30) draft.limit = supply;
  else if (supply) {
    draft.volts = supply;
    delete draft.system;
  }
}
function takeSystem(t: Taker, draft: Draft, { low, high }: { low: number; high: number }): void {
  const known = SYSTEMS.find((each) => each === `${low}/${high}` || each === `${high}Y/${low}`);
  if (known) draft.system = known;
  else {
    t.ask({ field: "volts", ask: `Which of ${low} and ${high} V is it connected to?`, example: `${low} V` });
  }
}

/** One load, equal ones, loads at distances of their own. */
function takeLoads(t: Taker, draft: Draft): void {
  const facts = t.all("load");
  const drawn: Said[] = [];
  const loads: Said[] = [];
  const points: { at: Said; load: Said }[] = [];
  for (const fact of facts) {
    t.head(fact);
    takeUse(draft, fact);
    t.term(fact, "fuel");
    t.term(fact, "hours");
    const start = t.slot(fact, "locked-rotor-current");
    if (start) draft.starting = figureOf(start);
    const draw = figureOf(t.slot(fact, "draw"));
    if (draw) drawn.push(draw);
    const own = ["current", "full-load-current", "nameplate", "rating"].flatMap((slot) => {
      const value = t.slot(fact, slot);
      return value ? [figureOf(value)!] : [];
    });
    const at = fact.slots.length?.[0];
    if (at && own[0] && facts.filter(({ slots }) => slots.length).length > 1) {
      points.push({ at: feet(t, t.slot(fact, "length")!), load: own[0] });
    } else loads.push(...own.slice(0, 1));
    if (own.length > 1 && own[0]!.unit === "A") t.note(`took ${spoken(own[0]!)} as the load, not ${spoken(own[1]!)}`);
    takeCount(t, fact, draft, own[0] ?? draw);
  }
  if (points.length > 0) draft.points = points;
  if (draft.load) loads.push(draft.load as Said);
  const [load, ...others] = distinct(drawn.length > 0 ? drawn : loads);
  if (load) draft.load = load;
  if (drawn.length > 0 && loads.length > 0) {
    t.note(`took ${spoken(load!)} as the load, not ${distinct(loads).map(spoken).join(" or ")}`);
  }
  if (others.length > 0 || (load && points.length > 0)) {
    t.ask({
      field: "load",
      ask: `Several loads are named (${[load!, ...others].map(spoken).join(", ")}). Where along the run is each?`,
      example: `${spoken(load!)} at 100 ft, ${spoken(others[0] ?? load!)} at 200 ft`,
    });
  }
  takePanel(t, draft);
}
function takeUse(draft: Draft, { id, others }: Fact): void {
  const use = USES[others?.find((other) => other.startsWith("for:"))?.slice(4) ?? id ?? ""];
  if (use !== undefined && (draft.use === undefined || use !== "lights")) draft.use = use;
}
function takeCount(t: Taker, fact: Fact, draft: Draft, load: Said | undefined): void {
  const count = t.number(fact, "count");
  const share = t.term(fact, "share");
  if (count === undefined || count < 2) return;
  if (share === "total") return;
  draft.count = count;
  if (load && share !== "each") {
    t.ask({
      field: "load",
      ask: `Is ${spoken(load)} the load of each, or of all ${count} together?`,
      example: `${spoken(load)} each`,
    });
  }
}

/** One way: a single length, stretches of their own sizes, or loads spaced along it. */
function takeRun(t: Taker, draft: Draft): void {
  const [spacing] = t.free("spacing");
  const [first] = t.free("first-distance");
  if (spacing) draft.along = { ...(first && { first: feet(t, first) }), spacing: feet(t, spacing) };
  const stretches = lines(t).filter(({ slots }) => slots.length);
  if (stretches.length > 1 || (stretches.length === 1 && first && !spacing)) return takeStretches(t, draft, stretches);
  const values = [...lengthsOf(t), ...(first && !spacing ? [first] : [])].filter((value) =>
    !(draft.points && t.all("load").some(({ slots }) => slots.length?.includes(value)))
  );
  const isThereAndBack = t.said("circuit:round-trip");
  const isOneAfterAnother = t.said("circuit:segment") || t.said("change:add");
  for (const value of values) t.use(value, "length");
  const lengths = distinct(values.map((value) => feet(t, value)));
  if (lengths.length === 0) return;
  const length = oneLength(t, lengths, isOneAfterAnother);
  if (isThereAndBack) {
    t.note(`took ${spoken(length)} there and back as ${Number(length.value) / 2} ${length.unit} one way`);
    draft.length = { value: Number(length.value) / 2, unit: length.unit };
  } else draft.length = length;
}
function takeStretches(t: Taker, draft: Draft, stretches: readonly Fact[]): void {
  const metals = new Set(stretches.map(({ slots }) => termOf(slots.metal?.[0])).filter((id) => id !== undefined));
  t.said("circuit:segment");
  draft.segments = stretches.map((fact) => {
    t.head(fact);
    const metal = t.term(fact, "metal");
    const size = sizeOf(t.slot(fact, "size"));
    return {
      length: feet(t, t.slot(fact, "length")!),
      ...(size !== undefined && { size }),
      ...(metal !== undefined && metals.size > 1 && { material: metal }),
    };
  });
}
const termOf = (value: Value | undefined): string | undefined =>
  value?.sense.is === "term" ? value.sense.id : undefined;
/** Lengths wherever they stand, untaken. */
const lengthsOf = (t: Taker): Value[] =>
  [
    ...t.facts.free.filter(({ key }) => key === "length" || LENGTHS.includes(key)).map(({ value }) => value),
    ...[...lines(t), ...t.all("load")].flatMap(({ slots }) => slots.length ?? []),
  ].filter(({ sense }) => sense.is === "quantity" || sense.is === "number");
function feet(t: Taker, value: Value): Said {
  t.use(value, "length");
  const { n, unit } = value.sense.is === "quantity" ? value.sense : { n: (value.sense as { n: number }).n, unit: "ft" };
  if (unit !== "yd") return { value: n, unit };
  t.note(`took ${n} yards as ${n * 3} ft`);
  return { value: n * 3, unit: "ft" };
}
/** A length that is the sum of the others is the whole run. */
function oneLength(t: Taker, lengths: readonly Said[], isOneAfterAnother: boolean): Said {
  if (lengths.length === 1) return lengths[0]!;
  const values = lengths.map(({ value }) => Number(value));
  const [sum, most, unit] = [values.reduce((a, b) => a + b), Math.max(...values), lengths[0]!.unit];
  const same = lengths.every((each) => each.unit === unit);
  if (same && Math.abs(sum - 2 * most) < 1e-9) {
    t.note(`took ${most} ${unit} as the whole run, the other lengths as its parts`);
    return { value: most, unit };
  }
  if (same && isOneAfterAnother) t.note(`took ${values.join(" and ")} ${unit} as one run of ${sum} ${unit}`);
  else {
    t.ask({
      field: "length",
      ask: `Several lengths are named (${lengths.map(spoken).join(", ")}). How long is the whole run, one way?`,
      example: `${same ? sum : most} ${unit} one way`,
    });
  }
  return { value: sum, unit };
}

function takeCircuit(t: Taker, draft: Draft): void {
  for (const fact of t.all("transformer", ...DIRECT)) {
    t.head(fact);
    draft.circuit = "direct current";
  }
  for (const fact of t.all("transformer", "inverter", "generator")) t.head(fact);
  const phases = [...t.all("load").map((load) => t.term(load, "phase")), ...t.terms("phase")];
  if (phases.includes("direct current")) draft.circuit = "direct current";
  else if (phases.includes("three-phase")) draft.circuit = "three-phase";
  else if (phases.includes("single-phase")) draft.circuit ??= "single-phase";
  const toNeutral = t.said("circuit:line-to-neutral") && draft.circuit === "three-phase" &&
    TO_NEUTRAL.includes(Number((draft.volts as Said | undefined)?.value));
  t.said("circuit:line-to-line");
  if (t.said("circuit:balanced-neutral") && draft.circuit !== "three-phase" || toNeutral) {
    draft.circuit = "balanced neutral";
  }
  if (t.said("circuit:direct-current-table")) draft.table = "direct current";
  else if (t.said("circuit:alternating-current-table")) draft.table = "alternating current";
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
}

const sizeOf = (value: Value | undefined): string | undefined => {
  const sense = value?.sense;
  return sense?.is === "size" || sense?.is === "cable"
    ? sense.size
    : sense?.is === "sizes"
    ? sense.sizes[0]
    : undefined;
};
function takeConductor(t: Taker, draft: Draft): void {
  const sizes: Value[] = [];
  for (const fact of lines(t)) {
    if (fact.slots.size) t.head(fact);
    if (!draft.segments && fact.slots.size) sizes.push(fact.slots.size[0]!);
    const count = fact.slots.count?.[0];
    if (count) t.aside(count, "the circuit's own wires");
    takeConductorTemperature(t, fact, draft);
  }
  for (const fact of t.all("conductor", "equipment-ground")) {
    t.aside(fact, "it carries no load current");
    for (const value of Object.values(fact.slots).flat()) t.aside(value, "it carries no load current");
  }
  const named = new Set(sizes.map(sizeOf));
  for (const value of sizes) {
    if (named.size === 1) draft.size = sizeOf(value)!;
    if (named.size === 1) t.use(value, "size");
    else t.aside(value, "the size that is needed is looked for");
  }
  for (const value of t.free("mm2")) {
    t.ask({
      field: "size",
      ask: `Which size in AWG or kcmil is the ${value.said} conductor?`,
      example: "10 AWG copper",
    });
  }
  if (named.size > 1) {
    draft.find = "conductor";
    t.note(`looked for the size needed, of ${[...named].join(" and ")}`);
    t.said("change:or");
  }
  for (const fact of t.all("circuit", "set")) {
    const count = t.number(fact, "count");
    t.head(fact);
    if (count !== undefined && count > 1) draft.sets = count;
  }
  for (const value of t.free("impedance")) draft.impedance = { value: figureOf(value)!.value, unit: "ohm/kft" };
  for (const value of t.free("ohm/kft")) draft.impedance = figureOf(value);
  for (const { sense } of t.free("constant")) {
    draft.constant = { value: (sense as { n: number }).n, unit: "ohm-cmil/ft" };
  }
  for (const { sense } of t.free("conductor-temperature")) {
    draft.temperature = sense.is === "quantity"
      ? { value: sense.n, unit: sense.unit }
      : { value: (sense as { n: number }).n, unit: "°C" };
  }
  Object.assign(draft, takeWiring(t));
  for (const id of WHERE) {
    for (const value of t.free(`place:${id}`)) t.aside(value, "the drop does not depend on the place");
  }
}
/** `wire at 60 °C` is the wire's own temperature here, and taken before the surroundings can be. */
function takeConductorTemperature(t: Taker, fact: Fact, draft: Draft): void {
  const value = t.slot(fact, "temperature");
  if (value?.sense.is === "quantity") draft.temperature = { value: value.sense.n, unit: value.sense.unit };
}

function takeLimit(t: Taker, draft: Draft): void {
  const percents = [...t.free("%"), ...t.facts.free.filter(({ key }) => key === "drop").map(({ value }) => value)];
  for (const value of percents) {
    const { sense } = value;
    if (sense.is === "quantity" && sense.unit !== "%") continue;
    t.use(value, "limit");
    draft.limit ??= { value: (sense as { n: number }).n, unit: "%" };
  }
}

/** A size or a length that is told already turns the wish for it into a check of it. */
function takeFind(t: Taker, draft: Draft): void {
  const hasRun = draft.length ?? draft.segments ?? draft.along ?? draft.points;
  const isChecked = t.asks("goal:check");
  const wantsFar = t.asks("goal:longest-run");
  const wantsSize = t.asks("goal:size");
  const namesWire = t.asks("role:wire");
  const wantsDrop = t.asks("goal:drop", "label:drop");
  const isPlan = draft.size !== undefined || draft.segments !== undefined;
  if (wantsFar && hasRun === undefined) draft.find = "longest run";
  else if (isPlan && (isChecked || wantsSize || (wantsFar && hasRun))) draft.check = true;
  else if ((wantsSize || namesWire) && !isPlan && !draft.impedance) draft.find = "conductor";
  else if (wantsDrop && (draft.size === undefined || hasRun === undefined) && !draft.segments) draft.find ??= "drop";
}
