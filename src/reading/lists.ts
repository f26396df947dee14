/** Figures of a list that share one unit, said once. */
import type { Piece } from "./sense.ts";
import { TAKEN_BACK } from "./sense.ts";
import type { Token } from "./tokens.ts";
import type { SpokenUnit } from "./units.ts";

/** What may stand between the figures of a list that share one unit. */
const JOINTS = new Set([",", "and", "&", "+", "plus", "/"]);
/** Units of which lists are written: `10, 15 and 25 hp`; of the second ones only before a plural: `12 and 8.75 kW ranges`. */
const LISTED: readonly SpokenUnit[] = ["hp"];
/** `1800, 1500 and 900 VA`: powers of several circuits, none of them so small as a count. */
const LISTED_POWERS: readonly SpokenUnit[] = ["VA", "W"];
const LEAST_POWER = 100;
const LISTED_OF_MANY: readonly SpokenUnit[] = ["kW", "ton"];
/**
 * `10, 15 and 25 hp`: the unit said last is meant for all; a voltage before it is none of them, and what was taken back does
 * not count.
 */
export function shareUnits(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const out = inThePlural(pieces, tokens);
  for (let i = out.length - 1; i > 0; i--) {
    const unit = out[i]!.senses.find((s) => s.is === "quantity");
    if (unit?.is !== "quantity") continue;
    const after = out[i + 1];
    const isOfMany = LISTED_OF_MANY.includes(unit.unit) && after?.senses.some(({ is }) => is === "term") &&
      /s$/.test(tokens[after.to - 1]!.text);
    const isPower = LISTED_POWERS.includes(unit.unit);
    if (!LISTED.includes(unit.unit) && !isOfMany && !isPower) continue;
    let at = i;
    let isJoined = false;
    const list: number[] = [];
    for (;;) {
      let before = beforeTakenBack(out, at - 1);
      let joints = 0;
      while (before >= 0 && out[before]!.to - out[before]!.from === 1 && JOINTS.has(tokens[out[before]!.from]!.text)) {
        isJoined ||= tokens[out[before]!.from]!.text !== ",";
        joints++;
        before--;
      }
      const sense = out[before]?.senses.find((s) => s.is === "number");
      const fits = sense?.is === "number" && (isPower ? sense.n >= LEAST_POWER : sense.n <= MOST_LISTED);
      if (joints === 0 || !fits) break;
      list.push(before);
      at = before;
    }
    const counted = LISTED.includes(unit.unit) ? countedOut(out, tokens, i) : [];
    if (counted.length > list.length) list.splice(0, list.length, ...counted);
    else if (!isJoined && !(isPower && list.length > 1)) continue;
    for (const each of list) {
      const sense = out[each]!.senses.find((s) => s.is === "number") as { n: number; exact?: string };
      const exact = sense.exact !== undefined ? { exact: sense.exact } : {};
      out[each] = { ...out[each]!, senses: [{ is: "quantity", n: sense.n, ...exact, unit: unit.unit }] };
    }
  }
  return out;
}
/** `3 motors 10 15 20 hp`: as many figures as were counted, parted by nothing. */
function countedOut(pieces: readonly Piece[], tokens: readonly Token[], last: number): number[] {
  const list: number[] = [];
  for (let at = last - 1; at >= 0; at--) {
    const word = tokens[pieces[at]!.from]!.text;
    if (pieces[at]!.senses.some((s) => s.is === "number" && s.n <= MOST_LISTED)) list.push(at);
    else if (!JOINTS.has(word) && word !== ":" && !isOfSupply(pieces[at]!)) {
      const count = pieces[at - 1]?.senses.find((s) => s.is === "number" || s.is === "count") as
        | { n: number }
        | undefined;
      const isMany = pieces[at]!.senses.some(({ is }) => is === "term") && /s$/.test(tokens[pieces[at]!.to - 1]!.text);
      return isMany && count?.n === list.length + 1 ? list : [];
    }
  }
  return [];
}
/** `3 motors 460 V 3 ph 10 15 20 hp`: what all of a list run on. */
const isOfSupply = ({ senses }: Piece): boolean =>
  senses.some((s) =>
    (s.is === "quantity" && s.unit === "V") || s.is === "system" || (s.is === "term" && s.sort === "phase")
  );
/** `10 and 25, I mean 15 hp`: over the figure that was taken back, and the words that did it. */
function beforeTakenBack(pieces: readonly Piece[], from: number): number {
  let at = from;
  while (at >= 0 && pieces[at]!.is === "common" && from - at < NEAR_TAKEN_BACK) at--;
  const isBack = pieces[at]?.senses.some((s) => s.is === "aside" && s.because === TAKEN_BACK);
  return isBack ? at - 1 : from;
}
const NEAR_TAKEN_BACK = 6;
/** Above it a bare number is a voltage rather than a power. */
const MOST_LISTED = 100;

/** `a 20 hp and two 5s`: a number in the plural is in the unit of the power before it, or else of the one behind. */
function inThePlural(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const out: Piece[] = [];
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i]!;
    const s = tokens[piece.to];
    const sense = piece.senses.find((each) => each.is === "number");
    // `two 20 hp on 70s`: the devices that they are on.
    const isMany = sense?.is === "number" && tokens[piece.from - 1]?.text !== "on" && sense.n <= MOST_LISTED &&
      s?.text === "s" && s.glued &&
      pieces[i + 1]?.to === piece.to + 1;
    const unit = isMany ? unitNear(pieces, i) : undefined;
    if (unit === undefined) out.push(piece);
    else {
      const { n } = sense as { n: number };
      out.push({ ...piece, senses: [{ is: "quantity", n, unit, from: `${n}s` }], to: piece.to + 1 });
      i++;
    }
  }
  return out;
}
/** The unit of the nearest such figure before a piece in its sentence, or else of the first one behind. */
function unitNear(pieces: readonly Piece[], at: number): SpokenUnit | undefined {
  for (const way of [-1, 1]) {
    for (let i = at + way; pieces[i] && pieces[i]!.is !== "border" && Math.abs(i - at) < NEAR_PLURAL; i += way) {
      const figure = pieces[i]!.senses.find((s) => s.is === "quantity");
      if (figure?.is === "quantity" && IN_THE_PLURAL.includes(figure.unit)) return figure.unit;
    }
  }
  return undefined;
}
const NEAR_PLURAL = 60;
/** Units that figures in the plural are told without. */
const IN_THE_PLURAL: readonly SpokenUnit[] = ["hp", "kW"];
