/** Several motors on one branch circuit, without a device for each. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Motors } from "./motors.ts";

/**
 * The device of the motors on one branch circuit. Small ones may share an ordinary circuit; others only as a group
 * installation listed for it, behind a device of up to `protection`.
 */
export function group(w: Worksheet, { groups, total }: Motors, protection: Known<"A">): Known<"A"> {
  w.part("On one branch circuit");
  const power = w.constant<"hp">("motor-group-power");
  const current = w.constant<"A">("motor-group-current");
  const small = groups.every(({ motor }) =>
    motor.power && w.holds(motor.power, "≤", power) && w.holds(motor.current, "≤", current)
  );
  if (small) {
    const low = w.holds(groups[0]!.motor.volts, "≤", w.constant<"V">("motor-group-low-voltage"));
    const device = w.constant<"A">(`motor-group-device-${low ? "low" : "high"}`);
    const carries = w.choose(
      "small motors together",
      [total, "≤", device],
      ["fit one small circuit", () => true],
      ["are too much for one small circuit", () => false],
      "motor-group",
    );
    if (carries) {
      w.figure("group-device", device, "device of the motors on one branch circuit");
      w.caution(w.say`Each has its own overload device; the circuit's device may be ${device}.`, "motor-group");
      return device;
    }
  }
  w.figure("group-device", protection, "device of the motors on one branch circuit");
  w.caution(
    w.say`On one branch circuit only where the controllers and overload devices are listed for group installation with a device of up to ${protection}, or where the device is no larger than the smallest motor may have.`,
    "motor-group",
  );
  return protection;
}
