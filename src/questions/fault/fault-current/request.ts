/** What a request on the available fault current holds. */
import * as z from "zod";
import { MATERIALS } from "../../../rules/conductors.ts";
import { CONDUITS } from "../../../rules/voltage-drop.ts";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";

export const SYSTEMS = ["120/240", "208Y/120", "480Y/277", "600Y/347"] as const;
export type System = typeof SYSTEMS[number];
const FAULTS = ["three-phase", "line-to-line", "line-to-neutral"] as const;
export type Fault = typeof FAULTS[number];
/** What stands at the end of a stretch, in the trade's words. */
export const POINTS = [
  "meter main",
  "service",
  "main panel",
  "main",
  "subpanel",
  "panel",
  "disconnect",
  "garage",
  "shed",
  "barn",
  "shop",
  "house",
] as const;
export type Point = typeof POINTS[number];

const current = { A: 300_000, kA: 300 };
export const input = z.strictObject({
  /** The transformer that feeds the run. */
  power: quantity(["VA", "kVA", "MVA"], { VA: 10_000_000, kVA: 10_000, MVA: 10 }).optional(),
  impedance: quantity(["%"], { "%": 30 }).optional(),
  /** How far its impedance may lie below the nameplate; 0 for none. */
  tolerance: quantity(["%"], { "%": 50 }, "0 or more").optional(),
  /** What is available at the start of the run, where it is known. */
  source: quantity(["A", "kA"], current).optional(),
  /** What the utility can deliver at the transformer's primary; unlimited where it is not told. */
  primaryFault: quantity(["MVA", "A", "kA"], { MVA: 100_000, ...current }).optional(),
  primary: quantity(["V", "kV"], { V: 69_000, kV: 69 }).optional(),
  /** X over R of the source. */
  ratio: z.number().min(0.01, "an X/R ratio lies between 0.01 and 100").max(100, "an X/R ratio is at most 100")
    .optional(),
  /** Line to line. */
  volts: quantity(["V"], { V: 1000 }).optional(),
  system: z.enum(SYSTEMS).optional(),
  phases: z.literal([1, 3], "1 or 3 phases").optional(),
  fault: z.enum(FAULTS).optional(),
  /** Stretches from the source on, each going on from the one before it or from the point that is named. */
  run: z.array(z.strictObject({
    length: quantity(["ft", "m"], { ft: 50_000, m: 15_000 }).optional(),
    size: size.optional(),
    material: z.enum(MATERIALS).optional(),
    sets: z.int().min(1).max(20).optional(),
    from: z.enum(POINTS).optional(),
    to: z.enum(POINTS).optional(),
  })).min(1).max(12).optional(),
  /** The point that is asked about; the end of the last stretch where none is named. */
  at: z.enum(POINTS).optional(),
  conduit: z.enum(CONDUITS).optional(),
  /** Full-load current of the motors that run, all together. */
  motors: quantity(["A"], { A: 20_000 }).optional(),
  /** An interrupting rating that is put up for checking. */
  rating: quantity(["A", "kA"], current).optional(),
  /** Whether that rating is one of a series combination, behind a device that covers the rest. */
  series: z.literal(true).optional(),
  /** Of the conductors when the fault begins. */
  temperature: quantity(["°C"], { "°C": 150 }, -60).optional(),
});
export type FaultRequest = z.output<typeof input>;
export type Segment = NonNullable<FaultRequest["run"]>[number];
