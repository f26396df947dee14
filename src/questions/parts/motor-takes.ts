/** What the kinds that ask about motors take of the motors themselves: which loads are motors, their power and their currents. */
import type { Fact, Said, Value } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import { bareAmperes } from "./device-takes.ts";

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
];
const DRIVEN = [
  "gate-operator",
  "well-pump",
  "sump-pump",
  "pool-pump",
  "attic-fan",
  "garage-door-opener",
  "air-handler",
  "air-conditioner",
  "refrigeration",
];
/** Figures of a nameplate's rest, and why they change nothing. */
const REST: Readonly<Record<string, string>> = {
  efficiency: "the table current counts, whatever the efficiency",
  "duty-cycle": "continuous duty is the ordinary case",
  gallons: "how much it pumps does not size its circuit",
  capacity: "how much it moves does not size its circuit",
};
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

const SEVERAL: Readonly<Record<string, number>> = { "duplex-pump": 2, "triplex-pump": 3 };
/** All motors of the text. A name without a figure is the figure without a name; heads are taken. */
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
