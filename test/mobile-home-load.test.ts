/** One mobile home: its method line by line, the cord or feeder it takes, and its own rules. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, figure } from "./support/engine.ts";

const KIND = "mobile-home-load";
const q = (value: number, unit: string) => ({ value, unit });
const load = (kind: string, value: number, unit = "kW", more: object = {}) => ({
  kind,
  rating: q(value, unit),
  ...more,
});
const of = (request: object, edition = "2023") =>
  answered({ kind: KIND, areas: [{ area: q(700, "ft2") }], method: "standard", ...request } as Request, { edition });
const legs = (request: object, edition?: string) => {
  const answer = of(request, edition);
  return [figure(answer, "leg-a-current"), figure(answer, "leg-b-current")] as [number, number];
};
/** The heavier leg with a list of loads, less what the lighting alone puts on it. */
const LIT = (3000 + (2100 + 3000 + 1500 - 3000) * 0.35) / 240;
const above = (...loads: object[]) => Math.max(...legs({ loads })) - LIT;

describe("the method of mobile homes", () => {
  // Annex D, example D11, as remembered (from memory): 70 ft by 10 ft, two small-appliance circuits; 47 A and 48 A, a 50 A cord.
  it("comes to 47 A and 48 A a leg in the annex's example, a 50 A cord", () => {
    for (const edition of EDITIONS) {
      const answer = of({
        loads: [
          load("space-heater", 1),
          load("attic-fan", 200, "W", { volts: q(120, "V") }),
          load("dishwasher", 400, "W"),
          load("range", 7),
        ],
      }, edition);
      // The annex rounds each line to whole amperes: 18 + 4 + 2 + 23 and 18 + 4 + 3 + 23.
      const lines = LIT + 1000 / 240 + 7000 * 0.8 / 240;
      assertAlmostEquals(figure(answer, "leg-a-current") as number, lines + 400 / 120, 1e-9);
      assertAlmostEquals(figure(answer, "leg-b-current") as number, lines + 200 / 120 * 1.25, 1e-9);
      assertEquals(figure(answer, "power-supply"), "50 A cord");
    }
  });
  it("takes 3 VA/ft² or 33 VA/m², the first 3,000 VA in full and 35 % of the rest: below, at and above", () => {
    const lit = (circuits: object, area: object = q(100, "ft2")) =>
      Math.max(...legs({ areas: [{ area }], ...circuits }));
    // Two small-appliance circuits alone are 3,000 VA; without a laundry the area is what is above them.
    assertAlmostEquals(lit({ laundryCircuits: 0 }), (3000 + 300 * 0.35) / 240, 1e-9);
    assertAlmostEquals(lit({ laundryCircuits: 0 }, q(20, "m2")), (3000 + 660 * 0.35) / 240, 1e-9);
    assertAlmostEquals(lit({ smallApplianceCircuits: 3 }), (3000 + 3300 * 0.35) / 240, 1e-9);
  });
  it("counts a range by its rows: below, at and above each", () => {
    const range = (value: number) => Math.round(above(load("range", value)) * 240);
    assertEquals([8, 9.9, 10, 10.1, 12.5, 12.6, 13.5, 13.6, 14.5, 14.6, 15.5, 15.6, 16.5, 16.6, 17.5].map(range), [
      6400,
      7920,
      8000,
      8000,
      8000,
      8400,
      8400,
      8800,
      8800,
      9200,
      9200,
      9600,
      9600,
      10000,
      10000,
    ]);
    const outcome = (value: number) =>
      ask({ kind: KIND, areas: [{ area: q(700, "ft2") }], loads: [load("range", value)] } as Request).outcome;
    assertEquals([17.5, 17.6].map(outcome), ["answered", "unclear"]);
  });
  it("counts up to three appliances in full, more of them at 75 %", () => {
    const heaters = (count: number) => above(load("water-heater", 2.4, "kW", { count }));
    assertEquals([2, 3, 4, 5].map((n) => Math.round(heaters(n) * 1e6) / 1e6), [20, 30, 30, 37.5]);
    // A range is none of them, and other loads count in full beside them.
    const list = [load("dryer", 4.8), load("wall-oven", 4.8), load("cooktop", 4.8), load("range", 10)];
    assertAlmostEquals(above(...list), 60 + 8000 / 240, 1e-9);
    assertAlmostEquals(above(...list, load("disposer", 1.2)), (60 + 10) * 0.75 + 8000 / 240, 1e-9);
  });
  it("leaves out the smaller of heating and cooling, and adds a quarter of the largest motor that runs", () => {
    const furnace = load("furnace", 9.6);
    assertAlmostEquals(above(furnace, load("air-conditioner", 20, "A")), 40, 1e-9);
    assertAlmostEquals(above(load("air-conditioner", 20, "A")), 25, 1e-9);
    assertAlmostEquals(above(load("furnace", 2.4), load("air-conditioner", 20, "A")), 25, 1e-9);
  });
  it("leaves 15 A a leg for an air conditioner where a 40 A cord feeds a home that has none", () => {
    const cord = (value: number, ...loads: object[]) => Math.max(...legs({ cord: q(value, "A"), loads }));
    assertAlmostEquals(cord(40) - cord(50), 15, 1e-9);
    assertEquals(cord(40, load("air-conditioner", 10, "A")), cord(50, load("air-conditioner", 10, "A")));
  });
  it("balances what lies to the neutral, unless its leg was told", () => {
    const three = [5, 4, 3].map((value) => load("other", value, "A", { name: `load ${value}`, volts: q(120, "V") }));
    const [a, b] = legs({ loads: three });
    assertEquals([a - LIT, b - LIT].map((n) => Math.round(n * 1e6) / 1e6), [5, 7]);
    const [onA, onB] = legs({ loads: three.map((each) => ({ ...each, leg: "A" })) });
    assertEquals([onA - LIT, onB - LIT].map((n) => Math.round(n * 1e6) / 1e6), [12, 0]);
  });
});

