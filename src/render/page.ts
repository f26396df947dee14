/** Lays an answer out once; text, markdown and HTML all print the same page. Nothing is computed here. */
import { print, refs } from "../core/formula.ts";
import type { Account, Expr, Verified } from "../core/worked.ts";
import { printBriefly, printValue } from "../core/print.ts";
import type { Assumption, Step, StepId, Verdict, WorkedAnswer } from "../core/worked.ts";

/** One step as a reader sees it: symbols = numbers = result, and where the book says so. */
export type Row = {
  id: StepId;
  kind: Step["kind"];
  name: string;
  /** The formula by the names of its steps; empty where nothing is computed. */
  symbols: string;
  /** The same formula by the values of its steps. */
  numbers: string;
  result: string;
  cite: string;
  note: string;
  /** The weakest check among the book's values on this line; absent when each stands in two sources. */
  weak?: Exclude<Verified, "two sources">;
  /** How many formulas lie between this line and a figure of the answer: 0 is a figure, Infinity leads to none. */
  depth: number;
};
export type Part = { heading: string; rows: Row[]; aside: boolean };
/** A part of the record that is kept of a job; what is empty is left to fill. */
type RecordPart = { heading: string; rows: RecordRow[]; isList: boolean };
type RecordRow = { what: string; wanted: string; found: string; verdict: string };
/** @property cite the section its step rests on; empty where it is a sum of others */
type KeyFigure = { id: string; name: string; value: string; step: StepId; cite: string };
export type Page = {
  kind: string;
  title: string;
  asked: string;
  edition: string;
  editionTitle: string;
  headline: string;
  verdict?: { is: Verdict; because: string };
  figures: KeyFigure[];
  parts: Part[];
  assumptions: readonly Assumption[];
  cautions: { text: string; cite: string }[];
  record: RecordPart[];
  /** The request in plain words. */
  restated: string;
  readAs: readonly string[];
  /** Words that were set aside, with why. */
  setAside: readonly { text: string; because: string }[];
  /** Words that nothing read: told before anything else. */
  unused: readonly string[];
  /** Why, or by which sections, where that was asked. */
  explanation: string;
  account?: Account;
  /** The weakest check among the values that the figures rest on. */
  weak?: Row["weak"];
  followUps: readonly string[];
  notice: string;
  link: string;
};

export function layOut(answer: WorkedAnswer): Page {
  const steps = new Map(answer.steps.map((step) => [step.id, step]));
  const depths = depthsOf(answer);
  const row = (step: Step): Row => {
    const weak = weakest([step, ...stepsUsed(step).map((id) => steps.get(id)!).filter((s) => s.kind === "looked up")]);
    return {
      id: step.id,
      kind: step.kind,
      name: step.name,
      ...formulaOf(step, (id) => steps.get(id)!),
      result: printValue(step.value),
      cite: step.cite?.section ?? "",
      note: step.kind === "assumed" ? step.because : step.note ?? "",
      ...(weak && { weak }),
      depth: depths.get(step.id) ?? Infinity,
    };
  };
  const parts: Part[] = [];
  for (const step of answer.steps) {
    if (parts.at(-1)?.heading !== step.part) {
      parts.push({ heading: step.part, rows: [], aside: answer.asides.includes(step.part) });
    }
    parts.at(-1)!.rows.push(row(step));
  }
  const grades = parts.flatMap(({ rows }) => rows).flatMap(({ weak, depth }) => weak && depth < Infinity ? [weak] : []);
  const weak = grades.includes("from memory") ? "from memory" : grades[0];
  return {
    kind: answer.kind,
    title: answer.title,
    asked: answer.asked ?? "",
    edition: answer.edition,
    editionTitle: answer.editionTitle,
    headline: answer.headline,
    ...(answer.verdict && { verdict: { is: answer.verdict, because: answer.verdictBecause ?? "" } }),
    figures: Object.entries(answer.figures).map(([id, figure]) => ({
      id,
      name: figure.name,
      // Printed from the step it points at, so that no digit differs from the step's own.
      value: printBriefly(steps.get(figure.step)!.value),
      step: figure.step,
      cite: steps.get(figure.step)!.cite?.section ?? "",
    })),
    parts,
    assumptions: answer.assumptions,
    cautions: answer.cautions.map(({ text, cite }) => ({ text, cite: cite?.section ?? "" })),
    record: recordOf(answer, (id) => printValue(steps.get(id)!.value)),
    restated: answer.restated,
    readAs: answer.readAs,
    setAside: (answer.account?.setAside ?? []).map(({ text, because }) => ({ text: text.trim(), because })),
    explanation: answer.explanation ?? "",
    ...(answer.account && { account: answer.account }),
    ...(weak && { weak }),
    unused: answer.unused.map(({ text }) => text.trim()).filter((text) => text !== ""),
    followUps: answer.followUps,
    notice: answer.notice,
    link: answer.link,
  };
}

