/** What a generator can carry and deliver, by its nameplate. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { exact } from "../../../core/quantity.ts";
import { apparentPower, askLineToLine, isLineToNeutral, lineCurrent, type Phases } from "../../../rules/power.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Power, StandbyRequest } from "./request.ts";

/** The supply of the generator: its voltage between lines, and its phases. */
export type Supply = { volts: Known<"V">; phases: Phases };

export function supplyOf(w: Worksheet, { volts, supply }: StandbyRequest): Supply {
  w.part("Supply");
  const phases: Phases = supply === "three-phase" ? 3 : 1;
  if (phases === 3 && !volts) {
    throw need("volts", "What is the three-phase voltage of the generator?", "208 V three phase");
  }
  if (phases === 3 && isLineToNeutral(exact(volts!.value).valueOf())) {
    throw need(...askLineToLine(exact(volts!.value).valueOf()));
  }
  return {
    volts: volts ? w.given("voltage of the generator", asQuantity(volts)) : w.assume<"V">("generator-voltage"),
    phases,
  };
}

/** A told power or current as volt-amperes; kilowatts of a load count as kilovolt-amperes. */
export function apparent(w: Worksheet, name: string, told: Power, { volts, phases }: Supply): Known<"VA"> {
  const { n, unit } = asQuantity(told);
  if (unit === "A") return apparentPower(w, w.given(name, { n, unit }), volts, phases);
  const isWatts = unit === "W" || unit === "kW";
  const power = w.given(
    name,
    { n, unit: unit === "W" ? "VA" : unit === "kW" ? "kVA" : unit as "VA" | "kVA" },
    isWatts ? "watts counted as volt-amperes" : undefined,
  );
  return w.work(`${name}, volt-amperes`, "VA", calc`1 × ${power}`);
}

export type Capacity = {
  /** What it may be loaded with, watts counted as volt-amperes. */
  power: Known<"VA">;
  /** What its nameplate lets it deliver. */
  current: Known<"A">;
  /** What limits it, in words. */
  words: string;
};

/** The engine gives kilowatts, the windings amperes; between them stands the power factor it is rated at. */
export function capacityOf(w: Worksheet, r: StandbyRequest, supply: Supply): Capacity | undefined {
  if (!r.generator) return undefined;
  w.part("Generator");
  const { n, unit } = asQuantity(r.generator);
  const words = `a generator of ${r.generator.value} ${r.generator.unit}`;
  if (unit === "A") {
    const current = w.given("current of the generator", { n, unit });
    return { power: w.work("power of the generator", "VA", apparentOf(current, supply)), current, words };
  }
  const factor = w.take(
    "power factor of the generator",
    r.powerFactor === undefined ? undefined : { n: exact(r.powerFactor).toFraction(), unit: "1" as const },
    supply.phases === 3 ? "generator-power-factor-three-phase" : "generator-power-factor",
  );
  const isReal = unit === "W" || unit === "kW";
  const rated = w.given(
    "power of the generator",
    { n, unit: unit === "W" ? "VA" : unit === "kW" ? "kVA" : unit as "VA" | "kVA" },
    isReal ? "watts, which the engine gives" : undefined,
  );
  const power = w.work("it may carry", "VA", isReal ? calc`1 × ${rated}` : calc`${rated} × ${factor}`);
  const delivered = w.work("its volt-amperes", "VA", isReal ? calc`${rated} ÷ ${factor}` : calc`1 × ${rated}`);
  const current = lineCurrent(w, delivered, supply.volts, supply.phases, "current of the generator");
  return { power, current, words };

  function apparentOf(current: Known<"A">, { volts, phases }: Supply) {
    return phases === 3
      ? calc`${current} × ${volts} × sqrt(${w.given("phases", { n: "3", unit: "1" })})`
      : calc`${current} × ${volts}`;
  }
}

/** The inlet of a portable one may let less through than it gives. */
export function throughInlet(w: Worksheet, r: StandbyRequest, supply: Supply, capacity: Capacity | undefined) {
  if (!r.inlet) return capacity;
  const rated = w.given("inlet", asQuantity(r.inlet));
  const most = apparentPower(w, rated, supply.volts, supply.phases);
  if (!capacity) return { power: most, current: rated, words: w.say`a ${rated} inlet` };
  return w.choose<Capacity>(
    "does the inlet let all of it through",
    [rated, "≥", capacity.current],
    ["yes", () => capacity],
    ["no, it limits", () => ({ power: most, current: rated, words: w.say`${capacity.words} behind a ${rated} inlet` })],
  );
}
