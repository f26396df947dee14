/** A fault to the case: what flows and what the breaker makes of it, judged, and what to mind. */
import { calc } from "../../../core/formula.ts";
import type { Known, Reasoned } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { WayOut } from "./circuit.ts";
import type { PathRequest } from "./request.ts";
import type { Band, Trip } from "./trip.ts";
import { inTime } from "./words.ts";

export type Fault = {
  current: Known<"A">;
  multiple: Known<"1">;
  trip: Trip;
  length: Known<"ft">;
  /** Of the case against ground, until it trips. */
  touch: Known<"V">;
};

/** What becomes of a breaker that is put up. */
export function judge(
  w: Worksheet,
  { breaker }: WayOut,
  { most }: Band,
  { current, multiple, trip, length }: Fault,
): Reasoned {
  const flows = w.say`${current} to the case at ${length}, ${multiple} times the ${breaker} breaker`;
  const time = trip.most && inTime(w, trip.most);
  switch (trip.is) {
    case "at once":
      return { is: "ok", because: w.say`${flows}: trips at once, within ${time!} (sure from ${most} times on)` };
    case "perhaps at once":
      return {
        is: "ok if",
        because: w
          .say`its instantaneous trip is at ${multiple} times or less: ${current} to the case at ${length}, by heat up to ${time!}`,
      };
    default:
      return { is: "not ok", because: `${flows}: ${UNSURE[trip.is] ?? `may take ${time}`}` };
  }
}
const UNSURE: Readonly<Partial<Record<Trip["is"], string>>> = {
  "perhaps never": "may never trip",
  never: "does not trip",
};

export function cautions(
  w: Worksheet,
  r: PathRequest,
  { volts }: WayOut,
  fault: Pick<Fault, "trip"> | undefined,
): void {
  if (r.separate) {
    const part = "If the earth were the path";
    w.part(part);
    w.aside(part);
    const earth = w.constant<"ohm">("rod-resistance-limit");
    const current = w.work("current through the earth alone", "A", calc`${volts} ÷ ${earth}`);
    w.caution(
      w.say`A rod out there is no path: ${volts} over ${earth} drive ${current}, which trips nothing.`,
      "earth-not-a-fault-path",
    );
  }
  if (r.groundFaultProtected) {
    w.caution("A GFCI opens first, at milliamperes; it stands in for no equipment ground, and may fail.", "fault-path");
  }
  if (fault && fault.trip.is !== "at once") {
    w.caution("Shorten the run, enlarge line and ground, or take a breaker of lower instantaneous trip.", "fault-path");
  }
}
