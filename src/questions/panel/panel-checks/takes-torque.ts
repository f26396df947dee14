/** The connector, its conductor, and the torque that is marked or was set. */
import type { Draft, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { CONNECTORS, type Topic } from "./request.ts";

const TORQUES = ["lbf-in", "lbf-ft"];
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
  if (set) draft.set = of(set) ?? bareSet(set, marked ?? t.free("lbf-in")[0] ?? t.free("lbf-ft")[0]);
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
  if (draft.marked === undefined) takeBareLabel(t, draft);
  if (draft.marked === undefined) delete draft.marked;
  if (draft.set === undefined) delete draft.set;
  t.said("label:marked-torque", "label:set-torque");
}

/** `the label says 250`: a bare number on it is a torque; which of its two units is meant, the small ones do not tell. */
function takeBareLabel(t: Taker, draft: Draft): void {
  const plate = t.all("load").find(({ id, slots }) => id === undefined && slots.nameplate?.[0]?.sense.is === "number");
  const labels = t.facts.free.filter(({ key }) => key === "label:nameplate").flatMap(({ value }) => value.pieces);
  const isBehindLabel = ({ pieces: [at = -1] }: Value) =>
    labels.some((label) => at > label && at - label <= NEAR_LABEL);
  // `label: 250 for 4/0`: beside a size it would count it.
  const numbers = [
    ...t.facts.free.filter(({ key }) => key === "number").map(({ value }) => value),
    ...t.all("conductor").flatMap(({ slots }) => slots.count ?? []),
  ];
  const value = t.free("marked-torque")[0] ?? plate?.slots.nameplate?.[0] ?? numbers.find(isBehindLabel);
  if (value?.sense.is !== "number") return;
  if (plate) t.head(plate);
  t.asks("label:nameplate");
  t.use(value, "marked torque");
  const { n } = value.sense;
  draft.marked = { value: n, unit: "lbf-in" };
  if (n > LARGEST_IN_FEET) t.note(`took ${n} on the label as pound-inches`);
  else {
    t.ask({
      field: "marked",
      ask: `Is ${n} on the label in pound-inches or in pound-feet?`,
      example: `marked ${n} lb-in`,
    });
  }
}
const NEAR_LABEL = 5;
/** Labels in pound-feet hardly go higher (common practice, no source). */
const LARGEST_IN_FEET = 75;

/** A bare number that was set is in the unit of what it is held against, inch-pounds where there is none. */
function bareSet({ sense }: Value, beside: Value | undefined): Said | undefined {
  if (sense.is !== "number") return undefined;
  return { value: sense.n, unit: beside?.sense.is === "quantity" ? beside.sense.unit : "lbf-in" };
}
