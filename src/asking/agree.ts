/** Questions that a text may ask equally well and whose answers say the same: no choice is needed. */
import type { WorkedAnswer } from "../core/worked.ts";

/** The circuit's conductor by the names that the kinds give it. */
const CONDUCTOR: ReadonlySet<string> = new Set(["conductor", "ungrounded-conductor", "feeder-conductor"]);

const figuresOf = ({ figures }: WorkedAnswer): Map<string, number | string> =>
  new Map(Object.entries(figures).map(([id, { value }]) => [CONDUCTOR.has(id) ? "conductor" : id, value]));

/** Of several answers the one that says most, where none says another figure or verdict than that; otherwise nothing. */
export function agreedOn(answers: readonly WorkedAnswer[]): WorkedAnswer | undefined {
  const [most, ...others] = answers.toSorted((a, b) => Object.keys(b.figures).length - Object.keys(a.figures).length);
  if (!most) return undefined;
  const figures = figuresOf(most);
  const agree = others.every((other) => {
    const shared = [...figuresOf(other)].filter(([id]) => figures.has(id));
    return other.verdict === most.verdict && shared.length > 0 &&
      shared.every(([id, value]) => figures.get(id) === value);
  });
  return agree ? most : undefined;
}
