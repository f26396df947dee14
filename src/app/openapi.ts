/** OpenAPI 3.1 of every call, made from the same schemas that check the calls. */
import * as z from "zod";
import { SCHEMAS as REPLIES } from "../outcomes.ts";
import type { Engine } from "../engine.ts";
import { SIZES } from "../render/paper.ts";
import { FORMS } from "./answer.ts";
import { askBody, requestSchema } from "./api.ts";
import { JSON_LINES } from "./lines.ts";
import { STEPS } from "./steps.ts";

type Json = Record<string, unknown>;
const ref = (name: string) => ({ $ref: `#/components/schemas/${name}` });
const object = (properties: Json, required = Object.keys(properties)): Json => ({
  type: "object",
  properties,
  required,
});
const array = (items: Json): Json => ({ type: "array", items });
const text = { type: "string" };
const content = (schema: Json, type = "application/json") => ({ [type]: { schema } });
const schemaOf = (schema: z.ZodType): Json => {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io: "input" });
  return rest;
};

const ofRequest = (id: string, input: z.ZodType): Json => {
  const { $schema: _, ...rest } = requestSchema(id, input);
  return rest;
};

/** The problems a call may meet, beside its answers. */
const problems = (...statuses: number[]): Json =>
  Object.fromEntries([...statuses, 429, 503].map((status) => [status, { $ref: "#/components/responses/problem" }]));
const outcome = {
  200: { description: "an outcome: answered, unclear or not covered", content: content(ref("outcome")) },
};
const body = (schema: Json) => ({ required: true, content: content(schema) });
const query = (name: string, description: string, schema: Json = text, required = false) => ({
  name,
  in: "query",
  required,
  description,
  schema,
});

export function openapi(engine: Engine): Json {
  const editions = { ...text, examples: [...engine.editions.keys()] };
  const steps = query(
    "steps",
    "`none` leaves out the steps, the account of the words and the thread, for programs that want the results",
    { enum: STEPS },
  );
  const asked = [
    query("q", "the question as it would be typed", text, true),
    query("edition", "edition of the code, when the question names none", editions),
    query("after", "an earlier question's text, which `q` then changes"),
  ];
  return {
    openapi: "3.1.0",
    info: {
      title: "Deadfront",
      version: "1",
      description:
        "Answers electricians' questions by computation under a stated edition of the code, every step shown.",
      license: { name: "MIT", identifier: "MIT" },
    },
    paths: {
      "/api/ask": {
        post: {
          operationId: "ask",
          summary: "Ask by text; `after` lets a text change an earlier request",
          parameters: [steps],
          requestBody: body(schemaOf(askBody)),
          responses: { ...outcome, ...problems(400, 413, 415, 422) },
        },
      },
      ...Object.fromEntries(engine.questions.map((question) => [`/api/answers/${question.id}`, {
        post: {
          operationId: `answer-${question.id}`,
          summary: `${question.title}, by request`,
          description: `${question.about} The body may also hold \`kind\` and \`edition\`.`,
          parameters: [query("edition", "edition of the code", editions), steps],
          requestBody: body(ref(question.id)),
          responses: { ...outcome, ...problems(400, 413, 415, 422) },
        },
      }])),
      "/api/answers": {
        post: {
          operationId: "answers",
          summary:
            "Any number of requests, a line each; an outcome or a problem a line, in their order, as they are worked",
          parameters: [query("edition", "edition of the code, where a line names none", editions), steps],
          requestBody: {
            required: true,
            content: content(object({ kind: text, edition: editions }, ["kind"]), JSON_LINES),
          },
          responses: {
            200: {
              description: "each line's number, with its outcome or its problem",
              content: content({
                allOf: [object({ line: { type: "integer" } }), {
                  anyOf: [ref("outcome"), object({ problem: ref("problem") })],
                }],
              }, JSON_LINES),
            },
            ...problems(400, 415),
          },
        },
      },
      "/api/questions": get("questions", "What can be asked", content(ref("questions"))),
      "/api/editions": get("editions", "Under which editions, and how well each is verified", content(ref("editions"))),
      "/openapi.json": get("openapi", "This description", content({ type: "object" })),
      "/health": get("health", "Whether the service is ready", content(object({ status: { const: "ok" } }))),
      "/answer": {
        get: {
          operationId: "link",
          summary: "A link that recomputes its answer, in the form named by `as` or by Accept",
          parameters: [
            ...asked,
            query("as", "the form; by Accept when absent, HTML when that says nothing", { enum: Object.keys(FORMS) }),
            query("paper", "with `as=pdf`: the sheets it is laid out for, `letter` when absent", { enum: SIZES }),
            query(
              "brief",
              "with `as=text`: the answer alone, in under 400 characters; with `as=pdf`: each answer on one sheet",
            ),
            steps,
          ],
          responses: {
            200: {
              description: "the outcome in the form asked for",
              content: {
                ...content(ref("outcome")),
                ...Object.assign({}, ...(["html", "text", "markdown"] as const).map((f) => content(text, FORMS[f]))),
                ...content({}, FORMS.pdf),
              },
            },
            ...problems(400, 422),
          },
        },
      },
      "/": get("page", "The page", content(text, "text/html")),
      "/embed": {
        get: {
          operationId: "embed",
          summary: "The page for an iframe",
          parameters: asked.map((each) => ({ ...each, required: false })),
          responses: { 200: { description: "HTML", content: content(text, "text/html") }, ...problems(400) },
        },
      },
    },
    components: {
      responses: {
        problem: {
          description: "what went wrong, where, and what to do next (RFC 9457)",
          content: content(ref("problem"), "application/problem+json"),
        },
      },
      schemas: {
        ...schemas(),
        ...Object.fromEntries(engine.questions.map(({ id, input }) => [id, ofRequest(id, input)])),
      },
    },
  };
}

