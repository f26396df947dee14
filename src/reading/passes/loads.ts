/** Loads without a name, further ones of a row, their fuel, what they are called. */
import { toBeAdded } from "../added.ts";
import type { Value } from "../facts.ts";
import { type Label, LABELS, RATING } from "../families.ts";
import type { Sort } from "../lexicon/lexicon.ts";
import type { Sense } from "../sense.ts";
import { fitsLabel } from "./fits.ts";
import type { Draft, Reading } from "./reading.ts";
import { COUNTED, IN_A_LIST, LABEL_REACH } from "./words.ts";

const LIST_JOINTS = new Set([",", "and", "&", "+", "plus"]);
/** Between the last of a row and what is said of all of it: `the range and the dryer went gas`. */
const OF_THE_ROW = new Set(["are", "both", "all", "went", "going", "go", "were", "switched", "changed"]);
const TWINS = new Set(["other", "another", "others"]);
const TWIN_REACH = 9;
const ORDINALS = "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth".split(" ");
/** Words of a name that is in no list, and words that end it. */
const LONGEST_NAME = 3;
const NO_NAME = new Set(
  ("a an the my our i we it its is are was will and or with plus then as if no not in on at for by to from of per that which" +
    " what there this these those have has need each rated also but do does can total going").split(" "),
);

const IS_FED = new Set("is are s fed served supplied powered on from by its own a the".split(" "));
const ELSEWHERE = new Set(["elsewhere", "others", "separately", "landlord", "landlords", "landlord's", "theirs"]);
const MOST_BEFORE_ELSEWHERE = 4;
/** `exhaust fan is fed elsewhere`: another supply's, and no load of this one. */
export function elsewhere(r: Reading): void {
  for (const load of r.facts.filter(({ family, id, slots }) => family === "load" && id && !slots.rating)) {
    const begin = Math.max(...load.pieces) + 1;
    let at = begin;
    while (at - begin < MOST_BEFORE_ELSEWHERE && IS_FED.has(r.typed(at))) at++;
    if (at === begin || !ELSEWHERE.has(r.typed(at))) continue;
    r.facts.splice(r.facts.indexOf(load), 1);
    for (const piece of load.pieces) {
      const sense = { is: "aside" as const, because: "fed elsewhere, so no load of this supply" };
      r.free.push({ key: "aside", value: r.value(sense, piece), sentence: load.sentence });
    }
  }
}

const POWERS: ReadonlySet<string> = new Set(["W", "kW", "VA", "kVA"]);
/** Behind `connected` these tell to what, and no sum. */
const CONNECTED_TO = new Set(["to", "for", "at", "in", "on", "by", "through", "from", "across", "between", "with"]);
/** `everything comes to 290 kVA connected`, `22.5 kVA connected per apartment`: all that there is, by its sum. */
export function connectedLoads(r: Reading): void {
  r.pieces.forEach((piece, i) => {
    const figure = piece.senses.find((s) => s.is === "quantity" && POWERS.has(s.unit));
    // `total connected load 520 kVA with heat`
    const isNamed = figure && !r.used.has(i) && r.isTerm(i - 1, "goal", "load") && /connected/i.test(r.said([i - 1]));
    if (isNamed) {
      const load = r.draft("load", "connected", i - 1);
      load.slots.rating = [r.value(figure, i)];
      r.used.add(i - 1);
      r.facts.push(load);
      return;
    }
    if (!figure || r.used.has(i) || r.typed(i + 1) !== "connected" || CONNECTED_TO.has(r.typed(i + 2))) return;
    // `twenty pieces of kitchen equipment, 107 kVA connected`: theirs.
    if (r.facts.some(({ id, sentence }) => id === "kitchen-equipment" && sentence === r.sentences[i])) return;
    const load = r.draft("load", "connected", i + 1);
    load.slots.rating = [r.value(figure, i)];
    const isPer = r.typed(i + 2) === "per" && r.sort(i + 3, "building");
    const each = isPer ? i + 3 : r.isTerm(i + 2, "share", "each") ? i + 2 : undefined;
    if (each !== undefined) {
      load.slots.share = [r.value({ is: "term", sort: "share", id: "each" }, each)];
    }
    r.facts.push(load);
  });
}

