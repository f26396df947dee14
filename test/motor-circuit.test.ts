/** One motor's circuit: published examples, tables, thresholds, plan checks, what is asked back, properties, round trips. */
import { assert, assertAlmostEquals, assertEquals, assertNotEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import question from "../src/questions/motor/motor-circuit/question.ts";
import type { MotorRequest as MotorRead } from "../src/questions/motor/motor-circuit/request.ts";
import { makeReader } from "./support/reader.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";
import type { AsJson } from "./support/as-json.ts";

type MotorRequest = AsJson<MotorRead>;

type Said = Partial<MotorRequest>;
const A = (value: number) => ({ value, unit: "A" as const });
const motor = (hp: number | string, volts: number, supply: MotorRequest["supply"], more: Said = {}): Said => ({
  power: { value: hp, unit: "hp" },
  volts: { value: volts, unit: "V" },
  supply,
  ...more,
});
const circuit = (said: Said, edition = "2023") => answered({ kind: "motor-circuit", ...said }, { edition });
const at = (said: Said, ...ids: string[]) => ids.map((id) => figure(circuit(said), id));
const outcome = (said: Said, edition = "2023") => ask({ kind: "motor-circuit", ...said }, { edition });
const asksFor = (said: Said): string[] => {
  const found = outcome(said);
  return found.outcome === "unclear" ? found.needs.map(({ field }) => field) : [found.outcome];
};

describe("two currents of a dual-voltage nameplate", () => {
  // 115/230 V, 14.4/7.2 A: the higher voltage takes the lower current (Article 430; the nameplate's own pair).
  const overload = (volts: number, more: object = {}) =>
    figure(
      answered({
        kind: "motor-circuit",
        power: { value: 1, unit: "hp" },
        supply: "single-phase",
        volts: { value: volts, unit: "V" },
        nameplateCurrents: [{ value: 14.4, unit: "A" }, { value: 7.2, unit: "A" }],
        ...more,
      }),
      "overload-rating",
    );
  it("count by the voltage it is connected for (430.32(A))", () => {
    // 115 % of the nameplate current.
    assertAlmostEquals(Number(overload(230)), 8.28, 1e-9);
    assertAlmostEquals(Number(overload(115)), 16.56, 1e-9);
    assertAlmostEquals(Number(overload(230, { dualVolts: "115/230" })), 8.28, 1e-9);
    assertAlmostEquals(Number(overload(120, { dualVolts: "115/230" })), 16.56, 1e-9);
  });
});

describe("published examples, in every edition", () => {
  for (const edition of EDITIONS) {
    // Classroom review game "Motor install final review" (technical school), JeopardyLabs.
    it(`15.2 A motor, 250 %: a 40 A breaker, ${edition}`, () => {
      const answer = circuit(motor(5, 230, "three-phase", { percent: { value: 250, unit: "%" } }), edition);
      assertEquals(["full-load-current", "breaker-rating"].map((id) => figure(answer, id)), [15.2, 40]);
    });
    // EC&M, Code Q&A: Sizing Conductors for Single Motor (2014). Its text calls 30 A, the 60 °C value, the one at 75 °C.
    it(`7-1/2 hp, 230 V, three-phase: 27.5 A, 10 AWG, 55 A gives a 60 A breaker, ${edition}`, () => {
      const terminals = { value: 75 as const, unit: "°C" as const };
      const answer = circuit(motor(7.5, 230, "three-phase", { terminals }), edition);
      assertEquals(
        ["full-load-current", "conductor-ampacity", "conductor", "breaker-rating"].map((id) => figure(answer, id)),
        [22, 27.5, "10", 60],
      );
    });
    // EC&M, Motor Calculations, Part 2: Feeders (2004); 42.5 A is printed as 43 A.
    it(`3 hp, 115 V, 31 A on the nameplate, 60 °C terminals: 34 A, 42.5 A, 6 AWG, ${edition}`, () => {
      const terminals = { value: 60 as const, unit: "°C" as const };
      const answer = circuit(motor(3, 115, "single-phase", { nameplateCurrent: A(31), terminals }), edition);
      assertEquals(
        ["full-load-current", "conductor-ampacity", "conductor"].map((id) => figure(answer, id)),
        [34, 42.5, "6"],
      );
    });
  }
});

describe("the table current", () => {
  // Table 430.250 (scanned 2008 page; Paige, three-phase motor table), Table 430.248 (Paige, single-phase motor table),
  // Table 430.249 (scanned page), Table 430.247 (Herman, Industrial Motor Control, chapter 47).
  const cases: [number | string, number, MotorRequest["supply"], number][] = [
    ["1/6", 115, "single-phase", 4.4],
    ["1/3", 200, "single-phase", 4.1],
    [5, 208, "single-phase", 30.8],
    [10, 230, "single-phase", 50],
    [2, 115, "three-phase", 13.6],
    [25, 200, "three-phase", 78.2],
    [10, 208, "three-phase", 30.8],
    [200, 230, "three-phase", 480],
    [500, 460, "three-phase", 590],
    [500, 575, "three-phase", 472],
    [20, 230, "two-phase", 47],
    [3, 240, "direct current", 12.2],
    [10, 500, "direct current", 18],
  ];
  for (const [hp, volts, supply, current] of cases) {
    it(`${hp} hp, ${volts} V, ${supply}: ${current} A`, () => {
      assertEquals(at(motor(hp, volts, supply), "full-load-current"), [current]);
    });
  }
  it("takes a system's voltage for the motors made for it", () => {
    for (
      const [system, nameplate] of [[110, 115], [120, 115], [220, 230], [240, 230], [440, 460], [480, 460], [600, 575]]
    ) {
      const supply = nameplate === 575 || nameplate === 460 ? "three-phase" : "single-phase";
      assertEquals(
        at(motor(2, system!, supply), "full-load-current"),
        at(motor(2, nameplate!, supply), "full-load-current"),
      );
    }
  });
  it("leaves the table for motors that it does not know", () => {
    const slow = motor(25, 460, "three-phase", { speed: 1199, nameplateCurrent: A(38) });
    assertEquals(at(slow, "full-load-current"), [38]);
    assertEquals(at({ ...slow, nameplateCurrent: A(30) }, "full-load-current"), [34]);
    assertEquals(at({ ...slow, speed: 1200 }, "full-load-current"), [34]);
    assertEquals(at(motor(5, 230, "three-phase", { type: "torque", nameplateCurrent: A(40) }), "full-load-current"), [
      40,
    ]);
  });
  it("multiplies a synchronous motor's current by its power factor", () => {
    // Table 430.250, its note on 90 and 80 percent power factor.
    const one = motor(100, 460, "three-phase", { type: "synchronous" });
    assertEquals(at(one, "full-load-current"), [101]);
    assertAlmostEquals(at({ ...one, powerFactor: 0.9 }, "full-load-current")[0] as number, 111.1, 1e-9);
    assertAlmostEquals(at({ ...one, powerFactor: 0.8 }, "full-load-current")[0] as number, 126.25, 1e-9);
    assertEquals(asksFor({ ...one, powerFactor: 0.85 }), ["powerFactor"]);
  });
});

describe("a motor that no table lists", () => {
  const current = (power: { value: number | string; unit: "hp" | "kW" }) =>
    circuit({ power, volts: { value: 460, unit: "V" }, supply: "three-phase" });
  it("counts as the next larger one that is, and that is said (Table 430.250)", () => {
    for (const [between, next] of [["5/8", "3/4"], [4, 5], [9, 10], [35, 40]] as const) {
      const answer = current({ value: between, unit: "hp" });
      assertEquals(
        figure(answer, "full-load-current"),
        figure(current({ value: next, unit: "hp" }), "full-load-current"),
      );
      assert(answer.assumptions.some(({ name }) => name === "motor counted as"), String(between));
    }
  });
  // Metric motors are sold by rounded kilowatts: 7.5 kW is the 10 hp motor's 7.46. Common practice, no source.
  it("is the one its kilowatts are the name of", () => {
    for (const [kW, power] of [[0.75, 1], [1.5, 2], [7.5, 10], [15, 20], [30, 40], [45, 60], [75, 100]] as const) {
      assertEquals(
        figure(current({ value: kW, unit: "kW" }), "full-load-current"),
        figure(current({ value: power, unit: "hp" }), "full-load-current"),
        `${kW} kW`,
      );
    }
    // 4 kW is 5.4 hp, well above 5.
    assertEquals(figure(current({ value: 4, unit: "kW" }), "full-load-current"), 11);
  });
});

describe("the overload device", () => {
  // EC&M quiz on 430.32(C); NEC 2008 text of 430.32 as reproduced page by page.
  const rated = (more: Said) =>
    at(
      motor(10, 460, "three-phase", { nameplateCurrent: A(20), ...more }),
      "overload-rating",
      "overload-rating-highest",
    );
  it("goes by the nameplate: 125 and 140 % from a service factor of 1.15, otherwise 115 and 130 %", () => {
    assertEquals([1, 1.14, 1.15, 1.25].map((serviceFactor) => rated({ serviceFactor })), [
      [23, 26],
      [23, 26],
      [25, 28],
      [25, 28],
    ]);
  });
  it("or up to a rise of 40 °C, either mark being enough", () => {
    const rise = (value: number) => ({ temperatureRise: { value, unit: "°C" as const } });
    assertEquals([39, 40, 41].map((value) => rated(rise(value))), [[25, 28], [25, 28], [23, 26]]);
    assertEquals(rated({ ...rise(55), serviceFactor: 1.15 }), [25, 28]);
    assertEquals(rated({ ...rise(40), serviceFactor: 1 }), [25, 28]);
    assertEquals(rated({}), [23, 26]);
  });
  it("is not told where the nameplate current was not", () => {
    assertEquals(circuit(motor(10, 460, "three-phase")).figures["overload-rating"], undefined);
  });
  it("inside the motor trips by the table current: 170 % to 9 A, 156 % to 20 A, 140 % above", () => {
    const protector = (volts: number, hp: number, supply: MotorRequest["supply"]) =>
      at(motor(hp, volts, supply, { thermalProtector: true }), "thermal-protector", "full-load-current") as number[];
    for (
      const [[trip, current], percent] of [
        [protector(575, 7.5, "three-phase"), 170], // 9 A
        [protector(230, 3, "three-phase"), 156], // 9.6 A
        [protector(115, 1.5, "single-phase"), 156], // 20 A
        [protector(460, 15, "three-phase"), 140], // 21 A
      ] as const
    ) assertAlmostEquals(trip!, current! * percent / 100, 1e-9);
  });
});

describe("devices of the branch circuit", () => {
  // Table 430.52 as reproduced from NEC 2011; NEC 2008 text of 430.52, pages 17 and 18.
  it("go to the next standard size up, and to the cap, next size down, where the motor will not start", () => {
    const all = [
      "breaker-rating",
      "breaker-rating-highest",
      "dual-element-fuse",
      "dual-element-fuse-highest",
      "nontime-delay-fuse",
      "nontime-delay-fuse-highest",
    ];
    // 30.8 A: 77, 123.2; 53.9, 69.3; 92.4, 123.2.
    assertEquals(at(motor(10, 208, "three-phase"), ...all), [80, 110, 60, 60, 100, 110]);
  });
  it("of wound-rotor and direct-current motors go by 150 %", () => {
    // 52 A: 78 A of each.
    const wound = motor(40, 460, "three-phase", { type: "wound rotor" });
    assertEquals(at(wound, "breaker-rating", "dual-element-fuse", "nontime-delay-fuse"), [80, 80, 80]);
    assertEquals(at(motor(10, 240, "direct current"), "breaker-rating"), [60]);
  });
  it("have a lower cap for breakers above 100 A of current", () => {
    // 96 A: 384; 104 A: 312.
    assertEquals(at(motor(75, 460, "three-phase"), "breaker-rating-highest"), [350]);
    assertEquals(at(motor(40, 230, "three-phase"), "breaker-rating-highest"), [300]);
  });
  it("have a lower cap for fuses of the larger class, and none crosses from one to the other", () => {
    const fuse = (hp: number, volts: number) => at(motor(hp, volts, "three-phase"), "nontime-delay-fuse-highest")[0];
    assertEquals(fuse(60, 230), 600); // 154 A: 616 is over 600, and 300 % is below it.
    assertEquals(fuse(100, 460), 450); // 124 A: 496.
    assertEquals(fuse(100, 230), 800); // 248 A: 300 % is 744; the ordinary one is already 800.
  });
  it("never go below the ordinary device", () => {
    assertEquals(at(motor("1/2", 230, "single-phase"), "breaker-rating", "breaker-rating-highest"), [15, 15]);
  });
  it("of instantaneous trip are set to 800 %, 1100 % for energy-efficient design B", () => {
    const trip = ["instantaneous-trip-setting", "instantaneous-trip-setting-highest"];
    assertEquals(at(motor(50, 460, "three-phase"), ...trip), [520, 845]);
    assertEquals(at(motor(50, 460, "three-phase", { type: "design B energy-efficient" }), ...trip), [715, 1105]);
  });
});

describe("the rest of the circuit", () => {
  it("has a disconnect of 115 % and a ground by the device, never larger than the wire", () => {
    // 430.110(A) from memory; Table 250.122: 100 A takes 8 AWG, 200 A 6 AWG.
    assertAlmostEquals(at(motor(10, 208, "three-phase"), "disconnect-current")[0] as number, 35.42, 1e-9);
    assertEquals(at(motor(10, 460, "three-phase"), "conductor", "equipment-grounding-conductor"), ["14", "14"]);
    assertEquals(at(motor(25, 230, "three-phase"), "equipment-grounding-conductor"), ["6"]);
  });
  it("derates for heat before the 125 %: 5 hp needs 8 AWG at 110 °F and 10 AWG at 86 °F", () => {
    const hot = (value: number) =>
      motor(5, 230, "single-phase", { ambient: { value, unit: "°F" }, insulation: "THWN" });
    assertEquals([86, 110].map((degrees) => at(hot(degrees), "conductor")[0]), ["10", "8"]);
  });
  it("goes by the duty where that is told, and by the nameplate then", () => {
    // Table 430.22(E), NEC 2008 text as reproduced page by page.
    const said = motor(10, 460, "three-phase", {
      nameplateCurrent: A(20),
      duty: { service: "intermittent", rated: "15-minute" },
    });
    assertEquals(at(said, "conductor-ampacity"), [17]);
    assertEquals(at({ ...said, duty: { service: "periodic", rated: "continuous" } }, "conductor-ampacity"), [28]);
    assertEquals(outcome({ ...said, duty: { service: "short-time", rated: "continuous" } }).outcome, "not covered");
    assertEquals(asksFor({ ...said, duty: { service: "varying" } }), ["duty.rated"]);
  });
  it("grows with the distance, and the ground with it", () => {
    const far = circuit(motor(10, 230, "three-phase", { length: { value: 600, unit: "ft" } }));
    assert((figure(far, "voltage-drop") as number) <= 3);
    assertEquals([figure(far, "conductor"), figure(far, "equipment-grounding-conductor")], ["2", "2"]);
    const any = motor(10, 230, "three-phase", { length: { value: 600, unit: "ft" }, ignoreDrop: true });
    assertEquals(at(any, "conductor"), ["10"]);
  });
  it("knows the locked-rotor current by table and by code letter", () => {
    // Table 430.251(B) and Table 430.7(B), NEC 2008 text as reproduced page by page.
    assertEquals(at(motor(10, 460, "three-phase"), "locked-rotor-current"), [81]);
    const byLetter = at(motor(10, 460, "three-phase", { codeLetter: "G" }), "locked-rotor-current")[0] as number;
    assertAlmostEquals(byLetter, 6.29 * 10 * 1000 / (Math.sqrt(3) * 460), 1e-6);
  });
  it("sizes a wound rotor's secondary and the leads of a wye-start motor", () => {
    const wound = motor(40, 460, "three-phase", { type: "wound rotor", secondary: { current: A(82) } });
    assertEquals(at(wound, "secondary-ampacity"), [102.5]);
    const wye = motor(30, 460, "three-phase", { reducedStart: "wye-delta" });
    assertAlmostEquals(at(wye, "motor-lead-ampacity")[0] as number, 28.8, 1e-9);
  });
  it("says why the breaker may be larger than the wire", () => {
    const { cautions } = circuit(motor(10, 208, "three-phase"));
    assertStringIncludes(cautions.map(({ text }) => text).join(" "), "may be larger than the wire");
  });
});

describe("a plan put up for checking", () => {
  const verdict = (said: Said) => circuit(said).verdict;
  const ten = (more: Said) => verdict(motor(10, 208, "three-phase", more));
  it("grades a breaker below, at and above the ordinary and the highest", () => {
    assertEquals([35, 40, 70, 80, 90, 110, 125].map((rating) => ten({ breaker: A(rating) })), [
      "not ok",
      "ok",
      "ok",
      "ok",
      "ok if",
      "ok if",
      "not ok",
    ]);
  });
  it("grades a conductor, whose insulation and terminals count", () => {
    assertEquals([ten({ size: "10" }), ten({ size: "8" })], ["not ok", "ok"]);
    // Its 80 A device takes a ground of 8 AWG (Table 250.122), and 8 AWG cable has 10 (common practice, no source).
    assertEquals(ten({ size: "8", method: "NM cable" }), "ok if");
    assertEquals(ten({ size: "8", ambient: { value: 122, unit: "°F" }, insulation: "THW" }), "not ok");
  });
  it("grades an overload setting, by the nameplate alone", () => {
    const set = (value: number) => ten({ overload: A(value), nameplateCurrent: A(29), serviceFactor: 1.15 });
    assertEquals([36, 36.25, 36.3, 40.6, 41].map(set), ["ok", "ok", "ok if", "ok if", "not ok"]);
    assertEquals(ten({ overload: A(36) }), "ok if");
  });
  it("grades a fuse of either kind", () => {
    assertEquals(ten({ fuse: { rating: A(70) } }), "not ok");
    assertEquals(ten({ fuse: { rating: A(70), type: "nontime-delay" } }), "ok");
  });
  it("sizes the ground by the ordinary device where the one put up is refused, too small as too large (250.122)", () => {
    // 10 hp, 208 V: 30.8 A, 80 A ordinary, 110 A at the most: 8 AWG; a breaker of 60 A may stand, and takes 10 AWG.
    const ground = (breaker: number) =>
      at(motor(10, 208, "three-phase", { material: "copper", breaker: A(breaker) }), "equipment-grounding-conductor");
    assertEquals([20, 35, 60, 80, 110, 125].map((each) => ground(each)[0]), ["8", "8", "10", "8", "8", "8"]);
    const fuse = (rating: number) =>
      at(
        motor(10, 208, "three-phase", { material: "copper", fuse: { rating: A(rating), type: "dual-element" } }),
        "equipment-grounding-conductor",
      );
    assertEquals([20, 35, 60].map((each) => fuse(each)[0]), ["10", "10", "10"]);
  });
  it("puts up with a long run's drop on a condition", () => {
    assertEquals(ten({ size: "8", length: { value: 300, unit: "ft" } }), "ok if");
  });
});

describe("what is never guessed", () => {
  it("the phases of a motor that both tables know, with both currents beside", () => {
    const found = outcome(motor(5, 230, undefined));
    assert(found.outcome === "unclear");
    assertEquals(found.needs[0]!.field, "supply");
    assertStringIncludes(found.needs[0]!.ask, "28 A single-phase and 15.2 A three-phase");
  });
  it("but only one table knows 15 hp, or 460 V", () => {
    assertEquals(at(motor(15, 230, undefined), "full-load-current"), [42]);
    assertEquals(at(motor(5, 460, undefined), "full-load-current"), [7.6]);
  });
  it("amperes that can hardly be this motor's: more than twice the 7.6 A of 5 hp at 460 V (Table 430.250)", () => {
    const of = (amperes: number, more: Said = {}) =>
      outcome(motor(5, 460, "three-phase", { nameplateCurrent: A(amperes), ...more })).outcome;
    assertEquals([7, 15.2, 15.3, 100].map((amperes) => of(amperes)), [
      "answered",
      "answered",
      "unclear",
      "unclear",
    ]);
    assertEquals(of(15.3, { type: "low speed" }), "answered");
  });
  it("voltage, power, a size above the table's, a dual nameplate", () => {
    assertEquals(asksFor({ power: { value: 5, unit: "hp" }, supply: "single-phase" }), ["volts"]);
    assertEquals(asksFor({ volts: { value: 230, unit: "V" }, supply: "single-phase" }), ["power"]);
    assertEquals(asksFor(motor(250, 230, "three-phase")), ["power"]);
    assertEquals(asksFor(motor(5, 400, "three-phase")), ["volts"]);
    assertEquals(asksFor({ power: { value: 5, unit: "hp" }, dualVolts: "230/460", supply: "three-phase" }), ["volts"]);
  });
  it("nothing above 1,000 V", () => {
    assertEquals(outcome(motor(100, 2300, "three-phase")).outcome, "not covered");
  });
});

describe("properties", () => {
  const POWERS = [0.5, 0.75, 1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200];
  const SIZES = editions.get("2023")!.table("conductor-ampacity").data.rows.map(([size]) => String(size));
  const some = fc.record({
    supply: fc.constantFrom<["single-phase" | "three-phase", number]>(
      ["single-phase", 115],
      ["single-phase", 230],
      ["three-phase", 208],
      ["three-phase", 230],
      ["three-phase", 460],
    ),
    i: fc.nat(POWERS.length - 2),
    material: fc.constantFrom("copper" as const, "aluminum" as const),
    edition: fc.constantFrom(...EDITIONS),
  });
  const total = (answer: ReturnType<typeof circuit>) =>
    (answer.figures["parallel-sets"]?.value as number ?? 1) * 100 +
    SIZES.indexOf(figure(answer, "conductor") as string);
  it("a larger motor never has a smaller wire or device; no device is below what the wire must carry", () => {
    fc.assert(
      fc.property(some, ({ supply: [supply, volts], i, material, edition }) => {
        const [small, large] = [POWERS[i]!, POWERS[i + 1]!].map((hp) =>
          outcome(motor(hp, volts, supply, { material }), edition)
        );
        if (small!.outcome !== "answered" || large!.outcome !== "answered") return;
        const [one, two] = [small!.answer, large!.answer];
        assert(total(two) >= total(one));
        for (const id of ["breaker-rating", "dual-element-fuse", "nontime-delay-fuse", "disconnect-current"]) {
          assert(figure(two, id) >= figure(one, id), id);
        }
        for (const id of ["breaker-rating", "dual-element-fuse", "nontime-delay-fuse"]) {
          assert(figure(one, id) >= figure(one, "conductor-ampacity"), id);
          assert(figure(one, `${id}-highest`) >= figure(one, id), id);
        }
      }),
      { numRuns: 60 },
    );
  });
  /** Voltages at which the tables have 40 hp, or stand for one that is near; the nameplate's amperes serve for others. */
  const listed = (supply: string | undefined): number[] =>
    supply === "single-phase" ? [] : supply === "direct current" ? [240] : [240, 460, 575, 600];
  it("every edition, supply, voltage and kind ends as the tables have it, and never answered above 1,000 V", () => {
    for (const edition of editions.keys()) {
      for (const supply of ["single-phase", "two-phase", "three-phase", "direct current", undefined] as const) {
        for (const volts of [12, 115, 208, 240, 277, 460, 575, 600, 2300]) {
          for (const type of ["squirrel cage", "wound rotor", "synchronous", "low speed", undefined] as const) {
            const said = motor(40, volts, supply, { ...(type && { type }), nameplateCurrent: A(50) });
            const ends = sound(outcome(said, edition));
            const where = `${supply} ${volts} V ${type} ${edition}`;
            if (listed(supply).includes(volts)) assertEquals(ends, "answered", where);
            if (volts > 1000) assertNotEquals(ends, "answered", where);
          }
        }
      }
    }
  });

  const read = makeReader(engine.questions);
  const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
  const whole = (least: number, most: number) => fc.integer({ min: least, max: most });
  const request = fc.record({
    power: fc.constantFrom(0.5, "1/3", 1.5, 7.5, 10, 25, 200).map((value) => ({ value, unit: "hp" as const })),
    volts: fc.constantFrom(115, 208, 230, 240, 460, 480, 575).map((value) => ({ value, unit: "V" as const })),
    supply: maybe(fc.constantFrom("single-phase", "three-phase")),
    dualVolts: maybe(fc.constantFrom("230/460", "208/230")),
    type: maybe(fc.constantFrom("wound rotor", "synchronous", "design B energy-efficient", "torque", "multispeed")),
    speed: maybe(whole(400, 3600)),
    nameplateCurrent: maybe(whole(1, 300).map(A)),
    serviceFactor: maybe(fc.constantFrom(1, 1.15, 1.25)),
    temperatureRise: maybe(whole(30, 80).map((value) => ({ value, unit: "°C" as const }))),
    codeLetter: maybe(fc.constantFrom("A", "G", "V")),
    lockedRotor: maybe(whole(20, 900).map(A)),
    thermalProtector: maybe(fc.constant(true)),
    reducedStart: maybe(fc.constantFrom("wye-delta", "part-winding")),
    capacitor: maybe(fc.constant(true)),
    control: maybe(fc.record({ size: fc.constantFrom("14", "12"), leaves: fc.boolean() })),
    breaker: maybe(whole(15, 600).map(A)),
    fuse: maybe(fc.record({ rating: whole(15, 600).map(A), type: fc.constantFrom("dual-element", "nontime-delay") })),
    overload: maybe(whole(3, 300).map(A)),
    size: maybe(fc.constantFrom("12", "8", "2/0", "500 kcmil")),
    sets: maybe(whole(2, 4)),
    length: maybe(whole(10, 2000).map((value) => ({ value, unit: "ft" as const }))),
    powerFactor: maybe(fc.constantFrom(0.8, 0.85, 0.9)),
    dropLimit: maybe(whole(1, 10).map((value) => ({ value, unit: "%" as const }))),
    material: maybe(fc.constantFrom("copper", "aluminum")),
    terminals: maybe(fc.constantFrom(60, 75).map((value) => ({ value, unit: "°C" as const }))),
    ambient: maybe(whole(20, 49).map((value) => ({ value, unit: "°C" as const }))),
  });
  it("a request as it would be typed reads back as the same request", () => {
    fc.assert(
      fc.property(request, (generated) => {
        const said = JSON.parse(JSON.stringify(generated)) as MotorRequest;
        const written = question.write(question.input.parse(said));
        const parsed = read(written);
        assertEquals(parsed.question?.id, "motor-circuit", written);
        assertEquals(JSON.parse(JSON.stringify(parsed.question && parsed.draft)), said, written);
      }),
      { numRuns: 200 },
    );
  });
});
