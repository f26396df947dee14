/**
 * What no answer may leave with: a demand above what is connected, a device that is no standard rating and was not named by the
 * asker, a device below its own load, a verdict on nothing. A failed check is our mistake; the answer is withheld and says so.
 */
import { exact } from "./core/quantity.ts";
import type { Edition } from "./editions/edition.ts";
import type { WorkedAnswer } from "./core/worked.ts";

/** Device ratings among the figures, each with the current it has to carry where one is told. */
const DEVICES: Readonly<Record<string, string | undefined>> = {
  "breaker-rating": "load-current",
  "service-rating": "calculated-current",
  "primary-protection": undefined,
  "secondary-protection": undefined,
  "feeder-protection": undefined,
};
/** Kinds whose devices may stand below a running current by their own rules, or are a limit and no device for a load. */
const BY_OTHER_RULES = new Set(["motor-circuit", "motor-feeder", "cooling-circuit", "conductor-ampacity", "grounding"]);
/** Kinds whose rules count an appliance with a least load, whatever its nameplate says. */
const LEAST_LOADS = new Set(["cooking-demand", "dryer-demand"]);
/** A fraction of an ampere below a half is dropped where a load picks a rating. */
const DROPPED = 0.5;

/** Why an answer cannot be stood behind, or `undefined`. */
export function unsound(
  { kind, figures, request, verdict, steps }: WorkedAnswer,
  edition: Edition,
): string | undefined {
  const number = (id: string): number | undefined => {
    const value = figures[id]?.value;
    return typeof value === "number" ? value : undefined;
  };
  for (const [id, { value, name }] of Object.entries(figures)) {
    if (typeof value === "number" && !Number.isFinite(value)) return `${name} is no number`;
    if (typeof value === "number" && value < 0 && !MAY_BE_NEGATIVE.has(id)) return `${name} is below zero`;
  }
  const [demand, connected] = [number("demand-load"), number("connected-load")];
  if (demand !== undefined && connected !== undefined && demand > connected * (1 + 1e-9) && !LEAST_LOADS.has(kind)) {
    return "the demand is above what is connected";
  }
  const told = ratingsTold(request);
  const table = edition.table("standard-overcurrent-ratings");
  for (const [id, carried] of Object.entries(DEVICES)) {
    const rating = number(id);
    if (rating === undefined) continue;
    if (!told.has(rating) && table.row(exact(rating)) === undefined) return `${rating} A is no standard rating`;
    const current = carried === undefined ? undefined : number(carried);
    if (
      current !== undefined && verdict === undefined && !told.has(rating) && !BY_OTHER_RULES.has(kind) &&
      rating + DROPPED <= current
    ) {
      return `a ${rating} A device is below its load of ${current} A`;
    }
  }
  if (verdict !== undefined && steps.length === 0) return "a verdict was given and nothing judged";
  return undefined;
}
const MAY_BE_NEGATIVE = new Set(["temperature", "spare-current"]);

/** Every amperage that the request itself names. */
function ratingsTold(request: unknown): ReadonlySet<number> {
  const told = new Set<number>();
  const walk = (node: unknown): void => {
    if (typeof node !== "object" || node === null) return;
    if ("unit" in node && node.unit === "A" && "value" in node) told.add(Number(node.value));
    for (const each of Object.values(node)) walk(each);
  };
  walk(request);
  return told;
}
