/** The method of mobile homes: amperes on each leg, line by line, in place of the dwelling's own. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Lighting } from "../../../rules/dwelling/area.ts";
import { isClimate } from "../../../rules/dwelling/existing.ts";
import { climateOf } from "../../../rules/dwelling/standard.ts";
import type { Load, System } from "../../../rules/loads.ts";
import { throughTiers } from "../../../rules/tiers.ts";
import { amperesOf, balance, type Item, type OnLegs, piecesOf, sumLegs } from "./legs.ts";

/** Appliances that count for less where there are more than a few of them. */
const COUNTED: ReadonlySet<string> = new Set([
  "disposer",
  "dishwasher",
  "water-heater",
  "tankless-water-heater",
  "dryer",
  "wall-oven",
  "cooktop",
]);
/** Whose demand puts less on the neutral. */
const REDUCED: ReadonlySet<string> = new Set(["range", "dryer", "wall-oven", "cooktop"]);
const RANGES = "mobile-home-range-demand";

export type Own = OnLegs & { neutral: Known<"A"> };
type Home = {
  lighting: Lighting;
  loads: readonly Load[];
  system: System;
  lockedOut: boolean;
  /** Whether its cord is the smaller one: then something is left for an air conditioner. */
  isSmallCord: boolean;
};

export function ownMethod(w: Worksheet, { lighting, loads, system, lockedOut, isSmallCord }: Home): Own {
  w.part("Method of mobile homes");
  const lit = litAmperes(w, lighting, system);
  const climate = climateOf(w, loads, lockedOut);
  const runs = loads.filter((load) => !climate?.omitted.includes(load));
  const shared = shareOf(w, runs);
  const pieces = runs.flatMap((load) =>
    piecesOf(
      load,
      load.said.kind === "range" ? rangeAmperes(w, load, system) : amperesOf(w, load, system, shared(load)),
    )
  );
  const items = balance(w, pieces);
  const cools = runs.concat(climate?.omitted ?? []).some(({ group }) => group === "cooling" || group === "heat pump");
  const allowance = isSmallCord && !cools ? [w.constant<"A">("mobile-home-cooling-allowance")] : [];
  const addition = motorAddition(w, runs, items);
  const legs = sumLegs(w, [lit, ...allowance], [...items, ...addition]);
  return { ...legs, neutral: neutralOf(w, lit, runs, legs.items) };
}

/** Lighting by the outside floor area, small-appliance and laundry circuits, through the tiers, on both legs. */
function litAmperes(w: Worksheet, { areas, smallAppliance, laundry }: Lighting, { lineToLine }: System): Known<"A"> {
  const { ft2, m2 } = areas;
  const lights = [
    ...(ft2
      ? [w.work("lighting", "VA", calc`${ft2} × ${w.constant("mobile-home-unit-load")}`, "mobile-home-lighting")]
      : []),
    ...(m2
      ? [w.work("lighting", "VA", calc`${m2} × ${w.constant("mobile-home-unit-load-metric")}`, "mobile-home-lighting")]
      : []),
  ];
  const connected = w.work(
    "lighting, small-appliance and laundry load",
    "VA",
    calc`sum(${[...lights, smallAppliance, ...(laundry ? [laundry] : [])]})`,
    "mobile-home-lighting",
  );
  const demand = throughTiers(w, connected, "mobile-home-lighting-demand", "mobile-home-lighting");
  return w.work("lighting on each leg", "A", calc`${demand} ÷ ${lineToLine}`, "mobile-home-lighting");
}

/** The share of the appliances that are counted, where there are more than a few. */
function shareOf(w: Worksheet, loads: readonly Load[]): (load: Load) => Known<"%"> | undefined {
  const counted = loads.filter(({ said }) => COUNTED.has(said.kind));
  if (counted.length === 0) return () => undefined;
  const number = w.work("appliances that are counted", "1", calc`sum(${counted.map(({ count }) => count)})`);
  const share = w.choose<Known<"%"> | undefined>(
    "more than count in full",
    [number, ">", w.constant<"1">("mobile-home-appliances")],
    ["yes", () => w.constant<"%">("mobile-home-appliance-demand")],
    ["no, all in full", () => undefined],
    "mobile-home-load",
  );
  return (load) => counted.includes(load) ? share : undefined;
}

function rangeAmperes(w: Worksheet, load: Load, { lineToLine }: System): Known<"A"> {
  const { rows } = w.edition.table(RANGES).data;
  const most = w.lookUp<"VA">("largest range of the table", RANGES, "rating up to", String(rows.at(-1)![0]));
  if (w.holds(load.each, ">", most)) {
    throw need(
      "loads.range.rating",
      w.say`The table of mobile homes ends at ranges of ${most}. What does the range's nameplate say?`,
      "range 12 kW",
    );
  }
  const isShared = w.holds(
    load.each,
    "≤",
    w.lookUp<"VA">("first row up to", RANGES, "rating up to", String(rows[0]![0])),
  );
  const demand = isShared
    ? w.work(
      "range, as counted",
      "VA",
      calc`${load.each} × ${w.lookUp<"%">("counts at", RANGES, "share", load.each)}`,
      "mobile-home-load",
    )
    : w.lookUp<"VA">("range, as counted", RANGES, "demand", load.each);
  return w.work("range, amperes", "A", calc`${demand} ÷ ${lineToLine}`, "mobile-home-load");
}

/** A share of the largest motor that runs, the counted appliances' own left out, on its legs. */
function motorAddition(w: Worksheet, loads: readonly Load[], items: readonly Item[]): Item[] {
  const motors = loads.filter(({ motor, said }) => motor && !COUNTED.has(said.kind));
  const running = items.filter(({ name }) => motors.some((load) => load.name === name));
  const [first, ...others] = running;
  if (!first) return [];
  const largest = others.reduce((most, each) => w.holds(each.current, ">", most.current) ? each : most, first);
  const current = w.work(
    "addition for the largest motor",
    "A",
    calc`${largest.current} × ${w.constant<"%">("mobile-home-motor-addition")}`,
    "mobile-home-load",
  );
  return [{ name: "addition for the largest motor", current, ...(largest.leg && { leg: largest.leg }) }];
}

/** The most between a leg and the neutral, with the share of cooking and dryers that is on it. */
function neutralOf(w: Worksheet, lit: Known<"A">, loads: readonly Load[], items: readonly Item[]): Known<"A"> {
  w.part("Neutral");
  const isReduced = ({ name, leg }: Item) =>
    !leg && loads.some((load) => load.name === name && REDUCED.has(load.said.kind));
  const reduced = items.filter(isReduced).map(({ name, current }) =>
    w.work(
      `${name}, on the neutral`,
      "A",
      calc`${current} × ${w.constant<"%">("neutral-cooking-dryer-demand")}`,
      "neutral",
    )
  );
  const on = (which: "A" | "B") =>
    w.work(
      `between leg ${which} and the neutral`,
      "A",
      calc`sum(${[lit, ...reduced, ...items.filter(({ leg }) => leg === which).map(({ current }) => current)]})`,
      "neutral",
    );
  return w.work("neutral current", "A", calc`max(${[on("A"), on("B")]})`, "neutral");
}

/** Whether the home heats or cooks with electricity: the smaller cord is for those that do neither. */
export const isElectric = (loads: readonly Load[]): boolean =>
  loads.some((load) => load.group === "cooking" || (isClimate(load) && load.group !== "cooling"));
