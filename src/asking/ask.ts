/**
 * A text's way to its outcome: facts, the question they are of, the account of every word, the answer; and in a conversation,
 * what the text does to what was said before.
 */
import { inFull } from "../conversation/in-full.ts";
import { handed, taken, type Thread, type Topic } from "../conversation/thread.ts";
import {
  anotherMeant,
  knowingOf,
  knowsAll,
  oneMeant,
  taggedMeant,
  topicMeant,
  withoutTag,
} from "../conversation/topics.ts";
import {
  aloneOf,
  alsoDemanded,
  asksCircuit,
  asksLargest,
  asksOfAnswer,
  asksSection,
  asksSomething,
  asksWhy,
  correctsJob,
  decides,
  drops,
  hasFigure,
  itAdded,
  namesGoalWord,
  numbersIn,
  ofTotal,
  oneOfSeveral,
  pointsBack,
  putsBack,
  referring,
  retracts,
  saysNothing,
  startsOver,
  tellsChange,
  tellsGround,
  tellsNewLoad,
  tellsOnly,
  tellsOther,
  tellsOutlets,
  tellsUse,
  variesKnown,
} from "../conversation/turn.ts";
import { addsToo } from "../conversation/merge/state.ts";
import type { Need } from "../core/outcome.ts";
import type { Outcome } from "../outcomes.ts";
import type { Facts } from "../reading/facts.ts";
import { is } from "../reading/manner.ts";
import { type ReadText, readText } from "../reading/read.ts";
import { unplaced } from "../reading/which.ts";
import { answer, inPlaceOf } from "./answer.ts";
import { isThread, pickedOf, threadOf } from "./carried.ts";
import { type Ask, change, type Desk, isDeclined, isPlaced, questionOf, type Read, read } from "./desk.ts";
import {
  bothOfWhat,
  decline,
  nothing,
  nothingChanged,
  nothingSaid,
  whatIsAsked,
  whichOfThem,
  whichUnit,
} from "./needs.ts";
import { pointersOf } from "./pointed.ts";
import { another, asBefore, compared, ofFigures, ofPending, orUntold, why } from "./replies.ts";

/** @param desk what the questions are, and how a request of theirs is worked out */
export function makeAsk(desk: Omit<Desk, "candidates" | "pointers">): Ask {
  const full: Desk = {
    ...desk,
    candidates: desk.questions.map((question) => ({ ...question, question })),
    pointers: pointersOf(desk.questions),
  };
  const { longest, defaultEdition } = desk;
  return (asked, { edition, after } = {}) => {
    if (asked.length > longest) {
      return nothing([{
        field: "question",
        ask: `That is longer than ${longest} characters: what matters in it?`,
        example: "",
      }]);
    }
    const thread = after &&
      (isThread(after)
        ? taken(after, (kind) => questionOf(full, kind)?.manner)
        : threadOf(after, questionOf(full, after.kind), edition ?? defaultEdition));
    return handedOn(thread ? turn(full, asked, thread, edition) : first(full, asked, edition));
  };
}

/** An outcome with its thread, and those of what came more, as they are handed back and forth. */
const handedOn = (outcome: Outcome): Outcome => ({
  ...outcome,
  ...(outcome.more && { more: outcome.more.map(handedOn) }),
  ...(outcome.thread !== undefined && { thread: handed(outcome.thread as Thread) }),
});

export function first(desk: Desk, asked: string, edition: string | undefined): Outcome {
  const text = readText(asked);
  const apart = inTwo(desk, asked, text, edition, true);
  if (apart) return apart;
  const other = isDeclined(desk, text.facts);
  if (other) return decline(other);
  const told = read(desk, text);
  // `motor 1 is a 10 hp`: the number calls it, and counts nothing.
  const untold = isPlaced(told) ? undefined : withoutTag(asked);
  const called = untold && read(desk, untold);
  const whole = called && isPlaced(called) ? called : told;
  const [only, ...more] = whole.choices;
  if (only && more.length === 0 && isPlaced(whole) && only.taken.asks.length === 0) {
    return answer(desk, whole, undefined, edition);
  }
  return inTwo(desk, asked, text, edition, false) ?? answer(desk, whole, undefined, edition);
}

/**
 * Two questions in one text: the second is asked after the first, of whose facts it may speak.
 * @param apart whether only sentences are parted, each of which must be a question without the other
 */
