/** What a conductor carries: published examples, thresholds of the factor tables, properties, round trips of the text. */
import { assert, assertAlmostEquals, assertEquals, assertNotEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import type { AmpacityRequest as AmpacityRead } from "../src/questions/circuit/conductor-ampacity/request.ts";
import ampacityQuestion from "../src/questions/circuit/conductor-ampacity/question.ts";
import { INSULATIONS } from "../src/rules/conditions.ts";
import { METHODS } from "../src/rules/wiring-methods.ts";
import { answered, EDITIONS, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";
import type { AsJson } from "./support/as-json.ts";

type AmpacityRequest = AsJson<AmpacityRead>;

const conductor = (request: Partial<AmpacityRequest>, edition = "2023") =>
  answered({ kind: "conductor-ampacity", ...request } as never, { edition });
const C75 = { terminals: { value: 75, unit: "°C" } } as const;
const at = (answer: ReturnType<typeof conductor>, ...ids: string[]) => ids.map((id) => figure(answer, id));

describe("published examples, in every edition", () => {
  for (const edition of EDITIONS) {
    it(`10 AWG THHN at 120 °F carries 32.8 A (Stallcup Education: applying correction factors), ${edition}`, () => {
      const answer = conductor({ size: "10", insulation: "THHN", ambient: { value: 120, unit: "°F" } }, edition);
      assertEquals(at(answer, "table-ampacity", "correction-factor", "ampacity"), [40, 0.82, 32.8]);
    });
    it(`four 12 AWG THHN carry 24 A each (trade-forum thread on derating), ${edition}`, () => {
      const answer = conductor({ size: "12", insulation: "THHN", conductors: 4, ...C75 }, edition);
      assertEquals(at(answer, "table-ampacity", "adjustment-factor", "ampacity", "breaker-rating"), [30, 0.8, 24, 20]);
    });
    it(`thirty 12 AWG THHN carry 13.5 A each (EC&M code quiz), ${edition}`, () => {
      const answer = conductor({ size: "12", insulation: "THHN", conductors: 30 }, edition);
      assertEquals(at(answer, "table-ampacity", "adjustment-factor", "ampacity", "breaker-rating"), [
        30,
        0.45,
        13.5,
        15,
      ]);
    });
    it(`nine 12 AWG of nonmetallic cable stay at 20 A: 30 × 70 % is 21, the cable's column 20 (trade-forum thread on bundling), ${edition}`, () => {
      const answer = conductor({ size: "12", method: "NM cable", conductors: 9 }, edition);
      assertEquals(at(answer, "ampacity", "breaker-rating"), [20, 20]);
    });
  }
});

describe("thresholds", () => {
  it("conductors together: below, at, above each step of the table (Table 310.15(C)(1))", () => {
    const steps = [
      [3, 1],
      [4, 0.8],
      [6, 0.8],
      [7, 0.7],
      [9, 0.7],
      [10, 0.5],
      [20, 0.5],
      [21, 0.45],
      [30, 0.45],
      [31, 0.4],
      [40, 0.4],
      [41, 0.35],
    ] as const;
    for (const [conductors, factor] of steps) {
      assertAlmostEquals(Number(figure(conductor({ size: "8", conductors }), "adjustment-factor")), factor, 1e-12);
    }
  });
  it("ambient: the Fahrenheit bands meet the Celsius ones (Table 310.15(B)(1)(1))", () => {
    const bands = [[86, 1], [87, 0.96], [95, 0.96], [96, 0.91], [104, 0.91], [105, 0.87], [113, 0.87], [114, 0.82], [
      122,
      0.82,
    ], [123, 0.76]] as const;
    for (const [value, factor] of bands) {
      assertEquals(
        figure(conductor({ size: "8", insulation: "THHN", ambient: { value, unit: "°F" } }), "correction-factor"),
        factor,
        `${value} °F`,
      );
    }
  });
  it("the next standard size up is allowed as far as single conductors go (240.4(B))", () => {
    // 600 kcmil copper at 75 °C is 420 A: 450 A is next. 2000 kcmil is 665 A: 700 A is next.
    assertEquals(figure(conductor({ size: "600 kcmil", ...C75 }), "breaker-rating"), 450);
    assertEquals(figure(conductor({ size: "2000 kcmil", ...C75 }), "breaker-rating"), 700);
  });
  it("the small-conductor limits stand below what the ampacity would allow (240.4(D))", () => {
    for (
      const [size, material, limit] of [
        ["14", "copper", 15],
        ["12", "copper", 20],
        ["10", "copper", 30],
        ["12", "aluminum", 15],
        ["10", "aluminum", 25],
        ["8", "copper", 50],
      ] as const
    ) {
      assertEquals(figure(conductor({ size, material, ...C75 }), "breaker-rating"), limit);
    }
  });
  it("unmarked terminations: 60 °C while the circuit is not over 100 A, 75 °C above (110.14(C)(1))", () => {
    // 2 AWG may have 125 A, a circuit of more than 100 A (Table 310.16: 95 A at 60 °C, 115 A at 75 °C); 3 AWG, 100 A, none.
    const ends = (request: Partial<AmpacityRequest>) =>
      at(conductor(request), "termination-ampacity", "breaker-rating");
    assertEquals(["3", "2", "1"].map((size) => ends({ size })), [[85, 90], [115, 125], [130, 150]]);
    assertEquals(ends({ size: "1/0", material: "aluminum" }), [120, 125]);
    const of = (breaker: number) => conductor({ size: "2", breaker: { value: breaker, unit: "A" } });
    assertEquals([ends({ size: "2", breaker: { value: 100, unit: "A" } }), of(125).verdict, of(150).verdict], [
      [95, 100],
      "ok",
      "not ok",
    ]);
    assert(
      conductor({ size: "2" }).cautions.some(({ text }) => text.includes("100 A or less") && text.includes("95 A")),
    );
    assert(!conductor({ size: "3" }).cautions.some(({ text }) => text.includes("100 A or less")));
  });
  it("XHHW is a 90 °C wire in a dry place and a 75 °C one in a wet place: 95 and 85 A at 4 AWG (Table 310.16; ratings from memory)", () => {
    assertEquals(figure(conductor({ size: "4", insulation: "XHHW" }), "table-ampacity"), 95);
    assertEquals(figure(conductor({ size: "4", insulation: "XHHW", wet: true }), "table-ampacity"), 85);
  });
  it("insulation too hot for its place has no ampacity: not covered, with the table named", () => {
    const outcome = engine.answer({
      kind: "conductor-ampacity",
      size: "8",
      insulation: "TW",
      ambient: { value: 60, unit: "°C" },
    });
    assert(outcome.outcome === "not covered" && /no ampacity left.*Table 310\.15/.test(outcome.because));
  });
});

describe("parallel sets", () => {
  // Table 310.16, 75 °C aluminum: 250 kcmil 205 A; three sets 615 A. 310.10(G): nothing below 1/0.
  it("carry as many times what their terminations allow", () => {
    const answer = conductor({ size: "250 kcmil", material: "aluminum", sets: 3, ...C75 });
    assertEquals(at(answer, "parallel-sets", "ampacity-of-all-sets"), [3, 615]);
    assertEquals(answer.verdict, undefined);
  });
  // 310.10(G), 240.4(B) and (C), Table 310.16 at 75 °C: 500 kcmil copper 380 A, two sets 760 A, next standard rating
  // 800 A; 350 kcmil 310 A, three sets 930 A, no next size up above 800 A.
  it("have the breaker of all of them, below and above where the next size up ends", () => {
    const largest = (size: string, sets: number) =>
      figure(conductor({ size, material: "copper", sets, ...C75 }), "breaker-rating");
    assertEquals([largest("500 kcmil", 2), largest("350 kcmil", 3)], [800, 800]);
  });
  it("are held together against a breaker and a load put up", () => {
    const verdict = (plan: Partial<AmpacityRequest>) =>
      conductor({ size: "500 kcmil", material: "copper", sets: 2, ...C75, ...plan }).verdict;
    const amperes = (value: number) => ({ value, unit: "A" } as const);
    assertEquals([800, 1000].map((a) => verdict({ breaker: amperes(a) })), ["ok", "not ok"]);
    assertEquals([760, 761].map((a) => verdict({ load: amperes(a) })), ["ok", "not ok"]);
  });
  it("of unmarked terminations go by the rating of all of them", () => {
    const two = conductor({ size: "1/0", material: "aluminum", sets: 2, insulation: "XHHW-2" });
    assertEquals(figure(two, "breaker-rating"), 250); // 2 × 120 A at 75 °C, next standard rating
  });
  it("of 1/0 are allowed, of 1 AWG they are not", () => {
    assertEquals(conductor({ size: "1/0", material: "copper", sets: 2 }).verdict, undefined);
    assertEquals(conductor({ size: "1", material: "copper", sets: 2 }).verdict, "not ok");
  });
});

describe("a neutral that counts (310.15(E))", () => {
  const carries = (text: string) => figure(answered(text), "ampacity");
  it("is one of the two wires of a circuit between a line and the neutral: three of them are six, 80 % of 30 A", () => {
    assertEquals(carries("12 AWG THHN, three 120 V circuits in one conduit, the neutral counts, ampacity?"), 24);
    assertEquals(carries("what do 12 AWG THHN carry, 3 circuits of 277 V with nonlinear loads in one conduit"), 24);
    assertEquals(carries("12 AWG THHN ampacity, a 120 V circuit whose neutral counts"), 30);
  });
  it("comes to the lines of the others: nine wires, 70 %, or four, 80 %", () => {
    assertEquals(carries("12 AWG THHN ampacity, 3 multiwire circuits in one conduit, the neutral counts"), 21);
    assertEquals(carries("12 AWG THHN ampacity, three-phase 208 V circuit, the neutral counts"), 24);
  });
});

describe("plans", () => {
  it("a breaker above the largest allowed is not ok, the largest is", () => {
    assertEquals(conductor({ size: "6", ...C75, breaker: { value: 70, unit: "A" } }).verdict, "ok");
    assertEquals(conductor({ size: "6", ...C75, breaker: { value: 80, unit: "A" } }).verdict, "not ok");
  });
  it("a load above what it carries here is not ok", () => {
    assertEquals(conductor({ size: "8", ...C75, load: { value: 50, unit: "A" } }).verdict, "ok");
    assertEquals(conductor({ size: "8", ...C75, load: { value: 51, unit: "A" } }).verdict, "not ok");
  });
  it("a load above the largest breaker of a small conductor is not ok", () => {
    assertEquals(conductor({ size: "12", ...C75, load: { value: 20, unit: "A" } }).verdict, "ok");
    assertEquals(conductor({ size: "12", ...C75, load: { value: 21, unit: "A" } }).verdict, "not ok");
  });
});

const requests = fc.record({
  size: fc.constantFrom(
    "14",
    "12",
    "10",
    "8",
    "6",
    "4",
    "3",
    "2",
    "1",
    "1/0",
    "4/0",
    "250 kcmil",
    "500 kcmil",
    "1000 kcmil",
  ),
  material: fc.constantFrom("copper", "aluminum"),
  method: fc.constantFrom(...METHODS),
  insulation: fc.constantFrom(...INSULATIONS),
  wet: fc.constant(true),
  terminals: fc.record({ value: fc.constantFrom(60, 75, 90), unit: fc.constant("°C") }, { noNullPrototype: true }),
  ambient: fc.oneof(
    fc.record({ value: fc.integer({ min: 5, max: 55 }), unit: fc.constant("°C") }, { noNullPrototype: true }),
    fc.record({ value: fc.integer({ min: 41, max: 130 }), unit: fc.constant("°F") }, { noNullPrototype: true }),
  ),
  rooftop: fc.constant(true),
  inInsulation: fc.constant(true),
  conductors: fc.integer({ min: 1, max: 60 }),
  breaker: fc.record({ value: fc.constantFrom(15, 20, 60, 100), unit: fc.constant("A") }, { noNullPrototype: true }),
  load: fc.record({ value: fc.integer({ min: 1, max: 400 }), unit: fc.constant("A") }, { noNullPrototype: true }),
}, { requiredKeys: ["size"], noNullPrototype: true });

describe("properties", () => {
  it("hotter or more together never carries more; aluminum never more than copper", () => {
    const sizes = fc.constantFrom("12", "8", "4", "1", "2/0", "350 kcmil");
    fc.assert(
      fc.property(sizes, fc.integer({ min: 10, max: 54 }), fc.integer({ min: 1, max: 60 }), (size, degrees, count) => {
        const amps = (more: Partial<AmpacityRequest>) =>
          Number(
            figure(
              conductor({ size, ambient: { value: degrees, unit: "°C" }, conductors: count, ...more }),
              "ampacity",
            ),
          );
        const plain = amps({});
        assert(amps({ ambient: { value: degrees + 1, unit: "°C" } }) <= plain);
        assert(amps({ conductors: count + 1 }) <= plain);
        assert(amps({ material: "aluminum" }) <= plain);
      }),
      { numRuns: 40 },
    );
  });
  it("every request ends answered or not covered in every edition", () => {
    fc.assert(
      fc.property(requests, fc.constantFrom(...EDITIONS), (request, edition) => {
        assertNotEquals(sound(engine.answer({ kind: "conductor-ampacity", ...request }, { edition })), "unclear");
      }),
      { numRuns: 200 },
    );
  });
  it("a request written as text reads back the same", () => {
    fc.assert(
      fc.property(requests, (request) => {
        const text = ampacityQuestion.write(ampacityQuestion.input.parse(request));
        const outcome = engine.ask(text);
        if (outcome.outcome === "not covered") return;
        assert(outcome.outcome === "answered", `${text}: ${JSON.stringify(outcome)}`);
        assertEquals(
          outcome.answer.request,
          { kind: "conductor-ampacity", edition: "2023", ...request } as never,
          text,
        );
      }),
      { numRuns: 200 },
    );
  });
});
