/** What a transformer takes of the facts: its power or its load, both windings, devices and conductors by their side. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isPanelCheck } from "../../parts/panel-gate.ts";
import { deviceRating } from "../../parts/device-takes.ts";
import { lines, takePowerFactor, takeWiring } from "../../parts/run-takes.ts";
import { SYSTEMS } from "./request.ts";

const TRANSFORMERS = ["transformer", "autotransformer"];
const OTHERS = ["goal:fault-current", "goal:fault-path", "goal:drop", "goal:longest-run", "goal:raceway-size"];
/** What is worked out with it, asked or not. */
const ANSWERED = [
  "goal:size",
  "goal:check",
  "goal:current",
  "goal:ampacity",
  "goal:each-side",
  "goal:transformer-size",
  "label:full-load-current",
  "label:maximum-protection",
  "label:maximum-fuse",
  "motorWord:largest",
  "motorWord:secondary",
  "role:wire",
  "role:equipment-ground",
  "role:system-bonding-jumper",
  "role:supply-side-bonding-jumper",
  "role:grounding-electrode-conductor",
  "device:breaker",
  "device:fuse",
  "device:main",
  "device:disconnect",
  "device:panel",
];
/** Devices that stand behind the transformer where no side is told. */
const BEHIND = ["main", "panel", "subpanel"];
type Side = "primary" | "secondary";
/** A winding as the text told it. */
type Told = { volts: Said; low?: number; wye?: boolean; delta?: boolean; phases?: 1 | 3 };

export function takes(t: Taker): Draft | undefined {
  if (isPanelCheck(t)) return undefined;
  const [transformer] = t.all("transformer", ...TRANSFORMERS);
  const wantsSize = t.wants("goal:transformer-size");
  if (!transformer && !wantsSize) return undefined;
  if (t.wants(...OTHERS) || t.has("ft2") || t.all("load").some(({ slots }) => slots["minimum-circuit-ampacity"])) {
    return undefined;
  }
  if (isJumperAlone(t, transformer)) return undefined;
  const draft: Draft = {};
  for (const fact of t.all("transformer", ...TRANSFORMERS)) {
    t.head(fact);
    if (fact.id === "autotransformer") draft.autotransformer = true;
  }
  takePhases(t, draft);
  takePower(t, transformer, draft, wantsSize);
  takeWindings(t, transformer, draft);
  takeDevices(t, draft);
  takeConductors(t, draft);
  takeProtection(t, draft);
  const impedance = t.free("impedance")[0]?.sense;
  if (impedance?.is === "quantity" && impedance.unit === "%") draft.impedance = { value: impedance.n, unit: "%" };
  if (impedance?.is === "number") draft.impedance = { value: impedance.n, unit: "%" };
  const [electrode] = t.terms("electrode");
  if (electrode) draft.electrode = electrode;
  const powerFactor = takePowerFactor(t);
  if (powerFactor !== undefined) draft.powerFactor = powerFactor;
  t.asks(...ANSWERED);
  t.said("end:feeds");
  t.terms("end");
  return draft;
}

/** A jumper or electrode conductor by the size of the secondary: of the transformer itself nothing is told or asked. */
const isJumperAlone = (t: Taker, transformer: Fact | undefined): boolean =>
  t.wants("role:supply-side-bonding-jumper", "role:system-bonding-jumper", "role:grounding-electrode-conductor") &&
  lines(t).some(({ slots }) => slots.size) && Object.keys(transformer?.slots ?? {}).length === 0 &&
  t.all("load").length === 0 && !t.all("device").some(({ slots }) => slots.rating) && looseVolts(t).length === 0;

function takePhases(t: Taker, draft: Draft): void {
  const heads = [...t.all("load"), ...t.all("transformer")];
  const phases = [...heads.map((fact) => t.term(fact, "phase")), ...t.terms("phase")];
  if (phases.includes("three-phase")) draft.phases = 3;
  else if (phases.includes("single-phase")) draft.phases = 1;
}

