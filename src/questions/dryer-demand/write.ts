import type { DryerRequest } from "./question.ts";

/** The request as it would be typed. */
export const write = ({ dryers = [], supply }: DryerRequest): string =>
  [
    "dryer demand:",
    dryers.map(({ count, rating }) => `${count} dryers${rating ? ` ${rating.value} ${rating.unit} each` : ""}`).join(
      ", ",
    ),
  ]
    .join(" ") + (supply ? `, ${supply} supply` : "");
