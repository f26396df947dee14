/** One rule, one reading: what the kinds share must come out alike in all of them. Driven by requests, not by texts. */
import { assert, assertEquals, assertStringIncludes, assertThrows } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, editions, figure } from "./support/engine.ts";

const A = (value: number) => ({ value, unit: "A" });
const V = (value: number) => ({ value, unit: "V" });
const C = (value: number) => ({ value, unit: "°C" });
const ft = (value: number) => ({ value, unit: "ft" });
const hp = (value: number | string) => ({ value, unit: "hp" });
const request = (kind: string) => (of: object): Request => ({ kind, ...of });
const branch = request("branch-circuit");
const feeder = request("feeder");
const motor = request("motor-circuit");
const motors = request("motor-feeder");
const cooling = request("cooling-circuit");
const drop = request("voltage-drop");
const load = (amperes: number, continuous = false) => [{ rating: A(amperes), continuous }];
const SIZES = editions.get("2023")!.table("conductor-properties").data.rows.map((row) => String(row[0]));
const rank = (word: number | string) => SIZES.indexOf(String(word));
const said = (of: Request, edition = "2023") => answered(of, { edition });

describe("a cable that is named passes the conductor's own tests", () => {
  const charger = [{ kind: "ev-charger", rating: A(48) }];
  it("no NM cable of a size that its 60 °C column does not allow (334.80)", () => {
    // 48 A × 125 % = 60 A; 6 AWG is 65 A at 75 °C and 55 A at 60 °C.
    const answer = said(branch({ loads: charger, terminals: C(75) }));
    assertEquals(figure(answer, "conductor"), "6");
    assertEquals(answer.figures.cable, undefined);
    assert(answer.cautions.some(({ text }) => text.includes("4 AWG")), "the size it would have to be");
  });
  it("a cable where it does", () => {
    const answer = said(branch({ loads: [{ kind: "ev-charger", rating: A(32) }], terminals: C(60) }));
    assertStringIncludes(String(figure(answer, "cable")), "8/2 NM-B");
  });
  it("no cable whose own ground is smaller than the one the raised conductors take (250.122(B))", () => {
    // 20 A circuit, 12 AWG raised to 8 AWG or more for 250 ft at 120 V: the ground grows with it, cable's 8/2 has 10 AWG.
    const long = said(branch({ loads: load(16), volts: V(120), length: ft(120), material: "copper" }));
    assertEquals(figure(long, "conductor"), "8");
    assertEquals(figure(long, "equipment-grounding-conductor"), "8");
    assertEquals(long.figures.cable, undefined);
    assert(long.cautions.some(({ text }) => text.includes("In NM cable only where its ground is 8 AWG")));
    const named = said(branch({ loads: load(16), volts: V(120), length: ft(120), method: "NM cable" }));
    assert(named.cautions.some(({ text }) => text.includes("its ground is 8 AWG at least")));
    assert(!named.cautions.some(({ text }) => text.includes("AWG AWG")));
  });
  it("makes a plan hang on it in every kind: 250.122(B), 1 AWG and larger put up where 4 AWG would do", () => {
    const cable = { method: "MC cable", material: "copper", terminals: C(75) };
    const plans = [
      branch({ loads: load(60), volts: V(240), ...cable, breaker: A(70), size: "1", check: true }),
      feeder({ breaker: A(70), load: A(60), ...cable, sizes: ["1"], check: true }),
      cooling({ minimumCircuitAmpacity: A(60), maximumProtection: A(100), ...cable, size: "1" }),
      motor({ power: hp(25), volts: V(230), supply: "three-phase", ...cable, size: "1/0" }),
      motors({
        motors: [{ power: hp(25) }, { power: hp(10) }],
        volts: V(460),
        supply: "three-phase",
        ...cable,
        size: "1",
      }),
      request("transformer")({
        power: { value: 45, unit: "kVA" },
        primary: V(480),
        system: "208Y/120",
        protection: "primary and secondary",
        ...cable,
        primaryBreaker: A(70),
        primarySize: "1",
      }),
    ];
    for (const plan of plans) {
      const { verdict, verdictBecause } = said(plan);
      assertEquals(verdict, "ok if", plan.kind);
      assert(verdictBecause!.includes("its ground is"), plan.kind);
    }
  });
  it("is said in every kind that takes a cable", () => {
    const long = { method: "NM cable", length: ft(300), material: "copper", terminals: C(60) };
    const all = [
      branch({ loads: load(16), volts: V(240), ...long }),
      feeder({ breaker: A(20), load: A(16), ...long }),
      cooling({ minimumCircuitAmpacity: A(16), maximumProtection: A(20), ...long }),
      motor({ power: hp("3/2"), volts: V(230), supply: "single-phase", ...long }),
    ];
    for (const each of all) {
      const { cautions } = said(each);
      assert(cautions.some(({ text }) => text.includes("its ground is")), each.kind);
    }
  });
});

