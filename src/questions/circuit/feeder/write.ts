import { writeElectrode } from "../../parts/electrodes.ts";
import { amount } from "../../parts/quantities.ts";
import { writeWiring } from "../../parts/wiring.ts";
import { writeAvailable } from "../../parts/available-fault.ts";
import type { FeederRequest } from "./request.ts";

/** The request as it would be typed. */
export function write(r: FeederRequest): string {
  const says = (condition: unknown, text: string) => (condition ? text : undefined);
  return [
    r.supply === "service"
      ? "service conductors"
      : r.supply === "feeder"
      ? "feeder conductors to a subpanel"
      : "conductors to a subpanel",
    r.where,
    says(r.wholeDwelling === true, "carries the whole house"),
    says(r.wholeDwelling === false, "not a dwelling"),
    r.breaker && `${amount(r.breaker)} breaker`,
    r.panel && `${amount(r.panel)} panel`,
    r.source && `from a ${amount(r.source)} main panel`,
    r.tappedFrom && `tap from a ${amount(r.tappedFrom)} feeder`,
    r.load && `load of ${amount(r.load)}`,
    r.continuous && `continuous load of ${amount(r.continuous)}`,
    r.neutralLoad && `neutral load ${amount(r.neutralLoad)}`,
    says(r.neutral === false, "no neutral"),
    says(r.nonlinear, "nonlinear loads"),
    r.volts && `${r.volts.value} V`,
    r.phases === undefined ? undefined : r.phases === 3 ? "three phase" : "single phase",
    r.wires === undefined ? undefined : `${r.wires} wires`,
    r.sets === undefined ? undefined : r.sets === 1 ? "one set" : `${r.sets} parallel sets`,
    r.together === undefined ? undefined : r.together ? "all in one conduit" : "in separate conduits",
    ...sizes(r),
    ...writeWiring(r.cableWires === undefined ? r : { ...r, method: undefined }),
    r.electrode && writeElectrode(r.electrode),
    r.conduit && ({ PVC: "in PVC", steel: "in EMT", aluminum: "in aluminum conduit" })[r.conduit],
    r.length && amount(r.length),
    writeAvailable(r),
    r.dropLimit && `${r.dropLimit.value} % drop`,
    says(r.ignoreDrop, "ignore voltage drop"),
    r.powerFactor === undefined ? undefined : `power factor ${r.powerFactor}`,
    // Apart from the insulation and the metal of the others, which are none of their own.
    r.neutralSize && `; neutral ${r.neutralSize}`,
    r.groundSize && `; ground ${r.groundSize}`,
    r.groundMaterial && `; ${r.groundMaterial} ground`,
    says(r.check, "ok?"),
  ].filter((part): part is string => typeof part === "string").join(", ").replaceAll(", ;", ";");
}

function sizes({ sizes = [], cableWires, method }: FeederRequest): string[] {
  if (cableWires === undefined) return sizes.map(String);
  return sizes.map((size) => `${size.name}-${cableWires} ${method ?? "NM cable"}`);
}
