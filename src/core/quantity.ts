/**
 * What a number is: an exact fraction with one of the trade's own units.
 *
 * Fractions stay exact until a step rounds on purpose, because 100 × 1.1 in floating point is 110.00000000000001, and
 * that picks the next breaker size.
 */
import { Decimal } from "decimal.js";
import { Fraction } from "fraction.js";

export type { Fraction };

/** A fraction written out, `"0.35"`, `"2800/3"`: how exact numbers travel in JSON. */
type Exact = string;

/**
 * What a number is of, in base units: `V·A·ft^-2`, always in the same order, so that two are the same where their texts are.
 * `real` marks what is watts and not volt-amperes.
 */
type Dimensions = string;
/** A plain number's. */
export const PLAIN: Dimensions = "";

type UnitRow = { of: Dimensions; factor: Exact };

/** One metre is exactly 1/0.3048 ft; one square metre its square. */
const METRE = "10000/3048";

/**
 * The closed list of units, each with its size in base units. VA and W have different dimensions, so one never becomes
 * the other by accident. A percent is a plain number a hundredth in size.
 */
const UNITS = {
  "1": { of: "", factor: "1" },
  "%": { of: "", factor: "1/100" },
  V: { of: "V", factor: "1" },
  kV: { of: "V", factor: "1000" },
  A: { of: "A", factor: "1" },
  kA: { of: "A", factor: "1000" },
  VA: { of: "V·A", factor: "1" },
  kVA: { of: "V·A", factor: "1000" },
  MVA: { of: "V·A", factor: "1000000" },
  W: { of: "V·A·real", factor: "1" },
  kW: { of: "V·A·real", factor: "1000" },
  "VA/W": { of: "real^-1", factor: "1" },
  hp: { of: "hp", factor: "1" },
  "W/hp": { of: "V·A·real·hp^-1", factor: "1" },
  "kVA/hp": { of: "V·A·hp^-1", factor: "1000" },
  ft: { of: "ft", factor: "1" },
  in: { of: "ft", factor: "1/12" },
  yd: { of: "ft", factor: "3" },
  "A-ft": { of: "A·ft", factor: "1" },
  m: { of: "ft", factor: METRE },
  ft2: { of: "ft^2", factor: "1" },
  in2: { of: "ft^2", factor: "1/144" },
  m2: { of: "ft^2", factor: "100000000/9290304" },
  mm2: { of: "ft^2", factor: "100/9290304" },
  in3: { of: "ft^3", factor: "1/1728" },
  "VA/ft2": { of: "V·A·ft^-2", factor: "1" },
  "VA/m": { of: "V·A·ft^-1", factor: "3048/10000" },
  "VA/m2": { of: "V·A·ft^-2", factor: "9290304/100000000" },
  "VA/ft": { of: "V·A·ft^-1", factor: "1" },
  ohm: { of: "V·A^-1", factor: "1" },
  "ohm/kft": { of: "V·A^-1·ft^-1", factor: "1/1000" },
  /** ohm × circular mil ÷ foot: the constant of the rule-of-thumb voltage-drop formula. */
  "ohm-cmil/ft": { of: "V·A^-1·kcmil·ft^-1", factor: "1/1000" },
  kcmil: { of: "kcmil", factor: "1" },
  cmil: { of: "kcmil", factor: "1/1000" },
  "cmil/A": { of: "kcmil·A^-1", factor: "1/1000" },
  s: { of: "s", factor: "1" },
  /** Amperes squared × seconds: what heats a conductor in a fault. */
  A2s: { of: "A^2·s", factor: "1" },
  lb: { of: "lb", factor: "1" },
  "lb/kft": { of: "lb·ft^-1", factor: "1/1000" },
  "lb/kcmil-ft": { of: "lb·kcmil^-1·ft^-1", factor: "1" },
  "lbf-in": { of: "torque", factor: "1" },
  "lbf-ft": { of: "torque", factor: "12" },
  /** A pound-force is 4.4482216152605 N by definition, an inch 0.0254 m. */
  "N-m": { of: "torque", factor: "10000000000000000/1129848290276167" },
  "°C": { of: "°C", factor: "1" },
  "1/°C": { of: "°C^-1", factor: "1" },
  /** A dimension of its own: its scale starts elsewhere, so a Fahrenheit temperature is never a Celsius one scaled. */
  "°F": { of: "°F", factor: "1" },
  "°F/°C": { of: "°F·°C^-1", factor: "1" },
  /** Converts between the two spellings of one dimension, so that the conversion stands on the page. */
  "m/ft": { of: "", factor: METRE },
  "mm2/kcmil": { of: "ft^2·kcmil^-1", factor: "100/9290304" },
} satisfies Record<string, UnitRow>;

export type Unit = keyof typeof UNITS;
/** A number with its unit, as it stands in a stored step. */
export type Quantity<U extends Unit = Unit> = { n: Exact; unit: U };
/** As JSON holds it, a conductor size is a word too: "4/0", "copper". */
export type Value = Quantity | { word: string };

/** A number in base units with its dimensions: what formulas are evaluated in. */
export type Measure = { readonly n: Fraction; readonly dimensions: Dimensions };

