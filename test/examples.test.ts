import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { exampleFiles, FOLDER } from "../src/tools/examples.ts";
import { engine } from "./support/engine.ts";

describe("the whole-job examples", () => {
  it("stand as the engine answers now (`deno task examples` writes them anew)", () => {
    for (const [name, contents] of Object.entries(exampleFiles(engine))) {
      assertEquals(Deno.readTextFileSync(new URL(name, FOLDER)), contents, name);
    }
  });
});
