/** What a dwelling-load request holds. */
import * as z from "zod";
import { LOAD_KINDS } from "../../../loads/catalogue.ts";
import { ELECTRODES } from "../../../rules/grounding.ts";
import { quantity } from "../../question.ts";
import { terminals } from "../../parts/wiring.ts";

/** Where floor area lies decides by edition whether it counts. */
export const SPACES = [
  "living",
  "attached garage",
  "detached garage",
  "open porch",
  "unfinished",
  "unfinished, adaptable",
] as const;
const MOST_LOADS = 200;

const load = z.strictObject({
  kind: z.enum(LOAD_KINDS),
  /** What the user calls it, for `other`. */
  name: z.string().max(60).optional(),
  count: z.int().min(1).max(100).default(1),
  /** Of each one, from its nameplate. */
  rating: quantity(["W", "kW", "VA", "kVA", "A", "hp"], { W: 60000, VA: 60000, kW: 60, kVA: 60, A: 250, hp: 10 })
    .optional(),
  volts: quantity(["V"], { V: 250 }).optional(),
  /** `gas` stands for any fuel that is burnt: the appliance adds nothing, or only its fan. */
  fuel: z.enum(["gas", "electric"]).optional(),
  /** Of electric heating: how many separately controlled units. */
  units: z.int().min(1).max(100).optional(),
  /** A 120 V load's leg, where the user says it. */
  leg: z.enum(["A", "B"]).optional(),
  continuous: z.boolean().optional(),
});

export const input = z.strictObject({
  method: z.enum(["standard", "optional"]).optional(),
  system: z.enum(["120/240", "120/208"]).optional(),
  areas: z.array(z.strictObject({
    area: quantity(["ft2", "m2"], { ft2: 50000, m2: 4650 }),
    space: z.enum(SPACES).default("living"),
  })).max(20).optional(),
  smallApplianceCircuits: z.int().min(1).max(20).optional(),
  laundryCircuits: z.int().min(0).max(5).optional(),
  loads: z.array(load).max(MOST_LOADS).optional(),
  /** Whether controls keep a heat pump's compressor off while its supplemental heat runs. */
  compressorLockedOut: z.boolean().optional(),
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
export type DwellingLoad = z.output<typeof load>;
