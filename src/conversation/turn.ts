/**
 * What a further text of a conversation is: the reply to what was asked back, a change of facts, another question about the
 * same facts, a new question, a return to an earlier one.
 */
import type { Fact, Facts, Free, Value } from "../reading/facts.ts";
import { OF_OTHER_USES } from "../reading/families.ts";
import type { ReadText } from "../reading/read.ts";
import { is } from "../reading/manner.ts";
import { isSame } from "./merge/facts.ts";
import { MEASURES } from "./plate.ts";
import type { Topic } from "./thread.ts";

/** Facts as a thread keeps them: without their places in a text that is gone. */
export const withoutPlaces = ({ facts, free }: Facts, isTaken: (value: Value) => boolean = () => false): Facts => {
  const plain = (value: Value): Value => ({ ...value, pieces: [] });
  return {
    facts: facts.map((fact) => ({
      ...fact,
      pieces: [],
      sentence: -1,
      slots: Object.fromEntries(Object.entries(fact.slots).map(([slot, values]) => [slot, values.map(plain)])),
    })),
    // A bare number means nothing later, but where the question took it as something.
    free: free.filter(({ key, value }) =>
      !key.startsWith("change:") && key !== "aside" && (key !== "number" || isTaken(value))
    )
      .map(({ key, value }) => ({ key, value: plain(value), sentence: -1 })),
  };
};

/** Facts with what was chosen for them, where they say nothing of it themselves. */
export function beside(facts: Facts, chosen: Facts): Facts {
  const sort = (key: string) => key.split(":")[0];
  const isLine = ({ family, id }: Fact) => family === "conductor" && (id === undefined || id === "wire");
  const hasVolts = facts.facts.some(({ slots }) => slots.volts) ||
    facts.free.some(({ key }) => ["V", "system", "volts"].includes(key));
  const has = (key: string) =>
    ["V", "system"].includes(key) ? hasVolts : facts.free.some((each) => sort(each.key) === sort(key)) ||
      facts.facts.some(({ slots }) => sort(key) !== undefined && slots[sort(key)!] !== undefined);
  // `how many fit in that pipe`: in the one that was chosen.
  const isOfRaceway = (key: string) => key === "in" && facts.free.some((each) => each.key === "goal:how-many");
  const free = chosen.free.filter(({ key }) =>
    (["V", "system", "phase", "metal"].includes(sort(key)!) || isOfRaceway(key)) && !has(key)
  );
  // `size it for 3 %`: no size is chosen any more.
  const asksSize = facts.free.some(({ key }) => key === "goal:size") &&
    facts.facts.every((fact) => fact.family !== "conductor" || isLine(fact));
  const heads = chosen.facts.filter((fact) =>
    isLine(fact)
      ? fact.slots.size && !asksSize && !facts.facts.some((each) => isLine(each) && each.slots.size)
      : fact.family === "device" && fact.slots.rating &&
        !facts.facts.some(({ family, slots }) => family === "device" && slots.rating)
  );
  return { facts: [...facts.facts, ...heads], free: [...facts.free, ...free] };
}

export const has = ({ facts }: ReadText, ...keys: string[]): boolean =>
  facts.free.some(({ key }) => keys.includes(key));

export const startsOver = (text: ReadText): boolean => has(text, "goal:start-over");
/** `why …`, `where does the … come from`. */
export const asksWhy = (text: ReadText): boolean =>
  has(text, "goal:why") ||
  text.tokens.some(({ text: word }) => word === "where" || word === "where's") &&
    /\b(?:come|comes|came|coming|get|got) +(?:from|that)\b/i.test(text.asked);
/** Whether what it asks about stands before it: `why not the whole 9`, and no circuit of its own. */
export const asksOfAnswer = (text: ReadText): boolean =>
  text.facts.facts.filter(({ family, id, slots }) =>
    family === "load" && id !== undefined && Object.keys(slots).length > 1
  ).length === 0;
