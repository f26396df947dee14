/** Editions, sections, letters and what is read and of no consequence. */
import { isEveryday } from "./lexicon/common.ts";
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt, type Read } from "./numbers.ts";
import { isGlued, one, pairAt, type Rule, speaksOf, text } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

/** `P-3`, `RTU-4`, `EF-1`: the number of one of several machines. */
export const tag: Rule = (t, i) => {
  const [before, dash, n] = [t[i - 1], t[i], t[i + 1]];
  if (dash?.text !== "-" || !dash.glued || n?.is !== "number" || !n.glued || !Number.isInteger(n.n) || n.n! > 99) {
    return undefined;
  }
  if (
    before?.is !== "word" || before.text.length > 4 || t[i + 2]?.glued && !["mark", "line"].includes(t[i + 2]!.is) ||
    unitAt(t, i + 2)
  ) return undefined;
  const known = termAt(t, i - 1)?.terms ?? [];
  return known.every(({ sort }) => ["appliance", "machine", "motorWord"].includes(sort))
    ? one({ is: "aside", because: "one of several" }, i + 2)
    : undefined;
};
const EDITIONS = new Set([2002, 2005, 2008, 2011, 2014, 2017, 2020, 2023, 2026]);
export const CODE_WORDS = new Set(["nec", "code", "edition", "cycle", "book"]);
const BY = new Set(["on", "under", "by", "in", "per", "using", "with", "to", "against"]);
/** `same on the 2017?`: the year alone, and nothing behind it that it could count. */
/** `is it different in 2020`, and nothing built or bought then. */
const isCompared = (t: readonly Token[], i: number): boolean =>
  text(t, i - 1) === "in" && t.length <= SHORT && (t[i + 1] === undefined || t[i + 1]!.is !== "word") &&
  speaksOf(t, COMPARES);
const SHORT = 9;
const COMPARES = new Set([
  "different",
  "same",
  "change",
  "changed",
  "changes",
  "allowed",
  "legal",
  "differ",
  "ok",
  "also",
]);
/** `gfci for garage receptacles 2017`, `arc fault in a den, 2020?`: what protects changed with the editions, and is no figure. */
const isOfProtection = (t: readonly Token[], i: number): boolean => {
  const before = text(t, i - 1) === "," ? i - 2 : i - 1;
  const ends = t[i + 1] === undefined || t[i + 1]!.is === "line" || ENDS.has(text(t, i + 1));
  return ends && t[before]?.is === "word" && speaksOf(t, PROTECTS);
};
const ENDS = new Set([".", "?", "!"]);
const PROTECTS = new Set(["gfci", "gfi", "afci", "cafci", "arc"]);
/** `what does the 2017 say`, `what would 2020 want`. */
const isAskedOf = (t: readonly Token[], i: number): boolean =>
  DEMANDS.has(text(t, i + 1)) && (text(t, i - 1) === "the" || ["does", "would", "did"].includes(text(t, i - 1)));
const DEMANDS = new Set([
  "say",
  "says",
  "want",
  "wants",
  "require",
  "requires",
  "call",
  "calls",
  "give",
  "gives",
  "have",
]);
/** `ok 2023 again`, `back to 2020`: the year alone. */
const isReturnedTo = (t: readonly Token[], i: number): boolean => {
  const ends = (at: number) => t[at] === undefined || t[at]!.is !== "word";
  return text(t, i + 1) === "again" && ends(i + 2) ||
    text(t, i - 1) === "to" && text(t, i - 2) === "back" && ends(i + 1);
};
const isNamedAlone: (...at: Parameters<Rule>) => boolean = (t, i) =>
  text(t, i - 1) === "the" && BY.has(text(t, i - 2)) && (t[i + 1] === undefined || t[i + 1]!.is !== "word");
