import { ELECTRODE_NAMES } from "../electrodes.ts";
import type { Cue, Draft, Phrase, Reading, Said } from "../../text/phrases.ts";
import { METHODS } from "../../rules/wiring-methods.ts";
import { wiringPhrases } from "../wiring.ts";

const OUTBUILDING =
  "(garage|shop|work( )?shop|barn|pole barn|shed|out( )?buildings?|guest house|cottage|cabin|greenhouse|studio|pool house|pump house|well house|bunkhouse|carport|stable)";
const SUBPANEL = "(sub( )?panels?|sub( )?feed|sub( )?main|pony panels?|sub)";

export const cues: readonly Cue[] = [
  { pattern: SUBPANEL, points: 3 },
  { pattern: "feeders?", points: 3 },
  { pattern: "panel to panel|main panel to|{A} (main lug |mlo )?(panel|load center)(?! (is|and) full)", points: 3 },
  {
    pattern:
      `(detached|separate|attached|(to|at|in|for|feed)( a| the| my| our)?) (new |old |back |big |small |detached |separate )*${OUTBUILDING}`,
    points: 3,
  },
  { pattern: `${OUTBUILDING}.{0,40}({A}|{ft})|({A}|{ft}).{0,40}${OUTBUILDING}`, points: 1 },
  { pattern: "service entrance|service (conductors?|wires?|cables?)|ser cable|service laterals?", points: 3 },
  { pattern: "({n}|{%}) (percent )?rule|{%}( percent)? rule|dwelling rule", points: 2 },
  { pattern: "{A} (residential |dwelling |house |new )*service", points: 1 },
  {
    pattern:
      "({A} (residential |dwelling )*service|service is {A}).{0,120}(wires?|conductors?|copper|cu|aluminum|al|{size})",
    points: 2,
  },
  { pattern: "parallel (sets?|runs?|{size})|{n} parallel|sets of", points: 1 },
  {
    pattern:
      "(hots?|phases?|lines?|neutrals?|wires?|conductors?)( sizes?)?( per set| each)?(,| and|\\s*\\+|\\s*&|;)( neutral)?(,| and|\\s*\\+|\\s*&)*( the| equipment)*( egc| ground)",
    points: 2,
  },
  // Conductors asked for beside their ground are the feeder's question, which answers both.
  {
    pattern:
      "(conductors?|wires?) sizes?( per set)?.{0,40} egcs?|sizes? of (each|the) (conductors?|wires?).{0,40} ground",
    points: 2,
  },
  { pattern: "feeder.{0,30}(load|parallel)", points: 2 },
  { pattern: "feeder tap|tap(ped)? (from|off)|tap conductors?", points: 3 },
];

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });
const POWER = "{kW|W|kVA|VA}";
const OLD_NAMES = [110, 115, 120, 208, 220, 230, 240, 277, 480];
const SIZES = [1, 2, 3, 4, 6, 8, 10];

const put = (draft: Draft, field: string, said: Said | undefined): void => void (said && (draft[field] = said));
const takeSizes = (draft: Draft, sizes: readonly string[], fresh: boolean): void => {
  const known = fresh ? [] : (draft.sizes as string[] | undefined) ?? [];
  draft.sizes = [...new Set([...known, ...sizes])];
};
/** A follow-up's sizes replace the earlier ones; within one text they add up. */
function addSizes({ draft, amending }: Reading, sizes: readonly string[]): void {
  takeSizes(draft, sizes, amending && !draft.heardSizes);
  draft.heardSizes = true;
}
function readSystem(draft: Draft, system: string): void {
  const [a, b] = system.match(/\d+/g)!.map(Number) as [number, number];
  draft.volts = { value: Math.max(a, b), unit: "V" };
  if (system === "120/240") draft.phases ??= 1;
  else if (system.includes("Y")) draft.isWye = true;
}
const isDwelling =
  "({n}|single)( )?family( dwelling| house| home)?|dwellings?( units?)?|residences?|residential|houses?|homes?|apartments?";
