/** PDFs, read back by another library than the one that makes them (unpdf, which is Mozilla's pdf.js). */
import { create as openFont } from "fontkit";
import { extractText, getDocumentProxy, getMeta } from "unpdf";
import regular from "@ibm/plex-sans-condensed/fonts/complete/woff/IBMPlexSansCondensed-Regular.woff" with {
  type: "bytes",
};
import { assert, assertEquals, assertRejects, assertStringIncludes } from "@std/assert";
import { makeApp } from "../src/app.ts";
import { makePress, type Press } from "../src/app/press.ts";
import { Problem } from "../src/app/problem.ts";
import { layOut } from "../src/render/page.ts";
import { pdfOf } from "../src/paper/pdf.ts";
import { printOutcome } from "../src/render/outcome.ts";
import { type Paper, paper, sheet, type Size, SIZES } from "../src/render/paper.ts";
import { sumOf, sumsOf } from "../src/render/sums.ts";
import { answered, ask, engine } from "./support/engine.ts";

const ORIGIN = "https://house.example";
const HOUSE = engine.questions[0]!.examples[0]!;
const LARGE =
  "3600 sq ft house with 1200 sq ft basement, 15 kW range, 6 kW dryer, two 5.5 kW water heaters, dishwasher " +
  "1.5 kW, disposer 3/4 hp, heat pump 32 A with 15 kW backup heat, AC 28 A, 48 A EV charger, 60 A hot tub, 1.5 hp pool " +
  "pump, 2 kW microwave, trash compactor 1/3 hp, 10 kW sauna, is a 400 A service enough?";
const SIX =
  "6 apartments of 850 sq ft, each with a 10 kW range, 4.5 kW water heater and 16 A AC; laundry room with 2 washers " +
  "1.2 kW and 2 dryers 5 kW; shop downstairs 9 kVA; 208Y/120 three phase, what service?";
const FEEDER = "100 A feeder 150 ft to a detached garage, aluminum in PVC, what size?";
const RECORD = "torque and continuity record of a main panel in a house";

const paperOf = (question: string, size: Size = "letter"): Paper | undefined =>
  paper(printOutcome(ask(question), sheet(ORIGIN, question)), size);
/** Without spaces, which end up elsewhere where a line is broken. */
const closed = (text: string) => text.replace(/[\s\u00a0]/g, "");

type Read = { bytes: Uint8Array; pages: string[]; text: string; info: Record<string, unknown>; sizes: number[][] };
async function read(bytes: Uint8Array): Promise<Read> {
  const document = await getDocumentProxy(bytes.slice());
  const { text: pages } = await extractText(document, { mergePages: false });
  const sizes = [];
  for (let i = 1; i <= pages.length; i++) sizes.push((await document.getPage(i)).view.slice(2));
  const { info } = await getMeta(document);
  await document.loadingTask.destroy();
  return { bytes, pages, text: pages.join("\n"), info, sizes };
}
const made = async (question: string, size?: Size): Promise<Read> => read(await pdfOf(paperOf(question, size)!));

Deno.test("a PDF has everything of the answer's page", async (t) => {
  for (const question of [HOUSE, LARGE, FEEDER]) {
    await t.step(question, async () => {
      const page = layOut(answered(question));
      const { text, pages, info } = await made(question);
      const found = closed(text);
      const wanted = [
        question,
        page.headline.slice(-30),
        page.restated,
        page.editionTitle,
        "Date: ____",
        page.notice,
        ORIGIN + page.link,
        ...page.figures.flatMap(({ name, value }) => [name, value]),
        ...page.assumptions.map(({ name, value }) => `${name}: ${value}`),
        ...page.cautions.flatMap(({ text, cite }) => [text, cite]),
        ...page.parts.flatMap(({ heading, rows }) => [
          heading,
          ...rows.flatMap((
            { id, name, numbers, result, cite, note },
          ) => [id.slice(1) + name, numbers, result, cite, note]),
        ]),
      ];
      assertEquals(wanted.filter((each) => !found.includes(closed(each))), []);
      pages.forEach((each, i) => assertStringIncludes(each, `${i + 1} of ${pages.length}`));
      assertStringIncludes(`${info.Title}`, page.headline.match(/\d+ A|\d\/0/)![0]);
      assertStringIncludes(`${info.Subject}`, page.editionTitle);
      assertEquals(info.CreationDate, undefined);
      assertEquals(info.Language, "en-US");
    });
  }
});

