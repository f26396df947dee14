/** One conductor where one will do, and parallel sets where none is large enough. */
import { NotCovered } from "../core/outcome.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { areaOf } from "./conductors.ts";

/** More sets than anyone pulls: the search ends here. */
const MOST_SETS = 20;
type Sized = { size: Known<"size"> };

/**
 * Tries one set, then two and more, and keeps the first whose size is no larger than is commonly pulled. A number of sets
 * that was said is the only one tried, whatever its size. `attempt` gives undefined where no listed size does.
 * @throws NotCovered when no number of sets does; `none` says why where there is a reason of its own.
 */
export function fewestSets<T extends Sized>(
  w: Worksheet,
  said: number | undefined,
  attempt: (sets: Known<"1"> | undefined) => T | undefined,
  canBePulled: (found: T) => boolean = ({ size }) => !isTooLarge(w, size),
  none?: () => string | undefined,
): T & { sets?: Known<"1"> } {
  const numbers = said === undefined ? Array.from({ length: MOST_SETS }, (_, i) => i + 1) : [said];
  const found = w.first(numbers, (n) => {
    const why = said === undefined ? "fewer would take conductors larger than are commonly pulled" : undefined;
    const sets = n === 1
      ? undefined
      : w.given("parallel sets", { n: String(n), unit: "1" }, why, "parallel-conductors");
    const chosen = attempt(sets);
    if (!chosen || (said === undefined && !canBePulled(chosen))) return undefined;
    return sets ? { ...chosen, sets } : chosen;
  });
  if (found) return found;
  throw new NotCovered(
    none?.() ??
      (said === undefined
        ? "no practical number of parallel sets carries this"
        : `no listed conductor carries this in ${said === 1 ? "one set" : `${said} sets`}: use more sets in parallel`),
    w.edition.id,
  );
}

/** What stands against conductors of this size in parallel, the test shown; undefined where they are large enough. */
export function tooSmallToParallel(w: Worksheet, size: Known<"size">): string | undefined {
  const least = w.constant<"size">("parallel-least-size");
  const [area, leastArea] = [areaOf(w, size), areaOf(w, least, "area of the smallest for parallel sets")];
  return w.choose(
    "large enough to be paralleled",
    [area, "≥", leastArea],
    ["yes", () => undefined],
    ["no", () => w.say`conductors in parallel are ${least} or larger, and these are ${size}`],
    "parallel-conductors",
  );
}

/** Whether a conductor is larger than is commonly pulled. */
export const isTooLarge = (w: Worksheet, size: Known<"size">): boolean =>
  w.scratch(() => w.holds(areaOf(w, size), ">", areaOf(w, w.constant<"size">("largest-common-conductor"))));