describe("conductors in parallel are 1/0 AWG or larger (310.10(G))", () => {
  const small = { size: "8", sets: 2, material: "copper" };
  const plans: [string, Request][] = [
    ["motor circuit", motor({ power: hp(50), volts: V(460), supply: "three-phase", ...small })],
    ["motor feeder", motors({ motors: [{ count: 2, power: hp(20) }], volts: V(460), supply: "three-phase", ...small })],
    ["voltage drop", drop({ load: A(60), volts: V(240), length: ft(50), check: true, ...small })],
    ["feeder", feeder({ breaker: A(60), load: A(40), sizes: ["8"], sets: 2, material: "copper" })],
  ];
  for (const [name, plan] of plans) {
    it(`${name}: two sets of 8 AWG are not ok, two of 1/0 are`, () => {
      for (const edition of EDITIONS) assertEquals(said(plan, edition).verdict, "not ok", edition);
      const large = { ...plan, ...("sizes" in plan ? { sizes: ["1/0"] } : { size: "1/0" }) } as Request;
      assertEquals(said(large).verdict, "ok");
    });
  }
  it("the neutral of parallel sets too, in a feeder and in a service", () => {
    for (const supply of ["feeder", "service"]) {
      for (const edition of EDITIONS) {
        const answer = said(
          feeder({ supply, breaker: A(400), sets: 2, neutralLoad: A(40), material: "copper" }),
          edition,
        );
        assertEquals(figure(answer, "neutral-conductor"), "1/0", `${supply}, ${edition}`);
      }
    }
  });
  it("each raceway's neutral goes by the conductors in it, not by all sets (250.24(C)(2))", () => {
    // Two sets of 500 kcmil copper: by 1000 kcmil together the table says 2/0, by 500 kcmil of one raceway 1/0.
    const answer = (together: boolean) =>
      said(feeder({ supply: "service", breaker: A(700), sets: 2, sizes: ["500 kcmil"], neutralLoad: A(20), together }));
    assertEquals(figure(answer(false), "neutral-conductor"), "1/0");
    // Four sets of 500 kcmil in one raceway: 12.5 % of 2000 kcmil is 250 kcmil, shared by four: 1/0 is enough of each.
    assertEquals(figure(answer(true), "neutral-conductor"), "1/0");
  });
});

