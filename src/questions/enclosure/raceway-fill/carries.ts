/** What conductors that lie together in the raceway then carry: more than three of them carry less. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { ratingOfConductor, wiringOf } from "../../../rules/conditions.ts";
import { ampacityOf, NOT_FOR_POWER, sizesIn } from "../../../rules/conductors.ts";
import type { Conductor, FillRequest } from "./request.ts";

const TITLE = "What they then carry";

/** The headline's words on it; nothing where no adjustment is needed, and nothing was told of the air. */
export function tellCarrying(w: Worksheet, r: FillRequest, count: number): string {
  const lines = (r.conductors ?? []).filter(({ ground, size }) => !ground && !NOT_FOR_POWER.includes(size));
  if (lines.length === 0) return "";
  const all = r.carrying ?? count;
  const longest = w.scratch(() => w.measure(w.constant("nipple-longest")));
  if (r.nipple && longest) {
    if (all > 3) w.caution("A nipple needs no adjustment for the number of its conductors.", "raceway-nipple");
    if (r.ambient === undefined) return "";
  }
  const isFree = r.nipple === true || carriesInFull(w, r, all);
  if (!isFree && all <= UNADJUSTED && r.ambient === undefined) return "";
  w.part(TITLE);
  if (r.carrying === undefined && !r.nipple && all > UNADJUSTED) {
    w.suppose(
      "current-carrying conductors",
      `${all} of them`,
      "all but the equipment grounds were taken to carry current",
      `${Math.max(all - 1, 1)} current-carrying conductors`,
      "count-adjustment",
    );
  }
  const order = sizesIn(w, "conductor-properties");
  const bySize = [...new Map(lines.map((one) => [`${one.size} ${one.insulation}`, one])).values()]
    .sort((a, b) => order.indexOf(a.size) - order.indexOf(b.size));
  const told = bySize.map((one, i) => carried(w, r, one, isFree ? Math.min(all, UNADJUSTED) : all, i === 0));
  return `; ${told.join(", ")}`;
}

/** In metal wireways and gutters up to thirty need no adjustment. */
function carriesInFull(w: Worksheet, { wireway }: FillRequest, all: number): boolean {
  if (!wireway || wireway.nonmetallic) return false;
  const most = w.constant<"1">("wireway-unadjusted-conductors");
  return w.choose<boolean>(
    "do they carry in full",
    [w.given("current-carrying conductors together", { n: String(all), unit: "1" }), "≤", most],
    ["yes, so many need no adjustment in metal", () => true],
    ["no, all of them are adjusted for", () => false],
    wireway.is === "wireway" ? "wireway-adjustment" : "gutter-adjustment",
  );
}
/** The table of ampacities holds for so many. */
const UNADJUSTED = 3;

function carried(w: Worksheet, r: FillRequest, one: Conductor, all: number, isFirst: boolean): string {
  const material = r.material ?? "copper";
  // The same that its dimensions were taken for.
  const insulation = one.insulation ?? r.insulation ?? (material === "aluminum" ? "XHHW" : "THHN");
  const said = {
    material,
    method: "conductors in conduit" as const,
    conductors: all,
    insulation,
    ...(r.terminals && { terminals: r.terminals }),
    ...(r.ambient && { ambient: r.ambient }),
  };
  const size = w.given(`conductor ${one.size}`, one.size);
  const wires = wiringOf(w, said, ratingOfConductor(w, size, said));
  const ampacity = ampacityOf(w, size, wires);
  const carries = r.terminals ? ampacity.ampacity : ampacity.corrected;
  if (isFirst) {
    w.figure(
      "adjustment-factor",
      w.work("adjustment factor", "1", calc`1 × ${ampacity.adjustment}`, "count-adjustment"),
    );
    w.figure("ampacity", carries, `ampacity of ${one.size} here`);
  }
  return w.say`${one.size} then carries ${carries as Known}`;
}
