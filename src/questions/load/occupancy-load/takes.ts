/** What the load of an occupancy takes of the facts, and whether the facts are of one. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { OCCUPANCIES } from "../../../rules/occupancies.ts";
import { isKitchen, OF_KITCHENS } from "../../parts/kitchens.ts";
import { takeAreas } from "./takes-areas.ts";
import { takeLoads } from "./takes-loads.ts";
import { takeOutlets } from "./takes-outlets.ts";
import { LOAD_GOALS, takeService, takeSystem } from "../../parts/supply-takes.ts";

const BUILDINGS: readonly string[] = [...OCCUPANCIES, "unlisted", "commercial"];
const SECTIONS = ["220.56", "220.44", "220.47", "220.88", "220.86", "220.43", "220.46"];
const OPTIONAL_SECTIONS = ["220.86", "220.88", "120.86", "120.88"];
const BY_SECTION = [...SECTIONS, ...SECTIONS.map((section) => section.replace("220.", "120."))];
/** Outlets that only other occupancies count. */
const OWN_OUTLETS = ["show-window", "track-lighting", "multioutlet-assembly"];

export function takes(t: Taker): Draft | undefined {
  if (!isOccupancy(t)) return undefined;
  const draft: Draft = {};
  takeMethod(t, draft);
  takeSystem(t, draft);
  const part = partOf(t);
  if (part) draft.part = part;
  const connected = takeConnected(t);
  if (connected) draft.connected = connected;
  const places = takeAreas(t, draft);
  takeOutlets(t, draft, places);
  takeLoads(connected ? withoutLoads(t) : t, draft, places);
  takeService(t, draft);
  if (t.said("circuit:linear")) draft.linear = true;
  else if (t.said("circuit:nonlinear")) draft.linear = false;
  t.asks(...LOAD_GOALS, "load:load", "goal:branch-load", "goal:add-load");
  t.said("share:total", "share:each", "building:other-occupancy", "building:nothing-else");
  t.terms("absent");
  for (const value of t.free("ton")) t.aside(value, "only the nameplate counts");
  takeFactor(t);
  return draft;
}

const WITH_OPTIONAL = ["restaurant", "school"];
const POWER = ["W", "kW", "VA", "kVA"];
/** `restaurant, 280 kVA connected all told, 220.88`: all that is connected, for the optional method of its use. */
function takeConnected(t: Taker): { load: Said; use: string } | undefined {
  const uses = new Set(t.all("building", ...WITH_OPTIONAL).map(({ id }) => id!));
  // One figure for all that is connected is what the optional methods start from, and no other.
  const isOptional = t.has("methodOfLoad:optional") || t.all("load", "connected").some(isRated) ||
    t.facts.free.some(({ value: { sense } }) => sense.is === "section" && OPTIONAL_SECTIONS.includes(sense.section));
  const [use] = uses;
  if (uses.size !== 1 || !isOptional) return undefined;
  const loose = t.loose("calculated-load", "told-result") ?? t.all("load", "connected").map((load) => {
    t.head(load);
    return t.figure(load, "rating", ...POWER);
  }).find((said) => said !== undefined);
  if (loose) return { load: loose, use: use! };
  // `280 kVA connected all told, HVAC included`: one figure for all of it.
  const rated = t.all("load").filter(({ slots }) => slots.rating ?? slots.current ?? slots.draw);
  const [only] = rated;
  if (rated.length !== 1 || !(t.has("share:total") || only!.slots.share)) return undefined;
  t.head(only!);
  t.slot(only!, "share");
  const said = t.figure(only!, "rating", ...POWER);
  return said && { load: said, use: use! };
}
const MEASURES = ["rating", "current", "draw", "nameplate"];
/** What is named beside it is in it. */
function withoutLoads(t: Taker): Taker {
  for (const load of t.all("load")) {
    const isSized = MEASURES.some((slot) => load.slots[slot]);
    if (isSized) continue;
    t.aside(load, "in all that is connected");
    // `electric heat and AC, 480/277 three phase`: the supply stands where the list ends.
    if (!load.slots.volts) { for (const value of load.slots.fuel ?? []) t.aside(value, "in all that is connected"); }
  }
  return { ...t, all: (family, ...ids) => family === "load" ? [] : t.all(family, ...ids) };
}

// ── whether it is asked
const hasArea = (t: Taker): boolean =>
  ["ft2", "m2", "area"].some(t.has) || t.all("space").some(({ slots }) => slots.area) ||
  t.all("building").some(({ slots }) => slots.area);
const hasSize = (t: Taker): boolean => t.all("conductor").some(({ slots }) => slots.size);
const hasLength = (t: Taker): boolean => ["ft", "m", "yd", "length"].some(t.has);
const isOfCircuit = (t: Taker): boolean =>
  t.wants("role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run", "goal:ampacity") ||
  t.wants("role:equipment-ground", "role:grounding-electrode-conductor", "role:main-bonding-jumper");
const isOfLoad = (t: Taker): boolean =>
  t.wants("goal:load", "goal:feeder-load", "goal:branch-load", "label:calculated-load", "label:draw") ||
  t.wants("goal:VA", "goal:kVA", "load:load") || t.has("label:calculated-load") || t.facts.free.some(({ key }) =>
    key.startsWith("methodOfLoad:")
  );
const numberOf = (fact: Fact): number => Number((fact.slots.count?.[0]?.sense as { n?: number } | undefined)?.n ?? 0);
const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;
/** From how many receptacles a load is asked of an occupancy. */
const MANY_RECEPTACLES = 10;
const COOKING = ["range", "wall-oven", "cooktop"];