const KIND_OF_CABLE: Readonly<Record<string, typeof METHODS[number]>> = {
  uf: "UF cable",
  nm: "NM cable",
  romex: "NM cable",
  ser: "SE cable",
  seu: "SE cable",
  mc: "MC cable",
};

export const phrases: readonly Phrase[] = [
  phrase(
    "whole dwelling by name",
    "({n}|{%})( percent| %)?( dwelling)? (rule|reduction)|dwelling rule",
    (m, { draft }) => {
      const said = m.numbers[0] ?? Number(m.quantity("%")?.value ?? 83);
      if (said !== 83) return false;
      draft.wholeDwelling = true;
    },
  ),
  phrase(
    "whole dwelling",
    `(carr(y|ies|ying)|feed(s|ing)?|suppl(y|ies)|for|serves?|of) (the |an? )?(whole|entire|all( of)? the|full) (house|dwelling|home|residence|apartment|load of (the|a|an|one|{n}) (house|dwelling( unit)?|home|apartment|unit))( load)?|(the )?(entire|whole) (house|dwelling)( load)?`,
    (_, { draft }) => void (draft.wholeDwelling = true),
  ),
  phrase(
    "no dwelling",
    "(not|isn't|is not|no) (a |for a )?(dwelling|house|residence|residential)|commercial|industrial|office|store",
    (_, { draft }) => {
      draft.wholeDwelling = false;
    },
  ),
  phrase(
    "tap",
    "(feeder )?tap(s|ped|ping)?( conductors?)?( from| off| on| of| onto| a| an| the)*( {A}( feeder| bus(way)?| breaker)*)?",
    (m, { draft }) => {
      const ahead = m.quantity("A");
      if (!ahead) return void (draft.isTap = true);
      draft.tappedFrom = ahead;
    },
  ),
  // Rods are mentioned with any separate structure; only words that single an electrode out choose it.
  ...Object.entries(ELECTRODE_NAMES).map(([electrode, names]) =>
    phrase(
      `electrode, ${electrode}`,
      `((grounding )?electrode( is|:)? )(an? |the )*(${names})|(an? |the |to )*(${names})( electrode)?( only| alone)|(an? |the |to )*(${names})( electrode)`,
      (_, { draft }) => void (draft.electrode = electrode),
    )
  ),
  phrase(
    "neutral load",
    "neutral( load| current| carries| of| is| will| carry|:)* {A}|{A}( of)? neutral( load| current)",
    (m, { draft }) => put(draft, "neutralLoad", m.quantity("A")),
  ),
  phrase(
    "no neutral",
    "(no|without( a)?|doesn't need a|does not need a) neutral|straight {V}|{V} only|only {V} loads?",
    (m, { draft }) => {
      draft.neutral = false;
      put(draft, "volts", m.quantity("V"));
    },
  ),
  phrase(
    "main it starts from",
    `(from|off|in|at|has|have|existing|with) (a |an |the |my |our |existing |new )*{A}( main| service| house)*( panel| service| main| msp| mdp| breaker box| load center)|(house|home|service|main panel|main)( currently| already| now)? (has|is|have)( a| an| rated)* {A}(?=( service| panel| main)?,? (and )?(i )?(want|need|feed|would))( service| panel| main)?`,
    (m, { draft }) => put(draft, "source", m.quantity("A")),
  ),
  phrase(
    "breaker",
    "(on |with |by |protected by |fused at |a |an |the |new |double |two |non |gfci )*{A}( {V}| {n} pole| double pole| single pole| 2p| dp| two pole| feeder| gfci| main| circuit|s)*( )?(breakers?|cb|fuses?|ocpd|circuit breakers?)|(breakers?|fuses?|fused|ocpd)( of| is| are| at| a|:| size| rated)* {A}",
    (m, { draft }) => put(draft, "breaker", m.quantity("A")),
  ),
  phrase(
    "noncontinuous",
    `(non|not )( )?continuous( loads?)?( of| is|:)* ({A}|${POWER})|({A}|${POWER})( of)?( it)?( a| is)* (non|not )( )?continuous( loads?)?`,
    (m, { draft }) => put(draft, "load", m.quantities[0]),
  ),
  phrase(
    "continuous",
    `(continuous|ev charger|car charger|charger|evse)( load)?( of| is|:| at| a)* ({A}|${POWER})|({A}|${POWER})( of)?( it| that| is| are)*( a)? (continuous(ly)?( load)?|ev charger|car charger|charger|evse|wall connector)`,
    (m, { draft }) => {
      if (/noncontinuous|not continuous/.test(m.text)) return false;
      put(draft, "continuous", m.quantities[0]);
    },
  ),
  phrase(
    "load",
    `(noncontinuous |calculated |demand |connected |actual(ly)? |total |real |the |its |whole |full |max(imum)? )*(loads?|demand)( of| is| are| will| be| about| around| a| on| it| at|:| whose| to)* ({A}|${POWER}|{n}(?= ?(\\.|,|$)))|(a |an |about |with |only )*({A}|${POWER})( of| calculated| demand| noncontinuous| total| actual| real| connected| max(imum)?)* (loads?|demand|worth of (stuff|loads?))|(draws?|drawing|pulls?|pulling|uses|using|use)( up| to| about| around| only| a| max(imum)?| at| most)* ({A}|${POWER})( max(imum)?)?`,
    (m, { draft }) => {
      const said = m.quantities[0] ??
        (m.numbers[0] === undefined ? undefined : { value: m.numbers[0], unit: "A" as const });
      put(draft, "load", said);
    },
  ),
  phrase(
    "ev",
    "evse|ev chargers?|car chargers?|wall connectors?|twc",
    (_, { draft }) => void (draft.isCharging = true),
  ),
  phrase(
    "ground's metal",
    "(?<metal>aluminum|aluminium|al|copper|cu)( equipment)? (grounds?|grounding( conductors?)?|egcs?)|(grounds?|egcs?)( wires?| conductors?)?( in| of| is|:)* (?<metal2>aluminum|aluminium|al|copper|cu)",
    (m, { draft }) => {
      draft.groundMaterial = (m.groups.metal ?? m.groups.metal2)!.startsWith("c") ? "copper" : "aluminum";
    },
  ),
  phrase(
    "panel at the far end",
    `(an? |the |new )*{A}( main lug| mlo| main breaker| main)?( )?(${SUBPANEL}|panel|panelboard|load center|breaker box)|(${SUBPANEL}|panel)( is| rated| of| at| for| a|:)* {A}`,
    (m, { draft }) => put(draft, "panel", m.quantity("A")),
  ),
  phrase(
    "service",
    `{A}( residential| dwelling| new| overhead| underground| main)* (service|main)|service( is| of| rated| at| size|:)* {A}`,
    (m, { draft }) => {
      draft.breaker ??= m.quantity("A");
      draft.supply = "service";
      if (/residential|dwelling/.test(m.text)) draft.isDwelling = true;
    },
  ),
  phrase(
    "service by name",
    "service entrance( conductors?| cables?| wires?)?|service (conductors?|wires?|cables?|laterals?|drop)|meter to (the )?(main|panel|disconnect)",
    (_, { draft }) => void (draft.supply = "service"),
  ),
  phrase(
    "feeder",
    `{A}( {V}| {phase})* (feeders?|feed|line|circuit)|(feeders?|feed)( is| of| rated|:)* {A}`,
    (m, { draft }) => {
      draft.breaker ??= m.quantity("A");
      if (/feed/.test(m.text)) draft.supply ??= "feeder";
      put(draft, "volts", m.quantity("V"));
      if (m.token("phase")) draft.phases = m.token("phase")!.phases;
    },
  ),
  phrase("feeder by name", "feeders?", (_, { draft }) => void (draft.supply ??= "feeder")),
  phrase("wires", "{n} (insulated )?wires?( feeders?| system)?|{n} conductors( and|,) no ground", (m, { draft }) => {
    if (m.numbers[0] !== 3 && m.numbers[0] !== 4) return false;
    draft.wires = m.numbers[0];
  }),
  phrase(
    "same building",
    `(in |inside |within |at |to )*(the |an? |my )?(same (building|house|structure|basement)|attached ${OUTBUILDING}|${OUTBUILDING}( is)? attached|basement|attic|upstairs|side by side|next to (the |each )(other|main|main panel)|inside (the )?(same )?(house|building))`,
    (_, { draft }) => void (draft.where = "same building"),
  ),
  phrase(
    "separate structure",
    `(to |at |in |for |out )*(the |an? |my |our )*(new |old |back |big |small |detached |separate |(other|another|second) )*(${OUTBUILDING}|(detached|separate|other|another|second) (building|structure))s?`,
    (_, { draft }) => {
      draft.where ??= "separate structure";
    },
  ),
  phrase("dwelling", isDwelling, (_, { draft }) => void (draft.isDwelling = true)),
  phrase(
    "drop left out",
    "(ignor(e|ing)|no|without|forget|neglect(ing)?|skip|not counting|regardless of)( the)? (voltage drop|vd|drop)|voltage drop (is )?(no concern|not an issue|aside)|(very )?short run",
    (_, { draft }) => void (draft.ignoreDrop = true),
  ),
  phrase(
    "drop limit",
    "{%}( max(imum)?)?( voltage)? (drop|vd)|(voltage drop|vd|drop)( limit| max| of| under| to| at| less than| below| within| not over)* {%}",
    (m, { draft }) => {
      put(draft, "dropLimit", m.quantity("%"));
      delete draft.ignoreDrop;
    },
  ),
  phrase(
    "length",
    "(about |approx(imately)? |roughly |run(ning)?( is)? |at |over |a |is |for |and |~|of |less than |under )*{ft}( one way| long| away| of( wire| cable| run| pvc| conduit)?| from [a-z]+( [a-z]+)?| run| distance| total| or so| or less| between)*",
    (m, { draft }) => put(draft, "length", m.quantity("ft")),
  ),
  phrase(
    "power factor",
    "(power factor|pf)( of| is|:)* {n}",
    (m, { draft }) => void (draft.powerFactor = m.numbers[0]),
  ),
  phrase("system", "{system}", (m, { draft }) => readSystem(draft, m.token("system")!.system)),
  phrase(
    "phase and volts",
    "{phase}|{V}|(a |on )*{n} (line|feed|volt|vac)|(on|at|off)( a)? {n}(?!( )?(amps?|a |ft|feet))",
    (m, { draft }) => {
      if (m.token("phase")) draft.phases = m.token("phase")!.phases;
      const bare = m.numbers[0];
      if (bare !== undefined && !OLD_NAMES.includes(bare)) return false;
      put(draft, "volts", m.quantity("V") ?? (bare === undefined ? undefined : { value: bare, unit: "V" }));
    },
  ),
  phrase(
    "nonlinear",
    "non( )?linear( loads?)?|harmonics?|mostly (electronic|led)( loads?)?",
    (_, { draft }) => void (draft.nonlinear = true),
  ),
  phrase("no conduit", "(not|no|without|isn't)( in)?( a| any)? (conduit|pipe|raceway)", () => {}),
  phrase(
    "a size in parallel",
    "({n} )?parallel(ed)?( sets?| runs?)?( of)?( {n}| #)* {size}( per phase)?|{n} {size} per phase",
    (m, reading) => {
      const { draft } = reading;
      if (m.numbers[0] !== undefined) draft.sets = m.numbers[0];
      else draft.isParallel = true;
      const size = m.token("size")!.size;
      draft.inParallel = [...(draft.inParallel as string[] | undefined) ?? [], size];
      addSizes(reading, [size]);
    },
  ),
  phrase(
    "sets in one raceway",
    "((both|all|everything|sets|they|all sets)( are| run| pulled)* )?(in|sharing) ({n}|the same|a single|a common)( pvc| emt| steel)* (conduits?|raceways?|pipes?|pvc|emt)",
    (m, { draft }) => {
      const [raceways] = m.numbers;
      if (raceways !== undefined && raceways > 1) draft.together = false;
      else draft.isTogether = true;
      if (/pvc/.test(m.text)) draft.conduit = "PVC";
      else if (/emt|steel/.test(m.text)) draft.conduit = "steel";
    },
  ),
  phrase(
    "sets apart",
    "(in |each in |each )*(separate|own|its own|their own|{n}|different)( pvc| emt| steel)? (conduits|raceways|pipes|conduit)|each( set)? in (its|their) own",
    (m, { draft }) => {
      draft.together = false;
      if (/emt|steel/.test(m.text)) draft.conduit = "steel";
    },
  ),
  phrase(
    "sets",
    "({n} )?parallel(ed)?( sets?| runs?| of| conductors?)*|{n} (sets?|runs?)( in parallel)?( of)?|in parallel|(?<each>{n}) (?=({size}) per phase)",
    (m, { draft }) => {
      if (m.numbers[0] !== undefined) draft.sets = m.numbers[0];
      else draft.isParallel = true;
    },
  ),
  phrase("kind of cable", "(?<cable>uf|nm|romex|ser|seu|mc)(?= |,|$|\\.)", (m, { draft }) => {
    draft.cableKind ??= KIND_OF_CABLE[m.groups.cable!];
    return false;
  }),
  ...wiringPhrases,
  phrase(
    "sizes to choose from",
    "({size}|{cable}|{n})( is)?,?( or| vs\\.?| versus)+ ({size}|{cable}|{n})(?! ?(a|amps?|ft|feet|v|volts?|phase|poles?|wires?|sets?)( |$))",
    (m, reading) => {
      const sizes = m.tokens.map((t) => t.is === "size" || t.is === "cable" ? t.size : t.is === "n" ? t.n : "");
      if (!sizes.every((size) => !/^\d+$/.test(size) || SIZES.includes(Number(size)))) return false;
      const cable = m.token("cable");
      if (cable) reading.draft.cableWires = cable.wires;
      addSizes(reading, sizes);
    },
  ),
  phrase("cable", "{cable}( w\\/?( )?g(round)?| with( a)? ground)?", (m, reading) => {
    const { size, wires } = m.token("cable")!;
    addSizes(reading, [size]);
    reading.draft.cableWires = wires;
  }),
  phrase("several sizes of a cable", "{sizes}", (m, reading) => {
    const { sizes } = m.token("sizes")!;
    addSizes(reading, [sizes[0]!]);
    reading.draft.cableWires = Math.min(4, Math.max(2, sizes.length - 1));
    reading.draft.cableKind ??= "SE cable";
  }),
  phrase("size", "{size}( wires?| conductors?)?", (m, reading) => addSizes(reading, [m.token("size")!.size])),
  phrase(
    "a bare size",
    "(say|says|saying|use|using|run|running|pull|told) {n}(?= (is|would|wire|cu|copper|al|aluminum|thhn|thwn|to)|\\.|,|;|\\?|$)",
    (m, reading) => {
      if (!SIZES.includes(m.numbers[0]!)) return false;
      reading.readAs(`took ${m.numbers[0]} as the wire size`);
      addSizes(reading, [String(m.numbers[0])]);
    },
  ),
  phrase("bare power", POWER, (m, { draft }) => {
    if (draft.load !== undefined) return false;
    put(draft, "load", m.quantities[0]);
  }),
  phrase("bare amperes", "(for |a |need |at |minimum )*{A}", (m, { draft }) => {
    if (draft.heardBare || (draft.breaker !== undefined && draft.load !== undefined)) return false;
    draft.heardBare = m.quantity("A");
  }),
  phrase(
    "a plan to check",
    "ok(ay)?|enough|sufficient|allowed|legal|acceptable|adequate|(big|large|heavy) enough|too (big|small|large)|safe|fine|correct|can i ([a-z]+ )?(use|run|put|have)|will ([a-z]+ )?(work|do)|is it (right|correct)|good",
    (_, { draft }) => void (draft.check = true),
  ),
  phrase(
    "what is asked",
    `(what |which |the |smallest |minimum |least |right |proper |a |my |new |each |full |both |electrical |main |between |for |from |to |in |and )*(${SUBPANEL}|panels?|breaker box|hots?|phases?|neutrals?|egcs?|grounds?|grounding|ground rods?|rods?|lugs?|raceways?|wires?|conductors?|cables?|breakers?|ends?|bond(ed|ing)?( or not| out there)?|isolated?|disconnect|voltage drop|vd|size|sizes|per set)`,
    () => {},
  ),
];

