/** The supply of a run as the facts tell it: voltage, phases, direct current, power factor. */
import type { Draft, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { takePowerFactor, takeSupplyVolts } from "../../parts/run-takes.ts";
import { SYSTEMS } from "./request.ts";
import { distinct, spoken } from "./values.ts";

/** A voltage up to this share of the supply is the drop allowed and no second supply. */
const LARGEST_LIMIT = 0.1;
/** Voltages from a line to the neutral of three phases. */
const TO_NEUTRAL = [120, 277, 347];
/** Sources of direct current. */
export const DIRECT = ["battery", "solar"];

/** The supply, and a second voltage far below it, which is the drop allowed. */
export function takeVolts(t: Taker, draft: Draft): void {
  const values = [
    ...t.all("load").flatMap(({ slots }) => slots.volts ?? []),
    ...t.facts.free.filter(({ key }) => ["V", "kV", "volts", "system", "drop"].includes(key)).map(({ value }) => value),
  ];
  const told: Said[] = [];
  const asDrop = t.facts.free.filter(({ key }) => key === "drop").map(({ value }) => value);
  const isDrop = ({ value: volts }: Said) =>
    asDrop.some(({ sense }) => sense.is === "quantity" && sense.unit === "V" && sense.n === volts);
  for (const value of values) {
    const { sense } = value;
    if (sense.is === "system") takeSystem(t, draft, sense);
    else if (sense.is === "quantity" && sense.unit === "V") told.push({ value: sense.n, unit: "V" });
    else if (sense.is === "number" && !asDrop.includes(value)) {
      told.push({ value: sense.n, unit: "V" });
    } else continue;
    t.use(value, "volts");
  }
  const volts = distinct(told).sort((a, b) => Number(b.value) - Number(a.value));
  if (volts.length === 0 && !draft.system) {
    const bare = takeSupplyVolts(t);
    if (bare) volts.push(bare);
  }
  const [supply, second, ...more] = volts;
  const highest = supply ?? (draft.system ? { value: NaN, unit: "V" } : undefined);
  if (!highest) return;
  const isLimit = supply && second && more.length === 0 &&
    (isDrop(second) || Number(second.value) <= Number(supply.value) * LARGEST_LIMIT);
  if (isLimit) {
    draft.limit = second;
  } else if (supply && second) {
    t.ask({
      field: "volts",
      ask: `Which voltage is the load on: ${volts.map(spoken).join(" or ")}?`,
      example: spoken(supply),
    });
  }
  if (supply && draft.system && Number(supply.value) < 30) draft.limit = supply;
  else if (supply) {
    draft.volts = supply;
    delete draft.system;
  }
}
function takeSystem(t: Taker, draft: Draft, { low, high }: { low: number; high: number }): void {
  const known = SYSTEMS.find((each) => each === `${low}/${high}` || each === `${high}Y/${low}`);
  if (known) draft.system = known;
  else {
    t.ask({ field: "volts", ask: `Which of ${low} and ${high} V is it connected to?`, example: `${low} V` });
  }
}

/** Phases, the neutral, which table of resistances. */
export function takeCircuit(t: Taker, draft: Draft): void {
  for (const fact of t.all("transformer", ...DIRECT)) {
    t.head(fact);
    draft.circuit = "direct current";
  }
  for (const fact of t.all("transformer", "inverter", "generator", "transformer")) t.head(fact);
  // A load's own phases decide: a single-phase one on a three-phase panel is between two of its lines.
  const own = t.all("load").map((load) => t.term(load, "phase")).filter((id) => id !== undefined);
  const ofSupply = t.terms("phase");
  const phases = own.length > 0 ? own : ofSupply;
  if (phases.includes("direct current")) draft.circuit = "direct current";
  else if (phases.includes("three-phase")) draft.circuit = "three-phase";
  else if (phases.includes("single-phase")) draft.circuit ??= "single-phase";
  const toNeutral = t.said("circuit:line-to-neutral") && draft.circuit === "three-phase" &&
    TO_NEUTRAL.includes(Number((draft.volts as Said | undefined)?.value));
  t.said("circuit:line-to-line", "motorWord:control");
  if (t.said("circuit:balanced-neutral") && draft.circuit !== "three-phase" || toNeutral) {
    draft.circuit = "balanced neutral";
  }
  if (t.said("circuit:direct-current-table")) draft.table = "direct current";
  else if (t.said("circuit:alternating-current-table")) draft.table = "alternating current";
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
}
