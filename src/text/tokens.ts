/**
 * Reads the quantities in a text as people write them, and puts a placeholder in each one's place:
 * `two 4 kW ovens` becomes `‹0 n› ‹1 kW› ovens`. Phrases are then matched against that plain text, so they never
 * look at digits, and every placeholder knows where in the asked text it came from.
 */
import { type FractionDefinition, type MathNode, parse } from "mathjs";
import type { Span } from "../core/outcome.ts";
import { exact, type Fraction, isUnit } from "../core/quantity.ts";
import { convert, type Unit } from "../core/quantity.ts";

/** Units people write that are no unit of the trade's sums: read here, and asked about or converted. */
export type SpokenUnit = Unit | "ton" | "BTU/h" | "°F" | "gal" | "min" | "mm2";
export type Token =
  | { is: "quantity"; n: string; unit: SpokenUnit; from?: string }
  | { is: "n"; n: string }
  | { is: "size"; size: string }
  | { is: "sizes"; sizes: readonly string[] }
  | { is: "cable"; size: string; wires: number }
  | { is: "system"; system: string }
  | { is: "phase"; phases: 1 | 3 }
  | { is: "supply"; volts: string; phases: 1 | 3 }
  | { is: "pair"; larger: string; smaller: string }
  | { is: "rpm"; n: string }
  | { is: "hz"; n: string }
  | { is: "sf"; n: string }
  | { is: "edition"; edition: string }
  | { is: "section"; section: string };

/** The text with placeholders, and the way back from each of its characters to the asked text. */
export type TokenText = {
  asked: string;
  plain: string;
  tokens: readonly Token[];
  /** For each character of `plain`, the position in `asked` it stands for; one more for the end. */
  origin: readonly number[];
  /** Each word the reader took for another, `dryr` for `dryer`. */
  corrected: readonly { said: string; read: string }[];
};

const WORD_NUMBERS: Record<string, number> = {
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  seventeen: 17,
  eighteen: 18,
  nineteen: 19,
  twenty: 20,
  thirty: 30,
  forty: 40,
  fifty: 50,
  sixty: 60,
  seventy: 70,
  eighty: 80,
  ninety: 90,
  dozen: 12,
};
const TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety";
const WORDS = Object.keys(WORD_NUMBERS).join("|");
const FRACTION_WORDS: Record<string, number> = { half: 2, third: 3, quarter: 4 };
const VULGAR: Record<string, string> = { "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3" };

/** A number as typed: `2,400`, `7-1/2`, `1 1/2`, `3/4`, `.5`, `½`. */
/** Only halves, thirds, quarters and the like are fractions: `200/200` is a busbar and its main. */
const FRACTION = String.raw`\d+\/(?:2|3|4|6|8|16|32)(?![\d/])`;
const NUMBER = String
  .raw`(?:\d+(?:[ -]${FRACTION}|[½¼¾⅓⅔])|${FRACTION}|[½¼¾⅓⅔]|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+)`;

