/** The page in someone's frame: styled also when sandboxed, asking within it, telling its height, taking colours. */
import { assert, assertEquals, assertMatch } from "@std/assert";
import { Hono } from "hono";
import { makeApp } from "../../src/app.ts";
import { engine } from "../support/engine.ts";
import { CHROMIUM, withSite } from "./browser.ts";

const DRYERS = "demand of 10 dryers 5.5 kW each";

/** A page of someone else, on an address of its own. */
const owner = new Hono();
let embed = "";
owner.get("/favicon.ico", (c) => c.body(null, 204));
owner.get("/", (c) =>
  c.html(`<!DOCTYPE html><title>owner</title><script>
    heights = [];
    addEventListener("message", ({ data }) => heights.push(data?.deadfront?.height));
  </script><iframe ${c.req.query("sandbox") ?? ""} width="360" height="600" src="${embed}${
    c.req.query("query") ?? ""
  }"></iframe>`));

Deno.test(
  { name: "the page in a frame", ignore: CHROMIUM === undefined },
  (t) =>
    withSite(makeApp(engine), ({ at }) =>
      withSite(owner, async ({ open }) => {
        embed = `${at}/embed`;
        for (const sandbox of ["", 'sandbox="allow-scripts allow-forms"']) {
          await t.step(`is styled, asks and stays within, ${sandbox || "not sandboxed"}`, () =>
            open(`/?sandbox=${encodeURIComponent(sandbox)}`, {}, async (page) => {
              const inside = page.frameLocator("iframe");
              await inside.locator("#question").fill(DRYERS);
              await inside.locator("#question").press("Enter");
              await inside.locator(".directory").waitFor();
              await inside.locator("#question").fill("three phase");
              await inside.locator(".send").click();
              await inside.locator(".changed").waitFor();
              assertEquals(await inside.locator(".turn").count(), 2);
              const border = await inside.locator(".card").last().evaluate((e) => getComputedStyle(e).borderTopWidth);
              assertEquals(border, "2px");
              const heights: number[] = await page.evaluate(() =>
                (globalThis as unknown as { heights: number[] }).heights
              );
              assert(
                heights.length > 1 && heights.every((height) =>
                  height > 100
                ),
                `${heights}`,
              );
              assert(heights.at(-1)! > heights[0]!, "it grows with its answers");
            }));
        }

        await t.step("takes edition, kind and question, and colours", () =>
          open(
            `/?query=${encodeURIComponent("?edition=2020&question=10 dryers 5 kW each&--paper=rgb(1,2,3)")}`,
            {},
            async (page) => {
              const inside = page.frameLocator("iframe");
              await inside.locator(".filed", { hasText: "2020" }).waitFor();
              const card = inside.locator(".card").first();
              assertEquals(await card.evaluate((e) => getComputedStyle(e).backgroundColor), "rgb(1, 2, 3)");
              await page.evaluate(() => {
                const frame = document.querySelector("iframe")!.contentWindow!;
                frame.postMessage({ deadfront: { colours: { "--paper": "rgb(4, 5, 6)", "--steel": "url(x)" } } }, "*");
              });
              await page.waitForTimeout(100);
              assertEquals(await card.evaluate((e) => getComputedStyle(e).backgroundColor), "rgb(4, 5, 6)");
            },
          ));

        await t.step("begins with the kind that was named", () =>
          open(`/?query=${encodeURIComponent("?kind=transformer")}`, {}, async (page) => {
            const inside = page.frameLocator("iframe");
            assertMatch(await inside.locator("#question").getAttribute("placeholder") ?? "", /kVA/);
          }));

        await t.step("every link inside stays inside, or opens outside of it", () =>
          open(`/?query=${encodeURIComponent(`?q=${DRYERS}`)}`, {}, async (page) => {
            const links = await page.frameLocator("iframe").locator("a").evaluateAll((all) =>
              all.map((a) => [a.getAttribute("href")!, a.getAttribute("target")] as const)
            );
            const wrong = links.filter(([href, target]) =>
              !/^(#|\/embed)/.test(href) && target !== "_blank"
            );
            assertEquals(wrong, []);
          }));
      })),
);
