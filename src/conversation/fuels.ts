/** What burns gas from now on: `it's all on propane except the ac`, `wh too`. */
import type { Fact, Value } from "../reading/facts.ts";
import type { ReadText } from "../reading/read.ts";

/** Appliances that are made for gas as well. */
const BURNS: ReadonlySet<string> = new Set([
  "range",
  "cooktop",
  "oven",
  "wall-oven",
  "dryer",
  "water-heater",
  "furnace",
  "boiler",
  "space-heater",
  "pool-heater",
  "fireplace",
  "heat",
]);
const ALL = new Set(["all", "everything", "every", "whole", "entire"]);
const BUT = new Set(["except", "but", "besides", "excluding", "minus"]);
const TOO = /\b(?:too|also|as well|same (?:for|with))\b/i;

const fuelOf = ({ facts: { facts, free } }: ReadText): Value | undefined =>
  free.find(({ key }) => key.startsWith("fuel:"))?.value ?? facts.flatMap(({ slots }) => slots.fuel ?? [])[0];
/** The known loads that a text gives a fuel together, and the fuel; those that it excepts are none of them. */
export function fuelOfAll(text: ReadText, known: readonly Fact[]): { fuel: Value; of: Fact[] } | undefined {
  const fuel = fuelOf(text);
  const words = text.tokens.map(({ text }) => text);
  const but = words.findIndex((word) => BUT.has(word));
  const at = (piece: number): number => text.pieces[piece]?.from ?? -1;
  const named = text.facts.facts.filter(({ family, pieces }) => family === "load" && pieces.length > 0);
  const isBefore = ({ pieces }: Fact) => but < 0 || at(pieces[0]!) < but;
  if (!fuel || !words.some((word) => ALL.has(word)) || named.some(isBefore)) return undefined;
  return {
    fuel,
    of: known.filter(({ family, id }) =>
      family === "load" && BURNS.has(id ?? "") && !named.some((except) => except.id === id)
    ),
  };
}
/** Whether it says of what it names that the same holds as of what was told last. */
export const saysToo = ({ asked }: ReadText): boolean => TOO.test(asked);
