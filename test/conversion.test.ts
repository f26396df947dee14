import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import { unit } from "mathjs";
import type { Request } from "../src/engine.ts";
import conversion from "../src/questions/supply/conversion/question.ts";
import { WANTED } from "../src/questions/supply/conversion/request.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";

const request = (more: object): Request => ({ kind: "conversion", ...more });
const quantity = (value: number, of: string) => ({ value, unit: of });
const value = (more: object, id: string, edition?: string): number =>
  figure(answered(request(more), edition ? { edition } : {}), id) as number;

describe("published conversions", () => {
  for (const edition of EDITIONS) {
    it(`come out under ${edition}`, () => {
      // NEC Annex D, example D5(b): 6000 VA of heat at 208 V, printed 28.8 A.
      const heat = { power: quantity(6000, "VA"), volts: quantity(208, "V"), circuit: "single-phase", to: "A" };
      assertAlmostEquals(value(heat, "current", edition), 28.8, 0.06);
      // Journeyman practice test (Stuvia 10734170): full load of 150 kVA single-phase at 240 V, 625 A.
      const transformer = { power: quantity(150, "kVA"), volts: quantity(240, "V"), circuit: "single-phase", to: "A" };
      assertEquals(value(transformer, "current", edition), 625);
    });
  }
  it("a motor's current is the code's table where losses are not told: 28 A for 5 hp at 230 V (NEC Table 430.248)", () => {
    assertEquals(
      value({ power: quantity(5, "hp"), volts: quantity(230, "V"), circuit: "single-phase", to: "A" }, "current"),
      28,
    );
    // NEC Table 430.250: 25 hp at 460 V, 34 A.
    assertEquals(
      value({ power: quantity(25, "hp"), volts: quantity(460, "V"), circuit: "three-phase", to: "A" }, "current"),
      34,
    );
  });
});

describe("powers and currents", () => {
  it("direct current has no power factor: shaft and efficiency tell the current, and the way back", () => {
    const line = { volts: quantity(90, "V"), circuit: "direct current", efficiency: quantity(85, "%") };
    const current = 5 * 746 / 0.85 / 90; // P = V I η
    assertAlmostEquals(value({ power: quantity(5, "hp"), ...line, to: "A" }, "current"), current, 1e-9);
    assertAlmostEquals(
      value({ current: quantity(40, "A"), ...line, to: "hp" }, "shaft-power"),
      40 * 90 * 0.85 / 746,
      1e-9,
    );
  });
  it("an efficiency or a power factor that the table does not use is said, and neither where none was told", () => {
    const motor = { power: quantity(5, "hp"), volts: quantity(230, "V"), circuit: "single-phase", to: "A" };
    const said = (more: object) =>
      answered(request({ ...motor, ...more })).cautions.filter(({ text }) => /counts only together/.test(text)).length;
    assertEquals([{}, { efficiency: quantity(85, "%") }, { powerFactor: 0.8 }].map(said), [0, 1, 1]);
  });
  it("three phases divide by the root of three", () => {
    const at = (circuit: string) =>
      value({ power: quantity(15, "kVA"), volts: quantity(208, "V"), circuit, to: "A" }, "current");
    assertAlmostEquals(at("three-phase"), 15000 / (208 * Math.sqrt(3)), 1e-9);
    assertAlmostEquals(at("single-phase") / at("three-phase"), Math.sqrt(3), 1e-9);
  });
  it("power factor and efficiency count once each: 25 hp, 92 %, 0.85, 460 V three-phase", () => {
    const current = value(
      {
        power: quantity(25, "hp"),
        volts: quantity(460, "V"),
        circuit: "three-phase",
        powerFactor: 0.85,
        efficiency: quantity(92, "%"),
        to: "A",
      },
      "current",
    );
    assertAlmostEquals(current, 25 * 746 / (0.92 * 0.85 * Math.sqrt(3) * 460), 1e-9);
  });
  it("asks for the voltage between lines where three phases were told with one to the neutral (220.5(A))", () => {
    const of = (volts: number, circuit: string) =>
      engine.answer(request({ power: quantity(10, "kW"), volts: quantity(volts, "V"), circuit, to: "A" })).outcome;
    for (const [volts, lines] of [[120, 208], [277, 480], [347, 600]] as const) {
      assertEquals([of(volts, "three-phase"), of(lines, "three-phase"), of(volts, "single-phase")], [
        "unclear",
        "answered",
        "answered",
      ]);
    }
  });
  it("knows no temperature below absolute zero, −273.15 °C or −459.67 °F", () => {
    const is = (value: number, unit: string) => {
      try {
        return engine.answer(request({ measure: { value, unit } })).outcome;
      } catch {
        return "refused";
      }
    };
    assertEquals([is(-273.15, "°C"), is(-459.67, "°F")], ["answered", "answered"]);
    assertEquals([is(-273.16, "°C"), is(-459.68, "°F")], ["refused", "refused"]);
  });
  it("there and back is the same", () => {
    const circuits = fc.record({
      kVA: fc.integer({ min: 1, max: 5000 }),
      volts: fc.constantFrom(120, 208, 240, 277, 480, 600, 4160),
      circuit: fc.constantFrom("single-phase", "three-phase"),
      powerFactor: fc.constantFrom(0.7, 0.85, 1),
    });
    fc.assert(
      fc.property(circuits, ({ kVA, volts, circuit, powerFactor }) => {
        fc.pre(circuit !== "three-phase" || ![120, 277].includes(volts));
        const supply = { volts: quantity(volts, "V"), circuit, powerFactor };
        const kW = value({ power: quantity(kVA, "kVA"), powerFactor, to: "kW" }, "power");
        assertAlmostEquals(kW, kVA * powerFactor, 1e-9);
        const current = value({ power: quantity(kVA, "kVA"), ...supply, to: "A" }, "current");
        assertAlmostEquals(value({ current: quantity(current, "A"), ...supply, to: "kVA" }, "power"), kVA, 1e-6);
        assertAlmostEquals(value({ current: quantity(current, "A"), ...supply, to: "kW" }, "power"), kW, 1e-6);
      }),
      { numRuns: 40 },
    );
  });
  it("hp and kW alone convert by the horsepower, as mathjs does but for the trade's 746", () => {
    const kW = value({ power: quantity(10, "hp"), to: "kW" }, "power");
    assertAlmostEquals(kW, 7.46, 1e-9);
    assertAlmostEquals(kW, unit(10, "hp").toNumber("kW"), 0.005);
    assertAlmostEquals(value({ power: quantity(7.46, "kW"), to: "hp" }, "shaft-power"), 10, 1e-9);
    assertEquals(value({ power: quantity(2.5, "MVA"), to: "kVA" }, "power"), 2500);
  });
});

