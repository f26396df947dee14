/** What every kind that works a dwelling's load takes of the facts beside areas and appliances. */
import type { Draft, Said, Value } from "../../reading/facts.ts";
import { saidOf, type Taker } from "../../reading/take.ts";
import { isHeating, type Listed, placeOf } from "./load-takes.ts";

/** 120/240 or 120/208, told as a pair or by its higher voltage with the phase. */
export function takeSystem(t: Taker, draft: Draft): void {
  const pairs = t.facts.free.filter(({ key }) => key === "system").map(({ value }) => value);
  for (const load of t.all("load")) {
    const value = load.slots.volts?.[0];
    if (value?.sense.is === "system") pairs.push(t.slot(load, "volts")!);
  }
  for (const { sense } of pairs) {
    if (sense.is !== "system") continue;
    if (sense.low > 125 || (sense.high !== 208 && sense.high !== 240 && sense.high !== 220 && sense.high !== 230)) {
      continue;
    }
    t.free("system");
    draft.system = sense.high === 208 ? "120/208" : "120/240";
  }
  for (const key of ["V", "volts"]) {
    for (const { key: at, value } of t.facts.free) {
      const n = at === key && (value.sense.is === "quantity" || value.sense.is === "number") ? value.sense.n : 0;
      if (n < 200 || n > 240) continue;
      t.free(key);
      draft.system ??= n === 208 ? "120/208" : "120/240";
    }
  }
  // `nameplate 18 amps, 240`: what every such load has.
  for (const { key, value } of t.facts.free) {
    if (key === "supply-volts" && [120, 240].includes((value.sense as { n: number }).n)) {
      t.aside(value, "the house's own voltage");
    }
  }
  t.said("phase:single-phase");
}

export function takeCircuits(t: Taker, draft: Draft): void {
  for (const circuit of t.all("circuit", "small-appliance", "laundry")) {
    t.head(circuit);
    const count = t.number(circuit, "count");
    const amperes = circuit.slots.rating?.[0];
    if (amperes) {
      t.aside(
        amperes,
        amperes.sense.is === "quantity" && amperes.sense.unit !== "A"
          ? "counted by the number of the circuits"
          : "these circuits are counted, whatever their breaker",
      );
      // `3 x 1500 VA` counts them; `3000 VA` alone does not.
      if (amperes.sense.is === "quantity" && amperes.sense.unit !== "A" && count === undefined) continue;
    }
    if (circuit.id === "laundry") draft.laundryCircuits = count ?? 1;
    else if (count !== undefined) draft.smallApplianceCircuits = count;
  }
  if (t.said("absent:laundry")) draft.laundryCircuits = 0;
}

/** Why what the breakers of a panel add up to is left aside. */
export const BREAKERS_ARE_NO_LOAD =
  "what the breakers add up to is no load: they protect wires, and never carry all of it at once";

/** Into how many parts heating is divided: told of a unit with its thermostat, of a zone, of a room. */
export function takeParts(t: Taker, list: readonly Listed[]): void {
  const heating = list.filter(({ load }) => isHeating(load) && load.fuel !== "gas");
  const parts = [...t.all("circuit", "part"), ...t.all("building", "unit")];
  if (heating.length === 0) return;
  for (const part of parts) {
    t.head(part);
    const count = t.number(part, "count");
    const owner = heating.findLast(({ fact }) => placeOf(fact) <= placeOf(part) + 1) ?? heating[0]!;
    const rating = owner.fact.slots.rating?.[0]?.pieces[0];
    const head = Math.min(...owner.fact.pieces);
    if (count === undefined) continue;
    // `five separately controlled 1.5 kW heaters` are five heaters; `9 kW in five rooms` is one load in five parts.
    const ofEach = rating !== undefined && rating > placeOf(part) && rating < head;
    if (ofEach && owner.load.count === undefined) owner.load.count = count;
    else if (part.family === "circuit" || owner.load.count === undefined || owner.load.count === count) {
      owner.load.units = count;
    }
  }
}

/** A worked list pasted in: its lighting is counted by the area, its total is compared with the items and set aside. */
export function takeListed(t: Taker, list: readonly Listed[]): void {
  for (const fact of t.all("load", "lighting", "receptacles", "load")) {
    const rating = fact.slots.rating?.[0];
    if (rating && fact.id !== "load") {
      t.head(fact);
      t.aside(rating, "lighting and receptacles are counted by the area");
    } else if (fact.id === "load" && fact.slots.count && !rating) {
      t.head(fact);
      t.aside(fact.slots.count[0]!, "the appliances are listed");
    }
  }
  for (const { key, value } of t.facts.free) {
    if (key === "breakers-total") t.aside(value, BREAKERS_ARE_NO_LOAD);
    if (key === "VA/ft2") t.aside(value, "the edition's own load per area counts");
    if (key === "calculated-load" && value.sense.is === "quantity") t.aside(value, ofTotal(t, value, list));
  }
  for (const fact of t.all("load")) {
    const value = fact.id === undefined ? (fact.slots.rating ?? fact.slots.current)?.[0] : undefined;
    const share = fact.slots.share?.[0]?.sense;
    if (value && share?.is === "term" && share.id === "total") {
      t.slot(fact, "share");
      t.aside(value, ofTotal(t, value, list));
    }
  }
}
/** What a told total is compared with: everything of the list that is told in volt-amperes. */
function ofTotal(t: Taker, { sense }: Value, list: readonly Listed[]): string {
  const listed = [...t.all("load", "lighting", "receptacles"), ...t.all("circuit", "small-appliance", "laundry")];
  const others = listed.map(({ slots }) => voltAmperes({ rating: saidOf(slots.rating?.[0]?.sense) }));
  const sum = [...list.map(({ load }) => voltAmperes(load)), ...others].reduce((total, each) => total + each, 0);
  const told = voltAmperes({ rating: saidOf(sense) });
  return told === sum
    ? "the list's own total, which its items add up to; the load is worked out here"
    : `a total of its own: the items told with a power add up to ${sum} VA, and the load is worked out here`;
}
const voltAmperes = ({ rating, count = 1 }: { rating?: Said | undefined; count?: number | undefined }): number => {
  const n = Number(rating?.value ?? 0) * count;
  return rating?.unit === "kW" || rating?.unit === "kVA"
    ? n * 1000
    : rating?.unit === "W" || rating?.unit === "VA"
    ? n
    : 0;
};

export function takeHeatPump(t: Taker, draft: Draft): void {
  for (const part of t.all("load", "compressor")) if (!part.slots.rating && !part.slots.current) t.head(part);
  if (t.said("motorWord:not-interlocked")) {
    t.said("motorWord:interlocked", "motorWord:locked-out", "motorWord:at-once");
    draft.compressorLockedOut = false;
  } else if (t.said("motorWord:interlocked", "motorWord:locked-out")) {
    t.said("motorWord:at-once");
    draft.compressorLockedOut = true;
  } else if (t.said("motorWord:at-once")) draft.compressorLockedOut = false;
}
