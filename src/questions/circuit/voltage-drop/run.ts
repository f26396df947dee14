/** The run: its stretches, each with the current that counts along it, and their drop together. */
import type { ConductorSize } from "../../../core/conductor-size.ts";
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Material } from "../../../rules/conductors.ts";
import {
  type Drop,
  dropByHand,
  dropOfVolts,
  dropVolts,
  effectiveImpedance,
  type Impedance,
  impedanceOf,
  pathFactor,
  type Run,
} from "../../../rules/voltage-drop.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Circuit, currentOf, wholeCurrent } from "./circuit.ts";
import type { DropRequest } from "./request.ts";

/** Stands for the size where only an impedance was told: no table knows it. */
export const OF_STATED_IMPEDANCE = "of the stated impedance";

/** One way, in feet. */
type Length = NonNullable<DropRequest["length"]>;
/** A piece of the run with one conductor throughout. */
export type Stretch = { length?: Known<"ft">; current: Known<"A">; size?: ConductorSize; material?: Material };
type Load = { stretches: Stretch[]; total: Known<"A"> };

const feet = (w: Worksheet, name: string, length: Length): Known<"ft"> =>
  w.given(name, convert(asQuantity(length), "ft"), length.unit === "m" ? `${length.value} m` : undefined);

/** Loads and distances as stretches: what current is carried how far. */
export function stretchesOf(w: Worksheet, r: DropRequest, circuit: Circuit): Load {
  w.part("Load");
  const spread = spreadLoads(w, r, circuit);
  if (!spread) {
    const current = wholeCurrent(w, r, circuit);
    const stretches = r.segments?.map(({ length, ...wire }, i) => ({
      length: feet(w, `length of stretch ${i + 1}`, length),
      current,
      ...wire,
    })) ?? [{ current, ...(r.length && { length: feet(w, "length one way", r.length) }) }];
    return { stretches, total: current };
  }
  const total = w.work("current of all loads", "A", calc`sum(${spread.map((each) => each.current)})`);
  if (!r.segments) {
    const moments = spread.map(({ current, at }) => w.work("current × distance", "A-ft", calc`${current} × ${at}`));
    const length = w.work(
      "distance at which the whole load would drop as much",
      "ft",
      calc`sum(${moments}) ÷ ${total}`,
      undefined,
      "the drop counted is the one at the far end",
    );
    return { stretches: [{ length, current: total }], total };
  }
  return { stretches: alongSegments(w, r.segments, spread), total };
}

/** A stretch carries a load's current as far as the load is fed through it. */
function alongSegments(w: Worksheet, segments: NonNullable<DropRequest["segments"]>, spread: Placed[]): Stretch[] {
  let from: Known<"ft"> | undefined;
  return segments.map(({ length, ...wire }, i) => {
    const own = feet(w, `length of stretch ${i + 1}`, length);
    const start = from;
    const end = start ? w.work(`end of stretch ${i + 1}`, "ft", calc`${start} + ${own}`) : own;
    const moments = spread.map(({ current, at }) => {
      const within = start ? calc`min(${at}, ${end}) − min(${at}, ${start})` : calc`min(${at}, ${end})`;
      const through = w.work(`feet of stretch ${i + 1} that feed it`, "ft", within);
      return w.work("current × distance", "A-ft", calc`${current} × ${through}`);
    });
    from = end;
    return {
      length: own,
      current: w.work(`mean current of stretch ${i + 1}`, "A", calc`sum(${moments}) ÷ ${own}`),
      ...wire,
    };
  });
}

type Placed = { current: Known<"A">; at: Known<"ft"> };

