/** How people ask for a voltage drop. What may be meant in two ways is put together in settle.ts. */
import type { Cue, Match, Phrase } from "../../text/phrases.ts";
import { wiringPhrases } from "../wiring.ts";
import { type Feet, hear } from "./heard.ts";

const WIRE = "(wires?|conductors?|cables?|gauge|awg|feeder wire)";
const METAL = "(copper|cu|aluminum|aluminium|alum|al)";
const LOADS =
  "(lights?|lamps?|fixtures?|luminaires?|poles?|bollards?|heads?|floods?|floodlights?|bulbs?|leds?|heaters?|receptacles?|outlets?|loads?)";
const AMOUNT = "({A}|{power}|{hp})";
/** What may stand between a quantity's name and its value. */
const IS = "(( )?(is|are|of|at|=|:|@|about|around|approx.?|roughly|max|only|up to))*( )?";
const START = "(starting|start up|startup|inrush|surge|spike|peak|locked rotor|lra)";
const DROP = "(voltage drop|volt drop|volts drop|voltage loss|line drop|line loss|vd|drop)";
const PUMP = "((well|water|sump|irrigation|submersible|pool|jet) )*pumps?|motors?|compressors?|fans?|blowers?";

export const cues: readonly Cue[] = [
  { pattern: DROP, points: 4 },
  { pattern: "voltage drop of a wire run", points: 3 },
  {
    pattern: "(volts|voltage) (do|will|would|does|am|are) (i|we|it) (lose|losing|have left)|lose|losing",
    points: 2,
  },
  {
    pattern:
      "how far|how long (a|of a|can)( run)?|(longest|furthest|farthest) (run|distance|length|i|it|we|can)*|max(imum)? (run|distance|length|one way)|greatest (distance|length)",
    points: 4,
  },
  { pattern: "{ft}", points: 1 },
  { pattern: `(${WIRE}|size)[^.?!]*{ft}|{ft}[^.?!]*(${WIRE}|size)`, points: 2 },
  { pattern: "(draws?|drawing|pulls?|pulling)( about| around| up to| only| of)* {A}|{A} (actual )?draw", points: 1 },
  { pattern: `${LOADS} [^.?!]*(at|every|spaced)( about)? {ft}|{ft}( foot)? (intervals?|apart|spacing)`, points: 4 },
  {
    pattern:
      "{ft} (away|from|run|one way|to the|out)|(from|away|distance|run of|run)( is| of| about| approx.?| approximately)* {ft}",
    points: 2,
  },
  {
    pattern: "gates? (openers?|operators?|motors?)|(yard|driveway|post|pole|street|landscape|path) lights?",
    points: 1,
  },
  { pattern: "{hp}", points: -1 },
  // What a motor runs and starts on, over a distance, is asked for its drop.
  { pattern: `{ft}[^?]*{W|kW|A}( to| of)? ${START}|${START}[^?]*{W|kW|A}[^?]*{ft}`, points: 3 },
  // Kinds that answer more than the drop take these first.
  { pattern: "sub( )?panels?|feeders?|grounding|equipment ground|egc", points: -3 },
  {
    pattern:
      "hot tubs?|spas?|ev|evse|chargers?|ranges?|ovens?|cooktops?|dryers?|water heaters?|baseboards?|welders?|air conditioners?|heat pumps?|ac",
    points: -2,
  },
  { pattern: "garage|barn|shop|(?<!from (the|my|a) ){A} (panel|service)", points: -1 },
  { pattern: "(what|which) (size )?(breaker|fuse|ground)|overloads?|full load current|flc|mca|mocp", points: -2 },
  { pattern: "box fill|conduit fill|(what|which) size conduit|transformer", points: -2 },
];

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });

const metalOf = (text: string): "copper" | "aluminum" | undefined =>
  /\b(copper|cu)\b/.test(text) ? "copper" : /\b(aluminum|aluminium|alum|al)\b/.test(text) ? "aluminum" : undefined;
const sizeOf = (m: Match): string | undefined =>
  m.token("size")?.size ?? m.token("cable")?.size ?? m.token("sizes")?.sizes[0];
const share = (m: Match): number | undefined => {
  if (/\b(unity|one|resistive)\b/.test(m.text)) return 1;
  const percent = m.quantity("%");
  return percent ? Number(percent.value) / 100 : m.numbers[0];
};
const anyLoad = (m: Match) => m.quantity("A", "W", "kW", "VA", "kVA", "hp");
/** Sizes a bare number before a metal may be: `12 copper`. */
const BARE_SIZES = ["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1"];

