/** Two points of a panel between which continuity is tried, and what was read there. */
import type { Verdict } from "../../../core/worked.ts";
import type { Point } from "./request.ts";

export type Expected = "closed" | "open";
export type Pair = readonly [Point, Point];
/** What was read between two points, beside what had to be. */
export type Read = { pair: Pair; wanted: Expected; word: Expected | "between"; is: Verdict };
/** In words. */
export const pairInWords = ([from, to]: Pair): string => `${from} to ${to}`;
