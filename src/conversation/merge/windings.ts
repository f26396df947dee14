/** Voltages of a transformer's sides, and the two of a motor's plate. */
import type { Free, Value } from "../../reading/facts.ts";
import type { Side, Winding } from "../../reading/sense.ts";
import { isUsualSupply } from "../../reading/families.ts";
import { is } from "../../reading/manner.ts";
import { FED, isMachine, type Writable } from "./facts.ts";
import type { Merging } from "./state.ts";

/** `120 on the low side`: a number, and the side it is of. */
export function atEnds(m: Merging): void {
  const figures = m.news.free.filter(({ key }) => ["V", "kV", "system", "number"].includes(key));
  const transformer = m.transformer();
  if (!transformer || figures.length !== 1) return;
  const end = m.news.free.find(({ key }) => key === "end:primary" || key === "end:secondary") ??
    inOrOut(m, figures[0]!) ?? fedFrom(m, figures[0]!);
  if (!end) return sideAgain(m, figures[0]!);
  const { sense } = figures[0]!.value;
  const winding = sense.is === "system"
    ? { n: sense.high, unit: "V" as const, low: sense.low, wye: sense.wye }
    : { n: (sense as { n: number }).n, unit: figures[0]!.key === "kV" ? "kV" as const : "V" as const };
  rewind(m, transformer, end.key === "end:primary" ? "primary" : "secondary", winding, figures[0]!.value);
  for (const each of [end, figures[0]!]) {
    m.placed.add(each);
    for (const piece of each.value.pieces) m.used.add(piece);
  }
}
/** `back to 208`: a voltage that one side had before. */
function sideAgain(m: Merging, figure: Free): void {
  const { sense } = figure.value;
  const place = m.news.free.some(({ key }) => key === "change:back-to") && "n" in sense
    ? m.earlier(sense.n)
    : undefined;
  if (!place || !("fact" in place) || place.slot !== "windings" || !("n" in sense)) return;
  rewind(m, place.fact, place.index === 0 ? "primary" : "secondary", { n: sense.n, unit: "V" }, figure.value);
  m.placed.add(figure);
  for (const piece of figure.value.pieces) m.used.add(piece);
}
/** `240 out`, `480 in`. */
function inOrOut(m: Merging, figure: Free): Free | undefined {
  const piece = m.text.pieces[figure.value.pieces.at(-1)!];
  const [next, after] = [m.text.tokens[piece?.to ?? 0], m.text.tokens[(piece?.to ?? 0) + 1]];
  const side = next?.text === "out" ? "secondary" : next?.text === "in" && after?.is !== "word" ? "primary" : undefined;
  return side && { ...figure, key: `end:${side}` };
}
/** `coming off 240`, `fed at 240`: what supplies it. */
function fedFrom(m: Merging, figure: Free): Free | undefined {
  const at = m.text.pieces[figure.value.pieces[0]!]?.from ?? 0;
  const near = m.text.tokens.slice(Math.max(0, at - 3), at + 4).map(({ text }) => text);
  return near.some((word) => FED.has(word)) ? { ...figure, key: "end:primary" } : undefined;
}
/** Another voltage of one side. */
export function rewind(m: Merging, transformer: Writable, side: Side, winding: Winding, by: Value): void {
  const [value] = transformer.slots.windings!;
  if (value?.sense.is !== "windings") return;
  const index = side === "primary" ? 0 : 1;
  m.past.push({ fact: m.facts.indexOf(transformer), slot: "windings", index, n: value.sense[side].n });
  transformer.slots.windings = [{ ...by, sense: { ...value.sense, [side]: { ...winding } } }];
  m.told = { fact: transformer, slot: "windings", index };
}

/** `plate shows 230/460 and we have 480`: of a motor of two voltages the one that there is counts. */
export function plateOfTwo(m: Merging): void {
  const told = m.news.free.find(({ key, value: { sense } }) => key === "system" && sense.is === "system" && !sense.wye);
  const supply = m.news.free.find(({ key, value: { sense } }) =>
    (key === "V" || key === "number") && "n" in sense && typeof sense.n === "number" && isUsualSupply(sense.n)
  );
  const isMotor = m.facts.some(({ family, id, slots }) => family === "load" && isMachine(id) && slots.rating);
  if (!is(m.known, "one load") || !isMotor || !told || !supply) return;
  m.placed.add(told);
  for (const piece of told.value.pieces) m.used.add(piece);
  m.notes.push(
    `took the supply's ${supply.value.said.trim()} V, for which a ${told.value.said.trim()} V motor is connected`,
  );
}
