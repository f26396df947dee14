/** The verdict on what is to be added, the largest that fits instead, and what a setting or a larger service would allow. */
import { calc } from "../../../core/formula.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { CATALOGUE } from "../../../loads/catalogue.ts";
import { serviceRating } from "../../../rules/dwelling-service.ts";
import { type Load, loadName } from "../../../rules/loads.ts";
import { nextBreaker } from "../../../rules/overcurrent.ts";
import { ledBy } from "../../parts/verdict.ts";
import { type Found, METHOD_NAMES, type Service, tooLarge } from "./methods.ts";
import type { AddedLoad, AddedRequest } from "./request.ts";
import { type Supply, workAdded } from "./service.ts";
import { type Largest, largestOf, prove, sayOf, settings, type Size, sizesOf } from "./turned.ts";

type Case = {
  service: Service;
  supply: Supply;
  added: readonly Load[];
  rated: readonly AddedLoad[];
  /** The load whose size is looked for. */
  open: AddedLoad | undefined;
  found: Found;
  now: Found;
  /** Whether all that was told fits. */
  does: boolean;
};

const isCharger = ({ kind }: AddedLoad): boolean => CATALOGUE[kind].group === "ev";
const aOrAn = (name: string): string => `${/^[aeioE]/.test(name) ? "an" : "a"} ${name}`;
const numberOf = (loads: readonly AddedLoad[]): number => loads.reduce((sum, { count }) => sum + count, 0);
const plural = ({ count }: AddedLoad, name: string): string => count > 1 ? `${count} × ${name}s` : name;
const said = (load: AddedLoad): string => {
  const name = load.kind === "other" && load.name === undefined ? "load" : loadName(load);
  return plural(load, `${load.rating ? `${load.rating.value} ${load.rating.unit} ` : ""}${name}`);
};

export function judge(w: Worksheet, request: AddedRequest, its: Case): Told {
  const { service, rated, open, found, now, does } = its;
  const how = METHOD_NAMES[found.method];
  const what = rated.map(said).join(" and ");
  const existing = () => w.work("existing current", "A", calc`${now.load} ÷ ${found.load} × ${found.current}`);
  const verdict = rated.length > 0 ? verdictOn(w, request, its, what, how) : undefined;
  if (open) {
    if (!does) {
      return {
        headline: w.say`Not OK before ${aOrAn(loadName(open))} is added: ${found.current} on ${service.rating}.`,
        verdict,
      };
    }
    const largest = lookFor(w, its, open);
    w.suggest(isCharger(open) ? "what about a 48 A charger" : "add a 48 A EV charger", "2020 code");
    const words = sayLargest(w, largest, loadName(open), open, true);
    return verdict
      ? ledBy(verdict, words)
      : { headline: w.say`${words} Now ${found.current} of ${service.rating} by the ${how}.` };
  }
  if (rated.length === 0) {
    const room = w.figures["largest-added-load"]!;
    w.suggest("add a 48 A EV charger", "2020 code");
    const headline = does
      ? w.say`${spare(w)} spare of ${service.rating}: now ${found.current} by the ${how}.` +
        (Number(room.value) > 0
          ? ` One more load of up to ${Math.floor(Number(room.value)).toLocaleString("en")} VA fits.`
          : "")
      : w.say`Over already: ${found.current} on ${service.rating} by the ${how}.`;
    return { headline };
  }
  if (does) {
    w.suggest(rated.some(isCharger) ? "on a 125 A service" : "add a 48 A EV charger", "2020 code");
    return ledBy(verdict, w.say`Now ${existing()}; ${spare(w)} spare.`);
  }
  w.suggest("on a 200 A service", "2020 code");
  return { headline: instead(w, its, what), verdict };
}

const spare = (w: Worksheet): string => w.say`${w.figures["spare-current"]!.step}`;

/** What stands against the addition: the whole load, or a load that alone draws more than the service is rated. */
function tooMuch(w: Worksheet, { service, added, found }: Case, what: string, how = ""): string {
  const alone = w.scratch(() => {
    const large = tooLarge(w, service, added);
    return large && w.say`the ${large.load.name} alone takes ${large.alone} on ${service.rating}`;
  });
  return alone ?? w.say`${found.current} on ${service.rating} with the ${what}${how && `, by the ${how}`}`;
}

function verdictOn(w: Worksheet, request: AddedRequest, its: Case, what: string, how: string): Reasoned {
  const { service, found, does } = its;
  const because = w.say`${found.current} of ${service.rating} with the ${what}, by the ${how}`;
  const conditions = [
    ...(request.setpoint
      ? [`the charger is set to ${request.setpoint.value} A for good, or a listed system holds it there`]
      : []),
    ...(found.method === "measured demand" && request.recorded === "30 days"
      ? [
        w.say`the recording is ${
          w.constant("measured-interval-minutes")
        }-minute averages of the heaviest line, occupied, and counts the season it missed`,
      ]
      : []),
  ];
  return !does
    ? { is: "not ok", because: tooMuch(w, its, what, how) }
    : conditions.length > 0
    ? { is: "ok if", because: `${conditions.join(", and ")}: ${because}` }
    : { is: "ok", because };
}

