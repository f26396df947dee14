/** Power and current: what comes out depends on voltage, phases, power factor and efficiency, each asked or assumed. */
import { calc } from "../../../core/formula.ts";
import type { Need } from "../../../core/outcome.ts";
import { convert, type Unit } from "../../../core/quantity.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { motorTableCurrent } from "../../../rules/motor-current.ts";
import {
  apparentOfReal,
  apparentPower,
  askLineToLine,
  inputOfShaft,
  isLineToNeutral,
  lineCurrent,
  type Phases,
  realOfApparent,
  shaftOfInput,
} from "../../../rules/power.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { ConversionRequest } from "./request.ts";

/** Voltages that come both single-phase and three-phase. */
const EITHER_PHASE = ["208", "380", "400", "415", "440", "460", "480", "575", "600"];
/** And where a motor is on them; other loads of a dwelling on this voltage are single-phase. */
const EITHER_PHASE_OF_MOTORS = ["220", "230", "240"];
const REAL = ["W", "kW"];
const APPARENT = ["VA", "kVA", "MVA"];
const SHAFT = ["hp"];
type Kind = "real" | "apparent" | "shaft" | "current";
const kindOf = (unit: string): Kind =>
  REAL.includes(unit) ? "real" : APPARENT.includes(unit) ? "apparent" : SHAFT.includes(unit) ? "shaft" : "current";

/** What is wanted: as said, or the other of power and current. */
function wantedOf(r: ConversionRequest): string {
  if (r.to !== undefined) return r.to;
  if (r.current) return "kVA";
  return r.volts ? "A" : { W: "hp", kW: "hp", hp: "kW", VA: "kW", kVA: "kW", MVA: "kW" }[r.power!.unit];
}

/** Everything that must be asked before the numbers can be worked. */
export function missingForPower(r: ConversionRequest): Need[] {
  if (r.power === undefined && r.current === undefined) {
    return [{
      field: "power",
      ask: "What is to be converted, and into what?",
      example: "15 kVA at 208 V three phase in amps",
    }];
  }
  const from = r.current ? "current" : kindOf(r.power!.unit);
  const to = kindOf(wantedOf(r));
  const needs: Need[] = [];
  if ((from === "current") !== (to === "current")) {
    if (r.volts === undefined) {
      needs.push({ field: "volts", ask: "At what voltage?", example: "240 V single phase" });
    }
    if (r.volts && r.circuit === "three-phase" && isLineToNeutral(Number(voltsText(r)))) {
      const [field, ask, example] = askLineToLine(Number(voltsText(r)));
      needs.push({ field, ask, example });
    }
    if (r.circuit === undefined && phaseUnknown(r)) {
      needs.push({ field: "circuit", ask: "Single-phase or three-phase?", example: "three phase" });
    }
  }
  const pair = [from, to].toSorted().join(" ");
  if (pair === "apparent real" && r.powerFactor === undefined) {
    needs.push({
      field: "powerFactor",
      ask: "At what power factor? kW is kVA times it.",
      example: "power factor 0.85",
    });
  }
  if (pair === "apparent shaft" && !knowsLosses(r)) {
    needs.push({
      field: "efficiency",
      ask: "With what efficiency and power factor does the motor turn kVA into hp?",
      example: "efficiency 90 %, power factor 0.85",
    });
  }
  if (from === "current" && to === "shaft" && !knowsLosses(r)) {
    needs.push(
      r.circuit === "direct current"
        ? {
          field: "efficiency",
          ask: "With what efficiency? Without it amperes say nothing of a motor's shaft power.",
          example: "efficiency 90 %",
        }
        : {
          field: "efficiency",
          ask: "With what efficiency and power factor? Without them amperes say nothing of a motor's shaft power.",
          example: "efficiency 90 %, power factor 0.85",
        },
    );
  }
  return needs;
}

/** Whether all that lies between a motor's shaft and its line was told; direct current has no power factor. */
const knowsLosses = ({ circuit, efficiency, powerFactor }: ConversionRequest): boolean =>
  efficiency !== undefined && (powerFactor !== undefined || circuit === "direct current");

const phaseUnknown = (r: ConversionRequest): boolean =>
  r.volts === undefined || EITHER_PHASE.includes(voltsText(r)) ||
  (r.power?.unit === "hp" && EITHER_PHASE_OF_MOTORS.includes(voltsText(r)));
const voltsText = ({ volts }: ConversionRequest): string => String(plain(volts!) * (volts!.unit === "kV" ? 1000 : 1));
const phasesOf = ({ circuit }: ConversionRequest): Phases => circuit === "three-phase" ? 3 : 1;

/** What the steps come to, in the units of their kind; only those that are needed are worked. */
class Powers {
  constructor(private readonly w: Worksheet, private readonly r: ConversionRequest) {}

  /** 1 is taken for a heater, or where nothing was said and the current is asked. */
  powerFactor(): Known<"1"> {
    const { powerFactor, circuit } = this.r;
    if (circuit === "direct current") {
      return this.w.given("power factor", { n: "1", unit: "1" }, "direct current has none");
    }
    return this.w.take(
      "power factor",
      powerFactor === undefined ? undefined : { n: String(powerFactor), unit: "1" },
      "power-factor",
    );
  }

