/** What is asked back, and in which words. */
import type { Need } from "../core/outcome.ts";
import type { Option, Outcome } from "../outcomes.ts";
import type { Span } from "../core/worked.ts";
import type { Declined } from "../questions/declined.ts";
import type { AnyQuestion } from "../questions/question.ts";
import type { Draft } from "../reading/facts.ts";

export const nothing = (needs: readonly Need[], unused: readonly Span[] = []): Outcome => ({
  outcome: "unclear",
  needs,
  understood: {},
  unused,
});

export const decline = ({ title, instead }: Declined): Outcome => ({
  outcome: "not covered",
  because: `${title} are understood, but not worked out here. ${instead}`,
});

export function whatIsAsked(questions: readonly AnyQuestion[]): Need {
  return {
    field: "question",
    ask: `I can't tell what is asked. I can work out: ${questions.map((q) => q.title.toLowerCase()).join("; ")}.`,
    example: questions[0]?.examples[0] ?? "",
  };
}

export const nothingSaid = (): Need => ({
  field: "question",
  ask:
    "I found no figure and no question in that, so the last answer stands. What should change, or what else is asked?",
  example: "make it aluminum",
});

export const nothingChanged = (): Need => ({
  field: "question",
  ask: "I found nothing that this would add or take away, so all is as it was. Which one do you mean?",
  example: "drop the dryer",
});

/** `neutral?`, of an answer that has none. */
export const untold = (words: readonly string[], title: string): Need => ({
  field: "question",
  ask: `The answer on ${title.toLowerCase()} has no ${
    words.map((each) => `“${each}”`).join(" and no ")
  }. What is asked of it?`,
  example: "make it aluminum",
});

/** Said on an answer to a text that tells something and leaves the request as it was. */
export const sameAsBefore = (asked: string): string => `nothing in “${asked.trim()}” is other than before`;

export function notPlaced(missed: readonly Span[], { title, examples }: AnyQuestion): Need {
  const words = missed.map(({ text }) => `“${text.trim()}”`).join(", ");
  return {
    field: "question",
    ask:
      `I can't place ${words} in a question on ${title.toLowerCase()}. What does it mean here? Say it another way, or leave it out.`,
    example: examples[0] ?? "",
  };
}

/** The question without what could not be placed. */
export const leaveOut = (question: string): Option => ({ text: "leave it out", question });

export function which(questions: readonly AnyQuestion[]): Need {
  const titles = questions.map(({ title }) => title.toLowerCase());
  return {
    field: "question",
    ask: `This could ask for ${titles.slice(0, -1).join(", ")} or ${titles.at(-1)}. Which one do you mean?`,
    example: questions[0]!.examples[0] ?? "",
  };
}

export function optionOf(question: AnyQuestion, draft: Draft): Option {
  const parsed = question.input.safeParse(draft);
  return { text: question.title, question: parsed.success ? question.write(parsed.data) : question.examples[0] ?? "" };
}

/** `put them both on one feeder`, where one is known. */
export const bothOfWhat = (known: string): Need => ({
  field: "motors",
  ask: `I know of one motor only (${known}), so nothing was changed. Which is the other?`,
  example: "add a 30 hp motor",
});

/** `make one side 1400 sq ft`, of units that are alike so far. */
export const whichUnit = (): Need => ({
  field: "units",
  ask: "The units are alike so far, and only one of them is to change: I left all as it was. Tell each by itself.",
  example: "unit A 1100 sq ft, 8 kW range; unit B 1400 sq ft, 8 kW range",
});

/** `the pump is 25`, where two pumps are known. */
export const whichOfThem = (known: readonly string[]): Need => ({
  field: "question",
  ask: `Which one do you mean: ${known.join(" or ")}? I left all as it was.`,
  example: `make the ${known[0]} larger`,
});