describe("the ground starts to grow from what load and device need (250.122(B))", () => {
  it("a plan without a load from what its device needs, as with the full load told", () => {
    for (const edition of EDITIONS) {
      for (
        const [breaker, size, ground] of [[20, "6", "6"], [20, "10", "10"], [30, "6", "6"], [60, "4", "10"]] as const
      ) {
        const plan = { breaker: A(breaker), size, terminals: C(60), material: "copper", volts: V(240), check: true };
        const without = said(branch(plan), edition);
        const withLoad = said(branch({ ...plan, loads: load(breaker) }), edition);
        const words = `${size} on ${breaker} A, ${edition}`;
        assertEquals(figure(without, "equipment-grounding-conductor"), ground, words);
        assertEquals(figure(withLoad, "equipment-grounding-conductor"), ground, words);
        // The question of the ground alone, told the same circuit.
        const alone = request("grounding")({ find: ["equipment ground"], devices: [A(breaker)], size });
        assertEquals(figure(said(alone, edition), "equipment-grounding-conductor"), ground, words);
      }
    }
  });
  it("larger conductors of a circuit told by its breaker alone are raised ones, listed, unless told to be for heat", () => {
    const asked = ask("#6 copper on a 20 A breaker, what size equipment ground?");
    assert(asked.outcome === "answered");
    assertEquals(figure(asked.answer, "equipment-grounding-conductor"), "6");
    const listed = asked.answer.assumptions.find(({ name }) => name === "ungrounded conductors")!;
    const hot = ask(listed.change, { after: asked.answer.request as Request });
    assert(hot.outcome === "answered");
    assertEquals(figure(hot.answer, "equipment-grounding-conductor"), "12");
  });
  it("a single conductor in place of parallel sets is no increase", () => {
    // 150 hp at 230 V: 360 A × 125 % = 450 A, which 700 kcmil (460 A) just carries; 1000 A device: 2/0 by the table.
    const plan = motor({ power: hp(150), volts: V(230), supply: "three-phase", size: "700 kcmil", material: "copper" });
    assertEquals(figure(said(plan), "equipment-grounding-conductor"), "2/0");
  });
  it("parallel sets start at 1/0, the least there is: no increase in any edition (310.10(G), Table 250.122)", () => {
    for (const edition of EDITIONS) {
      for (const plan of [{}, { sizes: ["1/0"], check: true }]) {
        const answer = said(feeder({ breaker: A(200), load: A(180), sets: 2, material: "copper", ...plan }), edition);
        assertEquals(figure(answer, "ungrounded-conductor"), "1/0", edition);
        assertEquals(figure(answer, "equipment-grounding-conductor"), "6", edition);
      }
    }
  });
  it("never shrinks where the next size up let a plan be smaller than its base", () => {
    const plan = feeder({ breaker: A(60), load: A(50), sizes: ["6"], terminals: C(60), material: "copper" });
    assertEquals(figure(said(plan), "equipment-grounding-conductor"), "10");
  });
  it("the size put up counts in the cooling circuit", () => {
    // 14 AWG carries 15 A at 60 °C; 20 A device: 12 AWG ground, capped by and grown to the 8 AWG put up.
    const plan = cooling({ minimumCircuitAmpacity: A(15), maximumProtection: A(20), size: "8", material: "copper" });
    const answer = said(plan);
    assertEquals(answer.verdict, "ok");
    assertEquals(figure(answer, "conductor"), "8");
    assertEquals(figure(answer, "equipment-grounding-conductor"), "8");
  });
  it("the size put up counts in the transformer", () => {
    const plan = { power: { value: 30, unit: "kVA" }, primary: V(480), secondary: V(208), system: "208Y/120" };
    const least = said({ kind: "transformer", ...plan } as Request);
    // 36.1 A primary, 50 A device: 8 AWG at 75 °C or 6 AWG at 60 °C; 10 AWG ground.
    assertEquals(figure(least, "equipment-grounding-conductor"), "10");
    const raised = said({ kind: "transformer", ...plan, primarySize: "2" } as Request);
    assertEquals(figure(raised, "primary-conductor"), "2");
    // 10.38 kcmil × 66.36 ÷ 26.24 = 26.25: one step above 6 AWG (26.24).
    assertEquals(figure(raised, "equipment-grounding-conductor"), "4");
  });
  it("counts after correction and adjustment in every edition: what the installation needs", () => {
    const hot = { ambient: C(50), insulation: "THWN", terminals: C(75), material: "copper" };
    const all = [
      feeder({ breaker: A(100), ...hot }),
      branch({ breaker: A(100), loads: load(100), volts: V(240), ...hot }),
      motor({ power: hp(40), volts: V(460), supply: "three-phase", ...hot }),
    ];
    for (const each of all) {
      const grounds = EDITIONS.map((edition) => figure(said(each, edition), "equipment-grounding-conductor"));
      assertEquals(new Set(grounds).size, 1, `${each.kind}: ${grounds}`);
    }
    assertEquals(figure(said(all[0]!, "2017"), "equipment-grounding-conductor"), "8");
  });
});

