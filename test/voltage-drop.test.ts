import { assert, assertAlmostEquals, assertEquals, assertMatch } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import { abs, add, type Complex, complex, multiply, unit } from "mathjs";
import type { Request } from "../src/engine.ts";
import { SYSTEMS, USES } from "../src/questions/circuit/voltage-drop/request.ts";
import voltageDrop from "../src/questions/circuit/voltage-drop/question.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";

const EDITION = editions.get("2023")!;
const impedanceTable = EDITION.table("conductor-impedance");
const SIZES = impedanceTable.data.rows.map((row) => String(row[0]));
const ALUMINUM_SIZES = SIZES.filter((size) => size !== "14");
const cell = (size: string, column: string): number =>
  impedanceTable.number(impedanceTable.row(size)!, column)!.valueOf();
const resistance = (size: string, material: string, conduit: string) =>
  cell(size, `${material} resistance in ${conduit}`);
const reactance = (size: string, conduit: string) =>
  cell(size, conduit === "steel" ? "reactance in steel" : "reactance in PVC or aluminum");

const request = (more: object): Request => ({ kind: "voltage-drop", ...more });
const amps = (value: number) => ({ value, unit: "A" });
const volts = (value: number) => ({ value, unit: "V" });
const feet = (value: number) => ({ value, unit: "ft" });
const run = (more: object = {}): Request =>
  request({
    volts: volts(240),
    circuit: "single-phase",
    load: amps(30),
    length: feet(200),
    size: "8",
    material: "copper",
    conduit: "PVC",
    powerFactor: 1,
    ...more,
  });
const drop = (more: object = {}): number => figure(answered(run(more)), "voltage-drop-volts") as number;
const sized = (more: object = {}): Request => {
  const { size: _, ...rest } = run();
  return { ...rest, ...more } as Request;
};
const order = (size: unknown, material = "copper"): number =>
  (material === "copper" ? SIZES : ALUMINUM_SIZES).indexOf(String(size));

describe("published voltage-drop examples", () => {
  for (const edition of EDITIONS) {
    it(`come out under ${edition}`, () => {
      // EC&M, "The Basics of Calculating Voltage Drop": 480 V three-phase, 20 A, 200 ft, 12 AWG, 1.7 ohm per 1000 ft;
      // printed 11.8 V, with 1.732 for the root of three.
      const stated = run({
        volts: volts(480),
        circuit: "three-phase",
        load: amps(20),
        size: "12",
        conduit: "steel",
        powerFactor: 0.85,
        impedance: { value: 1.7, unit: "ohm/kft" },
      });
      assertAlmostEquals(figure(answered(stated, { edition }), "voltage-drop-volts") as number, 11.7776, 0.001);
      // The same article: K 12.9 and 3 % of 480 V want 6207 circular mils, 12 AWG.
      const wanted = answered(
        sized({ volts: volts(480), circuit: "three-phase", load: amps(20), limit: { value: 3, unit: "%" } }),
        { edition },
      );
      assertEquals(figure(wanted, "conductor"), "12");
      // 1.732 × 12.9 × 200 × 20 = 89 371.2, over 6530 circular mils of 12 AWG.
      assertAlmostEquals(figure(wanted, "voltage-drop-rule-of-thumb") as number, 89371.2 / 6530, 0.001);
      // electrician2.com course notes, page 135: 24 V, 100 ft, 16 AWG at 4.99 ohm per 1000 ft, 4 A; printed 4.0 V and
      // 16.7 %, the percentage from the rounded volts.
      const control = answered(
        request({
          volts: volts(24),
          load: amps(4),
          length: feet(100),
          size: "16",
          material: "copper",
          impedance: { value: 4.99, unit: "ohm/kft" },
        }),
        { edition },
      );
      assertAlmostEquals(figure(control, "voltage-drop-volts") as number, 3.992, 1e-9);
      assertAlmostEquals(figure(control, "voltage-drop") as number, 16.7, 0.1);
    });
  }
  it("a constant K that is told takes the tables' place: EC&M, 12.9 × 1.732 × 20 A × 200 ft ÷ 14.4 V wants 12 AWG", () => {
    const constant = { value: 12.9, unit: "ohm-cmil/ft" };
    const wired = { volts: volts(480), circuit: "three-phase", load: amps(20), length: feet(200), constant };
    const told = answered(sized({ ...wired, limit: { value: 14.4, unit: "V" } }));
    assertEquals(figure(told, "conductor"), "12");
    assertAlmostEquals(figure(told, "voltage-drop-volts") as number, 89371.2 / 6530, 0.001);
    // Below, at and above: 6530 circular mils of 12 AWG hold 13.687 V and no less; 10380 of 10 AWG do.
    const exact = Math.sqrt(3) * 12.9 * 20 * 200 / 6530;
    const at = (limit: number) =>
      figure(answered(sized({ ...wired, limit: { value: limit, unit: "V" } })), "conductor");
    assertEquals([at(exact + 1e-6), at(exact - 1e-6)], ["12", "10"]);
    // 2 × 12.9 × 40 × 150 ÷ 16510 = 9.376 V, beside 9.36 V by the table (0.78 Ω/kft).
    const single = answered(run({ load: amps(40), length: feet(150), constant }));
    assertAlmostEquals(figure(single, "voltage-drop-volts") as number, 2 * 12.9 * 40 * 150 / 16510, 1e-9);
    assertAlmostEquals(figure(single, "voltage-drop-by-table") as number, 9.36, 1e-9);
    const sets = answered(run({ size: "1/0", load: amps(200), sets: 2, constant }));
    assertAlmostEquals(figure(sets, "voltage-drop-volts") as number, 2 * 12.9 * 200 * 200 / (2 * 105_600), 1e-9);
    const longest = answered(request({
      find: "longest run",
      ...{ volts: volts(120), load: amps(20), size: "10", material: "copper", constant },
    }));
    assertAlmostEquals(figure(longest, "longest-run") as number, 3.6 * 10380 / (2 * 12.9 * 20), 1e-9);
    assertAlmostEquals(figure(longest, "longest-run-by-table") as number, 75, 1e-9);
    const starting = answered(run({ load: amps(20), starting: amps(100), constant }));
    assertAlmostEquals(figure(starting, "starting-voltage-drop-volts") as number, 2 * 12.9 * 100 * 200 / 16510, 1e-9);
    // No other figure changes for a constant that is not told.
    assertEquals(answered(run()).figures["voltage-drop-by-table"], undefined);
  });
  it("16 AWG takes the direct-current table by itself, which prints those 4.99 ohm per 1000 ft", () => {
    const answer = answered(
      request({ volts: volts(24), load: amps(4), length: feet(100), size: "16", material: "copper" }),
    );
    assertAlmostEquals(figure(answer, "voltage-drop-volts") as number, 3.992, 1e-9);
  });
});

