/** What a panel schedule takes of the facts: the supply, the circuits with their poles, what is told of the legs. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { type Leg, LEGS } from "./request.ts";

const POWERS = ["rating", "draw", "current", "nameplate", "full-load-current"];
const UNITS = ["VA", "kVA", "W", "kW", "A"];

/** The schedule is asked by name, or what comes back on the neutral of legs that are told. */
export function isScheduleAsked(t: Taker): boolean {
  if (t.wants("goal:panel-schedule")) return true;
  const isOfNeutral = t.wants("goal:neutral-current");
  const isOfLegs = t.facts.free.some(({ key }) => key.startsWith("leg:")) ||
    t.all("load").some(({ slots }) => slots.leg);
  return isOfNeutral && (isOfLegs || t.all("circuit", "multiwire").length > 0);
}

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
  if (t.wants("goal:panel-schedule")) takeCircuits(t, draft);
  else takeCurrents(t, draft);
  const spaces = t.free("spaces")[0]?.sense;
  if (spaces?.is === "number") draft.spaces = spaces.n;
  t.asks(
    "goal:panel-schedule",
    "goal:neutral-current",
    "label:neutral-load",
    "goal:check",
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
  t.said("connection:wye", "connection:four-wire", "connection:three-wire");
  const values = [
    ...t.facts.free.filter(({ key }) => key === "system" || key === "V" || key === "volts").map(({ value }) => value),
    ...t.all("load").flatMap(({ slots }) => slots.volts ?? []),
  ];
  for (const value of values) {
    t.use(value, "supply");
    const { sense } = value;
    const high = sense.is === "system" ? sense.high : sense.is === "quantity" || sense.is === "number" ? sense.n : 0;
    // A circuit's 120 V is the one of every such panel.
    if (high === 480 || high === 277) draft.system = "480Y/277";
    else if (high === 208) draft.system ??= "208Y/120";
    else if (high === 240 && !phases.has("three-phase")) draft.system ??= "120/240";
  }
  if (phases.has("three-phase")) draft.system ??= "208Y/120";
  else if (phases.has("single-phase")) draft.system ??= "120/240";
}

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

/** Each load is a circuit; so many of one are so many circuits. */
function takeCircuits(t: Taker, draft: Draft): void {
  const poles = polesOf(t);
  const circuits = t.all("load").flatMap((load): Draft[] => {
    const figure = figureOf(load);
    if (!figure) {
      if (Object.keys(load.slots).length === 0) t.head(load);
      return [];
    }
    t.head(load);
    t.use(figure.value, figure.slot);
    t.term(load, "hours");
    const own = poles.get(load);
    const leg = legOf(t, load);
    const name = nameOf(t, load);
    const count = t.number(load, "count") ?? 1;
    return Array.from({ length: count }, (_, i) => ({
      ...(name && { name: count > 1 ? `${name} ${i + 1}` : name }),
      ...(own && own > 1 && { poles: own }),
      load: figure.said,
      ...(leg && { leg }),
    }));
  });
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

const nameOf = (t: Taker, { id, said, slots }: Fact): string | undefined => {
  const words = slots.name?.[0];
  if (words?.sense.is === "words") {
    t.use(words, "name");
    return words.sense.words.toLowerCase();
  }
  return id === undefined || id === "load" ? undefined : said.toLowerCase();
};

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
  const [number] = t.facts.free.filter(({ key, value }) => key === "number" && (value.sense as { n: number }).n > 1);
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
