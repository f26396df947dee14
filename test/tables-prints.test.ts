/**
 * The tables against prints, value by value, as someone else copied them: a slip in one of the two is noticed. `prints.json`
 * names each print. Its columns stand in the order of the rows; – is a blank and ? a cell that this print was not read for.
 */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { exact, isUnit } from "../src/core/quantity.ts";
import { EDITIONS, editions } from "./support/engine.ts";

/** A print of a table, or of single values. It holds for every edition that has them, where none is named. */
type Print =
  & { print: string; editions?: string[] }
  & (
    | { table: string; columns: Record<string, string> }
    | { values: Record<string, number | string> }
  );
const PRINTS: Print[] = JSON.parse(Deno.readTextFileSync(new URL("prints.json", import.meta.url)));

const same = (cell: unknown, printed: string, isWord: boolean): boolean =>
  cell === null ? printed === "–" : isWord ? cell === printed : exact(cell as number | string).equals(exact(printed));

describe("tables as printed", () => {
  for (const each of PRINTS) {
    if (!("table" in each)) continue;
    const { print, table, columns, editions: ids = EDITIONS } = each;
    it(`${table} in ${ids.join(", ")}: ${print}`, () => {
      for (const id of ids) {
        const found = editions.get(id)!.table(table);
        for (const [column, text] of Object.entries(columns)) {
          const isKey = column === found.data.key.name;
          const isWord = !isUnit(isKey ? found.data.key.kind : found.kind(column));
          const printed = text.split(", ");
          assertEquals(found.data.rows.length, printed.length, `${id} ${table}, ${column}: rows`);
          found.data.rows.forEach((row, i) => {
            const cell = found.cell(row, column);
            if (printed[i] === "?" || same(cell, printed[i]!, isWord)) return;
            assertEquals(cell, printed[i], `${id} ${table}, ${row[0]}, ${column}`);
          });
        }
      }
    });
  }
});

describe("single values as printed", () => {
  for (const each of PRINTS) {
    if (!("values" in each)) continue;
    const { print, values, editions: ids } = each;
    it(`${Object.keys(values).length} in ${ids?.join(", ") ?? "every edition that has them"}: ${print}`, () => {
      for (const [id, printed] of Object.entries(values)) {
        const having = ids ?? EDITIONS.filter((edition) => editions.get(edition)!.ids().constants.includes(id));
        assert(having.length > 0, `no edition has "${id}"`);
        for (const edition of having) {
          assertEquals(editions.get(edition)!.constant(id).value, printed, `${edition} ${id}`);
        }
      }
    });
  }
});
