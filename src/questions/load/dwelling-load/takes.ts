/** What a dwelling's load takes of the facts: areas, loads, circuits, method, supply, the service put up for checking. */
import { CATALOGUE } from "../../../loads/catalogue.ts";
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { isHeating, type Listed, placeOf, takeLoads, type ToldLoad } from "../../parts/load-takes.ts";
import { takeAreas } from "./takes-area.ts";

const SERVICES = ["service", "panel", "main", "subpanel"];
/** The least rating a breaker named for itself may have to be a dwelling's service. */
const LEAST_SERVICE = 60;
const OPTIONAL_SECTIONS = ["220.82", "220.30", "120.82"];

export function takes(t: Taker): Draft | undefined {
  if (!isDwelling(t)) return undefined;
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
  // A dwelling in a building of its own, fed from another panel.
  if (t.said("place:separate-structure") && t.wants("circuit:feeder")) draft.panel ??= "after the service disconnect";
  for (const home of t.all("building", "apartment", "mobile-home")) t.head(home);
  t.asks(
    "goal:load",
    "goal:feeder-load",
    "goal:size",
    "goal:current",
    "goal:power",
    "goal:check",
    "goal:ampacity",
    "goal:add-load",
    "device:service",
  );
  t.asks("device:panel", "device:main", "device:breaker", "role:wire", "role:ungrounded", "role:neutral");
  t.asks("role:grounding-electrode-conductor", "role:main-bonding-jumper", "circuit:feeder", "label:neutral-load");
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
  if (t.all("transformer").some(({ slots }) => slots.rating)) return false;
  if (["ft2", "m2", "area"].some(t.has) || t.all("space").some(({ slots }) => slots.area)) return true;
  const isHome = t.has("building:dwelling") || t.all("building", "apartment", "mobile-home").length > 0;
  if (isHome && t.facts.free.some(({ key, value }) => key === "ft" && isFloor(value))) return true;
  const appliances = new Set(
    t.all("load").filter(({ id, slots }) => id !== undefined && id in CATALOGUE && !slots.phase).map(({ id }) => id),
  );
  // `is 200 A enough for the whole house`
  const isChecked = t.has("circuit:whole-dwelling") && t.wants("goal:check") && !t.wants("circuit:feeder");
  const isAsked = isChecked || t.wants("goal:load", "goal:feeder-load", "device:service") ||
    t.facts.free.some(({ key }) => key === "methodOfLoad:standard" || key === "methodOfLoad:optional");
  const groups = new Set([...appliances].map((id) => CATALOGUE[id as ToldLoad["kind"]].group));
  // A service that is told is a feeder's question, unless a dwelling's appliances are listed with it.
  if (groups.size > 1) return isAsked || t.all("device", "service", "main").length > 0;
  // `can I get away with a 100 A service on my house`
  const isService = t.all("device", "service").some(({ slots }) => slots.rating) &&
    !t.wants("role:wire", "role:ungrounded", "role:neutral") && !t.all("conductor").some(({ slots }) => slots.size);
  return isHome && groups.size === 0 &&
    (isAsked || isService ||
      (t.all("device", "service", "panel").length > 0 && t.wants("goal:ampacity", "goal:add-load")));
}
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

/** 120/240 or 120/208, told as a pair or by its higher voltage with the phase. */
function takeSystem(t: Taker, draft: Draft): void {
  const pairs = t.facts.free.filter(({ key }) => key === "system").map(({ value }) => value);
  for (const load of t.all("load")) {
    const value = load.slots.volts?.[0];
    if (value?.sense.is === "system") pairs.push(t.slot(load, "volts")!);
  }
  for (const { sense } of pairs) {
    if (sense.is !== "system") continue;
    if (sense.low > 125 || (sense.high !== 208 && sense.high !== 240 && sense.high !== 220 && sense.high !== 230)) {
      continue;
    }
    t.free("system");
    draft.system = sense.high === 208 ? "120/208" : "120/240";
  }
  for (const key of ["V", "volts"]) {
    for (const { key: at, value } of t.facts.free) {
      const n = at === key && (value.sense.is === "quantity" || value.sense.is === "number") ? value.sense.n : 0;
      if (n < 200 || n > 240) continue;
      t.free(key);
      draft.system ??= n === 208 ? "120/208" : "120/240";
    }
  }
  t.said("phase:single-phase");
}

function takeCircuits(t: Taker, draft: Draft): void {
  for (const circuit of t.all("circuit", "small-appliance", "laundry")) {
    t.head(circuit);
    const count = t.number(circuit, "count");
    const amperes = circuit.slots.rating?.[0];
    if (amperes) {
      t.aside(
        amperes,
        amperes.sense.is === "quantity" && amperes.sense.unit !== "A"
          ? "counted by the number of the circuits"
          : "these circuits are counted, whatever their breaker",
      );
      // `3 x 1500 VA` counts them; `3000 VA` alone does not.
      if (amperes.sense.is === "quantity" && amperes.sense.unit !== "A" && count === undefined) continue;
    }
    if (circuit.id === "laundry") draft.laundryCircuits = count ?? 1;
    else if (count !== undefined) draft.smallApplianceCircuits = count;
  }
  if (t.said("absent:laundry")) draft.laundryCircuits = 0;
}

