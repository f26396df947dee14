/** Transformers: published figures, the protection table's thresholds, plan checks, properties, round trips of the text. */
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import question from "../src/questions/supply/transformer/question.ts";
import type { TransformerRequest as TransformerRead } from "../src/questions/supply/transformer/request.ts";
import { answered, ask, EDITIONS, engine, figure, tableFiles } from "./support/engine.ts";
import { sound } from "./support/sound.ts";
import type { AsJson } from "./support/as-json.ts";

type TransformerRequest = AsJson<TransformerRead>;

const A = (value: number) => ({ value, unit: "A" as const });
const V = (value: number) => ({ value, unit: "V" as const });
const kVA = (value: number) => ({ value, unit: "kVA" as const });
const WYE = { primary: V(480), secondary: V(208), system: "208Y/120" } as const;
const transformer = (request: Partial<TransformerRequest>, edition = "2023") =>
  answered({ kind: "transformer", ...request }, { edition });
const outcomeOf = (request: Partial<TransformerRequest>, edition = "2023") =>
  ask({ kind: "transformer", ...request }, { edition });
const at = (answer: ReturnType<typeof transformer>, ...ids: string[]) => ids.map((id) => figure(answer, id));
/** A single-phase transformer whose primary current at 480 V is the one given. */
const ofCurrent = (amperes: number): Partial<TransformerRequest> => ({
  power: { value: Number((amperes * 480).toFixed(6)), unit: "VA" },
  phases: 1,
  primary: V(480),
});

describe("published figures, in every edition", () => {
  for (const edition of EDITIONS) {
    it(`150 kVA, single phase, 240 V: 625 A (journeyman practice test), ${edition}`, () => {
      const answer = transformer({ power: kVA(150), phases: 1, secondary: V(240) }, edition);
      assertEquals(figure(answer, "secondary-current"), 625);
    });
    it(`75 kVA, 480 V to 208Y/120: Table 450.3(B) as the maker's guide and the training article print it, ${edition}`, () => {
      const answer = transformer({ power: kVA(75), ...WYE }, edition);
      assertAlmostEquals(Number(figure(answer, "primary-current")), 75_000 / (480 * Math.sqrt(3)), 1e-9);
      assertAlmostEquals(Number(figure(answer, "secondary-current")), 75_000 / (208 * Math.sqrt(3)), 1e-9);
      // 250 % is a limit: 225.5 A gives 225 A. 125 % may go up: 260.2 A gives 300 A.
      assertEquals(at(answer, "primary-protection", "secondary-protection"), [225, 300]);
    });
    it(`25 kVA, single phase, 480 V, primary only: 125 % is 65.1 A, next size up 70 A (same sources), ${edition}`, () => {
      const answer = transformer({
        power: kVA(25),
        phases: 1,
        primary: V(480),
        secondary: V(240),
        winding: "two-wire",
        protection: "primary only",
      }, edition);
      assertEquals(figure(answer, "primary-protection"), 70);
    });
  }
});