/** Amperes and powers without a head are loads of their own; amperes behind a power are its own. */
export function standAlone(r: Reading): void {
  const taken = r.figures((s) =>
    (s.is === "quantity" && (s.unit === "A" || RATING.figures(s))) || (s.is === "pair" && s.unit === "A") ||
    s.is === "plate-currents"
  );
  let last: Draft | undefined;
  for (const at of taken) {
    const sense = r.pieces[at]!.senses.find((s) => ["quantity", "pair", "plate-currents"].includes(s.is))!;
    const slot = sense.is === "quantity" && sense.unit !== "A" ? "rating" : "current";
    // A nameplate's lines belong to the load that stands above them.
    last ??= r.isOfPlate(at)
      ? r.facts.findLast((fact) => fact.family === "load" && fact.at < at && fact.slots.rating && !fact.slots[slot])
      : undefined;
    if (
      last && !last.slots[slot] && r.sentences[at] === last.sentence &&
      (r.between(last.at, at) < LABEL_REACH + 2 || r.isOfPlate(at))
    ) {
      last.slots[slot] = [r.value(sense, at)];
      continue;
    }
    if (labelledWith(r, at, sense)) continue;
    if (isCircuitOf(r, at, sense)) {
      const device = r.draft("device", "breaker", at);
      device.pieces = [];
      device.slots.rating = [r.value(sense, at)];
      r.facts.push(device);
      continue;
    }
    const listed = listedWith(r, at, slot);
    last = r.draft("load", listed?.id ?? countedOf(r, at, slot)?.id, at);
    if (listed) last.listed = listed.listed ?? listed;
    const twin = which(r, at);
    if (twin !== undefined) last.others.push(twin);
    if (isAdded(r, at)) last.others.push("added");
    last.pieces = [];
    last.slots[slot] = [r.value(sense, at)];
    r.facts.push(last);
  }
  r.facts.sort((a, b) => a.at - b.at);
}

const ONE_CIRCUIT = new Set(["a", "one", "single"]);
/** `twenty lights of 0.29 A on one 20 A`: the circuit that they are on, where a sentence ends so. */
function isCircuitOf(r: Reading, at: number, sense: Sense): boolean {
  const isAmperes = sense.is === "quantity" && sense.unit === "A" && Number.isInteger(sense.n) && sense.n % 5 === 0;
  const isOn = ONE_CIRCUIT.has(r.typed(at - 1)) && r.typed(at - 2) === "on";
  const isLast = r.endsAt(at) && r.facts.some(({ family, slots }) => family === "load" && slots.current);
  if (!isAmperes || !isOn || !isLast) return false;
  r.used.add(at - 1);
  return true;
}

/** `the other a 13.6 kW`, `another 5 kW`, `the fourth one is 6 kW`: which of what was named last a figure is of. */
function which(r: Reading, at: number): string | undefined {
  const isPassed = (i: number) =>
    r.pieces[i]!.is === "common" || r.pieces[i]!.senses.some(({ is }) => is === "number" || is === "count");
  for (let before = at - 1; before >= Math.max(0, at - TWIN_REACH); before--) {
    const word = r.typed(before);
    const ordinal = ORDINALS.indexOf(word) + 1 || Number(/^(\d+)(?:st|nd|rd|th)$/.exec(r.said([before]))?.[1]);
    if (ordinal > 1) return `ordinal:${ordinal}`;
    if (TWINS.has(word)) return "twin";
    // `two more are 16 kW`, `and one more at 16 kW`, and not `more than 16 kW`
    const isCounted = (word === "more" && r.isNumber(before - 1)) ||
      word === "" && /^(one|an?) more$/i.test(r.said([before]));
    if (isCounted) return "twin";
    // What stands between may say where it is: `the fourth one in the attic is 6 kW`.
    if (!isPassed(before) && !isPlain(r, before)) return undefined;
  }
  return undefined;
}

/** `1500 W heater plus 5 A`, `and about 3 A`: joined to what stands before. */
function isAdded(r: Reading, at: number): boolean {
  let i = at - 1;
  while (i > at - IN_A_LIST && ["a", "an", "the", "about", "another", "maybe", "around"].includes(r.word(i))) i--;
  return ["and", "plus", "&", "+", "with"].includes(r.typed(i)) || r.sort(i, "change");
}

const isPlain = (r: Reading, i: number): boolean =>
  r.pieces[i]!.is === "unknown" || r.sort(i, "space") || r.sort(i, "place") || r.sort(i, "building");

/** `two compressors, rated load 18 and 22 A`: a further figure under a label is of another of the things named before it. */
function labelledWith(r: Reading, at: number, sense: Sense): boolean {
  let before = at - 1;
  while (before > 0 && LIST_JOINTS.has(r.typed(before))) before--;
  if (before === at - 1) return false;
  const label = r.labels.find(({ slots }) => slots.value?.some(({ pieces }) => pieces.includes(before)));
  const rule = label && LABELS[label.id as never] as Label;
  const head = rule?.ofLoad && fitsLabel(sense, rule)
    ? r.facts.findLast((fact) => fact.family === "load" && fact.at < label!.at && fact.sentence === label!.sentence)
    : undefined;
  if (!label || !rule || !head || !/s$/i.test(head.said)) return false;
  const twin = r.draft("load", head.id, at);
  twin.pieces = [];
  twin.listed = head.listed ?? head;
  twin.slots[rule.slot ?? label.id!] = [r.value(sense, at)];
  r.facts.push(twin);
  return true;
}

