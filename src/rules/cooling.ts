/** Circuits of hermetic compressors and the fans and heaters with them: conductor ampacity and branch-circuit device. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import type { ProtectionRow } from "./motor-protection.ts";
import { breakerBelow, nextBreaker } from "./overcurrent.ts";

/** Alike motors: how many, and the current of each. */
type Motors = { count?: Known<"1">; current: Known<"A"> };

/** The loads of one cooling circuit. */
export type CoolingLoads = {
  compressors: readonly Motors[];
  /** Fans and other motors of the equipment, at their nameplate current. */
  fans: readonly Motors[];
  /** Electric heat. */
  heat?: Known<"A">;
  /** Whether controls keep heat and compressors from running together. */
  interlocked: boolean;
  /** Of the fans: the share of a motor's device depends on them. */
  phases: 1 | 3;
};

/** The current that sizes a compressor's circuit: the branch-circuit selection current where one is marked and larger. */
export function compressorCurrent(
  w: Worksheet,
  rated: Known<"A"> | undefined,
  selection: Known<"A"> | undefined,
): Known<"A"> | undefined {
  if (!rated || !selection) return rated ?? selection;
  return w.work("compressor current to use", "A", calc`max(${rated}, ${selection})`, "hermetic-currents");
}

const totalOf = (w: Worksheet, motors: readonly Motors[], name: string): Known<"A"> | undefined => {
  if (motors.length === 0) return undefined;
  const all = motors.map(({ count, current }) =>
    count ? w.work(`${current.name}, together`, "A", calc`${count} × ${current}`) : current
  );
  return all.length === 1 ? all[0] : w.work(name, "A", calc`sum(${all})`);
};

const largestOf = (w: Worksheet, motors: readonly Motors[], name: string): Known<"A"> => {
  const each = motors.map(({ current }) => current);
  return each.length === 1 ? each[0]! : w.work(name, "A", calc`max(${each})`);
};

/** What runs at once while cooling: all motors, and the heat unless it is kept out. */
type Sums = { motors?: Known<"A">; fans?: Known<"A">; all: Known<"A"> };

/** Adds the currents up, for the conductors, the device and the disconnect alike. */
export function sumsOf(w: Worksheet, { compressors, fans, heat, interlocked }: CoolingLoads): Sums {
  const fansTogether = totalOf(w, fans, "fans together");
  const motors = totalOf(w, [...compressors, ...fans], "compressors and fans together");
  const parts = [motors, heat].filter((each) => each !== undefined);
  const heating = [fansTogether, heat].filter((each) => each !== undefined);
  const all = parts.length === 1
    ? parts[0]!
    : interlocked
    ? w.work("most that runs at once", "A", calc`max(${motors!}, sum(${heating}))`)
    : w.work("all loads together", "A", calc`sum(${parts})`);
  return { ...(motors && { motors }), ...(fansTogether && { fans: fansTogether }), all };
}

/** Ampacity that the motors alone ask for: all of them, and an addition for the largest. */
function motorAmpacity(w: Worksheet, loads: CoolingLoads, motors: Known<"A">, name: string): Known<"A"> {
  const [only] = loads.compressors;
  if (only && !only.count && loads.compressors.length + loads.fans.length === 1) {
    const factor = w.constant<"%">("hermetic-conductor-factor");
    return w.work(name, "A", calc`${only.current} × ${factor}`, "hermetic-conductors");
  }
  const largest = largestOf(w, [...loads.compressors, ...loads.fans], "largest motor");
  const share = w.constant<"%">("hermetic-largest-addition");
  return w.work(name, "A", calc`${motors} + ${largest} × ${share}`, "hermetic-several");
}

/** Ampacity that fixed heat asks for, with the fans that run beside it. */
function heatAmpacity(w: Worksheet, heat: Known<"A">, fans: Known<"A"> | undefined, name: string): Known<"A"> {
  const factor = w.constant<"%">("space-heating-factor");
  const formula = fans ? calc`(${heat} + ${fans}) × ${factor}` : calc`${heat} × ${factor}`;
  return w.work(name, "A", formula, "heating-circuits");
}

/** The least ampacity of the circuit's conductors. */
export function circuitAmpacity(w: Worksheet, loads: CoolingLoads, sums: Sums): Known<"A"> {
  const name = "minimum circuit ampacity";
  const { heat, interlocked } = loads;
  if (!heat) return motorAmpacity(w, loads, sums.motors!, name);
  if (loads.compressors.length === 0) return heatAmpacity(w, heat, sums.fans, name);
  const cooling = motorAmpacity(w, loads, sums.motors!, "ampacity for compressors and fans");
  if (!interlocked) {
    const heating = heatAmpacity(w, heat, undefined, "ampacity for the heat");
    return w.work(name, "A", calc`${cooling} + ${heating}`, "hermetic-several");
  }
  const heating = heatAmpacity(w, heat, sums.fans, "ampacity while heating");
  return w.work(name, "A", calc`max(${cooling}, ${heating})`, "hermetic-several");
}

