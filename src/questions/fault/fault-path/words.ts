/** Times as they are said. */
import { exact } from "../../../core/quantity.ts";
import { printBriefly, printValue } from "../../../core/print.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";

const [MINUTE, HOUR] = [60, 3600];

/** `0.025 s`, `9.8 s`, `2 min`, `1 h`. */
export function inTime(w: Worksheet, time: Known<"s">): string {
  const value = w.value(time);
  const seconds = "n" in value ? exact(value.n).valueOf() : 0;
  if (seconds < 1) return printValue(value);
  if (seconds >= HOUR) return `${Math.round(seconds / HOUR)} h`;
  if (seconds > 2 * MINUTE) return `${Math.round(seconds / MINUTE)} min`;
  return printBriefly(value);
}
