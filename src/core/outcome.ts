/**
 * A customer's problem is an outcome, told by throwing `Unclear` or `NotCovered` from wherever it is found; anything else that
 * is thrown is our own mistake.
 */

/** Something we must ask back, with an example of how to say it. */
export type Need = { field: string; ask: string; example: string };

/** The question cannot be answered without a fact that may not be guessed. */
export class Unclear extends Error {
  constructor(readonly needs: readonly Need[]) {
    super(needs.map((need) => need.ask).join(" "));
    this.name = "Unclear";
  }
}

/** Asks for one fact. */
export const need = (field: string, ask: string, example: string): Unclear => new Unclear([{ field, ask, example }]);

/** The edition's data, or a rule's own limits, do not reach this question. */
export class NotCovered extends Error {
  constructor(readonly because: string, readonly edition?: string) {
    super(because);
    this.name = "NotCovered";
  }
}
