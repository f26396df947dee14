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

/** Exponents of the base units, `real` marking what is watts and not volt-amperes. */
type Dimensions = Partial<
  Record<"V" | "A" | "real" | "ft" | "hp" | "kcmil" | "lb" | "°C" | "°F" | "torque" | "s", number>
>;

/**
 * The one object that stands for dimensions, so that formulas compare and combine them without looking inside. Few are
 * ever made: those of the units and of what the formulas make of them.
 */
function known(dimensions: Dimensions): Dimensions {
  const entries = Object.entries(dimensions).filter(([, exponent]) => exponent !== 0).sort(([a], [b]) =>
    a < b ? -1 : 1
  );
  const key = entries.join(" ");
  const one = interned.get(key) ?? Object.fromEntries(entries);
  interned.set(key, one);
  return one;
}
const interned = new Map<string, Dimensions>();
const products = new WeakMap<Dimensions, WeakMap<Dimensions, Dimensions>>();
const quotients = new WeakMap<Dimensions, WeakMap<Dimensions, Dimensions>>();
/** A plain number's. */
export const NO_DIMENSIONS: Dimensions = known({});

type UnitRow = { dimensions: Dimensions; factor: Exact };

const power = { V: 1, A: 1 };
const realPower = { V: 1, A: 1, real: 1 };
/** One metre is exactly 1/0.3048 ft; one square metre its square. */
const METRE = "10000/3048";

/**
 * The closed list of units, each with its size in base units. VA and W have different dimensions, so one never becomes
 * the other by accident. A percent is a plain number a hundredth in size.
 */
const UNITS = {
  "1": { dimensions: {}, factor: "1" },
  "%": { dimensions: {}, factor: "1/100" },
  V: { dimensions: { V: 1 }, factor: "1" },
  kV: { dimensions: { V: 1 }, factor: "1000" },
  A: { dimensions: { A: 1 }, factor: "1" },
  kA: { dimensions: { A: 1 }, factor: "1000" },
  VA: { dimensions: power, factor: "1" },
  kVA: { dimensions: power, factor: "1000" },
  MVA: { dimensions: power, factor: "1000000" },
  W: { dimensions: realPower, factor: "1" },
  kW: { dimensions: realPower, factor: "1000" },
  "VA/W": { dimensions: { real: -1 }, factor: "1" },
  hp: { dimensions: { hp: 1 }, factor: "1" },
  "W/hp": { dimensions: { ...realPower, hp: -1 }, factor: "1" },
  "kVA/hp": { dimensions: { ...power, hp: -1 }, factor: "1000" },
  ft: { dimensions: { ft: 1 }, factor: "1" },
  in: { dimensions: { ft: 1 }, factor: "1/12" },
  yd: { dimensions: { ft: 1 }, factor: "3" },
  "A-ft": { dimensions: { A: 1, ft: 1 }, factor: "1" },
  m: { dimensions: { ft: 1 }, factor: METRE },
  ft2: { dimensions: { ft: 2 }, factor: "1" },
  in2: { dimensions: { ft: 2 }, factor: "1/144" },
  m2: { dimensions: { ft: 2 }, factor: "100000000/9290304" },
  mm2: { dimensions: { ft: 2 }, factor: "100/9290304" },
  in3: { dimensions: { ft: 3 }, factor: "1/1728" },
  "VA/ft2": { dimensions: { ...power, ft: -2 }, factor: "1" },
  "VA/m": { dimensions: { ...power, ft: -1 }, factor: "3048/10000" },
  "VA/m2": { dimensions: { ...power, ft: -2 }, factor: "9290304/100000000" },
  "VA/ft": { dimensions: { ...power, ft: -1 }, factor: "1" },
  ohm: { dimensions: { V: 1, A: -1 }, factor: "1" },
  "ohm/kft": { dimensions: { V: 1, A: -1, ft: -1 }, factor: "1/1000" },
  /** ohm × circular mil ÷ foot: the constant of the rule-of-thumb voltage-drop formula. */
  "ohm-cmil/ft": { dimensions: { V: 1, A: -1, kcmil: 1, ft: -1 }, factor: "1/1000" },
  kcmil: { dimensions: { kcmil: 1 }, factor: "1" },
  cmil: { dimensions: { kcmil: 1 }, factor: "1/1000" },
  "cmil/A": { dimensions: { kcmil: 1, A: -1 }, factor: "1/1000" },
  s: { dimensions: { s: 1 }, factor: "1" },
  /** Amperes squared × seconds: what heats a conductor in a fault. */
  A2s: { dimensions: { A: 2, s: 1 }, factor: "1" },
  lb: { dimensions: { lb: 1 }, factor: "1" },
  "lb/kft": { dimensions: { lb: 1, ft: -1 }, factor: "1/1000" },
  "lb/kcmil-ft": { dimensions: { lb: 1, kcmil: -1, ft: -1 }, factor: "1" },
  "lbf-in": { dimensions: { torque: 1 }, factor: "1" },
  "lbf-ft": { dimensions: { torque: 1 }, factor: "12" },
  "°C": { dimensions: { "°C": 1 }, factor: "1" },
  "1/°C": { dimensions: { "°C": -1 }, factor: "1" },
  /** A dimension of its own: its scale starts elsewhere, so a Fahrenheit temperature is never a Celsius one scaled. */
  "°F": { dimensions: { "°F": 1 }, factor: "1" },
  "°F/°C": { dimensions: { "°F": 1, "°C": -1 }, factor: "1" },
  /** Converts between the two spellings of one dimension, so that the conversion stands on the page. */
  "m/ft": { dimensions: {}, factor: METRE },
  "mm2/kcmil": { dimensions: { ft: 2, kcmil: -1 }, factor: "100/9290304" },
} satisfies Record<string, UnitRow>;

