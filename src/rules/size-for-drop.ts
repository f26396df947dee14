/** The search for the size a drop asks for: one, for every kind that lays a run. */
import type { ConductorSize } from "../core/conductor-size.ts";
import { printValue } from "../core/print.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { sizesMade, type Wiring } from "./conductors.ts";
import type { Drop } from "./voltage-drop.ts";

type Made = Pick<Wiring, "material"> & { method?: Wiring["method"] | undefined };

/** The sizes that this wiring is made in, from one of them on. */
export function sizesFrom(w: Worksheet, wiring: Made, least: Known<"size">): ConductorSize[] {
  const made = sizesMade(w, wiring);
  return made.slice(made.indexOf(w.size(least)));
}

/** The first of the sizes, small to large, whose drop keeps the limit; only its own steps stand. */
export const firstThatKeeps = <T extends { drop: Drop }>(
  w: Worksheet,
  sizes: readonly ConductorSize[],
  [of, limit]: ["volts", Known<"V">] | ["percent", Known<"%">],
  attempt: (size: ConductorSize) => T | undefined,
): T | undefined =>
  w.first(sizes, (size) => {
    const found = attempt(size);
    return found && w.holds(found.drop[of], "≤", limit) ? found : undefined;
  });

/**
 * The smallest conductor, from the one that is needed anyway, whose drop keeps the limit, the test shown; undefined where
 * none is made that large. `dropWith` works out the drop of a size.
 */
export function sizeForDrop(
  w: Worksheet,
  { wiring, needed, limit, clause }: {
    wiring: Made;
    needed: Known<"size">;
    limit: Known<"%">;
    clause: "voltage-drop-branch" | "voltage-drop-feeder";
  },
  dropWith: (size: Known<"size">) => Drop,
): { size: Known<"size">; drop: Drop } | undefined {
  const least = w.size(needed);
  const asNeeded = w.scratch(() => printValue(w.value(dropWith(needed).percent)));
  const found = firstThatKeeps(w, sizesFrom(w, wiring, needed), ["percent", limit], (each) => {
    const size = each === least ? needed : w.lookUp<"size">(
      `${wiring.material} conductor for the drop`,
      "conductor-ampacity",
      "size",
      each,
      `${least} would drop ${asNeeded}`,
    );
    return { size, drop: dropWith(size) };
  });
  if (found) showLimit(w, found.drop, limit, clause);
  return found;
}

/** Holds a drop against its limit, the test shown. */
export const showLimit = (
  w: Worksheet,
  { percent }: Pick<Drop, "percent">,
  limit: Known<"%">,
  clause: "voltage-drop-branch" | "voltage-drop-feeder",
): boolean =>
  w.choose("drop within the limit", [percent, "≤", limit], ["kept", () => true], ["passed", () => false], clause);
