/** Temperature, length and wire size from one unit into another. */
import type { ConductorSize } from "../../../core/conductor-size.ts";
import { calc } from "../../../core/formula.ts";
import { convert, exact, isUnit } from "../../../core/quantity.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { celsiusOf } from "../../../rules/ambient.ts";
import { areaOf } from "../../../rules/conductors.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { ConversionRequest } from "./request.ts";

type Measure = NonNullable<ConversionRequest["measure"]>;

/** Works the conversion and tells it. */
export function convertMeasure(w: Worksheet, r: ConversionRequest): Told {
  w.part("Conversion");
  if (r.size !== undefined) return metricOfGauge(w, r.size);
  const measure = r.measure!;
  switch (measure.unit) {
    case "°C":
      return fahrenheitOf(w, measure);
    case "°F":
      return celsius(w, measure);
    case "mm2":
    case "kcmil":
      return gaugeOf(w, measure);
    default:
      return lengthOf(w, measure, r.to);
  }
}

function fahrenheitOf(w: Worksheet, { value }: Measure): Told {
  const said = w.given("temperature", { n: exact(value).toFraction(), unit: "°C" });
  const [zero, step] = [w.constant<"°F">("fahrenheit-of-freezing"), w.constant<"°F/°C">("fahrenheit-per-celsius")];
  const result = w.work("temperature in °F", "°F", calc`${said} × ${step} + ${zero}`);
  w.figure("temperature", result);
  return { headline: w.say`${said} is ${result}.` };
}

function celsius(w: Worksheet, { value }: Measure): Told {
  const result = celsiusOf(w, "temperature", { value, unit: "°F" });
  w.figure("temperature", result);
  return { headline: w.say`${String(value)} °F is ${result}.` };
}

function lengthOf(w: Worksheet, measure: Measure, to: ConversionRequest["to"]): Told {
  const said = asQuantity(measure as { value: number | string; unit: "ft" | "in" | "yd" | "m" });
  const metre = w.constant<"m/ft">("metres-per-foot");
  const given = w.given("length", said);
  const feet = measure.unit === "ft" || measure.unit === "m"
    ? given
    : w.work("length in feet", "ft", calc`1 × ${given}`);
  const result = measure.unit === "m"
    ? w.work("length in feet", "ft", calc`${given} ÷ ${metre}`)
    : to === "ft"
    ? feet
    : w.work("length in metres", "m", calc`${feet} × ${metre}`);
  w.figure("length", result);
  return { headline: w.say`${given} is ${result}.` };
}

/** Metric area of a gauge size, and the metric sizes on either side of it. */
function metricOfGauge(w: Worksheet, size: ConductorSize): Told {
  const gauge = w.given("conductor", size);
  const area = areaOf(w, gauge);
  const metric = w.work(
    "area in mm²",
    "mm2",
    calc`${area} × ${w.constant<"mm2/kcmil">("square-millimetres-per-kcmil")}`,
  );
  w.figure("area", metric);
  const sizes = neighbours(w, "metric-conductor-sizes", "area", metric, "metric size");
  if (sizes.above) w.figure("metric-size", sizes.above);
  if (sizes.below) w.figure("metric-size-below", sizes.below);
  w.suggest("2/0 in mm2");
  const between = betweenText(w, sizes);
  return {
    headline: w.say`${size} is ${metric}: between ${between}. The larger one has at least its area.`,
  };
}

/** Gauge sizes on either side of a metric area: the smaller one is never given alone. */
function gaugeOf(w: Worksheet, measure: Measure): Told {
  const given = w.given("cross-section", asQuantity(measure as { value: number | string; unit: "mm2" | "kcmil" }));
  const perKcmil = w.constant<"mm2/kcmil">("square-millimetres-per-kcmil");
  const area = measure.unit === "kcmil" ? given : w.work("area in kcmil", "kcmil", calc`${given} ÷ ${perKcmil}`);
  const metric = measure.unit === "kcmil" ? w.work("area in mm²", "mm2", calc`${given} × ${perKcmil}`) : given;
  w.figure("area", measure.unit === "kcmil" ? metric : area);
  const sizes = neighbours(w, "conductor-properties", "area", area, "gauge size");
  if (sizes.above) w.figure("conductor", sizes.above);
  if (sizes.below) w.figure("conductor-below", sizes.below);
  const which = sizes.above ? "To replace it, take the larger." : "No listed size is as large.";
  const headline = w.say`${given} is ${measure.unit === "kcmil" ? metric : area}: between ${
    betweenText(w, sizes)
  }. ${which}`;
  w.caution(
    "Insulation, temperature rating and listing differ too: a metric cable is not a listed gauge cable of that area.",
  );
  return { headline };
}

type Sides = { below?: Known | undefined; above?: Known | undefined };

function neighbours(w: Worksheet, table: string, column: string, value: Known, name: string): Sides {
  const known = w.edition.table(table);
  const areas = known.data.rows.map((row) => known.number(row, column)!);
  const unit = column === known.data.key.name ? known.data.key.kind : known.kind(column);
  const stated = w.value(value);
  if ("word" in stated || !isUnit(unit)) throw new TypeError(`"${value.name}" is no area`);
  const own = exact(convert(stated, unit).n);
  const within = (side: (area: typeof own) => boolean) => areas.some(side);
  return {
    below: within((area) => area.compare(own) <= 0) ? w.atMost(`${name} not above`, table, column, value) : undefined,
    above: within((area) => area.compare(own) >= 0) ? w.atLeast(`${name} not below`, table, column, value) : undefined,
  };
}

function betweenText(w: Worksheet, { below, above }: Sides): string {
  const text = (known: Known | undefined, none: string) => known ? w.say`${known}` : none;
  return `${text(below, "nothing smaller listed")} and ${text(above, "nothing larger listed")}`;
}

/** What each measure can be turned into. */
export const INTO: Readonly<Record<string, readonly string[]>> = {
  "°C": ["°F"],
  "°F": ["°C"],
  ft: ["m"],
  in: ["ft", "m"],
  yd: ["ft", "m"],
  m: ["ft"],
  mm2: ["AWG"],
  kcmil: ["AWG", "mm2"],
};
