/** Conversions an electrician does on the way: power and current, kW, kVA and hp; temperature, length, wire size. */
import { need, Unclear } from "../../../core/outcome.ts";
import { question } from "../../question.ts";
import { convertMeasure, INTO } from "./measures.ts";
import { convertPower, missingForPower } from "./power.ts";
import { type ConversionRequest, input } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

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
  manner: {},
  takes,
  write,
  answer(request, w) {
    askForSense(request);
    if (request.measure !== undefined || request.size !== undefined) return convertMeasure(w, request);
    const needs = missingForPower(request);
    if (needs.length > 0) throw new Unclear(needs);
    return convertPower(w, request);
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
