/** Things that a motor drives, and what they do; and the bare words for a load. */
import type { Lexicon } from "./entry.ts";

export const machines = {
  "motor": { says: ["motor", "electric motor", "induction motor", "motor load"], short: ["mtr", "mtrs"] },
  "pump": {
    says: [
      "pump",
      "irrigation pump",
      "fire pump",
      "booster pump",
      "circulator pump",
      "pump motor",
      "circulating pump",
      "bomba",
    ],
  },
  "compressor": { says: ["compressor", "hermetic compressor", "refrigeration compressor"], short: ["comp"] },
  "air-compressor": { says: ["air compressor", "shop compressor", "compressor motor"] },
  "fan": {
    says: [
      "fan",
      "exhaust fan",
      "condenser fan",
      "fan motor",
      "outdoor fan",
      "evaporator fan",
      "ventilator",
      "supply fan",
      "indoor fan",
      "condenser fan motor",
    ],
  },
  "machine": {
    says: [
      "lathe",
      "saw",
      "table saw",
      "band saw",
      "planer",
      "mill",
      "milling machine",
      "drill press",
      "grinder",
      "conveyor",
      "hoist",
      "crusher",
      "mixer",
      "dust collector",
      "elevator",
      "lift",
      "car lift",
      "auger",
      "jointer",
      "press",
      "bandsaw",
      "machine tool",
      "agitator",
      "chipper",
      "cnc",
      "cnc machine",
      "extruder",
      "log splitter",
      "grain dryer fan",
      "crane",
      "escalator",
      "door operator",
    ],
  },
  "gate-operator": { says: ["gate operator", "gate opener", "gate motor", "gate"] },
} as const satisfies Lexicon;

/** A load without a name. */
export const loads = {
  "load": { says: ["load", "equipment", "appliance", "carga"] },
} as const satisfies Lexicon;
