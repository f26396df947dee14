/** The optional method where no more is known of the units than what they have connected together. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { houseLoad } from "../../../rules/dwelling/several.ts";
import { workLoads } from "../../../rules/loads.ts";
import { nameplate, type Rating } from "../../../rules/nameplate.ts";
import { conductorsInWords, serve } from "../../parts/load-service.ts";
import { ledBy } from "../../parts/verdict.ts";
import type { MultifamilyRequest } from "./request.ts";
import { currentOf, supplyOf } from "./supply.ts";

export function connectedAlone(w: Worksheet, request: MultifamilyRequest, told: Rating): Told {
  const supply = supplyOf(w, request.system);
  const units = (request.units ?? []).reduce((sum, { count }) => sum + count, 0);
  w.part("Optional method");
  const number = w.given("dwelling units", { n: String(units), unit: "1" });
  if (w.holds(number, "≤", calc`2`)) {
    throw need(
      "connected",
      "For two units the connected load of both is not enough: what is the floor area of each, and what do they have?",
      "duplex, each unit 1200 sq ft, 12 kW range, AC 20 A",
    );
  }
  if (request.method === "standard") {
    throw need(
      "units",
      "The standard method needs the floor area and the appliances of the units. What does each have?",
      "each unit 900 sq ft, 10 kW range, AC 18 A",
    );
  }
  const connected = nameplate(w, "connected in all units", told, supply.volts);
  w.suppose(
    "every unit",
    "has electric cooking, and electric heating or air conditioning",
    "nothing else was said of the units, and the optional method holds only so",
    "each unit 900 sq ft, 10 kW range, AC 18 A",
    "optional-multifamily",
  );
  const share = w.lookUp<"%">("percentage for that many units", "multifamily-optional-demand", "demand", number);
  const demand = w.work("units after the percentage", "VA", calc`${connected} × ${share}`, "optional-multifamily");
  const house = houseLoad(w, workLoads(w, request.house ?? [], supply.system));
  w.part("Optional method");
  const load = house
    ? w.work("optional method load", "VA", calc`${demand} + ${house}`, "optional-multifamily")
    : demand;
  w.figure("dwelling-units", number);
  if (house) w.figure("house-load", house);
  w.figure("optional-method-load", load, "optional method load");
  w.figure("calculated-load", load, "calculated load");
  w.part("Line current");
  const current = currentOf(w, load, supply, "calculated current");
  w.figure("calculated-current", current);
  const served = serve(w, request, {
    current,
    least: w.constant<"A">("other-minimum-service"),
    because: w.say`the load is ${current}, ${load} by the optional method`,
  });
  w.caution("The neutral was left out: it goes by the standard method, which needs the appliances of the units.");
  return ledBy(
    served.verdict,
    w.say`${load} by the optional method: ${number} units count at ${share}. ${served.rating} ${served.what}, ${current}: ${
      conductorsInWords(w, served)
    }.`,
  );
}
