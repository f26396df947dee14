/** The circuit's conductors: what the plan says, or the smallest that will do. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { isSmallForSe, wiringOf } from "../../rules/conditions.ts";
import {
  type Ampacity,
  ampacityOf,
  chooseConductor,
  type Chosen,
  type Duty,
  type Material,
  meets,
  showTests,
  sizeInWords,
  sizes,
  smallLimit,
  type Wiring,
} from "../../rules/conductors.ts";
import { largestBreaker } from "../../rules/overcurrent.ts";
import type { Findings } from "./check.ts";
import type { Load } from "./load.ts";
import type { CircuitRequest } from "./request.ts";
import type { Supply } from "./supply.ts";

export type Circuit = { supply: Supply; load: Load; device: Known<"A"> };
export type Wire = {
  /** What ampacity and protection ask for, or the plan's own size where that will do. */
  chosen: Chosen;
  /** The base of a proportional equipment ground in this edition. */
  needed: Known<"word">;
  material: Material;
  /** The plan's own size stands. */
  isPlanned: boolean;
};

export function conductorOf(w: Worksheet, r: CircuitRequest, circuit: Circuit, findings: Findings): Wire {
  const duty = { ...dutyOf(w, circuit), ...(severalReceptacles(r) && { nextSizeUp: false }) };
  const count = countOf(w, r, circuit.supply);
  const own = r.size === undefined ? undefined : planned(w, r, circuit, duty, count, findings);
  const { chosen, wiring } = own ?? smallest(w, r, circuit, duty, count);
  fromOptions(w, r, chosen, findings);
  return {
    chosen,
    needed: baseOfGround(w, r, own?.duty ?? duty, wiring, chosen, own !== undefined),
    material: wiring.material,
    isPlanned: own !== undefined,
  };
}

/** What the conductors must do. A welder's device may exceed them; they follow its duty cycle. */
function dutyOf(w: Worksheet, { load, device }: Circuit): Duty {
  if (!load.welder) return { design: load.design, load: load.current, device };
  const share = w.constant<"%">("welder-conductor-device-most");
  const least = w.work("least ampacity", "A", calc`max(${load.design}, ${device} ÷ ${share})`, "welders");
  return { design: least, load: least };
}

/** A circuit of receptacles for whatever is plugged in: not allowed the next size up. */
const severalReceptacles = ({ loads }: CircuitRequest): boolean =>
  loads?.some(({ kind }) => kind === "receptacles") ?? false;

/** Current-carrying conductors together: as said, or those of each circuit times the circuits. */
function countOf(w: Worksheet, r: CircuitRequest, { phases }: Supply): Known<"1"> | undefined {
  if (r.conductors !== undefined) return undefined;
  if (r.circuits === undefined && !r.neutralCounts) return undefined;
  const lines = phases === 3 ? 3 : 2;
  // Two lines and the neutral of a wye: the neutral carries about as much as the lines.
  const wyeNeutral = phases === 1 && r.neutral === true && r.wye === true;
  const extra = r.neutralCounts || wyeNeutral ? 1 : 0;
  const each = w.given(
    "current-carrying conductors of each circuit",
    { n: String(lines + extra), unit: "1" },
    extra ? "the neutral counts" : "a neutral that carries only the difference does not count",
    "neutral-counting",
  );
  if (r.circuits === undefined) return each;
  const circuits = w.given("circuits together", { n: String(r.circuits), unit: "1" });
  return w.work("current-carrying conductors together", "1", calc`${circuits} × ${each}`, "count-adjustment");
}

/** The smallest size that passes; service-entrance cable in insulation is tried with its limit, then beyond its reach. */
function smallest(
  w: Worksheet,
  r: CircuitRequest,
  { device }: Circuit,
  duty: Duty,
  count: Known<"1"> | undefined,
): { chosen: Chosen; wiring: Wiring } {
  const attempt = (isSmallSize: boolean, least?: string) => {
    const wiring = wiringOf(w, r, device, { isSmallSize, ...(count && { count }) });
    return { wiring, chosen: chooseConductor(w, { ...duty, ...(least && { least }) }, wiring) };
  };
  if (r.method !== "SE cable" || !r.inInsulation) return attempt(true);
  return w.first([undefined], () => {
    const found = attempt(true);
    return isSmallForSe(w, found.chosen.size) ? found : undefined;
  }) ?? attempt(false, beyondSeLimit(w));
}

