/** How people ask for a conversion. */
import type { Cue, Match, Phrase } from "../../text/phrases.ts";
import { hear } from "./heard.ts";
import type { ConversionRequest } from "./question.ts";

/** How each unit is named where no number stands before it. */
const NAMES: Record<NonNullable<ConversionRequest["to"]>, string> = {
  A: "amps?|amperes?|amperage|current|full load (current|amps?)|fla|line current",
  kVA: "k( )?va|kilovolt( )?amps?",
  VA: "va|volt( )?amps?|volt amperes?",
  kW: "kw|kilowatts?|power",
  W: "w|watts?|wattage",
  hp: "hp|horse( )?power",
  "°F": "°( )?f|f|fahrenheit|deg(rees?)? f(ahrenheit)?",
  "°C": "°( )?c|c|celsius|centigrade|deg(rees?)? c(elsius)?",
  ft: "feet|ft|foot",
  m: "meters?|metres?|m",
  mm2: "mm( )?({n}|²|2)|sq(uare)?\\.?( )?mm|square millimet(er|re)s?|metric( size)?",
  AWG: "awg|american( wire)? gauge|gauge( size)?|wire gauge",
};
const TARGETS = Object.values(NAMES).join("|");
const ELECTRIC = [NAMES.A, NAMES.kVA, NAMES.VA, NAMES.kW, NAMES.W, NAMES.hp].join("|");
const POWER = "({kW|W|VA|kVA|MVA|hp})";
const ASKS = "(in|to|into|as|how many|how much|what( is the| are the|'s the)?|equals?|=|find( the)?|to get)";

export const cues: readonly Cue[] = [
  { pattern: "convert(s|ed|ing)?|conversion", points: 3 },
  { pattern: `${POWER}[^.?!]*(\\s|[,.?!;:])+${ASKS} (${NAMES.A})`, points: 3 },
  {
    pattern:
      `(${NAMES.A}) (for|of|from|does|do|is|at|will|would|drawn by)( an?| the)? (${POWER}|([a-z,]|\\s)*${POWER})`,
    points: 3,
  },
  { pattern: `({A}|${POWER})[^?!]*(\\s|[,.?!;:])+${ASKS} (${ELECTRIC})`, points: 2 },
  {
    pattern: `(how many|how much|what) (${ELECTRIC})( is| are| does| do| will| would)*[^?!]*({A}|${POWER})`,
    points: 2,
  },
  {
    pattern:
      `({°C|°F}|{ft|in}|{mm2|kcmil}|{size})( copper| wire| cable)*( =| equals?| is)?,?( in| to| into| as)( what)? (${TARGETS})`,
    points: 3,
  },
  {
    pattern: `(what|which|how many) (${TARGETS}) (is|are|in|for|equals)( the)? ({°C|°F}|{ft|in}|{mm2|kcmil}|{size})`,
    points: 3,
  },
  { pattern: `${POWER}[^.?!]* (full load )?(${NAMES.A})([?.]|\\s)*$`, points: 3 },
  { pattern: `{hp}( motor)?,?( =| equals?| is)?( in| to| into| as) (${NAMES.kW}|${NAMES.W})`, points: 4 },
  { pattern: `(how many|what) (${NAMES.kW}|${NAMES.W}) (is|are|in|does|equals)( an?)? {hp}`, points: 4 },
  { pattern: "{mm2}", points: 2 },
  // What is sized is another question.
  { pattern: "(wires?|cables?|breakers?|fuses?|conductors?|ground|panel|service|feeder|sub ?panel)", points: -2 },
  { pattern: "voltage drop|vd|drop|transformers?|demand|load calc|fault|ambient|ampacity|mca|mocp", points: -3 },
  { pattern: "{ft}[^.?!]*(away|run)", points: -2 },
];

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });
const IS = "(( )?(is|are|of|at|=|:|@|about))*( )?";
const share = (m: Match): number | undefined => {
  if (/\b(unity|one)\b/.test(m.text)) return 1;
  const percent = m.quantity("%");
  return percent ? Number(percent.value) / 100 : m.numbers[0];
};

