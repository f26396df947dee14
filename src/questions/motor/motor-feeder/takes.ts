/** What a feeder of several motors takes of the facts: the motors in their order, the other loads, what is put up. */
import { POWER_GOALS } from "../../parts/run-takes.ts";
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { deviceRating } from "../../parts/device-takes.ts";
import { MOTOR_GOALS, setAsidePanels, takeShare } from "../../parts/motor-goals-takes.ts";
import { takeRun } from "../../parts/motor-run-takes.ts";
import { takeMotorSupply } from "../../parts/motor-supply-takes.ts";
import { isOthers, type MotorFact, othersOf, takeMotors, takeType } from "../../parts/motor-takes.ts";

const DEVICES: Readonly<Record<string, string>> = {
  fuse: "dual-element fuse",
  "dual-element-fuse": "dual-element fuse",
  "nontime-delay-fuse": "nontime-delay fuse",
};

export function takes(t: Taker): Draft | undefined {
  if (isOthers(t) || t.wants("goal:convert", ...POWER_GOALS, "goal:longest-run")) return undefined;
  const others = othersOf(t).filter(loadOf);
  const motors = takeMotors(t);
  const isSeveral = motors.length + others.length > 1 || motors.some(({ count }) => count > 1);
  const isFeeder = t.wants("circuit:feeder");
  if (motors.length === 0 || !(isSeveral || isFeeder)) return undefined;
  const draft: Draft = { ...takeMotorSupply(t, motors) };
  if (draft.dualVolts !== undefined && draft.volts === undefined) {
    t.ask({
      field: "volts",
      ask: `The nameplate says ${draft.dualVolts} V: which voltage are the motors connected to?`,
      example: `connected to ${String(draft.dualVolts).split("/").at(-1)} V`,
    });
  }
  delete draft.dualVolts;
  takeAll(t, motors.reduce((sum, { count }) => sum + count, others.length));
  const kind = takeType(t, motors);
  // Currents of two voltages need their motor's power: without it they may not be dropped.
  if (motors.some((motor) => !isSized(motor) && (motor.nameplateCurrents ?? motor.plate))) return undefined;
  const list = motors.filter(isSized).map((motor) => ({
    count: motor.count,
    ...(motor.power && { power: motor.power }),
    ...(motor.nameplateCurrent && { nameplateCurrent: motor.nameplateCurrent }),
    ...(motor.nameplateCurrents && { nameplateCurrents: motor.nameplateCurrents }),
    ...kind,
  }));
  if (list.length > 0) draft.motors = list;
  takeTogether(t, motors, draft);
  const beside = others.flatMap((fact) => takeOther(t, fact));
  if (beside.length > 0) draft.others = beside;
  takeDevices(t, draft);
  const tap = t.free("tap")[0]?.sense;
  if (tap?.is === "quantity") draft.tap = { value: tap.n, unit: tap.unit };
  Object.assign(draft, takeRun(t));
  if (t.said("motorWord:one-branch")) draft.oneBranch = true;
  setAsidePanels(t);
  t.asks(
    ...MOTOR_GOALS,
    "label:maximum-protection",
    "label:maximum-fuse",
    "goal:current",
    "motorWord:largest",
    "motorWord:hard-starting",
    "goal:load",
    "label:tap",
  );
  if (draft.length) t.asks("label:drop", "goal:drop");
  if (draft.size ?? draft.breaker ?? draft.fuse) t.asks("goal:check");
  return draft;
}

/** `one feeder for the three`: as many as were told. */
function takeAll(t: Taker, told: number): void {
  for (const { key, value } of t.facts.free) {
    if (key === "all" && value.sense.is === "number" && value.sense.n === told) t.use(value, "how many there are");
  }
  t.said("circuit:one-for-all");
}
const isSized = ({ power, nameplateCurrent }: MotorFact): boolean => Boolean(power ?? nameplateCurrent);
const loadOf = ({ slots }: Fact) => slots.rating ?? slots.current ?? slots.draw;

const placeOf = ({ pieces, slots }: Fact): number =>
  Math.min(...pieces, ...Object.values(slots).flat().flatMap((value) => value.pieces));

/** How many run at once: a number beside the words, or the words alone for one of them all. */
function takeTogether(t: Taker, motors: readonly MotorFact[], draft: Draft): void {
  if (t.said("motorWord:interlocked", "motorWord:locked-out")) draft.interlocked = true;
  const said = t.facts.free.find(({ key }) => key === "at-once");
  const list = draft.motors as { count: number; atOnce?: number }[] | undefined;
  if (!said || !list) return void t.said("motorWord:all-at-once");
  const { n } = said.value.sense as { n: number };
  const before = motors.findLastIndex(({ fact }) => placeOf(fact) < said.value.pieces[0]!);
  const last = list[Math.max(before, 0)];
  if (n === 1 && (list.length > 1 || last?.count === 1)) draft.interlocked = true;
  else if (last && n <= last.count) last.atOnce = n;
  else return;
  t.free("at-once");
}

/** A load that is no motor; none of one told in horsepower, which is left to be asked about. */
function takeOther(t: Taker, fact: Fact): { load: Said; continuous?: boolean }[] {
  const load = t.figure(fact, "rating", "W", "kW", "VA", "kVA") ?? t.figure(fact, "current", "A") ??
    t.figure(fact, "draw");
  if (!load) return [];
  t.head(fact);
  const count = t.number(fact, "count") ?? 1;
  const hours = t.term(fact, "hours") ?? t.terms("hours")[0];
  const total = count > 1 ? { ...load, value: Number(load.value) * count } : load;
  return [{ load: total, ...(hours && { continuous: hours === "continuous" }) }];
}

function takeDevices(t: Taker, draft: Draft): void {
  for (const device of t.all("device")) {
    const id = device.id ?? "";
    const rating = deviceRating(t, device);
    if (id === "breaker" || id === "inverse-time-breaker") {
      t.slot(device, "poles");
      if (rating) draft.breaker = rating;
    } else if (id in DEVICES) {
      if (rating) draft.fuse = rating;
      if (rating || id !== "fuse") draft.device = DEVICES[id];
    } else continue;
    t.head(device);
  }
  for (const circuit of t.all("circuit", "circuit", "feeder")) {
    const rating = t.figure(circuit, "rating", "A");
    t.head(circuit);
    t.number(circuit, "count");
    if (rating) draft.breaker ??= rating;
  }
  const percent = takeShare(t);
  if (percent) draft.percent = percent;
}
