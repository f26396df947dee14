/** What grounding and bonding conductors take of the facts: which conductor, the device or supply that decides it, the electrode. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { isToElectrode, isToldGround, lines, takeElectrode, takeSets } from "../../parts/run-takes.ts";
import type { GroundingConductor } from "./request.ts";

const NAMES: Readonly<Record<string, readonly GroundingConductor[]>> = {
  "equipment-ground": ["equipment ground"],
  // An equipment ground that touches nothing on its way, and of the same size.
  "isolated-ground": ["equipment ground"],
  "grounding-electrode-conductor": ["grounding electrode conductor"],
  "main-bonding-jumper": ["main bonding jumper"],
  "system-bonding-jumper": ["system bonding jumper"],
  "supply-side-bonding-jumper": ["supply-side bonding jumper"],
  "bonding-jumper": ["main bonding jumper", "supply-side bonding jumper"],
};
const DEVICES = ["breaker", "fuse", "dual-element-fuse", "inverse-time-breaker", "panel", "subpanel", "disconnect"];
const MOST_DEVICES = 40;
/** Gauges that are spoken of by their number alone go up to here. */
const SMALLEST = 14;
const RAISES = ["change:raise", "change:instead"];
const LONG_RUN = ["label:drop", "goal:drop", "drop"];

export function takes(t: Taker): Draft | undefined {
  if (isPanelCheck(t)) return undefined;
  if (isOthers(t)) return undefined;
  const draft: Draft = {};
  if (takeEarthReturn(t, draft)) return draft;
  const roles = t.all("conductor", ...Object.keys(NAMES));
  const find = takeNames(t, roles);
  const electrode = takeElectrode(t);
  if (electrode) draft.electrode = electrode;
  const isGroundToElectrode = find.length === 1 && find[0] === "equipment ground" && electrode !== undefined &&
    !t.all("device", ...DEVICES).some(({ slots }) => slots.rating);
  if (isGroundToElectrode) {
    find[0] = "grounding electrode conductor";
    t.note("took the ground to the electrode as the grounding electrode conductor");
  }
  takeSupply(t, draft, find);
  if (find.length === 0 && draft.electrode && !draft.devices) find.push("grounding electrode conductor");
  // An electrode beside a jumper: what runs to it is asked as well.
  if (draft.electrode && find.includes("main bonding jumper") && !find.includes("grounding electrode conductor")) {
    find.push("grounding electrode conductor");
  }
  if (find.length === 0) return undefined;
  draft.find = find;
  takeSizes(t, draft, roles);
  takeMetals(t, draft, roles);
  takeRest(t, draft);
  return draft;
}

/** A floor, an appliance, a motor, a transformer's own sums; a feeder put up with its lines and its ground. */
const isOthers = (t: Taker): boolean =>
  isToldGround(t) ||
  (t.all("device", "subpanel", "panel").length > 0 && lines(t).some(({ slots }) => slots.size) &&
    t.all("conductor", "equipment-ground").some(({ slots }) => slots.size)) ||
  t.has("ft2") || t.has("m2") || t.has("goal:fault-current") ||
  t.all("load").some((load) => !isPlain(t, load));
/** `ground for the 90 A AC circuit`: what is on a circuit whose rating is told changes nothing of its ground. */
const isPlain = (t: Taker, { id, slots }: Fact): boolean =>
  slots.rating === undefined &&
  (id === undefined || id === "load" ||
    (Object.keys(slots).length === 0 && t.all("conductor", "equipment-ground").length > 0 &&
      [...t.all("circuit"), ...t.all("device")].some((fact) => fact.slots.rating)));

/** Rods or soil put in the place of an equipment ground, or said to bring a fault back. */
function takeEarthReturn(t: Taker, draft: Draft): boolean {
  const grounds = t.all("conductor", "equipment-ground").filter(({ slots }) => !slots.size);
  const isInstead = grounds.length > 0 && ["change:instead", "change:drop"].some((key) => t.has(key));
  const isPath = t.has("goal:fault-path") || grounds.length > 0;
  const isEarth = t.has("electrode:earth") && isPath;
  if (!isEarth && !(t.has("electrode:rod") && (isInstead || t.has("goal:fault-path")))) return false;
  if (t.all("device").some(({ slots }) => slots.rating)) return false;
  t.said(
    "electrode:earth",
    "electrode:rod",
    "change:instead",
    "change:drop",
    "goal:fault-path",
    "goal:check",
    "goal:why",
  );
  for (const ground of grounds) t.head(ground);
  draft.earthReturn = true;
  return true;
}

