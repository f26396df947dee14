/** What an ampacity takes of the facts: one size, where it lies, how many lie together, what is put up for checking. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { isLineToNeutral } from "../../../rules/power.ts";
import { carryingOf, isCrowdedWire, isLoadedWire, lines, takeSets, takeWiring } from "../../parts/run-takes.ts";

/** Questions on a size that are others': what fits where, what a fault does, what is converted. */
const OTHERS = ["raceway-size", "fit", "box-fill", "fault-current", "drop", "longest-run", "mm2", "awg", "torque"];
const OTHER_HEADS = ["grounding-electrode-conductor", "main-bonding-jumper", "supply-side-bonding-jumper"];
/** Live conductors of a circuit by its phases, its neutral carrying only what the phases leave. */
const CARRYING = { 1: 2, 3: 3 } as const;

export function takes(t: Taker): Draft | undefined {
  if (isPanelCheck(t)) return undefined;
  const named = sizesOf(t);
  const asksIt = t.wants("goal:ampacity") || t.wants("label:maximum-protection") || isCrowdedWire(t) || isLoadedWire(t);
  // `what copper feeder carries 180 A`: a load looks for its conductor.
  const isWanted = named.length === 0 &&
    t.all("circuit", "feeder").some(({ slots }) => slots.rating);
  // `is 1/0 good for a 125 A feeder`: a feeder told by its rating is judged whole, unless only its surroundings are told.
  const isFeeder = t.wants("goal:check", "label:told-ampacity") && !isSurrounded(t) && named.length > 0 &&
    t.all("circuit", "feeder").some(({ slots }) => slots.rating);
  const isOther = isWanted || isFeeder || OTHERS.some((goal) => t.wants(`goal:${goal}`)) || t.has("mm2") ||
    t.has("ft2") ||
    t.all("transformer").some(({ id, slots }) => id !== "solar" || slots.rating) ||
    (t.has("box") && !t.wants("goal:ampacity")) || isFilling(t) ||
    t.all("conductor", ...OTHER_HEADS).length > 0 ||
    (new Set(named.map(([, s]) => s)).size > 1 && !isChoice(t));
  const isBare = named.length > 0 && t.all("load").every(({ slots }) => Object.keys(slots).length === 0) &&
    !t.all("device").some(({ slots }) => slots.rating) &&
    !t.all("circuit", "feeder").some(({ slots }) => slots.rating) &&
    !["ft", "m", "length"].some(t.has) &&
    !(t.has("in") && !t.has("place:rooftop")) &&
    !t.wants("device:breaker", "device:fuse", "role:equipment-ground", "goal:size", "goal:convert");
  if (isOther || !(asksIt || isBare)) return undefined;
  const draft: Draft = {};
  for (const source of t.all("transformer", "solar")) t.head(source);
  for (const [fact, size, value] of named) {
    t.head(fact);
    t.use(value, "size");
    if (value.sense.is === "sizes") t.aside(value, "of the wires of one cable the lines are told first");
    draft.size = size;
  }
  if (isChoice(t)) askWhich(t, draft, named);
  takeCables(t, draft, named);
  Object.assign(draft, takeWiring(t));
  delete draft.conduit;
  takeSetsAlone(t, draft);
  takeTogether(t, draft);
  takeChecked(t, draft);
  // Sets against a device or a load are a feeder's.
  if (draft.sets !== undefined && (draft.breaker ?? draft.load) !== undefined) return undefined;
  t.asks("goal:ampacity", "goal:current", "goal:check", "goal:add-load", "role:wire", "device:breaker");
  t.asks("label:maximum-protection", "circuit:circuit");
  leaveAside(t);
  return draft;
}

const isSurrounded = (t: Taker): boolean => ["ambient", "°F", "°C", "conductors-together"].some(t.has);

/** `emt for two #6`: so many in a raceway, and nothing asked: whether they fit. */
const isFilling = (t: Taker): boolean =>
  !t.facts.free.some(({ key }) => key.startsWith("goal:") || key === "ambient" || key === "conductors-together") &&
  t.facts.free.some(({ key }) => key.startsWith("raceway:")) &&
  lines(t).some(({ slots }) => slots.size && slots.count);

