/** Voltages, phases and wires of a supply. */
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt } from "./numbers.ts";
import { isGlued, one, type Rule, type Sense, text } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

const SYSTEM_PAIRS: readonly (readonly [number, number, boolean])[] = [
  [120, 240, false],
  [110, 220, false],
  [115, 230, false],
  [120, 208, true],
  [277, 480, true],
  [265, 460, true],
  [347, 600, true],
  [230, 460, false],
  [240, 480, false],
  [208, 230, false],
  [115, 208, false],
  [220, 440, false],
  [200, 230, false],
  [200, 400, false],
  [220, 380, true],
  [230, 400, true],
];
const isSystem = (a: number, b: number) =>
  SYSTEM_PAIRS.find(([low, high]) => (a === low && b === high) || (a === high && b === low));
const voltsEnd = (t: readonly Token[], i: number): number => {
  const unit = unitAt(t, i);
  return unit?.unit === "V" ? unit.next : i;
};
export const system: Rule = (t, i) => {
  if (t[i]?.is !== "number") return undefined;
  let at = i + 1;
  const first = t[i]!.n!;
  let wye = false;
  const y = () => {
    if (["y", "wye"].includes(text(t, at)) && isGlued(t, at)) {
      wye = true;
      at++;
    }
  };
  // `208v/120v`
  const volts = unitAt(t, at);
  if (volts?.unit === "V" && text(t, volts.next) === "/") at = volts.next;
  y();
  if (["/", "-", "x"].includes(text(t, at))) at++;
  else if (text(t, at) === "to" || text(t, at) === "or") return undefined;
  else if (!wye) return undefined;
  const second = t[at]?.is === "number" ? t[at]!.n! : undefined;
  if (second === undefined) {
    return wye && (first === 208 || first === 480) && text(t, at) !== "/"
      ? one({ is: "system", low: first === 208 ? 120 : 277, high: first, wye: true }, voltsEnd(t, at))
      : undefined;
  }
  at++;
  y();
  const found = isSystem(first, second);
  // `208-230/460`: the nameplate of a motor for three voltages.
  if (found && first < second && text(t, at) === "/" && t[at + 1]?.n === 460) {
    return one({ is: "system", low: 208, high: 460, wye: false }, voltsEnd(t, at + 2));
  }
  if (!found) return undefined;
  // `115/208-230`
  if (first === 115 && second === 208 && text(t, at) === "-" && t[at + 1]?.n === 230) {
    return one({ is: "system", low: 115, high: 208, wye: false }, voltsEnd(t, at + 2));
  }
  const [low, high, isWye] = found;
  // `460/3/60` has a third part.
  return one({ is: "system", low, high, wye: isWye || wye }, voltsEnd(t, at));
};
export const LAID = new Set(["wired", "pulled", "ran", "run", "fed", "done", "roughed"]);
/** `230 single`, `208 three`: behind a voltage, so many phases. */
export const phaseAlone: Rule = (t, i) => {
  const id = { single: "single-phase", three: "three-phase" }[text(t, i)];
  if (id === undefined || ["phase", "ph", "-", "pole", "wire", "conductor", "speed"].includes(text(t, i + 1))) {
    return undefined;
  }
  const [before, unit] = [t[i - 1], t[i - 2]];
  const volts = before?.is === "number"
    ? before.n!
    : ["v", "volt", "volts"].includes(before?.text ?? "")
    ? unit?.n ?? 0
    : 0;
  const isEnd = t[i + 1] === undefined || t[i + 1]!.is !== "word" || !numberAt(t, i + 1) && !termAt(t, i + 1);
  return volts >= 110 && volts <= 600 && isEnd ? one({ is: "term", sort: "phase", id }, i + 1) : undefined;
};
/** `3ph 4w`, `3W` behind phases or voltages: so many wires. */
export const wires: Rule = (t, i) => {
  const n = t[i]?.is === "number" ? t[i]!.n! : 0;
  if (![2, 3, 4].includes(n) || text(t, i + 1) !== "w" || !isGlued(t, i + 1)) return undefined;
  const before = t[i - 1];
  // `208Y/120 panelboard 4w`: nothing else is of 3 or 4 watts where a supply is told.
  const isOfSupply = n > 2 && t.some((_, k) => system(t, k) !== undefined);
  const isBehind = isOfSupply ||
    ["phase", "ph", "ø", "v", "volt", "volts", "wye", "delta", ","].includes(before?.text ?? "") ||
    (before?.is === "number" && before.n! >= 100);
  const id = { 2: "two-wire", 3: "three-wire", 4: "four-wire" }[n as 2 | 3 | 4];
  return isBehind ? one({ is: "term", sort: "connection", id }, i + 2) : undefined;
};
/** `460/3/60`, `208-230/1/60`: volts, phases, hertz. */
export const nameplateSupply: Rule = (t, i) => {
  const volts = t[i]?.is === "number" ? t[i]!.n! : 0;
  if (volts < 100 || volts > 700) return undefined;
  let at = i + 1;
  let pair: readonly [number, number] | undefined;
  if ((text(t, at) === "-" || text(t, at) === "/") && t[at + 1]?.is === "number" && t[at + 1]!.n! >= 100) {
    pair = [volts, t[at + 1]!.n!];
    at += 2;
  }
  const unit = unitAt(t, at);
  if (unit?.unit === "V") at = unit.next;
  if (!["/", "-"].includes(text(t, at))) return undefined;
  const ph = t[at + 1]?.n;
  at += 2;
  if (ph !== 1 && ph !== 3) return undefined;
  const isNamed = text(t, at) === "ph" || text(t, at) === "phase";
  if (isNamed) at++;
  const hasHertz = ["/", "-"].includes(text(t, at)) && [50, 60].includes(t[at + 1]?.n ?? 0);
  if (!hasHertz && !isNamed) return undefined;
  if (hasHertz) at += 2;
  if (hasHertz && unitAt(t, at)?.unit === "Hz") at = unitAt(t, at)!.next;
  const phase: Sense = { is: "term", sort: "phase", id: ph === 3 ? "three-phase" : "single-phase" };
  const found = pair && isSystem(...pair);
  return {
    senses: [
      pair
        ? { is: "system", low: Math.min(...pair), high: Math.max(...pair), wye: found?.[2] ?? false }
        : { is: "quantity", n: volts, unit: "V" },
      phase,
    ],
    to: at,
  };
};
/** `3 phase`, `1ph`, `3ø`, `ph: 3`. */
export const phase: Rule = (t, i) => {
  const read = numberAt(t, i);
  if (read && [1, 2, 3].includes(read.n)) {
    const at = text(t, read.next) === "-" ? read.next + 1 : read.next;
    // `3~`, `1 ~`
    const isTilde = text(t, at) === "~" && t[at + 1]?.is !== "number" && (read.n === 1 || read.n === 3);
    if (isTilde) return one({ is: "term", sort: "phase", id: read.n === 3 ? "three-phase" : "single-phase" }, at + 1);
    if (!["phase", "phases", "ph", "ø", "fases", "phs"].includes(text(t, at))) return undefined;
    const id = read.n === 3 ? "three-phase" : read.n === 1 ? "single-phase" : "two-phase";
    return one({ is: "term", sort: "phase", id }, at + 1);
  }
  if (!["phase", "phases", "ph", "ø"].includes(text(t, i))) return undefined;
  let at = i + 1;
  if ([":", "=", "-"].includes(text(t, at))) at++;
  const n = t[at]?.is === "number" ? t[at]!.n! : NaN;
  const unit = unitAt(t, at + 1);
  // `PHASE 1 HZ 60`: the unit belongs to what follows.
  if ((n !== 1 && n !== 3) || (unit && !(unit.unit === "Hz" && t[unit.next]?.is === "number"))) return undefined;
  return one({ is: "term", sort: "phase", id: n === 3 ? "three-phase" : "single-phase" }, at + 1);
};
