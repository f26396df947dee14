/** A nameplate in the user's own units, as the volt-amperes a load calculation adds up. */
import { calc } from "../core/formula.ts";
import { convert, exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/** A rating as a request carries it. */
export type Rating = { value: number | string; unit: "W" | "kW" | "VA" | "kVA" | "A" };

/**
 * The nameplate in VA. Watts count as volt-amperes; amperes are taken at the nominal voltage of the system (`volts`, or
 * the assumed supply voltage), whatever the nameplate's own voltage, and the user's figure stays in the note.
 */
export function nameplate(w: Worksheet, name: string, rating: Rating, volts?: Known<"V">): Known<"VA"> {
  const n = exact(rating.value).toFraction();
  if (rating.unit === "A") {
    const amperes = w.given(name, { n, unit: "A" });
    return w.work(
      `${name}, volt-amperes`,
      "VA",
      calc`${amperes} × ${volts ?? w.assume<"V">("supply-voltage")}`,
      "calculation-voltages",
    );
  }
  const isWatts = rating.unit === "W" || rating.unit === "kW";
  const apparent = convert({ n, unit: rating.unit === "W" ? "VA" : rating.unit === "kW" ? "kVA" : rating.unit }, "VA");
  return w.given(name, apparent, isWatts ? `${rating.value} ${rating.unit}, watts counted as volt-amperes` : undefined);
}