/** `compressors 22 A and 17 A`: a further figure of a head in the plural is another of them. */
function listedWith(r: Reading, at: number, slot: string): Draft | undefined {
  let before = at - 1;
  while (before > 0 && LIST_JOINTS.has(r.tokens[r.pieces[before]!.from]!.text)) before--;
  if (before === at - 1) return undefined;
  const head = r.facts.find((fact) => fact.slots[slot]?.some(({ pieces }) => pieces.includes(before)));
  return head?.family === "load" && (head.listed || (head.at < before && /s$/i.test(head.said))) ? head : undefined;
}

/** `dryers: three at 5.5 kW and five at 4.8 kW`: a further figure with a count of its own is of the same things. */
function countedOf(r: Reading, at: number, slot: string): Draft | undefined {
  let before = at - 1;
  while (COUNTED.has(r.word(before))) before--;
  if (!r.isNumber(before)) return undefined;
  before--;
  const joint = before;
  while (before > 0 && LIST_JOINTS.has(r.typed(before))) before--;
  const head = before < joint &&
    r.facts.find((fact) => fact.slots[slot]?.some(({ pieces }) => pieces.includes(before)));
  return head && head.family === "load" && (head.pieces.length === 0 || /s$/i.test(head.said)) ? head : undefined;
}

/** `50 gallon 4.5 kW tank`: what holds gallons and takes power heats water. */
export function tanks(r: Reading): void {
  for (const fact of r.facts) {
    // `4500 W tank`
    const isTank = fact.slots.gallons ||
      ["tank", "tankless"].includes(r.typed(Math.max(fact.at, ...fact.slots.rating?.[0]?.pieces ?? []) + 1));
    if (fact.family === "load" && fact.id === undefined && isTank && fact.slots.rating) {
      fact.id = "water-heater";
    }
  }
}

const ROOMS: readonly Sort[] = ["room", "space", "place"];
/** What nothing knows beside a figure without a head is its name: `3 kW steam shower`. */
export function names(r: Reading): void {
  const isUnknown = (at: number) => r.pieces[at]?.is === "unknown";
  const isNameless = (at: number) =>
    (isUnknown(at) || r.pieces[at]?.is === "common") && /^\p{L}/u.test(r.typed(at)) &&
    !NO_NAME.has(r.typed(at));
  const isOfSchedule = r.pieces.some(({ senses }) =>
    senses.some((s) => s.is === "term" && s.sort === "goal" && s.id === "panel-schedule")
  );
  for (const fact of r.facts) {
    if (fact.family !== "load" || fact.id !== undefined || !(fact.slots.rating ?? fact.slots.current)) continue;
    // `a 14 kW and an 18 kW range`
    if (["and", "&", "+"].includes(r.typed(fact.at + 1))) fact.others.push("joined");
    const words: number[] = [];
    const from = ["of", "for"].includes(r.word(fact.at + 1)) ? fact.at + 2 : fact.at + 1;
    for (let at = from; isNameless(at) && words.length < LONGEST_NAME; at++) words.push(at);
    if (!words.some(isUnknown)) {
      words.length = 0;
      const colon = r.typed(fact.at - 1) === ":" || ["at", "of"].includes(r.word(fact.at - 1)) ? 1 : 0;
      for (let at = fact.at - 1 - colon; isNameless(at) && words.length < LONGEST_NAME; at--) words.unshift(at);
    }
    // `panel schedule: kitchen 1500 W`: a circuit by its room.
    const isRoom = isOfSchedule && !words.some(isUnknown) && ROOMS.some((sort) => r.sort(fact.at - 1, sort));
    if (isRoom) words.splice(0, words.length, fact.at - 1);
    if (!isRoom && !words.some(isUnknown)) continue;
    fact.slots.name = [{ sense: { is: "words", words: r.said(words) }, pieces: words, said: r.said(words) }];
  }
}

/** `range, dryer and water heater are gas` is said of the whole row; `gas range and dryer` may be. */
export function shareFuel(r: Reading): void {
  const heads = r.facts.filter(({ family, id, pieces }) => family === "load" && id && pieces.length > 0);
  const isPlain = ({ slots }: Draft) => !slots.rating && !slots.current && !slots.fuel;
  heads.forEach((head, k) => {
    const fuel = head.slots.fuel?.[0];
    if (!fuel) return;
    const at = fuel.pieces[0]!;
    if (at > head.at) {
      // `water heater and both furnaces gas`
      const between = Array.from({ length: at - head.at + 1 }, (_, i) => r.typed(head.at - 1 + i));
      if (!between.some((word) => OF_THE_ROW.has(word))) return;
      for (let i = k - 1; i >= 0 && heads[i]!.sentence === head.sentence && isPlain(heads[i]!); i--) {
        heads[i]!.slots.fuel = [fuel];
      }
      return;
    }
    const next = heads[k + 1];
    if (!next || !isPlain(next) || next.sentence !== head.sentence) return;
    const joint = Array.from({ length: next.at - head.at - 1 }, (_, i) => r.typed(head.at + 1 + i));
    if (joint.length !== 1 || !["and", "&", "/"].includes(joint[0]!)) return;
    // An electric one is counted, which is what is taken of one without a word.
    const isElectric = fuel.sense.is === "term" && fuel.sense.id === "electric";
    next.slots[isElectric ? "fuel" : "perhapsFuel"] = [fuel];
  });
}