type Heard = {
  heardBare?: Said<"A">;
  heardSizes?: boolean;
  isDwelling?: boolean;
  isCharging?: boolean;
  isTap?: boolean;
  isTogether?: boolean;
  isWye?: boolean;
  inParallel?: string[];
  isParallel?: boolean;
  cableKind?: string;
};

/** Gives what was read apart its place among the four meanings of an amperage, and the sets their company. */
export function settle({ draft, readAs, amending }: Reading): void {
  const heard = draft as Heard & Draft;
  const { heardBare, isCharging, cableKind } = heard;
  if (heardBare) {
    if (amending && draft.breaker !== undefined) draft.breaker = heardBare;
    else if (draft.breaker === undefined && draft.panel === undefined) draft.breaker = heardBare;
    else if (draft.load === undefined && draft.continuous === undefined) {
      draft.load = heardBare;
      readAs(`took ${heardBare.value} A as the load`);
    }
  }
  if (heard.isTap && draft.tappedFrom === undefined && draft.source !== undefined) {
    draft.tappedFrom = draft.source;
    delete draft.source;
  }
  if (isCharging && draft.load !== undefined && draft.continuous === undefined) {
    draft.continuous = draft.load;
    delete draft.load;
    readAs("a car charger's load is continuous");
  }
  if (heard.isWye) draft.phases ??= 3;
  if (heard.isTogether && typeof draft.sets === "number" && draft.sets > 1) draft.together = true;
  if (cableKind) draft.method = cableKind;
  else if (
    draft.cableWires !== undefined && (draft.method === undefined || draft.method === "conductors in conduit") &&
    !amending
  ) {
    draft.method = "NM cable";
    readAs("took the cable as NM");
  }
  // A dwelling's rule ends where one conductor would still do: there, and for sizes that were told, parallel means two.
  // Elsewhere sets are added until a size that is commonly pulled will do.
  if (heard.isParallel && draft.sets === undefined && (draft.sizes !== undefined || heard.isDwelling === true)) {
    draft.sets = 2;
    readAs("took parallel as two sets");
  }
  const apart = ((draft.sizes as string[] | undefined) ?? []).filter((size) =>
    heard.inParallel?.includes(size) === false
  );
  if (apart.length > 0) {
    readAs(`checked the parallel sets; ${apart.join(" and ")} in one set left aside`);
    draft.sizes = heard.inParallel;
  }
  supplyAndDwelling(draft, heard.isDwelling === true, readAs);
  for (
    const key of [
      "heardBare",
      "heardSizes",
      "isDwelling",
      "isCharging",
      "isTap",
      "isTogether",
      "isWye",
      "inParallel",
      "isParallel",
      "cableKind",
    ]
  ) delete draft[key];
}

function supplyAndDwelling(draft: Draft, isDwelling: boolean, readAs: Reading["readAs"]): void {
  // "100 amp service in the shop" is a feeder from the house.
  if (draft.supply === "service" && draft.where === "separate structure") {
    draft.supply = "feeder";
    readAs("took the service out there as a feeder from the main panel");
  }
  if (draft.supply === "service" && isDwelling) draft.wholeDwelling ??= true;
  if (
    draft.wholeDwelling === true && draft.where === undefined && draft.supply === undefined && draft.panel === undefined
  ) {
    draft.supply = "service";
  }
}
