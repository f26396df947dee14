/**
 * The thread of a conversation: everything said so far as facts, by topic. It is opaque to the caller, who hands it back with
 * the next text; the service keeps nothing.
 */
import * as z from "zod";
import type { Need } from "../core/outcome.ts";
import { LONGEST_QUESTION, type Option } from "../outcomes.ts";
import type { Fact, Facts } from "../reading/facts.ts";
import { type Manner, UNKNOWN } from "../reading/manner.ts";

/** Where the figure that was told last stands: a bare number that follows is its new value. */
export type Last = { readonly fact: number; readonly slot: string; readonly index?: number } | {
  readonly free: number;
};
/** A figure that was replaced, and where it stood. */
export type Past = { readonly fact: number; readonly slot: string; readonly index: number; readonly n: number };
/** One job of a conversation, such as the house or the charger's circuit. */
export type Topic = {
  readonly kind: string;
  /** What its kind says of itself; a thread that is handed on leaves it out. */
  readonly manner: Manner;
  readonly edition: string;
  readonly facts: Facts;
  /** The how manyeth of its conversation it was opened as: `back to the first one`. */
  readonly born?: number;
  /** The number by which its first text called it: `unit 2`. */
  readonly tag?: string;
  /** The facts before the last change, to which `never mind` goes back. */
  readonly before?: Facts;
  /** Words that were asked about and never explained: what is answered since leaves them out, and says so. */
  readonly left?: readonly string[];
  /** The text whose words were asked about last, and which those were; whether it opened the topic. */
  readonly pending?: { readonly asked: string; readonly words: readonly string[]; readonly opened?: boolean };
  /** Asked beside the job that comes next in the thread, about its facts. */
  readonly aside?: boolean;
  readonly last?: Last;
  readonly past?: readonly Past[];
  /** Loads that were taken away, with their figures: `put the dryer back`. */
  readonly gone?: readonly Fact[];
  /** What the last answer chose and assumed, in words, for another question about the same facts. */
  readonly chosen?: readonly string[];
  /** Figures of its last answer, to say what changed. */
  readonly figures?: Readonly<
    Record<string, { readonly value: number | string; readonly unit: string; readonly name: string }>
  >;
  /** What was asked back, and the choices that were offered. */
  readonly needs?: readonly Need[];
  readonly choices?: readonly Option[];
};
export type Thread = {
  readonly format: "thread/1";
  /** The topic under way first, then the earlier ones. */
  readonly topics: readonly Topic[];
};

/** A thread as it is handed back and forth. */
export type Handed = {
  readonly format: "thread/1";
  readonly topics: readonly Omit<Topic, "manner">[];
};
/** A thread that was handed back, each topic with what its kind says of itself. */
export const taken = ({ format, topics }: Handed, mannerOf: (kind: string) => Manner | undefined): Thread => ({
  format,
  topics: topics.map((topic) => ({ ...topic, manner: mannerOf(topic.kind) ?? UNKNOWN })),
});
export const handed = ({ format, topics }: Thread): Handed => ({
  format,
  topics: topics.map(({ manner: _, ...topic }) => topic),
});

/** Topics that a thread remembers. */
export const MOST_TOPICS = 6;

/** Loads taken away that a topic remembers. */
export const MOST_GONE = 12;

