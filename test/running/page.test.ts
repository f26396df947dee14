/**
 * The page as a phone shows it: 360 px wide, light and dark, with and without script. Skipped where no Chromium is found.
 * Accessibility is judged by axe-core (rules WCAG 2.0 to 2.2, A and AA).
 */
import axe from "axe-core";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { serve } from "@hono/node-server";
import { assert, assertEquals, assertMatch, assertStringIncludes } from "@std/assert";
import { makeApp } from "../../src/app.ts";
import { engine } from "../support/engine.ts";

const CHROMIUM = await (async () => {
  for (const name of ["chromium", "chromium-browser", "google-chrome"]) {
    const { success, stdout } = await new Deno.Command("sh", { args: ["-c", `command -v ${name}`] }).output();
    if (success) return new TextDecoder().decode(stdout).trim();
  }
})();
if (CHROMIUM === undefined) console.log("No Chromium is installed: the tests of the page are skipped.");

const HOUSE = engine.questions[0]!.examples[0]!;
const DRYERS = "demand of 10 dryers 5.5 kW each";
const PHONE = { width: 360, height: 740 };

let browser: Browser;
let at: string;

/** Opens a page on a phone, runs `use`, and fails on anything the page complained of meanwhile. */
async function onPhone(path: string, options: BrowserContextOptions, use: (page: Page) => Promise<void>) {
  const context = await browser.newContext({ viewport: PHONE, ...options });
  context.setDefaultTimeout(5_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  try {
    await page.goto(at + path);
    await use(page);
    assertEquals(complaints, []);
  } finally {
    await context.close();
  }
}

const answerTo = (question: string) => `/answer?q=${encodeURIComponent(question)}`;
const headline = (page: Page) => page.locator("#headline").innerText();

async function assertAccessible(page: Page) {
  await page.evaluate(axe.source);
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
  const { violations } = await page.evaluate(
    // deno-lint-ignore no-explicit-any
    (values) => (globalThis as any).axe.run(document, { runOnly: { type: "tag", values } }),
    tags,
  );
  const told = violations.map(({ id, nodes }: axe.Result) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`);
  assertEquals(told, []);
}

async function assertFits(page: Page) {
  const width = await page.evaluate(() => document.documentElement.scrollWidth);
  assert(width <= PHONE.width, `the page is ${width} px wide`);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("a, button, summary, select, textarea, input:not([type=hidden])")]
      .filter((each) => each.getClientRects().length > 0 && each.getBoundingClientRect().height < 43.5)
      .map((each) => each.outerHTML.slice(0, 80))
  );
  assertEquals(small, [], "too small for a gloved thumb");
}

Deno.test({ name: "the page", ignore: CHROMIUM === undefined }, async (t) => {
  const server = serve({ fetch: makeApp(engine).fetch, port: 0, hostname: "127.0.0.1" });
  await new Promise((done) => server.once("listening", done));
  at = `http://127.0.0.1:${(server.address() as { port: number }).port}`;
  browser = await chromium.launch({ executablePath: CHROMIUM!, args: ["--no-sandbox"] });
  try {
    for (const colorScheme of ["light", "dark"] as const) {
      for (const path of ["/", answerTo(HOUSE), answerTo("hm"), `${answerTo(HOUSE)}&edition=1896`, "/embed"]) {
        await t.step(
          `${path.slice(0, 40)} fits and is accessible, ${colorScheme}`,
          () =>
            onPhone(path, { colorScheme }, async (page) => {
              await assertFits(page);
              await assertAccessible(page);
              await page.evaluate(() => document.querySelectorAll("details").forEach((each) => each.open = true));
              await assertFits(page);
              await assertAccessible(page);
            }),
        );
      }
    }

    await t.step("answers, changes an assumption and asks on in place", () =>
      onPhone("/", {}, async (page) => {
        await page.locator("#question").fill(DRYERS);
        await page.locator("#question").press("Enter");
        await page.locator(".assumed .handle").first().click();
        await page.waitForFunction(() => document.querySelectorAll(".assumed").length === 0);
        assertStringIncludes(await page.locator("#question").inputValue(), "three-phase");
        assert(await page.evaluate(() => document.activeElement?.id === "headline"), "the new answer has the focus");
        const threePhase = await headline(page);
        await page.locator(".follow-up input[name=q]").fill("12 dryers 5.5 kW each");
        await page.locator(".follow-up button").click();
        await page.waitForFunction(
          (before) => document.getElementById("headline")?.innerText !== before,
          threePhase,
        );
        await page.goBack();
        await page.waitForFunction((before) => document.getElementById("headline")?.innerText === before, threePhase);
      }));

    await t.step("opens the step a figure comes from", () =>
      onPhone(answerTo(HOUSE), {}, async (page) => {
        const figure = page.locator(".directory a").first();
        const step = (await figure.getAttribute("href"))!;
        await figure.click();
        assert(await page.locator(step).isVisible());
      }));

    await t.step(
      "copies the chat text",
      () =>
        onPhone(answerTo(HOUSE), { permissions: ["clipboard-read", "clipboard-write"] }, async (page) => {
          await page.locator("[data-copy]").click();
          await page.locator("#announce", { hasText: "Copied." }).waitFor();
          const copied = await page.evaluate(() => navigator.clipboard.readText());
          assertEquals(copied, await (await fetch(`${at}${answerTo(HOUSE)}&as=text`)).text());
        }),
    );

    await t.step("works the same under another edition", () =>
      onPhone(answerTo(DRYERS), {}, async (page) => {
        await page.locator("#edition").selectOption("2017");
        await page.locator(".filed", { hasText: "2017" }).waitFor();
        assertMatch(page.url(), /edition=2017/);
      }));

    await t.step(
      "works without script: asking, changing, reading steps",
      () =>
        onPhone("/", { javaScriptEnabled: false }, async (page) => {
          await page.locator("#question").fill(DRYERS);
          await page.locator(".ask button").click();
          const single = await headline(page);
          assert(await page.locator("[data-copy]").isHidden(), "no button that would do nothing");
          await page.locator("summary").first().click();
          assert(await page.locator(".steps li").first().isVisible());
          await page.locator(".assumed .handle").first().click();
          await page.waitForURL(/after=/);
          assert(await headline(page) !== single);
        }),
    );

    await t.step(
      "asks back with a box for the answer, without script too",
      () =>
        onPhone(answerTo("voltage drop over 200 ft of 10 AWG copper"), { javaScriptEnabled: false }, async (page) => {
          const boxes = page.locator(".follow-up input[name=q]");
          assertEquals(await boxes.count(), 2);
          await boxes.nth(0).fill("12 A");
          await boxes.nth(1).fill("240 V single phase");
          await page.locator(".follow-up button").click();
          await page.locator(".directory").waitFor();
        }),
    );

    await t.step("stays within a frame when embedded", () =>
      onPhone("/embed", {}, async (page) => {
        await page.locator("#question").fill(DRYERS);
        await page.locator("#question").press("Enter");
        await page.locator(".directory").waitFor();
        assertMatch(page.url(), /\/embed\?/);
      }));
  } finally {
    await browser.close();
    await new Promise((done) => server.close(done));
  }
});
