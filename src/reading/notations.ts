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

/** `the 125 thing`, `the 125 rule`, `90 rounds up`: a rule called by its number, and somebody's own rounding. */
const ruleByNumber: Rule = (t, i) => {
  if (t[i]?.is !== "number") return undefined;
  const next = text(t, i + 1) === "%" || text(t, i + 1) === "percent" ? i + 2 : i + 1;
  const isRule = RULES_BY_NUMBER.includes(t[i]!.n!) &&
    ["thing", "rule", "factor", "multiplier", "deal"].includes(text(t, next));
  if (isRule) {
    return { senses: [{ is: "aside", because: "a rule by its number: applied where it holds" }], to: next + 1 };
  }
  if (!["rounds", "rounded"].includes(text(t, i + 1))) return undefined;
  const to = ["up", "down"].includes(text(t, i + 2)) ? i + 3 : i + 2;
  return { senses: [{ is: "aside", because: "somebody's own rounding: worked out here" }], to };
};
/** Percentages that rules are spoken of by (common practice, no source). */
const RULES_BY_NUMBER = [80, 83, 120, 125, 1.25];

const TIMES = new Set(["times", "x", "*"]);
const BEFORE_RATING = new Set(["the", "its", "that", "this", "his", "a", "breaker", "breakers", "device", "ocpd"]);
const RATINGS = new Set(["rating", "ratings", "trip", "rated", "handle"]);
/** `ten times the breaker rating`, `10x trip`, `8 times its rating`: a multiple of a device's rating, and no count. */
const multiple: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !TIMES.has(text(t, read.next))) return undefined;
  let at = read.next + 1;
  while (BEFORE_RATING.has(text(t, at)) || (text(t, at) === "'" && text(t, at + 1) === "s")) {
    at += text(t, at) === "'" ? 2 : 1;
  }
  const last = text(t, at - 1);
  if (RATINGS.has(text(t, at))) at++;
  else if (last !== "breaker" && last !== "device" && last !== "ocpd") return undefined;
  return { senses: [{ is: "multiple", n: read.n }], to: at };
};

const LEAST_RATING = 15;
/** `sub from 60 to 100`, `going from a 100 amp to a 200 amp service`: what a device's rating becomes. */
const ratingRaised: Rule = (t, i) => {
  if (text(t, i) !== "from") return undefined;
  const from = ratingAt(t, i + 1);
  const to = from && text(t, from.to) === "to" ? ratingAt(t, from.to + 1) : undefined;
  if (!to || to.n <= from!.n || [from!.n, to.n].every((n) => NOMINAL_VOLTS.includes(n) && n >= 110 && !to.isMarked)) {
    return undefined;
  }
  const value = { is: "quantity", n: to.n, unit: "A", from: `from ${from!.n} to ${to.n} A` } as const;
  return { senses: [value], to: to.to };
};
function ratingAt(t: readonly Token[], i: number): { n: number; to: number; isMarked: boolean } | undefined {
  const at = ["a", "an", "the"].includes(text(t, i)) ? i + 1 : i;
  const read = numberAt(t, at);
  if (!read || read.n < LEAST_RATING || read.n % 5 !== 0) return undefined;
  const unit = unitAt(t, read.next, read.n);
  return unit && unit.unit !== "A"
    ? undefined
    : { n: read.n, to: unit?.next ?? read.next, isMarked: unit !== undefined };
}

/** `4500/240`: watts over the volts they are told at. */
const wattsOverVolts: Rule = (t, i) => {
  const [watts, volts] = [t[i]?.n ?? 0, t[i + 2]?.n ?? 0];
  if (t[i]?.is !== "number" || watts < LEAST_WATTS || text(t, i + 1) !== "/" || !isGlued(t, i + 2)) return undefined;
  if (!NOMINAL_VOLTS.includes(volts) || volts < 100 || isGlued(t, i + 3) && t[i + 3]?.is !== "mark") return undefined;
  return { senses: [{ is: "quantity", n: watts, unit: "W", from: `${watts}` }], to: i + 1 };
};
const LEAST_WATTS = 700;
/** `eight carrying`: conductors that carry current, and no amperes. */
const carriers: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n) || read.n < 2 || read.n > MOST_CARRIERS) return undefined;
  const next = t[read.next + 1];
  const ends = next === undefined || next.is !== "word" || ["in", "through", "inside"].includes(next.text);
  return text(t, read.next) === "carrying" && ends
    ? { senses: [{ is: "count", n: read.n, isBehind: true }], to: read.next + 1 }
    : undefined;
};
const MOST_CARRIERS = 60;

/** `2x4 troffers`, `1 x 4 strip lights`: the size of a fixture in feet, and no count of them. */
const fixtureSize: Rule = (t, i) => {
  const [a, b] = [t[i]?.n, t[i + 2]?.n];
  if (t[i]?.is !== "number" || !FIXTURE_SIDES.includes(a!) || !["x", "by"].includes(text(t, i + 1))) return undefined;
  if (!FIXTURE_SIDES.includes(b ?? 0)) return undefined;
  const at = text(t, i + 3) === "led" ? i + 4 : i + 3;
  const isLight = termAt(t, at)?.terms.some(({ id }) => id === "lighting");
  return isLight ? { senses: [{ is: "aside", because: "the fixture's own size" }], to: i + 3 } : undefined;
};
const FIXTURE_SIDES = [1, 2, 4, 8];

/** `3 wire plus ground`, `two wire with ground`: the ground is told with its wires, and not asked for. */
const wiresAndGround: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || ![2, 3, 4].includes(read.n)) return undefined;
  const at = text(t, read.next) === "-" ? read.next + 1 : read.next;
  if (
    !["wire", "wires", "w"].includes(text(t, at)) || !["plus", "with", "and", "+", "w", "&"].includes(text(t, at + 1))
  ) {
    return undefined;
  }
  const ground = text(t, at + 2) === "a" ? at + 3 : at + 2;
  return ["ground", "gnd", "grd", "egc"].includes(text(t, ground))
    ? { senses: [{ is: "aside", because: "a circuit's wires and their ground, as usual" }], to: ground + 1 }
    : undefined;
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
  ruleByNumber,
  wattsOverVolts,
  carriers,
  ratingRaised,
  fixtureSize,
  wiresAndGround,
  withoutSuffix,
  absentElectrode,
  openResult,
  multiple,
];
/** Words that these begin with. */
export const NOTATION_BEGINNINGS: readonly string[] = [...PANELS, "not", ...NONE, "?", ":"];
