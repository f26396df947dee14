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
  {
    id: "park-load",
    title: "load of recreational-vehicle parks and marinas",
    isAsked: (t) =>
      t.all("building", "rv-park", "marina").length > 0 && !isOfCircuit(t) && !hasSize(t) && !hasLength(t),
  },
  { id: "raceway-fill", title: "raceway fill", isAsked: (t) => isRacewayFill(t) && !isPanelCheck(t) },
  {
    id: "panel-schedule",
    title: "panel schedule and balance of the legs",
    isAsked: (t) => t.wants("goal:panel-schedule") || (isOfLegs(t) && t.wants("goal:neutral-current", "role:neutral")),
  },
];

// ── what a text is about
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
