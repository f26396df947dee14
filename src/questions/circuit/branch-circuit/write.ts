import { writeWiring } from "../../parts/wiring.ts";
import { nameOf } from "./loads.ts";
import { writeAvailable } from "../../parts/available-fault.ts";
import type { CircuitRequest, SaidLoad } from "./request.ts";

function writeLoad({ kind, count, rating, current, blower, continuous, gallons, dutyCycle }: SaidLoad): string {
  return [
    count === 1 ? undefined : `${count}`,
    rating && `${rating.value} ${rating.unit}`,
    gallons && `${gallons} gallon`,
    continuous === undefined ? undefined : continuous ? "continuous" : "noncontinuous",
    nameOf(kind),
    current && `nameplate ${current.value} A`,
    blower && `with ${blower.value} A blower`,
    dutyCycle && `${dutyCycle} % duty cycle`,
  ].filter(Boolean).join(" ");
}

/** The request as it would be typed. */
export function write(r: CircuitRequest): string {
  const parts = [
    ...(r.loads ?? []).map(writeLoad),
    r.volts && `${r.volts.value} V`,
    r.phases && (r.phases === 3 ? "three phase" : "single phase"),
    r.wye && "208Y/120",
    r.neutral === undefined ? undefined : r.neutral ? "with neutral" : "no neutral",
    r.neutralCounts && "the neutral counts",
    r.receptacle && `${r.receptacle.value} A receptacle`,
    r.breaker && `${r.breaker.value} A breaker`,
    r.size && (r.wires ? `${r.size.name}/${r.wires}` : `${r.size} wire`),
    r.options && r.options.join(" or "),
    r.length && `${r.length.value} ${r.length.unit} run`,
    writeAvailable(r),
    r.limit && `${r.limit.value} % drop`,
    r.powerFactor && `power factor ${r.powerFactor}`,
    r.circuits && `${r.circuits} circuits together`,
    ...writeWiring(r),
    r.conduit && `${r.conduit} conduit`,
    r.check && "ok?",
  ];
  // Of a wire alone what is asked is its breaker.
  const isWire = r.size !== undefined && !(r.loads ?? r.breaker ?? r.receptacle);
  return `${isWire ? "breaker" : "branch circuit"} for ${parts.filter(Boolean).join(", ")}`;
}
