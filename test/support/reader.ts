/** What the reader makes of a text, question and request, as the service chooses it. */
import type { Need } from "../../src/core/outcome.ts";
import type { Span } from "../../src/core/worked.ts";
import type { AnyQuestion } from "../../src/questions/question.ts";
import type { Draft } from "../../src/reading/facts.ts";
import { readText } from "../../src/reading/read.ts";
import { choose } from "../../src/reading/which.ts";

/** Absent where no question, or more than one, is the text's. */
export type Parsed = { question: AnyQuestion; draft: Draft; asks: readonly Need[]; unused: readonly Span[] } | {
  question?: undefined;
};

export const makeReader = (questions: readonly AnyQuestion[]): (asked: string) => Parsed => {
  const candidates = questions.map((question) => ({ ...question, question }));
  return (asked) => {
    const [choice, ...others] = choose(readText(asked), candidates);
    if (!choice || others.length > 0) return {};
    const { candidate: { question }, taken, account } = choice;
    return { question, draft: taken.draft, asks: taken.asks, unused: [...account.missed, ...account.unread] };
  };
};
