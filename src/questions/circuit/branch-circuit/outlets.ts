/** What a circuit with several outlets may be rated, and what may be on it beside other things. */
import { calc } from "../../../core/formula.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { nextBreaker } from "../../../rules/overcurrent.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import { type Findings, isPlan } from "./check.ts";
import type { Load } from "./current.ts";
import { FASTENED, isCooking, nameOf } from "./loads.ts";
import type { CircuitRequest } from "./request.ts";

const RATINGS = "several-outlet-circuits";
const RECEPTACLES = "receptacle-ratings";

const has = ({ loads }: CircuitRequest, kind: string) => loads?.some((load) => load.kind === kind) ?? false;
/** One receptacle of a rating, or one load that is plugged into it. */
const isLoneReceptacle = ({ loads = [], receptacle }: CircuitRequest): boolean =>
  receptacle !== undefined &&
  loads.every(({ kind, count }) => (kind === "receptacles" || kind === "load") && count === 1);

/**
 * Whether the circuit has two or more outlets. Lighting and receptacles have, unless one receptacle of a rating was told;
 * loads that were not named are parts of one. Chargers have a rule of their own.
 */
function hasSeveralOutlets(r: CircuitRequest): boolean {
  const loads = r.loads ?? [];
  if (has(r, "ev-charger") || isLoneReceptacle(r)) return false;
  if (has(r, "lighting") || has(r, "receptacles")) return true;
  return loads.filter(({ kind }) => kind !== "load").reduce((sum, { count }) => sum + count, 0) > 1;
}

/** The next rating that a circuit of these outlets may have; the next standard one where its list ends. */
export function nextRating(w: Worksheet, r: CircuitRequest, current: Known<"A">, name: string): Known<"A"> {
  // Receptacles have a list of their own, which begins higher.
  const [list, key] = has(r, "receptacles") ? [RECEPTACLES, "circuit rating"] : [RATINGS, "rating"];
  const listed = hasSeveralOutlets(r) && w.ifCovered(() => w.atLeast<"A">(name, list, key, current));
  return listed || nextBreaker(w, current, name);
}

/** Everything that a circuit's rating has to suit beside the load: its outlets, and what they share. */
export function checkOutlets(
  w: Worksheet,
  r: CircuitRequest,
  load: Load,
  device: Known<"A">,
  findings: Findings,
): void {
  chargers(w, r, findings);
  receptacles(w, r, load, device, findings);
  plugged(w, r, load, device, findings);
  if (!hasSeveralOutlets(r)) return;
  if (!w.has(RATINGS, "lighting", device)) return notListed(w, r, device, findings);
  lighting(w, r, device, findings);
  fastened(w, r, load, device, findings);
}

/** What hangs on a fact that was not told: a condition of a plan, a caution otherwise. */
export function hold(w: Worksheet, r: CircuitRequest, findings: Findings, condition: string, clause: string): void {
  if (isPlan(r)) findings.conditions.push(condition);
  else w.caution(`Only where ${condition}.`, clause);
}

function notListed(w: Worksheet, r: CircuitRequest, device: Known<"A">, findings: Findings): void {
  const listed = w.edition.table(RATINGS).data.rows.map(([rating]) => String(rating));
  const [last, ...others] = [...listed].reverse();
  const is = r.breaker === undefined ? `and this takes ${w.say`${device}`}: split it` : `not ${w.say`${device}`}`;
  findings.problems.push(
    `a circuit with several outlets is rated ${others.reverse().join(", ")} or ${last} A, ${is}`,
  );
}

