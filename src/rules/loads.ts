/** The loads of a request, worked to volt-amperes: what every load calculation starts from. */
import { type Appliance, CATALOGUE, type LoadGroup, type LoadKind } from "../loads/catalogue.ts";
import { calc } from "../core/formula.ts";
import { type Need, Unclear } from "../core/outcome.ts";
import { exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { inPlural } from "../loads/names.ts";
import { listedPower } from "./motor-current.ts";
import { nameplate, type Rating } from "./nameplate.ts";

/** A load as a request carries it. */
export type SaidLoad = {
  kind: LoadKind;
  name?: string | undefined;
  count: number;
  rating?: Rating | { value: number | string; unit: "hp" } | undefined;
  volts?: { value: number | string; unit: "V" } | undefined;
  fuel?: "gas" | "electric" | undefined;
  units?: number | undefined;
  leg?: "A" | "B" | undefined;
  continuous?: boolean | undefined;
};
/** A load with its steps. */
export type Load = {
  said: SaidLoad;
  name: string;
  appliance: Appliance;
  group: LoadGroup;
  count: Known<"1">;
  /** Of one of them. */
  each: Known<"VA">;
  /** Of all of them. */
  all: Known<"VA">;
  /** Between a line and the neutral, and so on the neutral too. */
  lineToNeutral: boolean;
  /** Driven by a motor: counts for the addition for the largest one. */
  motor: boolean;
};
/** The two voltages of the system: from line to neutral, and from line to line. */
export type System = {
  lineToNeutral: Known<"V">;
  lineToLine: Known<"V">;
  /** The column of the motor table for line-to-line motors: 230 V motors serve a 240 V system. */
  motors: "230 V" | "208 V";
};

/** Defaults that a rule itself gives where no nameplate is known. */
const WITHOUT_NAMEPLATE: Partial<Record<LoadKind, string>> = { dryer: "dryer-rating", range: "range-rating" };
/** Any voltage up to this many volts is line to neutral; a nameplate's 115 and 125 V are the system's 120 V. */
const HIGHEST_LINE_TO_NEUTRAL = 140;

export const loadName = (said: SaidLoad): string => said.name ?? CATALOGUE[said.kind].name;

/**
 * Works every electric load of the list to volt-amperes. Gas appliances add nothing and are shown as given.
 * @throws Unclear naming every load whose nameplate is missing and may not be assumed, or is not one of its fuel.
 */
export function workLoads(w: Worksheet, said: readonly SaidLoad[], system: System): Load[] {
  const missing = said.filter((s) =>
    s.fuel !== "gas" && s.rating === undefined && assumedRating(w, s.kind) === undefined
  );
  const doubtful = said.filter((s) => isBurnt(w, s));
  if (missing.length + doubtful.length > 0) throw new Unclear([...missing.map(askRating), ...doubtful.map(askFuel)]);
  const assumed: string[] = [];
  const loads = said.flatMap((s): Load[] => {
    if (s.fuel !== "gas") return [workLoad(w, s, system, assumed)];
    if (s.rating !== undefined) return [workLoad(w, s, system, assumed, withFuel(s))];
    w.given(loadName(s), "gas", "adds no electric load of its own; name the blower or fan if it has one");
    return [];
  });
  if (assumed.length > 0) {
    w.suppose(
      "at line-to-neutral voltage",
      assumed.join(", "),
      "no voltage was said; this is what they usually have",
      `${assumed[0]} 240 V`,
    );
  }
  return loads;
}

/**
 * What is electric of an appliance that burns fuel: its blower, fan or controls, on the lighting voltage unless another is
 * told. A heater's blower runs in both seasons; the demand tables of cooking and dryers are for electric ones alone.
 */
function withFuel({ kind }: SaidLoad): Pick<Appliance, "group" | "volts" | "motor"> {
  const { group } = CATALOGUE[kind];
  const isHeating = ["furnace", "space heating", "continuous heating", "heat pump"].includes(group);
  return { group: isHeating ? "blower" : group === "fixed" ? "fixed" : "other", volts: 120, motor: isHeating };
}

function workLoad(
  w: Worksheet,
  said: SaidLoad,
  system: System,
  assumed: string[],
  { group, volts: usual, motor = false }: Pick<Appliance, "group" | "volts" | "motor"> = CATALOGUE[said.kind],
): Load {
  const appliance = CATALOGUE[said.kind];
  const name = said.fuel === "gas"
    ? `electric part of the ${said.name ?? said.kind.replaceAll("-", " ")}`
    : loadName(said);
  const lineToNeutral = said.volts === undefined
    ? usual < HIGHEST_LINE_TO_NEUTRAL
    : exact(said.volts.value).valueOf() < HIGHEST_LINE_TO_NEUTRAL;
  if (said.volts === undefined && lineToNeutral) assumed.push(name);
  const volts = lineToNeutral ? system.lineToNeutral : system.lineToLine;
  const each = ratingOf(w, said, name, volts, lineToNeutral ? "115 V" : system.motors);
  const count = w.given(said.count === 1 ? `one ${name}` : `number of ${inPlural(name)}`, {
    n: String(said.count),
    unit: "1",
  });
  const all = said.count === 1 ? each : w.work(`${inPlural(name)} together`, "VA", calc`${count} × ${each}`);
  return { said, name, appliance, group, count, each, all, lineToNeutral, motor };
}

function ratingOf(w: Worksheet, said: SaidLoad, name: string, volts: Known<"V">, motors: string): Known<"VA"> {
  const { rating } = said;
  if (rating === undefined) return w.assume<"VA">(assumedRating(w, said.kind)!);
  if (rating.unit !== "hp") return nameplate(w, name, rating as Rating, volts);
  const power = w.given(`${name}, horsepower`, { n: exact(rating.value).toFraction(), unit: "hp" });
  const table = "motor-current-single-phase";
  const listed = listedPower(w, power, table, motors) ?? power;
  const current = w.lookUp<"A">(`${name}, motor current by table`, table, motors, listed);
  return w.work(name, "VA", calc`${current} × ${volts}`, "motors");
}

function assumedRating(w: Worksheet, kind: LoadKind): string | undefined {
  if (kind === "ev-charger") return w.edition.rule("ev-load") === "nameplate" ? undefined : "ev-rating";
  return WITHOUT_NAMEPLATE[kind];
}

function askRating(said: SaidLoad): Need {
  const name = loadName(said);
  const cooling = ["cooling", "heat pump"].includes(CATALOGUE[said.kind].group);
  return {
    field: `loads.${said.kind}.rating`,
    ask: cooling
      ? `What does the ${name}'s nameplate say in amperes? Tons or BTU/h are not enough for a load calculation.`
      : `What does the ${name}'s nameplate say (kW, W or A)?`,
    example: cooling ? `${name} 24 A` : `${name} 4.5 kW`,
  };
}

/** Whether the power told of an appliance that burns fuel is more than its fan and controls can take: it may be its flame's. */
function isBurnt(w: Worksheet, { fuel, rating }: SaidLoad): boolean {
  if (fuel !== "gas" || rating === undefined || rating.unit === "A" || rating.unit === "hp") return false;
  return w.scratch(() => w.holds(nameplate(w, "rating", rating as Rating), ">", w.constant("cooking-smallest")));
}

function askFuel(said: SaidLoad): Need {
  const { value, unit } = said.rating!;
  const name = loadName(said).replace(/^gas /, "");
  return {
    field: `loads.${said.kind}.rating`,
    ask:
      `Is the ${name} of ${value} ${unit} electric? A gas one puts only its fan and controls on the panel: what do they draw at 120 V?`,
    example: `${value} ${unit} electric ${name}`,
  };
}

/** The loads of some groups. */
export const ofGroup = (loads: readonly Load[], ...groups: LoadGroup[]): Load[] =>
  loads.filter(({ group }) => groups.includes(group));

/** The sum of some steps: the step itself where there is one, undefined where there are none. */
export function sumOf(w: Worksheet, name: string, parts: readonly Known<"VA">[]): Known<"VA"> | undefined {
  if (parts.length <= 1) return parts[0];
  return w.work(name, "VA", calc`sum(${parts})`);
}
