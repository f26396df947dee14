/** How many: counts, and all other slots of which one cut a pass finds the figures. */
import { isNominal, isUsualSupply, NEVER, type Pass } from "../families.ts";
import type { Sense } from "../sense.ts";
import type { Draft, Reading } from "./reading.ts";
import { COUNTED, THE, unitOfRating } from "./words.ts";

/** `12 unit apartment building`: so many apartments, and no units beside them. */
export function unitsOfBuilding(r: Reading): void {
  for (const unit of r.facts.filter(({ family, id, slots }) => family === "building" && id === "unit" && slots.count)) {
    const next = Math.max(...unit.pieces) + 1;
    const building = r.facts.find(({ family, id, pieces, slots }) =>
      family === "building" && ["apartment", "multifamily"].includes(id ?? "") && !slots.count && pieces.includes(next)
    );
    if (!building) continue;
    building.id = "apartment";
    building.slots = { ...unit.slots, ...building.slots };
    building.pieces.push(...unit.pieces);
    r.facts.splice(r.facts.indexOf(unit), 1);
  }
}
/** Whether a device's rating or a wire's size is called by a number. */
const isSameNumber = (sense: Sense, n: number): boolean =>
  sense.is === "size" || sense.is === "cable"
    ? sense.size === String(n)
    : (sense.is === "number" || (sense.is === "quantity" && sense.unit === "A")) && sense.n === n;
const EACH = new Set(["of", "at", "@", "rated"]);
const MOST_BESIDE = 20;
/** Words with which another item begins, also behind others: `with a`. */
const ITEM = new Set(["and", "plus", "a", "an"]);
const HOUSEHOLD_VOLTS = 480;
/** Of these a number before them is the rating. */
const ONE_OF: ReadonlySet<string> = new Set(["main", "service"]);
const LEAST_OF_MAINS = 60;

function isGoalBetween(r: Reading, from: number, to: number): boolean {
  for (let i = from + 1; i < to; i++) if (r.sort(i, "goal")) return true;
  return false;
}

// ── everything else
export function attach(r: Reading, pass: Pass): void {
  const rule = (fact: Draft) =>
    pass.heads.find((h) =>
      h.family === fact.family && (h.ids?.includes(fact.id!) ?? true) && !(h.not?.includes(fact.id!) ?? false)
    );
  const heads = r.facts.filter((fact) => !fact.whole && rule(fact) && !fact.slots[pass.slot]);
  r.cut(heads, r.figures(pass.figures), (head, figure) => {
    const sense = r.pieces[figure]!.senses.find(pass.figures)!;
    const { before, after } = rule(head)!;
    // `disposer 600`: no household appliance has such a voltage.
    if (isNominal(sense) && (sense as { n: number }).n > HOUSEHOLD_VOLTS && r.sort(head.at, "appliance")) {
      return undefined;
    }
    // `will the 100 carry the charger`: beyond what is asked stands no count.
    // `is the 70 all right on that wire`: a rating that was told.
    const isTold = pass.slot === "count" && THE.has(r.word(figure - 1)) && r.isToldBefore(figure);
    if (sense.is === "number" && isTold) return undefined;
    // `a 200 bus panel`
    const isOfBus = r.pieces[figure + 1]?.senses.some((s) =>
      s.is === "term" && s.sort === "source" && s.id === "busbar"
    );
    if (sense.is === "number" && pass.slot === "count" && isOfBus) return undefined;
    // `two-pole 30, water heater`: what stands behind poles is the device's rating.
    const isPoled = r.pieces[figure - 1]?.senses.some((s) => s.is === "poles") ?? false;
    if (sense.is === "number" && pass.slot === "count" && isPoled) return undefined;
    // `a 240 circuit`
    if (sense.is === "number" && pass.slot === "count" && isUsualSupply(sense.n)) return undefined;
    if (sense.is === "number" && pass.slot === "count" && isGoalBetween(r, figure, head.at)) return undefined;
    // `water heater 4500, dryer 5600`: no count stands beyond a comma.
    if (sense.is === "number" && pass.slot === "count" && r.hasComma(figure, head.at)) return undefined;
    // `building 4: 50 hp`, `number ten is 30 A wire`: nor does one that stands apart from a figure without a name.
    if (sense.is === "number" && pass.slot === "count" && isApart(r, figure, head)) return undefined;
    // `the 200 main down to a 150`: nobody has so many of them.
    if (sense.is === "number" && pass.slot === "count" && ONE_OF.has(head.id ?? "") && sense.n >= LEAST_OF_MAINS) {
      return undefined;
    }
    // `two fifties and a 25 hp motor`: nor beyond another item.
    if (sense.is === "number" && pass.slot === "count" && hasItem(r, figure, head.at)) return undefined;
    // `lighting on all day and 60 A of receptacles`: what is joined behind has hours of its own.
    if (pass.slot === "hours" && figure < head.at && r.hasAnd(figure, head.at)) return undefined;
    // `both on a timer 5pm-11pm`: of all that was named.
    if (pass.slot === "hours" && [1, 2, 3, 4].some((back) => ["both", "all"].includes(r.word(figure - back)))) {
      return undefined;
    }
    // `4000 sq ft in all, 8 kW range each`: what stands behind an area and before a comma is of the area.
    const isOfArea = r.pieces[figure - 1]?.senses.some((s) =>
      s.is === "quantity" && (s.unit === "ft2" || s.unit === "m2")
    );
    if (pass.slot === "share" && isOfArea && head.at > figure && r.hasComma(figure, head.at)) return undefined;
    // `70 breaker on the primary and a 150 main`: the side is the first one's.
    if (pass.slot === "end" && r.hasAnd(figure, head.at)) return undefined;
    if (sense.is === "count" && sense.isBehind) return { sense, slot: pass.slot, before: NEVER, after };
    return { sense, slot: pass.slot, before, after };
  }, (head) => rule(head)!.most ?? 1);
}

