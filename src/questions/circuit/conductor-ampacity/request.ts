/** What is asked of a conductor. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";
import { wiring } from "../../parts/wiring.ts";

export const input = z.strictObject({
  size: size.optional(),
  /** Parallel sets, each of one such conductor a phase. */
  sets: z.int().min(2).max(20).optional(),
  /** A breaker put up for checking. */
  breaker: quantity(["A"], { A: 6000 }).optional(),
  /** A load put up for checking. */
  load: quantity(["A"], { A: 6000 }).optional(),
  ...wiring,
});
export type AmpacityRequest = z.output<typeof input>;
