/** Whether a text asks for a check at a panel, and no sum of a circuit, a feeder or a load. */
import type { Fact } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";

const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;
const isSized = ({ slots }: Fact): boolean => slots.size !== undefined;
/** Goals that nothing else asks. */
const OWN = [
  "goal:torque",
  "goal:working-space",
  "goal:handle-height",
  "goal:bending-space",
  "goal:directory",
  "goal:check-record",
  "goal:panel-location",
  "goal:continuity",
];

export function isPanelCheck(t: Taker): boolean {
  if (t.wants(...OWN) || t.has("reading")) return true;
  const isOfSum = t.all("load").some(isRated) || t.all("device").some(isRated) || t.all("circuit").some(isRated) ||
    ["ft", "m", "yd", "length"].some(t.has);
  if (t.wants("goal:neutral-terminals") && t.all("conductor", "neutral", "equipment-ground").length > 0) return true;
  if (t.wants("goal:room-protection") && isOfRoom(t)) {
    return !t.all("load").some(isRated) && !t.all("conductor").some(isSized) &&
      !t.wants("role:wire", "device:breaker", "goal:size");
  }
  if (isOfSum || t.all("conductor").some(isSized)) return false;
  if (t.wants("goal:bond") || t.has("panelState:bonded-here") || t.has("panelState:isolated-here")) {
    return !t.wants("goal:size", "goal:drop", "label:drop");
  }
  return isOfPlace(t);
}

const isOfRoom = (t: Taker): boolean =>
  t.facts.free.some(({ key }) => key.startsWith("room:") || key === "space:basement" || key === "space:crawl-space");

/** A panel put up for a room of which a rule speaks. */
const isOfPlace = (t: Taker): boolean =>
  t.wants("goal:check") && t.all("device", "panel", "subpanel", "main").length > 0 && t.all("load").length === 0 &&
  ["bathroom", "closet", "clothes closet", "stairs"].some((room) => t.has(`room:${room}`));
