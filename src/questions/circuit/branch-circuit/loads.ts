/** What a branch circuit may serve: the usual voltage, and the rule that sizes its circuit. */
import { CATALOGUE, type LoadKind } from "../../../loads/catalogue.ts";
import { NAMES } from "../../../loads/names.ts";

/** Kinds the catalogue of load calculations does not need: outlets, and loads that only a circuit is asked for. */
const OWN = {
  lighting: { volts: 120 },
  receptacles: { volts: 120 },
  welder: { name: "arc welder", volts: 240 },
  "portable-heater": { volts: 120 },
  kiln: { volts: 240 },
  refrigerator: { volts: 120 },
  "snow-melting": { volts: 240 },
  load: { volts: undefined },
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
/** A kind's name on an answer. */
export const nameOf = (kind: CircuitKind): string => kind === "welder" ? OWN.welder.name : NAMES[kind];
/** Its usual voltage (common practice, no source), or undefined where that cannot be told. */
export const usualVolts = (kind: CircuitKind): 120 | 240 | undefined =>
  isOwn(kind) ? OWN[kind].volts : CATALOGUE[kind].volts;
/** Rules that take a load at more than its own current whatever is said of its hours: factor and clause in `tables/`. */
export const SIZING: Partial<Record<CircuitKind, { factor: string; clause: string }>> = {
  "ev-charger": { factor: "continuous-load-factor", clause: "ev-circuit" },
  "water-heater": { factor: "water-heater-factor", clause: "water-heaters" },
  "space-heater": { factor: "space-heating-factor", clause: "heating-circuits" },
  furnace: { factor: "space-heating-factor", clause: "heating-circuits" },
  "thermal-storage-heat": { factor: "space-heating-factor", clause: "heating-circuits" },
  "pool-heater": { factor: "continuous-load-factor", clause: "pool-heaters" },
};
const COOKING = { range: "range", "wall-oven": "wall-oven", cooktop: "cooktop" } as const;
export const isCooking = (kind: CircuitKind): kind is keyof typeof COOKING => kind in COOKING;
/**
 * Whether the conductor may be protected at the next size up: not where receptacles are for whatever is plugged in, nor for
 * household cooking, whose conductors carry the circuit's rating.
 */
export const mayGoUp = ({ loads }: { loads?: readonly { kind: CircuitKind }[] | undefined }): boolean =>
  !(loads ?? []).some(({ kind }) => kind === "receptacles" || isCooking(kind));
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
export const NONMOTOR: readonly CircuitKind[] = [
  "water-heater",
  "tankless-water-heater",
  "instant-hot-water",
  "range",
  "wall-oven",
  "cooktop",
];
/** Appliances that stand loose and are plugged in. */
export const PLUGGED_IN: readonly CircuitKind[] = ["portable-heater", "refrigerator"];
/** Equipment that is fastened in place, whatever its make. */
export const FASTENED: readonly CircuitKind[] = [
  "wall-oven",
  "cooktop",
  "water-heater",
  "tankless-water-heater",
  "instant-hot-water",
  "dishwasher",
  "disposer",
  "trash-compactor",
  "range-hood",
  "pool-heater",
  "hot-tub",
  "sauna",
  "whirlpool-tub",
  "furnace",
  "space-heater",
  "thermal-storage-heat",
];
