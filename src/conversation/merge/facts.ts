/** What the changes of a conversation know of facts: kinds of keys, sizes of numbers, what is the same thing. */
import { NOMINAL_VOLTS } from "../../reading/families.ts";
import type { Fact, Free, Value } from "../../reading/facts.ts";
import { TAKING } from "../../reading/lexicon/changes.ts";
import { circuitNumber } from "../../reading/passes/panels.ts";
import type { ReadText } from "../../reading/read.ts";
import type { Sense } from "../../reading/sense.ts";
import { MEASURES } from "../plate.ts";
import { unitOf } from "../reply.ts";

export type Writable = { -readonly [K in keyof Fact]: Fact[K] } & { slots: Record<string, readonly Value[]> };
/** A figure of the text, alone or with a head that it names. */
export type Figure = { n: number; unit?: string; value: Value; from: Free | Fact };
/** Where a figure stands: in a slot of a fact, or by itself. */
export type Place = { fact: Writable; slot: string; index: number } | { free: Free };
/** Free keys of which one replaces the other. */
const CLASSES: readonly (readonly string[])[] = [
  ["V", "kV", "volts", "system"],
  ["ft", "m", "yd", "length"],
  ["°F", "°C", "ambient"],
  ["%", "drop"],
  ["edition"],
  ["terminals"],
  ["kVA", "VA", "MVA"],
  ["ft2", "m2", "area"],
  ["place:wet", "place:dry"],
  ["place:rooftop", "place:not-rooftop"],
  ["circuit:no-neutral", "circuit:with-neutral"],
  ["end:primary-only", "end:primary-and-secondary"],
  ["end:opposite", "end:beside-main", "end:center-fed"],
];
export const [VOLTS, LENGTH, TERMINATION] = ["class 0", "class 1", "class 5"];
export const GROUNDS: ReadonlySet<string> = new Set([
  "equipment-ground",
  "grounding-electrode-conductor",
  "main-bonding-jumper",
  "system-bonding-jumper",
  "supply-side-bonding-jumper",
]);
const SORT_CLASSES = [
  "phase",
  "metal",
  "methodOfLoad",
  "raceway",
  "electrode",
  "connection",
  "hours",
  "above",
  "facing",
];
export const classOf = (key: string): string => {
  const found = CLASSES.findIndex((keys) => keys.includes(key));
  if (found >= 0) return `class ${found}`;
  const sort = key.split(":")[0]!;
  if (sort === "insulation" || sort === "method") return "insulation";
  return SORT_CLASSES.includes(sort) ? sort : key;
};
export const AREA = classOf("ft2");
/** `take the charger off`, `leave the dryer out`; `pull one #4 back out`, and not `pull #6 out to the shed`. */
export const [TAKES, OFF, PULLS] = [
  new Set(["take", "leave", "cut", "strike", "cross", "skip", "taking", "took"]),
  new Set(["off", "out", "away"]),
  new Set(["pull", "pulling", "pulled", "yank", "yanked", "get", "got"]),
];
/** Replaced figures that are remembered. */
export const PAST = 24;
/** A new value is of the size of the old one within this factor; another candidate lies so much farther off. */
export const LIKE = 4;
export const CLEARLY = 1.3;
export const NEAR = 1.5;
export const isLike = (was: number, n: number): boolean => was > 0 && n / was <= LIKE && was / n <= LIKE;
/** The smallest conductor that is told in kcmil. */
export const LEAST_KCMIL = 250;
const MOST_KCMIL = 2000;
export const isWireSize = (n: number): boolean => GAUGES.has(n) || n >= LEAST_KCMIL && n <= MOST_KCMIL && n % 50 === 0;
/** What a drop is limited to, %. */
export const isLimit = (n: number): boolean => n <= 10 && (Number.isInteger(n) || n === 1.5 || n === 2.5);
/** Number words that mean several of a size, `eights`. */
export const IS_PLURAL = /^\p{L}+s$/u;
/** What terminations are rated for, °C. */
export const TERMINALS: ReadonlySet<number> = new Set([60, 75, 90]);
export const WARMER = 1.6;
/** Usual voltages that are ratings of breakers as well. */
export const AMPERES_TOO: ReadonlySet<number> = new Set([110, 125, 200, 250, 400, 600]);
/** What a nameplate tells side by side. */
export const PAIR = ["minimum-circuit-ampacity", "maximum-protection"] as const;
/** Words before `the 3500 one` that tell what a thing is. */
export const ITS: ReadonlySet<string> = new Set(["it's", "its", "is", "was", "be", "actually", "got", "bought"]);
export const measureOf = (slots: Fact["slots"]): string | undefined => MEASURES.find((slot) => slots[slot]);
export const isBare = (slots: Fact["slots"]): boolean => Object.keys(slots).length === 0;
export const numbered = (value: Value, n: number): Value => ({ ...value, sense: { is: "number", n } });
export const countOf = ({ slots }: Fact): number => {
  const sense = slots.count?.[0]?.sense;
  return sense?.is === "number" || sense?.is === "count" ? sense.n : 1;
};
export const isAsked = ({ family, slots }: Fact): boolean => family === "circuit" && Object.keys(slots).length === 0;
export const isEqual = (a: Sense | undefined, b: Sense): boolean =>
  a?.is === "quantity" && b.is === "quantity" && a.n === b.n && a.unit === b.unit;