Deno.test("a dwelling takes two sheets, a large one a third, of either size", async () => {
  for (const [question, most] of [[HOUSE, 2], [LARGE, 3]] as const) {
    for (const [size, points] of [["letter", [612, 792]], ["a4", [595.28, 841.89]]] as const) {
      const { pages, sizes } = await made(question, size);
      assert(pages.length <= most, `${pages.length} sheets of ${size}`);
      assertEquals(sizes, pages.map(() => [...points]));
    }
  }
});

Deno.test("a brief one is one sheet that tells the load from line to line, in letters of 8 points or more", async () => {
  for (const question of [SIX, HOUSE, LARGE]) {
    for (const size of SIZES) {
      const page = layOut(answered(question));
      const bytes = await pdfOf({ ...paperOf(question, size)!, brief: true });
      const { pages } = await read(bytes);
      assertEquals(pages.length, 1);
      const found = closed(pages[0]!);
      const wanted = [
        page.headline.slice(-30),
        page.restated,
        page.notice,
        ...page.figures.flatMap(({ name, value, cite }) => [name, value, cite]),
        ...page.assumptions.map(({ name, value }) => `${name}: ${value}`),
        ...page.cautions.flatMap(({ text, cite }) => [text, cite]),
        ...sumsOf(page).filter(({ row, rank }) => rank <= 1 && row.kind === "worked" && row.result.endsWith(" VA"))
          .flatMap(({ row }) => [row.id.slice(1), sumOf(row), row.result, row.cite]),
      ];
      assertEquals(wanted.filter((each) => !found.includes(closed(each))), []);
      const document = await getDocumentProxy(bytes);
      const { items } = await (await document.getPage(1)).getTextContent();
      const smallest = Math.min(
        ...items.flatMap((item) => "str" in item && item.str.trim() ? [item.transform[3]] : []),
      );
      await document.loadingTask.destroy();
      assert(smallest >= 8, `${smallest} points`);
    }
  }
});

Deno.test("six units, a laundry and a shop on one sheet: each load is there with its section", async () => {
  // By hand: 850 ft² × 3 VA + 2 × 1,500 + 1,500 + 10,000 + 4,500 + 16 A × 208 V = 24,878 VA connected in each unit; six at 44 %
  // are 65,677.92 VA; with the house loads, 2 × 1,200 + 2 × 5,000, and the shop's 9,000 VA that is 87,077.92 VA.
  const { text } = await read(await pdfOf({ ...paperOf(SIX)!, brief: true }));
  const found = closed(text);
  for (
    const line of [
      "[220.41] 850 ft² × 3 VA/ft² = 2,550 VA",
      "16 A × 208 V = 3,328 VA",
      "[220.84] 6 × 24,878 VA = 149,268 VA",
      "149,268 VA × 44 % = 65,677.92 VA",
      "house loads in full 2,400 + 10,000 = 12,400 VA",
      "78,077.92 + 9,000 = 87,077.92 VA",
      "of 191 steps; all are behind the link",
    ]
  ) assertStringIncludes(found, closed(line));
});

Deno.test("steps stand in their order, each first one right behind its heading", async () => {
  const { parts } = layOut(answered(LARGE));
  const found = (await made(LARGE)).pages.map(closed).join("");
  const worksheet = found.slice(found.indexOf("Worksheet"));
  let at = 0;
  for (const { heading, rows } of parts) {
    for (const [i, { id, name }] of rows.entries()) {
      const line = closed(`${i === 0 ? heading : ""}${id.slice(1)}${name}`);
      const next = worksheet.indexOf(line, at);
      assert(next >= at, `${line} after ${worksheet.slice(at, at + 60)}`);
      at = next;
    }
  }
});