/** Into how many parts heating is divided: told of a unit with its thermostat, of a zone, of a room. */
function takeParts(t: Taker, list: readonly Listed[]): void {
  const heating = list.filter(({ load }) => isHeating(load) && load.fuel !== "gas");
  const parts = [...t.all("circuit", "part"), ...t.all("building", "unit")];
  if (heating.length === 0) return;
  for (const part of parts) {
    t.head(part);
    const count = t.number(part, "count");
    const owner = heating.findLast(({ fact }) => placeOf(fact) <= placeOf(part) + 1) ?? heating[0]!;
    const rating = owner.fact.slots.rating?.[0]?.pieces[0];
    const head = Math.min(...owner.fact.pieces);
    if (count === undefined) continue;
    // `five separately controlled 1.5 kW heaters` are five heaters; `9 kW in five rooms` is one load in five parts.
    const ofEach = rating !== undefined && rating > placeOf(part) && rating < head;
    if (ofEach && owner.load.count === undefined) owner.load.count = count;
    else if (part.family === "circuit" || owner.load.count === undefined || owner.load.count === count) {
      owner.load.units = count;
    }
  }
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
    const isImplied = device.others?.includes("implied") && !isChecked;
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
function ratingOf(t: Taker, device: Fact): Said | undefined {
  const n = device.slots.rating?.[0]?.sense.is === "number" ? t.number(device, "rating") : undefined;
  return n !== undefined ? { value: n, unit: "A" } : t.figure(device, "rating", "A");
}

/** A worked list pasted in: its lighting is counted by the area, its total is compared with the items and set aside. */
function takeListed(t: Taker, list: readonly Listed[]): void {
  for (const fact of t.all("load", "lighting", "receptacles", "load")) {
    const rating = fact.slots.rating?.[0];
    if (rating && fact.id !== "load") {
      t.head(fact);
      t.aside(rating, "lighting and receptacles are counted by the area");
    } else if (fact.id === "load" && fact.slots.count && !rating) {
      t.head(fact);
      t.aside(fact.slots.count[0]!, "the appliances are listed");
    }
  }
  for (const { key, value } of t.facts.free) {
    if (key === "VA/ft2") t.aside(value, "the edition's own load per area counts");
    if (key === "calculated-load" && value.sense.is === "quantity") t.aside(value, ofTotal(t, value, list));
  }
  for (const fact of t.all("load")) {
    const value = fact.id === undefined ? (fact.slots.rating ?? fact.slots.current)?.[0] : undefined;
    const share = fact.slots.share?.[0]?.sense;
    if (value && share?.is === "term" && share.id === "total") {
      t.slot(fact, "share");
      t.aside(value, ofTotal(t, value, list));
    }
  }
}
/** What a told total is compared with: everything of the list that is told in volt-amperes. */
function ofTotal(t: Taker, { sense }: Value, list: readonly Listed[]): string {
  const listed = [...t.all("load", "lighting", "receptacles"), ...t.all("circuit", "small-appliance", "laundry")];
  const others = listed.map(({ slots }) => voltAmperes({ rating: saidOf(slots.rating?.[0]?.sense) }));
  const sum = [...list.map(({ load }) => voltAmperes(load)), ...others].reduce((total, each) => total + each, 0);
  const told = voltAmperes({ rating: saidOf(sense) });
  return told === sum
    ? "the list's own total, which its items add up to; the load is worked out here"
    : `a total of its own: the items told with a power add up to ${sum} VA, and the load is worked out here`;
}
const voltAmperes = ({ rating, count = 1 }: { rating?: Said | undefined; count?: number | undefined }): number => {
  const n = Number(rating?.value ?? 0) * count;
  return rating?.unit === "kW" || rating?.unit === "kVA"
    ? n * 1000
    : rating?.unit === "W" || rating?.unit === "VA"
    ? n
    : 0;
};

function takeHeatPump(t: Taker, draft: Draft): void {
  for (const part of t.all("load", "compressor")) if (!part.slots.rating && !part.slots.current) t.head(part);
  if (t.said("motorWord:not-interlocked")) {
    t.said("motorWord:interlocked", "motorWord:locked-out", "motorWord:at-once");
    draft.compressorLockedOut = false;
  } else if (t.said("motorWord:interlocked", "motorWord:locked-out")) {
    t.said("motorWord:at-once");
    draft.compressorLockedOut = true;
  } else if (t.said("motorWord:at-once")) draft.compressorLockedOut = false;
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
