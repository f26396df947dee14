/** Units as people write them, behind a number. */
import type { Unit } from "../core/quantity.ts";
import { numberAt } from "./numbers.ts";
import { type Token, tokenize } from "./tokens.ts";

/** Units people write that are no unit of the trade's sums: read here, converted or asked about. */
export type SpokenUnit =
  | Unit
  | "ton"
  | "BTU/h"
  | "gal"
  | "min"
  | "hour"
  | "rpm"
  | "Hz"
  | "kft"
  | "mi"
  | "circuits"
  | "°";

/** Full and short spellings; one letter alone is taken only glued to its number or as a capital. */
const SPELLINGS: Readonly<Partial<Record<SpokenUnit, string>>> = {
  "VA/ft2":
    "va/sq ft|va/sqft|va per sq ft|va per sqft|va per square foot|va/ft2|va/ft 2|va / sq ft|volt amperes per square foot|va/sf|va per foot|w/sq ft|w/sqft|w/sf|w/ft2|watts per sq ft|watts per sqft|watts per square foot|watts per sq foot|watts/sq ft|watts/sqft|watt per square foot|watts per sq. foot|volt amps per square foot|va per sf|va a foot|va per sq foot|watts per sf|w per sq ft|w per sf",
  "ohm/kft":
    "ohm/kft|ohms/kft|ohm per kft|ohms per kft|ohms per 1000 ft|ohms/1000 ft|ohm/1000 ft|ohms/1000ft|ohms per 1000 feet|ohms per thousand feet|ohm per 1000 ft|ohms per 1,000 ft|ohms/1,000 ft|ohm/1000'|ohms per 1000'",
  ft2:
    "sq ft|sq. ft|sqft|sqf|sq feet|square feet|square foot|square ft|sf|ft2|ft 2|ft^2|square footage|sq footage|feet square|ft square|sq. feet|sq foot|sq. foot|sq. footage|pies cuadrados|sq-ft|square foot house",
  m2:
    "m2|m 2|m^2|sq m|sqm|sq. m|square meters|square metres|square meter|square metre|metros cuadrados|sq meters|sq metres",
  mm2: "mm2|mm 2|mm^2|sq mm|square mm|sqmm|sq. mm|square millimeters|square millimetres|mm squared",
  in3: "ci|c.i.|c.i|cu in|cu. in|cu.in|cu inches|cu. inches|cuin|cubic inches|cubic inch|in3|in 3",
  in2: "sq in|sq. in.|square inches|square inch|in2|in 2",
  kVA: "kva|k va|kilovolt amps|kilovolt amperes|kv.a|kvas",
  MVA: "mva",
  VA: "va|volt-amperes|volt-ampere|volt-amps|volt-amp|volt amps|volt amp|volt amperes|volt ampere|voltamps",
  kW: "kw|k w|kilowatts|kilowatt|kilo watts|kws|kilovatios|kilo watt|kilo",
  W: "watts|watt|w|vatios|wts",
  kA: "ka|kiloamps",
  A: "amps|amp|ampere|amperes|a|amperios|amperage|amperios",
  kV: "kv|kilovolts|kilovolt",
  V: "volts|volt|v|vac|vdc|voltios",
  hp: "hp|horsepower|horse power|horse|horses|caballos|hps",
  ton: "tons|ton|t|toneladas",
  "BTU/h": "btu/h|btuh|btu per hour|btu/hr|btu|btus|btu's",
  kcmil: "kcmil|mcm|kcm|kc",
  kft: "kft",
  ft: "ft|feet|foot|'|pies|pie|footer|linear feet|lf",
  yd: "yards|yard|yd|yds",
  in: "inches|inch|pulgada|pulgadas|\"|''",
  m: "meters|metres|meter|metre|m|metros",
  "°C":
    "°c|° c|degrees c|degree c|deg c|deg. c|degrees celsius|celsius|c|degrees centigrade|deg celsius|degc|grados c|grados",
  "°F": "°f|° f|degrees f|degree f|deg f|deg. f|degrees fahrenheit|fahrenheit|f|degf|deg fahrenheit",
  // A temperature whose scale is not told.
  "°": "degrees|degree|deg|°",
  ohm: "ohms|ohm",
  "lbf-in":
    "inch pounds|inch-pounds|inch pound|in lbs|in-lbs|in lb|lb in|lb-in|lbs in|lbf in|lbf-in|lbf·in|in-lb|in-lbf|inlbs|inlb|in. lbs|in. lb|in-lb.|inch lbs|inch lb|inch-lbs|inch-lb|pound inches",
  "lbf-ft":
    "foot pounds|foot-pounds|foot pound|ft lbs|ft-lbs|ft lb|ft-lb|ft-lbf|lbf-ft|lbf ft|lb-ft|lb ft|ftlbs|ftlb|ft. lbs|foot lbs|foot-lbs|pound feet",
  // `nm` is a cable.
  "N-m": "newton meters|newton meter|newton metres|newton metre|newton-meters|newton-metres|n-m|n·m|n.m|newtonmeters",
  gal: "gallons|gallon|gal|galones|gals",
  min: "minutes|minute|min|mins",
  hour: "hours|hour|hrs|hr",
  "%": "%|percent|per cent|pct|por ciento",
  rpm: "rpm|r/min",
  Hz: "hz|hertz|cycle",
};
type Node = { next: Map<string, Node>; unit?: SpokenUnit };
const root: Node = { next: new Map() };
for (const [unit, spellings] of Object.entries(SPELLINGS)) {
  for (const spelling of spellings.split("|")) {
    let node = root;
    for (const { text } of tokenize(spelling)) {
      let next = node.next.get(text);
      if (!next) node.next.set(text, next = { next: new Map() });
      node = next;
    }
    node.unit = unit as SpokenUnit;
  }
}

