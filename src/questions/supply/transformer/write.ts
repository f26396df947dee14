/** The request as it would be typed. */
import { writeWiring } from "../../parts/wiring.ts";
import type { TransformerRequest } from "./request.ts";

export function write(r: TransformerRequest): string {
  const secondary = r.system ? `${r.system} V` : r.secondary && `${r.secondary.value} ${r.secondary.unit}`;
  return [
    r.autotransformer ? "buck-boost transformer" : "transformer",
    r.power && `${r.power.value} ${r.power.unit}`,
    r.phases && (r.phases === 3 ? "three phase" : "single phase"),
    r.primary && `primary ${r.primary.value} ${r.primary.unit}`,
    secondary && `secondary ${secondary}${r.winding === "delta" && !r.system ? " delta" : ""}`,
    r.winding === "delta" && !secondary ? "delta secondary" : undefined,
    r.winding === "two-wire" ? "two-wire" : undefined,
    // "a continuous load" on two wires sounds like a branch circuit's.
    r.load && `${r.load.value} ${r.load.unit} load${r.continuous ? " running continuously" : ""}`,
    r.continuous && !r.load && "running continuously",
    r.powerFactor && `power factor ${r.powerFactor}`,
    r.protection && (r.protection === "primary only" ? "primary protection only" : "primary and secondary protection"),
    r.impedance && `impedance ${r.impedance.value} %`,
    r.thermallyProtected ? "thermal protection" : undefined,
    r.primaryBreaker && `${r.primaryBreaker.value} A primary breaker`,
    r.secondaryBreaker && `${r.secondaryBreaker.value} A secondary breaker`,
    r.primarySize && `${r.primarySize} on the primary`,
    r.secondarySize && `${r.secondarySize} on the secondary`,
    r.length && `${r.length.value} ft`,
    r.electrode && ELECTRODES[r.electrode],
    ...writeWiring(r),
    r.conduit && `${r.conduit} conduit`,
  ].filter((part): part is string => typeof part === "string").join(", ");
}

const ELECTRODES = {
  "water pipe": "to water pipe",
  "building steel": "to building steel",
  rod: "ground rods only",
  "concrete-encased": "concrete-encased electrode",
  "ground ring": "ground ring",
};
