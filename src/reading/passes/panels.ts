/** Circuits of a panel that are told by their volt-amperes alone: `kitchen 1800, 1500, 900 all single pole, balance them`. */
import { isUsualSupply } from "../families.ts";
import type { Value } from "../facts.ts";
import type { Piece, Sense } from "../sense.ts";
import type { Token } from "../tokens.ts";
import type { Draft, Reading } from "./reading.ts";

const LEAST = 100;
const MOST = 40_000;
/** One figure alone may be anything. */
const LEAST_LISTED = 2;

/** Bare figures of a panel whose circuits are to be laid out: each is a circuit's, or that of the load whose name it touches. */
export function schedules(r: Reading): void {
  legLists(r);
  if (!isLaidOut(r)) return;
  ownNumbers(r);
  countedCircuits(r);
  powersInRow(r);
  const told = r.pieces.flatMap(({ senses }, at) => {
    const powers = r.used.has(at) ? [] : powersOf(senses);
    return powers.length > 0 && r.facts.every((fact) => fact.at !== at) ? [{ at, powers }] : [];
  });
  // `then 120s: …`: what all of them run on.
  for (const { at, powers } of told) {
    if (r.typed(at + 1) !== "s" || !isUsualSupply(powers[0]!)) continue;
    r.free.push({
      key: "V",
      value: r.value({ is: "quantity", n: powers[0]!, unit: "V" }, at),
      sentence: r.sentences[at]!,
    });
  }
  const listed = told.filter(({ at, powers }) => !r.used.has(at) && !powers.every(isUsualSupply));
  if (listed.reduce((sum, { powers }) => sum + powers.length, 0) < LEAST_LISTED) return;
  for (const { at, powers } of listed) {
    const values = powers.map((n) => ({
      ...r.value({ is: "quantity", n, unit: "VA" }, at),
      note: `took "${r.said([at])}" as VA`,
    }));
    const named = r.facts.find(({ family, id, pieces, slots }) =>
      (family === "load" || family === "circuit" && id !== "circuit") && pieces.includes(at - 1) && !slots.rating
    );
    if (named) {
      named.slots.rating = values.slice(0, 1);
      continue;
    }
    for (const value of values) put(r, at, value);
  }
  r.facts.sort((a, b) => a.at - b.at);
}

/** `leg A has kitchen 1500, laundry 1500. leg B bath 1500 and disposal 800`: what is listed behind a leg is on it. */
function legLists(r: Reading): void {
  const isAsked = isLaidOut(r) ||
    r.pieces.some((_, i) => r.isTerm(i, "goal", "neutral-current") || r.isTerm(i, "label", "neutral-load"));
  const legs = r.pieces.flatMap((_, at) => LEGS.flatMap((id) => r.isTerm(at, "leg", id) ? [{ at, id }] : []));
  if (!isAsked || new Set(legs.map(({ id }) => id)).size < 2) return;
  const listed = legs.map(({ at, id }, i) => {
    const end = legs[i + 1]?.at ?? r.pieces.length;
    const figures = r.pieces.flatMap((_, k): { at: number; sense: Sense }[] => {
      if (k <= at || k >= end || r.sentences[k] !== r.sentences[at] || r.used.has(k)) return [];
      const own = powerAt(r, k) ??
        powersOf(r.pieces[k]!.senses).map((n): Sense => ({ is: "quantity", n, unit: "VA" }))[0];
      return own ? [{ at: k, sense: own }] : [];
    });
    return { at, id, figures };
  });
  // One figure a leg is all that stands on it.
  const count = listed.reduce((sum, { figures }) => sum + figures.length, 0);
  if (listed.some(({ figures }) => figures.length === 0) || count <= legs.length) return;
  for (const { at, id, figures } of listed) {
    for (const figure of figures) {
      const rating = r.value(figure.sense, figure.at);
      const isNamed = ({ family, pieces, slots }: Draft) =>
        (family === "load" || family === "circuit") && pieces.includes(figure.at - 1) && !slots.rating;
      const named = r.facts.find(isNamed);
      if (named) named.slots.rating = [rating];
      else put(r, figure.at, rating);
      (named ?? r.facts.at(-1)!).slots.leg = [r.value({ is: "term", sort: "leg", id }, at)];
    }
  }
  r.facts.sort((a, b) => a.at - b.at);
}
const LEGS = ["A", "B", "C"] as const;
const isLaidOut = (r: Reading): boolean =>
  r.pieces.some((_, i) => r.isTerm(i, "goal", "panel-schedule", "leg-loads")) ||
  r.pieces.some((_, i) => r.isTerm(i, "device", "panel", "subpanel")) &&
    r.pieces.some((_, i) => r.isTerm(i, "circuit", "balanced-neutral"));
/** The figures of a piece that may be volt-amperes; `800 / 500` is read as a pair. */
const powersOf = (senses: readonly Sense[]): number[] => {
  const found = senses.flatMap((s) =>
    s.is === "number" ? [s.n] : s.is === "pair" && s.unit === undefined ? [s.a, s.b] : []
  );
  return found.every((n) => Number.isInteger(n) && n >= LEAST && n <= MOST) ? found : [];
};

