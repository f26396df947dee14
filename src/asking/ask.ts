/**
 * A text's way to its outcome: facts, the question they are of, the account of every word, the answer; and in a conversation,
 * what the text does to what was said before.
 */
import { merge } from "../conversation/merge.ts";
import { explained, leavesOut, leftAfter, leftOf, unheeded } from "../conversation/pending.ts";
import { MOST_TOPICS, type Thread, type Topic } from "../conversation/thread.ts";
import {
  anotherMeant,
  knowingOf,
  knowsAll,
  oneMeant,
  taggedMeant,
  tagOf,
  topicMeant,
  withoutTag,
} from "../conversation/topics.ts";
import {
  aloneOf,
  alsoDemanded,
  asksOfAnswer,
  asksSection,
  asksSomething,
  asksWhy,
  beside,
  decides,
  DEMANDS,
  drops,
  hasFigure,
  metalsCompared,
  namesGoalWord,
  numbersIn,
  ofMetal,
  ofTotal,
  referring,
  retracts,
  saysNothing,
  startsOver,
  tellsChange,
  tellsGround,
  tellsNewLoad,
  tellsOnly,
  tellsOther,
  tellsUse,
  withoutPlaces,
} from "../conversation/turn.ts";
import type { Edition } from "../core/edition.ts";
import { type Need, type Option, type Outcome, type Span, Unclear } from "../core/outcome.ts";
import type { WorkedAnswer } from "../core/worked.ts";
import { InvalidRequest, type Request } from "../request.ts";
import { agreedOn } from "./agree.ts";
import { changesOf, chosenBy, editionSaid, figuresOf, isThread, pickedOf, readAs, threadOf } from "./carried.ts";
import { explain } from "./explain.ts";
import { meaningsOf } from "./meanings.ts";
import {
  decline,
  leaveOut,
  nothing,
  nothingChanged,
  nothingSaid,
  notPlaced,
  optionOf,
  whatIsAsked,
  which,
} from "./needs.ts";
import type { Declined } from "../questions/declined.ts";
import type { AnyQuestion } from "../questions/question.ts";
import type { Draft, Facts } from "../reading/facts.ts";
import { type ReadText, readText } from "../reading/read.ts";
import { take, type Taken } from "../reading/take.ts";
import { type Candidate, type Choice, choose, unplaced } from "../reading/which.ts";

type Asked = { question: AnyQuestion } & Candidate;
export type Desk = {
  questions: readonly AnyQuestion[];
  declined: readonly Declined[];
  work: (question: AnyQuestion, draft: Draft, edition: Edition, said: Said) => WorkedAnswer;
  editionOf: (id: string) => Edition;
  settle: (understood: unknown, unused: readonly Span[], answer: () => WorkedAnswer) => Outcome;
  defaultEdition: string;
  longest: number;
};
/** What an answer tells of the asked text. */
export type Said = Partial<Pick<WorkedAnswer, "asked" | "readAs" | "unused" | "account">>;
export type AskOptions = { edition?: string; after?: Thread | Request };
export type Ask = (asked: string, options?: AskOptions) => Outcome;

/**
 * A text read with the facts it stands for: its own, or those of the topic it changes. `facts` are those that are kept:
 * without what an answer only chose.
 */
type Read = {
  text: ReadText;
  facts?: Facts;
  choices: Choice<Asked>[];
  topic?: Topic;
  last?: Topic["last"];
  past?: Topic["past"];
  /** Whether something was to be added or taken away, and nothing was. */
  isIdle?: boolean;
  /** What of the topic no longer counts, and why. */
  notes?: readonly string[];
  /** The number by which a topic is called that it opens. */
  tag?: string | undefined;
  /** Whether the topic stays as it is, and this is another one like it. */
  isAnother?: boolean;
};

