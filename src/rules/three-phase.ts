/** Single-phase loads on a three-phase supply: spread over its lines, and what the line that is most loaded carries of them. */
import { calc } from "../core/formula.ts";
import { exact, type Fraction } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/** How many of some appliances lie between each two phases, where it was told: A-B, B-C, C-A. */
export type Spread = readonly [Known<"1">, Known<"1">, Known<"1">];

/** A spread as a request tells it, as steps; undefined where none was told. */
export function spreadOf(w: Worksheet, told: readonly number[] | undefined, what: string): Spread | undefined {
  if (!told) return undefined;
  return PAIRS.map((pair, i) => w.given(`${what} between ${pair}`, { n: String(told[i]), unit: "1" })) as never;
}
const PAIRS = ["A and B", "B and C", "C and A"] as const;

/** The spread of several groups together; undefined unless each has one. */
function together(w: Worksheet, spreads: readonly (Spread | undefined)[], what: string): Spread | undefined {
  const [first, ...others] = spreads.filter((spread) => spread !== undefined);
  if (!first || others.length + 1 < spreads.length) return undefined;
  if (others.length === 0) return first;
  return PAIRS.map((pair, i) =>
    w.work(`all ${what} between ${pair}`, "1", calc`sum(${[first, ...others].map((spread) => spread[i]!)})`)
  ) as never;
}

/**
 * What the demand tables are entered with: twice the largest number between any two phases, as told or spread as evenly as can
 * be.
 */
export function perPhasePair(
  w: Worksheet,
  count: Known<"1">,
  what: string,
  spreads: readonly (Spread | undefined)[] = [],
): Known<"1"> {
  const told = together(w, spreads, what);
  const name = `most ${what} between two phases`;
  const most = told
    ? w.work(name, "1", calc`max(${told})`)
    : w.work(name, "1", calc`roundUp(${count} ÷ ${w.given("phases", { n: "3", unit: "1" })})`);
  return w.work(`${what} to enter the table with`, "1", calc`2 × ${most}`);
}

/** The demand of two phases as the equivalent three-phase load: half of it is one phase's. */
export function threePhases(w: Worksheet, two: Known<"VA">, name: string, clause: string): Known<"VA"> {
  const phases = w.given("phases", { n: "3", unit: "1" });
  return w.work(name, "VA", calc`${two} ÷ 2 × ${phases}`, clause);
}

/** Loads of one phase that are alike. */
export type Single<U extends "VA" | "A" = "VA"> = { name: string; count: number; each: Known<U> };
/** Single-phase loads that do not balance. */
export type Uneven<U extends "VA" | "A" = "VA"> = {
  /** What lies between which lines, as it is listed. */
  words: string;
  /** All of them. */
  load: Known<U>;
  /** What they put on the line that is most loaded: a current, or that times the voltage between the lines. */
  most: Known<U>;
};

/** Single-phase loads between the lines of a three-phase supply; undefined where all pairs of lines have the same. */
export function unevenPairs<U extends "VA" | "A">(
  w: Worksheet,
  singles: readonly Single<U>[],
  unit: U,
): Uneven<U> | undefined {
  const [first, ...others] = spread(w, singles, PAIRS.length);
  return others.every(({ sum }) => sum.equals(first!.sum)) ? undefined : onPairs(w, singles, unit);
}

/**
 * Single-phase loads spread over the pairs of lines as evenly as they can be. The currents of two pairs meet in their common line
 * 60° apart: √(x² + x y + y²), which is √3 x where both are alike.
 */
