/** What a grounding request holds. */
import * as z from "zod";
import { MATERIALS } from "../../../rules/conductors.ts";
import { ELECTRODES } from "../../../rules/grounding.ts";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";

/** Conductors that ground and bond. */
const CONDUCTORS = [
  "grounding electrode conductor",
  "main bonding jumper",
  "system bonding jumper",
  "supply-side bonding jumper",
  "equipment ground",
] as const;
export type GroundingConductor = typeof CONDUCTORS[number];
const amperes = quantity(["A"], { A: 6000 });
const material = z.enum(MATERIALS);

export const input = z.strictObject({
  find: z.array(z.enum(CONDUCTORS)).max(CONDUCTORS.length).optional(),
  /** Ungrounded conductors: of the service or supply, or those that an equipment ground runs with. */
  size: size.optional(),
  material: material.optional(),
  /** Parallel sets, and whether one jumper serves all of them or each raceway has its own. */
  sets: z.int().min(1).max(20).optional(),
  jumpers: z.enum(["one for all", "one for each raceway"]).optional(),
  /** Of the grounding or bonding conductor itself. */
  groundMaterial: material.optional(),
  electrode: z.enum(ELECTRODES).optional(),
  /** Of the ground ring, where that is the electrode. */
  ring: size.optional(),
  /** Service rating, told without its conductors. */
  service: amperes.optional(),
  /** Overcurrent devices ahead of the circuits that share one equipment ground. */
  devices: z.array(amperes).min(1).max(40).optional(),
  /** Size that the ungrounded conductors would have had without being made larger, and why they were. */
  needed: size.optional(),
  upsizedFor: z.enum(["voltage drop", "ampacity corrections"]).optional(),
  /** The other reading of the edition whose words leave it open: an increase for ampacity corrections counts too. */
  anyIncrease: z.literal(true).optional(),
  /** Ground put up for checking. */
  ground: size.optional(),
  /** Whether earth or a ground rod was put up as the path for fault current. */
  earthReturn: z.boolean().optional(),
  check: z.boolean().optional(),
});
export type GroundingRequest = z.output<typeof input>;
