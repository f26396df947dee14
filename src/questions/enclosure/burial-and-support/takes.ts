/** What a question on laying takes of the facts: what lies there, under what, which circuit it is, what is put up. */
import type { Draft, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { tradeSize } from "../../parts/sizes.ts";
import { LOCATIONS, type Method } from "./request.ts";

const OF_TERMS: Readonly<Record<string, Method>> = {
  "raceway:emt": "EMT",
  "raceway:rmc": "RMC",
  "raceway:steel": "RMC",
  "raceway:imc": "IMC",
  "raceway:pvc": "PVC",
  "raceway:pvc-40": "PVC",
  "raceway:pvc-80": "PVC",
  "raceway:fmc": "FMC",
  "raceway:lfmc": "LFMC",
  "raceway:lfnc": "LFNC",
  "raceway:ent": "ENT",
  "method:UF cable": "UF cable",
  "method:direct-burial conductors": "direct-buried conductors",
  "method:NM cable": "NM cable",
  "method:MC cable": "MC cable",
  "method:SE cable": "SE cable",
  "insulation:USE-2": "direct-buried conductors",
  "insulation:USE": "direct-buried conductors",
};
const LENGTHS = ["in", "ft", "m"];
/** Of a residential circuit that may lie less deep. */
const MOST_VOLTS = 120;
const MOST_AMPERES = 20;
const LOW_VOLTS = 30;

export function takes(t: Taker): Draft | undefined {
  const isOfDepth = t.wants("goal:burial-depth") && isInEarth(t) || isBuried(t) || isUnderAlone(t) ||
    t.wants("goal:working-space") && hasMethod(t) && t.all("device").length === 0;
  const isOfSupports = t.wants("goal:support-spacing");
  if (!isOfDepth && !isOfSupports) return undefined;
  const draft: Draft = { find: isOfSupports ? "supports" : "burial depth" };
  takeMethod(t, draft);
  takeLocation(t, draft);
  if (!isOfSupports) takeCircuit(t, draft);
  takeLengths(t, draft);
  for (
    const fact of [...t.all("conductor"), ...t.all("load"), ...t.all("device"), ...t.all("circuit"), ...t.all("box")]
  ) {
    t.head(fact);
    for (const value of Object.values(fact.slots).flat()) t.aside(value, "it decides neither a depth nor a support");
  }
  t.asks(
    "goal:burial-depth",
    "goal:support-spacing",
    "goal:check",
    "goal:how-many",
    "label:depth",
    "label:spacing",
    "goal:size",
    "goal:feet",
  );
  t.asks("role:wire", "goal:working-space");
  t.said("goal:each-side");
  t.terms("facing");
  t.said("place:wet", "place:separate-structure", "building:dwelling", "label:length");
  t.terms("end");
  t.terms("metal");
  t.terms("place");
  t.terms("room");
  return draft;
}

/** `how deep` before a panel is a question on the room in front of it. */
const isInEarth = (t: Taker): boolean =>
  t.all("device", "panel", "subpanel", "main").length === 0 || t.has("place:wet") || hasMethod(t);
const hasMethod = (t: Taker): boolean =>
  t.facts.free.some(({ key }) => key in OF_TERMS) || t.all("conductor").some(({ slots }) => slots.insulation);
/** What lies above it was told. */
const isUnder = (t: Taker): boolean => LOCATIONS.some((each) => t.has(`above:${each}`));
/** `rigid under a driveway`: a raceway or a cable and what lies above it, and nothing that asks anything else. */
const isUnderAlone = (t: Taker): boolean =>
  isUnder(t) && hasMethod(t) && !t.facts.free.some(({ key }) => key.startsWith("goal:")) &&
  t.facts.facts.every(({ family, slots }) => family === "conductor" && !slots.size);
/** `we buried the UF 18 inches, ok?`: laid already, at a depth that is told. */
const isBuried = (t: Taker): boolean =>
  (t.has("place:wet") || isUnder(t)) && hasMethod(t) &&
  !t.wants("role:wire", "device:breaker", "goal:size", "goal:drop") &&
  t.facts.free.some(({ key, value }) =>
    (key === "in" || key === "depth") && numberOf(value) >= LEAST_DEPTH && !(key === "in" && tradeSize(numberOf(value)))
  );

/** The raceway where one was told, else the cable. */
function takeMethod(t: Taker, draft: Draft): void {
  const found: Method[] = [];
  const terms = [...t.facts.free.map(({ key, value }) => ({ key, value }))];
  for (const { slots } of t.all("conductor")) {
    for (const value of slots.insulation ?? []) {
      if (value.sense.is === "term") terms.push({ key: `${value.sense.sort}:${value.sense.id}`, value });
    }
  }
  for (const { key, value } of terms) {
    const method = OF_TERMS[key];
    if (!method) continue;
    t.use(value, "method");
    if (key.startsWith("raceway:")) found.unshift(method);
    else found.push(method);
  }
  // `AC cable support spacing`: cooling has no supports that are asked here.
  if (draft.find === "supports" && found.length === 0 && t.all("load", "air-conditioner").length > 0) {
    found.push("AC cable");
  }
  if (found[0]) draft.method = found[0];
  t.terms("raceway");
}

function takeLocation(t: Taker, draft: Draft): void {
  const said = t.terms("above").filter((id) => (LOCATIONS as readonly string[]).includes(id));
  const isHouse = t.has("building:dwelling") || t.all("building", "two-family").length > 0;
  const [first] = said;
  if (first === undefined) return;
  // A driveway is a house's unless a street or a lot is spoken of as well.
  draft.location = said.includes("under a street or parking lot") && !isHouse ? "under a street or parking lot" : first;
}

/** 120 V and 20 A at most behind a ground-fault device; or 30 V at most. */
function takeCircuit(t: Taker, draft: Draft): void {
  const values = [
    ...t.facts.free.filter(({ key }) =>
      key === "V" || key === "volts" || key === "supply-volts" || key === "nominal-volts"
    ).map((
      { value },
    ) => value),
    ...[...t.all("load"), ...t.all("circuit")].flatMap(({ slots }) => slots.volts ?? []),
  ];
  const volts = Math.max(0, ...values.map(numberOf));
  const amperes = Math.max(
    0,
    ...[...t.all("device"), ...t.all("circuit"), ...t.all("load")].flatMap(({ slots }) => [
      ...slots.rating ?? [],
      ...slots.current ?? [],
    ]).map(numberOf),
  );
  for (const value of values) t.aside(value, "whether a smaller depth holds goes by it");
  const isProtected = t.all("box", "gfci").length > 0 || t.wants("goal:room-protection") ||
    t.all("device").some(({ others }) => others?.includes("goal:room-protection"));
  t.asks("goal:room-protection");
  // What is held against the limit of a smaller depth is in no request.
  const isLow = values.filter((value) => numberOf(value) <= LOW_VOLTS);
  for (const value of isLow) t.aside(value, "low voltage, by which the depth goes");
  if (volts > 0 && volts <= LOW_VOLTS) draft.circuit = "low voltage";
  else if (isProtected && volts <= MOST_VOLTS && amperes <= MOST_AMPERES) draft.circuit = "residential branch circuit";
}
const numberOf = ({ sense }: Value): number => "n" in sense ? sense.n : 0;

/** A trade size beside its raceway; a depth or a distance that is put up. */
function takeLengths(t: Taker, draft: Draft): void {
  const isSupports = draft.find === "supports";
  for (const { key, value } of t.facts.free) {
    const said = saidOf(value.sense) ?? undefined;
    const n = numberOf(value);
    const isTrade = isSupports && (key === "in" || key === "number") && tradeSize(n) !== undefined &&
      draft.size === undefined;
    if (isTrade) {
      t.use(value, "size");
      draft.size = tradeSize(n);
    } else if (
      key === "depth" || key === "spacing" || (LENGTHS.includes(key) && (isSupports || key !== "ft" || n < MOST_DEPTH))
    ) {
      if (!said || !LENGTHS.includes(said.unit)) continue;
      // `is 18 inches ok`: only where it is put up.
      if (key === "in" && !isSupports && tradeSize(n) !== undefined && n < LEAST_DEPTH) {
        t.aside(value, "the conduit's size makes no difference");
      } else put(t, draft, value, said);
    } else if (LENGTHS.includes(key) || key === "length") t.aside(value, "how far it goes decides no depth");
  }
}
const MOST_DEPTH = 6;
const LEAST_DEPTH = 4;
function put(t: Taker, draft: Draft, value: Value, said: Said): void {
  t.use(value, "told");
  draft.told ??= said;
}
