/** The circuit's overcurrent device: what the load needs, what the plan says, what a rule allows at most. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { nextBreaker } from "../../rules/overcurrent.ts";
import { asQuantity } from "../question.ts";
import type { Findings } from "./check.ts";
import type { Load } from "./load.ts";
import { nameOf, NONMOTOR, SIZING } from "./loads.ts";
import type { CircuitRequest } from "./request.ts";

export function breakerOf(w: Worksheet, r: CircuitRequest, load: Load, findings: Findings): Known<"A"> {
  const needed = neededFor(w, load);
  const said = r.breaker ?? (load.told ? undefined : r.receptacle);
  const device = said ? planned(w, r, said, load, needed, findings) : needed;
  receptacle(w, r, device, findings);
  atMost(w, r, load, device, findings);
  return device;
}

/** The next standard size for the design current, or the least that a rule or the appliance's receptacle allows. */
function neededFor(w: Worksheet, load: Load): Known<"A"> {
  const next = nextBreaker(w, load.welder ?? load.design, "breaker, the next standard rating");
  if (!load.least || w.holds(next, "≥", load.least)) return next;
  return w.work("breaker, not below the least", "A", calc`max(${next}, ${load.least})`);
}

function planned(
  w: Worksheet,
  r: CircuitRequest,
  said: NonNullable<CircuitRequest["breaker"]>,
  load: Load,
  needed: Known<"A">,
  findings: Findings,
): Known<"A"> {
  const breaker = w.given(r.breaker ? "breaker of the plan" : "circuit of the receptacle's rating", asQuantity(said));
  const next = w.scratch(() => w.holds(breaker, "=", nextBreaker(w, breaker)));
  if (!next) w.caution(w.say`${breaker} is no standard rating.`, "overcurrent-ratings");
  const from = load.least && w.holds(load.least, ">", load.design) && !isOwnReceptacle(r) ? load.least : load.design;
  const holds = load.welder ? [breaker, "≥", load.design] as const : [breaker, "≥", from] as const;
  return w.choose(
    "breaker of the plan against the load",
    holds,
    ["enough", () => breaker],
    ["too small", () => {
      findings.problems.push(w.say`a ${breaker} breaker is too small: the circuit is sized for ${from}`);
      return needed;
    }],
    "continuous-loads-branch",
  );
}
/** A dryer may be wired without the receptacle that its assumed circuit is made for. */
const isOwnReceptacle = (r: CircuitRequest) => r.loads?.[0]?.kind === "dryer";

/** A lone receptacle is rated no lower than its circuit. */
function receptacle(w: Worksheet, r: CircuitRequest, device: Known<"A">, findings: Findings): void {
  if (!r.receptacle) return;
  const rating = w.given("receptacle", asQuantity(r.receptacle));
  w.choose(
    "receptacle against the breaker",
    [rating, "≥", device],
    ["large enough", () => {}],
    [
      "too small for this circuit",
      () => void findings.problems.push(w.say`a ${rating} receptacle may not stand alone on a ${device} circuit`),
    ],
    "receptacle-ratings",
  );
}

/** What a rule allows at most: single appliances without motors, resistance heating, welders. */
function atMost(w: Worksheet, r: CircuitRequest, load: Load, device: Known<"A">, findings: Findings): void {
  const [only, another] = r.loads ?? [];
  if (!only || another || !load.told) return;
  const most = mostFor(w, only.kind, only.count, load);
  if (!most) return;
  w.choose(
    "breaker against the largest allowed",
    [device, "≤", most.device],
    ["within it", () => {}],
    [
      "too large",
      () =>
        void findings.problems.push(
          w.say`a ${device} breaker is too large for this ${nameOf(only.kind)}: at most ${most.device}`,
        ),
    ],
    most.clause,
  );
}

function mostFor(
  w: Worksheet,
  kind: NonNullable<CircuitRequest["loads"]>[number]["kind"],
  count: number,
  load: Load,
): { device: Known<"A">; clause: string } | undefined {
  if (load.welder) {
    const share = w.constant<"%">("welder-device-most");
    return {
      device: w.work("largest device of the welder", "A", calc`${load.welder} × ${share}`, "welders"),
      clause: "welders",
    };
  }
  if (NONMOTOR.includes(kind) && count === 1) {
    const [small, device] = [
      w.constant<"A">("nonmotor-appliance-small-current"),
      w.constant<"A">("nonmotor-appliance-small-device"),
    ];
    if (w.holds(load.current, "≤", small)) return { device, clause: "appliance-protection" };
    const share = w.constant<"%">("nonmotor-appliance-device-share");
    const limit = w.work("part of its current", "A", calc`${load.current} × ${share}`, "appliance-protection");
    return { device: nextBreaker(w, limit, "largest device, next standard size"), clause: "appliance-protection" };
  }
  if (SIZING[kind]?.clause !== "heating-circuits") return undefined;
  return count > 1
    ? { device: w.constant<"A">("heating-outlets-device-most"), clause: "heating-circuits" }
    : { device: w.constant<"A">("heating-device-most"), clause: "heating-protection" };
}
