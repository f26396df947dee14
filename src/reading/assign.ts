/**
 * Which figure belongs to which head. Between two heads the figures are cut once: those before the cut belong to the head on
 * the left, those behind it to the head on the right, and what neither can take stays without. Of all such cuts of a
 * sentence the one that leaves fewest figures without a head, then fewest heads without a figure, then lies nearest, is taken.
 */
export type Head = {
  readonly at: number;
  readonly most: number;
  /** It has its power already, and lacks nothing where it gets no other figure. */
  readonly rated?: boolean;
  /** Whether it says nothing at all without a figure: a label, unlike a device that may be asked for. */
  readonly wants?: boolean;
};
/** What it costs to give a figure to a head; `Infinity` where it is none of the head's or out of its reach. */
type Cost = (figure: number, head: number) => number;

/** A figure without a head, a head without a figure, a figure on the other side than the rest of the sentence. */
const WITHOUT_HEAD = 100;
const WITHOUT_FIGURE = 1.5;
const LABEL_WITHOUT_FIGURE = 2.5;
const OTHER_SIDE = 0.75;

const without = ({ rated, wants }: Head): number => rated ? 0 : wants ? LABEL_WITHOUT_FIGURE : WITHOUT_FIGURE;

/** The owners of one gap's figures, and the way that led there. */
type Way = { cost: number; owners: readonly (number | undefined)[]; before?: Way };

const ownersOf = (way: Way | undefined): (number | undefined)[] => {
  const gaps: (readonly (number | undefined)[])[] = [];
  for (let at = way; at; at = at.before) gaps.push(at.owners);
  return gaps.reverse().flat();
};

/** For each figure the index of its head, or `undefined`. Both lists are in order of their place in the sentence. */
export function assign(
  heads: readonly Head[],
  figures: readonly number[],
  cost: Cost,
  side?: FigureSide,
): (number | undefined)[] {
  if (heads.length === 0) return figures.map(() => undefined);
  if (side) return ownersOf(cut(heads, figures, cost, side));
  const before = cut(heads, figures, cost, "before");
  const after = cut(heads, figures, cost, "after");
  return ownersOf(after.cost < before.cost ? after : before);
}
/** The side of their heads on which a text's figures stand, where one fits it better than the other. */
export function sideOf(heads: readonly Head[], figures: readonly number[], cost: Cost): FigureSide | undefined {
  if (heads.length === 0 || figures.length === 0) return undefined;
  const before = cut(heads, figures, cost, "before").cost;
  const after = cut(heads, figures, cost, "after").cost;
  return Math.abs(before - after) < CLEARLY ? undefined : before < after ? "before" : "after";
}
export type FigureSide = "before" | "after";
const CLEARLY = 0.5;

function cut(heads: readonly Head[], figures: readonly number[], cost: Cost, usual: FigureSide): Way {
  const gaps: number[][] = Array.from({ length: heads.length + 1 }, () => []);
  let gap = 0;
  figures.forEach((at, f) => {
    while (gap < heads.length && heads[gap]!.at <= at) gap++;
    gaps[gap]!.push(f);
  });
  const priced = (figure: number, head: number): number =>
    cost(figure, head) + (((figures[figure]! < heads[head]!.at) === (usual === "before")) ? 0 : OTHER_SIDE);
  // ways[k]: the best so far in which the head last passed has taken k figures.
  let ways: (Way | undefined)[] = [{ cost: 0, owners: [] }];
  for (let gap = 0; gap <= heads.length; gap++) {
    const inGap = gaps[gap]!;
    const next: (Way | undefined)[] = [];
    for (let taken = 0; taken < ways.length; taken++) {
      const way = ways[taken];
      if (!way) continue;
      const leftMost = gap === 0 ? 0 : Math.min(inGap.length, heads[gap - 1]!.most - taken);
      for (let left = 0; left <= leftMost; left++) {
        const rightMost = gap === heads.length ? 0 : Math.min(inGap.length - left, heads[gap]!.most);
        for (let right = 0; right <= rightMost; right++) {
          let price = way.cost;
          const owners: (number | undefined)[] = [];
          inGap.forEach((figure, i) => {
            const owner = i < left ? gap - 1 : i >= inGap.length - right ? gap : undefined;
            owners.push(owner);
            price += owner === undefined ? WITHOUT_HEAD : priced(figure, owner);
          });
          if (gap > 0 && taken + left === 0) price += without(heads[gap - 1]!);
          if (price < (next[right]?.cost ?? Infinity)) next[right] = { cost: price, owners, before: way };
        }
      }
    }
    ways = next;
  }
  return ways[0]!;
}
