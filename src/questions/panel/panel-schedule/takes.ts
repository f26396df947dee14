/** What a panel schedule takes of the facts: the supply, the circuits with their poles, what is told of the legs. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { CATALOGUE, type LoadKind } from "../../../loads/catalogue.ts";
import { type Leg, LEGS } from "./request.ts";

const POWERS = ["rating", "draw", "current", "nameplate", "full-load-current"];
const UNITS = ["VA", "kVA", "W", "kW", "A"];

/** The schedule is asked by name, or what comes back on the neutral of legs that are told. */
function isScheduleAsked(t: Taker): boolean {
  if (isLaidOut(t) || t.wants("goal:leg-loads") || t.has("breakers") && t.has("spaces")) return true;
  const isOfNeutral = t.wants("goal:neutral-current", "label:neutral-load", "role:neutral") || t.has("neutral-load");
  const areLegsTold = t.has("on-leg") || t.facts.free.some(({ key }) => key.startsWith("leg:")) ||
    t.all("load").some(({ slots }) => slots.leg);
  return isOfNeutral && (areLegsTold || t.wants("goal:neutral-current") && t.all("circuit", "multiwire").length > 0);
}

/** `lay it out`, `put these on a panel balanced`. */
const isLaidOut = (t: Taker): boolean =>
  t.wants("goal:panel-schedule") ||
  t.has("circuit:balanced-neutral") && t.all("device", "panel", "subpanel").length > 0;

export function takes(t: Taker): Draft | undefined {
  if (!isScheduleAsked(t)) return undefined;
  const draft: Draft = {};
  takeSystem(t, draft);
  for (const panel of t.all("device", "panel", "subpanel", "main", "service")) {
    t.head(panel);
    for (const slot of ["rating", "current"]) {
      for (const value of panel.slots[slot] ?? []) t.aside(value, "what the panel is rated lands no circuit");
    }
  }
  const isOfNeutral = t.wants("goal:neutral-current", "label:neutral-load") || t.has("neutral-load") ||
    !(isLaidOut(t) || t.wants("goal:leg-loads"));
  takeBreakers(t, draft);
  if (!draft.breakers) {
    const arePowers = t.facts.free.some(({ value: { sense } }) => sense.is === "on-leg" && sense.unit !== "A") ||
      [...t.all("load"), ...t.all("circuit")].some(({ slots }) => slots.leg && slots.rating);
    if (isOfNeutral && !arePowers && !isLaidOut(t)) takeCurrents(t, draft);
    else takeCircuits(t, draft);
  }
  // `shouldn't the neutral read about 14`: what somebody expects of it.
  const bare = t.facts.free.filter(({ key }) => key === "number");
  if (draft.currents && t.wants("role:neutral") && bare.length === 1) {
    t.aside(bare[0]!.value, "what you expect of the neutral, to be held against what is worked out");
  }
  t.said("circuit:balanced-neutral", "panelKind:main", "circuit:segment", "label:draw");
  const spaces = t.free("spaces")[0]?.sense;
  if (spaces?.is === "spaces") draft.spaces = spaces.n;
  t.asks(
    "goal:panel-schedule",
    "goal:leg-loads",
    "goal:neutral-current",
    "label:neutral-load",
    "goal:check",
    "goal:fit",
    "goal:add-load",
    "goal:how-many",
    "goal:ampacity",
    "device:breaker",
    "role:neutral",
    "goal:load",
  );
  for (const wire of t.all("conductor", "ungrounded", "neutral", "wire").filter(({ slots }) => !slots.size)) {
    t.head(wire);
  }
  return draft;
}

