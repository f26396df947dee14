/** What the load of a park or a marina takes of the facts. */
import { exact } from "../../../core/quantity.ts";
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isOfPark, PARK_SECTIONS } from "../../parts/park-gate.ts";
import { asideVolts, LOAD_GOALS, takePlainService, takeSystem } from "../../parts/supply-takes.ts";
import { type Park, PARK_SYSTEMS, type Receptacle, type Site } from "./request.ts";

const PARK_OF: Readonly<Record<string, Park>> = {
  "rv-park": "recreational vehicle park",
  "camp-site": "recreational vehicle park",
  "tent-site": "recreational vehicle park",
  "mobile-home-park": "mobile home park",
  "mobile-home-lot": "mobile home park",
  marina: "marina",
  "boat-slip": "marina",
};
const POWER = ["W", "kW", "VA", "kVA"] as const;

export function takes(t: Taker): Draft | undefined {
  const park = parkOf(t);
  if (!park || isOfCircuit(t, park)) return undefined;
  const draft: Draft = { park };
  takePutUp(t, draft);
  for (const fact of t.all("building", ...Object.keys(PARK_OF))) t.head(fact);
  for (const fact of t.all("load", "park-site", "rv-outlet", "receptacles")) t.head(fact);
  takeSystem(t, draft);
  if (draft.system === undefined) asideVolts(t, "such sites are fed with 120/240 V");
  takePhases(t, draft);
  if (!(PARK_SYSTEMS as readonly unknown[]).includes(draft.system)) askSystem(t, draft);
  const sites = park === "mobile home park" ? takeLots(t) : takeSites(t, park);
  if (sites.length > 0) draft.sites = sites;
  takeOthers(t, draft);
  takePlainService(t, draft);
  takeMetered(t, draft);
  t.said("share:each", "share:total", "building:commercial", "building:dwelling");
  // `park layout: 18 sites …`
  t.asks("goal:panel-schedule", ...LOAD_GOALS, "load:load");
  return draft;
}

// ── whether it is asked
const hasLength = (t: Taker): boolean => ["ft", "m", "yd", "length"].some(t.has);
const hasSize = (t: Taker): boolean => t.all("conductor").some(({ slots }) => slots.size);
/** One circuit, one run, a drop: that is asked for itself, wherever it lies. */
const isOfCircuit = (t: Taker, park: Park): boolean =>
  hasSize(t) || t.wants("goal:drop", "label:drop", "goal:longest-run") || t.all("circuit", "circuit").length > 0 ||
  (hasLength(t) && t.all("load", "park-site").length === 0 && park !== "mobile home park");

function parkOf(t: Taker): Park | undefined {
  for (const { value: { sense } } of t.facts.free) {
    if (sense.is !== "section") continue;
    const found = Object.entries(PARK_SECTIONS).find(([section]) => sense.section.startsWith(section));
    if (found) return found[1];
  }
  const heads = t.all("building", ...Object.keys(PARK_OF));
  const named = heads.find(({ id }) => id!.endsWith("park") || id === "marina") ?? heads[0];
  if (named) return PARK_OF[named.id!];
  // `24 rv sites, 50 amp each`: so many are a park's.
  return isOfPark(t) ? "recreational vehicle park" : undefined;
}

/** Phases without a voltage: of such sites there is one supply with each. */
function takePhases(t: Taker, draft: Draft): void {
  const phases = new Set(t.terms("phase"));
  if (draft.system !== undefined || phases.size !== 1) return;
  draft.system = phases.has("three-phase") ? "208Y/120 V three-phase" : "120/240 V single-phase";
  t.note(`took ${[...phases][0]} as ${draft.system}`);
}

/** `is 800 A single phase enough`: amperes without a name, put up for checking. */
function takePutUp(t: Taker, draft: Draft): void {
  if (!t.wants("goal:check")) return;
  for (const fact of t.all("load")) {
    if (fact.id !== undefined || fact.slots.count || fact.slots.name || !isFullOf(fact) || draft.service) continue;
    draft.service = t.figure(fact, "current", "A");
    const phase = t.term(fact, "phase");
    if (phase) draft.system = phase === "three-phase" ? "208Y/120 V three-phase" : "120/240 V single-phase";
    t.head(fact);
  }
}

function takeMetered(t: Taker, draft: Draft): void {
  const told = t.terms("methodOfLoad");
  if (draft.park !== "marina") return;
  for (const meter of t.all("device", "meter")) t.head(meter);
  if (told.includes("not metered")) draft.metered = false;
  else if (told.includes("each metered")) draft.metered = true;
}

function askSystem(t: Taker, draft: Draft): void {
  if (draft.system === undefined) return;
  delete draft.system;
  t.ask({
    field: "system",
    ask:
      "Sites and slips are fed with 120/240 V single-phase, or from a 208Y/120 V system. Which is it, behind the transformer?",
    example: "120/240 V single phase",
  });
}

// ── sites
const isFullOf = (fact: Fact): boolean => fact.slots.current !== undefined;

/** Counts told without a rating: on the words for the sites, or as a number that stands alone. */
function countsOf(t: Taker): Value[] {
  const heads = t.all("building", ...Object.keys(PARK_OF).filter((id) => id !== "tent-site"));
  return [
    ...heads.flatMap(({ slots }) => slots.count ?? []),
    ...t.all("load", "park-site", "rv-outlet", "receptacles").filter((fact) => !isFullOf(fact) && !fact.slots.rating)
      .flatMap(({ slots }) => slots.count ?? []),
    // `12 lots feeder size`
    ...t.all("circuit", "feeder").flatMap(({ slots }) => slots.count ?? []),
    ...t.facts.free.filter(({ key }) => key === "number" || key === "count" || key === "spaces").map(({ value }) =>
      value
    ),
  ].filter(({ sense }) => Number.isInteger((sense as { n?: number }).n));
}

