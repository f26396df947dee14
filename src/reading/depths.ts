/** `depth`, which is a label of a figure beside it, and asked for where what lies there is made to be buried. */
import type { Sort } from "./lexicon/lexicon.ts";
import type { Piece } from "./sense.ts";

const BURIED = new Set(["UF cable", "direct-burial conductors"]);
/** `UF to the shed, depth?`: of what is made to be buried, and no figure beside the word. */
export function withDepths(pieces: readonly Piece[]): readonly Piece[] {
  const isTerm = (piece: Piece | undefined, sort: Sort, is: (id: string) => boolean): boolean =>
    piece?.senses.some((s) => s.is === "term" && s.sort === sort && is(s.id)) ?? false;
  if (!pieces.some((piece) => isTerm(piece, "method", (id) => BURIED.has(id)))) return pieces;
  const isFigure = (piece: Piece | undefined): boolean =>
    piece?.senses.some(({ is }) => is === "quantity" || is === "number") ?? false;
  return pieces.map((piece, i) =>
    isTerm(piece, "label", (id) => id === "depth") && !isFigure(pieces[i - 1]) && !isFigure(pieces[i + 1])
      ? { ...piece, senses: [{ is: "term", sort: "goal", id: "burial-depth" }] }
      : piece
  );
}
