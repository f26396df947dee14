/** Devices that are told by their rating alone: `on a 60`, `with a 40`, `is 200 A enough`. */
import type { Value } from "../facts.ts";
import { DEVICE_RATINGS, HEADS, isNominal, isUsualSupply, SERVICES } from "../families.ts";
import type { Sort } from "../lexicon/lexicon.ts";
import type { Sense } from "../sense.ts";
import { isBare } from "./fits.ts";
import type { Reading } from "./reading.ts";
import { ARTICLES, CHECKS, CROSS, END_WORDS, FACTS_AROUND, GROUNDS, THE } from "./words.ts";

/** Sorts of terms behind a figure that make it something else than a device's. */
const BEHIND_A_LOAD: ReadonlySet<Sort> = new Set(["label", "place", "end", "motorWord"]);
/** Places where someone has a spare breaker. */
const AT_HAND = new Set(["truck", "van", "hand", "shelf", "box", "bag", "home", "here", "stock"]);
/** How far before a device's rating what it protects is named. */
const WORDS_BEFORE = 7;
const SUPPLY_JOINTS = new Set(["and", "out", "at", "in", "there", "but", "so", "on"]);
const IFS = new Set(["if", "when", "with", "since", "because", "as"]);
const PROTECTED_AT = new Set(["at", "with", "@", "with a"]);
const PROTECTS = /^(fus|protect|breaker)(e|ed|ing|ect|s)?$/;
const SIDES = new Set(["primary", "secondary"]);
const SIDE_JOINTS = new Set(["on", "of", "at", "for"]);
const ON = new Set(["on", "off", "with", "by", "using"]);
/** What people do with an opinion. */
const OPINES = new Set(
  "say says said saying tell tells told telling think thinks thought claims claimed swears insists figures reckons that"
    .split(
      " ",
    ),
);
const VERBS = new Set(["is", "will", "would", "are", "does", "can"]);

