/** Texts that nobody would send, for `any-text.test.ts` and `deno task fuzz`. */
import fc from "fast-check";

/** Pieces of questions, and of things that are none: put together in any order they try every phrase. */
export const PIECES = [
  ..."2400 sq ft|12 kW|range|dryer|two|no|gas|AC|24 A|240 V|and|with|@|(|)|,|;|+|/|\n|.|-|'|\"|°|½|1/2|hp|heat pump|strips|can run together"
    .split("|"),
  ..."is|enough|the|a|of|each|total|service|breaker|120/240|208Y/120|three phase|#6|4/0|12/2|copper|AL|ufer|220.82|2020 code|NEC"
    .split("|"),
  ..."‹0 kW›|‹|›|·|JT955|2475N7.5|15.95kW - 12kW = 3.95kW|1.75|0|000|999999999999|1e9|-5 kW|∞|NaN|null|<b>|🏠|ﬁ|א"
    .split("|"),
];
export const GLUE = [" ", "", ", ", " - ", "\n"];
export const piece = fc.constantFrom(...PIECES);
export const glue = fc.constantFrom(...GLUE);
/** A text of such pieces. */
export const oddText = fc.array(fc.tuple(piece, glue), { maxLength: 40 }).map((parts) => parts.flat().join(""));
