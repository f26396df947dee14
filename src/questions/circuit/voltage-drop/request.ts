/** What a voltage-drop request holds. */
import * as z from "zod";
import { MATERIALS } from "../../../rules/conductors.ts";
import { quantity } from "../../parts/quantities.ts";
import { namedSize } from "../../parts/sizes.ts";
import { run, sets } from "../../parts/lines.ts";

/** Supply systems by their voltages; between lines is the larger one. */
export const SYSTEMS = ["120/240", "208Y/120", "480Y/277", "600Y/347"] as const;
const CIRCUITS = ["single-phase", "three-phase", "direct current", "balanced neutral"] as const;
/** What the run feeds, where it tells the usual voltage or that a motor is turning. */
export const USES = ["lights", "receptacles", "gate operator", "motor"] as const;
/** The three turns of the question. */
const TURNS = ["drop", "conductor", "longest run"] as const;

const MOST = { A: 6000, W: 2_000_000, kW: 2000, VA: 2_000_000, kVA: 2000, hp: 500 };
const load = quantity(["A", "W", "kW", "VA", "kVA", "hp"], MOST);
const length = run.length.unwrap();
const material = z.enum(MATERIALS);

export const input = z.strictObject({
  find: z.enum(TURNS).optional(),
  /** Whether a plan was put up for checking. */
  check: z.boolean().optional(),
  volts: quantity(["V"], { V: 1000 }).optional(),
  system: z.enum(SYSTEMS).optional(),
  circuit: z.enum(CIRCUITS).optional(),
  use: z.enum(USES).optional(),
  /** The whole load; where `along` or `count` is given, of each one. */
  load: load.optional(),
  count: z.int().min(1).max(1000).optional(),
  /** Equal loads spaced along the run. */
  along: z.strictObject({ first: length.optional(), spacing: length }).optional(),
  /** Loads at distances of their own. */
  points: z.array(z.strictObject({ at: length, load })).min(1).max(50).optional(),
  /** The overcurrent device; its rating stands for the load where none is told. */
  breaker: quantity(["A"], { A: 6000 }).optional(),
  /** Of a motor while it starts. */
  starting: quantity(["A", "W", "kW", "VA", "kVA"], MOST).optional(),
  /** Stretches of the run after each other, from the source on; a size that is left out is the one looked for. */
  segments: z.array(z.strictObject({ length, size: namedSize.optional(), material: material.optional() })).min(1).max(
    20,
  )
    .optional(),
  size: namedSize.optional(),
  ...run,
  sets,
  limit: quantity(["%", "V"], { "%": 50, V: 500 }).optional(),
  /** Effective impedance of one conductor, in place of the tables. */
  impedance: quantity(["ohm/kft"], { "ohm/kft": 100 }).optional(),
  /** Of the conductor itself. */
  temperature: quantity(["°C", "°F"], { "°C": 250, "°F": 482 }, -100).optional(),
  table: z.enum(["alternating current", "direct current"]).optional(),
  /** The constant K of the hand formula. */
  constant: quantity(["ohm-cmil/ft"], { "ohm-cmil/ft": 100 }).optional(),
});
export type DropRequest = z.output<typeof input>;
export type Load = z.output<typeof load>;