export function onPairs<U extends "VA" | "A">(w: Worksheet, singles: readonly Single<U>[], unit: U): Uneven<U> {
  const pairs = spread(w, singles, PAIRS.length).map((place, i) => ({ ...place, name: PAIRS[i]! }))
    .filter(({ some }) => some.length > 0).toSorted((a, b) => b.sum.compare(a.sum));
  const loads = pairs.map(({ name, some }) => loadOf(w, some, `single-phase loads between ${name}`, unit));
  const [x, y] = loads;
  // What every pair has as many of balances by itself, and is not told.
  const isUneven = ({ each, count }: Single<U>) =>
    pairs.length < PAIRS.length ||
    pairs.some(({ some }) => some.find((other) => other.each === each)?.count !== count);
  const told = pairs.map(({ name, some }) => ({ name, uneven: some.filter(isUneven) }));
  return {
    words: told.filter(({ uneven }) => uneven.length > 0)
      .map(({ name, uneven }) => `${uneven.map(inWords).join(" and ")} between ${name}`).join(", ") || "balanced",
    load: loads.length === 1 ? x! : w.work("single-phase loads together", unit, calc`sum(${loads})`),
    most: y
      ? w.work("of them on the most loaded line", unit, calc`sqrt(${x!} × ${x!} + ${x!} × ${y} + ${y} × ${y})`)
      : x!,
  };
}

/**
 * Equipment between one line and the neutral, spread over the lines in the same way: how much more one line has of it than an
 * even share of all that stands to neutral. Undefined up to such a share: circuits of lamps and receptacles make up for it.
 */
export function unevenToNeutral(
  w: Worksheet,
  singles: readonly Single[],
  toNeutral: Known<"VA">,
  lines: 2 | 3,
): Known<"VA"> | undefined {
  const most = spread(w, singles, lines).reduce((one, other) => other.sum.compare(one.sum) > 0 ? other : one);
  if (most.sum.mul(lines).compare(amount(w, toNeutral)) <= 0) return undefined;
  const onOne = loadOf(w, most.some, "equipment between one line and the neutral", "VA");
  const count = w.given("lines", { n: String(lines), unit: "1" });
  return w.work("of it beyond an even share", "VA", calc`${onOne} − ${toNeutral} ÷ ${count}`);
}

type Place<U extends "VA" | "A"> = { some: Single<U>[]; sum: Fraction };

/** As many on each place as come out even; of the rest, the largest first, each where least is. */
function spread<U extends "VA" | "A">(w: Worksheet, singles: readonly Single<U>[], places: number): Place<U>[] {
  // However a list was split: what is of one size is one group.
  const groups = Map.groupBy(singles, ({ each }) => amount(w, each).toFraction()).values()
    .map((some): Single<U> => ({
      name: [...new Set(some.map(({ name }) => name))].join(" or "),
      count: some.reduce((sum, { count }) => sum + count, 0),
      each: some[0]!.each,
    })).toArray().toSorted((a, b) => amount(w, b.each).compare(amount(w, a.each)));
  const on = Array.from({ length: places }, (): Place<U> => ({ some: [], sum: exact(0) }));
  for (const group of groups) {
    for (let i = 0; i < group.count % places; i++) put(w, leastOf(on), { ...group, count: 1 });
  }
  for (const group of groups.filter(({ count }) => count >= places)) {
    for (const place of on) put(w, place, { ...group, count: Math.floor(group.count / places) });
  }
  return on;
}

const leastOf = <U extends "VA" | "A">(places: readonly Place<U>[]) =>
  places.reduce((one, other) => other.sum.compare(one.sum) < 0 ? other : one);

function put<U extends "VA" | "A">(w: Worksheet, place: Place<U>, single: Single<U>): void {
  const same = place.some.findIndex(({ each }) => each === single.each);
  if (same >= 0) place.some[same] = { ...single, count: place.some[same]!.count + single.count };
  else place.some.push(single);
  place.sum = place.sum.add(amount(w, single.each).mul(single.count));
}

function loadOf<U extends "VA" | "A">(w: Worksheet, some: readonly Single<U>[], name: string, unit: U): Known<U> {
  const parts = some.map(({ name, count, each }) =>
    count === 1 ? each : w.work(
      `${name}, ${count} of them`,
      unit,
      calc`${w.given("so many", { n: String(count), unit: "1" })} × ${each}`,
    )
  );
  return w.work(name, unit, calc`sum(${parts})`);
}

const inWords = ({ name, count }: Pick<Single, "name" | "count">) => count === 1 ? name : `${count} × ${name}`;
const amount = (w: Worksheet, load: Known<"VA" | "A">): Fraction => w.measure(load).n;
