/** Numbers as typed and as dictated. The longest reading is the only one, and none is half a number. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { numberAt } from "../../src/reading/numbers.ts";
import { tokenize } from "../../src/reading/tokens.ts";

const IN_DIGITS: [string, number][] = [
  ["48", 48],
  ["2,400", 2400],
  ["12,000", 12000],
  [".5", 0.5],
  ["14.1", 14.1],
  ["1/2", 0.5],
  ["7-1/2", 7.5],
  ["7 1/2", 7.5],
  ["1-1/4", 1.25],
  ["½", 0.5],
  ["7½", 7.5],
  ["3 dozen", 36],
  ["2.4 thousand", 2400],
  ["5 and a half", 5.5],
];
const IN_WORDS: [string, number][] = [
  ["seven", 7],
  ["forty-eight", 48],
  ["sixty two", 62],
  ["a hundred fifty", 150],
  ["a hundred and fifty", 150],
  ["one hundred twenty", 120],
  ["two oh eight", 208],
  ["one oh five", 105],
  ["two forty", 240],
  ["four eighty", 480],
  ["one twenty", 120],
  ["one ten", 110],
  ["two seventy seven", 277],
  ["four sixty", 460],
  ["six hundred", 600],
  ["fifteen hundred", 1500],
  ["twenty two hundred", 2200],
  ["two thousand two hundred", 2200],
  ["two thousand four hundred", 2400],
  ["a thousand", 1000],
  ["seven and a half", 7.5],
  ["one and a half", 1.5],
  ["four point five", 4.5],
  ["half a", 0.5],
  ["three quarters", 0.75],
  ["a dozen", 12],
  ["a couple of", 2],
  ["doscientos", 200],
];

describe("a number", () => {
  for (const [text, n] of [...IN_DIGITS, ...IN_WORDS]) {
    it(`${text} is ${n}, all of it`, () => {
      const tokens = tokenize(text);
      const read = numberAt(tokens, 0);
      assertEquals([read?.n, read?.next], [n, tokens.length]);
    });
  }
  for (const text of ["200/200", "240/120", "1/0", "208Y"]) {
    it(`${text} is no fraction: it ends before the mark`, () => assertEquals(numberAt(tokenize(text), 0)?.next, 1));
  }
  for (
    const [text, n, next] of [["four eighty three phase", 480, 2], ["forty three pole", 40, 1], [
      "quarter inch",
      0.25,
      1,
    ]] as const
  ) {
    it(`${text} is ${n} of what follows`, () => {
      const read = numberAt(tokenize(text), 0);
      assertEquals([read?.n, read?.next], [n, next]);
    });
  }
  for (const text of ["half gone", "third floor", "a range", "oh well", "point", "and a half", "the"]) {
    it(`${text} begins none`, () => assertEquals(numberAt(tokenize(text), 0), undefined));
  }
});
