import { assert, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { makeEngine } from "../src/engine.ts";
import { type Declined, declined } from "../src/questions/declined.ts";
import { ask, editions, engine } from "./support/engine.ts";

/** One that stands for those that may come: what a transformer hums at. */
const HUM: Declined = {
  id: "hum",
  title: "how loud a transformer hums",
  isAsked: (t) => t.all("transformer", "transformer").length > 0,
};

describe("questions that are not worked out yet", () => {
  it("are declined by their name, whatever else has a place for the facts", () => {
    const outcome = makeEngine(engine.questions, editions, [HUM]).ask("45 kVA transformer 480 to 208Y/120", {});
    assert(outcome.outcome === "not covered", JSON.stringify(outcome).slice(0, 300));
    assertStringIncludes(outcome.because, HUM.title);
  });
  it("are none of those that are", () => {
    for (const question of engine.questions) {
      for (const example of question.examples) assert(ask(example).outcome !== "not covered", example);
    }
  });
  it("have titles of their own", () => {
    assertEquals(new Set(declined.map(({ title }) => title)).size, declined.length);
  });
});