function takeNames(t: Taker, roles: readonly Fact[]): GroundingConductor[] {
  const isSupplySide = t.said("end:supply-side");
  const found = roles.flatMap((fact) => {
    t.head(fact);
    t.number(fact, "count");
    return fact.id === "bonding-jumper" && isSupplySide ? NAMES["supply-side-bonding-jumper"]! : NAMES[fact.id!]!;
  });
  const named = [...new Set(found)];
  // `bonding jumper` beside a jumper told by its whole name is that one.
  const jumpers = roles.filter(({ id }) => id !== "bonding-jumper" && id!.endsWith("jumper"));
  return jumpers.length === 0 ? named : named.filter((each) =>
    jumpers.some(({ id }) => NAMES[id!]!.includes(each)) ||
    !each.endsWith("jumper")
  );
}

/** Devices ahead of an equipment ground, or the rating of a service. */
function takeSupply(t: Taker, draft: Draft, find: readonly GroundingConductor[]): void {
  const devices: Said[] = [];
  const take = (fact: Fact, slot: string, into: (said: Said) => void): void => {
    const n = t.number(fact, slot);
    if (n === undefined) return;
    t.head(fact);
    t.slot(fact, "poles");
    t.term(fact, "end");
    into({ value: n, unit: "A" });
  };
  const isOfService = find.some((each) => each !== "equipment ground") || (find.length === 0 && t.has("electrode:rod"));
  const service = (said: Said) => void (draft.service ??= said);
  const device = (said: Said) => void devices.push(said);
  for (const fact of t.all("device", ...DEVICES)) take(fact, "rating", device);
  for (const fact of t.all("circuit", "circuit", "feeder")) {
    t.head(fact);
    const count = t.number(fact, "count") ?? 1;
    take(fact, "rating", (said) => void devices.push(...Array(Math.min(count, MOST_DEVICES)).fill(said)));
  }
  for (const fact of t.all("device", "service", "main")) {
    t.head(fact);
    take(fact, "rating", find.includes("equipment ground") && !isOfService ? device : service);
  }
  for (const fact of t.all("load").filter(({ slots }) => slots.current)) {
    if (devices.length === 0 && !draft.service) take(fact, "current", isOfService ? service : device);
  }
  if (devices.length === 0 && !draft.service && find.includes("equipment ground")) devices.push(...bareRatings(t));
  for (const fact of t.all("device", ...DEVICES)) if (!fact.slots.rating) t.head(fact);
  if (devices.length > 0) draft.devices = devices;
}

const [LEAST_DEVICE, MOST_DEVICE] = [15, 6000];
/** Above it devices are rated in steps of 1000 A. */
const [LARGE_DEVICE, LARGE_STEP] = [2500, 1000];
/** `EGCs for these: 15, 30, 70`: numbers beside a ground that is asked for, and nothing else they could be of. */
function bareRatings(t: Taker): Said[] {
  const values = t.facts.free.filter(({ key }) => key === "number").map(({ value }) => value);
  const isRating = ({ sense }: Value) =>
    sense.is === "number" && sense.n >= LEAST_DEVICE && sense.n <= MOST_DEVICE &&
    // No device is made for 4500 A.
    (sense.n < LARGE_DEVICE || sense.n % LARGE_STEP === 0);
  if (!values.every(isRating) || lines(t).some(({ slots }) => slots.size) || values.length > MOST_DEVICES) return [];
  return values.map((value) => {
    t.use(value, "rating");
    const { n } = value.sense as { n: number };
    t.note(`took ${n} as a ${n} A device`);
    return { value: n, unit: "A" };
  });
}

