/** Loads of recreational-vehicle parks, mobile home parks and marinas. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, figure } from "./support/engine.ts";

const KIND = "park-load";
const q = (value: number | string, unit: string) => ({ value, unit });
const outlet = (rating: number, more: object = {}) => ({ rating: q(rating, "A"), ...more });
const site = (count: number, ...ratings: number[]) => ({ count, receptacles: ratings.map((rating) => outlet(rating)) });
const RV = "recreational vehicle park";
const HOMES = "mobile home park";
const MARINA = "marina";
const THREE = "208Y/120 V three-phase";
const of = (request: object, edition = "2023") => answered({ kind: KIND, ...request } as Request, { edition });
const fig = (request: object, id: string, edition?: string) => figure(of(request, edition), id);
const va = (request: object, edition?: string) => fig(request, "calculated-load", edition) as number;
const amperes = (request: object, edition?: string) => fig(request, "calculated-current", edition) as number;
const rv = (...sites: object[]) => ({ park: RV, sites });
const marina = (...sites: object[]) => ({ park: MARINA, sites });
const homes = (count: number, more: object = {}) => ({ park: HOMES, sites: [{ count, ...more }] });

describe("published examples", () => {
  it("42 sites: 41 % of what they come to (EC&M code calculations, with the 9600 VA that a 50 A site had before 2017)", () => {
    const park = rv(site(3, 50), site(30, 30, 20), site(9, 20));
    // The publication: 3 × 9600 + 30 × 3600 + 9 × 2400 = 158,400 VA, and 65 kVA.
    assertEquals(fig(park, "connected-load"), 158_400 + 3 * 2400);
    assertEquals(fig(park, "demand-factor"), 41);
    for (const edition of EDITIONS) assertEquals(va(park, edition), (158_400 + 3 * 2400) * 0.41);
    assertEquals(Math.round(158.4 * 0.41), 65);
  });
  it("45 shore power receptacles take 50 % (EC&M quiz)", () => {
    for (const edition of EDITIONS) assertEquals(va(marina(site(45, 30)), edition), 45 * 3600 * 0.5);
  });
  it("35 receptacles take 60, 28 take 70 and 71 take 30 % (Mike Holt forum threads on marinas)", () => {
    assertEquals([35, 28, 71].map((n) => fig(marina(site(n, 50)), "demand-factor")), [60, 70, 30]);
  });
});

describe("thresholds", () => {
  const at = (park: (n: number) => object, ends: readonly number[]) =>
    ends.map((n) => [n, n + 1].map((count) => fig(park(count), "demand-factor")));
  it("of recreational vehicle sites: at each row's end and just above (Table 551.73(A))", () => {
    const ends = [1, 2, 3, 4, 5, 6, 9, 12, 15, 18, 21, 24, 35];
    const percents = [100, 90, 80, 75, 65, 60, 55, 50, 48, 47, 45, 43, 42, 41];
    assertEquals(at((n) => rv(site(n, 50)), ends), ends.map((_, i) => [percents[i], percents[i + 1]]) as never);
    assertEquals([7, 8, 36, 500].map((n) => fig(rv(site(n, 50)), "demand-factor")), [55, 55, 41, 41]);
  });
  it("of shore power receptacles (Table 220.120 as transcribed)", () => {
    const ends = [4, 8, 14, 30, 40, 50, 70];
    const percents = [100, 90, 80, 70, 60, 50, 40, 30];
    assertEquals(at((n) => marina(site(n, 50)), ends), ends.map((_, i) => [percents[i], percents[i + 1]]) as never);
    assertEquals([1, 2, 71, 900].map((n) => fig(marina(site(n, 50)), "demand-factor")), [100, 100, 30, 30]);
  });
  it("of mobile home lots (Table 550.31, from memory, as each answer says)", () => {
    const ends = [1, 2, 3, 4, 5, 6, 9, 12, 15, 21, 40, 60];
    const percents = [100, 55, 44, 39, 33, 29, 28, 27, 26, 25, 24, 23, 22];
    assertEquals(at(homes, ends), ends.map((_, i) => [percents[i], percents[i + 1]]) as never);
    assertEquals([61, 900].map((n) => fig(homes(n), "demand-factor")), [22, 22]);
    const step = of(homes(12)).steps.find(({ name }) => name === "demand factor for that many")!;
    assertEquals(step.cite?.verified, "from memory");
  });
  it("of a lot's load: 16,000 VA at the least", () => {
    const each = (value: number, unit = "VA") => va(homes(1, { load: q(value, unit) }));
    assertEquals([15_999, 16_000, 16_001].map((n) => each(n)), [16_000, 16_000, 16_001]);
    assertEquals(each(18.5, "kVA"), 18_500);
    assertEquals(each(100, "A"), 24_000);
  });
  it("of a feeder: 30 A to vehicles, 100 A to homes; of a service 60 A", () => {
    const feeder = { panel: "after the service disconnect" };
    assertEquals(fig({ ...rv({ count: 2, tent: true }), ...feeder }, "service-rating"), 30);
    assertEquals(fig(rv({ count: 2, tent: true }), "service-rating"), 60);
    assertEquals(fig({ ...homes(1), ...feeder }, "service-rating"), 100);
    assertEquals(fig({ ...homes(2, { load: q(20, "kVA") }), ...feeder }, "service-rating"), 100);
    assertEquals(fig({ ...marina(site(1, 30)), ...feeder }, "service-rating"), 30);
    assertEquals(fig(marina(site(1, 30)), "service-rating"), 60);
  });
});

describe("sites", () => {
  it("count at their largest receptacle alone", () => {
    assertEquals(va(rv(site(1, 20, 50, 30))), 12_000);
    assertEquals(va(rv(site(1, 20, 30))), 3600);
    assertEquals(va(rv(site(1, 20))), 2400);
    assertEquals(va(rv({ count: 1, tent: true })), 600);
  });
  it("no other receptacle is of a vehicle's site: not covered", () => {
    for (const rating of [15, 60, 100]) {
      assertEquals(ask({ kind: KIND, ...rv(site(4, rating)) } as Request).outcome, "not covered");
    }
  });
  it("tent sites count among the sites of the table", () => {
    assertEquals(va(rv(site(22, 30), { count: 10, tent: true })), (22 * 3600 + 10 * 600) * 0.42);
  });
  it("a slip with two voltages counts the larger power once, with two of one voltage both", () => {
    assertEquals(fig(marina(site(20, 30, 50)), "sites"), 20);
    assertEquals(va(marina(site(20, 30, 50))), 20 * 12_000 * 0.7);
    assertEquals(fig(marina({ count: 20, receptacles: [outlet(30, { count: 2 })] }), "sites"), 40);
    assertEquals(fig(marina({ count: 20, receptacles: [outlet(30), outlet(30)] }), "sites"), 40);
    // 50 A between a line and the neutral is less than 30 A between two lines.
    const odd = { count: 1, receptacles: [outlet(50, { volts: q(125, "V") }), outlet(30, { volts: q(250, "V") })] };
    assertEquals(va(marina(odd)), 30 * 240);
  });
  it("with a meter at each slip come to 90 % of it", () => {
    for (const edition of EDITIONS) {
      assertAlmostEquals(va({ ...marina(site(20, 50)), metered: true }, edition), 20 * 12_000 * 0.7 * 0.9, 1e-6);
      assertEquals(va({ ...marina(site(20, 50)), metered: false }, edition), 20 * 12_000 * 0.7);
    }
  });
  it("other loads are added in full", () => {
    const others = [{ name: "bathhouse", load: q(12, "kW") }, { load: q(20, "A") }];
    assertEquals(va({ ...rv(site(24, 50)), others }), 24 * 12_000 * 0.43 + 12_000 + 4800);
    assertEquals(amperes({ ...rv(site(24, 50)), others }), 516 + 50 + 20);
  });
});

describe("lines", () => {
  it("120 V sites are on both lines of one phase, the odd one on one of them", () => {
    assertEquals([1, 2, 3, 4].map((n) => amperes(rv(site(n, 30)))), [30, 30 * 0.9, 60 * 0.8, 60 * 0.75]);
  });
  it("and on three lines", () => {
    const on = (n: number) => amperes({ ...rv(site(n, 30)), system: THREE });
    assertEquals([3, 4, 6, 7].map(on), [24, 45, 36, 49.5]);
  });
  // Currents of two pairs meet in a line 60° apart; by phasors: |a + b e^(j60°)|.
  it("between two of three lines they add up as phasors", () => {
    for (let n = 1; n <= 12; n++) {
      const [a, b] = [Math.ceil(n / 3), Math.ceil((n - 1) / 3)];
      const phasors = Math.hypot(a + b / 2, b * Math.sqrt(3) / 2) * 100;
      const share = (fig(marina(site(n, 100)), "demand-factor") as number) / 100;
      assertAlmostEquals(amperes({ ...marina(site(n, 100)), system: THREE }), phasors * share, 1e-9, `${n}`);
    }
  });
  it("evenly spread three-phase lines carry the load over √3 V", () => {
    const park = { ...marina(site(30, 50)), system: THREE };
    assertAlmostEquals(amperes(park), va(park) / 208 / Math.sqrt(3), 1e-6);
    const whole = { ...marina({ count: 5, receptacles: [outlet(100, { phases: 3 })] }), system: THREE };
    assertAlmostEquals(amperes(whole), 5 * 100 * 0.9, 1e-9);
    assertAlmostEquals(va(whole), 450 * 208 * Math.sqrt(3), 1e-6);
  });
  it("three-phase receptacles want a three-phase supply; homes are fed single-phase", () => {
    const three = marina({ count: 5, receptacles: [outlet(100, { phases: 3 })] });
    assertEquals(ask({ kind: KIND, ...three } as Request).outcome, "unclear");
    assertEquals(ask({ kind: KIND, ...homes(5), system: THREE } as Request).outcome, "not covered");
  });
  it("the neutral to vehicles is as large as the lines (551.73(D))", () => {
    for (const n of [2, 5, 24, 60, 200]) {
      const answer = of(rv(site(n, 50)));
      assertEquals(figure(answer, "neutral-conductor"), figure(answer, "ungrounded-conductor"));
    }
  });
});

describe("a plan put up for checking", () => {
  const check = (rating: number) => of({ ...rv(site(24, 50)), service: q(rating, "A") }).verdict;
  it("is ok from the least rating on: 516 A need 600 A", () => {
    assertEquals([500, 599, 600, 800].map(check), ["not ok", "not ok", "ok", "ok"]);
    assert(of({ ...rv(site(24, 50)), service: q(400, "A") }).headline.includes("600 A"));
  });
});

it("beyond the largest device the load is told all the same", () => {
  const answer = of(rv(site(500, 50)));
  assertEquals(figure(answer, "calculated-load"), 500 * 12_000 * 0.41);
  assertEquals(answer.figures["service-rating"], undefined);
  assertEquals(of({ ...rv(site(500, 50)), service: q(6000, "A") }).verdict, "not ok");
});

describe("what a table's steps do", () => {
  const steps = (park: (n: number) => object) =>
    Array.from({ length: 80 }, (_, i) => i + 1).filter((n) => va(park(n + 1)) < va(park(n)));
  it("fewer would take more by rule at these rows, and nowhere else, which the answer says", () => {
    assertEquals(steps((n) => rv(site(n, 50))), []);
    assertEquals(steps((n) => marina(site(n, 50))), [14, 30, 40, 50, 70]);
    assertEquals(steps(homes), [40, 60]);
    const isSaid = (park: object) => of(park).cautions.some(({ text }) => text.includes("would take more"));
    assertEquals([14, 15, 16, 17].map((n) => isSaid(marina(site(n, 50)))), [false, true, false, false]);
    assertEquals([40, 41, 42].map((n) => isSaid(homes(n))), [false, true, false]);
    // Nine of 50 A come to 59,400 VA at 55 %; with a tent site in the row of ten, 54,300 VA at 50 %.
    assertEquals([0, 1].map((tents) => va(rv(site(9, 50), ...(tents ? [{ count: 1, tent: true }] : [])))), [
      59_400,
      54_300,
    ]);
    assert(isSaid(rv(site(9, 50), { count: 1, tent: true })) && !isSaid(rv(site(9, 50))));
  });
});

describe("properties", () => {
  const rating = fc.constantFrom(20, 30, 50);
  const entry = fc.record({ count: fc.integer({ min: 1, max: 30 }), rating })
    .map(({ count, rating }) => site(count, rating));
  const park = fc.constantFrom(RV, MARINA);
  const system = fc.constantFrom("120/240 V single-phase", "120/208 V single-phase", THREE);
  const list = fc.array(entry, { minLength: 1, maxLength: 5 });
  const figures = (request: object) =>
    Object.fromEntries(Object.entries(of(request).figures).map(([id, { value }]) => [id, value]));
  it("the order never matters", () => {
    fc.assert(
      fc.property(park, system, list, (park, system, sites) => {
        assertEquals(figures({ park, system, sites: sites.toReversed() }), figures({ park, system, sites }));
      }),
      { numRuns: 60 },
    );
  });
  it("splitting a count changes nothing", () => {
    fc.assert(
      fc.property(park, system, list, (park, system, sites) => {
        const split = sites.flatMap(({ count, receptacles }) =>
          count === 1 ? [{ count, receptacles }] : [{ count: 1, receptacles }, { count: count - 1, receptacles }]
        );
        assertEquals(figures({ park, system, sites: split }), figures({ park, system, sites }));
      }),
      { numRuns: 60 },
    );
  });
  it("one site more never lowers the total within a row, nor where the sites are alike but at the rows named", () => {
    fc.assert(
      fc.property(park, system, list, rating, (park, system, sites, more) => {
        const [before, after] = [of({ park, system, sites }), of({ park, system, sites: [...sites, site(1, more)] })];
        if (figure(before, "demand-factor") !== figure(after, "demand-factor")) return;
        assert(figure(after, "calculated-load") > figure(before, "calculated-load"));
        assert(figure(after, "calculated-current") >= figure(before, "calculated-current"));
        assert(figure(after, "service-rating") >= figure(before, "service-rating"));
      }),
      { numRuns: 60 },
    );
  });
  it("what else is on it never lowers anything", () => {
    fc.assert(
      fc.property(park, list, fc.integer({ min: 1, max: 100 }), (park, sites, kVA) => {
        const [before, after] = [of({ park, sites }), of({ park, sites, others: [{ load: q(kVA, "kVA") }] })];
        assertAlmostEquals(
          figure(after, "calculated-load") as number,
          (figure(before, "calculated-load") as number) + kVA * 1000,
          1e-6,
        );
        assert(figure(after, "service-rating") >= figure(before, "service-rating"));
      }),
      { numRuns: 40 },
    );
  });
});

describe("missing facts are asked for", () => {
  const field = (request: object) => {
    const outcome = ask({ kind: KIND, ...request } as Request);
    return outcome.outcome === "unclear" ? outcome.needs[0]?.field : outcome.outcome;
  };
  it("one by one", () => {
    assertEquals(field({}), "park");
    assertEquals(field({ park: RV }), "sites");
    assertEquals(field(rv({ count: 10 })), "sites");
    assertEquals(field({ park: HOMES, sites: [{}] }), "sites");
  });
});
