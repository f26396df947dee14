/** What a voltage drop takes of the facts: the circuit, its load, the run, the limit, and which turn of the question is asked. */
import type { Draft, Fact } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { DIRECT, takeCircuit, takeVolts } from "./takes-circuit.ts";
import { takeDevices, takeLoads, USES } from "./takes-load.ts";
import { lengthsOf, takeConductor, takeRun } from "./takes-run.ts";
import { lines } from "../../parts/run-takes.ts";
import { hasEnd, isShopFed, isWhereItStarts } from "../../parts/starts.ts";
import { figureOf } from "./values.ts";

/** Percentages above are shares of a current, and no limit. */
const LARGEST_SHARE = 20;

export function takes(t: Taker): Draft | undefined {
  const isOther = t.has("circuit:ignore-drop") || t.has("ft2") || t.has("m2") || t.all("space").length > 0 ||
    t.all("transformer", "transformer", "autotransformer").some(isToldOf) ||
    (t.has("change:raise") && t.all("conductor", "equipment-ground").length > 0) ||
    t.wants("goal:ampacity", "goal:fault-current", "goal:raceway-size", "role:equipment-ground", "role:neutral") ||
    t.all("load").some(({ slots }) => slots["minimum-circuit-ampacity"] || slots["rated-load-current"]);
  const draft: Draft = {};
  const hasLength = lengthsOf(t).length > 0 || t.has("spacing");
  if (isOther || isMotorCircuit(t) || isFeeder(t) || isCircuit(t) || !(isDrop(t) || (hasLength && isBesideOthers(t)))) {
    return undefined;
  }
  takeDevices(t, draft);
  takeVolts(t, draft);
  takeLoads(t, draft);
  takeRun(t, draft);
  takeCircuit(t, draft);
  takeConductor(t, draft);
  takeLimit(t, draft);
  takeFind(t, draft);
  return draft;
}

/** `275 ft from the transformer`: without figures of its own it says where the run begins. */
const isToldOf = ({ slots, others }: Fact): boolean =>
  Object.keys(slots).length > 0 || (others?.includes("implied") ?? false);

/** Motors told by their power, with no more than a limit of the drop: their circuit is asked for. */
const isMotorCircuit = (t: Taker): boolean =>
  !t.wants("goal:drop", "label:drop", "goal:longest-run") &&
  t.all("load").some(({ slots }) => figureOf(slots.rating?.[0])?.unit === "hp");
/** A panel to be fed, with at most a limit of the drop on the way: its conductors are a feeder's. */
const isFeeder = (t: Taker): boolean =>
  isPanelWanted(t) || isShopFed(t) || !t.wants("goal:drop", "label:drop", "goal:longest-run") && isFed(t);
const isFed = (t: Taker): boolean =>
  t.all("device", "subpanel").length > 0 ||
  (t.has("place:separate-structure") && t.facts.facts.some(({ slots }) => slots.end)) ||
  t.all("device", "panel").some((panel) => panel.slots.rating && !isWhereItStarts(t, panel)) ||
  // `100 A feeder, 480 V three phase, 500 ft, size for 2 %`
  (t.all("circuit", "feeder").some(({ slots }) => slots.rating) && t.wants("goal:size"));
/** `need a 60 A panel 400 ft from the main, allowing for the drop`: what is wanted is the panel's feeder. */
const isPanelWanted = (t: Taker): boolean =>
  t.all("device", "panel", "subpanel").some((panel) => panel.slots.rating && hasEnd(panel, "wanted")) &&
  t.wants("goal:size", "role:wire") && !t.wants("goal:longest-run");
/** A circuit is asked for, and how much drop it may have is only one of the things that are told of it. */
const isCircuit = (t: Taker): boolean =>
  !t.wants("goal:drop", "label:drop", "goal:longest-run", "goal:size", "role:wire") &&
  t.wants("circuit:circuit") && t.all("load").length > 0;
/** Whether the drop itself, its limit or the longest run is spoken of. */
const isDrop = (t: Taker): boolean =>
  t.wants("goal:drop", "label:drop", "goal:longest-run") || ["drop", "constant", "impedance"].some((key) =>
    t.has(key)
  ) ||
  t.facts.free.some(({ key, value: { sense } }) => key === "%" && sense.is === "quantity" && sense.n <= LARGEST_SHARE);
/** Runs whose load has no circuit of its own kind here: spaced loads, direct current, things that start, a drive's gate. */
const isBesideOthers = (t: Taker): boolean =>
  t.has("spacing") || t.has("phase:direct current") || isLowVoltage(t) || isWireAlone(t) ||
  t.all("transformer", ...DIRECT).length > 0 ||
  t.all("load").some(({ id, slots }) =>
    (slots["locked-rotor-current"] && figureOf(slots["locked-rotor-current"][0])?.unit !== undefined) ||
    (slots.phase?.some(({ sense }) => sense.is === "term" && sense.id === "direct current")) ||
    ((id ?? "") in USES && id !== "lighting" && id !== "receptacles" && (slots.draw || slots.current))
  );

const LOW_VOLTS = [12, 24, 36, 48];
/** `12 V lights, 75 ft of #10`: below the usual supplies nothing but the drop is asked of a run. */
const isLowVoltage = (t: Taker): boolean =>
  [
    ...t.facts.free.filter(({ key }) => key === "V").map(({ value }) => value),
    ...t.all("load").flatMap(({ slots }) => slots.volts ?? []),
  ]
    .some(({ sense }) => sense.is === "quantity" && sense.unit === "V" && LOW_VOLTS.includes(sense.n));
/** `200 ft, is #10 ok`: a wire and a length, and nothing that it feeds or that protects it. */
const isWireAlone = (t: Taker): boolean =>
  t.wants("goal:check") && lines(t).some(({ slots }) => slots.size) &&
  t.facts.facts.every(({ family, id }) => family === "conductor" || id === "set");

function takeLimit(t: Taker, draft: Draft): void {
  const percents = t.facts.free.filter(({ key }) => key === "%" || key === "drop").map(({ value }) => value);
  for (const value of percents) {
    const { sense } = value;
    if (sense.is === "quantity" && (sense.unit !== "%" || sense.n > LARGEST_SHARE)) continue;
    t.use(value, "limit");
    draft.limit ??= { value: (sense as { n: number }).n, unit: "%" };
  }
}

/** A size or a length that is told already turns the wish for it into a check of it. */
function takeFind(t: Taker, draft: Draft): void {
  const hasRun = draft.length ?? draft.segments ?? draft.along ?? draft.points;
  const isChecked = t.asks("goal:check");
  const wantsFar = t.asks("goal:longest-run");
  // What the longest run is wanted in.
  if (wantsFar) t.asks("goal:feet", "goal:metres");
  const wantsSize = t.asks("goal:size");
  const namesWire = t.asks("role:wire");
  const wantsDrop = t.asks("goal:drop");
  const namesDrop = t.asks("label:drop");
  const isPlan = draft.size !== undefined || draft.segments !== undefined;
  const isTold = isPlan || draft.impedance !== undefined;
  if (wantsFar && hasRun === undefined) draft.find = "longest run";
  else if (isPlan && (isChecked || wantsSize || (wantsFar && hasRun))) draft.check = true;
  else if ((wantsSize || namesWire) && !isPlan && !draft.impedance) draft.find = "conductor";
  else if (draft.segments || (isTold && hasRun)) return;
  // Named beside a size, the drop is what is asked; beside a length alone it only says what kind of run it is.
  else if (wantsDrop || (namesDrop && isTold)) draft.find ??= "drop";
}