/** One receptacle is rated no lower than its circuit; several follow a table of their own. */
function receptacles(w: Worksheet, r: CircuitRequest, load: Load, device: Known<"A">, findings: Findings): void {
  if (!has(r, "receptacles") && !r.receptacle) return;
  if (isLoneReceptacle(r)) return lone(w, r, device, findings);
  // Beyond the table for several there is but one, for what was named.
  if (!w.has(RECEPTACLES, "least receptacle", device)) {
    if (r.receptacle && !has(r, "receptacles")) ofAppliance(w, r, load, device, findings);
    return;
  }
  if (!r.receptacle && areOrdinary(w, device)) return;
  const rating = r.receptacle ? w.given("receptacles", asQuantity(r.receptacle)) : w.assume<"A">("general-receptacle");
  const least = w.lookUp<"A">("smallest receptacle on such a circuit", RECEPTACLES, "least receptacle", device);
  const most = w.lookUp<"A">("largest receptacle on such a circuit", RECEPTACLES, "largest receptacle", device);
  const allowed = w.holds(least, "=", most) ? w.say`${least}` : w.say`${least} to ${most}`;
  if (!r.receptacle) {
    w.choose("receptacles for general use", [rating, "<", least], ["too small for this circuit", () => {}], [
      "suit it",
      () => {},
    ], "receptacles-several");
    // By their number alone they are those of general use.
    const isCounted = r.loads!.some(({ kind, rating: own }) => kind === "receptacles" && own === undefined);
    if (isCounted) {
      findings.problems.push(
        w.say`a ${device} circuit is for ${allowed} receptacles; ordinary ones are on ${rating} at the most: split it`,
      );
    } else hold(w, r, findings, w.say`its receptacles are rated ${allowed}`, "receptacles-several");
    return;
  }
  const problem = () =>
    void findings.problems.push(w.say`receptacles on a ${device} circuit are rated ${allowed}, not ${rating}`);
  w.choose("receptacles against the smallest", [rating, "≥", least], ["kept", () => {}], [
    "too small",
    problem,
  ], "receptacles-several");
  w.choose("receptacles against the largest", [rating, "≤", most], ["kept", () => {}], [
    "too large",
    problem,
  ], "receptacles-several");
}

/** Whether receptacles for general use suit a circuit; nothing is recorded. */
const areOrdinary = (w: Worksheet, device: Known<"A">): boolean =>
  w.scratch(() => {
    const least = w.lookUp<"A">("smallest receptacle on such a circuit", RECEPTACLES, "least receptacle", device);
    return w.holds(w.assume<"A">("general-receptacle"), "≥", least);
  });

const suits = (w: Worksheet, rating: Known<"A">, device: Known<"A">): boolean =>
  w.choose(
    "receptacle against the breaker",
    [rating, "≥", device],
    ["large enough", () => true],
    ["too small to stand alone on this circuit", () => false],
    "receptacle-ratings",
  );

function lone(w: Worksheet, r: CircuitRequest, device: Known<"A">, findings: Findings): void {
  const rating = w.given("receptacle", asQuantity(r.receptacle!));
  if (suits(w, rating, device)) return;
  const isAmongSeveral = w.has(RECEPTACLES, "least receptacle", device) &&
    w.scratch(() => w.holds(rating, "≥", w.lookUp<"A">("smallest", RECEPTACLES, "least receptacle", device)));
  if (isAmongSeveral) {
    findings.conditions.push(
      w.say`two or more receptacles are on it (a duplex is two; one alone is ${device} or more)`,
    );
  } else findings.problems.push(w.say`a ${rating} receptacle may not be on a ${device} circuit`);
}

/**
 * The one receptacle of an appliance: not below its circuit, but a range's goes by its demand and a welder's by what its
 * conductors are sized for.
 */
function ofAppliance(w: Worksheet, r: CircuitRequest, load: Load, device: Known<"A">, findings: Findings): void {
  const rating = w.given("receptacle", asQuantity(r.receptacle!));
  if (suits(w, rating, device)) return;
  const kinds = r.loads!.map(({ kind }) => kind);
  const isWelder = kinds.every((kind) => kind === "welder");
  if (!isWelder && !kinds.every(isCooking)) {
    findings.problems.push(w.say`a ${rating} receptacle may not be on a ${device} circuit`);
    return;
  }
  const needed = isWelder ? "conductors need" : "demand is";
  if (!load.told) {
    hold(w, r, findings, w.say`the ${nameOf(kinds[0]!)}'s ${needed} ${rating} or less`, "receptacle-ratings");
    return;
  }
  w.choose(
    `receptacle against the ${nameOf(kinds[0]!)}`,
    [rating, "≥", load.design],
    ["large enough", () => {}],
    ["too small", () =>
      void findings.problems.push(
        w.say`a ${rating} receptacle is too small for the ${nameOf(kinds[0]!)}, whose ${needed} ${load.design}`,
      )],
    "receptacle-ratings",
  );
}

function lighting(w: Worksheet, r: CircuitRequest, device: Known<"A">, findings: Findings): void {
  if (!has(r, "lighting")) return;
  const which = w.lookUp<"word">("lampholders on such a circuit", RATINGS, "lighting", device);
  if (w.word(which).startsWith("any")) return;
  const clause = "lighting-circuits-large";
  hold(w, r, findings, "its lampholders are heavy-duty ones and it is in no dwelling", clause);
}