/** Loads that are to be added to what is there, and loads that are there: `existing 12 kW range`. */
export function added(r: Reading): void {
  const added = toBeAdded(r.pieces, r.tokens);
  const isThere = (i: number) =>
    r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "building" && s.id === "existing") ?? false;
  for (const fact of r.facts) {
    if (fact.family !== "load") continue;
    const own = ["count", "rating", "current", "volts", "fuel"].flatMap((slot) => fact.slots[slot] ?? []);
    const first = Math.min(fact.at, ...own.flatMap(({ pieces }) => pieces));
    if (added.has(fact.at)) fact.others.push("added");
    else if (isThere(first - 1)) fact.others.push("existing");
  }
  ofThePump(r);
}

/** `swapping the furnace for a heat pump. Compressor 24 A and 10 kW strips`: what is told of it behind is to come as well. */
function ofThePump(r: Reading): void {
  const isTold = ({ slots }: Draft) => slots.rating ?? slots.current;
  const pump = r.facts.find(({ id, others }) => id === "heat-pump" && others.includes("added"));
  if (!pump) return;
  const compressor = isTold(pump) ? undefined : r.facts.find((fact) => fact.id === "compressor" && isTold(fact));
  if (compressor) {
    Object.assign(pump.slots, compressor.slots);
    pump.pieces.push(...compressor.pieces);
    r.facts.splice(r.facts.indexOf(compressor), 1);
  }
  for (const fact of r.facts) {
    const isOpen = !fact.others.includes("added") && !fact.others.includes("existing");
    if (fact.id === "supplemental-heat" && isOpen) fact.others.push("added");
  }
}

/** `8 ft 2000 W + 5 ft 1250 W` of baseboard: by its length and power a heater is told apart, and is one without the word. */
export function heaters(r: Reading): void {
  const named = r.facts.find(({ id }) => id === "space-heater");
  for (const fact of named ? r.facts : []) {
    const figure = fact.slots.rating?.[0]?.pieces[0];
    const isHeater = fact.id === "space-heater" || fact.id === undefined;
    if (fact.family !== "load" || !isHeater || figure === undefined || r.used.has(figure - 1)) continue;
    const feet = r.pieces[figure - 1]?.senses.find((s) => s.is === "quantity" && s.unit === "ft");
    if (!feet) continue;
    fact.slots.ownLength = [r.value(feet, figure - 1)];
    fact.id = "space-heater";
  }
}

/** Pieces between a number of poles and the load that it is of. */
const POLES_REACH = 2;
/** `RTU 3-pole 10 kVA`, where circuits are laid out in a panel: the poles are the load's, whatever else stands by. */
export function polesOfCircuits(r: Reading): void {
  const isLaidOut = r.pieces.some(({ senses }) =>
    senses.some((s) => s.is === "spaces" || s.is === "term" && s.sort === "goal" && LAYING_OUT.has(s.id))
  );
  if (!isLaidOut) return;
  const loads = r.facts.filter(({ family, slots }) => family === "load" && (slots.rating ?? slots.current));
  const far = (load: Draft, at: number) =>
    Math.min(
      ...[...load.pieces, ...Object.values(load.slots).flat().flatMap(({ pieces }) => pieces)].map((p) =>
        Math.abs(p - at)
      ),
    );
  const give = (value: Value): boolean => {
    const at = value.pieces[0]!;
    const [nearest] = loads.filter((load) => !load.slots.poles && far(load, at) <= POLES_REACH)
      .sort((a, b) => far(a, at) - far(b, at));
    if (nearest) nearest.slots.poles = [value];
    return nearest !== undefined;
  };
  for (const fact of r.facts.filter(({ family }) => family === "device" || family === "circuit")) {
    const left = (fact.slots.poles ?? []).filter((value) => !give(value));
    if (left.length > 0) fact.slots.poles = left;
    else delete fact.slots.poles;
  }
  for (const at of r.figures((s) => s.is === "poles")) {
    const value = r.value(r.pieces[at]!.senses.find((s) => s.is === "poles")!, at);
    if (!give(value)) r.used.delete(at);
  }
}
const LAYING_OUT = new Set(["panel-schedule", "leg-loads"]);