describe("sizes that the impedance table leaves out (Chapter 9, Table 9 has 14 AWG to 600, 750 and 1000 kcmil)", () => {
  const rows: [string, string][] = [
    ["600 kcmil", "600 kcmil"],
    ["700 kcmil", "600 kcmil"],
    ["750 kcmil", "750 kcmil"],
    ["800 kcmil", "750 kcmil"],
    ["900 kcmil", "750 kcmil"],
    ["1000 kcmil", "1000 kcmil"],
    ["1250 kcmil", "1000 kcmil"],
    ["2000 kcmil", "1000 kcmil"],
  ];
  const large = { volts: volts(480), circuit: "three-phase", load: amps(400), length: feet(500), powerFactor: 0.85 };
  for (const [size, row] of rows) {
    it(`takes ${size} by the row of ${row}, and says so where it is another`, () => {
      for (const material of ["copper", "aluminum"]) {
        for (const conduit of ["PVC", "aluminum", "steel"]) {
          const answer = answered(run({ ...large, size, material, conduit }));
          const z = resistance(row, material, conduit) * 0.85 + reactance(row, conduit) * Math.sqrt(1 - 0.85 ** 2);
          assertAlmostEquals(
            figure(answer, "voltage-drop-volts") as number,
            Math.sqrt(3) * 400 * 0.5 * z,
            1e-6,
          );
          const isSaid = answer.cautions.some(({ text }) => text.includes(`no ${size}`));
          assertEquals(isSaid, size !== row, `${size} ${material} in ${conduit}`);
        }
      }
    });
  }
  it("takes direct-current resistance where direct current flows, and below the first row alone", () => {
    // Chapter 9, Table 8: 700 kcmil copper 0.0184, 16 AWG 4.89 (solid and stranded lie between 4.89 and 4.99) ohm/kft.
    const direct = answered(run({ circuit: "direct current", size: "700 kcmil", load: amps(400), length: feet(500) }));
    assertAlmostEquals(figure(direct, "voltage-drop-volts") as number, 2 * 400 * 0.5 * 0.0184, 1e-9);
    assert(!direct.cautions.some(({ text }) => text.includes("700 kcmil")));
    const small = answered(run({ size: "16", load: amps(5), length: feet(100) }));
    assertAlmostEquals(figure(small, "voltage-drop-volts") as number, 2 * 5 * 0.1 * 4.99, 1e-9);
  });
  it("never advises a size that does not help: past 1000 kcmil none is known to", () => {
    const plan = answered({
      kind: "branch-circuit",
      loads: [{ kind: "load", rating: amps(440), continuous: false }],
      volts: volts(480),
      phases: 3,
      size: "1000 kcmil",
      terminals: { value: 75, unit: "°C" },
      length: feet(1500),
      powerFactor: 0.85,
      check: true,
    } as Request);
    assertEquals(plan.verdict, "ok if");
    assert(!plan.headline.includes("keeps it"), plan.headline);
    assert(!plan.cautions.some(({ text }) => text.includes("impedance table")), "no size tried in vain is spoken of");
  });
});

