/** Protection of transformers of 1000 V and less: what a device may be on either side. */
import { calc } from "../core/formula.ts";
import { NotCovered } from "../core/outcome.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { breakerBelow, fuseBelow, nextBreaker } from "./overcurrent.ts";

export const PROTECTIONS = ["primary only", "primary and secondary"] as const;
export type Protection = typeof PROTECTIONS[number];
/** A column of the protection table. */
type Column = "primary only" | "primary with secondary" | "secondary";
/** The percentage itself as a current, and the largest device by it. */
export type Limit = { limit: Known<"A">; device: Known<"A"> };

const ROWS = { large: "9 A or more", small: "2 A to below 9 A", smallest: "below 2 A" } as const;

/** The row of the protection table that a winding's rated current falls in, the test shown. */
function rowOf(w: Worksheet, current: Known<"A">, column: Column): string {
  const small = w.constant<"A">("transformer-small-below");
  const below = () => {
    if (column === "secondary") return ROWS.small;
    const smallest = w.constant<"A">("transformer-smallest-below");
    return w.choose(
      "smallest currents",
      [current, "<", smallest],
      [w.say`below ${smallest}`, () => ROWS.smallest],
      [w.say`${smallest} or more`, () => ROWS.small],
      "transformer-protection",
    );
  };
  return w.choose(
    "rated current of the winding",
    [current, "≥", small],
    [w.say`${small} or more`, () => ROWS.large],
    [w.say`below ${small}`, below],
    "transformer-protection",
  );
}

/**
 * The largest device of a winding. The percentage at the larger currents may go on to the next standard rating where
 * the edition says so; every other percentage is a limit.
 */
export function largestDevice(w: Worksheet, current: Known<"A">, column: Column): Limit {
  const row = rowOf(w, current, column);
  const percent = w.lookUp<"%">("share of the rated current", "transformer-protection", column, row);
  const side = column === "secondary" ? "secondary" : "primary";
  const limit = w.work(`${side} limit`, "A", calc`${current} × ${percent}`, "transformer-protection");
  const roundsUp = row === ROWS.large && column !== "primary with secondary" &&
    w.edition.rule("transformer-next-size-up") === "at 125 percent only";
  const name = `largest ${side} device`;
  return {
    limit,
    device: roundsUp ? nextBreaker(w, limit, `${name}: next standard size up`) : standardBelow(w, current, limit, name),
  };
}

/**
 * The next standard rating down: a breaker, or below the smallest breaker a fuse. Where that would not even carry the
 * rated current the limit itself is told: small fuses are made in more ratings than the standard ones.
 */
function standardBelow(w: Worksheet, current: Known<"A">, limit: Known<"A">, name: string): Known<"A"> {
  const found = w.first([breakerBelow, fuseBelow], (below) => {
    const device = w.ifCovered(() => below(w, limit, `${name}: next standard size down`));
    return device && w.holds(device, "≥", current) ? device : undefined;
  });
  if (found) return found;
  w.caution(
    w.say`No standard device lies between the rated ${current} and ${limit}: small fuses are made in more ratings, at most ${limit} here.`,
    "overcurrent-ratings",
  );
  return limit;
}

/**
 * The primary limit of a transformer whose maker coordinated a thermal overload device with it, by its impedance. It
 * takes the place of the table's primary percentage.
 * @throws NotCovered where the impedance is above what the note reaches.
 */
export function thermalLimit(w: Worksheet, current: Known<"A">, impedance: Known<"%">): Limit {
  const [low, high] = [w.constant("transformer-impedance-low"), w.constant("transformer-impedance-high")];
  if (w.holds(impedance, ">", high)) {
    throw new NotCovered(w.say`the note on thermal protection ends at ${high} impedance`, w.edition.id);
  }
  const times = w.choose(
    "impedance",
    [impedance, "≤", low],
    [w.say`not above ${low}`, () => w.constant<"%">("transformer-thermal-low-impedance")],
    [w.say`above ${low}`, () => w.constant<"%">("transformer-thermal-high-impedance")],
    "transformer-protection",
  );
  const limit = w.work("primary limit", "A", calc`${current} × ${times}`, "transformer-protection");
  return { limit, device: standardBelow(w, current, limit, "largest primary device") };
}