Deno.test("fonts are embedded, and have every sign that an answer is made of", async () => {
  const { bytes } = await made(HOUSE);
  const raw = new TextDecoder("latin1").decode(bytes);
  assertEquals(raw.match(/\/FontFile2/g)?.length, 2);
  assert(!/\/BaseFont \/(Helvetica|Times|Courier)/.test(raw));
  const font = openFont(regular) as unknown as { hasGlyphForCodePoint(point: number): boolean };
  const examples = engine.questions.flatMap(({ examples }) => examples);
  const signs = new Set([...JSON.stringify(examples.map((each) => paperOf(each)))]);
  for (const sign of "×÷²³√Ω°½≤≥Δ–−→…“”¹·") signs.add(sign);
  assertEquals([...signs].filter((sign) => !font.hasGlyphForCodePoint(sign.codePointAt(0)!)), []);
  const { text } = await read(
    await pdfOf({
      ...paperOf(FEEDER)!,
      sheets: [{ top: ["× ÷ ² ³ √ Ω ° ½ ≤ ≥ Δ – −"], worksheet: [], sums: [] }],
    }),
  );
  assertStringIncludes(text, "× ÷ ² ³ √ Ω ° ½ ≤ ≥ Δ – −");
});

Deno.test("the same answer is the same bytes", async () => {
  assertEquals(await pdfOf(paperOf(HOUSE)!), await pdfOf(paperOf(HOUSE)!));
});

Deno.test("a record is one sheet with what is wanted and room for what is found", async () => {
  const { record } = layOut(answered(RECORD));
  const { pages, text } = await made(RECORD);
  assertEquals(pages.length, 1);
  const rows = record.flatMap(({ heading, rows }) => [heading, ...rows.flatMap(({ what, wanted }) => [what + wanted])]);
  assertEquals(rows.filter((each) => !closed(text).includes(closed(each))), []);
  assert(!text.includes("Worksheet"));
});

Deno.test("an answer of every kind comes out", async () => {
  for (const { examples: [example] } of engine.questions) {
    const { text } = await made(example!);
    assertStringIncludes(closed(text), closed(layOut(answered(example!)).restated), example);
  }
});

Deno.test("a long question and a word without end keep within the sheets", async () => {
  const long = `${HOUSE} ${"and the inspector asked me to write all of this down once more. ".repeat(110)}`;
  const { text, pages } = await read(await pdfOf(paper(printOutcome(ask(HOUSE), sheet(ORIGIN, long)), "letter")!));
  assertStringIncludes(closed(text), closed(long));
  assertStringIncludes(text, `${pages.length} of ${pages.length}`);
  const word = "x".repeat(900);
  const wide = await pdfOf(paper(printOutcome(ask(HOUSE), sheet(ORIGIN, word)), "letter")!);
  const document = await getDocumentProxy(wide);
  const { items } = await (await document.getPage(1)).getTextContent();
  const right = items.map((item) => "str" in item ? item.transform[4] + item.width : 0);
  await document.loadingTask.destroy();
  assert(Math.max(...right) <= 612 - 30, `${Math.max(...right)}`);
});

/** A press that makes its PDFs here, and keeps what it was given. */
const here = (given: Paper[] = []): Press => ({ print: (paper) => (given.push(paper), pdfOf(paper)), end() {} });
const get = (path: string, press: Press, headers: Record<string, string> = {}) =>
  makeApp(engine, { origin: ORIGIN, press }).request(path, { headers });
const link = (question: string, more = "&as=pdf") => `/answer?q=${encodeURIComponent(question)}${more}`;

Deno.test("GET /answer gives a PDF by `as` and by Accept, under a name of its own", async () => {
  for (const [more, headers] of [["&as=pdf", {}], ["", { Accept: "application/pdf" }]] as const) {
    const reply = await get(link(FEEDER, more), here(), headers);
    assertEquals(reply.status, 200);
    assertEquals(reply.headers.get("Content-Type"), "application/pdf");
    assertEquals(reply.headers.get("Content-Disposition"), `inline; filename="feeder-2023.pdf"`);
    assertStringIncludes((await read(new Uint8Array(await reply.arrayBuffer()))).text, "garage");
  }
  const pressed: Paper[] = [];
  await get(link(FEEDER, "&as=pdf&brief"), here(pressed));
  assert(pressed[0]!.brief);
});

Deno.test("what asks back or is not covered is no paper, and the refusal says what is missing", async () => {
  const given: Paper[] = [];
  for (const question of ["breaker", "what does it cost to rewire a house"]) {
    const outcome = ask(question);
    const told = outcome.outcome === "unclear" ? outcome.needs[0]!.ask : "not covered";
    const reply = await get(link(question), here(given));
    assertEquals(reply.status, 422);
    assertStringIncludes((await reply.json()).detail, told);
  }
  assertEquals(given, []);
});

