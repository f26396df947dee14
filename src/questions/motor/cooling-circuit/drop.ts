/** The run to the unit: its voltage drop, and a larger conductor where the usual limit is passed. */
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { type Material, sizesMade, type Wiring } from "../../../rules/conductors.ts";
import { conduitOf, type Drop, dropOf } from "../../../rules/voltage-drop.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Checked } from "./check.ts";
import type { CoolingRequest } from "./request.ts";

/** The smallest conductor from `needed` on whose drop stays within the limit; without a length, `needed` itself. */
export function dropHeld(
  w: Worksheet,
  r: CoolingRequest,
  current: Known<"A">,
  needed: Known<"word">,
  wiring: Wiring,
): { size: Known<"word">; drop?: Drop } {
  if (!r.length) return { size: needed };
  const { run, limit } = runTo(w, r, current, wiring.material);
  const listed = sizesMade(w, wiring);
  const found = w.first(listed.slice(listed.indexOf(w.word(needed))), (word) => {
    const size = word === w.word(needed) ? needed : w.lookUp<"word">(
      "conductor for the drop",
      "conductor-ampacity",
      "size",
      word,
      "smaller ones drop more than the limit",
    );
    const drop = dropOf(w, { ...run, size });
    return w.holds(drop.percent, "≤", limit) ? { size, drop } : undefined;
  });
  return found ?? { size: needed, drop: dropOf(w, { ...run, size: needed }) };
}

/** The drop of a conductor that was put up and stands; one above the usual limit is a condition, the limit being advice. */
export function dropOfPlan(
  w: Worksheet,
  r: CoolingRequest,
  current: Known<"A">,
  { size, wire }: Checked,
  { material }: Wiring,
): { size: Known<"word">; drop?: Drop } {
  if (!r.length) return { size: size! };
  const { run, limit } = runTo(w, r, current, material);
  const drop = dropOf(w, { ...run, size: size! });
  w.choose("drop against the limit", [drop.percent, "≤", limit], ["kept", () => {}], ["above it", () => {
    const because = w.say`a drop of ${drop.percent} is accepted (${limit} is recommended)`;
    wire.push({ what: "drop", is: r.dropLimit ? "not ok" : "ok if", because });
  }], "voltage-drop-branch");
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
    length: w.given(
      "length, one way",
      convert(asQuantity(r.length!), "ft"),
      isLoadKnown ? undefined : "with the circuit ampacity as the load, which is more than the unit draws",
    ),
    volts: w.take("voltage", r.volts && asQuantity(r.volts), "supply-voltage"),
    phases: r.phases ?? 1 as const,
    powerFactor: w.take(
      "power factor",
      r.powerFactor === undefined ? undefined : { n: String(r.powerFactor), unit: "1" },
      "motor-power-factor",
    ),
  };
  if (r.phases === undefined) w.suppose("phases", "single-phase", "no phases were told", "three phase");
  const limit = w.take("voltage drop limit", r.dropLimit && asQuantity(r.dropLimit), "voltage-drop-limit");
  return { run, limit };
}
