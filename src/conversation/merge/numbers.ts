/** Where a bare number may belong. */
import type { Fact, Free, Value } from "../../reading/facts.ts";
import type { Sense } from "../../reading/sense.ts";
import { is } from "../../reading/manner.ts";
import { MEASURES } from "../plate.ts";
import { LEAST_SUPPLY } from "../reply.ts";
import { isUsualSupply } from "../../reading/families.ts";
import {
  AMPERES_TOO,
  classOf,
  CLEARLY,
  countOf,
  GAUGES,
  IS_PLURAL,
  isLike,
  isLimit,
  isLine,
  isNominal,
  isWireSize,
  ITS,
  LEAST_KCMIL,
  LIKE,
  measureOf,
  MOST_AROUND_A_SIZE,
  NEAR,
  numbered,
  PAIR,
  type Place,
  TERMINALS,
  TERMINATION,
  WARMER,
} from "./facts.ts";
import type { Merging } from "./state.ts";

export function isNamed(m: Merging, { pieces }: Value): boolean {
  const first = m.text.pieces[pieces[0] ?? -1];
  const article = m.text.tokens[(first?.from ?? 0) - 1]?.text ?? "";
  if (first === undefined || !POINTING.has(article)) return false;
  // `make that 480`: what it points at is made another.
  if (article !== "the") return !MAKES.has(m.text.tokens[first.from - 2]?.text ?? "");
  // `she bought the 48 instead`
  const isNew = m.instead && m.standing({ n: m.text.tokens[first.from]!.n ?? NaN }) === undefined;
  if (isNew && m.says("instead")) return false;
  // `no wait, its the 48`: put right.
  const isItself = ITS.has(m.text.tokens[first.from - 2]?.text ?? "");
  if (isItself && m.news.free.some(({ key }) => key === "change:correct")) return false;
  // `it's the 3500 one` tells which of those that are sold.
  return m.text.tokens[first.to]?.text !== "one" ||
    ITS.has(m.text.tokens[first.from - 2]?.text ?? "") === false;
}
/** `that 208 panel`, `this 60`: what was told before. */
const POINTING: ReadonlySet<string> = new Set(["the", "that", "this", "those"]);
const MAKES: ReadonlySet<string> = new Set(["make", "made", "change", "set", "switch", "is", "was", "be", "at", "to"]);
/** Whether it is a voltage of the supply that is known: `that 208 panel`. */
export const isSupplyKnown = (m: Merging, n: number): boolean =>
  isNominal(n) &&
  [...m.free.map(({ value }) => value), ...m.facts.flatMap(({ slots }) => slots.volts ?? [])].some(({ sense }) =>
    sense.is === "system"
      ? sense.high === n || sense.low === n
      : sense.is === "quantity" && sense.unit === "V" && sense.n === n
  );
