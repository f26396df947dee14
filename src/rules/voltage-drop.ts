/** Voltage drop along a run: by effective impedance, by the exact phasors, and by the rule-of-thumb constant as a check. */
import { calc } from "../core/formula.ts";
import type { Quantity } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { areaOf, type Material, sizesIn } from "./conductors.ts";

export const CONDUITS = ["PVC", "aluminum", "steel"] as const;
export type Conduit = typeof CONDUITS[number];

/** The conduit that was told, or the one assumed and listed; where none matters (`isUsed` false) nothing is assumed. */
export function conduitOf(w: Worksheet, said: Conduit | undefined, isUsed = true): Conduit {
  if (said) return said;
  return isUsed ? w.word(w.assume<"word">("conductor-conduit")) as Conduit : "PVC";
}

/**
 * The voltage that a drop is a share of: the one that was told, as it was told (230 V of a 240 V system). Loads count at
 * the nominal voltage all the same.
 */
export function dropVoltage(w: Worksheet, nominal: Known<"V">, said: Quantity<"V"> | undefined): Known<"V"> {
  if (!said) return nominal;
  const isNominal = w.scratch(() => w.holds(nominal, "=", w.given("voltage told", said)));
  return isNominal ? nominal : w.given("voltage told", said, "the drop is a share of the voltage that was told");
}

/** What a conductor is and where it lies: all that its impedance depends on. */
export type Wire = {
  size: Known<"size">;
  material: Material;
  conduit: Conduit;
  /** Takes the direct-current resistance alone; sizes below the first of the impedance table always do. */
  directCurrent?: boolean;
  /** Of the conductor itself, where it is not the tables' own. */
  temperature?: Known<"°C">;
};
/** One run with one load at its end. */
export type Run = Wire & {
  current: Known<"A">;
  /** One way. */
  length: Known<"ft">;
  volts: Known<"V">;
  phases: 1 | 3;
  /** A neutral that carries nothing: only one conductor drops, and `volts` is line to neutral. */
  balancedNeutral?: boolean;
  powerFactor: Known<"1">;
  sets?: Known<"1">;
};
export type Drop = { volts: Known<"V">; percent: Known<"%">; atLoad: Known<"V"> };
/** Of one conductor; no reactance where direct-current resistance is all that is taken. */
export type Impedance = { resistance: Known<"ohm/kft">; reactance?: Known<"ohm/kft"> };

/**
 * Resistance and reactance of one conductor by the tables, resistance brought to the conductor's temperature. Direct
 * current alone, and sizes below the first of the impedance table, take the direct-current resistance.
 */
export function impedanceOf(w: Worksheet, wire: Wire): Impedance {
  const column = `${wire.material} resistance in ${wire.conduit}`;
  const row = wire.directCurrent ? undefined : impedanceRow(w, wire, column);
  if (!row) {
    const resistance = w.lookUp<"ohm/kft">(
      "direct-current resistance",
      "conductor-properties",
      `${wire.material} dc resistance`,
      wire.size,
    );
    return { resistance: atTemperature(w, resistance, wire) };
  }
  const resistance = w.lookUp<"ohm/kft">("resistance R", "conductor-impedance", column, row);
  const reactance = w.lookUp<"ohm/kft">(
    "reactance X",
    "conductor-impedance",
    wire.conduit === "steel" ? "reactance in steel" : "reactance in PVC or aluminum",
    row,
  );
  return { resistance: atTemperature(w, resistance, wire), reactance };
}

/**
 * The size whose row of the impedance table holds for a wire: its own, or the next smaller one that is listed. A larger
 * conductor has less of both, though on alternating current not in proportion to its area, so that a smaller one's values
 * are a bound and its direct-current resistance is none. Undefined below the table's first row.
 */
function impedanceRow(w: Worksheet, { size }: Wire, column: string): Known<"size"> | undefined {
  if (w.has("conductor-impedance", column, size)) return size;
  const order = sizesIn(w, "conductor-properties");
  const below = order.slice(0, order.indexOf(w.size(size)))
    .findLast((each) => w.has("conductor-impedance", column, each));
  if (below === undefined) return undefined;
  const own = w.size(size);
  w.caution(
    `The impedance table has no ${own}: its drop is taken as that of ${below}, and will be no more.`,
  );
  return w.lookUp<"size">(
    "size that the impedance is taken of",
    "conductor-impedance",
    "size",
    below,
    `the next smaller one listed: the table has no ${own}, and a larger conductor drops no more`,
  );
}

/** Metal gains resistance with heat in a straight line from the tables' own temperature. */
function atTemperature(w: Worksheet, resistance: Known<"ohm/kft">, { temperature, material }: Wire): Known<"ohm/kft"> {
  if (!temperature) return resistance;
  const base = w.constant<"°C">("resistance-table-temperature");
  const gain = w.constant<"1/°C">(`temperature-coefficient-${material}`);
  return w.work(
    "R at the conductor's temperature",
    "ohm/kft",
    calc`${resistance} × (1 + ${gain} × (${temperature} − ${base}))`,
  );
}

/** sin φ of a power factor cos φ. */
const sineOf = (w: Worksheet, powerFactor: Known<"1">): Known<"1"> =>
  w.work("sin φ", "1", calc`sqrt(1 − ${powerFactor} × ${powerFactor})`);