/** Unit spellings, longest meanings first; each ends at a word's end. */
const SPELLINGS: readonly (readonly [SpokenUnit, string])[] = [
  ["VA/ft2", String.raw`va\s*(?:\/|per)\s*(?:sq\.?\s*(?:ft|foot)|square foot|ft2|ft²)`],
  ["ohm/kft", String.raw`(?:ohms?|Ω)\s*(?:\/|per)\s*(?:k\s?ft|1,?000\s*(?:ft|feet|')|thousand feet|kilofoot)`],
  ["ft2", String.raw`sq\.?\s*-?(?:ft|feet|foot)\.?|square[ -]f(?:ee|oo)t(?:age)?|ft\s?2|ft²|s\.?f\.?`],
  ["m2", String.raw`m2|m²|sq\.?\s*m(?:eters?|etres?)?|square m(?:eters?|etres?)`],
  ["mm2", String.raw`mm2|mm²|sq\.?\s*mm`],
  ["in3", String.raw`cu(?:bic|\.)?\s*in(?:ch(?:es)?|\.)?|in3|in³`],
  ["in2", String.raw`sq\.?\s*in(?:ch(?:es)?|\.)?|in2|in²`],
  ["kVA", String.raw`k\s?va`],
  ["MVA", String.raw`mva`],
  ["VA", String.raw`va|volt-?\s?amp(?:ere)?s?`],
  ["kW", String.raw`kw|k\.w\.|kilo-?watts?`],
  ["W", String.raw`w(?:atts?)?(?!\/)`],
  ["kA", String.raw`ka(?:ic)?`],
  ["A", String.raw`amp(?:ere)?s?\.?|-amp`],
  ["kV", String.raw`kv`],
  ["V", String.raw`v(?:olts?|ac|\.)?`],
  ["hp", String.raw`h\.?p\.?|horse-?\s?power|horse`],
  ["ton", String.raw`-?tons?`],
  ["BTU/h", String.raw`btus?(?:\s*(?:\/|per)\s*h(?:ou)?r?)?|btuh`],
  ["kcmil", String.raw`kcmil|mcm|kcm|kc`],
  ["ft", String.raw`-?(?:ft|feet|foot)\.?|['’′](?!')`],
  ["yd", String.raw`yards?|yds?`],
  ["in", String.raw`-?inch(?:es)?|["”″]|''`],
  ["m", String.raw`m(?:eters?|etres?)?`],
  ["°C", String.raw`°\s?c|deg(?:rees?)?\.?\s*c(?:elsius)?|c(?:elsius)?`],
  ["°F", String.raw`°\s?f|deg(?:rees?)?\.?\s*f(?:ahrenheit)?|f(?:ahrenheit)?`],
  ["ohm", String.raw`ohms?|Ω`],
  ["lbf-in", String.raw`(?:in|inch)[ -]?(?:lbs?|pounds?)|lbf?[ -]?in`],
  ["lbf-ft", String.raw`(?:ft|foot)[ -]?(?:lbs?|pounds?)|lbf?[ -]?ft`],
  ["gal", String.raw`-?gal(?:lons?|\.)?`],
  ["min", String.raw`min(?:utes?)?`],
  ["%", String.raw`%|percent|per cent|pct`],
];
const UNIT = SPELLINGS.map(([, spelling], i) => `(?<u${i}>${spelling})`).join("|");
const ANY_UNIT = SPELLINGS.map(([, spelling]) => spelling).join("|");
/** A unit ends where a letter or digit does not follow. */
const END = String.raw`(?![A-Za-z0-9])`;

function numberOf(text: string): Fraction {
  const plain = text.replaceAll(",", "").replace(/[½¼¾⅓⅔]/, (sign) => ` ${VULGAR[sign]!}`).trim();
  const mixed = /^(\d+)[ -](\d+\/\d+)$/.exec(plain);
  if (mixed) return exact(mixed[1]!).add(exact(mixed[2]!));
  return exact(plain.startsWith(".") ? `0${plain}` : plain);
}

const wordNumber = (text: string): number =>
  text.toLowerCase().split(/[\s-]+/).reduce((sum, word) => sum + (WORD_NUMBERS[word] ?? 0), 0);

function unitOf(groups: Record<string, string | undefined>): SpokenUnit {
  return SPELLINGS[SPELLINGS.findIndex((_, i) => groups[`u${i}`] !== undefined)]![0];
}

/** Sums people type, `(1200 + 900)`: the parser's nodes are let through only if they are these. */
function arithmetic(node: MathNode): Fraction {
  if (node.type === "ParenthesisNode") return arithmetic((node as MathNode & { content: MathNode }).content);
  if (node.type === "ConstantNode") return exact(String((node as MathNode & { value: FractionDefinition }).value));
  if (node.type === "OperatorNode") {
    const { op, args } = node as MathNode & { op: string; args: MathNode[] };
    if (args.length === 2 && (op === "+" || op === "*")) {
      const [a, b] = args.map(arithmetic) as [Fraction, Fraction];
      return op === "+" ? a.add(b) : a.mul(b);
    }
  }
  throw new RangeError("only sums and products of numbers are read");
}

