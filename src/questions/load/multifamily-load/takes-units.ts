/** The units that a text tells: how many of each type, their areas, circuits and appliances. */
import type { Draft, Fact } from "../../../reading/facts.ts";
import { OF_EACH, saidOf, type Taker } from "../../../reading/take.ts";
import { type Area, spaceOf } from "../../parts/area-takes.ts";
import { takeCircuits, takeListed, takeParts } from "../../parts/dwelling-takes.ts";
import { type Listed, takeLoads, type ToldLoad } from "../../parts/load-takes.ts";
import { CATALOGUE } from "../../../loads/catalogue.ts";
import { HOMES_IN } from "../../../loads/homes.ts";
import { HOMES } from "../../parts/many-dwellings.ts";
import { partOf, unitParts } from "./part.ts";

export function takeUnits(t: Taker): Draft[] {
  const parts = unitParts(t);
  const shared = parts.length > 1 ? takeOf(partOf(t, undefined)) : undefined;
  const isTotal = isAreaOfAll(t);
  const units = parts.map((part): Draft => {
    const own = partOf(t, part);
    const count = numberOf(t, own, part);
    const { areas, loads, ...circuits } = takeOf(own);
    const all = [...(shared?.loads ?? []), ...loads];
    return {
      ...(count !== undefined && { count }),
      ...(areas.length > 0 && { areas }),
      ...shared && without(shared),
      ...circuits,
      ...(all.length > 0 && { loads: all }),
    };
  });
  if (shared) { for (const home of partOf(t, undefined).all("building", ...HOMES)) takeTotal(t, home); }
  if (shared) askForRest(t, units);
  // `common laundry on the house meter, so no laundry circuit inside`: said of all of them, wherever it stands.
  if (t.said("absent:laundry")) { for (const unit of units) unit.laundryCircuits = 0; }
  aside(t, units);
  if (parts.length === 1) ofWhole(t, units[0]!, isTotal);
  return units.flatMap(oneArea).flatMap((unit, i) => apart(t, unit, parts[i]));
}

/** `3 units, 4200 sq ft in all`; `per unit 850 sq ft …, method total?` asks for the total of the load. */
function isAreaOfAll(t: Taker): boolean {
  const areas = [
    ...t.facts.free.filter(({ key }) => AREAS.includes(key)).map(({ value }) => value),
    ...t.facts.facts.flatMap(({ slots }) => slots.area ?? []),
  ].map(({ pieces }) => pieces[0]!);
  const distance = (share: string): number =>
    Math.min(
      ...t.facts.free.filter(({ key }) => key === share)
        .flatMap(({ value }) => areas.map((area) => Math.abs(value.pieces[0]! - area))),
    );
  const [ofTotal, ofEach] = [distance("share:total"), distance("share:each")];
  // `4000 sq ft in all, 8 kW range each`: of the area what stands beside it.
  return t.said("share:total") && ofTotal <= BESIDE && ofTotal < ofEach;
}
const AREAS: readonly string[] = ["ft2", "m2", "area"];
/** `total area of all is 4200 sq ft`: so many pieces off. */
const BESIDE = 4;

/** `640 kVA for all thirty`, `for the pair`: as many as there are. */
function aside(t: Taker, units: readonly Draft[]): void {
  const count = units.reduce((sum, unit) => sum + Number(unit.count ?? 1), 0);
  for (const { key, value } of t.facts.free) {
    if (key === "number" && (value.sense as { n?: number }).n === count) t.aside(value, "as many as there are units");
  }
  t.said("circuit:one-for-all");
}

/**
 * `40 units, 20 have 8 kW ranges`: what fewer units have than there are parts them; as many as there are units is one in each.
 * What a unit may have several of is asked about where nothing says that each has them.
 */
function apart(t: Taker, unit: Draft, part: string | undefined): Draft[] {
  const count = Number(unit.count ?? 1);
  const loads = unit.loads as ToldLoad[] | undefined;
  if (count < 2 || !loads) return [unit];
  const isOfEach = (load: ToldLoad) =>
    t.all("load", load.kind).some(({ within, others }) => within === part && others?.includes(OF_EACH));
  const open = loads.filter((load) => (load.count ?? 1) > 1 && ONE_IN_EACH.includes(load.kind) && !isOfEach(load));
  for (const load of open.filter((each) => each.count === count)) delete load.count;
  const some = open.filter((load) => load.count !== undefined);
  if (some.length === 0) return [unit];
  const [first] = some;
  const number = first!.count!;
  if (number >= count || number <= FEW || some.some((each) => each.count !== number)) {
    const name = CATALOGUE[first!.kind].name;
    t.ask({
      field: "units",
      ask: `Does each of the ${count} units have ${number} ${name}s, or are there ${number} in all?`,
      example: `each unit has ${number} ${name}s; or: ${number} units with a ${name}, ${count - number} units without`,
    });
    return [unit];
  }
  const has = loads.map((load) => some.includes(load) ? one(load) : load);
  const lacks = loads.filter((load) => !some.includes(load));
  const { loads: _, ...others } = unit;
  return [
    { ...others, count: number, loads: has },
    { ...others, count: count - number, ...(lacks.length > 0 && { loads: lacks }) },
  ];
}
const one = ({ count: _, ...load }: ToldLoad): ToldLoad => load;
/** Appliances that a dwelling has one of; so many of them may still be of each unit. */
const ONE_IN_EACH = [
  "range",
  "dryer",
  "water-heater",
  "dishwasher",
  "disposer",
  "air-conditioner",
  "ev-charger",
  "heat-pump",
];
const FEW = 3;
const without = ({ areas: _, loads: __, ...circuits }: { areas: unknown; loads: unknown }): Draft => circuits;

