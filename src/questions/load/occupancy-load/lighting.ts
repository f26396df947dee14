/** General lighting by the table or as connected, show windows, track, signs and what lights the lot. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { sumOf } from "../../../rules/loads.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { throughTiers } from "../../../rules/tiers.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { continuousLoad, type Line } from "./lines.ts";
import type { OccupancyRequest } from "./request.ts";

const TABLE = "lighting-unit-load";
type Area = NonNullable<OccupancyRequest["areas"]>[number];
/** Floor of one use: its area, its lighting by the table, and the tiers of demand it has, if any. */
type Lit = { load: Known<"VA">; tiers: string | undefined };

/** All lighting lines of a request. */
export function lightingLines(w: Worksheet, r: OccupancyRequest): { lines: Line[]; connected: Known<"VA">[] } {
  w.part("Lighting");
  const general = generalLighting(w, r);
  const others = [
    r.showWindow && showWindows(w, r.showWindow),
    r.trackLighting && byLength(w, r.trackLighting),
    luminaires(w, "outdoor lighting", r.outdoorLighting),
  ].filter((load) => load !== undefined);
  const other = sumOf(w, "other lighting", others);
  const lines = [
    ...(general ? [general.line] : []),
    ...(other ? [continuous(w, others.length === 1 ? other.name : "other lighting", other)] : []),
  ];
  return { lines, connected: [...(general ? [general.connected] : []), ...others] };
}

/** Lighting burns for hours, and stands between the lines and the neutral. */
function continuous(w: Worksheet, name: string, demand: Known<"VA">): Line {
  const design = continuousLoad(w, demand, `${name}, continuous`);
  return { name, demand, design, neutral: demand, neutralDesign: design };
}

/** Show windows by their length, at the load printed for its own unit. */
function showWindows(w: Worksheet, said: { value: number | string; unit: "ft" | "m" }): Known<"VA"> {
  const each = w.constant<"VA/ft" | "VA/m">(said.unit === "m" ? "show-window-load-metric" : "show-window-load");
  return w.work(
    "show windows",
    "VA",
    calc`${w.given("length of the show windows", asQuantity(said))} × ${each}`,
    "show-windows",
  );
}

/** Track, by its length or a part of one. */
function byLength(w: Worksheet, said: { value: number | string; unit: "ft" | "m" }): Known<"VA"> {
  const length = w.given("length of the lighting track", convert(asQuantity(said), "ft"));
  const [load, each] = [w.constant<"VA">("track-lighting-load"), w.constant<"ft">("track-lighting-length")];
  return w.work("track lighting", "VA", calc`roundUp(${length} ÷ ${each}) × ${load}`, "track-lighting");
}

/** The larger of the table's lighting and the connected one, after the tiers of demand of its occupancy. */
function generalLighting(w: Worksheet, r: OccupancyRequest): { line: Line; connected: Known<"VA"> } | undefined {
  const connected = connectedLighting(w, r);
  const lit = (r.areas ?? []).flatMap((area): Lit[] => litArea(w, area, connected !== undefined));
  if (lit.length === 0) return connected && { line: continuous(w, "lighting as connected", connected), connected };
  const uses = [...new Set(lit.map(({ tiers }) => tiers))];
  const byTable = sumOf(
    w,
    "general lighting by area",
    uses.map((tiers) => {
      const load = sumOf(w, "lighting by area", lit.filter((each) => each.tiers === tiers).map(({ load }) => load))!;
      return afterTiers(w, load, tiers);
    }),
  )!;
  const isIncluded = w.edition.rule("lighting-unit-load") === "with the continuous-load factor";
  const name = "general lighting";
  const only = sumOf(w, "lighting by area, all", lit.map(({ load }) => load))!;
  if (!connected) {
    const design = isIncluded ? included(w, byTable) : continuousLoad(w, byTable, `${name}, continuous`);
    return { line: lineOf(name, byTable, design), connected: only };
  }
  // Tiers belong to one use: the connected lighting of several uses counts in full.
  const told = uses.length === 1 ? afterTiers(w, connected, uses[0]) : connected;
  const demand = w.work(
    name,
    "VA",
    calc`max(${byTable}, ${told})`,
    TABLE,
    "the larger of the table's and the connected",
  );
  const design = isIncluded
    ? w.work(
      `${name}, continuous`,
      "VA",
      calc`max(${byTable}, ${told} × ${w.constant<"%">("continuous-load-factor")})`,
      TABLE,
      "the table's has the factor for continuous loads in it",
    )
    : continuousLoad(w, demand, `${name}, continuous`);
  const whole = w.work("lighting, connected or by area", "VA", calc`max(${only}, ${connected})`, TABLE);
  return { line: lineOf(name, demand, design), connected: whole };
}

