/**
 * The path of a fault to the case: the loop again by mathjs's complex numbers, the trip bands' thresholds, the withstand by the
 * formula it comes from, properties, round trips and conversations.
 */
import fc from "fast-check";
import { abs, add, type Complex, complex, divide, multiply } from "mathjs";
import { assert, assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import question from "../src/questions/fault/fault-path/question.ts";
import type { PathRequest as PathRead } from "../src/questions/fault/fault-path/request.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { makeReader } from "./support/reader.ts";
import type { AsJson } from "./support/as-json.ts";

type PathRequest = AsJson<PathRead>;

const read = makeReader(engine.questions);
const ft = (value: number) => ({ value, unit: "ft" as const });
const A = (value: number) => ({ value, unit: "A" as const });
const kA = (value: number) => ({ value, unit: "kA" as const });
const V = (value: number) => ({ value, unit: "V" as const });
const path = (request: Partial<PathRequest>, edition = "2023") =>
  answered({ kind: "fault-path", ...request }, { edition });
const number = (request: Partial<PathRequest>, id: string, edition?: string) =>
  Number(figure(path(request, edition), id));
/** The shed's receptacle circuit, so long. */
const shed = (length: number): Partial<PathRequest> => ({
  breaker: A(20),
  size: "12",
  method: "NM cable",
  length: ft(length),
  separate: true,
});

describe("the loop, by mathjs's complex numbers", () => {
  const table = editions.get("2023")!.table("conductor-impedance");
  const wire = (size: string, metal: string, feet: number): Complex => {
    const row = table.row(size)!;
    const [r, x] = [`${metal} resistance in PVC`, "reactance in PVC or aluminum"].map((column) =>
      table.number(row, column)!.valueOf() * feet / 1000
    );
    return complex(r!, x!);
  };
  const sizes = fc.constantFrom("12", "10", "8", "6", "2", "4/0", "500 kcmil");
  const metals = fc.constantFrom("copper" as const, "aluminum" as const);
  it("current, multiple, touch voltage and longest run, with a source or none", () => {
    const drawn = fc.tuple(
      sizes,
      metals,
      sizes,
      metals,
      fc.integer({ min: 5, max: 900 }),
      fc.constantFrom(20, 60, 200),
      fc.constantFrom(undefined, 0.5, 2, 6),
      fc.constantFrom(undefined, 1500, 10_000, 42_000),
    );
    fc.assert(
      fc.property(drawn, ([size, material, ground, groundMaterial, feet, breaker, over, kiloamperes]) => {
        const request: Partial<PathRequest> = {
          breaker: A(breaker),
          system: "480Y/277",
          size,
          material,
          ground,
          groundMaterial,
          length: ft(feet),
          ...(kiloamperes && { source: A(kiloamperes) }),
          ...(kiloamperes && over && { ratio: over }),
        };
        const answer = path(request);
        const own = kiloamperes ? 277 / kiloamperes : 0;
        const source = over === undefined
          ? complex(own, 0)
          : complex(own / Math.hypot(1, over), own * over / Math.hypot(1, over));
        const [line, back] = [wire(size, material, feet), wire(ground, groundMaterial, feet)];
        const loop = add(add(source, line), back) as Complex;
        const current = divide(277, loop) as Complex;
        const near = (id: string, value: number) =>
          assertAlmostEquals(Number(figure(answer, id)), value, Math.max(value, 1) * 1e-9);
        near("loop-impedance", Number(abs(loop)));
        near("ground-fault-current", Number(abs(current)));
        near("trip-multiple", Number(abs(current)) / breaker);
        near("touch-voltage", Number(abs(multiply(current, back) as Complex)));
        const longest = answer.figures["longest-run"];
        if (!longest) return assert(own >= 277 / (10 * breaker));
        // At the longest run exactly ten times the rating flow.
        const far = Number(longest.value);
        const there = add(add(source, wire(size, material, far)), wire(ground, groundMaterial, far)) as Complex;
        assertAlmostEquals(277 / Number(abs(there)) / breaker, 10, 1e-6);
      }),
      { numRuns: 150 },
    );
  });
});

describe("the shed, in every edition", () => {
  for (const edition of EDITIONS) {
    it(`20 A on 12/2 at 140 ft: amperes, multiple, time and the longest run, ${edition}`, () => {
      const answer = path(shed(140), edition);
      // 2 × 140 ft of 2.0 Ω/kft and 0.054 Ω/kft (Chapter 9, Table 9).
      const z = 0.28 * Math.hypot(2, 0.054);
      assertAlmostEquals(Number(figure(answer, "ground-fault-current")), 120 / z, 1e-9);
      assertAlmostEquals(Number(figure(answer, "trip-multiple")), 6 / z, 1e-9);
      assertAlmostEquals(Number(figure(answer, "longest-run")), 500 * 0.6 / Math.hypot(2, 0.054), 1e-9);
      assertEquals([figure(answer, "trip-time-most"), answer.verdict], [0.025, "ok"]);
      for (const part of ["214.2 A", "10.7 times", "0.025 s", "149.9 ft"]) assertStringIncludes(answer.headline, part);
    });
  }
  it("a rod out there is told not to be the path, with its number", () => {
    assert(path(shed(140)).cautions.some(({ text }) => text.includes("4.8 A")));
    assert(!path({ ...shed(140), separate: false }).cautions.some(({ text }) => text.includes("4.8 A")));
  });
});

describe("through the earth", () => {
  it("120 V over 25 Ω drive 4.8 A (250.4(A)(5)), which trips nothing, and the case stays live", () => {
    const answer = path({ breaker: A(20), return: "earth", earth: { value: 25, unit: "ohm" } });
    const ids = ["ground-fault-current", "trip-multiple", "touch-voltage", "loop-impedance"];
    assertEquals(ids.map((id) => Number(figure(answer, id))), [4.8, 0.24, 120, 25]);
    assertEquals(answer.verdict, "not ok");
  });
  it("a resistance that was not told is taken as 25 Ω, and listed", () => {
    const { assumptions } = path({ breaker: A(15), return: "earth" });
    assert(assumptions.some(({ value }) => value === "25 Ω"));
  });
  it("even an earth that lets the rating through is not ok", () => {
    const at = (ohms: number) => path({ breaker: A(20), return: "earth", earth: { value: ohms, unit: "ohm" } });
    assertEquals([0.1, 2, 5, 6, 100].map((ohms) => at(ohms).verdict), Array(5).fill("not ok"));
  });
});

describe("trip bands", () => {
  /** A circuit on which so many times the rating flow, told as the current of the source behind no length to speak of. */
  const times = (multiple: number, more: Partial<PathRequest> = {}) =>
    path({
      breaker: A(20),
      volts: V(120),
      size: "500 kcmil",
      ground: "500 kcmil",
      length: ft(1e-6),
      source: A(20 * multiple),
      ...more,
    });
  const verdictAt = (multiple: number, more?: Partial<PathRequest>) => times(multiple, more).verdict;
  it("from 10 times on at once, from 5 times on perhaps, below by heat", () => {
    assertEquals([4.99, 5.01, 9.99, 10.01].map((n) => verdictAt(n)), ["not ok", "ok if", "ok if", "ok"]);
  });
  it("a trip that is told moves the band", () => {
    assertEquals([7.99, 8.01].map((n) => verdictAt(n, { trips: 8 })), ["not ok", "ok"]);
  });
  it("by heat no longer than the calibration at twice its rating, falling with the square; at 135 % within hours", () => {
    const time = (multiple: number) => times(multiple).figures["trip-time-most"]?.value;
    // 20 A: 2 minutes at 200 %, an hour at 135 % (calibration of molded-case breakers).
    assertAlmostEquals(Number(time(4)), 30, 1e-3);
    assertAlmostEquals(Number(time(2.0001)), 120, 0.05);
    assertEquals([1.99, 1.36].map(time), [3600, 3600]);
    assertEquals([1.34, 1.01, 0.9].map(time), [undefined, undefined, undefined]);
    assertStringIncludes(times(1.2).verdictBecause!, "may never trip");
    assertStringIncludes(times(0.9).verdictBecause!, "does not trip");
  });
  it("a larger breaker is calibrated to longer times, at, below and above each step", () => {
    const minutes = (rating: number) => {
      const { value } = path({
        breaker: A(rating),
        volts: V(120),
        size: "500 kcmil",
        ground: "500 kcmil",
        length: ft(1e-6),
        source: A(rating * 2.00001),
      }).figures["trip-time-most"]!;
      return Math.round(Number(value) / 60);
    };
    assertEquals([15, 30, 31, 50, 51, 100, 101, 150, 225, 226, 400].map(minutes), [2, 2, 4, 4, 6, 6, 8, 8, 10, 12, 12]);
  });
});

describe("heat in the ground", () => {
  it("by the adiabatic formula for 75 to 150 °C: I²t = k × area² × log of the temperatures (insulated-cable engineers' standard)", () => {
    // 0.0297 log((T2 + 234) ÷ (T1 + 234)) for copper, 0.0125 log((T2 + 228) ÷ (T1 + 228)) for aluminum, area in circular mils.
    const k = { copper: 0.0297 * Math.log10(384 / 309), aluminum: 0.0125 * Math.log10(378 / 303) };
    for (const [metal, factor] of Object.entries(k)) {
      const answer = path({ ...shed(140), method: undefined, size: "6", ground: "6", material: metal as "copper" });
      const current = Number(figure(answer, "ground-fault-current"));
      const seconds = factor * 26_240 ** 2 / current ** 2;
      assertAlmostEquals(Number(figure(answer, "withstand-time")) / seconds, 1, 3e-3, metal);
    }
  });
  it("is told where the ground may overheat before the breaker is sure to open", () => {
    const overheats = (length: number) =>
      path({ ...shed(length) }).cautions.some(({ text }) => text.includes("150 °C"));
    assertEquals([140, 200].map(overheats), [false, true]);
  });
});

describe("voltage to ground", () => {
  const volts = (request: Partial<PathRequest>) => {
    const { steps } = path({ ...shed(100), ...request });
    const { value } = steps.find(({ name }) => name === "voltage to ground")!;
    return "n" in value ? Number(value.n) : undefined;
  };
  it("is half of 240 V, the wye's of 208, 480 and 600 V, and a line's own", () => {
    const told = [120, 240, 208, 480, 277, 600, 347].map((n) => volts({ volts: V(n) }));
    assertEquals(told, [120, 120, 120, 277, 277, 347, 347]);
    assertEquals(["120/240", "208Y/120", "480Y/277", "600Y/347"].map((system) => volts({ system: system as never })), [
      120,
      120,
      277,
      347,
    ]);
    assertEquals(volts({}), 120);
  });
  it("is asked for of a three-phase delta and of odd voltages", () => {
    for (const request of [{ volts: V(240), phases: 3 as const }, { volts: V(400) }]) {
      const outcome = ask({ kind: "fault-path", ...shed(100), ...request });
      assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "system");
    }
  });
});

