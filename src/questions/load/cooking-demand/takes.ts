/** What the demand of household cooking equipment takes of the facts. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { asksNeutral, isDemandAsked, takeDemandSupply, takeSpreads, takeUnits } from "../../parts/demand-takes.ts";
import { isKitchen } from "../../parts/kitchens.ts";
import { takeLoads } from "../../parts/load-takes.ts";

const KINDS = ["range", "wall-oven", "cooktop"];

export function takes(t: Taker): Draft | undefined {
  const isCooking = (id: string | undefined) => KINDS.includes(id ?? "");
  if (!isDemandAsked(t, isCooking, "220.55", "220.19", "120.55") || isKitchen(t)) return undefined;
  const draft: Draft = {};
  const list = takeLoads(t, (kind) => KINDS.includes(kind)).map(({ load }) => load);
  const electric = list.filter(({ fuel }) => fuel !== "gas");
  if (electric.some(({ rating }) => rating?.unit === "hp")) {
    t.ask({ field: "appliances", ask: "Horsepower is no cooking rating. What is it in kW?", example: "12 kW range" });
  }
  const units = takeUnits(t, ...KINDS);
  const appliances = electric.map(({ kind, count, rating }) => {
    const all = units === undefined ? count : units * (count ?? 1);
    return { kind, ...(all !== undefined && { count: all }), ...(rating && { rating }) };
  });
  draft.appliances = appliances;
  if (takeSpreads(t, appliances)) draft.supply = "three-phase";
  Object.assign(draft, takeDemandSupply(t));
  const volts = electric.find((load) => load.volts)?.volts;
  if (volts) draft.volts ??= volts;
  const methods = t.terms("methodOfLoad").filter((id) => id === "column C" || id === "note 3");
  if (methods.length > 0) draft.method = methods[0];
  // Note 4 of the table is the one on branch circuits.
  const isOneCircuit = t.said("methodOfLoad:note 4", "motorWord:one-branch");
  if (isOneCircuit || t.all("circuit", "circuit").length > 0 || t.has("goal:branch-load")) {
    draft.use = "branch circuit";
    for (const circuit of t.all("circuit", "circuit")) t.head(circuit);
    t.asks("goal:branch-load");
  } else if (t.asks("device:service", "circuit:feeder", "goal:feeder-load")) draft.use = "feeder";
  if (draft.use !== "branch circuit" && asksNeutral(t)) draft.neutral = true;
  return draft;
}