describe("the column at the ends is never above the conductor's own (110.14(C))", () => {
  it("TW on 75 °C terminals: 60 A of design current takes 4 AWG, not 6", () => {
    // 48 A continuous is 60 A; TW is a 60 °C wire: 6 AWG 55 A, 4 AWG 70 A.
    const tw = { insulation: "TW", terminals: C(75), material: "copper" };
    assertEquals(figure(said(branch({ loads: load(48, true), volts: V(240), ...tw })), "conductor"), "4");
    assertEquals(figure(said(feeder({ continuous: A(48), ...tw })), "ungrounded-conductor"), "4");
    assertEquals(
      figure(said(cooling({ minimumCircuitAmpacity: A(60), maximumProtection: A(80), ...tw })), "conductor"),
      "4",
    );
    assertEquals(figure(said({ kind: "conductor-ampacity", size: "6", ...tw } as Request), "termination-ampacity"), 55);
    const put = feeder({ breaker: A(70), load: A(60), sizes: ["6"], ...tw });
    assertEquals(said(put).verdict, "not ok");
  });
  it("a plan that needs 75 °C is not ok on 60 °C wire, whatever the terminations may be", () => {
    for (
      const each of [
        feeder({ breaker: A(60), load: A(60), sizes: ["6"], insulation: "TW", material: "copper" }),
        branch({ breaker: A(60), size: "6", loads: load(60), volts: V(240), insulation: "TW", check: true }),
        cooling({ minimumCircuitAmpacity: A(60), maximumProtection: A(80), size: "6", insulation: "TW" }),
      ]
    ) assertEquals(said(each).verdict, "not ok", each.kind);
  });
});

describe("a plan that holds only at 75 °C is ok if, in every kind (110.14(C))", () => {
  // 8 AWG copper: 40 A at 60 °C, 50 A at 75 °C.
  const eight = { material: "copper" };
  const plans: Request[] = [
    branch({ breaker: A(50), size: "8", loads: load(50), volts: V(240), check: true, ...eight }),
    feeder({ breaker: A(50), load: A(50), sizes: ["8"], ...eight }),
    cooling({ minimumCircuitAmpacity: A(50), maximumProtection: A(60), size: "8", ...eight }),
    drop({ breaker: A(50), load: A(50), volts: V(240), length: ft(20), size: "8", check: true, ...eight }),
    { kind: "conductor-ampacity", size: "8", breaker: A(50), ...eight } as Request,
    { kind: "conductor-ampacity", size: "8", load: A(48), ...eight } as Request,
    {
      kind: "transformer",
      power: { value: 30, unit: "kVA" },
      primary: V(480),
      secondary: V(208),
      system: "208Y/120",
      primaryBreaker: A(50),
      primarySize: "8",
      ...eight,
    } as Request,
  ];
  for (const plan of plans) {
    it(`${plan.kind}: unmarked ok if, marked 75 °C ok, marked 60 °C not`, () => {
      const is = (more: object) => said({ ...plan, ...more } as Request).verdict;
      assertEquals(is({}), "ok if");
      assertEquals(is({ terminals: C(75) }), "ok");
      assertEquals(is({ terminals: C(60) }), "not ok");
      if (plan.kind !== "transformer") assertEquals(is({ method: "NM cable" }), "not ok", "334.80 leaves nothing open");
    });
  }
});

describe("the neutral is worked like the lines beside it", () => {
  it("correction: 50 A in 50 °C air is 6 AWG, of a 60 A feeder at 60 °C terminations", () => {
    // 8 AWG at 90 °C: 55 A × 0.82 = 45.1 A; 6 AWG: 75 × 0.82 = 61.5 A. Table 310.15(B)(1)(1).
    const hot = feeder({ breaker: A(60), neutralLoad: A(50), ambient: { value: 122, unit: "°F" }, material: "copper" });
    for (const edition of EDITIONS) assertEquals(figure(said(hot, edition), "neutral-conductor"), "6", edition);
  });
  it("the told column: 45 A is 8 AWG at 75 °C and 6 AWG at 60 °C or in UF cable", () => {
    const neutral = (more: object) =>
      figure(said(feeder({ breaker: A(100), neutralLoad: A(45), material: "copper", ...more })), "neutral-conductor");
    assertEquals(neutral({ terminals: C(75) }), "8");
    assertEquals(neutral({ terminals: C(60) }), "6");
    assertEquals(neutral({ method: "UF cable" }), "6");
  });
  it("adjustment: nine conductors together are at 70 %", () => {
    // 6 AWG: 75 A × 70 % = 52.5 A; 8 AWG: 38.5 A. Table 310.15(C)(1).
    const many = feeder({ breaker: A(100), neutralLoad: A(45), terminals: C(75), conductors: 9, material: "copper" });
    assertEquals(figure(said(many), "neutral-conductor"), "6");
  });
  it("of nonlinear loads on three phases may be larger than the lines (220.61(C))", () => {
    const harmonic = feeder({
      volts: V(208),
      phases: 3,
      breaker: A(100),
      load: A(100),
      neutralLoad: A(170),
      nonlinear: true,
      terminals: C(75),
      material: "copper",
    });
    const answer = said(harmonic);
    assert(rank(figure(answer, "neutral-conductor")) > rank(figure(answer, "ungrounded-conductor")));
  });
});

