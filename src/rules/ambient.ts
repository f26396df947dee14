/** Temperatures: of the surroundings, and from one scale to the other. */
import { calc } from "../core/formula.ts";
import { exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/** A temperature as a request carries it. */
export type Temperature = { value: number | string; unit: "°C" | "°F" };

/** The ambient temperature in °C, or the base of the ampacity table where none was told. */
export function ambientOf(w: Worksheet, said: Temperature | undefined): Known<"°C"> {
  if (said === undefined) return w.assume<"°C">("ambient-temperature");
  return celsiusOf(w, "ambient temperature", said);
}

/** A temperature in °C, converted on the page where it was told in °F. */
export function celsiusOf(w: Worksheet, name: string, said: Temperature): Known<"°C"> {
  const n = exact(said.value).toFraction();
  if (said.unit === "°C") return w.given(name, { n, unit: "°C" });
  const fahrenheit = w.given(name, { n, unit: "°F" });
  const [zero, step] = [w.constant<"°F">("fahrenheit-of-freezing"), w.constant<"°F/°C">("fahrenheit-per-celsius")];
  return w.work(`${name} in °C`, "°C", calc`(${fahrenheit} − ${zero}) ÷ ${step}`);
}
