/** What is asked of cooking equipment. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";
import { spread } from "../../parts/spreads.ts";

/** Kitchen pieces that the demand table is made for. */
export const PIECES = ["range", "wall-oven", "cooktop"] as const;

export const input = z.strictObject({
  appliances: z.array(z.strictObject({
    kind: z.enum(PIECES),
    count: z.int().min(1).max(2000).default(1),
    rating: quantity(["W", "kW", "VA", "kVA", "A"], { W: 40000, VA: 40000, kW: 40, kVA: 40, A: 200 }).optional(),
    spread,
  })).max(50).optional(),
  supply: z.enum(["single-phase", "three-phase"]).optional(),
  use: z.enum(["feeder", "branch circuit"]).optional(),
  method: z.enum(["column C", "note 3"]).optional(),
  volts: quantity(["V"], { V: 250 }).optional(),
  /** Whether what they put on the neutral of a feeder or service is asked for. */
  neutral: z.boolean().optional(),
});
export type CookingRequest = z.output<typeof input>;
