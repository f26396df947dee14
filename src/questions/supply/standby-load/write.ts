import { writeLoad } from "../../../loads/write.ts";
import { writeFloors, writeLockOut } from "../../parts/dwelling-write.ts";
import type { Power, StandbyRequest } from "./request.ts";

const told = ({ value, unit }: Power): string => `${value} ${unit}`;

/** The request as it would be typed. */
export const write = (r: StandbyRequest): string =>
  [
    `${r.generator ? `${told(r.generator)} ` : ""}generator`,
    r.transfer && (r.transfer === "automatic" ? "automatic transfer switch" : "manual transfer switch"),
    r.managed && "load management",
    r.setting && `load management set to ${told(r.setting)}`,
    r.inlet && `${r.inlet.value} A inlet`,
    r.breaker && `${r.breaker.value} A breaker`,
    r.volts && `${r.volts.value} V`,
    r.supply,
    r.powerFactor !== undefined && `power factor ${r.powerFactor}`,
    ...(r.areas || r.smallApplianceCircuits !== undefined || r.laundryCircuits !== undefined ? writeFloors(r) : []),
    ...(r.loads ?? []).map((load) => writeLoad(load)),
    r.areas && !r.loads?.length && "nothing else electric",
    writeLockOut(r.compressorLockedOut),
    r.load && `calculated load ${told(r.load)}`,
    r.material,
    r.terminals && `${r.terminals.value} °C terminals`,
    r.find === "conductors" ? "what size wire" : "what must it carry",
  ].filter(Boolean).join("; ");
