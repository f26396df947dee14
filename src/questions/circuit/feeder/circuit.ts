/** The feeder's circuit: voltage, phases, load, and the rating that follows or was asked for. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { usualBreaker, wholeAmperes } from "../../../rules/overcurrent.ts";
import { lineCurrent, type Phases } from "../../../rules/power.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { FeederRequest, Load } from "./request.ts";

export type Circuit = {
  volts: Known<"V">;
  phases: Phases;
  /** The load as it is, and with its continuous part raised; the rating stands for both where no load was told. */
  load: Known<"A">;
  design: Known<"A">;
  loadTold: boolean;
  /** The overcurrent device ahead of the conductors. */
  rating: Known<"A">;
};

/** What people call a system's nominal voltage after its old names. */
const NOMINAL: Readonly<Record<string, string>> = {
  "110": "120",
  "115": "120",
  "220": "240",
  "230": "240",
  "440": "480",
  "460": "480",
};
const KNOWN = ["120", "208", "240", "277", "480", "600"];
/** Voltages from a line to the neutral: no three-phase system has them between its lines. */
const TO_NEUTRAL = ["120", "277"];
/** Voltages that come both single-phase and three-phase. */
const EITHER_PHASE = ["208", "480", "600"];

export function circuitOf(w: Worksheet, r: FeederRequest): Circuit {
  w.part("Load and rating");
  const { volts, phases } = systemOf(w, r);
  const parts = {
    load: amperesOf(w, r.load, volts, phases, "load"),
    continuous: amperesOf(w, r.continuous, volts, phases, "continuous load"),
  };
  const told = parts.load ?? parts.continuous;
  if (!told) return { volts, phases, ...byRating(w, r) };
  const all = [parts.load, parts.continuous].filter((each) => each !== undefined);
  const load = w.work("load current", "A", calc`sum(${all})`);
  const design = designCurrent(w, parts);
  const wanted = r.breaker ?? r.panel;
  const rating = wanted
    ? w.given(r.breaker ? "breaker asked for" : "rating asked for", asQuantity(wanted))
    : usualBreaker(w, atLeastOfService(w, r, wholeAmperes(w, design)), "breaker, the next standard rating");
  return { volts, phases, load, design, loadTold: true, rating };
}

/** The least rating of a service's disconnect. */
export const leastService = ({ wholeDwelling }: FeederRequest): string =>
  wholeDwelling ? "one-family-minimum-service" : "other-minimum-service";

function atLeastOfService(w: Worksheet, r: FeederRequest, current: Known<"A">): Known<"A"> {
  if (r.supply !== "service") return current;
  const least = w.constant<"A">(leastService(r));
  if (w.holds(current, "≥", least)) return current;
  return w.work("not below the least rating of a service", "A", calc`max(${current}, ${least})`, "minimum-service");
}

function systemOf(w: Worksheet, { volts, phases, wholeDwelling }: FeederRequest): Pick<Circuit, "volts" | "phases"> {
  if (!volts) {
    if (phases === 3) {
      throw need("volts", "Which three-phase voltage: 208, 240 or 480 V?", "208Y/120 three phase");
    }
    const assumed = w.assume<"V">("supply-voltage");
    return { volts: assumed, phases: 1 };
  }
  const said = String(volts.value);
  const nominal = NOMINAL[said] ?? said;
  if (!KNOWN.includes(nominal)) {
    throw need(
      "volts",
      `Is ${said} V the supply's nominal voltage? I know 120, 208, 240, 277, 480 and 600 V.`,
      "240 V",
    );
  }
  if (phases === 3 && TO_NEUTRAL.includes(nominal)) {
    throw need(
      "volts",
      `No three-phase system has ${nominal} V between its lines: which is the line-to-line voltage?`,
      nominal === "277" ? "480 V three phase" : "208 V three phase",
    );
  }
  if (phases === undefined && !wholeDwelling && EITHER_PHASE.includes(nominal)) {
    throw need("phases", `Is the ${nominal} V feeder single-phase or three-phase?`, "three phase");
  }
  const supply = w.given(
    "supply voltage",
    { n: nominal, unit: "V" },
    nominal === said ? undefined : `${said} V is its older name`,
  );
  if (phases === undefined) {
    w.suppose("phases", "single-phase", "no phases were told", "three phase");
  }
  return { volts: supply, phases: phases ?? 1 };
}

function amperesOf(
  w: Worksheet,
  said: Load | undefined,
  volts: Known<"V">,
  phases: Phases,
  name: string,
): Known<"A"> | undefined {
  if (!said) return undefined;
  if (said.unit === "A") return w.given(name, { ...asQuantity(said), unit: "A" });
  const isWatts = said.unit === "W" || said.unit === "kW";
  const apparent = {
    n: asQuantity(said).n,
    unit: said.unit === "W" ? "VA" as const : said.unit === "kW" ? "kVA" as const : said.unit,
  };
  const power = w.given(name, convert(apparent, "VA"), isWatts ? "watts counted as volt-amperes" : undefined);
  return lineCurrent(w, power, volts, phases, `${name} current`);
}

/** The continuous part counts for more, on conductors and on the device. */
function designCurrent(w: Worksheet, { load, continuous }: { load?: Known<"A">; continuous?: Known<"A"> }): Known<"A"> {
  if (!continuous) {
    w.suppose(
      "kind of load",
      "not continuous",
      "no part of it was said to run for three hours or more",
      "40 A of it continuous",
    );
    return w.work("design current", "A", calc`1 × ${load!}`, "continuous-loads-feeder");
  }
  const factor = w.constant<"%">("continuous-load-factor");
  return w.work(
    "design current",
    "A",
    load ? calc`${load} + ${continuous} × ${factor}` : calc`${continuous} × ${factor}`,
    "continuous-loads-feeder",
  );
}

/** No load was told: the conductors are sized to carry the full rating. */
function byRating(w: Worksheet, r: FeederRequest): Omit<Circuit, "volts" | "phases"> {
  const wanted = r.breaker ?? r.panel;
  if (!wanted) {
    throw need(
      "load",
      "What should it carry: the feeder breaker's rating, or the load in amps (or kW)?",
      "100 A breaker",
    );
  }
  const rating = w.given(r.breaker ? "breaker asked for" : "rating asked for", asQuantity(wanted));
  w.suppose("load", w.say`the full ${rating}`, "no load was told", "load 60 A");
  return { load: rating, design: rating, loadTold: false, rating };
}
