/** How people ask for the load of a house. */
import { CATALOGUE, LOAD_KINDS } from "../../loads/catalogue.ts";
import { changed, loadList, type ReadLoad } from "../../loads/reader.ts";
import { exact } from "../../core/quantity.ts";
import {
  type Cue,
  type Draft,
  type Match,
  type Phrase,
  type Reading,
  type Said,
  type Scan,
  toJson,
} from "../../text/phrases.ts";
import { ELECTRODE_NAMES } from "../electrodes.ts";
import type { SPACES } from "./request.ts";

const DWELLING = "house|home|dwelling|residence|residential|single family|one family|apartment|condo|cabin|cottage";
const LOADS = LOAD_KINDS.flatMap((kind) => CATALOGUE[kind].names).filter((name) => name.length > 1)
  .map((name) => `${name}s?`).join("|");

export const cues: readonly Cue[] = [
  { pattern: "(optional|opt|standard|std) (method|calc|calculation)s?", points: 3 },
  {
    pattern: "{section 220.82[^›]*|section 220.30[^›]*|section 220.53[^›]*|section 220.42[^›]*|section 120.82[^›]*}",
    points: 3,
  },
  { pattern: `(${DWELLING})( unit)? (service )?load( calc| calculation)?`, points: 3 },
  { pattern: "load calc(ulation)?s?", points: 2 },
  { pattern: "service calc(ulation)?s?", points: 1 },
  { pattern: "{area}", points: 1 },
  // What an existing service still takes is another question, and so is more than one family.
  {
    pattern:
      "existing load|new total|{section 220.83[^›]*|section 220.87[^›]*|section 120.83[^›]*|section 120.87[^›]*}",
    points: -9,
  },
  {
    pattern:
      "duplex|triplex|fourplex|multi( )?family|two family|apartment (building|house|complex)|{n} (unit|family|apartments)",
    points: -9,
  },
  { pattern: `{area}(?=[^]*(${LOADS}|ac|small appliance))|(${LOADS}|ac)(?=[^]*{area})`, points: 5 },
  { pattern: "{area}(?=[^]*({power}|{hp}))", points: 3 },
  { pattern: `({n}( )?[x×]( )?{n}|{ft} (house|home))(?=[^]*(${LOADS}|ac))`, points: 2 },
  { pattern: `(${DWELLING})`, points: 1 },
  {
    pattern:
      "(what|which) (size |main |rating )*service|service( size)?( do| does| will| is| for|$)|service (load|rating)",
    points: 1,
  },
  { pattern: `(residential|house|home) {A} service|{A} service[^.?!]*(handle|enough|do|carry)`, points: 2 },
];

type Space = (typeof SPACES)[number];
type Area = { area: Said<"ft2" | "m2">; space?: Space };

const times = ({ value, unit }: Said<"ft2" | "m2">, n: number): Said<"ft2" | "m2"> => ({
  value: toJson(exact(value).mul(n)),
  unit,
});

/** Where this text says an area: areas stay in the order they are said in, whichever phrase read them. */
const places = new WeakMap<Area, number>();

/** Adds floor area. When an earlier question is changed, an area said anew replaces those of its space. */
function addArea(reading: Reading, m: Match, area = areaOf(m), space: Space = "living", more = false): void {
  const areas = (reading.draft.areas ?? []) as Area[];
  const replaces = reading.amending && !more;
  const kept = replaces ? areas.filter((one) => places.has(one) || (one.space ?? "living") !== space) : areas;
  const said: Area = { area, ...(space !== "living" && { space }) };
  places.set(said, m.at);
  reading.draft.areas = [...kept, said].sort((a, b) => (places.get(a) ?? -1) - (places.get(b) ?? -1));
}

const areaOf = (m: Match) => m.quantity("ft2", "m2")!;
const space = (
  name: string,
  pattern: string,
  which: (text: string, reading: Reading) => Space | undefined,
): Phrase => ({
  name,
  pattern,
  read: (m, reading) => {
    const is = which(m.text, reading);
    if (is === undefined) return false;
    addArea(reading, m, areaOf(m), is);
  },
});
/** The area before its space or after it: `400 sq ft garage`, `garage of 400 sq ft`. */
const around = (what: string): string =>
  `{area}( of)?( an?| the)? ((attached|detached|open|covered|front|back|screened|unfinished|finished) )*(${what})|` +
  `((attached|detached|open|covered|front|back|screened|unfinished|finished) )+{area} (${what})|` +
  `((attached|detached|open|covered|front|back|screened|unfinished|finished) )*(${what})( of| is|:|,| at)* {area}`;

