/** Slips of one letter are mended; everyday words never are, however near they lie to a word of the trade. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { mendSlips } from "../src/reading/mend.ts";
import { tokenize } from "../src/reading/tokens.ts";

const mend = (word: string): string => mendSlips(tokenize(word)).tokens.map(({ text }) => text).join(" ");
const everyday = Deno.readTextFileSync(new URL("../src/reading/lexicon/everyday-words.txt", import.meta.url))
  .split("\n").filter((line) => !line.startsWith("#")).join(" ").split(" ").filter((word) => word !== "");

describe("mending", () => {
  it("leaves everyday words alone", () => {
    assertEquals(everyday.filter((word) => mend(word) !== word).map((word) => `${word} → ${mend(word)}`), []);
  });

  it("mends a letter dropped, doubled, changed or swapped", () => {
    const slips = {
      dryr: "dryer",
      dryeer: "dryer",
      rnage: "range",
      cooktpo: "cooktop",
      watter: "water",
      heatre: "heater",
      tankles: "tankless",
      furnce: "furnace",
      dishwahser: "dishwasher",
      dispsal: "disposal",
      aluminim: "aluminum",
      baseboad: "baseboard",
      optionel: "optional",
      suplemental: "supplemental",
    };
    assertEquals(Object.keys(slips).map(mend), Object.values(slips));
  });

  it("leaves a word with two letters wrong, a short one, and one near to two", () => {
    for (const word of ["drzzr", "fna", "moter"]) assertEquals(mend(word), word);
  });

  it("leaves the plural of a word it knows", () => assertEquals(mend("dryers"), "dryers"));
});
