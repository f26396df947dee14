/** The three turns of the question: the drop of a run, the conductor for a limit, the longest run within it. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { MATERIALS, sizesMade } from "../../../rules/conductors.ts";
import { type Drop, handResistance, impedanceOf, pathFactor, perSet, type Run } from "../../../rules/voltage-drop.ts";
import { firstOfWorst, ledBy } from "../../parts/verdict.ts";
import { carries } from "./ampacity.ts";
import { besides, BY_TABLE, startingCase } from "./beside.ts";
import { compareWithLimit, figures } from "./limit.ts";
import {
  dropAlong,
  OF_STATED_IMPEDANCE,
  runOf,
  type Setting,
  type Stretch,
  together,
  type Worked,
  worstPowerFactor,
} from "./run.ts";
import { anySets, firstWithin, sized } from "./search.ts";

/** The drop of a run whose conductors are told. */
export function answerDrop(w: Worksheet, s: Setting): Told {
  const { r, circuit, load, limit } = s;
  const parts = load.stretches.map((stretch, i) => {
    w.part(load.stretches.length > 1 ? `Stretch ${i + 1}` : "Voltage drop");
    return dropAlong(
      w,
      runOf(circuit, s.wiring, stretch, sized(w, { size: stretch.size ?? r.size })),
      circuit.upToUnity,
      s,
    );
  });
  if (parts.length > 1) w.part("Voltage drop");
  const drop = together(w, parts, circuit.volts);
  if (w.holds(drop.atLoad, "≤", calc`0 × ${circuit.volts}`)) {
    throw need(
      "current",
      w.say`That current through that run would drop ${drop.volts}, all of the ${circuit.volts} and more. Which of current, length, size and voltage is different?`,
      "5 A at 100 ft",
    );
  }
  figures(w, drop);
  const within = compareWithLimit(w, limit, drop);
  const starting = startingCase(w, s, parts);
  besides(w, s, parts, drop);
  const remedy = within ? undefined : remedyFor(w, s);
  w.aside(REMEDY);
  const wire = conductorText(w, s, parts);
  const result = w
    .say`${drop.volts} drop (${drop.percent}) of ${circuit.volts}, ${drop.atLoad} at the load, on ${wire}${
    byConstant(w, s)
  }`;
  const keeps = remedy ? `; ${remedy} would keep it` : "";
  const starts = startingText(w, starting);
  const sentence = `${result}: ${within ? "within" : "over"} ${w.say`${limit.percent}`}${keeps}${starts}.`;
  const verdict = r.check ? worstOf(w, s, drop, within, parts) : undefined;
  if (!r.check) { for (const { run } of parts) warnOfAmpacity(w, s, run); }
  w.suggest("what size keeps it under 3 %?", r.material === "aluminum" ? "use copper" : "use aluminum");
  if (r.length) w.suggest("and at 200 ft?");
  // The sentence itself says why it is ok.
  return verdict?.is === "ok" ? { headline: `OK: ${sentence}`, verdict } : ledBy(verdict, sentence);
}

/** That it is by the constant that was stated. */
const byConstant = (w: Worksheet, { constant }: Setting): string => constant ? w.say`, by K ${constant}` : "";

const startingText = (w: Worksheet, percent: Known<"%"> | undefined): string =>
  percent ? w.say`; up to ${percent} while it starts` : "";

/** The worst of what ampacity and drop say of a plan. */
const worstOf = (w: Worksheet, s: Setting, drop: Drop, within: boolean, parts: readonly Worked[]): Reasoned =>
  firstOfWorst([...parts.map(({ run }) => carries(w, run, s)), dropCheck(w, s, drop, within)]);

/** "Not OK" by a limit the user set; by the advised one only where the advised total is passed too. */
function dropCheck(w: Worksheet, s: Setting, drop: Drop, within: boolean): Reasoned {
  if (within) return { is: "ok", because: w.say`the drop is ${drop.percent}, within ${s.limit.percent}` };
  if (s.r.limit) return { is: "not ok", because: w.say`the drop is ${drop.percent}, over ${s.limit.percent}` };
  const total = w.constant<"%">("voltage-drop-total");
  return w.choose<Reasoned>("drop against what is advised in all", [drop.percent, "≤", total], ["within it", () => ({
    is: "ok if",
    because: w.say`feeder and branch circuit together stay within ${total}, this part taking ${drop.percent}`,
  })], ["over it", () => ({
    is: "not ok",
    because: w.say`the drop is ${drop.percent}, over the ${total} advised in all`,
  })], "voltage-drop-branch");
}

/** The conductor, or the sets of them, that would keep the limit. */
function remedyFor(w: Worksheet, s: Setting): string | undefined {
  const [stretch] = s.load.stretches;
  const size = stretch?.size ?? s.r.size;
  if (s.load.stretches.length > 1 || s.stated || size === undefined) return undefined;
  const made = sizesMade(w, { material: s.wiring.material, method: s.r.method });
  const larger = made.includes(size) ? made.slice(made.indexOf(size) + 1) : [];
  const found = firstWithin(w, s, s.wiring, larger, REMEDY, true) ??
    w.ifCovered(() => anySets(w, { ...s, r: { ...s.r, sets: undefined } }, s.wiring, REMEDY, true));
  return found && `${setsText(w, found.sets)}${w.size(found.size)}`;
}

