/** `steps=none`: an answer for programs, its results without the way to them. */
import type { Context } from "hono";
import type { Outcome } from "../outcomes.ts";
import { Problem } from "./problem.ts";

/** Values of `steps` in a query. */
export const STEPS = ["all", "none"] as const;

/** @throws Problem when `steps` says something else. */
export function stepsOf(c: Context): typeof STEPS[number] {
  const said = c.req.query("steps") || "all";
  const found = STEPS.find((each) => each === said);
  if (found) return found;
  throw new Problem(400, `"steps=${said}" says nothing here. There are: ${STEPS.join(", ")}.`);
}

/** The outcome as the call wants it. */
export const inShort = (c: Context, outcome: Outcome): object =>
  stepsOf(c) === "none" ? withoutSteps(outcome) : outcome;

/**
 * The outcome without steps, the record that points at them, account and thread: figures, assumptions and cautions stay, its link leads to the steps, and its
 * request serves as `after`. Figures go by their ids, whose names `GET /api/questions` has.
 */
export function withoutSteps(outcome: Outcome): object {
  if (outcome.outcome !== "answered") return outcome;
  const { steps: _, asides: __, account: ___, record: ____, figures, assumptions, ...answer } = outcome.answer;
  return {
    outcome: outcome.outcome,
    ...(outcome.changes && { changes: outcome.changes }),
    ...(outcome.more && { more: outcome.more.map(withoutSteps) }),
    answer: {
      ...answer,
      figures: Object.fromEntries(Object.entries(figures).map(([id, { value, unit }]) => [id, { value, unit }])),
      assumptions: assumptions.map(({ step: _, ...assumption }) => assumption),
    },
  };
}
