/** Voltage drop along a run: by effective impedance, by the exact phasors, and by the rule-of-thumb constant as a check. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { areaOf, type Material } from "./conductors.ts";

export const CONDUITS = ["PVC", "aluminum", "steel"] as const;
export type Conduit = typeof CONDUITS[number];

/** What a conductor is and where it lies: all that its impedance depends on. */
export type Wire = {
  size: Known<"word">;
  material: Material;
  conduit: Conduit;
  /** Takes the direct-current resistance alone; the impedance table starts at 14 AWG, so smaller sizes always do. */
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

/** Resistance and reactance of one conductor by the tables, resistance brought to the conductor's temperature. */
export function impedanceOf(w: Worksheet, wire: Wire): Impedance {
  const column = `${wire.material} resistance in ${wire.conduit}`;
  if (wire.directCurrent || !w.has("conductor-impedance", column, wire.size)) {
    const resistance = w.lookUp<"ohm/kft">(
      "direct-current resistance",
      "conductor-properties",
      `${wire.material} dc resistance`,
      wire.size,
    );
    return { resistance: atTemperature(w, resistance, wire) };
  }
  const resistance = w.lookUp<"ohm/kft">("resistance R", "conductor-impedance", column, wire.size);
  const reactance = w.lookUp<"ohm/kft">(
    "reactance X",
    "conductor-impedance",
    wire.conduit === "steel" ? "reactance in steel" : "reactance in PVC or aluminum",
    wire.size,
  );
  return { resistance: atTemperature(w, resistance, wire), reactance };
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

type Shape = Pick<Run, "current" | "phases" | "balancedNeutral" | "sets">;

/** Current times the conductors it passes, out and back: what one length of impedance drops, √3 between three phases. */
export function dropPerImpedance(w: Worksheet, run: Shape): Known<"A"> {
  const each = run.sets ? w.work("current of one set", "A", calc`${run.current} ÷ ${run.sets}`) : run.current;
  if (run.balancedNeutral) return w.work("current, one conductor", "A", calc`1 × ${each}`);
  if (run.phases === 1) return w.work("current, out and back", "A", calc`2 × ${each}`);
  const phases = w.given("phases", { n: "3", unit: "1" });
  return w.work("current, between three phases", "A", calc`sqrt(${phases}) × ${each}`);
}

/** The drop of a run in volts and percent. Single-phase counts both conductors; three-phase the line-to-line value. */
export function dropOf(w: Worksheet, run: Run, impedance = effectiveImpedance(w, run)): Drop {
  const across = dropPerImpedance(w, run);
  const volts = w.work("voltage drop", "V", calc`${across} × ${impedance} × ${run.length}`);
  return dropOfVolts(w, volts, run.volts);
}

/** A drop in volts as a share of the supply, and what is left. */
export function dropOfVolts(w: Worksheet, volts: Known<"V">, supply: Known<"V">): Drop {
  const percent = w.work("voltage drop in percent", "%", calc`${volts} ÷ ${supply}`);
  const atLoad = w.work("voltage at the load", "V", calc`${supply} − ${volts}`);
  return { volts, percent, atLoad };
}

/**
 * The drop by phasors, for a supply of fixed voltage: the formula above leaves out the part at right angles to the load
 * voltage. Undefined where that part is as large as the supply and no voltage would be left.
 */
export function exactDrop(w: Worksheet, run: Run, impedance: Impedance, alongside: Known<"V">): Known<"V"> | undefined {
  const { resistance, reactance } = impedance;
  const sine = sineOf(w, run.powerFactor);
  const through = dropPerImpedance(w, run);
  const across = w.work(
    "drop at right angles to the load voltage",
    "V",
    reactance
      ? calc`${through} × (${reactance} × ${run.powerFactor} − ${resistance} × ${sine}) × ${run.length}`
      : calc`0 − ${through} × ${resistance} × ${sine} × ${run.length}`,
  );
  if (!w.holds(calc`abs(${across})`, "<", run.volts)) return undefined;
  const load = calc`${run.volts} + ${alongside} − sqrt(${run.volts} × ${run.volts} − ${across} × ${across})`;
  return w.work("drop by exact phasors", "V", load);
}

/** The constant of the hand formula: ohms of a conductor one circular mil thick and a foot long. */
export const handConstant = (w: Worksheet, material: Material): Known<"ohm-cmil/ft"> =>
  w.constant<"ohm-cmil/ft">(`voltage-drop-constant-${material}`);

/** The drop by the hand formula, K × current × length ÷ circular mils, out and back. */
export function dropByHand(w: Worksheet, run: Run, constant = handConstant(w, run.material)): Known<"V"> {
  const through = dropPerImpedance(w, run);
  const area = areaOf(w, run.size);
  return w.work("drop by the rule of thumb", "V", calc`${constant} × ${through} × ${run.length} ÷ ${area}`);
}
