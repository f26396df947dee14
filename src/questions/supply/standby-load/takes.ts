/** What a generator's load takes of the facts: the generator, how it takes over, and what it has to carry. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { takeAreas } from "../../parts/area-takes.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { ratingOf } from "../../parts/device-takes.ts";
import { takeCircuits, takeHeatPump, takeListed, takeParts } from "../../parts/dwelling-takes.ts";
import { takeLoads } from "../../parts/load-takes.ts";

const POWERS = ["W", "kW", "VA", "kVA", "A"] as const;
const SECTIONS = ["445.13", "702.4"];

export function takes(t: Taker): Draft | undefined {
  if (!isAsked(t)) return undefined;
  const draft: Draft = {};
  takeGenerator(t, draft);
  takeTransfer(t, draft);
  takeSupply(t, draft);
  takeDevices(t, draft);
  takeLoad(t, draft);
  const metals = [...t.terms("metal"), ...t.all("conductor").map((fact) => t.term(fact, "metal"))]
    .filter((id) => id === "copper" || id === "aluminum");
  if (new Set(metals).size === 1) draft.material = metals[0];
  const [rated] = t.free("terminals");
  if (rated && "n" in rated.sense) draft.terminals = { value: rated.sense.n, unit: "°C" };
  if (asksWire(t) && !draft.load && !draft.loads && !draft.areas) draft.find = "conductors";
  if (t.wants("goal:check") && draft.generator && !draft.load && !draft.loads && !draft.areas) {
    t.ask({
      field: "load",
      ask:
        "Enough for what: the whole dwelling (floor area and appliances), the loads that run together, or a calculated load?",
      example: "2400 sq ft, 12 kW range, 5 kW dryer; or: calculated load 90 A",
    });
  }
  for (const fact of t.all("conductor")) if (!fact.slots.size) t.head(fact);
  for (const set of t.all("circuit", "set", "feeder")) if (Object.keys(set.slots).length === 0) t.head(set);
  for (const key of ["ft", "m", "length"]) {
    for (const value of t.free(key)) {
      t.aside(value, "its conductors go by their ampacity; ask their drop as a question of its own");
    }
  }
  t.said("requiredSystem:optional");
  t.said("circuit:whole-dwelling", "building:dwelling", "building:existing", "end:feeds", "motorWord:at-once");
  for (const fact of t.all("load", "load", "connected")) if (Object.keys(fact.slots).length === 0) t.head(fact);
  t.asks(
    "goal:size",
    "goal:check",
    "goal:ampacity",
    "goal:load",
    "goal:kW",
    "goal:kVA",
    "goal:current",
    "goal:feed-wires",
    "goal:fit",
    "label:calculated-load",
    "label:draw",
    "role:wire",
    "source:generator",
  );
  return draft;
}

const asksWire = (t: Taker): boolean => t.wants("role:wire", "role:ungrounded");
const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;

/** A generator, or a transfer switch with what it takes over, and no run, fault or bond of it. */
function isAsked(t: Taker): boolean {
  const generators = t.all("transformer", "generator");
  const bySection = t.facts.free.some(({ value: { sense } }) =>
    sense.is === "section" && SECTIONS.some((section) => sense.section.startsWith(section))
  );
  if (generators.length === 0 && !bySection) return false;
  if (asksBackfeed(t) || t.all("transformer", "transformer").length > 0) return false;
  const isOther = t.wants("goal:drop", "label:drop", "goal:longest-run", "goal:bond", "role:equipment-ground") ||
    t.wants("role:grounding-electrode-conductor", "role:main-bonding-jumper", "label:available-fault-current") ||
    t.all("conductor").some(({ slots }) => slots.size) ||
    t.facts.free.some(({ key }) => ["fault:", "bar:", "meter:"].some((sort) => key.startsWith(sort)));
  if (isOther) return false;
  // `4000 W generator at 120, how many amps`: what it delivers, and nothing that it has to carry.
  const isConverted = t.wants("goal:current") && ["V", "volts"].some(t.has) && t.all("load").length === 0 &&
    t.all("device").length === 0 && !t.wants("goal:check", "goal:size", "role:wire");
  if (isConverted) return false;
  const hasTransfer = t.has("panelKind:transfer-switch") || t.facts.free.some(({ key }) => key.startsWith("transfer:"));
  return bySection || generators.some(isRated) || hasTransfer || t.all("load").some(isRated) || asksWire(t) ||
    t.wants("goal:size", "source:generator");
}

