/**
 * Sites of a park and slips of a dock: how many of each rating. `20 50-amp sites and 10 30s`, `45 slips, each with 30 A and 50 A`,
 * `50 A sites: 20`. Each becomes a load of its own, before devices look for the same amperes.
 */
import { OF_PARKS } from "../families.ts";
import type { Value } from "../facts.ts";
import type { Sense } from "../sense.ts";
import type { Draft, Reading } from "./reading.ts";

const PARKS: ReadonlySet<string> = new Set(OF_PARKS);
/** What vehicles are plugged into goes no higher; the word service beside it is then the site's own. */
const LARGEST_OF_VEHICLES = 50;
/** Receptacles are made for these; what is told as a bare number is one of them. */
const RATINGS: ReadonlySet<number> = new Set([15, 20, 30, 50, 60, 100, 200]);
/** As many as stand at one slip. */
const MOST_AT_ONE = 4;
const MOST_SITES = 5000;
const LEAST_BETWEEN_LINES = 200;
/** From how many of them outlets for vehicles are a park's. */
const LEAST_OF_PARK = 4;
const SITES: ReadonlySet<string> = new Set(
  ["site", "space", "spot", "pad", "lot", "pedestal", "hookup", "berth", "post"].flatMap((one) => [one, `${one}s`]),
);
const JOINS: ReadonlySet<string> = new Set(["and", "plus", "or", "&", "/", "+"]);
const COUNTS_BEHIND: ReadonlySet<string> = new Set([":", "x", "=", "-", "are", "qty"]);
const EACH: ReadonlySet<string> = new Set(["each", "per", "every", "apiece"]);
const REACH = 9;

export function sites(r: Reading): void {
  const parks = r.facts.filter(({ family, id, at }) =>
    family === "building" && PARKS.has(id!) ||
    id === "rv-outlet" && r.isMany(at) && [1, 2, 3].some((back) => (numberAt(r, at - back) ?? 0) >= LEAST_OF_PARK)
  );
  if (parks.length === 0 && !isCountAlone(r)) return;
  const isVehicles = !parks.some(({ id }) => id === "marina" || id === "boat-slip");
  let last: { fact: Draft; at: number } | undefined;
  for (let i = 0; i < r.pieces.length; i++) {
    const ratings = r.used.has(i) ? undefined : ratingsAt(r, i);
    const isPedestal = /^pedestals?$/.test(r.typed(i + 1));
    if (!ratings || !isPedestal && isOfDevice(r, i, isVehicles)) continue;
    if (isOfTents(r, i)) continue;
    const joins = last && joint(r, last.at, i);
    const count = joins === "and" ? undefined : countOf(r, i, ratings.from);
    const joined = joins === "and" || (joins === "comma" && !count) ? last!.fact : undefined;
    if (!joined && !count) continue;
    const [first, ...more] = ratings.n;
    const own = r.pieces.map((_, at) => at).slice(ratings.from, i + 1);
    const fact = put(r, own, first!, joined);
    if (isPedestal) fact.others.push("pedestal");
    if (count) {
      fact.slots.count = [r.value({ is: "number", n: count.n }, ...count.pieces)];
      if (count.outlets) fact.slots.outlets = [r.value({ is: "number", n: count.outlets.n }, count.outlets.at)];
    }
    for (const rating of more) put(r, own, rating, fact);
    last = { fact, at: i };
    // `45 slips with 30 A`: the word is of the count and names no others.
    takeService(r, i, fact);
  }
  counts(r);
}

/** `six tent pads with a 20 A recep`: a tent's own, which counts by the site; the word of the receptacle names no others. */
function isOfTents(r: Reading, i: number): boolean {
  const from = Math.max(0, i - MOST_BETWEEN);
  const tent = r.pieces.findLastIndex((_, at) => at >= from && at < i && isTentSite(r, at));
  const isApart = tent < 0 ||
    r.pieces.slice(tent, i).some(({ is }, k) => is === "comma" || is === "border" || JOINS.has(r.typed(tent + k)));
  if (isApart) return false;
  const own = r.facts.find(({ id, pieces }) => id === "tent-site" && pieces.includes(tent));
  if (!own) return false;
  own.slots.rating = [r.value({ is: "quantity", n: ratingsAt(r, i)!.n[0]!, unit: "A" }, i)];
  const outlet = r.facts.find(({ id, at }) => id === "receptacles" && at === i + 1);
  if (outlet) {
    r.facts.splice(r.facts.indexOf(outlet), 1);
    own.pieces.push(...outlet.pieces);
  }
  return true;
}
const MOST_BETWEEN = 5;
const isTentSite = (r: Reading, i: number): boolean =>
  r.pieces[i]!.senses.some((s) => s.is === "term" && s.id === "tent-site");

