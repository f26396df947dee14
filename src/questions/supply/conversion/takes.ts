/** What a conversion takes of the facts: one quantity, what it is wanted in, and what lies between the two. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isMotor } from "../../parts/motor-takes.ts";
import { takePowerFactor, takeSupply } from "../../parts/run-takes.ts";
import { INTO } from "./measures.ts";

/** How each unit is asked for. */
const TARGETS: Readonly<Record<string, readonly string[]>> = {
  A: ["goal:current", "label:full-load-current", "label:draw", "label:rated-load-current"],
  kVA: ["goal:kVA"],
  VA: ["goal:VA"],
  kW: ["goal:kW"],
  W: ["goal:W"],
  hp: ["goal:hp"],
  "°C": ["goal:celsius"],
  "°F": ["goal:fahrenheit"],
  ft: ["goal:feet"],
  m: ["goal:metres"],
  mm2: ["goal:mm2"],
  AWG: ["goal:awg"],
};
const POWERS = ["W", "kW", "VA", "kVA", "MVA", "hp"];
/** A temperature whose scale is not told is the one that is not wanted. */
const OTHER_SCALE: Readonly<Record<string, string>> = { "°C": "°F", "°F": "°C" };
/** Figures that other questions are about. */
const OTHERS = ["minimum-circuit-ampacity", "rated-load-current", "locked-rotor-current"];

export function takes(t: Taker): Draft | undefined {
  const wanted = Object.entries(TARGETS).filter(([, goals]) => t.wants(...goals)).map(([unit]) => unit);
  const isAsked = wanted.length > 0 || t.wants("goal:convert") || t.has("mm2") || t.has("kcmil");
  // Amperes of what is named, and its wire or circuit: a circuit question.
  const isOfCircuit = t.wants("role:wire", "device:breaker", "circuit:circuit");
  if (isOfCircuit && t.all("load").some(({ id }) => id !== undefined && id !== "load")) {
    return undefined;
  }
  if (
    !isAsked || t.all("transformer").some(({ id }) => id !== "generator") || t.has("ft2") ||
    t.wants("goal:drop", "label:drop", "goal:ampacity")
  ) {
    return undefined;
  }
  if (
    t.all("load").some((load) =>
      OTHERS.some((slot) => load.slots[slot]) || (t.wants("label:full-load-current") && isNamedMotor(load))
    )
  ) return undefined;
  const draft: Draft = {};
  const told = takePowers(t, draft);
  if (told.length === 0 && !takeMeasure(t, draft, wanted[0])) return undefined;
  t.asks("goal:convert", "role:wire");
  // `meter shows 100 A on a 208 V service`: where it is read.
  for (const device of t.all("device", "service", "panel", "main")) {
    if (Object.keys(device.slots).length === 0) t.head(device);
  }
  // `the clamp reads 22 A per leg`
  for (const fact of [...t.all("box"), ...t.all("conductor", "ungrounded")]) {
    if (Object.keys(fact.slots).length === 0) t.head(fact);
  }
  // `is it 5.6 or 7.5`
  for (const { key, value } of t.has("change:or") ? t.facts.free : []) {
    if (key === "number") t.aside(value, "your own results, to be held against the one worked out here");
  }
  // `kVA to amps, 45 kVA`: what is told in a unit is not wanted in it.
  const isTold = (unit: string) =>
    (unit === "A" && draft.current !== undefined) || (draft.power as Said | undefined)?.unit === unit;
  // `how many kW is its output`: a unit that is named comes before what a word only hints at.
  const named = wanted.filter((unit) => t.wants(...TARGETS[unit]!.filter((goal) => goal.startsWith("goal:"))));
  const sought = named.length > 0 ? named : wanted;
  const targets = sought.filter((unit) => sought.length === 1 || !isTold(unit));
  for (const unit of wanted) t.asks(...TARGETS[unit]!);
  if (targets.length > 1) {
    t.ask({ field: "to", ask: `One at a time: into ${targets.join(" or ")}?`, example: `in ${targets[0]}` });
  }
  if (targets[0] !== undefined && !(targets[0] === "A" && draft.current)) draft.to = targets[0];
  // Beside a voltage a power is turned into amperes, and horsepower into kW; the rest may be wanted in several units.
  const power = draft.power as Said | undefined;
  if (targets.length === 0 && power && power.unit !== "hp" && !draft.volts) {
    t.ask({ field: "to", ask: `Into what is ${spoken(power)} to be converted?`, example: `${spoken(power)} in hp` });
  }
  if (told.length > 1) {
    t.ask({
      field: "power",
      ask: `Which is to be converted: ${told.map(spoken).join(" or ")}?`,
      example: `${spoken(told[0]!)} in ${draft.power && draft.current ? "amps" : "kVA"}`,
    });
  }
  return draft;
}
/** The full-load current of a motor by its name is its circuit's question, unless its efficiency is told. */
const isNamedMotor = (load: Fact): boolean => load.id !== undefined && isMotor(load) && !load.slots.efficiency;
const spoken = ({ value, unit }: Said): string => `${value} ${unit}`;
const figureOf = ({ sense }: Value): Said | undefined =>
  sense.is === "quantity" ? { value: sense.exact ?? sense.n, unit: sense.unit } : undefined;

