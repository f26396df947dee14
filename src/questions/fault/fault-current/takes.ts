/** What an available fault current takes of the facts: the source, the run with its points, the rating put up. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { isOnThinWire } from "../../parts/run-takes.ts";
import { takeRunOfFault } from "./takes-run.ts";
import { type System, SYSTEMS } from "./request.ts";

const TRANSFORMERS = ["transformer"];
/** Both voltages of each system: told again beside it, they say nothing more. */
const VOLTS_OF: Readonly<Record<System, readonly number[]>> = {
  "120/240": [120, 240],
  "208Y/120": [120, 208],
  "480Y/277": [277, 480],
  "600Y/347": [347, 600],
};
/** What is worked out with it, asked or not. */
const ANSWERED = [
  "goal:fault",
  "goal:fault-current",
  "goal:fault-path",
  "goal:check",
  "goal:current",
  "goal:ampacity",
  "goal:size",
  "label:interrupting-rating",
  "label:available-fault-current",
  "label:full-load-current",
  "label:terminals",
  "device:breaker",
  "device:main",
  "device:panel",
];
/** Ratings that are spoken of as so many thousand amperes. */
const RATINGS = [10, 14, 18, 22, 25, 30, 35, 42, 50, 65, 85, 100, 125, 150, 200];
/** Amperes without a name from here on are no load's. */
const LEAST_FAULT = 1000;
const LARGEST_DEVICE = 6000;

export function takes(t: Taker): Draft | undefined {
  if (!isAsked(t)) return undefined;
  const draft: Draft = {};
  takeTransformer(t, draft);
  takeVolts(t, draft);
  takeKinds(t, draft);
  takeRunOfFault(t, draft);
  takeCurrents(t, draft);
  takeMotors(t, draft);
  if (t.said("fault:series-rated")) takeSeries(t, draft);
  if (t.wants("goal:check") && draft.rating === undefined) {
    t.ask({
      field: "rating",
      ask: "Which interrupting rating is to be checked, in kA?",
      example: "is 10 kAIC enough?",
    });
  }
  for (const fact of t.all("device")) {
    t.head(fact);
    const beyond = beyondDevices(t).map(({ value }) => value);
    for (const value of Object.values(fact.slots).flat()) {
      if (!beyond.includes(value)) t.aside(value, "what a device carries changes no fault current");
    }
  }
  for (const fact of t.all("circuit", "feeder", "circuit")) t.head(fact);
  t.asks(...ANSWERED);
  t.said("source:busbar", "label:bus");
  t.terms("end");
  // `the drop is 85 ft of 2/0`: a service drop.
  t.said("label:drop");
  t.said("label:nameplate", "motorWord:alone", "label:impedance", "motorWord:secondary", "role:neutral");
  return draft;
}

/** `series rated 10k breaker on 22k`: of two the lower is the rating, for what covers the current needs no combination. */
function takeSeries(t: Taker, draft: Draft): void {
  draft.series = true;
  const [source, rating] = [draft.source, draft.rating] as (Said | undefined)[];
  const isNamed = t.has("interrupting-rating") || t.has("available-fault-current");
  if (!source || !rating || isNamed || amperesOf(source) >= amperesOf(rating)) return;
  Object.assign(draft, { source: rating, rating: source });
  t.note(`took ${rating.value} ${rating.unit} as available`);
}
const amperesOf = ({ value, unit }: Said): number => Number(value) * (unit === "kA" ? 1000 : 1);

