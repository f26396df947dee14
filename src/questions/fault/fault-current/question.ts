/** Available fault current from the transformer, or a told value, to each point of a run; and what must interrupt it. */
import { calc } from "../../../core/formula.ts";
import { need, Unclear } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy } from "../../parts/verdict.ts";
import { type Fault, faultsAt, inWords, missingOfRun, placesOf, type Point } from "./points.ts";
import { type FaultRequest, input } from "./request.ts";
import { isAtSource, loopsOf, missingOfSource, type Supply, supplyOf } from "./source.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

/** As many ends of stretches as a request may have. */
const MOST_POINTS = 12;
const POINT_FIGURES = Object.fromEntries(
  Array.from({ length: MOST_POINTS }, (_, i) => [
    [`point-${i + 1}-fault-current`, `available fault current at point ${i + 1} of the run`],
    [`point-${i + 1}-interrupting-rating`, `lowest suitable interrupting rating at point ${i + 1}`],
  ]).flat(),
);

export default question({
  id: "fault-current",
  title: "Available fault current",
  about: "Fault current at each point of a run, from the transformer on, and the interrupting rating it takes.",
  input,
  figures: {
    "available-fault-current": "available fault current",
    "interrupting-rating": "lowest suitable interrupting rating",
    "source-fault-current": "available fault current at the source",
    "line-to-line-fault-current": "line-to-line fault current",
    "line-to-neutral-fault-current": "line-to-neutral fault current",
    "highest-fault-current": "most it can be",
    ...POINT_FIGURES,
  },
  examples: [
    "available fault current: 25 kVA transformer 120/240 V, 1.6 % impedance, 60 ft of 4/0 aluminum to the meter main, 90 ft of #2 aluminum to the garage",
    "22 kA available at 208Y/120, 75 ft of 3/0 copper in steel conduit to the panel, is 14 kAIC enough?",
    "fault current of a 1000 kVA 480Y/277 three-phase transformer, 5.75 % impedance",
  ],
  manner: {
    traits: ["wires"],
    asked: "goal:fault-current",
    pointers: { "label:interrupting-rating": ["interrupting-rating"] },
  },
  takes,
  write,
  answer(r, w) {
    const needs = [...missingOfSource(w, r), ...missingOfRun(r)];
    if (needs.length > 0) throw new Unclear(needs);
    if (isAtSource(r)) return atSource(r, w);
    w.part("Source");
    const supply = supplyOf(w, r);
    const loops = loopsOf(w, r, supply, { lowest: false });
    const motors = motorsOf(w, r);
    w.part("Run");
    const temperature = r.temperature && w.given("conductor temperature", asQuantity(r.temperature));
    if (!temperature && r.run) w.assume<"°C">("fault-conductor-temperature");
    const places = placesOf(w, r, temperature);
    const points = places.map((place) => {
      w.part(`Fault at the ${place.name}`);
      return faultsAt(w, place, loops, motors);
    });
    const last = askedOf(r, points);
    const highest = highestOf(w, r, supply) ?? points.map(({ most }) => most);
    // What stands at the source is asked about only where the fault is.
    const ratings = points.map(({ name }, i) => i > 0 || last === 0 ? ratingAt(w, name, highest[i]!) : undefined);
    figures(w, r, { points, highest, ratings, last });
    const verdict = judge(w, r, points[last]!, highest[last]!);
    cautions(w, r, supply, ratings[last], highest[last]!);
    suggest(w, r);
    return ledBy(verdict, headline(w, r, { points, highest, ratings, last }));
  },
});

/** A told current with nothing behind it: only what must interrupt it is worked out. */
function atSource(r: FaultRequest, w: Worksheet): Told {
  w.part("Source");
  const most = w.given("available fault current", convert(asQuantity(r.source!), "A"));
  const found = { points: [{ name: "source", faults: [], most }], highest: [most], last: 0 };
  const ratings = [ratingAt(w, "source", most)];
  figures(w, r, { ...found, ratings });
  const verdict = judge(w, r, found.points[0]!, most);
  cautions(w, r, { isCenterTapped: false }, ratings[0], most);
  suggest(w, r);
  return ledBy(verdict, headline(w, r, { ...found, ratings }));
}