/** `make it 30 sites`, and a section that is on nothing else. */
function isCountAlone(r: Reading): boolean {
  const isBySection = r.pieces.some(({ senses }) =>
    senses.some((s) => s.is === "section" && SECTIONS.some((section) => s.section.startsWith(section)))
  );
  const isCounted = r.pieces.some((_, i) =>
    numberAt(r, i) !== undefined && SITES.has(r.typed(i + 1)) && r.typed(i + 1).endsWith("s")
  );
  return isBySection || isRated(r) || (isCounted && r.facts.length === 0);
}
/** `9 fifty amp sites`: nothing else has so many sites of a rating. */
const isRated = (r: Reading): boolean =>
  r.pieces.some(({ senses }, i) =>
    numberAt(r, i - 1) !== undefined && RATED_SITES.has(r.typed(i + 1)) &&
    senses.some((s) => s.is === "quantity" && s.unit === "A" && RATINGS.has(s.n))
  );
const RATED_SITES: ReadonlySet<string> = new Set(["sites", "hookups", "pedestals"]);
/** On the load of parks and docks. */
const SECTIONS = ["551.73", "550.31", "555.12", "555.6", "220.120", "120.120"];

/** So many sites without a rating, or lots with their load: `24 site park`, `30 lots at 16 kVA`. */
function counts(r: Reading): void {
  for (let i = 0; i < r.pieces.length; i++) {
    if (numberAt(r, i) === undefined) continue;
    const isSpaces = r.pieces[i]!.senses.some(({ is }) => is === "spaces");
    const at = isSpaces ? i : ["rv", "boat"].includes(r.typed(i + 1)) ? i + 2 : i + 1;
    if (at >= r.pieces.length || !isSite(r, at) || isTentSite(r, at) || r.sort(at, "appliance")) continue;
    const fact = r.draft("load", "park-site", i);
    fact.whole = true;
    fact.pieces.length = 0;
    fact.slots.count = [r.value({ is: "number", n: numberAt(r, i)! }, i)];
    const load = loadBehind(r, at);
    if (load) fact.slots.rating = [load];
    r.facts.push(fact);
  }
}
const REACH_OF_LOAD = 5;
function loadBehind(r: Reading, from: number): Value | undefined {
  for (let at = from + 1; at < r.pieces.length && at <= from + REACH_OF_LOAD; at++) {
    const power = r.pieces[at]!.senses.find((s) => s.is === "quantity" && POWERS.has(s.unit));
    if (power && !r.used.has(at)) return r.value(power, at);
    if (!isFiller(r, at) || r.pieces[at]!.is === "comma") return undefined;
  }
  return undefined;
}
const POWERS: ReadonlySet<string> = new Set(["W", "kW", "VA", "kVA"]);

/** One rating of so many sites; a further one of the same sites is marked as such. */
function put(r: Reading, own: readonly number[], n: number, same: Draft | undefined): Draft {
  const at = own.at(-1)!;
  const fact = r.draft("load", "park-site", at);
  if (same) fact.others.push("same-site");
  fact.whole = true;
  fact.pieces.length = 0;
  fact.slots.current = [r.value({ is: "quantity", n, unit: "A" }, ...own)];
  const volts = voltsAt(r, at + 1);
  if (volts) fact.slots.volts = [volts];
  const behind = Math.max(at, ...(volts?.pieces ?? [])) + 1;
  const phase = r.pieces[behind]?.senses.find((s) => s.is === "term" && s.sort === "phase");
  // `100 A three-phase receptacles`: theirs, and not the supply's.
  if (phase && isSite(r, behind + 1)) fact.slots.phase = [r.value(phase, behind)];
  r.facts.push(fact);
  return fact;
}

