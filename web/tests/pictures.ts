// Pictures of every page and state, to be looked at: `npm run pictures` puts them into web/pictures/.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as diary } from "../src/words/diary/english";
import { english as words } from "../src/words/english";
import { french } from "../src/words/french";
import { german } from "../src/words/german";
import { visit } from "./support/browser";
import { evening, give, planned, programme } from "./support/evening";
import { inventedDiary } from "./support/invented-diary";
import { DOORS, few, opened } from "./support/minutes";
import { onPaper } from "./support/on-paper";
import { checkedStates } from "./support/regulation";
import { begin, called, end, large, listen, pluck, Plucks, press, stands } from "./support/stand";
import { serve } from "./support/server";
import { SIZES, TONES } from "./support/sizes";
import { tour } from "./support/tour";
import { weeks, weeksFile } from "./support/weeks";
import { webp } from "./support/webp";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const microphone = join(sounds, "quiet.wav");
const folder = fileURLToPath(new URL("../pictures/", import.meta.url));

const WIDE = { width: 2560, height: 1440 };

/** What is taller than the window is shown whole, unless it fills the window by design. */
async function take(page: Page, name: string): Promise<void> {
  await page.screenshot({
    path: join(folder, `${name}.png`),
    fullPage: !/round|string|guide/.test(name),
    animations: "disabled",
  });
}

async function inAllSizes(page: Page, state: string): Promise<void> {
  const sizes = Object.entries(SIZES).concat(/round/.test(state) ? [["wide", WIDE] as never] : []);
  for (const [size, viewport] of sizes) {
    await page.setViewportSize(viewport);
    for (const colorScheme of TONES) {
      await page.emulateMedia({ colorScheme });
      await page.waitForTimeout(80);
      await take(page, `${state}-${size}-${colorScheme}`);
    }
  }
  await page.setViewportSize(SIZES.phone);
}

beforeAll(() => {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
});

test("every page and state", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await tour(page, plucks, (state) => inAllSizes(page, state));
  await browser.close();
});

test("an invented round, to its end and on paper", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await press(page, words.before.demo);
  for (const moment of [1, 2, 3, 4, 5, 6]) {
    await page.waitForTimeout(4_000);
    await inAllSizes(page, `round-demo-${moment}`);
  }
  await expect.poll(() => large(page), { timeout: 60_000 }).not.toContain(words.round.sounds);
  await end(page);
  await inAllSizes(page, "end-demo");
  await page.pdf({ path: join(folder, "end-demo.pdf"), format: "A4" });
  await page.emulateMedia({ media: "print", colorScheme: "light" });
  await page.setViewportSize({ width: 794, height: 1123 });
  await take(page, "end-demo-print");
  await browser.close();
});

test("a tab that has to wait, and a round that was left", async () => {
  const browser = await visit({ microphone });
  const first = await browser.open(inject("url"));
  await begin(first);
  await plucks.play(first, "G3");
  const second = await browser.open(inject("url"));
  await second.getByText(words.trouble.secondTab).waitFor();
  await inAllSizes(second, "second-tab");
  await first.close();
  const third = await browser.open(inject("url"));
  await second.close();
  await third.getByText(words.unfinished.heading).waitFor();
  await inAllSizes(third, "first-left");
  await browser.close();
});

test.each([
  ["de-DE", german],
  ["fr-FR", french],
] as const)("in %s", async (locale, own) => {
  const browser = await visit({ microphone, context: { locale } });
  const page = await browser.open(inject("url"));
  await page.getByRole("button", { name: own.first.on, exact: true }).waitFor();
  await inAllSizes(page, `first-${locale}`);
  await begin(page, own);
  for (const string of ["G3", "A3", "C3"]) {
    await plucks.play(page, string);
    await inAllSizes(page, `round-${string}-${locale}`);
  }
  await end(page, own);
  await inAllSizes(page, `end-${locale}`);
  await browser.close();
});

