/** The line current, and the heavier leg where dividing by the line-to-line voltage would hide it. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { Load, System } from "../loads.ts";
import { motorAddition, motorsOf, onNeutral, type Season, type Standard } from "./standard.ts";

/** A season with the load of its method: the deciding one's is the calculated load itself. */
export type InSeason = { season: Season | undefined; load: Known<"VA"> };

const LEGS = ["A", "B"] as const;
type Leg = typeof LEGS[number];
/** How the 120 V loads lie on the legs. */
type OnLegs = {
  /** What each leg carries of loads whose leg was told, where any was. */
  told?: Record<Leg, Known<"VA">>;
  /** What loads without a told leg leave on one leg after the lighting circuits have evened out what they can. */
  excess?: Known<"VA">;
};
/** The legs in a season, told loads as they are counted by the standard method or, for the optional one, in full. */
export type Legs = (season: Season | undefined, inFull?: boolean) => OnLegs;
/** The addition for the largest motor that is part of a load, and the motors it was taken from. */
type Addition = { addition: Known<"VA"> | undefined; motors: readonly Load[] };

/**
 * Current of the heavier line conductor, in whichever season that is more. `addition` is the part of the deciding season's
 * load that stands for its largest motor, null in a method that adds none: on a leg it follows the motor that is largest there.
 */
export function lineCurrent(
  w: Worksheet,
  seasons: readonly InSeason[],
  legs: Legs,
  loads: readonly Load[],
  addition: Known<"VA"> | undefined | null,
  system: System,
): Known<"A"> {
  // Heating and cooling between the lines leave the legs as they are: the larger load then decides by itself.
  const [decides] = seasons;
  const counted = seasons.some(({ season }) => season?.loads.some((load) => load.lineToNeutral)) ? seasons : [decides!];
  const motorsIn = ({ season }: InSeason) => motorsOf(w, loads, season?.omitted ?? []);
  const currents = counted.map((each) => {
    const { season } = each;
    const onLegs = legs(season, addition === null);
    w.part("Line current");
    const motors = motorsIn(each);
    // Of what the deciding season leaves out another may run the largest motor.
    const own = addition === null
      ? undefined
      : motors.length === motorsIn(decides!).length
      ? addition
      : motorAddition(w, motors, `in the ${season!.name} season`);
    const load = addition === null || own === addition ? each.load : exchanged(w, each.load, addition, own);
    if (onLegs.told) return heavierLeg(w, "line", load, onLegs, { addition: own, motors }, system);
    const { excess } = onLegs;
    if (!excess) return w.work("line current", "A", calc`${load} ÷ ${system.lineToLine}`);
    w.caution(UNEVEN);
    return w.work("current of the heavier leg", "A", calc`(${load} + ${excess}) ÷ ${system.lineToLine}`);
  });
  return currents.length === 1
    ? currents[0]!
    : w.work("line current, in the season that is more", "A", calc`max(${currents})`);
}

/** A load with another addition for the largest motor. */
function exchanged(
  w: Worksheet,
  load: Known<"VA">,
  one: Known<"VA"> | undefined,
  other: Known<"VA"> | undefined,
): Known<"VA"> {
  const without = one ? w.work("without the other season's motor", "VA", calc`${load} − ${one}`) : load;
  return other ? w.work("with the addition for its largest motor", "VA", calc`${without} + ${other}`) : without;
}

const UNEVEN = "The 120 V loads do not balance: move some to the other leg if you can.";

/**
 * The heavier leg where legs were told: loads between the lines and all that is spread over both legs by half, a told load
 * on its own, and the largest motor that a leg has.
 */
