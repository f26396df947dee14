import { writeWiring } from "../../parts/wiring.ts";
import type { DropRequest } from "./request.ts";

type Quantity = { value: number | string; unit: string };
const text = ({ value, unit }: Quantity): string => `${value} ${unit}`;
/** Names the kind beyond doubt, and by itself asks for none of its turns. */
const LEAD = "voltage drop of a wire run";
const TURNS = { drop: ", drop wanted", conductor: ", smallest conductor", "longest run": ", longest run" } as const;
/** What the load is called, one of them and several. */
const NAMES = {
  lights: ["lights", "lights"],
  receptacles: ["receptacles", "receptacles"],
  "gate operator": ["gate operator", "gate operators"],
  motor: ["motor", "motors"],
} as const;

/** The request as it would be typed. */
export function write(r: DropRequest): string {
  const said = (value: Quantity | undefined, before: string, after = "") =>
    value ? `${before}${text(value)}${after}` : "";
  const size = r.find === "conductor" || r.size === undefined ? "" : String(r.size);
  // A wire of which no length is told is asked how far it may go.
  const isFar = r.size !== undefined && !(r.length ?? r.segments ?? r.along ?? r.points);
  const turn = r.find ?? (isFar ? "longest run" : undefined);
  const length = r.find === "longest run" ? "" : said(r.length, "", " one way");
  return [
    `${LEAD}${turn ? TURNS[turn] : ""}:`,
    said(r.volts, ""),
    r.system === undefined ? "" : `${r.system} V system`,
    r.circuit?.replace("-", " ") ?? "",
    loadText(r),
    said(r.breaker, "", " breaker"),
    said(r.starting, "starting "),
    ...(r.points ?? []).map(({ load, at }) => `${text(load)} at ${text(at)}`),
    length,
    ...(r.segments ?? []).map((each) =>
      each.size === undefined
        ? `${text(each.length)} of wire to find`
        : `${text(each.length)} of ${each.size}${each.material ? ` ${each.material}` : ""}`
    ),
    size,
    // What holds for all stretches stands apart from the last of them.
    r.segments ? ";" : "",
    ...writeWiring(r),
    r.conduit ? `in ${r.conduit} conduit` : "",
    r.sets === undefined ? "" : `${r.sets} sets in parallel`,
    said(r.limit, "drop limit "),
    r.powerFactor === undefined ? "" : `power factor ${r.powerFactor}`,
    said(r.impedance, "impedance "),
    said(r.temperature, "conductor temperature "),
    r.table === undefined ? "" : `${r.table} table`,
    r.constant ? `constant K ${r.constant.value}` : "",
  ].filter((part) => part !== "").join(", ").replace(":,", ":").replace(", ;,", ";").replace(/, ;$/, "") +
    (r.check ? ", ok?" : "");
}

function loadText({ load, count, along, use }: DropRequest): string {
  const [one, several] = use ? NAMES[use] : ["load", "loads"] as const;
  const each = load ? ` of ${text(load)} each` : "";
  const where = along
    ? ` at ${text(along.spacing)} spacing${along.first ? ` starting at ${text(along.first)}` : ""}`
    : "";
  if (count !== undefined) return `${count} ${several}${each}${where}`;
  if (along) return `${several}${load ? `, ${text(load)} each` : ""},${where}`;
  if (load) return `${one} ${text(load)}`;
  return use ? one : "";
}
