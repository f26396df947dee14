/** Conductors: metals, insulation, cables, raceways, what a conductor is for, electrodes. */
import type { Lexicon } from "./entry.ts";

export const metals = {
  "copper": { says: ["copper", "cobre"], short: ["cu", "cooper"] },
  "aluminum": { says: ["aluminum", "aluminium", "alum", "aluminio"], short: ["alumminium", "al"] },
} as const satisfies Lexicon;

export const insulations = {
  "THHN": { short: ["thhn", "thhn/thwn", "thhn-thwn", "thwn/thhn", "thhn/thwn-2", "thwn-2/thhn"] },
  "THWN": { short: ["thwn"] },
  "THWN-2": { short: ["thwn-2", "thwn2", "thwn dash 2", "thwn dash two"] },
  "THW": { short: ["thw"] },
  "THW-2": { short: ["thw-2", "thw2", "thw dash 2"] },
  "THHW": { short: ["thhw"] },
  "XHHW": { short: ["xhhw", "xhh"] },
  "XHHW-2": { short: ["xhhw-2", "xhhw2", "xhhw dash 2", "xhhw dash two"] },
  "RHH": { short: ["rhh"] },
  "RHW": { short: ["rhw"] },
  "RHW-2": { short: ["rhw-2", "rhw2"] },
  "TW": { short: ["tw"] },
  "USE": { short: ["use wire", "use insulation", "use cable", "use conductors"] },
  "USE-2": { short: ["use-2", "use2"] },
} as const satisfies Lexicon;

export const methods = {
  "NM cable": {
    says: ["romex", "nonmetallic sheathed cable", "non metallic cable", "nonmetallic cable"],
    short: ["nm", "nm-b", "nmb", "nm cable", "nm-b cable"],
  },
  "UF cable": { short: ["uf", "uf-b", "ufb", "uf cable", "uf-b cable"] },
  "SE cable": {
    says: ["service entrance cable"],
    short: ["ser", "seu", "se cable", "ser cable", "se-r", "se-u", "seu cable"],
  },
  "MC cable": {
    says: ["metal clad cable", "metal clad", "armored cable", "armoured cable"],
    short: ["mc", "mc cable", "bx"],
  },
  "direct-burial conductors": {
    says: [
      "direct burial",
      "direct buried",
      "direct burial cable",
      "direct burial wire",
      "direct burial conductor",
      "mobile home feeder",
    ],
    short: ["urd", "mhf"],
  },
} as const satisfies Lexicon;

export const raceways = {
  "conduit": {
    says: [
      "conduit",
      "raceway",
      "pipe",
      "tubing",
      "tubo",
      "tuberia",
      "conductor in conduit",
      "ducto",
      "same conduit",
      "same raceway",
      "same pipe",
    ],
  },
  "emt": { says: ["electrical metallic tubing", "emt conduit", "steel emt"], short: ["emt"] },
  "pvc": { says: ["pvc conduit", "plastic conduit", "pvc pipe"], short: ["pvc"] },
  "pvc-40": {
    short: [
      "sch 40 pvc",
      "schedule 40 pvc",
      "pvc 40",
      "sch 40",
      "schedule 40",
      "sched 40",
      "sch40",
      "sch40 pvc",
      "pvc sch 40",
      "pvc sch40",
      "pvc schedule 40",
    ],
  },
  "pvc-80": {
    short: [
      "sch 80 pvc",
      "schedule 80 pvc",
      "pvc 80",
      "sch 80",
      "schedule 80",
      "sched 80",
      "sch80",
      "sch80 pvc",
      "pvc sch 80",
      "pvc sch80",
      "pvc schedule 80",
    ],
  },
  "steel": {
    says: [
      "steel conduit",
      "steel pipe",
      "metal conduit",
      "steel raceway",
      "metal raceway",
      "metallic conduit",
    ],
  },
  "rmc": {
    says: [
      "rigid metal conduit",
      "rigid steel",
      "rigid steel conduit",
      "rigid",
      "rigid conduit",
      "rigid metal",
      "galvanized rigid",
      "grc",
    ],
    short: ["rmc"],
  },
  "imc": { says: ["intermediate metal conduit"], short: ["imc"] },
  "aluminum-conduit": {
    says: [
      "aluminum conduit",
      "aluminum raceway",
      "rigid aluminum conduit",
      "aluminum rigid",
      "aluminum pipe",
      "al conduit",
      "aluminum rigid conduit",
    ],
  },
  "fmc": { says: ["flexible metal conduit", "flex", "flexible conduit", "greenfield"], short: ["fmc"] },
  "lfmc": {
    says: ["liquidtight", "liquid tight", "sealtight", "liquidtight flexible metal conduit", "liquidtight flex"],
    short: ["lfmc"],
  },
  "lfnc": { says: ["liquidtight nonmetallic", "liquidtight flexible nonmetallic conduit"], short: ["lfnc"] },
  "ent": { says: ["electrical nonmetallic tubing", "smurf tube"], short: ["ent"] },
} as const satisfies Lexicon;

/** What brings the supply to a building; the conductors of a service, and a wire. */
export const SERVICE_CONDUCTORS = [
  "service conductor",
  "service entrance conductor",
  "service wire",
  "service entrance wire",
  "service cable",
  "service lateral",
  "service drop",
  "overhead drop",
  "lateral",
  "underground lateral",
  "triplex drop",
  "triplex cable",
  "triplex wire",
  "triplex lateral",
  "triplex overhead",
  "overhead triplex",
  "triplex service drop",
  "quadplex",
  "quadruplex",
  "quadplex drop",
  "quadplex cable",
  "supply conductor",
  "supply side conductor",
] as const;