export const phrases: readonly Phrase[] = [
  // First, or its second word would be read as what is asked for.
  phrase("direct current", "dc|direct current|battery", (_, { draft }) => void (draft.circuit = "direct current")),
  phrase(
    "efficiency",
    `(at |with |and )*(an? )?({%}|{n})( motor)? (efficient|efficiency|eff)|(at |with |and )*(an? )?(efficiency|eff)${IS}({%}|{n})`,
    (m, { draft }) => {
      const said = m.quantity("%") ?? { value: m.numbers[0]! <= 1 ? m.numbers[0]! * 100 : m.numbers[0]!, unit: "%" };
      draft.efficiency = said;
    },
  ),
  phrase(
    "power factor",
    `(at |with |and )*(an? )?(power factor|pf|cos phi|cos φ)${IS}(a )?({n}|{%}|unity|one)|(at |with |@ |and )*(an? )?({n}|{%}|unity)( lagging)? (power factor|pf)|unity`,
    (m, { draft }) => void (draft.powerFactor = share(m)),
  ),
  ...(Object.entries(NAMES) as [NonNullable<ConversionRequest["to"]>, string][]).map(([unit, names]) =>
    phrase(
      `into ${unit}`,
      `(convert(ed)? )?(${ASKS} )+(the |what )?(${names})( is| are| does| do| will| would| draw| draws| drawn| pull)*`,
      (_, { draft }) => void (draft.to = unit),
    )
  ),
  ...(["A", "kVA", "hp"] as const).map((unit) =>
    phrase(`${unit} of`, `(${NAMES[unit]}) (for|of|from|drawn by|does)( an?| the)?(?= )`, (_, { draft }) => {
      draft.to ??= unit;
    })
  ),
  phrase("bare amperes", `(full load )?(${NAMES.A})(?=([?.]|\\s)*$)`, (_, { draft }) => void (draft.to ??= "A")),
  phrase("power", `(an? |the )?${POWER}( of| worth of)?`, (m, reading) => {
    hear(reading).powers.push(m.quantity("kW", "W", "VA", "kVA", "MVA", "hp")!);
  }),
  phrase(
    "current",
    "{A}( of current| load| draw)?",
    (m, reading) => void hear(reading).currents.push(m.quantity("A")!),
  ),
  phrase("voltage", "(at |on |@ )?{V|kV}( ac| nominal| supply| line to line)?", (m, reading) => {
    hear(reading).volts ??= m.quantity("V", "kV");
  }),
  phrase(
    "system",
    "(at |on |@ )?{system}( volts?| v)?",
    (m, reading) => void (hear(reading).system = m.token("system")!.system),
  ),
  phrase("phase and bare voltage", "{phase}( at| on| @)? {n}|{n} {phase}", (m, reading) => {
    const volts = m.numbers[0]!;
    if (!BARE_VOLTAGES.includes(volts) || hear(reading).volts) return false;
    hear(reading).volts = { value: volts, unit: "V" };
    reading.draft.circuit = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase";
  }),
  phrase("bare voltage", "(at|on|@)( )?{n}( v)?", (m, reading) => {
    const volts = m.numbers[0]!;
    if (!BARE_VOLTAGES.includes(volts) || hear(reading).volts) return false;
    hear(reading).volts = { value: volts, unit: "V" };
  }),
  phrase("phase", "(a )?{phase}( system| service| supply| circuit| load| motor)?", (m, { draft }) => {
    draft.circuit = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase";
  }),
  phrase("temperature", "(minus |negative )?{°C|°F}", (m, { draft }) => {
    const said = m.quantity("°C", "°F")!;
    const value = Number(said.value);
    draft.measure = { value: /minus|negative/.test(m.text) ? -value : value, unit: said.unit };
    delete draft.size;
  }),
  phrase("cross-section", "{mm2|kcmil}( wire| cable| conductor)?", (m, { draft }) => {
    draft.measure = m.quantity("mm2", "kcmil");
    delete draft.size;
  }),
  phrase("length", "{ft|in}", (m, { draft }) => {
    draft.measure = asTyped(m);
    delete draft.size;
  }),
  phrase("size", "{size}( copper| aluminum)?( wire| cable| conductor)?", (m, { draft }) => {
    draft.size = m.token("size")!.size;
    delete draft.measure;
  }),
  phrase("politeness", "convert(s|ed|ing)?|conversion( of)?|equals?|equivalent|heater|load|motor", () => {}),
];

/** A number beside the word phase can only be a voltage if it is one of these. */
const BARE_VOLTAGES = [110, 115, 120, 208, 220, 230, 240, 277, 460, 480, 575, 600];

/** Metres and yards come as feet: what was typed is what is converted. */
function asTyped(m: Match): { value: number | string; unit: string } {
  const token = m.token("quantity")!;
  const typed = /^([\d.,]+)\s*(m|y)/i.exec(token.from ?? "");
  if (!typed) return m.quantity("ft", "in")!;
  return { value: Number(typed[1]!.replaceAll(",", "")), unit: /m/i.test(typed[2]!) ? "m" : "yd" };
}
