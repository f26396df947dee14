/** What is another figure than before. */
import type { Change } from "../outcomes.ts";
import type { Figure } from "../core/worked.ts";

export type Figures = Readonly<Record<string, Pick<Figure, "value" | "unit" | "name">>>;

/** Figures that both have, with another value. */
export const changesBetween = (before: Figures, now: Figures): Change[] =>
  Object.entries(now).flatMap(([figure, { value, unit, name }]) => {
    const was = before[figure];
    return was && was.value !== value ? [{ figure, name, unit, was: was.value, is: value }] : [];
  });
