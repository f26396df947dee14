/** An occupancy that is no dwelling: its load, and on to the service or feeder. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { WITH_SIGNS } from "../../../rules/occupancies.ts";
import { type Voltages, voltagesOf } from "../../../rules/systems.ts";
import {
  conductorsInWords,
  METHOD_FIGURES,
  NEUTRAL_FIGURES,
  serve,
  SERVICE_FIGURES,
  tellPutUp,
} from "../../parts/load-service.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Current, currentOf, neutralOf } from "./current.ts";
import type { Line } from "./lines.ts";
import { workItems } from "./loads.ts";
import { type Optional, optionalMethod } from "./optional.ts";
import { input, type OccupancyRequest } from "./request.ts";
import { type Season, type Standard, standardMethod } from "./standard.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "occupancy-load",
  title: "Load of stores, offices, kitchens and other occupancies",
  about:
    "Stores, offices, restaurants, schools, shops: lighting, receptacles, kitchen, motors, heating and cooling, on to the service.",
  input,
  figures: {
    ...METHOD_FIGURES,
    "design-load": "load with continuous loads raised",
    "design-current": "current with continuous loads raised",
    "lighting-load": "general lighting load",
    "receptacle-load": "receptacle load",
    "kitchen-load": "kitchen equipment load",
    ...NEUTRAL_FIGURES,
    "high-leg-current": "current of the high leg",
    ...SERVICE_FIGURES,
  },
  examples: [
    "3000 sq ft retail store, 30 ft of show window, 80 receptacles, one sign, 120/240 V single phase, what service?",
    "6500 sq ft office, 110 receptacles, 5 ton rooftop unit 18 A three phase, 208Y/120 V, what service?",
    "restaurant kitchen: two 12 kW fryers, 9 kW oven, 5 kW dishwasher, 3 kW steam table, 1.8 kW toaster, what demand?",
  ],
  manner: { traits: ["lists", "service", "one supply", "outlets"] },
  takes,
  minds: ["building"],
  write,
  answer(r, w) {
    const system = systemOf(w, r);
    const items = (w.part("Loads"), workItems(w, r.loads ?? [], system));
    const standard = r.connected ? connectedAlone(w, r.connected.load) : standardMethod(w, r, items, system);
    if (!standard) {
      throw need(
        "areas",
        "What is the floor area and its use, and what is connected?",
        "3000 sq ft store, 80 receptacles, AC 24 A",
      );
    }
    if (!r.connected) w.figure("standard-method-load", standard.total);
    for (const [name, id, title] of LINE_FIGURES) {
      const line = standard.lines.find((each) => each.name === name);
      if (line) w.figure(id, line.demand, title);
    }
    const optional = optionalMethod(w, r, standard);
    if (optional) w.figure("optional-method-load", optional.load);
    const decided = decide(w, r, standard, optional);
    w.figure("calculated-load", decided.load, "calculated load");
    w.figure("design-load", decided.design, "load with continuous loads raised");
    if (optional && !r.connected) w.aside(decided.method === "standard" ? "Optional method" : "Standard method");
    missing(w, r, standard);
    if (system) {
      const inSeason = (season: Season) => standardMethod(w, r, items, system, season)!;
      return supply(w, r, standard, decided, system, inSeason);
    }
    w.suggest("208Y/120 V three phase", "120/240 V single phase");
    const raise = raised(w, decided) ? w.say`, ${decided.design} with continuous loads at ${factor(w)}` : "";
    return {
      headline: w.say`Load: ${decided.load}${raise}${inWords(w, standard)}. For amperes and a service, say the supply.`,
    };
  },
});

/** Told by all that is connected: the optional method needs no more. */
function connectedAlone(w: Worksheet, load: NonNullable<OccupancyRequest["connected"]>["load"]): Standard {
  const { n, unit } = asQuantity(load);
  const told = w.given("connected load", {
    n,
    unit: unit === "kW" ? "kVA" : unit === "W" ? "VA" : unit as "VA" | "kVA",
  });
  const all = w.work("all that is connected, as told", "VA", calc`1 × ${told}`);
  return {
    lines: [],
    total: all,
    design: all,
    connected: { always: [all], heating: undefined, cooling: undefined },
    hasReceptacles: true,
  };
}

const LINE_FIGURES = [
  ["general lighting", "lighting-load", "general lighting load"],
  ["receptacles", "receptacle-load", "receptacle load"],
  ["kitchen equipment", "kitchen-load", "kitchen equipment load"],
] as const;

