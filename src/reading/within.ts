/**
 * Parts of a building that a text speaks of in turn: `8 units of 700 sq ft, …; 4 units of 1100 sq ft, …; house loads: …`. What
 * stands behind the head of such a part is within it; what is told of each unit, or before any part, is of the building.
 */
import { HOMES_IN } from "../loads/homes.ts";
import { type Fact, type Facts, type Free, HOUSE, OF_EACH } from "./facts.ts";
import type { Piece } from "./sense.ts";
import type { Token } from "./tokens.ts";

/** Heads of dwelling units, and of buildings that are called by their number of them. */
const UNITS: ReadonlySet<string> = new Set(["unit", "apartment"]);
const BUILDINGS: ReadonlySet<string> = new Set(["multifamily", ...Object.keys(HOMES_IN)]);
const OF_HOUSE = "building:common-part";

type Text = { tokens: readonly Token[]; pieces: readonly Piece[] };
/** Where a part begins; none is the building as a whole. */
type Mark = { at: number; part: string | undefined };

const headOf = ({ pieces, slots }: Fact): number =>
  pieces.length > 0
    ? Math.min(...pieces)
    : Math.min(...Object.values(slots).flatMap((values) => values.flatMap((value) => value.pieces)));
const countOf = ({ slots }: Fact): number | undefined => {
  const sense = slots.count?.[0]?.sense;
  return sense?.is === "number" || sense?.is === "count" ? sense.n : undefined;
};
const isArea = ({ key }: Free): boolean => key === "ft2" || key === "m2" || key === "area";

/** Facts with the part that each is within, where a text tells several. */
export function withParts(told: Facts, text: Text): Facts {
  const facts = withFloorsAsUnits(told);
  const isBuilding = facts.facts.some(({ family, id }) =>
    family === "building" && (UNITS.has(id!) || BUILDINGS.has(id!))
  );
  // `add house loads: 3 kW lighting`: in a conversation the building was told before.
  if (!isBuilding && houseMarks(facts, text).length === 0 && namedOfHouse(facts, text).size === 0) return facts;
  const counted = withEach(withCounts(withOwnAreas(facts), text), text);
  const types = typesOf(counted);
  const marks = [...houseMarks(counted, text), ...unitMarks(counted, types)].sort((a, b) => a.at - b.at);
  const inHouse = namedOfHouse(counted, text);
  if (inHouse.size === 0 && marks.every(({ part }) => part === undefined)) return counted;
  const partAt = (at: number): string | undefined => marks.findLast((mark) => mark.at <= at)?.part;
  const placed: Facts = {
    facts: counted.facts.map((fact) => put(fact, inHouse.has(fact) ? HOUSE : partAt(headOf(fact)))),
    free: counted.free.map((each) => {
      const at = each.value.pieces[0];
      return at === undefined ? each : { ...each, value: put(each.value, partAt(at)) };
    }),
  };
  return sharedByAll(facts === told ? placed : withEachOfFloors(placed), types.length);
}
/** `4500 W water heater in each`, behind the last floor: of all of them. */
const withEachOfFloors = (facts: Facts): Facts => ({
  ...facts,
  facts: facts.facts.map((fact) => fact.slots.share && fact.within !== HOUSE ? without(fact) : fact),
});
const put = <T extends object>(what: T, part: string | undefined): T =>
  part === undefined ? what : { ...what, within: part };

/**
 * `12 units: 8 of 700 sq ft and 4 of 1100`: numbers before an area count units, where together they are the units there are. An
 * area without its unit takes that of the others.
 */
function withCounts(facts: Facts, { pieces }: Text): Facts {
  const total = facts.facts.find((fact) =>
    fact.family === "building" && (UNITS.has(fact.id!) || BUILDINGS.has(fact.id!)) && (countOf(fact) ?? 0) > 1
  );
  if (!total) return facts;
  const before = (at: number): number => {
    let i = at - 1;
    while (i >= 0 && pieces[i]!.is === "common") i--;
    return i;
  };
  const numbers = facts.free.filter(({ key, value: { sense } }) =>
    key === "number" && sense.is === "number" && Number.isInteger(sense.n)
  );
  const told = facts.free.find(isArea);
  if (!told) return facts;
  const bare = numbers.filter(({ value: { sense } }) => (sense as { n: number }).n >= LEAST_AREA);
  const pairs = [...facts.free.filter(isArea), ...bare].flatMap((area) => {
    const at = before(area.value.pieces[0] ?? -1);
    const number = numbers.find(({ value }) => value.pieces[0] === at);
    return number ? [{ area, number }] : [];
  });
  const sum = pairs.reduce((all, { number: { value } }) => all + (value.sense as { n: number }).n, 0);
  if (pairs.length < 2 || sum !== countOf(total)) return facts;
  const asArea = ({ key, value, sentence }: Free): Free => {
    if (key !== "number") return { key, value, sentence };
    const n = (value.sense as { n: number }).n;
    return { key: told.key, value: { ...value, sense: { ...told.value.sense, n } as never }, sentence };
  };
  return {
    facts: [
      ...facts.facts,
      ...pairs.map(({ number: { value, sentence } }): Fact => ({
        family: "building",
        id: "unit",
        said: value.said,
        pieces: value.pieces,
        slots: { count: [value] },
        sentence,
      })),
    ],
    free: facts.free.filter((each) => !pairs.some(({ number }) => number === each))
      .map((each) => pairs.some(({ area }) => area === each) ? asArea(each) : each),
  };
}
/** Square feet below which a bare number is no floor area of a dwelling. */
const LEAST_AREA = 200;

