/** Plan checks: sizes that were put up, each under what was said, and under what it would take for them to do. */
import type { ConductorSize } from "../../../core/conductor-size.ts";
import { calc } from "../../../core/formula.ts";
import type { Known, Verdict } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { type Ampacity, ampacityOf, areaOf, type Material, smallLimit, tooHot } from "../../../rules/conductors.ts";
import { unfit } from "../../../rules/fitness.ts";
import { smaller } from "../../../rules/grounding.ts";
import { nextBreaker, protects } from "../../../rules/overcurrent.ts";
import { tooSmallToParallel } from "../../../rules/parallel.ts";
import { showLimit } from "../../../rules/size-for-drop.ts";
import type { Drop } from "../../../rules/voltage-drop.ts";
import { isLimited } from "../../../rules/wiring-methods.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Judgement } from "../../parts/verdict.ts";
import type { Circuit } from "./circuit.ts";
import { clauseOf, leastNeutral } from "./grounding.ts";
import { limitOf, type Lines } from "../../parts/lines.ts";
import { dropOfSize, dutyOf, hasDrop, isByDwellingRule, leastServiceConductor, type Surroundings } from "./lines.ts";
import type { FeederRequest } from "./request.ts";

/** A size that was put up, and what became of it. */
export type Judged = {
  is: Verdict;
  put: ConductorSize;
  size: Known<"size">;
  /** Of all its sets; none where the conductors may not lie at all. */
  ampacity?: Known<"A">;
  around: Surroundings;
  /** Why not, or what it takes. */
  because: string[];
  sets?: Known<"1">;
  drop?: Drop;
};
/** One that will do, perhaps on a condition. */
export type Standing = Judged & { ampacity: Known<"A"> };
export const stands = (judged: Judged): judged is Standing => judged.is !== "not ok";
type Reasons = { against: string[]; conditions: string[] };
const nothing = () => {};

/** Judges each size, at the terminations assumed and then at better ones where nothing was said of them. */
export function judgeSizes(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  material: Material,
): Judged[] {
  return (r.sizes ?? []).map((put) => {
    w.part(`Check of ${put.name} ${material}`);
    const better = betterTerminations(w, r, around);
    const ways = [{ around, condition: undefined as string | undefined }, ...(better ? [better] : [])];
    const good = w.first(ways, (way) => {
      const judged = judge(w, r, circuit, way.around, material, put, way.condition);
      return judged.is === "not ok" ? undefined : judged;
    });
    return good ?? judge(w, r, circuit, around, material, put, undefined);
  });
}

/** Terminations marked for the higher column, where the marking was not told and the cable leaves it open. */
function betterTerminations(w: Worksheet, r: FeederRequest, around: Surroundings) {
  if (r.terminals || isLimited(r.method)) return undefined;
  const terminals = w.constant<"°C">("terminal-temperature-large");
  if (w.holds(terminals, "≤", around.terminals)) return undefined;
  const where = r.method ? "" : ", and it is not NM or UF cable";
  return { around: { ...around, terminals }, condition: w.say`both ends are marked for ${terminals}${where}` };
}

function judge(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  material: Material,
  put: ConductorSize,
  condition: string | undefined,
): Judged {
  const size = w.given("size put up for checking", put);
  const sets = r.sets !== undefined && r.sets > 1
    ? w.given("parallel sets", { n: String(r.sets), unit: "1" })
    : undefined;
  const hot = tooHot(w, around);
  if (hot) return { is: "not ok", put, size, around, because: [hot] };
  const one = ampacityOf(w, size, { ...around, material });
  const ampacity = sets ? w.work("ampacity of all sets", "A", calc`${one.ampacity} × ${sets}`) : one.ampacity;
  const reasons: Reasons = { against: [], conditions: condition ? [condition] : [] };
  const unparallel = sets && tooSmallToParallel(w, size);
  if (unparallel) reasons.against.push(unparallel);
  checkService(w, r, size, material, reasons);
  for (const { is, because } of unfit(w, r, size)) {
    (is === "not ok" ? reasons.against : reasons.conditions).push(because);
  }
  if (isByDwellingRule(w, r, circuit)) checkDwelling(w, r, circuit, ampacity, reasons);
  else {
    checkDevice(w, circuit, one, ampacity, size, material, reasons);
    checkLoad(w, circuit, one, ampacity, sets, reasons);
  }
  checkWires(r, circuit, reasons);
  const drop = hasDrop(r) && reasons.against.length === 0
    ? checkDrop(w, r, circuit, size, material, sets, reasons)
    : undefined;
  const is: Verdict = reasons.against.length > 0 ? "not ok" : reasons.conditions.length > 0 ? "ok if" : "ok";
  return {
    is,
    put,
    size,
    ampacity,
    around,
    because: is === "not ok" ? reasons.against : reasons.conditions,
    ...(sets && { sets }),
    ...(drop && { drop }),
  };
}