/** Whether `text` names a unit of the closed list. */
export const isUnit = (text: string): text is Unit => Object.hasOwn(UNITS, text);

/** What `exact` was given and cannot compute with. */
class NoNumber extends RangeError {
  constructor(readonly text: string) {
    super(`"${text}" is not a number this service can compute with`);
    this.name = "NoNumber";
  }
}

/**
 * Reads `"0.35"`, `"1/3"`, `"2800/3"` or a finite JSON number as an exact fraction.
 * @throws NoNumber for anything else, so that NaN and Infinity never enter a calculation.
 */
export function exact(value: string | number): Fraction {
  if (Number.isSafeInteger(value)) return new Fraction(value);
  const text = String(value);
  if (!/^-?(\d+(\.\d+)?(e[+-]?\d+)?|\d+\/\d+)$/i.test(text) || /\/0+$/.test(text)) {
    throw new NoNumber(text);
  }
  const [digits, exponent] = text.toLowerCase().split("e");
  const n = new Fraction(digits!);
  return exponent === undefined ? n : n.mul(new Fraction(10).pow(Number(exponent))!);
}

/** The nearest floating-point number, also where the fraction's two parts are beyond what one can hold. */
export function toNumber(n: Fraction): number {
  const near = n.valueOf();
  if (Number.isFinite(near)) return near;
  const digits = Math.max(n.n.toString(16).length, n.d.toString(16).length);
  const shift = BigInt(Math.max(0, digits * 4 - LARGEST_EXPONENT));
  return Number(n.s) * Number(n.n >> shift) / Number(n.d >> shift);
}
const LARGEST_EXPONENT = 1000;

const products = new Map<string, Dimensions>();

/**
 * Dimensions of a × b to a power: 1 for a product, -1 for a quotient, 1/2 for a root.
 * @throws TypeError where a root has none
 */
export function product(a: Dimensions, b: Dimensions, power = 1): Dimensions {
  const asked = `${a} ${b} ${power}`;
  const before = products.get(asked);
  if (before !== undefined) return before;
  const exponents = new Map<string, number>();
  for (const [dimensions, times] of [[a, 1], [b, power]] as const) {
    for (const part of dimensions.split("·").filter(Boolean)) {
      const [name, exponent = "1"] = part.split("^") as [string, string?];
      exponents.set(name, (exponents.get(name) ?? 0) + Number(exponent) * times);
    }
  }
  const left = [...exponents].filter(([, exponent]) => exponent !== 0).sort(([one], [other]) => one < other ? -1 : 1);
  if (left.some(([, exponent]) => !Number.isInteger(exponent))) throw new TypeError(`no square root of ${inWords(b)}`);
  const result = left.map(([name, exponent]) => exponent === 1 ? name : `${name}^${exponent}`).join("·");
  products.set(asked, result);
  return result;
}

type UnitOf = { factor: Fraction; isBase: boolean; dimensions: Dimensions };
const units = new Map<Unit, UnitOf>(
  (Object.entries(UNITS) as [Unit, UnitRow][]).map(([name, { of, factor }]) => [
    name,
    { factor: exact(factor), isBase: factor === "1", dimensions: product(PLAIN, of) },
  ]),
);

/** The quantity in base units. */
export const measure = (quantity: Quantity): Measure => measureOf(exact(quantity.n), quantity.unit);

/** `n` of a unit in base units. */
export function measureOf(n: Fraction, unit: Unit): Measure {
  const { factor, isBase, dimensions } = units.get(unit)!;
  return { n: isBase ? n : n.mul(factor), dimensions };
}

/** Dimensions as a reader of an error message wants them. */
export const inWords = (dimensions: Dimensions): string => dimensions || "a plain number";

/**
 * The measure as a quantity in `unit`.
 * @throws TypeError when the dimensions differ: a fault in a formula, not in what a user asked.
 */
export const inUnit = <U extends Unit>(value: Measure, unit: U): Quantity<U> => ({
  n: amountIn(value, unit).toFraction(),
  unit,
});

/** How much of `unit` the measure is. @throws TypeError when the dimensions differ. */
export function amountIn(value: Measure, unit: Unit): Fraction {
  const { factor, isBase, dimensions } = units.get(unit)!;
  if (value.dimensions !== dimensions) {
    throw new TypeError(`a result in ${inWords(value.dimensions)} cannot be stated in ${unit}`);
  }
  return isBase ? value.n : value.n.div(factor);
}

/** Converts a quantity exactly: 1 m2 is 15625000/1451520 ft2, not 10.76. */
export const convert = <U extends Unit>(quantity: Quantity, unit: U): Quantity<U> => inUnit(measure(quantity), unit);

const Root = Decimal.clone({ precision: 64 });
const ROOT_DIGITS = 40;

/**
 * Square root of a fraction: exact for perfect squares, otherwise to forty decimals, which is far below anything a step
 * prints, so √3 counts as exact.
 */
export function squareRoot(n: Fraction): Fraction {
  if (n.s < 0n) throw new RangeError("the square root of a negative number was asked for");
  const root = (whole: bigint) => new Fraction(new Root(whole.toString()).sqrt().toFixed(ROOT_DIGITS));
  return root(n.n).div(root(n.d));
}
