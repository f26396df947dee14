/** Which topic of a conversation a text is about: one by its number, one that is gone back to, or another of the same sort. */
import { type ReadText, readText } from "../reading/read.ts";
import type { Facts } from "../reading/facts.ts";
import { is } from "../reading/manner.ts";
import { decides, has } from "./turn.ts";
import type { Topic } from "./thread.ts";

const ORDINALS: Readonly<Record<string, number>> = {
  first: 1,
  "1st": 1,
  second: 2,
  "2nd": 2,
  third: 3,
  "3rd": 3,
  fourth: 4,
};
const LATEST = ["other", "last", "previous", "earlier", "one before"];
const THING =
  "one|unit|job|question|circuit|run|motor|pump|heater|feeder|panel|transformer|condenser|machine|load|wire|service";
/** `the first one`, `that other unit`, `my second pump`. */
const ONE_OF = new RegExp(
  `(back (?:to|on|at) +)?(?:\\b(?:the|that|my|our) +|^\\W*(?:(?:ok|okay|and|now) +)*(?=\\w+ one\\b))(${
    [...Object.keys(ORDINALS), "original", ...LATEST].join("|")
  })(?: +(?:${THING})s?)?\\b`,
  "i",
);
/** `second one:`, `the other unit's tag:`, `another one`, said first in a text that tells what it is. */
const ANOTHER = new RegExp(
  `^\\W*(?:(?:ok|okay|and|now|then|so|also|thanks|got it|for) *,? +)*(?:(?:the|a|an|my|there's|theres) +)?(?:other|2nd|second|3rd|third|next|another|different) +(?:${THING})\\b(?:'?s\\b)?`,
  "i",
);
const inOrder = (topics: readonly Topic[]): Topic[] =>
  topics.filter(({ aside }) => !aside).toSorted((a, b) => (a.born ?? 0) - (b.born ?? 0));
/** The text without the words at a place, each other one where it was. */
const blanked = (asked: string, { index, 0: words }: RegExpExecArray): ReadText =>
  readText(asked.slice(0, index) + " ".repeat(words.length) + asked.slice(index + words.length));

/** `back to the first one`, `and the other unit in aluminum`: the topic, and what is said of it. */
export function oneMeant(asked: string, topics: readonly Topic[]): { topic: Topic; text: ReadText } | undefined {
  const [current] = topics;
  const found = ONE_OF.exec(asked);
  const all = inOrder(topics);
  if (!found || !current || all.length < 2) return undefined;
  const isBack = found[1] !== undefined;
  const loads = current.facts.facts.filter(({ family }) => family === "load");
  // Of several loads the first is one of them, and no topic.
  if (!isBack && (loads.length > 1 || is(current, "lists"))) return undefined;
  const alike = all.filter(({ kind }) => kind === current.kind);
  const among = alike.length > 1 ? alike : all;
  const word = found[2]!.toLowerCase();
  // One more than there are, or another where there is but one: it is a new one.
  if (!isBack && (LATEST.includes(word) ? alike.length < 2 && all.length > 2 : ORDINALS[word]! > alike.length)) {
    return undefined;
  }
  const topic = LATEST.includes(word)
    ? topics.find((each) => each !== current && among.includes(each))
    : among[(ORDINALS[word] ?? 1) - 1];
  return topic && { topic, text: blanked(asked, found) };
}

/** `other unit's tag: …`, `another one, …`: a further topic of the same sort, and what is told of it. */
export function anotherMeant(asked: string, topic: Topic): ReadText | undefined {
  const found = ANOTHER.exec(asked);
  if (!found || is(topic, "lists")) return undefined;
  const text = blanked(asked, found);
  return text.facts.facts.some(({ slots }) => Object.keys(slots).length > 0) ||
      text.facts.free.some(({ key }) => key === "number")
    ? text
    : undefined;
}

