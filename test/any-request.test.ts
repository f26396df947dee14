/**
 * Whatever JSON a program sends ends in an outcome or in a problem that says what does not fit: never in a fault of ours.
 * Requests that are answered are spoiled in one place each, because a body of pure chance never gets past its first field.
 */
import fc from "fast-check";
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { makeApp } from "../src/app.ts";
import { answered, engine } from "./support/engine.ts";
import { sound } from "./support/sound.ts";

const app = makeApp(engine);
type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
const seeds = engine.questions.flatMap(({ examples }) =>
  examples.map((example) => answered(example).request as { kind: string } & Record<string, Json>)
);

/** Values that have got past a schema somewhere, or may. */
const ODD: Json[] = [
  ...[
    "x",
    "",
    "5 kW",
    "1,000",
    "NaN",
    "Infinity",
    "-1/2",
    "0/5",
    "1/0",
    "1/3",
    "480/2",
    "1e3",
    "9".repeat(309),
    "\ud800",
  ],
  ...[0, -1, 0.1, 1e-308, 5e-324, 1e15, 1e300, Number.MAX_VALUE],
  ...["x", "", "5 kW", "1,000", "1/3", "480/2", "1/999999999", 1e-308, Number.MAX_VALUE].flatMap((value) =>
    ["V", "A", "ft"].map((unit) => ({ value, unit }))
  ),
  ...["__proto__", "constructor", null, true, [], {}, [[]]],
];
const odd: fc.Arbitrary<Json> = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...ODD) },
  fc.jsonValue() as fc.Arbitrary<Json>,
);

type Path = (string | number)[];
const pathsOf = (value: Json, at: Path = []): Path[] => [
  at,
  ...(typeof value === "object" && value !== null
    ? Object.entries(value).flatMap(([key, inner]) => pathsOf(inner, [...at, key]))
    : []),
];
function spoiled(request: Json, [first, ...rest]: Path, value: Json): Json {
  if (first === undefined) return value;
  const copy = structuredClone(request) as Record<string, Json>;
  copy[first] = spoiled(copy[first]!, rest, value);
  return copy;
}
const spoiledSeed = fc.constantFrom(...seeds).chain(({ kind, ...request }) =>
  fc.tuple(fc.constantFrom(...pathsOf(request)), odd).map(([path, value]) => ({
    kind,
    request: spoiled(request, path, value),
  }))
);

async function endsWell(path: string, body: unknown): Promise<void> {
  const text = JSON.stringify(body);
  const reply = await app.request(path, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: text,
  });
  const said = await reply.text();
  assert(reply.status === 200 || (reply.status >= 400 && reply.status < 500), `${reply.status} for ${path} ${text}`);
  const json = JSON.parse(said);
  if (reply.status !== 200) {
    assertEquals(reply.headers.get("Content-Type"), "application/problem+json");
    assertEquals(json.status, reply.status);
    return;
  }
  sound(json, text);
}

describe("any request", () => {
  it("that is spoiled in one place is answered, asked about or refused", async () => {
    const property = fc.asyncProperty(spoiledSeed, ({ kind, request }) => endsWell(`/api/answers/${kind}`, request));
    await fc.assert(property, { numRuns: 1500 });
  });
  it("that is spoiled and then changed by a text ends as well", async () => {
    const property = fc.asyncProperty(spoiledSeed, ({ kind, request }) => {
      const after = typeof request === "object" && !Array.isArray(request) ? { ...request, kind } : request;
      return endsWell("/api/ask", { question: "2020 code", after });
    });
    await fc.assert(property, { numRuns: 500 });
  });
  it("that is any JSON ends as well, of every kind", async () => {
    const body = fc.jsonValue({ maxDepth: 4 });
    for (const { id } of engine.questions) {
      await fc.assert(fc.asyncProperty(body, (json) => endsWell(`/api/answers/${id}`, json)), { numRuns: 40 });
    }
    await fc.assert(fc.asyncProperty(body, (json) => endsWell("/api/ask", json)), { numRuns: 40 });
  });
  it("says what a number must look like where a word stands for one", async () => {
    for (const value of ["x", "", "5 kW", "1,000", "9".repeat(309)]) {
      const dryers = [{ rating: { value, unit: "kW" } }];
      const reply = await app.request("/api/answers/dryer-demand", {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ dryers }),
      });
      assertEquals(reply.status, 422);
      assertEquals((await reply.json()).errors, [{
        pointer: "/dryers/0/rating/value",
        detail: 'a number such as 12 or 7.5 is needed, or a fraction such as "1/3"',
      }]);
    }
  });
  it("asks about a text whose figure is too long to compute with", async () => {
    await endsWell("/api/ask", { question: `demand of a ${"9".repeat(309)} kW dryer` });
  });
  it("takes a fraction for the number it is", async () => {
    const ask = async (value: number | string) => {
      const body = JSON.stringify({
        loads: [{ kind: "ev-charger", rating: { value: 48, unit: "A" } }],
        volts: { value, unit: "V" },
      });
      const reply = await app.request("/api/answers/branch-circuit", {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body,
      });
      return await reply.json();
    };
    assertEquals(await ask("480/2"), await ask(240));
    assertEquals((await ask("1/3")).outcome, "unclear");
  });
});
