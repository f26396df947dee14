/** What a load added to an existing service takes of the facts: what is there, what is to come, what was recorded. */
import { CATALOGUE } from "../../../loads/catalogue.ts";
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { asksAddedLoad, isAdded } from "../../parts/added-takes.ts";
import { takeAreas } from "../../parts/area-takes.ts";
import { ratingOf } from "../../parts/device-takes.ts";
import { BREAKERS_ARE_NO_LOAD, takeCircuits, takeHeatPump, takeParts, takeSystem } from "../../parts/dwelling-takes.ts";
import { METHODS } from "./request.ts";
import { groupOf, type Listed, placeOf, takeLoads, type ToldLoad } from "../../parts/load-takes.ts";

const SERVICES = ["service", "panel", "main", "subpanel"];
/** Buildings that no dwelling's method reaches. */
const NO_DWELLINGS = ["store", "office", "salon", "school", "restaurant", "church", "warehouse", "rv-park", "marina"];
/** A charger's circuit carries its draw and a quarter more. */
const CIRCUIT_OF_CHARGER = 1.25;
/** The least rating a breaker named for itself may have to be a service. */
const LEAST_SERVICE = 60;

export function takes(t: Taker): Draft | undefined {
  if (!asksAddedLoad(t)) return undefined;
  const draft: Draft = {};
  takeSupply(t, draft);
  takeRecord(t, draft);
  const setting = takeSetting(t);
  takeCircuits(t, draft);
  const list = takeLoads(withoutSettings(t), () => true);
  if (setting) {
    draft.setpoint = setting;
    // A charger that was told by its setting alone is one of that size.
    for (const { load } of list) if (load.kind === "ev-charger") load.rating ??= { ...setting, unit: "A" };
  }
  list.push(...nameless(t, list));
  takeParts(t, list);
  takeDevices(t, draft, list);
  for (const { key, value } of t.facts.free) if (key === "breakers-total") t.aside(value, BREAKERS_ARE_NO_LOAD);
  for (const { slots } of t.all("circuit", "circuit")) {
    for (const value of slots.count ?? []) t.aside(value, "how many circuits a panel has says nothing of its load");
  }
  takeSpaces(t);
  takeHeatPump(t, draft);
  takeAbsent(t, draft);
  takeBuilding(t, draft);
  takeMethod(t, draft);
  const added = addedOf(t, list, draft.demand !== undefined || draft.calculated !== undefined);
  const loads = list.filter((each) => !added.includes(each)).map(({ load }) => load);
  if (added.length > 0) draft.added = added.map((each) => ({ ...each.load, ...ownPhases(t, draft, each) }));
  if (loads.length > 0) draft.loads = loads;
  takeFloors(t, draft);
  t.said("motorWord:largest", "building:dwelling", "building:existing", "circuit:whole-dwelling");
  for (const load of t.all("load", "load", "lighting", "receptacles")) {
    if (Object.keys(load.slots).length === 0) t.head(load);
  }
  t.asks(
    "goal:add-load",
    "goal:load",
    "goal:feeder-load",
    "goal:check",
    "goal:fit",
    "goal:size",
    "goal:current",
  );
  t.asks(
    "goal:ampacity",
    "device:service",
    "device:panel",
    "device:main",
    "device:breaker",
    "device:fuse",
    "label:demand-recorded",
  );
  for (const wire of t.all("conductor", "wire")) if (Object.keys(wire.slots).length === 0) t.head(wire);
  t.said("place:wet");
  return draft;
}

/** Phases of a load itself, where those of the supply were told as well. */
function ownPhases(t: Taker, draft: Draft, { fact }: Listed): { phases?: 1 | 3 } {
  if (draft.supply !== "three-phase") return {};
  const [own] = fact.slots.phase ?? [];
  if (own === undefined) return {};
  if (!isThreePhase(own)) return { phases: 1 };
  return t.has("phase:three-phase") ? { phases: 3 } : {};
}