/** `duplex, upstairs 900 sq ft …, downstairs 1500 sq ft …`: as many floors with an area of their own as there are homes. */
function withFloorsAsUnits(facts: Facts): Facts {
  const homes = facts.facts.find(({ family, id }) => family === "building" && id! in HOMES_IN);
  const floors = facts.facts.filter(({ family, id, slots }) => family === "space" && id === "floor" && slots.area);
  if (!homes || floors.length !== HOMES_IN[homes.id!] || facts.facts.some(({ id }) => UNITS.has(id ?? ""))) {
    return facts;
  }
  const areas = floors.map(({ slots, sentence }): Free => {
    const value = slots.area![0]!;
    return { key: value.sense.is === "quantity" ? value.sense.unit : "ft2", value, sentence };
  });
  return {
    facts: facts.facts.map((fact): Fact =>
      floors.includes(fact) ? { ...fact, family: "building", id: "unit", slots: {} } : fact
    ),
    free: [...facts.free, ...areas],
  };
}

/** `six apartments over a shop: each apartment 850 sq ft`: an area behind the head of a unit is none of the space before it. */
function withOwnAreas(facts: Facts): Facts {
  const heads = facts.facts.filter(({ family, id }) => family === "building" && UNITS.has(id!)).map(headOf);
  const freed: Free[] = [];
  const spaces = facts.facts.map((fact): Fact => {
    const value = fact.family === "space" ? fact.slots.area?.[0] : undefined;
    const at = value?.pieces[0];
    if (value?.sense.is !== "quantity" || at === undefined) return fact;
    if (!heads.some((head) => head > Math.max(...fact.pieces) && head < at)) return fact;
    freed.push({ key: value.sense.unit, value, sentence: fact.sentence });
    const { area: _, ...slots } = fact.slots;
    return { ...fact, slots };
  });
  return freed.length === 0 ? facts : { facts: spaces, free: [...facts.free, ...freed] };
}

/**
 * Heads that each tell some of the units: those with a number, a number that is the sum of the others being all of them; or,
 * as in `duplex: unit A 1200 sq ft, …; unit B 800 sq ft`, those that have an area of their own.
 */
function typesOf({ facts, free }: Facts): Fact[] {
  const heads = facts.filter(({ family, id }) => family === "building" && UNITS.has(id!))
    .toSorted((a, b) => headOf(a) - headOf(b));
  const counted = heads.filter((fact) => countOf(fact) !== undefined);
  const areas = free.filter(isArea).map(({ value }) => value.pieces[0] ?? -1);
  const own = heads.filter((head, i) => {
    const next = heads[i + 1];
    return areas.some((at) => at > headOf(head) && (next === undefined || at < headOf(next)));
  });
  const ownCounted = counted.filter((fact) => own.includes(fact));
  if (ownCounted.length > 1) return ownCounted;
  const sum = counted.reduce((all, fact) => all + countOf(fact)!, 0);
  const types = counted.filter((fact) => counted.length < 3 || countOf(fact)! * 2 !== sum);
  if (types.length > 1) return types;
  return own.length > 1 && own.every((fact) => countOf(fact) === undefined) ? own : [];
}

