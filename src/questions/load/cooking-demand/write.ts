import { writeLoad } from "../../../loads/write.ts";
import { writeSpread } from "../../parts/spreads.ts";
import type { CookingRequest } from "./request.ts";

/** The request as it would be typed. */
export const write = ({ appliances = [], supply, use, method, volts, neutral }: CookingRequest): string =>
  [
    `cooking demand${use === undefined ? "" : use === "branch circuit" ? " on a branch circuit" : " on the feeder"}: ${
      appliances.map(({ spread, ...appliance }) => writeLoad(appliance as never) + writeSpread(spread)).join("; ")
    }`,
    supply ? `${supply} supply` : "",
    method ? `by ${method}` : "",
    volts ? `at ${volts.value} V` : "",
    neutral ? "and the neutral load" : "",
  ].filter((part) => part !== "").join("; ");
