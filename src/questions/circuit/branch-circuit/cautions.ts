/** Cautions that belong to this circuit, short and specific. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cautionWiring, type Place, unfit } from "../../../rules/fitness.ts";
import { cableGroundTooSmall, cautionCableGround, isLarger } from "../../../rules/grounding.ts";
import { type Findings, isPlan } from "./check.ts";
import type { Circuit, Wire } from "./conductor.ts";
import type { CircuitKind } from "./loads.ts";
import type { CircuitRequest } from "./request.ts";

/** A plan's cable hangs on a ground that it is not usually made with. */
export function checkCableGround(w: Worksheet, r: CircuitRequest, { wire, size, ground }: Result, findings: Findings) {
  const method = r.method ?? (r.wires === undefined ? undefined : "NM cable");
  const raised = wire.isPlanned && cableGroundTooSmall(w, method, size, wire.material, ground);
  if (raised) findings.conditions.push(raised);
}

/** What is mostly outdoors may take its circuit there. */
const OUTDOORS: readonly CircuitKind[] = ["hot-tub", "pool-heater"];
const placeOf = (r: CircuitRequest): Place => ({
  ...r,
  ...((r.loads ?? []).some(({ kind }) => OUTDOORS.includes(kind)) && { way: "to it" as const }),
});

/** A plan's method has to be one that may be used there. */
export function checkMethod(w: Worksheet, r: CircuitRequest, size: Known<"size">, findings: Findings): void {
  if (!isPlan(r)) return;
  for (const { is, because } of unfit(w, placeOf(r), size)) {
    (is === "not ok" ? findings.problems : findings.conditions).push(because);
  }
}

type Result = { circuit: Circuit; wire: Wire; size: Known<"size">; ground: Known<"size"> };

export function caution(w: Worksheet, r: CircuitRequest, { circuit, wire, size, ground }: Result): void {
  const kinds = (r.loads ?? []).map(({ kind }) => kind);
  const is = (...any: typeof kinds) => kinds.some((kind) => any.includes(kind));
  if (is("ev-charger")) {
    const alone = kinds.length > 1 || r.loads![0]!.count > 1 ? "The" : "A circuit of its own; the";
    w.caution(`${alone} charger's setting may not exceed the load used here.`, "ev-circuit");
  }
  if (is("hot-tub", "pool-heater")) {
    w.caution(
      "Ground-fault protection, and a disconnect within sight but not within reach of the water; the tub's own plate decides. NM cable indoors only.",
    );
  }
  if (is("range", "dryer", "wall-oven", "cooktop")) {
    w.caution("A new circuit has four wires: the frame is grounded by its own wire, not by the neutral.");
  }
  if (is("tankless-water-heater")) {
    w.caution("Some makers ask for several circuits or a larger breaker: their instructions win.");
  }
  cautionWiring(w, placeOf(r), size, wire.material, isPlan(r));
  if (r.neutral && circuit.supply.phases === 1 && is("receptacles", "lighting", "load")) {
    w.caution("A shared neutral needs one handle or tie on its breaker's poles, on opposite legs.", "multiwire");
  }
  cautionCableGround(w, r.method, size, wire.material, ground);
  if (isLarger(w, size, wire.needed)) w.caution("Check that the larger wire fits the terminals at both ends.");
  if (circuit.load.welder) {
    w.caution("Conductors this small are for this welder alone: say so at the receptacle.", "welders");
  }
}
