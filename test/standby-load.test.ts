/** What a generator behind a transfer switch or interlock must carry, and its conductors. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, figure } from "./support/engine.ts";

const KIND = "standby-load";
const q = (value: number, unit: string) => ({ value, unit });
const load = (kind: string, value: number, unit = "kW", more: object = {}) => ({
  kind,
  rating: q(value, unit),
  ...more,
});
const of = (request: object, edition = "2023") => answered({ kind: KIND, ...request } as Request, { edition });
const HOUSE = {
  areas: [{ area: q(2400, "ft2") }],
  loads: [load("range", 12), load("dryer", 5), load("water-heater", 4.5), load("air-conditioner", 24, "A")],
};

describe("what it must carry", () => {
  it("is the dwelling's own load by the smaller of its methods", () => {
    for (const edition of EDITIONS) {
      const house = answered({ kind: "dwelling-load", ...HOUSE } as Request, { edition });
      assertEquals(figure(of(HOUSE, edition), "calculated-load"), figure(house, "calculated-load"));
    }
  });
  it("is what runs together, with a quarter of the largest motor", () => {
    // 1 hp at 230 V draws 8 A by the table: 1,920 VA.
    const answer = of({
      loads: [
        load("well-pump", 1, "hp"),
        load("microwave", 1200, "W"),
        load("other", 700, "W", { name: "refrigerator" }),
      ],
    });
    assertEquals(figure(answer, "calculated-load"), 1920 + 1200 + 700 + 480);
    // Heating and cooling do not run together.
    const both = of({ loads: [load("space-heater", 4), load("air-conditioner", 10, "A")] });
    assertEquals(figure(both, "calculated-load"), 4000);
  });
  it("is a load that was told, in amperes at the generator's own voltage", () => {
    assertEquals(figure(of({ load: q(90, "A") }), "calculated-load"), 21_600);
    const three = of({ load: q(100, "A"), volts: q(208, "V"), supply: "three-phase" });
    assertAlmostEquals(figure(three, "calculated-load") as number, 100 * 208 * Math.sqrt(3), 1e-6);
    assertAlmostEquals(figure(three, "calculated-current") as number, 100, 1e-9);
  });
  it("is no more than load management lets on", () => {
    assertEquals(figure(of({ load: q(90, "A"), setting: q(60, "A") }), "calculated-load"), 14_400);
    assertEquals(figure(of({ load: q(50, "A"), setting: q(60, "A") }), "calculated-load"), 12_000);
  });
});

describe("whether it is enough", () => {
  const verdict = (kilowatts: number, more: object = {}) =>
    of({ generator: q(kilowatts, "kW"), load: q(20, "kVA"), ...more }).verdict;
  it("taking over by itself it carries all of it: below, at and above (702.4)", () => {
    for (const edition of EDITIONS) {
      const is = (n: number) =>
        of({ generator: q(n, "kW"), load: q(20, "kVA"), transfer: "automatic" }, edition).verdict;
      assertEquals([19.9, 20, 20.1].map(is), ["not ok", "ok", "ok"]);
    }
    assertEquals(verdict(19), "not ok");
  });
  it("by hand it is enough as long as no more runs at one time", () => {
    assertEquals([19, 20].map((n) => verdict(n, { transfer: "manual" })), ["ok if", "ok"]);
  });
  it("names the fewest appliances that have to stay off, and proves it", () => {
    const small = { ...HOUSE, generator: q(22, "kW"), transfer: "automatic" };
    const answer = of(small);
    assertEquals(answer.verdict, "not ok");
    assert(answer.headline.includes("keeps the air conditioner off"), answer.headline);
    const without = { ...HOUSE, loads: HOUSE.loads.slice(0, 3) };
    const house = answered({ kind: "dwelling-load", ...without } as Request, { edition: "2023" });
    assertEquals(figure(answer, "load-kept-on"), figure(house, "calculated-load"));
    assertEquals(of({ ...small, managed: true }).verdict, "ok if");
    assertEquals(of({ ...small, loads: HOUSE.loads.slice(0, 3) }).verdict, "ok");
    // Nothing that could stay off is enough.
    assertEquals(of({ ...small, generator: q(5, "kW") }).figures["load-kept-on"], undefined);
  });
  it("is limited by the inlet it is plugged into", () => {
    const through = (amperes: number) =>
      figure(of({ generator: q(9, "kW"), inlet: q(amperes, "A") }), "generator-capacity");
    assertEquals([30, 37.5, 50].map(through), [7200, 9000, 9000]);
  });
  it("three-phase sets give their kilowatts at 0.8, unless another power factor was told", () => {
    const supply = { volts: q(208, "V"), supply: "three-phase", load: q(40, "kVA") };
    const figures = (more: object) => {
      const answer = of({ ...supply, ...more });
      return [
        figure(answer, "generator-capacity"),
        Math.round((figure(answer, "generator-current") as number) * 10) / 10,
      ];
    };
    assertEquals(figures({ generator: q(48, "kW") }), [48_000, 166.5]);
    assertEquals(figures({ generator: q(60, "kVA") }), [48_000, 166.5]);
    assertEquals(figures({ generator: q(48, "kW"), powerFactor: 1 }), [48_000, 133.2]);
  });
});

describe("its conductors", () => {
  // 445.13(A): 115 % of the nameplate's current, as in the adopted 2020 text.
  const wires = (more: object, edition?: string) => of({ find: "conductors", ...more }, edition);
  it("carry 115 % of its current", () => {
    for (const edition of EDITIONS) {
      const answer = wires({ generator: q(100, "A") }, edition);
      assertAlmostEquals(figure(answer, "conductor-ampacity") as number, 115, 1e-9);
      assertEquals(figure(answer, "conductor"), "2");
    }
    // 2 AWG copper carries 115 A at 75 °C: at it, and above.
    assertEquals([100, 100.1].map((n) => figure(wires({ generator: q(n, "A") }), "conductor")), ["2", "1"]);
    assertAlmostEquals(figure(wires({ generator: q(22, "kW") }), "generator-current") as number, 22_000 / 240, 1e-9);
  });
  it("are protected by the generator's breaker, with its ground", () => {
    const answer = wires({ generator: q(80, "A"), breaker: q(100, "A"), material: "aluminum", terminals: q(75, "°C") });
    assertEquals([figure(answer, "conductor"), figure(answer, "equipment-grounding-conductor")], ["1", "8"]);
  });
  it("is never ok by hand for what it does not carry even alone (702.4(A)(1))", () => {
    const byHand = (kilowatts: number, ...loads: object[]) =>
      of({ generator: q(kilowatts, "kW"), transfer: "manual", loads });
    // 1.5 hp at 230 V draws 10 A by the table: 2,400 VA, with its quarter 3,000.
    const pump = load("well-pump", 1.5, "hp");
    assertEquals([2.999, 3].map((n) => byHand(n, pump).verdict), ["not ok", "ok"]);
    assert(byHand(2.999, pump).headline.includes("the well pump is too much even alone"));
    const [range, heater] = [load("range", 12), load("water-heater", 4.5)];
    assertEquals([4.4, 4.5, 16.4, 16.5].map((n) => byHand(n, range, heater).verdict), [
      "not ok",
      "ok if",
      "ok if",
      "ok",
    ]);
    assert(byHand(11.9, range, heater).verdictBecause!.includes("the range never"));
    assert(!byHand(12, range, heater).verdictBecause!.includes("never"));
    // Lamps and receptacles of a house still run.
    assertEquals(of({ ...HOUSE, generator: q(2, "kW"), transfer: "manual" }).verdict, "ok if");
  });
});

it("more in it never needs less, a larger one is never worse", () => {
  const list = fc.array(
    fc.record({
      kind: fc.constantFrom("range", "dryer", "microwave", "well-pump", "air-conditioner"),
      rating: fc.integer({ min: 5, max: 50 }).map((n) => q(n / 10, "kW")),
    }),
    { minLength: 1, maxLength: 5 },
  );
  const carried = (loads: object[]) => figure(of({ loads }), "calculated-load") as number;
  const rank = ["not ok", "ok if", "ok"];
  const judged = (loads: object[], n: number) =>
    rank.indexOf(of({ loads, generator: q(n, "kW"), transfer: "automatic" }).verdict!);
  fc.assert(
    fc.property(list, fc.integer({ min: 2, max: 20 }), (loads, n) => {
      assert(carried([...loads, load("other", 1, "kW", { name: "well light" })]) > carried(loads));
      assertEquals(carried(loads.toReversed()), carried(loads));
      assert(judged(loads, n + 1) >= judged(loads, n));
    }),
    { numRuns: 50 },
  );
});

it("what is missing is asked about", () => {
  const outcome = (request: object) => ask({ kind: KIND, ...request } as Request).outcome;
  assertEquals(outcome({}), "unclear");
  assertEquals(outcome({ find: "conductors" }), "unclear");
  assertEquals(outcome({ load: q(30, "kVA"), supply: "three-phase" }), "unclear");
  assertEquals(outcome({ load: q(30, "kVA"), supply: "three-phase", volts: q(120, "V") }), "unclear");
  assertEquals(outcome({ ...HOUSE, supply: "three-phase", volts: q(208, "V") }), "unclear");
  assertEquals(outcome({ generator: q(7500, "W"), transfer: "manual" }), "answered");
});
