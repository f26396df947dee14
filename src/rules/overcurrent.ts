/** Overcurrent devices: standard ratings, and what may protect a conductor. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

const RATINGS = "standard-overcurrent-ratings";

/** Whether a standard rating is made as a breaker too, and not as a fuse only. */
function isBreaker(w: Worksheet, rating: string): boolean {
  const table = w.edition.table(RATINGS);
  return table.cell(table.row(rating)!, "devices") === "fuse and breaker";
}

/** The smallest standard breaker not below a current. @throws NotCovered above the largest. */
export const nextBreaker = (w: Worksheet, current: Known, name = "next standard rating"): Known<"A"> =>
  w.atLeast<"A">(name, RATINGS, "rating", current, (rating) => isBreaker(w, rating));

/** A load current as it picks a service or feeder rating: a fraction of an ampere below a half is dropped, once. */
export const wholeAmperes = (w: Worksheet, current: Known<"A">): Known<"A"> =>
  w.work("load current, to the whole ampere", "A", calc`round(${current})`, "ampere-fractions");

/** The breaker to take for a load: the next standard one, but none below those that are usual, which is listed. */
export function usualBreaker(w: Worksheet, current: Known<"A">, name?: string): Known<"A"> {
  const next = nextBreaker(w, current, name);
  if (w.scratch(() => w.holds(next, "≥", w.assume<"A">("least-breaker")))) return next;
  return w.work("breaker, not below the usual ones", "A", calc`max(${next}, ${w.assume<"A">("least-breaker")})`);
}

/** The largest standard breaker not above a current. @throws NotCovered below the smallest. */
export const breakerBelow = (w: Worksheet, current: Known, name = "standard rating not above it"): Known<"A"> =>
  w.atMost<"A">(name, RATINGS, "rating", current, (rating) => isBreaker(w, rating));

/** The smallest standard fuse not below a current. */
export const nextFuse = (w: Worksheet, current: Known, name = "next standard fuse"): Known<"A"> =>
  w.atLeast<"A">(name, RATINGS, "rating", current);

/** The largest standard fuse not above a current. */
export const fuseBelow = (w: Worksheet, current: Known, name = "standard fuse not above it"): Known<"A"> =>
  w.atMost<"A">(name, RATINGS, "rating", current);

/**
 * Whether a device protects a conductor of this ampacity: it is not above it, or it is the next standard rating above and
 * the next-size-up rule reaches that far. Nothing is recorded.
 */
export function protects(w: Worksheet, device: Known, ampacity: Known): boolean {
  if (w.holds(device, "≤", ampacity)) return true;
  return w.scratch(() => {
    const limit = w.constant("next-size-up-limit");
    return w.holds(device, "≤", limit) && w.holds(device, "≤", nextBreaker(w, ampacity));
  });
}

/** Shows why a device may protect a conductor of this ampacity; call it when `protects` holds. */
export function showProtection(w: Worksheet, device: Known<"A">, ampacity: Known<"A">): void {
  if (w.holds(device, "≤", ampacity)) {
    w.choose("device against ampacity", [device, "≤", ampacity], ["the ampacity covers the device", () => {}], [
      "",
      () => {},
    ]);
    return;
  }
  const next = nextBreaker(w, ampacity, "next standard rating above the ampacity");
  w.choose(
    "next size up",
    [device, "≤", next],
    ["the device is the next standard size up, which is allowed", () => {}],
    ["", () => {}],
    "next-size-up",
  );
}

/** The largest breaker a conductor of this ampacity may have. */
export function largestBreaker(w: Worksheet, ampacity: Known<"A">): Known<"A"> {
  const limit = w.constant<"A">("next-size-up-limit");
  const next = w.scratch(() => w.holds(ampacity, "≤", limit) && w.holds(nextBreaker(w, ampacity), "≤", limit));
  if (next) return nextBreaker(w, ampacity, "largest breaker, next size up allowed");
  const below = breakerBelow(w, ampacity, "largest breaker, no next size up here");
  w.choose(
    "next size up",
    [calc`max(${ampacity}, ${below})`, ">", limit],
    ["ends here: the device may not exceed the ampacity", () => {}],
    ["ends here", () => {}],
    "next-size-up",
  );
  return below;
}