function takeGenerator(t: Taker, draft: Draft): void {
  for (const generator of t.all("transformer", "generator")) {
    t.head(generator);
    t.slot(generator, "end");
    draft.generator ??= t.figure(generator, "rating", ...POWERS) ?? t.figure(generator, "current", "A");
  }
  // `80 A nameplate`, `is 20 kW enough`: of the generator, where it is told by nothing else.
  const plate = t.all("load").find(({ id, slots }) =>
    id === undefined && (slots.nameplate ?? (t.wants("goal:check") ? slots.rating : undefined))
  );
  if (plate && draft.generator === undefined) {
    t.head(plate);
    draft.generator = t.figure(plate, "nameplate", "A") ?? t.figure(plate, "rating", ...POWERS);
  }
  const [factor] = t.free("power-factor");
  const sense = factor?.sense;
  if (sense && "n" in sense) {
    draft.powerFactor = sense.is === "quantity" && sense.unit === "%" ? sense.n / 100 : sense.n;
  }
}

function takeTransfer(t: Taker, draft: Draft): void {
  const said = t.terms("transfer");
  const isByHand = t.said("motorWord:interlocked") || said.includes("manual");
  if (said.includes("automatic")) draft.transfer = "automatic";
  else if (isByHand) draft.transfer = "manual";
  if (said.includes("managed")) draft.managed = true;
  t.terms("panelKind");
  const setting = t.loose("power-control");
  if (setting) draft.setting = setting;
}

function takeSupply(t: Taker, draft: Draft): void {
  const volts: number[] = [];
  for (const key of ["V", "volts", "system", "supply-volts"]) {
    for (const { sense } of t.free(key)) {
      if (sense.is === "system") volts.push(sense.high);
      else if ("n" in sense) volts.push(sense.n as number);
    }
  }
  const [one] = volts;
  if (one !== undefined) draft.volts = { value: one, unit: "V" };
  const [phase] = t.terms("phase").filter((id) => id === "three-phase" || id === "single-phase");
  if (phase) draft.supply = phase;
}

function takeDevices(t: Taker, draft: Draft): void {
  for (const inlet of t.all("device", "inlet")) {
    t.head(inlet);
    draft.inlet ??= ratingOf(t, inlet);
  }
  for (const breaker of t.all("device", "breaker")) {
    const rating = ratingOf(t, breaker);
    if (!rating) continue;
    t.head(breaker);
    t.slot(breaker, "poles");
    draft.breaker ??= rating;
  }
  for (const device of t.all("device", "service", "main", "panel", "subpanel", "disconnect")) {
    t.head(device);
    for (const value of device.slots.rating ?? []) t.aside(value, "what it is rated is no load: the load counts");
  }
}

function takeLoad(t: Taker, draft: Draft): void {
  const areas = takeAreas(t);
  if (areas.length > 0) draft.areas = areas;
  takeCircuits(t, draft);
  const told = toldLoad(t);
  if (told) {
    draft.load = told;
    return;
  }
  const list = takeLoads(t, () => true);
  takeParts(t, list);
  if (areas.length > 0) takeListed(t, list);
  // The interlock of a generator is none of a heat pump.
  if (draft.transfer !== "manual") takeHeatPump(t, draft);
  const loads = list.map(({ load }): Draft => ({ ...load }));
  // Without a floor area lights are a load like others.
  for (const fact of areas.length > 0 ? [] : t.all("load", "lighting", "receptacles")) {
    const rating = t.figure(fact, "rating", "W", "kW", "VA", "kVA") ?? t.figure(fact, "current", "A");
    if (!rating) continue;
    t.head(fact);
    loads.push({
      kind: "other",
      name: fact.id === "lighting" ? "lights" : "receptacles",
      rating,
      volts: { value: 120, unit: "V" },
    });
  }
  if (loads.length > 0) draft.loads = loads;
}

/** `calculated load 92 A`, `selected loads 10 kW`: one figure for all of it. */
function toldLoad(t: Taker): Said | undefined {
  for (const { value } of t.facts.free.filter(({ key }) => key === "calculated-load" || key === "demand-recorded")) {
    const said = saidOf(value.sense);
    if (!said) continue;
    t.use(value, "load");
    return said;
  }
  for (const fact of t.all("load", "load", "connected")) {
    const said = t.figure(fact, "rating", ...POWERS) ?? t.figure(fact, "current", "A");
    if (!said) continue;
    t.head(fact);
    t.slot(fact, "share");
    return said;
  }
  // `my number for the house is 28,400 VA`: beside a generator of its own rating.
  const [only, ...others] = t.all("load").filter(({ id, slots }) => id === undefined && slots.rating);
  const isRatedItself = t.all("transformer", "generator").some(isRated);
  if (!only || others.length > 0 || !isRatedItself || !t.wants("goal:check")) return undefined;
  t.head(only);
  return t.figure(only, "rating", "VA", "kVA", "kW", "W");
}
