/** What a cooling unit's circuit takes of the facts: its nameplate, or its parts with their currents, and a plan to check. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { deviceRating } from "../../parts/device-takes.ts";
import { WHERE } from "../../parts/motor-goals-takes.ts";
import {
  isOfRunAlone,
  lines,
  POWER_GOALS,
  takeDropLimit,
  takeLength,
  takePowerFactor,
  takeWiring,
} from "../../parts/run-takes.ts";

const COMPRESSORS = ["compressor", "hermetic-compressor"];
const FANS = ["fan", "air-handler"];
const UNITS = ["air-conditioner", "heat-pump", "refrigeration"];
const HEAT = ["supplemental-heat", "space-heater", "furnace"];
const ROOM = "room-air-conditioner";
/** What shares a room unit's circuit. */
const SHARING = ["receptacles", "lighting", "load", "other"];
const PLATE = ["minimum-circuit-ampacity", "maximum-protection", "minimum-protection"] as const;
const PARTS = ["rated-load-current", "selection-current"];
const FIELDS = {
  "minimum-circuit-ampacity": "minimumCircuitAmpacity",
  "maximum-protection": "maximumProtection",
  "minimum-protection": "minimumProtection",
} as const;
const MARKED_FOR: Readonly<Record<string, string>> = {
  "maximum-fuse": "fuse",
  "maximum-fuse-or-breaker": "fuse or breaker",
};
type Entry = { count: number; ratedLoad?: Said; selection?: Said; current?: Said };

export function takes(t: Taker): Draft | undefined {
  if (["ft2", "m2"].some((key) => t.has(key)) || t.all("space").length > 0 || t.all("transformer").length > 0) {
    return undefined;
  }
  if (t.wants("goal:convert", "goal:longest-run", ...POWER_GOALS)) return undefined;
  if (isOfRunAlone(t) && lines(t).some(({ slots }) => slots.size)) return undefined;
  const loads = t.all("load");
  const isPlate = loads.some(({ slots }) => [...PLATE, ...PARTS].some((slot) => slots[slot]));
  const room = loads.some(({ id }) => id === ROOM);
  const isHermetic = loads.some((load) =>
    UNITS.includes(load.id ?? "") || load.id === "hermetic-compressor" || (load.id === "compressor" && currentOf(load))
  );
  if (!(isPlate || room || isHermetic)) return undefined;
  if (loads.some((load) => !isPart(load, room) && isRated(load))) return undefined;
  const draft: Draft = {};
  takePlate(t, draft);
  if (room && !draft.minimumCircuitAmpacity) takeRoom(t, draft);
  takeParts(t, draft);
  takeHeat(t, draft);
  takeSupplyVolts(t, draft);
  takeDevices(t, draft);
  takeConductor(t, draft);
  Object.assign(draft, takeWiring(t));
  const length = takeLength(t);
  if (length) draft.length = length;
  const limit = t.has("drop") ? takeDropLimit(t, "%") : undefined;
  if (limit) draft.dropLimit = limit;
  const percent = t.loose("%");
  if (percent) draft.percent = percent;
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
  t.said(...WHERE);
  t.asks(
    ...["device:breaker", "device:fuse", "device:disconnect", "device:panel", "role:wire", "role:equipment-ground"],
    ...[
      "goal:size",
      "circuit:circuit",
      "label:minimum-circuit-ampacity",
      "label:maximum-protection",
      "label:maximum-fuse",
      "label:nameplate",
    ],
    ...["label:rated-load-current", "motorWord:alone", "motorWord:largest"],
  );
  if (draft.breakers ?? draft.fuses ?? draft.disconnect ?? draft.size) t.asks("goal:check", "change:or");
  if (draft.length) t.asks("label:drop", "goal:drop");
  return draft;
}

const currentOf = ({ slots }: Fact): Value | undefined =>
  (slots["full-load-current"] ?? slots.current ?? slots.draw ?? slots.nameplate)?.[0];
