/**
 * Available fault current: a published case, the infinite bus by hand, the network again by mathjs's complex matrices, thresholds
 * of the interrupting ratings, properties, round trips and conversations.
 */
import fc from "fast-check";
import { abs, add, type Complex, complex, divide, inv, type Matrix, matrix, multiply, zeros } from "mathjs";
import { assert, assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import question from "../src/questions/fault/fault-current/question.ts";
import { type FaultRequest as FaultRead, POINTS } from "../src/questions/fault/fault-current/request.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { makeReader } from "./support/reader.ts";
import type { AsJson } from "./support/as-json.ts";

type FaultRequest = AsJson<FaultRead>;

const read = makeReader(engine.questions);
const kVA = (value: number) => ({ value, unit: "kVA" as const });
const percent = (value: number) => ({ value, unit: "%" as const });
const ft = (value: number) => ({ value, unit: "ft" as const });
const kA = (value: number) => ({ value, unit: "kA" as const });
const A = (value: number) => ({ value, unit: "A" as const });
const V = (value: number) => ({ value, unit: "V" as const });
const none = percent(0);
const fault = (request: Partial<FaultRequest>, edition = "2023") =>
  answered({ kind: "fault-current", ...request }, { edition });
const current = (request: Partial<FaultRequest>, edition?: string) =>
  Number(figure(fault(request, edition), "available-fault-current"));

describe("at the transformer's terminals, in every edition", () => {
  for (const edition of EDITIONS) {
    it(`three-phase: full-load current over the impedance (the infinite-bus formula of every handbook), ${edition}`, () => {
      const answer = fault(
        { power: kVA(1000), impedance: percent(5.75), tolerance: none, system: "480Y/277" },
        edition,
      );
      const full = 1_000_000 / (480 * Math.sqrt(3));
      assertAlmostEquals(Number(figure(answer, "available-fault-current")), full / 0.0575, 1e-6);
      assertEquals(figure(answer, "interrupting-rating"), 22);
    });
    it(`single-phase, 150 kVA at 240 V: 625 A full load (journeyman practice test), over 2 %, ${edition}`, () => {
      const request = { power: kVA(150), impedance: percent(2), tolerance: none, volts: V(240), phases: 1 as const };
      assertAlmostEquals(current({ ...request, fault: "line-to-line" }, edition), 625 / 0.02, 1e-6);
    });
    it(`center-tapped: one and a half times as much to the neutral, ${edition}`, () => {
      const answer = fault({ power: kVA(50), impedance: percent(2), tolerance: none, system: "120/240" }, edition);
      const between = 50_000 / 240 / 0.02;
      assertAlmostEquals(Number(figure(answer, "line-to-line-fault-current")), between, 1e-6);
      assertAlmostEquals(Number(figure(answer, "line-to-neutral-fault-current")), 1.5 * between, 1e-6);
      assertEquals(figure(answer, "available-fault-current"), figure(answer, "line-to-neutral-fault-current"));
    });
  }
  it("a tolerance that is told lowers the impedance; one that is not told only raises the most there can be", () => {
    const request = { power: kVA(1000), impedance: percent(5.75), system: "480Y/277" as const };
    const plain = fault(request);
    const told = fault({ ...request, tolerance: percent(10) });
    const [available, most] = ["available-fault-current", "highest-fault-current"].map((id) =>
      Number(figure(plain, id))
    );
    assertAlmostEquals(most! / available!, 1 / 0.9, 1e-9);
    assertAlmostEquals(Number(figure(told, "available-fault-current")), most!, 1e-6);
    assert(!("highest-fault-current" in told.figures));
  });
  it("a primary that is not infinite adds its reactance: 500 MVA beside 1000 kVA of 5.75 %", () => {
    const request = { power: kVA(1000), impedance: percent(5.75), tolerance: none, system: "480Y/277" as const };
    const x = 0.0575 * 480 ** 2 / 1e6 + 480 ** 2 / 500e6;
    const byPower = current({ ...request, primaryFault: { value: 500, unit: "MVA" } });
    assertAlmostEquals(byPower, 480 / Math.sqrt(3) / x, 1e-6);
    const amperes = 500e6 / (Math.sqrt(3) * 12470);
    const primary = { value: 12.47, unit: "kV" as const };
    assertAlmostEquals(current({ ...request, primaryFault: A(amperes), primary }), byPower, 1e-3);
  });
  it("motors add four times their full-load current", () => {
    const request = { source: kA(22), system: "480Y/277" as const };
    assertAlmostEquals(current({ ...request, motors: A(200) }) - current(request), 800, 1e-9);
  });
});

describe("a published run", () => {
  it("13 021 A and 40 ft of 2 AWG aluminum at 240 V: between the 6 and 7.7 kA that a trade forum's answers give", () => {
    const answer = fault({
      source: A(13021),
      volts: V(240),
      phases: 1,
      run: [{ length: ft(40), size: "2", material: "aluminum" }],
    });
    const amperes = Number(figure(answer, "available-fault-current"));
    assert(amperes > 6000 && amperes < 7700, String(amperes));
    assertEquals(figure(answer, "interrupting-rating"), 10);
  });
});

type Run = NonNullable<FaultRequest["run"]>;
const SIZES = ["12", "8", "2", "4/0", "250 kcmil", "500 kcmil"];
const table = editions.get("2023")!.table("conductor-impedance");
/** R + jX of one conductor of a stretch, in ohms. */
function ofWire({ size, material, length, sets = 1 }: Run[number], conduit: string): Complex {
  const row = table.row(size!)!;
  const x = conduit === "steel" ? "reactance in steel" : "reactance in PVC or aluminum";
  const [r, j] = [`${material} resistance in ${conduit}`, x].map((column) => table.number(row, column)!.valueOf());
  const thousands = Number(length!.value) / 1000 / sets;
  return complex(r! * thousands, j! * thousands);
}
/**
 * Fault currents at every node of a network by its admittance matrix: each stretch is an admittance between two nodes, the source
 * one from the first node to ground; the impedance seen from a node stands on the diagonal of the inverse.
 */
function byMatrix(source: Complex, run: Run, parents: readonly number[], conduit: string, volts: number, path: number) {
  const size = run.length + 1;
  let y = zeros(size, size) as Matrix;
  const put = (i: number, j: number, value: Complex) =>
    y = y.map((old, at) => at[0] === i && at[1] === j ? add(old, value) : old) as Matrix;
  put(0, 0, divide(1, source) as Complex);
  run.forEach((segment, k) => {
    const admittance = divide(1, multiply(path, ofWire(segment, conduit))) as Complex;
    const [a, b] = [parents[k]!, k + 1];
    put(a, a, admittance);
    put(b, b, admittance);
    put(a, b, multiply(-1, admittance) as Complex);
    put(b, a, multiply(-1, admittance) as Complex);
  });
  const z = inv(matrix(y.toArray() as never)) as Matrix;
  return Array.from({ length: size }, (_, k) => volts / Number(abs(z.get([k, k]) as Complex)));
}

describe("the network, by mathjs's complex matrices", () => {
  const segment = fc.record({
    length: fc.integer({ min: 1, max: 400 }).map(ft),
    size: fc.constantFrom(...SIZES),
    material: fc.constantFrom("copper" as const, "aluminum" as const),
    sets: fc.integer({ min: 1, max: 3 }),
  });
  const tree = fc.array(fc.tuple(segment, fc.nat()), { minLength: 1, maxLength: 6 }).map((list) => {
    const parents = list.map(([, pick], k) => k === 0 ? 0 : 1 + pick % k);
    const run: Run = list.map(([each], k) => ({
      ...each,
      to: POINTS[k]!,
      ...(parents[k]! > 0 && { from: POINTS[parents[k]! - 1]! }),
    }));
    return { run, parents };
  });
  const ratio = fc.constantFrom(undefined, 0.5, 1, 4);
  const conduit = fc.constantFrom("PVC" as const, "steel" as const);
  const sourceOf = (z: number, over: number | undefined): Complex =>
    over === undefined ? complex(0, z) : complex(z / Math.hypot(1, over), z * over / Math.hypot(1, over));
  const same = (request: Partial<FaultRequest>, expected: number[]) => {
    const answer = fault({ ...request, tolerance: none });
    assertAlmostEquals(Number(figure(answer, "available-fault-current")), expected.at(-1)!, expected.at(-1)! * 1e-9);
    expected.slice(1, -1).forEach((amperes, i) =>
      assertAlmostEquals(Number(figure(answer, `point-${i + 1}-fault-current`)), amperes, amperes * 1e-9)
    );
  };
  it("three-phase trees, at every point", () => {
    fc.assert(
      fc.property(
        tree,
        ratio,
        conduit,
        fc.integer({ min: 2, max: 60 }),
        ({ run, parents }, over, conduit, kiloamperes) => {
          const volts = 480 / Math.sqrt(3);
          const source = sourceOf(volts / (kiloamperes * 1000), over);
          const request = { source: kA(kiloamperes), system: "480Y/277" as const, run, conduit };
          same(
            { ...request, ...(over !== undefined && { ratio: over }) },
            byMatrix(source, run, parents, conduit, volts, 1),
          );
        },
      ),
      { numRuns: 60 },
    );
  });
  it("single-phase trees, line to line and line to neutral", () => {
    fc.assert(
      fc.property(tree, ratio, fc.constantFrom(10, 25, 50, 100), ({ run, parents }, over, power) => {
        const z = 0.02 * 240 ** 2 / (power * 1000);
        const request = { power: kVA(power), impedance: percent(2), system: "120/240" as const, run };
        const told = { ...request, ...(over !== undefined && { ratio: over }) };
        same({ ...told, fault: "line-to-line" }, byMatrix(sourceOf(z, over), run, parents, "PVC", 240, 2));
        same({ ...told, fault: "line-to-neutral" }, byMatrix(sourceOf(z / 3, over), run, parents, "PVC", 120, 2));
      }),
      { numRuns: 60 },
    );
  });
});

describe("the primary side of a center-tapped transformer", () => {
  // 75 kVA, 1.8 %: 13.82 mΩ at 240 V; 50 MVA: 1.152 mΩ there, a quarter of it seen from half the winding (the square of the turns).
  it("counts a quarter to the neutral, and whole between the lines", () => {
    const request = { power: kVA(75), impedance: percent(1.8), tolerance: none, system: "120/240" as const };
    const primaryFault = { value: 50, unit: "MVA" as const };
    const at = (fault: "line-to-line" | "line-to-neutral") => current({ ...request, primaryFault, fault });
    const [own, before] = [0.018 * 240 ** 2 / 75_000, 240 ** 2 / 50e6];
    assertAlmostEquals(at("line-to-line"), 240 / (own + before), 1e-6);
    assertAlmostEquals(at("line-to-neutral"), 120 / (own / 3 + before / 4), 1e-6);
    assert(at("line-to-neutral") > 1.5 * at("line-to-line"));
    assertAlmostEquals(current({ ...request, fault: "line-to-neutral" }), 120 / (own / 3), 1e-6);
  });
});

describe("interrupting ratings", () => {
  const ratingOf = (amperes: number) =>
    figure(fault({ source: A(amperes), system: "480Y/277" }), "interrupting-rating");
  it("below, at and above each step", () => {
    assertEquals([9999, 10000, 10001].map(ratingOf), [10, 10, 14]);
    assertEquals([13999, 14000, 14001].map(ratingOf), [14, 14, 18]);
    assertEquals([22000, 22001, 65000, 65001].map(ratingOf), [22, 25, 65, 85]);
  });
  it("a rating is judged at the point that is named", () => {
    const text = "50 kVA pole pig 1.6 % Z, 30 ft of 4/0 aluminum to the meter main, 90 ft of #2 aluminum to the garage";
    const asked = engine.ask(`${text}, available fault current?`);
    assert(asked.outcome === "answered");
    const verdictAt = (point: string) => {
      const outcome = engine.ask(`is 10 kAIC ok at the ${point}?`, { after: asked.thread as never });
      assert(outcome.outcome === "answered", JSON.stringify(outcome).slice(0, 300));
      return outcome.answer.verdict;
    };
    assertEquals(["meter main", "garage"].map(verdictAt), ["not ok", "ok"]);
    const outcome = ask({ kind: "fault-current", source: kA(10), system: "208Y/120", at: "barn" });
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "at");
  });
  it("above the last step there is none, and the current is told all the same", () => {
    assertEquals(figure(fault({ source: A(200_000), system: "480Y/277" }), "interrupting-rating"), 200);
    const above = fault({ source: A(200_001), system: "480Y/277", rating: kA(200) });
    assertEquals([above.figures["interrupting-rating"], above.verdict], [undefined, "not ok"]);
    assertStringIncludes(above.headline, "more than any interrupting rating commonly made");
  });
  it("at the end of a run does not hang on the source's", () => {
    // 1000 kVA at 1.4 % and 208 V: 220 kA at its terminals with 10 % less.
    const run = [{ length: ft(100), size: "500 kcmil" }];
    const answer = fault({ power: kVA(1000), impedance: percent(1.4), system: "208Y/120", run });
    // 120.1 V over 0.545 mΩ of it, 2.26 mΩ of cold R and 3.9 mΩ of X: 24.1 kA.
    assertEquals(figure(answer, "interrupting-rating"), 25);
  });
  it("says why more may flow: cold, at the lowest impedance, or both", () => {
    const run = [{ length: ft(100), size: "2/0" }];
    const [power, source, system] = [
      { power: kVA(75), impedance: percent(2) },
      { source: kA(22) },
      "208Y/120" as const,
    ];
    const hot = { temperature: { value: 75, unit: "°C" as const } };
    const says = (request: Partial<FaultRequest>) =>
      /\. (\S.*?) up to/.exec(fault({ system, ...request }).headline)?.[1];
    assertEquals(says({ ...power, run }), "Cold and at the lowest impedance");
    assertEquals([says({ ...power, tolerance: none, run }), says({ ...source, run })], ["Cold", "Cold"]);
    assertEquals([says(power), says({ ...power, run, ...hot })], [
      "At the lowest impedance",
      "At the lowest impedance",
    ]);
    assertEquals([says(source), says({ ...source, run, ...hot })], [undefined, undefined]);
  });
  it("a rating that is put up is ok, not ok, or ok if nothing lies lower than told", () => {
    const plan = (rating: number) =>
      fault({ power: kVA(1000), impedance: percent(5.75), system: "480Y/277", rating: kA(rating) });
    assertEquals([14, 22, 25].map((rating) => plan(rating).verdict), ["not ok", "ok if", "ok"]);
    assertStringIncludes(plan(14).verdictBecause!, "20,918 A");
    assertStringIncludes(plan(22).verdictBecause!, "23,243 A");
  });
});

