/** Feeders of several motors: published examples, the rules' parts, taps, groups, plan checks, properties, round trips. */
import { assert, assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Outcome } from "../src/outcomes.ts";
import fc from "fast-check";
import question from "../src/questions/motor/motor-feeder/question.ts";
import type { Request } from "../src/engine.ts";
import type { FeederRequest as FeederRead } from "../src/questions/motor/motor-feeder/request.ts";
import { makeReader } from "./support/reader.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";
import type { AsJson } from "./support/as-json.ts";

type FeederRequest = AsJson<FeederRead>;

type Said = Partial<FeederRequest>;
const A = (value: number) => ({ value, unit: "A" as const });
const hp = (value: number, count = 1) => ({ count, power: { value, unit: "hp" as const } });
const at460 = { volts: { value: 460, unit: "V" as const }, supply: "three-phase" as const };
const feeder = (said: Said, edition = "2023") => answered({ kind: "motor-feeder", ...at460, ...said }, { edition });
const at = (said: Said, ...ids: string[]) => ids.map((id) => figure(feeder(said), id));
const whole = ["feeder-ampacity", "feeder-conductor", "feeder-protection"];
const outcome = (said: Said, edition = "2023") => ask({ kind: "motor-feeder", ...said }, { edition });

describe("published example, in every edition", () => {
  // EC&M, Stumped by the Code: short-circuit and ground-fault protection for a motor feeder (M. Holt); 47.75 A is printed as 48.
  for (const edition of EDITIONS) {
    it(`20 hp and 10 hp, 460 V: 47.75 A, 8 AWG, 84 A gives an 80 A breaker, ${edition}`, () => {
      const answer = feeder({ motors: [hp(20), hp(10)] }, edition);
      assertEquals(whole.map((id) => figure(answer, id)), [47.75, "8", 80]);
    });
  }
});

describe("single-phase motors on a three-phase feeder", () => {
  // 10 hp three-phase 30.8 A, 3 hp single-phase 18.7 A at 208 V (Tables 430.250 and 430.248); the currents of two pairs of
  // lines meet in their common line 60° apart.
  const at208 = { volts: { value: 208, unit: "V" as const }, supply: "three-phase" as const };
  const single = (count: number) => ({ ...hp(3, count), supply: "single-phase" as const });
  const ampacity = (motors: object[]) => at({ ...at208, motors } as Said, "feeder-ampacity")[0] as number;
  it("count on the line that carries most of them", () => {
    const largest = 30.8 * 1.25;
    assertAlmostEquals(ampacity([hp(10), single(1)]), largest + 18.7, 1e-6);
    assertAlmostEquals(ampacity([hp(10), single(2)]), largest + 18.7 * Math.sqrt(3), 1e-6);
    assertAlmostEquals(ampacity([hp(10), single(3)]), largest + 18.7 * Math.sqrt(3), 1e-6);
    assertAlmostEquals(ampacity([hp(10), single(4)]), largest + 18.7 * Math.sqrt(7), 1e-6);
    assertAlmostEquals(ampacity([single(1), hp(10), single(1)]), ampacity([hp(10), single(2)]), 1e-6);
  });
  it("are listed with their lines; on a single-phase feeder they simply add up", () => {
    const answer = feeder({ ...at208, motors: [hp(10), single(2)] } as Said);
    const listed = answer.assumptions.find(({ name }) => name === "single-phase motors on the lines");
    assertEquals(listed?.value, "3 hp between A and B, 3 hp between B and C");
    const alone = { volts: at208.volts, supply: "single-phase" as const, motors: [hp(3, 2)] };
    assertAlmostEquals(at(alone, "feeder-ampacity")[0] as number, 18.7 * 2.25, 1e-6);
  });
});

