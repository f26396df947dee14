/** Whether a text asks how large a raceway has to be for conductors that it tells. */
import type { Taker } from "../../reading/take.ts";

/** `what size emt`, `PVC size`, `smallest pipe`: a size that is asked for right beside the raceway, or in one word. */
export function asksRacewaySize(t: Taker): boolean {
  const places = (isOf: (key: string) => boolean) =>
    t.facts.free.filter(({ key }) => isOf(key)).flatMap(({ value: { pieces } }) => pieces);
  const raceways = places((key) => key.startsWith("raceway:"));
  return t.wants("goal:raceway-size") ||
    places((key) => key === "goal:size").some((at) => raceways.some((of) => Math.abs(of - at) === 1));
}
/** `feeder: three 250 kcmil and a #4 ground, smallest pipe?`: all that lies in it is told, and nothing it should carry. */
export const isOfRacewayAlone = (t: Taker): boolean =>
  asksRacewaySize(t) && t.all("conductor").some(({ slots }) => slots.size && slots.count) &&
  t.facts.facts.every(({ slots }) => (slots.rating ?? slots.current ?? slots.draw) === undefined);