/** What running motors feed back into a fault: added in full at every point, which is on the safe side. */
function motorsOf(w: Worksheet, r: FaultRequest): Known<"A"> | undefined {
  if (!r.motors) return undefined;
  const running = w.given("full-load current of the motors", asQuantity(r.motors));
  const share = w.constant<"1">("motor-contribution");
  return w.work("the motors' share", "A", calc`${share} × ${running}`, undefined, "added in full at every point");
}

/**
 * The most that can flow where the impedance lies below its nameplate and the conductors are cold; undefined where all of that
 * was told.
 */
function highestOf(w: Worksheet, r: FaultRequest, supply: Supply): Known<"A">[] | undefined {
  const part = "At the lowest impedance";
  const { impedance, cold: isCold } = unknown(r);
  if (!impedance && !isCold) return undefined;
  w.part(part);
  w.aside(part);
  const loops = loopsOf(w, r, supply, { lowest: true });
  const motors = motorsOf(w, r);
  const cold = isCold ? w.constant<"°C">("cold-conductor-temperature") : undefined;
  const told = r.temperature && w.given("conductor temperature", asQuantity(r.temperature));
  return placesOf(w, r, cold ?? told).map((place) => faultsAt(w, place, loops, motors).most);
}

/** Undefined above the largest that is commonly made. */
function ratingAt(w: Worksheet, name: string, highest: Known<"A">): Known<"kA"> | undefined {
  w.part("Interrupting ratings");
  return w.ifCovered(() =>
    w.atLeast<"kA">(`interrupting rating at the ${name}`, "interrupting-ratings", "rating", highest)
  );
}

/** What was worked out for every point, and which of them was asked about. */
type Found = {
  points: readonly Point[];
  highest: readonly Known<"A">[];
  ratings: readonly (Known<"kA"> | undefined)[];
  last: number;
};

/** The point that was named, or the end of the last stretch. @throws Unclear where no stretch ends there. */
function askedOf({ at }: FaultRequest, points: readonly Point[]): number {
  if (at === undefined) return points.length - 1;
  const found = points.findLastIndex(({ name }) => name === at);
  if (found >= 0) return found;
  throw need("at", `No stretch ends at the ${at}: which one goes there?`, `60 ft of 4/0 aluminum to the ${at}`);
}

function figures(w: Worksheet, r: FaultRequest, { points, highest, ratings, last }: Found): void {
  const [first, asked] = [points[0]!, points[last]!];
  w.figure("available-fault-current", asked.most, `available fault current at the ${asked.name}`);
  if (ratings[last]) w.figure("interrupting-rating", ratings[last], "lowest suitable interrupting rating");
  if (points.length > 1) w.figure("source-fault-current", first.most, `available fault current at the ${first.name}`);
  if (asked.faults.length > 1) {
    for (const { loop, current } of asked.faults) {
      w.figure(`${loop.fault}-fault-current`, current, `${inWords(loop.fault)} fault current at the ${asked.name}`);
    }
  }
  if (highest[last] !== asked.most) {
    w.figure("highest-fault-current", highest[last]!, `most it can be, ${whyMore(r)}`);
  }
  points.forEach(({ name, most }, i) => {
    if (i === 0 || i === last) return;
    w.figure(`point-${i}-fault-current`, most, `available fault current at the ${name}`);
    if (ratings[i]) w.figure(`point-${i}-interrupting-rating`, ratings[i], `interrupting rating at the ${name}`);
  });
}

/** A rating that was put up, against what can flow where it stands. */
function judge(w: Worksheet, r: FaultRequest, { name, most }: Point, highest: Known<"A">): Reasoned | undefined {
  if (!r.rating) return undefined;
  w.part("The rating put up");
  const rating = w.given("interrupting rating put up", convert(asQuantity(r.rating), "kA"));
  const covers = (current: Known<"A">) =>
    w.choose(
      `rating against ${current.name}`,
      [rating, "≥", current],
      ["enough", () => true],
      ["too low", () => false],
      "interrupting-rating",
    );
  if (r.series && !covers(highest)) return judgeSeries(w, r, rating, { name, most: highest });
  if (!covers(most)) {
    return { is: "not ok", because: w.say`${rating} is less than the ${most} available at the ${name}` };
  }
  if (highest === most || covers(highest)) {
    return { is: "ok", because: w.say`${rating} covers the ${highest} that can flow at the ${name}` };
  }
  return { is: "ok if", because: w.say`no more than ${most} flows at the ${name} (${whyMore(r)} ${highest} can)` };
}

