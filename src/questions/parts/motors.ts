/** How a request says what a motor is, worked to its table current: shared by the kinds that ask about motors. */
import * as z from "zod";
import { calc } from "../../core/formula.ts";
import { need, NotCovered } from "../../core/outcome.ts";
import { convert, exact } from "../../core/quantity.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import {
  hasMotor,
  motorColumn,
  type MotorSupply,
  motorTableCurrent,
  powerOfKilowatts,
} from "../../rules/motor-current.ts";
import type { ProtectionRow } from "../../rules/motor-protection.ts";
import type { WhenUnmarked } from "../../rules/wiring-methods.ts";
import { asQuantity, quantity } from "./quantities.ts";

/** Degrees Celsius that nameplates print, of the motor; wires run through hotter air. */
export const NAMEPLATE_AMBIENT = 40;

const SUPPLIES = ["single-phase", "two-phase", "three-phase", "direct current"] as const;
export type Supply = typeof SUPPLIES[number];
/** Kinds of motor that a rule tells apart. */
const TYPES = [
  "squirrel cage",
  "design B energy-efficient",
  "wound rotor",
  "synchronous",
  "torque",
  "multispeed",
  "low speed",
  "shaded pole",
] as const;
type MotorType = typeof TYPES[number];
/** Nameplates that leave open which voltage the motor is connected for. */
export const DUAL_VOLTAGES = ["115/230", "208/230", "115/208-230", "230/460", "208-230/460"] as const;

export const amperes = quantity(["A"], { A: 5000 });
/** Fields of a request that say what a motor is. */
export const motorFields = {
  power: quantity(["hp", "kW"], { hp: 5000, kW: 4000 }).optional(),
  volts: quantity(["V"], { V: 15_000 }).optional(),
  dualVolts: z.enum(DUAL_VOLTAGES).optional(),
  supply: z.enum(SUPPLIES).optional(),
  type: z.enum(TYPES).optional(),
  /** Revolutions a minute. */
  speed: z.number().min(1).max(40_000).optional(),
  nameplateCurrent: amperes.optional(),
  /** Of a dual-voltage nameplate, for the lower voltage and for the higher. */
  nameplateCurrents: z.tuple([amperes, amperes]).optional(),
};
type MotorFields = z.output<z.ZodObject<typeof motorFields>>;
/** What a motor's circuit is worked from. */
export type SaidMotor = MotorFields & {
  noPowerMarked?: boolean | undefined;
  powerFactor?: number | undefined;
  /** Whether another motor of its feeder can only be a three-phase one. */
  besideThreePhase?: boolean;
};

export type Motor = {
  power?: Known<"hp">;
  volts: Known<"V">;
  supply: Supply;
  type: MotorType;
  /** Full-load current that everything but the overload device is sized by. */
  current: Known<"A">;
  nameplate?: Known<"A">;
  row: ProtectionRow;
};

/** Kinds whose own nameplate current counts, because the tables do not know them. */
const BY_NAMEPLATE: readonly MotorType[] = ["torque", "multispeed", "low speed", "shaded pole"];
/** Between the two voltages of a dual-voltage nameplate: up to here a motor is connected for the lower. */
const BETWEEN: Readonly<Record<typeof DUAL_VOLTAGES[number], number>> = {
  "115/230": 150,
  "208/230": 218,
  "115/208-230": 150,
  "230/460": 300,
  "208-230/460": 300,
};
/** The nameplate a motor of one phase or of three has, where two currents were told and no voltages. */
const usualNameplate = (supply: Supply | undefined): typeof DUAL_VOLTAGES[number] =>
  supply === "single-phase" ? "115/230" : "230/460";

/**
 * The motor of a request, with its table current.
 * @throws Unclear for voltage, phase or power that were not told: none of them may be guessed.
 */
