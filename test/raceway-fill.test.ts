/** Raceway fill against published examples, against printed counts, and against its own rules. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Draft } from "../src/reading/facts.ts";
import { makeReader } from "./support/reader.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";

const fill = (request: Draft, edition = "2023") => answered({ kind: "raceway-fill", ...request }, { edition });
const most = (request: Draft, edition = "2023") =>
  figure(fill({ ...request, find: "how many" }, edition), "most-conductors");
const size = (request: Draft, edition = "2023") => figure(fill(request, edition), "raceway-size");

// Table 348.22 as remembered, from memory: insulated conductors in 3/8 in, fittings inside and outside; one ground is free.
describe("flexible conduit of 3/8 in", () => {
  const TABLE: Record<string, number[]> = {
    "18": [3, 5, 5, 8],
    "16": [3, 4, 4, 6],
    "14": [2, 3, 3, 4],
    "12": [1, 2, 2, 3],
  };
  const of = (wire: string, insulation: string, count: number, raceway = "FMC", ground = 0) =>
    fill({
      raceway,
      size: "3/8",
      insulation,
      conductors: [{ size: wire, count }, ...(ground ? [{ size: wire, count: ground, ground: true }] : [])],
    });
  it("is never chosen: 348.20(A) and 350.20(A) begin at 1/2 in", () => {
    for (const edition of EDITIONS) {
      for (const raceway of ["FMC", "LFMC"]) {
        assertEquals(size({ raceway, conductors: [{ size: "14", count: 1 }] }, edition), "1/2 in");
        assertEquals(size({ raceway, conductors: [{ size: "14", count: 3 }] }, edition), "1/2 in");
      }
    }
    assertEquals(
      fill({ raceway: "FMC", conductors: [{ size: "12", count: 3 }] }).figures["raceway-size-by-count"],
      undefined,
    );
  });
  it("holds what its own table counts: at each count, one more with the fittings outside, and beyond", () => {
    for (const [wire, [x, xOut, t, tOut]] of Object.entries(TABLE)) {
      for (const [insulation, inside, outside] of [["XHHW", x!, xOut!], ["THHN", t!, tOut!]] as const) {
        assertEquals(
          [inside, inside + 1, outside, outside + 1].map((count) => of(wire, insulation, count).verdict),
          ["ok", "ok if", "ok if", "not ok"],
          `${wire} ${insulation}`,
        );
        assertEquals([outside, outside + 1].map((count) => of(wire, insulation, count, "LFMC").verdict), [
          "ok",
          "not ok",
        ]);
        assertEquals(most({ raceway: "FMC", size: "3/8", insulation, conductors: [{ size: wire }] }), inside);
      }
    }
    for (const insulation of ["XHHW", "THHN"]) {
      for (const raceway of ["FMC", "LFMC"]) {
        assertEquals([1, 2].map((count) => of("10", insulation, count, raceway).verdict), ["ok", "not ok"]);
      }
    }
    assertEquals(of("8", "THHN", 1).verdict, "not ok");
  });
  it("lets one equipment ground lie beside them", () => {
    assertEquals([0, 1, 2].map((grounds) => of("14", "THHN", 3, "FMC", grounds).verdict), ["ok", "ok", "ok if"]);
  });
  it("takes mixed sizes as the largest, and says what it is for", () => {
    const conductors = [{ size: "14", count: 2 }, { size: "12", count: 1 }];
    const answer = fill({ raceway: "FMC", size: "3/8", conductors });
    assertEquals(answer.verdict, "ok if");
    assert(answer.cautions.some(({ cite }) => cite?.section === "348.20(A), 350.20(A)"));
    const rest = { raceway: "FMC", size: "3/8", find: "how many" };
    assertEquals(
      figure(fill({ ...rest, conductors: [{ size: "12", count: 1 }, { size: "14" }] }), "most-conductors"),
      1,
    );
  });
  it("has no cables and no insulation of the RHW family", () => {
    const asked = (more: Draft) => ask({ kind: "raceway-fill", raceway: "FMC", size: "3/8", ...more }).outcome;
    assertEquals(asked({ conductors: [{ size: "14", count: 2 }], insulation: "RHW" }), "not covered");
    assertEquals(asked({ cables: [{ count: 1, diameter: { value: 0.2, unit: "in" } }] }), "not covered");
  });
});

describe("published examples", () => {
  // Mike Holt forum thread 186679: three 600 kcmil THWN in 3 in schedule 80 PVC, 2.6028 in² where 40 % is 2.577 in².
  it("three 600 kcmil fit by the note on counts, though over 40 %", () => {
    for (const edition of EDITIONS) {
      const answer = fill({
        raceway: "PVC schedule 80",
        size: "3",
        conductors: [{ size: "600 kcmil", count: 3 }],
        insulation: "THWN",
      }, edition);
      assertAlmostEquals(figure(answer, "fill-area") as number, 2.6028, 1e-9);
      assertAlmostEquals(figure(answer, "allowed-area") as number, 2.577, 1e-9);
      assertAlmostEquals(figure(answer, "fill") as number, 40.4, 0.05);
      assertEquals(answer.verdict, "ok");
    }
  });
  // Modern Commercial Wiring (2018), worked example: one 12, one 10 and three 8 AWG THHN are 0.1442 in².
  it("one 12, one 10 and three 8 AWG THHN are 0.1442 in², in 3/4 in EMT", () => {
    const answer = fill({
      raceway: "EMT",
      conductors: [{ size: "12", count: 1 }, { size: "10", count: 1 }, { size: "8", count: 3 }],
      insulation: "THHN",
    });
    assertAlmostEquals(figure(answer, "fill-area") as number, 0.1442, 1e-9);
    assertEquals(figure(answer, "raceway-size"), "3/4 in");
  });
  /** Annex C, Table C.1, THHN in EMT of 1/2 to 2 in, as remembered: from memory. */
  const ANNEX: Record<string, number[]> = {
    "14": [12, 22, 35, 61, 84, 138],
    "12": [9, 16, 26, 45, 61, 101],
    "10": [5, 10, 16, 28, 38, 63],
    "8": [3, 6, 9, 16, 22, 36],
    "6": [2, 4, 7, 12, 16, 26],
    "4": [1, 2, 4, 7, 10, 16],
    "2": [1, 1, 3, 5, 7, 11],
    "1/0": [1, 1, 1, 3, 4, 7],
  };
  it("as many of one size as the annex lists", () => {
    for (const [wire, counts] of Object.entries(ANNEX)) {
      ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"].forEach((trade, i) => {
        const found = most({ raceway: "EMT", size: trade, conductors: [{ size: wire }], insulation: "THHN" });
        assertEquals(found, counts[i], `${wire} AWG in ${trade}`);
      });
    }
  });
});