// 240.86: a tested combination, marked on the panel; (C), from memory: no motors behind it above 1 % of the lower rating.
describe("a series combination", () => {
  const series = (rating: number, motors?: number) =>
    fault({
      source: kA(42),
      system: "480Y/277",
      rating: kA(rating),
      series: true,
      ...(motors && { motors: A(motors) }),
    });
  it("covers what its own rating does not, where the panel is marked for it: below, at and above", () => {
    assertEquals([10, 35, 42, 50].map((rating) => series(rating).verdict), ["ok if", "ok if", "ok", "ok"]);
    assertStringIncludes(series(10).verdictBecause!, "marked for a tested series combination");
  });
  it("not with motors above a hundredth of the lower rating: at it, and above", () => {
    assertEquals([99, 100, 101].map((amperes) => series(10, amperes).verdict), ["ok if", "ok if", "not ok"]);
  });
  it("is read from the words, the lower figure being the rating", () => {
    for (
      const text of ["series rating 10k breaker on 22k", "22 kA at the panel, are series rated 10 kA breakers ok?"]
    ) {
      const outcome = engine.ask(text);
      assert(outcome.outcome === "answered" && outcome.answer.kind === "fault-current", text);
      const request = outcome.answer.request as FaultRequest;
      assertEquals([request.source, request.rating, outcome.answer.verdict], [kA(22), kA(10), "ok if"]);
    }
  });
});

