/** The load of the circuit: what it draws, and what its conductors and device are sized for. */
import { calc } from "../../core/formula.ts";
import { need } from "../../core/outcome.ts";
import { exact } from "../../core/quantity.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { cookingBranchLoad } from "../../rules/cooking.ts";
import { nameplate } from "../../rules/nameplate.ts";
import { lineCurrent } from "../../rules/power.ts";
import { asQuantity } from "../question.ts";
import { isCooking, isCooling, nameOf, RATED_BY_CIRCUIT, SIZING, USUALLY_CONTINUOUS } from "./loads.ts";
import type { CircuitRequest, SaidLoad } from "./request.ts";
import type { Supply } from "./supply.ts";

export type Load = {
  current: Known<"A">;
  design: Known<"A">;
  /** Whether the load is known; otherwise the circuit is sized to carry its full rating. */
  told: boolean;
  /** Smallest device the rules or the appliance's own receptacle allow. */
  least?: Known<"A">;
  /** Rated primary current of a welder: its device follows that, its conductors the duty cycle. */
  welder?: Known<"A">;
};

export function loadOf(w: Worksheet, r: CircuitRequest, supply: Supply): Load {
  const loads = r.loads ?? [];
  refuseCooling(loads);
  askWhatItIs(r, loads);
  if (loads.length > 0 && loads.every(({ kind }) => isCooking(kind)) && (loads.some(hasRating) || !circuitRating(r))) {
    return cooking(w, loads, supply);
  }
  const rated = loads.filter((load) =>
    hasRating(load) || load.kind === "dryer" && !circuitRating(r) || isCounted(load)
  );
  if (rated.length < loads.length && rated.length > 0 || rated.length === 0 && !circuitRating(r)) {
    throw askRating(loads.find((load) => !rated.includes(load)));
  }
  if (rated.length === 0) return byRating(w, r, loads[0]);
  if (rated.length === 1 && rated[0]!.kind === "welder") return welder(w, rated[0]!, supply);
  const parts = rated.map((load) => part(w, load, supply));
  const currents = parts.map(({ current }) => current);
  const designs = parts.map(({ design }) => design);
  return {
    current: currents.length === 1 ? currents[0]! : w.work("load current", "A", calc`sum(${currents})`),
    design: designs.length === 1
      ? designs[0]!
      : w.work("design current", "A", calc`sum(${designs})`, "continuous-loads-branch"),
    told: true,
    ...(rated[0]!.kind === "dryer" && !r.breaker && { least: w.assume<"A">("dryer-receptacle") }),
  };
}

const hasRating = ({ rating, current }: SaidLoad) => rating !== undefined || current !== undefined;
/** Receptacles count by number where no load is said. */
const isCounted = ({ kind, count, rating }: SaidLoad) => kind === "receptacles" && rating === undefined && count > 1;
const circuitRating = (r: CircuitRequest) => r.breaker ?? r.receptacle;

function askRating(load: SaidLoad | undefined) {
  const name = load ? nameOf(load.kind) : "load";
  const example = load?.kind === "ev-charger" ? "48 A charger" : load ? `${name} 4.5 kW` : "24 A load";
  return need("loads", `What does the ${name} draw: amperes or kW by its nameplate? Or what is its breaker?`, example);
}

function refuseCooling(loads: readonly SaidLoad[]): void {
  const unit = loads.find(({ kind }) => isCooling(kind));
  if (!unit) return;
  throw need(
    "nameplate",
    `The circuit of a ${
      nameOf(unit.kind)
    } follows its nameplate: what are its minimum circuit ampacity and its largest breaker or fuse?`,
    "MCA 23.4, max breaker 40",
  );
}

/** An appliance of both voltages and so many kilowatts is most often a range, which has a table of its own. */
function askWhatItIs(r: CircuitRequest, loads: readonly SaidLoad[]): void {
  const unnamed = loads.find(({ kind, rating }) => kind === "load" && rating !== undefined && rating.unit !== "A");
  if (!unnamed || !r.neutral || r.volts?.value !== 240 || r.wye) return;
  throw need(
    "loads",
    "What is this 120/240 V load? A range or an oven is taken by the cooking table, a heater at more than its nameplate.",
    `${unnamed.rating!.value} ${unnamed.rating!.unit} range`,
  );
}

/** Amperes of all pieces of a load. */
function currentOf(w: Worksheet, load: SaidLoad, supply: Supply): Known<"A"> {
  const name = nameOf(load.kind);
  const each = eachCurrent(w, load, supply, name);
  if (load.count === 1) return each;
  const count = w.given(`how many of ${name}`, { n: String(load.count), unit: "1" });
  return w.work("load current", "A", calc`${count} × ${each}`);
}

function eachCurrent(w: Worksheet, load: SaidLoad, supply: Supply, name: string): Known<"A"> {
  const said = [
    ...(load.rating?.unit === "A"
      ? [w.given(`${name} current`, { n: asQuantity(load.rating).n, unit: "A" as const })]
      : []),
    ...(load.current
      ? [w.given(`${name} nameplate current`, { n: asQuantity(load.current).n, unit: "A" as const })]
      : []),
  ];
  if (load.rating?.unit === "A") return said[0]!;
  if (load.rating === undefined && said[0]) return said[0];
  const volts = supply.volts;
  if (!volts) throw need("volts", "At what voltage?", "240 V");
  const power = load.rating
    ? nameplate(w, name, load.rating, volts)
    : load.kind === "receptacles"
    ? w.constant<"VA">("receptacle-load")
    : w.assume<"VA">("dryer-rating");
  const worked = lineCurrent(w, power, volts, supply.phases, "load current");
  return said[0] ? w.work("load current, the larger of the two", "A", calc`max(${worked}, ${said[0]})`) : worked;
}