/** A fault current, an interrupting rating, or a transformer with its impedance and a run behind it. */
function isAsked(t: Taker): boolean {
  // `what can it put into a dead short`: of a transformer it is its current that is asked.
  const isOfPath = t.wants("goal:fault-path") && !(t.wants("goal:fault-current") && powersOf(t).length > 0);
  // A wire that is asked for is a circuit's, of whose source the fault current is told.
  if (t.wants("role:wire") && t.all("conductor").every(({ slots }) => !slots.size && !slots.length)) return false;
  if (isOfPath || t.wants("goal:drop") || t.has("drop") || t.has("ft2")) return false;
  const told = [
    "interrupting-rating",
    "available-fault-current",
    "label:interrupting-rating",
    "label:available-fault-current",
    "kA",
  ];
  const isOfSource = powersOf(t).length > 0 || told.some(t.has) || beyondDevices(t).length > 0;
  const isLabel = t.facts.free.some(({ value: { sense } }) => sense.is === "section" && sense.section === "110.24");
  // A source that is infinite, a transformer and a length of wire.
  if (t.has("fault:infinite-bus") && powersOf(t).length > 0) return true;
  if (t.wants("goal:fault") && isOfSource || isLabel && powersOf(t).length > 0) return true;
  if (t.wants("goal:fault-current") || told.some(t.has) || beyondDevices(t).length > 0) return true;
  // An impedance is of no use to any other question.
  if (t.has("impedance") && powersOf(t).length > 0 && t.wants("goal:check")) return true;
  if (["fault:three-phase", "fault:line-to-line", "fault:line-to-neutral"].some(t.has)) return true;
  return (t.has("impedance") || t.has("reactance-ratio")) && powersOf(t).length > 0 &&
    t.all("conductor").some(({ slots }) => slots.length) &&
    !t.has("windings") && t.all("device").every(({ slots }) => !slots.end);
}

/** Amperes that no device is made for, or none on the wires that are told, wherever they stand. */
const beyondDevices = (t: Taker): { fact: Fact; value: Value }[] => {
  const largest = isOnThinWire(t) ? LEAST_FAULT : LARGEST_DEVICE;
  return [...t.all("device"), ...t.all("load"), ...t.all("circuit")].flatMap((fact) =>
    [...fact.slots.rating ?? [], ...fact.slots.current ?? []].filter(({ sense }) =>
      sense.is === "quantity" && sense.unit === "A" &&
      sense.n > (PROTECTING.includes(fact.id ?? "") ? LARGEST_DEVICE : largest)
    ).map((value) => ({ fact, value }))
  );
};

/** What is called a breaker or a fuse is one, whatever its amperes. */
const PROTECTING = ["breaker", "fuse", "dual-element-fuse", "nontime-delay-fuse", "disconnect"];
const APPARENT = ["VA", "kVA", "MVA"];
/** Apparent powers, wherever they stand. */
const powersOf = (t: Taker): { fact: Fact; value: Value }[] =>
  [...t.all("transformer", ...TRANSFORMERS), ...t.all("load")].flatMap((fact) =>
    (fact.slots.rating ?? []).filter(({ sense }) => sense.is === "quantity" && APPARENT.includes(sense.unit))
      .map((value) => ({ fact, value }))
  );

function takeTransformer(t: Taker, draft: Draft): void {
  for (const fact of t.all("transformer", ...TRANSFORMERS)) t.head(fact);
  for (const { fact, value } of powersOf(t)) {
    t.head(fact);
    t.use(value, "transformer");
    for (const name of fact.slots.name ?? []) t.use(name, "transformer");
    const said = saidOf(value.sense)!;
    // `500 MVA at the primary`: what the utility can deliver there.
    if (draft.power !== undefined && said.unit === "MVA") draft.primaryFault = said;
    else draft.power ??= said;
  }
  for (const { sense } of t.free("impedance")) {
    const said = saidOf(sense);
    if (sense.is === "number") draft.impedance = { value: sense.n, unit: "%" };
    else if (said?.unit === "%") draft.impedance = said;
  }
  if (draft.power && draft.impedance === undefined) {
    const share = t.loose("%");
    if (share) draft.impedance = share;
  }
  const [tolerance] = t.free("tolerance");
  if (tolerance) draft.tolerance = saidOf(tolerance.sense);
  if (t.said("fault:no-tolerance")) draft.tolerance = { value: 0, unit: "%" };
  for (const { sense } of t.free("reactance-ratio")) {
    if (sense.is === "number") draft.ratio = sense.n;
  }
  for (const value of t.free("fault:infinite-bus")) t.aside(value, "so taken where nothing else is told");
  for (const { sense } of t.free("conductor-temperature")) {
    draft.temperature = { value: (sense as { n: number }).n, unit: "°C" };
  }
  for (const fact of t.all("conductor")) {
    const value = t.slot(fact, "temperature");
    if (value) draft.temperature = saidOf(value.sense);
  }
}

