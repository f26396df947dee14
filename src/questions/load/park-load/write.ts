import { writeService } from "../../parts/load-service.ts";
import type { ParkRequest, Receptacle, Site } from "./request.ts";

const NOUNS = { "recreational vehicle park": "site", "mobile home park": "lot", marina: "slip" } as const;

const writeReceptacle = ({ count, rating, volts, phases }: Receptacle): string =>
  [
    count > 1 ? `${count} ×` : "",
    `${rating.value} A`,
    volts ? `${volts.value} V` : "",
    phases ? (phases === 3 ? "three-phase" : "single-phase") : "",
    `receptacle${count > 1 ? "s" : ""}`,
  ].filter((part) => part !== "").join(" ");

function writeSite({ count = 1, receptacles, tent, load }: Site, noun: string): string {
  const sites = `${count} ${tent ? "tent site" : noun}${count > 1 ? "s" : ""}`;
  const each = receptacles ? receptacles.map(writeReceptacle).join(" and ") : load ? `${load.value} ${load.unit}` : "";
  return each === "" ? sites : `${sites}, each with ${each}`;
}

/** The request as it would be typed. */
export const write = (r: ParkRequest): string =>
  [
    r.park,
    r.system ?? "",
    ...(r.sites ?? []).map((site) => writeSite(site, NOUNS[r.park ?? "recreational vehicle park"])),
    r.metered === undefined ? "" : r.metered ? "each slip metered" : "not metered",
    ...(r.others ?? []).map(({ name = "other load", load }) => `${name} ${load.value} ${load.unit}`),
    ...writeService(r),
  ].filter((part) => part).join("; ");
