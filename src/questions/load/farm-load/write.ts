import { writeSystem } from "../../../rules/systems.ts";
import { writeService } from "../../parts/load-service.ts";
import type { Building, FarmRequest } from "./request.ts";

type Amount = { value: number | string; unit: string };
const said = ({ value, unit }: Amount): string => `${value} ${unit}`;

const writeBuilding = ({ name = "building", count, load, together, motor }: Building): string =>
  [
    `${count > 1 ? `${count} × ` : ""}${name}${load ? ` ${said(load)}` : ""}`,
    together ? `${said(together)} run together` : "",
    motor ? `largest motor ${said(motor)}` : "",
  ].filter((part) => part !== "").join(", ");

/** The request as it would be typed. */
export const write = (r: FarmRequest): string =>
  [
    "farm load",
    r.system ? writeSystem(r.system) : "",
    r.asCalculated === undefined ? "" : r.asCalculated ? "loads already calculated" : "loads as connected",
    ...(r.buildings ?? []).map(writeBuilding),
    r.dwelling ? `farm dwelling ${said(r.dwelling)}` : "",
    ...writeService(r),
  ].filter((part) => part).join("; ");
