/** What the kinds that ask about motors take of the facts: the motors themselves, their supply, their run. */
import type { Draft, Fact, Said, Value } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { DUAL_VOLTAGES, NAMEPLATE_AMBIENT, type Supply } from "./motors.ts";
import { lines, takeLength, takeWiring } from "./run-takes.ts";

/** Heads that are motors whatever figures stand beside them, and appliances that are motors once a power is told. */
export const MACHINES = [
  "duplex-pump",
  "triplex-pump",
  "motor",
  "pump",
  "compressor",
  "air-compressor",
  "fan",
  "machine",
  "gate-operator",
];
const DRIVEN = [
  "well-pump",
  "sump-pump",
  "pool-pump",
  "attic-fan",
  "garage-door-opener",
  "air-handler",
  "air-conditioner",
  "refrigeration",
];
/** Driven things of a household, which are made for one phase (common practice, no source), and the voltage most are for. */
const HOUSEHOLD: Readonly<Record<string, 120 | undefined>> = {
  "well-pump": undefined,
  "sump-pump": 120,
  "pool-pump": undefined,
};
/** Voltages of a household's supply: on these a thing of the household is taken as single-phase. */
const HOUSEHOLD_VOLTS = [110, 115, 120, 220, 230, 240];
/** Figures of a nameplate's rest, and why they change nothing. */
const REST: Readonly<Record<string, string>> = {
  efficiency: "the table current counts, whatever the efficiency",
  "duty-cycle": "continuous duty is the ordinary case",
  gallons: "how much it pumps does not size its circuit",
  capacity: "how much it moves does not size its circuit",
};
/** Percentages from here on are shares of a current, below they are limits of a drop. */
const LEAST_SHARE = 100;

export type MotorFact = {
  fact: Fact;
  count: number;
  power?: Said;
  nameplateCurrent?: Said;
  nameplateCurrents?: [Said, Said];
  /** Currents for three voltages: which one counts follows from the connection. */
  plate?: { readonly low: readonly number[]; readonly high: readonly number[] };
};

const ratingOf = ({ slots }: Fact) => slots.rating?.[0]?.sense;
const isHorsepower = (fact: Fact): boolean => {
  const sense = ratingOf(fact);
  return sense?.is === "quantity" && sense.unit === "hp";
};
export const isMotor = (fact: Fact): boolean =>
  MACHINES.includes(fact.id ?? "") ||
  (isHorsepower(fact) && (fact.id === undefined || DRIVEN.includes(fact.id) || fact.id === "load"));
const CURRENTS = ["current", "full-load-current", "nameplate", "draw"];
const isRated = ({ slots }: Fact): boolean => Boolean(slots.rating) || CURRENTS.some((slot) => slots[slot]);
/** A hermetic compressor, a panel's service, a transformer, an area: other questions' facts. */
export const isOthers = (t: Taker): boolean =>
  ["ft2", "m2"].some((key) => t.has(key)) || t.all("space").length > 0 ||
  t.all("transformer", "transformer").some(({ slots }) => slots.rating) ||
  t.all("load", "hermetic-compressor").length > 0 ||
  t.all("load", "compressor").some((fact) => !isHorsepower(fact) && CURRENTS.some((slot) => fact.slots[slot])) ||
  t.all("load").some(({ slots }) =>
    slots["minimum-circuit-ampacity"] || slots["maximum-protection"] || slots["rated-load-current"] ||
    slots["selection-current"]
  );

/** All motors of the text. A name without a figure is the figure without a name; heads are taken. */
const SEVERAL: Readonly<Record<string, number>> = { "duplex-pump": 2, "triplex-pump": 3 };
export function takeMotors(t: Taker): MotorFact[] {
  const facts = motorsOf(t);
  const one = asOne(facts);
  if (one) { for (const fact of facts) t.head(fact); }
  const rated = one ? [one] : facts.filter(isRated);
  const kept = rated.length > 0 ? rated : facts.slice(0, 1);
  const found = kept.map((fact) => takeMotor(t, fact));
  for (const plain of one ? [] : facts.filter((fact) => !kept.includes(fact))) {
    const count = t.number(plain, "count");
    t.head(plain);
    if (count !== undefined && count > 1 && found.length === 1 && found[0]!.count === 1) found[0]!.count = count;
  }
  const several = facts.map(({ id }) => SEVERAL[id ?? ""]).find(Boolean);
  if (several && found.length === 1 && found[0]!.count === 1) found[0]!.count = several;
  // `three motors: 10 hp, 15 hp, 25 hp`: the number is of them all.
  const [total, ...rest] = found;
  if (
    total && total.count > 1 && found.length === total.count && rest.every(isListed) &&
    isBehind(total.fact) && !isCountOfFigure(total.fact)
  ) {
    total.count = 1;
  }
  return found;
}

