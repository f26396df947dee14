/**
 * Questions of the trade that are understood by their facts and not worked out here yet. They take part in the choice like the
 * others and are declined under their own name, so that none is answered as something else. A kind that gets its own folder
 * leaves this list.
 */
import type { Fact } from "../reading/facts.ts";
import type { Taker } from "../reading/take.ts";
import { isPanelCheck } from "./parts/panel-gate.ts";

export type Declined = {
  readonly id: string;
  readonly title: string;
  /** Whether the facts are this question's. */
  readonly isAsked: (t: Taker) => boolean;
};

export const declined: readonly Declined[] = [
  { id: "multifamily-load", title: "load of two-family and multifamily dwellings", isAsked: isMultifamily },
  {
    id: "park-load",
    title: "load of recreational-vehicle parks and marinas",
    isAsked: (t) =>
      t.all("building", "rv-park", "marina").length > 0 && !isOfCircuit(t) && !hasSize(t) && !hasLength(t),
  },
  { id: "busbar-sources", title: "solar, storage or generator breakers on a busbar", isAsked: isOnBusbar },
  { id: "raceway-fill", title: "raceway fill", isAsked: (t) => isRacewayFill(t) && !isPanelCheck(t) },
  {
    id: "panel-schedule",
    title: "panel schedule and balance of the legs",
    isAsked: (t) => t.wants("goal:panel-schedule") || (isOfLegs(t) && t.wants("goal:neutral-current", "role:neutral")),
  },
];

// ── what a text is about
const bySection = (t: Taker, ...sections: readonly string[]): boolean =>
  t.facts.free.some(({ value: { sense } }) => sense.is === "section" && sections.includes(sense.section));
const hasArea = (t: Taker): boolean =>
  ["ft2", "m2", "area"].some(t.has) || t.all("space").some(({ slots }) => slots.area);
const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;
const ratedLoads = (t: Taker): Fact[] => t.all("load").filter(isRated);
const hasSize = (t: Taker): boolean => t.all("conductor").some(({ slots }) => slots.size);
const hasLength = (t: Taker): boolean => ["ft", "m", "yd", "length"].some(t.has);
/** Wires, breakers or a drop asked: the question is on a circuit, wherever that circuit is. */
const isOfCircuit = (t: Taker): boolean =>
  t.wants("role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run", "goal:ampacity") ||
  t.wants("role:equipment-ground", "role:grounding-electrode-conductor", "role:main-bonding-jumper");
const isOfLegs = (t: Taker): boolean =>
  t.facts.free.some(({ key }) => key.startsWith("leg:")) || t.all("load").some(({ slots }) => slots.leg);
const MACHINES = ["motor", "pump", "compressor", "air-compressor", "fan", "machine", "gate-operator"];
const isMotors = (t: Taker): boolean => t.all("load", ...MACHINES).length > 0;
/** A load, a service or a demand is asked. */
const isOfLoad = (t: Taker): boolean =>
  t.wants("goal:load", "goal:feeder-load", "goal:branch-load", "label:calculated-load", "label:draw") ||
  t.facts.free.some(({ key }) => key.startsWith("methodOfLoad:"));

/** Two dwellings or more in one building, unless only the demand of their ranges or dryers is asked. */
function isMultifamily(t: Taker): boolean {
  if (bySection(t, "220.84", "220.85", "120.84", "120.85")) return true;
  const counted = (fact: Fact) => Number((fact.slots.count?.[0]?.sense as { n?: number } | undefined)?.n ?? 1) > 1;
  const isMany = t.all("building", "two-family", "multifamily").length > 0 ||
    t.all("building", "apartment").some(counted) ||
    (t.all("building", "unit").some(counted) && hasArea(t) && t.all("load", "space-heater").length === 0);
  if (!isMany || isMotors(t)) return false;
  // `dryer B`: its letter is no load.
  const groups = new Set(
    t.all("load").filter(({ id }) => id !== undefined && id !== "load").map(({ id }) => HOUSEHOLD[id!] ?? id),
  );
  const isOneDemand = groups.size === 1 && (groups.has("cooking") || groups.has("dryer")) && !hasArea(t);
  if (isOneDemand) return false;
  const isCircuit = isOfCircuit(t) || hasSize(t) || hasLength(t);
  return hasArea(t) || (!isCircuit && (ratedLoads(t).length > 0 || isOfLoad(t) || t.wants("device:service")));
}
const HOUSEHOLD: Readonly<Record<string, string>> = {
  range: "cooking",
  "wall-oven": "cooking",
  cooktop: "cooking",
  dryer: "dryer",
};

/** A source of its own beside a busbar, a main or a breaker that feeds back. */
function isOnBusbar(t: Taker): boolean {
  if (t.wants("goal:backfeed") || bySection(t, "705.12")) return true;
  const bus = t.has("source:busbar") || t.has("source:backfeed") || t.has("bus") || t.has("label:bus");
  const sources = t.all("transformer", "solar", "inverter", "battery");
  const panel = t.all("device", "main", "panel", "service").some(isRated);
  return (sources.length > 0 && (bus || panel)) ||
    (t.all("transformer", "generator").length > 0 && bus);
}

/** How many wires a raceway takes, or which one they need; a size of wire or a breaker asked as well is a circuit's. */
function isRacewayFill(t: Taker): boolean {
  if (isOfCircuit(t) || ratedLoads(t).length > 0 || t.all("device").some(isRated)) return false;
  const raceway = t.has("in") || t.facts.free.some(({ key }) => key.startsWith("raceway:"));
  if (t.wants("goal:raceway-size")) return raceway || hasSize(t);
  const counted = t.all("conductor").some(({ slots }) => slots.size && slots.count) || (hasSize(t) && t.has("in"));
  const asksNothing = !t.facts.free.some(({ key }) => key.startsWith("goal:"));
  return raceway &&
    (t.wants("goal:fit") || (counted && (asksNothing || (t.has("in") && t.wants("goal:check")))));
}
