/** What a request on the path of a fault to the case holds. */
import * as z from "zod";
import { MATERIALS } from "../../../rules/conductors.ts";
import { CONDUITS } from "../../../rules/voltage-drop.ts";
import { METHODS } from "../../../rules/wiring-methods.ts";
import { size } from "../../parts/sizes.ts";
import { quantity } from "../../parts/quantities.ts";

export const SYSTEMS = ["120/240", "208Y/120", "480Y/277", "600Y/347"] as const;
export type System = typeof SYSTEMS[number];
/** What a fault returns by where no wire does. */
const RETURNS = ["earth", "raceway"] as const;

export const input = z.strictObject({
  find: z.literal("longest run").optional(),
  breaker: quantity(["A"], { A: 6000 }).optional(),
  /** Whether it is a fuse, of which no trip band is known here. */
  fuse: z.boolean().optional(),
  /** As the circuit is spoken of: between its lines or to ground. */
  volts: quantity(["V"], { V: 1000 }).optional(),
  system: z.enum(SYSTEMS).optional(),
  phases: z.literal([1, 3], "1 or 3 phases").optional(),
  /** One way, from the breaker to the fault. */
  length: quantity(["ft", "m"], { ft: 50_000, m: 15_000 }).optional(),
  size: size.optional(),
  material: z.enum(MATERIALS).optional(),
  /** The equipment ground, where it is not the cable's or the table's own. */
  ground: size.optional(),
  groundMaterial: z.enum(MATERIALS).optional(),
  return: z.enum(RETURNS).optional(),
  /** Of the earth between the rod and the source. */
  earth: quantity(["ohm"], { ohm: 100_000 }).optional(),
  /** Of the raceway that a fault returns by, its joints included: end to end, or over its length. */
  returnImpedance: quantity(["ohm/kft", "ohm"], { "ohm/kft": 100, ohm: 1000 }).optional(),
  /** That raceway where it is flexible conduit, which is an equipment ground in few uses only. */
  flexible: z.enum(["FMC", "LFMC"]).optional(),
  method: z.enum(METHODS).optional(),
  conduit: z.enum(CONDUITS).optional(),
  /** Available at the breaker's panel. */
  source: quantity(["A", "kA"], { A: 300_000, kA: 300 }).optional(),
  /** X over R of the source. */
  ratio: z.number().min(0.01, "an X/R ratio lies between 0.01 and 100").max(100, "an X/R ratio is at most 100")
    .optional(),
  /** Of the conductors during the fault. */
  temperature: quantity(["°C"], { "°C": 250 }, -60).optional(),
  /** The instantaneous trip, as a multiple of the rating, where it is set or known. */
  trips: z.number().min(1.5, "an instantaneous trip lies at 1.5 times the rating or more").max(
    50,
    "an instantaneous trip lies at 50 times the rating at most",
  ).optional(),
  /** Whether a ground-fault device (GFCI) is on the circuit, which opens first and is no substitute for the path. */
  groundFaultProtected: z.boolean().optional(),
  /** Whether it runs to a separate structure, where a rod tempts to be taken for the path. */
  separate: z.boolean().optional(),
});
export type PathRequest = z.output<typeof input>;
