import type { Page } from "playwright-core";
import { english, type Words } from "../../src/words/english";
import { called, end, pluck, press, stands, type Plucks } from "./stand";

/** Calls `at` on every page and in every state of it, each reached as a reader reaches it. */
export async function tour(
  page: Page,
  plucks: Plucks,
  at: (state: string) => Promise<void>,
  words: Words = english,
): Promise<void> {
  await begun(page, at, words);
  await microphones(page, at, words);
  await taking(page, at, words);
  await round(page, plucks, at, words);
  await shelves(page, at, words);
}

const heading = (page: Page, name: string) => page.getByRole("heading", { level: 1, name, exact: true }).waitFor();
const tab = (page: Page, name: string) => page.getByRole("link", { name, exact: true }).click();

async function begun(page: Page, at: (state: string) => Promise<void>, words: Words): Promise<void> {
  await page.getByRole("button", { name: words.first.on, exact: true }).waitFor();
  await at("first");
  await page.getByText(words.first.more, { exact: true }).click();
  await page.getByRole("checkbox", { name: words.first.usual }).check();
  await page.getByRole("checkbox", { name: words.first.touchUp }).check();
  await page.getByText(words.first.touchUpStrings).waitFor();
  await at("first-more");
  await page.getByRole("checkbox", { name: words.first.touchUp }).uncheck();
  await page.getByRole("checkbox", { name: words.first.usual }).uncheck();
  await page.getByRole("radio", { name: words.first.lever }).check();
  await page.getByText(words.first.open).waitFor();
  await at("first-lever");
  await page.getByRole("radio", { name: words.first.pedal }).check();
}

/** Before a round, without and with a microphone, and each of its troubles. */
async function microphones(page: Page, at: (state: string) => Promise<void>, words: Words): Promise<void> {
  await press(page, words.first.on);
  await heading(page, words.before.heading);
  await at("before");
  const refuse = (name: string | undefined) => page.evaluate((refuse) => (window.stage.refuse = refuse), name);
  let ask = words.before.allow;
  for (const [name, error, sentence] of [
    ["denied", "NotAllowedError", words.trouble.denied],
    ["missing", "NotFoundError", words.trouble.missing],
    ["busy", "NotReadableError", words.trouble.busy],
  ] as const) {
    await refuse(error);
    await press(page, ask);
    await page.getByText(sentence).waitFor();
    await at(`before-${name}`);
    ask = words.trouble.again;
  }
  await refuse(undefined);
  await press(page, ask);
  await page.getByRole("button", { name: words.before.begin, exact: true }).waitFor();
  await at("before-listening");
  await press(page, words.before.back);
}

async function taking(page: Page, at: (state: string) => Promise<void>, words: Words): Promise<void> {
  await press(page, words.first.takeA);
  await heading(page, words.takeA.heading);
  await at("take-a");
  await press(page, words.takeA.listen);
  await page.getByRole("button", { name: words.takeA.stop, exact: true }).waitFor();
  await at("take-a-listening");
  await press(page, words.takeA.stop);
  await page.getByText(words.takeA.notHeard).waitFor();
  await at("take-a-refused");
  await press(page, words.before.back);
}

async function round(page: Page, plucks: Plucks, at: (state: string) => Promise<void>, words: Words): Promise<void> {
  await press(page, words.first.on);
  await press(page, words.before.begin);
  await page.getByRole("button", { name: words.round.pause, exact: true }).waitFor();
  await at("round-questions");
  await pluck(page, plucks, "G3");
  await at("round-up");
  await pluck(page, plucks, "A3");
  await at("round-down");
  await pluck(page, plucks, "C3");
  await page.getByText(words.round.inTuneOf(1, 47)).waitFor();
  await at("round-in-tune");
  await page
    .getByRole("listitem")
    .getByRole("button", { name: called("C3"), exact: true })
    .click();
  await page.getByRole("dialog").waitFor();
  await at("one-string");
  await press(page, words.round.string.broken);
  await at("one-string-broken");
  await press(page, words.round.string.close);
  await press(page, words.round.pause);
  await stands(page, words.round.paused);
  await at("round-paused");
  await press(page, words.round.resume);
  await page.getByRole("button", { name: words.round.pause, exact: true }).waitFor();
  await page.evaluate(() => window.stage.unplug());
  await page.getByText(words.trouble.unplugged).waitFor();
  await at("round-unplugged");
  await press(page, words.round.resume);
  await page.getByRole("button", { name: words.round.pause, exact: true }).waitFor();
  await page.evaluate(() => (window.stage.full = true));
  await pluck(page, plucks, "D3");
  await page.getByText(words.trouble.full).waitFor();
  await at("round-no-room");
  await page.evaluate(() => (window.stage.full = false));
  await end(page, words);
  await at("end");
  await press(page, words.end.done);
}

async function shelves(page: Page, at: (state: string) => Promise<void>, words: Words): Promise<void> {
  await tab(page, words.pages.diary);
  await heading(page, words.diary.heading);
  await at("diary");
  await tab(page, words.pages.care);
  await heading(page, words.care.heading);
  await at("care");
  await tab(page, words.pages.settings);
  await heading(page, words.settings.heading);
  await at("settings");
}