describe("how much may be filled (Chapter 9, Table 1)", () => {
  const of = (count: number) => fill({ raceway: "EMT", conductors: [{ size: "6", count }], insulation: "THHN" });
  it("53 % by one, 31 % by two, 40 % by more, 60 % of a nipple", () => {
    assertEquals([1, 2, 3, 9].map((n) => figure(of(n), "allowed-fill")), [53, 31, 40, 40]);
    const nipple = fill({ raceway: "EMT", nipple: true, conductors: [{ size: "10", count: 9 }], insulation: "THHN" });
    assertEquals([figure(nipple, "allowed-fill"), figure(nipple, "raceway-size")], [60, "3/4 in"]);
  });
  it("by areas two 6 AWG take 3/4 in, and the note on counts would let 1/2 in pass", () => {
    assertEquals(figure(of(2), "raceway-size"), "3/4 in");
    assertEquals(figure(of(2), "raceway-size-by-count"), "1/2 in");
    assertEquals(of(3).figures["raceway-size-by-count"], undefined);
  });
  it("counts equipment grounds at their size, and a cable as a circle of its larger diameter", () => {
    const ground = { size: "10", count: 1, ground: true };
    const with_ = fill({ raceway: "EMT", conductors: [{ size: "6", count: 3 }, ground], insulation: "THHN" });
    assertAlmostEquals(figure(with_, "fill-area") as number, 3 * 0.0507 + 0.0211, 1e-9);
    const cable = fill({ raceway: "EMT", cables: [{ diameter: { value: 0.42, unit: "in" } }] });
    assertAlmostEquals(figure(cable, "fill-area") as number, Math.PI / 4 * 0.42 ** 2, 1e-9);
    assertEquals(figure(cable, "allowed-fill"), 53);
  });
  it("takes compact conductors by their own table (from memory), smaller than the others", () => {
    for (const insulation of ["THHN", "XHHW", "THW"]) {
      const conductors = [{ size: "500 kcmil", count: 4 }];
      const area = (compact?: true) =>
        figure(
          fill({ raceway: "RMC", conductors, insulation, material: "aluminum", ...(compact && { compact }) }),
          "fill-area",
        );
      assert(area(true) < area(), insulation);
    }
  });
});

