/** Slips of one letter are mended; everyday words never are, however near they lie to a word of the trade. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { makeMender } from "../src/text/mend.ts";
import { vocabulary } from "../src/text/phrases.ts";
import { engine } from "./support/engine.ts";

const mend = makeMender(vocabulary(engine.questions.flatMap((q) => [...q.phrases, ...q.cues])));
const everyday = Deno.readTextFileSync(new URL("support/everyday-words.txt", import.meta.url))
  .split("\n").filter((line) => !line.startsWith("#")).join(" ").split(" ").filter((word) => word !== "");

describe("mending", () => {
  it("leaves everyday words alone (add a word that is listed here to src/text/words.ts)", () => {
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
    const two = makeMender(new Set(["motor", "rotor"]));
    assertEquals(["drzzr", "ragne2", "fna"].map(mend), ["drzzr", "ragne2", "fna"]);
    assertEquals(two("potor"), "potor");
  });

  it("leaves the plural of a word it knows", () => {
    const one = makeMender(new Set(["dryer"]));
    assertEquals(one("dryers"), "dryers");
  });
});