export function motorOf(w: Worksheet, r: SaidMotor): Motor {
  const power = powerOf(w, r);
  const volts = voltsOf(w, r);
  const type = r.type ?? "squirrel cage";
  const supply = supplyOf(w, r, power, volts);
  const nameplate = nameplateOf(w, r);
  const current = currentOf(w, r, { power, volts, type: slow(w, r) ? "low speed" : type, supply, nameplate });
  doubtNameplate(w, power, nameplate, current);
  return {
    ...(power && { power }),
    volts,
    supply,
    type,
    current,
    ...(nameplate && { nameplate }),
    row: rowOf(w, r, supply, type),
  };
}

function powerOf(w: Worksheet, { power, noPowerMarked, nameplateCurrent, type }: SaidMotor): Known<"hp"> | undefined {
  if (!power) {
    if (nameplateCurrent && (noPowerMarked || (type && BY_NAMEPLATE.includes(type)))) return undefined;
    throw need(
      "power",
      nameplateCurrent
        ? "What horsepower is the motor? Its wire and breaker go by a table, not by the nameplate amperes. If no power is marked, say so."
        : "What horsepower is the motor?",
      nameplateCurrent ? "10 hp" : "10 hp 230 V three phase",
    );
  }
  if (power.unit === "hp") return w.given("motor power", asQuantity({ ...power, unit: "hp" }));
  const shaft = w.given("motor power", convert(asQuantity(power), "kW"));
  return powerOfKilowatts(w, shaft);
}

function voltsOf(w: Worksheet, { volts, dualVolts, supply }: SaidMotor): Known<"V"> {
  if (volts) {
    // The nameplate's own voltages, a little under the system's, are kept as typed.
    return w.given("motor voltage", asQuantity(volts), dualVolts && `nameplate ${dualVolts} V`);
  }
  if (dualVolts) {
    throw need(
      "volts",
      `The nameplate says ${dualVolts} V: which voltage is the motor connected to?`,
      `connected to ${dualVolts.split("/").at(-1)} V`,
    );
  }
  throw need("volts", "What voltage does the motor run on?", supply === "single-phase" ? "240 V" : "460 V three phase");
}

const CODES: Record<Supply, MotorSupply> = {
  "single-phase": 1,
  "two-phase": 2,
  "three-phase": 3,
  "direct current": "dc",
};

/** What the tables are asked for: their column for one phase or three. */
export const phasesOf = (supply: Supply): 1 | 3 => supply === "three-phase" ? 3 : 1;

const WIRES: Record<Supply, number> = { "single-phase": 2, "two-phase": 4, "three-phase": 3, "direct current": 2 };
/** Ungrounded conductors of the circuit; a two-phase motor has four, unless its phases share one. */
export const wiresOf = (supply: Supply): number => WIRES[supply];

/** Phases as told, or as only one table knows such a motor. */
function supplyOf(w: Worksheet, r: SaidMotor, power: Known<"hp"> | undefined, volts: Known<"V">): Supply {
  if (r.supply) {
    w.given("supply", r.supply);
    return r.supply;
  }
  if (r.type === "synchronous" || r.type === "wound rotor") {
    w.suppose("supply", "three-phase", `${r.type} motors are`, "two-phase");
    return "three-phase";
  }
  const [single, three] = [hasMotor(w, power, volts, 1), hasMotor(w, power, volts, 3)];
  if (single && motorColumn(w, "motor-current-single-phase", volts) === LOWEST) {
    w.suppose("supply", "single-phase", "three-phase motors are hardly made for this voltage", "three phase");
    return "single-phase";
  }
  if (single !== three) {
    const [one, other] = single ? ["single-phase", "three phase"] : ["three-phase", "single phase"];
    w.suppose("supply", one!, "only that table of motor currents lists such a motor", other!);
    return one as Supply;
  }
  if (r.besideThreePhase) {
    w.suppose("supply", "three-phase", "another motor of this feeder is made for nothing else", "single phase");
    return "three-phase";
  }
  throw need("supply", `Is the motor single-phase or three-phase?${bothCurrents(w, power, volts)}`, "three phase");
}
const LOWEST = "115 V";
/** Whether the tables know such a motor for three phases only; of one whose power or voltage is not told nobody knows. */
export function isOnlyThreePhase(w: Worksheet, { power, volts }: Pick<SaidMotor, "power" | "volts">): boolean {
  if (power?.unit !== "hp" || !volts) return false;
  return w.scratch(() => {
    const [size, at] = [
      w.given("motor power", asQuantity({ ...power, unit: "hp" })),
      w.given("volts", asQuantity(volts)),
    ];
    return !hasMotor(w, size, at, 1) && hasMotor(w, size, at, 3);
  });
}

