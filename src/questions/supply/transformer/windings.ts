/** The transformer itself: its power, given or found from the load, and the rated current of either winding. */
import { calc } from "../../../core/formula.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { apparentOfReal, apparentPower, lineCurrent, type Phases } from "../../../rules/power.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { System, TransformerRequest } from "./request.ts";

type Winding = {
  volts: Known<"V">;
  current: Known<"A">;
  /** What its conductors and its device have to be good for at least: 125 % of what runs for three hours or more. */
  design: Known<"A">;
};
export type Windings = {
  phases: Phases;
  power: Known<"kVA">;
  primary?: Winding;
  secondary?: Winding;
  load?: Known<"A">;
};

/** The phases that a secondary system shows by its very name. */
const PHASES: Record<System, Phases> = { "120/240": 1, "208Y/120": 3, "480Y/277": 3, "600Y/347": 3 };

export function windingsOf(w: Worksheet, r: TransformerRequest): Windings {
  if (r.autotransformer) {
    throw new NotCovered(
      "autotransformers (buck-boost) are not covered here: only transformers with two windings",
      w.edition.id,
    );
  }
  if (!r.power && !r.load) {
    throw need(
      "power",
      "How many kVA does the transformer have, or what load must it carry?",
      "45 kVA 480 V to 208Y/120",
    );
  }
  if (!r.primary && !r.secondary && !r.system) {
    throw need("primary", "Which voltages does it have, primary and secondary?", "480 V to 208Y/120");
  }
  mustAgree(r);
  w.part("Transformer");
  const phases = phasesOf(w, r);
  const volts = (side: "primary" | "secondary") =>
    r[side] && w.given(`${side} voltage`, convert(asQuantity(r[side]), "V"));
  const [primary, secondary] = [volts("primary"), volts("secondary") ?? ofSystem(w, r)];
  const load = r.load && loadOf(w, r, r.load, secondary, phases);
  const power = r.power ? w.given("transformer", convert(asQuantity(r.power), "kVA")) : sizeFor(w, load!, phases);
  const winding = (side: string, at: Known<"V">): Winding => {
    const current = lineCurrent(w, power, at, phases, `rated ${side} current`);
    return { volts: at, current, design: designCurrent(w, r, { side, current, at, load, phases }) };
  };
  return {
    phases,
    power,
    ...(primary && { primary: winding("primary", primary) }),
    ...(secondary && { secondary: winding("secondary", secondary) }),
    ...(load && secondary && { load: lineCurrent(w, load, secondary, phases, "load current at the secondary") }),
  };
}

/** Voltage between the lines of a system, whose name holds it. */
const linesOf = (system: System): number => Math.max(...system.match(/\d+/g)!.map(Number));

/** A voltage that was told beside a system has to be its own. */
function mustAgree({ secondary, system }: TransformerRequest): void {
  if (!secondary || !system) return;
  const told = voltsOf(secondary);
  const between = linesOf(system);
  const isOwn = system.match(/\d+/g)!.map(Number).includes(told) || Math.abs(told / between - 1) <= OLDER_NAMES;
  if (isOwn) return;
  throw need(
    "secondary",
    `A ${system} secondary has ${between} V between its lines, and ${told} V was told: which is it?`,
    `${system} secondary`,
  );
}
/** 220 V of a 120/240 V system, 460 V of a 480Y/277 V one: as far as its older names are from a voltage. */
const OLDER_NAMES = 0.1;

/** The secondary voltage that a system's name tells. */
function ofSystem(w: Worksheet, { system }: TransformerRequest): Known<"V"> | undefined {
  if (!system) return undefined;
  const between = linesOf(system);
  return w.given("secondary voltage", { n: String(between), unit: "V" }, `between the lines of ${system}`);
}

type Side = { side: string; current: Known<"A">; at: Known<"V">; load: Known<"VA"> | undefined; phases: Phases };

/** The rated current, raised where the transformer runs fully loaded for three hours or more, or where its load does. */
function designCurrent(w: Worksheet, r: TransformerRequest, { side, current, at, load, phases }: Side): Known<"A"> {
  if (!r.continuous) return current;
  const factor = w.constant<"%">("continuous-load-factor");
  const name = `${side} current, continuous`;
  if (!load) return w.work(name, "A", calc`${current} × ${factor}`, "continuous-loads-feeder");
  const carried = lineCurrent(w, load, at, phases, `load current at the ${side}`);
  return w.work(name, "A", calc`max(${current}, ${carried} × ${factor})`, "continuous-loads-feeder");
}

const voltsOf = (side: { value: number | string; unit: "V" | "kV" }): number =>
  plain(side) * (side.unit === "kV" ? 1000 : 1);
/** Between the lines of a 208Y/120 V network; no single-phase system has it (common practice, no source). */
const LINES_OF_NETWORK = 208;
const isOfNetwork = ({ secondary }: TransformerRequest): boolean =>
  secondary !== undefined && voltsOf(secondary) === LINES_OF_NETWORK;

function phasesOf(w: Worksheet, r: TransformerRequest): Phases {
  const shown = r.system && PHASES[r.system];
  if (r.phases !== undefined) {
    if (r.phases === 1 && shown === 3) {
      throw need(
        "phases",
        `${r.system} is a three-phase system. Is the transformer single-phase, or its secondary another?`,
        "three phase",
      );
    }
    return r.phases;
  }
  if (shown === undefined && isOfNetwork(r)) {
    w.suppose(
      "phases",
      "three-phase",
      `${LINES_OF_NETWORK} V is between the lines of a three-phase network`,
      "single phase",
    );
    return 3;
  }
  if (shown === undefined) {
    throw need("phases", "Is the transformer single-phase or three-phase?", "three phase");
  }
  if (shown === 3) w.given("phases", "three-phase", `as a ${r.system} secondary shows`);
  else w.suppose("phases", "single-phase", `a ${r.system} secondary mostly is`, "three phase");
  return shown;
}

function loadOf(
  w: Worksheet,
  r: TransformerRequest,
  said: NonNullable<TransformerRequest["load"]>,
  volts: Known<"V"> | undefined,
  phases: Phases,
): Known<"VA"> {
  const { n } = asQuantity(said);
  if (said.unit === "A") {
    if (!volts) throw need("secondary", "At which secondary voltage is that current?", "100 A at 208Y/120");
    return apparentPower(w, w.given("load", { n, unit: "A" }), volts, phases);
  }
  if (said.unit === "VA" || said.unit === "kVA") return w.given("load", convert({ n, unit: said.unit }, "VA"));
  const watts = w.given("load", convert({ n, unit: said.unit }, "W"));
  const powerFactor = r.powerFactor === undefined
    ? w.assume<"1">("power-factor")
    : w.given("power factor", { n: String(r.powerFactor), unit: "1" });
  return apparentOfReal(w, watts, powerFactor);
}

/** The smallest preferred size that carries the load. */
function sizeFor(w: Worksheet, load: Known<"VA">, phases: Phases): Known<"kVA"> {
  const size = w.atLeast<"kVA">(
    "transformer, the next preferred size",
    `transformer-sizes-${phases === 3 ? "three" : "single"}-phase`,
    "power",
    load,
  );
  w.figure("transformer-size", size, "transformer");
  return size;
}
