/** What a question on a raceway says: the raceway, what lies in it, and what is asked of it. */
import * as z from "zod";
import { INSULATIONS } from "../../../rules/conditions.ts";
import { MATERIALS } from "../../../rules/conductors.ts";
import { terminals } from "../../parts/wiring.ts";
import { quantity } from "../../parts/quantities.ts";
import { anySize, TRADE_SIZES } from "../../parts/sizes.ts";

/** Raceways whose dimensions are known, by the table that has them. */
export const RACEWAYS = {
  EMT: "raceway-emt",
  IMC: "raceway-imc",
  RMC: "raceway-rmc",
  "PVC schedule 40": "raceway-pvc-40",
  "PVC schedule 80": "raceway-pvc-80",
  FMC: "raceway-fmc",
  LFMC: "raceway-lfmc",
  ENT: "raceway-ent",
} as const;
export type Raceway = keyof typeof RACEWAYS;
/** Of flexible conduit alone. */
const WHIP_SIZE = "3/8";
export const SIZES = [WHIP_SIZE, ...TRADE_SIZES] as const;
const count = z.int().min(1).max(1000);
const side = quantity(["in"], { in: 60 });

/** A wireway or gutter, by its inside; square where one side alone is told, chosen where none is. */
const wireway = z.strictObject({
  is: z.enum(["wireway", "auxiliary gutter"]),
  width: side.optional(),
  height: side.optional(),
  /** Metal unless told. */
  nonmetallic: z.literal(true).optional(),
});
export type Wireway = z.output<typeof wireway>;

export const input = z.strictObject({
  raceway: z.enum(Object.keys(RACEWAYS) as [Raceway, ...Raceway[]]).optional(),
  /** In the place of a round raceway. */
  wireway: wireway.optional(),
  /** Trade size that is put up, or in which is asked how many fit. */
  size: z.enum(SIZES).optional(),
  /** Whether it is a nipple: no longer than 24 in. */
  nipple: z.literal(true).optional(),
  /** Conductors; one without a count is the one that is asked for. */
  conductors: z.array(z.strictObject({
    size: anySize,
    count: count.optional(),
    insulation: z.enum(INSULATIONS).optional(),
    /** Whether it has no insulation: then its own table has its area. */
    bare: z.literal(true).optional(),
    /** Whether it is an equipment ground, which carries no current. */
    ground: z.literal(true).optional(),
  })).max(30).optional(),
  /** Cables, each counted as one conductor of its larger diameter. */
  cables: z.array(z.strictObject({ count: count.optional(), diameter: quantity(["in"], { in: 6 }) })).max(10)
    .optional(),
  /** Insulation of all that have none of their own. */
  insulation: z.enum(INSULATIONS).optional(),
  material: z.enum(MATERIALS).optional(),
  /** Whether the conductors are of compact stranding. */
  compact: z.literal(true).optional(),
  /** Current-carrying conductors among them. */
  carrying: z.int().min(1).max(1000).optional(),
  /** Rating of the terminations, where what they carry is asked as well. */
  terminals,
  ambient: quantity(["°C", "°F"], { "°C": 85, "°F": 185 }, -100).optional(),
  find: z.literal("how many").optional(),
});
export type FillRequest = z.output<typeof input>;
export type Conductor = NonNullable<FillRequest["conductors"]>[number];
