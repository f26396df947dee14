/**
 * The appliances of a dwelling, read from `tables/appliances.json`: which rule takes them, and the voltage they usually have
 * when none is said (common practice, no source; a stated voltage always wins).
 */
import appliances from "../../tables/appliances.json" with { type: "json" };
import { NAMES } from "./names.ts";

/** Which rule of a load calculation takes a load. */
export type LoadGroup =
  | "cooking"
  | "dryer"
  | "fixed"
  | "furnace"
  | "space heating"
  | "continuous heating"
  | "heat pump"
  | "supplemental heat"
  | "cooling"
  | "blower"
  | "ev"
  | "other";
export type Appliance = {
  /** As printed on an answer. */
  name: string;
  group: LoadGroup;
  /** Usual nominal voltage. */
  volts: 120 | 240;
  /** Driven by a motor: counts for the largest-motor step. */
  motor?: boolean;
  /** Commonly burns gas or oil instead, and then adds nothing. */
  fuel?: boolean;
};

export type LoadKind = keyof typeof appliances;
export const LOAD_KINDS = Object.keys(appliances) as [LoadKind, ...LoadKind[]];
export const CATALOGUE = Object.fromEntries(
  LOAD_KINDS.map((kind) => [kind, { ...appliances[kind], name: NAMES[kind] }]),
) as Readonly<Record<LoadKind, Appliance>>;
