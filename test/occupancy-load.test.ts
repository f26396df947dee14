/** Loads of occupancies that are no dwelling. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals, assertNotEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";

const KIND = "occupancy-load";
const q = (value: number | string, unit: string) => ({ value, unit });
const area = (value: number, occupancy: string, unit = "ft2") => ({ area: q(value, unit), occupancy });
const load = (kind: string, value: number, unit = "kW", more: object = {}) => ({
  kind,
  rating: q(value, unit),
  ...more,
});
const of = (request: object, edition = "2023") => answered({ kind: KIND, ...request } as Request, { edition });
const fig = (request: object, id: string, edition?: string) => figure(of(request, edition), id);
const va = (request: object, edition?: string) => fig(request, "calculated-load", edition) as number;
const kitchen = (...kW: number[]) => ({ loads: kW.map((n) => load("kitchen-equipment", n)) });

describe("published examples", () => {
  // Annex D, example D3 (store building) of the 2017 edition, from memory: 28,400 VA, 32,450 VA with continuous loads at 125 %, 135 A,
  // a 150 A device and 1/0 AWG copper.
  const store = {
    areas: [area(3000, "store")],
    lighting: [{ rating: q(8500, "VA") }],
    receptacles: 80,
    showWindow: q(30, "ft"),
    loads: [{ kind: "sign" }],
    system: "120/240 V single-phase",
  };
  it("Annex D, example D3: a store of 3000 ft² under 2017", () => {
    const answer = of(store, "2017");
    assertEquals(figure(answer, "lighting-load"), 9000);
    assertEquals(figure(answer, "receptacle-load"), 12200);
    assertEquals(figure(answer, "calculated-load"), 28400);
    assertEquals(figure(answer, "design-load"), 32450);
    assertAlmostEquals(figure(answer, "design-current") as number, 135.2, 0.05);
    assertEquals(figure(answer, "service-rating"), 150);
    assertEquals(figure(answer, "ungrounded-conductor"), "1/0");
  });
  it("the same store from 2020: the connected lighting is more than the table's 5700 VA, and is raised", () => {
    for (const edition of ["2020", "2023", "2026"]) {
      const answer = of(store, edition);
      assertEquals(figure(answer, "lighting-load"), 8500);
      assertEquals(figure(answer, "calculated-load"), 8500 + 6000 + 1200 + 12200);
      assertEquals(figure(answer, "design-load"), (8500 + 6000 + 1200) * 1.25 + 12200);
    }
  });
  it("180 receptacles come to 21,200 VA (electricianpracticetests.com, commercial load calculations 2)", () => {
    for (const edition of EDITIONS) assertEquals(va({ receptacles: 180 }, edition), 21200);
  });
  it("receptacles and a multioutlet assembly are added before their demand (Mike Holt forum thread 75064)", () => {
    assertEquals(va({ receptacleLoad: q(15300, "VA"), multioutletLoad: q(4860, "VA") }), 15080);
  });
  it("an allowance of 1 VA/ft² over 80 ft × 120 ft is 9600 VA (Modern Commercial Wiring, problem 12-8)", () => {
    const told = { areas: [area(9600, "store")], part: "receptacles", receptaclesPerArea: q(1, "VA/ft2") };
    assertEquals(va(told), 9600);
  });
  it("twenty pieces of 107,775 VA come to 70,053.75 VA and 291.9 A (Mike Holt forum thread 2577700)", () => {
    const told = {
      loads: [{ kind: "kitchen-equipment", count: 20, rating: q("107775/20", "VA") }],
      system: "120/240 V single-phase",
    };
    assertAlmostEquals(va(told, "2020"), 70053.75, 1e-6);
    assertAlmostEquals(fig(told, "calculated-current", "2020") as number, 291.8906, 1e-3);
  });
  it("manufacturing has 2.2 VA/ft² from 2020 (training article on lighting circuits outside dwellings)", () => {
    assertEquals(["2020", "2023", "2026"].map((e) => va({ areas: [area(1000, "industrial")] }, e)), [2200, 2200, 2200]);
  });
  it("a school of 1.5 MVA over 100,000 ft² comes to 1.2 MVA (handbook example in Mike Holt forum thread 148131)", () => {
    const told = {
      areas: [area(100_000, "school")],
      lighting: [{ rating: q(500, "kVA") }],
      loads: [load("space-heater", 1000)],
    };
    assertAlmostEquals(fig(told, "optional-method-load", "2017") as number, 1_200_000, 1e-6);
  });
});

describe("lighting", () => {
  it("includes the continuous factor in the table's load from 2020, and not before", () => {
    const told = { areas: [area(4000, "store")] };
    assertEquals(EDITIONS.map((e) => [va(told, e), fig(told, "design-load", e)]), [
      [12000, 15000],
      [7600, 7600],
      [7600, 7600],
      [7600, 7600],
    ]);
  });
  it("takes the connected lighting where 125 % of it is more than the table's, below, at and above", () => {
    const design = (connected: number) =>
      fig(
        { areas: [area(10_000, "office")], part: "lighting", lighting: [{ rating: q(connected, "VA") }] },
        "design-load",
      );
    assertEquals([10_399, 10_400, 10_401].map(design), [13_000, 13_000, 13_001.25]);
  });
  it("has the tiers of warehouses, below, at and above 12.5 kVA", () => {
    const at = (ft2: number) => va({ areas: [area(ft2, "warehouse")] }, "2017");
    assertEquals([49_996, 50_000, 50_004].map(at), [12_499, 12_500, 12_500.5]);
  });
  // The lighting table likens lodge rooms to hotels for their unit load; the table of demands names hotels and motels alone.
  it("has none for lodge rooms", () => {
    assertEquals(EDITIONS.map((edition) => va({ areas: [area(10_000, "lodge")] }, edition)), [
      15_000,
      17_000,
      17_000,
      17_000,
    ]);
  });
  it("has those of hotels and of the hospitals of 2017", () => {
    assertEquals(va({ areas: [area(10_000, "hotel")] }, "2017"), 10_000);
    assertEquals(va({ areas: [area(60_000, "hotel")] }, "2017"), 20_000 * .5 + 80_000 * .4 + 20_000 * .3);
    assertEquals(va({ areas: [area(100_000, "hotel")] }, "2020"), 20_000 * .6 + 80_000 * .5 + 70_000 * .35);
    assertEquals(va({ areas: [area(40_000, "hospital")] }, "2017"), 50_000 * .4 + 30_000 * .2);
    assertEquals(va({ areas: [area(40_000, "hospital")] }, "2020"), 64_000);
  });
  it("adds the areas of one use before its tiers, and each use has its own", () => {
    const two = { areas: [area(30_000, "warehouse"), area(30_000, "warehouse")] };
    assertEquals(va(two, "2017"), va({ areas: [area(60_000, "warehouse")] }, "2017"));
    assertEquals(va({ areas: [area(1000, "store"), area(1000, "restaurant")] }, "2017"), 3000 + 2000);
  });
  it("takes square metres at the load printed for them", () =>
    assertEquals(va({ areas: [area(100, "store", "m2")] }), 2000));
  it("asks for the connected lighting of a use that the edition's table does not list", () => {
    const library = { kind: KIND, areas: [area(3000, "library")] } as Request;
    const outcome = ask(library, { edition: "2017" });
    assert(outcome.outcome === "unclear");
    assertEquals(outcome.needs[0]?.field, "lighting");
    assertEquals(va({ areas: [area(3000, "library")], lighting: [{ count: 50, rating: q(40, "W") }] }, "2017"), 2000);
    assertEquals(va({ areas: [area(3000, "library")] }, "2020"), 4500);
  });
  it("counts track by 2 ft or a part, show windows by the foot, signs at 1200 VA at the least", () => {
    const store = { areas: [area(1000, "store")] };
    const more = (told: object) => va({ ...store, ...told }) - va(store);
    assertEquals([1.9, 2, 2.1, 20].map((ft) => more({ trackLighting: q(ft, "ft") })), [150, 150, 300, 1500]);
    assertEquals(more({ showWindow: q(12.5, "ft") }), 2500);
    assertEquals([1199, 1200, 1500].map((n) => more({ loads: [load("sign", n, "VA")] })), [1200, 1200, 1500]);
    assertEquals(fig({ ...store, loads: [{ kind: "sign" }] }, "design-load"), 1900 + 1500);
  });
});

describe("receptacles", () => {
  it("have 50 % of what is above 10 kVA, below, at and above", () => {
    assertEquals([9999, 10_000, 10_001].map((n) => va({ receptacleLoad: q(n, "VA") })), [9999, 10_000, 10_000.5]);
    assertEquals([55, 56].map((receptacles) => va({ receptacles })), [9900, 10_040]);
  });
  it("of an office are never below 1 VA/ft², which no demand reduces", () => {
    const office = (receptacles?: number) =>
      fig({ areas: [area(20_000, "office")], ...(receptacles && { receptacles }) }, "receptacle-load");
    assertEquals([undefined, 50, 166, 167, 200].map(office), [20_000, 20_000, 20_000, 20_030, 23_000]);
    assertEquals(of({ areas: [area(5000, "store")] }).figures["receptacle-load"], undefined);
    assertEquals(fig({ areas: [area(100, "bank", "m2")] }, "receptacle-load"), 1100);
  });
  it("of a multioutlet assembly count by 5 ft or a part, by the foot where they are used together", () => {
    const strip = (ft: number, multioutletTogether?: boolean) =>
      va({ multioutlet: q(ft, "ft"), ...(multioutletTogether !== undefined && { multioutletTogether }) });
    assertEquals([4.9, 5, 5.1].map((ft) => strip(ft)), [180, 180, 360]);
    assertEquals(strip(12, true), 12 * 180);
    assert(of({ multioutlet: q(20, "ft") }).assumptions.some(({ change }) => change === "outlets used together"));
  });
});

describe("kitchen equipment", () => {
  it("takes the percentage of its number, in every edition", () => {
    const percents = [100, 100, 90, 80, 70, 65, 65];
    for (const edition of EDITIONS) {
      percents.forEach((percent, i) => {
        assertAlmostEquals(va(kitchen(...Array(i + 1).fill(10)), edition), (i + 1) * 100 * percent, 1e-6);
      });
    }
  });
  it("is never below the two largest pieces", () => {
    assertEquals(va(kitchen(9, 9, 2, 2, 1, 1)), 18_000);
    assertEquals(
      va({ loads: [load("wall-oven", 9, "kW", { count: 2 }), load("toaster", 1, "kW", { count: 4 })] }),
      18_000,
    );
  });
  it("takes in the water heater of a kitchen, and leaves hoods, fans, heating and cooling out", () => {
    const six = kitchen(10, 10, 10, 10, 10);
    assertEquals(fig({ loads: [...six.loads, load("water-heater", 10)] }, "kitchen-load"), 39_000);
    const withHood = {
      loads: [...six.loads, load("range-hood", 2), load("space-heater", 8), load("air-conditioner", 6)],
    };
    assertEquals(fig(withHood, "kitchen-load"), 35_000);
    assertEquals(va(withHood), 35_000 + 2000 + 8000 + 1500);
    assertEquals(va({ areas: [area(1000, "store")], loads: [load("water-heater", 4.5)] }), 1900 + 4500);
  });
  it("is worked out for gas equipment by what its own motor takes, where that is told", () => {
    assertEquals(va({ loads: [{ kind: "fryer", fuel: "gas" }, load("toaster", 2)] }), 2000);
  });
});

describe("motors, heating and cooling", () => {
  const shop = { areas: [area(1000, "store")], receptacles: 0 };
  it("adds a quarter of the largest motor", () => {
    assertEquals(va({ ...shop, loads: [load("motor", 4), load("fan", 2)] }), 1900 + 6000 + 1000);
  });
  it("takes motors by the table's current at the supply's voltage", () => {
    const told = { ...shop, loads: [load("motor", 10, "hp")], system: "208Y/120 V three-phase" };
    assertAlmostEquals(va(told), 1900 + 30.8 * 208 * Math.sqrt(3) * 1.25, 1e-3);
  });
  it("counts the larger of heating and cooling; a motor left out with its season counts from 2020", () => {
    const both = (heat: number) => ({ ...shop, loads: [load("space-heater", heat), load("air-conditioner", 8)] });
    assertEquals(EDITIONS.map((e) => va(both(7), e) - va(shop, e)), [10_000, 10_000, 10_000, 10_000]);
    assertEquals(EDITIONS.map((e) => va(both(12), e) - va(shop, e)), [12_000, 14_000, 14_000, 14_000]);
  });
  it("keeps refrigeration all year", () => {
    const told = { ...shop, loads: [load("space-heater", 12), load("refrigeration", 4)] };
    assertEquals(va(told) - va(shop), 12_000 + 4000 + 1000);
  });
  it("raises chargers and what was told to be continuous", () => {
    const charger = { ...shop, loads: [load("ev-charger", 10)] };
    assertEquals(fig(charger, "design-load"), 1900 + 12_500);
    assertEquals(va(charger), 11_900);
    const told = { ...shop, loads: [load("kiln", 10, "kW", { continuous: true })] };
    assertEquals(fig(told, "design-load"), 1900 + 12_500);
  });
});

describe("optional methods", () => {
  const restaurant = (kVA: number, allElectric: boolean, edition = "2023") =>
    fig(
      { areas: [area(1, "restaurant")], loads: [load("other", kVA - 0.0015, "kVA")], allElectric },
      "optional-method-load",
      edition,
    ) as number;
  it("of a restaurant: each band, below, at and above its end", () => {
    for (const edition of ["2020", "2023", "2026"]) {
      const close = (kVA: number, all: number, notAll: number) => {
        assertAlmostEquals(restaurant(kVA, true, edition), all, 1e-3, `${kVA}`);
        assertAlmostEquals(restaurant(kVA, false, edition), notAll, 1e-3, `${kVA}`);
      };
      close(199, 159_200, 199_000);
      close(200, 160_000, 200_000);
      close(201, 160_100, 200_500);
      close(325, 172_500, 262_500);
      close(326, 173_000, 262_950);
      close(800, 410_000, 476_250);
      close(900, 460_000, 496_300);
    }
  });
  it("of a restaurant: heating and cooling both count, and the heavier fuel is assumed", () => {
    const told = { areas: [area(2000, "restaurant")], loads: [load("space-heater", 20), load("air-conditioner", 15)] };
    assertEquals(fig(told, "optional-method-load"), 3000 + 35_000);
    assert(of(told).assumptions.some(({ change }) => change === "all electric"));
  });
  it("of a school: bands at 3 and 20 VA/ft², only with electric heating or cooling", () => {
    const school = (kVA: number) =>
      fig({ areas: [area(1000, "school")], loads: [load("space-heater", kVA - 1.5, "kVA")] }, "optional-method-load");
    assertEquals([2.9, 3, 3.1, 20, 24].map(school), [2900, 3000, 3075, 15_750, 16_750]);
    assertEquals(of({ areas: [area(1000, "school")], receptacles: 10 }).figures["optional-method-load"], undefined);
  });
  // Conductors and devices of services and feeders have 125 % of continuous loads whichever part of the article the
  // load comes from (215.2(A)(1), 215.3, 230.42(A)).
  it("sizes for 125 % of what it leaves of continuous loads", () => {
    const signs = { areas: [area(12_000, "restaurant")], receptacles: 20, loads: [load("sign", 10)] };
    const system = "208Y/120 V three-phase";
    const of2017 = of({ ...signs, system, method: "optional" }, "2017").figures;
    // 24,000 VA of lighting and 10,000 VA of signs beside 3600 VA of receptacles, all of it counted.
    assertEquals(of2017["optional-method-load"]!.value, 37_600);
    assertEquals(of2017["design-load"]!.value, 37_600 + 8500);
    assertEquals(of2017["service-rating"]!.value, 150);
    // Fully electric, 300 kVA: 160 kVA and a tenth above 200 kVA.
    const electric = {
      ...signs,
      loads: [load("sign", 10), load("other", 262.4)],
      allElectric: true,
      method: "optional",
    };
    assertAlmostEquals(fig(electric, "design-load", "2017") as number, 170_000 + 8500 * 170 / 300, 1e-3);
    // From 2020 the lighting table has it already: the signs alone.
    assertEquals(fig({ ...signs, method: "optional" }, "design-load"), 18_000 + 10_000 + 3600 + 2500);
  });
  it("decides where it is the smaller one, or is named", () => {
    const told = {
      areas: [area(2000, "restaurant")],
      ...kitchen(60, 50, 40, 30),
      allElectric: true,
      system: "208Y/120 V three-phase",
    };
    assertEquals(va(told), fig(told, "optional-method-load"));
    assertEquals(va({ ...told, method: "standard" }), fig(told, "standard-method-load"));
  });
});

describe("the supply", () => {
  const floor = { areas: [area(20_000, "office")], receptacles: 300 };
  const load = 26_000 + 10_000 + 22_000;
  it("gives the current of each system", () => {
    const amperes = (system: string) => fig({ ...floor, system }, "calculated-current") as number;
    assertAlmostEquals(amperes("120/240 V single-phase"), load / 240, 1e-6);
    assertAlmostEquals(amperes("208Y/120 V three-phase"), load / (208 * Math.sqrt(3)), 1e-6);
    assertAlmostEquals(amperes("480Y/277 V three-phase"), load / (480 * Math.sqrt(3)), 1e-6);
    assertAlmostEquals(amperes("120/240 V three-phase"), load / 240, 1e-6);
    assertAlmostEquals(amperes("240 V three-phase"), load / (240 * Math.sqrt(3)), 1e-6);
    assertAlmostEquals(amperes("120/208 V single-phase"), load / 240, 1e-6);
  });
  it("puts single-phase loads of a high-leg delta on the two lines beside the neutral", () => {
    const told = { ...floor, loads: [{ kind: "motor", rating: q(20, "A") }], system: "120/240 V three-phase" };
    const motor = 20 * 1.25;
    assertAlmostEquals(fig(told, "calculated-current") as number, load / 240 + motor, 1e-6);
  });
  it("reduces a neutral above 200 A, but not on a wye unless its loads are linear", () => {
    const big = { areas: [area(60_000, "store")], receptacles: 0 };
    const neutral = (system: string, more: object = {}) =>
      fig({ ...big, ...more, system }, "neutral-current") as number;
    assertAlmostEquals(neutral("120/240 V single-phase"), 200 + (114_000 / 240 - 200) * .7, 1e-6);
    const wye = 114_000 / (208 * Math.sqrt(3));
    assertAlmostEquals(neutral("208Y/120 V three-phase"), wye, 1e-6);
    assertAlmostEquals(neutral("208Y/120 V three-phase", { linear: true }), 200 + (wye - 200) * .7, 1e-6);
  });
  it("takes show windows in metres at the load printed for metres, 660 VA/m (220.43(A), 220.46(A))", () => {
    for (const edition of EDITIONS) assertEquals(va({ showWindow: q(10, "m") }, edition), 6600);
  });
  it("puts no receptacle on the neutral of a 480Y/277 V supply", () => {
    assertEquals(fig({ ...floor, system: "480Y/277 V three-phase" }, "neutral-load"), 26_000);
  });
  it("has 60 A at the least as a service, and what it takes as a feeder", () => {
    const small = { areas: [area(1000, "store")], receptacles: 10, system: "120/240 V single-phase" };
    assertEquals(fig(small, "service-rating"), 60);
    const feeder = of({ ...small, panel: "after the service disconnect" });
    assertEquals(figure(feeder, "service-rating"), 15);
    assertEquals(figure(feeder, "neutral-bond"), "isolated");
    assertEquals(feeder.figures["main-bonding-jumper"], undefined);
  });
  it("runs a neutral to a service whose loads need none", () => {
    const told = { loads: [{ kind: "motor", rating: q(100, "A"), phases: 3 }], system: "208Y/120 V three-phase" };
    assertEquals(fig(told, "service-rating"), 125);
    assertEquals(fig(told, "neutral-conductor"), "6");
  });
  it("judges a service that was put up, below, at and above what is needed", () => {
    const told = { ...floor, system: "208Y/120 V three-phase" };
    const verdicts = [150, 175, 200].map((n) => of({ ...told, service: q(n, "A") }).verdict);
    assertEquals(fig(told, "service-rating"), 175);
    assertEquals(verdicts, ["not ok", "ok", "ok"]);
  });
  it("is asked for where a service is wanted, or where amperes need it", () => {
    for (
      const request of [{ ...floor, upTo: "service" }, { ...floor, service: q(200, "A") }, {
        ...floor,
        loads: [{ kind: "air-conditioner", rating: q(20, "A") }],
      }]
    ) {
      const outcome = ask({ kind: KIND, ...request } as Request);
      assert(outcome.outcome === "unclear", JSON.stringify(outcome).slice(0, 200));
      assertEquals(outcome.needs.map(({ field }) => field), ["system"]);
    }
  });
  it("asks for nameplates, and for anything at all where nothing was told", () => {
    const needs = (request: object) => {
      const outcome = ask({ kind: KIND, ...request } as Request);
      return outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : outcome.outcome;
    };
    assertEquals(needs({ loads: [{ kind: "fryer" }, { kind: "air-conditioner" }] }), [
      "loads.fryer.rating",
      "loads.air-conditioner.rating",
    ]);
    assertEquals(needs({}), ["areas"]);
  });
});

/**
 * Phasors by hand: a balanced or line-to-neutral current is in phase with its line, that of a load between two lines stands 30°
 * to either side of it, so two pairs meet 60° apart (Fitzgerald, Kingsley and Umans, Electric Machinery, appendix on
 * three-phase circuits: √3 between line and phase currents of a delta is the case of two alike).
 */
