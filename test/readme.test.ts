/** The README says what the code does: its list and its answer are the engine's, its commands are tasks that exist. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { README, withParts } from "../src/tools/readme.ts";
import { engine } from "./support/engine.ts";

const readme = Deno.readTextFileSync(README);

describe("the README", () => {
  it("lists what can be asked and answers as the engine does now (`deno task examples` writes it anew)", () => {
    assertEquals(readme, withParts(readme, engine));
  });
  it("names tasks that exist", () => {
    const { tasks } = JSON.parse(Deno.readTextFileSync(new URL("../deno.json", import.meta.url)));
    const named = [...readme.matchAll(/ task ([a-z:]+)/g)].map(([, task]) => task!);
    assertEquals(named.filter((task) => !(task in tasks)), []);
  });
});
