/** What one branch circuit takes of the facts: its loads, its breaker, its receptacle, its run, a plan to check. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { takeAvailable } from "../../parts/available-fault.ts";
import { takeDropLimit, takeLength, takePowerFactor, takeSupply, takeWiring } from "../../parts/run-takes.ts";
import type { SaidLoad } from "./request.ts";
import { takeDevice } from "./takes-device.ts";
import { FED, isBranchCircuit } from "./takes-gate.ts";
import { isItsOwnCurrent, isPlain, takeHeads, together } from "./takes-loads.ts";
import { askWhetherDevice, askWhetherOne, askWhetherTransformer } from "./takes-unclear.ts";
import { takeConductor, takeNeutral } from "./takes-wires.ts";

export function takes(t: Taker): Draft | undefined {
  if (!isBranchCircuit(t)) return undefined;
  const heads = t.all("load");
  const draft: Draft = {};
  const supply = takeSupply(t);
  // Below the usual supplies a drop is asked, and no branch circuit.
  if (supply.dc || Number(supply.volts?.value) < LOW_VOLTAGE) return undefined;
  if (supply.volts) draft.volts = supply.volts;
  // `4500/240 is under 20`: the load over its voltage, worked out in the question.
  for (const { key, value } of t.facts.free) {
    const isSum = key === "pair" && value.sense.is === "pair" && value.sense.b === Number(supply.volts?.value);
    if (isSum) t.aside(value, "your own sum, to be held against the one worked out here");
  }
  asideDual(t);
  if (supply.phases) draft.phases = supply.phases;
  if (supply.wye && supply.high === 208) draft.wye = true;
  takeDevice(t, draft);
  const loads = [...draft.loads as Partial<SaidLoad>[] ?? [], ...takeHeads(t, heads, draft)];
  // Hours that stand by themselves are those of all.
  const hours = t.terms("hours");
  for (const load of loads) if (hours.length === 1 && !isPlain(load)) load.continuous ??= hours[0] === "continuous";
  if (loads.length > 0) draft.loads = together(loads, draft.receptacle !== undefined);
  for (const panel of t.all("device", ...FED).filter(({ slots }) => slots.rating)) {
    t.aside(panel, "the circuit starts there");
    for (const value of Object.values(panel.slots).flat()) {
      t.aside(value, "the rating of the panel it starts from does not size this circuit");
    }
  }
  askWhetherOne(t, draft);
  if (!isItsOwnCurrent(t, draft, loads)) askWhetherDevice(t, heads);
  askWhetherTransformer(t, draft, loads);
  takeConductor(t, draft);
  Object.assign(draft, takeWiring(t));
  const length = takeLength(t);
  if (length) draft.length = length;
  const limit = takeDropLimit(t, "%");
  if (limit) draft.limit = limit;
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
  takeNeutral(t, draft, supply);
  takeAvailable(t, draft);
  t.said("motorWord:one-branch", "motorWord:at-once", "motorWord:all-at-once");
  t.asks(
    "label:minimum-protection",
    "device:breaker",
    "role:wire",
    "role:equipment-ground",
    "goal:size",
    "circuit:circuit",
    "device:fuse",
    "device:disconnect",
  );
  if (t.asks("goal:check")) draft.check = true;
  if (draft.length !== undefined && t.wants("device:breaker", "role:wire")) t.asks("label:drop", "goal:drop");
  const isPlan = draft.breaker && (draft.size || t.wants("circuit:circuit", "role:wire"));
  return draft.loads || draft.receptacle || isPlan || (draft.size && t.wants("device:breaker")) ? draft : undefined;
}

/** Landscape lights, controls and batteries (common practice, no source). */
const LOW_VOLTAGE = 60;

/** `208/240 on the label`: made for either; the supply decides, which is told or taken as an assumption. */
function asideDual(t: Taker): void {
  for (const { key, value } of t.facts.free) {
    const { sense } = value;
    if (key !== "pair" || sense.is !== "pair" || sense.unit !== undefined) continue;
    if (sense.a === DUAL.low && DUAL.high.includes(sense.b)) {
      t.aside(value, "made for either voltage: the supply's counts");
    }
  }
}
const DUAL = { low: 208, high: [220, 230, 240] };
