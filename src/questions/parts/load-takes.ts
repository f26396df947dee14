/** What every kind that adds up a dwelling's appliances takes of the facts: the list of loads. */
import { exact } from "../../core/quantity.ts";
import { CATALOGUE, LOAD_KINDS, type LoadKind } from "../../loads/catalogue.ts";
import type { Fact, Said, Value } from "../../reading/facts.ts";
import { saidOf, type Taker } from "../../reading/take.ts";

type RatingUnit = "W" | "kW" | "VA" | "kVA" | "A" | "hp";
/** A load as it was told; what was not told is absent. */
export type ToldLoad = {
  kind: LoadKind;
  name?: string;
  count?: number;
  rating?: Said<RatingUnit>;
  volts?: Said<"V">;
  fuel?: "gas" | "electric";
  units?: number;
  leg?: "A" | "B";
};
/** A load with the fact it was read from. */
export type Listed = {
  readonly load: ToldLoad;
  readonly fact: Fact;
  /** What its rating was added up from: `14 kW + 18 kW`. */
  readonly parts?: readonly number[];
};

const POWER = ["W", "kW", "VA", "kVA", "hp"] as const;
const HEATING = ["space heating", "furnace", "continuous heating"];
/** Groups whose nameplates are read in amperes; all others in watts where both are told. */
const AMPERES_FIRST = ["cooling", "heat pump", "blower", "ev"];
/** More volt-amperes than the fan or motor of a household gas appliance takes (common practice, no source). */
const MOST_OF_A_FAN = 2400;
/** A circuit carries a charger's draw and a quarter more. */
const CIRCUIT_OF_CHARGER = 1.25;

export const groupOf = (kind: LoadKind): string => CATALOGUE[kind].group;
export const isHeating = ({ kind }: ToldLoad): boolean => HEATING.includes(groupOf(kind));
const kindOf = (id: string | undefined): LoadKind | undefined =>
  (LOAD_KINDS as readonly string[]).includes(id ?? "") ? id as LoadKind : undefined;
/** Where a fact stands in its text. */
export const placeOf = ({ pieces, slots }: Fact): number =>
  Math.min(...pieces, ...Object.values(slots).flatMap((values) => values.flatMap((value) => value.pieces)));
const isPlain = ({ rating, fuel, name }: ToldLoad): boolean => !rating && !fuel && !name;

/**
 * The loads of a text in their order. Facts that are no appliance are left alone, except figures without a name that
 * another load's count or a neighbour explains.
 * @param wanted which kinds the question takes; the rest stays for another
 */
export function takeLoads(t: Taker, wanted: (kind: LoadKind) => boolean): Listed[] {
  const facts = t.all("load");
  const list: Listed[] = [];
  facts.forEach((fact, i) => {
    const next = facts[i + 1];
    if (fact.id === undefined) return void takeNameless(t, fact, list, next, wanted);
    const kind = kindOf(outletFor(fact) ?? fact.id);
    if (kind === undefined ? !wanted("other") || !isNamed(fact) : !wanted(kind)) return;
    put(t, list, takeLoad(t, fact, kind, list.at(-1)?.load));
  });
  return withoutHeading(t, list);
}

/** `3 fixed appliances: dishwasher …, disposer …`: a heading of those that are listed. */
function withoutHeading(t: Taker, list: Listed[]): Listed[] {
  const listed = list.filter(({ load }) => groupOf(load.kind) === "fixed" && load.rating !== undefined)
    .reduce((sum, { load }) => sum + (load.count ?? 1), 0);
  const isHeading = ({ load }: Listed) =>
    load.kind === "fixed-appliance" && load.rating === undefined && load.count === listed;
  for (const { fact } of list.filter(isHeading)) {
    const count = fact.slots.count?.[0];
    if (count) t.aside(count, "the appliances are listed");
  }
  return list.filter((each) => !isHeading(each));
}

/** Things that a dwelling's list does not count as appliances: what lighting and receptacles draw is counted by the area. */
const NO_APPLIANCES = ["load", "connected", "lighting", "receptacles", "rv-outlet"];
const isNamed = ({ id, slots }: Fact): boolean =>
  !NO_APPLIANCES.includes(id!) && (slots.rating ?? slots.current ?? slots["full-load-current"]) !== undefined;
const outletFor = ({ others }: Fact): string | undefined => others?.find((each) => each.startsWith("for:"))?.slice(4);

