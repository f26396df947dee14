/** Which circuit lands where: pure arrangement by numbers; what it comes to is worked out on the sheet. */
import type { Leg } from "./request.ts";

/** A circuit to be placed: volt-amperes in all, poles, and the leg it is on already. */
export type Piece = { readonly load: number; readonly poles: 1 | 2 | 3; readonly leg?: Leg | undefined };
/** The legs that a circuit takes, in the order of its poles. */
export type Landing = readonly Leg[];

/** The legs that a circuit of so many poles may take, side by side in the panel. */
const landingsOf = (poles: number, legs: readonly Leg[]): Landing[] =>
  poles >= legs.length
    ? [legs]
    : legs.map((_, i) => Array.from({ length: poles }, (_, k) => legs[(i + k) % legs.length]!));

const landingsFor = ({ poles, leg }: Piece, legs: readonly Leg[]): Landing[] =>
  landingsOf(poles, legs).filter((landing) => leg === undefined || landing[0] === leg);

/** The leg of a position: two positions a row, each row on the next leg. */
export const legAt = (position: number, legs: readonly Leg[]): Leg =>
  legs[Math.floor((position - 1) / 2) % legs.length]!;

/** Whether there are so few ways that each is tried. */
export const isEveryWayTried = (pieces: readonly Piece[], legs: readonly Leg[]): boolean =>
  pieces.reduce((ways, piece) => ways * landingsFor(piece, legs).length, 1) <= MOST_WAYS;

/**
 * Largest first, circuits of several poles before those of one, each to the legs that carry least so far; then one circuit is
 * moved, or two are exchanged, as long as that brings the legs nearer together. The order told decides between equals; where the
 * ways are few the arrangement is the best there is. `room` is how many spaces each leg has, where that is known.
 */
export function balance(pieces: readonly Piece[], legs: readonly Leg[], room?: ReadonlyMap<Leg, number>): Landing[] {
  const landings: Landing[] = pieces.map(() => []);
  const carried = new Map(legs.map((leg) => [leg, 0]));
  const used = new Map(legs.map((leg) => [leg, 0]));
  const put = (i: number, landing: Landing, sign: 1 | -1) => {
    for (const leg of landing) {
      carried.set(leg, carried.get(leg)! + sign * pieces[i]!.load / landing.length);
      used.set(leg, used.get(leg)! + sign);
    }
  };
  // A leg with more circuits than spaces is worse than any imbalance.
  const all = pieces.reduce((sum, { load }) => sum + load, 1);
  const over = () => legs.reduce((sum, leg) => sum + Math.max(0, used.get(leg)! - (room?.get(leg) ?? Infinity)), 0);
  const spread = () => Math.max(...carried.values()) - Math.min(...carried.values()) + all * over();
  const mayTake = (piece: Piece) => landingsFor(piece, legs);
  const order = pieces.map((_, i) => i).sort((a, b) =>
    Number(pieces[b]!.leg !== undefined) - Number(pieces[a]!.leg !== undefined) ||
    pieces[b]!.poles - pieces[a]!.poles || pieces[b]!.load - pieces[a]!.load || a - b
  );
  for (const i of order) {
    const heaviest = (landing: Landing) => Math.max(...landing.map((leg) => carried.get(leg)!));
    const [best] = mayTake(pieces[i]!).sort((a, b) => heaviest(a) - heaviest(b));
    landings[i] = best!;
    put(i, best!, 1);
  }
  const place = (i: number, landing: Landing) => {
    put(i, landings[i]!, -1);
    landings[i] = landing;
    put(i, landing, 1);
  };
  for (let round = 0; round < MOST_ROUNDS && improve(); round++);
  return isEveryWayTried(pieces, legs) ? bestOfAll() : landings;

  /** Where there are few ways every one is tried; the arrangement found so far stands unless another is nearer together. */
  function bestOfAll(): Landing[] {
    let best = landings.slice();
    let least = spread();
    const tryFrom = (k: number): void => {
      if (k === order.length) {
        if (spread() < least - LEAST_GAIN) [best, least] = [landings.slice(), spread()];
        return;
      }
      const i = order[k]!;
      for (const landing of mayTake(pieces[i]!)) {
        place(i, landing);
        tryFrom(k + 1);
      }
    };
    tryFrom(0);
    return best;
  }

  /** The first move or exchange that brings the legs nearer together. */
  function improve(): boolean {
    const before = spread();
    for (const i of order) {
      const was = landings[i]!;
      for (const landing of mayTake(pieces[i]!)) {
        place(i, landing);
        if (spread() < before - LEAST_GAIN) return true;
      }
      place(i, was);
    }
    for (const i of order) {
      for (const k of order) {
        const [one, other] = [landings[i]!, landings[k]!];
        if (i >= k || pieces[i]!.poles !== pieces[k]!.poles || pieces[i]!.leg || pieces[k]!.leg) continue;
        place(i, other);
        place(k, one);
        if (spread() < before - LEAST_GAIN) return true;
        place(i, one);
        place(k, other);
      }
    }
    return false;
  }
}
const MOST_ROUNDS = 200;
/** So many arrangements are tried one by one in a few milliseconds. */
const MOST_WAYS = 20_000;
const LEAST_GAIN = 1e-6;

/**
 * Positions, odd ones left and even ones right, each row on the next leg: circuits of several poles from the top, then those
 * of one, each in the first free place of its leg.
 */
export function positions(landings: readonly Landing[], legs: readonly Leg[]): number[][] {
  const taken = new Set<number>();
  const order = landings.map((_, i) => i).sort((a, b) => landings[b]!.length - landings[a]!.length || a - b);
  const found: number[][] = landings.map(() => []);
  for (const i of order) {
    const landing = landings[i]!;
    for (let first = 1; found[i]!.length === 0; first++) {
      const places = landing.map((_, k) => first + 2 * k);
      if (places.every((place, k) => !taken.has(place) && legAt(place, legs) === landing[k])) found[i] = places;
    }
    for (const place of found[i]!) taken.add(place);
  }
  return found;
}