function takeSystem(t: Taker, draft: Draft): void {
  const phases = new Set([...t.terms("phase"), ...t.all("load").map((load) => t.term(load, "phase"))]);
  t.said("connection:wye", "connection:four-wire", "connection:three-wire", "circuit:line-to-neutral");
  const values = [
    ...t.facts.free.filter(({ key }) => key === "system" || key === "V" || key === "volts").map(({ value }) => value),
    ...t.all("load").flatMap(({ slots }) => slots.volts ?? []),
  ];
  for (const value of values) {
    const { sense } = value;
    // A circuit's 120 V is the one of every such panel.
    if (sense.is === "quantity" && sense.n <= 125) {
      t.aside(value, "what a circuit of one pole has");
      continue;
    }
    t.use(value, "supply");
    const high = sense.is === "system" ? sense.high : sense.is === "quantity" || sense.is === "number" ? sense.n : 0;
    if (high === 480 || high === 277) draft.system = "480Y/277";
    else if (high === 208) draft.system ??= "208Y/120";
    else if (high === 240 && phases.has("three-phase")) {
      t.ask({
        field: "system",
        ask: "A three-phase panel of 240 V (delta, with a high leg) is not laid out here. Is it 208Y/120 V?",
        example: "208Y/120 V",
      });
    } else if (high === 240) draft.system ??= "120/240";
  }
  const areOnC = t.facts.free.some(({ value: { sense } }) => sense.is === "on-leg" && sense.leg === "C");
  if (areOnC) draft.system ??= "208Y/120";
  if (phases.has("three-phase")) draft.system ??= "208Y/120";
  else if (phases.has("single-phase")) draft.system ??= "120/240";
}

/** Where it stands in the text; what was told before stands before it. */
const placeOf = (fact: Fact): number => piecesOf(fact).length === 0 ? -1 : Math.min(...piecesOf(fact));
const figureOf = (fact: Fact): { slot: string; value: Value; said: Said } | undefined =>
  POWERS.flatMap((slot) => {
    const value = fact.slots[slot]?.[0];
    const said = saidOf(value?.sense);
    return value && said && UNITS.includes(said.unit) ? [{ slot, value, said }] : [];
  })[0];
const legOf = (t: Taker, fact: Fact): Leg | undefined => {
  const leg = t.term(fact, "leg");
  return LEGS.find((each) => each === leg);
};

/** `6 two-pole and 9 single-pole breakers in 20 spaces`: poles alone. */
function takeBreakers(t: Taker, draft: Draft): void {
  const breakers = t.free("breakers").flatMap(({ sense }) =>
    sense.is === "breakers" ? [{ poles: sense.poles, count: sense.n }] : []
  );
  if (breakers.length === 0) return;
  draft.breakers = breakers;
  for (const device of t.all("device", "breaker")) t.head(device);
}

/** Each load is a circuit; so many of one are so many circuits. */
function takeCircuits(t: Taker, draft: Draft): void {
  const poles = polesOf(t);
  // `laundry 1500 W`: a circuit told by its power.
  const byPower = t.all("circuit").filter((circuit) => (figureOf(circuit)?.said.unit ?? "A") !== "A");
  const inOrder = [...t.all("load"), ...byPower].sort((a, b) => placeOf(a) - placeOf(b));
  const circuits = inOrder.flatMap((load): Draft[] => {
    const figure = figureOf(load);
    if (!figure) {
      // `water heater went gas`: it has no circuit any more.
      const burns = load.slots.fuel && t.term(load, "fuel") === "gas";
      if (burns) {
        for (const value of Object.values(load.slots).flat()) t.aside(value, "it burns gas, and has no circuit here");
      }
      if (burns || Object.keys(load.slots).length === 0) t.head(load);
      return [];
    }
    t.head(load);
    t.use(figure.value, figure.slot);
    t.term(load, "hours");
    // `range 50 A two-pole 8 kW`: its breaker lands no load.
    for (const value of figure.slot === "current" ? [] : load.slots.current ?? []) {
      t.aside(value, "its breaker's rating lands no load");
    }
    const own = t.number(load, "poles") ?? poles.get(load) ?? usualPoles(t, load);
    const leg = legOf(t, load);
    const name = nameOf(t, load);
    const count = t.number(load, "count") ?? counted(t, load) ?? 1;
    return [{
      ...(name && { name }),
      ...(own && own > 1 && { poles: own }),
      ...(count > 1 && { count }),
      load: figure.said,
      ...(leg && { leg }),
    }];
  });
  for (const value of t.free("on-leg")) {
    const { sense } = value;
    if (sense.is === "on-leg" && sense.n > 0) {
      circuits.push({ name: `leg ${sense.leg}`, load: { value: sense.n, unit: sense.unit }, leg: sense.leg });
    }
  }
  if (circuits.length > 0) draft.circuits = circuits;
  for (const circuit of t.all("circuit", "circuit", "multiwire", "feeder")) {
    t.head(circuit);
    for (const each of circuit.slots.count ?? []) {
      const n = "n" in each.sense ? each.sense.n : undefined;
      if (n === undefined || n <= circuits.length) t.aside(each, "the circuits are listed");
    }
    for (const each of circuit.slots.volts ?? []) t.aside(each, "the panel's own volts");
  }
}

