/** Several dwellings on one service or feeder: the loads of all units, the house's own, and the two methods for them. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { LoadGroup } from "../../loads/catalogue.ts";
import { type Load, ofGroup, sumOf } from "../loads.ts";
import type { Lighting } from "./area.ts";
import { climateOf, motorAddition, motorsOf, type Standard, standardMethod } from "./standard.ts";

/** Dwelling units of one type: how many, and what each of them has. */
export type Units = {
  name: string;
  count: Known<"1">;
  lighting: Lighting;
  loads: readonly Load[];
};

const all = (loads: readonly Load[]) => loads.map((load) => load.all);

/** The number of units of all types. */
export const numberOf = (w: Worksheet, types: readonly Units[]): Known<"1"> =>
  types.length === 1 ? types[0]!.count : w.work("dwelling units", "1", calc`sum(${types.map(({ count }) => count)})`);

/** What the units of a type have together, each load with the number of them in all. */
const ofAll = (w: Worksheet, { count, loads }: Units): Load[] =>
  loads.map((load) => {
    const number = w.work(`${load.name}, number in all`, "1", calc`${count} × ${load.count}`);
    return {
      ...load,
      count: number,
      all: w.work(`${load.name}, all of them`, "VA", calc`${number} × ${load.each}`),
    };
  });

/**
 * House loads as the building's calculation takes them: the demands of ranges, dryers and fastened appliances are for what is in
 * dwelling units, so those of the house count in full.
 */
const ofHouse = (loads: readonly Load[]): Load[] =>
  loads.map((load) => IN_UNITS.includes(load.group) ? { ...load, group: "other" } : load);
const IN_UNITS: readonly LoadGroup[] = ["cooking", "dryer", "fixed"];

/** The standard method for the whole building, as for one dwelling with everything that all of them have. */
export function standardForAll(
  w: Worksheet,
  types: readonly Units[],
  house: readonly Load[],
  { lockedOut, threePhase }: { lockedOut: boolean; threePhase: boolean },
): Standard {
  w.part("All units together");
  const lighting = types.map(({ name, count, lighting }) =>
    w.work(
      types.length === 1 ? "lighting and circuits of all units" : `lighting and circuits, ${name}`,
      "VA",
      calc`${count} × (sum(${lighting.parts}))`,
    )
  );
  const loads = types.flatMap((type) => ofAll(w, type));
  return standardMethod(w, { parts: lighting }, [...loads, ...ofHouse(house)], lockedOut, undefined, threePhase);
}

/** The house's own loads by the standard rules: everything in full, the larger of its heating and cooling, its largest motor. */
export function houseLoad(w: Worksheet, loads: readonly Load[]): Known<"VA"> | undefined {
  if (loads.length === 0) return undefined;
  w.part("House loads");
  const plain = loads.filter(({ group }) => !CLIMATE.includes(group));
  const climate = climateOf(w, loads, false);
  const parts = [
    sumOf(w, "house loads in full", all(plain)),
    climate?.demand,
    motorAddition(w, motorsOf(w, loads, climate?.omitted ?? [])),
  ].filter((part) => part !== undefined);
  return w.work("house load", "VA", calc`sum(${parts})`);
}
const CLIMATE: readonly LoadGroup[] = [
  "furnace",
  "space heating",
  "continuous heating",
  "heat pump",
  "supplemental heat",
  "cooling",
];

/** What the neutral of the whole building carries by the standard rules, before the reduction of large currents. */
export function neutralForAll(w: Worksheet, { lines, neutralSeasons: [decides] }: Standard): Known<"VA"> {
  w.part("Neutral");
  const { climate: _climate, motor: _motor, ...others } = lines;
  const parts = [...Object.values(others).map(({ neutral }) => neutral), decides?.climate, decides?.motor]
    .filter((part) => part !== undefined);
  return w.work("neutral load", "VA", calc`sum(${parts})`, "neutral");
}

/** Whether a unit has electric heating, cooling or both, without which the optional method does not hold. */
export const hasClimate = ({ loads }: Units): boolean => ofGroup(loads, ...CLIMATE).length > 0;

/** Whether a unit cooks with electricity; without it the optional method counts a range that is not there. */
const hasCooking = ({ loads }: Units): boolean => ofGroup(loads, "cooking").length > 0;

/** Everything that one unit has connected, of its heating and cooling the larger. */
function connectedOf(w: Worksheet, type: Units, evOutside: boolean, lockedOut: boolean): Known<"VA"> {
  const plain = type.loads.filter(({ group }) => !CLIMATE.includes(group) && !(evOutside && group === "ev"));
  const climate = climateOf(w, type.loads, lockedOut);
  const parts = [...type.lighting.parts, ...all(plain), ...(climate ? [climate.demand] : [])];
  if (!hasCooking(type)) {
    const cooking = w.constant<"VA">("multifamily-assumed-cooking");
    w.suppose(
      "optional method, cooking of units without an electric range",
      w.say`${cooking} each`,
      "this method may be used for them only so",
      "10 kW range in each unit",
      "optional-multifamily",
    );
    parts.push(cooking);
  }
  return w.work(`connected in one unit${type.name === "" ? "" : `, ${type.name}`}`, "VA", calc`sum(${parts})`);
}

/**
 * The optional method for three or more units: all that is connected at the percentage for their number, and the house loads
 * beside it. Two units are compared with three that are like the larger of them.
 */
export function optionalForAll(
  w: Worksheet,
  types: readonly Units[],
  house: Known<"VA"> | undefined,
  { lockedOut, isTwo }: { lockedOut: boolean; isTwo: boolean },
): Known<"VA"> {
  w.part("Optional method");
  const clause = isTwo ? "two-dwelling-units" : "optional-multifamily";
  const evOutside = w.edition.rule("ev-optional") === "outside the tiers";
  const evs = types.map(({ loads }) => all(ofGroup(loads, "ev")));
  const each = types.map((type) => connectedOf(w, type, evOutside, lockedOut));
  const { number, connected } = isTwo ? threeLike(w, each) : {
    number: numberOf(w, types),
    connected: each.length === 1
      ? w.work("connected in all units", "VA", calc`${types[0]!.count} × ${each[0]!}`, clause)
      : w.work(
        "connected in all units",
        "VA",
        calc`sum(${types.map(({ count }, i) => w.work("units of a type", "VA", calc`${count} × ${each[i]!}`))})`,
        clause,
      ),
  };
  const share = w.lookUp<"%">("percentage for that many units", "multifamily-optional-demand", "demand", number);
  const demand = w.work("units after the percentage", "VA", calc`${connected} × ${share}`, clause);
  const outside = evOutside
    ? types.flatMap(({ count }, i) =>
      evs[i]!.length > 0 ? [w.work("EV charging of the units", "VA", calc`${count} × (sum(${evs[i]!}))`)] : []
    )
    : [];
  const parts = [demand, ...outside, ...(house ? [house] : [])];
  return w.work("optional method load", "VA", calc`sum(${parts})`, clause);
}

/** Two units as three like the larger of them. */
function threeLike(w: Worksheet, each: readonly Known<"VA">[]): { number: Known<"1">; connected: Known<"VA"> } {
  const number = w.constant<"1">("two-dwellings-compared-with");
  const one = each.length === 1 ? each[0]! : w.work("the larger unit", "VA", calc`max(${each})`);
  return { number, connected: w.work("three units like that", "VA", calc`${number} × ${one}`, "two-dwelling-units") };
}
