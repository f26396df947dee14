/** Circuits of cooling equipment: published examples, thresholds, plan checks, properties, round trips of the text. */
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import question from "../src/questions/motor/cooling-circuit/question.ts";
import type { CoolingRequest as CoolingRead } from "../src/questions/motor/cooling-circuit/request.ts";
import { answered, ask, EDITIONS, engine, figure, tableFiles } from "./support/engine.ts";
import { sound } from "./support/sound.ts";
import type { AsJson } from "./support/as-json.ts";

type CoolingRequest = AsJson<CoolingRead>;

const A = (value: number) => ({ value, unit: "A" as const });
const compressor = (ratedLoad: number, count = 1) => ({ count, ratedLoad: A(ratedLoad) });
const fan = (current: number, count = 1) => ({ count, current: A(current) });
const circuit = (request: Partial<CoolingRequest>, edition = "2023") =>
  answered({ kind: "cooling-circuit", ...request }, { edition });
const at = (answer: ReturnType<typeof circuit>, ...ids: string[]) => ids.map((id) => figure(answer, id));
const outcomeOf = (request: Partial<CoolingRequest>, edition = "2023") =>
  ask({ kind: "cooling-circuit", ...request }, { edition });
const stepValue = (answer: ReturnType<typeof circuit>, name: string) => {
  const value = answer.steps.find((step) => step.name === name)!.value;
  assert("n" in value, name);
  const [top, bottom = "1"] = value.n.split("/");
  return Number(top) / Number(bottom);
};

describe("published examples, in every edition", () => {
  // EC&M, Quizzes on the Code (J. Stallcup): A/C overcurrent protection, questions 1 and 2.
  const unit = { compressors: [compressor(20)], fans: [fan(2.5)] };
  for (const edition of EDITIONS) {
    it(`20 A compressor and 2.5 A fan: 37.5 A gives 35 A, 47.5 A gives 45 A where it will not start, ${edition}`, () => {
      const answer = circuit(unit, edition);
      assertEquals(stepValue(answer, "normal limit of the device"), 37.5);
      assertEquals(stepValue(answer, "highest limit of the device"), 47.5);
      assertEquals(at(answer, "maximum-protection", "breaker-rating"), [35, 35]);
      assertEquals(figure(answer, "maximum-protection-hard-starting"), 45);
      assertEquals(at(circuit({ ...unit, hardStarting: true }, edition), "maximum-protection", "breaker-rating"), [
        45,
        45,
      ]);
    });
    it(`the same by the percentage that was asked for, ${edition}`, () => {
      const by = (value: number) => circuit({ ...unit, percent: { value, unit: "%" } }, edition);
      assertEquals([175, 225].map((percent) => figure(by(percent), "maximum-protection")), [35, 45]);
    });
  }
  // HVAC training article on Article 440 Part III: conductors at 125 % of one compressor (440.32).
  it("one compressor alone: conductors at 125 %", () => {
    assertEquals(figure(circuit({ compressors: [compressor(20)] }), "minimum-circuit-ampacity"), 25);
  });
  // 440.33, from memory: the sum of all and a quarter of the largest.
  it("several: the sum and 25 % of the largest", () => {
    const answer = circuit({ compressors: [compressor(18.6, 2)], fans: [fan(1.5, 2)] });
    assertEquals(figure(answer, "minimum-circuit-ampacity"), 2 * 18.6 + 2 * 1.5 + 18.6 / 4);
  });
  it("the larger of rated-load and branch-circuit selection current counts (440.6, forum thread quoting it)", () => {
    const both = [[20, 24], [24, 20]].map(([ratedLoad, selection]) =>
      circuit({ compressors: [{ count: 1, ratedLoad: A(ratedLoad!), selection: A(selection!) }] })
    );
    assertEquals(both.map((answer) => figure(answer, "minimum-circuit-ampacity")), [30, 30]);
  });
});

