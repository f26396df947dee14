/** What the load of one dwelling takes of the facts, a house or a mobile home: areas, loads, circuits, method, supply, the service put up for checking. */
import { OCCUPANCIES } from "../../rules/occupancies.ts";
import { CATALOGUE } from "../../loads/catalogue.ts";
import type { Draft, Said, Value } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { isKitchen } from "./kitchens.ts";
import { asksAddedLoad } from "./added-takes.ts";
import { takeAreas } from "./area-takes.ts";
import { ratingOf } from "./device-takes.ts";
import { takeCircuits, takeHeatPump, takeListed, takeParts, takeSystem } from "./dwelling-takes.ts";
import { isHousehold, type Listed, placeOf, takeLoads, type ToldLoad } from "./load-takes.ts";
import { isManyDwellings } from "./many-dwellings.ts";
import { DWELLING_GOALS } from "./supply-takes.ts";

/** A mobile or manufactured home, which has rules of its own. */
export const isMobileHome = (t: Taker): boolean =>
  t.all("building", "mobile-home").length > 0 ||
  t.facts.free.some(({ value: { sense } }) => sense.is === "section" && sense.section.startsWith(MOBILE_HOME_SECTION));
const MOBILE_HOME_SECTION = "550.18";

const SERVICES = ["service", "panel", "main", "subpanel"];
/** The least rating a breaker named for itself may have to be a dwelling's service. */
const LEAST_SERVICE = 60;
const OPTIONAL_SECTIONS = ["220.82", "220.30", "120.82"];

export function takeHome(t: Taker): Draft | undefined {
  if (isManyDwellings(t) || !isDwelling(t) || asksAddedLoad(t)) return undefined;
  const draft: Draft = {};
  const areas = takeAreas(t);
  if (areas.length > 0) draft.areas = areas;
  takeMethod(t, draft);
  takeSystem(t, draft);
  takeCircuits(t, draft);
  const list = takeLoads(t, () => true);
  takeParts(t, list);
  takeDevices(t, draft, list);
  takeListed(t, list);
  takeHeatPump(t, draft);
  takeConductors(t, draft);
  const loads = onLegs(t, list.map(({ load }) => load));
  if (loads.length > 0) draft.loads = loads;
  const isLightingAlone = takeLighting(t);
  const absent = t.terms("absent");
  const nothingElse = t.said("building:all-else-gas", "building:nothing-else") || absent.length > 0;
  t.said("building:dwelling", "building:apartment", "circuit:whole-dwelling");
  // `150 or 200 amp?`: the load decides.
  const offered = t.all("device", "service", "main", "panel", "breaker").filter(({ slots }) =>
    slots.rating?.[0]?.sense.is === "choice"
  );
  for (const device of offered) t.head(device);
  for (const value of [...t.free("choice"), ...offered.flatMap(({ slots }) => slots.rating!)]) {
    t.aside(value, "the load decides which of them it takes");
  }
  // A dwelling in a building of its own, fed from another panel.
  if (t.said("place:separate-structure") && t.wants("circuit:feeder")) draft.panel ??= "after the service disconnect";
  for (const home of t.all("building", "apartment", "mobile-home")) t.head(home);
  t.asks(...DWELLING_GOALS, "goal:add-load", "device:breaker");
  if (loads.length === 0 && !nothingElse && !isLightingAlone) {
    // A service's rating and its conductors, with nothing to add up, are a question on these conductors.
    if (!draft.areas && t.wants("role:wire", "role:ungrounded")) return undefined;
    if (!draft.areas) {
      t.ask({ field: "areas", ask: "What is the floor area, from outside dimensions?", example: "2400 sq ft" });
    }
    t.ask({
      field: "loads",
      ask: "Which electric appliances, heating and cooling does the house have, and what do their nameplates say?",
      example: "12 kW range, 5 kW dryer, AC 24 A, gas heat; or: nothing else electric",
    });
  }
  return draft;
}

/** A floor area, or a house, or a list of several appliances, of which a load, a method or a service is asked. */
function isDwelling(t: Taker): boolean {
  if (isKitchen(t)) return false;
  if (t.all("transformer").some(({ slots }) => slots.rating)) return false;
  const isHome = t.has("building:dwelling") || t.all("building", "apartment", "mobile-home").length > 0;
  // `nail salon, 1200 sq ft, AC 24 A`: what is of another use is no dwelling, but where a household's appliances are listed.
  if (!isHome && t.all("building", ...OCCUPANCIES).length > 0 && !isHousehold(t)) return false;
  if (["ft2", "m2", "area"].some(t.has)) return true;
  // A garage alone is nobody's dwelling.
  const floors = t.all("space").filter(({ slots }) => slots.area);
  if (floors.some(({ id }) => !OUTBUILDINGS.has(id ?? ""))) return true;
  if (floors.length > 0 && isHome) return true;
  if (isHome && t.facts.free.some(({ key, value }) => key === "ft" && isFloor(value))) return true;
  const appliances = new Set(
    t.all("load").filter(({ id, slots }) => id !== undefined && id in CATALOGUE && !slots.phase).map(({ id }) => id),
  );
  // `is 200 A enough for the whole house`
  const isChecked = t.has("circuit:whole-dwelling") && t.wants("goal:check") && !t.wants("circuit:feeder");
  const isAsked = isChecked || t.wants("goal:load", "goal:feeder-load", "device:service") ||
    t.facts.free.some(({ key }) => key === "methodOfLoad:standard" || key === "methodOfLoad:optional");
  const groups = new Set([...appliances].map((id) => CATALOGUE[id as ToldLoad["kind"]].group));
  // So many of a household's appliances are a house, whatever else is told: no circuit holds them.
  if (isHousehold(t)) return true;
  // A service that is told is a feeder's question, unless a dwelling's appliances are listed with it.
  if (groups.size > 1) return isAsked || t.all("device", "service", "main").length > 0;
  // `can I get away with a 100 A service on my house`
  const isService = t.all("device", "service").some(({ slots }) => slots.rating) &&
    !t.wants("role:wire", "role:ungrounded", "role:neutral") && !t.all("conductor").some(({ slots }) => slots.size);
  return isHome && groups.size === 0 &&
    (isAsked || isService ||
      (t.all("device", "service", "panel").length > 0 && t.wants("goal:ampacity", "goal:add-load")));
}
const OUTBUILDINGS: ReadonlySet<string> = new Set(["garage", "attached-garage", "detached-garage", "shop"]);
/** `1800 foot house` is an area: no dwelling is so long. */
const LEAST_FLOOR = 400;
const isFloor = ({ sense }: Value): boolean => sense.is === "quantity" && sense.n >= LEAST_FLOOR;

