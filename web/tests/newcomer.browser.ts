// What somebody wants who has never opened the page: each from the first page, by what stands on it, in few touches.
import { join } from "node:path";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import type { Locator, Page } from "playwright-core";
import { english as words } from "../src/words/english";
import { english as handout } from "../src/words/handout/english";
import { english as programme } from "../src/words/programme";
import { english as strings } from "../src/words/strings";
import { content, visit, type Visit } from "./support/browser";
import { give, planned } from "./support/evening";
import { inventedDiary } from "./support/invented-diary";
import { opened } from "./support/minutes";
import { piece } from "./support/scores";

let browser: Visit;
let page: Page;
/** What she touched, as it is written there. */
let path: string[];

beforeAll(async () => {
  const microphone = join(inject("sounds"), "quiet.wav");
  browser = await visit({ microphone, context: { timezoneId: "UTC" } });
  page = await opened(browser, inventedDiary());
});
afterAll(() => browser.close());

/** From the first page, as it opens. */
async function home(): Promise<void> {
  await page.goto(inject("url"));
  await page.getByRole("heading", { level: 1, name: words.first.heading }).waitFor();
  path = [];
}

/** Touches what can be seen, without going further down than a thumb likes. */
async function touch(what: Locator, name: string): Promise<void> {
  await what.click();
  path.push(name);
}
const button = (name: string) => touch(page.getByRole("button", { name, exact: true }), name);
const place = (name: string) => touch(page.getByRole("link", { name, exact: true }), name);
async function choose(name: string, label: string): Promise<void> {
  await page.getByRole("combobox", { name, exact: true }).selectOption({ label });
  path.push(`${name}: ${label}`);
}

test("tune the fourth octave", async () => {
  await home();
  await touch(page.getByText(words.first.more, { exact: true }), words.first.more);
  await choose(words.first.order, words.first.orders.middle_octave);
  await button(words.first.on);
  await button(words.before.allow);
  await button(words.before.begin);
  await page.locator(".name").waitFor();
  // the harp's fourth octave goes from F up to E (common practice, no source)
  expect(await page.locator(".name").innerText()).toBe("4F");
  console.log(`fourth octave: ${path.join(", ")}`);
  expect(path.length).toBe(5);
  await button(words.round.end);
});

test("print tomorrow's pedals", async () => {
  await home();
  await place(words.pages.programme);
  await give(page, { name: "tomorrow.musicxml", text: piece(12, "Tomorrow") });
  path.push("the score");
  await planned(page);
  await page.evaluate(() => (window.print = () => ((window as { printed?: boolean }).printed = true)));
  await button(programme.print);
  await expect.poll(() => page.evaluate(() => (window as { printed?: boolean }).printed)).toBe(true);
  console.log(`pedals: ${path.join(", ")}`);
  expect(path.length).toBe(3);
});

test("see why a string keeps falling", async () => {
  await home();
  await place(words.pages.strings);
  // the pin of 3A was made to slip, in the invented diary: it is asked about before anything else is touched
  const question = page.getByRole("region", { name: strings.needs }).getByText(/^3A sank .* does its pin slip\?$/);
  await question.waitFor();
  console.log(`falling: ${path.join(", ")}`);
  expect(path.length).toBe(1);
});

test("make a handout for a lever harp of 34 strings in German", async () => {
  await home();
  await place(words.pages.teaching);
  const box = page.getByRole("combobox", { name: handout.harp, exact: true });
  const option = box.locator("option").filter({ hasText: /^\s*lever harp, 34 strings/ });
  await box.selectOption((await option.first().getAttribute("value")) ?? "");
  path.push(`${handout.harp}: lever harp, 34 strings`);
  await choose(handout.language, "Deutsch");
  await page.getByText("34 Saiten").first().waitFor({ state: "attached" });
  await touch(page.getByRole("button", { name: handout.print }).and(page.locator(":enabled")), handout.print);
  console.log(`handout: ${path.join(", ")}`);
  expect(path.length).toBe(4);
});

test("nothing was complained of", () => content(browser));