// Ampacities of Table 310.16 (310.15(B)(16) in 2017): 12 AWG 20, 25, 30 A, 10 AWG 30, 35, 40 A at 60, 75, 90 °C; the adjustment
// of 310.15(C)(1): 80 % for 4 to 6, 70 % for 7 to 9, 50 % for 10 to 20, 45 % for 21 to 30.
describe("what they then carry", () => {
  const laid = (count: number, more: Draft = {}, edition?: string) =>
    fill({
      raceway: "EMT",
      conductors: [{ size: "12", count }, { size: "12", count: 1, ground: true }],
      insulation: "THHN",
      ...more,
    }, edition);
  const carry = (count: number, more: Draft = {}) => laid(count, more).figures.ampacity?.value;
  it("says of a nipple that nothing is adjusted from the fourth on: before it there is nothing to adjust", () => {
    const isSaid = (count: number) =>
      fill({ raceway: "EMT", size: "1", nipple: true, conductors: [{ size: "10", count }], insulation: "THHN" })
        .cautions.some(({ text }) => text.startsWith("A nipple"));
    assertEquals([3, 4].map(isSaid), [false, true]);
  });
  it("is adjusted from the fourth on, by the count without grounds, and not in a nipple", () => {
    assertEquals([1, 2, 3, 4, 6, 7, 9, 10, 20, 21].map((n) => carry(n)), [30, 30, 30, 24, 24, 21, 21, 15, 15, 13.5]);
    assertEquals(carry(9, { nipple: true }), 30);
    assertEquals(carry(9, { carrying: 6 }), 24);
  });
  it("is told of up to three as well, with what their terminations allow, in every edition", () => {
    for (const edition of EDITIONS) {
      const three = laid(3, {}, edition);
      assertEquals([figure(three, "ampacity"), figure(three, "termination-ampacity")], [30, 20]);
      assert(three.headline.includes("12 AWG then carries 30 A (20 A at its terminations)"), three.headline);
      assertEquals(three.figures["adjustment-factor"], undefined);
    }
    // Terminations that are told are the lower of both, and nine carry less than theirs allow.
    assertEquals(carry(3, { terminals: { value: 75, unit: "°C" } }), 25);
    assert(!laid(10).headline.includes("at its terminations"));
    assertEquals(laid(3).assumptions.map(({ name }) => name), [
      "conductor material",
      "terminations",
      "ambient temperature",
    ]);
  });
  it("stands beside the fit where both are asked, of what does fit alone", () => {
    const both = answered("three #10 thhn copper in a half inch emt, do they fit and how many amps are they good for?");
    assertEquals([both.kind, both.verdict, figure(both, "ampacity")], ["raceway-fill", "ok", 40]);
    const over = answered("six #10 thhn in a half inch emt, do they fit?");
    assertEquals([over.verdict, over.figures.ampacity], ["not ok", undefined]);
  });
  it("a bare conductor is told no ampacity", () => {
    assertEquals(answered("one 4/0 bare in 1 inch pvc, does it fit?").figures.ampacity, undefined);
  });
  it("a size that no table of ampacities has is filled all the same; heat that leaves none is told", () => {
    const small = laid(3, { material: "aluminum", conductors: [{ size: "14", count: 3 }], insulation: "XHHW" });
    assertEquals([small.figures["fill-area"] !== undefined, small.figures.ampacity], [true, undefined]);
    const hot = ask({
      kind: "raceway-fill",
      raceway: "EMT",
      conductors: [{ size: "12", count: 3 }],
      insulation: "THW",
      ambient: { value: 80, unit: "°C" },
    });
    assertEquals(hot.outcome, "not covered");
  });
  it("never more than fewer of them do", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.constantFrom("12", "6", "1/0"), (count, size) => {
        const of = (n: number) =>
          carry(n, { raceway: "PVC schedule 40", conductors: [{ size, count: n }] }) as number | undefined;
        const [fewer, more] = [of(count), of(count + 1)];
        if (more !== undefined) assert(fewer! >= more);
      }),
      { numRuns: 60 },
    );
  });
});