/** Kilowatts on nameplates are round: 11 kW is sold as 15 hp, 3.7 kW as 5. */
const KILOWATTS_OF_HORSEPOWER = 0.75;
const ROUNDED = 0.09;
const KILOWATTS: Readonly<Record<string, number>> = { kW: 1, W: 0.001 };
/** `15 kW motor, that's 20 hp`: one shaft power in two units. */
function toldTwice(t: Taker): { horse: Fact; same: Fact; hp: number } | undefined {
  const loads = t.all("load").filter(({ slots }) => slots.rating);
  const [horse, ...more] = loads.filter(isHorsepower);
  if (!horse || more.length > 0 || horse.slots.count || !isMotor(horse)) return undefined;
  const { n: hp } = ratingOf(horse) as { n: number };
  const same = loads.find((fact) => {
    const sense = ratingOf(fact);
    const kilowatts = sense?.is === "quantity" ? sense.n * (KILOWATTS[sense.unit] ?? 0) : 0;
    const isNameless = fact.pieces.length === 0 || horse.pieces.length === 0;
    return fact !== horse && isNameless && (isMotor(fact) || fact.id === undefined) && !fact.slots.count &&
      Math.abs(kilowatts / (hp * KILOWATTS_OF_HORSEPOWER) - 1) < ROUNDED;
  });
  return same && { horse, same, hp };
}
/** Loads that are no motors, nor one told a second time. */
export const othersOf = (t: Taker): Fact[] => {
  const same = toldTwice(t)?.same;
  return t.all("load").filter((fact) => !isMotor(fact) && fact !== same);
};
/** All motors, one told twice with the horsepower, which names the row of its table. */
function motorsOf(t: Taker): Fact[] {
  const motors = t.all("load").filter(isMotor);
  const twice = toldTwice(t);
  if (!twice) return motors;
  const { horse, same, hp } = twice;
  t.head(same);
  t.head(horse);
  t.aside(same.slots.rating![0]!, `the same motor, told as ${hp} hp`);
  const { rating: _, ...slots } = same.slots;
  const named = horse.id === undefined ? same : horse;
  const merged: Fact = { ...named, slots: { ...slots, ...horse.slots } };
  return [merged, ...motors.filter((fact) => fact !== horse && fact !== same)];
}

/** `5 hp motor, nameplate 15 A … the motor, service factor 1.15`: one motor told in several places. */
function asOne(facts: readonly Fact[]): Fact | undefined {
  const [rated, ...more] = facts.filter(({ slots }) => slots.rating);
  const others = facts.filter((fact) => fact !== rated);
  if (!rated || more.length > 0 || others.length === 0) return undefined;
  const slots: Record<string, readonly Value[]> = { ...rated.slots };
  for (const other of others) {
    // `a 10 hp motor and a 20 A motor` are two.
    if (other.pieces.length > 0 && (other.slots.current ?? other.slots.draw)) return undefined;
    for (const [slot, values] of Object.entries(other.slots)) {
      const isOpen = slot === "volts" || slot === "phase";
      if ((slots[slot] && !isOpen) || slot === "count") return undefined;
      slots[slot] = [...slots[slot] ?? [], ...values];
    }
  }
  return { ...rated, slots };
}

/** A further figure of a list, without a name or a count of its own; what a conversation knows has lost its places. */
const isListed = ({ fact }: MotorFact): boolean => fact.pieces.length === 0 && fact.sentence >= 0 && !fact.slots.count;
/** A head in front of its figure; what has no head stands nowhere. */
const isBehind = ({ pieces, slots }: Fact): boolean => {
  const figure = (slots.rating ?? slots.current)?.[0]?.pieces ?? [];
  return pieces.length > 0 && figure.length > 0 && Math.min(...figure) > Math.max(...pieces);
};

/** `motor feeder: two 7.5 hp and a 15 hp`: the count right before a figure is its own. */
const isCountOfFigure = ({ slots }: Fact): boolean => {
  const [figure] = (slots.rating ?? slots.current)?.[0]?.pieces ?? [];
  return figure !== undefined && slots.count?.[0]?.pieces.at(-1) === figure - 1;
};

