/** What a box takes of the facts: its size, the conductors and cables in it, what else is counted, what is pulled through. */
import type { Draft, Fact, Value } from "../../../reading/facts.ts";
import { TAKEN_BACK, type Taker } from "../../../reading/take.ts";
import { tradeSize } from "../../parts/sizes.ts";
import { ACROSS, DEPTHS, SHAPES } from "./request.ts";

const PULLS: Readonly<Record<string, string>> = { "straight-pull": "straight", "angle-pull": "angle", "u-pull": "U" };
/** Loads that stand in a box as devices. */
const DEVICES = ["receptacles"];

/** Machines and appliances that hang on a box: their wires are counted. */
const isHung = ({ id, slots }: Fact): boolean =>
  id !== undefined && id !== "load" && !DEVICES.includes(id) && !slots.rating && !slots.current && !slots.draw;
/** Amperes by themselves or of a receptacle say which device it is. */
const isOfDevice = ({ id, slots }: Fact): boolean =>
  (id === undefined || id === "lighting" || DEVICES.includes(id)) && !slots.rating &&
  (slots.current ?? []).every(({ sense }) => sense.is === "quantity" && sense.n <= LARGEST_RECEPTACLE);
const LARGEST_RECEPTACLE = 60;
/** A receptacle from here on is wider than one gang (common practice, no source). */
const WIDE_RECEPTACLE = 50;
const isPlain = ({ slots }: Fact): boolean => Object.keys(slots).length === 0;
const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;
const hasSize = (t: Taker): boolean => t.all("conductor").some(({ slots }) => slots.size);
const isPull = (t: Taker): boolean => t.has("box:pull-box") || Object.keys(PULLS).some((id) => t.has(`boxWord:${id}`));

/** How long conductors are left in a box, and not what else it holds. */
const isFree = (t: Taker): boolean =>
  t.wants("goal:free-length") && !isPull(t) && !t.wants("goal:box-fill", "goal:fit") &&
  !t.all("load").some(isRated) && !["ft", "m", "yd", "length"].some(t.has);

/** What a box holds: asked outright, or wires and devices told to lie in one. */
function isAsked(t: Taker): boolean {
  if (t.wants("goal:box-fill") || isPull(t) || isFree(t)) return true;
  const isBox = t.has("box") || t.has("box:box") || t.has("in3");
  const hasParts = t.all("box").length > 0 || t.has("in3") || t.has("boxWord:spliced");
  const isOfCircuit = (!hasParts && t.wants("role:wire")) ||
    t.wants("device:breaker", "goal:drop", "label:drop", "goal:longest-run", "goal:ampacity") ||
    t.wants("role:grounding-electrode-conductor", "role:main-bonding-jumper");
  const isLoaded = t.all("load").some((load) => isRated(load) && !((hasParts || t.has("box")) && isOfDevice(load)));
  if (!isBox || isLoaded || ["ft", "m", "yd", "length"].some(t.has)) return false;
  return t.has("in3") || t.wants("goal:fit") || t.has("boxWord:too-full") ||
    (hasSize(t) && !isOfCircuit && !t.all("device").some(isRated));
}

export function takes(t: Taker): Draft | undefined {
  if (!isAsked(t)) return undefined;
  const draft: Draft = {};
  if (isFree(t)) return takeFree(t);
  takeBox(t, draft);
  if (isPull(t)) takePull(t, draft);
  else {
    takeConductors(t, draft);
    takeParts(t, draft);
    takeOpen(t, draft);
  }
  const isChecked = t.wants("goal:check") || t.has("boxWord:too-full") || (t.wants("goal:fit") && !draft.find);
  const told = draft.box as Draft | undefined;
  if (isChecked && told && !told.volume && !told.depth && !draft.pull) draft.check = true;
  t.asks("goal:box-fill", "goal:fit", "goal:check", "goal:size", "goal:how-many", "boxWord:too-full");
  t.asks("goal:raceway-size", "goal:add-load", "label:area", "label:draw");
  t.said("label:available-fault-current", "label:rated", "label:speed", "connector:wide slot", "connection:four-wire");
  t.said("end:from", "end:feeds", "circuit:of-which", "motorWord:alone", "place:wet");
  for (const circuit of t.all("circuit", "circuit")) {
    t.head(circuit);
    for (const value of circuit.slots.rating ?? []) t.aside(value, "a box counts conductors by their size");
    const isTold = t.all("conductor").some(({ slots }) => slots.size && slots.count);
    for (const value of isTold ? circuit.slots.count ?? [] : []) t.aside(value, "the conductors are told");
  }
  for (const panel of t.all("device").filter(({ slots }) => !slots.rating)) t.head(panel);
  for (const id of ["copper", "aluminum"]) leave(t, `metal:${id}`, "a box counts conductors by their size");
  leaveKinds(t);
  return draft;
}

