/** How people write what a motor is, in a sentence or as its nameplate stands: shared by the kinds that ask about motors. */
import { exact } from "../core/quantity.ts";
import { type Draft, type Match, type Phrase, type Reading, toJson } from "../text/phrases.ts";
import { DUAL_VOLTAGES } from "./motors.ts";

export const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });

/** What may stand between a quantity's name and its value. */
export const IS = "(( )?(is|are|of|at|as|=|:|@|listed|rated|says|reads|shows|set|about|around|up to|to))*( )?";
export const MACHINES =
  "motors?|pumps?|compressors?|fans?|blowers?|saws?|lathes?|mills?|presses|press|grinders?|conveyors?|crushers?|mixers?|augers?|hoists?|cranes?|elevators?|planers?|machines?|lifts?|agitators?|exhausters?";
const ADJECTIVES =
  "((?<!not )(air|table|band|well|water|sump|pool|irrigation|submersible|jet|booster|centrifugal|condensate|exhaust|supply|drill|milling|bench|wire|two|three|electric|induction|ac|tefc|odp|squirrel cage|cage|induction|farm|grain|dryer|bin|chiller|tower|cooling|process|duplex|identical|same|big|small|large|little|old|new|shop|dust|collector) )*";

/** Nominal and nameplate voltages that a bare number beside a motor may be. */
const BARE_VOLTAGES = [110, 115, 120, 200, 208, 220, 230, 240, 277, 440, 460, 480, 550, 575, 600];
/** A system's line-to-line voltage. */
const LINE_TO_LINE: Record<string, number> = { "208Y/120": 208, "480Y/277": 480, "600Y/347": 600 };

const setVolts = (reading: Reading, value: number | string): void => {
  reading.draft.volts = { value, unit: "V" };
};

/** `480Y/277`, `230/460`, `120/240`: a system has a line-to-line voltage, a dual-voltage nameplate leaves it open. */
function readSystem(m: Match, reading: Reading): void | false {
  const system = m.token("system")!.system;
  const { draft } = reading;
  if ((DUAL_VOLTAGES as readonly string[]).includes(system)) {
    const also = m.numbers[0];
    draft.dualVolts = also === 208 && system === "230/460" ? "208-230/460" : system;
    return;
  }
  if (system === "120/240") {
    // Single-phase motors may be on either voltage of it; three-phase ones are between the lines.
    draft.splitSystem = true;
    return;
  }
  if (LINE_TO_LINE[system] === undefined) return false;
  setVolts(reading, LINE_TO_LINE[system]!);
}

function readVolts(m: Match, reading: Reading): void | false {
  if (m.numbers[0] === 208) return void (reading.draft.dualVolts = "208/230");
  if (/dc\b/.test(m.text)) reading.draft.supply = "direct current";
  setVolts(reading, m.quantity("V")!.value);
}

/** Supply, voltage and kind of motor. Put them after phrases that would lose a voltage or a number to these. */
export const supplyPhrases: readonly Phrase[] = [
  phrase("nameplate supply", "{supply}", (m, reading) => {
    const { volts, phases } = m.token("supply")!;
    setVolts(reading, Number(volts));
    reading.draft.supply = phases === 3 ? "three-phase" : "single-phase";
  }),
  phrase(
    "connected voltage",
    "(connected|wired|hooked up|running|run|used|operat(ed|ing)|fed)( it)?( for| to| at| on| from| with)* (a |an |the |our )*{V}( service| system| supply| panel)?",
    readVolts,
  ),
  phrase(
    "system",
    "(on |from |a |an |the |nameplate |volts?( |:)+)*({n}( v)?(\\/| )*)?{system}( v| volts?)?( service| system| supply| panel)?",
    readSystem,
  ),
  phrase(
    "volts",
    "(on |at |@( )?|from |a |an |the |using |volts( )?)*(?<!drop of )({n}( )?v?( |\\/|to|or)+)?{V}(( )?dc)?( service| system| supply| power| circuit)?",
    readVolts,
  ),
  phrase("volts, label first", "(volts?|voltage|v)( )?[:=]?( )?{n}( v)?( )?(dc)?", (m, reading) => {
    if (!BARE_VOLTAGES.includes(m.numbers[0]!) && !/dc/.test(m.text)) return false;
    setVolts(reading, m.numbers[0]!);
  }),
  phrase("direct-current volts", "{n}( )?v( )?dc", (m, reading) => {
    setVolts(reading, m.numbers[0]!);
    reading.draft.supply = "direct current";
  }),
  phrase("phases, label first", "(phases?|ph)( )?[:=]?( )?{n}(?! hp)", (m, { draft }) => {
    const supply = { 1: "single-phase", 2: "two-phase", 3: "three-phase" }[m.numbers[0]!];
    if (!supply) return false;
    draft.supply = supply;
  }),
  phrase(
    "phases",
    "(on |a )?{phase}( motor| supply| service| power| system| panel)?( {n} wire( service| system)?)?",
    (m, { draft }) => {
      draft.supply = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase";
    },
  ),
  phrase("two-phase", "{n} ph(ase)?", (m, { draft }) => {
    if (m.numbers[0] !== 2) return false;
    draft.supply = "two-phase";
  }),
  phrase(
    "polyphase words",
    "(on )?direct current|d\\.c\\.|dc",
    (_, { draft }) => void (draft.supply = "direct current"),
  ),
  phrase("wires of a pump", "{n} wire(?= (submersible|well|pump|motor))", (m, { draft, readAs }) => {
    if (m.numbers[0] !== 2) return false;
    readAs("a 2-wire pump is single-phase");
    draft.supply = "single-phase";
  }),
];

