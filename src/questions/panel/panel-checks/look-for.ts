/** What a reading means that is not the expected one, and how to look for its cause: the likeliest and quickest first. */
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Read } from "./pair.ts";
import type { Bond } from "./panel.ts";
import type { PanelRequest } from "./request.ts";

/** Sentences for the headline; the steps are written down as well, one by one. */
export function lookFor(w: Worksheet, r: PanelRequest, odd: Read, bond: Bond): string {
  const steps = stepsFor(r, odd, bond);
  w.part("What to look for");
  steps.forEach(([what, why], i) => w.given(`${i + 1}`, what, why));
  return steps.map(([what]) => what).join("; ");
}

function stepsFor(r: PanelRequest, { pair, word, is }: Read, bond: Bond): readonly Look[] {
  if (pair.some((point) => point.startsWith("line"))) return LINE;
  if (!pair.includes("neutral bar")) return CASE;
  if (bond.bonded) return NO_BOND;
  if (is === "ok if") return THROUGH_SERVICE;
  if (r.feederNeutral === "connected") return NO_RETURN;
  if (word === "between") return LEAK;
  return r.feederNeutral === "lifted" ? SURE_BOND : SECOND_BOND;
}

type Look = readonly [what: string, why: string];

/** Neutral and ground closed where they are to be apart. */
const SECOND_BOND: readonly Look[] = [
  [
    "lift the feeder neutral off its bar and read again, for on it the beep goes through the bond at the service",
    "both meet there",
  ],
  ["still closed, there is a second bond: the green bonding screw or strap", "new panels often come with it fitted"],
  ["a bare ground on the neutral bar, or a neutral bar screwed to the case", "every ground goes on the ground bar"],
  [
    "then lift the branch neutrals one by one: where the beep stops, that circuit joins neutral and ground downstream",
    "a bonded range or dryer, a bare ground against a neutral screw, a further panel with its bond",
  ],
];
/** The same where the feeder's neutral is known to be lifted. */
const SURE_BOND: readonly Look[] = [
  ["a second bond: take out the green bonding screw or strap", "new panels often come with it fitted"],
  ...SECOND_BOND.slice(2),
];
/** Neither closed nor open: through something, not through metal. */
const LEAK: readonly Look[] = [
  [
    "neutral touches ground through something: lift the feeder neutral, unplug every load, read again",
    "a load's filter or a wet box reads between",
  ],
  ["then lift the branch neutrals one by one until it opens", "that circuit leaks downstream"],
];
/** Closed with the feeder's neutral on its bar. */
const THROUGH_SERVICE: readonly Look[] = [
  ["the beep goes through the bond at the service and tells nothing of this panel", "neutral and ground meet there"],
  ["lift the feeder neutral off its bar and read again", "then neutral to ground has to read open"],
  ["still closed: green bonding screw or strap, a ground on the neutral bar, a bond downstream", "a second bond"],
];
/** Open with the feeder's neutral on its bar. */
const NO_RETURN: readonly Look[] = [
  ["feeder neutral or equipment ground is open on the way to the service", "both meet at the service bond"],
  ["check both ends of each, lug by lug", "a fault here may not trip, or a lost neutral unbalances the voltage"],
];
/** Open where neutral and ground are to be joined. */
const NO_BOND: readonly Look[] = [
  [
    "the bonding jumper is missing or loose: fit the screw, strap or wire",
    "without it a fault does not trip a breaker",
  ],
  ["then the neutral bar's own fastening, and paint under the ground bar", "metal to metal"],
];
const CASE: readonly Look[] = [
  [
    "the ground bar does not touch the case: tighten its screws, clear the paint",
    "the case would stay live on a fault",
  ],
  ["or its bonding strap is missing", "a bar on insulators wants one"],
];
const LINE: readonly Look[] = [
  [
    "a path that should not be there: main and every branch breaker off, surge device and meters unplugged",
    "loads read closed",
  ],
  ["still closed: lift the branch wires one by one until it opens", "a nicked wire, a screw through a cable"],
  ["do not energize before it reads open", "it would be a short"],
];