describe("laws", () => {
  const rank = { ok: 2, "ok if": 1, "not ok": 0 };
  it("a longer run lets less through and never trips sooner; a bigger ground never later", () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 600 }), fc.integer({ min: 1, max: 300 }), (length, more) => {
        const [near, far] = [path(shed(length)), path(shed(length + more))];
        assert(Number(figure(far, "ground-fault-current")) < Number(figure(near, "ground-fault-current")));
        assert(rank[far.verdict!] <= rank[near.verdict!]);
        const bigger = path({ ...shed(length), ground: "10" });
        assert(rank[bigger.verdict!] >= rank[near.verdict!]);
        assert(Number(figure(bigger, "longest-run")) > Number(figure(near, "longest-run")));
      }),
      { numRuns: 60 },
    );
  });
  it("never more flows than at the source, and a source takes something off", () => {
    const without = number(shed(140), "ground-fault-current");
    for (const source of [500, 5000, 42_000]) {
      const current = number({ ...shed(140), source: A(source) }, "ground-fault-current");
      assert(current < source && current < without);
    }
  });
  it("no X/R takes more off than resistance alone, which is taken where none is told", () => {
    const alone = number({ ...shed(140), source: kA(2) }, "ground-fault-current");
    for (const ratio of [0.2, 1, 3, 10]) {
      assert(number({ ...shed(140), source: kA(2), ratio }, "ground-fault-current") >= alone);
    }
  });
  it("just within the longest run it trips at once, just beyond it does not surely", () => {
    const longest = number(shed(140), "longest-run");
    assertEquals([longest - 0.01, longest + 0.01].map((length) => path(shed(length)).verdict), ["ok", "ok if"]);
  });
  it("the larger conductors that it names do trip at once", () => {
    const answer = path(shed(300));
    const size = /with (\S+) AWG/.exec(answer.headline)![1]!;
    assertEquals(path({ ...shed(300), method: undefined, size, ground: size }).verdict, "ok");
  });
});

