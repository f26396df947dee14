/** What a worksheet asks of an edition of the code; `editions/` answers it from the data. */
import { ConductorSize } from "./conductor-size.ts";
import { exact, type Fraction, type Measure, type Value } from "./quantity.ts";
import type { Citation, Kind, LookedUp, Verified } from "./worked.ts";

export type Cell = string | number | null;
export type Row = readonly Cell[];
/** What a step states of a cell or a single value: made once, since it stands in many answers. */
export type Entry = { readonly value: Value; readonly n?: Fraction };

/** A value of the data as a step states it. */
export function entry(value: number | string, kind: Kind): Entry {
  if (kind === "word") return { value: { word: String(value) } };
  if (kind === "size") return { value: { word: ConductorSize.of(String(value)).name } };
  const n = exact(value);
  return { value: { n: n.toFraction(), unit: kind }, n };
}

/** What the book says in one place, and where. */
export type Found = {
  readonly entry: Entry;
  readonly kind: Kind;
  readonly cite: Citation;
  readonly where: Pick<LookedUp, "table" | "column" | "row" | "by">;
  /** How well it was seen in print, or what prints say that give it otherwise. */
  readonly note?: string | undefined;
};
/** A word, or a number in base units. */
export type Key = string | Measure;

/** A table of one edition. A column that it does not have throws a TypeError. */
export interface Table {
  readonly section: string;
  readonly data: {
    readonly title: string;
    readonly key: { readonly name: string; readonly kind: Kind };
    readonly columns: Readonly<Record<string, Kind>>;
    readonly rows: readonly Row[];
  };
  /** What a column gives. */
  kind(column: string): Kind;
  /** The row's cell, or null where the table leaves it blank. */
  cell(row: Row, column: string): Cell;
  /** The cell as an exact number; null where blank. */
  number(row: Row, column: string): Fraction | null;
  /** The row a key selects by the table's rule, or undefined past either end. */
  row(key: string | Fraction): Row | undefined;
  /** What stands in the row of a key; undefined past either end, and where the cell is blank. */
  find(column: string, key: Key): Found | undefined;
  /**
   * The key of the first row whose column is not below a limit, or of the last one whose column is not above it, of those
   * that `only` lets through by their key.
   */
  search(column: string, by: "at least" | "at most", limit: Measure, only: (key: string) => boolean): Found | undefined;
}

/** An edition of the code. What it does not hold throws NotCovered. */
export interface Book {
  readonly id: string;
  table(id: string): Table;
  /** A single value: its name and where it stands. */
  constant(id: string): { name: string; section: string; unit: Kind; verified: Verified; seen?: string | undefined };
  /** A single value as a step states it. */
  value(id: string): Found;
  /** Section and title of one of our clause names. */
  clause(id: string): { section: string; title: string };
  /** How this edition reads a rule that changed shape between editions. */
  rule(id: string): string;
  /** A default of `tables/assumptions.json`. */
  assumption(id: string): { name: string; value: string | number; unit: Kind; because: string; change: string };
}
