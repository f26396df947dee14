/** What is asked to be converted. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";
import { namedSize } from "../../parts/sizes.ts";

/** What a power may be turned into. */
export const WANTED = ["A", "VA", "kVA", "W", "kW", "hp", "°C", "°F", "ft", "m", "mm2", "AWG"] as const;

const POWERS = { W: 1e8, kW: 1e5, VA: 1e8, kVA: 1e5, MVA: 100, hp: 100_000 };
export const input = z.strictObject({
  /** A power: electrical in W or VA, of a motor's shaft in hp. */
  power: quantity(["W", "kW", "VA", "kVA", "MVA", "hp"], POWERS).optional(),
  current: quantity(["A"], { A: 100_000 }).optional(),
  volts: quantity(["V", "kV"], { V: 50_000, kV: 50 }).optional(),
  circuit: z.enum(["single-phase", "three-phase", "direct current"]).optional(),
  powerFactor: z.number().min(0.05, "a power factor lies between 0.05 and 1").max(1, "a power factor is at most 1")
    .optional(),
  efficiency: quantity(["%"], { "%": 100 }).optional(),
  /** A temperature, a length or a cross-section. */
  measure: z.union([
    quantity(["ft", "in", "yd", "m"], { any: 1e6 }),
    quantity(["mm2", "kcmil"], { any: 5000 }),
    // From absolute zero on.
    z.strictObject({ value: z.number().min(-273.15).max(5000), unit: z.literal("°C") }),
    z.strictObject({ value: z.number().min(-459.67).max(5000), unit: z.literal("°F") }),
  ]).optional(),
  size: namedSize.optional(),
  to: z.enum(WANTED).optional(),
});
export type ConversionRequest = z.output<typeof input>;
