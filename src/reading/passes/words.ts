/** Words that several passes go by, and how far a figure stands from what it is of. */
import type { Value } from "../facts.ts";

/** What it costs to reach across a word, a comma, a line. */
export const CROSS: Readonly<Record<string, number>> = {
  for: 2,
  from: 2,
  than: 2,
  with: 1,
  w: 1,
  on: 1,
  by: 1,
  and: 1,
  plus: 1,
  or: 1,
  then: 1.5,
  but: 1.5,
  // `fan 1.1 find MCA`: what stands before is told, what stands behind is asked.
  find: 4,
  calculate: 4,
  calc: 4,
  determine: 4,
  compute: 4,
};
export const CROSS_COMMON = 0.2;
export const CROSS_COMMA = 1.5;
/** How many facts around it a nameplate's figure looks for its load. */
export const FACTS_AROUND = 24;
/** A label belongs to the figure it touches. */
export const LABEL_REACH = 1.45;
/** How far apart the items of a list may lie. */
export const IN_A_LIST = 4;
export const unitOfRating = (value: Value | undefined): string | undefined =>
  value?.sense.is === "quantity" ? value.sense.unit : undefined;
/** Words before a rating that say which end it stands at, and how far before. */
export const END_WORDS: Readonly<Record<string, ReadonlySet<string>>> = {
  from: new Set(["from", "off"]),
  there: new Set(["has", "have", "got"]),
  wanted: new Set(["want", "wants", "need", "needs", "to"]),
};
/** Two appliances with so much and no unit are told in volt-amperes. */
export const LEAST_BARE = 1000;
/** A bare number from here on is a power in watts or volt-amperes rather than a count. */
export const LEAST_POWER = 300;
export const THE = new Set(["the", "that", "this", "my"]);
export const GROUNDS: ReadonlySet<string> = new Set([
  "equipment-ground",
  "isolated-ground",
  "grounding-electrode-conductor",
  "main-bonding-jumper",
  "system-bonding-jumper",
  "supply-side-bonding-jumper",
  "bonding-jumper",
]);
/** As many as a list counts of one thing behind its name. */
export const MOST_COUNTED = 30;
export const COUNTED = new Set(["are", "at", "of", "with"]);
export const CHECKS = new Set(["check", "add-load"]);
export const ARTICLES = new Set(["a", "an", "the", "my", "one", "its", "his", "single"]);
