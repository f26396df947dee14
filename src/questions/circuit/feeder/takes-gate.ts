/** Whether the facts are a feeder's, or a service's conductors', at all, or belong to another question. */
import { ELECTRODES } from "../../../rules/grounding.ts";
import type { Draft, Fact } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isOfRacewayAlone } from "../../parts/raceway-gate.ts";
import { isPanelOfLoads, isToElectrode, isToldGround, lines } from "../../parts/run-takes.ts";
import { isWanted, isWhereItStarts } from "../../parts/starts.ts";

const PANELS = ["subpanel", "panel", "service", "main"];
export const GROUNDS = ["equipment-ground", "grounding-electrode-conductor", "main-bonding-jumper", "bonding-jumper"];

/** `what service for a house`: a dwelling of which nothing is told that conductors go by. */
export function isHouseAlone(t: Taker): boolean {
  if (!t.has("building:dwelling")) return false;
  const others = t.facts.facts.filter(({ id }) => id !== "service");
  if (others.some(({ slots }) => slots.rating ?? slots.current ?? slots.size)) return false;
  const isTold = t.all("device", "service").some(({ slots }) => slots.rating);
  const isRun = ["ft", "m", "length"].some((key) => t.has(key));
  // `house service 150 A, copper`: a metal is its conductors'.
  const isWired =
    ["metal:", "insulation:", "method:"].some((sort) => t.facts.free.some(({ key }) => key.startsWith(sort))) ||
    t.all("device", "service").some(({ slots }) => slots.metal);
  if (isTold && isWired) return false;
  return (t.wants("device:service") || isTold) && !isRun && !t.wants("role:wire", "role:ungrounded", "role:neutral");
}

/** An area, a transformer, a motor in horsepower, a nameplate's circuit ampacity, appliances to be added up, a ground alone. */
export function isOthers(t: Taker): boolean {
  if (isOfRacewayAlone(t)) return true;
  if ((AREAS.some(t.has) && !isOfSite(t)) || t.all("transformer", "transformer").some(isToldOf)) return true;
  const isMachine = ({ slots }: Fact) =>
    slots["minimum-circuit-ampacity"] ?? slots["rated-load-current"] ?? slots["full-load-current"] ??
      (slots.rating?.[0]?.sense as { unit?: string } | undefined)?.unit === "hp";
  if (t.all("load").some(isMachine)) return true;
  // `ran #4 when #6 was enough, ground size`: a ground that grows is asked.
  const isRaised = t.has("change:raise") &&
    new Set(lines(t).flatMap(({ slots }) => slots.size?.[0]?.said ?? [])).size > 1;
  if (isRaised && t.wants("role:equipment-ground")) return true;
  if (asksSizeOf(t, "equipment-ground")) return true;
  // `the garage has a 100 A subpanel, want a 30 A outlet`: the panel is there, and a circuit is wanted.
  if (isWanted(t) && t.all("device", ...PANELS).some((panel) => isWhereItStarts(t, panel))) return true;
  // `20 A circuit for lights in the garage`: outlets are on a branch circuit, wherever they are.
  const areOutlets = t.all("load").length === 1 && !t.has("place:separate-structure") &&
    t.all("load").every(({ id, slots }) => OUTLETS.has(id ?? "") && Object.keys(slots).length === 0);
  const isPanel = t.all("device", ...PANELS, "main", "service").length > 0 || t.all("circuit", "feeder").length > 0;
  if (areOutlets && !isPanel) return true;
  // `motor feeder`: of motors that are yet to be told.
  if (t.all("load", "motor").length > 0 && t.all("circuit", "feeder").length > 0) return true;
  // The drop of a run that is there, or how far it may go, is no question on what to run.
  const isThere = lines(t).some(({ slots }) => slots.size);
  if (t.wants("goal:longest-run")) return true;
  if (isThere && t.wants("goal:drop", "label:drop") && !t.wants("goal:check")) return true;
  const asksLines = asksSets(t) || t.wants("role:wire", "role:ungrounded", "role:neutral", "device:breaker");
  // `how many kVA is that`: amperes that are only converted.
  if (t.wants("goal:kVA", "goal:VA") && !asksLines && !t.wants("goal:size")) return true;
  const isRated = t.facts.facts.some(({ slots }) => slots.rating ?? slots.current ?? slots.draw);
  const isOfElectrode = ELECTRODES.some((id) => t.has(`electrode:${id}`));
  if ((isOfElectrode || t.wants(...GROUNDS.map((id) => `role:${id}`))) && !isRated) return true;
  if (isOfElectrode && isThere && !asksLines && (!t.wants("goal:check") || isToElectrode(t))) return true;
  const isRun = ["ft", "m", "length", "tap", "place:separate-structure"].some((key) => t.has(key));
  // `400 A feeder, 3/0 in each of two pipes, good? and what ground`: the feeder is put up, its ground asked with it.
  const isPutUp = isToldGround(t) || isThere && t.wants("goal:check") &&
      t.all("circuit", "feeder", "set").length + t.all("device", "subpanel").length > 0;
  return t.wants(...GROUNDS.map((id) => `role:${id}`)) && !asksLines && !isRun && !isPutUp;
}

