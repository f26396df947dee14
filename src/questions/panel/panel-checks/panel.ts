/** What a panel is in its installation: whether neutral and ground meet in it, what feeds it, which electrodes it wants. */
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { PanelKind, PanelRequest } from "./request.ts";

/** @throws Unclear where it was not told what the panel is: that alone decides. */
export function panelOf({ panel }: PanelRequest): PanelKind {
  if (panel !== undefined) return panel;
  throw need(
    "panel",
    "What is this panel: the first disconnect of the service, fed from it in the same building, in a separate building, after a transformer, or behind a generator's transfer switch?",
    "subpanel in the same building",
  );
}

const CLAUSES: Readonly<Record<PanelKind, string>> = {
  "service panel": "service-bonding",
  "feeder panel": "neutral-bond-once",
  "separate structure": "separate-structure-grounding",
  "after a transformer": "system-bonding-jumper",
  "behind a transfer switch": "neutral-bond-once",
};
const REASONS: Readonly<Record<PanelKind, string>> = {
  "service panel": "the main bonding jumper joins them here, and nothing after it does",
  "feeder panel": "they are joined at the service disconnect only",
  "separate structure": "the equipment ground comes with the feeder, so they are joined at the service only",
  "after a transformer": "the system bonding jumper joins them at one place, the transformer or its first disconnect",
  "behind a transfer switch": "they are joined at the service; the switch leaves the neutral through",
};

export type Bond = { readonly bonded: boolean; readonly step: Known<"word"> };

/** An existing feeder of three wires to another building, where neutral and ground were joined by the rule of its day. */
export const isOldThreeWire = ({ panel, feederWires, existing, phases }: PanelRequest): boolean =>
  panel === "separate structure" && existing === true && feederWires === (phases === 3 ? 4 : 3);

/** Whether neutral and ground are joined in the panel. */
function bondOf(w: Worksheet, r: PanelRequest): Bond {
  const panel = panelOf(r);
  const bonded = (value: boolean, why: string, clause: string): Bond => ({
    bonded: value,
    step: w.given("neutral and ground in this panel", value ? "bonded" : "isolated", why, clause),
  });
  if (isOldThreeWire(r)) {
    const why = "an existing feeder without an equipment ground keeps its bond";
    return bonded(true, why, "existing-three-wire-feeder");
  }
  if (panel === "behind a transfer switch") {
    const why = r.switchedNeutral
      ? "they are joined at the service, and on generator power at the generator, whose neutral the switch brings"
      : REASONS[panel];
    if (r.switchedNeutral === undefined) {
      const because = "most transfer switches of dwellings have no pole for it";
      w.suppose("neutral in the transfer switch", "not switched", because, "switched neutral", "separately-derived");
    }
    return bonded(false, why, CLAUSES[panel]);
  }
  if (panel !== "after a transformer") return bonded(panel === "service panel", REASONS[panel], CLAUSES[panel]);
  if (r.jumperAt === undefined) {
    const because = "nothing was said of a jumper at the transformer, and one of the two places has it";
    const change = "bonded at the transformer";
    w.suppose("system bonding jumper", "in this panel", because, change, "system-bonding-jumper");
  }
  return bonded(r.jumperAt !== "transformer", REASONS[panel], CLAUSES[panel]);
}

/** What all checks of neutral and ground go by, worked once. */
export type Installed = { readonly bond: Bond; readonly phases: 1 | 3 };
export function installed(w: Worksheet, r: PanelRequest): Installed {
  w.part("Neutral and ground");
  const bond = bondOf(w, r);
  w.figure("neutral-bond", bond.step, "neutral bond");
  return { bond, phases: phasesOf(w, r) };
}

/** Phases of the supply: one where none were told, listed. */
function phasesOf(w: Worksheet, { phases }: PanelRequest): 1 | 3 {
  if (phases !== undefined) return phases;
  w.suppose("supply", "single-phase, three-wire", "nothing was said of three phases", "three-phase");
  return 1;
}

/** The panel in words for a sentence. */
export const inWords = (panel: PanelKind): string =>
  ({
    "service panel": "service panel",
    "feeder panel": "feeder panel",
    "separate structure": "panel of a separate structure",
    "after a transformer": "panel after a transformer",
    "behind a transfer switch": "panel behind a transfer switch",
  })[panel];