/** The size after the last that service-entrance cable's limit in insulation reaches. */
function beyondSeLimit(w: Worksheet): string {
  const all = sizes(w, "copper");
  return all[all.indexOf(w.scratch(() => w.word(w.constant("cable-se-insulation-largest")))) + 1]!;
}

/** The plan's conductor, where it passes; otherwise what speaks against it is a finding. */
function planned(
  w: Worksheet,
  r: CircuitRequest,
  { device, load }: Circuit,
  full: Duty,
  count: Known<"1"> | undefined,
  findings: Findings,
): { chosen: Chosen; wiring: Wiring; duty: Duty } | undefined {
  const size = w.given("conductor of the plan", r.size!);
  const wiring = wiringOf(w, r, device, { isSmallSize: isSmallForSe(w, size), ...(count && { count }) });
  const one = ampacityOf(w, size, wiring);
  // A load that was not told may be whatever the conductor carries: the device alone is held against it.
  const duty = load.told ? full : { ...full, design: one.ampacity, load: one.ampacity, device };
  if (!meets(w, one, duty, size, wiring.material)) {
    findings.problems.push(
      w.say`${sizeInWords(r.size!)} ${wiring.material} will not do: ${whyNot(w, one, duty, size, wiring.material)}`,
    );
    return undefined;
  }
  const chosen = { size, ...one };
  showTests(w, chosen, duty, wiring.material);
  if (!load.told && w.holds(one.ampacity, "<", device)) {
    const factor = w.constant<"%">("continuous-load-factor");
    const steady = w.work(
      "most continuous load it carries",
      "A",
      calc`${one.ampacity} ÷ ${factor}`,
      "continuous-loads-branch",
    );
    findings.conditions.push(w.say`the load is not over ${one.ampacity}, or ${steady} where it is continuous`);
  }
  return { chosen, wiring, duty };
}

function whyNot(w: Worksheet, one: Ampacity, duty: Duty, size: Known<"word">, material: Material): string {
  if (w.holds(one.terminal, "<", duty.design)) {
    return w.say`its terminations allow ${one.terminal}, the circuit needs ${duty.design}`;
  }
  if (w.holds(one.corrected, "<", duty.load)) return w.say`it carries ${one.corrected} here, the load is ${duty.load}`;
  return w.scratch(() => {
    const limit = smallLimit(w, size, material);
    const most = limit && w.holds(limit, "<", duty.device!) ? limit : largestBreaker(w, one.ampacity);
    return w.say`it may have at most a ${most} breaker`;
  });
}

/** Of the sizes to choose from, the one to take. */
function fromOptions(w: Worksheet, r: CircuitRequest, chosen: Chosen, findings: Findings): void {
  if (!r.options) return;
  const order = w.edition.table("conductor-ampacity").data.rows.map(([key]) => String(key));
  const enough = r.options.filter((size) => order.indexOf(size) >= order.indexOf(w.word(chosen.size)));
  if (enough.length === 0) findings.problems.push(`none of ${r.options.map(sizeInWords).join(", ")} will do`);
}

/**
 * The size that a proportional ground starts from: what is needed after correction and adjustment, or in editions where
 * any increase counts, before them.
 */
function baseOfGround(
  w: Worksheet,
  r: CircuitRequest,
  duty: Duty,
  wiring: Wiring,
  chosen: Chosen,
  isPlanned: boolean,
): Known<"word"> {
  const anyIncrease = w.edition.rule("equipment-grounding-upsizing") === "any increase";
  const corrected = r.ambient !== undefined || r.rooftop || r.conductors !== undefined || r.circuits !== undefined ||
    r.neutralCounts;
  if (!isPlanned && !(anyIncrease && corrected)) return chosen.size;
  const around = () =>
    anyIncrease
      ? {
        ...wiring,
        ambient: w.assume<"°C">("ambient-temperature"),
        count: w.assume<"1">("current-carrying-conductors"),
      }
      : wiring;
  const name = anyIncrease ? "conductor before correction and adjustment" : "smallest conductor that would do";
  const isTheSame = w.scratch(() => w.word(chooseConductor(w, duty, around(), name).size) === w.word(chosen.size));
  return isTheSame ? chosen.size : chooseConductor(w, duty, around(), name).size;
}
