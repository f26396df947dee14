/** What the kinds that ask about motors take of their conductors: sizes put up, sets, how far, the drop allowed. */
import type { Draft, Fact, Said } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { NAMEPLATE_AMBIENT } from "./motors.ts";
import { lines, takeLength, takeWiring } from "./run-takes.ts";

/**
 * Conductors put up, their number of sets, where and how far they run.
 * @param control the conductor of a control circuit, which is none of the run
 */
export function takeRun(t: Taker, control?: Fact): Draft {
  const draft: Draft = {};
  const sized = lines(t).filter((fact) => fact.slots.size && fact.id !== "neutral" && fact !== control);
  const sizes = new Set<string>();
  for (const fact of sized) {
    const sense = fact.slots.size![0]!.sense;
    const size = sense.is === "size" || sense.is === "cable" ? sense.size : sense.is === "sizes" ? sense.sizes[0]! : "";
    if (SMALLEST.includes(size) || (sizes.size > 0 && !sizes.has(size))) continue;
    sizes.add(size);
    t.head(fact);
    t.slot(fact, "size");
    const wires = t.number(fact, "count");
    if (wires !== undefined) t.aside(fact.slots.count![0]!, "how many wires follows from the phases");
  }
  const [size] = sizes;
  if (size !== undefined) draft.size = size;
  for (const set of t.all("circuit", "set")) {
    const count = t.number(set, "count");
    if (count === undefined) continue;
    t.head(set);
    draft.sets = count;
  }
  if (isMotorsAmbient(t)) {
    for (const value of t.free("ambient")) t.aside(value, "the nameplate's ambient is the motor's, not the wires'");
  }
  Object.assign(draft, takeWiring(t));
  if (isMotorsAmbient(t)) delete draft.ambient;
  const length = takeLengths(t);
  if (length) draft.length = length;
  if (t.said("circuit:ignore-drop")) draft.ignoreDrop = true;
  for (const value of [...t.facts.free].filter(({ key }) => key === "drop" || key === "%")) {
    const { sense } = value.value;
    const n = sense.is === "quantity" && sense.unit === "%" ? sense.n : sense.is === "number" ? sense.n : undefined;
    if (n === undefined || n >= LARGEST_LIMIT || draft.dropLimit) continue;
    t.free(value.key);
    draft.dropLimit = { value: n, unit: "%" };
  }
  const powerFactor = t.all("load").map((load) => t.slot(load, "power-factor")?.sense).find(Boolean);
  if (powerFactor?.is === "number") draft.powerFactor = powerFactor.n;
  if (powerFactor?.is === "quantity") draft.powerFactor = powerFactor.n / 100;
  return draft;
}
/** Sizes that are no conductors of a power circuit. */
export const SMALLEST = ["18", "16"];
/** A drop of more is no limit. */
const LARGEST_LIMIT = 15;
const isMotorsAmbient = (t: Taker): boolean => {
  const value = t.facts.free.find(({ key }) => key === "ambient")?.value.sense;
  const isUsual = (value?.is === "quantity" && value.unit === "°C" && value.n === NAMEPLATE_AMBIENT) ||
    (value?.is === "number" && value.n === NAMEPLATE_AMBIENT);
  return isUsual &&
    t.all("load").some(({ slots }) =>
      slots["service-factor"] ?? slots["full-load-current"] ?? slots.speed ?? slots.nameplate
    );
};

/** Lengths told one after another are one run. */
function takeLengths(t: Taker): Said | undefined {
  const first = takeLength(t);
  if (!first) return undefined;
  let total = Number(first.value);
  let parts = 1;
  for (let next = t.loose("length", first.unit); next; next = t.loose("length", first.unit)) {
    total += Number(next.value);
    parts++;
  }
  if (parts === 1) return first;
  t.note(`added the lengths to one run of ${total} ${first.unit}`);
  return { value: total, unit: first.unit };
}