/** The floor areas, unless a sum of what there is was told without a list: it holds them. */
function takeFloors(t: Taker, draft: Draft): void {
  const areas = takeAreas(t);
  if (areas.length === 0) return;
  if (!draft.calculated || draft.loads) {
    draft.areas = areas;
    return;
  }
  const values = ["ft2", "m2", "area"].flatMap((key) => t.free(key));
  for (const value of [...values, ...t.all("space").flatMap(({ slots }) => slots.area ?? [])]) {
    t.aside(value, "your own sum of what there is holds the floor area");
  }
}

/** Which loads come to what is there: those that were said to, else the only one, else the charger. */
function addedOf(t: Taker, list: readonly Listed[], isRecorded: boolean): Listed[] {
  const kinds = new Set(t.all("load").filter(isAdded).map(({ id }) => id));
  const said = list.filter(({ fact, load }) =>
    isAdded(fact) || (kinds.has(load.kind) && list.filter((each) => each.load.kind === load.kind).length === 1)
  );
  if (said.length > 0) return said;
  // Beside a record of what there is, or its sum, a load can only be one that is to come.
  if (isRecorded) {
    const open = list.filter(({ fact, load }) => !fact.others?.includes("existing") && load.fuel !== "gas");
    const rated = open.filter(({ load }) => load.rating);
    return rated.length > 0 ? rated : open;
  }
  if (!t.wants("goal:add-load", "goal:check", "goal:fit") && !t.has("motorWord:largest")) return [];
  const open = list.filter(({ load }) => !load.rating && load.fuel !== "gas" && t.has("motorWord:largest"));
  if (open.length === 1) return open;
  const isOpen = ({ fact }: Listed) => !fact.others?.includes("existing");
  if (list.length === 1) return list.filter(isOpen);
  const chargers = list.filter((each) => each.load.kind === "ev-charger" && isOpen(each));
  return chargers.length === 1 ? chargers : [];
}

/** `room for another 9.6 kW`, `a new load of 40 A`: what is added without a name. */
function nameless(t: Taker, list: readonly Listed[]): Listed[] {
  return t.all("load").filter((fact) =>
    isAdded(fact) && (fact.id === undefined || fact.id === "load") && !list.some((each) => each.fact === fact)
  ).flatMap((fact): Listed[] => {
    const slot = ["rating", "current", "draw"].find((each) => fact.slots[each]);
    const rating = slot && t.figure(fact, slot, "W", "kW", "VA", "kVA", "A");
    if (!rating) return [];
    t.head(fact);
    t.slot(fact, "phase");
    t.slot(fact, "volts");
    return [{ fact, load: { kind: "other", rating } }];
  });
}

function takeSupply(t: Taker, draft: Draft): void {
  const isThree = t.has("phase:three-phase") || t.all("load").some(({ slots }) => slots.phase?.some(isThreePhase));
  if (!isThree) return takeSystem(t, draft);
  t.said("phase:three-phase");
  for (const load of t.all("load")) if (load.slots.phase?.some(isThreePhase)) t.slot(load, "phase");
  draft.supply = "three-phase";
  const values = [
    ...t.all("load").flatMap((load) => load.slots.volts ? [t.slot(load, "volts")!] : []),
    ...["V", "volts", "system"].flatMap((key) => t.free(key)),
  ];
  for (const { sense } of values) {
    if (sense.is === "system") draft.volts = { value: sense.high, unit: "V" };
    else if (sense.is === "quantity" || sense.is === "number") draft.volts ??= { value: sense.n, unit: "V" };
  }
}
const isThreePhase = ({ sense }: Value): boolean => sense.is === "term" && sense.id === "three-phase";

