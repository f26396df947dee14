/** A conversation on the page, as an apprentice holds it on a phone: with slow answers, none at all, and second thoughts. */
import { assert, assertEquals, assertMatch, assertNotEquals, assertStringIncludes } from "@std/assert";
import type { Page } from "playwright-core";
import { Hono } from "hono";
import { makeApp } from "../../src/app.ts";
import { engine } from "../support/engine.ts";
import { assertAccessible, assertFits, CHROMIUM, DESK, firstLine, PHONE, send, turns, withSite } from "./browser.ts";

const DRYERS = "demand of 10 dryers 5.5 kW each";
const FEEDER = "garage subpanel 150 ft, 100 amp, aluminum ok?";

/** How the service behaves: what `/turn` waits for, or answers instead. */
let trouble: (() => Promise<Response | undefined>) | undefined;
const app = new Hono();
app.use("/turn", async (_, next) => {
  const instead = await trouble?.();
  if (instead) return instead;
  await next();
});
app.route("/", makeApp(engine));
/** Answers wait until it is resolved. */
function hold(): PromiseWithResolvers<undefined> {
  const held = Promise.withResolvers<undefined>();
  trouble = () => held.promise;
  return held;
}
const asked = (page: Page) => page.locator(".turn .asked").allInnerTexts();
const changes = (page: Page) => page.locator(".card:not(.folded) .changed").last().innerText();

