/** What was heard of power, current and voltage before it is known which one is to be converted. */
import type { Draft, Reading, Said } from "../../text/phrases.ts";

export type Heard = {
  powers: Said<"kW" | "W" | "VA" | "kVA" | "MVA" | "hp">[];
  currents: Said<"A">[];
  volts?: Said<"V" | "kV"> | undefined;
  system?: string;
};

const notes = new WeakMap<Draft, Heard>();

/** The notes of one reading. */
export function hear({ draft }: Pick<Reading, "draft">): Heard {
  const found = notes.get(draft);
  if (found) return found;
  const fresh: Heard = { powers: [], currents: [] };
  notes.set(draft, fresh);
  return fresh;
}