function takeLoad(t: Taker, fact: Fact, kind: LoadKind | undefined, before: ToldLoad | undefined): Listed {
  t.head(fact);
  const load: ToldLoad = { kind: kind ?? "other", ...(kind === undefined && { name: fact.said.toLowerCase() }) };
  const { group, name, fuel: burnsFuel } = CATALOGUE[load.kind];
  const count = t.number(fact, "count");
  if (count !== undefined && count > 1) load.count = count;
  const fuel = t.term(fact, "fuel");
  if (fuel === "gas" || (fuel === "electric" && burnsFuel)) load.fuel = fuel;
  const parts = takeRating(t, fact, load, AMPERES_FIRST.includes(group));
  const volts = fact.slots.volts?.[0];
  if (volts && volts.sense.is !== "system") {
    t.slot(fact, "volts");
    load.volts = { value: (volts.sense as { n: number }).n, unit: "V" };
  }
  if (fact.slots.phase?.[0]?.sense.is === "term" && t.facts && phaseOf(fact) === "single-phase") t.slot(fact, "phase");
  const leg = t.term(fact, "leg");
  if (leg === "A" || leg === "B") load.leg = leg;
  for (const value of fact.slots.capacity ?? []) t.aside(value, "only the nameplate's amperes count");
  for (const value of fact.slots.gallons ?? []) t.aside(value, "the tank's size is no load");
  for (const value of fact.slots.hours ?? []) t.aside(value, "hours make no difference to a dwelling's load");
  for (const slot of ["maximum-protection", "minimum-protection", "locked-rotor-current"]) {
    for (const value of fact.slots[slot] ?? []) t.aside(value, "no load: the rated current counts");
  }
  const share = t.term(fact, "share");
  if (share === "each" && load.count === undefined && load.rating && fact.slots.share![0]!.pieces.length > 0) {
    askWhose(t, load, before);
  }
  if (share === "total" && load.rating && load.count) shareOut(t, load, name);
  if (load.fuel === "gas" && load.rating) fanOf(t, load);
  // `gas water heater and furnace`: where one burns gas the furnace beside it does.
  if (fact.slots.perhapsFuel && !load.rating && load.kind === "furnace") {
    t.slot(fact, "perhapsFuel");
    load.fuel = "gas";
    t.note("took the furnace as gas, like what stands beside it");
  } else if (fact.slots.perhapsFuel && !load.rating && burnsFuel) {
    t.ask({
      field: `loads.${load.kind}`,
      ask: `Is the ${name} gas as well, or electric?`,
      example: `gas ${name}`,
    });
  }
  return { load, fact, ...(parts && { parts }) };
}
const phaseOf = ({ slots }: Fact): string | undefined => {
  const sense = slots.phase?.[0]?.sense;
  return sense?.is === "term" ? sense.id : undefined;
};

/** The figure a load is calculated from; the others are set aside. Returns what a sum was added up from. */
function takeRating(t: Taker, fact: Fact, load: ToldLoad, amperesFirst: boolean): readonly number[] | undefined {
  const amperes = ["rated-load-current", "full-load-current", "nameplate", "draw", "current"];
  const slots = [
    ...(amperesFirst ? [...amperes, "rating"] : ["rating", ...amperes]),
    "minimum-circuit-ampacity",
  ].filter((slot) => fact.slots[slot]);
  const [chosen, ...rest] = slots;
  if (chosen === undefined) return undefined;
  const value = fact.slots[chosen]![0]!;
  const said = saidOf(value.sense) ??
    (value.sense.is === "number" ? { value: value.sense.exact ?? value.sense.n, unit: "A" } : undefined);
  if (!said) return undefined;
  const parts = value.sense.is === "quantity" ? value.sense.parts : undefined;
  t.slot(fact, chosen);
  load.rating = said as Said<RatingUnit>;
  if (chosen === "minimum-circuit-ampacity") {
    t.note(
      `took the minimum circuit ampacity of the ${CATALOGUE[load.kind].name} as its load: the rated current is smaller`,
    );
  }
  for (const slot of rest) {
    const other = saidOf(fact.slots[slot]![0]!.sense);
    if (other && disagree(said, other, isOfHouse(t))) {
      const name = CATALOGUE[load.kind].name;
      t.ask({
        field: `loads.${load.kind}`,
        ask:
          `${said.value} ${said.unit} and ${other.value} ${other.unit} both stand at the ${name}. Which is its load?`,
        example: `${name} ${said.value} ${said.unit}`,
      });
    }
    t.aside(fact.slots[slot]![0]!, `the ${said.value} ${said.unit} counts`);
  }
  return parts;
}

