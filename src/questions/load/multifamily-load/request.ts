/** What a multifamily-load request holds. */
import * as z from "zod";
import { dwelling, load } from "../../parts/dwelling-request.ts";
import { serviceFields } from "../../parts/load-service.ts";
import { quantity } from "../../parts/quantities.ts";

const { areas, smallApplianceCircuits, laundryCircuits, loads, compressorLockedOut } = dwelling;
const MOST_UNITS = 2000;
const MOST_HOUSE_LOADS = 100;
export const MOST_TYPES = 8;
const most = { W: 5e6, VA: 5e6, kW: 5000, kVA: 5000 };

const unit = z.strictObject({
  /** How many units are like this one. */
  count: z.int().min(1).max(MOST_UNITS).default(1),
  /** Of one unit. */
  areas,
  smallApplianceCircuits,
  laundryCircuits,
  loads,
});
export type UnitRequest = z.output<typeof unit>;

export const input = z.strictObject({
  method: z.enum(["standard", "optional"]).optional(),
  /** Of the service: 120/240 V, two lines and the neutral of a 208Y/120 V network, or all three lines of it. */
  system: z.enum(["120/240", "120/208", "208Y/120"]).optional(),
  units: z.array(unit).max(MOST_TYPES).optional(),
  /** Connected load of all units together, where that is all that is known of them. */
  connected: quantity(["W", "kW", "VA", "kVA"], most).optional(),
  compressorLockedOut,
  /** What the house itself has: halls, laundry room, yard, elevators. */
  house: z.array(load.omit({ continuous: true })).max(MOST_HOUSE_LOADS).optional(),
  /** Shops and other occupancies on the same service, each with the load calculated for it. */
  others: z.array(z.strictObject({
    name: z.string().min(1).max(60).optional(),
    load: quantity(["W", "kW", "VA", "kVA", "A"], { ...most, A: 6000 }).optional(),
    /** Sign outlets that its load is without. */
    signs: z.int().min(1).max(50).optional(),
  })).max(10).optional(),
  ...serviceFields,
});
export type MultifamilyRequest = z.output<typeof input>;
export type WrittenUnitLoad = Omit<z.output<typeof load>, "continuous">;
