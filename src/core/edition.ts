/**
 * An edition of the code as data: tables, single values, section numbers and named rules, read from `tables/`.
 *
 * Nothing here falls back: what an edition does not hold is an error that says so. A value an edition shares with
 * another is written there as `same as`, with the section number and the grade of checking that hold in this edition.
 */
import * as z from "zod";
import { exact, type Fraction, isUnit, type Quantity, type Unit } from "./quantity.ts";
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
  weaker: z.array(z.strictObject({ rows: z.array(cell), columns: z.array(z.string()).optional(), verified }))
    .optional(),
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

/** A table of one edition, its cells graded one by one. */
export class Table {
  constructor(readonly id: string, readonly data: z.output<typeof tableFile>) {}

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
    if (column === this.data.key.name) return 0;
    this.kind(column);
    return Object.keys(this.data.columns).indexOf(column) + 1;
  }

  /** The row's cell, or null where the table leaves it blank. */
  cell(row: readonly Cell[], column: string): Cell {
    return row[this.#columnIndex(column)] ?? null;
  }

  /** The cell as an exact number; null where blank. */
  number(row: readonly Cell[], column: string): Fraction | null {
    const value = this.cell(row, column);
    return value === null ? null : exact(value);
  }

  /** The row a key selects by the table's rule, or undefined past either end. A null key marks an open last row. */
  row(key: string | Fraction): readonly Cell[] | undefined {
    if (typeof key === "string") return this.data.rows.find((row) => String(row[0]) === key);
    if (this.data.match === "exact") return this.data.rows.find((row) => row[0] != null && exact(row[0]).equals(key));
    return this.data.rows.find((row) => row[0] === null || exact(row[0]!).compare(key) >= 0);
  }

  /** How well this cell was checked: the weakest grade that holds for it, so an edition never beats its own grade. */
  verifiedAt(row: readonly Cell[], column: string): Verified {
    const grades = (this.data.weaker ?? []).filter((w) =>
      w.rows.some((key) => key === row[0]) && (w.columns === undefined || w.columns.includes(column))
    ).map((w) => VERIFIED.indexOf(w.verified));
    return VERIFIED[Math.max(VERIFIED.indexOf(this.data.verified), ...grades)]!;
  }
}

/** One edition, or one edition with a locality's amendments laid over it. */
export class Edition {
  constructor(
    private readonly file: z.output<typeof editionFile>,
    private readonly tables: ReadonlyMap<string, Table>,
    private readonly constants: ReadonlyMap<string, Constant>,
    readonly assumptions: Readonly<Record<string, Assumption>>,
    readonly sources: Readonly<Record<string, Source>>,
  ) {}

  get id(): string {
    return this.file.id;
  }
  get title(): string {
    return this.file.title;
  }
  get from(): string {
    return this.file.from;
  }
  /** The edition these amendments are laid over, if any. */
  get over(): string | undefined {
    return this.file.over;
  }
  get note(): string | undefined {
    return this.file.note;
  }

  /** @throws NotCovered when this edition says that it does not answer this kind of question. */
  mustCover(question: string): void {
    const because = this.file.notCovered?.[question];
    if (because !== undefined) throw new NotCovered(because, this.id);
  }

  /** @throws NotCovered when the edition's data has no such table. */
  table(id: string): Table {
    const table = this.tables.get(id);
    if (!table) throw new NotCovered(`the ${this.id} data here has no table "${id}"`, this.id);
    return table;
  }

  /** @throws NotCovered when the edition's data has no such value. */
  constant(id: string): Constant {
    const value = this.constants.get(id);
    if (!value) throw new NotCovered(`the ${this.id} data here has no value "${id}"`, this.id);
    return value;
  }

  /** Section and title of one of our clause names. @throws NotCovered when the edition's data does not number it. */
  clause(id: string): Clause {
    const found = this.file.clauses[id];
    if (!found) throw new NotCovered(`the ${this.id} data here has no section for "${id}"`, this.id);
    return found;
  }

  /** How this edition reads a rule that changed shape between editions. @throws NotCovered when it does not say. */
  rule(id: string): string {
    const reading = this.file.rules[id];
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
    for (const value of this.constants.values()) counts[value.verified]++;
    for (const table of this.tables.values()) {
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
      tables: [...this.tables.keys()],
      constants: [...this.constants.keys()],
      clauses: Object.keys(this.file.clauses),
      rules: Object.keys(this.file.rules),
    };
  }
}

