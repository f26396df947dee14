/**
 * The two voltages of a transformer, and one with its side: `480 to 208Y/120`, `480V delta-208Y/120`, `13.8 kV : 480Y/277`,
 * `primary 480 V`, `120/240 secondary`.
 */
import { termAt } from "./lexicon/lexicon.ts";
import { numberAt } from "./numbers.ts";
import type { Sense, Side, Winding } from "./sense.ts";
import type { Token } from "./tokens.ts";
import { unitAt } from "./units.ts";

type Found = { senses: readonly Sense[]; to: number };
type Rule = (t: readonly Token[], i: number) => Found | undefined;

/** Voltages that a bare number is only where something else says that voltages are spoken of. */
const VOLTAGES = [12, 16, 24, 32, 48, 110, 115, 120, 200, 208, 220, 230, 240, 277, 347, 380, 400, 415, 416, 440, 460];
const VOLTAGES_OF_SYSTEMS = [120, 208, 240, 277, 347, 480, 575, 600, 2400, 4160, 4800, 7200, 12470, 13200, 13800];
const isVoltage = (n: number): boolean => VOLTAGES.includes(n) || VOLTAGES_OF_SYSTEMS.includes(n);
/** Two figures nearer than this are one voltage, told as a range. */
const LEAST_RATIO = 1.1;
/** What stands between the two; the last ones only where the second has a neutral or is the lower. */
const TO = new Set(["to", "into", ">", "→", ":", "step", "in", "down", "up"]);
const MARKS = new Set(["-", "/"]);
/** Behind a bare number they make it a wire's. */
const GAUGES = new Set(["awg", "gauge", "ga", "thhn", "thwn", "copper", "cu", "al", "aluminum"]);
/** `12/2` is a cable, `480/208Y/120` are windings. */
const LEAST_BEFORE_SLASH = 100;
const IS = new Set(["of", "is", "at", ":", "=", "voltage", "winding", "side", "volts"]);

