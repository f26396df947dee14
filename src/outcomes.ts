/** What a text or a request comes to: one of three outcomes, with all that goes back beside it, and its schema. */
import * as z from "zod";
import type { Need } from "./core/outcome.ts";
import { SCHEMAS as WORKED, type Span, type WorkedAnswer } from "./core/worked.ts";

/** Longest text that is read, wherever it comes in; a long post is pasted whole, a book is not. */
export const LONGEST_QUESTION = 8000;

const text = z.string();
const list = <T extends z.ZodType>(item: T) => z.array(item).readonly();

const need: z.ZodType<Need> = z.object({ field: text, ask: text, example: text });

const option = z.object({ text, question: text.meta({ description: "a question that can be sent as it stands" }) });
/** A question that can be sent as it stands, offered where a text can be read in several ways. */
export type Option = z.output<typeof option>;

const told = z.union([z.number(), text]);
const change = z.object({ figure: text, name: text, unit: text, was: told, is: told });
/** A figure that is another than in the answer before. */
export type Change = z.output<typeof change>;

/** What every outcome carries beside: the thread of the conversation, and what else the same text asked. */
type Beside = { thread?: unknown; more?: readonly Outcome[]; changes?: readonly Change[] };
export type Outcome =
  & (
    | { outcome: "answered"; answer: WorkedAnswer }
    | {
      outcome: "unclear";
      needs: readonly Need[];
      understood: unknown;
      unused: readonly Span[];
      choices?: readonly Option[];
      restated?: string;
    }
    | { outcome: "not covered"; because: string; edition?: string }
  )
  & Beside;

const beside = {
  thread: z.looseObject({}).optional()
    .meta({ description: "opaque: hand it back as `after` with the next text of the conversation" }),
  more: z.lazy((): z.ZodType<readonly Outcome[] | undefined> => list(outcome).optional())
    .meta({ description: "outcomes of further questions in the same text" }),
  changes: list(change).optional(),
};
const answered = z.object({ outcome: z.literal("answered"), answer: WORKED.answer, ...beside });
const unclear = z.object({
  outcome: z.literal("unclear"),
  needs: list(need),
  understood: z.looseObject({}).nullable()
    .meta({ description: "the request as far as it was understood; may be sent as `after`" }),
  unused: list(WORKED.span),
  choices: list(option).optional(),
  restated: text.optional(),
  ...beside,
});
const notCovered = z.object({ outcome: z.literal("not covered"), because: text, edition: text.optional(), ...beside });
const outcome: z.ZodType<Outcome> = z.discriminatedUnion("outcome", [answered, unclear, notCovered]);
/** Every part of a reply that OpenAPI names. */
export const SCHEMAS = { ...WORKED, outcome, answered, unclear, "not-covered": notCovered };

/** What no answer may go without. */
export const NOTICE =
  "A design check, not permission to work. Local amendments and the authority having jurisdiction decide; manufacturer " +
  "markings win. A licensed electrician verifies before anything is installed or energized.";

/** The same where there is room for a line. */
export const SHORT_NOTICE = "A design check, not permission to work; a licensed electrician verifies.";
