/** The standard method for one dwelling, line by line, with what each line puts on the neutral. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { LoadGroup } from "../../loads/catalogue.ts";
import { cookingDemand } from "../cooking.ts";
import { dryerDemand } from "../dryers.ts";
import { leastCharger } from "../ev-charging.ts";
import { type Load, ofGroup, sumOf } from "../loads.ts";
import { neutralOfDemand } from "../neutral.ts";
import { throughTiers } from "../tiers.ts";
import type { Lighting } from "./area.ts";

/** A line of the calculation: its demand, the line-to-neutral part of it, and what one of its loads counts for. */
type Line = {
  demand?: Known<"VA"> | undefined;
  neutral?: Known<"VA"> | undefined;
  counted?: (load: Load) => Known<"VA">;
};
export type Standard = {
  total: Known<"VA">;
  /** Demand of lighting, small-appliance and laundry circuits, which spread over both legs. */
  lighting: Known<"VA">;
  /** Heating and cooling, which do not run together: what each is counted at, and its loads. Empty where there is neither. */
  seasons: Season[];
  /** What each season puts on the neutral; the one with the larger load is in `lines`. */
  neutralSeasons: OnNeutral[];
  lines: {
    lighting: Line;
    fixed?: Line;
    dryers?: Line;
    cooking?: Line;
    climate?: Line;
    blower?: Line;
    ev?: Line;
    other?: Line;
    motor?: Line;
  };
};

/** Loads between a line and the neutral. */
export const onNeutral = (loads: readonly Load[]) => loads.filter((load) => load.lineToNeutral);
const all = (loads: readonly Load[]) => loads.map((load) => load.all);

/** @param threePhase whether ranges and dryers of several dwellings lie between the phases of a three-phase supply */
export function standardMethod(
  w: Worksheet,
  lighting: Pick<Lighting, "parts">,
  loads: readonly Load[],
  lockedOut: boolean,
  part = "Standard method",
  threePhase = false,
): Standard {
  w.part(part);
  const connected = w.work("lighting, small-appliance and laundry load", "VA", calc`sum(${lighting.parts})`);
  const lit = throughTiers(w, connected, "general-lighting-demand-dwelling", "lighting-demand");
  const climate = climateOf(w, loads, lockedOut);
  const neutral = neutralInSeason(w, loads, climate?.seasons ?? []);
  const lines: Standard["lines"] = {
    lighting: { demand: lit, neutral: lit },
    ...line("fixed", fixedLine(w, ofGroup(loads, "fixed"))),
    ...line("dryers", dryerLine(w, ofGroup(loads, "dryer"), threePhase)),
    ...line("cooking", cookingLine(w, ofGroup(loads, "cooking"), threePhase)),
    ...line("climate", climate && { demand: climate.demand, neutral: neutral[0]!.climate }),
    ...line("blower", plainLine(w, "blowers", ofGroup(loads, "blower"))),
    ...line("ev", evLine(w, ofGroup(loads, "ev"))),
    ...line("other", plainLine(w, "other loads", ofGroup(loads, "other"))),
    ...line("motor", motorLine(w, loads, climate?.omitted ?? [], neutral[0]!.motor)),
  };
  const demands = Object.values(lines).flatMap(({ demand }) => demand ? [demand] : []);
  const total = w.work("standard method load", "VA", calc`sum(${demands})`);
  return { total, lighting: lit, lines, seasons: climate?.seasons ?? [], neutralSeasons: neutral };
}

/** The lines of groups whose loads may count for less, or for more, than they are. */
const LINES: Partial<Record<LoadGroup, keyof Standard["lines"]>> = {
  fixed: "fixed",
  dryer: "dryers",
  cooking: "cooking",
  ev: "ev",
};

/** What a load counts for in the standard method. */
export function countedAs({ lines }: Standard, load: Load): Known<"VA"> {
  const line = LINES[load.group];
  return (line && lines[line]?.counted?.(load)) ?? load.all;
}

const line = <K extends string>(key: K, value: Line | undefined) =>
  (value ? { [key]: value } : {}) as { [k in K]?: Line };