export function countPlace(m: Merging, value: Value, n: number): Place | undefined {
  const homes = m.facts.filter(({ family, slots }) => family === "building" && slots.count);
  const counted = m.facts.filter(({ family, slots }) => family === "load" && slots.count);
  const next = m.text.pieces[value.pieces.at(-1) ?? -1]?.to ?? -1;
  // `four`, `8 of them`: in words, or of what was counted.
  const isOfThem = m.text.tokens[next]?.text === "of" && OF_THEM.has(m.text.tokens[next + 1]?.text ?? "");
  const isInWords = /^\p{L}/u.test(value.said) && !IS_PLURAL.test(value.said);
  const loads = m.facts.filter(({ family, slots }) => family === "load" && measureOf(slots));
  // `two of em`, of the one source there is.
  const sources = m.facts.filter(({ family, id, slots }) =>
    family === "transformer" && id !== "busbar" && slots.rating && !slots.count
  );
  if (isOfThem && counted.length + loads.length === 0 && sources.length === 1 && Number.isInteger(n)) {
    sources[0]!.slots.count = [numbered(value, 1)];
    return { fact: sources[0]!, slot: "count", index: 0 };
  }
  // `turns out there's 12 of them`, of homes.
  if (isOfThem && counted.length === 0 && homes.length === 1 && Number.isInteger(n)) {
    return { fact: homes[0]!, slot: "count", index: 0 };
  }
  // `2 of them`, of the one thing that was told.
  if (isOfThem && counted.length === 0 && loads.length === 1 && Number.isInteger(n)) {
    loads[0]!.slots.count = [numbered(value, 1)];
    return { fact: loads[0]!, slot: "count", index: 0 };
  }
  return counted.length === 1 && Number.isInteger(n) && (isOfThem || isInWords)
    ? { fact: counted[0]!, slot: "count", index: 0 }
    : undefined;
}
/** `15`, after twelve dryers of 5 kW: so many of them, where it is far from what each draws. */
export function nearerCount(m: Merging, n: number): Place | undefined {
  const counted = m.facts.filter((fact) => fact.family === "load" && countOf(fact) > 1);
  const [only, ...others] = counted;
  if (!only || others.length > 0 || !Number.isInteger(n) || n < 2) return undefined;
  const told = m.told && m.senseAt(m.told);
  const isNearTold = told !== undefined && "n" in told && m.told !== undefined && "fact" in m.told &&
    m.told.slot !== "count" && far(told.n, n) < FAR_FROM_MEASURE;
  return far(countOf(only), n) <= NEAR_COUNT && !isNearTold ? { fact: only, slot: "count", index: 0 } : undefined;
}
const [NEAR_COUNT, FAR_FROM_MEASURE] = [1.5, 2];
const OF_THEM: ReadonlySet<string> = new Set(["them", "those", "these", "em"]);
/** `make it 8`, of five ranges: so many of them, where nothing else was told since. */
export function countMade(m: Merging, value: Value, n: number): boolean {
  const [group, ...others] = m.facts.filter((fact) => fact.family === "load" && countOf(fact) > 1);
  const isOfIt = m.text.tokens.some(({ text }, i) => text === "make" && m.text.tokens[i + 1]?.text === "it");
  if (!is(m.known, "demand") || !isOfIt || m.told || !group || others.length > 0 || !Number.isInteger(n)) {
    return false;
  }
  if (n < 2 || !isLike(countOf(group), n)) return false;
  m.put({ fact: group, slot: "count", index: 0 }, numbered(value, n));
  m.notes.push(`took ${value.said.trim()} as how many there are, and not as what each draws`);
  return true;
}
/** `what if 100`, of a panel and a run: a rating, where but for a length nothing else is near. */
export function ratedPlace(m: Merging, value: Value, n: number): Place | undefined {
  if (!m.news.free.some(({ key }) => key === "change:make") || n % LEAST_STEP !== 0 || n < SMALLEST_DEVICE) {
    return undefined;
  }
  const rated = m.facts.filter(({ family, slots: { rating } }) => {
    const sense = rating?.[0]?.sense;
    return family === "device" && (sense?.is === "quantity" || sense?.is === "number") && isLike(sense.n, n);
  });
  const [device, ...others] = rated;
  const isLoad = m.facts.some(({ family, slots }) => family === "load" && measureOf(slots));
  if (!device || others.length > 0 || isLoad) return undefined;
  m.notes.push(`took ${value.said.trim()} as the rating of the ${device.said.trim()}, and not as a length`);
  return { fact: device, slot: "rating", index: 0 };
}
/** Ratings of devices go by steps of 5 A, and begin at 15 A. */
const [LEAST_STEP, SMALLEST_DEVICE] = [5, 15];
/** `ok 40 then`, of the one thing that is to be added and has no size yet: what it draws. */
export function openAdded(m: Merging, value: Value, n: number): boolean {
  const open = m.facts.filter(({ family, others, slots }) =>
    family === "load" && others?.includes("added") && measureOf(slots) === undefined
  );
  if (m.known.kind !== "added-load" || open.length !== 1) return false;
  m.fill(open[0]!, { current: [{ ...value, sense: { is: "quantity", n, unit: "A" } }] });
  return true;
}
/** `35`, of a plate whose least ampacity alone is known: the largest device it allows. */
export function plateMaximum(m: Merging, value: Value, n: number): boolean {
  const [plate, ...others] = m.facts.filter(({ slots }) => slots[PAIR[0]]);
  const least = plate?.slots[PAIR[0]]?.[0]?.sense;
  const isOpen = plate && others.length === 0 && !plate.slots[PAIR[1]] &&
    (least?.is === "quantity" || least?.is === "number") && n > least.n &&
    n % 5 === 0 && n / least.n <= MOST_OF_LEAST;
  if (m.known.kind !== "cooling-circuit" || !isOpen) return false;
  if (m.news.free.some(({ key }) => key.startsWith("change:")) || m.says("no", "nope", "sorry")) return false;
  m.fill(plate, { [PAIR[1]]: [{ ...value, sense: { is: "quantity", n, unit: "A" } }] });
  m.notes.push(`took ${value.said.trim()} as the largest device that the plate allows`);
  return true;
}
/** A plate's largest device is at most so many times its ampacity. */
const MOST_OF_LEAST = 2.3;
/** `75`, of what a wire carries: its terminals' temperature. */
export function terminalsTold(m: Merging, value: Value, n: number): boolean {
  if (m.known.kind !== "conductor-ampacity" || !TERMINALS.has(n)) return false;
  m.free = m.free.filter(({ key }) => classOf(key) !== TERMINATION);
  m.free.push({ key: "terminals", value: { ...value, sense: { is: "quantity", n, unit: "°C" } }, sentence: -1 });
  return true;
}
/** `24`, of a demand whose appliances nobody counted: so many of them. */
export function uncounted(m: Merging, value: Value, n: number): boolean {
  const loads = m.facts.filter(({ family }) => family === "load");
  const [only, ...others] = loads;
  const measure = only && measureOf(only.slots);
  const was = measure && only.slots[measure]![0]!.sense;
  if (!is(m.known, "demand") || !only || others.length > 0 || only.slots.count || !Number.isInteger(n)) {
    return false;
  }
  if (n < 2 || was && "n" in was && typeof was.n === "number" && far(was.n, n) < FAR_FROM_MEASURE) return false;
  m.fill(only, { count: [numbered(value, n)] });
  return true;
}
/** `with eights`: conductors of that size, where one is known. */
export function sizedPlace(m: Merging, value: Value): Place | undefined {
  // `and with 10s`: as good as in words.
  const next = m.text.tokens[m.text.pieces[value.pieces.at(-1) ?? -1]?.to ?? -1];
  const isPlural = IS_PLURAL.test(value.said) || next?.text === "s" && next.glued && GAUGES.has(Number(value.said));
  const line = isPlural && m.facts.find((fact) => isLine(fact) && fact.slots.size);
  return line ? { fact: line, slot: "size", index: 0 } : undefined;
}
const SMALL_SIZE = 10;
/** The only gauge that is a device's rating as well. */
const LEAST_RATING = 10;
/** `10`, after nine of them in a pipe: of wires that are counted a number so near counts them; a size has its mark. */
export function countOfWires(m: Merging, n: number): Place | undefined {
  if (!is(m.known, "conductors") || !Number.isInteger(n) || n < 1) return undefined;
  const counted = m.facts.filter((fact) => fact.family === "conductor" && countOf(fact) > 1);
  const told = m.told && "fact" in m.told && counted.includes(m.told.fact) ? [m.told.fact] : counted;
  const near = told.filter((fact) => far(countOf(fact), n) <= SO_NEAR);
  return near.length === 1 ? { fact: near[0]!, slot: "count", index: 0 } : undefined;
}
const SO_NEAR = 2;
/** `ok 8 then`, of a wire whose drop or ampacity is asked: its size, where no current is near that. */
export function gaugedPlace(m: Merging, value: Value, n: number): Place | undefined {
  // `bump it up 2 sizes`
  const next = m.text.tokens[m.text.pieces[value.pieces.at(-1) ?? -1]?.to ?? -1]?.text ?? "";
  if (["size", "sizes", "steps", "of", "more", "times"].includes(next)) return undefined;
  const [at = -1] = value.pieces;
  const ends = (i: number) => ["border", "comma"].includes(m.text.pieces[i]?.is ?? "border");
  let [begin, end] = [at, at];
  while (!ends(begin - 1)) begin--;
  while (!ends(end + 1)) end++;
  const around = m.text.pieces.slice(begin, end + 1).reduce((sum, { from, to }) => sum + to - from, 0);
  if (around > MOST_AROUND_A_SIZE) return undefined;
  const line = m.facts.find((fact) => isLine(fact) && fact.slots.size);
  const isOfWire = is(m.known, "one wire") || is(m.known, "gauges") ||
    (is(m.known, "wires") && n >= SMALL_SIZE) ||
    m.news.free.some(({ key }) => key.startsWith("metal:"));
  if (!line || !isOfWire || !GAUGES.has(n)) return undefined;
  // No device is rated 14 or 12 A, and so on down; of a fault path the amperes are its breaker's.
  const isRating = n === LEAST_RATING;
  const isOfCircuit = is(m.known, "gauges");
  const currents = m.facts.flatMap(({ family, slots }) =>
    isOfCircuit && family === "load" ? MEASURES.flatMap((slot) => slots[slot] ?? []) : [
      ...(isRating || m.known.kind !== "fault-path") && slots.current || [],
      ...isRating && slots.rating || [],
    ]
  );
  const isNear = currents.some(({ sense }) => sense.is === "quantity" && sense.n / n < NEAR && n / sense.n < NEAR);
  return isNear ? undefined : { fact: line, slot: "size", index: 0 };
}
/** `back to 12`, of 15 A on 14 AWG: as well the wire as the current, so it is asked. */
export function isWireOrCurrent(m: Merging, n: number): boolean {
  const isAlike = (sense: Sense | undefined) => {
    const size = sense?.is === "size" || sense?.is === "cable" ? Number(sense.size) : undefined;
    return size !== undefined && size !== n && SMALL_GAUGES.has(size);
  };
  const isNear = ({ slots }: { slots: Fact["slots"] }) =>
    slots.current?.some(({ sense }) => sense.is === "quantity" && sense.n !== n && far(sense.n, n) < NEAR);
  return m.known.kind === "voltage-drop" && NO_DEVICE.has(n) &&
    m.facts.some((fact) => isLine(fact) && isAlike(fact.slots.size?.[0]?.sense)) && m.facts.some(isNear) === true;
}
/** Gauges that no device is rated for, and those beside them. */
const [NO_DEVICE, SMALL_GAUGES] = [new Set([14, 12]), new Set([14, 12, 10])];
/** `60 °`, without its scale, is what terminals are rated for. */
const isOfTerminals = ({ key, value: { sense } }: Free): boolean =>
  classOf(key) === TERMINATION || key === "°" && sense.is === "quantity" && TERMINALS.has(sense.n);
