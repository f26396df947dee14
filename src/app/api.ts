/** The JSON calls: ask by text, answer by request, and what can be asked under which editions. */
import { type Context, Hono } from "hono";
import * as z from "zod";
import { NotCovered } from "../core/outcome.ts";
import type { Outcome } from "../outcomes.ts";
import { inOurWords } from "../request.ts";
import type { Edition } from "../editions/edition.ts";
import { type Engine, LONGEST_QUESTION, type Request } from "../engine.ts";
import { type Handed, threadSchema } from "../conversation/thread.ts";
import { answerLines, JSON_LINES } from "./lines.ts";
import { Problem, unfit } from "./problem.ts";
import { inShort, stepsOf, withoutSteps } from "./steps.ts";

/** The body of `POST /api/ask`. */
export const askBody = z.strictObject({
  question: z.string().trim().min(1, "say what is asked").max(LONGEST_QUESTION)
    .meta({ description: "the question as it would be typed" }),
  edition: z.string().optional().meta({ description: "edition of the code, by its id in GET /api/editions" }),
  after: z.union([threadSchema, z.looseObject({ kind: z.string() })], {
    error: "hand back the `thread` of an earlier outcome, or the `request` of an earlier answer, as it was",
  }).optional()
    .meta({
      description: "the thread of an earlier outcome, or the request of an earlier answer, which the text then changes",
    }),
});

export function api(engine: Engine): Hono {
  const byKind = new Map(engine.questions.map((question) => [question.id, question]));
  const kinds = [...byKind.keys()].join(", ");
  let described: ReturnType<typeof describeQuestion>[] | undefined;

  return new Hono()
    .post("/ask", async (c) => {
      const body = askBody.safeParse(await json(c), { error: inOurWords });
      if (!body.success) throw unfit(problemsOf(body.error));
      const { question, edition, after } = body.data;
      if (after && !("format" in after)) checkEarlier(after as Request);
      const outcome = engine.ask(question, {
        ...(edition && { edition }),
        ...(after && { after: after as Request | Handed }),
      });
      return c.json(inShort(c, outcome));
    })
    .post("/answers/:kind", async (c) => {
      const kind = c.req.param("kind");
      if (!byKind.has(kind)) {
        throw new Problem(404, `There is no kind of question "${kind}" here. There are: ${kinds}.`);
      }
      const { kind: said = kind, ...request } = asRequest(await json(c));
      if (said !== kind) {
        throw unfit([{ field: "kind", message: `it is "${said}", and the address says "${kind}"` }]);
      }
      return c.json(inShort(c, answer({ kind, ...request }, c.req.query("edition"))));
    })
    .post("/answers", (c) => {
      takes(c, JSON_LINES, /^application\/(x-ndjson|jsonl)\s*(;|$)/i);
      const [short, edition] = [stepsOf(c) === "none", c.req.query("edition")];
      const lines = answerLines(c.req.raw.body ?? new ReadableStream({ start: (empty) => empty.close() }), (body) => {
        const outcome = answer(asRequest(body), edition);
        return short ? withoutSteps(outcome) : outcome;
      });
      return c.body(lines, 200, { "Content-Type": JSON_LINES });
    })
    .get("/questions", (c) => c.json({ questions: described ??= engine.questions.map(describeQuestion) }))
    .get("/editions", (c) =>
      c.json({
        default: engine.defaultEdition,
        editions: [...engine.editions.values()].map((edition) => describeEdition(edition, [...byKind.keys()])),
      }));

  function answer({ kind, edition, ...request }: Record<string, unknown>, otherwise: string | undefined): Outcome {
    if (typeof kind !== "string") throw unfit([{ field: "kind", message: `one of ${kinds} is needed` }]);
    const under = edition ?? otherwise;
    if (under !== undefined && typeof under !== "string") {
      throw unfit([{ field: "edition", message: 'a text such as "2023" is needed' }]);
    }
    return engine.answer({ ...request, kind }, under === undefined ? {} : { edition: under });
  }

  /** @throws Problem when the earlier request is not one an answer could have carried. */
  function checkEarlier({ kind, edition: _, ...request }: Request): void {
    const question = byKind.get(kind);
    if (!question) {
      throw unfit([{ field: "after.kind", message: `"${kind}" is no kind of question; there are ${kinds}` }]);
    }
    const read = question.input.safeParse(request, { error: inOurWords });
    if (!read.success) throw unfit(problemsOf(read.error, "after"));
  }
}

function asRequest(body: unknown): Record<string, unknown> {
  if (typeof body === "object" && body !== null && !Array.isArray(body)) return body as Record<string, unknown>;
  throw unfit([{ field: "request", message: "a JSON object is needed" }]);
}

/** @throws Problem 415 unless the body is of the type, in UTF-8, the one encoding of JSON between systems (RFC 8259). */
function takes(c: Context, type: string, pattern: RegExp): void {
  const said = c.req.header("Content-Type") ?? "";
  if (!pattern.test(said)) {
    const is = said === "" ? "no Content-Type was sent" : `the Content-Type is "${said}"`;
    throw new Problem(415, `This call takes JSON, and ${is}. Send it as ${type}.`);
  }
  const charset = /;\s*charset\s*=\s*"?([^";\s]*)/i.exec(said)?.[1];
  if (charset !== undefined && !/^utf-?8$/i.test(charset)) {
    throw new Problem(415, `The body is said to be in ${charset}. JSON is read in UTF-8 only: send it so.`);
  }
}

/** The body as JSON. @throws Problem 415 or 400. */
async function json(c: Context): Promise<unknown> {
  takes(c, "application/json", /^application\/([\w.-]+\+)?json\s*(;|$)/i);
  const bytes = await c.req.arrayBuffer();
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new Problem(400, "The body is not UTF-8. JSON is read in UTF-8 only: send it so.");
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Problem(400, `The body is not JSON (${(error as Error).message}). Check its quotes, commas and braces.`);
  }
}

/** What does not fit a schema, field by field. */
const problemsOf = (error: z.ZodError, under?: string): { field: string; message: string }[] =>
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
