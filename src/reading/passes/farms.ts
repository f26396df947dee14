/**
 * Buildings of a farm with what is connected in them: `barn 150 A, 80 A run together, largest motor 10 hp; shop 60 A; house 120 A`.
 * Each becomes a load by its own name, before devices look for the same amperes.
 */
import type { Value } from "../facts.ts";
import type { Draft, Reading } from "./reading.ts";

/** What a farm's loads are called, by the last word. */
const NAMES: ReadonlySet<string> = new Set(
  [
    ...["barn", "shed", "shop", "bin", "silo", "parlor", "parlour", "dryer", "drier", "pump", "mill", "coop", "stable"],
    ...[
      "greenhouse",
      "garage",
      "dairy",
      "elevator",
      "pivot",
      "auger",
      "unloader",
      "conveyor",
      "cooler",
      "room",
    ],
  ],
);
/** Of a farm only with such a word before it: a `leg` is a panel's otherwise. */
const NAMES_WITH: Readonly<Record<string, string>> = { leg: "grain" };
/** Before a building these say that it is a farm's, with or without the word. */
const OF_FARMS: ReadonlySet<string> = new Set(
  [
    "hog",
    "dairy",
    "chicken",
    "poultry",
    "hen",
    "cattle",
    "calf",
    "milking",
    "farrowing",
    "brooder",
    "grain",
    "livestock",
  ],
);
const HOUSES: ReadonlySet<string> = new Set(["house", "farmhouse", "home", "dwelling", "residence"]);
/** With these before it a house is no dwelling; before any name they belong to it. */
const OF_HOUSES = [
  "milk",
  "pump",
  "hen",
  "hog",
  "poultry",
  "chicken",
  "well",
  "farrowing",
  "brooder",
  "packing",
  "hoop",
];
const BEFORE: ReadonlySet<string> = new Set([
  ...OF_HOUSES,
  ...["grain", "dairy", "machine", "feed", "hay", "irrigation", "cattle", "horse", "equipment", "tool", "main", "calf"],
  ...[
    "corn",
    "sheep",
    "storage",
    "cold",
    "seed",
    "bulk",
    "livestock",
    "milking",
    "implement",
    "center",
    "work",
    "pole",
    "old",
    "new",
  ],
]);
const SECTIONS = ["220.102", "220.103", "120.102", "120.103"];
const POWERS: ReadonlySet<string> = new Set(["A", "W", "kW", "VA", "kVA"]);
const REACH = 6;
const MOST_ALIKE = 200;

export function farms(r: Reading): void {
  if (!isOfFarm(r) || isOneCircuit(r)) return;
  const names = r.pieces.flatMap((_, i) => nameAt(r, i) ?? []);
  let last: Draft | undefined;
  for (let i = 0; i < r.pieces.length; i++) {
    const value = amountAt(r, i);
    if (!value || isOfDevice(r, i)) continue;
    const { unit } = value;
    // `a 10 hp motor (50 A)`: the same motor by its amperes.
    const isSame = last?.slots.motor?.[0]?.sense.is === "quantity" && last.slots.motor[0].sense.unit === "hp" &&
      unit === "A" && r.typed(i - 1) === "(" && r.typed(i + 1) === ")";
    if (isSame) {
      last!.slots.motor = [{ ...r.value(value, i), pieces: [...last!.slots.motor![0]!.pieces, i] }];
      continue;
    }
    const part = unit === "hp" || isMotor(r, i) ? "motor" : isTogether(r, i) ? "together" : "rating";
    if (part !== "rating") {
      const own = last ?? take(r, names.find(({ to }) => to <= i), i);
      if (unit === "hp" && !isMotor(r, i) || own.slots[part]) continue;
      own.slots[part] = [r.value(value, i)];
      if (part === "motor") takeMotor(r, i, own);
      last = own;
      continue;
    }
    const free = names.filter(({ isTaken }) => !isTaken);
    const before = free.findLast(({ to }) =>
      to <= i && !r.figures(() => true).some((at) => at >= to && at < i && amountAt(r, at))
    );
    const behind = free.find(({ from }) =>
      from > i && from - i <= 2 && r.pieces.slice(i + 1, from).every(({ is }) => is === "common")
    );
    last = take(r, before ?? behind, i);
    last.slots.rating = [r.value(value, i)];
    const count = countOf(r, Math.min(i, last.pieces[0] ?? i));
    if (count) last.slots.count = [count];
  }
  listedBarns(r);
  countsOfAll(r);
}

