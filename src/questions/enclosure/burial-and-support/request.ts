/** What a question on laying a raceway or a cable says: how deep in the earth, or how often held. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";
import { TRADE_SIZES } from "../../parts/sizes.ts";

/** Kinds of wiring, by the column of cover that is theirs; EMT and liquidtight conduit are approved raceways without a column of their own. */
export const METHODS = {
  "UF cable": "direct burial",
  "direct-buried conductors": "direct burial",
  RMC: "rigid or intermediate conduit",
  IMC: "rigid or intermediate conduit",
  PVC: "nonmetallic raceway",
  EMT: "nonmetallic raceway",
  FMC: undefined,
  LFMC: "nonmetallic raceway",
  LFNC: "nonmetallic raceway",
  ENT: undefined,
  "NM cable": undefined,
  "MC cable": "direct burial",
  "AC cable": undefined,
  "SE cable": undefined,
} as const;
export type Method = keyof typeof METHODS;
export const LOCATIONS = [
  "elsewhere",
  "under 2 in of concrete in the trench",
  "under a building",
  "under a concrete slab without vehicles",
  "under a street or parking lot",
  "under a dwelling's driveway",
  "under a runway",
] as const;

const LENGTHS = { in: 600, ft: 50, m: 15 };
export const input = z.strictObject({
  find: z.enum(["burial depth", "supports"]).default("burial depth"),
  method: z.enum(Object.keys(METHODS) as [Method, ...Method[]]).optional(),
  /** Trade size of a raceway, by which some supports go. */
  size: z.enum(TRADE_SIZES).optional(),
  location: z.enum(LOCATIONS).optional(),
  /** A branch circuit of 120 V and 20 A at most behind a ground-fault device, or lighting and irrigation of 30 V at most. */
  circuit: z.enum(["residential branch circuit", "low voltage"]).optional(),
  /** What is put up for checking: the cover, or the distance of the supports. */
  told: quantity(["in", "ft", "m"], LENGTHS).optional(),
});
export type LayingRequest = z.output<typeof input>;