describe("the ground that is reckoned with", () => {
  const ground = (request: Partial<PathRequest>) =>
    figure(path({ ...shed(50), ...request }), "equipment-grounding-conductor");
  // 250.122(B) with 110.14(C)(1): above 100 A the 75 °C column says what the breaker needs. 200 A: 3/0, 6 AWG × 211.6 ÷ 167.8.
  it("grows from what the breaker needs in the column of its rating, at 100 A and above it", () => {
    const of = (breaker: number, size: string) => ground({ breaker: A(breaker), size, method: undefined });
    assertEquals(of(200, "3/0"), "6");
    assertEquals(of(200, "4/0"), "4");
    assertEquals(of(225, "4/0"), "4");
    assertEquals(of(225, "250 kcmil"), "3");
    assertEquals([of(100, "1"), of(100, "1/0"), of(110, "2"), of(110, "1")], ["8", "6", "6", "4"]);
  });
  it("is the told one, the cable's own, or the smallest that is allowed, grown with its line", () => {
    assertEquals(ground({ ground: "10" }), "10");
    assertEquals(ground({ size: "6", breaker: A(60) }), "10");
    assertEquals(ground({ method: undefined }), "12");
    assertEquals(ground({ method: undefined, size: "10" }), "10");
    assertEquals(ground({ method: undefined, size: "3", breaker: A(100) }), "8");
  });
  it("a raceway that is told to be the ground is never answered as if a wire lay in it", () => {
    const told = [
      "emt is the ground",
      "no ground wire",
      "the conduit is the equipment ground",
      "emt is the only ground",
    ];
    for (const said of told) {
      const answer = answered(
        `20 A breaker, 12 AWG copper in 1/2 EMT, ${said}, 200 ft, will it trip on a ground fault?`,
      );
      assertEquals([answer.verdict, answer.figures["ground-fault-current"]], ["ok if", undefined], said);
    }
    const plastic = ["no equipment ground", "the conduit is the ground"];
    for (const said of plastic) {
      const answer = answered(`20 A breaker, 12 AWG copper in PVC conduit, ${said}, 90 ft, will it trip?`);
      assertEquals([answer.verdict, figure(answer, "loop-impedance")], ["not ok", 25], said);
    }
  });
  it("a fuse has no trip band here", () => {
    assertEquals(ask({ kind: "fault-path", ...shed(50), fuse: true }).outcome, "not covered");
  });
});