const currentsOf = (m: MotorFact) => m.nameplateCurrent ?? m.nameplateCurrents ?? m.plate;
/** At 208 V it is the first of two, at 230 V the second. */
export function plateCurrents({ plate }: MotorFact, volts: Said | undefined): [Said, Said] | undefined {
  if (!plate) return undefined;
  const isLowest = volts !== undefined && Number(volts.value) < 220;
  const pick = (list: readonly number[]): Said => ({ value: (isLowest ? list[0] : list.at(-1))!, unit: "A" });
  return [pick(plate.low), pick(plate.high)];
}

function takeMotor(t: Taker, fact: Fact): MotorFact {
  t.head(fact);
  const motor: MotorFact = { fact, count: t.number(fact, "count") ?? 1 };
  const power = t.figure(fact, "rating", "hp", "kW", "W");
  if (power) motor.power = power.unit === "W" ? { value: Number(power.value) / 1000, unit: "kW" } : power;
  for (const slot of CURRENTS) {
    const value = fact.slots[slot]?.[0];
    if (!value || currentsOf(motor)) continue;
    if (value.sense.is === "plate-currents") {
      motor.plate = value.sense;
      t.slot(fact, slot);
    } else if (value.sense.is === "pair") {
      const { a, b } = value.sense;
      motor.nameplateCurrents = [{ value: Math.max(a, b), unit: "A" }, { value: Math.min(a, b), unit: "A" }];
      t.slot(fact, slot);
    } else {
      const said = t.figure(fact, slot, "A") ?? bareAmperes(t, fact, slot);
      if (said) motor.nameplateCurrent = said;
    }
  }
  for (const [slot, because] of Object.entries(REST)) if (fact.slots[slot]) t.aside(fact.slots[slot]![0]!, because);
  return motor;
}
const bareAmperes = (t: Taker, fact: Fact, slot: string): Said | undefined => {
  if (fact.slots[slot]?.[0]?.sense.is !== "number") return undefined;
  return { value: t.number(fact, slot)!, unit: "A" };
};

/** What says the kind of motor: its type, its speed. */
export function takeType(t: Taker, motors: readonly MotorFact[]): { type?: string; speed?: number } {
  const said = [...motors.map(({ fact }) => t.term(fact, "motorType")), ...t.terms("motorType")].find(Boolean);
  const speed = motors.map(({ fact }) => bareOf(t, fact, "speed")).find(Boolean) ?? t.loose("rpm")?.value;
  return { ...(said && { type: said }), ...(speed !== undefined && { speed: Number(speed) }) };
}
export const bareOf = (t: Taker, fact: Fact, slot: string): number | undefined => {
  const said = t.figure(fact, slot);
  return said ? Number(said.value) : t.number(fact, slot);
};

/** `230/460 V, connected high`; a system of two voltages has one between its lines. */
const NAMEPLATE_PAIRS: Readonly<Record<string, typeof DUAL_VOLTAGES[number]>> = {
  "115/230": "115/230",
  "110/220": "115/230",
  "208/230": "208/230",
  "115/208": "115/208-230",
  "230/460": "230/460",
  "208/460": "208-230/460",
};
const SPLIT = [120, 240];
const SUPPLIES: Readonly<Record<string, Supply>> = {
  "single-phase": "single-phase",
  "two-phase": "two-phase",
  "three-phase": "three-phase",
  "direct current": "direct current",
};

export function takeMotorSupply(t: Taker, motors: readonly MotorFact[]): Draft {
  const draft: Draft = {};
  const facts = t.all("load");
  const phases = [
    ...facts.flatMap(({ slots }) => slots.phase ?? []).map((value) => {
      t.use(value, "phase");
      return value.sense.is === "term" ? value.sense.id : undefined;
    }),
    ...t.terms("phase"),
  ].filter((id) => id !== undefined && id !== "alternating current");
  const [supply, ...others] = [...new Set(phases)];
  if (supply !== undefined) draft.supply = SUPPLIES[supply];
  if (others.length > 0) {
    t.ask({
      field: "supply",
      ask: `Is the motor ${supply} or ${others.join(" or ")}? Both were said.`,
      example: "three phase motor",
    });
  }
  takeVolts(t, facts, draft);
  takeHousehold(t, draft, motors);
  takeConnection(t, draft, motors);
  for (const value of [...t.free("Hz"), ...t.free("frequency")]) {
    t.aside(value, "the tables are for 60 Hz and 50 Hz alike");
  }
  return draft;
}