const isRated = (load: Fact): boolean => Boolean(load.slots.rating ?? currentOf(load));
const isPart = ({ id, slots }: Fact, room: boolean): boolean =>
  [...COMPRESSORS, ...FANS, ...UNITS, ...HEAT, ROOM].includes(id ?? "") || (room && SHARING.includes(id ?? "")) ||
  ((id === undefined || id === "motor" || id === "load") && !slots.rating) ||
  [...PLATE, ...PARTS].some((slot) => slots[slot]);

const amperes = (t: Taker, load: Fact, slot: string): Said | undefined => {
  const n = load.slots[slot] && t.number(load, slot);
  return n === undefined ? undefined : { value: n, unit: "A" };
};

/** The marked figures of the unit. A second, different one is another unit's. */
function takePlate(t: Taker, draft: Draft): void {
  for (const slot of PLATE) {
    const field = FIELDS[slot];
    for (const load of t.all("load")) {
      const said = amperes(t, load, slot);
      if (!said) continue;
      t.head(load);
      const before = draft[field] as Said | undefined;
      if (before && before.value !== said.value) {
        t.ask({
          field,
          ask:
            `There are two figures, ${before.value} A and ${said.value} A: each unit has a circuit of its own. Which one is asked for?`,
          example: "MCA 23 A, max overcurrent 40 A",
        });
      }
      draft[field] = said;
      const marked = MARKED_FOR[load.slots[slot]![0]!.label ?? ""];
      if (marked) draft.markedFor = marked;
    }
  }
}

/** A cord-and-plug unit, and whether anything else is on its circuit. */
function takeRoom(t: Taker, draft: Draft): void {
  draft.room = "not told";
  for (const load of t.all("load")) {
    if (load.id === ROOM) {
      t.head(load);
      const current = takeCurrent(t, load);
      if (current) draft.unitCurrent = current;
    } else if (SHARING.includes(load.id ?? "") && !isRated(load)) {
      t.head(load);
      draft.room = "shared";
    }
  }
  if (t.said("motorWord:shared")) draft.room = "shared";
  if (draft.room !== "shared" && (t.said("motorWord:alone") || isAlone(t))) draft.room = "alone";
}
const isAlone = (t: Taker): boolean => t.all("circuit").some(({ others }) => others?.includes("motorWord:alone"));
const takeCurrent = (t: Taker, load: Fact): Said | undefined =>
  ["full-load-current", "nameplate", "draw", "current"].map((slot) => amperes(t, load, slot)).find(Boolean);

