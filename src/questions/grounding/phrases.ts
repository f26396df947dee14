import type { Cue, Draft, Phrase, Reading } from "../../text/phrases.ts";

const GEC =
  "(gecs?|(grounding )?electrode( grounding)? conductors?|grounding electrode( conductors?)?|conductors? to (the )?(ground )?(rods?|electrodes?|water pipe))";
const EGC =
  "(egcs?|equipment ground(s|ing)?( conductors?| wires?)?|ground(ing)? (wires?|conductors?)|bare ground|green wire|grounds?(?! (rods?|ring|electrodes?)))";
const MBJ = "(mbj|main bonding jumpers?|main bond)";
const SSBJ = "(ssbj|supply side bond(ing)?( jumpers?)?|bonding jumpers?,? (on the )?supply side)";
const SBJ = "(sbj|system bonding jumpers?)";
const ANY = `(${GEC}|${EGC}|${MBJ}|${SSBJ}|${SBJ})`;

export const cues: readonly Cue[] = [
  {
    pattern:
      `(what|which|how (big|large)|smallest|minimum|least|size|sizing|need)( of| for|d)?.{0,60}${ANY}|${ANY}.{0,30}(size|smallest|required|minimum)`,
    points: 2,
  },
  { pattern: `${GEC}|${MBJ}|${SSBJ}|${SBJ}|grounding electrodes?`, points: 3 },
  {
    pattern: "egcs?|equipment ground(s|ing)?( conductors?)?|ground(ing)? (wires?|conductors?)|bonding jumpers?",
    points: 3,
  },
  { pattern: `${EGC} sizes?|sizes?( of| for)?( the| a)? ${EGC}`, points: 1 },
  { pattern: `${ANY} (for|to|in|size|cu|copper|al|aluminum|on|with|be)`, points: 1 },
  // What a text begins with is what it asks for.
  { pattern: `^(what |the |a |copper |aluminum |size |of )*${ANY}`, points: 2 },
  {
    pattern: "ground rods?( only)?|ufer|water pipe|cold water|concrete encased|ground ring|electrode (is|are)",
    points: 2,
  },
  {
    pattern: "(conductors?|wires?) (to|for) (the |a |an |two |{n} )*(ground rods?|rods?|ufer|water pipe|electrodes?)",
    points: 3,
  },
  { pattern: "up( )?siz(ed|e|ing)|increased in size|raised from", points: 1 },
  { pattern: "(raised|upsized|increased|bumped)( up)? from ({size}|{n}) to {size}", points: 3 },
  {
    pattern:
      "(ground|earth)( rods?)? (instead of|as|for) (a |an |the )*(equipment |fault )*(ground|path|return)|(earth|soil|dirt) as|rely on (the )?(earth|soil|ground rod)",
    points: 4,
  },
  { pattern: "(grounding|bonding)( conductors?| jumpers?)?( only)?", points: 1 },
];

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });
const METAL = "(copper|cu|aluminum|aluminium|alum|al)";
const metalOf = (text: string): "copper" | "aluminum" => /^\s*c/.test(text) ? "copper" : "aluminum";

const IS_METAL = /^(copper|cu|aluminum|aluminium|alum|al) ground$/;

/** Adds what is asked for; a follow-up that names something asks for that instead. */
function find({ draft, amending }: Reading, name: string): void {
  const list = amending && !draft.heardFind ? [] : (draft.find as string[] | undefined) ?? [];
  draft.find = [...new Set([...list, name])];
  draft.heardFind = true;
}
const named = (name: string, what: string): Phrase =>
  phrase(
    name,
    `((the|a|an|one|single|of|smallest|least|minimum|size|each|required) )*((?<metal>${METAL}) )?${what}( sizes?| size)?( (in|of|is|must be|as))?( (?<after>copper|cu|aluminum|al)(?! (service|conductors?|supply|lines?|phases?|hots?|breaker)))?`,
    (m, reading) => {
      // "aluminum ground" after another question changes the metal of what was asked, not the question.
      const earlier = reading.draft.find as string[] | undefined;
      const changesMetal = reading.amending && !reading.draft.heardFind && earlier !== undefined &&
        IS_METAL.test(m.text);
      if (!changesMetal) find(reading, name);
      const metal = m.groups.metal ?? m.groups.after;
      if (metal) reading.draft.groundMaterial = metalOf(metal);
    },
  );
const devices = (draft: Draft): unknown[] => (draft.devices ??= []) as unknown[];

