/** Neutral and equipment ground of the feeder, and what the far end needs. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Material } from "../../../rules/conductors.ts";
import { need } from "../../../core/outcome.ts";
import { cautionCableGround, electrodeConductor, equipmentGround, type Supply } from "../../../rules/grounding.ts";
import { leastFeederNeutral, leastServiceNeutral, neutralByLoad, neutralConductor } from "../../../rules/neutral.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Circuit } from "./circuit.ts";
import type { Lines } from "../../parts/lines.ts";
import { type Surroundings } from "./lines.ts";
import type { FeederRequest } from "./request.ts";

/** The lines as the supply that grounding is sized by. */
export const supplyOf = ({ size, material, sets }: Lines): Supply => ({ size, material, ...(sets && { sets }) });

/** Voltages between lines whose supply mostly comes without a neutral, by its phases. */
const USUALLY_WITHOUT = { 1: ["480", "600"], 3: ["240"] };

/** The request with no neutral where nothing was said of one and its system mostly has none. */
export function withUsualNeutral(w: Worksheet, r: FeederRequest, { volts, phases }: Circuit): FeederRequest {
  const isTold = r.neutral !== undefined || r.neutralLoad || r.neutralSize || r.cableWires !== undefined;
  const value = w.value(volts);
  if (isTold || !("n" in value) || !USUALLY_WITHOUT[phases].includes(value.n)) return r;
  const system = w.say`${volts} ${phases === 3 ? "three-phase" : "single-phase"}`;
  w.suppose("neutral", "none", `a ${system} supply mostly has none, and none was told`, "neutral load 40 A");
  return { ...r, neutral: false };
}

/** Asks where the neutral is told to carry more than a line ever does. */
function refuseAboveLines(w: Worksheet, circuit: Circuit, load: Known<"A">): void {
  const most = circuit.loadTold ? circuit.load : circuit.rating;
  if (w.holds(load, "≤", most)) return;
  throw need(
    "neutralLoad",
    w.say`A neutral carries no more than one of the lines, and ${load} is above their ${most}. What is its largest load?`,
    w.say`neutral load ${most}`,
  );
}

/** The neutral: as large as the lines unless its load is told, undefined where none is wanted. */
export function neutralOf(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  lines: Lines,
): Known<"size"> | undefined {
  if (r.neutral === false) return undefined;
  if (!r.neutralLoad || r.cableWires !== undefined) {
    if (r.cableWires === undefined && r.neutralSize === undefined) {
      w.suppose("neutral", "as large as the ungrounded conductors", "its own load was not told", "neutral load 40 A");
    }
    return lines.size;
  }
  const load = w.given("neutral load", asQuantity(r.neutralLoad));
  const addsUp = circuit.phases === 3 && r.nonlinear === true;
  if (!addsUp) refuseAboveLines(w, circuit, load);
  const byLoad = neutralByLoad(w, load, lines, {
    ...around,
    material: lines.material,
    ...(lines.count && { count: lines.count }),
  });
  return neutralConductor(w, byLoad, leastNeutral(w, r, circuit, lines), lines, { clause: clauseOf(r), addsUp });
}

/** Least neutral that the code allows beside these lines, whatever its load. */
export const leastNeutral = (w: Worksheet, r: FeederRequest, circuit: Circuit, lines: Lines): Known<"size"> =>
  r.supply === "service"
    ? leastServiceNeutral(w, supplyOf(lines), r.together)
    : leastFeederNeutral(w, circuit.rating, lines.material, lines.sets);

/** The section on the least neutral. */
export const clauseOf = ({ supply }: FeederRequest): string =>
  supply === "service" ? "grounded-conductor-minimum" : "feeder-neutral-minimum";

/** Equipment ground by the device ahead, grown with the conductors; full size in each raceway of parallel sets. */
export function groundOf(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  lines: Lines,
): { size: Known<"size">; material: Material } {
  const device = r.tappedFrom ? w.given("device ahead of the tap", asQuantity(r.tappedFrom)) : circuit.rating;
  const material = r.groundMaterial ?? lines.material;
  if (!r.groundMaterial) {
    const other = material === "copper" ? "aluminum" : "copper";
    w.suppose("metal of the ground", material, "as the other conductors", `${other} ground`);
  }
  const upsizing = { installed: lines.size, needed: lines.needed };
  const size = equipmentGround(w, device, material, lines.sets ? undefined : lines.size, upsizing);
  cautionCableGround(w, r.method, lines.size, lines.material, size);
  if (lines.sets && !r.together) {
    w.caution("Parallel raceways: this ground in each of them, at its full size.", "equipment-grounding-parallel");
  }
  return { size, material };
}

/** The far end of a feeder: bonding, electrodes, disconnect. */
export function farEnd(w: Worksheet, r: FeederRequest, lines: Lines): void {
  w.part("Far end");
  if (r.neutral !== false) {
    const bond = w.given(
      "neutral at the far panel",
      "isolated",
      "it is bonded at the service disconnect only",
      "neutral-bond-once",
    );
    w.figure("neutral-bond", bond, "neutral bond");
    w.caution(
      "Leave the bonding screw or strap out of the far panel; grounds go on a bar of their own.",
      "neutral-bond-once",
    );
  }
  if (r.where !== "separate structure") {
    if (r.where === undefined) {
      w.suppose("far end", "in the same building", "no other building was named", "detached garage");
    }
    const main = w.given(
      "main breaker at the far panel",
      "not required",
      "the feeder breaker protects it; the panel is rated at least as high",
    );
    w.figure("far-end-disconnect", main, "main at the far panel");
    return;
  }
  const main = w.given(
    "disconnect at the structure",
    "required",
    "a main breaker in the far panel will do; it may be larger than the feeder breaker",
    "separate-structure-disconnect",
  );
  w.figure("far-end-disconnect", main, "disconnect at the structure");
  w.given(
    "electrodes at the structure",
    "required",
    "rods, or whatever electrode is there, bonded to the panel's ground bar",
    "separate-structure-grounding",
  );
  const [spacing, resistance] = [w.constant("rod-spacing"), w.constant("rod-resistance-limit")];
  w.caution(
    w.say`Two ground rods at least ${spacing} apart, unless one alone is shown to be ${resistance} or less.`,
    "rod-electrodes",
  );
  const toRods = electrodeConductor(w, supplyOf(lines), "copper", "rod");
  w.figure("grounding-electrode-conductor", toRods, "copper conductor to the rods");
}
