/** What a farm-load request holds. */
import * as z from "zod";
import { serviceFields } from "../../parts/load-service.ts";
import { SYSTEMS } from "../../../rules/systems.ts";
import { quantity } from "../../parts/quantities.ts";

const load = quantity(["A", "W", "kW", "VA", "kVA"], { A: 4000, W: 1e6, VA: 1e6, kW: 1000, kVA: 1000 });

const building = z.strictObject({
  name: z.string().min(1).max(60).optional(),
  /** How many are like this one. */
  count: z.int().min(1).max(200).default(1),
  /** All that is connected in it, the motor included: amperes are those of a line at the supply's voltage. */
  load: load.optional(),
  /** What of it is expected to run at one time. */
  together: load.optional(),
  /** The largest motor in it. */
  motor: quantity(["hp", "A"], { hp: 500, A: 1000 }).optional(),
});
export type Building = z.output<typeof building>;

export const input = z.strictObject({
  buildings: z.array(building).max(50).optional(),
  /** Whether the loads are told as their demand, worked out before. */
  asCalculated: z.boolean().optional(),
  /** What feeds the farm; 120/240 V single-phase where it is absent. */
  system: z.enum(SYSTEMS).optional(),
  /** The load calculated for the farm's dwelling, which is single-phase. */
  dwelling: load.optional(),
  ...serviceFields,
});
export type FarmRequest = z.output<typeof input>;