/** Loads behind `each unit has` or `6 apartments, each:` are of each unit, whatever their number. */
function withEach(facts: Facts, { pieces }: Text): Facts {
  const homes = facts.facts.filter(({ family, id }) => family === "building" && (UNITS.has(id!) || BUILDINGS.has(id!)));
  const isEach = (at: number) =>
    pieces[at]?.senses.some((sense) => sense.is === "term" && sense.sort === "share" && sense.id === "each") ?? false;
  const starts = homes.flatMap((home) => {
    const at = Math.max(...home.pieces);
    const next = pieces[at + 1]?.is === "comma" ? at + 2 : at + 1;
    return UNITS.has(home.id!) && countOf(home) === undefined || isEach(next) ? [at] : [];
  });
  if (starts.length === 0) return facts;
  return {
    facts: facts.facts.map((fact) =>
      fact.family === "load" && fact.slots.count && headOf(fact) > Math.min(...starts)
        ? { ...fact, others: [...fact.others ?? [], OF_EACH] }
        : fact
    ),
    free: facts.free,
  };
}

function unitMarks({ facts }: Facts, types: readonly Fact[]): Mark[] {
  const placeOf = (fact: Fact) => Math.min(headOf(fact), ...fact.slots.count?.[0]?.pieces ?? []);
  return facts.filter(({ family, id }) => family === "building" && UNITS.has(id!)).flatMap((fact): Mark[] => {
    const type = types.indexOf(fact);
    if (type >= 0) return [{ at: placeOf(fact), part: `units ${type + 1}` }];
    // `each unit has …` is of all of them.
    return [{ at: placeOf(fact), part: undefined }];
  });
}

const BEHIND = new Set(["in", "for", "of"]);
/** Words that put what stands before them into the house: `4 dryers in the laundry room`. */
function isBehind(at: number, { tokens, pieces }: Text): boolean {
  for (let i = at - 1; i >= 0 && i >= at - 2 && pieces[i]!.is === "common"; i--) {
    if (BEHIND.has(tokens[pieces[i]!.from]!.text)) return true;
  }
  return false;
}

/** `4 kW of hall lights on the house panel`: and what is behind its load ends there. */
function isOnPanel(at: number, { pieces: own }: Free["value"], { tokens, pieces }: Text): boolean {
  const said = (i: number) => pieces[i] ? tokens[pieces[i]!.from]!.text : "";
  const next = pieces[Math.max(...own) + 1];
  const ends = next === undefined || next.is === "comma" || next.is === "border";
  return ends && [1, 2].some((back) => ON.has(said(at - back)));
}
const ON = new Set(["on", "off", "from"]);

/** Where the house's own part begins: at its name, or at the house's loads, panel, lighting. */
function houseMarks({ facts, free }: Facts, text: Text): Mark[] {
  const heads = new Set(facts.filter(({ family }) => family === "load" || family === "device").map(headOf));
  return free.flatMap(({ key, value }): Mark[] => {
    const at = value.pieces[0];
    if (at === undefined) return [];
    const isNamed = key === OF_HOUSE && !isBehind(at, text) && !isOnPanel(at, value, text);
    const isHouse = key === "building:dwelling" && heads.has(value.pieces.at(-1)! + 1);
    return isNamed || isHouse ? [{ at, part: HOUSE }] : [];
  });
}

/** Loads that are put into the house by words behind them. */
function namedOfHouse({ facts, free }: Facts, text: Text): ReadonlySet<Fact> {
  const found = new Set<Fact>();
  for (const { key, value } of free) {
    const at = value.pieces[0];
    if (key !== OF_HOUSE || at === undefined || !(isBehind(at, text) || isOnPanel(at, value, text))) continue;
    const before = facts.filter(({ family }) => family === "load").findLast((fact) => headOf(fact) < at);
    // `8 kW range, laundry is on the house panel`: what stands before a comma is another's.
    const isOther = before && !isBehind(at, text) &&
      text.pieces.slice(headOf(before), at).some(({ is }) => is === "comma" || is === "border");
    if (before && !isOther) found.add(before);
  }
  return found;
}

/** Loads that only the last type of unit has, and nothing says that the others have none, are of all units. */
function sharedByAll(facts: Facts, types: number): Facts {
  if (types < 2) return facts;
  const last = `units ${types}`;
  const isOthers = (within: string | undefined) => within !== undefined && within !== last && within !== HOUSE;
  const isOwn = ({ family, id }: Fact) =>
    family === "load" || (family === "circuit" && (id === "laundry" || id === "small-appliance"));
  const isTold = facts.facts.some((fact) => isOwn(fact) && isOthers(fact.within)) ||
    facts.free.some(({ key, value }) => key === "building:nothing-else" && isOthers(value.within));
  if (isTold) return facts;
  return {
    facts: facts.facts.map((fact) => isOwn(fact) && fact.within === last ? without(fact) : fact),
    free: facts.free,
  };
}
function without({ within: _, ...fact }: Fact): Fact {
  return fact;
}
