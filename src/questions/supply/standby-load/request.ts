/** What a standby-load request holds: the generator, how it takes the load over, and the load. */
import * as z from "zod";
import { MATERIALS } from "../../../rules/conductors.ts";
import { dwelling } from "../../parts/dwelling-request.ts";
import { quantity } from "../../parts/quantities.ts";
import { terminals } from "../../parts/wiring.ts";

const power = quantity(["W", "kW", "VA", "kVA", "A"], { W: 5e6, VA: 5e6, kW: 5000, kVA: 5000, A: 6000 });
const { system: _ofTheGenerator, ...home } = dwelling;

export const input = z.strictObject({
  /** What the generator's nameplate says, put up or to be wired. */
  generator: power.optional(),
  powerFactor: z.number().min(0.5, "a power factor of a generator lies between 0.5 and 1").max(
    1,
    "a power factor is at most 1",
  ).optional(),
  volts: quantity(["V"], { V: 600 }).optional(),
  supply: z.enum(["single-phase", "three-phase"]).optional(),
  /** Whether it takes the load over by itself, or by hand: a manual switch or an interlock. */
  transfer: z.enum(["automatic", "manual"]).optional(),
  /** Whether load management keeps loads off. */
  managed: z.boolean().optional(),
  /** The most that load management lets on at one time. */
  setting: power.optional(),
  /** The inlet that a portable one is plugged into. */
  inlet: quantity(["A"], { A: 400 }).optional(),
  /** The breaker of the generator. */
  breaker: quantity(["A"], { A: 6000 }).optional(),
  /** A load worked out before. */
  load: power.optional(),
  /** A dwelling, where areas are told; otherwise the loads that run together. */
  ...home,
  material: z.enum(MATERIALS).optional(),
  terminals,
  /** Whether the conductors alone are asked for. */
  find: z.literal("conductors").optional(),
});
export type StandbyRequest = z.output<typeof input>;
export type Power = z.output<typeof power>;