/** Compressors and fans with their currents; what a name without a figure belongs to is asked about by the answer. */
function takeParts(t: Taker, draft: Draft): void {
  const compressors: Entry[] = [];
  const fans: Entry[] = [];
  let bare: Said | undefined;
  for (const load of t.all("load")) {
    const id = load.id ?? "";
    const ratedLoad = amperes(t, load, "rated-load-current");
    const selection = amperes(t, load, "selection-current");
    const isCompressor = COMPRESSORS.includes(id);
    if (isCompressor || ratedLoad || selection) {
      const count = FANS.includes(id) ? 1 : t.number(load, "count") ?? 1;
      const own = isCompressor && !ratedLoad ? takeCurrent(t, load) : undefined;
      if (isCompressor) t.head(load);
      const current = ratedLoad ?? own;
      if (current || selection || load.slots.rating) {
        compressors.push({ count, ...(current && { ratedLoad: current }), ...(selection && { selection }) });
      }
    }
    if (FANS.includes(id) || (id === "motor" && isRated(load)) || ((ratedLoad ?? selection) && !isCompressor)) {
      const current = takeCurrent(t, load);
      if (FANS.includes(id) || id === "motor") t.head(load);
      if (current || (FANS.includes(id) && !draft.minimumCircuitAmpacity)) {
        fans.push({ count: FANS.includes(id) ? t.number(load, "count") ?? 1 : 1, ...(current && { current }) });
      }
    } else if (id === "" && !ratedLoad && isRated(load)) bare ??= takeCurrent(t, load);
    if (UNITS.includes(id)) takeUnit(t, load, draft);
    setAside(t, load, draft, ratedLoad !== undefined);
  }
  joinSelection(compressors);
  if (compressors.length > 0) draft.compressors = compressors;
  if (fans.length > 0 && (compressors.length > 0 || !draft.minimumCircuitAmpacity)) draft.fans = fans;
  if (bare && !draft.unitCurrent) draft.unitCurrent = bare;
  takeCapacity(t, draft);
  if (t.said("motorWord:hard-starting")) draft.hardStarting = true;
}
/** A selection current told apart belongs to the compressor without one. */
function joinSelection(compressors: Entry[]): void {
  const alone = compressors.findIndex(({ ratedLoad, selection }) => selection && !ratedLoad);
  const open = compressors.find(({ ratedLoad, selection }) => ratedLoad && !selection);
  if (alone < 0 || !open) return;
  open.selection = compressors[alone]!.selection!;
  compressors.splice(alone, 1);
}
function takeUnit(t: Taker, load: Fact, draft: Draft): void {
  t.head(load);
  const count = t.number(load, "count");
  const current = load.slots["rated-load-current"] ? undefined : takeCurrent(t, load);
  if (current) draft.unitCurrent = current;
  if (count === undefined || count < 2 || !draft.minimumCircuitAmpacity) return;
  if (t.said("motorWord:one-branch")) {
    t.ask({
      field: "units",
      ask:
        "Each nameplate is for a circuit of its own. What are the compressor and fan currents of the units that share one?",
      example: "two compressors RLA 14 A each, two fans 1 A each",
    });
  }
  t.note("each unit has a circuit of its own: this is one of them");
}
/** What stands on the nameplate and changes nothing. */
function setAside(t: Taker, load: Fact, draft: Draft, isRatedLoad: boolean): void {
  const locked = load.slots["locked-rotor-current"]?.[0];
  if (locked) t.aside(locked, "the device's percentage covers the start");
  const power = load.slots.rating?.[0];
  const isPart = [...COMPRESSORS, ...FANS, ...UNITS].includes(load.id ?? "");
  if (power && isPart) {
    t.aside(power, "only the nameplate's amperes count");
    t.head(load);
  }
  for (const slot of ["service-factor", "speed", "efficiency", "frequency", "motorType"]) {
    const value = load.slots[slot]?.[0];
    if (value && (isRatedLoad || isPart || draft.minimumCircuitAmpacity)) {
      t.aside(value, "only the nameplate's amperes count");
    }
  }
}
/** Tons and BTU/h: asked about where they are all there is, of no account beside a nameplate. */
function takeCapacity(t: Taker, draft: Draft): void {
  const values = [
    ...t.all("load").flatMap(({ slots }) => slots.capacity ?? []),
    ...t.facts.free.filter(({ key }) => key === "ton" || key === "BTU/h").map(({ value }) => value),
  ];
  const isTold = draft.minimumCircuitAmpacity ?? draft.compressors ?? draft.unitCurrent ?? draft.maximumProtection;
  for (const value of values) {
    if (isTold) t.aside(value, "only the nameplate's amperes count");
    else if (value.sense.is === "quantity") {
      for (const load of t.all("load")) t.slot(load, "capacity");
      t.free(value.sense.unit);
      draft.capacity = { value: value.sense.n, unit: value.sense.unit };
    }
  }
}

/** Electric heat: on the same circuit only where that is said. */
function takeHeat(t: Taker, draft: Draft): void {
  const interlocked = t.said("motorWord:interlocked", "motorWord:locked-out");
  t.said("motorWord:not-interlocked");
  const heat = t.all("load", ...HEAT).find(isRated);
  const together = t.said("motorWord:one-branch", "motorWord:packaged") ||
    t.all("load").some(({ others }) => others?.includes("motorWord:packaged"));
  for (const plain of t.all("load", ...HEAT).filter((load) => load !== heat)) t.head(plain);
  if (interlocked && !draft.minimumCircuitAmpacity) draft.interlocked = true;
  if (!heat) return;
  t.head(heat);
  const value = heat.slots.rating?.[0] ?? currentOf(heat)!;
  if (draft.minimumCircuitAmpacity) {
    t.aside(value, "the marked circuit ampacity has it in it already, or it has a circuit of its own");
    return;
  }
  // An air handler's heat says nothing of the outdoor unit that was asked for.
  if (!draft.compressors && (draft.capacity || t.all("load", ...UNITS).length > 0)) {
    t.aside(value, "the heat has a circuit of its own");
    return;
  }
  if (draft.compressors && !together) {
    t.ask({
      field: "heat",
      ask:
        "Is the electric heat on the same circuit as the compressor (a packaged unit), or does it have its own? Each circuit is asked for by itself.",
      example: "compressor 20 A, fan 2.5 A and 10 kW heat on the same circuit",
    });
  }
  draft.heat = t.figure(heat, "rating", "kW", "W") ?? takeCurrent(t, heat);
}