function inTwo(
  desk: Desk,
  asked: string,
  text: ReadText,
  edition: string | undefined,
  apart: boolean,
): Outcome | undefined {
  const ends = text.pieces.flatMap(({ is, from }, i) =>
    is === "border" || (!apart && (is === "comma" || (is === "common" && AND.has(text.tokens[from]!.text)))) ? [i] : []
  );
  const isSaid = (from: number, to: number) => text.pieces.slice(from, to).some(({ is }) => is === "fact");
  let [isWholeOne, readAgain]: [boolean | undefined, number] = [undefined, 0];
  const isOne = (): boolean => isWholeOne ??= isPlaced(read(desk, text));
  for (const end of ends.slice(0, MOST_CUTS)) {
    if (!isSaid(0, end) || !isSaid(end, text.pieces.length)) continue;
    const cut = text.tokens[text.pieces[end]!.to - 1]!.end;
    const mark = text.tokens[text.pieces[end]!.from]!.text;
    const isAsked = mark === "?";
    // The items of a list go on with it.
    if (apart && !isAsked && mark !== "." && mark !== "!") continue;
    // What is told behind a question without another one belongs to it.
    if (apart && !text.tokens.some(({ text, at }) => text === "?" && at >= cut)) continue;
    // What ends in a full stop is told: where all of it is one question, it is not parted.
    if (apart && !isAsked && isOne()) continue;
    // `…? .`: what the mark before has parted.
    if (text.pieces[end]!.is === "border" && text.pieces[end - 1]!.is === "border") continue;
    // Each part is read for itself, which takes as long as the whole: only where nothing said so far forbids it.
    if ((readAgain += asked.length) > MOST_READ_AGAIN) break;
    const front = readText(asked.slice(0, cut));
    if (!asksSomething(front)) continue;
    const back = readText(asked.slice(cut));
    if (!asksSomething(back)) continue;
    // A question ends where it is asked: what goes on behind a list goes on with the list.
    const begin = text.pieces.slice(0, end).findLastIndex(({ is }) => is === "border") + 1;
    const last = asked.slice(text.tokens[text.pieces[begin]!.from]!.at, cut);
    // `a 15 hp, one 7-1/2. What conductor`: what a comma parts must itself ask, before its sentence ends.
    if (text.pieces[end]!.is !== "border") {
      const close = text.pieces.findIndex(({ is }, i) => i > end && is === "border");
      const clause = close < 0 ? back : readText(asked.slice(cut, text.tokens[text.pieces[close]!.to - 1]!.end));
      if (!namesGoalWord(clause)) continue;
    }
    if (apart ? !(isAsked || namesGoalWord(readText(last))) : !namesGoalWord(back)) continue;
    const one = read(desk, front);
    // `gec for a 400 A service, and how many amps …`: a goal that is named by a thing must be plain.
    if (!isPlaced(one) || !apart && !namesGoalWord(front) && one.choices.length > 1) continue;
    // `a feeder for 90 A? and the ground for 200 A?`: each with its figure, and asked in so many words.
    const isEach = apart && isAsked && [front, back].every(hasFigure) && namesGoalWord(back);
    if (apart) {
      const two = read(desk, back);
      const stands = isPlaced(two) && two.choices.length === 1 &&
        (isEach || isWhole(back, back.facts) && isWhole(front, front.facts));
      if (!stands || two.choices[0]!.candidate.id === one.choices[0]!.candidate.id && !hasHead(back)) continue;
    }
    const outcome = answer(desk, one, undefined, edition);
    if (outcome.outcome !== "answered") continue;
    const own = isEach ? answer(desk, read(desk, back), outcome.thread as Thread, edition) : undefined;
    const rest = own?.outcome === "answered" ? own : turn(desk, asked.slice(cut), outcome.thread as Thread, edition);
    if (rest.outcome === "unclear") continue;
    return { ...outcome, more: [rest], ...(rest.thread !== undefined && { thread: rest.thread }) };
  }
  return undefined;
}

function turn(desk: Desk, asked: string, given: Thread, edition: string | undefined): Outcome {
  const text = inFull(asked, given.topics[0]);
  return orUntold(desk, text, given, turnOf(desk, asked, text, given, edition));
}

