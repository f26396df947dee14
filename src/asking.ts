/** A text's way to its outcome: facts, the question they are of, the account of every word, the answer. */
import type { Edition } from "./core/edition.ts";
import { type Need, type Outcome, type Span, Unclear } from "./core/outcome.ts";
import type { WorkedAnswer } from "./core/worked.ts";
import { InvalidRequest, type Request } from "./engine.ts";
import type { Declined } from "./questions/declined.ts";
import type { AnyQuestion } from "./questions/question.ts";
import type { Draft } from "./reading/facts.ts";
import { type ReadText, readText } from "./reading/read.ts";
import { take } from "./reading/take.ts";
import { type Candidate, type Choice, choose } from "./reading/which.ts";

type Asked = { question: AnyQuestion } & Candidate;
export type Desk = {
  questions: readonly AnyQuestion[];
  declined: readonly Declined[];
  work: (question: AnyQuestion, draft: Draft, edition: Edition, said: Partial<WorkedAnswer>) => WorkedAnswer;
  editionOf: (id: string) => Edition;
  settle: (understood: unknown, unused: readonly Span[], answer: () => WorkedAnswer) => Outcome;
  defaultEdition: string;
  longest: number;
};

export function makeAsk(
  { questions, declined, work, editionOf, settle, defaultEdition, longest }: Desk,
): (asked: string, options?: { edition?: string; after?: Request }) => Outcome {
  const candidates: Asked[] = questions.flatMap((question) =>
    question.takes ? [{ id: question.id, takes: question.takes, question }] : []
  );
  const nothing = (needs: readonly Need[], unused: readonly Span[] = []): Outcome => ({
    outcome: "unclear",
    needs,
    understood: {},
    unused,
  });

  return (asked, { edition } = {}) => {
    if (asked.length > longest) {
      return nothing([{
        field: "question",
        ask: `That is longer than ${longest} characters: what matters in it?`,
        example: "",
      }]);
    }
    const text = readText(asked);
    const other = declined.find(({ isAsked }) => take(text.facts, (t) => isAsked(t) ? {} : undefined));
    if (other) {
      return { outcome: "not covered", because: `${other.title}: understood, but not worked out by this service yet` };
    }
    const choices = choose(text, candidates);
    const [choice, ...equal] = choices;
    if (!choice) return nothing([whatIsAsked(questions)]);
    if (equal.length > 0) return { ...nothing([which(choices)]) };
    const { taken, account, candidate: { question } } = choice;
    const understood = { kind: question.id, ...taken.draft };
    return settle(understood, account.unread, () => {
      if (taken.asks.length > 0) throw new Unclear(taken.asks);
      if (account.missed.length > 0) throw new Unclear([notPlaced(account.missed, question)]);
      const said = { readAs: readAs(text, taken.notes), unused: account.unread, account, asked };
      const chosen = editionOf(editionSaid(text) ?? edition ?? defaultEdition);
      try {
        return work(question, taken.draft, chosen, said);
      } catch (error) {
        // What a person typed is asked about; only a caller's request object is refused.
        if (!(error instanceof InvalidRequest)) throw error;
        throw new Unclear(
          error.problems.map((p): Need => ({ field: p.field, ask: p.message, example: question.examples[0] ?? "" })),
        );
      }
    });
  };
}

const editionSaid = ({ facts }: ReadText): string | undefined => {
  const sense = facts.free.find(({ key }) => key === "edition")?.value.sense;
  return sense?.is === "edition" ? sense.edition : undefined;
};

const readAs = ({ mended }: ReadText, notes: readonly string[]): string[] => [
  ...mended.map(({ said, read }) => `read "${said}" as "${read}"`),
  ...notes,
];

function whatIsAsked(questions: readonly AnyQuestion[]): Need {
  return {
    field: "question",
    ask: `I can't tell what is asked. I can work out: ${questions.map((q) => q.title.toLowerCase()).join("; ")}.`,
    example: questions[0]?.examples[0] ?? "",
  };
}

function notPlaced(missed: readonly Span[], { title, examples }: AnyQuestion): Need {
  const words = missed.map(({ text }) => `“${text.trim()}”`).join(", ");
  return {
    field: "question",
    ask:
      `I can't place ${words} in a question on ${title.toLowerCase()}. What does it mean here? Say it another way, or leave it out.`,
    example: examples[0] ?? "",
  };
}

function which(choices: readonly Choice<Asked>[]): Need {
  const titles = choices.map(({ candidate }) => candidate.question.title.toLowerCase());
  return {
    field: "question",
    ask: `This could ask for ${titles.slice(0, -1).join(", ")} or ${titles.at(-1)}. Which one do you mean?`,
    example: choices[0]!.candidate.question.examples[0] ?? "",
  };
}
