/** What feeds a farm, and the voltage its tables count amperes at. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { threePhaseFactor } from "../../../rules/power.ts";
import { type Voltages, voltagesOf } from "../../../rules/systems.ts";
import type { FarmRequest } from "./request.ts";

export type FarmSupply = {
  system: Voltages;
  /** Of the tables: the supply's own where it is the same. */
  tables: Known<"V">;
  /** √3 of a three-phase supply. */
  root?: Known<"1">;
  /** Whether the supply's voltage is the tables'. */
  isTheirs: boolean;
};

export function supplyOf(w: Worksheet, { system: told, dwelling, buildings = [] }: FarmRequest): FarmSupply {
  w.part("Supply");
  if (!told) w.suppose("supply", USUAL, "nothing was said of it", "208Y/120 V three phase");
  const system = voltagesOf(w, told ?? USUAL);
  if (dwelling && system.name === "240 V three-phase") {
    throw need(
      "system",
      "A dwelling needs a neutral, which a 240 V delta lacks: is it a high-leg delta, 120/240 V?",
      "high-leg delta",
    );
  }
  const volts = w.constant<"V">("farm-volts");
  const isTheirs = w.scratch(() => w.holds(system.lineToLine, "=", volts));
  if (system.phases === 3 && buildings.some(({ load }) => load && load.unit !== "A")) {
    w.suppose(
      "power told of a building",
      "spread evenly over the three lines",
      "nothing was said of its lines",
      `${buildings[0]!.name ?? "farm building"} 100 A`,
      "farm-building",
    );
  }
  return {
    system,
    tables: isTheirs ? system.lineToLine : volts,
    ...(system.phases === 3 && { root: threePhaseFactor(w) }),
    isTheirs,
  };
}
const USUAL = "120/240 V single-phase";

/** Volt-amperes of amperes at the tables' voltage. */
export const powerAt = (w: Worksheet, name: string, current: Known<"A">, { tables, root }: FarmSupply): Known<"VA"> =>
  w.work(name, "VA", root ? calc`${current} × ${tables} × ${root}` : calc`${current} × ${tables}`);

/** Amperes at the tables' voltage of volt-amperes. */
export const currentAt = (
  w: Worksheet,
  name: string,
  power: Known<"VA" | "kVA">,
  { tables, root }: FarmSupply,
): Known<"A"> =>
  w.work(name, "A", root ? calc`${power} ÷ (${tables} × ${root})` : calc`${power} ÷ ${tables}`, "farm-building");

/** Amperes of a line at the supply's voltage, as they would be at the tables' for the same volt-amperes. */
export const atTables = (
  w: Worksheet,
  name: string,
  current: Known<"A">,
  { system, tables, isTheirs }: FarmSupply,
): Known<"A"> =>
  isTheirs
    ? current
    : w.work(w.say`${name}, at ${tables}`, "A", calc`${current} × ${system.lineToLine} ÷ ${tables}`, "farm-building");

/** And back: what the tables leave, at the supply's voltage. */
export const atSupply = (
  w: Worksheet,
  name: string,
  current: Known<"A">,
  { system, tables, isTheirs }: FarmSupply,
): Known<"A"> =>
  isTheirs ? current : w.work(name, "A", calc`${current} × ${tables} ÷ ${system.lineToLine}`, "farm-building");
