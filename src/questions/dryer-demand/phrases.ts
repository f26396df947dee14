/** How people ask what household dryers add up to. */
import { changed, loadList, type ReadLoad } from "../../loads/reader.ts";
import type { Cue, Phrase, Scan } from "../../text/phrases.ts";

const DRYERS = "((household|electric|clothes|residential|laundry) )*dryers?";

export const cues: readonly Cue[] = [
  {
    pattern:
      `${DRYERS} (demand|load)|(demand|load)s?( load| factor)?( (of|for|on|from))? ((the|my|all|an?) )*({n} )?({power} )?${DRYERS}`,
    points: 3,
  },
  { pattern: "{section 220.54[^›]*|section 220.18[^›]*|section 120.54[^›]*}", points: 2 },
  { pattern: `{n} ({power} |{A} )?${DRYERS}|${DRYERS}[^.?!]{0,40}each`, points: 1 },
  { pattern: "dryers?[^]*demand|demand[^]*dryers?", points: 4 },
  { pattern: "dryers?[^]*(load|calculation)|(load|calculation)[^]*dryers?", points: 1 },
  { pattern: DRYERS, points: 1 },
  { pattern: "{area}|ranges?|water heaters?|cooktops?", points: -2 },
  { pattern: "(what|which) (size )?(wire|breaker|cable|gauge|conductor)|branch circuit", points: -2 },
];

type DryerLoad = Pick<ReadLoad, "count" | "rating">;

const loads: Scan = loadList((kind) => kind === "dryer", (items, { draft, amending, ask }) => {
  if (items.length === 0) return;
  const earlier = ((draft.dryers ?? []) as DryerLoad[]).map((dryer): ReadLoad => ({ kind: "dryer", ...dryer }));
  const list = changed(earlier, items, amending).filter(({ fuel }) => fuel !== "gas");
  if (list.some(({ rating }) => rating?.unit === "hp")) {
    ask({ field: "dryers", ask: "Horsepower is no dryer rating. What is it in kW?", example: "5.5 kW dryer" });
  }
  const { everyUnit } = draft as { everyUnit?: number };
  delete draft.everyUnit;
  draft.dryers = list.map(({ count, rating }) => {
    // A building of ten units with one dryer each has ten dryers.
    const all = everyUnit === undefined ? count : everyUnit * (count ?? 1);
    return { ...(all !== undefined && { count: all }), ...(rating && { rating }) };
  });
});

export const phrases: readonly (Phrase | Scan)[] = [
  {
    name: "supply",
    pattern:
      "(on |from |at )*(an? |one |the |{n} )*({system} |{V} )?{phase}( {system})?( {n} wire)?( (service|supply|feeder|system|building|panel))*",
    read: (m, { draft }) => void (draft.supply = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase"),
  },
  {
    name: "units of a building",
    pattern:
      "{n} (unit|apartment|flat|family)( (apartment|condo))?( (building|house|complex|dwelling))|(building|complex)( of| with) {n} (units|apartments|flats)|{n} (units|apartments|flats)(?=[^]*(in|for|per) (each|every|a|apiece))",
    read: (m, { draft }) => void (draft.everyUnit = m.numbers[0]),
  },
  {
    name: "in each unit",
    pattern: "(in |for |per )(each|every|a|an|its)( own)?( (unit|apartment|flat|of them|one))?",
    read: () => {},
  },
  {
    name: "count after",
    pattern: "{n} of (them|these|those)",
    read: (m, { draft }) => {
      const dryers = draft.dryers as DryerLoad[] | undefined;
      if (dryers?.length !== 1) return false;
      draft.dryers = [{ ...dryers[0]!, count: m.numbers[0]! }];
    },
  },
  loads,
  {
    name: "words without a fact",
    pattern:
      "households?|residential|((same|in|the|a|an|one) )*kitchens?|(in |an )*apartments?( building| house)?s?|max(imum)?|least|full size",
    read: () => {},
  },
];