export const roles = {
  "wire": {
    says: [
      "wire",
      "conductor",
      "cable",
      "wiring",
      "gauge",
      "guage",
      "gage",
      "line conductor",
      "wire size",
      "conductor size",
      "wire gauge",
      "alambre",
      "calibre",
      "conductores",
      "circuit conductor",
      "feeder conductor",
      "feeder wire",
      "feeder cable",
      ...SERVICE_CONDUCTORS,
      "branch conductor",
      "size wire",
      "cable size",
    ],
    short: ["awg", "se conductors", "se conductor", "sec conductors"],
  },
  "ungrounded": {
    says: [
      "ungrounded conductor",
      "hot",
      "hot leg",
      "phase conductor",
      "hot conductor",
      "hot wire",
      "line wire",
      "per phase",
      "per leg",
      "each leg",
      "each phase",
    ],
  },
  "neutral": { says: ["neutral", "grounded conductor", "neutral conductor", "neutral wire", "neutro"] },
  "equipment-ground": {
    says: [
      "green",
      "the green",
      "existing green",
      "equipment grounding conductor",
      "equipment ground",
      "grounding conductor",
      "ground wire",
      "equipment grounding",
      "ground",
      "grounding wire",
      "ground conductor",
      "equipment ground conductor",
      "green wire",
      "tierra",
    ],
    short: ["egc", "gnd", "grnd", "eg", "egcs"],
  },
  "isolated-ground": {
    says: [
      "isolated ground",
      "isolated ground wire",
      "isolated ground conductor",
      "isolated equipment ground",
      "isolated equipment grounding conductor",
      "isolated grounding conductor",
      "insulated isolated ground",
    ],
    short: ["ig", "igs", "ig ground", "ig grounds", "ig wire", "ig wires"],
  },
  "grounding-electrode-conductor": {
    says: [
      "electrode wire",
      "grounding electrode conductor",
      "ground electrode conductor",
      "electrode conductor",
      "grounding electrode wire",
      "grounding electrode",
    ],
    short: ["gec"],
  },
  "main-bonding-jumper": { says: ["main bonding jumper", "main bond jumper"], short: ["mbj"] },
  "system-bonding-jumper": { says: ["system bonding jumper"], short: ["sbj"] },
  "supply-side-bonding-jumper": {
    says: ["supply side bonding jumper", "supply bonding jumper", "supply side jumper"],
    short: ["ssbj"],
  },
  "fixture-wire": { says: ["fixture wire", "luminaire wire"] },
  "pigtail": { says: ["pigtail", "pigtailed"] },
  "bonding-jumper": { says: ["bonding jumper", "bond jumper", "jumper"] },
} as const satisfies Lexicon;

export const electrodes = {
  "water pipe": {
    says: ["water pipe", "metal water pipe", "water line", "copper water pipe", "water main", "water service"],
  },
  "building steel": {
    says: ["building steel", "structural steel", "steel frame", "metal frame", "steel column", "steel building frame"],
  },
  "rod": {
    says: [
      "ground rod",
      "rod",
      "driven rod",
      "plate electrode",
      "rod electrode",
      "pipe electrode",
      "grounding rod",
      "rod only",
    ],
  },
  "concrete-encased": {
    says: [
      "concrete encased electrode",
      "concrete encased",
      "rebar",
      "ufer ground",
      "footing",
      "footing steel",
      "foundation rebar",
      "ufer",
    ],
    short: ["cee"],
  },
  "ground ring": { says: ["ground ring"] },
  // No electrode: what some would have as the way back for a fault.
  "earth": { says: ["earth", "soil", "dirt", "the earth", "the soil"] },
} as const satisfies Lexicon;

export const phases = {
  "single-phase": {
    says: ["single phase", "one phase", "monofasico", "monofasica", "single ph"],
    short: ["1 phase", "1ph", "1-ph", "1ø", "1-phase", "1 ph", "ph 1", "1p"],
  },
  "three-phase": {
    says: ["three phase", "3 phase", "trifasico", "trifasica", "three ph"],
    short: ["3ph", "3-ph", "3ø", "3-phase", "3 ph", "ph 3", "3p"],
  },
  "two-phase": { says: ["two phase"], short: ["2ph"] },
  "direct current": { says: ["direct current"], short: ["dc", "vdc"] },
  "alternating current": { says: ["alternating current"], short: ["vac"] },
} as const satisfies Lexicon;

export const connections = {
  "wye": { says: ["wye", "star", "wye connected"] },
  "delta": { says: ["delta", "delta connected", "open delta"] },
  "two-wire": { short: ["2 wire", "two wire", "2w"] },
  "three-wire": { short: ["3 wire", "three wire", "3w"] },
  "four-wire": { short: ["4 wire", "four wire", "4w"] },
  "high-leg": { says: ["high leg", "high leg delta", "wild leg", "stinger leg", "bastard leg"] },
} as const satisfies Lexicon;

/** Whether a conductor has a covering at all: only its room in a raceway goes by it. */
export const coverings = { "bare": { says: ["bare", "uninsulated"] } } as const satisfies Lexicon;
