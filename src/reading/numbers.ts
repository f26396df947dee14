/**
 * Numbers as typed and as dictated: `7-1/2`, `½`, `a hundred fifty`, `two oh eight`, `four eighty`, `seven and a half`.
 * The longest reading is the only one: a number is never cut short to make something else of its rest.
 */
import { type Token, VULGAR } from "./tokens.ts";

/** A number and the first token after it. */
export type Read = {
  readonly n: number;
  /** Exact, where no decimal is: `1/3`. */
  readonly exact?: string;
  readonly next: number;
  readonly inWords: boolean;
  /** Dictated in two parts that could also be a count and a figure: `two twenty`, with where it could be parted. */
  readonly parts?: { readonly first: number; readonly second: number; readonly at: number };
};

const UNITS: Readonly<Record<string, number>> = Object.fromEntries(
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
    .split(" ").map((word, n) => [word, n]),
);
const TENS: Readonly<Record<string, number>> = Object.fromEntries(
  "twenty thirty forty fifty sixty seventy eighty ninety".split(" ").map((word, i) => [word, 20 + 10 * i]),
);
const SPANISH: Readonly<Record<string, number>> = {
  uno: 1,
  una: 1,
  dos: 2,
  tres: 3,
  cuatro: 4,
  cinco: 5,
  seis: 6,
  siete: 7,
  ocho: 8,
  nueve: 9,
  diez: 10,
  doce: 12,
  quince: 15,
  veinte: 20,
  treinta: 30,
  cuarenta: 40,
  cincuenta: 50,
  sesenta: 60,
  cien: 100,
  doscientos: 200,
};
const GROUPS: Readonly<Record<string, number>> = { dozen: 12, couple: 2, pair: 2 };
const PARTS: Readonly<Record<string, number>> = {
  half: 2,
  third: 3,
  thirds: 3,
  quarter: 4,
  quarters: 4,
  eighth: 8,
  eighths: 8,
};
/** Denominators people type; `200/200` is a busbar and its main. */
const DENOMINATORS = [2, 3, 4, 6, 8, 16, 32];

/** Whether a word may begin a number. */
export const isNumberWord = (word: string): boolean =>
  SINGULAR.has(word) || word in UNITS || word in TENS || word in SPANISH || word in GROUPS || word === "hundred" ||
  word === "thousand";

/** Many rules look for a number at the same place: each place of a text is read once. */
const known = new WeakMap<readonly Token[], (Read | null | undefined)[]>();

/** The number that begins at token `i`, if one does. */
export function numberAt(tokens: readonly Token[], i: number): Read | undefined {
  let places = known.get(tokens);
  if (!places) known.set(tokens, places = []);
  const found = places[i];
  if (found !== undefined) return found ?? undefined;
  const read = readAt(tokens, i);
  places[i] = read ?? null;
  return read;
}

function readAt(tokens: readonly Token[], i: number): Read | undefined {
  const token = tokens[i];
  if (!token) return undefined;
  if (token.is === "number") return inDigits(tokens, i);
  if (token.text in VULGAR) return fraction(VULGAR[token.text]!, 0, i + 1, false);
  // `inch and a half deep`: the one inch is not said.
  if (token.text === "inch" && tokens[i + 1]?.text === "and" && tokens[i - 1]?.is !== "number") {
    const half = partWord(tokens, i + 2);
    return half && fraction(half.part, 1, half.next, true);
  }
  return token.is === "word" ? inWords(tokens, i) : undefined;
}

const fraction = ([top, bottom]: readonly [number, number], whole: number, next: number, inWords: boolean): Read => {
  const n = whole + top / bottom;
  return { n, ...(bottom % 3 === 0 && { exact: `${whole * bottom + top}/${bottom}` }), next, inWords };
};