/** Power and current, the supply they are on, what a machine makes of them. */
function takePowers(t: Taker, draft: Draft): Said[] {
  const told: Said[] = [];
  for (const load of [...t.all("load"), ...t.all("transformer", "generator")]) {
    const figures = ["rating", "draw", "current", "full-load-current"].flatMap((slot) => load.slots[slot]?.[0] ?? []);
    // A machine without a figure says what the figure is of.
    t.head(load);
    t.term(load, "hours");
    for (const value of figures) {
      const said = figureOf(value);
      if (!said) continue;
      t.use(value, "power");
      if (told.some((each) => spoken(each) === spoken(said))) continue;
      told.push(said);
      if (POWERS.includes(said.unit)) draft.power ??= said;
      else draft.current ??= said;
    }
  }
  if (told.length === 0) return told;
  const { volts, phases, dc, low, high } = takeSupply(t);
  if (volts) draft.volts = volts;
  if (low !== undefined && volts?.value === high) t.note(`took ${high} V between lines of ${low}/${high} V`);
  if (dc || t.all("transformer", "battery", "solar").length > 0) draft.circuit = "direct current";
  else if (phases) draft.circuit = phases === 3 ? "three-phase" : "single-phase";
  t.said("circuit:line-to-line", "connection:wye", "connection:delta");
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
  for (const load of t.all("load")) takeEfficiency(t, load, draft);
  return told;
}
function takeEfficiency(t: Taker, load: Fact, draft: Draft): void {
  const sense = t.slot(load, "efficiency")?.sense;
  if (sense?.is === "quantity") draft.efficiency = { value: sense.n, unit: "%" };
  if (sense?.is !== "number") return;
  draft.efficiency = { value: sense.n <= 1 ? Number((sense.n * 100).toFixed(6)) : sense.n, unit: "%" };
}

/** A temperature, a length, a cross-section, a gauge size. */
function takeMeasure(t: Taker, draft: Draft, wanted: string | undefined): boolean {
  const sized = t.all("conductor").find(({ slots }) => slots.size);
  const found = t.facts.free.find(({ key, value }) =>
    value.sense.is === "quantity" && ["°C", "°F", "°", "ft", "in", "yd", "m", "mm2", "kcmil"].includes(key)
  );
  const labelled = t.facts.free.find(({ key }) => ["ambient", "length", "conductor-temperature"].includes(key));
  const value = found?.value ?? labelled?.value ?? sized?.slots.length?.[0];
  const said = value && figureOf(value);
  if (said && !(sized && wanted === "mm2")) {
    t.use(value!, "measure");
    const unit = said.unit === "°" ? OTHER_SCALE[wanted ?? ""] ?? "°F" : said.unit;
    if (wanted !== undefined && !INTO[unit]?.includes(wanted)) return false;
    draft.measure = { value: said.value, unit };
    takeConductors(t);
    return true;
  }
  const size = sized?.slots.size?.[0];
  if (size?.sense.is !== "size" || (wanted !== undefined && wanted !== "mm2")) return false;
  t.head(sized!);
  t.use(size, "size");
  draft.size = size.sense.size;
  takeConductors(t);
  return true;
}
/** The metal and the insulation are named with a size, and change nothing of its area. */
function takeConductors(t: Taker): void {
  for (const { slots } of t.all("conductor")) {
    for (const value of [...slots.metal ?? [], ...slots.insulation ?? []]) {
      t.aside(value, "the area does not depend on it");
    }
  }
  for (const { key, value } of t.facts.free) {
    if (key.startsWith("metal:") || key.startsWith("insulation:")) t.aside(value, "the area does not depend on it");
  }
}
