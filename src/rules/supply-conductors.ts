/** Line conductors of a service or feeder sized by the ampacity table alone, outside the dwelling rule. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { column as columnOf, type Material, sizes } from "./conductors.ts";
import type { LineConductor } from "./neutral.ts";
import { protects, showProtection } from "./overcurrent.ts";
import { fewestSets } from "./parallel.ts";

/**
 * The smallest conductors that carry the load and are protected by the rating, the next size up of the device included, in
 * parallel sets where no single conductor is large enough.
 * @param load.current what the ampacity has to reach: with what continuous loads add, where they add
 */
export function lineByAmpacity(
  w: Worksheet,
  { rating, current }: { rating: Known<"A">; current: Known<"A"> },
  column: Known<"°C">,
  material: Material,
): LineConductor {
  const name = `${material} line conductor`;
  const degrees = columnOf(w, material, column);
  return fewestSets(w, undefined, (sets) =>
    w.first(sizes(w, material), (word) => {
      if (!w.has("conductor-ampacity", degrees, word)) return undefined;
      const size = w.lookUp<"size">(name, "conductor-ampacity", "size", word, "the smallest that does");
      const one = w.lookUp<"A">("ampacity", "conductor-ampacity", degrees, size);
      const all = sets ? w.work("ampacity of all sets", "A", calc`${one} × ${sets}`, "parallel-conductors") : one;
      if (!w.holds(all, "≥", current) || !protects(w, rating, all)) return undefined;
      w.choose("load against ampacity", [current, "≤", all], ["carried", () => {}], ["too much", () => {}], "ampacity");
      showProtection(w, rating, all);
      return { size };
    }));
}
