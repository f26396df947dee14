/** What the kinds that ask about motors take of what supplies them: phases, voltage, how a motor of two voltages is connected. */
import type { Draft, Fact, Said, Value } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";
import type { MotorFact } from "./motor-takes.ts";
import type { DUAL_VOLTAGES, Supply } from "./motors.ts";

/** Driven things of a household, which are made for one phase (common practice, no source), and the voltage most are for. */
const HOUSEHOLD: Readonly<Record<string, 120 | undefined>> = {
  "well-pump": undefined,
  "sump-pump": 120,
  "pool-pump": undefined,
};
/** Voltages of a household's supply: on these a thing of the household is taken as single-phase. */
const HOUSEHOLD_VOLTS = [110, 115, 120, 220, 230, 240];

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
