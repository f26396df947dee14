/** The circuit's overcurrent device: what the load needs, what the plan says, what a rule allows at most. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { exact, type Quantity } from "../../../core/quantity.ts";
import { ratingOfConductor, wiringOf } from "../../../rules/conditions.ts";
import { ampacityOf, type Material, smallLimit } from "../../../rules/conductors.ts";
import { breakerBelow, largestBreaker, nextBreaker } from "../../../rules/overcurrent.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Findings } from "./check.ts";
import type { Load } from "./current.ts";
import { mayGoUp, nameOf, NONMOTOR, SIZING } from "./loads.ts";
import { checkOutlets, hold, nextRating } from "./outlets.ts";
import type { CircuitRequest } from "./request.ts";

export function breakerOf(w: Worksheet, r: CircuitRequest, load: Load, findings: Findings): Known<"A"> {
  if (load.rating) {
    standard(w, load.rating);
    checkOutlets(w, r, load, load.rating, findings);
    return load.rating;
  }
  const needed = neededFor(w, r, load);
  const most = mostFor(w, r, load);
  const device = r.breaker ? planned(w, asQuantity(r.breaker), load, { needed, most }, findings) : needed;
  if (most && w.holds(device, "=", needed)) splitIfAbove(w, device, most, findings);
  subdivided(w, r, load, device, findings);
  const before = findings.problems.length;
  checkOutlets(w, r, load, device, findings);
  return findings.problems.length > before ? needed : device;
}

/** The largest breaker a conductor may have, as the plan's own, where nothing but the conductor was told. */
export function breakerOfConductor(w: Worksheet, r: CircuitRequest): CircuitRequest {
  const hasLoad = (r.loads ?? []).some(({ rating, current }) => rating !== undefined || current !== undefined);
  if (r.size === undefined || r.breaker || r.receptacle || hasLoad) return r;
  w.part("Breaker of the conductor");
  const size = w.given("conductor", r.size);
  const material = r.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
  const rating = ratingOfConductor(w, size, { ...r, material });
  const { ampacity } = ampacityOf(w, size, wiringOf(w, { ...r, material }, rating));
  const largest = mayGoUp(r) ? largestBreaker(w, ampacity) : breakerBelow(w, ampacity, "largest breaker");
  const limit = smallLimit(w, size, material);
  const device = limit ? w.work("largest breaker", "A", calc`min(${largest}, ${limit})`, "small-conductors") : largest;
  const value = w.value(device);
  return "n" in value ? { ...r, breaker: { value: exact(value.n).valueOf(), unit: "A" } } : r;
}

/** The next standard size for the design current, or the least that a rule, a stock or the appliance's receptacle asks for. */
function neededFor(w: Worksheet, r: CircuitRequest, load: Load): Known<"A"> {
  const next = nextRating(w, r, load.welder ?? load.design, "breaker, the next standard rating");
  const isSmall = !r.breaker && w.scratch(() => w.holds(next, "<", w.assume<"A">("least-breaker")));
  const least = load.least ?? (isSmall ? { device: w.assume<"A">("least-breaker") } : undefined);
  if (!least || w.holds(next, "≥", least.device)) return next;
  return w.work("breaker, not below the least", "A", calc`max(${next}, ${least.device})`, least.clause);
}

type Bounds = { needed: Known<"A">; most: Most | undefined };

function planned(
  w: Worksheet,
  said: Quantity<"A">,
  load: Load,
  { needed, most }: Bounds,
  findings: Findings,
): Known<"A"> {
  const breaker = w.given("breaker of the plan", said);
  standard(w, breaker);
  const least = load.least && w.holds(load.least.device, ">", load.design) ? load.least.device : load.design;
  const isEnough = w.choose(
    "breaker of the plan against the load",
    [breaker, "≥", least],
    ["enough", () => true],
    ["too small", () => false],
    least === load.design ? "continuous-loads-branch" : load.least?.clause,
  );
  if (!isEnough) findings.problems.push(w.say`a ${breaker} breaker is too small: the circuit is sized for ${least}`);
  const isWithin = !most || w.choose(
    "breaker of the plan against the largest allowed",
    [breaker, "≤", most.device],
    ["within it", () => true],
    ["too large", () => false],
    most.clause,
  );
  if (!isWithin) {
    findings.problems.push(
      w.say`a ${breaker} breaker is too large for this ${most!.name}: at most ${most!.device}${
        most!.clause === "appliance-protection" ? " unless its plate names more" : ""
      }`,
    );
  }
  return isEnough && isWithin ? breaker : needed;
}