/** Sizes of the supply or of the circuit, what they were raised from, and a ground put up for checking. */
function takeSizes(t: Taker, draft: Draft, roles: readonly Fact[]): void {
  const sized = lines(t).filter(({ slots }) => slots.size);
  const of = (fact: Fact): string => {
    t.head(fact);
    return nameOf(t.slot(fact, "size")!);
  };
  const raise = t.free("raise")[0]?.sense;
  if (raise?.is === "raise") {
    draft.needed = raise.from;
    draft.size = raise.to;
  }
  // `needed #8, went to #4 for voltage drop`: two sizes of one circuit, and why there are two.
  const isForDrop = !t.has("change:or") && roles.some(({ id }) => id === "equipment-ground") &&
    LONG_RUN.some((key) => t.has(key)) &&
    new Set(sized.map(({ slots }) => nameOf(slots.size![0]!))).size === 2;
  const isRaised = t.said(...RAISES) || raise !== undefined || isForDrop;
  // `#6 to the rods, 3/0 copper service`: the smaller one is what is put up.
  // `GEC for #4 copper SE, #8 ok`: nor is what bonds or grounds a service larger than its lines.
  const isOfService = roles.every(({ id, slots }) => id !== "equipment-ground" && !slots.size);
  const isToRods = isOfService && sized.length === 2 && !isRaised;
  const given = raise ? [] : sized.slice(0, isRaised || isToRods ? 2 : 1).map(of).sort((a, b) => order(a) - order(b));
  if (given.length === 2 && given[0] !== given[1]) draft[isToRods ? "ground" : "needed"] = given[0];
  if (given.length > 0) {
    draft[given.length === 1 && roles.length === 0 && isToElectrode(t) ? "ground" : "size"] = given.at(-1);
  }
  // `6 copper or 4 aluminum`: which of them is worked out.
  const isChoice = sized.length > 1 && t.has("change:or") &&
    roles.some(({ id, slots }) => id === "equipment-ground" && !slots.size);
  if (isChoice && draft.needed === undefined && t.said("change:or")) {
    delete draft.size;
    for (const fact of sized) {
      for (const each of Object.values(fact.slots).flat()) t.aside(each, "which is right is worked out here");
    }
  }
  for (const fact of t.all("conductor", "wire")) {
    if (fact.others?.includes("circuit:service-conductors")) t.head(fact);
  }
  if (raise || isRaised) {
    for (const fact of t.all("conductor", "ungrounded", "wire")) t.head(fact);
  }
  for (const fact of roles.filter(({ slots }) => slots.size)) {
    // `#6 wire to the rods, ok on a 200 A service`
    const isChecked = fact.id === "grounding-electrode-conductor" && t.wants("goal:check");
    const isPutUp = draft.size !== undefined || fact.id === "equipment-ground" || isChecked;
    draft[isPutUp ? "ground" : "size"] = of(fact);
  }
  takeSets(t, draft, true);
  if (draft.needed === undefined) {
    // `20 A circuit on #8s for drop`: grown from what the device needs.
    const isGrown = draft.size !== undefined && (draft.find as string[]).includes("equipment ground");
    if (isGrown && t.said(...LONG_RUN)) {
      t.ask({
        field: "needed",
        ask: "The ground grows with the conductors. What size would they be without the drop?",
        example: `raised from a smaller size to ${draft.size}`,
      });
    }
    return;
  }
  if (t.said("circuit:any-increase")) draft.anyIncrease = true;
  if (t.said(...LONG_RUN)) draft.upsizedFor = "voltage drop";
  else if (t.said("label:ambient", "goal:ampacity", "place:bundle", "place:rooftop")) {
    draft.upsizedFor = "ampacity corrections";
  }
  for (const key of ["ambient", "°C", "°F"]) {
    for (const value of t.free(key)) {
      draft.upsizedFor ??= "ampacity corrections";
      t.aside(value, "what counts is that the conductors were raised, and for what");
    }
  }
}
const nameOf = ({ sense }: Value): string =>
  sense.is === "size" || sense.is === "cable" ? sense.size : sense.is === "sizes" ? sense.sizes[0]! : "";
/** Sizes in the order of their names: 14 … 1, 1/0 … 4/0, 250 kcmil and on. */
const order = (size: string): number => {
  const n = parseInt(size, 10);
  return size.includes("/") || size.endsWith("kcmil") ? n : -n;
};