describe("nameplates", () => {
  const plate = { minimumCircuitAmpacity: A(23), maximumProtection: A(40) };
  const C75 = { terminals: { value: 75, unit: "°C" } } as const;
  it("are taken as marked: no further 125 %, and the device may exceed the wire (440.4, 240.4(G))", () => {
    // 12 AWG carries 25 A at 75 °C (Table 310.16); its 20 A device limit does not hold here.
    const answer = circuit({ ...plate, ...C75 });
    assertEquals(at(answer, "minimum-circuit-ampacity", "maximum-protection", "conductor"), [23, 40, "12"]);
    assert(answer.cautions.some(({ text }) => text.includes("on purpose")));
  });
  it("below, at and above what a wire carries", () => {
    const wires = [24.9, 25, 25.1].map((ampacity) =>
      figure(circuit({ ...plate, minimumCircuitAmpacity: A(ampacity), ...C75 }), "conductor")
    );
    assertEquals(wires, ["12", "12", "10"]);
  });
  it("terminations of unknown marking count as 60 °C, and NM cable always does", () => {
    assertEquals(figure(circuit(plate), "conductor"), "10");
    assertEquals(figure(circuit({ ...plate, ...C75, method: "NM cable" }), "conductor"), "10");
  });
  it("a marking between standard ratings takes the one below it", () => {
    const devices = [39.9, 40, 44.9, 45].map((most) =>
      figure(circuit({ ...plate, maximumProtection: A(most) }), "breaker-rating")
    );
    assertEquals(devices, [35, 40, 40, 45]);
  });
  it("without the largest device the wire is told and the device only from below", () => {
    const answer = circuit({ minimumCircuitAmpacity: A(23) });
    assertEquals(at(answer, "conductor", "breaker-rating"), ["10", 25]);
    assertEquals(answer.figures["maximum-protection"], undefined);
    assert(answer.headline.includes("nameplate's maximum"));
  });
  it("with the largest device alone, or swapped, are asked about", () => {
    const alone = outcomeOf({ maximumProtection: A(40) });
    const swapped = outcomeOf({ minimumCircuitAmpacity: A(40), maximumProtection: A(23) });
    for (const [outcome, field] of [[alone, "minimumCircuitAmpacity"], [swapped, "maximumProtection"]] as const) {
      assert(outcome.outcome === "unclear");
      assertEquals(outcome.needs.map((need) => need.field), [field]);
    }
  });
  it("compare the device with the wire that is installed, not with the least (Table 310.16, 60 °C: 6 AWG 55 A)", () => {
    const larger = (device: number, size: string) => {
      const { cautions } = circuit({ ...plate, maximumProtection: A(60), breakers: [A(device)], size });
      return cautions.find(({ text }) => text.includes("on purpose"))?.text;
    };
    assertEquals(larger(50, "6"), undefined);
    assert(larger(60, "6")!.includes("55 A of the 6 AWG wire"));
    assert(larger(50, "8")!.includes("40 A of the 8 AWG wire"));
    // 12 AWG stands at 75 °C only, where it carries 25 A.
    assert(larger(30, "12")!.includes("25 A of the 12 AWG wire"));
  });
  it("ground aluminum conductors in aluminum, as every kind does (Table 250.122: 60 A, 10 AWG copper, 8 AWG aluminum)", () => {
    const ground = (more: object) =>
      figure(
        circuit({ minimumCircuitAmpacity: A(38), maximumProtection: A(60), ...more }),
        "equipment-grounding-conductor",
      );
    assertEquals([ground({}), ground({ material: "aluminum" })], ["10", "8"]);
  });
  it("say nothing of the caution where the wire carries the device", () => {
    const answer = circuit({ minimumCircuitAmpacity: A(25), maximumProtection: A(30) });
    assert(!answer.cautions.some(({ text }) => text.includes("on purpose")));
  });
});

describe("thresholds of the device", () => {
  it("the limit at, below and above a standard rating goes to the one not above it", () => {
    // 175 % of 20 A is 35 A exactly.
    const devices = [19.9, 20, 20.1].map((rated) =>
      figure(circuit({ compressors: [compressor(rated)] }), "breaker-rating")
    );
    assertEquals(devices, [30, 35, 35]);
  });
  it("no device need be smaller than 15 A (440.22(A), from memory)", () => {
    const devices = [4, 8, 8.6, 11.5].map((rated) =>
      figure(circuit({ compressors: [compressor(rated)] }), "breaker-rating")
    );
    assertEquals(devices, [15, 15, 15, 20]);
  });
  it("a device is never below what the conductors must carry", () => {
    // 1.75 × 3 + 6 × 2.9 is 22.65 A, the ampacity 1.25 × 3 + 17.4 is 21.15 A: 20 A would be below it.
    const answer = circuit({ compressors: [compressor(3)], fans: [fan(2.9, 6)] });
    assertAlmostEquals(Number(figure(answer, "minimum-circuit-ampacity")), 21.15);
    assertEquals(figure(answer, "breaker-rating"), 25);
  });
});

describe("a fan larger than the compressor (440.22(B)(2), from memory)", () => {
  it("has the device follow the fan's own share, next standard size down", () => {
    // 250 % of 12 A and 8 A besides: 38 A.
    const answer = circuit({ compressors: [compressor(8)], fans: [fan(12)] });
    assertEquals(at(answer, "maximum-protection"), [35]);
    // 8 + 12 + 25 % of 12.
    assertEquals(at(answer, "minimum-circuit-ampacity"), [23]);
  });
});

