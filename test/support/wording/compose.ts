/** Facts and a question put together into one text. */
import { NUMBER_WORDS } from "./numbers.ts";
import type { Pen } from "./pen.ts";
import { AFTER, BEFORE, BETWEEN } from "./remarks.ts";

/** One thing told. What belongs together stands in one fact: facts may change places. */
export type Fact = {
  words: string;
  /** The same as a label and its value, for those who write lists of lines. */
  line?: readonly [label: string, value: string];
  /** It may stand in parentheses behind another fact without being taken as part of it. */
  aside?: boolean;
};

/** What a kind says of a request. */
export type Said = {
  /** What the question is about, as a noun: "a 48 A EV charger". */
  head: Fact;
  rest: readonly (Fact | undefined)[];
  /** The question with what it is about, without a question mark: "what wire for a 48 A EV charger". */
  asks: (head: string) => string;
  /** The question behind facts that have been told: "what wire?" */
  asksAfter: string;
  /** The facts alone tell what is asked. */
  bare?: boolean;
};

export const fact = (words: string, line?: readonly [string, string]): Fact => ({ words, ...(line && { line }) });
export const aside = (words: string, line?: readonly [string, string]): Fact => ({ ...fact(words, line), aside: true });

/** The text. `edition` is named in it where it is given. */
export function compose(said: Said, pen: Pen, edition: string | undefined): string {
  const code = edition === undefined ? [] : [aside(editionWords(pen, edition))];
  const rest = said.rest.filter((each): each is Fact => each !== undefined);
  const facts = [...(pen.uses("order") ? pen.d.shuffle(rest) : rest), ...code];
  const { sentences, joint } = body(said, facts, pen);
  const slips = pen.uses("slips") ? pen.d.int(0, sentences.length - 1) : -1;
  const typed = sentences.map((sentence, i) => i === slips ? slipped(sentence, pen) : sentence);
  return inCase(withRemarks({ sentences: typed, joint }, pen), pen);
}

/** Sentences of a text that remarks may stand between. */
type Body = { sentences: string[]; joint: string };

function body(said: Said, facts: readonly Fact[], pen: Pen): Body {
  if (facts.some(({ line }) => line) && pen.uses("labelLines")) return asLines(said, facts, pen);
  const isBare = said.bare === true && pen.uses("noGoal");
  if (!isBare && !pen.uses("goalLast")) {
    const told = joined(facts, pen);
    const asked = said.asks(said.head.words);
    if (told === "") return { sentences: [`${asked}?`], joint: " " };
    // The rest goes on in the question, or follows it.
    return pen.d.chance(0.5)
      ? { sentences: [`${asked}${separatorOf(pen, asked, told)}${told}${pen.terse ? "" : "?"}`], joint: " " }
      : { sentences: [`${asked}?`, pen.terse ? told : stopped(told)], joint: told.includes("\n") ? "\n" : " " };
  }
  const all = pen.uses("order") ? pen.d.shuffle([said.head, ...facts]) : [said.head, ...facts];
  const told = joined(all, pen);
  if (isBare) return { sentences: [told], joint: " " };
  const joint = told.includes("\n") ? "\n" : " ";
  return pen.terse && joint === " "
    ? { sentences: [`${told}, ${said.asksAfter}`], joint }
    : { sentences: [joint === " " ? stopped(told) : told, said.asksAfter], joint };
}

const stopped = (text: string): string => text.endsWith(".") ? text : `${text}.`;

/** "Range: 12 kW" line by line, or the label over its value; what has no label stands on its own line. */
function asLines(said: Said, facts: readonly Fact[], pen: Pen): Body {
  const over = pen.d.chance(0.3);
  const mark = pen.d.pick([": ", ": ", " - ", " = "]);
  const lines = [said.head, ...facts].map(({ words, line }) => line ? line.join(over ? "\n" : mark) : words);
  const ask = said.asksAfter;
  return { sentences: pen.uses("goalLast") ? [...lines, ask] : [ask, ...lines], joint: "\n" };
}