describe("the effective impedance as printed", () => {
  // NEC Chapter 9, Table 9 prints Z at 0.85; one cell, 0.16, stands farthest from its own R and X.
  const ODD = "1 copper PVC";
  it("is R × 0.85 + X × sin φ within the rounding of all three; 1 AWG copper in PVC is farthest off", () => {
    const odd: [number, string][] = [];
    for (const size of SIZES) {
      for (const material of ["copper", "aluminum"]) {
        for (const conduit of ["PVC", "aluminum", "steel"]) {
          const column = `${material} impedance in ${conduit} at 0.85`;
          const printed = impedanceTable.cell(impedanceTable.row(size)!, column);
          if (printed === null) continue;
          const z = resistance(size, material, conduit) * 0.85 + reactance(size, conduit) * Math.sqrt(1 - 0.85 ** 2);
          // Printed with one decimal from 1 up, two from 0.1, three below; R and X are rounded like that themselves.
          const half = (n: number) => (n >= 1 ? 0.1 : n >= 0.1 ? 0.01 : 0.001) / 2;
          const r = resistance(size, material, conduit);
          const tolerance = half(z) + 0.85 * half(r) + 0.53 * half(reactance(size, conduit));
          assertAlmostEquals(
            Number(printed),
            z,
            tolerance + 1e-9,
            `${size} ${material} ${conduit}: ${printed}, not ${z}`,
          );
          odd.push([Math.abs(z - Number(printed)) / z, `${size} ${material} ${conduit}`]);
        }
      }
    }
    assertEquals(odd.toSorted(([a], [b]) => b - a)[0]![1], ODD);
  });
});

describe("voltage drop against complex numbers of mathjs", () => {
  /** Phase voltage, current as reference, and the impedance of one conductor of the whole run. */
  const arbitrary = fc.record({
    size: fc.constantFrom(...ALUMINUM_SIZES),
    material: fc.constantFrom("copper", "aluminum"),
    conduit: fc.constantFrom("PVC", "aluminum", "steel"),
    circuit: fc.constantFrom("single-phase", "three-phase", "balanced neutral"),
    current: fc.integer({ min: 1, max: 40 }),
    length: fc.integer({ min: 10, max: 300 }),
    powerFactor: fc.integer({ min: 50, max: 100 }).map((n) => n / 100),
    sets: fc.integer({ min: 1, max: 3 }),
  });
  it("the exact drop closes the phasor diagram, the formula is its part in step", () => {
    fc.assert(
      fc.property(arbitrary, ({ current, length, ...more }) => {
        const answer = answered(run({ ...more, load: amps(current), length: feet(length), volts: volts(480) }));
        const { size, material, conduit, circuit, powerFactor, sets } = more;
        const path = { "single-phase": 2, "three-phase": Math.sqrt(3), "balanced neutral": 1 }[circuit]!;
        const z = multiply(
          complex(resistance(size, material, conduit), reactance(size, conduit)),
          (path * length) / 1000 / sets,
        ) as Complex;
        const phi = Math.acos(powerFactor);
        const i = complex(current * Math.cos(phi), -current * Math.sin(phi));
        const lost = multiply(i, z) as Complex;
        assertAlmostEquals(figure(answer, "voltage-drop-volts") as number, lost.re, 1e-6);
        // The load voltage is the reference: source = load + I·Z must have the size of the supply.
        const exact = figure(answer, "voltage-drop-exact") as number;
        const source = add(complex(480 - exact, 0), lost) as Complex;
        assertAlmostEquals(abs(source) as unknown as number, 480, 1e-6);
      }),
      { numRuns: 60 },
    );
  });
  it("resistance follows the conductor's temperature by the tables' coefficient", () => {
    // NEC Chapter 9, Table 8, note: R₂ = R₁[1 + 0.00323 (T₂ − 75)] for copper, 0.00330 for aluminum.
    const [hot, base] = [drop({ temperature: { value: 90, unit: "°C" } }), drop()];
    assertAlmostEquals(hot / base, 1 + 0.00323 * 15, 1e-9);
    const aluminum = { material: "aluminum", size: "6" };
    const cold = drop({ ...aluminum, temperature: { value: 20, unit: "°C" } });
    assertAlmostEquals(cold / drop(aluminum), 1 - 0.0033 * 55, 1e-9);
    assertAlmostEquals(drop({ temperature: { value: 194, unit: "°F" } }), hot, 1e-9);
    assertEquals(drop({ temperature: { value: 75, unit: "°C" } }), base);
  });
});