function takeOf(t: Taker): { areas: Area[]; loads: ToldLoad[] } {
  const circuits: Draft = {};
  takeCircuits(t, circuits);
  const list = coolers(takeLoads(t, () => true));
  takeParts(partWithoutUnits(t), list);
  takeListed(t, list);
  return { areas: areasOf(t), loads: list.map(({ load }) => load), ...circuits };
}
/** `air conditioning with a 4200 VA compressor and a 360 VA condenser fan`: its parts stand for it. */
function coolers(list: Listed[]): Listed[] {
  const isPart = ({ fact, load }: Listed) => load.kind === "other" && PARTS_OF_COOLING.includes(fact.id!);
  const isCompressor = (each: Listed) => isPart(each) && each.fact.id === "compressor";
  if (!list.some(isCompressor)) return list;
  return list
    .filter(({ load }) => load.kind !== "air-conditioner" || load.rating !== undefined)
    .map((each) => {
      if (!isPart(each)) return each;
      const { name: _, ...load } = each.load;
      return { ...each, load: { ...load, kind: "air-conditioner" } };
    });
}
const PARTS_OF_COOLING = ["compressor", "fan"];

/** Dwelling units are no parts of the heating. */
const partWithoutUnits = (t: Taker): Taker => ({
  ...t,
  all: (family, ...ids) => family === "building" ? [] : t.all(family, ...ids),
});

function areasOf(t: Taker): Area[] {
  const found: { at: number; area: Area }[] = [];
  for (const space of t.all("space")) {
    if (space.id === "shop" || space.id === "floor" && !space.slots.area) continue;
    t.head(space);
    const value = space.slots.area?.[0];
    const is = spaceOf(t, space);
    const area = value && saidOf(value.sense);
    if (!area) continue;
    t.slot(space, "area");
    found.push({ at: value.pieces[0] ?? 0, area: { area, ...(is !== "living" && { space: is }) } });
  }
  // `triplex, 900 sq ft each`
  for (const value of t.all("building", ...HOMES).flatMap(({ slots }) => slots.area ?? [])) {
    const area = saidOf(value.sense);
    if (!area) continue;
    t.use(value, "area");
    found.push({ at: value.pieces[0] ?? 0, area: { area } });
  }
  for (const key of AREAS) {
    for (const value of t.free(key)) {
      const area = saidOf(value.sense) ?? { value: (value.sense as { n: number }).n, unit: "ft2" };
      found.push({ at: value.pieces[0] ?? 0, area: { area } });
    }
  }
  // `5 apartments: 1,200 each`
  const isEach = t.has("share:each") || t.all("load").some(({ slots }) => slots.share);
  for (const { key, value } of t.facts.free) {
    const n = key === "number" ? (value.sense as { n: number }).n : 0;
    if (found.length > 0 || !isEach || n < LEAST_UNIT || n > LARGEST_UNIT) continue;
    t.use(value, "area");
    t.note(`took ${value.said} as ${n} sq ft`);
    found.push({ at: value.pieces[0] ?? 0, area: { area: { value: n, unit: "ft2" } } });
  }
  return found.toSorted((a, b) => a.at - b.at).map(({ area }) => area);
}

function takeTotal(t: Taker, home: Fact): void {
  t.head(home);
  t.number(home, "count");
}

/** Types that do not come to the number of units there are. */
function askForRest(t: Taker, units: readonly Draft[]): void {
  const homes = partOf(t, undefined).all("building", ...HOMES);
  const total = homes.map((home) => countIn(home) ?? HOMES_IN[home.id!]).find((n) => n !== undefined);
  const told = units.reduce((sum, { count }) => sum + Number(count ?? 1), 0);
  if (total === undefined || total === told) return;
  t.ask({
    field: "units",
    ask: `There are ${total} units in all, and I read ${
      units.map(({ count = 1 }) => count).join(" + ")
    }. How many are there of each type?`,
    example: "8 units of 700 sq ft and 4 units of 1100 sq ft",
  });
}
const countIn = ({ slots }: Fact): number | undefined => (slots.count?.[0]?.sense as { n?: number } | undefined)?.n;

