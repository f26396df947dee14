/** Power and current: volt-amperes, watts and horsepower of single-phase, three-phase and direct-current circuits. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

export type Phases = 1 | 3;

/** Voltages from a line to the neutral of the usual systems: no three-phase system has them between its lines. */
const TO_NEUTRAL = [120, 277, 347];
export const isLineToNeutral = (volts: number): boolean => TO_NEUTRAL.includes(volts);

/** What to ask where a voltage of one line to the neutral was told for three phases. */
export const askLineToLine = (volts: number): [field: string, ask: string, example: string] => [
  "volts",
  `No three-phase system has ${volts} V between its lines: which is the line-to-line voltage?`,
  `${{ 120: 208, 277: 480, 347: 600 }[volts]} V three phase`,
];

/** √3 between the lines of a balanced three-phase circuit, shown as the root it is. */
export const threePhaseFactor = (w: Worksheet): Known<"1"> =>
  w.work("three-phase factor", "1", calc`sqrt(${w.given("phases", { n: "3", unit: "1" })})`);

/** The current of a balanced circuit. `volts` is line to line on three phases. */
export const lineCurrent = (
  w: Worksheet,
  power: Known<"VA" | "kVA">,
  volts: Known<"V">,
  phases: Phases,
  name = "current",
): Known<"A"> =>
  w.work(
    name,
    "A",
    phases === 3 ? calc`${power} ÷ (${volts} × ${threePhaseFactor(w)})` : calc`${power} ÷ ${volts}`,
  );

/** The volt-amperes of a balanced circuit. `volts` is line to line on three phases. */
export const apparentPower = (w: Worksheet, current: Known<"A">, volts: Known<"V">, phases: Phases): Known<"VA"> =>
  w.work(
    "apparent power",
    "VA",
    phases === 3 ? calc`${current} × ${volts} × ${threePhaseFactor(w)}` : calc`${current} × ${volts}`,
  );

/** Volt-amperes of watts at a power factor. */
export const apparentOfReal = (w: Worksheet, watts: Known<"W">, powerFactor: Known<"1">): Known<"VA"> =>
  w.work("apparent power", "VA", calc`${watts} × ${w.constant<"VA/W">("volt-amperes-per-watt")} ÷ ${powerFactor}`);

/** Watts of volt-amperes at a power factor. */
export const realOfApparent = (w: Worksheet, apparent: Known<"VA">, powerFactor: Known<"1">): Known<"W"> =>
  w.work("real power", "W", calc`${apparent} × ${powerFactor} ÷ ${w.constant<"VA/W">("volt-amperes-per-watt")}`);

/** Electrical watts that a motor of a rated shaft power takes. */
export const inputOfShaft = (w: Worksheet, shaft: Known<"hp">, efficiency: Known): Known<"W"> =>
  w.work("electrical input", "W", calc`${shaft} × ${w.constant<"W/hp">("watts-per-horsepower")} ÷ ${efficiency}`);

/** Shaft horsepower out of electrical watts. */
export const shaftOfInput = (w: Worksheet, watts: Known<"W">, efficiency: Known): Known<"hp"> =>
  w.work("shaft power", "hp", calc`${watts} × ${efficiency} ÷ ${w.constant<"W/hp">("watts-per-horsepower")}`);
