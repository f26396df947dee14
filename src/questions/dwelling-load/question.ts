/** One-family dwelling: both methods side by side, and on to the service. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { type System, workLoads } from "../../rules/loads.ts";
import { question } from "../question.ts";
import { generalLighting, lightingCircuits } from "./area.ts";
import { lineCurrent, networkCurrent } from "./legs.ts";
import { neutralLoad } from "./neutral.ts";
import { optionalMethod } from "./optional.ts";
import { cues, phrases, settle } from "./phrases.ts";
import { type DwellingRequest, input } from "./request.ts";
import { service } from "./service.ts";
import { standardMethod } from "./standard.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "dwelling-load",
  title: "Dwelling load and service",
  about:
    "One-family dwelling: load by the standard and the optional method, neutral, service or feeder, conductors, grounding.",
  input,
  figures: {
    "standard-method-load": "standard method load",
    "optional-method-load": "optional method load",
    "calculated-load": "calculated load",
    "calculated-current": "calculated current",
    "neutral-load": "neutral load",
    "neutral-current": "neutral current",
    "service-rating": "service rating",
    "ungrounded-conductor": "ungrounded conductor",
    "neutral-conductor": "neutral conductor",
    "parallel-sets": "parallel sets",
    "grounding-electrode-conductor": "grounding electrode conductor",
    "main-bonding-jumper": "main bonding jumper",
    "equipment-grounding-conductor": "equipment grounding conductor",
    "neutral-bond": "neutral bond",
    "spare-current": "spare current",
    "lighting-circuits-15": "least number of 15 A lighting circuits",
    "lighting-circuits-20": "least number of 20 A lighting circuits",
  },
  examples: [
    "2400 sq ft, 12 kW range, 5 kW dryer, 4.5 kW water heater, dishwasher 1.2 kW, disposer 1/2 hp, AC 24 A, 48 A EV charger, what service?",
    "1800 sq ft house, gas heat, gas range, 5 kW dryer, AC 18 A, is a 100 A service enough?",
    "optional method, 3000 sq ft, heat pump 28 A with 10 kW backup heat, 12 kW range, 4.5 kW water heater",
  ],
  cues,
  phrases,
  settle,
  takes,
  write,
  answer(request, w) {
    const network = request.system === "120/208";
    const system = systemOf(w, network, request.system === undefined);
    const lighting = generalLighting(w, request);
    w.part("Loads");
    const loads = workLoads(w, request.loads ?? [], system);
    const lockedOut = lockOut(
      w,
      request,
      loads.some(({ group }) => group === "supplemental heat") && loads.some(({ group }) => group === "heat pump"),
    );
    const standard = standardMethod(w, lighting, loads, lockedOut);
    w.figure("standard-method-load", standard.total);
    const optional = optionalMethod(w, lighting, loads, lockedOut);
    w.figure("optional-method-load", optional);
    const { load, method } = decide(w, request, standard.total, optional);
    // The method that does not decide is worked in full, and shown in short where space is short.
    w.aside(method === "standard" ? "Optional method" : "Standard method", "Lighting circuits");
    w.figure("calculated-load", load, "calculated load");
    const neutral = neutralLoad(w, standard, system, network);
    w.figure("neutral-load", neutral.load);
    w.figure("neutral-current", neutral.current, "neutral current");
    const current = network
      ? networkCurrent(w, load, method === "standard" ? standard : undefined, system)
      : lineCurrent(w, load, standard.lighting, loads, system);
    w.figure("calculated-current", current, "calculated current");
    service(w, request, { load, current, neutral, method, standard: standard.total, optional, network });
    lightingCircuits(w, lighting.area);
  },
});

function systemOf(w: Worksheet, network: boolean, assumed: boolean): System {
  w.part("Supply");
  const lineToNeutral = w.constant<"V">("branch-circuit-voltage");
  if (assumed) return { lineToNeutral, lineToLine: w.assume<"V">("supply-voltage"), motors: "230 V" };
  if (!network) {
    return {
      lineToNeutral,
      lineToLine: w.work("line-to-line voltage", "V", calc`2 × ${lineToNeutral}`),
      motors: "230 V",
    };
  }
  return { lineToNeutral, lineToLine: w.constant<"V">("network-voltage"), motors: "208 V" };
}

/** Whether a heat pump's controls keep its compressor off while the supplemental heat runs: the heavier case is assumed. */
function lockOut(w: Worksheet, { compressorLockedOut }: DwellingRequest, matters: boolean): boolean {
  if (!matters) return false;
  if (compressorLockedOut === undefined) {
    w.suppose(
      "heat pump and supplemental heat",
      "run together",
      "nothing was said of a lockout, and this is the heavier case",
      "compressor locked out",
      "optional-heating-cooling",
    );
  } else {
    w.given("heat pump and supplemental heat", compressorLockedOut ? "never run together" : "run together");
  }
  return compressorLockedOut ?? false;
}

type Decision = { load: Known<"VA">; method: "standard" | "optional" };

/** The smaller permitted method decides, unless one is named. The optional one asks for conductors of a least rating. */
function decide(
  w: Worksheet,
  { method }: DwellingRequest,
  standard: Known<"VA">,
  optional: Known<"VA">,
): Decision {
  w.part("Which method");
  if (method) {
    w.given("method", method, "as asked");
    return { load: method === "standard" ? standard : optional, method };
  }
  return w.choose<Decision>(
    "the smaller permitted method decides",
    [optional, "≤", standard],
    ["the optional method", () => ({ load: optional, method: "optional" })],
    ["the standard method", () => ({ load: standard, method: "standard" })],
    "optional-dwelling",
  );
}
