/**
 * From a calculated load to the service or feeder that carries it: rating, line conductors, neutral, grounding, and the verdict
 * on a rating that was put up. Shared by the kinds that add up loads of what is no single dwelling.
 */
import * as z from "zod";
import { calc } from "../../core/formula.ts";
import type { Known, Reasoned, Told } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { type Material, MATERIALS } from "../../rules/conductors.ts";
import { dwellingConductor, serviceRating, supplyColumn } from "../../rules/dwelling-service.ts";
import { ELECTRODES, equipmentGround, type Supply } from "../../rules/grounding.ts";
import {
  leastFeederNeutral,
  leastServiceNeutral,
  type LineConductor,
  neutralByColumn,
  neutralConductor,
} from "../../rules/neutral.ts";
import { lineByAmpacity } from "../../rules/supply-conductors.ts";
import { asQuantity, quantity } from "./quantities.ts";
import { writeElectrode } from "./electrodes.ts";
import { groundService } from "./service-grounding.ts";
import { ledBy } from "./verdict.ts";
import { terminals } from "./wiring.ts";

/** Fields of a request on the service or feeder. */
export const serviceFields = {
  /** Where the panel stands: at the service disconnect, or after it (then it is fed by a feeder, its neutral isolated). */
  panel: z.enum(["at the service disconnect", "after the service disconnect"]).optional(),
  /** A rating put up for checking. */
  service: quantity(["A"], { A: 6000 }).optional(),
  material: z.enum(MATERIALS).optional(),
  electrode: z.enum(ELECTRODES).optional(),
  /** Of the terminations at both ends, as marked. */
  terminals,
};
type ServiceFields = z.output<z.ZodObject<typeof serviceFields>>;

/** Figures that such an answer gives. */
/** Figures of a load that two methods of the code may give. */
export const METHOD_FIGURES = {
  "standard-method-load": "standard method load",
  "optional-method-load": "optional method load",
  "calculated-load": "calculated load",
  "calculated-current": "calculated current",
} as const;
/** Figures of its neutral. */
export const NEUTRAL_FIGURES = { "neutral-load": "neutral load", "neutral-current": "neutral current" } as const;
export const SERVICE_FIGURES = {
  "service-rating": "service rating",
  "ungrounded-conductor": "ungrounded conductor",
  "neutral-conductor": "neutral conductor",
  "parallel-sets": "parallel sets",
  "grounding-electrode-conductor": "grounding electrode conductor",
  "main-bonding-jumper": "main bonding jumper",
  "equipment-grounding-conductor": "equipment grounding conductor",
  "neutral-bond": "neutral bond",
  "spare-current": "spare current",
} as const;

/** These fields as they would be typed. */
export const writeService = ({ panel, service, material, electrode, terminals }: ServiceFields): string[] =>
  [
    panel && `panel ${panel}`,
    service && `service to check ${service.value} A`,
    material,
    electrode && writeElectrode(electrode),
    terminals && `${terminals.value} °C terminals`,
  ].filter((part) => part !== undefined);

/** A load that was calculated, as a supply has to carry it. */
type Calculated = {
  /** What picks the rating and the lines: with the addition for continuous loads, where they have one. */
  current: Known<"A">;
  /** Least rating of such a service or feeder, where a rule names one. */
  least?: Known<"A"> | undefined;
  /** What the neutral carries, its own reductions made; none where nothing stands between it and the lines. */
  neutral?: Known<"A"> | undefined;
  /** Whether the supply has a neutral: to a service it is run whether or not it carries a load. */
  hasNeutral?: boolean;
  /** Whether a rule asks for a neutral as large as the lines, whatever it carries. */
  fullNeutral?: boolean;
  /** Whether nonlinear loads add up in the neutral, so that it may need to be larger than the lines. */
  addsUp?: boolean;
  /** Whether it is all the load of one dwelling, whose conductors may go by the dwelling rule. */
  isDwelling?: boolean;
  /** The calculation in a few words, for the verdict. */
  because: string;
};
type Served = RatingChecked & {
  what: "service" | "feeder";
  /** Whether the least rating decided, and not the load. */
  isLeast: boolean;
  line: LineConductor;
  material: Material;
  /** The same of the other metal. */
  instead: LineConductor;
  other: Material;
  neutral?: Known<"size">;
};

/** A rating that was put up for a load: kept where it is enough, and what stands against it where it is not. */
type RatingChecked = { rating: Known<"A">; verdict?: Reasoned | undefined };

/** Works the service or feeder of a calculated load and gives its figures. */
export function serve(w: Worksheet, told: ServiceFields, load: Calculated): Served {
  const isFeeder = told.panel === "after the service disconnect";
  const what = isFeeder ? "feeder" : "service";
  w.part(isFeeder ? "Feeder" : "Service");
  const { rating, verdict } = checkRating(w, told, load, serviceRating(w, load.current, load.least), what);
  w.figure("service-rating", rating, `${what} rating`);
  spare(w, rating, load.current);

  const material: Material = told.material ?? (w.word(w.assume("conductor-material")) as Material);
  const other = MATERIALS.find((each) => each !== material)!;
  w.part("Conductors");
  const supplied = { rating, isFeeder, isNetwork: false, terminals: told.terminals && asQuantity(told.terminals) };
  const column = supplyColumn(w, supplied);
  const lines = (of: Material) =>
    load.isDwelling
      ? dwellingConductor(w, supplied, column, load.current, of)
      : lineByAmpacity(w, { rating, current: load.current }, column, of);
  const line = lines(material);
  w.figure("ungrounded-conductor", line.size, `ungrounded conductor, ${material}`);
  if (line.sets) w.figure("parallel-sets", line.sets);
  const instead = lines(other);
  const supply: Supply = { size: line.size, material, ...(line.sets && { sets: line.sets }) };
  const neutral = neutralOf(w, load, { rating, supply, line, column, material, isFeeder });
  if (neutral) w.figure("neutral-conductor", neutral, `neutral conductor, ${material}`);
  if (isFeeder) groundFeeder(w, rating, line, neutral !== undefined);
  else groundService(w, supply, told.electrode);
  if (material === "aluminum") {
    w.caution(
      "Aluminum: terminals marked for it, oxide inhibitor where their maker asks, and the torque they are marked with.",
    );
  }
  const isLeast = load.least !== undefined && !told.service &&
    w.scratch(() => w.holds(serviceRating(w, load.current), "<", rating));
  return { what, rating, verdict, isLeast, line, material, instead, other, ...(neutral && { neutral }) };
}