/** `ev charger 48 amps breaker and wire`: no breaker is rated so, and a load that has no figure stands before it. */
export function notOfDevices(r: Reading): void {
  for (const device of r.facts.filter(({ family, id }) => family === "device" && id === "breaker")) {
    const [rating] = device.slots.rating ?? [];
    const sense = rating?.sense;
    if (!rating || sense?.is !== "quantity" || sense.unit !== "A" || sense.n % STEP === 0) continue;
    const load = r.facts.find(({ family, id, pieces, slots }) =>
      family === "load" && id !== undefined && pieces.at(-1) === rating.pieces[0]! - 1 &&
      !(slots.rating ?? slots.current)
    );
    if (!load) continue;
    load.slots.current = [rating];
    delete device.slots.rating;
  }
}
const TRIPS: ReadonlySet<string> = new Set(["tripping", "trips", "trip", "tripped", "popping", "pops"]);
/** `a 50 two pole`: one of that rating, and not so many of them. */
const OF_ONE: ReadonlySet<string> = new Set(["a", "an", "one", "the"]);
/** Ratings of breakers from 15 A on go by steps of 5 A. */
const STEP = 5;
/** `on a 60`, `on a 40 A`, `with a 60 amp`: the figure is a device's, where nothing behind it says otherwise. */
export function impliedDevices(r: Reading): void {
  r.pieces.forEach((piece, i) => {
    const figure = piece.senses.find((s) =>
      (s.is === "quantity" && s.unit === "A") || (s.is === "number" && isBare(s.n, DEVICE_RATINGS))
    );
    if (!figure || r.facts.some((fact) => fact.at === i)) return;
    // `real load 65 amps, keep it under 3 % on the 65`
    if (figure.is === "number" && THE.has(r.word(i - 1)) && r.isToldBefore(i) && r.typed(i - 2) === "on") return;
    let at = i - 1;
    let articles = 0;
    while (at >= 0 && ARTICLES.has(r.word(at))) {
      at--;
      articles++;
    }
    let isAlone = false;
    let isBehindAll = false;
    // `on one 20 amp 12/2`
    if (articles === 0 && r.typed(at) === "one" && r.word(at - 1) === "on" && r.isSize(i + 1)) {
      r.used.add(at);
      articles++;
      at--;
    }
    // `there's a 40 in the panel`, `I have a 30 on the truck`, `a 150 on the secondary`
    const isPlaced = articles > 0 && (isInPanel(r, i) || isAtHand(r, at, i) || isOnSide(r, i)) ||
      (figure.is === "number" && isSupplyOf(r, at, i, figure.n));
    // `125 primary`: no winding has such a voltage; with its unit it may be a current.
    const isSide = figure.is === "number" && !isUsualSupply(figure.n) && isWinding(r, i + 1);
    // `70 A two pole`
    const arePoles = (at: number) => r.pieces[at]?.senses.some((s) => s.is === "poles") ?? false;
    // `two pole 60`
    const isPoled = arePoles(i - 1) && !r.sort(i + 1, "device") && !r.sort(i - 2, "device") ||
      (figure.is === "quantity" || OF_ONE.has(r.typed(i - 1))) && arePoles(i + 1) && !r.sort(i + 2, "device") &&
        !r.sort(i - 1, "device");
    // `30A/10-3 existing`
    const isBesideCable = figure.is === "quantity" && isPaired(r, i);
    if (!isPlaced && !isSide && !isPoled && !isBesideCable) {
      // `10/2 romex and a 30`
      // `handed me a 40 and eight gauge`
      // `a 50 with 8/3`
      const isBeforeWire = articles > 0 && ["and", "with", "on"].includes(r.word(i + 1)) && r.isSize(i + 2);
      // `#10 romex with a 30`
      const isWithA = r.endsAt(i) && r.said([Math.max(at, 0)]).toLowerCase() === "with a" &&
        (r.isSize(at - 1) || r.sort(at - 1, "method") || r.sort(at - 1, "insulation"));
      const isBesideWire = isBeforeWire || isWithA || articles > 0 && r.word(at) === "and" && r.endsAt(i) &&
          (r.isSize(at - 1) || r.sort(at - 1, "method") || r.sort(at - 1, "insulation") ||
            r.sort(at - 1, "metal"));
      // `can it go on a fifteen`
      const isGoOn = (articles > 0 || r.endsAt(i)) && r.isCheck(at) && /\bon$/i.test(r.said([at]));
      // `feeder comes off a 60 in the house`
      const isOff = articles > 0 && (r.word(at) === "off" || r.isEnd(at, "from"));
      // `what ground goes with a 400`, `fuse #8 at 50`
      // `10/3 NM in the attic. still ok on 30?`
      const isAsked = articles === 0 && r.word(at) === "on" && r.isCheck(at - 1) && r.endsAt(i);
      const isOfWire = isAsked ||
        (r.endsAt(i) || IFS.has(r.word(i + 1))) && (groundWith(r, at, articles) || isProtected(r, at));
      // `on 60 6/2 romex`: between the word and its cable stands a breaker.
      const isBeforeCable = r.word(at) === "on" && r.isSize(i + 1) &&
        figure.is === "number" && figure.n % 5 === 0;
      // `keeps nuisance tripping a 30`
      const isTripped = articles > 0 && (r.isTerm(at, "motorWord", "hard-starting") || TRIPS.has(r.typed(at)));
      const isOn = isOff || isGoOn || isTripped || ON.has(r.word(at)) && (r.word(at) === "on" || articles > 0);
      if (at < 0 || !(isOn || isBesideWire || isOfWire)) return;
      isBehindAll = isOff || isOfWire;
      // `10/2 romex on 40`
      const isLast = r.pieces[i + 1] === undefined || r.pieces[i + 1]!.is === "border";
      const isWireOn = isLast && (r.isSize(at - 1) || r.sort(at - 1, "method") || r.sort(at - 1, "role"));
      // `… on 200?` by itself is a service.
      isAlone = isLast && (at === 0 || r.pieces[at - 1]!.is === "border") && figure.is === "number" &&
        SERVICES.has(figure.n);
      if (figure.is === "number" && articles === 0 && !isWireOn && !isAlone && !isOfWire && !isGoOn && !isBeforeCable) {
        return;
      }
      const isBareOn = isTripped || ["on", "off"].includes(r.word(at)) || isOff || isGoOn || isOfWire;
      if (figure.is === "number" && !isBesideWire && !isBareOn) return;
      // `on a 240 three-phase feeder`
      if (figure.is === "number" && isUsualSupply(figure.n)) return;
    }
    for (let next = i + 1; next < r.pieces.length && !isPlaced && !isSide && !isPoled && !isBesideCable; next++) {
      const { is, senses } = r.pieces[next]!;
      if (is === "border" || is === "comma") break;
      const isWhere = senses.some((s) => s.is === "term" && (s.sort === "place" || s.sort === "end"));
      if (isBehindAll && (["in", "at"].includes(r.word(next)) || IFS.has(r.word(next)) || isWhere)) break;
      if (is === "common" && ((CROSS[r.word(next)] ?? 0) >= 1 || r.word(next) === "to")) break;
      if (
        is === "unknown" ||
        senses.some((s) => s.is === "term" && (HEADS[s.sort] || BEHIND_A_LOAD.has(s.sort)))
      ) return;
    }
    const device = r.draft("device", "breaker", i);
    device.pieces = [];
    device.said = "";
    device.others = isAlone ? ["implied", "checked"] : ["implied"];
    r.facts.push(device);
  });
}

