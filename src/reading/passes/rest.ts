/** What no head took: own results, checks, terms by their sort and figures by their unit. */
import { isNominal, isUsualSupply } from "../families.ts";
import type { Sense } from "../sense.ts";
import type { Reading } from "./reading.ts";
import { ARTICLES, LEAST_BARE } from "./words.ts";

/** Behind a bare number these make it a distance. */
const FAR_WORDS = new Set(["from", "away", "out", "long", "back", "down"]);
const GOT = new Set(["got", "get", "gets", "getting", "figured", "calculated", "calculate"]);
const OF_ALL = new Set(["the", "all", "these", "those"]);
const WILL = new Set(["will", "would", "does", "do", "can", "could"]);
const YES_OR_NO = new Set(["is", "are", "do", "does", "will", "would", "am", "can", "could"]);
const DO = new Set(["do", "pass", "hold", "handle"]);

/** `I got 41,200`: what someone worked out themselves. */
export function ownResults(r: Reading): void {
  const isResult = (s: Sense) =>
    (s.is === "number" && s.n >= LEAST_BARE) || (s.is === "quantity" && (s.unit === "VA" || s.unit === "kVA"));
  for (const i of r.figures(isResult)) {
    let at = i - 1;
    while (["about", "only", "like", "around", "a", "with"].includes(r.typed(at))) at--;
    // `I keep landing on 32,900`
    if (r.typed(at) === "on" && /^land/.test(r.typed(at - 1))) at--;
    const isGot = /^land/.test(r.typed(at)) || GOT.has(r.typed(at)) ||
      (r.typed(at) === "up" && /^c[oa]m/.test(r.typed(at - 1)));
    if (!isGot || r.isThing(i + 1)) continue;
    r.free.push({
      key: "told-result",
      value: r.value(r.pieces[i]!.senses.find(isResult)!, i),
      sentence: r.sentences[i]!,
    });
  }
}

/** `will #8 copper do`, `would a 60 pass`: a question's verb and what it ends with put up what stands between. */
export function checks(r: Reading): void {
  let asks = false;
  let first: number | undefined;
  // `is the drop within 3 %?`: a limit that is asked for by a question of yes or no.
  const within = (end: number, goesOn = false): void => {
    const isAsked = first !== undefined && YES_OR_NO.has(r.word(first)) &&
      r.pieces.slice(first, end).some(({ senses }) => senses.some((s) => s.is === "quantity" && s.unit === "%"));
    if (isAsked) {
      r.free.push({
        key: "goal:check",
        value: r.value({ is: "term", sort: "goal", id: "check" }, first!),
        sentence: r.sentences[first!]!,
      });
    }
    asks &&= goesOn;
    first = undefined;
  };
  r.pieces.forEach((piece, i) => {
    const word = r.word(i);
    if (piece.is === "border" || piece.is === "comma") return within(i, piece.is === "comma");
    first ??= i;
    if (asks && DO.has(word) && r.endsAt(i)) {
      r.free.push({
        key: "goal:check",
        value: r.value({ is: "term", sort: "goal", id: "check" }, i),
        sentence: r.sentences[i]!,
      });
    } else if (asks && r.typed(i) === "trip" && r.endsAt(i)) {
      // `does 14/2 on a 15 amp breaker trip`: at the end of such a question it is the verb, and no device.
      const device = r.facts.findIndex(({ pieces, slots }) => pieces.includes(i) && Object.keys(slots).length === 0);
      if (device >= 0) r.facts.splice(device, 1);
      r.free.push({
        key: "goal:fault-path",
        value: r.value({ is: "term", sort: "goal", id: "fault-path" }, i),
        sentence: r.sentences[i]!,
      });
    } else if (WILL.has(word)) asks = true;
  });
  within(r.pieces.length);
  // `6/3 romex good for 60 A?`: what a table says is told; with a question mark it is asked.
  for (const { key, value, sentence } of [...r.free]) {
    if (key !== "told-ampacity") continue;
    const [from, to] = [Math.min(...value.pieces), Math.max(...value.pieces)];
    const end = r.pieces.findIndex(({ is }, i) => i > to && is === "border");
    const begin = 1 + r.pieces.findLastIndex(({ is }, i) => i < from && is === "border");
    const isQuestion = end >= 0 && r.tokens[r.pieces[end]!.from]!.text === "?";
    if (!isQuestion && !YES_OR_NO.has(r.word(begin))) continue;
    r.free.push({
      key: "goal:check",
      value: { sense: { is: "term", sort: "goal", id: "check" }, pieces: value.pieces, said: value.said },
      sentence,
    });
  }
}

