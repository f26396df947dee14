/** The source of a fault: its voltage and phases, and R and X behind its terminals. */
import { calc } from "../../../core/formula.ts";
import type { Need } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { bySize, type Impedance, inSeries } from "../../../rules/faults.ts";
import { askLineToLine, isLineToNeutral, lineCurrent, type Phases } from "../../../rules/power.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { Fault, FaultRequest, System } from "./request.ts";

/** Which way the current goes in a fault: its voltage, the impedance behind the terminals, and how often it passes a run. */
export type Loop = { fault: Fault; volts: Known<"V">; source: Impedance; path?: Known<"1"> };
export type Supply = { volts: Known<"V">; phases: Phases; isCenterTapped: boolean };

const PHASES: Record<System, Phases> = { "120/240": 1, "208Y/120": 3, "480Y/277": 3, "600Y/347": 3 };
const VOLTS: Record<System, string> = { "120/240": "240", "208Y/120": "208", "480Y/277": "480", "600Y/347": "600" };
/** Between the lines of a single-phase transformer with its center tapped. */
const CENTER_TAPPED = 240;

/** What cannot be done without. */
export function missingOfSource(w: Worksheet, r: FaultRequest): Need[] {
  const needs: Need[] = [];
  if (r.source === undefined && r.power === undefined) {
    needs.push({
      field: "source",
      ask: "What feeds it: which transformer (kVA and % impedance), or how many amperes are available at the start?",
      example: "25 kVA, 1.6 % impedance",
    });
  }
  if (r.source === undefined && r.power !== undefined && r.impedance === undefined) {
    needs.push({ field: "impedance", ask: "What is the transformer's % impedance?", example: "2 % impedance" });
  }
  // `14,000 A available, is 10 kAIC ok`: at the source itself the voltage makes no difference.
  if (isAtSource(r)) return needs;
  const phases = phasesOf(w, r)?.phases;
  if (r.volts === undefined && r.system === undefined && phases !== 1) {
    needs.push({
      field: "volts",
      ask: "What is the voltage: 120/240, 208Y/120, 240 or 480Y/277 V?",
      example: "120/240 V single phase",
    });
  } else if (phases === undefined) {
    needs.push({ field: "phases", ask: "Is it single-phase or three-phase?", example: "three phase" });
  }
  const volts = r.volts && plain(r.volts);
  if (volts !== undefined && isLineToNeutral(volts) && phases === 3) {
    const [field, ask, example] = askLineToLine(volts);
    needs.push({ field, ask, example });
  }
  if (r.primaryFault && r.primaryFault.unit !== "MVA" && r.primary === undefined) {
    needs.push({
      field: "primary",
      ask: "At which primary voltage is that current available?",
      example: "12.47 kV primary",
    });
  }
  return needs;
}

/** Supplies of buildings at these voltages (common practice, no source). */
const isOfThreePhases = ({ value, unit }: { value: number | string; unit: string }): boolean =>
  unit === "V" && [208, 460, 480, 600].includes(Number(value));

/** Phases as told, or as the system or the transformer's size shows. */
function phasesOf(w: Worksheet, r: FaultRequest): { phases: Phases; because?: string } | undefined {
  if (r.fault === "three-phase") return { phases: 3 };
  const told = r.phases ?? (r.system && PHASES[r.system]);
  if (told !== undefined) return { phases: told };
  if (!r.power) {
    return r.volts && isOfThreePhases(r.volts)
      ? { phases: 3, because: "at this voltage supplies are three-phase but for rare ones" }
      : undefined;
  }
  const isMade = (id: string) =>
    w.scratch(() => {
      const size = w.given("transformer", convert(asQuantity(r.power!), "kVA"));
      const made = w.ifCovered(() => w.atLeast<"kVA">("size", id, "power", size));
      return made !== undefined && w.holds(made, "=", size);
    });
  const [single, three] = [isMade("transformer-sizes-single-phase"), isMade("transformer-sizes-three-phase")];
  if (single === three && r.volts && isOfThreePhases(r.volts)) {
    return { phases: 3, because: "at this voltage supplies are three-phase but for rare ones" };
  }
  if (single === three) return undefined;
  return single
    ? { phases: 1, because: "transformers of this size are made single-phase" }
    : { phases: 3, because: "transformers of this size are made three-phase" };
}