/** Whether it asks for the wire or the breaker of one load that it names with a figure. */
export function asksCircuit({ facts: { facts } }: ReadText): boolean {
  const loads = facts.filter(({ family, id }) => family === "load" && id !== undefined);
  const asks = facts.some(({ family, id, slots }) =>
    Object.keys(slots).length === 0 &&
    (family === "conductor" && id === "wire" || family === "device" && id === "breaker")
  );
  return asks && loads.length === 1 && Object.keys(loads[0]!.slots).length > 0;
}
const AND_A =
  /^\W*(?:(?:ok|okay|and|now|then|next|also|cool|great|thanks|got it)\W+)+(?:for )?(?:a|an|my|the|this|one for)\s/i;
const SAME_CIRCUIT = /\b(?:same|with (?:it|that)|on (?:it|that|there)|to (?:it|that)|together|too|as well|share)\b/i;
/** `and a 1500 W heater on 120`, after the circuit of another load: no load of that circuit, and none in its place. */
export function tellsNewLoad(text: ReadText, topic: Topic): boolean {
  const loads = text.facts.facts.filter(({ family, id }) => family === "load" && id !== undefined);
  return is(topic, "one circuit") && loads.length === 1 && AND_A.test(text.asked) && !SAME_CIRCUIT.test(text.asked) &&
    Object.keys(loads[0]!.slots).length > 0 && !topic.facts.facts.some(({ id }) => id === loads[0]!.id);
}
/** `the egc for a 60 A subpanel`: a ground that is asked for, and a device of its own rating. */
export const tellsGround = ({ facts: { facts } }: ReadText): boolean =>
  facts.some(({ family, id, slots }) => family === "conductor" && id === "equipment-ground" && !slots.size) &&
  facts.some(({ family, id, slots }) => (family === "device" || id === "feeder") && slots.rating);
/** Both metals, where a text compares them: `copper vs aluminum in 2/0?`. */
export function metalsCompared(text: ReadText): string[] {
  const { facts, free } = text.facts;
  const told = [
    ...free.filter(({ key }) => key.startsWith("metal:")).map(({ value }) => value),
    ...facts.flatMap(({ slots }) => slots.metal ?? []),
  ].flatMap(({ sense }) => sense.is === "term" ? [sense.id] : []);
  const metals = [...new Set(told)];
  return metals.length === 2 && /\b(?:vs|versus|or|compared|against|and)\b/i.test(text.asked) ? metals : [];
}
/** A text that compares metals, of one of them. */
export const ofMetal = (text: ReadText, metal: string): ReadText => {
  const isOf = ({ sense }: Value) => sense.is === "term" && sense.id === metal;
  const { facts, free } = text.facts;
  return {
    ...text,
    facts: {
      facts: facts.map((fact) => {
        const { metal: own, ...slots } = fact.slots;
        return own && !own.some(isOf) ? { ...fact, slots } : fact;
      }),
      free: free.filter(({ key, value }) => !key.startsWith("metal:") || isOf(value)),
    },
  };
};
/** Every number that stands in a text. */
export const numbersIn = ({ pieces }: ReadText): number[] =>
  pieces.flatMap(({ senses }) => {
    const sense = senses.find(({ is }) => is === "quantity" || is === "number");
    return sense && "n" in sense ? [sense.n] : [];
  });
const SERVICES = new Set(["service", "panel", "main"]);
/** Whether a text opens with a term, common words before it aside. */
function opensWith({ pieces }: ReadText, sort: string, id: string): boolean {
  const first = pieces.find(({ is }) => is !== "common" && is !== "comma");
  return first?.senses.some((s) => s.is === "term" && s.sort === sort && s.id === id) ?? false;
}
/** `how about a 150 A service`, `48 A charger then?`: things that are known, with another figure, and nothing asked of them. */
export const variesKnown = (text: ReadText, { facts }: Topic): boolean =>
  (opensWith(text, "change", "make") || /\bthen\W*$/i.test(text.asked)) && text.facts.facts.length > 0 &&
  !text.facts.free.some(({ key }) => key.startsWith("goal:")) &&
  text.facts.facts.every(({ family, id, slots }) =>
    id !== undefined && Object.keys(slots).length > 0 &&
    facts.facts.some((known) =>
      known.family === family && (known.id === id || SERVICES.has(id) && SERVICES.has(known.id ?? "")) &&
      Object.keys(known.slots).length > 0
    )
  );
