/** Passing an answer on from the page: copied, also over plain HTTP; shared, or its link copied; printed. */
import { assert, assertEquals, assertMatch, assertStringIncludes } from "@std/assert";
import type { Page } from "playwright-core";
import { makeApp } from "../../src/app.ts";
import { engine } from "../support/engine.ts";
import { CHROMIUM, withSite } from "./browser.ts";

const HOUSE = engine.questions[0]!.examples[0]!;
/** A house with everything in it. */
const SIX =
  "6 apartments of 850 sq ft, each with a 10 kW range, 4.5 kW water heater and 16 A AC; laundry room with 2 washers " +
  "1.2 kW and 2 dryers 5 kW; shop downstairs 9 kVA; 208Y/120 three phase, what service?";
const LARGE =
  "3600 sq ft house with 1200 sq ft basement, 15 kW range, 6 kW dryer, two 5.5 kW water heaters, dishwasher " +
  "1.5 kW, disposer 3/4 hp, heat pump 32 A with 15 kW backup heat, AC 28 A, 48 A EV charger, 60 A hot tub, 1.5 hp pool " +
  "pump, 2 kW microwave, trash compactor 1/3 hp, 10 kW sauna, is a 400 A service enough?";
const answerTo = (question: string) => `/answer?q=${encodeURIComponent(question)}`;
/** What the clipboard holds, as a paste into the box shows it. */
async function pasted(page: Page): Promise<string> {
  await page.locator("#question").fill("");
  await page.locator("#question").focus();
  await page.keyboard.press("Control+V");
  return await page.locator("#question").inputValue();
}

Deno.test(
  { name: "passing on", ignore: CHROMIUM === undefined },
  (t) =>
    withSite(makeApp(engine), async ({ at, open }) => {
      for (const lan of [false, true]) {
        await t.step(
          `copies the chat text, ${lan ? "from a phone over plain HTTP" : "with the clipboard of a secure page"}`,
          () =>
            open(
              answerTo(HOUSE),
              { lan, permissions: lan ? [] : ["clipboard-read", "clipboard-write"] },
              async (page) => {
                assertEquals(await page.evaluate(() => isSecureContext), !lan);
                await page.locator("[data-copy]").click();
                await page.locator("[data-copy]", { hasText: "Copied" }).waitFor();
                assertEquals(await pasted(page), await (await fetch(`${at}${answerTo(HOUSE)}&as=text`)).text());
              },
            ),
        );

        await t.step(`what was copied comes back unchanged, ${lan ? "plain HTTP" : "secure"}`, () =>
          open(
            answerTo(HOUSE),
            { lan, permissions: lan ? [] : ["clipboard-read", "clipboard-write"] },
            async (page) => {
              await page.locator("[data-copy]").click();
              await page.locator("[data-copy]", { hasText: "Copied" }).waitFor();
              await pasted(page);
              await page.locator("#question").press("Enter");
              await page.locator(".explanation", { hasText: "unchanged" }).waitFor();
            },
          ));
      }

      await t.step("copies the link where sharing is missing, and says so", () =>
        open(answerTo(HOUSE), { lan: true }, async (page) => {
          await page.locator("[data-share]").click();
          await page.locator("[data-share]", { hasText: "Link copied" }).waitFor();
          assertMatch(await pasted(page), /\/answer\?q=2400\+sq\+ft.*&edition=2023$/);
        }));

      await t.step("selects the text where nothing may be copied", () =>
        open(answerTo(HOUSE), { lan: true }, async (page) => {
          await page.evaluate(() =>
            document.execCommand = () =>
              false
          );
          await page.locator("[data-copy]").click();
          await page.waitForFunction(() =>
            document.activeElement?.matches("textarea.chat")
          );
          assertStringIncludes(await page.locator("#announce").innerText(), "selected");
        }));

      await t.step("shares where it can", () =>
        open(answerTo(HOUSE), {}, async (page) => {
          await page.evaluate(() => {
            Object.defineProperty(navigator, "share", {
              value: (what: ShareData) => (document.body.dataset.shared = what.url, Promise.resolve()),
            });
          });
          await page.locator("[data-share]").click();
          assertMatch(
            await page.evaluate(() => document.body.dataset.shared ?? ""),
            /\/answer\?q=/,
          );
        }));

      for (
        const [name, question] of [["a house", HOUSE], ["a house with everything in it", LARGE], [
          "a building",
          SIX,
        ]] as const
      ) {
        for (const format of ["Letter", "A4"]) {
          await t.step(`${name} prints on one sheet of ${format}`, () =>
            open(answerTo(question), {}, async (page) => {
              const paper = new TextDecoder("latin1").decode(await page.pdf({ format }));
              const sheets = paper.match(/\/Type\s*\/Page\b/g) ?? [];
              assertEquals(sheets.length, 1);
            }));
        }
      }

      await t.step(
        "paper shows the answer with the steps that stand open, the sums of others, and no word that would change it",
        () =>
          open(answerTo(HOUSE), {}, async (page) => {
            await page.emulateMedia({ media: "print" });
            const paper = await page.locator("body").innerText();
            for (
              const part of [
                "Date:",
                "2023 edition",
                "dwelling load; 2400 sq ft",
                "supply voltage: 240 V",
                "/answer?q=",
              ]
            ) {
              assertStringIncludes(paper, part);
            }
            assert(!paper.includes("120/208 V"), "an assumption's alternative stands beside it");
            const steps = () =>
              page.locator(".steps li").evaluateAll((all) =>
                all.map((each) => [each.classList.contains("sum"), each.checkVisibility()])
              );
            assert((await steps()).some(([isSum]) => isSum));
            assert((await steps()).every(([isSum, isShown]) => isSum === isShown), "the sums");
            await page.locator(".steps details").evaluateAll((all) =>
              all.forEach((each) => (each as HTMLDetailsElement).open = true)
            );
            assert((await steps()).every(([, isShown]) => isShown), "every step once it is unfolded");
            assert(await page.locator("#question").isHidden());
          }),
      );
    }),
);
