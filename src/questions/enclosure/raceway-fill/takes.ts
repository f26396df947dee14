/** What a raceway takes of the facts: which it is, its trade size, what lies in it, what is asked. */
import type { Draft, Fact, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { asksRacewaySize } from "../../parts/raceway-gate.ts";
import { tradeSize } from "../../parts/sizes.ts";
import { INSULATIONS } from "../../../rules/conditions.ts";
import { SIZES } from "./request.ts";

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
const tradeOf = (inches: number): string | undefined => tradeSize(inches, SIZES);
/** Raceways that are said to be the ground themselves: no wire of it lies in them. */
const GROUNDED_BY = [
  ["boxWord:grounded-by-aluminum", "RMC"],
  ["boxWord:grounded-by-emt", "EMT"],
  ["boxWord:grounded-by-fmc", "FMC"],
  ["boxWord:grounded-by-imc", "IMC"],
  ["boxWord:grounded-by-lfmc", "LFMC"],
  ["boxWord:grounded-by-rmc", "RMC"],
] as const;
/** A nipple is no longer, by its rule. */
const LONGEST_NIPPLE = 24;
const WIDEST_CABLE = 5;
/** Inches alone, or `0.4 in wide`. */
const WIDTHS: ReadonlySet<string> = new Set(["in", "breadth"]);

/** Told in this text; what a conversation knows of its job asks nothing here. */
const isRated = ({ slots, pieces }: Fact): boolean =>
  (slots.rating ?? slots.current ?? slots.draw) !== undefined &&
  (pieces.length > 0 || Object.values(slots).flat().some((value) => value.pieces.length > 0));
const hasRaceway = (t: Taker): boolean =>
  t.facts.free.some(({ key }) => key.startsWith("raceway:") || key === "wireway") ||
  GROUNDED_BY.some(([id]) => t.has(id));

/** Of a box that raceways lead through. */
const PULLS = ["box:pull-box", "boxWord:straight-pull", "boxWord:angle-pull", "boxWord:u-pull"];

/** How many wires a raceway takes, or which one they need; a size of wire or a breaker asked as well is a circuit's. */
function isAsked(t: Taker): boolean {
  if (isPanelCheck(t) || PULLS.some(t.has)) return false;
  const asksSize = asksRacewaySize(t);
  // `18 in rigid nipple, fourteen #8 through it`: what else is said of it, whether it fits is asked.
  const lies = t.all("conductor").some(({ slots }) => slots.size && slots.count);
  if (t.has("boxWord:nipple") && t.has("in") && lies && !t.all("load").some(isRated)) return true;
  const isOfWidth = hasRaceway(t) && t.facts.free.some(({ key, value }) => WIDTHS.has(key) && isWidth(value));
  if (isOfWidth && t.wants("goal:check", "goal:fit", "boxWord:too-full")) return true;
  // Of what lies in a wireway nothing else is worked out.
  if (t.has("wireway") && lies) return true;
  const isOfCircuit =
    t.wants("role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run", "goal:ampacity") &&
    !asksSize && !t.wants("goal:fit", "goal:how-many", "goal:feed-wires");
  if (isOfCircuit || t.all("load").some(isRated) || t.all("device").some(isRated) || t.has("box")) return false;
  if (t.wants("role:grounding-electrode-conductor", "role:main-bonding-jumper")) return false;
  const sized = t.all("conductor").filter(({ slots }) => slots.size);
  const raceway = t.has("in") || hasRaceway(t);
  if (asksSize) {
    return raceway || sized.length > 0 || (t.facts.facts.length === 0 && !t.wants("goal:check", "goal:size"));
  }
  // Of a wireway with its sides and what lies in it nothing else is worked out.
  if (sized.length > 0 && t.facts.free.some(({ value: { sense } }) => sense.is === "wireway" && sense.width)) {
    return true;
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
  sense.is === "quantity" && tradeOf(sense.n) === undefined && sense.n < WIDEST_CABLE;

export function takes(t: Taker): Draft | undefined {
  if (!isAsked(t)) return undefined;
  const draft: Draft = {};
  takeWireway(t, draft);
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
  for (const feeder of t.all("circuit", "feeder")) t.head(feeder);
  for (const { key, value } of t.facts.free) {
    // `or do I need an 8x8`
    if (key === "ft2" && draft.wireway) t.aside(value, "another one, where this one does not do");
    if (["V", "system", "ft", "length"].includes(key)) t.aside(value, "the fill does not depend on it");
    if (key.startsWith("phase:") || key.startsWith("place:")) t.aside(value, "the fill does not depend on it");
  }
  return draft;
}

/** A wireway or gutter stands in the place of a round raceway. */
function takeWireway(t: Taker, draft: Draft): void {
  for (const { sense } of t.free("wireway")) {
    if (sense.is !== "wireway") continue;
    const { of, width, height, nonmetallic } = sense;
    const side = (n: number) => ({ value: n, unit: "in" });
    draft.wireway = {
      is: of,
      ...(width !== undefined && { width: side(width) }),
      ...(height !== undefined && { height: side(height) }),
      ...(nonmetallic && { nonmetallic }),
    };
  }
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
  for (const [id, raceway] of GROUNDED_BY) if (t.has(id)) draft.raceway ??= raceway;
  t.said("boxWord:no-nipple");
  const isNipple = t.said("boxWord:nipple");
  if (isNipple) draft.nipple = true;
  const cables: Draft[] = [];
  const sizes = new Set<string>();
  // `ENT 3/4`, `or do I need 1-1/4`: a trade size without its unit.
  for (const { key, value } of t.facts.free) {
    const n = key === "number" && "n" in value.sense ? value.sense.n : NaN;
    const isNamed = hasRaceway(t) || t.has("boxWord:nipple");
    if (!tradeOf(n) || (Number.isInteger(n) && !t.has("change:or")) || !isNamed) continue;
    t.use(value, "size");
    sizes.add(tradeOf(n)!);
  }
  const nipple = t.facts.free.find(({ key }) => key === "boxWord:nipple")?.value;
  // `24 in nipple`: `in` stands between a number and a word as often as not.
  const isItsLength = (value: Value) => nipple && Math.min(...nipple.pieces) - Math.max(...value.pieces) <= 2;
  const lengths = isNipple
    ? t.facts.free.filter(({ key, value }) => key === "number" && isItsLength(value)).map(({ value }) => value)
    : [];
  for (const value of lengths) takeNippleLength(t, draft, value);
  for (const value of [...WIDTHS].flatMap((key) => t.free(key))) {
    const { sense } = value;
    if (sense.is !== "quantity") continue;
    const trade = tradeOf(sense.n);
    if (trade && !isNipple) sizes.add(trade);
    if (trade && draft.size === undefined) draft.size = trade;
    else if (isNipple) takeNippleLength(t, draft, value);
    else if (isWidth(value)) cables.push({ diameter: { value: sense.n, unit: "in" } });
    else t.aside(value, "the fill does not depend on a length");
  }
  for (const { sense } of t.free("raceways")) {
    if (sense.is === "raceways" && sense.inches !== undefined) draft.size ??= tradeOf(sense.inches);
  }
  if (cables.length > 0) draft.cables = cables;
  const [only, ...others] = sizes;
  if (others.length > 0) {
    delete draft.size;
    t.note(`took ${[...sizes].join(" and ")} in as a choice: the smallest that will do is given`);
  } else if (only) draft.size ??= only;
  // `two 4 in PVC, each with …`
  for (const { key, value } of t.facts.free) {
    const n = key === "number" && "n" in value.sense ? value.sense.n : NaN;
    if (t.has("share:each") && Number.isInteger(n) && n > 1 && n <= MOST_ALIKE && !TRADE_SAID.has(value.said)) {
      t.aside(value, "each raceway by itself");
    }
  }
  t.said("share:each", "story:form");
  for (const value of t.free("%")) t.aside(value, "the table says how full it may be");
  for (const device of t.all("device")) {
    t.head(device);
    for (const value of device.slots.count ?? []) t.aside(value, "the fill does not depend on it");
  }
  for (const circuit of t.all("circuit", "feeder", "circuit", "service")) {
    t.head(circuit);
    for (const value of circuit.slots.rating ?? []) t.aside(value, "the fill does not depend on it");
  }
  t.said("connection:four-wire", "connection:three-wire");
  for (const load of t.all("load").filter(({ slots }) => Object.keys(slots).length === 0)) {
    t.aside(load, "what it feeds makes no difference to the fill");
  }
}
/** A nipple that is too long is none. */
function takeNippleLength(t: Taker, draft: Draft, value: Value): void {
  const isShort = "n" in value.sense && value.sense.n <= LONGEST_NIPPLE;
  if (!isShort) delete draft.nipple;
  t.aside(value, isShort ? "as short as a nipple is" : "too long for a nipple: filled as a raceway");
}
const MOST_ALIKE = 6;
/** Fractions, which are no count. */
const TRADE_SAID: ReadonlySet<string> = new Set(SIZES.filter((size) => size.includes("/")));

function takeConductors(t: Taker, draft: Draft): void {
  const isGroundItself = t.said("boxWord:grounded-by-raceway", ...GROUNDED_BY.map(([id]) => id));
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
      const isGround = fact.id === "equipment-ground" && fact.pieces.length > 0 &&
        facts.some(({ slots }) => slots.size);
      const same = isGround ? sizeOfAll(facts) : undefined;
      if (isGround && isGroundItself) t.head(fact);
      else if (same) {
        // Up to 10 AWG a ground is as large as the wires of its circuit.
        t.head(fact);
        t.note(`took the ground as ${same} AWG, like the others`);
        conductors.push({ size: same, count: t.number(fact, "count") ?? 1, ground: true });
        continue;
      } else if (isGround) {
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
    // `replace the #8 with #6`
    if (fact.others?.includes("replaced")) {
      for (const value of Object.values(fact.slots).flat()) t.aside(value, "what comes out");
      continue;
    }
    const each = t.number(fact, "count");
    const sets = each === undefined ? undefined : setsBefore(t, fact);
    const count = each === undefined ? undefined : each * (sets ?? 1);
    const isBare = t.term(fact, "covering") === "bare";
    if (sense.is === "cable") {
      takeCable(t, draft, sense.size, sense.wires, count);
      continue;
    }
    const sizes = sense.is === "sizes" ? sense.sizes : [sense.size];
    for (const size of sizes) {
      conductors.push({
        size,
        ...(count !== undefined && { count }),
        ...(own && isInsulation(own) && !isBare && { insulation: own }),
        ...(isBare && { bare: true }),
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
/** The size that all conductors have, if it is a branch circuit's. */
function sizeOfAll(facts: readonly Fact[]): string | undefined {
  const sizes = new Set(
    facts.flatMap(({ slots }) => slots.size ?? []).map(({ sense }) => sense.is === "size" ? sense.size : ""),
  );
  const [only] = sizes;
  return sizes.size === 1 && ["14", "12", "10"].includes(only!) ? only : undefined;
}
/** `3 sets of 3 #10`: how many sets stand right before a conductor. */
function setsBefore(t: Taker, fact: Fact): number | undefined {
  const first = Math.min(...Object.values(fact.slots).flat().flatMap(({ pieces }) => pieces));
  const set = t.all("circuit", "set").find(({ pieces, slots }) => {
    const far = first - Math.max(...pieces);
    return slots.count && far > 0 && far <= 2;
  });
  if (!set) return undefined;
  t.head(set);
  return t.number(set, "count");
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