/** The files of `tables/` by path (`2023/edition.json`), parsed. */
export type TableFiles = Readonly<Record<string, unknown>>;

function parse<T extends z.ZodType>(schema: T, path: string, files: TableFiles): z.output<T> {
  const read = schema.safeParse(files[path]);
  if (!read.success) throw new TypeError(`tables/${path}: ${z.prettifyError(read.error)}`);
  return read.data;
}

/**
 * Builds every edition found among the files.
 * @throws TypeError naming file and field when a file does not fit, a `same as` leads nowhere, a row is the wrong length,
 * a key is out of order or a source is unknown: a fault in the data stops the start, not an answer.
 */
export function readEditions(files: TableFiles): ReadonlyMap<string, Edition> {
  const assumptions = parse(z.record(z.string(), assumption), "assumptions.json", files);
  const known = parse(z.record(z.string(), source), "sources.json", files);
  const folders = [
    ...new Set(Object.keys(files).filter((path) => path.includes("/")).map((path) => path.split("/")[0]!)),
  ].sort();
  const ids = (folder: string) =>
    Object.keys(files).filter((path) => path.startsWith(`${folder}/`)).map((path) =>
      path.slice(folder.length + 1, -".json".length)
    )
      .filter((id) => id !== "edition" && id !== "constants");

  const table = (folder: string, id: string): Table => {
    const path = `${folder}/${id}.json`;
    if (!(path in files)) throw new TypeError(`tables/${path} is named by another edition and does not exist`);
    const raw = files[path];
    if (typeof raw === "object" && raw !== null && "same as" in raw) {
      const { "same as": other, ...own } = parse(sameTable, path, files);
      return new Table(id, { ...table(other, id).data, ...own });
    }
    const data = parse(tableFile, path, files);
    checkTable(path, data);
    return new Table(id, data);
  };
  const constants = (folder: string): Map<string, Constant> => {
    const path = `${folder}/constants.json`;
    if (!(path in files)) return new Map();
    const entries = parse(z.record(z.string(), z.union([constant, sameConstant])), path, files);
    return new Map(
      Object.entries(entries).map(([id, entry]) => {
        if (!("same as" in entry)) return [id, entry];
        const { "same as": other, ...own } = entry;
        const base = constants(other).get(id);
        if (!base) throw new TypeError(`tables/${path}: "${id}" is the same as ${other}, which has none`);
        return [id, { ...base, ...own }];
      }),
    );
  };
  const layers = (
    folder: string,
  ): { file: z.output<typeof editionFile>; tables: Map<string, Table>; constants: Map<string, Constant> } => {
    const own = parse(editionFile, `${folder}/edition.json`, files);
    const tables = new Map(ids(folder).map((id) => [id, table(folder, id)]));
    if (own.over === undefined) return { file: own, tables, constants: constants(folder) };
    const base = layers(own.over);
    return {
      file: {
        ...own,
        clauses: { ...base.file.clauses, ...own.clauses },
        rules: { ...base.file.rules, ...own.rules },
        notCovered: { ...base.file.notCovered, ...own.notCovered },
      },
      tables: new Map([...base.tables, ...tables]),
      constants: new Map([...base.constants, ...constants(folder)]),
    };
  };
  return new Map(folders.map((folder) => {
    const { file, tables, constants } = layers(folder);
    if (file.id !== folder) throw new TypeError(`tables/${folder}/edition.json calls itself "${file.id}"`);
    const cited = [
      ...[...tables.values()].flatMap((t) => t.data.sources),
      ...[...constants.values()].flatMap((c) => c.sources),
    ];
    const missing = cited.find((id) => !(id in known));
    if (missing !== undefined) {
      throw new TypeError(`tables/${folder}: source "${missing}" is not in tables/sources.json`);
    }
    return [folder, new Edition(file, tables, constants, assumptions, known)];
  }));
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

/** A constant as a quantity. @throws TypeError when it is a word. */
export function constantQuantity(value: Constant): Quantity {
  if (value.unit === "word") throw new TypeError(`"${value.name}" is a word, not a number`);
  return { n: exact(value.value).toFraction(), unit: value.unit };
}
