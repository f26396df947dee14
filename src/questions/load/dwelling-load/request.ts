/** What a dwelling-load request holds. */
import * as z from "zod";
import { ELECTRODES } from "../../../rules/grounding.ts";
import { dwelling } from "../../parts/dwelling-request.ts";
import { terminals } from "../../parts/wiring.ts";
import { quantity } from "../../parts/quantities.ts";

const { system, compressorLockedOut, ...floorsAndLoads } = dwelling;

export const input = z.strictObject({
  method: z.enum(["standard", "optional"]).optional(),
  system,
  ...floorsAndLoads,
  compressorLockedOut,
  /** Where the panel stands: at the service disconnect, or after it (then its neutral is kept isolated). */
  panel: z.enum(["at the service disconnect", "after the service disconnect"]).optional(),
  /** A service put up for checking. */
  service: quantity(["A"], { A: 2000 }).optional(),
  material: z.enum(["copper", "aluminum"]).optional(),
  electrode: z.enum(ELECTRODES).optional(),
  /** Of the terminations at both ends of the service or feeder, as marked. */
  terminals,
});
export type DwellingRequest = z.output<typeof input>;