describe("shapes of a run", () => {
  it("loads along the run count as far as each is fed: the sum over all of them", () => {
    const along = { first: feet(300), spacing: feet(80) };
    const lights = drop({
      load: { value: 100, unit: "W" },
      count: 9,
      along,
      length: undefined,
      volts: volts(120),
      size: "8",
    });
    const each = 100 / 120;
    const sum = Array.from({ length: 9 }, (_, k) => 2 * each * (300 + 80 * k) * resistance("8", "copper", "PVC") / 1000)
      .reduce((a, b) => a + b);
    assertAlmostEquals(lights, sum, 1e-9);
    // The same lights, one by one, and the same run told as two stretches of one size.
    const points = Array.from({ length: 9 }, (_, k) => ({ at: feet(300 + 80 * k), load: { value: 100, unit: "W" } }));
    assertAlmostEquals(drop({ load: undefined, points, length: undefined, volts: volts(120) }), sum, 1e-9);
    const segments = [{ length: feet(500), size: "8" }, { length: feet(440), size: "8" }];
    assertAlmostEquals(
      drop({ load: undefined, points, segments, length: undefined, volts: volts(120), size: undefined }),
      sum,
      1e-9,
    );
  });
  it("stretches of different sizes add up, and one left open is sized for what remains", () => {
    const segments = [{ length: feet(100), size: "6" }, { length: feet(80), size: "10" }];
    const both = drop({ segments, length: undefined, size: undefined });
    assertAlmostEquals(both, drop({ length: feet(100), size: "6" }) + drop({ length: feet(80), size: "10" }), 1e-9);
    const open = answered(run({ segments: [segments[0], { length: feet(80) }], length: undefined, size: undefined }));
    const size = String(figure(open, "conductor"));
    assert((figure(open, "voltage-drop") as number) <= 3);
    const smaller = SIZES[order(size) - 1]!;
    assert(
      drop({ segments: [segments[0], { length: feet(80), size: smaller }], length: undefined, size: undefined }) > 7.2,
    );
  });
  it("a balanced neutral halves it, sets in parallel divide it, three phases take the root of three", () => {
    assertAlmostEquals(drop({ circuit: "balanced neutral" }), drop() / 2, 1e-9);
    assertAlmostEquals(drop({ sets: 2 }), drop() / 2, 1e-9);
    assertAlmostEquals(drop({ circuit: "three-phase" }), drop() * Math.sqrt(3) / 2, 1e-9);
  });
  it("tells the line-to-neutral drop of three phases, the same share of the smaller voltage", () => {
    const answer = answered(run({ volts: volts(208), circuit: "three-phase" }));
    const toNeutral = figure(answer, "voltage-drop-line-to-neutral") as number;
    assertAlmostEquals(toNeutral / (208 / Math.sqrt(3)) * 100, figure(answer, "voltage-drop") as number, 1e-9);
  });
  it("a starting motor is a second case, at whatever power factor it starts", () => {
    const answer = answered(run({ starting: amps(60), powerFactor: 0.85 }));
    const z = Math.hypot(resistance("8", "copper", "PVC"), reactance("8", "PVC"));
    assertAlmostEquals(figure(answer, "starting-voltage-drop-volts") as number, 2 * 60 * z * 200 / 1000, 1e-9);
    assert(answer.cautions.some(({ text }) => text.includes("starts")));
  });
  it("takes a motor's current from the table, 12 A for 2 hp at 230 V (NEC Table 430.248)", () => {
    assertAlmostEquals(drop({ load: { value: 2, unit: "hp" } }), drop({ load: amps(12) }), 1e-9);
  });
  it("an untold power factor of a motor or three phases is the one that drops more", () => {
    const large = { size: "500 kcmil", circuit: "three-phase", volts: volts(480), load: amps(300) };
    assertEquals(drop({ ...large, powerFactor: undefined }), drop({ ...large, powerFactor: 0.85 }));
    const small = { size: "10", circuit: "three-phase", volts: volts(480), load: amps(20) };
    assertEquals(drop({ ...small, powerFactor: undefined }), drop({ ...small, powerFactor: 1 }));
  });
});