/** Whether what is available was told, and nothing lies between. */
export const isAtSource = (r: FaultRequest): boolean =>
  r.source !== undefined && r.run === undefined && r.motors === undefined && r.volts === undefined &&
  r.system === undefined && r.phases === undefined;

export function supplyOf(w: Worksheet, r: FaultRequest): Supply {
  const { phases, because } = phasesOf(w, r)!;
  const words = phases === 3 ? "three-phase" : "single-phase";
  if (because) w.suppose("phases", words, because, phases === 3 ? "single phase" : "three phase");
  else w.given("phases", words);
  const system = r.volts ? undefined : r.system ?? supposed(w);
  const said = system ? { n: VOLTS[system], unit: "V" as const } : asQuantity(r.volts!);
  const volts = w.given("voltage between lines", said);
  return { volts, phases, isCenterTapped: phases === 1 && Number(said.n) === CENTER_TAPPED };
}

function supposed(w: Worksheet): System {
  w.suppose("voltage", "120/240 V", "usual where one phase is fed and nothing else was told", "240 V line to line");
  return "120/240";
}

/** How the source is reckoned: as it was told, or at its lowest impedance. */
type Case = { lowest: boolean };

/** The loops that count: the fault that was named, or those that the supply can have. */
export function loopsOf(w: Worksheet, r: FaultRequest, supply: Supply, { lowest }: Case): Loop[] {
  const behind = r.source ? { own: toldImpedance(w, r, supply) } : transformerImpedance(w, r, supply, lowest);
  return supply.phases === 3
    ? [threePhaseLoop(w, r, supply, together(w, behind))]
    : singlePhaseLoops(w, r, supply, behind);
}

/** What stands behind the terminals: the source's own impedance, and the primary side's where it was told. */
type Behind = { own: Impedance; primary?: Impedance };
const together = (w: Worksheet, { own, primary }: Behind): Impedance =>
  primary ? inSeries(w, [own, primary], " of the source") : own;

function threePhaseLoop(w: Worksheet, r: FaultRequest, supply: Supply, source: Impedance): Loop {
  const fault = r.fault ?? "three-phase";
  if (fault === "line-to-line") {
    const path = w.given("conductors in the path", { n: "2", unit: "1" }, "out on one line and back on another");
    const twice = (of: "r" | "x") =>
      source[of] && { [of]: w.work(`${of === "r" ? "R" : "X"} of two phases`, "ohm", calc`${path} × ${source[of]}`) };
    return { fault, volts: supply.volts, source: { ...twice("r"), ...twice("x") }, path };
  }
  const root = w.work("√3", "1", calc`sqrt(${w.given("phases of the system", { n: "3", unit: "1" })})`);
  const volts = w.work("voltage of one phase", "V", calc`${supply.volts} ÷ ${root}`);
  if (fault === "three-phase") return { fault, volts, source };
  const path = w.given("conductors in the path", { n: "2", unit: "1" }, "out on a line and back on a neutral like it");
  return { fault, volts, source, path };
}

function singlePhaseLoops(w: Worksheet, r: FaultRequest, supply: Supply, behind: Behind): Loop[] {
  const path = w.given("conductors in the path", { n: "2", unit: "1" }, "out and back");
  const between: Loop = { fault: "line-to-line", volts: supply.volts, source: together(w, behind), path };
  if (!supply.isCenterTapped || r.fault === "line-to-line") return [between];
  const volts = w.work("voltage to the neutral", "V", calc`${supply.volts} ÷ 2`);
  // What the utility tells is the most, whichever fault it is.
  const factor = r.source ? w.given("line-to-neutral current", { n: "1", unit: "1" }, "no more than was told") : w
    .constant<"1">("center-tap-fault-factor");
  const { own, primary } = behind;
  const half = (of: "r" | "x") =>
    own[of] && {
      [of]: w.work(
        `${of === "r" ? "R" : "X"} of the source, line to neutral`,
        "ohm",
        calc`${own[of]} ÷ (2 × ${factor})`,
      ),
    };
  const ofHalf: Impedance = { ...half("r"), ...half("x") };
  // Half the winding has half the turns: what stands before it counts a quarter there, and the rule of the winding is not its.
  const before = primary?.x &&
    w.work("X of the primary side, seen from half the winding", "ohm", calc`${primary.x} ÷ (2 × 2)`);
  const source = before ? inSeries(w, [ofHalf, { x: before }], " of the source, line to neutral") : ofHalf;
  const toNeutral: Loop = { fault: "line-to-neutral", volts, source, path };
  return r.fault === "line-to-neutral" ? [toNeutral] : [between, toNeutral];
}

