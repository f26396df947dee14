/** What a building or a part of it is used for, outside dwellings: what the lighting table of an edition goes by. */
export const OCCUPANCIES = [
  "store",
  "salon",
  "office",
  "bank",
  "restaurant",
  "club",
  "school",
  "church",
  "warehouse",
  "hospital",
  "clinic",
  "hotel",
  "lodge",
  "courthouse",
  "parking garage",
  "automotive",
  "industrial",
  "auditorium",
  "gymnasium",
  "exercise center",
  "library",
  "museum",
  "movie theater",
  "performing arts theater",
  "dormitory",
  "fire station",
  "police station",
  "post office",
  "town hall",
  "convention center",
  "sports arena",
  "transportation",
  "penitentiary",
  "workshop",
  "corridor",
  "storage",
] as const;
export type Occupancy = typeof OCCUPANCIES[number];
/** Which the public enters on foot, and which so have a sign outlet each. */
export const WITH_SIGNS: readonly Occupancy[] = ["store", "salon", "bank", "restaurant"];
/** Where receptacles have a least load by the floor area. */
export const OFFICES: readonly Occupancy[] = ["office", "bank"];
