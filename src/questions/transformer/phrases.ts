/** How people ask about a transformer: its plate as it reads (`75 kVA 480-208Y/120`), a load, devices to check. */
import { type Cue, type Draft, type Match, type Phrase, type Reading, toJson } from "../../text/phrases.ts";
import { wiringPhrases } from "../wiring.ts";
import type { System } from "./request.ts";
import { DEVICES, ONLY, TRANSFORMER } from "./words.ts";

const VOLTS = "({V|kV}|{system}|{n})";
const CONNECTION = "( )?(delta|wye|y|d|δ|l( )?l|line to line)?";
/** Between the two voltages of a plate. */
const TO = "( )?(to|-|–|:|\\/|x|>|→|->|in,? |primary,?( and)?|into|down to|up to|fed)+( )?(an? )?";
const SECONDARY = "(secondary|sec\\.?|low side|output|load side)";
const SECONDARY_WORD = /secondary|\bsec\b|low side|output|load side/;
const PRIMARY = "(primary|pri\\.?|high side|input|line side)";

const GROUNDING = "(system bonding jumper|sbj|supply side bonding|gec|grounding electrode)";

export const cues: readonly Cue[] = [
  { pattern: TRANSFORMER, points: 3 },
  {
    pattern: `{kVA|MVA}[^.?!]*{V|kV|n}${CONNECTION}${TO}${VOLTS}|{V|kV|n}${CONNECTION}${TO}${VOLTS}[^.?!]*{kVA|MVA}`,
    points: 6,
  },
  { pattern: `${PRIMARY}[^?!]*${SECONDARY}|${PRIMARY} ${DEVICES}|${SECONDARY} ${DEVICES}`, points: 2 },
  { pattern: "{kVA}", points: 1 },
  // Its grounding is worked out with it, unless the conductors are named: then they are all that counts.
  { pattern: `${GROUNDING}[^]*{kVA}|{kVA}[^]*${GROUNDING}`, points: 4 },
  { pattern: `{size}[^]*${GROUNDING}|${GROUNDING}[^]*{size}`, points: -4 },
  // Fault currents, grounding by itself and feeders have kinds of their own.
  { pattern: "(available )?fault( current)?|short circuit current|aic|kaic|isc|{kA}|infinite bus", points: -6 },
];

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });

/** Voltages that are a transformer's, so that a bare number may be one. */
const VOLTAGES = [
  12,
  16,
  24,
  32,
  48,
  115,
  120,
  200,
  208,
  220,
  230,
  240,
  277,
  347,
  380,
  400,
  415,
  416,
  440,
  460,
  480,
  575,
  600,
];
const isVoltage = (n: number) => VOLTAGES.includes(n) || (n >= 2000 && n <= 35_000);
const SYSTEM: Readonly<Record<System, number>> = { "120/240": 240, "208Y/120": 208, "480Y/277": 480, "600Y/347": 600 };

type Side = "primary" | "secondary";
/** One voltage as its tokens say it: a system names its neutral too. */
type Voltage = { value: number | string; unit: "V" | "kV"; system?: System };

function voltagesOf(m: Match): Voltage[] {
  return m.tokens.flatMap((token): Voltage[] => {
    if (token.is === "system") {
      return token.system in SYSTEM
        ? [{ value: SYSTEM[token.system as System], unit: "V", system: token.system as System }]
        : [];
    }
    if (token.is === "n") {
      const n = Number(token.n);
      return isVoltage(n) ? [{ value: n, unit: "V" }] : [];
    }
    const said = token.is === "quantity" && (token.unit === "V" || token.unit === "kV") ? token : undefined;
    return said ? [{ value: toJson(said.n), unit: said.unit as "V" | "kV" }] : [];
  });
}

function setSide(draft: Draft, side: Side, { system, ...volts }: Voltage): void {
  draft[side] = volts;
  if (side !== "secondary") return;
  if (system) draft.system = system;
  else delete draft.system;
}

const sides: readonly Phrase[] = [
  phrase("two primaries", `{n}( )?(x|\\/)( )?({n}|{V})${TO}${VOLTS}`, (m, { draft, ask }) => {
    const all = voltagesOf(m);
    if (all.length !== 3) return false;
    const [one, other] = all;
    setSide(draft, "secondary", all[2]!);
    ask({
      field: "primary",
      ask: `Is its primary connected for ${one!.value} V or for ${other!.value} V?`,
      example: `${other!.value} V to ${all[2]!.system ?? `${all[2]!.value} V`}`,
    });
  }),
  phrase(
    "voltages",
    `${VOLTS}${CONNECTION}( {phase}| {n} wire)?${TO}${VOLTS}${CONNECTION}`,
    (m, { draft }) => {
      const [first, second, ...more] = voltagesOf(m);
      if (!first || !second || more.length > 0) return false;
      setSide(draft, "primary", first);
      setSide(draft, "secondary", second);
      if (/(delta|δ|\bd)\s*$/.test(m.text) && !second.system) draft.winding = "delta";
    },
  ),
  phrase(
    "side and its voltage",
    `(${PRIMARY}|${SECONDARY})( voltage| winding| side)?( of| is| at| is at|:|=)*( )?${VOLTS}${CONNECTION}`,
    oneSide,
  ),
  phrase(
    "voltage and its side",
    `${VOLTS}${CONNECTION}( {n} wire| three wire| two wire| {phase})*( |, )(${PRIMARY}|${SECONDARY})( voltage| winding| side)?`,
    oneSide,
  ),
];

