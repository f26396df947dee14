/** The verdict on a plan that was put up for checking. */
import type { Worksheet } from "../../../core/worksheet.ts";
import type { CircuitRequest } from "./request.ts";

/** What speaks against the plan, and what it hangs on. */
export type Findings = { problems: string[]; conditions: string[] };

/** Puts the verdict first where a plan was put up, or where what was told cannot stay as it is. */
export function decide(w: Worksheet, r: CircuitRequest, { problems, conditions }: Findings): void {
  if (problems.length === 0 && conditions.length === 0 && !isPlan(r)) return;
  if (problems.length > 0) {
    w.verdict = { is: "not ok", because: problems.join("; ") };
    w.headline = `Not OK: ${problems.join("; ")}. Needed: ${w.headline}`;
  } else if (conditions.length > 0) {
    w.verdict = { is: "ok if", because: conditions.join("; ") };
    w.headline = `OK if ${conditions.join("; ")}. ${w.headline}`;
  } else {
    const because = "the breaker and the conductor suit the load";
    w.verdict = { is: "ok", because };
    w.headline = `OK, ${because}: ${w.headline}`;
  }
}

/** Something to check was put up, and asked about. */
export const isPlan = (r: CircuitRequest): boolean =>
  r.check === true && (r.breaker !== undefined || r.size !== undefined || r.receptacle !== undefined);