const AREAS: readonly (Phrase | Scan)[] = [
  {
    name: "floors",
    pattern:
      "(?<n>{n}) (floors?|stor(y|ies|eys?)|levels?)( house| home)?( of| with|,|:|[(]| at| each| about)+\\s*{area}( each| per (floor|story|level)| a floor| on each| apiece)?|{area} (per|on each|each|a) (floor|story|level)[^.;?!]{0,20}(?<m>{n}) (floors|stories|levels|story)|(?<k>{n}) (floors?|stories|levels|story)( house| home)?,? {area} (each|per (floor|story|level)|a floor|on each)",
    read: (m, reading) => {
      const story = /stor(y|ey)\b/.test(m.text) && !/each|per|on|of|a floor/.test(m.text);
      if (story) return false;
      addArea(reading, m, times(areaOf(m), m.numbers[0]!));
    },
  },
  space(
    "garage area",
    around("(({n}|single|double) car )?(garage|shop|workshop)( [(](attached|detached)[)])?"),
    (text, reading) => {
      if (/detached/.test(text)) return "detached garage";
      if (!/attached/.test(text)) reading.readAs("took the garage as attached");
      return "attached garage";
    },
  ),
  space("porch area", around("porch(es)?|deck|carport|patio"), () => "open porch"),
  space("basement area", around("basement|attic|cellar|bonus room|crawl space|crawlspace"), (text, reading) => {
    if (/unfinished|crawl/.test(text)) return "unfinished";
    if (!/finished|bonus/.test(text)) {
      reading.readAs(
        `counted the ${/attic/.test(text) ? "attic" : "basement"} as living area; say "unfinished" if it is`,
      );
    }
    return "living";
  }),
  {
    name: "unfinished area",
    pattern: "{area} (of )?(unfinished|not finished)( space| area)?",
    read: (m, reading) => addArea(reading, m, areaOf(m), "unfinished"),
  },
  {
    name: "unfinished but adaptable",
    pattern:
      "(but |and |that is |which is )*(can|could|may|might|will|to)( later)? be finished( later)?|(that is |and |but |which is )*adaptable( for future use| to future use)?|for future use",
    read: (m, { draft }) => {
      const before = ((draft.areas ?? []) as Area[]).findLast((one) =>
        one.space === "unfinished" && (places.get(one) ?? -1) < m.at
      );
      if (!before) return false;
      before.space = "unfinished, adaptable";
    },
  },
  {
    name: "more area",
    pattern:
      "(add(ing)?|plus|and|with|another|put on)( (an?|another|more|additional|extra))+ {area}( addition| extension| more| extra)*|{area}( more| extra)* (addition|extension|more|extra)|(add(ing)?|another) {area}|addition (of|is) {area}",
    read: (m, reading) => addArea(reading, m, areaOf(m), "living", true),
  },
  {
    name: "floor area",
    pattern:
      "((floor area|living area|living space|area|house|home|it|size)( is| of|:|=| to)* )?{area}( (of|in))?( (living|floor|finished|heated|conditioned|total|gross))*( (area|space|house|home|dwelling|residence))?",
    read: (m, reading) => addArea(reading, m),
  },
  {
    name: "feet that are square feet",
    pattern: "{ft} (house|home|ranch|dwelling)",
    read: (m, reading) => {
      const { value } = m.quantity("ft")!;
      if (exact(value).valueOf() < 400) return false;
      reading.readAs(`took "${value} ft house" as ${value} square feet`);
      addArea(reading, m, { value, unit: "ft2" });
    },
  },
  {
    name: "length by width",
    pattern: "(?<n>{n})( )?(x|×|by)( )?{n}( house| home| dwelling| cabin)?",
    read: (m, reading) => {
      const [length, width] = m.numbers as [number, number];
      if (reading.draft.areas !== undefined || length < 10 || width < 10) return false;
      reading.readAs(`took ${length} × ${width} as feet`);
      addArea(reading, m, { value: length * width, unit: "ft2" });
    },
  },
];

const set = (name: string, pattern: string, facts: Draft): Phrase => ({
  name,
  pattern,
  read: (_, { draft }) => void Object.assign(draft, facts),
});
const electrode = (is: string, pattern: string): Phrase =>
  set(
    `electrode, ${is}`,
    `(to |with |using |on |and )*(an? |the )*((electrode|grounding|grounded)( is| to|:)* )*(${pattern})( electrode)?`,
    { electrode: is },
  );

