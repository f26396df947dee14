/** How people ask for the circuit of cooling equipment: nameplates as they read, parts with their currents, plans to check. */
import type { Cue, Draft, Match, Phrase, Reading } from "../../text/phrases.ts";
import { wiringPhrases } from "../wiring.ts";
import {
  AMPERES,
  COMPRESSOR,
  COOLS,
  COUNT,
  FAN,
  HEAT,
  IS,
  LEAST_DEVICE,
  MCA,
  MOCP,
  RATED,
  ROOM,
  SELECTION,
} from "./words.ts";

/** The same as the MCA where it is spelled out: only with its figure is it a nameplate's. */
const MARKED_AMPACITY = "min(imum|\\.)?( branch)? (circuit|ckt|cct) amp(acity|acities|s)?";

export const cues: readonly Cue[] = [
  // A nameplate's own words name this kind, whatever else the text speaks of.
  { pattern: `mca|${MARKED_AMPACITY}${IS}${AMPERES}|${AMPERES} ${MARKED_AMPACITY}`, points: 8 },
  {
    pattern: `mocp|mop|hacr|(max(imum|\\.)?) (over( )?current( protect(ion|ive))?|fuse)( size| device)*${IS}${AMPERES}`,
    points: 3,
  },
  { pattern: `${RATED}|${SELECTION}`, points: 3 },
  { pattern: ROOM, points: 3 },
  { pattern: `${ROOM}[^]* (circuit|breaker|outlet)|(circuit|breaker) [^]*${ROOM}`, points: 2 },
  { pattern: COMPRESSOR, points: 2 },
  {
    pattern:
      `(semi )?hermetic(ally)?|(chiller|cooler|freezer|refrigeration|scroll|condens[a-z]+)( unit)?[^.?!]* compressor`,
    points: 3,
  },
  { pattern: "compressors? [^.?!]*fan|fan[^.?!]* compressors?", points: 1 },
  { pattern: COOLS, points: 1 },
  {
    pattern:
      `(wire|breaker|circuit|fuse|disconnect|whip|gauge|conductor|amp)s?[^]* (${COOLS})|(${COOLS})[^]* (wire|breaker|circuit|fuse|disconnect|whip|gauge|conductor)s?`,
    points: 1,
  },
  { pattern: `(${COOLS})[^]*({ton|BTU/h}|{kW} btu)|({ton|BTU/h}|{kW} btu)[^]*(${COOLS})`, points: 4 },
  { pattern: `{A} (${RATED} )?${COMPRESSOR}|${COMPRESSOR}( with| has| draws| an?)*${IS}{A}`, points: 1 },
  // A floor area makes it the load of a building.
  { pattern: "{area}", points: -9 },
  // Horsepower never sizes a cooling circuit; a compressor told by it alone is a motor.
  { pattern: "{hp}", points: -1 },
  // Air compressors are motors.
  { pattern: "air compressors?", points: -2 },
];

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });

type Amperes = { value: number | string; unit: "A" };
const amperes = (value: number | string): Amperes => ({ value, unit: "A" });
/** The current of a match: one with its unit, or the last bare number. */
const currentOf = (m: Match): Amperes | undefined => {
  const said = m.quantity("A");
  if (said) return said;
  const bare = m.numbers.at(-1);
  return bare === undefined ? undefined : amperes(bare);
};
const currentsOf = (m: Match): Amperes[] => m.quantities.filter((q): q is Amperes => q.unit === "A");
/** Devices to choose from, `40 or 50 A` among them: the unit said last is meant for all. */
const devicesOf = (m: Match): Amperes[] => {
  const [bare] = / or /.test(m.text) ? m.numbers : [];
  return [...(bare === undefined ? [] : [amperes(bare)]), ...currentsOf(m)];
};