test("only some minutes", async () => {
  const browser = await visit({ microphone, context: { locale: "en-GB", timezoneId: "UTC" } });
  const page = await opened(browser, inventedDiary());
  await programme(page);
  await give(page, { name: "doors.musicxml", text: DOORS });
  await planned(page);
  await page.getByRole("link", { name: words.pages.tune, exact: true }).click();
  await few(page);
  await inAllSizes(page, "first-few");
  await listen(page);
  await press(page, words.before.begin);
  await stands(page, called("A4"));
  await page.locator(".few").waitFor();
  await inAllSizes(page, "round-few");
  for (const string of ["A4", "C3", "D3", "D5"]) await pluck(page, plucks, string);
  await stands(page, words.spoken.inTune);
  await inAllSizes(page, "round-few-in-tune");
  await page.getByRole("heading", { name: words.round.fewRests }).scrollIntoViewIfNeeded();
  await inAllSizes(page, "few-rests");
  await browser.close();
});

test("an evening of scores", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await evening(page, (state) => inAllSizes(page, state));
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  await page.pdf({ path: join(folder, "programme.pdf"), format: "A4" });
  await browser.close();
});

test("a part on paper", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await onPaper(page, (state) => inAllSizes(page, state));
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  await page.pdf({ path: join(folder, "paper.pdf"), format: "A4" });
  await browser.close();
});

test("a regulation check", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await checkedStates(page, plucks, (state) => inAllSizes(page, state));
  await page.pdf({ path: join(folder, "regulation.pdf"), preferCSSPageSize: true });
  await browser.close();
});

test("the diary", async () => {
  const folder = mkdtempSync(join(tmpdir(), "sevenflats-pictures-"));
  const server = await serve(0, join(folder, "diary.sqlite"));
  const browser = await visit({ microphone });
  const page = await browser.open(server.url);
  await page.getByRole("link", { name: words.pages.diary, exact: true }).click();
  await page.getByText(diary.exchange.counts("0", "0")).waitFor();
  await inAllSizes(page, "diary-empty");
  await page.locator("input[type=file]").setInputFiles(weeksFile());
  await page.getByText(diary.exchange.counts("12", "0")).waitFor();
  await inAllSizes(page, "diary-weeks");
  await page.getByText(diary.write, { exact: true }).click();
  await page
    .getByRole("button", { name: diary.correctThis("").trim() })
    .nth(6)
    .click();
  const twin = (weeks()[0] ?? "").replace("carpet", "rug");
  await page.locator("input[type=file]").setInputFiles(weeksFile([twin, "no record"]));
  await page.getByText(words.diary.conflicts(1)).waitFor();
  await press(page, diary.check.look);
  await page.getByText(diary.check.twin("weeks 1")).waitFor();
  await server.stop();
  await press(page, diary.exchange.now);
  await page.getByText(diary.exchange.trouble["away"] ?? "").waitFor();
  await inAllSizes(page, "diary-busy");
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

test("dark for the pit", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await begin(page);
  await press(page, words.round.dim);
  await plucks.play(page, "G3");
  await inAllSizes(page, "round-dim");
  await browser.close();
});

afterAll(() => console.log(folder));

test("the guide", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(`${inject("url")}#guide`);
  const search = page.getByRole("searchbox");
  await search.waitFor();
  await inAllSizes(page, "guide");
  await search.fill("draugth");
  await page.locator("mark").first().waitFor();
  await inAllSizes(page, "guide-found");
  await page.goto(`${inject("url")}#guide/page/the-first-minute`);
  await page.locator("article img").first().waitFor();
  await inAllSizes(page, "guide-chapter");
  await browser.close();
});

test("a student's handout", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(`${inject("url")}#teaching`);
  await page.locator(".pages img").nth(1).waitFor();
  await page.getByRole("textbox").fill("Perpetua Quill");
  await inAllSizes(page, "teaching-handout");
  await page.pdf({ path: join(folder, "handout.pdf"), preferCSSPageSize: true });
  await browser.close();
});

/** The pictures that the guide shows, by the names that they have there. */
const SHOWN = {
  first: "first-phone-light",
  before: "before-listening-phone-light",
  up: "round-demo-4-phone-light",
  "in-tune": "round-demo-2-phone-light",
  few: "round-few-phone-light",
  desk: "round-demo-5-desk-dark",
};

// the page carries the guide, so its pictures are made small
test("those that the guide shows", async () => {
  const browser = await visit({ microphone });
  const page = await browser.context.newPage();
  const guide = fileURLToPath(new URL("../../docs/guide/pictures/", import.meta.url));
  for (const [name, taken] of Object.entries(SHOWN))
    writeFileSync(join(guide, `${name}.webp`), await webp(page, readFileSync(join(folder, `${taken}.png`))));
  await browser.close();
});
