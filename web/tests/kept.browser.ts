// What is kept, whatever becomes of the tab, the browser, the server and the room on the device.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as words } from "../src/words/english";
import { content, visit } from "./support/browser";
import { serve } from "./support/server";
import { account, begin, called, end, figure, large, pluck, Plucks, press, seen } from "./support/stand";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const quiet = join(sounds, "quiet.wav");

/** What the page exports: its records, a line each. */
async function exported(page: Page): Promise<{ device: string; seq: number; kind: string }[]> {
  await page.getByRole("link", { name: words.pages.diary, exact: true }).click();
  const file = page.waitForEvent("download");
  await press(page, words.diary.export);
  const lines = readFileSync(await (await file).path(), "utf8").split("\n");
  return lines
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as { device: string; seq: number; kind: string });
}

test("a tab closed in mid-round is opened again, and the round goes on as it stood", async () => {
  const browser = await visit({ microphone: quiet });
  let page = await browser.open(inject("url"));
  await begin(page);
  await pluck(page, plucks, "C3");
  await page.getByText(words.round.inTuneOf(1, 47)).waitFor();
  const [, way, cents] = await pluck(page, plucks, "A3");
  expect(way).toBe(words.spoken.down);
  await page.waitForTimeout(500);
  await page.close({ runBeforeUnload: true });

  page = await browser.open(inject("url"));
  await page.getByRole("heading", { name: words.unfinished.heading }).waitFor();
  await press(page, words.unfinished.on);
  await expect.poll(() => large(page)).toContain(words.round.paused);
  await page.getByText(words.round.inTuneOf(1, 47)).waitFor();
  await press(page, words.round.resume);
  await page.getByRole("button", { name: words.round.pause, exact: true }).waitFor();
  await pluck(page, plucks, "D3");
  await page.getByText(words.round.inTuneOf(2, 47)).waitFor();
  await end(page);
  const table = await account(page);
  // from ten on, cents stand whole on the stand
  const shown = figure(cents ?? "") ?? NaN;
  expect(Math.abs((table.get(called("A3"))?.before ?? NaN) - shown)).toBeLessThanOrEqual(shown < 10 ? 0.051 : 0.51);
  expect(Math.abs((table.get(called("C3"))?.before ?? NaN) - plucks.of("C3").off_cents)).toBeLessThan(2);
  expect([...table.values()].filter((row) => row.before !== undefined).length).toBe(3);
  content(browser);
  await browser.close();
});

test("with the server dead and the browser restarted the page opens, the diary is there, and a round is heard", async () => {
  const kept = mkdtempSync(join(tmpdir(), "sevenflats-browser-"));
  const server = await serve();
  let browser = await visit({ microphone: quiet, kept });
  let page = await browser.open(server.url);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await begin(page);
  await pluck(page, plucks, "C3");
  await end(page);
  content(browser);
  await browser.close();
  await server.stop();

  browser = await visit({ microphone: quiet, kept });
  page = await browser.open(server.url);
  for (const name of [words.pages.care, words.pages.settings, words.pages.diary]) {
    await page.getByRole("link", { name, exact: true }).click();
    await page.getByRole("heading", { level: 1, name }).waitFor();
  }
  await page.getByText(words.diary.ofStrings(1, 47)).waitFor();
  await page.getByRole("link", { name: words.pages.tune, exact: true }).click();
  await page.getByRole("button", { name: words.before.demo }).click();
  // a string of the invented harp, and which way it is to go
  const ways = async () => (await seen(page)).filter((one) => /^\d[A-G] (up|down) [\d.]+$/.test(one.large.join(" ")));
  await expect.poll(async () => (await ways()).length, { timeout: 20_000 }).toBeGreaterThan(0);
  content(browser);
  await browser.close();
  rmSync(kept, { recursive: true, force: true });
});

test("with no room left the round goes on, and nothing is lost once there is room", async () => {
  const browser = await visit({ microphone: quiet, context: { acceptDownloads: true } });
  const page = await browser.open(inject("url"));
  await begin(page);
  await pluck(page, plucks, "C3");
  await page.evaluate(() => (window.stage.full = true));
  await pluck(page, plucks, "D3");
  await page.getByText(words.trouble.full).waitFor();
  await page.getByText(words.round.inTuneOf(2, 47)).waitFor();
  await page.evaluate(() => (window.stage.full = false));
  await pluck(page, plucks, "A3");
  await end(page);
  await page.getByText(words.trouble.full).waitFor({ state: "detached" });
  // what lies in the store, seen by a page that had no part in it
  await page.close();
  const other = await browser.open(inject("url"));
  const records = await exported(other);
  expect(records.map((record) => record.seq)).toEqual(records.map((_, place) => (records[0]?.seq ?? 0) + place));
  expect(records.at(-1)?.kind).toBe("round_over");
  await other.getByText(words.diary.ofStrings(2, 47)).waitFor();
  content(browser);
  await browser.close();
});

test("of two tabs one writes: the other says so, and goes on when the first is closed", async () => {
  const browser = await visit({ microphone: quiet });
  const first = await browser.open(inject("url"));
  await first.getByRole("heading", { level: 1 }).waitFor();
  await first.waitForTimeout(300);
  const second = await browser.open(inject("url"));
  await second.getByText(words.trouble.secondTab).waitFor();
  expect(await first.getByText(words.trouble.secondTab).count()).toBe(0);
  await first.close();
  await second.getByText(words.trouble.secondTab).waitFor({ state: "detached" });
  await begin(second);
  await pluck(second, plucks, "C3");
  await end(second);
  await second.getByText(words.end.kept).waitFor();
  content(browser);
  await browser.close();
});