/** `30 A 125 V`, `50 A 125/250 V`. */
function voltsAt(r: Reading, behind: number): Value | undefined {
  const at = r.typed(behind) === "/" ? behind + 1 : behind;
  const voltage = (i: number) =>
    r.used.has(i)
      ? undefined
      : r.pieces[i]?.senses.find((s) => s.is === "quantity" && s.unit === "V" || s.is === "system");
  const both = r.pieces[at]?.senses.find(({ is }) => is === "pair");
  if (both?.is === "pair" && both.b >= LEAST_BETWEEN_LINES && !r.used.has(at)) {
    return r.value({ is: "quantity", n: both.b, unit: "V" }, at);
  }
  // `30 A 125 receptacle`
  const bare = numberAt(r, at);
  if (bare !== undefined && VOLTS.has(bare) && isSite(r, at + 1)) {
    return r.value({ is: "quantity", n: bare, unit: "V" }, at);
  }
  // A system told behind a comma or with its phases is the supply's: `50 A, 120/208 3 phase`.
  const own = r.sort(at + 1, "phase") ? undefined : voltage(at);
  if (own) return r.value(own, at);
  const pair = numberAt(r, at) !== undefined && r.typed(at + 1) === "/" ? voltage(at + 2) : undefined;
  return pair && r.value(pair, at, at + 1, at + 2);
}

const numberAt = (r: Reading, i: number): number | undefined => {
  const sense = r.pieces[i]?.senses.find(({ is }) => is === "number" || is === "count" || is === "spaces") as
    | { n: number }
    | undefined;
  const n = r.used.has(i) ? undefined : sense?.n;
  return n !== undefined && Number.isInteger(n) && n >= 1 && n <= MOST_SITES ? n : undefined;
};

type Ratings = { n: readonly number[]; from: number };
/** Amperes, `30/20 amp`, `50/30/20`, or a number in the plural behind another one: `18 50s`. */
function ratingsAt(r: Reading, i: number): Ratings | undefined {
  const senses: readonly Sense[] = r.pieces[i]!.senses;
  const amperes = senses.find((s) => s.is === "quantity" && s.unit === "A");
  const before = r.typed(i - 1) === "/" ? numberAt(r, i - 2) : undefined;
  const isRow = before !== undefined && RATINGS.has(before);
  const from = isRow ? i - 2 : i;
  if (amperes?.is === "quantity") return { n: [...(isRow ? [before] : []), amperes.n], from };
  const pair = senses.find((s) => s.is === "pair");
  if (pair?.is === "pair" && RATINGS.has(pair.a) && RATINGS.has(pair.b)) {
    return { n: [...(isRow ? [before] : []), pair.a, pair.b], from };
  }
  const n = numberAt(r, i);
  const isPlural = ["s", "'s"].includes(r.typed(i + 1));
  return n !== undefined && RATINGS.has(n) && isPlural && numberAt(r, i - 1) !== undefined
    ? { n: [n], from }
    : undefined;
}

const isDevice = (r: Reading, i: number): boolean =>
  r.pieces[i]?.senses.some((s) =>
    s.is === "term" && (s.sort === "device" || (s.sort === "circuit" && s.id === "feeder"))
  ) ?? false;
const isServiceWord = (r: Reading, i: number): boolean =>
  r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "device" && s.id === "service") ?? false;

/** `400 A service`, `main of 400 A`: the supply's own, but for the `50 A service` of each site. */
function isOfDevice(r: Reading, i: number, isVehicles: boolean): boolean {
  const [n] = ratingsAt(r, i)!.n;
  if (isVehicles && n! > LARGEST_OF_VEHICLES) return true;
  const isCheck = r.pieces[i + 1]?.senses.some((s) => s.is === "term" && s.sort === "goal" && s.id === "check");
  if (isCheck) return true;
  if (isServiceWord(r, i + 1) && isVehicles) return false;
  return isDevice(r, i + 1) || (isDevice(r, i - 1) && !isSite(r, i - 1)) ||
    (isDevice(r, i - 2) && ["of", "at", "is", "rated"].includes(r.word(i - 1)));
}
/** `24 sites with 50 amp service`: no service that is asked about. */
function takeService(r: Reading, at: number, site: Draft): void {
  const service = r.facts.find((fact) => fact.at === at + 1 && fact.id === "service");
  if (!service) return;
  r.facts.splice(r.facts.indexOf(service), 1);
  site.pieces.push(...service.pieces);
}