/** Ratings that are no standard ones exist, and are told. */
function standard(w: Worksheet, breaker: Known<"A">): void {
  const isStandard = w.scratch(() => w.holds(breaker, "=", nextBreaker(w, breaker)));
  if (!isStandard) w.caution(w.say`${breaker} is no standard rating.`, "overcurrent-ratings");
}

/** One circuit holds only so much of some loads. */
function splitIfAbove(w: Worksheet, device: Known<"A">, most: Most, findings: Findings): void {
  w.choose(
    "breaker against the largest allowed",
    [device, "≤", most.device],
    ["within it", () => {}],
    [
      "too large",
      () =>
        void findings.problems.push(
          w.say`one circuit may hold at most ${most.device} of ${most.name}, and this takes ${device}: split it`,
        ),
    ],
    most.clause,
  );
}

/** One heater on a larger device than its elements may have hangs on its maker's having subdivided them. */
function subdivided(w: Worksheet, r: CircuitRequest, load: Load, device: Known<"A">, findings: Findings): void {
  const loads = r.loads ?? [];
  if (!load.told || loads.length !== 1 || loads[0]!.count > 1) return;
  if (SIZING[loads[0]!.kind]?.clause !== "heating-circuits") return;
  const most = w.constant<"A">("heating-device-most");
  w.choose("device of its heating elements", [device, "≤", most], ["within their limit", () => {}], [
    "above it: they have devices of their own inside",
    () =>
      hold(
        w,
        r,
        findings,
        w.say`the maker has subdivided its elements, each part behind its own device of ${most} at the most`,
        "heating-subdivided",
      ),
  ], "heating-protection");
}

type Most = { device: Known<"A">; clause: string; name: string };

/** What a rule allows at most: single appliances without motors, resistance heating, welders. */
function mostFor(w: Worksheet, r: CircuitRequest, load: Load): Most | undefined {
  const [only, ...others] = r.loads ?? [];
  // Alike loads written out one by one are as many of them as counted.
  if (!only || others.some(({ kind }) => kind !== only.kind) || !load.told) return undefined;
  const count = [only, ...others].reduce((sum, each) => sum + each.count, 0);
  const name = nameOf(only.kind);
  if (load.welder) {
    const share = w.constant<"%">("welder-device-most");
    return {
      name,
      device: w.work("largest device of the welder", "A", calc`${load.welder} × ${share}`, "welders"),
      clause: "welders",
    };
  }
  if (NONMOTOR.includes(only.kind) && count === 1) {
    const small = w.constant<"A">("nonmotor-appliance-small-current");
    const clause = "appliance-protection";
    const current = load.nameplate?.() ?? load.current;
    return w.choose<Most>(
      "current of the appliance",
      [current, "≤", small],
      [w.say`not above ${small}`, () => ({
        name,
        device: w.constant<"A">("nonmotor-appliance-small-device"),
        clause,
      })],
      [w.say`above ${small}`, () => {
        const share = w.constant<"%">("nonmotor-appliance-device-share");
        const limit = w.work("part of its current", "A", calc`${current} × ${share}`, clause);
        return { name, device: nextBreaker(w, limit, "largest device, next standard size"), clause };
      }],
      clause,
    );
  }
  if (SIZING[only.kind]?.clause !== "heating-circuits") return undefined;
  // One heater above its elements' limit has them subdivided by its maker, each behind a device of its own.
  return count > 1
    ? { name, device: w.constant<"A">("heating-outlets-device-most"), clause: "heating-circuits" }
    : undefined;
}
