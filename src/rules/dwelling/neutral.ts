/** The neutral of one dwelling: always by the standard rules, whichever method sizes the line conductors. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { System } from "../loads.ts";
import { heavierLeg, type Legs, unevenCurrent } from "./legs.ts";
import type { OnNeutral, Standard } from "./standard.ts";
import { reducedNeutral } from "../neutral.ts";

export type Neutral = { load: Known<"VA">; current: Known<"A"> };

/**
 * Load and current of the neutral. Of a network's three wires it may not be reduced, because it carries about as much as
 * the lines do.
 */
export function neutralLoad(
  w: Worksheet,
  standard: Standard,
  legs: Legs,
  system: System,
  network: boolean,
): Neutral {
  const [first, second] = standard.neutralSeasons.map((season) => inSeason(w, standard, season, legs, system, network));
  // Evened out or not, the season with the smaller load may be the one whose heavier leg carries more.
  const { load, current } = second
    ? w.choose<Neutral>(
      "season that loads the neutral most, with its legs",
      [first!.current, "≥", second.current],
      [standard.neutralSeasons[0]!.season!.name, () => first!],
      [standard.neutralSeasons[1]!.season!.name, () => second],
      "neutral",
    )
    : first!;
  if (network) {
    w.caution(
      "Three wires from a 208Y/120 V network: the neutral carries about as much as the lines and may not be reduced.",
      "neutral",
    );
    return { load, current };
  }
  return { load, current: reducedNeutral(w, current) };
}

/** The neutral in one season: what is between the lines and it, and the most of it on one leg. */
function inSeason(
  w: Worksheet,
  { lines }: Standard,
  { season, climate, motor, motors }: OnNeutral,
  legs: Legs,
  system: System,
  network: boolean,
): Neutral {
  // The neutral carries the most there is between it and one line: what makes a leg heavier, it carries too.
  const onLegs = legs(network ? undefined : season);
  w.part("Neutral");
  const { climate: _climate, motor: _motor, ...others } = lines;
  const parts = [
    ...Object.entries(others).map(([key, { demand, neutral }]) => {
      const reduced = key === "cooking" || key === "dryers";
      return network && reduced ? demand : neutral;
    }),
    climate,
    motor,
  ].filter((part) => part !== undefined);
  const isWhole = network && (lines.cooking !== undefined || lines.dryers !== undefined);
  const note = isWhole
    ? "cooking and dryers in full; an example of the code's annex keeps 70 % of them here"
    : undefined;
  const load = w.work("neutral load", "VA", calc`sum(${parts})`, "neutral", note);
  const { told, excess } = onLegs;
  if (network) {
    const uneven = unevenCurrent(w, onLegs, system);
    const even = w.work("neutral current", "A", calc`${load} ÷ (2 × ${system.lineToNeutral})`, "neutral");
    return {
      load,
      current: uneven ? w.work("neutral current, the heavier line", "A", calc`${even} + ${uneven}`, "neutral") : even,
    };
  }
  if (told) return { load, current: heavierLeg(w, "neutral", load, onLegs, { addition: motor, motors }, system) };
  const current = w.work(
    excess ? "neutral current, with the heavier leg" : "neutral current",
    "A",
    excess
      ? calc`(${load} + ${excess}) ÷ (2 × ${system.lineToNeutral})`
      : calc`${load} ÷ (2 × ${system.lineToNeutral})`,
    "neutral",
  );
  return { load, current };
}