describe("electric heat on the same circuit", () => {
  const parts = {
    compressors: [compressor(20)],
    fans: [fan(4)],
    volts: { value: 240, unit: "V" as const },
    phases: 1 as const,
  };
  it("counts at 125 % and runs with the compressor unless it is kept from it", () => {
    const heat = { value: 9.6, unit: "kW" as const };
    assertEquals(figure(circuit({ ...parts, heat }), "minimum-circuit-ampacity"), 24 + 5 + 40 * 1.25);
    const interlocked = circuit({ ...parts, heat, interlocked: true });
    assertEquals(figure(interlocked, "minimum-circuit-ampacity"), 44 * 1.25);
  });
  it("the largest load decides the device: below, at and above the compressor's current", () => {
    const decides = (amperes: number) => {
      const { value } = circuit({ ...parts, heat: A(amperes) }).steps.find(({ name }) =>
        name === "largest load on the circuit"
      )!;
      return "word" in value && value.word.startsWith("a compressor");
    };
    assertEquals([19.9, 20, 20.1].map(decides), [true, true, false]);
  });
  it("the device carries what the conductors must", () => {
    // 35 + 4 + 20 A would be 50 A, next down: less than 24 + 5 + 25 A.
    assertEquals(figure(circuit({ ...parts, heat: A(20) }), "breaker-rating"), 60);
    assertEquals(figure(circuit({ ...parts, heat: A(30) }), "breaker-rating"), 70);
  });
});

describe("room units (440.62, from memory)", () => {
  const room = (amperes: number, breaker: number, sharing: "alone" | "shared") =>
    circuit({ room: sharing, unitCurrent: A(amperes), breakers: [A(breaker)] }).verdict;
  it("alone take up to 80 % of the circuit", () => {
    assertEquals([11.9, 12, 12.1].map((amperes) => room(amperes, 15, "alone")), ["ok", "ok", "not ok"]);
    assertEquals([16, 16.1].map((amperes) => room(amperes, 20, "alone")), ["ok", "not ok"]);
  });
  it("with other outlets take up to half of it", () => {
    assertEquals([7.4, 7.5, 7.6].map((amperes) => room(amperes, 15, "shared")), ["ok", "ok", "not ok"]);
  });
  it("are ok only if alone where nothing was said", () => {
    const answer = circuit({ room: "not told", unitCurrent: A(10), breakers: [A(15)] });
    assertEquals(answer.verdict, "ok if");
  });
  it("end at 40 A, 250 V and single phase", () => {
    const ends = (request: Partial<CoolingRequest>) =>
      outcomeOf({ room: "alone", unitCurrent: A(10), ...request }).outcome;
    assertEquals([40, 40.1].map((amperes) => ends({ unitCurrent: A(amperes) })), ["answered", "not covered"]);
    const volts = [250, 277].map((value) => ends({ volts: { value, unit: "V" } }));
    assertEquals(volts, ["answered", "not covered"]);
    assertEquals(ends({ phases: 3 }), "not covered");
  });
});

describe("plan checks", () => {
  const plate = { minimumCircuitAmpacity: A(23), maximumProtection: A(40) };
  const verdict = (request: Partial<CoolingRequest>) => circuit({ ...plate, ...request }).verdict;
  it("a device between the smallest standard one and the marking is ok", () => {
    assertEquals([20, 25, 40, 45].map((breaker) => verdict({ breakers: [A(breaker)] })), [
      "not ok",
      "ok",
      "ok",
      "not ok",
    ]);
  });
  it("a breaker where the nameplate names fuses is none of what it is listed with (110.3(B), from memory)", () => {
    assertEquals(verdict({ markedFor: "fuse", breakers: [A(40)] }), "not ok");
    assertEquals(verdict({ markedFor: "fuse", fuses: [A(40)] }), "ok");
    assertEquals(verdict({ markedFor: "fuse or breaker", breakers: [A(40)] }), "ok");
  });
  it("of two devices to choose from one that stands is enough, and is named", () => {
    const answer = circuit({ ...plate, breakers: [A(40), A(45)] });
    assertEquals([answer.verdict, figure(answer, "breaker-rating")], ["ok if", 40]);
    assert(answer.verdictBecause!.includes("40 A breaker"));
  });
  it("a device above the normal limit is ok only if the compressor will not start", () => {
    const parts = { compressors: [compressor(20)], fans: [fan(2.5)] };
    const verdicts = [35, 40, 45, 50].map((breaker) => circuit({ ...parts, breakers: [A(breaker)] }).verdict);
    assertEquals(verdicts, ["ok", "ok if", "ok if", "not ok"]);
  });
  it("a wire that does at 75 °C only is ok if the terminations are marked for it", () => {
    assertEquals(verdict({ size: "12" }), "ok if");
    assertEquals(verdict({ size: "12", terminals: { value: 75, unit: "°C" } }), "ok");
    assertEquals(verdict({ size: "12", method: "NM cable" }), "not ok");
    assertEquals(verdict({ size: "14" }), "not ok");
  });
  it("a disconnect carries 115 % of all that runs (440.12, from memory)", () => {
    // 115 % of 20 A.
    const parts = { compressors: [compressor(20)] };
    assertEquals([22.9, 23].map((rating) => circuit({ ...parts, disconnect: A(rating) }).verdict), ["not ok", "ok"]);
  });
  it("the verdict leads the headline", () => {
    assert(circuit({ ...plate, breakers: [A(45)] }).headline.startsWith("Not OK: 45 A"));
  });
});

