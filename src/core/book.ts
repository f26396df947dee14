/** What a worksheet asks of an edition of the code; `editions/` answers it from the data. */
import { ConductorSize } from "./conductor-size.ts";
import { exact, type Fraction, type Value } from "./quantity.ts";
import type { Kind, LookUpRule, Verified } from "./worked.ts";

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
/** A table of one edition. A column that it does not have throws a TypeError. */
export interface Table {
  readonly id: string;
  readonly section: string;
  readonly data: {
    readonly title: string;
    readonly section: string;
    readonly key: { readonly name: string; readonly kind: Kind };
    readonly match: LookUpRule;
    readonly columns: Readonly<Record<string, Kind>>;
    readonly rows: readonly Row[];
  };
  /** What a column gives. */
  kind(column: string): Kind;
  /** The row's cell, or null where the table leaves it blank. */
  cell(row: Row, column: string): Cell;
  /** What stands in the cell, as a step states it; null where blank. */
  entry(row: Row, column: string): Entry | null;
  /** The cell as an exact number; null where blank. */
  number(row: Row, column: string): Fraction | null;
  /** The row a key selects by the table's rule, or undefined past either end. */
  row(key: string | Fraction): Row | undefined;
  /** The first row of those that `only` lets through whose column is not below `bound`. */
  atLeast(column: string, bound: Fraction, only: (row: Row) => boolean): Row | undefined;
  /** The last row of those that `only` lets through whose column is not above `bound`. */
  atMost(column: string, bound: Fraction, only: (row: Row) => boolean): Row | undefined;
  /** How well the cell was checked. */
  verifiedAt(row: Row, column: string): Verified;
  /** What prints say that give the cell otherwise, in words for the answer. */
  differingPrints(row: Row, column: string): string[];
}

/** An edition of the code. What it does not hold throws NotCovered. */
export interface Book {
  readonly id: string;
  table(id: string): Table;
  /** A single value: its name and where it stands. */
  constant(id: string): { name: string; section: string; unit: Kind; verified: Verified; seen?: string | undefined };
  /** A single value as a step states it. */
  entry(id: string): Entry;
  /** Section and title of one of our clause names. */
  clause(id: string): { section: string; title: string };
  /** How this edition reads a rule that changed shape between editions. */
  rule(id: string): string;
  /** A default of `tables/assumptions.json`. */
  assumption(id: string): { name: string; value: string | number; unit: Kind; because: string; change: string };
}
