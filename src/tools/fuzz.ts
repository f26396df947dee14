/**
 * Sends the service what nobody would send, through real sockets, and looks for replies that are no answer and no problem:
 *
 *     deno task fuzz [calls] [seed]
 *
 * Texts put together of pieces of questions, bodies of chance, both under odd headers, and raw bytes that are no HTTP. What
 * fails is printed with what repeats it; the service must then still answer. Spoiled requests of every kind are in
 * `test/any-request.test.ts`.
 */
import { serve } from "@hono/node-server";
import fc from "fast-check";
import type { AddressInfo } from "node:net";
import type { Server } from "node:http";
import { makeApp } from "../app.ts";
import { readEditions } from "../editions/read.ts";
import { makeEngine } from "../engine.ts";
import { questions } from "../questions/all.ts";
import { readTableFiles } from "../read-tables.ts";
import { oddText } from "../../test/support/odd-text.ts";

const ASK = "/api/ask";
const paths = [
  ASK,
  "/api/answers",
  ...questions.map(({ id }) => `/api/answers/${id}`),
  "/answer",
  "/embed",
  "/",
];
const headerValue = fc.stringMatching(/^[\x21-\x7e]{0,60}$/);
const types = ["application/json", "application/x-ndjson", "application/json; charset=utf-16", "text/html", ""];
const body = fc.oneof(
  { weight: 3, arbitrary: fc.record({ question: oddText }).map((asked) => JSON.stringify(asked)) },
  fc.json(),
  fc.string({ unit: "binary", maxLength: 400 }),
  fc.uint8Array({ maxLength: 400 }).map((bytes) => bytes as BufferSource),
  fc.record({ question: fc.string({ unit: "grapheme", maxLength: 200 }) }).map((asked) => JSON.stringify(asked)),
);
const text = fc.oneof(oddText, fc.string({ maxLength: 60 }));
const call = fc.record({
  path: fc.oneof(fc.constant(ASK), fc.constantFrom(...paths)),
  method: fc.constantFrom("GET", "POST", "POST", "PUT", "DELETE", "OPTIONS"),
  query: fc.dictionary(fc.constantFrom("q", "as", "edition", "after", "steps", "brief"), text),
  headers: fc.record({
    "Content-Type": fc.constantFrom(...types),
    Accept: fc.oneof(headerValue, fc.constantFrom("text/html", "application/json", "*/*;q=x")),
    "Accept-Encoding": fc.oneof(headerValue, fc.constantFrom("gzip", "deflate;q=0.1", "identity")),
    Origin: headerValue,
  }, { requiredKeys: [] }),
  body,
});

/** Drawn and sent at a time, so that a million calls take no more memory than these. */
const BATCH = 1_000;

type Failure = { what: string; call: unknown };

/** What went wrong in so many calls, in order of the seed. */
export async function fuzz(calls: number, seed: number): Promise<Failure[]> {
  const app = makeApp(makeEngine(questions, readEditions(readTableFiles())));
  const server = serve({ fetch: app.fetch, port: 0, hostname: "127.0.0.1" }) as Server;
  await new Promise((listening) => server.once("listening", listening));
  const { port } = server.address() as AddressInfo;
  const at = `http://127.0.0.1:${port}`;
  const failures: Failure[] = [];
  const send = async (each: typeof call extends fc.Arbitrary<infer Call> ? Call : never) => {
    const { path, method, query, headers, body } = each;
    const url = `${at}${path}?${new URLSearchParams(query)}`;
    const sends = method !== "GET" && method !== "OPTIONS";
    const reply = await fetch(url, { method, headers: headers as HeadersInit, ...(sends && { body }) });
    const said = await reply.text();
    if (reply.status >= 500) failures.push({ what: `${reply.status}: ${said}`, call: each });
  };
  for (let sent = 0; sent < calls; sent += BATCH) {
    const numRuns = Math.min(BATCH, calls - sent);
    for (const each of fc.sample(call, { numRuns, seed: (seed + sent) % 2 ** 31 })) await send(each);
  }
  for (
    const bytes of fc.sample(fc.uint8Array({ minLength: 1, maxLength: 300 }), { numRuns: Math.min(200, calls), seed })
  ) {
    const raw = await Deno.connect({ hostname: "127.0.0.1", port });
    await raw.write(bytes).catch(() => {});
    raw.close();
  }
  const health = await fetch(`${at}/health`).then((reply) => reply.text(), String);
  if (!health.includes('"ok"')) failures.push({ what: `afterwards /health said ${health}`, call: undefined });
  server.close();
  return failures;
}

if (import.meta.main) {
  const calls = Number(Deno.args[0] ?? 20_000);
  const seed = Number(Deno.args[1] ?? Date.now() % 2 ** 31);
  const failures = await fuzz(calls, seed);
  for (const { what, call } of failures.slice(0, 20)) console.log(`${what}\n  ${JSON.stringify(call)}`);
  console.log(`${calls} calls of seed ${seed}: ${failures.length} failed`);
  Deno.exit(failures.length > 0 ? 1 : 0);
}
