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

/** Two pieces or more, or equipment told as so many pieces, and nothing of a circuit. */
export function isKitchen(t: Taker): boolean {
  const pieces = t.all("load", ...OF_KITCHENS);
  const isSeveral = pieces.length > 1 || pieces.some(({ id, slots }) => id === "kitchen-equipment" || slots.count);
  return isSeveral && !t.wants("role:wire", "device:breaker", "circuit:circuit", "goal:drop", "label:drop") &&
    !t.has("building:dwelling") && t.all("building", ...HOMES).length === 0;
}
const HOMES = ["apartment", "two-family", "multifamily", "mobile-home"];