/** `2400, 1800 and 900 VA`: items of a list, each of a circuit without a name. */
function powersInRow(r: Reading): void {
  const isOfAnother = (at: number) =>
    r.pieces[at] !== undefined && (r.isThing(at) || r.isLabel(at) || r.isFigure(at) || r.isCircuit(at));
  const isItem = (at: number) => r.endsItem(at + 1) && !isOfAnother(at - 1);
  const items = r.pieces.flatMap((_, at) => {
    const power = powerAt(r, at);
    return power && unitIs(power, "VA", "W") && isItem(at) ? [{ at, power }] : [];
  });
  const inRow = items.filter(({ at }) => items.some((other) => Math.abs(other.at - at) === 2));
  for (const { at, power } of inRow) put(r, at, r.value(power, at));
}
const unitIs = (sense: Sense, ...units: string[]): boolean => sense.is === "quantity" && units.includes(sense.unit);

/** `four circuits: 15 amps, 12 amps, 9 amps and 8 amps`: as many figures of one unit as were counted, each of one. */
function countedCircuits(r: Reading): void {
  for (
    const circuits of r.facts.filter(({ family, id, said }) =>
      family === "circuit" && id === "circuit" && /s$/i.test(said)
    )
  ) {
    const count = r.pieces[circuits.at - 1]?.senses.find((s) => s.is === "number");
    const figures = r.pieces.flatMap(({ senses }, at) => {
      const sense = senses.find((s) => s.is === "quantity");
      const isHere = at > circuits.at && r.sentences[at] === circuits.sentence && !r.used.has(at);
      return isHere && sense?.is === "quantity" && POWERS.has(sense.unit) ? [{ at, sense }] : [];
    });
    const [first] = figures;
    if (count?.is !== "number" || figures.length !== count.n || figures.length < LEAST_LISTED) continue;
    if (figures.some(({ sense }) => sense.unit !== first!.sense.unit)) continue;
    for (const { at, sense } of figures) put(r, at, r.value(sense, at));
  }
}
const POWERS: ReadonlySet<string> = new Set(["A", "W", "kW", "VA", "kVA"]);
function put(r: Reading, at: number, rating: Value): void {
  const fact = r.draft("load", undefined, at);
  fact.whole = true;
  fact.slots[rating.sense.is === "quantity" && rating.sense.unit === "A" ? "current" : "rating"] = [rating];
  r.facts.push(fact);
}

/** `ckt 3 900 VA`, `circuit 5: 1500`: behind one circuit a number is its own, and counts none. */
function ownNumbers(r: Reading): void {
  for (const circuit of r.facts.filter(({ family, id }) => family === "circuit" && id === "circuit")) {
    const at = Math.max(...circuit.pieces) + 1;
    const sense = r.pieces[at]?.senses.find((s) => s.is === "number");
    if (sense?.is !== "number" || !Number.isInteger(sense.n) || sense.n < 1 || sense.n > MOST_SPACES) continue;
    // `1300 VA circuit 3` as well.
    const before = circuit.at - 1;
    const behind = r.typed(at + 1) === ":" ? at + 2 : at + 1;
    const figure = powerAt(r, behind) ? behind : r.endsItem(at + 1) && powerAt(r, before) ? before : undefined;
    const isNext = r.pieces[at + 1] !== undefined && (r.isFigure(at + 1) || r.typed(at + 1) === ":");
    if (/s$/i.test(circuit.said) || !isNext && figure === undefined) continue;
    r.used.add(at);
    circuit.pieces.push(at);
    circuit.whole = true;
    if (figure === undefined || r.isThing(figure + 1)) continue;
    put(r, figure, r.value(powerAt(r, figure)!, figure));
    const words = `circuit ${sense.n}`;
    r.facts.at(-1)!.slots.name = [{ sense: { is: "words", words }, pieces: [], said: words }];
  }
}
const powerAt = (r: Reading, at: number): Sense | undefined =>
  r.used.has(at) ? undefined : r.pieces[at]?.senses.find((s) => s.is === "quantity" && POWERS.has(s.unit));
const MOST_SPACES = 84;

/** `ckt 3`: a circuit that is called by its number, with the piece of that number and those of all of it. */
export function circuitNumber(
  pieces: readonly Piece[],
  tokens: readonly Token[],
): { at: number; pieces: number[]; said: string } | undefined {
  for (let i = 0; i < pieces.length - 1; i++) {
    const isCircuit = pieces[i]!.senses.some((s) => s.is === "term" && s.sort === "circuit" && s.id === "circuit");
    const word = tokens[pieces[i]!.to - 1]!.text;
    const at = tokens[pieces[i + 1]!.from]!.text === "#" ? i + 2 : i + 1;
    const number = pieces[at]?.senses.find(({ is }) => is === "number") as { n: number } | undefined;
    if (!isCircuit || word.endsWith("s") || !number || !Number.isInteger(number.n)) continue;
    return { at, pieces: Array.from({ length: at - i + 1 }, (_, k) => i + k), said: `circuit ${number.n}` };
  }
  return undefined;
}
