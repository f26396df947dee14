/** Voltage drop along a run, by effective impedance, and the rule-of-thumb constant as a check. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import type { Material } from "./conductors.ts";

export const CONDUITS = ["PVC", "aluminum", "steel"] as const;
export type Conduit = typeof CONDUITS[number];

/** One run with one load at its end. */
export type Run = {
  size: Known<"word">;
  material: Material;
  conduit: Conduit;
  current: Known<"A">;
  /** One way. */
  length: Known<"ft">;
  volts: Known<"V">;
  phases: 1 | 3;
  powerFactor: Known<"1">;
  sets?: Known<"1">;
  /** Takes the direct-current resistance alone; the impedance table starts at 14 AWG, so smaller sizes always do. */
  directCurrent?: boolean;
};
export type Drop = { volts: Known<"V">; percent: Known<"%">; atLoad: Known<"V"> };

/** Effective impedance of one conductor per length: R × cos φ + X × sin φ. */
export function effectiveImpedance(
  w: Worksheet,
  run: Pick<Run, "size" | "material" | "conduit" | "powerFactor" | "directCurrent">,
): Known<"ohm/kft"> {
  const resistance = `${run.material} resistance in ${run.conduit}`;
  if (run.directCurrent || !w.has("conductor-impedance", resistance, run.size)) {
    return w.lookUp<"ohm/kft">(
      "direct-current resistance",
      "conductor-properties",
      `${run.material} dc resistance`,
      run.size,
    );
  }
  const r = w.lookUp<"ohm/kft">("resistance R", "conductor-impedance", resistance, run.size);
  const x = w.lookUp<"ohm/kft">(
    "reactance X",
    "conductor-impedance",
    run.conduit === "steel" ? "reactance in steel" : "reactance in PVC or aluminum",
    run.size,
  );
  const pf = run.powerFactor;
  const sine = w.work("sin φ", "1", calc`sqrt(1 − ${pf} × ${pf})`);
  return w.work("effective impedance", "ohm/kft", calc`${r} × ${pf} + ${x} × ${sine}`);
}

/** The drop of a run in volts and percent. Single-phase counts both conductors; three-phase the line-to-line value. */
export function dropOf(w: Worksheet, run: Run, impedance = effectiveImpedance(w, run)): Drop {
  const perSet = run.sets
    ? w.work("impedance of the sets in parallel", "ohm/kft", calc`${impedance} ÷ ${run.sets}`)
    : impedance;
  const phases = run.phases === 3 ? w.given("phases", { n: "3", unit: "1" }) : undefined;
  const volts = phases
    ? w.work("voltage drop", "V", calc`sqrt(${phases}) × ${run.current} × ${perSet} × ${run.length}`)
    : w.work("voltage drop", "V", calc`2 × ${run.current} × ${perSet} × ${run.length}`);
  const percent = w.work("voltage drop in percent", "%", calc`${volts} ÷ ${run.volts}`);
  const atLoad = w.work("voltage at the load", "V", calc`${run.volts} − ${volts}`);
  return { volts, percent, atLoad };
}
