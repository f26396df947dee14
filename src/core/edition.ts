/**
 * An edition of the code as data: tables, single values, section numbers and named rules, read from `tables/`.
 *
 * Nothing here falls back: what an edition does not hold is an error that says so. A value an edition shares with
 * another is written there as `same as`, with the section number and the grade of checking that hold in this edition.
 */
import * as z from "zod";
import { exact, type Fraction, isUnit, type Unit, type Value } from "./quantity.ts";
import { NotCovered } from "./outcome.ts";

/** How well a value was checked in print. */
export const VERIFIED = ["two sources", "one source", "from memory"] as const;
export type Verified = typeof VERIFIED[number];
/** What a table column gives: a unit, or a word such as a conductor size. */
export type Kind = Unit | "word";
/** How a row is found: the key itself, or the first row whose key is not below the value asked for. */
export type LookUpRule = "exact" | "up to";

const verified = z.enum(VERIFIED);
const kind = z.custom<Kind>(
  (text) => typeof text === "string" && (text === "word" || isUnit(text)),
  "not a known unit",
);
const cell = z.union([z.number(), z.string(), z.null()]);
/** Source ids of `tables/sources.json`. */
const sources = z.array(z.string()).min(1);

/** Some cells of a table: every row, or every column, where they are not named. */
const where = { rows: z.array(cell).optional(), columns: z.array(z.string()).optional() };
const tableFile = z.strictObject({
  title: z.string(),
  section: z.string(),
  verified,
  seen: z.string().optional(),
  sources,
  key: z.strictObject({ name: z.string(), kind }),
  match: z.enum(["exact", "up to"]),
  columns: z.record(z.string(), kind),
  rows: z.array(z.array(cell)).min(1),
  weaker: z.array(z.strictObject({ ...where, verified })).optional(),
  /** Cells that another print gives otherwise, which the value here was preferred to. */
  differs: z.array(z.strictObject({ ...where, print: z.string() })).optional(),
  note: z.string().optional(),
});
const sameTable = z.strictObject({
  "same as": z.string(),
  section: z.string(),
  verified,
  seen: z.string().optional(),
  sources: sources.optional(),
});
const constant = z.strictObject({
  name: z.string(),
  value: z.union([z.number(), z.string()]),
  unit: kind,
  section: z.string(),
  verified,
  seen: z.string().optional(),
  sources,
});
const sameConstant = z.strictObject({
  "same as": z.string(),
  section: z.string(),
  verified,
  seen: z.string().optional(),
});
const clause = z.strictObject({ section: z.string(), title: z.string() });
const editionFile = z.strictObject({
  id: z.string().regex(/^\d{4}(-[a-z-]+)?$/),
  title: z.string(),
  from: z.iso.date(),
  over: z.string().optional(),
  clauses: z.record(z.string(), clause),
  rules: z.record(z.string(), z.string()),
  notCovered: z.record(z.string(), z.string()).optional(),
  note: z.string().optional(),
});
const assumption = z.strictObject({
  name: z.string(),
  value: z.union([z.number(), z.string()]),
  unit: kind,
  because: z.string(),
  change: z.string(),
});
const source = z.strictObject({ title: z.string(), url: z.string().optional() });

export type Constant = z.output<typeof constant>;
export type Clause = z.output<typeof clause>;
export type Assumption = z.output<typeof assumption>;
export type Source = z.output<typeof source>;
type Cell = z.output<typeof cell>;

export type Row = readonly Cell[];
/** What a step states of a cell or a single value: made once, since it stands in many answers. */
export type Entry = { readonly value: Value; readonly n?: Fraction };

/** A value of the data as a step states it. */
export function entry(value: number | string, kind: Kind): Entry {
  if (kind === "word") return { value: { word: String(value) } };
  const n = exact(value);
  return { value: { n: n.toFraction(), unit: kind }, n };
}
/** A column's cells that are not blank, in the order of the rows. `rises` where no number is below the one before it. */
type Filled = { rows: readonly Row[]; numbers: readonly Fraction[]; rises: boolean };

