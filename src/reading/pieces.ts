/**
 * Tokens → pieces: neighbours that are one thing. A number with its unit, a size, a cable, a pair of voltages, a range, a term
 * of the trade. The longest reading at a place is the only one; where a spelling has several senses, all of them are kept,
 * and what takes the piece decides.
 */
import {
  atOnce,
  choice,
  count,
  dimensions,
  pairOfFigures,
  PAIRS,
  pattern,
  plateCurrents,
  range,
  sum,
} from "./amounts.ts";
import {
  aside,
  ceiling,
  CEILINGS,
  CODE_WORDS,
  codeLetter,
  edition,
  goodAsked,
  MONTHS,
  poles,
  section,
  SECTION_WORDS,
  SITES,
  stayUnder,
  tag,
} from "./asides.ts";
import { bareVolts, number, partedCount, perFoot, quantity, unitFirst, unitWord } from "./figures.ts";
import { box, BOX_BEGINNINGS, deviceWire, howMany } from "./boxes.ts";
import { DEGREE_BEGINNINGS, degreeRules } from "./degrees.ts";
import { HOURS_BEGINNINGS, hoursRules } from "./hours.ts";
import { isEveryday } from "./lexicon/common.ts";
import { termAt } from "./lexicon/lexicon.ts";
import { shareUnits } from "./lists.ts";
import { NOTATION_BEGINNINGS, notationRules, panelName } from "./notations.ts";
import { LEG_BEGINNINGS, legRules } from "./legs.ts";
import { isNumberWord, numberAt } from "./numbers.ts";
import { PLATE_BEGINNINGS, plateRules } from "./plate.ts";
import { monthByMonth } from "./records.ts";
import { READING_BEGINNINGS, readingRules } from "./readings.ts";
import { type Found, isGlued, isTimes, type Piece, type Rule, text } from "./sense.ts";
import {
  cable,
  degreesOfMetal,
  gaugeBehindOn,
  gaugeOnRating,
  gaugeToElectrode,
  gaugeToPull,
  laidIn,
  notOne,
  ofLength,
  raceways,
  raised,
  ratedTerminals,
  ratings,
  rods,
  size,
  SIZE_BEFORE,
  sizesInARow,
  sizesInThePlural,
  sizeToChoose,
  spokenCable,
  tradeSize,
} from "./sizes.ts";
import { nameplateSupply, phase, phaseAlone, system, wires } from "./supplies.ts";
import { spreadRules } from "./spreads.ts";
import { type Token, VULGAR } from "./tokens.ts";
import { unitAt } from "./units.ts";
import { windingsBy } from "./windings.ts";
import { wireway, WIREWAY_BEGINNINGS } from "./wireways.ts";
import { WORKED_BEGINNINGS, workedRules } from "./worked.ts";

