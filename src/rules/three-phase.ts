/** Single-phase appliances spread over a three-phase, four-wire supply. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/** What the demand tables are entered with: twice the largest number between any two phases, spread as evenly as can be. */
export function perPhasePair(w: Worksheet, count: Known<"1">, what: string): Known<"1"> {
  const phases = w.given("phases", { n: "3", unit: "1" });
  const most = w.work(`most ${what} between two phases`, "1", calc`roundUp(${count} ÷ ${phases})`);
  return w.work(`${what} to enter the table with`, "1", calc`2 × ${most}`);
}

/** The demand of two phases as the equivalent three-phase load: half of it is one phase's. */
export function threePhases(w: Worksheet, two: Known<"VA">, name: string, clause: string): Known<"VA"> {
  const phases = w.given("phases", { n: "3", unit: "1" });
  return w.work(name, "VA", calc`${two} ÷ 2 × ${phases}`, clause);
}