it("a nipple's trade size is read without its unit, beside its length", () => {
  const answer = answered("24 inch nipple, 1-1/4, how many #4 fit");
  // 4 AWG THHN has 0.0824 in², 60 % of 1.496 in² of EMT take ten, and 0.89 counts as an eleventh (note 7).
  assertEquals([answer.kind, figure(answer, "most-conductors")], ["raceway-fill", 11]);
});

describe("three alike", () => {
  it("may jam between 2.8 and 3.2 times their diameter", () => {
    const of = (wire: string, trade: string) =>
      fill({ raceway: "PVC schedule 40", size: trade, conductors: [{ size: wire, count: 3 }], insulation: "THHN" });
    const ratio = figure(of("4/0", "2"), "jam-ratio") as number;
    assertAlmostEquals(ratio, 2.047 / 0.642, 1e-6);
    assert(of("4/0", "2").cautions.some(({ text }) => text.includes("jam")));
    assert(of("4/0", "2").headline.includes("may jam") && !of("2", "2").headline.includes("jam"));
    assert(!of("2", "2").cautions.some(({ text }) => text.includes("jam")));
  });
});

const raceway = fc.constantFrom("EMT", "IMC", "RMC", "PVC schedule 40", "PVC schedule 80", "FMC", "LFMC", "ENT");
const wire = fc.constantFrom("14", "12", "10", "8", "6", "4", "2", "1/0", "4/0");
const insulation = fc.constantFrom("THHN", "THWN-2", "XHHW", "THW", "RHW");
const maybe = <T>(name: string, value: fc.Arbitrary<T>) => fc.record({ [name]: value }, { requiredKeys: [] });
const merge = (...parts: fc.Arbitrary<Draft>[]) => fc.tuple(...parts).map((all): Draft => Object.assign({}, ...all));
const alike = fc.record({ raceway, insulation, wire, count: fc.integer({ min: 1, max: 12 }) });

