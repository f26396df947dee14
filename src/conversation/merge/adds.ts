/** Whether what a text tells comes to what is there. */
import type { Facts } from "../../reading/facts.ts";
import type { ReadText } from "../../reading/read.ts";
import type { Sense } from "../../reading/sense.ts";
import { is, type Manner } from "../../reading/manner.ts";
import { MEASURES } from "../plate.ts";
import { isEqual } from "./facts.ts";

type Kind = { readonly manner: Manner };
const A = "(?:a|an|one|two|three|four|\\d+)";
/** `a charger on top of that`: whatever opens the sentence. */
const ON_TOP = /\b(?:on top of|in addition to|besides) (?:that|this|it|those|the)\b/i;
/** `theres also a small 3 kw oven`, `it also has two dryers`, `also a 3 kW oven`. */
const ALSO = new RegExp(
  `\\b(?:there'?s|there (?:is|are)|has|have|having|got|with) also ${A}\\b|` +
    `\\balso (?:(?:has|have|got|there'?s|there (?:is|are)|with) )?${A}\\b|` +
    `\\b(?:there'?s|there (?:is|are)|has|have|got) (?:a|an)\\b.*\\b(?:too|as well)\\W*$`,
  "i",
);
export const addsBeside = ({ asked, facts }: ReadText, known: Kind): boolean =>
  (ON_TOP.test(asked) || is(known, "adds up") && ALSO.test(asked)) &&
  facts.facts.some(({ family, id, slots }) => family === "load" && id !== undefined && Object.keys(slots).length > 0);

const AND = new Set(["and", "plus"]);
const ARTICLES = new Set(["a", "an", "another"]);
const isCounting = ({ is }: Sense): boolean => is === "number" || is === "count";
/** Whether a text opens with an `and` behind which so many things stand: `and two 10s`, `plus a 12/2`, `and 12 with 30 A`. */
function opensWithMore({ tokens, pieces }: ReadText): boolean {
  if (!AND.has(tokens[0]?.text ?? "")) return false;
  return ARTICLES.has(tokens[1]?.text ?? "") ||
    pieces.some(({ from, senses }) => from === 1 && senses.some(isCounting));
}
/** `and two 10s`, of wires that are listed; `and 12 with 30 A`, of sites that have 50 A. */
export function addsToList(text: ReadText, known: Kind, earlier: Facts): boolean {
  if (!opensWithMore(text)) return false;
  const { facts } = text.facts;
  if (is(known, "conductors")) {
    return facts.some(({ family, slots }) => family === "box" || family === "conductor" && slots.size);
  }
  const isOther = ({ family, id, slots }: Facts["facts"][number]) =>
    family === "load" && id === undefined && slots.count !== undefined &&
    MEASURES.some((slot) =>
      slots[slot] && earlier.facts.some((each) => each.slots[slot]) &&
      !earlier.facts.some((each) => each.slots[slot] && isEqual(each.slots[slot][0]?.sense, slots[slot]![0]!.sense))
    );
  return is(known, "groups") && facts.some(isOther);
}
