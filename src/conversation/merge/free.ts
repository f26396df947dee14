/** Figures and terms without a head. */
import { DEEP } from "../../reading/boxes.ts";
import type { Free, Value } from "../../reading/facts.ts";
import { isOfThem } from "../counts.ts";
import { renewed } from "../reply.ts";
import { is } from "../../reading/manner.ts";
import { AREA, classOf, countOf, type Figure, isLine, LENGTH, TERMINALS, VOLTS, type Writable } from "./facts.ts";
import {
  countMade,
  countOfWires,
  countPlace,
  gaugedPlace,
  isNamed,
  isSupplyKnown,
  isWireOrCurrent,
  latelyPlace,
  nearerCount,
  nearestPlace,
  openAdded,
  plateMaximum,
  ratedPlace,
  sizedPlace,
  supplyPlace,
  terminalsTold,
  uncounted,
} from "./numbers.ts";
import type { Merging } from "./state.ts";
import { rewind } from "./windings.ts";

export function singleTold(m: Merging, each: Free): void {
  const { key, value } = each;
  if (key.startsWith("change:")) return void m.free.push(each);
  if (key === "number" && value.sense.is === "number" && depthTold(m, value, value.sense.n)) return;
  if (key === "number" && value.sense.is === "number" && numberTold(m, value, value.sense.n)) return;
  if (key === "label:depth" && deepTold(m, value)) return;
  // `only gets to 100`, after 120 degrees of which nobody said the scale.
  if (key === "°F" || key === "°C") {
    m.free = m.free.filter((old) =>
      old.key !== "°" || !("n" in old.value.sense) || TERMINALS.has(old.value.sense.n as number)
    );
  }
  if (key.startsWith("absent:") && absent(m, key.slice("absent:".length), value)) return;
  // An area that is added stands beside the one that is there.
  if (m.adds && classOf(key) === AREA) return void m.free.push(each);
  // An area told anew is that of the only space whose area is known.
  const isAreaAlone = classOf(key) === AREA && !m.free.some((old) => classOf(old.key) === AREA);
  const areas = isAreaAlone ? m.facts.filter(({ slots }) => slots.area) : [];
  if (areas.length === 1) return m.fill(areas[0]!, { area: [value] });
  // `30 %`, of a welder whose duty cycle is known.
  const onDuty = key === "%" ? m.facts.filter(({ slots }) => slots[DUTY]) : [];
  if (onDuty.length === 1) return m.fill(onDuty[0]!, { [DUTY]: [value] });
  // `what if it's 2 %`, of a transformer: its impedance.
  const impedance = m.known.kind === "fault-current" && key === "%"
    ? m.free.find((old) => old.key === "impedance")
    : undefined;
  if (impedance) return m.put({ free: impedance }, value);
  // What is so of a load is so of the only one.
  const loads = m.facts.filter(({ family }) => family === "load");
  if (key.startsWith("hours:") && loads.length === 1) return m.fill(loads[0]!, { hours: [value] });
  // `in that pipe`: the one that is known.
  if (key === "raceway:conduit" && m.free.some((old) => classOf(old.key) === "raceway")) {
    for (const piece of value.pieces) m.used.add(piece);
    return;
  }
  // Another box has not the volume that was marked on the one before.
  if (key === "box" && !m.news.free.some((told) => told.key === "in3")) {
    m.free = m.free.filter((old) => old.key !== "in3");
  }
  // `no clamps after all`
  if (key === NO_CLAMPS) {
    for (const clamp of m.facts.filter(({ id }) => id === "clamp")) m.facts.splice(m.facts.indexOf(clamp), 1);
  }
  // `in the same building`, of what was to stand in another one.
  const elsewhere = OTHER_PLACES[key] ?? [];
  m.free = m.free.filter((old) => !elsewhere.includes(old.key));
  const kin = classOf(key);
  m.free = m.free.filter((old) => classOf(old.key) !== kin || old.key.startsWith("goal:"));
  const drop = (slot: string, of: (fact: Writable) => boolean = () => true) => {
    for (const fact of m.facts) if (of(fact)) delete fact.slots[slot];
  };
  if (kin === VOLTS) drop("volts", ({ family }) => family === "load");
  if (kin === LENGTH) drop("length");
  if (kin === "phase") drop("phase");
  if (kin === "metal") drop("metal", isLine);
  if (kin === "insulation") {
    drop("insulation");
    // Another cable brings no conduit.
    if (key.endsWith("cable")) m.free = m.free.filter((old) => !old.key.startsWith("raceway:"));
  }
  // Nor does a conduit bring the cable.
  if (kin === "raceway") m.free = m.free.filter((old) => !old.key.startsWith("method:") || !old.key.endsWith("cable"));
  m.free.push(each);
  if (kin === "electrode" && m.known.kind === "grounding") askElectrode(m, each);
  if (value.sense.is === "quantity") m.told = { free: each };
}
const DUTY = "duty-cycle";
export const NO_CLAMPS = "boxWord:no-clamps";
const OTHER_PLACES: Readonly<Record<string, readonly string[]>> = {
  "place:same-building": ["place:separate-structure", "finish:detached", "space:detached-garage"],
  "place:separate-structure": ["place:same-building"],
};
/** Another electrode asks for the conductor to it. */
function askElectrode(m: Merging, { value, sentence }: Free): void {
  const id = "grounding-electrode-conductor";
  if (m.news.facts.some(({ family }) => family === "conductor")) return;
  if (m.facts.some((fact) => fact.id === id)) return;
  // `rod ground wire`: the ground that was asked for is the conductor to it.
  const wasElectrode = m.freeBefore.some(({ key }) => key.startsWith("electrode:"));
  if (wasElectrode && m.facts.some((fact) => fact.id === "equipment-ground")) return;
  m.facts.push({ family: "conductor", id, said: value.said, pieces: [], sentence, slots: {} });
}
/** `no dryer`: it goes, where it was there. */
export function absent(m: Merging, id: string, { pieces }: Value): boolean {
  const gone = m.facts.filter((fact) => fact.family === "load" && fact.id === id);
  for (const fact of gone) m.remove(fact, pieces);
  const circuit = m.facts.find((fact) => fact.family === "circuit" && fact.id === id);
  if (circuit) m.facts.splice(m.facts.indexOf(circuit), 1);
  return gone.length > 0;
}
/** A bare number: what it was before, a count in words, a nominal voltage, the figure told last, the one nearest in size. */
function numberTold(m: Merging, value: Value, n: number): boolean {
  // Among words that nobody knows a bare number means what it is by far the nearest to, said; or nothing.
  if (m.text.pieces.some(({ is }) => is === "unknown")) return farNearest(m, value, n);
  // `two of those plus a 3 hp`: so many of what is known.
  const ofThem = m.adds && isOfThem({ key: "number", value, sentence: 0 }, m.text)
    ? countPlace(m, value, n)
    : undefined;
  if (ofThem) {
    m.put(ofThem, value);
    return true;
  }
  // `the 20` is one that is known, and no new figure; `back to the 20` one that was.
  const isBack = m.news.free.some(({ key }) => key === "change:back-to") && m.earlier(n) !== undefined;
  if (!isBack && isNamed(m, value)) {
    // `with the ten and two #8s`, of wires that are counted
    const isCounted = is(m.known, "conductors") && m.facts.some((fact) => fact.slots.count && countOf(fact) === n);
    const isKnown = isCounted || isSupplyKnown(m, n) || m.standing({ n });
    // `no they want the 4500`, after 3500 in its place.
    const was = isKnown ? undefined : m.earlier(n);
    const sense = was && renewed(m.senseAt(was)!, n);
    if (was && sense) {
      m.put(was, { ...value, sense });
      return true;
    }
    if (isKnown) { for (const piece of value.pieces) m.used.add(piece); }
    return Boolean(isKnown);
  }
  // Taken away or added, a number that names none of them replaces none either.
  if (m.removes || m.adds) return false;
  // `still 5500`: what is known already.
  const before = m.text.tokens[(m.text.pieces[value.pieces[0] ?? -1]?.from ?? 0) - 1]?.text;
  const known: Figure = { n, value, from: { key: "number", value, sentence: 0 } };
  if (before === "still" && m.standing(known)) {
    m.settle(known);
    return true;
  }
  if (openAdded(m, value, n) || plateMaximum(m, value, n) || uncounted(m, value, n) || countMade(m, value, n)) {
    return true;
  }
  if (m.earlier(n) === undefined && isWireOrCurrent(m, n)) return false;
  const place = m.earlier(n) ?? sizedPlace(m, value) ?? countOfWires(m, n) ?? gaugedPlace(m, value, n) ??
    countPlace(m, value, n) ??
    nearerCount(m, n) ??
    latelyPlace(m, value, n) ??
    supplyPlace(m, n) ?? nearestPlace(m, value, n) ?? ratedPlace(m, value, n);
  if (place && place !== "volts" && "fact" in place && place.slot === "windings") {
    rewind(m, place.fact, place.index === 0 ? "primary" : "secondary", { n, unit: "V" }, value);
    return true;
  }
  if (!place && terminalsTold(m, value, n)) return true;
  if (place === "volts") {
    singleTold(m, { key: "V", value: { ...value, sense: { is: "quantity", n, unit: "V" } }, sentence: 0 });
    return true;
  }
  const sense = place && renewed(m.senseAt(place)!, n);
  if (!place || !sense) return false;
  m.put(place, { ...value, sense });
  return true;
}
function farNearest(m: Merging, value: Value, n: number): boolean {
  if (m.removes || m.adds || isNamed(m, value)) return false;
  const place = nearestPlace(m, value, n, FAR_NEARER);
  const was = place && m.senseAt(place);
  const sense = was && renewed(was, n);
  if (!place || !sense || !was || !("n" in was) || Math.max(was.n as number / n, n / (was.n as number)) > NEAR_ENOUGH) {
    return false;
  }
  const unit = was.is === "quantity" ? ` ${was.unit}` : "";
  m.notes.push(`took ${value.said.trim()} as ${n}${unit} in place of ${was.n}${unit}`);
  m.put(place, { ...value, sense });
  return true;
}
/** How many times nearer than any other, and how near at all. */
const [FAR_NEARER, NEAR_ENOUGH] = [2, 2];
/** `deep box then`, of a square or octagonal one. */
function deepTold(m: Merging, value: Value): boolean {
  const sized = m.free.find(({ value: { sense } }) => sense.is === "box");
  const box = sized?.value.sense;
  const isRound = box?.is === "box" && (box.shape === "square" || box.shape === "octagonal");
  if (m.known.kind !== "box-fill" || !sized || !isRound || !m.says("deep", "deeper")) return false;
  // `4-11/16 deep`: both of it.
  for (const piece of sized.value.pieces) m.used.add(piece);
  m.put({ free: sized }, { ...value, sense: { ...box, depth: DEEP } });
  return true;
}
/** `what if its 2-1/8`, `switch to 4-11/16`, of a box whose depth is known in inches. */
function depthTold(m: Merging, value: Value, n: number): boolean {
  const sized = m.free.find(({ value: { sense } }) => sense.is === "box" && sense.depth !== undefined);
  if (m.known.kind !== "box-fill" || sized?.value.sense.is !== "box" || Number.isInteger(n)) return false;
  const box = sized.value.sense;
  if (n === LARGE_SQUARE) {
    m.put({ free: sized }, { ...value, sense: { ...box, shape: "square", across: "4-11/16" } });
    return true;
  }
  const whole = Math.floor(n);
  const depth = Object.entries(EIGHTHS).find(([, part]) => part === n - whole)?.[0];
  if (depth === undefined) return false;
  m.put({ free: sized }, { ...value, sense: { ...box, depth: whole > 0 ? `${whole}-${depth}` : depth } });
  return true;
}
const LARGE_SQUARE = 4.6875;
const EIGHTHS = { "1/8": 0.125, "1/4": 0.25, "3/8": 0.375, "1/2": 0.5, "5/8": 0.625, "3/4": 0.75, "7/8": 0.875 };
