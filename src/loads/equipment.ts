/**
 * Equipment of occupancies that are no dwelling: what it is called, which rule takes it, and whether it usually stands between a
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
export type Equipment = {
  name: string;
  group: EquipmentGroup;
  /** Usually on the lighting voltage. */
  toNeutral?: true;
  /** Driven by a motor: counts for the largest one. */
  motor?: true;
  /** Runs for three hours or more wherever nothing else is told. */
  continuous?: true;
};

/** Keys are the reader's own terms. */
export const EQUIPMENT = {
  "kitchen-equipment": { name: "kitchen equipment", group: "kitchen" },
  fryer: { name: "fryer", group: "kitchen" },
  griddle: { name: "griddle", group: "kitchen" },
  broiler: { name: "broiler", group: "kitchen" },
  range: { name: "range", group: "kitchen" },
  "wall-oven": { name: "oven", group: "kitchen" },
  cooktop: { name: "cooktop", group: "kitchen" },
  steamer: { name: "steamer", group: "kitchen" },
  "steam-kettle": { name: "steam kettle", group: "kitchen" },
  "steam-table": { name: "steam table", group: "kitchen" },
  "food-warmer": { name: "food warmer", group: "kitchen" },
  "hot-plate": { name: "hot plate", group: "kitchen" },
  "booster-heater": { name: "booster heater", group: "kitchen" },
  dishwasher: { name: "dishwasher", group: "kitchen" },
  disposer: { name: "disposer", group: "kitchen" },
  microwave: { name: "microwave", group: "kitchen", toNeutral: true },
  "coffee-maker": { name: "coffee maker", group: "kitchen", toNeutral: true },
  toaster: { name: "toaster", group: "kitchen", toNeutral: true },
  "food-mixer": { name: "food mixer", group: "kitchen" },
  slicer: { name: "slicer", group: "kitchen", toNeutral: true },
  "water-heater": { name: "water heater", group: "water heating" },
  "tankless-water-heater": { name: "tankless water heater", group: "water heating" },
  furnace: { name: "electric furnace", group: "heating" },
  "space-heater": { name: "space heater", group: "heating" },
  "heat-pump": { name: "heat pump", group: "heat pump", motor: true },
  "supplemental-heat": { name: "supplemental heat", group: "supplemental heat" },
  "air-conditioner": { name: "air conditioner", group: "cooling", motor: true },
  "room-air-conditioner": { name: "room air conditioner", group: "cooling", motor: true },
  refrigeration: { name: "refrigeration unit", group: "motor", motor: true },
  refrigerator: { name: "refrigerator", group: "other", toNeutral: true },
  "air-handler": { name: "air handler", group: "motor", motor: true },
  "range-hood": { name: "hood fan", group: "motor", motor: true },
  fan: { name: "fan", group: "motor", motor: true },
  pump: { name: "pump", group: "motor", motor: true },
  compressor: { name: "compressor", group: "motor", motor: true },
  "air-compressor": { name: "air compressor", group: "motor", motor: true },
  "hermetic-compressor": { name: "refrigeration compressor", group: "motor", motor: true },
  machine: { name: "machine", group: "motor", motor: true },
  motor: { name: "motor", group: "motor", motor: true },
  "garage-door-opener": { name: "door opener", group: "motor", motor: true, toNeutral: true },
  dryer: { name: "dryer", group: "other" },
  "ev-charger": { name: "EV charger", group: "ev", continuous: true },
  sign: { name: "sign", group: "sign", toNeutral: true, continuous: true },
  welder: { name: "welder", group: "welder" },
  kiln: { name: "kiln", group: "other" },
  "snow-melting": { name: "snow melting", group: "other", continuous: true },
  other: { name: "other load", group: "other" },
} as const satisfies Readonly<Record<string, Equipment>>;

export type EquipmentKind = keyof typeof EQUIPMENT;
export const EQUIPMENT_KINDS = Object.keys(EQUIPMENT) as [EquipmentKind, ...EquipmentKind[]];
export const equipment = (kind: EquipmentKind): Equipment => EQUIPMENT[kind];