const UNITS_OF_POWER = new Set(["kw", "kva", "hp", "kwh", "mva", "m", "mm", "mm2"]);
function inDigits(tokens: readonly Token[], i: number): Read {
  const first = tokens[i]!;
  const plain: Read = { n: first.n!, next: i + 1, inWords: false };
  const after = tokens[i + 1];
  // `2 hundred`, `2.4 thousand`, `3 dozen`
  const scale = { hundred: 100, thousand: 1000, dozen: 12 }[after?.text ?? ""];
  if (scale) return { n: first.n! * scale, next: i + 2, inWords: true };
  if (!Number.isInteger(first.n)) return plain;
  // `5,5 kW`: a comma for the point, right before a unit that has no list of sizes.
  const [comma, part2, unit] = [after, tokens[i + 2], tokens[i + 3]];
  const isDecimal = comma?.text === "," && comma.glued && part2?.is === "number" && part2.glued &&
    part2.text.length <= 2 && UNITS_OF_POWER.has(unit?.text ?? "") && tokens[i - 1]?.text !== ",";
  if (isDecimal) return { n: Number(`${first.text}.${part2.text}`), next: i + 3, inWords: false };
  // `7½`
  if (after && after.text in VULGAR) return fraction(VULGAR[after.text]!, first.n!, i + 2, false);
  // `1/2`
  const part = slashed(tokens, i);
  if (part && part[0] < part[1]) return fraction(part, 0, i + 3, false);
  // `7-1/2`, `7 1/2`, `7 and 1/2`
  const hyphen = after?.text === "-" && after.glued ? 1 : after?.text === "and" || after?.text === "&" ? 1 : 0;
  const mixed = slashed(tokens, i + 1 + hyphen);
  if (mixed && mixed[0] < mixed[1] && mixed[0] > 0 && first.n! < 1000 && mixed[0] < first.n! * 40) {
    return fraction(mixed, first.n!, i + 4 + hyphen, false);
  }
  // `5 and a half`
  if (after?.text === "and") {
    const half = partWord(tokens, i + 2);
    if (half) return fraction(half.part, first.n!, half.next, false);
  }
  return plain;
}

/** `1/2` as numerator and denominator, of numbers that touch the slash. */
function slashed(tokens: readonly Token[], i: number): readonly [number, number] | undefined {
  const [top, slash, bottom] = [tokens[i], tokens[i + 1], tokens[i + 2]];
  if (top?.is !== "number" || slash?.text !== "/" || bottom?.is !== "number") return undefined;
  if (!Number.isInteger(top.n) || !DENOMINATORS.includes(bottom.n!)) return undefined;
  const follows = tokens[i + 3];
  if (follows?.text === "/" && follows.glued) return undefined;
  return [top.n!, bottom.n!];
}

/** `a half`, `three quarters`, `half`. */
function partWord(
  tokens: readonly Token[],
  i: number,
): { part: readonly [number, number]; next: number } | undefined {
  const [one, two, three] = [tokens[i]?.text ?? "", tokens[i + 1]?.text ?? "", tokens[i + 2]?.text ?? ""];
  if (one in PARTS) return { part: [1, PARTS[one]!], next: i + 1 };
  const top = one === "a" || one === "an" ? 1 : UNITS[one];
  if (top === undefined || top === 0) return undefined;
  if (two in PARTS && top < PARTS[two]!) return { part: [top, PARTS[two]!], next: i + 2 };
  return two === "-" && three in PARTS && top < PARTS[three]! ? { part: [top, PARTS[three]!], next: i + 3 } : undefined;
}

/** `with eights`, `they are forties`: several of that number. */
const singular = (word: string): string => SINGULAR.get(word) ?? word;
const SINGULAR: ReadonlyMap<string, string> = new Map(
  [...Object.keys(UNITS).slice(2), ...Object.keys(TENS)].map((word) => [
    word.endsWith("y") ? `${word.slice(0, -1)}ies` : word.endsWith("x") ? `${word}es` : `${word}s`,
    word,
  ]),
);
/** Skips the hyphen inside a number word, `forty-eight`. */
const hop = (tokens: readonly Token[], i: number): number =>
  tokens[i]?.text === "-" && tokens[i]!.glued && tokens[i + 1]?.is === "word" ? i + 1 : i;

/** What a small number before it counts, and no number before that: phases, wires, poles. */
const OF_SUPPLIES = new Set([
  "phase",
  "phases",
  "ph",
  "ø",
  "pole",
  "poles",
  "wire",
  "wires",
  "conductor",
  "conductors",
]);
/** A number below a hundred: `forty-eight`, `twelve`. */
function small(tokens: readonly Token[], i: number): { n: number; next: number } | undefined {
  const word = singular(tokens[i]?.text ?? "");
  if (word in SPANISH) return { n: SPANISH[word]!, next: i + 1 };
  if (word in UNITS) return { n: UNITS[word]!, next: i + 1 };
  if (!(word in TENS)) return undefined;
  const next = hop(tokens, i + 1);
  const unit = UNITS[tokens[next]?.text ?? ""];
  // `four eighty three phase`: the three are phases.
  const counts = tokens[next + 1]?.text === "-" ? tokens[next + 2]?.text : tokens[next + 1]?.text;
  if (unit !== undefined && unit <= 4 && OF_SUPPLIES.has(counts ?? "")) return { n: TENS[word]!, next: i + 1 };
  return unit !== undefined && unit >= 1 && unit <= 9
    ? { n: TENS[word]! + unit, next: next + 1 }
    : { n: TENS[word]!, next: i + 1 };
}

/** What parts are told of without a number before them: `half a horse`, `half inch`, `quarter hp`. */
const MEASURED = new Set(
  ("a an of the - hp horse horses horsepower inch inches in ton tons kw kilowatt kilowatts amp amps ampere kva hour hours foot " +
    "feet mile gallon dozen percent load").split(" "),
);