/** `biggest heat pump?`, of a service to which things are added. */
export const asksLargest = (text: ReadText, { kind }: Topic): boolean =>
  kind === "added-load" && has(text, "motorWord:largest") && text.facts.facts.length > 0 &&
  text.facts.facts.every(({ family, slots }) => family === "load" && Object.keys(slots).length === 0);
const POINTERS = new Set(["it", "its", "it's", "that", "this", "them", "those", "these", "there", "same", "here"]);
/** Whether it speaks of what was said before: `the drop on that`, `at the same length`. */
export const pointsBack = ({ tokens }: ReadText): boolean => tokens.some(({ text }) => POINTERS.has(text));
/** Whether it says that another matter is asked about. */
export const tellsOther = (text: ReadText): boolean =>
  isOther(text) || /^\s*next\s*[:,]/i.test(text.asked) || OTHER_PLACE.test(text.asked);
/** `next one: …`, and no `feeding through to the next one`: said first of all. */
const isOther = (text: ReadText): boolean =>
  text.facts.free.some(({ key, value }) => key === "change:other" && (value.pieces[0] ?? 0) <= MOST_BEFORE);
const MOST_BEFORE = 3;
/** `different building, 8 apartments …`, `new house: …`. */
const OTHER_PLACE =
  /^\W*(?:(?:ok|okay|now|so|and) *,? +)*(?:a |on a |for a )?(?:different|another|new|next|other) (?:\w+ )?(?:building|house|place|site|project|customer|address|complex)\s*[,:.;-]/i;
/** `never mind`: what was said last does not count. */
export const retracts = (text: ReadText, topic: Topic | undefined): boolean =>
  has(text, "change:retract") || isScratched(text) || (has(text, "change:keep") && hasLost(topic));
/** Whether the last change took something away. */
const hasLost = (topic: Topic | undefined): boolean =>
  topic?.before !== undefined && topic.before.facts.length > topic.facts.facts.length;
