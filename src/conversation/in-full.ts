/** What a short word stands for where a conversation has said it in full: `the tub`, `single`. */
import type { Fact } from "../reading/facts.ts";
import { type ReadText, readText } from "../reading/read.ts";
import type { Piece } from "../reading/sense.ts";
import { is } from "../reading/manner.ts";
import { GAUGES, isLine, losesNamed } from "./merge/facts.ts";
import type { Topic } from "./thread.ts";

type Insertion = { readonly at: number; readonly words: string };

/** A text read with the words that it leaves out, each piece where it stands in what was typed. */
export function inFull(asked: string, topic: Topic | undefined): ReadText {
  const read = readText(asked);
  const left = topic
    ? [
      yearLeftOut(read) ?? phaseLeftOut(asked, topic) ?? placeLeftOut(asked, topic) ?? nameLeftOut(asked, topic) ?? [],
      marksLeftOut(read, topic),
    ].flat()
    : [];
  if (left.length === 0) return ofThings(read);
  const inOrder = left.toSorted((a, b) => a.at - b.at);
  const full = inOrder.reduceRight((said, { at, words }) => said.slice(0, at) + words + said.slice(at), asked);
  const text = readText(full);
  const typed = (place: number) => {
    let put = 0;
    for (const { at, words } of inOrder) {
      if (place <= at + put) break;
      put += Math.min(words.length, place - at - put);
    }
    return place - put;
  };
  return {
    ...text,
    asked,
    tokens: text.tokens.map((token) => ({ ...token, at: typed(token.at), end: typed(token.end) })),
  };
}

/** Marks that a topic makes plain: `four 8s` of wires that are listed are of #8. */
const marksLeftOut = (read: ReadText, topic: Topic): Insertion[] => [
  ...articlesLeftOut(read),
  ...sizesLeftOut(read, topic),
];
/** `make the 10 a 15`: behind a figure that is named, the article of another one; as a unit it would be amperes. */
function articlesLeftOut({ pieces, tokens }: ReadText): Insertion[] {
  return pieces.flatMap(({ from, to, senses: [sense] }, i) => {
    const isAmperes = sense?.is === "quantity" && sense.unit === "A" && to === from + 2;
    const isArticle = ["a", "an"].includes(tokens[to - 1]?.text ?? "") && !tokens[to - 1]!.glued;
    const isNamed = tokens[from - 1]?.text === "the";
    const isNumber = pieces[i + 1]?.senses[0]?.is === "number" || pieces[i + 1]?.senses[0]?.is === "quantity";
    return isAmperes && isArticle && isNamed && isNumber ? [{ at: tokens[from]!.end, words: " to" }] : [];
  });
}
const LISTED = new Set(["a", "an", "another", "the", "those", "more"]);
/** `8s`, `two 10s`, `a 6`: sizes of a list of wires, behind a count or an article, or told of several. */
function sizesLeftOut({ pieces, tokens }: ReadText, topic: Topic): Insertion[] {
  const { facts } = topic.facts;
  if (!is(topic, "conductors") || !facts.some((fact) => isLine(fact) && fact.slots.size)) return [];
  const wordAt = (at: number) => tokens[at]?.text ?? "";
  const isNumber = (piece: Piece | undefined) =>
    piece?.senses.every(({ is }) => is === "number") && piece.is === "fact";
  return pieces.flatMap((piece, i) => {
    const [sense] = piece.senses;
    const n = sense?.is === "number" ? sense.n : NaN;
    if (!isNumber(piece) || !GAUGES.has(n)) return [];
    const isPlural = wordAt(piece.to) === "s" && tokens[piece.to]!.glued;
    const isCounted = isNumber(pieces[i - 1]) || LISTED.has(wordAt(piece.from - 1));
    const isLast = pieces[i + 1] === undefined || ["comma", "border", "common", "mark"].includes(pieces[i + 1]!.is);
    return isPlural || isCounted && isLast ? [{ at: tokens[piece.from]!.at, words: "#" }] : [];
  });
}