function plainLine(w: Worksheet, name: string, loads: readonly Load[]): Line | undefined {
  const demand = sumOf(w, name, all(loads));
  return demand && { demand, neutral: sumOf(w, `${name}, on the neutral`, all(onNeutral(loads))) };
}

/** Fastened appliances: from a number of them on, all at a percentage. Small ones are outside that in later editions. */
function fixedLine(w: Worksheet, loads: readonly Load[]): Line | undefined {
  if (loads.length === 0) return undefined;
  const small = w.edition.rule("fixed-appliances") === "all" ? [] : loads.filter((load) => isSmall(w, load));
  const counted = loads.filter((load) => !small.includes(load));
  for (const load of small) {
    w.given(
      `${load.name}, too small to count`,
      "at 100 %",
      "below the least size it neither counts toward the number nor takes the percentage",
      "fixed-appliances",
    );
  }
  const smallDemand = sumOf(w, "small fixed appliances", all(small));
  const smallNeutral = sumOf(w, "small fixed appliances, on the neutral", all(onNeutral(small)));
  if (counted.length === 0) return { demand: smallDemand!, neutral: smallNeutral };
  let share: Known<"%"> | undefined;
  const counts = counted.map((load) => load.count);
  const number = w.work("fixed appliances", "1", calc`sum(${counts})`);
  const enough = w.constant<"1">("fixed-appliance-count");
  const sum = w.work("fixed appliances, nameplate", "VA", calc`sum(${all(counted)})`);
  const neutralSum = sumOf(w, "fixed appliances on the neutral", all(onNeutral(counted)));
  const [demand, neutral] = w.choose(
    "enough of them for the reduced demand",
    [number, "≥", enough],
    ["yes", () => {
      share = w.constant<"%">("fixed-appliance-demand");
      return [
        w.work("fixed appliances", "VA", calc`${sum} × ${share}`, "fixed-appliances"),
        neutralSum && w.work("fixed appliances, on the neutral", "VA", calc`${neutralSum} × ${share}`, "neutral"),
      ];
    }],
    ["no, all at 100 %", () => [sum, neutralSum]],
    "fixed-appliances",
  );
  return {
    demand: smallDemand ? w.work("all fixed appliances", "VA", calc`${demand} + ${smallDemand}`) : demand,
    neutral: neutral && smallNeutral
      ? w.work("all fixed appliances, on the neutral", "VA", calc`${neutral} + ${smallNeutral}`)
      : neutral ?? smallNeutral,
    counted: (load) =>
      share === undefined || small.includes(load)
        ? load.all
        : w.work(`${load.name}, as counted`, "VA", calc`${load.all} × ${share}`, "fixed-appliances"),
  };
}

/** What one of several loads counts for in the demand of all of them. */
const partOf = (w: Worksheet, demand: Known<"VA">, loads: readonly Load[]) => (load: Load): Known<"VA"> =>
  w.work(`${load.name}, as counted`, "VA", calc`${demand} × ${load.all} ÷ sum(${all(loads)})`);

/** Below the least power, or the least horsepower where it is a motor rated so. */
function isSmall(w: Worksheet, load: Load): boolean {
  return w.scratch(() => {
    const { rating } = load.said;
    if (rating?.unit !== "hp") {
      return w.holds(
        load.each,
        "<",
        w.work(
          "least",
          "VA",
          calc`${w.constant("fixed-appliance-least-power")} × ${w.constant("watts-as-volt-amperes")}`,
        ),
      );
    }
    return w.holds(
      w.given("motor", { n: String(rating.value), unit: "hp" }),
      "<",
      w.constant("fixed-appliance-least-motor"),
    );
  });
}

function dryerLine(w: Worksheet, loads: readonly Load[], threePhase: boolean): Line | undefined {
  if (loads.length === 0) return undefined;
  const { demand } = dryerDemand(w, loads.map(({ count, each }) => ({ count, rating: each })), threePhase);
  return { demand, neutral: reduced(w, "dryers, on the neutral", demand, loads), counted: partOf(w, demand, loads) };
}

