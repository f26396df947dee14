/** Every call of the service and every way a call can go wrong, through the app as a value. */
import { assert, assertEquals, assertMatch, assertStringIncludes } from "@std/assert";
import { makeApp } from "../src/app.ts";
import { FILES } from "../src/app/files.ts";
import { watch } from "../src/app/watch.ts";
import { perAddress } from "../src/app/limit.ts";
import { LONGEST_QUESTION } from "../src/engine.ts";
import { engine } from "./support/engine.ts";

const app = makeApp(engine);
const QUESTION = "demand of 10 dryers 5.5 kW each";
const LINK = `/answer?q=${encodeURIComponent(QUESTION)}`;

// deno-lint-ignore no-explicit-any
type Reply = { status: number; headers: Headers; body: any };
const read = async (response: Response): Promise<Reply> => ({
  status: response.status,
  headers: response.headers,
  body: await response.json(),
});
const post = async (path: string, body: unknown, headers: Record<string, string> = {}): Promise<Reply> =>
  read(
    await app.request(path, {
      method: "POST",
      headers: { "Content-Type": "application/json", ...headers },
      body: typeof body === "string" ? body : JSON.stringify(body),
    }),
  );
const get = async (path: string, headers: Record<string, string> = {}): Promise<Reply> =>
  read(await app.request(path, { headers }));
const text = async (path: string, headers: Record<string, string> = {}): Promise<string> =>
  await (await app.request(path, { headers })).text();

/** RFC 9457, section 3: the members and the media type; our own promise: what, where, what to do next. */
function assertProblem({ status, headers, body }: Reply, expected: number, ...says: string[]) {
  assertEquals(status, expected);
  assertEquals(headers.get("Content-Type"), "application/problem+json");
  assertEquals([body.type, body.status, typeof body.title, typeof body.instance], [
    "about:blank",
    expected,
    "string",
    "string",
  ]);
  for (const each of says) assertStringIncludes(body.detail, each);
}

Deno.test("POST /api/ask answers a text", async () => {
  const { status, body } = await post("/api/ask", { question: QUESTION });
  assertEquals(status, 200);
  assertEquals(body.outcome, "answered");
  assertEquals(body.answer.kind, "dryer-demand");
  assertEquals(body.answer.edition, engine.defaultEdition);
  for (const { value, step } of Object.values<{ value: number; step: string }>(body.answer.figures)) {
    assertEquals(typeof value, "number");
    assert(body.answer.steps.some(({ id }: { id: string }) => id === step), "a figure points at a step");
  }
  assertStringIncludes(body.answer.notice, "not permission to work");
});

Deno.test("POST /api/ask answers under the edition asked for", async () => {
  const { body } = await post("/api/ask", { question: QUESTION, edition: "2017" });
  assertEquals(body.answer.edition, "2017");
});

Deno.test("POST /api/ask changes an earlier request by `after`", async () => {
  const first = await post("/api/ask", { question: QUESTION });
  const { body } = await post("/api/ask", { question: "three-phase", after: first.body.answer.request });
  assertEquals(body.outcome, "answered");
  assertEquals(body.answer.request, { ...first.body.answer.request, supply: "three-phase" });
});

Deno.test("an outcome that is no answer is a 200, too", async () => {
  const unclear = await post("/api/ask", { question: "what about the thing on the wall" });
  assertEquals([unclear.status, unclear.body.outcome], [200, "unclear"]);
  assert(unclear.body.needs.length > 0 && unclear.body.needs[0].example !== "");
  const declined = await post("/api/ask", { question: QUESTION, edition: "1896" });
  assertEquals([declined.status, declined.body.outcome], [200, "not covered"]);
  assertStringIncludes(declined.body.because, "1896");
});

Deno.test("POST /api/answers/<kind> takes the request an answer carries, and comes to the same figures", async () => {
  const asked = await post("/api/ask", { question: QUESTION });
  for (const extra of [{}, { edition: engine.defaultEdition }]) {
    const { body } = await post("/api/answers/dryer-demand", { ...asked.body.answer.request, ...extra });
    assertEquals(body.answer.figures, asked.body.answer.figures);
    assertEquals(body.answer.request, asked.body.answer.request);
  }
  const { kind: _, edition: __, ...bare } = asked.body.answer.request;
  const older = await post("/api/answers/dryer-demand?edition=2017", bare);
  assertEquals(older.body.answer.edition, "2017");
});