function joined(facts: readonly Fact[], pen: Pen): string {
  const separator = pen.uses("separators")
    ? pen.d.pick(["; ", "\n", "\n- ", " / "])
    : pen.uses("noCommas")
    ? " "
    : ", ";
  const parts: string[] = [];
  for (const { words, aside } of facts) {
    const last = parts.at(-1);
    if (aside && last !== undefined && !last.includes("(") && pen.uses("parentheses")) {
      parts[parts.length - 1] = `${last} (${words})`;
    } else parts.push(words);
  }
  const text = parts.reduce((all, next) => {
    if (all === "") return next;
    return all + (clash(all, next) && /^[ /]+$/.test(separator) ? ", " : separator) + next;
  }, "");
  return separator === "\n- " && parts.length > 1 ? `- ${text}` : text;
}

const separatorOf = (pen: Pen, before: string, after: string): string =>
  after.includes("\n") ? ":\n" : pen.uses("noCommas") && !clash(before, after) ? " " : ", ";

/** Without a comma the end of the one and the start of the other would run into one number or one name. */
function clash(before: string, after: string): boolean {
  const isNumber = (word: string) => /^[#(]?[\d.\/]+[x)]?$|^x\d+$/.test(word) || NUMBER_WORDS.has(word.toLowerCase());
  const [last, first] = [before.split(/[\s-]+/).at(-1)!, after.split(/[\s-]+/)[0]!];
  return (isNumber(last) || /^(each|to|x)$/.test(last)) && (/^[#(]?[\d.]/.test(first) || isNumber(first)) ||
    /^(each|no|not|only)$/.test(first);
}

function editionWords(pen: Pen, edition: string): string {
  return pen.one(
    `${edition} NEC`,
    `under the ${edition} code`,
    `NEC ${edition}`,
    `per the ${edition} NEC`,
    `we are on the ${edition} code`,
    `${edition} code cycle`,
  );
}

function withRemarks({ sentences, joint }: Body, pen: Pen): string {
  const told = sentences.map((each) => pen.terse ? each : each[0]!.toUpperCase() + each.slice(1));
  if (!pen.uses("story")) return told.join(joint);
  const around = joint === "\n" || told.some((each) => each.includes("\n")) ? "\n" : " ";
  const ended = (text: string) => around === " " && !/[.?!]$/.test(text) ? `${text}.` : text;
  const between = told.length === 2 && pen.d.chance(0.3) ? [pen.d.pick(BETWEEN)] : [];
  const first = pen.d.chance(0.7) ? [pen.d.pick(BEFORE)] : [];
  const last = pen.d.chance(0.5) ? [pen.d.pick(AFTER)] : [];
  const core = between.length > 0 ? [ended(told[0]!), ...between, told[1]!].join(around) : told.join(joint);
  return [...first, last.length > 0 ? ended(core) : core, ...last].join(around);
}

/** Least letters of a word that a slip leaves recognisable. */
const LONG = 8;
/** Words that a slip would turn into another, or that a single letter decides. */
const NEVER_SLIPPED = /^(primary|secondary|nameplate|non|fahrenheit|celsius|kilo)/i;

/** One letter of a long word left out, doubled or changed with its neighbour. */
function slipped(text: string, pen: Pen): string {
  const words = [...text.matchAll(/(?<![\w\d-])[a-z]+(?![\w\d-])/g)].filter(([word]) =>
    word.length >= LONG && !NUMBER_WORDS.has(word) && !NEVER_SLIPPED.test(word)
  );
  if (words.length === 0) return text;
  const { 0: word, index } = pen.d.pick(words);
  const at = pen.d.int(3, word.length - 3);
  const slip = pen.d.pick([
    word.slice(0, at) + word.slice(at + 1),
    word.slice(0, at) + word[at] + word.slice(at),
    word.slice(0, at) + word[at + 1] + word[at] + word.slice(at + 2),
  ]);
  return text.slice(0, index) + slip + text.slice(index + word.length);
}

function inCase(text: string, pen: Pen): string {
  if (!pen.uses("letterCase")) return text;
  return pen.d.chance(0.85) ? text.toLowerCase() : text.toUpperCase();
}