/**
 * A raceway's impedance hangs on its make, its joints and the current, so that no table of the book has it. What can be checked is
 * the network: by mathjs, whatever the angle of its impedance.
 */
describe("a raceway as the way back", () => {
  const per = (value: number) => ({ value, unit: "ohm/kft" as const });
  const emt = (length: number, more: Partial<PathRequest> = {}): Partial<PathRequest> => ({
    breaker: A(30),
    size: "10",
    length: ft(length),
    conduit: "steel",
    return: "raceway",
    ...more,
  });
  const table = editions.get("2023")!.table("conductor-impedance");
  const [r, x] = ["copper resistance in steel", "reactance in steel"]
    .map((column) => table.number(table.row("10")!, column)!.valueOf()) as [number, number];
  const line = (feet: number): Complex => complex(r * feet / 1000, x * feet / 1000);

  it("no less flows than is told, whatever the angle of its impedance, and just as much at the line's own (mathjs)", () => {
    const drawn = fc.tuple(
      fc.integer({ min: 5, max: 400 }),
      fc.integer({ min: 1, max: 3000 }),
      fc.double({ min: 0, max: Math.PI / 2, noNaN: true }),
    );
    fc.assert(
      fc.property(drawn, ([feet, milliohms, angle]) => {
        const each = milliohms / 1000;
        const answer = path(emt(feet, { returnImpedance: per(each) }));
        const of = (turned: number) => {
          const size = each * feet / 1000;
          const back = complex(size * Math.cos(turned), size * Math.sin(turned));
          const loop = add(line(feet), back) as Complex;
          return { current: 120 / Number(abs(loop)), touch: 120 * size / Number(abs(loop)) };
        };
        const [current, touch] = ["ground-fault-current", "touch-voltage"].map((id) => Number(figure(answer, id)));
        const near = 1e-9;
        assert(of(angle).current >= current! * (1 - near) && of(angle).touch <= touch! * (1 + near));
        assertAlmostEquals(of(Math.atan2(x, r)).current, current!, current! * near);
      }),
      { numRuns: 100 },
    );
  });
  it("just within its longest run it trips at once, just beyond it does not surely; with a source or none (mathjs)", () => {
    const drawn = fc.tuple(
      fc.integer({ min: 1, max: 3000 }),
      fc.constantFrom(undefined, 400, 2000, 10_000),
      fc.constantFrom(undefined, 0.5, 4),
    );
    fc.assert(
      fc.property(drawn, ([milliohms, source, ratio]) => {
        const more: Partial<PathRequest> = {
          returnImpedance: per(milliohms / 1000),
          ...(source && { source: A(source), ...(ratio && { ratio }) }),
        };
        const far = number(emt(10, more), "longest-run");
        assertEquals([far - 0.01, far + 0.01].map((feet) => path(emt(feet, more)).verdict), ["ok", "ok if"]);
        const own = source ? 120 / source : 0;
        const behind = ratio
          ? complex(own / Math.hypot(1, ratio), own * ratio / Math.hypot(1, ratio))
          : complex(own, 0);
        const ahead = Number(abs(add(behind, line(far)) as Complex));
        assertAlmostEquals(120 / (ahead + milliohms / 1000 * far / 1000) / 30, 10, 1e-6);
      }),
      { numRuns: 60 },
    );
  });
  it("told end to end is the same as told over its length", () => {
    const [whole, each] = [{ value: 0.04, unit: "ohm" as const }, per(0.2)]
      .map((returnImpedance) => path(emt(200, { returnImpedance })));
    for (const id of ["ground-fault-current", "longest-run", "touch-voltage"]) {
      assertAlmostEquals(Number(figure(whole!, id)), Number(figure(each!, id)), 1e-9);
    }
  });
  it("not told, the most it may have is what makes it trip at once: at it, and above it", () => {
    for (const [feet, more] of [[200, {}], [120, { source: A(1500) }], [90, { trips: 8 }]] as const) {
      const open = path(emt(feet, more));
      const most = Number(figure(open, "raceway-impedance-most"));
      assertEquals([open.verdict, open.figures["trip-multiple"]], ["ok if", undefined]);
      const at = (value: number) => path(emt(feet, { ...more, returnImpedance: { value, unit: "ohm" } })).verdict;
      assertEquals([at(most - 1e-9), at(most + 1e-9)], ["ok", more && "trips" in more ? "not ok" : "ok if"]);
    }
  });
  it("where even none in it would not do, that is said: at 5 and at 10 times the rating of 120 V through the line alone", () => {
    const full = 120 / 300 / Math.hypot(r, x) * 1000;
    assertEquals([full - 0.01, full + 0.01, 2 * full + 0.01].map((feet) => path(emt(feet)).verdict), [
      "ok if",
      "ok if",
      "not ok",
    ]);
    assertEquals(path(emt(full + 0.01)).figures["raceway-impedance-most"], undefined);
  });
  it("how far, with no impedance told, is asked for", () => {
    const outcome = ask({ kind: "fault-path", ...emt(1), length: undefined, find: "longest run" });
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "returnImpedance");
  });
  // 250.118(5) and (6), from memory: 6 ft; 20 A of FMC, 60 A of LFMC.
  it("of flexible conduit is one of short lengths and small circuits alone: at each limit and above", () => {
    const verdict = (flexible: "FMC" | "LFMC", breaker: number, feet: number) =>
      path(emt(feet, { flexible, breaker: A(breaker), size: "6", returnImpedance: per(1) })).verdict;
    assertEquals([verdict("FMC", 20, 6), verdict("FMC", 20, 6.1), verdict("FMC", 25, 6)], ["ok", "not ok", "not ok"]);
    assertEquals(number(emt(5, { flexible: "FMC", breaker: A(20), returnImpedance: per(1) }), "longest-run"), 6);
    assertEquals([verdict("LFMC", 60, 6), verdict("LFMC", 70, 6), verdict("LFMC", 20, 7)], ["ok", "not ok", "not ok"]);
  });
  it("is read from the words, and a ground wire that is told later takes its place", () => {
    const open = engine.ask("40 A breaker, 8 AWG copper in 1 in rigid 150 ft, rigid is the ground, does it trip?");
    assert(open.outcome === "answered" && open.answer.verdict === "ok if");
    const told = engine.ask("the pipe measures 0.05 ohm per 1000 ft", { after: open.thread as never });
    assert(told.outcome === "answered" && told.answer.verdict === "ok", JSON.stringify(told).slice(0, 300));
    assertEquals((told.answer.request as PathRequest).returnImpedance, per(0.05));
    const wire = engine.ask("put a #10 copper ground in it", { after: told.thread as never });
    assert(wire.outcome === "answered");
    assertEquals(figure(wire.answer, "equipment-grounding-conductor"), "10");
  });
});

