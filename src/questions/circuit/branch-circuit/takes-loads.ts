/** What a branch circuit takes of its loads: their power, what they draw, their hours, the circuit they are spoken of by. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { bareAmperes } from "../../parts/device-takes.ts";
import { CIRCUIT_KINDS, type CircuitKind, isCooking, RATED_BY_CIRCUIT } from "./loads.ts";
import type { SaidLoad } from "./request.ts";
import { setPattern } from "./takes-device.ts";

/** Draws a charger may be set to are four fifths of a circuit; these figures are circuits, and may not be taken for a draw. */
const CIRCUITS_NOT_DRAWS = [20, 30, 50, 60, 100];

/** Every load; a blower's amperes beside the heat that it moves are part of it. */
export function takeHeads(t: Taker, heads: readonly Fact[], draft: Draft): Partial<SaidLoad>[] {
  const blower = heads.find(({ id, slots }) => BLOWERS.has(id ?? "") && slots.current && !slots.rating);
  const heat = heads.find(({ id, slots }) => HEATED.has(id ?? "") && slots.rating && !slots.current);
  return heads.flatMap((head) => {
    if (head === blower && heat) return [];
    const taken = takeLoad(t, head, draft);
    if (head !== heat || !blower || taken.length !== 1) return taken;
    t.head(blower);
    const amperes = t.figure(blower, "current", "A");
    return [{ ...taken[0]!, kind: "furnace", ...(amperes && { blower: amperes as never }) }];
  });
}
const BLOWERS = new Set(["air-handler", "fan"]);
const HEATED = new Set(["furnace", "supplemental-heat"]);

function takeLoad(t: Taker, load: Fact, draft: Draft): Partial<SaidLoad>[] {
  t.head(load);
  const kind = kindOf(load.others?.find((other) => other.startsWith("for:"))?.slice(4) ?? load.id);
  const said: Partial<SaidLoad> = { kind, count: t.number(load, "count") ?? 1 };
  const rating = t.figure(load, "rating", "W", "kW", "VA", "kVA");
  const draw = t.figure(load, "draw", "W", "kW", "VA", "kVA", "A") ?? bareAmperes(t, load, "draw");
  const plate = t.figure(load, "nameplate", "A") ?? t.figure(load, "full-load-current", "A") ??
    bareAmperes(t, load, "full-load-current");
  const current = t.figure(load, "current", "A");
  const hours = t.term(load, "hours");
  if (hours) said.continuous = hours === "continuous";
  const gallons = t.figure(load, "gallons");
  if (gallons) said.gallons = Number(gallons.value);
  const duty = t.number(load, "duty") ?? t.number(load, "duty-cycle");
  if (duty !== undefined) said.dutyCycle = duty;
  // What a welder's plate gives is its primary's.
  if (kind === "welder") t.said("end:primary");
  const length = load.slots.ownLength?.[0];
  if (length) t.aside(length, "the heater's own length");
  t.term(load, "fuel");
  takePattern(t, load, draft);
  const power = rating ?? (draw && draw.unit !== "A" ? draw : undefined);
  const amperes = (draw?.unit === "A" ? draw : undefined) ?? plate;
  if (power) said.rating = power as never;
  if (amperes) {
    if (power) {
      said.current = amperes as never;
      takeVoltsOf(t, power, amperes, draft);
    } else said.rating = amperes as never;
  }
  if (current) takeAmperes(t, load, kind, said, current, draft);
  return [said];
}