const figureOf = (value: Value | undefined): Said | undefined =>
  value?.sense.is === "quantity" ? { value: value.sense.exact ?? value.sense.n, unit: value.sense.unit } : undefined;
const APPARENT = ["kVA", "VA", "MVA"];

/** A power beside the transformer is its own; one that is told of a load, or for which a transformer is looked for, is the load. */
function takePower(t: Taker, transformer: Fact | undefined, draft: Draft, wantsSize: boolean): void {
  const own = transformer && t.figure(transformer, "rating", "kVA", "VA", "MVA");
  if (own && !wantsSize) draft.power = own;
  else if (own) draft.load = own;
  const [told] = t.free("calculated-load");
  if (told) draft.load = figureOf(told);
  for (const load of t.all("load")) {
    if (load.id !== undefined && load.id !== "load" && !(load.slots.draw || load.slots.current || load.slots.rating)) {
      continue;
    }
    t.head(load);
    if (t.term(load, "hours") === "continuous") draft.continuous = true;
    const value = ["rating", "draw", "current"].map((slot) => load.slots[slot]?.[0]).find(Boolean);
    const said = figureOf(value);
    if (!said) continue;
    t.use(value!, "load");
    if (load.id === undefined && !load.slots.draw && APPARENT.includes(said.unit) && !draft.power && !wantsSize) {
      draft.power = said;
    } else draft.load ??= said;
  }
  // `pick one for a 208 V panel at 110 A`: what the panel sees is its load.
  for (const panel of wantsSize && draft.load === undefined ? t.all("device", ...BEHIND) : []) {
    const amperes = t.figure(panel, "rating", "A") ?? t.figure(panel, "current", "A");
    if (amperes) draft.load = amperes;
  }
  t.terms("hours").forEach((id) => id === "continuous" && draft.load && (draft.continuous = true));
}

/** Both windings: told together, told by their side, or in the order in which transformers are spoken of. */
function takeWindings(t: Taker, transformer: Fact | undefined, draft: Draft): void {
  const sides: Partial<Record<Side, Told>> = {};
  const place = (side: Side, told: Told) => {
    const known = sides[side];
    if (known && (known.volts.value !== told.volts.value || known.volts.unit !== told.volts.unit)) {
      t.ask({
        field: side,
        ask: `Which is the ${side}: ${known.volts.value} or ${told.volts.value} ${told.volts.unit}?`,
        example: `${side} ${told.volts.value} ${told.volts.unit}`,
      });
    }
    sides[side] ??= told;
  };
  const apart = t.facts.free.filter(({ key }) => key === "windings" || key === "winding").map(({ value }) => value);
  for (const value of [...transformer?.slots.windings ?? [], ...apart]) {
    const { sense } = value;
    t.use(value, "windings");
    if (sense.is === "windings") {
      place("primary", toldOf(sense.primary));
      place("secondary", toldOf(sense.secondary));
    } else if (sense.is === "winding") place(sense.side, toldOf(sense.winding));
  }
  // What the load runs on is the secondary; a voltage beside it is what there is.
  for (const value of t.all("load").flatMap(({ slots }) => slots.volts ?? [])) {
    const { sense } = value;
    if (sides.secondary || (sense.is !== "quantity" && sense.is !== "number")) continue;
    if (looseVolts(t).length < 2) continue;
    t.use(value, "winding");
    sides.secondary = { volts: { value: sense.n, unit: "V" } };
  }
  // `for a 208 V panel, fed from 480`
  const from = t.facts.free.filter(({ key }) => key === "end:from").flatMap(({ value }) => value.pieces);
  const fed = looseVolts(t).find(({ pieces: [at] }) => from.includes((at ?? -1) - 1));
  if (fed && !sides.primary && (fed.sense.is === "quantity" || fed.sense.is === "number")) {
    t.use(fed, "primary");
    sides.primary = { volts: { value: fed.sense.n, unit: "V" } };
  }
  for (const value of looseVolts(t)) if (value !== fed) placeVolts(t, sides, value);
  const { primary, secondary } = sides;
  if (primary) draft.primary = primary.volts;
  if (primary?.low !== undefined && !systemOf(primary.low, Number(primary.volts.value))) takeDual(t, primary, draft);
  if (secondary) draft.secondary = secondary.volts;
  const system = secondary?.low === undefined ? undefined : systemOf(secondary.low, Number(secondary.volts.value));
  if (system) draft.system = system;
  draft.phases ??= primary?.phases ?? secondary?.phases;
  if (draft.phases === undefined) delete draft.phases;
  const wires = t.said("connection:two-wire");
  t.said("connection:three-wire", "connection:four-wire", "connection:wye");
  const isDelta = t.said("connection:delta");
  if (wires) draft.winding = "two-wire";
  else if (
    !system && (secondary?.delta || (isDelta && !primary?.delta && (primary && secondary || t.has("end:secondary"))))
  ) {
    draft.winding = "delta";
  }
}
const toldOf = (
  { n, unit, ...rest }: { n: number; unit: "V" | "kV"; low?: number; wye?: boolean; delta?: boolean; phases?: 1 | 3 },
): Told => ({ volts: { value: n, unit }, ...rest });
const systemOf = (low: number, high: number) =>
  SYSTEMS.find((each) => each === `${low}/${high}` || each === `${high}Y/${low}`);