export function heavierLeg(
  w: Worksheet,
  what: "line" | "neutral",
  load: Known<"VA">,
  { told, excess }: OnLegs,
  { addition, motors }: Addition,
  { lineToLine, lineToNeutral }: System,
): Known<"A"> {
  const { A, B } = told!;
  const both = w.work(
    `on both legs, half of it each, ${what}`,
    "VA",
    addition ? calc`${load} − ${A} − ${B} − ${addition}` : calc`${load} − ${A} − ${B}`,
  );
  const shared = excess ? w.work("with what may lie on the heavier leg", "VA", calc`${both} + ${excess}`) : both;
  const [a, b] = LEGS.map((leg) => {
    const own = told![leg];
    const motor = addition && motorOnLeg(w, leg, motors, { lineToLine, lineToNeutral });
    return w.work(
      `${what} current of leg ${leg}`,
      "A",
      motor
        ? calc`${shared} ÷ ${lineToLine} + ${own} ÷ ${lineToNeutral} + ${motor}`
        : calc`${shared} ÷ ${lineToLine} + ${own} ÷ ${lineToNeutral}`,
    );
  }) as [Known<"A">, Known<"A">];
  if (what === "line" && !w.holds(a, "=", b)) w.caution(UNEVEN);
  return w.work(`${what} current, the heavier leg`, "A", calc`max(${a}, ${b})`);
}

/** The addition for the largest motor of one leg: a motor whose leg was told is there alone, any other on both. */
function motorOnLeg(
  w: Worksheet,
  leg: Leg,
  motors: readonly Load[],
  { lineToLine, lineToNeutral }: Pick<System, "lineToLine" | "lineToNeutral">,
): Known<"A"> | undefined {
  const currents = motors.flatMap((motor) => {
    const own = legOf(motor);
    if (own === undefined) {
      return [w.work(`${motor.name}, motor current on both legs`, "A", calc`${motor.each} ÷ ${lineToLine}`)];
    }
    if (own !== leg) return [];
    return [w.work(`${motor.name}, motor current on leg ${leg}`, "A", calc`${motor.each} ÷ ${lineToNeutral}`)];
  });
  if (currents.length === 0) return undefined;
  const share = w.constant<"%">("largest-motor-addition");
  return w.work(`addition for the largest motor of leg ${leg}`, "A", calc`max(${currents}) × ${share}`, "motors");
}

/** The leg that was told of a line-to-neutral load. */
const legOf = ({ said, lineToNeutral }: Load): Leg | undefined => lineToNeutral ? said.leg : undefined;

/**
 * The legs, worked out once for each season that is asked for; `counted` is what a load counts for in the standard method.
 * Without `lighting` only what was told is looked at.
 */
export function legsOf(
  w: Worksheet,
  lighting: Known<"VA"> | undefined,
  loads: readonly Load[],
  counted: (load: Load) => Known<"VA">,
): Legs {
  const [told, excess] = [kept<OnLegs["told"]>(), kept<OnLegs["excess"]>()];
  return (season, inFull = false) => {
    w.part("Legs");
    const singles = onNeutral(loads).filter((load) => !season?.omitted.includes(load));
    const [own, open] = [true, false].map((isTold) => singles.filter((load) => (legOf(load) !== undefined) === isTold));
    const part = told(`${season?.name} ${inFull}`, () => toldOf(w, own!, inFull ? ({ all }) => all : counted));
    const rest = excess(`${season?.name}`, () => lighting && excessOf(w, lighting, open!));
    return { ...(part && { told: part }), ...(rest && { excess: rest }) };
  };
}

/** Results by their names, each worked out once. */
function kept<T>(): (name: string, work: () => T) => T {
  const known = new Map<string, { is: T }>();
  return (name, work) => {
    const found = known.get(name) ?? { is: work() };
    known.set(name, found);
    return found.is;
  };
}

/** What each leg carries of the loads whose leg was told; undefined where none was. */
function toldOf(
  w: Worksheet,
  loads: readonly Load[],
  counted: (load: Load) => Known<"VA">,
): Record<Leg, Known<"VA">> | undefined {
  const [first] = loads;
  if (!first) return undefined;
  w.suppose(
    "120 V loads on the legs",
    "as told, the others half on each",
    "lighting, small-appliance circuits and loads without a told leg are spread; they do not even out what was told",
    `${first.name} on leg ${first.said.leg === "A" ? "B" : "A"}`,
  );
  const [A, B] = LEGS.map((leg) => {
    const own = loads.filter((load) => load.said.leg === leg).map(counted);
    const name = `120 V loads told on leg ${leg}`;
    return own.length > 0 ? w.work(name, "VA", calc`sum(${own})`) : w.given(name, { n: "0", unit: "VA" });
  }) as [Known<"VA">, Known<"VA">];
  return { A, B };
}

