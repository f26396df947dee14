/** One motor: its conductors, overload, short-circuit protection, disconnect and ground, ordinary and at the most. */
import { need } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cautionWiring } from "../../../rules/fitness.ts";
import { lockedRotorByLetter, lockedRotorByTable } from "../../../rules/motor-current.ts";
import type { Device } from "../../../rules/motor-protection.ts";
import {
  installedLines,
  linesOf,
  type MotorLines,
  startingDrop,
  statedLines,
  surroundings,
} from "../../parts/motor-lines.ts";
import { type Motor, motorInWords, motorOf, mustBeLowVoltage, wiresOf } from "../../parts/motors.ts";
import { inRaceway, RACEWAY_FIGURES } from "../../parts/raceway.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy, refusedByHeat } from "../../parts/verdict.ts";
import { check, type Found, leastDevice } from "./check.ts";
import { conductorAmpacity } from "./conductors.ts";
import { controlCircuit, devices, disconnect, ground, instantaneous, overload } from "./devices.ts";
import { input, type MotorRequest } from "./request.ts";
import { extraConductors } from "./special.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "motor-circuit",
  title: "Motor circuit",
  about: "Wire, overload, breaker or fuse, disconnect and ground of one motor.",
  input,
  figures: {
    "full-load-current": "full-load current",
    "conductor-ampacity": "conductor ampacity needed",
    conductor: "conductor",
    "parallel-sets": "parallel sets",
    "overload-rating": "overload device",
    "overload-rating-highest": "overload device, highest",
    "thermal-protector": "highest trip current of the thermal protector",
    "breaker-rating": "inverse-time breaker",
    "breaker-rating-highest": "inverse-time breaker, highest",
    "dual-element-fuse": "dual-element fuse",
    "dual-element-fuse-highest": "dual-element fuse, highest",
    "nontime-delay-fuse": "nontime-delay fuse",
    "nontime-delay-fuse-highest": "nontime-delay fuse, highest",
    "instantaneous-trip-setting": "instantaneous-trip breaker, setting",
    "instantaneous-trip-setting-highest": "instantaneous-trip breaker, highest setting",
    "disconnect-current": "least rating of the disconnect",
    "equipment-grounding-conductor": "equipment grounding conductor",
    "equipment-grounding-conductor-highest": "equipment grounding conductor with the highest device",
    "locked-rotor-current": "locked-rotor current",
    "voltage-drop-volts": "voltage drop",
    "voltage-drop": "voltage drop in percent",
    "starting-voltage-drop-volts": "drop while starting",
    "starting-voltage-drop": "drop while starting in percent",
    "motor-lead-ampacity": "ampacity of the conductors from the controller to the motor",
    "motor-lead-conductor": "conductors from the controller to the motor",
    "secondary-ampacity": "ampacity of the secondary conductors",
    "secondary-conductor": "secondary conductors",
    "control-circuit-device": "largest device for the control conductors",
    ...RACEWAY_FIGURES,
  },
  examples: [
    "10 hp 208 V three-phase motor, nameplate 29 A, service factor 1.15",
    "is a 60 A breaker too big for #10 on a 7.5 hp 230 V 3 phase motor?",
    "5 hp 230 V single-phase motor 150 ft from the panel, what wire and breaker?",
  ],
  manner: {
    traits: ["one load", "one circuit", "gauges"],
    words: ["load:motor", "load:pump"],
    pointers: {
      "device:overload": ["overload-rating"],
      "label:locked-rotor-current": ["locked-rotor-current"],
      "label:full-load-current": ["full-load-current"],
    },
  },
  takes,
  write,
  answer(r, w) {
    if (r.drive) return throwDrive();
    w.part("Motor");
    const motor = motorOf(w, r);
    mustBeLowVoltage(w, motor);
    mustKnowDuty(r, motor);
    w.figure("full-load-current", motor.current, "full-load current");
    w.part("Conductors");
    const design = conductorAmpacity(w, r, motor);
    w.figure("conductor-ampacity", design);
    const wiring = surroundings(w, r, design);
    const hot = r.size === undefined ? undefined : refusedByHeat(w, () => wiring);
    if (hot) return hot;
    const least = linesOf(w, r, motor, design, wiring);
    const stated = r.size === undefined ? undefined : statedLines(w, r, motor, wiring);
    const lines = installedLines(w, r, { least, stated, design, motor, wiring });
    w.figure("conductor", lines.size);
    if (lines.sets) w.figure("parallel-sets", lines.sets);
    if (lines.drop) {
      w.figure("voltage-drop-volts", lines.drop.volts, "voltage drop");
      w.figure("voltage-drop", lines.drop.percent, "voltage drop in percent");
    }
    extraConductors(w, r, motor, wiring);
    const over = overload(w, r, motor);
    const found: Found = {
      design,
      overload: over,
      devices: devices(w, r, motor),
      trip: instantaneous(w, r, motor),
      disconnect: disconnect(w, motor),
      motor,
      stated,
      least,
    };
    const device = deviceOf(r);
    const grounding = ground(w, r, deviceInstalled(w, r, found, device), lines);
    starting(w, r, motor, lines);
    controlCircuit(w, r, found.devices[device].normal);
    const { size, material } = lines;
    const raceway = inRaceway(w, r, { lines: { count: wiresOf(motor.supply), size }, ground: grounding, material });
    return tell(w, r, { ...found, lines, grounding, device, raceway }, check(w, r, found, grounding));
  },
});

