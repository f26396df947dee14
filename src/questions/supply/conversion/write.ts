import type { ConversionRequest } from "./request.ts";

/** "in" is a word of its own between two units. */
const text = ({ value, unit }: { value: number | string; unit: string }): string =>
  `${value} ${unit === "in" ? "inches" : unit}`;

/** The request as it would be typed. */
export function write(r: ConversionRequest): string {
  const target = r.to === undefined ? "" : `in ${r.to === "A" ? "amps" : r.to}`;
  const what = [
    r.power && text(r.power),
    r.current && text(r.current),
    r.measure && text(r.measure),
    r.size && String(r.size),
    r.volts && `at ${text(r.volts)}`,
    r.circuit?.replace("-", " "),
    r.powerFactor === undefined ? undefined : `power factor ${r.powerFactor}`,
    r.efficiency && `efficiency ${text(r.efficiency)}`,
    target,
  ].filter((part) => part !== undefined && part !== "");
  return `convert ${what.join(", ")}`;
}
