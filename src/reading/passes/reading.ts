/** What the passes over a text share: its pieces, how far they lie apart, and the facts in the making. */
import { assign, type FigureSide } from "../assign.ts";
import type { FamilyId, Free, Value } from "../facts.ts";
import { HEADS, LABELS } from "../families.ts";
import type { Sort } from "../lexicon/lexicon.ts";
import { isNumberWord } from "../numbers.ts";
import { type Piece, type Sense, TAKEN_BACK } from "../sense.ts";
import type { Token } from "../tokens.ts";
import { ARTICLES, CHECKS, CROSS, CROSS_COMMA, CROSS_COMMON, FACTS_AROUND } from "./words.ts";

/** A fact in the making. */
export type Draft = {
  family: FamilyId;
  id?: string;
  others: string[];
  said: string;
  pieces: number[];
  at: number;
  slots: Record<string, Value[]>;
  sentence: number;
  /** A label's name, where the head is one and not a fact yet. */
  label?: string;
  /** The head in the plural of which this is a further figure. */
  listed?: Draft;
  /** Whether a pass of its own found all its figures: it takes no others. */
  whole?: true;
};
/** What describes a figure or its head and parts neither: `each`, `(2)`. */
const isLight = (s: Sense): boolean =>
  s.is === "count" || (s.is === "aside" && s.because === TAKEN_BACK) ||
  (s.is === "term" &&
    (s.sort === "share" || s.sort === "fuel" || s.sort === "label" && s.id === "rated" ||
      s.sort === "circuit" && s.id === "part"));
const SAYS = new Set(["say", "says", "reads", "pulling", "drawing"]);
const CROSS_MARK = 0.2;
const CROSS_DASH = 1;
const CROSS_ITEM = 6;
const CROSS_LINE = 4;
const WALL = 1_000_000;
/** Labels of a nameplate, which is read out rather than asked for. */
const WANTING = new Set(
  Object.entries(LABELS).filter(([id, { ofLoad }]) => ofLoad && !["draw", "setpoint", "nameplate"].includes(id)).map((
    [id],
  ) => id),
);

/** The pieces of a text while its facts are made: what was used of them, the heads and labels so far, and what no head took. */
export class Reading {
  readonly #sums: number[];
  readonly used = new Set<number>();
  readonly facts: Draft[] = [];
  readonly labels: Draft[] = [];
  readonly free: Free[] = [];

  constructor(
    readonly asked: string,
    readonly tokens: readonly Token[],
    readonly pieces: readonly Piece[],
    readonly sentences: readonly number[],
  ) {
    this.#sums = [0];
    for (let i = 0; i < pieces.length; i++) this.#sums.push(this.#sums[i]! + this.crossing(i));
  }

