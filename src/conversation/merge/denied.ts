/** Figures that stood there before and are said not to: `the peak was 29 kVA, not 92 A`, `forget the 208, leave it at 460`. */
import type { Fact, Free, Value } from "../../reading/facts.ts";
import { readText } from "../../reading/read.ts";
import { type Sense, TAKEN_BACK } from "../../reading/sense.ts";
import { isStaying, measureOf } from "./facts.ts";
import { renewed, unitOf } from "../reply.ts";
import type { Figure, Place } from "./facts.ts";
import { singleTold } from "./free.ts";
import type { Merging } from "./state.ts";

const ARTICLES = new Set(["a", "an", "the", "just", "only", "my"]);
const NOT = new Set(["not", "never", "isn't", "wasn't", "aint", "ain't"]);

/** What a piece says by itself; of one that the reader took back, what it was. */
function figureAt({ text: { asked, tokens, pieces } }: Merging, at: number): { n: number; unit?: string } | undefined {
  const piece = pieces[at];
  const [sense] = piece?.senses ?? [];
  if (!piece || !sense) return undefined;
  const was: Sense | undefined = sense.is === "aside" && sense.because === TAKEN_BACK
    ? readText(asked.slice(tokens[piece.from]!.at, tokens[piece.to - 1]!.end)).pieces[0]?.senses[0]
    : sense;
  if (was?.is === "number") return { n: was.n };
  return was?.is === "quantity" ? { n: was.n, unit: was.unit } : undefined;
}
/** Pieces that a `not` denies. */
const deniedIn = ({ text: { tokens, pieces } }: Merging): number[] =>
  pieces.flatMap((piece, at) => {
    let before = piece.from - 1;
    while (ARTICLES.has(tokens[before]?.text ?? "")) before--;
    return NOT.has(tokens[before]?.text ?? "") ? [at] : [];
  });
/** What a voltage alone is kept as as well. */
const SHADOWS = new Set(["nominal-volts", "supply-volts"]);
/** Where a figure is known: of a head, or by itself. */
function placeOf(m: Merging, { n, unit }: { n: number; unit?: string }): Place | undefined {
  const isIt = ({ sense }: Value) =>
    (sense.is === "quantity" && (unit === undefined || sense.unit === unit) || sense.is === "number") && sense.n === n;
  const free = m.free.filter(({ key, value }) => !SHADOWS.has(key) && isIt(value));
  // `its 12/2 not 14`: a wire's size as well.
  const isSize = ({ sense }: Value) =>
    unit === undefined && (sense.is === "size" || sense.is === "cable") && sense.size === String(n);
  const facts = m.facts.flatMap((fact) =>
    Object.entries(fact.slots).flatMap(([slot, values]) =>
      slot !== "count" && (isIt(values[0]!) || isSize(values[0]!)) ? [{ fact, slot }] : []
    )
  );
  if (facts.length + free.length !== 1) return undefined;
  return facts[0] ? { ...facts[0], index: 0 } : { free: free[0]! };
}
/** What is said not to be is told of nothing. */
function withoutDenied(m: Merging, at: number): void {
  const isOther = ({ pieces }: Value) => !pieces.includes(at);
  const facts = m.news.facts.flatMap((fact): Fact[] => {
    const slots = Object.fromEntries(
      Object.entries(fact.slots).flatMap(([slot, values]) =>
        values.some(isOther) ? [[slot, values.filter(isOther)] as const] : []
      ),
    );
    return fact.pieces.length === 0 && Object.keys(slots).length === 0 && Object.keys(fact.slots).length > 0
      ? []
      : [{ ...fact, slots }];
  });
  m.news = { facts, free: m.news.free.filter(({ value }) => isOther(value)) };
}

/** `92 A`, behind `not`: it is none of what is told, and where it stood the other figure of the text stands. */
export function denied(m: Merging): void {
  for (const at of deniedIn(m)) {
    const wrong = figureAt(m, at);
    if (!wrong) continue;
    withoutDenied(m, at);
    const place = placeOf(m, wrong);
    if (!place) continue;
    m.used.add(at);
    if (!wireInItsPlace(m, place)) inItsPlace(m, place, at);
  }
}
/** `its 12/2 not 14`: the wire that is told instead. */
function wireInItsPlace(m: Merging, place: Place): boolean {
  const wires = m.news.facts.filter(({ family, slots }) => family === "conductor" && slots.size);
  const sense = m.senseAt(place);
  if (wires.length !== 1 || !("fact" in place) || sense?.is !== "size" && sense?.is !== "cable") return false;
  m.fill(place.fact, { size: wires[0]!.slots.size! });
  m.settleFact(wires[0]!);
  return true;
}
/** The one other figure of the text, in the place of what is denied; told with a label of its own, it goes by that. */
function inItsPlace(m: Merging, place: Place, at: number): void {
  const others = m.figures().filter(({ value }) => !value.pieces.includes(at));
  const [right, ...more] = others;
  if (!right || more.length > 0 || isSettled(m, right)) return;
  const like = m.senseAt(place);
  if (!like) return;
  if (right.unit === undefined || right.unit === unitOf({ ...right.value, sense: like })) {
    const sense = renewed(like, right.n);
    if (!sense) return;
    m.put(place, { ...right.value, sense });
  } else if ("fact" in place && place.fact.family === "load" && "slots" in right.from && measureOf(right.from.slots)) {
    m.fill(place.fact, right.from.slots);
  } else if ("free" in place && place.free.key !== unitOf({ ...right.value, sense: like })) {
    // A label that has its figure in amperes or in kW.
    m.put(place, right.value);
  } else return;
  m.settle(right);
}
const isSettled = (m: Merging, { from }: Figure): boolean => "key" in from ? m.placed.has(from) : m.settled.has(from);

/** `forget the 208, leave it at 460`: what stays, or comes again, stands in the place of what is forgotten. */
export function leftAt(m: Merging): boolean {
  const { pieces, tokens } = m.text;
  const free = m.news.free.filter(({ key, value }) => ["number", "V"].includes(key) && value.pieces.length > 0);
  const kept = free.filter(({ value }) => isStaying(tokens, pieces[value.pieces[0]!]!.from));
  const gone = free.filter((each) => !kept.includes(each));
  const [stays, left] = [kept[0], gone[0]];
  if (!m.removes || kept.length !== 1 || gone.length !== 1 || !stays || !left) return false;
  const figure = figureAt(m, left.value.pieces[0]!);
  const [is, was] = [figureAt(m, stays.value.pieces[0]!), figure && placeOf(m, figure)];
  const like = was && m.senseAt(was);
  const sense = like && is && renewed(like, is.n);
  if (!was || !sense) return false;
  const pieceOf = ({ value }: Free) => value.pieces[0];
  for (const each of m.news.free) {
    if (each === stays || pieceOf(each) === pieceOf(left)) m.placed.add(each);
  }
  for (const piece of [...stays.value.pieces, ...left.value.pieces]) m.used.add(piece);
  if ("free" in was) singleTold(m, { ...was.free, value: { ...stays.value, sense } });
  else m.put(was, { ...stays.value, sense });
  return true;
}
