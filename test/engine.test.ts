import { assert, assertEquals, assertStringIncludes, assertThrows } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { InvalidRequest, type Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";

describe("the engine", () => {
  it("answers a text and carries the request that gives the same answer", () => {
    const byText = answered("demand of 10 dryers 5.5 kW each, single phase", { edition: "2023" });
    const byRequest = answered(byText.request as Request, { edition: "2023" });
    assertEquals(byRequest.figures, byText.figures);
    assertEquals(byRequest.steps, byText.steps);
  });
  it("is deterministic: the same text, the same bytes", () => {
    const once = () => JSON.stringify(ask("demand of 10 dryers 5.5 kW each"));
    assertEquals(once(), once());
  });
  it("changes an earlier question by what is said next", () => {
    const first = answered("demand of 10 dryers 5.5 kW each, single phase");
    const next = answered("on a three-phase service", { after: first.request as Request });
    assertEquals((next.request as unknown as { supply: string }).supply, "three-phase");
    assert(figure(next, "demand-load") !== figure(first, "demand-load"));
    // Its link stands for the whole changed question, not for the words of the change.
    const text = new URL(`http://here${next.link}`).searchParams.get("q")!;
    assertEquals(answered(text).figures, next.figures);
  });
  it("takes the edition from the text before the one that is set", () => {
    assertEquals(answered("demand of 10 dryers 5 kW each, 2017 code", { edition: "2023" }).edition, "2017");
  });
  it("asks what is meant when nothing is asked", () => {
    const outcome = ask("hello there");
    assert(outcome.outcome === "unclear");
    assertEquals(outcome.needs[0]!.field, "question");
    assert(outcome.needs[0]!.example !== "");
  });
  it("says that there is no such edition, and which there are", () => {
    const outcome = ask("demand of 10 dryers 5 kW each", { edition: "1999" });
    assert(outcome.outcome === "not covered");
    for (const edition of EDITIONS) assertStringIncludes(outcome.because, edition);
  });
  it("refuses a request that does not fit, field by field", () => {
    const error = assertThrows(
      () => engine.answer({ kind: "dryer-demand", dryers: [{ count: 0, rating: { value: 5, unit: "kW" } }] }),
      InvalidRequest,
    );
    assertEquals(error.problems.map(({ field }) => field), ["dryers.0.count"]);
    assertThrows(() => engine.answer({ kind: "no-such-question" }), InvalidRequest, "no kind of question");
    assertThrows(() => engine.answer({ kind: "dryer-demand", colour: "white" }), InvalidRequest);
  });
  it("asks about an absurd figure in a text instead of refusing it", () => {
    const outcome = ask("demand of two dryers 500 kW each");
    assert(outcome.outcome === "unclear");
    assertStringIncludes(outcome.needs[0]!.ask, "beyond");
  });
  it("names a locality's amendments on the answer", () => {
    const overlays = [...editions.values()].filter(({ over }) => over !== undefined);
    assert(overlays.length > 0);
    const answer = answered("demand of 10 dryers 5 kW each", { edition: overlays[0]!.id });
    assertStringIncludes(answer.editionTitle, "Riverbend");
  });
  it("lets the overlay decide where it says something: a larger least service", () => {
    const house = { kind: "dwelling-load", areas: [{ area: { value: 900, unit: "ft2" } }] };
    const least = (edition: string) => figure(answered(house, { edition }), "service-rating") as number;
    assert(least("2023-riverbend") > least("2023"));
  });
});

describe("coverage", () => {
  it("every question under every edition ends in one of the three ways, for its examples and for odd requests", () => {
    for (const question of engine.questions) {
      for (const edition of editions.keys()) {
        for (const example of question.examples) {
          assert(ask(example, { edition }).outcome !== undefined, `${example} under ${edition}`);
        }
        assert(
          ["unclear", "answered", "not covered"].includes(ask({ kind: question.id }, { edition }).outcome),
          `${question.id}, empty, under ${edition}`,
        );
      }
    }
  });
  it("every example of every question is answered under the default edition", () => {
    for (const question of engine.questions) {
      for (const example of question.examples) {
        const answer = answered(example);
        assertEquals(answer.kind, question.id, example);
        assertEquals(answer.unused, [], example);
      }
    }
  });
  it("every figure id is announced with a name", () => {
    for (const question of engine.questions) {
      for (const [id, name] of Object.entries(question.figures)) {
        assert(/^[a-z0-9-]+$/.test(id) && name.length > 2, `${question.id}: ${id}`);
      }
    }
  });
  it("what is suggested to ask next is understood after the answer", () => {
    for (const question of engine.questions) {
      for (const example of question.examples) {
        const answer = answered(example);
        for (const text of answer.followUps) {
          const next = ask(text, { after: answer.request as Request });
          if (next.outcome !== "answered") throw new Error(`"${text}" after "${example}": ${JSON.stringify(next)}`);
          assertEquals(next.answer.unused, [], `"${text}" after "${example}"`);
        }
      }
    }
  });
  it("the words that change an assumption change it", () => {
    for (const question of engine.questions) {
      for (const example of question.examples) {
        const answer = answered(example);
        for (const { name, value, change } of answer.assumptions) {
          const next = ask(change, { after: answer.request as Request });
          assert(next.outcome !== "not covered" || next.because !== "", change);
          if (next.outcome !== "answered") continue;
          const still = next.answer.assumptions.find((a) => a.name === name);
          assert(
            still === undefined || still.value !== value,
            `"${change}" after "${example}" leaves "${name}: ${value}" as it was`,
          );
        }
      }
    }
  });
});