/** Tried at every place; the longest that reads wins, and of equals the first. */
const RULES: readonly Rule[] = [
  ...legRules,
  monthByMonth,
  unitFirst,
  ...plateRules,
  ...workedRules,
  nameplateSupply,
  ...notationRules,
  ...readingRules,
  ...degreeRules,
  edition,
  ...hoursRules,
  aside,
  ceiling,
  section,
  windingsBy(system),
  phase,
  phaseAlone,
  laidIn,
  tag,
  wires,
  system,
  pattern,
  wireway,
  box,
  deviceWire,
  howMany,
  cable,
  sizesInARow,
  sizeToChoose,
  raised,
  rods,
  notOne,
  ofLength,
  sizesInThePlural,
  spokenCable,
  gaugeBehindOn,
  gaugeToElectrode,
  gaugeOnRating,
  gaugeToPull,
  raceways,
  dimensions,
  size,
  sum,
  choice,
  range,
  ratings,
  degreesOfMetal,
  ratedTerminals,
  tradeSize,
  atOnce,
  ...spreadRules,
  codeLetter,
  goodAsked,
  stayUnder,
  poles,
  perFoot,
  quantity,
  count,
  bareVolts,
  number,
  plateCurrents,
  pairOfFigures,
];
/** Abbreviations whose point ends no sentence. */
const ABBREVIATIONS = new Set(
  "sq ft in no approx max min vs temp deg amp amps hp st dr mr temp cond ckt bldg elec ea est gal cont incl misc cu al nov oct dec sept aug jan feb mar apr"
    .split(
      " ",
    ),
);
const UNITS_CUT_SHORT = new Set(["ft", "amp", "amps", "hp", "gal", "deg"]);
/** Words of one letter that glued behind a number belong to it; glued letters and digits that are nothing known are a model's name. */
const isSentenceEnd = (t: readonly Token[], i: number): boolean => {
  const after = t[i + 1];
  if (text(t, i) === "?" || text(t, i) === "!" || text(t, i) === ";") return true;
  if (text(t, i) !== ".") return false;
  if (!after) return true;
  if (after.glued && after.is !== "line") return false;
  const before = t[i - 1];
  // `277v.`, `90 °c.`: a unit behind its number ends a sentence like any word.
  const isUnit = before?.is === "word" && before.text.length === 1 &&
    (t[i - 2]?.is === "number" || t[i - 2]?.text === "°");
  if (isUnit) return true;
  // `on 200 amps. 12 kW range`: behind its unit another figure begins anew.
  if (before && UNITS_CUT_SHORT.has(before.text) && after.is === "number") return true;
  const startsAnew = after.is === "line" || after.typed[0] !== after.typed[0]!.toLowerCase();
  return !(before && (ABBREVIATIONS.has(before.text) || (before.is === "word" && before.text.length === 1)) &&
    !startsAnew);
};
/** Whether a term stands there of which there may be one or more: `one range`, and no `new one MCA 17`. */
const countsAt = (t: readonly Token[], i: number): boolean =>
  termAt(t, i)?.terms.some(({ sort }) => sort !== "label") ?? false;