/** The supply. A service cannot be told without it; a load can, unless amperes or horsepower need it. */
function systemOf(w: Worksheet, r: OccupancyRequest): Voltages | undefined {
  w.part("Supply");
  if (r.system) return voltagesOf(w, r.system);
  if (r.upTo === "service" || r.service) {
    throw need(
      "system",
      "What is the supply: 120/240 V single-phase, 208Y/120 V or 480Y/277 V three-phase, or a high-leg delta?",
      "208Y/120 V three-phase",
    );
  }
  return undefined;
}

type Decided = { method: "standard" | "optional"; load: Known<"VA">; design: Known<"VA"> };

/** The smaller permitted method decides, by what it asks the supply to be, unless one is named. */
function decide(
  w: Worksheet,
  r: OccupancyRequest,
  standard: Standard,
  optional: Optional | undefined,
): Decided {
  const method = r.connected ? "optional" : r.method;
  const byStandard: Decided = { method: "standard", load: standard.total, design: standard.design };
  if (!optional) {
    if (method === "optional") {
      w.caution("No optional method was found for this occupancy as told: the standard method decides.");
    }
    return byStandard;
  }
  w.part("Which method");
  const byOptional: Decided = { method: "optional", load: optional.load, design: designOf(w, standard, optional) };
  if (method) {
    w.given("method", method, "as asked");
    return method === "optional" ? byOptional : byStandard;
  }
  return w.choose<Decided>(
    "the smaller permitted method decides",
    [byOptional.design, "≤", standard.design],
    ["the optional method", () => byOptional],
    ["the standard method", () => byStandard],
    r.areas?.[0]?.occupancy === "school" ? "optional-school" : "optional-restaurant",
  );
}

/**
 * An optional method takes its share of what is connected, continuous loads as well; conductors and devices are still
 * sized for the quarter more of what is left of those.
 */
function designOf(w: Worksheet, { total, design }: Standard, { load, everything }: Optional): Known<"VA"> {
  if (!w.holds(design, ">", total)) return load;
  return w.work(
    "optional method load with continuous loads raised",
    "VA",
    calc`${load} + (${design} − ${total}) × ${load} ÷ ${everything}`,
    "continuous-loads-feeder",
  );
}

function supply(
  w: Worksheet,
  r: OccupancyRequest,
  standard: Standard,
  decided: Decided,
  system: Voltages,
  inSeason: (season: Season) => Standard,
): Told {
  const { lines } = standard;
  w.part("Current");
  const { current, raisedCurrent, uneven } = heavierSeason(w, standard, decided, system, inSeason);
  w.figure("calculated-current", current, "calculated current");
  w.figure("design-current", raisedCurrent, "current with continuous loads raised");
  if (uneven) {
    w.suppose(
      "single-phase equipment on the lines",
      uneven,
      "spread over the three lines as evenly as it can be, lamps and receptacles on all alike",
      `three-phase ${uneven.split(/ and | between /)[0]!.replace(/^\d+ × /, "")}`,
      "calculation-voltages",
    );
  }
  const neutral = neutralOf(w, r, lines, system);
  if (neutral) {
    w.figure("neutral-load", neutral.load);
    w.figure("neutral-current", neutral.current, "neutral current");
  }
  const isFeeder = r.panel === "after the service disconnect";
  const served = serve(w, r, {
    current: raisedCurrent,
    ...(!isFeeder && { least: w.constant<"A">("other-minimum-service") }),
    neutral: neutral?.current,
    hasNeutral: system.lineToNeutral !== undefined,
    because: w.say`the load is ${raisedCurrent}, ${decided.design}${
      raised(w, decided) ? w.say` with continuous loads at ${factor(w)}` : ""
    }`,
  });
  cautions(w, system, uneven !== undefined || lines.some(({ three }) => three), standard.hasReceptacles);
  const conductors = `${conductorsInWords(w, served)}${neutral ? w.say` for ${neutral.current}` : ""}`;
  const load = w.say`${decided.load}${
    decided.method === "optional" ? " by the optional method" : ""
  }, ${raisedCurrent}${raised(w, decided) ? w.say` with continuous loads at ${factor(w)}` : ""}`;
  w.suggest(served.material === "copper" ? "use aluminum" : "use copper", "add a 30 A rooftop unit");
  return tellPutUp(w, served, `${conductors}.`) ?? {
    headline: w.say`${served.rating} ${served.what}${served.isLeast ? " (the least there is)" : ""}, ${r
      .system!}: ${load}. ${conductors}.`,
  };
}

type Currents = { current: Known<"A">; raisedCurrent: Known<"A">; uneven?: string | undefined };