const lineOf = (name: string, demand: Known<"VA">, design: Known<"VA">): Line => ({
  name,
  demand,
  design,
  neutral: demand,
  neutralDesign: design,
});

const included = (w: Worksheet, load: Known<"VA">): Known<"VA"> =>
  w.work(
    "general lighting, continuous",
    "VA",
    calc`1 × ${load}`,
    TABLE,
    "the table has the factor for continuous loads in it",
  );

/** Luminaires as they are connected. */
function luminaires(w: Worksheet, name: string, told: OccupancyRequest["lighting"] = []): Known<"VA"> | undefined {
  const parts = told.map(({ count, rating }) => {
    const each = nameplate(w, count === 1 ? name : `${name}, each`, rating);
    if (count === 1) return each;
    return w.work(`${name}, together`, "VA", calc`${w.given("luminaires", { n: String(count), unit: "1" })} × ${each}`);
  });
  return sumOf(w, name, parts);
}

/** Lighting that was told: as a load, or as so much for each square foot. */
function connectedLighting(w: Worksheet, r: OccupancyRequest): Known<"VA"> | undefined {
  const told = luminaires(w, "connected lighting", r.lighting);
  if (!r.lightingPerArea || !r.areas?.length) return told;
  const unit = w.given("lighting told for each square foot", asQuantity(r.lightingPerArea));
  const areas = r.areas.map(({ area }) => w.given("floor area", convert(asQuantity(area), "ft2")));
  const perArea = w.work("lighting as told", "VA", calc`sum(${areas}) × ${unit}`);
  return told ? w.work("lighting told", "VA", calc`max(${told}, ${perArea})`) : perArea;
}

/** Lighting of one floor. An occupancy that the table does not list counts by what is connected, where that was told. */
function litArea(w: Worksheet, { area, occupancy }: Area, isConnected: boolean): Lit[] {
  if (!w.has(TABLE, "unit load", occupancy)) {
    if (isConnected) return [];
    throw need(
      "lighting",
      `The lighting table of ${w.edition.id} does not list a ${occupancy}: what lighting is connected?`,
      "6 kVA of lighting",
    );
  }
  const floor = w.given(`floor area, ${occupancy}`, asQuantity(area));
  const printed = w.edition.table(TABLE).cell(w.edition.table(TABLE).row(occupancy)!, "printed as");
  const column = area.unit === "m2" ? "unit load, metric" : "unit load";
  const unit = w.lookUp<"VA/ft2" | "VA/m2">("lighting load by area", TABLE, column, occupancy, `printed as ${printed}`);
  const load = w.work(`lighting by area, ${occupancy}`, "VA", calc`${floor} × ${unit}`, TABLE);
  const tiers = w.edition.table(TABLE).cell(w.edition.table(TABLE).row(occupancy)!, "demand tiers");
  return [{ load, tiers: tiers === null ? undefined : String(tiers) }];
}

/** The demand of an occupancy whose lights are never all on. */
function afterTiers(w: Worksheet, load: Known<"VA">, tiers: string | undefined): Known<"VA"> {
  if (tiers === undefined) return load;
  if (tiers !== "warehouse") {
    w.caution(
      "The lighting demand does not hold where all lights are on at once, as in ballrooms, dining or operating rooms.",
      "lighting-demand",
    );
  }
  return throughTiers(w, load, `general-lighting-demand-${tiers}`, "lighting-demand");
}
