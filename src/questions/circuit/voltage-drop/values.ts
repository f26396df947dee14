/** Values of the facts as a request on a voltage drop holds them. */
import type { Said, Value } from "../../../reading/facts.ts";

/** A figure; one without its unit is amperes. */
export const figureOf = (value: Value | undefined): Said | undefined =>
  value?.sense.is === "quantity"
    ? { value: value.sense.exact ?? value.sense.n, unit: value.sense.unit }
    : value?.sense.is === "number"
    ? { value: value.sense.exact ?? value.sense.n, unit: "A" }
    : undefined;
export const spoken = ({ value, unit }: Said): string => `${value} ${unit}`;
export const distinct = (
  list: readonly Said[],
): Said[] => [...new Map(list.map((each) => [spoken(each), each])).values()];

export const sizeOf = (value: Value | undefined): string | undefined => {
  const sense = value?.sense;
  return sense?.is === "size" || sense?.is === "cable"
    ? sense.size
    : sense?.is === "sizes"
    ? sense.sizes[0]
    : undefined;
};