/** The device: what is normal, and the most where the compressor will not start on that. */
type Devices = { normal: Known<"A">; highest: Known<"A"> };

/**
 * The branch-circuit device of a circuit worked out from its parts. Where the largest load is a compressor: a share of its
 * current and all the rest, next standard size down. Where heat is, the device protects the conductors.
 */
export function devicesOf(w: Worksheet, loads: CoolingLoads, sums: Sums, ampacity: Known<"A">): Devices {
  const byConductors = () => {
    const least = w.constant<"A">("hermetic-protection-least");
    const covered = w.work("least device", "A", calc`max(${least}, ${ampacity})`);
    const device = nextBreaker(w, covered, "standard rating that covers the conductors' load");
    return { normal: device, highest: device };
  };
  if (loads.compressors.length === 0) return byConductors();
  const compressor = largestOf(w, loads.compressors, "largest compressor");
  const others = loads.interlocked ? sums.motors! : sums.all;
  const byCompressor = () => ({
    normal: device(w, "hermetic-protection", compressor, others, ampacity, "normal"),
    highest: device(w, "hermetic-protection-highest", compressor, others, ampacity, "highest"),
  });
  const rest = [...loads.fans.map(({ current }) => current), ...(loads.heat ? [loads.heat] : [])];
  if (rest.length === 0) return byCompressor();
  const byOther = () => {
    if (loads.fans.length === 0) return byConductors();
    const fan = largestOf(w, loads.fans, "largest fan");
    const byFan = () => {
      const found = deviceOfFan(w, loads, fan, others, ampacity);
      return { normal: found, highest: found };
    };
    if (!loads.heat) return byFan();
    return w.choose(
      "largest load beside the compressor",
      [fan, "≥", loads.heat],
      ["a motor: the device follows it", byFan],
      ["the heat: the device follows the conductors", byConductors],
      "hermetic-protection",
    );
  };
  return w.choose(
    "largest load on the circuit",
    [compressor, "≥", calc`max(${rest})`],
    ["a compressor: the device follows it", byCompressor],
    ["not a compressor", byOther],
    "hermetic-protection",
  );
}

/** Where another motor is the largest load, its own share of the device and all the rest, next standard size down. */
function deviceOfFan(
  w: Worksheet,
  { phases }: CoolingLoads,
  fan: Known<"A">,
  all: Known<"A">,
  ampacity: Known<"A">,
): Known<"A"> {
  const row: ProtectionRow = phases === 3 ? "polyphase other than wound-rotor" : "single-phase";
  const share = w.lookUp<"%">("inverse-time breaker, share of the motor's current", ...SHARE_OF_MOTOR, row);
  const limit = w.work("limit of the device", "A", calc`${fan} × ${share} + (${all} − ${fan})`, "hermetic-protection");
  const name = "largest device";
  return standardFor(w, limit, ampacity, name);
}
const SHARE_OF_MOTOR = ["motor-protection", "inverse-time breaker"] as const;

/** The next standard size down from a limit, or where that falls below the circuit's ampacity the next one above that. */
function notBelow(w: Worksheet, limit: Known<"A">, ampacity: Known<"A">, name: string): Known<"A"> {
  const down = () => breakerBelow(w, limit, `${name}: next standard size down`);
  const isBelow = w.scratch(() => {
    const device = w.ifCovered(down);
    return device === undefined || w.holds(device, "<", ampacity);
  });
  return isBelow ? nextBreaker(w, ampacity, `${name}: next standard size above the circuit ampacity`) : down();
}

/** Next standard size down from the limit, but no smaller than need be and never below the conductors' load. */
function device(
  w: Worksheet,
  share: string,
  compressor: Known<"A">,
  all: Known<"A">,
  ampacity: Known<"A">,
  which: "normal" | "highest",
): Known<"A"> {
  const percent = w.constant<"%">(share);
  const alone = compressor === all;
  const limit = w.work(
    `${which} limit of the device`,
    "A",
    alone ? calc`${compressor} × ${percent}` : calc`${compressor} × ${percent} + (${all} − ${compressor})`,
    "hermetic-protection",
  );
  return standardFor(w, limit, ampacity, `largest device, ${which}`);
}

/** The standard device for a limit: the next size down, but none smaller than need be taken. */
function standardFor(w: Worksheet, limit: Known<"A">, ampacity: Known<"A">, name: string): Known<"A"> {
  const least = w.constant<"A">("hermetic-protection-least");
  return w.choose(
    "least device",
    [limit, "<", least],
    [
      "no smaller device need be taken",
      () => nextBreaker(w, w.work("least device", "A", calc`max(${least}, ${ampacity})`), name),
    ],
    ["the limit decides", () => notBelow(w, limit, ampacity, name)],
    "hermetic-protection",
  );
}
