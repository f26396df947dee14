/** How people ask about several motors. */
import type { Cue, Draft, Match, Phrase, Reading } from "../../text/phrases.ts";
import {
  bareVolts,
  BREAKER,
  dropPhrases,
  DUAL,
  linePhrases,
  machines,
  NONTIME,
  phrase,
  settleLengths,
  settleSupply,
  supplyPhrases,
  typePhrases,
} from "../motor-phrases.ts";
import { wiringPhrases } from "../wiring.ts";
import type { FeederRequest } from "./request.ts";

const AND = "( |,|\\)|&|and|plus|\\+|a|an|one|the)*";
export const cues: readonly Cue[] = [
  { pattern: `feeders?[^.?!]*(motors?|{hp})|(motors?|{hp})[^.?!]*feeder`, points: 3 },
  { pattern: "motors? feeder", points: 5 },
  {
    pattern:
      `{hp}[^.?!]*{hp}|{n}( )?(\\+|,|&|and)( )?(and )?(an? )?{hp}|{n}${AND}{hp}[^.?!]*motors|{n} motors|motors[^.?!]*{hp}[^.?!]*each`,
    points: 5,
  },
  { pattern: "motors?", points: 1 },
  { pattern: "{hp}", points: 1 },
  { pattern: "feed(s|ing)? [^.?!]*{hp}[^.?!]*{hp}", points: 2 },
  { pattern: "interlocked|largest motor|group installation|lead( )?\\/( )?lag|duplex", points: 1 },
  { pattern: "(duplex|triplex)[^.?!]*{hp}|{hp}[^.?!]*(duplex|triplex)", points: 1 },
  { pattern: "disposers?|disposals?|dishwashers?|water heaters?|dwelling|convert|conversion|dual voltage", points: -3 },
];

type Entry = Partial<NonNullable<FeederRequest["motors"]>[number]> & {
  /** Where it stands in the text, while that is being read. */
  at?: number;
};
const motorsOf = (draft: Draft) => (draft.motors ??= []) as Entry[];

/**
 * Keeps the motors in the order of the text, whichever phrase read them. Once an earlier question is changed, the motors
 * named are the new list.
 */
function add({ at }: Match, { draft, amending }: Reading, entries: Entry[]): void {
  if (amending && !draft.replaced) {
    draft.motors = [];
    draft.replaced = true;
  }
  draft.motors = [...motorsOf(draft), ...entries.map((entry) => ({ ...entry, at }))].sort((a, b) =>
    (a.at ?? 0) - (b.at ?? 0)
  );
}

function readMotors(m: Match, reading: Reading): void {
  const power = m.quantity("hp", "kW") as Entry["power"];
  add(m, reading, [{ count: m.numbers[0] ?? 1, ...(power && { power }) }]);
}

const KIND = "(squirrel cage |induction |{phase} |{V} |identical |design b )*";
const motorPhrases: readonly Phrase[] = [
  phrase(
    "list with one unit",
    `(?<![}›] ?){n}( hp)?(( )?(,|&|\\+|and|plus)( )?(and )?(an? )?{n})*( )?(,|&|\\+|and|plus)( )?(and )?(an? )?{hp}`,
    (m, reading) => {
      const last = m.quantity("hp")!;
      add(m, reading, [...m.numbers.map((value) => ({ count: 1, power: { value, unit: "hp" as const } })), {
        count: 1,
        power: last,
      }]);
    },
  ),
  phrase(
    "count, then power",
    `\\(?{n}\\)?( )?(x|×|@|ea\\.?|each|pcs|nos?\\.?)?( )?(identical |equal |same size )*{hp}( motors?)?( each)?`,
    readMotors,
  ),
  phrase("power, then count", `{hp}( motors?)?( )?(x|×)( )?{n}`, readMotors),
  phrase(
    "motors of a power",
    `{n} ${KIND}(motors?|pumps?|fans?|compressors?|blowers?)(,| of| at| rated| each| are| @|:)* {hp}( each| apiece)?`,
    readMotors,
  ),
  phrase("one motor", "(an? |one |the )*{hp}( motors?| pumps?| fans?)?( {supply})?", readMotors),
  phrase("motor of a current", "(an? |one |({n} ))?{A}( fla| full load)? motors?", (m, reading) => {
    add(m, reading, [{ count: m.numbers[0] ?? 1, nameplateCurrent: m.quantity("A") as never }]);
  }),
];

