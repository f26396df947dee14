/** What a park-load request holds. */
import * as z from "zod";
import { serviceFields } from "../../parts/load-service.ts";
import { quantity } from "../../parts/quantities.ts";

const PARKS = ["recreational vehicle park", "mobile home park", "marina"] as const;
export type Park = typeof PARKS[number];
/** Supplies that such sites are fed by. */
export const PARK_SYSTEMS = ["120/240 V single-phase", "120/208 V single-phase", "208Y/120 V three-phase"] as const;

const MOST_SITES = 5000;
const power = quantity(["W", "kW", "VA", "kVA", "A"], { W: 1e7, VA: 1e7, kW: 1e4, kVA: 1e4, A: 6000 });

const receptacle = z.strictObject({
  count: z.int().min(1).max(8).default(1),
  rating: quantity(["A"], { A: 800 }),
  /** Between its wires: 120 V is a line and the neutral. */
  volts: quantity(["V"], { V: 250 }).optional(),
  phases: z.union([z.literal(1), z.literal(3)]).optional(),
});
export type Receptacle = z.output<typeof receptacle>;

const site = z.strictObject({
  /** How many are like this one. */
  count: z.int().min(1).max(MOST_SITES).optional(),
  /** What stands at one site or slip, where it is no mobile home lot. */
  receptacles: z.array(receptacle).min(1).max(6).optional(),
  /** A site for a tent, with a 20 A receptacle and no more. */
  tent: z.literal(true).optional(),
  /** Of a mobile home lot: the load calculated for the largest home it takes. */
  load: power.optional(),
});
export type Site = z.output<typeof site>;

export const input = z.strictObject({
  park: z.enum(PARKS).optional(),
  system: z.enum(PARK_SYSTEMS).optional(),
  sites: z.array(site).max(20).optional(),
  /** Whether each slip of a marina has its own kilowatt-hour meter. */
  metered: z.boolean().optional(),
  /** What else is on the same supply, each with the load calculated for it: bathhouse, office, yard lighting. */
  others: z.array(z.strictObject({ name: z.string().min(1).max(60).optional(), load: power })).max(50).optional(),
  ...serviceFields,
});
export type ParkRequest = z.output<typeof input>;
