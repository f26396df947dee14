/**
 * Fault currents: impedances as R and X, added part by part, and what they let through. The worksheet has no complex numbers:
 * R and X are steps of their own, and Z is their root.
 */
import { calc } from "../core/formula.ts";
import { NotCovered } from "../core/outcome.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { impedanceOf, type Wire } from "./voltage-drop.ts";

/** An impedance by its parts; a part that is none is left out. */
export type Impedance = { r?: Known<"ohm">; x?: Known<"ohm"> };

/** Size of an impedance: √(R² + X²). Undefined where it is none. */
export function sizeOf(w: Worksheet, { r, x }: Impedance, name: string): Known<"ohm"> | undefined {
  if (!r) return x;
  return x ? w.work(name, "ohm", calc`sqrt(${r} × ${r} + ${x} × ${x})`) : r;
}

/** Impedances one after the other: resistances and reactances are added each for themselves. */
export function inSeries(w: Worksheet, parts: readonly Impedance[], where: string): Impedance {
  const sum = (of: "r" | "x", name: string): Known<"ohm"> | undefined => {
    const list = parts.flatMap((part) => part[of] ?? []);
    return list.length > 1 ? w.work(`${name}${where}`, "ohm", calc`sum(${list})`) : list[0];
  };
  const [r, x] = [sum("r", "R"), sum("x", "X")];
  return { ...(r && { r }), ...(x && { x }) };
}

/** Of a source of which only the size is known, R and X by their ratio, or one of them alone. */
export function bySize(w: Worksheet, z: Known<"ohm">, ratio: Known<"1"> | "r" | "x", of: string): Impedance {
  if (ratio === "r" || ratio === "x") return { [ratio]: z };
  const r = w.work(`R ${of}`, "ohm", calc`${z} ÷ sqrt(1 + ${ratio} × ${ratio})`);
  return { r, x: w.work(`X ${of}`, "ohm", calc`${r} × ${ratio}`) };
}

/** A stretch of conductors in the path of a fault. */
type Stretch = Wire & { length: Known<"ft">; sets?: Known<"1">; name: string };

/**
 * R and X of one conductor of a stretch, of all its parallel sets together.
 * @throws NotCovered for a size without a row in the impedance table: a smaller one's would be on the unsafe side.
 */
export function ofStretch(w: Worksheet, stretch: Stretch): Impedance {
  const { size, material, conduit, length, sets, name } = stretch;
  if (!w.has("conductor-impedance", `${material} resistance in ${conduit}`, size)) {
    const { section } = w.edition.table("conductor-impedance");
    throw new NotCovered(`${section} has no impedance of ${w.size(size)} ${material}`, w.edition.id);
  }
  const { resistance, reactance } = impedanceOf(w, stretch);
  const along = (each: Known<"ohm/kft">, of: string) =>
    w.work(`${of} ${name}`, "ohm", sets ? calc`${each} × ${length} ÷ ${sets}` : calc`${each} × ${length}`);
  return { r: along(resistance, "R"), x: along(reactance!, "X") };
}

/** The same impedance so many times. */
export function times(w: Worksheet, { r, x }: Impedance, factor: Known<"1">, of: string): Impedance {
  return {
    ...(r && { r: w.work(`R ${of}`, "ohm", calc`${factor} × ${r}`) }),
    ...(x && { x: w.work(`X ${of}`, "ohm", calc`${factor} × ${x}`) }),
  };
}
