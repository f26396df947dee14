/** The load of the circuit: what it draws, and what its conductors and device are sized for. */
import { calc } from "../../../core/formula.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { askRating, askWhatItIs, currentOf, hasRating, type Load, refuseCooling } from "./current.ts";
import { FASTENED, isCooking, nameOf, PLUGGED_IN, SIZING, USUALLY_CONTINUOUS } from "./loads.ts";
import type { CircuitRequest, SaidLoad } from "./request.ts";
import { byRating, cooking, welder } from "./special-loads.ts";
import type { Supply } from "./supply.ts";

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
  const fixed = currents.filter((_, i) => FASTENED.includes(rated[i]!.kind));
  return {
    current: currents.length === 1 ? currents[0]! : w.work("load current", "A", calc`sum(${currents})`),
    design: designs.length === 1
      ? designs[0]!
      : w.work("design current", "A", calc`sum(${designs})`, "continuous-loads-branch"),
    told: true,
    ...pluggedIn(w, r, rated.map(({ kind, count }, i) => ({ kind, count, current: currents[i]! }))),
    ...(fixed.length > 0 && fixed.length < currents.length && {
      fastened: fixed.length === 1
        ? fixed[0]!
        : w.work("current of what is fastened in place", "A", calc`sum(${fixed})`, "shared-circuits"),
    }),
    ...(rated[0]!.kind === "dryer" && !r.breaker && { least: { device: w.assume<"A">("dryer-receptacle") } }),
  };
}

/** The heaviest appliance that hangs on a cord: one that stands loose, or any load for which a receptacle was told. */
function pluggedIn(
  w: Worksheet,
  { receptacle }: CircuitRequest,
  loads: readonly (Pick<SaidLoad, "kind" | "count"> & { current: Known<"A"> })[],
): Pick<Load, "plugged"> {
  const loose = loads.filter(({ kind, count }) =>
    count === 1 && (PLUGGED_IN.includes(kind) || receptacle !== undefined && ["load", "receptacles"].includes(kind))
  );
  const [first, ...others] = loose;
  if (!first) return {};
  const most = others.reduce((one, other) => w.holds(other.current, ">", one.current) ? other : one, first);
  return { plugged: { name: nameOf(most.kind), current: most.current } };
}

/** Receptacles count by number where no load is said. */
const isCounted = ({ kind, count, rating }: SaidLoad) => kind === "receptacles" && rating === undefined && count > 1;
const circuitRating = (r: CircuitRequest) => r.breaker ?? r.receptacle;

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
  return { current, design: current };
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
