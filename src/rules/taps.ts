/** Feeder taps: conductors with no overcurrent device of their own where they start. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

type Tap = {
  /** What the tap conductors must carry at least; undefined where no rule allows this length. */
  least?: Known<"A">;
  /** Whether it must end in a single device. */
  endsInOneDevice: boolean;
};

/**
 * The least ampacity of a tap by its length: what it feeds, and a share of the device ahead. The next-size-up rule does
 * not reach taps.
 */
export function feederTap(w: Worksheet, ahead: Known<"A">, end: Known<"A">, length: Known<"ft">): Tap {
  const short = w.constant<"ft">("feeder-tap-short-length");
  const long = w.constant<"ft">("feeder-tap-long-length");
  const least = (share: Known) =>
    w.work("least ampacity of the tap", "A", calc`max(${end}, ${ahead} × ${share})`, "feeder-taps");
  return w.choose<Tap>(
    "short tap",
    [length, "≤", short],
    ["yes", () => ({ least: least(w.constant<"%">("feeder-tap-short-share")), endsInOneDevice: false })],
    ["no", () =>
      w.choose<Tap>(
        "longer tap",
        [length, "≤", long],
        ["yes", () => ({ least: least(w.constant<"1">("feeder-tap-long-share")), endsInOneDevice: true })],
        ["too long inside a building", () => ({ endsInOneDevice: true })],
        "feeder-taps",
      )],
    "feeder-taps",
  );
}