/** The season that is the smaller load may load a line more, where it stands on fewer of them: the heavier one counts. */
function heavierSeason(
  w: Worksheet,
  standard: Standard,
  decided: Decided,
  system: Voltages,
  inSeason: (season: Season) => Standard,
): Currents {
  const own = currents(w, standard, decided, system);
  const { leftOut } = standard;
  if (!leftOut || decided.method === "optional") return own;
  const other = () => {
    const standard = inSeason(leftOut);
    return currents(w, standard, { method: "standard", load: standard.total, design: standard.design }, system);
  };
  if (!w.scratch(() => w.holds(other().raisedCurrent, ">", own.raisedCurrent))) return own;
  const { current, raisedCurrent, uneven } = w.under(`With the ${leftOut}, which loads a line more`, other);
  w.part("Current");
  return {
    current: w.work("calculated current, in the season that is more", "A", calc`max(${own.current}, ${current})`),
    raisedCurrent: w.work("current to size for, in the season that is more", "A", calc`1 × ${raisedCurrent}`),
    uneven,
  };
}

/** The currents of the load as it is and with the addition for continuous loads. */
function currents(w: Worksheet, standard: Standard, decided: Decided, system: Voltages): Currents {
  const { lines } = standard;
  const { current, uneven } = currentBy(w, lines, decided, standard, "load", system);
  if (!raised(w, decided)) return { current, raisedCurrent: current, uneven };
  const more = currentBy(w, lines, decided, standard, "design", system);
  return { current, raisedCurrent: more.current, uneven: more.uneven };
}

/** By the method that decides: an optional one leaves of each line what it leaves of the whole. */
function currentBy(
  w: Worksheet,
  lines: readonly Line[],
  decided: Decided,
  standard: Standard,
  of: "load" | "design",
  system: Voltages,
): Current {
  const [sum, which, name] = of === "load"
    ? [standard.total, "demand", "calculated current"] as const
    : [standard.design, "design", "current with continuous loads raised"] as const;
  if (decided.method === "standard") return currentOf(w, decided[of], lines, which, system, name);
  const whole = (name: string) => currentOf(w, sum, lines, which, system, name);
  const isEven = w.scratch(() => w.holds(whole(name).current, "=", currentOf(w, sum, [], which, system, name).current));
  if (isEven) return currentOf(w, decided[of], [], which, system, name);
  const { current, uneven } = whole(`${name}, standard method`);
  return {
    current: w.work(name, "A", calc`${current} × ${decided[of]} ÷ ${sum}`, "calculation-voltages"),
    uneven,
  };
}

const factor = (w: Worksheet): string => w.scratch(() => w.say`${w.constant("continuous-load-factor")}`);

/** Whether continuous loads make the supply larger than the load alone. */
const raised = (w: Worksheet, { load, design }: Decided): boolean => w.holds(design, ">", load);

/** The lines in few words, largest first, where the load alone is told. */
function inWords(w: Worksheet, { lines }: Standard): string {
  if (lines.length < 2) return lines[0] ? ` (${lines[0].name})` : "";
  return ` (${lines.map(({ name, demand }) => w.say`${name} ${demand}`).join(", ")})`;
}

/** What every such occupancy has and nobody told. */
function missing(w: Worksheet, r: OccupancyRequest, { hasReceptacles }: Standard): void {
  if (r.part !== undefined || !r.areas?.length || !r.system) return;
  if (!hasReceptacles && r.receptacles !== 0) {
    w.suppose(
      "receptacles",
      "none counted",
      "none were told; they add to the load",
      "40 receptacles",
      "receptacle-outlets",
    );
  }
  const hasSign = r.loads?.some(({ kind }) => kind === "sign");
  if (!hasSign && r.areas.some(({ occupancy }) => WITH_SIGNS.includes(occupancy))) {
    const least = w.say`${w.constant<"VA">("sign-load")}`;
    w.suppose(
      "sign outlets",
      "none counted",
      `none was told; each place that the public enters on foot has one, of ${least} or more`,
      "1 sign",
      "signs",
    );
  }
}

function cautions(w: Worksheet, system: Voltages, isSaid: boolean, hasReceptacles: boolean): void {
  const { shape, phases, lineToNeutral } = system;
  const isAbove = lineToNeutral && w.scratch(() => w.holds(lineToNeutral, ">", w.constant("branch-circuit-voltage")));
  if (hasReceptacles && (isAbove || !lineToNeutral)) {
    w.caution("Receptacles are fed through a transformer, whose neutral is its own: they load no neutral here.");
  }
  if (shape === "high leg") {
    w.caution("The high leg is marked orange and stands well above the lighting voltage: no lamp or plug on it.");
  } else if (phases === 3 && !isSaid) {
    w.caution("Single-phase loads are taken as spread evenly over the three lines: balance them on the schedule.");
  }
}