/** `five pieces: oven 11 kW`: whether a colon stands between a number and a head, or a verb before a figure without a name. */
function isApart(r: Reading, number: number, { at, id }: Draft): boolean {
  for (let i = number + 1; i < at; i++) {
    if (r.typed(i) === ":" || r.typed(i) === "=" || (id === undefined && r.word(i) === "is")) return true;
  }
  return false;
}

function hasItem(r: Reading, from: number, to: number): boolean {
  for (let i = from + 1; i < to; i++) if (ITEM.has(r.tokens[r.pieces[i]!.to - 1]!.text)) return true;
  return false;
}

/** `will the 100 carry it`: a number behind its article is the rating that was told before. */
export function toldAgain(r: Reading): void {
  for (const i of r.figures(({ is }) => is === "number")) {
    const { n } = r.pieces[i]!.senses.find(({ is }) => is === "number") as { n: number };
    if (!THE.has(r.word(i - 1))) continue;
    const told = r.facts.flatMap(({ slots }) =>
      [slots.rating, slots.size, slots.current, slots.draw].flatMap((each) => each?.[0] ?? [])
    )
      .find((value) => value && value.pieces[0]! < i && isSameNumber(value.sense, n));
    if (!told) continue;
    r.used.add(i);
    (told.pieces as number[]).push(i);
  }
}

/** `nine 100 watt lights`, `9 lights of 100 W`, `9 lights at 100 W`: the figure is of each; `9 lights 100 W` tells neither. */
export function shares(r: Reading): void {
  for (const { family, slots, pieces } of r.facts) {
    const head = pieces[0];
    const count = slots.count?.[0]?.pieces[0];
    const figure = (slots.rating ?? slots.current)?.[0]?.pieces[0];
    if (family !== "load" || slots.share || head === undefined || count === undefined || figure === undefined) {
      continue;
    }
    const between = r.pieces.slice(head + 1, figure).flatMap(({ from, to }) =>
      r.tokens.slice(from, to).map(({ text }) => text)
    );
    const isEach = (count < figure && figure < head) || between.some((word) => EACH.has(word));
    if (isEach) slots.share = [{ sense: { is: "term", sort: "share", id: "each" }, pieces: [], said: "" }];
  }
}

/** `duplex panel, two 7.5 hp`: a number that touches the figure of a head counts it, wherever the head stands. */
export function countsBeside(r: Reading, ...kinds: readonly ("count" | "number")[]): void {
  for (const fact of r.facts) {
    // `two 40 A solar breakers`
    const isCountable = fact.family === "load" ||
      fact.family === "device" && fact.id === "breaker" && /s$/i.test(fact.said);
    if (!isCountable || fact.slots.count) continue;
    if (fact.listed || fact.whole) continue;
    const figure = (fact.slots.rating ?? fact.slots.current)?.[0]?.pieces[0];
    if (figure === undefined) continue;
    // `dryers: four at 5 kW`
    const isAt = fact.pieces.every((at) => at < figure) && COUNTED.has(r.word(figure - 1));
    let at = isAt ? figure - 2 : figure - 1;
    // `20 of the 40 W lamps`
    while (r.word(at) === "the" || r.word(at) === "of") at--;
    if (at < 0 || r.used.has(at)) continue;
    const sense = r.pieces[at]!.senses.find(({ is }) => (kinds as readonly string[]).includes(is));
    if (!sense || (sense.is !== "number" && sense.is !== "count")) continue;
    if (Number.isInteger(sense.n) && sense.n >= 1 && sense.n <= MOST_BESIDE) {
      fact.slots.count = [r.value(sense, at)];
    }
  }
}

