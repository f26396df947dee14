import { writeLoad } from "../../../loads/write.ts";
import { writeSpread } from "../../parts/spreads.ts";
import type { DryerRequest } from "./request.ts";

const ROWS = {
  "all dryers": "by the number of all dryers",
  "twice the most between two phases": "by twice the most between two phases",
} as const;

/** The request as it would be typed. */
export const write = ({ dryers = [], supply, row, neutral }: DryerRequest): string =>
  [
    `dryer demand: ${
      dryers.map(({ spread, ...dryer }) => writeLoad({ kind: "dryer", ...dryer } as never) + writeSpread(spread)).join(
        "; ",
      )
    }`,
    supply ? `${supply} supply` : "",
    row ? ROWS[row] : "",
    neutral ? "and the neutral load" : "",
  ].filter((part) => part !== "").join("; ");