const isSite = (r: Reading, i: number): boolean =>
  SITES.has(r.typed(i)) ||
  (r.pieces[i]?.senses.some((s) =>
    s.is === "spaces" ||
    s.is === "term" && (s.sort === "building" && PARKS.has(s.id) || s.id === "rv-outlet" || s.id === "receptacles")
  ) ?? false);
const FILLERS: ReadonlySet<string> = new Set(["share", "end", "finish"]);
/** What may stand between a rating and its count. */
function isFiller(r: Reading, i: number): boolean {
  const piece = r.pieces[i]!;
  if (isSite(r, i) || piece.is === "comma" || piece.is === "mark" || piece.is === "unknown") return true;
  if (piece.is === "common") return !JOINS.has(r.typed(i));
  return piece.senses.some((s) =>
    s.is === "term" && (FILLERS.has(s.sort) || (s.sort === "label" && ["rated", "spacing"].includes(s.id))) ||
    s.is === "quantity" && s.unit === "V" || s.is === "system"
  );
}

/** What joins two ratings of one site: `30 A and 50 A`, `50 A, 30 A and 20 A`, with no number of their own between them. */
function joint(r: Reading, from: number, to: number): "and" | "comma" | undefined {
  let by: "and" | "comma" | undefined;
  for (let i = from + 1; i < to; i++) {
    if (JOINS.has(r.typed(i))) by = "and";
    else if (!isFiller(r, i) || numberAt(r, i) !== undefined) return undefined;
    else if (r.pieces[i]!.is === "comma") by ??= "comma";
  }
  return by;
}

type Count = { n: number; pieces: number[]; outlets?: { n: number; at: number } };
function countOf(r: Reading, i: number, from: number): Count | undefined {
  // `12 - 30 amp`, which is no range where it is written apart.
  const sense = r.pieces[i]!.senses.find((s) => s.is === "quantity");
  if (sense?.is === "quantity" && sense.low !== undefined && !r.tokens[r.pieces[i]!.from + 1]?.glued) {
    return { n: sense.low, pieces: [i] };
  }
  const before = numberBefore(r, from);
  if (before !== undefined) {
    const n = numberAt(r, before)!;
    const all = n <= MOST_AT_ONE && isOfEach(r, i, before) ? numberBefore(r, before) : undefined;
    return all === undefined
      ? { n, pieces: [before] }
      : { n: numberAt(r, all)!, pieces: [all], outlets: { n, at: before } };
  }
  return numberBehind(r, i);
}

function numberBefore(r: Reading, i: number): number | undefined {
  for (let at = i - 1; at >= 0 && at >= i - REACH; at--) {
    if (numberAt(r, at) !== undefined) return at;
    if (r.used.has(at) && r.isFigure(at) || !isFiller(r, at)) return undefined;
  }
  return undefined;
}

/** `30 slips, 2 30 A receptacles each`: what stands at one of them. */
function isOfEach(r: Reading, rating: number, count: number): boolean {
  const around = [...Array(REACH).keys()].flatMap((k) => [rating + 1 + k, count - 1 - k]);
  const isShare = (i: number) =>
    EACH.has(r.typed(i)) ||
    (r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "share" && s.id === "each") ?? false);
  const border = r.pieces.findIndex(({ is }, i) => i > rating && (is === "comma" || is === "border"));
  return around.some((i) => i >= 0 && (border < 0 || i < border || i < count) && isShare(i));
}

/** Voltages that receptacles are made for. */
const VOLTS: ReadonlySet<number> = new Set([120, 125, 240, 250]);
/** `50 A sites: 20`, `50 amp 20 sites`. */
function numberBehind(r: Reading, i: number): Count | undefined {
  let at = i + 1;
  // `a 30 A 125 receptacle`: its volts, and no number of them.
  const volts = numberAt(r, at);
  if (volts !== undefined && VOLTS.has(volts)) return undefined;
  while (at < r.pieces.length && (isSite(r, at) && numberAt(r, at) === undefined || COUNTS_BEHIND.has(r.typed(at)))) {
    at++;
  }
  const n = numberAt(r, at);
  if (n === undefined) return undefined;
  const next = r.pieces[at + 1];
  const isWhole = next === undefined || next.is === "comma" || next.is === "border" || isSite(r, at + 1) ||
    isSite(r, at);
  return isWhole ? { n, pieces: [at] } : undefined;
}
