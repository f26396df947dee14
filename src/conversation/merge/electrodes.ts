/** Wires that are told with an electrode. */
import type { Value } from "../../reading/facts.ts";
import { isLine } from "./facts.ts";
import type { Merging } from "./state.ts";

const ELECTRODE = /\b(?:bare|rings?|rods?|ufer|electrodes?|water (?:pipe|main)|plates?|building steel)\b/i;
const RING = /\brings?\b/i;
const OF_SERVICE =
  /\b(?:service|entrance|incoming|com(?:es?|ing) in|hots?|phase|ungrounded|riser|mast|utility|feeds?|feeders?)\b/i;
/** A wire's size as a rank: #14 below #1, that below 1/0, that below 250 kcmil. */
const rankOf = (value: Value | undefined): number => {
  if (value?.sense.is !== "size") return NaN;
  const { size } = value.sense;
  const n = Number.parseFloat(size);
  return size.includes("/") || size.endsWith("kcmil") ? n : 1 - n;
};
/** A wire of 1/0 or more is the service's, told again; of a larger service it may be the one to its electrode as well. */
const [LARGE_WIRE, LARGE_SERVICE] = [1, 350];
/**
 * `hooked to a ground ring, #2 bare`, beside service conductors that are known: the ring's own size, which decides
 * nothing. `#6 to the rods`: the conductor to them, put up for checking. What may be either is asked about.
 */
export function electrodeWire(m: Merging): void {
  const { asked } = m.text;
  const service = m.facts.find((fact) => isLine(fact) && fact.slots.size);
  const [wire, ...others] = m.news.facts.filter((fact) => isLine(fact) && fact.slots.size);
  if (m.known.kind !== "grounding" || !service || !wire || others.length > 0) return;
  if (!ELECTRODE.test(asked) || OF_SERVICE.test(asked)) return;
  const [was, is] = [rankOf(service.slots.size![0]), rankOf(wire.slots.size![0])];
  const isBare = /\bbare\b/i.test(asked);
  if (is >= was && !isBare) return;
  if (is >= LARGE_WIRE && !isBare) return void (was > LARGE_SERVICE && m.settled.add(wire));
  if (!RING.test(asked)) {
    const id = "grounding-electrode-conductor";
    m.news = { ...m.news, facts: m.news.facts.map((each) => each === wire ? { ...each, id } : each) };
    return;
  }
  m.settleFact(wire);
  m.notes.push(
    `set “${wire.said.trim()}” aside: it is the ring's own size, and the service conductors stay as they were`,
  );
}