function bothCurrents(w: Worksheet, power: Known<"hp"> | undefined, volts: Known<"V">): string {
  if (!power || !hasMotor(w, power, volts, 1)) return "";
  return w.scratch(() => {
    const [one, three] = [motorTableCurrent(w, power, volts, 1), motorTableCurrent(w, power, volts, 3)];
    return w.say` ${power} takes ${one} single-phase and ${three} three-phase.`;
  });
}

function nameplateOf(w: Worksheet, r: SaidMotor): Known<"A"> | undefined {
  const { nameplateCurrent, nameplateCurrents, volts, dualVolts, supply } = r;
  if (nameplateCurrents) {
    const isLow = volts !== undefined && exact(volts.value).valueOf() <= BETWEEN[dualVolts ?? usualNameplate(supply)];
    const [low, high] = nameplateCurrents;
    return w.given("nameplate current", asQuantity(isLow ? low : high), "of the voltage it is connected for");
  }
  return nameplateCurrent && w.given("nameplate current", asQuantity(nameplateCurrent));
}

/** A nameplate may lie this many times above the table, for a slow motor or an old one; beyond it is another load's, or another motor's. */
const MOST_ABOVE_TABLE = 2;

/** @throws Unclear where the amperes told can hardly be those of this motor. */
function doubtNameplate(
  w: Worksheet,
  power: Known<"hp"> | undefined,
  nameplate: Known<"A"> | undefined,
  current: Known<"A">,
): void {
  if (!power || !nameplate) return;
  const [said, usual] = [w.measure(nameplate).n, w.measure(current).n];
  if (said.compare(usual.mul(MOST_ABOVE_TABLE)) <= 0) return;
  throw need(
    "nameplateCurrent",
    w.say`${nameplate} is more than twice what a motor of ${power} takes by the table, ${current}: is it on its nameplate, or another load's?`,
    w.say`nameplate ${current}`,
  );
}

function slow(w: Worksheet, { speed }: SaidMotor): boolean {
  if (speed === undefined) return false;
  const said = w.given("speed, revolutions a minute", { n: exact(speed).toFraction(), unit: "1" });
  return w.choose<boolean>(
    "speed of the motor",
    [said, "<", w.constant("motor-low-speed")],
    ["low: its nameplate current counts", () => true],
    ["the table's", () => false],
    "motor-currents",
  );
}

type Facts = {
  power: Known<"hp"> | undefined;
  volts: Known<"V">;
  type: MotorType;
  supply: Supply;
  nameplate: Known<"A"> | undefined;
};

function currentOf(w: Worksheet, r: SaidMotor, { power, volts, type, supply, nameplate }: Facts): Known<"A"> {
  if (BY_NAMEPLATE.includes(type) || !power) {
    const what = type === "torque"
      ? "a torque motor's rated current is its locked-rotor current"
      : power
      ? `${type} motors count by their nameplate, not by the table`
      : "no power is marked, so the marked amperes stand for the table current";
    if (!nameplate) {
      throw need(
        "nameplateCurrent",
        `What current does the nameplate say? For this motor (${type}) it counts in place of the table.`,
        "nameplate 29 A",
      );
    }
    if (type === "low speed" && power && hasMotor(w, power, volts, CODES[supply])) {
      const table = motorTableCurrent(w, power, volts, CODES[supply]);
      return w.work(
        "full-load current of a low-speed motor",
        "A",
        calc`max(${nameplate}, ${table})`,
        "motor-currents",
        "its nameplate counts, and never less than the table",
      );
    }
    return w.work("full-load current of the motor", "A", calc`1 × ${nameplate}`, "motor-currents", what);
  }
  if (type !== "synchronous") return motorTableCurrent(w, power, volts, CODES[supply]);
  return atPowerFactor(w, r, motorTableCurrent(w, power, volts, "synchronous"));
}

