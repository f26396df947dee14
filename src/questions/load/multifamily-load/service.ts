/** The service or feeder to the whole building, its meters, and the sentence that says it. */
import { calc } from "../../../core/formula.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Method } from "../../../rules/dwelling/methods.ts";
import { legsOf, networkCurrent } from "../../../rules/dwelling/legs.ts";
import { type Neutral, neutralLoad } from "../../../rules/dwelling/neutral.ts";
import { neutralForAll, type Units } from "../../../rules/dwelling/several.ts";
import type { Standard } from "../../../rules/dwelling/standard.ts";
import type { Load } from "../../../rules/loads.ts";
import { lineCurrent } from "../../../rules/power.ts";
import { type Single, unevenPairs } from "../../../rules/three-phase.ts";
import { reducedNeutral } from "../../../rules/neutral.ts";
import { conductorsInWords, serve, tellServed } from "../../parts/load-service.ts";
import type { MultifamilyRequest } from "./request.ts";
import { currentOf, type Supply } from "./supply.ts";

type Found = {
  types: readonly Units[];
  house: readonly Load[];
  standard: Standard;
  load: Known<"VA">;
  method: Method;
  number: Known<"1">;
  others: readonly Known<"VA">[];
  /** Of the load, what is for the house loads. */
  ofHouse: Known<"VA"> | undefined;
  supply: Supply;
};
/**
 * From so many units on they are taken as balanced over three phases, as the code's annex does (example D5(a): banks of ten, and
 * twenty in all). Fewer are laid out: of two units one line carries both.
 */
const MANY = 10;

/** Works the service, gives its figures and tells it. */
export function service(w: Worksheet, request: MultifamilyRequest, found: Found): Told {
  const { load, method, number, others } = found;
  w.figure("calculated-load", load, "calculated load");
  const current = lineCurrentOf(w, found, load, "calculated current");
  w.figure("calculated-current", current, "calculated current");
  const neutral = neutralOf(w, found);
  w.figure("neutral-load", neutral.load, "neutral load");
  w.figure("neutral-current", neutral.current, "neutral current");
  const isFeeder = request.panel === "after the service disconnect";
  const served = serve(w, request, {
    current,
    neutral: neutral.current,
    ...(!isFeeder && { least: w.constant<"A">("other-minimum-service") }),
    because: w.say`the load is ${current}, ${load} by the ${method} method`,
  });
  meters(w, found);
  notes(w, isFeeder, w.holds(number, "≤", calc`2`));
  const words = conductorsInWords(w, served);
  const with_ = others.length > 0 ? " and what else is on it" : "";
  return tellServed(w, served, {
    load: w.say`${load}, ${current} by the ${method} method`,
    words,
    of: w.say` for ${number} units${with_}`,
  });
}

function lineCurrentOf(w: Worksheet, found: Found, load: Known<"VA">, name: string): Known<"A"> {
  const { standard, method, supply } = found;
  w.part("Line current");
  if (supply.phases === 3) return onThreePhases(w, found, load, name);
  if (!supply.isNetworkAlone) return currentOf(w, load, supply, name);
  const none = legsOf(w, undefined, [], ({ all }) => all);
  return networkCurrent(w, load, method === "standard" ? standard : undefined, none, supply.system);
}

const isFew = (w: Worksheet, number: Known<"1">): boolean => w.measure(number).n.compare(MANY) < 0;