/** The highest demand on record, or a calculation of the user's own. */
function takeRecord(t: Taker, draft: Draft): void {
  const demand = takeMonths(t) ?? t.loose("demand-recorded") ?? bare(t, "demand-recorded");
  if (demand) draft.demand = demand;
  const isMeasured = ["methodOfLoad:thirty-days", "methodOfLoad:one-year"].some(t.has);
  if (!demand && isMeasured) {
    // `existing load 180 A measured for 30 days, adding 100 A`
    const [nameless] = t.all("load").filter(({ id, slots, others }) =>
      (id === undefined || id === "load") && (slots.current ?? slots.draw ?? slots.rating) && !others?.includes("added")
    );
    const told = nameless &&
      (t.figure(nameless, "draw") ?? t.figure(nameless, "rating") ?? t.figure(nameless, "current"));
    if (told) {
      t.head(nameless!);
      draft.demand = told;
    }
  }
  if (t.said("methodOfLoad:thirty-days")) draft.recorded = "30 days";
  else if (t.said("methodOfLoad:one-year")) draft.recorded = "one year";
  const factor = [
    ...t.free("power-factor"),
    ...t.all("load").flatMap((load) => load.slots["power-factor"] ? [t.slot(load, "power-factor")!] : []),
  ][0]?.sense;
  if (factor && (factor.is === "quantity" || factor.is === "number")) {
    draft.powerFactor = { value: factor.n > 1 ? factor.n / 100 : factor.n, unit: "1" };
  }
  const calculated = t.loose("calculated-load") ?? bare(t, "calculated-load") ?? t.loose("told-result");
  // `existing load 180 A, recorded for 30 days`
  if (calculated && isMeasured && !draft.demand) draft.demand = calculated;
  else if (calculated) draft.calculated = calculated;
  for (const source of t.all("transformer", "solar", "battery", "inverter", "generator")) {
    t.head(source);
    draft.ownSource = true;
  }
}
/** The highest of what was told month by month; a year of it is what may be used. */
function takeMonths(t: Taker): Said | undefined {
  const sense = t.free("record")[0]?.sense;
  if (sense?.is !== "record") return undefined;
  t.note(`took ${sense.n} ${sense.unit} as the recorded demand, the highest of ${sense.months} months`);
  const isEnough = sense.months >= MONTHS_OF_A_YEAR || t.has("methodOfLoad:one-year") ||
    t.has("methodOfLoad:thirty-days");
  if (!isEnough) {
    t.ask({
      field: "recorded",
      ask: `${sense.months} months were told. Is ${sense.n} ${sense.unit} the highest of the last 12?`,
      example: "over one year",
    });
  }
  return { value: sense.n, unit: sense.unit };
}
const MONTHS_OF_A_YEAR = 12;
/** A bare number under a label is in amperes. */
function bare(t: Taker, key: string): Said | undefined {
  const found = t.facts.free.find((each) => each.key === key && each.value.sense.is === "number");
  if (!found) return undefined;
  t.use(found.value, key);
  return { value: (found.value.sense as { n: number }).n, unit: "A" };
}

/** `set to 24 A`: of a charger, beside its own current or in place of it. */
const isSetting = ({ label }: Value): boolean => label === "setpoint";
const mayBeSet = ({ id }: Fact): boolean => id === undefined || id === "ev-charger";
function takeSetting(t: Taker): Said | undefined {
  let setting: Said | undefined;
  for (const load of t.all("load").filter(mayBeSet)) {
    const value = load.slots.draw?.find(isSetting);
    if (!value) continue;
    t.head(load);
    t.use(value, "setpoint");
    setting = saidOf(value.sense) ?? { value: (value.sense as { n: number }).n, unit: "A" };
  }
  return setting;
}

/** The same facts without what a charger is set to, so that its own current is its rating; a mention that says no more is left out. */
function withoutSettings(t: Taker): Taker {
  const chargers = t.all("load", "ev-charger");
  const plain = (fact: Fact): Fact[] => {
    if (!mayBeSet(fact) || !fact.slots.draw?.some(isSetting)) return [fact];
    const { draw: _, ...slots } = fact.slots;
    const isSecond = fact.id === undefined || (Object.keys(slots).length === 0 && chargers.length > 1);
    return isSecond ? [] : [{ ...fact, slots }];
  };
  return {
    ...t,
    all: (family, ...ids) => t.all(family, ...ids).flatMap((fact) => family === "load" ? plain(fact) : [fact]),
  };
}