const supply: readonly Phrase[] = [
  phrase(
    "fed from",
    `(fed |supplied |supply |coming )?(from|off|off of|by)( an?| the)? ${VOLTS}( supply| system| service| panel| feeder)?`,
    (m, { draft }) => {
      const [volts] = voltagesOf(m);
      if (!volts) return false;
      setSide(draft, "primary", volts);
    },
  ),
];

function oneSide(m: Match, { draft }: Reading): void | false {
  const [volts] = voltagesOf(m);
  if (!volts) return false;
  setSide(
    draft,
    new RegExp(`\\b(${SECONDARY.slice(1, -1).replace("\\.?", "")})\\b`).test(m.text) ? "secondary" : "primary",
    volts,
  );
  const wires = m.numbers.find((n) => n === 2 || n === 3);
  if (wires === 2) draft.winding = "two-wire";
}

/** A device put up for checking, by the side it is on. */
const device = (side: Side, names: string): Phrase[] => {
  const field = side === "primary" ? "primaryBreaker" : "secondaryBreaker";
  const read: Phrase["read"] = (m, { draft }) => {
    draft[field] = m.quantity("A");
  };
  return [
    phrase(
      `${side} device`,
      `(is |on |with |using |use |an? |the )*{A}( {n} pole)? (${names})( side)?( ${DEVICES})?`,
      read,
    ),
    phrase(`${side} device, figure last`, `(${names})( side)? ${DEVICES}( of| is| at| size|:|=)* {A}`, read),
    phrase(
      `device on the ${side}`,
      `{A}( {n} pole)?( ${DEVICES})? (on|for|at|as)( the| its)? (${names})( side)?( ${DEVICES})?`,
      read,
    ),
  ];
};

const LOAD = "kVA|VA|kW|W|A";
function load(m: Match, { draft }: Reading): void {
  draft.load = m.quantity("kVA", "VA", "kW", "W", "A");
  if (/continuous/.test(m.text)) draft.continuous = true;
}

