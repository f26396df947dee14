/** What one outcome hands on to the next text of a conversation, and how it is found again. */
import type { Handed, Thread, Topic } from "../conversation/thread.ts";
import { withoutPlaces } from "../conversation/turn.ts";
import { changesBetween } from "../conversation/changes.ts";
import { ConductorSize } from "../core/conductor-size.ts";
import type { Change, Option } from "../outcomes.ts";
import type { WorkedAnswer } from "../core/worked.ts";
import type { AnyQuestion } from "../questions/question.ts";
import type { Facts } from "../reading/facts.ts";
import { type ReadText, readText } from "../reading/read.ts";
import type { Request } from "../request.ts";

export const isThread = (after: Handed | Request): after is Handed => "format" in after;

/** The thread of a request that an earlier answer carried: what it says in words, read. */
export function threadOf(request: Request, question: AnyQuestion | undefined, edition: string): Thread | undefined {
  if (!question) return undefined;
  const { kind, edition: told, ...draft } = request;
  const parsed = question.input.safeParse(draft);
  if (!parsed.success) return undefined;
  const { facts } = readText(question.write(parsed.data));
  return {
    format: "thread/1",
    topics: [{
      kind,
      manner: question.manner,
      edition: typeof told === "string" ? told : edition,
      facts: withoutPlaces(saidOnce(facts)),
    }],
  };
}
/** `motor circuit: 5 hp motor`: a load that only the title names is the one that is told. */
const saidOnce = ({ facts, free }: Facts): Facts => ({
  facts: facts.filter((fact) =>
    fact.family !== "load" || Object.keys(fact.slots).length > 0 ||
    !facts.some(({ family, id, slots }) => family === "load" && id === fact.id && Object.keys(slots).length > 0)
  ),
  free,
});

export const editionSaid = ({ facts }: ReadText): string | undefined => {
  const sense = facts.free.findLast(({ key }) => key === "edition")?.value.sense;
  return sense?.is === "edition" ? sense.edition : undefined;
};

export const readAs = ({ mended }: ReadText, notes: readonly string[]): string[] => [
  ...mended.map(({ said, read }) => `read "${said}" as "${read}"`),
  ...notes,
];

/** Figures that another question about the same facts goes on from, in words that read as what they are. */
const AS_WORDS: Readonly<Record<string, (value: number | string) => string>> = {
  conductor: (size) => `${ConductorSize.of(String(size))}`,
  "ungrounded-conductor": (size) => `${ConductorSize.of(String(size))}`,
  "feeder-conductor": (size) => `${ConductorSize.of(String(size))}`,
  "breaker-rating": (rating) => `${rating} A breaker`,
  "raceway-size": (size) => `${size} raceway`,
};

/** What an answer chose and assumed, in words that are read when another question goes on from them. */
export const chosenBy = ({ figures, assumptions }: WorkedAnswer): string[] => [
  ...Object.entries(AS_WORDS).flatMap(([id, write]) => figures[id] ? [write(figures[id].value)] : []),
  ...assumptions.map(({ value }) => value),
];

export const figuresOf = ({ figures }: WorkedAnswer): NonNullable<Topic["figures"]> =>
  Object.fromEntries(Object.entries(figures).map(([id, { value, unit, name }]) => [id, { value, unit, name }]));

/** Figures that are others than in the last answer. */
export const changesOf = ({ figures = {} }: Topic, answer: WorkedAnswer): Change[] =>
  changesBetween(figures, answer.figures);

const ORDINALS = ["first", "second", "third", "fourth"];

/** One of the choices that were offered: `the second`, `2`. */
export function pickedOf(text: ReadText, { choices }: Topic): Option | undefined {
  if (!choices?.length) return undefined;
  const words = text.tokens.map((token) => token.text);
  const ordinal = ORDINALS.findIndex((word) => words.includes(word));
  if (ordinal >= 0) return choices[ordinal];
  const only = text.pieces.filter(({ is }) => is === "fact");
  const sense = only.length === 1 ? only[0]!.senses[0] : undefined;
  return sense?.is === "number"
    ? choices[sense.n - 1]
    : choices.find((each) => each.text.toLowerCase() === text.asked.trim().toLowerCase());
}