/** `1.5 hp pool pump, 230 V`: what stands in every house is single-phase, said. */
function takeHousehold(t: Taker, draft: Draft, motors: readonly MotorFact[]): void {
  const ids = motors.map(({ fact }) => fact.id ?? "");
  if (motors.length === 0 || draft.supply !== undefined || !ids.every((id) => id in HOUSEHOLD)) return;
  const usual = HOUSEHOLD[ids[0]!];
  if (draft.volts === undefined && usual !== undefined) {
    draft.volts = { value: usual, unit: "V" };
    t.note(`took ${usual} V, as usual for it`);
  }
  const volts = Number((draft.volts as Said | undefined)?.value ?? NaN);
  if (!HOUSEHOLD_VOLTS.includes(volts)) return;
  draft.supply = "single-phase";
  t.note("took single phase, as usual for it");
}

/** How much a system's voltage lies above the nameplates of its motors at the most. */
const NAMEPLATE_BELOW = 1.1;
function takeVolts(t: Taker, facts: readonly Fact[], draft: Draft): void {
  const values: Value[] = [...facts.flatMap((fact) => fact.slots.volts ?? [])];
  for (const value of values) t.use(value, "volts");
  for (const key of ["V", "volts", "system"]) values.push(...t.free(key));
  const singles = new Set<number>();
  for (const { sense } of values) {
    if (sense.is === "quantity" || sense.is === "number") singles.add(sense.n);
    if (sense.is === "system") readSystem(t, sense, draft);
  }
  if (singles.size === 0 && draft.volts === undefined) {
    for (const { sense } of t.free("nominal-volts")) {
      if (sense.is !== "number") continue;
      t.note(`took ${sense.n} as ${sense.n} V`);
      singles.add(sense.n);
    }
  }
  // `575 V on a 600 V supply`: the nameplate's own counts, a little below its system's.
  const [low, high] = [...singles].sort((a, b) => a - b) as [number, number];
  if (singles.size === 2 && high / low < NAMEPLATE_BELOW) {
    singles.delete(high);
    t.note(`took ${low} V as the motor's own, on a system of ${high} V`);
  }
  if (singles.size > 1) {
    t.ask({
      field: "volts",
      ask: `Which voltage does the motor run on, ${[...singles].join(" V or ")} V?`,
      example: `connected to ${[...singles][0]} V`,
    });
  }
  const [single] = singles;
  if (single !== undefined) {
    if (draft.split && single > SPLIT[1]!) t.note("120/240 V does not go with the voltage told, which counts");
    delete draft.split;
    draft.volts = { value: single, unit: "V" };
  }
  if (draft.split) {
    if (draft.supply === "three-phase") draft.volts ??= { value: SPLIT[1]!, unit: "V" };
    else draft.dualVolts = "115/230";
  }
  delete draft.split;
}
function readSystem(t: Taker, { low, high, wye }: { low: number; high: number; wye: boolean }, draft: Draft): void {
  const pair = NAMEPLATE_PAIRS[`${low}/${high}`];
  if (pair && !wye) draft.dualVolts = pair;
  else if (low === SPLIT[0] && high === SPLIT[1]) draft.split = true;
  else if (wye) draft.volts = { value: high, unit: "V" };
  else {
    t.ask({
      field: "volts",
      ask: `Which voltage is the motor connected for, ${low} V or ${high} V?`,
      example: `connected to ${high} V`,
    });
  }
}
/** `connected high`: the higher voltage of the nameplate. */
function takeConnection(t: Taker, draft: Draft, motors: readonly MotorFact[]): void {
  const [high, low] = [t.said("motorWord:connected-high"), t.said("motorWord:connected-low")];
  const isDual = draft.dualVolts !== undefined || motors.some(({ nameplateCurrents }) => nameplateCurrents);
  if (!isDual || draft.volts !== undefined || high === low) return;
  const volts = String(draft.dualVolts ?? "230/460").split(/\/(?=[^/]*$)/).map((each) =>
    Number(each.split("-").at(-1))
  );
  draft.dualVolts ??= "230/460";
  draft.volts = { value: high ? Math.max(...volts) : Math.min(...volts), unit: "V" };
}

/**
 * Conductors put up, their number of sets, where and how far they run.
 * @param control the conductor of a control circuit, which is none of the run
 */