/** The service as it stands; a breaker beside a load is that load's, and what breakers add up to is no load. */
function takeDevices(t: Taker, draft: Draft, list: readonly Listed[]): void {
  for (const device of t.all("device", ...SERVICES)) {
    t.head(device);
    t.slot(device, "end");
    const rating = ratingOf(t, device);
    if (rating) draft.service ??= rating;
  }
  for (
    const device of [...t.all("device", "breaker", "fuse", "disconnect"), ...t.all("circuit", "circuit", "multiwire")]
  ) {
    const value = (device.slots.rating ?? device.slots.current)?.[0];
    if (!value || value.sense.is === "pair") {
      if (device.family === "circuit") t.head(device);
      continue;
    }
    const n = (value.sense as { n: number }).n;
    const far = ({ fact }: Listed) => Math.abs(placeOf(fact) - placeOf(device));
    const [owner] = list.filter(({ fact }) => fact.sentence === device.sentence).sort((a, b) => far(a) - far(b));
    t.head(device);
    t.slot(device, "poles");
    if (draft.service === undefined && n >= LEAST_SERVICE && !owner) {
      draft.service = ratingOf(t, device);
      continue;
    }
    if (owner) ofCircuit(t, owner.load, value, n);
    else {t.aside(
        value,
        "what the breakers add up to is no load: they protect wires, and never carry all of it at once",
      );}
  }
}

/** A load told by its circuit: a charger draws what that allows it, of anything else the nameplate is asked. */
function ofCircuit(t: Taker, load: ToldLoad, value: Value, n: number): void {
  const { name } = CATALOGUE[load.kind];
  t.aside(value, `the circuit of the ${name}: its load counts`);
  if (load.rating || load.fuel === "gas") return;
  if (groupOf(load.kind) === "ev") {
    load.rating = { value: Number((n / CIRCUIT_OF_CHARGER).toFixed(2)), unit: "A" };
    t.note(`took the charger of a ${n} A circuit as ${load.rating.value} A, the most it may draw there`);
    return;
  }
  t.ask({
    field: `added.${load.kind}.rating`,
    ask: `${n} A is the ${name}'s circuit or breaker, not its load. What does its nameplate say?`,
    example: `${name} 4.5 kW`,
  });
}

/** `all but two slots are full`: free spaces are no capacity. */
function takeSpaces(t: Taker): void {
  for (const value of t.free("spaces")) t.aside(value, "free spaces say nothing of what the service can carry");
  const goals = t.facts.free.filter(({ key }) => key === "goal:add-load").flatMap(({ value }) => value.pieces);
  for (const { key, value } of t.facts.free) {
    if (key === "number" && goals.includes((value.pieces[0] ?? -2) + 1)) {
      t.aside(value, "free spaces say nothing of what the service can carry");
    }
  }
}

function takeAbsent(t: Taker, draft: Draft): void {
  const absent = t.terms("absent").filter((id) => id in CATALOGUE);
  if (absent.length > 0) draft.without = [...new Set(absent)];
  if (t.said("building:all-else-gas", "building:nothing-else")) draft.nothingElse = true;
}

function takeBuilding(t: Taker, draft: Draft): void {
  const other = t.all("building", ...NO_DWELLINGS);
  for (const building of t.all("building")) t.head(building);
  for (const leg of draft.demand ? t.facts.free.filter(({ key }) => key.startsWith("leg:")) : []) {
    t.aside(leg.value, "the leg with the highest reading counts");
  }
  const isOther = other.length > 0 || t.said("building:not-dwelling") || draft.supply === "three-phase";
  if (isOther && !draft.areas) draft.isDwelling = false;
}

const SECTIONS: Readonly<Record<string, string>> = {
  "220.83": "existing dwelling",
  "220.87": "measured demand",
  "120.87": "measured demand",
  "220.82": "optional",
  "120.82": "optional",
};
function takeMethod(t: Taker, draft: Draft): void {
  const said: string[] = t.terms("methodOfLoad").filter((id) => (METHODS as readonly string[]).includes(id));
  for (const { sense } of t.free("section")) {
    if (sense.is === "section" && sense.section in SECTIONS) said.push(SECTIONS[sense.section]!);
  }
  if (new Set(said).size === 1) draft.method = said[0];
}