const SCRATCHED = new Set(["scratch", "strike"]);
/** `scratch that`, and nothing that is told instead. */
const isScratched = ({ pieces, tokens }: ReadText): boolean => {
  const facts = pieces.filter(({ is }) => is === "fact");
  return facts.length === 1 && SCRATCHED.has(tokens[facts[0]!.from]!.text) &&
    facts[0]!.senses.some((s) => s.is === "term" && s.sort === "change" && s.id === "correct");
};
/** `no, just the range and the dryer`: instead of what was said last. */
export const tellsOnly = ({ asked }: ReadText): boolean =>
  /^\W*(?:no|nope|nah|wait)\W+(?:wait\W+)?(?:it'?s )?(?:just|only)\b/i.test(asked);
export const asksSection = (text: ReadText): boolean => has(text, "goal:section");
/** Words that tell a change of what was said, and no question of its own. */
export const tellsChange = (text: ReadText): boolean =>
  ["change:make", "change:add", "change:drop", "change:instead", "change:correct", "change:back-to"].some((key) =>
    has(text, key)
  ) ||
  text.asked.trim().split(/\s+/).length <= 2;
/** Labels that describe what stands beside them and ask for nothing: `rated 10 kW`. */
const DESCRIBING: ReadonlySet<string> = new Set(
  ["nameplate", "rated", "draw", "length", "area", "phases", "volts", "ambient", "set-torque", "marked-torque"].map((
    id,
  ) => `label:${id}`),
);
/** Named without a figure, these say where something comes from and ask for nothing: `150 ft from the panel`, `a 210 ft run`. */
const BESIDE: ReadonlySet<string> = new Set(["set", "panel", "main"]);
/** A goal's word, but for an `ok` that only begins what is said. */
const isGoal = ({ pieces, tokens }: ReadText, { key, value }: Free): boolean =>
  key.startsWith("goal:") &&
  !(key === "goal:check" && pieces[value.pieces[0] ?? -1]?.from === 0 && ["ok", "okay"].includes(tokens[0]!.text) &&
    tokens.length > 1 && !tokens.some(({ text }) => text === "?"));
/** Whether it asks for anything: a goal, a device, a conductor or a label without its figure, a question mark. */
export const asksSomething = (text: ReadText): boolean =>
  text.tokens.some((token) => token.text === "?") || namesGoal(text);
export const namesGoalWord = (text: ReadText): boolean =>
  text.facts.free.some((each) => isGoal(text, each) || (each.key.startsWith("label:") && !DESCRIBING.has(each.key)));
/** Whether it names what it asks for, with or without a question mark. */
const namesGoal = (text: ReadText): boolean =>
  namesGoalWord(text) ||
  text.facts.facts.some(({ family, id, slots }) =>
    ["device", "conductor", "circuit"].includes(family) && !BESIDE.has(id ?? "") && Object.keys(slots).length === 0
  );
/** Whether it tells a figure or a term, and asks nothing. */
export const tellsFacts = (text: ReadText): boolean =>
  !asksSomething(text) &&
  text.pieces.some(({ is, senses }) =>
    is === "fact" && senses.every((s) => s.is !== "term" || !["change", "goal", "label"].includes(s.sort))
  );
/** Whether it takes something away and asks nothing. */
export const drops = (text: ReadText): boolean => has(text, "change:drop") && !asksSomething(text);
/** `put the dryer back`, and nothing asked of it. */
export const putsBack = (text: ReadText): boolean =>
  !asksSomething(text) && text.tokens.some(({ text: word }) => word === "back") &&
  text.facts.free.every(({ key }) => key.startsWith("change:"));
/** Whether it decides something rather than asks: said after a question aside, it is about the job that the aside came from. */
export const decides = (text: ReadText): boolean =>
  has(text, "change:decide") && !text.tokens.some((token) => token.text === "?");
/** `hang on, the pump is 230 volt`: what is put right of a thing that the job names, and no question. */
export const correctsJob = (text: ReadText, { facts: { facts } }: Topic): boolean =>
  has(text, "change:correct") && !text.tokens.some((token) => token.text === "?") &&
  text.facts.facts.some(({ family, id, slots }) =>
    family === "load" && id !== undefined && Object.keys(slots).length > 0 &&
    facts.some((known) => known.family === family && known.id === id)
  );
/** Terms that say nothing alone; how long something will last is no stretch of a run. */
const tellsNothing = ({ sort, id }: { sort: string; id: string }): boolean =>
  sort === "change" || sort === "building" || (sort === "circuit" && id === "segment");
/** Whether nothing in it is a fact or a goal: thanks, weather. */
export const saysNothing = (text: ReadText): boolean =>
  text.pieces.every(({ is, senses }) =>
    is !== "fact" ||
    senses.every((s) => s.is === "aside" || (s.is === "term" && tellsNothing(s)))
  );
/** `store`, `count it as an office`: what a floor is used for, where that was asked. */
export const tellsUse = (text: ReadText, { kind, needs = [], facts: { facts } }: Topic): boolean =>
  text.facts.facts.some(({ family, id }) => family === "building" && id?.endsWith("-family")) &&
    facts.some(({ family }) => family === "building") ||
  (kind === "occupancy-load" || needs.some(({ field }) => field === "areas")) &&
    text.facts.facts.some(({ family, id }) => family === "building" && OF_OTHER_USES.includes(id ?? ""));
/** `a second duplex next to it`, of a box or a panel: an outlet, and no house. */
export const tellsOutlets = (text: ReadText, topic: Topic): boolean =>
  is(topic, "outlets") && text.facts.facts.some(({ id }) => id === "two-family");
/** Whether a figure, a size or the like stands in it. */
export const hasFigure = (text: ReadText): boolean =>
  text.pieces.some(({ senses }) =>
    senses.some(({ is }) => ["quantity", "size", "sizes", "cable", "pattern", "pair"].includes(is))
  );

/** `the fifty by itself`: the one of the loads under way that has this figure, with what supplies it. */
export function aloneOf(text: ReadText, { facts: known }: Topic): Facts | undefined {
  if (!has(text, "motorWord:alone") && !/\b(?:just|only) the\b|\bon its own\b/i.test(text.asked)) return undefined;
  const loads = known.facts.filter(({ family }) => family === "load");
  const figures = [
    ...text.facts.free.filter(({ key }) => key === "number").map(({ value }) => value),
    ...text.facts.facts.filter(({ family }) => family === "load").flatMap(({ slots }) => slots.rating ?? []),
  ];
  const heads = text.facts.facts.filter(({ family, id }) => family === "load" && id !== undefined);
  const named = heads.length === 1 ? loads.filter(({ id }) => isSame(id, heads[0]!.id)) : [];
  if (loads.length < 2 || figures.length > 1 || figures.length === 0 && named.length !== 1) return undefined;
  const n = figures[0] && "n" in figures[0].sense ? figures[0].sense.n : undefined;
  const pieces = figures[0]?.pieces ?? heads[0]!.pieces;
  const one = figures.length === 0
    ? named[0]
    : loads.find(({ slots }) =>
      [slots.rating, slots.current].some((values) => values?.[0]?.sense.is === "quantity" && values[0].sense.n === n)
    );
  if (!one) return undefined;
  const { count: _, share: __, ...slots } = one.slots;
  const supply = loads.flatMap((load) => load.slots.volts ?? load.slots.phase ? [load.slots] : [])[0];
  return {
    facts: [
      ...text.facts.facts.filter(({ family }) => family !== "load"),
      {
        ...one,
        pieces,
        slots: {
          ...(supply?.volts && { volts: supply.volts }),
          ...(supply?.phase && { phase: supply.phase }),
          ...slots,
        },
      },
    ],
    free: [
      ...text.facts.free.filter(({ key }) => key !== "number"),
      ...known.free.filter(({ key }) => ["V", "system", "volts"].includes(key) || /^(?:phase|metal):/.test(key)),
    ],
  };
}

/** `the pump is 25`, where several are known with other figures and none is named by its own: those it may be. */
export function oneOfSeveral(text: ReadText, { facts: known }: Topic): string[] | undefined {
  if (has(text, "change:add", "change:drop", "change:instead", "change:back-to")) return undefined;
  const [head, ...others] = text.facts.facts.filter(({ family, id }) => family === "load" && id !== undefined);
  if (!head || others.length > 0 || head.slots.count || /s$/i.test(head.said)) return undefined;
  if (text.tokens.some(({ text: word }) => ["each", "all", "every", "both", "another", "too", "also"].includes(word))) {
    return undefined;
  }
  const told = [
    ...text.facts.free.filter(({ key }) => key === "number").map(({ value }) => value),
    ...MEASURES.flatMap((slot) => head.slots[slot] ?? []),
  ];
  const alike = known.facts.filter(({ family, id }) => family === "load" && isSame(id, head.id));
  const measures = alike.flatMap(({ slots }) => MEASURES.flatMap((slot) => slots[slot]?.[0] ?? []).slice(0, 1));
  const [figure, ...more] = told;
  if (!figure || more.length > 0 || alike.length < 2 || measures.length !== alike.length) return undefined;
  const nOf = ({ sense }: Value) => "n" in sense ? sense.n : undefined;
  if (measures.some((each) => nOf(each) === nOf(figure))) return undefined;
  if (new Set(measures.map(nOf)).size < 2) return undefined;
  return alike.map(({ said }, i) => `${measures[i]!.said} ${said}`.trim());
}

/** `and six ranges at 10 kW` after the dryers of a building: the same is asked of them. */
export function alsoDemanded(text: ReadText, topic: Topic): Facts | undefined {
  const known = topic.facts;
  const { facts, free } = text.facts;
  const isLoad = ({ family }: Fact) => family === "load";
  const ids = new Set(known.facts.filter(isLoad).map(({ id }) => id));
  const isEach = /\b(?:each|every|all|per)\b/i.test(text.asked) &&
    known.facts.some(({ family, slots }) => family === "building" && slots.count);
  const isOther = ({ id, slots }: Fact) =>
    id !== undefined && !ids.has(id) && (slots.count !== undefined || isEach && !slots.current);
  if (!is(topic, "demand") || !facts.some(isLoad) || !facts.filter(isLoad).every(isOther)) return undefined;
  return {
    facts: [...known.facts.filter((fact) => !isLoad(fact) && !facts.some(({ id }) => id === fact.id)), ...facts],
    free: [
      ...known.free.filter(({ key }) => key.startsWith("goal:") && !free.some((each) => each.key === key)),
      ...free,
    ],
  };
}

/** `how many amps at 240?` after a demand: of what it came to. */
export function ofTotal(text: ReadText, { figures, facts: known }: Topic): Facts | undefined {
  const total = figures?.["demand-load"];
  const { facts, free } = text.facts;
  if (!total || typeof total.value !== "number" || total.unit !== "VA" || !has(text, "goal:current")) return undefined;
  if (facts.some(({ slots }) => Object.keys(slots).length > 0)) return undefined;
  const sense = { is: "quantity" as const, n: total.value, unit: "VA" as const };
  const phases = [...known.free.map(({ key }) => key), ...known.facts.flatMap(({ slots }) => slots.phase ?? [])];
  const isThree = phases.some((each) =>
    typeof each === "string"
      ? each === "phase:three-phase"
      : each.sense.is === "term" && each.sense.id === "three-phase"
  );
  const phase = isThree ? "three-phase" : "single-phase";
  const isTold = free.some(({ key }) => key.startsWith("phase:"));
  const value = { sense: { is: "term" as const, sort: "phase" as const, id: phase }, pieces: [], said: phase };
  return {
    facts: [
      ...facts,
      {
        family: "load",
        said: "",
        pieces: [],
        sentence: 0,
        slots: { rating: [{ sense, pieces: [], said: total.name }] },
      },
    ],
    free: [...free, ...(isTold ? [] : [{ key: `phase:${phase}`, value, sentence: 0 }])],
  };
}

/**
 * Heads named without a figure are those that the conversation knows: “the charger's wire”.
 * @param home the topic that is gone on with, which keeps what it knows of its own heads
 */
export function referring(facts: Facts, topics: readonly Topic[], home?: Topic): Facts {
  const known = topics.flatMap((topic) => topic.facts.facts);
  const filled = facts.facts.map((fact): Fact => {
    if (fact.family !== "load" || fact.id === undefined) return fact;
    if (fact.slots.rating ?? fact.slots.current ?? fact.slots.nameplate) return fact;
    if (home?.facts.facts.some(({ family, id }) => family === "load" && id === fact.id)) return fact;
    const earlier = known.find(({ family, id }) => family === "load" && id === fact.id);
    return earlier ? { ...fact, slots: { ...earlier.slots, ...fact.slots } } : fact;
  });
  return { ...facts, facts: filled };
}

const IT = new Set(["it", "that", "this"]);
/**
 * `will it fit on a 150 A service, 1900 sq ft …?` after a circuit: the text with the one load of that circuit to be added.
 * @returns absent where nothing is asked of it, or the topic has no single load with a figure
 */
export function itAdded(text: ReadText, { facts, kind }: Topic): string | undefined {
  const isAsked = has(text, "goal:fit") || has(text, "goal:add-load") || has(text, "goal:check");
  if (!isAsked || !text.tokens.some((token) => IT.has(token.text)) || kind === "added-load") return undefined;
  const loads = facts.facts.filter(({ family, id, slots }) =>
    family === "load" && id !== undefined && (slots.current ?? slots.rating ?? slots["minimum-circuit-ampacity"])
  );
  const [load, ...others] = loads;
  if (!load || others.length > 0) return undefined;
  const figure = (load.slots.current ?? load.slots.rating ?? load.slots["minimum-circuit-ampacity"])![0]!;
  return `${text.asked}; add a ${figure.said} ${load.said}`;
}
