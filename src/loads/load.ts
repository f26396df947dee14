/** A load as the reader has it, and what it asks of lexemes everywhere. */
import type { Said } from "../text/phrases.ts";
import type { LoadKind } from "./catalogue.ts";
import type { Lexeme, Mark } from "./lexemes.ts";

export type RatingUnit = "W" | "kW" | "VA" | "kVA" | "A" | "hp";
/** A load as it was said. Facts that were not said are absent. */
export type ReadLoad = {
  kind: LoadKind;
  name?: string;
  count?: number;
  rating?: Said<RatingUnit>;
  volts?: Said<"V">;
  fuel?: "gas" | "electric";
  units?: number;
  leg?: "A" | "B";
};
export type Item = {
  load: ReadLoad;
  how: "said" | "added" | "removed";
  /** Lexemes that were used up. */
  used: Lexeme[];
  /** What was understood otherwise than written. */
  notes: string[];
  /** A question that must be asked back before this load can count. */
  ask?: string;
  /** The rating is a minimum circuit ampacity, and gives way to a rated current that follows. */
  tentative?: boolean;
  /** Names what the question is about, and is no load of its own where others are named. */
  heading?: boolean;
};

export const RATING_UNITS: readonly string[] = ["W", "kW", "VA", "kVA", "A", "hp"];
/** How cooling and gas appliances are sold; no electric load follows from them. */
export const SIZE_UNITS: readonly string[] = ["ton", "BTU/h"];
export const HEATING = ["space heating", "furnace", "continuous heating"];
export type Quantity = Extract<Lexeme, { is: "quantity" }>;
export type Name = Extract<Lexeme, { is: "name" }>;
export const isName = (l: Lexeme): l is Name => l.is === "name";
export const isRating = (l: Lexeme): l is Quantity => l.is === "quantity" && RATING_UNITS.includes(l.said.unit);
export const isVolts = (l: Lexeme): l is Quantity => l.is === "quantity" && l.said.unit === "V";
export const has = (lexemes: readonly Lexeme[], mark: Mark): boolean => lexemes.some(({ is }) => is === mark);
