/**
 * Questions of the trade that are understood by their facts and not worked out here yet. They take part in the choice like the
 * others and are declined under their own name, so that none is answered as something else. A kind that gets its own folder
 * leaves this list.
 */
import type { Taker } from "../reading/take.ts";

export type Declined = {
  readonly id: string;
  readonly title: string;
  /** Whether the facts are this question's. */
  readonly isAsked: (t: Taker) => boolean;
};

export const declined: readonly Declined[] = [
  {
    id: "standby-load",
    title: "what a generator behind a transfer switch or interlock must carry",
    isAsked: (t) =>
      t.all("transformer", "generator").length > 0 && t.all("device").every(({ slots }) => !slots.rating) &&
      (t.has("panelKind:transfer-switch") || t.all("load").length > 0) &&
      t.wants("goal:size", "goal:check", "goal:ampacity", "goal:load", "label:calculated-load") && !isOfCircuit(t) &&
      !hasSize(t) && !hasLength(t),
  },
];

// ── what a text is about
const hasSize = (t: Taker): boolean => t.all("conductor").some(({ slots }) => slots.size);
const hasLength = (t: Taker): boolean => ["ft", "m", "yd", "length"].some(t.has);
/** Wires, breakers or a drop asked: the question is on a circuit, wherever that circuit is. */
const isOfCircuit = (t: Taker): boolean =>
  t.wants("role:wire", "device:breaker", "goal:drop", "label:drop", "goal:longest-run", "goal:bond") ||
  t.wants("role:equipment-ground", "role:grounding-electrode-conductor", "role:main-bonding-jumper");
