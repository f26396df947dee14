/** Working space in front of a panel: depth, width, height, the way in, and the space kept for the panel. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Judgement } from "../../parts/verdict.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Finding, judge } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

type Length = NonNullable<PanelRequest["depth"]>;

export function workingSpace(w: Worksheet, r: PanelRequest): Finding {
  w.part("Space");
  const { depth, metric } = depthOf(w, r);
  w.figure("working-depth", depth, "depth of working space");
  const width = largerOf(w, "width of working space", "in", w.constant<"in">("working-space-width"), r.equipmentWidth);
  w.figure("working-width", width, "width of working space");
  const height = largerOf(
    w,
    "height of working space",
    "ft",
    w.constant<"ft">("working-space-height"),
    r.equipmentHeight,
  );
  w.figure("working-height", height, "height of working space");
  w.enter("depth in front", depth);
  w.enter("width in front", width);
  w.enter("height in front", height);
  around(w, r);
  return {
    says: w.say`clear working space: ${depth} deep, ${width} wide, ${height} high, doors opening 90°`,
    judged: [
      // Metres are held against the metric depth that stands beside the other in print, a little less.
      ...judgeLeast(w, "depth", r.depth?.unit === "m" ? metric() : depth, r.depth),
      ...judgeLeast(w, "width", width, r.width),
      ...judgeHeight(w, height, r),
    ],
  };
}

type Depth = { depth: Known<"ft">; metric: () => Known<"m"> };

/** By the voltage to ground and what stands opposite, which makes no difference up to the first row. */
function depthOf(w: Worksheet, r: PanelRequest): Depth {
  const toGround = voltageToGround(w, r);
  const columns = ["nothing live or grounded", "grounded surface", "live parts"] as const;
  const column = (facing: typeof columns[number]) => `${facing} opposite`;
  if (r.facing === undefined) {
    const all = w.scratch(() =>
      columns.map((each) => w.value(w.lookUp<"ft">("depth", "working-space-depth", column(each), toGround)))
    );
    if (new Set(all.map((value) => JSON.stringify(value))).size > 1) {
      throw need(
        "facing",
        "What stands opposite the panel: nothing live or grounded, a grounded surface (concrete, brick, tile, metal), or live parts?",
        "concrete wall opposite",
      );
    }
  }
  const facing = r.facing ?? "live parts";
  if (r.facing) w.given("opposite the panel", r.facing);
  return {
    depth: w.lookUp<"ft">("depth of working space", "working-space-depth", column(facing), toGround),
    metric: () =>
      w.lookUp<"m">(
        "depth of working space, as printed in metres",
        "working-space-depth",
        `${column(facing)}, metric`,
        toGround,
      ),
  };
}

/** What a line has to ground: told, by the system's name, or half of a dwelling's voltage. */
function voltageToGround(w: Worksheet, r: PanelRequest): Known<"V"> {
  if (r.toGround) return w.given("voltage to ground", asQuantity(r.toGround));
  if (r.volts === undefined) return w.assume<"V">("panel-voltage-to-ground");
  const { value } = r.volts;
  const volts = w.given("voltage", asQuantity(r.volts));
  if (value === 120) return volts;
  if (value === 208) {
    w.suppose("system", "208Y/120 V, neutral grounded", "208 V nearly always is", "208 V to ground");
    return w.assume<"V">("panel-voltage-to-ground");
  }
  if (value === 240 && r.phases !== 3) {
    w.suppose("system", "120/240 V, neutral grounded at its middle", "240 V single phase mostly is", "240 V to ground");
    return w.work("voltage to ground", "V", calc`${volts} ÷ 2`);
  }
  // A grounded neutral or none: where both stand in one row of the table it makes no difference.
  const depthAt = (toGround: Known<"V">) =>
    JSON.stringify(w.value(w.lookUp<"ft">("depth", "working-space-depth", "live parts opposite", toGround)));
  const isOneRow = w.scratch(() =>
    depthAt(volts) === depthAt(w.work("voltage to a grounded neutral", "V", calc`${volts} ÷ sqrt(${three(w)})`))
  );
  if (isOneRow) {
    const because = "with a grounded neutral it is less, and in the same row of the table";
    w.suppose("voltage to ground", w.say`${volts}`, because, "277 V to ground");
    return volts;
  }
  throw need(
    "toGround",
    `What is the voltage to ground of that ${value} V supply: with a grounded neutral as 480Y/277 V, or that of the lines where nothing or a corner is grounded?`,
    value === 480 ? "277 V to ground" : value === 208 ? "120 V to ground" : `${value} V to ground`,
  );
}

