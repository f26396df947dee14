/** One farm building: what its load comes to by the bands of the table, which go by amperes at 240 V. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { hasMotor, motorTableCurrent } from "../../../rules/motor-current.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Building } from "./request.ts";
import { atSupply, atTables, currentAt, type FarmSupply } from "./supply.ts";

const TABLE = "farm-building-demand";
export type Demand = {
  name: string;
  /** Both at the tables' voltage. */
  connected: Known<"A">;
  demand: Known<"A">;
  /** All of it at the supply's voltage, where it was left open how much runs at one time, and more could. */
  atMost?: Known<"A">;
};

/** A told load in amperes of the lines at the tables' voltage. */
export function amperesOf(
  w: Worksheet,
  name: string,
  told: NonNullable<Building["load"]>,
  supply: FarmSupply,
): Known<"A"> {
  const { n, unit } = asQuantity(told);
  if (unit === "A") return atTables(w, name, w.given(name, { n, unit }), supply);
  return currentAt(w, `${name}, amperes`, powerOf(w, name, told), supply);
}

/** A told power; watts count as volt-amperes. */
export function powerOf(w: Worksheet, name: string, told: NonNullable<Building["load"]>): Known<"VA" | "kVA"> {
  const { n, unit } = asQuantity(told);
  const isWatts = unit === "W" || unit === "kW";
  return w.given(
    name,
    { n, unit: unit === "kW" || unit === "kVA" ? "kVA" : "VA" },
    isWatts ? "watts counted as volt-amperes" : undefined,
  );
}

export function buildingDemand(
  w: Worksheet,
  building: Building,
  name: string,
  supply: FarmSupply,
  asCalculated: boolean,
): Demand {
  if (!building.load) {
    throw need(
      "buildings",
      `What load is connected in the ${name}, in amperes of its lines or in kVA?`,
      `${name} 80 A`,
    );
  }
  const connected = amperesOf(w, `load of the ${name}`, building.load, supply);
  if (asCalculated) return { name, connected, demand: connected };
  const motor = motorOf(w, building, name, supply);
  if (motor && w.holds(motor, ">", connected)) {
    throw need(
      "buildings",
      `The largest motor of the ${name} draws more than all of its load. What is the load?`,
      `${name} 80 A`,
    );
  }
  const together = building.together && amperesOf(w, "of it at one time", building.together, supply);
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
  const isOpen = !together && w.holds(connected, ">", demand);
  return { name, connected, demand, ...(isOpen && { atMost: atSupply(w, `all of the ${name}`, connected, supply) }) };
}

/** Keys of the table's rows: the first band, the next, the remainder. */
const bandsOf = (w: Worksheet): string[] => w.edition.table(TABLE).data.rows.map((row) => String(row[0]));

/** The line current of the largest motor at the tables' voltage: by the table of motor currents, or as it was told. */
function motorOf(w: Worksheet, { motor }: Building, name: string, supply: FarmSupply): Known<"A"> | undefined {
  if (!motor) return undefined;
  const { n, unit } = asQuantity(motor);
  const said = `largest motor of the ${name}`;
  if (unit === "A") return atTables(w, said, w.given(said, { n, unit }), supply);
  const { lineToLine, phases } = supply.system;
  const power = w.given(said, { n, unit });
  const isFor = (of: 1 | 3) => w.scratch(() => hasMotor(w, power, lineToLine, of));
  if (phases === 1 && !isFor(1) && isFor(3)) {
    throw need(
      "system",
      w.say`No single-phase motor of ${power} is listed: which three-phase supply does the farm have? Of a motor on a phase converter, tell the amperes it draws from it (“${name} largest motor 80 A”).`,
      "208Y/120 V three phase",
    );
  }
  const isThree = phases === 3 && (isFor(3) || !isFor(1));
  if (isThree && isFor(1)) {
    const single = w.scratch(() => w.say`${motorTableCurrent(w, power, lineToLine, 1)}`);
    w.suppose(said, "three-phase", "the supply is, and nothing was said of it", `${name} largest motor ${single}`);
  }
  return atTables(w, said, motorTableCurrent(w, power, lineToLine, isThree ? 3 : 1), supply);
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
