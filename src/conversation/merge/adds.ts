/** Whether what a text tells comes to what is there. */
import type { ReadText } from "../../reading/read.ts";

/** Kinds that add up what is listed. */
const ADDING_UP: ReadonlySet<string> = new Set([
  "dwelling-load",
  "mobile-home-load",
  "multifamily-load",
  "cooking-demand",
  "dryer-demand",
  "motor-feeder",
]);
const A = "(?:a|an|one|two|three|four|\\d+)";
/** `theres also a small 3 kw oven`, `it also has two dryers`, `also a 3 kW oven`. */
const ALSO = new RegExp(
  `\\b(?:there'?s|there (?:is|are)|has|have|having|got|with) also ${A}\\b|` +
    `\\balso (?:(?:has|have|got|there'?s|there (?:is|are)|with) )?${A}\\b|` +
    `\\b(?:there'?s|there (?:is|are)|has|have|got) (?:a|an)\\b.*\\b(?:too|as well)\\W*$`,
  "i",
);
export const addsBeside = ({ asked, facts }: ReadText, kind: string): boolean =>
  ADDING_UP.has(kind) && ALSO.test(asked) &&
  facts.facts.some(({ family, id, slots }) => family === "load" && id !== undefined && Object.keys(slots).length > 0);
