import { equipment } from "../../../loads/equipment.ts";
import type { Occupancy } from "../../../rules/occupancies.ts";
import { writeSystem } from "../../../rules/systems.ts";
import { writeService } from "../../parts/load-service.ts";
import type { OccupancyLoad, OccupancyRequest } from "./request.ts";

type Amount = { value: number | string; unit: string };
const said = ({ value, unit }: Amount): string => `${value} ${unit === "ft2" ? "sq ft" : unit}`;

/** Uses whose name alone would be read otherwise. */
const USES: Readonly<Partial<Record<Occupancy, string>>> = {
  club: "social club",
  transportation: "transportation building",
  workshop: "commercial workshop",
  storage: "storage space",
};

function writeLoad({ kind, name, count, rating, volts, phases, fuel, continuous }: OccupancyLoad): string {
  const own: string = equipment(kind).name;
  const noun = name ?? (fuel === undefined ? own : own.replace(/^electric /, ""));
  return [
    count > 1 ? (rating ? `${count} ×` : String(count)) : "",
    rating ? said(rating) : "",
    volts ? said(volts) : "",
    phases === undefined ? "" : phases === 3 ? "three-phase" : "single-phase",
    fuel ?? "",
    count > 1 && !/s$|equipment$/.test(noun) ? `${noun}s` : noun,
    continuous === undefined ? "" : continuous ? "continuous" : "noncontinuous",
  ].filter((part) => part !== "").join(" ");
}

const writeLuminaires = (name: string, told: OccupancyRequest["lighting"] = []): string[] =>
  told.map(({ count, rating }) => `${count > 1 ? `${count} × ` : ""}${said(rating)} ${name}`);

/** The request as it would be typed. */
export function write(r: OccupancyRequest): string {
  return [
    `occupancy load calculation${r.method ? `, ${r.method} method` : ""}`,
    r.connected && `${r.connected.use}, ${said(r.connected.load)} connected in all`,
    r.part && `${r.part === "lighting" ? "lighting" : "receptacle"} load`,
    ...(r.areas ?? []).map(({ area, occupancy }) => `${said(area)} ${USES[occupancy] ?? occupancy}`),
    ...writeLuminaires("lighting", r.lighting),
    r.lightingPerArea && `lighting ${said(r.lightingPerArea)}`,
    ...writeLuminaires("outdoor lighting", r.outdoorLighting),
    r.receptacles === undefined ? "" : r.receptacles === 0 ? "no receptacles" : `${r.receptacles} receptacles`,
    r.receptacleLoad && `receptacles ${said(r.receptacleLoad)}`,
    r.receptaclesPerArea && `receptacles ${said(r.receptaclesPerArea)}`,
    r.multioutlet && `${said(r.multioutlet)} multioutlet assembly`,
    r.multioutletTogether === undefined ? "" : `outlets ${r.multioutletTogether ? "" : "not "}used together`,
    r.multioutletLoad && `multioutlet assembly ${said(r.multioutletLoad)}`,
    r.showWindow && `${said(r.showWindow)} show window`,
    r.trackLighting && `${said(r.trackLighting)} track lighting`,
    ...(r.loads ?? []).map(writeLoad),
    r.allElectric === undefined ? "" : r.allElectric ? "fully electric" : "not all electric",
    r.linear === undefined ? "" : r.linear ? "linear loads" : "nonlinear loads",
    r.system && writeSystem(r.system),
    ...writeService(r),
    r.upTo === "service" ? "what service" : "",
  ].filter((part) => part).join("; ");
}
