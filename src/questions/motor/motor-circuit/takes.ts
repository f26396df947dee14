/** What one motor's circuit takes of the facts: the nameplate, the devices and the conductors put up, the special cases. */
import { isOfLimitAlone, lines, POWER_GOALS } from "../../parts/run-takes.ts";
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { deviceRating } from "../../parts/device-takes.ts";
import { MOTOR_GOALS, setAsidePanels, takeShare } from "../../parts/motor-goals-takes.ts";
import { SMALLEST, takeRun } from "../../parts/motor-run-takes.ts";
import { takeMotorSupply } from "../../parts/motor-supply-takes.ts";
import {
  bareOf,
  isOthers,
  type MotorFact,
  othersOf,
  plateCurrents,
  takeMotors,
  takeType,
} from "../../parts/motor-takes.ts";
import { RESISTOR_DUTIES, SERVICES } from "./request.ts";

const FUSES: Readonly<Record<string, "dual-element" | "nontime-delay" | undefined>> = {
  fuse: undefined,
  "dual-element-fuse": "dual-element",
  "nontime-delay-fuse": "nontime-delay",
};
/** Devices that decide what the share and the ground go by, where they alone are asked for. */
const DEVICES: Readonly<Record<string, string>> = {
  // Most fuses of motors are (common practice, no source).
  fuse: "dual-element fuse",
  "dual-element-fuse": "dual-element fuse",
  "nontime-delay-fuse": "nontime-delay fuse",
  "instantaneous-trip-breaker": "instantaneous-trip breaker",
};
const RATED_MINUTES: Readonly<Record<number, string>> = {
  5: "5-minute",
  15: "15-minute",
  30: "30-minute and 60-minute",
  60: "30-minute and 60-minute",
};

export function takes(t: Taker): Draft | undefined {
  if (isOthers(t) || t.wants("goal:convert", "goal:longest-run", ...POWER_GOALS)) return undefined;
  if (isOfLimitAlone(t)) return undefined;
  // `amps of a 5 hp motor` converts; what is asked of its circuit, or as its full-load current, is worked out here.
  const isOfCircuit = t.wants(
    "device:breaker",
    "role:wire",
    "circuit:circuit",
    "label:full-load-current",
    "device:overload",
    "device:fuse",
    "device:dual-element-fuse",
    "device:disconnect",
  );
  if (t.wants("goal:current") && !isOfCircuit && !t.has("motorWord:drive")) return undefined;
  const others = othersOf(t).filter(({ slots }) => slots.rating ?? slots.current);
  if (others.length > 0) return undefined;
  const motors = takeMotors(t);
  const [motor] = motors;
  if (!motor || motors.length > 1 || motor.count > 1) return undefined;
  if (!motor.power && t.wants("circuit:feeder")) return undefined;
  // `#4 TW in the mill`: a wire beside a machine of which nothing is told or asked.
  const isTold = Object.keys(motor.fact.slots).length > 0;
  if (!isTold && !isOfCircuit && lines(t).some(({ slots }) => slots.size && slots.insulation)) return undefined;
  // `need heaters`: of a starter, where a motor's power is told.
  for (const fact of motor.power ? t.all("load", "space-heater") : []) t.head(fact);
  const draft: Draft = {};
  if (motor.power) draft.power = motor.power;
  if (motor.nameplateCurrents) draft.nameplateCurrents = motor.nameplateCurrents;
  Object.assign(draft, takeMotorSupply(t, motors), takeType(t, motors));
  const plate = plateCurrents(motor, draft.volts as Said | undefined);
  if (plate) draft.nameplateCurrents = plate;
  takeNameplate(t, motor, draft);
  takeSpecial(t, motor, draft);
  takeDevices(t, draft);
  const control = takeControl(t, draft);
  Object.assign(draft, takeRun(t, control));
  setAsidePanels(t);
  if (t.wants("device:breaker")) {
    for (const { key, value } of t.facts.free) {
      if (key === "methodOfLoad:standard") t.aside(value, "the usual breaker, inverse time, is what is worked out");
    }
  }
  t.asks(...MOTOR_GOALS, "goal:current");
  if (draft.length) t.asks("label:drop", "goal:drop");
  if (draft.size ?? draft.breaker ?? draft.fuse ?? draft.overload) t.asks("goal:check");
  // Its highest device is named on every answer.
  t.said("motorWord:largest", "motorWord:hard-starting");
  t.asks("label:maximum-protection", "label:maximum-fuse", "label:maximum-fuse-or-breaker");
  // A wound rotor's primary is its supply.
  if (draft.type === "wound rotor") {
    t.said("end:primary");
    for (const wire of t.all("conductor", "wire")) t.term(wire, "end");
  }
  return draft;
}

function takeNameplate(t: Taker, { fact, nameplateCurrent }: MotorFact, draft: Draft): void {
  if (nameplateCurrent) draft.nameplateCurrent = nameplateCurrent;
  const factor = bareOf(t, fact, "service-factor");
  if (factor !== undefined) draft.serviceFactor = factor;
  const rise = bareOf(t, fact, "temperature-rise");
  if (rise !== undefined) draft.temperatureRise = { value: rise, unit: "°C" };
  const letter = t.slot(fact, "code")?.sense ?? t.free("letter")[0]?.sense;
  if (letter?.is === "letter") draft.codeLetter = letter.letter;
  const locked = t.figure(fact, "locked-rotor-current", "A") ?? bare(t, fact, "locked-rotor-current");
  if (locked) draft.lockedRotor = locked;
  if (t.said("motorWord:no-power-marked")) draft.noPowerMarked = true;
  if (t.said("motorWord:thermal-protector")) draft.thermalProtector = true;
}
function bare(t: Taker, fact: MotorFact["fact"], slot: string): Said | undefined {
  const n = t.number(fact, slot);
  return n === undefined ? undefined : { value: n, unit: "A" };
}