describe("what is never sized", () => {
  it("tons and BTU/h are asked about, with a range marked as rough", () => {
    for (const capacity of [{ value: 3, unit: "ton" }, { value: 36_000, unit: "BTU/h" }] as const) {
      const outcome = outcomeOf({ capacity });
      assert(outcome.outcome === "unclear");
      assertEquals(outcome.needs.map(({ field }) => field), ["nameplate"]);
      assert(outcome.needs[0]!.ask.includes("rough guide only"), outcome.needs[0]!.ask);
      assert(outcome.needs[0]!.ask.includes("between 15 A and 27 A"), outcome.needs[0]!.ask);
    }
  });
  it("a unit's running current, a fan without its own, a compressor without its own", () => {
    const unknown = [
      [{ unitCurrent: A(18) }, "nameplate"],
      [{ compressors: [compressor(20)], fans: [{ count: 1 }] }, "fans"],
      [{ compressors: [{ count: 1 }] }, "compressors"],
      [{ fans: [fan(2)] }, "compressors"],
      [{}, "nameplate"],
    ] as const;
    for (const [request, field] of unknown) {
      const outcome = outcomeOf(request as Partial<CoolingRequest>);
      assert(outcome.outcome === "unclear");
      assertEquals(outcome.needs.map((need) => need.field), [field]);
    }
  });
});

describe("a run of some length", () => {
  it("takes a larger wire where the usual drop would be passed, and the ground grows with it", () => {
    const plate = {
      minimumCircuitAmpacity: A(23),
      maximumProtection: A(40),
      volts: { value: 240, unit: "V" as const },
    };
    const at = (feet: number) => circuit({ ...plate, length: { value: feet, unit: "ft" } });
    assertEquals(figure(at(50), "conductor"), "10");
    const far = at(250);
    assertEquals([figure(far, "conductor"), figure(far, "equipment-grounding-conductor")], ["6", "6"]);
    assert(Number(figure(far, "voltage-drop")) <= 3);
  });
});

const amperes = fc.integer({ min: 10, max: 4000 }).map((tenths) => A(tenths / 10));
const fans = fc.record({
  count: fc.integer({ min: 1, max: 4 }),
  current: fc.integer({ min: 1, max: 80 }).map((n) => A(n / 10)),
});
const compressors = fc.record({ count: fc.integer({ min: 1, max: 4 }), ratedLoad: amperes });
const partsOf = fc.record({
  compressors: fc.array(compressors, { minLength: 1, maxLength: 3 }),
  fans: fc.array(fans, { minLength: 1, maxLength: 2 }),
}, { requiredKeys: ["compressors"] });

const standard = (tableFiles["2017/standard-overcurrent-ratings.json"] as { rows: [number, string][] }).rows
  .filter(([, devices]) => devices === "fuse and breaker").map(([rating]) => rating);