/** `12 circuits of 3 kVA`, `9 single-pole 1 kVA each`: how many there are of a load without a name. */
function counted(t: Taker, load: Fact): number | undefined {
  if (load.id !== undefined && load.id !== "load") return undefined;
  const isNumbered = ({ slots }: Fact) => {
    const name = slots.name?.[0]?.sense;
    return name?.is === "words" && name.words.startsWith("circuit ");
  };
  const alone = t.all("load").filter((each) =>
    (each.id === undefined || each.id === "load") && !each.slots.count && !isNumbered(each)
  );
  const first = Math.min(...piecesOf(load));
  const isBefore = ({ pieces }: Value) => pieces.every((at) => first - at > 0 && first - at <= COUNT_REACH);
  const values = [
    ...t.all("circuit").flatMap(({ slots }) => slots.count ?? []),
    ...t.facts.free.filter(({ key }) => key === "number" || key === "count").map(({ value }) => value),
  ];
  const value = values.find((each) => "n" in each.sense && isBefore(each));
  if (!value || !("n" in value.sense) || !Number.isInteger(value.sense.n)) return undefined;
  // `four circuits of 1700, 1500, 1300 and 900 VA`: as many as are told.
  if (value.sense.n === alone.length && alone.length > 1) return undefined;
  t.use(value, "count");
  return value.sense.n;
}
const COUNT_REACH = 3;

const nameOf = (t: Taker, fact: Fact): string | undefined => {
  const { id, said, slots } = fact;
  const words = slots.name?.[0];
  if (words?.sense.is === "words") {
    t.use(words, "name");
    return words.sense.words.toLowerCase();
  }
  if (id !== undefined && id !== "load") return said.toLowerCase();
  // `kitchen 1500 W`, `1500 W for the kitchen`: a load without a name is of the room beside it.
  const own = piecesOf(fact);
  const rooms = t.facts.free.filter(({ key, value }) =>
    NAMING.has(key.split(":")[0]!) && value.pieces.some((at) => own.some((piece) => Math.abs(piece - at) <= ROOM_REACH))
  );
  const [nearest] = rooms.sort((a, b) => a.value.pieces[0]! - b.value.pieces[0]!);
  if (!nearest) return undefined;
  for (const { key, value } of rooms) if (value.said === nearest.value.said) t.use(value, key);
  return nearest.value.said.toLowerCase();
};
const ROOM_REACH = 1;
const NAMING: ReadonlySet<string> = new Set(["room", "space", "place"]);
const piecesOf = (fact: Fact): number[] => [
  ...fact.pieces,
  ...POWERS.flatMap((slot) => fact.slots[slot] ?? []).flatMap(({ pieces }) => pieces),
];