/** `three motors: 10 hp, 15 hp, 25 hp`: as many figures as were counted are each of one. */
export function totals(r: Reading): void {
  for (const head of r.facts) {
    const count = head.slots.count?.[0];
    const n = countedIn(head);
    if (n < 2 || (r.facts.filter(({ listed }) => listed === head).length !== n - 1 && !isListOf(r, head, n))) {
      continue;
    }
    head.pieces.push(...count!.pieces);
    delete head.slots.count;
  }
}

/** `7 dryers, four are 5.5 kW, three are 4500 W`: groups without a name that add up to all of them. */
export function groupsOf(r: Reading): void {
  for (const head of [...r.facts]) {
    const n = countedIn(head);
    if (head.family !== "load" || head.id === undefined || n < 2 || head.slots.rating || head.slots.current) continue;
    const groups = r.facts.filter(({ family, id, at, slots }) =>
      family === "load" && id === undefined && at > head.at && (slots.rating ?? slots.current)
    );
    if (groups.length < 2 || groups.reduce((sum, each) => sum + countedIn(each), 0) !== n) continue;
    for (const each of groups) each.id = head.id;
    groups[0]!.pieces.push(...head.pieces, ...head.slots.count![0]!.pieces);
    r.facts.splice(r.facts.indexOf(head), 1);
  }
}
/** `four units have 10 kW ranges and the other four 14 kW ones`: so many of them each, in as many homes. */
export function otherUnits(r: Reading): void {
  for (const other of r.facts) {
    const count = other.slots.count?.[0]?.pieces[0] ?? -1;
    const isRest = other.family === "load" && other.id === undefined && other.slots.rating &&
      OTHER.has(r.typed(count - 1));
    if (!isRest) continue;
    const first = r.facts.findLast(({ family, id, at, slots }) =>
      family === "load" && id !== undefined && at < other.at && slots.rating && !slots.count
    );
    const unit = first &&
      r.facts.find(({ family, id, at, sentence, slots }) =>
        family === "building" && id === "unit" && slots.count && at < first.at && sentence === first.sentence
      );
    if (!first || !unit) continue;
    const homes = countedIn(unit) + countedIn(other);
    other.id = first.id!;
    first.slots.count = unit.slots.count!;
    first.pieces.push(...unit.pieces);
    const isCounted = r.facts.some((each) => each !== unit && each.family === "building" && each.slots.count);
    if (isCounted) r.facts.splice(r.facts.indexOf(unit), 1);
    else {unit.slots = {
        ...unit.slots,
        count: [{ sense: { is: "number", n: homes }, pieces: [], said: String(homes) }],
      };}
  }
}
const OTHER = new Set(["other", "remaining", "rest"]);
/** `three baseboards, two 1500 W and one 2000 W`: groups that add up to all that were counted. */
export function recount(r: Reading): void {
  for (const head of r.facts) {
    const n = countedIn(head);
    const figure = head.slots.rating?.[0]?.pieces[0] ?? -1;
    const sense = r.pieces[figure - 1]?.senses.find(({ is }) => is === "number" || is === "count");
    const isOpen = head.family === "load" && head.id !== undefined && n > 2 && figure > head.at &&
      !r.used.has(figure - 1);
    if (!isOpen || (sense?.is !== "number" && sense?.is !== "count")) continue;
    const others = r.facts.filter(({ family, id, at, slots, sentence }) =>
      family === "load" && (id === undefined || id === head.id) && at > figure && sentence === head.sentence &&
      slots.rating
    );
    if (others.length === 0 || others.reduce((sum, each) => sum + (countedIn(each) || 1), sense.n) !== n) continue;
    head.pieces.push(...head.slots.count![0]!.pieces);
    head.slots.count = [r.value(sense, figure - 1)];
    for (const each of others) each.id = head.id;
  }
}
const countedIn = ({ slots }: Draft): number => {
  const sense = slots.count?.[0]?.sense;
  return sense?.is === "number" || sense?.is === "count" ? sense.n : 0;
};

/** Whether exactly so many figures of one unit follow a head in the plural, each by itself. */
function isListOf(r: Reading, head: Draft, n: number): boolean {
  const unit = unitOfRating(head.slots.rating?.[0]);
  const at = r.facts.indexOf(head);
  const others = r.facts.slice(at + 1).filter(({ family }) => family === "load");
  const isItem = (each: Draft) =>
    each.id === undefined && each.sentence === head.sentence && !each.slots.count &&
    unitOfRating(each.slots.rating?.[0]) === unit;
  const end = others.findIndex((each) => !isItem(each));
  return unit !== undefined && /s$/i.test(head.said) && (end < 0 ? others.length : end) === n - 1 &&
    head.slots.rating![0]!.pieces[0]! > head.at;
}