const FACTS: readonly Phrase[] = [
  {
    name: "optional method",
    pattern: "(by |use |using |with |the )*(both )?(standard and optional|optional and standard|both) methods?",
    read: (_, { draft }) => void delete draft.method,
  },
  set(
    "optional method",
    "((by|use|using|with|under|do|the|an?|it) )*(optional|opt)( (method|calculation|calc|load calculation|load calc|way))?(?! standby)",
    { method: "optional" },
  ),
  set(
    "standard method",
    "((by|use|using|with|under|do|the|a|it) )*(standard|std)( (method|calculation|calc|load calculation|load calc|way))",
    { method: "standard" },
  ),
  {
    name: "method by section",
    pattern:
      "(by |per |under |using |use |see )?(the )?(article |section )?{section 220.82[^›]*|section 220.30[^›]*|section 120.82[^›]*}",
    read: (_, { draft }) => void (draft.method = "optional"),
  },
  {
    name: "system",
    pattern:
      "(on |at |from |with |is |a |an )*{system}( ((single|1) phase|{phase}|three wire|3 wire|{n} wire|service|system|supply|network|apartment))*",
    read: (m, { draft }) => {
      const { system } = m.token("system")!;
      if (system !== "120/240" && system !== "208Y/120") return false;
      draft.system = system === "120/240" ? "120/240" : "120/208";
    },
  },
  {
    name: "single phase",
    pattern: "(at |on |a )*({V} )?{phase}( ({n} wire|service|system|supply))*",
    read: (m, { draft }) => {
      const volts = m.quantity("V");
      if (m.token("phase")!.phases !== 1 || (volts && ![208, 220, 230, 240].includes(Number(volts.value)))) {
        return false;
      }
      if (volts) draft.system = volts.value === 208 ? "120/208" : "120/240";
    },
  },
  {
    name: "small-appliance circuits",
    pattern:
      "(with )?({n}|an?)( x)? ({A} )?(small appliance|sa|sabc|kitchen|kitchen small appliance)( branch)?( circuits?| ckts?| circs?)?(?! load)",
    read: (m, { draft }) => void (draft.smallApplianceCircuits = m.numbers[0] ?? 1),
  },
  {
    name: "laundry circuits",
    pattern:
      "(?<no>no|without( an?)?) laundry( circuits?| ckts?)?|({n}|an?|the)( x)? ({A} )?laundry( branch)?( circuits?| ckts?)?|(?<=(and|&|[+]) )laundry(?! ({VA}|room))|laundry (circuits?|ckts?)",
    read: (m, { draft }) => void (draft.laundryCircuits = m.groups.no ? 0 : m.numbers[0] ?? 1),
  },
  {
    name: "service to check",
    pattern:
      "((is|will|would|can|does|if|whether|on|for|with|its|have|has|got|keep|put|use) )*((an?|the|my|our|existing|this|that) )*{A} (main |service |main breaker |panel |electrical )*(service |panel |main )?(big |large )?(enough|ok|okay|adequate|sufficient|do it|do|handle (it|this|that)|carry (it|this)|work|suffice)|" +
      "(enough|ok|adequate|sufficient) (on|with|for)( an?| the)? {A}( service| panel| main)?|" +
      "(?<=(is|will|would|can|does|check) )((an?|the|my|our|existing|this|that) )*{A} (service|panel|main)( big| large)?( enough| ok| okay| adequate| sufficient| do)?|" +
      "(with|on|has|have|for|its|against|to check|check)( an?| the| my| existing)* {A} (service|main|panel)( to check)?|" +
      "service (to check|of|is|rating|rated)(:| of| is)* {A}|{A} (service|(main )?(breaker )?panel)",
    read: (m, { draft }) => void (draft.service = m.quantity("A")),
  },
  set(
    "aluminum",
    "((use|using|in|with|make it|it is|it's|service|feeder) )*(aluminum|aluminium|alum|al)( (conductors?|wires?|cable|ser|service|service conductors|instead))*",
    { material: "aluminum" },
  ),
  set(
    "copper",
    "((use|using|in|with|make it|it is|it's) )*(copper|cu)( (conductors?|wires?|cable|service|service conductors|instead))*(?! (water|pipe|rod))",
    { material: "copper" },
  ),
  ...Object.entries(ELECTRODE_NAMES).map(([is, pattern]) => electrode(is, pattern)),
  set(
    "after the disconnect",
    "(it |this |that |the panel )*(is |as |at )*(an? |the )*(sub( )?panel|(panel )?(after|downstream of|beyond|past) the ((service|main) )*disconnect|(service |main |emergency )?disconnect (is )?(outside|ahead)( of it)?)",
    { panel: "after the service disconnect" },
  ),
  set("at the disconnect", "(panel )?(at|with) the service disconnect|main (is )?in the panel", {
    panel: "at the service disconnect",
  }),
  set(
    "locked out",
    "(that |which |and |both |they |the |compressor |strips? |is |are |heat pump |with )*((never|can't|cannot|don't|won't|not|doesn't|can not) (both )?(run|work|operate|come on)( together| at (once|the same time)| simultaneously)*|(?<!(not|no) )(interlock(ed)?|locked out|lock( )?out)( (so|and|that) ((they|both|the two|it) )?(never|can't|cannot|don't|won't) (both )?run( together| at (once|the same time))?)?)( when (the )?(strips?|backup|aux|supplemental)( heat)?( runs?| is on| are on)?)?",
    { compressorLockedOut: true },
  ),
  set(
    "run together",
    "(that |which |and |both |they |the |compressor |strips? )*((can|may|do|will|does)( all)?) (both )?(run|work|operate|come on|be on|energize)( together| at (once|the same time)| simultaneously| with (it|the compressor|the heat pump))+|(run|running) (together|at the same time|simultaneously)|not (interlocked|locked out)|no (interlock|lock( )?out)",
    { compressorLockedOut: false },
  ),
  {
    name: "nothing else",
    pattern:
      "(and )?(everything|all|anything|the rest|rest)( else)?( is| are| on)* (gas|propane|oil)|(gas|propane) everything( else)?|(no|without) hvac|the rest gas|nothing else( is)? electric|no other (electric )?(loads?|appliances?)|no other electric",
    read: (_, { draft }) => void (draft.nothingElse = true),
  },
  {
    name: "lighting asked alone",
    pattern:
      "(how many )?((general|{A}) )*(lighting|receptacle)( (and|&) receptacles?)? circuits?|(general )?lighting load(?! {VA})",
    read: (_, { draft }) => void (draft.nothingElse = true),
  },
  {
    name: "what is asked",
    pattern:
      "(in va|(load |current )?(on|for) the (line|ungrounded|hot)( (wires?|conductors?|legs?))?|(load |current )?(on|for) the neutral|(size of )?(the )?neutral( (load|current|conductor|size))?|gec|(grounding electrode|ungrounded|service) conductors?( size)?|main bonding jumper|main( breaker)?( size)?|what demand|least|smallest)(?! ({A}|{size}))",
    read: () => {},
  },
  {
    name: "one family",
    pattern: `({n}|single|one) family( (${DWELLING}))?`,
    read: (m) => m.numbers.length === 0 || m.numbers[0] === 1 ? undefined : false,
  },
  set(
    "120 V loads on one leg",
    "(all |every )?(the )?{V} (loads?|circuits?|appliances?) (are |is |all )*(on|from) (one|{n}|a|the same|leg a|line a)( )?(leg|line|side)?",
    { oneLeg: true },
  ),
];

