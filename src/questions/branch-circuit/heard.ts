/** Puts what the phrases heard into the request. */
import type { Draft, Match, Reading, Said } from "../../text/phrases.ts";
import { type CircuitKind, isCooking, RATED_BY_CIRCUIT } from "./loads.ts";
import { plain } from "../question.ts";
import type { SaidLoad } from "./request.ts";

/** Draws a charger may be set to are four fifths of a circuit; these figures are circuits, and may not be taken for a draw. */
const CIRCUITS_NOT_DRAWS = [20, 30, 50, 60, 100];
/** Settings of chargers that are no circuit's rating. */
const DRAWS = [12, 16, 24, 32, 48];
/** Blades and amperes of the common receptacle patterns that power tools, ranges and vehicles. */
export const PATTERNS: Record<number, { volts: number; neutral?: boolean }> = {
  5: { volts: 120 },
  6: { volts: 240 },
  10: { volts: 240 },
  14: { volts: 240, neutral: true },
};

export const volts = (draft: Draft, said: Said<"V"> | undefined): void => void (said && (draft.volts = said));
export const loadsOf = (draft: Draft): Partial<SaidLoad>[] => (draft.loads ??= []) as Partial<SaidLoad>[];
const isPower = (q: Said) => ["kW", "W", "kVA", "VA"].includes(q.unit);

/** One load by its kind, with all that was said around its name. */
export function readLoad(kind: CircuitKind, m: Match, { draft, amending, readAs }: Reading): void {
  const power = m.quantities.find(isPower);
  const amperes = m.quantity("A");
  volts(draft, m.quantity("V"));
  if (m.token("phase")) draft.phases = m.token("phase")!.phases;
  const count = m.numbers[0] ?? 1;
  const load: Partial<SaidLoad> = { kind, count };
  if (power) load.rating = power as never;
  const continuous = /noncontinuous/.test(m.text) ? false : /continuous/.test(m.text) ? true : undefined;
  if (continuous !== undefined) load.continuous = continuous;
  const tank = m.quantity("gal");
  if (tank) load.gallons = plain(tank);
  const duty = m.quantity("%");
  if (duty) load.dutyCycle = plain(duty);
  if (amperes) {
    takeAmperes(
      kind,
      load,
      amperes,
      { isCircuit: m.groups.circuit !== undefined, isDraw: /draw|uses|load/.test(m.text) },
      draft,
      readAs,
    );
  }
  if (m.quantity("ft", "in")) readAs("a heater's own length is not the run");
  const system = m.token("system")?.system;
  if (system) readSystem(draft, system);
  const list = amending && !draft.heard ? [] : loadsOf(draft);
  draft.heard = true;
  // A follow-up that names the load anew keeps its figures.
  const [earlier, more] = loadsOf(draft);
  if (amending && list.length === 0 && isPlain(load) && earlier && !more) return void (earlier.kind = kind);
  // Named again without a figure: the same load, not another.
  const known = list.find((each) => each.kind === kind || each.kind === "load" && isPlain(load));
  if (known && isPlain(load)) {
    if (known.kind === "load") known.kind = kind;
  } else if (known && known.rating === undefined && known.current === undefined) Object.assign(known, load);
  else list.push(load);
  draft.loads = list;
}
const isPlain = ({ rating, current }: Partial<SaidLoad>) => rating === undefined && current === undefined;

function takeAmperes(
  kind: CircuitKind,
  load: Partial<SaidLoad>,
  amperes: Said<"A">,
  { isCircuit, isDraw }: { isCircuit: boolean; isDraw: boolean },
  draft: Draft,
  readAs: Reading["readAs"],
): void {
  const value = plain(amperes);
  if ((RATED_BY_CIRCUIT.includes(kind) || isCircuit && !DRAWS.includes(value)) && !load.rating) {
    draft.breaker ??= amperes;
    readAs(`took ${value} A as the circuit, not as what it draws`);
  } else if (load.rating) load.current = amperes as never;
  else if (kind === "ev-charger" && !isDraw && CIRCUITS_NOT_DRAWS.includes(value)) {
    readAs(`${value} A may be the charger's draw or its circuit: not used`);
  } else load.rating = amperes as never;
}

/** Recreational vehicles: the large outlet has both voltages, the smaller ones 120 V. */
export function readVehicleOutlet(draft: Draft, amperes: number): void {
  const isLarge = amperes === 50;
  draft.volts ??= { value: isLarge ? 240 : 120, unit: "V" };
  if (isLarge) draft.neutral = true;
}

/** The pair of voltages of a system. */
export function readSystem(draft: Draft, system: string): void {
  if (system === "120/240") Object.assign(draft, { volts: { value: 240, unit: "V" } });
  else if (system === "208Y/120") Object.assign(draft, { volts: { value: 208, unit: "V" }, wye: true });
  else if (system === "480Y/277") draft.volts = { value: 480, unit: "V" };
  else if (system === "230/460") draft.volts = { value: 480, unit: "V" };
}

/** Gives what was read apart its place: a current to the load without one, hours to the load. */
export function settle({ draft, amending }: Reading): void {
  const { drawn, continuous, dutyCycle } = draft as { drawn?: Said; continuous?: boolean; dutyCycle?: number };
  for (const key of ["drawn", "continuous", "dutyCycle", "heard"]) delete draft[key];
  if (drawn) {
    const loads = loadsOf(draft);
    const open = loads.find((load) => isPlain(load));
    if (open) open.rating = drawn as never;
    else if (loads.length === 0 || amending) {
      draft.loads = [{ ...loads[0], kind: loads[0]?.kind ?? "load", count: 1, rating: drawn as never }];
    } else if (loads.length === 1 && drawn.unit === "A" && loads[0]!.rating?.unit !== "A") {
      loads[0]!.current = drawn as never;
    } else loads.push({ kind: "load", count: 1, rating: drawn as never });
  }
  nameOnly(draft);
  const loads = draft.loads as Partial<SaidLoad>[] | undefined;
  if (loads && continuous !== undefined) { for (const load of loads) load.continuous ??= continuous; }
  if (loads && dutyCycle !== undefined) {
    const welder = loads.find(({ kind }) => kind === "welder");
    if (welder) welder.dutyCycle = dutyCycle;
  }
  if (loads?.length === 0) delete draft.loads;
  // A breaker told beside an amperage that named the circuit wins.
  if (draft.receptacle && loads?.length && loads.every(({ kind }) => kind === "receptacles")) {
    draft.loads = loads.filter((load) => !isPlain(load));
  }
  if (Array.isArray(draft.loads) && draft.loads.length === 0) delete draft.loads;
}

/** A cooking appliance named without a figure beside others that have one names the circuit ("the old range feeder"). */
function nameOnly(draft: Draft): void {
  const loads = draft.loads as Partial<SaidLoad>[] | undefined;
  if (!loads?.some((load) => !isPlain(load))) return;
  draft.loads = loads.filter((load) => !(isPlain(load) && load.kind && isCooking(load.kind)));
}