  said(pieces: readonly number[]): string {
    const from = this.tokens[this.pieces[Math.min(...pieces)]!.from]!.at;
    const to = this.tokens[this.pieces[Math.max(...pieces)]!.to - 1]!.end;
    return this.asked.slice(from, to).replace(/\s+/g, " ").trim();
  }
  value(sense: Sense, ...pieces: number[]): Value {
    for (const piece of pieces) this.used.add(piece);
    return { sense, pieces, said: this.said(pieces) };
  }
  // ── what lies between
  crossing(i: number): number {
    const piece = this.pieces[i]!;
    if (piece.is === "comma") return CROSS_COMMA;
    if (piece.is === "mark") return this.parting(i);
    if (piece.senses.length > 0 && piece.senses.every(isLight)) return CROSS_COMMON;
    // `total connected comes to 300 kVA`
    if (this.isGoal(i) && this.tokens[piece.to - 1]!.text === "to") return CROSS_COMMON;
    // `the lugs say 75`
    if (SAYS.has(this.typed(i))) return CROSS_COMMON;
    if (piece.is === "common") return CROSS[this.tokens[piece.from]!.text] ?? CROSS_COMMON;
    if (piece.is === "border") {
      if (this.tokens[piece.from]!.is !== "line") return WALL;
      return this.isLabelOverValue(i) ? CROSS_MARK : CROSS_LINE;
    }
    // `HVAC, one ATM on its own circuit 1.2 kVA`: a thing that nothing knows begins an item of its own.
    const begins = piece.is === "unknown" && ["one", "a", "an"].includes(this.word(i - 1)) &&
      this.pieces[i - 2]?.is === "comma";
    return begins ? CROSS_ITEM : 1;
  }
  /** A bar, a dash or a slash between blanks parts the items of a list. */
  parting(i: number): number {
    const { from } = this.pieces[i]!;
    const { text, glued } = this.tokens[from]!;
    const isApart = !glued && !this.tokens[from + 1]?.glued;
    // `400 kcmil aluminum ... ground wire to the pipe`: a pause, where no figure is led to.
    if (text === "." && !(i + 1 < this.pieces.length && this.isFigure(i + 1))) return CROSS_COMMA;
    return text === "|" || (text === "/" && isApart) ? CROSS_COMMA : text === "-" && isApart ? CROSS_DASH : CROSS_MARK;
  }
  between = (a: number, b: number): number => this.#sums[b]! - this.#sums[a + 1]!;
  /** The pieces of the line before or behind a line's end, marks and common words left out. */
  line(end: number, way: -1 | 1): number[] {
    const found: number[] = [];
    for (let i = end + way; i >= 0 && i < this.pieces.length && this.pieces[i]!.is !== "border"; i += way) {
      if (this.pieces[i]!.is === "fact" || this.pieces[i]!.is === "unknown") found.push(i);
    }
    return way === -1 ? found.reverse() : found;
  }
  isLabelOverValue(end: number): boolean {
    const [above, below] = [this.line(end, -1), this.line(end, 1)];
    // `current-carrying conductors ⏎ nine in the conduit`: the value may be followed by what it is of.
    // `fan motor FLA ⏎ 2`: the label may follow whose it is.
    // `Heat ⏎ gas`
    const isFuel = above.length === 1 && below.length === 1 && this.isLoad(above[0]!) && this.sort(below[0]!, "fuel");
    if (isFuel) return true;
    return above.length > 0 && this.isLabel(above.at(-1)!) && above.slice(0, -1).every(this.isLoad) &&
      below.length > 0 && this.isFigure(below[0]!) && below.filter(this.isFigure).length === 1;
  }
  isLabel = (i: number): boolean =>
    this.pieces[i]!.senses.some((s) => s.is === "term" && (s.sort === "label" || s.sort === "device"));
  isLoad = (i: number): boolean => this.pieces[i]!.senses.some((s) => s.is === "term" && HEADS[s.sort] === "load");
  isSize = (i: number): boolean => this.pieces[i]?.senses.some(({ is }) => is === "size" || is === "cable") ?? false;
  isFigure = (i: number): boolean =>
    this.pieces[i]!.senses.some(({ is }) => is === "quantity" || is === "number" || is === "pair" || is === "system");
  sort = (i: number, sort: Sort): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === sort) ?? false;
  typed = (i: number): string => {
    const piece = this.pieces[i];
    return piece && piece.to === piece.from + 1 ? this.tokens[piece.from]!.text : "";
  };
  word = (i: number): string => this.pieces[i]?.is === "common" ? this.tokens[this.pieces[i]!.from]!.text : "";
  draft(family: FamilyId, id: string | undefined, at: number, label?: string): Draft {
    return {
      family,
      ...(id !== undefined && { id }),
      others: [],
      said: this.said([at]),
      pieces: [at],
      at,
      slots: {},
      sentence: this.sentences[at]!,
      ...(label !== undefined && { label }),
    };
  }
  isEnd = (i: number, id: string): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "end" && s.id === id) ?? false;
  isCheck = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "goal" && CHECKS.has(s.id)) ?? false;
  figures(fits: (sense: Sense) => boolean): number[] {
    const found: number[] = [];
    this.pieces.forEach(({ is, senses }, i) => {
      if (is === "fact" && !this.used.has(i) && senses.some(fits)) found.push(i);
    });
    return found;
  }
  /** What of the way to a figure leads over the head's own figures: `two 4 kW ovens`, `12 kW 240 V range`. */
  own(head: Draft, figure: number): number {
    const [from, to] = [Math.min(head.at, figure), Math.max(head.at, figure)];
    const own = Object.values(head.slots).flatMap((values) => values.flatMap(({ pieces }) => pieces));
    return [...new Set(own)].filter((i) => i > from && i < to).reduce((sum, i) => sum + this.crossing(i), 0);
  }
  /** The label that a figure is glued to. */
  touches(at: number): number | undefined {
    const first = this.tokens[this.pieces[at]!.from]!;
    return first.glued && this.isLabel(at - 1 < 0 ? at : at - 1) && at > 0 ? at - 1 : undefined;
  }
  cut(
    heads: readonly Draft[],
    figures: readonly number[],
    takes: (head: Draft, figure: number) => { sense: Sense; slot: string; before: number; after: number } | undefined,
    most: (head: Draft) => number = () => 1,
    isRated: (head: Draft) => boolean = () => false,
    side?: FigureSide,
  ): void {
    if (figures.length === 0 || heads.length === 0) return;
    const toAssign = heads.map((head) => ({
      at: head.at,
      most: most(head),
      rated: isRated(head),
      wants: head.label !== undefined && WANTING.has(head.label),
    }));
    const owners = assign(toAssign, figures, (f, h) => {
      const [at, head] = [figures[f]!, heads[h]!];
      const found = takes(head, at);
      if (!found) return Infinity;
      // `RLA17.9 FLA0.9`: a figure that touches a label is the label's.
      const touched = this.touches(at);
      if (touched !== undefined && touched !== head.at && heads.some((each) => each.at === touched)) return Infinity;
      // A head that was implied by its figure stands where the figure stands.
      if (at === head.at) return head.pieces.length === 0 ? 0 : Infinity;
      const distance = this.between(Math.min(at, head.at), Math.max(at, head.at)) -
        (found.slot === "fuel" ? 0 : this.own(head, at));
      return distance > (at < head.at ? found.before : found.after) ? Infinity : distance;
    }, side);
    owners.forEach((owner, f) => {
      if (owner === undefined) return;
      const head = heads[owner]!;
      const { sense, slot } = takes(head, figures[f]!)!;
      (head.slots[slot] ??= []).push(this.value(sense, figures[f]!));
    });
  }
  isAmperes = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "quantity" && s.unit === "A") ?? false;
  isNumber = (i: number): boolean =>
    this.pieces[i]?.senses.some(({ is }) => is === "number" || is === "count") ?? false;
  isGoal = (i: number): boolean => this.pieces[i]!.senses.some((s) => s.is === "term" && s.sort === "goal");
  isThing = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && HEADS[s.sort] === "load") ?? false;
  isCircuit = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "circuit" && s.id === "circuit") ?? false;
  /** `2 sets of`, `9 lights`: a term in the plural, which the number before it counts. */
  isMany = (i: number): boolean =>
    this.pieces[i]?.is === "fact" && this.pieces[i]!.senses.some(({ is }) => is === "term") &&
    /s$/.test(this.tokens[this.pieces[i]!.to - 1]!.text);
  /** `twelve electric dryers`: a number right before a load's name, or its fuel and name, counts it. */
  countsBehind = (i: number): boolean => this.isThing(i + 1) || (this.sort(i + 1, "fuel") && this.isThing(i + 2));
  endsAt(i: number): boolean {
    const next = this.pieces[i + 1];
    return next === undefined || next.is === "border" || next.is === "comma" ||
      (next.is === "common" && this.endsAt(i + 1));
  }
  /** Whether a piece may be a term of a sort, one of those ids where any are named. */
  isTerm = (i: number, sort: Sort, ...ids: readonly string[]): boolean =>
    this.pieces[i]?.senses.some((s) =>
      s.is === "term" && s.sort === sort && (ids.length === 0 || ids.includes(s.id))
    ) ??
      false;
  isArticle = (i: number): boolean => ARTICLES.has(this.typed(i));
  isToldBefore(i: number): boolean {
    const numberOf = (at: number) =>
      (this.pieces[at]!.senses.find(({ is }) => is === "number" || is === "quantity") as { n: number } | undefined)?.n;
    const n = numberOf(i);
    return this.pieces.slice(Math.max(0, i - FACTS_AROUND * 2), i).some((_, k) =>
      numberOf(Math.max(0, i - FACTS_AROUND * 2) + k) === n
    );
  }
  isWordBetween(word: string, from: number, to: number): boolean {
    for (let i = from + 1; i < to; i++) if (this.word(i) === word) return true;
    return false;
  }
  hasAnd(from: number, to: number): boolean {
    for (let i = from + 1; i < to; i++) if (this.word(i) === "and") return true;
    return false;
  }
  hasComma(from: number, to: number): boolean {
    return this.pieces.slice(Math.min(from, to) + 1, Math.max(from, to)).some(({ is }) => is === "comma");
  }
  endsItem(i: number): boolean {
    const piece = this.pieces[i];
    return piece === undefined || piece.is === "border" || piece.is === "comma" || piece.is === "mark" ||
      ["and", "plus", "with", "or", "what", "whats"].includes(this.word(i));
  }
  /** `HP 20 ⏎ V 460 ⏎ A 26`: a figure behind its unit is a nameplate's. */
  isOfPlate(at: number): boolean {
    const { is, text } = this.tokens[this.pieces[at]!.from]!;
    return is === "word" && text !== "a" && !isNumberWord(text);
  }
}

/** What was no head after all stands by itself, under what it is. */
export function unhead(r: Reading, fact: Draft, key: string): void {
  r.facts.splice(r.facts.indexOf(fact), 1);
  const value = r.value(r.pieces[fact.at]!.senses[0]!, ...fact.pieces);
  r.free.push({ key, value, sentence: fact.sentence });
}
