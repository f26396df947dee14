/** Conversions an electrician does on the way: power and current, kW, kVA and hp; temperature, length, wire size. */
import * as z from "zod";
import { need, Unclear } from "../../../core/outcome.ts";
import { quantity, question } from "../../question.ts";
import { convertMeasure, INTO } from "./measures.ts";
import { convertPower, missingForPower } from "./power.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

/** What a power may be turned into. */
export const WANTED = ["A", "VA", "kVA", "W", "kW", "hp", "°C", "°F", "ft", "m", "mm2", "AWG"] as const;

const POWERS = { W: 1e8, kW: 1e5, VA: 1e8, kVA: 1e5, MVA: 100, hp: 100_000 };
export const input = z.strictObject({
  /** A power: electrical in W or VA, of a motor's shaft in hp. */
  power: quantity(["W", "kW", "VA", "kVA", "MVA", "hp"], POWERS).optional(),
  current: quantity(["A"], { A: 100_000 }).optional(),
  volts: quantity(["V", "kV"], { V: 50_000, kV: 50 }).optional(),
  circuit: z.enum(["single-phase", "three-phase", "direct current"]).optional(),
  powerFactor: z.number().min(0.05, "a power factor lies between 0.05 and 1").max(1, "a power factor is at most 1")
    .optional(),
  efficiency: quantity(["%"], { "%": 100 }).optional(),
  /** A temperature, a length or a cross-section. */
  measure: z.union([
    quantity(["ft", "in", "yd", "m"], { any: 1e6 }),
    quantity(["mm2", "kcmil"], { any: 5000 }),
    // From absolute zero on.
    z.strictObject({ value: z.number().min(-273.15).max(5000), unit: z.literal("°C") }),
    z.strictObject({ value: z.number().min(-459.67).max(5000), unit: z.literal("°F") }),
  ]).optional(),
  size: z.string().regex(
    /^(\d{1,2}|[1-4]\/0|\d{3,4} kcmil)$/,
    'a conductor size is written like "4", "2/0", "250 kcmil"',
  )
    .optional(),
  to: z.enum(WANTED).optional(),
});
export type ConversionRequest = z.output<typeof input>;

export default question({
  id: "conversion",
  title: "Conversion",
  about: "kW, kVA, hp and amperes, one and three phase; temperature, length and wire size between their units.",
  input,
  figures: {
    current: "current",
    power: "power",
    "real-power": "real power",
    "shaft-power": "shaft power",
    temperature: "temperature",
    length: "length",
    area: "cross-section",
    conductor: "next gauge size not smaller",
    "conductor-below": "next gauge size below",
    "metric-size": "next metric size not smaller",
    "metric-size-below": "next metric size below",
  },
  examples: [
    "45 kVA at 480 V three phase in amps",
    "how many kW is 200 A at 240 V single phase?",
    "25 hp at 92 % efficiency and power factor 0.85, 460 V three phase, in amps",
    "40 °C in °F",
    "35 mm² in AWG",
  ],
  takes,
  write,
  answer(request, w) {
    askForSense(request);
    if (request.measure !== undefined || request.size !== undefined) return convertMeasure(w, request);
    const needs = missingForPower(request);
    if (needs.length > 0) throw new Unclear(needs);
    convertPower(w, request);
  },
});

const ELECTRIC = ["A", "VA", "kVA", "W", "kW", "hp"];

/** @throws Unclear where what is wanted is another kind of quantity than what was told. */
function askForSense({ measure, size, to }: ConversionRequest): void {
  const told = measure ? measure.unit : size;
  if (to === undefined) return;
  const into = measure ? INTO[measure.unit]! : size === undefined ? ELECTRIC : ["mm2"];
  if (into.includes(to)) return;
  throw need(
    "to",
    `${told ?? "A power or a current"} is not turned into ${to}, but into ${into.join(" or ")}.`,
    `in ${into[0]}`,
  );
}
