/**
 * Conductors of a motor circuit or feeder: by the ampacity needed, under the conditions of use, then larger where the drop
 * asks for it.
 */
import * as z from "zod";
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { wiringOf } from "../../rules/conditions.ts";
import { ampacityOf, type Material, type Wiring } from "../../rules/conductors.ts";
import { unfit } from "../../rules/fitness.ts";
import { tooSmallToParallel } from "../../rules/parallel.ts";
import {
  conduitOf,
  type Drop,
  dropOfVolts,
  effectiveImpedance,
  impedanceOf,
  largestImpedance,
  pathFactor,
  perSet,
  type Run,
} from "../../rules/voltage-drop.ts";
import { dropLimit, lengthOf, limitOf, type Lines, linesFor, powerFactorOf, run, sets, wireOf } from "./lines.ts";
import { type Motor, motorTerminals, phasesOf } from "./motors.ts";
import { size } from "./sizes.ts";
import { type Judgement, underMethod } from "./verdict.ts";

/** Fields of a request on the run: a conductor put up for checking, where it lies, how far it goes. */
export const runFields = { size: size.optional(), sets, ...run, dropLimit, ignoreDrop: z.boolean().optional() };
type RunRequest = z.output<z.ZodObject<typeof runFields>>;
/** What the conductors feed: one motor, or all of a feeder as if they were one. */
type Fed = Pick<Motor, "volts" | "supply" | "current">;

export type MotorLines = Lines & {
  /** What stands against conductors that were put up, whatever they carry. */
  against?: string;
};

/** How the conductors run; the count is of one set. */
export const surroundings = (w: Worksheet, r: RunRequest, design: Known<"A">): Wiring =>
  wiringOf(w, r, design, { whenUnmarked: motorTerminals });

/** The smallest conductors that carry it here and keep the drop, in as few sets as can be pulled. */
export const linesOf = (
  w: Worksheet,
  r: RunRequest,
  motor: Fed,
  design: Known<"A">,
  wiring: Wiring,
  part = "Conductors",
): MotorLines =>
  linesFor(w, {
    part,
    said: r.sets,
    wiring,
    duty: () => ({ design, load: design, smallLimits: false }),
    ...(hasDrop(r) && {
      drop: {
        of: (size, sets) => dropOfSize(w, r, motor, size, wiring.material, sets),
        limit: r.ignoreDrop ? undefined : () => limitOf(w, r),
        clause: "voltage-drop-branch",
        part: "Voltage drop",
      },
    }),
  });

/** The conductor that was put up for checking. */
export function statedLines(w: Worksheet, r: RunRequest, motor: Fed, wiring: Wiring): MotorLines {
  w.part("Conductor put up for checking");
  const size = w.given("conductor put up for checking", r.size!);
  const one = ampacityOf(w, size, wiring);
  const sets = r.sets === undefined || r.sets === 1
    ? undefined
    : w.given("parallel sets", { n: String(r.sets), unit: "1" });
  const drop = hasDrop(r) ? dropOfSize(w, r, motor, size, wiring.material, sets) : undefined;
  const against = sets && tooSmallToParallel(w, size) ||
    unfit(w, r, size).find(({ is }) => is === "not ok")?.because;
  return {
    size,
    needed: size,
    material: wiring.material,
    ampacity: sets ? w.work("ampacity of all sets", "A", calc`${one.ampacity} × ${sets}`) : one.ampacity,
    ...(sets && { sets }),
    ...(drop && { drop }),
    ...(against && { against }),
  };
}

/**
 * The conductors that are installed: those put up where they do, beside what as many sets of them would need for ampacity
 * alone, which is where the ground starts to grow.
 */
export function installedLines(
  w: Worksheet,
  r: RunRequest,
  { least, stated, design, motor, wiring }: {
    least: MotorLines;
    stated: MotorLines | undefined;
    design: Known<"A">;
    motor: Fed;
    wiring: Wiring;
  },
): MotorLines {
  if (!stated || stated.against || w.holds(stated.ampacity, "<", design)) return least;
  const { length: _, ...own } = r;
  const title = "Smallest that would do";
  const needed = w.ifCovered(() => linesOf(w, { ...own, sets: r.sets ?? 1 }, motor, design, wiring, title));
  w.aside(title);
  return { ...stated, needed: needed?.needed ?? stated.size };
}

const hasDrop = (r: RunRequest): boolean => r.length !== undefined;

/** The run, whatever flows along it. */
type Path = Omit<Run, "powerFactor" | "current">;

