/** Two or more dwellings in one building: the service to all of them by both methods, and the feeder to each. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Method } from "../../../rules/dwelling/methods.ts";
import {
  hasClimate,
  houseLoad,
  numberOf,
  optionalForAll,
  standardForAll,
  type Units,
} from "../../../rules/dwelling/several.ts";
import { workLoads } from "../../../rules/loads.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { METHOD_FIGURES, NEUTRAL_FIGURES, SERVICE_FIGURES } from "../../parts/load-service.ts";
import { question } from "../../question.ts";
import { connectedAlone } from "./connected.ts";
import { feeders, UNIT_FIGURES } from "./feeders.ts";
import { input, type MultifamilyRequest } from "./request.ts";
import { service } from "./service.ts";
import { type Supply, supplyOf } from "./supply.ts";
import { takes } from "./takes.ts";
import { unitsOf } from "./units.ts";
import { write } from "./write.ts";

export default question({
  id: "multifamily-load",
  title: "Multifamily load and service",
  about:
    "Two-family and multifamily dwellings: load by the standard and the optional method, house loads, service to all, feeder to each unit, meters.",
  input,
  figures: {
    ...METHOD_FIGURES,
    ...NEUTRAL_FIGURES,
    ...SERVICE_FIGURES,
    "dwelling-units": "dwelling units",
    "house-load": "house load",
    meters: "meters",
    ...UNIT_FIGURES,
  },
  examples: [
    "6 apartments of 900 sq ft, each with a 10 kW range, 4.5 kW water heater and AC 18 A, house loads: 4 kW lighting, what service?",
    "duplex, each unit 1200 sq ft, 12 kW range, 5 kW dryer, 4.5 kW water heater, AC 20 A, is 200 A enough?",
    "8 units of 700 sq ft and 4 units of 1100 sq ft on 208Y/120 three phase, each with a 10 kW range and 5 kW heat",
  ],
  manner: { traits: ["lists", "adds up", "service", "one supply"] },
  takes,
  minds: ["building"],
  write,
  answer(request, w) {
    if (!request.units?.length) {
      throw need("units", "How many dwelling units are there, and what does each have?", "6 apartments of 900 sq ft");
    }
    if (request.connected) return connectedAlone(w, request, request.connected);
    const supply = supplyOf(w, request.system);
    const types = unitsOf(w, request.units, supply.system);
    w.part("House loads");
    const house = workLoads(w, request.house ?? [], supply.system);
    const number = numberOf(w, types);
    if (w.holds(number, "<", calc`2`)) {
      throw need(
        "units",
        "One dwelling alone is no building of several. How many units are there?",
        "duplex; or: 6 apartments",
      );
    }
    w.figure("dwelling-units", number, "dwelling units");
    const lockedOut = request.compressorLockedOut ?? false;
    const standard = standardForAll(w, types, house, { lockedOut, threePhase: supply.phases === 3 });
    const ofHouse = houseLoad(w, house);
    if (ofHouse) w.figure("house-load", ofHouse);
    const others = othersOf(w, request, supply);
    const plus = (load: Known<"VA">, name: string): Known<"VA"> =>
      others.length === 0 ? load : w.work(name, "VA", calc`${load} + sum(${others})`);
    const loads = {
      standard: plus(standard.total, "standard method load, with the other occupancies"),
      optional: optional(w, request, types, ofHouse, number, plus),
    };
    w.figure("standard-method-load", loads.standard, "standard method load");
    if (loads.optional) w.figure("optional-method-load", loads.optional, "optional method load");
    const method = decide(w, request.method, loads);
    w.aside(method === "standard" ? "Optional method" : "Standard method");
    const served = service(w, request, {
      types,
      house,
      standard,
      load: loads[method]!,
      method,
      number,
      others,
      ofHouse,
      supply,
    });
    const each = feeders(w, request, types, supply);
    const many = request.units.length > 1;
    w.suggest(
      method === "standard" ? "optional method" : "standard method",
      request.system === "208Y/120" ? "120/240 V single phase" : "on 208Y/120 three phase",
    );
    const headline = `${served.headline} ${
      each.map(({ name, words }) => `${many ? `Feeder to each ${name}` : "Feeder to each unit"}: ${words}.`).join(" ")
    }`;
    return { ...served, headline };
  },
});

/** The optional method's load, where it may be used at all. */
function optional(
  w: Worksheet,
  request: MultifamilyRequest,
  types: readonly Units[],
  house: Known<"VA"> | undefined,
  number: Known<"1">,
  plus: (load: Known<"VA">, name: string) => Known<"VA">,
): Known<"VA"> | undefined {
  const without = types.find((type) => !hasClimate(type));
  if (without && request.method === "optional") {
    throw need(
      "units",
      `The optional method holds only where every unit has electric heating or air conditioning. What do the units${
        without.name === "" ? "" : ` of ${without.name}`
      } have?`,
      "5 kW heat in each unit; AC 18 A in each unit; or: standard method",
    );
  }
  if (without) {
    w.part("Optional method");
    w.given(
      "optional method",
      "not permitted",
      "every unit would need electric heating, air conditioning or both",
      "optional-multifamily",
    );
    return undefined;
  }
  const isTwo = w.holds(number, "=", calc`2`);
  const load = optionalForAll(w, types, house, { lockedOut: request.compressorLockedOut ?? false, isTwo });
  return plus(load, "optional method load, with the other occupancies");
}

/** The smaller permitted method decides, unless one is named. */
function decide(
  w: Worksheet,
  told: Method | undefined,
  { standard, optional }: { standard: Known<"VA">; optional: Known<"VA"> | undefined },
): Method {
  w.part("Which method");
  if (told || !optional) {
    w.given("method", told ?? "standard", told ? "as asked" : "the only one permitted");
    return told ?? "standard";
  }
  return w.choose<Method>(
    "the smaller permitted method decides",
    [optional, "≤", standard],
    ["the optional method", () => "optional"],
    ["the standard method", () => "standard"],
    "optional-multifamily",
  );
}

/** Loads of other occupancies on the same service, as they were calculated for themselves, with the signs they are without. */
function othersOf(w: Worksheet, { others = [] }: MultifamilyRequest, { volts, phases }: Supply): Known<"VA">[] {
  w.part("Other occupancies");
  return others.map(({ name = "shop", load, signs }) => {
    if (!load) {
      throw need(
        "others",
        `What load was calculated for the ${name}? Ask it as a question of its own, and give me the result.`,
        `${name} 12 kVA`,
      );
    }
    const given = nameplate(w, `${name}, calculated load`, load, volts);
    if (load.unit !== "A" || phases === 1) return withSigns(w, name, given, signs);
    const root = w.work("three-phase factor", "1", calc`sqrt(${w.given("phases", { n: "3", unit: "1" })})`);
    return withSigns(w, name, w.work(`${name}, on three phases`, "VA", calc`${given} × ${root}`), signs);
  });
}

/** A sign is on for hours: it counts as what its circuit is sized for. */
function withSigns(w: Worksheet, name: string, load: Known<"VA">, signs: number | undefined): Known<"VA"> {
  if (signs === undefined) return load;
  const number = w.given(`sign outlets of the ${name}`, { n: String(signs), unit: "1" });
  const least = w.constant<"VA">("sign-load");
  return w.work(
    `${name} with its sign`,
    "VA",
    calc`${load} + ${number} × ${least} × ${w.constant<"%">("continuous-load-factor")}`,
    "signs",
  );
}