function turnOf(desk: Desk, asked: string, text: ReadText, given: Thread, edition: string | undefined): Outcome {
  const reply = ofPending(desk, asked, text, given, edition);
  if (reply) return reply;
  const thread = retracts(text, given.topics[0]) || tellsOnly(text) ? asBefore(given) : given;
  const [topic] = thread.topics;
  if (thread !== given && topic && saysNothing(text)) return answer(desk, change(desk, text, topic), thread, edition);
  if (startsOver(text)) {
    return hasFigure(text)
      ? first(desk, asked, edition)
      : { ...nothing([whatIsAsked(desk.questions)]), thread: { format: "thread/1", topics: [] } };
  }
  if (!topic) return first(desk, asked, edition);
  if ((asksWhy(text) || asksSection(text)) && topic.figures && asksOfAnswer(text)) {
    return why(desk, thread, asksSection(text), numbersIn(text), edition);
  }
  const figures = ofFigures(desk, text, thread, edition);
  if (figures) return figures;
  const added = itAdded(text, topic);
  if (added) {
    const fits = read(desk, readText(added));
    if (isPlaced(fits) && fits.choices[0]!.candidate.id === "added-load") return answer(desk, fits, thread, edition);
  }
  const one = oneMeant(asked, thread.topics);
  if (one) return answer(desk, change(desk, one.text, one.topic), thread, edition);
  const picked = pickedOf(text, topic);
  if (picked) return inPlaceOf(topic, first(desk, picked.question, topic.edition), thread);
  const tagged = taggedMeant(asked, thread.topics);
  if (tagged?.topic) return answer(desk, change(desk, tagged.text, tagged.topic), thread, edition);
  const like = another(desk, tagged?.text ?? anotherMeant(asked, topic), thread, edition, tagged?.tag);
  if (like) return like;
  const meant = topicMeant(text, thread.topics);
  if (meant) {
    const back = change(desk, { ...text, facts: referring(text.facts, thread.topics, meant) }, meant);
    if (isPlaced(back)) return answer(desk, back, thread, edition);
  }
  if (saysNothing(text) && !tellsUse(text, topic) && !tellsOutlets(text, topic)) {
    return { ...nothing([nothingSaid()]), thread };
  }
  const both = compared(desk, text, thread, edition);
  if (both) return both;
  if (tellsNewLoad(text, topic)) {
    const alone = read(desk, text);
    const own = isPlaced(alone) && alone.choices.length === 1 ? answer(desk, alone, thread, edition) : undefined;
    if (own?.outcome === "answered") return own;
  }
  const single = aloneOf(text, topic);
  if (single) {
    const one = read(desk, { ...text, facts: single });
    if (isPlaced(one)) return answer(desk, one, thread, edition);
  }
  const total = ofTotal(text, topic);
  if (total) {
    const converted = read(desk, { ...text, facts: total });
    if (isPlaced(converted)) return answer(desk, converted, thread, edition);
  }
  const demanded = alsoDemanded(text, topic);
  if (demanded) {
    const also = read(desk, { ...text, facts: demanded });
    if (isPlaced(also) && is(also.choices[0]!.candidate.question, "demand")) return answer(desk, also, thread, edition);
  }
  const changed = change(desk, text, topic);
  const unsaid = unsaidOf(text, topic, changed);
  if (unsaid) return { ...nothing([unsaid]), thread };
  if (changed.isIdle && (drops(text) || putsBack(text))) return { ...nothing([nothingChanged()]), thread };
  // What is decided after a question aside, or has no place in it, is about the job that the aside came from.
  if (
    topic.aside && thread.topics[1] &&
    (decides(text) || correctsJob(text, thread.topics[1]) || !isPlaced(changed) ||
      changed.choices[0]!.candidate.id !== topic.kind)
  ) {
    const job = change(desk, text, thread.topics[1]);
    if (isPlaced(job) && job.choices[0]!.candidate.id === thread.topics[1].kind) {
      return answer(desk, job, thread, edition);
    }
  }
  const known = knowingOf(text, thread.topics);
  if (known && tellsChange(text) && !namesGoalWord(text)) {
    const back = change(desk, text, known);
    if (isPlaced(back) && back.choices[0]!.candidate.id === known.kind) return answer(desk, back, thread, edition);
  }
  if (topic.needs?.length && isPlaced(changed)) return answer(desk, changed, thread, edition);
  const facts = referring(text.facts, thread.topics);
  const alone = read(desk, { ...text, facts });
  // A text that asks nothing goes on about the topic, where it finds a place there.
  // What is only converted is no load of the question before it, nor of the one that comes next.
  const isBesideConversion = hasFigure(text) && asksSomething(text) && isPlaced(alone) &&
    [topic.kind, alone.choices[0]!.candidate.id].filter((kind) => kind === "conversion").length === 1;
  // Another device's ground is no ground of the service that was asked about.
  const isOtherGround = topic.kind === "grounding" && isPlaced(alone) && tellsGround(text) &&
    !knowsAll(text, topic);
  // `and a 9 kW sauna too?`: one more of what is listed.
  const isSameKind = isPlaced(changed) && changed.choices[0]!.candidate.id === topic.kind;
  const isMore = isSameKind &&
    (is(topic, "lists") && addsToo(text) || variesKnown(text, topic) || asksLargest(text, topic));
  if (isMore) return answer(desk, changed, thread, edition);
  // Another kind of question that is whole without what was said before owes it nothing, but where it points there.
  const isApart = isPlaced(alone) && alone.choices.length === 1 && !tellsChange(text) && asksSomething(text) &&
    alone.choices[0]!.candidate.id !== topic.kind && isComplete(desk, alone) && !pointsBack(text) &&
    hasFigure(text) && !isSameKind;
  // `wire and breaker for that ac? tag says …`, after a house: of the one load, and no load of the house told anew.
  const isOfLoad = is(topic, "lists") && asksCircuit(text) && isPlaced(alone) && alone.choices.length === 1 &&
    is(alone.choices[0]!.candidate.question, "one circuit") && isComplete(desk, alone);
  if (isOfLoad) return answer(desk, alone, thread, edition);
  // `12/2 on a 20 already, reuse?`, of one load: what is there for it, and no circuit of its own.
  const isOfOneLoad = isSameKind && is(topic, "one load") && !hasHead(text);
  // What would be asked about, and is whole with what was said before, goes on from there.
  const isLeftOpen = isPlaced(changed) && !isComplete(desk, alone) && isComplete(desk, changed);
  const isNew = isBesideConversion || isApart || isOtherGround || isPlaced(alone) && tellsOther(text) ||
    isPlaced(alone) && !tellsChange(text) && alone.choices.length === 1 && isWhole(text, facts) && !isOfOneLoad &&
      !isLeftOpen && (asksSomething(text) || !isPlaced(changed));
  // `a sub fed off that main, do i bond the neutral in it`: another question that is whole, where the topic has no answer.
  const isInstead = !isSameKind && isPlaced(alone) && alone.choices.length === 1 && namesGoalWord(text) &&
    isComplete(desk, alone) && !isComplete(desk, changed);
  const other = isDeclined(desk, facts);
  if (other && !isSameKind) {
    return { ...decline(other), thread };
  }
  if (isNew || isInstead) return answer(desk, alone, thread, edition);
  if (isPlaced(changed)) return answer(desk, changed, thread, edition);
  // `3 of the ranges are 16`, after the dryers: what only an earlier topic knows.
  const there = known && change(desk, text, known);
  if (there && isPlaced(there) && there.choices[0]!.candidate.id === known.kind) {
    return answer(desk, there, thread, edition);
  }
  // What only names a thing that is known, and says nothing of it that is read, tells nothing of another job either.
  const isMute = changed.isIdle && !asksSomething(text) && !hasFigure(text);
  if (isPlaced(alone) && !isMute) return answer(desk, alone, thread, edition);
  if (changed.isIdle && !changed.choices.some((each) => unplaced(each) > 0)) {
    return { ...nothing([nothingChanged()]), thread };
  }
  return answer(desk, changed, thread, edition);
}

