/** Whatever is typed, reading ends, throws nothing, and what it shows back is in the text. */
import fc from "fast-check";
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { LONGEST_QUESTION } from "../src/engine.ts";
import { makeReader } from "../src/text/parse.ts";
import { engine } from "./support/engine.ts";

const read = makeReader(engine.questions);

/** Pieces of questions, and of things that are none: put together in any order they try every phrase. */
const PIECES = [
  ..."2400 sq ft|12 kW|range|dryer|two|no|gas|AC|24 A|240 V|and|with|@|(|)|,|;|+|/|\n|.|-|'|\"|°|½|1/2|hp|heat pump|strips|can run together"
    .split("|"),
  ..."is|enough|the|a|of|each|total|service|breaker|120/240|208Y/120|three phase|#6|4/0|12/2|copper|AL|ufer|220.82|2020 code|NEC"
    .split("|"),
  ..."‹0 kW›|‹|›|·|JT955|2475N7.5|15.95kW - 12kW = 3.95kW|1.75|0|000|999999999999|1e9|-5 kW|∞|NaN|null|<b>|🏠|ﬁ|א"
    .split("|"),
];
const GLUE = [" ", "", ", ", " - ", "\n"];
const piece = fc.constantFrom(...PIECES);
const glue = fc.constantFrom(...GLUE);
const question = fc.array(fc.tuple(piece, glue), { maxLength: 40 }).map((parts) => parts.flat().join(""));

function reads(asked: string): void {
  const parsed = read(asked);
  const spans = parsed.unused;
  for (const { at, text } of spans) assert(asked.slice(at).startsWith(text), `"${text}" is not at ${at} of "${asked}"`);
  assert(spans.every(({ at }, i) => i === 0 || at >= spans[i - 1]!.at), "spans stand in the order of the text");
  const outcome = engine.ask(asked);
  assert(["answered", "unclear", "not covered"].includes(outcome.outcome));
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
  it("as an amendment keeps what was asked before, unless it says otherwise", () => {
    const first = read("2000 sq ft house, 12 kW range, 5 kW dryer");
    assert(first.question);
    const request = first.draft;
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 60 }), (asked) => {
        const parsed = read(asked, { kind: "dwelling-load", request });
        if (parsed.question && parsed.question.id === "dwelling-load" && !/\d|[a-z]/i.test(asked)) {
          assertEquals(parsed.draft, request);
        }
      }),
      { numRuns: 200 },
    );
  });
});