/** How many units a part has, or the building where it is told as one. */
function numberOf(t: Taker, own: Taker, part: string | undefined): number | undefined {
  let count: number | undefined;
  for (const home of own.all("building", ...HOMES)) {
    t.head(home);
    // `a duplex, compared with three units`: that is the rule's own number.
    if (count === 2 && home.slots.count) t.aside(home.slots.count[0]!, "two dwellings may be compared with three");
    count ??= t.number(home, "count") ?? (part === undefined ? HOMES_IN[home.id!] : undefined);
  }
  // `unit A …, unit B …`: each is one.
  if (part !== undefined) count ??= 1;
  return count;
}

/** `duplex, side A 1250 sq ft, side B 1100`: as many areas as units are one of each; all else both have. */
function oneArea(unit: Draft): Draft[] {
  const areas = unit.areas as Area[] | undefined;
  const count = Number(unit.count ?? 1);
  if (!areas || count < 2 || count > FEW || areas.length !== count || areas.some(({ space }) => space)) return [unit];
  const { count: _, ...others } = unit;
  return areas.map((area) => ({ ...others, count: 1, areas: [area] }));
}

/** One area told of a whole building is asked about: it may be all of it or each unit's. */
function ofWhole(t: Taker, unit: Draft, isTotal: boolean): void {
  const areas = unit.areas as Area[] | undefined;
  const count = Number(unit.count ?? 1);
  if (!areas || count < 2) return;
  // `first floor 1100 sq ft, second floor 1100 sq ft` of a two-family house: one on each.
  const floors = t.all("space", "floor").filter(({ slots }) => slots.area).length;
  if (floors === count && areas.length === count && new Set(areas.map(({ area }) => area.value)).size === 1) {
    unit.areas = areas.slice(0, 1);
    return;
  }
  const homes = t.all("building", "unit", "apartment");
  const isOfEach = t.said("share:each", "goal:each-side", "building:per-storey") ||
    homes.some((home) => home.slots.count === undefined) ||
    homes.some((home) => isBeside(t, home)) || takesEach(t);
  if (isTotal && areas.length === 1) {
    const { value, unit: in_ } = areas[0]!.area;
    const each = Number(value) / count;
    t.note(`took ${value} ${in_ === "ft2" ? "sq ft" : "m²"} in all as ${each} each`);
    unit.areas = [{ ...areas[0]!, area: { value: Number(each.toFixed(6)), unit: in_ } }];
    return;
  }
  if (isOfEach && floors !== count || !hasPlaces(t)) return;
  if (areas.length === count && count <= FEW && areas.every(({ space }) => !space)) return;
  const { value, unit: in_ } = areas[0]!.area;
  const size = `${value} ${in_ === "ft2" ? "sq ft" : "m²"}`;
  t.ask({
    field: "areas",
    ask: areas.length > 1
      ? `Of which units are these floor areas: ${areas.map(({ area }) => area.value).join(", ")}?`
      : `Is ${size} the floor area of each unit, or of all ${count} together?`,
    example: `each unit ${size}; or: ${size} in all`,
  });
}
/** `900 sq ft each, 12 kW range`: the word behind the area stands at the load that comes next. */
function takesEach(t: Taker): boolean {
  const shared = t.all("load").filter(({ slots }) =>
    slots.share?.[0]?.sense.is === "term" && slots.share[0].sense.id === "each"
  );
  for (const load of shared) t.slot(load, "share");
  return shared.length > 0;
}
/** `6 apartments of 900 sq ft`, `six 900 sq ft apartments`: nothing but common words stands between the two. */
function isBeside(t: Taker, home: Fact): boolean {
  const places = [...home.pieces, ...home.slots.count?.[0]?.pieces ?? []];
  const near = Math.max(...places);
  return t.facts.free.some(({ key, value }) => {
    const at = value.pieces[0];
    return ["ft2", "m2", "area"].includes(key) && at !== undefined && at > Math.min(...places) && at - near <= REACH &&
      (value.sense as { n: number }).n <= (key === "m2" ? LARGEST_UNIT / 10 : LARGEST_UNIT);
  });
}
const REACH = 3;
/** More square feet than an apartment has are perhaps the building's (common practice, no source). */
const LARGEST_UNIT = 3000;
const LEAST_UNIT = 250;
/** In a conversation, what stood where is gone, and an area that was once answered about is each unit's. */
const hasPlaces = (t: Taker): boolean =>
  t.facts.free.some(({ key, value }) => ["ft2", "m2", "area"].includes(key) && value.pieces.length > 0);
