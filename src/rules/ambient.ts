/** The temperature around the conductors. */
import { calc } from "../core/formula.ts";
import { exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/** A temperature as a request carries it. */
export type Temperature = { value: number | string; unit: "°C" | "°F" };

/** The ambient temperature in °C, or the base of the ampacity table where none was told. */
export function ambientOf(w: Worksheet, said: Temperature | undefined): Known<"°C"> {
  if (said === undefined) return w.assume<"°C">("ambient-temperature");
  const n = exact(said.value).toFraction();
  if (said.unit === "°C") return w.given("ambient temperature", { n, unit: "°C" });
  const ambient = w.given("ambient temperature", { n, unit: "°F" });
  const [zero, step] = [w.constant<"°F">("fahrenheit-of-freezing"), w.constant<"°F/°C">("fahrenheit-per-celsius")];
  return w.work("ambient temperature in °C", "°C", calc`(${ambient} − ${zero}) ÷ ${step}`);
}