/** Service conductors are no smaller than the code allows any of them to be. */
function checkService(
  w: Worksheet,
  r: FeederRequest,
  size: Known<"size">,
  material: Material,
  { against }: Reasons,
): void {
  if (r.supply !== "service") return;
  const least = leastServiceConductor(w, material);
  w.choose(
    "size against the least of a service",
    [areaOf(w, size), "≥", areaOf(w, least, "area of the least service conductor")],
    ["not below it", nothing],
    ["too small", () => {
      against.push(w.say`service conductors are ${least} ${material} or larger, and these are ${size}`);
    }],
    "service-conductors",
  );
}

function checkDwelling(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  ampacity: Known<"A">,
  { against }: Reasons,
): void {
  const { design } = dutyOf(w, r, circuit);
  w.choose("carries its share of the rating", [ampacity, "≥", design], ["yes", nothing], ["no", () => {
    against.push(w.say`it carries ${ampacity} and the dwelling rule asks for ${design}`);
  }], "dwelling-conductors");
}

function checkDevice(
  w: Worksheet,
  { rating }: Circuit,
  one: Ampacity,
  ampacity: Known<"A">,
  size: Known<"size">,
  material: Material,
  { against }: Reasons,
): void {
  const most = smallLimit(w, size, material);
  if (most && w.holds(rating, ">", most)) {
    w.choose("small-conductor limit", [rating, "≤", most], ["kept", nothing], ["passed", nothing], "small-conductors");
    against.push(w.say`${size} ${material} may not be on more than ${most}`);
    return;
  }
  if (w.holds(rating, "≤", ampacity)) {
    w.choose("breaker against ampacity", [rating, "≤", ampacity], ["the ampacity covers it", nothing], ["", nothing]);
    return;
  }
  const carries = w.say`it carries ${ampacity} at ${one.terminal.name.replace(/.* at /, "")}`;
  const limit = w.constant<"A">("next-size-up-limit");
  const mayBeAbove = w.choose<boolean>(
    "reach of the next size up",
    [rating, "≤", limit],
    [
      "within it",
      () => true,
    ],
    ["beyond it: the device may not exceed the ampacity", () => false],
    "conductors-above-next-size-up",
  );
  if (!mayBeAbove) {
    against.push(w.say`${carries}, and above ${limit} a breaker may not be more: ${rating} is`);
    return;
  }
  const next = nextBreaker(w, ampacity, "next standard rating above the ampacity");
  const isNext = protects(w, rating, ampacity);
  w.choose("next size up", [rating, "≤", next], ["the breaker is the next standard size up", nothing], [
    "the breaker is above the next standard size",
    nothing,
  ], "next-size-up");
  if (!isNext) {
    against.push(w.say`${carries}, and ${rating} is above the next standard size (${next})`);
  }
}

function checkLoad(
  w: Worksheet,
  { load, design, loadTold }: Circuit,
  one: Ampacity,
  ampacity: Known<"A">,
  sets: Known<"1"> | undefined,
  { against, conditions }: Reasons,
): void {
  const all = (each: Known<"A">) => sets ? calc`${each} × ${sets}` : calc`1 × ${each}`;
  const holds = (name: string, current: Known<"A">, most: Known<"A">, clause: string) =>
    w.choose<boolean>(name, [current, "≤", all(most)], ["carried", () => true], ["too much", () => false], clause);
  const byEnds = holds("load against the terminations", design, one.terminal, "terminal-temperature");
  const byWire = holds("load against the conductor here", load, one.corrected, "ampacity");
  const carries = byEnds && byWire;
  if (!loadTold) {
    if (!carries) conditions.push(w.say`its load is at most ${ampacity}`);
    return;
  }
  if (!carries) against.push(w.say`it carries ${ampacity}, and the load takes ${design}`);
}

/** A two-wire cable has no neutral for a panel with 120 V circuits. */
function checkWires(r: FeederRequest, { phases }: Circuit, { conditions, against }: Reasons): void {
  if (r.cableWires === undefined || r.neutral === false) return;
  if (phases === 3) {
    if (r.cableWires < 4) conditions.push("no load needs a neutral: the cable has none");
    if (r.cableWires < 3) against.push("a two-wire cable cannot carry three phases");
  } else if (r.cableWires < 3) {
    conditions.push("only 240 V loads without a neutral are on it: a two-wire cable has none");
  }
}

/** The drop limit is a recommendation: passing it is a condition, not a fault. */
function checkDrop(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  size: Known<"size">,
  material: Material,
  sets: Known<"1"> | undefined,
  { conditions }: Reasons,
): Drop {
  const limit = limitOf(w, r);
  const drop = dropOfSize(w, r, circuit, size, material, sets);
  if (!showLimit(w, drop, limit, "voltage-drop-feeder")) {
    const most = w.work("load that keeps the limit", "A", calc`${circuit.load} × ${limit} ÷ ${drop.percent}`);
    conditions.push(w.say`${drop.percent} drop is acceptable (${limit} is recommended, up to ${most})`);
  }
  return drop;
}