describe("single-phase equipment on three lines", () => {
  const wye = "208Y/120 V three-phase";
  const office = { areas: [area(5000, "office")], system: wye };
  const even = (6500 + 5000) / (208 * Math.sqrt(3));
  const charger = (n: number, more: object = {}) => load("ev-charger", 48, "A", { phases: 1, count: n, ...more });
  const currents = (request: object, edition?: string) =>
    ["calculated-current", "design-current"].map((id) => fig(request, id, edition) as number);
  const near = (request: object, [plain, sized]: [number, number], edition?: string) => {
    const [calculated, design] = currents(request, edition);
    assertAlmostEquals(calculated!, plain, 1e-6);
    assertAlmostEquals(design!, sized, 1e-6);
  };
  it("is in the line that is most loaded: one charger on two lines, two meeting in one, three alike balanced", () => {
    near({ ...office, loads: [charger(1)] }, [even + 48, even + 60]);
    near({ ...office, loads: [charger(2)] }, [even + 48 * Math.sqrt(3), even + 60 * Math.sqrt(3)]);
    near({ ...office, loads: [charger(3)] }, [even + 48 * Math.sqrt(3), even + 60 * Math.sqrt(3)]);
    near({ ...office, loads: [charger(4)] }, [even + 48 * Math.sqrt(7), even + 60 * Math.sqrt(7)]);
    assertEquals(fig({ ...office, loads: [charger(1)] }, "service-rating"), 100);
  });
  it("is listed with the lines it was taken to be on, and keeps today's steps where it balances", () => {
    const listed = (n: number) =>
      of({ ...office, loads: [charger(n)] }).assumptions.filter(({ name }) =>
        name === "single-phase equipment on the lines"
      )
        .map(({ value }) => value);
    assertEquals(listed(1), ["EV charger between A and B"]);
    assertEquals(listed(4), ["2 × EV charger between A and B, EV charger between B and C, EV charger between C and A"]);
    assertEquals(listed(3), []);
    const pairs = (n: number) =>
      of({ ...office, loads: [charger(n)] }).steps.filter(({ name }) => name.includes("between A and B")).length;
    assertEquals([pairs(3), pairs(6)], [0, 0]);
    assert(pairs(4) > 0);
  });
  it("is laid largest first, each where least is", () => {
    // 12 kW between A and B, 8 kW between B and C, 5 and 2 kW between C and A: B carries the first two.
    const loads = [5, 12, 2, 8].map((kW) => load("kiln", kW, "kW", { phases: 1, continuous: false }));
    const [x, y] = [12_000 / 208, 8_000 / 208];
    const line = even + Math.sqrt(x * x + x * y + y * y);
    near({ ...office, loads }, [line, line]);
  });
  it("takes the addition of the largest motor with its motor, and a kitchen's demand with its pieces", () => {
    const unit = { ...office, loads: [load("air-conditioner", 12, "kVA", { phases: 1 })] };
    near(unit, [even + 12_000 * 1.25 / 208, even + 12_000 * 1.25 / 208]);
    // Three pieces at 90 %, two of them single-phase: 0.9 × 6 kW on one pair, 0.9 × 4 kW on the next.
    const kitchen = [[6, 1], [4, 1], [9, 3]].map(([kW, phases]) => load("griddle", kW!, "kW", { phases }));
    const [x, y, z] = [.9 * 6000 / 208, .9 * 4000 / 208, .9 * 9000 / (208 * Math.sqrt(3))];
    const line = even + z + Math.sqrt(x * x + x * y + y * y);
    near({ ...office, loads: kitchen }, [line, line]);
  });
  it("on one line and the neutral counts beyond an even share of all that stands to neutral", () => {
    const kiln = (kVA: number) => ({ ...office, loads: [load("kiln", kVA, "kVA", { volts: q(120, "V"), phases: 1 })] });
    // Lighting and receptacles of 11.5 kVA leave each line 3833 VA: they make up for 5.75 kVA on one line, half of them.
    const spread = (kVA: number) => (11_500 + kVA * 1000) / (208 * Math.sqrt(3));
    near(kiln(5.75), [spread(5.75), spread(5.75)]);
    const beyond = (6000 - 17_500 / 3) / 120;
    near(kiln(6), [spread(6) + beyond, spread(6) + beyond]);
    assertAlmostEquals(fig(kiln(6), "neutral-current") as number, spread(6) + beyond, 1e-6);
    const house = { ...kiln(12), system: "120/240 V single-phase" };
    near(house, [100, 100]);
    assertAlmostEquals(fig(house, "neutral-current") as number, 100, 1e-6);
  });
  it("counts in the season that loads a line more, though it is the smaller load (220.60)", () => {
    const loads = [load("air-conditioner", 20, "kVA", { phases: 3 }), load("furnace", 15, "kW", { phases: 1 })];
    const heating = 15_000 / 208;
    const lighting = 5000 * 3.5;
    const of2017 = (share: number) => (lighting * share + 5000) / (208 * Math.sqrt(3)) + heating;
    near({ ...office, loads }, [of2017(1), of2017(1.25)], "2017");
    // From 2020 the quarter of the compressor that is left out stays.
    const motor = 5000 / (208 * Math.sqrt(3));
    near({ ...office, loads }, [even + heating + motor, even + heating + motor], "2020");
    assertEquals(va({ ...office, loads }, "2020"), 11_500 + 25_000);
  });
  it("keeps its share of an optional method's load", () => {
    const school = { areas: [area(1000, "school")], system: wye, loads: [load("furnace", 20, "kW", { phases: 1 })] };
    const answer = of(school, "2020");
    const [standard, optional] = [3000 + 20_000, 3000 + 17_000 * .75 + 3000 * .25];
    assertEquals(figure(answer, "calculated-load"), optional);
    const byStandard = 3000 / (208 * Math.sqrt(3)) + 20_000 / 208;
    assertAlmostEquals(figure(answer, "calculated-current") as number, byStandard * optional / standard, 1e-6);
  });
  it("does not depend on the order or on how a count was split, is no less than balanced, and grows with the load", () => {
    const kVA = fc.integer({ min: 1, max: 12 });
    fc.assert(
      fc.property(
        fc.array(kVA, { minLength: 1, maxLength: 6 }),
        kVA,
        fc.integer({ min: 1, max: 5 }),
        (sizes, one, n) => {
          const kiln = (size: number, count = 1) => load("kiln", size, "kVA", { phases: 1, count });
          const line = (loads: object[]) => currents({ ...office, loads })[0]!;
          const all = [...sizes.map((size) => kiln(size)), kiln(one, n)];
          const current = line(all);
          assertAlmostEquals(line(all.toReversed()), current, 1e-6);
          assertAlmostEquals(line([...all.slice(0, -1), ...Array.from({ length: n }, () => kiln(one))]), current, 1e-6);
          assert(current >= line(all.map((each) => ({ ...each, phases: 3 }))) - 1e-9);
          assert(line([...all, kiln(one)]) >= current - 1e-9);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("electric vehicle charging", () => {
  const lot = { areas: [area(1000, "store")], system: "120/240 V single-phase" };
  it("counts each charger at no less than 7200 VA from 2023 (220.57), at its nameplate before", () => {
    const added = (kVA: number, edition: string) =>
      va({ ...lot, loads: [load("ev-charger", kVA, "kVA", { count: 2 })] }, edition) - va(lot, edition);
    assertEquals(EDITIONS.map((e) => added(6, e)), [12_000, 12_000, 14_400, 14_400]);
    assertEquals(EDITIONS.map((e) => added(7.2, e)), [14_400, 14_400, 14_400, 14_400]);
    assertEquals(EDITIONS.map((e) => added(7.3, e)), [14_600, 14_600, 14_600, 14_600]);
  });
});

describe("properties", () => {
  const kW = fc.integer({ min: 1, max: 400 }).map((tenth) => q(tenth / 10, "kW"));
  const entry = (...kinds: string[]) => fc.record({ kind: fc.constantFrom(...kinds), rating: kW });
  // Kitchen equipment and omitted motors of 2017 are the rules' own exceptions: another piece may lower the percentage.
  const plain = entry("motor", "fan", "ev-charger", "kiln", "refrigeration", "air-conditioner");
  const system = fc.constantFrom("120/240 V single-phase", "208Y/120 V three-phase", "480Y/277 V three-phase");
  const shop = { areas: [area(2500, "store")], receptacles: 30 };
  it("more load never asks for a smaller service", () => {
    fc.assert(
      fc.property(
        fc.array(plain, { maxLength: 5 }),
        plain,
        system,
        fc.constantFrom(...EDITIONS),
        (loads, one, on, edition) => {
          const current = (these: object[]) =>
            fig({ ...shop, system: on, loads: these }, "design-current", edition) as number;
          assert(current([...loads, one]) >= current(loads) - 1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });
  it("what the supply is for is never below the load, nor the kitchen below its two largest or above what is connected", () => {
    fc.assert(
      fc.property(fc.array(entry("fryer", "griddle", "toaster"), { minLength: 1, maxLength: 9 }), (loads) => {
        const answer = of({ ...shop, loads });
        const sizes = loads.map(({ rating }) => Number(rating.value) * 1000).sort((a, b) => b - a);
        const demand = figure(answer, "kitchen-load") as number;
        assert(demand >= (sizes[0]! + (sizes[1] ?? 0)) * (1 - 1e-12));
        assert(demand <= sizes.reduce((sum, n) => sum + n, 0) * (1 + 1e-12));
        assert((figure(answer, "design-load") as number) >= (figure(answer, "calculated-load") as number));
      }),
      { numRuns: 60 },
    );
  });
});

describe("every use under every edition", () => {
  it("is answered, or asks for what the table lacks", () => {
    const uses = [
      "store",
      "salon",
      "office",
      "bank",
      "restaurant",
      "club",
      "school",
      "church",
      "warehouse",
      "hospital",
      "clinic",
      "hotel",
      "lodge",
      "courthouse",
      "parking garage",
      "automotive",
      "industrial",
      "auditorium",
      "gymnasium",
      "museum",
      "corridor",
      "storage",
    ];
    for (const edition of EDITIONS) {
      for (const use of uses) {
        const outcome = sound(ask({ kind: KIND, areas: [area(1000, use)] } as Request, { edition }));
        assertNotEquals(outcome, "not covered", `${edition} ${use}`);
      }
    }
  });
  it("a school's lighting is what its own edition prints (3 VA/ft² in 2020, 1.5 in the 2023 transcription)", () => {
    assertEquals(EDITIONS.map((e) => va({ areas: [area(1000, "school")] }, e)), [3000, 3000, 1500, 1500]);
  });
});

describe("signs of several tenants", () => {
  // 600.5: an outlet for each place that the public enters on foot; 220.14(F): 1,200 VA or more for each.
  const signs = (text: string) => {
    const answer = answered(text);
    return (answer.request as { loads?: { kind: string; count?: number }[] }).loads?.map((
      { kind, count },
    ) => [kind, count]);
  };
  it("are as many as the places that have one each, however the floor is told", () => {
    for (
      const text of [
        "strip mall, 5 tenants of 2000 sq ft each, a sign outlet for each, 208Y/120 three phase, what service",
        "5 stores of 2000 sq ft each with one sign each, 208Y/120 three phase",
        "retail building 10000 sq ft, 5 tenants, a sign outlet for each tenant, 208Y/120 three phase, what service",
        "retail building 10000 sq ft, 5 tenants, 5 signs, 208Y/120 three phase, what service",
      ]
    ) {
      assertEquals(signs(text), [["sign", 5]], text);
      // By hand: 10,000 ft² × 1.9 VA + 5 × 1,200 VA; 19,000 + 6,000 × 125 % = 26,500 VA, over 208 V × √3 73.6 A.
      const answer = answered(text);
      assertEquals([figure(answer, "calculated-load"), figure(answer, "design-load")], [25_000, 26_500]);
      assertAlmostEquals(figure(answer, "design-current") as number, 26_500 / (208 * Math.sqrt(3)), 1e-9);
    }
  });
  it("and so do receptacles: 40 in each of five stores are 200 of 180 VA, 10 kVA and half of the rest", () => {
    const each = "5 stores of 2000 sq ft each, 40 receptacles each, one sign for each store, 208Y/120 three phase";
    assertEquals(figure(answered(each), "calculated-load"), 25_000 + 10_000 + 26_000 / 2);
  });
  it("stay as they were told where they are not of each", () => {
    assertEquals(signs("retail building 10000 sq ft, 5 tenants, one sign, 208Y/120 three phase"), [["sign", 1]]);
    assertEquals(signs("5 stores of 2000 sq ft each, 208Y/120 three phase, one sign"), [["sign", 1]]);
  });
  it("are listed as missing where the public enters and none was told, in every edition", () => {
    for (const edition of EDITIONS) {
      const isListed = (text: string) =>
        answered(text, { edition }).assumptions.some(({ name }) => name === "sign outlets");
      assertEquals(
        [
          "3000 sq ft store, 208Y/120 three phase, what service",
          "3000 sq ft store, one sign, 208Y/120 three phase, what service",
          "3000 sq ft warehouse, 208Y/120 three phase, what service",
        ].map(isListed),
        [true, false, false],
      );
    }
  });
});
