/** What a request tells of a dwelling's load: its areas, its circuits, its appliances, its supply. */
import * as z from "zod";
import { LOAD_KINDS } from "../../loads/catalogue.ts";
import { SPACES } from "../../rules/dwelling/area.ts";
import { quantity } from "./quantities.ts";

const MOST_LOADS = 200;

/** One load of the list. */
export const load = z.strictObject({
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
export type DwellingLoad = z.output<typeof load>;

/** The fields of a request on the dwelling itself. */
export const dwelling = {
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
};
export type DwellingFields = z.output<z.ZodObject<typeof dwelling>>;
