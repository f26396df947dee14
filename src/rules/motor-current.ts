/** The table currents of a motor, by which everything but its overload device is sized, whatever its nameplate says. */
import { calc } from "../core/formula.ts";
import { need } from "../core/outcome.ts";
import { printNumber } from "../core/print.ts";
import { exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/** Tables of full-load current by what feeds the motor; a synchronous motor has one of its own. */
const FULL_LOAD = {
  1: "motor-current-single-phase",
  2: "motor-current-two-phase",
  3: "motor-current-three-phase",
  dc: "motor-current-direct-current",
  synchronous: "motor-current-synchronous",
} as const;
export type MotorSupply = keyof typeof FULL_LOAD;

const plainVolts = (w: Worksheet, volts: Known<"V">): string => {
  const value = w.value(volts);
  return "word" in value ? value.word : exact(value.n).toFraction();
};

/** The column a voltage stands for: its own, or the one for motors made for that system. Undefined where there is none. */
export function motorColumn(w: Worksheet, table: string, volts: Known<"V">): string | undefined {
  const columns = Object.keys(w.edition.table(table).data.columns);
  const said = plainVolts(w, volts);
  if (columns.includes(`${said} V`)) return `${said} V`;
  const systems = w.edition.table("motor-system-voltages");
  const row = systems.data.rows.find((each) =>
    systems.number(each, "from")!.compare(exact(said)) <= 0 && systems.number(each, "to")!.compare(exact(said)) >= 0
  );
  const column = row && String(row[0]);
  return column !== undefined && columns.includes(column) ? column : undefined;
}

/** Powers that a column of a table lists, rising. */
const powersOf = (w: Worksheet, table: string, column: string): string[] => {
  const found = w.edition.table(table);
  return found.data.rows.filter((row) => found.cell(row, column) !== null).map((row) => String(row[0]));
};

/**
 * Whether a supply's full-load table reaches this motor, at a listed power or between two of them: what tells single-phase
 * motors from three-phase ones.
 */
export function hasMotor(
  w: Worksheet,
  power: Known<"hp"> | undefined,
  volts: Known<"V">,
  supply: MotorSupply,
): boolean {
  const table = FULL_LOAD[supply];
  const column = motorColumn(w, table, volts);
  if (column === undefined || power === undefined) return column !== undefined;
  const listed = powersOf(w, table, column);
  const size = w.measure(power).n;
  return exact(listed[0]!).compare(size) <= 0 && exact(listed.at(-1)!).compare(size) >= 0;
}

/** A motor's power as a table lists it: its own, or the next larger one, said. Undefined above the last. */
export function listedPower(w: Worksheet, power: Known<"hp">, table: string, column: string): Known<"hp"> | undefined {
  if (w.has(table, column, power)) return power;
  return w.ifCovered(() => {
    const next = w.atLeast<"hp">("next larger listed power", table, "power", power, (key) => w.has(table, column, key));
    const why = w.say`the table of motor currents lists no ${power}, and the next larger motor counts`;
    w.suppose("motor counted as", w.say`${next}`, why, w.say`${next} motor`, "motor-currents");
    return next;
  });
}

/** How much the kilowatts on a metric nameplate may round a listed horsepower up (common practice, no source). */
const listedWithin = (listed: Known<"hp">) => calc`${listed} × (1 + 1 ÷ 100)`;

/** The horsepower of a motor named in kilowatts: 7.5 kW is the name of the 10 hp motor, which is 7.46 kW. */
export function powerOfKilowatts(w: Worksheet, shaft: Known<"kW">): Known<"hp"> {
  const perHorsepower = w.constant<"W/hp">("watts-per-horsepower");
  const converted = w.work("motor power in horsepower", "hp", calc`${shaft} ÷ ${perHorsepower}`);
  const named = w.first([FULL_LOAD[3], FULL_LOAD[1]], (table) =>
    w.ifCovered(() => {
      const listed = w.atMost<"hp">("listed power not above it", table, "power", converted);
      return w.holds(converted, "≤", listedWithin(listed)) ? listed : undefined;
    }));
  if (!named) return converted;
  return w.choose(
    "motor named in kilowatts",
    [converted, "≤", listedWithin(named)],
    [w.say`${named}, rounded`, () => named],
    [w.say`${converted}`, () => converted],
  );
}

/**
 * Full-load current by the table, which conductors are sized by, whatever the nameplate says.
 * @throws Unclear when the table has no column for the voltage or no row for the power, naming what it has.
 */
export function motorTableCurrent(
  w: Worksheet,
  power: Known<"hp">,
  volts: Known<"V">,
  supply: MotorSupply,
): Known<"A"> {
  const table = FULL_LOAD[supply];
  const column = motorColumn(w, table, volts);
  const said = plainVolts(w, volts);
  if (column === undefined) {
    const columns = Object.keys(w.edition.table(table).data.columns);
    throw need(
      "volts",
      `The motor current table has no ${said} V, only ${columns.join(", ")}: what does the nameplate say?`,
      `${nearest(columns, said)} motor`,
    );
  }
  const listed = listedPower(w, power, table, column);
  if (!listed) throw notListed(w, power, table, column, supply);
  const note = column === `${said} V` ? undefined : `a ${said} V system has motors made for ${column}`;
  return w.lookUp<"A">("full-load current of the motor", table, column, listed, note);
}

/** The column closest in voltage. */
function nearest(columns: readonly string[], said: string): string {
  const away = (column: string) => exact(column.replace(" V", "")).sub(exact(said)).abs();
  return columns.reduce((best, each) => away(each).compare(away(best)) < 0 ? each : best);
}

function notListed(w: Worksheet, power: Known<"hp">, table: string, column: string, supply: MotorSupply) {
  const listed = powersOf(w, table, column);
  const size = w.measure(power).n;
  const last = printNumber(listed.findLast((each) => exact(each).compare(size) < 0)!);
  const hint = supply === 1 ? " Larger motors are three-phase: is this one?" : "";
  return need(
    "power",
    w.say`The table of motor currents lists no ${power} at ${column}; it ends at ${last} hp.${hint} Which motor is it?`,
    `${last} hp ${column} motor`,
  );
}

/** Locked-rotor current by the table, by power and voltage, where it lists the motor. */
export function lockedRotorByTable(
  w: Worksheet,
  power: Known<"hp">,
  volts: Known<"V">,
  supply: 1 | 3,
): Known<"A"> | undefined {
  const table = supply === 1 ? "locked-rotor-current-single-phase" : "locked-rotor-current-polyphase";
  const column = motorColumn(w, table, volts);
  const listed = column === undefined ? undefined : listedPower(w, power, table, column);
  return listed && w.lookUp<"A">("locked-rotor current by table", table, column!, listed);
}

/** The highest locked-rotor current its code letter allows; undefined for the last letter, which has no upper end. */
export function lockedRotorByLetter(
  w: Worksheet,
  letter: string,
  power: Known<"hp">,
  volts: Known<"V">,
  supply: 1 | 3,
): Known<"A"> | undefined {
  if (!w.has("motor-code-letters", "to", letter)) return undefined;
  const most = w.lookUp<"kVA/hp">(`code letter ${letter}, up to`, "motor-code-letters", "to", letter);
  const name = "locked-rotor current by code letter, at most";
  if (supply === 1) return w.work(name, "A", calc`${most} × ${power} ÷ ${volts}`, "code-letters");
  const phases = w.given("phases", { n: "3", unit: "1" });
  return w.work(name, "A", calc`${most} × ${power} ÷ (${volts} × sqrt(${phases}))`, "code-letters");
}