/** A table of one edition, its cells graded one by one. Numbers are read when first asked for, once. */
export class Table {
  readonly #columns: ReadonlyMap<string, number>;
  readonly #filled = new Map<string, Filled>();
  readonly #entries = new Map<Row, Entry[]>();
  #rowOfWord?: ReadonlyMap<string, Row>;
  #rowOfNumber?: ReadonlyMap<string, Row>;

  readonly id: string;

  constructor(id: string, readonly data: z.output<typeof tableFile>) {
    // Cut from a path, it would be a slice, which makes every answer it stands in three times as slow to write as JSON.
    this.id = JSON.parse(JSON.stringify(id));
    this.#columns = new Map([data.key.name, ...Object.keys(data.columns)].map((name, i) => [name, i]));
  }

  get section(): string {
    return this.data.section;
  }

  /** What a column gives. */
  kind(column: string): Kind {
    const kind = this.data.columns[column];
    if (kind === undefined) throw new TypeError(`table ${this.id} has no column "${column}"`);
    return kind;
  }

  #columnIndex(column: string): number {
    const index = this.#columns.get(column);
    if (index === undefined) throw new TypeError(`table ${this.id} has no column "${column}"`);
    return index;
  }

  /** The row's cell, or null where the table leaves it blank. */
  cell(row: Row, column: string): Cell {
    return row[this.#columnIndex(column)] ?? null;
  }

  /** What stands in the cell, as a step states it; null where blank. */
  entry(row: Row, column: string): Entry | null {
    const index = this.#columnIndex(column);
    const cell = row[index] ?? null;
    if (cell === null) return null;
    let entries = this.#entries.get(row);
    if (!entries) this.#entries.set(row, entries = []);
    return entries[index] ??= entry(cell, index === 0 ? this.data.key.kind : this.kind(column));
  }

  /** The cell as an exact number; null where blank. */
  number(row: Row, column: string): Fraction | null {
    const found = this.entry(row, column);
    if (found === null) return null;
    return found.n ?? exact(this.cell(row, column)!);
  }

  /** The row a key selects by the table's rule, or undefined past either end. A null key marks an open last row. */
  row(key: string | Fraction): Row | undefined {
    if (typeof key === "string") {
      return (this.#rowOfWord ??= firsts(this.data.rows, (row) => String(row[0]))).get(key);
    }
    const { key: { name }, match, rows } = this.data;
    if (match === "exact") {
      return (this.#rowOfNumber ??= firsts(rows, (row) => this.number(row, name)?.toFraction())).get(key.toFraction());
    }
    return this.#firstNotBelow(name, key).next().value ?? rows.find((row) => row[0] === null);
  }

  /** The first row of those that `only` lets through whose column is not below `bound`. */
  atLeast(column: string, bound: Fraction, only: (row: Row) => boolean): Row | undefined {
    for (const row of this.#firstNotBelow(column, bound)) {
      if (row[0] !== null && only(row)) return row;
    }
    return undefined;
  }

  /** The last row of those that `only` lets through whose column is not above `bound`. */
  atMost(column: string, bound: Fraction, only: (row: Row) => boolean): Row | undefined {
    const { rows, numbers, rises } = this.#filledOf(column);
    for (let i = (rises ? firstIndex(numbers, (n) => n.compare(bound) > 0) : rows.length) - 1; i >= 0; i--) {
      const row = rows[i]!;
      if (row[0] !== null && numbers[i]!.compare(bound) <= 0 && only(row)) return row;
    }
    return undefined;
  }

  *#firstNotBelow(column: string, bound: Fraction): Generator<Row, undefined> {
    const { rows, numbers, rises } = this.#filledOf(column);
    for (let i = rises ? firstIndex(numbers, (n) => n.compare(bound) >= 0) : 0; i < rows.length; i++) {
      if (rises || numbers[i]!.compare(bound) >= 0) yield rows[i]!;
    }
  }

  #filledOf(column: string): Filled {
    const known = this.#filled.get(column);
    if (known) return known;
    const rows = this.data.rows.filter((row) => this.cell(row, column) !== null);
    const numbers = rows.map((row) => this.number(row, column)!);
    const filled = { rows, numbers, rises: numbers.every((n, i) => i === 0 || n.compare(numbers[i - 1]!) >= 0) };
    this.#filled.set(column, filled);
    return filled;
  }

  /** How well this cell was checked: the weakest grade that holds for it, so an edition never beats its own grade. */
  verifiedAt(row: Row, column: string): Verified {
    if (this.data.weaker === undefined) return this.data.verified;
    const grades = this.data.weaker.filter((each) => isAmong(each, row, column))
      .map((each) => VERIFIED.indexOf(each.verified));
    return VERIFIED[Math.max(VERIFIED.indexOf(this.data.verified), ...grades)]!;
  }

  /** What prints say that give this cell otherwise, in words for the answer. */
  differingPrints(row: Row, column: string): string[] {
    return (this.data.differs ?? []).filter((each) => isAmong(each, row, column))
      .map(({ print }) => `prints differ: ${print}`);
  }
}

