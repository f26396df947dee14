import type { Cue, Draft, Match, Phrase, Reading, Said } from "../../text/phrases.ts";
import { wiringPhrases } from "../wiring.ts";
import { BY_NAME, type CircuitKind, isCooking, namesOf, RATED_BY_CIRCUIT } from "./loads.ts";
import type { SaidLoad } from "./request.ts";

const ANY_LOAD =
  "(water heater|charger|evse|ev|baseboard|heater|dryer|range|cooktop|oven|hot tub|spa|welder|kiln|sauna|tankless|outlet|receptacle|dishwasher|microwave|disposal|disposer|lights?|lighting)s?";

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
  // Kinds that answer more than one circuit take these.
  {
    pattern:
      "(?<!from ((a|an|the|my|our|existing|electrical|garage|main|basement) )*)sub( )?panels?|feeders?|service (entrance|size|upgrade)|{ft2}|{hp}|mca|mocp|rla|{kVA}? transformer",
    points: -2,
  },
];

const RATE = "{kW|W|kVA|VA|A}";
const GAP = "[\\s,:;@(=)-]+";
const BEFORE =
  `({n}\\)?[\\s(-]+)?((${RATE}|{V}|{system}|{phase}|{gal}|electric|household|hard( )?wired|continuous|noncontinuous|new|small|big|large|storage|tank|of|at|total)[\\s,-]+)*`;
const AFTER =
  `(${GAP}(at|of|is|are|rated|draws?|drawing|uses|nameplate|max|maximum|total|totaling|a|load|element|each|unit|with|${RATE}|{V}|{phase}|{gal}|(storage )?tank))*`;
/** A baseboard is so many feet long; that is not the run. */
const OWN_LENGTH = "({ft|in}( long)?[\\s,-]+)?";
const DUTY = `(${GAP}(at|with|and|a|of|duty( )?cycle|{A}|{V}|{%}))*`;

/** Draws a charger may be set to are four fifths of a circuit; these figures are circuits, and may not be taken for a draw. */
const CIRCUITS_NOT_DRAWS = [20, 30, 50, 60, 100];
/** Settings of chargers that are no circuit's rating. */
const DRAWS = [12, 16, 24, 32, 48];
/** Blades and amperes of the common receptacle patterns that power tools, ranges and vehicles. */
const PATTERNS: Record<number, { volts: number; neutral?: boolean }> = {
  5: { volts: 120 },
  6: { volts: 240 },
  10: { volts: 240 },
  14: { volts: 240, neutral: true },
};

const volts = (draft: Draft, said: Said<"V"> | undefined): void => void (said && (draft.volts = said));
const loadsOf = (draft: Draft): Partial<SaidLoad>[] => (draft.loads ??= []) as Partial<SaidLoad>[];
const isPower = (q: Said) => ["kW", "W", "kVA", "VA"].includes(q.unit);

function readLoad(kind: CircuitKind, m: Match, { draft, amending, readAs }: Reading): void {
  const power = m.quantities.find(isPower);
  const amperes = m.quantity("A");
  volts(draft, m.quantity("V"));
  if (m.token("phase")) draft.phases = m.token("phase")!.phases;
  const count = m.numbers[0] ?? 1;
  const load: Partial<SaidLoad> = { kind, count };
  if (power) load.rating = power as never;
  const continuous = /noncontinuous/.test(m.text) ? false : /continuous/.test(m.text) ? true : undefined;
  if (continuous !== undefined) load.continuous = continuous;
  const tank = m.quantity("gal");
  if (tank) load.gallons = Number(tank.value);
  const duty = m.quantity("%");
  if (duty) load.dutyCycle = Number(duty.value);
  if (amperes) {
    takeAmperes(
      kind,
      load,
      amperes,
      { isCircuit: m.groups.circuit !== undefined, isDraw: /draw|uses|load/.test(m.text) },
      draft,
      readAs,
    );
  }
  if (m.quantity("ft", "in")) readAs("a heater's own length is not the run");
  const system = m.token("system")?.system;
  if (system) readSystem(draft, system);
  const list = amending && !draft.heard ? [] : loadsOf(draft);
  draft.heard = true;
  // A follow-up that names the load anew keeps its figures.
  const [earlier, more] = loadsOf(draft);
  if (amending && list.length === 0 && isPlain(load) && earlier && !more) return void (earlier.kind = kind);
  // Named again without a figure: the same load, not another.
  const known = list.find((each) => each.kind === kind || each.kind === "load" && isPlain(load));
  if (known && isPlain(load)) {
    if (known.kind === "load") known.kind = kind;
  } else if (known && known.rating === undefined && known.current === undefined) Object.assign(known, load);
  else list.push(load);
  draft.loads = list;
}
const isPlain = ({ rating, current }: Partial<SaidLoad>) => rating === undefined && current === undefined;

