/** What protects and disconnects the motor: overload, branch-circuit devices, disconnect, ground, control circuit. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cautionCableGround, equipmentGround } from "../../../rules/grounding.ts";
import {
  type Device,
  DEVICES,
  instantaneousTrip,
  overloadOf,
  type Protection,
  protectionOf,
  thermalProtector,
} from "../../../rules/motor-protection.ts";
import type { Motor } from "../../parts/motors.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { MotorLines } from "../../parts/motor-lines.ts";
import type { MotorRequest } from "./request.ts";

const FIGURES: Record<Device, string> = {
  "inverse-time breaker": "breaker-rating",
  "dual-element fuse": "dual-element-fuse",
  "nontime-delay fuse": "nontime-delay-fuse",
};
export type Devices = Record<Device, Protection>;

/** The overload device, by the nameplate; nothing where its current was not told, because the table's is another. */
export function overload(w: Worksheet, r: MotorRequest, motor: Motor): Protection | undefined {
  w.part("Overload");
  if (r.thermalProtector) {
    w.figure("thermal-protector", thermalProtector(w, motor.current), "highest trip current of the thermal protector");
  }
  if (!motor.nameplate) return undefined;
  const found = overloadOf(w, motor.nameplate, {
    ...(r.serviceFactor !== undefined && {
      serviceFactor: w.given("service factor", { n: String(r.serviceFactor), unit: "1" }),
    }),
    ...(r.temperatureRise && { temperatureRise: w.given("temperature rise", asQuantity(r.temperatureRise)) }),
  });
  w.figure("overload-rating", found.normal, "overload device");
  w.figure("overload-rating-highest", found.highest, "overload device, highest");
  return found;
}

/** Every kind of device, ordinary and highest, so that the user sees what is normal and what is the most. */
export function devices(w: Worksheet, r: MotorRequest, motor: Motor): Devices {
  w.part("Short-circuit and ground-fault protection");
  const chosen = r.device ?? "inverse-time breaker";
  const protection = (device: Device): Protection => {
    const said = device === chosen ? smallerShare(w, r, motor, device) : undefined;
    const found = protectionOf(w, device, motor.current, motor.row, said && { said });
    w.figure(FIGURES[device], found.normal, device);
    w.figure(`${FIGURES[device]}-highest`, found.highest, `${device}, highest`);
    return found;
  };
  const [breaker, dual, nontime] = DEVICES.map(protection) as [Protection, Protection, Protection];
  return { "inverse-time breaker": breaker, "dual-element fuse": dual, "nontime-delay fuse": nontime };
}

/** Settings of an instantaneous-trip breaker, shown in full where it was asked for. */
export function instantaneous(w: Worksheet, r: MotorRequest, motor: Motor): Protection {
  w.part("Instantaneous-trip breaker");
  const trip = instantaneousTrip(w, motor.current, motor.row);
  w.figure("instantaneous-trip-setting", trip.normal, "instantaneous-trip breaker, setting");
  w.figure("instantaneous-trip-setting-highest", trip.highest, "instantaneous-trip breaker, highest setting");
  if (r.device !== "instantaneous-trip breaker") w.aside("Instantaneous-trip breaker");
  else {
    w.caution("Instantaneous-trip breakers only as part of a listed combination controller.", "motor-protection");
  }
  return trip;
}

/** A share that was asked for: the table's own is the most it may be. */
function smallerShare(w: Worksheet, r: MotorRequest, motor: Motor, device: Device): Known<"%"> | undefined {
  if (!r.percent) return undefined;
  const said = w.given(`${device}, share asked for`, asQuantity(r.percent));
  const table = w.lookUp<"%">(`${device}, share of the current`, "motor-protection", device, motor.row);
  return w.choose<Known<"%"> | undefined>(
    "share asked for",
    [said, "≤", table],
    ["taken", () => said],
    ["more than is ordinary: the table's share is taken, and the cap stands beside it", () => undefined],
    "motor-protection",
  );
}

/** The disconnect's least ampere rating; its horsepower rating counts too. */
export function disconnect(w: Worksheet, motor: Motor): Known<"A"> {
  w.part("Disconnect");
  const share = w.constant<"%">("motor-disconnect-factor");
  const least = w.work("least rating of the disconnect", "A", calc`${motor.current} × ${share}`, "motor-disconnect");
  w.figure("disconnect-current", least);
  return least;
}

/** Ground of wire type by the ordinary device, and by the highest where that is another. */
export function ground(w: Worksheet, r: MotorRequest, device: Protection, lines: MotorLines): Known<"size"> {
  w.part("Equipment ground");
  const upsizing = { installed: lines.size, needed: lines.needed };
  // In parallel sets the ground of one raceway may be larger than one conductor: the circuit's conductors are all of them.
  const cap = lines.sets ? undefined : lines.size;
  const size = equipmentGround(w, device.normal, lines.material, cap, upsizing);
  w.figure("equipment-grounding-conductor", size, "equipment grounding conductor");
  cautionCableGround(w, r.method, lines.size, lines.material, size);
  const most = equipmentGround(w, device.highest, lines.material, cap, upsizing);
  if (w.size(most) !== w.size(size)) {
    w.figure("equipment-grounding-conductor-highest", most, "equipment grounding conductor with the highest device");
    w.caution(
      w.say`With a device as large as ${device.highest} the equipment ground must be ${w.size(most)}.`,
      "equipment-grounding",
    );
  }
  return size;
}

/** Control conductors tapped from the motor circuit: the largest device that protects them too. */
export function controlCircuit(w: Worksheet, r: MotorRequest, device: Known<"A">): void {
  if (!r.control) return;
  const { size, leaves } = r.control;
  if (!size) throw need("control.size", "What size are the control circuit conductors?", "14 AWG control circuit");
  w.part("Control circuit");
  if (leaves === undefined) {
    w.suppose(
      "control circuit",
      "leaves the enclosure",
      "nothing was said, and it asks for the smaller device",
      "control circuit inside the enclosure",
      "control-circuits",
    );
  }
  const place = leaves === false ? "inside" : "leaving";
  const most = w.lookUp<"A">(
    "largest device for the control conductors",
    "motor-control-conductors",
    `${place} the enclosure, copper`,
    size,
  );
  w.figure("control-circuit-device", most, "largest device for the control conductors");
  w.choose("device against control conductors", [device, "≤", most], ["protects them too", () => {}], [
    "does not protect them",
    () =>
      w.caution(
        w.say`The ${device} device is more than ${most}: ${size} control conductors need their own fuse.`,
        "control-circuits",
      ),
  ], "control-circuits");
}