describe("laws", () => {
  it("one more alike never fits a smaller trade size", () => {
    fc.assert(
      fc.property(alike, fc.constantFrom(...EDITIONS), ({ wire, count, ...rest }, code) => {
        const sizes = editions.get(code)!.table("raceway-rmc").data.rows.map(([key]) => key);
        const of = (n: number) => {
          const outcome = ask({ kind: "raceway-fill", ...rest, conductors: [{ size: wire, count: n }] } as never, {
            edition: code,
          });
          return outcome.outcome === "answered" ? sizes.indexOf(figure(outcome.answer, "raceway-size") as string) : 99;
        };
        assert(of(count + 1) >= of(count));
      }),
      { numRuns: 80 },
    );
  });
  it("that many fit and one more does not", () => {
    const found = fc.record({
      raceway,
      insulation,
      wire: fc.constantFrom("14", "12", "10", "8", "6", "4"),
      size: fc.constantFrom("3/4", "1"),
    });
    fc.assert(
      fc.property(found, ({ wire, ...rest }) => {
        const n = most({ ...rest, conductors: [{ size: wire }] }) as number;
        const verdict = (count: number) => fill({ ...rest, conductors: [{ size: wire, count }] }).verdict;
        if (n > 0) assertEquals(verdict(n), "ok", `${n}`);
        assertEquals(verdict(n + 1), "not ok", `${n + 1}`);
      }),
      { numRuns: 80 },
    );
  });
  it("a third small one may help two large ones, by the rule itself (31 % to 40 %)", () => {
    const two = { raceway: "EMT", insulation: "THHN", conductors: [{ size: "6", count: 2 }] };
    const three = { ...two, conductors: [...two.conductors, { size: "14", count: 1 }] };
    assertEquals([size(two), size(three)], ["3/4 in", "1/2 in"]);
  });
  it("how many beside others leaves room for the others", () => {
    const beside = {
      raceway: "EMT",
      size: "1",
      insulation: "THHN",
      conductors: [{ size: "10", count: 6 }, { size: "12" }],
    };
    assertEquals(most(beside), 16);
    assertEquals(most({ ...beside, size: "1/2", conductors: [{ size: "10", count: 6 }, { size: "12" }] }), 0);
  });
});

const requests: fc.Arbitrary<Draft> = merge(
  maybe("raceway", raceway),
  maybe("nipple", fc.constant(true)),
  fc.uniqueArray(fc.constantFrom("14", "10", "6", "2", "3/0", "350 kcmil"), { minLength: 1, maxLength: 3 }).chain((
    all,
  ) =>
    fc.tuple(...all.map((size) => fc.integer({ min: 1, max: 9 }).map((count) => ({ size, count })))).chain((lines) =>
      fc.option(fc.constantFrom("12", "8", "4").map((size) => ({ size, count: 1, ground: true })), { nil: undefined })
        .map((ground) => ({ conductors: [...lines, ...(ground ? [ground] : [])] }))
    )
  ),
  maybe("insulation", fc.constantFrom("THHN", "THWN-2", "XHHW-2", "RHW", "THW")),
  maybe("material", fc.constantFrom("copper", "aluminum")),
  maybe("compact", fc.constant(true)),
  maybe("size", fc.constantFrom("1/2", "1-1/4", "2-1/2", "4")),
  maybe("carrying", fc.integer({ min: 2, max: 30 })),
  maybe("terminals", fc.constantFrom({ value: 60, unit: "°C" }, { value: 75, unit: "°C" })),
  maybe("ambient", fc.constantFrom({ value: 105, unit: "°F" }, { value: 40, unit: "°C" })),
);
it("a request that is written and read again is the same request", () => {
  const read = makeReader(engine.questions);
  const question = engine.questions.find(({ id }) => id === "raceway-fill")!;
  fc.assert(
    fc.property(requests, (draft) => {
      const wanted = question.input.parse(draft);
      const written = question.write(wanted);
      const parsed = read(written);
      assertEquals(parsed.question?.id, "raceway-fill", written);
      if (!parsed.question) return;
      assertEquals(question.input.parse(parsed.draft), wanted, written);
      assertEquals([parsed.asks, parsed.unused.filter(({ text }) => /\d/.test(text))], [[], []], written);
    }),
    { numRuns: 300 },
  );
});

