import { writeLoad } from "../../../loads/write.ts";
import { writeFloors, writeLockOut } from "../../parts/dwelling-write.ts";
import { writeService } from "../../parts/load-service.ts";
import type { MultifamilyRequest, UnitRequest, WrittenUnitLoad } from "./request.ts";

const SYSTEMS = {
  "120/240": "120/240 V",
  "120/208": "208Y/120 V single phase",
  "208Y/120": "208Y/120 V three phase",
} as const;

const writeLoads = (loads: readonly WrittenUnitLoad[] | undefined): string[] =>
  loads?.length ? loads.map((load) => writeLoad(load)) : ["nothing else electric"];

const writeUnit = (unit: UnitRequest, isConnected: boolean): string[] => [
  `${unit.count} apartment${unit.count === 1 ? "" : "s"}${isConnected ? "" : ", each"}`,
  ...writeFloors(unit),
  ...(isConnected ? [] : writeLoads(unit.loads)),
];

/** The request as it would be typed. */
export function write(request: MultifamilyRequest): string {
  const { method, system, units = [], connected, house, others = [], compressorLockedOut } = request;
  return [
    `multifamily load${method ? `, ${method} method` : ""}`,
    system ? SYSTEMS[system] : "",
    ...writeService(request),
    writeLockOut(compressorLockedOut),
    ...others.map(({ name = "shop", load, signs = 0 }) =>
      `${name}${load ? ` ${load.value} ${load.unit}` : ""}${
        signs > 0 ? ` and ${signs} sign outlet${signs > 1 ? "s" : ""}` : ""
      }`
    ),
    connected ? `${connected.value} ${connected.unit} connected in all` : "",
    ...units.flatMap((unit) => writeUnit(unit, connected !== undefined)),
    ...(house?.length ? ["common area", ...house.map((load) => writeLoad(load))] : []),
  ].filter((part) => part !== "").join("; ");
}
