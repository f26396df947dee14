import { writeElectrode } from "../../parts/electrodes.ts";
import { writeLoad } from "../../../loads/write.ts";
import type { DwellingRequest } from "./request.ts";

const SPACE_WORDS = { living: "", "unfinished, adaptable": "unfinished space, can be finished" } as const;

function writeArea({ area, space }: NonNullable<DwellingRequest["areas"]>[number]): string {
  const size = `${area.value} ${area.unit === "ft2" ? "sq ft" : "m2"}`;
  return space in SPACE_WORDS
    ? `${size} ${SPACE_WORDS[space as keyof typeof SPACE_WORDS]}`.trim()
    : `${size} ${space === "unfinished" ? "unfinished space" : space}`;
}

/** The request as it would be typed. */
export function write(request: DwellingRequest): string {
  const circuits = (n: number, what: string) => `${n} ${what} circuit${n === 1 ? "" : "s"}`;
  return [
    `dwelling load${request.method ? `, ${request.method} method` : ""}`,
    ...(request.areas ?? []).map(writeArea),
    request.smallApplianceCircuits === undefined ? "" : circuits(request.smallApplianceCircuits, "small-appliance"),
    request.laundryCircuits === undefined
      ? ""
      : request.laundryCircuits === 0
      ? "no laundry circuit"
      : circuits(request.laundryCircuits, "laundry"),
    ...(request.loads?.length ? request.loads.map((load) => writeLoad(load)) : ["nothing else electric"]),
    request.compressorLockedOut === undefined
      ? ""
      : request.compressorLockedOut
      ? "compressor locked out"
      : "not interlocked",
    request.panel === undefined ? "" : `panel ${request.panel}`,
    request.system ?? "",
    request.service ? `service to check ${request.service.value} A` : "",
    request.material ?? "",
    request.electrode === undefined ? "" : writeElectrode(request.electrode),
  ].filter((part) => part !== "").join("; ");
}