const INSTANTANEOUS = "instantaneous-trip breaker";
/**
 * The device that the headline and the ground go by: what was put up or named. Behind an instantaneous-trip breaker the
 * ground goes by the dual-element fuse that the motor may have.
 */
function deviceOf({ fuse, breaker, device }: MotorRequest): Device {
  if (fuse) return fuse.type === "nontime-delay" ? "nontime-delay fuse" : "dual-element fuse";
  if (breaker || device === undefined) return "inverse-time breaker";
  return device === INSTANTANEOUS ? "dual-element fuse" : device;
}

function throwDrive(): never {
  throw need(
    "drive",
    "Behind a drive the supply circuit goes by the drive's rated input current, and its maker names the device: ask for " +
      "a circuit of that current. Or leave the drive out to size the motor across the line.",
    "continuous load 28 A 480 V three phase",
  );
}

/** Duty other than continuous goes by two facts and the nameplate current. */
function mustKnowDuty({ duty }: MotorRequest, { nameplate }: Motor): void {
  if (!duty) return;
  if (!duty.service) {
    throw need("duty.service", "Which duty: short-time, intermittent, periodic or varying?", "intermittent duty");
  }
  if (!duty.rated) {
    throw need("duty.rated", "What is the motor rated for: 5, 15, 30 or 60 minutes, or continuous?", "15-minute rated");
  }
  if (!nameplate) {
    throw need("nameplateCurrent", "Such duty goes by the nameplate current: what does it say?", "nameplate 29 A");
  }
}

/** The device the ground is sized by: the one put up where it is allowed, otherwise the ordinary one. */
function deviceInstalled(w: Worksheet, r: MotorRequest, told: Found, device: Device) {
  const rating = r.breaker ?? r.fuse?.rating;
  const found = told.devices[device];
  if (!rating) return found;
  const isRefused = w.scratch(() => {
    const put = w.given("device", asQuantity(rating));
    return w.holds(put, ">", found.highest) || w.holds(put, "<", leastDevice(device, told));
  });
  if (isRefused) return found;
  const put = w.given("device put up for checking", asQuantity(rating));
  return { normal: put, highest: put };
}

