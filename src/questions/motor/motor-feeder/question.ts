/** A feeder of several motors and other loads: its ampacity, conductors and device, and taps to the motors. */
import { calc } from "../../../core/formula.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cautionWiring } from "../../../rules/fitness.ts";
import { cautionCableGround, equipmentGround } from "../../../rules/grounding.ts";
import type { Device } from "../../../rules/motor-protection.ts";
import { breakerBelow, fuseBelow, nextBreaker, nextFuse } from "../../../rules/overcurrent.ts";
import { installedLines, linesOf, type MotorLines, statedLines, surroundings } from "../../parts/motor-lines.ts";
import type { Motor } from "../../parts/motors.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy, refusedByHeat } from "../../parts/verdict.ts";
import { check, isAllowed, type Limits } from "./check.ts";
import { group } from "./group.ts";
import { type Motors, motorsOf, othersOf } from "./motors.ts";
import { type FeederRequest, input } from "./request.ts";
import { taps } from "./taps.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "motor-feeder",
  title: "Motor feeder",
  about: "Wire and breaker or fuse of a feeder with several motors and other loads.",
  input,
  figures: {
    "feeder-ampacity": "feeder ampacity needed",
    "feeder-conductor": "feeder conductor",
    "parallel-sets": "parallel sets",
    "feeder-protection": "largest feeder device",
    "equipment-grounding-conductor": "equipment grounding conductor",
    "voltage-drop-volts": "voltage drop",
    "voltage-drop": "voltage drop in percent",
    "tap-ampacity": "ampacity of the largest motor's tap",
    "tap-conductor": "conductor of the largest motor's tap",
    "group-device": "device of the motors on one branch circuit",
  },
  examples: [
    "feeder for a 20 hp and a 10 hp motor, 460 V three phase",
    "three 15 hp and two 5 hp motors 480 V 3 phase plus 30 A continuous load, what feeder and breaker?",
    "is #4 copper with a 100 A breaker ok to feed a 25 hp and a 15 hp motor at 460 V three phase?",
  ],
  manner: { traits: ["lists", "adds up", "groups", "gauges", "anew"], words: ["circuit:feeder", "device:panel"] },
  takes,
  write,
  answer(r, w) {
    const motors = motorsOf(w, r);
    const supply = supplyOf(motors);
    const others = othersOf(w, r, supply);
    w.part("Feeder ampacity");
    const ampacity = feederAmpacity(w, motors, others);
    w.figure("feeder-ampacity", ampacity, "feeder ampacity needed");
    w.part("Conductors");
    const wiring = surroundings(w, r, ampacity);
    const hot = r.size === undefined ? undefined : refusedByHeat(w, () => wiring);
    if (hot) return hot;
    const running = others ? w.work("feeder load", "A", calc`${motors.total} + ${others}`) : motors.total;
    const fed = { ...supply, current: running };
    const least = linesOf(w, r, fed, ampacity, wiring);
    const stated = r.size === undefined ? undefined : statedLines(w, r, fed, wiring);
    const lines = installedLines(w, r, { least, stated, design: ampacity, motor: fed, wiring });
    figures(w, lines);
    const leastDevice = others ? ampacity : motors.total;
    const limit = feederDevice(w, r, motors, others, leastDevice);
    const protection = r.oneBranch ? group(w, motors, limit) : limit;
    w.figure("feeder-protection", protection, "largest feeder device");
    w.part("Equipment ground");
    // In parallel sets the ground of one raceway may be larger than one conductor.
    const cap = lines.sets ? undefined : lines.size;
    const ground = equipmentGround(w, deviceInstalled(w, r, { protection, leastDevice, stated }), lines.material, cap, {
      installed: lines.size,
      needed: lines.needed,
    });
    w.figure("equipment-grounding-conductor", ground, "equipment grounding conductor");
    cautionCableGround(w, r.method, lines.size, lines.material, ground);
    cautionWiring(w, r, lines.size, lines.material, stated !== undefined);
    if (r.tap) taps(w, r, { motors, lines, protection, wiring });
    const verdict = check(w, r, { ampacity, leastDevice, protection, stated, least, ground });
    return tell(w, r, { motors, ampacity, lines, protection, ground }, verdict);
  },
});

/** The largest motor at 125 %, the rest and the other loads as they are. */
function feederAmpacity(w: Worksheet, { largest, total }: Motors, others: Known<"A"> | undefined): Known<"A"> {
  const share = w.constant<"%">("motor-conductor-factor");
  const motors = calc`${largest} × ${share} + (${total} − ${largest})`;
  if (!others) return w.work("feeder ampacity needed", "A", motors, "motor-feeder-conductors");
  const name = "ampacity for the motors";
  const part = w.work(name, "A", motors, "motor-feeder-conductors");
  return w.work("feeder ampacity needed", "A", calc`${part} + ${others}`, "motor-feeder-conductors");
}