export function takeRun(t: Taker, control?: Fact): Draft {
  const draft: Draft = {};
  const sized = lines(t).filter((fact) => fact.slots.size && fact.id !== "neutral" && fact !== control);
  const sizes = new Set<string>();
  for (const fact of sized) {
    const sense = fact.slots.size![0]!.sense;
    const size = sense.is === "size" || sense.is === "cable" ? sense.size : sense.is === "sizes" ? sense.sizes[0]! : "";
    if (SMALLEST.includes(size) || (sizes.size > 0 && !sizes.has(size))) continue;
    sizes.add(size);
    t.head(fact);
    t.slot(fact, "size");
    const wires = t.number(fact, "count");
    if (wires !== undefined) t.aside(fact.slots.count![0]!, "how many wires follows from the phases");
  }
  const [size] = sizes;
  if (size !== undefined) draft.size = size;
  for (const set of t.all("circuit", "set")) {
    const count = t.number(set, "count");
    if (count === undefined) continue;
    t.head(set);
    draft.sets = count;
  }
  if (isMotorsAmbient(t)) {
    for (const value of t.free("ambient")) t.aside(value, "the nameplate's ambient is the motor's, not the wires'");
  }
  Object.assign(draft, takeWiring(t));
  if (isMotorsAmbient(t)) delete draft.ambient;
  const length = takeLengths(t);
  if (length) draft.length = length;
  if (t.said("circuit:ignore-drop")) draft.ignoreDrop = true;
  for (const value of [...t.facts.free].filter(({ key }) => key === "drop" || key === "%")) {
    const { sense } = value.value;
    const n = sense.is === "quantity" && sense.unit === "%" ? sense.n : sense.is === "number" ? sense.n : undefined;
    if (n === undefined || n >= LARGEST_LIMIT || draft.dropLimit) continue;
    t.free(value.key);
    draft.dropLimit = { value: n, unit: "%" };
  }
  const powerFactor = t.all("load").map((load) => t.slot(load, "power-factor")?.sense).find(Boolean);
  if (powerFactor?.is === "number") draft.powerFactor = powerFactor.n;
  if (powerFactor?.is === "quantity") draft.powerFactor = powerFactor.n / 100;
  return draft;
}
/** Sizes that are no conductors of a power circuit. */
export const SMALLEST = ["18", "16"];
/** A drop of more is no limit. */
const LARGEST_LIMIT = 15;
const isMotorsAmbient = (t: Taker): boolean => {
  const value = t.facts.free.find(({ key }) => key === "ambient")?.value.sense;
  const isUsual = (value?.is === "quantity" && value.unit === "°C" && value.n === NAMEPLATE_AMBIENT) ||
    (value?.is === "number" && value.n === NAMEPLATE_AMBIENT);
  return isUsual &&
    t.all("load").some(({ slots }) =>
      slots["service-factor"] ?? slots["full-load-current"] ?? slots.speed ?? slots.nameplate
    );
};

/** Lengths told one after another are one run. */
function takeLengths(t: Taker): Said | undefined {
  const first = takeLength(t);
  if (!first) return undefined;
  let total = Number(first.value);
  let parts = 1;
  for (let next = t.loose("length", first.unit); next; next = t.loose("length", first.unit)) {
    total += Number(next.value);
    parts++;
  }
  if (parts === 1) return first;
  t.note(`added the lengths to one run of ${total} ${first.unit}`);
  return { value: total, unit: first.unit };
}

/** The share of the current that the device was asked by. */
export function takeShare(t: Taker): Said | undefined {
  const share = t.facts.free.find(({ key, value: { sense } }) =>
    key === "%" && sense.is === "quantity" && sense.n >= LEAST_SHARE
  );
  if (!share) return undefined;
  t.free("%");
  return { value: (share.value.sense as { n: number }).n, unit: "%" };
}
/** Where it stands: it changes nothing of its circuit. */
export const WHERE = ["place:separate-structure", "place:same-building", "place:garage", "place:dry"] as const;
/** A panel named as where the circuit comes from. */
export function setAsidePanels(t: Taker): void {
  t.said(...WHERE);
  for (const panel of t.all("device", "panel", "subpanel", "main", "service")) {
    t.aside(panel, "it sizes nothing here");
    for (const values of Object.values(panel.slots)) {
      for (const value of values) t.aside(value, "the panel's own rating does not size this circuit");
    }
  }
}
/** What every question on motors answers: wire, device, overload, ground, disconnect. */
export const MOTOR_GOALS = [
  "device:breaker",
  "device:fuse",
  "device:overload",
  "device:disconnect",
  "role:wire",
  "role:ungrounded",
  "role:equipment-ground",
  "goal:size",
  "goal:ampacity",
  "circuit:circuit",
  "circuit:feeder",
  "label:full-load-current",
  "label:minimum-circuit-ampacity",
  "label:nameplate",
  "label:locked-rotor-current",
  "label:starting",
  "label:service-factor",
  "label:code-letter",
] as const;
