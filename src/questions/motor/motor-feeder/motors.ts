/** The motors of a feeder with their branch devices, and the other loads beside them. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { convert, exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { type Device, ordinaryDevice } from "../../../rules/motor-protection.ts";
import { lineCurrent } from "../../../rules/power.ts";
import { onPairs } from "../../../rules/three-phase.ts";
import {
  isOnlyThreePhase,
  type Motor,
  motorOf,
  mustBeLowVoltage,
  phasesOf,
  powerInWords,
  systemVoltage,
} from "../../parts/motors.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { FeederRequest } from "./request.ts";

/** Alike motors. */
export type Group = {
  motor: Motor;
  /** All of them, and one, in words. */
  name: string;
  alike: string;
  /** How many of them run at once. */
  running: Known<"1">;
  /** Current of those that run at once. */
  together: Known<"A">;
  /** Branch device of one of them. */
  device: Known<"A">;
};
export type Motors = {
  groups: Group[];
  /** The motor with the largest current. */
  largest: Known<"A">;
  /** All that run at once. */
  total: Known<"A">;
};

/** @throws Unclear where no motors were told, or any of them leaves voltage, phases or power open. */
export function motorsOf(w: Worksheet, r: FeederRequest): Motors {
  if (!r.motors?.length) {
    throw need(
      "motors",
      "Which motors does the feeder carry: horsepower of each?",
      "feeder for 20 hp and 10 hp, 460 V three phase",
    );
  }
  const device = r.device ?? "inverse-time breaker";
  const besideThreePhase = r.motors.some(({ power }) => isOnlyThreePhase(w, { power, volts: r.volts }));
  const groups = r.motors.map((said) => groupOf(w, r, said, device, besideThreePhase));
  w.part("Motors together");
  const currents = groups.map(({ motor }) => motor.current);
  const largest = currents.length === 1
    ? currents[0]!
    : w.work("largest motor", "A", calc`max(${currents})`, "motor-feeder-conductors");
  if (r.interlocked) {
    w.suppose("interlock", "one motor at a time", "it was said that they do not run together", "all running together");
    return { groups, largest, total: largest };
  }
  const singles = groups.filter(({ motor }) => motor.supply === "single-phase");
  const isThree = r.supply === "three-phase" || groups.some(({ motor }) => motor.supply === "three-phase");
  const parts = isThree && singles.length > 0
    ? [...groups.filter((group) => !singles.includes(group)).map(({ together }) => together), onLines(w, singles)]
    : groups.map(({ together }) => together);
  const total = parts.length === 1 ? parts[0]! : w.work("motors together", "A", calc`sum(${parts})`);
  return { groups, largest, total };
}

/** Single-phase motors on a three-phase feeder: what the most loaded line carries of them. */
function onLines(w: Worksheet, singles: readonly Group[]): Known<"A"> {
  const motors = singles.map(({ alike, running, motor }) => ({
    name: alike,
    count: Number(w.measure(running).n.toFraction()),
    each: motor.current,
  }));
  const { words, most } = onPairs(w, motors, "A");
  w.suppose(
    "single-phase motors on the lines",
    words,
    "spread over the three lines as evenly as they can be; the most loaded line counts",
    "three phase",
  );
  return most;
}

function groupOf(
  w: Worksheet,
  r: FeederRequest,
  { count, atOnce, ...said }: NonNullable<FeederRequest["motors"]>[number],
  device: Device,
  besideThreePhase: boolean,
): Group {
  w.part(title(said.power));
  const whole = { ...said, volts: r.volts, supply: said.supply ?? r.supply };
  const motor = motorOf(w, { ...whole, noPowerMarked: said.power === undefined, besideThreePhase });
  mustBeLowVoltage(w, motor);
  const runningCount = Math.min(atOnce ?? count, count);
  const number = w.given("motors that run at once", { n: String(runningCount), unit: "1" });
  const together = runningCount === 1
    ? motor.current
    : w.work("current of these together", "A", calc`${number} × ${motor.current}`);
  const share = r.percent && smaller(w, r, motor, device);
  const rating = ordinaryDevice(w, device, motor.current, motor.row, share ? { said: share } : {});
  const alike = motor.power ? powerInWords(w, motor.power) : w.say`${motor.current} motor`;
  const name = `${count > 1 ? `${count} × ` : ""}${alike}`;
  return { motor, name, alike, running: number, together, device: rating };
}

const title = (power: { value: number | string; unit: string } | undefined) =>
  power ? `Motor of ${power.value} ${power.unit}` : "Motor";

/** A share that was asked for, where it is no more than the table's. */
function smaller(w: Worksheet, r: FeederRequest, motor: Motor, device: Device): Known<"%"> | undefined {
  const said = w.given(`${device}, share asked for`, asQuantity(r.percent!));
  return w.choose<Known<"%"> | undefined>(
    "share asked for",
    [said, "≤", w.lookUp<"%">(`${device}, share of the current`, "motor-protection", device, motor.row)],
    ["taken", () => said],
    ["more than is ordinary: the table's share is taken", () => undefined],
    "motor-protection",
  );
}

/** The other loads, at 125 % where they are continuous. */
export function othersOf(
  w: Worksheet,
  r: FeederRequest,
  like: Pick<Motor, "volts" | "supply">,
): Known<"A"> | undefined {
  if (!r.others?.length) return undefined;
  w.part("Other loads");
  const each = r.others.map(({ load, continuous }) => {
    const current = currentOf(w, load, like);
    if (continuous === undefined) {
      w.suppose(
        "other load",
        "continuous",
        "nothing was said, and it counts for more",
        "noncontinuous",
        "continuous-loads-feeder",
      );
    }
    if (continuous === false) return current;
    return w.work("continuous load counted", "A", calc`${current} × ${w.constant<"%">("continuous-load-factor")}`);
  });
  return each.length === 1 ? each[0]! : w.work("other loads", "A", calc`sum(${each})`);
}

function currentOf(
  w: Worksheet,
  load: { value: number | string; unit: "A" | "VA" | "kVA" | "W" | "kW" },
  like: Pick<Motor, "volts" | "supply">,
) {
  if (load.unit === "A") return w.given("other load", asQuantity({ ...load, unit: "A" }));
  const isWatts = load.unit === "W" || load.unit === "kW";
  const unit = load.unit === "W" ? "VA" : load.unit === "kW" ? "kVA" : load.unit;
  const power = w.given(
    "other load",
    convert({ n: exact(load.value).toFraction(), unit }, "VA"),
    isWatts ? `${load.value} ${load.unit}, watts counted as volt-amperes` : undefined,
  );
  return lineCurrent(w, power, systemVoltage(w, like), phasesOf(like.supply), "current of the other load");
}
