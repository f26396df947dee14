/** What a nameplate prints besides its electrical figures: models, dates, refrigerant and its charge. Read, and set aside. */
import { numberAt } from "./numbers.ts";
import type { Rule } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { type SpokenUnit, unitAt } from "./units.ts";

/** Words in front of a name made of letters and digits. */
const NAMES = new Set("frame fr model mod serial s/n catalog cat class ins encl style".split(" "));
/** Units of electrical figures, which no name ends in. */
const FIGURES: ReadonlySet<SpokenUnit> = new Set(["A", "V", "kW", "W", "kVA", "VA", "hp"]);
const DATES = new Set(["mfg", "mfd", "mfr", "date", "dom"]);
const REFRIGERANTS = new Set([
  ...[
    11,
    12,
    22,
    23,
    32,
    113,
    123,
    124,
    125,
    134,
    152,
    290,
    401,
    402,
    404,
    407,
    408,
    409,
    410,
    417,
    421,
    422,
    427,
    438,
  ],
  ...[448, 449, 450, 452, 454, 455, 457, 466, 500, 502, 507, 508, 513, 514, 515, 600, 717, 744, 1233, 1234],
]);
const WEIGHTS = new Set(["lb", "lbs", "pound", "pounds", "oz", "ounce", "ounces", "kg"]);
/** What a rule of this file may begin with, beside a number. */
export const PLATE_BEGINNINGS: readonly string[] = [...NAMES, ...DATES, "m", "r"];

const text = (t: readonly Token[], i: number): string => t[i]?.text ?? "";
const isGlued = (t: readonly Token[], i: number): boolean => t[i]?.glued ?? false;
const aside = (to: number, because = "no figure of the calculation") =>
  ({ senses: [{ is: "aside", because }], to }) as const;

/** `FRAME 256T`, `INS CL F`, `MODEL 5K43`, `M/N AB24-310`. */
const named: Rule = (t, i) => {
  const isShort = text(t, i) === "m" && text(t, i + 1) === "/" && text(t, i + 2) === "n";
  if (!isShort && !NAMES.has(text(t, i))) return undefined;
  let at = isShort ? i + 3 : i + 1;
  while (["no", "number", "#", ".", ":", "=", "cl", "class", "insulation"].includes(text(t, at))) at++;
  const start = at;
  // `the big style 60a charger`: a figure with its unit is no name.
  const unit = t[start]?.is === "number" ? unitAt(t, start + 1) : undefined;
  if (unit && FIGURES.has(unit.unit)) return undefined;
  const isJoint = (k: number) => ["-", "/"].includes(text(t, k)) && isGlued(t, k) && isGlued(t, k + 1) && t[k + 1];
  while (
    at < t.length && (at === start || isGlued(t, at)) && (t[at]!.is === "word" || t[at]!.is === "number" || isJoint(at))
  ) at++;
  const isOne = t.slice(start, at).some(({ is }) => is === "number") || text(t, start).length === 1;
  return isOne ? aside(at) : undefined;
};
const isYear = (n: number | undefined): boolean => n !== undefined && n >= 1960 && n <= 2040;
const isMonth = (n: number | undefined): boolean => n !== undefined && Number.isInteger(n) && n >= 1 && n <= 12;
/** `MFG 03/2021`, `05/2019`, `DATE 2018`: when it was made. */
const made: Rule = (t, i) => {
  let at = i;
  while (DATES.has(text(t, at)) || (at > i && [":", ".", "="].includes(text(t, at)))) at++;
  const [month, mark, year] = [t[at], text(t, at + 1), t[at + 2]];
  const isPair = month?.is === "number" && isMonth(month.n) && (mark === "/" || (mark === "-" && at > i)) &&
    year?.is === "number" && text(t, at + 3) !== "/";
  if (isPair && (isYear(year.n) || (at > i && year.text.length === 2))) return aside(at + 3, "a date");
  return at > i && month?.is === "number" && isYear(month.n) ? aside(at + 1, "a date") : undefined;
};
/** `R-410A`, `R22`: no amperes. */
const refrigerant: Rule = (t, i) => {
  if (text(t, i) !== "r") return undefined;
  const at = text(t, i + 1) === "-" ? i + 2 : i + 1;
  if (t[at]?.is !== "number" || !isGlued(t, at) || !REFRIGERANTS.has(t[at]!.n!)) return undefined;
  const hasLetters = t[at + 1]?.is === "word" && isGlued(t, at + 1) && t[at + 1]!.text.length <= 2;
  return aside(hasLetters ? at + 2 : at + 1);
};
/** `9 LBS 8 OZ`, `62 oz`: how much refrigerant, how heavy. */
const weight: Rule = (t, i) => {
  let at = i;
  for (;;) {
    const read = numberAt(t, at);
    if (!read || !WEIGHTS.has(text(t, read.next))) break;
    at = text(t, read.next + 1) === "." && isGlued(t, read.next + 1) ? read.next + 2 : read.next + 1;
  }
  return at > i ? aside(at) : undefined;
};

export const plateRules: readonly Rule[] = [named, made, refrigerant, weight];
