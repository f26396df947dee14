/** One branch circuit: published figures, thresholds, properties, and the plan checks people put up. */
import { assert, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import type { CircuitRequest as CircuitRead } from "../src/questions/circuit/branch-circuit/request.ts";
import type { Request } from "../src/request.ts";
import branchCircuit from "../src/questions/circuit/branch-circuit/question.ts";
import { CIRCUIT_KINDS, RATED_BY_CIRCUIT } from "../src/questions/circuit/branch-circuit/loads.ts";
import { answered, ask, EDITIONS, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";
import type { AsJson } from "./support/as-json.ts";

type CircuitRequest = AsJson<CircuitRead>;

type Said = Partial<CircuitRequest> | { loads?: Partial<NonNullable<CircuitRequest["loads"]>[number]>[] };
const circuit = (request: Said, edition = "2023") =>
  answered({ kind: "branch-circuit", ...request } as never, { edition });
const amperes = (value: number) => ({ value, unit: "A" as const });
const kilowatts = (value: number) => ({ value, unit: "kW" as const });
const one = (kind: string, rating: { value: number; unit: string }, more = {}) =>
  ({ loads: [{ kind, rating, ...more }] }) as Said;
const set = (request: Said, edition?: string) => {
  const answer = circuit(request, edition);
  return ["breaker-rating", "conductor", "equipment-grounding-conductor"].map((id) => figure(answer, id));
};

describe("a charger's caution", () => {
  it("asks for a circuit of its own where one charger is told, and not where several share one", () => {
    const ofItsOwn = (count: number) =>
      circuit(one("ev-charger", amperes(16), { count })).cautions.some(({ text }) => text.includes("of its own"));
    assertEquals([1, 2, 3].map(ofItsOwn), [true, false, false]);
    const loads = ["ev-charger", "lighting"].map((kind) => ({ kind, rating: amperes(10) }));
    assertEquals(circuit({ loads } as Said).cautions.some(({ text }) => text.includes("of its own")), false);
  });
});

describe("an appliance on a cord (210.23(A)(1), from 2023 (B)(1))", () => {
  const on = (kind: string, amperes: number, more: object) =>
    answered({
      kind: "branch-circuit",
      loads: [{ kind, current: { value: amperes, unit: "A" } }],
      volts: { value: 120, unit: "V" },
      check: true,
      material: "copper",
      ...more,
    });
  const breaker = (value: number) => ({ breaker: { value, unit: "A" } });
  it("takes 80 % of a small circuit beside other outlets, all of one of its own", () => {
    for (const edition of EDITIONS) {
      const verdict = (amperes: number, value: number) =>
        answered({
          kind: "branch-circuit",
          loads: [{ kind: "portable-heater", current: { value: amperes, unit: "A" } }],
          check: true,
          ...breaker(value),
        }, { edition }).verdict;
      assertEquals([verdict(12, 15), verdict(12.5, 15), verdict(16, 15)], ["ok", "ok if", "not ok"], edition);
      assertEquals([verdict(16, 20), verdict(16.1, 20), verdict(24, 30), verdict(25, 30)], ["ok", "ok if", "ok", "ok"]);
    }
    const shared = {
      loads: [{ kind: "portable-heater", current: { value: 12.5, unit: "A" } }, {
        kind: "lighting",
        rating: { value: 120, unit: "W" },
      }],
    };
    const verdict = answered({ kind: "branch-circuit", ...shared, check: true, ...breaker(15) });
    assertEquals(verdict.verdict, "not ok");
    assertStringIncludes(verdict.headline, "12 A");
  });
  it("takes 12 A of a 15 A receptacle on a 20 A circuit, where one alone may not be (210.21(B))", () => {
    const receptacle = { receptacle: { value: 15, unit: "A" }, ...breaker(20) };
    assertEquals(on("receptacles", 12, receptacle).verdict, "ok if");
    assertEquals(on("receptacles", 13, receptacle).verdict, "not ok");
    assertEquals(on("load", 13, receptacle).verdict, "not ok");
    assertEquals(on("load", 12, receptacle).verdict, "ok if");
    assertEquals(on("load", 12, { receptacle: { value: 20, unit: "A" }, ...breaker(20) }).verdict, "ok");
  });
});

describe("a method that may not go outdoors (334.12(B)(4))", () => {
  const plan = (kind: string, more: object = {}) =>
    answered({
      kind: "branch-circuit",
      loads: [{ kind }],
      breaker: { value: 50, unit: "A" },
      size: "6",
      method: "NM cable",
      check: true,
      ...more,
    });
  it("is a condition of a plan for what mostly stands there", () => {
    const verdicts = ["range", "hot-tub", "pool-heater"].map((kind) => plan(kind).verdict);
    assertEquals(verdicts, ["ok", "ok if", "ok if"]);
    assertStringIncludes(plan("hot-tub").headline, "outdoors");
    assertEquals(plan("hot-tub", { wet: true }).verdict, "not ok");
    assertEquals(plan("hot-tub", { method: "conductors in conduit" }).verdict, "ok");
  });
});

describe("a conductor made larger for its drop", () => {
  it("is told with its own ampacity (Table 310.16, 75 °C: 8 AWG 50 A, 4 AWG 85 A)", () => {
    const run = {
      volts: { value: 240, unit: "V" },
      phases: 1,
      terminals: { value: 75, unit: "°C" },
      material: "copper",
    };
    const wired = (length: number) =>
      answered({
        kind: "branch-circuit",
        loads: [{ kind: "load", current: { value: 50, unit: "A" } }],
        ...run,
        length: { value: length, unit: "ft" },
      });
    assertEquals([20, 200].map((each) => figure(wired(each), "conductor")), ["8", "4"]);
    assertEquals([20, 200].map((each) => figure(wired(each), "ampacity")), [50, 85]);
  });
});

describe("published branch-circuit figures", () => {
  it("range of 8 kW by 80 % at 208 V draws 30.7 A (NEC Annex D, example D5(b), 2005 printing)", () => {
    for (const edition of EDITIONS) {
      const answer = circuit({ ...one("range", kilowatts(8)), volts: { value: 208, unit: "V" }, phases: 1 }, edition);
      assertEquals(figure(answer, "demand-load"), 6400);
      assert(Math.abs(Number(figure(answer, "load-current")) - 30.7) < 0.1);
    }
  });
  it("cooktop and two ovens count as one range of 12 kW, 8 kW (Table 220.55 note 4, trade-forum example of a 7.2 kW cooktop and two 2.4 kW ovens)", () => {
    const answer = circuit(
      {
        loads: [{ kind: "cooktop", rating: kilowatts(7.2) }, { kind: "wall-oven", count: 2, rating: kilowatts(2.4) }],
      } as Said,
    );
    assertEquals(figure(answer, "demand-load"), 8000);
  });
  it("heat of 6 kW at 208 V draws 28.8 A (NEC Annex D, example D5(b))", () => {
    const answer = circuit({ ...one("space-heater", kilowatts(6)), volts: { value: 208, unit: "V" }, phases: 1 });
    assert(Math.abs(Number(figure(answer, "load-current")) - 28.8) < 0.1);
  });
  it("the magazine's 50 % duty cycle takes 71 % of the welder's current (EC&M Q&A on arc welder conductors)", () => {
    const answer = circuit({ loads: [{ kind: "welder", rating: amperes(100), dutyCycle: 50 }] } as Said);
    assertEquals(figure(answer, "load-current"), 71);
    assertEquals(figure(answer, "breaker-rating"), 100);
  });
});

describe("what each load's own rule asks for", () => {
  // Sections stand beside each; the factors are those of the tables, checked in tables.test.ts.
  it("takes chargers, storage water heaters and fixed heating at 125 % (625.41, 422.13, 424.4(B))", () => {
    for (
      const [kind, draw, design] of [["ev-charger", 32, 40], ["water-heater", 24, 30], [
        "space-heater",
        16,
        20,
      ]] as const
    ) {
      assertEquals(figure(circuit(one(kind, amperes(draw))), "design-current"), design);
    }
  });
  it("takes a tankless heater at its nameplate unless it is called continuous, and says so", () => {
    const plain = circuit(one("tankless-water-heater", kilowatts(9.6)));
    assertEquals(figure(plain, "design-current"), 40);
    assert(plain.assumptions.some(({ change }) => change.includes("continuous")));
    assertEquals(
      figure(circuit(one("tankless-water-heater", kilowatts(9.6), { continuous: true })), "design-current"),
      50,
    );
  });
  it("gives a range of 8 3/4 kW or more 40 A at least (210.19): below, at, above", () => {
    for (const [rating, breaker] of [[8.7, 30], [8.75, 40], [12, 40], [14, 40], [17, 45]] as const) {
      assertEquals(figure(circuit(one("range", kilowatts(rating))), "breaker-rating"), breaker, `${rating} kW`);
    }
  });
  it("stops the storage heater's factor above 120 gallons (422.13): below, at, above", () => {
    for (const [gallons, design] of [[119, 30], [120, 30], [121, 24]] as const) {
      assertEquals(figure(circuit(one("water-heater", amperes(24), { gallons })), "design-current"), design);
    }
  });
  it("adds continuous at 125 % and the rest at 100 % (210.20(A))", () => {
    const answer = circuit(
      { loads: [{ rating: amperes(16), continuous: true }, { rating: amperes(8), continuous: false }] } as Said,
    );
    assertEquals(figure(answer, "load-current"), 24);
    assertEquals(figure(answer, "design-current"), 28);
  });
});

describe("breaker and conductor together", () => {
  it("the next standard rating starts after an exact one: below, at, above 30 A (240.6(A))", () => {
    for (const [draw, breaker] of [[29.9, 30], [30, 30], [30.1, 35]] as const) {
      assertEquals(figure(circuit(one("load", amperes(draw), { continuous: false })), "breaker-rating"), breaker);
    }
  });
  it("keeps the small-conductor limits (240.4(D)): 15 A on 14, 20 A on 12, 30 A on 10 AWG copper", () => {
    for (const [draw, size] of [[15, "14"], [15.1, "12"], [20, "12"], [20.1, "10"], [30, "10"], [30.1, "8"]] as const) {
      const request = {
        ...one("load", amperes(draw), { continuous: false }),
        terminals: { value: 75, unit: "°C" },
      } as Said;
      assertEquals(figure(circuit(request), "conductor"), size, `${draw} A`);
    }
  });
  it("keeps nonmetallic cable to the 60 °C column (334.80) and lets marked terminals use 75 °C in conduit (110.14(C))", () => {
    const load = one("ev-charger", amperes(48));
    assertEquals(set({ ...load, method: "NM cable", terminals: { value: 75, unit: "°C" } } as Said), [60, "4", "10"]);
    assertEquals(set({ ...load, method: "conductors in conduit", terminals: { value: 75, unit: "°C" } } as Said), [
      60,
      "6",
      "10",
    ]);
  });
  it("starts correction and adjustment of nonmetallic cable at 90 °C, capped at 60 °C: nine 12 AWG still serve 20 A (334.80)", () => {
    const request = { ...one("load", amperes(20), { continuous: false }), method: "NM cable" } as Said;
    assertEquals(figure(circuit({ ...request, conductors: 9 } as Said), "conductor"), "12");
    assertEquals(figure(circuit({ ...request, conductors: 10 } as Said), "conductor"), "10");
  });
  it("counts the neutral of two lines of a wye, and not that of a 120/240 V circuit (310.15(E))", () => {
    const request = {
      ...one("load", amperes(20), { continuous: false }),
      neutral: true,
      circuits: 3,
      terminals: { value: 75, unit: "°C" },
    };
    const single = circuit({ ...request, volts: { value: 240, unit: "V" } } as Said);
    const wye = circuit({ ...request, volts: { value: 208, unit: "V" }, phases: 1, wye: true } as Said);
    const count = (answer: typeof single) =>
      answer.steps.find(({ name }) => name === "current-carrying conductors together")!.value;
    assertEquals(count(single), { n: "6", unit: "1" });
    assertEquals(count(wye), { n: "9", unit: "1" });
  });
  it("takes service-entrance cable of 10 AWG and smaller at 60 °C in insulation, larger by its terminals (338.10(B)(4))", () => {
    const base = { method: "SE cable", inInsulation: true, terminals: { value: 75, unit: "°C" } };
    assertEquals(
      figure(circuit({ ...one("load", amperes(30), { continuous: false }), ...base } as Said), "conductor"),
      "10",
    );
    const larger = circuit({ ...one("load", amperes(45), { continuous: false }), ...base } as Said);
    assertEquals(figure(larger, "conductor"), "8");
    assertEquals(figure(larger, "ampacity"), 50);
  });
  it("adds the rooftop temperature to the ambient, but not for XHHW-2 (310.15(B)(2))", () => {
    const request = {
      ...one("load", amperes(30), { continuous: false }),
      ambient: { value: 40, unit: "°C" },
      rooftop: true,
      terminals: { value: 75, unit: "°C" },
    };
    assertEquals(figure(circuit({ ...request, insulation: "THWN-2" } as Said), "conductor"), "6");
    assertEquals(figure(circuit({ ...request, insulation: "XHHW-2" } as Said), "conductor"), "10");
  });
  it("allows the next size up for one load, not for several receptacles (240.4(B)): 12 AWG at 25 A × 70 % is 17.5 A", () => {
    const around = {
      breaker: amperes(20),
      insulation: "THWN",
      conductors: 9,
      terminals: { value: 75, unit: "°C" },
    };
    assertEquals(
      figure(circuit({ ...one("load", amperes(16), { continuous: false }), ...around } as Said), "conductor"),
      "12",
    );
    const receptacles = { ...one("receptacles", amperes(16), { continuous: false }), ...around } as Said;
    assertEquals(figure(circuit(receptacles), "conductor"), "10");
  });
  it("lets the welder's device exceed its conductors (630.11, 630.12)", () => {
    const answer = circuit({ loads: [{ kind: "welder", rating: amperes(50), dutyCycle: 20 }] } as Said);
    assertEquals(figure(answer, "load-current"), 22.5);
    assertEquals(figure(answer, "breaker-rating"), 50);
    assertEquals(figure(answer, "conductor"), "10");
  });
});

describe("a furnace and its blower", () => {
  // 424.4(B): 125 % of the heating load and of the motors with it; 15 kW at 240 V is 62.5 A.
  it("are one load of the circuit", () => {
    const answer = answered("15 kW electric furnace with a 5 A blower at 240 V, breaker and wire");
    assertEquals(figure(answer, "load-current"), 67.5);
    assertEquals(figure(answer, "design-current"), 84.375);
    assertEquals(figure(answer, "breaker-rating"), 90);
  });
});

describe("circuits with several outlets", () => {
  const put = (loads: object[], breaker: number, more: object = {}) =>
    circuit({ loads, breaker: amperes(breaker), check: true, ...more } as Said, "2023");
  const receptacles = (count: number) => ({ kind: "receptacles", count });
  const lighting = (value: number) => ({ kind: "lighting", rating: amperes(value), continuous: false });
  const breaker = (loads: object[], more: object = {}, edition = "2023") =>
    figure(circuit({ loads, ...more } as Said, edition), "breaker-rating");

  it("are rated 15, 20, 30, 40 or 50 A (210.18, 210.3 in 2017, from memory): below, at, above", () => {
    for (const edition of EDITIONS) {
      const at = (value: number) => breaker([lighting(value)], { volts: { value: 277, unit: "V" } }, edition);
      assertEquals([15, 15.1, 20, 20.1, 30, 30.1, 40, 40.1, 50].map(at), [15, 20, 20, 30, 30, 40, 40, 50, 50], edition);
    }
    assertEquals(
      breaker([{ kind: "cooktop", rating: kilowatts(6) }, { kind: "wall-oven", count: 2, rating: kilowatts(3) }]),
      40,
    );
    // One load has a circuit of its own, of any standard rating.
    assertEquals(breaker([{ kind: "load", rating: amperes(20.1), continuous: false }]), 25);
    for (const [rating, verdict] of [[40, "ok if"], [45, "not ok"], [60, "not ok"]] as const) {
      assertEquals(put([lighting(30)], rating, { volts: { value: 277, unit: "V" } }).verdict, verdict, `${rating} A`);
    }
    assertEquals(circuit({ loads: [lighting(51)], volts: { value: 277, unit: "V" } } as Said).verdict, "not ok");
  });
  it("take heavy-duty lampholders above 20 A (210.23, from memory)", () => {
    const isSaid = (value: number) =>
      circuit({ loads: [lighting(value)] } as Said).cautions.some(({ text }) => text.includes("heavy-duty"));
    assertEquals([20, 20.1].map(isSaid), [false, true]);
  });
  it("hold ordinary receptacles up to 20 A: thirteen at 180 VA, not fourteen (220.14(I), Table 210.21(B)(3))", () => {
    const verdicts = [13, 14].map((count) => circuit({ loads: [receptacles(count)] } as Said).verdict);
    assertEquals(verdicts, [undefined, "not ok"]);
    assertEquals(put([receptacles(10), lighting(3)], 40, { size: "8" }).verdict, "not ok");
    assertEquals(put([receptacles(10)], 20).verdict, "ok");
  });
  it("hold receptacles by Table 210.21(B)(3), a lone one not below its circuit (210.21(B)(1))", () => {
    const cases: [number, number, number, string][] = [
      [6, 15, 15, "ok"],
      [6, 15, 20, "ok"],
      [6, 20, 20, "ok"],
      [6, 20, 15, "not ok"],
      [6, 30, 20, "not ok"],
      [6, 20, 30, "not ok"],
      [6, 30, 30, "ok"],
      [6, 50, 40, "ok"],
      [6, 40, 50, "not ok"],
      [1, 20, 20, "ok"],
      [1, 30, 20, "ok"],
      [1, 15, 20, "ok if"],
      [1, 20, 30, "not ok"],
    ];
    for (const [count, receptacle, device, verdict] of cases) {
      const answer = put([receptacles(count)], device, { receptacle: amperes(receptacle) });
      assertEquals(answer.verdict, verdict, `${count} × ${receptacle} A on ${device} A`);
    }
  });
  it("hold an appliance's one receptacle not below its circuit; a range's by its demand (210.21(B)(1), (4)), a welder's by its conductors (630.11(A))", () => {
    const one = (kind: string, rest = {}, receptacle = 50, device = 60) =>
      put([{ kind, count: 1, ...rest }], device, { receptacle: amperes(receptacle) }).verdict;
    assertEquals([one("dryer"), one("dryer", {}, 60), one("water-heater", { rating: kilowatts(9) })], [
      "not ok",
      "ok",
      "not ok",
    ]);
    assertEquals(one("range"), "ok if");
    // 12 kW is 8 kW of demand, 33 A; 26 kW is 13.6 kW, 57 A.
    assertEquals([12, 26].map((n) => one("range", { rating: kilowatts(n) })), ["ok", "not ok"]);
    // √60 % of 64 A is 49.6 A, of 65 A 50.3 A (multiplier 0.78: 49.9 and 50.7).
    const arc = (n: number) => one("welder", { rating: amperes(n), dutyCycle: 60 }, 50, 70);
    assertEquals([arc(64), arc(65)], ["ok", "not ok"]);
  });
  it("take a receptacle of 40 A or more to be between the lines, a smaller one at 120 V (common practice)", () => {
    const volts = (n: number) =>
      circuit({ loads: [receptacles(1)], receptacle: amperes(n), breaker: amperes(n) } as Said).assumptions
        .find(({ name }) => name.includes("voltage"))?.value;
    assertEquals([20, 30, 40, 50].map(volts), ["120 V", "120 V", "240 V", "240 V"]);
  });
  it("give what is fastened in place half beside lights or plugs (210.23(A)(2), in 2023 (B)(2)): at, above", () => {
    for (const edition of EDITIONS) {
      for (const [draw, verdict] of [[10, "ok"], [10.1, "not ok"]] as const) {
        const loads = [receptacles(4), { kind: "dishwasher", rating: amperes(draw), continuous: false }];
        const answer = circuit({ loads, breaker: amperes(20), check: true } as Said, edition);
        assertEquals(answer.verdict, verdict, `${draw} A, ${edition}`);
      }
    }
    // Two fastened ones share with nothing that is plugged in.
    const both = [{ kind: "dishwasher", rating: amperes(11) }, { kind: "disposer", rating: amperes(7) }];
    assertEquals(put(both, 20).verdict, "ok");
  });
  it("hold no charger beside anything (625.40); from 2023 where managed, or up to 16 A at 120 V", () => {
    const two = [{ kind: "ev-charger", count: 2, rating: amperes(32) }];
    const beside = [{ kind: "ev-charger", rating: amperes(32) }, { kind: "dryer", rating: kilowatts(5) }];
    for (const [edition, verdict] of [["2017", "not ok"], ["2020", "not ok"], ["2023", "ok if"]] as const) {
      const of = (loads: object[], device: number) =>
        circuit({ loads, breaker: amperes(device), check: true } as Said, edition).verdict;
      assertEquals([of(two, 80), of(beside, 70)], [verdict, verdict], edition);
      assertEquals(of([{ kind: "ev-charger", rating: amperes(32) }], 40), "ok", edition);
    }
    const small = (value: number) => {
      const loads = [{ kind: "ev-charger", count: 2, rating: amperes(value) }];
      return circuit({ loads, volts: { value: 120, unit: "V" }, breaker: amperes(45), check: true } as Said).verdict;
    };
    assertEquals([small(16), small(16.1)], ["ok", "ok if"]);
  });
});

describe("household cooking", () => {
  it("has conductors that carry the circuit's rating, not the next size up (210.19(A)(3), in 2023 (C), from memory)", () => {
    // 6 AWG carries 55 A in NM cable (Table 310.16, 60 °C), 8 AWG 50 A at 75 °C and 55 × 0.91 of it at 41 °C.
    for (const edition of EDITIONS) {
      const size = (kw: number) =>
        figure(circuit({ ...one("range", kilowatts(kw)), method: "NM cable" } as Said, edition), "conductor");
      // Column C and note 1: 20 kW is 8 + 40 % of it, 11.2 kW, 46.7 A; 24 kW is 12.8 kW, 53.3 A.
      assertEquals([size(20), size(24)], ["6", "4"], edition);
      const put = (breaker: number, size: string, more: object) =>
        circuit(
          { ...one("range", kilowatts(12)), breaker: amperes(breaker), size, check: true, ...more } as Said,
          edition,
        )
          .verdict;
      assertEquals([50, 60].map((each) => put(each, "6", { method: "NM cable" })), ["ok", "not ok"], edition);
      const warm = (value: number) =>
        put(50, "8", { terminals: { value: 75, unit: "°C" }, ambient: { value, unit: "°C" } });
      assertEquals([40, 41].map(warm), ["ok", "not ok"], edition);
    }
  });
  it("has a device of 150 % of its nameplate at the most, next size up (422.11(E)(3)): 20 A, 30 A", () => {
    const verdict = (breaker: number) =>
      circuit({ ...one("wall-oven", kilowatts(4.8)), breaker: amperes(breaker), check: true } as Said).verdict;
    assertEquals([20, 30, 35, 40].map(verdict), ["ok", "ok", "not ok", "not ok"]);
    // A range's 40 A circuit is within it: 12 kW draw 50 A by the nameplate, not the 33.3 A of the table.
    const range = (breaker: number) =>
      circuit({ ...one("range", kilowatts(12)), breaker: amperes(breaker), check: true } as Said).verdict;
    assertEquals([40, 80, 90].map(range), ["ok", "ok", "not ok"]);
  });
});

describe("what stands against a plan beside its ampacity", () => {
  const put = (more: object, edition = "2023") =>
    circuit(
      { ...one("load", amperes(16), { continuous: false }), breaker: amperes(20), check: true, ...more } as Said,
      edition,
    );
  it("NM cable in a wet place (334.12(B)(4)), and above 2 AWG (334.104); UF above 4/0 (340.104)", () => {
    for (const edition of EDITIONS) {
      assertEquals(put({ method: "NM cable", size: "12" }, edition).verdict, "ok");
      assertEquals(put({ method: "NM cable", size: "12", wet: true }, edition).verdict, "not ok");
      assertEquals(put({ method: "UF cable", size: "12", wet: true }, edition).verdict, "ok");
      const large = (method: string, size: string, device: number) =>
        circuit({ method, size, breaker: amperes(device), check: true } as Said, edition).verdict;
      assertEquals([large("NM cable", "2", 90), large("NM cable", "1", 110)], ["ok", "not ok"], edition);
      assertEquals([large("UF cable", "4/0", 175), large("UF cable", "250 kcmil", 200)], ["ok", "not ok"], edition);
    }
    // The same in every kind that takes a wire.
    for (
      const plan of [
        { kind: "conductor-ampacity", breaker: amperes(20) },
        { kind: "cooling-circuit", minimumCircuitAmpacity: amperes(14), maximumProtection: amperes(20) },
        {
          kind: "motor-circuit",
          power: { value: 1, unit: "hp" },
          volts: { value: 240, unit: "V" },
          supply: "single-phase",
        },
      ]
    ) {
      const judge = (wet: boolean) => {
        const outcome = engine.answer({ ...plan, size: "12", method: "NM cable", wet } as never);
        assert(outcome.outcome === "answered", JSON.stringify(outcome).slice(0, 300));
        return outcome.answer.verdict;
      };
      assertEquals([judge(false), judge(true)], ["ok", "not ok"], plan.kind);
    }
  });
  it("wire that is not made for the earth, buried (310.10(E), in 2017 (F), from memory)", () => {
    const buried = (insulation: string) =>
      put({ method: "direct-burial conductors", insulation, size: "12", wet: true }).verdict;
    assertEquals(["THHN", "THWN-2", "USE-2", "RHW-2"].map(buried), ["not ok", "not ok", "ok", "ok if"]);
  });
  it("is judged where no single conductor would do instead, and where the tables have no figure", () => {
    // 500 kcmil is 430 A at 90 °C, ten conductors leave 50 %: 215 A.
    const plan = {
      ...one("load", amperes(270), { continuous: false }),
      size: "500 kcmil",
      conductors: 10,
      check: true,
    };
    assertEquals(circuit({ ...plan, breaker: amperes(450) } as Said).verdict, "not ok");
  });
});

describe("UF cable is corrected from 60 °C (340.80, Table 310.4(A), from memory)", () => {
  it("6 AWG carries 55 A × 0.82 at 40 °C, 8 AWG only 40 A × 0.82; above 55 °C nothing is left", () => {
    const load = { ...one("load", amperes(40), { continuous: false }), method: "UF cable" };
    const at = (value: number, more = {}) => circuit({ ...load, ambient: { value, unit: "°C" }, ...more } as Said);
    assertEquals([figure(at(30), "conductor"), figure(at(40), "conductor")], ["8", "6"]);
    assertEquals(figure(at(40), "ampacity"), 45.1);
    const plan = { size: "6", breaker: amperes(40), check: true, wet: true };
    assertEquals([at(40, plan).verdict, at(58, plan).verdict], ["ok", "not ok"]);
    // Conductors that are told to be made for 90 °C are the start then, still capped at 60 °C.
    assertEquals(figure(at(40, { insulation: "THHN" }), "conductor"), "8");
  });
});

describe("one heater of many elements (424.22(B) to (D), from memory)", () => {
  it("is on one circuit above 60 A only where its maker has subdivided them: below, at, above", () => {
    const verdict = (breaker: number) =>
      circuit({ ...one("furnace", kilowatts(9)), breaker: amperes(breaker), check: true } as Said).verdict;
    // 9 kW at 240 V are 37.5 A, 46.9 A of design.
    assertEquals([50, 60, 70].map(verdict), ["ok", "ok", "ok if"]);
    const large = { ...one("furnace", kilowatts(20)), breaker: amperes(125), size: "1", check: true };
    assertEquals(circuit(large as Said).verdict, "ok if");
    const plain = circuit(one("furnace", kilowatts(20)));
    assertEquals([plain.verdict, figure(plain, "breaker-rating")], [undefined, 110]);
    assert(plain.cautions.some(({ text }) => text.includes("subdivided")));
  });
});

describe("347 V and 600 V are nominal voltages too (220.5(A))", () => {
  it("one line to the neutral, and between lines", () => {
    const load = (value: number, phases: 1 | 3) =>
      engine.answer(
        { kind: "branch-circuit", ...one("load", kilowatts(10)), volts: { value, unit: "V" }, phases } as never,
      );
    const [single, three] = [load(347, 1), load(600, 3)].map((outcome) => {
      assert(outcome.outcome === "answered");
      return Number(figure(outcome.answer, "load-current"));
    });
    assert(Math.abs(single! - 10_000 / 347) < 1e-9 && Math.abs(three! - 10_000 / (600 * Math.sqrt(3))) < 1e-9);
    assertEquals(load(347, 3).outcome, "unclear");
  });
});

describe("voltage drop and upsizing", () => {
  const long = (feet: number, more = {}) =>
    ({
      ...one("load", amperes(16), { continuous: false }),
      volts: { value: 120, unit: "V" },
      length: { value: feet, unit: "ft" },
      ...more,
    }) as Said;
  it("grows the conductor until the limit is kept, and the equipment ground with it (250.122(B))", () => {
    const answer = circuit(long(150));
    assertEquals(figure(answer, "breaker-rating"), 20);
    assertEquals(figure(answer, "conductor"), "6");
    assertEquals(figure(answer, "equipment-grounding-conductor"), "6");
  });
  it("the chosen size keeps the limit and the next smaller does not", () => {
    for (const feet of [40, 80, 120, 160, 240, 400]) {
      const answer = circuit(long(feet));
      assert(Number(figure(answer, "voltage-drop")) <= 3);
      const size = String(figure(answer, "conductor"));
      if (size === "12") continue;
      const smaller = { "10": "12", "8": "10", "6": "8", "4": "6", "3": "4", "2": "3", "1": "2", "1/0": "1" }[size]!;
      const plan = circuit(long(feet, { size: smaller, breaker: amperes(20) }));
      assert(Number(figure(plan, "voltage-drop")) > 3, `${smaller} at ${feet} ft`);
      assertEquals(plan.verdict, "ok if");
    }
  });
  it("the ground does not grow for correction and adjustment alone (250.122(B))", () => {
    const hot = { ...one("load", amperes(20), { continuous: false }), conductors: 24 } as Said;
    for (const edition of EDITIONS) {
      assertEquals(figure(circuit(hot, edition), "equipment-grounding-conductor"), "12", edition);
    }
  });
});

describe("plans put up for checking", () => {
  const cases: [string, string, RegExp][] = [
    ["is 12 gauge wire ok on a 30 amp breaker?", "not ok", /at most a 20 A/],
    ["is 6/3 NM on a 60 amp breaker ok?", "ok if", /not over 55 A/],
    ["48 A charger on 6/2 romex with a 60 A breaker, ok?", "not ok", /55 A/],
    ["48 A charger on 6 AWG THHN in conduit, 75 °C terminals, 60 A breaker, ok?", "ok", /OK/],
    ["4.5 kW water heater on 10/2 with a 30 A breaker, ok?", "ok", /OK/],
    ["4.5 kW water heater on a 50 A breaker, ok?", "not ok", /at most 30 A/],
    ["4.5 kW water heater on 12/2 with a 20 A breaker, ok?", "not ok", /too small/],
    ["two 1500 W baseboard heaters at 120 V on 10/2 and a 30 A breaker, ok?", "not ok", /split it/],
    ["continuous load of 15 A on a 15 A breaker with 14/2, ok?", "not ok", /18\.8 A/],
    ["40 A range on 6/2 with a 50 A breaker, ok?", "ok if", /neutral/],
    ["20 A receptacles, 12/2, 20 A breaker, 120 V, 150 ft, ok?", "ok if", /drop/],
  ];
  for (const [text, verdict, because] of cases) {
    it(`${text} ${verdict}`, () => {
      const answer = answered(text);
      assertEquals(answer.kind, "branch-circuit");
      assertEquals(answer.verdict, verdict);
      assert(because.test(answer.headline), answer.headline);
    });
  }
});

describe("asks instead of guessing", () => {
  const unclear = (text: string, field: string) => {
    const outcome = ask(text);
    assert(outcome.outcome === "unclear", JSON.stringify(outcome).slice(0, 300));
    assertEquals(outcome.needs[0]!.field, field);
  };
  it("what a charger draws when only its circuit may have been told", () =>
    unclear("breaker size for a 60 A car charger", "loads"));
  it("the phase of a 208 V load in kilowatts", () => unclear("breaker and wire for a 15 kVA load at 208 V", "phases"));
  it("what a 120/240 V load of so many kilowatts is", () =>
    unclear("branch circuit for a 120/240 V 3 wire 14.1 kW unit", "loads"));
  it("a welder's duty cycle", () => unclear("wire and breaker for a 50 A welder", "dutyCycle"));
  it("a voltage that is no nominal one", () => unclear("breaker and wire for a 30 A load at 300 V", "volts"));
  it("the nameplate of a cooling unit", () => {
    const outcome = engine.answer({ kind: "branch-circuit", loads: [{ kind: "heat-pump", rating: amperes(20) }] });
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "nameplate");
  });
});

const ratings = fc.oneof(
  fc.record({ value: fc.integer({ min: 1, max: 180 }), unit: fc.constant("A") }),
  fc.record({ value: fc.integer({ min: 1, max: 40 }), unit: fc.constant("kW") }),
);
describe("properties", () => {
  const order = [
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
    "2/0",
    "3/0",
    "4/0",
    "250 kcmil",
    "300 kcmil",
    "350 kcmil",
    "400 kcmil",
    "500 kcmil",
    "600 kcmil",
  ];
  const rank = (request: Said) => order.indexOf(String(figure(circuit(request), "conductor")));

  it("hotter, longer, more conductors or aluminum never gives a smaller wire", () => {
    const draw = fc.integer({ min: 5, max: 150 });
    fc.assert(
      fc.property(
        draw,
        fc.integer({ min: 10, max: 50 }),
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 10, max: 150 }),
        (a, degrees, count, feet) => {
          const base = {
            ...one("load", amperes(a), { continuous: false }),
            volts: { value: 240, unit: "V" } as const,
            phases: 1 as const,
          };
          const cool = { ...base, ambient: { value: 10, unit: "°C" }, conductors: 1 } as Said;
          const plain = rank(cool);
          assert(rank({ ...cool, ambient: { value: degrees, unit: "°C" } } as Said) >= plain);
          assert(rank({ ...cool, conductors: count } as Said) >= plain);
          assert(rank({ ...cool, length: { value: feet, unit: "ft" } } as Said) >= plain);
          assert(rank({ ...cool, material: "aluminum" } as Said) >= plain);
        },
      ),
      { numRuns: 25 },
    );
  });
  it("but for unmarked terminations, which above 100 A are rated higher, and so the wire gets smaller there (110.14(C)(1))", () => {
    const at = (value: number) => figure(circuit(one("load", amperes(value), { continuous: true })), "conductor");
    assertEquals([at(80), at(81)], ["1", "2"]);
  });
  it("more load never gives a smaller breaker or wire", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 199 }), fc.boolean(), (a, continuous) => {
        const at = (value: number) =>
          circuit({ ...one("load", amperes(value), { continuous }), terminals: { value: 75, unit: "°C" } } as Said);
        const [less, more] = [at(a), at(a + 1)];
        assert(Number(figure(more, "breaker-rating")) >= Number(figure(less, "breaker-rating")));
        assert(order.indexOf(String(figure(more, "conductor"))) >= order.indexOf(String(figure(less, "conductor"))));
      }),
      { numRuns: 40 },
    );
  });
  it("every kind, edition, voltage and wiring ends answered, unclear or not covered", () => {
    fc.assert(
      fc.property(
        fc.record({
          loads: fc.array(
            fc.record({
              kind: fc.constantFrom(...CIRCUIT_KINDS),
              count: fc.integer({ min: 1, max: 4 }),
              rating: ratings,
              continuous: fc.boolean(),
            }, { requiredKeys: ["kind"] }),
            { maxLength: 2 },
          ),
          volts: fc.record({ value: fc.constantFrom(110, 120, 208, 240, 277, 480, 600), unit: fc.constant("V") }),
          phases: fc.constantFrom(1, 3),
          breaker: fc.constantFrom(15, 20, 30, 40, 55, 60, 100, 400).map(amperes),
          size: fc.constantFrom("14", "10", "6", "1", "3/0", "500 kcmil"),
          material: fc.constantFrom("copper", "aluminum"),
          method: fc.constantFrom("NM cable", "UF cable", "SE cable", "MC cable", "conductors in conduit"),
          insulation: fc.constantFrom("TW", "THWN", "XHHW-2", "THHN"),
          inInsulation: fc.boolean(),
          rooftop: fc.boolean(),
          wet: fc.boolean(),
          ambient: fc.record({ value: fc.integer({ min: 0, max: 85 }), unit: fc.constant("°C") }),
          conductors: fc.integer({ min: 1, max: 60 }),
          length: fc.record({ value: fc.integer({ min: 1, max: 2000 }), unit: fc.constant("ft") }),
        }, { requiredKeys: [] }),
        fc.constantFrom(...EDITIONS),
        (request, edition) => {
          sound(engine.answer({ kind: "branch-circuit", ...request }, { edition }));
        },
      ),
      { numRuns: 300 },
    );
  });

  it("a request written as text reads back the same", () => {
    const drawn = fc.oneof(
      fc.record({ value: fc.constantFrom(1, 7.5, 16, 32, 48, 90), unit: fc.constant("A") }, { noNullPrototype: true }),
      fc.record({ value: fc.constantFrom(0.9, 4.5, 7.2, 12, 18), unit: fc.constantFrom("kW", "kVA") }, {
        noNullPrototype: true,
      }),
    );
    const readable = CIRCUIT_KINDS.filter((kind) =>
      !["load", "receptacles", "heat-pump", "air-conditioner", "room-air-conditioner"].includes(kind)
    );
    const request = fc.record({
      loads: fc.record({
        kind: fc.constantFrom(...readable),
        count: fc.integer({ min: 1, max: 6 }),
        rating: drawn,
        continuous: fc.boolean(),
      }, { requiredKeys: ["kind", "count", "rating"], noNullPrototype: true }).map((load) => [load]),
      volts: fc.record({ value: fc.constantFrom(120, 208, 240, 277, 480), unit: fc.constant("V") }, {
        noNullPrototype: true,
      }),
      phases: fc.constantFrom(1, 3),
      receptacle: fc.record({ value: fc.constantFrom(50, 60), unit: fc.constant("A") }, { noNullPrototype: true }),
      breaker: fc.record({ value: fc.constantFrom(15, 20, 40, 60), unit: fc.constant("A") }, { noNullPrototype: true }),
      size: fc.constantFrom("14", "10", "6", "1", "3/0", "500 kcmil"),
      check: fc.constant(true),
      length: fc.record({ value: fc.integer({ min: 10, max: 900 }), unit: fc.constant("ft") }, {
        noNullPrototype: true,
      }),
      limit: fc.record({ value: fc.constantFrom(2, 3, 5), unit: fc.constant("%") }, { noNullPrototype: true }),
      neutralCounts: fc.constant(true),
      material: fc.constantFrom("copper", "aluminum"),
      method: fc.constantFrom("NM cable", "UF cable", "SE cable", "MC cable", "conductors in conduit"),
      insulation: fc.constantFrom("TW", "THWN", "XHHW-2", "THHN"),
      terminals: fc.record({ value: fc.constantFrom(60, 75), unit: fc.constant("°C") }, { noNullPrototype: true }),
      ambient: fc.record({ value: fc.integer({ min: 61, max: 120 }), unit: fc.constant("°F") }, {
        noNullPrototype: true,
      }),
      conductors: fc.integer({ min: 1, max: 30 }),
      circuits: fc.integer({ min: 2, max: 6 }),
      rooftop: fc.constant(true),
      inInsulation: fc.constant(true),
      wet: fc.constant(true),
    }, { requiredKeys: ["loads"], noNullPrototype: true });
    fc.assert(
      fc.property(request, (said) => {
        // Amperes of kinds that are named by their circuit go back as a breaker: not written by people as a draw.
        const [load] = said.loads;
        fc.pre(!(load!.rating.unit === "A" && RATED_BY_CIRCUIT.includes(load!.kind)));
        const text = branchCircuit.write(branchCircuit.input.parse(said));
        const outcome = engine.ask(text);
        if (outcome.outcome === "not covered") return;
        const { edition: _, ...read } =
          (outcome.outcome === "answered" ? outcome.answer.request : outcome.understood) as Request;
        assertEquals(read, { kind: "branch-circuit", ...said } as never, text);
      }),
      { numRuns: 300 },
    );
  });
});

describe("receptacles of a circuit", () => {
  // 220.14(I): 180 VA a yoke, so that 120 V x 15 or 20 A carries ten and thirteen.
  it("are so many at the most, where its rating alone is told", () => {
    for (const [text, most] of [["how many receptacles on a 20 amp circuit", 13], ["outlets on a 15 A circuit", 10]]) {
      const outcome = engine.ask(text as string);
      assertEquals(outcome.outcome === "answered" && outcome.answer.figures["most-receptacles"]?.value, most);
    }
  });
  it("are on a branch circuit in a garage too", () => {
    for (const text of ["20 A breaker for receptacles in a garage", "15 A circuit for lights in the garage"]) {
      const outcome = engine.ask(text);
      assertEquals(outcome.outcome === "answered" && outcome.answer.kind, "branch-circuit", text);
    }
  });
});