/** Kind, speed and all that stands on a nameplate beside. */
export const typePhrases: readonly Phrase[] = [
  phrase("wound rotor", "wound rotor|slip ring", (_, { draft }) => void (draft.type = "wound rotor")),
  phrase("synchronous", "synchronous", (_, { draft }) => void (draft.type = "synchronous")),
  phrase(
    "energy-efficient",
    "(nema )?(design b,? )?(energy|premium|high) effici(ent|ency)|design b( )?ee",
    (_, { draft }) => void (draft.type = "design B energy-efficient"),
  ),
  phrase("squirrel cage", "squirrel cage( induction)?", (_, { draft }) => void (draft.type = "squirrel cage")),
  phrase(
    "design letter",
    "(nema )?des(ign)?(\\.)?( code| letter)?( )?:?( )?[abcd]",
    (_, { draft }) => void (draft.type ??= "squirrel cage"),
  ),
  phrase("torque motor", "torque motors?", (_, { draft }) => void (draft.type = "torque")),
  phrase("multispeed", "(multi|two|2|three)( )?speed|{n} speed", (_, { draft }) => void (draft.type = "multispeed")),
  phrase("low speed", "low speed", (_, { draft }) => void (draft.type = "low speed")),
  phrase("shaded pole", "shaded pole", (_, { draft }) => void (draft.type = "shaded pole")),
  phrase("speed", "{rpm}|(rpm|speed) {n}|{n}( )?(rpm|r\\.p\\.m\\.|revs)(?! {n})", (m, { draft }) => {
    draft.speed = m.numbers[0] ?? Number(m.token("rpm")!.n);
  }),
  phrase("frequency", "{hz}|{n}( )?(hz|hertz|cycles?)", () => {}),
  phrase(
    "motor ambient",
    "(max(imum)? )?amb\\.?( )?:?( )?({°C}|{n}( )?c?)|{°C} (max(imum)? )?amb(?!i)",
    (_, { readAs }) => readAs("the nameplate's ambient is the motor's, not the wires'"),
  ),
  phrase(
    "rest of the nameplate",
    "(ins(ul)?(ulation)?\\.? )?(class|cl|ins)\\.?( )?[abfh]( insulation)?|(frame|fr)\\.?( )?({n})?[\\da-z]*|enclosure|encl\\.?|tefc|odp|drip proof|" +
      "(time( rating)? |duty( )?:? ?)(cont(inuous)?)|cont(inuous)?(ly)?( running)?( duty)?|(nema )?(nom(inal)?\\.? )?eff(iciency)?\\.?( )?:?( )?({%}|{n})",
    () => {},
  ),
];

/** Power of one motor, in words or label first. */
export const POWER = "({hp}|(hp|horsepower)( )?[:=]?( )?{n}|{kW})";
export const powerOf = (m: Match) =>
  m.quantity("hp", "kW") ?? (m.numbers.length > 0 ? { value: m.numbers[0]!, unit: "hp" as const } : undefined);

/** A bare voltage: read last, when every other number has found its place. */
export const bareVolts: Phrase = phrase("bare volts", "{n}( v)?", (m, reading) => {
  const value = m.numbers[0]!;
  if (reading.draft.volts || !BARE_VOLTAGES.includes(value)) return false;
  reading.readAs(`took ${value} as ${value} V`);
  setVolts(reading, value);
});

/** Names of driven machines, which carry no fact. */
export const machines: Phrase = phrase(
  "machine",
  `({gal} )?${ADJECTIVES}(${MACHINES})( motors?| units?| panels?)?|nameplate|name plate`,
  () => {},
);

/** What 120/240 V means, once the phases are known: between the lines for three, for one a choice of two. */
export function settleSupply({ draft, readAs }: Reading): void {
  if (!draft.splitSystem) return;
  delete draft.splitSystem;
  const volts = draft.volts as { value: number | string } | undefined;
  if (volts && Number(volts.value) > HIGHER_OF_SPLIT) {
    return readAs("120/240 V does not go with the voltage told, which counts");
  }
  if (draft.supply !== "three-phase") draft.dualVolts = "115/230";
  else draft.volts ??= { value: HIGHER_OF_SPLIT, unit: "V" };
}
const HIGHER_OF_SPLIT = 240;