Deno.test("a second question of the text has a sheet of its own; one that is asked back stands on the first", async () => {
  const outcome = ask(FEEDER);
  const second = { ...outcome, more: [ask(HOUSE)] } as ReturnType<typeof ask>;
  const two = paper(printOutcome(second, sheet(ORIGIN, FEEDER)), "letter")!;
  assertEquals(two.sheets.length, 2);
  const { text } = await read(await pdfOf(two));
  for (const question of [FEEDER, HOUSE]) {
    assertStringIncludes(closed(text), closed(layOut(answered(question)).restated));
  }
  const unclear = ask("breaker");
  const back = paper(
    printOutcome({ ...outcome, more: [unclear] } as ReturnType<typeof ask>, sheet(ORIGIN, FEEDER)),
    "a4",
  )!;
  assertEquals(back.sheets.length, 1);
  assert(unclear.outcome === "unclear");
  assertStringIncludes(JSON.stringify(back), JSON.stringify(unclear.needs[0]!.ask).slice(1, -1));
});

Deno.test("a worker makes them, one after the other, and equal to those made here", async () => {
  // Its first start may type-check it.
  const press = makePress({ longest: 120_000 });
  const papers = [paperOf(FEEDER)!, paperOf(RECORD)!];
  const [first, second] = await Promise.all(papers.map((each) => press.print(each)));
  press.end();
  assertEquals(first, await pdfOf(papers[0]!));
  assertEquals(second, await pdfOf(papers[1]!));
});

/** A worker that answers as it is told: with bytes, with a failure, with its death, or never. */
class Dummy extends EventTarget {
  static started: Dummy[] = [];
  onmessage: ((event: MessageEvent) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  ended = false;
  constructor(private readonly does: string[]) {
    super();
    Dummy.started.push(this);
  }
  postMessage() {
    const what = this.does.shift();
    queueMicrotask(() => {
      if (what === "print") this.onmessage?.(new MessageEvent("message", { data: { pdf: new Uint8Array(1) } }));
      if (what === "fail") this.onmessage?.(new MessageEvent("message", { data: { failed: "no ink" } }));
      if (what === "die") this.onerror?.(new ErrorEvent("error", { message: "out of memory", cancelable: true }));
    });
  }
  terminate() {
    this.ended = true;
  }
}
const dummies = (does: string[], more: { most?: number; longest?: number; idle?: number } = {}): Press => {
  Dummy.started = [];
  return makePress({ start: () => new Dummy(does) as unknown as Worker, ...more });
};
const BLANK = {
  title: "",
  subject: "",
  file: "",
  size: "letter",
  foot: "",
  brief: false,
  sheets: [],
} as const satisfies Paper;
const refusal = async (press: Press) => {
  const problem = await assertRejects(() => press.print(BLANK)) as Problem;
  assert(problem instanceof Problem);
  assertEquals(problem.status, 503);
  assert(Number(problem.more.headers!["Retry-After"]) > 0);
  return problem.detail;
};

Deno.test("a press starts a worker when it needs one, again when it died, and ends it when it is idle", async () => {
  const press = dummies(["print", "fail", "die", "print"], { idle: 20 });
  assertEquals(Dummy.started.length, 0);
  assertEquals((await press.print(BLANK)).length, 1);
  await assertRejects(() => press.print(BLANK), Error, "no ink");
  assertEquals(Dummy.started.length, 1);
  await assertRejects(() => press.print(BLANK), Error, "out of memory");
  assertEquals((await press.print(BLANK)).length, 1);
  assertEquals(Dummy.started.map(({ ended }) => ended), [true, false]);
  await new Promise((done) => setTimeout(done, 60));
  assertEquals(Dummy.started.map(({ ended }) => ended), [true, true]);
});

Deno.test("a press takes no more than it can make, and gives up what takes too long", async () => {
  const press = dummies(["never", "print"], { most: 2, longest: 40, idle: 1 });
  const slow = refusal(press);
  const waiting = press.print(BLANK);
  assertStringIncludes(await refusal(press), "being made already");
  assertStringIncludes(await slow, "too long");
  // The next one has a worker of its own, and is made within what it may take.
  assertEquals(await waiting.then(({ length }) => length, () => "too late"), 1);
  press.end();
});
