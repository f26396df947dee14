/** A dwelling's supply, and how its heating runs. */
import { calc } from "../../core/formula.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { type Load, ofGroup, type System } from "../loads.ts";

/** The two voltages of a dwelling's supply; 120/240 V is assumed where none was told. */
export function systemOf(w: Worksheet, system: "120/240" | "120/208" | undefined): System {
  w.part("Supply");
  const lineToNeutral = w.constant<"V">("branch-circuit-voltage");
  if (system === undefined) return { lineToNeutral, lineToLine: w.assume<"V">("supply-voltage"), motors: "230 V" };
  if (system === "120/240") {
    return {
      lineToNeutral,
      lineToLine: w.work("line-to-line voltage", "V", calc`2 × ${lineToNeutral}`),
      motors: "230 V",
    };
  }
  return { lineToNeutral, lineToLine: w.constant<"V">("network-voltage"), motors: "208 V" };
}

/** Whether a heat pump's controls keep its compressor off while the supplemental heat runs: the heavier case is assumed. */
export function lockOut(w: Worksheet, compressorLockedOut: boolean | undefined, loads: readonly Load[]): boolean {
  const has = (...groups: Parameters<typeof ofGroup>[1][]) => ofGroup(loads, ...groups).length > 0;
  if (!has("supplemental heat") || !has("heat pump")) return false;
  if (compressorLockedOut === undefined) {
    w.suppose(
      "heat pump and supplemental heat",
      "run together",
      "nothing was said of a lockout, and this is the heavier case",
      "compressor locked out",
      "optional-heating-cooling",
    );
  } else {
    w.given("heat pump and supplemental heat", compressorLockedOut ? "never run together" : "run together");
  }
  return compressorLockedOut ?? false;
}

/**
 * Whether a heat pump and heaters of their own run together. The optional method takes the largest of its choices of
 * heating and never adds two of them; that they are added when told is the safer reading.
 */
export function runTogether(w: Worksheet, compressorLockedOut: boolean | undefined, loads: readonly Load[]): boolean {
  const heaters = ofGroup(loads, "furnace", "space heating");
  if (heaters.length === 0 || ofGroup(loads, "heat pump").length === 0) return false;
  const name = "heat pump and the other heating, optional method";
  if (compressorLockedOut !== undefined) {
    w.given(name, compressorLockedOut ? "never run together" : "run together", undefined, "optional-heating-cooling");
    return !compressorLockedOut;
  }
  const why = "this method counts the largest of its heating choices alone";
  w.suppose(name, "not added up, the larger counts", why, "they run together", "optional-heating-cooling");
  return false;
}