/** Bare numbers that are a supply's voltage beside a transformer. */
const isSupply = (n: number): boolean => [120, 208, 240, 277, 480, 600].includes(n);
/** Voltages that no winding took, in the order of the text. */
const looseVolts = (t: Taker): Value[] =>
  [
    ...[...t.all("transformer", ...TRANSFORMERS), ...t.all("load")].flatMap(({ slots }) => slots.volts ?? []),
    ...t.facts.free.filter(({ key, value: { sense } }) =>
      ["V", "kV", "volts", "system"].includes(key) || (sense.is === "number" && isSupply(sense.n))
    ).map(({ value }) => value),
  ].sort((a, b) => (a.pieces[0] ?? 0) - (b.pieces[0] ?? 0));

const askDual = (t: Taker, { low, volts }: Told): void =>
  t.ask({
    field: "primary",
    ask: `Is its primary connected for ${low} V or for ${volts.value} V?`,
    example: `primary ${volts.value} V`,
  });
/** `240x480 to 120/240, primary at 480`: which of its two voltages it is connected for is told beside, or asked. */
function takeDual(t: Taker, { low, volts }: Told, draft: Draft): void {
  const own = t.all("transformer", ...TRANSFORMERS).flatMap(({ slots }) => slots.windings ?? []);
  const told = [...t.facts.free, ...own.map((value) => ({ key: "winding", value }))];
  const connected = told.flatMap(({ key, value }) => {
    const { sense } = value;
    const n = sense.is === "winding" && sense.side === "primary"
      ? sense.winding.n
      : (sense.is === "quantity" || sense.is === "number") && ["V", "volts", "supply-volts"].includes(key)
      ? sense.n
      : undefined;
    return n === low || n === volts.value ? [{ n, value }] : [];
  });
  if (new Set(connected.map(({ n }) => n)).size !== 1) return askDual(t, { volts, low: low! });
  for (const { value } of connected) t.use(value, "winding");
  draft.primary = { value: connected[0]!.n!, unit: volts.unit };
}
function placeVolts(t: Taker, sides: Partial<Record<Side, Told>>, value: Value): void {
  const { sense } = value;
  const told: Told | undefined = sense.is === "system"
    ? { volts: { value: sense.high, unit: "V" }, low: sense.low, wye: sense.wye }
    : sense.is === "quantity" || sense.is === "number"
    ? { volts: { value: sense.n, unit: sense.is === "quantity" ? sense.unit : "V" } }
    : undefined;
  if (!told) return;
  const isTold = [sides.primary, sides.secondary].some((each) =>
    each?.volts.value === told.volts.value && each.volts.unit === told.volts.unit
  );
  if (isTold) return t.use(value, "winding");
  const named = told.low !== undefined && systemOf(told.low, Number(told.volts.value));
  if (told.low !== undefined && !named) return askDual(t, told);
  if (sides.primary && sides.secondary) return;
  t.use(value, "winding");
  if (sides.secondary) sides.primary = told;
  else if (sides.primary || named) sides.secondary = told;
  else if (t.has("end:feeds")) sides.primary = told;
  else {
    const hasMore = looseVolts(t).some((other) => other !== value);
    sides[hasMore ? "primary" : "secondary"] = told;
    if (!hasMore) t.note(`took ${told.volts.value} ${told.volts.unit} as the secondary`);
  }
}