describe("thresholds of the protection table (Table 450.3(B))", () => {
  const only = (amperes: number) => transformer({ ...ofCurrent(amperes), protection: "primary only" }, "2017");
  const limitOf = (answer: ReturnType<typeof transformer>) => {
    const { value } = answer.steps.find(({ name }) => name === "primary limit")!;
    assert("n" in value);
    const [top, bottom = "1"] = value.n.split("/");
    return Number(top) / Number(bottom);
  };
  it("primary only: 300 % below 2 A, 167 % from 2 A, 125 % from 9 A", () => {
    const shares = [1.99, 2, 8.99, 9, 9.01].map((amperes) => Number((limitOf(only(amperes)) / amperes).toFixed(6)));
    assertEquals(shares, [3, 1.67, 1.67, 1.25, 1.25]);
  });
  it("with a secondary device the primary goes to 250 % at every current", () => {
    const shares = [1.99, 2, 8.99, 9].map((amperes) =>
      Number((limitOf(transformer(ofCurrent(amperes))) / amperes).toFixed(6))
    );
    assertEquals(shares, [2.5, 2.5, 2.5, 2.5]);
  });
  it("the secondary: 167 % below 9 A without next size up, 125 % from 9 A with it", () => {
    const device = (amperes: number) =>
      figure(
        transformer({ power: { value: amperes * 120, unit: "VA" }, phases: 1, secondary: V(120) }, "2017"),
        "secondary-protection",
      );
    assertEquals([8.9, 9, 12, 12.1].map(device), [10, 15, 15, 20]);
  });
  it("125 % at, below and above a standard rating", () => {
    assertEquals([55.9, 56, 56.1].map((amperes) => figure(only(amperes), "primary-protection")), [70, 70, 80]);
  });
  it("250 % at, below and above a standard rating", () => {
    const device = (amperes: number) => figure(transformer(ofCurrent(amperes)), "primary-protection");
    assertEquals([39.9, 40, 40.1].map(device), [90, 100, 100]);
  });
  it("a limit below the standard fuses, or one that would not carry the rated current, is told itself", () => {
    assertAlmostEquals(Number(figure(only(3.125), "primary-protection")), 3.125 * 1.67, 1e-9);
    assertAlmostEquals(Number(figure(transformer(ofCurrent(0.2)), "primary-protection")), 0.5, 1e-9);
  });
  it("coordinated thermal protection: six times up to 6 % impedance, four times up to 10 % (note 3, from memory)", () => {
    const device = (percent: number) =>
      outcomeOf({ ...ofCurrent(50), thermallyProtected: true, impedance: { value: percent, unit: "%" } });
    const ratings = [5.9, 6, 6.1, 10].map((percent) => {
      const outcome = device(percent);
      assert(outcome.outcome === "answered");
      return figure(outcome.answer, "primary-protection");
    });
    assertEquals(ratings, [300, 300, 200, 200]);
    assertEquals(device(10.1).outcome, "not covered");
  });
  it("ends at 1000 V: above it the currents alone are told", () => {
    const [within, above] = [1000, 1001].map((volts) => transformer({ power: kVA(75), ...WYE, primary: V(volts) }));
    assert(within!.figures["primary-protection"] !== undefined);
    assertEquals(Object.keys(above!.figures), ["primary-current", "secondary-current"]);
  });
});

describe("the size for a load", () => {
  it("below, at and above a preferred size", () => {
    const size = (value: number) => figure(transformer({ load: kVA(value), ...WYE }), "transformer-size");
    assertEquals([74.9, 75, 75.1].map(size), [75, 75, 112.5]);
  });
  it("amperes count at the secondary, watts by their power factor", () => {
    // √3 × 208 V × 125 A is 45.03 kVA.
    assertEquals(figure(transformer({ load: A(125), ...WYE }), "transformer-size"), 75);
    assertEquals(figure(transformer({ load: A(124), ...WYE }), "transformer-size"), 45);
    const watts = { load: { value: 42, unit: "kW" as const }, ...WYE };
    assertEquals(figure(transformer(watts), "transformer-size"), 45);
    assertEquals(figure(transformer({ ...watts, powerFactor: 0.9 }), "transformer-size"), 75);
  });
});

