/** What was chosen before and is the usual way again: one set of conductors, a device on both sides. */
import type { Free } from "../../reading/facts.ts";
import type { Merging } from "./state.ts";

/** `single run`, `just one set`; `not in parallel`. */
const SINGLE = /\b(?:single|one|1)[ -]+(?:run|set|pull|conductor per phase)\b(?! (?:of|is|more|to)\b)/i;
const NOT_PARALLEL =
  /\b(?:no|not|without|skip|forget|instead of)(?: (?:the|in|any|two|2|doing|running))* +parallel(?:s|ed|ing)?\b/i;
/** `nah single run`: parallel sets that are known are one again. */
export function singleRun(m: Merging): void {
  const isSets = ({ family, id }: { family: string; id?: string }) => family === "circuit" && id === "set";
  if (!SINGLE.test(m.text.asked) && !NOT_PARALLEL.test(m.text.asked)) return;
  if (!m.facts.some((fact) => isSets(fact) || fact.slots.sets)) return;
  for (const set of m.facts.filter(isSets)) m.remove(set, []);
  for (const fact of m.facts) delete fact.slots.sets;
  const one = { sense: { is: "number" as const, n: 1 }, pieces: [], said: "one" };
  m.facts.push({ family: "circuit", id: "set", said: "set", pieces: [], sentence: -1, slots: { count: [one] } });
  for (const fact of m.news.facts.filter(isSets)) m.settleFact(fact);
}

const ON_BOTH =
  /\b(?:on|at) (?:both|each|either)\b(?! (?:leg|phase|pole|line|hot)s?\b)|\bboth (?:sides|ends|windings)\b/i;
const DEVICE_ON_SECONDARY =
  /\b(?:breakers?|fuses?|fused|disconnect|main|protection|device|ocpd|protected)\b[^,.;?]{0,25}\b(?:on|at|for|in) (?:the |its )?secondary\b|\bsecondary (?:main|breakers?|fuses?|disconnect|protection|device)\b/i;
const NONE = /\b(?:needs?|no|not|none|nothing|without|never|isn'?t|won'?t|don'?t|doesn'?t)\b/i;
/** `say theres a breaker on both`, after the primary alone was protected. */
export function bothProtected(m: Merging): void {
  const isOnly = ({ key }: Free) => key === "end:primary-only";
  if (m.known.kind !== "transformer" || !m.free.some(isOnly) || m.removes || NONE.test(m.text.asked)) return;
  if (!ON_BOTH.test(m.text.asked) && !DEVICE_ON_SECONDARY.test(m.text.asked)) return;
  const id = "primary-and-secondary";
  m.free = m.free.filter((each) => !isOnly(each));
  m.free.push({
    key: `end:${id}`,
    value: { sense: { is: "term", sort: "end", id }, pieces: [], said: "" },
    sentence: -1,
  });
}