/** A load that runs between the lines takes a space on each, told or not: by its volts, or by what it usually has. */
function usualPoles(t: Taker, load: Fact): 2 | 3 | undefined {
  const told = load.slots.volts?.[0]?.sense;
  const volts = told?.is === "quantity" || told?.is === "number" ? told.n : undefined;
  if (volts !== undefined) {
    if (!BETWEEN_LINES.has(volts)) return undefined;
    return load.slots.phase?.[0]?.sense.is === "term" && t.term(load, "phase") === "three-phase" ? 3 : 2;
  }
  return load.id !== undefined && load.id in CATALOGUE && CATALOGUE[load.id as LoadKind].volts === 240 ? 2 : undefined;
}
const BETWEEN_LINES: ReadonlySet<number> = new Set([208, 220, 230, 240, 480]);

/** `two-pole 4500 VA water heater`: a number of poles is of the load beside it, whatever took it. */
function polesOf(t: Taker): Map<Fact, number> {
  const values = [
    ...[...t.all("device"), ...t.all("circuit")].flatMap(({ slots }) => slots.poles ?? []),
    ...t.facts.free.filter(({ key }) => key === "poles").map(({ value }) => value),
  ];
  const found = new Map<Fact, number>();
  const loads = t.all("load").filter(figureOf);
  for (const value of values) {
    if (value.sense.is !== "poles") continue;
    t.use(value, "poles");
    const at = value.pieces[0];
    if (at === undefined) continue;
    const far = (load: Fact) =>
      Math.min(
        ...[...load.pieces, ...Object.values(load.slots).flat().flatMap(({ pieces }) => pieces)].map((p) =>
          Math.abs(p - at)
        ),
      );
    const [nearest] = loads.filter((load) => far(load) <= POLES_REACH).sort((a, b) => far(a) - far(b));
    if (nearest && value.sense.n > 1) found.set(nearest, value.sense.n);
  }
  return found;
}
const POLES_REACH = 2;

/** Amperes on legs; of two that share a neutral and were put on one leg both are on it. */
function takeCurrents(t: Taker, draft: Draft): void {
  const isOneLeg = t.said("leg:one");
  const open = t.terms("leg").filter((id): id is Leg => (LEGS as readonly string[]).includes(id));
  const currents: Draft[] = [];
  const put = (value: Value, leg: Leg | undefined) => {
    const { sense } = value;
    if (sense.is !== "quantity" || sense.unit !== "A") return;
    t.use(value, "current");
    // `10 A + 10 A`: each by itself.
    for (const part of sense.parts ?? [sense.n]) {
      currents.push({
        leg: isOneLeg ? "A" : leg ?? LEGS[currents.length % LEGS.length],
        current: { value: part, unit: "A" },
      });
    }
  };
  for (const value of t.free("on-leg")) {
    const { sense } = value;
    if (sense.is === "on-leg" && sense.n > 0) {
      currents.push({ leg: sense.leg, current: { value: sense.n, unit: sense.unit } });
    }
  }
  for (const fact of [...t.all("load"), ...t.all("circuit")]) {
    const figure = figureOf(fact);
    if (!figure || figure.said.unit !== "A") continue;
    t.head(fact);
    const leg = legOf(t, fact) ?? open.shift();
    const count = t.number(fact, "count") ?? 1;
    for (let i = 0; i < count; i++) put(figure.value, leg);
  }
  for (const { key, value } of t.facts.free) if (key === "neutral-load") put(value, open.shift());
  for (const fact of t.all("circuit")) t.head(fact);
  // `two 10 A circuits share a neutral`
  const [number] = t.facts.free.filter(({ key, value }) =>
    key === "number" && [2, 3].includes((value.sense as { n: number }).n)
  );
  if (number && currents.length === 1) {
    t.use(number.value, "count");
    const n = (number.value.sense as { n: number }).n;
    for (let i = 1; i < n; i++) currents.push({ ...currents[0]!, leg: isOneLeg ? "A" : LEGS[i % LEGS.length]! });
  }
  // `C is off`
  const off = t.facts.free.filter(({ key, value }) => key === "number" && (value.sense as { n: number }).n === 0);
  for (const { value } of off) t.aside(value, "a leg that carries nothing");
  if (currents.length > 0) draft.currents = currents;
}
