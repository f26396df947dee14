/** Where and how conductors run, as a request says it, worked out to all that decides what they carry. */
import { calc } from "../core/formula.ts";
import { convert, exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { ambientOf, type Temperature } from "./ambient.ts";
import { ampacityOf, degreesOf, type Material, type Wiring } from "./conductors.ts";
import { largestBreaker } from "./overcurrent.ts";
import { insulationOf, isLimited, type Method, terminationsOf, type WhenUnmarked } from "./wiring-methods.ts";

/** Insulation types by their letters; `tables/` knows their temperature ratings. */
export const INSULATIONS = [
  "THHN",
  "THWN",
  "THWN-2",
  "THW",
  "THW-2",
  "THHW",
  "XHHW",
  "XHHW-2",
  "RHH",
  "RHW",
  "RHW-2",
  "TW",
  "USE",
  "USE-2",
] as const;
export type Insulation = typeof INSULATIONS[number];

/** What a request says of the wiring; everything left out is assumed and listed. */
export type Conditions = {
  material?: Material | undefined;
  method?: Method | undefined;
  insulation?: Insulation | undefined;
  wet?: boolean | undefined;
  terminals?: { value: number | string; unit: "°C" } | undefined;
  ambient?: Temperature | undefined;
  /** Close above a roof in the sun. */
  rooftop?: boolean | undefined;
  /** How far above it, where that was told. */
  aboveRoof?: { value: number | string; unit: "in" | "ft" } | undefined;
  /** Touching or inside thermal insulation. */
  inInsulation?: boolean | undefined;
  /** Current-carrying conductors in the raceway, cable or bundle. */
  conductors?: number | undefined;
};

/** Insulation: by its letters, by the cable's article, or assumed. */
function insulation(w: Worksheet, said: Conditions): Known<"°C"> {
  if (said.insulation === undefined) return insulationOf(w, said.method);
  const place = said.wet ? "wet" : "dry";
  const type = said.wet ? inWetPlace(w, said.insulation) : said.insulation;
  return w.lookUp<"°C">(`${type} insulation, ${place} place`, "insulation-temperature", place, type);
}

/** Wire sold as THHN carries a second mark for wet places, and only that one counts there. */
function inWetPlace(w: Worksheet, said: Insulation): Insulation {
  if (said !== "THHN") return said;
  w.suppose(
    "insulation in a wet place",
    "THWN",
    "THHN alone may not lie in a wet place; most of it is marked THWN too",
    "THWN-2",
  );
  return "THWN";
}

/** The air around the conductors, with what the sun adds close above a roof. */
function ambient(w: Worksheet, said: Conditions): Known<"°C"> {
  const air = ambientOf(w, said.ambient);
  if (!said.rooftop) return air;
  if (said.insulation === "XHHW-2") {
    w.suppose("rooftop adder", "none", "this insulation needs no adder", "THWN-2", "rooftop");
    return air;
  }
  const adder = w.constant<"°C">("rooftop-adder");
  const height = w.constant<"in">("rooftop-height");
  const sunlit = () => w.work("ambient with the rooftop adder", "°C", calc`${air} + ${adder}`, "rooftop");
  if (said.aboveRoof) {
    const { value, unit } = said.aboveRoof;
    const told = w.given("height above the roof", convert({ n: exact(value).toFraction(), unit }, "in"));
    return w.choose<Known<"°C">>(
      "height above the roof",
      [told, "<", height],
      ["so close that the sun adds", sunlit],
      ["far enough", () => air],
      "rooftop",
    );
  }
  w.suppose(
    "height above the roof",
    w.say`less than ${height}`,
    "on the roof in the sun, and no height was told",
    "not on the roof",
    "rooftop",
  );
  return sunlit();
}

/** The column the terminations allow, or a cable's own article. */
const terminals = (w: Worksheet, said: Conditions, rating: Known<"A">, whenUnmarked?: WhenUnmarked): Known<"°C"> =>
  terminationsOf(w, rating, said.method, said.terminals && asRating(said.terminals), whenUnmarked);
const asRating = ({ value }: { value: number | string }) => ({ n: exact(value).toFraction(), unit: "°C" as const });

/**
 * The same request with terminations marked for the higher column, and the condition that makes: a plan that holds only
 * so is neither right nor wrong. Undefined where the marking was told or a cable's own article leaves nothing open.
 */
export function markedHigher<R extends Conditions>(w: Worksheet, said: R): { r: R; condition: string } | undefined {
  if (said.terminals !== undefined || isLimited(said.method)) return undefined;
  return w.scratch(() => {
    const column = w.constant<"°C">("terminal-temperature-large");
    const cable = said.method ? "" : ", and it is not NM or UF cable";
    return {
      r: { ...said, terminals: { value: degreesOf(w, column), unit: "°C" as const } },
      condition: w.say`both ends are marked for ${column}${cable}`,
    };
  });
}

/**
 * Everything that decides what a conductor carries here. `rating` is the circuit's: it picks the column of terminations
 * whose marking is not known. `whenUnmarked` replaces the general column of unmarked terminations where equipment has a rule of its own.
 */
export function wiringOf(
  w: Worksheet,
  said: Conditions,
  rating: Known<"A">,
  { count, whenUnmarked }: {
    count?: Known<"1">;
    whenUnmarked?: WhenUnmarked;
  } = {},
): Wiring {
  const material = said.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
  return {
    material,
    insulation: insulation(w, said),
    terminals: terminals(w, said, rating, whenUnmarked),
    ambient: ambient(w, said),
    count: count ?? w.take(
      "current-carrying conductors together",
      said.conductors === undefined ? undefined : { n: String(said.conductors), unit: "1" },
      "current-carrying-conductors",
    ),
    ...(said.method && { method: said.method }),
    ...(said.inInsulation && { inInsulation: true }),
  };
}

/**
 * The rating that picks the column of unmarked terminations where only the conductor is known: that of the largest breaker
 * it may have. Above the lower column's reach the higher one holds, and with it a larger breaker.
 */
export function ratingOfConductor(
  w: Worksheet,
  size: Known<"size">,
  said: Conditions & { material: Material },
): Known<"A"> {
  const low = w.lookUp<"A">("lowest column of the table", "conductor-ampacity", `${said.material} 60 °C`, size);
  const marked = markedHigher(w, said);
  if (!marked) return low;
  const isAbove = w.scratch(() => {
    const { ampacity } = ampacityOf(w, size, wiringOf(w, marked.r, low));
    return w.holds(largestBreaker(w, ampacity), ">", w.constant<"A">("terminal-temperature-small-to"));
  });
  if (!isAbove) return low;
  const { ampacity } = ampacityOf(w, size, wiringOf(w, marked.r, low));
  return largestBreaker(w, ampacity);
}
