/** How people ask what household cooking equipment adds up to. */
import { CATALOGUE } from "../../loads/catalogue.ts";
import type { Item } from "../../loads/load.ts";
import { changed, loadList, type ReadLoad } from "../../loads/reader.ts";
import type { Cue, Phrase, Reading, Scan } from "../../text/phrases.ts";
import type { CookingRequest } from "./question.ts";

const KINDS = ["range", "wall-oven", "cooktop"] as const;
const COOKING = KINDS.flatMap((kind) => CATALOGUE[kind].names).map((name) => `${name}s?`).join("|");

export const cues: readonly Cue[] = [
  { pattern: "cooking demand", points: 6 },
  { pattern: `(cooking|(${COOKING}))( equipment| appliances?)? (demand|load)s?`, points: 3 },
  { pattern: `demand[^]{0,100}(${COOKING})|(${COOKING})[^]{0,150}demand`, points: 4 },
  { pattern: `load( factor)?s?[^.?!;]{0,60}(${COOKING})`, points: 1 },
  { pattern: `(${COOKING})[^]{0,150}load`, points: 1 },
  { pattern: "{section 220.55[^›]*|section 220.19[^›]*|section 120.55[^›]*}|cooking table|column [abc]", points: 2 },
  // The load of a branch circuit, not its wire or breaker: those are a question of their own.
  {
    pattern:
      `(${COOKING})[^]{0,150}(load|demand)[^?!]{0,60}branch circuit|load[^?!]{0,40}branch circuit[^?!]{0,60}(${COOKING})|` +
      `(load|demand)[^.?!]{0,60}(${COOKING})[^?!]{0,40}branch circuit|branch circuit (load|demand)[^.?!]{0,60}(${COOKING})`,
    points: 12,
  },
  { pattern: `(${COOKING})`, points: 1 },
  // A list of other loads, or a floor area, is a whole house.
  { pattern: "{area}", points: -2 },
  { pattern: "(what|which) (size )?(wire|breaker|cable|gauge|conductor)", points: -2 },
];

const loads: Scan = loadList((kind) => KINDS.includes(kind as never), take);

type Appliance = NonNullable<CookingRequest["appliances"]>[number];

function take(items: readonly Item[], { draft, amending, ask }: Reading): void {
  if (items.length === 0) return;
  const earlier = (draft.appliances ?? []) as ReadLoad[];
  const list = changed(earlier, items, amending).filter(({ fuel }) => fuel !== "gas");
  if (list.some(({ rating }) => rating?.unit === "hp")) {
    ask({ field: "appliances", ask: "Horsepower is no cooking rating. What is it in kW?", example: "12 kW range" });
  }
  const volts = list.find((load) => load.volts !== undefined)?.volts;
  if (volts) draft.volts = volts;
  draft.appliances = list.map(({ kind, count, rating }) => ({
    kind,
    ...(count !== undefined && { count }),
    ...(rating && { rating }),
  })) as Appliance[];
}

export const phrases: readonly (Phrase | Scan)[] = [
  {
    name: "supply",
    pattern:
      "(on |from |at |is )*(an? |the )*({system} |{V} )?{phase}( {n} wire)?( (service|supply|feeder|system|building|panel|wye))*",
    read: (m, { draft }) => void (draft.supply = m.token("phase")!.phases === 3 ? "three-phase" : "single-phase"),
  },
  {
    name: "branch circuit",
    pattern:
      "(on |for |used |of |to |in )*((an?|the|that|one|{n}|its|same|single) )*({V} )?branch circuits?( rating| load)?( instead)?",
    read: (m, { draft }) => {
      draft.use = "branch circuit";
      const volts = m.quantity("V");
      if (volts) draft.volts = volts;
    },
  },
  {
    name: "feeder or service",
    pattern:
      "(on |for |of |to )*((an?|the|that|one|same) )*(feeder|service)( conductors?| calculation| demand| load)?( instead)?",
    read: (_, { draft }) => void (draft.use = "feeder"),
  },
  {
    name: "column C",
    pattern: "((by|use|using|with|in|from|of|the) )*column c( only)?",
    read: (_, { draft }) => void (draft.method = "column C"),
  },
  {
    name: "note 3",
    pattern:
      "((by|use|using|with|under|the|from) )*(note (3|three|{n})|columns? a (and|&|or) b|column [ab]|percent(age)? columns?)( (of|in) the cooking table)?",
    read: (m, { draft }) => {
      if (m.numbers.length > 0 && m.numbers[0] !== 3) return false;
      draft.method = "note 3";
    },
  },
  {
    name: "voltage",
    pattern: "(all |both )?(at |on |are |is )*({V}|{system})( each| supply| service| system)*",
    read: (m, { draft, amending }) => {
      if (draft.volts !== undefined && !amending) return false;
      const system = m.token("system")?.system;
      const volts = system === "120/240" ? 240 : system === "208Y/120" ? 208 : m.quantity("V")?.value;
      if (volts === undefined) return false;
      draft.volts = { value: volts, unit: "V" };
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