const get = (operationId: string, summary: string, found: Json): Json => ({
  get: { operationId, summary, responses: { 200: { description: summary, content: found }, ...problems() } },
});

/** What the replies are made of, from the schemas that the engine's own types follow from. */
function ofReplies(): Json {
  const named = z.registry<{ id: string }>();
  for (const [id, schema] of Object.entries(REPLIES)) named.add(schema, { id });
  const { schemas } = z.toJSONSchema(named, {
    io: "input",
    uri: (id) => `#/components/schemas/${id}`,
    // That our own code does not change a list is nothing to whoever reads the reply.
    override: ({ jsonSchema }) => void delete jsonSchema.readOnly,
  });
  const outcomes = { answered: "answered", unclear: "unclear", "not covered": "not-covered" };
  const all: Record<string, Json> = { ...schemas };
  for (const schema of Object.values(all)) for (const key of ["$schema", "$id"]) delete schema[key];
  return { ...all, outcome: { ...all.outcome, discriminator: { propertyName: "outcome", mapping: outcomes } } };
}

/** Of everything but the requests. Made when it is asked for: few ask, and everybody waits for the start. */
const schemas = (): Json => ({
  ...ofReplies(),
  questions: object({
    questions: array(object({
      kind: text,
      title: text,
      about: text,
      examples: array(text),
      figures: { type: "object", additionalProperties: text },
      schema: { type: "object" },
    })),
  }),
  editions: object({
    default: text,
    editions: array(object({
      id: text,
      title: text,
      from: { ...text, format: "date" },
      over: text,
      note: text,
      verified: {
        type: "object",
        additionalProperties: { type: "integer" },
        description: "how many values stand in two published sources, in one, or are from memory",
      },
      notCovered: { type: "object", additionalProperties: text },
    }, ["id", "title", "from", "verified", "notCovered"])),
  }),
  problem: object({
    type: text,
    title: text,
    status: { type: "integer" },
    detail: text,
    instance: text,
    errors: array(object({ pointer: text, detail: text })),
  }, ["type", "title", "status", "detail"]),
});
