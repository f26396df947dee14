/** Floors and their uses. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { OCCUPANCIES } from "../../../rules/occupancies.ts";

const isListed = ({ id }: Fact): boolean => (OCCUPANCIES as readonly string[]).includes(id ?? "");

/** Each area with the use it stands beside; one use has all areas that stand alone. */
export function takeAreas(t: Taker, draft: Draft): void {
  const buildings = t.all("building").filter((fact) =>
    isListed(fact) || fact.id === "unlisted" || fact.id === "commercial"
  );
  const listed = buildings.filter(isListed);
  for (const building of buildings) t.head(building);
  for (const space of t.all("space")) t.head(space);
  t.said("building:not-dwelling");
  const areas: { area: Said; occupancy: string }[] = [];
  for (const fact of buildings) {
    const value = t.slot(fact, "area");
    if (!value) continue;
    // A use of no row of its own counts as the one that was told beside it.
    const use = isListed(fact) ? fact.id! : listed.length === 1 ? listed[0]!.id! : undefined;
    if (use !== undefined) areas.push({ area: saidOf(value.sense)!, occupancy: use });
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
    areas.push({ area: multiplied(t, said, floors), occupancy });
  });
  if (areas.length > 0) draft.areas = areas;
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
