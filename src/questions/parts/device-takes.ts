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
  if (value?.sense.is === "number") return { value: t.number(device, "rating")!, unit: "A" };
  return t.figure(device, "rating", "A");
}
