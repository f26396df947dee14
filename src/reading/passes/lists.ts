/** Bare numbers of a list, in the unit of their neighbours. */
import { isNominal, OF_DWELLINGS } from "../families.ts";
import type { Sense } from "../sense.ts";
import type { SpokenUnit } from "../units.ts";
import type { Draft, Reading } from "./reading.ts";
import { CROSS_COMMA, CROSS_COMMON, IN_A_LIST, LEAST_BARE, LEAST_POWER, MOST_COUNTED, unitOfRating } from "./words.ts";

/** Below it a bare number beside an appliance is no power in watts. */
const LEAST_WATTS = 30;
const UNITS_OF_ALL: Readonly<Record<string, Model["unit"]>> = { kW: "kW", W: "W", VA: "VA", kVA: "kVA", current: "A" };
/** The unit a load of a list is told in, and on which side of its name. */
type Model = { slot: "rating" | "current"; unit: SpokenUnit; isBehind: boolean };
function modelOf({ at, slots }: Draft): Model | undefined {
  for (const slot of ["rating", "current"] as const) {
    const value = slots[slot]?.[0];
    if (value?.sense.is === "quantity" && value.sense.unit !== "hp") {
      return { slot, unit: value.sense.unit, isBehind: value.pieces[0]! > at };
    }
  }
  return undefined;
}

/** `(all kW)`, `all in kW`: the unit of every bare figure of a list. */
function unitOfAll(r: Reading): Model | undefined {
  for (let i = 0; i < r.pieces.length; i++) {
    const goal = r.pieces[i]!.senses.find((s) => s.is === "term" && s.sort === "goal" && s.id in UNITS_OF_ALL);
    if (goal?.is !== "term" || ![r.word(i - 1), r.word(i - 2)].includes("all")) continue;
    r.used.add(i);
    return { slot: goal.id === "current" ? "current" : "rating", unit: UNITS_OF_ALL[goal.id]!, isBehind: true };
  }
  return undefined;
}

/** `range 12000 ⏎ dryer 5000`: powers of a household without any unit are volt-amperes. */
function voltAmperesOf(r: Reading, loads: readonly Draft[]): Model | undefined {
  const isPower = ({ at }: Draft) =>
    r.sort(at, "appliance") && r.endsItem(at + 2) &&
    (r.pieces[at + 1]?.senses.some((s) => s.is === "number" && s.n >= LEAST_BARE) ?? false);
  return loads.filter(isPower).length < 2 ? undefined : { slot: "rating", unit: "VA", isBehind: true };
}

/** Appliances of a household that are spoken of by their kilowatts alone. */
const IN_KILOWATTS = new Set(["range", "dryer", "water-heater", "cooktop", "wall-oven", "space-heater", "furnace"]);
const MOST_KILOWATTS = 40;
/** More than the kitchen and laundry of a household take, and fewer than the amperes of a dryer. */
const MOST_OF_KITCHEN = 15;
/** `range 12, dryer 5.5`: a number that may be kilowatts right behind a name, and ends there or before another name. */
function isKilowattsBehind(r: Reading, loads: readonly Draft[], head: Draft): boolean {
  const figure = Math.max(...head.pieces) + 1;
  return isInKilowatts(r, head) && (r.endsItem(figure + 1) || isInChain(r, loads, head, figure));
}
/** `heat 8 kW, ac 18 A, range 8`: behind another's amperes, where kilowatts were told of any. */
function isInKilowatts(r: Reading, { id, pieces }: Draft): boolean {
  const sense = r.pieces[Math.max(...pieces) + 1]?.senses.find((s) => s.is === "number");
  return IN_KILOWATTS.has(id ?? "") && sense?.is === "number" && sense.n <= MOST_OF_KITCHEN;
}
/** Whether a bare number begins an item and stands right before one appliance: `…, 4.5 water heater`. */
function opensItem(r: Reading, { at, said }: Draft): boolean {
  const sense = r.pieces[at - 1]?.senses.find((s) => s.is === "number");
  const before = r.pieces[at - 2];
  const isFirst = before === undefined || before.is === "comma" || before.is === "border" ||
    ["and", "with", "has", "plus", "have", "got"].includes(r.word(at - 2));
  return sense?.is === "number" && sense.n > 1 && sense.n <= MOST_KILOWATTS && isFirst && !/s$/i.test(said);
}
/** `12 range, 5.5 dryer`, `range 12 dryer 5.5 water heater 4.5`: several of one each, by kilowatts without their unit. */
function kilowattsOf(r: Reading, loads: readonly Draft[]): Model | undefined {
  const open = loads.filter(({ id, slots }) => IN_KILOWATTS.has(id ?? "") && !slots.rating && !slots.current);
  const before = open.filter((load) => opensItem(r, load)).length;
  const behind = open.filter((load) => isKilowattsBehind(r, loads, load)).length;
  return before < 2 && behind < 3 ? undefined : { slot: "rating", unit: "kW", isBehind: behind > before };
}