function figures(w: Worksheet, { size, sets, drop }: MotorLines): void {
  w.figure("feeder-conductor", size);
  if (sets) w.figure("parallel-sets", sets);
  if (!drop) return;
  w.figure("voltage-drop-volts", drop.volts, "voltage drop");
  w.figure("voltage-drop", drop.percent, "voltage drop in percent");
}

/**
 * The supply that all of them are on: three-phase where any motor is, in whatever order they were told. A single-phase motor
 * among them does not make the feeder one.
 */
function supplyOf({ groups }: Motors): Pick<Motor, "volts" | "supply"> {
  const { volts, supply } = (groups.find(({ motor }) => motor.supply === "three-phase") ?? groups[0]!).motor;
  return { volts, supply };
}

/**
 * The largest branch device, the currents of the other motors, the other loads: next standard size down. Never below what
 * the loads together need: with other loads the feeder's own ampacity, 125 % of continuous ones in it, else what runs at once.
 */
function feederDevice(
  w: Worksheet,
  r: FeederRequest,
  motors: Motors,
  others: Known<"A"> | undefined,
  least: Known<"A">,
): Known<"A"> {
  w.part("Feeder device");
  const { groups } = motors;
  const devices = groups.map(({ device }) => device);
  const largest = devices.length === 1
    ? devices[0]!
    : w.work("largest branch device", "A", calc`max(${devices})`, "motor-feeder-protection");
  // Where branch devices tie, one of them counts as the largest: the one of the larger motor, whatever the order.
  const owner = groups.filter(({ device }) => w.holds(device, "=", largest))
    .reduce((one, other) => w.holds(other.motor.current, ">", one.motor.current) ? other : one);
  const rest = r.interlocked
    ? undefined
    : w.work("currents of the other motors", "A", calc`${motors.total} − ${owner.motor.current}`);
  const parts = [largest, ...(rest ? [rest] : []), ...(others ? [others] : [])];
  const limit = w.work("limit of the feeder device", "A", calc`sum(${parts})`, "motor-feeder-protection");
  const name = "largest feeder device, next standard size down";
  const down = () => isFuse(r.device) ? fuseBelow(w, limit, name) : breakerBelow(w, limit, name);
  const up = "largest feeder device, next standard size above what the loads need";
  const below = w.ifCovered(down);
  const isEnough = below && w.choose<boolean>(
    "device against what the loads together need",
    [below, "≥", least],
    ["enough", () => true],
    ["too small: the next size above what they need is taken", () => false],
    "motor-feeder-protection",
  );
  if (isEnough) return below;
  w.caution(
    w.say`The next standard size below the motors' limit of ${limit} is less than the ${least} that the loads together need: the size above that is taken.`,
    "motor-feeder-protection",
  );
  return isFuse(r.device) ? nextFuse(w, least, up) : nextBreaker(w, least, up);
}

/** The device the ground is sized by: the one put up where it is allowed, otherwise the largest. */
function deviceInstalled(w: Worksheet, r: FeederRequest, limits: Limits): Known<"A"> {
  const said = r.breaker ?? r.fuse;
  const stands = said && w.scratch(() => isAllowed(w, w.given("device", asQuantity(said)), limits));
  return stands ? w.given("device put up", asQuantity(said)) : limits.protection;
}

const isFuse = (device: Device | undefined): boolean => device !== undefined && device !== "inverse-time breaker";

type Worked = {
  motors: Motors;
  ampacity: Known<"A">;
  lines: MotorLines;
  protection: Known<"A">;
  ground: Known<"size">;
};

function tell(
  w: Worksheet,
  r: FeederRequest,
  { motors, ampacity, lines, protection, ground }: Worked,
  verdict: Reasoned | undefined,
): Told {
  const { volts, supply } = supplyOf(motors);
  const names = motors.groups.map(({ name }) => name).join(" + ");
  const wire = `${lines.sets ? w.say`${lines.sets} sets of ` : ""}${w.size(lines.size)} ${lines.material}`;
  const drop = lines.drop ? w.say` (drop ${lines.drop.percent})` : "";
  const device = isFuse(r.device) ? r.device! : "breaker";
  const sentence = w
    .say`Feeder for ${names}${
    r.others ? " and other loads" : ""
  }, ${volts} ${supply}: ${ampacity}, ${wire}${drop}, ${protection} ${device} ${
    r.oneBranch ? "for all on one branch circuit" : "at the most"
  }, ground ${w.size(ground)}.`;
  if (w.holds(protection, ">", lines.ampacity)) {
    w.caution(
      "The feeder device may be larger than the wire: it only clears shorts and ground faults and must let a motor start, while " +
        "each motor's overload device keeps the wire from running too hot.",
      "motor-feeder-protection",
    );
  }
  w.caution("Each motor still needs its own overload, disconnect and, beyond the feeder, branch-circuit device.");
  w.suggest(lines.material === "copper" ? "use aluminum" : "use copper", "interlocked, one at a time", "20 ft taps");
  return ledBy(verdict, sentence);
}
