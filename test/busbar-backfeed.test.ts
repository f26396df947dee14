/** A source on a busbar: published examples, each permitted way below, at and above its limit, and how it is asked. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { makeReader } from "./support/reader.ts";
import { answered, ask, EDITIONS, engine, figure } from "./support/engine.ts";

const A = (value: number) => ({ value, unit: "A" });
const of = (request: object, edition = "2023") => answered({ kind: "busbar-backfeed", ...request }, { edition });
const solar = (breaker: number) => [{ kind: "solar", breaker: A(breaker) }];
const panel = (bus: number, main: number, more: object = {}) => ({ bus: A(bus), main: A(main), ...more });

describe("a source on a busbar", () => {
  // Mike Holt forum thread 94786: 200 A bus, 150 A main: 240 A in all, 90 A two-pole at the opposite end.
  it("leaves 120 % of the busbar less the main", () => {
    for (const edition of EDITIONS) {
      const answer = of(panel(200, 150), edition);
      assertEquals([figure(answer, "busbar-limit"), figure(answer, "largest-backfeed-breaker")], [240, 90]);
    }
    // By hand: 1.2 × 225 − 200, 1.2 × 125 − 125, 1.2 × 200 − 175 = 65 and the standard rating below it.
    const largest = ([bus, main]: number[]) => figure(of(panel(bus!, main!)), "largest-backfeed-breaker");
    assertEquals([[225, 200], [125, 125], [200, 175], [100, 120]].map(largest), [70, 25, 60, 0]);
  });
  // Home Improvement Stack Exchange answer (mirrored): 200 A bus, 150 A main, 60 A of solar: 210 A, passes.
  it("is ok at the opposite end up to that share", () => {
    const verdict = (breaker: number) =>
      of(panel(200, 150, { sources: solar(breaker), position: "opposite the main" })).verdict;
    assertEquals([60, 90, 91].map(verdict), ["ok", "ok", "not ok"]);
  });
  it("is ok wherever it stands where source and main stay within the busbar", () => {
    const verdict = (breaker: number) =>
      of(panel(200, 150, { sources: solar(breaker), position: "beside the main" })).verdict;
    assertEquals([49, 50, 51].map(verdict), ["ok", "ok", "not ok"]);
  });
  it("depends on where it stands, where that was not told", () => {
    const answer = of(panel(200, 200, { sources: solar(40) }));
    assertEquals(answer.verdict, "ok if");
    assertStringIncludes(answer.headline, "opposite the main");
  });
  it("counts 125 % of an output that is told, and the breaker where it is not", () => {
    const current = (source: object) => figure(of(panel(125, 100, { sources: [source] })), "source-current");
    assertEquals(current({ output: A(24), breaker: A(40) }), 30);
    assertEquals(current({ breaker: A(40) }), 40);
    assertAlmostEquals(current({ output: { value: 7.6, unit: "kW" } }) as number, 1.25 * 7600 / 240, 1e-9);
    assertEquals(current({ output: A(24), count: 2 }), 60);
  });
  it("names the largest main with which it fits, unless that is hardly one", () => {
    const answer = of(panel(125, 125, { sources: [{ output: A(24), breaker: A(30) }], position: "opposite the main" }));
    assertEquals([answer.verdict, figure(answer, "main-rating")], ["not ok", 110]);
    assert(!("main-rating" in of(panel(100, 100, { sources: solar(100) })).figures));
  });
  it("may go by all devices together, never by them without a word of later ones", () => {
    const verdict = (load: number) =>
      of(panel(200, 200, { sources: solar(60), position: "opposite the main", loadBreakers: A(load) })).verdict;
    assertEquals([139, 140, 141].map(verdict), ["ok if", "ok if", "not ok"]);
  });
  // 705.12(B)(1) beside the main, 705.12(B)(2) at the opposite end: a main of the same rating is no way out.
  it("names beside the main a main that fits there, and the opposite end where that is enough", () => {
    const beside = (bus: number, main: number, breaker: number) =>
      of(panel(bus, main, { sources: solar(breaker), position: "beside the main" }));
    const moved = beside(200, 200, 40);
    assertEquals([moved.verdict, figure(moved, "main-rating")], ["not ok", 150]);
    assertStringIncludes(moved.headline, "at the opposite end it fits");
    assertStringIncludes(moved.headline, "with a 150 A main");
    assert(!beside(200, 200, 41).headline.includes("opposite end"));
    assertEquals(figure(beside(200, 150, 60), "main-rating"), 125);
  });
  // 705.12(B)(3): the busbar less the load breakers.
  it("leaves by all devices together what the load breakers leave, where that is more", () => {
    const largest = (load: number, more: object = {}) =>
      figure(of(panel(200, 200, { loadBreakers: A(load), ...more })), "largest-backfeed-breaker");
    const beside = { position: "beside the main", sources: solar(40) };
    assertEquals([160, 159, 161, 200, 240].map((load) => largest(load, beside)), [40, 40, 35, 0, 0]);
    assertEquals([100, 160, 161].map((load) => largest(load)), [100, 40, 40]);
    const answer = of(panel(200, 200, { loadBreakers: A(100) }));
    assertStringIncludes(answer.headline, "if none is added later");
  });
  it("says in 2017 that a setting does not count", () => {
    const cautioned = (edition: string) =>
      of(panel(200, 150, { sources: solar(60), setting: A(50) }), edition).cautions
        .some(({ text }) => text.includes("does not count in this edition"));
    assertEquals(EDITIONS.map(cautioned), [true, false, false, false]);
  });
  it("may be held by a power control system from 2020 on", () => {
    const verdict = (edition: string) =>
      of(panel(200, 150, { sources: solar(120), position: "opposite the main", setting: A(50) }), edition).verdict;
    assertEquals(EDITIONS.map(verdict), ["not ok", "ok if", "ok if", "ok if"]);
  });
  it("says of every value under 2026 that it is from memory", () => {
    const answer = of(panel(200, 150), "2026");
    assert(answer.steps.some(({ cite }) => cite?.verified === "from memory"));
  });
  it("takes an untold busbar or main as large as the other, and says so", () => {
    const answer = of({ bus: A(200) });
    assertEquals(figure(answer, "largest-backfeed-breaker"), 40);
    assert(answer.assumptions.some(({ name }) => name === "rating of the main"));
  });
  it("asks for the busbar where nothing is known, and leaves a generator behind its switch alone", () => {
    const nothing = ask({ kind: "busbar-backfeed", sources: solar(20) });
    assert(nothing.outcome === "unclear");
    assertEquals(nothing.needs.map(({ field }) => field), ["bus"]);
    assertEquals(
      ask({ kind: "busbar-backfeed", bus: A(200), sources: [{ kind: "generator", breaker: A(50) }] }).outcome,
      "not covered",
    );
  });
  it("warns of two sources", () => {
    assert(of(panel(200, 200)).cautions.some(({ text }) => text.startsWith("Two sources")));
  });
  it("never takes more on a larger main, nor less on a larger busbar", () => {
    const rating = fc.constantFrom(100, 125, 150, 200, 225, 400);
    const largest = (bus: number, main: number) => figure(of(panel(bus, main)), "largest-backfeed-breaker") as number;
    fc.assert(fc.property(rating, rating, rating, (bus, one, other) => {
      const [less, more] = one < other ? [one, other] : [other, one];
      assert(largest(bus, less) >= largest(bus, more));
      assert(largest(less, bus) <= largest(more, bus));
    }));
  });

  const question = engine.questions.find(({ id }) => id === "busbar-backfeed")!;
  const read = makeReader(engine.questions);
  it("reads its own writing back", () => {
    const source = fc.record({
      kind: fc.constantFrom("solar", "battery"),
      count: fc.constantFrom(1, 2),
      breaker: fc.constantFrom(20, 30, 60).map(A),
      output: fc.constantFrom(A(16), { value: 7.6, unit: "kW" }),
    }, { requiredKeys: ["kind", "breaker"] });
    const request = fc.record({
      bus: fc.constantFrom(100, 200, 225).map(A),
      main: fc.constantFrom(100, 150, 200).map(A),
      sources: source.map((one) => [one]),
      position: fc.constantFrom("opposite the main", "beside the main"),
      centerFed: fc.constant(true),
      loadBreakers: fc.constant(A(140)),
      setting: fc.constant(A(40)),
      volts: fc.constant({ value: 208, unit: "V" }),
      supply: fc.constantFrom("single-phase", "three-phase"),
    }, { requiredKeys: ["bus"] });
    fc.assert(
      fc.property(request, (draft) => {
        const parsed = question.input.parse(draft);
        const written = question.write(parsed);
        const back = read(written);
        assertEquals(back.question?.id, "busbar-backfeed", written);
        if (back.question) assertEquals(question.input.parse(back.draft), parsed, written);
      }),
      { numRuns: 200 },
    );
  });
});
