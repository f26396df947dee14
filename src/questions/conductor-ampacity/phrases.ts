import type { Cue, Phrase, Reading } from "../../text/phrases.ts";
import { wiringPhrases } from "../wiring.ts";

export const cues: readonly Cue[] = [
  { pattern: "ampacity|ampacities|derate|derated|derating", points: 3 },
  { pattern: "ampacity|ampacities", points: 1 },
  {
    pattern: "(how (much|many)|what)[^.?!]{0,60}(carry|carries|carrying|handle|good for|rated for|safe for|take)",
    points: 2,
  },
  { pattern: "good for|rated for|can ([a-z]+ ){0,2}(carry|handle)", points: 1 },
  { pattern: "{size}|{cable}|{sizes}", points: 1 },
  { pattern: "(current carrying|ccc|cccs)", points: 2 },
  { pattern: "(correct(ed|ion)|adjust(ed|ment))( factors?)?", points: 1 },
  { pattern: "{°F}|{°C}|ambient", points: 1 },
  {
    pattern:
      "fit|fill|conduit size|trade size|{in3}|cubic inch(es)?|box(es)?|nipple|fault|torque|(what|which|smallest|least|size( of)?) (size )?(conduit|pipe|raceway|emt|pvc|nipple|tubing)|into",
    points: -3,
  },
  // One circuit with its load is another question.
  { pattern: "draw(s|ing)|{A} (circuit|breaker)|{kW}|{W}", points: -1 },
];

export const phrases: readonly Phrase[] = [
  {
    name: "breaker",
    pattern:
      "(on |with |by |protected by |behind )*(an? |the )?{A}( {n} pole| double pole| single pole)?( circuit)?( )?(breakers?|cb|fuses?|ocpd|overcurrent device|circuits?)|" +
      "(breakers?|fuses?|ocpd)( of| is| at|:)* {A}",
    read: (m, { draft }) => void (draft.breaker = m.quantity("A")),
  },
  {
    name: "circuits together",
    pattern: "{n} ({phase} |multi( )?wire |{n} wire |{V} |{A} )*(branch )?circuits?( with their own neutrals?)?",
    read: (m, { draft, readAs }) => {
      const count = m.numbers[0]!;
      const wires = m.token("phase")?.phases === 3 ? 3 : 2;
      draft.fromCircuits = count * wires;
      readAs(`${count} circuits of ${wires} current-carrying conductors each`);
    },
  },
  {
    name: "neutral counts",
    pattern:
      "(mostly |mainly |major(ity)? )?(non( )?linear|harmonics?)( loads?)?|(the )?neutral (counts?|is counted|carries( the)? harmonics?)",
    read: (_, { draft }) => void (draft.neutralCounts = true),
  },
  {
    name: "four wires",
    pattern: "({phase} )?{n} wire( wye| delta)?",
    read: (m, { draft }) => {
      if (m.numbers[0] !== 3 && m.numbers[0] !== 4) return false;
      draft.wires = m.numbers[0];
    },
  },
  { name: "shared neutrals", pattern: "multi( )?wire|shared neutrals?|sharing (a )?neutrals?", read: () => {} },
  {
    name: "load",
    pattern: "(carry|carries|handle|carrying|load of|load is|for) (an? |the )?{A}( continuous)?( load)?|{A} loads?",
    read: (m, { draft }) => void (draft.load = m.quantity("A")),
  },
  ...wiringPhrases,
  {
    name: "cable",
    pattern: "{cable}",
    read: (m, { draft, readAs }) => {
      const { size, wires } = m.token("cable")!;
      draft.size = size;
      readAs(`${wires} insulated conductors of ${size} AWG in one cable`);
    },
  },
  {
    name: "size",
    pattern: "{size}( {n} wire)?( conductors?| wires?)?",
    read: (m, { draft }) => void (draft.size = m.token("size")!.size),
  },
  {
    name: "what is asked",
    pattern:
      "(after |the |next size up|what |each |if the load is no more than that|(largest|biggest|max(imum)?) (breakers?|ocpd|fuses?)|ampacity|ampacities|derate|derated|derating|correct(ed|ion)|adjust(ed|ment)|factors?|temperature|conductors?|indoors|inside|enough|ok(ay)?|many|bundled)( |)",
    read: () => {},
  },
];

/** Circuits and neutrals become a number of current-carrying conductors where none was said. */
export function settle({ draft, readAs }: Reading): void {
  const { fromCircuits, neutralCounts, wires } = draft;
  delete draft.fromCircuits;
  delete draft.neutralCounts;
  delete draft.wires;
  delete draft.conduit;
  if (draft.conductors !== undefined) return;
  if (neutralCounts && wires !== 3) {
    draft.conductors = 4;
    readAs("the neutral counts: three phase conductors and the neutral");
  } else if (typeof fromCircuits === "number") draft.conductors = fromCircuits;
}
