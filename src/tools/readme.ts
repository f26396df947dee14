/**
 * Writes the parts of the README that the code knows better than a writer: what can be asked, and an answer.
 *
 *     deno task examples
 */
import { readEditions } from "../editions/read.ts";
import { type Engine, makeEngine } from "../engine.ts";
import { questions } from "../questions/all.ts";
import { declined } from "../questions/declined.ts";
import { readTableFiles } from "../read-tables.ts";
import { printOutcome } from "../render/outcome.ts";
import { text } from "../render/text.ts";

export const README = new URL("../../README.md", import.meta.url);
/** The question the README answers, a slip of the keyboard included. */
const ASKED = "2400 sq ft, 12 kW range, 5 kW dryer, 4.5 kW water heater, dishwasher 1.2 kW, disposer 1/2 hp, " +
  "4 ton AC 24 A, 48 A EV charger, what servise?";

/** @param readme the README as it stands. @returns it with its generated parts made anew. */
export function withParts(readme: string, engine: Engine): string {
  const asked = engine.questions.map(({ title, about, examples }) => `- **${title}**: ${about}\n  “${examples[0]}”`);
  const answer = printOutcome(engine.ask(ASKED), text("http://127.0.0.1:8000"));
  return put(put(readme, "questions", asked.join("\n")), "answer", `> ${ASKED}\n\n\`\`\`text\n${answer}\`\`\``);
}

function put(readme: string, part: string, contents: string): string {
  const [open, close] = [`<!-- ${part} -->`, `<!-- end of ${part} -->`];
  const [before, rest] = readme.split(open);
  const after = rest?.split(close)[1];
  if (after === undefined) throw new Error(`README.md has no place for "${part}": put ${open} and ${close} into it`);
  return `${before}${open}\n\n${contents}\n\n${close}${after}`;
}

if (import.meta.main) {
  const engine = makeEngine(questions, readEditions(readTableFiles()), declined);
  Deno.writeTextFileSync(README, withParts(Deno.readTextFileSync(README), engine));
}
