/**
 * Works the whole-job cases of `examples/cases.json` out anew, each as text, request and answer:
 *
 *     deno task examples
 *
 * A test holds the files against what the engine says now, so a change that alters an answer shows itself in the diff.
 */
import * as z from "zod";
import { readEditions } from "../editions/read.ts";
import { type Engine, makeEngine } from "../engine.ts";
import { questions } from "../questions/all.ts";
import { declined } from "../questions/declined.ts";
import { readTableFiles } from "../read-tables.ts";
import { printOutcome } from "../render/outcome.ts";
import { text } from "../render/text.ts";

const cases = z.record(z.string(), z.strictObject({ title: z.string(), edition: z.string(), asks: z.string() }));
export const FOLDER = new URL("../../examples/", import.meta.url);

/** The files of every case by name, as they should stand. @throws Error when a case is not answered. */
export function exampleFiles(engine: Engine): Record<string, string> {
  const listed = cases.parse(JSON.parse(Deno.readTextFileSync(new URL("cases.json", FOLDER))));
  return Object.fromEntries(
    Object.entries(listed).flatMap(([name, { title, edition, asks }]) => {
      const outcome = engine.ask(asks, { edition });
      if (outcome.outcome !== "answered") {
        throw new Error(`example "${name}" is not answered: ${JSON.stringify(outcome)}`);
      }
      const { request, ...answer } = outcome.answer;
      return [
        [`${name}.json`, JSON.stringify({ title, asks, edition, request, answer }, null, 1) + "\n"],
        [`${name}.txt`, `${asks}\n\n${printOutcome(outcome, text(""))}`],
      ];
    }),
  );
}

if (import.meta.main) {
  const engine = makeEngine(questions, readEditions(readTableFiles()), declined);
  for (const [name, contents] of Object.entries(exampleFiles(engine))) {
    Deno.writeTextFileSync(new URL(name, FOLDER), contents);
  }
}