/** A pair of voltages is what the unit is made for, not what it is on. */
function takeSupplyVolts(t: Taker, draft: Draft): void {
  const loads = t.all("load");
  const values = [...loads.flatMap(({ slots }) => slots.volts ?? []), ...["V", "volts", "system"].flatMap(t.free)];
  for (const load of loads) t.slot(load, "volts");
  for (const { sense } of values) {
    if (sense.is === "quantity" || sense.is === "number") draft.volts = { value: sense.n, unit: "V" };
    if (sense.is !== "system") continue;
    if (sense.wye || sense.low === 120) draft.volts ??= { value: sense.high, unit: "V" };
    else t.note(`${sense.low} to ${sense.high} V: either supply, so no voltage is taken from it`);
  }
  for (const id of [...loads.map((load) => t.term(load, "phase")), ...t.terms("phase")]) {
    if (id === "three-phase") draft.phases = 3;
    if (id === "single-phase") draft.phases = 1;
  }
  for (const value of [...t.free("Hz"), ...t.free("frequency")]) t.aside(value, "it changes no size");
}

const isFused = (t: Taker): boolean =>
  t.all("load").some(({ slots }) => slots["maximum-protection"]?.some(({ label }) => label === "maximum-fuse"));
function takeDevices(t: Taker, draft: Draft): void {
  const breakers: Said[] = [];
  const fuses: Said[] = [];
  for (const device of t.all("device")) {
    const into = device.id === "breaker"
      ? breakers
      : ["fuse", "dual-element-fuse", "nontime-delay-fuse"].includes(device.id ?? "")
      ? fuses
      : undefined;
    const choice = device.slots.rating?.[0]?.sense;
    if (into && choice?.is === "choice") {
      t.slot(device, "rating");
      into.push(...choice.of.map((value) => ({ value, unit: choice.unit })));
      t.head(device);
      continue;
    }
    if (!into && device.id !== "disconnect") continue;
    const rating = deviceRating(t, device);
    t.head(device);
    t.slot(device, "poles");
    if (!rating) continue;
    // `max fuse 30, #10 ok on a 30?`: a bare number is what the nameplate names.
    const isOfPlate = device.others?.includes("implied") && isFused(t);
    if (into) (isOfPlate ? fuses : into).push(rating);
    else draft.disconnect = rating;
  }
  for (const circuit of t.all("circuit", "circuit")) {
    t.head(circuit);
    const rating = t.figure(circuit, "rating", "A");
    if (rating) breakers.push(rating);
  }
  for (const panel of t.all("device", "panel", "subpanel", "main", "service")) {
    t.aside(panel, "it sizes nothing here");
    for (const values of Object.values(panel.slots)) {
      for (const value of values) t.aside(value, "the panel's own rating does not size this circuit");
    }
  }
  if (draft.hardStarting && !t.wants("goal:check")) {
    for (const { value } of [...breakers, ...fuses]) t.note(`${value} A is what it was tried on`);
    return;
  }
  if (breakers.length > 0) draft.breakers = breakers;
  if (fuses.length > 0) draft.fuses = fuses;
}

function takeConductor(t: Taker, draft: Draft): void {
  for (const fact of lines(t)) {
    const sense = fact.slots.size?.[0]?.sense;
    const size = sense?.is === "size" || sense?.is === "cable" ? sense.size : undefined;
    if (size === undefined || (draft.size !== undefined && draft.size !== size)) continue;
    t.slot(fact, "size");
    t.head(fact);
    draft.size = size;
  }
}
