/** From a load current to the service or feeder of a dwelling: rating, conductors, grounding. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { areaOf, type Material, sizes } from "./conductors.ts";
import { smaller } from "./grounding.ts";
import { fewestSets } from "./parallel.ts";
import { nextBreaker } from "./overcurrent.ts";

/** The rating for a load current: fractions of an ampere below a half are dropped once, then the next standard size, not below `least`. */
export function serviceRating(w: Worksheet, current: Known<"A">, least?: Known<"A">): Known<"A"> {
  const whole = w.work("load current, to the whole ampere", "A", calc`round(${current})`, "ampere-fractions");
  const wanted = least
    ? w.work("not below the least rating", "A", calc`max(${whole}, ${least})`, "minimum-service")
    : whole;
  return nextBreaker(w, wanted, "service rating");
}

export type LineConductor = { size: Known<"word">; sets?: Known<"1"> };

/**
 * Line conductors of a dwelling's service, or of a feeder that carries all its load. From the least to the most rating of
 * the dwelling rule by its table, or in editions without one by its share of the rating; beyond, by ampacity, in
 * parallel sets where no single conductor is large enough.
 */
export function dwellingConductor(w: Worksheet, rating: Known<"A">, material: Material): LineConductor {
  const least = w.scratch(() => w.holds(rating, "<", w.constant("dwelling-conductor-least")));
  const most = w.scratch(() => w.holds(rating, ">", w.constant("dwelling-conductor-most")));
  const name = `${material} line conductor`;
  if (!least && !most) {
    if (w.edition.rule("dwelling-conductors") === "table") {
      return { size: w.lookUp<"word">(name, "dwelling-service-conductors", material, rating) };
    }
    const share = w.constant<"%">("dwelling-conductor-share");
    const needed = w.work("ampacity needed", "A", calc`${rating} × ${share}`, "dwelling-conductors");
    return { size: byAmpacity(w, name, needed, material) };
  }
  return fewestSets(w, undefined, (sets) =>
    w.ifCovered(() => {
      const each = sets
        ? w.work("ampacity needed of each set", "A", calc`${rating} ÷ ${sets}`, "parallel-conductors")
        : rating;
      return { size: byAmpacity(w, name, each, material) };
    }));
}

/** Smallest size whose 75 °C ampacity reaches a current: service and feeder terminations of this size are rated so. */
function byAmpacity(w: Worksheet, name: string, current: Known<"A">, material: Material): Known<"word"> {
  const listed = sizes(w, material);
  return w.atLeast<"word">(name, "conductor-ampacity", `${material} 75 °C`, current, (size) => listed.includes(size));
}

/** The neutral: for its current, not below the least grounded conductor, and never needed larger than the lines. */
export function neutralConductor(
  w: Worksheet,
  current: Known<"A">,
  floor: Known<"word">,
  line: LineConductor,
  material: Material,
  clause: string,
): Known<"word"> {
  const perSet = line.sets ? w.work("neutral current of each set", "A", calc`${current} ÷ ${line.sets}`) : current;
  const byLoad = byAmpacity(w, "neutral by its load", perSet, material);
  const [loadArea, floorArea] = [areaOf(w, byLoad, "area by load"), areaOf(w, floor, "area of the floor")];
  const larger = w.choose(
    "neutral against its floor",
    [loadArea, "≥", floorArea],
    [`${w.word(byLoad)}, by its load`, () => byLoad],
    [`${w.word(floor)}, the floor`, () => floor],
    clause,
  );
  return smaller(w, larger, line.size, "neutral conductor", clause, "it need not be larger than the line conductors");
}