/** A figure of the nameplate. A second, different one is another unit's, and is asked about. */
const marked = (name: string, field: string, pattern: string, also?: (m: Match, draft: Draft) => void): Phrase[] => {
  const read: Phrase["read"] = (m, { draft, ask, amending }) => {
    const said = currentOf(m)!;
    const before = draft[field] as Amperes | undefined;
    if (before && !amending && before.value !== said.value) {
      ask({
        field,
        ask:
          `There are two figures, ${before.value} A and ${said.value} A: each unit has a circuit of its own. Which one is asked for?`,
        example: "MCA 23 A, max overcurrent 40 A",
      });
    }
    draft[field] = said;
    also?.(m, draft);
  };
  // `23 MCA 40 MOCP`: the figure behind a name belongs to the next name where that has none of its own.
  const another = `(?!( )?(${MCA}|${MOCP})(?!${IS}${AMPERES}))`;
  return [
    phrase(name, `${pattern}${IS}${AMPERES}${another}`, read),
    phrase(`${name}, figure first`, `${AMPERES} ${pattern}`, read),
  ];
};

type List = { count: number }[];
const add = (draft: Draft, field: "compressors" | "fans", entry: Record<string, unknown> & { count: number }): void => {
  draft[field] = [...(draft[field] as List ?? []), entry];
};
/** The number of like things before their current: `two 4 A fans`, `two fans 4 A each`. */
const countOf = (m: Match): number => {
  const numbers = m.numbers;
  const count = m.quantity("A") ? numbers[0] : numbers.length > 1 ? numbers[0] : undefined;
  return count !== undefined && Number.isInteger(count) ? count : 1;
};

/** Room units come first: what shares their circuit is no part of theirs. */
const roomUnit: readonly Phrase[] = [
  phrase(
    "room unit with its current",
    `{A} (rated )?(${ROOM})|(${ROOM})( that| which)?( draws?| drawing| pulls?| uses?| takes?| nameplate| rated)*${IS}{A}`,
    (m, { draft }) => {
      draft.unitCurrent = m.quantity("A");
      draft.room ??= "not told";
    },
  ),
  phrase("room unit", ROOM, (_, { draft }) => void (draft.room ??= "not told")),
  phrase(
    "other loads on the circuit",
    "(together )?(with |and |along with |plus |also feeding |serves |feeding |that (also )?(feeds|serves|has) )+(other |some |the |a few |bedroom |living room |existing |several )*(outlets?|receptacles?|lights?|lighting|loads|plugs|things)( on it| too| as well| on the same circuit| in the room)?|shared( circuit)?|general( purpose)? circuit|(not|isn't|no) (a )?dedicated( circuit)?|other outlets on (it|the same circuit)",
    (_, { draft }) => {
      draft.room = draft.room === undefined ? undefined : "shared";
      if (draft.room === undefined) return false;
    },
  ),
  phrase(
    "alone on its circuit",
    "(on )?(an? |its |it's )?(own|dedicated|individual|separate)( {V})?( {A})?( branch)?( circuit)|(alone|by itself|nothing else)( on (its|the|a) circuit| on it)?|dedicated",
    (m, { draft }) => {
      if (draft.room) draft.room = "alone";
      const rating = m.quantity("A");
      if (rating) put(draft, "breakers", [rating]);
    },
  ),
];

const nameplate: readonly Phrase[] = [
  ...marked("minimum device", "minimumProtection", LEAST_DEVICE),
  ...marked("minimum circuit ampacity", "minimumCircuitAmpacity", MCA),
  ...marked("maximum device", "maximumProtection", MOCP, ({ text }, draft) => {
    const [fuse, breaker] = [/fuse|mfs/.test(text), /breaker|brkr|brk|bkr|hacr|cb/.test(text)];
    if (fuse) draft.markedFor = breaker ? "fuse or breaker" : "fuse";
  }),
  phrase("maximum alone", `max(imum|\\.)?${IS}${AMPERES}`, (m, { draft }) => {
    if (!draft.minimumCircuitAmpacity || draft.maximumProtection) return false;
    draft.maximumProtection = currentOf(m);
  }),
];

