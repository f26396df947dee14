/**
 * Families: what a head takes, from which side, how far away. A line here is a place for one kind of figure beside one kind
 * of head; what needs code instead is a rule over neighbours (`pieces.ts`) or for the question to judge.
 */
import type { FamilyId } from "./facts.ts";
import { buildings } from "./lexicon/buildings.ts";
import type { Id, Sort } from "./lexicon/lexicon.ts";
import type { Sense } from "./sense.ts";
import type { SpokenUnit } from "./units.ts";

/** Sorts of terms that open a fact. */
export const HEADS: Readonly<Partial<Record<Sort, FamilyId>>> = {
  appliance: "load",
  machine: "load",
  load: "load",
  device: "device",
  role: "conductor",
  source: "transformer",
  circuit: "circuit",
  space: "space",
  building: "building",
  boxPart: "box",
};
/** Terms of those sorts that only say something and take no figure. */
export const NO_HEADS: ReadonlySet<string> = new Set([
  "circuit:no-neutral",
  "circuit:with-neutral",
  "circuit:linear",
  "circuit:nonlinear",
  "circuit:neutral-counts",
  "circuit:any-increase",
  "circuit:one-way",
  "circuit:round-trip",
  "circuit:balanced-neutral",
  "circuit:resistive",
  "circuit:line-to-neutral",
  "circuit:line-to-line",
  "circuit:direct-current-table",
  "circuit:alternating-current-table",
  "circuit:segment",
  "circuit:whole-dwelling",
  "circuit:part-of-dwelling",
  "circuit:ignore-drop",
  "circuit:of-which",
  "circuit:everything",
  "circuit:each-phase",
  "circuit:parallel",
  "circuit:service-conductors",
  "circuit:feeder-conductors",
  "circuit:each-raceway",
  "circuit:one-for-all",
  "building:existing",
  "building:dwelling",
  "building:not-dwelling",
  "source:backfeed",
  "building:per-storey",
  "building:all-else-gas",
  "building:nothing-else",
  "building:common-part",
  "building:other-occupancy",
  "building:all-electric",
  "building:not-all-electric",
]);