it("what the service is marked with is told with its current: the most there can be (110.24)", () => {
  const answer = fault({ power: kVA(1000), impedance: percent(5.75), system: "480Y/277" });
  assertStringIncludes(
    answer.cautions.map(({ text }) => text).join(" "),
    "available fault current 23,243 A, and the date",
  );
});

describe("laws", () => {
  const run = (length: number, size = "2", sets = 1): Run => [{ length: ft(length), size, material: "copper", sets }];
  const base = { source: kA(22), system: "208Y/120" as const };
  it("a longer run lets less through, never more than the source; a larger conductor and more sets let more through", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 1, max: 500 }), (length, more) => {
        const [near, far] = [length, length + more].map((each) => current({ ...base, run: run(each!) }));
        assert(near! > far! && near! <= 22_000);
        assert(current({ ...base, run: run(length, "4/0") }) > near!);
        assert(current({ ...base, run: run(length, "2", 2) }) > near!);
      }),
      { numRuns: 40 },
    );
  });
  it("no X/R from 1 on lets more through than reactance alone, which is taken where none is told", () => {
    for (const size of SIZES) {
      const alone = current({ ...base, run: run(60, size) });
      for (const ratio of [1, 1.5, 2, 4, 10]) assert(current({ ...base, run: run(60, size), ratio }) <= alone, size);
    }
  });
  it("impedances that are added as magnitudes would give less: the unsafe side for an interrupting rating", () => {
    const magnitudes = 208 / Math.sqrt(3) / (208 / Math.sqrt(3) / 22_000 + Number(abs(ofWire(run(75)[0]!, "PVC"))));
    assert(current({ ...base, run: run(75) }) > magnitudes);
  });
  it("cold conductors let more through than hot ones", () => {
    const at = (value: number) => current({ ...base, run: run(75), temperature: { value, unit: "°C" } });
    assert(at(25) > at(75) && at(75) > at(90));
    assertEquals(at(75), current({ ...base, run: run(75) }));
  });
  it("says honestly that a size has no impedance in the table", () => {
    const outcome = ask({
      kind: "fault-current",
      ...base,
      run: [{ length: ft(20), size: "700 kcmil", material: "copper" }],
    });
    assert(outcome.outcome === "not covered");
    assertStringIncludes(outcome.because, "700 kcmil");
  });
});

