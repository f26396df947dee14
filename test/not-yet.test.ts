import { assert, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { declined } from "../src/questions/declined.ts";
import { ask, engine } from "./support/engine.ts";

/** Our own phrasings, and a word of the title each is declined by. */
const DECLINED: Record<string, string> = {
  "load of an RV park with 40 sites": "recreational",
};

describe("questions that are not worked out yet", () => {
  for (const [asked, title] of Object.entries(DECLINED)) {
    it(`declines by name: ${asked}`, () => {
      const outcome = ask(asked);
      assert(outcome.outcome === "not covered", JSON.stringify(outcome).slice(0, 300));
      assertStringIncludes(outcome.because, title);
    });
  }
  it("are none of those that are", () => {
    for (const question of engine.questions) {
      for (const example of question.examples) assert(ask(example).outcome !== "not covered", example);
    }
  });
  it("have titles of their own", () => {
    assertEquals(new Set(declined.map(({ title }) => title)).size, declined.length);
  });
});