describe("temperature, length, wire size", () => {
  it("agree with mathjs", () => {
    for (const degrees of [-40, -20, 0, 30, 37.5, 75, 90]) {
      const wanted = unit(degrees, "degC").toNumber("degF");
      assertAlmostEquals(value({ measure: quantity(degrees, "°C") }, "temperature"), wanted, 1e-9);
      assertAlmostEquals(value({ measure: quantity(wanted, "°F") }, "temperature"), degrees, 1e-9);
    }
    assertAlmostEquals(value({ measure: quantity(100, "ft"), to: "m" }, "length"), unit(100, "ft").toNumber("m"), 1e-9);
    assertAlmostEquals(value({ measure: quantity(30, "m") }, "length"), unit(30, "m").toNumber("ft"), 1e-9);
    assertAlmostEquals(value({ measure: quantity(66, "in"), to: "ft" }, "length"), 5.5, 1e-12);
  });
  it("a gauge size's area is the circle of its diameter by ASTM B258, within the rounding of the tabled circular mils", () => {
    for (const [size, n] of [["14", 14], ["8", 8], ["1", 1], ["4/0", -3]] as const) {
      const inches = 0.005 * 92 ** ((36 - n) / 39);
      const area = Math.PI / 4 * (inches * 25.4) ** 2;
      assertAlmostEquals(value({ size }, "area"), area, area * 0.001);
    }
    // One thousand circular mils: a circle of 0.0316 in diameter, by mathjs' own inch.
    const kcmil = Math.PI / 4 * unit(1, "in^2").toNumber("mm^2") / 1000;
    assertAlmostEquals(value({ size: "250 kcmil" }, "area"), 250 * kcmil, 1e-9);
  });
  it("names both neighbours, the larger one as the replacement, below, at and above a size", () => {
    const sides = (mm2: number) => {
      const { figures } = answered(request({ measure: quantity(mm2, "mm2") }));
      return [figures["conductor-below"]?.value, figures.conductor?.value];
    };
    assertEquals(sides(35), ["2", "1"]);
    // 4 AWG has 41.74 kcmil, 21.15 mm².
    assertEquals(sides(21.14), ["6", "4"]);
    assertEquals(sides(21.16), ["4", "3"]);
    const exact = answered(request({ measure: { value: "2087/50", unit: "kcmil" } }));
    assertEquals([exact.figures["conductor-below"]?.value, exact.figures.conductor?.value], ["4", "4"]);
    const largest = answered(request({ measure: quantity(2000, "kcmil") })).figures;
    assertEquals([largest["conductor-below"]?.value, largest.conductor?.value], ["2000 kcmil", "2000 kcmil"]);
    assertEquals(sides(0.5), [undefined, "18"]);
    assertEquals(sides(2000), ["2000 kcmil", undefined]);
    const gauge = answered(request({ size: "4" })).figures;
    assertEquals([gauge["metric-size-below"]?.value, gauge["metric-size"]?.value], [16, 25]);
  });
});