describe("what is missing is asked", () => {
  const needs = (request: Partial<FaultRequest>) => {
    const outcome = ask({ kind: "fault-current", ...request });
    return outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : outcome.outcome;
  };
  it("source, impedance, voltage, phases, conductors, length", () => {
    assertEquals(needs({}), ["source", "volts"]);
    assertEquals(needs({ power: kVA(75) }), ["impedance", "volts"]);
    assertEquals(needs({ source: kA(10), volts: V(240), run: [{ length: ft(10), size: "2" }] }), ["phases"]);
    assertEquals(needs({ source: kA(10), system: "208Y/120", run: [{ length: ft(10) }] }), ["run.0.size"]);
    assertEquals(needs({ source: kA(10), system: "208Y/120", run: [{ size: "2" }] }), ["run.0.length"]);
    assertEquals(needs({ source: kA(10), volts: V(120), phases: 3 }), ["volts"]);
  });
  it("the phases of a transformer that is made in one way only are taken, and listed", () => {
    const answer = fault({ power: kVA(37.5), impedance: percent(2) });
    assertEquals(answer.assumptions.map(({ name }) => name).slice(0, 2), ["phases", "voltage"]);
  });
  it("480 V is taken as three-phase, and listed; at a told source with nothing behind it no phases are needed", () => {
    const answer = fault({ source: kA(10), volts: V(480), run: [{ length: ft(10), size: "2" }] });
    assertEquals(answer.assumptions.map(({ name }) => name)[0], "phases");
    assertEquals(figure(fault({ source: kA(14), rating: kA(10) }), "available-fault-current"), 14_000);
  });
  it("where a later wire begins: two ends of one name, or a beginning that no wire leads to", () => {
    const tree = (third: string) =>
      ask(
        `75 kVA 208Y/120 2% Z, 30 ft of 4/0 copper to the main panel, 50 ft of #2 copper to the subpanel, ${third}, ` +
          "available fault current?",
      );
    for (const third of ["120 ft of #6 copper to the subpanel", "from the garage 120 ft of #6 copper to the shop"]) {
      const outcome = tree(third);
      assert(outcome.outcome === "unclear" && outcome.needs.some(({ field }) => field === "run.2.from"), third);
    }
    const [chain, beside] = ["", "from the main panel "].map((from) => tree(`${from}120 ft of #6 copper to the shop`));
    assert(chain?.outcome === "answered" && beside?.outcome === "answered");
    const at = ({ answer }: typeof chain) => figure(answer, "available-fault-current") as number;
    assert(at(beside) > at(chain));
    const isTold = ({ answer }: typeof chain) => answer.cautions.some(({ text }) => text.includes("say from where"));
    assertEquals([chain, beside].map(isTold), [true, false]);
  });
  it("a bare reply answers, and a change changes", () => {
    const asked = engine.ask("what AIC do I need at the panel, 60 ft of 4/0 aluminum from the transformer?");
    assertEquals(asked.outcome, "unclear");
    const told = engine.ask("50 kVA, 2 %", { after: asked.thread as never });
    assert(told.outcome === "answered" && told.answer.kind === "fault-current", JSON.stringify(told).slice(0, 300));
    const before = Number(figure(told.answer, "available-fault-current"));
    const changed = engine.ask("make it 150 ft", { after: told.thread as never });
    assert(changed.outcome === "answered");
    assert(Number(figure(changed.answer, "available-fault-current")) < before);
    assertEquals((changed.answer.request as FaultRequest).run![0]!.length, ft(150));
  });
});