function starting(w: Worksheet, r: MotorRequest, motor: Motor, lines: MotorLines): void {
  const supply = motor.supply === "single-phase" ? 1 : 3;
  w.part("While it starts");
  const current = lockedRotor(w, r, motor, supply);
  if (!current) return;
  w.figure("locked-rotor-current", current, "locked-rotor current");
  if (!lines.drop) return w.aside("While it starts");
  const drop = startingDrop(w, r, motor, lines, current);
  w.figure("starting-voltage-drop-volts", drop.volts);
  w.figure("starting-voltage-drop", drop.percent);
  w.caution(
    w.say`While it starts across the line the drop is up to ${drop.percent}: ask the motor's maker what it starts on.`,
  );
}

function lockedRotor(w: Worksheet, r: MotorRequest, motor: Motor, supply: 1 | 3): Known<"A"> | undefined {
  if (r.lockedRotor) return w.given("locked-rotor current", asQuantity(r.lockedRotor));
  if (!motor.power || motor.supply === "direct current") return undefined;
  const byLetter = r.codeLetter && motor.supply !== "two-phase" &&
    lockedRotorByLetter(w, r.codeLetter, motor.power, motor.volts, supply);
  return byLetter || lockedRotorByTable(w, motor.power, motor.volts, supply);
}

type Worked = Found & { lines: MotorLines; grounding: Known<"size">; device: Device; raceway: string };

function tell(w: Worksheet, r: MotorRequest, its: Worked, verdict: Reasoned | undefined): Told {
  const { motor, lines, grounding, overload, devices, trip, device, disconnect, raceway } = its;
  const { normal, highest } = devices[device];
  const wire = `${lines.sets ? w.say`${lines.sets} sets of ` : ""}${w.size(lines.size)} ${lines.material}`;
  const drop = lines.drop ? w.say` (drop ${lines.drop.percent})` : "";
  const most = w.holds(highest, ">", normal) ? w.say` (${highest} at the most if it will not start)` : "";
  const over = overload
    ? w.say`overload ${overload.normal} (${overload.highest} at the most)`
    : "overload by the nameplate current, not told";
  const protection = r.device === INSTANTANEOUS && !r.breaker && !r.fuse
    ? w.say`instantaneous-trip breaker set to ${trip.normal} (${trip.highest} at the most)`
    : w.say`${normal} ${device === "inverse-time breaker" ? "breaker" : device}${most}`;
  const sentence = w.say`${
    motorInWords(w, motor)
  }: ${wire}${drop}, ${protection}; ${over}; disconnect ${disconnect} or more, ground ${w.size(grounding)}${raceway}.`;
  cautions(w, r, its, normal);
  suggestions(w, r, its);
  return ledBy(verdict, sentence);
}

function cautions(w: Worksheet, r: MotorRequest, { motor, lines, overload, stated }: Worked, device: Known<"A">): void {
  if (w.holds(device, ">", lines.ampacity)) {
    w.caution(
      "The device may be larger than the wire: it only clears shorts and ground faults and must let the motor start, while " +
        "the overload device keeps motor and wire from running too hot.",
      "motor-protection",
    );
  }
  cautionWiring(w, r, lines.size, lines.material, stated !== undefined);
  if (!overload && !r.thermalProtector) {
    w.caution("The overload device goes by the nameplate current: give it, with the service factor.", "motor-overload");
  }
  if (motor.power) {
    w.caution(
      w.say`The disconnect must be rated for ${motor.power} too, or be listed for the motor.`,
      "motor-disconnect",
    );
  }
  if (r.capacitor) {
    w.caution(
      "A power-factor capacitor on the motor's side of the overload device lowers its current: set the overload by the lower " +
        "current. The conductors are sized as without it.",
      "motor-capacitors",
    );
  }
}

function suggestions(w: Worksheet, r: MotorRequest, { lines, overload }: Worked): void {
  if (!overload) w.suggest("nameplate 29 A, service factor 1.15");
  w.suggest(lines.material === "copper" ? "use aluminum" : "use copper");
  if (!r.length) w.suggest("and at 200 ft?");
  if (r.breaker === undefined) w.suggest("is a 60 A breaker ok?");
}
