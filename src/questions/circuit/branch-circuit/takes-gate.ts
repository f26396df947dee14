/** Which facts are one branch circuit's, and which another question's. */
import type { Fact, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { asksAddedLoad } from "../../parts/added-takes.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { isKitchen } from "../../parts/kitchens.ts";
import { isHousehold } from "../../parts/load-takes.ts";
import { MACHINES } from "../../parts/motor-takes.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { isOfPark } from "../../parts/park-gate.ts";
import {
  isCrowdedWire,
  isLoadedWire,
  isOfRunAlone,
  isPanelOfLoads,
  lines,
  POWER_GOALS,
} from "../../parts/run-takes.ts";
import { isWhereItStarts } from "../../parts/starts.ts";
import { CIRCUIT_KINDS, type CircuitKind, isCooking } from "./loads.ts";

/** What other questions are about: an area, a panel that is fed, a nameplate's circuit ampacity, a transformer. */
const OTHERS = ["ft2", "m2"];
const OTHER_CONDUCTORS = ["circuit:service-conductors", "circuit:feeder-conductors"];
/** What a circuit may start from. */
export const FED = ["panel", "subpanel", "service", "main"];

/** Whether the facts are those of one branch circuit, and of no other question. */
export function isBranchCircuit(t: Taker): boolean {
  if (isPanelCheck(t) || isOfPark(t)) return false;
  // A gate stands at the end of a drive: where no breaker is asked for, its wire goes by the drop.
  if (t.all("load", "gate-operator").length > 0 && isOfRunAlone(t)) return false;
  if (asksAddedLoad(t) || asksBackfeed(t)) return false;
  if (OTHERS.some((key) => t.has(key)) || t.all("transformer").length > 0) {
    return false;
  }
  const fed = t.all("device", ...FED).filter((panel) => !isWhereItStarts(t, panel));
  if (fed.some(({ id, slots }) => slots.rating || id === "subpanel")) return false;
  if (t.all("conductor", "wire").some(({ others }) => others?.some((each) => OTHER_CONDUCTORS.includes(each)))) {
    return false;
  }
  if (isPanelOfLoads(t) || isCrowdedWire(t) || isHousehold(t) || isKitchen(t)) return false;
  // `4-4-4-6 to his barn`: a row of sizes is a feeder's cable.
  const isRow = lines(t).some(({ slots }) => slots.size?.[0]?.sense.is === "sizes");
  if (isRow && (t.has("place:separate-structure") || t.has("place:garage"))) return false;
  const heads = t.all("load");
  // `how many 20 A circuits can I pull in 3/4 EMT`: how much the raceway takes.
  const isOfFill = t.wants("goal:how-many", "goal:feed-wires", "goal:fit") && t.has("in") &&
    lines(t).some(({ slots }) => slots.size);
  if (isOfFill && !t.wants("device:breaker", "role:wire")) return false;
  // `which of those want a GFCI and which arc fault`: a question on what protects a room.
  const isOfRoom = t.wants("goal:room-protection") && heads.length > 1 && !t.wants("role:wire", "device:breaker");
  if (isOfRoom) return false;
  // So many of one household appliance are a building's, and none of them on one circuit: `three dryers in a triplex`, one in each.
  const isInHomes = t.all("building", "three-family", "four-family", "six-family", "multifamily").length > 0;
  const isMany = heads.some(({ id, slots }) =>
    HOUSEHOLD.has(id ?? "") && countOf(slots.count?.[0]) >= (isInHomes || id === "dryer" ? 2 : MANY)
  );
  if (isMany && t.all("circuit", "circuit", "multiwire").length === 0) return false;
  if (
    heads.some((load) =>
      COOLING.includes(load.id ?? "") || isMotor(load) || load.slots["minimum-circuit-ampacity"] ||
      load.slots["rated-load-current"]
    )
  ) {
    return false;
  }
  // A drop, its limit or how far: a question on the run, unless a breaker or an appliance says that it is on a circuit.
  const isOfRun = t.has("drop") || t.has("%") || t.has("label:drop") || t.has("goal:drop") ||
    t.has("goal:longest-run") ||
    t.has("goal:ampacity");
  if (
    isOfRun && !t.wants("device:breaker", "circuit:circuit") &&
    (heads.every(({ id }) => id === undefined || id === "load" || (OUTLETS.has(id) && isLimited(t))) || isHeld(t))
  ) {
    return false;
  }
  // A ground alone, by its breaker, is a question on grounding.
  const isGround = t.wants("role:equipment-ground") && !t.wants("role:wire", "device:breaker");
  // Amperes, kW or kVA asked for, and nothing of a circuit: a conversion.
  const isConverted = t.wants("goal:convert", "goal:current", ...POWER_GOALS) &&
    !t.wants("device:breaker", "role:wire", "circuit:circuit", "goal:size", "role:equipment-ground") &&
    !lines(t).some(({ slots }) => slots.size) && !t.all("device").some(({ slots }) => slots.rating);
  if (isConverted) return false;
  // What cooking appliances come to on their circuit, and nothing of the circuit itself: a demand.
  const isLoadAlone = t.wants("goal:load", "goal:branch-load") && !t.wants("device:breaker", "role:wire", "goal:size");
  if (isLoadAlone && heads.length > 0 && heads.every(({ id }) => id !== undefined && isCooking(id as CircuitKind))) {
    return false;
  }
  if (isGround && heads.every(({ id }) => id === undefined)) return false;
  return !isLoadedWire(t);
}

const HOUSEHOLD = new Set(["dryer", "range"]);
const MANY = 5;
const countOf = (value: Value | undefined): number =>
  value?.sense.is === "count" || value?.sense.is === "number" ? value.sense.n : 1;
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
