/** From a load current to the line conductors of a dwelling's service or feeder. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { byAmpacity, type Material } from "./conductors.ts";
import type { LineConductor } from "./neutral.ts";
import { nextBreaker, wholeAmperes } from "./overcurrent.ts";
import { lineByAmpacity } from "./supply-conductors.ts";
import { byRating, serviceTerminals, type Terminals } from "./wiring-methods.ts";

/** The rating for a load current: fractions of an ampere below a half are dropped once, then the next standard size, not below `least`. */
export function serviceRating(w: Worksheet, current: Known<"A">, least?: Known<"A">): Known<"A"> {
  const whole = wholeAmperes(w, current);
  const wanted = least
    ? w.work("not below the least rating", "A", calc`max(${whole}, ${least})`, "minimum-service")
    : whole;
  return nextBreaker(w, wanted, "service rating");
}

/** A dwelling's supply: what decides whether the dwelling rule holds, and in which column its conductors are sized. */
type DwellingSupply = {
  rating: Known<"A">;
  isFeeder: boolean;
  /** Two lines and the neutral of a 208Y/120 V network. */
  isNetwork: boolean;
  terminals?: Terminals | undefined;
};

/** Whether the dwelling rule reaches this rating and system: of a network it speaks of feeders only. */
export function hasDwellingRule(w: Worksheet, { rating, isFeeder, isNetwork }: Omit<DwellingSupply, "terminals">) {
  if (isNetwork && !isFeeder && w.edition.rule("dwelling-conductors-network") === "feeders only") return false;
  return w.scratch(() =>
    w.holds(rating, "≥", w.constant("dwelling-conductor-least")) &&
    w.holds(rating, "≤", w.constant("dwelling-conductor-most"))
  );
}

/** The column of a dwelling's supply conductors: as marked, or what a service or a feeder of its rating is taken to allow. */
export function supplyColumn(w: Worksheet, supply: DwellingSupply): Known<"°C"> {
  if (supply.terminals) return w.given("terminations", supply.terminals);
  return (supply.isFeeder ? byRating : serviceTerminals)(w, supply.rating);
}

/**
 * Line conductors of a dwelling's service, or of a feeder that carries all its load. Within the dwelling rule by its table,
 * or by its share of the rating in editions without one and where the lower column holds; outside it by ampacity, the next
 * size up of the device included, in parallel sets where no single conductor is large enough.
 */
export function dwellingConductor(
  w: Worksheet,
  supply: DwellingSupply,
  column: Known<"°C">,
  current: Known<"A">,
  material: Material,
): LineConductor {
  const { rating, isNetwork, isFeeder } = supply;
  const name = `${material} line conductor`;
  if (hasDwellingRule(w, supply)) {
    const isHigher = w.holds(column, "≥", w.constant<"°C">("terminal-temperature-large"));
    if (isHigher && w.edition.rule("dwelling-conductors") === "table") {
      return { size: w.lookUp<"size">(name, "dwelling-service-conductors", material, rating) };
    }
    const share = w.constant<"%">("dwelling-conductor-share");
    const needed = w.work("ampacity needed", "A", calc`${rating} × ${share}`, "dwelling-conductors");
    return { size: byAmpacity(w, name, needed, column, material) };
  }
  const why = isNetwork && !isFeeder
    ? "of a 208Y/120 V network it speaks of feeders, not of services"
    : w.say`it holds from ${w.constant("dwelling-conductor-least")} to ${w.constant("dwelling-conductor-most")}`;
  w.given("dwelling rule", "does not reach this", why, "dwelling-conductors");
  return lineByAmpacity(w, { rating, current }, column, material);
}