const parts: readonly Phrase[] = [
  phrase(
    "locked-rotor current",
    `(lra|locked rotor( amps?| current)?)${IS}${AMPERES}|{A} (lra|locked rotor( amps?)?)`,
    (_, { readAs }) => readAs("the locked-rotor current is set aside: the device's percentage covers the start"),
  ),
  ...selection(),
  phrase(
    "fans",
    `${COUNT}${FAN}( each)?( fla| rla| full load( amps| current)?| draws?| drawing| with)*${IS}${AMPERES}( fla)?( each| apiece)?`,
    fans,
  ),
  phrase(
    "fans, figure first",
    `${COUNT}{A} (fla )?(for )?(the |an? )?${FAN}( each)?|${AMPERES} (fla )?(on|for) (the |an? )?${FAN}`,
    fans,
  ),
  phrase(
    "fans by power",
    `({n} )?{hp} ${FAN}|${FAN}${IS}{hp}`,
    (m, { draft }) => add(draft, "fans", { count: m.numbers[0] ?? 1 }),
  ),
  phrase(
    "numbered compressor",
    `${COMPRESSOR}( #| no\\.?| number)?( )?{n}( )?(:)?( with| has)?( an?)?( ${RATED})?${IS}${AMPERES}( ${RATED})?`,
    (m, { draft }) => add(draft, "compressors", { count: 1, ratedLoad: m.quantity("A") ?? amperes(m.numbers[1]!) }),
  ),
  phrase(
    "compressors",
    `${COUNT}${COMPRESSOR}( each)?( with| has| have| draws?| drawing| nameplate| an?)*( ${RATED}| fla)?${IS}${AMPERES}(( and| &|,) {A}(?! ${FAN}))*( ${RATED})?( each| apiece)?`,
    compressors,
  ),
  phrase("compressors, figure first", `${COUNT}{A} (${RATED} )?${COMPRESSOR}( each)?`, compressors),
  // A hermetic compressor is sized by its nameplate current, whatever its power.
  phrase(
    "compressors by power",
    `({n} )?{hp} ${COMPRESSOR}|${COMPRESSOR}${IS}{hp}`,
    (m, { draft }) => add(draft, "compressors", { count: m.numbers[0] ?? 1 }),
  ),
  phrase("rated-load current", `${RATED}${IS}${AMPERES}|{A} ${RATED}`, (m, { draft }) => {
    const list = draft.compressors as (List[number] & { ratedLoad?: Amperes })[] | undefined;
    const open = list?.find(({ ratedLoad }) => ratedLoad === undefined);
    if (open) open.ratedLoad = currentOf(m)!;
    else add(draft, "compressors", { count: 1, ratedLoad: currentOf(m) });
  }),
  phrase("other motor", `(fla|full load amps?)${IS}${AMPERES}|{A} fla`, (m, { draft }) => {
    if (!draft.compressors) return false;
    add(draft, "fans", { count: 1, current: currentOf(m) });
  }),
  phrase(
    "electric heat",
    `(and |plus |with |w\\/ |an? )*{kW|W}( of)? ${HEAT}( in it)?|${HEAT}${IS}{kW|W|A}|{A} (of )?(electric|strip|aux|resistance) heat`,
    (m, { draft }) => {
      // Beside a nameplate's ampacity the heat is in it already, or another unit's.
      if (draft.minimumCircuitAmpacity) return false;
      draft.heat = m.quantity("kW", "W", "A");
      draft.heatSaid = true;
    },
  ),
  phrase(
    "same circuit",
    "((all |both )?on |share |shares |sharing )(the |one |a )?(same|{n}|single|common) circuit|(in )?(a |one |the )?pack(age|aged)( unit| system)?|roof( )?top( unit)?|rtu",
    (_, { draft }) => void (draft.together = true),
  ),
  phrase(
    "interlocked",
    "(heat and compressors? |heat |strips |they |both )*(never|not|cannot|can't|don't|do not|won't) (both )?(run|runs|running|come on|operate)( together| at the same time| at once| with the compressors?| simultaneously)+|interlocked|locked out",
    (_, { draft }) => void (draft.interlocked = true),
  ),
];

