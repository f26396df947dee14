/** What a request on a feeder of several motors holds. */
import * as z from "zod";
import { DEVICES } from "../../../rules/motor-protection.ts";
import { runFields } from "../../parts/motor-lines.ts";
import { motorFields } from "../../parts/motors.ts";
import { quantity } from "../../parts/quantities.ts";

const { volts, supply, ...ofOne } = motorFields;
export const input = z.strictObject({
  motors: z.array(z.strictObject({
    count: z.int().min(1).max(200).default(1),
    /** How many of them run at once; the others are interlocked with them. */
    atOnce: z.int().min(1).max(200).optional(),
    ...ofOne,
    /** A motor on another number of phases than the feeder. */
    supply,
  })).max(60).optional(),
  volts,
  supply,
  /** Loads that are no motors. */
  others: z.array(z.strictObject({
    load: quantity(["A", "VA", "kVA", "W", "kW"], { A: 5000, VA: 5_000_000, W: 5_000_000, kVA: 5000, kW: 5000 }),
    continuous: z.boolean().optional(),
  })).max(30).optional(),
  /** Only one of all these motors runs at a time. */
  interlocked: z.boolean().optional(),
  /** Kind of the branch devices and of the feeder's. */
  device: z.enum(DEVICES).optional(),
  percent: quantity(["%"], { "%": 2000 }).optional(),
  /** All of them on one branch circuit, without devices of their own. */
  oneBranch: z.boolean().optional(),
  /** Length of the taps to each motor's device. */
  tap: quantity(["ft", "m"], { ft: 1000, m: 300 }).optional(),
  /** Put up for checking. */
  breaker: quantity(["A"], { A: 6000 }).optional(),
  fuse: quantity(["A"], { A: 6000 }).optional(),
  ...runFields,
});
export type FeederRequest = z.output<typeof input>;
