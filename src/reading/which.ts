/**
 * Which question a text asks: the one whose reading leaves fewest of its facts without a place, and of equals the one that uses
 * most. No points and no magic words; a question that cannot work with the facts does not stand for choice at all.
 */
import { type Accounted, accountOf } from "./account.ts";
import type { ReadText } from "./read.ts";
import { type Taken, type Takes, taking } from "./take.ts";

/** A question as the choice sees it. */
export type Candidate = { readonly id: string; readonly takes: Takes; readonly minds?: readonly string[] };
export type Choice<C extends Candidate = Candidate> = { candidate: C; taken: Taken; account: Accounted };

/**
 * Of all candidates the best, or several that are equal. The order of the candidates decides nothing.
 * @param settled pieces that a change of earlier facts used up
 */
export function choose<C extends Candidate>(
  text: ReadText,
  candidates: readonly C[],
  settled?: ReadonlySet<number>,
): Choice<C>[] {
  const take = taking(text.facts);
  const choices = candidates.flatMap((candidate): Choice<C>[] => {
    const taken = take(candidate.takes);
    return taken ? [{ candidate, taken, account: accountOf(text, taken, settled, candidate.minds) }] : [];
  });
  const least = Math.min(...choices.map(left));
  const fitting = choices.filter((choice) => left(choice) === least);
  const most = Math.max(...fitting.map(used));
  return fitting.filter((choice) => used(choice) === most);
}

/** How many of a text's numbers and terms a choice leaves, goals included that any answer meets. */
const left = ({ account }: Choice): number => account.missed.length + account.met.length;
/** How many of a text's numbers and terms a choice leaves without a place. */
export const unplaced = ({ account }: Choice): number => account.missed.length;
const used = ({ taken }: Choice): number => taken.taken.size;
