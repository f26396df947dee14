/** The connector, its conductor, and the torque that is marked or was set. */
import type { Draft, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { CONNECTORS, type Topic } from "./request.ts";

const TORQUES = ["lbf-in", "lbf-ft", "N-m"];
/** A slot's width that only says from where on it is wide. */
const LIMIT_OF_SLOT = 0.047;
const [SMALLEST_SOCKET, LARGEST_SOCKET] = [0.1, 1];

export function takeTorque(t: Taker, draft: Draft, about: readonly Topic[]): void {
  takeConductor(t, draft);
  t.asks("label:terminals", "label:nameplate", "label:rated");
  if (about.includes("bending space")) return;
  const said = t.terms("connector");
  // `a 3/8 socket` is no receptacle here.
  const sockets = t.all("load", "receptacles");
  for (const socket of sockets) t.head(socket);
  const connector = said.findLast((each) => (CONNECTORS as readonly string[]).includes(each)) ??
    (sockets.length > 0 ? "socket screw" : undefined);
  if (connector) draft.connector = connector;
  if (said.includes("wide slot")) draft.slot = "wide";
  else if (said.includes("narrow slot")) draft.slot = "narrow";
  else if (connector === "slotted screw" && t.said("label:breadth")) draft.slot = "wide";
  if (!connector && draft.slot) draft.connector = "slotted screw";
  takeInches(t, draft);
  takeValues(t, draft);
}

/** The size and metal of what is in the connector or at the terminal. */
function takeConductor(t: Taker, draft: Draft): void {
  for (const fact of t.all("conductor")) {
    t.head(fact);
    const value = t.slot(fact, "size");
    const size = value?.sense.is === "size" || value?.sense.is === "cable" ? value.sense.size : undefined;
    if (size) draft.size ??= size;
    const metal = t.term(fact, "metal");
    if (metal) draft.material ??= metal;
    for (const each of fact.slots.insulation ?? []) t.aside(each, "the insulation makes no difference to it");
  }
  for (const metal of t.terms("metal")) draft.material ??= metal;
  for (const sort of ["insulation", "method"]) {
    for (const { key, value } of t.facts.free) {
      if (key.startsWith(`${sort}:`)) t.aside(value, "the insulation makes no difference to it");
    }
  }
}

function takeInches(t: Taker, draft: Draft): void {
  const bare = t.facts.free.filter(({ key, value: { sense } }) =>
    key === "number" && sense.is === "number" && sense.n <= LARGEST_SOCKET && !Number.isInteger(sense.n)
  ).map(({ value }) => value);
  for (const value of [...t.free("in"), ...bare]) {
    t.use(value, "in");
    const { sense } = value;
    if (sense.is !== "quantity" && sense.is !== "number") continue;
    const inches: Said = { value: sense.exact ?? sense.n, unit: "in" };
    if (sense.n < SMALLEST_SOCKET) {
      if (draft.slot === undefined) draft.slot = sense.n > LIMIT_OF_SLOT ? "wide" : "narrow";
      t.aside(value, `the slot is ${draft.slot}`);
    } else if (draft.connector === "small slotted screw") draft.slotLength = inches;
    else if (draft.connector === "socket screw" || draft.connector === undefined) draft.socket = inches;
  }
}

/** What the maker marks, and what was set: one figure beside a conductor or a connector was set, one alone is marked. */
function takeValues(t: Taker, draft: Draft): void {
  const [marked] = t.free("marked-torque");
  const [set] = t.free("set-torque");
  const of = (value: typeof marked): Said | undefined =>
    value?.sense.is === "quantity" ? { value: value.sense.exact ?? value.sense.n, unit: value.sense.unit } : undefined;
  if (marked) draft.marked = of(marked);
  if (set) draft.set = of(set);
  const isOfLabel = t.has("label:nameplate") && !t.has("absent:nameplate");
  // `label says 250`: what stands on it is marked, of several the one behind it.
  const label = isOfLabel ? t.facts.free.find(({ key }) => key === "label:nameplate")?.value : undefined;
  const behind = (value: Value): number => {
    const far = Math.min(...value.pieces) - Math.max(...label!.pieces);
    return far > 0 ? far : Infinity;
  };
  const loose = TORQUES.flatMap((key) => t.free(key));
  if (label && loose.some((value) => behind(value) < Infinity)) loose.sort((a, b) => behind(a) < behind(b) ? -1 : 1);
  for (const value of loose) {
    const isMarked = draft.marked === undefined && isOfLabel;
    const isSet = !isMarked && draft.set === undefined &&
      (draft.marked ?? draft.connector ?? draft.size) !== undefined;
    draft[isSet ? "set" : "marked"] ??= of(value);
  }
  for (const field of FIELDS) if (draft[field] === undefined) delete draft[field];
  takeBare(t, draft, draft.marked ? undefined : bareLabel(t, marked), draft.set ? undefined : set);
  t.said("label:marked-torque", "label:set-torque");
}
const FIELDS = ["marked", "set"] as const;

/** `the label says 250`, `torque 45 on the lugs, ok?`: torques without a unit. */
function takeBare(t: Taker, draft: Draft, marked: Value | undefined, set: Value | undefined): void {
  const isTold = marked ?? set ?? draft.marked ?? draft.set;
  const isSet = !isTold || (t.has("label:set-torque") && !draft.set);
  const bare = { marked, set: set ?? (isSet ? loneNumber(t, marked) : undefined) };
  const units = t.terms("torqueUnit");
  // `in or ft lbs?`: that is what is asked.
  const unit = units.length === 1 && !t.has("change:or") ? units[0] : undefined;
  for (const field of FIELDS) {
    const value = bare[field];
    if (value?.sense.is !== "number") continue;
    t.use(value, `${field} torque`);
    const { n } = value.sense;
    const other = draft[field === "set" ? "marked" : "set"] as Said | undefined;
    const isOfOther = other && n <= ALIKE * Number(other.value) && Number(other.value) <= ALIKE * n;
    draft[field] = { value: n, unit: unit ?? (isOfOther ? other.unit : "lbf-in") };
    if (unit) continue;
    if (isOfOther) t.note(`took ${n} in the unit of ${other.value}`);
    else if (n > LARGEST_IN_FEET) draft.bareTorque = true;
    else {
      t.ask({
        field,
        ask: `Is ${n} ${field === "marked" ? "on the label" : "that was set"} in pound-inches or in pound-feet?`,
        example: `${field === "marked" ? "marked" : "torqued to"} ${n} lb-in`,
      });
    }
  }
}
/** What is marked and what was set lie so near to each other that they are of one unit. */
const ALIKE = 3;
/** Labels in pound-feet hardly go higher (common practice, no source). */
const LARGEST_IN_FEET = 75;
/** No lug is tightened to less. */
const LEAST_TORQUE = 5;

/** `torque 45 on the lugs`, `torqued the main lugs to 30`: the one number that nothing else takes, or a device's without amperes. */
function loneNumber(t: Taker, marked: Value | undefined): Value | undefined {
  const numbers = [
    ...t.facts.free.filter(({ key }) => key === "number").map(({ value }) => value),
    ...t.all("device").flatMap(({ slots }) => slots.rating ?? []),
  ].filter((value) => value !== marked && value.sense.is === "number" && value.sense.n >= LEAST_TORQUE);
  return numbers.length === 1 ? numbers[0] : undefined;
}

/** `the label says 250`: a bare number on it is a torque. */
function bareLabel(t: Taker, marked: Value | undefined): Value | undefined {
  const plate = t.all("load").find(({ id, slots }) => id === undefined && slots.nameplate?.[0]?.sense.is === "number");
  const labels = t.facts.free.filter(({ key }) => key === "label:nameplate").flatMap(({ value }) => value.pieces);
  // Of an earlier turn the places are no longer known.
  const isBehindLabel = ({ pieces: [at] }: Value) =>
    at === undefined ? t.has("label:nameplate") : labels.some((label) => at > label && at - label <= NEAR_LABEL);
  // `label: 250 for 4/0`: beside a size it would count it.
  const numbers = [
    ...t.facts.free.filter(({ key }) => key === "number").map(({ value }) => value),
    ...t.all("conductor").flatMap(({ slots }) => slots.count ?? []),
  ];
  const value = marked ?? plate?.slots.nameplate?.[0] ?? numbers.find(isBehindLabel);
  if (value?.sense.is !== "number") return undefined;
  if (plate) t.head(plate);
  t.asks("label:nameplate");
  return value;
}
const NEAR_LABEL = 5;
