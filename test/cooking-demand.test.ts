import { assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { answered, ask, EDITIONS, figure } from "./support/engine.ts";

type Piece = { kind: "range" | "wall-oven" | "cooktop"; count?: number; rating: { value: number; unit: "kW" | "W" } };
const piece = (kind: Piece["kind"], kW: number, count = 1): Piece => ({
  kind,
  count,
  rating: { value: kW, unit: "kW" },
});
const demand = (appliances: Piece[], more: object = {}, edition = "2023") =>
  figure(answered({ kind: "cooking-demand", appliances, supply: "single-phase", ...more }, { edition }), "demand-load");

describe("published cooking examples", () => {
  // Worked-example collections named beside each; the figures do not depend on the edition.
  for (const edition of EDITIONS) {
    it(`come out under ${edition}`, () => {
      // NEC Annex D, example D1(a): one 12 kW range.
      assertEquals(demand([piece("range", 12)], {}, edition), 8000);
      // North Dakota training notes: 14 kW and 18 kW ranges average 16 kW.
      assertEquals(demand([piece("range", 14), piece("range", 18)], {}, edition), 13200);
      // elightinformation training notes: two of 10 kW; thirty-five of 8.85 kW.
      assertEquals(demand([piece("range", 10, 2)], {}, edition), 11000);
      assertEquals(demand([piece("range", 8.85, 35)], {}, edition), 50000);
      // Code-forum example with handbook commentary: 7.2 kW cooktop and two 2.4 kW ovens, each column with its own count.
      assertEquals(demand([piece("cooktop", 7.2), piece("wall-oven", 2.4, 2)], { method: "note 3" }, edition), 9360);
      assertEquals(
        demand([piece("cooktop", 7.2), piece("wall-oven", 2.4, 2)], { use: "branch circuit" }, edition),
        8000,
      );
      // Annex D, example D5(b): an 8 kW range on its branch circuit at 80 %.
      assertEquals(demand([piece("range", 8)], { use: "branch circuit" }, edition), 6400);
    });
  }
});

describe("the table's ends and notes", () => {
  it("columns A and B meet at 3.5 kW and end at 8.75 kW", () => {
    assertEquals(demand([piece("wall-oven", 3.499, 3)]), 3.499 * 3 * 700);
    assertEquals(demand([piece("wall-oven", 3.5, 3)]), 3.5 * 3 * 550);
    assertAlmostEquals(demand([piece("range", 8.75)]) as number, 7000, 1e-9);
    assertEquals(demand([piece("range", 8.76)]), 8000);
  });
  it("up to 1.75 kW stays at nameplate; above 27 kW is not covered", () => {
    assertEquals(demand([piece("cooktop", 1.75)]), 1750);
    assertAlmostEquals(demand([piece("cooktop", 1.76)]) as number, 1.76 * 800, 1e-9);
    assertEquals(demand([piece("range", 27)]), 8000 * 1.75);
    assertEquals(ask({ kind: "cooking-demand", appliances: [piece("range", 27.1)] }).outcome, "not covered");
  });
  it("half a kilowatt is a major fraction", () => {
    assertEquals([12.49, 12.5, 13.49, 13.5].map((kW) => demand([piece("range", kW)])), [8000, 8400, 8400, 8800]);
  });
  // Table 220.55, columns A and B: 1.75 to 8.75 kW. Where a row's percentage steps down one piece more takes less.
  it("one piece more never takes less, but at the rows where the percentage steps down", () => {
    const ROWS = [16, 21, 26, 31, 41, 51, 61];
    for (const edition of EDITIONS) {
      for (const kW of [2, 3.4, 3.5, 5, 8.75, 12, 20]) {
        const of = (count: number) => demand([piece("range", kW, count)], {}, edition) as number;
        const less = Array.from({ length: 70 }, (_, i) => i + 2).filter((count) =>
          of(count) < of(count - 1) * (1 - 1e-12)
        );
        assertEquals(less.filter((count) => !ROWS.includes(count)), [], `${kW} kW, ${edition}`);
      }
    }
  });
  it("a larger piece never takes less, but where column B begins", () => {
    for (const count of [1, 2, 5, 10]) {
      for (let hundredth = 176; hundredth < 2700; hundredth += 1) {
        const [one, larger] = [hundredth, hundredth + 1].map((n) => demand([piece("range", n / 100, count)]) as number);
        if (larger! < one! * (1 - 1e-12)) assertEquals(hundredth, 349, `${count} of ${hundredth / 100} kW`);
      }
    }
  });
  it("every count up to the last rows and beyond", () => {
    const of = (count: number) => demand([piece("range", 12, count)]);
    assertEquals([25, 26, 30, 31, 40, 41, 60, 61, 100].map(of), [
      40000,
      41000,
      45000,
      46000,
      55000,
      55750,
      70000,
      70750,
      100000,
    ]);
    assertAlmostEquals(demand([piece("wall-oven", 3, 61)]) as number, 61 * 3000 * 0.3, 1e-6);
    assertAlmostEquals(demand([piece("wall-oven", 6, 61)]) as number, 61 * 6000 * 0.16, 1e-6);
  });
  it("a small and a large one: column C for both, or each by its own way, whichever is lower", () => {
    // 6 kW with 9 kW: column C for two is 11 kW; apart it is 4.8 + 8.
    assertEquals(demand([piece("cooktop", 6), piece("range", 9)]), 11000);
    // 2 kW with 12 kW: apart 1.6 + 8 = 9.6 kW is lower than 11.
    assertEquals(demand([piece("wall-oven", 2), piece("range", 12)]), 9600);
  });
  it("three phases: twice the most between two phases, half of that a phase, times three", () => {
    // NEC Annex D, example D5(a), figures from memory: ten ranges on a 4-wire wye, four between two phases, eight enter the table;
    // twenty: seven and fourteen.
    assertEquals(demand([piece("range", 12, 10)], { supply: "three-phase" }), 34500);
    assertEquals(demand([piece("range", 12, 20)], { supply: "three-phase" }), 43500);
  });
  it("three phases with several ratings say that they are averaged (220.55)", () => {
    const noted = (appliances: object[]) =>
      answered({ kind: "cooking-demand", supply: "three-phase", appliances })
        .steps.some(({ note }) => note?.includes("average") === true);
    assertEquals(noted([piece("wall-oven", 4, 3), piece("cooktop", 6, 3)]), true);
    assertEquals(noted([piece("wall-oven", 6, 3), piece("cooktop", 6, 3)]), false);
    const dryers = [{ count: 3, rating: { value: 5, unit: "kW" } }, { count: 3, rating: { value: 7, unit: "kW" } }];
    const answer = answered({ kind: "dryer-demand", supply: "three-phase", dryers });
    assertEquals(answer.steps.some(({ note }) => note?.includes("average") === true), true);
  });
  it("equal and unequal ratings above 12 kW", () => {
    // NEC Annex D, example D6, figures from memory: 24 of 16 kW; 5 of 11, 2 of 12, 20 of 13.5 and 3 of 18 kW average 13.6 kW.
    assertEquals(demand([piece("range", 16, 24)]), 46800);
    const mixed = [piece("range", 11, 5), piece("range", 12, 2), piece("range", 13.5, 20), piece("range", 18, 3)];
    assertEquals(demand(mixed), 49500);
  });
  it("a lone oven or cooktop on its circuit is taken at nameplate, an odd company is not covered", () => {
    assertEquals(demand([piece("wall-oven", 4.5)], { use: "branch circuit" }), 4500);
    const odd = ask({
      kind: "cooking-demand",
      use: "branch circuit",
      appliances: [piece("cooktop", 7), piece("wall-oven", 3, 3)],
    });
    assertEquals(odd.outcome, "not covered");
  });
});

describe("one piece alone, and a column asked for", () => {
  it("is not doubled on three phases (220.55)", () => {
    for (const edition of EDITIONS) {
      for (const kW of [1.5, 3, 8, 12, 16]) {
        assertEquals(
          demand([piece("range", kW)], { supply: "three-phase" }, edition),
          demand([piece("range", kW)], {}, edition),
        );
      }
    }
    // Two lie between two pairs of phases: the table is entered with two, and half of 11 kW is a phase's.
    assertEquals(demand([piece("range", 12, 2)], { supply: "three-phase" }), 16500);
  });
  it("never counts for more than is connected", () => {
    for (const method of ["column C", "note 3"]) {
      for (const kW of [2, 3, 5, 8, 12]) {
        for (const count of [1, 2, 3]) {
          const told = Number(demand([piece("cooktop", kW, count)], { method }));
          if (told > kW * count * 1000) throw new Error(`${count} × ${kW} kW by ${method}: ${told}`);
        }
      }
    }
  });
  // Two between two pairs of phases draw √3 times one's current in their common line, which is what three of them draw (220.55).
  it("nor on three phases than what loads all of them as the heaviest is", () => {
    const three = (kW: number, count: number, method: string) =>
      demand([piece("range", kW, count)], { supply: "three-phase", method });
    // Column C for two is 11 kW, two of 4 kW are 8: half of that a phase.
    assertEquals([4, 5.4, 5.5, 5.6].map((kW) => three(kW, 2, "column C")), [12000, 16200, 16500, 16500]);
    assertEquals(three(4, 3, "column C"), 12000);
    assertEquals(three(4, 4, "column C"), 24000);
    assertEquals(three(3, 2, "note 3"), 6750);
  });
  // 220.61(B)(1); the informative annex works a 12 kW range so: 8,000 VA, of which 5,600 VA on the neutral (example D1(a)).
  it("puts 70 % of a feeder's demand on the neutral, where that is asked; a branch circuit's is asked about", () => {
    const one = { kind: "cooking-demand", appliances: [piece("range", 12)], neutral: true };
    const outcome = ask(one);
    assertEquals(outcome.outcome === "answered" && outcome.answer.figures["neutral-load"]?.value, 5600);
    assertEquals(ask({ ...one, use: "branch circuit" }).outcome, "unclear");
  });
});
