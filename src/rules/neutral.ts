/** The neutral of a service or feeder: by what it carries, and not below the least the code allows it. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { areaOf, byAmpacity, chooseConductor, type Material, type Wiring } from "./conductors.ts";
import { bondingJumper, smaller, type Supply } from "./grounding.ts";

/** The current of a neutral with the reduction of its part above the current from which the code allows one. */
export function reducedNeutral(w: Worksheet, current: Known<"A">): Known<"A"> {
  const threshold = w.constant<"A">("neutral-large-threshold");
  return w.choose(
    "beyond the current where a reduction is allowed",
    [current, ">", threshold],
    ["yes", () => {
      const share = w.constant<"%">("neutral-large-demand");
      const reduced = calc`${threshold} + (${current} − ${threshold}) × ${share}`;
      return w.work("neutral current, reduced", "A", reduced, "neutral");
    }],
    ["no", () => current],
    "neutral",
  );
}

/**
 * What a demand of household cooking appliances or dryers between the lines puts on the neutral of a feeder or service.
 * @returns in VA
 */
export const neutralOfDemand = (w: Worksheet, name: string, demand: Known<"VA">): Known<"VA"> =>
  w.work(name, "VA", calc`${demand} × ${w.constant<"%">("neutral-cooking-dryer-demand")}`, "neutral");

/** The line conductors beside which a neutral runs. */
export type LineConductor = { size: Known<"size">; sets?: Known<"1"> };

/**
 * The smallest neutral that carries its load where the lines run: in their column, with their correction, adjustment and
 * cable limit. Its own device is none, so next size up and the limits of small conductors do not reach it.
 */
export function neutralByLoad(
  w: Worksheet,
  current: Known<"A">,
  { sets }: LineConductor,
  wiring: Wiring,
): Known<"size"> {
  const least = sets && w.size(w.constant<"size">("parallel-least-size"));
  const duty = { design: current, load: current, smallLimits: false, ...(sets && { sets }), ...(least && { least }) };
  return chooseConductor(w, duty, wiring, "neutral by its load").size;
}

/** The same by a column alone, where nothing is known of how the conductors run. */
export function neutralByColumn(
  w: Worksheet,
  current: Known<"A">,
  { sets }: LineConductor,
  column: Known<"°C">,
  material: Material,
): Known<"size"> {
  if (!sets) return byAmpacity(w, "neutral by its load", current, column, material);
  const each = w.work("neutral current of each set", "A", calc`${current} ÷ ${sets}`);
  return atLeastParallel(w, byAmpacity(w, "neutral by its load", each, column, material));
}

/**
 * Least grounded conductor of a service. Parallel sets in raceways of their own take it each by what runs in their raceway;
 * in one raceway they share the one of all sets; none is smaller than parallel conductors may be.
 */
export function leastServiceNeutral(w: Worksheet, supply: Supply, together = false): Known<"size"> {
  const clause = "grounded-conductor-minimum";
  const { sets, ...one } = supply;
  if (!sets) return bondingJumper(w, supply, supply.material, "least grounded conductor", clause);
  if (together) {
    return shared(w, bondingJumper(w, supply, supply.material, "least grounded conductor of all sets", clause), sets);
  }
  return atLeastParallel(w, bondingJumper(w, one, supply.material, "least grounded conductor of each raceway", clause));
}

/** Least neutral of a feeder: as its equipment ground by the table, which parallel neutrals reach together. */
export function leastFeederNeutral(
  w: Worksheet,
  device: Known<"A">,
  material: Material,
  sets: Known<"1"> | undefined,
): Known<"size"> {
  const least = w.lookUp<"size">("least feeder neutral", "equipment-grounding-conductor", material, device);
  return sets ? shared(w, least, sets) : least;
}

/** One set's part of a least size that all sets have together. */
function shared(w: Worksheet, all: Known<"size">, sets: Known<"1">): Known<"size"> {
  const each = w.work("area of each set", "kcmil", calc`${areaOf(w, all, "area of the least neutral")} ÷ ${sets}`);
  return atLeastParallel(w, w.atLeast<"size">("least neutral of each set", "conductor-properties", "area", each));
}

const atLeastParallel = (w: Worksheet, size: Known<"size">): Known<"size"> =>
  larger(
    w,
    size,
    w.constant<"size">("parallel-least-size"),
    "least neutral of a parallel set",
    "as small as parallel conductors may be",
    "parallel-conductors",
  );

/** The larger of two sizes by area, shown as a choice. */
function larger(
  w: Worksheet,
  a: Known<"size">,
  b: Known<"size">,
  name: string,
  why: string,
  clause: string,
): Known<"size"> {
  const [areaA, areaB] = [areaOf(w, a, `area of ${a.name}`), areaOf(w, b, `area of ${b.name}`)];
  return w.choose(name, [areaA, "≥", areaB], [w.size(a).name, () => a], [`${w.size(b).name}, ${why}`, () => b], clause);
}

/**
 * The neutral: by its load, not below its floor. It need not be larger than the lines, since the most it can carry is what
 * one of them does; but nonlinear loads on three phases add their harmonics up in it, and then its own load decides.
 */
export function neutralConductor(
  w: Worksheet,
  byLoad: Known<"size">,
  floor: Known<"size">,
  line: LineConductor,
  { clause, addsUp = false }: { clause: string; addsUp?: boolean },
): Known<"size"> {
  const chosen = larger(w, byLoad, floor, "neutral against its floor", "the floor", clause);
  if (addsUp) return chosen;
  return smaller(w, chosen, line.size, "neutral conductor", clause, "it need not be larger than the line conductors");
}
