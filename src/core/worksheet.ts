/**
 * The worksheet: the only maker of steps. A method asks it to look up, work and choose, in the order of the book, and gets
 * handles back; every number it uses stands on the page with its section.
 */
import { type Book, type Entry, entry, type Row, type Table } from "./book.ts";
import { ConductorSize } from "./conductor-size.ts";
import { evaluate, holds } from "./formula.ts";
import { NotCovered } from "./outcome.ts";
import { printBriefly, printValue } from "./print.ts";
import {
  amountIn,
  exact,
  type Fraction,
  type Measure,
  measureOf,
  type Quantity,
  toNumber,
  type Unit,
  type Value,
} from "./quantity.ts";
import type {
  Assumption,
  Caution,
  Citation,
  Compare,
  Comparison,
  Expr,
  Figure,
  Kind,
  Known,
  RecordLine,
  Step,
  StepId,
  Verdict,
  WorkedAnswer,
} from "./worked.ts";

/** A formula of a test: a full one, or just a step. */
type Side = Expr | Known;
const side = (s: Side): Expr => ("id" in s ? { ref: s.id } : s);
/** A test as a method writes it: [left, "≤", right]. */
type Test = readonly [Side, Comparison, Side];
/** What finds a row: a word, a conductor size, or a step with either or with a number. */
type Key = string | ConductorSize | Known;
const isStep = (key: Key): key is Known => typeof key !== "string" && !(key instanceof ConductorSize);
type LookedUp = Extract<Step, { kind: "looked up" }>;
type Line = Pick<Step, "id" | "part" | "name" | "value" | "cite" | "note">;

/** How many steps were ever made: an id is never given twice, on this sheet or another. */
let made = 0;

export class Worksheet {
  readonly steps: Step[] = [];
  readonly cautions: Caution[] = [];
  readonly record: RecordLine[] = [];
  readonly #figures: [id: string, Figure][] = [];
  readonly #asides: string[] = [];
  readonly #followUps: string[] = [];
  #part = "";
  #under: string | undefined;
  /** Each step that stands, with the number it holds, in its own unit and in base units: what its text was made from. */
  readonly #standing = new Map<StepId, { step: Step; n?: Fraction | undefined; measure?: Measure | undefined }>();
  /** Steps that looked something up, by the row. */
  readonly #lookedUp = new Map<string, LookedUp[]>();

  constructor(readonly edition: Book) {}

  /** A heading for the steps that follow. */
  part(title: string): void {
    this.#part = this.#under === undefined ? title : `${this.#under}: ${title[0]!.toLowerCase()}${title.slice(1)}`;
  }

  /** Does some work whose headings stand under one of their own: `Each unit: standard method`. */
  under<T>(title: string, work: () => T): T {
    const outer = this.#under;
    this.#under = title;
    try {
      return work();
    } finally {
      this.#under = outer;
    }
  }

  /** Marks parts whose steps short renderings leave out (the method that does not decide). */
  aside(...titles: string[]): void {
    this.#asides.push(...titles);
  }

  #line(name: string, value: Value, clause?: string | Citation, note?: string) {
    const line: Line = { id: `s${++made}`, part: this.#part, name, value };
    if (clause !== undefined) line.cite = typeof clause === "string" ? this.cite(clause) : clause;
    if (note !== undefined) line.note = note;
    return line;
  }

