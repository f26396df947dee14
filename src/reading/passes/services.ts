/** Services told without the word, and what burns what once something is replaced. */
import type { Value } from "../facts.ts";
import type { Sense } from "../sense.ts";
import type { Draft, Reading } from "./reading.ts";
import { ARTICLES } from "./words.ts";

/** Usual ratings of services. */
export const RATINGS: ReadonlySet<number> = new Set([60, 100, 125, 150, 200, 225, 320, 400, 600, 800, 1000, 1200]);
const OWNERS = new Set(["my", "the", "her", "his", "their", "our"]);
const REACH = 6;

/** `a 200 amp house`, `a ranch on 150 amps`, `church: 400 A 120/208 V`, `will my 150 take it`: a service by its usual rating. */
export function impliedServices(r: Reading): void {
  const isAdding = r.pieces.some((_, i) => r.isTerm(i, "goal", "add-load") || r.isTerm(i, "change", "add"));
  r.pieces.forEach(({ senses }, i) => {
    const figure = senses.find((s): s is Sense & { n: number } =>
      (s.is === "quantity" && s.unit === "A" || s.is === "number") && RATINGS.has(s.n)
    );
    if (!figure || r.isTerm(i + 1, "device") || r.isTerm(i - 1, "device")) return;
    const isTold = figure.is === "quantity"
      ? r.isTerm(i + 1, "building", "dwelling", "existing", "apartment", "unit") || isTaking(r, i) || isOnHouse(r, i) ||
        isWithSupply(r, i) || isAdding && isThere(r, i)
      : isAdding && OWNERS.has(r.word(i - 1)) &&
        (r.word(i + 1) !== "" || r.endsAt(i) || r.isTerm(i + 1, "goal") || r.typed(i + 1) === ":");
    if (!isTold) return;
    const service = r.draft("device", "service", i);
    service.pieces = [];
    service.said = "";
    service.others = ["implied"];
    service.slots.rating = [r.value(figure, i)];
    r.facts.push(service);
  });
}
/** `existing 100 amp, 1200 sq ft, add …`: nothing stands behind it that it could be of. */
const isThere = (r: Reading, i: number): boolean =>
  r.isTerm(i - 1, "building", "existing") && ["border", "comma", "mark", undefined].includes(r.pieces[i + 1]?.is);
/** `will 200 A take a hot tub`: between the verb and what is asked of it. */
const isTaking = (r: Reading, i: number): boolean =>
  ["will", "can", "does", "could", "would", "is"].includes(r.word(i - 1)) && r.isTerm(i + 1, "goal", "add-load");
function isOnHouse(r: Reading, i: number): boolean {
  if (r.word(i - 1) !== "on" || !r.endsAt(i)) return false;
  return Array.from({ length: REACH }, (_, k) => i - 2 - k).some((at) =>
    at >= 0 && r.sentences[at] === r.sentences[i] &&
    (r.isTerm(at, "building", "dwelling") || r.pieces[at]!.senses.some((s) => s.is === "quantity" && s.unit === "ft2"))
  );
}
/** With the supply right behind it, and nothing before it that it could be of. */
function isWithSupply(r: Reading, i: number): boolean {
  const opens = i === 0 || ["border", "comma", "mark"].includes(r.pieces[i - 1]!.is) ||
    // `strip center suite 400 A 208Y/120`: no load of its sentence stands before it.
    r.pieces.slice(0, i).every(({ is, senses }, at) =>
      r.sentences[at] !== r.sentences[i] || is !== "fact" ||
      senses.every((s) => s.is === "term" && s.sort === "building")
    );
  // `225 A 208Y/120 panelboard`: the rating of what is named behind.
  if (r.isTerm(i + 2, "device")) return false;
  return (opens || r.isTerm(i - 1, "building", "existing")) &&
    (r.pieces[i + 1]?.senses.some((s) => s.is === "system") ?? false);
}