const far = (was: number, n: number): number => Math.max(was / n, n / was);
const [FAR_FROM_LAST, NEAR_OTHER] = [2.5, 1.75];
/** `what about a 37.5`: a thing of that size, and no length, temperature or share. */
const isThing = (m: Merging, { pieces }: Value): boolean => {
  const first = m.text.pieces[pieces[0] ?? -1];
  return first !== undefined && ["a", "an"].includes(m.text.tokens[first.from - 1]?.text ?? "");
};
const OF_NO_THING = new Set(["ft", "m", "yd", "in", "°F", "°C", "%", "V", "ft2", "m2"]);
const isNoThing = (sense: Sense | undefined): boolean => sense?.is === "quantity" && OF_NO_THING.has(sense.unit);
/** `80`, after 208 V: no voltage that anything is supplied with. */
const isNoVoltage = (sense: Sense | undefined, n: number): boolean =>
  sense?.is === "quantity" && sense.unit === "V" && sense.n >= LEAST_SUPPLY &&
  (n < LEAST_SUPPLY || !isUsualSupply(n) && far(sense.n, n) > NEAR_VOLTS);
/** Nobody has a supply so far from what supplies have; `245 V` was measured. */
const NEAR_VOLTS = 1.1;
/** The figure told last, where it is of a like size. */
export function latelyPlace(m: Merging, value: Value, n: number): Place | undefined {
  const sense = m.told && m.senseAt(m.told);
  if (!sense || isThing(m, value) && isNoThing(sense) || isNoVoltage(sense, n)) return undefined;
  if (sense.is === "size") return isWireSize(n) ? m.told : undefined;
  if (sense.is !== "quantity" && sense.is !== "number") return undefined;
  if (sense.is === "quantity" && (sense.unit === "°F" || sense.unit === "°C") && n > sense.n * WARMER) {
    return undefined;
  }
  if (m.told && "free" in m.told && isOfTerminals(m.told.free) && !TERMINALS.has(n)) return undefined;
  const isVolts = isNominal(n) && sense.is === "quantity" && !["A", "ft", "m", "V"].includes(sense.unit);
  if (sense.is === "quantity" && sense.unit === "%" && !isLimit(n)) return undefined;
  if (!isLike(sense.n, n) || isVolts) return undefined;
  // `75`, after 45 kVA and 20 ft: far from what was told last, and near to something else.
  const nearest = far(sense.n, n) > FAR_FROM_LAST ? nearestPlace(m, value, n) : undefined;
  const was = nearest && m.senseAt(nearest);
  return was && "n" in was && far(was.n, n) < NEAR_OTHER ? nearest : m.told;
}
export const supplyPlace = (m: Merging, n: number): "volts" | undefined =>
  isNominal(n) && !is(m.known, "no volts") && !m.facts.some(({ family }) => family === "transformer") &&
    !(AMPERES_TOO.has(n) && isRated(m))
    ? "volts"
    : undefined;
