/** The worksheet's own promises: a handle is of one step of one sheet, and what is struck out was never written. */
import { assertEquals, assertThrows } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { calc } from "../src/core/formula.ts";
import { Worksheet } from "../src/core/worksheet.ts";
import { editions } from "./support/engine.ts";

const sheet = () => new Worksheet(editions.get("2023")!);
const amperes = (w: Worksheet, n: number) => w.given("current", { n: String(n), unit: "A" });

describe("a worksheet", () => {
  it("numbers the steps that stand, without gaps, in every place that names one", () => {
    const w = sheet();
    w.scratch(() => amperes(w, 1));
    const [a, b] = [amperes(w, 16), w.constant<"%">("continuous-load-factor")];
    const design = w.work("design current", "A", calc`${a} × ${b}`);
    w.scratch(() => amperes(w, 2));
    w.choose("enough", [design, "≤", a], ["yes", () => {}], ["no", () => {}]);
    w.figure("load-current", design);
    w.enter("current", a, design);
    const { steps, figures, record } = w.finish();
    assertEquals(steps.map(({ id }) => id), ["s1", "s2", "s3", "s4"]);
    const [, , worked, chosen] = steps;
    assertEquals(worked?.kind === "worked" && worked.formula, { op: "×", args: [{ ref: "s1" }, { ref: "s2" }] });
    assertEquals(chosen?.kind === "chosen" && chosen.test, { left: { ref: "s3" }, is: "≤", right: { ref: "s1" } });
    assertEquals(figures["load-current"]!.step, "s3");
    assertEquals([record![0]!.wanted, record![0]!.found], ["s1", "s3"]);
  });

  it("never takes a struck-out step for the one that came after it", () => {
    const w = sheet();
    const struck = w.scratch(() => amperes(w, 20));
    const standing = amperes(w, 30);
    assertEquals(w.value(standing), { n: "30", unit: "A" });
    for (
      const use of [
        () => w.value(struck),
        () => w.measure(struck),
        () => w.work("twice", "A", calc`${struck} × 2`),
        () => w.holds(struck, "<", standing),
        () => w.figure("load-current", struck),
        () => w.say`${struck}`,
      ]
    ) assertThrows(use, TypeError, "struck out");
  });

  it("takes no handle of another sheet", () => {
    const foreign = amperes(sheet(), 30);
    const w = sheet();
    const own = amperes(w, 20);
    assertThrows(() => w.work("both", "A", calc`${own} + ${foreign}`), TypeError, "another sheet");
    assertThrows(() => w.value(foreign), TypeError, "another sheet");
  });

  it("strikes out all that a failed attempt wrote, its heading too", () => {
    const w = sheet();
    w.part("Before");
    const write = (n: number) => {
      w.part("Attempt");
      const step = amperes(w, n);
      w.figure("load-current", step);
      w.caution(`tried ${n}`);
      w.enter(`entered ${n}`, step);
      w.suggest(`${n} A`);
      w.aside(`aside ${n}`);
    };
    w.first([1], (n) => void write(n));
    w.scratch(() => write(2));
    assertThrows(() =>
      w.scratch(() => {
        write(3);
        throw new RangeError("and ends badly");
      }), RangeError);
    amperes(w, 4);
    const { steps, cautions, figures, followUps, asides, record } = w.finish();
    assertEquals(steps.map(({ part, value }) => [part, value]), [["Before", { n: "4", unit: "A" }]]);
    assertEquals([cautions, figures, followUps, asides, record], [[], {}, [], [], undefined]);
  });
});