describe("a fault-current request that is written and read again", () => {
  const maybe = <T>(name: string, value: fc.Arbitrary<T>) => fc.record({ [name]: value }, { requiredKeys: [] });
  const segment = fc.record({
    length: fc.integer({ min: 1, max: 900 }).map((value) => ({ value, unit: "ft" as const })),
    size: fc.constantFrom(...SIZES, "1/0", "14"),
    material: fc.constantFrom("copper" as const, "aluminum" as const),
    sets: fc.integer({ min: 2, max: 4 }),
  }, { requiredKeys: ["length", "size", "material"] });
  const requests = fc.tuple(
    fc.oneof(
      fc.record({ power: fc.constantFrom(25, 75, 1000).map(kVA), impedance: fc.constantFrom(1.6, 5.75).map(percent) }),
      fc.record({
        source: fc.oneof(fc.constantFrom(10, 22, 42.5).map(kA), fc.integer({ min: 1000, max: 65000 }).map(A)),
      }),
    ),
    maybe("system", fc.constantFrom("120/240", "208Y/120", "480Y/277", "600Y/347")),
    maybe("tolerance", fc.constantFrom(0, 10).map(percent)),
    maybe("ratio", fc.constantFrom(0.8, 2, 6.5)),
    maybe("fault", fc.constantFrom("line-to-line", "line-to-neutral", "three-phase")),
    maybe("motors", fc.integer({ min: 20, max: 900 }).map(A)),
    maybe("conduit", fc.constantFrom("PVC", "steel", "aluminum")),
    maybe("temperature", fc.constantFrom(20, 60).map((value) => ({ value, unit: "°C" }))),
    maybe("rating", fc.constantFrom(10, 14, 22).map(kA)),
    maybe("series", fc.constant(true)),
    maybe("run", fc.array(segment, { minLength: 1, maxLength: 4 })),
    fc.boolean(),
  ).map(([first, ...rest]) => {
    const named = rest.pop() as boolean;
    const request = Object.assign({}, first, ...rest as object[]) as Record<string, unknown> & { run?: Run };
    if (request.run && named) request.run = request.run.map((each, k) => ({ ...each, to: POINTS[k]! }));
    if (request.run && named && request.run.length > 2) request.at = POINTS[1];
    return request;
  });
  it("is the same request", () => {
    fc.assert(
      fc.property(requests, (draft) => {
        const written = question.write(question.input.parse(draft));
        const parsed = read(written);
        assertEquals(parsed.question?.id, "fault-current", written);
        if (!parsed.question) return;
        assertEquals(question.input.parse(parsed.draft), question.input.parse(draft), written);
        assertEquals([parsed.asks, parsed.unused.filter(({ text }) => /\d/.test(text))], [[], []], written);
      }),
      { numRuns: 300 },
    );
  });
});
