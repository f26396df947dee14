import { writeLoad } from "../../../loads/write.ts";
import { CATALOGUE } from "../../../loads/catalogue.ts";
import { writeFloors, writeLockOut } from "../../parts/dwelling-write.ts";
import type { AddedLoad, AddedRequest } from "./request.ts";

const said = ({ value, unit }: { value: number | string; unit: string }): string => `${value} ${unit}`;

const writePhases = ({ phases }: AddedLoad): string =>
  phases ? `${phases === 1 ? "single-phase" : "three-phase"} ` : "";

/** The request as it would be typed. */
export function write(request: AddedRequest): string {
  const { service, added, loads, demand, powerFactor, recorded, calculated, setpoint, method, volts } = request;
  return [
    service ? `room to add on a ${service.value} A service` : "room to add on the panel",
    request.isDwelling === false ? "no dwelling" : "",
    method ? `by the ${method} method` : "",
    ...(added ?? []).map((load) => `add ${writePhases(load)}${writeLoad(load)}`),
    setpoint ? `charger set to ${said(setpoint)}` : "",
    demand ? `peak demand ${said(demand)}${powerFactor ? ` at power factor ${powerFactor.value}` : ""}` : "",
    recorded ? recorded === "one year" ? "over one year" : "30-day recording" : "",
    calculated ? `calculated load ${said(calculated)}` : "",
    request.ownSource ? "solar on it" : "",
    ...writeFloors(request),
    ...(loads ?? []).map((load) => `existing ${writeLoad(load)}`),
    ...(request.without ?? []).map((kind) => `no ${CATALOGUE[kind].name}`),
    request.nothingElse ? "nothing else electric" : "",
    writeLockOut(request.compressorLockedOut),
    request.supply ?? "",
    volts ? said(volts) : "",
    request.system ?? "",
  ].filter((part) => part !== "").join("; ");
}
