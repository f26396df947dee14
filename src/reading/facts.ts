/** What a text says, no question in sight: heads with their figures. Plain JSON, so that a conversation can carry it. */
import type { Sense } from "./sense.ts";

/** A value with the words it was read from. */
export type Value = {
  readonly sense: Sense;
  /** Pieces of the text it was read from, its label's included. */
  readonly pieces: readonly number[];
  /** The words themselves. */
  readonly said: string;
  /** How it was come by, where that is worth telling: `took 5 as kW, like the others`. */
  readonly note?: string;
  /** The label beside it, where several labels fill one slot. */
  readonly label?: string;
  /** The part of a building that it is told of, where a text tells several; of what has no head. */
  readonly within?: string;
};
/** The part of a building that is the house's own, and the mark of a load whose number is told of each unit. */
export const HOUSE = "house";
export const OF_EACH = "of-each";
export type FamilyId = "load" | "device" | "conductor" | "transformer" | "circuit" | "space" | "building" | "box";
export type Fact = {
  readonly family: FamilyId;
  /** The head's term: `range`, `breaker`, `equipment-ground`; none where figures stand alone. */
  readonly id?: string;
  /** Other terms that the same words may mean. */
  readonly others?: readonly string[];
  readonly said: string;
  /** Pieces of the head. */
  readonly pieces: readonly number[];
  readonly slots: Readonly<Record<string, readonly Value[]>>;
  /** Which sentence, and which turn of a conversation, it stands in. */
  readonly sentence: number;
  /** The part of a building that it is told of, where a text tells several: `units 2`, `house`. */
  readonly within?: string;
};
/** A term, figure or mark that belongs to no head: a length, an ambient temperature, a place, a goal. */
export type Free = { readonly key: string; readonly value: Value; readonly sentence: number };

/** A quantity as it travels in a request: a JSON number where that is exact, otherwise a fraction. */
export type Said<U extends string = string> = { value: number | string; unit: U };
/** A request in the making. */
export type Draft = Record<string, unknown>;

export type Facts = {
  readonly facts: readonly Fact[];
  readonly free: readonly Free[];
};
