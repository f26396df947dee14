/** What a mobile-home-load request holds. */
import * as z from "zod";
import { dwelling } from "../../parts/dwelling-request.ts";
import { serviceFields } from "../../parts/load-service.ts";
import { quantity } from "../../parts/quantities.ts";

const { system: _always, ...home } = dwelling;

export const input = z.strictObject({
  /** The rule of mobile homes (`standard`) or the optional method of dwellings; the smaller where neither is named. */
  method: z.enum(["standard", "optional"]).optional(),
  ...home,
  /** A power-supply cord that is put up or there already. */
  cord: quantity(["A"], { A: 100 }).optional(),
  ...serviceFields,
});
export type MobileHomeRequest = z.output<typeof input>;
