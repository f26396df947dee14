import { writeLoad } from "../../../loads/write.ts";
import { writeFloors, writeLockOut } from "../../parts/dwelling-write.ts";
import { writeService } from "../../parts/load-service.ts";
import type { MobileHomeRequest } from "./request.ts";

/** The request as it would be typed. */
export const write = (r: MobileHomeRequest): string =>
  [
    `mobile home load${r.method ? `, ${r.method} method` : ""}`,
    ...writeFloors(r),
    ...(r.loads?.length ? r.loads.map((load) => writeLoad(load)) : ["nothing else electric"]),
    writeLockOut(r.compressorLockedOut),
    r.cord ? `${r.cord.value} A power cord` : "",
    ...writeService(r),
  ].filter((part) => part !== "").join("; ");
