/** Plan checks: several judgements as one verdict, and the words that lead a headline with it. */
import type { Verdict } from "../../core/worked.ts";

/** One thing that was put up, what became of it, and why; for `ok if`, on what condition. */
export type Judgement = { what: string; is: Verdict; because: string };

const WORST_FIRST = ["not ok", "ok if", "ok"] as const;

/** What speaks against a plan decides, then what it depends on. Undefined where nothing was put up. */
export function verdictOf(judged: readonly Judgement[]): { is: Verdict; because: string } | undefined {
  if (judged.length === 0) return undefined;
  const is = WORST_FIRST.find((verdict) => judged.some((each) => each.is === verdict))!;
  const reasons = judged.filter((each) => each.is === is).map(({ because }) => because);
  return { is, because: [...new Set(reasons)].join(is === "ok if" ? ", and " : "; ") };
}

/** Things to choose from as one: it is enough that one stands. */
export function anyOf(judged: readonly Judgement[]): Judgement[] {
  const standing = judged.filter(({ is }) => is !== "not ok");
  if (standing.length === 0 || standing.length === judged.length) return [...judged];
  const against = judged.filter(({ is }) => is === "not ok").map(({ because }) => because).join("; ");
  const choice = standing.map(({ what }) => what).join(" or ");
  const condition = verdictOf(standing.filter(({ is }) => is === "ok if"))?.because;
  return [{
    what: choice,
    is: "ok if",
    because: `it is the ${choice} (${against})${condition ? `, and ${condition}` : ""}`,
  }];
}

/** The verdict as the beginning of a headline. */
export function leading(verdict: { is: Verdict; because: string } | undefined): string {
  if (!verdict) return "";
  const { is, because } = verdict;
  return `${is === "not ok" ? "Not OK" : is === "ok" ? "OK" : "OK if"}${is === "ok if" ? " " : ": "}${because}. `;
}