type Lines = {
  rating: Known<"A">;
  supply: Supply;
  line: LineConductor;
  column: Known<"°C">;
  material: Material;
  isFeeder: boolean;
};

/** The neutral by its load and not below its floor; a service of a supply that has one gets it with no load on it as well. */
function neutralOf(
  w: Worksheet,
  { neutral, hasNeutral, fullNeutral, addsUp = false }: Calculated,
  { rating, supply, line, column, material, isFeeder }: Lines,
): Known<"size"> | undefined {
  if (fullNeutral) return line.size;
  if (!neutral && (isFeeder || !hasNeutral)) return undefined;
  const floor = isFeeder ? leastFeederNeutral(w, rating, material, line.sets) : leastServiceNeutral(w, supply);
  if (!neutral) return floor;
  const clause = isFeeder ? "feeder-neutral-minimum" : "grounded-conductor-minimum";
  return neutralConductor(w, neutralByColumn(w, neutral, line, column, material), floor, line, { clause, addsUp });
}

/** A rating that was put up keeps its place; the verdict says whether it is enough. */
export function checkRating(
  w: Worksheet,
  { service }: Pick<ServiceFields, "service">,
  { current, because }: Pick<Calculated, "current" | "because">,
  needed: Known<"A">,
  what: string,
): RatingChecked {
  if (!service) return { rating: needed };
  const rating = w.given(`${what} put up for checking`, asQuantity(service));
  return w.choose<RatingChecked>(`is that ${what} enough`, [rating, "≥", needed], ["yes", () => ({
    rating,
    verdict: { is: "ok", because: w.say`${because}, and ${needed} is the least rating for it` },
  })], ["no", () => {
    const why = w.holds(current, "≤", rating)
      ? w.say`${because}, and the least rating here is ${needed}`
      : w.say`${because}, which needs ${needed}; ${rating} is too small`;
    return { rating: needed, verdict: { is: "not ok", because: why } };
  }]);
}

/** What is left up to the rating; the fraction that was dropped to pick it is no lack. */
function spare(w: Worksheet, rating: Known<"A">, current: Known<"A">): void {
  const used = w.holds(current, "≤", rating) ? current : w.work("of it used", "A", calc`min(${rating}, ${current})`);
  w.figure("spare-current", w.work("spare up to that rating", "A", calc`${rating} − ${used}`));
}

function groundFeeder(w: Worksheet, rating: Known<"A">, { sets }: LineConductor, hasNeutral: boolean): void {
  w.part("Grounding");
  w.figure(
    "equipment-grounding-conductor",
    equipmentGround(w, rating, "copper"),
    "copper equipment grounding conductor",
  );
  if (sets) {
    w.caution("Parallel raceways: this ground in each of them, at its full size.", "equipment-grounding-parallel");
  }
  if (!hasNeutral) return;
  w.figure(
    "neutral-bond",
    w.given("neutral at this panel", "isolated", "it is bonded at the service disconnect only", "neutral-bond-once"),
    "neutral bond",
  );
  w.caution(
    "Leave the bonding screw or strap out of this panel: neutral bar isolated, grounds on their own bar.",
    "neutral-bond-once",
  );
}

/** Conductors in few words, of both metals: `4/0 copper (or 300 kcmil aluminum), neutral 1/0`. */
export function conductorsInWords(w: Worksheet, { line, instead, material, other, neutral }: Served): string {
  const sets = (of: LineConductor) => of.sets ? w.say`${of.sets} sets of ` : "";
  const ofNeutral = neutral ? w.say`, neutral ${neutral}` : "";
  return w.say`${sets(line)}${line.size} ${material} (or ${sets(instead)}${instead.size} ${other})${ofNeutral}`;
}

/** The service or feeder in a line: whether the one put up is enough and what to take instead, or what is needed for which load. */
export function tellServed(
  w: Worksheet,
  { what, rating, verdict }: RatingChecked & { what: string },
  { load, words, of = "" }: { load: string; words: string; of?: string },
): Told {
  const headline = verdict?.is === "ok"
    ? w.say`OK, a ${rating} ${what} is enough${of}: ${verdict.because}. ${words}.`
    : verdict
    ? w.say`Not OK: ${verdict.because}. Take ${rating}: ${words}.`
    : w.say`${rating} ${what}${of}: ${load}. ${words}.`;
  return { headline, verdict };
}

/** The answer to a service or feeder that was put up: the verdict, and what to take; undefined where none was. */
export const tellPutUp = (w: Worksheet, { rating, verdict }: RatingChecked, conductors: string): Told | undefined =>
  verdict && ledBy(verdict, `${verdict.is === "not ok" ? w.say`Take ${rating}: ` : ""}${conductors}`);
