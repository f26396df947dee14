import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { exampleFiles, FOLDER } from "../src/tools/examples.ts";
import { engine } from "./support/engine.ts";

type Example = {
  request: unknown;
  answer: { figures: Record<string, { value: unknown; unit: string }>; verdict?: string };
};
/** What an example is for: what was asked, as read, and what came of it. Its steps are recomputed in the replay test. */
const said = (text: string) => {
  const { request, answer: { figures, verdict } } = JSON.parse(text) as Example;
  return {
    request,
    verdict,
    figures: Object.fromEntries(Object.entries(figures).map(([id, { value, unit }]) => [id, `${value} ${unit}`])),
  };
};

describe("the whole-job examples", () => {
  const kept = (name: string) => Deno.readTextFileSync(new URL(name, FOLDER));
  for (const [name, contents] of Object.entries(exampleFiles(engine))) {
    it(`${name} says what the engine answers now (\`deno task examples\` writes it anew)`, () => {
      if (name.endsWith(".txt")) assertEquals(kept(name), contents);
      else assertEquals(said(kept(name)), said(contents));
    });
  }
});
