/** What the kinds that ask about motors are asked by, and what they set aside. */
import type { Said } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";

/** Percentages from here on are shares of a current, below they are limits of a drop. */
const LEAST_SHARE = 100;

/** The share of the current that the device was asked by. */
export function takeShare(t: Taker): Said | undefined {
  const share = t.facts.free.find(({ key, value: { sense } }) =>
    key === "%" && sense.is === "quantity" && sense.n >= LEAST_SHARE
  );
  if (!share) return undefined;
  t.free("%");
  return { value: (share.value.sense as { n: number }).n, unit: "%" };
}
/** Where it stands: it changes nothing of its circuit. */
export const WHERE = ["place:separate-structure", "place:same-building", "place:garage", "place:dry"] as const;
/** A panel named as where the circuit comes from. */
export function setAsidePanels(t: Taker): void {
  t.said(...WHERE);
  for (const panel of t.all("device", "panel", "subpanel", "main", "service")) {
    t.aside(panel, "it sizes nothing here");
    for (const values of Object.values(panel.slots)) {
      for (const value of values) t.aside(value, "the panel's own rating does not size this circuit");
    }
  }
}
/** What every question on motors answers: wire, device, overload, ground, disconnect. */
export const MOTOR_GOALS = [
  "device:breaker",
  "device:fuse",
  "device:overload",
  "device:disconnect",
  "role:wire",
  "role:ungrounded",
  "role:equipment-ground",
  "goal:size",
  "goal:ampacity",
  "circuit:circuit",
  "circuit:feeder",
  "label:full-load-current",
  "label:minimum-circuit-ampacity",
  "label:nameplate",
  "label:locked-rotor-current",
  "label:starting",
  "label:service-factor",
  "label:code-letter",
] as const;
