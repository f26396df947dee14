/** The circuit and its load: voltage, phases, current, power factor. What may not be guessed is asked, all at once. */
import { calc } from "../../../core/formula.ts";
import { type Need, Unclear } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { motorTableCurrent } from "../../../rules/motor-current.ts";
import { apparentOfReal, lineCurrent, type Phases } from "../../../rules/power.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { DropRequest, Load } from "./request.ts";

export type Circuit = {
  volts: Known<"V">;
  phases: Phases;
  balancedNeutral: boolean;
  directCurrent: boolean;
  powerFactor: Known<"1">;
  /** The power factor was not told and lies anywhere from `powerFactor` to 1: whichever drops more counts. */
  upToUnity: boolean;
};

/** Things that are nearly always fed by one line and the neutral. */
const ON_LIGHTING_VOLTAGE: readonly DropRequest["use"][] = ["lights", "receptacles", "gate operator"];
/** Voltages that come both single-phase and three-phase; all others say it by themselves. */
const EITHER_PHASE = ["200", "208", "380", "400", "415", "440", "460", "480", "575", "600"];

/** Voltages of three-phase systems from a line to the neutral. */
const TO_NEUTRAL = ["120", "277", "347"];

/** Everything that must be asked before the circuit is known. */
export function missingFacts(r: DropRequest): Need[] {
  const needs: Need[] = [];
  const spread = r.along !== undefined || r.points !== undefined;
  if (r.load === undefined && r.points === undefined && r.breaker === undefined) {
    needs.push(
      spread || r.use === "lights"
        ? {
          field: "load",
          ask: "How many lights, and how many watts or amps does each take?",
          example: "9 lights of 100 W each",
        }
        : { field: "load", ask: "What current or power does the load draw?", example: "12 A" },
    );
  }
  if (r.along && r.count === undefined) {
    needs.push({ field: "count", ask: "How many of them are there along the run?", example: "9 lights" });
  }
  if (r.volts === undefined && r.system === undefined && !ON_LIGHTING_VOLTAGE.includes(r.use)) {
    needs.push({ field: "volts", ask: "At what voltage: 120, 240, 208, 277 or 480 V?", example: "240 V single phase" });
  } else if (r.circuit === undefined && phaseUnknown(r)) {
    needs.push({
      field: "circuit",
      ask: "Is it single-phase or three-phase? The drop differs between them.",
      example: "three phase",
    });
  }
  if (r.circuit === "three-phase" && r.volts && isToNeutral(r)) {
    needs.push({
      field: "volts",
      ask: `No three-phase system has ${r.volts.value} V between its lines: which is the line-to-line voltage?`,
      example: "208Y/120 three phase",
    });
  }
  return needs;
}

const isToNeutral = (r: DropRequest): boolean =>
  r.volts === undefined ? ON_LIGHTING_VOLTAGE.includes(r.use) : TO_NEUTRAL.includes(String(r.volts.value));

function phaseUnknown({ volts, system, load, starting, points }: DropRequest): boolean {
  const isMotor = [load, starting, ...(points ?? []).map((p) => p.load)].some((each) => each?.unit === "hp");
  if (isMotor) return String(volts?.value) !== "120" && String(volts?.value) !== "115";
  return volts === undefined
    ? system !== "120/240" && system !== undefined
    : EITHER_PHASE.includes(String(volts.value));
}

/** Voltage, phases and power factor. @throws Unclear for what may not be guessed. */
export function circuitOf(w: Worksheet, r: DropRequest): Circuit {
  const needs = missingFacts(r);
  if (needs.length > 0) throw new Unclear(needs);
  w.part("Circuit");
  const circuit = r.circuit ?? "single-phase";
  if (r.circuit === undefined && isToNeutral(r)) {
    w.given("circuit", circuit, "a line and the neutral are one phase");
  } else if (r.circuit === undefined) {
    w.suppose("phases", "single-phase", "two wires carry the load unless three phases are named", "three phase");
  } else w.given("circuit", circuit);
  return {
    volts: voltsOf(w, r),
    phases: circuit === "three-phase" ? 3 : 1,
    balancedNeutral: circuit === "balanced neutral",
    directCurrent: circuit === "direct current",
    ...powerFactorOf(w, r, circuit),
  };
}