function spreadLoads(w: Worksheet, r: DropRequest, circuit: Circuit): Placed[] | undefined {
  if (r.points) {
    return r.points.map(({ at, load }, i) => ({
      current: currentOf(w, circuit, load, `current of load ${i + 1}`),
      at: feet(w, `distance of load ${i + 1}`, at),
    }));
  }
  if (!r.along) return undefined;
  if (r.load === undefined) {
    throw need("load", "How many watts or amps does each light along the run take?", "100 W each");
  }
  const each = currentOf(w, circuit, r.load, "current of each");
  const count = w.given("how many", { n: String(r.count), unit: "1" });
  const spacing = feet(w, "spacing", r.along.spacing);
  const first = r.along.first
    ? feet(w, "distance of the first", r.along.first)
    : firstAsSpaced(w, r.along.spacing, spacing);
  if (!r.segments) {
    const middle = w.work(
      "distance of the middle of the string",
      "ft",
      calc`${first} + ${spacing} × (${count} − 1) ÷ 2`,
    );
    return [{ current: w.work("current of all of them", "A", calc`${count} × ${each}`), at: middle }];
  }
  const placed: Placed[] = [];
  for (let i = 0; i < r.count!; i++) {
    const before = placed.at(-1);
    placed.push({
      current: each,
      at: before ? w.work(`distance of load ${i + 1}`, "ft", calc`${before.at} + ${spacing}`) : first,
    });
  }
  return placed;
}

function firstAsSpaced(w: Worksheet, said: Length, spacing: Known<"ft">): Known<"ft"> {
  w.suppose(
    "distance of the first",
    `${said.value} ${said.unit}`,
    "it was not told, so it is taken to be one spacing from the source",
    "starting at 300 ft",
  );
  return spacing;
}

/** The wiring of the question, ready to be given a size. */
export type Wiring = Pick<Run, "conduit" | "directCurrent" | "temperature" | "sets"> & { material: Material };

/** All that the three turns share. */
export type Setting = {
  r: DropRequest;
  circuit: Circuit;
  load: Load;
  wiring: Wiring;
  limit: Limit;
  /** Effective impedance the user states in place of the tables. */
  stated?: Known<"ohm/kft">;
  /** The constant K the user states: the circular-mil formula then takes the tables' place. */
  constant?: Known<"ohm-cmil/ft">;
};
export type Limit = { volts: Known<"V">; percent: Known<"%"> };

export function runOf(circuit: Circuit, wiring: Wiring, stretch: Stretch, size: Known<"size">): Run {
  return {
    ...wiring,
    ...circuit,
    directCurrent: wiring.directCurrent || circuit.directCurrent,
    material: stretch.material ?? wiring.material,
    current: stretch.current,
    length: stretch.length!,
    size,
  };
}

/** What a user states of the conductor in place of the tables. */
type Stated = Pick<Setting, "stated" | "constant">;

/** One stretch worked out: its drop, and what made it. */
export type Worked = { volts: Known<"V">; run: Run; path: Known<"1">; impedance?: Impedance };

/** The drop along one stretch, by the tables, by a stated impedance or by a stated constant K. */
export function dropAlong(w: Worksheet, asked: Run, upToUnity: boolean, { stated, constant }: Stated = {}): Worked {
  if (constant) {
    const path = pathFactor(w, asked);
    return { volts: dropByHand(w, asked, path, constant), run: asked, path };
  }
  if (stated) {
    const path = pathFactor(w, asked);
    return { volts: dropVolts(w, asked, stated, path), run: asked, path };
  }
  const impedance = impedanceOf(w, asked);
  const { run, effective } = worstPowerFactor(w, asked, impedance, upToUnity);
  const path = pathFactor(w, run);
  return { volts: dropVolts(w, run, effective, path), run, path, impedance };
}

/** Where the power factor may be anything up to 1, the end of the range at which this conductor drops more. */
export function worstPowerFactor(
  w: Worksheet,
  run: Run,
  impedance: Impedance,
  upToUnity: boolean,
): { run: Run; effective: Known<"ohm/kft"> } {
  const effective = effectiveImpedance(w, run, impedance);
  if (!upToUnity || !impedance.reactance) return { run, effective };
  return w.choose(
    "power factor that drops more",
    [effective, "≥", impedance.resistance],
    [w.say`${run.powerFactor}`, () => ({ run, effective })],
    ["1, where the resistance alone counts", () => {
      const powerFactor = w.given("power factor that drops more", { n: "1", unit: "1" });
      return { run: { ...run, powerFactor }, effective: impedance.resistance };
    }],
  );
}

/** The drops of all stretches together. */
export function together(w: Worksheet, parts: readonly Worked[], supply: Known<"V">): Drop {
  const each = parts.map(({ volts }) => volts);
  const volts = each.length === 1 ? each[0]! : w.work("voltage drop of all stretches", "V", calc`sum(${each})`);
  return dropOfVolts(w, volts, supply);
}
