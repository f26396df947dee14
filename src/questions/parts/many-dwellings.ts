/** Several dwellings in one building: what says so, and how many a building's name stands for. */
import { HOMES_IN } from "../../loads/homes.ts";
import type { Fact } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";

/** Heads of dwelling units and of buildings of them. */
export const HOMES = ["unit", "apartment", "multifamily", ...Object.keys(HOMES_IN)];
const BUILDINGS = ["multifamily", ...Object.keys(HOMES_IN)];
const SECTIONS = ["220.84", "220.85", "120.84", "120.85"];
const MACHINES = ["machine", "gate-operator", "pump"];
const HOUSEHOLD: Readonly<Record<string, string>> = {
  range: "cooking",
  "wall-oven": "cooking",
  cooktop: "cooking",
  dryer: "dryer",
};

export const countOf = ({ slots }: Fact): number =>
  Number((slots.count?.[0]?.sense as { n?: number } | undefined)?.n ?? 1);

/** Two dwellings or more in one building, unless only the demand of their ranges or dryers is asked. */
export function isManyDwellings(t: Taker): boolean {
  if (t.facts.free.some(({ value: { sense } }) => sense.is === "section" && SECTIONS.includes(sense.section))) {
    return true;
  }
  const hasArea = ["ft2", "m2", "area"].some(t.has) || t.all("space").some(({ slots }) => slots.area);
  const isCounted = (fact: Fact) => countOf(fact) > 1;
  const isMany = t.all("building", ...BUILDINGS).length > 0 || t.all("building", "apartment").some(isCounted) ||
    (t.all("building", "unit").some((unit) => isCounted(unit) && !isOfHeating(t, unit)) &&
      // `10 unit apartment`
      (hasArea || t.all("building", "apartment").length > 0));
  if (!isMany) return false;
  const isBuilding = t.all("building", ...BUILDINGS, "apartment").length > 0;
  if (!isBuilding && t.all("load", ...MACHINES).length > 0) return false;
  if (t.all("load", "motor").length > 0) return false;
  // `dryer B`: its letter is no load.
  const loads = t.all("load").filter(({ id }) => id !== undefined && id !== "load");
  const groups = new Set(loads.map(({ id }) => HOUSEHOLD[id!] ?? id));
  const isOneDemand = groups.size === 1 && (groups.has("cooking") || groups.has("dryer")) && !hasArea;
  if (isOneDemand) return false;
  const isCircuit = t.wants("role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run") ||
    t.wants("role:equipment-ground", "role:grounding-electrode-conductor", "role:main-bonding-jumper") ||
    t.all("conductor").some(({ slots }) => slots.size) || ["ft", "m", "yd", "length"].some(t.has);
  const isOfLoad = t.all("load", "load").length > 0 ||
    t.wants("goal:load", "goal:feeder-load", "goal:branch-load", "label:calculated-load", "label:draw") ||
    t.facts.free.some(({ key }) => key.startsWith("methodOfLoad:"));
  const isRated = t.all("load").some(({ slots }) => slots.rating ?? slots.current ?? slots.draw);
  return hasArea || (!isCircuit && (isRated || isOfLoad || t.wants("device:service")));
}

/** `2000 sq ft, 9 kW of heat in six units`: parts of the heating, and no dwellings with an area behind them. */
function isOfHeating(t: Taker, unit: Fact): boolean {
  const [at] = unit.pieces;
  if (t.all("load", "space-heater").length === 0 || at === undefined || t.has("share:each")) return false;
  return !t.facts.free.some(({ key, value }) => ["ft2", "m2", "area"].includes(key) && (value.pieces[0] ?? -1) > at);
}