const NO_MATTER = "the free length is the same whatever it is";
function takeFree(t: Taker): Draft {
  const free: Draft = {};
  const take = (slot: string, values: readonly Value[]): void => {
    for (const value of values) {
      const { sense } = value;
      if (sense.is !== "quantity" && sense.is !== "number") continue;
      const said = { value: sense.n, unit: "in" };
      const before = free[slot] as Draft | undefined;
      if (before && before.value !== said.value) {
        t.ask({
          field: "free",
          ask: `${before.value} in and ${said.value} in: which is the length of the free conductor?`,
          example: `${said.value} in left`,
        });
      }
      free[slot] ??= said;
    }
  };
  take("opening", [...t.free("opening"), ...t.free("breadth")]);
  take("outside", t.free("beyond-opening"));
  take("length", t.free("in"));
  const [bare] = t.facts.free.filter(({ key }) => key === "number");
  if (bare && !free.length) {
    t.use(bare.value, "length");
    t.note(`took ${bare.value.said} as inches`);
    take("length", [bare.value]);
  }
  t.asks("goal:free-length", "goal:check", "goal:size", "role:wire", "role:pigtail");
  t.said("box:box", "label:opening", "label:beyond-opening", "label:breadth", "boxWord:spliced", "label:length");
  for (const fact of [...t.all("conductor"), ...t.all("box"), ...t.all("load", ...DEVICES)]) {
    t.head(fact);
    for (const value of Object.values(fact.slots).flat()) t.aside(value, NO_MATTER);
  }
  for (const { key, value } of t.facts.free) {
    const isOfBox = ["box", "in3", "ring"].includes(key) || key.startsWith("boxWord:");
    if (isOfBox || key.startsWith("method:") || key.startsWith("raceway:")) t.aside(value, NO_MATTER);
  }
  return { free };
}

const leave = (t: Taker, key: string, because: string): void => {
  for (const { key: each, value } of t.facts.free) if (each === key) t.aside(value, because);
};
const INSULATED = "a box counts conductors by their size, whatever their insulation";
function leaveKinds(t: Taker): void {
  for (const { key, value } of t.facts.free) {
    if (key.startsWith("insulation:") || key.startsWith("method:")) t.aside(value, INSULATED);
    if (key.startsWith("raceway:")) t.aside(value, "a raceway takes no room in the box");
    if (key.startsWith("absent:")) t.aside(value, "told to be none");
    if (key === "in") t.aside(value, "the raceway's size takes no room in the box");
  }
  for (const { slots } of t.all("conductor")) {
    for (const slot of ["insulation", "metal"]) for (const value of slots[slot] ?? []) t.aside(value, INSULATED);
  }
  for (const id of ["no-device", "nothing-else", "spliced", "hanger", "loop"]) t.said(`boxWord:${id}`);
}

/** Several words for one box are one box. */
function takeBox(t: Taker, draft: Draft): void {
  const box: Draft = {};
  for (const { sense } of t.free("box")) {
    if (sense.is !== "box") continue;
    const { shape, across, depth, gangs } = sense;
    if (shape && (SHAPES as readonly string[]).includes(shape)) box.shape ??= shape;
    if (across && (ACROSS as readonly string[]).includes(across)) box.across ??= across;
    if (depth && (DEPTHS as readonly string[]).includes(depth)) box.depth ??= depth;
    if (gangs) box.gangs ??= gangs;
  }
  // `wider than a single gang strap` says nothing of a square box.
  if (box.shape === "square" && box.gangs === 1) delete box.gangs;
  t.said("box:box", "box:pull-box");
  const [ring] = t.free("ring");
  if (ring) draft.ring = saidIn(ring);
  const volumes = t.free("in3");
  // `a raised cover (5.5 in³)`: beside a box of a trade size the volume is its cover's.
  const isOfCover = volumes.length === 1 && !ring && t.has("label:ring") && box.across && box.depth;
  if (isOfCover) {
    t.said("label:ring");
    draft.ring = saidIn(volumes[0]!);
  } else if (volumes.length > 0) box.volume = saidIn(volumes[0]!);
  const told = [...new Set(volumes.map(({ said }) => said))];
  if (told.length > 1) {
    t.ask({ field: "box", ask: `Which is the volume of the box: ${told.join(" or ")}?`, example: `${told[0]} box` });
  }
  if (Object.keys(box).length > 0) draft.box = box;
}
const saidIn = ({ sense }: Value): Draft | undefined =>
  sense.is === "quantity" ? { value: sense.exact ?? sense.n, unit: sense.unit } : undefined;

