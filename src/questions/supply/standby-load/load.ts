/** What the generator has to carry: a load told, a dwelling by its methods, or the loads that run together. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { generalLighting } from "../../../rules/dwelling/area.ts";
import { workDwelling } from "../../../rules/dwelling/methods.ts";
import { motorAddition } from "../../../rules/dwelling/standard.ts";
import { lockOut, systemOf } from "../../../rules/dwelling/system.ts";
import { climateOf } from "../../../rules/dwelling/standard.ts";
import { type Load, workLoads } from "../../../rules/loads.ts";
import { need } from "../../../core/outcome.ts";
import { apparent, type Supply } from "./capacity.ts";
import type { StandbyRequest } from "./request.ts";

/** A load, and the same without some of the appliances. */
export type Carried = {
  load: Known<"VA">;
  /** How it was come by, in a few words. */
  by: string;
  /** The electric appliances, and what is left without some of them; none of a load that was told as one. */
  loads: readonly Load[];
  without(some: readonly Load[]): Known<"VA">;
  /** What one of them asks for where nothing else runs. */
  alone(one: Load): Known<"VA">;
};

/** From so many on they stay together: nobody switches each of them. */
const MOST_APART = 40;
/** Each of several by itself, since some of them may be kept off and others not. */
function apart(loads: NonNullable<StandbyRequest["loads"]>): NonNullable<StandbyRequest["loads"]> {
  const all = loads.reduce((sum, { count }) => sum + count, 0);
  if (all > MOST_APART) return loads;
  return loads.flatMap((load) => Array.from({ length: load.count }, () => ({ ...load, count: 1 })));
}

/** Undefined where nothing was told of it. */
export function carriedOf(w: Worksheet, r: StandbyRequest, supply: Supply): Carried | undefined {
  if (r.load) {
    w.part("Load");
    const load = apparent(w, "calculated load", r.load, supply);
    return { load, by: "as told", loads: [], without: () => load, alone: ({ all }) => all };
  }
  if (!r.areas?.length && !r.loads?.length) return undefined;
  if (supply.phases === 3) {
    throw need(
      "load",
      "What load was calculated for the three-phase supply? Ask it as a question of its own, and give me the result.",
      "calculated load 30 kVA",
    );
  }
  return r.areas?.length ? ofDwelling(w, r) : ofSome(w, r);
}

/** The whole dwelling by whichever method asks for less. */
function ofDwelling(w: Worksheet, r: StandbyRequest): Carried {
  const system = systemOf(w, "120/240");
  const lighting = generalLighting(w, r);
  w.part("Loads");
  const loads = workLoads(w, apart(r.loads ?? []), system);
  const work = (of: readonly Load[]) =>
    workDwelling(
      w,
      { lighting, loads: of, system, network: false, compressorLockedOut: r.compressorLockedOut },
      (both) => {
        w.part("Which method");
        return w.choose(
          "the smaller permitted method decides",
          [both.optional, "≤", both.standard],
          ["the optional method", () => "optional" as const],
          ["the standard method", () => "standard" as const],
          "optional-dwelling",
        );
      },
    );
  const { load, method } = work(loads);
  w.aside(method === "standard" ? "Optional method" : "Standard method");
  return {
    load,
    by: `the whole dwelling by the ${method} method`,
    loads,
    without: (some) => work(loads.filter((each) => !some.includes(each))).load,
    alone: (one) => together(w, [one]),
  };
}

/** What runs together: all of it, heating or cooling, and a quarter of the largest motor. */
function ofSome(w: Worksheet, r: StandbyRequest): Carried {
  const system = systemOf(w, "120/240");
  w.part("Loads that run together");
  const loads = workLoads(w, apart(r.loads!), system);
  const lockedOut = lockOut(w, r.compressorLockedOut, loads);
  const sum = (of: readonly Load[]) => {
    const omitted = climateOf(w, of, lockedOut)?.omitted ?? [];
    return together(w, of.filter((each) => !omitted.includes(each)));
  };
  return {
    load: sum(loads),
    by: "all of them together",
    loads,
    without: (some) => sum(loads.filter((each) => !some.includes(each))),
    alone: (one) => together(w, [one]),
  };
}

/** All of them in full, and a quarter of the largest motor. */
function together(w: Worksheet, runs: readonly Load[]): Known<"VA"> {
  const addition = motorAddition(w, runs.filter(({ motor }) => motor));
  const parts = [...runs.map(({ all }) => all), ...(addition ? [addition] : [])];
  return parts.length === 0
    ? w.given("nothing is left", { n: "0", unit: "VA" })
    : w.work("loads that run together", "VA", calc`sum(${parts})`);
}