/** Beside lights or plugs on the small circuits, equipment that is fastened in place takes half at the most. */
function fastened(w: Worksheet, r: CircuitRequest, { fastened }: Load, device: Known<"A">, findings: Findings): void {
  if (!fastened || !(has(r, "lighting") || has(r, "receptacles"))) return;
  const large = w.constant<"A">("required-circuit-rating");
  if (w.holds(device, ">", large)) return;
  const share = w.constant<"%">("fixed-equipment-share");
  const most = w.work("most that fastened equipment may take", "A", calc`${device} × ${share}`, "shared-circuits");
  const names = [...new Set(r.loads!.map(({ kind }) => kind).filter((kind) => FASTENED.includes(kind)))].map(nameOf);
  w.choose(
    "equipment fastened in place",
    [fastened, "≤", most],
    ["within its share", () => {}],
    ["more than its share", () =>
      void findings.problems.push(
        w.say`${
          names.join(" and ")
        } may take ${most} of a ${device} circuit with lights or plugs, not ${fastened}: a circuit of its own`,
      )],
    "shared-circuits",
  );
}

/** One appliance on a cord takes no more than a share of a small circuit that has other outlets too. */
function plugged(
  w: Worksheet,
  r: CircuitRequest,
  { plugged }: Load,
  device: Known<"A">,
  findings: Findings,
): void {
  if (!plugged || w.holds(device, ">", w.constant<"A">("required-circuit-rating"))) return;
  const { name, current } = plugged;
  const receptacle = r.receptacle && w.given("receptacle", asQuantity(r.receptacle));
  const share = w.constant<"%">("cord-and-plug-share");
  const most = w.work(
    "most that one plug may take beside other outlets",
    "A",
    receptacle ? calc`min(${device}, ${receptacle}) × ${share}` : calc`${device} × ${share}`,
    "cord-and-plug",
  );
  const isMore = w.choose<boolean>("appliance on a cord", [current, "≤", most], ["within its share", () => false], [
    "more than its share",
    () => true,
  ], "cord-and-plug");
  if (!isMore) return;
  if (hasSeveralOutlets(r)) {
    findings.problems.push(
      w.say`the ${name} may take ${most} of a ${device} circuit with other outlets, not ${current}: a circuit of its own`,
    );
  } else if (receptacle && w.holds(receptacle, "<", device)) {
    findings.problems.push(
      w.say`${current} is more than the ${most} for a ${receptacle} receptacle on a ${device} circuit`,
    );
  } else {
    const alone = w.say`nothing else is on the circuit (beside other outlets the ${name} may take ${most})`;
    hold(w, r, findings, alone, "cord-and-plug");
  }
}

/** A charger's outlet has a circuit of its own; from 2023 small ones, and managed ones, may share. */
function chargers(w: Worksheet, r: CircuitRequest, findings: Findings): void {
  const loads = r.loads ?? [];
  const pieces = loads.filter(({ kind }) => kind !== "load").reduce((sum, { count }) => sum + count, 0);
  if (!has(r, "ev-charger") || pieces < 2) return;
  if (w.edition.rule("ev-circuit") === "always") {
    findings.problems.push("a charger's outlet has a circuit of its own");
    return;
  }
  const above = w.constant<"A">("ev-individual-circuit-above");
  const isSmall = loads.filter(({ kind }) => kind === "ev-charger").every(({ rating, current }) => {
    const amperes = current ?? (rating?.unit === "A" ? rating : undefined);
    if (!amperes || r.volts === undefined || plain(r.volts) > 120) return false;
    return w.scratch(() =>
      w.holds(w.given("charger", { n: exact(amperes.value).toFraction(), unit: "A" }), "≤", above)
    );
  });
  if (isSmall) return;
  findings.conditions.push(
    "what charges is managed so that the circuit is not overloaded (otherwise each has its own)",
  );
}

/** How many receptacles a circuit takes where each counts: told by its rating alone, without a number or a load of them. */
export function mostReceptacles(
  w: Worksheet,
  r: CircuitRequest,
  device: Known<"A">,
  volts: Known<"V">,
): Known<"1"> | undefined {
  const [only, ...others] = r.loads ?? [];
  const isOpen = only?.kind === "receptacles" && only.count === 1 && !only.rating && !only.current;
  if (!isOpen || others.length > 0 || !r.breaker || r.receptacle || r.size) return undefined;
  w.part("Receptacles");
  const most = w.work(
    "receptacles at most",
    "1",
    calc`roundDown(${device} × ${volts} ÷ ${w.constant<"VA">("receptacle-load")})`,
  );
  w.figure("most-receptacles", most);
  w.caution("Each yoke counts as one receptacle; in a dwelling they are not counted.");
  return most;
}