Deno.test("every example of every kind is answered, and its link comes to the same figures", async () => {
  const { body: { questions } } = await get("/api/questions");
  for (const { kind, examples } of questions) {
    for (const question of examples) {
      const { body } = await post("/api/ask", { question });
      assertEquals(body.outcome, "answered", `${question}: ${JSON.stringify(body)}`);
      assertEquals(body.answer.kind, kind, question);
      const linked = await get(body.answer.link, { Accept: "application/json" });
      assertEquals(linked.body.answer.figures, body.answer.figures, question);
    }
  }
});

/** What the figures say, wherever their steps stand. */
const valuesOf = ({ answer }: Reply["body"]) =>
  Object.entries<{ value: unknown; unit: string }>(answer?.figures ?? {}).map(([id, { value, unit }]) =>
    `${id} ${value} ${unit}`
  ).toSorted();

Deno.test("a follow-up's link recomputes the changed answer", async () => {
  for (const { examples } of engine.questions) {
    const first = await post("/api/ask", { question: examples[0] });
    for (const change of first.body.answer.followUps) {
      const { body } = await post("/api/ask", { question: change, after: first.body.answer.request });
      if (body.outcome !== "answered") continue;
      const linked = await get(`${body.answer.link}&as=json`);
      assertEquals(valuesOf(linked.body), valuesOf(body), `${examples[0]} + ${change}: ${body.answer.link}`);
    }
  }
});

Deno.test("GET /answer changes the question given as `after`, whether that one was answered or asked back", async () => {
  const changed = await get(`/answer?q=three-phase&after=${encodeURIComponent(QUESTION)}&as=json`);
  assertEquals(changed.body.answer.request.supply, "three-phase");
  const drop = "/answer?as=json&after=voltage+drop+over+200+ft+of+10+AWG+copper";
  assertEquals((await get(`${drop}&q=12+A`)).body.outcome, "unclear");
  const told = await get(`${drop}&q=12+A&q=240+V+single+phase`);
  assertEquals(told.body.outcome, "answered", JSON.stringify(told.body));
});

Deno.test("GET /answer gives the form that `as` or Accept asks for", async () => {
  const headline = engine.ask(QUESTION);
  assert(headline.outcome === "answered");
  const types: [string, Record<string, string>, string][] = [
    [LINK, {}, "text/html"],
    [LINK, { Accept: "text/html,application/xhtml+xml,*/*;q=0.8" }, "text/html"],
    [LINK, { Accept: "text/plain" }, "text/plain"],
    [LINK, { Accept: "application/json;q=0.5, text/markdown" }, "text/markdown"],
    [LINK, { Accept: "application/json" }, "application/json"],
    [LINK, { Accept: "text/plain;q=0, application/json" }, "application/json"],
    [LINK, { Accept: "image/png" }, "text/html"],
    [`${LINK}&as=text`, { Accept: "text/html" }, "text/plain"],
    [`${LINK}&as=markdown`, {}, "text/markdown"],
    [`${LINK}&as=json`, {}, "application/json"],
  ];
  for (const [path, headers, type] of types) {
    const response = await app.request(path, { headers });
    assertEquals(response.status, 200);
    assertStringIncludes(response.headers.get("Content-Type")!, type, `${path} ${JSON.stringify(headers)}`);
    assertStringIncludes(response.headers.get("Vary") ?? "", "Accept");
    assertStringIncludes(await response.text(), headline.answer.headline);
  }
  assert((await text(`${LINK}&as=text&brief`)).length < 400);
});

Deno.test("a pasted answer leads back to where the service is reached", async () => {
  const behind = makeApp(engine, { origin: "https://sizing.example" });
  assertStringIncludes(await (await behind.request(`${LINK}&as=text`)).text(), "https://sizing.example/answer?q=");
  const byCall = makeApp(engine, { origin: (c) => `http://${c.env.address}` });
  const called = await byCall.request(`${LINK}&as=text`, {}, { address: "192.0.2.7:8000" });
  assertStringIncludes(await called.text(), "http://192.0.2.7:8000/answer?q=");
});

