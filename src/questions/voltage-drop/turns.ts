/** The three turns of the question: the drop of a run, the conductor for a limit, the longest run within it. */
import { calc } from "../../core/formula.ts";
import { need, NotCovered } from "../../core/outcome.ts";
import type { Known, Verdict } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { MATERIALS, sizeInWords, sizes } from "../../rules/conductors.ts";
import {
  type Drop,
  effectiveImpedance,
  impedanceOf,
  largestImpedance,
  pathFactor,
  perSet,
} from "../../rules/voltage-drop.ts";
import { fewestSets } from "../../rules/parallel.ts";
import { asQuantity } from "../question.ts";
import { carries, leastByAmpacity } from "./ampacity.ts";
import { currentOf } from "./circuit.ts";
import type { DropRequest } from "./request.ts";
import {
  dropAlong,
  type Limit,
  runOf,
  type Setting,
  showBeside,
  type Stretch,
  together,
  type Wiring,
  type Worked,
  worstPowerFactor,
} from "./run.ts";

/** The drop allowed: what was said, or what the code's notes advise. */
export function limitOf(w: Worksheet, r: DropRequest, supply: Known<"V">): Limit {
  w.part("Limit");
  if (r.limit?.unit === "V") {
    const volts = w.given("drop allowed", asQuantity({ ...r.limit, unit: "V" }));
    return { volts, percent: w.work("drop allowed in percent", "%", calc`${volts} ÷ ${supply}`) };
  }
  const said = r.limit && asQuantity({ ...r.limit, unit: "%" });
  const percent = w.take<"%">("drop allowed", said, "voltage-drop-limit");
  return { percent, volts: w.work("drop allowed in volts", "V", calc`${supply} × ${percent}`, "voltage-drop-branch") };
}

/** Stands for the size where only an impedance was told: no table knows it. */
const OF_STATED_IMPEDANCE = "of the stated impedance";

const sized = (w: Worksheet, { size }: { size?: string | undefined }, name = "conductor"): Known<"word"> =>
  w.given(name, size ?? OF_STATED_IMPEDANCE);