/** A label: the figures it names, bare numbers it takes and between which bounds, and whether it belongs to a nameplate. */
export type Label = {
  readonly units: readonly SpokenUnit[];
  readonly bare?: readonly [number, number];
  readonly pair?: boolean;
  /** A figure of a load; otherwise one of the question as a whole. */
  readonly ofLoad?: boolean;
  readonly reach?: number;
  /** The largest figure in a unit that may be meant: a drop of 240 V is the supply. */
  readonly most?: Readonly<Partial<Record<SpokenUnit, number>>>;
  /** The smallest figure in a unit that may be meant: a fault current of 100 A is a panel's rating. */
  readonly least?: Readonly<Partial<Record<SpokenUnit, number>>>;
  /** A bare number that is a usual voltage is none of its figures. */
  readonly noVolts?: boolean;
  /** The slot it fills, where several labels fill one; otherwise that of its own name. */
  readonly slot?: string;
  /** Only these values are possible. */
  readonly only?: readonly number[];
};
const AMPERES: readonly SpokenUnit[] = ["A"];
const POWER: readonly SpokenUnit[] = ["W", "kW", "VA", "kVA", "MVA", "hp"];
export const LABELS: Readonly<Partial<Record<Id<"label">, Label>>> = {
  "minimum-circuit-ampacity": { units: AMPERES, bare: [0.5, 2000], ofLoad: true },
  "maximum-protection": { units: AMPERES, bare: [1, 4000], ofLoad: true },
  "maximum-fuse": { units: AMPERES, bare: [1, 4000], ofLoad: true, slot: "maximum-protection" },
  "maximum-fuse-or-breaker": { units: AMPERES, bare: [1, 4000], ofLoad: true, slot: "maximum-protection" },
  "minimum-protection": { units: AMPERES, bare: [1, 4000], ofLoad: true },
  "rated-load-current": { units: AMPERES, bare: [0.1, 2000], ofLoad: true },
  "selection-current": { units: AMPERES, bare: [0.1, 2000], ofLoad: true },
  "full-load-current": { units: AMPERES, bare: [0.1, 5000], pair: true, ofLoad: true },
  "nameplate": { units: AMPERES, bare: [0.1, 5000], noVolts: true, pair: true, ofLoad: true },
  "rated": { units: AMPERES, pair: true, ofLoad: true, slot: "nameplate" },
  "locked-rotor-current": { units: [...AMPERES, "kW", "W", "kVA", "VA"], bare: [0.5, 20000], ofLoad: true },
  "starting": { units: [...AMPERES, "kW", "W", "kVA", "VA"], ofLoad: true, slot: "locked-rotor-current" },
  "secondary-current": { units: AMPERES, ofLoad: true },
  "service-factor": { units: [], bare: [1, 2], ofLoad: true },
  "temperature-rise": { units: ["°C"], bare: [20, 180], ofLoad: true },
  "speed": { units: ["rpm"], bare: [50, 40000], ofLoad: true },
  "frequency": { units: ["Hz"], bare: [50, 60], only: [50, 60] },
  "power-factor": { units: ["%"], bare: [0.05, 1], ofLoad: true },
  "efficiency": { units: ["%"], bare: [0.2, 100], ofLoad: true },
  "impedance": { units: ["%", "ohm/kft", "ohm"], bare: [0.01, 12] },
  "duty-cycle": { units: ["%"], bare: [5, 100], ofLoad: true },
  "draw": { units: [...AMPERES, ...POWER], bare: [0.5, 4000], ofLoad: true, reach: 2.5 },
  "setpoint": { units: AMPERES, bare: [6, 200], ofLoad: true, reach: 2.5, slot: "draw" },
  "told-ampacity": { units: AMPERES, bare: [10, 1000], reach: 1.2 },
  "neutral-load": { units: AMPERES, bare: [1, 6000], reach: 2.5 },
  // A small bare number behind `demand of` counts appliances.
  "calculated-load": { units: [...AMPERES, ...POWER], bare: [100, 5_000_000], reach: 2.5 },
  "terminals": { units: ["°C", "°"], bare: [60, 90], only: [60, 75, 90], reach: 2 },
  "ambient": { units: ["°C", "°F", "°"], bare: [0, 190] },
  "drop": { units: ["%", "V"], bare: [1, 10], reach: 3.5, most: { V: 30 } },
  "spacing": { units: ["ft", "m", "yd"], reach: 1.45 },
  "first-distance": { units: ["ft", "m", "yd"], reach: 2 },
  "length": { units: ["ft", "m", "yd", "in"], bare: [1, 20000] },
  "area": { units: ["ft2", "m2"], bare: [200, 50000] },
  "constant": { units: [], bare: [5, 40] },
  "conductor-temperature": { units: ["°C", "°F", "°"], bare: [0, 480] },
  "volts": { units: ["V"], bare: [12, 35000] },
  "tap": { units: ["ft", "m"] },
  "conductors-together": { units: [], bare: [1, 1000] },
  "ring": { units: ["in3"], bare: [1, 60] },
  "bus": { units: AMPERES, bare: [15, 6000] },
  "breakers-total": { units: AMPERES, bare: [10, 5000], reach: 2 },
  "power-control": { units: AMPERES, bare: [5, 2000], reach: 2 },
  "demand-recorded": { units: [...AMPERES, ...POWER], bare: [1, 100000], reach: 3 },
  "marked-torque": { units: ["lbf-in", "lbf-ft", "N-m"], bare: [5, 6000], reach: 2.5 },
  "set-torque": { units: ["lbf-in", "lbf-ft", "N-m"], bare: [5, 6000], reach: 2.5 },
  "opening": { units: ["in"], bare: [1, 60] },
  "beyond-opening": { units: ["in"], bare: [0.25, 60], reach: 2.5 },
  "depth": { units: ["in", "ft", "m"] },
  "breadth": { units: ["in", "ft", "m"] },
  "height": { units: ["in", "ft", "m"] },
  "interrupting-rating": { units: ["kA", "A"], bare: [5, 300_000], least: { A: 5000 }, reach: 2.5 },
  "available-fault-current": {
    units: ["kA", "A", "MVA"],
    bare: [1000, 300_000],
    least: { A: 250 },
  },
  "tolerance": { units: ["%"] },
  "reactance-ratio": { units: [], bare: [0.01, 100] },
};

/** What one pass puts into which slot of which family, how far before and behind the head, and how many. */
export type Pass = {
  readonly slot: string;
  readonly figures: (sense: Sense) => boolean;
  readonly heads: readonly {
    readonly family: FamilyId;
    /** Only these terms of the family, or none of these. */
    readonly ids?: readonly string[];
    readonly not?: readonly string[];
    readonly before: number;
    readonly after: number;
    readonly most?: number;
  }[];
};
const units = (...of: SpokenUnit[]) => (sense: Sense): boolean => sense.is === "quantity" && of.includes(sense.unit);
const term = (...sorts: Sort[]) => (sense: Sense): boolean => sense.is === "term" && sorts.includes(sense.sort);
const is = (...kinds: Sense["is"][]) => (sense: Sense): boolean => kinds.includes(sense.is);

