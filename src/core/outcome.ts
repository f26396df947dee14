/**
 * The three ways a question can end. A customer's problem is an outcome, told by throwing `Unclear` or `NotCovered` from
 * wherever it is found; anything else that is thrown is our own mistake.
 */
import type { Span, WorkedAnswer } from "./worked.ts";

/** Something we must ask back, with an example of how to say it. */
export type Need = { field: string; ask: string; example: string };

/** A question that can be sent as it stands, offered where a text can be read in several ways. */
export type Option = { text: string; question: string };

/** What every outcome carries beside: the thread of the conversation, and what else the same text asked. */
export type Beside = { thread?: unknown; more?: readonly Outcome[]; changes?: readonly Change[] };
/** A figure that is another than in the answer before. */
export type Change = { figure: string; name: string; unit: string; was: number | string; is: number | string };
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
