/** The circuit's conductors: what the plan says, or the smallest that will do. */
import { calc } from "../../../core/formula.ts";
import { NotCovered } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { markedHigher, wiringOf } from "../../../rules/conditions.ts";
import {
  type Ampacity,
  ampacityOf,
  chooseConductor,
  type Chosen,
  type Duty,
  type Material,
  meets,
  showTests,
  sizesIn,
  smallLimit,
  type Wiring,
} from "../../../rules/conductors.ts";
import { isLarger } from "../../../rules/grounding.ts";
import { breakerBelow, largestBreaker } from "../../../rules/overcurrent.ts";
import type { Method } from "../../../rules/wiring-methods.ts";
import type { Findings } from "./check.ts";
import type { Load } from "./current.ts";
import { mayGoUp } from "./loads.ts";
import type { CircuitRequest } from "./request.ts";
import { isLineToNeutral } from "../../../rules/power.ts";
import type { Supply } from "./supply.ts";

export type Circuit = { supply: Supply; load: Load; device: Known<"A"> };
export type Wire = {
  /** What ampacity and protection ask for, or the plan's own size where that will do. */
  chosen: Chosen;
  /** The base of a proportional equipment ground in this edition. */
  needed: Known<"size">;
  material: Material;
  method: Method | undefined;
  wiring: Wiring;
  /** The plan's own size stands. */
  isPlanned: boolean;
};

export function conductorOf(w: Worksheet, r: CircuitRequest, circuit: Circuit, findings: Findings): Wire {
  const duty = { ...dutyOf(w, circuit), ...(!mayGoUp(r) && { nextSizeUp: false }) };
  const count = countOf(w, r, circuit.supply);
  const own = r.size === undefined ? undefined : planned(w, r, circuit, duty, count, findings);
  const { chosen, wiring } = own ?? smallest(w, r, circuit, duty, count);
  fromOptions(w, r, chosen, findings);
  return {
    chosen,
    needed: baseOfGround(w, duty, wiring, chosen, own !== undefined),
    material: wiring.material,
    method: wiring.method,
    wiring,
    isPlanned: own !== undefined,
  };
}

/** The smallest size that the same circuit takes in a cable of this make, or undefined where none is made. */
export function sizeInCable(
  w: Worksheet,
  r: CircuitRequest,
  circuit: Circuit,
  method: Method,
): Known<"size"> | undefined {
  const { insulation: _, ...said } = r;
  const duty = { ...dutyOf(w, circuit), ...(!mayGoUp(r) && { nextSizeUp: false }) };
  const count = countOf(w, r, circuit.supply);
  return w.ifCovered(() => smallest(w, { ...said, method }, circuit, duty, count).chosen.size);
}

/** What the conductors must do. A welder's device may exceed them; they follow its duty cycle. */
function dutyOf(w: Worksheet, { load, device }: Circuit): Duty {
  if (!load.welder) return { design: load.design, load: load.current, device };
  const share = w.constant<"%">("welder-conductor-device-most");
  const least = w.work("least ampacity", "A", calc`max(${load.design}, ${device} ÷ ${share})`, "welders");
  return { design: least, load: least };
}

/** Current-carrying conductors together: as said, or those of each circuit times the circuits. */
function countOf(w: Worksheet, r: CircuitRequest, { phases, nominal }: Supply): Known<"1"> | undefined {
  if (r.conductors !== undefined) return undefined;
  if (r.circuits === undefined && !r.neutralCounts) return undefined;
  const lines = phases === 3 ? 3 : 2;
  // Two lines and the neutral of a wye: the neutral carries about as much as the lines.
  const wyeNeutral = phases === 1 && r.neutral === true && r.wye === true;
  // Of two wires, a line and the neutral, both are in the count already.
  const isTwoWire = phases === 1 && !r.neutral && nominal !== undefined && isLineToNeutral(nominal);
  const extra = (r.neutralCounts || wyeNeutral) && !isTwoWire ? 1 : 0;
  const each = w.given(
    "current-carrying conductors of each circuit",
    { n: String(lines + extra), unit: "1" },
    extra
      ? "the neutral counts"
      : isTwoWire
      ? "the line and its neutral, which carries the same current"
      : "a neutral that carries only the difference does not count",
    "neutral-counting",
  );
  if (r.circuits === undefined) return each;
  const circuits = w.given("circuits together", { n: String(r.circuits), unit: "1" });
  return w.work("current-carrying conductors together", "1", calc`${circuits} × ${each}`, "count-adjustment");
}

/** The smallest size that passes. */
function smallest(
  w: Worksheet,
  r: CircuitRequest,
  { device }: Circuit,
  duty: Duty,
  count: Known<"1"> | undefined,
): { chosen: Chosen; wiring: Wiring } {
  const wiring = wiringOf(w, r, device, count && { count });
  return { wiring, chosen: chooseConductor(w, duty, wiring) };
}

