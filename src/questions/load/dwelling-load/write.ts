import { writeElectrode } from "../../parts/electrodes.ts";
import { writeFloors, writeLockOut } from "../../parts/dwelling-write.ts";
import { writeLoad } from "../../../loads/write.ts";
import type { DwellingRequest } from "./request.ts";

/** The request as it would be typed. */
export function write(request: DwellingRequest): string {
  return [
    `dwelling load${request.method ? `, ${request.method} method` : ""}`,
    ...writeFloors(request),
    ...(request.loads?.length ? request.loads.map((load) => writeLoad(load)) : ["nothing else electric"]),
    writeLockOut(request.compressorLockedOut),
    request.panel === undefined ? "" : `panel ${request.panel}`,
    request.system ?? "",
    request.service ? `service to check ${request.service.value} A` : "",
    request.material ?? "",
    request.electrode === undefined ? "" : writeElectrode(request.electrode),
  ].filter((part) => part !== "").join("; ");
}
