/** One mobile or manufactured home: its own method beside the optional one, the cord or feeder, and its service equipment. */
import { calc } from "../../../core/formula.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { generalLighting } from "../../../rules/dwelling/area.ts";
import { optionalMethod } from "../../../rules/dwelling/optional.ts";
import { lockOut, runTogether, systemOf } from "../../../rules/dwelling/system.ts";
import { type Load, workLoads } from "../../../rules/loads.ts";
import { conductorsInWords, serve, SERVICE_FIGURES, tellPutUp } from "../../parts/load-service.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy } from "../../parts/verdict.ts";
import { question } from "../../question.ts";
import { isElectric, ownMethod } from "./own-method.ts";
import { input, type MobileHomeRequest } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "mobile-home-load",
  title: "Load of a mobile home",
  about: "One mobile or manufactured home: amperes on each leg by its own method, cord or feeder, service equipment.",
  input,
  figures: {
    "leg-a-current": "leg A",
    "leg-b-current": "leg B",
    "standard-method-load": "load by the method of mobile homes",
    "optional-method-load": "optional method load",
    "calculated-load": "calculated load",
    "calculated-current": "calculated current",
    "neutral-current": "neutral current",
    "power-supply": "power supply of the home",
    ...SERVICE_FIGURES,
  },
  examples: [
    "double wide mobile home, 1400 sq ft, 12 kW range, 5 kW dryer, 4.5 kW water heater, 15 kW electric furnace, what feeder?",
    "14 x 66 mobile home, gas heat, gas range, 4.5 kW water heater, is a 50 A power cord enough?",
    "manufactured home 1600 sq ft, heat pump 24 A with 10 kW backup heat, 10 kW range, what size service equipment?",
  ],
  manner: { traits: ["lists", "adds up", "three wires", "one supply"] },
  takes,
  minds: ["building"],
  write,
  answer(r, w) {
    const system = systemOf(w, "120/240");
    const lighting = generalLighting(w, r);
    w.part("Loads");
    const loads = workLoads(w, r.loads ?? [], system);
    const lockedOut = lockOut(w, r.compressorLockedOut, loads);
    const isSmallCord = r.cord !== undefined &&
      w.scratch(() => w.holds(w.given("cord", asQuantity(r.cord!)), "≤", w.constant<"A">("mobile-home-small-cord")));
    const own = ownMethod(w, { lighting, loads, system, lockedOut, isSmallCord });
    w.figure("leg-a-current", own.A);
    w.figure("leg-b-current", own.B);
    const heavier = w.work("the heavier leg", "A", calc`max(${[own.A, own.B]})`, "mobile-home-load");
    const standard = w.work("load by the method of mobile homes", "VA", calc`${heavier} × ${system.lineToLine}`);
    w.figure("standard-method-load", standard);
    const together = runTogether(w, r.compressorLockedOut, loads);
    const optional = optionalMethod(w, lighting, loads, { lockedOut, together });
    w.figure("optional-method-load", optional.total);
    const byOptional = w.work(
      "line current, optional method",
      "A",
      calc`${optional.total} ÷ ${system.lineToLine}`,
      "mobile-home-optional",
    );
    const method = decide(w, r, heavier, byOptional);
    const [load, current] = method === "optional" ? [optional.total, byOptional] : [standard, heavier];
    w.aside(method === "optional" ? "Method of mobile homes" : "Optional method");
    w.figure("calculated-load", load, "calculated load");
    w.figure("calculated-current", current, "calculated current");
    w.figure("neutral-current", own.neutral);
    return supply(w, r, { load, current, neutral: own.neutral, method, loads });
  },
});

type Method = "standard" | "optional";
function decide(w: Worksheet, { method }: MobileHomeRequest, own: Known<"A">, optional: Known<"A">): Method {
  w.part("Which method");
  if (method) {
    w.given("method", method === "optional" ? "optional" : "that of mobile homes", "as asked");
    return method;
  }
  return w.choose<Method>(
    "the smaller permitted method decides",
    [optional, "≤", own],
    ["the optional method", () => "optional"],
    ["the method of mobile homes", () => "standard"],
    "mobile-home-optional",
  );
}

