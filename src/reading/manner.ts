/** How a further text speaks of a kind of question: each kind says this of itself, and no module here keeps a list of kinds. */
import type { Facts } from "./facts.ts";

export type Trait =
  /** Lists what it is about: another one of a sort is one more on the list, and no other question. */
  | "lists"
  /** Adds up what it lists: `it also has a 3 kW oven`. */
  | "adds up"
  /** Counts groups of one thing by its figure: another figure is another group. */
  | "groups"
  /** Asks the demand of many appliances of one sort. */
  | "demand"
  /** Lists conductors and what lies beside them in a box or a raceway. */
  | "conductors"
  /** Is about one load, so that what is told of a load is told of that one. */
  | "one load"
  /** Is the circuit of one load: another load is another question. */
  | "one circuit"
  /** Ends in a service or its equal. */
  | "service"
  /** Ends in two lines and a neutral, whatever supplies them. */
  | "three wires"
  /** Has one supply for all that it lists. */
  | "one supply"
  /** Counts outlets: `40 duplexes` are no houses. */
  | "outlets"
  /** A voltage makes no difference to it, so that a bare number is none. */
  | "no volts"
  /** Wires are a part of it: 10 AWG and smaller are told by a bare number, and smaller numbers may count. */
  | "wires"
  /** Sizes a circuit's wire: a number near no other figure is another gauge. */
  | "gauges"
  /** Has one wire that its whole question is about: a gauge is told by a bare number. */
  | "one wire"
  /** Chooses anew: what another question chose is not put up for it. */
  | "anew";

export type Manner = {
  readonly traits?: readonly Trait[];
  /** The term or the head by which it stays asked where a further text asks nothing else: `goal:fit`, `circuit:feeder`. */
  readonly asked?: `goal:${string}` | `circuit:${string}`;
  /** Terms and heads by which one goes back to it: `building:dwelling`. */
  readonly words?: readonly string[];
  /** Its own figures by what points at them, a head named without one or a term alone: `{"goal:torque": ["tightening-torque"]}`. */
  readonly pointers?: Readonly<Record<string, readonly string[]>>;
};

/** Whether something of a kind has a trait. */
export const is = ({ manner }: { readonly manner: Manner }, trait: Trait): boolean =>
  manner.traits?.includes(trait) ?? false;

/** What is not known yet to be any question may list anything. */
export const UNKNOWN: Manner = { traits: ["lists"] };

/** What a kind asks by its own term, as facts of a text. */
export function askedFacts({ asked }: Manner): Facts | undefined {
  const [sort, id] = asked?.split(":") ?? [];
  if (asked === undefined || id === undefined) return undefined;
  const place = { said: "", pieces: [] };
  return sort === "circuit" ? { facts: [{ family: "circuit", id, ...place, sentence: -1, slots: {} }], free: [] } : {
    facts: [],
    free: [{ key: asked, value: { sense: { is: "term", sort: "goal", id }, ...place }, sentence: -1 }],
  };
}