describe("conductors", () => {
  it("secondary conductors may not be smaller than their device: no next size up (240.21(C))", () => {
    // 3/0 carries 200 A at 75 °C and would pass for 225 A elsewhere.
    const answer = transformer({ power: kVA(75), ...WYE, secondaryBreaker: A(225) });
    assertEquals(figure(answer, "secondary-conductor"), "4/0");
  });
  it("primary conductors follow the ordinary rule", () => {
    // 2 AWG carries 115 A, and 125 A is the next standard size.
    assertEquals(figure(transformer({ power: kVA(75), ...WYE }), "primary-conductor"), "2");
  });
  it("a two-wire secondary is protected through the primary, by the ratio of the voltages (240.4(F))", () => {
    const plain = {
      power: kVA(25),
      phases: 1,
      primary: V(480),
      secondary: V(240),
      protection: "primary only",
    } as const;
    // 70 A × 480 ÷ 240 is 140 A: 1/0 AWG at 75 °C.
    assertEquals(figure(transformer({ ...plain, winding: "two-wire" }), "secondary-conductor"), "1/0");
    const threeWire = transformer({ ...plain, system: "120/240" });
    assertEquals(threeWire.figures["secondary-conductor"], undefined);
    assert(threeWire.cautions.some(({ text }) => text.includes("need a device of their own")));
  });
  it("the length rules: short, long, too long", () => {
    const length = (feet: number) => transformer({ power: kVA(75), ...WYE, length: { value: feet, unit: "ft" } });
    const word = (feet: number) => {
      const { value } = length(feet).steps.findLast(({ name }) => name === "length")!;
      return "word" in value ? value.word : "";
    };
    assertEquals([10, 10.1, 25, 25.1].map(word), ["short rule", "long rule", "long rule", "too long"]);
    assertEquals([25, 25.1].map((feet) => length(feet).verdict), [undefined, "ok if"]);
  });
  it("long secondary conductors carry a third of the primary device, as seen from the secondary", () => {
    const small = { power: kVA(75), ...WYE, secondaryBreaker: A(60), length: { value: 20, unit: "ft" as const } };
    // 225 A × 480 ÷ 208 ÷ 3 is 173 A; conductors for 60 A fall short.
    assertEquals(transformer({ ...small, primaryBreaker: A(225) }).verdict, "not ok");
    assertEquals(transformer({ ...small, secondaryBreaker: A(225), primaryBreaker: A(225) }).verdict, "ok");
  });
  it("a system's name tells the secondary voltage", () => {
    for (const edition of EDITIONS) {
      const [named, told] = [{}, { secondary: V(208) }].map((more) =>
        transformer({ power: kVA(45), primary: V(480), system: "208Y/120", ...more }, edition)
      );
      assertEquals(at(named!, "secondary-protection", "secondary-conductor"), [175, "2/0"]);
      assertEquals(named!.figures["secondary-current"]!.value, told!.figures["secondary-current"]!.value);
      const threeWire = transformer({ power: kVA(15), primary: V(480), system: "120/240" }, edition);
      assertEquals(figure(threeWire, "secondary-current"), 62.5);
      const odd = outcomeOf({ power: kVA(45), primary: V(480), secondary: V(240), system: "208Y/120" }, edition);
      assert(odd.outcome === "unclear" && odd.needs[0]!.field === "secondary");
    }
  });
  it("a method that may not be used there fails a plan, and is a caution otherwise", () => {
    const plain = { power: kVA(15), phases: 1, primary: V(480), secondary: V(240), winding: "two-wire" } as const;
    const put = { ...plain, primaryBreaker: A(40), primarySize: "8", material: "copper" } as const;
    assertEquals(transformer({ ...put, method: "NM cable" }).verdict, "ok");
    assertEquals(transformer({ ...put, method: "NM cable", wet: true }).verdict, "not ok");
    const buried = { method: "direct-burial conductors", insulation: "XHHW-2" } as const;
    assertEquals(transformer({ ...put, ...buried }).verdict, "ok if");
    const { verdict, cautions } = transformer({ ...plain, method: "NM cable", wet: true, material: "copper" });
    assertEquals(verdict, undefined);
    assert(cautions.some(({ text }) => text.includes("wet places")));
  });
  it("the new system is grounded by its secondary conductors (Tables 250.66 and 250.102(C)(1))", () => {
    const answer = transformer({ power: kVA(75), ...WYE });
    assertEquals(at(answer, "secondary-conductor", "grounding-electrode-conductor", "system-bonding-jumper"), [
      "350 kcmil",
      "2",
      "2",
    ]);
    const rods = transformer({ power: kVA(75), ...WYE, electrode: "rod" });
    assertEquals(figure(rods, "grounding-electrode-conductor"), "6");
  });
});

describe("plan checks", () => {
  const verdict = (request: Partial<TransformerRequest>) => transformer({ power: kVA(45), ...WYE, ...request }).verdict;
  it("a primary device: below full load, up to 250 %, above", () => {
    assertEquals([50, 60, 125, 150].map((value) => verdict({ primaryBreaker: A(value) })), [
      "ok if",
      "ok",
      "ok",
      "not ok",
    ]);
  });
  it("a secondary device against the limit, and against a continuous load that was told", () => {
    assertEquals([125, 175, 200].map((value) => verdict({ secondaryBreaker: A(value) })), ["ok", "ok", "not ok"]);
    const loaded = { load: A(120), continuous: true };
    assertEquals([125, 150].map((value) => verdict({ ...loaded, secondaryBreaker: A(value) })), ["not ok", "ok"]);
  });
  it("conductors against the device of their side", () => {
    const sized = { secondaryBreaker: A(150), terminals: { value: 75, unit: "°C" } } as const;
    assertEquals(["1", "1/0"].map((secondarySize) => verdict({ ...sized, secondarySize })), ["not ok", "ok"]);
  });
});