/** @param system reads a pair of voltages of one system */
export function windingsBy(system: Rule): Rule {
  const text = (t: readonly Token[], i: number): string => t[i]?.text ?? "";

  /** One voltage with its connection and phases. */
  function windingAt(
    t: readonly Token[],
    i: number,
    isDual = false,
  ): { winding: Winding; isBare: boolean; to: number } | undefined {
    const pair = system(t, i);
    const sense = pair?.senses[0];
    let winding: Winding;
    let to: number;
    let isBare = false;
    // Two voltages that one winding does not have at once are two windings, or one reconnected.
    if (sense?.is === "system" && (isDual || sense.wye || sense.low * 2 === sense.high && sense.low <= 120)) {
      winding = { n: sense.high, unit: "V", low: sense.low, wye: sense.wye };
      to = pair!.to;
    } else {
      const read = numberAt(t, i);
      if (!read) return undefined;
      const unit = unitAt(t, read.next, read.n);
      if (unit && unit.unit !== "V" && unit.unit !== "kV") return undefined;
      const isWire = GAUGES.has(text(t, read.next)) || (text(t, read.next) === "/" && read.n < LEAST_BEFORE_SLASH);
      if (!unit && (!isVoltage(read.n) || isWire)) return undefined;
      isBare = !unit;
      winding = { n: read.n, unit: unit?.unit === "kV" ? "kV" : "V" };
      to = unit ? unit.next : read.next;
    }
    // `480 delta`, `208Y/120 wye`, `480 V three phase`, `240 V 2 wire` stays a word of its own.
    for (;;) {
      const connection = ["Δ", "δ", "d"].includes(text(t, to)) ? "delta" : undefined;
      const term = termAt(t, to);
      const id = connection ?? term?.terms.find(({ sort }) => sort === "connection" || sort === "phase")?.id;
      if (id === "delta") winding = { ...winding, delta: true };
      else if (id === "three-phase") winding = { ...winding, phases: 3 };
      else if (id === "single-phase") winding = { ...winding, phases: 1 };
      else if (id === "wye") winding = { phases: 3, ...winding };
      else break;
      to = term?.next ?? to + 1;
    }
    return { winding, isBare, to };
  }

  const sideAt = (t: readonly Token[], i: number): { side: Side; to: number } | undefined => {
    const term = termAt(t, i);
    const id = term?.terms.find(({ sort }) => sort === "end")?.id;
    return id === "primary" || id === "secondary" ? { side: id, to: term!.next } : undefined;
  };
  const isDevice = (t: readonly Token[], i: number): boolean =>
    termAt(t, i)?.terms.some(({ sort }) => sort === "device" || sort === "role") ?? false;

  /** Both voltages; the first may be two that a winding is reconnected for, `240x480 to 120/240`. */
  const pairAt = (t: readonly Token[], i: number): Found | undefined => pairOf(t, i, false) ?? pairOf(t, i, true);
  function pairOf(t: readonly Token[], i: number, isDual: boolean): Found | undefined {
    const first = windingAt(t, i, isDual);
    if (!first) return undefined;
    const before = text(t, first.to) === "," ? first.to + 1 : first.to;
    let at = before;
    const isMark = MARKS.has(text(t, at));
    let marks = 0;
    while (TO.has(text(t, at)) || MARKS.has(text(t, at)) || ["a", "an", ","].includes(text(t, at)) && marks > 0) {
      at++;
      marks++;
    }
    const second = windingAt(t, at);
    // `480 delta 208Y/120`: nothing between, where one is a delta and the other has a neutral.
    const isTold = first.winding.delta === true && second?.winding.low !== undefined;
    if (marks === 0 && !isTold || marks > 4) return undefined;
    if (!second) return undefined;
    // `208Y/120 three phase: 24 slips`: behind a colon a number before a word counts it.
    if (text(t, before) === ":" && marks === 1 && second.isBare && t[second.to]?.is === "word") return undefined;
    const [a, b] = [volts(first.winding), volts(second.winding)];
    if (Math.max(a, b) / Math.min(a, b) < LEAST_RATIO) return undefined;
    const hasNeutral = second.winding.low !== undefined;
    if (isDual && !hasNeutral) return undefined;
    if (
      isMark && marks === 1 && !hasNeutral &&
      (a < b || system(t, i)?.senses[0]?.is === "system" && text(t, before) === "/")
    ) {
      return undefined;
    }
    const isCertain = hasNeutral || !first.isBare || !second.isBare ||
      (VOLTAGES_OF_SYSTEMS.includes(a) && VOLTAGES_OF_SYSTEMS.includes(b));
    return isCertain
      ? { senses: [{ is: "windings", primary: first.winding, secondary: second.winding }], to: second.to }
      : undefined;
  }

  return (t, i) => {
    const side = sideAt(t, i);
    if (side) {
      let at = side.to;
      while (IS.has(text(t, at))) at++;
      const found = windingAt(t, at);
      // `primary to secondary: 480 to 208Y/120` names both in front of both.
      if (found && pairAt(t, at)) return undefined;
      // `… to secondary 480 primary, 208Y/120 secondary`: the side stands behind its voltage all through.
      const behind = found && sideAt(t, found.to);
      if (behind && !isDevice(t, behind.to) && !windingAt(t, behind.to)) return undefined;
      return found && { senses: [{ is: "winding", side: side.side, winding: found.winding }], to: found.to };
    }
    const first = windingAt(t, i);
    if (!first) return undefined;
    const behind = sideAt(t, first.to);
    // `480 V primary breaker` is a breaker's side.
    if (behind && !isDevice(t, behind.to)) {
      return { senses: [{ is: "winding", side: behind.side, winding: first.winding }], to: behind.to };
    }
    return pairAt(t, i);
  };
}
const volts = ({ n, unit }: Winding): number => unit === "kV" ? n * 1000 : n;
