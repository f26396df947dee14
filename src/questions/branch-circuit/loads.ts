/** What a branch circuit may serve: the names people use, the usual voltage, and the rule that sizes its circuit. */
import { CATALOGUE, type LoadKind } from "../../loads/catalogue.ts";

/** Kinds the catalogue of load calculations does not need: outlets, and loads that only a circuit is asked for. */
const OWN = {
  lighting: {
    name: "lighting",
    names: "(led |lot |outdoor |store |office |pole |landscape )*(lighting|lights?|luminaires?)",
    volts: 120,
  },
  receptacles: {
    name: "receptacles",
    names: "(general |convenience |duplex |wall )*(receptacles?|outlets?|recepts?)",
    volts: 120,
  },
  welder: { name: "arc welder", names: "(arc |stick |mig |tig )*welders?", volts: 240 },
  "portable-heater": {
    name: "portable heater",
    names: "(portable|plug in|movable) (electric )?(space )?heaters?",
    volts: 120,
  },
  kiln: { name: "kiln", names: "(pottery |ceramic )?kilns?", volts: 240 },
  refrigerator: { name: "refrigerator", names: "refrigerators?|fridges?|freezers?", volts: 120 },
  "snow-melting": { name: "snow melting", names: "snow melt(ing)?|de ic(ing|er)|heat (trace|tape|cable)", volts: 240 },
  load: { name: "load", names: "loads?", volts: undefined },
} as const;

const FROM_CATALOGUE = [
  "range",
  "wall-oven",
  "cooktop",
  "dryer",
  "water-heater",
  "tankless-water-heater",
  "dishwasher",
  "disposer",
  "trash-compactor",
  "microwave",
  "range-hood",
  "pool-heater",
  "hot-tub",
  "sauna",
  "whirlpool-tub",
  "garage-door-opener",
  "instant-hot-water",
  "furnace",
  "space-heater",
  "thermal-storage-heat",
  "heat-pump",
  "air-conditioner",
  "room-air-conditioner",
  "ev-charger",
] as const satisfies readonly LoadKind[];

export const CIRCUIT_KINDS = [...FROM_CATALOGUE, ...Object.keys(OWN) as (keyof typeof OWN)[]] as const;
export type CircuitKind = typeof CIRCUIT_KINDS[number];

const isOwn = (kind: CircuitKind): kind is keyof typeof OWN => kind in OWN;
/** More ways people write a kind than a load list holds. */
const MORE_NAMES: Partial<Record<CircuitKind, string[]>> = {
  "ev-charger": [
    "electric vehicle charger",
    "ev charging",
    "car charging",
    "wall connector",
    "mobile connector",
    "level {n} charger",
    "electric car",
    "ev plug",
    "charging station",
    "chargers?",
  ],
  "water-heater": ["water tank", "water heater tank"],
  "tankless-water-heater": ["tankless electric water heater", "instant water heater", "point of use water heater"],
  "space-heater": ["baseboard heaters", "baseboards", "unit heater", "garage heater", "cove heater", "infrared heater"],
  sauna: ["sauna stove"],
};

/** A kind's name on an answer. */
export const nameOf = (kind: CircuitKind): string => isOwn(kind) ? OWN[kind].name : CATALOGUE[kind].name;
/** Its usual voltage (common practice, no source), or undefined where that cannot be told. */
export const usualVolts = (kind: CircuitKind): 120 | 240 | undefined =>
  isOwn(kind) ? OWN[kind].volts : CATALOGUE[kind].volts;
/** Its names as a pattern, longest first. */
export const namesOf = (kind: CircuitKind): string => {
  if (isOwn(kind)) return OWN[kind].names;
  const names = [...CATALOGUE[kind].names, ...MORE_NAMES[kind] ?? []];
  return names.sort((a, b) => b.length - a.length).map((name) => name.endsWith("s?") ? name : `${name}s?`).join("|");
};
/** Names that hold another kind's name are looked for before it; names that others hold, after them. */
const FIRST: readonly CircuitKind[] = [
  "tankless-water-heater",
  "instant-hot-water",
  "microwave",
  "range-hood",
  "room-air-conditioner",
  "portable-heater",
  "pool-heater",
];
const LAST: readonly CircuitKind[] = ["space-heater", "lighting", "receptacles"];
/** Kinds in the order their names are looked for; a bare "load" is read by phrases of its own. */
export const BY_NAME: readonly CircuitKind[] = [
  ...FIRST,
  ...CIRCUIT_KINDS.filter((kind) => kind !== "load" && !FIRST.includes(kind) && !LAST.includes(kind)),
  ...LAST,
];

/** Rules that take a load at more than its own current whatever is said of its hours: factor and clause in `tables/`. */
export const SIZING: Partial<Record<CircuitKind, { factor: string; clause: string }>> = {
  "ev-charger": { factor: "continuous-load-factor", clause: "ev-circuit" },
  "water-heater": { factor: "water-heater-factor", clause: "water-heaters" },
  "space-heater": { factor: "space-heating-factor", clause: "heating-circuits" },
  furnace: { factor: "space-heating-factor", clause: "heating-circuits" },
  "thermal-storage-heat": { factor: "space-heating-factor", clause: "heating-circuits" },
  "pool-heater": { factor: "continuous-load-factor", clause: "pool-heaters" },
};
export const COOKING = { range: "range", "wall-oven": "wall-oven", cooktop: "cooktop" } as const;
export const isCooking = (kind: CircuitKind): kind is keyof typeof COOKING => kind in COOKING;
/** Sized by their nameplate's circuit ampacity alone. */
export const isCooling = (kind: CircuitKind): boolean =>
  ["heat-pump", "air-conditioner", "room-air-conditioner"].includes(kind);
/** On 240 V, kinds whose cord or terminal block usually wants a neutral too (common practice, no source). */
export const WITH_NEUTRAL: readonly CircuitKind[] = ["range", "wall-oven", "cooktop", "dryer", "hot-tub"];
/** Where people give amperes and mean the circuit, not what it draws. */
export const RATED_BY_CIRCUIT: readonly CircuitKind[] = [
  "range",
  "wall-oven",
  "cooktop",
  "dryer",
  "hot-tub",
  "sauna",
  "receptacles",
];
/** Kinds that usually run for three hours or more: taken as continuous unless it is said otherwise. */
export const USUALLY_CONTINUOUS: readonly CircuitKind[] = ["lighting", "kiln", "snow-melting"];
/** Single appliances without motors, whose device has an upper limit too. */
export const NONMOTOR: readonly CircuitKind[] = ["water-heater", "tankless-water-heater", "instant-hot-water"];
