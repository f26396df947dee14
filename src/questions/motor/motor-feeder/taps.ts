/** Taps from the feeder to each motor's branch device. */
import { calc } from "../../../core/formula.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { chooseConductor, type Wiring } from "../../../rules/conductors.ts";
import type { MotorLines } from "../../parts/motor-lines.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Group, Motors } from "./motors.ts";
import type { FeederRequest } from "./request.ts";

type Feeder = { motors: Motors; lines: MotorLines; protection: Known<"A">; wiring: Wiring };

/** Each motor's tap: never below what its motor needs, and what the rule for that length asks for. */
export function taps(w: Worksheet, r: FeederRequest, feeder: Feeder): void {
  w.part("Taps");
  const length = w.given("length of the taps", convert(asQuantity(r.tap!), "ft"));
  const byRule = ruleOf(w, length, feeder);
  const share = w.constant<"%">("motor-conductor-factor");
  for (const group of feeder.motors.groups) {
    w.part(`Tap of the ${group.name} motor`);
    const motor = w.work("ampacity the motor needs", "A", calc`${group.motor.current} × ${share}`, "motor-conductors");
    const ampacity = w.work("ampacity of the tap", "A", calc`max(${motor}, ${byRule})`, "motor-taps");
    const duty = { design: ampacity, load: ampacity, smallLimits: false };
    const { size } = chooseConductor(w, duty, feeder.wiring, "conductor of the tap");
    if (!isLargest(w, group, feeder.motors)) continue;
    w.figure("tap-ampacity", ampacity, "ampacity of the largest motor's tap");
    w.figure("tap-conductor", size, "conductor of the largest motor's tap");
  }
  w.caution("A tap ends in its motor's branch device and is protected from damage or in a raceway.", "motor-taps");
}

const isLargest = (w: Worksheet, group: Group, { largest }: Motors) => w.holds(group.motor.current, "=", largest);

function ruleOf(w: Worksheet, length: Known<"ft">, { lines, protection }: Feeder): Known<"A"> {
  const name = "least ampacity by the length of the tap";
  const whole = () =>
    w.work(name, "A", calc`1 × ${lines.ampacity}`, "motor-taps", "as large as the feeder's conductors");
  const long = () => {
    const part = w.constant<"1">("motor-tap-share");
    return w.work(name, "A", calc`${lines.ampacity} × ${part}`, "motor-taps");
  };
  const short = () => {
    const part = w.constant<"%">("motor-tap-short-share");
    return w.work(name, "A", calc`${protection} × ${part}`, "motor-taps");
  };
  return w.choose<Known<"A">>(
    "short tap",
    [length, "≤", w.constant("motor-tap-short-length")],
    ["the rule for short taps", short],
    ["longer", () =>
      w.choose<Known<"A">>(
        "long tap",
        [length, "≤", w.constant("motor-tap-length")],
        ["the rule for long taps", long],
        ["longer than taps may be", whole],
        "motor-taps",
      )],
    "motor-taps",
  );
}