  /** Pure unit conversion takes no losses; a machine's are told. */
  efficiency(): Known<"%"> {
    const { efficiency } = this.r;
    if (efficiency) return this.w.given("efficiency", asQuantity(efficiency));
    this.w.suppose("losses", "none", "only the unit is converted", "efficiency 90 %");
    return this.w.given("efficiency", { n: "100", unit: "%" });
  }

  volts(): Known<"V"> {
    const { volts, circuit } = this.r;
    if (circuit === undefined) {
      this.w.suppose("phases", "single-phase", "this voltage is mostly single-phase", "three phase");
    } else this.w.given("circuit", circuit);
    return this.w.given(
      "voltage",
      convert(asQuantity(volts!), "V"),
      circuit === "three-phase" ? "line to line" : undefined,
    );
  }

  /** The power that was told, in the unit it was told in. */
  said<U extends Unit>(): Known<U> {
    return this.w.given("power", asQuantity(this.r.power!)) as Known<U>;
  }
}

/** Works the conversion and tells it. */
export function convertPower(w: Worksheet, r: ConversionRequest): Told {
  w.part("Conversion");
  const to = wantedOf(r);
  const want = kindOf(to);
  const from = r.current ? "current" : kindOf(r.power!.unit);
  const powers = new Powers(w, r);
  if (from === want) return sameKind(w, r, to as Unit);
  if (from === "shaft" && want === "current" && !knowsLosses(r)) {
    return motorByTable(w, r, powers);
  }
  let volts: Known<"V"> | undefined;
  const at = () => volts ??= powers.volts();
  const apparent = (): Known<"VA"> => {
    switch (from) {
      case "current":
        return apparentPower(w, w.given("current", asQuantity(r.current!)), at(), phasesOf(r));
      case "apparent":
        return powers.said<"VA">();
      default:
        return apparentOfReal(w, real(), powers.powerFactor());
    }
  };
  const real = (): Known<"W"> => {
    if (from === "shaft") return inputOfShaft(w, powers.said<"hp">(), powers.efficiency());
    return from === "real" ? powers.said<"W">() : realOfApparent(w, apparent(), powers.powerFactor());
  };
  const result = want === "current"
    ? lineCurrent(w, apparent(), at(), phasesOf(r))
    : want === "apparent"
    ? apparent()
    : want === "real"
    ? real()
    : shaftOfInput(w, real(), powers.efficiency());
  return tell(w, r, result, to as Unit, volts);
}

/** kW to W, kVA to MVA: only the unit changes. */
function sameKind(w: Worksheet, r: ConversionRequest, to: Unit): Told {
  const said = w.given(r.current ? "current" : "power", asQuantity(r.current ?? r.power!));
  return tell(w, r, said, to, undefined);
}

function tell(w: Worksheet, r: ConversionRequest, result: Known, to: Unit, volts: Known<"V"> | undefined): Told {
  const shown = result.kind === to ? result : w.work(`${result.name} in ${to}`, to, calc`1 × ${result}`);
  const want = kindOf(to);
  w.figure(want === "current" ? "current" : want === "shaft" ? "shaft-power" : "power", shown);
  const from = r.current ?? r.power!;
  const where = volts ? w.say` at ${volts}, ${r.circuit ?? "single-phase"}` : "";
  const factor = r.powerFactor === undefined ? "" : `, power factor ${r.powerFactor}`;
  const losses = r.efficiency === undefined ? "" : `, efficiency ${r.efficiency.value} %`;
  const headline = w.say`${String(from.value)} ${from.unit}${where}${factor}${losses} is ${shown}.`;
  if (r.efficiency === undefined && (want === "shaft") !== (r.power?.unit === "hp")) {
    w.caution("A motor takes more from the line than its shaft gives: say its efficiency to have the losses counted.");
  }
  if (r.power?.unit === "hp" && want === "current") {
    w.caution(
      "Conductors and protection of a motor go by the code's table current, not by this one.",
      "motor-currents",
    );
  }
  if (want === "current" && r.circuit !== "three-phase") w.suggest("three phase");
  if (want === "current" && r.circuit === "three-phase") w.suggest("single phase");
  return { headline };
}

/** Shaft power to current without efficiency and power factor: the code's own table knows, physics does not. */
function motorByTable(w: Worksheet, r: ConversionRequest, powers: Powers): Told {
  const shaft = powers.said<"hp">();
  const volts = powers.volts();
  const current = motorTableCurrent(w, shaft, volts, r.circuit === "direct current" ? "dc" : phasesOf(r));
  w.figure("current", current);
  const headline = w.say`${shaft} at ${volts}, ${r.circuit ?? "single-phase"}: ${current} by the code's motor table.`;
  w.caution("Overloads go by the nameplate current, not by the table.", "motor-overload");
  if (r.efficiency !== undefined) {
    w.caution(
      w.say`The efficiency of ${powers.efficiency()} counts only together with a power factor, which was not told.`,
    );
  } else if (r.powerFactor !== undefined) {
    w.caution("The power factor counts only together with an efficiency, which was not told.");
  }
  w.suggest("efficiency 90 %, power factor 0.85");
  return { headline };
}
