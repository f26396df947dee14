/**
 * An edition of the code as data: tables, single values, section numbers and named rules.
 *
 * Nothing here falls back: what an edition does not hold is an error that says so. A value an edition shares with
 * another is written there as `same as`, with the section number and the grade of checking that hold in this edition.
 */
import type * as z from "zod";
import { type Book, entry, type Found } from "../core/book.ts";
import { NotCovered } from "../core/outcome.ts";
import type { Verified } from "../core/worked.ts";
import type { Assumption, Clause, Constant, editionFile, Source } from "./files.ts";
import { citation, type Table } from "./table.ts";

/** What an edition's files hold, its own and those it is laid over; each file is read when it is first asked for. */
export type Contents = {
  readonly file: z.output<typeof editionFile>;
  readonly tableIds: readonly string[];
  readonly constants: ReadonlyMap<string, Constant>;
  table(id: string): Table | undefined;
};

export type Common = { assumptions: Readonly<Record<string, Assumption>>; sources: Readonly<Record<string, Source>> };

/** One edition, or one edition with a locality's amendments laid over it. */
export class Edition implements Book {
  readonly #read: () => Contents;
  readonly #values = new Map<string, Found>();
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
  value(id: string): Found {
    const known = this.#values.get(id);
    if (known) return known;
    const { name, value, unit, section, verified, seen } = this.constant(id);
    const made: Found = {
      entry: entry(value, unit),
      kind: unit,
      cite: citation(section, name, verified),
      where: { table: "constants", column: "value", row: id, by: "exact" },
      note: seen,
    };
    this.#values.set(id, made);
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