type Rule = { name: string; pattern: RegExp; read: (m: RegExpExecArray) => Token | undefined };
const rule = (name: string, pattern: string, read: Rule["read"]): Rule => ({
  name,
  pattern: new RegExp(pattern, "iy"),
  read,
});

const AWG = "(?:18|16|14|12|10|8|6|4|3|2|1)";
const NAUGHT = String.raw`[1-4]\s?\/\s?0`;
const KCMIL = "(?:250|300|350|400|500|600|700|750|800|900|1000|1250|1500|1750|2000)";
const sizeName = (text: string): string => {
  const plain = text.replace(/\s/g, "").replace(/^0+$/, (zeros) => `${zeros.length}/0`);
  return /^\d{3,4}$/.test(plain) ? `${plain} kcmil` : plain;
};
const INSULATION = "thhn|thwn|thw|xhhw|rhw|rhh|use|uf|nm|nmb|nm-b|se|ser|seu|mc|romex|tw|xlp|xlpe|urd";
const SYSTEMS: Record<string, string> = {
  "120/240": "120/240",
  "240/120": "120/240",
  "110/220": "120/240",
  "115/230": "120/240",
  "220/110": "120/240",
  "120/208": "208Y/120",
  "208/120": "208Y/120",
  "277/480": "480Y/277",
  "480/277": "480Y/277",
  "347/600": "600Y/347",
  "600/347": "600Y/347",
  "230/460": "230/460",
  "208/230": "208/230",
  "115/208": "115/208-230",
};

/** What nameplates print before a number. */
const LABEL = "(?:hp|horsepower|volts?|voltage|v|amps?|fla|rpm|ph|phases?|hz|hertz|sf|service factor)";
/** A number, in digits or words, that a word after it would be the unit of. */
const NUMBERED = String.raw`(?:[\d½¼¾⅓⅔]|\b(?:single|multi|${WORDS}))[\s-]*`;
/** Below this, `v 3` is no nameplate's voltage. */
const LEAST_VOLTS = 12;
/** A place where a label does not belong to a number before it: no number is there, or only such as have their own labels. */
const AFTER_LABELS = String
  .raw`(?<=(?:(?<!${NUMBERED})|(?<=[/-][13][/-]60[\s,;]+))\b(?:${LABEL}\s*(?:[:=]\s*)?[\d./-]+a?[\s,;]+(?:\d{3}[/-][13][/-]60[\s,;]+)?)*)`;

/** A range's ends are at most this many times apart. */
const WIDEST_RANGE = 3;

