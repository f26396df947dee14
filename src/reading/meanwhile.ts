/** `70 amps when the welder and the saw are going`: what runs while something is measured or guessed is no thing of its own. */
import type { Piece, Sense } from "./sense.ts";
import type { Token } from "./tokens.ts";

const RUNNING: Sense = { is: "aside", because: "what runs at that time" };
const WHEN = new Set(["when", "while", "whenever", "once"]);
const RUNS = new Set(["going", "running", "runs", "run", "on", "kicks", "kick", "firing", "go", "goes"]);
/** How far the clause may reach. */
const REACH = 12;

export function withoutMeanwhile(pieces: readonly Piece[], tokens: readonly Token[]): Piece[] {
  const last = (i: number): string => tokens[pieces[i]!.to - 1]!.text;
  const isThing = ({ senses }: Piece): boolean =>
    senses.some((s) => s.is === "term" && (s.sort === "appliance" || s.sort === "machine"));
  const isPlain = (piece: Piece): boolean =>
    isThing(piece) || piece.is === "common" || piece.is === "unknown" ||
    // `kick on`, `run together`
    piece.senses.every((s) => s.is === "term" && (s.sort === "motorWord" || s.sort === "hours"));
  const clauses = pieces.flatMap((_, at) => {
    if (!WHEN.has(last(at))) return [];
    let end = at + 1;
    while (pieces[end] && end - at <= REACH && isPlain(pieces[end]!)) end++;
    const clause = pieces.slice(at, end);
    return clause.some((piece, k) => k > 0 && RUNS.has(last(at + k)) && !isThing(piece)) ? [[at, end] as const] : [];
  });
  return pieces.map((piece, i) =>
    isThing(piece) && clauses.some(([from, to]) => i > from && i < to) ? { ...piece, senses: [RUNNING] } : piece
  );
}
