/** What a farm-load request holds. */
import * as z from "zod";
import { serviceFields } from "../../parts/load-service.ts";
import { quantity } from "../../parts/quantities.ts";

const load = quantity(["A", "W", "kW", "VA", "kVA"], { A: 4000, W: 1e6, VA: 1e6, kW: 1000, kVA: 1000 });

const building = z.strictObject({
  name: z.string().min(1).max(60).optional(),
  /** How many are like this one. */
  count: z.int().min(1).max(200).default(1),
  /** All that is connected in it, the motor included. */
  load: load.optional(),
  /** What of it is expected to run at one time. */
  together: load.optional(),
  /** The largest motor in it. */
  motor: quantity(["hp", "A"], { hp: 100, A: 500 }).optional(),
});
export type Building = z.output<typeof building>;

export const input = z.strictObject({
  buildings: z.array(building).max(50).optional(),
  /** Whether the loads are told as their demand, worked out before. */
  asCalculated: z.boolean().optional(),
  /** The load calculated for the farm's dwelling. */
  dwelling: load.optional(),
  ...serviceFields,
});
export type FarmRequest = z.output<typeof input>;