describe("the rule", () => {
  // 430.24 and 430.62(A), EC&M, NEC motors part 5 (430.62).
  it("takes 125 % of the largest and all of the others; the largest device and the others' currents, next size down", () => {
    // 1.25 × 65 + 34 + 14; 175 + 34 + 14 = 223.
    assertEquals(at({ motors: [hp(50), hp(25), hp(10)] }, ...whole), [129.25, "1", 200]);
    assertEquals(at({ motors: [hp(10), hp(50), hp(25)] }, ...whole), [129.25, "1", 200]);
  });
  it("counts one of two alike motors as the largest", () => {
    // 1.25 × 34 + 34; 90 + 34.
    assertEquals(at({ motors: [hp(25, 2)] }, "feeder-ampacity", "feeder-protection"), [76.5, 110]);
  });
  it("stays where the limit is a standard size", () => {
    // 10 hp: 14 A, 35 A breaker; 5 hp: 7.6 A; 3 hp: 4.8 A; 15 A of other load: 35 + 7.6 + 2.4 … and with 15 A exactly 50 A.
    assertEquals(at({ motors: [hp(10)], others: [{ load: A(15), continuous: false }] }, "feeder-protection"), [50]);
    assertEquals(at({ motors: [hp(10)], others: [{ load: A(14.9), continuous: false }] }, "feeder-protection"), [45]);
    assertEquals(at({ motors: [hp(10)], others: [{ load: A(15.1), continuous: false }] }, "feeder-protection"), [50]);
  });
  it("adds other loads: continuous at 125 %, which is also assumed", () => {
    const with30 = (continuous?: boolean) =>
      at(
        { motors: [hp(20)], others: [{ load: A(30), ...(continuous !== undefined && { continuous }) }] },
        "feeder-ampacity",
      )[0];
    assertEquals([with30(true), with30(false), with30()], [33.75 + 37.5, 33.75 + 30, 33.75 + 37.5]);
  });
  it("turns a load in kVA into amperes of the system", () => {
    const load = { value: 20, unit: "kVA" as const };
    const ampacity = at({ motors: [hp(20)], others: [{ load, continuous: false }] }, "feeder-ampacity")[0] as number;
    assertAlmostEquals(ampacity, 33.75 + 20000 / (480 * Math.sqrt(3)), 1e-6);
  });
  it("leaves out motors that are kept from running", () => {
    assertEquals(at({ motors: [hp(25), hp(10)], interlocked: true }, "feeder-ampacity", "feeder-protection"), [
      42.5,
      90,
    ]);
    assertEquals(at({ motors: [{ ...hp(25, 3), atOnce: 2 }] }, "feeder-ampacity", "feeder-protection"), [76.5, 110]);
  });
  it("goes by the fuses that the motors have", () => {
    // 40 hp: 52 A, 91 A gives 100 A; 100 + 42 = 142.
    assertEquals(at({ motors: [hp(10, 3), hp(40)], device: "dual-element fuse" }, "feeder-protection"), [125]);
  });
  it("takes a motor that is marked in amperes alone", () => {
    assertEquals(at({ motors: [{ count: 1, nameplateCurrent: A(40) }, hp(10)] }, "feeder-ampacity"), [64]);
  });
  it("says why the device may be larger than the wire", () => {
    const { cautions } = feeder({ motors: [hp(20), hp(10)] });
    assertStringIncludes(cautions.map(({ text }) => text).join(" "), "may be larger than the wire");
  });
});

describe("a feeder's device carries what the loads together need (430.63 with 215.3)", () => {
  it("5 hp beside 100 A continuous: 134.5 A, and so 150 A although the limit is 145", () => {
    const other = { load: A(100), continuous: true };
    for (const edition of EDITIONS) {
      const answer = feeder({ motors: [hp(5)], others: [other] }, edition);
      assertAlmostEquals(Number(figure(answer, "feeder-ampacity")), 134.5);
      assertEquals(figure(answer, "feeder-protection"), 150);
      assert(answer.cautions.some(({ text }) => text.includes("size above that is taken")));
    }
  });
  it("at any other load and number of motors", () => {
    const parts = fc.record({
      motors: fc.array(
        fc.record({ power: fc.constantFrom(1, 3, 5, 10, 25, 50), count: fc.integer({ min: 1, max: 6 }) }),
        {
          minLength: 1,
          maxLength: 3,
        },
      ),
      others: fc.array(fc.record({ load: fc.integer({ min: 1, max: 200 }).map(A), continuous: fc.boolean() }), {
        maxLength: 2,
      }),
    });
    fc.assert(
      fc.property(parts, ({ motors, others }) => {
        const said = {
          motors: motors.map(({ power, count }) => hp(power, count)),
          ...(others.length > 0 && { others }),
        };
        const [ampacity, device] = at(said, "feeder-ampacity", "feeder-protection").map(Number) as [number, number];
        if (others.length > 0) assert(device >= ampacity - 1e-9, `${device} A for ${ampacity} A`);
        const plan = feeder({ ...said, breaker: A(device) });
        assertEquals(plan.verdict, "ok", "a plan of what it chooses itself");
      }),
      { numRuns: 60 },
    );
  });
});