describe("what is asked back", () => {
  const needs = (more: object) => {
    const outcome = ask(request(more));
    return outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : [outcome.outcome];
  };
  it("power factor between kW and kVA, losses between amperes and hp, phases, voltage", () => {
    assertEquals(needs({}), ["power"]);
    assertEquals(needs({ power: quantity(10, "kW"), to: "kVA" }), ["powerFactor"]);
    assertEquals(needs({ power: quantity(10, "kW"), to: "A" }), ["volts", "circuit"]);
    assertEquals(needs({ power: quantity(10, "kW"), volts: quantity(480, "V"), to: "A" }), ["circuit"]);
    assertEquals(needs({ power: quantity(10, "kW"), volts: quantity(240, "V"), to: "A" }), ["answered"]);
    assertEquals(needs({ power: quantity(10, "hp"), volts: quantity(230, "V"), to: "A" }), ["circuit"]);
    const motor = { current: quantity(50, "A"), volts: quantity(460, "V"), circuit: "three-phase", to: "hp" };
    assertEquals(needs(motor), ["efficiency"]);
    assertEquals(needs({ power: quantity(10, "kW"), to: "m" }), ["to"]);
    assertEquals(needs({ measure: quantity(10, "ft"), to: "kW" }), ["to"]);
  });
});

describe("every pair of units under every edition", () => {
  it("ends answered, asked or declined", () => {
    const sources = [
      { power: quantity(10, "kW") },
      { power: quantity(10, "kVA") },
      { power: quantity(10, "hp") },
      { current: quantity(10, "A") },
      { measure: quantity(10, "ft") },
      { measure: quantity(10, "°C") },
      { measure: quantity(10, "mm2") },
      { size: "4" },
      { size: "22" },
    ];
    for (const edition of editions.keys()) {
      for (const source of sources) {
        for (const to of WANTED) {
          for (const volts of [undefined, quantity(240, "V"), quantity(13.8, "kV")]) {
            for (const circuit of [undefined, "three-phase", "direct current"]) {
              const asked = JSON.parse(JSON.stringify({ ...source, to, volts, circuit })) as object;
              sound(ask(request(asked), { edition }));
            }
          }
        }
      }
    }
  });
});

describe("text and request", () => {
  const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
  const amount = (units: readonly string[]) =>
    fc.record({ value: fc.integer({ min: 1, max: 500 }), unit: fc.constantFrom(...units) });
  const powers = fc.record({
    power: amount(["kW", "W", "kVA", "VA", "hp"]),
    volts: maybe(fc.constantFrom(quantity(120, "V"), quantity(240, "V"), quantity(460, "V"))),
    circuit: maybe(fc.constantFrom("single-phase", "three-phase", "direct current")),
    powerFactor: maybe(fc.constantFrom(0.85, 1)),
    efficiency: maybe(fc.constantFrom(quantity(90, "%"))),
    to: maybe(fc.constantFrom("A", "kVA", "VA", "kW", "W", "hp")),
  });
  const measures = fc.oneof(
    fc.record({ measure: amount(["ft", "in"]), to: fc.constant("m") }),
    fc.record({ measure: amount(["m", "in"]), to: fc.constant("ft") }),
    fc.record({ measure: amount(["°C"]), to: fc.constant("°F") }),
    fc.record({ measure: amount(["°F"]), to: fc.constant("°C") }),
    fc.record({ measure: amount(["mm2"]), to: fc.constant("AWG") }),
    fc.record({ size: fc.constantFrom("12", "2/0", "250 kcmil"), to: fc.constant("mm2") }),
  );
  it("a written request reads back as the same request", () => {
    fc.assert(
      fc.property(fc.oneof(powers, measures), (generated) => {
        const asked = JSON.parse(JSON.stringify(generated)) as object;
        const text = conversion.write(conversion.input.parse(asked));
        const outcome = engine.ask(text);
        assert(outcome.outcome !== "not covered" || text !== "");
        if (outcome.outcome === "not covered") return;
        const { kind, edition: _, ...read } =
          (outcome.outcome === "answered" ? outcome.answer.request : outcome.understood) as Request;
        assertEquals(kind, "conversion", text);
        assertEquals(read, asked, text);
      }),
      { numRuns: 200 },
    );
  });
  it("a follow-up changes the supply", () => {
    const first = answered("10 kW at 240 V single phase in amps");
    const next = answered("three phase", { after: first.request as Request });
    assertAlmostEquals(figure(next, "current") as number, 10000 / (240 * Math.sqrt(3)), 1e-9);
  });
});

describe("a wire's size", () => {
  it("is converted to an area, and to nothing that is no area", () => {
    const kindOf = (asked: string) => answered(asked).kind;
    assertEquals(kindOf("how many mm2 is #4"), "conversion");
    assertEquals(kindOf("what is #4 in mm") === "conversion", false);
  });
});
