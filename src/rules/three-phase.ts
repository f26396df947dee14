/** Single-phase appliances spread over a three-phase, four-wire supply. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/** How many of some appliances lie between each two phases, where it was told: A-B, B-C, C-A. */
export type Spread = readonly [Known<"1">, Known<"1">, Known<"1">];

/** A spread as a request tells it, as steps; undefined where none was told. */
export function spreadOf(w: Worksheet, told: readonly number[] | undefined, what: string): Spread | undefined {
  if (!told) return undefined;
  return PAIRS.map((pair, i) => w.given(`${what} between ${pair}`, { n: String(told[i]), unit: "1" })) as never;
}
const PAIRS = ["A and B", "B and C", "C and A"] as const;

/** The spread of several groups together; undefined unless each has one. */
function together(w: Worksheet, spreads: readonly (Spread | undefined)[], what: string): Spread | undefined {
  const [first, ...others] = spreads.filter((spread) => spread !== undefined);
  if (!first || others.length + 1 < spreads.length) return undefined;
  if (others.length === 0) return first;
  return PAIRS.map((pair, i) =>
    w.work(`all ${what} between ${pair}`, "1", calc`sum(${[first, ...others].map((spread) => spread[i]!)})`)
  ) as never;
}

/**
 * What the demand tables are entered with: twice the largest number between any two phases, as told or spread as evenly as can
 * be.
 */
export function perPhasePair(
  w: Worksheet,
  count: Known<"1">,
  what: string,
  spreads: readonly (Spread | undefined)[] = [],
): Known<"1"> {
  const told = together(w, spreads, what);
  const name = `most ${what} between two phases`;
  const most = told
    ? w.work(name, "1", calc`max(${told})`)
    : w.work(name, "1", calc`roundUp(${count} ÷ ${w.given("phases", { n: "3", unit: "1" })})`);
  return w.work(`${what} to enter the table with`, "1", calc`2 × ${most}`);
}

/** The demand of two phases as the equivalent three-phase load: half of it is one phase's. */
export function threePhases(w: Worksheet, two: Known<"VA">, name: string, clause: string): Known<"VA"> {
  const phases = w.given("phases", { n: "3", unit: "1" });
  return w.work(name, "VA", calc`${two} ÷ 2 × ${phases}`, clause);
}
