/** The optional method for one dwelling: general loads in two tiers, and the largest heating or cooling choice. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { type Load, ofGroup, sumOf } from "../loads.ts";
import type { Lighting } from "./area.ts";

const all = (loads: readonly Load[]) => loads.map((load) => load.all);
export type Optional = {
  total: Known<"VA">;
  seasons: Counted[];
  /** Loads that go through the tiers, and what counts outside them. */
  tiered: Known<"VA">;
  outside: Known<"VA">[];
};
/** What heating or cooling is counted at. */
export type Counted = { name: "heating" | "cooling"; demand: Known<"VA"> };

/** Of a heat pump: whether it stops for its supplemental heat, and whether it was told to run beside a heating system of its own. */
type Heating = { lockedOut: boolean; together: boolean };

/** Loads that the general group takes at nameplate. */
const GENERAL = ["cooking", "dryer", "fixed", "blower", "other"] as const;

export function optionalMethod(
  w: Worksheet,
  lighting: Lighting,
  loads: readonly Load[],
  heating: Heating,
  part = "Optional method",
): Optional {
  w.part(part);
  const evOutside = w.edition.rule("ev-optional") === "outside the tiers";
  const ev = all(ofGroup(loads, "ev"));
  const general = [...lighting.parts, ...all(ofGroup(loads, ...GENERAL)), ...(evOutside ? [] : ev)];
  const sum = w.work("general loads", "VA", calc`sum(${general})`, "optional-dwelling");
  const first = w.constant<"VA">("optional-first-tier");
  const remainder = w.constant<"%">("optional-remainder");
  const demand = w.choose(
    "beyond the first tier",
    [sum, ">", first],
    [
      "yes",
      () =>
        w.work(
          "general loads after the tiers",
          "VA",
          calc`${first} + (${sum} − ${first}) × ${remainder}`,
          "optional-dwelling",
        ),
    ],
    ["no", () => sum],
    "optional-dwelling",
  );
  const climate = climateChoice(w, loads, heating);
  const outside = [...(climate ? [climate.demand] : []), ...(evOutside ? ev : [])];
  const total = w.work("optional method load", "VA", calc`sum(${[demand, ...outside]})`, "optional-dwelling");
  return { total, seasons: climate?.seasons ?? [], tiered: sum, outside };
}

/** Each choice of heating and cooling at its percentage; only the largest counts. */
function climateChoice(
  w: Worksheet,
  loads: readonly Load[],
  { lockedOut, together }: Heating,
): { demand: Known<"VA">; seasons: Counted[] } | undefined {
  const clause = "optional-heating-cooling";
  const at = (name: string, of: Known<"VA"> | undefined, percent: string) =>
    of && w.work(name, "VA", calc`${of} × ${w.constant(percent)}`, clause);
  const cooling = at("cooling", sumOf(w, "cooling, nameplate", all(ofGroup(loads, "cooling"))), "optional-cooling");
  const pump = at(
    "heat pump",
    sumOf(w, "heat pump, nameplate", all(ofGroup(loads, "heat pump"))),
    "optional-heat-pump",
  );
  const strips = at(
    "supplemental heat",
    sumOf(w, "supplemental heat, nameplate", all(ofGroup(loads, "supplemental heat"))),
    "optional-supplemental-heat",
  );
  const both = pump && strips && !lockedOut
    ? w.work("heat pump with supplemental heat", "VA", calc`${pump} + ${strips}`, clause)
    : undefined;
  const heaters = heatersChoice(w, loads);
  const continuous = at(
    "heating at full load without a break",
    sumOf(w, "continuous heating, nameplate", all(ofGroup(loads, "continuous heating"))),
    "optional-continuous-heat",
  );
  // An air conditioner runs beside a heat pump that cools.
  const cools = cooling && pump
    ? w.work("air conditioning beside the heat pump", "VA", calc`${cooling} + ${pump}`, clause)
    : cooling ?? pump;
  const pumping = both ?? pump;
  const everything = together && pumping && heaters
    ? w.work("heat pump and the other heating together", "VA", calc`${pumping} + ${heaters}`, clause)
    : undefined;
  const heats = [everything ?? pumping, both ? undefined : strips, heaters, continuous]
    .filter((choice) => choice !== undefined);
  const choices = [...new Set([...(cools ? [cools] : []), ...heats])];
  if (choices.length === 0) return undefined;
  const heat = heats.length > 1 ? w.work("largest heating choice", "VA", calc`max(${heats})`, clause) : heats[0];
  return {
    demand: w.work("largest heating or cooling choice", "VA", calc`max(${choices})`, clause),
    seasons: [
      ...(heat ? [{ name: "heating" as const, demand: heat }] : []),
      ...(cools ? [{ name: "cooling" as const, demand: cools }] : []),
    ],
  };
}

/** Space heaters and a central furnace: a lower percentage from four separately controlled units on. */
function heatersChoice(w: Worksheet, loads: readonly Load[]): Known<"VA"> | undefined {
  const heaters = ofGroup(loads, "space heating", "furnace");
  const sum = sumOf(w, "electric space heating, nameplate", all(heaters));
  if (!sum) return undefined;
  const counts = heaters.map((load) =>
    load.said.units === undefined
      ? load.count
      : w.given(`${load.name}, separately controlled units`, { n: String(load.said.units), unit: "1" })
  );
  const units = w.work("separately controlled units", "1", calc`sum(${counts})`);
  const many = w.constant<"1">("optional-many-heaters-count");
  const heating = (percent: string) =>
    w.work("electric space heating", "VA", calc`${sum} × ${w.constant(percent)}`, "optional-heating-cooling");
  return w.choose(
    "four or more separately controlled",
    [units, "≥", many],
    ["yes", () => heating("optional-many-heaters")],
    ["no", () => heating("optional-few-heaters")],
    "optional-heating-cooling",
  );
}
