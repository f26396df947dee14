/** Floors and their uses. */
import type { Draft, Fact, Free, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { OCCUPANCIES } from "../../../rules/occupancies.ts";

const isListed = ({ id }: Fact): boolean => (OCCUPANCIES as readonly string[]).includes(id ?? "");

/**
 * Each area with the use it stands beside; one use has all areas that stand alone.
 * @returns how many places alike they are of: what is told of each is of so many
 */
export function takeAreas(t: Taker, draft: Draft): number {
  const buildings = t.all("building").filter((fact) =>
    isListed(fact) || fact.id === "unlisted" || fact.id === "commercial"
  );
  const listed = buildings.filter(isListed);
  for (const building of buildings) t.head(building);
  for (const space of t.all("space")) t.head(space);
  t.said("building:not-dwelling");
  const areas: { area: Said; occupancy: string }[] = [];
  const places = placesAlike(t, buildings);
  const rooms = guestRooms(t, listed);
  const alike = rooms > 1 ? () => rooms : places.alike;
  for (const fact of buildings) {
    const value = t.slot(fact, "area");
    if (!value) continue;
    // A use of no row of its own counts as the one that was told beside it.
    const isOneUse = new Set(listed.map(({ id }) => id)).size === 1;
    const use = isListed(fact) ? fact.id! : isOneUse ? listed[0]!.id! : undefined;
    if (use !== undefined) areas.push({ area: ofAll(t, saidOf(value.sense)!, alike(fact)), occupancy: use });
    else askUse(t, draft, value);
  }
  // A second mention of a use that has its area is the same place.
  const open = listed.filter((fact) => !areas.some(({ occupancy }) => occupancy === fact.id));
  const uses = [...new Set((open.length > 0 ? open : listed).map(({ id }) => id!))];
  const rest = [
    ...t.all("space").flatMap((space) => space.slots.area ? [t.slot(space, "area")!] : []),
    ...["ft2", "m2", "area"].flatMap((key) => t.free(key)),
  ];
  const floors = storeys(t);
  rest.forEach((value, i) => {
    const said = saidOf(value.sense) ?? { value: (value.sense as { n: number }).n, unit: "ft2" };
    const occupancy = uses.length === 1 ? uses[0] : uses.length === rest.length ? uses[i] : undefined;
    if (occupancy === undefined) return askUse(t, draft, value);
    // `4,000 sq ft store … the 4,000 sq ft`
    if (areas.some(({ area }) => area.value === said.value && area.unit === said.unit)) return;
    areas.push({ area: ofAll(t, multiplied(t, said, floors), alike(undefined)), occupancy });
  });
  if (areas.length > 0) draft.areas = areas;
  return Math.max(...buildings.map(places.alike), places.ofAllPlaces);
}

function askUse(t: Taker, draft: Draft, value: Value): void {
  if (draft.part === "receptacles") return t.aside(value, "receptacles go by their number");
  t.ask({
    field: "areas",
    ask:
      `What is the ${value.said} used for? The lighting table goes by the use: store, office, restaurant, school, warehouse …`,
    example: `${value.said} store`,
  });
}

/** `motel, 40 guest rooms at 400 sq ft each`: how many rooms an area is of. */
function guestRooms(t: Taker, listed: readonly Fact[]): number {
  const rooms = t.all("circuit", "part").find(({ said, slots }) => said.toLowerCase().includes("room") && slots.count);
  if (!rooms || !listed.some(({ id }) => id === "hotel") || !t.said("share:each")) return 1;
  t.head(rooms);
  return t.number(rooms, "count") ?? 1;
}
/** From so many on a number in front of a use counts places. */
const LEAST_ALIKE = 2;
/**
 * `4 stores of 1500 sq ft each`, `five tenants, 2000 sq ft each`: how many places an area is of. A number of places without an
 * area of their own is of the areas that have none.
 */
function placesAlike(
  t: Taker,
  buildings: readonly Fact[],
): { alike: (fact: Fact | undefined) => number; ofAllPlaces: number } {
  const isEach = t.has("share:each");
  const counts = new Map(buildings.map((fact) => [fact, isEach ? countBefore(t, fact) : undefined]));
  // `five tenants, retail 10,000 sq ft`: not each, so all of them.
  let ofAllPlaces = 1;
  for (const fact of isEach ? [] : buildings.filter(({ id, slots }) => id === "commercial" && !slots.area)) {
    const count = besideNumber(t, fact);
    if (!count) continue;
    t.aside(count.value, "the floor is told of all of them");
    ofAllPlaces = (count.value.sense as { n?: number }).n ?? 1;
  }
  if ([...counts.values()].some((n) => n !== undefined)) t.said("share:each");
  const [ofOthers] = buildings.filter(({ slots }) => !slots.area).flatMap((fact) => counts.get(fact) ?? []);
  return { alike: (fact) => (fact && counts.get(fact)) ?? ofOthers ?? 1, ofAllPlaces };
}
const besideNumber = (t: Taker, { pieces }: Fact): Free | undefined =>
  t.facts.free.find(({ key, value }) =>
    (key === "number" || key === "count") && Math.max(...value.pieces) + 1 === Math.min(...pieces)
  );
function countBefore(t: Taker, fact: Fact): number | undefined {
  const found = besideNumber(t, fact);
  const n = (found?.value.sense as { n?: number } | undefined)?.n;
  if (n === undefined || !Number.isInteger(n) || n < LEAST_ALIKE) return undefined;
  t.use(found!.value, "places alike");
  return n;
}
function ofAll(t: Taker, said: Said, places: number): Said {
  if (places === 1) return said;
  t.note(`took ${places} places of ${said.value} ${said.unit === "ft2" ? "sq ft" : said.unit} each`);
  return { ...said, value: Number(said.value) * places };
}

type Floors = { count: number; isEach: boolean };
function storeys(t: Taker): Floors {
  const floors: Floors = { count: 1, isEach: t.said("building:per-storey") };
  for (const fact of t.all("building", "storey", "storeys-of")) {
    t.head(fact);
    floors.count = t.number(fact, "count") ?? floors.count;
    floors.isEach ||= fact.id === "storeys-of";
  }
  return floors;
}
/** `two floors of 4000 sq ft each`: the floor of all. */
function multiplied(t: Taker, said: Said, { count, isEach }: Floors): Said {
  if (count < 2 || !isEach) return said;
  t.note(`took ${count} floors of ${said.value} ${said.unit === "ft2" ? "sq ft" : said.unit} each`);
  return { ...said, value: Number(said.value) * count };
}