/** What an amperage beside a load is: its draw, or the circuit that it is spoken of by. */
function takeAmperes(
  t: Taker,
  load: Fact,
  kind: CircuitKind,
  said: Partial<SaidLoad>,
  current: Said,
  draft: Draft,
): void {
  const isOutlet = load.id === "receptacles" || load.id === "rv-outlet";
  // `receptacles 3 A`: none is made for so little, which is what they draw.
  if (isOutlet && (load.id === "rv-outlet" || Number(current.value) >= SMALLEST_RECEPTACLE)) {
    draft.receptacle = current;
    if (load.others?.includes("for:rv-outlet") || load.id === "rv-outlet") {
      readVehicleOutlet(draft, Number(current.value));
    }
    return;
  }
  if (isOutlet) {
    said.rating = current as never;
    return;
  }
  if (said.rating) {
    const { rating } = said;
    if (rating.unit === "A") draft.breaker ??= current;
    else if (isOfCircuit(kind, rating, current) && !draft.breaker) takeCircuit(t, current, draft);
    else {
      said.current ??= current as never;
      takeVoltsOf(t, rating, current, draft);
    }
    return;
  }
  // Ratings of devices are round figures: `my dryer says 24 A` tells what it draws.
  if (RATED_BY_CIRCUIT.includes(kind) && !draft.breaker && isRound(current)) return takeCircuit(t, current, draft);
  if (kind === "ev-charger" && CIRCUITS_NOT_DRAWS.includes(Number(current.value)) && !draft.breaker) {
    t.ask({
      field: "loads",
      ask: `Is ${current.value} A what the charger draws, or its circuit?`,
      example: `draws ${current.value} A`,
    });
    return;
  }
  said.rating = current as never;
}
function takeCircuit(t: Taker, current: Said, draft: Draft): void {
  draft.breaker = current;
  t.note(`took ${current.value} A as the circuit, not as what it draws`);
}
const isRound = ({ value }: Said): boolean => Number(value) % 5 === 0 && Number(value) >= SMALLEST_RECEPTACLE;
/** `a 30 A water heater, 4500 W`: round amperes that its power comes to at no usual voltage, and are above what it draws. */
function isOfCircuit(kind: CircuitKind, { value, unit }: { value: unknown; unit: string }, current: Said): boolean {
  if (!isRound(current)) return false;
  if (RATED_BY_CIRCUIT.includes(kind)) return true;
  const [power, amperes] = [Number(value) * (unit.startsWith("k") ? 1000 : 1), Number(current.value)];
  const isDraw = USUAL_VOLTS.some((volts) =>
    [1, Math.sqrt(3)].some((phases) => Math.abs(power / volts / phases / amperes - 1) <= NEAR)
  );
  return !isDraw && power / HOUSE_VOLTS < amperes;
}
/** `1500 W heater, 12.5 A`: the one voltage at which both are so, where none was told. */
function takeVoltsOf(t: Taker, { value, unit }: { value: unknown; unit: string }, current: Said, draft: Draft): void {
  if (draft.volts !== undefined || draft.phases === 3) return;
  const volts = Number(value) * (unit.startsWith("k") ? 1000 : 1) / Number(current.value);
  const usual = USUAL_VOLTS.filter((each) => Math.abs(volts / each - 1) <= NEAR);
  if (usual.length !== 1 || usual[0] === HOUSE_VOLTS) return;
  draft.volts = { value: usual[0], unit: "V" };
  t.note(`took ${usual[0]} V, at which ${value} ${unit} is ${current.value} A`);
}
/** What a figure may be off by rounding. */
const NEAR = 0.05;
/** Voltages that loads are supplied with, and the one of most (common practice, no source). */
const [USUAL_VOLTS, HOUSE_VOLTS] = [[120, 208, 230, 240, 277, 480], 240];
/** Ratings of receptacles begin there (common practice, no source). */
const SMALLEST_RECEPTACLE = 15;
/** Recreational vehicles: the large outlet has both voltages, the smaller ones 120 V. */
function readVehicleOutlet(draft: Draft, amperes: number): void {
  const isLarge = amperes === 50;
  draft.volts ??= { value: isLarge ? 240 : 120, unit: "V" };
  if (isLarge) draft.neutral = true;
}
function takePattern(t: Taker, load: Fact, draft: Draft): void {
  const value = t.slot(load, "pattern");
  if (value?.sense.is === "pattern") setPattern(value.sense, draft);
}

/** Heat with its blower is sized like a furnace. */
const HEAT: ReadonlySet<string> = new Set(["supplemental-heat", "air-handler"]);
const kindOf = (id: string | undefined): CircuitKind =>
  HEAT.has(id ?? "")
    ? "furnace"
    : id === "rv-outlet"
    ? "receptacles"
    : (CIRCUIT_KINDS as readonly string[]).includes(id ?? "")
    ? id as CircuitKind
    : "load";

/** `oven 8.6 kW, 208 V, 3 ph, 24 A`: what its power comes to is told beside it. */
export function isItsOwnCurrent(t: Taker, draft: Draft, loads: readonly Partial<SaidLoad>[]): boolean {
  const [rated, loose, ...others] = loads;
  const volts = Number((draft.volts as Said | undefined)?.value);
  if (!rated?.rating || rated.kind === "load" || loose?.kind !== "load" || loose.rating?.unit !== "A") return false;
  if (others.length > 0 || rated.rating.unit === "A" || Number.isNaN(volts)) return false;
  const power = Number(rated.rating.value) * (rated.rating.unit.startsWith("k") ? 1000 : 1);
  const current = power / volts / (draft.phases === 3 ? Math.sqrt(3) : 1);
  const told = Number(loose.rating.value);
  if (Math.abs(told - current) / current > NEAR) return false;
  draft.loads = [{ ...rated, current: loose.rating }];
  t.note(`took ${told} A as what its power comes to`);
  return true;
}

/** A load by its name alone. */
export const isPlain = ({ rating, current }: Partial<SaidLoad>) => rating === undefined && current === undefined;
/** Two mentions of one load are one: a name without a figure goes to the figure without a name. */
export function together(loads: Partial<SaidLoad>[], hasOutlet: boolean): Partial<SaidLoad>[] | undefined {
  const list: Partial<SaidLoad>[] = [];
  for (const load of loads) {
    const same = list.find((each) =>
      (each.kind === load.kind || each.kind === "load" || load.kind === "load") && (isPlain(each) || isPlain(load))
    );
    if (same) {
      Object.assign(same, load, {
        kind: same.kind === "load" ? load.kind : same.kind,
        count: Math.max(same.count ?? 1, load.count ?? 1),
      });
    } else list.push(load);
  }
  // A receptacle or a cooking appliance named beside loads with figures names the circuit.
  const rated = list.filter((load) => !isPlain(load));
  const kept = rated.length > 0
    ? list.filter((load) => !isPlain(load) || !(load.kind === "receptacles" || (load.kind && isCooking(load.kind))))
    : list;
  // A rated outlet beside what is plugged into it is no load of its own.
  const plugged = hasOutlet ? kept.filter(({ kind }) => kind !== "receptacles") : kept;
  return plugged.length > 0 ? plugged : kept;
}
