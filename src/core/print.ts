/** Numbers and units as a reader sees them; the one place that turns a value into text. */
import { exact, type Unit, type Value } from "./quantity.ts";

const SHOWN: Partial<Record<Unit, string>> = {
  "1": "",
  ft2: "ft²",
  in2: "in²",
  in3: "in³",
  m2: "m²",
  mm2: "mm²",
  "mm2/kcmil": "mm²/kcmil",
  "A-ft": "A·ft",
  "VA/ft2": "VA/ft²",
  "VA/m2": "VA/m²",
  ohm: "Ω",
  "ohm/kft": "Ω/kft",
  "ohm-cmil/ft": "Ω·cmil/ft",
  "lb/kcmil-ft": "lb/(kcmil·ft)",
  "lbf-in": "lbf·in",
  "lbf-ft": "lbf·ft",
};

/** The unit as printed: `ft²`, `Ω`. */
export const printUnit = (unit: Unit): string => SHOWN[unit] ?? unit;

const group = (digits: string) => digits.replace(/\B(?=(\d{3})+(?!\d))/g, ",");
const EXACT_PLACES = 4;
const LEAST_PLACES = 2;
const SIGNIFICANT = 4;

/** A number as printed: whole when whole, exact to four decimals when that is all, otherwise to four significant digits. */
export function printNumber(n: string): string {
  const value = exact(n);
  const places = (count: number) => {
    const scaled = value.abs().mul(10 ** count).add(exact("1/2")).floor().toFraction();
    const digits = scaled.padStart(count + 1, "0");
    const whole = group(digits.slice(0, digits.length - count));
    return `${value.s < 0n ? "−" : ""}${whole}${count ? `.${digits.slice(-count)}` : ""}`;
  };
  for (let count = 0; count <= EXACT_PLACES; count++) {
    if (value.mul(10 ** count).d === 1n) return places(count);
  }
  const leading = Math.floor(Math.log10(Math.abs(value.valueOf()))) + 1;
  return places(Math.max(LEAST_PLACES, SIGNIFICANT - leading));
}

/** A word in print. A bare size, `4` or `2/0`, is a conductor's; every other size says itself what it is. */
const printWord = (word: string): string => /^(\d{1,2}|[1-4]\/0)$/.test(word) ? `${word} AWG` : word;

/** A value as printed, with its unit: `18,600 VA`, `4/0 AWG`, `35 %`. */
export function printValue(value: Value): string {
  if ("word" in value) return printWord(value.word);
  const unit = printUnit(value.unit);
  return unit === "" ? printNumber(value.n) : `${printNumber(value.n)} ${unit}`;
}

/** A value as it is said: whole from 1,000 up, one decimal from 10, two below; exact where that is shorter. */
export function printBriefly(value: Value): string {
  if ("word" in value) return printWord(value.word);
  const size = Math.abs(exact(value.n).valueOf());
  const scale = 10 ** (size >= 1000 ? 0 : size >= 10 ? 1 : 2);
  const rounded = exact(value.n).mul(scale).add(exact("1/2")).floor().div(scale);
  return printValue({ n: rounded.toFraction(), unit: value.unit });
}
