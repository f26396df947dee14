/** What is asked of dryers. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";
import { spread } from "../../parts/spreads.ts";

export const input = z.strictObject({
  dryers: z.array(z.strictObject({
    count: z.int().min(1).max(2000).default(1),
    rating: quantity(["W", "kW", "VA", "kVA", "A"], { W: 15000, VA: 15000, kW: 15, kVA: 15, A: 60 }).optional(),
    spread,
  })).max(50).optional(),
  supply: z.enum(["single-phase", "three-phase"]).optional(),
  /** Whether what they put on the neutral is asked for. */
  neutral: z.boolean().optional(),
  /** Which row of the table stands for dryers on three phases. */
  row: z.enum(["twice the most between two phases", "all dryers"]).optional(),
});
export type DryerRequest = z.output<typeof input>;
