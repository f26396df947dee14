/** What the demand of one kind of household appliance puts on the neutral of its feeder or service, where that is asked. */
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { neutralOfDemand } from "../../rules/neutral.ts";

/** @returns the sentence for the headline */
export function neutralInWords(w: Worksheet, name: string, demand: Known<"VA">, threePhase: boolean): string {
  w.part("Neutral");
  const load = neutralOfDemand(w, `${name}, on the neutral`, demand);
  w.figure("neutral-load", load, "neutral load");
  if (threePhase) {
    w.caution(
      "Of three wires from a four-wire wye the neutral carries about as much as the lines: no reduction.",
      "neutral",
    );
  }
  return w.say` On the neutral ${load}.`;
}