const isPaired = (r: Reading, i: number): boolean =>
  [1, -1].some((way) =>
    r.pieces[i + way]?.is === "mark" && r.tokens[r.pieces[i + way]!.from]!.text === "/" &&
    r.isSize(i + 2 * way)
  );

/** `what ground goes with a 400`: a ground that is asked for, and the device it goes with. */
function groundWith(r: Reading, at: number, articles: number): boolean {
  const isWithA = r.said([Math.max(at, 0)]).toLowerCase() === "with a";
  if (!isWithA && (articles === 0 || !["with", "for"].includes(r.word(at)))) return false;
  for (let i = at - 1; i >= Math.max(0, at - WORDS_BEFORE) && r.pieces[i]!.is !== "border"; i--) {
    if (r.pieces[i]!.senses.some((s) => s.is === "term" && s.sort === "role" && GROUNDS.has(s.id))) return true;
  }
  return false;
}

/** `fuse #8 copper at 50`, `protect 12 gauge with a 25`: what is done to a wire that stands between. */
function isProtected(r: Reading, at: number): boolean {
  if (!PROTECTED_AT.has(r.said([Math.max(at, 0)]).toLowerCase())) return false;
  let isWire = PROTECTS.test(r.typed(at - 1));
  for (let i = at - 1; i >= Math.max(0, at - WORDS_BEFORE) && r.pieces[i]!.is !== "border"; i--) {
    isWire ||= r.isSize(i);
    if (isWire && PROTECTS.test(r.typed(i))) return true;
  }
  return false;
}

/** `the house has a 200 and he wants 125 out at the barn`: services by their usual sizes. */
function isSupplyOf(r: Reading, verb: number, figure: number, n: number): boolean {
  const isVerb = END_WORDS.there!.has(r.word(verb)) || END_WORDS.wanted!.has(r.word(verb));
  if (!isVerb || r.word(verb) === "to" || !SERVICES.has(n)) return false;
  const next = r.word(figure + 1);
  if (next !== "" && !SUPPLY_JOINTS.has(next)) return false;
  if (next === "" && !(r.endsAt(figure) || r.sort(figure + 1, "place"))) return false;
  const near = r.pieces.slice(Math.max(0, figure - FACTS_AROUND), figure + FACTS_AROUND);
  return near.some(({ senses }) =>
    senses.some((s) => s.is === "term" && (s.id === "separate-structure" || s.id === "subpanel"))
  );
}

/** What someone has, and where: no load. */
function isAtHand(r: Reading, verb: number, figure: number): boolean {
  if (!END_WORDS.there!.has(r.word(verb)) || !["in", "on", "at", "here"].includes(r.word(figure + 1))) {
    return false;
  }
  let at = figure + 1;
  while (["in", "on", "at"].includes(r.word(at)) || ARTICLES.has(r.word(at))) at++;
  return AT_HAND.has(r.typed(at));
}

