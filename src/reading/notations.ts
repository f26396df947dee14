/** Tokens → pieces: how drawings, schedules and crews write supplies, panels, times of use and column temperatures. */
import { NOMINAL_VOLTS } from "./families.ts";
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt } from "./numbers.ts";
import type { Sense } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { type SpokenUnit, unitAt } from "./units.ts";

type Rule = (t: readonly Token[], i: number) => { senses: readonly Sense[]; to: number } | undefined;
const text = (t: readonly Token[], i: number): string => t[i]?.text ?? "";
const isGlued = (t: readonly Token[], i: number): boolean => t[i]?.glued ?? false;

/** `480/3`, `240/1`: volts and phases, and nothing behind them. */
export const voltsOverPhases: Rule = (t, i) => {
  const [volts, phases] = [t[i]?.n ?? 0, t[i + 2]?.n];
  if (t[i]?.is !== "number" || !NOMINAL_VOLTS.includes(volts) || volts < 100) return undefined;
  if (text(t, i + 1) !== "/" || !isGlued(t, i + 1) || !isGlued(t, i + 2) || (phases !== 1 && phases !== 3)) {
    return undefined;
  }
  // `125/3 breaker`: amperes and poles.
  if (t[i + 3] && termAt(t, i + 3)?.terms.some(({ sort }) => sort === "device")) return undefined;
  const next = t[i + 3];
  if (next?.glued && (next.is !== "mark" || next.text === "/" || next.text === "-")) return undefined;
  return {
    senses: [
      { is: "quantity", n: volts, unit: "V" },
      { is: "term", sort: "phase", id: phases === 3 ? "three-phase" : "single-phase" },
    ],
    to: i + 3,
  };
};

/** What panels are called on drawings: lighting, power, receptacle, distribution, main distribution, emergency … */
const PANELS = new Set("lp pp rp dp mdp ldp hdp sdp edp elp ep rpp lvp mp".split(" "));
const MOST_PANELS = 40;
/** `LP-2`, `DP1`, `RP-3A`: a panel by its name, whose number is no figure. */
export const panelName: Rule = (t, i) => {
  if (t[i]?.is !== "word" || !PANELS.has(text(t, i))) return undefined;
  const at = text(t, i + 1) === "-" && isGlued(t, i + 1) ? i + 2 : i + 1;
  const n = t[at];
  if (n?.is !== "number" || !n.glued || !Number.isInteger(n.n) || n.n! > MOST_PANELS) return undefined;
  const letter = t[at + 1];
  const to = letter?.is === "word" && letter.glued && letter.text.length === 1 ? at + 2 : at + 1;
  return { senses: [{ is: "term", sort: "device", id: "panel" }], to };
};

/** From so many hours on a load is continuous. */
const CONTINUOUS_HOURS = 3;
const DAYS = new Set(["day", "night", "shift", "evening"]);
const USED = new Set(["runs", "run", "running", "burn", "burns", "burning", "on", "stays", "lit", "operates"]);
/** `9, 10 hours`, `eight to ten hours`: the least of them counts. */
const lastHours = (t: readonly Token[], i: number): { n: number; next: number } | undefined => {
  const first = numberAt(t, i);
  const second = first && [",", "or", "to", "-", "and"].includes(text(t, first.next))
    ? numberAt(t, first.next + 1)
    : undefined;
  return second && second.n > first!.n ? { n: first!.n, next: second.next } : first;
};
/** `10 hr/day`, `2 hours a night`, `runs 8 hrs`, `4 hours at a time`: how long it is on. */
const hoursOfUse: Rule = (t, i) => {
  const read = lastHours(t, i);
  // `runs 4+ hours`
  const unit = read && unitAt(t, text(t, read.next) === "+" ? read.next + 1 : read.next, read.n);
  if (!read || unit?.unit !== "hour" || read.n > 24) return undefined;
  const [first, second, third] = [0, 1, 2].map((k) => text(t, unit.next + k));
  const to = ["/", "a", "per", "each", "every"].includes(first!) && DAYS.has(second!)
    ? unit.next + 2
    : first === "at" && second === "a" && ["time", "stretch"].includes(third!)
    ? unit.next + 3
    : first === "daily" || first === "straight"
    ? unit.next + 1
    : USED.has(text(t, i - 1)) || (text(t, i - 1) === "for" && USED.has(text(t, i - 2)))
    ? unit.next
    : undefined;
  if (to === undefined) return undefined;
  const id = read.n >= CONTINUOUS_HOURS ? "continuous" : "noncontinuous";
  return { senses: [{ is: "term", sort: "hours", id }], to };
};

/** `THWN (not dash 2)`, `xhhw not -2`: the suffix that an insulation has not. */
const withoutSuffix: Rule = (t, i) => {
  if (text(t, i) !== "not") return undefined;
  const before = text(t, i - 1) === "(" ? i - 2 : i - 1;
  if (before < 0 || !termAt(t, before)?.terms.some(({ sort }) => sort === "insulation")) return undefined;
  const at = ["a", "the"].includes(text(t, i + 1)) ? i + 2 : i + 1;
  const isTwo = ["dash", "-"].includes(text(t, at)) &&
    [text(t, at + 1), String(t[at + 1]?.n)].some((each) => each === "2" || each === "two");
  return isTwo ? { senses: [{ is: "aside", because: "the insulation without that suffix" }], to: at + 2 } : undefined;
};

const NONE = new Set(["no", "without"]);
/** `no water pipe`, `without a ground ring`: an electrode that is not there. */
const absentElectrode: Rule = (t, i) => {
  if (!NONE.has(text(t, i))) return undefined;
  const term = termAt(t, ["a", "an", "any"].includes(text(t, i + 1)) ? i + 2 : i + 1);
  return term?.terms.some(({ sort }) => sort === "electrode")
    ? { senses: [{ is: "aside", because: "named as not there" }], to: term.next }
    : undefined;
};

/** Goals by the unit that is asked for. */
const GOALS: Readonly<Partial<Record<SpokenUnit, string>>> = {
  A: "current",
  kVA: "kVA",
  VA: "VA",
  kW: "kW",
  W: "W",
  hp: "hp",
};
/** `5 kW, 208 V = ? A`, `= ___ amps`: what a sum is to come to. */
const openResult: Rule = (t, i) => {
  if (!["?", ":"].includes(text(t, i)) || text(t, i - 1) !== "=") return undefined;
  const unit = unitAt(t, i + 1, 0);
  const id = unit && GOALS[unit.unit];
  return id && (t[unit.next] === undefined || t[unit.next]!.is !== "number")
    ? { senses: [{ is: "term", sort: "goal", id }], to: unit.next }
    : undefined;
};

export const notationRules: readonly Rule[] = [
  voltsOverPhases,
  panelName,
  hoursOfUse,
  withoutSuffix,
  absentElectrode,
  openResult,
];
/** Words that these begin with. */
export const NOTATION_BEGINNINGS: readonly string[] = [...PANELS, "not", ...NONE, "?", ":"];
