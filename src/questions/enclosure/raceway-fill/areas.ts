/** What lies in a raceway, its area, and how much of which raceway it may fill. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { groupOf } from "../../../rules/raceways.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Conductor, type FillRequest, type Raceway, RACEWAYS } from "./request.ts";

const number = (w: Worksheet, name: string, n: number): Known<"1"> => w.given(name, { n: String(n), unit: "1" });
/** An insulation in the table, by the group that shares its dimensions. */
export function groupIn(w: Worksheet, r: FillRequest, { insulation = r.insulation }: Conductor): string {
  if (insulation === undefined) {
    w.suppose(
      "insulation",
      r.material === "aluminum" ? "XHHW" : "THHN",
      "none was told; building wire in a raceway is mostly that",
      r.material === "aluminum" ? "THHN" : "XHHW",
      "raceway-fill",
    );
  }
  return groupOf(insulation, r.material ?? "copper");
}
const tableOf = (r: FillRequest): string =>
  r.compact ? "compact-conductor-dimensions" : "insulated-conductor-dimensions";

/** The area of one conductor, as listed. */
export const areaOf = (w: Worksheet, r: FillRequest, one: Conductor): Known<"in2"> => {
  if (one.bare) {
    const name = `area of one bare ${one.size}`;
    return w.lookUp<"in2">(name, "conductor-properties", "overall area", one.size);
  }
  const group = groupIn(w, r, one);
  return w.lookUp<"in2">(
    `area of one ${one.size} ${group}`,
    tableOf(r),
    `${group} area`,
    one.size,
  );
};
/** Its diameter, for the jam ratio. */
export const diameterOf = (w: Worksheet, r: FillRequest, one: Conductor): Known<"in"> => {
  if (one.bare) {
    return w.lookUp<"in">(`diameter of one bare ${one.size.name}`, "conductor-properties", "diameter", one.size);
  }
  const group = groupIn(w, r, one);
  return w.lookUp<"in">(`diameter of one ${one.size.name} ${group}`, tableOf(r), `${group} diameter`, one.size);
};

export type Filling = { total: Known<"in2">; count: number };

/** Everything in the raceway: how many, and their area together. */
export function filling(w: Worksheet, r: FillRequest): Filling {
  let count = 0;
  const areas = (r.conductors ?? []).map((one) => {
    const { size, count: n = 1, ground } = one;
    count += n;
    const what = `${size} ${ground ? "equipment grounds" : "conductors"}`;
    const told = number(w, what, n);
    return w.work(`area of the ${what}`, "in2", calc`${told} × ${areaOf(w, r, one)}`, "raceway-counted");
  });
  for (const { count: n = 1, diameter } of r.cables ?? []) {
    count += n;
    const told = number(w, "cables", n);
    const across = w.given("larger diameter of a cable", asQuantity(diameter));
    const each = w.work(
      "area of a circle of that diameter",
      "in2",
      calc`${w.constant<"1">("circle-constant")} × ${across} × ${across} ÷ (2 × 2)`,
      "raceway-cables",
    );
    areas.push(w.work("area of the cables", "in2", calc`${told} × ${each}`, "raceway-cables"));
  }
  return { total: w.work("conductors together", "in2", calc`sum(${areas})`, "raceway-fill"), count };
}

/** The column of a raceway's table for so many conductors. */
export const columnFor = (r: FillRequest, count: number): string =>
  r.nipple ? "nipple" : count > 2 ? "over two conductors" : count === 2 ? "two conductors" : "one conductor";
/** How much of a raceway so many conductors may fill. */
export const percentFor = (w: Worksheet, r: FillRequest, count: number): Known<"%"> =>
  r.nipple
    ? w.constant<"%">("nipple-fill")
    : w.lookUp<"%">("part that may be filled", "raceway-fill", "fill", number(w, "conductors and cables", count));

/** The area that so many may take of a trade size. */
export const allowed = (w: Worksheet, r: FillRequest, raceway: Raceway, size: string, count: number): Known<"in2"> =>
  w.lookUp<"in2">(`area allowed in ${size} ${raceway}`, RACEWAYS[raceway], columnFor(r, count), `${size} in`);

/** The same exactly, for the note on counts: the listed area is rounded to a thousandth. */
export function exactlyAllowed(
  w: Worksheet,
  r: FillRequest,
  raceway: Raceway,
  size: string,
  count: number,
): Known<"in2"> {
  const whole = w.lookUp<"in2">(`inside of ${size} in ${raceway}`, RACEWAYS[raceway], "total area", `${size} in`);
  const part = percentFor(w, r, count);
  return w.work("area that may be filled", "in2", calc`${whole} × ${part}`, "raceway-fill");
}

/** Trade sizes that a raceway is listed in, small to large. */
export const listedSizes = (w: Worksheet, raceway: Raceway): string[] =>
  w.edition.table(RACEWAYS[raceway]).data.rows.map((row) => String(row[0]).replace(/ in$/, ""));

/** Whether all are of one size and insulation: then the note on counts holds. */
export const isAlike = (r: FillRequest): boolean => {
  const all = (r.conductors ?? []).map(({ size, insulation = r.insulation }) => `${size} ${insulation}`);
  return new Set(all).size + (r.cables ?? []).length === 1;
};

/** So many alike as an area takes, rounded up from eight tenths on. */
export function countIn(w: Worksheet, area: Known<"in2">, each: Known<"in2">): Known<"1"> {
  const from = w.constant<"1">("count-round-up");
  const ratio = w.work("of that area", "1", calc`${area} ÷ ${each}`, "raceway-count");
  return w.work("conductors that count as fitting", "1", calc`roundDown(${ratio} + 1 − ${from})`, "raceway-count");
}
