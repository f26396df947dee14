/** What the phrases heard but cannot place alone: which current is the load, which length the run. */
import type { Draft, Reading, Said } from "../../text/phrases.ts";
import type { DropRequest, Load } from "./request.ts";

export type Feet = Said<"ft">;
export type Heard = {
  find?: NonNullable<DropRequest["find"]>;
  /** Said to be what is drawn. */
  actual: Load[];
  /** Said with no word to it. */
  loads: Load[];
  total?: Load;
  each?: Load;
  count?: number;
  panel?: Said<"A">;
  spacing?: Feet;
  first?: Feet;
  points: { at: Feet; load: Load }[];
  lengths: Feet[];
  /** Lengths said to follow each other. */
  joined: boolean;
  stretches: NonNullable<DropRequest["segments"]>;
  sizes: string[];
  system?: string;
  volts?: Said<"V">;
  balanced?: boolean;
  lineToNeutral?: boolean;
};

const notes = new WeakMap<Draft, Heard>();

/** The notes of one reading. */
export function hear({ draft }: Pick<Reading, "draft">): Heard {
  const found = notes.get(draft);
  if (found) return found;
  const fresh: Heard = { actual: [], loads: [], points: [], lengths: [], joined: false, stretches: [], sizes: [] };
  notes.set(draft, fresh);
  return fresh;
}