Deno.test("no link follows a foreign Host header", async () => {
  for (const form of ["text", "markdown", "html", "json"]) {
    const shown = await (await app.request(`http://foreign.example${LINK}&as=${form}`, {
      headers: { Host: "foreign.example", "X-Forwarded-Host": "foreign.example" },
    })).text();
    assert(!shown.includes("foreign.example"), form);
    assertStringIncludes(shown.replaceAll("&amp;", "&"), "/answer?q=", form);
  }
});

Deno.test("outcomes that are no answers have every form as well", async () => {
  for (const [link, says] of [["/answer?q=hm", "can't tell"], [`${LINK}&edition=1896`, "1896"]] as const) {
    for (const form of ["html", "text", "markdown", "json"]) {
      const response = await app.request(`${link}&as=${form}`);
      assertEquals(response.status, 200);
      assertStringIncludes((await response.text()).replaceAll("&#39;", "'"), says, form);
    }
  }
});

Deno.test("GET /api/questions tells kind, title, examples, figures and a JSON Schema", async () => {
  const { body } = await get("/api/questions");
  assertEquals(body.questions.map(({ kind }: { kind: string }) => kind), engine.questions.map(({ id }) => id));
  for (const { title, about, examples, figures, schema } of body.questions) {
    assert(title !== "" && about !== "" && examples.length > 0 && Object.keys(figures).length > 0);
    assertEquals(schema.type, "object");
  }
});

Deno.test("GET /api/editions tells how well each is verified, and what lies over what", async () => {
  const { body } = await get("/api/editions");
  assertEquals(body.default, engine.defaultEdition);
  for (const { id, verified, over } of body.editions) {
    assertEquals(Object.keys(verified), ["two sources", "one source", "from memory"]);
    assertEquals(over === undefined, /^\d{4}$/.test(id), id);
  }
});

Deno.test("GET /openapi.json describes every call, and every reference in it leads somewhere", async () => {
  const { body } = await get("/openapi.json");
  assertMatch(body.openapi, /^3\.1\./);
  const paths = [
    "/api/ask",
    "/api/answers",
    "/api/questions",
    "/api/editions",
    "/openapi.json",
    "/answer",
    "/",
    "/embed",
    "/health",
  ];
  assertEquals(
    Object.keys(body.paths).toSorted(),
    [...paths, ...engine.questions.map(({ id }) => `/api/answers/${id}`)].toSorted(),
  );
  const refs = [...JSON.stringify(body).matchAll(/"\$ref":"#\/([^"]+)"/g)].map((m) => m[1]!);
  assert(refs.length > 0);
  for (const ref of refs) {
    assert(ref.split("/").reduce((at, key) => at?.[key], body) !== undefined, ref);
  }
});

Deno.test("GET /health is ready when the engine is", async () => {
  assertEquals((await get("/health")).body.status, "ok");
});

Deno.test("a body that is no JSON, or no JSON at all, is told what it should be", async () => {
  assertProblem(await post("/api/ask", "{question: 1}"), 400, "not JSON", "Check");
  assertProblem(await post("/api/ask", ""), 400, "not JSON");
  assertProblem(await post("/api/ask", "question=hello", { "Content-Type": "text/plain" }), 415, "application/json");
  assertProblem(await post("/api/answers/dryer-demand", "[]"), 422, "JSON object");
});

Deno.test("a body that does not fit is told field by field", async () => {
  const typo = await post("/api/ask", { question: QUESTION, editoin: "2023" });
  assertProblem(typo, 422, "editoin", "/openapi.json");
  assertProblem(await post("/api/ask", {}), 422, "question");
  assertProblem(await post("/api/ask", { question: "  " }), 422, "say what is asked");
  assertProblem(await post("/api/ask", { question: "x".repeat(LONGEST_QUESTION + 1) }), 422, "question");
  const two = await post("/api/ask", { question: 1, edition: 2023 });
  assertEquals(two.body.errors.map(({ pointer }: { pointer: string }) => pointer), ["/question", "/edition"]);
});