export type Unit = keyof typeof UNITS;
/** A number with its unit, as it stands in a stored step. */
export type Quantity<U extends Unit = Unit> = { n: Exact; unit: U };
/** As JSON holds it, a conductor size is a word too: "4/0", "copper". */
export type Value = Quantity | { word: string };

/** A number in base units with its dimensions: what formulas are evaluated in. */
export type Measure = { readonly n: Fraction; readonly dimensions: Dimensions };

/** Every unit name, for schemas and the text reader. */
const UNIT_NAMES = Object.keys(UNITS) as Unit[];

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

type UnitOf = { factor: Fraction; isBase: boolean; dimensions: Dimensions };
const units = new Map<Unit, UnitOf>(
  UNIT_NAMES.map((name) => {
    const { factor, dimensions } = UNITS[name];
    return [name, { factor: exact(factor), isBase: factor === "1", dimensions: known(dimensions) }];
  }),
);

/** The quantity in base units. */
export const measure = (quantity: Quantity): Measure => measureOf(exact(quantity.n), quantity.unit);

/** `n` of a unit in base units. */
export function measureOf(n: Fraction, unit: Unit): Measure {
  const { factor, isBase, dimensions } = units.get(unit)!;
  return { n: isBase ? n : n.mul(factor), dimensions };
}

/** Whether two dimensions are the same. */
export const sameDimensions = (a: Dimensions, b: Dimensions): boolean => a === b || known(a) === known(b);

/** Dimensions of a product (`sign` 1) or a quotient (`sign` -1). */
export function combine(a: Dimensions, b: Dimensions, sign: 1 | -1): Dimensions {
  const results = sign === 1 ? products : quotients;
  const ofA = results.get(a) ?? new WeakMap<Dimensions, Dimensions>();
  results.set(a, ofA);
  const before = ofA.get(b);
  if (before) return before;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Dimensions>;
  const sums = [...keys].map((key) => [key, (a[key] ?? 0) + sign * (b[key] ?? 0)] as const);
  const result = known(Object.fromEntries(sums.filter(([, exponent]) => exponent !== 0)));
  ofA.set(b, result);
  return result;
}

/** Dimensions as a reader of an error message wants them: `V·A·ft^-2`. */
export const describeDimensions = (d: Dimensions): string =>
  Object.entries(d).map(([name, exponent]) => exponent === 1 ? name : `${name}^${exponent}`).join("·") ||
  "a plain number";

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
  if (!sameDimensions(value.dimensions, dimensions)) {
    throw new TypeError(`a result in ${describeDimensions(value.dimensions)} cannot be stated in ${unit}`);
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
