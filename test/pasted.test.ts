/** Text that the service printed, pasted back: the same figures again, and what of it no longer holds. */
import { assert, assertEquals, assertMatch, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { readPasted, withPasted } from "../src/app/pasted.ts";
import { printOutcome } from "../src/render/outcome.ts";
import { brief, text } from "../src/render/text.ts";
import { EDITIONS, engine as plain } from "./support/engine.ts";

const ORIGIN = "https://sizing.example";
const engine = withPasted(plain);
const FEEDER = "garage subpanel 150 ft, 100 amp, aluminum ok?";

function answered(asked: string) {
  const outcome = engine.ask(asked);
  assert(outcome.outcome === "answered", `${asked}: ${JSON.stringify(outcome)}`);
  return outcome.answer;
}
function printed(asked: string, edition = "2023", form = text(ORIGIN)): string {
  return printOutcome(plain.ask(asked, { edition }), form);
}

describe("its own text pasted back", () => {
  for (const edition of EDITIONS) {
    for (const example of plain.questions.flatMap(({ examples }) => examples)) {
      const outcome = plain.ask(example, { edition });
      if (outcome.outcome !== "answered") continue;
      it(`${example} (${edition}) comes to the same figures, and says so`, () => {
        const again = answered(printOutcome(outcome, text(ORIGIN)));
        assertEquals([again.kind, again.edition, again.figures], [
          outcome.answer.kind,
          edition,
          outcome.answer.figures,
        ]);
        assertEquals(again.explanation, "Pasted back and worked out anew: unchanged.");
      });
    }
  }

  it("comes through what chats and mails do to it", () => {
    const whole = printed(FEEDER);
    const wrapped = whole.split("\n").map((line) => line.replace(/(.{50,70}) /g, "$1\n")).join("\n");
    const quoted = whole.split("\n").map((line) => `> ${line}`).join("\n");
    const straight = whole.replace(/[“”]/g, '"').replaceAll("\n\n", "\n \n");
    const greeted = `look at this for the garage\n${whole}`;
    for (const each of [wrapped, quoted, straight, greeted, whole.split("\n\n").slice(0, 2).join("\n\n")]) {
      assertMatch(answered(each).explanation!, /: unchanged\.$/, each);
    }
  });

  it("says which line differs, whatever was altered", () => {
    const whole = printed(FEEDER);
    const altered: [from: string, to: string, told: string][] = [
      ["ground 6 AWG", "ground 8 AWG", "ground 8 AWG aluminum"],
      ["- voltage drop: 6 V", "- voltage drop: 5 V", "“- voltage drop: 5 V” is now “- voltage drop: 6 V”"],
      ["- conduit: PVC", "- conduit: steel", "“- conduit: steel"],
      ["\n- neutral bond: isolated", "\n- neutral bond: bonded", "“- neutral bond: bonded” is now"],
      [
        "100 A panel",
        "60 A panel",
        "- design current: 100 A",
      ],
      ["Code: 2023", "Code: 2017", "National Electrical Code, 2023 edition"],
    ];
    for (const [from, to, told] of altered) {
      assertStringIncludes(whole, from);
      const { explanation } = answered(whole.replace(from, to));
      assertMatch(explanation!, /: it differs\. /, to);
      assertStringIncludes(explanation!, told);
    }
  });

  it("goes on from what was written beneath it", () => {
    const answer = answered(`${printed(FEEDER)}\nmake it copper`);
    assertEquals(answer.figures["breaker-rating"]?.value, 100);
    assertStringIncludes(answer.headline, "copper will do");
    assertStringIncludes(answer.explanation!, "“make it copper” was taken up");
    assertStringIncludes(answered(`${printed(FEEDER)}\nthanks`).explanation!, ": unchanged. “thanks” was left aside");
  });

  it("is known by its link, too, with the brief text or alone", () => {
    const short = printed("demand of 10 dryers 5.5 kW each", "2020", brief(ORIGIN));
    assertStringIncludes(short, "/answer?q=");
    assertMatch(answered(short).explanation!, /: unchanged\.$/);
    assertEquals(answered("https://other.example/answer?q=10+dryers+5.5+kW+each&edition=2020").edition, "2020");
  });

  it("is told from what only looks like it", () => {
    for (
      const asked of [
        FEEDER,
        "As read: nothing",
        "Code: 2023\nAs read: it",
        "see /answer?q=5+hp&edition=2023 and 3 more",
        "",
      ]
    ) {
      assertEquals(readPasted(asked), undefined, asked);
    }
  });
});