function selection(): Phrase[] {
  const read: Phrase["read"] = (m, { draft }) => {
    const list = draft.compressors as (List[number] & { selection?: Amperes })[] | undefined;
    if (list?.length) list.at(-1)!.selection = currentOf(m)!;
    else add(draft, "compressors", { count: 1, selection: currentOf(m) });
  };
  return [
    phrase("selection current", `${SELECTION}${IS}${AMPERES}`, read),
    phrase("selection current, figure first", `{A} ${SELECTION}`, read),
  ];
}

function fans(m: Match, { draft }: Reading): void {
  add(draft, "fans", { count: countOf(m), current: currentOf(m) });
}
function compressors(m: Match, { draft, amending }: Reading): void {
  if (amending) delete draft.compressors;
  const said = currentsOf(m);
  const list = draft.compressors as (List[number] & { ratedLoad?: Amperes; selection?: Amperes })[] | undefined;
  const open = list?.find(({ ratedLoad }) => ratedLoad === undefined);
  if (open) return void Object.assign(open, { count: countOf(m), ratedLoad: currentOf(m) });
  if (said.length > 1) { for (const each of said) add(draft, "compressors", { count: 1, ratedLoad: each }); }
  else add(draft, "compressors", { count: countOf(m), ratedLoad: currentOf(m) });
}

const START =
  "(won't|wont|will not|doesn't|does not|can't|cannot|fails? to|failing to|not) (start|carry the start(ing)?( current)?)|(trips?|tripping|tripped|trips out|kicks out)( it| the breaker| off)?( on| at| during| when)( the)? (start(s|ing|up)?|start up)|hard start(ing)?|(nuisance )?trip(s|ping)? on start( )?up";