/** The plan's conductor, where it passes; otherwise what speaks against it is a finding. */
function planned(
  w: Worksheet,
  r: CircuitRequest,
  { device, load }: Circuit,
  full: Duty,
  count: Known<"1"> | undefined,
  findings: Findings,
): { chosen: Chosen; wiring: Wiring } | undefined {
  const size = w.given("conductor of the plan", r.size!);
  const under = (said: CircuitRequest) => {
    const wiring = wiringOf(w, said, device, count && { count });
    const one = ampacityOf(w, size, wiring);
    // A load that was not told may be whatever the conductor carries: the device alone is held against it.
    const duty = load.told ? full : { ...full, design: one.ampacity, load: one.ampacity, device };
    return { wiring, one, duty, does: meets(w, one, duty, size, wiring.material) };
  };
  // Where the tables have no figure for it here, it may not be used here.
  const carried = w.ifCovered(() => under(r));
  if (!carried) {
    findings.problems.push(notHere(w, () => under(r), String(r.size)));
    return undefined;
  }
  const marked = markedHigher(w, r);
  const isBetter = marked !== undefined && !w.scratch(() => under(r).does) && w.scratch(() => under(marked.r).does);
  const { wiring, one, duty, does } = isBetter ? under(marked.r) : carried;
  if (!does) {
    const { device: _, ...carried } = duty;
    showTests(w, { size, ...one }, carried, wiring.material);
    findings.problems.push(
      w.say`${r.size!} ${wiring.material} will not do: ${whyNot(w, one, duty, size, wiring.material)}`,
    );
    return undefined;
  }
  if (isBetter) findings.conditions.push(marked.condition);
  const chosen = { size, ...one };
  showTests(w, chosen, duty, wiring.material);
  const isCovered = load.told || w.choose<boolean>(
    "ampacity against the breaker",
    [one.ampacity, "≥", device],
    ["covers it", () => true],
    ["below it: the load must be no more than the ampacity", () => false],
    "next-size-up",
  );
  if (!isCovered) {
    const factor = w.constant<"%">("continuous-load-factor");
    const steady = w.work(
      "most continuous load it carries",
      "A",
      calc`${one.ampacity} ÷ ${factor}`,
      "continuous-loads-branch",
    );
    findings.conditions.push(w.say`the load is not over ${one.ampacity}, or ${steady} where it is continuous`);
  }
  return { chosen, wiring };
}

/** Why the tables have no figure for a conductor where it lies. */
function notHere(w: Worksheet, attempt: () => unknown, size: string): string {
  try {
    w.scratch(attempt);
  } catch (error) {
    if (error instanceof NotCovered) return `${size} will not do here: ${error.message}`;
    throw error;
  }
  return `${size} will not do here`;
}

function whyNot(w: Worksheet, one: Ampacity, duty: Duty, size: Known<"size">, material: Material): string {
  if (w.holds(one.terminal, "<", duty.design)) {
    return w.say`its terminations allow ${one.terminal}, the circuit needs ${duty.design}`;
  }
  if (w.holds(one.corrected, "<", duty.load)) return w.say`it carries ${one.corrected} here, the load is ${duty.load}`;
  const limit = smallLimit(w, size, material);
  const isLimited = limit !== undefined && w.holds(limit, "<", duty.device!);
  const most = isLimited
    ? limit
    : duty.nextSizeUp === false
    ? breakerBelow(w, one.ampacity)
    : largestBreaker(w, one.ampacity);
  return w.choose(
    "breaker of the plan on this conductor",
    [duty.device!, "≤", most],
    ["allowed", () => ""],
    ["more than it may have", () => w.say`it may have at most a ${most} breaker`],
    isLimited ? "small-conductors" : "next-size-up",
  );
}

/** Of the sizes to choose from, the one to take. */
function fromOptions(w: Worksheet, r: CircuitRequest, chosen: Chosen, findings: Findings): void {
  if (!r.options) return;
  const order = sizesIn(w, "conductor-ampacity");
  const enough = r.options.filter((size) => order.indexOf(size) >= order.indexOf(w.size(chosen.size)));
  if (enough.length === 0) findings.problems.push(`none of ${r.options.join(", ")} will do`);
}

/**
 * The size that a proportional ground starts from: what load and device need here, after correction and adjustment. Where
 * no load was told the device's full rating is needed, as in a plan that names no size.
 */
function baseOfGround(w: Worksheet, duty: Duty, wiring: Wiring, chosen: Chosen, isPlanned: boolean): Known<"size"> {
  if (!isPlanned) return chosen.size;
  const needed = () => chooseConductor(w, duty, wiring, "smallest conductor that would do").size;
  const isMore = w.scratch(() => {
    const least = w.ifCovered(needed);
    return least !== undefined && isLarger(w, chosen.size, least);
  });
  return isMore ? needed() : chosen.size;
}
