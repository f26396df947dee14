/** What becomes of a text's figures: none that a question took may be lost on the way to its request. */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { readText } from "../../src/reading/read.ts";
import { take, type Taker } from "../../src/reading/take.ts";
import { lostOf } from "../../src/reading/lost.ts";
import type { Draft } from "../../src/reading/facts.ts";
import { ask } from "../support/engine.ts";

/** The figures that a question loses which takes every figure of a text and keeps what `draft` says. */
const lost = (asked: string, draft: Draft, more: (t: Taker) => void = () => {}): string[] => {
  const taken = take(readText(asked).facts, (t) => {
    for (const fact of t.facts.facts) for (const slot of Object.keys(fact.slots)) t.slot(fact, slot);
    for (const { key } of t.facts.free) t.free(key);
    more(t);
    return draft;
  });
  return lostOf(taken!).map(({ said }) => said);
};

describe("a figure that was taken", () => {
  it("stands in the request, or it is lost", () => {
    assertEquals(lost("12 kW range, 5 kW dryer", { loads: [{ value: 12 }] }), ["5 kW"]);
    assertEquals(lost("12 kW range, 5 kW dryer", { loads: [{ value: 12 }, { value: 5 }] }), []);
  });
  it("may stand there in a sum or a product with another", () => {
    assertEquals(lost("60 ft and 45 ft", { length: 105 }), []);
    assertEquals(lost("two floors of 900 sq ft", { area: 1800 }), []);
    assertEquals(lost("80 % power factor", { powerFactor: 0.8 }), []);
    assertEquals(lost("60 ft and 45 ft", { length: 60 }), ["45 ft"]);
  });
  it("may be a count that the list itself shows", () => {
    assertEquals(lost("three motors 20 hp", { motors: [{ power: 20 }, { power: 10 }, { power: 5 }] }), []);
    assertEquals(lost("three motors 20 hp", { motors: [{ power: 20 }] }), ["three"]);
  });
  it("may be told in a note, or be asked about", () => {
    assertEquals(lost("12 kW range", {}, (t) => t.note("took 12 as kW")), []);
    assertEquals(lost("12 kW range", {}, (t) => t.ask({ field: "f", ask: "?", example: "" })), []);
  });
});

describe("what is asked back", () => {
  const missed = (asked: string): string => {
    const outcome = ask(asked);
    assert(outcome.outcome === "unclear", JSON.stringify(outcome).slice(0, 200));
    return outcome.needs[0]!.ask;
  };
  it("is a figure that the question has no use for", () => {
    // Amperes of dryers count at 240 V: at another voltage they are others.
    assert(missed("dryer demand: six dryers of 24 A at 208 V").includes("208 V"));
  });
  it("is no goal that any answer meets", () => {
    assertEquals(
      ask("feeder for two 5 hp motors at 460 V three phase, what does it have to carry").outcome,
      "answered",
    );
  });
});

describe("questions that a text may ask equally", () => {
  it("are answered where their answers agree", () => {
    const outcome = ask("cabin 260 ft away, 240 V, no more than 40 A, within 3 percent, copper, the smallest wire");
    assertEquals(outcome.outcome === "answered" && outcome.answer.figures["ungrounded-conductor"]?.value, "4");
  });
});
