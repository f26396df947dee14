/** The verdict on a plan that was put up for checking. */
import type { Told } from "../../../core/worked.ts";
import { ledBy } from "../../parts/verdict.ts";
import type { CircuitRequest } from "./request.ts";

/** What speaks against the plan, and what it hangs on. */
export type Findings = { problems: string[]; conditions: string[] };

/** The circuit in a line, led by the verdict where a plan was put up, or where what was told cannot stay as it is. */
export function decide(r: CircuitRequest, { problems, conditions }: Findings, needed: string): Told {
  if (problems.length > 0) return ledBy({ is: "not ok", because: problems.join("; ") }, `Needed: ${needed}`);
  if (conditions.length > 0) return ledBy({ is: "ok if", because: conditions.join("; ") }, needed);
  if (!isPlan(r)) return { headline: needed };
  const because = "the breaker and the conductor suit the load";
  return { headline: `OK, ${because}: ${needed}`, verdict: { is: "ok", because } };
}

/** Something to check was put up, and asked about. */
export const isPlan = (r: CircuitRequest): boolean =>
  r.check === true && (r.breaker !== undefined || r.size !== undefined || r.receptacle !== undefined);