/** The load with one of a size beside whatever else is added. */
const withOne =
  (w: Worksheet, { supply, added }: Case, load: AddedLoad, others: readonly Load[] = added) => (size: Size) => [
    ...others,
    ...workAdded(w, [{ ...load, count: 1, rating: { value: exact(size.value).valueOf(), unit: size.unit } }], supply),
  ];

function lookFor(w: Worksheet, its: Case, load: AddedLoad, others: readonly Load[] = its.added): Largest {
  const of = withOne(w, its, load, others);
  const largest = largestOf(w, its.service, sizesOf(w, load.kind), of);
  prove(w, its.service, largest, of, loadName(load));
  w.part("Largest that fits");
  if (largest.fits) {
    const size = w.given(`largest ${loadName(load)} that fits`, { n: largest.fits.value, unit: largest.fits.unit });
    w.figure("largest-that-fits", size);
    if (isCharger(load)) {
      const design = w.work(
        "its circuit, continuous",
        "A",
        calc`${size} × ${w.constant("ev-circuit-factor")}`,
        "ev-circuit",
      );
      w.figure("circuit-rating", nextBreaker(w, design, "circuit of that charger"));
    }
  }
  return largest;
}

function sayLargest(w: Worksheet, { fits, next }: Largest, name: string, load: AddedLoad, leads: boolean): string {
  if (!fits) return next ? `Not even a ${sayOf(next)} ${name} fits.` : "";
  const circuit = isCharger(load) ? ` (${w.figures["circuit-rating"]!.value} A circuit)` : "";
  const not = next ? `; ${sayOf(next)} does not` : ", the largest that is looked for";
  return leads ? `Largest ${name} that fits: ${sayOf(fits)}${circuit}${not}.` : `${sayOf(fits)} fits${circuit}${not}.`;
}

/** What to do where it does not fit: the largest that does, a setting, a larger service. */
function instead(w: Worksheet, its: Case, what: string): string {
  const { service, rated, added, found } = its;
  const because = tooMuch(w, its, what);
  const chargers = rated.filter(isCharger);
  const focus = numberOf(chargers) === 1 ? chargers[0] : numberOf(rated) === 1 ? rated[0] : undefined;
  const others = focus ? added.filter((_, i) => rated[i] !== focus) : [];
  const largest = focus && focus.kind !== "other" ? lookFor(w, its, focus, others) : undefined;
  w.part("A larger service");
  const least = service.house && w.constant<"A">("one-family-minimum-service");
  const large = tooLarge(w, service, added);
  const all = large ? w.work("the larger of both", "A", calc`max(${found.current}, ${large.alone})`) : found.current;
  const bigger = serviceRating(w, all, least);
  w.figure("service-rating", bigger, "service rating for all of it");
  const setting = focus && isCharger(focus) ? settingFor(w, its, focus, others) : undefined;
  const whole = focus && isCharger(focus) && w.edition.rule("managed-service") !== "not stated"
    ? holdService(w, service)
    : undefined;
  const size = focus?.rating ? `${focus.rating.value} ${focus.rating.unit}` : "all of it";
  return [
    `Not OK as asked: ${because}.`,
    largest && focus && (largest.fits || !setting) ? sayLargest(w, largest, loadName(focus), focus, false) : "",
    setting
      ? w.say`${size} fits if set or managed to ${setting}${
        whole ? w.say`, or if a listed system holds the service to ${whole}` : ""
      }, or on a ${bigger} service.`
      : w.say`${size === "all of it" ? "All of it" : size} takes a ${bigger} service.`,
  ].filter((part) => part !== "").join(" ");
}

/** The highest whole ampere to which the charger may be set. */
function settingFor(w: Worksheet, its: Case, load: AddedLoad, others: readonly Load[]): Known<"A"> | undefined {
  const { rating } = load;
  if (rating?.unit !== "A") return undefined;
  const managed = { ...its.service, isManaged: true };
  const of = withOne(w, its, load, others);
  const largest = largestOf(w, managed, settings(Number(rating.value)), of);
  if (!largest.fits) return undefined;
  prove(w, managed, largest, of, "setting");
  w.part("Setting");
  const setting = w.given("highest setting that fits", { n: largest.fits.value, unit: "A" }, undefined, "managed-load");
  w.figure("managed-setpoint", setting, "setting at which the charger fits");
  return setting;
}

/** A system that holds the whole service counts at its setpoint, as a continuous load. */
function holdService(w: Worksheet, { rating }: Service): Known<"A"> {
  const setpoint = w.work(
    "setpoint that the whole service may be held to",
    "A",
    calc`${rating} ÷ ${w.constant("continuous-load-factor")}`,
    "managed-load",
  );
  w.figure("service-setpoint", setpoint, "setting that holds the whole service");
  return setpoint;
}
