/** Wiring methods: what temperature their conductors are made for, and what their terminations allow. */
import { calc } from "../core/formula.ts";
import type { Quantity } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

export const METHODS = [
  "conductors in conduit",
  "NM cable",
  "UF cable",
  "SE cable",
  "MC cable",
  "direct-burial conductors",
] as const;
export type Method = typeof METHODS[number];

/** Cables that their own articles hold to a lower column than their insulation would allow, by the name of their values. */
const LIMITED: Partial<Record<Method, string>> = { "NM cable": "cable-nm", "UF cable": "cable-uf" };
/** Whether a cable's own article ends its ampacity below what marked terminations would allow. */
export const isLimited = (method: Method | undefined): boolean => method !== undefined && method in LIMITED;
/** The largest size a cable is made in, with its section; undefined where its article names none here. */
export function largestMade(
  w: Worksheet,
  method: Method | undefined,
): { size: Known<"size">; section: string } | undefined {
  const cable = method && LIMITED[method];
  if (!cable) return undefined;
  const id = `${cable}-largest`;
  return { size: w.constant<"size">(id), section: w.edition.constant(id).section };
}
/** Whether the conductors come in a cable, its ground with them. */
export const isCable = (method: Method | undefined): method is Method => method?.endsWith(" cable") ?? false;
/** Whether conductors are pulled into a raceway, which then has to be large enough. */
export const needsRaceway = (method: Method | undefined): boolean =>
  method === undefined || method === "conductors in conduit";

/** Temperature rating of the insulation: as said, by the cable's article, or the assumption. */
export function insulationOf(w: Worksheet, method: Method | undefined, said?: Quantity<"°C">): Known<"°C"> {
  if (said) return w.given("insulation", said);
  const cable = method && LIMITED[method];
  return cable ? w.constant<"°C">(`${cable}-insulation`) : w.assume<"°C">("conductor-insulation");
}

/**
 * The column that terminations, or the cable's own article, allow: terminations as marked, or else the one that holds for
 * equipment of that rating when its marking is not known.
 */
export function terminationsOf(
  w: Worksheet,
  rating: Known<"A">,
  method: Method | undefined,
  said?: Quantity<"°C">,
  whenUnmarked: WhenUnmarked = byRating,
): Known<"°C"> {
  const cable = method && LIMITED[method];
  if (cable) {
    const limit = w.constant<"°C">(`${cable}-temperature`);
    return said ? w.work("column allowed", "°C", calc`min(${w.given("terminations", said)}, ${limit})`) : limit;
  }
  return said ? w.given("terminations", said) : whenUnmarked(w, rating);
}

/** What terminations of unknown marking allow. */
export type WhenUnmarked = (w: Worksheet, rating: Known<"A">) => Known<"°C">;

/** Service equipment's own column of unmarked terminations. */
export const serviceTerminals: WhenUnmarked = (w) => {
  const column = w.constant<"°C">("terminal-temperature-large");
  const why = "their marking is not known; service equipment is made for it";
  w.suppose("terminations", w.say`${column} column`, why, "60 °C terminals", "terminal-temperature");
  return column;
};

/** Terminations whose marking was told. */
export type Terminals = Quantity<"°C">;

/** What the circuit's rating allows where the marking is not known. */
export function byRating(w: Worksheet, rating: Known<"A">): Known<"°C"> {
  const most = w.constant<"A">("terminal-temperature-small-to");
  const suppose = (id: string, because: string, change: string) => {
    const column = w.constant<"°C">(id);
    w.suppose("terminations", w.say`${column} column`, because, change, "terminal-temperature");
    return column;
  };
  return w.choose(
    "terminations of unknown marking",
    [rating, "≤", most],
    [
      "the lower column",
      () =>
        suppose(
          "terminal-temperature-small",
          w.say`their marking is not known and the circuit is not over ${most}`,
          "75 °C terminals",
        ),
    ],
    [
      "the higher column",
      () => suppose("terminal-temperature-large", w.say`the circuit is over ${most}`, "60 °C terminals"),
    ],
    "terminal-temperature",
  );
}