function takeSites(t: Taker, park: Park): Site[] {
  const sites: Site[] = [];
  for (const fact of t.all("load")) {
    const isOwn = fact.id === "park-site" || fact.id === "rv-outlet" || fact.id === "receptacles" ||
      (fact.id === undefined && fact.slots.count);
    if (!isOwn || !isFullOf(fact)) continue;
    t.head(fact);
    const outlets = t.number(fact, "outlets");
    const receptacle = { ...(outlets && { count: outlets }), ...receptacleOf(t, fact) } as Receptacle;
    const isSame = fact.others?.includes("same-site") && sites.length > 0;
    if (isSame) sites.at(-1)!.receptacles!.push(receptacle);
    else {
      const count = t.number(fact, "count");
      sites.push({ ...(count !== undefined && { count }), receptacles: [receptacle] });
    }
  }
  const tents = t.all("building", "tent-site").map((fact) => {
    for (const value of fact.slots.rating ?? []) t.aside(value, "a tent site counts by the site");
    return t.number(fact, "count");
  });
  return [
    ...withCounts(t, sites, tents, park),
    ...tents.map((count): Site => ({ ...(count && { count }), tent: true })),
  ];
}

function receptacleOf(t: Taker, fact: Fact): Partial<Receptacle> {
  const rating = t.figure(fact, "current", "A") as Receptacle["rating"] | undefined;
  const volts = fact.slots.volts?.[0];
  const n = volts?.sense.is === "system" ? volts.sense.high : (volts?.sense as { n?: number } | undefined)?.n;
  if (volts) t.slot(fact, "volts");
  t.slot(fact, "share");
  const phases = t.term(fact, "phase");
  return {
    ...(rating && { rating }),
    ...(n !== undefined && { volts: { value: n, unit: "V" } as Receptacle["volts"] }),
    ...(phases === "three-phase" && { phases: 3 as const }),
  };
}

/** A number without a rating counts the sites that have none, or says how many there are in all. */
function withCounts(t: Taker, sites: Site[], tents: readonly (number | undefined)[], park: Park): Site[] {
  const told = countsOf(t);
  const numbers = [...new Set(told.map(({ sense }) => (sense as { n: number }).n))];
  const listed = sites.reduce((sum, { count = 0 }) => sum + count, 0);
  const all = listed + tents.reduce<number>((sum, count = 0) => sum + count, 0);
  const [n] = numbers;
  const open = sites.filter(({ count }) => count === undefined);
  if (numbers.length === 1 && (n === all || n === listed)) {
    for (const value of told) t.aside(value, "the sites are listed");
    return sites;
  }
  if (numbers.length === 1 && (sites.length === 0 || open.length === 1)) {
    for (const value of told) t.use(value, "count");
    if (sites.length === 0) return [{ count: n! }];
    open[0]!.count = n! - listed > 0 && listed > 0 ? n! - listed : n!;
    if (listed > 0) {
      t.note(`took the other ${open[0]!.count} of ${n} ${park === "marina" ? "slips" : "sites"} for them`);
    }
  }
  return sites;
}

// ── lots
function takeLots(t: Taker): Site[] {
  const lots: Site[] = [];
  for (const fact of t.all("load")) {
    if (fact.id !== undefined && fact.id !== "park-site" && fact.id !== "load") continue;
    // `10 lots, 100 A pedestals`: what a pedestal is rated is no load.
    const isRated = fact.others?.includes("pedestal") ?? false;
    for (const value of isRated ? fact.slots.current ?? [] : []) {
      t.aside(value, "what its pedestal is rated is no load");
    }
    const load = isRated ? undefined : loadOf(t, fact);
    if (!load && !isRated) continue;
    t.head(fact);
    const count = t.number(fact, "count");
    t.slot(fact, "share");
    lots.push({ ...(count !== undefined && { count }), ...(load && { load }) });
  }
  const loose = lots.length === 0 ? t.loose("calculated-load", "told-result") : undefined;
  if (loose) lots.push({ load: loose as Site["load"] });
  return withCounts(t, lots, [], "mobile home park");
}
function loadOf(t: Taker, fact: Fact): Site["load"] {
  return (t.figure(fact, "rating", ...POWER) ?? t.figure(fact, "current", "A")) as Site["load"];
}

// ── what else is on it
const NO_OTHERS: readonly (string | undefined)[] = ["park-site", "rv-outlet", "receptacles"];
function takeOthers(t: Taker, draft: Draft): void {
  const others: Draft[] = [];
  for (const fact of t.all("load")) {
    if (NO_OTHERS.includes(fact.id) || (draft.park === "mobile home park" && (fact.id ?? "load") === "load")) continue;
    if (fact.id === undefined && isFullOf(fact) && (fact.slots.count || draft.service)) continue;
    const figure = t.figure(fact, "rating", ...POWER) ?? t.figure(fact, "current", "A");
    if (!figure) {
      if (fact.id === "load") t.head(fact);
      continue;
    }
    t.head(fact);
    const name = fact.slots.name?.[0];
    if (name) t.slot(fact, "name");
    const words = name?.sense.is === "words" ? name.sense.words : fact.id === undefined ? undefined : fact.said;
    const count = t.number(fact, "count") ?? 1;
    others.push({ ...(words && { name: words.toLowerCase() }), load: times(figure, count) });
  }
  if (others.length > 0) draft.others = others;
}
const times = ({ value, unit }: Said, count: number): Said => {
  const all = exact(value).mul(count);
  return { value: exact(String(all.valueOf())).equals(all) ? all.valueOf() : all.toFraction(), unit };
};
