/** Electric vehicle supply equipment as a load: at its nameplate or, by edition, at no less than the least load each. */
import { NotCovered } from "../core/outcome.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/**
 * The least that a charger counts at; undefined where the edition takes the nameplate.
 * @throws NotCovered for an edition with a rule that is none of the two
 */
export function leastCharger(w: Worksheet): Known<"VA"> | undefined {
  const rule = w.edition.rule("ev-load");
  if (rule === "nameplate") return undefined;
  if (rule !== "larger of minimum and nameplate") {
    throw new NotCovered(`the EV rule "${rule}" is not one this service knows`, w.edition.id);
  }
  return w.constant<"VA">("ev-minimum");
}
