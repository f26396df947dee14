/** Plan checks: several judgements as one verdict, and the words that lead a headline with it. */
import type { Known, Reasoned, Told } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { type Material, tooHot, type Wiring } from "../../rules/conductors.ts";
import { type Place, unfit } from "../../rules/fitness.ts";
import { cableGroundTooSmall } from "../../rules/grounding.ts";
import type { Method } from "../../rules/wiring-methods.ts";

/** One thing that was put up, what became of it, and why; for `ok if`, on what condition. */
export type Judgement = Reasoned & { what: string };

const WORST_FIRST = ["not ok", "ok if", "ok"] as const;

/** The first of the worst. */
export const firstOfWorst = <R extends Reasoned>(judged: readonly R[]): R =>
  WORST_FIRST.flatMap((is) => judged.filter((each) => each.is === is))[0]!;

/** What speaks against a plan decides, then what it depends on. Undefined where nothing was put up. */
export function verdictOf(judged: readonly Judgement[]): Reasoned | undefined {
  if (judged.length === 0) return undefined;
  const is = WORST_FIRST.find((verdict) => judged.some((each) => each.is === verdict))!;
  const reasons = judged.filter((each) => each.is === is).map(({ because }) => because);
  return { is, because: [...new Set(reasons)].join(is === "ok if" ? ", and " : "; ") };
}

/** A judgement of a conductor with what stands against its method there, or what that hangs on. */
export function underMethod<J extends Judgement>(w: Worksheet, place: Place, size: Known<"size">, judged: J): J {
  const against = unfit(w, place, size);
  const refused = against.find(({ is }) => is === "not ok");
  if (refused) return { ...judged, is: "not ok", because: refused.because };
  if (judged.is === "not ok" || against.length === 0) return judged;
  const needs = against.map(({ because }) => because);
  return {
    ...judged,
    is: "ok if",
    because: [...(judged.is === "ok if" ? [judged.because] : []), ...needs].join(", and "),
  };
}

/** What a plan in a cable hangs on: a ground larger than such a cable is usually made with; nothing where its own will do. */
export function underCableGround(
  w: Worksheet,
  method: Method | undefined,
  size: Known<"size">,
  material: Material,
  ground: Known<"size">,
): Judgement[] {
  const raised = cableGroundTooSmall(w, method, size, material, ground);
  return raised ? [{ what: "cable", is: "ok if", because: raised }] : [];
}

/** The answer to a plan whose conductors, put up where `wiring` lies, have no ampacity left there; undefined where they have. */
export function refusedByHeat(w: Worksheet, wiring: () => Wiring): Told | undefined {
  const hot = w.scratch(() => tooHot(w, wiring()));
  return hot === undefined ? undefined : ledBy({ is: "not ok", because: hot });
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

/** An answer led by its verdict, where something was put up. */
export const ledBy = (verdict: Reasoned | undefined, words = ""): Told => ({
  headline: `${leading(verdict)}${words}`.trim(),
  ...(verdict && { verdict }),
});

/** The verdict as the beginning of a headline. */
function leading(verdict: Reasoned | undefined): string {
  if (!verdict) return "";
  const { is, because } = verdict;
  return `${is === "not ok" ? "Not OK" : is === "ok" ? "OK" : "OK if"}${is === "ok if" ? " " : ": "}${because}. `;
}