describe("what is missing is asked", () => {
  it("breaker, wire, length; and a bare reply answers", () => {
    const needs = (request: Partial<PathRequest>) => {
      const outcome = ask({ kind: "fault-path", ...request });
      return outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : [];
    };
    assertEquals(needs({}), ["breaker", "size", "length"]);
    assertEquals(needs({ find: "longest run", breaker: A(20) }), ["size"]);
    assertEquals(needs({ return: "earth" }), ["breaker"]);
    const asked = engine.ask("will the 20 A breaker trip on a fault to the case 180 ft away?");
    assert(asked.outcome === "unclear" && asked.needs[0]!.field === "size");
    const told = engine.ask("12/2", { after: asked.thread as never });
    assert(told.outcome === "answered" && told.answer.kind === "fault-path");
    assertEquals(told.answer.verdict, "ok if");
    const changed = engine.ask("make it 120 ft", { after: told.thread as never });
    assert(changed.outcome === "answered");
    assertEquals(changed.answer.verdict, "ok");
    const weaker = engine.ask("900 A available at the panel", { after: changed.thread as never });
    assert(weaker.outcome === "answered" && weaker.answer.kind === "fault-path", JSON.stringify(weaker).slice(0, 300));
    assertEquals((weaker.answer.request as PathRequest).source, A(900));
  });
});

