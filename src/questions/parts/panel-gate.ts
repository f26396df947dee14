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
  "goal:cable-sheath",
  "goal:check-record",
  "goal:panel-location",
  "goal:continuity",
];
/** Figures of nothing else. */
const FIGURES = ["reading", "lbf-in", "lbf-ft", "N-m", "marked-torque", "set-torque", "label:set-torque"];

/** `how deep must the UF be`: of a cable or a raceway it is how deep it lies. */
const isOfBurial = (t: Taker): boolean =>
  t.wants("goal:working-space") && t.all("device").length === 0 &&
  t.facts.free.some(({ key }) => key.startsWith("method:") || key.startsWith("raceway:"));

export function isPanelCheck(t: Taker): boolean {
  if (isOfBurial(t)) return false;
  if (t.wants(...OWN) || FIGURES.some(t.has)) return true;
  if (isLugLabel(t)) return true;
  const grounds = t.all("conductor", "neutral", "equipment-ground");
  const isRead = t.has("meter:closed") || t.has("meter:open");
  if (grounds.length > 0 && (t.wants("goal:neutral-terminals") || isRead)) return true;
  const isProtected = t.wants("goal:room-protection", "goal:protection-asked") || protectedDevices(t).length > 0 ||
    t.has(UNPROTECTED);
  if (isProtected && isOfRoom(t)) return isOfRoomAlone(t);
  const isOfSum = t.all("load").some(isRated) || t.all("device").some(isRated) || t.all("circuit").some(isRated) ||
    ["ft", "m", "yd", "length"].some(t.has) && !t.wants("goal:bond");
  if (t.all("conductor").some(isSized)) return CONNECTORS.some((connector) => t.has(`connector:${connector}`));
  const isNamed = isPanel(t) || t.all("device", "breaker", "disconnect").length > 0;
  if (isNamed && (t.wants("goal:how-high") || t.has("height")) && t.all("load").length === 0) return true;
  if (isPanel(t) && isFaced(t)) return true;
  if (
    t.wants("goal:check") && isPanel(t) && t.all("load").length === 0 &&
    roomsSaid(t).some(({ room }) => ROOMS.includes(room))
  ) {
    return true;
  }
  // `200 A meter main outside, four wires to the inside panel, bond there?`: what is rated only says where the main is.
  const asksWire = t.all("conductor", "wire").some(({ slots }) => !slots.size && !slots.count);
  // `200 A panel outside, its the first disconnect, bonding screw in or out`: nor does one without a run.
  const isRun = ["ft", "m", "yd", "length"].some(t.has) || t.all("conductor").length > 0 || t.all("circuit").length > 0;
  const isOfPanels = t.all("device").length > 1 || t.all("device").length === 1 && !isRun && isPanel(t);
  const isBondAlone = t.wants("goal:bond") && isOfPanels && t.all("load").length === 0 && !asksWire &&
    !t.wants("role:ungrounded", "device:breaker", "role:equipment-ground", "goal:size", "goal:drop", "label:drop");
  if (isOfSum && !isBondAlone && !isBondBehindTransformer(t)) return false;
  if (t.wants("goal:bond") || t.has("panelState:bonded-here") || t.has("panelState:isolated-here")) {
    return !t.wants("goal:size", "goal:drop", "label:drop");
  }
  if (isPanel(t) && (isOfRods(t) || t.wants("goal:feed-wires"))) return true;
  return t.wants("goal:check") && isPanel(t) && t.all("load").length === 0 && isOfRoom(t);
}

/** `panel after a 45 kVA transformer, bond or isolate?`: what the transformer delivers decides no bond. */
const isBondBehindTransformer = (t: Taker): boolean =>
  t.wants("goal:bond") && isPanel(t) && t.all("transformer").length > 0 &&
  t.all("load").every(isOfTransformer) && !t.all("device").some(isRated) &&
  !t.wants("role:wire", "device:breaker", "goal:transformer-size", "role:system-bonding-jumper");
/** Apparent power by itself, with its voltages. */
export const isOfTransformer = ({ id, slots }: Fact): boolean =>
  id === undefined &&
  (slots.rating ?? []).every(({ sense }) => sense.is === "quantity" && ["VA", "kVA", "MVA"].includes(sense.unit));

/** `label says 250, 4/0 lug`: a number on a lug's label that is no temperature. */
const isLugLabel = (t: Taker): boolean =>
  t.has("label:nameplate") && t.has("label:terminals") && t.all("load").length === 0 &&
  !t.all("device").some(isRated) &&
  t.facts.free.some(({ key, value: { sense } }) =>
    key === "number" && sense.is === "number" && !TEMPERATURES.includes(sense.n)
  );
const TEMPERATURES = [60, 75, 90];

/** Whether a panel wants rods of its own; what runs to them is sized by the supply. */
const isOfRods = (t: Taker): boolean =>
  t.has("electrode:rod") && t.all("device", "subpanel", "panel").length > 0 &&
  !t.wants("role:wire", "role:grounding-electrode-conductor", "role:equipment-ground", "goal:size", "goal:fault-path");
const isPanel = (t: Taker): boolean => t.all("device", "panel", "subpanel", "main").length > 0;
/** With a size beside them their torque is asked. */
const CONNECTORS = ["slotted screw", "hex head", "socket screw", "split bolt"];
/** Rooms of which a rule on panels speaks. */
const ROOMS = ["bathroom", "closet", "clothes closet", "stairs"];
/** What stands opposite a panel was told, or how much room there is in front of it. */
const isFaced = (t: Taker): boolean => t.has("depth") || t.facts.free.some(({ key }) => key.startsWith("facing:"));

/** `no GFCI on those outlets`: whether it may be left off. */
export const UNPROTECTED = "absent:gfci";
/** `GFCI` alone is a device of a box as well as what it protects. */
export const protectedDevices = (t: Taker): Fact[] =>
  t.all("box", "gfci").filter(({ others }) => others?.includes("goal:room-protection"));

const ROOM = "room:";
/** Rooms that were named, also by words that name a kind of building as well. */
export const roomsSaid = (t: Taker): { room: string; pieces: readonly number[]; fact?: Fact }[] => [
  ...t.facts.free.filter(({ key }) => key.startsWith(ROOM)).map(({ key, value }) => ({
    room: key.slice(ROOM.length),
    pieces: value.pieces,
  })),
  ...t.facts.facts.flatMap((fact) =>
    (fact.others ?? []).filter((each) => each.startsWith(ROOM)).map((each) => ({
      room: each.slice(ROOM.length),
      pieces: fact.pieces,
      fact,
    }))
  ),
];

const OF_ROOMS = ["space:basement", "space:crawl-space", "circuit:laundry", "circuit:small-appliance"];
const isOfRoom = (t: Taker): boolean =>
  roomsSaid(t).length > 0 || OF_ROOMS.some(t.has) || t.all("space").length > 0 ||
  t.all("circuit", "laundry", "small-appliance").length > 0;
/** A room's protection is asked, and no wire or breaker of it. */
const isOfRoomAlone = (t: Taker): boolean =>
  (t.wants("goal:protection-asked") ||
    t.all("load").every((load) => !isRated(load) || load.id === undefined || load.id === "receptacles")) &&
  !t.all("conductor").some(isSized) && !t.wants("role:wire", "goal:size");
