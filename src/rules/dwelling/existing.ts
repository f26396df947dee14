/**
 * The method for an existing dwelling to which load is added: everything in two tiers, and heating or cooling in full where
 * any of it is new.
 */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { LoadGroup } from "../../loads/catalogue.ts";
import { type Load, ofGroup } from "../loads.ts";
import type { Lighting } from "./area.ts";
import { climateOf } from "./standard.ts";

const CLIMATE: readonly LoadGroup[] = [
  "cooling",
  "heat pump",
  "furnace",
  "space heating",
  "supplemental heat",
  "continuous heating",
];
/** Loads that the tiers take at nameplate. */
const OTHERS = ["cooking", "dryer", "fixed", "blower", "other", "ev"] as const;

/** Whether the edition's method is known here: one that replaced it was not seen in print. */
export const hasExistingMethod = (w: Worksheet): boolean =>
  w.edition.rule("existing-dwelling") === "heating and cooling in full where any is added";

/** Whether a load heats or cools the dwelling. */
export const isClimate = ({ group }: Pick<Load, "group">): boolean => CLIMATE.includes(group);

/** What the method comes to, and what a further load beside it would have to itself. */
type ExistingLoad = {
  total: Known<"VA">;
  /** Loads that go through the tiers, at nameplate. */
  tiered: Known<"VA">;
  /** What counts in full outside them. */
  inFull: Known<"VA">[];
};

/**
 * @param addsClimate whether heating or cooling is added; without that the larger of what is there goes through the tiers
 * @returns the load in VA, with its parts
 */
export function existingMethod(
  w: Worksheet,
  lighting: Lighting,
  loads: readonly Load[],
  { lockedOut, addsClimate }: { lockedOut: boolean; addsClimate: boolean },
  part = "Existing-dwelling method",
): ExistingLoad {
  w.part(part);
  const clause = addsClimate ? "existing-dwelling-climate" : "existing-dwelling";
  const climate = climateOf(w, loads, lockedOut)?.demand;
  const others = [
    ...lighting.parts,
    ...ofGroup(loads, ...OTHERS).map(({ all }) => all),
    ...(climate && !addsClimate ? [climate] : []),
  ];
  const tiered = w.work("loads that go through the tiers", "VA", calc`sum(${others})`, clause);
  const first = w.constant<"VA">("existing-first-tier");
  const remainder = w.constant<"%">("existing-remainder");
  const demand = w.choose(
    "beyond the first tier",
    [tiered, ">", first],
    ["yes", () => w.work("after the tiers", "VA", calc`${first} + (${tiered} − ${first}) × ${remainder}`, clause)],
    ["no", () => tiered],
    clause,
  );
  if (!climate || !addsClimate) return { total: demand, tiered, inFull: [] };
  const inFull = w.work(
    "heating or cooling, in full",
    "VA",
    calc`${climate} × ${w.constant("existing-climate")}`,
    clause,
  );
  const total = w.work("existing-dwelling method load", "VA", calc`${demand} + ${inFull}`, clause);
  return { total, tiered, inFull: [inFull] };
}