function takeAmperes(
  kind: CircuitKind,
  load: Partial<SaidLoad>,
  amperes: Said<"A">,
  { isCircuit, isDraw }: { isCircuit: boolean; isDraw: boolean },
  draft: Draft,
  readAs: Reading["readAs"],
): void {
  const value = Number(amperes.value);
  if ((RATED_BY_CIRCUIT.includes(kind) || isCircuit && !DRAWS.includes(value)) && !load.rating) {
    draft.breaker ??= amperes;
    readAs(`took ${value} A as the circuit, not as what it draws`);
  } else if (load.rating) load.current = amperes as never;
  else if (kind === "ev-charger" && !isDraw && CIRCUITS_NOT_DRAWS.includes(value)) {
    readAs(`${value} A may be the charger's draw or its circuit: not used`);
  } else load.rating = amperes as never;
}

/** Recreational vehicles: the large outlet has both voltages, the smaller ones 120 V. */
function readVehicleOutlet(draft: Draft, amperes: number): void {
  const isLarge = amperes === 50;
  draft.volts ??= { value: isLarge ? 240 : 120, unit: "V" };
  if (isLarge) draft.neutral = true;
}

function readSystem(draft: Draft, system: string): void {
  if (system === "120/240") Object.assign(draft, { volts: { value: 240, unit: "V" } });
  else if (system === "208Y/120") Object.assign(draft, { volts: { value: 208, unit: "V" }, wye: true });
  else if (system === "480Y/277") draft.volts = { value: 480, unit: "V" };
  else if (system === "230/460") draft.volts = { value: 480, unit: "V" };
}

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

/** Gives what was read apart its place: a current to the load without one, hours to the load. */
export function settle({ draft, amending }: Reading): void {
  const { drawn, continuous, dutyCycle } = draft as { drawn?: Said; continuous?: boolean; dutyCycle?: number };
  for (const key of ["drawn", "continuous", "dutyCycle", "heard"]) delete draft[key];
  if (drawn) {
    const loads = loadsOf(draft);
    const open = loads.find((load) => isPlain(load));
    if (open) open.rating = drawn as never;
    else if (loads.length === 0 || amending) {
      draft.loads = [{ ...loads[0], kind: loads[0]?.kind ?? "load", count: 1, rating: drawn as never }];
    } else if (loads.length === 1 && drawn.unit === "A" && loads[0]!.rating?.unit !== "A") {
      loads[0]!.current = drawn as never;
    } else loads.push({ kind: "load", count: 1, rating: drawn as never });
  }
  nameOnly(draft);
  const loads = draft.loads as Partial<SaidLoad>[] | undefined;
  if (loads && continuous !== undefined) { for (const load of loads) load.continuous ??= continuous; }
  if (loads && dutyCycle !== undefined) {
    const welder = loads.find(({ kind }) => kind === "welder");
    if (welder) welder.dutyCycle = dutyCycle;
  }
  if (loads?.length === 0) delete draft.loads;
  // A breaker told beside an amperage that named the circuit wins.
  if (draft.receptacle && loads?.length && loads.every(({ kind }) => kind === "receptacles")) {
    draft.loads = loads.filter((load) => !isPlain(load));
  }
  if (Array.isArray(draft.loads) && draft.loads.length === 0) delete draft.loads;
}

/** A cooking appliance named without a figure beside others that have one names the circuit ("the old range feeder"). */
function nameOnly(draft: Draft): void {
  const loads = draft.loads as Partial<SaidLoad>[] | undefined;
  if (!loads?.some((load) => !isPlain(load))) return;
  draft.loads = loads.filter((load) => !(isPlain(load) && load.kind && isCooking(load.kind)));
}
