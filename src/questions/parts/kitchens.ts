/** Equipment of commercial kitchens: several pieces of it are a kitchen's load, and no dwelling's and no one circuit's. */
import type { Taker } from "../../reading/take.ts";

export const OF_KITCHENS = [
  "kitchen-equipment",
  "fryer",
  "griddle",
  "broiler",
  "steamer",
  "steam-kettle",
  "steam-table",
  "food-warmer",
  "hot-plate",
  "booster-heater",
  "coffee-maker",
  "toaster",
  "food-mixer",
  "slicer",
] as const;

/** Kitchen pieces that homes have as well. */
const AT_HOME = ["range", "wall-oven", "cooktop", "dishwasher", "disposer", "microwave", "water-heater"];
const HOMES = ["apartment", "two-family", "multifamily", "mobile-home"];

/** A piece of it beside others, or several, and nothing of a circuit or a home. */
export function isKitchen(t: Taker): boolean {
  const pieces = t.all("load", ...OF_KITCHENS);
  const isSeveral = pieces.some(({ id, slots }) => id === "kitchen-equipment" || slots.count) ||
    pieces.length + t.all("load", ...AT_HOME).length > 1;
  return pieces.length > 0 && isSeveral &&
    !t.wants("role:wire", "device:breaker", "circuit:circuit", "goal:drop", "label:drop") &&
    !t.has("building:dwelling") && t.all("building", ...HOMES).length === 0;
}