describe("the three turns agree", () => {
  const load = fc.record({
    current: fc.integer({ min: 1, max: 250 }),
    length: fc.integer({ min: 5, max: 800 }),
    material: fc.constantFrom("copper", "aluminum"),
    conduit: fc.constantFrom("PVC", "aluminum", "steel"),
    circuit: fc.constantFrom("single-phase", "three-phase"),
    powerFactor: fc.constantFrom(0.8, 0.85, 0.9, 1),
  });
  const conductor = (more: object) => {
    const outcome = ask(sized(more));
    return outcome.outcome === "answered" ? outcome.answer : undefined;
  };
  it("the conductor found holds the limit, and the next smaller one drops too much or carries too little", () => {
    fc.assert(
      fc.property(load, ({ current, length, ...more }) => {
        const given = { ...more, volts: volts(480), load: amps(current), length: feet(length) };
        const answer = conductor(given);
        if (!answer || "parallel-sets" in answer.figures) return;
        const size = String(figure(answer, "conductor"));
        assert((figure(answer, "voltage-drop") as number) <= 3);
        assertAlmostEquals(drop({ ...given, size }), figure(answer, "voltage-drop-volts") as number, 1e-9);
        const listed = more.material === "copper" ? SIZES : ALUMINUM_SIZES;
        const smaller = listed[order(size, more.material) - 1];
        if (smaller === undefined || answer.headline.includes("ampacity decides")) return;
        assert(drop({ ...given, size: smaller }) > 14.4, `${size} chosen, ${smaller} would do`);
      }),
      { numRuns: 60 },
    );
  });
  it("a longer run or a larger load never takes a smaller wire, aluminum never a smaller one than copper", () => {
    fc.assert(
      fc.property(load, fc.integer({ min: 0, max: 300 }), ({ current, length, ...more }, extra) => {
        const size = (l: number, a: number, material = "copper") => {
          // The rules' own exception: unmarked terminations count at 60 °C up to 100 A and at 75 °C above.
          const terminals = { value: 75, unit: "°C" };
          const answer = conductor({ ...more, material, terminals, volts: volts(480), load: amps(a), length: feet(l) });
          return answer && !("parallel-sets" in answer.figures) ? order(figure(answer, "conductor")) : Infinity;
        };
        const base = size(length, current);
        assert(size(length + extra, current) >= base, "longer");
        assert(size(length, current + extra / 10) >= base, "larger load");
        assert(size(length, current, "aluminum") >= base, "aluminum");
      }),
      { numRuns: 30 },
    );
  });
  it("at the longest run the drop is the limit; a foot more is over it", () => {
    fc.assert(
      fc.property(fc.constantFrom(...SIZES.slice(0, 12)), fc.integer({ min: 1, max: 100 }), (size, current) => {
        const { length: _, ...rest } = run({ size, load: amps(current) });
        const longest = figure(answered(rest as Request), "longest-run") as number;
        assertAlmostEquals(drop({ size, load: amps(current), length: feet(longest) }), 7.2, 1e-6);
        const over = answered(run({ size, load: amps(current), length: feet(longest + 1), check: true }));
        assert(over.verdict !== "ok");
      }),
      { numRuns: 20 },
    );
  });
});