const isAmong = ({ rows, columns }: { rows?: Cell[]; columns?: string[] }, row: Row, column: string): boolean =>
  (rows === undefined || rows.some((key) => key === row[0])) && (columns === undefined || columns.includes(column));

/** The first row of each key. */
function firsts(rows: readonly Row[], keyOf: (row: Row) => string | undefined): ReadonlyMap<string, Row> {
  const found = new Map<string, Row>();
  for (const row of rows) {
    const key = keyOf(row);
    if (key !== undefined && !found.has(key)) found.set(key, row);
  }
  return found;
}

/** Index of the first of the rising numbers that is far enough, by halving; their count where none is. */
function firstIndex(numbers: readonly Fraction[], isFarEnough: (n: Fraction) => boolean): number {
  let [from, to] = [0, numbers.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (isFarEnough(numbers[middle]!)) to = middle;
    else from = middle + 1;
  }
  return from;
}

/** What an edition's files hold, its own and those it is laid over; each file is read when it is first asked for. */
type Contents = {
  readonly file: z.output<typeof editionFile>;
  readonly tableIds: readonly string[];
  readonly constants: ReadonlyMap<string, Constant>;
  table(id: string): Table | undefined;
};

/** One edition, or one edition with a locality's amendments laid over it. */
export class Edition {
  readonly #read: () => Contents;
  readonly #entries = new Map<string, Entry>();
  #contents?: Contents;

  /** @throws TypeError, as every other member may at its first call, naming the file and the field that do not fit */
  constructor(
    readonly id: string,
    read: () => Contents,
    private readonly common: () => Common,
  ) {
    this.#read = read;
  }