/** Units written out, of which a slip may be mended. */
export const UNIT_WORDS: readonly string[] = Object.values(SPELLINGS).join("|").split("|").filter((word) =>
  /^[a-z]{5,}$/.test(word)
);
/** Words that follow a lower-case `a` which is an article and no ampere: `twice 2 a day`. */
const AFTER_ARTICLE = new Set(
  "day week month year night pop piece foot bit couple few lot second minute hour time guy little bunch good big small"
    .split(" "),
);
/** What follows an `in` that is an inch and no preposition. */
const RACEWAYS = new Set(
  "emt pvc conduit pipe sch schedule rigid imc rmc ent flex lfmc fmc raceway nipple wide deep long lug trench".split(
    " ",
  ),
);
const LONGEST_INCHES = 6;
const STANDING = new Set("deep wide long high tall clear of above off between from at ok enough".split(" "));

/**
 * The unit that stands at token `i`, behind a number `n`.
 * A letter alone is a unit where it touches the number or is a capital; a lower-case `a` apart from its number is an article
 * unless what follows says otherwise.
 */
export function unitAt(
  tokens: readonly Token[],
  i: number,
  n?: number,
): { unit: SpokenUnit; next: number } | undefined {
  // `60-amp`, `60- amp`: a hyphen may stand between.
  const hyphen = tokens[i]?.text === "-" && tokens[i]!.glued && tokens[i + 1]?.is === "word" ? 1 : 0;
  let node: Node = root;
  let best: { unit: SpokenUnit; next: number } | undefined;
  for (let at = i + hyphen; at < tokens.length; at++) {
    const token = tokens[at]!;
    // `volt-amp`
    if (token.text === "-" && token.glued && at > i + hyphen && node.next.has(tokens[at + 1]?.text ?? "")) continue;
    const next = node.next.get(token.text);
    // `300 ft 2/0`: a power is written close to its unit.
    if (!next || token.is === "line" || (["2", "3"].includes(token.text) && !token.glued)) break;
    node = next;
    if (!node.unit) continue;
    if (at === i + hyphen && !standsAlone(tokens, at, node.unit, n)) continue;
    // `250 cu in emt` is copper in a raceway, and no volume.
    if (node.unit === "in3" && isInRaceway(tokens, at + 1)) continue;
    // `320 meter base`: what a service is metered in.
    if (token.text === "meter" && METERED.has(tokens[at + 1]?.text ?? "")) continue;
    best = { unit: node.unit, next: at + 1 };
  }
  return best;
}

