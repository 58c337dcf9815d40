// The guide: found by a word, with a letter that is wrong, opened, left again, and there with the network off.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as general } from "../src/words/english";
import { french as frenchGeneral } from "../src/words/french";
import { german as germanGeneral } from "../src/words/german";
import { english as words } from "../src/words/guide/english";
import { french } from "../src/words/guide/french";
import { german } from "../src/words/guide/german";
import { content, visit, type Visit } from "./support/browser";
import { serve } from "./support/server";
import { spoken, States, tonesIn } from "./support/states";

const microphone = join(inject("sounds"), "quiet.wav");

const field = (page: Page, own = words) => page.getByRole("searchbox", { name: own.search });
const found = (page: Page) => page.getByRole("search").locator("li a");
const heading = (page: Page) => page.getByRole("heading", { level: 1 });
/** What has the focus. */
const focused = (page: Page) => page.evaluate(() => document.activeElement?.textContent?.trim());

async function open(page: Page, own = general): Promise<void> {
  await page.getByRole("link", { name: own.pages.guide, exact: true }).click();
  await heading(page).filter({ hasText: own.pages.guide }).waitFor();
}

/** The page is searched for these words; the first that was found is there. */
async function search(page: Page, query: string, own = words): Promise<void> {
  await field(page, own).fill(query);
  await found(page).first().waitFor();
}

describe("in the page", () => {
  let browser: Visit;
  let page: Page;

  beforeAll(async () => {
    browser = await visit({ microphone });
    page = await browser.open(inject("url"));
    await open(page);
  });
  afterAll(() => browser.close());

  test("its chapters stand there for players, teachers and students", async () => {
    expect(await page.getByRole("heading", { level: 2 }).allInnerTexts()).toEqual(Object.values(words.groups));
    expect(await page.locator(".contents li").count()).toBeGreaterThan(15);
    expect(await page.locator(".contents a").first().innerText()).toBe("The first evening");
  });

  test("while she types what was found is shown, its words marked, and it is said when she pauses", async () => {
    await field(page).pressSequentially("draught", { delay: 20 });
    await expect.poll(() => page.locator("mark").first().innerText()).toMatch(/^draught/i);
    await expect.poll(() => page.getByRole("status").innerText()).toBe(words.found(await found(page).count()));
  });

  test("a letter that is wrong does no harm", async () => {
    const right = await found(page).allInnerTexts();
    await search(page, "draugth");
    await expect.poll(() => found(page).allInnerTexts()).toEqual(right);
  });

  test("by keys alone it is opened, and the section has the focus", async () => {
    await field(page).focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    const chosen = (await focused(page)) ?? "";
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowDown");
    expect(await focused(page)).toBe(chosen);
    await page.keyboard.press("Enter");
    await heading(page)
      .filter({ hasText: chosen.split(": ")[0] ?? "" })
      .waitFor();
    await expect.poll(() => focused(page)).toBe(chosen.split(": ").at(-1));
    const top = await page.evaluate(() => document.activeElement?.getBoundingClientRect().top ?? -1);
    expect(top).toBeGreaterThanOrEqual(0);
    expect(top).toBeLessThan(200);
    // the back button leads to what was found, and to the same place in it
    await page.goBack();
    await expect.poll(() => field(page).inputValue()).toBe("draugth");
    await expect.poll(() => focused(page)).toBe(chosen);
  });

  test("nothing found is said, and what to try", async () => {
    await field(page).fill("qqqxyzzy");
    await page.getByText(words.notFoundHow).waitFor();
    await expect.poll(() => page.getByRole("status").innerText()).toBe(words.notFound("qqqxyzzy"));
    await field(page).fill("");
    await page.locator(".contents").first().waitFor();
  });

  test("links between chapters stay in the page, and lead to the section", async () => {
    await page.goto(`${inject("url")}#guide/first-evening`);
    await heading(page).filter({ hasText: "The first evening" }).waitFor();
    await page.getByRole("article").locator('a[href="#guide/strings/the-page-strings"]').click();
    await expect.poll(() => focused(page)).toBe("The page Strings");
    await page.getByRole("link", { name: words.all }).click();
    await field(page).waitFor();
  });

  test("a chapter that is not there is said, and the contents are", async () => {
    await page.goto(`${inject("url")}#guide/nowhere`);
    await page.getByText(words.noChapter).waitFor();
    expect(await page.locator(".contents").count()).toBeGreaterThan(0);
  });

  test("pictures are loaded when they are seen", async () => {
    const asked: string[] = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    await page.goto(`${inject("url")}#guide/page`);
    const desk = page.locator('article img[src*="desk"]');
    await desk.waitFor({ state: "attached" });
    expect(asked.filter((path) => path.includes("/desk-"))).toEqual([]);
    await desk.scrollIntoViewIfNeeded();
    await expect.poll(() => desk.evaluate((one: HTMLImageElement) => one.complete && one.naturalWidth)).toBe(1440);
  });

  test("nothing is complained of, or asked of anybody else", () => content(browser));
});

test("after the first visit it is whole with the server gone: search, chapters, pictures", async () => {
  const kept = mkdtempSync(join(tmpdir(), "sevenflats-guide-"));
  const server = await serve();
  const browser = await visit({ microphone, kept });
  let page = await browser.open(server.url);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.close();
  await server.stop();
  page = await browser.open(server.url);
  await open(page);
  await search(page, "bead");
  await found(page).first().click();
  await page.getByRole("article").waitFor();
  await page.goto(`${server.url}#guide/page`);
  const pictures = page.locator("article img");
  await expect.poll(() => pictures.count()).toBe(5);
  for (let nth = 0; nth < 5; nth += 1) {
    const one = pictures.nth(nth);
    await one.scrollIntoViewIfNeeded();
    await expect
      .poll(() => one.evaluate((img: HTMLImageElement) => img.complete && img.naturalWidth))
      .toBeGreaterThan(0);
  }
  await browser.close();
  rmSync(kept, { recursive: true, force: true });
});

describe.each(
  spoken(2, [
    ["en-GB", words, general],
    ["de-DE", german, germanGeneral],
    ["fr-FR", french, frenchGeneral],
  ]),
)("every state in %s", (locale, own, ownGeneral) => {
  test("has no fault that axe finds, and needs no sideways scrolling", { timeout: 180_000 }, async () => {
    const browser = await visit({ microphone, context: { locale, reducedMotion: "reduce" } });
    const page = await browser.open(inject("url"));
    const states = new States(page, tonesIn(locale));
    await open(page, ownGeneral);
    expect(await page.getByText(own.isEnglish).count()).toBe(locale === "en-GB" ? 0 : 1);
    expect(await page.locator(".contents").first().getAttribute("lang")).toBe("en");
    await states.look("contents");
    await search(page, "stuck pedal", own);
    await states.look("found");
    await field(page, own).fill("qqqxyzzy");
    await page.getByText(own.notFoundHow).waitFor();
    await states.look("not found");
    // with pictures; with a table; with long lines of a command; with steps
    for (const chapter of ["page", "tune", "plan", "first-evening"]) {
      await page.goto(`${inject("url")}#guide/${chapter}`);
      const article = page.getByRole("article");
      await article.waitFor();
      expect(await article.getAttribute("lang")).toBe("en");
      const parts = page.locator("article details");
      if ((await parts.count()) > 0) await parts.locator("summary").click();
      await states.look(chapter);
    }
    expect(states.seen).toBe(7);
    expect(states.troubles).toEqual([]);
    content(browser);
    await browser.close();
  });
});
