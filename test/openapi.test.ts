/**
 * `/openapi.json` is enough to call the service by: a client is generated from it, which checks every body it sends and every
 * reply it gets by the schemas in the document alone (read by zod's own reader of JSON Schema).
 */
import * as z from "zod";
import { assert, assertEquals } from "@std/assert";
import { makeApp } from "../src/app.ts";
import { engine } from "./support/engine.ts";

// deno-lint-ignore no-explicit-any
type Json = any;
const app = makeApp(engine);
const document: Json = await (await app.request("/openapi.json")).json();

/** A schema of the document on its own, with whatever it refers to. */
function check(schema: Json): z.ZodType {
  const text = JSON.stringify({ ...schema, $defs: document.components.schemas });
  return z.fromJSONSchema(JSON.parse(text.replaceAll("#/components/schemas/", "#/$defs/")));
}

type Call = (input: { body?: unknown; query?: Record<string, string> }) => Promise<Json>;
/** A function for each operation, by its id. */
function client(): Record<string, Call> {
  const calls: [string, Call][] = [];
  for (const [path, methods] of Object.entries<Json>(document.paths)) {
    for (const [method, operation] of Object.entries<Json>(methods)) {
      const [type, { schema: bodySchema }] = Object.entries<Json>(operation.requestBody?.content ?? { "": {} })[0]!;
      const replySchema = operation.responses[200].content["application/json"]?.schema;
      if (!replySchema || (bodySchema && type !== "application/json")) continue;
      const [takes, gives] = [bodySchema && check(bodySchema), check(replySchema)];
      calls.push([operation.operationId, async ({ body, query = {} }) => {
        takes?.parse(body);
        const names = (operation.parameters ?? []).map(({ name }: Json) => name);
        assertEquals(Object.keys(query).filter((name) => !names.includes(name)), []);
        const reply = await app.request(`${path}?${new URLSearchParams(query)}`, {
          method: method.toUpperCase(),
          headers: { Accept: "application/json", ...(takes && { "Content-Type": type }) },
          ...(takes && { body: JSON.stringify(body) }),
        });
        assertEquals(reply.status, 200, operation.operationId);
        const json = await reply.json();
        gives.parse(json);
        return json;
      }]);
    }
  }
  return Object.fromEntries(calls);
}
const calls = client();

Deno.test("a client generated from it asks, goes on by the thread, and answers the request it got", async () => {
  for (const { id, examples } of engine.questions) {
    const first = await calls.ask!({ body: { question: examples[0]! } });
    assertEquals(first.outcome, "answered", examples[0]);
    const next = await calls.ask!({ body: { question: "2017 code", after: first.thread } });
    assertEquals(next.outcome, "answered", `${examples[0]}, 2017 code`);
    const again = await calls[`answer-${id}`]!({ body: first.answer.request });
    assertEquals(again.answer.figures, first.answer.figures);
    const linked = await calls.link!({ query: { q: examples[0]!, as: "json" } });
    assertEquals(linked.answer.figures, first.answer.figures);
  }
});

Deno.test("a client generated from it understands what is asked back and what is declined", async () => {
  assertEquals((await calls.ask!({ body: { question: "hm" } })).outcome, "unclear");
  const declined = await calls.ask!({ body: { question: engine.questions[0]!.examples[0]!, edition: "1896" } });
  assertEquals(declined.outcome, "not covered");
  assert((await calls.questions!({})).questions.length === engine.questions.length);
  assertEquals((await calls.editions!({})).default, engine.defaultEdition);
});

Deno.test("the request published in every example's answer fits its own schema, and no other kind's", () => {
  const schemas = new Map(engine.questions.map(({ id }) => [id, check({ $ref: `#/components/schemas/${id}` })]));
  for (const { id, examples } of engine.questions) {
    for (const example of examples) {
      const outcome = engine.ask(example);
      assert(outcome.outcome === "answered", example);
      for (const [other, schema] of schemas) {
        assertEquals(schema.safeParse(outcome.answer.request).success, other === id, `${example} as ${other}`);
      }
    }
  }
});
