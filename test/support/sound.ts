/** What holds of every outcome, whichever of the three it is. */
import { assert, assertEquals } from "@std/assert";
import { type Outcome, SCHEMAS } from "../../src/outcomes.ts";

/**
 * Fails the test where an outcome is not whole: one that its schema does not describe, a number that came to nothing in a sentence,
 * a figure that is none, an answer without a step or with a verdict without a reason, nothing to ask back or no example of how
 * to say it, nothing to say why it is not covered.
 * @param asked what it is an outcome of, whose own words may be shown back
 * @returns which of the three it is
 */
export function sound(outcome: Outcome, asked = ""): Outcome["outcome"] {
  const json = JSON.stringify(outcome);
  const [stored, shown] = [JSON.parse(json), json.slice(0, 300)];
  assertEquals(SCHEMAS.outcome.parse(stored), stored);
  const sentences = sentencesOf(outcome);
  assert(sentences.length > 0, shown);
  for (const each of sentences) {
    assert(each.trim() !== "", shown);
    const nothing = /\bNaN\b|\bundefined\b|\[object|\bInfinity\b/.exec(each)?.[0];
    assert(nothing === undefined || asked.includes(nothing), `“${each}”`);
  }
  if (outcome.outcome !== "answered") return outcome.outcome;
  const { figures, steps, verdict, verdictBecause, headline } = outcome.answer;
  assert(steps.length > 0, headline);
  assertEquals(verdict === undefined, verdictBecause === undefined, headline);
  for (const [id, { value }] of Object.entries(figures)) {
    assert(typeof value === "string" || Number.isFinite(value), `${id}: ${value}`);
  }
  return "answered";
}

function sentencesOf(outcome: Outcome): string[] {
  switch (outcome.outcome) {
    case "answered": {
      const { headline, restated, cautions, assumptions, followUps } = outcome.answer;
      const told = assumptions.flatMap(({ name, value, because, change }) => [name, value, because, change]);
      return [headline, restated, ...cautions.map(({ text }) => text), ...told, ...followUps];
    }
    case "unclear":
      return outcome.needs.flatMap(({ field, ask, example }) => [field, ask, example]);
    case "not covered":
      return [outcome.because];
  }
}
