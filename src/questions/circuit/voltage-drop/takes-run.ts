/** The run itself, as the facts tell it: its length or its stretches, its conductor. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { lines, takeWiring } from "../../parts/run-takes.ts";
import { distinct, figureOf, sizeOf, spoken } from "./values.ts";

const LENGTHS = ["ft", "m", "yd"];
/** Where a run goes and what it passes: the drop does not depend on it. */
const WHERE = ["separate-structure", "same-building", "garage"];
/** More wires of one size than this are no single circuit's. */
const MOST_WIRES = 4;

/** One way: a single length, stretches of their own sizes, or loads spaced along it. */
export function takeRun(t: Taker, draft: Draft): void {
  const [spacing] = t.free("spacing");
  const [first] = t.free("first-distance");
  if (spacing) draft.along = { ...(first && { first: feet(t, first) }), spacing: feet(t, spacing) };
  const stretches = lines(t).filter(({ slots }) => slots.length);
  if (stretches.length > 1 || (stretches.length === 1 && first && !spacing)) return takeStretches(t, draft, stretches);
  const values = [...lengthsOf(t), ...(first && !spacing ? [first] : [])].filter((value) =>
    !(draft.points && t.all("load").some(({ slots }) => slots.length?.includes(value)))
  );
  const isThereAndBack = t.said("circuit:round-trip");
  const isOneAfterAnother = t.said("circuit:segment") || t.said("change:add");
  for (const value of values) t.use(value, "length");
  const lengths = distinct(values.map((value) => feet(t, value)));
  if (lengths.length === 0) return;
  const length = oneLength(t, lengths, isOneAfterAnother);
  if (isThereAndBack) {
    t.note(`took ${spoken(length)} there and back as ${Number(length.value) / 2} ${length.unit} one way`);
    draft.length = { value: Number(length.value) / 2, unit: length.unit };
  } else draft.length = length;
}
function takeStretches(t: Taker, draft: Draft, stretches: readonly Fact[]): void {
  const ofStretches = stretches.map(({ slots }) => termOf(slots.metal?.[0])).filter((id) => id !== undefined);
  const metals = new Set([...ofStretches, ...metalsApart(t)]);
  t.said("circuit:segment");
  draft.segments = stretches.map((fact) => {
    t.head(fact);
    const metal = t.term(fact, "metal");
    const size = sizeOf(t.slot(fact, "size"));
    return {
      length: feet(t, t.slot(fact, "length")!),
      ...(size !== undefined && { size }),
      ...(metal !== undefined && metals.size > 1 && { material: metal }),
    };
  });
}
/** Metals that no wire took: of all the run but what was told apart. */
const metalsApart = (t: Taker): string[] =>
  t.facts.free.filter(({ key }) => key.startsWith("metal:")).map(({ key }) => key.slice("metal:".length));
const termOf = (value: Value | undefined): string | undefined =>
  value?.sense.is === "term" ? value.sense.id : undefined;
/** Lengths wherever they stand, untaken. */
export const lengthsOf = (t: Taker): Value[] =>
  [
    ...t.facts.free.filter(({ key }) => key === "length" || LENGTHS.includes(key)).map(({ value }) => value),
    ...[...lines(t), ...t.all("load")].flatMap(({ slots }) => slots.length ?? []),
  ].filter(({ sense }) => sense.is === "quantity" || sense.is === "number");
export function feet(t: Taker, value: Value): Said {
  t.use(value, "length");
  const { n, unit } = value.sense.is === "quantity" ? value.sense : { n: (value.sense as { n: number }).n, unit: "ft" };
  if (unit !== "yd") return { value: n, unit };
  t.note(`took ${n} yards as ${n * 3} ft`);
  return { value: n * 3, unit: "ft" };
}
/** A length that is the sum of the others is the whole run. */
function oneLength(t: Taker, lengths: readonly Said[], isOneAfterAnother: boolean): Said {
  if (lengths.length === 1) return lengths[0]!;
  const values = lengths.map(({ value }) => Number(value));
  const [sum, most, unit] = [values.reduce((a, b) => a + b), Math.max(...values), lengths[0]!.unit];
  const same = lengths.every((each) => each.unit === unit);
  if (same && Math.abs(sum - 2 * most) < 1e-9) {
    t.note(`took ${most} ${unit} as the whole run, the other lengths as its parts`);
    return { value: most, unit };
  }
  if (same && isOneAfterAnother) t.note(`took ${values.join(" and ")} ${unit} as one run of ${sum} ${unit}`);
  else {
    t.ask({
      field: "length",
      ask: `Several lengths are named (${lengths.map(spoken).join(", ")}). How long is the whole run, one way?`,
      example: `${same ? sum : most} ${unit} one way`,
    });
  }
  return { value: sum, unit };
}

/** Size, parallel sets, what stands in place of the tables, and where it lies. */
export function takeConductor(t: Taker, draft: Draft): void {
  const sizes: Value[] = [];
  for (const fact of lines(t)) {
    if (fact.slots.size) t.head(fact);
    if (!draft.segments && fact.slots.size) sizes.push(fact.slots.size[0]!);
    const count = fact.slots.count?.[0];
    if (count?.sense.is === "number" && count.sense.n <= MOST_WIRES) t.aside(count, "the circuit's own wires");
    takeConductorTemperature(t, fact, draft);
  }
  for (const fact of t.all("conductor", "equipment-ground")) {
    t.aside(fact, "it carries no load current");
    for (const value of Object.values(fact.slots).flat()) t.aside(value, "it carries no load current");
  }
  const named = new Set(sizes.map(sizeOf));
  for (const value of sizes) {
    if (named.size === 1) draft.size = sizeOf(value)!;
    if (named.size === 1) t.use(value, "size");
    else t.aside(value, "the size that is needed is looked for");
  }
  for (const value of t.free("mm2")) {
    t.ask({
      field: "size",
      ask: `Which size in AWG or kcmil is the ${value.said} conductor?`,
      example: "10 AWG copper",
    });
  }
  if (named.size > 1) {
    draft.find = "conductor";
    t.note(`looked for the size needed, of ${[...named].join(" and ")}`);
    t.said("change:or");
  }
  for (const fact of t.all("circuit", "set")) {
    const count = t.number(fact, "count");
    t.head(fact);
    if (count !== undefined && count > 1) draft.sets = count;
  }
  for (const value of t.free("impedance")) {
    const figure = figureOf(value);
    if (figure) draft.impedance = { value: figure.value, unit: "ohm/kft" };
  }
  for (const value of t.free("ohm/kft")) draft.impedance = figureOf(value);
  for (const { sense } of t.free("constant")) {
    draft.constant = { value: (sense as { n: number }).n, unit: "ohm-cmil/ft" };
  }
  for (const { sense } of t.free("conductor-temperature")) {
    draft.temperature = sense.is === "quantity"
      ? { value: sense.n, unit: sense.unit }
      : { value: (sense as { n: number }).n, unit: "°C" };
  }
  Object.assign(draft, takeWiring(t));
  const apart = draft.segments ? metalsApart(t) : [];
  if (apart.length === 1) draft.material = apart[0];
  for (const id of WHERE) {
    for (const value of t.free(`place:${id}`)) t.aside(value, "the drop does not depend on the place");
  }
}
/** `wire at 60 °C` is the wire's own temperature here, and taken before the surroundings can be. */
function takeConductorTemperature(t: Taker, fact: Fact, draft: Draft): void {
  const value = t.slot(fact, "temperature");
  if (value?.sense.is === "quantity") draft.temperature = { value: value.sense.n, unit: value.sense.unit };
}
