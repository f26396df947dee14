/** From volt-amperes to the current of the heaviest line and of the neutral, by how the supply's wires lie. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { reducedNeutral } from "../../../rules/neutral.ts";
import { lineCurrent } from "../../../rules/power.ts";
import type { Voltages } from "../../../rules/systems.ts";
import { type Line, total } from "./lines.ts";
import type { OccupancyRequest } from "./request.ts";

/** What of a load does not stand on two lines alone. */
type Split = { neutral: Known<"VA"> | undefined; three: Known<"VA"> | undefined };

/** The current of the heaviest line. On a high-leg delta single-phase loads are all on the two lines beside the neutral. */
export function currentOf(w: Worksheet, load: Known<"VA">, split: Split, system: Voltages, name: string): Known<"A"> {
  const { shape, lineToLine, lineToNeutral, phases } = system;
  if (shape === "two lines of a wye" && split.neutral) {
    // Line-to-line and line-to-neutral currents are not in phase: their plain sum is a little above the true one.
    return w.work(
      name,
      "A",
      calc`(${load} − ${split.neutral}) ÷ ${lineToLine} + ${split.neutral} ÷ (2 × ${lineToNeutral!})`,
      "calculation-voltages",
    );
  }
  if (shape === "high leg") {
    if (!split.three) return w.work(name, "A", calc`${load} ÷ ${lineToLine}`, "calculation-voltages");
    const three = lineCurrent(w, split.three, lineToLine, 3, `${name}, three-phase part`);
    return w.work(
      name,
      "A",
      calc`${three} + (${load} − ${split.three}) ÷ ${lineToLine}`,
      "calculation-voltages",
      "the two lines beside the neutral; a little above the true sum",
    );
  }
  return lineCurrent(w, load, lineToLine, phases, name);
}

type Neutral = { load: Known<"VA">; current: Known<"A"> };

/** The neutral, where the supply has one and something stands between it and the lines. */
export function neutralOf(
  w: Worksheet,
  r: OccupancyRequest,
  lines: readonly Line[],
  system: Voltages,
): Neutral | undefined {
  if (!system.lineToNeutral) return undefined;
  w.part("Neutral");
  const load = total(w, "neutral load", lines, "neutral");
  if (!load) return undefined;
  const current = system.shape === "wye"
    ? lineCurrent(w, load, system.lineToLine, 3, "neutral current")
    : w.work("neutral current", "A", calc`${load} ÷ (2 × ${system.lineToNeutral})`, "neutral");
  if (system.shape === "two lines of a wye") {
    w.caution(
      "Two lines and the neutral of a wye: the neutral carries about as much as the lines and may not be reduced.",
      "neutral",
    );
    return { load, current };
  }
  if (system.shape !== "wye") return { load, current: reducedNeutral(w, current) };
  if (r.linear) {
    w.given("loads between lines and neutral", "linear");
    return { load, current: reducedNeutral(w, current) };
  }
  const isLarge = w.scratch(() => w.holds(current, ">", w.constant<"A">("neutral-large-threshold")));
  if (isLarge) {
    w.suppose(
      "loads between lines and neutral",
      "nonlinear",
      "lamps and office machines mostly are; then a neutral of a wye may not be reduced",
      "linear loads",
      "neutral",
    );
  }
  return { load, current };
}
