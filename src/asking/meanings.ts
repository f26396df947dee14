/**
 * What a figure that found no place could be: the same text with the figure named, read once more. A name stands for choice where
 * it gives the figure a place in the question and leaves what else was read as it was.
 */
import type { Need } from "../core/outcome.ts";
import type { Option } from "../outcomes.ts";
import type { Span } from "../core/worked.ts";
import type { Draft } from "../reading/facts.ts";
import type { Piece } from "../reading/sense.ts";
import { type ReadText, readText } from "../reading/read.ts";
import { choose } from "../reading/which.ts";
import type { Asked } from "./desk.ts";

/** A figure's name: as it is said to a person, and where it stands beside the figure in a text that is read. */
type Name = {
  readonly is: string;
  readonly before?: string;
  readonly behind?: string;
  /** A bare number outside of these is never meant so. */
  readonly within?: readonly [number, number];
};
const before = (is: string, word = is): Name => ({ is, before: word });
const behind = (is: string, word: string, within?: readonly [number, number]): Name => ({
  is,
  behind: word,
  ...(within && { within }),
});

/** By unit, in the order in which they are offered. */
const NAMES: Readonly<Record<string, readonly Name[]>> = {
  A: [before("load"), behind("breaker", "breaker"), behind("panel", "panel"), behind("service", "service")],
  V: [before("supply voltage", "on")],
  W: [before("load"), behind("range", "range"), behind("water heater", "water heater"), behind("heater", "heater")],
  ft: [behind("length of the run", "away"), behind("depth", "deep")],
  sets: [behind("parallel sets", "parallel sets")],
};
const POWER: ReadonlySet<string> = new Set(["W", "kW", "VA", "kVA"]);
/** A bare number: what it may count or measure, and between which numbers people say it without its unit. */
const BARE: readonly Name[] = [
  behind("wire size", "AWG", [1, 18]),
  behind("breaker's amperes", "A breaker", [15, 1200]),
  behind("load's amperes", "A load", [1, 1200]),
  behind("voltage", "V", [110, 600]),
  behind("length of the run", "ft away", [20, 2000]),
  behind("number of parallel sets", "parallel sets", [2, 8]),
  behind("number of circuits", "circuits", [2, 42]),
];
const MOST_NAMES = 3;

type Meanings = { readonly need: Need; readonly choices: readonly Option[] };

/**
 * @param missed what found no place in `candidate`'s question, whose request so far is `draft`
 * @returns absent where no name gives the first of them a place, or it is no figure
 */
export function meaningsOf(
  text: ReadText,
  missed: readonly Span[],
  candidate: Asked,
  draft: Draft,
): Meanings | undefined {
  const [first, ...rest] = missed;
  const at = first ? pieceAt(text, first) : -1;
  const piece = text.pieces[at];
  if (!first || !piece || countsThings(text, at)) return undefined;
  const end = first.at + first.text.length;
  const known = fieldsOf(draft);
  const fitting = namesOf(piece).flatMap((name) => {
    const [front, back] = [name.before ? `${name.before} ` : "", name.behind ? ` ${name.behind}` : ""];
    const named = `${text.asked.slice(0, first.at)}${front}${first.text}${back}${text.asked.slice(end)}`;
    const [choice, ...others] = choose(readText(named), [candidate]);
    if (!choice || others.length > 0 || choice.account.missed.length > rest.length) return [];
    const fields = fieldsOf(choice.taken.draft);
    // What was read without the name is read with it, and the name told one thing more.
    const more = [...fields].filter(([path, value]) => known.get(path) !== value).map(([path]) => path);
    const isKept = [...known].every(([path, value]) => fields.get(path) === value);
    return isKept && more.length > 0
      ? [{ is: name.is, named, field: more[0]!.replace(/\.\d+/g, ""), draft: choice.taken.draft }]
      : [];
  });
  const told = fitting.filter(({ field }, i) => fitting.findIndex((each) => each.field === field) === i).slice(
    0,
    MOST_NAMES,
  );
  if (told.length === 0) return undefined;
  const words = told.map(({ is }) => `the ${is}`);
  const others = rest.length > 0 ? ` Nor can I place ${rest.map((each) => `“${each.text.trim()}”`).join(", ")}.` : "";
  return {
    need: {
      field: told.map(({ field }) => field).join(" or "),
      ask: `I can't place “${first.text.trim()}”. Is it ${inWords(words)}?${others} Say what it is, or leave it out.`,
      example: told[0]!.is,
    },
    choices: rest.length > 0 ? [] : told.map((each) => {
      const parsed = candidate.question.input.safeParse(each.draft);
      return { text: each.is, question: parsed.success ? candidate.question.write(parsed.data) : each.named };
    }),
  };
}

function pieceAt({ pieces, tokens }: ReadText, { at }: Span): number {
  return pieces.findIndex(({ from }) => tokens[from]!.at === at);
}

/** `4 dongles`: a bare number before a word that nothing knows, or one in the plural, counts what it names. */
function countsThings({ pieces, tokens }: ReadText, at: number): boolean {
  const next = pieces[at + 1];
  if (pieces[at]!.senses[0]?.is !== "number" || !next) return false;
  return next.is === "unknown" || next.is === "common" && /^\p{L}{3,}s$/u.test(tokens[next.from]!.text);
}

function namesOf({ senses: [sense] }: Piece): readonly Name[] {
  if (sense?.is === "quantity") return NAMES[POWER.has(sense.unit) ? "W" : sense.unit] ?? [];
  if (sense?.is !== "number") return [];
  return BARE.filter(({ within: [least, most] = [0, Infinity] }) => least <= sense.n && sense.n <= most);
}

/** Every value of a request by its path, without the positions of a list. */
function fieldsOf(draft: unknown, path = ""): Map<string, string> {
  const fields = new Map<string, string>();
  if (draft === null || typeof draft !== "object") return fields.set(path, JSON.stringify(draft));
  if ("value" in draft && "unit" in draft) return fields.set(path, JSON.stringify(draft));
  for (const [key, value] of Object.entries(draft)) {
    if (value === undefined) continue;
    const at = path === "" ? key : `${path}.${key}`;
    for (const [each, told] of fieldsOf(value, at)) fields.set(each, told);
  }
  return fields;
}

const inWords = (words: readonly string[]): string =>
  words.length > 1 ? `${words.slice(0, -1).join(", ")} or ${words.at(-1)}` : words[0] ?? "";