const rest: readonly Phrase[] = [
  phrase(
    "drop limit",
    "(max(imum)? |at most |within |under |limit(ed)? to |hold to |keep |keep it |stay under )*{%}( max(imum)?)?( voltage)? drop( limit)?|voltage drop( limit)?( of| under| at most| within|:)* {%}",
    (m, { draft }) => void (draft.dropLimit = m.quantity("%")),
  ),
  phrase(
    "share",
    "(at |using |with |the |by |a )*{%}( rule| step| of( the)? rla)?",
    (m, { draft }) => void (draft.percent = m.quantity("%")),
  ),
  phrase(
    "will not start",
    `(it |which |that |the unit |and )*(${START})( on| with| at)?( the| an?)?( {A})?( breaker| fuse| device)?`,
    (m, { draft, readAs }) => {
      draft.hardStarting = true;
      const tried = m.quantity("A");
      if (tried) readAs(`${tried.value} A is what it was tried on`);
    },
  ),
  phrase(
    "power factor",
    "(at |with )?(an? )?(power factor|pf)( of| is| =|:|=)*( )?{n}|{n} (power factor|pf)",
    (m, { draft }) => void (draft.powerFactor = m.numbers[0]),
  ),
  phrase("thousands of BTU", "{kW} btu(h|s)?(( )?\\/( )?h(our|r)?| per hour)?", (m, { draft }) => {
    draft.capacity = { value: Number(m.quantity("kW")!.value) * 1000, unit: "BTU/h" };
  }),
  phrase("several units", `({n} |both )({ton|BTU/h} )?(${COOLS})s?`, (m, { draft }) => {
    const said = m.quantity("ton", "BTU/h");
    if (said) draft.capacity = { value: Number(said.value), unit: said.unit };
    draft.units = m.numbers[0] ?? 2;
  }),
  phrase("capacity", "(about |approx\\.? )?{ton|BTU/h}( of cooling)?", (m, { draft }) => {
    const said = m.quantity("ton", "BTU/h")!;
    draft.capacity = { value: Number(said.value), unit: said.unit };
  }),
  phrase(
    "disconnect put up",
    "(an? |the |my |with )*{A}( fused| non fused| unfused| pull( )?out)* disconnect(s|ing means)?|disconnect( of| is| rated|:)* {A}",
    (m, { draft }) => {
      draft.disconnect = m.quantity("A");
    },
  ),
  phrase(
    "fuses put up",
    `(on |with |using |use |is |are |by )*(an? |the |my |existing )*({A}|{n} amp)(( or|,|( )?\\/)( )?{A})*( time delay| dual element| current limiting)* fuses?`,
    (m, { draft }) => put(draft, "fuses", devicesOf(m)),
  ),
  phrase(
    "breakers put up",
    `(on |with |using |use |is |are |by )*(an? |the |my |existing |single |our )*({A}|{n}(?= or {A}))(( or|,|( )?\\/)( )?(an? )?{A})*( {V})?( {n} pole| two pole| double pole| dp| hacr| circuit| existing| regular| branch)* (breakers?|brkrs?|cbs?|circuits?)|(breakers?|brkrs?)( is| size| of| rated|:)* {A}`,
    (m, { draft }) => put(draft, "breakers", devicesOf(m)),
  ),
  phrase(
    "unit current",
    `{A} (${COOLS})|(${COOLS})( that| which)?( draws?| drawing| pulls?| uses?| rated| nameplate)*${IS}{A}|fla${IS}{A}|{A} fla`,
    (m, { draft }) => void (draft.unitCurrent = m.quantity("A")),
  ),
  phrase(
    "length",
    "(about |approx\\.? |approximately |around |roughly |and |at |over |run(s|ning)? |run of |of |is |was |be |only |~)*{ft}( away| run| long| one way| from (the )?(panel|breaker box|breaker panel|main|house)( to)?| of wire| feet| out| distance)*",
    (m, { draft, ask, amending }) => {
      const said = m.quantity("ft")!;
      const before = draft.length as { value: number | string } | undefined;
      if (before && !amending && before.value !== said.value) {
        ask({
          field: "length",
          ask: `Which length is the run to the unit, ${before.value} ft or ${said.value} ft?`,
          example: "80 ft from the panel",
        });
      }
      draft.length = said;
    },
  ),
  phrase("supply of the nameplate", "(at |on )?{supply}", (m, { draft }) => {
    const { volts, phases } = m.token("supply")!;
    draft.volts = { value: Number(volts), unit: "V" };
    draft.phases = phases;
  }),
  phrase(
    "supply of a dual nameplate",
    "{system}( v| volts)?( )?(-|\\/)( )?{n}( ph| phase)?( )?(-|\\/)( )?{n}( hz)?",
    (m, reading) => {
      const [phases] = m.numbers;
      if (phases !== 1 && phases !== 3) return false;
      reading.draft.phases = phases;
      setVolts(m, reading);
    },
  ),
  phrase("hertz", "{hz}|{n}( )?(hz|hertz)", () => {}),
  phrase(
    "voltage and phase",
    "(at |on |an? )*({system}|({n}( )?(-|\\/)( )?)?{V})?(,)?( )?{phase}( power| supply| service)?",
    (m, reading) => {
      reading.draft.phases = m.token("phase")!.phases;
      setVolts(m, reading);
    },
  ),
  phrase(
    "voltage",
    "(at |on |an? )*({system}|({n}( )?(-|\\/)( )?)?{V})( power| supply| service)?",
    (m, reading) => setVolts(m, reading),
  ),
  ...wiringPhrases,
  phrase("cable put up", "(is |with |using |use |run |an? |the |in |on )*{cable}", (m, { draft }) => {
    draft.size = m.token("cable")!.size;
  }),
  phrase(
    "size put up",
    "(is |with |using |use |run |an? |the |in |on )*{size}( {n} wire)?( conductors?| wires?)?",
    (m, { draft }) => {
      draft.size = m.token("size")!.size;
    },
  ),
  phrase("fans without a figure", FAN, (_, { draft }) => {
    if (draft.compressors && !draft.fans && !draft.minimumCircuitAmpacity) add(draft, "fans", { count: 1 });
  }),
  phrase("air handler", "air handlers?|furnaces?|fan coils?|ahu", () => {}),
  phrase(
    "outdoor equipment",
    `(central |split |system |outdoor )*(${COOLS}|${COMPRESSOR})( unit| system| outside| outdoors)*`,
    (_, { draft }) => void (draft.outdoor = true),
  ),
  phrase(
    "what is asked",
    `(${MOCP}|${MCA}|${RATED}|${SELECTION}|${HEAT}|breakers?|fuses?|device|ocpd|disconnect(ing means)?s?|gauge|protective|protection|minimum|smallest|largest|biggest|maximum|nameplate|how (large|big|small)|conductors?|branch|ground(ing)?|egc|inspector|whip|labels?|motors?|outside|outdoor|recommended?|allowed|permitted|legal|code|both|two|feed|same|compressor|hvac|unit's|correct|installing|installation|install|hook(ing)? up|tell|appropriate|might|may|start|not|than|box|panel|breaker panel|approximately|fine|enough|plus|good|box|single|existing|swap|reads|sticker|allowed|too big|big)`,
    () => {},
  ),
];

