/** Where a circuit or a feeder begins, told with its rating: that panel is neither fed nor sized. */
import type { Fact, Value } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { lines } from "./run-takes.ts";

const isEnd = ({ sense }: Value, id: string): boolean => sense.is === "term" && sense.id === id;
/** Which end of the way a thing is said to be: `from` it, `there` already, `wanted`. */
export const hasEnd = ({ slots: { end } }: Fact, ...ids: readonly string[]): boolean =>
  end?.some((value) => ids.some((id) => isEnd(value, id))) ?? false;

const isTold = ({ slots }: Fact): boolean =>
  (slots.rating ?? slots.current ?? slots.draw ?? slots.nameplate) !== undefined;

/** A load or a circuit that is wanted, with its figure: `the garage has a 100 A subpanel, want a 30 A outlet`. */
export const isWanted = (t: Taker): boolean =>
  [...t.all("load"), ...t.all("circuit", "circuit")].some((fact) => hasEnd(fact, "wanted") && isTold(fact));

/** `48 A charger, 60 ft from the 200 A panel`: a rated panel that what is told, or wanted, comes from. */
export function isWhereItStarts(t: Taker, panel: Fact): boolean {
  if (!panel.slots.rating || hasEnd(panel, "wanted")) return false;
  // `a 60 A sub fed with 6-3, he wants a 50 A outlet`: whose wire that is, is told of the sub.
  if (panel.id === "subpanel" && lines(t).some(({ slots }) => slots.size)) return false;
  if (isWanted(t)) return true;
  const told = t.all("load").filter(isTold);
  // `200 A panel in the garage, hot tub 50 A 60 ft away`: the one thing told by name is no panel's load.
  const isOneNamed = told.length === 1 && told[0]!.id !== undefined && told[0]!.id !== "load" && panel.id === "panel";
  return hasEnd(panel, "from", "there") ? told.length > 0 : isOneNamed;
}

/** `100 A feed to the shop 300 ft off, aluminum, acceptable drop?`: without a size there is no drop, but a feeder to be sized. */
export const isShopFed = (t: Taker): boolean =>
  // Told in this text, and not known of a job whose conductors are chosen.
  t.facts.free.some(({ key, value }) => key === "place:separate-structure" && value.pieces.length > 0) &&
  !lines(t).some(({ slots }) => slots.size) && !t.has("V") &&
  !t.wants("goal:longest-run") && t.all("load").some(({ id, slots }) => id === undefined && slots.current);
