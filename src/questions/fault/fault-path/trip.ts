/** When a breaker trips: by its instantaneous trip, or by heat within the times that it is calibrated to. */
import { calc } from "../../../core/formula.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { areaOf } from "../../../rules/conductors.ts";
import type { Conductor } from "./circuit.ts";

/** Multiples of the rating between which the instantaneous trip lies. */
export type Band = { least: Known<"1">; most: Known<"1"> };
export type Trip = {
  is: "at once" | "perhaps at once" | "by heat" | "within hours" | "perhaps never" | "never";
  /** The longest that it may take; none where it may never trip. */
  most?: Known<"s">;
};

export function bandOf(w: Worksheet, told: number | undefined): Band {
  if (told !== undefined) {
    const at = w.given("instantaneous trip, times the rating", { n: exact(told).toFraction(), unit: "1" });
    return { least: at, most: at };
  }
  return { least: w.assume<"1">("instantaneous-trip-least"), most: w.assume<"1">("instantaneous-trip-most") };
}

/** What a multiple of its rating makes a breaker do. */
export function tripOf(w: Worksheet, multiple: Known<"1">, breaker: Known<"A">, { least, most }: Band): Trip {
  const high = w.constant<"%">("breaker-calibration-high");
  const low = w.constant<"%">("breaker-calibration-low");
  const one = w.given("its rating", { n: "1", unit: "1" }, "which it carries for ever");
  return w.choose<Trip>(
    "against its instantaneous trip",
    [multiple, "≥", most],
    ["trips at once", () => ({ is: "at once", most: w.constant<"s">("instantaneous-clearing-time") })],
    ["not surely at once", () =>
      w.choose<Trip>(
        "against the least instantaneous trip",
        [multiple, "≥", least],
        [
          "perhaps at once, by heat otherwise",
          () => ({ is: "perhaps at once", most: byHeat(w, multiple, breaker, high) }),
        ],
        ["by heat alone", () =>
          w.choose<Trip>(
            "against its calibration in minutes",
            [multiple, "≥", high],
            ["within minutes", () => ({ is: "by heat", most: byHeat(w, multiple, breaker, high) })],
            ["longer", () => slowly(w, multiple, breaker, low, one)],
          )],
      )],
  );
}

const slowly = (w: Worksheet, multiple: Known<"1">, breaker: Known<"A">, low: Known<"%">, one: Known<"1">): Trip =>
  w.choose<Trip>(
    "against its calibration in hours",
    [multiple, "≥", low],
    ["within hours", () => ({
      is: "within hours",
      most: w.lookUp<"s">("longest time to trip", "breaker-calibration", "time at 135 %", breaker),
    })],
    ["not sure to trip", () =>
      w.choose<Trip>(
        "against its rating",
        [multiple, ">", one],
        ["perhaps never", () => ({ is: "perhaps never" })],
        ["carried for ever", () => ({ is: "never" })],
      )],
  );

/**
 * The longest that the thermal trip takes: no more heat goes into it than in the calibration at twice its rating, so that the
 * time falls with the square of the current.
 */
function byHeat(w: Worksheet, multiple: Known<"1">, breaker: Known<"A">, high: Known<"%">): Known<"s"> {
  const calibrated = w.lookUp<"s">(
    "time at twice its rating, at most",
    "breaker-calibration",
    "time at 200 %",
    breaker,
  );
  return w.work(
    "longest time to trip",
    "s",
    calc`${calibrated} × ${high} × ${high} ÷ (${multiple} × ${multiple})`,
    undefined,
    "the same heat as in the calibration; breakers cool meanwhile, so it is a bound",
  );
}

/** How long the equipment ground stands the current before its insulation suffers, nothing of its heat given off. */
export function withstand(w: Worksheet, { size, material }: Conductor, current: Known<"A">): Known<"s"> {
  const area = areaOf(w, size, "area of the ground");
  const each = w.constant<"cmil/A">(`withstand-${material}`);
  const time = w.constant<"s">("withstand-time");
  const stood = w.work("current that the ground stands so long", "A", calc`${area} ÷ ${each}`);
  const heat = w.work("I²t that the ground stands", "A2s", calc`${stood} × ${stood} × ${time}`);
  return w.work("time that the ground stands the fault", "s", calc`${heat} ÷ (${current} × ${current})`);
}
