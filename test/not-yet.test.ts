import { assert, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { makeEngine } from "../src/engine.ts";
import { type Declined, declined } from "../src/questions/declined.ts";
import { ask, editions, engine } from "./support/engine.ts";

/** One that stands for those that may come: what a transformer hums at. */
const HUM: Declined = {
  id: "hum",
  title: "How loud transformers hum",
  instead: "Ask the maker",
  isAsked: (t) => t.all("transformer", "transformer").length > 0,
};

describe("questions that are not worked out yet", () => {
  it("are declined by their name, whatever else has a place for the facts", () => {
    const outcome = makeEngine(engine.questions, editions, [HUM]).ask("45 kVA transformer 480 to 208Y/120", {});
    assert(outcome.outcome === "not covered", JSON.stringify(outcome).slice(0, 300));
    assertStringIncludes(outcome.because, HUM.title);
  });
  it("name systems that a rule asks for, and say what to do: none is answered as an ordinary circuit or generator", () => {
    // Articles 517, 695, 700, 701.
    const says: readonly (readonly [string, string])[] = [
      ["emergency system for a clinic, 5 kW of lighting, 20 kW generator, ok?", "700"],
      ["60 A feeder to the emergency panel, 100 ft, what wire", "700"],
      ["load 40 kVA, legally required standby generator, what size", "701"],
      ["generator by 701.4, load 40 kVA", "701"],
      ["life safety branch of 10 kVA, feeder?", "700"],
      ["critical branch 30 kVA at 208Y/120, what feeder", "517"],
      ["fire pump 40 hp 460 V three phase, wire and breaker", "695"],
    ];
    for (const [text, article] of says) {
      const outcome = ask(text);
      assert(outcome.outcome === "not covered", `${text}: ${outcome.outcome}`);
      assertStringIncludes(outcome.because, article);
      assert(/\. (?:A source|Their)[^.]*\.? .*ask/i.test(outcome.because), outcome.because);
    }
  });
  it("leave what only sounds like one", () => {
    const kinds = [
      "heat pump 20 A with 10 kW emergency heat, 1800 sq ft, 12 kW range, what service",
      "emergency generator 22 kW for my house, 2000 sq ft, 12 kW range",
      "optional standby generator 22 kW, 2000 sq ft house, 12 kW range, enough?",
      "40 hp pump motor 460 V three phase, wire and breaker",
    ].map((text) => {
      const outcome = ask(text);
      return outcome.outcome === "answered" ? outcome.answer.kind : outcome.outcome;
    });
    assertEquals(kinds, ["dwelling-load", "standby-load", "standby-load", "motor-circuit"]);
  });
  it("are on the mind of a generator's answer where it is none of a house", () => {
    const isSaid = (text: string) => {
      const outcome = ask(text);
      return outcome.outcome === "answered" && outcome.answer.cautions.some(({ text }) => /700, 701/.test(text));
    };
    assertEquals(
      ["22 kW generator, calculated load 80 A, enough?", "22 kW generator, 2000 sq ft house, 12 kW range, enough?"].map(
        isSaid,
      ),
      [true, false],
    );
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
