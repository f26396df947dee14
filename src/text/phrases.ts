/**
 * Phrases: the reader's vocabulary, one line each. A phrase is a small pattern over the placeholder text; what it matched
 * is used up, so nothing is read twice, and what no phrase used is shown back.
 */
import type { Need, Span } from "../core/outcome.ts";
import { exact, type Fraction } from "../core/quantity.ts";
import { spanOf, type SpokenUnit, type Token, type TokenText } from "./tokens.ts";

/** A quantity as it travels in a request: a JSON number where that is exact, otherwise a fraction. */
export type Said<U extends string = SpokenUnit> = { value: number | string; unit: U };

/** An exact number as JSON: `7.5`, or `"1/3"` where no decimal says it. */
export function toJson(n: string | Fraction): number | string {
  const fraction = typeof n === "string" ? exact(n) : n;
  const number = fraction.valueOf();
  return exact(number).equals(fraction) ? number : fraction.toFraction();
}

/** Shorthands for the units a slot takes. */
const SLOTS: Record<string, string> = {
  power: "kW|W|VA|kVA",
  rating: "kW|W|VA|kVA|A|hp",
  length: "ft|in",
  area: "ft2|m2",
  section: "section[^›]*",
  temperature: "°C|°F",
};

export class Match {
  constructor(
    readonly tokens: readonly Token[],
    /** Named groups of the pattern. */
    readonly groups: Readonly<Record<string, string | undefined>>,
    readonly text: string,
    /** Where it stands in the plain text. */
    readonly at: number = 0,
  ) {}

  /** The quantities in order of appearance. */
  get quantities(): Said[] {
    return this.tokens.flatMap((t) => t.is === "quantity" ? [{ value: toJson(t.n), unit: t.unit }] : []);
  }
  /** The first quantity in one of these units. */
  quantity<U extends SpokenUnit>(...units: U[]): Said<U> | undefined {
    return this.quantities.find((q): q is Said<U> => (units as string[]).includes(q.unit));
  }
  /** The plain numbers in order of appearance. */
  get numbers(): number[] {
    return this.tokens.flatMap((t) => t.is === "n" ? [exact(t.n).valueOf()] : []);
  }
  /** The first token of a kind. */
  token<K extends Token["is"]>(is: K): Extract<Token, { is: K }> | undefined {
    return this.tokens.find((t): t is Extract<Token, { is: K }> => t.is === is);
  }
}

/** What reading writes into: a request in the making. */
export type Draft = Record<string, unknown>;
export type Reading = {
  draft: Draft;
  /** Whether an earlier request is being changed. */
  amending: boolean;
  /** Says what was understood differently from how it was written. */
  readAs: (text: string) => void;
  /** Asks back where the words can be read two ways. */
  ask: (need: Need) => void;
};
export type Phrase = {
  name: string;
  /**
   * A regular expression in which a space is any space or hyphen, `{kW|W}`, `{power}`, `{n}`, `{size}`, `{cable}`,
   * `{system}`, `{phase}` stand for what the tokens read, and plain groups do not capture.
   */
  pattern: string;
  /** Writes what was said. `false` leaves the words unused. */
  read: (match: Match, reading: Reading) => void | false;
};
/** Reads with a hand of its own where one pattern cannot, such as a list of loads. */
export type Scan = {
  name: string;
  /** Its vocabulary, in the phrase language. */
  pattern: string;
  /** Reads what earlier phrases left; returns the stretches it used, from and to. */
  scan: (left: string, text: TokenText, reading: Reading) => readonly (readonly [number, number])[];
};
/** What makes a text this question: 3 names it outright, 2 names its object, 1 hints. */
export type Cue = { pattern: string; points: number };

