/** What a request is before it is read, and as an answer gives it back. */
import type { ConductorSize } from "../../src/core/conductor-size.ts";

/** The JSON of what was read: a conductor size is its name there. */
export type AsJson<T> = T extends ConductorSize ? string
  : T extends object ? { [K in keyof T]: AsJson<T[K]> }
  : T;
