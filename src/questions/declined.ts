/**
 * Questions of the trade that are understood by their facts and not worked out here yet. They take part in the choice like the
 * others and are declined under their own name, so that none is answered as something else. A kind that gets its own folder
 * leaves this list; at present it is empty.
 */
import type { Taker } from "../reading/take.ts";

export type Declined = {
  readonly id: string;
  readonly title: string;
  /** Whether the facts are this question's. */
  readonly isAsked: (t: Taker) => boolean;
};

export const declined: readonly Declined[] = [];