describe("cord, feeder and service equipment", () => {
  const withHeater = (amperes: number, more: object = {}) =>
    of({ loads: [load("water-heater", (amperes - LIT) * 240, "VA")], ...more });
  it("is a 40 A cord up to 40 A where nothing heats or cooks with electricity, a 50 A one up to 50 A", () => {
    const supply = (amperes: number) => figure(withHeater(amperes), "power-supply");
    assertEquals([39, 40, 41, 49.99, 50.01].map(supply), [
      "40 A cord",
      "40 A cord",
      "50 A cord",
      "50 A cord",
      "permanent feeder",
    ]);
    assertEquals(figure(of({ loads: [load("range", 5)] }), "power-supply"), "50 A cord");
  });
  it("judges a cord put up", () => {
    const verdict = (amperes: number, cord: number) => withHeater(amperes, { cord: q(cord, "A") }).verdict;
    assertEquals([verdict(39, 50), verdict(51, 50), verdict(45, 60), verdict(30, 30)], [
      "ok",
      "not ok",
      "not ok",
      "not ok",
    ]);
    assertEquals(of({ cord: q(40, "A"), loads: [load("range", 5)] }).verdict, "not ok");
    assertEquals(of({ cord: q(40, "A") }).verdict, "ok");
  });
  it("feeds it by 100 A or more, its neutral isolated; the service equipment is the bond", () => {
    for (const edition of EDITIONS) {
      const feeder = of({}, edition);
      assertEquals([figure(feeder, "service-rating"), figure(feeder, "neutral-bond")], [100, "isolated"]);
      assert(figure(feeder, "equipment-grounding-conductor"));
      const service = of({ panel: "at the service disconnect" }, edition);
      assertEquals([figure(service, "service-rating"), figure(service, "neutral-bond")], [100, "bonded"]);
    }
    const rating = (amperes: number) => figure(withHeater(amperes), "service-rating");
    assertEquals([99, 100.49, 100.5, 110, 111].map(rating), [100, 100, 110, 110, 125]);
    assertEquals([100, 110].map((n) => withHeater(105, { service: q(n, "A") }).verdict), ["not ok", "ok"]);
  });
  it("goes by the smaller of the two methods where none is named", () => {
    const loads = [load("range", 12), load("dryer", 5), load("water-heater", 4.5), load("furnace", 15)];
    const open = { loads, method: undefined };
    const both = ["standard", "optional"].map((method) =>
      figure(of({ loads, method }), "calculated-current") as number
    );
    assertEquals(figure(of(open), "calculated-current"), Math.min(...both));
    // The optional method is the house's own.
    const house = answered(
      { kind: "dwelling-load", areas: [{ area: q(700, "ft2") }], loads, method: "optional" } as Request,
    );
    assertEquals(figure(of(open), "optional-method-load"), figure(house, "optional-method-load"));
  });
});

it("more never carries less, but for the fourth counted appliance; the order does not matter", () => {
  const kinds = fc.constantFrom("range", "dryer", "furnace", "air-conditioner", "attic-fan", "microwave");
  const list = fc.array(
    fc.record({ kind: kinds, rating: fc.integer({ min: 5, max: 60 }).map((n) => q(n / 10, "kW")) }),
    {
      minLength: 1,
      maxLength: 6,
    },
  );
  const heavier = (loads: object[]) => Math.max(...legs({ loads }));
  const total = (loads: object[]) => legs({ loads }).reduce((sum, leg) => sum + leg, 0);
  fc.assert(
    fc.property(list, (loads) => {
      assertAlmostEquals(total(loads.toReversed()), total(loads), 1e-9);
      assert(total([...loads, load("other", 1, "kW", { name: "well light", volts: q(240, "V") })]) > total(loads));
      assert(heavier(loads) >= LIT);
    }),
    { numRuns: 60 },
  );
});