/** Bare numbers that a device's rating may be, and voltages people write without their unit. */
export const DEVICE_RATINGS: readonly [number, number] = [10, 6000];
export const NOMINAL_VOLTS: readonly number[] = [
  12,
  24,
  110,
  115,
  120,
  125,
  200,
  208,
  220,
  230,
  240,
  250,
  265,
  277,
  347,
  380,
  400,
  415,
  440,
  460,
  480,
  550,
  575,
  600,
];
/** Services by their usual sizes, of which people speak without amperes. */
export const SERVICES: ReadonlySet<number> = new Set([60, 100, 125, 150, 200, 225, 320, 400, 600]);
/** No figure stands on this side of its head. */
export const NEVER = -1;
export const isNominal = (sense: Sense): boolean =>
  sense.is === "number" && NOMINAL_VOLTS.includes(sense.n) && sense.n >= 100;

/** Voltages that supplies are spoken of by, and no device is made for in amperes. */
const SUPPLY_VOLTS: ReadonlySet<number> = new Set([115, 120, 208, 220, 230, 240, 277, 440, 460, 480, 575]);
export const isUsualSupply = (n: number): boolean => SUPPLY_VOLTS.has(n);

/** Circuits that a dwelling's load counts by their number, and lists with the volt-amperes they stand for. */
export const OF_DWELLINGS = ["small-appliance", "laundry"];

/** Parks and docks, and the sites, lots and slips they are counted by. */
export const OF_PARKS = [
  "mobile-home-park",
  "mobile-home-lot",
  "rv-park",
  "camp-site",
  "tent-site",
  "marina",
  "boat-slip",
] as const;
/** Uses of a building other than a dwelling, each with a floor of its own. */
const OF_HOMES: ReadonlySet<string> = new Set([
  "dwelling",
  "apartment",
  "two-family",
  "multifamily",
  "mobile-home",
  ...OF_PARKS,
  "existing",
  "storey",
  "storeys-of",
  "per-storey",
  "unit",
]);
export const OF_OTHER_USES: readonly string[] = Object.keys(buildings).filter((id) => !OF_HOMES.has(id));