/** The drop of a run whose conductors are told. */
export function answerDrop(w: Worksheet, s: Setting): void {
  const { r, circuit, load, limit } = s;
  const parts = load.stretches.map((stretch, i) => {
    w.part(load.stretches.length > 1 ? `Stretch ${i + 1}` : "Voltage drop");
    return dropAlong(
      w,
      runOf(circuit, s.wiring, stretch, sized(w, { size: stretch.size ?? r.size })),
      circuit.upToUnity,
      s.stated,
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
  const within = compareWithLimit(w, s, drop);
  startingCase(w, s, parts);
  besides(w, s, parts, drop);
  const remedy = within ? undefined : remedyFor(w, s);
  w.aside(REMEDY);
  const wire = conductorText(w, s, parts);
  const result = w
    .say`${drop.volts} drop (${drop.percent}) of ${circuit.volts}, ${drop.atLoad} at the load, on ${wire}`;
  const keeps = remedy ? `; ${remedy} would keep it` : "";
  const sentence = `${result}: ${within ? "within" : "over"} ${w.say`${limit.percent}`}${keeps}.`;
  const lead = r.check ? verdictOf(w, s, drop, within, parts) : "";
  w.headline = lead + sentence;
  w.suggest("what size keeps it under 3 %?", r.material === "aluminum" ? "use copper" : "use aluminum");
  if (r.length) w.suggest("and at 200 ft?");
}

function figures(w: Worksheet, drop: Drop): void {
  w.figure("voltage-drop-volts", drop.volts, "voltage drop");
  w.figure("voltage-drop", drop.percent, "voltage drop in percent");
  w.figure("load-voltage", drop.atLoad);
}

function compareWithLimit(w: Worksheet, { limit }: Setting, drop: Drop, what = "drop"): boolean {
  return w.choose<boolean>(
    `${what} against the limit`,
    [drop.volts, "≤", limit.volts],
    ["within the limit", () => true],
    ["over the limit", () => false],
    "voltage-drop-branch",
  );
}

type Check = { is: Verdict; because: string };
const WORST: readonly Verdict[] = ["not ok", "ok if", "ok"];

/** The worst of what ampacity and drop say of a plan; gives the words that lead the headline. */
function verdictOf(w: Worksheet, s: Setting, drop: Drop, within: boolean, parts: readonly Worked[]): string {
  const checks = [
    ...parts.map(({ run }) => carries(w, run, s)),
    dropCheck(w, s, drop, within),
  ];
  const verdict = WORST.flatMap((is) => checks.filter((check) => check.is === is))[0]!;
  w.verdict = verdict;
  if (verdict.is === "ok") return "OK: ";
  return `${verdict.is === "not ok" ? "Not OK" : "OK if"}: ${verdict.because}. `;
}

/** "Not OK" by a limit the user set; by the advised one only where the advised total is passed too. */
function dropCheck(w: Worksheet, s: Setting, drop: Drop, within: boolean): Check {
  if (within) return { is: "ok", because: w.say`the drop is ${drop.percent}, within ${s.limit.percent}` };
  if (s.r.limit) return { is: "not ok", because: w.say`the drop is ${drop.percent}, over ${s.limit.percent}` };
  const total = w.constant<"%">("voltage-drop-total");
  return w.holds(drop.percent, "≤", total)
    ? {
      is: "ok if",
      because: w.say`feeder and branch circuit together stay within ${total}, this part taking ${drop.percent}`,
    }
    : { is: "not ok", because: w.say`the drop is ${drop.percent}, over the ${total} advised in all` };
}

/** The conductor, or the shorter run, that would keep the limit. */
function remedyFor(w: Worksheet, s: Setting): string | undefined {
  const [stretch] = s.load.stretches;
  const size = stretch?.size ?? s.r.size;
  if (s.load.stretches.length > 1 || s.stated || size === undefined) return undefined;
  const larger = sizes(w, s.wiring.material);
  const found = firstWithin(w, s, s.wiring, larger.slice(larger.indexOf(size) + 1), REMEDY, true);
  return found && sizeInWords(w.word(found.size));
}
const REMEDY = "Conductor that keeps the limit";

function conductorText(w: Worksheet, { r, wiring }: Setting, parts: readonly Worked[]): string {
  const each = parts.map(({ run }) =>
    w.word(run.size) === OF_STATED_IMPEDANCE
      ? `a conductor ${OF_STATED_IMPEDANCE}`
      : `${sizeInWords(w.word(run.size))} ${run.material}`
  );
  const sets = wiring.sets ? `${r.sets} sets of ` : "";
  return sets + [...new Set(each)].join(" and ");
}

/** The drop while a motor starts: at whatever power factor, so never less than it will be. */
function startingCase(w: Worksheet, s: Setting, parts: readonly Worked[]): void {
  if (!s.r.starting) return;
  w.part("While the motor starts");
  const current = currentOf(w, s.circuit, s.r.starting, "starting current");
  const drops = parts.map(({ run, path, impedance }) => {
    const most = impedance ? largestImpedance(w, impedance) : s.stated!;
    return w.work("drop while starting", "V", calc`${path} × ${current} × ${perSet(w, run, most)} × ${run.length}`);
  });
  const volts = drops.length === 1 ? drops[0]! : w.work("drop while starting, all stretches", "V", calc`sum(${drops})`);
  const percent = w.work("drop while starting in percent", "%", calc`${volts} ÷ ${s.circuit.volts}`);
  w.figure("starting-voltage-drop-volts", volts);
  w.figure("starting-voltage-drop", percent);
  w.caution(w.say`While it starts the drop is up to ${percent}: ask the motor's maker what it starts on.`);
}

/** What stands beside the answer: phasors, the hand formula, line to neutral, other power factors. */
function besides(w: Worksheet, s: Setting, parts: readonly Worked[], drop: Drop): void {
  const constant = s.r.constant && w.given("constant K", asQuantity(s.r.constant));
  showBeside(w, parts, constant);
  w.aside("By exact phasors", "By the rule of thumb");
  if (s.circuit.phases === 3) {
    w.part("Line to neutral");
    const root = w.work("path factor, line to line", "1", calc`sqrt(${w.given("phases", { n: "3", unit: "1" })})`);
    w.figure("voltage-drop-line-to-neutral", w.work("drop line to neutral", "V", calc`${drop.volts} ÷ ${root}`));
    w.aside("Line to neutral");
  }
  motorPowerFactor(w, s, parts, drop);
}

/** Large conductors drop more at a motor's power factor than at 1: said where it would matter. */
function motorPowerFactor(w: Worksheet, s: Setting, parts: readonly Worked[], drop: Drop): void {
  const [only] = parts;
  if (
    s.r.powerFactor !== undefined || s.circuit.upToUnity || s.circuit.directCurrent || parts.length > 1 ||
    !only!.impedance?.reactance
  ) return;
  const part = "If the load has a motor's power factor";
  w.first([part], () => {
    w.part(part);
    const powerFactor = w.constant<"1">("motor-power-factor");
    const { run, path, impedance } = only!;
    const effective = effectiveImpedance(w, { ...run, powerFactor }, impedance);
    const volts = w.work(
      "drop then",
      "V",
      calc`${path} × ${run.current} × ${perSet(w, run, effective)} × ${run.length}`,
    );
    if (w.holds(volts, "≤", drop.volts)) return undefined;
    w.aside(part);
    const percent = w.work("drop then in percent", "%", calc`${volts} ÷ ${s.circuit.volts}`);
    const bound = w.holds(volts, "≤", s.limit.volts)
      ? "still within the limit"
      : "over the limit: say the power factor";
    w.caution(
      w.say`With motors, at a power factor of ${powerFactor}, the drop would be ${volts} (${percent}), ${bound}.`,
    );
    return true;
  });
}

/** The smallest conductor for the limit. */
export function answerConductor(w: Worksheet, s: Setting): void {
  const { r, circuit, load, limit } = s;
  const found = anySets(w, s, s.wiring, "Conductor");
  w.figure("conductor", found.size);
  if (found.sets) w.figure("parallel-sets", found.sets);
  figures(w, found.drop);
  const { drop } = found;
  startingCase(w, s, found.parts);
  besides(w, s, found.parts, drop);
  const other = otherMaterial(w, s);
  const size = `${setsText(w, found.sets)}${sizeInWords(w.word(found.size))} ${s.wiring.material}`;
  const why = found.byAmpacity ? " (its ampacity decides, not the drop)" : "";
  w.headline = w.say`${size}${
    other ? ` (or ${other})` : ""
  }${why}: ${drop.volts} drop (${drop.percent}) at ${load.total}, ${circuit.volts}, within ${limit.percent}.`;
  w.suggest(
    s.wiring.material === "copper" ? "use aluminum" : "use copper",
    "at 5 % drop",
    `how far could ${sizeInWords(w.word(found.size))} go?`,
  );
  if (r.breaker === undefined) {
    w.caution("The wire must suit its breaker too: say the breaker to have it checked.");
  }
}

/** One conductor, or the fewest sets of commonly pulled ones. */
function anySets(w: Worksheet, s: Setting, { sets: _, ...wiring }: Wiring, part: string): Found {
  try {
    return fewestSets(w, s.r.sets, (sets) => smallestFor(w, s, { ...wiring, ...(sets && { sets }) }, part));
  } catch (error) {
    if (!(error instanceof NotCovered)) throw error;
    const because = "no listed conductor keeps this drop: shorten the run, raise the voltage or allow more drop";
    throw new NotCovered(because, w.edition.id);
  }
}

type Found = { size: Known<"word">; drop: Drop; parts: Worked[]; byAmpacity: boolean; sets?: Known<"1"> };

/** The smallest that its ampacity allows and that holds the limit; shows that the next smaller one does not do. */
function smallestFor(w: Worksheet, s: Setting, wiring: Wiring, part: string): Found | undefined {
  w.part(`Ampacity of ${wiring.material}`);
  w.aside(`Ampacity of ${wiring.material}`);
  const least = leastByAmpacity(w, s, wiring);
  if (!least) return undefined;
  const listed = sizes(w, wiring.material);
  const found = firstWithin(w, s, wiring, listed.slice(listed.indexOf(w.word(least))), part);
  if (!found) return undefined;
  const smaller = listed[listed.indexOf(w.word(found.size)) - 1];
  if (smaller === undefined) return found;
  const title = `One size smaller, ${sizeInWords(smaller)} ${wiring.material}`;
  w.aside(title);
  const less = dropWith(w, s, wiring, smaller, title);
  const byAmpacity = less !== undefined && compareWithLimit(w, s, less.drop, onSize(smaller, wiring));
  return { ...found, byAmpacity };
}

const onSize = (size: string, { material }: Wiring): string => `drop on ${sizeInWords(size)} ${material}`;

/** The first of the sizes, small to large, that holds the limit; the steps kept are those of that size. */
function firstWithin(
  w: Worksheet,
  s: Setting,
  wiring: Wiring,
  candidates: readonly string[],
  part: string,
  everywhere = false,
): Found | undefined {
  const found = w.first(candidates, (candidate) => {
    const attempt = dropWith(w, s, wiring, candidate, part, everywhere);
    return attempt && w.holds(attempt.drop.volts, "≤", s.limit.volts) ? attempt : undefined;
  });
  if (found) compareWithLimit(w, s, found.drop, onSize(w.word(found.size), wiring));
  return found && { ...found, ...(wiring.sets && { sets: wiring.sets }) };
}

/** The drop with a size put where none was told, or everywhere; undefined where the tables have no such conductor. */
function dropWith(
  w: Worksheet,
  s: Setting,
  wiring: Wiring,
  candidate: string,
  part: string,
  everywhere = false,
): Found | undefined {
  if (!w.has("conductor-impedance", `${wiring.material} resistance in ${wiring.conduit}`, candidate)) return undefined;
  w.part(part);
  const size = w.lookUp<"word">(`${wiring.material} conductor`, "conductor-ampacity", "size", candidate);
  const parts = s.load.stretches.map((stretch: Stretch) => {
    const own = stretch.size === undefined || everywhere ? size : sized(w, stretch);
    return dropAlong(w, runOf(s.circuit, wiring, stretch, own), s.circuit.upToUnity, s.stated);
  });
  return { size, parts, drop: together(w, parts, s.circuit.volts), byAmpacity: false };
}

/** The same in the other metal, where the user named none. */
function otherMaterial(w: Worksheet, s: Setting): string | undefined {
  if (s.r.material !== undefined || s.load.stretches.length > 1) return undefined;
  const material = MATERIALS.find((each) => each !== s.wiring.material)!;
  const title = `The same in ${material}`;
  w.aside(title);
  const found = anySets(w, s, { ...s.wiring, material }, title);
  w.figure(`conductor-${material}`, found.size, `conductor in ${material}`);
  return `${setsText(w, found.sets)}${sizeInWords(w.word(found.size))} ${material}`;
}

const setsText = (w: Worksheet, sets: Known<"1"> | undefined) => sets ? w.say`${sets} sets of ` : "";

/** How far a conductor goes within the limit. */
export function answerLongestRun(w: Worksheet, s: Setting): void {
  const { r, circuit, load, limit, wiring } = s;
  if (load.stretches.length > 1 || r.along || r.points) {
    throw need(
      "length",
      "How far one conductor may go can be told for one load at its end: which load?",
      "12 A at 120 V",
    );
  }
  const size = sized(w, r);
  const length = longestRun(w, s, size);
  w.figure("longest-run", length);
  w.figure("voltage-drop-volts", limit.volts, "voltage drop at that length");
  w.figure("voltage-drop", limit.percent, "voltage drop in percent at that length");
  warnOfAmpacity(w, s, size);
  const sets = wiring.sets ? `${r.sets} sets of ` : "";
  const wire = r.size === undefined
    ? `A conductor ${OF_STATED_IMPEDANCE}`
    : `${sets}${sizeInWords(r.size)} ${wiring.material}`;
  w.headline = w
    .say`${wire} goes ${length} one way at ${load.total}, ${circuit.volts} for a drop of ${limit.percent} (${limit.volts}).`;
  w.suggest("at 5 % drop", wiring.material === "copper" ? "use aluminum" : "use copper");
}

/** A length says nothing of ampacity: worked out aside, and told where the wire is too small for its load or breaker. */
function warnOfAmpacity(w: Worksheet, s: Setting, size: Known<"word">): void {
  const run = runOf(s.circuit, s.wiring, { current: s.load.total }, size);
  if (w.scratch(() => carries(w, run, s).is === "ok")) return;
  const { is, because } = carries(w, run, s);
  w.caution(is === "ok if" ? `Only if ${because}.` : `${capital(because)}.`);
}

const capital = (text: string) => text[0]!.toUpperCase() + text.slice(1);

function longestRun(w: Worksheet, s: Setting, size: Known<"word">): Known<"ft"> {
  w.part("Longest run");
  const stretch: Stretch = { current: s.load.total };
  const run = runOf(s.circuit, s.wiring, stretch, size);
  const impedance = s.stated ?? worstPowerFactor(w, run, impedanceOf(w, run), s.circuit.upToUnity).effective;
  const path = pathFactor(w, run);
  return w.work(
    "longest run, one way",
    "ft",
    calc`${s.limit.volts} ÷ (${path} × ${run.current} × ${perSet(w, run, impedance)})`,
  );
}