/** Whether nothing but `in the`, `in one` stands between a number and a raceway, and nothing that it counts. */
function isInRaceway(r: Reading, i: number): boolean {
  if (r.word(i + 1) !== "in") return false;
  let at = i + 2;
  while (ARTICLES.has(r.word(at)) || r.word(at) === "same") at++;
  const isRaceway = r.sort(at, "raceway") || r.sort(at, "method");
  return isRaceway && !r.isSize(i - 1) && !r.isThing(i - 1) && r.endsAt(at);
}

/** What no head took: terms by their sort, figures by their unit. */
export function rest(r: Reading): void {
  const heads = new Set(r.facts.flatMap(({ pieces }) => pieces));
  r.pieces.forEach((piece, i) => {
    if (piece.is !== "fact" || heads.has(i)) return;
    // `460/3/60` and `240 VDC` are a voltage and a supply in one, whatever took the voltage.
    const isSupply = piece.senses.length > 1 && piece.senses.some(({ is }) => is === "quantity" || is === "system");
    for (const sense of piece.senses) {
      if (r.used.has(i) && !(isSupply && sense.is === "term" && sense.sort === "phase")) continue;
      // `nine in the pipe`: so many conductors lie together.
      if (sense.is === "number" && isInRaceway(r, i)) {
        const value = { sense, pieces: [i], said: r.said([i]) };
        r.free.push({ key: "conductors-together", value, sentence: r.sentences[i]! });
        continue;
      }
      // A bare number that is a usual voltage may be taken as one, under a key of its own.
      if (isNominal(sense)) {
        const value = { sense, pieces: [i], said: r.said([i]) };
        r.free.push({ key: "nominal-volts", value, sentence: r.sentences[i]! });
        // `240 from the house` is a distance.
        const isFar = FAR_WORDS.has(r.word(i + 1)) || r.sort(i + 1, "label");
        if (isUsualSupply((sense as { n: number }).n) && !isFar) {
          r.free.push({ key: "supply-volts", value, sentence: r.sentences[i]! });
        }
      }
      // `single phase 240`: beside its phases it is one.
      // `5 kW inverter (240)`
      const isInBrackets = r.typed(i - 1) === "(" && r.typed(i + 1) === ")" && sense.is === "number" &&
        isUsualSupply(sense.n);
      const isBesidePhase = r.sort(i - 1, "phase") || r.sort(i + 1, "phase");
      const volts: Sense | undefined = isNominal(sense) && (isBesidePhase || isInBrackets)
        ? { is: "quantity", n: (sense as { n: number }).n, unit: "V" }
        : undefined;
      // `3/8 allen`: across its flats.
      const across: Sense | undefined =
        sense.is === "number" && !Number.isInteger(sense.n) && sense.n < 1 && r.isTerm(i + 1, "connector")
          ? { ...sense, is: "quantity", unit: "in" }
          : undefined;
      const read = volts ?? across ?? sense;
      const key = read.is === "term" ? `${read.sort}:${read.id}` : read.is === "quantity" ? read.unit : read.is;
      const free = { value: { sense: read, pieces: [i], said: r.said([i]) }, sentence: r.sentences[i]! };
      r.free.push({ key, ...free });
      // `a feeder for the three`, `all four of them`
      if (key === "number" && isOfAll(r, i - 1) && r.endsAt(i)) {
        r.free.push({ key: "all", ...free });
      }
    }
  });
}

const isOfAll = (r: Reading, i: number): boolean =>
  OF_ALL.has(r.word(i)) ||
  (r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "circuit" && s.id === "one-for-all") ?? false);