/** R and X of one phase (single-phase: of the whole loop) behind a known current. */
function toldImpedance(w: Worksheet, r: FaultRequest, { volts, phases }: Supply): Impedance {
  const current = w.given("fault current at the source", convert(asQuantity(r.source!), "A"));
  const z = phases === 3
    ? w.work(
      "Z of the source",
      "ohm",
      calc`${volts} ÷ (sqrt(${w.given("phases of the system", { n: "3", unit: "1" })}) × ${current})`,
    )
    : w.work("Z of the source", "ohm", calc`${volts} ÷ ${current}`);
  return bySize(w, z, ratioOf(w, r), "of the source");
}

function transformerImpedance(w: Worksheet, r: FaultRequest, { volts, phases }: Supply, lowest: boolean): Behind {
  const power = w.given("transformer", convert(asQuantity(r.power!), "kVA"));
  const nameplate = w.given("impedance", asQuantity(r.impedance!), "nameplate");
  const percent = percentOf(w, r, nameplate, lowest);
  lineCurrent(w, power, volts, phases, "rated secondary current");
  const z = w.work("Z of the transformer", "ohm", calc`${percent} × ${volts} × ${volts} ÷ ${power}`);
  const own = bySize(w, z, ratioOf(w, r), "of the transformer");
  if (!r.primaryFault) {
    w.suppose(
      "primary",
      "infinite bus",
      "nothing limits it that was told: the most there can be",
      "500 MVA at the primary",
    );
    return { own };
  }
  const capacity = primaryCapacity(w, r, phases);
  const x = w.work("X of the primary side", "ohm", calc`${volts} × ${volts} ÷ ${capacity}`);
  return { own, primary: { x } };
}

function percentOf(w: Worksheet, r: FaultRequest, nameplate: Known<"%">, lowest: boolean): Known<"%"> {
  const told = r.tolerance && plain(r.tolerance) > 0 ? w.given("tolerance", asQuantity(r.tolerance)) : undefined;
  const tolerance = told ?? (lowest && r.tolerance === undefined ? w.constant<"%">("impedance-tolerance") : undefined);
  return tolerance ? w.work("lowest impedance", "%", calc`${nameplate} × (1 − ${tolerance})`) : nameplate;
}

function primaryCapacity(w: Worksheet, r: FaultRequest, phases: Phases): Known<"MVA"> {
  const told = r.primaryFault!;
  if (told.unit === "MVA") return w.given("fault capacity of the primary", asQuantity({ ...told, unit: "MVA" }));
  const current = w.given("fault current of the primary", convert(asQuantity(told), "A"));
  const volts = w.given("primary voltage", convert(asQuantity(r.primary!), "V"));
  return w.work(
    "fault capacity of the primary",
    "MVA",
    phases === 3
      ? calc`sqrt(${w.given("phases of the system", { n: "3", unit: "1" })}) × ${volts} × ${current}`
      : calc`${volts} × ${current}`,
  );
}

/** X over R as told; otherwise reactance alone, which beside any conductor of the tables lets the most current through. */
function ratioOf(w: Worksheet, r: FaultRequest): Known<"1"> | "x" {
  if (r.ratio !== undefined) return w.given("X/R of the source", { n: String(r.ratio), unit: "1" });
  if (r.run) {
    w.suppose("source", "reactance alone", "its X/R was not told; so the run takes least off the current", "X/R 2");
  }
  return "x";
}
