/** What an added-load request holds. */
import * as z from "zod";
import { LOAD_KINDS } from "../../../loads/catalogue.ts";
import { dwelling, load } from "../../parts/dwelling-request.ts";
import { quantity } from "../../parts/quantities.ts";

const POWER = ["W", "kW", "VA", "kVA"] as const;
const MOST = { W: 5e6, VA: 5e6, kW: 5000, kVA: 5000, A: 6000 };

/** A load to be added. One without a rating is looked for: the largest of its kind that still fits. */
const added = load.extend({
  rating: quantity([...POWER, "A", "hp"], { ...MOST, hp: 10 }).optional(),
  /** On a three-phase supply. */
  phases: z.literal([1, 3], "a load is single-phase or three-phase").optional(),
});

export const METHODS = ["existing dwelling", "optional", "standard", "measured demand", "as calculated"] as const;

export const input = z.strictObject({
  /** Rating of the service, feeder or panel as it stands. */
  service: quantity(["A"], { A: 6000 }).optional(),
  added: z.array(added).max(50).optional(),
  ...dwelling,
  /** Nothing else is electric. */
  nothingElse: z.boolean().optional(),
  /** What was said not to be there. */
  without: z.array(z.enum(LOAD_KINDS)).max(LOAD_KINDS.length).optional(),
  /** Highest demand on record, and what it is a record of. */
  demand: quantity([...POWER, "A"], MOST).optional(),
  powerFactor: quantity(["1"], { "1": 1 }).optional(),
  recorded: z.enum(["one year", "30 days"]).optional(),
  /** Existing load by a calculation of the user's own. */
  calculated: quantity([...POWER, "A"], MOST).optional(),
  /** Solar, a generator in parallel or peak shaving on this service. */
  ownSource: z.boolean().optional(),
  supply: z.enum(["single-phase", "three-phase"]).optional(),
  /** Between the lines, of a three-phase supply. */
  volts: quantity(["V"], { V: 600 }).optional(),
  /** To what a charger's current is set or managed. */
  setpoint: quantity(["A"], { A: 250 }).optional(),
  method: z.enum(METHODS).optional(),
  /** No dwelling: only what was recorded or calculated of it counts. */
  isDwelling: z.boolean().optional(),
});
export type AddedRequest = z.output<typeof input>;
export type AddedLoad = z.output<typeof added>;
export type Method = typeof METHODS[number];
