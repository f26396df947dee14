/** From a text that is read to its outcome: the answer, or what is asked back, and the thread that goes on from it. */
import { withNeighbours } from "../conversation/merge/circuits.ts";
import { leftAfter, leftOf, unheeded } from "../conversation/pending.ts";
import { MOST_TOPICS, type Thread, type Topic } from "../conversation/thread.ts";
import { tagOf } from "../conversation/topics.ts";
import { withoutPlaces } from "../conversation/turn.ts";
import { type Need, Unclear } from "../core/outcome.ts";
import type { Option, Outcome } from "../outcomes.ts";
import type { AnyQuestion } from "../questions/question.ts";
import type { Facts } from "../reading/facts.ts";
import { UNKNOWN } from "../reading/manner.ts";
import { take, type Taken } from "../reading/take.ts";
import type { Choice } from "../reading/which.ts";
import { InvalidRequest } from "../request.ts";
import { agreedOn } from "./agree.ts";
import { changesOf, chosenBy, editionSaid, figuresOf, readAs } from "./carried.ts";
import type { Asked, Desk, Read, Said } from "./desk.ts";
import { meaningsOf } from "./meanings.ts";
import { pointedBeside, withPointed } from "./pointed.ts";
import { leaveOut, nothing, notPlaced, optionOf, sameAsBefore, whatIsAsked, which } from "./needs.ts";

export function answer(
  desk: Desk,
  { text, facts = text.facts, choices, topic, last, past, gone, notes = [], isAnother = false, ...told }: Read,
  thread: Thread | undefined,
  edition: string | undefined,
): Outcome {
  const others = thread?.topics.filter((each) => isAnother || each !== topic) ?? [];
  // The edition of a conversation stays until another one is named.
  const chosen = editionSaid(text) ?? topic?.edition ?? edition ?? thread?.topics[0]?.edition ?? desk.defaultEdition;
  const [choice, ...equal] = agreeing(desk, choices, chosen);
  if (!choice) return unasked(desk, facts, thread, edition);
  const { taken, account, candidate: { question } } = choice;
  const understood = { kind: question.id, ...taken.draft };
  const left = topic
    ? [...new Set([...leftAfter(topic, text), ...(topic.kind === question.id ? unheeded(facts, taken) : [])])]
    : account.missed.map((each) => each.text.trim());
  const isSame = topic?.kind === question.id && !isAnother && topic.edition === chosen && told.tellsFacts &&
    JSON.stringify(take(topic.facts, question.takes)?.draft) === JSON.stringify(taken.draft);
  const choiceOf = (needs: readonly Need[], options?: readonly Option[]): Outcome => ({
    outcome: "unclear",
    needs,
    understood,
    unused: account.unread,
    ...(options && { choices: options }),
  });
  // In a conversation the text alone is not what was read.
  const meant = topic ? undefined : meaningsOf(text, account.missed, choice.candidate, taken.draft);
  const settled = equal.length > 0
    ? choiceOf(
      [which([choice, ...equal].map(({ candidate }) => candidate.question))],
      [choice, ...equal].map((each) => optionOf(each.candidate.question, each.taken.draft)),
    )
    : desk.settle(understood, account.unread, () => {
      if (account.missed.length > 0) throw new Unclear([meant?.need ?? notPlaced(account.missed, question)]);
      if (taken.asks.length > 0) throw new Unclear(taken.asks);
      const said: Said = {
        readAs: [
          ...(isSame ? [sameAsBefore(text.asked)] : []),
          ...readAs(text, taken.notes),
          ...notes,
          ...left.map((words) => `left out “${words}” of before`),
        ],
        // Words of before stand behind the text.
        unused: [...account.unread, ...left.map((words) => ({ at: text.asked.length, text: words }))],
        account: { taken: account.taken, setAside: account.setAside, unread: account.unread },
        ...(!topic && { asked: text.asked }),
      };
      try {
        return desk.work(question, taken.draft, desk.editionOf(chosen), said);
      } catch (error) {
        // What a person typed is asked about; only a caller's request object is refused.
        if (!(error instanceof InvalidRequest)) throw error;
        throw new Unclear(
          error.problems.map((p): Need => ({ field: p.field, ask: p.message, example: question.examples[0] ?? "" })),
        );
      }
    });
  const outcome = settled.outcome === "unclear" && equal.length === 0 && account.missed.length > 0
    ? { ...settled, ...withoutMissed(desk, question, taken, chosen, settled.needs, meant?.choices) }
    : settled;
  const answered = outcome.outcome === "answered"
    ? withPointed(outcome.answer, topic ? pointedBeside(text, told.named ?? [], desk.pointers) : [])
    : undefined;
  const tag = topic && !isAnother ? topic.tag : told.tag ?? tagOf(text.asked);
  const now: Topic = {
    kind: question.id,
    manner: question.manner,
    edition: chosen,
    facts: withoutPlaces(withNeighbours(facts, question.id), (value) => taken.taken.has(value)),
    born: !isAnother && topic?.born || bornNext(thread),
    ...(tag !== undefined && { tag }),
    ...(topic?.kind === question.id && !isAnother && { before: topic.facts }),
    ...(left.length > 0 && { left }),
    ...(account.missed.length > 0 &&
      { pending: { asked: text.asked, words: account.missed.map((each) => each.text.trim()), opened: true } }),
    ...(last && { last }),
    ...(past && past.length > 0 && { past }),
    ...(gone && gone.length > 0 && { gone: withoutPlaces({ facts: gone, free: [] }).facts }),
    ...(answered && { figures: figuresOf(answered), chosen: chosenBy(answered) }),
    ...(topic?.chosen && (topic.aside || topic.kind !== question.id) && { chosen: topic.chosen }),
    ...(outcome.outcome === "unclear" &&
      { needs: outcome.needs, ...(outcome.choices && { choices: outcome.choices }) }),
  };
  // What could not be placed is asked about, and what was known before is kept as it was.
  const words = account.missed.map((each) => each.text.trim());
  const isKept = words.length > 0 && topic !== undefined && !isAnother;
  // Another question about the same facts stands beside the topic it came from.
  const isOther = topic !== undefined && !isAnother && topic.kind !== question.id && topic.kind !== "";
  const first = isKept
    ? {
      ...topic,
      needs: now.needs ?? [],
      left: [...topic.left ?? [], ...leftOf(text.asked, words)],
      pending: { asked: text.asked, words },
    }
    : isOther || topic?.aside
    ? { ...now, aside: true }
    : now;
  const topics = [first, ...(isOther && !isKept ? [topic] : []), ...others].slice(0, MOST_TOPICS);
  const changes = answered && !isAnother && topic?.kind === question.id ? changesOf(topic, answered) : [];
  return {
    ...outcome,
    ...(answered && { answer: answered }),
    ...(changes.length > 0 && { changes }),
    thread: { format: "thread/1", topics } satisfies Thread,
  };
}