function takeMethod(t: Taker, draft: Draft): void {
  const said = t.terms("methodOfLoad").filter((id) => id === "standard" || id === "optional");
  const methods = new Set(said);
  for (const { sense } of t.free("section")) {
    if (sense.is === "section" && OPTIONAL_SECTIONS.includes(sense.section)) methods.add("optional");
  }
  if (methods.size === 1) draft.method = [...methods][0];
}

/** The service is put up for checking; a breaker beside a load is that load's. */
function takeDevices(t: Taker, draft: Draft, list: readonly Listed[]): void {
  if (t.all("device", "subpanel").length > 0 || t.said("place:after-disconnect")) {
    draft.panel = "after the service disconnect";
  } else if (t.said("place:at-disconnect")) draft.panel = "at the service disconnect";
  for (const device of t.all("device", ...SERVICES)) {
    t.head(device);
    const rating = ratingOf(t, device);
    if (rating) draft.service ??= rating;
  }
  for (
    const device of [...t.all("device", "breaker", "fuse", "disconnect"), ...t.all("circuit", "circuit", "multiwire")]
  ) {
    const value = device.slots.rating?.[0];
    if (!value || value.sense.is === "pair") continue;
    const n = (value.sense as { n: number }).n;
    const beside = t.all("load").findLast((load) =>
      load.id !== undefined && placeOf(load) < placeOf(device) && load.sentence === device.sentence
    );
    const owner = beside && list.find(({ load, fact }) => fact === beside || load.kind === beside.id);
    const isChecked = device.others?.includes("checked");
    // `what's left on a 200`: of what else than the service could anything be left.
    const isImplied = device.others?.includes("implied") && !isChecked && !t.wants("goal:add-load");
    // `200 A main already in … still ok on the 200?`
    const isSame = !owner && n === Number((draft.service as Said | undefined)?.value);
    if (isSame || isChecked || (n >= LEAST_SERVICE && !owner && !isImplied && draft.service === undefined)) {
      t.head(device);
      const rating = ratingOf(t, device);
      draft.service ??= rating;
      continue;
    }
    if (!owner && draft.service && list.length === 0) {
      t.head(device);
      t.aside(value, "what the breakers are rated is no load");
    }
    if (!owner) continue;
    t.head(device);
    t.slot(device, "poles");
    const { name } = CATALOGUE[owner.load.kind];
    t.aside(value, `the circuit of the ${name}: its load counts`);
    if (owner.load.rating || owner.load.fuel === "gas") continue;
    t.ask({
      field: `loads.${owner.load.kind}`,
      ask: `${n} A is the ${name}'s circuit or breaker, not its load. What does its nameplate say?`,
      example: `${name} ${CATALOGUE[owner.load.kind].group === "ev" ? "40 A" : "4.5 kW"}`,
    });
  }
}
function takeConductors(t: Taker, draft: Draft): void {
  const metals = new Set(t.terms("metal"));
  for (const service of t.all("device", "service")) {
    const metal = t.term(service, "metal");
    if (metal) metals.add(metal);
  }
  for (const fact of t.all("conductor")) {
    const metal = t.term(fact, "metal");
    if (metal) metals.add(metal);
    const count = fact.slots.count?.[0];
    if (count && fact.id === "wire" && !fact.slots.size) t.aside(count, "the wires of the supply");
  }
  if (metals.size === 1) draft.material = [...metals][0];
  const [electrode] = t.terms("electrode");
  if (electrode) draft.electrode = electrode;
}

/** `dishwasher on leg A`; `all 120 V loads on one leg`. */
function onLegs(t: Taker, loads: readonly ToldLoad[]): ToldLoad[] {
  const said = t.all("load", "load").find(({ slots }) => slots.leg);
  if (said) {
    t.head(said);
    t.slot(said, "leg");
    t.slot(said, "volts");
  }
  if (!said && !t.said("leg:one")) return [...loads];
  return loads.map((load) => {
    const volts = Number(load.volts?.value ?? CATALOGUE[load.kind].volts);
    return volts < 140 && !load.leg ? { ...load, leg: "A" } : load;
  });
}

/** `how many lighting circuits`, `general lighting load`: asked of the area alone. */
function takeLighting(t: Taker): boolean {
  const asked = t.all("load", "lighting", "receptacles").filter(({ slots }) => !slots.rating && !slots.current);
  for (const fact of asked) t.head(fact);
  if (asked.length > 0) { for (const circuit of t.all("circuit", "circuit")) t.head(circuit); }
  return asked.length > 0;
}
