/** How people ask about one motor. */
import { exact } from "../../core/quantity.ts";
import { type Cue, type Match, type Phrase, type Reading, toJson } from "../../text/phrases.ts";
import {
  bareVolts,
  BREAKER,
  dropPhrases,
  DUAL,
  IS,
  linePhrases,
  machines,
  NONTIME,
  OVERLOAD,
  phrase,
  POWER,
  powerOf,
  put,
  settleLengths,
  settleSupply,
  supplyPhrases,
  typePhrases,
} from "../motor-phrases.ts";
import { wiringPhrases } from "../wiring.ts";
import { RESISTOR_DUTIES } from "./request.ts";

export const cues: readonly Cue[] = [
  { pattern: "{hp}[^?!]*motors?|motors?[^?!]*{hp}", points: 2 },
  { pattern: "voltage drop|volts? dropped|how far|longest run|farthest", points: -2 },
  { pattern: "({size}|{cable})", points: 1 },
  { pattern: "{hp}[^?!]*{ft}|{ft}[^?!]*{hp}", points: 1 },
  { pattern: "motor (branch )?circuit", points: 5 },
  { pattern: "circuits? (for|to|of) (an? |one |the |my |{n} )*({hp}|motor)", points: 5 },
  { pattern: "motors?[^.?!]*{kW}|{kW}[^.?!]*motors?|motor nameplate|nameplate[^.?!]*motor", points: 1 },
  // Two motors are a feeder's.
  { pattern: "{hp}[^.?!]*{hp}", points: -4 },
  { pattern: "motors?", points: 2 },
  { pattern: `{hp}|(hp|horsepower)( )?:?( )?{n}`, points: 2 },
  {
    pattern: `(well|water|irrigation|submersible|booster|air|table|drill) (pumps?|compressors?|saws?|press)`,
    points: 1,
  },
  {
    pattern:
      "full load (current|amps?)|flc|fla|overloads?|service factor|inverse time|itb|locked rotor|lra|code letter",
    points: 1,
  },
  { pattern: "{hp}[^.?!]*(wire|conductors?|breaker|fuses?|overloads?|disconnect|awg|gauge|flc)", points: 1 },
  { pattern: "{hp}[^.?!]*(ground|egc)|(ground|egc)[^.?!]*{hp}", points: 1 },
  { pattern: "(wire|conductors?|breaker|fuses?|overloads?|disconnect|awg|gauge|flc)[^.?!]*{hp}", points: 1 },
  {
    pattern: "disposers?|disposals?|dishwashers?|water heaters?|dwelling|feeder|convert|conversion",
    points: -2,
  },
];

const ANY_AMPERES = "({A}|{n}( )?a?)";
const amperesOf = (m: Match) =>
  m.quantity("A") ?? (m.numbers.length > 0 ? { value: m.numbers[0]!, unit: "A" as const } : undefined);
const plainNumber = (m: Match): number | undefined => {
  const said = m.quantities[0];
  return m.numbers[0] ?? (said ? Number(exact(said.value).valueOf()) : undefined);
};