const MOST_FACTS = 400;
const MOST_CHOSEN = 100;
// Any finite number: what may be worked out with is for the request that is made of it to say.
const n = z.number();
const word = z.string().max(80);
/** Of the texts: none is longer. So is no assumption, which may list every appliance of a house. */
const said = z.string().max(LONGEST_QUESTION);
const winding = z.strictObject({
  n,
  unit: z.enum(["V", "kV"]),
  low: n.optional(),
  wye: z.boolean().optional(),
  delta: z.boolean().optional(),
  phases: z.literal([1, 3]).optional(),
});
const quantity = { n, exact: z.string().regex(/^\d{1,9}\/\d{1,9}$/).optional(), unit: word };
const sense = z.discriminatedUnion("is", [
  z.strictObject({
    is: z.literal("quantity"),
    ...quantity,
    low: n.optional(),
    from: z.string().max(200).optional(),
    parts: z.array(n).max(100).optional(),
  }),
  z.strictObject({ is: z.literal("number"), n, exact: quantity.exact }),
  z.strictObject({ is: z.literal("count"), n, isBehind: z.literal(true).optional() }),
  z.strictObject({ is: z.enum(["at-once", "poles", "spaces"]), n }),
  z.strictObject({ is: z.literal("breakers"), n, poles: z.literal([1, 2, 3]) }),
  z.strictObject({ is: z.literal("record"), n, unit: word, months: n }),
  z.strictObject({ is: z.literal("on-leg"), leg: z.enum(["A", "B", "C"]), n, unit: word }),
  z.strictObject({ is: z.literal("spread"), n, pair: z.literal([0, 1, 2, "each"]) }),
  z.strictObject({
    is: z.literal("reading"),
    from: word,
    to: word,
    reads: z.enum(["closed", "open"]).optional(),
    ohms: n.optional(),
  }),
  z.strictObject({ is: z.literal("size"), size: word, bare: z.boolean().optional() }),
  z.strictObject({ is: z.literal("sizes"), sizes: z.array(word).max(40) }),
  z.strictObject({ is: z.literal("cable"), size: word, wires: n, ground: z.literal(true).optional() }),
  z.strictObject({ is: z.literal("device-wire"), size: word }),
  z.strictObject({
    is: z.literal("box"),
    shape: z.enum(["square", "octagonal", "device", "masonry", "FS", "FD"]).optional(),
    across: word.optional(),
    depth: word.optional(),
    gangs: n.optional(),
  }),
  z.strictObject({
    is: z.literal("wireway"),
    of: z.enum(["wireway", "auxiliary gutter"]),
    width: n.optional(),
    height: n.optional(),
    nonmetallic: z.literal(true).optional(),
  }),
  z.strictObject({ is: z.literal("raceways"), n, inches: n.optional() }),
  z.strictObject({ is: z.literal("raise"), from: word, to: word }),
  z.strictObject({ is: z.literal("system"), low: n, high: n, wye: z.boolean() }),
  z.strictObject({ is: z.literal("windings"), primary: winding, secondary: winding }),
  z.strictObject({ is: z.literal("winding"), side: z.enum(["primary", "secondary"]), winding }),
  z.strictObject({ is: z.literal("plate-currents"), low: z.array(n).max(10), high: z.array(n).max(10) }),
  z.strictObject({ is: z.literal("pair"), a: n, b: n, unit: word.optional() }),
  z.strictObject({ is: z.literal("pattern"), blades: n, amperes: n }),
  z.strictObject({ is: z.literal("choice"), of: z.array(n).max(40), unit: word }),
  z.strictObject({ is: z.literal("letter"), letter: word }),
  z.strictObject({ is: z.literal("words"), words: said }),
  z.strictObject({ is: z.literal("edition"), edition: word }),
  z.strictObject({ is: z.literal("section"), section: word }),
  z.strictObject({ is: z.literal("term"), sort: word, id: word }),
  z.strictObject({ is: z.literal("aside"), because: z.string().max(200) }),
]);
const value = z.looseObject({
  sense,
  pieces: z.array(z.int()).max(50),
  said,
  note: z.string().max(500).optional(),
});
const fact = z.looseObject({
  family: z.string().max(20),
  id: z.string().max(60).optional(),
  said,
  pieces: z.array(z.int()).max(50),
  sentence: z.int(),
  slots: z.record(z.string().max(60), z.array(value).max(50)),
});
const facts = z.strictObject({
  facts: z.array(fact).max(MOST_FACTS),
  free: z.array(z.looseObject({ key: z.string().max(80), value, sentence: z.int() })).max(MOST_FACTS),
});
/** Schema of a thread handed back; what does not fit is refused like any malformed call. */
export const threadSchema = z.strictObject({
  format: z.literal("thread/1"),
  topics: z.array(z.looseObject({
    kind: z.string().max(40),
    edition: z.string().max(40),
    facts,
    gone: z.array(fact).max(MOST_GONE).optional(),
    born: z.int().optional(),
    pending: z.strictObject({
      asked: said,
      words: z.array(said).max(MOST_FACTS),
      opened: z.boolean().optional(),
    }).optional(),
    tag: z.string().max(8).optional(),
    left: z.array(said).max(MOST_FACTS).optional(),
    chosen: z.array(said).max(MOST_CHOSEN).optional(),
  })).max(MOST_TOPICS),
});
