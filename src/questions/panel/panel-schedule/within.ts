/** Positions within so many spaces: two sides, odd and even, each row on the next leg. */
import { type Landing, legAt, type Piece } from "./arrange.ts";
import type { Leg } from "./request.ts";

const rowsOf = (spaces: number): readonly [number, number] => [Math.ceil(spaces / 2), Math.floor(spaces / 2)];
/** How many spaces each leg has. */
export function roomOf(spaces: number, legs: readonly Leg[]): Map<Leg, number> {
  const room = new Map(legs.map((leg) => [leg, 0]));
  for (let position = 1; position <= spaces; position++) {
    const leg = legAt(position, legs);
    room.set(leg, room.get(leg)! + 1);
  }
  return room;
}

/** How many three-pole and two-pole breakers stand on the left where all fit on the two sides; undefined where they do not. */
function sides(poles: readonly number[], spaces: number): readonly [threes: number, twos: number] | undefined {
  const [left, right] = rowsOf(spaces);
  const count = (n: number) => poles.filter((each) => each === n).length;
  const [threes, twos] = [count(3), count(2)];
  if (poles.reduce((a, b) => a + b, 0) > spaces) return undefined;
  for (let t = 0; t <= threes; t++) {
    const [freeLeft, freeRight] = [left - 3 * t, right - 3 * (threes - t)];
    if (freeLeft < 0 || freeRight < 0) continue;
    const u = Math.min(twos, Math.floor(freeLeft / 2));
    if (twos - u <= Math.floor(freeRight / 2)) return [t, u];
  }
  return undefined;
}

/** Whether breakers of so many poles fit: those of several poles stand on one side, in rows below each other. */
export const fitsSides = (poles: readonly number[], spaces: number): boolean => sides(poles, spaces) !== undefined;

/**
 * Circuits in a panel with little room: those of several poles closely from the top, largest first, the others each in the free
 * space of the leg that carries least; then alike ones are exchanged as long as that brings the legs nearer together.
 */
export function packed(pieces: readonly Piece[], legs: readonly Leg[], spaces: number): number[][] | undefined {
  const split = sides(pieces.map(({ poles }) => poles), spaces);
  if (!split) return undefined;
  const next = [1, 2];
  const left: Record<number, number> = { 3: split[0], 2: split[1] };
  const found: number[][] = pieces.map(() => []);
  const order = pieces.map((_, i) => i)
    .sort((a, b) => pieces[b]!.poles - pieces[a]!.poles || pieces[b]!.load - pieces[a]!.load || a - b);
  const several = order.filter((i) => pieces[i]!.poles > 1);
  for (const i of several) {
    const { poles } = pieces[i]!;
    const side = left[poles]!-- > 0 ? 0 : 1;
    found[i] = Array.from({ length: poles }, (_, k) => next[side]! + 2 * k);
    next[side]! += 2 * poles;
  }
  const taken = new Set(found.flat());
  const free = Array.from({ length: spaces }, (_, k) => k + 1).filter((position) => !taken.has(position));
  const carried = () =>
    legs.map((leg) =>
      pieces.reduce((sum, { load }, i) => {
        const own = found[i]!.filter((position) => legAt(position, legs) === leg).length;
        return own === 0 ? sum : sum + own * load / found[i]!.length;
      }, 0)
    );
  for (const i of order.filter((each) => pieces[each]!.poles === 1)) {
    const loads = carried();
    const on = (position: number) => loads[legs.indexOf(legAt(position, legs))]!;
    free.sort((a, b) => on(a) - on(b) || a - b);
    found[i] = [free.shift()!];
  }
  const spread = () => Math.max(...carried()) - Math.min(...carried());
  for (let isBetter = true; isBetter;) {
    isBetter = false;
    for (const i of order) {
      for (const k of order) {
        if (i >= k || pieces[i]!.poles !== pieces[k]!.poles) continue;
        const before = spread();
        [found[i], found[k]] = [found[k]!, found[i]!];
        if (spread() < before - LEAST_GAIN) isBetter = true;
        else [found[i], found[k]] = [found[k]!, found[i]!];
      }
    }
  }
  return found;
}
const LEAST_GAIN = 1e-6;

/** The legs that positions lie on. */
export const landingsAt = (places: readonly (readonly number[])[], legs: readonly Leg[]): Landing[] =>
  places.map((own) => own.map((position) => legAt(position, legs)));