function inWords(tokens: readonly Token[], i: number): Read | undefined {
  const word = tokens[i]!.text;
  const part = partWord(tokens, i);
  // `half a horse`, `a third hp`: only where a unit of power follows, which the caller sees; `a half` alone is a part too.
  // `half gone`, `the third floor`: a part of nothing that is measured is no number.
  if (part && word in PARTS && !MEASURED.has(tokens[part.next]?.text ?? "")) return undefined;
  if (part && (word in PARTS || word !== "a" || tokens[i + 1]!.text in PARTS)) {
    const next = tokens[part.next]?.text === "of" ? part.next + 1 : part.next;
    const article = tokens[next]?.text === "a" || tokens[next]?.text === "an" ? next + 1 : next;
    return fraction(part.part, 0, word in PARTS || next > part.next ? article : part.next, true);
  }
  const article = (word === "a" || word === "an") ? 1 : 0;
  const scaleWord = tokens[i + article]?.text ?? "";
  let n: number;
  let next: number;
  let parts: Read["parts"];
  if (article === 1 || scaleWord in GROUPS || scaleWord === "hundred" || scaleWord === "thousand") {
    if (scaleWord in GROUPS) {
      const of = tokens[i + article + 1]?.text === "of" ? 1 : 0;
      return { n: GROUPS[scaleWord]!, next: i + article + 1 + of, inWords: true };
    }
    if (scaleWord !== "hundred" && scaleWord !== "thousand") return undefined;
    n = 1;
    next = i + article;
  } else {
    const first = small(tokens, i);
    if (!first) return undefined;
    ({ n, next } = first);
    if (n > 0 && tokens[next]?.text === "dozen") return { n: n * 12, next: next + 1, inWords: true };
    const dictated = n > 0 && n < 100 ? second(tokens, next) : undefined;
    if (dictated && (n < 10 || (n < 100 && dictated.n >= 10))) {
      parts = { first: n, second: dictated.n, at: next };
      n = n * 100 + dictated.n;
      next = dictated.next;
      return ending(tokens, { n, next, inWords: true, parts });
    }
  }
  ({ n, next } = scaled(tokens, n, next));
  return ending(tokens, { n, next, inWords: true });
}

/** The second half of a dictated number: `oh eight`, `forty`, `twelve`. */
function second(tokens: readonly Token[], i: number): { n: number; next: number } | undefined {
  i = hop(tokens, i);
  const word = tokens[i]?.text ?? "";
  if (word === "oh" || word === "o" || word === "zero") {
    const unit = UNITS[tokens[i + 1]?.text ?? ""];
    return unit !== undefined && unit >= 1 && unit <= 9 ? { n: unit, next: i + 2 } : undefined;
  }
  const rest = small(tokens, i);
  if (!rest || rest.n < 10) return undefined;
  const after = tokens[rest.next]?.text;
  return after === "hundred" || after === "thousand" ? undefined : rest;
}

/** `two thousand two hundred`, `a hundred and fifty`, `twenty two hundred`. */
function scaled(tokens: readonly Token[], first: number, from: number): { n: number; next: number } {
  let [total, group, next] = [0, first, from];
  for (;;) {
    const word = tokens[next]?.text;
    if (word === "hundred") group *= 100;
    else if (word === "thousand") {
      total += group * 1000;
      group = 0;
    } else {
      const scaledAlready = next > from;
      const at = scaledAlready && word === "and" ? next + 1 : next;
      const more = scaledAlready ? small(tokens, at) : undefined;
      if (!more || more.n === 0 || (group > 0 && (group % 100 !== 0 || more.n >= 100))) break;
      // `a hundred and one` … but `two hundred and a 60` ends before the `and`.
      group += more.n;
      next = more.next;
      continue;
    }
    next++;
  }
  return { n: total + group, next };
}

/** `point five`, `and a half` behind a number word. */
function ending(tokens: readonly Token[], read: Read): Read {
  const word = tokens[read.next]?.text;
  if (word === "point") {
    let digits = "";
    let next = read.next + 1;
    while (
      tokens[next]?.text !== undefined && UNITS[tokens[next]!.text] !== undefined && UNITS[tokens[next]!.text]! < 10
    ) {
      digits += UNITS[tokens[next]!.text];
      next++;
    }
    if (digits !== "") return { ...read, n: Number(`${read.n}.${digits}`), next };
    if (tokens[next]?.is === "number" && Number.isInteger(tokens[next]!.n)) {
      return { ...read, n: Number(`${read.n}.${tokens[next]!.text}`), next: next + 1 };
    }
  }
  if (word === "and") {
    const half = partWord(tokens, read.next + 1);
    if (half) return fraction(half.part, read.n, half.next, true);
  }
  return read;
}
