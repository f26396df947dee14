/** Floor areas of a text: of the dwelling, of its garage, porch and basement; floors of one size are multiplied out. */
import type { Fact, Said, Value } from "../../reading/facts.ts";
import { saidOf, type Taker } from "../../reading/take.ts";
import type { Space } from "../../rules/dwelling/area.ts";

export type Area = { area: Said; space?: Space };
/** Feet that can be no length of a house. */
const LEAST_FLOOR = 400;

export function takeAreas(t: Taker): Area[] {
  const found: { at: number; area: Area }[] = [];
  for (const space of t.all("space")) {
    t.head(space);
    const value = space.slots.area?.[0];
    const is = spaceOf(t, space);
    if (!value) continue;
    found.push({ at: value.pieces[0]!, area: areaOf(saidOf(t.slot(space, "area")!.sense)!, is) });
  }
  const floors = storeys(t);
  for (const value of floorAreas(t)) {
    const said = saidOf(value.sense) ?? { value: (value.sense as { n: number }).n, unit: "ft2" };
    found.push({ at: value.pieces[0]!, area: areaOf(multiplied(t, said, value, floors), "living") });
  }
  if (found.length > 0) setHeightsAside(t);
  found.sort((a, b) => a.at - b.at);
  const areas = found.map(({ area }) => area);
  // The same area told twice is one.
  return areas.filter((one, i) =>
    !areas.slice(0, i).some((other) =>
      other.area.value === one.area.value && other.area.unit === one.area.unit && other.space === one.space
    )
  );
}
const areaOf = (area: Said, space: Space): Area => ({ area, ...(space !== "living" && { space }) });

/** Feet beside a cellar, a crawl space or an attic that has no area of its own are how high it is. */
const LARGEST_HEIGHT = 14;
const HEIGHT_REACH = 5;
function setHeightsAside(t: Taker): void {
  const low = t.all("space", "basement", "attic", "crawl-space").filter(({ slots }) => !slots.area);
  for (const { key, value } of t.facts.free) {
    const isHeight = key === "ft" && value.sense.is === "quantity" && value.sense.n <= LARGEST_HEIGHT &&
      low.some(({ pieces }) => Math.abs(pieces[0]! - value.pieces[0]!) <= HEIGHT_REACH);
    if (isHeight) t.aside(value, "a height is no floor area");
  }
}

/** Areas that no garage, porch or basement took. */
function floorAreas(t: Taker): Value[] {
  const values = [...t.free("ft2"), ...t.free("m2"), ...t.free("area")];
  if (values.length > 0 || !(t.has("building:dwelling") || t.all("building", "apartment").length > 0)) return values;
  const feet = t.facts.free.filter(({ key, value }) =>
    key === "ft" && value.sense.is === "quantity" && value.sense.n >= LEAST_FLOOR
  );
  if (feet.length !== 1) return [];
  const [value] = t.free("ft");
  const n = (value!.sense as { n: number }).n;
  t.note(`took "${n} ft house" as ${n} square feet`);
  return [{ ...value!, sense: { is: "quantity", n, unit: "ft2" } }];
}

type Floors = { count: number; isEach: boolean };
function storeys(t: Taker): Floors {
  const floors: { count: number; isEach: boolean } = { count: 1, isEach: t.said("building:per-storey") };
  for (const fact of t.all("building", "storey", "storeys-of")) {
    t.head(fact);
    floors.count = t.number(fact, "count") ?? floors.count;
    floors.isEach ||= fact.id === "storeys-of";
  }
  if (floors.count > 1) {
    const loose = t.all("load").some(({ slots }) => slots.share && !slots.count);
    floors.isEach ||= t.said("share:each") || loose;
  }
  return floors;
}
/** An area of each floor, or length and width of a house of several floors, times the floors; a total stays. */
function multiplied(t: Taker, said: Said, { sense }: Value, { count, isEach }: Floors): Said {
  const isPlan = sense.is === "quantity" && sense.from?.includes("×");
  if (count < 2 || !(isEach || isPlan)) return said;
  const value = Number((Number(said.value) * count).toFixed(6));
  if (isPlan && !isEach) t.note(`took ${(sense as { from: string }).from} on ${count} floors: ${value} in all`);
  return { value, unit: said.unit };
}

export function spaceOf(t: Taker, space: Fact): Space {
  const finishes = (space.slots.finish ?? []).map(({ sense }) => sense.is === "term" ? sense.id : "");
  if (space.slots.finish) t.slot(space, "finish");
  const has = (id: string) => finishes.includes(id) || t.said(`finish:${id}`);
  switch (space.id) {
    case "attached-garage":
      return "attached garage";
    case "detached-garage":
      return "detached garage";
    case "garage":
    case "shop": {
      if (has("detached")) return "detached garage";
      if (!has("attached") && space.slots.area) t.note(`took the ${space.id} as attached`);
      return "attached garage";
    }
    case "porch":
      return "open porch";
    case "basement":
    case "attic":
    case "crawl-space":
    case "unfinished-space": {
      const isOpen = has("unfinished") || space.id === "crawl-space" || space.id === "unfinished-space";
      if (isOpen) return has("adaptable") ? "unfinished, adaptable" : "unfinished";
      if (!has("finished") && space.slots.area) {
        t.note(`counted the ${space.id} as living area; say "unfinished" if it is`);
      }
      return "living";
    }
    default:
      has("finished");
      return "living";
  }
}