Deno.test("an earlier request that no answer carried is refused, not ignored", async () => {
  assertProblem(
    await post("/api/ask", { question: "three-phase", after: { kind: "toast" } }),
    422,
    "after.kind",
    "toast",
  );
  const off = await post("/api/ask", { question: "three-phase", after: { kind: "dryer-demand", dryers: 3 } });
  assertProblem(off, 422, "after.dryers");
  assertEquals(off.body.errors[0].pointer, "/after/dryers");
});

Deno.test("a request that does not fit its kind is told field by field", async () => {
  const odd = await post("/api/answers/dryer-demand", { dryers: [{ count: -1 }] });
  assertProblem(odd, 422, "dryers.0.count");
  assertEquals(odd.body.errors[0].pointer, "/dryers/0/count");
  assertProblem(await post("/api/answers/dryer-demand", { kind: "cooking-demand" }), 422, "cooking-demand");
  assertProblem(await post("/api/answers/dryer-demand", { edition: 2023 }), 422, "edition");
  assertProblem(await post("/api/answers/toast", {}), 404, "toast", "dryer-demand");
});

Deno.test("a body beyond the limit is refused", async () => {
  const large = JSON.stringify({ question: "x".repeat(70_000) });
  assertProblem(await post("/api/ask", large), 413, "64 kB");
  const stream = ReadableStream.from([new TextEncoder().encode(large)]);
  const chunked = await app.request("/api/ask", {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: stream,
    duplex: "half",
  } as RequestInit);
  assertProblem(await read(chunked), 413, "64 kB");
});

Deno.test("an unknown path and a wrong method are told, with what there is", async () => {
  assertProblem(await get("/api/nothing"), 404, "/api/nothing", "/openapi.json");
  assertProblem(await get("/nothing"), 404, "/nothing");
  const wrong: [string, string, string][] = [
    ["GET", "/api/ask", "POST"],
    ["DELETE", "/api/questions", "GET, HEAD"],
    ["PUT", "/api/answers/dryer-demand", "POST"],
    ["POST", "/answer", "GET, HEAD"],
    ["POST", "/", "GET, HEAD"],
    ["PATCH", "/health", "GET, HEAD"],
  ];
  for (const [method, path, allow] of wrong) {
    const reply = await read(await app.request(path, { method }));
    assertProblem(reply, 405, method, allow);
    assertEquals(reply.headers.get("Allow"), allow);
  }
  assertEquals((await app.request("/answer?q=hm", { method: "HEAD" })).status, 200);
});

Deno.test("a link without a question, with too long a one or in an unknown form says how to write it", async () => {
  assertProblem(await get("/answer"), 400, "/answer?q=");
  assertProblem(await get(`/answer?q=${"x".repeat(LONGEST_QUESTION + 1)}`), 400, "Shorten");
  assertProblem(await get(`${LINK}&as=fax`), 400, "fax", "markdown");
  assertProblem(await get(`${LINK}&as=pdf&paper=napkin`), 400, "napkin", "letter, a4");
});

Deno.test("a person who followed a broken link reads a page", async () => {
  const response = await app.request("/nothing", { headers: { Accept: "text/html" } });
  assertEquals(response.status, 404);
  assertStringIncludes(response.headers.get("Content-Type")!, "text/html");
  assertStringIncludes(await response.text(), "There is nothing at /nothing");
  const long = await app.request(`/answer?q=${"x".repeat(LONGEST_QUESTION + 1)}`, { headers: { Accept: "text/html" } });
  const page = await long.text();
  assertMatch(page, /<h2[^>]*>That could not be taken up<\/h2><p>The question is longer than/);
  assert(!page.includes("Bad request"), "no word of the protocol");
});

Deno.test("our own mistake is a 500 that tells nothing of the inside", async () => {
  const broken = makeApp({
    ...engine,
    ask: () => {
      throw new TypeError("secret inside");
    },
  });
  const log = console.error;
  const logged: unknown[] = [];
  console.error = (...args) => void logged.push(...args);
  try {
    const reply = await read(
      await broken.request("/api/ask", {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ question: "hm" }),
      }),
    );
    assertProblem(reply, 500, "fault of the service");
    assert(!JSON.stringify(reply.body).includes("secret"));
    assertStringIncludes(String(logged[0]), "secret inside");
  } finally {
    console.error = log;
  }
});

