/** Household electric clothes dryers on a feeder or service. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { perPhasePair, type Spread, threePhases } from "./three-phase.ts";

/** Dryers of one rating: how many, the nameplate of each, and how they lie between the phases where it was told. */
export type Dryers = { count: Known<"1">; rating: Known<"VA">; spread?: Spread | undefined };
/** How the table is entered for dryers on three phases: as the section says, or as some training material does. */
type ThreePhaseRow = "twice the most between two phases" | "all dryers";

/**
 * The demand of household dryers: each counts at the larger of its nameplate and the minimum, and the sum takes the
 * table's percentage for their number. On a three-phase supply the table is entered with twice the most between two phases; or,
 * where that reading was asked for, with all of them, and the percentage is taken of their sum.
 * @returns `connected` as counted, before the percentage, and `demand`, both in VA.
 */
export function dryerDemand(
  w: Worksheet,
  dryers: readonly Dryers[],
  onThreePhases = false,
  row: ThreePhaseRow = "twice the most between two phases",
): { connected: Known<"VA">; demand: Known<"VA"> } {
  const minimum = w.constant<"VA">("dryer-minimum");
  const groups = dryers.map(({ count, rating }) => {
    const each = w.work("each dryer counts as", "VA", calc`max(${rating}, ${minimum})`, "dryers");
    return w.work("dryers as counted", "VA", calc`${count} × ${each}`);
  });
  const counts = dryers.map(({ count }) => count);
  const connected = groups.length === 1 ? groups[0]! : w.work("all dryers as counted", "VA", calc`sum(${groups})`);
  const all = counts.length === 1 ? counts[0]! : w.work("number of dryers", "1", calc`sum(${counts})`);
  // One alone lies between two lines, whatever the supply: there is nothing to balance it over three phases.
  const isAlone = onThreePhases && w.holds(all, "≤", calc`1`);
  if (isAlone) w.given("one alone between two lines", "not doubled", undefined, "dryers");
  const threePhase = onThreePhases && !isAlone && row !== "all dryers";
  const inTable = threePhase ? perPhasePair(w, all, "dryers", dryers.map(({ spread }) => spread)) : all;
  const first = w.lookUp<"%">("percentage for that many", "household-dryer-demand", "demand", inTable);
  const less = w.lookUp<"%">("less for each above", "household-dryer-demand", "less each", inTable);
  const above = w.lookUp<"1">("above", "household-dryer-demand", "above", inTable);
  const share = w.holds(less, ">", calc`0 × ${less}`)
    ? w.work("demand factor", "%", calc`${first} − ${less} × (${inTable} − ${above})`, "dryers")
    : first;
  if (!threePhase) return { connected, demand: w.work("dryer demand", "VA", calc`${connected} × ${share}`, "dryers") };
  const average = w.work("average dryer", "VA", calc`${connected} ÷ ${all}`);
  const note = groups.length > 1 ? "dryers of several ratings: each between these phases at their average" : undefined;
  const two = w.work("demand between two phases", "VA", calc`${inTable} × ${average} × ${share}`, "dryers", note);
  return { connected, demand: threePhases(w, two, "dryer demand", "dryers") };
}
