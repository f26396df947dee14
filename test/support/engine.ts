/** The engine as the service runs it, for tests: the project's own tables, all questions. */
import { readEditions, type TableFiles } from "../../src/editions/read.ts";
import type { Outcome } from "../../src/outcomes.ts";
import type { WorkedAnswer } from "../../src/core/worked.ts";
import { makeEngine, type Request } from "../../src/engine.ts";
import { questions } from "../../src/questions/all.ts";
import { declined } from "../../src/questions/declined.ts";
import { readTableFiles } from "../../src/read-tables.ts";

export let tableFiles = readTableFiles(new URL("../../tables", import.meta.url));
export let editions = readEditions(tableFiles);
/** The four editions of the code, without the locality overlays. */
export const EDITIONS = [...editions.values()].filter((edition) => edition.over === undefined).map(({ id }) => id);
export let engine = makeEngine(questions, editions, declined);

/** Goes on over other tables. For `deno task nudge`, which asks what the tests notice of a changed one. */
export function useTables(files: TableFiles): void {
  tableFiles = files;
  editions = readEditions(files);
  engine = makeEngine(questions, editions, declined);
}

type Options = { edition?: string; after?: Request };

/** Asks by text, or by request where an object is given. */
export function ask(asked: string | Request, options: Options = {}): Outcome {
  return typeof asked === "string" ? engine.ask(asked, options) : engine.answer(asked, options);
}

/** The answer. Fails the test, with the outcome, when there is none. */
export function answered(asked: string | Request, options: Options = {}): WorkedAnswer {
  const outcome = ask(asked, options);
  if (outcome.outcome !== "answered") throw new Error(`not answered: ${JSON.stringify(outcome)}`);
  return outcome.answer;
}

/** What a figure says. Fails the test when the answer has no such figure. */
export function figure(answer: WorkedAnswer, id: string): number | string {
  const found = answer.figures[id];
  if (!found) throw new Error(`no figure "${id}" among ${Object.keys(answer.figures).join(", ")}`);
  return found.value;
}
