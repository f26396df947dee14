/** The line current, and the heavier leg where dividing by the line-to-line voltage would hide it. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { Load, System } from "../../rules/loads.ts";
import type { Season, Standard } from "./standard.ts";

/** A season with the load of its method: the deciding one's is the calculated load itself. */
export type InSeason = { season: Season | undefined; load: Known<"VA"> };

/**
 * Current of the heavier line conductor, in whichever season that is more. Lighting and small-appliance circuits spread over
 * both legs and even out what the single line-to-neutral loads leave uneven; only what is left after that makes one leg
 * heavier.
 */
export function lineCurrent(
  w: Worksheet,
  seasons: readonly InSeason[],
  legs: Legs,
  system: System,
): Known<"A"> {
  // Heating and cooling between the lines leave the legs as they are: the larger load then decides by itself.
  const [decides] = seasons;
  const counted = seasons.some(({ season }) => season?.loads.some((load) => load.lineToNeutral)) ? seasons : [decides!];
  const currents = counted.map(({ season, load }) => {
    const excess = legs(season);
    w.part("Line current");
    if (!excess) return w.work("line current", "A", calc`${load} ÷ ${system.lineToLine}`);
    w.caution("The 120 V loads do not balance: move some to the other leg if you can.");
    return w.work("current of the heavier leg", "A", calc`(${load} + ${excess}) ÷ ${system.lineToLine}`);
  });
  return currents.length === 1
    ? currents[0]!
    : w.work("line current, in the season that is more", "A", calc`max(${currents})`);
}

/** What stays on the heavier leg in a season after the lighting circuits have evened out what they can; undefined for none. */
export type Legs = (season: Season | undefined) => Known<"VA"> | undefined;

/** The legs, worked out once for each season that is asked for. */
export function legsOf(w: Worksheet, lighting: Known<"VA">, loads: readonly Load[]): Legs {
  const worked = new Map<Season | undefined, Known<"VA"> | undefined>();
  return (season) => {
    if (!worked.has(season)) {
      w.part("Legs");
      worked.set(season, excessOf(w, lighting, loads, season));
    }
    return worked.get(season);
  };
}

function excessOf(
  w: Worksheet,
  lighting: Known<"VA">,
  loads: readonly Load[],
  season: Season | undefined,
): Known<"VA"> | undefined {
  const singles = loads.filter((load) => load.lineToNeutral && !season?.omitted.includes(load));
  if (singles.length === 0) return undefined;
  const legs = assignLegs(w, singles);
  const [a, b] = (["A", "B"] as const).map((leg) =>
    legs[leg].length > 0
      ? w.work(`line-to-neutral loads on leg ${leg}`, "VA", calc`sum(${legs[leg]})`)
      : w.given(`line-to-neutral loads on leg ${leg}`, { n: "0", unit: "VA" })
  ) as [Known<"VA">, Known<"VA">];
  const difference = w.work("difference of the legs", "VA", calc`abs(${a} − ${b})`);
  return w.choose(
    "do the lighting circuits even it out",
    [difference, "≤", lighting],
    ["yes, both legs carry the same", () => undefined],
    [
      "no, one leg is heavier and decides",
      () => w.work("what stays on the heavier leg", "VA", calc`${difference} − ${lighting}`),
    ],
  );
}

/** Loads whose leg is said go there; the others, largest first, to the lighter leg. */
function assignLegs(w: Worksheet, loads: readonly Load[]): Record<"A" | "B", Known<"VA">[]> {
  const legs: Record<"A" | "B", Known<"VA">[]> = { A: [], B: [] };
  for (const load of loads) {
    if (load.said.leg) legs[load.said.leg].push(load.all);
  }
  // Each of several alike is a circuit of its own and goes to a leg of its own.
  const free = loads.filter((load) => !load.said.leg).flatMap((load) =>
    Array.from({ length: load.said.count }, () => load.each)
  );
  const largestFirst = free.toSorted((x, y) => w.holds(x, "<", y) ? 1 : w.holds(x, ">", y) ? -1 : 0);
  for (const each of largestFirst) {
    const lighter = legs.A.length === 0
      ? "A"
      : legs.B.length === 0
      ? "B"
      : w.holds(calc`sum(${legs.A})`, "≤", calc`sum(${legs.B})`)
      ? "A"
      : "B";
    legs[lighter].push(each);
  }
  return legs;
}

/**
 * On two lines and the neutral of a wye, line-to-neutral loads sit on each line at its own voltage, the rest between the lines.
 * The arithmetic sum is a little above the true one, and safe.
 */
export function networkCurrent(
  w: Worksheet,
  load: Known<"VA">,
  standard: Standard | undefined,
  system: System,
): Known<"A"> {
  w.part("Line current");
  if (!standard) return w.work("line current, all taken between the lines", "A", calc`${load} ÷ ${system.lineToLine}`);
  const toNeutral = Object.entries(standard.lines).flatMap(([key, { neutral }]) =>
    neutral && key !== "cooking" && key !== "dryers" ? [neutral] : []
  );
  const between = w.work("load between the lines", "VA", calc`${load} − sum(${toNeutral})`);
  const lineToLine = w.work("current between the lines", "A", calc`${between} ÷ ${system.lineToLine}`);
  const lineToNeutral = w.work("current to the neutral", "A", calc`sum(${toNeutral}) ÷ (2 × ${system.lineToNeutral})`);
  return w.work("line current", "A", calc`${lineToLine} + ${lineToNeutral}`);
}