describe("plan checks", () => {
  const check = (more: object) => answered(run({ check: true, ...more }));
  it("below, at and above 3 % and 5 %: 8 AWG copper, 30 A, 240 V", () => {
    const at = (percent: number) => percent / 100 * 240 / (2 * 30 * resistance("8", "copper", "PVC") / 1000);
    const verdict = (length: number) => check({ length: feet(length) }).verdict;
    assertEquals(verdict(at(2.99)), "ok");
    // 7.2 V over 2 × 30 A × 0.78 ohm per 1000 ft: 153.846 ft, written short of the exact length.
    assertEquals(verdict(153.846), "ok");
    assertEquals(verdict(at(3.01)), "ok if");
    assertEquals(verdict(256.41), "ok if");
    assertEquals(verdict(at(5.01)), "not ok");
    assertEquals(check({ length: feet(at(3.01)), limit: { value: 3, unit: "%" } }).verdict, "not ok");
  });
  it("a wire that may not have its breaker is not ok, whatever the drop", () => {
    // NEC 240.4(D): 20 A at most on 12 AWG copper.
    const answer = check({ size: "12", load: amps(12), breaker: amps(30), length: feet(20) });
    assertEquals(answer.verdict, "not ok");
    assertMatch(answer.verdictBecause!, /20 A/);
    assertEquals(check({ size: "12", load: amps(12), breaker: amps(20), length: feet(20) }).verdict, "ok");
    // NEC Table 310.16: 25 A at 75 °C, which the small-conductor limit does not follow.
    const marked = { size: "12", load: amps(12), length: feet(20), terminals: { value: 75, unit: "°C" } };
    assertEquals(check({ ...marked, breaker: amps(25) }).verdict, "not ok");
    assertEquals(check({ ...marked, breaker: amps(20) }).verdict, "ok");
  });
  it("a wire too small for its load is told, though only the drop was asked", () => {
    const cautions = (more: object) => answered(run(more)).cautions.map(({ text }) => text).join(" ");
    assertMatch(cautions({ size: "12", load: amps(40), length: feet(10) }), /too little for 40 A/);
    assertEquals(cautions({ size: "12", load: amps(20), length: feet(10) }), "");
  });
  it("a small wire is not for a load above its largest breaker, whatever it carries (240.4(D)), but for motors", () => {
    const thhn = { terminals: { value: 75, unit: "°C" }, length: feet(10), insulation: "THHN" };
    const verdict = (load: number, more: object = {}) =>
      answered(run({ ...thhn, size: "12", load: amps(load), check: true, ...more })).verdict;
    // 12 AWG copper, 75 °C: 25 A, 20 A breaker at the most; aluminum 20 A, and 15 A.
    assertEquals([verdict(20), verdict(20.1), verdict(25)], ["ok", "not ok", "not ok"]);
    assertEquals([verdict(15, { material: "aluminum" }), verdict(16, { material: "aluminum" })], ["ok", "not ok"]);
    assertEquals(verdict(20, { use: "motor" }), "ok");
    const found = (load: number) => figure(answered(sized({ ...thhn, load: amps(load) })), "conductor");
    assertEquals([15, 15.1, 20, 20.1, 30, 30.1, 50].map(found), ["14", "12", "12", "10", "10", "8", "8"]);
    const told = answered(run({ ...thhn, size: "10", load: amps(33) })).cautions.map(({ text }) => text);
    assert(told.some((text) => text.includes("30 A breaker at most")));
  });
  it("a method that may not be used there is not ok, nor one that the heat leaves nothing", () => {
    const judged = (more: object) => answered(run({ load: amps(20), length: feet(10), check: true, ...more })).verdict;
    assertEquals(judged({ method: "NM cable" }), "ok");
    assertEquals(judged({ method: "NM cable", wet: true }), "not ok");
    assertEquals(judged({ method: "direct-burial conductors", insulation: "XHHW-2" }), "ok if");
    assertEquals(judged({ method: "UF cable", ambient: { value: 56, unit: "°C" } }), "not ok");
  });
  it("depends on the terminations where only marked ones carry the load", () => {
    // NEC Table 310.16: 6 AWG copper carries 55 A at 60 °C and 65 A at 75 °C.
    assertEquals(check({ size: "6", load: amps(55), length: feet(10) }).verdict, "ok");
    assertEquals(check({ size: "6", load: amps(60), length: feet(10) }).verdict, "ok if");
    assertEquals(check({ size: "6", load: amps(66), length: feet(10) }).verdict, "not ok");
  });
  it("a motor's conductors carry 125 % of its current (NEC 430.22), whatever its breaker", () => {
    // NEC Table 430.248: 5 hp at 208 V takes 30.8 A; 125 % is 38.5 A, above the 35 A of 10 AWG at 75 °C.
    const motor = { load: { value: 5, unit: "hp" }, volts: volts(208), length: feet(10) };
    assertEquals(figure(answered(sized(motor)), "conductor"), "8");
    assertEquals(check({ ...motor, size: "10" }).verdict, "not ok");
    assertEquals(check({ ...motor, size: "8", breaker: amps(70) }).verdict, "ok");
  });
  it("the conductor found suits the breaker too", () => {
    const answer = answered(sized({ load: amps(10), breaker: amps(50), length: feet(20) }));
    assertEquals(figure(answer, "conductor"), "6");
    assertMatch(answer.headline, /ampacity decides/);
  });
});

