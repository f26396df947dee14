/** Whatever is typed, reading ends, throws nothing, and what it shows back is in the text. */
import fc from "fast-check";
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { type Handed, threadSchema } from "../src/conversation/thread.ts";
import { LONGEST_QUESTION } from "../src/engine.ts";
import { engine } from "./support/engine.ts";
import { GLUE, glue, oddText as question, piece, PIECES } from "./support/odd-text.ts";
import { sound } from "./support/sound.ts";

function reads(asked: string): void {
  const outcome = engine.ask(asked);
  sound(outcome, asked);
  if (outcome.outcome === "not covered") return;
  const account = outcome.outcome === "answered" ? outcome.answer.account! : undefined;
  for (const { at, text } of [...account?.taken ?? [], ...account?.setAside ?? [], ...account?.unread ?? []]) {
    if (!asked.startsWith(text, at)) throw new Error(`"${text}" is not at ${at} of "${asked}"`);
  }
  const unread = account?.unread ?? [];
  assert(unread.every(({ at }, i) => i === 0 || at >= unread[i - 1]!.at), "spans stand in the order of the text");
}

describe("any text", () => {
  it("of pieces of questions is read to its end", () => {
    fc.assert(fc.property(question, reads), { numRuns: 150 });
  });
  it("of any characters is read to its end", () => {
    fc.assert(fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), reads), { numRuns: 100 });
  });
  it("of one piece over and over, as long as a question may be, is read to its end", () => {
    fc.assert(
      fc.property(piece, glue, (one, between) => {
        const asked = `${one}${between}`.repeat(LONGEST_QUESTION).slice(0, LONGEST_QUESTION);
        reads(asked);
        reads(`2000 sq ft, 12 kW range ${asked}`.slice(0, LONGEST_QUESTION));
      }),
      { numRuns: 10 },
    );
  });
  it("of every piece again and again is read to its end: no pattern tries every way of splitting it", () => {
    // Long enough that a pattern with two ways to match one blank would not come back.
    for (const one of PIECES) for (const between of GLUE) reads(`${one}${between}`.repeat(300).slice(0, 300));
  });
  it("gives the same outcome each time", () => {
    fc.assert(fc.property(question, (asked) => assertEquals(engine.ask(asked), engine.ask(asked))), { numRuns: 40 });
  });
  it("in a conversation ends in an outcome, and its thread is one that may be handed back", () => {
    fc.assert(
      fc.property(fc.array(question, { minLength: 2, maxLength: 4 }), (texts) => {
        let thread: Handed | undefined;
        for (const asked of texts) {
          const outcome = engine.ask(asked, thread ? { after: thread } : {});
          if (outcome.thread === undefined) continue;
          thread = JSON.parse(JSON.stringify(outcome.thread)) as Handed;
          threadSchema.parse(thread);
        }
      }),
      { numRuns: 150 },
    );
  });
});
