/** One-family dwelling: both methods side by side, and on to the service. */
import type { Worksheet } from "../../../core/worksheet.ts";
import { workLoads } from "../../../rules/loads.ts";
import { generalLighting, lightingCircuits } from "../../../rules/dwelling/area.ts";
import { type CurrentBy, type Loads, type Method, workDwelling } from "../../../rules/dwelling/methods.ts";
import { systemOf } from "../../../rules/dwelling/system.ts";
import { METHOD_FIGURES, NEUTRAL_FIGURES, SERVICE_FIGURES } from "../../parts/load-service.ts";
import { question } from "../../question.ts";
import { type DwellingRequest, input } from "./request.ts";
import { service } from "./service.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "dwelling-load",
  title: "Dwelling load and service",
  about:
    "One-family dwelling: load by the standard and the optional method, neutral, service or feeder, conductors, grounding.",
  input,
  figures: {
    ...METHOD_FIGURES,
    ...NEUTRAL_FIGURES,
    ...SERVICE_FIGURES,
    "lighting-circuits-15": "least number of 15 A lighting circuits",
    "lighting-circuits-20": "least number of 20 A lighting circuits",
  },
  examples: [
    "2400 sq ft, 12 kW range, 5 kW dryer, 4.5 kW water heater, dishwasher 1.2 kW, disposer 1/2 hp, AC 24 A, 48 A EV charger, what service?",
    "1800 sq ft house, gas heat, gas range, 5 kW dryer, AC 18 A, is a 100 A service enough?",
    "optional method, 3000 sq ft, heat pump 28 A with 10 kW backup heat, 12 kW range, 4.5 kW water heater",
  ],
  manner: {
    traits: ["lists", "adds up", "service", "three wires", "one supply"],
    words: ["building:dwelling", "device:service", "goal:load"],
  },
  takes,
  minds: ["building"],
  write,
  answer(request, w) {
    const network = request.system === "120/208";
    const system = systemOf(w, request.system);
    const lighting = generalLighting(w, request);
    w.part("Loads");
    const loads = workLoads(w, request.loads ?? [], system);
    const { standard, optional, method, load, neutral, current } = workDwelling(
      w,
      { lighting, loads, system, network, compressorLockedOut: request.compressorLockedOut },
      (loads, currentBy) => decide(w, request, loads, currentBy),
    );
    w.figure("standard-method-load", standard.total);
    w.figure("optional-method-load", optional.total);
    // The method that does not decide is worked in full, and shown in short where space is short.
    w.aside(method === "standard" ? "Optional method" : "Standard method", "Lighting circuits");
    w.figure("calculated-load", load, "calculated load");
    w.figure("neutral-load", neutral.load);
    w.figure("neutral-current", neutral.current, "neutral current");
    w.figure("calculated-current", current, "calculated current");
    const answer = service(w, request, {
      load,
      current,
      neutral,
      method,
      standard: standard.total,
      optional: optional.total,
      network,
    });
    lightingCircuits(w, lighting.areas);
    return answer;
  },
});

/**
 * The smaller permitted method decides, unless one is named. On two lines and the neutral of a wye the smaller load may be
 * the larger current, and it is the current that the conductors are for.
 */
function decide(w: Worksheet, { method, system }: DwellingRequest, loads: Loads, currentBy: CurrentBy): Method {
  w.part("Which method");
  if (method) {
    w.given("method", method, "as asked");
    return method;
  }
  const by = system === "120/208" ? { standard: currentBy.standard(), optional: currentBy.optional() } : loads;
  w.part("Which method");
  return w.choose<Method>(
    "the smaller permitted method decides",
    [by.optional, "≤", by.standard],
    ["the optional method", () => "optional"],
    ["the standard method", () => "standard"],
    "optional-dwelling",
  );
}