function recordOf({ record = [] }: WorkedAnswer, valueOf: (id: StepId) => string): RecordPart[] {
  const parts: RecordPart[] = [];
  for (const { part, what, wanted, found, verdict, isList = false } of record) {
    if (parts.at(-1)?.heading !== part) parts.push({ heading: part, rows: [], isList });
    parts.at(-1)!.rows.push({
      what,
      wanted: wanted ? valueOf(wanted) : "",
      found: found ? valueOf(found) : "",
      verdict: verdict ?? "",
    });
  }
  return parts;
}

/** The steps whose values a step's formula, key or test is made of. */
function stepsUsed(step: Step): StepId[] {
  switch (step.kind) {
    case "worked":
      return refs(step.formula);
    case "chosen":
      return [...refs(step.test.left), ...refs(step.test.right)];
    case "looked up":
      return step.key ? refs(step.key) : [];
    default:
      return [];
  }
}

/** How far each step lies from the nearest figure. A step only uses earlier ones, so one pass backwards finds them all. */
function depthsOf({ steps, figures }: WorkedAnswer): ReadonlyMap<StepId, number> {
  const depths = new Map<StepId, number>(Object.values(figures).map(({ step }) => [step, 0]));
  for (const step of steps.toReversed()) {
    const below = depths.get(step.id);
    if (below === undefined) continue;
    for (const id of stepsUsed(step)) depths.set(id, Math.min(depths.get(id) ?? Infinity, below + 1));
  }
  return depths;
}

function formulaOf(step: Step, find: (id: StepId) => Step): Pick<Row, "symbols" | "numbers"> {
  const both = (text: (name: (id: StepId) => string) => string) => ({
    symbols: text((id) => find(id).name),
    numbers: text((id) => printValue(find(id).value)),
  });
  switch (step.kind) {
    case "worked":
      return both((name) => print(step.formula, name));
    case "chosen":
      return both((name) => `${print(step.test.left, name)} ${relation(step)} ${print(step.test.right, name)}`);
    case "looked up":
      return step.key ? both((name) => keyWords(step, print(step.key as Expr, name))) : { symbols: "", numbers: "" };
    default:
      return { symbols: "", numbers: "" };
  }
}

const OPPOSITE = { "<": "≥", "≤": ">", ">": "≤", "≥": "<", "=": "≠" } as const;
/** How the two sides of a test came to stand: a test that did not hold shows what holds instead. */
const relation = ({ test, held }: Extract<Step, { kind: "chosen" }>): string => held ? test.is : OPPOSITE[test.is];

/** How a table was entered, in words: a search says from which side it came. */
const keyWords = (step: Extract<Step, { kind: "looked up" }>, key: string): string =>
  ({ exact: `for ${key}`, "up to": `for ${key}`, "at least": `at least ${key}`, "at most": `at most ${key}` })[step.by];

function weakest(steps: readonly Step[]): Row["weak"] {
  const grades = steps.map((step) => step.cite?.verified);
  return grades.includes("from memory") ? "from memory" : grades.includes("one source") ? "one source" : undefined;
}