function cookingLine(w: Worksheet, loads: readonly Load[], threePhase: boolean): Line | undefined {
  if (loads.length === 0) return undefined;
  const { demand } = cookingDemand(
    w,
    loads.map(({ count, each, said }) => ({ count, rating: each, piece: said.kind as "range" })),
    { threePhase },
  );
  return { demand, neutral: reduced(w, "cooking, on the neutral", demand, loads), counted: partOf(w, demand, loads) };
}

/** The share of a demand that cooking and dryers put on the neutral; all of it for those between a line and the neutral. */
function reduced(w: Worksheet, name: string, demand: Known<"VA">, loads: readonly Load[]): Known<"VA"> {
  const singles = all(onNeutral(loads));
  if (singles.length === 0) return neutralOfDemand(w, name, demand);
  const share = w.constant<"%">("neutral-cooking-dryer-demand");
  if (singles.length === loads.length) return w.work(name, "VA", calc`1 × ${demand}`, "neutral");
  const toNeutral = w.work(`${name}: line to neutral`, "%", calc`sum(${singles}) ÷ sum(${all(loads)})`);
  return w.work(
    name,
    "VA",
    calc`${demand} × ${toNeutral} + ${demand} × (1 − ${toNeutral}) × ${share}`,
    "neutral",
    "what is between a line and the neutral is all on the neutral",
  );
}

/** Heating or cooling: what it is counted at, what runs in it, and what of the other is left out with it. */
export type Season = {
  name: "heating" | "cooling";
  demand: Known<"VA">;
  loads: Load[];
  omitted: Load[];
};
type Climate = { demand: Known<"VA">; omitted: Load[]; seasons: Season[] };

/** Heating or cooling, whichever is larger: they do not run together. A heat pump is part of both. */
export function climateOf(w: Worksheet, loads: readonly Load[], lockedOut: boolean): Climate | undefined {
  const heaters = ofGroup(loads, "furnace", "space heating", "continuous heating");
  const pumps = ofGroup(loads, "heat pump");
  const strips = ofGroup(loads, "supplemental heat");
  const coolers = ofGroup(loads, "cooling");
  const heatPump = sumOf(w, "heat pump", all(pumps));
  const pumping = heatPump && pumpHeating(w, heatPump, pumps, strips, lockedOut);
  const supplement = pumping ? pumping.demand : sumOf(w, "supplemental heat", all(strips));
  const heating = sumOf(w, "heating", [...all(heaters), ...(supplement ? [supplement] : [])]);
  const cooling = sumOf(w, "cooling", [...all(coolers), ...(heatPump ? [heatPump] : [])]);
  const heats = [...heaters, ...(pumping ? pumping.loads : strips)];
  const cools = [...coolers, ...pumps];
  const without = (some: Load[], of: Load[]) => of.filter((load) => !some.includes(load));
  const everything = [...heaters, ...pumps, ...strips, ...coolers];
  const seasons: Season[] = [
    ...(heating
      ? [{ name: "heating" as const, demand: heating, loads: heats, omitted: without(heats, everything) }]
      : []),
    ...(cooling
      ? [{ name: "cooling" as const, demand: cooling, loads: cools, omitted: without(cools, everything) }]
      : []),
  ];
  const [first, second] = seasons;
  if (!first || !second) return first && { ...first, seasons };
  // Alike, the cooling is kept: its motor then runs, and the addition for the largest motor stays.
  const decides = w.choose(
    "heating or cooling, the larger",
    [first.demand, ">", second.demand],
    ["heating; the cooling does not run with it", () => first],
    ["cooling; the heating does not run with it", () => second],
    "noncoincident",
  );
  return { demand: decides.demand, omitted: decides.omitted, seasons };
}

/** What a heat pump heats with: its compressor and supplemental heat together, or the larger where controls allow one. */
function pumpHeating(
  w: Worksheet,
  heatPump: Known<"VA">,
  pumps: Load[],
  strips: Load[],
  lockedOut: boolean,
): { demand: Known<"VA">; loads: Load[] } {
  const supplement = sumOf(w, "supplemental heat", all(strips));
  if (!supplement) return { demand: heatPump, loads: pumps };
  if (lockedOut) {
    return w.choose(
      "heat pump or supplemental heat, the controls allow one",
      [heatPump, "≥", supplement],
      ["the heat pump", () => ({ demand: heatPump, loads: pumps })],
      ["the supplemental heat", () => ({ demand: supplement, loads: strips })],
      "noncoincident",
    );
  }
  const both = w.work("heat pump with supplemental heat", "VA", calc`${heatPump} + ${supplement}`, "noncoincident");
  return { demand: both, loads: [...pumps, ...strips] };
}

