/** Boxes, what lies in them beside conductors, and how conductors run through them. */
import { each, type Lexicon } from "./entry.ts";

/** Said behind a metal raceway that is the equipment ground itself. */
const AS_GROUND = [
  "for the ground",
  ...each(["is", "as", "being", "used as", "acts as", "acting as", "serves as"], [
    "",
    "the",
    "my",
    "our",
    "only",
    "the only",
    "my only",
  ], [
    "ground",
    "grounding",
    "ground return",
    "equipment ground",
    "equipment grounding conductor",
    "egc",
    "ground path",
  ]),
];
/** The same the other way round: `the ground is the EMT`. */
const THE_GROUND_IS = each(
  [
    "ground is",
    "ground through",
    "ground thru",
    "ground by",
    "grounded through",
    "grounded by",
    "egc is",
    "grounding by",
    "only ground is",
  ],
  ["", "the", "my"],
);
const groundedBy = (...names: string[]): string[] => [...each(names, AS_GROUND), ...each(THE_GROUND_IS, names)];

export const boxes = {
  "box": {
    says: [
      "box",
      "junction box",
      "device box",
      "octagon box",
      "octagonal box",
      "square box",
      "gang box",
      "single gang",
      "two gang",
      "handy box",
      "outlet box",
      "receptacle box",
      "light box",
      "fixture box",
      "switch box",
      "ceiling box",
      "utility box",
      "masonry box",
      "4 square",
      "1900 box",
      "pancake box",
    ],
    short: ["j box", "jbox", "fs box", "fd box"],
  },
  "pull-box": { says: ["pull box", "pulling box"] },
} as const satisfies Lexicon;

/** What is counted in a box: each opens a fact, and its number stands before it. */
export const boxParts = {
  "clamp": {
    says: [
      "clamp",
      "cable clamp",
      "internal clamp",
      "internal cable clamp",
      "inside clamp",
      "clamp inside",
      "clamped inside",
      "clamped in the box",
      "built in clamp",
      "integral clamp",
      "box clamp",
    ],
  },
  "gfci": { says: ["ground fault receptacle"], short: ["gfci", "gfi", "gfcis", "gfis"] },
  "hickey": { says: ["hickey", "fixture hickey"] },
  "stud": { says: ["fixture stud", "luminaire stud", "stud"] },
  "switch": {
    says: [
      "switch",
      "toggle switch",
      "light switch",
      "single pole switch",
      "three way switch",
      "four way switch",
      "smart switch",
      "dimmer switch",
      "dimmer",
      "wiring device",
      "fan speed control",
      "fan control",
      "speed control",
      "timer switch",
    ],
    short: ["3 way switch", "4 way switch", "3-way", "4-way", "3 way", "4 way", "3-ways", "4-ways", "3 ways", "4 ways"],
  },
  "yoke": { says: ["yoke", "device yoke", "strap", "device strap"] },
  "terminal-block": { says: ["terminal block", "terminal strip"] },
} as const satisfies Lexicon;

/** What is said of a box or of what lies in it, and takes no figure. */
export const boxWords = {
  "angle-pull": { says: ["angle pull", "90 degree pull", "pull at an angle", "corner pull"] },
  // What holds a box up lies outside of it.
  "hanger": { says: ["fan bracket", "fan brace", "fan support", "mounting bracket", "bar hanger", "hanger bar"] },
  // `12/2 in and out`: one comes in and one goes on.
  "in-and-out": {
    says: [
      "in and out",
      "in & out",
      "in/out",
      "in and one out",
      "in and another out",
      "in, one out",
      "in, out",
      "coming in and going out",
    ],
  },
  "loop": { says: ["switch loop", "switch leg", "half hot", "half hot outlet", "half hot receptacle"] },
  "looped": { says: ["looped", "unbroken loop", "loop left unbroken", "coiled"] },
  "no-nipple": { says: ["no nipple", "not a nipple", "isn't a nipple"] },
  "grounded-by-raceway": {
    says: [
      ...each(["pipe", "the pipe"], ["is the ground", "as the ground", "is my ground", "for the ground"]),
      ...each(["conduit", "raceway", "the conduit", "metal conduit", "metal raceway", "steel conduit"], AS_GROUND),
      ...each(THE_GROUND_IS, ["conduit", "raceway", "metal conduit", "metal raceway", "steel conduit", "pipe"]),
    ],
  },
  "grounded-by-aluminum": {
    says: groundedBy("aluminum conduit", "aluminum rigid", "rigid aluminum", "aluminum pipe"),
  },
  "grounded-by-emt": { says: groundedBy("emt", "thinwall", "emt conduit") },
  "grounded-by-fmc": { says: groundedBy("fmc", "flex", "greenfield", "flexible metal conduit", "flex whip") },
  "grounded-by-imc": { says: groundedBy("imc") },
  "grounded-by-lfmc": { says: groundedBy("lfmc", "liquidtight", "sealtight", "liquidtight flex") },
  "grounded-by-rmc": { says: groundedBy("rigid", "rmc", "grc", "rigid conduit") },
  "nipple": { says: ["nipple", "conduit nipple", "chase nipple", "close nipple"] },
  "compact": { says: ["compact", "compact stranded", "compact strand", "compact stranding"] },
  "no-clamps": {
    says: [
      "no clamp",
      "no cable clamp",
      "no internal clamp",
      "no inside clamp",
      "without clamp",
      "without internal clamp",
      "no clamps inside",
      "external clamp",
      "clamp outside",
      "outside connector",
      "external connector",
      "connector outside",
      "connector outside the box",
      "box connector",
      "connector",
      "clamp that doesn't count",
      "clamps that don't count",
      "clamps that dont count",
      "fittings outside",
      "fitting outside",
    ],
  },
  "no-device": { says: ["no device", "no devices", "without device", "only splices", "just splices", "splices only"] },
  "no-ground": {
    says: ["no ground", "without ground", "no equipment ground", "cables without ground", "no grounds"],
  },
  "nothing-else": { says: ["nothing else in it", "nothing else inside", "nothing else in the box"] },
  "spliced": {
    says: ["splice", "spliced", "passing through", "pass through", "passes through", "wire nut", "wirenut"],
  },
  "straight-pull": { says: ["straight pull", "straight through pull", "straight run pull"] },
  "too-full": {
    says: [
      "am i over",
      "are we over",
      "is it over",
      "over the limit",
      "too full",
      "overfilled",
      "overfill",
      "over filled",
      "overstuffed",
      "crammed",
    ],
  },
  "u-pull": { says: ["u pull", "u-pull", "same wall pull"] },
} as const satisfies Lexicon;