export function piecesOf(tokens: readonly Token[]): Piece[] {
  const pieces: Piece[] = [];
  let i = 0;
  while (i < tokens.length) {
    const token = tokens[i]!;
    const model = modelEnd(tokens, i);
    if (model !== undefined) {
      pieces.push({ is: "fact", senses: [{ is: "aside", because: "a model's name" }], from: i, to: model });
      i = model;
      continue;
    }
    // `range ..... 12 kW`: dots in a row lead to a figure and end nothing.
    if (token.text === "." && tokens[i + 1]?.text === ".") {
      let to = i;
      while (tokens[to]?.text === ".") to++;
      pieces.push({ is: "mark", senses: [], from: i, to });
      i = to;
      continue;
    }
    const found = token.is === "line" ? undefined : longest(tokens, i);
    if (
      found && token.text === "one" && found.to === i + 1 &&
      (!countsAt(tokens, found.to) && !numberAt(tokens, found.to) ||
        text(tokens, i - 1) === "in" && tradeSize(tokens, found.to) !== undefined)
    ) {
      // `a 24 A one`: no count, where it counts nothing; `in one 3/4 EMT`: nor where it is said of a raceway.
      pieces.push({ is: "common", senses: [], from: i, to: i + 1 });
      i++;
      continue;
    }
    if (found) {
      pieces.push({ is: "fact", senses: found.senses, from: i, to: found.to });
      i = found.to;
      continue;
    }
    const is = token.is === "line" || isSentenceEnd(tokens, i)
      ? "border"
      : token.is === "mark"
      ? (token.text === "," ? "comma" : "mark")
      : isEveryday(token.text) || unitAt(tokens, i) !== undefined
      ? "common"
      : "unknown";
    pieces.push({ is, senses: [], from: i, to: i + 1 });
    i++;
  }
  return shareUnits(pieces, tokens);
}
/** Marks and words, beside numbers and units, that a rule may begin with. */
const BEGINNINGS: ReadonlySet<string> = new Set([
  ...PAIRS,
  ...CEILINGS,
  ...["single", "three", "s", "sn", "serial"],
  ...["(", "$", "+", "±", "#", "-", "§"],
  ...["a", "an", "x", "*", "qty", "quantity", "count", "nema", "l", "tt", "code", "letter"],
  "good",
  ...["double", "triple", "dp", "sp", "note", "notes", "footnote"],
  ...["phase", "phases", "ph", "ø", "half", "third", "quarter", "eighth"],
  ...SIZE_BEFORE,
  ...CODE_WORDS,
  ...SITES,
  ...MONTHS,
  ...["ok", "okay", "alright"],
  ...SECTION_WORDS,
  ...PLATE_BEGINNINGS,
  ...WORKED_BEGINNINGS,
  ...NOTATION_BEGINNINGS,
  ...READING_BEGINNINGS,
  ...BOX_BEGINNINGS,
  ...WIREWAY_BEGINNINGS,
  ...DEGREE_BEGINNINGS,
  ...HOURS_BEGINNINGS,
  ...LEG_BEGINNINGS,
  ...[
    "not",
    "minus",
    "negative",
    "unity",
    "primary",
    "secondary",
    "pri",
    "sec",
    "hv",
    "lv",
    "high",
    "low",
    "line",
    "load",
  ],
]);
const mayBegin = (t: readonly Token[], i: number): boolean => {
  const { is, text } = t[i]!;
  return is === "number" || BEGINNINGS.has(text) || isNumberWord(text) || text in VULGAR || text === "inch" ||
    unitWord(t, i) !== undefined ||
    // `RZ-62171`
    (is === "word" && t[i + 1]?.text === "-" && t[i + 2]?.is === "number");
};
function longest(tokens: readonly Token[], i: number): Found | undefined {
  let best = partedCount(tokens, i);
  if (best) return best;
  for (const rule of mayBegin(tokens, i) ? RULES : []) {
    const found = rule(tokens, i);
    if (found && found.to > (best?.to ?? i)) best = found;
  }
  const term = termAt(tokens, i);
  if (term && term.next > (best?.to ?? i)) {
    return { senses: term.terms.map((each) => ({ is: "term" as const, ...each })), to: term.next };
  }
  return best;
}
const MODEL_WORDS = new Set(["model", "serial", "permit", "invoice", "catalog"]);
/** `JT955`, `2475N7.5`: letters and digits in one, of which nothing is known. */
function modelEnd(t: readonly Token[], i: number): number | undefined {
  if (panelName(t, i)) return undefined;
  // `KT-98990`: a number of an order or a drawing.
  if (
    t[i]!.is === "word" && t[i]!.text.length <= 4 && text(t, i + 1) === "-" && isGlued(t, i + 1) && isGlued(t, i + 2) &&
    t[i + 2]?.is === "number" && t[i + 2]!.text.length >= 4
  ) {
    let to = i + 3;
    while (isGlued(t, to) && (t[to]!.is !== "mark" || (text(t, to) === "-" && isGlued(t, to + 1)))) to++;
    return to;
  }
  let at = i;
  let letters = 0;
  let digits = 0;
  while (
    at < t.length && (at === i || t[at]!.glued || (t[at]!.text === "-" && at > i)) &&
    (t[at]!.is === "word" || t[at]!.is === "number")
  ) {
    if (t[at]!.is === "word") letters++;
    else digits++;
    at++;
  }
  if (letters === 0 || digits === 0 || at - i < 2) return undefined;
  if (MODEL_WORDS.has(text(t, i - 1))) return at;
  // `AC24-310`: a machine's letters in front of what no figure looks like.
  const isNumbered = t[i]!.is === "word" && t[i + 1]?.is === "number" && text(t, i + 2) === "-" &&
    t[i + 3]?.is === "number" && [1, 2, 3].every((k) => isGlued(t, i + k));
  if (isNumbered && termAt(t, i)?.terms.every(({ sort }) => sort === "appliance" || sort === "machine")) {
    return i + 4;
  }
  // Known as it stands: a unit behind its number, a term with digits glued on.
  let next = i;
  while (next < at) {
    const found = longest(t, next);
    if (!found) return /^[a-z]$/.test(text(t, next)) && at - i === 2 && next > i ? undefined : at;
    if (
      found.senses.every(({ is }) => is === "number") && found.to < at && !termAt(t, found.to) &&
      !isTimes(text(t, found.to))
    ) {
      return /^(st|nd|rd|th|s)$/.test(text(t, found.to)) ? undefined : at;
    }
    next = found.to;
  }
  return undefined;
}