/** Years by which a code is called, and what may stand before one. */
const YEARS: ReadonlySet<number> = new Set([2017, 2020, 2023, 2026]);
const BEFORE_A_YEAR = new Set(["in", "with", "by", "for", "on", "under", "per", "the", "and", "ok", "now"]);
/** `what's that in 2017`, `2026`: by the code of that year. */
function yearLeftOut({ tokens }: ReadText): Insertion | undefined {
  const numbers = tokens.filter(({ is }) => is === "number");
  const at = tokens.findLastIndex(({ is }) => is === "number" || is === "word");
  const year = tokens[at];
  if (numbers.length !== 1 || year?.is !== "number" || !YEARS.has(year.n ?? 0)) return undefined;
  const isOfCode = at === 0 || BEFORE_A_YEAR.has(tokens[at - 1]!.text);
  return isOfCode && at <= MOST_BEFORE_A_YEAR ? { at: year.end, words: " code" } : undefined;
}
const MOST_BEFORE_A_YEAR = 8;
/** What `lose 4 receptacle circuits` or `drop ckt 2` loses is no voltage: it is taken away. */
function ofThings(text: ReadText): ReadText {
  if (!losesNamed(text)) return text;
  const taken = { is: "term", sort: "change", id: "drop" } as const;
  const free = text.facts.free.map((each) =>
    isDrop(each.key) ? { ...each, key: "change:drop", value: { ...each.value, sense: taken } } : each
  );
  return { ...text, facts: { ...text.facts, free } };
}
const isDrop = (key: string): boolean => key === "goal:drop" || key === "label:drop";

const SINGLE =
  /^\W*(?:(?:no|nah|nope|wait|make it|make that|actually|it'?s|its|ok|okay|and|so|then|what about|how about|what if(?: it'?s)?|if|sorry|i meant?)\W+)*single(?=\W*$)/i;
/** `three`, in reply to whether it is one phase or three. */
const COUNTED = /^\W*(?:three|3|one|1)(?=\W*$)/i;
/** `driveway`, of how deep something lies: under it. */
const UNDER =
  /^\W*(?:(?:and|ok|okay|what about|how about|what if(?: it'?s)?|its|it'?s) +)*(?:in |for )?(?=(?:(?:a|the|my) )?(?:driveway|parking lot|slab|street|road|alley|building|sidewalk|yard|lawn)\W*$)/i;
function placeLeftOut(asked: string, { kind }: Topic): Insertion | undefined {
  const found = kind === "burial-and-support" ? UNDER.exec(asked) : null;
  return found ? { at: found[0].length, words: "under " } : undefined;
}
/** `single`, where a phase was told or asked for. */
function phaseLeftOut(asked: string, { facts: { facts, free }, needs = [] }: Topic): Insertion | undefined {
  const isAsked = needs.some(({ ask }) => /single-phase or three-phase/i.test(ask));
  const found = SINGLE.exec(asked) ?? (isAsked ? COUNTED.exec(asked) : null);
  const isOfPhases = free.some(({ key }) => key.startsWith("phase:")) || facts.some(({ slots }) => slots.phase) ||
    needs.some(({ field, ask }) => /phase/i.test(`${field} ${ask}`));
  return found && isOfPhases ? { at: found[0].length, words: " phase" } : undefined;
}

const WORD = /\b[a-z]{3,}\b/gi;
const POINTING = /\b(?:the|that|this|my|our|a second|another)\s+$/i;
const isUnknown = (word: string): boolean => readText(word).pieces.every(({ is }) => is === "unknown");
/** `the tub`, of the one thing known that ends so: a hot tub. */
function nameLeftOut(asked: string, { facts: { facts }, gone = [] }: Topic): Insertion | undefined {
  const known = [...facts, ...gone];
  for (const found of asked.matchAll(WORD)) {
    const word = found[0].toLowerCase();
    const full = fullNames(known, word);
    const words = full[0]?.slice(0, -word.length);
    if (full.length !== 1 || asked.slice(0, found.index).toLowerCase().endsWith(words!)) continue;
    // `60 A tub`: without an article only what means nothing by itself.
    const isPointed = POINTING.test(asked.slice(0, found.index));
    if (isPointed ? !knowsPlain(known, word) : isUnknown(word)) return { at: found.index, words: words! };
  }
  return undefined;
}
/** The names of known loads that end in this word and are more than it. */
const fullNames = (facts: readonly Fact[], word: string): string[] => [
  ...new Map(
    facts.flatMap(({ family, id, said }) => {
      const name = said.trim().toLowerCase();
      // What is called by its figure has no name.
      const isName = family === "load" && id !== undefined && !/\d/.test(name);
      return isName && name.endsWith(` ${word}`) ? [[id, name] as const] : [];
    }),
  ).values(),
];
/** Whether the word alone already names something that is known. */
const knowsPlain = (facts: readonly Fact[], word: string): boolean => {
  const alone = readText(word).facts.facts;
  return alone.some(({ family, id }) => facts.some((known) => known.family === family && known.id === id));
};
