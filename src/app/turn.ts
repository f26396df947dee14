/** `POST /turn`: the next turn of the page's conversation, from the fields of its forms. */
import type { Context } from "hono";
import { type Handed, threadSchema } from "../conversation/thread.ts";
import { changesBetween } from "../conversation/changes.ts";
import type { Outcome } from "../outcomes.ts";
import type { Engine } from "../engine.ts";
import type { Place } from "../render/place.ts";
import { questionOf } from "./answer.ts";
import { Problem } from "./problem.ts";

type NextTurn = {
  question: string;
  outcome: Outcome;
  action: Place["action"];
  edition: string;
  id: string;
  after: readonly string[];
};

/**
 * Answers the fields of a form. `thread` is what the turn goes on from; with `how=edit` the question is the whole request
 * said anew, and only what changed is told against it.
 * @throws Problem when there is no question, or no thread that an outcome could have carried
 */
export async function goOn(engine: Engine, c: Context): Promise<NextTurn> {
  const fields = Object.fromEntries(
    Object.entries(await c.req.parseBody({ all: true })).map(([name, value]) => [
      name,
      [value].flat().map(String),
    ]),
  );
  const field = (name: string) => fields[name]?.at(-1)?.trim() ?? "";
  const question = questionOf(fields);
  if (question === undefined) throw new Problem(400, "No question was sent. Type one and send it again.");
  const edition = field("edition") || engine.defaultEdition;
  const thread = threadOf(field("thread"));
  const outcome = field("how") === "edit"
    ? saidAnew(engine, question, edition, thread)
    : engine.ask(question, { edition, ...(thread && { after: under(thread, edition) }) });
  return {
    question,
    outcome,
    action: field("at") === "/embed" ? "/embed" : "/answer",
    edition,
    // Ids are parted by the script; whatever else is sent here is no id.
    id: /^t\d{1,6}-$/.test(field("id")) ? field("id") : "",
    after: [...(field("how") === "edit" ? [] : fields.after ?? []), question],
  };
}

function threadOf(text: string): Handed | undefined {
  if (text === "" || text === "null") return undefined;
  try {
    return threadSchema.parse(JSON.parse(text)) as Handed;
  } catch {
    throw new Problem(400, "What came before could not be read back. Ask the question as a new one.");
  }
}

/** The edition in the page's control holds for what is asked next, also about an earlier job. */
const under = (thread: Handed, edition: string): Handed => {
  const [first, ...others] = thread.topics;
  return first ? { ...thread, topics: [{ ...first, edition }, ...others] } : thread;
};

/** The same job said anew: its other topics stay in the thread, and figures are told against the answer before. */
function saidAnew(engine: Engine, question: string, edition: string, thread: Handed | undefined): Outcome {
  const outcome = engine.ask(question, { edition });
  const [before, ...others] = thread?.topics ?? [];
  const now = outcome.thread as Handed | undefined;
  if (outcome.outcome !== "answered" || !before || !now) return outcome;
  const changes = before.kind === outcome.answer.kind && before.figures
    ? changesBetween(before.figures, outcome.answer.figures)
    : [];
  return {
    ...outcome,
    ...(changes.length > 0 && { changes }),
    thread: { ...now, topics: [...now.topics.slice(0, 1), ...others] },
  };
}
