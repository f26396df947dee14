/** The run to the unit: its voltage drop, and a larger conductor where the usual limit is passed. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Material, Wiring } from "../../../rules/conductors.ts";
import { showLimit, sizeForDrop } from "../../../rules/size-for-drop.ts";
import { conduitOf, type Drop, dropOf } from "../../../rules/voltage-drop.ts";
import { lengthOf, limitOf, powerFactorOf } from "../../parts/lines.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Checked } from "./check.ts";
import type { CoolingRequest } from "./request.ts";

/** The smallest conductor from `needed` on whose drop stays within the limit; without a length, `needed` itself. */
export function dropHeld(
  w: Worksheet,
  r: CoolingRequest,
  current: Known<"A">,
  needed: Known<"size">,
  wiring: Wiring,
): { size: Known<"size">; drop?: Drop } {
  if (!r.length) return { size: needed };
  const { run, limit } = runTo(w, r, current, wiring.material);
  const dropWith = (size: Known<"size">) => dropOf(w, { ...run, size });
  return sizeForDrop(w, { wiring, needed, limit, clause: "voltage-drop-branch" }, dropWith) ??
    { size: needed, drop: dropWith(needed) };
}

/** The drop of a conductor that was put up and stands; one above the usual limit is a condition, the limit being advice. */
export function dropOfPlan(
  w: Worksheet,
  r: CoolingRequest,
  current: Known<"A">,
  { size, wire }: Checked,
  { material }: Wiring,
): { size: Known<"size">; drop?: Drop } {
  if (!r.length) return { size: size! };
  const { run, limit } = runTo(w, r, current, material);
  const drop = dropOf(w, { ...run, size: size! });
  if (!showLimit(w, drop, limit, "voltage-drop-branch")) {
    const because = w.say`a drop of ${drop.percent} is accepted (${limit} is recommended)`;
    wire.push({ what: "drop", is: r.dropLimit ? "not ok" : "ok if", because });
  }
  return { size: size!, drop };
}

/** The run but for its conductor, and the drop it may have. */
function runTo(w: Worksheet, r: CoolingRequest, current: Known<"A">, material: Material) {
  w.part("Voltage drop");
  const isLoadKnown = !r.minimumCircuitAmpacity || r.compressors !== undefined;
  const run = {
    material,
    conduit: conduitOf(w, r.conduit),
    current,
    length: lengthOf(
      w,
      r,
      isLoadKnown ? undefined : "with the circuit ampacity as the load, which is more than the unit draws",
    ),
    volts: w.take("voltage", r.volts && asQuantity(r.volts), "supply-voltage"),
    phases: r.phases ?? 1 as const,
    powerFactor: powerFactorOf(w, r, "motor-power-factor"),
  };
  if (r.phases === undefined) w.suppose("phases", "single-phase", "no phases were told", "three phase");
  return { run, limit: limitOf(w, r) };
}