function takePull(t: Taker, draft: Draft): void {
  for (const [id, pull] of Object.entries(PULLS)) if (t.said(`boxWord:${id}`)) draft.pull ??= pull;
  t.terms("raceway");
  t.said("place:apart");
  const raceways = [
    ...t.free("raceways").flatMap(({ sense }) =>
      sense.is === "raceways" && sense.inches !== undefined ? [{ size: tradeSize(sense.inches)!, count: sense.n }] : []
    ),
    ...t.free("in").flatMap((value) => {
      const size = value.sense.is === "quantity" && tradeSize(value.sense.n);
      return size ? [{ size, ...countBefore(t, value) }] : [];
    }),
  ];
  draft.raceways = raceways;
}

/** `two 2 in and one 3 in conduit`: a number right before a trade size counts it. */
function countBefore(t: Taker, { pieces }: Value): Draft {
  const before = t.facts.free.find(({ key, value }) =>
    (key === "number" || key === "count") && Math.max(...value.pieces) + 1 === Math.min(...pieces)
  )?.value;
  const n = before && "n" in before.sense ? before.sense.n : undefined;
  if (n === undefined || !Number.isInteger(n)) return {};
  t.use(before!, "count");
  return n === 1 ? {} : { count: n };
}

/** Conductors and cables by their size; grounds, pigtails and fixture wires by what they are. */
function takeConductors(t: Taker, draft: Draft): void {
  const conductors: Draft[] = [];
  const cables: Draft[] = [];
  const facts: { at: number; told: { count?: number } }[] = [];
  if (t.said("boxWord:looped")) draft.looped = true;
  for (const fact of t.all("conductor")) {
    const sense = fact.slots.size?.[0]?.sense;
    if (fact.id === "pigtail" || fact.id === "bonding-jumper") {
      for (const value of Object.values(fact.slots).flat()) t.aside(value, "it begins in the box and counts nothing");
      t.head(fact);
      continue;
    }
    if (fact.id === "equipment-ground") {
      takeGround(t, draft, fact);
      continue;
    }
    if (fact.id === "isolated-ground") {
      takeIsolated(t, draft, fact);
      continue;
    }
    if (sense?.is !== "size" && sense?.is !== "cable") {
      if (sense === undefined && fact.id !== "wire" && fact.slots.count === undefined) {
        t.aside(fact, "counted with the conductors it belongs to");
      } else if (fact.id === "wire" && fact.slots.count === undefined) t.head(fact);
      continue;
    }
    t.head(fact);
    t.slot(fact, "size");
    const count = t.number(fact, "count");
    const told: { size: string; count?: number; wires?: number } = {
      size: sense.size,
      ...(count !== undefined && { count }),
    };
    if (sense.is === "cable") {
      told.wires = sense.wires;
      cables.push(told);
      facts.push({ at: fact.slots.size![0]!.pieces[0]!, told });
      if (sense.ground) draft.cableGrounds = true;
    } else conductors.push(told);
  }
  // `12/2 in and out`
  for (const { pieces } of t.free("boxWord:in-and-out")) {
    const before = facts.filter(({ at }) => at < (pieces[0] ?? 0)).sort((a, b) => b.at - a.at)[0];
    if (before && (before.told.count ?? 1) === 1) before.told.count = 2;
  }
  // `three runs of 12/2`
  for (const set of t.all("circuit", "set")) {
    const open = [...cables, ...conductors].filter(({ count }) => count === undefined);
    const told = open.length === 1 ? t.number(set, "count") : undefined;
    if (told !== undefined) open[0]!.count = told;
    t.head(set);
  }
  if (t.said("boxWord:no-ground")) draft.cableGrounds = cables.length > 0 ? false : undefined;
  if (draft.cableGrounds === undefined) delete draft.cableGrounds;
  if (conductors.length > 0) draft.conductors = conductors;
  if (cables.length > 0) draft.cables = cables;
}

function takeGround(t: Taker, draft: Draft, fact: Fact): void {
  const isNamed = fact.slots.size === undefined && fact.slots.count === undefined;
  if (isNamed && hasCables(t)) {
    t.aside(fact, "counted with its cable");
    return;
  }
  if (isNamed && !hasSize(t)) return;
  draft.grounds ??= groundsOf(t, fact);
}
const CABLES = new Set(["cable", "cables"]);
/** Wires that were not told to be in cables have no ground but the one that is named. */
const hasCables = (t: Taker): boolean =>
  t.all("conductor").some(({ said, slots }) =>
    slots.size?.[0]?.sense.is === "cable" || CABLES.has(said.toLowerCase())
  ) || t.facts.free.some(({ key }) => key.startsWith("method:"));
/** A further set of grounds: named once, it is one at the least. */
function takeIsolated(t: Taker, draft: Draft, fact: Fact): void {
  const grounds = groundsOf(t, fact);
  draft.isolatedGrounds ??= grounds;
}
function groundsOf(t: Taker, fact: Fact): Draft {
  t.head(fact);
  const sense = t.slot(fact, "size")?.sense;
  const count = t.number(fact, "count") ?? 1;
  return { count, ...(sense?.is === "size" && { size: sense.size }) };
}

