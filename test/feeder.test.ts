/** Feeders and service conductors, against published tables and examples. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { makeReader } from "./support/reader.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";

const A = (value: number) => ({ value, unit: "A" });
const ft = (value: number) => ({ value, unit: "ft" });
const C = (value: number) => ({ value, unit: "°C" });
const V = (value: number) => ({ value, unit: "V" });
const feeder = (request: object): Request => ({ kind: "feeder", ...request });
const size = (request: object, edition = "2023") =>
  figure(answered(feeder(request), { edition }), "ungrounded-conductor");
const SIZES = editions.get("2023")!.table("conductor-properties").data.rows.map((row) => String(row[0]));
const rank = (word: number | string) => SIZES.indexOf(String(word));

describe("a feeder's conductors", () => {
  // Table 310.16 (310.15(B)(16) in 2017): ampacities at 60 and 75 °C.
  const BY_TABLE = [
    { breaker: 60, material: "copper", terminals: 75, is: "6" },
    { breaker: 60, material: "copper", terminals: 60, is: "4" },
    { breaker: 100, material: "copper", terminals: 75, is: "3" },
    { breaker: 100, material: "copper", terminals: 60, is: "1" },
    { breaker: 100, material: "aluminum", terminals: 75, is: "1" },
    { breaker: 100, material: "aluminum", terminals: 60, is: "1/0" },
    { breaker: 200, material: "copper", terminals: 75, is: "3/0" },
    { breaker: 200, material: "aluminum", terminals: 75, is: "250 kcmil" },
  ] as const;
  for (const { breaker, material, terminals, is } of BY_TABLE) {
    it(`is ${is} ${material} for the full ${breaker} A at ${terminals} °C, in every edition`, () => {
      for (const edition of EDITIONS) {
        assertEquals(size({ breaker: A(breaker), material, terminals: C(terminals) }, edition), is, edition);
      }
    });
  }

  it("takes the lower column up to 100 A and the higher one above where no marking is known (110.14(C))", () => {
    assertEquals(size({ breaker: A(100), material: "copper" }), "1");
    assertEquals(size({ breaker: A(110), material: "copper" }), "2");
  });

  it("holds NM to 60 °C whatever the terminations (334.80)", () => {
    assertEquals(size({ breaker: A(60), method: "NM cable", material: "copper", terminals: C(75) }), "4");
  });

  it("goes up to the next breaker only as far as the load allows (240.4(B))", () => {
    const sized = (load: number) => size({ breaker: A(60), load: A(load), material: "copper", method: "NM cable" });
    assertEquals([sized(54), sized(55), sized(56)], ["6", "6", "4"]);
  });

  it("counts the continuous part at 125 % (215.2, 215.3)", () => {
    const answer = answered(feeder({ load: A(40), continuous: A(80), material: "copper", terminals: C(75) }));
    assertEquals(figure(answer, "design-current"), 140);
    assertEquals(figure(answer, "breaker-rating"), 150);
    assertEquals(figure(answer, "ungrounded-conductor"), "1/0");
  });

  it("drops a fraction below a half once, where the load picks the rating (220.5(B))", () => {
    const rating = (load: number) => figure(answered(feeder({ load: A(load), material: "copper" })), "breaker-rating");
    assertEquals([rating(100.4), rating(100.5)], [100, 110]);
  });

  it("splits into parallel sets of 1/0 and larger, each at full size (310.10)", () => {
    const answer = answered(feeder({ breaker: A(400), load: A(400), sets: 2, material: "copper", terminals: C(75) }));
    assertEquals(figure(answer, "ungrounded-conductor"), "3/0");
    assertEquals(figure(answer, "equipment-grounding-conductor"), "3");
    assertEquals(size({ breaker: A(100), sets: 2, material: "copper", terminals: C(75) }), "1/0");
  });

  it("adjusts sets that share a raceway (80 % for four to six conductors)", () => {
    const sets = { breaker: A(400), load: A(400), sets: 2, material: "copper", terminals: C(75) };
    // 4/0 at 90 °C: 260 × 80 % = 208 A; 3/0: 225 × 80 % = 180 A.
    assertEquals(size({ ...sets, together: true }), "4/0");
    assertEquals(size({ ...sets, together: false }), "3/0");
  });
  it("which a single set is not, however it is put", () => {
    const told = (sets: string) => answered(`feeder 200 A, ${sets}, all wires bundled together`).request.together;
    assertEquals([told("1 set"), told("two sets")], [undefined, true]);
  });
});

describe("the dwelling rule", () => {
  // Table 310.12(A), as printed by an electrical distributor for the 2020 code.
  const TABLE = [
    [100, "4", "2"],
    [110, "3", "1"],
    [125, "2", "1/0"],
    [150, "1", "2/0"],
    [175, "1/0", "3/0"],
    [200, "2/0", "4/0"],
    [225, "3/0", "250 kcmil"],
    [250, "4/0", "300 kcmil"],
    [300, "250 kcmil", "350 kcmil"],
    [350, "350 kcmil", "500 kcmil"],
    [400, "400 kcmil", "600 kcmil"],
  ] as const;
  const service = (rating: number, material: string, edition: string) =>
    size({ supply: "service", wholeDwelling: true, breaker: A(rating), material }, edition);

  it("gives every size of its table where the edition has one", () => {
    for (const [rating, copper, aluminum] of TABLE) {
      for (const edition of ["2020", "2023", "2026"]) {
        assertEquals(
          [service(rating, "copper", edition), service(rating, "aluminum", edition)],
          [copper, aluminum],
          `${rating} A, ${edition}`,
        );
      }
    }
  });

  it("does not reach a service from a 208Y/120 V network, and reaches its feeders (310.12; 310.15(B)(7) in 2017)", () => {
    const network = (supply: string, edition: string) =>
      size({ supply, wholeDwelling: true, breaker: A(110), volts: V(208), phases: 1, material: "copper" }, edition);
    for (const edition of EDITIONS) {
      // 110 A: 2 AWG at 75 °C by ampacity, 3 AWG by the rule; the neutral counts, and three are still at 100 %.
      assertEquals(network("service", edition), "2", edition);
      assertEquals(network("feeder", edition), "3", edition);
    }
  });
  it("is 83 % of the rating in 2017: 124.5 A of 150 A is 1 AWG copper", () => {
    assertEquals(service(150, "copper", "2017"), "1");
    assertEquals(service(200, "aluminum", "2017"), "4/0");
  });

  it("takes two sets of 4/0 aluminum for 400 A: 360 A is more than 332 A", () => {
    const plan = answered(
      feeder({
        supply: "service",
        wholeDwelling: true,
        breaker: A(400),
        material: "aluminum",
        sizes: ["4/0"],
        sets: 2,
        check: true,
      }),
    );
    assertEquals(plan.verdict, "ok");
    assertEquals(figure(plan, "ampacity"), 360);
  });

  it("holds from 100 A to 400 A, and not for a feeder that carries only a part", () => {
    const whole = (rating: number) =>
      size({ wholeDwelling: true, breaker: A(rating), material: "copper", terminals: C(75) });
    assertEquals([whole(90), whole(100)], ["3", "4"]);
    assertEquals(size({ breaker: A(100), material: "copper", terminals: C(75) }), "3");
    assertEquals(whole(400), "400 kcmil");
    assertEquals(
      figure(answered(feeder({ wholeDwelling: true, breaker: A(450), material: "copper" })), "parallel-sets"),
      2,
    );
  });

  it("does not hold for three phases", () => {
    const request = { wholeDwelling: true, breaker: A(200), volts: V(208), material: "copper" };
    assertEquals(size({ ...request, phases: 1 }), "2/0");
    assertEquals(size({ ...request, phases: 3 }), "3/0");
  });
});

describe("the ground and the neutral", () => {
  it("go by Table 250.122, aluminum one step up", () => {
    const ground = (breaker: number, groundMaterial: string) =>
      figure(
        answered(feeder({ breaker: A(breaker), material: "copper", groundMaterial })),
        "equipment-grounding-conductor",
      );
    assertEquals([60, 70, 100, 110, 200].map((b) => ground(b, "copper")), ["10", "8", "8", "6", "6"]);
    assertEquals([60, 70, 100, 110, 200].map((b) => ground(b, "aluminum")), ["8", "6", "6", "4", "4"]);
  });

  it("grow with conductors made larger for the drop (250.122(B))", () => {
    const answer = answered(feeder({ breaker: A(50), length: ft(700), material: "copper" }));
    assertEquals(figure(answer, "ungrounded-conductor"), "2/0");
    // 6 AWG was enough: 10.38 × 133.1 ÷ 26.24 = 52.65 kcmil, a little above 3 AWG (52.62).
    assertEquals(figure(answer, "equipment-grounding-conductor"), "2");
  });

  it("do not grow for heat alone: what the installation needs is counted after correction (250.122(B))", () => {
    const hot = feeder({
      breaker: A(100),
      material: "copper",
      terminals: C(75),
      insulation: "THWN",
      ambient: { value: 50, unit: "°C" },
    });
    const ground = (edition: string) => figure(answered(hot, { edition }), "equipment-grounding-conductor");
    // 75 °C insulation at 50 °C air is at 75 %: 1 AWG (130 A) carries 97.5 A, so 1/0; without the heat 3 AWG would do.
    assertEquals(figure(answered(hot), "ungrounded-conductor"), "1/0");
    assertEquals([ground("2017"), ground("2020"), ground("2023")], ["8", "8", "8"]);
  });

  it("keep a reduced feeder neutral at the equipment ground's size or more (215.2)", () => {
    const neutral = (load: number) =>
      figure(answered(feeder({ breaker: A(200), material: "copper", neutralLoad: A(load) })), "neutral-conductor");
    assertEquals([neutral(20), neutral(65), neutral(66), neutral(200)], ["6", "6", "4", "3/0"]);
  });

  it("ask where a neutral is to carry more than a line does (220.61(A))", () => {
    const above = (more: object) => ask(feeder({ breaker: A(100), neutralLoad: A(101), ...more }));
    const outcome = above({});
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "neutralLoad");
    assertStringIncludes(outcome.needs[0]!.ask, "100 A");
    assertEquals(ask(feeder({ breaker: A(100), load: A(60), neutralLoad: A(61) })).outcome, "unclear");
    // Harmonics of three phases add up in the neutral: 220.61(C).
    assertEquals(above({ volts: V(208), phases: 3, nonlinear: true }).outcome, "answered");
  });

  it("take no neutral where the system mostly has none, listed (240 V three-phase, 480 V single-phase)", () => {
    const neutralOf = (more: object) => {
      const answer = answered(feeder({ breaker: A(100), material: "copper", ...more }));
      return [
        answer.figures["neutral-conductor"]?.value,
        answer.assumptions.find(({ name }) => name === "neutral")?.value,
      ];
    };
    const none = [undefined, "none"];
    assertEquals(neutralOf({ volts: V(240), phases: 3 }), none);
    assertEquals(neutralOf({ volts: V(480), phases: 1 }), none);
    assertEquals(neutralOf({ volts: V(480), phases: 3 }), ["1", "as large as the ungrounded conductors"]);
    assertEquals(neutralOf({ volts: V(240), phases: 3, neutral: true })[0], "1");
    assertEquals(neutralOf({ volts: V(240), phases: 3, neutralLoad: A(90) })[0], "2");
  });

  it("are isolated at the far panel, and bonded at a service", () => {
    assertEquals(figure(answered(feeder({ breaker: A(60) })), "neutral-bond"), "isolated");
    assertEquals(figure(answered(feeder({ breaker: A(60), where: "separate structure" })), "neutral-bond"), "isolated");
    assertEquals(figure(answered(feeder({ breaker: A(200), supply: "service" })), "neutral-bond"), "bonded");
  });

  it("want four wires, electrodes and a disconnect at a separate structure (250.32, 225.31)", () => {
    const answer = answered(feeder({ breaker: A(100), where: "separate structure", wires: 3 }));
    assertEquals(answer.verdict, "not ok");
    assertEquals(figure(answer, "far-end-disconnect"), "required");
    assert(answer.cautions.some(({ text }) => text.includes("Two ground rods")));
    assertEquals(
      figure(answered(feeder({ breaker: A(100), where: "same building" })), "far-end-disconnect"),
      "not required",
    );
  });
});

describe("a neutral and a ground put up beside the lines", () => {
  const plan = (request: object) => answered(feeder({ material: "copper", check: true, ...request }));
  it("by load and least size: 215.2(A)(2), 220.61, Table 250.122", () => {
    const service = { breaker: A(200), sizes: ["4/0"], material: "aluminum", wholeDwelling: true };
    // 2/0 aluminum at 75 °C carries 135 A (Table 310.16).
    const open = plan({ ...service, neutralSize: "2/0", groundSize: "4" });
    assertEquals([open.verdict, figure(open, "neutral-conductor"), figure(open, "equipment-grounding-conductor")], [
      "ok if",
      "2/0",
      "4",
    ]);
    assertStringIncludes(open.headline, "the neutral's load is at most 135 A");
    const is = (more: object) => plan({ ...service, ...more }).verdict;
    assertEquals([is({ neutralSize: "2/0", neutralLoad: A(135) }), is({ neutralSize: "2/0", neutralLoad: A(136) })], [
      "ok",
      "not ok",
    ]);
    // Not below the aluminum ground of 200 A, 4 AWG.
    assertEquals([is({ neutralSize: "4", neutralLoad: A(10) }), is({ neutralSize: "6", neutralLoad: A(10) })], [
      "ok",
      "not ok",
    ]);
    assertEquals([is({ neutralSize: "4/0" }), is({ neutralSize: "250 kcmil" })], ["ok", "ok"]);
  });
  it("the ground by its table, grown with the lines (250.122(A), (B))", () => {
    const lines = { breaker: A(70), sizes: ["4"], terminals: C(75), neutralSize: "4" };
    assertEquals([plan({ ...lines, groundSize: "8" }).verdict, plan({ ...lines, groundSize: "10" }).verdict], [
      "ok",
      "not ok",
    ]);
    // 2 AWG in place of 4 AWG (66.36 ÷ 41.74): 16.51 × 1.59 = 26.25 kcmil, a little above 6 AWG (26.24).
    const larger = { ...lines, sizes: ["2"], neutralSize: "2" };
    assertEquals([plan({ ...larger, groundSize: "6" }).verdict, plan({ ...larger, groundSize: "4" }).verdict], [
      "not ok",
      "ok",
    ]);
    const refused = plan({ ...lines, groundSize: "10" });
    assertEquals(figure(refused, "equipment-grounding-conductor"), "8");
    assertStringIncludes(refused.headline, "8 AWG copper needed");
  });
  it("in parallel sets a neutral is 1/0 or larger (310.10), and with lines alone right the whole plan is not", () => {
    const sets = { breaker: A(400), sizes: ["3/0"], sets: 2, terminals: C(75), groundSize: "3" };
    assertEquals(plan({ ...sets, neutralSize: "1", neutralLoad: A(100) }).verdict, "not ok");
    assertEquals(plan({ ...sets, neutralSize: "1/0", neutralLoad: A(300) }).verdict, "ok");
    assertEquals(plan({ ...sets, neutralSize: "1/0", neutralLoad: A(301) }).verdict, "not ok");
  });
  it("stand in the text of the request", () => {
    const { input, write } = engine.questions.find(({ id }) => id === "feeder")!;
    const text = write(input.parse({ sizes: ["4/0"], neutralSize: "2/0", groundSize: "4" }));
    assertStringIncludes(text, "neutral 2/0 AWG; ground 4 AWG");
  });
});

describe("what the run decides", () => {
  it("a feeder of exactly 100 A for a whole dwelling is sized at 60 °C unless marked, listed (110.14(C)(1)(a))", () => {
    for (const edition of EDITIONS) {
      const whole = (more: object) =>
        answered(feeder({ wholeDwelling: true, breaker: A(100), material: "copper", ...more }), { edition });
      // 83 A: 3 AWG carries 85 A at 60 °C, 4 AWG 85 A at 75 °C.
      assertEquals(figure(whole({}), "ungrounded-conductor"), "3", edition);
      assert(whole({}).assumptions.some(({ name, value }) => name === "terminations" && value.startsWith("60")));
      assertEquals(figure(whole({ terminals: C(75) }), "ungrounded-conductor"), "4", edition);
      assertEquals(figure(whole({ breaker: A(110) }), "ungrounded-conductor"), "3", edition);
      assert(whole({ breaker: A(110) }).assumptions.some(({ name }) => name === "terminations"));
      assertEquals(whole({ sizes: ["4"] }).verdict, "ok if");
    }
  });
  it("telling the ambient of the table changes nothing, however large the conductor (310.12)", () => {
    for (const [rating, material] of [[400, "aluminum"], [350, "copper"], [200, "aluminum"]] as const) {
      const request = { supply: "service", wholeDwelling: true, breaker: A(rating), material };
      const told = (more: object) => {
        const answer = answered(feeder({ ...request, ...more }), { edition: "2023" });
        return [figure(answer, "ungrounded-conductor"), answer.figures["parallel-sets"]?.value];
      };
      const untold = told({});
      for (const more of [{ ambient: C(30) }, { ambient: C(28) }, { conductors: 3 }, { terminals: C(75) }]) {
        assertEquals(told(more), untold, JSON.stringify({ rating, ...more }));
      }
    }
    assertEquals(size({ supply: "service", wholeDwelling: true, breaker: A(400), material: "aluminum" }), "600 kcmil");
  });
  it("SE cable in thermal insulation is held to 60 °C only to 10 AWG (338.10(B)(4)(a))", () => {
    const se = { method: "SE cable", inInsulation: true, terminals: C(75), material: "copper" };
    assertEquals(size({ ...se, breaker: A(100) }), "3");
    // 10 AWG carries 30 A at 60 °C and 35 A at 75 °C; 8 AWG is beyond the limit.
    assertEquals(size({ ...se, breaker: A(35), load: A(31) }), "8");
    assertEquals(figure(answered(feeder({ ...se, breaker: A(30), sizes: ["10"] })), "ampacity"), 30);
    const secondary = (inInsulation: boolean) =>
      figure(
        answered({
          kind: "transformer",
          power: { value: 25, unit: "kVA" },
          phases: 1,
          primary: V(480),
          secondary: V(240),
          system: "120/240",
          ...se,
          inInsulation,
        }),
        "secondary-conductor",
      );
    assertEquals(secondary(true), secondary(false));
  });
  it("NM cable ends at 2 AWG (334.104) and UF cable at 4/0 (340.104)", () => {
    const refused = (request: object) => {
      const outcome = ask(request as Request);
      return outcome.outcome === "not covered" ? outcome.because : outcome.outcome;
    };
    const nm = { method: "NM cable", material: "copper" };
    assertStringIncludes(refused(feeder({ ...nm, breaker: A(200) })), "334.104");
    assertStringIncludes(refused(feeder({ ...nm, breaker: A(200) })), "conductors in conduit");
    assertEquals(size({ ...nm, breaker: A(100), load: A(95) }), "2");
    assertStringIncludes(refused(feeder({ ...nm, breaker: A(100), load: A(96) })), "2 AWG");
    assertStringIncludes(refused(feeder({ method: "UF cable", breaker: A(225), sets: 1 })), "340.104");
    const circuit = { kind: "branch-circuit", volts: V(240), phases: 1, ...nm };
    assertStringIncludes(refused({ ...circuit, loads: [{ rating: A(120) }] }), "334.104");
    // A run whose drop would ask for more than is made.
    assertStringIncludes(refused({ ...circuit, loads: [{ rating: A(50) }], length: ft(600) }), "334.104");
    const transformer = { kind: "transformer", primary: V(480), secondary: V(208), system: "208Y/120", ...nm };
    assertStringIncludes(refused({ ...transformer, power: { value: 75, unit: "kVA" } }), "334.104");
  });
  it("a plan in a cable that is not made so large is not ok, and told what will do in conduit", () => {
    const plan = answered(feeder({ breaker: A(100), method: "NM cable", sizes: ["1/0"], material: "copper" }));
    assertEquals([plan.verdict, figure(plan, "ungrounded-conductor")], ["not ok", "1"]);
    assertStringIncludes(plan.headline, "334.104");
    assert(plan.cautions.some(({ text }) => text.includes("conduit")));
    const circuit = { kind: "branch-circuit", breaker: A(125), volts: V(240), phases: 1, material: "copper" };
    const branch = answered({ ...circuit, size: "1/0", method: "NM cable", check: true });
    assertEquals(branch.verdict, "not ok");
    assertStringIncludes(branch.headline, "334.104");
  });
  it("a method that may not be used there fails a plan, and is a caution otherwise (334.12(B)(4), 310.10)", () => {
    const at60 = { breaker: A(60), load: A(50), material: "copper", terminals: C(75), sizes: ["6"], check: true };
    const verdict = (request: object) => answered(feeder({ ...at60, ...request })).verdict;
    assertEquals(verdict({ method: "NM cable" }), "ok");
    assertEquals(verdict({ method: "NM cable", wet: true }), "not ok");
    assertEquals(verdict({ method: "NM cable", rooftop: true }), "not ok");
    assertEquals(verdict({ method: "NM cable", where: "separate structure" }), "ok if");
    assertEquals(verdict({ method: "UF cable", wet: true, where: "separate structure" }), "ok");
    // 338.12(A)(2): not in the earth, in conduit or not.
    assertEquals(verdict({ method: "SE cable" }), "ok");
    assertEquals(verdict({ method: "SE cable", wet: true }), "ok if");
    assertEquals(verdict({ method: "SE cable", where: "separate structure" }), "ok if");
    const buried = { method: "direct-burial conductors" };
    assertEquals(verdict({ ...buried, insulation: "USE-2" }), "ok");
    assertEquals(verdict({ ...buried, insulation: "XHHW-2" }), "ok if");
    assertEquals(verdict({ ...buried, insulation: "THWN-2" }), "not ok");
    const { verdict: none, cautions } = answered(feeder({ breaker: A(60), method: "NM cable", wet: true }));
    assertEquals(none, undefined);
    assert(cautions.some(({ text }) => text.includes("wet places")));
    // Said in words.
    for (
      const text of [
        "may I bury 2/0 aluminum SER to the barn on 125 A?",
        "6/3 NM on the outside wall, 50 A subpanel, ok?",
      ]
    ) {
      const outcome = engine.ask(text);
      assert(outcome.outcome === "answered");
      assertEquals((outcome.answer.request as { wet?: boolean }).wet, true, text);
      assert(outcome.answer.verdict !== "ok");
    }
    // A tap is no exception.
    const tap = { tappedFrom: A(200), length: ft(8), method: "NM cable", wet: true };
    assertEquals(verdict(tap), "not ok");
  });
  it("a 60 °C conductor has no ampacity left above 55 °C: said by its reason, not by a cable's end (310.15(B))", () => {
    const hot = { method: "UF cable", ambient: C(56) };
    const outcomes = [
      feeder({ breaker: A(100), ...hot }),
      { kind: "branch-circuit", loads: [{ current: A(20) }], volts: V(240), phases: 1, ...hot },
      { kind: "conductor-ampacity", size: "8", ...hot },
      { kind: "motor-circuit", power: { value: 5, unit: "hp" }, volts: V(230), supply: "single-phase", ...hot },
      { kind: "cooling-circuit", minimumCircuitAmpacity: A(20), maximumProtection: A(30), ...hot },
      { kind: "voltage-drop", find: "conductor", load: A(20), volts: V(240), length: ft(90), ...hot },
    ].map((request) => ask(request as Request));
    for (const outcome of outcomes) {
      assert(outcome.outcome === "not covered");
      assertStringIncludes(outcome.because, "no ampacity left");
      assertStringIncludes(outcome.because, "in conduit");
    }
    assertEquals(size({ breaker: A(60), load: A(10), ...hot, ambient: C(55) }), "1/0");
    const plans = [
      { kind: "conductor-ampacity", size: "8", breaker: A(30), ...hot },
      {
        kind: "motor-circuit",
        power: { value: 5, unit: "hp" },
        volts: V(230),
        supply: "single-phase",
        size: "8",
        ...hot,
      },
      { kind: "cooling-circuit", minimumCircuitAmpacity: A(20), maximumProtection: A(30), size: "8", ...hot },
      { kind: "transformer", power: { value: 10, unit: "kVA" }, phases: 1, primary: V(480), primarySize: "8", ...hot },
    ];
    for (const request of plans) {
      const plan = answered(request as Request);
      assertEquals(plan.verdict, "not ok", request.kind);
      assertStringIncludes(plan.headline, "no ampacity left");
    }
    // A feeder's plan is told what will do, too.
    const plan = answered(feeder({ breaker: A(60), sizes: ["4"], neutralLoad: A(20), ...hot }));
    assertEquals([plan.verdict, figure(plan, "ungrounded-conductor")], ["not ok", "4"]);
    assertStringIncludes(plan.headline, "no ampacity left");
    assertStringIncludes(plan.headline, "In aluminum");
    const inTw = { insulation: "TW", method: "conductors in conduit", ambient: { value: 140, unit: "°F" } };
    assertEquals(answered(feeder({ breaker: A(60), sizes: ["4"], ...inTw })).verdict, "not ok");
  });
  it("service conductors are 8 AWG copper or 6 AWG aluminum at least (230.23(B), 230.31(B)), its rating 60 A (230.79)", () => {
    for (const edition of EDITIONS) {
      const service = (request: object) =>
        answered(feeder({ supply: "service", terminals: C(75), ...request }), { edition });
      const wire = (request: object) =>
        ["ungrounded-conductor", "neutral-conductor", "breaker-rating"].map((id) => figure(service(request), id));
      assertEquals(wire({ breaker: A(30), load: A(20), material: "copper" }), ["8", "8", 30]);
      assertEquals(wire({ breaker: A(30), load: A(20), material: "aluminum" }), ["6", "6", 30]);
      assertEquals(wire({ load: A(20), material: "copper" }), ["6", "6", 60]);
      assertEquals(wire({ load: A(61), material: "copper" }), ["6", "6", 70]);
      assertEquals(wire({ load: A(20), wholeDwelling: true, material: "copper" })[2], 100);
      const small = service({ breaker: A(30), sizes: ["10"], material: "copper", check: true });
      assertEquals(small.verdict, "not ok");
      assertStringIncludes(small.headline, "8 AWG copper or larger");
      assert(small.cautions.some(({ text }) => text.includes("60 A or more")));
      assertEquals(service({ breaker: A(50), sizes: ["8"], material: "copper", check: true }).verdict, "ok");
    }
    // A feeder may be smaller.
    assertEquals(size({ breaker: A(30), load: A(20), material: "copper" }), "10");
  });
  it("a one-family dwelling in a structure of its own takes a disconnect of 100 A (225.39(C))", () => {
    const said = (request: object) =>
      answered(feeder({ where: "separate structure", ...request })).cautions
        .filter(({ text }) => text.startsWith("The disconnect")).map(({ text }) => /\d+ A/.exec(text)![0]);
    assertEquals(said({ breaker: A(60), wholeDwelling: true }), ["100 A"]);
    assertEquals(said({ breaker: A(100), wholeDwelling: true }), []);
    assertEquals(said({ breaker: A(50) }), ["60 A"]);
    assertEquals(said({ breaker: A(60) }), []);
  });
});

describe("the drop", () => {
  it("gives the ampacity of the conductor that was chosen for it (Table 310.16)", () => {
    const long = answered(feeder({ breaker: A(50), length: ft(700), material: "copper" }));
    assertEquals([figure(long, "ungrounded-conductor"), figure(long, "ampacity")], ["2/0", 145]);
  });

  it("makes the conductor larger, and no larger than it must be", () => {
    for (const material of ["copper", "aluminum"]) {
      for (const length of [100, 250, 400]) {
        const open = answered(feeder({ breaker: A(100), material, length: ft(length) }));
        assert(Number(figure(open, "voltage-drop")) <= 3);
        const chosen = String(figure(open, "ungrounded-conductor"));
        const smaller = SIZES[rank(chosen) - 1]!;
        const plan = answered(
          feeder({ breaker: A(100), material, length: ft(length), sizes: [smaller], terminals: C(75) }),
        );
        const fails = plan.verdict !== "ok";
        assert(
          fails || rank(String(size({ breaker: A(100), material, terminals: C(75) }))) < rank(chosen),
          `${length} ft ${material}`,
        );
      }
    }
  });

  it("agrees with the handbook figures: 2 × 50 A × 0.10 Ω/kft × 700 ft (Chapter 9, Table 9)", () => {
    const answer = answered(feeder({ breaker: A(50), length: ft(700), material: "copper" }));
    assertAlmostEquals(Number(figure(answer, "voltage-drop-volts")), 7, 1e-9);
  });

  it("is a share of the voltage that was told: 230 V of a 240 V system", () => {
    const run = { breaker: A(90), load: A(70), sizes: ["2"], length: ft(250), material: "copper" };
    const [of230, of240] = [230, 240].map((volts) => answered(feeder({ ...run, volts: V(volts) })));
    const volts = figure(of240!, "voltage-drop-volts") as number;
    assertEquals(figure(of230!, "voltage-drop-volts"), volts);
    assertAlmostEquals(figure(of230!, "voltage-drop") as number, volts / 230 * 100, 1e-9);
    assertAlmostEquals(figure(of240!, "voltage-drop") as number, volts / 240 * 100, 1e-9);
    // The same circuit in every kind that has a run.
    const same = { material: "copper", length: ft(100), powerFactor: 1, conduit: "PVC", volts: V(230) };
    const motor = {
      kind: "motor-circuit",
      power: { value: 3, unit: "hp" },
      supply: "single-phase",
      size: "10",
      ...same,
    };
    const kinds = [
      motor,
      { kind: "voltage-drop", find: "drop", load: A(17), circuit: "single-phase", size: "10", ...same },
      { kind: "branch-circuit", loads: [{ current: A(17) }], phases: 1, size: "10", check: true, ...same },
      { kind: "feeder", breaker: A(30), load: A(17), phases: 1, sizes: ["10"], ...same },
    ];
    // Chapter 9, Table 9: 1.2 Ω/kft, 2 × 17 A × 0.1 kft × 1.2 Ω = 4.08 V, of 230 V.
    for (const request of kinds) {
      assertAlmostEquals(figure(answered(request as Request), "voltage-drop") as number, 4.08 / 230 * 100, 1e-9);
    }
  });
  it("is left out when told", () => {
    const answer = answered(feeder({ breaker: A(100), length: ft(500), ignoreDrop: true, material: "copper" }));
    assertEquals(figure(answer, "ungrounded-conductor"), "1");
    assert(!("voltage-drop" in answer.figures));
  });
});

describe("a plan", () => {
  const CHECKS: [string, object, string, string?][] = [
    // EC&M and forum readings of 334.80 with 240.4(B): 6 AWG NM is 55 A, on 60 A with a load of at most 55 A.
    [
      "6/3 NM on 60 A with 58 A",
      { breaker: A(60), load: A(58), sizes: ["6"], cableWires: 3, method: "NM cable" },
      "not ok",
    ],
    [
      "6/3 NM on 60 A with 55 A",
      { breaker: A(60), load: A(55), sizes: ["6"], cableWires: 3, method: "NM cable" },
      "ok",
    ],
    ["6/3 NM on 60 A", { breaker: A(60), sizes: ["6"], cableWires: 3, method: "NM cable" }, "ok if", "at most 55 A"],
    ["10/3 on 60 A", { breaker: A(60), sizes: ["10"], cableWires: 3, method: "NM cable" }, "not ok", "30 A"],
    ["10/3 UF on 30 A", { breaker: A(30), sizes: ["10"], cableWires: 3, method: "UF cable" }, "ok"],
    // 250.122(B): 10 AWG × 16510 ÷ 10380 is 8 AWG, and such cable has 10 AWG (common practice, no source).
    [
      "8/3 UF on 30 A",
      { breaker: A(30), sizes: ["8"], cableWires: 3, method: "UF cable" },
      "ok if",
      "its ground is 8 AWG",
    ],
    ["6 AWG on 70 A", { breaker: A(70), sizes: ["6"] }, "ok if", "75 °C"],
    ["6 AWG NM on 70 A", { breaker: A(70), sizes: ["6"], method: "NM cable" }, "not ok"],
    ["2 AWG aluminum on 90 A at 75 °C", { breaker: A(90), sizes: ["2"], material: "aluminum", terminals: C(75) }, "ok"],
    // 90 A is itself a standard rating, so 100 A is two steps above 2 AWG aluminum.
    [
      "2 AWG aluminum on 100 A at 75 °C",
      { breaker: A(100), sizes: ["2"], material: "aluminum", terminals: C(75) },
      "not ok",
    ],
    ["two sets of 1 AWG", { breaker: A(200), sizes: ["1"], sets: 2, terminals: C(75) }, "not ok", "1/0"],
    ["four sets of 350 kcmil on 1200 A", { breaker: A(1200), sizes: ["350 kcmil"], sets: 4 }, "ok"],
    // Above 800 A the device may not exceed the ampacity (240.4(C)): 3 × 420 A is 1260 A, 3 × 380 A is 1140 A.
    ["three sets of 500 kcmil on 1200 A", { breaker: A(1200), sizes: ["500 kcmil"], sets: 3 }, "not ok"],
    ["three sets of 600 kcmil on 1200 A", { breaker: A(1200), sizes: ["600 kcmil"], sets: 3 }, "ok"],
    [
      "a two-wire cable to a panel",
      { breaker: A(40), sizes: ["6"], cableWires: 2, method: "NM cable" },
      "ok if",
      "neutral",
    ],
    ["a 60 A panel behind 100 A", { breaker: A(100), panel: A(60), check: true }, "not ok", "main of its own"],
    ["70 A of load on 60 A", { breaker: A(60), load: A(70), check: true }, "not ok", "more than"],
    [
      "a long run of a big enough size",
      { breaker: A(30), sizes: ["8"], method: "UF cable", length: ft(250) },
      "ok if",
      "drop",
    ],
  ];
  for (const [name, request, verdict, because] of CHECKS) {
    it(`${name}: ${verdict}`, () => {
      const answer = answered(feeder({ material: "copper", ...request }));
      assertEquals(answer.verdict, verdict, answer.headline);
      if (because) assertStringIncludes(answer.verdictBecause!, because);
    });
  }

  it("of several sizes is answered for each", () => {
    const answer = answered(feeder({ breaker: A(60), sizes: ["6", "4"], material: "copper", method: "NM cable" }));
    assertEquals(answer.verdict, "ok if");
    assertStringIncludes(answer.verdictBecause!, "or it is 4 AWG");
  });
});

describe("a tap", () => {
  // 240.21(B)(1) and (2); 10 ft and a tenth, 25 ft and a third, no next size up.
  const tap = (length: number, end = 100) =>
    answered(feeder({ tappedFrom: A(600), breaker: A(end), length: ft(length), material: "copper", terminals: C(75) }));
  it("is sized for what it feeds and its share of the device ahead", () => {
    assertEquals(figure(tap(10), "ungrounded-conductor"), "3");
    assertEquals(figure(tap(10.1), "ungrounded-conductor"), "3/0");
    assertEquals(figure(tap(25), "ungrounded-conductor"), "3/0");
    assertEquals(tap(25.1).verdict, "not ok");
  });
  it("asks for its length", () => {
    const outcome = ask(feeder({ tappedFrom: A(600), breaker: A(100) }));
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "length");
  });
});

describe("what must be told", () => {
  const CASES: [string, object, string][] = [
    ["neither rating nor load", {}, "load"],
    ["three phases without a voltage", { breaker: A(100), phases: 3 }, "volts"],
    ["208 V without phases", { breaker: A(100), volts: V(208) }, "phases"],
    ["an unknown voltage", { breaker: A(100), volts: V(250) }, "volts"],
  ];
  for (const [name, request, field] of CASES) {
    it(`${name}: asks for ${field}`, () => {
      const outcome = ask(feeder(request));
      assert(outcome.outcome === "unclear", JSON.stringify(outcome));
      assertEquals(outcome.needs[0]!.field, field);
    });
  }
});

describe("the answer to the garage", () => {
  it("holds the whole set in one", () => {
    const answer = answered("garage subpanel 150 ft, 100 amp, aluminum ok?");
    assertEquals(answer.verdict, "ok");
    for (
      const part of [
        "1/0 AWG aluminum",
        "neutral",
        "ground",
        "100 A breaker",
        "ground rods",
        "main breaker",
        "PVC",
        "drop",
      ]
    ) {
      assertStringIncludes(answer.headline, part);
    }
  });
});

const RATINGS = [15, 30, 50, 60, 90, 100, 125, 200, 225, 400, 600, 800, 1200, 2000];
const request = fc.record({
  breaker: fc.constantFrom(...RATINGS).map(A),
  material: fc.constantFrom("copper", "aluminum"),
  terminals: fc.constantFrom(60, 75).map(C),
  length: fc.integer({ min: 1, max: 500 }).map(ft),
  where: fc.constantFrom("same building", "separate structure"),
});

describe("for any feeder", () => {
  const area = (answer: ReturnType<typeof answered>) => {
    const row = editions.get("2023")!.table("conductor-properties").row(
      String(figure(answer, "ungrounded-conductor")),
    )!;
    return Number(row[1]) * Number(answer.figures["parallel-sets"]?.value ?? 1);
  };
  it("a longer run never means less metal, nor does aluminum", () => {
    fc.assert(
      fc.property(request, (r) => {
        fc.pre(
          ask(feeder({ ...r, sets: 4, length: ft(r.length.value * 2), material: "aluminum" })).outcome === "answered",
        );
        const one = area(answered(feeder({ ...r, sets: 4 })));
        const longer = area(answered(feeder({ ...r, sets: 4, length: ft(r.length.value * 2) })));
        assert(longer >= one);
        const copper = area(answered(feeder({ ...r, sets: 4, material: "copper" })));
        const aluminum = area(answered(feeder({ ...r, sets: 4, material: "aluminum" })));
        assert(aluminum >= copper);
      }),
      { numRuns: 25 },
    );
  });

  it("hotter air never means a smaller conductor", () => {
    fc.assert(
      fc.property(request, fc.integer({ min: 10, max: 45 }), (r, degrees) => {
        fc.pre(r.breaker.value <= 800);
        const at = (value: number) =>
          area(answered(feeder({ ...r, sets: 4, ignoreDrop: true, ambient: { value, unit: "°C" } })));
        assert(at(degrees + 5) >= at(degrees));
      }),
      { numRuns: 25 },
    );
  });

  it("every edition ends in an outcome and never throws", () => {
    const more = fc.record({
      supply: fc.option(fc.constantFrom("feeder", "service"), { nil: undefined }),
      wholeDwelling: fc.option(fc.boolean(), { nil: undefined }),
      breaker: fc.option(fc.constantFrom(...RATINGS, 5000).map(A), { nil: undefined }),
      load: fc.option(fc.integer({ min: 1, max: 3000 }).map(A), { nil: undefined }),
      volts: fc.option(fc.constantFrom(120, 208, 220, 240, 480, 123).map(V), { nil: undefined }),
      phases: fc.option(fc.constantFrom(1, 3), { nil: undefined }),
      sizes: fc.option(fc.constantFrom(["14"], ["6"], ["4/0", "2"], ["600 kcmil"]), { nil: undefined }),
      sets: fc.option(fc.integer({ min: 1, max: 6 }), { nil: undefined }),
      method: fc.option(fc.constantFrom("NM cable", "UF cable", "SE cable", "conductors in conduit"), {
        nil: undefined,
      }),
      length: fc.option(fc.integer({ min: 1, max: 5000 }).map(ft), { nil: undefined }),
      tappedFrom: fc.option(fc.constantFrom(100, 400, 1200).map(A), { nil: undefined }),
    });
    fc.assert(
      fc.property(more, fc.constantFrom(...EDITIONS), (r, edition) => {
        const set = JSON.parse(JSON.stringify(r));
        sound(ask(feeder(set), { edition }));
      }),
      { numRuns: 150 },
    );
  });
});

describe("a feeder request written out", () => {
  const read = makeReader(engine.questions);
  const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
  const any = fc.record({
    where: maybe(fc.constantFrom("same building", "separate structure")),
    breaker: fc.constantFrom(...RATINGS).map(A),
    load: maybe(fc.integer({ min: 1, max: 90 }).map(A)),
    continuous: maybe(fc.integer({ min: 1, max: 90 }).map((value) => ({ value, unit: "kW" }))),
    neutralLoad: maybe(fc.integer({ min: 1, max: 90 }).map(A)),
    source: maybe(fc.constantFrom(100, 200).map(A)),
    panel: maybe(fc.constantFrom(100, 200).map(A)),
    volts: maybe(fc.constantFrom(208, 240, 480).map(V)),
    phases: maybe(fc.constantFrom(1, 3)),
    sets: maybe(fc.integer({ min: 2, max: 6 })),
    together: maybe(fc.constant(false)),
    sizes: maybe(fc.constantFrom(["6"], ["4/0"], ["250 kcmil"])),
    wires: maybe(fc.constantFrom(3, 4)),
    material: maybe(fc.constantFrom("copper", "aluminum")),
    groundMaterial: maybe(fc.constantFrom("copper", "aluminum")),
    insulation: maybe(fc.constantFrom("THHN", "XHHW-2")),
    terminals: maybe(fc.constantFrom(60, 75).map(C)),
    ambient: maybe(fc.integer({ min: 20, max: 50 }).map(C)),
    length: maybe(fc.integer({ min: 1, max: 900 }).map(ft)),
    dropLimit: maybe(fc.integer({ min: 1, max: 9 }).map((value) => ({ value, unit: "%" }))),
    neutral: maybe(fc.constant(false)),
    nonlinear: maybe(fc.constant(true)),
    wholeDwelling: maybe(fc.boolean()),
    check: maybe(fc.constant(true)),
  });
  it("reads back the same", () => {
    const { input, write } = engine.questions.find(({ id }) => id === "feeder")!;
    fc.assert(
      fc.property(any, (r) => {
        const wanted = JSON.parse(JSON.stringify({ supply: "feeder", ...r }));
        const text = write(input.parse(wanted));
        const parsed = read(text);
        assertEquals(parsed.question?.id, "feeder", text);
        assert(parsed.question);
        assertEquals({ ...parsed.draft }, wanted, text);
      }),
      { numRuns: 300 },
    );
  });
});