describe("a fraction of an ampere below a half", () => {
  it("serves the check as it serves the choice (220.5(B))", () => {
    // 14.5 kW at 240 V is 60.4 A.
    const chosen = said(feeder({ load: { value: 14.5, unit: "kW" } }));
    assertEquals(chosen.verdict, undefined);
    assertEquals(figure(chosen, "breaker-rating"), 60);
    const plan = said(feeder({ load: { value: 14.5, unit: "kW" }, breaker: A(60), check: true }));
    assertEquals(plan.verdict, "ok");
    // 60.5 A is not below a half.
    assertEquals(said(feeder({ load: A(60.5), breaker: A(60), check: true })).verdict, "not ok");
  });
});

describe("surroundings are read alike", () => {
  it("air below freezing is cold air", () => {
    for (
      const each of [
        branch({ loads: load(20), volts: V(240), ambient: C(-20) }),
        feeder({ breaker: A(100), ambient: { value: -4, unit: "°F" } }),
        { kind: "conductor-ampacity", size: "8", ambient: C(-20) } as Request,
      ]
    ) assertEquals(ask(each).outcome, "answered", each.kind);
    assertThrows(() => ask(branch({ loads: load(20), ambient: C(-200) })));
  });
  it("THHN in a wet place counts as the THWN it is mostly marked as, in every kind", () => {
    const wet = { insulation: "THHN", wet: true, material: "copper" };
    for (
      const each of [
        branch({ loads: load(20), volts: V(240), ...wet }),
        feeder({ breaker: A(100), ...wet }),
        motor({ power: hp(10), volts: V(460), supply: "three-phase", ...wet }),
        cooling({ minimumCircuitAmpacity: A(20), maximumProtection: A(30), ...wet }),
        { kind: "conductor-ampacity", size: "8", ...wet } as Request,
      ]
    ) assert(said(each).assumptions.some(({ value }) => value === "THWN"), each.kind);
  });
  it("both wires of a 120 V circuit are in the count already (310.15(E))", () => {
    const many = (more: object) =>
      said(branch({ loads: load(16), volts: V(120), circuits: 3, ...more })).steps
        .find(({ name }) => name === "current-carrying conductors together")!.value;
    assertEquals(many({ neutralCounts: true }), many({}));
  });
  it("a conduit that the drop is reckoned with is listed", () => {
    const run = { length: ft(100), material: "copper" };
    for (
      const each of [
        feeder({ breaker: A(60), ...run }),
        motor({ power: hp(10), volts: V(460), supply: "three-phase", ...run }),
        cooling({ minimumCircuitAmpacity: A(20), maximumProtection: A(30), ...run }),
        branch({ loads: load(20), volts: V(240), ...run }),
      ]
    ) assert(said(each).assumptions.some(({ name, value }) => name === "conduit" && value === "PVC"), each.kind);
  });
  it("no breaker below 15 A is chosen unless it is named, in any edition", () => {
    for (const edition of EDITIONS) {
      assertEquals(figure(said(feeder({ load: A(6) }), edition), "breaker-rating"), 15, edition);
      assertEquals(figure(said(branch({ loads: load(6), volts: V(120) }), edition), "breaker-rating"), 15, edition);
    }
    assertEquals(figure(said(feeder({ load: A(6), breaker: A(10) })), "breaker-rating"), 10);
  });
});