const sideOf = (t: Taker, fact: Fact): Side | undefined => {
  const said = t.term(fact, "end");
  return said === "primary" || said === "secondary" ? said : undefined;
};
/** The only side that the text names at all. */
function onlySide(t: Taker): Side | undefined {
  if (t.has("end:primary-only")) return "primary";
  const named = new Set(
    [
      ...[...t.all("device"), ...t.all("conductor")].flatMap(({ slots }) => slots.end ?? []).map(({ sense }) => sense),
      ...t.facts.free.filter(({ key }) => key === "end:primary" || key === "end:secondary").map(({ value }) =>
        value.sense
      ),
    ].map((sense) => (sense as { id: string }).id).filter((id) => id === "primary" || id === "secondary"),
  );
  return named.size === 1 ? [...named][0] as Side : undefined;
}

/** Devices put up for checking. */
function takeDevices(t: Taker, draft: Draft): void {
  for (const fact of t.all("device")) {
    const side = sideOf(t, fact) ?? (BEHIND.includes(fact.id ?? "") ? "secondary" : onlySide(t));
    t.slot(fact, "poles");
    const value = fact.slots.rating?.[0];
    if (!value) {
      if (fact.others?.length || BEHIND.includes(fact.id ?? "")) t.head(fact);
      continue;
    }
    const said = deviceRating(t, fact);
    if (!said) continue;
    t.head(fact);
    const told = side && draft[`${side}Breaker`] as Said | undefined;
    if (told && told.value !== said.value) {
      t.ask({
        field: `${side}Breaker`,
        ask: `${told.value} A and ${said.value} A: which of them is the ${side} device?`,
        example: `${told.value} A ${side} breaker`,
      });
    } else if (side) draft[`${side}Breaker`] = said;
    else {
      t.ask({
        field: "primaryBreaker",
        ask: `On which side is the ${said.value} A device?`,
        example: `${said.value} A on the primary`,
      });
    }
  }
}

function takeConductors(t: Taker, draft: Draft): void {
  for (const fact of lines(t)) {
    const side = sideOf(t, fact) ?? onlySide(t);
    const value = fact.slots.size?.[0];
    if (value?.sense.is === "size" && side) {
      t.head(fact);
      t.use(value, "size");
      draft[`${side}Size`] = value.sense.size;
    } else if (value?.sense.is === "size") {
      t.ask({
        field: "secondarySize",
        ask: `On which side is ${value.said}?`,
        example: `${value.said} on the secondary`,
      });
    }
  }
  Object.assign(draft, takeWiring(t));
  for (const fact of t.all("circuit", "set", "feeder")) t.head(fact);
  const length = t.loose("length", "ft", "m", "yd") ?? lines(t).map((fact) => t.figure(fact, "length")).find(Boolean);
  if (!length) return;
  const feet = { ft: 1, yd: 3 }[length.unit];
  if (feet !== undefined) draft.length = { value: Number(length.value) * feet, unit: "ft" };
  else t.ask({ field: "length", ask: `How long are the secondary conductors, in feet?`, example: "25 ft" });
}

function takeProtection(t: Taker, draft: Draft): void {
  if (t.said("end:primary-only")) draft.protection = "primary only";
  else if (t.said("end:primary-and-secondary")) draft.protection = "primary and secondary";
  if (t.said("motorWord:thermal-protector")) draft.thermallyProtected = true;
}