/** Amperes and powers, in the same cut as the labels: `power` first, then `current`. */
export const RATING: Pass = {
  slot: "rating",
  figures: units("W", "kW", "VA", "kVA", "MVA", "hp"),
  heads: [
    { family: "load", before: 6, after: 6 },
    { family: "circuit", ids: OF_DWELLINGS, before: 2, after: 2 },
    {
      family: "transformer",
      ids: ["transformer", "autotransformer", "generator", "inverter", "solar", "battery"],
      before: 5,
      after: 5,
    },
  ],
};
export const CURRENT: Pass = {
  slot: "current",
  figures: units("A"),
  heads: [
    { family: "load", before: 6, after: 6 },
    { family: "device", before: 4, after: 4 },
    { family: "circuit", ids: ["circuit", "feeder", ...OF_DWELLINGS], before: 3, after: 2.5 },
    { family: "transformer", ids: ["inverter", "solar", "battery", "generator", "busbar"], before: 4, after: 4 },
  ],
};
/** After the ratings: what describes a load, a conductor, a device more closely. In this order. */
export const PASSES: readonly Pass[] = [
  {
    slot: "windings",
    figures: is("windings", "winding"),
    heads: [{ family: "transformer", ids: ["transformer", "autotransformer"], before: 30, after: 30, most: 4 }],
  },
  {
    slot: "end",
    figures: (sense) =>
      sense.is === "term" && sense.sort === "end" && (sense.id === "primary" || sense.id === "secondary"),
    heads: [{ family: "device", before: 2.1, after: 1.9 }, { family: "conductor", before: 1.2, after: 2.9 }],
  },
  {
    slot: "volts",
    figures: (sense) => units("V", "kV")(sense) || is("system")(sense) || isNominal(sense),
    heads: [
      { family: "transformer", ids: ["transformer", "autotransformer"], before: 12, after: 12, most: 4 },
      { family: "load", before: 4, after: 5 },
    ],
  },
  {
    slot: "phase",
    figures: term("phase"),
    heads: [{ family: "load", before: 6, after: 7 }, {
      family: "transformer",
      ids: ["transformer", "autotransformer"],
      before: 8,
      after: 8,
    }],
  },
  {
    // A number that is marked as a count may stand on either side: `8x lamps`, `lamps x8`, `heaters (3) 1.5 kW`.
    slot: "count",
    figures: is("count"),
    heads: [
      { family: "load", before: 3.5, after: 4 },
      { family: "device", before: 2.5, after: 3 },
      { family: "circuit", before: 2.5, after: 3 },
      { family: "conductor", before: 2.5, after: 3 },
      { family: "box", before: 2.5, after: 1.5 },
      { family: "building", ids: ["multifamily"], before: 0.5, after: NEVER },
    ],
  },
  {
    slot: "count",
    figures: (sense) => is("count")(sense) || (sense.is === "number" && Number.isInteger(sense.n)),
    heads: [
      { family: "load", before: 3.5, after: NEVER },
      { family: "device", before: 2.5, after: NEVER },
      { family: "conductor", before: 2.5, after: NEVER },
      { family: "circuit", before: 2.5, after: NEVER },
      { family: "box", before: 2.5, after: NEVER },
      { family: "transformer", ids: ["inverter", "solar", "battery"], before: 1.5, after: NEVER },
      {
        family: "building",
        ids: ["unit", "storey", "storeys-of", "apartment", "two-family", "multifamily", ...OF_PARKS],
        before: 2.5,
        after: NEVER,
      },
    ],
  },
  { slot: "fuel", figures: term("fuel"), heads: [{ family: "load", before: 1.45, after: 1.45 }] },
  { slot: "hours", figures: term("hours"), heads: [{ family: "load", before: 3, after: 5 }] },
  { slot: "gallons", figures: units("gal"), heads: [{ family: "load", before: 4, after: 4 }] },
  { slot: "capacity", figures: units("ton", "BTU/h"), heads: [{ family: "load", before: 5, after: 5 }] },
  { slot: "duty", figures: units("%"), heads: [{ family: "load", ids: ["welder"], before: 5, after: 5 }] },
  { slot: "motorType", figures: term("motorType"), heads: [{ family: "load", before: 5, after: 6 }] },
  { slot: "code", figures: is("letter"), heads: [{ family: "load", before: 8, after: 10 }] },
  { slot: "speed", figures: units("rpm"), heads: [{ family: "load", before: 8, after: 10 }] },
  {
    slot: "pattern",
    figures: is("pattern"),
    heads: [{
      family: "load",
      ids: ["receptacles", "ev-charger", "range", "dryer", "welder", "rv-outlet"],
      before: 3,
      after: 3,
    }],
  },
  {
    slot: "poles",
    figures: is("poles"),
    heads: [{ family: "device", before: 3, after: 3 }, {
      family: "circuit",
      ids: ["circuit"],
      before: 2.5,
      after: NEVER,
    }],
  },
  {
    slot: "ownLength",
    figures: units("ft", "in"),
    heads: [
      { family: "load", ids: ["space-heater", "lighting"], before: 1.2, after: -1 },
      // Loads that are counted by their length.
      {
        family: "load",
        ids: ["show-window", "track-lighting", "multioutlet-assembly"],
        before: 2.5,
        after: 2.5,
      },
    ],
  },
  {
    slot: "length",
    figures: units("ft", "m", "yd"),
    heads: [
      { family: "conductor", not: ["equipment-ground", "grounding-electrode-conductor"], before: 1.2, after: 2 },
      { family: "load", before: -1, after: 0.45 },
    ],
  },
  {
    slot: "temperature",
    figures: units("°C", "°F"),
    heads: [{ family: "conductor", ids: ["wire"], before: -1, after: 0.45 }],
  },
  {
    slot: "share",
    figures: term("share"),
    heads: [{ family: "load", before: 2.5, after: 5 }],
  },
  {
    slot: "area",
    figures: units("ft2", "m2"),
    heads: [
      { family: "space", before: 1.45, after: 1.45 },
      { family: "building", ids: OF_OTHER_USES, before: 1.45, after: 1.45 },
    ],
  },
  { slot: "covering", figures: term("covering"), heads: [{ family: "conductor", before: 2.5, after: 2.5 }] },
  { slot: "finish", figures: term("finish"), heads: [{ family: "space", before: 2.5, after: 2.5, most: 2 }] },
  { slot: "leg", figures: term("leg"), heads: [{ family: "load", before: 2, after: 4 }] },
  { slot: "sets", figures: term("circuit"), heads: [] },
  {
    slot: "metal",
    figures: term("metal"),
    heads: [
      { family: "conductor", before: 2.5, after: 2.5 },
      // `200 A copper service`: of its conductors.
      { family: "device", ids: ["service"], before: 0.45, after: NEVER },
    ],
  },
  {
    slot: "insulation",
    figures: term("insulation", "method"),
    // Of a ground nobody tells the insulation.
    heads: [{ family: "conductor", not: ["equipment-ground", "grounding-electrode-conductor"], before: 2.5, after: 3 }],
  },
];