/** `heat pump: compressor 24 A`, `heat pump. compressor is 4.2 kW`: a machine told by its compressor. */
export function compressors(r: Reading): void {
  for (const fact of [...r.facts]) {
    if (fact.id !== "heat-pump" || fact.slots.rating || fact.slots.current) continue;
    const part = r.facts.find(({ id, sentence, at, slots }) =>
      id === "compressor" && sentence - fact.sentence <= 1 && at > fact.at && at - fact.at <= FAR &&
      (slots.current ?? slots.rating)
    );
    if (!part) continue;
    for (const [slot, values] of Object.entries(part.slots)) fact.slots[slot] ??= values;
    fact.pieces.push(...part.pieces);
    r.facts.splice(r.facts.indexOf(part), 1);
  }
}
const FAR = 3;

/** `change the main from 200 to 175`, `swap the 200 main for a 175`, `drop the main to 80`: the main as it is to be. */
export function changedMains(r: Reading): void {
  const isRating = (i: number) =>
    r.pieces[i]?.senses.find((s): s is Sense & { n: number } =>
      (s.is === "number" || s.is === "quantity" && s.unit === "A") && RATINGS_OF_MAINS.has(s.n)
    );
  for (
    const main of r.facts.filter(({ family, id, pieces }) => family === "device" && id === "main" && pieces.length > 0)
  ) {
    let at = Math.max(...main.pieces) + 1;
    const was = r.word(at) === "from" ? isRating(at + 1) : undefined;
    if (was) {
      main.slots.rating ??= [r.value(was, at + 1)];
      at += 2;
    }
    // `the 200 main down to a 150`
    const first = Math.min(...main.pieces) - 1;
    const before = r.used.has(first) ? undefined : isRating(first);
    // `the 200 main down to a 150`
    if (["down", "out"].includes(r.word(at))) at++;
    if (!["to", "for", "with"].includes(r.word(at))) continue;
    at++;
    while (ARTICLES.has(r.word(at))) at++;
    const is = isRating(at);
    if (!is) continue;
    if (before) putMain(r, first, r.value(before, first));
    const own = main.slots.rating?.[0]?.pieces.includes(at);
    const value = r.value(is, at);
    if (own || !main.slots.rating) {
      main.slots.rating = [value];
      main.others.push("changed");
      continue;
    }
    putMain(r, at, value).others.push("changed");
  }
}
function putMain(r: Reading, at: number, rating: Value): Draft {
  const main = r.draft("device", "main", at);
  main.pieces = [];
  main.slots.rating = [rating];
  r.facts.push(main);
  return main;
}
const RATINGS_OF_MAINS = new Set([60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400]);

const REPLACING = new Set([
  "replace",
  "replaces",
  "replacing",
  "swap",
  "swapping",
  "converting",
  "changing",
  "switching",
]);
const BY = new Set(["for", "with", "to", "by"]);
/** `4.5 kW water heater replacing gas`, `swapping a gas tankless for an electric one`: what was there burns no more. */
export function replaced(r: Reading): void {
  r.pieces.forEach((_, i) => {
    if (!REPLACING.has(r.typed(i))) return;
    // `there's #8 in it and they want to replace with #6`: the wires before it come out.
    if (BY.has(r.word(i + 1))) {
      for (const fact of r.facts) if (fact.family === "conductor" && fact.at < i) fact.others.push("replaced");
      return;
    }
    let at = i + 1;
    while (ARTICLES.has(r.word(at))) at++;
    if (!r.isTerm(at, "fuel", "gas")) return;
    const fuels = r.facts.filter(({ family, slots }) => family === "load" && slots.fuel?.[0]?.pieces.includes(at));
    const end = r.pieces.findIndex((piece, k) => k > at && piece.is === "border");
    const behind = Array.from({ length: (end < 0 ? r.pieces.length : end) - at }, (_, k) => at + k);
    const by = behind.find((k) => BY.has(r.word(k)));
    const electric = by === undefined ? undefined : behind.find((k) => k > by && r.isTerm(k, "fuel", "electric"));
    const isAlone = !r.isTerm(at + 1, "appliance") && !r.isTerm(at + 1, "machine");
    if (!isAlone && electric === undefined) return;
    for (const fact of fuels) {
      delete fact.slots.fuel;
      if (electric !== undefined) {
        fact.slots.fuel = [r.value({ is: "term", sort: "fuel", id: "electric" }, electric)];
      }
    }
    r.free.push({
      key: "replaced",
      value: r.value({ is: "term", sort: "fuel", id: "gas" }, at),
      sentence: r.sentences[at]!,
    });
  });
}
