/**
 * The worksheet: the only maker of steps. A method asks it to look up, work and choose, in the order of the book, and gets
 * handles back; every number it uses stands on the page with its section.
 */
import { type Book, type Entry, entry, type Found, type Key, type Table } from "./book.ts";
import { ConductorSize } from "./conductor-size.ts";
import { evaluate, holds, overRefs } from "./formula.ts";
import { NotCovered } from "./outcome.ts";
import { printBriefly, printValue } from "./print.ts";
import {
  amountIn,
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
  Draft,
  Figure,
  Formula,
  Kind,
  Known,
  LookedUp,
  RecordLine,
  Step,
  StepId,
  Verdict,
  WorkedAnswer,
} from "./worked.ts";

/** A formula of a test: a full one, or just a step. */
type Side = Formula | Known;
const side = (s: Side): Formula => ("kind" in s ? { ref: s } : s);
/** A test as a method writes it: [left, "≤", right]. */
type Test = readonly [Side, Compare["is"], Side];
const compare = ([left, is, right]: Test): Compare<Known> => ({ left: side(left), is, right: side(right) });
/** What finds a row: a word, a conductor size, or a step with either or with a number. */
type RowKey = string | ConductorSize | Known;
const isStep = (key: RowKey): key is Known => typeof key !== "string" && !(key instanceof ConductorSize);
type Line = Pick<Draft<Step>, "id" | "part" | "name" | "value" | "cite" | "note">;

/** What a handle is behind its name: what the step holds, and whether it stands. */
class Written implements Known {
  isStruckOut = false;
  /** Its number, once the sheet is finished. */
  id?: StepId;
  constructor(
    readonly sheet: Worksheet,
    readonly name: string,
    readonly kind: Kind,
    readonly value: Value,
    /** The number that the value states, in its own unit and in base units; none of a word. */
    readonly n?: Fraction,
    readonly measure = n && measureOf(n, kind as Unit),
  ) {}
}

export class Worksheet {
  readonly #steps: Draft<Step>[] = [];
  readonly #cautions: Caution[] = [];
  readonly #figures: [id: string, Draft<Figure>][] = [];
  readonly #asides: string[] = [];
  readonly #followUps: string[] = [];
  readonly record: Draft<RecordLine>[] = [];
  #part = "";
  #under: string | undefined;
  /** Steps that looked something up, by what was found. */
  readonly #lookedUp = new Map<Entry, Draft<LookedUp>[]>();

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

  /** What every step has, its handle made with it. */
  #line(name: string, { value, n }: Entry, kind: Kind, clause?: string | Citation, note?: string, measure?: Measure) {
    const line: Line = { id: new Written(this, name, kind, value, n, measure), part: this.#part, name, value };
    if (clause !== undefined) line.cite = typeof clause === "string" ? this.cite(clause) : clause;
    if (note !== undefined) line.note = note;
    return line;
  }

