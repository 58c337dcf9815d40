// What goes wrong with the microphone, and how the page goes on.
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as words } from "../src/words/english";
import { content, visit, type Visit } from "./support/browser";
import { RATE_HZ } from "./support/samples";
import { account, begin, called, end, figure, large, listen, pluck, Plucks, press, seen } from "./support/stand";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);

describe("a microphone that cannot be had", () => {
  let browser: Visit;
  let page: Page;

  beforeAll(async () => void (browser = await visit({ microphone: join(sounds, "quiet.wav") })));
  afterEach(() => page.close());
  afterAll(() => browser.close());

  // names of errors: W3C Media Capture and Streams, 10.3.1
  test.each([
    ["NotAllowedError", words.trouble.denied],
    ["NotFoundError", words.trouble.missing],
    ["NotReadableError", words.trouble.busy],
    ["FlatBatteryError", words.trouble.other("refused by the check")],
  ])("%s is told, and 'Try again' tries again", async (name, sentence) => {
    page = await browser.open(inject("url"));
    await page.evaluate((refuse) => (window.stage.refuse = refuse), name);
    await press(page, words.first.on);
    await press(page, words.before.allow);
    const told = page.getByRole("alert");
    await expect.poll(() => told.innerText()).toContain(sentence);
    await press(page, words.trouble.again);
    await expect.poll(() => told.innerText()).toContain(sentence);
    await page.evaluate(() => (window.stage.refuse = undefined));
    await press(page, words.trouble.again);
    await page.getByRole("button", { name: words.before.begin, exact: true }).waitFor();
    expect(await told.count()).toBe(0);
    content(browser);
  });

  test("a page that may not listen here says where it may", async () => {
    page = await browser.context.newPage();
    await page.addInitScript(() => Object.defineProperty(window, "isSecureContext", { value: false }));
    await page.goto(inject("url"));
    await press(page, words.first.on);
    await expect.poll(() => page.getByRole("alert").innerText()).toContain(words.trouble.insecure);
    expect(await page.getByRole("button", { name: words.before.allow }).count()).toBe(0);
  });
});

test("a browser that was told to refuse is believed", async () => {
  const browser = await visit({ microphone: join(sounds, "quiet.wav"), refuses: true });
  const page = await browser.open(inject("url"));
  await press(page, words.first.on);
  await press(page, words.before.allow);
  await expect.poll(() => page.getByRole("alert").innerText()).toContain(words.trouble.denied);
  await browser.close();
});

test("a microphone that gives nothing but noughts is taken to be muted", async () => {
  const browser = await visit({ microphone: join(sounds, "silent.wav") });
  const page = await browser.open(inject("url"));
  await listen(page);
  await expect.poll(() => page.getByRole("alert").allInnerTexts(), { timeout: 6_000 }).toContain(words.trouble.muted);
  content(browser);
  await browser.close();
});

test("a microphone unplugged in mid-round pauses it, and it goes on with what it had", async () => {
  const browser = await visit({ microphone: join(sounds, "quiet.wav") });
  const page = await browser.open(inject("url"));
  await begin(page);
  await pluck(page, plucks, "C3");
  const done = page.getByText(words.round.inTuneOf(1, 47));
  await done.waitFor();
  await page.evaluate(() => window.stage.unplug());
  await expect.poll(() => page.getByRole("alert").innerText()).toContain(words.trouble.unplugged);
  await expect.poll(() => large(page)).toContain(words.round.paused);
  // still gone: it is said again, and nothing is lost
  await page.evaluate(() => (window.stage.refuse = "NotFoundError"));
  await press(page, words.round.resume);
  await expect.poll(() => page.getByRole("alert").innerText()).toContain(words.trouble.missing);
  await page.evaluate(() => (window.stage.refuse = undefined));
  await press(page, words.round.resume);
  await page.getByRole("button", { name: words.round.pause, exact: true }).waitFor();
  expect(await page.getByRole("alert").allInnerTexts()).toEqual([]);
  await done.waitFor();
  await pluck(page, plucks, "D3");
  await page.getByText(words.round.inTuneOf(2, 47)).waitFor();
  await end(page);
  const table = await account(page);
  for (const string of ["C3", "D3"]) expect(table.get(called(string))?.before, string).toBeDefined();
  content(browser);
  await browser.close();
});

describe("ten milliseconds that are missing", () => {
  const FRAMES = RATE_HZ / 100;
  let browser: Visit;
  let page: Page;

  beforeAll(async () => void (browser = await visit({ microphone: join(sounds, "quiet.wav") })));
  afterEach(async () => {
    content(browser);
    await page.close();
  });
  afterAll(() => browser.close());

  /** What was shown of a string was right, or was not shown. */
  async function nothingWrong(string: string): Promise<void> {
    const { off_cents } = plucks.of(string);
    for (const { large } of await seen(page)) {
      if (!/^\d\p{L}$/u.test(large[0] ?? "") || large.includes(words.round.pluck)) continue;
      expect(large[0]).toBe(called(string));
      const cents = figure(large[2] ?? "");
      if (cents !== undefined) expect(Math.abs(cents - Math.abs(off_cents))).toBeLessThan(3);
    }
    await end(page);
    const row = (await account(page)).get(called(string));
    if (row?.after !== undefined) expect(Math.abs(row.after - off_cents)).toBeLessThanOrEqual((row.half ?? 0) + 0.1);
  }

  /** How often sound was missing, as the page says it: a busy machine may lose some of its own. */
  async function missing(): Promise<number> {
    for (let times = 1; times < 100; times += 1) {
      if (await page.getByText(words.round.breaks(times), { exact: true }).isVisible()) return times;
    }
    return 0;
  }

  /** What is played meanwhile loses something, and the page says so. */
  async function oneMore(playing: () => Promise<unknown>): Promise<void> {
    const before = await missing();
    await playing();
    await expect.poll(missing, { timeout: 5_000 }).toBeGreaterThan(before);
  }

  test.each([
    ["between two blocks, by the clock", true],
    ["between two blocks, without a word", false],
  ])("%s, are counted, and no reading comes of them", async (_, told) => {
    page = await browser.open(inject("url"));
    await begin(page);
    await oneMore(async () => {
      const playing = plucks.play(page, "A3");
      await page.waitForTimeout(400);
      await page.evaluate((cut) => (window.stage.cut = cut), { frames: FRAMES, told });
      await playing;
    });
    await nothingWrong("A3");
  });

  test("in what the microphone gives, are found in the sound", async () => {
    page = await browser.open(inject("url"));
    await begin(page);
    const at = Math.round(0.4 * RATE_HZ);
    await oneMore(() =>
      plucks.play(page, "A3", (samples) => Int16Array.from([...samples.slice(0, at), ...samples.slice(at + FRAMES)])),
    );
    await nothingWrong("A3");
  });
});
