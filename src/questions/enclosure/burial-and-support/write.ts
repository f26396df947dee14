import type { LayingRequest } from "./request.ts";

const PLACES: Readonly<Record<NonNullable<LayingRequest["location"]>, string>> = {
  elsewhere: "under the lawn",
  "under 2 in of concrete in the trench": "under 2 inches of concrete in the trench",
  "under a building": "under a building",
  "under a concrete slab without vehicles": "under a concrete slab",
  "under a street or parking lot": "under a street",
  "under a dwelling's driveway": "under the driveway of a house",
  "under a runway": "under a runway",
};

/** The request as it would be typed. */
export const write = ({ find, method, size, location, circuit, told }: LayingRequest): string =>
  [
    find === "supports" ? "support spacing" : "burial depth",
    [size && `${size} in`, method].filter(Boolean).join(" "),
    location && PLACES[location],
    circuit === "low voltage" ? "12 V lighting" : circuit && "20 A 120 V GFCI circuit",
    told && `${find === "supports" ? "supports every" : "cover of"} ${told.value} ${told.unit}, ok?`,
  ].filter((part) => part).join(", ");