/** The table of synchronous motors is for unity; two other power factors have shares of their own. */
function atPowerFactor(w: Worksheet, { powerFactor }: SaidMotor, atUnity: Known<"A">): Known<"A"> {
  const percent = powerFactor === undefined ? 100 : Math.round(powerFactor * 100);
  if (percent === 100) {
    if (powerFactor === undefined) {
      w.suppose(
        "power factor of the motor",
        "unity",
        "none was told, and the table is for it",
        "power factor 0.8",
        "motor-currents",
      );
    }
    return atUnity;
  }
  const id = `motor-synchronous-${percent}-factor`;
  if (percent !== 80 && percent !== 90) {
    throw need(
      "powerFactor",
      "The table of synchronous motors knows power factors of 1, 0.9 and 0.8: which is it?",
      "power factor 0.8",
    );
  }
  return w.work(
    "full-load current at its power factor",
    "A",
    calc`${atUnity} × ${w.constant<"%">(id)}`,
    "motor-currents",
  );
}

function rowOf(w: Worksheet, r: SaidMotor, supply: Supply, type: MotorType): ProtectionRow {
  if (supply === "direct current") return "DC constant voltage";
  if (supply === "single-phase") return "single-phase";
  if (type === "wound rotor") return "wound-rotor";
  if (type === "synchronous") return "synchronous";
  if (type === "design B energy-efficient") return "design B energy-efficient and premium-efficiency";
  if (r.type === undefined) {
    w.suppose(
      "kind of motor",
      "squirrel cage",
      "none was named; a wound-rotor motor has smaller devices",
      "wound rotor",
    );
  }
  return "polyphase other than wound-rotor";
}

/** The motor in few words, as a headline has it. */
export function motorInWords(w: Worksheet, { power, volts, supply, current }: Motor): string {
  return w.say`${power ? powerInWords(w, power) : w.say`${current} motor`}, ${volts} ${supply}`;
}

/** Horsepower as the trade says it: 7-1/2 hp, 1/3 hp. */
export function powerInWords(w: Worksheet, power: Known<"hp">): string {
  const n = w.measure(power).n;
  const whole = n.floor();
  const part = n.sub(whole);
  if (part.equals(0) || part.d > MOST_SPOKEN) return w.say`${power}`;
  return `${whole.equals(0) ? "" : `${whole.toFraction()}-`}${part.toFraction()} hp`;
}
/** Fractions up to eighths are spoken as such. */
const MOST_SPOKEN = 8n;

/** Nominal voltage of the system that a motor's voltage belongs to: 240 V of a 230 V nameplate. */
export function systemVoltage(w: Worksheet, { volts, supply }: Pick<Motor, "volts" | "supply">): Known<"V"> {
  const table = w.edition.table("motor-system-voltages");
  const said = w.measure(volts).n;
  const row = supply === "direct current"
    ? undefined
    : table.data.rows.find((each) =>
      table.number(each, "from")!.compare(said) <= 0 && table.number(each, "to")!.compare(said) >= 0
    );
  return row ? w.lookUp<"V">("nominal system voltage", "motor-system-voltages", "to", String(row[0])) : volts;
}

/** Motors' own column of unmarked terminations. */
export const motorTerminals: WhenUnmarked = (w) => {
  const column = w.constant<"°C">("terminal-temperature-motor");
  w.suppose(
    "terminations",
    w.say`${column} column`,
    "their marking is not known; motors with a design letter, and most breakers and starters, are made for it",
    "60 °C terminals",
    "terminal-temperature",
  );
  return column;
};

/** Nothing here reaches medium voltage, where devices and conductors follow other rules. */
export function mustBeLowVoltage(w: Worksheet, { volts }: Motor): void {
  w.scratch(() => {
    const most = w.constant<"V">("motor-voltage-most");
    if (w.holds(volts, "≤", most)) return;
    throw new NotCovered(
      w.say`circuits of motors above ${most} follow rules of their own, which are not worked out here`,
      w.edition.id,
    );
  });
}