const nameplatePhrases: readonly Phrase[] = [
  phrase(
    "currents of two voltages",
    "(nameplate |full load |rated )*(fla|amps?|amperes|current)?( )?([:=]( )?)?{pair}( a| amps)?",
    (m, { draft }) => {
      const { larger, smaller } = m.token("pair")!;
      draft.nameplateCurrents = [larger, smaller].map((n) => ({ value: toJson(n), unit: "A" }));
    },
  ),
  phrase(
    "locked-rotor current",
    `(lra|locked rotor( amps?| amperes| current)?|starting (amps?|current))${IS}${ANY_AMPERES}|{A} (lra|locked rotor( amps| current)?)`,
    (m, { draft }) => put(draft, "lockedRotor", amperesOf(m)),
  ),
  phrase(
    "service factor",
    `{sf}|(service factor|serv\\.? fact\\.?|sf|s\\.f\\.)${IS}({n}|{ft2})|({n}|{ft2}) (service factor|sf)|(?<!{n}){ft2}`,
    (m, { draft }) => {
      const marked = m.token("sf");
      const said = marked ? Number(exact(marked.n).valueOf()) : plainNumber(m);
      if (said === undefined || said < 1 || said > 2) return false;
      draft.serviceFactor = said;
    },
  ),
  phrase(
    "temperature rise",
    `(temp(erature)?\\.? )?rise${IS}({°C}|{n}( )?°?( )?c?)|({°C}|{n}( )?(°|deg(rees?)?)( )?c?) (temp(erature)? )?rise`,
    (m, { draft }) =>
      put(
        draft,
        "temperatureRise",
        m.quantity("°C") ?? (m.numbers.length ? { value: m.numbers[0], unit: "°C" } : undefined),
      ),
  ),
  phrase("code letter", "(kva )?code( letter)?( )?[:=]?( )?(?<letter>[a-hj-npr-v])(?![a-z])", (m, { draft }) => {
    draft.codeLetter = m.groups.letter!.toUpperCase();
  }),
  phrase(
    "no power marked",
    "(there is |has |with |shows |says )*(no|without( a)?) (hp|horsepower|power)( rating)?( is)?( marked| on (the|its) (nameplate|plate|name plate)| given| listed)?",
    (_, { draft }) => void (draft.noPowerMarked = true),
  ),
  phrase(
    "thermal protector",
    "(internal(ly)? |integral(ly)? |built in |with )*thermal(ly)? protect(ed|or|ion)",
    (_, { draft }) => void (draft.thermalProtector = true),
  ),
];

const currentPhrases: readonly Phrase[] = [
  phrase(
    "secondary",
    `(rotor |secondary )(full load )?(current|amps?|conductors?)?${IS}(carry )?{A}|{A} (secondary|rotor)( current| amps?)?`,
    (m, { draft }) => void (draft.secondary = { ...(draft.secondary as object), current: m.quantity("A") }),
  ),
  phrase(
    "overload put up",
    `(with |and |set the |setting the )*${OVERLOAD}${IS}(an? )?{A}|{A} ${OVERLOAD}(?! device ampacity)`,
    (m, { draft }) => void (draft.overload = m.quantity("A")),
  ),
  phrase(
    "nameplate current",
    `(full load amp(s|eres|erage)?|full load current on the (nameplate|plate)|f\\.?l\\.?a\\.?|(motor )?(nameplate|name plate|plate)( )?(says|shows|reads|current|amps?|rating|rated|is|of|full load|fla)*|rated (current|amps?)|amps?|amperes)${IS}(an? )?${ANY_AMPERES}( fla| amps?| a)?( on (the )?(name)?( )?plate)?|` +
      `(({A}|{n}) (fla|full load amp(s|eres)|nameplate( current| amps?)?)|{A} (on|by) (the |its )?(name)?( )?plate|{A} (?=(nameplate|motor))|(?<=motor( of| rated| marked| draws| draw| pulls| at)* ){A})`,
    (m, { draft }) => put(draft, "nameplateCurrent", amperesOf(m)),
  ),
];