/** Whether nothing would be asked back. */
function isComplete(desk: Desk, { choices: [choice] }: Read): boolean {
  if (!choice || choice.taken.asks.length > 0) return false;
  const { candidate: { question }, taken: { draft } } = choice;
  return question.input.safeParse(draft).success &&
    desk.settle(draft, [], () => desk.work(question, draft, desk.editionOf(desk.defaultEdition), {})).outcome ===
      "answered";
}

/** What a text speaks of and nobody told: the other of two, or which of several. */
function unsaidOf(text: ReadText, topic: Topic, { choices: [choice] }: Read): Need | undefined {
  const words = text.tokens.map((token) => token.text);
  const motors = choice?.candidate.id === "motor-feeder" ? choice.taken.draft.motors as Motor[] | undefined : undefined;
  if (words.includes("both") && motors?.length === 1 && (motors[0]!.count ?? 1) === 1) {
    const { value, unit } = motors[0]!.power ?? { value: "its power untold", unit: "" };
    return bothOfWhat(`${value} ${unit}`.trim());
  }
  const isOne = words.some((word, i) =>
    word === "one" && ONE_OF.has(words[i + 1] ?? "") || LYING.has(word) && HOME.has(words[i + 1] ?? "")
  );
  const isAlike = topic.kind === "multifamily-load" &&
    topic.facts.facts.filter(({ family, id }) => family === "building" && id !== "dwelling").length <= 2;
  if (isOne && isAlike && (hasAnyFigure(words) || text.facts.facts.some(({ family }) => family === "load"))) {
    return whichUnit();
  }
  const several = oneOfSeveral(text, topic);
  return several && whichOfThem(several);
}
type Motor = { count?: number; power?: { value: number | string; unit: string } };
const HOME = new Set(["side", "unit", "apartment", "half", "one", "floor", "flat"]);
const ONE_OF = new Set([...HOME, "of", "gets", "has", "is", "will", "needs", "got"]);
/** By where it lies one of several is named. */
const LYING = new Set([
  "upstairs",
  "downstairs",
  "top",
  "bottom",
  "left",
  "right",
  "front",
  "back",
  "rear",
  "upper",
  "lower",
]);
const hasAnyFigure = (words: readonly string[]): boolean => words.some((word) => /^\d/.test(word));

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
/** Characters read anew in looking for a second question: a text of a thousand is cut wherever it may be, a longer one where it is first. */
const MOST_READ_AGAIN = 16_000;