/** A load of what is no dwelling: by its area, its receptacles, its kitchen. */
function isOccupancy(t: Taker): boolean {
  const isHome = t.has("building:dwelling") ||
    t.all("building", "apartment", "multifamily", "two-family", "mobile-home").length > 0;
  if (isHome && !t.has("building:other-occupancy")) return false;
  const bySection = t.facts.free.some(({ value: { sense } }) =>
    sense.is === "section" && BY_SECTION.includes(sense.section)
  );
  if (bySection || t.has("building:other-occupancy")) return true;
  if (hasSize(t)) return false;
  const buildings = t.all("building", ...BUILDINGS);
  if (hasArea(t) && (buildings.length > 0 || isThreePhase(t))) return true;
  const kitchen = t.all("load", ...OF_KITCHENS).filter(isRated);
  const own = t.all("load", ...OWN_OUTLETS);
  const isService = t.wants("device:service") || t.all("device", "service").some(isRated);
  if ((own.length > 0 || isKitchen(t)) && (isOfLoad(t) || isService || buildings.length > 0)) return true;
  if (isOfCircuit(t) || hasLength(t) || t.all("transformer").length > 0) return false;
  if (t.all("load", "kitchen-equipment").length > 0 && (isOfLoad(t) || kitchen.length > 0)) return true;
  const receptacles = t.all("load", "receptacles");
  if (receptacles.some((each) => numberOf(each) >= MANY_RECEPTACLES) && isOfLoad(t)) return true;
  if (receptacles.some(isRated) && isOfLoad(t) && buildings.length > 0) return true;
  // `Office is at extension 480`: a building in a sentence of its own is part of the story.
  const busy = new Set([
    ...t.facts.facts.filter(({ family }) => family !== "building").map(({ sentence }) => sentence),
    ...t.facts.free.filter(({ key }) => key !== "aside").map(({ sentence }) => sentence),
  ]);
  const isTold = buildings.some(({ id, sentence }) => id !== "office" || busy.has(sentence));
  return isTold && (isOfLoad(t) || isService || t.all("load", ...COOKING).length > 0);
}

/** No house has three phases: a floor with them is of another use, which is asked about. */
const isThreePhase = (t: Taker): boolean =>
  t.has("phase:three-phase") || t.has("connection:high-leg") ||
  t.all("load").some(({ slots }) => slots.phase?.[0]?.sense.is === "term" && slots.phase[0].sense.id === "three-phase");

function takeMethod(t: Taker, draft: Draft): void {
  const methods = new Set(t.terms("methodOfLoad").filter((id) => id === "standard" || id === "optional"));
  for (const { sense } of t.free("section")) {
    if (sense.is === "section" && OPTIONAL_SECTIONS.includes(sense.section)) methods.add("optional");
  }
  if (methods.size === 1) draft.method = [...methods][0];
  // `all electric` is how a restaurant is fuelled.
  const isRestaurant = t.all("building", "restaurant").length > 0;
  if (t.said("building:all-electric") || (isRestaurant && t.said("fuel:electric"))) draft.allElectric = true;
  else if (t.said("building:not-all-electric") || (isRestaurant && t.said("fuel:gas"))) draft.allElectric = false;
}

const PARTS = { lighting: "lighting", receptacles: "receptacles" } as const;
/** `receptacle load`, `demand of the lighting`: one part of the load alone, named beside what is asked for. */
function partOf(t: Taker): "lighting" | "receptacles" | undefined {
  if (t.wants("device:service", "circuit:everything") || t.all("device", "service").some(isRated)) return undefined;
  const goals = t.facts.free.filter(({ key }) =>
    ["goal:load", "goal:feeder-load", "label:calculated-load", "label:draw"].includes(key)
  )
    .flatMap(({ value }) => value.pieces);
  for (const load of t.all("load", "load")) if (Object.keys(load.slots).length === 0) goals.push(...load.pieces);
  const named = t.all("load", "lighting", "receptacles").filter((fact) =>
    Object.keys(fact.slots).length === 0 &&
    (fact.others?.includes("load:load") || fact.pieces.some((at) => goals.includes(at + 1) || goals.includes(at - 1)))
  );
  const parts = new Set(named.map(({ id }) => PARTS[id as keyof typeof PARTS]));
  // `lighting plus receptacle load`: both, and so all of it.
  const isBare = ({ slots }: Fact) => Object.keys(slots).length === 0;
  const others = t.all("load", "lighting", "receptacles").filter((fact) => isBare(fact) && !named.includes(fact));
  // In a conversation nothing stands anywhere any more.
  const areJoined = named.some(({ pieces }) =>
    others.some((other) =>
      pieces.length + other.pieces.length === 0 ||
      other.pieces.some((at) => pieces.some((of) => Math.abs(of - at) <= JOINED))
    )
  );
  if (areJoined) return undefined;
  if (parts.size === 1) return [...parts][0];
  // `how many VA of general lighting for a 5000 sq ft office`
  const told = t.all("load");
  const isLighting = told.length > 0 &&
    told.every(({ id, slots }) => id === "lighting" && Object.keys(slots).length === 0);
  return isLighting && parts.size === 0 && hasArea(t) ? "lighting" : undefined;
}

/** `lighting and receptacle`, with the word between them. */
const JOINED = 2;

/** `at 125 %`, `x 1.25`: continuous loads are raised by the rule, whether or not it was told. */
function takeFactor(t: Taker): void {
  for (const { key, value } of t.facts.free) {
    const n = key === "%" || key === "number" ? (value.sense as { n?: number }).n : undefined;
    if (n === RAISED || n === RAISED / 100) t.aside(value, "continuous loads are raised by the rule itself");
  }
}
const RAISED = 125;