  #add<K extends Kind>(step: Draft<Step>): Known<K> {
    this.#steps.push(step);
    return step.id as Known<K>;
  }

  /** The book is opened once for a value: the same entry under the same name is the same step. */
  #copy<K extends Kind>(name: string, { entry, kind, cite, note, where }: Found, said?: string, key?: Known): Known<K> {
    let steps = this.#lookedUp.get(entry);
    if (!steps) this.#lookedUp.set(entry, steps = []);
    const at = steps.findIndex((each) => each.by === where.by && each.name === name);
    const again = steps[at]?.id as Written | undefined;
    if (again && !again.isStruckOut) return again as Known as Known<K>;
    const notes = [said, note].filter((each) => each !== undefined).join("; ") || undefined;
    const line = this.#line(name, entry, kind, cite, notes);
    const step: Draft<LookedUp> = { kind: "looked up", ...line, ...where, ...(key && { key: { ref: key } }) };
    // One that was struck out is looked up anew.
    if (again) steps[at] = step;
    else steps.push(step);
    return this.#add(step);
  }

  /** The edition's section for one of our clause names. */
  cite(clause: string): Citation {
    return this.edition.clause(clause);
  }

  /** A fact of the question. */
  given<U extends Unit>(name: string, quantity: Quantity<U>, note?: string, clause?: string): Known<U>;
  given(name: string, size: ConductorSize, note?: string, clause?: string): Known<"size">;
  given(name: string, word: string, note?: string, clause?: string): Known<"word">;
  given(name: string, said: Quantity | ConductorSize | string, note?: string, clause?: string): Known {
    const [value, kind] = typeof said === "string"
      ? [said, "word" as const]
      : said instanceof ConductorSize
      ? [said.name, "size" as const]
      : [said.n, said.unit];
    return this.#add({ kind: "given", ...this.#line(name, entry(value, kind), kind, clause, note) });
  }

  /** A default from `tables/assumptions.json`, listed on the answer with the words that change it. */
  assume<K extends Kind = Kind>(id: string): Known<K> {
    const { name, value, unit, because, change } = this.edition.assumption(id);
    return this.#add({ kind: "assumed", ...this.#line(name, entry(value, unit), unit), because, change });
  }

  /** A reading of the question or of a rule, in words, that the user can change. */
  suppose(name: string, word: string, because: string, change: string, clause?: string): Known<"word"> {
    return this.#add({ kind: "assumed", ...this.#line(name, entry(word, "word"), "word", clause), because, change });
  }

  /** What the user said, or else the default. */
  take<U extends Unit>(name: string, said: Quantity<U> | undefined, assumption: string): Known<U> {
    return said === undefined ? this.assume<U>(assumption) : this.given(name, said);
  }

  /** A single value of the edition. */
  constant<K extends Kind = Unit>(id: string): Known<K> {
    return this.#copy(this.edition.constant(id).name, this.edition.value(id));
  }

  /**
   * Looks up a table cell by its key.
   * @throws NotCovered when the table ends before the key or leaves the cell blank.
   */
  lookUp<K extends Kind = Unit>(name: string, table: string, column: string, key: RowKey, note?: string): Known<K> {
    const from = this.edition.table(table);
    const found = from.find(column, this.#keyOf(key));
    if (!found) {
      const asked = isStep(key) ? printValue(this.value(key)) : String(key);
      throw this.#notIn(from, `has no "${column}" value for ${asked}`);
    }
    return this.#copy(name, found, note, isStep(key) ? key : undefined);
  }

  /** Whether `lookUp` would find a value; nothing is recorded. */
  has(table: string, column: string, key: RowKey): boolean {
    return this.edition.table(table).find(column, this.#keyOf(key)) !== undefined;
  }

  /**
   * The key of the smallest row whose column is not below `least`: the next standard size up, the smallest conductor
   * that carries it. `only` narrows the rows by key.
   * @throws NotCovered when no row is large enough.
   */
  atLeast<K extends Kind = "word">(name: string, table: string, column: string, least: Known, only?: Only): Known<K> {
    return this.#search(name, this.edition.table(table), column, "at least", least, only);
  }

  /** The key of the largest row whose column is not above `most`. @throws NotCovered when every row is larger. */
  atMost<K extends Kind = "word">(name: string, table: string, column: string, most: Known, only?: Only): Known<K> {
    return this.#search(name, this.edition.table(table), column, "at most", most, only);
  }

  #search<K extends Kind>(
    name: string,
    table: Table,
    column: string,
    by: "at least" | "at most",
    limit: Known,
    only: Only = () => true,
  ): Known<K> {
    const found = table.search(column, by, this.measure(limit), only);
    if (!found) {
      const end = by === "at least" ? "large" : "small";
      throw this.#notIn(table, `has nothing ${end} enough for ${printValue(this.value(limit))}`);
    }
    return this.#copy(name, found, column === table.data.key.name ? undefined : column, limit);
  }

  #notIn({ section, data: { title } }: Table, what: string): NotCovered {
    return new NotCovered(`${section} (${title}) ${what}`, this.edition.id);
  }

  #keyOf(key: RowKey): Key {
    if (!isStep(key)) return typeof key === "string" ? key : key.name;
    const { value, measure } = this.#standing(key);
    return "word" in value ? value.word : measure!;
  }

  /** Works a formula out. @throws TypeError when its units do not come to `unit`. */
  work<U extends Unit>(name: string, unit: U, formula: Formula, clause?: string | Citation, note?: string): Known<U> {
    const measure = evaluate(formula, this.#measures);
    const n = amountIn(measure, unit);
    const line = this.#line(name, { value: { n: n.toFraction(), unit }, n }, unit, clause, note, measure);
    return this.#add({ kind: "worked", ...line, formula });
  }

  /** Makes a choice by a test, shows it, and goes on as it came out. `name` says what was asked; the words say the outcome. */
  choose<T>(name: string, test: Test, yes: [string, () => T], no: [string, () => T], clause?: string): T {
    const asked = compare(test);
    const held = holds(asked, this.#measures);
    const [word, then] = held ? yes : no;
    this.#add({ kind: "chosen", ...this.#line(name, entry(word, "word"), "word", clause), test: asked, held });
    return then();
  }

  /** Whether a test holds, unrecorded: for the search for a size whose result is then shown by a step. */
  holds(...test: Test): boolean {
    return holds(compare(test), this.#measures);
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
    const lists = [this.#steps, this.#cautions, this.#figures, this.record, this.#asides, this.#followUps];
    const [lengths, part] = [lists.map(({ length }) => length), this.#part];
    return () => {
      for (const { id } of this.#steps.slice(lengths[0])) (id as Written).isStruckOut = true;
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
    return this.#standing(known).value;
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
    const { name, measure } = this.#standing(known);
    if (!measure) throw new TypeError(`"${name}" is a word and cannot be computed with`);
    return measure;
  }
  readonly #measures = (known: Known): Measure => this.measure(known);

  /** @throws TypeError for a step of another sheet, or one that was struck out */
  #standing(known: Known): Written {
    if (known instanceof Written && known.sheet === this && !known.isStruckOut) return known;
    throw new TypeError(`step "${known.name}" does not stand on this sheet: it was struck out, or is another sheet's`);
  }

  /** A sentence with steps in it, their numbers short enough to be said. */
  readonly say = (text: TemplateStringsArray, ...parts: (Known | ConductorSize | string)[]): string =>
    text.reduce((so, next, i) => {
      const part = parts[i - 1]!;
      return so + (isStep(part) ? printBriefly(this.value(part)) : part) + next;
    });

  /** Gives a step its contract id among the results. */
  figure(id: string, known: Known, name = known.name): void {
    const { value, n } = this.#standing(known);
    this.#figures.push([
      id,
      "word" in value
        ? { value: value.word, unit: "", name, step: known }
        : { value: toNumber(n!), unit: value.unit === "1" ? "" : value.unit, name, step: known },
    ]);
  }

  /** The results so far. */
  get figures(): Readonly<Record<string, Draft<Figure>>> {
    return Object.fromEntries(this.#figures);
  }

  /** A caution that belongs to this answer, short and specific. Said once. */
  caution(text: string, clause?: string): void {
    if (this.#cautions.some((each) => each.text === text)) return;
    this.#cautions.push(clause === undefined ? { text } : { text, cite: this.cite(clause) });
  }

  /** A line of the record that is kept of the job; what is left out is left to fill. */
  enter(what: string, wanted?: Known, found?: Known, verdict?: Verdict): void {
    this.record.push({
      part: this.#part,
      what,
      ...(wanted && { wanted }),
      ...(found && { found }),
      ...(verdict && { verdict }),
    });
  }

  /** A line of a list that is kept: what is where, and its value. */
  list(what: string, value: Known): void {
    this.record.push({ part: this.#part, what, wanted: value, isList: true });
  }

  /** A question that can be asked next, as it would be typed. */
  suggest(...texts: string[]): void {
    this.#followUps.push(...texts);
  }

  /** All that was written, its steps numbered as they stand. */
  finish(): Finished {
    this.#steps.forEach(({ id }, i) => (id as Written).id = `s${i + 1}`);
    const steps = this.#steps.map((step) => this.#numbered(step));
    return {
      figures: Object.fromEntries(this.#figures.map(([id, own]) => [id, { ...own, step: this.#number(own.step) }])),
      asides: [...new Set(this.#asides)],
      steps,
      assumptions: assumptionsOf(steps),
      cautions: this.#cautions,
      ...(this.record.length > 0 && {
        record: this.record.map(({ part, what, wanted, found, ...more }) => ({
          part,
          what,
          ...(wanted && { wanted: this.#number(wanted) }),
          ...(found && { found: this.#number(found) }),
          ...more,
        })),
      }),
      followUps: this.#followUps,
    };
  }

  readonly #number = (known: Known): StepId => this.#standing(known).id!;

  /** The step with the number of a step for each handle. */
  #numbered(step: Draft<Step>): Step {
    const id = this.#number(step.id);
    const over = (formula: Formula) => overRefs(formula, this.#number);
    switch (step.kind) {
      case "worked":
        return { ...step, id, formula: over(step.formula) };
      case "chosen":
        return { ...step, id, test: { ...step.test, left: over(step.test.left), right: over(step.test.right) } };
      case "looked up":
        return { ...step, id, ...(step.key && { key: over(step.key) }) } as LookedUp;
      default:
        return { ...step, id };
    }
  }
}

type Only = (key: string) => boolean;
type Finished = Pick<
  WorkedAnswer,
  "figures" | "asides" | "steps" | "assumptions" | "cautions" | "record" | "followUps"
>;

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
