/** The slips that `deno task nudge` tries, on invented tables. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { cellsOf } from "../src/tools/nudge/slips.ts";
import { TABLE_TESTS, testsOf } from "../src/tools/nudge/tests-of.ts";
import { tableFiles } from "./support/engine.ts";

const sizes = { rows: [["4", 41.74], ["3", 52.62]], key: { kind: "word" }, columns: { area: "kcmil" } };
const slips = (file: string, data: unknown) =>
  cellsOf({ "2017/conductor-properties.json": sizes, [file]: data }).filter((each) => each.file === file)
    .map(({ place, slips }) => [place, slips.map(({ slip, value }) => `${slip} ${value}`)]);

describe("slips", () => {
  it("are the cells around, two digits swapped, one mistyped", () => {
    const table = {
      key: { kind: "A" },
      columns: { copper: "A", aluminum: "A", note: "word" },
      rows: [[10, 12.5, 100, "x"], [20, 25, null, "y"]],
    };
    assertEquals(slips("2020/a.json", table), [
      ["row 10, key", ["one row off 20"]],
      ["row 10, copper", ["one row off 25", "one column off 100", "digits swapped 21.5", "mistyped 12.6"]],
      ["row 10, aluminum", ["one column off 12.5", "mistyped 200"]],
      ["row 20, key", ["one row off 10", "mistyped 30"]],
      ["row 20, copper", ["one row off 12.5", "digits swapped 52", "mistyped 26"]],
    ]);
  });
  it("are no smaller than half a percent, and swap no leading zero", () => {
    const values = { a: 7.95, b: 0.0608, c: 1001, d: "1/4", e: "3", f: "gray" };
    const data = Object.fromEntries(
      Object.entries(values).map(([id, value]) => [id, { value, unit: id < "e" ? "1" : "word" }]),
    );
    assertEquals(slips("2020/constants.json", data), [
      ["a", ["digits swapped 9.75", "mistyped 7.85"]],
      ["b", ["digits swapped 0.6008", "mistyped 0.0618"]],
      ["c", ["digits swapped 1010", "mistyped 1011"]],
      ["d", ["mistyped 1/5"]],
      ["e", ["size before 4"]],
    ]);
  });
  it("change one cell and leave the files as they were", () => {
    const before = JSON.stringify(tableFiles["2017/constants.json"]);
    const cell = cellsOf(tableFiles).find(({ place }) => place === "overload-marked")!;
    assertEquals((cell.changed(126) as Record<string, { value: number }>)["overload-marked"]!.value, 126);
    assertEquals(JSON.stringify(tableFiles["2017/constants.json"]), before);
  });
  it("are shown to the tests of the tables and of the kinds that read the cell, its own kind first", () => {
    const tests = (file: string, place = "") => testsOf({ file, place });
    assertEquals(tests("2017/household-dryer-demand.json").slice(0, TABLE_TESTS.length), TABLE_TESTS);
    const ofKinds = tests("2017/household-dryer-demand.json").slice(TABLE_TESTS.length);
    assertEquals(ofKinds.includes("dryer-demand.test.ts") && ofKinds.includes("dwelling-load.test.ts"), true);
    assertEquals(ofKinds.includes("motor-circuit.test.ts"), false);
    assertEquals(tests("2017/constants.json", "transformer-small-below")[TABLE_TESTS.length], "transformer.test.ts");
  });
});
