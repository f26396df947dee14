/** What conductors that lie together in the raceway then carry: more than three of them carry less, and no more than their ends. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { ratingOfConductor, wiringOf } from "../../../rules/conditions.ts";
import { type Ampacity, ampacityOf, type Material, NOT_FOR_POWER, sizesIn } from "../../../rules/conductors.ts";
import type { Conductor, FillRequest } from "./request.ts";

const TITLE = "What they then carry";

/** The headline with the words on it at its end. */
export function withCarrying(w: Worksheet, r: FillRequest, headline: string): string {
  const told = tellCarrying(w, r);
  return told === "" ? headline : `${headline.replace(/\.$/, "")}; ${told}.`;
}

/** The words on it; none of what is not made to carry power, or has no ampacity. */
export function tellCarrying(w: Worksheet, r: FillRequest): string {
  const wires = (r.conductors ?? []).filter(({ ground }) => !ground);
  const lines = wires.filter(({ size, bare }) => !bare && !NOT_FOR_POWER.includes(size));
  if (lines.length === 0) return "";
  const all = r.carrying ?? wires.reduce((sum, { count = 1 }) => sum + count, 0);
  if (r.nipple && all > UNADJUSTED) {
    const longest = w.constant<"in">("nipple-longest");
    w.caution(
      w.say`A nipple of no more than ${longest} needs no adjustment for the number of its conductors.`,
      "raceway-nipple",
    );
  }
  const isFree = r.nipple === true || carriesInFull(w, r, all);
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
  const material = r.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
  const together = isFree ? Math.min(all, UNADJUSTED) : all;
  const told = bySize.flatMap((one, i) => carried(w, r, one, material, together, i === 0) ?? []);
  return told.join(", ");
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

function carried(
  w: Worksheet,
  r: FillRequest,
  one: Conductor,
  material: Material,
  all: number,
  isFirst: boolean,
): string | undefined {
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
  const find = (): Ampacity => {
    const size = w.given(`conductor ${one.size}`, one.size);
    return ampacityOf(w, size, wiringOf(w, said, ratingOfConductor(w, size, said)));
  };
  // Heat that was told leaves none to an insulation: that is said. A size that no table carries is left out.
  const ampacity = r.ambient ? find() : w.ifCovered(find);
  if (!ampacity) return undefined;
  const { corrected, terminal, adjustment } = ampacity;
  const carries = r.terminals ? ampacity.ampacity : corrected;
  if (isFirst) {
    if (all > UNADJUSTED) {
      w.figure("adjustment-factor", w.work("adjustment factor", "1", calc`1 × ${adjustment}`, "count-adjustment"));
    }
    w.figure("ampacity", carries, `ampacity of ${one.size} here`);
    if (!r.terminals) w.figure("termination-ampacity", terminal, `what terminations allow ${one.size}`);
  }
  const atEnds = !r.terminals && w.holds(terminal, "<", corrected) ? w.say` (${terminal} at its terminations)` : "";
  return w.say`${one.size} then carries ${carries as Known}${atEnds}`;
}