/** `#4 copper or #2 aluminum, which carries more`: of two at a time, one is worked out. */
const isChoice = (t: Taker): boolean => t.has("change:or") && t.wants("goal:ampacity");
function askWhich(t: Taker, draft: Draft, named: readonly [Fact, string, Value][]): void {
  const sizes = [...new Set(named.map(([fact, , { said }]) => [said, metalOf(fact)].filter(Boolean).join(" ")))];
  if (sizes.length < 2) return;
  t.said("change:or");
  delete draft.size;
  t.ask({
    field: "size",
    ask: `One at a time: the ampacity of ${sizes.join(" or of ")}?`,
    example: `ampacity of ${sizes[0]}`,
  });
}
const metalOf = ({ slots }: Fact): string | undefined => {
  const sense = slots.metal?.[0]?.sense;
  return sense?.is === "term" ? sense.id : undefined;
};

const sizesOf = (t: Taker): [Fact, string, Value][] =>
  lines(t).flatMap((fact): [Fact, string, Value][] => {
    const value = fact.slots.size?.[0];
    const sense = value?.sense;
    if (sense?.is === "size" || sense?.is === "cable") return [[fact, sense.size, value!]];
    return sense?.is === "sizes" ? [[fact, sense.sizes[0]!, value!]] : [];
  });

function takeCables(t: Taker, draft: Draft, named: readonly [Fact, string, Value][]): void {
  for (const [, size, { sense }] of named) {
    if (sense.is !== "cable") continue;
    const isNamed = lines(t).some(({ slots }) => slots.insulation) ||
      t.facts.free.some(({ key }) => key.startsWith("method:") || key.startsWith("insulation:"));
    if (!isNamed) {
      draft.method = "NM cable";
      t.note(`took ${size}/${sense.wires} as NM cable`);
    } else t.note(`${sense.wires} insulated conductors of ${size} AWG in one cable`);
  }
}

/** `3 parallel sets of 250 kcmil`, `parallel 250 kcmil, three sets`: several sets, of which each carries its share. */
function takeSetsAlone(t: Taker, draft: Draft): void {
  const isSeveral = t.all("circuit", "set").some(({ slots, others }) =>
    slots.count !== undefined || (others?.includes("circuit:parallel") ?? false)
  );
  // `4/0, two per phase`
  const isPerPhase = t.all("conductor").some(({ slots, others }) =>
    slots.count !== undefined && (others?.includes("circuit:each-phase") ?? false)
  );
  if (isSeveral || isPerPhase) takeSets(t, draft, true);
  if (draft.sets === 1) delete draft.sets;
}