/** Whether a power and a current can not be those of one load on any supply there is. */
function disagree(a: Said, b: Said, isHouse: boolean): boolean {
  const watts = [a, b].map(({ value, unit }) => Number(value) * (unit === "kW" ? 1000 : 1));
  const [power, amperes] = a.unit === "A" ? [watts[1]!, watts[0]!] : [watts[0]!, watts[1]!];
  const isPair = [a, b].filter(({ unit }) => unit === "A").length === 1 &&
    [a, b].some(({ unit }) => ["kW", "W", "VA"].includes(unit));
  return isPair && (power / amperes < LEAST_VOLTS || power / amperes > (isHouse ? MOST_OF_HOUSE : MOST_VOLTS));
}
/** Whether nothing is said of a supply beyond a dwelling's one phase. */
const isOfHouse = (t: Taker): boolean =>
  !t.has("phase:three-phase") && !t.has("system") &&
  t.all("load").every(({ slots }) => !slots.phase && !(slots.volts ?? []).some(isHigh));
const isHigh = ({ sense }: Value): boolean => "n" in sense && sense.n > MOST_OF_HOUSE;
const LEAST_VOLTS = 80;
const MOST_VOLTS = 1100;
/** `heat pump 28 A, 10 kW`: 357 V is no dwelling's. */
const MOST_OF_HOUSE = 300;

/** `two heat pumps, 10 kW strips in each`: one load of one figure, or as many as there are of what stands before it. */
function askWhose(t: Taker, { kind, rating }: ToldLoad, before: ToldLoad | undefined): void {
  const count = before?.count ?? 1;
  if (count < 2) return;
  const { name } = CATALOGUE[kind];
  const figure = `${rating!.value} ${rating!.unit}`;
  t.ask({
    field: `loads.${kind}`,
    ask: `Is it ${count} times ${figure} of ${name}, or ${figure} once?`,
    example: `${count} × ${figure} ${name}`,
  });
}

/** A rating of all of several: heating is one load in so many units, anything else is divided. */
function shareOut(t: Taker, load: ToldLoad, name: string): void {
  const count = load.count!;
  delete load.count;
  if (isHeating(load)) {
    load.units = count;
    return;
  }
  const each = exact(load.rating!.value).div(count);
  t.note(
    `took ${load.rating!.value} ${load.rating!.unit} for ${count} ${name}s as ${each.toFraction(true)} ${
      load.rating!.unit
    } each`,
  );
  const decimal = each.valueOf();
  load.count = count;
  load.rating = {
    value: exact(String(decimal)).equals(each) ? decimal : each.toFraction(),
    unit: load.rating!.unit,
  };
}

/** A gas appliance with a rating has a fan or a motor: that is the load. */
function fanOf(t: Taker, load: ToldLoad): void {
  const isFurnace = isHeating(load) || groupOf(load.kind) === "blower";
  const name = isFurnace ? "gas furnace" : `gas ${CATALOGUE[load.kind].name}`;
  const { value, unit } = load.rating!;
  const watts = Number(value) * (unit === "kW" || unit === "kVA" ? 1000 : unit === "A" ? 120 : unit === "hp" ? 0 : 1);
  if (watts > MOST_OF_A_FAN) {
    return void t.ask({
      field: `loads.${load.kind}`,
      ask: `${value} ${unit} is more than the fan of a ${name} takes. What is it that takes ${value} ${unit}?`,
      example: `${CATALOGUE[load.kind].name} ${value} ${unit}`,
    });
  }
  t.note(
    `took ${load.rating!.value} ${load.rating!.unit} as what the ${name}'s fan or motor takes${
      load.volts ? "" : ", at 120 V"
    }`,
  );
  load.name = isFurnace ? `${name} blower` : name;
  load.kind = isFurnace ? "air-handler" : "other";
  load.volts ??= { value: 120, unit: "V" };
  delete load.fuel;
}