  get #held(): Contents {
    return this.#contents ??= this.#read();
  }

  get title(): string {
    return this.#held.file.title;
  }
  get from(): string {
    return this.#held.file.from;
  }
  /** The edition these amendments are laid over, if any. */
  get over(): string | undefined {
    return this.#held.file.over;
  }
  get note(): string | undefined {
    return this.#held.file.note;
  }
  get assumptions(): Readonly<Record<string, Assumption>> {
    return this.common().assumptions;
  }
  get sources(): Readonly<Record<string, Source>> {
    return this.common().sources;
  }

  /** @throws NotCovered when this edition says that it does not answer this kind of question. */
  mustCover(question: string): void {
    const because = this.#held.file.notCovered?.[question];
    if (because !== undefined) throw new NotCovered(because, this.id);
  }

  /** @throws NotCovered when the edition's data has no such table. */
  table(id: string): Table {
    const table = this.#held.table(id);
    if (!table) throw new NotCovered(`the ${this.id} data here has no table "${id}"`, this.id);
    return table;
  }

  /** @throws NotCovered when the edition's data has no such value. */
  constant(id: string): Constant {
    const value = this.#held.constants.get(id);
    if (!value) throw new NotCovered(`the ${this.id} data here has no value "${id}"`, this.id);
    return value;
  }

  /** The value as a step states it. @throws NotCovered when the edition's data has no such value. */
  entry(id: string): Entry {
    const known = this.#entries.get(id);
    if (known) return known;
    const { value, unit } = this.constant(id);
    const made = entry(value, unit);
    this.#entries.set(id, made);
    return made;
  }

  /** Section and title of one of our clause names. @throws NotCovered when the edition's data does not number it. */
  clause(id: string): Clause {
    const found = this.#held.file.clauses[id];
    if (!found) throw new NotCovered(`the ${this.id} data here has no section for "${id}"`, this.id);
    return found;
  }

  /** How this edition reads a rule that changed shape between editions. @throws NotCovered when it does not say. */
  rule(id: string): string {
    const reading = this.#held.file.rules[id];
    if (reading === undefined) {
      throw new NotCovered(`the ${this.id} data here does not say how "${id}" is read`, this.id);
    }
    return reading;
  }

  assumption(id: string): Assumption {
    const found = this.assumptions[id];
    if (!found) throw new TypeError(`tables/assumptions.json has no "${id}"`);
    return found;
  }

  /** Counts of values by grade, for the list of editions. */
  grades(): Record<Verified, number> {
    const counts: Record<Verified, number> = { "two sources": 0, "one source": 0, "from memory": 0 };
    for (const value of this.#held.constants.values()) counts[value.verified]++;
    for (const id of this.#held.tableIds) {
      const table = this.table(id);
      for (const row of table.data.rows) {
        for (const column of Object.keys(table.data.columns)) {
          if (table.cell(row, column) !== null) counts[table.verifiedAt(row, column)]++;
        }
      }
    }
    return counts;
  }

  /** Ids of all tables and values, for coverage tests. */
  ids(): { tables: string[]; constants: string[]; clauses: string[]; rules: string[] } {
    return {
      tables: [...this.#held.tableIds],
      constants: [...this.#held.constants.keys()],
      clauses: Object.keys(this.#held.file.clauses),
      rules: Object.keys(this.#held.file.rules),
    };
  }
}

/** The files of `tables/` by path (`2023/edition.json`), parsed; a file may be parsed when it is first looked at. */
export type TableFiles = Readonly<Record<string, unknown>>;
type Common = { assumptions: Readonly<Record<string, Assumption>>; sources: Readonly<Record<string, Source>> };

function parse<T extends z.ZodType>(schema: T, path: string, files: TableFiles): z.output<T> {
  const read = schema.safeParse(files[path]);
  if (!read.success) throw new TypeError(`tables/${path}: ${z.prettifyError(read.error)}`);
  return read.data;
}

/** Calls `make` once for each key. What it throws is not kept: asked again, it is tried again. */
function once<T>(make: (key: string) => T): (key: string) => T {
  const made = new Map<string, T>();
  return (key) => {
    const known = made.get(key);
    if (known !== undefined) return known;
    const value = make(key);
    made.set(key, value);
    return value;
  };
}

/**
 * Every edition found among the files. An edition is read when it is first used, and a table when it is first looked up:
 * what does not fit then throws, and nothing of it is answered. `checkEditions` reads all of it at once.
 */
export function readEditions(files: TableFiles): ReadonlyMap<string, Edition> {
  const tablesOf = new Map<string, string[]>();
  for (const path of Object.keys(files)) {
    const [folder, name] = path.split("/");
    if (name === undefined) continue;
    const ids = tablesOf.get(folder!) ?? [];
    tablesOf.set(folder!, ids);
    const id = name.slice(0, -".json".length);
    if (id !== "edition" && id !== "constants") ids.push(id);
  }
  const common = once((): Common => ({
    assumptions: parse(z.record(z.string(), assumption), "assumptions.json", files),
    sources: parse(z.record(z.string(), source), "sources.json", files),
  }));
  const mustBeListed = (folder: string, cited: readonly string[]) => {
    const missing = cited.find((id) => !Object.hasOwn(common("").sources, id));
    if (missing !== undefined) {
      throw new TypeError(`tables/${folder}: source "${missing}" is not in tables/sources.json`);
    }
  };

  const table: (path: string) => Table = once((path) => {
    if (!Object.hasOwn(files, path)) {
      throw new TypeError(`tables/${path} is named by another edition and does not exist`);
    }
    const [folder, name] = path.split("/") as [string, string];
    const id = name.slice(0, -".json".length);
    const raw = files[path];
    if (typeof raw === "object" && raw !== null && "same as" in raw) {
      const { "same as": other, ...own } = parse(sameTable, path, files);
      mustBeListed(folder, own.sources ?? []);
      return new Table(id, { ...table(`${other}/${name}`).data, ...own });
    }
    const data = parse(tableFile, path, files);
    checkTable(path, data);
    mustBeListed(folder, data.sources);
    return new Table(id, data);
  });
  const constants: (folder: string) => ReadonlyMap<string, Constant> = once((folder) => {
    const path = `${folder}/constants.json`;
    if (!Object.hasOwn(files, path)) return new Map();
    const entries = parse(z.record(z.string(), z.union([constant, sameConstant])), path, files);
    return new Map(
      Object.entries(entries).map(([id, entry]) => {
        if (!("same as" in entry)) {
          mustBeListed(folder, entry.sources);
          return [id, entry];
        }
        const { "same as": other, ...own } = entry;
        const base = constants(other).get(id);
        if (!base) throw new TypeError(`tables/${path}: "${id}" is the same as ${other}, which has none`);
        return [id, { ...base, ...own }];
      }),
    );
  });
  const layered: (folder: string) => ReadonlyMap<string, Constant> = once((folder) => {
    const { over } = contents(folder).file;
    return over === undefined ? constants(folder) : new Map([...layered(over), ...constants(folder)]);
  });
  const contents: (folder: string) => Contents = once((folder) => {
    const file = parse(editionFile, `${folder}/edition.json`, files);
    if (file.id !== folder) throw new TypeError(`tables/${folder}/edition.json calls itself "${file.id}"`);
    const own = tablesOf.get(folder) ?? [];
    const ownTable = (id: string) => own.includes(id) ? table(`${folder}/${id}.json`) : undefined;
    const base = file.over === undefined ? undefined : contents(file.over);
    return {
      file: {
        ...file,
        clauses: { ...base?.file.clauses, ...file.clauses },
        rules: { ...base?.file.rules, ...file.rules },
        notCovered: { ...base?.file.notCovered, ...file.notCovered },
      },
      tableIds: [...new Set([...base?.tableIds ?? [], ...own])],
      get constants() {
        return layered(folder);
      },
      table: (id) => ownTable(id) ?? base?.table(id),
    };
  });
  return new Map([...tablesOf.keys()].sort().map((id) => [id, new Edition(id, () => contents(id), () => common(""))]));
}

/**
 * Reads everything every edition holds.
 * @throws TypeError naming file and field when a file does not fit, a `same as` leads nowhere, a row is the wrong length,
 * a key is out of order or a source is unknown
 */
export function checkEditions(editions: ReadonlyMap<string, Edition>): void {
  for (const edition of editions.values()) {
    void [edition.assumptions, edition.sources, edition.title];
    edition.grades();
  }
}

function checkTable(path: string, data: z.output<typeof tableFile>): void {
  const width = Object.keys(data.columns).length + 1;
  const short = data.rows.find((row) => row.length !== width);
  if (short) {
    throw new TypeError(`tables/${path}: row "${short[0]}" has ${short.length} cells, the columns need ${width}`);
  }
  const keys = data.rows.map((row) => row[0] ?? null);
  if (new Set(keys).size !== keys.length) throw new TypeError(`tables/${path}: a key stands twice`);
  if (data.match === "exact") return;
  const falling = keys.findIndex((key, i) =>
    i > 0 && (keys[i - 1] === null || (key !== null && exact(key).compare(exact(keys[i - 1]!)) <= 0))
  );
  if (falling > 0) throw new TypeError(`tables/${path}: the keys do not rise at "${keys[falling]}"`);
}
