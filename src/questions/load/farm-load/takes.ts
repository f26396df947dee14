/** What the load of a farm takes of the facts. */
import type { Draft, Fact } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { asideVolts, LOAD_GOALS, takePlainService, takeSystem } from "../../parts/supply-takes.ts";
import type { Building } from "./request.ts";

const SECTIONS = ["220.102", "220.103", "120.102", "120.103"];
const POWERS = ["A", "W", "kW", "VA", "kVA"] as const;

export function takes(t: Taker): Draft | undefined {
  if (!isOfFarm(t) || isOfCircuit(t)) return undefined;
  const draft: Draft = {};
  for (const farm of t.all("building", "farm")) t.head(farm);
  takeSupply(t, draft);
  takePutUp(t, draft);
  const buildings = farmBuildings(t).map((fact) => takeBuilding(t, fact));
  if (buildings.length > 0) draft.buildings = buildings;
  for (const fact of t.all("load", "farm-dwelling")) {
    t.head(fact);
    draft.dwelling = t.figure(fact, "rating", ...POWERS);
  }
  // `four buildings: …`: as many as are listed.
  for (const value of t.facts.free.filter(({ key }) => key === "number" || key === "count").map(({ value }) => value)) {
    if ((value.sense as { n?: number }).n === buildings.length) t.aside(value, "the buildings are listed");
  }
  for (const value of t.free("poles")) t.aside(value, "where the farm is fed");
  // `85 of that runs together`, `fans that run at once 60 A of it`: what runs has its figure at the building.
  for (const set of t.all("circuit", "set")) if (Object.keys(set.slots).length === 0) t.head(set);
  for (const load of t.all("load").filter(({ others }) => !others?.includes("farm-building"))) {
    const own = Object.keys(load.slots);
    if (own.length === 0 || (load.id === "load" && own.join() === "volts")) t.head(load);
  }
  takePlainService(t, draft);
  const methods = t.terms("methodOfLoad");
  if (methods.includes("already calculated")) draft.asCalculated = true;
  else if (methods.includes("as connected")) draft.asCalculated = false;
  t.said(
    "share:each",
    "share:total",
    "building:dwelling",
    "place:separate-structure",
    "motorWord:largest",
    "motorWord:at-once",
    "motorWord:alone",
    "circuit:of-which",
  );
  t.said("space:shop", "building:existing", "motorWord:all-at-once", "phase:single-phase");
  t.asks(...LOAD_GOALS, "load:load");
  return draft;
}

const farmBuildings = (t: Taker): Fact[] => t.all("load").filter(({ others }) => others?.includes("farm-building"));
const isBySection = (t: Taker): boolean =>
  t.facts.free.some(({ value: { sense } }) =>
    sense.is === "section" && SECTIONS.some((section) => sense.section.startsWith(section))
  );
const isOfFarm = (t: Taker): boolean =>
  farmBuildings(t).length > 0 || isBySection(t) ||
  (t.all("building", "farm").length > 0 &&
    t.wants("goal:load", "device:service", "label:calculated-load", "load:load"));
/** One circuit, one run, a floor area: that is asked for itself, on a farm as elsewhere. */
const isOfCircuit = (t: Taker): boolean =>
  t.all("conductor").some(({ slots }) => slots.size) || t.wants("goal:drop", "label:drop", "goal:longest-run") ||
  ["ft2", "m2", "area"].some(t.has) || t.all("circuit", "circuit").length > 0 ||
  (["ft", "m", "yd", "length"].some(t.has) && farmBuildings(t).length < 2) ||
  (t.wants("role:wire", "goal:bond") && farmBuildings(t).length === 0);

function takeBuilding(t: Taker, fact: Fact): Draft {
  t.head(fact);
  const name = fact.slots.name?.[0]?.sense;
  const count = t.number(fact, "count");
  const motor = t.figure(fact, "motor", "hp", "A") as Building["motor"];
  const load = t.figure(fact, "rating", ...POWERS);
  const together = t.figure(fact, "together", ...POWERS);
  return {
    ...(name?.is === "words" && { name: name.words }),
    ...(count !== undefined && { count }),
    ...(load && { load }),
    ...(together && { together }),
    ...(motor && { motor }),
  };
}

/** `is 200 A enough`: amperes without a name, put up for checking. */
function takePutUp(t: Taker, draft: Draft): void {
  if (!t.wants("goal:check")) return;
  for (const fact of t.all("load")) {
    if (fact.id !== undefined || fact.slots.count || fact.slots.name || !fact.slots.current || draft.service) continue;
    draft.service = t.figure(fact, "current", "A");
    t.head(fact);
  }
}

/** Three phases alone leave open between which voltages; 240 V alone is the usual supply. */
function takeSupply(t: Taker, draft: Draft): void {
  const isThree = t.terms("phase").includes("three-phase");
  takeSystem(t, draft);
  if (draft.system !== undefined) return;
  if (isThree) {
    t.ask({
      field: "system",
      ask: "Which three-phase supply: 208Y/120 V, 120/240 V with a high leg, or 480Y/277 V?",
      example: "208Y/120 V three phase",
    });
  } else asideVolts(t, "farms are fed with 120/240 V");
}