/** Kinds of heating that a general word before them stands for. */
const PARTICULAR: readonly LoadKind[] = ["furnace", "heat-pump", "thermal-storage-heat", "supplemental-heat"];
/** What a bare `AC` may mean once one of these was told. */
const COOLS: readonly LoadKind[] = ["room-air-conditioner", "heat-pump"];
/** Puts a load on the list: two mentions of one thing are one, unless each has a figure of its own. */
function put(t: Taker, list: Listed[], listed: Listed): void {
  const { load } = listed;
  if (listed.parts && listed.parts.length === load.count) return void list.push(...oneByOne(listed));
  // `a window unit of 10 A … furnace and AC never run together`: a general word behind the particular one.
  const isInTalk = t.all("load").some((other) => other !== listed.fact && other.sentence === listed.fact.sentence);
  const isSpokenOf = load.kind === "air-conditioner" && isPlain(load) && load.count === undefined && isInTalk &&
    list.some(({ load: { kind, rating } }) => rating && COOLS.includes(kind));
  // `the gas boiler stays for heat`
  const isHeatOf = load.kind === "space-heater" && isPlain(load) && load.count === undefined &&
    list.some((one) => one.load.fuel === "gas" && isHeating(one.load) && one.fact.sentence === listed.fact.sentence);
  // `electric furnace strip`
  const end = list.at(-1);
  const isStripOf = load.kind === "supplemental-heat" && isPlain(load) && load.count === undefined &&
    end?.load.kind === "furnace" && end.load.rating !== undefined &&
    Math.min(...listed.fact.pieces) - Math.max(...end.fact.pieces) === 1;
  if (isSpokenOf || isHeatOf || isStripOf) return;
  const before = list.findIndex((one) => one.load.kind === load.kind && one.load.name === load.name);
  const same = list[before]?.load;
  if (same && load.kind !== "other") {
    if (isPlain(load) && load.count === undefined) return;
    if (isPlain(load) && same.count === undefined) {
      same.count = load.count!;
      if (list[before]!.parts?.length === load.count) list.splice(before, 1, ...oneByOne(list[before]!));
      return;
    }
    if (isPlain(same) && same.count === undefined) {
      list[before] = { ...listed, load: { ...same, ...load } };
      return;
    }
    if (same.fuel && !same.rating && !load.rating && same.fuel === load.fuel) return;
    if (
      load.kind === "ev-charger" && load.count === undefined && same.rating?.unit === "A" && load.rating?.unit === "A"
    ) {
      const [draw, circuit] = [same.rating.value, load.rating.value].map(Number).sort((a, b) => a - b) as [
        number,
        number,
      ];
      if (draw === circuit || circuit >= draw * CIRCUIT_OF_CHARGER && circuit < draw * 2) {
        if (draw !== circuit) t.note(`took ${circuit} A as the circuit of the ${draw} A charger`);
        same.rating = { value: draw, unit: "A" };
        return;
      }
    }
  }
  // A general word for heating beside a particular one is that one: `heat 15 kW electric furnace`.
  const last = list.at(-1);
  if (
    last && last.load.kind === "space-heater" && isPlain(last.load) && last.load.count === undefined &&
    PARTICULAR.includes(load.kind) &&
    last.fact.sentence === listed.fact.sentence && placeOf(listed.fact) - placeOf(last.fact) <= 2
  ) {
    list[list.length - 1] = listed;
    return;
  }
  // `heat = 12 kW strips`, `heat: gas furnace`: the figure stands between the general word and the particular one.
  const between = (last?.fact.slots.rating ?? last?.fact.slots.fuel)?.[0]?.pieces[0];
  if (
    last?.load.kind === "space-heater" && isPlain(load) && load.count === undefined && PARTICULAR.includes(load.kind) &&
    between !== undefined && between > Math.min(...last.fact.pieces) && placeOf(listed.fact) === between + 1
  ) {
    t.head(listed.fact);
    last.load.kind = load.kind;
    return;
  }
  // A blower named right after a gas furnace, in one breath with it, is its own.
  const isOfFurnace = last !== undefined && last.load.fuel === "gas" && isHeating(last.load) &&
    last.fact.sentence === listed.fact.sentence && last.fact.sentence >= 0;
  if (groupOf(load.kind) === "blower" && isOfFurnace && load.rating && !load.volts && !load.name) {
    load.volts = { value: 120, unit: "V" };
    t.note("took the blower of the gas furnace as 120 V");
  }
  list.push(listed);
}

/** `14 kW + 18 kW, two ranges` lists them; it adds nothing up. */
const oneByOne = ({ load: { count: _, ...load }, fact, parts }: Listed): Listed[] =>
  parts!.map((value) => ({ fact, load: { ...load, rating: { value, unit: load.rating!.unit } } }));