describe("taps and groups", () => {
  // 430.28 and 430.53, from memory.
  const tapped = (feet: number) =>
    at({ motors: [hp(10, 4)], tap: { value: feet, unit: "ft" } }, "tap-ampacity")[0] as number;
  it("a tap is as large as its length asks, and as its motor needs", () => {
    // 59.5 A on 6 AWG (65 A), 70 A device. The motor itself needs 17.5 A; a third of 65 A is 21.67 A.
    assertEquals([tapped(10), tapped(25.5)], [17.5, 65]);
    assertAlmostEquals(tapped(10.5), 65 / 3, 1e-9);
    assertAlmostEquals(tapped(25), 65 / 3, 1e-9);
  });
  it("small motors may share a small circuit, larger ones only as a listed group", () => {
    const small = { motors: [hp(0.5, 2)], volts: { value: 120, unit: "V" as const }, supply: "single-phase" as const };
    // 9.8 A each is over 6 A.
    assertStringIncludes(
      feeder({ ...small, oneBranch: true }).cautions.map(({ text }) => text).join(),
      "group installation",
    );
    const smaller = { ...small, motors: [hp(0.25, 2)] };
    const shared = feeder({ ...smaller, oneBranch: true });
    assertEquals(figure(shared, "group-device"), 20);
    assertStringIncludes(shared.headline, "20 A breaker for all on one branch circuit");
    // Four of 5.8 A are too much for 20 A: the group's device again.
    const four = feeder({ ...smaller, motors: [hp(0.25, 4)], oneBranch: true });
    assertEquals(figure(four, "group-device"), figure(four, "feeder-protection"));
    assert((figure(four, "group-device") as number) > 20);
  });
});

describe("a plan put up for checking", () => {
  const verdict = (said: Said) => feeder({ motors: [hp(20), hp(10)], ...said }).verdict;
  it("grades the device: it may not be above the limit, nor below what runs", () => {
    assertEquals([40, 45, 80, 90].map((rating) => verdict({ breaker: A(rating) })), ["not ok", "ok", "ok", "not ok"]);
  });
  it("sizes the ground by the device that stands, and by the largest where it is refused (250.122)", () => {
    const ground = (said: Said) =>
      figure(feeder({ motors: [hp(20), hp(10)], material: "copper", ...said }), "equipment-grounding-conductor");
    // 80 A at the most: 8 AWG (250.122). 40 A is below the 41 A that runs; 50 A takes 10 AWG.
    assertEquals([40, 50, 80, 90].map((rating) => ground({ breaker: A(rating) })), ["8", "10", "8", "8"]);
    // 110 A on 1/0 AWG, which carries 150 A (430.62(B)): 6 AWG for the 110 A, as much larger as 1/0 is than the 8 AWG needed.
    const large = { breaker: A(110), size: "1/0" };
    assertEquals([verdict(large), ground(large)], ["ok", "1/0"]);
  });
  it("holds a method that hangs on its marking to it", () => {
    const buried = { method: "direct-burial conductors", material: "copper", size: "4" } as const;
    assertEquals(verdict({ ...buried, insulation: "USE-2" }), "ok");
    assertEquals(verdict({ ...buried, insulation: "XHHW-2" }), "ok if");
    assertEquals(verdict({ ...buried, insulation: "THWN-2" }), "not ok");
    const motor = {
      kind: "motor-circuit",
      power: hp(20).power,
      volts: { value: 460, unit: "V" },
      supply: "three-phase",
    };
    const cooling = { kind: "cooling-circuit", minimumCircuitAmpacity: A(20), maximumProtection: A(30) };
    for (const request of [motor, cooling]) {
      const judged = (insulation: string) => answered({ ...request, ...buried, insulation } as Request).verdict;
      assertEquals(["USE-2", "XHHW-2", "THWN-2"].map(judged), ["ok", "ok if", "not ok"]);
    }
  });
  it("lets larger conductors allow a larger device", () => {
    assertEquals(verdict({ breaker: A(90), size: "3" }), "ok");
  });
  it("grades the conductor", () => {
    assertEquals([verdict({ size: "10" }), verdict({ size: "8" })], ["not ok", "ok"]);
    // 30 hp and 10 hp at 460 V: 64 A, and 6 AWG carries 65 A at 75 °C, 55 A at 60 °C.
    const motors = [hp(30), hp(10)];
    const terminals = { value: 60 as const, unit: "°C" as const };
    assertEquals([verdict({ motors, size: "6" }), verdict({ motors, size: "6", terminals })], ["ok", "not ok"]);
  });
});

describe("what is never guessed", () => {
  it("voltage, phases and the motors themselves", () => {
    const field = (said: Said) => {
      const found = outcome(said);
      return found.outcome === "unclear" ? found.needs[0]!.field : found.outcome;
    };
    assertEquals(field({}), "motors");
    assertEquals(field({ motors: [hp(30), hp(10)] }), "volts");
    assertEquals(field({ motors: [hp(5), hp(3)], volts: { value: 230, unit: "V" } }), "supply");
  });
});