/** Few units, and house loads between two lines, are spread over the pairs of lines: the most loaded line counts. */
function onThreePhases(
  w: Worksheet,
  { number, house, ofHouse, others, supply }: Found,
  load: Known<"VA">,
  name: string,
): Known<"A"> {
  const singles = (): Single[] => {
    const ofHouseLoads = house.filter(({ lineToNeutral }) => !lineToNeutral)
      .map(({ name, said, each }) => ({ name, count: said.count, each }));
    if (!isFew(w, number)) return ofHouseLoads;
    const besides = [...others, ...(ofHouse ? [ofHouse] : [])];
    const all = besides.length === 0 ? load : w.work("of it the units", "VA", calc`${load} − sum(${besides})`);
    const each = w.work("load of one unit, of the whole", "VA", calc`${all} ÷ ${number}`);
    return [{ name: "dwelling unit", count: Number(w.measure(number).n.toFraction()), each }, ...ofHouseLoads];
  };
  if (w.scratch(() => unevenPairs(w, singles(), "VA")) === undefined) return currentOf(w, load, supply, name);
  const uneven = unevenPairs(w, singles(), "VA")!;
  w.suppose(
    "what stands between two lines",
    uneven.words,
    "spread over the three lines as evenly as they can be; the most loaded line counts",
    "120/208 V single phase",
  );
  const rest = w.work("of the load, balanced", "VA", calc`${load} − ${uneven.load}`);
  const balanced = currentOf(w, rest, supply, `${name}, balanced part`);
  return w.work(name, "A", calc`${balanced} + ${uneven.most} ÷ ${supply.volts}`);
}

/** By the standard rules whichever method decides; what other occupancies put on it is taken as all of their load. */
function neutralOf(w: Worksheet, { standard, supply, others, number }: Found): Neutral {
  if (supply.isNetworkAlone) {
    const none = legsOf(w, undefined, [], ({ all }) => all);
    return neutralLoad(w, standard, none, supply.system, true);
  }
  const units = neutralForAll(w, standard);
  const load = others.length === 0
    ? units
    : w.work("neutral load, with the other occupancies in full", "VA", calc`${units} + sum(${others})`, "neutral");
  const current = supply.phases === 3 && isFew(w, number)
    ? neutralOfFew(w, units, others, number, supply)
    : currentOf(w, load, supply, "neutral current");
  return { load, current: reducedNeutral(w, current) };
}

/** The neutral carries what one line can put on it alone: of two units on three lines half of each. */
function neutralOfFew(
  w: Worksheet,
  units: Known<"VA">,
  others: readonly Known<"VA">[],
  number: Known<"1">,
  { system, volts }: Supply,
): Known<"A"> {
  const pairs = w.given("pairs of lines", { n: "3", unit: "1" });
  const most = w.work("most units between two lines", "1", calc`roundUp(${number} ÷ ${pairs})`);
  const next = w.work("units between the next two", "1", calc`roundUp((${number} − 1) ÷ ${pairs})`);
  const line = w.work(
    "of the units' neutral load on one line",
    "VA",
    calc`${units} × (${most} + ${next}) ÷ (2 × ${number})`,
  );
  const name = "neutral current";
  if (others.length === 0) return w.work(name, "A", calc`${line} ÷ ${system.lineToNeutral}`, "neutral");
  const rest = w.work("neutral load of the other occupancies", "VA", calc`sum(${others})`);
  const even = lineCurrent(w, rest, volts, 3, "their neutral current");
  return w.work(name, "A", calc`${line} ÷ ${system.lineToNeutral} + ${even}`, "neutral");
}

/** One meter for each unit, one for the house loads, one for each other occupancy. */
function meters(w: Worksheet, { number, house, others }: Found): void {
  w.part("Meters");
  const more = [
    ...(house.length > 0 ? [w.given("meter of the house loads", { n: "1", unit: "1" })] : []),
    ...(others.length > 0 ? [w.given("meters of other occupancies", { n: String(others.length), unit: "1" })] : []),
  ];
  const all = w.work("meters, one for each unit and one for the rest", "1", calc`sum(${[number, ...more]})`);
  w.figure("meters", all, "meters");
  if (w.holds(all, ">", w.constant<"1">("most-service-disconnects"))) {
    w.caution("More meters than service disconnects allowed: a main ahead of the meter mains.", "service-disconnects");
  }
}

function notes(w: Worksheet, isFeeder: boolean, isTwo: boolean): void {
  const surge = isFeeder ? "surge-protection-feeders" : "surge-protection";
  if (w.edition.rule(surge) !== "not required") {
    w.caution("Dwelling units take a type 1 or 2 surge-protective device at this service or at their panels.", surge);
  }
  if (isTwo && !isFeeder && w.edition.rule("emergency-disconnect") !== "not required") {
    w.caution("One- and two-family dwellings need a disconnect outdoors, readily accessible.", "emergency-disconnect");
  }
}
