/** What a transformer request holds. */
import * as z from "zod";
import { ELECTRODES } from "../../../rules/grounding.ts";
import { PROTECTIONS } from "../../../rules/transformers.ts";
import { CONDUITS } from "../../../rules/voltage-drop.ts";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";
import { wiring } from "../../parts/wiring.ts";

/** Secondary systems by their voltages, between lines and to the neutral. */
export const SYSTEMS = ["120/240", "208Y/120", "480Y/277", "600Y/347"] as const;
export type System = typeof SYSTEMS[number];
/** Secondary windings without a neutral. */
const WINDINGS = ["two-wire", "delta"] as const;
const amperes = quantity(["A"], { A: 6000 });
const volts = quantity(["V", "kV"], { V: 35_000, kV: 35 });

export const input = z.strictObject({
  power: quantity(["kVA", "VA", "MVA"], { kVA: 10_000, VA: 10_000_000, MVA: 10 }).optional(),
  phases: z.union([z.literal(1), z.literal(3)]).optional(),
  /** Between lines. */
  primary: volts.optional(),
  secondary: volts.optional(),
  system: z.enum(SYSTEMS).optional(),
  winding: z.enum(WINDINGS).optional(),
  /** One winding for both sides (buck-boost and the like). */
  autotransformer: z.boolean().optional(),
  /** What it has to carry, at the secondary. */
  load: quantity(["kVA", "VA", "kW", "W", "A"], { kVA: 10_000, VA: 10_000_000, kW: 10_000, W: 10_000_000, A: 6000 })
    .optional(),
  continuous: z.boolean().optional(),
  powerFactor: z.number().min(0.05, "a power factor lies between 0.05 and 1").max(1, "a power factor is at most 1")
    .optional(),
  protection: z.enum(PROTECTIONS).optional(),
  impedance: quantity(["%"], { "%": 30 }).optional(),
  /** The maker built in a thermal overload device coordinated with the windings. */
  thermallyProtected: z.boolean().optional(),
  /** Devices and conductors put up for checking. */
  primaryBreaker: amperes.optional(),
  secondaryBreaker: amperes.optional(),
  primarySize: size.optional(),
  secondarySize: size.optional(),
  /** Of the secondary conductors, from the transformer to their device. */
  length: quantity(["ft"], { ft: 5000 }).optional(),
  electrode: z.enum(ELECTRODES).optional(),
  ...wiring,
  conduit: z.enum(CONDUITS).optional(),
});
export type TransformerRequest = z.output<typeof input>;