/** A number beside the word phase can only be a voltage if it is one of these. */
const BARE_VOLTAGES = [120, 208, 220, 230, 240, 277, 460, 480, 575, 600];

export const phrases: readonly Phrase[] = [
  phrase("as written by us", "voltage drop of a wire run", () => {}),
  phrase(
    "impedance",
    `((take|using|use|with|at) )*((effective|conductor|ac|wire) )*(impedance|resistance|z|r)${IS}{ohm/kft}|((take|using|use|with|at|is) )*{ohm/kft}( as| is)?( the| of)?( its)?( effective| conductor)*( impedance| resistance| z)?|effective z${IS}{n}`,
    (m, { draft }) =>
      void (draft.impedance = { value: m.quantity("ohm/kft")?.value ?? m.numbers[0]!, unit: "ohm/kft" }),
  ),
  phrase(
    "conductor temperature",
    `(conductor|wire|operating|running) (temperature|temp)${IS}{temperature}|(conductors?|wires?) ((is|are|run|runs|running|operating|hot) )*at {temperature}|(operating|running) at {temperature}|({temperature}|{n} (degrees?|deg)) (conductor|wire|operating) (temperature|temp)s?|(conductor|wire) (temperature|temp)${IS}{n}( degrees?| deg)?`,
    (m, { draft, readAs }) => {
      const bare = m.numbers[0];
      if (bare !== undefined) readAs(`took ${bare} degrees of the conductor as °C`);
      draft.temperature = m.quantity("°C", "°F") ?? { value: bare, unit: "°C" };
    },
  ),
  phrase(
    "power factor",
    `(at |with |of )*(a |an )?(power factor|pf|cos phi|cos φ)${IS}(a )?({n}|{%}|unity|one)|(at |with |@ |of )*(a |an )?({n}|{%}|unity)( lagging)?( power factor| pf)|unity|((purely|pure) )?resistive( load| heater)?`,
    (m, { draft }) => void (draft.powerFactor = share(m)),
  ),
  phrase(
    "constant K",
    "(constant )?k( factor| constant| value)?( )?(is|of|=|:)( )?{n}|constant k {n}",
    (m, { draft }) => void (draft.constant = { value: m.numbers[0]!, unit: "ohm-cmil/ft" }),
  ),
  phrase(
    "limit",
    `((max(imum)?|limit(ed)?( of| to)?|allowed|allowable|allow(ing)?|within|under|below|less than|no more than|not more than|not over|(not|to) exceed|at most|keeps?|keeping|stay|staying|holds?|holding|up to)( the| to| it| a| is| at| of| max| maximum|:|=|,)* )+(${DROP}( of| to| is| at| under| within| below| less than| max| maximum| allowed| no more than|:|=)* )*(at |to |of |under |within |below |less than |no more than )*{%}( max(imum)?)?( ${DROP})?( max(imum)?)?( [(]{V}[)])?|(${DROP} )?(limit |max(imum)? )*(of |at |to |is |with )*(a |an )?{%}( max(imum)?| limit)*( ${DROP})?( or less| max(imum)?| limit| allowed)*( [(]{V}[)])?`,
    (m, { draft }) => void (draft.limit = m.quantity("%")),
  ),
  phrase(
    "limit in volts",
    `((to )?keep( the)? )?${DROP} (limit|max(imum)?|at most|no more than|less than|under|within|not over|not to exceed)( of| is|:)* {V}|(max(imum)?|allowed|allowable|no more than|at most|within|under|limit)( of)? {V}( ${DROP})|{V} (max(imum)?|allowed|allowable|limit|of)( voltage)? ${DROP}|{V} ${DROP}( max(imum)?| allowed| limit)?|((to )?keep( the)? )?${DROP} (to |at )?(at most|no more than|less than|only|under) {V}`,
    (m, { draft }) => void (draft.limit = m.quantity("V")),
  ),
  phrase(
    "spacing",
    "((at|every|spaced|on|in|with|about|roughly) )*{ft}( foot)?( intervals?| apart| spacing| on center| centers| between( each| them| lights| poles)?)+|((every|spaced|each|intervals? of|spacing( of| is|:)?|at every) )((about|at|every|each) )*{ft}( apart| on center)?",
    (m, reading) => void (hear(reading).spacing = m.quantity("ft")),
  ),
  phrase(
    "first of them",
    `(starting|beginning|begins|starts|start|the first|first|1st)( one| {n}| ${LOADS})?( is| at| from| located| standing| comes| being| about|:)* {ft}( out| away| from)*|{ft} to the first( one| {n}| ${LOADS})?`,
    (m, reading) => void (hear(reading).first = m.quantity("ft")),
  ),
  phrase(
    "starting",
    `${START}( current| amps| load| power| draw| to)*${IS}(({A}|{power})|{n}( amps?)?)|({A}|{power})( of| for)?( the)? (${START}|on startup|to start|when (it )?starts?|while starting)( current| amps| power| load)*`,
    (m, { draft }) => void (draft.starting = anyLoad(m) ?? { value: m.numbers[0]!, unit: "A" }),
  ),
  phrase(
    "breaker",
    "((({n}|double|single|two|dbl) (pole|p)|dp|sp|a|an) )*{A}( ({n}|double|single|two) pole| dp| sp)*( gfci| branch| afci)?( breakers?| circuits?| ocpd| ocp| fuses?)|(breakers?|fuses?|ocpd|fused|protected)( is| of| at| by| with| rated| a| an|:|=)* {A}( breakers?| fuses?)?",
    (m, { draft }) => void (draft.breaker = m.quantity("A")),
  ),
  phrase(
    "panel",
    "(a |an |the )*{A}( main| sub)?( )?(panel|subpanel|service|disconnect|load center|main)s?",
    (m, reading) => void (hear(reading).panel = m.quantity("A")),
  ),
  phrase(
    "load at a distance",
    `${AMOUNT}( load| more)? (at|out at) {ft}|at {ft}( there is| is|:)? ${AMOUNT}`,
    (m, reading) => void hear(reading).points.push({ at: m.quantity("ft")!, load: anyLoad(m)! }),
  ),
  phrase(
    "total load",
    `${AMOUNT}( of)? (total|in all|altogether|combined|all together)( load)?|(total|combined)( load| draw| current)?( is| of|:|=)* ${AMOUNT}`,
    (m, reading) => void (hear(reading).total = anyLoad(m)),
  ),
  phrase(
    "counted loads",
    `{n}( of)?( [a-z]+){0,2} ${AMOUNT}( [a-z]+){0,2} ${LOADS}( each| apiece)?|{n}( [a-z]+){0,3} ${LOADS},?( at| of| @| with| drawing| taking| using| that| draw| take| use| is| are| rated)+ ${AMOUNT}( (each|apiece|per ${LOADS}))?|{n}( [a-z]+){0,3} ${LOADS}[,:]? ${AMOUNT} (each|apiece|per ${LOADS})|{n}( [a-z]+){0,3} ${LOADS}`,
    (m, reading) => {
      const heard = hear(reading);
      heard.count = m.numbers[0];
      const each = anyLoad(m);
      if (each) heard.each = each;
      return useOf(m.text, reading.draft);
    },
  ),
  phrase(
    "each load",
    `(each|apiece)( one| ${LOADS})?( is| takes?| draws?| uses?| of| at| pulls?|:|=)* ${AMOUNT}|${AMOUNT} (each|apiece|(per|a) (one|${LOADS}))`,
    (m, reading) => void (hear(reading).each = anyLoad(m)),
  ),
  phrase(
    "actual load",
    `((actual|real|running|measured|continuous|full|load) )*(load|draws?|drawing|pulls?|pulling|current|amperage|takes?|taking|uses?|using|needs?|run|runs)( current)?${IS}${AMOUNT}|(actually|really|only) (drawing|draws?|pulling|pulls?|using|uses?|takes?|taking)${IS}{n}( amps)?( max)?|${AMOUNT}( of)?( actual| real| running| continuous| measured)* (run|running|load|draw|current)`,
    (m, reading) => void hear(reading).actual.push(anyLoad(m) ?? { value: m.numbers[0]!, unit: "A" }),
  ),
  phrase("loads", AMOUNT, (m, reading) => {
    const said = anyLoad(m)!;
    hear(reading).loads.push(said);
  }),
  phrase("system", "{system}( volts?| v)?( system| service| supply)?", (m, reading) => {
    hear(reading).system = m.token("system")!.system;
  }),
  phrase("bare voltage", "(at|on|@)( )?{n}( v)?", (m, reading) => {
    const volts = m.numbers[0]!;
    if (!BARE_VOLTAGES.includes(volts) || hear(reading).volts) return false;
    hear(reading).volts = { value: volts, unit: "V" };
  }),
  phrase("voltage", "(on |at |@ )?{V}( ac| supply| system| circuit| service| nominal)?", (m, reading) => {
    if (hear(reading).volts) return false;
    hear(reading).volts = m.quantity("V")!;
  }),
  phrase(
    "resistance table",
    "(by |with |using |per |from |use )*(the )?(dc|direct current|table 8)( resistances?)?( table)|table 8|(ac|alternating current|table 9)( impedance| resistance)? table|table 9",
    (m, { draft }) => void (draft.table = /8|dc|direct/.test(m.text) ? "direct current" : "alternating current"),
  ),
  phrase("direct current", "dc|direct current|battery|batteries|solar panels?|pv", (_, { draft }) => {
    draft.circuit = "direct current";
  }),
  phrase("phase and bare voltage", "{phase}( at| on| @)? {n}|{n} {phase}", (m, reading) => {
    const volts = m.numbers[0]!;
    if (!BARE_VOLTAGES.includes(volts) || hear(reading).volts) return false;
    hear(reading).volts = { value: volts, unit: "V" };
    reading.draft.circuit = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase";
  }),
  phrase("phase", "(a )?{phase}( system| service| supply| circuit| wye| delta| balanced)?", (m, { draft }) => {
    draft.circuit = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase";
  }),
  phrase(
    "balanced neutral",
    "(balanced )?(multiwire|multi wire|mwbc|three wire|3 wire)( branch)?( circuit)?( balanced)?|balanced( neutral| load| loads)?|neutral (carries nothing|balanced)",
    (m, reading) => {
      if (!/balanced|nothing|mwbc|multi/.test(m.text)) return false;
      hear(reading).balanced = true;
    },
  ),
  phrase("line to neutral", "(line|phase) to neutral|l n", (_, reading) => void (hear(reading).lineToNeutral = true)),
  phrase(
    "conduit",
    "((in|inside|through|with) )?((a|an|galvanized|heavy wall|underground|buried) )*(aluminum|steel|rigid( steel| metal)?|emt|imc|grc|rmc|pvc|plastic|non( )?metallic)( rigid| metal)?( conduit| raceway| pipe| tubing)+|(in|inside|through) ((rigid|galvanized) )*(steel|rigid|emt|imc|grc|rmc|pvc|plastic)|emt|imc|grc|rmc|pvc",
    (m, { draft }) => {
      draft.conduit = /aluminum/.test(m.text) ? "aluminum" : /pvc|plastic|metallic/.test(m.text) ? "PVC" : "steel";
    },
  ),
  phrase("Canadian marking", "r90|rw90|cec|canadian", (_, reading) => {
    reading.readAs("R90 and the CEC are Canadian: this answer is by the US code");
  }),
  phrase(
    "sets",
    "{n}( parallel)? (sets|runs|conductors) in parallel|{n}( parallel)? sets( of)?|{n} parallel( sets| runs| conductors)?|{n} (conductors |wires )?(per|each) phase|parallel( sets| runs)? x {n}",
    (m, { draft }) => void (draft.sets = m.numbers[0]),
  ),
  phrase(
    "round trip",
    "{ft}( of wire| total)? (round trip|there and back|out and back|both ways)|round trip( (length|distance|of|is))* {ft}",
    (m, reading) => {
      const { value } = m.quantity("ft")!;
      const half = Number(value) / 2;
      reading.readAs(`took ${value} ft there and back as ${half} ft one way`);
      hear(reading).lengths.push({ value: half, unit: "ft" });
    },
  ),
  phrase(
    "stretch",
    `{ft} of a size to find|{ft}( long| away| run)?( of| in| on| with)?( a| the)?( [a-z]+){0,2} (of |on |in |with )?({size}|{cable}|{sizes})( ${METAL})?|({size}|{cable}|{sizes})( ${METAL})?( ${WIRE})?( for| over| goes| runs?)?( the| first| from| to| panel| breaker| main)* {ft}`,
    (m, reading) => {
      const [material, size] = [metalOf(m.text), sizeOf(m)];
      hear(reading).stretches.push({ length: m.quantity("ft")!, ...(size && { size }), ...(material && { material }) });
    },
  ),
  phrase(
    "size",
    `({size}|{cable}|{sizes})( gauge| ${WIRE})?`,
    (m, reading) => void hear(reading).sizes.push(sizeOf(m)!),
  ),
  phrase("bare size", `(size |on )*{n} (gauge )?${METAL}`, (m, reading) => {
    if (!BARE_SIZES.includes(String(m.numbers[0]))) return false;
    hear(reading).sizes.push(String(m.numbers[0]));
    reading.draft.material = metalOf(m.text);
  }),
  phrase(
    "conductor wanted",
    `(what|which|smallest|minimum|min|proper|right|correct|least|how (big|large|heavy))( is| of| a| the| my| size| sized| gauge| awg)*( ${METAL})*( ${WIRE}| size)+|(size|resize)( the| a| my)*( ${METAL})* ${WIRE}|${WIRE} size|what (size|gauge|awg|wire)( ${METAL})?`,
    (m, reading) => {
      hear(reading).find = "conductor";
      const metal = metalOf(m.text);
      if (metal) reading.draft.material = metal;
    },
  ),
  phrase(
    "longest run wanted",
    "how far( away)?( can| could| may)?|how long( of)?( a)?( run)?( can)?|(longest|furthest|farthest)( i can go| run| distance| length| it can be| one way)*|max(imum)? (allowable |circuit |one way )?(run|distance|length|one way)( length)?|greatest (distance|length)",
    (_, reading) => void (hear(reading).find = "longest run"),
  ),
  phrase(
    "drop wanted",
    `${DROP}( wanted)?( calculation| calc)?( in)?( volts| percent)*|(how many volts )?(do |will |would )?(i |we )?(lose|losing|loss|lost)( volts| voltage)?|volts lost|(what|how much) voltage( will| do| would| is)*( i| we| it| there)*( have| get| be)*( left)?( at the( far)? (end|load))?`,
    (_, reading) => void (hear(reading).find ??= "drop"),
  ),
  phrase("run", "run", () => {}),
  phrase(
    "check",
    "ok|okay|enough|sufficient|suffice|adequate|acceptable|allowed|big enough|large enough|heavy enough|good enough|too (far|small|long|much|light|thin|undersized)|will (that|it|this) (work|do|be fine)|can i (use|get away with)|does (that|it|this) (work|comply|pass)|(is|are) (it|that|this) (fine|good)|check",
    (_, { draft }) => void (draft.check = true),
  ),
  phrase("gate operator", "(drive(way)? |automatic |entry )*gates?( opener| operator| motor)?", (_, { draft }) => {
    draft.use = "gate operator";
  }),
  phrase("motor", PUMP, (_, { draft }) => void (draft.use = "motor")),
  phrase(
    "lights",
    "((drive( )?way|yard|post|street|sign|parking lot|landscape|led|flood|barn|path) )*(lights?|lighting|lamps?|fixtures?|luminaires?|bulbs?)",
    (_, { draft }) => void (draft.use ??= "lights"),
  ),
  phrase("receptacles", "receptacles?|outlets?|plugs?", (_, { draft }) => void (draft.use ??= "receptacles")),
  phrase(
    "stretches after each other",
    "{ft}( [a-z]+){0,6} (then|plus|followed by)( [a-z]+){0,6} {ft}",
    (m, reading) => {
      const heard = hear(reading);
      heard.joined = true;
      heard.lengths.push(...m.quantities.filter((q): q is Feet => q.unit === "ft"));
    },
  ),
  phrase(
    "length",
    "((at|over|run|runs|is|of|about|approx.?|approximately|roughly|around|for|distance|length|total|just|under|max(imum)?) )*{ft}(,? ({n}|one) way| away| run| long| distance| out| of run)*",
    (m, reading) => void hear(reading).lengths.push(m.quantity("ft")!),
  ),
  ...wiringPhrases,
  phrase("wires", "(({n}|two|three) )?(wires?|conductors?)( circuit)?|control circuit", () => {}),
];

function useOf(text: string, draft: Record<string, unknown>): void {
  if (/lights?|lamps?|fixtures?|luminaires?|poles?|bollards?|floods?|bulbs?|leds?/.test(text)) draft.use ??= "lights";
  else if (/receptacles?|outlets?/.test(text)) draft.use ??= "receptacles";
}