const put = (draft: Draft, field: "breakers" | "fuses", said: Amperes[]): void | false => {
  if (said.length === 0) return false;
  draft[field] = said;
};

const SYSTEM_VOLTS: Readonly<Record<string, number>> = {
  "120/240": 240,
  "208Y/120": 208,
  "480Y/277": 480,
  "600Y/347": 600,
  "230/460": 460,
};
function setVolts(m: Match, { draft, readAs }: Reading): void {
  const system = m.token("system")?.system;
  const said = m.quantity("V")?.value ?? (system === undefined ? undefined : SYSTEM_VOLTS[system]);
  if (said === undefined) return void (system && readAs(`${system} V: either supply, so no voltage is taken from it`));
  // `208-230 V` is what the unit is made for, not what it is on.
  if (m.quantity("V") && m.numbers.length > 0) {
    return readAs(`${m.numbers[0]} to ${said} V: either supply, so no voltage is taken from it`);
  }
  draft.volts = { value: said, unit: "V" };
}

export const phrases: readonly Phrase[] = [...roomUnit, ...nameplate, ...parts, ...rest];

/** Puts together what belongs together, and asks where a heater may be on another circuit. */
export function settle({ draft, ask, readAs }: Reading): void {
  const { together, outdoor, heatSaid, units } = draft;
  for (const heard of ["together", "outdoor", "heatSaid", "units"]) delete draft[heard];
  if (Number(units) > 1 && draft.minimumCircuitAmpacity) {
    if (together) {
      ask({
        field: "units",
        ask:
          "Each nameplate is for a circuit of its own. What are the compressor and fan currents of the units that share one?",
        example: "two compressors RLA 14 A each, two fans 1 A each",
      });
    }
    readAs("each unit has a circuit of its own: this is one of them");
  }
  if (draft.minimumCircuitAmpacity) {
    delete draft.heat;
    delete draft.interlocked;
  }
  if (!draft.heat || !heatSaid) return;
  if (draft.compressors && !together) {
    ask({
      field: "heat",
      ask:
        "Is the electric heat on the same circuit as the compressor (a packaged unit), or does it have its own? Each circuit is asked for by itself.",
      example: "compressor 20 A, fan 2.5 A and 10 kW heat on the same circuit",
    });
  }
  // An air handler's heat says nothing of the outdoor unit that was asked for.
  if (!draft.compressors && (outdoor || draft.capacity)) delete draft.heat;
}
