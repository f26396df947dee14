/** A text about loads as a row of lexemes: appliance names, quantities, counts, and the few words that bear on them. */
import { exact } from "../core/quantity.ts";
import { compile, type Said, toJson, USED } from "../text/phrases.ts";
import type { TokenText } from "../text/tokens.ts";
import { CATALOGUE, LOAD_KINDS, type LoadKind } from "./catalogue.ts";

export type Lexeme =
  & { from: number; to: number; text: string }
  & (
    /** A heading names what the question is about, as in `range demand: …`. */
    | { is: "name"; kind: LoadKind; plural: boolean; heading: boolean }
    | { is: "quantity"; said: Said }
    | { is: "count"; n: number }
    /** How many separately controlled units of heating; without a number, each of them. */
    | { is: "controls"; n?: number }
    | { is: "leg"; leg: "A" | "B" }
    /** Ends a clause. `hard` ends a sentence: nothing is carried across it. */
    | { is: "end"; hard: boolean }
    | { is: "word" | Mark }
  );

/** Words that change how a load is taken, and how they are written. */
const MARKS = {
  "all gas": "(are|is|both|all)( both| all| on)? (gas|propane|lp|oil)|(run|runs|running) on (gas|propane|oil)",
  gas: "(natural |lp |propane )?(gas|propane|fuel oil|oil|wood)( fired| fuelled| fueled| burning)?|lp|lng|ng",
  electric: "electric|elec",
  no: "no|without|w/o|minus|drop|remove|delete|skip|lose|take out|take off|take away|leave out|not",
  add: "add|adds|adding|added|another|second|extra|additional|one more",
  each: "each|apiece|ea",
  joint: "x|×|@|at|of",
  total: "in total|total|altogether|combined|together|in all",
  protection:
    "(double pole |2 pole )?(breakers?|ocpd|circuits?|fuses?)|mocp|mop|(max|maximum)( fuse| breaker| brkr| overcurrent( protection)?)( size)?",
  "minimum circuit ampacity": "mca|(min|minimum) circuit (ampacity|amps)",
} as const;
export type Mark = keyof typeof MARKS;

const CONTROLLED = "(separately|individually|independently|indiv|sep) controlled|(separate|own|individual) controls?|" +
  "((separate|own|individual) )?(thermostats?|t stats?)|zones";
const CONTROLS =
  `(in |into |across |over )?({n} )?((rooms?|zones?|units?|of them|each|all|with|having|on|has|have|is|are|` +
  `a|an|its|their),? )*(${CONTROLLED})( units?| zones?)?`;
/** Between two loads of one sentence. `or` also carries on what is not there: `no range or dryer`. */
const SOFT =
  "and|plus|with|w/|including|includes|also|then|whose|having|has|but|or|nor|as well as|along with|besides|per|for|at the|on the";

const plural = (name: string): string => name.endsWith("s") ? name : `${name}s?`;
/** A hyphen in a name may as well be a space. */
const NAMES = LOAD_KINDS.flatMap((kind) =>
  CATALOGUE[kind].names.map((name) => ({ name: name.replaceAll("-", " "), kind }))
)
  .sort((a, b) => b.name.length - a.name.length);
const KIND_OF = new Map(NAMES.map(({ name, kind }) => [name, kind]));

/** Everything a list of loads may say, in the phrase language: what the reader mends mistyped words to. */
export const VOCABULARY = [
  ...NAMES.map(({ name }) => plural(name)),
  ...Object.values(MARKS),
  "(separately|individually) controlled|thermostats?",
].join("|");

/** Each kind of lexeme, first come first served. */
const READERS: readonly { pattern: RegExp; read: (text: string, tokens: TokenText["tokens"]) => Partial<Lexeme> }[] = [
  {
    pattern: compile(CONTROLS),
    read: (text, tokens) => {
      const at = /‹(\d+) n›/.exec(text);
      const token = at ? tokens[Number(at[1])] : undefined;
      return { is: "controls", ...(token?.is === "n" && { n: exact(token.n).valueOf() }) };
    },
  },
  {
    pattern: compile("(on |from )?(leg|line|phase) (?<leg>[ab])"),
    read: (text) => ({ is: "leg", leg: text.slice(-1).toUpperCase() as "A" | "B" }),
  },
  ...(["all gas", "minimum circuit ampacity", "protection"] as const).map((is) => ({
    pattern: compile(MARKS[is]),
    read: () => ({ is }),
  })),
  {
    pattern: compile(`(${NAMES.map(({ name }) => plural(name)).join("|")})(( circuit)? (demand|load)s?)?`),
    read: (text) => {
      const name = text.replace(/[\s-]+/g, " ").replace(/( circuit)? (demand|load)s?$/, "");
      const one = KIND_OF.has(name) ? name : name.slice(0, -1);
      return { is: "name", kind: KIND_OF.get(one)!, plural: name !== one, heading: text.length > name.length };
    },
  },
  ...(["gas", "electric", "no", "add", "each", "total", "joint"] as const).map((is) => ({
    pattern: compile(MARKS[is]),
    read: () => ({ is }),
  })),
  { pattern: compile(SOFT), read: () => ({ is: "end", hard: false }) },
  {
    pattern: /‹(\d+) [^›]*›/gu,
    read: (text, tokens) => {
      const token = tokens[Number(/\d+/.exec(text)![0])]!;
      if (token.is === "quantity") return { is: "quantity", said: { value: toJson(token.n), unit: token.unit } };
      return token.is === "n" ? { is: "count", n: exact(token.n).valueOf() } : { is: "end", hard: false };
    },
  },
  { pattern: /[a-z][a-z'’]*/gu, read: () => ({ is: "word" }) },
  { pattern: /[,+&/]/gu, read: () => ({ is: "end", hard: false }) },
  { pattern: new RegExp(`[;\\n?!${USED}]|\\.(?!\\d)`, "gu"), read: () => ({ is: "end", hard: true }) },
];

const sticky = READERS.map(({ pattern, read }) => ({ pattern: new RegExp(pattern.source, "iuy"), read }));

/** Cuts what is left of a text into lexemes. What is none of them (brackets, colons, `@`) only stands between two. */
export function lex(left: string, { tokens }: TokenText): Lexeme[] {
  const lexemes: Lexeme[] = [];
  for (let at = 0; at < left.length;) {
    let to = at + 1;
    for (const { pattern, read } of sticky) {
      pattern.lastIndex = at;
      const text = pattern.exec(left)?.[0];
      if (!text) continue;
      to = at + text.length;
      lexemes.push({ from: at, to, text, ...read(text, tokens) } as Lexeme);
      break;
    }
    at = to;
  }
  return lexemes;
}
