/**
 * What the reader makes of the way people write. The cases of `corpus/` are in our own words; each says what must be
 * read, asked back, or left to another kind of question. A case's `flags` name what it is about.
 */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { makeReader } from "../src/text/parse.ts";
import type { Draft } from "../src/text/phrases.ts";
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
const read = makeReader(engine.questions);
const kinds = new Set(engine.questions.map(({ id }) => id));

function readAfter(asked: string, after: Case["after"]) {
  if (!after) return read(asked);
  const { kind, ...request } = after;
  return read(asked, { kind, request });
}

function check(kind: string, asked: string, one: Case): void {
  const parsed = readAfter(asked, one.after);
  if (one.otherKind !== undefined) {
    assertEquals(parsed.question?.id ?? "", one.otherKind);
    return;
  }
  if (!parsed.question) {
    assertEquals(parsed.needs.map(({ field }) => field), one.unclear, parsed.needs[0]?.ask);
    return;
  }
  assertEquals(parsed.question.id, kind);
  if (one.unclear) {
    assertEquals(parsed.asks.map(({ field }) => field), one.unclear);
    return;
  }
  assertEquals({ ...parsed.draft }, one.request);
  assertEquals(parsed.asks, []);
  if (one.needs) {
    const outcome = engine.ask(asked);
    assertEquals(outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : [], one.needs);
  }
  if (one.edition !== undefined) assertEquals(parsed.edition, one.edition);
  const spans = parsed.unused.map(({ text }) => text);
  if (one.unused) assertEquals(spans, one.unused);
  else assertEquals(spans.filter((text) => /\d/.test(text)), []);
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