/** Line to line, from a system, a winding or a voltage; of two windings the secondary. */
function takeVolts(t: Taker, draft: Draft): void {
  const values = [
    ...t.facts.free.filter(({ key }) =>
      ["V", "kV", "volts", "system", "nominal-volts", "windings", "winding"].includes(key)
    )
      .map(({ value }) => value),
    ...[...t.all("transformer"), ...t.all("load")].flatMap(({ slots }) => [
      ...slots.volts ?? [],
      ...slots.windings ?? [],
    ]),
  ];
  const told: Said[] = [];
  const place = (n: number, unit: string, low: number | undefined) => {
    const system = low === undefined
      ? undefined
      : SYSTEMS.find((each) => each === `${low}/${n}` || each === `${n}Y/${low}`);
    if (system) draft.system = system;
    else if (unit === "kV" || n > 1000) draft.primary ??= { value: n, unit };
    else told.push({ value: n, unit: "V" });
  };
  for (const value of values) {
    t.use(value, "voltage");
    const { sense } = value;
    if (sense.is === "windings") {
      place(sense.secondary.n, sense.secondary.unit, sense.secondary.low);
      takePhase(draft, sense.secondary.phases);
      if (sense.primary.unit === "kV" || sense.primary.n > 0) {
        draft.primary ??= { value: sense.primary.n, unit: sense.primary.unit };
      }
    } else if (sense.is === "winding" && sense.side === "primary") {
      draft.primary = { value: sense.winding.n, unit: sense.winding.unit };
    } else if (sense.is === "winding") {
      place(sense.winding.n, sense.winding.unit, sense.winding.low);
      takePhase(draft, sense.winding.phases);
    } else if (sense.is === "system") place(sense.high, "V", sense.low);
    else if (sense.is === "quantity") place(sense.n, sense.unit, undefined);
    else if (sense.is === "number") place(sense.n, "V", undefined);
  }
  // Of several the secondary is the lower one; beside a system its own voltage says nothing more.
  const lowest = told.toSorted((a, b) => Number(a.value) - Number(b.value));
  const ofSystem = VOLTS_OF[draft.system as System] ?? [];
  const others = lowest.filter(({ value }) => !ofSystem.includes(Number(value)));
  if (draft.system === undefined && others.length > 0) draft.volts = others[0];
  if (draft.system === undefined && others.length > 1) draft.primary ??= others.at(-1);
  if (draft.system !== undefined && others.length > 0) draft.primary ??= others.at(-1);
  const phases = [
    ...[...t.all("load"), ...t.all("transformer")].map((fact) => t.term(fact, "phase")),
    ...t.terms("phase"),
  ];
  if (phases.includes("three-phase")) draft.phases = 3;
  else if (phases.includes("single-phase")) draft.phases = 1;
  if (t.said("connection:wye", "connection:four-wire", "connection:delta") && draft.phases === undefined) {
    draft.phases = 3;
  }
  t.said("connection:three-wire");
}
function takePhase(draft: Draft, phases: 1 | 3 | undefined): void {
  if (phases !== undefined) draft.phases ??= phases;
}

function takeKinds(t: Taker, draft: Draft): void {
  if (t.said("fault:three-phase")) draft.fault = "three-phase";
  if (t.said("fault:line-to-line", "circuit:line-to-line")) draft.fault = "line-to-line";
  if (t.said("fault:line-to-neutral", "circuit:line-to-neutral")) draft.fault = "line-to-neutral";
}

