/**
 * How long one answer of each kind takes, and one page, and one call. Read the ratios, not the times: `baseline` is the same
 * machine doing plain work of a known size, parsing the stored answer of the first kind.
 */
import { makeApp } from "../src/app.ts";
import { markdown } from "../src/render/markdown.ts";
import { printOutcome } from "../src/render/outcome.ts";
import { text } from "../src/render/text.ts";
import { answered, engine } from "../test/support/engine.ts";

const app = makeApp(engine);
const cases = engine.questions.map(({ id, examples }) => {
  const answer = answered(examples[0]!);
  return { id, question: examples[0]!, request: answer.request as { kind: string }, outcome: engine.ask(examples[0]!) };
});
const stored = JSON.stringify(cases[0]!.outcome);
Deno.bench("baseline: parse a stored answer", { baseline: true }, () => void JSON.parse(stored));
Deno.bench("write it as JSON", () => void JSON.stringify(cases[0]!.outcome));

for (const { id, question, request, outcome } of cases) {
  Deno.bench(`${id}: read and answered`, { group: "read" }, () => void engine.ask(question));
  Deno.bench(`${id}: answered`, { group: "answer" }, () => void engine.answer(request));
  Deno.bench(
    `${id}: as chat text`,
    { group: "text" },
    () => void printOutcome(outcome, text("https://sizing.example")),
  );
  Deno.bench(`${id}: as markdown`, { group: "markdown" }, () => void printOutcome(outcome, markdown("")));
}

const QUESTION = cases[0]!.question;
const body = { question: QUESTION };
const asked = { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) };
Deno.bench("POST /api/ask, in process", { group: "call" }, async () => {
  await (await app.request("/api/ask", asked)).text();
});
Deno.bench("GET /answer as HTML, in process", { group: "call" }, async () => {
  await (await app.request(`/answer?q=${encodeURIComponent(QUESTION)}`)).text();
});