const loads: Scan = loadList(() => true, (items, { draft, amending }) => {
  if (items.length > 0) draft.loads = changed((draft.loads ?? []) as ReadLoad[], items, amending);
});

export const phrases: readonly (Phrase | Scan)[] = [...FACTS, ...AREAS, loads];

/** Puts every 120 V load on leg A where that was said of all of them, and asks for the appliances when none is named. */
export function settle({ draft, amending, ask }: Reading): void {
  const { oneLeg, nothingElse, ...request } = draft;
  delete draft.oneLeg;
  delete draft.nothingElse;
  const loads = (request.loads ?? []) as ReadLoad[];
  if (oneLeg) {
    draft.loads = loads.map((load) => {
      const volts = Number(load.volts?.value ?? CATALOGUE[load.kind].volts);
      return volts < 140 && !load.leg ? { ...load, leg: "A" } : load;
    });
  }
  if (amending || nothingElse || loads.length > 0) return;
  if (!request.areas) {
    ask({ field: "areas", ask: "What is the floor area, from outside dimensions?", example: "2400 sq ft" });
  }
  ask({
    field: "loads",
    ask: "Which electric appliances, heating and cooling does the house have, and what do their nameplates say?",
    example: "12 kW range, 5 kW dryer, AC 24 A, gas heat; or: nothing else electric",
  });
}
