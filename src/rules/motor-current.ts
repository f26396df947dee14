/** The table current of a motor where only its power is told. */
import { need } from "../core/outcome.ts";
import { exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

const TABLES = {
  1: "motor-current-single-phase",
  3: "motor-current-three-phase",
  dc: "motor-current-direct-current",
} as const;
/** The nameplate voltage of motors made for a system's nominal voltage. */
const MADE_FOR: Readonly<Record<string, string>> = {
  "110": "115",
  "120": "115",
  "220": "230",
  "240": "230",
  "440": "460",
  "480": "460",
  "600": "575",
};

/**
 * Full-load current by the table, which conductors are sized by, whatever the nameplate says.
 * @throws Unclear when the table has no column for the voltage, NotCovered when it has no row for the power.
 */
export function motorTableCurrent(
  w: Worksheet,
  power: Known<"hp">,
  volts: Known<"V">,
  supply: keyof typeof TABLES,
): Known<"A"> {
  const value = w.value(volts);
  const said = "word" in value ? value.word : exact(value.n).toFraction();
  const column = `${MADE_FOR[said] ?? said} V`;
  const columns = Object.keys(w.edition.table(TABLES[supply]).data.columns);
  if (!columns.includes(column)) {
    throw need(
      "volts",
      `The motor current table has no ${said} V: what does its nameplate say?`,
      `${columns.at(-1)} motor`,
    );
  }
  return w.lookUp<"A">("full-load current of the motor", TABLES[supply], column, power);
}
