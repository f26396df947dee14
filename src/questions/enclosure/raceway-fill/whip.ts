/** Flexible conduit of 3/8 in: a whip, whose conductors a table of its own counts, and no raceway to be chosen. */
import { calc } from "../../../core/formula.ts";
import { NotCovered } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { isLarger } from "../../../rules/grounding.ts";
import { ledBy } from "../../parts/verdict.ts";
import { groupIn } from "./areas.ts";
import type { Conductor, FillRequest, Raceway } from "./request.ts";

/** The trade size below which no raceway is listed, but for flexible conduit at the uses its article names. */
export const WHIP = "3/8";
const TABLE = "flexible-conduit-conductors";
const FITTINGS = ["inside", "outside"] as const;

/** Judges or counts what lies in a 3/8 in whip. */
export function whip(w: Worksheet, r: FillRequest, raceway: Raceway): Told {
  const conductors = r.conductors ?? [];
  if (conductors.length === 0 || r.cables?.length) {
    throw new NotCovered(`${w.cite(TABLE).section} counts insulated conductors and no cables`, w.edition.id);
  }
  w.part("Count");
  const [largest, ...others] = [...conductors].sort((a, b) => isLarger(w, sized(w, a), sized(w, b)) ? -1 : 1);
  const size = w.given("size, the largest counting for all", largest!.size);
  // Liquidtight conduit has its fittings outside; of flexible metal conduit both are made.
  const places = raceway === "LFMC" ? FITTINGS.slice(1) : FITTINGS;
  const most = places.map((place) => mostOf(w, r, [largest!, ...others], size, place));
  w.figure("raceway-size", w.given("trade size", `${WHIP} in`));
  const where = `${WHIP} in ${raceway}`;
  const answer = r.find ? count(w, r, most, where) : ledBy(judge(w, conductors, most, where));
  w.caution(
    `${WHIP} in only at the uses named there: whips of up to 6 ft, manufactured wiring and the like.`,
    "raceway-smallest-flexible",
  );
  return answer;
}

const sized = (w: Worksheet, { size }: Conductor): Known<"size"> => w.given("size", size);

/** As many as the table allows with fittings in one place, of the thickest insulation among them. */
function mostOf(
  w: Worksheet,
  r: FillRequest,
  conductors: readonly Conductor[],
  size: Known<"size">,
  place: typeof FITTINGS[number],
): Known<"1"> {
  const groups = conductors.map((one) => groupIn(w, r, one));
  if (groups.includes("RHW")) {
    throw new NotCovered(`${w.cite(TABLE).section} has no insulation of the RHW family`, w.edition.id);
  }
  const group = groups.every((each) => each === "THHN") ? "THHN" : "XHHW";
  const column = `${group}, fittings ${place}`;
  if (!w.has(TABLE, column, size)) return w.given("none of this size is listed", { n: "0", unit: "1" });
  return w.lookUp<"1">(`most of them, fittings ${place} the conduit`, TABLE, column, size);
}

/** How many of the open size, beside the others; one equipment ground does not count. */
function count(w: Worksheet, r: FillRequest, most: readonly Known<"1">[], where: string): Told {
  const conductors = r.conductors!;
  const open = conductors.find(({ count }) => count === undefined)!;
  const taken = counted(w, conductors.filter((one) => one !== open));
  const left = most.map((each) => w.work("left of them", "1", calc`max(0, ${each} − ${taken})`, TABLE));
  w.figure("most-conductors", left[0]!, "most conductors");
  const what = String(open.size);
  const outside = left[1] ? w.say` (${left[1]} with the fittings outside)` : "";
  return { headline: w.say`At most ${left[0]!} × ${what} in ${where}${outside}, one ground of that size beside them.` };
}

/** Insulated conductors that count: one equipment ground is free. */
function counted(w: Worksheet, conductors: readonly Conductor[]): Known<"1"> {
  const sum = (of: readonly Conductor[]) => of.reduce((all, { count = 1 }) => all + count, 0);
  const grounds = sum(conductors.filter(({ ground }) => ground));
  const n = sum(conductors) - Math.min(grounds, 1);
  return w.given("conductors that count, one ground being free", { n: String(n), unit: "1" });
}

function judge(w: Worksheet, conductors: readonly Conductor[], most: readonly Known<"1">[], where: string): Reasoned {
  const told = counted(w, conductors);
  const [inside, outside] = most;
  const is = w.choose<"ok" | "ok if" | "not ok">(
    "do they fit",
    [told, "≤", inside!],
    ["yes", () => "ok"],
    ["no", () => outside && w.holds(told, "≤", outside) ? "ok if" : "not ok"],
    TABLE,
  );
  const because = w.say`${told} in ${where}, ${(is === "ok" ? inside : most.at(-1))!} being the most there`;
  return { is, because: is === "ok if" ? w.say`its fittings are outside the conduit: ${because}` : because };
}