export const isRated = (m: Merging): boolean =>
  m.facts.some(({ family, slots }) => ["device", "circuit"].includes(family) && slots.rating);
/** The one figure that is nearest in size, and clearly nearer than any other. */
export function nearestPlace(m: Merging, value: Value, n: number, clearly: number = CLEARLY): Place | undefined {
  const places: { place: Place; ratio: number }[] = [];
  // Beside a transformer's voltages a usual one tells no power, and not which side it is of.
  if (isNominal(n) && m.transformer()) return undefined;
  for (const fact of m.facts) {
    for (const [slot, values] of Object.entries(fact.slots)) {
      values.forEach(({ sense }, index) => {
        const was = sense.is === "quantity"
          ? sense.n
          : sense.is === "number" && slot !== "count"
          ? sense.n
          : sense.is === "size" && n >= LEAST_KCMIL && n % 50 === 0 && sense.size.endsWith("kcmil")
          ? Number.parseFloat(sense.size)
          : undefined;
        if (was !== undefined && was > 0) {
          places.push({ place: { fact, slot, index }, ratio: far(was, n) });
        }
      });
    }
  }
  for (const free of m.free) {
    const { sense } = free.value;
    // `22,000 available`: a label says what a bare number is.
    const isFigure = sense.is === "quantity" ||
      sense.is === "number" && free.key !== "number" && !free.key.startsWith("nominal");
    if (
      isFigure && sense.n > 0 && (!isOfTerminals(free) || TERMINALS.has(n)) &&
      (free.key !== "%" || isLimit(n))
    ) {
      places.push({ place: { free }, ratio: far(sense.n, n) });
    }
  }
  // `and if it was 70`, of 50 A on a 70 A breaker: another figure than before.
  const isVaried = m.news.free.some(({ key }) => key === "change:make" || key === "change:correct");
  const isSame = ({ ratio }: { ratio: number }) =>
    isVaried && ratio === 1 && places.some((each) => each.ratio !== 1 && each.ratio <= NEAR);
  places.splice(0, places.length, ...places.filter((each) => !isSame(each)));
  const isOut = ({ place }: { place: Place }) =>
    isThing(m, value) && isNoThing(m.senseAt(place)) || isNoVoltage(m.senseAt(place), n);
  places.splice(0, places.length, ...places.filter((each) => !isOut(each)));
  places.sort((a, b) => a.ratio - b.ratio);
  const [first, second] = places;
  return first && first.ratio <= LIKE && (!second || second.ratio >= first.ratio * clearly) ? first.place : undefined;
}
const [ON, ARTICLE] = [new Set(["on", "with", "using", "in", "of"]), new Set(["a", "the", "#", "an"])];
/** `how far on a 10`, `how far can I go on 12`: the conductor's size, where the run is asked about. */
export function gaugeTold(m: Merging): void {
  const line = m.facts.find(isLine);
  const isFar = m.news.free.some(({ key }) => key === "goal:longest-run");
  if (!isFar && (m.known.kind !== "voltage-drop" || line?.slots.size)) return;
  const { pieces, tokens } = m.text;
  const told = pieces.flatMap((piece, at) => {
    const [sense] = piece.senses;
    const isAlone = sense?.is === "number" && GAUGES.has(sense.n) && piece.senses.every(({ is }) => is === "number");
    const hasArticle = ARTICLE.has(tokens[piece.from - 1]?.text ?? "");
    const before = tokens[piece.from - (hasArticle ? 2 : 1)]?.text ?? "";
    return isAlone && ON.has(before) && (hasArticle || isFar) ? [{ n: sense.n, at }] : [];
  });
  const [gauge, ...others] = told;
  if (!gauge || others.length > 0) return;
  const isIt = ({ pieces: own }: Value) => own.includes(gauge.at);
  const said = tokens[pieces[gauge.at]!.from]!.text;
  setSize(m, { sense: { is: "number", n: gauge.n }, pieces: [gauge.at], said }, gauge.n);
  for (const each of m.news.free) if (isIt(each.value)) m.placed.add(each);
  for (const fact of m.news.facts) if (Object.values(fact.slots).flat().some(isIt)) m.settleFact(fact);
  m.used.add(gauge.at);
  if (isFar) m.free = m.free.filter(({ key }) => key !== "goal:size");
}
function setSize(m: Merging, value: Value, n: number): void {
  const line = m.facts.find(isLine);
  const size = [{ ...value, sense: { is: "size" as const, size: String(n) } }];
  if (line) line.slots.size = size;
  else m.append({ family: "conductor", id: "wire", said: "", pieces: [], sentence: 0, slots: { size } });
}
/** What is asked of a wire that is put up: `what would 10 give me`, `how would 8 do`, `if i ran 10`. */
const PUT_UP =
  /\b(?:would|does|do|will|could|can|if (?:i|we)|should (?:i|we))\b.*\b(?:give|get|do|run|ran|use|used|pull|pulled|go|went|leave|land|work)\b|^\W*(?:(?:and|ok|so|just) )*(?:try|use|run|go(?:ing)? with|with)\b/i;
/** A gauge after the smallest conductor was asked for: that size, no other current. Where it may be either it stays to be asked. */
export function sizePutUp(m: Merging): void {
  const [number, ...others] = m.numbers();
  const n = number?.value.sense.is === "number" ? number.value.sense.n : undefined;
  if (m.known.kind !== "voltage-drop" || m.facts.some((fact) => isLine(fact) && fact.slots.size)) return;
  if (!number || n === undefined || others.length > 0 || !GAUGES.has(n)) return;
  if (m.news.facts.some(({ family }) => family !== "conductor")) return;
  const isAsked = PUT_UP.test(m.text.asked);
  const isChange = m.news.free.some(({ key }) => key === "change:correct" || key === "change:back-to");
  const isOfLast = m.told !== undefined && latelyPlace(m, number.value, n) !== undefined;
  if (!isAsked && (isChange || isOfLast)) return;
  if (isAsked) setSize(m, number.value, n);
  m.placed.add(number);
}
