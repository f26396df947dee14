/** Loads of farm buildings and of whole farms. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, figure } from "./support/engine.ts";

const KIND = "farm-load";
const q = (value: number, unit: string) => ({ value, unit });
const building = (amperes: number, more: object = {}) => ({ load: q(amperes, "A"), ...more });
const of = (request: object, edition = "2023") => answered({ kind: KIND, ...request } as Request, { edition });
const amperes = (request: object, edition?: string) => figure(of(request, edition), "calculated-current") as number;
const one = (load: number, more: object = {}, edition?: string) =>
  amperes({ buildings: [building(load, more)] }, edition);

describe("a building", () => {
  // The three ways of the first band: Electrical-Knowhow course notes; the shares: Table 220.102(B) as transcribed.
  it("takes the first 60 A in full, the next at a half, the rest at a quarter: below, at and above", () => {
    for (const edition of EDITIONS) {
      assertEquals([59, 60, 61, 119, 120, 121, 200].map((n) => one(n, {}, edition)), [
        59,
        60,
        60.5,
        89.5,
        90,
        90.25,
        110,
      ]);
    }
  });
  it("takes what runs at one time in full, where that is more", () => {
    assertEquals([59, 60, 61, 80, 150].map((n) => one(150, { together: q(n, "A") })), [97.5, 97.5, 98.25, 112.5, 150]);
  });
  it("takes 125 % of the largest motor in full, where that is more, and all but the motor as the rest", () => {
    // 10 hp at 230 V draws 50 A by the table: 62.5 A, and of 70 A the other 20 at a half.
    assertEquals(one(70, { motor: q(10, "hp") }), 72.5);
    assertEquals([47, 48, 49].map((n) => one(100, { motor: q(n, "A") })), [80, 80, 61.25 + 51 * 0.5]);
    assertEquals(one(150, { together: q(100, "A"), motor: q(50, "A") }), 125);
  });
  it("takes powers at 240 V", () => {
    assertAlmostEquals(amperes({ buildings: [{ load: q(24, "kW") }] }), 80, 1e-9);
    assertAlmostEquals(amperes({ buildings: [{ load: q(12_000, "VA") }] }), 50, 1e-9);
  });
  it("says what it is if all of it runs at one time, where nothing was told of it", () => {
    const isSaid = (load: number, more: object = {}) =>
      of({ buildings: [building(load, more)] }).headline.includes("if all of it runs at one time");
    assertEquals([isSaid(60), isSaid(61), isSaid(150, { together: q(80, "A") })], [false, true, false]);
  });
});

describe("a farm", () => {
  const farm = (...loads: number[]) => ({ buildings: loads.map((n) => building(n)), asCalculated: true });
  it("takes its loads in order of size at 100, 75, 65 and 50 % (Table 220.103 as transcribed)", () => {
    for (const edition of EDITIONS) {
      assertEquals(amperes(farm(100), edition), 100);
      assertEquals(amperes(farm(60, 100), edition), 145);
      assertEquals(amperes(farm(40, 60, 100), edition), 171);
      assertEquals(amperes(farm(40, 20, 60, 100, 20), edition), 191);
    }
  });
  it("adds its dwelling in full", () => {
    const answer = of({ ...farm(100, 60), dwelling: q(24, "kVA") });
    assertEquals([figure(answer, "farm-current"), figure(answer, "calculated-current")], [145, 245]);
    assertEquals(figure(answer, "calculated-load"), 245 * 240);
  });
  it("takes the demand of each building first", () => {
    assertEquals(
      amperes({ buildings: [building(100), building(60), building(80)], dwelling: q(120, "A") }),
      80 + 52.5 + 39 + 120,
    );
  });
  it("judges a service put up: 171.5 A need 175 A", () => {
    const check = (n: number) =>
      of({ buildings: [building(100), building(60), building(80)], service: q(n, "A") }).verdict;
    assertEquals([150, 174, 175, 200].map(check), ["not ok", "not ok", "ok", "ok"]);
  });
});

describe("properties", () => {
  const list = fc.array(
    fc.record({ count: fc.integer({ min: 1, max: 4 }), load: fc.integer({ min: 5, max: 300 }).map((n) => q(n, "A")) }),
    { minLength: 1, maxLength: 5 },
  );
  const figures = (buildings: object[]) =>
    Object.fromEntries(Object.entries(of({ buildings }).figures).map(([id, { value }]) => [id, value]));
  it("neither the order nor how a count is split matters", () => {
    fc.assert(
      fc.property(list, (buildings) => {
        assertEquals(figures(buildings.toReversed()), figures(buildings));
        const split = buildings.flatMap(({ count, load }) => Array.from({ length: count }, () => ({ count: 1, load })));
        assertEquals(figures(split), figures(buildings));
      }),
      { numRuns: 40 },
    );
  });
  it("a building more, and more in a building, never lowers the total", () => {
    fc.assert(
      fc.property(list, fc.integer({ min: 5, max: 300 }), (buildings, n) => {
        const before = amperes({ buildings });
        assert(amperes({ buildings: [...buildings, building(n)] }) > before);
        const [first, ...others] = buildings;
        assert(amperes({ buildings: [{ ...first, load: q(first!.load.value + n, "A") }, ...others] }) > before);
      }),
      { numRuns: 40 },
    );
  });
});

it("what cannot be is asked about", () => {
  const outcome = (request: object) => ask({ kind: KIND, ...request } as Request).outcome;
  assertEquals(outcome({}), "unclear");
  assertEquals(outcome({ buildings: [{ name: "barn" }] }), "unclear");
  assertEquals(outcome({ buildings: [building(40, { together: q(60, "A") })] }), "unclear");
  assertEquals(outcome({ buildings: [building(40, { motor: q(10, "hp") })] }), "unclear");
});

describe("three phases", () => {
  const root = Math.sqrt(3);
  const on = (system: string, buildings: object[], more: object = {}, edition?: string) =>
    amperes({ system, buildings, ...more }, edition);

  // Table 220.102(B) counts amperes at 240 V: on a 240 V supply those of a line, elsewhere as many as make the same power.
  it("takes the bands by a line's amperes at 240 V: below, at and above", () => {
    for (const edition of EDITIONS) {
      for (const system of ["120/240 V three-phase", "240 V three-phase"]) {
        assertEquals([59, 60, 61, 119, 120, 121].map((n) => on(system, [building(n)], {}, edition)), [
          59,
          60,
          60.5,
          89.5,
          90,
          90.25,
        ]);
      }
      // 60 A at 240 V are 30 A at 480 V, and 69 3/13 A at 208 V.
      assertEquals([29, 30, 31, 60, 61].map((n) => on("480Y/277 V three-phase", [building(n)], {}, edition)), [
        29,
        30,
        30.5,
        45,
        45.25,
      ]);
      assertAlmostEquals(on("208Y/120 V three-phase", [building(900 / 13)], {}, edition), 900 / 13, 1e-9);
      assertAlmostEquals(on("208Y/120 V three-phase", [building(1350 / 13)], {}, edition), (60 + 15) * 240 / 208, 1e-9);
    }
  });
  it("spreads powers over the three lines", () => {
    assertAlmostEquals(on("120/240 V three-phase", [{ load: q(60 * 240 * root, "VA") }]), 60, 1e-6);
    const load = 90_000 / (240 * root);
    assertAlmostEquals(
      on("208Y/120 V three-phase", [{ load: q(90, "kVA") }]),
      (90 + (load - 120) / 4) * 240 / 208,
      1e-9,
    );
  });
  // Full-load currents: Table 430.250, 15 hp 42 A and 20 hp 54 A at 230 V, 20 hp 59.4 A at 208 V, 25 hp 34 A at 460 V.
  it("takes motors above 10 hp by the table of three-phase motors", () => {
    for (const edition of EDITIONS) {
      const motor = (n: number) => on("120/240 V three-phase", [building(100, { motor: q(n, "hp") })], {}, edition);
      // 125 % of 42 A is less than the first band; of 54 A 67.5 A, and all but the motor, 46 A, at a half.
      assertEquals([15, 20].map(motor), [80, 67.5 + 23]);
      assertAlmostEquals(
        on("208Y/120 V three-phase", [{ load: q(90, "kVA"), motor: q(20, "hp") }], {}, edition),
        (59.4 * 208 / 240 * 1.25 + 30 + (90_000 / (240 * root) - 59.4 * 208 / 240 - 60) / 4) * 240 / 208,
        1e-9,
      );
      assertEquals(on("480Y/277 V three-phase", [building(60, { motor: q(25, "hp") })], {}, edition), 42.5 + 13);
    }
  });
  it("lists that a motor that is made for one phase as well is taken as three-phase, with its amperes there", () => {
    const assumed = (n: number) =>
      of({ system: "120/240 V three-phase", buildings: [{ name: "barn", ...building(100, { motor: q(n, "hp") }) }] })
        .assumptions.find(({ name }) => name.startsWith("largest motor"))?.change;
    assertEquals([10, 15].map(assumed), ["barn largest motor 50 A", undefined]);
  });
  it("adds the dwelling between two lines in full", () => {
    const farm = { system: "208Y/120 V three-phase", buildings: [building(40)] };
    assertAlmostEquals(amperes({ ...farm, dwelling: q(20.8, "kVA") }), 140, 1e-9);
    assertAlmostEquals(
      figure(of({ ...farm, dwelling: q(20.8, "kVA") }), "calculated-load") as number,
      40 * 208 * root + 20_800,
      1e-6,
    );
  });
  it("has no neutral where the supply has none", () => {
    const has = (system: string) => "neutral-conductor" in of({ system, buildings: [building(100)] }).figures;
    assertEquals(["120/240 V three-phase", "240 V three-phase", "480 V three-phase"].map(has), [true, false, false]);
  });
  it("asks back for what would have to be guessed", () => {
    const field = (request: object) => {
      const outcome = ask({ kind: KIND, ...request } as Request);
      return outcome.outcome === "unclear" ? outcome.needs[0]!.field : outcome.outcome;
    };
    const motor = (hp: number) => ({ buildings: [building(200, { motor: q(hp, "hp") })] });
    assertEquals([10, 15].map((hp) => field(motor(hp))), ["answered", "system"]);
    const home = (system: string, unit: string) => field({ system, buildings: [building(60)], dwelling: q(24, unit) });
    assertEquals(home("240 V three-phase", "kVA"), "system");
    assertEquals(home("480Y/277 V three-phase", "A"), "dwelling");
    assertEquals(home("480Y/277 V three-phase", "kVA"), "answered");
    assertEquals(home("208Y/120 V three-phase", "A"), "answered");
  });
});
