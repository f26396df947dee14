/** What stands beside the answer: exact phasors, the hand formula, line to neutral, a starting motor, other power factors. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import {
  type Drop,
  dropByHand,
  effectiveImpedance,
  exactDrop,
  handResistance,
  largestImpedance,
  perSet,
} from "../../../rules/voltage-drop.ts";
import { currentOf } from "./circuit.ts";
import { dropAlong, type Setting, together, type Worked } from "./run.ts";

/** What stands beside the answer: phasors, the hand formula, line to neutral, other power factors. */
export function besides(w: Worksheet, s: Setting, parts: readonly Worked[], drop: Drop): void {
  if (s.constant) byTheTables(w, s, parts);
  else showBeside(w, parts);
  w.aside("By exact phasors", "By the rule of thumb", BY_TABLE);
  if (s.circuit.phases === 3) {
    w.part("Line to neutral");
    const root = w.work("path factor, line to line", "1", calc`sqrt(${w.given("phases", { n: "3", unit: "1" })})`);
    w.figure("voltage-drop-line-to-neutral", w.work("drop line to neutral", "V", calc`${drop.volts} ÷ ${root}`));
    w.aside("Line to neutral");
  }
  motorPowerFactor(w, s, parts, drop);
}

export const BY_TABLE = "By the tables";

/** What the tables give, where a stated constant took their place. */
function byTheTables(w: Worksheet, s: Setting, parts: readonly Worked[]): void {
  w.part(BY_TABLE);
  const each = parts.map(({ run }) => dropAlong(w, run, s.circuit.upToUnity));
  w.figure("voltage-drop-by-table", together(w, each, s.circuit.volts).volts);
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

/** Exact phasors and the hand formula, beside the answer, and why they differ. */
function showBeside(w: Worksheet, parts: readonly Worked[]): void {
  const [only] = parts;
  if (parts.length === 1 && only!.impedance) {
    w.part("By exact phasors");
    const exact = exactDrop(w, only!.run, only!.impedance, only!.path, only!.volts);
    if (exact) w.figure("voltage-drop-exact", exact);
  }
  if (parts.some(({ run }) => !w.has("conductor-properties", "area", run.size))) return;
  w.part("By the rule of thumb");
  const byHand = parts.map(({ run, path }) => dropByHand(w, run, path));
  const sum = byHand.length === 1
    ? byHand[0]!
    : w.work("drop by the rule of thumb, all stretches", "V", calc`sum(${byHand})`);
  w.figure("voltage-drop-rule-of-thumb", sum);
}

/** The drop while a motor starts: at whatever power factor, so never less than it will be. */
export function startingCase(w: Worksheet, s: Setting, parts: readonly Worked[]): Known<"%"> | undefined {
  if (!s.r.starting) return undefined;
  w.part("While the motor starts");
  const current = currentOf(w, s.circuit, s.r.starting, "starting current");
  const drops = parts.map(({ run, path, impedance }) => {
    const most = impedance ? largestImpedance(w, impedance) : s.stated ?? handResistance(w, s.constant!, run.size);
    return w.work("drop while starting", "V", calc`${path} × ${current} × ${perSet(w, run, most)} × ${run.length}`);
  });
  const volts = drops.length === 1 ? drops[0]! : w.work("drop while starting, all stretches", "V", calc`sum(${drops})`);
  const percent = w.work("drop while starting in percent", "%", calc`${volts} ÷ ${s.circuit.volts}`);
  w.figure("starting-voltage-drop-volts", volts);
  w.figure("starting-voltage-drop", percent);
  w.caution(w.say`While it starts the drop is up to ${percent}: ask the motor's maker what it starts on.`);
  return percent;
}
