// Practice by ear, with the browser's made-up microphone: nothing is told before the string is tuned, then what is true.
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as general } from "../src/words/english";
import { french as frenchGeneral } from "../src/words/french";
import { german as germanGeneral } from "../src/words/german";
import { english as words } from "../src/words/practice";
import { french } from "../src/words/practice/french";
import { german } from "../src/words/practice/german";
import { content, visit, type Visit } from "./support/browser";
import { keptLines } from "./support/minutes";
import { asked, beginLetterD, practice, stage, until } from "./support/practice";
import { called, figure, Plucks, press } from "./support/stand";
import { spoken, States, tonesIn } from "./support/states";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const quiet = join(sounds, "quiet.wav");

/** All that stands on the page, and all that is said of it to those who do not see it. */
const everything = (page: Page) => page.locator("main").evaluate((main) => main.outerHTML);

/** Whether anything on the page tells of cents, or of high or low, outside of what she may press. */
const tells = async (page: Page) => /\d\s*cents|too high\.|too low\.|±/.test(await everything(page));

describe("D, from the middle outwards", () => {
  let browser: Visit;
  let page: Page;
  // D4 stays; D5 is found in tune, and left seven cents lower
  const LEFT = -7;

  beforeAll(async () => {
    browser = await visit({ microphone: quiet });
    page = await browser.open(inject("url"));
    await page.getByRole("button", { name: general.first.on, exact: true }).waitFor();
    await practice(page);
    await beginLetterD(page);
  });
  afterAll(() => browser.close());

  test("the string that stays is asked for first, and another one that is plucked is named", async () => {
    expect(await asked(page)).toBe(called("D4"));
    await until(page, plucks, "D5", 0, `.told:text-is("${words.another(called("D5"))}")`);
    expect(await asked(page)).toBe(called("D4"));
    await until(page, plucks, "D4", 0, `.name:text-is("${called("D5")}")`);
    expect(await tells(page)).toBe(false);
  });

  test("she says high or low before anything is shown, by a pedal that turns pages", async () => {
    await until(page, plucks, "D5", 0, "[data-stage=say]");
    expect(await tells(page)).toBe(false);
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.press("PageDown");
    await stage(page, "tune");
    expect(await tells(page)).toBe(false);
  });

  test("while she tunes nothing is told but that it is far up, and that goes when it is eased down", async () => {
    await until(page, plucks, "D5", 45, ".stop");
    await until(page, plucks, "D5", LEFT, "[data-stage=tune]:not(:has(.stop))");
    await expect.poll(() => page.locator(".stop").count(), { timeout: 5_000 }).toBe(0);
    expect(await tells(page)).toBe(false);
    await page.keyboard.press("ArrowRight");
    await stage(page, "after");
  });

  test("then what she did is told, with the beats that could be heard", async () => {
    await until(page, plucks, "D4", 0, `.name:text-is("${called("D5")}")`);
    expect(await tells(page)).toBe(false);
    await until(page, plucks, "D5", LEFT, "[data-stage=known]");
    const [low, high] = [plucks.of("D4"), plucks.of("D5")];
    const text = await page.locator("[data-stage]").innerText();
    // it stood nine cents high against D4, and she said low
    expect(text).toContain(words.said["wrong"]?.(words.low));
    const [, left = "", half = "", way = ""] = /You left it ([\d.]+) ± ([\d.]+) cents (high|low)/.exec(text) ?? [];
    const truth = high.off_cents + LEFT - low.off_cents;
    const off = (figure(left) ?? NaN) * (way === "low" ? -1 : 1);
    expect(Math.abs(off - truth), `${text}; in truth ${truth}`).toBeLessThanOrEqual(3 * (figure(half) ?? NaN) + 0.05);
    // the octave's beats by arithmetic: the second partial of the lower string against the first of the higher
    const beats = Math.abs(2 * low.heard_hz - high.heard_hz * 2 ** (LEFT / 1200));
    const told = figure(/([\d.]+) beats a second could be heard, where partial 2/.exec(text)?.[1] ?? "");
    expect(Math.abs((told ?? NaN) - beats), `${told} against ${beats}`).toBeLessThan(0.4);
    await page.getByText(words.wantedNone).waitFor();
  });

  test("what was tuned is in the diary, and stands in the page Diary in words", async () => {
    await press(page, words.next);
    await stage(page, "before");
    expect(await asked(page)).toBe(called("D5"));
    await press(page, words.end);
    await page
      .getByRole("row")
      .filter({ hasText: called("D5") })
      .waitFor();
    type Line = { kind: string; body: { harp: string; by_ear: Record<string, unknown>[] } };
    const lines = (await keptLines(page)).map((line) => JSON.parse(line) as Line);
    const kept = lines.filter(({ kind }) => kind === "practice");
    expect(kept.length).toBe(1);
    expect(kept[0]?.body.harp).toBe("pedal C1 G7");
    expect(kept[0]?.body.by_ear).toMatchObject([{ drill: "letter", string: "D5", against: "D4", guess: "low" }]);
    // what the string itself sounded is kept too: it was turned, and the diary is to know
    const [string] = kept[0]?.body.by_ear as unknown as { left: { heard_hz: number; u95_cents: number } }[];
    const left = plucks.of("D5").heard_hz * 2 ** (LEFT / 1200);
    const missed = 1200 * Math.log2((string?.left.heard_hz ?? NaN) / left);
    expect(Math.abs(missed)).toBeLessThanOrEqual(3 * (string?.left.u95_cents ?? NaN));
    await press(page, words.back);
    await page.getByRole("link", { name: general.pages.diary, exact: true }).click();
    await page.getByText(/^Practised .*by ear 3D/).waitFor();
  });

  test("nothing was complained of", () => content(browser));
});

