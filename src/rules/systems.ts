/** Supplies by their voltages and phases, as a calculation of other occupancies takes them. */
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

export const SYSTEMS = [
  "120/240 V single-phase",
  "120/208 V single-phase",
  "208Y/120 V three-phase",
  "120/240 V three-phase",
  "240 V three-phase",
  "480Y/277 V three-phase",
  "480 V three-phase",
  "600Y/347 V three-phase",
  "600 V three-phase",
] as const;
export type SystemName = typeof SYSTEMS[number];

/**
 * How the lines lie to the neutral: two lines with it in their middle, two lines of a wye, three lines of a wye, a delta with
 * the middle of one winding grounded (its third line is the high leg), three lines without a neutral.
 */
type Shape = "two lines" | "two lines of a wye" | "wye" | "high leg" | "no neutral";
const SHAPES: Readonly<Record<SystemName, Shape>> = {
  "120/240 V single-phase": "two lines",
  "120/208 V single-phase": "two lines of a wye",
  "208Y/120 V three-phase": "wye",
  "120/240 V three-phase": "high leg",
  "240 V three-phase": "no neutral",
  "480Y/277 V three-phase": "wye",
  "480 V three-phase": "no neutral",
  "600Y/347 V three-phase": "wye",
  "600 V three-phase": "no neutral",
};

/** Supplies as they would be typed, where their name alone would be read otherwise. */
const TYPED: Readonly<Partial<Record<SystemName, string>>> = {
  "120/240 V three-phase": "high-leg delta 120/240 V three-phase",
  "240 V three-phase": "240 V three-phase delta",
  "480 V three-phase": "480 V three-phase delta",
  "600 V three-phase": "600 V three-phase delta",
};
export const writeSystem = (name: SystemName): string => TYPED[name] ?? name;

export type Voltages = {
  name: SystemName;
  shape: Shape;
  lineToLine: Known<"V">;
  lineToNeutral?: Known<"V">;
  phases: 1 | 3;
};

export function voltagesOf(w: Worksheet, name: SystemName): Voltages {
  const table = "supply-systems";
  const lineToLine = w.lookUp<"V">("line-to-line voltage", table, "line to line", name);
  const phases = name.endsWith("three-phase") ? 3 : 1;
  if (!w.has(table, "line to neutral", name)) return { name, shape: SHAPES[name], lineToLine, phases };
  const lineToNeutral = w.lookUp<"V">("line-to-neutral voltage", table, "line to neutral", name);
  return { name, shape: SHAPES[name], lineToLine, lineToNeutral, phases };
}