const factPhrases: readonly Phrase[] = [
  phrase(
    "interlocked",
    "(electrically |mechanically )?interlock(ed|s)?( so( that)?)?((,| |{n}|only|at|a|time|of|them|these|runs?|running|can|may|will|never|not|together|don't|do|both|once|the|same)*(time|together|once|runs?|running))?|(never|don't|do not|can't|cannot|won't|not)( both| all)? run(s|ning)? (together|at (the )?same time|at once|simultaneously)|{n} at a time|alternat(e|es|ing)( so( that)? only one runs)?",
    (_, { draft }) => void (draft.interlocked = true),
  ),
  phrase(
    "at once",
    "(only |never more than |at most )*{n} (of them |of these |them |these |motors? |pumps? )*(runs?|running|operat(es?|ing))?( )?(at (once|a time|any time|the same time)|together|simultaneously)",
    (m, { draft }) => {
      const last = motorsOf(draft).findLast(({ at = 0 }) => at <= m.at);
      const count = last?.count ?? 1;
      // "only one" of several powers is one of them all.
      const ofAll = motorsOf(draft).length > 1 && /only|never/.test(m.text);
      if (m.numbers[0] === 1 && (count === 1 || ofAll)) return void (draft.interlocked = true);
      if (!last || m.numbers[0]! > count) return false;
      last.atOnce = m.numbers[0]!;
    },
  ),
  phrase(
    "all together",
    "all (running |run |of them )*(together|at once|at the same time)",
    (_, { draft }) => void delete draft.interlocked,
  ),
  phrase(
    "one branch",
    "(on|from|share|sharing) (one|{n}|a single|the same|a|same) (branch )?circuits?|group installation",
    (m, { draft }) => (m.numbers[0] ?? 1) === 1 ? void (draft.oneBranch = true) : false,
  ),
  phrase(
    "taps",
    "({ft}( long)? (motor )?taps?|taps?( of| are| is| length|:)* {ft})( conductors?)?( to each motor)?",
    (m, { draft }) => void (draft.tap = m.quantity("ft")),
  ),
  phrase(
    "other load",
    "(and |plus |with |\\+ ?|also |an? |the )*{A|VA|kVA|kW|W}( of)?( (?<kind>continuous|non( )?continuous|noncont|cont\\.?))?( (other|lighting|heating|heater|heat|resistance|receptacle|misc|general|electric|connected|office))*( (loads?|lighting|lights|heaters?|heat|receptacles?))( (?<after>continuous|non( )?continuous))?|" +
      "(and |plus |with )*(other|lighting|heater|heating|resistance) loads?( of| is| at|:)* {A|VA|kVA|kW|W}( (?<later>continuous|non( )?continuous))?",
    (m, { draft }) => {
      const kind = m.groups.kind ?? m.groups.after ?? m.groups.later;
      const others = (draft.others ??= []) as unknown[];
      others.push({
        load: m.quantity("A", "VA", "kVA", "kW", "W"),
        ...(kind && { continuous: !kind.startsWith("non") }),
      });
    },
  ),
  phrase(
    "other load continues",
    "(the )?(other )?(load )?(is )?(?<non>non( )?)?continuous(ly)?( load)?",
    (m, { draft }) => {
      const others = draft.others as { continuous?: boolean }[] | undefined;
      if (!others) return false;
      for (const each of others) each.continuous = m.groups.non === undefined;
    },
  ),
  phrase(
    "fuse put up",
    `{A} ((${DUAL}|${NONTIME}) )*fuses?`,
    (m, { draft }) => {
      draft.fuse = m.quantity("A");
      draft.device = new RegExp(NONTIME).test(m.text) ? "nontime-delay fuse" : "dual-element fuse";
    },
  ),
  phrase(
    "breaker put up",
    `(on |with |by |off |from |and )*(an? |the )*{A}[,]?( {phase}| {n} pole| feeder| main)* ${BREAKER}|(on |with |by )*(an? |the )*(feeder )?${BREAKER}( )?(is|of|at|:|rated|=)*( )?{A}`,
    (m, { draft }) => void (draft.breaker = m.quantity("A")),
  ),
  phrase("share", `(at |by |with |@( )?|\\()*{%}( of)?( flc| fla)?( \\))?(?! drop| voltage)`, (m, { draft }) => {
    if (Number(m.quantity("%")!.value) < 100) return false;
    draft.percent = m.quantity("%");
  }),
  phrase("nontime-delay fuses", `${NONTIME}( fuses?)?`, (_, { draft }) => void (draft.device = "nontime-delay fuse")),
  phrase(
    "dual-element fuses",
    `${DUAL}((,| )*${DUAL})*( fuses?)?`,
    (_, { draft }) => void (draft.device = "dual-element fuse"),
  ),
  phrase(
    "breakers",
    `(max(imum)? |largest |feeder |branch )*(each )?${BREAKER}`,
    (_, { draft }) => void (draft.asksBreaker = true),
  ),
];

const asked: Phrase = phrase(
  "asked",
  "(max(imum)? |min(imum)? |largest |least |smallest |correct |motor |branch )*(feeders?( (ampacity|conductors?|wires?|protection|devices?|size|ocpd|ocp|fuses?))?|ampacity|conductors?|ocpds?|ocp|overcurrent( protection| device)?|protection|devices?|fuses?|fused|grounds?|egc|gauge|mcc|panel|scenario|same circuit|circuit|all|both|each|true|motors?|load|itbs?)",
  () => {},
);

export const phrases: readonly Phrase[] = [
  ...dropPhrases,
  ...factPhrases.slice(4, 5),
  ...motorPhrases,
  ...factPhrases.slice(0, 4),
  ...factPhrases.slice(5),
  ...typePhrases.filter(({ name }) => name !== "rest of the nameplate"),
  ...linePhrases,
  ...supplyPhrases,
  ...wiringPhrases,
  machines,
  asked,
  bareVolts,
];

/** A kind of motor or a speed that was named holds for all of them; a breaker named beside fuses is the feeder's. */
export function settle(reading: Reading): void {
  const { draft } = reading;
  settleSupply(reading);
  settleLengths(reading);
  for (const field of ["type", "speed"]) {
    if (draft[field] === undefined) continue;
    draft.motors = motorsOf(draft).map((motor) => ({ ...motor, [field]: draft[field] }));
    delete draft[field];
  }
  if (draft.motors) draft.motors = motorsOf(draft).map(({ at: _, ...motor }) => motor);
  delete draft.dualVolts;
  delete draft.asksBreaker;
  delete draft.replaced;
}