describe("what refuses a plan is a step of its answer: a test that did not hold", () => {
  const wire = { material: "copper", insulation: "THHN", terminals: C(75) };
  const plan = { volts: V(240), check: true, ...wire };
  const fan = { power: hp(10), volts: V(230), supply: "three-phase", ...wire };
  const winding = { power: { value: 45, unit: "kVA" }, primary: V(480), system: "208Y/120", ...wire };
  const refused: [string, Request][] = [
    ["branch circuit, breaker (240.4(B))", branch({ loads: load(75), breaker: A(125), size: "3", ...plan })],
    ["branch circuit, small conductor (240.4(D))", branch({ loads: load(20), breaker: A(30), size: "12", ...plan })],
    ["branch circuit, load", branch({ loads: load(60), breaker: A(60), size: "8", ...plan })],
    [
      "branch circuit, receptacles (240.4(B)(1))",
      branch({
        loads: [{ kind: "receptacles", count: 8 }],
        breaker: A(20),
        size: "12",
        ...plan,
        volts: V(120),
        conductors: 10,
      }),
    ],
    ["feeder, breaker", feeder({ load: A(75), breaker: A(125), sizes: ["3"], ...plan })],
    ["feeder, load", feeder({ load: A(120), breaker: A(125), sizes: ["3"], ...plan })],
    ["ampacity, breaker", request("conductor-ampacity")({ size: "3", breaker: A(125), ...wire })],
    ["motor, conductor", motor({ ...fan, size: "12" })],
    ["motor, device", motor({ ...fan, breaker: A(225) })],
    [
      "motor feeder, device",
      motors({ motors: [{ count: 2, power: hp(10) }], volts: V(230), supply: "three-phase", ...wire, breaker: A(225) }),
    ],
    [
      "cooling, device",
      cooling({ minimumCircuitAmpacity: A(18), maximumProtection: A(30), breakers: [A(35)], ...wire }),
    ],
    ["cooling, conductor", cooling({ minimumCircuitAmpacity: A(40), maximumProtection: A(60), size: "12", ...wire })],
    [
      "transformer, device",
      request("transformer")({ ...winding, primaryBreaker: A(150), protection: "primary and secondary" }),
    ],
    [
      "transformer, conductor",
      request("transformer")({
        ...winding,
        primaryBreaker: A(70),
        primarySize: "8",
        protection: "primary and secondary",
      }),
    ],
    ["voltage drop", drop({ load: A(60), length: ft(50), size: "10", ...plan })],
    ["voltage drop, breaker", drop({ load: A(40), length: ft(50), size: "8", breaker: A(70), ...plan })],
    ["voltage drop, a size for no power circuit", drop({ load: A(60), length: ft(50), size: "18", ...plan })],
    ["grounding", request("grounding")({ find: ["equipment ground"], devices: [A(100)], ground: "10" })],
  ];
  for (const [name, of] of refused) {
    it(name, () => {
      const { verdict, steps } = said(of);
      assertEquals(verdict, "not ok");
      assert(steps.some((step) => step.kind === "chosen" && step.held === false));
    });
  }
});

describe("a line-to-neutral voltage is none between three lines", () => {
  it("is asked back in every kind (220.5(A) lists the systems)", () => {
    for (const volts of [120, 277]) {
      const three = { volts: V(volts), phases: 3 };
      for (
        const each of [
          branch({ loads: load(20), ...three }),
          feeder({ breaker: A(100), ...three }),
          cooling({ compressors: [{ ratedLoad: A(10) }], heat: { value: 5, unit: "kW" }, ...three }),
          drop({ load: A(20), volts: V(volts), circuit: "three-phase", length: ft(50), size: "8" }),
        ]
      ) {
        const outcome = ask(each);
        assert(outcome.outcome === "unclear", each.kind);
        assertEquals(outcome.needs[0]!.field, "volts");
      }
    }
  });
  it("120/277 is no system, and its voltages are not read as one", () => {
    for (const text of ["wire for a 60 A load on 120/277 V", "100 A feeder, 120/277 V, copper"]) {
      const outcome = ask(text);
      assert(outcome.outcome === "unclear", text);
    }
  });
});

describe("the next size up", () => {
  it("ends at 800 A, and a plan above it is told so (240.4(B), (C))", () => {
    // Three sets of 300 kcmil carry 855 A; four of 3/0 carry exactly 800.
    const plan = (sets: number, size: string, breaker: number) =>
      said(feeder({ breaker: A(breaker), load: A(700), sets, sizes: [size], material: "copper" }));
    const above = plan(3, "300 kcmil", 1000);
    assertEquals(above.verdict, "not ok");
    assert(above.headline.includes("above 800 A a breaker may not be more"), above.headline);
    assertEquals(plan(4, "3/0", 800).verdict, "ok");
    // 2 × 380 A = 760 A: 800 A is the next standard size.
    assertEquals(plan(2, "500 kcmil", 800).verdict, "ok");
  });
});