export function makeAsk(
  { questions, declined, work, editionOf, settle, defaultEdition, longest }: Desk,
): Ask {
  const candidates: Asked[] = questions.map((question) => ({ ...question, question }));
  const questionOf = (kind: string) => questions.find(({ id }) => id === kind);

  const isDeclined = (facts: Facts) => declined.find(({ isAsked }) => take(facts, (t) => isAsked(t) ? {} : undefined));
  const read = (text: ReadText): Read => ({ text, choices: choose(text, candidates) });
  const isPlaced = ({ choices: [first], isIdle }: Read): boolean =>
    first !== undefined && unplaced(first) === 0 && !isIdle;

  /** The text as a change of a topic, or as another question about its facts: that one uses what was just chosen as well. */
  const change = (text: ReadText, topic: Topic, settled: readonly number[] = []): Read => {
    const { facts, last, past, used: merged, isIdle, notes } = merge(topic.facts, text, topic);
    const used = new Set([...merged, ...settled]);
    const told = { ...(last && { last }), past, notes };
    const chosen = topic.chosen ? beside(facts, withoutPlaces(readText(topic.chosen.join("; ")).facts)) : facts;
    const by = (known: Facts): Read => ({
      text: { ...text, facts: known },
      choices: choose({ ...text, facts: known }, candidates, used),
      facts,
      topic,
      isIdle,
      ...told,
    });
    const own = by(topic.aside ? chosen : facts);
    const same = own.choices.find(({ candidate }) => candidate.id === topic.kind);
    return same ? { ...own, choices: [same] } : by(chosen);
  };

  const answer = (
    { text, facts = text.facts, choices, topic, last, past, notes = [], isAnother = false, ...told }: Read,
    thread: Thread | undefined,
    edition: string | undefined,
  ): Outcome => {
    const others = thread?.topics.filter((each) => isAnother || each !== topic) ?? [];
    // The edition of a conversation stays until another one is named.
    const chosen = editionSaid(text) ?? topic?.edition ?? edition ?? thread?.topics[0]?.edition ?? defaultEdition;
    const [choice, ...equal] = agreeing(choices, chosen);
    if (!choice) return unasked(facts, thread, edition);
    const { taken, account, candidate: { question } } = choice;
    const understood = { kind: question.id, ...taken.draft };
    const left = topic
      ? [...new Set([...leftAfter(topic, text), ...(topic.kind === question.id ? unheeded(facts, taken) : [])])]
      : account.missed.map((each) => each.text.trim());
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
      : settle(understood, account.unread, () => {
        if (account.missed.length > 0) throw new Unclear([meant?.need ?? notPlaced(account.missed, question)]);
        if (taken.asks.length > 0) throw new Unclear(taken.asks);
        const said: Said = {
          readAs: [...readAs(text, taken.notes), ...notes, ...left.map((words) => `left out “${words}” of before`)],
          // Words of before stand behind the text.
          unused: [...account.unread, ...left.map((words) => ({ at: text.asked.length, text: words }))],
          account,
          ...(!topic && { asked: text.asked }),
        };
        try {
          return work(question, taken.draft, editionOf(chosen), said);
        } catch (error) {
          // What a person typed is asked about; only a caller's request object is refused.
          if (!(error instanceof InvalidRequest)) throw error;
          throw new Unclear(
            error.problems.map((p): Need => ({ field: p.field, ask: p.message, example: question.examples[0] ?? "" })),
          );
        }
      });
    const outcome = settled.outcome === "unclear" && equal.length === 0 && account.missed.length > 0
      ? { ...settled, ...withoutMissed(question, taken, chosen, settled.needs, meant?.choices) }
      : settled;
    const answered = outcome.outcome === "answered" ? outcome.answer : undefined;
    const tag = topic && !isAnother ? topic.tag : told.tag ?? tagOf(text.asked);
    const now: Topic = {
      kind: question.id,
      edition: chosen,
      facts: withoutPlaces(facts),
      born: !isAnother && topic?.born || bornNext(thread),
      ...(tag !== undefined && { tag }),
      ...(topic?.kind === question.id && !isAnother && { before: topic.facts }),
      ...(left.length > 0 && { left }),
      ...(account.missed.length > 0 &&
        { pending: { asked: text.asked, words: account.missed.map((each) => each.text.trim()), opened: true } }),
      ...(last && { last }),
      ...(past && past.length > 0 && { past }),
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
      ...(changes.length > 0 && { changes }),
      thread: { format: "thread/1", topics } satisfies Thread,
    };
  };

  /** Equal choices, or one of them where their answers say the same. */
  const agreeing = (choices: readonly Choice<Asked>[], edition: string): readonly Choice<Asked>[] => {
    const isOpen = ({ taken, account }: Choice) => account.missed.length > 0 || taken.asks.length > 0;
    if (choices.length < 2 || choices.some(isOpen)) return choices;
    const answers = choices.flatMap(({ candidate: { question }, taken: { draft } }) => {
      if (!question.input.safeParse(draft).success) return [];
      const outcome = settle(draft, [], () => work(question, draft, editionOf(edition), {}));
      return outcome.outcome === "answered" ? [outcome.answer] : [];
    });
    const agreed = answers.length === choices.length ? agreedOn(answers) : undefined;
    return agreed ? choices.filter(({ candidate }) => candidate.id === agreed.kind) : choices;
  };

  /** What a question would still ask without the words it has no place for; where that is nothing, the way to leave them out. */
  const withoutMissed = (
    question: AnyQuestion,
    { draft, asks }: Taken,
    edition: string,
    needs: readonly Need[],
    meanings: readonly Option[] = [],
  ): { needs: readonly Need[]; choices?: readonly Option[] } => {
    const offered = meanings.length > 0 ? { choices: meanings } : {};
    const parsed = question.input.safeParse(draft);
    if (!parsed.success) return { needs, ...offered };
    const rest = asks.length > 0 ? undefined : settle(draft, [], () => work(question, draft, editionOf(edition), {}));
    if (rest?.outcome === "answered") return { needs, choices: [...meanings, leaveOut(question.write(parsed.data))] };
    return { needs: [...needs, ...(rest?.outcome === "unclear" ? rest.needs : asks)], ...offered };
  };

  /** Facts of which nobody knows yet what is asked are kept: the next text may tell. */
  const unasked = ({ facts, free }: Facts, thread: Thread | undefined, edition = defaultEdition): Outcome => {
    const asks = nothing([whatIsAsked(questions)]);
    if (thread) return { ...asks, thread };
    if (facts.every(({ slots }) => Object.keys(slots).length === 0)) return asks;
    const topic: Topic = { kind: "", edition, facts: withoutPlaces({ facts, free }) };
    return { ...asks, thread: { format: "thread/1", topics: [topic] } satisfies Thread };
  };

  /**
   * Two questions in one text: the second is asked after the first, of whose facts it may speak.
   * @param apart whether only sentences are parted, each of which must be a question without the other
   */
  const inTwo = (asked: string, text: ReadText, edition: string | undefined, apart: boolean): Outcome | undefined => {
    const ends = text.pieces.flatMap(({ is, from }, i) =>
      is === "border" || (!apart && (is === "comma" || (is === "common" && AND.has(text.tokens[from]!.text))))
        ? [i]
        : []
    );
    const isSaid = (from: number, to: number) => text.pieces.slice(from, to).some(({ is }) => is === "fact");
    for (const end of ends.slice(0, MOST_CUTS)) {
      if (!isSaid(0, end) || !isSaid(end, text.pieces.length)) continue;
      const cut = text.tokens[text.pieces[end]!.to - 1]!.end;
      const [front, back] = [readText(asked.slice(0, cut)), readText(asked.slice(cut))];
      if (!asksSomething(front) || !asksSomething(back)) continue;
      // A question ends where it is asked: what goes on behind a list goes on with the list.
      const begin = text.pieces.slice(0, end).findLastIndex(({ is }) => is === "border") + 1;
      const last = asked.slice(text.tokens[text.pieces[begin]!.from]!.at, cut);
      const mark = text.tokens[text.pieces[end]!.from]!.text;
      const isAsked = mark === "?";
      // The items of a list go on with it.
      if (apart && !isAsked && mark !== "." && mark !== "!") continue;
      // What is told behind a question without another one belongs to it.
      if (apart && !back.tokens.some(({ text }) => text === "?")) continue;
      if (apart ? !(isAsked || namesGoalWord(readText(last))) : !namesGoalWord(back)) continue;
      const one = read(front);
      // `gec for a 400 A service, and how many amps …`: a goal that is named by a thing must be plain.
      if (!isPlaced(one) || !apart && !namesGoalWord(front) && one.choices.length > 1) continue;
      // `a feeder for 90 A? and the ground for 200 A?`: each with its figure, and asked in so many words.
      const isEach = apart && isAsked && [front, back].every(hasFigure) && namesGoalWord(back);
      if (apart) {
        const two = read(back);
        const stands = isPlaced(two) && two.choices.length === 1 &&
          (isEach || isWhole(back, back.facts) && isWhole(front, front.facts));
        if (!stands || two.choices[0]!.candidate.id === one.choices[0]!.candidate.id && !hasHead(back)) continue;
      }
      const outcome = answer(one, undefined, edition);
      if (outcome.outcome !== "answered") continue;
      const own = isEach ? answer(read(back), outcome.thread as Thread, edition) : undefined;
      const rest = own?.outcome === "answered" ? own : turn(asked.slice(cut), outcome.thread as Thread, edition);
      if (rest.outcome === "unclear") continue;
      return { ...outcome, more: [rest], ...(rest.thread !== undefined && { thread: rest.thread }) };
    }
    return undefined;
  };

  const first = (asked: string, edition: string | undefined): Outcome => {
    const text = readText(asked);
    const apart = inTwo(asked, text, edition, true);
    if (apart) return apart;
    const other = isDeclined(text.facts);
    if (other) return decline(other);
    const told = read(text);
    // `motor 1 is a 10 hp`: the number calls it, and counts nothing.
    const untold = isPlaced(told) ? undefined : withoutTag(asked);
    const called = untold && read(untold);
    const whole = called && isPlaced(called) ? called : told;
    const [only, ...more] = whole.choices;
    if (only && more.length === 0 && isPlaced(whole) && only.taken.asks.length === 0) {
      return answer(whole, undefined, edition);
    }
    return inTwo(asked, text, edition, false) ?? answer(whole, undefined, edition);
  };

  /** The reply to words that were asked about: they are left out, or told what they are. */
  const ofPending = (
    asked: string,
    text: ReadText,
    thread: Thread,
    edition: string | undefined,
  ): Outcome | undefined => {
    const [topic, ...others] = thread.topics;
    if (!topic) return undefined;
    const { left: _, needs: __, choices: ___, pending, ...settled } = topic;
    const without = { ...thread, topics: [settled, ...others] };
    if (leavesOut(asked, topic)) return answer(change(readText(""), settled), without, edition);
    const told = explained(text, topic).map((both) => pending?.opened ? read(both) : change(both, settled)).find(
      isPlaced,
    );
    if (!told) return undefined;
    return pending?.opened
      ? inPlaceOf(topic, answer(told, undefined, topic.edition), thread)
      : answer(told, without, edition);
  };

  /** `other unit's tag: MCA 17`: another topic like the one under way, by its own figures or with what was told of that. */
  const another = (
    text: ReadText | undefined,
    thread: Thread,
    edition: string | undefined,
    tag?: string,
  ): Outcome | undefined => {
    const [topic] = thread.topics;
    if (!topic || !text) return undefined;
    const alone = read(text);
    const own = isPlaced(alone) && alone.choices.length === 1 ? answer({ ...alone, tag }, thread, edition) : undefined;
    if (own?.outcome === "answered") return own;
    const like = change(text, topic);
    return isPlaced(like) ? answer({ ...like, tag, isAnother: true }, thread, edition) : own;
  };

  /** `copper vs aluminum in 2/0?`: what is known, in each of the two. */
  const compared = (text: ReadText, thread: Thread, edition: string | undefined): Outcome | undefined => {
    const [topic] = thread.topics;
    const metals = topic ? metalsCompared(text) : [];
    const pieces = text.pieces.flatMap(({ senses }, i) =>
      senses.some((sense) => sense.is === "term" && sense.sort === "metal") ? [i] : []
    );
    const outcomes = metals.map((metal) => {
      const each = change(ofMetal(text, metal), topic!, pieces);
      return isPlaced(each) && each.choices[0]!.candidate.id === topic!.kind
        ? answer(each, thread, edition)
        : undefined;
    });
    const [first, second] = outcomes;
    return first?.outcome === "answered" && second?.outcome === "answered" ? { ...first, more: [second] } : undefined;
  };

  const turn = (asked: string, given: Thread, edition: string | undefined): Outcome => {
    const text = readText(asked);
    const reply = ofPending(asked, text, given, edition);
    if (reply) return reply;
    const thread = retracts(text) || tellsOnly(text) ? asBefore(given) : given;
    const [topic] = thread.topics;
    if (thread !== given && topic && saysNothing(text)) return answer(change(text, topic), thread, edition);
    if (startsOver(text)) {
      return hasFigure(text)
        ? first(asked, edition)
        : { ...nothing([whatIsAsked(questions)]), thread: { format: "thread/1", topics: [] } };
    }
    if (!topic) return first(asked, edition);
    if ((asksWhy(text) || asksSection(text)) && topic.figures && asksOfAnswer(text)) {
      return why(thread, asksSection(text), numbersIn(text), edition);
    }
    const one = oneMeant(asked, thread.topics);
    if (one) return answer(change(one.text, one.topic), thread, edition);
    const picked = pickedOf(text, topic);
    if (picked) return inPlaceOf(topic, first(picked.question, topic.edition), thread);
    const tagged = taggedMeant(asked, thread.topics);
    if (tagged?.topic) return answer(change(tagged.text, tagged.topic), thread, edition);
    const like = another(tagged?.text ?? anotherMeant(asked, topic), thread, edition, tagged?.tag);
    if (like) return like;
    const meant = topicMeant(text, thread.topics);
    if (meant) {
      const back = change({ ...text, facts: referring(text.facts, thread.topics, meant) }, meant);
      if (isPlaced(back)) return answer(back, thread, edition);
    }
    if (saysNothing(text) && !tellsUse(text, topic)) {
      return { ...nothing([nothingSaid()]), thread };
    }
    const both = compared(text, thread, edition);
    if (both) return both;
    if (tellsNewLoad(text, topic)) {
      const alone = read(text);
      const own = isPlaced(alone) && alone.choices.length === 1 ? answer(alone, thread, edition) : undefined;
      if (own?.outcome === "answered") return own;
    }
    const single = aloneOf(text, topic);
    if (single) {
      const one = read({ ...text, facts: single });
      if (isPlaced(one)) return answer(one, thread, edition);
    }
    const total = ofTotal(text, topic);
    if (total) {
      const converted = read({ ...text, facts: total });
      if (isPlaced(converted)) return answer(converted, thread, edition);
    }
    const demanded = alsoDemanded(text, topic);
    if (demanded) {
      const also = read({ ...text, facts: demanded });
      if (isPlaced(also) && DEMANDS.has(also.choices[0]!.candidate.id)) return answer(also, thread, edition);
    }
    const changed = change(text, topic);
    if (changed.isIdle && drops(text)) return { ...nothing([nothingChanged()]), thread };
    // What is decided after a question aside, or has no place in it, is about the job that the aside came from.
    if (
      topic.aside && thread.topics[1] &&
      (decides(text) || !isPlaced(changed) || changed.choices[0]!.candidate.id !== topic.kind)
    ) {
      const job = change(text, thread.topics[1]);
      if (isPlaced(job) && job.choices[0]!.candidate.id === thread.topics[1].kind) return answer(job, thread, edition);
    }
    const known = knowingOf(text, thread.topics);
    if (known && tellsChange(text) && !namesGoalWord(text)) {
      const back = change(text, known);
      if (isPlaced(back) && back.choices[0]!.candidate.id === known.kind) return answer(back, thread, edition);
    }
    if (topic.needs?.length && isPlaced(changed)) return answer(changed, thread, edition);
    const facts = referring(text.facts, thread.topics);
    const alone = read({ ...text, facts });
    // A text that asks nothing goes on about the topic, where it finds a place there.
    // What is only converted is no load of the question before it, nor of the one that comes next.
    const isBesideConversion = hasFigure(text) && asksSomething(text) && isPlaced(alone) &&
      [topic.kind, alone.choices[0]!.candidate.id].filter((kind) => kind === "conversion").length === 1;
    // Another device's ground is no ground of the service that was asked about.
    const isOtherGround = topic.kind === "grounding" && isPlaced(alone) && tellsGround(text) &&
      !knowsAll(text, topic);
    const isNew = isBesideConversion || isOtherGround || isPlaced(alone) && tellsOther(text) ||
      isPlaced(alone) && !tellsChange(text) && alone.choices.length === 1 && isWhole(text, facts) &&
        (asksSomething(text) || !isPlaced(changed));
    const other = isDeclined(facts);
    if (other && !(isPlaced(changed) && changed.choices[0]!.candidate.id === topic.kind)) {
      return { ...decline(other), thread };
    }
    if (isNew) return answer(alone, thread, edition);
    if (isPlaced(changed)) return answer(changed, thread, edition);
    if (isPlaced(alone)) return answer(alone, thread, edition);
    if (changed.isIdle && !changed.choices.some((each) => unplaced(each) > 0)) {
      return { ...nothing([nothingChanged()]), thread };
    }
    return answer(changed, thread, edition);
  };

  /** The thread as it was before its last change. */
  const asBefore = (thread: Thread): Thread => {
    const [topic, ...others] = thread.topics;
    if (!topic?.before) return thread;
    const { before, last: _, needs: __, ...rest } = topic;
    return { ...thread, topics: [{ ...rest, facts: before }, ...others] };
  };

  const why = (thread: Thread, section: boolean, asked: readonly number[], edition: string | undefined): Outcome => {
    const [topic] = thread.topics;
    const text = { ...readText(""), facts: topic!.facts };
    const question = questionOf(topic!.kind);
    const taken = question?.takes && take(topic!.facts, question.takes);
    if (!question || !taken) return { ...nothing([whatIsAsked(questions)]), thread };
    const again = answer(
      {
        text,
        choices: choose(text, candidates.filter(({ id }) => id === topic!.kind)),
        topic: topic!,
        ...(topic!.last && { last: topic!.last }),
        ...(topic!.past && { past: topic!.past }),
      },
      thread,
      edition,
    );
    return again.outcome === "answered"
      ? { ...again, answer: { ...again.answer, explanation: explain(again.answer, section, asked) } }
      : again;
  };

  return (asked, { edition, after } = {}) => {
    if (asked.length > longest) {
      return nothing([{
        field: "question",
        ask: `That is longer than ${longest} characters: what matters in it?`,
        example: "",
      }]);
    }
    if (after === undefined) return first(asked, edition);
    const thread = isThread(after) ? after : threadOf(after, questionOf(after.kind), edition ?? defaultEdition);
    return thread ? turn(asked, thread, edition) : first(asked, edition);
  };
}

