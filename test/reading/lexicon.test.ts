/** Every spelling of the lexicon, in the singular, in the plural and in one word, is found where it stands in a text. */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Lexicon } from "../../src/reading/lexicon/entry.ts";
import { isKnown, isTerm, SORTS, termAt } from "../../src/reading/lexicon/lexicon.ts";
import { tokenize } from "../../src/reading/tokens.ts";

const termsOf = (text: string): string[] => {
  const tokens = tokenize(text);
  const found = termAt(tokens, 0);
  return found?.next === tokens.length ? found.terms.map(({ sort, id }) => `${sort}:${id}`) : [];
};

describe("the lexicon", () => {
  it("finds every spelling that an entry has", () => {
    for (const [sort, entries] of Object.entries(SORTS)) {
      for (const [id, { says = [], short = [] }] of Object.entries(entries as Lexicon)) {
        for (const spelling of [...says, ...short]) {
          assert(termsOf(spelling).includes(`${sort}:${id}`), `"${spelling}" is no ${sort}:${id}`);
        }
      }
    }
  });
  it("finds plurals, words joined by a hyphen and words written in one", () => {
    for (const text of ["dryers", "sub-panel", "subpanel", "subpanels", "wall ovens", "evses"]) {
      assert(termsOf(text).length > 0, text);
    }
    assertEquals(termsOf("subpanels"), termsOf("sub panel"));
    assertEquals(termsOf("dryers"), termsOf("dryer"));
  });
  it("leaves a number to the inches behind it", () => {
    const at = (text: string) => termAt(tokenize(text), 0);
    assertEquals([at("xhhw 2 wire")?.next, at("xhhw 2 inch emt")?.next, at("xhhw-2 inch emt")?.next], [2, 1, 3]);
    assertEquals(at("thwn 2 inches of pipe")?.terms.map(({ id }) => id), ["THWN"]);
  });
  it("takes the longest term, and knows the words of a longer one for themselves", () => {
    assert(isTerm("panel") && isKnown("mounted") && !isTerm("mounted") && !isKnown("zzyzx"));
    assertEquals(termAt(tokenize("wall mounted ovens and a range"), 0)?.next, 3);
    assertEquals(termAt(tokenize("zzyzx"), 0), undefined);
  });
});
