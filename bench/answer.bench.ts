/**
 * How long one answer takes. Read the ratios, not the times: `baseline` is the same machine doing plain work of a known
 * size, parsing the stored answer's JSON.
 */
import type { Outcome } from "../src/core/outcome.ts";
import { makeApp } from "../src/app.ts";
import { engine } from "../test/support/engine.ts";

const QUESTION = engine.questions[0]!.examples[0]!;
const outcome: Outcome = engine.ask(QUESTION);
if (outcome.outcome !== "answered") throw new Error(`the benched question is not answered: ${QUESTION}`);
const { request } = outcome.answer;
const stored = JSON.stringify(outcome);
const app = makeApp(engine);
const asked = {
  method: "POST",
  headers: { "Content-Type": "application/json" },
  body: JSON.stringify({ question: QUESTION }),
};

Deno.bench("baseline: parse a stored answer", { baseline: true }, () => void JSON.parse(stored));
Deno.bench("a request worked out", () => void engine.answer(request as never));
Deno.bench("a text read and worked out", () => void engine.ask(QUESTION));
Deno.bench("POST /api/ask, in process", async () => void await (await app.request("/api/ask", asked)).text());
Deno.bench("GET /answer as HTML, in process", async () => {
  await (await app.request(`/answer?q=${encodeURIComponent(QUESTION)}`)).text();
});