/** `3 barns: 120 A, 90 A, 40 A`: as many figures as were counted are each of one. */
function listedBarns(r: Reading): void {
  const told = r.facts.filter(({ others, slots }) => others.includes("farm-building") && slots.rating)
    .sort((a, b) => a.at - b.at);
  told.forEach((head, i) => {
    const count = head.slots.count?.[0];
    const n = count?.sense.is === "number" ? count.sense.n : 0;
    if (n < 2 || head.pieces.length === 0) return;
    const rest = told.slice(i + 1, i + n);
    const isListed = rest.length === n - 1 && rest.every(({ pieces, slots }) => pieces.length === 0 && !slots.count);
    if (!isListed || told[i + n]?.pieces.length === 0) return;
    head.pieces.push(...count!.pieces);
    delete head.slots.count;
  });
}

/** `four buildings of 60 A each`: as many as all of them, where one alone is told. */
function countsOfAll(r: Reading): void {
  const told = r.facts.filter(({ others, slots }) => others.includes("farm-building") && slots.rating);
  if (told.length !== 1 || told[0]!.slots.count) return;
  const at = r.pieces.findIndex((_, i) => /^buildings$/.test(r.typed(i)));
  const count = at > 0 ? countOf(r, at) : undefined;
  if (count) told[0]!.slots.count = [count];
}

/** A farm named, a building that only farms have whose demand is asked for, or a section that is on nothing else. */
const isOfFarm = (r: Reading): boolean =>
  r.facts.some(({ family, id }) => family === "building" && id === "farm") ||
  r.pieces.some((_, i) => r.isTerm(i, "goal", "load") || isTogether(r, i)) &&
    r.pieces.some((_, i) => isFarmBuilding(r, i)) ||
  r.pieces.some((_, i) => isTogether(r, i)) && r.pieces.some((_, i) => /^barns?$/.test(r.typed(i))) ||
  r.pieces.some(({ senses }) =>
    senses.some((s) => s.is === "section" && SECTIONS.some((section) => s.section.startsWith(section)))
  );

const isFarmBuilding = (r: Reading, i: number): boolean =>
  [r.typed(i - 1), r.said([i]).toLowerCase().split(/[\s-]/)[0]!].some((word) => OF_FARMS.has(word)) &&
  nameAt(r, i) !== undefined;

/** One load and its wire, breaker or length: a circuit, on a farm as elsewhere. */
const isOneCircuit = (r: Reading): boolean =>
  r.pieces.filter((_, i) => amountAt(r, i)).length === 1 &&
  r.pieces.some(({ senses }, i) =>
    senses.some((s) => s.is === "quantity" && ["ft", "m", "yd"].includes(s.unit)) || r.isTerm(i, "role", "wire") ||
    r.isTerm(i, "device", "breaker", "subpanel", "panel") || r.isTerm(i, "circuit", "circuit")
  );

type Name = { words: string; from: number; to: number; isDwelling: boolean; isTaken?: boolean };
function nameAt(r: Reading, i: number): Name | undefined {
  const said = r.said([i]).toLowerCase();
  const word = said.split(/[\s-]/).at(-1)!.replace(/(?<=.)s$/, "");
  const isHouse = HOUSES.has(word);
  const isName = NAMES.has(word) || NAMES_WITH[word] !== undefined && r.typed(i - 1) === NAMES_WITH[word];
  if (!isHouse && !isName || r.pieces[i]!.senses.some((s) => s.is === "quantity")) return undefined;
  let from = i;
  while (from > 0 && BEFORE.has(r.typed(from - 1)) && r.pieces[from - 1]!.is !== "comma") from--;
  const words = r.pieces.slice(from, i + 1).map((_, k) => r.said([from + k]).toLowerCase()).join(" ");
  const isBuilding = OF_HOUSES.some((each) => words.split(" ").includes(each));
  return { words: words.replace(/s$/, ""), from, to: i + 1, isDwelling: isHouse && !isBuilding };
}

/** The fact of a name, which is then no other head's; without a name one of its own. */
function take(r: Reading, name: Name | undefined, at: number): Draft {
  const fact = r.draft("load", name?.isDwelling ? "farm-dwelling" : name?.words ?? "farm-building", name?.from ?? at);
  if (!name?.isDwelling) fact.others.push("farm-building");
  fact.whole = true;
  fact.pieces.length = 0;
  if (name) {
    name.isTaken = true;
    for (let i = name.from; i < name.to; i++) {
      fact.pieces.push(i);
      r.used.add(i);
    }
    fact.said = r.said(fact.pieces);
    const own = new Set(fact.pieces);
    for (const other of r.facts.filter(({ at, id }) => own.has(at) && id !== "farm")) {
      r.facts.splice(r.facts.indexOf(other), 1);
    }
    fact.slots.name = [{ sense: { is: "words", words: name.words }, pieces: [], said: name.words }];
  }
  r.facts.push(fact);
  return fact;
}

