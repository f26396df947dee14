/** A real browser for the tests of the page: phones and desks, what the page complains of, what axe-core finds. */
import axe from "axe-core";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { serve } from "@hono/node-server";
import type { Hono } from "hono";
import { assert, assertEquals } from "@std/assert";

export const CHROMIUM: string | undefined = await (async () => {
  for (const name of ["chromium", "chromium-browser", "google-chrome"]) {
    const { success, stdout } = await new Deno.Command("sh", { args: ["-c", `command -v ${name}`] }).output();
    if (success) return new TextDecoder().decode(stdout).trim();
  }
})();
if (CHROMIUM === undefined) console.log("No Chromium is installed: the tests of the page are skipped.");

export const PHONE = { width: 360, height: 740 };
export const DESK = { width: 1280, height: 800 };

/** A name that is not this machine's own, as a phone on the network knows it: over plain HTTP a browser trusts it less. */
export const ON_THE_LAN = "panel.example";
const LAN = `--host-resolver-rules=MAP ${ON_THE_LAN} 127.0.0.1`;

export type Site = {
  /** Where the app is reached. */
  at: string;
  /**
   * Opens a page, runs `use`, and fails on anything the page complained of meanwhile.
   * @param options as Playwright takes them, `complains` for what the page may complain of, `lan` to come from the network
   */
  open(path: string, options: Options, use: (page: Page) => Promise<void>): Promise<void>;
};
export type Options = BrowserContextOptions & { complains?: RegExp; lan?: boolean };

/** Runs `use` with the app behind a socket and a browser in front of it. */
export async function withSite(app: Hono, use: (site: Site) => Promise<void>): Promise<void> {
  const server = serve({ fetch: app.fetch, port: 0, hostname: "127.0.0.1" });
  await new Promise((done) => server.once("listening", done));
  const at = `http://127.0.0.1:${(server.address() as { port: number }).port}`;
  const browser = await chromium.launch({ executablePath: CHROMIUM!, args: ["--no-sandbox", LAN] });
  try {
    await use({ at, open: (path, options, use) => openPage(browser, at + path, options, use) });
  } finally {
    await browser.close();
    await new Promise((done) => server.close(done));
  }
}

async function openPage(
  browser: Browser,
  url: string,
  { complains, lan, ...options }: Options,
  use: (page: Page) => Promise<void>,
): Promise<void> {
  const context = await browser.newContext({ viewport: PHONE, ...options });
  // Long: a machine may have other work to do.
  context.setDefaultTimeout(30_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  // A browser that trusts the page less says so itself.
  const expected = lan ? /Cross-Origin-Opener-Policy/ : complains;
  const note = (text: string) => void (expected?.test(text) || complaints.push(text));
  page.on("console", (message) => message.type() === "error" && note(message.text()));
  page.on("pageerror", (error) => note(String(error)));
  try {
    await page.goto(lan ? url.replace("127.0.0.1", ON_THE_LAN) : url);
    await use(page);
    assertEquals(complaints, []);
  } finally {
    await context.close();
  }
}

/** Fails on what axe-core finds by WCAG 2.0 to 2.2, A and AA, and its best practices. */
export async function assertAccessible(page: Page): Promise<void> {
  await page.evaluate(axe.source);
  // The box covers what can be scrolled from beneath it; axe would take that for too small.
  await page.evaluate(() => document.querySelector<HTMLElement>(".ask")?.style.setProperty("position", "static"));
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
  const { violations } = await page.evaluate(
    // deno-lint-ignore no-explicit-any
    (values) => (globalThis as any).axe.run(document, { runOnly: { type: "tag", values } }),
    tags,
  );
  const told = violations.map(({ id, nodes }: axe.Result) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`);
  await page.evaluate(() => document.querySelector<HTMLElement>(".ask")?.style.removeProperty("position"));
  assertEquals(told, []);
}

/** Fails when the page is wider than its window, or a control too small for a gloved thumb. */
export async function assertFits(page: Page): Promise<void> {
  const [width, window] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert(width! <= window!, `the page is ${width} px wide in ${window}`);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("a, button, summary, select, textarea, input:not([type=hidden])")]
      .filter((each) => each.checkVisibility() && each.getClientRects().length > 0)
      .filter((each) => each.getBoundingClientRect().height < 43.5)
      .map((each) => each.outerHTML.slice(0, 80))
  );
  assertEquals(small, [], "too small for a gloved thumb");
}

/** Types a question into the box and sends it; resolves when its answer, or why there is none, is there. */
export async function send(page: Page, question: string): Promise<void> {
  const turns = await page.locator(".turn").count();
  await page.locator("#question").fill(question);
  await page.locator("#question").press("Enter");
  await page.waitForFunction(
    (before) => document.querySelectorAll(".turn").length > before && !document.querySelector("[aria-busy]"),
    turns,
  );
}

/** The largest line of the turn that stands open last. */
export const firstLine = (page: Page): Promise<string> =>
  page.locator(".turn .card:not(.folded) .first").last().innerText();
/** How many turns stand on the page. */
export const turns = (page: Page): Promise<number> => page.locator(".turn").count();