/** What loads without a told leg leave uneven beyond the lighting circuits; undefined where those even it out. */
function excessOf(w: Worksheet, lighting: Known<"VA">, loads: readonly Load[]): Known<"VA"> | undefined {
  if (loads.length === 0) return undefined;
  const legs = assignLegs(w, loads);
  const [a, b] = LEGS.map((leg) =>
    legs[leg].length > 0
      ? w.work(`line-to-neutral loads on leg ${leg}`, "VA", calc`sum(${legs[leg]})`)
      : w.given(`line-to-neutral loads on leg ${leg}`, { n: "0", unit: "VA" })
  ) as [Known<"VA">, Known<"VA">];
  const difference = w.work("difference of the legs", "VA", calc`abs(${a} − ${b})`);
  return w.choose(
    "do the lighting circuits even it out",
    [difference, "≤", lighting],
    ["yes, both legs carry the same", () => undefined],
    [
      "no, one leg is heavier and decides",
      () => w.work("what stays on the heavier leg", "VA", calc`${difference} − ${lighting}`),
    ],
  );
}

/** Loads whose leg is open, largest first, each to the lighter leg. Each of several alike is a circuit of its own. */
function assignLegs(w: Worksheet, loads: readonly Load[]): Record<Leg, Known<"VA">[]> {
  const legs: Record<Leg, Known<"VA">[]> = { A: [], B: [] };
  const free = loads.flatMap((load) => Array.from({ length: load.said.count }, () => load.each));
  const largestFirst = free.toSorted((x, y) => w.holds(x, "<", y) ? 1 : w.holds(x, ">", y) ? -1 : 0);
  for (const each of largestFirst) {
    const lighter = legs.A.length === 0
      ? "A"
      : legs.B.length === 0
      ? "B"
      : w.holds(calc`sum(${legs.A})`, "≤", calc`sum(${legs.B})`)
      ? "A"
      : "B";
    legs[lighter].push(each);
  }
  return legs;
}

/**
 * On two lines and the neutral of a wye, line-to-neutral loads sit on each line at its own voltage, the rest between the lines.
 * The arithmetic sum is a little above the true one, and safe. What makes one line heavier is on it alone.
 */
export function networkCurrent(
  w: Worksheet,
  load: Known<"VA">,
  standard: Standard | undefined,
  legs: Legs,
  system: System,
): Known<"A"> {
  const onLegs = legs(undefined, standard === undefined);
  w.part("Line current");
  const uneven = unevenCurrent(w, onLegs, system);
  if (onLegs.excess) w.caution(UNEVEN);
  if (!standard) {
    const name = "line current, all taken between the lines";
    return uneven
      ? w.work(`${name}, the heavier line`, "A", calc`${load} ÷ ${system.lineToLine} + ${uneven}`)
      : w.work(name, "A", calc`${load} ÷ ${system.lineToLine}`);
  }
  const toNeutral = Object.entries(standard.lines).flatMap(([key, { neutral }]) =>
    neutral && key !== "cooking" && key !== "dryers" ? [neutral] : []
  );
  const between = w.work("load between the lines", "VA", calc`${load} − sum(${toNeutral})`);
  const lineToLine = w.work("current between the lines", "A", calc`${between} ÷ ${system.lineToLine}`);
  const lineToNeutral = w.work("current to the neutral", "A", calc`sum(${toNeutral}) ÷ (2 × ${system.lineToNeutral})`);
  return uneven
    ? w.work("line current, the heavier line", "A", calc`${lineToLine} + ${lineToNeutral} + ${uneven}`)
    : w.work("line current", "A", calc`${lineToLine} + ${lineToNeutral}`);
}

/**
 * What the heavier line of a network carries more than the mean of both: half the difference of what was told, and half of
 * what loads without a told leg leave uneven. Undefined where both carry the same.
 */
export function unevenCurrent(
  w: Worksheet,
  { told, excess }: OnLegs,
  { lineToNeutral }: System,
): Known<"A"> | undefined {
  const name = "on the heavier line beyond the mean";
  const ofTold = told && w.work("difference of what was told", "VA", calc`abs(${told.A} − ${told.B})`);
  if (ofTold && excess) return w.work(name, "A", calc`(${ofTold} + ${excess}) ÷ (2 × ${lineToNeutral})`);
  const one = ofTold ?? excess;
  return one && w.work(name, "A", calc`${one} ÷ (2 × ${lineToNeutral})`);
}