export const phrases: readonly Phrase[] = [
  phrase(
    "earth as the fault path",
    "((use|using|rely on|can|just|drive) )*(the |a |an )*(earth|soil|dirt|ground rods?|rods?|electrodes?)( be| serve| count| work)*( instead of| as| for| in place of)( a| an| the| my| only| sole)*( equipment| fault( current)?| effective)*( ground(ing)?( conductors?| wires?)?| egc| (return )?path| return)( path)?",
    (_, { draft }) => void (draft.earthReturn = true),
  ),
  phrase(
    "ground put up",
    "(ground|egc|gec|jumper)( put up| we have| i have| installed)*( is| of|:) (a )?(#)?{size}|(is |can i use |use )+(a )?{size}( bare| green| copper| cu| aluminum)*( enough| ok(ay)?| big enough| large enough)?( as| for)( a| an| the)* (equipment )?(ground|egc|gec|grounding)( wire| conductor)?",
    (m, { draft }) => {
      draft.ground = m.token("size")!.size;
    },
  ),
  named("supply-side bonding jumper", SSBJ),
  named("main bonding jumper", MBJ),
  named("system bonding jumper", SBJ),
  phrase(
    "one jumper for all",
    "(one|{n}|single|a)( single)?( copper| aluminum)?( jumper| ssbj| conductor)? for (the |them )?(all|lot|total|everything|whole)( of them| sets| conduits| raceways)?",
    (_, { draft }) => void (draft.jumpers = "one for all"),
  ),
  phrase(
    "a jumper in each",
    "(one|{n}|a|jumper|jumpers)*( jumper)?( in| for| per)? each (raceway|conduit|pipe)|per (raceway|conduit)",
    (_, { draft }) => void (draft.jumpers = "one for each raceway"),
  ),
  phrase(
    "ufer",
    "(to |the |a |an )*(ufer|concrete( )?encased( electrode)?|rebar|footing steel)( only| alone)?",
    (_, { draft }) => void (draft.electrode = "concrete-encased"),
  ),
  phrase(
    "ground ring",
    "(to |the |a )*(ground )?ring( only| alone)?",
    (_, { draft }) => void (draft.electrode = "ground ring"),
  ),
  phrase(
    "water pipe",
    "(to |the |a |an |only )*((metal|cold|underground|city) )*water( main| pipe| line| service)*( electrode| only)?",
    (_, { draft }) => void (draft.electrode = "water pipe"),
  ),
  phrase(
    "rods",
    "(to |the |a |an |is |are |only |driven |{n} )*(ground )?(rods?|pipe and plate|plates?)( electrodes?)?( only| alone| and nothing else)*",
    (_, { draft }) => {
      if (draft.electrode !== undefined) return;
      draft.electrode = "rod";
    },
  ),
  named("grounding electrode conductor", GEC),
  phrase("table ground", "\\(?table( egc| ground| says| is)* {size}( cu| copper| al)?\\)?", () => {}),
  phrase("bonding jumper", "(bonding )?jumpers?( sizes?)?", (_, reading) => {
    if ((reading.draft.find as string[] | undefined)?.some((each) => each.endsWith("jumper"))) return;
    find(reading, "main bonding jumper");
    find(reading, "supply-side bonding jumper");
  }),
  named("equipment ground", `${EGC}(?! (rods?|ring))`),
  phrase(
    "device",
    "(on |with |by |behind |for |ahead |a |an |the |one |protected by |fused at |fed from |of )*{A}( {n} pole| double pole| 2 pole| feeder| main| inverse time| circuit)*( )?(breakers?|cb|fuses?|ocpds?|devices?|ocp|overcurrent( device)?s?|circuits?|feeders?)|(breakers?|fuses?|fused|ocpd|device)( of| is| are| at| a|:| size| rated)* {A}",
    (m, { draft, amending }) => {
      if (amending && !draft.heardDevice) draft.devices = [];
      draft.heardDevice = true;
      devices(draft).push(m.quantity("A"));
    },
  ),
  phrase(
    "service",
    "{A}( residential| dwelling| new| main)* (service|main)|service( is| of| rated| at|:)* {A}",
    (m, { draft }) => void (draft.service = m.quantity("A")),
  ),
  phrase(
    "raised",
    "(raised|upsized|up sized|increased|bumped|went|oversized|changed|from|up)*( up| in size)?( from)? {size}( cu| copper| al| aluminum)?( up)?( to |\\s*-?>\\s*|\\s*→\\s*){size}|((upsized|raised|increased|bumped)( from)? )?{n}( up)?( to |\\s*-?>\\s*|\\s*→\\s*){size}",
    (m, { draft }) => {
      const sizes = m.tokens.flatMap((t) => t.is === "size" ? [t.size] : []);
      const bare = m.numbers[0];
      if (sizes.length === 1 && bare !== undefined) sizes.unshift(bare >= 250 ? `${bare} kcmil` : String(bare));
      [draft.needed, draft.size] = sizes;
    },
  ),
  phrase(
    "needed size",
    "needed( size)?( is| of|:)? {size}",
    (m, { draft }) => void (draft.needed = m.token("size")!.size),
  ),
  phrase(
    "for corrections",
    "(for|because of|due to) (the )?(ampacity corrections?|ambient( temperature)?|heat|temperature|derating|bundling|(conductor )?adjustment|correction)",
    (_, { draft }) => void (draft.upsizedFor = "ampacity corrections"),
  ),
  phrase(
    "for the drop",
    "(for|because of|due to|account for) (the )?(voltage drop|vd|long run)|voltage drop",
    (_, { draft }) => void (draft.upsizedFor = "voltage drop"),
  ),
  phrase("not raised", "(not|never|isn't|aren't|no) (up( )?siz(ed|ing)|raised|increased)", () => {}),
  phrase(
    "sets",
    "({n}|(?<word>single))( parallel)?( sets?| runs?| conductors?)*( of)?( x| ×)? (?=({n} )?{size})(?!.*per phase\\?)|{n} ?(x|×) (?={size})|{n}( parallel)? (sets?|runs?)( in parallel)?( of)?|in parallel|parallel( sets?| runs?)?",
    (m, { draft }) => {
      const n = m.numbers[0];
      if (m.groups.word) return;
      if (n !== undefined && (n < 1 || n > 20)) return false;
      draft.sets = n ?? draft.sets ?? 2;
    },
  ),
  phrase(
    "size",
    `{size}( thhn| thwn| xhhw| thw)*( stranded)?( (?<metal>${METAL}))?( service| entrance| supply| ungrounded| phase| hot| line| se)*( conductors?| wires?| cables?)?`,
    (m, { draft }) => {
      if (draft.size !== undefined && draft.needed !== undefined) return false;
      draft.size = m.token("size")!.size;
      if (m.groups.metal) draft.material = metalOf(m.groups.metal);
    },
  ),
  phrase(
    "supply metal",
    `(?<metal>${METAL})( service| entrance| supply| ungrounded| phase| hot| line)+( conductors?| wires?)?`,
    (m, { draft }) => void (draft.material = metalOf(m.groups.metal!)),
  ),
  phrase("metal", `(in |with |use )?(?<metal>${METAL})`, (m, { draft }) => {
    const metal = metalOf(m.groups.metal!);
    if (draft.needed !== undefined && draft.material === undefined) draft.material = metal;
    else draft.groundMaterial ??= metal;
  }),
  phrase("bare amperes", "(for |a |on |an |at )*{A}", (m, { draft }) => void (draft.heardBare = m.quantity("A"))),
  phrase(
    "a plan to check",
    "ok(ay)?|enough|sufficient|allowed|legal|acceptable|too (small|big)|big enough",
    (_, { draft }) => void (draft.check = true),
  ),
  phrase(
    "what is asked",
    "(what |which |the |smallest |minimum |least |hot |hots |and |my |for |between |sub( )?panels?|subpanel |main |panels?|service|entrance|conductors?|wires?|lines?|phase|per phase|dwelling|house|feeder|ungrounded|supply|stranded|thhn|thwn|xhhw|neutral|grounding|bonding|jumpers?|electrodes?|fed|with|fused|gear|pipe|conduits?|raceways?|own|set|each|parallel)+",
    () => {},
  ),
];

/** Gives a bare amperage its place: a device where an equipment ground is asked, otherwise the service. */
export function settle({ draft }: Reading): void {
  const bare = draft.heardBare;
  const find = (draft.find ?? []) as string[];
  const isSupply = find.some((each) => each !== "equipment ground");
  // A ground wire is asked for beside an electrode conductor only where a device says so.
  if (bare && draft.devices === undefined && draft.service === undefined) {
    if (isSupply || draft.electrode !== undefined) draft.service = bare;
    else draft.devices = [bare];
  }
  if (isSupply && find.includes("equipment ground") && draft.devices === undefined) {
    draft.find = find.filter((each) => each !== "equipment ground");
  }
  if (find.length === 0 && draft.electrode !== undefined && !draft.devices) {
    draft.find = ["grounding electrode conductor"];
  }
  for (const key of ["heardBare", "heardFind", "heardDevice"]) delete draft[key];
}
