/** Text → which question, and its request in the making. Two readings are asked about; none is guessed. */
import type { Need, Span } from "../core/outcome.ts";
import type { AnyQuestion } from "../questions/question.ts";
import { type Cue, type Draft, type Phrase, type Reading, readPhrases, score, unused, vocabulary } from "./phrases.ts";
import { makeMender } from "./mend.ts";
import { tokenize, type TokenText } from "./tokens.ts";

export type Parsed =
  | {
    question: AnyQuestion;
    draft: Draft;
    edition?: string;
    readAs: string[];
    asks: Need[];
    unused: Span[];
    tokens: TokenText;
  }
  /** Asked back, or declined by the name of a question that is understood and not worked out here. */
  | { question?: undefined; declined?: string; needs: Need[]; unused: Span[] };

/** A question of the trade that is known by its cues alone. */
export type Named = { readonly title: string; readonly cues: readonly Cue[] };

export type Reader = (asked: string, after?: { kind: string; request: Draft }) => Parsed;

/** Below this a text does not say what it asks. */
const ENOUGH = 2;

/** A fact that any question may carry. */
const EDITION: Phrase = {
  name: "edition",
  pattern: "(under |by |per |use |using |with |the )*(nec )?{edition}( (code|nec|edition|cycle))?",
  read: (m, { draft }) => void (draft.edition = m.token("edition")!.edition),
};
/** Section numbers that no phrase of the question took to mean something. */
const SECTIONS: Phrase = {
  name: "section numbers",
  pattern: "(by |per |under |in |from )?(the )?{section}",
  read: () => {},
};

/** A text that begins so changes what was asked before. */
const CHANGE =
  /^\W*(?:(?:and|now|ok|please|then|also|what if (?:i|we)|can you) )*(?:and (?:an?|another)|what if|add|without|no|remove|drop|make|change|swap|replace|switch|use|with|instead|on|at|by|under)\b/i;

/** Words too short for the vocabulary that digits may follow without a space: `ac24A`, `x2`. */
const SHORT_WORDS = new Set("mm ac hp ev wh dw x at is of to a v kw mca fla rla flc awg no by nec".split(" "));

/** Builds the reader of all questions; its vocabulary mends typing slips of one letter. */
export function makeReader(questions: readonly AnyQuestion[], notYet: readonly Named[] = []): Reader {
  const known = vocabulary([EDITION, SECTIONS, ...questions.flatMap((q) => [...q.phrases, ...q.cues])]);
  const isKnown = (word: string): boolean => known.has(word) || SHORT_WORDS.has(word);
  const mend = makeMender(known);

  return (asked, after) => {
    const tokens = tokenize(asked, mend, isKnown);
    const ranked = questions.map((q) => ({ q, points: score(tokens, q.cues) })).sort((a, b) => b.points - a.points);
    const [first, second] = ranked;
    const declined = notYet.find(({ cues }) => score(tokens, cues) > (first?.points ?? 0));
    if (declined) return { declined: declined.title, needs: [], unused: [] };
    const earlier = after && questions.find((q) => q.id === after.kind);
    // A follow-up changes the earlier question unless it plainly asks another one; the more plainly it tells a change,
    // the more plainly the other one must be asked.
    const plainly = CHANGE.test(asked) ? 2 * ENOUGH + 1 : ENOUGH + 1;
    const amends = earlier !== undefined &&
      (first === undefined || first.points < plainly || first.q === earlier ||
        isOnlyAChange(asked, tokens, earlier, after!.request));
    if (!amends && (first === undefined || first.points < ENOUGH)) {
      return { needs: [whatIsAsked(questions)], unused: [] };
    }
    if (!amends && second !== undefined && second.points === first!.points) {
      return { needs: [which(first!.q, second.q)], unused: [] };
    }
    const question = amends ? earlier! : first!.q;
    const draft: Draft = amends ? structuredClone(after!.request) : {};
    const readAs = tokens.corrected.map(({ said, read }) => `read "${said}" as "${read}"`);
    const asks: Need[] = [];
    const reading: Reading = {
      draft,
      amending: amends,
      readAs: (text) => void readAs.push(text),
      ask: (need) => void asks.push(need),
    };
    for (const token of tokens.tokens) {
      if (token.is === "quantity" && token.from !== undefined) {
        readAs.push(
          `took "${token.from.trim()}" as ${
            Number(fractionValue(token.n)).toLocaleString("en-US", { maximumFractionDigits: 2 })
          } ${token.unit}`,
        );
      }
    }
    const left = readPhrases(tokens, [EDITION, ...question.phrases, SECTIONS], reading);
    question.settle?.(reading);
    const { edition, ...request } = draft;
    const spans = unused(tokens, left);
    const changesNothing = amends && edition === undefined && asks.length === 0 &&
      JSON.stringify(request) === JSON.stringify(after!.request);
    const figure = changesNothing ? spans.find(({ text }) => /\d/.test(text)) : undefined;
    if (figure) asks.push(whatChanges(figure.text, question));
    return {
      question,
      draft: request,
      readAs,
      asks,
      unused: spans,
      tokens,
      ...(typeof edition === "string" && { edition }),
    };
  };
}

/** Longest change, in words, that may outweigh another question's cues: `5 % drop`. */
const SHORT_CHANGE = 4;

/** Whether a short text is read in full, and changes something, as a follow-up of the earlier question. */
function isOnlyAChange(asked: string, tokens: TokenText, earlier: AnyQuestion, request: Draft): boolean {
  if (asked.trim().split(/\s+/).length > SHORT_CHANGE) return false;
  const draft = structuredClone(request);
  let asks = 0;
  const reading: Reading = { draft, amending: true, readAs: () => {}, ask: () => void asks++ };
  const left = readPhrases(tokens, earlier.phrases, reading);
  earlier.settle?.(reading);
  return asks === 0 && unused(tokens, left).length === 0 && JSON.stringify(draft) !== JSON.stringify(request);
}

function fractionValue(n: string): number {
  const [top, bottom] = n.split("/").map(Number);
  return top! / (bottom ?? 1);
}

function whatIsAsked(questions: readonly AnyQuestion[]): Need {
  return {
    field: "question",
    ask: `I can't tell what is asked. I can work out: ${questions.map((q) => q.title.toLowerCase()).join("; ")}.`,
    example: questions[0]?.examples[0] ?? "",
  };
}

function whatChanges(figure: string, { examples }: AnyQuestion): Need {
  return {
    field: "question",
    ask: `I can't tell what "${figure}" changes. Say what it is, with its unit.`,
    example: examples[0] ?? "",
  };
}

function which(a: AnyQuestion, b: AnyQuestion): Need {
  return {
    field: "question",
    ask: `This could ask for ${a.title.toLowerCase()} or for ${b.title.toLowerCase()}. Which one do you mean?`,
    example: a.examples[0] ?? "",
  };
}
