/** Devices that are put up beside what is known. */
import { asksLeave, goal, isLine, type Writable } from "./facts.ts";
import { otherTold } from "./heads.ts";
import type { Merging } from "./state.ts";

/** Devices that were tried one after the other are none of a nameplate that is told anew. */
export function forgetTried(m: Merging): void {
  const isPlate = m.news.facts.some(({ slots }) => slots["minimum-circuit-ampacity"]);
  const isTried = m.past.some(({ fact }) => m.facts[fact]?.family === "device");
  if (!isPlate || !isTried || m.news.facts.some(({ family }) => family === "device")) return;
  for (const fact of m.facts.filter(({ family }) => family === "device")) {
    m.facts.splice(m.facts.indexOf(fact), 1);
  }
  m.free = m.free.filter(({ key }) => key !== "goal:check");
  m.past.length = 0;
  m.told = undefined;
}
/** `#10 ok?`, after `can i use a 50`: what is put up next is judged by itself. */
export function forgetChecked(m: Merging): void {
  const isOfDevice = m.told && "fact" in m.told && m.told.fact.family === "device";
  const wasChecked = m.free.some(({ key }) => key === "goal:check") &&
    m.news.free.some(({ key }) => key === "goal:check");
  const isOfWire = m.news.facts.some((fact) => isLine(fact) && fact.slots.size) &&
    !m.news.facts.some(({ family }) => family === "device");
  if (m.known.kind !== "cooling-circuit" || !isOfDevice || !wasChecked || !isOfWire) return;
  const place = m.told as { fact: Writable };
  m.facts.splice(m.facts.indexOf(place.fact), 1);
  m.told = undefined;
}
/** `is a 150 on it fine` of an ampacity, `could i use a 25` of a nameplate: a device, and no figure of what is known. */
export function checkBreaker(m: Merging): void {
  const [number, ...others] = m.numbers();
  const isPlate = m.known.kind === "cooling-circuit";
  const isChecked = m.news.free.some(({ key }) => key === "goal:check") || isPlate && asksLeave(m.text);
  if (m.known.kind !== "conductor-ampacity" && !isPlate || !isChecked) return;
  if (!number || others.length > 0 || number.value.sense.is !== "number") return;
  if (m.news.facts.some((fact) => !(isPlate && isLine(fact)))) return;
  m.placed.add(number);
  if (!m.news.free.some(({ key }) => key === "goal:check")) m.free.push(goal("check"));
  otherTold(m, {
    family: "device",
    id: "breaker",
    said: number.value.said,
    pieces: [],
    sentence: number.sentence,
    slots: { rating: [{ ...number.value, sense: { is: "quantity", n: number.value.sense.n, unit: "A" } }] },
  });
}