describe("a microphone that is gone", () => {
  test("is said, and the practice goes on with another where it was", async () => {
    const browser = await visit({ microphone: quiet });
    const page = await browser.open(inject("url"));
    await practice(page);
    await beginLetterD(page);
    await until(page, plucks, "D4", 0, `.name:text-is("${called("D5")}")`);
    await page.evaluate(() => window.stage.unplug());
    await page.getByRole("alert").waitFor();
    await press(page, general.before.allow);
    await page.getByRole("alert").waitFor({ state: "detached" });
    await page.waitForTimeout(1_200);
    await until(page, plucks, "D5", 0, "[data-stage=say]");
    await content(browser);
    await browser.close();
  });
});

describe.each(
  spoken(1, [
    ["en-GB", general, words],
    ["de-DE", germanGeneral, german],
    ["fr-FR", frenchGeneral, french],
  ]),
)("every state in %s", (locale, general, own) => {
  test("has no fault that axe finds, and needs no sideways scrolling", async () => {
    const browser = await visit({ microphone: quiet, context: { locale } });
    const page = await browser.open(inject("url"));
    const states = new States(page, tonesIn(locale));
    await practice(page, general, own);
    await states.look("choose");
    await page.getByRole("combobox", { name: own.drill }).selectOption("unison");
    await press(page, general.before.allow);
    await press(page, own.begin);
    await stage(page, "before");
    await states.look("unison");
    await press(page, own.end);
    await states.look("nothing tuned");
    await press(page, own.back);
    await beginLetterD(page, general, own);
    await until(page, plucks, "D5", 0, ".told");
    await states.look("another");
    const first = await asked(page);
    await until(page, plucks, "D4", 0, `.name:not(:text-is("${first}"))`);
    await until(page, plucks, "D5", 0, "[data-stage=say]");
    await states.look("say");
    await press(page, own.high);
    await stage(page, "tune");
    await until(page, plucks, "D5", 45, ".stop");
    await states.look("stop");
    await press(page, own.there);
    await stage(page, "after");
    await states.look("after");
    await press(page, own.pass);
    await press(page, own.pass);
    await stage(page, "known");
    await states.look("known, not measured");
    await press(page, own.end);
    await states.look("account");
    expect(states.troubles).toEqual([]);
    expect(states.seen).toBe(9);
    await content(browser);
    await browser.close();
  });
});
