/** `GET /answer`: a link that recomputes its answer, in the form asked for. */
import type { Context } from "hono";
import { parseAccept } from "hono/utils/accept";
import type { Outcome } from "../outcomes.ts";
import type { Handed } from "../conversation/thread.ts";
import { type Engine, LONGEST_QUESTION } from "../engine.ts";
import { GAP } from "../render/pieces.ts";
import { Problem } from "./problem.ts";

/** Forms of an answer by the word for `as`, with the media type each is asked for and sent under. */
export const FORMS = {
  html: "text/html",
  text: "text/plain",
  markdown: "text/markdown",
  json: "application/json",
  pdf: "application/pdf",
} as const;
type Form = keyof typeof FORMS;

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

/** What a link asks: a text, and the earlier texts of its conversation, which it goes on from. */
type Linked = { question: string; edition?: string; after: readonly string[] };
export type Asked = { question: string; outcome: Outcome };

/** Texts of a conversation that a link may carry. */
const MOST_TURNS = 40;

/** @throws Problem when there is no question, or too long a one. */
export function linked(c: Context): Linked {
  const question = questionOf(c.req.queries());
  if (question === undefined) throw new Problem(400, "The link has no question. Write it as /answer?q=YOUR+QUESTION.");
  const edition = c.req.query("edition")?.trim();
  const after = (c.req.queries("after") ?? []).map((text) => text.trim()).filter((text) => text !== "");
  if (after.length > MOST_TURNS) {
    throw new Problem(400, `The link goes on from more than ${MOST_TURNS} texts. Ask the last of them anew.`);
  }
  for (const text of after) checkLength("An earlier text", text);
  return { question, ...(edition && { edition }), after };
}

/**
 * The question that a form asks. Several boxes are one text; a bare number takes the unit that stood beside its box; `words`
 * is a phrase with a gap that the box fills.
 */
export function questionOf(fields: Readonly<Record<string, readonly string[] | undefined>>): string | undefined {
  const units = fields.unit ?? [];
  const said = (fields.q ?? fields.question ?? []).map((text, i) => {
    const own = text.trim();
    const unit = units[i]?.trim() ?? "";
    return unit !== "" && BARE.test(own) ? `${own} ${unit}` : own;
  }).filter((text) => text !== "").join(", ");
  const words = fields.words?.[0];
  const question = words?.includes(GAP) ? words.replace(GAP, () => said).trim() : said;
  checkLength("The question", question);
  return question === "" ? undefined : question;
}
const BARE = /^\d[\d.,]*$/;

function checkLength(what: string, text: string): void {
  if (text.length > LONGEST_QUESTION) {
    throw new Problem(400, `${what} is longer than ${LONGEST_QUESTION} characters. Shorten it to what matters.`);
  }
}

/** Every turn of a link's conversation, the one it asks last. A turn goes on from the thread before it, however that ended. */
export function answerLink(engine: Engine, { question, edition, after }: Linked): Asked[] {
  const where = edition === undefined ? {} : { edition };
  let thread: Handed | undefined;
  return [...after, question].map((text) => {
    const outcome = engine.ask(text, { ...where, ...(thread && { after: thread }) });
    thread = (outcome.thread as Handed | undefined) ?? thread;
    return { question: text, outcome };
  });
}
