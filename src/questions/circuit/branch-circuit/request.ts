/** What a request for one branch circuit holds. */
import * as z from "zod";
import { run } from "../../parts/lines.ts";
import { available } from "../../parts/available-fault.ts";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";
import { CIRCUIT_KINDS } from "./loads.ts";

const MOST = { A: 6000, W: 2_000_000, kW: 2000, VA: 2_000_000, kVA: 2000 };

const load = z.strictObject({
  kind: z.enum(CIRCUIT_KINDS).default("load"),
  count: z.int().min(1).max(200).default(1),
  /** Of each. */
  rating: quantity(["A", "W", "kW", "VA", "kVA"], MOST).optional(),
  /** Of each, where the nameplate gives amperes beside its power. */
  current: quantity(["A"], MOST).optional(),
  /** Of a furnace: what its blower draws beside the heat. */
  blower: quantity(["A"], MOST).optional(),
  /** Runs for three hours or more. */
  continuous: z.boolean().optional(),
  /** Of a storage water heater. */
  gallons: z.number().min(1).max(1000).optional(),
  /** Of a welder. */
  dutyCycle: z.number().min(1, "a duty cycle is from 1 to 100 %").max(100, "a duty cycle is from 1 to 100 %")
    .optional(),
});
export const input = z.strictObject({
  loads: z.array(load).max(50).optional(),
  volts: quantity(["V"], { V: 1000 }).optional(),
  phases: z.literal([1, 3], "a circuit is single-phase or three-phase").optional(),
  /** Both voltages are used: two or three lines and the neutral. */
  neutral: z.boolean().optional(),
  /** The neutral counts as current-carrying. */
  neutralCounts: z.boolean().optional(),
  /** Whether the supply is a three-phase wye, of which a single-phase circuit takes two lines. */
  wye: z.boolean().optional(),
  receptacle: quantity(["A"], { A: 200 }).optional(),
  breaker: quantity(["A"], { A: 6000 }).optional(),
  size: size.optional(),
  /** Insulated wires of the plan's cable. */
  wires: z.int().min(2).max(4).optional(),
  /** Sizes to choose from. */
  options: z.array(size).min(2).max(6).optional(),
  /** Whether a plan was put up for checking. */
  check: z.boolean().optional(),
  limit: quantity(["%"], { "%": 20 }).optional(),
  /** Circuits like this one in the same raceway or bundle, this one counted. */
  circuits: z.int().min(1).max(100).optional(),
  ...run,
  ...available,
});
export type CircuitRequest = z.output<typeof input>;
export type SaidLoad = z.output<typeof load>;
