/** What a text tells of one part of a building, as a taker of those facts alone. */
import { HOUSE, type Taker } from "../../../reading/take.ts";

/** A taker that sees only what is within one part; `undefined` is what is told of the building as a whole. */
export function partOf(t: Taker, part: string | undefined): Taker {
  const facts = {
    facts: t.facts.facts.filter(({ within }) => within === part),
    free: t.facts.free.filter(({ value }) => value.within === part),
  };
  const free = (key: string) =>
    facts.free.filter((each) => each.key === key).map(({ value }) => {
      t.use(value, key);
      return value;
    });
  return {
    ...t,
    facts,
    all: (family, ...ids) => t.all(family, ...ids).filter(({ within }) => within === part),
    free,
    said: (...keys) => keys.flatMap(free).length > 0,
    has: (key) => facts.free.some((each) => each.key === key),
  };
}

/** The parts with dwelling units of their own, in order; only the whole building where no text tells several. */
export function unitParts(t: Taker): (string | undefined)[] {
  const parts = new Set(
    [...t.facts.facts.map(({ within }) => within), ...t.facts.free.map(({ value }) => value.within)]
      .filter((part) => part !== undefined && part !== HOUSE),
  );
  return parts.size === 0 ? [undefined] : [...parts].sort();
}
