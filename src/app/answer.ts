/** `GET /answer`: a link that recomputes its answer, in the form asked for. */
import type { Context } from "hono";
import { parseAccept } from "hono/utils/accept";
import type { Outcome } from "../core/outcome.ts";
import type { Thread } from "../conversation/thread.ts";
import { type Engine, LONGEST_QUESTION } from "../engine.ts";
import { Problem } from "./problem.ts";

/** Forms of an answer by the word for `as`, with the media type each is asked for and sent under. */
export const FORMS = {
  html: "text/html",
  text: "text/plain",
  markdown: "text/markdown",
  json: "application/json",
  pdf: "application/pdf",
} as const;
export type Form = keyof typeof FORMS;

/** The form that `as` or else the Accept header asks for; HTML when it says nothing we have. */
export function formOf(c: Context): Form {
  const as = c.req.query("as");
  if (as !== undefined && as !== "") {
    if (!Object.hasOwn(FORMS, as)) {
      throw new Problem(400, `"as=${as}" is no form of an answer. There are: ${Object.keys(FORMS).join(", ")}.`);
    }
    return as as Form;
  }
  const wanted = parseAccept(c.req.header("Accept") ?? "").filter(({ q }) => q > 0).sort((a, b) => b.q - a.q);
  for (const { type } of wanted) {
    const found = Object.entries(FORMS).find(([, media]) => media === type.toLowerCase());
    if (found) return found[0] as Form;
  }
  return "html";
}

/** What a link asks: a text, and the earlier text it changes, if any. */
export type Linked = { question: string; edition?: string; after?: string };

/** @throws Problem when there is no question, or too long a one. */
export function linked(c: Context): Linked {
  const question = textOf(c, "q");
  if (question === undefined) throw new Problem(400, "The link has no question. Write it as /answer?q=YOUR+QUESTION.");
  const [edition, after] = [textOf(c, "edition"), textOf(c, "after")];
  return { question, ...(edition && { edition }), ...(after && { after }) };
}

function textOf(c: Context, name: string): string | undefined {
  // A form with several boxes sends several; together they are one text.
  const text = c.req.queries(name)?.map((each) => each.trim()).filter((each) => each !== "").join(", ") ?? "";
  if (text.length > LONGEST_QUESTION) {
    throw new Problem(400, `"${name}" is longer than ${LONGEST_QUESTION} characters. Shorten it to what matters.`);
  }
  return text === "" ? undefined : text;
}

/** Answers a link. A change of an earlier question goes on from that question's thread, however that one ended. */
export function answerLink(engine: Engine, { question, edition, after }: Linked): Outcome {
  const where = edition === undefined ? {} : { edition };
  if (after === undefined) return engine.ask(question, where);
  const { thread } = engine.ask(after, where);
  return thread
    ? engine.ask(question, { ...where, after: thread as Thread })
    : engine.ask(`${after}, ${question}`, where);
}
