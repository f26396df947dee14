/** Whether a figure fits a label or a bare rating. */
import { isNominal, type Label } from "../families.ts";
import type { Sense } from "../sense.ts";

export const isBare = (n: number, [least, most]: readonly [number, number]): boolean => n >= least && n <= most;
export function fitsLabel(sense: Sense, label: Label): boolean {
  if (sense.is === "quantity") {
    return label.units.includes(sense.unit) && (label.only?.includes(sense.n) ?? true) &&
      sense.n <= (label.most?.[sense.unit] ?? Infinity) && sense.n >= (label.least?.[sense.unit] ?? -Infinity);
  }
  if (sense.is === "pair") return label.pair === true && (sense.unit ?? "A") === "A";
  if (sense.is === "plate-currents") return label.pair === true;
  if (label.noVolts && isNominal(sense)) return false;
  return sense.is === "number" && label.bare !== undefined && isBare(sense.n, label.bare) &&
    (label.only?.includes(sense.n) ?? true);
}
