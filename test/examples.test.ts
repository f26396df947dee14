/** The files of `examples/` to the letter: whatever a change alters of an answer, a step's name or a note too, is seen. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { exampleFiles, FOLDER } from "../src/tools/examples.ts";
import { engine } from "./support/engine.ts";

describe("the whole-job examples", () => {
  for (const [name, contents] of Object.entries(exampleFiles(engine))) {
    it(`${name} says what the engine answers now (\`deno task examples\` writes it anew)`, () => {
      assertEquals(Deno.readTextFileSync(new URL(name, FOLDER)), contents);
    });
  }
});