/** The number of a topic that is opened next. */
const bornNext = (thread: Thread | undefined): number =>
  1 + Math.max(0, ...(thread?.topics ?? []).map(({ born = 0 }) => born));
/** A choice that was picked stands for the topic that it was offered in. */
function inPlaceOf({ born }: Topic, outcome: Outcome, { format, topics: [, ...others] }: Thread): Outcome {
  const [picked, ...more] = (outcome.thread as Thread | undefined)?.topics ?? [];
  if (!picked) return outcome;
  const topics = [{ ...picked, ...(born !== undefined && { born }) }, ...more, ...others].slice(0, MOST_TOPICS);
  return { ...outcome, thread: { format, topics } satisfies Thread };
}

/** Whether a text names a thing of its own and a figure or a question for it, so that it can stand alone. */
const isWhole = (text: ReadText, { facts }: Facts): boolean =>
  facts.some(({ family, id, pieces }) =>
      pieces.length > 0 && id !== undefined && ["load", "transformer", "space"].includes(family)
    ) &&
    text.pieces.filter(({ is }) => is === "fact").length >= 2 ||
  // `feeder for a 60 A panel?`
  facts.some(({ id }) => id === "feeder") && facts.some(({ family, slots }) => family === "device" && slots.rating) &&
    !text.facts.free.some(({ key }) => key === "goal:check" || key.startsWith("change:")) ||
  facts.filter(({ slots }) => Object.keys(slots).length > 0).length >= 2;

/** Whether a text names a load or a source of its own. */
const hasHead = ({ facts }: ReadText): boolean =>
  facts.facts.some(({ family, id }) => id !== undefined && ["load", "transformer"].includes(family));

/** Where a text may be two, and how many such places are tried. */
const AND = new Set(["and", "also", "plus", "then"]);

const MOST_CUTS = 16;