Deno.test("a caller beyond its share is told to wait", { sanitizeOps: false, sanitizeResources: false }, async () => {
  const limited = makeApp(engine, { guard: perAddress({ most: 2, header: "X-Forwarded-For" }) });
  const from = (address: string, path = "/api/editions", init: RequestInit = {}) =>
    limited.request(path, init, { incoming: { socket: { remoteAddress: address } } });
  assertEquals([(await from("192.0.2.1")).status, (await from("192.0.2.1")).status], [200, 200]);
  const third = await read(await from("192.0.2.1"));
  const wait = Number(third.headers.get("Retry-After"));
  assert(wait > 50 && wait <= 60, `${wait} s`);
  assertProblem(third, 429, `Wait ${wait} s`);
  assertEquals(third.headers.get("Access-Control-Allow-Origin"), "*", "a page elsewhere reads the problem, too");
  assertEquals((await from("192.0.2.2")).status, 200);
  for (const path of ["/health", ...FILES.keys()]) {
    assertEquals((await from("192.0.2.1", path)).status, 200, `${path} is spared`);
  }
  assertEquals((await from("192.0.2.1", "/api/ask", { method: "OPTIONS" })).status, 204, "so is a preflight");
  // A person keeps what was asked.
  const page = await (await from("192.0.2.1", LINK, { headers: { Accept: "text/html" } })).text();
  assertStringIncludes(page, `>${QUESTION}</textarea>`);
  const boxes = "/answer?q=12&unit=A&q=240&unit=V&after=voltage+drop+over+200+ft+of+10+AWG+copper";
  const several = await (await from("192.0.2.1", boxes, { headers: { Accept: "text/html" } })).text();
  assertStringIncludes(several, ">12 A, 240 V</textarea>");
  assertStringIncludes(several, `<input type="hidden" name="after" value="voltage drop over 200 ft of 10 AWG copper"`);
  // The proxy's own word is the last; what its caller wrote before it is not believed.
  const behind = (told: string) => from("10.0.0.1", "/api/editions", { headers: { "X-Forwarded-For": told } });
  const statuses = [];
  for (const told of ["198.51.100.1", "6.6.6.6, 198.51.100.1", "7.7.7.7, 198.51.100.1", "198.51.100.2"]) {
    statuses.push((await behind(told)).status);
  }
  assertEquals(statuses, [200, 200, 429, 200]);
});

Deno.test("an answer is compressed for whoever accepts that", async () => {
  const plain = await text(`${LINK}&as=json`);
  const response = await app.request(`${LINK}&as=json`, { headers: { "Accept-Encoding": "br, gzip;q=0.8" } });
  assertEquals(response.headers.get("Content-Encoding"), "gzip");
  assertStringIncludes(response.headers.get("Vary") ?? "", "Accept-Encoding");
  const bytes = await response.arrayBuffer();
  assert(bytes.byteLength < plain.length / 2);
  const unpacked = new Response(bytes).body!.pipeThrough(new DecompressionStream("gzip"));
  assertEquals(await new Response(unpacked).text(), plain);
  assertEquals((await app.request(`${LINK}&as=json`)).headers.get("Content-Encoding"), null);
});

/** A building's answer also holds a feeder for each type of its units. */
const MOST_BYTES = (kind: string) => kind === "multifamily-load" ? 5120 : 4096;
Deno.test("steps=none leaves an answer of under 4 kB, 5 for a building, with every figure, assumption and caution", async () => {
  for (const question of engine.questions.flatMap(({ examples }) => examples)) {
    const all = (await post("/api/ask", { question })).body;
    const { body } = await post("/api/ask?steps=none", { question });
    assert(
      JSON.stringify(body).length <= MOST_BYTES(all.answer?.kind),
      `${JSON.stringify(body).length} bytes: ${question}`,
    );
    assertEquals(body.outcome, all.outcome);
    assertEquals([body.answer.steps, body.answer.asides], [undefined, undefined]);
    assertEquals(body.answer.headline, all.answer.headline);
    assertEquals(body.answer.cautions, all.answer.cautions);
    const values = (figures: Record<string, { value: unknown }>) =>
      Object.entries(figures).map(([id, { value }]) => [id, value]);
    assertEquals(values(body.answer.figures), values(all.answer.figures));
    assertEquals(body.answer.assumptions.length, all.answer.assumptions.length);
    const { kind, ...request } = body.answer.request;
    const again = (await post(`/api/answers/${kind}?steps=none`, request)).body;
    assertEquals(again.answer.figures, body.answer.figures);
    assertEquals(again.answer.steps, undefined);
  }
  assertEquals((await get(`${LINK}&as=json&steps=none`)).body.answer.steps, undefined);
  assertEquals((await get(`${LINK}&as=json&steps=all`)).body.answer.steps.length > 0, true);
  assertProblem(await post("/api/ask?steps=some", { question: QUESTION }), 400, "steps=some", "none");
});

