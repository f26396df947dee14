/** What a panel schedule's request holds. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";

/** Lines of a panel, in the order of its rows. */
export const LEGS = ["A", "B", "C"] as const;
export type Leg = typeof LEGS[number];
/** Supplies of panels, and the volts from a line to the neutral. */
export const SYSTEMS = { "120/240": 120, "208Y/120": 120, "480Y/277": 277 } as const;
export type System = keyof typeof SYSTEMS;
const systems = Object.keys(SYSTEMS) as [System, ...System[]];

const MOST = { VA: 1e6, W: 1e6, kVA: 1000, kW: 1000, A: 1200 };

const circuit = z.strictObject({
  /** As the directory shall call it. */
  name: z.string().min(1).max(60).optional(),
  poles: z.literal([1, 2, 3], "a circuit has one, two or three poles").default(1),
  /** So many alike. */
  count: z.int().min(1).max(84).default(1),
  load: quantity(["VA", "kVA", "W", "kW", "A"], MOST),
  /** Where it is landed already; of several poles the first. */
  leg: z.enum(LEGS).optional(),
});
export type Circuit = z.output<typeof circuit>;

export const input = z.strictObject({
  system: z.enum(systems).optional(),
  /** How many there are in the panel. */
  spaces: z.int().min(2).max(84).optional(),
  /** Breakers of which only the poles are told: how many spaces they take. */
  breakers: z.array(z.strictObject({ poles: z.literal([1, 2, 3]), count: z.int().min(1).max(84).default(1) })).min(1)
    .max(20)
    .optional(),
  circuits: z.array(circuit).min(1).max(84).optional(),
  /** Currents of line-to-neutral loads, each on a leg, 0 A where one carries nothing: what comes back on the neutral is asked. */
  currents: z.array(z.strictObject({ leg: z.enum(LEGS), current: quantity(["A"], { A: 6000 }, "0 or more") })).min(1)
    .max(84)
    .optional(),
});
export type ScheduleRequest = z.output<typeof input>;