Deno.test({ name: "a conversation", ignore: CHROMIUM === undefined }, (t) =>
  withSite(app, async ({ open }) => {
    const talk = (name: string, options: Parameters<typeof open>[1], use: (page: Page) => Promise<void>) =>
      t.step(name, async () => {
        trouble = undefined;
        await open("/", options, use);
        trouble = undefined;
      });

    for (const viewport of [PHONE, DESK]) {
      await talk(
        `stacks five turns, folds the earlier ones and survives a reload, ${viewport.width} px`,
        { viewport },
        async (page) => {
          await send(page, "2400 sq ft, 12 kW range, 5 kW dryer, what service?");
          await send(page, "add a 48 A EV charger");
          assertMatch(await changes(page), /→/);
          await send(page, "gas dryer instead");
          await send(page, "the feeder to a garage subpanel 150 ft, 60 amp");
          await send(page, "make it copper");
          assertEquals(await turns(page), 5);
          assertEquals(await page.locator(".turn .card:not(.folded)").count(), 1);
          await assertFits(page);
          await assertAccessible(page);
          const [words, line] = [await asked(page), await firstLine(page)];
          await page.reload();
          assertEquals(await asked(page), words);
          assertEquals(await firstLine(page), line);
          await send(page, "5 % drop");
          assertEquals(await turns(page), 6);
        },
      );
    }

    await talk("Back and Forward lead through the answers and lose none", {}, async (page) => {
      await send(page, DRYERS);
      const single = await firstLine(page);
      await send(page, "three phase");
      const three = await firstLine(page);
      await page.locator("#question").fill("half typed");
      await page.goBack();
      await page.waitForFunction(
        (line) => document.querySelector<HTMLElement>(".card:not(.folded) .first")?.innerText === line,
        single,
      );
      assertEquals(await turns(page), 2);
      assertEquals(await page.locator("#question").inputValue(), "half typed");
      assertStringIncludes(await page.locator("#goes-on").innerText(), "Goes on from");
      await page.goForward();
      await page.waitForFunction(
        (line) => document.querySelector<HTMLElement>(".card:not(.folded) .first")?.innerText === line,
        three,
      );
      await page.goBack();
      await page.locator("#goes-on").waitFor();
      // What is asked now goes on from the answer that Back led to.
      await send(page, "12 dryers");
      assertEquals(await turns(page), 3);
      assert(!(await page.locator(".card:not(.folded) .restated").evaluate((e) => e.textContent!)).includes("three"));
    });

    await talk("a change is told as was and is, and taken back", {}, async (page) => {
      await send(page, FEEDER);
      const first = await firstLine(page);
      await send(page, "60 A instead");
      assertMatch(await changes(page), /100 → 60\sA/);
      await page.locator("[data-undo]").last().click();
      assertEquals(await firstLine(page), first);
      assertEquals(await page.locator(".turn.undone").count(), 1);
      await send(page, "make it copper");
      assertMatch(await firstLine(page), /1\sAWG copper/);
      await page.locator("[data-turn='1'] [data-undo]").click();
      assertEquals(await page.locator(".turn.undone").count(), 0);
      assertMatch(await firstLine(page), /3\sAWG aluminum/);
    });

    await talk("an assumption is changed where it stands, by its words or by a number", {}, async (page) => {
      await send(page, FEEDER);
      const first = await firstLine(page);
      await page.locator(".assumed summary", { hasText: "terminations" }).click();
      await page.locator(".assumed details[open] .handle").click();
      await page.locator(".changed").waitFor();
      assertEquals(await turns(page), 1);
      assertEquals(await asked(page), [FEEDER, "75 °C terminals"]);
      await page.locator(".assumed summary", { hasText: "load:" }).click();
      await page.locator(".assumed details[open] input[name=q]").fill("80");
      await page.locator(".assumed details[open] form button").click();
      await page.locator(".asked", { hasText: "load 80 A" }).waitFor();
      assertEquals(await turns(page), 1);
      assertMatch(page.url(), /q=load\+80\+A.*after=garage/);
      await page.locator("[data-undo]").click();
      await page.locator("[data-undo]").click();
      assertEquals(await firstLine(page), first);
      assertEquals(await asked(page), [FEEDER]);
    });

    await talk("a change that moves no figure says so, and is taken back all the same", {}, async (page) => {
      await send(page, FEEDER);
      await page.locator(".assumed summary", { hasText: "conductor insulation" }).click();
      await page.locator(".assumed details[open] .handle").click();
      await page.locator(".changed", { hasText: "no figure" }).waitFor();
      await page.locator("[data-undo]").click();
      assertEquals(await asked(page), [FEEDER]);
    });

    await talk("a piece as read is changed where it stands, and the rest is kept", {}, async (page) => {
      await send(page, "2400 sq ft, 12 kW range, 5 kW dryer, what service?");
      await page.locator(".as-read summary", { hasText: "12 kW range" }).click();
      await page.locator(".as-read details[open] input[name=q]").fill("16 kW range");
      await page.locator(".as-read details[open] form button").click();
      await page.locator(".changed").waitFor();
      assertEquals(await turns(page), 1);
      const restated = await page.locator(".restated").evaluate((e) => e.textContent!);
      assertStringIncludes(restated, "16 kW range");
      assertStringIncludes(restated, "5 kW dryer");
      await send(page, "gas dryer instead");
      assertMatch(await changes(page), /→/);
    });

    await talk("what is missing is asked for in one field, where a bare number counts", {}, async (page) => {
      await send(page, "voltage drop over 200 ft of 10 AWG copper, 240 V");
      await page.locator(".missing input[name=q]").fill("16");
      await page.locator(".missing button").click();
      await page.locator(".directory").waitFor();
      assertMatch(await firstLine(page), /7\.68\sV drop/);
    });

    await talk("answers stand in the order of the questions; sending waits, and can stop", {}, async (page) => {
      await send(page, DRYERS);
      const held = hold();
      await page.locator("#question").fill("three phase");
      await page.locator("#question").press("Enter");
      await page.locator(".waiting").waitFor();
      const waiting = (await page.locator(".waiting").boundingBox())!;
      const box = (await page.locator(".ask").boundingBox())!;
      assert(waiting.y > 0 && waiting.y + waiting.height <= box.y, "progress stands on the screen, above the box");
      assertEquals(await page.locator(".send").innerText(), "Stop");
      // Typed meanwhile, and kept; a second Enter sends nothing.
      await page.locator("#question").fill("12 dryers");
      await page.locator("#question").press("Enter");
      held.resolve(undefined);
      await page.waitForFunction(() => !document.querySelector("[aria-busy]"));
      assertEquals(await page.locator("#question").inputValue(), "12 dryers");
      assertEquals(await asked(page), [DRYERS, "three phase"]);
      const stopped = hold();
      await page.locator("#question").fill("15 dryers");
      await page.locator("#question").press("Enter");
      await page.locator(".waiting").waitFor();
      await page.locator(".send").click();
      await page.waitForFunction(() => !document.querySelector("[aria-busy]"));
      assertEquals(await page.locator("#question").inputValue(), "15 dryers");
      assertEquals(await turns(page), 2);
      stopped.resolve(undefined);
    });

    await talk("nothing typed is lost when the service asks to wait", { complains: /429/ }, async (page) => {
      const wait = () =>
        new Response(JSON.stringify({ detail: "Too many calls. Wait 3600 s." }), {
          status: 429,
          headers: { "Retry-After": "3600", "Content-Type": "application/problem+json" },
        });
      trouble = () => Promise.resolve(wait());
      await send(page, DRYERS);
      assertStringIncludes(await firstLine(page).catch(() => page.locator(".first").innerText()), "Too many calls");
      assertEquals(await asked(page), [DRYERS]);
      assert(await page.locator(".card button").first().isDisabled());
      await page.reload();
      assertEquals(await asked(page), [DRYERS]);
      assert(await page.locator(".card button").first().isDisabled(), "the wait goes on");
      trouble = undefined;
      await page.locator(".card button", { hasText: "box" }).click();
      assertEquals(await page.locator("#question").inputValue(), DRYERS);
      await page.locator("#question").press("Enter");
      await page.locator(".directory").waitFor();
      assertEquals(await turns(page), 1);
    });

    await talk(
      "nothing typed is lost when the service is gone or fails",
      { complains: /Failed to load|500/ },
      async (page) => {
        await send(page, DRYERS);
        const answered = await firstLine(page);
        await page.route("**/turn", (route) => route.abort());
        await send(page, "three phase");
        assertStringIncludes(await page.locator("[data-turn='1'] .first").innerText(), "could not be reached");
        await page.locator("[data-turn='1'] button", { hasText: "box" }).click();
        assertEquals(await page.locator("#question").inputValue(), "three phase");
        assertEquals(await turns(page), 1);
        // A change in place leaves its card as it was.
        await page.locator(".assumed summary").first().click();
        await page.locator(".assumed details[open] .handle").click();
        await page.locator(".trouble").waitFor();
        assertEquals(await firstLine(page), answered);
        await page.unroute("**/turn");
        await page.locator(".trouble button").click();
        await page.locator(".changed").waitFor();
      },
    );

    await talk("a question under way outlives a reload", {}, async (page) => {
      await send(page, DRYERS);
      const held = hold();
      await page.locator("#question").fill("three phase");
      await page.locator("#question").press("Enter");
      await page.locator(".waiting").waitFor();
      trouble = undefined;
      await page.reload();
      await page.locator("[data-turn='1'] .asked").waitFor();
      assertEquals(await asked(page), [DRYERS, "three phase"]);
      assertStringIncludes(await page.locator("[data-turn='1'] .first").innerText(), "What you asked is kept");
      await page.locator("[data-turn='1'] button", { hasText: "Ask again" }).click();
      await page.locator("[data-turn='1'] .changed").waitFor();
      assertEquals(await turns(page), 2);
      held.resolve(undefined);
    });

    await talk("a question that is left under way stays in its own conversation", {}, async (page) => {
      await send(page, DRYERS);
      const held = hold();
      await page.locator("#question").fill("three phase");
      await page.locator("#question").press("Enter");
      await page.locator(".waiting").waitFor();
      trouble = undefined;
      await page.locator("[data-new]").click();
      await send(page, FEEDER);
      assertEquals(await asked(page), [FEEDER]);
      await page.goBack();
      await page.goBack();
      await page.locator(".asked", { hasText: "three phase" }).waitFor();
      assertEquals(await asked(page), [DRYERS, "three phase"]);
      assertStringIncludes(await page.locator("[data-turn='1'] .first").innerText(), "What you asked is kept");
      held.resolve(undefined);
    });

    await t.step("a link that was refused goes on from its conversation when it is sent again", () =>
      open(`/answer?q=${"x".repeat(8001)}&after=${encodeURIComponent(DRYERS)}`, { complains: /400/ }, async (page) => {
        await page.locator("#question").fill("three phase");
        await page.locator("#question").press("Enter");
        await page.locator(".changed").waitFor();
        assertEquals(await asked(page), [DRYERS, "three phase"]);
      }));

    await talk("a folded card opens at a tap on it", {}, async (page) => {
      await send(page, DRYERS);
      await send(page, "three phase");
      await page.locator("[data-turn='0'] .first").click();
      assert(await page.locator("[data-turn='0'] .directory").isVisible());
      await page.locator("[data-turn='0'] [data-fold]").click();
      assert(await page.locator("[data-turn='0'] .directory").isHidden());
    });

    await talk("a new question starts afresh, and the way back is kept", {}, async (page) => {
      await send(page, DRYERS);
      const first = await firstLine(page);
      await page.locator("[data-new]").click();
      assertEquals(await turns(page), 0);
      await send(page, "three phase");
      assertNotEquals(await page.locator(".first").innerText(), first);
      await page.goBack();
      await page.goBack();
      await page.waitForFunction((line) =>
        document.querySelector<HTMLElement>(".first")?.innerText === line, first);
    });

    await talk("what was asked in this tab is found again from the start", {}, async (page) => {
      await send(page, DRYERS);
      const first = await firstLine(page);
      await page.goto(new URL("/", page.url()).href);
      await page.locator("[data-resume]").click();
      assertEquals(await firstLine(page), first);
    });

    await talk("the edition waits for its own button", {}, async (page) => {
      await send(page, DRYERS);
      await page.locator("#edition").focus();
      await page.keyboard.press("ArrowUp");
      assertEquals(await page.locator("#edition").inputValue(), "2020");
      await page.waitForTimeout(150);
      assertStringIncludes(await page.locator(".filed").innerText(), "2023");
      await page.locator("[data-again]").click();
      await page.locator(".filed", { hasText: "2020" }).waitFor();
      assertEquals(await turns(page), 1);
    });

    await talk("works by keyboard alone", { viewport: DESK }, async (page) => {
      await page.locator("#question").focus();
      await page.keyboard.type(DRYERS);
      await page.keyboard.press("Enter");
      await page.locator(".directory").waitFor();
      const chip = page.locator(".assumed summary").first();
      for (
        let i = 0;
        i < 40 && !(await chip.evaluate((e) =>
          e === document.activeElement
        ));
        i++
      ) {
        await page.keyboard.press("Shift+Tab");
      }
      assert(await chip.evaluate((e) => e === document.activeElement), "the chip can be reached");
      await page.keyboard.press("Enter");
      await page.keyboard.press("Tab");
      await page.keyboard.press("Enter");
      await page.locator(".changed").waitFor();
      assert(
        await page.evaluate(() => document.activeElement?.classList.contains("first")),
        "the new answer has the focus",
      );
    });

    await talk("what is typed survives a reload", {}, async (page) => {
      await page.locator("#question").fill("half a question");
      await page.reload();
      assertEquals(await page.locator("#question").inputValue(), "half a question");
    });

    await talk("several questions in one text stand one under the other", {}, async (page) => {
      await send(page, `${DRYERS}. What wire for a 12 kW range?`);
      assert(await page.locator(".turn .card").count() >= 1);
      await assertAccessible(page);
    });
  }));
