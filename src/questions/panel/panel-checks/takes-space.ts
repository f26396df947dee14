/** Voltage to ground, what stands opposite, lengths that are put up. */
import type { Draft, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import type { Topic } from "./request.ts";

/** So many panels may be spoken of at once. */
const FEW = 10;
const LENGTHS = ["in", "ft", "m"];
/** The high leg of a 240 V delta has the square root of three times half of it to ground. */
const HIGH_LEG = 208;

/** No working space is told of fewer feet. */
const LEAST_SPACE = 2;
export function takeSpace(t: Taker, draft: Draft, about: readonly Topic[]): void {
  for (const [key, field] of [["depth", "depth"], ["breadth", "width"], ["height", "height"]] as const) {
    const [value] = t.free(key);
    const said = lengthOf(value);
    if (said) draft[fieldOf(t, field, about)] = said;
    t.said(`label:${key}`);
  }
  for (const key of LENGTHS) {
    for (const value of t.free(key)) {
      const field = about.includes("handle height") ? "handle" : about.includes("bending space") ? "space" : "depth";
      draft[field] ??= lengthOf(value);
    }
  }
  if (about.includes("bending space")) return takeBend(t, draft);
  if (!about.includes("working space")) return;
  const found = t.facts.free.filter(({ key, value: { sense } }) =>
    key === "number" && sense.is === "number" && !Number.isInteger(sense.n) && sense.n >= LEAST_SPACE
  );
  // `working space depth? my super says 3 1/2`
  if (found.length === 1 && t.has("label:depth") && draft.depth === undefined) {
    t.use(found[0]!.value, "depth");
    draft.depth = { value: (found[0]!.value.sense as { n: number }).n, unit: "ft" };
  }
  for (const source of t.all("transformer")) t.aside(source, "what stands there makes no difference");
  for (const load of t.all("load")) t.aside(load, "what stands there makes no difference, how far away it is does");
  takeSurroundings(t, draft);
  for (const { key, value } of t.facts.free) {
    const { sense } = value;
    if (key === "number" && sense.is === "number" && sense.n <= FEW && t.all("device").length > 0) {
      t.aside(value, "how many panels there are makes no difference");
    }
  }
  for (const device of t.all("device")) {
    const amperes = t.number(device, "rating");
    if (amperes !== undefined) draft.rating = { value: amperes, unit: "A" };
  }
}

/** Put up for checking it is what there is; otherwise a width or a height is the equipment's own. */
function fieldOf(t: Taker, field: "depth" | "width" | "height", about: readonly Topic[]): string {
  if (field === "depth") return field;
  if (about.includes("handle height")) return field === "height" ? "handle" : field;
  const isPutUp = t.wants("goal:check") || t.has("panelState:there-is");
  return isPutUp ? field : field === "width" ? "equipmentWidth" : "equipmentHeight";
}

function lengthOf(value: Value | undefined): Said | undefined {
  if (value?.sense.is === "quantity") return { value: value.sense.exact ?? value.sense.n, unit: value.sense.unit };
  return value?.sense.is === "number" ? { value: value.sense.n, unit: "in" } : undefined;
}

/** What the depth of a working space depends on: the voltage to ground, and what stands opposite. */
export function takeSurroundings(t: Taker, draft: Draft): void {
  takeVolts(t, draft);
  const facing = t.terms("facing").at(-1);
  if (facing) draft.facing = facing;
}

/** The voltage to ground, or one that tells it. */
function takeVolts(t: Taker, draft: Draft): void {
  // A corner that is grounded, or nothing that is: a line has the whole voltage to ground.
  const isWhole = t.said("panelState:whole-voltage");
  for (const key of ["system", "V", "volts", "nominal-volts"]) {
    for (const value of t.free(key)) {
      const { sense } = value;
      if (sense.is === "system") draft.toGround = { value: isWhole ? sense.high : sense.low, unit: "V" };
      if (sense.is !== "quantity" && sense.is !== "number") continue;
      // `208Y/120 gear facing 208 gear`
      if (draft.toGround !== undefined) t.aside(value, "the voltage to ground counts");
      const isToGround = isWhole || t.all("conductor", "equipment-ground").length > 0;
      if (draft.toGround === undefined) draft[isToGround ? "toGround" : "volts"] ??= { value: sense.n, unit: "V" };
    }
  }
  if (t.said("connection:high-leg") && !draft.toGround) draft.toGround = { value: HIGH_LEG, unit: "V" };
  if (t.said("connection:delta")) draft.phases ??= 3;
  t.said("connection:wye");
}

function takeBend(t: Taker, draft: Draft): void {
  if (t.said("panelState:another-wall")) draft.leaves = "another wall";
  else if (t.said("panelState:opposite-wall")) draft.leaves = "opposite wall";
  const counted = t.all("conductor").find(({ slots }) => slots.count);
  const count = counted && t.number(counted, "count");
  if (count !== undefined) draft.wires = count;
  delete draft.feederWires;
}