  /** @param n the number whose text the step holds, where it holds one */
  #add<K extends Kind>(step: Step, kind: K, n?: Fraction, measure = n && measureOf(n, kind as Unit)): Known<K> {
    this.#standing.set(step.id, { step, n, measure });
    this.steps.push(step);
    return { id: step.id, name: step.name, kind };
  }

  /** The book is opened once for a value: the same entry under the same name is the same step. */
  #addEntry<K extends Kind>(
    { value, n }: Entry,
    { name, cite, note }: { name: string; cite: Citation; note?: string | undefined },
    where: Pick<LookedUp, "table" | "column" | "row" | "by" | "key">,
    kind: K,
  ): Known<K> {
    let steps = this.#lookedUp.get(where.row);
    if (!steps) this.#lookedUp.set(where.row, steps = []);
    const at = steps.findIndex((each) =>
      each.table === where.table && each.column === where.column && each.by === where.by && each.name === name
    );
    const again = steps[at];
    if (again && this.#standing.has(again.id)) return { id: again.id, name, kind };
    const step: LookedUp = { kind: "looked up", ...this.#line(name, value, cite, note), ...where };
    // One that was struck out is looked up anew.
    if (again) steps[at] = step;
    else steps.push(step);
    return this.#add(step, kind, n);
  }

  /** The edition's section for one of our clause names. */
  cite(clause: string): Citation {
    return this.edition.clause(clause);
  }

  /** A fact of the question. */
  given<U extends Unit>(name: string, quantity: Quantity<U>, note?: string, clause?: string): Known<U>;
  given(name: string, size: ConductorSize, note?: string, clause?: string): Known<"size">;
  given(name: string, word: string, note?: string, clause?: string): Known<"word">;
  given(name: string, value: Quantity | ConductorSize | string, note?: string, clause?: string): Known {
    if (value instanceof ConductorSize) {
      return this.#add({ kind: "given", ...this.#line(name, { word: value.name }, clause, note) }, "size");
    }
    if (typeof value === "string") {
      return this.#add({ kind: "given", ...this.#line(name, { word: value }, clause, note) }, "word");
    }
    const n = exact(value.n);
    const line = this.#line(name, { n: n.toFraction(), unit: value.unit }, clause, note);
    return this.#add({ kind: "given", ...line }, value.unit, n);
  }

  /** A default from `tables/assumptions.json`, listed on the answer with the words that change it. */
  assume<K extends Kind = Kind>(id: string): Known<K> {
    const { name, value, unit, because, change } = this.edition.assumption(id);
    const { value: typed, n } = entry(value, unit);
    return this.#add({ kind: "assumed", ...this.#line(name, typed), because, change }, unit as K, n);
  }

  /** A reading of the question or of a rule, in words, that the user can change. */
  suppose(name: string, word: string, because: string, change: string, clause?: string): Known<"word"> {
    return this.#add({ kind: "assumed", ...this.#line(name, { word }, clause), because, change }, "word");
  }

  /** What the user said, or else the default. */
  take<U extends Unit>(name: string, said: Quantity<U> | undefined, assumption: string): Known<U> {
    return said === undefined ? this.assume<U>(assumption) : this.given(name, said);
  }

  /** A single value of the edition. */
  constant<K extends Kind = Unit>(id: string): Known<K> {
    const { name, section, verified, unit, seen } = this.edition.constant(id);
    return this.#addEntry(
      this.edition.entry(id),
      { name, cite: { section, title: name, ...weak(verified) }, note: seen },
      { table: "constants", column: "value", row: id, by: "exact" },
      unit as K,
    );
  }

  /**
   * Looks up a table cell by its key.
   * @throws NotCovered when the table ends before the key or leaves the cell blank.
   */
  lookUp<K extends Kind = Unit>(
    name: string,
    table: string,
    column: string,
    key: Key,
    note?: string,
  ): Known<K> {
    const found = this.edition.table(table);
    const row = this.#rowOf(found, key);
    if (!row || found.cell(row, column) === null) {
      const asked = isStep(key) ? printValue(this.value(key)) : String(key);
      throw new NotCovered(
        `${found.section} (${found.data.title}) has no "${column}" value for ${asked}`,
        this.edition.id,
      );
    }
    return this.#addCell<K>(
      name,
      found,
      column,
      row,
      found.data.match,
      note,
      isStep(key) ? { ref: key.id } : undefined,
    );
  }

  /** Whether `lookUp` would find a value; nothing is recorded. */
  has(table: string, column: string, key: Key): boolean {
    const found = this.edition.table(table);
    const row = this.#rowOf(found, key);
    return row !== undefined && found.cell(row, column) !== null;
  }

  /**
   * The key of the smallest row whose column is not below `least`: the next standard size up, the smallest conductor
   * that carries it. `only` narrows the rows by key.
   * @throws NotCovered when no row is large enough.
   */
  atLeast<K extends Kind = "word">(
    name: string,
    table: string,
    column: string,
    least: Known,
    only?: (key: string) => boolean,
  ): Known<K> {
    return this.#search<K>(name, table, column, least, "at least", only);
  }

  /** The key of the largest row whose column is not above `most`. @throws NotCovered when every row is larger. */
  atMost<K extends Kind = "word">(
    name: string,
    table: string,
    column: string,
    most: Known,
    only?: (key: string) => boolean,
  ): Known<K> {
    return this.#search<K>(name, table, column, most, "at most", only);
  }

  #search<K extends Kind>(
    name: string,
    table: string,
    column: string,
    limit: Known,
    by: "at least" | "at most",
    only: (key: string) => boolean = () => true,
  ): Known<K> {
    const found = this.edition.table(table);
    const unit = column === found.data.key.name ? found.data.key.kind : found.kind(column);
    const bound = amountIn(this.measure(limit), unit as Unit);
    const isWanted = (row: Row) => only(String(row[0]));
    const row = by === "at least" ? found.atLeast(column, bound, isWanted) : found.atMost(column, bound, isWanted);
    if (!row) {
      const end = by === "at least" ? "large" : "small";
      throw new NotCovered(
        `${found.section} (${found.data.title}) has nothing ${end} enough for ${printValue(this.value(limit))}`,
        this.edition.id,
      );
    }
    return this.#addCell<K>(
      name,
      found,
      found.data.key.name,
      row,
      by,
      column === found.data.key.name ? undefined : column,
      { ref: limit.id },
      column,
    );
  }

  #addCell<K extends Kind>(
    name: string,
    table: Table,
    column: string,
    row: Row,
    by: LookedUp["by"],
    note?: string,
    key?: Expr,
    /** The column that was read to find the row, where it is another than the one that is told. */
    read = column,
  ): Known<K> {
    const kind = column === table.data.key.name ? table.data.key.kind : table.kind(column);
    const cite: Citation = { section: table.section, title: table.data.title, ...weak(table.verifiedAt(row, read)) };
    const notes = [...(note === undefined ? [] : [note]), ...table.differingPrints(row, read)];
    return this.#addEntry(
      table.entry(row, column)!,
      { name, cite, note: notes.length === 0 ? undefined : notes.join("; ") },
      { table: table.id, column, row: String(row[0]), by, ...(key && { key }) },
      kind as K,
    );
  }

  /** The row of a key, a number being put into the table's own unit. */
  #rowOf(table: Table, key: Key): Row | undefined {
    if (!isStep(key)) return table.row(typeof key === "string" ? key : key.name);
    const { step: { value }, measure } = this.#stands(key.id);
    return table.row("word" in value ? value.word : amountIn(measure!, table.data.key.kind as Unit));
  }

  /** Works a formula out. @throws TypeError when its units do not come to `unit`. */
  work<U extends Unit>(name: string, unit: U, formula: Expr, clause?: string | Citation, note?: string): Known<U> {
    const measure = evaluate(formula, this.#measures);
    const n = amountIn(measure, unit);
    const line = this.#line(name, { n: n.toFraction(), unit }, clause, note);
    return this.#add({ kind: "worked", ...line, formula }, unit, n, measure);
  }

  /** Makes a choice by a test, shows it, and goes on as it came out. `name` says what was asked; the words say the outcome. */
  choose<T>(name: string, test: Test, yes: [string, () => T], no: [string, () => T], clause?: string): T {
    const compare: Compare = { left: side(test[0]), is: test[1], right: side(test[2]) };
    const held = holds(compare, this.#measures);
    const [word, then] = held ? yes : no;
    this.#add({ kind: "chosen", ...this.#line(name, { word }, clause), test: compare, held }, "word");
    return then();
  }

  /** Whether a test holds, unrecorded: for the search for a size whose result is then shown by a step. */
  holds(...[left, is, right]: Test): boolean {
    return holds({ left: side(left), is, right: side(right) }, this.#measures);
  }

  /**
   * Tries candidates on scratch paper, in order, and keeps what was written for the first that comes to something. What was
   * written for the others is struck out, as if it had never been.
   */
  first<C, T>(candidates: Iterable<C>, attempt: (candidate: C) => T | undefined): T | undefined {
    for (const candidate of candidates) {
      const strikeOut = this.#mark();
      const result = attempt(candidate);
      if (result !== undefined) return result;
      strikeOut();
    }
    return undefined;
  }

  /** Works something out on scratch paper only: for a test or a search whose result is shown another way. */
  scratch<T>(work: () => T): T {
    const strikeOut = this.#mark();
    try {
      return work();
    } finally {
      strikeOut();
    }
  }

  /** Strikes out all that is written from now on. */
  #mark(): () => void {
    const lists = [this.steps, this.cautions, this.#figures, this.record, this.#asides, this.#followUps];
    const [lengths, part] = [lists.map(({ length }) => length), this.#part];
    return () => {
      for (const { id } of this.steps.slice(lengths[0])) this.#standing.delete(id);
      lists.forEach((list, i) => list.length = lengths[i]!);
      this.#part = part;
    };
  }

  /**
   * What some work comes to, or undefined where the tables do not reach it; its steps are then struck out. For searches
   * that go on elsewhere, and for hints that an answer can do without.
   */
  ifCovered<T>(work: () => T): T | undefined {
    return this.first([work], (attempt) => {
      try {
        return attempt();
      } catch (error) {
        if (error instanceof NotCovered) return undefined;
        throw error;
      }
    });
  }

  /** The value of a step, for schemas of later steps and for texts; sums belong in `work`. */
  value(known: Known): Value {
    return this.#stands(known.id).step.value;
  }

  /** The word of a step. @throws TypeError when it is a number. */
  word(known: Known): string {
    const value = this.value(known);
    if (!("word" in value)) throw new TypeError(`"${known.name}" is a number, not a word`);
    return value.word;
  }

  /** The conductor size of a step. @throws TypeError when it is none. */
  size(known: Known<"size">): ConductorSize {
    return ConductorSize.of(this.word(known));
  }

  /** The measure of a step. @throws TypeError when it is a word. */
  measure(known: Known): Measure {
    return this.#measures(known.id);
  }

  readonly #measures = (id: StepId): Measure => {
    const { step, measure } = this.#stands(id);
    if (!measure) throw new TypeError(`"${step.name}" is a word and cannot be computed with`);
    return measure;
  };

  /** @throws TypeError for a step of another sheet, or one that was struck out */
  #stands(id: StepId) {
    const found = this.#standing.get(id);
    if (!found) {
      throw new TypeError(`step ${id} does not stand on this sheet: it was struck out, or is another sheet's`);
    }
    return found;
  }

  /** A sentence with steps in it, their numbers short enough to be said. */
  readonly say = (text: TemplateStringsArray, ...parts: (Known | ConductorSize | string)[]): string =>
    text.reduce((so, next, i) => {
      const part = parts[i - 1]!;
      return so + (isStep(part) ? printBriefly(this.value(part)) : part) + next;
    });

  /** Gives a step its contract id among the results. */
  figure(id: string, known: Known, name = known.name): void {
    const { step: { value }, n } = this.#stands(known.id);
    this.#figures.push([
      id,
      "word" in value
        ? { value: value.word, unit: "", name, step: known.id }
        : { value: toNumber(n!), unit: value.unit === "1" ? "" : value.unit, name, step: known.id },
    ]);
  }

  /** The results so far. */
  get figures(): Readonly<Record<string, Figure>> {
    return Object.fromEntries(this.#figures);
  }

  /** A caution that belongs to this answer, short and specific. Said once. */
  caution(text: string, clause?: string): void {
    if (this.cautions.some((each) => each.text === text)) return;
    this.cautions.push(clause === undefined ? { text } : { text, cite: this.cite(clause) });
  }

  /** A line of the record that is kept of the job; what is left out is left to fill. */
  enter(what: string, wanted?: Known, found?: Known, verdict?: Verdict): void {
    this.record.push({
      part: this.#part,
      what,
      ...(wanted && { wanted: wanted.id }),
      ...(found && { found: found.id }),
      ...(verdict && { verdict }),
    });
  }

  /** A line of a list that is kept: what is where, and its value. */
  list(what: string, value: Known): void {
    this.record.push({ part: this.#part, what, wanted: value.id, isList: true });
  }

  /** A question that can be asked next, as it would be typed. */
  suggest(...texts: string[]): void {
    this.#followUps.push(...texts);
  }

  /** All that was written, its steps numbered as they stand. */
  finish(): Finished {
    const ids = new Map(this.steps.map(({ id }, i): [StepId, StepId] => [id, `s${i + 1}`]));
    const now = (id: StepId): StepId => ids.get(this.#stands(id).step.id)!;
    const steps = this.steps.map((step) => renumbered(step, now));
    return {
      figures: Object.fromEntries(this.#figures.map(([id, own]) => [id, { ...own, step: now(own.step) }])),
      asides: [...new Set(this.#asides)],
      steps,
      assumptions: assumptionsOf(steps),
      cautions: this.cautions,
      ...(this.record.length > 0 && {
        record: this.record.map((line) => ({
          ...line,
          ...(line.wanted && { wanted: now(line.wanted) }),
          ...(line.found && { found: now(line.found) }),
        })),
      }),
      followUps: this.#followUps,
    };
  }
}

type Finished = Pick<
  WorkedAnswer,
  "figures" | "asides" | "steps" | "assumptions" | "cautions" | "record" | "followUps"
>;

function renumbered(step: Step, now: (id: StepId) => StepId): Step {
  const inExpr = (expr: Expr): Expr =>
    "ref" in expr
      ? { ref: now(expr.ref) }
      : "op" in expr
      ? { op: expr.op, args: [inExpr(expr.args[0]), inExpr(expr.args[1])] }
      : "fn" in expr
      ? { fn: expr.fn, args: expr.args.map(inExpr) }
      : expr;
  const own = { ...step, id: now(step.id) };
  if (own.kind === "worked") own.formula = inExpr(own.formula);
  else if (own.kind === "chosen") {
    own.test = { ...own.test, left: inExpr(own.test.left), right: inExpr(own.test.right) };
  } else if (own.kind === "looked up" && own.key) own.key = inExpr(own.key);
  return own;
}

/** All assumptions, in order of appearance, each once. */
function assumptionsOf(steps: readonly Step[]): Assumption[] {
  const seen = new Map<string, Assumption>();
  for (const step of steps) {
    if (step.kind !== "assumed") continue;
    const { name, because, change, id } = step;
    const value = printValue(step.value);
    // The same assumption made twice is one; made otherwise the second time, it is another.
    const key = `${name}: ${value}`;
    if (!seen.has(key)) seen.set(key, { name, value, because, change, step: id });
  }
  return [...seen.values()];
}

const weak = (verified: Citation["verified"]): Pick<Citation, "verified"> =>
  verified === "two sources" ? {} : { verified };
