/**
 * What a further text of a conversation is: the reply to what was asked back, a change of facts, another question about the
 * same facts, a new question, a return to an earlier one.
 */
import type { Fact, Facts, Value } from "../reading/facts.ts";
import type { ReadText } from "../reading/read.ts";
import type { Topic } from "./thread.ts";

/** Facts as a thread keeps them: without their places in a text that is gone. */
export const withoutPlaces = ({ facts, free }: Facts): Facts => {
  const plain = (value: Value): Value => ({ ...value, pieces: [] });
  return {
    facts: facts.map((fact) => ({
      ...fact,
      pieces: [],
      sentence: -1,
      slots: Object.fromEntries(Object.entries(fact.slots).map(([slot, values]) => [slot, values.map(plain)])),
    })),
    free: free.filter(({ key }) => !key.startsWith("change:") && key !== "aside" && key !== "number")
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
  const free = chosen.free.filter(({ key }) => ["V", "system", "phase", "metal"].includes(sort(key)!) && !has(key));
  const heads = chosen.facts.filter((fact) =>
    isLine(fact)
      ? fact.slots.size && !facts.facts.some((each) => isLine(each) && each.slots.size)
      : fact.family === "device" && fact.slots.rating &&
        !facts.facts.some(({ family, slots }) => family === "device" && slots.rating)
  );
  return { facts: [...facts.facts, ...heads], free: [...facts.free, ...free] };
}

const has = ({ facts }: ReadText, ...keys: string[]): boolean => facts.free.some(({ key }) => keys.includes(key));

export const startsOver = (text: ReadText): boolean => has(text, "goal:start-over");
export const asksWhy = (text: ReadText): boolean => has(text, "goal:why");
export const asksSection = (text: ReadText): boolean => has(text, "goal:section");
/** Words that tell a change of what was said, and no question of its own. */
export const tellsChange = (text: ReadText): boolean =>
  ["change:make", "change:add", "change:drop", "change:instead", "change:correct", "change:back-to"].some((key) =>
    has(text, key)
  ) ||
  text.asked.trim().split(/\s+/).length <= 2;
/** Labels that describe what stands beside them and ask for nothing: `rated 10 kW`. */
const DESCRIBING: ReadonlySet<string> = new Set(
  ["nameplate", "rated", "draw", "length", "area", "phases", "volts", "ambient"].map((id) => `label:${id}`),
);
/** Named without a figure, these say where something comes from and ask for nothing: `150 ft from the panel`, `a 210 ft run`. */
const BESIDE: ReadonlySet<string> = new Set(["set", "panel", "main"]);
/** Whether it asks for anything: a goal, a device, a conductor or a label without its figure, a question mark. */
export const asksSomething = (text: ReadText): boolean =>
  text.tokens.some((token) => token.text === "?") || namesGoal(text);
export const namesGoalWord = (text: ReadText): boolean =>
  text.facts.free.some(({ key }) => key.startsWith("goal:") || (key.startsWith("label:") && !DESCRIBING.has(key)));
/** Whether it names what it asks for, with or without a question mark. */
export const namesGoal = (text: ReadText): boolean =>
  namesGoalWord(text) ||
  text.facts.facts.some(({ family, id, slots }) =>
    ["device", "conductor", "circuit"].includes(family) && !BESIDE.has(id ?? "") && Object.keys(slots).length === 0
  );
/** Whether it decides something rather than asks: said after a question aside, it is about the job that the aside came from. */
export const decides = (text: ReadText): boolean =>
  has(text, "change:decide") && !text.tokens.some((token) => token.text === "?");
/** Whether nothing in it is a fact or a goal: thanks, weather. */
export const saysNothing = (text: ReadText): boolean =>
  text.pieces.every(({ is, senses }) =>
    is !== "fact" ||
    senses.every((s) => s.is === "aside" || (s.is === "term" && (s.sort === "change" || s.sort === "building")))
  );
/** Whether a figure, a size or the like stands in it. */
export const hasFigure = (text: ReadText): boolean =>
  text.pieces.some(({ senses }) =>
    senses.some(({ is }) => ["quantity", "size", "sizes", "cable", "pattern", "pair"].includes(is))
  );

/** Heads named without a figure are those that the conversation knows: “the charger's wire”. */
export function referring(facts: Facts, topics: readonly Topic[]): Facts {
  const known = topics.flatMap((topic) => topic.facts.facts);
  const filled = facts.facts.map((fact): Fact => {
    if (fact.family !== "load" || fact.id === undefined) return fact;
    if (fact.slots.rating ?? fact.slots.current ?? fact.slots.nameplate) return fact;
    const earlier = known.find(({ family, id }) => family === "load" && id === fact.id);
    return earlier ? { ...fact, slots: { ...earlier.slots, ...fact.slots } } : fact;
  });
  return { ...facts, facts: filled };
}

/** The earlier topic that a text goes back to: by its kind's own word, or a head of which only that one knows. */
export function topicMeant(text: ReadText, topics: readonly Topic[]): Topic | undefined {
  const [current, ...others] = topics;
  if (others.length === 0) return undefined;
  const back = has(text, "change:back-to");
  const words = new Set([
    ...text.facts.free.map(({ key }) => key),
    ...text.facts.facts.map(({ family, id }) => `${family}:${id}`),
  ]);
  const isOf = ({ kind, facts }: Topic): boolean =>
    (KIND_WORDS[kind] ?? []).some((word) => words.has(word)) ||
    (back && facts.facts.some(({ family, id, slots }) =>
      id !== undefined && family === "load" && Object.keys(slots).length > 0 && words.has(`load:${id}`)
    ));
  if (!back && (current === undefined || isOf(current))) return undefined;
  if (!back && !words.has("building:dwelling")) return undefined;
  return others.find(isOf);
}
const KIND_WORDS: Readonly<Record<string, readonly string[]>> = {
  "dwelling-load": ["building:dwelling", "device:service", "goal:load"],
  feeder: ["circuit:feeder", "device:subpanel", "place:separate-structure", "device:panel"],
  "branch-circuit": ["circuit:circuit"],
  "motor-circuit": ["load:motor", "load:pump"],
  transformer: ["transformer:transformer"],
  "cooling-circuit": ["load:air-conditioner", "load:heat-pump"],
  grounding: ["conductor:grounding-electrode-conductor"],
  "voltage-drop": ["label:drop", "goal:drop"],
};
