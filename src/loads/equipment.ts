import { NAMES } from "./names.ts";

/**
 * Equipment of occupancies that are no dwelling: which rule takes it, and whether it usually stands between a
 * line and the neutral (common practice, no source; a told voltage always wins).
 */
export type EquipmentGroup =
  | "kitchen"
  | "water heating"
  | "heating"
  | "heat pump"
  | "supplemental heat"
  | "cooling"
  | "motor"
  | "ev"
  | "sign"
  | "welder"
  | "other";
type Equipment = {
  /** As printed on an answer. */
  name: string;
  group: EquipmentGroup;
  /** Usually on the lighting voltage. */
  toNeutral?: true;
  /** Driven by a motor: counts for the largest one. */
  motor?: true;
  /** Runs for three hours or more wherever nothing else is told. */
  continuous?: true;
};

/** Keys are the reader's own terms; a name stands where it is another than at home. */
const EQUIPMENT = {
  "kitchen-equipment": { group: "kitchen" },
  fryer: { group: "kitchen" },
  griddle: { group: "kitchen" },
  broiler: { group: "kitchen" },
  range: { group: "kitchen" },
  "wall-oven": { name: "oven", group: "kitchen" },
  cooktop: { group: "kitchen" },
  steamer: { group: "kitchen" },
  "steam-kettle": { group: "kitchen" },
  "steam-table": { group: "kitchen" },
  "food-warmer": { group: "kitchen" },
  "hot-plate": { group: "kitchen" },
  "booster-heater": { group: "kitchen" },
  dishwasher: { group: "kitchen" },
  disposer: { group: "kitchen" },
  microwave: { name: "microwave", group: "kitchen", toNeutral: true },
  "coffee-maker": { group: "kitchen", toNeutral: true },
  toaster: { group: "kitchen", toNeutral: true },
  "food-mixer": { group: "kitchen" },
  slicer: { group: "kitchen", toNeutral: true },
  "water-heater": { group: "water heating" },
  "tankless-water-heater": { group: "water heating" },
  furnace: { name: "electric furnace", group: "heating" },
  "space-heater": { name: "space heater", group: "heating" },
  "heat-pump": { group: "heat pump", motor: true },
  "supplemental-heat": { group: "supplemental heat" },
  "air-conditioner": { group: "cooling", motor: true },
  "room-air-conditioner": { group: "cooling", motor: true },
  refrigeration: { group: "motor", motor: true },
  refrigerator: { group: "other", toNeutral: true },
  "air-handler": { group: "motor", motor: true },
  "range-hood": { name: "hood fan", group: "motor", motor: true },
  fan: { group: "motor", motor: true },
  pump: { group: "motor", motor: true },
  compressor: { group: "motor", motor: true },
  "air-compressor": { group: "motor", motor: true },
  "hermetic-compressor": { group: "motor", motor: true },
  machine: { group: "motor", motor: true },
  motor: { group: "motor", motor: true },
  "garage-door-opener": { name: "door opener", group: "motor", motor: true, toNeutral: true },
  dryer: { group: "other" },
  "ev-charger": { group: "ev", continuous: true },
  sign: { group: "sign", toNeutral: true, continuous: true },
  welder: { group: "welder" },
  kiln: { group: "other" },
  "snow-melting": { group: "other", continuous: true },
  other: { group: "other" },
} as const satisfies Readonly<Partial<Record<keyof typeof NAMES, Omit<Equipment, "name"> & { name?: string }>>>;

export type EquipmentKind = keyof typeof EQUIPMENT;
export const EQUIPMENT_KINDS = Object.keys(EQUIPMENT) as [EquipmentKind, ...EquipmentKind[]];
export const equipment = (kind: EquipmentKind): Equipment => ({ name: NAMES[kind], ...EQUIPMENT[kind] });