/** Tried in this order at every position; the first that reads wins. */
const RULES: readonly Rule[] = [
  rule(
    "edition after",
    String.raw`(20(?:02|05|08|11|14|17|20|23|26))(?=\s*(?:nec|code|edition|cycle))`,
    (m) => ({ is: "edition", edition: m[1]! }),
  ),
  rule(
    "edition before",
    String.raw`(?<=\b(?:nec|code)\s+)(20(?:02|05|08|11|14|17|20|23|26))\b`,
    (m) => ({ is: "edition", edition: m[1]! }),
  ),
  rule(
    "section",
    String
      .raw`(?:tables?\s+|t\.?|art(?:icle|\.)?\s+|§\s*)?\d{3}[.-]\d{1,3}(?:\([a-z0-9]+\))+|(?:tables?\s+|t|art(?:icle|\.)?\s+|sections?\s+|§\s*)\d{3}[.-]\d{1,3}|\b(?:220|210|215|225|230|240|250|310|334|338|422|424|430|440|450|625|680|705)\.\d{1,3}(?!\d)(?=\W|$)(?!\s*-?(?:${ANY_UNIT}|a)${END})`,
    (m) => ({ is: "section", section: m[0] }),
  ),
  // `HP 10 VOLTS 460 AMPS 14`: where labels come first, a number's unit is not the word after it. `HP 28 A` is a heat pump.
  rule(
    "label first",
    String
      .raw`${AFTER_LABELS}(?:(?<hp>hp|horsepower)|(?<v>volts?|voltage|v)|(?<phase>ph|phases?)|(?<rpm>rpm)|(?<hz>hz|hertz)|(?<sf>sf|service factor))\s*(?:[:=]\s*)?(${NUMBER})(?![\d/]|[-.]\d|\s*-?(?:hp|ph(?:ase)?|a|kw|kva|va|w|tons?)\b|\s*-?amps?\b(?!\s*(?:[:=]\s*)?\d))`,
    ({ groups, ...m }) => {
      const n = numberOf(m[7]!);
      if (groups!.hp) return quantity(n, "hp");
      if (groups!.v) return n.compare(LEAST_VOLTS) < 0 ? undefined : quantity(n, "V");
      if (groups!.rpm) return { is: "rpm", n: n.toFraction() };
      if (groups!.hz) return { is: "hz", n: n.toFraction() };
      if (groups!.sf) return n.compare(1) >= 0 && n.compare(2) < 0 ? { is: "sf", n: n.toFraction() } : undefined;
      return n.equals(1) || n.equals(3) ? { is: "phase", phases: n.equals(1) ? 1 : 3 } : undefined;
    },
  ),
  rule(
    "number after its label",
    String.raw`(?<=${AFTER_LABELS}${LABEL}\s*(?:[:=]\s*)?)(${NUMBER})(?=\s+${LABEL}\b\s*(?:[:=]\s*)?\d)`,
    (m) => ({ is: "n", n: numberOf(m[1]!).toFraction() }),
  ),
  // `460/3/60` on a nameplate: volts, phases, hertz.
  rule("supply", String.raw`(\d{3})\s?v?\s?[\/-]\s?([13])\s?(?:ph)?\s?[\/-]\s?[56]0(?:\s?hz)?(?!\d)`, (m) => ({
    is: "supply",
    volts: m[1]!,
    phases: m[2] === "3" ? 3 : 1,
  })),
  // `FLA 28/14`: the currents of a dual-voltage nameplate, one about twice the other.
  rule(
    "pair of currents",
    String
      .raw`(?<=\b(?:fla|f\.l\.a\.?|amps?|amperes|current|nameplate)[\s:=]*(?:is\s|of\s)?)(\d+(?:\.\d+)?)\s?a?\s?\/\s?(\d+(?:\.\d+)?)(?![\d/.])(?:\s?(?:amps?|a)(?![a-z0-9]))?`,
    (m) => {
      const [larger, smaller] = [numberOf(m[1]!), numberOf(m[2]!)];
      const ratio = smaller.equals(0) ? 0 : larger.div(smaller).valueOf();
      return ratio > 1.8 && ratio < 2.2
        ? { is: "pair", larger: larger.toFraction(), smaller: smaller.toFraction() }
        : undefined;
    },
  ),
  rule(
    "phases",
    String.raw`(?:(1|3)|(single|one)|(three))[\s-]*(?:ph(?:ase|s|\.)?\b|[øφ])`,
    (m) => ({ is: "phase", phases: m[3] || m[1] === "3" ? 3 : 1 }),
  ),
  rule(
    "voltage before its phases",
    String.raw`(120|208|240|277|480|600)(?=[\s,]+(?:[13]|single|one|three)[\s-]*ph)`,
    (m) => quantity(numberOf(m[1]!), "V"),
  ),
  // Two legs of 120 V are the 240 V of a two-pole breaker, not 120 V at twice the current.
  rule(
    "two legs",
    String
      .raw`(?:2|two|both)\s+(?:hot\s+)?(?:1[012][05]\s?-?v(?:olts?)?\s+(?:hot\s+)?legs?|legs?\s+(?:(?:each|of|at|with|sending|carrying|both|hot|is|are)\s+)*1[012][05]\s?v(?:olts?)?)${END}`,
    () => ({ is: "system", system: "120/240" }),
  ),
  rule("system", String.raw`(\d{3})(?:\s?y)?\s?\/\s?(\d{3})(?:\s?y(?![a-z]))?(?:\s?v(?:olts?|ac)?(?![a-z]))?`, (m) => {
    const system = SYSTEMS[`${m[1]}/${m[2]}`];
    return system === undefined ? undefined : { is: "system", system };
  }),
  rule(
    "size string",
    String
      .raw`(?:(?:${NAUGHT}|${AWG}|${KCMIL})[-,\s]){2,4}(?:${NAUGHT}|${AWG}|${KCMIL})(?=\s*(?:al|cu|copper|alum|ser|seu|urd|awg|mobile|xhhw|use))`,
    (m) => ({ is: "sizes", sizes: m[0].split(/[-,\s]+/).map(sizeName) }),
  ),
  rule(
    "kcmil size",
    String.raw`#?\s?(${KCMIL})\s?-?(?:kcmil|mcm|kcm|kc)${END}`,
    (m) => ({ is: "size", size: sizeName(m[1]!) }),
  ),
  rule(
    "number size",
    String.raw`#\s?(${NAUGHT}|${KCMIL}|${AWG}|0{1,4})(?![\d/])`,
    (m) => ({ is: "size", size: sizeName(m[1]!) }),
  ),
  rule(
    "gauge size",
    String.raw`(${NAUGHT}|${AWG})[\s-]*(?:awg|gauge|guage|gage|ga)${END}`,
    (m) => ({ is: "size", size: sizeName(m[1]!) }),
  ),
  rule(
    "size said before",
    String.raw`(?:awg|no\.?|number)\s?#?\s?(${NAUGHT}|${AWG})(?![\d/.])`,
    (m) => ({ is: "size", size: sizeName(m[1]!) }),
  ),
  rule(
    "cable",
    String
      .raw`(${AWG})\s?[\/-]\s?([234])(?![\d/.])(?!\s*(?:hp|horse|["”″]|inch|in\b|ton))(?:\s*(?:w(?:ith)?\.?\s?\/?\s?(?:g(?:round|nd|rd)?)\b|wg\b|\/g\b))?`,
    (m) =>
      Number(m[1]) > Number(m[2]) || m[1] === "4" || m[1] === "2"
        ? { is: "cable", size: m[1]!, wires: Number(m[2]) }
        : undefined,
  ),
  rule(
    "large cable",
    String.raw`(${NAUGHT})-([34])(?![\d/.])`,
    (m) => ({ is: "cable", size: sizeName(m[1]!), wires: Number(m[2]) }),
  ),
  rule("naught size", String.raw`(${NAUGHT})(?!\d)`, (m) => ({ is: "size", size: sizeName(m[1]!) })),
  rule(
    "size before its insulation",
    String.raw`(${AWG}|${KCMIL})(?=[\s-]+(?:(?:stranded|solid|copper|aluminum|cu|al)\s+)*(?:${INSULATION})\b)`,
    (m) => ({ is: "size", size: sizeName(m[1]!) }),
  ),
  rule(
    "length by width",
    String
      .raw`(${NUMBER})\s?(?:ft|feet|foot|m|['’′])?\s?(?:x|×|by)\s?(${NUMBER})\s?(?:ft\.?|feet|foot|m(?:eters?|etres?)?|['’′])?(?![a-z0-9])`,
    (m) => {
      const unit = /ft|f[eo][eo]t|['’′]/i.test(m[0]) ? "ft2" : /m/i.test(m[0]) ? "m2" : undefined;
      return unit && quantity(numberOf(m[1]!).mul(numberOf(m[2]!)), unit, m[0]);
    },
  ),
  rule("sum", String.raw`\(?\s*(${NUMBER}(?:\s*\+\s*${NUMBER})+)\s*\)?\s*(?:${UNIT})${END}`, (m) => {
    const unit = unitOf(m.groups!);
    // Motors are listed so, never added up: `50+25+10 hp` is three of them.
    if (unit === "hp") return undefined;
    return quantity(arithmetic(parse(m[1]!.replaceAll(",", ""))), unit, m[0]);
  }),
  // The longer end of a range is the safe one for lengths and loads; that it was taken is said.
  rule(
    "range",
    String.raw`(${NUMBER})\s?(?:['’′]|ft|feet|amps?|a)?\s*(?:-|–|to|or)\s*(${NUMBER})\s*(?:${UNIT}|(?<glued>a))${END}`,
    (m) => {
      const [low, high] = [numberOf(m[1]!), numberOf(m[2]!)];
      const unit = m.groups!.glued ? "A" : unitOf(m.groups!);
      // Two voltages are a transformer's or a nameplate's, two devices with "or" are a choice: neither is a range.
      // And the ends of a range are near each other: `AC 27a - 200a service` is none.
      if (low.compare(high) >= 0 || high.compare(low.mul(WIDEST_RANGE)) > 0) return undefined;
      if (unit === "V" || (unit === "A" && /or/i.test(m[0]))) return undefined;
      // Nor are motors, `4-10 hp motors` is four, nor wire sizes, `raised from 250 to 350 kcmil`.
      if (unit === "hp" || unit === "kcmil") return undefined;
      return quantity(high, unit, m[0]);
    },
  ),
  rule("quantity", String.raw`(${NUMBER})\s*-?(?:${UNIT})${END}`, (m) => quantity(numberOf(m[1]!), unitOf(m.groups!))),
  // `a` after a space is an article, unless it is written as the ampere's capital.
  rule("amperes", String.raw`(${NUMBER})a${END}`, (m) => quantity(numberOf(m[1]!), "A")),
  rule("volts of direct current", String.raw`(${NUMBER})\s*v(?=dc${END})`, (m) => quantity(numberOf(m[1]!), "V")),
  rule("kilo", String.raw`(${NUMBER})k${END}`, (m) => quantity(numberOf(m[1]!), "kW", m[0])),
  // `three quarter horse`, `one and a half hp`: small motors are spoken of in fractions.
  rule(
    "fraction words of horsepower",
    String
      .raw`(?:(${WORDS})\s+and\s+(?:an?|one)\s+|(?:(two|three)|an?|one)[\s-]+)?\b(half|third|quarter)s?(?:\s+of)?(?:\s+an?)?[\s-]+(?:hp|horse-?\s?power|horse)${END}`,
    ([, whole, top = "one", part]) =>
      quantity(
        exact(wordNumber(top)).div(FRACTION_WORDS[part!.toLowerCase()]!).add(whole ? wordNumber(whole) : 0),
        "hp",
      ),
  ),
  rule(
    "number word with unit",
    String.raw`((?:${TENS})-(?:${WORDS})|${WORDS})[\s-]+(?:${UNIT})${END}`,
    (m) => quantity(exact(wordNumber(m[1]!)), unitOf(m.groups!)),
  ),
  rule(
    "number word",
    String
      .raw`(?:(?:a |one )(?=dozen|couple|pair))?((?:${TENS})[\s-](?:${WORDS})|${WORDS}|couple|pair)(?:\s+of)?${END}(?!(?<=two)[\s-]+family)`,
    (m) => ({ is: "n", n: String(/couple|pair/i.test(m[1]!) ? 2 : wordNumber(m[1]!)) }),
  ),
  // `480x120` are two numbers, `2x20hp` a count and a power; any other letter behind makes a model number of it.
  rule(
    "number",
    String.raw`(${NUMBER})(?![A-Za-z0-9])|(\d{2,3}(?=x\d{2,3}\b)|\d{1,2}(?=x\d[\d./-]*\s?hp${END}))`,
    (m) => ({ is: "n", n: numberOf(m[1] ?? m[2]!).toFraction() }),
  ),
];
const CAPITAL_AMPERES = new RegExp(String.raw`(${NUMBER}) A${END}`, "y");

const METRIC: Partial<Record<SpokenUnit, Unit>> = { m: "ft", yd: "ft" };
/** Lengths are worked in feet; what was typed stays in `from`. */
function quantity(n: Fraction, unit: SpokenUnit, from?: string): Token {
  const to = METRIC[unit];
  if (to !== undefined && isUnit(unit)) {
    return {
      is: "quantity",
      n: convert({ n: n.toFraction(), unit }, to).n,
      unit: to,
      from: from ?? `${n.valueOf()} ${unit}`,
    };
  }
  return { is: "quantity", n: n.toFraction(), unit, ...(from !== undefined && { from }) };
}

/** A section keeps its number, so that cues can tell one rule from another. */
const label = (token: Token): string =>
  token.is === "quantity" ? token.unit : token.is === "section" ? `section ${token.section.toLowerCase()}` : token.is;

/**
 * Reads a text into placeholders and lower-case words. `correct` mends a mistyped word, or leaves it; digits right after
 * a word that is not `known`, as in `JT955`, are part of a model number and no quantity.
 */
export function tokenize(
  asked: string,
  correct: (word: string) => string = (word) => word,
  known: (word: string) => boolean = () => true,
): TokenText {
  const tokens: Token[] = [];
  const corrected: { said: string; read: string }[] = [];
  const origin: number[] = [];
  let plain = "";
  const put = (text: string, from: number, to: number) => {
    for (let i = 0; i < text.length; i++) origin.push(Math.min(from + i, to - 1));
    plain += text;
  };
  let at = 0;
  while (at < asked.length) {
    const boundary = at === 0 || !/[A-Za-z0-9]/.test(asked[at - 1]!) ||
      /[0-9]/.test(asked[at - 1]!) !== /[0-9]/.test(asked[at]!);
    const read = boundary ? readAt(asked, at) : undefined;
    if (read) {
      put(`‹${tokens.length} ${label(read.token)}›`, at, at + read.length);
      tokens.push(read.token);
      at += read.length;
      continue;
    }
    const word = /[a-z][a-z'’]*/iy;
    word.lastIndex = at;
    const said = word.exec(asked)?.[0];
    if (said === undefined) {
      put(asked[at]!, at, at + 1);
      at++;
      continue;
    }
    const lower = said.toLowerCase();
    const mended = correct(lower);
    if (mended !== lower) corrected.push({ said, read: mended });
    put(mended, at, at + said.length);
    at += said.length;
    const model = /\d[a-z0-9.]*/iy;
    model.lastIndex = at;
    const rest = known(mended) ? undefined : model.exec(asked)?.[0];
    if (rest === undefined) continue;
    put("_".repeat(rest.length), at, at + rest.length);
    at += rest.length;
  }
  origin.push(asked.length);
  return { asked, plain, tokens, origin, corrected };
}

function readAt(asked: string, at: number): { token: Token; length: number } | undefined {
  CAPITAL_AMPERES.lastIndex = at;
  const amperes = CAPITAL_AMPERES.exec(asked);
  if (amperes && !/^\s+[a-z]+\s+(?:day|week|month|year)/.test(asked.slice(at + amperes[0].length))) {
    return { token: quantity(numberOf(amperes[1]!), "A"), length: amperes[0].length };
  }
  for (const { pattern, read } of RULES) {
    pattern.lastIndex = at;
    const match = pattern.exec(asked);
    const token = match ? read(match) : undefined;
    if (match && token) return { token, length: match[0].length };
  }
  return undefined;
}

/** The stretch of the asked text that characters `from` to `to` of the plain text stand for. */
export function spanOf(text: TokenText, from: number, to: number): Span {
  const at = text.origin[from]!;
  const end = text.origin[to] ?? text.asked.length;
  return { at, text: text.asked.slice(at, end).trim() };
}
