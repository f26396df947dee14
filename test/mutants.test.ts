/** The changes that `deno task mutants` makes, on an invented module. */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { changed, mutationsOf, standingAnywhere } from "../src/tools/mutants/mutations.ts";
import { testsOf } from "../src/tools/mutants/tests-of.ts";

const mutants = (source: string) => mutationsOf(source).map((each) => changed(source, each));

describe("mutants", () => {
  it("move a bound, turn a test round, change a number", () => {
    assertEquals(mutants("if (a < 2) b();"), [
      "if (!(a < 2)) b();",
      "if (a <= 2) b();",
      "if (a < 3) b();",
      "if (a < 2) ;",
    ]);
    assertEquals(mutants("const x = !a && b === c;"), [
      "const x = a && b === c;",
      "const x = !a || b === c;",
      "const x = !a && b !== c;",
    ]);
    assertEquals(mutants("const x = a ? b : c;"), ["const x = a ? c : b;"]);
    assertEquals(mutants("const x = a / b - true;"), [
      "const x = a * b - true;",
      "const x = a / b + true;",
      "const x = a / b - false;",
    ]);
  });
  it("leave words, comments, patterns and types as they are", () => {
    assertEquals(mutants('type A = 1 | 2;\nconst x: 3 = "1 < 2" + /a<1/; // 1 < 2'), []);
    assertEquals(mutants("const x = `${a}` as 1;"), []);
  });
  it("stand anywhere with what they import", () => {
    const module = new URL("file:///house/src/rules/a.ts");
    assertEquals(
      standingAnywhere('import { b } from "./b.ts";\nimport z from "zod";\nexport * from "../core/c.ts";', module),
      'import { b } from "file:///house/src/rules/b.ts";\nimport z from "zod";\nexport * from "file:///house/src/core/c.ts";',
    );
  });
  it("are shown to the tests of the kinds that use the module, its own kind's first, and to what holds of all", () => {
    const own = testsOf("questions/load/dryer-demand/question.ts");
    assertEquals(own[0], "dryer-demand.test.ts");
    assert(own.includes("every-kind.test.ts") && !own.includes("motor-circuit.test.ts"));
    assert(testsOf("rules/dryers.ts").includes("dwelling-load.test.ts"));
    assertEquals(testsOf("reading/numbers.ts")[0], "reading/numbers.test.ts");
    assert(testsOf("core/formula.ts").includes("formula.test.ts"));
  });
});
