/** One-family dwelling: both methods side by side, and on to the service. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { workLoads } from "../../../rules/loads.ts";
import { question } from "../../question.ts";
import { generalLighting, lightingCircuits } from "../../../rules/dwelling/area.ts";
import { type InSeason, legsOf, lineCurrent, networkCurrent } from "../../../rules/dwelling/legs.ts";
import { neutralLoad } from "./neutral.ts";
import { type Counted, type Optional, optionalMethod } from "../../../rules/dwelling/optional.ts";
import { type DwellingRequest, input } from "./request.ts";
import { service } from "./service.ts";
import { countedAs, type Season, standardMethod } from "../../../rules/dwelling/standard.ts";
import { lockOut, runTogether, systemOf } from "../../../rules/dwelling/system.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "dwelling-load",
  title: "Dwelling load and service",
  about:
    "One-family dwelling: load by the standard and the optional method, neutral, service or feeder, conductors, grounding.",
  input,
  figures: {
    "standard-method-load": "standard method load",
    "optional-method-load": "optional method load",
    "calculated-load": "calculated load",
    "calculated-current": "calculated current",
    "neutral-load": "neutral load",
    "neutral-current": "neutral current",
    "service-rating": "service rating",
    "ungrounded-conductor": "ungrounded conductor",
    "neutral-conductor": "neutral conductor",
    "parallel-sets": "parallel sets",
    "grounding-electrode-conductor": "grounding electrode conductor",
    "main-bonding-jumper": "main bonding jumper",
    "equipment-grounding-conductor": "equipment grounding conductor",
    "neutral-bond": "neutral bond",
    "spare-current": "spare current",
    "lighting-circuits-15": "least number of 15 A lighting circuits",
    "lighting-circuits-20": "least number of 20 A lighting circuits",
  },
  examples: [
    "2400 sq ft, 12 kW range, 5 kW dryer, 4.5 kW water heater, dishwasher 1.2 kW, disposer 1/2 hp, AC 24 A, 48 A EV charger, what service?",
    "1800 sq ft house, gas heat, gas range, 5 kW dryer, AC 18 A, is a 100 A service enough?",
    "optional method, 3000 sq ft, heat pump 28 A with 10 kW backup heat, 12 kW range, 4.5 kW water heater",
  ],
  takes,
  minds: ["building"],
  write,
  answer(request, w) {
    const network = request.system === "120/208";
    const system = systemOf(w, request.system);
    const lighting = generalLighting(w, request);
    w.part("Loads");
    const loads = workLoads(w, request.loads ?? [], system);
    const lockedOut = lockOut(w, request.compressorLockedOut, loads);
    const standard = standardMethod(w, lighting, loads, lockedOut);
    w.figure("standard-method-load", standard.total);
    const optional = optionalMethod(w, lighting, loads, {
      lockedOut,
      together: runTogether(w, request.compressorLockedOut, loads),
    });
    w.figure("optional-method-load", optional.total);
    const evening = network ? undefined : standard.lighting;
    const legs = legsOf(w, evening, loads, (load) => countedAs(standard, load));
    const addition = standard.lines.motor?.demand;
    const currentBy = {
      standard: once(() =>
        network
          ? networkCurrent(w, standard.total, standard, legs, system)
          : lineCurrent(w, inSeasons(w, standard, standard.seasons), legs, loads, addition, system)
      ),
      optional: once(() =>
        network
          ? networkCurrent(w, optional.total, undefined, legs, system)
          : lineCurrent(w, inSeasons(w, optional, standard.seasons), legs, loads, null, system)
      ),
    };
    const { load, method } = decide(w, request, { standard: standard.total, optional: optional.total }, currentBy);
    // The method that does not decide is worked in full, and shown in short where space is short.
    w.aside(method === "standard" ? "Optional method" : "Standard method", "Lighting circuits");
    w.figure("calculated-load", load, "calculated load");
    const neutral = neutralLoad(w, standard, legs, system, network);
    w.figure("neutral-load", neutral.load);
    w.figure("neutral-current", neutral.current, "neutral current");
    const current = currentBy[method]();
    w.figure("calculated-current", current, "calculated current");
    service(w, request, {
      load,
      current,
      neutral,
      method,
      standard: standard.total,
      optional: optional.total,
      network,
    });
    lightingCircuits(w, lighting.areas);
  },
});

type Decision = { load: Known<"VA">; method: "standard" | "optional" };

/** Heating and cooling seasons of a method, the one that decides first: its load is the method's. */
function inSeasons(
  w: Worksheet,
  { total, seasons: counted }: Pick<Optional, "total" | "seasons">,
  seasons: readonly Season[],
): InSeason[] {
  const of = ({ name }: Counted): Season | undefined => seasons.find((each) => each.name === name);
  w.part("Line current");
  const [one, other] = counted;
  if (!one || !other) return [{ season: one && of(one), load: total }];
  const isFirst = w.holds(one.demand, ">", other.demand);
  const [more, less] = isFirst ? [one, other] : [other, one];
  return [
    { season: of(more), load: total },
    {
      season: of(less),
      load: w.work(`load in the ${less.name} season`, "VA", calc`${total} − ${more.demand} + ${less.demand}`),
    },
  ];
}

/** Works a thing out the first time it is asked for, and keeps it. */
function once<T>(work: () => T): () => T {
  let kept: { value: T } | undefined;
  return () => (kept ??= { value: work() }).value;
}

type Loads = { standard: Known<"VA">; optional: Known<"VA"> };
/** Works the line current by a method out. */
type CurrentBy = { standard: () => Known<"A">; optional: () => Known<"A"> };

/**
 * The smaller permitted method decides, unless one is named. On two lines and the neutral of a wye the smaller load may be
 * the larger current, and it is the current that the conductors are for.
 */
function decide(w: Worksheet, { method, system }: DwellingRequest, loads: Loads, currentBy: CurrentBy): Decision {
  w.part("Which method");
  if (method) {
    w.given("method", method, "as asked");
    return { load: loads[method], method };
  }
  const by = system === "120/208" ? { standard: currentBy.standard(), optional: currentBy.optional() } : loads;
  w.part("Which method");
  return w.choose<Decision>(
    "the smaller permitted method decides",
    [by.optional, "≤", by.standard],
    ["the optional method", () => ({ load: loads.optional, method: "optional" })],
    ["the standard method", () => ({ load: loads.standard, method: "standard" })],
    "optional-dwelling",
  );
}
