/** A nameplate's figures, and which of them another voltage outlives: `same motor hooked up for 230`. */
import type { Fact, Free, Value } from "../reading/facts.ts";

/** What a load draws, by its different names: told anew, one takes the others' place. */
export const CURRENTS = ["current", "draw", "rated-load-current", "nameplate", "full-load-current"];
export const MEASURES = ["rating", ...CURRENTS];
/** What stands on the plate of a cooling machine. */
const OF_COOLING = ["minimum-circuit-ampacity", "maximum-protection", "minimum-protection", "selection-current"];
/** What belongs to a nameplate, and goes with it when another machine takes its place. */
export const PLATE = [
  ...CURRENTS,
  "locked-rotor-current",
  "service-factor",
  "temperature-rise",
  "code",
  "speed",
  "power-factor",
  "efficiency",
  ...OF_COOLING,
];
/** What is told for one voltage and is another at the next. */
const OF_VOLTAGE = [...CURRENTS, "locked-rotor-current"];
/** A cooling machine's plate that is read for 208 V serves at 240 V as well; none serves beyond this. */
const OTHER_SUPPLY = 1.3;
/** Voltages that are spoken of as one and the same. */
const SAME = [[110, 115, 120, 125], [200, 208], [220, 230, 240, 250], [265, 277], [380, 400, 415], [440, 460, 480], [
  550,
  575,
  600,
]];

const voltsIn = ({ sense }: Value): number | undefined => {
  if (sense.is === "quantity") return sense.unit === "V" ? sense.n : sense.unit === "kV" ? sense.n * 1000 : undefined;
  return sense.is === "number" ? sense.n : undefined;
};
/** The voltage a load is at: its own, or the supply's. Of a system of two, or a range, none. */
const voltsOf = ({ slots }: Fact, free: readonly Free[]): number | undefined => {
  const own = slots.volts?.[0] ?? free.findLast(({ key }) => ["V", "kV", "volts"].includes(key))?.value;
  return own && voltsIn(own);
};
const isOther = (a: number, b: number): boolean =>
  a !== b && !SAME.some((same) => same.includes(a) && same.includes(b));
const isHorsepower = ({ slots }: Fact): boolean =>
  (slots.rating ?? []).some(({ sense }) => sense.is === "quantity" && sense.unit === "hp");

/** The slots of a load that were told for the voltage it had, and not again for the one it has. */
export function outlived(
  was: { fact: Fact; free: readonly Free[] },
  is: { fact: Fact; free: readonly Free[] },
): { slots: readonly string[]; volts: number } | undefined {
  const [before, after] = [voltsOf(was.fact, was.free), voltsOf(is.fact, is.free)];
  if (before === undefined || after === undefined || !isOther(before, after)) return undefined;
  const cools = OF_COOLING.some((slot) => was.fact.slots[slot]);
  if (!cools && !isHorsepower(is.fact)) return undefined;
  if (cools && Math.max(before / after, after / before) < OTHER_SUPPLY) return undefined;
  const slots = [...OF_VOLTAGE, ...(cools ? OF_COOLING : [])].filter((slot) => {
    const values = is.fact.slots[slot];
    return values !== undefined && values === was.fact.slots[slot] &&
      values.every(({ sense }) => sense.is !== "plate-currents");
  });
  return slots.length > 0 ? { slots, volts: before } : undefined;
}

const phaseOf = ({ slots }: Fact, free: readonly Free[]): string | undefined => {
  const sense = (slots.phase?.[0] ?? free.findLast(({ key }) => key.startsWith("phase:"))?.value)?.sense;
  return sense?.is === "term" ? sense.id : undefined;
};
/** `what if I got a three phase one`, of a single-phase motor: its plate is another's. */
export function phaseChanged(
  was: { fact: Fact; free: readonly Free[] },
  is: { fact: Fact; free: readonly Free[] },
): boolean {
  const [before, after] = [phaseOf(was.fact, was.free), phaseOf(is.fact, is.free)];
  return before !== undefined && after !== undefined && before !== after && isHorsepower(is.fact);
}
