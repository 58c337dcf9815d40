// The page's own tones come back by its microphone: none of them may be taken for a pluck.
import { join } from "node:path";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as words } from "../src/words/english";
import { content, visit, type Visit } from "./support/browser";
import { account, begin, called, end, Plucks, press, seen } from "./support/stand";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const PLUCKED = process.env["SEVENFLATS_LONG"]
  ? plucks.truth.map((pluck) => pluck.string)
  : ["G3", "F3", "A3", "D4", "E4"];

/** Plucked twice. */
const again: string[] = [];

let browser: Visit;
let page: Page;

/** What the page says of sound that was missing, if anything. */
const missing = async () => (await page.getByText(words.round.breaks(1).replace("once.", "")).allInnerTexts()).join();

beforeAll(async () => {
  browser = await visit({ microphone: join(sounds, "quiet.wav") });
  page = await browser.open(inject("url"));
  // as loud as the loudspeaker itself: far louder than any table beside a harp
  await page.evaluate(() => (window.stage.echo = 1));
  await begin(page);
  await press(page, words.round.tones);
  for (const string of PLUCKED) {
    // where a busy machine broke the sound the page rightly reads nothing: it is plucked once more
    const before = await missing();
    await plucks.play(page, string);
    await page.waitForTimeout(900);
    if ((await missing()) === before) continue;
    again.push(string);
    await plucks.play(page, string);
    await page.waitForTimeout(900);
  }
});
afterAll(() => browser.close());

test("every pluck is answered with a tone, which the microphone hears", async () => {
  expect(await page.evaluate(() => window.stage.echoes)).toBeGreaterThanOrEqual(PLUCKED.length);
});

test("no tone begins a pluck, and no pluck is lost to one", async () => {
  // the tones themselves may break nothing: chance breaks one pluck, not two
  expect(again.length, again.join()).toBeLessThanOrEqual(1);
  const names = (await seen(page)).map((one) => one.large[0] ?? "").filter((name) => /^\d\p{L}$/u.test(name));
  const once = names.filter((name, place) => name !== names[place - 1]);
  expect(once).toEqual(PLUCKED.map(called));
  await end(page);
  const table = await account(page);
  const heard = [...table].filter(([, row]) => row.before !== undefined).map(([name]) => name);
  expect(heard.sort()).toEqual(PLUCKED.map(called).sort());
  content(browser);
});
