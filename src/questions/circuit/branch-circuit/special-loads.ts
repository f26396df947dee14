/** Loads with rules of their own: household cooking, arc welders, and circuits of which only the rating is known. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { exact } from "../../../core/quantity.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cookingBranchLoad } from "../../../rules/cooking.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { lineCurrent } from "../../../rules/power.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { askRating, currentOf, hasRating, type Load } from "./current.ts";
import { nameOf, RATED_BY_CIRCUIT, SIZING } from "./loads.ts";
import type { CircuitRequest, SaidLoad } from "./request.ts";
import type { Supply } from "./supply.ts";

/** Ranges, ovens and cooktops: by the cooking table and its note on branch circuits. */
export function cooking(w: Worksheet, loads: readonly SaidLoad[], supply: Supply): Load {
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
  const from = w.constant<"VA">("range-branch-circuit-from");
  const isLarge = loads.some(({ kind }) => kind === "range") && w.choose<boolean>(
    "size of the range",
    [connected, "≥", from],
    [w.say`${from} or more: its circuit has a least rating`, () => true],
    [w.say`below ${from}`, () => false],
    "range-branch-circuit",
  );
  return {
    current,
    design: current,
    told: true,
    ...(pieces.length === 1 && loads[0]!.count === 1 &&
      { nameplate: () => lineCurrent(w, pieces[0]!.rating, volts, supply.phases, "current by the nameplate") }),
    ...(isLarge &&
      { least: { device: w.constant<"A">("range-branch-circuit-least"), clause: "range-branch-circuit" } }),
  };
}

/** An arc welder: its conductors may be smaller by its duty cycle. */
export function welder(w: Worksheet, load: SaidLoad, supply: Supply): Load {
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
export function byRating(w: Worksheet, r: CircuitRequest, load: SaidLoad | undefined): Load {
  const rating = w.given(r.breaker ? "breaker" : "receptacle rating", asQuantity((r.breaker ?? r.receptacle)!));
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
    return { current, design: rating, told: false, rating };
  }
  const because = load && RATED_BY_CIRCUIT.includes(load.kind)
    ? "the circuit's rating was told and not what it draws"
    : "no load was told";
  w.suppose("load", w.say`the full ${rating}`, because, "load 20 A");
  return { current: rating, design: rating, told: false, rating };
}
