/** What makes a text a question on one branch circuit. */
import type { Cue } from "../../text/phrases.ts";

const ANY_LOAD =
  "(tankless water heater|water heater|charger|evse|ev|baseboard|heater|dryer|range|cooktop|oven|hot tub|spa|welder|kiln|sauna|tankless|outlet|receptacle|dishwasher|microwave|disposal|disposer|lights?|lighting)s?";

const WIRE_OR_BREAKER = "(breaker|wire|cable|circuit|conductor|gauge|awg|romex|{size}|{cable})s?";
const STRONG_LOAD =
  "(water heater|charger|evse|baseboard|heater|dryer|range|cooktop|oven|hot tub|welder|kiln|sauna|tankless|dishwasher|microwave|disposal|disposer|lights|lighting|(rv|dryer|range|welder) (outlet|receptacle|plug)|{A} (outlet|receptacle|plug))s?";

export const cues: readonly Cue[] = [
  { pattern: "branch circuits?|dedicated circuits?|individual circuits?", points: 3 },
  { pattern: "(branch|dedicated|individual) circuits? (for|to)", points: 3 },
  // A subpanel may be where the circuit comes from.
  {
    pattern:
      "from (a |an |the |my |our |existing |electrical |garage |main |basement )*sub( )?panel.{0,200}(outlet|receptacle|plug|charger|connector|evse)",
    points: 5,
  },
  { pattern: "(one|single|a|an) ({V} |{A} |rv |ev |dryer |welder )*({n}-{n} )?(outlet|receptacle|plug)", points: 1 },
  {
    pattern:
      "circuit (for|to)|circuit size|(wire|cable|breaker|circuit)s?( size)?,?( and|&|\\+| or)? (size )?(wire|cable|breaker|gauge|conductor)s?",
    points: 2,
  },
  {
    pattern: "(what|which|how big( of)?( a)?|smallest|right|proper) (size )?([a-z]+ )?(breaker|circuit|wire|cable)",
    points: 1,
  },
  { pattern: "breakers?|ocpd|cb|circuit", points: 1 },
  { pattern: "wires?|cables?|conductors?|gauge|awg|romex|{cable}|{size}", points: 1 },
  {
    pattern:
      "({size}|{cable}|gauge|awg|wire)[^.?!]{0,40}{A}( [a-z]+)? (breaker|circuit|fuse)|{A} (breaker|circuit|fuse)[^.?!]{0,40}({size}|{cable}|gauge|awg|wire)",
    points: 1,
  },
  { pattern: "{A} circuit|on (one|a|an) ({V} |{A} )*circuit", points: 1 },
  // Nothing but an appliance and its rating: what it wants is a circuit.
  {
    pattern:
      `^(an? |one |my |new |electric |storage |tank |hardwired |wall |{rating} |{V} |{gal} )*${ANY_LOAD}((,|:)?( is| at| of| rated)*,? ({rating}|{V}|{n}|{phase}|hardwired|electric|heaters?))*\\W*$`,
    points: 3,
  },
  { pattern: "{A},? ({V}|{phase}|{system})( {phase})? (continuous )?(circuit|load)", points: 2 },
  { pattern: "(max(imum)?|longest|farthest|furthest) (distance|run|length)|how (far|long)", points: -2 },
  { pattern: "continuous( load)?", points: 1 },
  { pattern: "{A} continuous( load)?|continuous( load)?( of)? {A}", points: 1 },
  { pattern: "{kW|W|kVA|VA|A} (load|heater|charger)|{kW|W}[^.?!]{0,40}(breaker|circuit|wire)", points: 1 },
  { pattern: ANY_LOAD, points: 1 },
  {
    pattern:
      "(wall|mobile) connector|charge amps|car charg(er|ing)|ev charg(er|ing)|evse|nema {n}-{n}|{n}-{n} (outlet|receptacle|plug)|rv (outlet|hookup|site|pedestal)",
    points: 2,
  },
  { pattern: `${STRONG_LOAD}[^.?!]{0,80}${WIRE_OR_BREAKER}|${WIRE_OR_BREAKER}[^.?!]{0,80}${STRONG_LOAD}`, points: 2 },
  {
    pattern:
      "(what|which) (size )?(equipment )?(ground|egc|gec|bond|jumper|conduit|pipe|raceway|box)|box fill|conduit fill|fit (in|into)|grounding electrode|ground rods?|bonding|" +
      "{in3}|cubic inch(es)?|fault|short circuit|(micro )?inverters?|solar|pv|back( )?fe(d|ed)|bus( )?bar|panel schedule|(balance|leg)s?|torque",
    points: -3,
  },
  {
    pattern:
      "((what|how much) )?(load|demand|va) (on|of|for) the branch circuit|(equipment )?ground (for|of|on)|upsized",
    points: -3,
  },
  // Counting outlets is not sizing the circuit.
  { pattern: "how many (duplex |wall |general )*(receptacles?|outlets?|recepts?|lights?|fixtures?)", points: -5 },
  // Kinds that answer more than one circuit take these.
  {
    pattern:
      "(?<!from ((a|an|the|my|our|existing|electrical|garage|main|basement) )*)sub( )?panels?|feeders?|service (entrance|size|upgrade)|{ft2}|{hp}|mca|mocp|rla|{kVA}? transformer",
    points: -2,
  },
];