/** One of a tested combination interrupts more than its own rating, unless motors feed in behind the device ahead of it. */
function judgeSeries(
  w: Worksheet,
  r: FaultRequest,
  rating: Known<"kA">,
  { name, most }: Pick<Point, "name" | "most">,
): Reasoned {
  const combination = w
    .say`the panel is marked for a tested series combination of ${rating} behind a device of ${most} or more`;
  if (!r.motors) return { is: "ok if", because: combination };
  const motors = w.given("full-load current of the motors", asQuantity(r.motors));
  const allowed = w.work(
    "motors that may feed in behind it",
    "A",
    calc`${w.constant<"%">("series-motor-share")} × ${rating}`,
    "series-motors",
  );
  return w.holds(motors, ">", allowed)
    ? {
      is: "not ok",
      because: w
        .say`motors of ${motors} at the ${name} are more than the ${allowed} that a series rating of ${rating} allows`,
    }
    : { is: "ok if", because: combination };
}

/** What was not told and may let more flow: conductors that are cold, an impedance below its nameplate. */
function unknown(r: FaultRequest): { impedance: boolean; cold: boolean } {
  return {
    impedance: r.power !== undefined && r.source === undefined && r.tolerance === undefined,
    cold: r.run !== undefined && r.temperature === undefined,
  };
}
function whyMore(r: FaultRequest): string {
  const { impedance, cold } = unknown(r);
  return [cold && "cold", impedance && "at the lowest impedance"].filter(Boolean).join(" and ");
}

function headline(w: Worksheet, r: FaultRequest, { points, highest, ratings, last }: Found): string {
  const at = (i: number) => {
    const { name, most, faults } = points[i]!;
    const kinds = kindsOf(w, faults);
    return ratings[i]
      ? w.say`${name}: ${most}${kinds}, so ${ratings[i]} interrupting rating`
      : w.say`${name}: ${most}${kinds}, more than any interrupting rating commonly made`;
  };
  const most = highest[last] === points[last]!.most ? "" : w.say` ${capital(whyMore(r))} up to ${highest[last]!}.`;
  const others = points.map((_, i) => i).filter((i) => i !== 0 && i !== last).map(at);
  const source = last === 0 ? "" : w.say` At the ${points[0]!.name} ${points[0]!.most}.`;
  return `${capital(at(last))}.${most}${others.length > 0 ? ` Elsewhere: ${others.join("; ")}.` : ""}${source}`;
}

/** Which fault it is, and the other one beside it. */
function kindsOf(w: Worksheet, faults: readonly Fault[]): string {
  const [first, ...others] = faults.toSorted((a, b) => w.holds(a.current, "≥", b.current) ? -1 : 1);
  if (!first) return "";
  if (others.length === 0) return first.loop.fault === "three-phase" ? "" : ` ${inWords(first.loop.fault)}`;
  const beside = others.map(({ loop, current }) => w.say`${current} ${inWords(loop.fault)}`).join(", ");
  return ` ${inWords(first.loop.fault)} (${beside})`;
}
const capital = (text: string): string => text[0]!.toUpperCase() + text.slice(1);

function cautions(
  w: Worksheet,
  r: FaultRequest,
  { isCenterTapped }: Pick<Supply, "isCenterTapped">,
  rating: Known<"kA"> | undefined,
  highest: Known<"A">,
): void {
  if (!isCenterTapped) {
    w.caution(
      w.say`Service equipment outside dwellings is marked: available fault current ${highest}, and the date of the calculation.`,
      "fault-current-marking",
    );
  }
  const [lowest] = w.edition.table("interrupting-ratings").data.rows;
  const isLowest = (rating: Known<"kA">) =>
    w.scratch(() => w.holds(rating, "=", w.given("lowest", { n: String(lowest![0]), unit: "kA" })));
  if (rating && !isLowest(rating)) {
    w.caution(
      w.say`Branch breakers rated below ${rating} only as a tested series combination that the panel is marked for${
        r.motors ? ", and not where motors feed in behind it" : ""
      }.`,
      "series-ratings",
    );
  }
  if (r.power) {
    w.caution(
      "The utility may put in a larger transformer or one of lower impedance: ask it for the most there will be.",
    );
  }
}
function suggest(w: Worksheet, r: FaultRequest): void {
  if (!r.run) w.suggest("60 ft of 4/0 aluminum to the panel");
  else if (r.ratio === undefined) w.suggest("X/R 2");
  if (!r.rating) w.suggest("is 10 kAIC enough?");
}
