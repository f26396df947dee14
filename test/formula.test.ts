import { evaluate as mathEvaluate } from "mathjs";
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals, assertThrows } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { calc, evaluate, holds, print, refs } from "../src/core/formula.ts";
import { exact, inUnit, measure, PLAIN, type Quantity, type Unit } from "../src/core/quantity.ts";
import type { Expr, Known, Sign, StepId } from "../src/core/worked.ts";

const known = (n: number, kind: Unit): Known => ({ name: `s${n}`, kind });
const [load, factor, area, unitLoad, volts] = [
  known(1, "A"),
  known(2, "1"),
  known(3, "ft2"),
  known(4, "VA/ft2"),
  known(5, "V"),
];
const VALUES: Record<string, Quantity> = {
  s1: { n: "100", unit: "A" },
  s2: { n: "11/10", unit: "1" },
  s3: { n: "1500", unit: "ft2" },
  s4: { n: "3", unit: "VA/ft2" },
  s5: { n: "240", unit: "V" },
  s6: { n: "3", unit: "1" },
};
const valueOf = ({ name }: Known) => measure(VALUES[name]!);

describe("a formula", () => {
  it("is exact: 100 × 1.1 does not pick the next breaker", () => {
    assert(100 * 1.1 > 110, "floating point is what it is");
    assertEquals(inUnit(evaluate(calc`${load} × ${factor}`, valueOf), "A").n, "110");
  });
  it("checks units: area by unit load comes to volt-amperes, and to nothing else", () => {
    const lighting = evaluate(calc`${area} × ${unitLoad}`, valueOf);
    assertEquals(inUnit(lighting, "VA").n, "4500");
    assertThrows(() => inUnit(lighting, "A"), TypeError, "cannot be stated in A");
    assertThrows(() => inUnit(lighting, "W"), TypeError);
  });
  it("refuses to add what does not go together, or to compare it", () => {
    assertThrows(() => evaluate(calc`${load} + ${volts}`, valueOf), TypeError);
    assertThrows(() => evaluate(calc`max(${load}, ${volts})`, valueOf), TypeError);
    assertThrows(() => holds({ left: { ref: load }, is: "<", right: { ref: volts } }, valueOf), TypeError);
  });
  it("holds no number of the code book", () => {
    assertThrows(() => calc`${load} × 1.25`, TypeError, "look it up");
    assertThrows(() => calc`${load} × 3`, TypeError);
    calc`2 × ${load} ÷ 100`;
  });
  it("lets through only the node kinds it knows", () => {
    assertThrows(() => calc`${load}^2`, TypeError);
    assertThrows(() => calc`zeros(${load})`, TypeError);
    assertThrows(() => calc`[${load}, 1]`, TypeError);
    assertThrows(() => calc`${load} = 2`, TypeError);
  });
  it("takes an exact root where there is one, and forty digits where not", () => {
    assertEquals(inUnit(evaluate(calc`sqrt(2 × 2)`, valueOf), "1").n, "2");
    const root = evaluate(calc`sqrt(${known(6, "1")})`, valueOf);
    assertAlmostEquals(root.n.valueOf(), Math.sqrt(3), 1e-15);
  });
  it("rounds on purpose only, half upward", () => {
    const half = calc`round(${load} × ${factor} ÷ (2 × 2 × 2))`; // 13.75
    assertEquals(evaluate(half, valueOf).n.toFraction(), "14");
    assertEquals(evaluate(calc`roundUp(${load} ÷ ${known(6, "1")})`, valueOf).n.toFraction(), "34");
  });
  it("prints brackets where they matter and nowhere else", () => {
    const name = ({ name }: Known) => name;
    assertEquals(print(calc`(${load} + ${load}) × ${factor}`, name), "(s1 + s1) × s2");
    assertEquals(print(calc`${load} + ${load} × ${factor}`, name), "s1 + s1 × s2");
    assertEquals(print(calc`${load} − (${load} − ${load})`, name), "s1 − (s1 − s1)");
    assertEquals(print(calc`${load} ÷ (${factor} × ${factor})`, name), "s1 ÷ (s2 × s2)");
    assertEquals(print(calc`sum(${[load, load]}) × ${factor}`, name), "(s1 + s1) × s2");
  });
  it("takes a list only in sum, min and max, and never an empty one", () => {
    assertThrows(() => calc`sum(${[]})`, TypeError);
    assertThrows(() => calc`${[load, load]} × ${factor}`, TypeError);
    assertEquals(calc`max(${[load]})`, { ref: load });
  });
});

const SIGNS: Sign[] = ["+", "−", "×", "÷"];
const plainNumber = fc.integer({ min: 1, max: 6 });
const tree: fc.Arbitrary<Expr> = fc.letrec<{ expr: Expr }>((tie) => ({
  expr: fc.oneof(
    { maxDepth: 4 },
    plainNumber.map((n): Expr => ({ ref: `s${n}` })),
    fc.tuple(fc.constantFrom(...SIGNS), tie("expr"), tie("expr")).map(([op, a, b]): Expr => ({ op, args: [a, b] })),
    fc.array(tie("expr"), { minLength: 1, maxLength: 3 }).map((args): Expr => ({ fn: "sum", args })),
  ),
})).expr;

describe("what is printed", () => {
  it("is what was computed: mathjs reaches the same from the printed text", () => {
    fc.assert(fc.property(tree, (expr) => {
      const value = (id: StepId) => ({ n: exact(Number(id.slice(1)) + 1), dimensions: PLAIN });
      const printed = print(expr, (id) => `${Number(id.slice(1)) + 1}`);
      let ours: number;
      try {
        ours = evaluate(expr, value).n.valueOf();
      } catch (error) {
        if (error instanceof RangeError) return; // division by zero
        throw error;
      }
      const theirs = mathEvaluate(printed.replaceAll("×", "*").replaceAll("÷", "/").replaceAll("−", "-")) as number;
      assertAlmostEquals(theirs, ours, Math.max(1e-9, Math.abs(ours) * 1e-9));
    }));
  });
  it("names every step it uses", () => {
    assertEquals(refs(calc`${load} × (${factor} + max(${factor}, 1))`), [load, factor, factor]);
  });
});