/** Duty, starters, drives, the secondary of a wound rotor: each moves the motor's amperes to where they belong. */
function takeSpecial(t: Taker, { fact }: MotorFact, draft: Draft): void {
  if (t.said("motorWord:wye-delta")) draft.reducedStart = "wye-delta";
  if (t.said("motorWord:part-winding")) draft.reducedStart = "part-winding";
  if (t.said("motorWord:capacitor")) draft.capacitor = true;
  // Amperes without a label of their own are the drive's or the secondary's, where one is spoken of.
  const current = fact.slots.current ? draft.nameplateCurrent : undefined;
  if (t.said("motorWord:drive")) {
    draft.drive = current ? { input: current } : {};
    if (current) delete draft.nameplateCurrent;
  } else if (t.said("end:secondary", "motorWord:secondary") && current) {
    draft.secondary = { current };
    delete draft.nameplateCurrent;
  }
  const secondary = t.figure(fact, "secondary-current", "A");
  if (secondary) draft.secondary = { current: secondary };
  t.asks("label:secondary-current");
  if (draft.secondary) {
    t.said("end:secondary", "motorWord:secondary");
    for (const wire of t.all("conductor")) t.term(wire, "end");
  }
  for (const duty of RESISTOR_DUTIES) {
    if (t.said(`motorWord:${duty}`)) draft.secondary = { ...(draft.secondary as object), resistor: duty };
  }
  t.said("motorWord:resistor");
  if (draft.secondary) t.asks("label:duty-cycle");
  takeDuty(t, fact, draft);
}
function takeDuty(t: Taker, fact: MotorFact["fact"], draft: Draft): void {
  const service = SERVICES.find((each) => t.said(`motorWord:${each}`));
  const minutes = t.free("min").map(({ sense }) => (sense as { n: number }).n);
  const rated = minutes.map((n) => RATED_MINUTES[n]).find(Boolean);
  const isContinuous = t.term(fact, "hours") === "continuous" || t.terms("hours").includes("continuous");
  t.asks("label:duty-cycle");
  if (!service && !rated) return;
  draft.duty = {
    ...(service && { service }),
    ...(rated ? { rated } : isContinuous && { rated: "continuous" }),
  };
}

function takeDevices(t: Taker, draft: Draft): void {
  const asked: string[] = [];
  for (const device of t.all("device")) {
    const id = device.id ?? "";
    const rating = deviceRating(t, device);
    if (id === "breaker" || id === "inverse-time-breaker") {
      t.slot(device, "poles");
      if (rating) draft.breaker = rating;
      else asked.push("inverse-time breaker");
    } else if (id in FUSES) {
      if (rating) draft.fuse = { rating, ...(FUSES[id] && { type: FUSES[id] }) };
      else if (id in DEVICES) asked.push(DEVICES[id]!);
    } else if (id in DEVICES && !rating) asked.push(DEVICES[id]!);
    else if (id === "overload") {
      if (rating) draft.overload = rating;
    } else continue;
    t.head(device);
  }
  for (const circuit of t.all("circuit", "circuit")) {
    const rating = t.figure(circuit, "rating", "A");
    t.head(circuit);
    if (!rating) continue;
    t.note(`took the ${rating.value} A circuit as its breaker`);
    draft.breaker ??= rating;
  }
  const percent = takeShare(t);
  if (percent) draft.percent = percent;
  // `fuses instead of a breaker`: what is named first is wanted.
  const kinds = [...new Set(t.said("change:instead") ? asked.slice(0, 1) : asked)];
  if (kinds.length === 1 && kinds[0] !== "inverse-time breaker") draft.device = kinds[0];
}

/** Control conductors tapped from the circuit; a size beside them is theirs, and of several the nearest. */
function takeControl(t: Taker, draft: Draft): Fact | undefined {
  const [said] = t.free("motorWord:control");
  if (!said) return undefined;
  const leaves = t.said("motorWord:leaves");
  const stays = t.said("motorWord:stays");
  const sized = lines(t).flatMap((fact) => {
    const sense = fact.slots.size?.[0]?.sense;
    return sense?.is === "size" ? [{ fact, size: sense.size }] : [];
  });
  const away = ({ fact }: { fact: Fact }) => Math.abs((fact.slots.size![0]!.pieces[0] ?? 0) - (said.pieces[0] ?? 0));
  const own = sized.find(({ size }) => SMALLEST.includes(size)) ??
    sized.filter(({ size }) => OF_CONTROL.includes(size)).sort((a, b) => away(a) - away(b))[0];
  if (own) {
    t.head(own.fact);
    t.slot(own.fact, "size");
  }
  draft.control = { ...(own && { size: own.size }), ...((leaves || stays) && { leaves }) };
  return own?.fact;
}
const OF_CONTROL = ["14", "12", "10"];