/** `in emt`, `in steel pipe`, `in one 3 in conduit`: copper laid in a raceway. */
function isInRaceway(tokens: readonly Token[], i: number): boolean {
  let at = i;
  while (OF_RACEWAYS.has(tokens[at]?.text ?? "")) at++;
  return RACEWAYS.has(tokens[at]?.text ?? "");
}
const OF_RACEWAYS = new Set(["a", "the", "one", "steel", "rigid", "galvanized", "plastic", "aluminum", "magnetic"]);
const METERED = new Set(
  [
    "base",
    "can",
    "socket",
    "pan",
    "main",
    "combo",
    "enclosure",
    "stack",
    "pack",
    "bank",
    "center",
    "centre",
    "room",
    "box",
    "loop",
  ],
);

/** `HZ 60 SF 1.15`: a number from 1 to 2 behind the letters is a service factor. */
const LEAST_FLOOR = 200;
function isServiceFactor(tokens: readonly Token[], at: number): boolean {
  const { n } = tokens[[":", "=", "is"].includes(tokens[at]?.text ?? "") ? at + 1 : at] ?? {};
  return n !== undefined && n >= 1 && n <= 2;
}
function standsAlone(tokens: readonly Token[], at: number, unit: SpokenUnit, n: number | undefined): boolean {
  const { text, typed, glued } = tokens[at]!;
  const after = tokens[at + 1];
  // `MAXFUSE40 V208/230`: a letter glued to the number behind it belongs there.
  if (n !== undefined && !glued && after?.is === "number" && after.glued) return false;
  // `two in 3/4 EMT`: so many in a raceway, and no inches.
  if (text === "in" && after?.is === "number" && !glued) return false;
  if (text === "in." || text === "'" || text === '"') return true;
  if (text.length > 1 || glued) {
    // `600 sf` is an area, `1.15 SF` a service factor.
    if (unit === "ft2" && text === "sf") {
      // `1950 sf 2 story`: no motor has such a figure before its service factor.
      return n !== undefined && n >= LEAST_FLOOR || (n === undefined || n >= 10) && !isServiceFactor(tokens, at + 1);
    }
    // `4 min` and the like are times; a least value is written before its figure.
    return true;
  }
  if (unit === "A") {
    // `A/C` is an air conditioner, `80 A / 480 V` are amperes.
    if (typed === "A") return !(after?.text === "/" && after.glued);
    return after === undefined || after.is !== "word" || !AFTER_ARTICLE.has(after.text);
  }
  if (unit === "W" && typed === "w") {
    return after?.text !== "/" && !["ground", "grnd", "gnd", "a", "the"].includes(after?.text ?? "");
  }
  if (unit === "ton") return false;
  if (unit === "°C" || unit === "°F") {
    return typed !== text || after === undefined || after.is !== "word" ||
      ["terminals", "terminations", "lugs", "ambient", "attic", "column"].includes(after.text);
  }
  return true;
}

/** `in` as an inch: `1-1/4 in EMT`, never `12 in pvc`. */
export function inchAt(tokens: readonly Token[], i: number, n: number): number | undefined {
  const hyphen = tokens[i]?.text === "-" ? 1 : 0;
  const token = tokens[i + hyphen];
  if (token?.text !== "in") return undefined;
  const after = tokens[i + hyphen + 1];
  // `60 in-lb`
  if (after?.text === "-" && after.glued) return undefined;
  // `18 in3`
  if ((after?.is === "number" || after?.text === "3") && after.glued) return undefined;
  // `one 3 in and two 2 in`
  const isListed = after?.text === "and" && numberAt(tokens, i + hyphen + 2) !== undefined;
  // `30 in deep`, `depth 30 in`: of a height or a depth there may be more.
  if (n > LONGEST_INCHES && after?.is === "word" && !STANDING.has(after.text)) return undefined;
  return isListed || token.glued || after === undefined || after.is !== "word" || RACEWAYS.has(after.text) ||
      STANDING.has(after.text)
    ? i + hyphen + 1
    : undefined;
}
