/** What asking works with: the questions, the way to an answer, and a text read with the facts it stands for. */
import { merge } from "../conversation/merge.ts";
import type { Handed, Topic } from "../conversation/thread.ts";
import { beside, namesGoalWord, tellsFacts, withoutPlaces } from "../conversation/turn.ts";
import type { Edition } from "../editions/edition.ts";
import type { Outcome } from "../outcomes.ts";
import type { Span, WorkedAnswer } from "../core/worked.ts";
import type { Declined } from "../questions/declined.ts";
import type { AnyQuestion } from "../questions/question.ts";
import type { Draft, Fact, Facts } from "../reading/facts.ts";
import { type ReadText, readText } from "../reading/read.ts";
import { askedFacts, is } from "../reading/manner.ts";
import { taking } from "../reading/take.ts";
import { type Candidate, type Choice, choose, unplaced } from "../reading/which.ts";
import type { Request } from "../request.ts";
import type { Pointers } from "./pointed.ts";

export type Asked = { question: AnyQuestion } & Candidate;

export type Desk = {
  questions: readonly AnyQuestion[];
  candidates: readonly Asked[];
  declined: readonly Declined[];
  /** What a text points at without telling a figure. */
  pointers: Pointers;
  work: (question: AnyQuestion, draft: Draft, edition: Edition, said: Said) => WorkedAnswer;
  editionOf: (id: string) => Edition;
  settle: (understood: unknown, unused: readonly Span[], answer: () => WorkedAnswer) => Outcome;
  defaultEdition: string;
  longest: number;
};

/** What an answer tells of the asked text. */
export type Said = Partial<Pick<WorkedAnswer, "asked" | "readAs" | "unused" | "account">>;

export type AskOptions = { edition?: string; after?: Handed | Request };

export type Ask = (asked: string, options?: AskOptions) => Outcome;

/**
 * A text read with the facts it stands for: its own, or those of the topic it changes. `facts` are those that are kept:
 * without what an answer only chose.
 */
export type Read = {
  text: ReadText;
  facts?: Facts;
  choices: Choice<Asked>[];
  topic?: Topic;
  last?: Topic["last"];
  past?: Topic["past"];
  gone?: Topic["gone"];
  /** Whether something was to be added or taken away, and nothing was. */
  isIdle?: boolean;
  /** Whether the text tells something and asks nothing. */
  tellsFacts?: boolean;
  /** Conductors that it names without a figure: it asks for them. */
  named?: readonly Fact[];
  /** What of the topic no longer counts, and why. */
  notes?: readonly string[];
  /** The number by which a topic is called that it opens. */
  tag?: string | undefined;
  /** Whether the topic stays as it is, and this is another one like it. */
  isAnother?: boolean;
};

export const questionOf = (desk: Desk, kind: string) => desk.questions.find(({ id }) => id === kind);

export function isDeclined(desk: Desk, facts: Facts): Declined | undefined {
  const take = taking(facts);
  return desk.declined.find(({ isAsked }) => take((t) => isAsked(t) ? {} : undefined));
}

export const read = (desk: Desk, text: ReadText): Read => ({ text, choices: choose(text, desk.candidates) });

export const isPlaced = ({ choices: [first], isIdle }: Read): boolean =>
  first !== undefined && unplaced(first) === 0 && !isIdle;

/** The text as a change of a topic, or as another question about its facts: that one uses what was just chosen as well. */
export function change(desk: Desk, text: ReadText, topic: Topic, settled: readonly number[] = []): Read {
  const { facts, last, past, gone, named, used: merged, isIdle, notes } = merge(topic.facts, text, topic);
  const used = new Set([...merged, ...settled]);
  const told = { ...(last && { last }), past, gone, notes, tellsFacts: tellsFacts(text), named };
  // Read only where another question goes on from what was chosen.
  const chosen = () => topic.chosen ? beside(facts, withoutPlaces(readText(topic.chosen.join("; ")).facts)) : facts;
  const by = (known: Facts): Read => ({
    text: { ...text, facts: known },
    choices: choose({ ...text, facts: known }, desk.candidates, used),
    facts,
    topic,
    isIdle,
    ...told,
  });
  const isOfChosen = topic.aside || facts.free.some(({ key }) => key === "goal:how-many");
  const own = by(isOfChosen ? chosen() : facts);
  const isOfTopic = ({ candidate }: Choice<Asked>) => candidate.id === topic.kind;
  const same = own.choices.find(isOfTopic);
  // `fault current with 3.5 % Z`, after a transformer: another question where it places all that this one has no place for.
  const isOther = same && unplaced(same) > 0 && namesGoalWord(text) && own.choices.some((each) => unplaced(each) === 0);
  if (same && !isOther) return { ...own, choices: [same] };
  if (isOther) return by(chosen());
  // What a topic asks stays asked, where a further text asks nothing else.
  const still = topic.aside || namesGoalWord(text) ? undefined : askedFacts(topic.manner);
  const again = still && by({ facts: [...facts.facts, ...still.facts], free: [...facts.free, ...still.free] });
  const stood = again?.choices.find(isOfTopic);
  if (again && stood && unplaced(stood) === 0) return { ...again, facts, choices: [stood] };
  const other = by(chosen());
  // `two of them on one feeder`: the wire that was chosen for one is none put up for the feeder.
  const [first] = other.choices;
  return is(topic, "one circuit") && first && is(first.candidate.question, "anew") ? by(facts) : other;
}
