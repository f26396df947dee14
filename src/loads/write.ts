/** A list of loads as it would be typed; reading it gives the same list. */
import { CATALOGUE } from "./catalogue.ts";
import type { ReadLoad } from "./load.ts";

const said = ({ value, unit }: { value: number | string; unit: string }): string => `${value} ${unit}`;

/** `2 × 4 kW 240 V wall ovens`, a gas range, heating with its controls. */
export function writeLoad({ kind, name, count = 1, rating, volts, fuel, units, leg }: ReadLoad): string {
  const { names } = CATALOGUE[kind];
  const plain = fuel === "electric" ? names.find((n) => !n.includes("electric")) : undefined;
  const noun = name ?? plain ?? names[0]!;
  return [
    count > 1 ? String(count) : "",
    rating ? said(rating) : "",
    volts ? said(volts) : "",
    fuel ?? "",
    count > 1 && !noun.endsWith("s") ? `${noun}s` : noun,
    leg ? `on leg ${leg}` : "",
    units === undefined ? "" : `${units} separately controlled units`,
  ].filter((part) => part !== "").join(" ");
}
