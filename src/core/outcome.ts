/**
 * The three ways a question can end. A customer's problem is an outcome, told by throwing `Unclear` or `NotCovered` from
 * wherever it is found; anything else that is thrown is our own mistake.
 */
import * as z from "zod";
import { SCHEMAS as WORKED, type Span, type WorkedAnswer } from "./worked.ts";

const text = z.string();
const list = <T extends z.ZodType>(item: T) => z.array(item).readonly();

const ask = z.object({ field: text, ask: text, example: text });
/** Something we must ask back, with an example of how to say it. */
export type Need = z.output<typeof ask>;

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
  needs: list(ask),
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

/** The question cannot be answered without a fact that may not be guessed. */
export class Unclear extends Error {
  constructor(readonly needs: readonly Need[]) {
    super(needs.map((need) => need.ask).join(" "));
    this.name = "Unclear";
  }
}

/** Asks for one fact. */
export const need = (field: string, ask: string, example: string): Unclear => new Unclear([{ field, ask, example }]);

/** The edition's data, or a rule's own limits, do not reach this question. */
export class NotCovered extends Error {
  constructor(readonly because: string, readonly edition?: string) {
    super(because);
    this.name = "NotCovered";
  }
}
