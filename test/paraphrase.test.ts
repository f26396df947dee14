/** Random requests in the words of the trade, read back: what the reader makes of the same facts however they are typed. */
import { assert, assertEquals, assertNotEquals, assertThrows } from "@std/assert";
import { afterAll, describe, it } from "@std/testing/bdd";
import { engine } from "./support/engine.ts";
import { AXES, type Axes, type Axis, LEVEL_NAMES, LEVELS } from "./support/wording/axes.ts";
import { FLOORS } from "./support/wording/floors.ts";
import { differences, KINDS, paraphrase, readBack, RESULTS, tally } from "./support/wording/wording.ts";

/** Texts of each kind and level, and the seed they are drawn from; `deno task paraphrase` asks as many as one likes. */
const TEXTS = 15;
const SEED = 2023;

describe("paraphrases", () => {
  const rates: string[] = [];
  afterAll(() => console.log(rates.join("\n")));

  for (const kind of KINDS) {
    for (const level of LEVEL_NAMES) {
      it(`${kind}, ${level}: not below its floor`, () => {
        const counts = tally(kind, level, { texts: TEXTS, seed: SEED });
        const said = RESULTS.map((result) => `${result} ${counts[result]}`).join(", ");
        rates.push(`${kind.padEnd(19)} ${level.padEnd(6)} ${said}`);
        const { leastSame, mostOther } = FLOORS[kind]![level];
        const how = `deno task paraphrase --kinds=${kind} --level=${level} --n=${TEXTS} --seed=${SEED} shows them`;
        assert(counts.same >= leastSame, `${said}; at least ${leastSame} the same are wanted: ${how}`);
        assert(counts.other <= mostOther, `${said}; at most ${mostOther} other answers are allowed: ${how}`);
      });
    }
  }

  it("cover every kind there is, each with a floor", () => {
    const kinds = engine.questions.map(({ id }) => id).filter((id) => !WORDLESS.has(id)).sort();
    assertEquals([...KINDS].sort(), kinds);
    assertEquals(Object.keys(FLOORS).sort(), kinds);
  });
});

/** Kinds that nobody who has not read the reader has put into words yet. */
const WORDLESS = new Set([
  "multifamily-load",
  "occupancy-load",
  "mobile-home-load",
  "park-load",
  "farm-load",
  "standby-load",
  "panel-schedule",
  "burial-and-support",
]);
const none = Object.fromEntries(AXES.map((axis) => [axis, 0])) as Axes;
/** Where all axes can be seen. */
const SOME = ["dwelling-load", "cooking-demand", "feeder", "motor-circuit", "transformer", "voltage-drop"];
const textsOf = (kinds: readonly string[], options: Parameters<typeof paraphrase>[2]) =>
  kinds.flatMap((kind) =>
    Array.from({ length: 6 }, (_, number) => paraphrase(kind, "plain", { ...options, number }).text)
  );

