/** What a raceway takes of the facts: which it is, its trade size, what lies in it, what is asked. */
import type { Draft, Fact, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { INSULATIONS } from "../../../rules/conditions.ts";

const IDS: Readonly<Record<string, string>> = {
  emt: "EMT",
  imc: "IMC",
  rmc: "RMC",
  steel: "RMC",
  "aluminum-conduit": "RMC",
  pvc: "PVC schedule 40",
  "pvc-40": "PVC schedule 40",
  "pvc-80": "PVC schedule 80",
  fmc: "FMC",
  lfmc: "LFMC",
  ent: "ENT",
};
/** Trade sizes by their inches. */
const TRADE: Readonly<Record<number, string>> = {
  0.375: "3/8",
  0.5: "1/2",
  0.75: "3/4",
  1: "1",
  1.25: "1-1/4",
  1.5: "1-1/2",
  2: "2",
  2.5: "2-1/2",
  3: "3",
  3.5: "3-1/2",
  4: "4",
  5: "5",
  6: "6",
};
/** A nipple is no longer, by its rule. */
const LONGEST_NIPPLE = 24;
const WIDEST_CABLE = 5;
/** Inches alone, or `0.4 in wide`. */
const WIDTHS: ReadonlySet<string> = new Set(["in", "breadth"]);

/** Told in this text; what a conversation knows of its job asks nothing here. */
const isRated = ({ slots, pieces }: Fact): boolean =>
  (slots.rating ?? slots.current ?? slots.draw) !== undefined &&
  (pieces.length > 0 || Object.values(slots).flat().some((value) => value.pieces.length > 0));
const hasRaceway = (t: Taker): boolean => t.facts.free.some(({ key }) => key.startsWith("raceway:"));

/** How many wires a raceway takes, or which one they need; a size of wire or a breaker asked as well is a circuit's. */
function isAsked(t: Taker): boolean {
  if (isPanelCheck(t)) return false;
  const isOfWidth = hasRaceway(t) && t.facts.free.some(({ key, value }) => WIDTHS.has(key) && isWidth(value));
  if (isOfWidth && t.wants("goal:check", "goal:fit", "boxWord:too-full")) return true;
  const isOfCircuit =
    t.wants("role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run", "goal:ampacity") &&
    !t.wants("goal:fit", "goal:how-many", "goal:feed-wires", "goal:raceway-size");
  if (isOfCircuit || t.all("load").some(isRated) || t.all("device").some(isRated) || t.has("box")) return false;
  if (t.wants("role:grounding-electrode-conductor", "role:main-bonding-jumper")) return false;
  const sized = t.all("conductor").filter(({ slots }) => slots.size);
  const raceway = t.has("in") || hasRaceway(t);
  if (t.wants("goal:raceway-size")) {
    return raceway || sized.length > 0 || (t.facts.facts.length === 0 && !t.wants("goal:check", "goal:size"));
  }
  const counted = sized.some(({ slots }) => slots.count) || (sized.length > 0 && t.has("in"));
  const asksNothing = !t.facts.free.some(({ key }) => key.startsWith("goal:"));
  return raceway &&
    (t.wants("goal:fit") || t.has("boxWord:too-full") ||
      (t.wants("goal:how-many", "goal:feed-wires") && sized.length > 0) ||
      (counted && (asksNothing || (t.has("in") && t.wants("goal:check")) || (hasRaceway(t) && t.wants("goal:size")))));
}

/** A width that is no trade size: a cable's. */
const isWidth = ({ sense }: Value): boolean =>
  sense.is === "quantity" && TRADE[sense.n] === undefined && sense.n < WIDEST_CABLE;

export function takes(t: Taker): Draft | undefined {
  if (!isAsked(t)) return undefined;
  const draft: Draft = {};
  takeRaceway(t, draft);
  takeConductors(t, draft);
  if (t.said("boxWord:compact")) draft.compact = true;
  const carrying = t.free("conductors-together")[0]?.sense;
  if (carrying?.is === "number") draft.carrying = carrying.n;
  const [ambient] = t.free("ambient");
  const degrees = ambient ?? t.free("°F")[0] ?? t.free("°C")[0];
  if (degrees?.sense.is === "quantity" && (degrees.sense.unit === "°F" || degrees.sense.unit === "°C")) {
    draft.ambient = { value: degrees.sense.n, unit: degrees.sense.unit };
  }
  const [rated] = t.free("terminals");
  if (rated && "n" in rated.sense) draft.terminals = { value: rated.sense.n, unit: "°C" };
  takeOpen(t, draft);
  t.asks(
    "goal:raceway-size",
    "goal:fit",
    "goal:how-many",
    "goal:feed-wires",
    "goal:check",
    "goal:size",
    "goal:ampacity",
    "label:area",
  );
  t.asks("boxWord:too-full", "boxWord:nothing-else", "label:draw", "place:bundle", "role:wire");
  for (const { key, value } of t.facts.free) {
    if (["V", "system", "ft", "length"].includes(key)) t.aside(value, "the fill does not depend on it");
    if (key.startsWith("phase:") || key.startsWith("place:")) t.aside(value, "the fill does not depend on it");
  }
  return draft;
}

function takeRaceway(t: Taker, draft: Draft): void {
  for (const id of t.terms("raceway")) {
    if (IDS[id]) draft.raceway = IDS[id];
    if (id === "pvc") t.note("took PVC as schedule 40");
    if (id === "lfnc") {
      t.ask({
        field: "raceway",
        ask: "Of liquidtight nonmetallic conduit no dimensions are held here. Which metal one would it be?",
        example: "LFMC",
      });
    }
  }
  const isNipple = t.said("boxWord:nipple");
  if (isNipple) draft.nipple = true;
  const cables: Draft[] = [];
  for (const value of [...WIDTHS].flatMap((key) => t.free(key))) {
    const { sense } = value;
    if (sense.is !== "quantity") continue;
    const trade = TRADE[sense.n];
    if (trade && draft.size === undefined) draft.size = trade;
    else if (isNipple) {
      const isShort = sense.n <= LONGEST_NIPPLE;
      if (!isShort) delete draft.nipple;
      t.aside(value, isShort ? "as short as a nipple is" : "too long for a nipple: filled as a raceway");
    } else if (isWidth(value)) cables.push({ diameter: { value: sense.n, unit: "in" } });
    else t.aside(value, "the fill does not depend on a length");
  }
  for (const { sense } of t.free("raceways")) {
    if (sense.is === "raceways" && sense.inches !== undefined) draft.size ??= TRADE[sense.inches];
  }
  if (cables.length > 0) draft.cables = cables;
}

function takeConductors(t: Taker, draft: Draft): void {
  const conductors: Draft[] = [];
  const all = [...t.terms("insulation")];
  const facts = t.all("conductor");
  for (const fact of facts) {
    const sense = fact.slots.size?.[0]?.sense;
    const own = t.term(fact, "insulation");
    const metal = t.term(fact, "metal");
    if (metal === "copper" || metal === "aluminum") draft.material ??= metal;
    if (own && sense === undefined) all.push(own);
    if (sense?.is !== "size" && sense?.is !== "cable" && sense?.is !== "sizes") {
      if (fact.id === "equipment-ground" && fact.pieces.length > 0 && facts.some(({ slots }) => slots.size)) {
        t.ask({ field: "conductors", ask: "What size is the equipment ground?", example: "and a #8 ground" });
      }
      if (fact.id === "wire" || fact.slots.count === undefined) t.head(fact);
      const [cable, ...others] = (draft.cables as Draft[] | undefined) ?? [];
      const told = fact.id === "wire" && cable && others.length === 0 ? t.number(fact, "count") : undefined;
      if (told !== undefined) cable!.count = told;
      continue;
    }
    t.head(fact);
    t.slot(fact, "size");
    const count = t.number(fact, "count");
    if (sense.is === "cable") {
      takeCable(t, draft, sense.size, sense.wires, count);
      continue;
    }
    const sizes = sense.is === "sizes" ? sense.sizes : [sense.size];
    for (const size of sizes) {
      conductors.push({
        size,
        ...(count !== undefined && { count }),
        ...(own && isInsulation(own) && { insulation: own }),
        ...(fact.id === "equipment-ground" && { ground: true }),
      });
    }
  }
  // `would three of them fit`
  const [lone] = conductors.length === 1 && conductors[0]!.count === undefined ? t.free("number") : [];
  if (lone?.sense.is === "number" && Number.isInteger(lone.sense.n)) conductors[0]!.count = lone.sense.n;
  for (const id of t.terms("metal")) if (id === "copper" || id === "aluminum") draft.material ??= id;
  if (t.said("circuit:with-neutral", "circuit:no-neutral") && t.has("circuit:with-neutral")) addNeutral(t, conductors);
  // Told once, it is of all of them.
  const named = [...new Set([...conductors.map(({ insulation }) => insulation), ...all.filter(isInsulation)])]
    .filter((each) => each !== undefined);
  if (named.length === 1) {
    draft.insulation = named[0];
    for (const each of conductors) delete each.insulation;
  }
  if (conductors.length > 0) draft.conductors = conductors;
  for (const { key, value } of t.facts.free) {
    if (key.startsWith("method:")) t.aside(value, "what counts is the cable's width");
  }
}
/** `two hots and a neutral 1/0`: a neutral without a size of its own is as large as they are. */
function addNeutral(t: Taker, conductors: readonly Draft[]): void {
  const [hots, ...others] = conductors.filter(({ ground }) => !ground);
  if (!hots || others.length > 0 || typeof hots.count !== "number") return;
  hots.count += 1;
  t.note(`took the neutral as ${hots.size}, like the others`);
}
const isInsulation = (id: string): boolean => (INSULATIONS as readonly string[]).includes(id);

/** A cable counts as one conductor as wide as it is. */
function takeCable(t: Taker, draft: Draft, size: string, wires: number, count: number | undefined): void {
  const cables = draft.cables as Draft[] | undefined;
  if (cables?.length === 1 && cables[0]!.count === undefined) {
    if (count !== undefined) cables[0]!.count = count;
    return;
  }
  t.ask({
    field: "cables",
    ask: `A cable counts as one conductor of its larger diameter: how wide is the ${size}/${wires}, in inches?`,
    example: "0.42 in",
  });
}

/** `how many #10 fit`: of what is asked no count is told. */
function takeOpen(t: Taker, draft: Draft): void {
  const list = draft.conductors as Draft[] | undefined;
  const open = list?.filter(({ count }) => count === undefined) ?? [];
  if (open.length === 0) return;
  const only = open.find(({ ground }) => !ground) ?? open[0]!;
  const isAsked = t.wants("goal:how-many", "goal:feed-wires") || (list!.length === 1 && draft.size !== undefined);
  if (isAsked && (open.length === 1 || !only.ground)) {
    draft.find = "how many";
    for (const each of open) if (each !== only) each.count = 1;
    return;
  }
  for (const each of open) if (each.ground || list!.length > 1) each.count = 1;
  if (list!.length === 1 && list![0]!.count === undefined) {
    t.ask({ field: "conductors", ask: `How many ${only.size} conductors?`, example: `three ${only.size} AWG` });
  }
}