/** Whether two conductors or cables are of one size. */
export const isSameWire = (a: Sense | undefined, b: Sense | undefined): boolean =>
  a === b || (a?.is === "size" && b?.is === "size" && a.size === b.size) ||
  (a?.is === "cable" && b?.is === "cable" && a.size === b.size && a.wires === b.wires);
/** `another dryer`: with the figures of the one that is known. */
export function alikeOf(known: Fact, { said, pieces, slots, ...fact }: Fact): Fact {
  const { count: _, ...rest } = known.slots;
  const copied = Object.entries(rest).map(([slot, values]) => [
    slot,
    values.map((value) => ({ ...value, pieces: [], note: `took ${said} like the ${known.said || known.id} before` })),
  ]);
  return { ...fact, said, pieces, slots: { ...Object.fromEntries(copied), ...slots } };
}
export const isNominal = (n: number): boolean => n >= 110 && NOMINAL_VOLTS.includes(n);
/** `9 apartments`, `make it 12 units`: the dwellings of a building, by whatever word. */
export const isDwellings = ({ family, id, slots }: Fact): boolean =>
  family === "building" && ["unit", "apartment"].includes(id ?? "") && slots.count !== undefined;
export const isLine = ({ family, id }: Fact): boolean =>
  family === "conductor" && (id === undefined || id === "wire" || id === "ungrounded");
/** `ok 8 then`: a size is told anew in so few words. */
export const MOST_AROUND_A_SIZE = 5;
/** Sizes that a bare number tells of a wire. */
export const GAUGES: ReadonlySet<number> = new Set([14, 12, 10, 8, 6, 4, 3, 2, 1]);
export const goal = (id: string): Free => ({
  key: `goal:${id}`,
  value: { sense: { is: "term", sort: "goal", id }, pieces: [], said: "" },
  sentence: -1,
});
/** `could i use …`, `can we put …`, `and unit 2 on a 50?`. */
export const asksLeave = ({ asked }: ReadText): boolean =>
  /\b(?:can|could|may) (?:i|we|you|it|they|that)\b/i.test(asked) || /\b(?:on|with|by) an? *\d+ *\?/i.test(asked);
/** Words before a voltage that tell what supplies a transformer. */
export const FED = new Set([
  "fed",
  "feed",
  "feeding",
  "off",
  "from",
  "supplied",
  "supply",
  "line",
  "utility",
  "incoming",
]);
/** What several of a kind share when they are spoken of together. */
export const OF_ALL = new Set(["volts", "phase", "hours", "fuel"]);
export const isOfSupply = ({ slots }: Fact): boolean => {
  const names = Object.keys(slots);
  return names.length > 0 && names.every((slot) => slot === "volts" || slot === "phase");
};
/** A compressor, told again, is the hermetic compressor that is known. */
export const isSame = (a: string | undefined, b: string | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && (a.endsWith(`-${b}`) || b.endsWith(`-${a}`)));
export const isMachine = (id: string | undefined): boolean =>
  ["motor", "pump", "compressor", "air-compressor", "fan", "machine"].includes(id ?? "motor");
export const isInHorsepower = (values: readonly Value[]): boolean => values.some((value) => unitOf(value) === "hp");
export const inAmperes = (value: Value): Value =>
  value.sense.is === "number" ? { ...value, sense: { is: "quantity", n: value.sense.n, unit: "A" } } : value;
/** Whether a figure that was told is told otherwise. */
export const isOther = (was: readonly Value[] | undefined, is: readonly Value[]): boolean =>
  was !== undefined && !isEqual(was[0]?.sense, is[0]!.sense);
