/** The question turned round: the largest of a kind that still fits, proved by the same calculation. */
import { calc } from "../../../core/formula.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { CATALOGUE, type LoadKind } from "../../../loads/catalogue.ts";
import type { Load } from "../../../rules/loads.ts";
import { capacity, fits, type Found, loadWith, partOf, type Service } from "./methods.ts";
import type { AddedLoad } from "./request.ts";

/** Circuits that chargers are made for, in amperes: the household cord's, and the largest on a breaker (common practice, no source). */
const CHARGER_CIRCUITS = [15, 100] as const;
/** Sizes that other loads are looked for in, and the most that is tried. */
const STEPS = { A: { step: "1", most: 250 }, kW: { step: "1/2", most: 60 } } as const;
/** Groups, and fixed appliances, whose nameplates are read in kilowatts; all others in amperes. */
const IN_KILOWATTS = ["cooking", "dryer", "furnace", "space heating", "supplemental heat", "continuous heating"];
const HEATERS: readonly LoadKind[] = ["water-heater", "tankless-water-heater", "sauna", "pool-heater"];

export type Size = { value: string; unit: "A" | "kW" };
/** The largest that fits and the next size, which does not. Absent where none fits, or where the largest that is tried does. */
export type Largest = { fits?: Size; next?: Size };

/** A load of a kind at a size, worked to volt-amperes. */
type LoadOf = (size: Size) => Load[];

/** The sizes of a kind, from small to large. */
export function sizesOf(w: Worksheet, kind: AddedLoad["kind"]): Size[] {
  const { group } = CATALOGUE[kind];
  if (group === "ev") return chargers(w);
  const unit = IN_KILOWATTS.includes(group) || HEATERS.includes(kind) ? "kW" : "A";
  const { step, most } = STEPS[unit];
  const count = exact(most).div(exact(step)).valueOf();
  return Array.from({ length: count }, (_, i) => ({ value: exact(step).mul(i + 1).toFraction(), unit }));
}

/** What a charger may draw on each standard circuit. */
function chargers(w: Worksheet): Size[] {
  return w.scratch(() => {
    const factor = w.constant<"%">("ev-circuit-factor");
    const [least, most] = CHARGER_CIRCUITS;
    return w.edition.table("standard-overcurrent-ratings").data.rows
      .map((row) => exact(String(row[0])).valueOf())
      .filter((rating) => rating >= least && rating <= most)
      .map((rating) => {
        const circuit = w.given("circuit", { n: exact(rating).toFraction(), unit: "A" });
        const value = w.value(w.work("draw", "A", calc`${circuit} ÷ ${factor}`));
        return { value: "n" in value ? value.n : "0", unit: "A" as const };
      });
  });
}

/** Every whole ampere up to a charger's own: what it may be set to. */
export const settings = (most: number): Size[] =>
  Array.from({ length: Math.floor(most) }, (_, i) => ({ value: String(i + 1), unit: "A" }));

/**
 * Finds the largest size that fits by halving: what stays is a pair of neighbours, one that fits and one that does not.
 */
export function largestOf(w: Worksheet, service: Service, sizes: readonly Size[], load: LoadOf): Largest {
  const doesFit = (size: Size): boolean =>
    w.scratch(() => {
      const added = load(size);
      return fits(w, service, loadWith(w, service, added, "").current, added);
    });
  let [below, above] = [-1, sizes.length];
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if (doesFit(sizes[middle]!)) below = middle;
    else above = middle;
  }
  const [one, next] = [sizes[below], sizes[above]];
  return { ...(one && { fits: one }), ...(next && { next }) };
}

/** Shows that one size fits and the next does not, each by the whole calculation. */
export function prove(w: Worksheet, service: Service, { fits: one, next }: Largest, load: LoadOf, name: string): void {
  for (const size of [one, next]) {
    if (!size) continue;
    const suffix = `, with a ${sayOf(size)} ${name}`;
    const added = load(size);
    const found = loadWith(w, service, added, suffix);
    fits(w, service, found.current, added);
    w.aside(`Load${suffix}`, ...service.methods.map((method) => partOf(method, suffix)));
  }
}
export const sayOf = ({ value, unit }: Size): string => `${exact(value).valueOf()} ${unit}`;

/** The nameplate of one more load of no particular kind that fits beside what is there, by the method that decides now. */
export function roomFor(w: Worksheet, service: Service, { load, tiers }: Found): Known<"VA"> {
  w.part("Room for more");
  const most = capacity(w, service);
  const nothing = w.given("least", { n: "0", unit: "VA" });
  const name = "largest load that may be added";
  if (!tiers) return w.work(name, "VA", calc`max(${nothing}, ${most} − ${load})`);
  const { tiered, outside, first, remainder } = tiers;
  const free = outside.length > 0 ? w.work("left for the tiers", "VA", calc`${most} − sum(${outside})`) : most;
  const start = w.constant<"VA">(first);
  const share = w.constant<"%">(remainder);
  return w.choose(
    "reaches beyond the first tier",
    [free, ">", start],
    ["yes", () => {
      const byTiers = w.work(
        "largest load by the tiers",
        "VA",
        calc`max(${nothing}, ${start} + (${free} − ${start}) ÷ ${share} − ${tiered})`,
      );
      // The tiers take a part of it; the main carries all of it.
      return w.work(name, "VA", calc`min(${byTiers}, ${most})`);
    }],
    ["no", () => w.work(name, "VA", calc`max(${nothing}, ${free} − ${tiered})`)],
  );
}