export const edition: Rule = (t, i) => {
  let at = i;
  const before = CODE_WORDS.has(text(t, at));
  if (before) at++;
  if (["'", "(", ":"].includes(text(t, at))) at++;
  if (before && CODE_WORDS.has(text(t, at))) at++;
  const read = numberAt(t, at);
  const n = read?.n ?? NaN;
  const year = EDITIONS.has(n) ? n : text(t, at - 1) === "'" && EDITIONS.has(2000 + n) ? 2000 + n : undefined;
  const after = read?.next ?? at + 1;
  // `under the twenty twenty six code`
  const isNamed = before || CODE_WORDS.has(text(t, after)) || ["under", "per"].includes(text(t, i - 1)) ||
    // `we're still on the 2017 here`
    text(t, i - 1) === "the" && ["on", "under", "by"].includes(text(t, i - 2)) ||
    isNamedAlone(t, i) || isCompared(t, i) || isAskedOf(t, i) || isReturnedTo(t, i) || isOfProtection(t, i);
  if (year === undefined || !isNamed) return undefined;
  let to = after;
  if (text(t, to) === ")") to++;
  while (CODE_WORDS.has(text(t, to))) to++;
  return one({ is: "edition", edition: String(year) }, to);
};
const ARTICLES = [
  110,
  120,
  210,
  215,
  220,
  225,
  230,
  240,
  250,
  310,
  314,
  334,
  338,
  340,
  344,
  352,
  358,
  366,
  376,
  378,
  408,
  422,
  424,
  430,
  440,
  445,
  450,
  517,
  547,
  550,
  551,
  555,
  625,
  630,
  680,
  690,
  695,
  700,
  701,
  702,
  705,
];
export const SECTION_WORDS = new Set([
  "§",
  "table",
  "section",
  "sec",
  "art",
  "article",
  "tables",
  "sections",
  "rule",
  "t",
  "nec",
]);
export const section: Rule = (t, i) => {
  let at = i;
  const named = SECTION_WORDS.has(text(t, at));
  if (named) at++;
  if (text(t, at) === ".") at++;
  const n = t[at];
  if (n?.is !== "number") return undefined;
  const article = Math.floor(n.n!);
  const parted = n.text.includes(".") || (text(t, at + 1) === "-" && named && t[at + 2]?.is === "number");
  if (!(ARTICLES.includes(article) && (parted || (named && text(t, i) !== "t" && text(t, i) !== "nec")))) {
    return undefined;
  }
  let to = at + 1;
  if (text(t, to) === "-" && t[to + 1]?.is === "number") to += 2;
  while (text(t, to) === "(" && isGlued(t, to) && text(t, to + 2) === ")") to += 3;
  if (!named && unitAt(t, to)) return undefined;
  // `table 220.55 note 1`, `220.55 column C`
  if (["note", "notes", "column", "col", "row", "exception", "ex"].includes(text(t, to)) && t[to + 1]) {
    const isNumbered = t[to + 1]!.is === "number" || text(t, to + 1).length === 1;
    if (isNumbered) to += 2;
  }
  return one({ is: "section", section: n.text }, to);
};
const MONEY = new Set(["dollars", "dollar", "bucks", "usd", "grand", "cents", "€", "pesos"]);
const CLOCK = new Set(["am", "pm", "a.m.", "p.m.", "o'clock", "oclock"]);
const YEAR_BEFORE = new Set([
  "in",
  "since",
  "from",
  "built",
  "made",
  "manufactured",
  "bought",
  "rewired",
  "remodeled",
  "dated",
  "circa",
  "year",
  "vintage",
  "model",
  "installed",
  "of",
  "early",
  "late",
  "mid",
  "a",
  "the",
]);
const YEAR_AFTER = new Set([
  "house",
  "home",
  "s",
  "built",
  "build",
  "vintage",
  "era",
  "ranch",
  "model",
  "colonial",
  "cape",
  "bungalow",
  "construction",
  "wiring",
  "panel",
  "addition",
]);
/** Words before a decade. */
const [WHEN, PART_OF_TIME] = [
  new Set(["from", "in", "since", "of", "built", "until", "till", "during"]),
  new Set(["early", "late", "mid"]),
];
/** Words with a number that name the place of the work. */
const UNIT_LETTERS = new Set("b c d e f g h".split(" "));
const UNIT_HEADS = new Set(["unit", "apt", "apartment"]);
const BEDROOMS = new Set(["bedroom", "bedrooms", "bed", "br", "brs", "bd", "bdr", "bdrm", "bdrms"]);
const NOTES = new Set(["note", "notes", "footnote"]);
const MOST_NOTES = 9;
const MOST_METERS = 12;
const METRIC = new Set(["long", "of", "away", "from", "run", "deep", "apart", "down", "up"]);
export const SITES = new Set([
  ...["rt", "rte", "route", "hwy", "highway"],
  "lot",
  "job",
  "bldg",
  "building",
  "suite",
  "ste",
  "permit",
  "invoice",
  "parcel",
  "tract",
]);
const STREETS = new Set(
  "st street ave avenue rd road dr drive ln lane blvd boulevard ct court hwy highway pkwy parkway cir terrace".split(
    " ",
  ),
);
/** What is counted of the story, and no thing of the trade. */
const COUNTED = new Set(
  `
  rows row acre acres apprentices ba bath bathroom bathrooms baths bay bd bdr bdrm bdrms bed bedroom bedrooms bids books boys br
  brothers brs burner
  burners car cars chairs chickens children choices companies company contractors cows customers daughters day
  days decades dogs door doors electricians employees families feeders friends gang girls grandkids guys helpers
  horses inspections inspectors kids lbs mile miles minutes month months nd neighbors neighbours old opinions
  options pages part parter parts people photos pics posts pounds question questions quotes rd reasons replies
  roommates season seasons seconds sisters sons st stall steps stories students teenagers th things
  threads times trailers trees tries trips trucks videos visits way ways week weekends weeks windows year years
  yr yrs
`.trim().split(/\s+/),
);
const BENDS = new Set("el els el's ell ells ell's elbow elbows bend bends sweep sweeps".split(" "));
const PEOPLE = new Set("helper apprentice son daughter boss customer partner neighbor he she grandson".split(" "));
/** `555-0157`, `extension 448`, `my helper is 19`: numbers of the story, and where they end. */
function storyEnd(t: readonly Token[], i: number, read: Read): number | undefined {
  if (t[i]!.is !== "number") return undefined;
  const phone = pairAt(t, i, "-");
  if (phone && t[i]!.text.length === 3 && t[i + 2]!.text.length === 4) return i + 3;
  if (["extension", "ext"].includes(text(t, i - 1))) return read.next;
  return text(t, i - 1) === "is" && PEOPLE.has(text(t, i - 2)) && !unitAt(t, read.next, read.n) ? read.next : undefined;
}
export const CEILINGS = new Set(["ceiling", "ceilings", "headroom"]);
/** `9 ft ceilings`, `ceilings are 9 ft`: a height, and no length of anything. */
export const ceiling: Rule = (t, i) => {
  const isBefore = CEILINGS.has(text(t, i));
  let at = isBefore ? i + 1 : i;
  while (isBefore && ["height", "is", "are", "at", ":"].includes(text(t, at))) at++;
  const read = numberAt(t, at);
  const unit = read && unitAt(t, read.next, read.n);
  if (!unit || !["ft", "m", "in"].includes(unit.unit)) return undefined;
  const after = text(t, unit.next) === "-" ? unit.next + 1 : unit.next;
  if (!isBefore && !CEILINGS.has(text(t, after))) return undefined;
  return one({ is: "aside", because: "a height is no floor area" }, isBefore ? unit.next : after + 1);
};
export const MONTHS: ReadonlySet<string> = new Set(
  ("january february march april may june july august september october november december" +
    " jan feb mar apr jun jul aug sep sept oct nov dec").split(" "),
);
const MOST_DAYS = 31;
const isDay = (n: number | undefined): boolean => n !== undefined && Number.isInteger(n) && n >= 1 && n <= MOST_DAYS;
const isYear = (n: number | undefined): boolean => n !== undefined && n >= 1900 && n <= 2099;
/** `June 17, 2024`, `Nov. 10`, `3 May`, `17th of June`: where a date that begins at `i` ends. */
function dateEnd(t: readonly Token[], i: number): number | undefined {
  const withYear = (at: number): number => {
    const year = text(t, at) === "," ? at + 1 : at;
    return isYear(t[year]?.n) ? year + 1 : at;
  };
  const suffix = (at: number): number => ["st", "nd", "rd", "th"].includes(text(t, at)) && isGlued(t, at) ? at + 1 : at;
  if (MONTHS.has(text(t, i))) {
    const at = text(t, i + 1) === "." ? i + 2 : i + 1;
    // `may 12 AWG do`: what has a unit is no day.
    if (!isDay(t[at]?.n) || (!isYear(t[withYear(suffix(at + 1)) - 1]?.n) && unitAt(t, at + 1, t[at]!.n))) {
      return undefined;
    }
    return text(t, i) === "may" && !isYear(t[withYear(suffix(at + 1)) - 1]?.n) ? undefined : withYear(suffix(at + 1));
  }
  if (!isDay(t[i]?.n)) return undefined;
  const of = suffix(i + 1);
  const at = text(t, of) === "of" ? of + 1 : of;
  return MONTHS.has(text(t, at)) && text(t, at) !== "may" ? withYear(at + 1) : undefined;
}
const BOX_WORDS = new Set(["gang", "box", "dimmer", "switch", "switches", "receptacle", "duplex", "yoke"]);
export const aside: Rule = (t, i) => {
  // `S/N 40718-22`, `serial 4471`
  const serial = text(t, i) === "s" && text(t, i + 1) === "/" && text(t, i + 2) === "n"
    ? i + 3
    : ["sn", "serial"].includes(text(t, i))
    ? i + 1
    : undefined;
  if (serial !== undefined) {
    let at = [":", "#", "no", "number"].includes(text(t, serial)) ? serial + 1 : serial;
    const begin = at;
    while (
      t[at] && t[at]!.is !== "line" && (at === begin || t[at]!.glued) && (t[at]!.is !== "mark" || text(t, at) === "-")
    ) at++;
    if (at > begin && t.slice(begin, at).some(({ is }) => is === "number")) {
      return one({ is: "aside", because: "a serial number" }, at);
    }
  }
  // `panel LP-2`, `panel DP-1`: a panel's name.
  if (
    t[i]?.is === "word" && text(t, i - 1) === "panel" && text(t, i + 1) === "-" && isGlued(t, i + 1) &&
    isGlued(t, i + 2) && (t[i + 2]?.n ?? 99) < 30 && !termAt(t, i)?.terms.some(({ sort }) => sort === "device")
  ) {
    return one({ is: "aside", because: "a panel's name" }, i + 3);
  }
  if (text(t, i) === "$" && numberAt(t, i + 1)) {
    return one({ is: "aside", because: "a price" }, numberAt(t, i + 1)!.next + (text(t, i + 2) === "k" ? 1 : 0));
  }
  if (text(t, i) === "+" && text(t, i + 1) === "/" && text(t, i + 2) === "-") {
    const read = numberAt(t, i + 3);
    const unit = read && unitAt(t, read.next);
    return read ? one({ is: "aside", because: "a tolerance" }, unit ? unit.next : read.next) : undefined;
  }
  if (text(t, i) === "±") {
    const read = numberAt(t, i + 1);
    const unit = read && unitAt(t, read.next);
    return read ? one({ is: "aside", because: "a tolerance" }, unit ? unit.next : read.next) : undefined;
  }
  const dated = dateEnd(t, i);
  if (dated !== undefined) return one({ is: "aside", because: "a date" }, dated);
  // `ok so …`: a beginning, and no question.
  if (["ok", "okay", "alright"].includes(text(t, i)) && (i === 0 || t[i - 1]!.is === "line")) {
    return ["so", "then", ","].includes(text(t, i + 1))
      ? one({ is: "aside", because: "a beginning" }, i + (text(t, i + 1) === "," ? 1 : 2))
      : undefined;
  }
  // `unit B 800 sq ft`
  if (UNIT_LETTERS.has(text(t, i)) && UNIT_HEADS.has(text(t, i - 1)) && !isGlued(t, i + 1)) {
    return one({ is: "aside", because: "one of several" }, i + 1);
  }
  // `LOT 14`, `job #2231`
  if (SITES.has(text(t, i))) {
    const at = ["#", ":", "no", "number"].includes(text(t, i + 1)) ? i + 2 : i + 1;
    // `condo building: 6 one bedroom units`: what is counted is no name.
    const isCounting = text(t, i + 1) === ":" && BEDROOMS.has(text(t, at + 2));
    const isName = t[at]?.is === "number" && Number.isInteger(t[at]!.n) && !unitAt(t, at + 1, t[at]!.n) &&
      !isCounting && !(text(t, i + 1) === ":" && termAt(t, at + 1)) &&
      // `apartment bldg 14 units`
      !(text(t, i + 1) !== "#" && termAt(t, at + 1)?.terms.some(({ sort }) => sort === "building"));
    return isName ? one({ is: "aside", because: "where the work is" }, at + 1) : undefined;
  }
  // `phase 2: …`: a part of a project.
  const isStage = ["ph", "phase"].includes(text(t, i)) && t[i + 1]?.is === "number" && text(t, i + 2) === ":" &&
    t[i + 1]!.n! > 1 && t[i + 1]!.n !== 3 && t[i + 3]?.is === "number";
  if (isStage) return one({ is: "aside", because: "where the work is" }, i + 2);
  // `with note 2`: of a table.
  if (NOTES.has(text(t, i)) && t[i + 1]?.is === "number" && t[i + 1]!.n! <= MOST_NOTES && !unitAt(t, i + 2)) {
    return one({ is: "aside", because: "a note of the table: applied where it holds" }, i + 2);
  }
  const read = numberAt(t, i);
  if (!read) return undefined;
  const after = text(t, read.next);
  // `three meters, one service`: nobody writes so short a run in words.
  const isMetered = after === "meters" && read.inWords && read.n <= MOST_METERS && !METRIC.has(text(t, read.next + 1));
  if (isMetered) return one({ is: "aside", because: "what is metered" }, read.next + 1);
  if (MONEY.has(after)) return one({ is: "aside", because: "a price" }, read.next + 1);
  const story = storyEnd(t, i, read);
  if (story !== undefined) return one({ is: "aside", because: "no figure of the calculation" }, story);
  if (
    t[i]!.is === "number" && after === ":" && isGlued(t, read.next) && t[read.next + 1]?.is === "number" &&
    isGlued(t, read.next + 1)
  ) {
    const to = read.next + 2;
    return one({ is: "aside", because: "a time of day" }, CLOCK.has(text(t, to)) ? to + 1 : to);
  }
  if (CLOCK.has(after) && (after !== "am" || read.n <= 12)) {
    return one({ is: "aside", because: "a time of day" }, read.next + 1);
  }
  // `24/7`, `24/7/365`
  if (read.n === 24 && after === "/" && t[read.next + 1]?.n === 7) {
    const isYear = text(t, read.next + 2) === "/" && t[read.next + 3]?.n === 365;
    return one({ is: "term", sort: "hours", id: "continuous" }, read.next + (isYear ? 4 : 2));
  }
  // dates
  if (
    t[i]!.is === "number" && after === "/" && t[read.next + 1]?.is === "number" && text(t, read.next + 2) === "/" &&
    t[read.next + 3]?.is === "number" && (t[read.next + 3]!.n! > 31) && read.n <= MOST_DAYS &&
    t[read.next + 1]!.n! <= MOST_DAYS
  ) {
    return one({ is: "aside", because: "a date" }, read.next + 4);
  }
  // `1584 birch st`
  const mayBeHouse = t[i]!.is === "number" && Number.isInteger(read.n) && !unitAt(t, read.next, read.n);
  for (let at = read.next; mayBeHouse && at < read.next + 3 && t[at]?.is === "word"; at++) {
    if (STREETS.has(text(t, at + 1)) && !termAt(t, at) && !isEveryday(text(t, at))) {
      return one({ is: "aside", because: "an address" }, at + 2);
    }
  }
  // `90 deg el's`, `two 90s`
  const bend = ["deg", "degree", "degrees", "°"].includes(after) ? read.next + 1 : read.next;
  if (BENDS.has(text(t, bend)) || (read.n === 90 && after === "s" && isGlued(t, read.next))) {
    return one({ is: "aside", because: "bends make no difference to it" }, bend + 1);
  }
  // `a 70s ranch`, `late 60s house`, `a service from the 80s`: when it was built.
  const isOfTime = text(t, i - 1) === "the" && WHEN.has(text(t, i - 2)) || PART_OF_TIME.has(text(t, i - 1));
  const isDecade = after === "s" && isGlued(t, read.next) && read.n >= 20 && read.n <= 90 && read.n % 10 === 0 &&
    !numberAt(t, i - 1) &&
    (isOfTime ||
      [1, 2, 3].some((k) =>
        termAt(t, read.next + k)?.terms.some(({ sort, id }) => sort === "building" && id === "dwelling")
      ));
  if (isDecade) return one({ is: "aside", because: "when it was built" }, read.next + 1);
  const hyphen = after === "-" && isGlued(t, read.next) ? 1 : 0;
  // `one dimmer, one 3way`
  const isSwitch = (read.n === 3 || read.n === 4) && ["way", "ways"].includes(text(t, read.next + hyphen)) &&
    speaksOf(t, BOX_WORDS);
  if (isSwitch) return one({ is: "term", sort: "boxPart", id: "switch" }, read.next + hyphen + 1);
  // `two car chargers`
  const isThing = ["car", "cars"].includes(text(t, read.next + hyphen)) && termAt(t, read.next + hyphen);
  if (!isThing && COUNTED.has(text(t, read.next + hyphen))) {
    return one({ is: "aside", because: "no figure of the calculation" }, read.next + hyphen + 1);
  }
  const isYear = t[i]!.is === "number" && !t[i]!.text.includes(",") && Number.isInteger(read.n) && read.n >= 1890 &&
    read.n <= 2035;
  if (isYear && !unitAt(t, read.next, read.n) && (YEAR_BEFORE.has(text(t, i - 1)) || YEAR_AFTER.has(after))) {
    return one({ is: "aside", because: "a year" }, after === "s" && isGlued(t, read.next) ? read.next + 1 : read.next);
  }
  return undefined;
};
/** `code letter G`, `code G`. */
export const codeLetter: Rule = (t, i) => {
  if (text(t, i) !== "code" && text(t, i) !== "letter") return undefined;
  let at = i + 1;
  if (text(t, at) === "letter") at++;
  if ([":", "=", "-", "is"].includes(text(t, at))) at++;
  const letter = t[at];
  if (
    letter?.is !== "word" || letter.text.length !== 1 ||
    (letter.typed !== letter.typed.toUpperCase() && text(t, i + 1) !== "letter" &&
      (["a", "i", "e"].includes(letter.text) || t[at + 1]?.is === "word"))
  ) return undefined;
  return one({ is: "letter", letter: letter.text.toUpperCase() }, at + 1);
};
const CLOSES = new Set([",", ".", "?", "!", "and", "or", "but", "here", "there", "still", "then"]);
/** `is 4/0 good and …`, `#6 good?`: a verdict that is asked, right behind a figure. */
export const goodAsked: Rule = (t, i) => {
  if (text(t, i) !== "good" || i === 0 || !speaksOf(t.slice(0, i), ASKING)) return undefined;
  const isBehindFigure = t[i - 1]!.is === "number" || unitAt(t, i - 1) !== undefined ||
    termAt(t, i - 1)?.terms.some(({ sort }) => sort === "metal" || sort === "insulation");
  const ends = t[i + 1] === undefined || t[i + 1]!.is === "line" || CLOSES.has(text(t, i + 1));
  return isBehindFigure && ends ? one({ is: "term", sort: "goal", id: "check" }, i + 1) : undefined;
};
/** `what do I need to stay under 3`: per cent of a drop, where no other unit is told. */
export const stayUnder: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : NaN;
  const isHeld = ["under", "below", "within"].includes(text(t, i - 1)) && ["stay", "staying"].includes(text(t, i - 2));
  const isBare = !unitAt(t, i + 1, n) && (t[i + 1] === undefined || t[i + 1]!.is !== "word" && !t[i + 1]!.glued);
  return isHeld && isBare && n > 0 && n <= MOST_DROP
    ? one({ is: "quantity", n, unit: "%", from: String(n) }, i + 1)
    : undefined;
};
const MOST_DROP = 10;
const ASKING = new Set(["is", "are", "still", "would", "will", "be", "was"]);
const POLES: Readonly<Record<string, number>> = { single: 1, double: 2, triple: 3 };
/** `2 pole`, `2p`: of a device. */
export const poles: Rule = (t, i) => {
  // `40 A double pole`, `50 A DP`, `30 A 2P`
  const spelled = POLES[text(t, i)];
  if (spelled !== undefined) {
    const to = text(t, i + 1) === "-" ? i + 2 : i + 1;
    return text(t, to) === "pole" ? one({ is: "poles", n: spelled }, to + 1) : undefined;
  }
  if (i > 1 && ["dp", "sp"].includes(text(t, i)) && unitAt(t, i - 1, t[i - 2]!.n)?.next === i) {
    return one({ is: "poles", n: text(t, i) === "dp" ? 2 : 1 }, i + 1);
  }
  if ([1, 2, 3].includes(t[i]?.n ?? 0) && text(t, i + 1) === "p" && isGlued(t, i + 1) && !isGlued(t, i + 2)) {
    return one({ is: "poles", n: t[i]!.n! }, i + 2);
  }
  const read = numberAt(t, i);
  if (!read || ![1, 2, 3].includes(read.n)) return undefined;
  const at = text(t, read.next) === "-" ? read.next + 1 : read.next;
  return ["pole", "poles", "pl"].includes(text(t, at)) ? one({ is: "poles", n: read.n }, at + 1) : undefined;
};