/** One load: what it draws, and its share of the design current by its own rule or by its hours. */
function part(w: Worksheet, load: SaidLoad, supply: Supply): { current: Known<"A">; design: Known<"A"> } {
  const current = currentOf(w, load, supply);
  const sizing = isLargeTank(w, load) ? undefined : SIZING[load.kind];
  if (sizing) {
    if (load.kind === "space-heater" && supply.nominal === 120) {
      w.suppose(
        "heater",
        "fixed in place",
        "a portable one is not counted at more than it draws",
        "portable heater",
        sizing.clause,
      );
    }
    const factor = w.constant<"%">(sizing.factor);
    return { current, design: w.work("design current", "A", calc`${current} × ${factor}`, sizing.clause) };
  }
  if (isContinuous(w, load)) {
    const factor = w.constant<"%">("continuous-load-factor");
    return { current, design: w.work("design current", "A", calc`${current} × ${factor}`, "continuous-loads-branch") };
  }
  return { current, design: w.work("design current", "A", calc`1 × ${current}`, "continuous-loads-branch") };
}

function isLargeTank(w: Worksheet, { kind, gallons }: SaidLoad): boolean {
  if (kind !== "water-heater" || gallons === undefined) return false;
  const said = w.given("tank, in gallons", { n: exact(gallons).toFraction(), unit: "1" });
  const most = w.constant<"1">("water-heater-largest-tank");
  return w.choose("tank", [said, "≤", most], ["the rule for storage heaters holds", () => false], [
    "larger than the rule for storage heaters reaches",
    () => true,
  ], "water-heaters");
}

function isContinuous(w: Worksheet, load: SaidLoad): boolean {
  const name = nameOf(load.kind);
  if (load.continuous !== undefined) {
    w.given(`${name}, hours`, load.continuous ? "continuous" : "not continuous");
    return load.continuous;
  }
  if (USUALLY_CONTINUOUS.includes(load.kind)) {
    w.suppose(
      `${name}, hours`,
      "continuous",
      "it usually runs for three hours or more",
      "not continuous",
      "continuous-loads-branch",
    );
    return true;
  }
  w.suppose(
    `${name}, hours`,
    "not continuous",
    "nothing was said of three hours or more at a time",
    "continuous load",
    "continuous-loads-branch",
  );
  return false;
}

function cooking(w: Worksheet, loads: readonly SaidLoad[], supply: Supply): Load {
  const volts = supply.volts!;
  const open = loads.find((load) => load.kind !== "range" && !hasRating(load));
  if (open) throw askRating(open);
  const pieces = loads.map((load) => ({
    count: w.given(`number of ${nameOf(load.kind)}s`, { n: String(load.count), unit: "1" }),
    rating: load.rating || load.current
      ? nameplate(w, nameOf(load.kind), load.rating ?? load.current!, volts)
      : w.assume<"VA">("range-rating"),
    piece: load.kind as "range" | "wall-oven" | "cooktop",
  }));
  const { connected, demand } = cookingBranchLoad(w, pieces);
  w.figure("demand-load", demand, "load by the cooking table");
  const current = lineCurrent(w, demand, volts, supply.phases, "load current");
  const design = w.work("design current", "A", calc`1 × ${current}`, "cooking-branch-circuit");
  const from = w.constant<"VA">("range-branch-circuit-from");
  const isLarge = loads.some(({ kind }) => kind === "range") && w.holds(connected, "≥", from);
  return { current, design, told: true, ...(isLarge && { least: w.constant<"A">("range-branch-circuit-least") }) };
}

/** An arc welder: its conductors may be smaller by its duty cycle. */
function welder(w: Worksheet, load: SaidLoad, supply: Supply): Load {
  if (load.dutyCycle === undefined) {
    throw need(
      "dutyCycle",
      "What duty cycle does the welder's plate give at that current? Or does it give an effective current I1eff?",
      "50 A welder, 30 % duty cycle",
    );
  }
  const primary = currentOf(w, load, supply);
  const duty = w.given("duty cycle", { n: exact(load.dutyCycle).toFraction(), unit: "%" });
  const multiplier = w.lookUp<"1">(
    "multiplier for the duty cycle",
    "arc-welder-multiplier",
    "nonmotor generator",
    duty,
  );
  const effective = w.work("effective current", "A", calc`${primary} × ${multiplier}`, "welders");
  return { current: effective, design: effective, told: true, welder: primary };
}

/** Only the circuit's rating is known: it is sized to carry all that its device lets through. */
function byRating(w: Worksheet, r: CircuitRequest, load: SaidLoad | undefined): Load {
  const rating = w.given(r.breaker ? "breaker" : "receptacle rating", asQuantity(circuitRating(r)!));
  const sizing = load && SIZING[load.kind] ||
    (load?.continuous ? { factor: "continuous-load-factor", clause: "continuous-loads-branch" } : undefined);
  const name = load ? nameOf(load.kind) : "load";
  if (sizing) {
    const factor = w.constant<"%">(sizing.factor);
    const current = w.work(`most the ${name} may draw on it`, "A", calc`${rating} ÷ ${factor}`, sizing.clause);
    w.suppose(
      `${name}, load`,
      w.say`${current}`,
      "its own current was not told; this is the most the circuit allows it",
      `${name} draws 16 A`,
    );
    return { current, design: rating, told: false };
  }
  const because = load && RATED_BY_CIRCUIT.includes(load.kind)
    ? "the circuit's rating was told and not what it draws"
    : "no load was told";
  w.suppose("load", w.say`the full ${rating}`, because, "load 20 A");
  return { current: rating, design: rating, told: false };
}