/** Equal choices, or one of them where their answers say the same. */
function agreeing(desk: Desk, choices: readonly Choice<Asked>[], edition: string): readonly Choice<Asked>[] {
  const isOpen = ({ taken, account }: Choice) => account.missed.length > 0 || taken.asks.length > 0;
  if (choices.length < 2 || choices.some(isOpen)) return choices;
  const answers = choices.flatMap(({ candidate: { question }, taken: { draft } }) => {
    if (!question.input.safeParse(draft).success) return [];
    const outcome = desk.settle(draft, [], () => desk.work(question, draft, desk.editionOf(edition), {}));
    return outcome.outcome === "answered" ? [outcome.answer] : [];
  });
  const agreed = answers.length === choices.length ? agreedOn(answers) : undefined;
  return agreed ? choices.filter(({ candidate }) => candidate.id === agreed.kind) : choices;
}

/** What a question would still ask without the words it has no place for; where that is nothing, the way to leave them out. */
function withoutMissed(
  desk: Desk,
  question: AnyQuestion,
  { draft, asks }: Taken,
  edition: string,
  needs: readonly Need[],
  meanings: readonly Option[] = [],
): { needs: readonly Need[]; choices?: readonly Option[] } {
  const offered = meanings.length > 0 ? { choices: meanings } : {};
  const parsed = question.input.safeParse(draft);
  if (!parsed.success) return { needs, ...offered };
  const rest = asks.length > 0
    ? undefined
    : desk.settle(draft, [], () => desk.work(question, draft, desk.editionOf(edition), {}));
  if (rest?.outcome === "answered") return { needs, choices: [...meanings, leaveOut(question.write(parsed.data))] };
  return { needs: [...needs, ...(rest?.outcome === "unclear" ? rest.needs : asks)], ...offered };
}

/** Facts of which nobody knows yet what is asked are kept: the next text may tell. */
function unasked(
  desk: Desk,
  { facts, free }: Facts,
  thread: Thread | undefined,
  edition = desk.defaultEdition,
): Outcome {
  const asks = nothing([whatIsAsked(desk.questions)]);
  if (thread) return { ...asks, thread };
  if (facts.every(({ slots }) => Object.keys(slots).length === 0)) return asks;
  const topic: Topic = { kind: "", manner: UNKNOWN, edition, facts: withoutPlaces({ facts, free }) };
  return { ...asks, thread: { format: "thread/1", topics: [topic] } satisfies Thread };
}

/** The number of a topic that is opened next. */
const bornNext = (thread: Thread | undefined): number =>
  1 + Math.max(0, ...(thread?.topics ?? []).map(({ born = 0 }) => born));

/** A choice that was picked stands for the topic that it was offered in. */
export function inPlaceOf({ born }: Topic, outcome: Outcome, { format, topics: [, ...others] }: Thread): Outcome {
  const [picked, ...more] = (outcome.thread as Thread | undefined)?.topics ?? [];
  if (!picked) return outcome;
  const topics = [{ ...picked, ...(born !== undefined && { born }) }, ...more, ...others].slice(0, MOST_TOPICS);
  return { ...outcome, thread: { format, topics } satisfies Thread };
}
