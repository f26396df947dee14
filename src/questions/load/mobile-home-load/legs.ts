/** The loads of a mobile home in amperes on its two legs: between the lines on both, to the neutral on the lighter one. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Load, System } from "../../../rules/loads.ts";

export type Leg = "A" | "B";
/** Amperes of one appliance, on both legs or on one. */
export type Item = { name: string; current: Known<"A">; leg?: Leg };
export type OnLegs = { A: Known<"A">; B: Known<"A">; items: readonly Item[] };

const amount = (w: Worksheet, current: Known<"A">): number => w.scratch(() => w.measure(current).n.valueOf());

/** One of a load in amperes, at a share of its nameplate where a rule has one. */
export function amperesOf(
  w: Worksheet,
  load: Load,
  { lineToLine, lineToNeutral }: System,
  share?: Known<"%">,
): Known<"A"> {
  const volts = load.lineToNeutral ? lineToNeutral : lineToLine;
  return w.work(
    `${load.name}, amperes`,
    "A",
    share ? calc`${load.each} × ${share} ÷ ${volts}` : calc`${load.each} ÷ ${volts}`,
    "mobile-home-load",
  );
}

/** Each of a load's pieces, its leg open where it lies to the neutral and none was told. */
export const piecesOf = (load: Load, current: Known<"A">): (Item & { lineToNeutral: boolean })[] =>
  Array.from({ length: load.said.count }, () => ({
    name: load.name,
    current,
    lineToNeutral: load.lineToNeutral,
    ...(load.lineToNeutral && load.said.leg && { leg: load.said.leg }),
  }));

/** Puts what lies to the neutral on the lighter leg, the largest first, so that the legs balance. */
export function balance(w: Worksheet, pieces: readonly (Item & { lineToNeutral: boolean })[]): Item[] {
  const on = { A: 0, B: 0 };
  for (const { leg, current } of pieces) if (leg) on[leg] += amount(w, current);
  const open = pieces.filter(({ lineToNeutral, leg }) => lineToNeutral && !leg)
    .toSorted((a, b) => amount(w, b.current) - amount(w, a.current));
  const placed = open.map(({ name, current }): Item => {
    const leg: Leg = on.A <= on.B ? "A" : "B";
    on[leg] += amount(w, current);
    return { name, current, leg };
  });
  if (placed.length > 1) {
    w.suppose(
      "legs",
      placed.map(({ name, leg }) => `${name} on ${leg}`).join(", "),
      "nothing was told of them; they are balanced",
      `${placed[0]!.name} on leg B`,
      "mobile-home-load",
    );
  }
  const others = pieces.filter(({ lineToNeutral, leg }) => !lineToNeutral || leg)
    .map(({ name, current, leg }): Item => ({ name, current, ...(leg && { leg }) }));
  return [...others, ...placed];
}

/** What each leg carries, with what is on both alike. */
export function sumLegs(w: Worksheet, both: readonly Known<"A">[], items: readonly Item[]): OnLegs {
  const on = (leg: Leg) =>
    items.filter((item) => item.leg === undefined || item.leg === leg).map(({ current }) => current);
  const leg = (which: Leg) => w.work(`leg ${which}`, "A", calc`sum(${[...both, ...on(which)]})`, "mobile-home-load");
  return { A: leg("A"), B: leg("B"), items };
}
