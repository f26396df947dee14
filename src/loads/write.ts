/** A list of loads as it would be typed; reading it gives the same list. */
import { CATALOGUE, type LoadKind } from "./catalogue.ts";

/** A load as a request holds it, and `other` loads with their own name. */
type WrittenLoad = {
  kind: LoadKind;
  name?: string | undefined;
  count?: number | undefined;
  rating?: { value: number | string; unit: string } | undefined;
  volts?: { value: number | string; unit: string } | undefined;
  fuel?: "gas" | "electric" | undefined;
  units?: number | undefined;
  leg?: "A" | "B" | undefined;
};

const said = ({ value, unit }: { value: number | string; unit: string }): string => `${value} ${unit}`;

/** What those are called whose own name tells a fuel. */
const FUELLED: Readonly<Partial<Record<LoadKind, string>>> = { furnace: "furnace", "space-heater": "heat" };

/** `2 × 4 kW 240 V wall ovens`, a gas range, heating with its controls. */
export function writeLoad({ kind, name, count = 1, rating, volts, fuel, units, leg }: WrittenLoad): string {
  const noun = name ?? (fuel === undefined ? CATALOGUE[kind].name : FUELLED[kind] ?? CATALOGUE[kind].name);
  return [
    count > 1 ? rating ? `${count} ×` : String(count) : "",
    rating ? said(rating) : "",
    volts ? said(volts) : "",
    fuel ?? "",
    count > 1 && !noun.endsWith("s") ? `${noun}s` : noun,
    leg ? `on leg ${leg}` : "",
    units === undefined ? "" : `${units} separately controlled units`,
  ].filter((part) => part !== "").join(" ");
}