/** Devices as people name them. */
export const DUAL = "(dual( )?element|time( )?delay|dual element,? time delay|de|slow blow|rk[15])";
export const NONTIME = "(non( )?time( )?delay|ntd|non( )?td|fast acting|one( )?time|single( )?element|class cc)";
export const OVERLOAD =
  "(overloads?|o\\/?ls?|ol|overload (relays?|heaters?|devices?|units?)|heaters?|thermal overloads?)";
export const BREAKER =
  "(inverse( )?time( circuit)? breakers?|inverse( )?time cbs?|circuit breakers?|breakers?|brkrs?|itcbs?|itb|cbs?)";
const LINE = "(wires?|conductors?|cables?|run)";

/** Writes a field where there is something to write. */
export const put = (draft: Draft, field: string, value: unknown): void | false => {
  if (value === undefined) return false;
  draft[field] = value;
};

const share = (m: Match): number | undefined => {
  const percent = m.quantity("%");
  if (percent) return Number(percent.value) / 100;
  const n = m.numbers[0];
  return n === undefined ? undefined : n > 1 ? n / 100 : n;
};

/** Limits of the drop and the power factor. Put them before phrases that read a percentage. */
export const dropPhrases: readonly Phrase[] = [
  phrase(
    "drop limit",
    `(keep(ing)? |hold |it |with |under |within |max(imum)? |at |a |the |limit )*{%}( max(imum)?| or less)?( voltage)?( drop| vd)|(voltage )?drop (limit |to |under |below |at |of |within |max(imum)? )*{%}`,
    (m, { draft }) => void (draft.dropLimit = m.quantity("%")),
  ),
  phrase(
    "no drop limit",
    "(ignore|ignoring|without|no|forget( about)?|disregard)( the| any)?( voltage)? drop( limit)?",
    (_, { draft }) => void (draft.ignoreDrop = true),
  ),
  phrase(
    "power factor",
    `(at |with |of )*(a )?(power factor|pf|p\\.f\\.)${IS}({n}|{%})|({n}|{%}) (power factor|pf)`,
    (m, { draft }) => put(draft, "powerFactor", share(m)),
  ),
];

const HOTTEST_INSULATION = 90;
/** Conductors put up, and how far they go. */
export const linePhrases: readonly Phrase[] = [
  phrase("rating of the wire", "{°C}( rated)? (wires?|conductors?|insulation|cables?)", (m, { readAs }) => {
    // A cooler wire holds its terminations to its own column; a hotter one does not raise theirs.
    if (m.quantity("°C")!.value !== HOTTEST_INSULATION) return false;
    readAs(`took ${HOTTEST_INSULATION} °C as the wire's insulation, which does not raise its terminations`);
  }),
  phrase(
    "sets",
    `{n} (parallel )?(sets?|runs|parallel runs)( of| in parallel)*(( {n})?( -)?( )?{size})?|{n} parallel {size}`,
    (m, { draft }) => {
      draft.sets = m.numbers[0]!;
      const size = m.token("size")?.size;
      if (size) draft.size = size;
    },
  ),
  phrase(
    "length",
    "(and |at |is |run |of |about |approx\\.? |approximately |around |roughly |less than |under |just under |a |an |the |run of |distance |length |,? ?then |will be )*{ft}( total)?( away| long| one way| run| from| to| of| distance| out| total| and)*( (the |my |our )?(main |breaker |service |electrical )*(panel|breaker|source|box|disconnect|well( head)?|house|shop|barn|service))?",
    (m, { draft }) => {
      const lengths = (draft.lengths ??= []) as unknown[];
      lengths.push(m.quantity("ft"));
    },
  ),
  phrase("cable", `{cable}( cable| wire)?( w(ith)? ground)?`, (m, { draft }) => {
    draft.size = m.token("cable")!.size;
  }),
  phrase("sizes", `{sizes}`, (m, { draft }) => void (draft.size = m.token("sizes")!.sizes[0])),
  phrase(
    "size",
    `(on |with |using |for |is |an? |the )*{size}( (stranded|solid))?( ${LINE})?( awg)?`,
    (m, { draft }) => {
      const { size } = m.token("size")!;
      if (["18", "16"].includes(size)) return false;
      draft.size = size;
    },
  ),
  phrase(
    "bare size",
    "(?<before>wire|conductor|with|on|is|use|using|run|some) {n}(?= (wire|gauge|conductors?|copper|cu|al|aluminum|ok|okay|big|enough|large|too))",
    (m, { draft }) => {
      if (!["14", "12", "10", "8", "6", "4", "3", "2", "1"].includes(String(m.numbers[0]))) return false;
      draft.size = String(m.numbers[0]);
    },
  ),
];

/** Lengths told one after another are one run. */
export function settleLengths({ draft, readAs }: Reading): void {
  const lengths = draft.lengths as { value: number | string }[] | undefined;
  if (!lengths) return;
  const total = lengths.reduce((sum, { value }) => sum.add(exact(value)), exact(0));
  if (lengths.length > 1) readAs(`added the lengths to one run of ${total.valueOf()} ft`);
  draft.length = { value: toJson(total), unit: "ft" };
  delete draft.lengths;
}