/** Verbs of what stays as it was. */
const STAYS: ReadonlySet<string> = new Set(["leave", "keep", "stay", "stick", "hold", "leaving", "keeping"]);
/** `scratch that, leave it 120`: one figure, and it stays. */
export function staysAt({ pieces, tokens, facts: { facts } }: ReadText): boolean {
  const figures = pieces.filter(({ senses }) => senses.some(({ is }) => is === "number" || is === "quantity"));
  const [figure, ...others] = figures;
  if (!figure || others.length > 0 || facts.some(({ id }) => id !== undefined)) return false;
  return isStaying(tokens, figure.from);
}
/** Whether a verb of staying stands right before a place; `leave out the 7.5` takes it away. */
export function isStaying(tokens: ReadText["tokens"], at: number): boolean {
  const before = tokens.slice(Math.max(0, at - 3), at).map(({ text }) => text);
  return before.some((word) => STAYS.has(word)) && !before.some((word) => OFF.has(word));
}
/** `drop the main to 175`, `cut the range down to 8 kW`: less of it, and nothing that goes. */
export function lowers({ pieces, tokens }: ReadText): boolean {
  const isTaking = ({ senses }: ReadText["pieces"][number]) =>
    senses.some((s) => s.is === "term" && s.sort === "change" && s.id === "drop");
  const taken = pieces.findIndex(isTaking);
  const to = tokens.findIndex(({ text }, i) => text === "to" && i > (pieces[taken]?.from ?? -1));
  const next = pieces.findIndex(({ from }) => from > to);
  const isFigure = pieces.slice(next, next + 2).some(({ senses }) =>
    senses.some(({ is }) => is === "number" || is === "quantity")
  );
  return to >= 0 && next >= 0 && isFigure && (taken >= 0 || TAKES.has(tokens[0]?.text ?? ""));
}
/** Words with which a text may open before it says what it is about. */
const OPENING: ReadonlySet<string> = new Set(["ok", "okay", "and", "now", "then", "so", "actually", "just", "please"]);
const [LOSES, SOME_OF] = [
  new Set([...TAKING, "delete", "cut", "remove"]),
  new Set(["pull", "yank", "take", "remove"]),
];
const GROUP: ReadonlySet<string> = new Set(["the", "them", "those", "these"]);
/** The verb with which a text opens, and where it stands. */
function openingVerb({ tokens }: ReadText): { at: number; word: string } {
  let at = 0;
  while (OPENING.has(tokens[at]?.text ?? "") || tokens[at]?.text === ",") at++;
  return { at, word: tokens[at]?.text ?? "" };
}
/** `lose 4 receptacle circuits`, `scrap ckt 1`, `ditch dryer`, and not `lose 3 volts`: what is named right behind the verb. */
export function losesNamed(text: ReadText): boolean {
  const { at, word } = openingVerb(text);
  const next = text.pieces.findIndex(({ from }) => from > at);
  const [sense] = text.pieces[next]?.senses ?? [];
  if (!LOSES.has(word) || !sense) return false;
  if (sense.is === "number") {
    return text.pieces[next + 1] !== undefined && text.tokens[text.pieces[next]!.to]?.is === "word";
  }
  return circuitNumber(text.pieces, text.tokens)?.pieces[0] === next ||
    text.facts.facts.some(({ family, id, pieces }) => family === "load" && id !== undefined && pieces[0] === next);
}
/** `pull one of the #4s` */
function pullsSome(text: ReadText): boolean {
  const { at, word } = openingVerb(text);
  return SOME_OF.has(word) &&
    text.tokens.some((token, i) => i > at && token.text === "of" && GROUP.has(text.tokens[i + 1]?.text ?? ""));
}
/** `the fan's out`, `dryer's gone`: said of a thing that is named. */
const isGone = ({ tokens, pieces, facts }: ReadText): boolean =>
  tokens.some(({ text }, i) =>
    text === "'s" && GONE.has(tokens[i + 1]?.text ?? "") &&
    facts.facts.some(({ family, id, pieces: own }) =>
      family === "load" && id !== undefined && own.some((at) => pieces[at]!.to === i)
    )
  );
const GONE: ReadonlySet<string> = new Set(["out", "gone", "off", "canceled", "cancelled"]);
export function takesOff(text: ReadText): boolean {
  const { tokens } = text;
  if (pullsSome(text) || losesNamed(text) || isGone(text)) return true;
  const off = tokens.findLastIndex(({ text }) => OFF.has(text));
  const before = tokens.slice(0, Math.max(off, 0));
  if (before.some(({ text }) => TAKES.has(text))) return true;
  const isBack = tokens[off - 1]?.text === "back" || off === tokens.findLastIndex(({ is }) => is === "word");
  return isBack && before.some(({ text }) => PULLS.has(text));
}