/** Conductors that carry current side by side: told, counted by size, or by the circuits they are of. */
function takeTogether(t: Taker, draft: Draft): void {
  const grounds = t.all("conductor", "equipment-ground");
  for (const fact of grounds) {
    for (const what of [fact, ...Object.values(fact.slots).flat()]) {
      t.aside(what, "equipment grounds do not count as current-carrying");
    }
  }
  for (const fact of t.all("conductor", "neutral")) t.aside(fact, "a neutral is counted with its circuit");
  const threePhase = [...t.all("load").map((load) => t.term(load, "phase")), ...t.terms("phase")].includes(
    "three-phase",
  );
  const isCounted = t.said("circuit:neutral-counts", "circuit:nonlinear");
  t.said("connection:two-wire", "circuit:no-neutral");
  const isThreeWire = t.said("connection:three-wire");
  const isFourWire = t.said("connection:four-wire", "connection:wye");
  // A line and its neutral: both are in the count already.
  const isOneLine = !threePhase && !isThreeWire && !isFourWire && t.all("circuit", "multiwire").length === 0 &&
    isToNeutral(t);
  if (isCounted && isOneLine) t.note("the neutral of a line alone is one of the two that count");
  const neutralCounts = isCounted && !isOneLine;
  // `but seven of them in the raceway`
  const [loose] = t.facts.free.filter(({ key }) => key === "count");
  if (loose?.value.sense.is === "count" && loose.value.sense.isBehind) {
    t.use(loose.value, "conductors");
    draft.conductors ??= loose.value.sense.n;
  }
  // `with two other circuits, so 6 hots`: those that carry current are counted already.
  const hots = t.all("conductor", "ungrounded").find(({ slots }) => slots.count);
  const circuits = Number(
    t.all("circuit").map(({ slots }) => (slots.count?.[0]?.sense as { n?: number } | undefined)?.n).find(Boolean) ?? 1,
  );
  const ofHots = hots && t.number(hots, "count");
  // `three circuits, each two hots`: so few are those of one circuit.
  const isOfEach = ofHots !== undefined && circuits > 1 && ofHots < 2 * circuits;
  if (isOfEach) draft.conductors = ofHots * circuits;
  else if (ofHots !== undefined) draft.conductors ??= ofHots;
  if (isOfEach) t.note(`${circuits} circuits of ${ofHots} hots each`);
  if (hots) {
    for (const { slots } of t.all("circuit")) {
      for (const each of slots.count ?? []) t.aside(each, "counted by their wires");
    }
  }
  for (const fact of t.all("circuit", "circuit", "multiwire", "feeder")) {
    t.head(fact);
    const count = t.number(fact, "count");
    if (count === undefined || draft.conductors !== undefined) continue;
    const each = CARRYING[threePhase || isFourWire ? 3 : 1] + (neutralCounts ? 1 : 0);
    draft.conductors = count * each;
    t.note(`${count} circuits of ${each} current-carrying conductors each`);
  }
  for (const fact of t.all("conductor", "ungrounded")) t.head(fact);
  for (const fact of lines(t)) {
    const count = fact.slots.count?.[0];
    if (!count || draft.conductors !== undefined) continue;
    draft.conductors = carryingOf(t, fact);
  }
  if (neutralCounts && draft.conductors === undefined && !isThreeWire) {
    draft.conductors = 4;
    t.note("the neutral counts: three phase conductors and the neutral");
  }
}

/** A breaker and a load put up for checking. */
function takeChecked(t: Taker, draft: Draft): void {
  for (const fact of [...t.all("device", "breaker", "fuse"), ...t.all("circuit", "circuit", "feeder")]) {
    const value = fact.slots.rating?.[0];
    if (!value) continue;
    t.head(fact);
    t.slot(fact, "poles");
    t.use(value, "rating");
    draft.breaker ??= amperes(value);
  }
  for (const value of t.free("choice")) t.aside(value, "what it carries is worked out here");
  for (const fact of t.all("load")) {
    t.head(fact);
    const value = ["draw", "current", "full-load-current"].map((slot) => t.slot(fact, slot)).find(Boolean);
    if (value) draft.load ??= amperes(value);
    t.term(fact, "hours");
  }
  // `good for 60 A?`
  if (draft.load === undefined && draft.breaker === undefined && t.wants("goal:check")) {
    const load = t.loose("told-ampacity");
    if (load) draft.load = load;
  }
}
const amperes = ({ sense }: Value): Said | undefined =>
  sense.is === "quantity" || sense.is === "number" ? { value: sense.n, unit: "A" } : undefined;

/** Voltages that were told, of a load or of nothing named. */
const voltages = (t: Taker): readonly Value[] => [
  ...t.all("load").flatMap(({ slots }) => slots.volts ?? []),
  ...t.facts.free.filter(({ key }) => ["V", "volts", "system", "supply-volts"].includes(key)).map(({ value }) => value),
];
const isToNeutral = (t: Taker): boolean =>
  voltages(t).some(({ sense }) => (sense.is === "quantity" || sense.is === "number") && isLineToNeutral(sense.n));

function leaveAside(t: Taker): void {
  const volts = voltages(t);
  for (const { key, value } of t.facts.free) {
    if (["ft", "m", "yd", "length"].includes(key)) t.aside(value, "the ampacity does not depend on the length");
    if (key.startsWith("place:")) t.aside(value, "only what is around the conductors counts");
  }
  for (const value of volts) t.aside(value, "the ampacity does not depend on the voltage");
  for (const { slots } of lines(t)) {
    for (const value of slots.length ?? []) t.aside(value, "the ampacity does not depend on the length");
  }
}
