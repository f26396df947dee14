/** Whether so many sites of a park or slips of a dock are told that no single circuit is meant. */
import type { Taker } from "../../reading/take.ts";

/** Sections on the load of parks and docks. */
export const PARK_SECTIONS = {
  "551.73": "recreational vehicle park",
  "550.31": "mobile home park",
  "555.12": "marina",
  "555.6": "marina",
  "220.120": "marina",
  "120.120": "marina",
} as const;
/** From how many of them outlets for vehicles are a park's. */
const LEAST_OF_PARK = 4;

export const isOfPark = (t: Taker): boolean =>
  t.all("load", "park-site").length > 0 ||
  t.all("load", "rv-outlet").some(({ slots }) =>
    Number((slots.count?.[0]?.sense as { n?: number } | undefined)?.n ?? 0) >= LEAST_OF_PARK
  ) ||
  t.facts.free.some(({ value: { sense } }) =>
    sense.is === "section" && Object.keys(PARK_SECTIONS).some((section) => sense.section.startsWith(section))
  );
