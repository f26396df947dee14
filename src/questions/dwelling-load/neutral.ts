/** The neutral of one dwelling: always by the standard rules, whichever method sizes the line conductors. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { System } from "../../rules/loads.ts";
import type { Legs } from "./legs.ts";
import type { Standard } from "./standard.ts";

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
  // The neutral carries the most there is between it and one line: what makes a leg heavier, it carries too.
  const excess = network ? undefined : legs(standard.neutralSeason);
  w.part("Neutral");
  const { lines } = standard;
  const parts = Object.entries(lines).flatMap(([key, { demand, neutral }]) => {
    const reduced = key === "cooking" || key === "dryers";
    const known = network && reduced ? demand : neutral;
    return known ? [known] : [];
  });
  const load = w.work("neutral load", "VA", calc`sum(${parts})`, "neutral");
  const current = w.work(
    excess ? "neutral current, with the heavier leg" : "neutral current",
    "A",
    excess
      ? calc`(${load} + ${excess}) ÷ (2 × ${system.lineToNeutral})`
      : calc`${load} ÷ (2 × ${system.lineToNeutral})`,
    "neutral",
  );
  if (network) {
    w.caution(
      "Three wires from a 208Y/120 V network: the neutral carries about as much as the lines and may not be reduced.",
      "neutral",
    );
    return { load, current };
  }
  const threshold = w.constant<"A">("neutral-large-threshold");
  return w.choose(
    "beyond the current where a reduction is allowed",
    [current, ">", threshold],
    ["yes", () => {
      const share = w.constant<"%">("neutral-large-demand");
      return {
        load,
        current: w.work(
          "neutral current, reduced",
          "A",
          calc`${threshold} + (${current} − ${threshold}) × ${share}`,
          "neutral",
        ),
      };
    }],
    ["no", () => ({ load, current })],
    "neutral",
  );
}