/** Effective impedance of one conductor per length: R × cos φ + X × sin φ. */
export function effectiveImpedance(
  w: Worksheet,
  run: Wire & Pick<Run, "powerFactor">,
  { resistance, reactance }: Impedance = impedanceOf(w, run),
): Known<"ohm/kft"> {
  if (!reactance) return resistance;
  const pf = run.powerFactor;
  const sine = sineOf(w, pf);
  return w.work("effective impedance", "ohm/kft", calc`${resistance} × ${pf} + ${reactance} × ${sine}`);
}

/** The drop per length that any power factor can make at most: the size of R + jX. */
export function largestImpedance(w: Worksheet, { resistance, reactance }: Impedance): Known<"ohm/kft"> {
  if (!reactance) return resistance;
  const size = calc`sqrt(${resistance} × ${resistance} + ${reactance} × ${reactance})`;
  return w.work("impedance, whatever the power factor", "ohm/kft", size);
}

/**
 * How many conductors' worth of impedance the current passes: out and back on two wires, √3 between the lines of three
 * phases, one where the neutral carries nothing.
 */
export function pathFactor(w: Worksheet, run: Pick<Run, "phases" | "balancedNeutral">): Known<"1"> {
  if (run.balancedNeutral) {
    return w.given("conductors in the path", { n: "1", unit: "1" }, "the neutral carries nothing");
  }
  if (run.phases === 1) return w.given("conductors in the path", { n: "2", unit: "1" }, "out and back");
  const phases = w.given("phases", { n: "3", unit: "1" });
  return w.work("path factor, line to line", "1", calc`sqrt(${phases})`);
}

/** The drop of a run in volts. Single-phase counts both conductors; three-phase the line-to-line value. */
export const dropVolts = (w: Worksheet, run: Run, impedance: Known<"ohm/kft">, path: Known<"1">): Known<"V"> =>
  w.work("voltage drop", "V", calc`${path} × ${run.current} × ${perSet(w, run, impedance)} × ${run.length}`);

/** The drop of a run in volts and percent, and what is left at the load. */
export const dropOf = (
  w: Worksheet,
  run: Run,
  impedance = effectiveImpedance(w, run),
  path = pathFactor(w, run),
): Drop => dropOfVolts(w, dropVolts(w, run, impedance, path), run.volts);

/** Sets in parallel share the current, so that together they have one set's impedance divided. */
export const perSet = (w: Worksheet, run: Pick<Run, "sets">, impedance: Known<"ohm/kft">): Known<"ohm/kft"> =>
  run.sets ? w.work("impedance of the sets in parallel", "ohm/kft", calc`${impedance} ÷ ${run.sets}`) : impedance;

/** A drop in volts as a share of the supply, and what is left. */
export function dropOfVolts(w: Worksheet, volts: Known<"V">, supply: Known<"V">): Drop {
  const percent = w.work("voltage drop in percent", "%", calc`${volts} ÷ ${supply}`);
  const atLoad = w.work("voltage at the load", "V", calc`${supply} − ${volts}`);
  return { volts, percent, atLoad };
}

/**
 * The drop by phasors, for a supply of fixed voltage: the formula above leaves out the part at right angles to the load
 * voltage. Undefined where that part is as large as the supply and no voltage would be left, and where there is no
 * reactance to reckon with.
 */
export function exactDrop(
  w: Worksheet,
  run: Run,
  { resistance, reactance }: Impedance,
  path: Known<"1">,
  inStep: Known<"V">,
): Known<"V"> | undefined {
  if (!reactance) return undefined;
  const pf = run.powerFactor;
  const turned = w.work(
    "impedance at right angles",
    "ohm/kft",
    calc`${reactance} × ${pf} − ${resistance} × ${sineOf(w, pf)}`,
  );
  const across = w.work(
    "drop at right angles to the load voltage",
    "V",
    calc`${path} × ${run.current} × ${perSet(w, run, turned)} × ${run.length}`,
  );
  if (!w.holds(calc`abs(${across})`, "<", run.volts)) return undefined;
  const supply = run.volts;
  return w.work(
    "drop by exact phasors",
    "V",
    calc`${supply} + ${inStep} − sqrt(${supply} × ${supply} − ${across} × ${across})`,
  );
}

/** The constant of the hand formula: ohms of a conductor one circular mil thick and a foot long. */
const handConstant = (w: Worksheet, material: Material): Known<"ohm-cmil/ft"> =>
  w.constant<"ohm-cmil/ft">(`rule-of-thumb-resistivity-${material}`);

const WHY_BY_HAND_DIFFERS =
  "it differs because K is one direct-current resistance for all sizes, with no reactance, skin effect or power factor";

/** Resistance of a conductor by the constant of the hand formula. */
export const handResistance = (
  w: Worksheet,
  constant: Known<"ohm-cmil/ft">,
  size: Known<"size">,
): Known<"ohm/kft"> => w.work("resistance by the constant K", "ohm/kft", calc`${constant} ÷ ${areaOf(w, size)}`);

/** The drop by the hand formula: path × K × current × length ÷ circular mils. */
export function dropByHand(
  w: Worksheet,
  run: Run,
  path: Known<"1">,
  told?: Known<"ohm-cmil/ft">,
): Known<"V"> {
  const constant = told ?? handConstant(w, run.material);
  const area = areaOf(w, run.size);
  const all = run.sets ? w.work("area of the sets in parallel", "kcmil", calc`${run.sets} × ${area}`) : area;
  return w.work(
    told ? "voltage drop by the constant K" : "drop by the rule of thumb",
    "V",
    calc`${path} × ${constant} × ${run.current} × ${run.length} ÷ ${all}`,
    undefined,
    told ? undefined : WHY_BY_HAND_DIFFERS,
  );
}
