/** How people write one branch circuit: its breaker, its loads, its run. */
import type { Phrase } from "../../text/phrases.ts";
import { wiringPhrases } from "../wiring.ts";
import { loadsOf, PATTERNS, readLoad, readSystem, readVehicleOutlet, volts } from "./heard.ts";
import { BY_NAME, type CircuitKind, isCooking, namesOf } from "./loads.ts";

const RATE = "{kW|W|kVA|VA|A}";
const GAP = "[\\s,:;@(=)-]+";
const BEFORE =
  `({n}\\)?[\\s(-]+)?((${RATE}|{V}|{system}|{phase}|{gal}|electric|household|hard( )?wired|continuous|noncontinuous|new|small|big|large|storage|tank|of|at|total)[\\s,-]+)*`;
const AFTER =
  `(${GAP}(at|of|is|are|rated|draws?|drawing|uses|nameplate|max|maximum|total|totaling|a|load|element|each|unit|with|${RATE}|{V}|{phase}|{gal}|(storage )?tank))*`;
/** A baseboard is so many feet long; that is not the run. */
const OWN_LENGTH = "({ft|in}( long)?[\\s,-]+)?";
const DUTY = `(${GAP}(at|with|and|a|of|duty( )?cycle|{A}|{V}|{%}))*`;

/** Anything lower is no power factor but a slip. */
const LEAST_POWER_FACTOR = 0.05;

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });
const LOAD_WORDS =
  "(of |a |an |is |are |at |for |up to |about |around |max(imum)? |will |be |only |just |actually |roughly |:)*";

