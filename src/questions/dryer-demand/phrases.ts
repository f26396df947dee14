import type { Cue, Phrase } from "../../text/phrases.ts";
import type { DryerRequest } from "./question.ts";

export const cues: readonly Cue[] = [
  {
    pattern: "dryers? (demand|load)|(demand|load) (load )?(of|for) ({n} )?(household |clothes |electric )*dryers?",
    points: 3,
  },
  { pattern: "{n} (household |electric |clothes )*dryers", points: 2 },
  { pattern: "(clothes )?dryers?", points: 1 },
];

const DRYERS = "(household |electric |clothes |clothes )*dryers?";

/** Adds to the list, or, when an earlier question is changed, replaces it. */
const add = (draft: Record<string, unknown>, entry: NonNullable<DryerRequest["dryers"]>[number], replace: boolean) => {
  draft.dryers = replace ? [entry] : [...(draft.dryers as unknown[] ?? []), entry];
};

export const phrases: readonly Phrase[] = [
  {
    name: "dryers",
    pattern:
      `({n} )?({power} |{A} )?({V} )?${DRYERS}( load| demand)?((,)?( of| at| rated|:| @| nameplate)*(\\s)*({power}|{A})( each| apiece)?)?|{n} ({power}|{A}) each`,
    read: (m, { draft, amending }) => {
      const rating = m.quantity("kW", "W", "VA", "kVA", "A");
      if (!rating && m.numbers.length === 0 && draft.dryers) return false;
      add(draft, { count: m.numbers[0] ?? 1, ...(rating && { rating }) } as never, amending);
    },
  },
  {
    name: "supply",
    pattern: "(on |from )?(an? )?({system} )?{phase}( (service|supply|feeder|system|building))?",
    read: (m, { draft }) => void (draft.supply = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase"),
  },
];