Deno.test("a body in another encoding than UTF-8 is refused", async () => {
  const ask = (type: string, body: BodyInit) =>
    app.request("/api/ask", { method: "POST", headers: { "Content-Type": type }, body });
  const body = JSON.stringify({ question: QUESTION });
  for (const charset of ["iso-8859-1", "utf-16", '"windows-1252"', "utf-7"]) {
    const reply = await read(await ask(`application/json; charset=${charset}`, body));
    assertProblem(reply, 415, charset.replaceAll('"', ""), "UTF-8");
  }
  for (const charset of ["utf-8", "UTF-8", '"utf-8"', "utf8"]) {
    assertEquals((await ask(`application/json; charset=${charset}`, body)).status, 200, charset);
  }
  // "30 °C" in Latin 1: the degree sign alone is no UTF-8.
  const latin = new Uint8Array([...`{"question":"30 `].map((c) => c.charCodeAt(0)).concat([0xb0], [0x43, 0x22, 0x7d]));
  assertProblem(await read(await ask("application/json", latin)), 400, "not UTF-8");
});

const JSON_LINES = { "Content-Type": "application/x-ndjson" };
// deno-lint-ignore no-explicit-any
const linesOf = async (response: Response): Promise<any[]> =>
  (await response.text()).trimEnd().split("\n").map((line) => JSON.parse(line));

Deno.test("POST /api/answers answers line by line, and a bad line spoils no other", async () => {
  const dryers = { kind: "dryer-demand", dryers: [{ count: 10, rating: { value: 5.5, unit: "kW" } }] };
  const body = [
    JSON.stringify(dryers),
    "",
    "{nothing",
    JSON.stringify({ ...dryers, edition: "2017" }),
    JSON.stringify({ kind: "tea" }),
    JSON.stringify({ ...dryers, dryers: [{ rating: { value: "x", unit: "kW" } }] }),
    `{"kind": "${"x".repeat(70_000)}"}`,
    "[1]",
    JSON.stringify({ kind: "dryer-demand" }),
  ].join("\r\n");
  const replies = await linesOf(
    await app.request("/api/answers?edition=2020&steps=none", { method: "POST", headers: JSON_LINES, body }),
  );
  assertEquals(replies.map(({ line, outcome, problem }) => [line, outcome ?? problem.status]), [
    [1, "answered"],
    [3, 400],
    [4, "answered"],
    [5, 422],
    [6, 422],
    [7, 413],
    [8, 422],
    [9, "unclear"],
  ]);
  assertEquals([replies[0].answer.edition, replies[2].answer.edition], ["2020", "2017"]);
  assertEquals(replies[4].problem.errors[0].pointer, "/dryers/0/rating/value");
  assertEquals(replies[0].answer.steps, undefined);
  assertProblem(await post("/api/answers", {}), 415, "application/x-ndjson");
});

Deno.test("POST /api/answers reads no further ahead than its answers are taken", async () => {
  const line = new TextEncoder().encode(
    `${JSON.stringify({ kind: "dryer-demand", dryers: [{ count: 10, rating: { value: 5.5, unit: "kW" } }] })}\n`,
  );
  const MANY = 3_000;
  let sent = 0;
  const body = new ReadableStream({
    pull(controller) {
      if (sent++ < MANY) controller.enqueue(line);
      else controller.close();
    },
  }, { highWaterMark: 0 });
  const response = await app.request(
    new Request("http://localhost/api/answers?steps=none", { method: "POST", headers: JSON_LINES, body }),
  );
  const reader = response.body!.getReader();
  await reader.read();
  await new Promise((done) => setTimeout(done, 50));
  assert(sent < MANY / 10, `${sent} lines were read for one chunk of answers`);
  let size = 0;
  for (let next = await reader.read(); !next.done; next = await reader.read()) size += next.value.length;
  assert(sent > MANY && size > MANY * 500);
});

