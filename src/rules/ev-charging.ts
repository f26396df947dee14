/** Electric vehicle supply equipment as a load: at its nameplate or, by edition, at no less than the least load each. */
import { NotCovered } from "../core/outcome.ts";
import { exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/**
 * The least that a charger counts at; undefined where the edition takes the nameplate.
 * @throws NotCovered for an edition with a rule that is none of the two
 */
export function leastCharger(w: Worksheet): Known<"VA"> | undefined {
  const rule = w.edition.rule("ev-load");
  if (rule === "nameplate") return undefined;
  if (rule !== "larger of minimum and nameplate") {
    throw new NotCovered(`the EV rule "${rule}" is not one this service knows`, w.edition.id);
  }
  return w.constant<"VA">("ev-minimum");
}

/** Chargers up to this many volt-amperes (80 A at 240 V) are single-phase (common practice, no source). */
const LARGEST_OF_ONE_PHASE = 19_200;
/** Above this many volts between the lines they are none of those. */
const HIGHEST_VOLTAGE = 250;

/**
 * Whether a charger of which no phases were told is taken as single-phase on three lines: told by its power it then loads two
 * of them more than three-phase it would load all, so this is the safe side as well.
 */
export const isSinglePhaseCharger = (
  w: Worksheet,
  { rating }: { rating?: { value: number | string; unit: string } | undefined },
  lineToLine: Known<"V">,
): boolean => {
  const watts = rating && { W: 1, VA: 1, kW: 1000, kVA: 1000 }[rating.unit];
  if (watts === undefined) return false;
  return exact(rating!.value).mul(watts).compare(LARGEST_OF_ONE_PHASE) <= 0 &&
    w.measure(lineToLine).n.compare(HIGHEST_VOLTAGE) <= 0;
};
