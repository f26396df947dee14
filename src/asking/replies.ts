/** Texts that go on from the last outcome: replies, another one like it, comparisons, the way back, why. */
import { explained, leavesOut } from "../conversation/pending.ts";
import type { Thread, Topic } from "../conversation/thread.ts";
import { metalsCompared, ofMetal } from "../conversation/turn.ts";
import type { Outcome } from "../outcomes.ts";
import { type ReadText, readText } from "../reading/read.ts";
import { take } from "../reading/take.ts";
import { choose } from "../reading/which.ts";
import { answer, inPlaceOf } from "./answer.ts";
import { change, type Desk, isPlaced, questionOf, read } from "./desk.ts";
import { explain } from "./explain.ts";
import { nothing, untold, whatIsAsked } from "./needs.ts";
import {
  accountOfPointed,
  isRaceway,
  passesBy,
  type Pointed,
  pointedAt,
  serviceInRaceway,
  topicPointedAt,
  withPointed,
} from "./pointed.ts";

/** The reply to words that were asked about: they are left out, or told what they are. */
export function ofPending(
  desk: Desk,
  asked: string,
  text: ReadText,
  thread: Thread,
  edition: string | undefined,
): Outcome | undefined {
  const [topic, ...others] = thread.topics;
  if (!topic) return undefined;
  const { left: _, needs: __, choices: ___, pending, ...settled } = topic;
  const without = { ...thread, topics: [settled, ...others] };
  if (leavesOut(asked, topic)) return answer(desk, change(desk, readText(""), settled), without, edition);
  const told = explained(text, topic).map((both) => pending?.opened ? read(desk, both) : change(desk, both, settled))
    .find(
      isPlaced,
    );
  if (!told) return undefined;
  return pending?.opened
    ? inPlaceOf(topic, answer(desk, told, undefined, topic.edition), thread)
    : answer(desk, told, without, edition);
}

/** `other unit's tag: MCA 17`: another topic like the one under way, by its own figures or with what was told of that. */
export function another(
  desk: Desk,
  text: ReadText | undefined,
  thread: Thread,
  edition: string | undefined,
  tag?: string,
): Outcome | undefined {
  const [topic] = thread.topics;
  if (!topic || !text) return undefined;
  const alone = read(desk, text);
  const own = isPlaced(alone) && alone.choices.length === 1
    ? answer(desk, { ...alone, tag }, thread, edition)
    : undefined;
  if (own?.outcome === "answered") return own;
  const like = change(desk, text, topic);
  return isPlaced(like) ? answer(desk, { ...like, tag, isAnother: true }, thread, edition) : own;
}

/** `copper vs aluminum in 2/0?`: what is known, in each of the two. */
export function compared(desk: Desk, text: ReadText, thread: Thread, edition: string | undefined): Outcome | undefined {
  const [topic] = thread.topics;
  const metals = topic ? metalsCompared(text) : [];
  const pieces = text.pieces.flatMap(({ senses }, i) =>
    senses.some((sense) => sense.is === "term" && sense.sort === "metal") ? [i] : []
  );
  const outcomes = metals.map((metal) => {
    const each = change(desk, ofMetal(text, metal), topic!, pieces);
    return isPlaced(each) && each.choices[0]!.candidate.id === topic!.kind
      ? answer(desk, each, thread, edition)
      : undefined;
  });
  const [first, second] = outcomes;
  return first?.outcome === "answered" && second?.outcome === "answered" ? { ...first, more: [second] } : undefined;
}

/** The thread as it was before its last change. */
export function asBefore(thread: Thread): Thread {
  const [topic, ...others] = thread.topics;
  if (!topic?.before) return thread;
  const { before, last: _, needs: __, ...rest } = topic;
  return { ...thread, topics: [{ ...rest, facts: before }, ...others] };
}

/** The last answer of a topic once more. */
function again(desk: Desk, topic: Topic, thread: Thread, edition: string | undefined): Outcome {
  const text = { ...readText(""), facts: topic.facts };
  const { last, past, gone } = topic;
  return answer(
    desk,
    {
      text,
      choices: choose(text, desk.candidates.filter(({ id }) => id === topic.kind)),
      topic,
      ...(last && { last }),
      ...(past && { past }),
      ...(gone && { gone }),
    },
    thread,
    edition,
  );
}

export function why(
  desk: Desk,
  thread: Thread,
  section: boolean,
  asked: readonly number[],
  edition: string | undefined,
): Outcome {
  const [topic] = thread.topics;
  const question = questionOf(desk, topic!.kind);
  const taken = question?.takes && take(topic!.facts, question.takes);
  if (!question || !taken) return { ...nothing([whatIsAsked(desk.questions)]), thread };
  const said = again(desk, topic!, thread, edition);
  return said.outcome === "answered"
    ? { ...said, answer: { ...said.answer, explanation: explain(said.answer, section, asked) } }
    : said;
}

/** `neutral?`, `and the pipe size`: the figure of the last answer, or of the job that it stands beside. */
export function ofFigures(
  desk: Desk,
  text: ReadText,
  thread: Thread,
  edition: string | undefined,
): Outcome | undefined {
  const pointed = pointedAt(text, desk.pointers);
  // `and to the ground rods?`, of a conductor to an electrode: another one.
  const isElectrode = thread.topics[0]?.kind === "grounding" &&
    text.facts.free.some(({ key }) => key.startsWith("electrode:"));
  if (!pointed || isElectrode) return undefined;
  const topic = topicPointedAt(pointed, thread);
  if (!topic) return inRaceway(desk, text, pointed, thread, edition);
  const said = again(desk, topic, thread, edition);
  if (said.outcome !== "answered") return undefined;
  return { ...said, answer: { ...withPointed(said.answer, pointed), account: accountOfPointed(text) } };
}

/** `what size pipe`, of a circuit of which nobody said that it lies in one: as if it did. */
function inRaceway(
  desk: Desk,
  text: ReadText,
  pointed: readonly Pointed[],
  thread: Thread,
  edition: string | undefined,
): Outcome | undefined {
  const topic = thread.topics.find(({ aside }) => !aside);
  if (!topic?.figures || !pointed.every(isRaceway)) return undefined;
  const service = serviceInRaceway(topic);
  if (service !== undefined) {
    const filled = answer(desk, { ...read(desk, readText(service)), topic }, thread, edition);
    return filled.outcome === "answered" ? filled : undefined;
  }
  const laid = change(desk, readText("in conduit"), topic);
  if (!isPlaced(laid) || laid.choices[0]!.candidate.id !== topic.kind) return undefined;
  const said = answer(desk, laid, thread, edition);
  return said.outcome === "answered" && pointed.some(({ ids }) => ids.some((id) => said.answer.figures[id]))
    ? { ...said, answer: { ...said.answer, account: accountOfPointed(text) } }
    : undefined;
}

/** What only repeats the last answer, and tells nothing of what was pointed at, is no reply. */
export function orUntold(desk: Desk, text: ReadText, thread: Thread, outcome: Outcome): Outcome {
  const [topic] = thread.topics;
  const isReply = topic?.needs?.length || topic?.left?.length || topic?.pending;
  const pointed = topic && !isReply && outcome.outcome === "answered" ? pointedAt(text, desk.pointers) : undefined;
  if (!pointed || outcome.outcome !== "answered" || !passesBy(pointed, topic!, outcome)) return outcome;
  return { ...nothing([untold(pointed.map(({ said }) => said), outcome.answer.title)]), thread };
}