const OUTLETS: ReadonlySet<string> = new Set(["receptacles", "lighting"]);
export const AREAS = ["ft2", "m2"];
/** `30x40 pole barn 200 ft away, 100 A panel`: the area is that of what stands there, and a run to it is asked. */
const isOfSite = (t: Taker): boolean =>
  t.has("place:separate-structure") && ["ft", "m", "yd", "length"].some(t.has) &&
  t.facts.facts.some(({ family, slots }) =>
    (family === "device" && slots.rating) || (family === "load" && slots.current) ||
    (family === "circuit" && slots.rating)
  );

/** `EGC size, 300 A feeder, aluminum conductors`: the size beside a ground is the ground's. */
const asksSizeOf = (t: Taker, id: string): boolean => {
  const sizes = t.facts.free.filter(({ key }) => key === "goal:size").flatMap(({ value }) => value.pieces);
  const isOthers = t.wants("device:breaker", "role:ungrounded", "role:neutral");
  return !isOthers && sizes.length === 1 && !lines(t).some(({ slots }) => slots.size) &&
    t.all("conductor", id).some(({ pieces, slots }) =>
      !slots.size && pieces.some((at) => Math.abs(at - sizes[0]!) === 1)
    );
};

/** `from the transformer to the shop`: without figures of its own it says where the feeder begins. */
const isToldOf = ({ slots, others }: Fact): boolean =>
  Object.keys(slots).length > 0 || (others?.includes("implied") ?? false);

/** `600 A, two sets, what size and what ground in each`: sets are those of the lines. */
const asksSets = (t: Taker): boolean =>
  t.all("circuit", "set").some(({ slots }) => slots.count) && t.wants("goal:size") &&
  !lines(t).some(({ slots }) => slots.size);

export function isFeeder(t: Taker, draft: Draft): boolean {
  const rated = draft.breaker ?? draft.panel ?? draft.load ?? draft.continuous ?? draft.source;
  if (rated && asksSets(t)) return true;
  const isNameless = t.all("load").every(({ id }) => id === undefined || id === "load");
  if (draft.supply ?? draft.tappedFrom ?? draft.wholeDwelling) return true;
  if (t.all("device", "subpanel").length > 0 || draft.panel) return true;
  if (isPanelOfLoads(t)) return true;
  // `400 A, load 365, parallel copper`: no branch circuit runs in parallel.
  const isParallel = t.all("circuit", "set").some(({ others, slots }) =>
    others?.includes("circuit:parallel") ?? slots.count
  );
  if (rated && isParallel) return true;
  // `3 phase 4 wire 225 A, load 180`
  if (draft.breaker && draft.load && t.has("connection:four-wire") && isNameless) return true;
  // `from a 150 A disconnect to the panel inside`
  const isFarPanel = t.all("device", "panel").some(({ slots: { end, rating } }) =>
    !(rating && end?.some(({ sense }) => sense.is === "term" && sense.id === "from"))
  );
  if (isFarPanel && (draft.source ?? draft.breaker) && t.has("end:from") && t.has("ft")) return true;
  if (t.all("device", "panel").length > 0 && t.all("device", "disconnect").some(({ slots }) => slots.rating)) {
    return true;
  }
  // `panel A, calculated load 180 A`, `load on the feeder is 92`
  if ((t.all("device", "panel").length > 0 || isNameless) && draft.load && t.has("calculated-load")) return true;
  // `garage heater. 7500 W`: a power without a name is that of the one thing named.
  const isPower = t.all("load").some(({ id, slots }) => id === undefined && slots.rating);
  const isNamed = t.all("load").some(({ id, slots }) =>
    id !== undefined && id !== "load" && (isPower || (slots.current ?? slots.draw ?? slots.rating))
  );
  // `feeder load 80 A continuous`: what asks for a load brings it.
  if (
    (t.has("goal:load") || t.has("goal:feeder-load")) && rated !== undefined &&
    t.all("load").every(({ id }) => !id || id === "load")
  ) return true;
  // `need to feed the barn, how big a wire`: what it should carry is asked.
  const isBare = t.all("load").length === 0 && t.wants("role:wire") && t.wants("goal:size");
  return draft.where === "separate structure" && (rated !== undefined || isBare) && !isNamed;
}
