/** What is printed: every form tells the same answer, short enough where it must be, and nothing is computed in printing. */
import { assert, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { WorkedAnswer } from "../src/core/worked.ts";
import { NOTICE, SHORT_NOTICE } from "../src/outcomes.ts";
import { card } from "../src/render/card.tsx";
import { markdown } from "../src/render/markdown.ts";
import { printOutcome } from "../src/render/outcome.ts";
import { firstLine, thoughts } from "../src/render/glance.ts";
import { layOut } from "../src/render/page.ts";
import { numberBox, piecesOf, stretches, unitOf } from "../src/render/pieces.ts";
import type { Place } from "../src/render/place.ts";
import { brief, text } from "../src/render/text.ts";
import { ask, EDITIONS, engine } from "./support/engine.ts";
import { KINDS, paraphrase } from "./support/wording/wording.ts";

const ORIGIN = "https://sizing.example";
const place: Place = { action: "/answer", origin: ORIGIN, edition: "2023", id: "", after: ["what was asked"] };
const answers = engine.questions.flatMap(({ examples }) =>
  examples.flatMap((example) =>
    EDITIONS.flatMap((edition) => {
      const outcome = ask(example, { edition });
      return outcome.outcome === "answered" ? [{ label: `${example} (${edition})`, answer: outcome.answer }] : [];
    })
  )
);
const printed = (answer: WorkedAnswer) => {
  const outcome = { outcome: "answered", answer } as const;
  return {
    text: printOutcome(outcome, text(ORIGIN)),
    brief: printOutcome(outcome, brief(ORIGIN)),
    markdown: printOutcome(outcome, markdown(ORIGIN)),
    html: String(printOutcome(outcome, card(place))),
  };
};
const count = (whole: string, part: string) => whole.split(part).length - 1;

/** An answer of one part, for what the questions at hand may not show. */
const sample: WorkedAnswer = {
  format: "worked-answer/1",
  kind: "sample",
  title: "Sample",
  edition: "2023",
  editionTitle: "the 2023 edition",
  headline: "Load 600 VA.",
  figures: { "load": { value: 600, unit: "VA", name: "load", step: "s4" } },
  asides: ["Other way"],
  steps: [
    { kind: "given", id: "s1", part: "Load", name: "first", value: { n: "100", unit: "VA" } },
    {
      kind: "looked up",
      id: "s2",
      part: "Load",
      name: "second",
      value: { n: "200", unit: "VA" },
      cite: { section: "1.1", title: "invented", verified: "from memory" },
      table: "constants",
      column: "value",
      row: "second",
      by: "exact",
    },
    {
      kind: "worked",
      id: "s3",
      part: "Load",
      name: "both",
      value: { n: "300", unit: "VA" },
      formula: { op: "+", args: [{ ref: "s1" }, { ref: "s2" }] },
    },
    {
      kind: "worked",
      id: "s4",
      part: "Load",
      name: "twice",
      value: { n: "600", unit: "VA" },
      formula: { op: "×", args: [{ lit: "2" }, { ref: "s3" }] },
    },
    {
      kind: "worked",
      id: "s5",
      part: "Other way",
      name: "on the way",
      value: { n: "400", unit: "VA" },
      formula: { op: "+", args: [{ ref: "s1" }, { ref: "s3" }] },
    },
    {
      kind: "worked",
      id: "s6",
      part: "Other way",
      name: "the other way",
      value: { n: "700", unit: "VA" },
      formula: { op: "+", args: [{ ref: "s3" }, { ref: "s5" }] },
    },
    { kind: "given", id: "s7", part: "Conductor", name: "size", value: { word: "4" } },
  ],
  assumptions: [],
  cautions: [],
  readAs: [],
  unused: [],
  restated: "a load of 10 A",
  followUps: [],
  request: { kind: "sample" },
  notice: "Check.",
  link: "/answer?q=sample&edition=2023",
};

describe("a laid out page", () => {
  const rows = layOut(sample).parts.flatMap((part) => part.rows);
  const row = (id: string) => rows.find((each) => each.id === id)!;

  it("shows symbols and numbers of one and the same formula", () => {
    assertEquals([row("s3").symbols, row("s3").numbers, row("s3").result], [
      "first + second",
      "100 VA + 200 VA",
      "300 VA",
    ]);
  });
  it("marks a step by the weakest value that went into it", () => {
    assertEquals([row("s2").weak, row("s3").weak, row("s4").weak], ["from memory", "from memory", undefined]);
  });
  it("says what a bare size is", () => assertEquals(row("s7").result, "4 AWG"));
});

describe("chat text", () => {
  const lines = text(ORIGIN).answered(layOut(sample)).split("\n");

  it("starts with the answer", () => assertEquals(lines[0], "Load 600 VA."));
  it("says the request, the edition and the figures before the steps", () => {
    const whole = lines.join("\n");
    assertStringIncludes(whole, "\nAs read: a load of 10 A\nCode: 2023 (");
    assertStringIncludes(whole, "\n\nFigures\n- load: 600 VA\n\nWorksheet\n1. ");
  });
  it("leaves out what stands in the formulas, and of a part aside all but its last line", () => {
    const steps = lines.join("\n").replaceAll("\n   ", " ").split("\n").filter((line) => /^\d+\./.test(line));
    assertEquals(steps, [
      "1. both: 100 + 200 = 300 VA (from memory)",
      "2. twice: 2 × 300 VA = 600 VA",
      "3. the other way: 300 + 400 = 700 VA",
    ]);
  });
});

/** Fails on chat text that a phone does not show at a glance, and on a brief text without what must be in one. */
function fitsAPhone(answer: WorkedAnswer): void {
  const { text, brief } = printed(answer);
  assert(text.startsWith(`${answer.headline}\n`));
  assert(text.length < 3000, `${text.length} characters:\n${text}`);
  const worksheet = text.split("\n\n").filter((block) => block.startsWith("Worksheet\n")).join("\n").split("\n");
  assert(worksheet.length <= 30, `${worksheet.length} lines of steps`);
  assertEquals(worksheet.filter((line) => line.length > 40), []);

  assert(brief.length <= 400, `${brief.length} characters:\n${brief}`);
  const [first, ...rest] = brief.split("\n");
  const told = first!.split(/ …(?: |$)/);
  assert(answer.headline.startsWith(told[0]!), brief);
  for (const part of told) assertStringIncludes(answer.headline, part, brief);
  assert(first!.length >= Math.min(answer.headline.length, 100), first);
  // A verdict's own sentence may fill a glance; the sizes follow it all the same.
  const size = /\d+(\/0)? (AWG|kcmil)/.exec(answer.headline)?.[0];
  if (size !== undefined) assertStringIncludes(first!, size);
  if (answer.assumptions.length > 0) {
    assertStringIncludes(rest.join("\n"), `Taken as: ${answer.assumptions[0]!.name}: `);
  }
  assertStringIncludes(brief, SHORT_NOTICE);
  assertEquals(brief.includes("from memory"), layOut(answer).weak === "from memory");
}

const DRAWN = 12;
for (const kind of KINDS) {
  it(`random requests of ${kind} fit a phone and say their sizes in brief`, () => {
    for (let number = 0; number < DRAWN; number++) {
      const { request } = paraphrase(kind, "plain", { seed: 11, number });
      for (const edition of EDITIONS) {
        const outcome = ask(request, { edition });
        if (outcome.outcome === "answered") fitsAPhone(outcome.answer);
      }
    }
  });
}

describe("what stands largest", () => {
  const laidOut = (headline: string, because?: string) =>
    firstLine(layOut({ ...sample, headline, ...(because && { verdict: "ok", verdictBecause: because }) }));

  it("is what a verdict leads, or else the verdict's own words", () => {
    assertEquals(laidOut("OK: it fits. 4 AWG copper.", "it fits"), { first: "4 AWG copper.", rest: "", isTold: true });
    assertEquals(laidOut("OK: it fits.", "it fits"), { first: "OK: it fits.", rest: "", isTold: false });
  });
  it("parts behind a sentence, else behind a thought, and never within brackets", () => {
    const long = "and a good deal more that nobody takes in at a glance however often they read it on a phone";
    assertEquals(laidOut(`A service of 150 A, with 1 AWG of copper. Then ${long}.`).rest, `Then ${long}.`);
    assertEquals(
      laidOut(`4 AWG (2, if aluminum), ground 8 AWG; ${long}`).first,
      "4 AWG (2, if aluminum), ground 8 AWG",
    );
    assertEquals(laidOut("Held within 3 ft of a box, and every 10 ft").rest, "");
  });
  it("ends no sentence at a unit", () => {
    assertEquals(thoughts("18 in. Cover; so. Then").map(({ end }) => end), [13, 17]);
  });
});

describe("every example", () => {
  it("is answered somewhere", () => assert(answers.length > 0));

  for (const { label, answer } of answers) {
    it(`${label}: fits a phone and leads with the answer`, () => {
      fitsAPhone(answer);
      const { text } = printed(answer);
      for (const { text: caution } of answer.cautions) assertStringIncludes(text, caution);
      for (const { change } of answer.assumptions) assertStringIncludes(text, change);
      for (const { name, value } of layOut(answer).figures) assertStringIncludes(text, `- ${name}: ${value}\n`);
      assertStringIncludes(text, `\nAs read: ${answer.restated}\n`);
      assertStringIncludes(text, ORIGIN + answer.link);
    });

    it(`${label}: carries the notice once in every form`, () => {
      const forms = printed(answer);
      assertEquals([count(forms.text, NOTICE), count(forms.markdown, NOTICE), count(forms.brief, SHORT_NOTICE)], [
        1,
        1,
        1,
      ]);
      // The card holds the chat text, too.
      assertEquals(count(forms.html, NOTICE), 2);
    });

    it(`${label}: the long forms show every step with its section`, () => {
      const { html, markdown } = printed(answer);
      for (const row of layOut(answer).parts.flatMap((part) => part.rows)) {
        assertStringIncludes(html, `id="${row.id}"`);
        assertStringIncludes(markdown, `\n- ${row.id} `);
        if (row.cite !== "") assertStringIncludes(html, `<cite>${row.cite}</cite>`);
      }
    });

    it(`${label}: a value from memory is said to be`, () => {
      const forms = printed(answer);
      const weak = layOut(answer).parts.flatMap(({ rows }) => rows).some((row) => row.weak === "from memory");
      assertEquals(forms.html.includes("<mark>from memory</mark>"), weak);
      assertEquals(forms.markdown.includes("from memory"), weak);
    });
  }
});

describe("questions back and refusals", () => {
  const unclear = ask("hm");
  const declined = ask(engine.questions[0]!.examples[0]!, { edition: "1896" });

  it("ask with an example, in every form", () => {
    assert(unclear.outcome === "unclear");
    const { ask: asks, example } = unclear.needs[0]!;
    for (const form of [text(ORIGIN), brief(ORIGIN)]) {
      assertStringIncludes(printOutcome(unclear, form), asks);
      assertStringIncludes(printOutcome(unclear, form), `For example: ${example}`);
    }
    assertStringIncludes(String(printOutcome(unclear, card(place))), `placeholder="`);
  });
  it("say why something is not covered", () => {
    assertStringIncludes(printOutcome(declined, text(ORIGIN)), "1896");
    assertStringIncludes(printOutcome(declined, markdown(ORIGIN)), "1896");
    assertStringIncludes(String(printOutcome(declined, card(place))), "Nothing is guessed");
  });
});

describe("the pieces of a restated request", () => {
  const restated = "dwelling load; 2,400 sq ft; 12 kW range; 48 A EV charger";
  const taken = [
    { at: 0, text: "12 kW", as: "rating" },
    { at: 6, text: "oven range", as: "range" },
    { at: 20, text: "48A", as: "current" },
    { at: 24, text: "chargers", as: "ev-charger" },
  ];
  const pieces = piecesOf(restated, { taken });

  it("part at commas, semicolons and colons, but not within a number", () => {
    assertEquals(pieces.map(({ text }) => text), ["dwelling load", "2,400 sq ft", "12 kW range", "48 A EV charger"]);
    assertEquals(piecesOf("feeder: 100 A, ok?").map(({ text }) => text), ["feeder", "100 A", "ok?"]);
  });
  it("leave a gap where each stood", () => {
    assertEquals(pieces[2]!.words, "dwelling load; 2,400 sq ft; …; 48 A EV charger");
    for (const { text, words } of pieces) assertEquals(words.replace("…", text), restated);
  });
  it("lead to the asked words they came from", () => {
    assertEquals(pieces.map(({ from }) => from.map(({ at }) => at)), [[], [], [0, 6], [20, 24]]);
  });
});

describe("the asked text", () => {
  const account = {
    taken: [{ at: 0, text: "10 hp", as: "power" }],
    setAside: [{ at: 12, text: "blue", because: "no colour counts" }],
    unread: [{ at: 6, text: "frobs" }],
  };
  it("is told in stretches that add up to it", () => {
    const asked = "10 hp frobs blue pump";
    const found = stretches(asked, account);
    assertEquals(found.map(({ text }) => text).join(""), asked);
    assertEquals(found.filter(({ is }) => is !== "plain").map(({ is, text }) => [is, text]), [
      ["taken", "10 hp"],
      ["unread", "frobs"],
      ["set aside", "blue"],
    ]);
  });
  it("is left as it is where the account is of another text", () => {
    assertEquals(stretches("make it aluminum", account), [{ text: "make it aluminum", at: 0, is: "plain", why: "" }]);
  });
});

describe("boxes", () => {
  it("take a number where the words that change it have one", () => {
    assertEquals(numberBox("load 60 A"), { before: "load", after: "A", words: "load … A" });
    assertEquals(numberBox("power factor 0.85"), { before: "power factor", after: "", words: "power factor …" });
    assertEquals([numberBox("120/208 V"), numberBox("aluminum")], [undefined, undefined]);
  });
  it("show the unit that a bare number stands for", () => {
    assertEquals(["12 A", "240 V single phase", "350 ft one way", "on a 100 A breaker"].map(unitOf), [
      "A",
      "V",
      "ft",
      "A",
    ]);
    assertEquals(["208Y/120 V", "make it aluminum", "4/0 AWG"].map(unitOf), ["", "", ""]);
  });
});
