/** Parks and docks of many supply points: their demand by number, and on to the service or feeder. */
import { calc } from "../../../core/formula.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { apparentPower, lineCurrent } from "../../../rules/power.ts";
import { type Voltages, voltagesOf } from "../../../rules/systems.ts";
import { conductorsInWords, serve, SERVICE_FIGURES, tellPutUp } from "../../parts/load-service.ts";
import { ledBy } from "../../parts/verdict.ts";
import { question } from "../../question.ts";
import { input, type Park, type ParkRequest } from "./request.ts";
import { askReceptacles, type Group, workSites } from "./sites.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

type Table = { demand: string; clause: string; sites: string };
const TABLES: Readonly<Record<Park, Table>> = {
  "recreational vehicle park": {
    demand: "recreational-vehicle-site-demand",
    clause: "recreational-vehicle-sites",
    sites: "sites",
  },
  "mobile home park": { demand: "mobile-home-park-demand", clause: "mobile-home-lots", sites: "lots" },
  marina: { demand: "shore-power-demand", clause: "shore-power", sites: "shore power receptacles" },
};

export default question({
  id: "park-load",
  title: "Load of parks and marinas",
  about:
    "Recreational-vehicle parks, mobile home parks, marinas: demand of the sites, lots or slips, on to the service.",
  input,
  figures: {
    sites: "sites",
    "connected-load": "connected load of the sites",
    "demand-factor": "demand factor",
    "calculated-load": "calculated load",
    "calculated-current": "calculated current",
    "neutral-current": "neutral current",
    ...SERVICE_FIGURES,
  },
  examples: [
    "RV park with 24 sites of 50 A and 10 sites of 30 A, what service?",
    "marina with 30 slips, each a 50 A shore power receptacle, is 600 A enough?",
    "mobile home park with 12 lots, feeder size?",
  ],
  manner: { traits: ["lists", "groups", "service"] },
  takes,
  minds: ["building"],
  write,
  answer(r, w) {
    if (!r.park) {
      throw need("park", "What is it: a recreational-vehicle park, a mobile home park or a marina?", "RV park");
    }
    const { park } = r;
    if (!r.sites?.length || r.sites.some(({ count }) => count === undefined)) throw askCount(park);
    const system = systemOf(w, r, park);
    const groups = workSites(w, park, r.sites, system);
    if (groups.length === 0) throw askReceptacles(park);
    const { number, load, line } = demandOf(w, r, park, groups);
    const others = othersOf(w, r, system);
    w.part("Load");
    const whole = others.length === 0
      ? load
      : w.work("with what else is on it", "VA", calc`${load} + sum(${others.map(({ load }) => load)})`);
    w.figure("calculated-load", whole, "calculated load");
    const current = others.length === 0
      ? line
      : w.work("current of the heaviest line", "A", calc`${line} + sum(${others.map(({ current }) => current)})`);
    w.figure("calculated-current", current, "calculated current");
    w.figure("neutral-current", current, "neutral current");
    const answer = service(w, r, { park, number, load: whole, current, hasOthers: others.length > 0 });
    cautions(w, park, groups, system);
    return answer;
  },
});

const askCount = (park: Park) =>
  park === "mobile home park"
    ? need("sites", "How many lots are there?", "12 lots")
    : park === "marina"
    ? need("sites", "How many slips are there of each kind?", "20 slips with 30 A and 10 slips with 50 A")
    : need("sites", "How many sites are there of each kind?", "24 sites with 50 A and 10 sites with 30 A");

function systemOf(w: Worksheet, { system }: ParkRequest, park: Park): Voltages {
  w.part("Supply");
  if (!system) {
    w.suppose("supply", "120/240 V single-phase", "nothing was said of it", "208Y/120 V three phase");
    return voltagesOf(w, "120/240 V single-phase");
  }
  if (park === "mobile home park" && system !== "120/240 V single-phase") {
    throw new NotCovered(
      "the lots of a mobile home park are fed with 120/240 V single-phase, for which their load is given",
      w.edition.id,
    );
  }
  return voltagesOf(w, system);
}

type Demand = { number: Known<"1">; load: Known<"VA">; line: Known<"A"> };
function demandOf(w: Worksheet, { metered }: ParkRequest, park: Park, groups: readonly Group[]): Demand {
  const { demand: table, clause, sites } = TABLES[park];
  w.part("Demand");
  const number = w.work(`number of ${sites}`, "1", calc`sum(${groups.map(({ count }) => count)})`);
  w.figure("sites", number, sites);
  const connected = w.work("connected load", "VA", calc`sum(${groups.map(({ load }) => load)})`, clause);
  w.figure("connected-load", connected, `connected load of the ${sites}`);
  const byTable = w.lookUp<"%">("demand factor for that many", table, "demand", number);
  const isMetered = park === "marina" && metered === true;
  const share = isMetered
    ? w.work(
      "demand factor, each slip metered",
      "%",
      calc`${byTable} × ${w.constant<"%">("shore-power-metered")}`,
      clause,
    )
    : byTable;
  w.figure("demand-factor", share, "demand factor");
  const load = w.work(`demand of the ${sites}`, "VA", calc`${connected} × ${share}`, clause);
  if (!isMetered) stepsDown(w, park, groups, number, load);
  return {
    number,
    load,
    line: w.work(
      "current of the heaviest line",
      "A",
      calc`sum(${groups.map(({ line }) => line)}) × ${share}`,
      "calculation-voltages",
    ),
  };
}