const devicePhrases: readonly Phrase[] = [
  phrase(
    "nontime-delay fuse put up",
    `{A} ${NONTIME} fuses?|${NONTIME} fuses?${IS}{A}`,
    (m, { draft }) => void (draft.fuse = { rating: m.quantity("A"), type: "nontime-delay" }),
  ),
  phrase("kind of the fuse put up", `${NONTIME}( fuses?)?`, (_, { draft, amending }) => {
    const fuse = draft.fuse as { type?: string } | undefined;
    if (!amending || !fuse) return false;
    draft.fuse = { ...fuse, type: "nontime-delay" };
  }),
  phrase(
    "dual-element fuse put up",
    `{A} ${DUAL}( ${DUAL})* fuses?|${DUAL} fuses?${IS}{A}`,
    (m, { draft }) => void (draft.fuse = { rating: m.quantity("A"), type: "dual-element" }),
  ),
  phrase(
    "fuse put up",
    `{A} fuses?|(fuses?|fused)${IS}(a |an )?{A}`,
    (m, { draft }) => void (draft.fuse = { rating: m.quantity("A") }),
  ),
  phrase(
    "breaker put up",
    `(on |with |by |off |from |using |protected by |behind )*(an? |the |my |our )*{A}(,| )*({V} )?({n} pole |double pole |two pole |three pole |single pole |{phase} |{n}p |dp |2p |3p )*${BREAKER}|` +
      `(on |with |by )*(an? |the )*${BREAKER}( )?(is|of|at|:|rated|=)*( )?{A}( {n} pole)?|{A} ({n} pole|double pole|two pole|three pole|{n}p|dp)`,
    (m, { draft }) => void (draft.breaker = m.quantity("A")),
  ),
  phrase(
    "circuit put up",
    "(on |with |off |from |to )+(an? |the |my |our |existing )*{A} ({n} pole |{V} |{phase} )*(circuits?|outlet|receptacle)",
    (m, { draft, readAs }) => {
      readAs(`took the ${m.quantity("A")!.value} A circuit as its breaker`);
      draft.breaker = m.quantity("A");
    },
  ),
  phrase(
    "share of the device",
    "(at |by |with |using |@( )?|\\(|of )*{%}( of)?( flc| fla| full load( current)?)?( \\))?(?! drop| voltage| vd| power)",
    (m, { draft }) => {
      // Below the current itself it is no device's share: an efficiency, a drop, a duty.
      if (Number(m.quantity("%")!.value) < 100) return false;
      draft.percent = m.quantity("%");
    },
  ),
  phrase(
    "instantaneous-trip breaker",
    "instantaneous( |-)?trip( (circuit )?breakers?)?|mcps?|mag(netic)?( |-)only( breakers?)?",
    (_, { draft }) => void (draft.device = "instantaneous-trip breaker"),
  ),
];
/** Words that name what is asked; a device named alone is the one the percentage and the ground go by. */
const askedPhrases: readonly Phrase[] = [
  phrase(
    "asks for nontime-delay fuses",
    `(max(imum)? |size |largest )*${NONTIME}( fuses?)?`,
    (_, reading) => asks(reading, "nontime-delay fuse"),
  ),
  phrase(
    "asks for dual-element fuses",
    `(max(imum)? |size |largest )*${DUAL}((,| )*${DUAL})*( fuses?)?`,
    (_, reading) => asks(reading, "dual-element fuse"),
  ),
  phrase(
    "asks for breakers",
    `(max(imum)? |largest |standard )*${BREAKER}`,
    (_, reading) => asks(reading, "inverse-time breaker"),
  ),
  phrase(
    "asked",
    `(max(imum)? |min(imum)? |largest |least |smallest |branch |branch circuit |short circuit |ground fault |equipment |motor |correct |proper |right )*` +
      "(fuses?|conductors?|cables?|protection|ocpds?|overcurrent( protection| device)?|devices?|disconnect(ing)?( means| switch| amps?| current)?|safety switch|" +
      "full load (current|amps?)( by table)?|flc|fla|lra|locked rotor( current| amps)?|code letter|grounds?|grounding( conductor)?|egc|equipment ground(ing)?( conductor)?|" +
      `${OVERLOAD}|ampacity|gauge|branch( circuit)?|starter|contactor|legal|allowed|permitted|too (big|large|small)|big enough|large enough|` +
      "settings?|wired|parallel|enough|down|distance|bought|hooked|table|horse( )?power|hp|nec|start(s|ing|up)?|voltage drop|drop|vd|pipe size|friend|panel|breaker panel|breaker box|box|service factor)",
    () => {},
  ),
];

function asks({ draft }: Reading, device: string): void {
  const seen = (draft.asked ??= []) as string[];
  if (!seen.includes(device)) seen.push(device);
}

