/** The load on an existing service by what was recorded of it. */
import { calc } from "../core/formula.ts";
import type { Quantity } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { apparentOfReal, apparentPower, type Phases } from "./power.ts";

/** A highest demand as a request tells it, and the power factor that was told with it. */
type Recorded = { demand: Quantity<"A" | "W" | "kW" | "VA" | "kVA">; powerFactor?: Quantity<"1"> | undefined };

/** The recorded demand in VA, with the share by which it counts. Amperes are those of the line that carried most. */
export function measuredLoad(w: Worksheet, { demand, powerFactor }: Recorded, volts: Known<"V">, phases: Phases) {
  const highest = recordedPower(w, demand, powerFactor, volts, phases);
  return w.work(
    "existing load by record",
    "VA",
    calc`${highest} × ${w.constant("measured-demand-factor")}`,
    "measured-demand",
  );
}

function recordedPower(
  w: Worksheet,
  { n, unit }: Recorded["demand"],
  powerFactor: Recorded["powerFactor"],
  volts: Known<"V">,
  phases: Phases,
): Known<"VA"> {
  const name = "highest recorded demand";
  if (unit === "A") return apparentPower(w, w.given(name, { n, unit }), volts, phases);
  if (unit === "VA" || unit === "kVA") return w.work(name, "VA", calc`1 × ${w.given("recorded", { n, unit })}`);
  const real = w.given("recorded", { n, unit });
  const watts = w.work("highest recorded demand, watts", "W", calc`1 × ${real}`);
  return apparentOfReal(w, watts, w.take("power factor", powerFactor, "power-factor"));
}