/** A neutral or ground that was put up: what became of it, and the size where it stands. */
type Put = { judged: Judgement; size?: Known<"size"> };

const put = (size: Known<"size">, judged: Judgement): Put => ({ judged, ...(judged.is !== "not ok" && { size }) });

/**
 * The neutral that was put up beside the lines: against the least the code allows, and against its load, which it hangs on
 * where none was told.
 */
export function judgeNeutral(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  lines: Lines,
): Put | undefined {
  if (r.neutralSize === undefined || r.neutral === false) return undefined;
  w.part("Check of the neutral");
  const { sets, material } = lines;
  const size = w.given("neutral put up for checking", r.neutralSize);
  const what = `neutral ${r.neutralSize}`;
  const judged = (is: Verdict, because: string) => put(size, { what, is, because });
  const unparallel = sets && tooSmallToParallel(w, size);
  if (unparallel) return judged("not ok", unparallel);
  const floor = leastNeutral(w, r, circuit, lines);
  const least = smaller(w, floor, lines.size, "least neutral", clauseOf(r), "it need not be larger than the lines");
  const isEnough = w.choose(
    "neutral against the least",
    [areaOf(w, size, "area of the neutral"), "≥", areaOf(w, least, "area of the least neutral")],
    ["not below it", () => true],
    ["too small", () => false],
    clauseOf(r),
  );
  if (!isEnough) return judged("not ok", `${what} is below the least here, ${w.size(least)}`);
  const one = ampacityOf(w, size, { ...around, material, ...(lines.count && { count: lines.count }) }).ampacity;
  const ampacity = sets ? w.work("ampacity of all neutrals", "A", calc`${one} × ${sets}`) : one;
  if (r.neutralLoad) {
    const load = w.given("neutral load", asQuantity(r.neutralLoad));
    return w.choose<Put>("neutral against its load", [ampacity, "≥", load], [
      "carried",
      () => judged("ok", w.say`${what} carries ${ampacity}, its load is ${load}`),
    ], [
      "too much",
      () => judged("not ok", w.say`${what} carries ${ampacity}, and its load is ${load}`),
    ], "ampacity");
  }
  return w.choose<Put>(
    "neutral against the lines",
    [areaOf(w, size, "area of the neutral"), "≥", areaOf(w, lines.size, "area of a line conductor")],
    ["as large", () => judged("ok", `${what} is as large as the lines`)],
    ["smaller: its load decides", () => judged("ok if", w.say`the neutral's load is at most ${ampacity}`)],
    clauseOf(r),
  );
}

/** The equipment ground that was put up, against the one that is needed with the lines that are installed. */
export function judgeGround(
  w: Worksheet,
  r: FeederRequest,
  needed: { size: Known<"size">; material: Material } | undefined,
): Put | undefined {
  if (r.groundSize === undefined) return undefined;
  if (!needed) {
    w.caution(
      "No equipment ground runs with service conductors: the one put up was not judged.",
      "equipment-grounding",
    );
    return undefined;
  }
  w.part("Check of the ground");
  const size = w.given("ground put up for checking", r.groundSize);
  const what = `ground ${r.groundSize}`;
  const wanted = `${w.size(needed.size)} ${needed.material}`;
  const [is, because] = w.choose<[Verdict, string]>(
    "ground against the one needed",
    [areaOf(w, size, "area of the ground"), "≥", areaOf(w, needed.size, "area of the ground needed")],
    ["not smaller", () => ["ok", `${what} is not smaller than ${wanted}`]],
    ["too small", () => ["not ok", `${what} is smaller than the ${wanted} needed`]],
    "equipment-grounding",
  );
  return put(size, { what, is, because });
}

/** Several sizes as one verdict. */
export function verdictOn(judged: readonly Judged[]): { is: Verdict; because: string } {
  const is = judged.every((j) => j.is === "ok") ? "ok" : judged.every((j) => j.is === "not ok") ? "not ok" : "ok if";
  const reasonOf = (j: Judged) => j.because.join(j.is === "ok if" ? ", and " : "; ");
  if (judged.length === 1) return { is, because: reasonOf(judged[0]!) };
  if (is !== "ok if") {
    return {
      is,
      because: judged.map((j) => is === "ok" ? `${j.put} is ok` : `${j.put}: ${reasonOf(j)}`).join(". "),
    };
  }
  const may = judged.filter((j) => j.is !== "not ok")
    .map((j) => `it is ${j.put}${j.is === "ok" ? "" : `, and ${reasonOf(j)}`}`).join(", or ");
  const not = judged.filter((j) => j.is === "not ok").map((j) => `; ${j.put} is not: ${reasonOf(j)}`)
    .join("");
  return { is, because: may + not };
}