/** What a text shows where an axis is used, and never shows where none is. */
const SIGNS: Readonly<Partial<Record<Axis, RegExp>>> = {
  synonyms: /stove|water heater for|clothes dryer|#\d|sub panel/,
  abbreviations: /\b(xfmr|xformer|cu|al|alum|brkr|AC|3ph|SF)\b/i,
  glued: /\d(A|V|kW|ft|hp|kVA)\b/,
  unitSpelling: /\d (amps?|kw|KW|volts|feet|horse|horsepower|kva|kilowatts?)\b/,
  grouping: /\d,\d{3}/,
  fractions: /\b\d+[ -][13]\/[24]\b|\b[13]\/[24] hp/,
  numberWords:
    /\b(twelve|ten|five|twenty|thirty|forty|fifty|hundred) (amps?|volts?|kilowatts?|feet|foot|horsepower|hp)\b/,
  dictated: /\b(two oh eight|two forty|one twenty|four eighty|two thirty|four sixty|a hundred)\b/,
  counts: /\(\d+\)|\b\d+ ?x |\bx ?\d+\b| each\b/,
  separators: /;|\n| \/ /,
  goalLast: /\.\s[^.]*\?$/,
  noGoal: /^[^?]*$/,
  letterCase: /^([^a-z]*|[^A-Z]*)$/,
  parentheses: /\(/,
  carriedUnit: /all (in )?kW|^[^?]*\d, [\d., ]*and \d/,
  metric: /\d m\b|\d m²|°C ambient/,
  edition: /\b20(17|20|23|26)\b/,
  takenBack: /no wait|sorry|scratch that|make that|I mean/,
  story: /Thanks|lunch|1998|Friday|homeowner|\$/,
  labelLines: /\n/,
};

describe("the generator of paraphrases", () => {
  const bare = textsOf(SOME, { axes: none });

  it("writes the same texts of the same seed, others of another", () => {
    const written = (seed: number) => textsOf(["dwelling-load", "motor-circuit"], { seed, axes: LEVELS.post });
    assertEquals(written(5), written(5));
    assertNotEquals(written(5), written(6));
  });

  it("says the same requests at every level where nothing is metric and no edition is named", () => {
    for (const kind of KINDS) {
      const [plain, ...others] = LEVEL_NAMES.map((level) =>
        paraphrase(kind, level, { axes: { ...LEVELS[level], metric: 0, edition: 0 } }).request
      );
      for (const other of others) assertEquals(other, plain, kind);
    }
  });

  for (const [axis, sign] of Object.entries(SIGNS)) {
    it(`shows ${axis} where it is used, and only there`, () => {
      const varied = textsOf(SOME, { axes: { ...none, [axis]: 1 } });
      assert(varied.some((text) => sign.test(text)), `no text shows ${sign}:\n${varied.join("\n")}`);
      const shown = bare.find((text) => sign.test(text));
      assertEquals(shown, undefined);
    });
  }

  it("changes the order of the facts and none of their words", () => {
    const words = (text: string) => text.toLowerCase().match(/[^\s,.?]+/g)!.sort().join(" ");
    const moved = textsOf(SOME, { axes: { ...none, order: 1 } });
    assertNotEquals(moved, bare);
    assert(moved.some((text, i) => text !== bare[i] && words(text) === words(bare[i]!)));
  });

  it("leaves commas out", () => {
    const commas = (texts: readonly string[]) => texts.join("").split(",").length;
    assert(commas(textsOf(SOME, { axes: { ...none, noCommas: 1 } })) < commas(bare) / 3);
  });

  it("lets one letter slip", () => {
    const slipped = textsOf(SOME, { axes: { ...none, slips: 1 } });
    const changed = slipped.filter((text, i) => text !== bare[i]);
    assert(changed.length > slipped.length / 3);
    assert(slipped.every((text, i) => Math.abs(text.length - bare[i]!.length) <= 1));
  });

  it("has a sign or a check for every axis", () => {
    assertEquals([...Object.keys(SIGNS), "order", "noCommas", "slips"].sort(), [...AXES].sort());
  });

  it("writes plain sentences where no axis is used", () => {
    const { text, request } = paraphrase("dryer-demand", "plain", { axes: none });
    assert(/^Demand for .*dryers?.*\?$/.test(text), `${text}, of ${JSON.stringify(request)}`);
  });

  it("tells another answer from the same", () => {
    const one = paraphrase("dryer-demand", "plain", { axes: none });
    assertEquals(readBack({ text: "demand of 9 dryers 5.5 kW each", answer: one.answer }).result, "other");
    assertEquals(readBack({ text: "good morning", answer: one.answer }).result, "asked back");
    assertEquals(differences(one.answer, one.answer), []);
    assertEquals(differences(one.answer, { ...one.answer, verdict: "ok" }), ["verdict undefined, got ok"]);
    assertEquals(differences(one.answer, { ...one.answer, kind: "feeder" }), ["kind dryer-demand, got feeder"]);
  });

  it("refuses a kind it has no words for", () => {
    assertThrows(() => paraphrase("lightning", "plain"), RangeError, "no wording");
  });
});