describe("a fault-path request that is written and read again", () => {
  const maybe = <T>(name: string, value: fc.Arbitrary<T>) => fc.record({ [name]: value }, { requiredKeys: [] });
  const wires = fc.constantFrom("14", "12", "10", "8", "6", "2", "1/0", "250 kcmil");
  const circuit = fc.tuple(
    fc.record({ breaker: fc.constantFrom(15, 20, 30, 60, 100).map(A), size: wires }),
    fc.oneof(
      fc.integer({ min: 10, max: 900 }).map((feet) => ({ length: ft(feet) })),
      fc.constant({ find: "longest run" as const }),
    ),
    fc.oneof(
      maybe("system", fc.constantFrom("120/240", "208Y/120", "480Y/277")),
      maybe("volts", fc.constantFrom(120, 240, 277, 480).map(V)),
    ),
    maybe("material", fc.constantFrom("copper", "aluminum")),
    fc.oneof(
      maybe("method", fc.constantFrom("NM cable", "UF cable", "MC cable")),
      maybe("conduit", fc.constantFrom("PVC", "steel")),
    ),
    maybe("ground", wires),
    maybe("source", fc.oneof(fc.constantFrom(5, 10).map(kA), fc.integer({ min: 300, max: 9000 }).map(A))),
    maybe("ratio", fc.constantFrom(0.5, 2)),
    maybe("temperature", fc.constantFrom(60, 90).map((value) => ({ value, unit: "°C" }))),
    maybe("trips", fc.constantFrom(5, 7.5, 8)),
    maybe("separate", fc.constant(true)),
    maybe("groundFaultProtected", fc.constant(true)),
  ).map((parts) => Object.assign({}, ...parts as object[]) as Record<string, unknown>);
  const earth = fc.record({
    breaker: fc.constantFrom(15, 20).map(A),
    return: fc.constant("earth"),
    earth: fc.constantFrom(5, 25, 40).map((value) => ({ value, unit: "ohm" })),
  }, { requiredKeys: ["breaker", "return"] });
  const raceway = fc.tuple(
    fc.record({ breaker: fc.constantFrom(15, 20, 30, 60).map(A), size: wires }),
    fc.oneof(
      fc.record({ flexible: fc.constantFrom("FMC", "LFMC"), conduit: fc.constant("steel") }),
      fc.record({ conduit: fc.constantFrom("steel", "aluminum") }),
    ),
    fc.constantFrom(
      {},
      { returnImpedance: { value: 0.2, unit: "ohm/kft" } },
      { returnImpedance: { value: 0.05, unit: "ohm" } },
    ),
  ).map((parts) =>
    Object.assign({ return: "raceway", length: ft(80) }, ...parts as object[]) as Record<string, unknown>
  );
  for (const [name, requests] of Object.entries({ circuit, earth, raceway })) {
    it(`is the same request: ${name}`, () => {
      fc.assert(
        fc.property(requests as fc.Arbitrary<Record<string, unknown>>, (draft) => {
          const written = question.write(question.input.parse(draft));
          const parsed = read(written);
          assertEquals(parsed.question?.id, "fault-path", written);
          if (!parsed.question) return;
          assertEquals(question.input.parse(parsed.draft), question.input.parse(draft), written);
          assertEquals([parsed.asks, parsed.unused.filter(({ text }) => /\d/.test(text))], [[], []], written);
        }),
        { numRuns: 300 },
      );
    });
  }
});