Deno.test("every reply is guarded: our files alone run, and only /embed may stand in a frame", async () => {
  for (const path of ["/", LINK, "/api/questions", "/nothing", "/page.js", "/answer"]) {
    const { headers } = await app.request(path);
    const policy = headers.get("Content-Security-Policy")!;
    assertStringIncludes(policy, "default-src 'none'");
    assertStringIncludes(policy, "script-src 'self'");
    assert(!policy.includes("unsafe"));
    assertStringIncludes(policy, "frame-ancestors 'none'");
    assertEquals(headers.get("X-Frame-Options"), "DENY");
    assertEquals(headers.get("X-Content-Type-Options"), "nosniff");
  }
  const { headers } = await app.request("/embed");
  assertStringIncludes(headers.get("Content-Security-Policy")!, "frame-ancestors *");
  assertEquals(headers.get("X-Frame-Options"), null);
});

Deno.test("a page on another site may call the API", async () => {
  const reply = await app.request("/api/questions", { headers: { Origin: "https://other.example" } });
  assertEquals(reply.headers.get("Access-Control-Allow-Origin"), "*");
  await reply.body?.cancel();
  const preflight = await app.request("/api/ask", {
    method: "OPTIONS",
    headers: { Origin: "https://other.example", "Access-Control-Request-Method": "POST" },
  });
  assertEquals(preflight.status, 204);
});

Deno.test("the page's files come with their types, and unchanged ones are not sent again", async () => {
  for (
    const [path, type] of [["/page.css", "text/css"], ["/page.js", "text/javascript"], ["/favicon.svg", "image/svg"]]
  ) {
    const first = await app.request(path!);
    assertStringIncludes(first.headers.get("Content-Type")!, type!);
    await first.body?.cancel();
    const again = await app.request(path!, { headers: { "If-None-Match": first.headers.get("ETag")! } });
    assertEquals(again.status, 304);
  }
});

Deno.test("whatever the page's script is made of is asked for at once", async () => {
  const page = await text("/");
  const scripts = [...FILES].filter(([path]) => path.endsWith(".js"));
  assert(scripts.length > 1);
  for (const [path] of scripts) assertMatch(page, new RegExp(`<(link rel="modulepreload" href|script src)="${path}"`));
  for (const [, { body }] of scripts) {
    for (const [, name] of body.matchAll(/ from "\.(\/[^"]+)"/g)) assert(FILES.has(name!), name);
  }
});