describe("what is asked back", () => {
  const needs = (asked: string | Request) => {
    const outcome = ask(asked);
    return outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : [outcome.outcome];
  };
  it("load, voltage and length all at once", () => {
    assertEquals(needs(request({})), ["load", "volts", "length"]);
    assertEquals(needs(request({ find: "longest run", volts: volts(120), load: amps(10) })), ["size"]);
  });
  it("the phases where the voltage has both, and of a motor", () => {
    for (const v of [208, 480, 600]) assertEquals(needs(run({ volts: volts(v), circuit: undefined })), ["circuit"]);
    assertEquals(needs(run({ load: { value: 5, unit: "hp" }, circuit: undefined })), ["circuit"]);
    assertEquals(needs(run({ volts: volts(277), circuit: undefined })), ["answered"]);
  });
  it("which voltage three phases have that are said to have 120 V", () => {
    assertEquals(needs(run({ volts: volts(120), circuit: "three-phase" })), ["volts"]);
  });
  it("what is wrong where nothing would be left of the voltage", () => {
    assertEquals(needs(run({ volts: volts(12), load: amps(50), length: feet(2000), size: "14" })), ["current"]);
  });
  it("which of two lengths is the run", () => {
    assertEquals(needs("voltage drop 20 A 240 V on 10 AWG copper, 120 ft to the shed, 45 ft of trench"), ["length"]);
  });
  it("whether a power is of each lamp or of all", () => {
    assertEquals(needs("voltage drop for 8 lamps 400 W, 300 ft, 120 V, 10 AWG copper"), ["load"]);
  });
});

describe("every edition over a grid", () => {
  it("answers, asks or declines, and never throws", () => {
    for (const edition of editions.keys()) {
      for (const size of ["18", "14", "2", "4/0", "1000 kcmil", "22"]) {
        for (const circuit of ["single-phase", "three-phase", "direct current", "balanced neutral"]) {
          for (const length of [1, 40000]) {
            for (const material of ["copper", "aluminum"]) {
              const outcome = ask(run({ size, circuit, length: feet(length), material, check: true }), { edition });
              sound(outcome);
              const found = ask(sized({ circuit, length: feet(length), material }), { edition });
              sound(found);
            }
          }
        }
      }
    }
  });
  it("2026 marks what is only from memory", () => {
    const answer = answered(run(), { edition: "2026" });
    assert(answer.steps.some((step) => step.kind === "looked up" && step.cite?.verified === "from memory"));
  });
});

