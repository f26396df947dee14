/** What an occupancy-load request holds. */
import * as z from "zod";
import { EQUIPMENT_KINDS } from "../../../loads/equipment.ts";
import { OCCUPANCIES } from "../../../rules/occupancies.ts";
import { SYSTEMS } from "../../../rules/systems.ts";
import { serviceFields } from "../../parts/load-service.ts";
import { quantity } from "../../parts/quantities.ts";

const POWER = { W: 10_000_000, VA: 10_000_000, kW: 10_000, kVA: 10_000 };
const power = quantity(["W", "VA", "kW", "kVA"], POWER);
const length = quantity(["ft", "m"], { ft: 20_000, m: 6000 });

/** Luminaires, so many of one load. */
const luminaires = z.array(z.strictObject({ count: z.int().min(1).max(10_000).default(1), rating: power })).max(50)
  .optional();

const load = z.strictObject({
  kind: z.enum(EQUIPMENT_KINDS),
  /** What the user calls it, for `other` and `machine`. */
  name: z.string().max(60).optional(),
  count: z.int().min(1).max(1000).default(1),
  /** Of each one, from its nameplate. */
  rating: quantity(["W", "kW", "VA", "kVA", "A", "hp"], { ...POWER, A: 6000, hp: 2000 }).optional(),
  volts: quantity(["V"], { V: 1000 }).optional(),
  phases: z.union([z.literal(1), z.literal(3)]).optional(),
  /** `gas` stands for any fuel that is burnt: it adds nothing but what is told of its fan and controls. */
  fuel: z.literal("gas").optional(),
  continuous: z.boolean().optional(),
});

export const input = z.strictObject({
  /** That a service or feeder is wanted, and not only the load. */
  upTo: z.literal("service").optional(),
  /** That only this part of the load is asked for. */
  part: z.enum(["lighting", "receptacles"]).optional(),
  method: z.enum(["standard", "optional"]).optional(),
  system: z.enum(SYSTEMS).optional(),
  areas: z.array(z.strictObject({
    area: quantity(["ft2", "m2"], { ft2: 5_000_000, m2: 500_000 }),
    occupancy: z.enum(OCCUPANCIES),
  })).max(20).optional(),
  /** What the optional method takes of a restaurant or a school that is told by all that is connected in it. */
  connected: z.strictObject({ load: power, use: z.enum(["restaurant", "school"]) }).optional(),
  /** Connected load of the luminaires that light the areas. */
  lighting: luminaires,
  /** Lighting per area that is to be counted, where it is more than the table's. */
  lightingPerArea: quantity(["VA/ft2"], { "VA/ft2": 50 }).optional(),
  /** Lighting that is not of the areas: on the lot, on the walls outside. */
  outdoorLighting: luminaires,
  /** General-use receptacles, counted by their yokes. */
  receptacles: z.int().min(0).max(20_000).optional(),
  /** Receptacles told as a load. */
  receptacleLoad: power.optional(),
  /** Receptacles told as so much for each square foot. */
  receptaclesPerArea: quantity(["VA/ft2"], { "VA/ft2": 50 }).optional(),
  multioutlet: length.optional(),
  /** Whether the outlets of an assembly are likely to be used at one time. */
  multioutletTogether: z.boolean().optional(),
  multioutletLoad: power.optional(),
  showWindow: length.optional(),
  trackLighting: length.optional(),
  loads: z.array(load).max(200).optional(),
  /** Whether a restaurant burns no fuel at all, for its optional method. */
  allElectric: z.boolean().optional(),
  /** Whether the loads between the lines and the neutral are linear, so that a large neutral may be reduced. */
  linear: z.boolean().optional(),
  ...serviceFields,
});
export type OccupancyRequest = z.output<typeof input>;
export type OccupancyLoad = z.output<typeof load>;
