/**
 * Every answer can be recomputed from its own stored JSON, and a reader with a calculator reaches the printed result from
 * the printed numbers (mathjs is that reader).
 */
import { evaluate as mathEvaluate } from "mathjs";
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { evaluate, holds, print } from "../src/core/formula.ts";
import { printNumber, printValue } from "../src/core/print.ts";
import { convert, exact, inUnit, type Measure, measure, type Quantity } from "../src/core/quantity.ts";
import { SCHEMAS, type Step, type StepId, type WorkedAnswer } from "../src/core/worked.ts";
import { ask, EDITIONS, editions, engine } from "./support/engine.ts";

const answers = engine.questions.flatMap((question) =>
  question.examples.flatMap((example) =>
    EDITIONS.flatMap((edition) => {
      const outcome = ask(example, { edition });
      return outcome.outcome === "answered" ? [{ label: `${example} (${edition})`, answer: outcome.answer }] : [];
    })
  )
);

const stored = (answer: WorkedAnswer): WorkedAnswer => JSON.parse(JSON.stringify(answer));
const quantityOf = (step: Step): Quantity => {
  assert(!("word" in step.value), `${step.name} is a word`);
  return step.value;
};
const valuesOf = (answer: WorkedAnswer) => {
  const byId = new Map(answer.steps.map((step) => [step.id, step]));
  return { step: (id: StepId) => byId.get(id)!, measure: (id: StepId): Measure => measure(quantityOf(byId.get(id)!)) };
};

/** A printed value as a plain number in base units, as someone with a calculator and the unit's meaning has it. */
function asRead(quantity: Quantity): string {
  const printed = printNumber(quantity.n).replaceAll(",", "").replace("−", "-");
  const base = inBase({ n: exact(printed).toFraction(), unit: quantity.unit });
  return `(${base})`;
}
const inBase = (quantity: Quantity): string => measure(quantity).n.toFraction();
/** How far a printed number may lie from the exact one, relative to it. */
const roundingOf = (quantity: Quantity): number => {
  const value = Math.abs(exact(quantity.n).valueOf());
  const printed = Math.abs(Number(printNumber(quantity.n).replaceAll(",", "").replace("−", "-")));
  return value === 0 ? 0 : Math.abs(printed - value) / value;
};

describe("every worked answer", () => {
  it("exists for every question", () => {
    const kinds = new Set(answers.map(({ answer }) => answer.kind));
    assertEquals(engine.questions.map(({ id }) => id).filter((id) => !kinds.has(id)), []);
  });

  it("is all that its schema says, and nothing else", () => {
    for (const { label, answer } of answers) assertEquals(SCHEMAS.answer.parse(stored(answer)), stored(answer), label);
  });

  it("recomputes from its stored steps", () => {
    for (const { label, answer } of answers) {
      const kept = stored(answer);
      const { measure: valueOf } = valuesOf(kept);
      for (const step of kept.steps) {
        if (step.kind === "worked") {
          const again = inUnit(evaluate(step.formula, valueOf), quantityOf(step).unit);
          assertEquals(again.n, quantityOf(step).n, `${label}: ${step.id} ${step.name}`);
        } else if (step.kind === "chosen") {
          assertEquals(holds(step.test, valueOf), step.held, `${label}: ${step.id} ${step.name}`);
        }
      }
    }
  });

  it("looks up what stands in the tables", () => {
    for (const { label, answer } of answers) {
      const edition = editions.get(answer.edition)!;
      for (const step of answer.steps) {
        if (step.kind !== "looked up") continue;
        const where = `${label}: ${step.id} ${step.name}`;
        if (step.table === "constants") {
          const { value } = edition.constant(step.row);
          assertEquals(
            "word" in step.value ? step.value.word : step.value.n,
            "word" in step.value ? String(value) : exact(value).toFraction(),
            where,
          );
          continue;
        }
        const table = edition.table(step.table);
        const row = table.data.rows.find((each) => String(each[0]) === step.row);
        assert(row, where);
        const cell = table.cell(row, step.column);
        assertEquals(
          "word" in step.value ? step.value.word : step.value.n,
          "word" in step.value ? String(cell) : exact(cell!).toFraction(),
          where,
        );
      }
    }
  });

  it("reaches each printed result from the printed numbers", () => {
    for (const { label, answer } of answers) {
      const { step: stepOf } = valuesOf(answer);
      for (const step of answer.steps) {
        if (step.kind !== "worked") continue;
        let slack = roundingOf(quantityOf(step));
        const printed = print(step.formula, (id) => {
          slack += roundingOf(quantityOf(stepOf(id)));
          return asRead(quantityOf(stepOf(id)));
        });
        const plain = printed.replaceAll("×", "*").replaceAll("÷", "/").replaceAll("−", "-")
          .replaceAll("smaller of(", "min(").replaceAll("larger of(", "max(").replaceAll("round up(", "ceil(")
          .replaceAll("round down(", "floor(").replaceAll("size of(", "abs(").replaceAll("√(", "sqrt(").replaceAll(
            "round(",
            "halfUp(",
          );
        const theirs = mathEvaluate(plain, { halfUp: (x: number) => Math.floor(x + 0.5) }) as number;
        const ours = exact(inBase(convert(quantityOf(step), quantityOf(step).unit))).valueOf();
        // Differences of nearly equal numbers magnify what printing dropped; a hundredfold is still below what is printed.
        const allowed = Math.abs(ours) * slack * 100 + 1e-9;
        assert(
          Math.abs(theirs - ours) <= allowed,
          `${label}: ${step.id} ${step.name}: ${printed} gives ${theirs}, shown ${printValue(step.value)}`,
        );
      }
    }
  });

  it("points its figures at steps that say the same", () => {
    for (const { label, answer } of answers) {
      const { step } = valuesOf(answer);
      for (const [id, figure] of Object.entries(answer.figures)) {
        const { value } = step(figure.step);
        assertEquals(figure.value, "word" in value ? value.word : exact(value.n).valueOf(), `${label}: ${id}`);
      }
    }
  });

  it("gives only figures that its question announces", () => {
    for (const { label, answer } of answers) {
      const announced = engine.questions.find(({ id }) => id === answer.kind)!.figures;
      assertEquals(Object.keys(answer.figures).filter((id) => !(id in announced)), [], label);
    }
  });
});
