/** `then 100 ft of 4/0 to a panel`: a run that goes on, stretch by stretch. */
import type { Fact } from "../../reading/facts.ts";
import { classOf, isLine, LENGTH, type Writable } from "./facts.ts";
import type { Merging } from "./state.ts";

const GOES_ON =
  /^\W*(?:(?:and|ok|okay|so|now|plus) +)*(?:then|from (?:there|that)|after (?:that|it)|next|beyond (?:that|it)|on from there|off (?:that|of that)|plus|and)\b/i;

/** Another length of another conductor is the next stretch, and none in the place of the one before. */
export function nextStretch(m: Merging): void {
  if (m.known.kind !== "fault-current" || m.removes || m.instead || !(GOES_ON.test(m.text.asked) || m.adds)) return;
  const [told, ...others] = m.news.facts.filter((fact) => isLine(fact) && fact.slots.size);
  const loose = m.news.free.filter(({ key }) => classOf(key) === LENGTH);
  const length = told?.slots.length ?? (loose.length === 1 ? [loose[0]!.value] : undefined);
  const sized = m.facts.filter((fact) => isLine(fact) && fact.slots.size);
  if (!told || others.length > 0 || !length || sized.length === 0) return;
  if (sized.length === 1) keepWith(m, sized[0]!);
  m.append({ ...told, slots: { ...told.slots, length } });
  m.settled.add(told);
  for (const each of loose) m.placed.add(each);
}
/** What was told beside the only stretch is its own, once there are two. */
function keepWith(m: Merging, only: Writable): void {
  const lengths = m.free.filter(({ key }) => classOf(key) === LENGTH);
  if (!only.slots.length && lengths.length === 1) {
    only.slots.length = [lengths[0]!.value];
    m.free = m.free.filter((each) => each !== lengths[0]);
  }
  const isSets = ({ family, id, slots }: Fact) => family === "circuit" && id === "set" && slots.count !== undefined;
  const set = m.facts.find(isSets);
  if (!set || only.slots.sets) return;
  only.slots.sets = set.slots.count!;
  m.facts.splice(m.facts.indexOf(set), 1);
}