/** Where a further row's percentage falls so far that the largest of the sites alone would take more, that is said. */
function stepsDown(w: Worksheet, park: Park, groups: readonly Group[], number: Known<"1">, load: Known<"VA">): void {
  const { demand: table, clause, sites } = TABLES[park];
  const ends = w.edition.table(table).data.rows.flatMap((row) => typeof row[0] === "number" ? [row[0]] : []);
  const said = w.scratch(() => {
    const given = (n: number) => w.given("number", { n: String(n), unit: "1" });
    const end = ends.findLast((n) => w.holds(given(n), "<", number));
    if (end === undefined) return undefined;
    const largest = groups.toSorted((a, b) => w.holds(a.one, ">", b.one) ? -1 : 1);
    let left = end;
    const loads = largest.flatMap(({ kind, one }) => {
      const count = Math.min(left, kind.count);
      left -= count;
      return count === 0 ? [] : [w.work("of these", "VA", calc`${given(count)} × ${one}`)];
    });
    const higher = w.lookUp<"%">("demand factor", table, "demand", given(end));
    const alone = w.work("the largest alone", "VA", calc`sum(${loads}) × ${higher}`);
    return w.holds(alone, ">", load)
      ? w.say`By the table's own steps the largest ${
        given(end)
      } of these ${sites} would take more alone, ${alone}: mind it where they are built in stages.`
      : undefined;
  });
  if (said) w.caution(said, clause);
}

/** Other loads in full; amperes are on every line. */
function othersOf(w: Worksheet, { others = [] }: ParkRequest, system: Voltages) {
  w.part("What else is on it");
  return others.map(({ name = "other load", load }) => {
    if (load.unit === "A") {
      const current = w.given(name, { n: String(load.value), unit: "A" });
      return { current, load: apparentPower(w, current, system.lineToLine, system.phases) };
    }
    const told = nameplate(w, name, load, system.lineToLine);
    return { load: told, current: lineCurrent(w, told, system.lineToLine, system.phases, `current of the ${name}`) };
  });
}

type Found = { park: Park; number: Known<"1">; load: Known<"VA">; current: Known<"A">; hasOthers: boolean };
function service(w: Worksheet, r: ParkRequest, { park, number, load, current, hasOthers }: Found): Told {
  const isFeeder = r.panel === "after the service disconnect";
  const least = leastOf(w, park, isFeeder);
  const { sites } = TABLES[park];
  const with_ = hasOthers ? " and what else is on it" : "";
  const plan = {
    current,
    ...(least && { least }),
    // What boats, vehicles and homes put between the lines and the neutral is not known: it may be all of it.
    neutral: current,
    hasNeutral: true,
    fullNeutral: park === "recreational vehicle park",
    because: w.say`${number} ${sites}${with_} come to ${current}, ${load}`,
  };
  const served = w.ifCovered(() => serve(w, r, plan));
  if (!served) return tooLarge(w, r, plan.because);
  const conductors = `${conductorsInWords(w, served)}.`;
  w.suggest(
    served.material === "copper" ? "use aluminum" : "use copper",
    isFeeder ? "make it a service" : "as a feeder",
  );
  return tellPutUp(w, served, conductors) ?? {
    headline: w.say`${served.rating} ${served.what}${
      served.isLeast ? " (the least there is)" : ""
    } for ${number} ${sites}${with_}: ${load}, ${current}. ${conductors}`,
  };
}

/** The load is known all the same. */
function tooLarge(w: Worksheet, { service }: ParkRequest, because: string): Told {
  w.suggest("208Y/120 V three phase");
  return ledBy(
    service && { is: "not ok", because },
    `${
      service ? "That" : because[0]!.toUpperCase() + because.slice(1)
    }: more than any standard device. Divide it among several services, or feed it at a higher voltage through transformers.`,
  );
}

function leastOf(w: Worksheet, park: Park, isFeeder: boolean): Known<"A"> | undefined {
  if (park === "mobile home park") return w.constant<"A">("mobile-home-feeder-least");
  if (!isFeeder) return w.constant<"A">("other-minimum-service");
  return park === "marina" ? undefined : w.constant<"A">("recreational-vehicle-feeder-least");
}

function cautions(w: Worksheet, park: Park, groups: readonly Group[], { phases }: Voltages): void {
  const isSpread = groups.some(({ kind: { wires } }) =>
    wires === "line to neutral" || (phases === 3 && wires === "line to line")
  );
  if (isSpread) {
    w.caution(
      `${
        park === "marina" ? "Receptacles" : "Sites"
      } are taken as spread over the lines as evenly as their number allows: keep to it on the schedule.`,
    );
  }
  if (park === "marina") {
    w.caution(
      "Docks take ground-fault protection at the receptacles and ahead of them: leakage kills swimmers.",
      "shore-power-ground-fault",
    );
  } else if (park === "mobile home park") {
    w.caution("Each lot takes service equipment of its own, no smaller than the least feeder.", "mobile-home-service");
  } else {
    w.caution(
      "A share of the sites has to have 30 A and 50 A receptacles: not checked here.",
      "recreational-vehicle-receptacles",
    );
    w.caution("The neutral to the sites is as large as the lines.", "recreational-vehicle-feeder");
  }
  w.caution("Long runs are the rule here: check the drop to the last site, as a question of its own.");
}