describe("properties", () => {
  const POWERS = [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100];
  const one = fc.constantFrom(...POWERS);
  const edition = fc.constantFrom(...EDITIONS);
  it("a feeder of one motor is its branch circuit", () => {
    fc.assert(
      fc.property(one, fc.constantFrom(208, 230, 460, 575), edition, (power, volts, code) => {
        const said = { volts: { value: volts, unit: "V" as const }, supply: "three-phase" as const };
        const alone = answered({ kind: "motor-circuit", power: { value: power, unit: "hp" }, ...said }, {
          edition: code,
        });
        const fed = feeder({ motors: [hp(power)], ...said }, code);
        assertEquals(
          whole.map((id) => figure(fed, id)),
          ["conductor-ampacity", "conductor", "breaker-rating"].map((id) => figure(alone, id)),
        );
      }),
      { numRuns: 40 },
    );
  });
  it("one motor more never gives less; the order of the motors does not count", () => {
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 5 }), one, edition, (powers, more, code) => {
        const motors = powers.map((power) => hp(power));
        const [less, all, turned] = [motors, [...motors, hp(more)], [hp(more), ...motors]].map((list) =>
          feeder({ motors: list }, code)
        );
        for (const id of ["feeder-ampacity", "feeder-protection"]) {
          assert(figure(all!, id) >= figure(less!, id), id);
          assertEquals(figure(turned!, id), figure(all!, id));
        }
        assert(figure(all!, "feeder-protection") >= figure(all!, "feeder-ampacity"));
      }),
      { numRuns: 40 },
    );
  });
  /** Horsepower at a voltage that the tables have is answered; on two or three phases what they end below is declined. */
  const expected = (supply: string | undefined, volts: number): Outcome["outcome"] => {
    const listed = supply === "single-phase" ? [] : supply === "direct current" ? [240] : [240, 480];
    if (listed.includes(volts)) return "answered";
    return volts > 1000 && (supply === "two-phase" || supply === "three-phase") ? "not covered" : "unclear";
  };
  it("every edition and supply ends as the tables have its voltage", () => {
    for (const code of editions.keys()) {
      for (const supply of ["single-phase", "two-phase", "three-phase", "direct current", undefined] as const) {
        for (const volts of [12, 115, 240, 277, 480, 2300]) {
          const said: Said = { motors: [hp(5), hp(40)], volts: { value: volts, unit: "V" }, ...(supply && { supply }) };
          assertEquals(sound(outcome(said, code)), expected(supply, volts), `${supply} ${volts} V ${code}`);
        }
      }
    }
  });

  const read = makeReader(engine.questions);
  const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
  const request = fc.record({
    motors: fc.array(
      fc.record({ count: fc.integer({ min: 1, max: 9 }), power: one.map((value) => ({ value, unit: "hp" as const })) }),
      { minLength: 1, maxLength: 4 },
    ),
    volts: fc.constantFrom(208, 230, 460, 480).map((value) => ({ value, unit: "V" as const })),
    supply: maybe(fc.constantFrom("single-phase", "three-phase")),
    others: maybe(
      fc.array(
        fc.record({ load: fc.integer({ min: 1, max: 200 }).map(A), continuous: fc.boolean() }),
        { minLength: 1, maxLength: 2 },
      ),
    ),
    interlocked: maybe(fc.constant(true)),
    device: maybe(fc.constantFrom("dual-element fuse", "nontime-delay fuse")),
    tap: maybe(fc.integer({ min: 5, max: 90 }).map((value) => ({ value, unit: "ft" as const }))),
    breaker: maybe(fc.integer({ min: 15, max: 600 }).map(A)),
    size: maybe(fc.constantFrom("10", "3/0", "500 kcmil")),
    length: maybe(fc.integer({ min: 10, max: 900 }).map((value) => ({ value, unit: "ft" as const }))),
    dropLimit: maybe(fc.integer({ min: 1, max: 10 }).map((value) => ({ value, unit: "%" as const }))),
    material: maybe(fc.constantFrom("copper", "aluminum")),
    terminals: maybe(fc.constantFrom(60, 75).map((value) => ({ value, unit: "°C" as const }))),
  });
  it("a request as it would be typed reads back as the same request", () => {
    fc.assert(
      fc.property(request, (generated) => {
        const said = JSON.parse(JSON.stringify(generated)) as FeederRequest;
        const text = question.write(question.input.parse(said));
        const parsed = read(text);
        assertEquals(parsed.question?.id, "motor-feeder", text);
        assertEquals(JSON.parse(JSON.stringify(parsed.question && parsed.draft)), said, text);
      }),
      { numRuns: 200 },
    );
  });
});