Deno.test("what is typed is shown, never run", async () => {
  const nasty = `<script>alert(1)</script>"'&<img src=x onerror=alert(1)> dryer demand`;
  for (const path of ["/answer", "/embed"]) {
    const page = await text(`${path}?q=${encodeURIComponent(nasty)}&after=${encodeURIComponent(nasty)}`);
    assert(!page.includes("<script>alert") && !page.includes("<img"), path);
  }
  const markdown = await text(`/answer?q=${encodeURIComponent(`${QUESTION} <img> [x](y)`)}&as=markdown`);
  assert(!/(?<!\\)<img|(?<!\\)\[x/.test(markdown), markdown);
});

Deno.test("what does not fit is told in words, never in a validator's", async () => {
  const bodies: [path: string, body: unknown, told: string][] = [
    ["/api/ask", { question: 5 }, "question: a text is needed, and this is a number"],
    ["/api/ask", {}, "question: a text is needed"],
    ["/api/ask", { question: "5 hp", after: "x" }, "hand back the `thread`"],
    ["/api/ask", { question: "5 hp", after: { format: "thread/1", topics: [{ kind: 1 }] } }, "hand back the `thread`"],
    [
      "/api/answers/dryer-demand",
      { dryers: "no", supply: "four" },
      'supply: one of "single-phase", "three-phase" is needed',
    ],
    ["/api/answers/dryer-demand", { dryers: [{ count: 0 }] }, "dryers.0.count: 1 or more is needed"],
    ["/api/answers/dryer-demand", { dryers: [{ count: 1.5 }] }, "dryers.0.count: a whole number is needed"],
    ["/api/answers/dryer-demand", { tea: 1 }, 'there is no "tea" here'],
  ];
  for (const [path, body, told] of bodies) {
    const reply = await post(path, body);
    assertProblem(reply, 422, told);
    assert(!/Invalid|expected|received|regex|pattern|Unrecognized/.test(reply.body.detail), reply.body.detail);
  }
});

Deno.test("a page elsewhere may read every call that only reads, and every problem", async () => {
  for (
    const path of [
      "/api/questions",
      "/api/editions",
      "/openapi.json",
      "/health",
      `${LINK}&as=json`,
      "/api/nothing",
      "/page.css",
    ]
  ) {
    const reply = await app.request(path, { headers: { Origin: "https://other.example" } });
    assertEquals(reply.headers.get("Access-Control-Allow-Origin"), "*", path);
    await reply.body?.cancel();
  }
  for (const path of FILES.keys()) {
    const reply = await app.request(path);
    assertEquals(reply.headers.get("Cross-Origin-Resource-Policy"), "cross-origin", path);
    await reply.body?.cancel();
  }
});

Deno.test("POST /turn goes on from a thread, and says anew what was changed of a request", async () => {
  const turn = async (fields: Record<string, string>) =>
    read(await app.request("/turn", { method: "POST", body: new URLSearchParams(fields) }));
  const threadIn = (html: string) =>
    /data-thread="([^"]*)"/.exec(html)![1]!.replaceAll("&quot;", '"').replaceAll("&amp;", "&");
  const first = await turn({ q: QUESTION, id: "t1-" });
  assertStringIncludes(first.body.html, 'id="t1-headline"');
  const next = await turn({ q: "three-phase", thread: threadIn(first.body.html), after: QUESTION, id: "t2-" });
  assertMatch(next.body.html, /class="changed"/);
  const anew = await turn({
    q: "12 × 5.5 kW dryers",
    words: "dryer demand: …; three-phase supply",
    how: "edit",
    thread: threadIn(next.body.html),
  });
  assertMatch(anew.body.html, /class="changed"/);
  const edition = await turn({ q: "three-phase", thread: threadIn(first.body.html), edition: "2017" });
  assertEquals(edition.body.edition, "2017");
  assertProblem(await turn({ q: " " }), 400, "No question");
  assertProblem(await turn({ q: "three-phase", thread: "{nothing" }), 400, "as a new one");
  assertProblem(await turn({ q: "x".repeat(LONGEST_QUESTION + 1) }), 400, "longer than");
  assert(!(await turn({ q: QUESTION, id: '"><b>' })).body.html.includes("<b>&quot;"), "an id is an id");
});

Deno.test("the embedded page keeps its forms and links inside the frame", async () => {
  const page = await text(`/embed?q=${encodeURIComponent(QUESTION)}`);
  assertEquals([...page.matchAll(/action="([^"]+)"/g)].filter(([, action]) => action !== "/embed"), []);
  assertStringIncludes(page, 'href="/embed?q=');
});

Deno.test("what is counted and logged tells paths, outcomes and times, and no question", async () => {
  const lines: string[] = [];
  const watched = makeApp(engine, { watch: watch((line) => lines.push(line)), metrics: true });
  for (const question of [QUESTION, "hm", "how much for ten of them"]) {
    const reply = await watched.request("/api/ask", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ question }),
    });
    await reply.text();
  }
  await watched.request("/somewhere/else");
  const page = await (await watched.request("/metrics")).text();
  assertStringIncludes(page, 'deadfront_outcomes_total{kind="dryer-demand",outcome="answered"} 1');
  assertStringIncludes(page, 'deadfront_call_seconds_count{method="POST",path="/api/ask",status="200"} 3');
  // A path that is none makes no row of its own.
  assert(!page.includes("somewhere"));
  assertEquals(
    lines.map((line) => Object.keys(JSON.parse(line))),
    Array(5).fill(["time", "method", "path", "status", "ms"]),
  );
  for (const said of ["dryer", "hm", "ten", "somewhere"]) assert(!lines.join().includes(said));
  // Without being asked for it stands nowhere.
  assertEquals((await app.request("/metrics")).status, 404);
});
