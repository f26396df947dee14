/**
 * What the reader makes of the way people write. The cases of `corpus/` are in our own words; each says what must be
 * read, asked back, or left to another kind of question. A case's `flags` name what it is about.
 */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Outcome } from "../src/outcomes.ts";
import type { WorkedAnswer } from "../src/core/worked.ts";
import type { Draft } from "../src/reading/facts.ts";
import { engine } from "./support/engine.ts";

type Case = {
  asks: string[];
  flags: string[];
  /** An earlier request that the text changes. */
  after?: { kind: string } & Draft;
  edition?: string;
  /** The whole request, or … */
  request?: Draft;
  /** What is asked about a request that was read in full, and cannot be answered without it. */
  needs?: string[];
  /** … the fields that must be asked about, or … */
  unclear?: string[];
  /** … the kind that takes the text instead; none where no kind does. */
  otherKind?: string;
  /** What must be shown back as not used; where absent, no figure may be left over. */
  unused?: string[];
};
type Corpus = { kind: string; cases: Case[] };

const folder = new URL("corpus/", import.meta.url);
const corpora = [...Deno.readDirSync(folder)].map(({ name }) => name).sort()
  .map((name) => JSON.parse(Deno.readTextFileSync(new URL(name, folder))) as Corpus);
const kinds = new Set(engine.questions.map(({ id }) => id));

/** Asks as the service does, kinds that are declined included; after an earlier request where one is told. */
const outcomeOf = (asked: string, { after }: Case): Outcome => engine.ask(asked, after ? { after } : {});

const kindOf = (outcome: Outcome): string =>
  outcome.outcome === "answered"
    ? outcome.answer.kind
    : outcome.outcome === "unclear"
    ? String((outcome.understood as Draft).kind ?? "")
    : "";
const fieldsOf = (outcome: Outcome): string[] =>
  outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : [];
/** What an answer says, whatever it was asked by. */
const said = ({ figures, verdict }: WorkedAnswer) => ({
  verdict,
  figures: Object.fromEntries(Object.entries(figures).map(([id, { value, unit }]) => [id, `${value} ${unit}`])),
});

function check(kind: string, asked: string, one: Case): void {
  const outcome = outcomeOf(asked, one);
  if (one.otherKind !== undefined) return assertEquals(kindOf(outcome), one.otherKind);
  const ends = (as: Outcome["outcome"]) => {
    if (outcome.outcome !== as) throw new Error(`not ${as}: ${JSON.stringify(outcome).slice(0, 500)}`);
  };
  if (one.unclear) return ends("unclear");
  const wanted = engine.answer({ kind, ...one.request }, one.edition === undefined ? {} : { edition: one.edition });
  if (wanted.outcome !== "answered") {
    ends(wanted.outcome);
    return assertEquals(fieldsOf(outcome), fieldsOf(wanted));
  }
  ends("answered");
  if (outcome.outcome !== "answered") return;
  assertEquals(outcome.answer.kind, kind);
  assertEquals(said(outcome.answer), said(wanted.answer), outcome.answer.restated);
  if (one.edition !== undefined) assertEquals(outcome.answer.edition, one.edition);
  assertEquals(outcome.answer.unused.filter(({ text }) => /\d/.test(text)), []);
}

for (const { kind, cases } of corpora) {
  describe(`reading ${kind}`, () => {
    for (const one of cases) {
      // A kind that is not there yet takes no text.
      if (one.otherKind && !kinds.has(one.otherKind)) continue;
      for (const asked of one.asks) {
        const after = one.after ? " (after an earlier question)" : "";
        it(`${one.flags.join(", ")}: ${asked}${after}`, () => check(kind, asked, one));
      }
    }
  });
}

describe("what is restated", () => {
  for (const { kind, cases } of corpora) {
    it(`asks for the same again: ${kind}`, () => {
      for (const { request, edition } of cases) {
        const options = edition === undefined ? {} : { edition };
        const first = request ? engine.answer({ kind, ...request }, options) : undefined;
        if (first?.outcome !== "answered") continue;
        const again = engine.ask(first.answer.restated, options);
        assertEquals(again.outcome, "answered", first.answer.restated);
        if (again.outcome !== "answered") continue;
        assertEquals(again.answer.kind, kind, first.answer.restated);
        assertEquals(said(again.answer), said(first.answer), again.answer.restated);
      }
    });
  }
});

describe("the corpus", () => {
  it("says of every case what must come of it, once", () => {
    for (const { cases } of corpora) {
      for (const { asks, request, unclear, otherKind } of cases) {
        assertEquals([request, unclear, otherKind].filter((outcome) => outcome !== undefined).length, 1, asks[0]);
      }
    }
  });
  it("asks nothing twice", () => {
    for (const { cases } of corpora) {
      const asked = cases.flatMap(({ asks, after }) => asks.map((text) => `${text} ${JSON.stringify(after ?? "")}`));
      assert(new Set(asked).size === asked.length);
    }
  });
});
