/** What the load of a mobile home takes of the facts: all that a house's does, and its cord. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isMobileHome, takeHome } from "../../parts/home-takes.ts";

export function takes(t: Taker): Draft | undefined {
  if (!isMobileHome(t)) return undefined;
  const draft = takeHome(t);
  if (!draft) return undefined;
  if (draft.system === "120/208") {
    t.ask({
      field: "system",
      ask: "The method of mobile homes is for 120/240 V, three wires. Is that the supply?",
      example: "mobile home, 120/240 V",
    });
  }
  delete draft.system;
  for (const cord of t.all("device", "supply-cord")) {
    t.head(cord);
    const rating = t.figure(cord, "rating", "A");
    if (rating) draft.cord ??= rating;
  }
  // Its panel is fed from outside, unless the service itself is asked for.
  if (draft.panel === undefined && !t.wants("circuit:feeder") && isOfService(t)) {
    draft.panel = "at the service disconnect";
  }
  // Its own method is the one that goes leg by leg.
  if (t.asks("goal:leg-loads")) draft.method ??= "standard";
  if (t.asks("circuit:feeder")) draft.panel ??= "after the service disconnect";
  return draft;
}

const isOfService = (t: Taker): boolean =>
  t.wants("device:service") || t.all("device", "service").some(({ slots }) => slots.rating);
