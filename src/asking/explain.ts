/** Why an answer is as it is, or where the book says so: told from its own steps. */
import { printValue } from "../core/print.ts";
import type { Step, WorkedAnswer } from "../core/worked.ts";

/** Steps that are named for a figure: the first that have it. */
const MOST_STEPS = 4;

const cited = ({ cite }: Step): string => cite ? ` [${cite.section}]` : "";

/** Whether a number stands in a step: as its value, in what it was worked out from, or in its note. */
const holds = (step: Step, n: number): boolean => {
  const digits = `${printValue(step.value)} ${JSON.stringify(step)}`.replaceAll(",", "").match(/\d+(?:\.\d+)?/g) ?? [];
  return digits.some((each) => Math.abs(Number(each) - n) <= 0.0005 * n || Math.abs(Number(each) * 100 - n) < 1e-6);
};

/**
 * @param sections whether only the sections are asked for
 * @param asked figures that the question is about
 */
export function explain(answer: WorkedAnswer, sections: boolean, asked: readonly number[] = []): string {
  const about = answer.steps.filter((step) => asked.some((n) => holds(step, n)));
  if (!sections && asked.length > 0) {
    const parts = about.slice(0, MOST_STEPS).map((step) =>
      `${step.name} ${printValue(step.value)}${cited(step)}${step.note ? ` (${step.note})` : ""}`
    );
    const missing = asked.filter((n) => !answer.steps.some((step) => holds(step, n)));
    const lacking = missing.length > 0 ? `No step of this answer has ${missing.join(" or ")}. ` : "";
    if (parts.length > 0) return `${lacking}${asked.join(", ")} stands in these steps: ${parts.join("; ")}.`;
    return lacking + explain(answer, false);
  }
  const steps = Object.values(answer.figures).flatMap(({ step }) => answer.steps.filter(({ id }) => id === step));
  const seen = [...new Map(steps.map((step) => [step.id, step])).values()];
  if (sections) {
    const lines = seen.flatMap((step) => step.cite ? [`${step.name}: ${step.cite.section}, ${step.cite.title}`] : []);
    const others = answer.steps.flatMap((step) => step.cite && !seen.includes(step) ? [step.cite.section] : []);
    return [...lines, ...(others.length > 0 ? [`also ${[...new Set(others)].join(", ")}`] : [])].join("; ") +
      `. All by the ${answer.editionTitle}.`;
  }
  const parts = seen.map((step) =>
    `${step.name} ${printValue(step.value)}${cited(step)}${step.note ? ` (${step.note})` : ""}`
  );
  return `It comes from these steps: ${parts.join("; ")}. Each is shown with its formula below.`;
}