describe("what is asked back", () => {
  it("power, voltages, phases that no system shows, impedance", () => {
    const cases: [Partial<TransformerRequest>, string][] = [
      [WYE, "power"],
      [{ power: kVA(45) }, "primary"],
      [{ power: kVA(45), primary: V(480), secondary: V(240) }, "phases"],
      [{ power: kVA(45), ...WYE, phases: 1 }, "phases"],
      [{ power: kVA(45), ...WYE, thermallyProtected: true }, "impedance"],
      [{ power: kVA(45), ...WYE, protection: "primary only", secondaryBreaker: A(150) }, "protection"],
      [{ load: A(100), primary: V(480), phases: 3 }, "secondary"],
    ];
    for (const [request, field] of cases) {
      const outcome = outcomeOf(request);
      assert(outcome.outcome === "unclear", JSON.stringify(request));
      assertEquals(outcome.needs.map((need) => need.field), [field]);
    }
  });
  it("no phases of 208 V between the secondary's lines, which are a three-phase network's", () => {
    const answer = transformer({ power: kVA(45), primary: V(480), secondary: V(208) });
    assert(answer.assumptions.some(({ name, value }) => name === "phases" && value === "three-phase"));
    // 45,000 / (208 × √3)
    assertAlmostEquals(Number(figure(answer, "secondary-current")), 45_000 / (208 * Math.sqrt(3)), 1e-9);
  });
  it("autotransformers are not covered", () => {
    assertEquals(
      outcomeOf({ power: kVA(1), phases: 1, primary: V(208), autotransformer: true }).outcome,
      "not covered",
    );
  });
});

const sizes = (phases: "single" | "three") =>
  (tableFiles[`2017/transformer-sizes-${phases}-phase.json`] as { rows: [number][] }).rows.map(([power]) => power);

describe("properties", () => {
  it("a device is never below what the transformer may ask for at full load, where a standard one carries it", () => {
    fc.assert(
      fc.property(fc.constantFrom(...sizes("three")), fc.constantFrom(208, 240, 480, 600), (power, volts) => {
        const outcome = outcomeOf({ power: kVA(power), phases: 3, primary: V(volts), protection: "primary only" });
        if (outcome.outcome !== "answered") return;
        const [current, device] = at(outcome.answer, "primary-current", "primary-protection").map(Number);
        assert(device! >= current!);
        assert(device! <= current! * 3);
      }),
      { numRuns: 60 },
    );
  });
  it("a larger transformer never has smaller devices or conductors", () => {
    const order = ["14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"];
    const all = sizes("three").filter((power) => power <= 75).map((power) =>
      transformer({ power: kVA(power), ...WYE })
    );
    for (const [i, next] of all.slice(1).entries()) {
      for (const id of ["primary-current", "secondary-current", "primary-protection", "secondary-protection"]) {
        assert(Number(figure(all[i]!, id)) <= Number(figure(next, id)), id);
      }
      const [small, large] = [all[i]!, next].map((each) => order.indexOf(String(figure(each, "primary-conductor"))));
      assert(small! <= large!);
    }
  });
  it("every edition and every corner ends in an outcome", () => {
    for (const edition of EDITIONS) {
      for (const power of [undefined, 0.05, 1, 15, 112.5, 10_000]) {
        for (const phases of [undefined, 1, 3] as const) {
          for (
            const volts of [{}, { primary: V(480) }, { secondary: V(24) }, WYE, {
              primary: V(12_470),
              secondary: V(480),
            }]
          ) {
            for (
              const extra of [{}, { protection: "primary only" }, {
                material: "aluminum",
                length: { value: 90, unit: "ft" },
              }] as const
            ) {
              const request = { ...(power && { power: kVA(power) }), ...(phases && { phases }), ...volts, ...extra };
              sound(outcomeOf(request as Partial<TransformerRequest>, edition));
            }
          }
        }
      }
    }
  });
});

describe("text", () => {
  const amperes = fc.integer({ min: 1, max: 1200 }).map(A);
  const system = fc.constantFrom(
    { system: "120/240", secondary: V(240) },
    { system: "208Y/120", secondary: V(208) },
    { system: "480Y/277", secondary: V(480) },
    { secondary: V(240) },
    { secondary: V(120) },
    {},
  );
  const rest = fc.record({
    power: fc.constantFrom(...sizes("three")).map(kVA),
    phases: fc.constantFrom(1, 3),
    primary: fc.constantFrom(V(480), V(208), V(600), { value: 12.47, unit: "kV" }),
    load: fc.oneof(amperes, fc.integer({ min: 1, max: 500 }).map(kVA), fc.constant({ value: 30, unit: "kW" })),
    powerFactor: fc.constantFrom(0.8, 0.95),
    protection: fc.constantFrom("primary only", "primary and secondary"),
    primaryBreaker: amperes,
    secondaryBreaker: amperes,
    primarySize: fc.constantFrom("6", "2/0"),
    secondarySize: fc.constantFrom("4", "250 kcmil"),
    length: fc.integer({ min: 1, max: 60 }).map((value) => ({ value, unit: "ft" })),
    electrode: fc.constantFrom("water pipe", "rod", "concrete-encased", "ground ring"),
    material: fc.constantFrom("copper", "aluminum"),
    terminals: fc.constantFrom({ value: 60, unit: "°C" }, { value: 75, unit: "°C" }),
  }, { requiredKeys: [] });
  // A system of two voltages has a neutral: only without one is the winding said.
  const winding = fc.constantFrom({}, { winding: "two-wire" }, { winding: "delta" });
  const request = fc.tuple(system, winding, rest, fc.boolean()).map(([secondary, wound, others, continuous]) => ({
    ...secondary,
    ...("system" in secondary ? {} : wound),
    ...others,
    ...(continuous && others.load ? { continuous: true } : {}),
  }));
  it("a request written out reads back to the same request", () => {
    fc.assert(
      fc.property(request, (draft) => {
        const written = question.input.parse(draft);
        const text = question.write(written);
        const outcome = engine.ask(text);
        const read = outcome.outcome === "answered"
          ? outcome.answer.request
          : outcome.outcome === "unclear"
          ? outcome.understood
          : undefined;
        if (read === undefined) return;
        const { kind, edition: _, ...others } = read as { kind: string; edition?: string };
        assertEquals(kind, "transformer", text);
        assertEquals(question.input.parse(others), written, text);
      }),
      { numRuns: 200 },
    );
  });
});

