/** What a busbar-backfeed request holds. */
import * as z from "zod";
import { quantity } from "../../parts/quantities.ts";

export const SOURCES = ["solar", "battery", "inverter", "generator"] as const;

/** A source that feeds back: its breaker, what it puts out, or both. */
const source = z.strictObject({
  kind: z.enum(SOURCES).default("solar"),
  count: z.int().min(1).max(100).default(1),
  breaker: quantity(["A"], { A: 4000 }).optional(),
  /** Rated continuous output of each. */
  output: quantity(["A", "W", "kW", "VA", "kVA"], { A: 3000, W: 2e6, VA: 2e6, kW: 2000, kVA: 2000 }).optional(),
});

export const input = z.strictObject({
  bus: quantity(["A"], { A: 6000 }).optional(),
  /** The device that protects the busbar. */
  main: quantity(["A"], { A: 6000 }).optional(),
  sources: z.array(source).max(20).optional(),
  /** Where the source's breaker stands on the busbar. */
  position: z.enum(["opposite the main", "beside the main"]).optional(),
  /** The main feeds the middle of the busbar. */
  centerFed: z.boolean().optional(),
  /** Connected ahead of the main, where no busbar carries it. */
  supplySide: z.boolean().optional(),
  /** What all load breakers on this busbar add up to. */
  loadBreakers: quantity(["A"], { A: 20000 }).optional(),
  /** Setting of a power control system that holds the sources. */
  setting: quantity(["A"], { A: 6000 }).optional(),
  volts: quantity(["V"], { V: 1000 }).optional(),
  supply: z.enum(["single-phase", "three-phase"]).optional(),
});
export type BackfeedRequest = z.output<typeof input>;
export type Source = z.output<typeof source>;
