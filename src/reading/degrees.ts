/** Tokens → pieces: temperatures of 60, 75 and 90 degrees, which are those of terminations, of insulations, or of a column. */
import { type Sort, termAt } from "./lexicon/lexicon.ts";
import { isGlued, one, type Rule, text } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

const COLUMNS = [60, 75, 90];
/** One of the columns' temperatures at token `i`, and whether degrees are said. */
function columnTemperature(t: readonly Token[], i: number): { n: number; to: number; isMarked: boolean } | undefined {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (!COLUMNS.includes(n)) return undefined;
  const unit = unitAt(t, i + 1, n);
  if (unit === undefined) {
    return isGlued(t, i + 1) && t[i + 1]?.is === "word" ? undefined : { n, to: i + 1, isMarked: false };
  }
  return unit.unit === "°" || unit.unit === "°C" ? { n, to: unit.next, isMarked: true } : undefined;
}

const ENDS = new Set(["ends", "end", "sides"]);
const BOTH = new Set(["both", "each", "either"]);
const MARKED = new Set(["are", "is", "rated", "marked", "listed", "good", "for", "at", "being", "say", "says", ":"]);
const MOST_WORDS = 5;
/** `both ends are rated 75`, `each end 75 °C`: terminations by the ends of the run. */
const endsByDegrees: Rule = (t, i) => {
  if (!BOTH.has(text(t, i)) || !ENDS.has(text(t, i + 1))) return undefined;
  let at = i + 2;
  while (MARKED.has(text(t, at)) && at < i + MOST_WORDS) at++;
  const found = columnTemperature(t, at);
  return found && !unitAt(t, found.to) ? one({ is: "quantity", n: found.n, unit: "°C" }, found.to) : undefined;
};

const EVERYWHERE = ["everything", "throughout", "all around", "all over", "across the board", "both ends", "each end"];
const AT = new Set(["on", "at", "for", "rated"]);
/** `75° everything`, `75 both ends`, `75 degree rated at each end`. */
const degreesEverywhere: Rule = (t, i) => {
  const found = columnTemperature(t, i);
  if (!found) return undefined;
  let at = found.to;
  while (AT.has(text(t, at)) && at < found.to + 2) at++;
  const phrase = EVERYWHERE.find((words) => words.split(" ").every((word, k) => text(t, at + k) === word));
  return phrase === undefined
    ? undefined
    : one({ is: "quantity", n: found.n, unit: "°C" }, at + phrase.split(" ").length);
};

/** An insulation that has the temperature in dry and in wet places. */
const BY_TEMPERATURE: Readonly<Record<number, string>> = { 60: "TW", 75: "THWN", 90: "XHHW-2" };
const WIRE = new Set("wire wires conductor conductors insulation insulated cable copper aluminum cu al".split(" "));
/** `75 degree wire`, `90 °C rated conductors`: insulation by its temperature. */
const insulationByDegrees: Rule = (t, i) => {
  const found = columnTemperature(t, i);
  if (!found?.isMarked) return undefined;
  const at = ["-", "rated"].includes(text(t, found.to)) ? found.to + 1 : found.to;
  // `75 degree copper lugs` are terminations.
  const isOfEnds = [at, at + 1].some((each) => termAt(t, each)?.terms.some(({ id }) => id === "terminals"));
  if (!WIRE.has(text(t, at)) || isOfEnds) return undefined;
  return one({ is: "term", sort: "insulation", id: BY_TEMPERATURE[found.n]! }, at);
};

const OF_WIRE: readonly Sort[] = ["insulation", "metal", "role"];
/** `3/0 copper at 75`, `xhhw @ 90`, `500 kcmil at 75 degrees`: behind a wire, the column of its table. */
const columnAt: Rule = (t, i) => {
  const found = columnTemperature(t, i);
  const isAt = ["at", "@"].includes(text(t, i - 1));
  // `copper 75 degree` says it without a word between.
  if (!found || !(isAt || found.isMarked)) return undefined;
  // Air of 90 degrees is as likely as the column.
  if (found.isMarked && found.n === 90) return undefined;
  const end = isAt ? i - 1 : i;
  const behind = [1, 2, 3].some((back) => {
    const term = end - back < 0 ? undefined : termAt(t, end - back);
    // `what THHN size at 75`
    return term !== undefined && [term.next, term.next + (text(t, term.next) === "size" ? 1 : 0)].includes(end) &&
      term.terms.some(({ sort }) => OF_WIRE.includes(sort));
  });
  const next = t[found.to];
  const isAlone = next === undefined || ["?", ",", "."].includes(next.text) || (!unitAt(t, found.to) && !next.glued);
  return behind && isAlone ? one({ is: "quantity", n: found.n, unit: "°C" }, found.to) : undefined;
};

const OUTDOORS = ["out", "outside", "outdoors", "up there", "in there", "in the shade", "in the summer", "in summer"];
const HITS = new Set(["gets", "get", "hits", "hit", "reaches", "reach", "tops", "high", "highs"]);
const LINKS = new Set(["to", "up", "of", "is", "are", "at", "around", "about", "out", "near"]);
const HEAT = new Set(
  "attic roof summer outside outdoors room garage desert sun hot heat shop boiler ceiling".split(" "),
);
/** What air that wires lie in is said to reach in Fahrenheit. */
const [COOLEST, HOTTEST] = [85, 180];
const HEAT_REACH = 8;
/** `it's 115 in there`, `attic hits 130`, `summer high 104`: the heat of the air, without its degrees. */
const heat: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  if (!(n >= COOLEST && n <= HOTTEST) || isGlued(t, i + 1) && t[i + 1]?.is === "word" || unitAt(t, i + 1, n)) {
    return undefined;
  }
  const isBehind = OUTDOORS.some((words) => words.split(" ").every((word, k) => text(t, i + 1 + k) === word));
  const isIt = ["it's", "its", "is", "it", "was", "be", "like", "about", "around"].includes(text(t, i - 1));
  let at = i - 1;
  while (LINKS.has(text(t, at))) at--;
  const isHit = HITS.has(text(t, at)) &&
    t.slice(Math.max(0, i - HEAT_REACH), i + HEAT_REACH).some(({ text: word }) => HEAT.has(word));
  // `in the attic at 115`
  const isPlaceAt = ["at", "@"].includes(text(t, i - 1)) && HEAT.has(text(t, i - 2));
  return (isBehind && isIt) || isHit || isPlaceAt ? one({ is: "quantity", n, unit: "°F" }, i + 1) : undefined;
};

export const degreeRules: readonly Rule[] = [heat, endsByDegrees, degreesEverywhere, insulationByDegrees, columnAt];
/** Words that these begin with. */
export const DEGREE_BEGINNINGS: readonly string[] = [...BOTH];
