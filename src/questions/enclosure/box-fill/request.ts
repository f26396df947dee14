/** What a question on a box says: the box, what lies in it, and what is pulled through it. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";
import { anySize, TRADE_SIZES } from "../../parts/sizes.ts";

export const SHAPES = ["square", "octagonal", "device", "masonry", "FS", "FD"] as const;
export type Shape = typeof SHAPES[number];
export const ACROSS = ["4", "4-11/16", "3 x 2", "4 x 2-1/8", "3-3/4 x 2"] as const;
export const DEPTHS = ["1-1/4", "1-1/2", "1-7/8", "2", "2-1/8", "2-1/4", "2-1/2", "2-3/4", "3-1/2"] as const;
const SUPPORTS = ["stud", "hickey"] as const;
const PULLS = ["straight", "angle", "U"] as const;

const count = z.int().min(1).max(200);

export const input = z.strictObject({
  /** The box: its marked volume, or what of its trade size is known. */
  box: z.strictObject({
    shape: z.enum(SHAPES).optional(),
    across: z.enum(ACROSS).optional(),
    depth: z.enum(DEPTHS).optional(),
    gangs: z.int().min(1).max(10).optional(),
    volume: quantity(["in3"], { in3: 20_000 }).optional(),
  }).optional(),
  /** Marked volume of an extension ring, plaster ring or raised cover. */
  ring: quantity(["in3"], { in3: 200 }).optional(),
  /** Conductors that come in by a raceway or as fixture wires; one without a count is the one that is asked for. */
  conductors: z.array(z.strictObject({ size: anySize, count: count.optional() })).max(20)
    .optional(),
  /** Whether those conductors are left unbroken in a loop long enough to be cut. */
  looped: z.literal(true).optional(),
  /** Cables; one without a count is the one that is asked for. */
  cables: z.array(z.strictObject({ size: anySize, wires: z.int().min(2).max(8), count: count.optional() })).max(20)
    .optional(),
  /** Whether each cable brings an equipment ground. */
  cableGrounds: z.boolean().optional(),
  /** Equipment grounds that come in beside those of the cables. */
  grounds: z.strictObject({ count, size: anySize.optional() }).optional(),
  /** A further set of isolated equipment grounds. */
  isolatedGrounds: z.strictObject({ count, size: anySize.optional() }).optional(),
  /** Cable clamps inside the box. */
  clamps: z.boolean().optional(),
  /** Fittings that hold a luminaire. */
  supports: z.array(z.enum(SUPPORTS)).max(2).optional(),
  /** Yokes with a switch, a receptacle or the like; `gangs` where one is wider than one gang. */
  devices: z.array(z.strictObject({ count: count.optional(), gangs: z.int().min(1).max(4).optional() })).max(10)
    .optional(),
  /** The largest conductor on the devices, where it is another than the largest in the box. */
  deviceSize: anySize.optional(),
  terminalBlocks: count.optional(),
  /** How many of the conductors or cables without a count fit. */
  find: z.literal("how many").optional(),
  /** Whether the box is put up for checking, where its depth is open. */
  check: z.literal(true).optional(),
  /** A pull box instead: the way of the pull, and the raceways at the wall that has most of them. */
  pull: z.enum(PULLS).optional(),
  raceways: z.array(z.strictObject({ size: z.enum(TRADE_SIZES), count: count.optional() })).max(20).optional(),
  /** How much free conductor is left in a box, instead of what it holds. */
  free: z.strictObject({
    /** The box's opening, where it is narrowest. */
    opening: quantity(["in"], { in: 120 }).optional(),
    /** What was left, from where the conductor leaves its sheath or raceway. */
    length: quantity(["in"], { in: 600 }).optional(),
    /** How much of it reaches outside the opening. */
    outside: quantity(["in"], { in: 600 }, "0 or more").optional(),
  }).optional(),
});
export type BoxRequest = z.output<typeof input>;