export type OnNeutral = {
  season: Season | undefined;
  climate: Known<"VA"> | undefined;
  motor: Known<"VA"> | undefined;
  motors: Load[];
};

/** Heating or cooling on the neutral, with the addition for its largest motor: both seasons, the larger load first. */
function neutralInSeason(w: Worksheet, loads: readonly Load[], seasons: readonly Season[]): OnNeutral[] {
  const [first, second] = seasons;
  const inSeason = (season: Season | undefined): OnNeutral => {
    const motors = onNeutral(motorsOf(w, loads, season?.omitted ?? []));
    return {
      season,
      climate: season && sumOf(w, `${season.name} on the neutral`, all(onNeutral(season.loads))),
      motor: motorAddition(w, motors, "on the neutral"),
      motors,
    };
  };
  if (!first || !second || onNeutral([...first.loads, ...second.loads]).length === 0) return [inSeason(first)];
  const [one, other] = [inSeason(first), inSeason(second)];
  const together = ({ climate, motor, season }: OnNeutral) => {
    const parts = [climate, motor].filter((part) => part !== undefined);
    return parts.length > 0
      ? w.work(`${season!.name} season on the neutral`, "VA", calc`sum(${parts})`)
      : w.given(`${season!.name} season on the neutral`, { n: "0", unit: "VA" });
  };
  return w.choose(
    "season that loads the neutral most",
    [together(one), "≥", together(other)],
    [first.name, () => [one, other]],
    [second.name, () => [other, one]],
    "neutral",
  );
}

/** EV supply equipment, each at its nameplate or, by edition, at no less than the minimum. */
function evLine(w: Worksheet, loads: readonly Load[]): Line | undefined {
  if (loads.length === 0) return undefined;
  const least = leastCharger(w);
  const counted = (load: Load) =>
    least
      ? w.work("EV charger as counted", "VA", calc`${load.count} × max(${load.each}, ${least})`, "ev-load")
      : load.all;
  const steps = loads.map((load) => ({ load, step: counted(load) }));
  const stepOf = (load: Load) => steps.find((each) => each.load === load)!.step;
  const demand = sumOf(w, "EV charging", steps.map(({ step }) => step))!;
  return {
    demand,
    neutral: sumOf(
      w,
      "EV charging, on the neutral",
      steps.filter(({ load }) => load.lineToNeutral).map(({ step }) => step),
    ),
    counted: stepOf,
  };
}

/** Motors that count for the addition; by edition one that is left out as noncoincident still does. */
export function motorsOf(w: Worksheet, loads: readonly Load[], omitted: readonly Load[]): Load[] {
  const dropped = w.edition.rule("omitted-motor") === "ignored" ? omitted : [];
  return loads.filter((load) => load.motor && !dropped.includes(load));
}

/** A share of the largest of some motors. */
export function motorAddition(w: Worksheet, motors: readonly Load[], where = ""): Known<"VA"> | undefined {
  if (motors.length === 0) return undefined;
  const share = w.constant<"%">("largest-motor-addition");
  const largest = w.work(`largest motor ${where}`.trim(), "VA", calc`max(${motors.map(({ each }) => each)})`, "motors");
  const name = `addition for the largest motor ${where}`.trim();
  return w.work(name, "VA", calc`${largest} × ${share}`, where === "" ? "motors" : "neutral");
}

function motorLine(
  w: Worksheet,
  loads: readonly Load[],
  omitted: readonly Load[],
  neutral: Known<"VA"> | undefined,
): Line | undefined {
  const demand = motorAddition(w, motorsOf(w, loads, omitted));
  // A motor that is left out with its season may still be the neutral's, in the season that loads it most.
  return (demand ?? neutral) && { demand, neutral };
}