describe("text and request", () => {
  const quantity = (units: readonly string[], most: number) =>
    fc.record({ value: fc.integer({ min: 1, max: most }), unit: fc.constantFrom(...units) });
  const length = quantity(["ft"], 900);
  const size = fc.constantFrom("12", "8", "2/0", "250 kcmil");
  /** A text that is nothing but assumptions could be any kind's: voltage, load and length are always there. */
  const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
  const requests = fc.record({
    volts: fc.constantFrom(volts(24), volts(120), volts(240), volts(480)),
    circuit: maybe(fc.constantFrom("single-phase", "three-phase", "direct current", "balanced neutral")),
    use: maybe(fc.constantFrom(...USES)),
    load: quantity(["A", "kW", "kVA", "hp"], 90),
    breaker: maybe(fc.constantFrom(amps(20), amps(50))),
    starting: maybe(quantity(["A", "W"], 900)),
    length,
    size: maybe(size),
    material: maybe(fc.constantFrom("copper", "aluminum")),
    conduit: maybe(fc.constantFrom("PVC", "aluminum", "steel")),
    method: maybe(fc.constantFrom("NM cable", "UF cable")),
    terminals: maybe(fc.constantFrom({ value: 75, unit: "°C" })),
    ambient: maybe(fc.constantFrom({ value: 40, unit: "°C" }, { value: 105, unit: "°F" })),
    conductors: maybe(fc.constantFrom(4, 6)),
    sets: maybe(fc.integer({ min: 2, max: 6 })),
    limit: maybe(quantity(["%", "V"], 9)),
    powerFactor: maybe(fc.constantFrom(0.8, 0.95, 1)),
    impedance: maybe(fc.constantFrom({ value: 1.7, unit: "ohm/kft" })),
    temperature: maybe(fc.constantFrom({ value: 60, unit: "°C" }, { value: 140, unit: "°F" })),
    table: maybe(fc.constantFrom("direct current", "alternating current")),
    constant: maybe(fc.constantFrom({ value: 12.9, unit: "ohm-cmil/ft" })),
  });
  const present = (object: object) => JSON.parse(JSON.stringify(object)) as object;
  /** The request that reading the written text gives, whatever becomes of it. */
  const reread = (asked: object) => {
    const text = voltageDrop.write(voltageDrop.input.parse(asked));
    const outcome = engine.ask(text);
    if (outcome.outcome === "not covered") return { text, read: undefined };
    const { kind, edition: _, ...read } =
      (outcome.outcome === "answered" ? outcome.answer.request : outcome.understood) as Request;
    return { text, read, kind };
  };
  it("a written request reads back as the same request", () => {
    fc.assert(
      fc.property(requests, (generated) => {
        const asked = present(generated);
        const { text, read } = reread(asked);
        // A conduit that is named is how the wires run.
        const meant = generated.conduit ? { method: "conductors in conduit", ...asked } : asked;
        if (read !== undefined) assertEquals(read, meant, text);
      }),
      { numRuns: 200 },
    );
  });
  it("so do lights along a run, loads at distances, stretches, a system, a turn", () => {
    const base = { volts: volts(120), material: "copper" };
    const each = { value: 100, unit: "W" };
    for (
      const asked of [
        { ...base, size: "10", load: each, count: 9, along: { first: feet(300), spacing: feet(80) } },
        { ...base, load: each, count: 9, along: { spacing: feet(80) } },
        { ...base, load: each, count: 6, length: feet(90) },
        { ...base, size: "10", points: [{ at: feet(100), load: amps(5) }, { at: feet(200), load: amps(3) }] },
        { ...base, load: amps(9), segments: [{ length: feet(90), size: "6" }, { length: feet(50), size: "10" }] },
        {
          ...base,
          load: amps(9),
          segments: [{ length: feet(90), size: "6", material: "aluminum" }, { length: feet(50) }],
        },
        { ...base, find: "conductor", load: amps(9), length: feet(300) },
        { ...base, find: "longest run", load: amps(9), size: "12" },
        { ...base, find: "drop", load: amps(9), length: feet(300) },
        { ...base, check: true, load: amps(9), length: feet(300), size: "12" },
        ...SYSTEMS.map((system) => ({ system, circuit: "single-phase", load: amps(9), length: feet(99), size: "10" })),
      ]
    ) {
      const { text, read } = reread(asked);
      assertEquals(read, asked, text);
    }
  });
  it("a follow-up changes one thing and keeps the rest", () => {
    const first = answered("voltage drop of 24 A at 240 V over 150 ft of 10 AWG copper");
    const after = first.request as Request;
    const ratio = (text: string) =>
      (figure(answered(text, { after }), "voltage-drop-volts") as number) /
      (figure(first, "voltage-drop-volts") as number);
    assertAlmostEquals(ratio("and at 300 ft?"), 2, 1e-9);
    assertAlmostEquals(
      ratio("use aluminum"),
      resistance("10", "aluminum", "PVC") / resistance("10", "copper", "PVC"),
      1e-9,
    );
    assertAlmostEquals(
      ratio("what about #8?"),
      resistance("8", "copper", "PVC") / resistance("10", "copper", "PVC"),
      1e-9,
    );
    assertAlmostEquals(ratio("12 amps instead"), 0.5, 1e-9);
    assertEquals(figure(answered("what size keeps it under 2 %?", { after }), "conductor"), "6");
    assertAlmostEquals(figure(answered("how far can it go?", { after }), "longest-run") as number, 125, 1e-9);
  });
  it("keeps breaker, panel and load apart", () => {
    const read = (text: string) => answered(text).request as Record<string, unknown>;
    const both = read("voltage drop, 60 A breaker but only drawing 41 amps, 240 V, 190 ft, 4 AWG copper");
    assertEquals([both.breaker, both.load], [amps(60), amps(41)]);
    const panel = read(
      "from the 200 amp panel 310 ft to the gate opener, draws 7 A, what size wire for the voltage drop",
    );
    assertEquals([panel.breaker, panel.load], [undefined, amps(7)]);
    const only = answered("voltage drop to a 60 amp panel 140 ft away, 240 V, 6 AWG copper");
    assertEquals(figure(only, "voltage-drop-volts"), 2 * 60 * 0.49 * 140 / 1000);
    assert(only.assumptions.some(({ name }) => name === "load"));
  });
  it("metres become feet exactly", () => {
    const answer = answered("voltage drop 20 A 240 V 60 m 10 AWG copper");
    const metres = unit(60, "m").toNumber("ft");
    assertAlmostEquals(figure(answer, "voltage-drop-volts") as number, 2 * 20 * 1.2 * metres / 1000, 1e-9);
  });
});

describe("two loads of one run", () => {
  it("are asked where they stand", () => {
    const outcome = ask("voltage drop of 16 A and 20 A at 240 V over 100 ft of 10 AWG copper");
    assert(outcome.outcome === "unclear");
    assertEquals(outcome.needs.map(({ ask }) => ask), [
      "Several loads are named (16 A, 20 A). Where along the run is each?",
    ]);
  });
});
