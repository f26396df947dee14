/** Numbers and units as a reader sees them; the one place that turns a value into text. */
import { ConductorSize, isGauge } from "./conductor-size.ts";
import { exact, type Fraction, type Unit, type Value } from "./quantity.ts";

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
  A2s: "A²·s",
  ohm: "Ω",
  "ohm/kft": "Ω/kft",
  "ohm-cmil/ft": "Ω·cmil/ft",
  "lb/kcmil-ft": "lb/(kcmil·ft)",
  "lbf-in": "lbf·in",
  "lbf-ft": "lbf·ft",
  "N-m": "N·m",
};

/** The unit as printed: `ft²`, `Ω`. */
const printUnit = (unit: Unit): string => SHOWN[unit] ?? unit;

const group = (digits: string) => digits.length <= 3 ? digits : digits.replace(/\B(?=(\d{3})+(?!\d))/g, ",");
const EXACT_PLACES = 4;
const LEAST_PLACES = 2;
const SIGNIFICANT = 4;
const tenTo = (power: number) => 10n ** BigInt(power);

/** A number as printed: whole when whole, exact to four decimals when that is all, otherwise to four significant digits. */
export function printNumber(value: string | Fraction): string {
  const { s, n, d } = typeof value === "string" ? exact(value) : value;
  const places = (count: number) => {
    const digits = ((2n * n * tenTo(count) + d) / (2n * d)).toString().padStart(count + 1, "0");
    const whole = group(digits.slice(0, digits.length - count));
    return `${s < 0n ? "−" : ""}${whole}${count ? `.${digits.slice(-count)}` : ""}`;
  };
  for (let count = 0; count <= EXACT_PLACES; count++) {
    if (tenTo(count) % d === 0n) return places(count);
  }
  return places(Math.max(LEAST_PLACES, SIGNIFICANT - digitsBefore(n, d)));
}

/** How many digits n/d has before its point; 0 for 0.1 to 1, and less for each zero behind the point. */
function digitsBefore(n: bigint, d: bigint): number {
  const about = n.toString().length - d.toString().length;
  return (about >= 0 ? n >= d * tenTo(about) : n * tenTo(-about) >= d) ? about + 1 : about;
}

/** A word of an answer as printed: of bare digits it is a conductor's size, every other size says itself what it is. */
const printWord = (word: string): string => isGauge(word) ? `${ConductorSize.of(word)}` : word;

/** A value as printed, with its unit: `18,600 VA`, `4/0 AWG`, `35 %`. */
export function printValue(value: Value): string {
  if ("word" in value) return printWord(value.word);
  return printAmount(value.n, value.unit);
}

function printAmount(n: string | Fraction, unit: Unit): string {
  const shown = printUnit(unit);
  return shown === "" ? printNumber(n) : `${printNumber(n)} ${shown}`;
}

/** A value as it is said: whole from 1,000 up, one decimal from 10, two below; exact where that is shorter. */
export function printBriefly(value: Value): string {
  if ("word" in value) return printWord(value.word);
  const n = exact(value.n);
  const size = Math.abs(n.valueOf());
  const scale = 10n ** (size >= 1000 ? 0n : size >= 10 ? 1n : 2n);
  return printAmount(n.mul(scale).add(HALF).floor().div(scale), value.unit);
}
const HALF = exact("1/2");
