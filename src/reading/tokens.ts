/**
 * Text → tokens: words, numbers in digits, marks and line ends, each with its place in the asked text. Nothing is dropped
 * and nothing is understood here; a word glued to a number is two tokens that touch.
 */
export type Token = {
  readonly is: "word" | "number" | "mark" | "line";
  /** Lower case, with plain quotes and hyphens; a mended word is its right spelling. */
  readonly text: string;
  /** As typed, for words whose capitals mean something (`60 A`). */
  readonly typed: string;
  readonly at: number;
  readonly end: number;
  /** Whether nothing stands between this token and the one before. */
  readonly glued: boolean;
  /** Of a number in digits. */
  readonly n?: number;
};

/** Typographic forms of one mark. */
const PLAIN: Readonly<Record<string, string>> = {
  "’": "'",
  "‘": "'",
  "′": "'",
  "`": "'",
  "“": '"',
  "”": '"',
  "″": '"',
  "–": "-",
  "—": "-",
  "−": "-",
  "‑": "-",
  "×": "x",
  "÷": "/",
  "º": "°",
  "˚": "°",
  "⌀": "ø",
  "φ": "ø",
  "Φ": "ø",
  "Ø": "ø",
  "Ω": "ohm",
  "²": "2",
  "³": "3",
};
/** Fractions of one character, as typed otherwise. */
export const VULGAR: Readonly<Record<string, readonly [number, number]>> = {
  "½": [1, 2],
  "¼": [1, 4],
  "¾": [3, 4],
  "⅓": [1, 3],
  "⅔": [2, 3],
  "⅛": [1, 8],
  "⅜": [3, 8],
  "⅝": [5, 8],
  "⅞": [7, 8],
};

/** `2,400`, `14.1`, `.5`, `480`; a comma parts thousands only where three digits follow each. */
const NUMBER = /\d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\d])|\d+(?:\.\d+)?|\.\d+/y;
const WORD = /\p{L}+(?:'(?=\p{L})\p{L}+)*/yu;
/** Numbers in words, in the plural. */
const MANY = /^(?:(twent|thirt|fort|fift|sixt|sevent|eight|ninet)ies|(two|three|four|five|seven|ten)s)$/;
/** `eightplex`: so many homes; smaller ones have names of their own. */
const PLEX = /^(five|seven|eight|nine|ten|eleven|twelve|sixteen|twenty)plex$/;
/** With an apostrophe these are words of their own: `that's`, `there's`. */
const NO_OWNERS = new Set(
  "it he she we that what there here where when this which who how why let she one her guy everything everyone nobody"
    .split(" "),
);
const SPACE = /[^\S\n]+/y;
/** `Cooktop ........ 8 kW`, `Dryer ____ 5 kW`: dots that lead to a value are a colon; a short run in a sentence ends it. */
const LEADER = /\.{4,}|_{2,}|(?<=[^\S\n])\.{2,3}(?=[^\S\n]*\d)/y;
const ELLIPSIS = /\.{2,3}/y;
const QUOTES = /[’‘′`]/g;

/** @param asked any text; the work is linear in its length */
export function tokenize(asked: string): Token[] {
  const text = asked.replace(QUOTES, "'");
  const tokens: Token[] = [];
  let at = 0;
  let glued = false;
  const put = (is: Token["is"], end: number, plain: string, n?: number) => {
    const typed = asked.slice(at, end);
    tokens.push({ is, text: plain, typed, at, end, glued, ...(n !== undefined && { n }) });
    at = end;
    glued = is !== "line";
  };
  const match = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0];
  };
  while (at < text.length) {
    const space = match(SPACE);
    if (space !== undefined) {
      at += space.length;
      glued = false;
      continue;
    }
    const char = text[at]!;
    if (char === "\n") {
      put("line", at + 1, "\n");
      continue;
    }
    const leader = match(LEADER);
    const dots = leader ?? match(ELLIPSIS);
    if (dots !== undefined) {
      put("mark", at + dots.length, leader === undefined ? "." : ":");
      continue;
    }
    // A point between digits of a list, `1.5.2`, is no decimal twice over: the pattern takes the first. `no.4` is a number's
    // point.
    const number = char === "." && glued && tokens.at(-1)?.text === "no" ? undefined : match(NUMBER);
    if (number !== undefined) {
      put("number", at + number.length, number, Number(number.replaceAll(",", "")));
      continue;
    }
    const word = match(WORD);
    if (word !== undefined && !(word in PLAIN)) {
      const many = MANY.exec(word.toLowerCase());
      if (many) {
        // `two fifties and a 25`: like `50s`.
        put("word", at + word.length - 1, many[1] !== undefined ? `${many[1]}y` : many[2]!);
        put("word", at + 1, "s");
        continue;
      }
      const homes = PLEX.exec(word.toLowerCase())?.[1];
      if (homes !== undefined) {
        put("word", at + homes.length, homes);
        put("word", at + "plex".length, "plex");
        continue;
      }
      // `the panel's 200 A`: a thing of the trade with what it has, or what it is.
      const owner = /^(\p{L}{2,})'s$/u.exec(word.toLowerCase())?.[1];
      if (owner !== undefined && !NO_OWNERS.has(owner)) {
        put("word", at + word.length - 2, owner);
        put("word", at + 2, "'s");
        continue;
      }
      // `breaker n wire`
      const isAnd = word === "n" && !glued && text[at + 1] === " " && !text.startsWith("n m", at);
      put("word", at + word.length, isAnd ? "and" : PLAIN[word] ?? word.toLowerCase());
      continue;
    }
    const mark = String.fromCodePoint(text.codePointAt(at)!);
    const plain = PLAIN[mark] ?? mark;
    put(/^[a-z]+$/.test(plain) ? "word" : "mark", at + mark.length, plain);
  }
  return tokens;
}