const specialPhrases: readonly Phrase[] = [
  // The longer name first: "extra-heavy starting" holds "heavy starting", "heavy intermittent" the motor's own duty.
  ...RESISTOR_DUTIES.filter((duty) => duty !== "continuous").toSorted((a, b) => b.length - a.length).map((duty) =>
    phrase(
      duty,
      `${duty.replaceAll("-", " ")}( duty)?( resistors?)?`,
      (_, { draft }) => void (draft.secondary = { ...(draft.secondary as object), resistor: duty }),
    )
  ),
  phrase(
    "drive",
    "(on |with |from |fed by |by |through |off )*(an? |the )*(vfds?|variable (frequency|speed)( drives?)?|adjustable speed( drives?)?|asds?|drives?(?! unit)|inverter drive)(( |,)*(with )?(an? )?(rated )?input( current| amps)?)?( (of |at |is )*{A})?",
    (m, { draft }) => {
      const input = m.quantity("A");
      draft.drive = input ? { input } : {};
    },
  ),
  phrase(
    "wye-delta",
    "(wye|star|y)( )?(start(ed|ing)?)?(,|\\/| )*delta( run)?( start(er|ing|ed)?| controller)*",
    (_, { draft }) => void (draft.reducedStart = "wye-delta"),
  ),
  phrase(
    "part-winding",
    "part winding( start(er|ing|ed)?| controller)*",
    (_, { draft }) => void (draft.reducedStart = "part-winding"),
  ),
  phrase(
    "capacitor",
    "(with )?(a )?(power factor )?(correction )?capacitors?( bank)?",
    (_, { draft }) => void (draft.capacitor = true),
  ),
  phrase(
    "control circuit",
    "({size} )?(control( circuit)?( conductors?| wires?| wiring)|control circuit)( is| are| of| with|,)*( {size})?( (?<where>inside|within|in|leav(es|ing)|outside|out of)( of)?( the)?( enclosure| controller| starter| cabinet)?)?",
    (m, { draft }) => {
      const size = m.token("size")?.size;
      const { where } = m.groups;
      draft.control = {
        ...(draft.control as object),
        ...(size && { size }),
        ...(where && { leaves: !/^(inside|within|in)$/.test(where) }),
      };
    },
  ),
  phrase("duty", "(?<duty>short time|intermittent|periodic|varying)( duty| service| use)?", (m, { draft }) => {
    draft.duty = { ...(draft.duty as object), service: m.groups.duty!.replace(" ", "-") };
  }),
  phrase(
    "rated time",
    "(rated |time rating )*({min}|{n} (and|&|or) {min})( motors?)?( rated| rating| duty)*",
    (m, { draft }) => {
      const minutes = Number(m.quantity("min")!.value);
      const rated =
        { 5: "5-minute", 15: "15-minute", 30: "30-minute and 60-minute", 60: "30-minute and 60-minute" }[minutes];
      if (!rated) return false;
      draft.duty = { ...(draft.duty as object), rated };
    },
  ),
  phrase(
    "continuous rating",
    "continuous(ly)? rated",
    (_, { draft }) => void (draft.duty = { ...(draft.duty as object), rated: "continuous" }),
  ),
];

export const phrases: readonly Phrase[] = [
  ...typePhrases,
  ...specialPhrases,
  ...nameplatePhrases,
  ...dropPhrases,
  ...devicePhrases,
  ...currentPhrases,
  ...linePhrases,
  phrase(
    "power",
    `(an? |the |my |our |one |single )*${POWER}(?! per)`,
    (m, { draft }) => put(draft, "power", powerOf(m)),
  ),
  ...supplyPhrases,
  ...wiringPhrases,
  ...askedPhrases,
  machines,
  bareVolts,
];

/** Lengths are added up; a device asked for alone decides what the share and the ground go by. */
export function settle(reading: Reading): void {
  const { draft } = reading;
  settleSupply(reading);
  settleLengths(reading);
  const asked = draft.asked as string[] | undefined;
  if (asked?.length === 1 && draft.device === undefined && asked[0] !== "inverse-time breaker") draft.device = asked[0];
  if (draft.percent && draft.device === undefined && !asked && !draft.breaker) draft.device = "inverse-time breaker";
  delete draft.asked;
}