const three = (w: Worksheet): Known<"1"> => w.given("phases of the system", { n: "3", unit: "1" });

/** The least, or the equipment's own where that is more. */
function largerOf<U extends "in" | "ft">(
  w: Worksheet,
  name: string,
  unit: U,
  least: Known<U>,
  told: Length | undefined,
): Known<U> {
  if (!told) return least;
  const own = w.given(`${name.split(" ")[0]} of the equipment`, asQuantity(told));
  return w.work(name, unit, calc`max(${least}, ${own})`, "working-space");
}

function judgeLeast(w: Worksheet, what: string, least: Known, told: Length | undefined): Judgement[] {
  if (!told) return [];
  const found = w.given(`${what} there is`, asQuantity(told));
  const [yes, no] = [w.say`${found} of ${what} is enough`, w.say`${found} of ${what} is less than ${least}`];
  return w.choose(
    `enough ${what}`,
    [found, "≥", least],
    ["yes", () => [judge(what, "ok", yes)]],
    ["no", () => [judge(what, "not ok", no)]],
    "working-space",
  );
}

/** Headroom: a panel of an existing dwelling may have less, up to a rating. */
function judgeHeight(w: Worksheet, least: Known<"ft">, r: PanelRequest): Judgement[] {
  const judged = judgeLeast(w, "height", least, r.height);
  if (!r.existing || r.dwelling === false || judged.every(({ is }) => is !== "not ok")) return judged;
  const limit = w.constant<"A">("working-space-dwelling-exception");
  const mayBe = (): Judgement[] => {
    const [panel, rated] = [r.dwelling ? "its panel" : "it is a dwelling's panel", w.say`rated ${limit} or less`];
    if (r.dwelling && r.rating) return [judge("height", "ok", w.say`${LESS} up to ${limit}`)];
    const condition = r.rating ? panel : r.dwelling ? `${panel} is ${rated}` : `${panel}, ${rated}`;
    return [judge("height", "ok if", `${condition}: ${LESS}`)];
  };
  if (!r.rating) return mayBe();
  const rating = w.given("rating of the panel", asQuantity(r.rating));
  return w.choose(
    "may have less headroom",
    [rating, "≤", limit],
    ["yes", mayBe],
    ["no", () => judged],
    "working-space",
  );
}
const LESS = "an existing dwelling's panel may have less headroom";

/** The way in, the space above, what may stand out. */
function around(w: Worksheet, r: PanelRequest): void {
  const [out, above] = [w.constant("working-space-projection"), w.constant("dedicated-space-height")];
  const entrance = w.constant("working-space-entrance-width");
  w.enter("free above", above);
  w.caution(
    w.say`Keep ${above} above the panel, or to the ceiling, free of foreign pipes and ducts.`,
    "dedicated-space",
  );
  w.caution(w.say`No storage in it; other gear may stand out ${out} at most.`, "working-space");
  if (r.rating) {
    const rating = w.given("rating of the equipment", asQuantity(r.rating));
    const [large, wide] = [
      w.constant("working-space-two-entrances-rating"),
      w.constant("working-space-two-entrances-width"),
    ];
    if (w.holds(rating, "≥", large)) {
      w.caution(
        w.say`From ${large}, and above ${wide} wide: an entrance at each end, ${entrance} wide each.`,
        "working-space-entrance",
      );
    }
  }
  const limit = w.constant("working-space-dwelling-exception");
  if (r.dwelling && r.existing) {
    w.caution(w.say`An existing dwelling's panel up to ${limit} may stand under less headroom.`, "working-space");
  }
}