/** `ac 24 A, dw 1200`: no amperes are so many. */
function inWatts(r: Reading, { pieces }: Draft, { isBehind }: Model): Model | undefined {
  const sense = [Math.max(...pieces) + 1, Math.min(...pieces) - 1]
    .flatMap((at) => r.pieces[at]?.senses.filter((s) => s.is === "number" && s.n >= LEAST_POWER) ?? [])[0];
  return sense && { slot: "rating", unit: "W", isBehind };
}

/** Bare numbers beside heads of which a sibling has a unit: `range 12 kW, dryer 5`. */
/** `range 8 dryer 5 wh 4.5`: name and figure in turn, without a comma; what stands before another one's name is no count of it. */
function isInChain(r: Reading, loads: readonly Draft[], head: Draft, figure: number): boolean {
  if (figure !== Math.max(...head.pieces) + 1) return false;
  const next = loads.find(({ pieces }) => pieces.includes(figure + 1));
  if (!next || /s$/i.test(next.said)) return false;
  const at = Math.max(...next.pieces) + 1;
  return r.pieces[at] !== undefined && r.isFigure(at);
}

/** `downstairs 1400 sq ft, upstairs 900`: the area of a floor that follows another one's. */
export function carryAreas(r: Reading): void {
  const floors = r.facts.filter(({ family, id }) => family === "space" && id === "floor");
  floors.forEach((floor, i) => {
    const before = floors[i - 1]?.slots.area?.[0]?.sense;
    if (floor.slots.area || before?.is !== "quantity") return;
    const at = Math.max(...floor.pieces) + 1;
    const sense = r.pieces[at]?.senses.find((s) => s.is === "number" && s.n >= LEAST_AREA);
    if (sense?.is === "number" && !r.used.has(at)) {
      floor.slots.area = [r.value({ is: "quantity", n: sense.n, unit: before.unit }, at)];
    }
  });
}
const LEAST_AREA = 200;
/** No household's range or dryer is of more kilowatts (common practice, no source). */
const MOST_OF_HOUSE = 20;

export function carryUnits(r: Reading): void {
  const isListed = ({ family, id }: Draft) => family === "load" || (family === "circuit" && OF_DWELLINGS.includes(id!));
  const loads = r.facts.filter((fact) => isListed(fact) && fact.pieces.length > 0);
  horsepower(r, loads);
  const models = loads.map((fact) => modelOf(fact));
  const units = new Set(models.filter((model) => model !== undefined).map(({ slot, unit }) => `${slot} ${unit}`));
  const isUntold = [...units].every((each) => each.startsWith("current"));
  const said = unitOfAll(r) ?? (units.size === 0 ? voltAmperesOf(r, loads) : undefined) ??
    (isUntold ? kilowattsOf(r, loads) : undefined);
  if (units.size === 0 && !said) return;
  const only = said ?? (units.size === 1 ? models.find((model) => model !== undefined) : undefined);
  const carried = new Map<Draft, Model>();
  loads.forEach((fact, i) => {
    if (models[i] || fact.slots.rating || fact.slots.current || fact.slots.fuel || fact.id === undefined) return;
    // The one before in the list tells the unit; after amperes only where the text has no other.
    const before = loads[i - 1];
    const near = before && fact.sentence - before.sentence <= 1 ? models[i - 1] ?? carried.get(before) : undefined;
    // At the head of a list the unit may stand behind: `dryer 5000, dishwasher 1200 W`.
    const next = near ? undefined : models.slice(i).find((each) => each?.slot === "rating");
    const inKilowatts = isInKilowatts(r, fact) ? models.find((each) => each?.unit === "kW") : undefined;
    const model = only ?? (near?.slot === "rating" ? near : next ?? inKilowatts ?? (near && inWatts(r, fact, near)));
    if (model) carried.set(fact, model);
  });
  const open = [...carried.keys()];
  r.cut(open, r.figures((s) => s.is === "number"), (head, figure) => {
    const { n } = r.pieces[figure]!.senses.find((s) => s.is === "number") as { n: number };
    const model = carried.get(head)!;
    const { slot, isBehind } = model;
    // `small appliance 3`: circuits are counted, and no list tells their watts so small.
    if (head.family === "circuit" && n < LEAST_POWER) return undefined;
    // `range 12 kW, dishwasher 1200`
    // `range 9.6, baseboards 6 @ 1500 W`: no appliance draws so few watts.
    const isInThousands = (model.unit === "W" || model.unit === "VA") && n < LEAST_WATTS;
    const unit = isInThousands ? "kW" : model.unit === "kW" && n >= LEAST_POWER ? "W" : model.unit;
    // `range 12, dryer 5.5, hot tub 50`: so many kilowatts are nobody's at home.
    if (model === said && model.unit === "kW" && n > MOST_KILOWATTS && unit === "kW") return undefined;
    // `5 dryers` are five of them, `5 dryer` is one of 5 kW.
    const isOne = !/s$/i.test(head.said);
    // `range 10 dryer 5 AC 18 A`: a household's own by its kilowatts, whatever is told of another in amperes.
    const isPowerOfHouse = slot === "current" && isInKilowatts(r, head) && n <= MOST_OF_HOUSE;
    const sense: Sense = { is: "quantity", n, unit: isPowerOfHouse ? "kW" : unit };
    // Behind its name a number ends the item, or it counts what follows.
    const isLast = r.endsItem(figure + 1);
    // `1 laundry circuit` counts it, whatever stands behind.
    if (head.family === "circuit" && figure < head.at && n <= MOST_COUNTED) return undefined;
    // `dw 1200 disp 3/4 hp`: no count is so large; `microwave, 1500`: nor does it stand by itself behind a comma.
    const isPower = n >= LEAST_POWER && !isNominal({ is: "number", n });
    const isAlone = isLast && r.pieces[figure - 1]?.is === "comma";
    const isHere = isLast || isPower || isInChain(r, loads, head, figure);
    const after = isPower && isAlone ? CROSS_COMMA + CROSS_COMMON : isHere ? 0.9 : -1;
    // `range 8 kW, 4.5 water heater`: nothing is counted in halves.
    const isHalf = !Number.isInteger(n) && figure === head.at - 1 && opensItem(r, head);
    return {
      sense,
      slot: isPowerOfHouse ? "rating" : slot,
      before: (!isBehind || isHalf) && isOne && !isLast && !OUTLETS.has(head.id ?? "") ? 0.1 : -1,
      after,
    };
  });
  for (const fact of open) {
    const { slot, unit } = carried.get(fact)!;
    const [power] = slot === "current" ? fact.slots.rating ?? [] : [];
    if (power && "n" in power.sense) {
      fact.slots.rating = [{ ...power, note: `took "${power.said}" as ${power.sense.n} kW` }];
      continue;
    }
    const value = fact.slots[slot]?.[0];
    if (value) {
      fact.slots[slot] = [{
        ...value,
        note: `took "${value.said}" as ${(value.sense as { n: number }).n} ${
          value.sense.is === "quantity" ? value.sense.unit : unit
        }${units.size > 0 ? ", like the others" : ""}`,
      }];
    }
  }
}

