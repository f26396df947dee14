/** Whether a text asks what may be added to a service that is there: other kinds leave it to that question. */
import { CATALOGUE } from "../../loads/catalogue.ts";
import type { Fact } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { countOf } from "./many-dwellings.ts";

const SECTIONS = ["220.83", "220.87", "120.83", "120.87"];
const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;

/** Loads that the text says are to be added. */
export const isAdded = ({ others }: Fact): boolean => others?.includes("added") ?? false;
const isCatalogued = ({ id }: Fact): boolean => id !== undefined && id in CATALOGUE;

/** Wires, breakers, a drop or a ground asked, or the run of a circuit told: the question is on that circuit. */
function isOfCircuit(t: Taker): boolean {
  // `rather than trench a new lateral`: the service's own conductors are no circuit's.
  const isOfService = ({ others }: Fact) => others?.includes("circuit:service-conductors") ?? false;
  const asksWire = t.wants("role:wire") && !t.all("conductor", "wire").every(isOfService);
  return asksWire || t.wants("role:ungrounded", "goal:drop", "label:drop", "goal:longest-run") ||
    t.wants("role:equipment-ground", "role:grounding-electrode-conductor", "role:main-bonding-jumper") ||
    t.all("conductor").some(({ slots }) => slots.size) || ["ft", "m", "yd", "length"].some(t.has);
}

/**
 * An existing service, panel or record, and a load that it is to take besides what it has, or what is left on it. A house that
 * is laid out anew, and a service that is still to be sized, are none of its own.
 */
export function asksAddedLoad(t: Taker): boolean {
  if (t.all("transformer").some(({ id, slots }) => slots.rating && id === "transformer")) return false;
  if (isOfCircuit(t)) return false;
  // What a building of several dwellings needs is that building's load.
  const isOfSeveral = t.all("building", "apartment", "multifamily").some((home) => countOf(home) > 1);
  if (isOfSeveral && !t.has("demand-recorded")) return false;
  if (
    SECTIONS.some((section) =>
      t.facts.free.some(({ value: { sense } }) => sense.is === "section" && sense.section === section)
    )
  ) {
    return true;
  }
  const loads = t.all("load").filter((load) => isCatalogued(load) || isRated(load));
  const added = loads.filter(isAdded);
  const service = t.all("device", "panel", "service", "main", "subpanel");
  const hasService = service.some(isRated);
  const isThere = hasService || t.has("building:existing");
  if (t.has("record") || t.has("demand-recorded") || t.has("label:demand-recorded")) return isThere || added.length > 0;
  // `88 A calculated on a 200 A service, how big a heater can go in`: a sum of what there is, and more than that.
  const isSummed = t.has("calculated-load") && hasService;
  if (isSummed && (t.wants("goal:add-load") || loads.some(isCatalogued))) return true;
  // `is 200 A enough for a 1850 sq ft house` lays a house out.
  const hasArea = ["ft2", "m2", "area"].some(t.has) || t.all("space").some(({ slots }) => slots.area);
  const asks = t.wants("goal:add-load") && !(hasArea && t.wants("goal:check"));
  // `2400 sq ft …, add a 48 A charger, what service?`
  if (!hasService && (t.wants("device:service") || (!asks && !t.has("building:existing")))) return false;
  // What a breaker was asked for is a circuit.
  if (!hasService && t.wants("device:breaker")) return false;
  if (!isThere && service.length === 0) return false;
  if (added.length > 0) return added.some(isCatalogued) || asks || hasService;
  const largest = t.has("motorWord:largest") && loads.some((load) => isCatalogued(load) && !isRated(load));
  // `does a 48 A charger fit on a 100 A panel`
  const fits = hasService && t.wants("goal:fit") && loads.some(isCatalogued);
  // `can i put a 50 A charger on a 200 A panel`: without an area, and without a wire or a breaker asked.
  const isPut = hasService && !hasArea && t.wants("goal:check") && !t.wants("device:breaker") &&
    service.every(({ id, slots }) => id !== "subpanel" && !slots.end) && loads.some(({ id }) => id === "ev-charger");
  if (isPut) return true;
  return asks || fits || (isThere && largest);
}