function isInPanel(r: Reading, i: number): boolean {
  if (r.word(i + 1) !== "in") return false;
  let at = i + 2;
  while (at < r.pieces.length && ARTICLES.has(r.word(at))) at++;
  return r.pieces[at]?.senses.some((s) => s.is === "term" && s.sort === "device" && s.id === "panel") ?? false;
}

/** A side of a transformer, with no device named behind it that would take the figure. */
function isWinding(r: Reading, i: number): boolean {
  return (r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "end" && SIDES.has(s.id)) ?? false) &&
    !r.sort(i + 1, "device");
}

/** `a 150 on the secondary`, `a 70 ahead of the primary`: a device by the side it protects. */
function isOnSide(r: Reading, i: number): boolean {
  let at = r.word(i + 1) === "ahead" ? i + 2 : i + 1;
  if (!SIDE_JOINTS.has(r.word(at))) return false;
  at++;
  while (at < r.pieces.length && ARTICLES.has(r.word(at))) at++;
  return r.sort(at, "end");
}

/** `is 200 A enough`, `150 A ok?`: amperes that stand between a question's verb and its verdict are a device put up for checking. */
export function checkedDevices(r: Reading): void {
  const isCheck = (i: number) =>
    r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "goal" && CHECKS.has(s.id));
  const isService = (s: Sense) => s.is === "number" && SERVICES.has(s.n);
  const isBareRating = (s: Sense) =>
    isService(s) || (s.is === "number" && isBare(s.n, DEVICE_RATINGS) && !isNominal(s));
  for (const i of r.figures((s) => (s.is === "quantity" && s.unit === "A") || isBareRating(s))) {
    if (isAskedAlone(r, i)) impliedCheck(r, i);
    let check = i + 1;
    while (check < i + 4 && r.word(check) !== "") check++;
    if (!isCheck(check)) continue;
    // `is the 70 all right`: one that was told.
    if (THE.has(r.word(i - 1)) && r.isToldBefore(i)) continue;
    let at = i - 1;
    while (at >= 0 && ARTICLES.has(r.word(at))) at--;
    // `is a 60 ok`: a bare number is a device's behind an article alone.
    // `200 enough?`: a service by its usual size opens the question.
    const isOpening = check === i + 1 && (at < 0 || r.pieces[at]!.is === "border") &&
      r.pieces[i]!.senses.some(isService);
    // `the salesman told her a 60 would do it`
    const isSaid = [at, at - 1].some((before) => OPINES.has(r.typed(before)));
    // `is 150 enough`: a service by its usual size between the verb and the verdict.
    const isPutUp = VERBS.has(r.word(i - 1)) && r.pieces[i]!.senses.some(isService);
    if (at === i - 1 && !isOpening && !isSaid && !isPutUp && !r.pieces[i]!.senses.some(({ is }) => is === "quantity")) {
      continue;
    }
    const opens = at < 0 || r.pieces[at]!.is === "border" || r.pieces[at]!.is === "comma" ||
      r.pieces[at]!.is === "mark" || VERBS.has(r.word(at)) || isSaid;
    if (!opens || r.facts.some((fact) => fact.at === i)) continue;
    const device = r.draft("device", "breaker", i);
    device.pieces = [];
    device.said = "";
    device.others = ["implied", "checked"];
    r.facts.push(device);
  }
}

/** `30 amp?`: amperes that are all of a question. */
const isAskedAlone = (r: Reading, i: number): boolean =>
  i > 0 && (r.pieces[i - 1]!.is === "border" || (r.isArticle(i - 1) && r.pieces[i - 2]?.is === "border")) &&
  r.pieces[i + 1]?.is === "border" &&
  r.tokens[r.pieces[i + 1]!.from]!.text === "?" &&
  r.pieces[i]!.senses.some((s) => s.is === "quantity" && s.unit === "A");

function impliedCheck(r: Reading, i: number): void {
  const device = r.draft("device", "breaker", i);
  r.facts.push({ ...device, pieces: [], said: "", others: ["implied", "checked"] });
  const value: Value = { sense: { is: "term", sort: "goal", id: "check" }, pieces: [], said: "" };
  r.free.push({ key: "goal:check", value, sentence: r.sentences[i]! });
}