describe("properties", () => {
  it("the device is a standard one, never below the ampacity, never above its limit but where need be", () => {
    fc.assert(
      fc.property(partsOf, (parts) => {
        const outcome = outcomeOf(parts);
        if (outcome.outcome !== "answered") return;
        const { answer } = outcome;
        const [least, device, highest] = at(
          answer,
          "minimum-circuit-ampacity",
          "maximum-protection",
          "maximum-protection-hard-starting",
        ).map(Number);
        assert(standard.includes(device!));
        assert(device! >= least! - 1e-9);
        assert(highest! >= device!);
        const nextUp = standard.find((rating) => rating >= least! - 1e-9)!;
        const limit = answer.steps.find(({ name }) =>
          name === "normal limit of the device" || name === "limit of the device"
        );
        if (limit) assert(device! <= Math.max(stepValue(answer, limit.name) + 1e-9, nextUp, 15));
        else assertEquals(device, Math.max(nextUp, 15));
      }),
      { numRuns: 60 },
    );
  });
  it("a larger compressor never has a smaller ampacity, device or wire", () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 2000 }), fc.integer({ min: 1, max: 200 }), (tenths, more) => {
        const [small, large] = [tenths, tenths + more].map((n) =>
          circuit({ compressors: [compressor(n / 10)], fans: [fan(0.5)] })
        );
        for (
          const id of [
            "minimum-circuit-ampacity",
            "maximum-protection",
            "maximum-protection-hard-starting",
            "disconnect-current",
          ]
        ) {
          assert(Number(figure(small!, id)) <= Number(figure(large!, id)) + 1e-9, id);
        }
      }),
      { numRuns: 40 },
    );
  });
  it("every edition and every corner ends in an outcome", () => {
    const some = [undefined, 0.1, 8, 23, 100, 101, 400, 2000];
    for (const edition of EDITIONS) {
      for (const ampacity of some) {
        for (const most of some) {
          for (
            const extra of [{}, { material: "aluminum" }, { length: { value: 900, unit: "ft" } }, {
              breakers: [A(30)],
            }] as const
          ) {
            const request = {
              ...(ampacity && { minimumCircuitAmpacity: A(ampacity) }),
              ...(most && { maximumProtection: A(most) }),
              ...extra,
            };
            sound(outcomeOf(request as Partial<CoolingRequest>, edition));
          }
        }
      }
    }
  });
});

describe("text", () => {
  const request = fc.record({
    minimumCircuitAmpacity: amperes,
    maximumProtection: amperes,
    minimumProtection: amperes,
    markedFor: fc.constantFrom("fuse", "fuse or breaker"),
    breakers: fc.array(amperes, { minLength: 1, maxLength: 3 }),
    fuses: fc.array(amperes, { minLength: 1, maxLength: 2 }),
    disconnect: amperes,
    size: fc.constantFrom("14", "10", "2/0", "250 kcmil"),
    material: fc.constantFrom("copper", "aluminum"),
    method: fc.constantFrom("NM cable", "UF cable", "MC cable"),
    terminals: fc.constantFrom({ value: 60, unit: "°C" }, { value: 75, unit: "°C" }),
    ambient: fc.constant({ value: 110, unit: "°F" }),
    conductors: fc.integer({ min: 1, max: 40 }),
    length: fc.integer({ min: 1, max: 900 }).map((value) => ({ value, unit: "ft" })),
    volts: fc.constantFrom({ value: 208, unit: "V" }, { value: 240, unit: "V" }),
    phases: fc.constantFrom(1, 3),
    dropLimit: fc.constantFrom({ value: 2, unit: "%" }, { value: 5, unit: "%" }),
    powerFactor: fc.constantFrom(0.8, 1),
  }, { requiredKeys: ["minimumCircuitAmpacity"] })
    .filter(({ markedFor, maximumProtection }) => markedFor === undefined || maximumProtection !== undefined);
  const ofParts = fc.tuple(
    partsOf,
    fc.record({ hardStarting: fc.constant(true), interlocked: fc.constant(true) }, { requiredKeys: [] }),
    fc.boolean(),
  )
    .map(([parts, more, heated]) => ({
      ...parts,
      ...more,
      ...(heated ? { heat: { value: 10, unit: "kW" } } : {}),
    }));
  const ofRoom = fc.record({
    room: fc.constantFrom("alone", "shared", "not told"),
    unitCurrent: amperes,
    breakers: fc.array(amperes, { minLength: 1, maxLength: 1 }),
  }, { requiredKeys: ["room", "unitCurrent"] });
  it("a request written out reads back to the same request", () => {
    fc.assert(
      fc.property(fc.oneof(request, ofParts, ofRoom), (draft) => {
        const written = question.input.parse(draft);
        const outcome = engine.ask(question.write(written));
        const read = outcome.outcome === "answered"
          ? outcome.answer.request
          : outcome.outcome === "unclear"
          ? outcome.understood
          : undefined;
        if (read === undefined) return;
        const { kind, edition: _, ...rest } = read as { kind: string; edition?: string };
        assertEquals(kind, "cooling-circuit", question.write(written));
        assertEquals(question.input.parse(rest), written, question.write(written));
      }),
      { numRuns: 150 },
    );
  });
});
