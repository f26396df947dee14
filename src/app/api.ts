/** The JSON calls: ask by text, answer by request, and what can be asked under which editions. */
import { type Context, Hono } from "hono";
import * as z from "zod";
import { NotCovered } from "../core/outcome.ts";
import type { Edition } from "../core/edition.ts";
import { type Engine, InvalidRequest, LONGEST_QUESTION, type Request } from "../engine.ts";
import { type Thread, threadSchema } from "../conversation/thread.ts";
import { Problem, unfit } from "./problem.ts";

const SCHEMAS = "GET /openapi.json has the schema of every body.";

/** The body of `POST /api/ask`. */
export const askBody = z.strictObject({
  question: z.string().trim().min(1, "say what is asked").max(LONGEST_QUESTION)
    .meta({ description: "the question as it would be typed" }),
  edition: z.string().optional().meta({ description: "edition of the code, by its id in GET /api/editions" }),
  after: z.union([threadSchema, z.looseObject({ kind: z.string() })]).optional()
    .meta({
      description: "the thread of an earlier outcome, or the request of an earlier answer, which the text then changes",
    }),
});

export function api(engine: Engine): Hono {
  const byKind = new Map(engine.questions.map((question) => [question.id, question]));
  const kinds = [...byKind.keys()].join(", ");

  return new Hono()
    .post("/ask", async (c) => {
      const body = askBody.safeParse(await json(c));
      if (!body.success) throw unfit(problemsOf(body.error), SCHEMAS);
      const { question, edition, after } = body.data;
      if (after && !("format" in after)) checkEarlier(after as Request);
      return c.json(
        engine.ask(question, { ...(edition && { edition }), ...(after && { after: after as Request | Thread }) }),
      );
    })
    .post("/answers/:kind", async (c) => {
      const kind = c.req.param("kind");
      if (!byKind.has(kind)) {
        throw new Problem(404, `There is no kind of question "${kind}" here. There are: ${kinds}.`);
      }
      const body = await json(c);
      if (typeof body !== "object" || body === null || Array.isArray(body)) {
        throw unfit([{ field: "request", message: "a JSON object is needed" }], SCHEMAS);
      }
      const { kind: said = kind, edition = c.req.query("edition"), ...request } = body as Record<string, unknown>;
      if (said !== kind) {
        throw unfit([{ field: "kind", message: `it is "${said}", and the address says "${kind}"` }], SCHEMAS);
      }
      if (edition !== undefined && typeof edition !== "string") {
        throw unfit([{ field: "edition", message: 'a text such as "2023" is needed' }], SCHEMAS);
      }
      return c.json(engine.answer({ ...request, kind }, edition === undefined ? {} : { edition }));
    })
    .get("/questions", (c) => c.json({ questions: engine.questions.map(describeQuestion) }))
    .get("/editions", (c) =>
      c.json({
        default: engine.defaultEdition,
        editions: [...engine.editions.values()].map((edition) => describeEdition(edition, [...byKind.keys()])),
      }));

  /** @throws Problem when the earlier request is not one an answer could have carried. */
  function checkEarlier({ kind, edition: _, ...request }: Request): void {
    const question = byKind.get(kind);
    if (!question) {
      throw unfit([{ field: "after.kind", message: `"${kind}" is no kind of question; there are ${kinds}` }], SCHEMAS);
    }
    const read = question.input.safeParse(request);
    if (!read.success) throw unfit(problemsOf(read.error, "after"), SCHEMAS);
  }
}

/** The body as JSON. @throws Problem 415 or 400. */
async function json(c: Context): Promise<unknown> {
  const type = c.req.header("Content-Type") ?? "";
  if (!/^application\/([\w.-]+\+)?json\s*(;|$)/i.test(type)) {
    const is = type === "" ? "no Content-Type was sent" : `the Content-Type is "${type}"`;
    throw new Problem(415, `This call takes JSON, and ${is}. Send it as application/json.`);
  }
  const text = await c.req.text();
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Problem(400, `The body is not JSON (${(error as Error).message}). Check its quotes, commas and braces.`);
  }
}

/** What does not fit a schema, field by field. */
export const problemsOf = (error: z.ZodError, under?: string): { field: string; message: string }[] =>
  error.issues.map(({ path, message }) => ({
    field: [...(under === undefined ? [] : [under]), ...path].join(".") || "request",
    message,
  }));

const describeQuestion = ({ id, title, about, examples, figures, input }: Engine["questions"][number]) => ({
  kind: id,
  title,
  about,
  examples,
  figures,
  schema: requestSchema(id, input),
});

/** The schema of a request as an answer carries it: the kind's own fields, its name, the edition. */
export function requestSchema(kind: string, input: z.ZodType): Record<string, unknown> {
  const schema = z.toJSONSchema(input, { io: "input" }) as Record<string, unknown>;
  const properties = { kind: { const: kind }, edition: { type: "string" }, ...schema.properties as object };
  return { ...schema, properties };
}

function describeEdition(edition: Edition, kinds: readonly string[]) {
  const declined = kinds.flatMap((kind) => {
    try {
      edition.mustCover(kind);
      return [];
    } catch (error) {
      if (error instanceof NotCovered) return [[kind, error.because] as const];
      throw error;
    }
  });
  return {
    id: edition.id,
    title: edition.title,
    from: edition.from,
    ...(edition.over !== undefined && { over: edition.over }),
    ...(edition.note !== undefined && { note: edition.note }),
    /** How many of its values stand in two published sources, in one, or are from memory. */
    verified: edition.grades(),
    notCovered: Object.fromEntries(declined),
  };
}

/** A request refused by its schema, as a problem. */
export const refused = (error: InvalidRequest): Problem => unfit(error.problems, SCHEMAS);