describe("voltage drop", () => {
  it("does not call a size ok whose ampacity was not judged", () => {
    const plan = (size: string, amperes: number) =>
      said(drop({ load: A(amperes), volts: V(240), length: ft(5), size, material: "copper", check: true })).verdict;
    assertEquals(plan("18", 60), "not ok");
    assertEquals(plan("18", 5), "ok if");
    assertEquals(plan("10", 20), "ok");
  });
  it("lists no metal where every stretch names its own, and reckons with the one it lists", () => {
    const listed = (more: object) =>
      said(drop({ load: A(20), volts: V(240), ...more })).assumptions.some(({ name }) => name === "conductor material");
    assert(!listed({ segments: [{ length: ft(50), size: "8", material: "aluminum" }] }));
    assert(listed({ length: ft(50), size: "8" }));
  });
});

describe("an assumption is what was computed with, and is computed with (one call lists, returns and uses it)", () => {
  const quantity = (text: string) => ({ value: Number(text.split(" ")[0]), unit: text.split(" ")[1]! });
  /** By the name it is listed under: the request's field that tells it, and a value that must come to something else. */
  const FIELDS: Record<string, { field: string; told: (text: string) => unknown; other: unknown }> = {
    "conductor material": { field: "material", told: String, other: "aluminum" },
    "conductor insulation": { field: "insulation", told: () => "THHN", other: "TW" },
    "ambient temperature": { field: "ambient", told: quantity, other: C(45) },
    "current-carrying conductors together": { field: "conductors", told: Number, other: 9 },
    "conduit": { field: "conduit", told: String, other: "steel" },
    "grounding electrode": { field: "electrode", told: String, other: "rod" },
    "metal of the ground": { field: "groundMaterial", told: String, other: "aluminum" },
    "kind of motor": { field: "type", told: String, other: "wound rotor" },
  };
  const far = { length: ft(400) };
  const plain: Request[] = [
    branch({ loads: load(40), volts: V(240), ...far }),
    feeder({ breaker: A(100), load: A(90), ...far }),
    feeder({ breaker: A(200), supply: "service" }),
    motor({ power: hp(10), volts: V(230), supply: "three-phase", ...far }),
    motors({
      motors: [{ count: 2, power: hp(10), type: "squirrel cage" }],
      volts: V(230),
      supply: "three-phase",
      ...far,
    }),
    cooling({ minimumCircuitAmpacity: A(40), maximumProtection: A(60), volts: V(240), ...far }),
    drop({ find: "conductor", load: A(40), volts: V(240), circuit: "single-phase", ...far }),
    drop({ find: "drop", load: A(40), volts: V(240), circuit: "single-phase", size: "3", ...far }),
    request("conductor-ampacity")({ size: "3", insulation: "THHN", material: "copper" }),
    request("transformer")({ power: { value: 75, unit: "kVA" }, primary: V(480), system: "208Y/120" }),
    request("grounding")({ size: "500 kcmil", material: "copper", find: ["grounding electrode conductor"] }),
  ];
  /** What was reckoned: every step but what was merely given. */
  const reckoned = (of: Request, edition: string) =>
    said(of, edition).steps.filter(({ kind }) => kind !== "given").map(({ name, value }) => [name, value]);
  const figures = (of: Request, edition: string) =>
    Object.fromEntries(Object.entries(said(of, edition).figures).map(([id, { value }]) => [id, value]));
  const listed = (name: string) =>
    plain.flatMap((of) =>
      EDITIONS.flatMap((edition) => {
        const assumed = said(of, edition).assumptions.find((each) => each.name === name);
        return assumed ? [{ of, edition, value: assumed.value }] : [];
      })
    );
  for (const [name, { field, told, other }] of Object.entries(FIELDS)) {
    it(name, () => {
      assert(listed(name).length > 0, "no request leaves it open");
      for (const { of, edition, value } of listed(name)) {
        const label = `${of.kind}, ${edition}, ${value}`;
        const same = { ...of, [field]: told(value) } as Request;
        // What stands beside for whoever has not told the metal yet falls away.
        assertEquals({ ...figures(of, edition), ...figures(same, edition) }, figures(of, edition), label);
        assert(said(same, edition).assumptions.every((each) => each.name !== name), label);
        const changed = JSON.stringify(reckoned({ ...of, [field]: other } as Request, edition));
        assert(changed !== JSON.stringify(reckoned(of, edition)), `${label}: ${other} makes no difference`);
      }
    });
  }
});