const REMEDY = "Conductor that keeps the limit";

function conductorText(w: Worksheet, { r, wiring }: Setting, parts: readonly Worked[]): string {
  const each = parts.map(({ run }) =>
    w.word(run.size) === OF_STATED_IMPEDANCE
      ? `a conductor ${OF_STATED_IMPEDANCE}`
      : `${w.size(run.size)} ${run.material}`
  );
  const sets = wiring.sets ? `${r.sets} sets of ` : "";
  return sets + [...new Set(each)].join(" and ");
}

/** The smallest conductor for the limit. */
export function answerConductor(w: Worksheet, s: Setting): Told {
  const { r, circuit, load, limit } = s;
  const found = anySets(w, s, s.wiring, "Conductor");
  w.figure("conductor", found.size);
  if (found.sets) w.figure("parallel-sets", found.sets);
  figures(w, found.drop);
  const { drop } = found;
  const starting = startingCase(w, s, found.parts);
  besides(w, s, found.parts, drop);
  const other = otherMaterial(w, s);
  const size = `${setsText(w, found.sets)}${w.size(found.size)} ${s.wiring.material}`;
  const why = found.byAmpacity ? " (its ampacity decides, not the drop)" : "";
  const headline = w.say`${size}${
    other ? ` (or ${other})` : ""
  }${why}: ${drop.volts} drop (${drop.percent}) at ${load.total}, ${circuit.volts}, within ${limit.percent}${
    byConstant(w, s)
  }${startingText(w, starting)}.`;
  w.suggest(
    s.wiring.material === "copper" ? "use aluminum" : "use copper",
    "at 5 % drop",
    `how far could ${w.size(found.size)} go?`,
  );
  if (r.breaker === undefined) {
    w.caution("The wire must suit its breaker too: say the breaker to have it checked.");
  }
  return { headline };
}

/** The same in the other metal, where the user named none. */
function otherMaterial(w: Worksheet, s: Setting): string | undefined {
  if (s.r.material !== undefined || s.load.stretches.length > 1) return undefined;
  const material = MATERIALS.find((each) => each !== s.wiring.material)!;
  const title = `The same in ${material}`;
  w.aside(title);
  const found = anySets(w, s, { ...s.wiring, material }, title);
  w.figure(`conductor-${material}`, found.size, `conductor in ${material}`);
  return `${setsText(w, found.sets)}${w.size(found.size)} ${material}`;
}

const setsText = (w: Worksheet, sets: Known<"1"> | undefined) => sets ? w.say`${sets} sets of ` : "";

/** How far a conductor goes within the limit. */
export function answerLongestRun(w: Worksheet, s: Setting): Told {
  const { r, circuit, load, limit, wiring } = s;
  if (load.stretches.length > 1 || r.along || r.points) {
    throw need(
      "length",
      "How far one conductor may go can be told for one load at its end: which load?",
      "12 A at 120 V",
    );
  }
  const size = sized(w, r);
  const length = longestRun(w, s, size, "Longest run");
  w.figure("longest-run", length);
  w.figure("voltage-drop-volts", limit.volts, "voltage drop at that length");
  w.figure("voltage-drop", limit.percent, "voltage drop in percent at that length");
  if (s.constant) {
    const { constant: _, ...byTable } = s;
    w.figure("longest-run-by-table", longestRun(w, byTable, size, BY_TABLE));
    w.aside(BY_TABLE);
  }
  warnOfAmpacity(w, s, runOf(circuit, wiring, { current: load.total }, size));
  const sets = wiring.sets ? `${r.sets} sets of ` : "";
  const wire = r.size === undefined ? `A conductor ${OF_STATED_IMPEDANCE}` : `${sets}${r.size} ${wiring.material}`;
  const headline = w
    .say`${wire} goes ${length} one way at ${load.total}, ${circuit.volts} for a drop of ${limit.percent} (${limit.volts})${
    byConstant(w, s)
  }.`;
  w.suggest("at 5 % drop", wiring.material === "copper" ? "use aluminum" : "use copper");
  return { headline };
}

/** Drop and length say nothing of ampacity: worked out aside, and told where the wire is too small for its load or breaker. */
function warnOfAmpacity(w: Worksheet, s: Setting, run: Run): void {
  if (w.scratch(() => carries(w, run, s).is === "ok")) return;
  const { is, because } = carries(w, run, s);
  w.caution(is === "ok if" ? `Only if ${because}.` : `${capital(because)}.`);
}

const capital = (text: string) => text[0]!.toUpperCase() + text.slice(1);

function longestRun(w: Worksheet, s: Setting, size: Known<"size">, part: string): Known<"ft"> {
  w.part(part);
  const stretch: Stretch = { current: s.load.total };
  const run = runOf(s.circuit, s.wiring, stretch, size);
  const impedance = s.stated ?? (s.constant && handResistance(w, s.constant, size)) ??
    worstPowerFactor(w, run, impedanceOf(w, run), s.circuit.upToUnity).effective;
  const path = pathFactor(w, run);
  return w.work(
    "longest run, one way",
    "ft",
    calc`${s.limit.volts} ÷ (${path} × ${run.current} × ${perSet(w, run, impedance)})`,
  );
}
