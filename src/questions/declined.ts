/**
 * Questions of the trade that are understood by their facts and not worked out here. They are declined under their own name, with
 * what may be asked in their place, so that none is answered as something else. A kind that gets its own folder leaves this list.
 */
import type { Taker } from "../reading/take.ts";

export type Declined = {
  readonly id: string;
  readonly title: string;
  /** What is not worked out, and what to do. */
  readonly instead: string;
  /** Whether the facts are this question's. */
  readonly isAsked: (t: Taker) => boolean;
};

const ORDINARY =
  "Ask the load, a feeder, a circuit, the drop or the fault current without those words: what the ordinary rules give holds there as well, and its designer goes on from it";

const isOfArticle = (t: Taker, article: string): boolean =>
  t.facts.free.some(({ value: { sense } }) => sense.is === "section" && sense.section.startsWith(`${article}.`));

export const declined: readonly Declined[] = [
  {
    id: "emergency-system",
    title: "Emergency and legally required standby systems (700, 701)",
    instead:
      `A source for all of it at one time, transfer equipment, wiring kept apart and selective coordination are not checked here. ${ORDINARY}`,
    isAsked: (t) =>
      t.has("requiredSystem:emergency") || t.has("requiredSystem:legally required") || isOfArticle(t, "700") ||
      isOfArticle(t, "701"),
  },
  {
    id: "essential-system",
    title: "Essential electrical systems of health care (517)",
    instead: `Their branches, transfer switches and redundant grounding are not checked here. ${ORDINARY}`,
    isAsked: (t) => t.has("requiredSystem:health care") || isOfArticle(t, "517"),
  },
  {
    id: "fire-pump",
    title: "Fire pumps (695)",
    instead:
      "Their supply, protection that has to hold the locked-rotor current, conductors and drop have rules of their own, which are not checked here. The motor's currents are told when it is asked as a motor",
    isAsked: (t) => t.all("circuit", "fire-pump").length > 0 || t.has("circuit:fire-pump") || isOfArticle(t, "695"),
  },
];