/** What is available at the start, and what was put up: a rating by its label, a current by its own or by its size. */
function takeCurrents(t: Taker, draft: Draft): void {
  const isRun = draft.run !== undefined;
  const source = (said: Said) => {
    if (said.unit === "MVA") draft.primaryFault ??= said;
    else if (draft.power !== undefined) ofPrimary(t, draft, said);
    else if (draft.source === undefined) draft.source = said;
    else if (inA(said) !== inA(draft.source as Said)) askWhich(t, draft.source as Said, said);
  };
  for (const value of t.free("available-fault-current")) {
    source(saidOf(value.sense) ?? { value: (value.sense as { n: number }).n, unit: "A" });
  }
  const labelled = t.free("interrupting-rating").map(({ sense }) =>
    saidOf(sense) ?? inAmperes((sense as { n: number }).n)
  );
  const bare = beyondDevices(t).map(({ fact, value }) => {
    t.head(fact);
    t.use(value, "fault current");
    return saidOf(value.sense)!;
  });
  bare.push(...t.free("kA").map(({ sense }) => saidOf(sense)!));
  for (const load of t.all("load")) {
    const value = [...load.slots.current ?? [], ...load.slots.rating ?? []].find(({ sense }) =>
      sense.is === "quantity"
    );
    const said = value && saidOf(value.sense);
    if (load.id !== undefined || !said) continue;
    if (said.unit === "A" && Number(said.value) >= LEAST_FAULT && Number(said.value) <= LARGEST_DEVICE) {
      t.use(value!, "fault current");
      bare.push(said);
    } else if (said.unit === "kW" && RATINGS.includes(Number(said.value))) {
      t.head(load);
      t.use(value!, "interrupting rating");
      t.note(`took ${value!.said} as ${said.value} kA`);
      labelled.push({ value: said.value, unit: "kA" });
    }
  }
  // A number by itself that only a fault current can be.
  for (const { value, key } of t.facts.free) {
    if (key !== "number" || value.sense.is !== "number" || value.sense.n < LEAST_FAULT) continue;
    t.use(value, "fault current");
    t.note(`took ${value.said} as ${value.said} A`);
    bare.push({ value: value.sense.n, unit: "A" });
  }
  for (const said of bare) {
    const isSource = draft.source === undefined && draft.power === undefined;
    if (isSource) source(said);
    else draft.rating ??= said;
  }
  for (const said of labelled) {
    // `the AIC at the transformer is 22 kA`: with a run and nothing else to start from it is what is available.
    if (draft.source === undefined && draft.power === undefined && isRun) draft.source = said;
    else draft.rating ??= said;
  }
}
const inA = ({ value, unit }: Said): number => Number(value) * (unit === "kA" ? 1000 : 1);
/** Beside a transformer a current is what its primary has, where a primary is spoken of, or else a rating put up. */
function ofPrimary(t: Taker, draft: Draft, said: Said): void {
  if (draft.primary !== undefined || t.has("end:primary")) draft.primaryFault ??= said;
  else if (t.wants("goal:check")) draft.rating ??= said;
  else {
    t.ask({
      field: "primaryFault",
      ask:
        `What is ${said.value} ${said.unit}: available at the transformer's primary, or a rating put up for checking?`,
      example: `is ${said.value} ${said.unit} enough?`,
    });
  }
}
const askWhich = (t: Taker, one: Said, other: Said): void =>
  t.ask({
    field: "source",
    ask:
      `${one.value} ${one.unit} and ${other.value} ${other.unit}: which of them is available at the start of the run?`,
    example: `${other.value} ${other.unit} available`,
  });
const inAmperes = (n: number): Said => n >= LEAST_FAULT ? { value: n, unit: "A" } : { value: n, unit: "kA" };

function takeMotors(t: Taker, draft: Draft): void {
  for (const motor of t.all("load", "motor", "pump", "fan")) {
    t.head(motor);
    const said = t.figure(motor, "current", "A") ?? t.figure(motor, "full-load-current", "A");
    const count = t.number(motor, "count") ?? 1;
    if (said) draft.motors = { value: Number(said.value) * count, unit: "A" };
    else if (t.figure(motor, "rating", "hp")) {
      t.ask({
        field: "motors",
        ask: "What is the full-load current of the motors that run, all together?",
        example: "motor load 200 A",
      });
    }
  }
}