/** `unit 2: MCA 28`, `RTU-3`: one of several by its number. */
const TAG = new RegExp(
  `\\b(?:${THING}|rtu|job|house|building) *[-#]? *(\\d{1,2})(?![\\d./-])(?! *(?:a|amps?|kw|kva|hp|v|volts?|ft|units?|sets?)\\b)\\b`,
  "i",
);
/** `second: 60 A panel`. */
const LISTED = /(?:^|[.;\n])\s*(first|1st|second|2nd|third|3rd|fourth)(?: one)? *:/i;
/** `same for 2`, of those that are called by numbers. */
const FOR_TAG =
  /\b(?:for|on|number|no\.?|#) *(\d{1,2})(?![\d./-])(?! *(?:a|amps?|kw|kva|hp|v|volts?|ft|units?|sets?)\b)/i;
const listedTag = (asked: string): string | undefined => {
  const word = LISTED.exec(asked)?.[1]?.toLowerCase();
  return word === undefined ? undefined : String(ORDINALS[word] ?? "");
};
/** The number by which a text calls what it is about. */
export const tagOf = (asked: string): string | undefined => TAG.exec(asked)?.[1] ?? listedTag(asked);
/** A text without the number by which it calls what it is about. */
export function withoutTag(asked: string): ReadText | undefined {
  const found = TAG.exec(asked);
  return found ? { ...blanked(asked, found), asked } : undefined;
}
/** What a text with such a number is about: the topic that was opened with it, or none yet. */
export function taggedMeant(
  asked: string,
  topics: readonly Topic[],
): { topic?: Topic; tag: string; text: ReadText } | undefined {
  const [current] = topics;
  if (!current?.tag || is(current, "lists")) return undefined;
  const other = FOR_TAG.exec(asked);
  const isKnown = topics.some(({ tag }) => tag === other?.[1]);
  const found = TAG.exec(asked) ?? LISTED.exec(asked) ?? (isKnown ? other : null);
  const tag = found && (ORDINALS[found[1]!.toLowerCase()]?.toString() ?? found[1]!);
  if (!found || !tag) return undefined;
  const topic = topics.find((each) => each.tag === tag && !each.aside);
  return { tag, text: blanked(asked, found), ...(topic && { topic }) };
}

const figuresIn = ({ facts, free }: Facts): string[] =>
  [...facts.flatMap(({ slots }) => Object.values(slots).flat()), ...free.map(({ value }) => value)]
    .flatMap(({ sense }) => sense.is === "quantity" ? [`${sense.n} ${sense.unit}`] : []);
/** `back to the 200 amp job`: the one topic that has this figure, where the one under way does not. */
function byFigure(text: ReadText, [current, ...others]: readonly Topic[]): Topic | undefined {
  const [figure] = figuresIn(text.facts);
  const hasFigure = (topic: Topic) => figuresIn(topic.facts).includes(figure!);
  if (figure === undefined || !current || hasFigure(current)) return undefined;
  const [topic, ...more] = others.filter((each) => !each.aside && hasFigure(each));
  return more.length === 0 ? topic : undefined;
}

/** The earlier topic that a text goes back to: by its kind's own word, or a head of which only that one knows. */
export function topicMeant(text: ReadText, topics: readonly Topic[]): Topic | undefined {
  const [current, ...others] = topics;
  if (others.length === 0) return undefined;
  const back = has(text, "change:back-to");
  const words = new Set([
    ...text.facts.free.map(({ key }) => key),
    ...text.facts.facts.map(({ family, id }) => `${family}:${id}`),
  ]);
  // A garage named again is the detached one of before.
  const hasWord = (key: string) => [...words].some((word) => key === word || isKindOf(key, word));
  const isOf = ({ manner, facts }: Topic): boolean =>
    (manner.words ?? []).some((word) => words.has(word)) ||
    (back && (facts.facts.some(({ family, id, slots }) =>
      id !== undefined && family === "load" && Object.keys(slots).length > 0 && words.has(`load:${id}`)
    ) || facts.free.some(({ key }) => /^(?:place|building|space):/.test(key) && hasWord(key))));
  if (!back && (current === undefined || isOf(current))) return undefined;
  if (!back && !words.has("building:dwelling") && !(decides(text) && words.has("circuit:feeder"))) return undefined;
  return others.find(isOf) ?? (back ? byFigure(text, topics) : undefined);
}
/** `what if the service is 350 kcmil`: the one earlier topic that knows all that is named, where the one under way does not. */
export function knowingOf({ facts: { facts } }: ReadText, [current, ...others]: readonly Topic[]): Topic | undefined {
  const named = facts.filter(({ id }) => id !== undefined);
  const knows = (topic: Topic) => knowsAll({ facts: { facts: named } }, topic);
  if (named.length === 0 || !current || knows(current)) return undefined;
  const [topic, ...more] = others.filter((each) => !each.aside && knows(each));
  return more.length === 0 ? topic : undefined;
}
/** Whether a topic knows every head that is named. */
export const knowsAll = ({ facts: { facts } }: { facts: Pick<Facts, "facts"> }, topic: Topic): boolean =>
  facts.every(({ family, id }) => topic.facts.facts.some((fact) => fact.family === family && fact.id === id));
const isKindOf = (key: string, word: string): boolean => {
  const [sort, id] = word.split(":") as [string, string];
  return key.startsWith(`${sort}:`) && key.endsWith(`-${id}`);
};
