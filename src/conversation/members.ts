/** `one of those is a 9`, `two of the heaters are really 4s`: some of a counted group are told another figure. */
import type { Fact, Facts, Free, Value } from "../reading/facts.ts";
import type { ReadText } from "../reading/read.ts";

type Members = {
  /** How many of the group they are. */
  readonly count: Value;
  /** What they are called, where that is said. */
  readonly head?: Fact;
  readonly figure: Value;
  readonly from: readonly (Free | Fact)[];
};

const GROUP = new Set(["those", "these", "them", "the", "my", "our", "their"]);

const ARE = new Set(["are", "is", "get", "have", "were", "at"]);
/** `one of the …`, where `one` was read as a plain word; `half are …`. */
const oneOf = (tokens: ReadText["tokens"]): Value | undefined =>
  tokens.some(({ text }, i) => text === "half" && ARE.has(tokens[i + 1]?.text ?? ""))
    ? { sense: { is: "number", n: 1 / 2 }, pieces: [], said: "half" }
    : tokens[0]?.text === "one" && ["is", "was", "isn't"].includes(tokens[1]?.text ?? "")
    ? { sense: { is: "number", n: 1 }, pieces: [], said: "one" }
    : tokens.some(({ text }, i) =>
        text === "one" && tokens[i + 1]?.text === "of" && GROUP.has(tokens[i + 2]?.text ?? "")
      )
    ? { sense: { is: "number", n: 1 }, pieces: [], said: "one" }
    : undefined;
/** The members that a text tells a figure of: a count right before `of`, a group behind it, and one figure more. */
export function membersTold({ facts, free }: Facts, { pieces, tokens }: ReadText): Members | undefined {
  const isOfGroup = ({ pieces: own }: Value): boolean => {
    const to = pieces[own.at(-1) ?? -1]?.to ?? -1;
    // `half of` is one piece.
    const at = tokens[to - 1]?.text === "of" ? to : to + 1;
    return tokens[at - 1]?.text === "of" && GROUP.has(tokens[at]?.text ?? "");
  };
  const numbers = free.filter(({ key }) => key === "number");
  const loads = facts.filter(({ family }) => family === "load");
  const head = loads.find(({ id, slots }) => id !== undefined && slots.count?.some(isOfGroup));
  const counted = numbers.find(({ value }) => isOfGroup(value));
  const count = head?.slots.count?.[0] ?? counted?.value ?? oneOf(tokens);
  if (!count) return undefined;
  const figures = [
    ...numbers.filter((each) => each !== counted).map(({ value }) => value),
    ...loads.flatMap(({ slots }) => Object.entries(slots).flatMap(([slot, own]) => slot === "count" ? [] : own)),
  ];
  const [figure, ...more] = figures;
  const named = head ?? loads.find(({ id }) => id !== undefined);
  return figure && more.length === 0
    ? { count, ...(named && { head: named }), figure, from: [...numbers, ...loads] }
    : undefined;
}