export const phrases: readonly Phrase[] = [
  phrase(
    "load",
    `load( of| is|:|,)* {${LOAD}}( continuous)?|{${LOAD}}( of)?( continuous| connected| calculated| total)* (loads?|demand)`,
    load,
  ),
  phrase(
    "power",
    `(an? |the |{n} )?{kVA|MVA|VA}(?=[^.?!]{0,60}${TRANSFORMER})|${TRANSFORMER}( of| is| rated|:|,)*( )?{kVA|MVA|VA}`,
    (m, { draft }) => {
      draft.power = m.quantity("kVA", "MVA", "VA");
    },
  ),
  phrase(
    "what it carries",
    `(carry(ing)?|serve|serving|supply(ing)?|feed(ing)?|for)( about| roughly| up to| a| an)*( continuous)? {${LOAD}}( continuous)?`,
    load,
  ),
  phrase("power alone", "(an? |the |make it )*{kVA|MVA|VA}", (m, { draft, amending }) => {
    if (draft.power && !amending) return false;
    draft.power = m.quantity("kVA", "MVA", "VA");
  }),
  phrase("continuous", "continuous(ly)?( loads?)?", (_, { draft }) => {
    if (!draft.load) return false;
    draft.continuous = true;
  }),
  phrase(
    "impedance",
    "{%}( )?(z|impedance|imp)?|(z|impedance|imp\\.?)( of| is| =|:|=)*( )?({%})",
    (m, { draft, readAs }) => {
      const said = m.quantity("%")!;
      if (/z|imp/.test(m.text)) draft.impedance = said;
      else if (/^\S*$/.test(m.text)) {
        readAs(`${said.value} % is looked up, not taken from the question`);
      }
    },
  ),
  phrase("table percentages", "\\(?(ocpd )?{n}( )?\\/( )?{n}\\)?( rule| %| percent)?", (m) => {
    // `250/125` names the percentages of the table, which the answer looks up.
    if (!m.numbers.every((n) => [125, 167, 250, 300].includes(n))) return false;
  }),
  phrase("phases", "(an? )?{phase}( {n} wire)?( transformer| unit)?", (m, { draft }) => {
    draft.phases = m.token("phase")!.phases;
  }),
  ...sides,
  ...supply,
  ...device("primary", PRIMARY),
  ...device("secondary", `${SECONDARY}|panel( )?board|panel|main`),
  phrase(
    "primary only",
    `${PRIMARY}( side)? ${ONLY}( ${DEVICES})?|${PRIMARY}( side)? ${DEVICES} ${ONLY}|(protect(ed|ion)?|${DEVICES}|fused) (is |are )?(on |at |in )?(the )?${PRIMARY}( side)? ${ONLY}|${ONLY} (on |at )?(the |a )?${PRIMARY}( side)?( ${DEVICES})?|(no|without( an?)?) (${DEVICES} on (the )?)?${SECONDARY}( side)?( ${DEVICES})?`,
    (_, { draft }) => void (draft.protection = "primary only"),
  ),
  phrase(
    "both sides",
    `(with )?${PRIMARY} (and|&|\\+) ${SECONDARY}( side)?( ${DEVICES})?|${DEVICES} (on )?both sides|(on )?both sides ${DEVICES}|(with )?(an? )?${SECONDARY} ${DEVICES}( too| as well| present)?`,
    (m, { draft }) => {
      if (/both sides/.test(m.text) && draft.protection) return;
      draft.protection = "primary and secondary";
    },
  ),
  phrase(
    "thermal protection",
    "(coordinated |built in |with |integral )*thermal(ly)? (overload )?protect(ed|ion|or)( transformer)?",
    (_, { draft }) => void (draft.thermallyProtected = true),
  ),
  phrase("two-wire", "{n} wire|two wire", (m, { draft }) => {
    if (m.numbers.length > 0 && m.numbers[0] !== 2) return;
    draft.winding = "two-wire";
  }),
  phrase("three-wire delta", "delta( -)? delta|delta secondary", (_, { draft }) => void (draft.winding = "delta")),
  phrase(
    "power factor",
    "(at |with )?(an? )?(power factor|pf)( of| is| =|:|=)*( )?{n}|(at |with )?{n} (power factor|pf)",
    (m, { draft }) => void (draft.powerFactor = m.numbers[0]),
  ),
  phrase(
    "autotransformer",
    "auto( )?transformers?|buck( and)?( |\\/)?boosts?",
    (_, { draft }) => void (draft.autotransformer = true),
  ),
  phrase(
    "length",
    "(about |approx\\.? |approximately |around |run |runs |of |is |at |and )*{ft}( away| run| long| one way| of)*( from the transformer| to the (panel|disconnect|main|secondary))?",
    (m, { draft }) => void (draft.length = m.quantity("ft")),
  ),
  phrase(
    "voltage alone",
    `(at |on |an? )*(system )?{system}( system| secondary)?|(at |on |an? )*{V|kV}`,
    (m, { draft, readAs }) => {
      const [volts] = voltagesOf(m);
      if (!volts) return false;
      const side = draft.secondary && !draft.primary ? "primary" : "secondary";
      if (!draft.primary && side === "secondary" && !volts.system) {
        readAs(
          `took ${volts.value} ${volts.unit} as the secondary`,
        );
      }
      setSide(draft, side, volts);
    },
  ),
  phrase(
    "electrode",
    "(to )?(building steel|structural steel|(metal )?water pipe)|(to )?(ground )?rods?( only)?|(concrete encased( electrode)?|ufer)|ground ring",
    (m, { draft }) => {
      draft.electrode = /\brods?\b/.test(m.text)
        ? "rod"
        : /ring/.test(m.text)
        ? "ground ring"
        : /concrete|ufer/.test(m.text)
        ? "concrete-encased"
        : "water pipe";
    },
  ),
  phrase(
    "conductor of a side",
    `(is |with |using |an? )*{size}( conductors?| wires?| copper| aluminum| cu| al)*( ok| good| enough)?( on| for| at| as)( the| its)? (${PRIMARY}|${SECONDARY})( side)?|(${PRIMARY}|${SECONDARY})( side)?( conductors?| wires?| of| is| in| on| with|:)* {size}`,
    (m, { draft }) => {
      const isSecondary = SECONDARY_WORD.test(m.text);
      draft[isSecondary ? "secondarySize" : "primarySize"] = m.token("size")!.size;
      if (/copper|\bcu\b/.test(m.text)) draft.material = "copper";
      else if (/alum|\bal\b/.test(m.text)) draft.material = "aluminum";
    },
  ),
  ...wiringPhrases,
  phrase("transformer", TRANSFORMER, () => {}),
  phrase(
    "what is asked",
    `(${PRIMARY}|${SECONDARY}|${DEVICES}|delta|wye|full load( amps?| amperes?| current)?|fla|flc|currents?|amp(ere)?s|rating|kva|volt(age)?s?|each|side|sides|largest|max(imum)?|biggest|minimum|smallest|wye|y|conductors?|ground(ing)?|bond(ing)?( jumper)?|system bonding jumper|gec|sbj|size|both|between|installed|having|full|load|on|has|next|size up|step (up|down)|protect|dry( type)?|allowed|sizing|amps?)`,
    () => {},
  ),
];
