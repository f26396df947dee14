/** Wireways and auxiliary gutters: a fifth of the inside may be filled, by area alone, and up to thirty wires carry in full in metal. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { printValue } from "../../../core/print.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy } from "../../parts/verdict.ts";
import { areaOf, type Filling, filling } from "./areas.ts";
import { withCarrying } from "./carries.ts";
import type { FillRequest, Wireway } from "./request.ts";

const SIZES = "wireway-sizes";
const INSIDE = "inside area";

/** Judges what lies in a wireway, counts how many more do, or chooses the smallest square one. */
export function wireway(w: Worksheet, r: FillRequest, of: Wireway): Told {
  w.given("raceway", nameOf(of));
  const answer = r.find ? howMany(w, r, of) : of.width ? check(w, r, of) : smallest(w, r, of);
  const splices = w.constant<"%">("wireway-splices");
  w.caution(
    w.say`With splices and taps no more than ${splices} of the inside at their place.`,
    clauseOf(of, "splices"),
  );
  w.caution(
    "Where wires of 4 AWG and larger turn or are pulled through, the bending and pull-box distances decide its sides.",
    clauseOf(of, "deflected"),
  );
  w.suggest("nonmetallic wireway", "8 x 8 in wireway");
  return answer;
}

const nameOf = ({ is, nonmetallic }: Wireway): string => `${nonmetallic ? "nonmetallic" : "metal"} ${is}`;
const familyOf = ({ is }: Wireway): string => is === "wireway" ? "wireway" : "gutter";
const clauseOf = (of: Wireway, rule: "splices" | "deflected"): string => `${familyOf(of)}-${rule}`;
const fillClause = (of: Wireway): string => `${familyOf(of)}-fill${of.nonmetallic ? "-nonmetallic" : ""}`;

type Inside = { area: Known<"in2">; allowed: Known<"in2">; words: string };
function insideOf(w: Worksheet, of: Wireway): Inside {
  const { width, height = width } = of;
  if (!width || !height) throw need("wireway", `What are the inside measures of the ${of.is}?`, "6 x 6 in wireway");
  w.part("Wireway");
  const across = w.given("inside width", asQuantity(width));
  const high = w.given("inside height", asQuantity(height));
  const area = w.work("inside area", "in2", calc`${across} × ${high}`);
  return { area, allowed: allowedOf(w, of, area), words: `${width.value} x ${height.value} in ${of.is}` };
}
const allowedOf = (w: Worksheet, of: Wireway, area: Known<"in2">): Known<"in2"> =>
  w.work("area that may be filled", "in2", calc`${area} × ${w.constant<"%">("wireway-fill")}`, fillClause(of));

const exactly = (w: Worksheet, value: Known): string => printValue(w.value(value));

function tell(w: Worksheet, of: Wireway, { area, allowed }: Inside, { total }: Filling): Known<"%"> {
  w.figure("fill-area", total);
  const fill = w.work("part filled", "%", calc`${total} ÷ ${area}`, fillClause(of));
  w.figure("fill", fill);
  w.figure("allowed-fill", w.constant<"%">("wireway-fill"), "part that may be filled");
  w.figure("allowed-area", allowed);
  return fill;
}

function check(w: Worksheet, r: FillRequest, of: Wireway): Told {
  const inside = insideOf(w, of);
  w.part("Conductors");
  const lies = filling(w, r);
  w.part("Fill");
  const fill = tell(w, of, inside, lies);
  const numbers = w.say`${exactly(w, lies.total)} of ${
    exactly(w, inside.allowed)
  } allowed in the ${inside.words}, ${fill} filled`;
  const fits = w.choose<boolean>(
    "do they fit",
    [lies.total, "≤", inside.allowed],
    ["yes", () => true],
    ["no", () => false],
    fillClause(of),
  );
  if (!fits) {
    const larger = w.ifCovered(() => squareFor(w, of, lies));
    return ledBy(
      { is: "not ok", because: numbers },
      larger ? `Smallest square one: ${w.word(larger)}.` : "No common square one is large enough.",
    );
  }
  const said = ledBy({ is: "ok", because: numbers });
  return { ...said, headline: withCarrying(w, r, said.headline) };
}

/** The smallest square that is commonly made whose fifth holds them. */
function squareFor(w: Worksheet, of: Wireway, { total }: Filling): Known<"word"> {
  const inside = w.work(
    "least inside area",
    "in2",
    calc`${total} ÷ ${w.constant<"%">("wireway-fill")}`,
    fillClause(of),
  );
  return w.atLeast<"word">("square size", SIZES, INSIDE, inside);
}

function smallest(w: Worksheet, r: FillRequest, of: Wireway): Told {
  w.part("Conductors");
  const lies = filling(w, r);
  w.part("Wireway");
  const size = squareFor(w, of, lies);
  w.figure("raceway-size", size, `${of.is}, nominal sides`);
  const area = w.lookUp<"in2">("its inside area", SIZES, INSIDE, size);
  w.part("Fill");
  const inside = { area, allowed: allowedOf(w, of, area), words: "" };
  const fill = tell(w, of, inside, lies);
  const words = w.say`${size} ${of.is}: ${exactly(w, lies.total)} of ${
    exactly(w, inside.allowed)
  } allowed, ${fill} filled.`;
  w.caution("Its sides are taken as nominal; what is inside is the maker's to say.", fillClause(of));
  return { headline: withCarrying(w, r, words) };
}

/** By area alone: the note that rounds a count up is of round raceways. */
function howMany(w: Worksheet, r: FillRequest, of: Wireway): Told {
  const inside = insideOf(w, of);
  const one = r.conductors!.find(({ count }) => count === undefined)!;
  const others = r.conductors!.filter((each) => each !== one);
  const isAlone = others.length === 0 && !r.cables?.length;
  w.part("Count");
  const each = areaOf(w, r, one);
  const taken = isAlone ? undefined : filling(w, { ...r, conductors: others }).total;
  const most = taken
    ? w.work("that many more", "1", calc`max(0, roundDown((${inside.allowed} − ${taken}) ÷ ${each}))`, fillClause(of))
    : w.work("that many", "1", calc`roundDown(${inside.allowed} ÷ ${each})`, fillClause(of));
  w.figure("most-conductors", most, `most ${one.size} conductors`);
  const n = Number(w.measure(most).n.valueOf());
  const what = `${one.size} ${one.insulation ?? r.insulation ?? ""}`.trim();
  const where = `the ${inside.words}${isAlone ? "" : " beside the others"}`;
  if (n < 1) return { headline: `None: no ${what} fits in ${where}.` };
  w.part("Fill");
  const full: FillRequest = { ...r, conductors: [...others, { ...one, count: n }] };
  const fill = tell(w, of, inside, filling(w, full));
  return { headline: withCarrying(w, full, w.say`At most ${most} × ${what} in ${where}, ${fill} filled.`) };
}