/** `20 duplex, one outside sign`: what is counted, whatever another thing draws. */
const OUTLETS: ReadonlySet<string> = new Set(["receptacles", "sign", "lighting"]);
/** `planer 2 hp, grinder 3/4`: a fraction beside a machine of a list told in horsepower. */
function horsepower(r: Reading, loads: readonly Draft[]): void {
  const isTold = loads.some(({ slots }) =>
    slots.rating?.some(({ sense }) => sense.is === "quantity" && sense.unit === "hp")
  );
  if (!isTold) return;
  const isFraction = (s: Sense) => s.is === "number" && s.n > 0 && s.n < 1;
  const open = loads.filter(({ slots }) => !slots.rating && !slots.current && !slots.fuel);
  r.cut(open, r.figures(isFraction), (_, figure) => {
    const { n } = r.pieces[figure]!.senses.find(isFraction) as { n: number };
    return { sense: { is: "quantity", n, unit: "hp" }, slot: "rating", before: 0.9, after: 0.9 };
  });
  for (const { slots } of open) {
    const value = slots.rating?.[0];
    if (value) slots.rating = [{ ...value, note: `took "${value.said}" as ${value.said} hp, like the others` }];
  }
}

/** `a 15 hp, a 7.5 and two 3 hp motors`: a bare number among powers of one unit is a power like them. */
export function inLists(r: Reading): void {
  const isPower = ({ family, id, slots }: Draft): boolean =>
    family === "load" && (id === undefined || isMotor(id)) && unitOfRating(slots.rating?.[0]) === "hp";
  for (const at of r.figures((s) => s.is === "number")) {
    const before = r.facts.findLast((fact) => isPower(fact) && fact.at < at);
    const after = r.facts.find((fact) => isPower(fact) && fact.at > at);
    const { n } = r.pieces[at]!.senses.find((s) => s.is === "number") as { n: number };
    if (!before || !after || isNominal({ is: "number", n }) || !r.endsItem(at + 1)) continue;
    if (before.sentence !== r.sentences[at] || after.sentence !== before.sentence) continue;
    const from = Math.max(...before.slots.rating![0]!.pieces);
    const to = Math.min(after.at, ...after.slots.rating![0]!.pieces);
    if (from > at || to < at || r.between(from, at) > IN_A_LIST || r.between(at, to) > IN_A_LIST) continue;
    const note = `took "${r.said([at])}" as ${n} hp, like the others`;
    const fact = r.draft("load", undefined, at);
    fact.slots.rating = [{ ...r.value({ is: "quantity", n, unit: "hp" }, at), note }];
    r.facts.push(fact);
  }
  r.facts.sort((a, b) => a.at - b.at);
}

const isMotor = (id: string): boolean => id === "motor" || id === "pump" || id === "fan" || id === "machine";
