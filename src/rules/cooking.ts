/** Household electric cooking equipment: the demand table, its columns and its notes. */
import { calc } from "../core/formula.ts";
import { NotCovered } from "../core/outcome.ts";
import { printValue } from "../core/print.ts";
import type { Formula, Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { perPhasePair, type Spread, threePhases } from "./three-phase.ts";

/** Pieces of one rating: how many, the nameplate of each, and how they lie between the phases where it was told. */
type Cooking = {
  count: Known<"1">;
  rating: Known<"VA">;
  piece: "range" | "wall-oven" | "cooktop";
  spread?: Spread | undefined;
};
type CookingDemand = { connected: Known<"VA">; demand: Known<"VA"> };

const TABLE = "household-cooking-demand";
const CLAUSE = "cooking";

/** Thresholds of the table, looked up once a worksheet needs them. */
function thresholds(w: Worksheet) {
  return {
    smallest: w.constant<"VA">("cooking-smallest"),
    columnABelow: w.constant<"VA">("cooking-column-a-below"),
    columnBTo: w.constant<"VA">("cooking-column-b-to"),
    largest: w.constant<"VA">("cooking-largest"),
  };
}

const total = (w: Worksheet, pieces: readonly Cooking[], name: string): Known<"VA"> => {
  const parts = pieces.map(({ count, rating, piece }) =>
    w.work(`${piece}, nameplates`, "VA", calc`${count} × ${rating}`)
  );
  return parts.length === 1 ? parts[0]! : w.work(name, "VA", calc`sum(${parts})`);
};
const number = (w: Worksheet, pieces: readonly Cooking[], name: string): Known<"1"> => {
  const counts = pieces.map(({ count }) => count);
  return counts.length === 1 ? counts[0]! : w.work(name, "1", calc`sum(${counts})`);
};

/**
 * What is connected, as the balanced load that stands for it where the phases are loaded unevenly: as many pieces between two
 * phases as the table is entered with, each at the largest nameplate.
 */
function nameplatesOnThreePhases(w: Worksheet, pieces: readonly Cooking[]): Known<"VA"> {
  const inTable = perPhasePair(w, number(w, pieces, "appliances"), "appliances", spreads(pieces));
  const most = w.work("largest nameplate", "VA", calc`max(${pieces.map(({ rating }) => rating)})`);
  const two = w.work("nameplates between two phases", "VA", calc`${inTable} × ${most}`);
  return threePhases(w, two, "nameplates on three phases", CLAUSE);
}

const spreads = (pieces: readonly Cooking[]) => pieces.map(({ spread }) => spread);

/** Column C: a demand for the whole group by its number, raised where ratings go above the column's base. */
function columnC(w: Worksheet, pieces: readonly Cooking[], threePhase: boolean): Known<"VA"> {
  const count = number(w, pieces, "appliances for column C");
  const inTable = threePhase ? perPhasePair(w, count, "appliances", spreads(pieces)) : count;
  const fixed = w.lookUp<"VA">("column C", TABLE, "column C", inTable);
  const each = w.lookUp<"VA">("column C, for each appliance", TABLE, "column C each", inTable);
  const plain = w.holds(each, ">", calc`0 × ${each}`)
    ? w.work("column C demand", "VA", calc`${fixed} + ${each} × ${inTable}`, CLAUSE)
    : fixed;
  const raised = raise(w, pieces, plain);
  return threePhase ? threePhases(w, raised, "column C demand on three phases", CLAUSE) : raised;
}

/** Notes 1 and 2: for each step, or major fraction of one, that the (average) rating is above the base, so many percent more. */
function raise(w: Worksheet, pieces: readonly Cooking[], plain: Known<"VA">): Known<"VA"> {
  const base = w.constant<"VA">("cooking-base");
  if (pieces.every(({ rating }) => w.holds(rating, "≤", base))) return plain;
  // Small pieces never bring the average down: only those the note speaks of are averaged.
  const columnBTo = w.constant<"VA">("cooking-column-b-to");
  const large = pieces.filter(({ rating }) => w.holds(rating, ">", columnBTo));
  const counted = large.map(({ count, rating }) =>
    w.work("counted at no less than the base", "VA", calc`${count} × max(${rating}, ${base})`)
  );
  const average = w.work(
    "average rating",
    "VA",
    calc`sum(${counted}) ÷ ${number(w, large, "appliances averaged")}`,
    CLAUSE,
  );
  const step = w.constant<"VA">("cooking-step");
  const increase = w.constant<"%">("cooking-step-increase");
  const steps = w.work(
    "steps above the base, a half counting whole",
    "1",
    calc`round((${average} − ${base}) ÷ ${step})`,
    CLAUSE,
  );
  return w.work("column C demand, raised", "VA", calc`${plain} × (1 + ${steps} × ${increase})`, CLAUSE);
}

/** Note 3: nameplates times a percentage; each column with its own count. */
function percentages(
  w: Worksheet,
  pieces: readonly Cooking[],
  columnABelow: Known<"VA">,
  threePhase: boolean,
): Known<"VA"> {
  const isA = ({ rating }: Cooking) => w.holds(rating, "<", columnABelow);
  const columns = [
    { name: "column A", of: pieces.filter(isA) },
    { name: "column B", of: pieces.filter((piece) => !isA(piece)) },
  ].filter(({ of }) => of.length > 0);
  const demands = columns.map(({ name, of }) => {
    const count = number(w, of, `appliances in ${name}`);
    const sum = total(w, of, `nameplates in ${name}`);
    const inTable = threePhase ? perPhasePair(w, count, "appliances", spreads(of)) : count;
    const share = w.lookUp<"%">(name, TABLE, name, inTable);
    if (!threePhase) return w.work(`${name} demand`, "VA", calc`${sum} × ${share}`, CLAUSE);
    const isMixed = new Set(of.map(({ rating }) => printValue(w.value(rating)))).size > 1;
    const two = w.work(
      `${name} demand between two phases`,
      "VA",
      calc`${sum} ÷ ${count} × ${inTable} × ${share}`,
      CLAUSE,
      isMixed ? "the pieces are of several ratings: each between these phases is taken at their average" : undefined,
    );
    return threePhases(w, two, `${name} demand on three phases`, CLAUSE);
  });
  return demands.length === 1 ? demands[0]! : w.work("demand by columns A and B", "VA", calc`sum(${demands})`, CLAUSE);
}

/**
 * The demand of household cooking equipment on a feeder or service: every permitted way is worked, and the lowest chosen,
 * unless `only` names one.
 * @throws NotCovered above the largest rating the table's notes reach.
 */
export function cookingDemand(
  w: Worksheet,
  all: readonly Cooking[],
  supply: { threePhase?: boolean; only?: "column C" | "note 3" } = {},
): CookingDemand {
  const { only } = supply;
  const { smallest, columnABelow, columnBTo, largest } = thresholds(w);
  const beyond = all.find(({ rating }) => w.holds(rating, ">", largest));
  if (beyond) {
    throw new NotCovered(
      `the cooking table and its notes end at ${printValue(w.value(largest))}; ${
        printValue(w.value(beyond.rating))
      } is above it: use the nameplate`,
      w.edition.id,
    );
  }
  const connected = total(w, all, "cooking nameplates");
  const tiny = all.filter(({ rating }) => w.holds(rating, "≤", smallest));
  const pieces = all.filter((piece) => !tiny.includes(piece));
  const atNameplate = tiny.length > 0 ? [total(w, tiny, "too small for the table, at nameplate")] : [];
  if (pieces.length === 0) return { connected, demand: connected };

  // One alone lies between two lines, whatever the supply: there is nothing to balance it over three phases.
  const isAlone = supply.threePhase === true && w.holds(calc`sum(${pieces.map(({ count }) => count)})`, "≤", calc`1`);
  if (isAlone) w.given("one alone between two lines", "not doubled", undefined, CLAUSE);
  const threePhase = supply.threePhase === true && !isAlone;
  const small = pieces.filter(({ rating }) => w.holds(rating, "≤", columnBTo));
  const large = pieces.filter((piece) => !small.includes(piece));
  const ways: Known<"VA">[] = [];
  if (only !== "note 3" || small.length === 0) ways.push(columnC(w, pieces, threePhase));
  if (only !== "column C" && small.length > 0) {
    const byShare = percentages(w, small, columnABelow, threePhase);
    ways.push(
      large.length === 0 ? byShare : w.work(
        "small ones by percentage, large ones by column C",
        "VA",
        calc`${byShare} + ${columnC(w, large, threePhase)}`,
        CLAUSE,
      ),
    );
  }
  // A column that was asked for may give more than all that is connected, which no demand is.
  if (only) ways.push(threePhase ? nameplatesOnThreePhases(w, pieces) : total(w, pieces, "nameplates"));
  const lowest = w.work("cooking demand, the lowest permitted", "VA", calc`min(${ways})`, CLAUSE);
  if (atNameplate.length === 0) return { connected, demand: lowest };
  return { connected, demand: w.work("cooking demand", "VA", calc`${lowest} + sum(${atNameplate})`, CLAUSE) };
}

/**
 * The load of household cooking equipment on one branch circuit: a range by the table, a lone oven or cooktop at its
 * nameplate, and a cooktop with one or two ovens added up and taken as one range.
 * @throws NotCovered for any other company on one circuit.
 */
export function cookingBranchLoad(w: Worksheet, pieces: readonly Cooking[]): CookingDemand {
  const connected = total(w, pieces, "cooking nameplates");
  const counts = (piece: Cooking["piece"]) => pieces.filter((p) => p.piece === piece);
  const one = w.given("one branch circuit", { n: "1", unit: "1" });
  const many = (of: readonly Cooking[]) => of.length === 0 ? undefined : number(w, of, "on this circuit");
  const [ranges, cooktops, ovens] = [many(counts("range")), many(counts("cooktop")), many(counts("wall-oven"))];
  const atMost = (n: Known<"1"> | undefined, most: Formula) => n === undefined || w.holds(n, "≤", most);
  if (!ranges && !(cooktops && ovens) && atMost(cooktops ?? ovens, calc`1`)) {
    const demand = w.work(
      "branch-circuit load, at nameplate",
      "VA",
      calc`${one} × ${connected}`,
      "cooking-branch-circuit",
    );
    return { connected, demand };
  }
  const asOne = ranges
    ? !cooktops && !ovens && atMost(ranges, calc`1`)
    : atMost(cooktops, calc`1`) && atMost(ovens, calc`2`) && cooktops !== undefined;
  if (!asOne) {
    throw new NotCovered(
      "one branch circuit may hold one range, one oven, one cooktop, or one cooktop with up to two ovens in the same room",
      w.edition.id,
    );
  }
  const { demand } = cookingDemand(w, [{ count: one, rating: connected, piece: "range" }]);
  return { connected, demand };
}
