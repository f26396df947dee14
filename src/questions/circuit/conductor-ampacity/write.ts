import { writeWiring } from "../../parts/wiring.ts";
import type { AmpacityRequest } from "./request.ts";

/** The request as it would be typed. */
export const write = ({ size, sets, breaker, load, ...wiring }: AmpacityRequest): string =>
  [
    size === undefined ? "ampacity" : `ampacity of ${size}`,
    sets && `${sets} parallel sets`,
    ...writeWiring(wiring),
    breaker && `on a ${breaker.value} A breaker`,
    load && `carrying ${load.value} A`,
  ].filter(Boolean).join(", ");
