/**
 * The page as phones and desks show it, light and dark, with and without script. Skipped where no Chromium is found.
 * Accessibility is judged by axe-core (rules WCAG 2.0 to 2.2, A and AA).
 */
import { assert, assertEquals, assertMatch, assertStringIncludes } from "@std/assert";
import { makeApp } from "../../src/app.ts";
import { engine } from "../support/engine.ts";
import { assertAccessible, assertFits, CHROMIUM, DESK, firstLine, PHONE, turns, withSite } from "./browser.ts";

const HOUSE = engine.questions[0]!.examples[0]!;
const DRYERS = "demand of 10 dryers 5.5 kW each";
const FEEDER = "garage subpanel 150 ft, 100 amp, aluminum ok?";
const answerTo = (question: string, ...after: string[]) =>
  `/answer?q=${encodeURIComponent(question)}${after.map((text) => `&after=${encodeURIComponent(text)}`).join("")}`;

Deno.test(
  { name: "the page", ignore: CHROMIUM === undefined },
  (t) =>
    withSite(makeApp(engine), async ({ at, open }) => {
      for (const colorScheme of ["light", "dark"] as const) {
        for (const viewport of [PHONE, DESK]) {
          for (
            const path of [
              "/",
              answerTo(HOUSE),
              answerTo("make it 60", FEEDER),
              answerTo("hm"),
              answerTo("voltage drop over 200 ft of 10 AWG copper"),
              `${answerTo(HOUSE)}&edition=1896`,
              "/embed",
            ]
          ) {
            await t.step(
              `${path.slice(0, 40)} fits and is accessible, ${colorScheme}, ${viewport.width} px`,
              () =>
                open(path, { colorScheme, viewport }, async (page) => {
                  await assertFits(page);
                  await assertAccessible(page);
                  await page.evaluate(() => document.querySelectorAll("details").forEach((each) => each.open = true));
                  await assertFits(page);
                  await assertAccessible(page);
                }),
            );
          }
        }
      }

      await t.step("a narrow window and text at twice its size overflow nothing", () =>
        open(answerTo("make it 60", FEEDER), { viewport: { width: 320, height: 600 } }, async (page) => {
          await page.evaluate(() =>
            document.querySelectorAll("details").forEach((each) => each.open = true)
          );
          await assertFits(page);
          await page.evaluate(() => document.documentElement.style.fontSize = "225%");
          await assertFits(page);
        }));

      await t.step("text at twice its size leaves the answer room above the box", () =>
        open("/", { viewport: { width: 320, height: 600 } }, async (page) => {
          const session = await page.context().newCDPSession(page);
          await session.send("Page.setFontSizes", { fontSizes: { standard: 32 } });
          await page.goto(at + answerTo(FEEDER));
          assertEquals(
            await page.evaluate(() =>
              getComputedStyle(document.documentElement).fontSize
            ),
            "34px",
          );
          await assertFits(page);
          const box = (await page.locator(".ask").boundingBox())!;
          assert(box.height < 240, `the box is ${box.height} px high`);
        }));

      await t.step("the question box never leaves the screen", () =>
        open(answerTo(HOUSE), {}, async (page) => {
          for (const top of [0, 500, 100_000]) {
            await page.evaluate((top) =>
              scrollTo(0, top), top);
            const box = (await page.locator("#question").boundingBox())!;
            assert(box.y > 0 && box.y + box.height < PHONE.height, `the box is at ${box.y}`);
          }
        }));

      await t.step("the assumptions stand within two screens of the first line", () =>
        open(answerTo(HOUSE), {}, async (page) => {
          const top = async (what: string) =>
            (await page.locator(what).first().boundingBox())!.y;
          const distance = await top(".assumed .chip") - await top(".first");
          assert(distance < PHONE.height * 1.5, `${distance} px`);
          assert(await top("[data-copy]") - await top(".first") < 250);
        }));

      await t.step("opens the step a figure comes from, and leaves Back alone", () =>
        open(answerTo(HOUSE), {}, async (page) => {
          const entries = await page.evaluate(() =>
            history.length
          );
          const figure = page.locator(".directory a").first();
          const step = (await figure.getAttribute("href"))!;
          await figure.click();
          assert(await page.locator(step).isVisible());
          assertEquals(
            await page.evaluate(() =>
              history.length
            ),
            entries,
          );
        }));

      await t.step("marks what nothing read in the asker's own words", () =>
        open(answerTo(`my cousin Frobnitz says hello. ${DRYERS}`), {}, async (page) => {
          assertMatch(await page.locator(".asked mark.unread").first().innerText(), /cousin|Frobnitz/);
          assertStringIncludes(await page.locator(".card .unused").innerText(), "Not read:");
        }));

      await t.step("a piece as read leads to its words", () =>
        open(answerTo(HOUSE), {}, async (page) => {
          await page.locator(".as-read summary", { hasText: "12 kW range" }).click();
          await page.locator(".as-read details[open] .leads").first().click();
          assertStringIncludes(await page.locator(".asked .lit").innerText(), "12 kW");
        }));

      await t.step("works without script: asking, changing, going on, reading steps", () =>
        open("/", { javaScriptEnabled: false }, async (page) => {
          await page.locator("#question").fill(DRYERS);
          await page.locator(".send").click();
          const single = await firstLine(page);
          assert(await page.locator("[data-copy]").isHidden(), "no button that would do nothing");
          await page.locator(".steps summary").first().click();
          assert(await page.locator(".steps li").first().isVisible());
          await page.locator(".assumed summary").first().click();
          await page.locator(".assumed .handle").first().click();
          await page.waitForURL(/after=/);
          assert(await firstLine(page) !== single);
          assertEquals(await page.locator(".changed li").count() > 0, true);
          await page.locator("#question").fill("12 dryers");
          await page.locator(".send").click();
          await page.waitForURL(/after=.*after=/);
          assertEquals(await turns(page), 3);
          assertStringIncludes(
            await page.locator(".restated").last().evaluate((e) =>
              e.textContent!
            ),
            "12 × 5.5 kW",
          );
          assertStringIncludes(
            await page.locator(".restated").last().evaluate((e) =>
              e.textContent!
            ),
            "three-phase",
          );
        }));

      await t.step("asks back with a field for the answer and its unit, without script too", () =>
        open(answerTo("voltage drop over 200 ft of 10 AWG copper"), { javaScriptEnabled: false }, async (page) => {
          const boxes = page.locator(".missing input[name=q]");
          assertEquals(await boxes.count(), 2);
          assertEquals(await page.locator(".missing .unit").allInnerTexts(), ["A", "V"]);
          await boxes.nth(0).fill("12");
          await boxes.nth(1).fill("240");
          await page.locator(".missing button").click();
          await page.locator(".directory").waitFor();
        }));

      await t.step("an assumption's number can be put in without script", () =>
        open(answerTo(FEEDER), { javaScriptEnabled: false }, async (page) => {
          await page.locator(".assumed summary", { hasText: "load:" }).click();
          const box = page.locator(".assumed details[open] form");
          assertStringIncludes(await box.innerText(), "load");
          await box.locator("input[name=q]").fill("42");
          await box.locator("button").click();
          await page.waitForURL(/words=/);
          await page.locator(".asked", { hasText: "load 42 A" }).waitFor();
        }));

      await t.step("tells what a link shows before it is opened", async () => {
        const html = await (await fetch(at + answerTo(FEEDER), { headers: { Accept: "text/html" } })).text();
        assertMatch(html, /<meta property="og:title" content="OK: aluminum will do[^"]*1\/0 AWG/);
        assertMatch(html, /<meta property="og:description" content="[^"]*100 A panel[^"]*A design check/);
      });
    }),
);
