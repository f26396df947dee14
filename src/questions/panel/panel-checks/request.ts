/** What a request for a panel check holds: the topic, the panel, and what was measured, set or put up. */
import * as z from "zod";
import { MATERIALS } from "../../../rules/conductors.ts";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";

/** What may be asked of a panel; each has a method file of its own. */
const TOPICS = [
  "bonding",
  "continuity",
  "torque",
  "working space",
  "handle height",
  "location",
  "bending space",
  "room protection",
  "neutral terminals",
  "cable sheath",
  "directory",
  "record",
] as const;
export type Topic = typeof TOPICS[number];

/** What the panel is in its installation: it decides where neutral and ground meet. */
export const PANELS = [
  "service panel",
  "feeder panel",
  "separate structure",
  "after a transformer",
  "behind a transfer switch",
] as const;
export type PanelKind = typeof PANELS[number];

/** Between what a continuity reading is taken. */
export const POINTS = ["neutral bar", "ground bar", "case", "line A", "line B", "line C"] as const;
export type Point = typeof POINTS[number];

export const CONNECTORS = [
  "slotted screw",
  "small slotted screw",
  "hex head",
  "socket screw",
  "split bolt",
] as const;

export const FACING = ["nothing live or grounded", "grounded surface", "live parts"] as const;
export const PLACES = [
  "bathroom",
  "clothes closet",
  "stairs",
  "bedroom",
  "closet",
  "garage",
  "outdoors",
  "other",
] as const;
export const ROOMS = [
  "kitchen",
  "dining room",
  "family room",
  "living room",
  "parlor",
  "library",
  "den",
  "bedroom",
  "sunroom",
  "recreation room",
  "closet",
  "hallway",
  "laundry area",
  "bathroom",
  "garage",
  "outdoors",
  "unfinished basement",
  "finished basement",
  "crawl space",
  "boathouse",
  "damp or wet indoor place",
] as const;

const length = quantity(["in", "ft", "m"], { in: 600, ft: 50, m: 15 });
const screw = quantity(["in"], { in: 3 });
const torque = quantity(["lbf-in", "lbf-ft", "N-m"], { "lbf-in": 6000, "lbf-ft": 500, "N-m": 680 });

export const input = z.strictObject({
  about: z.array(z.enum(TOPICS)).min(1).max(TOPICS.length).optional(),
  panel: z.enum(PANELS).optional(),
  phases: z.literal([1, 3]).optional(),
  /** Wires of a feeder, its equipment ground included. */
  feederWires: z.int().min(2).max(5).optional(),
  /** Whether a three-wire feeder was there before equipment grounds were wanted. */
  existing: z.boolean().optional(),
  /** Whether the transfer switch opens the neutral too. */
  switchedNeutral: z.boolean().optional(),
  /** Where the system bonding jumper of a transformer is. */
  jumperAt: z.enum(["transformer", "panel"]).optional(),
  /** Ungrounded conductors of the supply, which size a bonding jumper; or the conductor in a connector or at a terminal. */
  size: size.optional(),
  material: z.enum(MATERIALS).optional(),
  sets: z.int().min(1).max(20).optional(),
  /** What was found: whether neutral and ground are joined in the panel. */
  bonded: z.boolean().optional(),

  /** Readings of the instrument, each between two points. */
  readings: z.array(z.strictObject({
    from: z.enum(POINTS),
    to: z.enum(POINTS),
    reads: z.enum(["closed", "open"]).optional(),
    resistance: quantity(["ohm"], { ohm: 1e9 }, "0 or more").optional(),
  })).min(1).max(40).optional(),
  /** Whether the feeder's neutral was lifted from its bar while it was read. */
  feederNeutral: z.enum(["lifted", "connected"]).optional(),
  energized: z.boolean().optional(),

  connector: z.enum(CONNECTORS).optional(),
  slot: z.enum(["narrow", "wide"]).optional(),
  slotLength: screw.optional(),
  socket: screw.optional(),
  /** What the maker prints, and what was set. */
  marked: torque.optional(),
  set: torque.optional(),
  /** Whether what is marked, or what was set where nothing is, was told without its unit: then it is in pound-inches. */
  bareTorque: z.literal(true).optional(),

  volts: quantity(["V"], { V: 35000 }).optional(),
  toGround: quantity(["V"], { V: 35000 }).optional(),
  facing: z.enum(FACING).optional(),
  depth: length.optional(),
  width: length.optional(),
  height: length.optional(),
  equipmentWidth: length.optional(),
  equipmentHeight: length.optional(),
  rating: quantity(["A"], { A: 6000 }).optional(),
  handle: length.optional(),

  place: z.enum(PLACES).optional(),
  dwelling: z.boolean().optional(),

  wires: z.int().min(1).max(6).optional(),
  leaves: z.enum(["opposite wall", "another wall"]).optional(),
  space: length.optional(),

  room: z.enum(ROOMS).optional(),
  /** More rooms that are asked about with it. */
  otherRooms: z.array(z.enum(ROOMS)).min(1).max(12).optional(),
  circuit: quantity(["A"], { A: 400 }).optional(),

  neutrals: z.int().min(1).max(20).optional(),
  grounds: z.int().min(1).max(20).optional(),
  check: z.boolean().optional(),
});
export type PanelRequest = z.output<typeof input>;
