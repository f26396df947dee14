/** Why an answer is as it is, or where the book says so: told from its own steps. */
import { printValue } from "../core/print.ts";
import type { Step, WorkedAnswer } from "../core/worked.ts";

const cited = ({ cite }: Step): string => cite ? ` [${cite.section}]` : "";

/** @param sections whether only the sections are asked for */
export function explain(answer: WorkedAnswer, sections: boolean): string {
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
