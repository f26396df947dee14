/** What a load draws, by its nameplate. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { lineCurrent } from "../../../rules/power.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { isCooling, nameOf } from "./loads.ts";
import type { CircuitRequest, SaidLoad } from "./request.ts";
import type { Supply } from "./supply.ts";

/** What a circuit has to carry. */
export type Load = {
  current: Known<"A">;
  design: Known<"A">;
  /** Whether the load is known; otherwise the circuit is sized to carry its full rating. */
  told: boolean;
  /** Smallest device that a rule or the appliance's own receptacle allows. */
  least?: { device: Known<"A">; clause?: string };
  /** The circuit's rating, where that and not the load was told. */
  rating?: Known<"A">;
  /** Rated primary current of a welder: its device follows that, its conductors the duty cycle. */
  welder?: Known<"A">;
  /** What equipment fastened in place draws, where it shares the circuit. */
  fastened?: Known<"A">;
  /** The heaviest single appliance that is plugged in. */
  plugged?: { name: string; current: Known<"A"> };
  /** Works out the current by the nameplate of one cooking appliance, where its load is the table's. */
  nameplate?: () => Known<"A">;
};

/** Whether a load's own figure was told. */
export const hasRating = ({ rating, current }: SaidLoad): boolean => rating !== undefined || current !== undefined;

/** Asks for the figure a load cannot be sized without. */
export function askRating(load: SaidLoad | undefined) {
  const name = load ? nameOf(load.kind) : "load";
  const example = load?.kind === "ev-charger" ? "48 A charger" : load ? `${name} 4.5 kW` : "24 A load";
  return need("loads", `What does the ${name} draw: amperes or kW by its nameplate? Or what is its breaker?`, example);
}

/** Cooling units are sized by their nameplates alone. */
export function refuseCooling(loads: readonly SaidLoad[]): void {
  const unit = loads.find(({ kind }) => isCooling(kind));
  if (!unit) return;
  throw need(
    "nameplate",
    `The circuit of a ${
      nameOf(unit.kind)
    } follows its nameplate: what are its minimum circuit ampacity and its largest breaker or fuse?`,
    "MCA 23.4, max breaker 40",
  );
}

/** An appliance of both voltages and so many kilowatts is most often a range, which has a table of its own. */
export function askWhatItIs(r: CircuitRequest, loads: readonly SaidLoad[]): void {
  const unnamed = loads.find(({ kind, rating }) => kind === "load" && rating !== undefined && rating.unit !== "A");
  if (!unnamed || !r.neutral || r.volts?.value !== 240 || r.wye) return;
  throw need(
    "loads",
    "What is this 120/240 V load? A range or an oven is taken by the cooking table, a heater at more than its nameplate.",
    `${unnamed.rating!.value} ${unnamed.rating!.unit} range`,
  );
}

/** Amperes of all pieces of a load. */
export function currentOf(w: Worksheet, load: SaidLoad, supply: Supply): Known<"A"> {
  const name = nameOf(load.kind);
  const each = withBlower(w, load, eachCurrent(w, load, supply, name));
  if (load.count === 1) return each;
  const count = w.given(`how many of ${name}`, { n: String(load.count), unit: "1" });
  return w.work("load current", "A", calc`${count} × ${each}`);
}

function withBlower(w: Worksheet, { blower }: SaidLoad, heat: Known<"A">): Known<"A"> {
  if (!blower) return heat;
  const fan = w.given("blower current", asQuantity(blower));
  return w.work("current with the blower", "A", calc`${heat} + ${fan}`);
}

function eachCurrent(w: Worksheet, load: SaidLoad, supply: Supply, name: string): Known<"A"> {
  const said = [
    ...(load.rating?.unit === "A"
      ? [w.given(`${name} current`, { n: asQuantity(load.rating).n, unit: "A" as const })]
      : []),
    ...(load.current
      ? [w.given(`${name} nameplate current`, { n: asQuantity(load.current).n, unit: "A" as const })]
      : []),
  ];
  if (load.rating?.unit === "A") return said[0]!;
  if (load.rating === undefined && said[0]) return said[0];
  const volts = supply.volts;
  if (!volts) throw need("volts", "At what voltage?", "240 V");
  const power = load.rating
    ? nameplate(w, name, load.rating, volts)
    : load.kind === "receptacles"
    ? w.constant<"VA">("receptacle-load")
    : w.assume<"VA">("dryer-rating");
  const worked = lineCurrent(w, power, volts, supply.phases, "load current");
  return said[0] ? w.work("load current, the larger of the two", "A", calc`max(${worked}, ${said[0]})`) : worked;
}
