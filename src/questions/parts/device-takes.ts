/** What a breaker or fuse was told to be rated at. */
import type { Fact, Said } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";

/** Its amperes, from `60`, `60 A` or, with its poles, `60/3`; undefined where no rating was told. */
export function deviceRating(t: Taker, device: Fact): Said | undefined {
  const value = device.slots.rating?.[0];
  // `60/3`: three poles of 60 A.
  if (value?.sense.is === "pair") {
    const { a, b, unit } = value.sense;
    if (unit !== undefined || b > 3) return undefined;
    t.use(value, "rating");
    return { value: a, unit: "A" };
  }
  return ratingOf(t, device);
}

/** The same without its poles. */
export const ratingOf = (t: Taker, device: Fact): Said | undefined =>
  bareAmperes(t, device, "rating") ?? t.figure(device, "rating", "A");

/** A slot's bare number, where only amperes can be meant. */
export function bareAmperes(t: Taker, fact: Fact, slot: string): Said | undefined {
  if (fact.slots[slot]?.[0]?.sense.is !== "number") return undefined;
  return { value: t.number(fact, slot)!, unit: "A" };
}
