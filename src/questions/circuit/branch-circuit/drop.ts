/** Voltage drop of the circuit, and the size that keeps it within the limit. */
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cableEnds } from "../../../rules/conductors.ts";
import { showLimit, sizeForDrop } from "../../../rules/size-for-drop.ts";
import { conduitOf, type Drop, dropOf, dropVoltage, type Run } from "../../../rules/voltage-drop.ts";
import { lengthOf, limitOf, powerFactorOf } from "../../parts/lines.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Findings } from "./check.ts";
import type { Circuit, Wire } from "./conductor.ts";
import type { CircuitRequest } from "./request.ts";

export type Dropped = Drop & { size: Known<"size">; length: Known<"ft">; limit: Known<"%"> };

/**
 * The drop over the told length. A conductor that is not fixed by the plan grows until the limit is kept.
 * @returns undefined where no length was told
 */
export function dropped(
  w: Worksheet,
  r: CircuitRequest,
  circuit: Circuit,
  wire: Wire,
  findings: Findings,
): Dropped | undefined {
  if (!r.length) return undefined;
  const { volts, phases } = circuit.supply;
  if (!volts) throw need("volts", "At what voltage? The drop depends on it.", "240 V");
  w.part("Voltage drop");
  const length = lengthOf(w, r);
  const run: Omit<Run, "size"> = {
    material: wire.material,
    conduit: conduitOf(w, r.conduit),
    current: circuit.load.current,
    length,
    volts: dropVoltage(w, volts, r.volts && asQuantity(r.volts)),
    phases,
    powerFactor: powerFactorOf(w, r),
  };
  const limit = limitOf(w, { dropLimit: r.limit });
  const done = wire.isPlanned ? planned(w, run, wire, limit, findings) : upsized(w, run, wire, limit);
  w.figure("voltage-drop-volts", done.volts);
  w.figure("voltage-drop", done.percent, "voltage drop");
  return { ...done, length, limit };
}

function planned(
  w: Worksheet,
  run: Omit<Run, "size">,
  wire: Wire,
  limit: Known<"%">,
  findings: Findings,
): Drop & { size: Known<"size"> } {
  const { size } = wire.chosen;
  const drop = dropOf(w, { ...run, size });
  if (showLimit(w, drop, limit, CLAUSE)) return { ...drop, size };
  const better = w.scratch(() => {
    const found = kept(w, run, wire, limit);
    return found && w.size(found.size);
  });
  findings.conditions.push(
    w.say`${drop.percent} of voltage drop will do (the recommendation is ${limit}, no rule${
      better ? `; ${better} keeps it` : ""
    })`,
  );
  return { ...drop, size };
}

function upsized(w: Worksheet, run: Omit<Run, "size">, wire: Wire, limit: Known<"%">): Drop & { size: Known<"size"> } {
  const found = kept(w, run, wire, limit);
  if (found) return { ...found.drop, size: found.size };
  throw new NotCovered(
    cableEnds(w, wire) ??
      "no single listed conductor keeps the drop within the limit over this length: allow more drop, or a higher voltage",
    w.edition.id,
  );
}

const CLAUSE = "voltage-drop-branch";
/** The smallest size, from the wire's own on, that keeps the limit. */
const kept = (w: Worksheet, run: Omit<Run, "size">, wire: Wire, limit: Known<"%">) =>
  sizeForDrop(
    w,
    { wiring: wire, needed: wire.chosen.size, limit, clause: CLAUSE },
    (size) => dropOf(w, { ...run, size }),
  );