/** Clamps, supports, devices and terminal blocks. */
function takeParts(t: Taker, draft: Draft): void {
  const isWithout = t.said("boxWord:no-clamps");
  if (isWithout || t.said("absent:clamp")) draft.clamps = false;
  let devices: Draft[] = [];
  let yokes: number | undefined;
  const supports: string[] = [];
  for (const fact of t.all("box")) {
    t.head(fact);
    const count = t.number(fact, "count");
    if (fact.id === "clamp") draft.clamps ??= true;
    else if (fact.id === "stud" || fact.id === "hickey") supports.push(fact.id);
    // `out to a receptacle, I want a GFCI there`: one device.
    else if (fact.id === "gfci" && count === undefined && t.all("load", ...DEVICES).some(isPlain)) continue;
    else if (fact.id === "switch" || fact.id === "gfci") devices.push({ ...(count !== undefined && { count }) });
    else if (fact.id === "yoke") yokes ??= count;
    else if (fact.id === "terminal-block") draft.terminalBlocks = count ?? 1;
  }
  // A duplex in a box is a receptacle.
  const receptacles = [...t.all("load", ...DEVICES), ...t.all("building", "two-family")];
  for (const fact of receptacles) {
    t.head(fact);
    // `the receptacle is wider than …`: spoken of again.
    const isAgain = Object.keys(fact.slots).length === 0 &&
      receptacles.some((other) => other.sentence < fact.sentence && other.slots.current);
    if (isAgain) continue;
    const count = t.number(fact, "count");
    const gangs = gangsOf(t, fact, draft);
    devices.push({ ...(count !== undefined && { count }), ...(gangs && { gangs }) });
    for (const slot of ["pattern", "volts"]) {
      for (const value of fact.slots[slot] ?? []) t.aside(value, "a device counts by its gangs");
    }
  }
  const [onDevice] = t.free("device-wire");
  if (onDevice?.sense.is === "device-wire") draft.deviceSize = onDevice.sense.size;
  for (const fact of t.all("load")) {
    if (isHung(fact)) t.aside(fact, "what hangs on the box is counted by its wires and supports");
    else if (fact.id === undefined && isOfDevice(fact)) {
      for (const value of fact.slots.current ?? []) t.aside(value, "a device counts by its gangs");
    }
  }
  // `one single pole, no clamps`: a switch by its poles.
  for (const { sense, pieces } of t.free("poles")) {
    const [counted] = t.facts.free.filter(({ key, value }) =>
      key === "number" && value.pieces[0] === (pieces[0] ?? NaN) - 1
    );
    if (counted) t.use(counted.value, "count");
    const n = counted?.value.sense.is === "number" ? counted.value.sense.n : 1;
    if (sense.is === "poles") devices.push({ ...(n > 1 && { count: n }) });
  }
  // `a dimmer and a 3-way: three yokes`: as many devices as yokes, where these are counted.
  if (yokes !== undefined) devices = [{ count: yokes }];
  const isTakenBack = t.facts.free.some(({ value: { sense } }) => sense.is === "aside" && sense.because === TAKEN_BACK);
  if (isTakenBack && devices.length > 1) {
    t.ask({
      field: "devices",
      ask: "How many switches, receptacles and the like stand in the box, all told?",
      example: "two devices",
    });
  }
  if (devices.length > 0) draft.devices = devices;
  if (supports.length > 0) draft.supports = [...new Set(supports)].sort().reverse();
}
/** A receptacle of so many amperes is wider than one gang, where there is room for two. */
function gangsOf(t: Taker, fact: Fact, draft: Draft): number | undefined {
  const [value] = fact.slots.current ?? [];
  if (!value || value.sense.is !== "quantity") return undefined;
  if (value.sense.n < WIDE_RECEPTACLE) {
    t.aside(value, "a device counts by its gangs");
    return undefined;
  }
  t.use(value, "gangs");
  const gangs = (draft.box as { gangs?: number } | undefined)?.gangs === 1 ? 1 : 2;
  t.note(`took the ${value.said} receptacle as ${gangs} gang${gangs > 1 ? "s" : ""} wide`);
  return gangs > 1 ? gangs : undefined;
}

/** `how many 12/2 fit`: of what is asked no count is told. */
function takeOpen(t: Taker, draft: Draft): void {
  const isAsked = t.wants("goal:how-many") || (t.wants("goal:fit") && !t.wants("goal:check"));
  if (!isAsked || !t.wants("goal:how-many")) return;
  const lists = [...(draft.conductors as Draft[] ?? []), ...(draft.cables as Draft[] ?? [])];
  if (lists.filter(({ count }) => count === undefined).length === 1) draft.find = "how many";
}
