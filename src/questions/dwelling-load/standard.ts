/** The standard method for one dwelling, line by line, with what each line puts on the neutral. */
import { calc } from "../../core/formula.ts";
import { NotCovered } from "../../core/outcome.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { cookingDemand } from "../../rules/cooking.ts";
import { dryerDemand } from "../../rules/dryers.ts";
import { type Load, ofGroup, sumOf } from "../../rules/loads.ts";
import { throughTiers } from "../../rules/tiers.ts";
import type { Lighting } from "./area.ts";

/** A line of the calculation: its demand, and the line-to-neutral part of it. */
type Line = { demand: Known<"VA">; neutral?: Known<"VA"> | undefined };
export type Standard = {
  total: Known<"VA">;
  /** Demand of lighting, small-appliance and laundry circuits, which spread over both legs. */
  lighting: Known<"VA">;
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

const onNeutral = (loads: readonly Load[]) => loads.filter((load) => load.lineToNeutral);
const all = (loads: readonly Load[]) => loads.map((load) => load.all);

export function standardMethod(w: Worksheet, lighting: Lighting, loads: readonly Load[], lockedOut: boolean): Standard {
  w.part("Standard method");
  const connected = w.work("lighting, small-appliance and laundry load", "VA", calc`sum(${lighting.parts})`);
  const lit = throughTiers(w, connected, "general-lighting-demand-dwelling", "lighting-demand");
  const climate = climateLine(w, loads, lockedOut);
  const lines: Standard["lines"] = {
    lighting: { demand: lit, neutral: lit },
    ...line("fixed", fixedLine(w, ofGroup(loads, "fixed"))),
    ...line("dryers", dryerLine(w, ofGroup(loads, "dryer"))),
    ...line("cooking", cookingLine(w, ofGroup(loads, "cooking"))),
    ...line("climate", climate),
    ...line("blower", plainLine(w, "blower, runs in both seasons", ofGroup(loads, "blower"))),
    ...line("ev", evLine(w, ofGroup(loads, "ev"))),
    ...line("other", plainLine(w, "other loads", ofGroup(loads, "other"))),
    ...line("motor", motorLine(w, loads, climate?.omitted ?? [])),
  };
  const demands = Object.values(lines).map(({ demand }) => demand);
  const total = w.work("standard method load", "VA", calc`sum(${demands})`);
  return { total, lighting: lit, lines };
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
  const counts = counted.map((load) => load.count);
  const number = w.work("fixed appliances", "1", calc`sum(${counts})`);
  const enough = w.constant<"1">("fixed-appliance-count");
  const sum = w.work("fixed appliances, nameplate", "VA", calc`sum(${all(counted)})`);
  const neutralSum = sumOf(w, "fixed appliances on the neutral", all(onNeutral(counted)));
  const [demand, neutral] = w.choose(
    "enough of them for the reduced demand",
    [number, "≥", enough],
    ["yes", () => {
      const share = w.constant<"%">("fixed-appliance-demand");
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
  };
}

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

function dryerLine(w: Worksheet, loads: readonly Load[]): Line | undefined {
  if (loads.length === 0) return undefined;
  const { demand } = dryerDemand(w, loads.map(({ count, each }) => ({ count, rating: each })));
  return {
    demand,
    neutral: w.work(
      "dryers, on the neutral",
      "VA",
      calc`${demand} × ${w.constant("neutral-cooking-dryer-demand")}`,
      "neutral",
    ),
  };
}

function cookingLine(w: Worksheet, loads: readonly Load[]): Line | undefined {
  if (loads.length === 0) return undefined;
  const { demand } = cookingDemand(
    w,
    loads.map(({ count, each, said }) => ({ count, rating: each, piece: said.kind as "range" })),
  );
  return {
    demand,
    neutral: w.work(
      "cooking, on the neutral",
      "VA",
      calc`${demand} × ${w.constant("neutral-cooking-dryer-demand")}`,
      "neutral",
    ),
  };
}

/** Heating or cooling, whichever is larger: they do not run together. A heat pump is part of both. */
function climateLine(w: Worksheet, loads: readonly Load[], lockedOut: boolean): Line & { omitted: Load[] } | undefined {
  const heaters = ofGroup(loads, "furnace", "space heating", "continuous heating");
  const pumps = ofGroup(loads, "heat pump");
  const strips = ofGroup(loads, "supplemental heat");
  const coolers = ofGroup(loads, "cooling");
  const heatPump = sumOf(w, "heat pump", all(pumps));
  const supplement = sumOf(w, "supplemental heat", all(strips));
  const pumpHeating = heatPump && supplement
    ? w.work(
      lockedOut ? "heat pump or supplemental heat, the controls allow one" : "heat pump with supplemental heat",
      "VA",
      lockedOut ? calc`max(${heatPump}, ${supplement})` : calc`${heatPump} + ${supplement}`,
      "noncoincident",
    )
    : heatPump ?? supplement;
  const heating = sumOf(w, "heating", [...all(heaters), ...(pumpHeating ? [pumpHeating] : [])]);
  const cooling = sumOf(w, "cooling", [...all(coolers), ...(heatPump ? [heatPump] : [])]);
  const neutralOf = (of: readonly Load[]) => sumOf(w, "heating or cooling on the neutral", all(onNeutral(of)));
  if (!heating || !cooling) {
    const demand = heating ?? cooling;
    return demand && { demand, neutral: neutralOf([...heaters, ...pumps, ...strips, ...coolers]), omitted: [] };
  }
  return w.choose(
    "heating or cooling, the larger",
    [heating, "≥", cooling],
    [
      "heating; the cooling does not run with it",
      () => ({ demand: heating, neutral: neutralOf([...heaters, ...pumps, ...strips]), omitted: coolers }),
    ],
    [
      "cooling; the heating does not run with it",
      () => ({ demand: cooling, neutral: neutralOf([...coolers, ...pumps]), omitted: [] }),
    ],
    "noncoincident",
  );
}

/** EV supply equipment, each at its nameplate or, by edition, at no less than the minimum. */
function evLine(w: Worksheet, loads: readonly Load[]): Line | undefined {
  if (loads.length === 0) return undefined;
  const rule = w.edition.rule("ev-load");
  if (rule !== "nameplate" && rule !== "larger of minimum and nameplate") {
    throw new NotCovered(`the EV rule "${rule}" is not one this service knows`, w.edition.id);
  }
  const counted = (load: Load) =>
    rule === "nameplate" ? load.all : w.work(
      "EV charger as counted",
      "VA",
      calc`${load.count} × max(${load.each}, ${w.constant("ev-minimum")})`,
      "ev-load",
    );
  const steps = loads.map((load) => ({ load, step: counted(load) }));
  const demand = sumOf(w, "EV charging", steps.map(({ step }) => step))!;
  return {
    demand,
    neutral: sumOf(
      w,
      "EV charging, on the neutral",
      steps.filter(({ load }) => load.lineToNeutral).map(({ step }) => step),
    ),
  };
}

/** A share of the largest motor on top; by edition a motor left out as noncoincident still counts here. */
function motorLine(w: Worksheet, loads: readonly Load[], omitted: readonly Load[]): Line | undefined {
  const dropped = w.edition.rule("omitted-motor") === "ignored" ? omitted : [];
  const motors = loads.filter((load) => load.appliance.motor && !dropped.includes(load));
  if (motors.length === 0) return undefined;
  const ratings = motors.map((load) => load.each);
  const share = w.constant<"%">("largest-motor-addition");
  const largest = w.work("largest motor", "VA", calc`max(${ratings})`, "motors");
  const demand = w.work("addition for the largest motor", "VA", calc`${largest} × ${share}`, "motors");
  const neutralMotors = onNeutral(motors).map((load) => load.each);
  if (neutralMotors.length === 0) return { demand };
  return {
    demand,
    neutral: w.work(
      "addition for the largest motor on the neutral",
      "VA",
      calc`max(${neutralMotors}) × ${share}`,
      "neutral",
    ),
  };
}
