/** What a feeder request holds. */
import * as z from "zod";
import { MATERIALS } from "../../../rules/conductors.ts";
import { ELECTRODES } from "../../../rules/grounding.ts";
import { dropLimit, run, sets } from "../../parts/lines.ts";
import { available } from "../../parts/available-fault.ts";
import { quantity } from "../../parts/quantities.ts";
import { size } from "../../parts/sizes.ts";

const MOST = { A: 6000, W: 5_000_000, kW: 5000, VA: 5_000_000, kVA: 5000 };
const amperes = quantity(["A"], { A: 6000 });
const load = quantity(["A", "W", "kW", "VA", "kVA"], MOST);
export const input = z.strictObject({
  /** Service conductors, or a feeder from a panel or service disconnect. */
  supply: z.enum(["feeder", "service"]).optional(),
  /** Where a feeder ends. */
  where: z.enum(["same building", "separate structure"]).optional(),
  /** Whether it carries the whole load of one dwelling. */
  wholeDwelling: z.boolean().optional(),
  /** Whether a plan was put up for checking. */
  check: z.boolean().optional(),
  /** Overcurrent device at the source end. */
  breaker: amperes.optional(),
  /** Rating of the panel at the far end. */
  panel: amperes.optional(),
  /** Main of the panel or service it starts from. */
  source: amperes.optional(),
  /** Device ahead of a feeder that has none of its own where it starts. */
  tappedFrom: amperes.optional(),
  /** Calculated load, and the part of the load that runs for three hours or more. */
  load: load.optional(),
  continuous: load.optional(),
  /** Largest unbalanced load of the neutral. */
  neutralLoad: amperes.optional(),
  /** False where nothing at the far end needs a neutral. */
  neutral: z.boolean().optional(),
  /** Mostly electronic or other nonlinear load, so that the neutral of three phases carries current. */
  nonlinear: z.boolean().optional(),
  volts: quantity(["V"], { V: 1000 }).optional(),
  phases: z.union([z.literal(1), z.literal(3)]).optional(),
  /** Sizes put up for checking. */
  sizes: z.array(size).min(1).max(4).optional(),
  /** Insulated conductors of a cable put up for checking, the equipment ground not counted. */
  cableWires: z.int().min(2).max(4).optional(),
  /** Neutral and equipment ground put up for checking beside the lines. */
  neutralSize: size.optional(),
  groundSize: size.optional(),
  /** Wires of the feeder, the equipment ground counted. */
  wires: z.literal([3, 4]).optional(),
  sets,
  /** Whether all parallel sets run in one raceway. */
  together: z.boolean().optional(),
  ...run,
  ...available,
  groundMaterial: z.enum(MATERIALS).optional(),
  /** Of a service: the electrode its grounding electrode conductor goes to, alone. */
  electrode: z.enum(ELECTRODES).optional(),
  dropLimit,
  /** Whether voltage drop is left out of account. */
  ignoreDrop: z.boolean().optional(),
});
export type FeederRequest = z.output<typeof input>;
export type Load = z.output<typeof load>;