/** A figure without a name: one more of a counted load, a twin of the next one, or a load that is in no list. */
function takeNameless(
  t: Taker,
  fact: Fact,
  list: Listed[],
  next: Fact | undefined,
  wanted: (kind: LoadKind) => boolean,
): void {
  const figure = saidOf((fact.slots.rating ?? fact.slots.current)?.[0]?.sense ?? { is: "number", n: 0 });
  if (!figure) return;
  const slot = fact.slots.rating ? "rating" : "current";
  // A list's own total is no load.
  if (fact.slots.share?.[0]?.sense.is === "term" && fact.slots.share[0].sense.id === "total") return;
  const use = (load: ToldLoad) => {
    t.head(fact);
    t.slot(fact, slot);
    const count = t.number(fact, "count");
    const volts = t.figure(fact, "volts", "V");
    put(t, list, {
      fact,
      load: {
        ...load,
        ...(count !== undefined && count > 1 && { count }),
        rating: figure as Said<RatingUnit>,
        ...(volts && { volts: volts as Said<"V"> }),
      },
    });
  };
  const name = fact.slots.name?.[0];
  if (name?.sense.is === "words" && wanted("other")) {
    t.slot(fact, "name");
    return use({ kind: "other", name: name.sense.words.toLowerCase() });
  }
  const last = list.at(-1);
  // `five dryers: three are 5 kW, two are 6.5 kW`
  const own = fact.slots.count ? Number((fact.slots.count[0]!.sense as { n: number }).n) : undefined;
  const counted = list.find(({ load, fact: of }) =>
    isPlain(load) && (load.count ?? 1) > 1 && of.sentence === fact.sentence && placeOf(of) < placeOf(fact)
  );
  if (counted && own !== undefined && own <= counted.load.count!) {
    const rest = counted.load.count! - own;
    if (rest > 0) counted.load.count = rest;
    else list.splice(list.indexOf(counted), 1);
    t.head(fact);
    t.slot(fact, slot);
    t.number(fact, "count");
    const load: ToldLoad = {
      kind: counted.load.kind,
      ...(own > 1 && { count: own }),
      rating: figure as Said<RatingUnit>,
    };
    return void list.push({ fact, load });
  }
  // `four dryers are 5 kW, the fifth one is 6.2 kW`, `three … 5 kW, the other two 6.4 kW`: on top of what was counted.
  const ordinal = Number(fact.others?.find((each) => each.startsWith("ordinal:"))?.split(":")[1] ?? 0);
  const isMore = fact.others?.includes("twin") || ordinal > (last?.load.count ?? 1);
  const isRated = last?.load.rating?.unit === figure.unit;
  if (last && isMore && isRated) return use({ kind: last.load.kind });
  // `two ranges, 14 kW and 18 kW`
  if (last && (last.load.count ?? 1) > 1 && isRated) {
    const more = fact.slots.count ? Number((fact.slots.count[0]!.sense as { n: number }).n) : 1;
    // `3x 16 kW ranges, (2) 12 kW`: a count and figure before the name are whole, what follows comes on top.
    const isWhole = Math.max(...Object.values(last.fact.slots).flat().flatMap(({ pieces }) => pieces)) <
      Math.min(...last.fact.pieces);
    if (isWhole) return use({ kind: last.load.kind });
    if (more < last.load.count!) {
      last.load.count = last.load.count! - more;
      if (last.load.count === 1) delete last.load.count;
      return use({ kind: last.load.kind });
    }
  }
  // `a 14 kW and an 18 kW range`
  const kind = kindOf(next?.id);
  const rated = next?.slots[slot]?.[0];
  if (
    fact.others?.includes("joined") && next && kind && wanted(kind) && rated?.sense.is === "quantity" &&
    rated.sense.unit === figure.unit && rated.pieces[0]! < Math.min(...next.pieces)
  ) return use({ kind });
  // `range, 12 kW`
  if (last && isPlain(last.load) && last.fact.sentence === fact.sentence && POWER.includes(figure.unit as never)) {
    t.head(fact);
    t.slot(fact, slot);
    last.load.rating = figure as Said<RatingUnit>;
  }
}

/** From so many groups of appliances on they are a household's. */
const A_HOUSE = 3;
const OF_CIRCUITS = ["role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run", "goal:branch-load"];
/** So many of a household's appliances that no circuit holds them, and nothing asked of circuits. */
export function isHousehold(t: Taker): boolean {
  if (t.wants(...OF_CIRCUITS) || t.has("circuit:one-for-all")) return false;
  if (t.all("building", "unit", "apartment", "multifamily", "two-family").length > 0) return false;
  const groups = new Set(
    t.all("load").flatMap(({ id, slots }) =>
      id !== undefined && id in CATALOGUE && !slots.phase ? [CATALOGUE[id as LoadKind].group] : []
    ),
  );
  return groups.size >= A_HOUSE;
}
