/** A farm: each building by its bands, all of them in order of size, the dwelling added, on to the service or feeder. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { conductorsInWords, serve, SERVICE_FIGURES, tellPutUp } from "../../parts/load-service.ts";
import { question } from "../../question.ts";
import { buildingDemand, type Demand, powerOf } from "./building.ts";
import { type Building, type FarmRequest, input } from "./request.ts";
import { atSupply, type FarmSupply, powerAt, supplyOf } from "./supply.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "farm-load",
  title: "Load of a farm",
  about: "Farm buildings by the bands of their load, the whole farm with its dwelling, on to the service or feeder.",
  input,
  figures: {
    "connected-load": "connected load",
    "calculated-load": "calculated load",
    "calculated-current": "calculated current",
    "farm-current": "current of the farm without its dwelling",
    "neutral-current": "neutral current",
    ...SERVICE_FIGURES,
  },
  examples: [
    "farm: barn 150 A of load, 80 A run together, what feeder?",
    "farm service: barn 100 A, shop 60 A, grain dryer 80 A, house 120 A",
    "dairy farm, milking parlor 90 A with a 10 hp pump as the largest motor, is 100 A enough?",
  ],
  manner: { traits: ["service"] },
  takes,
  minds: ["building"],
  write,
  answer(r, w) {
    if (!r.buildings?.length) {
      throw need(
        "buildings",
        "Which buildings are there, and what load is connected in each?",
        "barn 100 A; shop 60 A",
      );
    }
    const supply = supplyOf(w, r);
    const demands = demandsOf(w, r, supply);
    const connected = w.work("all that is connected", "A", calc`sum(${demands.map(({ connected }) => connected)})`);
    w.figure("connected-load", powerAt(w, "connected load", connected, supply), "connected load");
    const farm = total(w, demands);
    const current = atSupply(w, "farm's current at its supply", farm, supply);
    const load = powerAt(w, "load of the farm", farm, supply);
    if (r.dwelling) w.figure("farm-current", current, "current of the farm without its dwelling");
    const whole = r.dwelling ? withDwelling(w, r.dwelling, { current, load }, supply) : { current, load };
    w.figure("calculated-load", whole.load, "calculated load");
    w.figure("calculated-current", whole.current, "calculated current");
    if (supply.system.lineToNeutral) w.figure("neutral-current", whole.current, "neutral current");
    return service(w, r, { demands, supply, ...whole });
  },
});

const nameOf = ({ name }: Building, i: number, all: readonly Building[]): string =>
  name ?? (all.length === 1 ? "farm building" : `building ${i + 1}`);

/** One after the other; what is like another stands once for each. */
function demandsOf(
  w: Worksheet,
  { buildings = [], asCalculated = false }: FarmRequest,
  supply: FarmSupply,
): Demand[] {
  return buildings.flatMap((building, i) => {
    const name = nameOf(building, i, buildings);
    w.part(name[0]!.toUpperCase() + name.slice(1));
    const demand = buildingDemand(w, building, name, supply, asCalculated);
    if (demand.atMost) {
      w.suppose(
        `${name}, at one time`,
        "no more than the first band",
        w.say`nothing was told of how much runs at one time; if all of it does, it is ${demand.atMost}`,
        `${name} 80 A run together`,
        "farm-building",
      );
    }
    return Array.from({ length: building.count }, () => demand);
  });
}

/** The largest in full, the next ones at less and less. */
function total(w: Worksheet, demands: readonly Demand[]): Known<"A"> {
  if (demands.length === 1) return demands[0]!.demand;
  w.part("Whole farm");
  const inOrder = demands.toSorted((a, b) =>
    w.holds(a.demand, ">", b.demand) ? -1 : w.holds(a.demand, "<", b.demand) ? 1 : 0
  );
  const parts = inOrder.map(({ name, demand }, i) => {
    const place = w.given("place in order of size", { n: String(i + 1), unit: "1" });
    const share = w.lookUp<"%">("counts at", "farm-total-demand", "demand", place);
    return w.work(`${name} in the whole`, "A", calc`${demand} × ${share}`, "farm-total");
  });
  return w.work("farm without its dwelling", "A", calc`sum(${parts})`, "farm-total");
}

type Carried = { current: Known<"A">; load: Known<"VA"> };
/** The dwelling stands between two of the lines, and in full on the heaviest. */
function withDwelling(
  w: Worksheet,
  told: NonNullable<FarmRequest["dwelling"]>,
  farm: Carried,
  { system: { lineToLine, lineToNeutral } }: FarmSupply,
): Carried {
  w.part("Dwelling");
  const isDirect = lineToNeutral && w.scratch(() => w.holds(lineToNeutral, "≤", w.constant("branch-circuit-voltage")));
  if (told.unit === "A" && !isDirect) {
    throw need(
      "dwelling",
      w.say`The dwelling is on a transformer of the ${lineToLine} supply: how many kVA does it come to?`,
      "house 24 kVA",
    );
  }
  const own = told.unit === "A"
    ? w.given("load of the dwelling", asQuantity(told))
    : w.work("load of the dwelling, amperes", "A", calc`${powerOf(w, "load of the dwelling", told)} ÷ ${lineToLine}`);
  w.caution(
    "With electric heat in the dwelling and electric grain drying on the farm, the dwelling's load is by the standard method.",
    "farm-total",
  );
  return {
    current: w.work("farm with its dwelling", "A", calc`${farm.current} + ${own}`, "farm-total"),
    load: w.work("load of the farm with its dwelling", "VA", calc`${farm.load} + ${own} × ${lineToLine}`, "farm-total"),
  };
}

type Found = Carried & { demands: readonly Demand[]; supply: FarmSupply };
function service(w: Worksheet, r: FarmRequest, { demands, load, current, supply: { system } }: Found): Told {
  const isFeeder = r.panel === "after the service disconnect";
  const [only] = demands;
  const what = demands.length === 1 && !r.dwelling ? only!.name : `farm${r.dwelling ? " with its dwelling" : ""}`;
  const atMost = demands.find((each) => each.atMost)?.atMost;
  const unless = atMost
    ? demands.length === 1 && !r.dwelling
      ? w.say` (if all of it runs at one time: ${atMost})`
      : " (if no more than the first band of each runs at one time)"
    : "";
  const served = serve(w, r, {
    current,
    ...(!isFeeder && { least: w.constant<"A">("other-minimum-service") }),
    // What stands between the lines and the neutral is not known: it may be all of it.
    ...(system.lineToNeutral && { neutral: current, hasNeutral: true }),
    because: w.say`the ${what} comes to ${current}${unless}`,
  });
  if (system.shape === "high leg") {
    w.caution("The high leg is marked orange and stands well above the lighting voltage: no lamp or plug on it.");
  }
  w.caution(
    "Animals, damp, dust: wiring and bonding by the rules for agricultural buildings.",
    "agricultural-buildings",
  );
  const conductors = `${conductorsInWords(w, served)}.`;
  w.suggest(served.material === "copper" ? "use aluminum" : "use copper", isFeeder ? "as a service" : "as a feeder");
  return tellPutUp(w, served, conductors) ?? {
    headline: w.say`${served.rating} ${served.what}${
      served.isLeast ? " (the least there is)" : ""
    } for the ${what}: ${current}${unless}, ${load}. ${conductors}`,
  };
}
