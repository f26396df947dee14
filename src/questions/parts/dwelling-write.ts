/** A dwelling's areas and circuits as they would be typed. */
import type { DwellingFields } from "./dwelling-request.ts";

const SPACE_WORDS = { living: "", "unfinished, adaptable": "unfinished space, can be finished" } as const;

function writeArea({ area, space }: NonNullable<DwellingFields["areas"]>[number]): string {
  const size = `${area.value} ${area.unit === "ft2" ? "sq ft" : "m2"}`;
  return space in SPACE_WORDS
    ? `${size} ${SPACE_WORDS[space as keyof typeof SPACE_WORDS]}`.trim()
    : `${size} ${space === "unfinished" ? "unfinished space" : space}`;
}

/** Its floor areas, and the circuits that are counted with them. */
export function writeFloors(
  { areas, smallApplianceCircuits, laundryCircuits }: Pick<
    DwellingFields,
    "areas" | "smallApplianceCircuits" | "laundryCircuits"
  >,
): string[] {
  const circuits = (n: number, what: string) => `${n} ${what} circuit${n === 1 ? "" : "s"}`;
  return [
    ...(areas ?? []).map(writeArea),
    smallApplianceCircuits === undefined ? "" : circuits(smallApplianceCircuits, "small-appliance"),
    laundryCircuits === undefined
      ? ""
      : laundryCircuits === 0
      ? "no laundry circuit"
      : circuits(laundryCircuits, "laundry"),
  ];
}

/** Whether a heat pump's compressor stops for its supplemental heat. */
export const writeLockOut = (compressorLockedOut: boolean | undefined): string =>
  compressorLockedOut === undefined ? "" : compressorLockedOut ? "compressor locked out" : "not interlocked";