type Amount = Extract<Value["sense"], { is: "quantity" }>;
function amountAt(r: Reading, i: number): Amount | undefined {
  if (r.used.has(i)) return undefined;
  const isAmount = (s: Value["sense"]) => s.is === "quantity" && (POWERS.has(s.unit) || s.unit === "hp");
  const sense = r.pieces[i]!.senses.find(isAmount);
  return sense?.is === "quantity" ? sense : bareAmperes(r, i);
}
/** `dairy barn 90 A, shop 70`, `the house is 110`, `only 85 of that together`: where amperes were told, a number beside a name is in them. */
function bareAmperes(r: Reading, i: number): Amount | undefined {
  const number = r.pieces[i]!.senses.find((s) => s.is === "number" && s.n >= LEAST_AMPERES && s.n <= MOST_AMPERES);
  const inAmperes = r.pieces.some(({ senses }) => senses.some((s) => s.is === "quantity" && s.unit === "A"));
  if (number?.is !== "number" || !inAmperes) return undefined;
  const name = ["is", "has", "at"].includes(r.word(i - 1)) ? i - 2 : i - 1;
  const isNamed = name >= 0 && nameAt(r, name) !== undefined && r.pieces[i + 1]?.is !== "fact";
  const isPart = r.isTerm(i + 1, "circuit", "of-which") && isTogether(r, i);
  return isNamed || isPart ? { is: "quantity", n: number.n, unit: "A" } : undefined;
}
const LEAST_AMPERES = 10;
const MOST_AMPERES = 1200;

/** `200 A service`, `main of 200 A`, `is 200 A enough`: the supply's own. */
function isOfDevice(r: Reading, i: number): boolean {
  if (r.isTerm(i + 1, "goal", "check") || r.isTerm(i - 1, "goal", "check")) return true;
  if (r.isTerm(i + 1, "device") || r.isTerm(i + 1, "circuit", "feeder")) return true;
  return r.isTerm(i - 1, "device") && !r.isTerm(i - 1, "device", "service") ||
    r.isTerm(i - 2, "device") && ["of", "at", "is", "rated"].includes(r.word(i - 1));
}
const parts = (r: Reading, i: number): boolean =>
  r.pieces[i] === undefined || r.pieces[i]!.is === "comma" || r.pieces[i]!.is === "border" || r.isFigure(i);
/** What is said of a figure: behind it up to the next figure or comma, or right before it. */
function isSaidOf(r: Reading, figure: number, is: (i: number) => boolean): boolean {
  for (let i = figure + 1; i <= figure + REACH && !parts(r, i); i++) if (is(i)) return true;
  for (let i = figure - 1; i >= figure - REACH && !parts(r, i); i--) if (is(i)) return true;
  return false;
}
const isTogether = (r: Reading, i: number): boolean =>
  isSaidOf(r, i, (at) => r.isTerm(at, "motorWord", "at-once", "all-at-once"));
/** `largest motor 10 hp`, `with a 15 hp fan`: the one motor that is told of a building is the largest known. */
const isMotor = (r: Reading, i: number): boolean =>
  r.isTerm(i - 1, "machine", "motor") || r.isTerm(i + 1, "machine", "motor") ||
  isSaidOf(r, i, (at) => r.isTerm(at, "motorWord", "largest"));

/** `a 10 hp vacuum pump as the largest motor`: what it drives is no load of its own. */
function takeMotor(r: Reading, figure: number, own: Draft): void {
  for (const way of [-1, 1]) {
    for (let i = figure + way; Math.abs(i - figure) <= REACH && !parts(r, i); i += way) {
      const head = r.facts.find(({ family, at }) => family === "load" && at === i);
      if (!head || head === own || head.others.includes("farm-building")) continue;
      r.facts.splice(r.facts.indexOf(head), 1);
      own.pieces.push(...head.pieces);
    }
  }
}

/** `3 hog barns at 80 A`, `two 60 A sheds`. */
function countOf(r: Reading, at: number): Value | undefined {
  // `2 × building 60 A`
  if (r.typed(at - 1) === "building") at--;
  const number = r.pieces[at - 1]?.senses.find(({ is }) => is === "number" || is === "count") as
    | { n: number }
    | undefined;
  if (!number || r.used.has(at - 1) || !Number.isInteger(number.n) || number.n < 1 || number.n > MOST_ALIKE) {
    return undefined;
  }
  return r.value({ is: "number", n: number.n }, at - 1);
}