function voltsOf(w: Worksheet, r: DropRequest): Known<"V"> {
  if (r.volts) return w.given("supply voltage", asQuantity(r.volts));
  if (r.system === undefined) return w.assume<"V">("lighting-voltage");
  const [one, other] = r.system.match(/\d+/g)!.map(Number) as [number, number];
  const toNeutral = r.circuit === "balanced neutral" || ON_LIGHTING_VOLTAGE.includes(r.use);
  const [used, left] = (one > other) === toNeutral ? [other, one] : [one, other];
  w.suppose(
    "voltage the load is on",
    `${used} V of ${r.system}`,
    toNeutral ? "it is fed by a line and the neutral" : "it is fed between the lines, the neutral carrying little",
    `${left} V`,
  );
  return w.given("supply voltage", { n: String(used), unit: "V" });
}

/** Motors, and most of what is on three phases, may be anywhere from the usual power factor of a motor to 1. */
function powerFactorOf(
  w: Worksheet,
  r: DropRequest,
  circuit: DropRequest["circuit"],
): Pick<Circuit, "powerFactor" | "upToUnity"> {
  const one = { n: "1", unit: "1" } as const;
  if (circuit === "direct current") {
    return { powerFactor: w.given("power factor", one, "direct current has none"), upToUnity: false };
  }
  if (r.powerFactor !== undefined) {
    return { powerFactor: w.given("power factor", { n: String(r.powerFactor), unit: "1" }), upToUnity: false };
  }
  const upToUnity = isMotor(r) || circuit === "three-phase";
  if (!upToUnity) return { powerFactor: w.assume<"1">("power-factor"), upToUnity };
  const powerFactor = w.constant<"1">("motor-power-factor");
  w.suppose(
    "power factor",
    w.say`${powerFactor} or 1, whichever drops more`,
    "it was not told, and motors run at the lower one",
    "power factor 0.8",
  );
  return { powerFactor, upToUnity };
}

/** Whether the load is known to be a motor. */
export const isMotor = (r: DropRequest): boolean =>
  r.use === "motor" || r.starting !== undefined || r.load?.unit === "hp" ||
  (r.points ?? []).some(({ load }) => load.unit === "hp");

/** The current of one load. */
export function currentOf(w: Worksheet, circuit: Circuit, load: Load, name = "load current"): Known<"A"> {
  const { volts, phases, powerFactor } = circuit;
  const said = asQuantity(load);
  switch (load.unit) {
    case "A":
      return w.given(name, convert(said, "A"));
    case "hp":
      return motorTableCurrent(w, w.given("motor", convert(said, "hp")), volts, circuit.directCurrent ? "dc" : phases);
    case "W":
    case "kW":
      return lineCurrent(
        w,
        apparentOfReal(w, w.given("load", convert(said, "W")), powerFactor),
        volts,
        phases,
        name,
      );
    default:
      return lineCurrent(w, w.given("load", convert(said, "VA")), volts, phases, name);
  }
}

/** The current of the whole load, or the breaker's rating where no load is told. */
export function wholeCurrent(w: Worksheet, r: DropRequest, circuit: Circuit): Known<"A"> {
  if (r.load === undefined) {
    w.suppose(
      "load",
      `the full ${r.breaker!.value} A of the breaker`,
      "only the breaker was told, and the load cannot be more than that",
      "actual load 12 A",
    );
    return w.given("load current", asQuantity(r.breaker!));
  }
  const each = currentOf(w, circuit, r.load, r.count ? "current of each" : undefined);
  if (r.count === undefined) return each;
  const count = w.given("how many", { n: String(r.count), unit: "1" });
  return w.work("load current", "A", calc`${count} × ${each}`);
}
