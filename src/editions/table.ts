/** A table of one edition: rows found by key or by halving, each cell graded by how well it was checked. */
import type * as z from "zod";
import { type Cell, type Entry, entry, type Found, type Key, type Row, type Table as CoreTable } from "../core/book.ts";
import { amountIn, exact, type Fraction, type Measure, type Unit } from "../core/quantity.ts";
import { type Citation, type Kind, VERIFIED, type Verified } from "../core/worked.ts";
import type { tableFile } from "./files.ts";

/** A column's cells that are not blank, in the order of the rows. `rises` where no number is below the one before it. */
type Filled = { rows: readonly Row[]; numbers: readonly Fraction[]; rises: boolean };

/** A table of one edition, its cells graded one by one. Numbers are read when first asked for, once. */
export class Table implements CoreTable {
  readonly #columns: ReadonlyMap<string, number>;
  readonly #filled = new Map<string, Filled>();
  readonly #entries = new Map<Row, Entry[]>();
  readonly #finds = new Map<Entry, { by: string; read: string; found: Found }[]>();
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

  /** What a column gives, the key's own one too. */
  kind(column: string): Kind {
    const { key, columns } = this.data;
    const kind = column === key.name ? key.kind : columns[column];
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
    return entries[index] ??= entry(cell, this.kind(column));
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

  /** What stands in the row of a key; undefined past either end, and where the cell is blank. */
  find(column: string, key: Key): Found | undefined {
    const row = this.row(typeof key === "string" ? key : this.#inUnitOf(this.data.key.name, key));
    return row && this.#found(row, column, this.data.match);
  }

  /** The key of the first row whose column is not below a limit, or of the last one whose column is not above it. */
  search(
    column: string,
    by: "at least" | "at most",
    limit: Measure,
    only: (key: string) => boolean,
  ): Found | undefined {
    const bound = this.#inUnitOf(column, limit);
    const isWanted = (row: Row) => only(String(row[0]));
    const row = by === "at least" ? this.#atLeast(column, bound, isWanted) : this.#atMost(column, bound, isWanted);
    return row && this.#found(row, this.data.key.name, by, column);
  }

  #inUnitOf(column: string, measure: Measure): Fraction {
    return amountIn(measure, this.kind(column) as Unit);
  }

  /** @param read the column that was read to find the row, where it is another than the one that is told */
  #found(row: Row, column: string, by: Found["where"]["by"], read = column): Found | undefined {
    const entry = this.entry(row, column);
    if (entry === null) return undefined;
    const known = this.#finds.get(entry)?.find((each) => each.by === by && each.read === read);
    if (known) return known.found;
    const found = {
      entry,
      kind: this.kind(column),
      cite: citation(this.section, this.data.title, this.verifiedAt(row, read)),
      where: { table: this.id, column, row: String(row[0]), by },
      note: this.differingPrints(row, read).join("; ") || undefined,
    };
    this.#finds.set(entry, [...this.#finds.get(entry) ?? [], { by, read, found }]);
    return found;
  }

  /** The first row of those that `only` lets through whose column is not below `bound`. */
  #atLeast(column: string, bound: Fraction, only: (row: Row) => boolean): Row | undefined {
    for (const row of this.#firstNotBelow(column, bound)) {
      if (row[0] !== null && only(row)) return row;
    }
    return undefined;
  }

  /** The last row of those that `only` lets through whose column is not above `bound`. */
  #atMost(column: string, bound: Fraction, only: (row: Row) => boolean): Row | undefined {
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

/** Where a value stands. How well it was checked is told where that is less than in two sources. */
export const citation = (section: string, title: string, verified: Verified): Citation => ({
  section,
  title,
  ...(verified !== "two sources" && { verified }),
});

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
