/** One farm building: what its load comes to by the bands of the table. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { motorTableCurrent } from "../../../rules/motor-current.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Building } from "./request.ts";

const TABLE = "farm-building-demand";
export type Demand = {
  name: string;
  /** At 240 V. */
  connected: Known<"A">;
  demand: Known<"A">;
  /** Whether it was left open how much of it runs at one time, and more could. */
  isOpen: boolean;
};

/** A told load in amperes at 240 V, between whose lines farm loads are counted. */
export function amperesOf(
  w: Worksheet,
  name: string,
  told: NonNullable<Building["load"]>,
  volts: Known<"V">,
): Known<"A"> {
  const { n, unit } = asQuantity(told);
  if (unit === "A") return w.given(name, { n, unit });
  const isWatts = unit === "W" || unit === "kW";
  const power = w.given(
    name,
    { n, unit: unit === "W" ? "VA" : unit === "kW" ? "kVA" : unit },
    isWatts ? "watts counted as volt-amperes" : undefined,
  );
  return w.work(`${name}, amperes`, "A", calc`${power} ÷ ${volts}`, "farm-building");
}

export function buildingDemand(
  w: Worksheet,
  building: Building,
  name: string,
  volts: Known<"V">,
  asCalculated: boolean,
): Demand {
  if (!building.load) {
    throw need("buildings", `What load is connected in the ${name}, in amperes at 240 V?`, `${name} 80 A`);
  }
  const connected = amperesOf(w, `load of the ${name}`, building.load, volts);
  if (asCalculated) return { name, connected, demand: connected, isOpen: false };
  const motor = motorOf(w, building, name, volts);
  if (motor && w.holds(motor, ">", connected)) {
    throw need(
      "buildings",
      `The largest motor of the ${name} draws more than all of its load. What is the load?`,
      `${name} 80 A`,
    );
  }
  const together = building.together && amperesOf(w, "of it at one time", building.together, volts);
  if (together && w.holds(together, ">", connected)) {
    throw need(
      "buildings",
      `More than all of the ${name} cannot run at one time. What is its load?`,
      `${name} 80 A, 60 A run together`,
    );
  }
  const [firstRow] = bandsOf(w);
  const top = w.lookUp<"A">("first band up to", TABLE, "load up to", firstRow!);
  const first = w.work("the first band of it", "A", calc`min(${connected}, ${top})`, "farm-building");
  const raised = motor &&
    w.work(
      "the largest motor, raised",
      "A",
      calc`${motor} × ${w.constant<"%">("farm-largest-motor")}`,
      "farm-building",
    );
  const floors = [first, ...(together ? [together] : [])];
  const isMotor = raised !== undefined && floors.every((floor) => w.holds(raised, ">", floor));
  const whole = w.work(
    "greatest of these, in full",
    "A",
    calc`max(${[...floors, ...(raised ? [raised] : [])]})`,
    "farm-building",
  );
  // Where the motor decides, all but the motor is the rest of the load.
  const others = w.work("other loads", "A", calc`max(0 × ${connected}, ${connected} − ${isMotor ? motor! : whole})`);
  const demand = throughBands(w, whole, others, top, name);
  return { name, connected, demand, isOpen: !together && w.holds(connected, ">", demand) };
}

/** Keys of the table's rows: the first band, the next, the remainder. */
const bandsOf = (w: Worksheet): string[] => w.edition.table(TABLE).data.rows.map((row) => String(row[0]));

function motorOf(w: Worksheet, { motor }: Building, name: string, volts: Known<"V">): Known<"A"> | undefined {
  if (!motor) return undefined;
  const { n, unit } = asQuantity(motor);
  if (unit === "A") return w.given(`largest motor of the ${name}`, { n, unit });
  return motorTableCurrent(w, w.given(`largest motor of the ${name}`, { n, unit }), volts, 1);
}

/** The next band of what is left at its share, the remainder at the last. */
function throughBands(w: Worksheet, whole: Known<"A">, others: Known<"A">, top: Known<"A">, name: string): Known<"A"> {
  if (w.holds(others, "=", calc`0 × ${others}`)) return whole;
  const [, nextRow, lastRow] = bandsOf(w);
  const end = w.lookUp<"A">("next band up to", TABLE, "load up to", nextRow!);
  const share = w.lookUp<"%">("next band at", TABLE, "demand", nextRow!);
  const width = calc`${end} − ${top}`;
  const next = w.work("next band", "A", calc`min(${others}, ${end} − ${top}) × ${share}`, "farm-building");
  const parts = [whole, next];
  if (w.holds(others, ">", width)) {
    const last = w.lookUp<"%">("remainder at", TABLE, "demand", lastRow!);
    parts.push(w.work("remainder", "A", calc`(${others} − (${end} − ${top})) × ${last}`, "farm-building"));
  }
  return w.work(`demand of the ${name}`, "A", calc`sum(${parts})`, "farm-building");
}
