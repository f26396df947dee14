/** What a piece of a text may mean, and what the rules that join its tokens share. */
import type { Term } from "./lexicon/lexicon.ts";
import type { Token } from "./tokens.ts";
import type { SpokenUnit } from "./units.ts";

/** A figure with its unit. `low` is the other end of a range whose higher end is taken. */
export type Figure = {
  readonly is: "quantity";
  readonly n: number;
  readonly exact?: string;
  readonly unit: SpokenUnit;
  readonly low?: number;
  /** What was added up. */
  readonly parts?: readonly number[];
  /** How it was come by, where it is not as typed: a product, a sum, a conversion. */
  readonly from?: string;
};
/** A winding's voltage between its lines, and the one to its neutral where it has one. */
export type Winding = {
  readonly n: number;
  readonly unit: "V" | "kV";
  readonly low?: number;
  readonly wye?: boolean;
  readonly delta?: boolean;
  readonly phases?: 1 | 3;
};
export type Side = "primary" | "secondary";
export type Leg = "A" | "B" | "C";
export type Sense =
  | Figure
  | { readonly is: "number"; readonly n: number; readonly exact?: string }
  /** A number marked as a count: `3x`, `(12)`, `x2`; the last one stands behind what it counts. */
  | { readonly is: "count"; readonly n: number; readonly isBehind?: true }
  | { readonly is: "size"; readonly size: string; readonly bare?: boolean }
  | { readonly is: "sizes"; readonly sizes: readonly string[] }
  | { readonly is: "cable"; readonly size: string; readonly wires: number; readonly ground?: true }
  /** A box, by what of its trade size was told. */
  | {
    readonly is: "box";
    readonly shape?: "square" | "octagonal" | "device" | "masonry" | "FS" | "FD";
    readonly across?: string;
    readonly depth?: string;
    readonly gangs?: number;
  }
  /** The wire that is on a device. */
  | { readonly is: "device-wire"; readonly size: string }
  /** From one size to another. */
  | { readonly is: "raise"; readonly from: string; readonly to: string }
  /** Two voltages of one system, as typed: the smaller, the larger. */
  | { readonly is: "system"; readonly low: number; readonly high: number; readonly wye: boolean }
  /** Both voltages of a transformer, or one with its side. */
  | { readonly is: "windings"; readonly primary: Winding; readonly secondary: Winding }
  | { readonly is: "winding"; readonly side: Side; readonly winding: Winding }
  /** Currents of a nameplate for several voltages, lowest voltage first: `14.4/7.6-7.2`, `28-25.4/12.7`. */
  | { readonly is: "plate-currents"; readonly low: readonly number[]; readonly high: readonly number[] }
  | { readonly is: "pair"; readonly a: number; readonly b: number; readonly unit?: SpokenUnit }
  /** Blades and amperes of a receptacle. */
  | { readonly is: "pattern"; readonly blades: number; readonly amperes: number }
  /** Figures to choose from: `40 or 60 A`. */
  | { readonly is: "choice"; readonly of: readonly number[]; readonly unit: SpokenUnit }
  /** How many of several run at one time. */
  | { readonly is: "at-once"; readonly n: number }
  /** How many of several lie between two of three phases: A-B, B-C, C-A, or each of them. */
  | { readonly is: "spread"; readonly n: number; readonly pair: 0 | 1 | 2 | "each" }
  /** So many times the rating of a device. */
  | { readonly is: "multiple"; readonly n: number }
  | { readonly is: "poles"; readonly n: number }
  /** How many places for breakers a panel has, and so many breakers of so many poles. */
  | { readonly is: "spaces"; readonly n: number }
  | { readonly is: "breakers"; readonly n: number; readonly poles: 1 | 2 | 3 }
  /** A demand told month by month: the highest, and of how many. */
  | { readonly is: "record"; readonly n: number; readonly unit: SpokenUnit; readonly months: number }
  /** What a leg carries, all told. */
  | { readonly is: "on-leg"; readonly leg: Leg; readonly n: number; readonly unit: SpokenUnit }
  /** What a meter says between two points of a panel. */
  | {
    readonly is: "reading";
    readonly from: string;
    readonly to: string;
    readonly reads?: "closed" | "open";
    readonly ohms?: number;
  }
  /** A wireway or gutter, its inside where that was told, in inches. */
  | {
    readonly is: "wireway";
    readonly of: "wireway" | "auxiliary gutter";
    readonly width?: number;
    readonly height?: number;
    readonly nonmetallic?: true;
  }
  /** So many raceways side by side. */
  | { readonly is: "raceways"; readonly n: number; readonly inches?: number }
  | { readonly is: "letter"; readonly letter: string }
  /** Words that nothing knows, where they name what stands beside them. */
  | { readonly is: "words"; readonly words: string }
  | { readonly is: "edition"; readonly edition: string }
  | { readonly is: "section"; readonly section: string }
  | ({ readonly is: "term" } & Term)
  /** Read and of no consequence: a price, a date, a model number. */
  | { readonly is: "aside"; readonly because: string };
export type Piece = {
  readonly senses: readonly Sense[];
  /** First token, and the first after it. */
  readonly from: number;
  readonly to: number;
  /** What stands here instead of a fact. */
  readonly is: "fact" | "common" | "unknown" | "comma" | "border" | "mark";
};
export type Found = { senses: readonly Sense[]; to: number };
export type Rule = (t: readonly Token[], i: number) => Found | undefined;
export const one = (sense: Sense, to: number): Found => ({ senses: [sense], to });
export const text = (t: readonly Token[], i: number): string => t[i]?.text ?? "";
export const isGlued = (t: readonly Token[], i: number): boolean => t[i]?.glued ?? false;
/** The words of a text, found once for all rules that ask what else is spoken of. */
const wordsOf = new WeakMap<readonly Token[], ReadonlySet<string>>();
/** Whether one of some words stands anywhere in the text. */
export function speaksOf(t: readonly Token[], words: ReadonlySet<string>): boolean {
  let all = wordsOf.get(t);
  if (!all) wordsOf.set(t, all = new Set(t.map(({ text }) => text)));
  return !words.isDisjointFrom(all);
}
/** Number, mark, number, all touching. */
export const pairAt = (t: readonly Token[], i: number, marks: string): [number, number] | undefined =>
  t[i]?.is === "number" && marks.includes(text(t, i + 1)) && text(t, i + 1) !== "" && t[i + 2]?.is === "number" &&
    (isGlued(t, i + 1) || text(t, i + 1) === "/")
    ? [t[i]!.n!, t[i + 2]!.n!]
    : undefined;
export const isTimes = (word: string): boolean => word === "x" || word === "*";
/** Why a value is an aside that another one stands for. */
export const TAKEN_BACK = "taken back";
