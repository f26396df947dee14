import { unit as mathUnit } from "mathjs";
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals, assertThrows } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { ConductorSize } from "../src/core/conductor-size.ts";
import { printBriefly, printNumber, printValue } from "../src/core/print.ts";
import { convert, exact, squareRoot, toNumber, type Unit } from "../src/core/quantity.ts";

describe("exact numbers", () => {
  it("read decimals, fractions and exponents, and nothing else", () => {
    assertEquals(["0.35", "2800/3", "1e3", "-2.5"].map((n) => exact(n).toFraction()), [
      "7/20",
      "2800/3",
      "1000",
      "-5/2",
    ]);
    for (const bad of ["", "NaN", "Infinity", "1/0", "1,000", "0x10", "1_000", "2 400"]) {
      assertThrows(() => exact(bad), RangeError);
    }
    assertThrows(() => exact(NaN), RangeError);
    assertThrows(() => exact(Infinity), RangeError);
  });
  it("become the nearest floating-point number, however long they are", () => {
    for (const n of ["0.1", "1e-308", "1e300", "-2.5e-300", "0"]) {
      assertAlmostEquals(toNumber(exact(n)), Number(n), Math.abs(Number(n)) * 1e-12);
    }
    assertAlmostEquals(toNumber(exact("1e400").div(exact("3e400"))), 1 / 3, 1e-15);
    assertAlmostEquals(toNumber(exact("1e400").add(1).div(exact("1e399"))), 10, 1e-12);
  });
  it("take roots exactly where there is a root", () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 1, max: 9999 }), (a, b) => {
      const root = exact(`${a}/${b}`);
      assertEquals(squareRoot(root.mul(root)).toFraction(), root.toFraction());
    }));
    assertThrows(() => squareRoot(exact("-1")), RangeError);
  });
});

// mathjs' own units are the independent reference.
const PAIRS: [Unit, Unit, string, string][] = [
  ["m", "ft", "m", "ft"],
  ["m2", "ft2", "m2", "sqft"],
  ["yd", "ft", "yard", "ft"],
  ["in", "ft", "inch", "ft"],
  ["in3", "in3", "cuin", "cuin"],
  ["kW", "W", "kW", "W"],
  ["kVA", "VA", "kVA", "VA"],
  ["kV", "V", "kV", "V"],
  ["lbf-ft", "lbf-in", "lbf ft", "lbf inch"],
  ["N-m", "lbf-in", "N m", "lbf inch"],
];
describe("conversions", () => {
  for (const [from, to, theirFrom, theirTo] of PAIRS.filter(([, , a]) => a !== "kVA")) {
    it(`${from} to ${to} as mathjs has it`, () => {
      const ours = exact(convert({ n: "7/2", unit: from }, to).n).valueOf();
      assertAlmostEquals(ours, mathUnit(3.5, theirFrom).toNumber(theirTo), 1e-9);
    });
  }
  it("never turn watts into volt-amperes", () => {
    assertThrows(() => convert({ n: "1", unit: "kW" }, "VA"), TypeError);
  });
  it("come back exactly", () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 1e6 }), (n) => {
      const there = convert({ n: String(n), unit: "m2" }, "ft2");
      assertEquals(convert(there, "m2").n, String(n));
    }));
  });
});

describe("printed numbers", () => {
  it("are whole when whole, exact to four decimals, and four significant digits otherwise", () => {
    const cases = {
      "18600": "18,600",
      "60.625": "60.625",
      "1/3": "0.3333",
      "2800/3": "933.33",
      "1/7000": "0.0001429",
      "-5/2": "−2.5",
      "0": "0",
      "1234567": "1,234,567",
    };
    for (const [n, printed] of Object.entries(cases)) assertEquals(printNumber(n), printed);
  });
  it("carry the trade's own units", () => {
    assertEquals(printValue({ n: "3", unit: "VA/ft2" }), "3 VA/ft²");
    assertEquals(printValue({ n: "7/20", unit: "1" }), "0.35");
    assertEquals(printValue({ word: "4/0" }), "4/0 AWG");
    assertEquals(printValue({ word: "250 kcmil" }), "250 kcmil");
  });
  it("are short where they are said", () => {
    assertEquals(
      ["152992/5", "12749/100", "2.222", "100"].map((n) => printBriefly({ n: exact(n).toFraction(), unit: "A" })),
      ["30,598 A", "127.5 A", "2.22 A", "100 A"],
    );
  });
  it("are within half a step of the last place", () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 1e7 }), fc.integer({ min: 1, max: 1e4 }), (a, b) => {
      const printed = Number(printNumber(`${a}/${b}`).replaceAll(",", ""));
      assert(Math.abs(printed - a / b) <= Math.max(0.005, (a / b) * 0.0005) + 1e-12, `${a}/${b} printed ${printed}`);
    }));
  });
});

describe("a conductor size", () => {
  it("says itself what it is, and is its name in JSON", () => {
    assertEquals(["14", "4", "1/0", "4/0", "250 kcmil"].map((name) => `${ConductorSize.of(name)}`), [
      "14 AWG",
      "4 AWG",
      "1/0 AWG",
      "4/0 AWG",
      "250 kcmil",
    ]);
    assertEquals(JSON.stringify({ size: ConductorSize.of("2/0") }), '{"size":"2/0"}');
  });
  it("is the same value wherever it was named", () => {
    assert(ConductorSize.of("4/0") === ConductorSize.of("4/0"));
    assert(ConductorSize.of("4") !== ConductorSize.of("4/0"));
  });
  it("is no other word", () => {
    for (const word of ["copper", "5/0", "1/2 in", "", "4 AWG"]) assertThrows(() => ConductorSize.of(word), TypeError);
  });
});
