/** What the demand of household dryers takes of the facts. */
import type { Draft, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { asksNeutral, isDemandAsked, takeDemandSupply, takeSpreads, takeUnits } from "../../parts/demand-takes.ts";
import { takeLoads } from "../../parts/load-takes.ts";

export function takes(t: Taker): Draft | undefined {
  if (!isDemandAsked(t, (id) => id === "dryer", "220.54", "220.18", "120.54")) return undefined;
  if (t.all("circuit", "circuit").length > 0 || t.wants("goal:branch-load")) return undefined;
  const draft: Draft = {};
  const list = takeLoads(t, (kind) => kind === "dryer").map(({ load }) => load);
  const electric = list.filter(({ fuel }) => fuel !== "gas");
  if (electric.some(({ rating }) => rating?.unit === "hp")) {
    t.ask({ field: "dryers", ask: "Horsepower is no dryer rating. What is it in kW?", example: "5.5 kW dryer" });
  }
  const units = takeUnits(t, "dryer");
  const dryers = electric.map(({ count, rating }) => {
    // A building of ten units with one dryer in each has ten dryers.
    const all = units === undefined ? count : units * (count ?? 1);
    return { ...(all !== undefined && { count: all }), ...(rating && { rating }) };
  });
  draft.dryers = dryers;
  const isSpread = takeSpreads(t, dryers);
  const rows = t.terms("methodOfLoad").filter((id) => id === "all dryers" || id === "two phases");
  if (rows.length > 0) draft.row = rows.at(-1) === "all dryers" ? "all dryers" : "twice the most between two phases";
  const { volts, ...supply } = takeDemandSupply(t);
  // Amperes become volt-amperes at 240 V: another voltage told of them is asked about.
  const isOther = volts && !ONE_SYSTEM.has(Number((volts as Said).value));
  if (!isOther || electric.every(({ rating }) => rating?.unit !== "A")) {
    takeDemandSupply(t, "the demand is in volt-amperes, of amperes at 240 V");
  }
  Object.assign(draft, isSpread && { supply: "three-phase" }, supply);
  if (asksNeutral(t)) draft.neutral = true;
  t.asks("device:service", "circuit:feeder", "goal:feeder-load");
  return draft;
}

/** Voltages as people call the one of a dwelling's 120/240 V. */
const ONE_SYSTEM = new Set([220, 230, 240]);