describe("a load that runs for three hours or more (215.2(A)(1), 215.3)", () => {
  const three = (power: number, more: object) =>
    answered({
      kind: "transformer",
      power: kVA(power),
      ...WYE,
      material: "copper",
      ...more,
    });
  it("raises what the primary conductors need: 270.6 × 1.25 = 338.3 A", () => {
    const plan = { primarySize: "350 kcmil", primaryBreaker: { value: 350, unit: "A" } };
    assertEquals(three(225, plan).verdict, "ok"); // 310 A, and 350 A is the next size up
    const steady = three(225, { ...plan, continuous: true });
    assertEquals([steady.verdict, figure(steady, "primary-conductor")], ["not ok", "500 kcmil"]);
    assert(steady.headline.includes("338.3 A"));
    assertEquals(figure(three(225, { continuous: true }), "primary-conductor"), "500 kcmil");
    assert(three(225, {}).assumptions.some(({ name }) => name === "kind of load"));
  });
  it("and the devices on both sides: 208.2 × 1.25 = 260.2 A is more than 225 A", () => {
    const secondary = (rating: number, more: object = { continuous: true }) =>
      three(75, { secondaryBreaker: { value: rating, unit: "A" }, ...more });
    assertEquals([secondary(225, {}).verdict, secondary(225).verdict, secondary(300).verdict], ["ok", "not ok", "ok"]);
    assert(secondary(225).headline.includes("300 A"));
    // 90.2 × 1.25 = 112.8 A.
    const primary = (rating: number) => three(75, { primaryBreaker: { value: rating, unit: "A" }, continuous: true });
    assertEquals([primary(110).verdict, primary(125).verdict], ["not ok", "ok"]);
  });
  it("by the load alone where one is told: 100 A of 125 A, raised, is the rated current", () => {
    const load = (amperes: number) => three(45, { load: { value: amperes, unit: "A" }, continuous: true });
    const design = (amperes: number) =>
      load(amperes).steps.find(({ name }) => name === "secondary current, continuous")!.value;
    const rated = (45000 / 208) / Math.sqrt(3);
    const n = (value: unknown) => {
      const [top, bottom = "1"] = (value as { n: string }).n.split("/");
      return Number(top) / Number(bottom);
    };
    assertAlmostEquals(n(design(90)), rated, 1e-6);
    assertAlmostEquals(n(design(120)), 150, 1e-6);
  });
});

describe("what is said of devices", () => {
  it("no standard one lies below 2.6 A here (240.6(A), 450.3(B)): 1.04 A × 250 %", () => {
    const small = answered({
      kind: "transformer",
      power: { value: 500, unit: "VA" },
      phases: 1,
      primary: V(480),
      secondary: V(120),
      winding: "two-wire",
    });
    assert(small.cautions.some(({ text }) => text.includes("No standard device") && text.includes("2.6 A")));
  });
  it("a secondary conductor falls short of its device, which is no load", () => {
    const plan = answered({
      kind: "transformer",
      power: kVA(45),
      ...WYE,
      secondaryBreaker: { value: 150, unit: "A" },
      secondarySize: "1",
      material: "copper",
    });
    assertEquals(plan.verdict, "not ok");
    assert(plan.headline.includes("its device is 150 A") && !plan.headline.includes("its load is"), plan.headline);
  });
});
