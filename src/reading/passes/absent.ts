/** What a text says that there is none of, or that burns gas. */
import { OF_DWELLINGS } from "../families.ts";
import { type Draft, type Reading, unhead } from "./reading.ts";
import { ARTICLES } from "./words.ts";

const NONE_BEHIND = new Set(["no", "none"]);
const NONE = new Set(["no", "without", "minus", "ignore", "ignoring", "disregard"]);

/** `all gas heat`: what stands right behind it burns gas too. */
export function gasOfAll(r: Reading): void {
  gasListed(r);
  for (const fact of r.facts) {
    const isOfAll = r.pieces[fact.at - 1]?.senses.some((s) =>
      s.is === "term" && s.sort === "building" && s.id === "all-else-gas"
    );
    if (fact.family !== "load" || !isOfAll || fact.slots.fuel) continue;
    fact.slots.fuel = [r.value({ is: "term", sort: "fuel", id: "gas" }, fact.at - 1)];
  }
}

/** `everything gas, ranges dryers heat hot water`: what is listed behind it, without a figure, up to the end of the sentence. */
function gasListed(r: Reading): void {
  const at = r.pieces.findIndex((_, i) => r.isTerm(i, "building", "all-else-gas"));
  if (at < 0) return;
  for (let i = at + 1; i < r.pieces.length && r.sentences[i] === r.sentences[at]; i++) {
    const fact = r.facts.find((each) => each.family === "load" && each.at === i);
    const isPassed = ["comma", "mark"].includes(r.pieces[i]!.is) || ["and", "the"].includes(r.word(i));
    if (!fact && !isPassed) return;
    if (!fact) continue;
    if (r.pieces[i + 1] && r.isFigure(i + 1)) return;
    fact.slots.fuel ??= [r.value({ is: "term", sort: "fuel", id: "gas" }, at)];
  }
}
/** `no dryer or AC`, `without a range`: named as not there. */
export function absent(r: Reading): void {
  absentOf(r);
  // `no hvac on this service (landlord's RTU)`: spoken of again.
  const none = new Set(r.free.filter(({ key }) => key.startsWith("absent:")).map(({ key }) => key.slice(ABSENT)));
  for (const fact of [...r.facts]) {
    const isBare = fact.family === "load" && none.has(fact.id ?? "") && Object.keys(fact.slots).length === 0;
    if (!isBare || r.isFigure(Math.max(0, fact.at - 1)) || (r.pieces[fact.at + 1] && r.isFigure(fact.at + 1))) continue;
    unhead(r, fact, `absent:${fact.id}`);
  }
}
/** `laundry is common, so none in the units`, `laundry in the basement, not in the apartments`. */
function isNoneInUnits(r: Reading, { at, sentence }: Pick<Draft, "at" | "sentence">): boolean {
  for (let i = at + 1; i <= at + BEHIND_LAUNDRY && r.sentences[i] === sentence; i++) {
    if (r.typed(i) !== "none" && r.typed(i) !== "not") continue;
    return [1, 2, 3].some((k) => ["unit", "apartment"].some((home) => r.isTerm(i + k, "building", home)));
  }
  return false;
}
const BEHIND_LAUNDRY = 8;
const ASSUMED = new Set(["assumed", "presumed"]);
const ELSEWHERE = new Set(["off", "offsite", "elsewhere", "off-site"]);
const ABSENT = "absent:".length;
function absentOf(r: Reading): void {
  // `common laundry in the basement, none in the units`
  r.pieces.forEach((_, at) => {
    if (!r.isTerm(at, "building", "common-part") || !/laundry/i.test(r.said([at]))) return;
    const sentence = r.sentences[at]!;
    if (!isNoneInUnits(r, { at, sentence })) return;
    r.free.push({
      key: "absent:laundry",
      value: r.value({ is: "term", sort: "circuit", id: "laundry" }, at),
      sentence,
    });
  });
  let last: number | undefined;
  let wasDenied = false;
  for (const fact of [...r.facts].sort((a, b) => a.at - b.at)) {
    const isOfDwelling = fact.family === "circuit" && OF_DWELLINGS.includes(fact.id!);
    if (fact.family !== "load" && fact.family !== "box" && !isOfDwelling) continue;
    let at = fact.at - 1;
    const isBetween = (i: number) =>
      ARTICLES.has(r.word(i)) || r.word(i) === "any" || r.sort(i, "room") ||
      r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "fuel") ||
      // `no intenral clamps`: a slip between does not make them there.
      (fact.family === "box" && r.pieces[i]?.is === "unknown");
    while (at >= 0 && isBetween(at)) at--;
    // `never had cooling`
    // `nobody has a/c`, `we don't have AC`
    const isNever = ["had", "has", "have"].includes(r.typed(at)) &&
      /^(never|nobody|none|neither|do(es)?n'?t)$/.test(r.typed(at - 1));
    const isNone = at >= 0 && (NONE.has(r.typed(at)) || isNever);
    // `heat pump: no`
    const no = ["colon", ":", "="].includes(r.typed(fact.at + 1)) ? fact.at + 2 : fact.at + 1;
    if (fact.family === "load" && NONE_BEHIND.has(r.typed(no)) && r.endsItem(no + 1)) {
      r.facts.splice(r.facts.indexOf(fact), 1);
      const value = r.value(r.pieces[fact.at]!.senses[0]!, ...fact.pieces, no);
      r.free.push({ key: `absent:${fact.id}`, value, sentence: fact.sentence });
      continue;
    }
    // `laundry is downstairs on the house panel`: of an apartment, in the common part.
    const onHouse = [1, 2, 3, 4, 5].find((k) => r.isTerm(fact.at + k, "building", "common-part"));
    const isOnHouse = fact.id === "laundry" && onHouse !== undefined && !r.hasComma(fact.at, fact.at + onHouse) &&
      [1, 2, 3, 4].some((k) => k < onHouse && ["on", "off"].includes(r.word(fact.at + k))) &&
      r.facts.some(({ family, id }) => family === "building" && ["apartment", "unit"].includes(id ?? ""));
    if (isOnHouse) {
      unhead(r, fact, "absent:laundry");
      continue;
    }
    // `laundry is off site`
    const is = ["is", "are", "'s"].includes(r.typed(fact.at + 1)) ? fact.at + 2 : fact.at + 1;
    if (fact.id === "laundry" && ELSEWHERE.has(r.typed(is))) {
      for (let i = fact.at + 1; i <= is; i++) r.used.add(i);
      unhead(r, fact, "absent:laundry");
      continue;
    }
    if (fact.id === "laundry" && isNoneInUnits(r, fact)) {
      unhead(r, fact, "absent:laundry");
      continue;
    }
    // `(I know about the 8 kW assumed range)`: what a rule takes for granted is nobody's.
    if (fact.family === "load" && ASSUMED.has(r.typed(fact.at - 1))) {
      const figure = [fact.at - 2, Math.max(...fact.pieces) + 1].find((i) => r.pieces[i] && r.isFigure(i));
      const pieces = [fact.at - 1, ...fact.pieces, ...(figure === undefined ? [] : [figure])];
      for (const i of pieces) r.used.add(i);
      r.facts.splice(r.facts.indexOf(fact), 1);
      const value = r.value(r.pieces[fact.at]!.senses[0]!, ...pieces);
      r.free.push({ key: `denied:${fact.id}`, value, sentence: fact.sentence });
      continue;
    }
    const isOr = last !== undefined && last === at - 1 && ["or", "nor"].includes(r.typed(at));
    // `(not heating or cooling)`: what is not spoken of.
    const isPlain = Object.keys(fact.slots).length === 0;
    const isDenied: boolean = isPlain && fact.family === "load" && at >= 0 && r.typed(at) === "not" ||
      isOr && wasDenied;
    if (!isNone && !isOr && !isDenied) continue;
    last = fact.at;
    wasDenied = isDenied;
    for (let i = at; i < fact.at; i++) r.used.add(i);
    r.facts.splice(r.facts.indexOf(fact), 1);
    const pieces = [...Array.from({ length: fact.at - at }, (_, i) => at + i), ...fact.pieces];
    r.free.push({
      key: `${isDenied ? "denied" : "absent"}:${fact.id}`,
      value: r.value(r.pieces[fact.at]!.senses[0]!, ...pieces),
      sentence: fact.sentence,
    });
  }
}
