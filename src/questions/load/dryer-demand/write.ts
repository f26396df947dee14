import { writeLoad } from "../../../loads/write.ts";
import type { DryerRequest } from "./question.ts";

/** The request as it would be typed. */
export const write = ({ dryers = [], supply }: DryerRequest): string =>
  [
    `dryer demand: ${dryers.map((dryer) => writeLoad({ kind: "dryer", ...dryer } as never)).join("; ")}`,
    supply ? `${supply} supply` : "",
  ].filter((part) => part !== "").join("; ");
