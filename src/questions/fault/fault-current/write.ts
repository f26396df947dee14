/** The request as it would be typed. */
import type { FaultRequest, Segment } from "./request.ts";

type Quantity = { value: number | string; unit: string };
const text = ({ value, unit }: Quantity): string => `${value} ${unit}`;

export function write(r: FaultRequest): string {
  const said = (value: Quantity | undefined, before: string, after = "") =>
    value ? `${before}${text(value)}${after}` : undefined;
  const [wire] = r.run ?? [];
  return [
    `available fault current wanted: ${
      [
        r.power ? `${text(r.power)} transformer` : undefined,
        said(r.impedance, "impedance "),
        toleranceOf(r),
        r.source ? `source fault current ${text(r.source)}` : undefined,
        said(r.primaryFault, "utility fault current "),
        said(r.primary, "primary "),
        r.ratio === undefined ? undefined : `X/R ratio ${r.ratio}`,
        said(r.volts, "voltage "),
        r.system && `${r.system} V system`,
        r.phases && (r.phases === 3 ? "three phase" : "single phase"),
        r.fault && `${r.fault.replaceAll("-", " ")} fault`,
        r.conduit && `in ${r.conduit} conduit`,
        said(r.motors, "motor load "),
        said(r.temperature, "conductor temperature "),
      ].filter((part) => part !== undefined).join(", ")
    }`,
    ...(wire ? r.run!.map(segmentText) : []),
    r.at && `wanted at the ${r.at}`,
    r.series && "series rated",
    r.rating && `is an interrupting rating of ${text(r.rating)} ok?`,
  ].filter((part) => part !== undefined).join("; ").replace(": ;", ":");
}

function toleranceOf({ tolerance }: FaultRequest): string | undefined {
  return tolerance && (tolerance.value === 0 ? "no tolerance" : `tolerance ${text(tolerance)}`);
}

const segmentText = ({ length, size, material, sets, from, to }: Segment): string =>
  [
    from && `from the ${from}`,
    length && `${text(length)} of`,
    sets && `${sets} sets of`,
    size === undefined ? "wire" : String(size),
    material,
    to && `to the ${to}`,
  ].filter((part) => part !== undefined).join(" ");
