import { assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { answered, EDITIONS, figure } from "./support/engine.ts";

const demand = (count: number, kW: number, supply = "single-phase", edition = "2023") =>
  figure(
    answered({ kind: "dryer-demand", dryers: [{ count, rating: { value: kW, unit: "kW" } }], supply }, { edition }),
    "demand-load",
  ) as number;

describe("dryer demand", () => {
  // Percentages of rows 9 to 23: C. R. Miller, Code in Focus, 220.54 (December 2007), and an electrician's exam-math page; the 5,000 VA
  // minimum in both. Rows 1 to 8 and from 24 on rest on memory, and every answer that uses one says so.
  it("takes each row's percentage, under every edition", () => {
    const percents: [number, number][] = [
      [1, 100],
      [4, 100],
      [5, 85],
      [6, 75],
      [7, 65],
      [8, 60],
      [9, 55],
      [10, 50],
      [11, 47],
      [12, 46],
      [23, 35],
      [24, 34.5],
      [42, 25.5],
      [43, 25],
      [200, 25],
    ];
    for (const edition of EDITIONS) {
      for (const [count, percent] of percents) {
        assertAlmostEquals(demand(count, 6, "single-phase", edition), count * 60 * percent, 1e-6);
      }
    }
  });
  it("on three phases says how dryers of several ratings count, and nothing of it where there is one", () => {
    const dryers = (...rated: [number, number][]) =>
      rated.map(([count, value]) => ({ count, rating: { value, unit: "kW" } }));
    const noteOn = (...rated: [number, number][]) =>
      answered({ kind: "dryer-demand", dryers: dryers(...rated), supply: "three-phase" }).steps
        .find(({ name }) => name === "demand between two phases")!.note;
    assertEquals(noteOn([10, 5.5]), undefined);
    assertStringIncludes(noteOn([6, 5.5], [4, 7])!, "several ratings");
  });
  it("counts a dryer at 5,000 VA at the least", () => {
    assertEquals([4.9, 5, 5.1].map((kW) => demand(1, kW)), [5000, 5000, 5100]);
    assertEquals(demand(11, 4.5), 11 * 5000 * 0.47);
  });
  it("never takes less for one dryer more, but where the table itself steps down", () => {
    // 4 to 5 is 100 % to 85 %: the table's own step; from there on each dryer adds or the table holds level.
    for (let count = 1; count < 60; count++) {
      const [one, more] = [demand(count, 5), demand(count + 1, 5)];
      assertEquals(more >= one * 0.99, true, `${count} → ${count + 1}: ${one} → ${more}`);
    }
  });
  it("spreads over three phases: twice the most between two phases enters the table", () => {
    // Ten dryers: four between two phases, eight at 60 %; half of that a phase, times three.
    assertEquals(demand(10, 5.5, "three-phase"), 8 * 5500 * 0.6 / 2 * 3);
    // Three: one each; two at 100 %.
    assertEquals(demand(3, 5.5, "three-phase"), 2 * 5500 / 2 * 3);
  });
  // 220.61(B)(1): 70 % of the demand.
  it("puts 70 % of the demand on the neutral, where that is asked", () => {
    for (const edition of EDITIONS) {
      const dryers = [{ count: 5, rating: { value: 6, unit: "kW" } }];
      const asked = answered({ kind: "dryer-demand", dryers, neutral: true }, { edition });
      assertEquals(figure(asked, "neutral-load"), 5 * 6000 * 0.85 * 0.7);
      assertEquals(answered({ kind: "dryer-demand", dryers }, { edition }).figures["neutral-load"], undefined);
    }
    const onThree = answered({
      kind: "dryer-demand",
      dryers: [{ count: 3, rating: { value: 6, unit: "kW" } }],
      supply: "three-phase",
      neutral: true,
    });
    assertEquals(onThree.cautions.some(({ text }) => text.includes("no reduction")), true);
  });
  it("adds up mixed ratings", () => {
    const dryers = [{ count: 4, rating: { value: 5.5, unit: "kW" } }, { count: 2, rating: { value: 4, unit: "kW" } }];
    assertEquals(
      figure(answered({ kind: "dryer-demand", dryers, supply: "single-phase" }), "demand-load"),
      (4 * 5500 + 2 * 5000) * 0.75,
    );
    assertEquals(
      figure(answered({ kind: "dryer-demand", dryers, supply: "single-phase" }), "connected-load"),
      4 * 5500 + 2 * 4000,
    );
  });
});

it("one dryer on three phases is not doubled (220.54)", () => {
  for (const edition of EDITIONS) {
    assertEquals(demand(1, 5, "three-phase", edition), demand(1, 5, "single-phase", edition));
    assertEquals(demand(1, 4, "three-phase", edition), 5000);
  }
});

describe("dryers spread unevenly over three phases", () => {
  const of = (spread: number[], more: object = {}) => {
    const count = spread.reduce((sum, n) => sum + n, 0);
    return answered({ kind: "dryer-demand", dryers: [{ count, rating: { value: 5.5, unit: "kW" }, spread }], ...more });
  };
  it("enters the table with twice the most between two phases", () => {
    // Eight between C and A: sixteen at 42 %, half of that a phase, times three.
    assertAlmostEquals(figure(of([6, 6, 8]), "demand-load") as number, 16 * 5500 * 0.42 / 2 * 3, 1e-6);
    assertEquals(figure(of([6, 6, 8]), "demand-load"), figure(of([8, 6, 6]), "demand-load"));
  });
  it("shows the other reading of the row, and takes it when asked", () => {
    const told = of([4, 4, 4]);
    const other = of([4, 4, 4], { row: "all dryers" });
    assertEquals(figure(told, "other-reading-load"), figure(other, "demand-load"));
    assertEquals(figure(other, "other-reading-load"), figure(told, "demand-load"));
    assertAlmostEquals(figure(other, "demand-load") as number, 12 * 5500 * 0.46, 1e-6);
  });
  it("is read as people write it", () => {
    const wanted = figure(of([6, 6, 8]), "demand-load");
    for (
      const asked of [
        "demand of 20 dryers 5.5 kW, 6 on A-B, 6 on B-C, 8 on C-A",
        "20 dryers 5.5 kW on three phases: 8 on A-C, 6 on A-B, 6 between B and C, what demand",
      ]
    ) assertEquals(figure(answered(asked), "demand-load"), wanted, asked);
  });
});