function pathOf(w: Worksheet, r: RunRequest, motor: Fed, wire: Pick<Run, "size" | "material" | "sets">): Path {
  const directCurrent = motor.supply === "direct current";
  return {
    ...wire,
    conduit: conduitOf(w, r.conduit, !directCurrent),
    directCurrent,
    length: lengthOf(w, r),
    volts: motor.volts,
    phases: phasesOf(motor.supply),
  };
}

function along(w: Worksheet, path: Path, current: Known<"A">, impedance: Known<"ohm/kft">, name: string): Known<"V"> {
  const each = perSet(w, path, impedance);
  return w.work(name, "V", calc`${pathFactor(w, path)} × ${current} × ${each} × ${path.length}`);
}

/** The drop while it runs: at the power factor told, otherwise at the worst there can be. */
function dropOfSize(
  w: Worksheet,
  r: RunRequest,
  motor: Fed,
  size: Known<"size">,
  material: Material,
  sets: Known<"1"> | undefined,
): Drop {
  const path = pathOf(w, r, motor, { size, material, ...(sets && { sets }) });
  const volts = along(w, path, motor.current, impedanceAt(w, r, path), "voltage drop");
  return dropOfVolts(w, volts, path.volts);
}

function impedanceAt(w: Worksheet, r: RunRequest, path: Path): Known<"ohm/kft"> {
  const one = impedanceOf(w, path);
  if (r.powerFactor !== undefined) {
    return effectiveImpedance(w, { ...path, powerFactor: powerFactorOf(w, r) }, one);
  }
  if (one.reactance) {
    w.suppose(
      "power factor",
      "the worst for the drop",
      "none was told; at any other the drop is a little smaller",
      "power factor 0.85",
    );
  }
  return largestImpedance(w, one);
}

/** The drop while it starts: at whatever power factor, so never less than it will be. */
export function startingDrop(
  w: Worksheet,
  r: RunRequest,
  motor: Fed,
  { size, material, sets }: Lines,
  current: Known<"A">,
): { volts: Known<"V">; percent: Known<"%"> } {
  const path = pathOf(w, r, motor, { size, material, ...(sets && { sets }) });
  const most = largestImpedance(w, impedanceOf(w, path));
  const volts = along(w, path, current, most, "drop while starting, at most");
  return { volts, percent: w.work("drop while starting in percent", "%", calc`${volts} ÷ ${path.volts}`) };
}

/** Judges conductors that were put up for checking; `least` are those that would do. */
export function judgeSize(
  w: Worksheet,
  r: RunRequest,
  { stated, needed, least, clauses }: {
    stated: MotorLines;
    needed: Known<"A">;
    least: MotorLines;
    clauses: { ampacity: string; drop: "voltage-drop-branch" | "voltage-drop-feeder" };
  },
): Judgement {
  const what = `${r.size!} ${stated.material}`;
  if (stated.against) return { what, is: "not ok", because: stated.against };
  const carries = w.say`${what} carries ${stated.ampacity} here and ${needed} is needed`;
  const { drop } = stated;
  const enough = (): Judgement =>
    drop ? judgeDrop(w, r, { what, carries, drop, least, clause: clauses.drop }) : { what, is: "ok", because: carries };
  const small = `${carries}: ${w.size(least.needed)} at least`;
  const judged = w.choose<Judgement>(
    "conductor put up for checking",
    [stated.ampacity, "≥", needed],
    ["large enough", enough],
    ["too small", () => ({ what, is: "not ok", because: small })],
    clauses.ampacity,
  );
  return underMethod(w, r, stated.size, judged);
}

/** Judges the drop on conductors that carry what is needed; `least` are those that would keep the limit. */
function judgeDrop(
  w: Worksheet,
  r: RunRequest,
  { what, carries, drop, least, clause }: {
    what: string;
    carries: string;
    drop: NonNullable<Lines["drop"]>;
    least: Pick<Lines, "size" | "sets">;
    clause: "voltage-drop-branch" | "voltage-drop-feeder";
  },
): Judgement {
  const limit = limitOf(w, r);
  return w.choose<Judgement>("drop on the conductor put up", [drop.percent, "≤", limit], [
    "within the limit",
    () => ({ what, is: "ok", because: w.say`${carries}, with a drop of ${drop.percent}` }),
  ], [
    "over the limit",
    () => ({
      what,
      is: r.dropLimit ? "not ok" : "ok if",
      because: w.say`a drop of ${drop.percent} is accepted (${wireOf(w, least)} would keep ${limit})`,
    }),
  ], clause);
}