// 376.22, 378.22 and 366.22, .23 as remembered, from memory: a fifth of the inside; thirty wires in metal without adjustment.
describe("wireways and auxiliary gutters", () => {
  const inches = (value: number) => ({ value, unit: "in" });
  const square = (side: number, more: object = {}) => ({ is: "wireway", width: inches(side), ...more });
  const tens = (count: number, more: object = {}) => ({
    wireway: square(4, more),
    insulation: "THHN",
    conductors: [{ size: "10", count }],
  });
  it("take a fifth of the inside, by area alone: below, at and above", () => {
    // 3.2 in² of a 4 x 4; a 10 AWG THHN takes 0.0211 in²: 151 of them 3.1861, 152 of them 3.2072.
    for (const edition of EDITIONS) {
      assertEquals([150, 151, 152].map((n) => fill(tens(n), edition).verdict), ["ok", "ok", "not ok"]);
      assertEquals(most({ ...tens(1), conductors: [{ size: "10" }] }, edition), 151);
    }
    assertEquals(figure(fill(tens(30)), "allowed-area"), 3.2);
    // The sides need not be alike, nor one of those that are commonly made.
    const flat = { wireway: { is: "auxiliary gutter", width: inches(8), height: inches(2) }, insulation: "THHN" };
    assertEquals(most({ ...flat, conductors: [{ size: "10" }] }), 151);
  });
  it("count what is left beside others", () => {
    const beside = { ...tens(1), conductors: [{ size: "10", count: 100 }, { size: "12" }] };
    // (3.2 − 2.11) ÷ 0.0133
    assertEquals(most(beside), 81);
  });
  it("are chosen square, the smallest that is commonly made", () => {
    const chosen = (count: number) =>
      size({ wireway: { is: "wireway" }, insulation: "THHN", conductors: [{ size: "10", count }] });
    // A fifth of 6.25 in² is 1.25: 59 of them 1.2449, 60 of them 1.266.
    assertEquals([59, 60, 151, 152].map(chosen), [
      "2-1/2 x 2-1/2 in",
      "4 x 4 in",
      "4 x 4 in",
      "6 x 6 in",
    ]);
    assertEquals(
      ask(
        {
          kind: "raceway-fill",
          ...tens(1),
          wireway: { is: "wireway" },
          conductors: [{ size: "1000 kcmil", count: 99 }],
        } as never,
      ).outcome,
      "not covered",
    );
  });
  it("let up to thirty carry in full in metal, none more than three in plastic", () => {
    // By the 90 °C column: 40 A; 31 of them at 40 %, 12 of them at 50 %.
    const carries = (count: number, more: object = {}) => figure(fill(tens(count, more)), "ampacity");
    for (const is of ["wireway", "auxiliary gutter"]) {
      assertEquals([29, 30, 31].map((n) => carries(n, { is })), [40, 40, 16]);
      assertEquals([4, 12].map((n) => carries(n, { is, nonmetallic: true })), [32, 20]);
    }
    const grounds = { ...tens(30), conductors: [{ size: "10", count: 30 }, { size: "10", count: 9, ground: true }] };
    assertEquals(figure(fill(grounds), "ampacity"), 40);
  });
  it("one more conductor never needs a smaller one", () => {
    const side = (count: number, wire: string) =>
      Number.parseFloat(String(size({ wireway: { is: "wireway" }, conductors: [{ size: wire, count }] })));
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.constantFrom("12", "8", "2", "4/0"), (n, wire) => {
        assert(side(n + 1, wire) >= side(n, wire));
      }),
      { numRuns: 60 },
    );
  });
  it("are asked about where their sides, or which of two raceways, are open", () => {
    const outcome = (request: object) => ask({ kind: "raceway-fill", ...request } as never).outcome;
    assertEquals(outcome({ wireway: { is: "wireway" }, conductors: [{ size: "10" }], find: "how many" }), "unclear");
    assertEquals(outcome({ ...tens(3), raceway: "EMT" }), "unclear");
  });
  it("are written and read again", () => {
    const read = makeReader(engine.questions);
    const question = engine.questions.find(({ id }) => id === "raceway-fill")!;
    for (
      const request of [
        tens(40),
        tens(40, { height: inches(6), nonmetallic: true }),
        tens(40, { is: "auxiliary gutter", height: inches(6) }),
        { ...tens(40), wireway: { is: "auxiliary gutter" } },
      ]
    ) {
      const wanted = question.input.parse(request);
      const parsed = read(question.write(wanted));
      assertEquals(parsed.question?.id, "raceway-fill", question.write(wanted));
      if (!parsed.question) continue;
      assertEquals(question.input.parse(parsed.draft), wanted, question.write(wanted));
    }
  });
});