/** The ground's own metal, and that of the conductors. */
function takeMetals(t: Taker, draft: Draft, roles: readonly Fact[]): void {
  const own = roles.map((fact) => t.term(fact, "metal")).find(Boolean);
  const supply = [...lines(t), ...t.all("device", "service")].map((fact) => t.term(fact, "metal")).find(Boolean);
  for (const fact of lines(t)) if (fact.slots.metal && !fact.slots.size) t.head(fact);
  // A ground put up is held against what its own metal asks for.
  if (own) draft.groundMaterial = own;
  if (supply) {
    draft[draft.size === undefined && roles.length === 0 && isToElectrode(t) ? "groundMaterial" : "material"] = supply;
  }
  for (const metal of t.terms("metal")) {
    if (draft.size !== undefined && draft.material === undefined) draft.material = metal;
    else draft.groundMaterial ??= metal;
  }
  // The metal behind a supply's size that was read as the ground's own size.
  const isSwapped = own && draft.size !== undefined && !supply &&
    roles.some(({ slots }) => slots.size && slots.metal) &&
    draft.ground === undefined;
  if (isSwapped) {
    draft.material = own;
    delete draft.groundMaterial;
  }
}

const roles = (t: Taker): Fact[] => t.all("conductor", ...Object.keys(NAMES));
function takeRest(t: Taker, draft: Draft): void {
  if (t.said("circuit:each-raceway")) draft.jumpers = "one for each raceway";
  if (t.said("circuit:one-for-all")) draft.jumpers = "one for all";
  // Of equipment grounds it says how they run, and nothing of jumpers.
  if ((draft.find as string[]).every((each) => each === "equipment ground")) delete draft.jumpers;
  const size = "the device or the supply's size decides, not this";
  const raceways = t.facts.free.map(({ key }) => key).filter((key) => key.startsWith("raceway:"));
  for (const key of ["V", "system", ...raceways, "in"]) {
    for (const value of t.free(key)) t.aside(value, size);
  }
  for (const sort of ["phase", "insulation", "method"]) {
    for (const { key, value } of t.facts.free) if (key.startsWith(`${sort}:`)) t.aside(value, size);
  }
  for (const fact of lines(t)) {
    for (const slot of ["insulation", "count"]) for (const value of fact.slots[slot] ?? []) t.aside(value, size);
  }
  if (draft.needed !== undefined) {
    for (const key of ["ft", "m", "length"]) {
      for (const value of t.free(key)) {
        t.aside(value, "what the conductors were raised to counts, not how far they run");
      }
    }
    for (const value of lines(t).flatMap(({ slots }) => slots.length ?? [])) {
      t.aside(value, "what the conductors were raised to counts, not how far they run");
    }
  }
  if (draft.electrode === "water pipe") {
    for (const key of ["ft", "m"]) {
      for (const value of t.free(key)) t.aside(value, "how far the pipe runs sizes no conductor");
    }
  }
  if (draft.electrode === "rod") {
    for (const key of ["spacing", "ft", "m", "length", "label:spacing"]) {
      for (const value of t.free(key)) t.aside(value, "how long rods are and how far apart sizes no conductor");
    }
  }
  // `the table says six for 200`: what was told is told again.
  const told = [draft.ground, ...(draft.devices as Said[] | undefined ?? []).map(({ value }) => value)].map(Number);
  for (const { key, value } of t.facts.free) {
    if (key !== "number") continue;
    const { n } = value.sense as { n: number };
    if (told.includes(n)) t.aside(value, "told before");
    // `a ground at #8, shouldn't it be six`
    else if (draft.ground !== undefined && n <= SMALLEST && t.wants("goal:check")) {
      t.aside(value, "which size is right is worked out here");
    }
  }
  for (const fact of t.all("transformer", "transformer")) t.aside(fact, size);
  for (const { slots } of roles(t)) for (const value of slots.end ?? []) t.aside(value, size);
  for (const load of t.all("load").filter((each) => each.id !== undefined)) t.head(load);
  for (const value of lines(t).flatMap(({ slots }) => slots.end ?? [])) t.aside(value, size);
  t.said("place:bundle", "circuit:whole-dwelling", "end:secondary");
  t.asks("goal:size", "goal:bond", "circuit:circuit");
  if (t.asks("goal:check")) draft.check = true;
}
