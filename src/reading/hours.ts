/** Tokens → pieces: how long something is on, from which follows whether it is continuous. */
import { numberAt } from "./numbers.ts";
import { type Found, one, type Rule, speaksOf, text } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

/** From so many hours on a load is continuous. */
const CONTINUOUS_HOURS = 3;
const DAYS = new Set(["day", "night", "shift", "evening"]);
const USED = new Set([
  "fires",
  "fire",
  "firing",
  "cooks",
  "bakes",
  "heats",
  "charges",
  "charging",
  "going",
  "used",
  "cycles",
  "runs",
  "run",
  "running",
  "burn",
  "burns",
  "burning",
  "on",
  "stays",
  "lit",
  "operates",
]);
/** Behind so many hours: how long it is on. */
const AT_MOST = new Set(["daily", "straight", "tops", "max", "maximum", "nonstop", "solid", "overnight"]);
const LENGTHS = new Set(["for", "about", "maybe", "up", "to", "around", "like", "over", "at", "least"]);
/** `runs flat out for five hours`, `on for maybe 4 hours`. */
function isUsedFor(t: readonly Token[], i: number): boolean {
  let at = i - 1;
  while (LENGTHS.has(text(t, at))) at--;
  return text(t, at + 1) === "for" &&
    Array.from({ length: FAR }, (_, k) => text(t, at - k)).some((word) => USED.has(word));
}
/** How far before its hours it may be said that something runs. */
const FAR = 5;
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
    : ["at", "in"].includes(first!) && second === "a" &&
        ["time", "stretch", "row", "clip", "shot", "go"].includes(third!)
    ? unit.next + 3
    : AT_MOST.has(first!) || (first === "or" && second === "less")
    ? unit.next + (first === "or" || first === "at" ? 2 : 1)
    : USED.has(text(t, i - 1)) || isUsedFor(t, i)
    ? unit.next
    : undefined;
  if (to === undefined) return undefined;
  return found(read.n, to);
};
const found = (hours: number, to: number): Found =>
  one({ is: "term", sort: "hours", id: hours >= CONTINUOUS_HOURS ? "continuous" : "noncontinuous" }, to);

/** Clock times with a name, and marks behind those without one. */
const NAMED: Readonly<Record<string, number>> = { noon: 12, midnight: 24, dawn: 6, dusk: 18, sunup: 6, sundown: 18 };
const OF_DAY = [
  "in the morning",
  "in the afternoon",
  "in the evening",
  "at night",
  "am",
  "pm",
  "a.m.",
  "p.m.",
  "o'clock",
];
const TILL = new Set(["to", "till", "til", "until", "'til", "through", "thru", "-"]);
type Clock = { n: number; to: number; isMarked: boolean };
function clockAt(t: readonly Token[], i: number): Clock | undefined {
  const named = NAMED[text(t, i)];
  if (named !== undefined) return { n: named, to: i + 1, isMarked: true };
  const read = numberAt(t, i);
  if (!read || !Number.isInteger(read.n) || read.n < 1 || read.n > 24) return undefined;
  const behind = OF_DAY.find((words) => words.split(" ").every((word, k) => text(t, read.next + k) === word));
  return { n: read.n, to: read.next + (behind?.split(" ").length ?? 0), isMarked: behind !== undefined };
}
/** `from 3 in the morning till noon`, `8 am to 5 pm`, `dusk to dawn`: how many hours lie between decides. */
const fromTill: Rule = (t, i) => {
  const from = clockAt(t, text(t, i) === "from" ? i + 1 : i);
  const till = from && TILL.has(text(t, from.to)) ? clockAt(t, from.to + 1) : undefined;
  if (!till || !(from!.isMarked || till.isMarked)) return undefined;
  const hours = (till.n - from!.n + HALF_DAY) % HALF_DAY || HALF_DAY;
  return found(hours, till.to);
};
const HALF_DAY = 12;

const INTERVALS = new Set([5, 15, 30, 60]);
const METERED = new Set(["demand", "interval", "intervals", "data", "peak", "average", "averages", "max", "readings"]);
/** `15 min demand`, `the worst 15 minutes was 9.8 kW`: over how long a meter averages. */
const meterInterval: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (!read || !INTERVALS.has(read.n)) return undefined;
  const at = text(t, read.next) === "-" ? read.next + 1 : read.next;
  if (!["min", "mins", "minute", "minutes"].includes(text(t, at))) return undefined;
  return speaksOf(t, METERED) ? one({ is: "aside", because: "the meter's interval" }, at + 1) : undefined;
};
/** `74 kW at unity`: a power factor of one, which is what is taken. */
const atUnity: Rule = (t, i) =>
  text(t, i) === "at" && text(t, i + 1) === "unity" && !["pf", "power"].includes(text(t, i + 2))
    ? one({ is: "aside", because: "a power factor of one is taken" }, i + 2)
    : undefined;

export const hoursRules: readonly Rule[] = [meterInterval, atUnity, hoursOfUse, fromTill];
/** Words that these begin with. */
export const HOURS_BEGINNINGS: readonly string[] = ["from", "at", ...Object.keys(NAMED)];
