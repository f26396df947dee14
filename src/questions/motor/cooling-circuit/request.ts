/** What a cooling-circuit request holds. */
import * as z from "zod";
import { dropLimit, run } from "../../parts/lines.ts";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";

const amperes = quantity(["A"], { A: 2000 });
const count = z.int().min(1).max(50).default(1);
export const input = z.strictObject({
  /** As the nameplate says. */
  minimumCircuitAmpacity: amperes.optional(),
  maximumProtection: amperes.optional(),
  minimumProtection: amperes.optional(),
  /** What the nameplate's largest device is said to be. */
  markedFor: z.enum(["fuse", "fuse or breaker"]).optional(),
  compressors: z.array(z.strictObject({
    count,
    ratedLoad: amperes.optional(),
    /** Branch-circuit selection current. */
    selection: amperes.optional(),
  })).min(1).max(20).optional(),
  /** Fans and other motors of the equipment. */
  fans: z.array(z.strictObject({ count, current: amperes.optional() })).min(1).max(20).optional(),
  /** Electric heat on the same circuit. */
  heat: quantity(["kW", "W", "A"], { kW: 200, W: 200_000, A: 500 }).optional(),
  /** Controls keep heat and compressors from running together. */
  interlocked: z.boolean().optional(),
  /** The compressor will not start on the normal device. */
  hardStarting: z.boolean().optional(),
  /** The share of the compressor's current that was asked for. */
  percent: quantity(["%"], { "%": 1000 }).optional(),
  /** What the nameplate says of the whole unit: enough for a room unit, not for any other. */
  unitCurrent: amperes.optional(),
  /** A cord-and-plug room unit, alone on its circuit or not. */
  room: z.enum(["alone", "shared", "not told"]).optional(),
  /** What it cools: never enough to size anything. */
  capacity: z.strictObject({ value: z.number().positive().max(10_000_000), unit: z.enum(["ton", "BTU/h"]) }).optional(),
  volts: quantity(["V"], { V: 1000 }).optional(),
  phases: z.union([z.literal(1), z.literal(3)]).optional(),
  /** Put up for checking. */
  breakers: z.array(amperes).min(1).max(4).optional(),
  fuses: z.array(amperes).min(1).max(4).optional(),
  disconnect: amperes.optional(),
  size: size.optional(),
  ...run,
  dropLimit,
});
export type CoolingRequest = z.output<typeof input>;