export const phrases: readonly Phrase[] = [
  phrase(
    "receptacle pattern",
    "(nema )?(l|tt-)?{n}-{n}(r|p)?( (receptacles?|outlets?|plugs?|sockets?))?",
    (m, { draft }) => {
      const [blades, amperes] = m.numbers;
      const pattern = PATTERNS[blades!];
      if (!pattern || ![15, 20, 30, 50, 60].includes(amperes!)) return false;
      draft.receptacle = { value: amperes, unit: "A" };
      draft.volts ??= { value: pattern.volts, unit: "V" };
      if (pattern.neutral) draft.neutral = true;
    },
  ),
  phrase(
    "breaker",
    "(on |with |by |protected by |a |an |the |one |single |his |my |own |dedicated )*{A}( {V}| {n} pole| double pole| single pole| dp| sp| 2p| gfci| afci| dedicated| tandem| multi( )?wire| individual| branch| receptacle| outlet| lighting| appliance)*( )?(breakers?|cb|fuses?|ocpd|circuits?|branch circuit)|(breakers?|fuses?|ocpd)( of| is| at| a|:| size)* {A}",
    (m, { draft }) => {
      draft.breaker = m.quantity("A");
      if (/multi/.test(m.text)) draft.neutral = true;
      volts(draft, m.quantity("V"));
    },
  ),
  phrase(
    "receptacle",
    "(a |an |the |one )*{A}( {V})*( rv| range| dryer| welder| single| twist lock| locking| ev)*( )?(receptacles?|outlets?|plugs?|sockets?|hook( )?ups?|pedestals?)",
    (m, { draft }) => {
      draft.receptacle = m.quantity("A");
      if (/rv/.test(m.text)) readVehicleOutlet(draft, Number(m.quantity("A")!.value));
      volts(draft, m.quantity("V"));
      const use = /welder|ev(?![a-z])|range|dryer/.exec(m.text)?.[0];
      if (use) {
        loadsOf(draft).push({
          kind: ({ ev: "ev-charger" } as Record<string, CircuitKind>)[use] ?? use as CircuitKind,
          count: 1,
        });
      }
    },
  ),
  phrase(
    "on so many amperes",
    "on (a |an ){A}(?! (load|continuous|draw))",
    (m, { draft }) => void (draft.breaker ??= m.quantity("A")),
  ),
  ...BY_NAME.map((kind) =>
    phrase(
      kind,
      `${kind === "space-heater" ? `${BEFORE}${OWN_LENGTH}` : ""}${BEFORE}(?:${
        namesOf(kind)
      })(?<circuit> (branch )?(circuits?|breakers?))?${kind === "welder" ? DUTY : AFTER}`,
      (m, reading) => readLoad(kind, m, reading),
    )
  ),
  phrase(
    "continuous or not",
    `(non|not )(-)?continuous( load)?(s|,|:| of)* ${RATE}|${RATE}( of)?( a)? (non|not )(-)?continuous( loads?)?|continuous( load)?(s|,|:| of)* ${RATE}|${RATE}( of)?( a)? continuous(ly)?( [a-z]+)?( loads?)?`,
    (m, { draft }) => {
      const continuous = !/non|not /.test(m.text);
      const kind: CircuitKind = /light/.test(m.text) ? "lighting" : "load";
      loadsOf(draft).push({ kind, count: 1, rating: m.quantities[0] as never, continuous });
    },
  ),
  phrase(
    "what it draws",
    `(draws?|drawing|pulls?|pulling|uses|using|load|current|nameplate|charge amps?|amps|demand) ${LOAD_WORDS}${RATE}( each)?( max(imum)?)?|${RATE}( of)? (loads?|draw|max)|max(imum)?( of)? ${RATE}`,
    (m, { draft }) => void (draft.drawn = m.quantities[0]),
  ),
  phrase(
    "long hours",
    "continuous(ly)?( duty| loads?)?|{n} hours? (or more|at a time|straight|a day)|all (day|night)( long)?",
    (_, { draft }) => void (draft.continuous = true),
  ),
  phrase(
    "short hours",
    "(non|not|isn't|is not)( )?continuous( loads?)?|less than {n} hours?|not for {n} hours?",
    (_, { draft }) => void (draft.continuous = false),
  ),
  phrase("system", "{system}", (m, { draft }) => readSystem(draft, m.token("system")!.system)),
  phrase("phase and volts", "{phase}|{V}", (m, { draft }) => {
    if (m.token("phase")) draft.phases = m.token("phase")!.phases;
    volts(draft, m.quantity("V"));
  }),
  phrase(
    "drop limit",
    "{%}( max(imum)?)?( voltage)? drop|(voltage drop|vd|drop)( limit| max| of| under| to| at| less than| below| within)* {%}",
    (m, { draft }) => void (draft.limit = m.quantity("%")),
  ),
  phrase(
    "power factor",
    "(a )?(power factor|p\\.?f\\.?)( of| is|:)* {n}|{n} (power factor|p\\.?f\\.?)|(unity|resistive)( power factor)?",
    (m, { draft }) => {
      const said = m.numbers[0] ?? 1;
      if (said > 1 || said < LEAST_POWER_FACTOR) return false;
      draft.powerFactor = said;
    },
  ),
  phrase(
    "duty cycle",
    "(duty( )?cycle|duty)( of| is|:)* {%}|{%}( duty( )?cycle| duty)",
    (m, { draft }) => void (draft.dutyCycle = Number(m.quantity("%")!.value)),
  ),
  // The demand table has its own percentages; one that was told along with it is how the asker got there.
  phrase(
    "demand factor",
    "(taken |x |times |at )*(at )?{%}( demand)?( factor)?( for its branch circuit)?",
    (_, { draft, readAs }) => {
      const cooking = loadsOf(draft).some(({ kind }) => kind && isCooking(kind));
      if (!cooking) return false;
      readAs("the cooking table's own percentage is used");
    },
  ),
  phrase(
    "length",
    "(about |approx(imately)? |roughly |run(ning)? |at |over |a |is |for |and |~)*{ft}( one way| long| away| of( wire| cable| run)?| from [a-z]+( [a-z]+)?| run| to the [a-z]+| distance| total)*",
    (m, { draft }) => void (draft.length = m.quantity("ft")),
  ),
  phrase(
    "circuits together",
    "{n} (of these |such |identical )?circuits?( together| in ({n}|the same|a) (conduit|raceway|pipe))+",
    (m, { draft }) => void (draft.circuits = m.numbers[0]),
  ),
  phrase("one circuit", "(on |a |single )*{n}( {V})? circuit", (m) => m.numbers[0] === 1 ? undefined : false),
  phrase("no neutral", "(no|without( a)?) neutral", (_, { draft }) => void (draft.neutral = false)),
  phrase(
    "neutral counts",
    "(the )?neutral (counts?|is counted)|non( )?linear( loads?)?|harmonics?",
    (_, { draft }) => void (draft.neutralCounts = true),
  ),
  phrase("neutral", "(with (a )?)?(shared )?neutral|multi( )?wire|mwbc|{n} wire", (m, { draft }) => {
    const wires = m.numbers[0];
    if (wires !== undefined && (wires < 2 || wires > 4)) return false;
    draft.neutral = wires === undefined || wires >= 3;
    if (wires === 3 && draft.phases === 3) draft.neutral = false;
  }),
  ...wiringPhrases,
  phrase(
    "sizes to choose from",
    "({cable}|{size})( nm| romex| awg)*,?( or| vs\\.?| versus)+( a| an)? ({cable}|{size})",
    (m, { draft }) => {
      draft.options = m.tokens.flatMap((t) => t.is === "cable" || t.is === "size" ? [t.size] : []);
      if (m.token("cable")) draft.method ??= "NM cable";
    },
  ),
  phrase("cable", "{cable}", (m, { draft, readAs }) => {
    const { size, wires } = m.token("cable")!;
    draft.wires = wires;
    draft.size = size;
    if (draft.method === undefined) {
      draft.method = "NM cable";
      readAs(`took ${size}/${wires} as NM cable`);
    }
  }),
  phrase("size", "{size}( wires?| conductors?)?", (m, { draft }) => void (draft.size = m.token("size")!.size)),
  phrase("bare load", RATE, (m, { draft }) => {
    if (draft.drawn !== undefined) return false;
    draft.drawn = m.quantities[0];
  }),
  phrase(
    "a plan to check",
    "ok(ay)?|enough|sufficient|allowed|legal|acceptable|adequate|(big|large|heavy) enough|too (big|small|large)|safe|fine|correct|work|can i ([a-z]+ )?(use|run|put|have)|will ([a-z]+ )?(work|do)|is it (right|correct)",
    (_, { draft }) => void (draft.check = true),
  ),
  phrase(
    "what is asked",
    "(what |which |the |smallest |minimum |least |right |proper |a |new |one |dedicated |individual |branch |own )*(breakers?|circuits?|branch circuits?|wires?|cables?|conductors?|egc|ground(s|ing)?( wire| conductor)?|gauge|ocpd|size|sized)|garage|kitchen|apartment|house|hard( )?wired|electric|how many amps|smallest|one",
    () => {},
  ),
];