/** Compiles the phrase language to a regular expression. */
export function compile(pattern: string): RegExp {
  const source = pattern
    .replace(/\((?!\?)/g, "(?:")
    .replace(
      /\{([A-Za-z°%][^{}]*|[1])\}/g,
      (_, slot: string) => `‹\\d+ (?:${slot.split("|").map((s) => SLOTS[s] ?? s).join("|")})›`,
    )
    .replaceAll(" ", "[\\s-]+");
  return new RegExp(`(?<![a-z0-9])(?:${source})(?![a-z0-9])`, "giu");
}

const compiled = new WeakMap<object, RegExp>();
function patternOf(item: { pattern: string }): RegExp {
  const seen = compiled.get(item) ?? compile(item.pattern);
  compiled.set(item, seen);
  return seen;
}

const PLACEHOLDER = /‹(\d+) [^›]*›/g;
/** Stands for used-up characters: no letter, digit or space, so that no phrase reads across it. */
export const USED = "·";
const without = (left: string, from: number, to: number): string =>
  left.slice(0, from) + USED.repeat(to - from) + left.slice(to);

/** Reads a text with phrases, in their order; returns the spans that no phrase used. */
export function readPhrases(text: TokenText, phrases: readonly (Phrase | Scan)[], reading: Reading): string {
  let left = text.plain;
  for (const phrase of phrases) {
    if ("scan" in phrase) {
      for (const [from, to] of phrase.scan(left, text, reading)) left = without(left, from, to);
      continue;
    }
    for (const found of [...left.matchAll(patternOf(phrase))]) {
      const tokens = [...found[0].matchAll(PLACEHOLDER)].map((m) => text.tokens[Number(m[1])]!);
      if (phrase.read(new Match(tokens, found.groups ?? {}, found[0], found.index), reading) === false) continue;
      left = without(left, found.index, found.index + found[0].length);
    }
  }
  return left;
}

/** How strongly a text asks a question. */
export const score = (text: TokenText, cues: readonly Cue[]): number =>
  cues.reduce((sum, cue) => sum + (text.plain.match(patternOf(cue)) ? cue.points : 0), 0);

/** Words that carry no fact of their own; anything else that is left over is shown back. */
const FILLER = new Set(
  ("a about all also am an and any are aren't as at away be been being both but by can code could did do does doesn't doing each " +
    "electric electrical else ever far feed feeding find for from get give given go going goes good got has have hello help hey hi " +
    "house how i i'd i'll i'm i've if in into is isn't it it's its just know kind least let like load loads look looking main make me " +
    "minimum min much must my nec need needed needs needing no not now of off ok okay on one only or other our out over per please " +
    "put question questions require required requires right run running say seems should since size sized sizes sizing so some " +
    "something than thank thanks that that's the their them then there there's these they thing things this those though to too total " +
    "trying type under up us use used using want wants was wasn't we we're what what's whats when where whether which while who why " +
    "will with without won't work would yes you you're your calc calculate calculation calculating calculated compute figure sum " +
    "answer anyone cover circuit wire wires wiring new old home dwelling unit units nothing everything rest single-family family " +
    "residence residential building take taken carry tell show work works rated rating nameplate plate says label labeled amps " +
    "volts watts service panel method year national edition well whose w big demand including includes instead rla except add adding change changed")
    .split(
      " ",
    ),
);

/** Whether a word carries no fact of its own. */
export const isFiller = (word: string): boolean => FILLER.has(word.replace("’", "'"));

/** Groups what is left over into spans worth showing back: any quantity, and any word that is no filler. */
export function unused(text: TokenText, left: string): Span[] {
  const spans: Span[] = [];
  const worth = /‹\d+ [^›]*›|[a-z][a-z'’]*/gi;
  let open: { from: number; to: number } | undefined;
  const close = () => {
    if (open) spans.push(spanOf(text, open.from, open.to));
    open = undefined;
  };
  let last = 0;
  for (const found of left.matchAll(worth)) {
    const gap = left.slice(last, found.index);
    if (gap.includes(USED) || /[,;.?!\n]/.test(gap)) close();
    last = found.index + found[0].length;
    if (found[0].startsWith("‹") || !isFiller(found[0])) open = { from: open?.from ?? found.index, to: last };
  }
  close();
  return spans.filter((span) => span.text !== "");
}

/** Every word of at least four letters that some pattern knows: what a mistyped word may be mended to. */
export function vocabulary(items: readonly { pattern: string }[]): Set<string> {
  const words = items.flatMap(({ pattern }) =>
    [...pattern.replace(/\\[a-z]/gi, " ").replace(/\{[^}]*\}|\(\?<[a-z]+>/gi, " ").matchAll(/([a-z']+)(\?)?/gi)]
      .flatMap(
        // A letter with a question mark may be left out: `dryers?` knows both.
        ([, word, optional]) => optional ? [word!, word!.slice(0, -1)] : [word!],
      )
  );
  return new Set(words.map((w) => w.toLowerCase()).filter((w) => w.length >= 4));
}
