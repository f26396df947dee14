/** Figures of a list that share one unit, said once. */
import type { Piece } from "./pieces.ts";
import type { Token } from "./tokens.ts";
import type { SpokenUnit } from "./units.ts";

/** What may stand between the figures of a list that share one unit. */
const JOINTS = new Set([",", "and", "&", "+", "plus"]);
/** Units of which lists are written: `10, 15 and 25 hp`. */
const LISTED: readonly SpokenUnit[] = ["hp"];
/** `10, 15 and 25 hp`: the unit said last is meant for all; a voltage before it is none of them. */
export function shareUnits(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const out = inThePlural(pieces, tokens);
  for (let i = out.length - 1; i > 0; i--) {
    const unit = out[i]!.senses.find((s) => s.is === "quantity");
    if (unit?.is !== "quantity" || !LISTED.includes(unit.unit)) continue;
    let at = i;
    let isJoined = false;
    const list: number[] = [];
    for (;;) {
      let before = at - 1;
      let joints = 0;
      while (before >= 0 && out[before]!.to - out[before]!.from === 1 && JOINTS.has(tokens[out[before]!.from]!.text)) {
        isJoined ||= tokens[out[before]!.from]!.text !== ",";
        joints++;
        before--;
      }
      const sense = out[before]?.senses.find((s) => s.is === "number");
      if (joints === 0 || sense?.is !== "number" || sense.n > MOST_LISTED) break;
      list.push(before);
      at = before;
    }
    if (!isJoined) continue;
    for (const each of list) {
      const sense = out[each]!.senses.find((s) => s.is === "number") as { n: number; exact?: string };
      const exact = sense.exact !== undefined ? { exact: sense.exact } : {};
      out[each] = { ...out[each]!, senses: [{ is: "quantity", n: sense.n, ...exact, unit: unit.unit }] };
    }
  }
  return out;
}
/** Above it a bare number is a voltage rather than a power. */
const MOST_LISTED = 100;

/** `a 20 hp and two 5s`: a number in the plural is in the unit of the power before it, or else of the one behind. */
function inThePlural(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const out: Piece[] = [];
  const unitOf = ({ senses }: Piece): SpokenUnit | undefined => {
    const figure = senses.find((s) => s.is === "quantity");
    return figure?.is === "quantity" && IN_THE_PLURAL.includes(figure.unit) ? figure.unit : undefined;
  };
  const isBorder = ({ is }: Piece) => is === "border";
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i]!;
    const s = tokens[piece.to];
    const sense = piece.senses.find((each) => each.is === "number");
    const isMany = sense?.is === "number" && sense.n <= MOST_LISTED && s?.text === "s" && s.glued &&
      pieces[i + 1]?.to === piece.to + 1;
    const from = pieces.slice(0, i).findLastIndex(isBorder) + 1;
    const to = pieces.findIndex((each, k) => k > i && isBorder(each));
    const unit = isMany
      ? pieces.slice(from, i).map(unitOf).findLast(Boolean) ??
        pieces.slice(i, to < 0 ? pieces.length : to).map(unitOf).find(Boolean)
      : undefined;
    if (unit === undefined) out.push(piece);
    else {
      const { n } = sense as { n: number };
      out.push({ ...piece, senses: [{ is: "quantity", n, unit, from: `${n}s` }], to: piece.to + 1 });
      i++;
    }
  }
  return out;
}
/** Units that figures in the plural are told without. */
const IN_THE_PLURAL: readonly SpokenUnit[] = ["hp", "kW"];