type Found = { load: Known<"VA">; current: Known<"A">; neutral: Known<"A">; method: Method; loads: readonly Load[] };

function supply(w: Worksheet, r: MobileHomeRequest, found: Found): Told {
  const { load, current, neutral, method } = found;
  const cord = cordFor(w, r, found);
  // The panel in the home is fed from service equipment outside, unless that is asked for.
  const isService = r.panel === "at the service disconnect";
  const by = method === "optional" ? "the optional method" : "the method of mobile homes";
  const served = serve(w, { ...r, panel: r.panel ?? "after the service disconnect" }, {
    current,
    least: w.constant<"A">(isService ? "mobile-home-service-least" : "mobile-home-feeder-least"),
    neutral,
    hasNeutral: true,
    isDwelling: true,
    because: w.say`the mobile home comes to ${current} by ${by}`,
  });
  w.caution(
    isService
      ? w.say`It stands outside, in sight of the home and within ${
        w.constant<"ft">("mobile-home-service-distance")
      } of its wall; four wires go on to the panel inside.`
      : "Four insulated wires to the home: its panel's neutral stays apart from its grounds and frame, the bond is at the service equipment outside.",
    isService ? "mobile-home-service-place" : "mobile-home-neutral",
  );
  w.suggest(
    isService ? "as a feeder" : "as a service",
    "use aluminum",
    method === "optional" ? "standard method" : "optional method",
  );
  const conductors = `${conductorsInWords(w, served)}.`;
  const putUp = tellPutUp(w, served, `${conductors} ${cord.words}`);
  if (putUp) return putUp;
  const headline = w.say`${served.rating} ${isService ? "service equipment" : "feeder"}${
    served.isLeast ? " (the least there is)" : ""
  } for the mobile home: ${current}, ${load} by ${by}. ${conductors}`;
  // The feeder that may stand in the cord's place.
  const instead = w.say`Or a ${served.rating} ${isService ? "service equipment" : "feeder"}: ${conductors}`;
  return cord.verdict ? ledBy(cord.verdict, instead) : { headline: `${headline} ${cord.words}` };
}

/** Whether a cord carries it, and the verdict on one that was put up. */
function cordFor(w: Worksheet, r: MobileHomeRequest, { current, loads }: Found): { words: string; verdict?: Reasoned } {
  w.part("Cord or feeder");
  const electric = isElectric(loads);
  const most = w.constant<"A">("mobile-home-cord");
  const small = w.constant<"A">("mobile-home-small-cord");
  const cord = w.choose<Known<"A"> | undefined>(
    "does one cord carry it",
    [current, "≤", most],
    ["yes", () => !electric && w.holds(current, "≤", small) ? small : most],
    ["no", () => undefined],
    "mobile-home-power-supply",
  );
  const needed = cord ? w.say`a ${cord} cord` : "a permanent feeder";
  w.figure("power-supply", w.given("power supply of the home", cord ? w.say`${cord} cord` : "permanent feeder"));
  const words = cord
    ? w.say`One ${cord} power-supply cord carries it as well.`
    : w.say`More than one ${most} cord carries: permanently wired.`;
  if (!r.cord) return { words };
  const told = w.given("cord put up for checking", asQuantity(r.cord));
  const isListed = w.holds(told, "=", most) || w.holds(told, "=", small);
  const is = w.choose<"ok" | "not ok">(
    "is that cord enough",
    [told, "≥", current],
    ["yes", () => cord && isListed && (!electric || w.holds(told, "=", most)) ? "ok" : "not ok"],
    ["no", () => "not ok"],
    "mobile-home-power-supply",
  );
  const because = is === "ok"
    ? w.say`the mobile home comes to ${current}, and a ${told} cord carries it`
    : !isListed
    ? w.say`the cord of a mobile home is ${most}, or ${small} where it heats and cooks with fuel`
    : w.holds(told, "≥", current)
    ? w.say`a ${told} cord is for homes that heat and cook with fuel; this one takes ${needed}`
    : w.say`the mobile home comes to ${current}, which takes ${needed}`;
  return { words, verdict: { is, because } };
}
