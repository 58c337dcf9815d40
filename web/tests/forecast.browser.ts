// What will have moved, on the page Strings: figures as in the command, the picture, reasons, and the harp at another pitch.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as words } from "../src/words/strings/english";
import { french } from "../src/words/strings/french";
import { german } from "../src/words/strings/german";
import { content, visit, type Visit } from "./support/browser";
import { inventedDiary, layIn } from "./support/invented-diary";
import { COMMAND } from "./support/server";
import { figure, press } from "./support/stand";
import { spoken, States, tonesIn } from "./support/states";

const quiet = join(inject("sounds"), "quiet.wav");
const NOW = "2026-11-26T18:40:00Z";

async function opened(browser: Visit, diary: string[], own = words): Promise<Page> {
  const page = await browser.open(inject("url"));
  await page.waitForFunction(() => indexedDB.databases().then((all) => all.some((db) => db.name === "sevenflats")));
  await page.waitForTimeout(300);
  await layIn(page, diary);
  await page.goto(`${inject("url")}#strings`);
  await page.reload();
  await table(page, own).waitFor();
  return page;
}

async function browse(locale = "en-GB"): Promise<Visit> {
  const browser = await visit({ microphone: quiet, context: { locale, timezoneId: "UTC", acceptDownloads: true } });
  await browser.context.clock.setFixedTime(NOW);
  return browser;
}

const section = (page: Page, own = words) => page.getByRole("region", { name: own.ahead.heading, exact: true });
const table = (page: Page, own = words) => page.getByRole("region", { name: own.ahead.expected, exact: true });
const halves = async (page: Page) =>
  (await table(page).locator("tbody td:nth-child(3)").allInnerTexts()).map((text) => figure(text) ?? NaN);

/** The same of the command. */
function command(diary: string[]): { string: string; expected_cents: number; u95_cents: number; p_out: number }[] {
  const folder = mkdtempSync(join(tmpdir(), "forecast-"));
  const at = ["--diary", join(folder, "diary.sqlite")];
  execFileSync(COMMAND, ["diary", ...at, "import", "-"], { input: `${diary.join("\n")}\n` });
  const asked = ["forecast", ...at, "--at", "2026-11-26T19:30:00Z", "--air", "23,40", "--json"];
  const out = execFileSync(COMMAND, asked, { encoding: "utf8" });
  rmSync(folder, { recursive: true });
  return (JSON.parse(out) as { strings: ReturnType<typeof command> }).strings;
}

test("it says of every string what the command says, and why of the one that is chosen", async () => {
  const browser = await browse();
  const diary = inventedDiary();
  const page = await opened(browser, diary);
  const ahead = section(page);
  await ahead.getByText(words.ahead.learned(59)).waitFor();
  await ahead.getByText(words.ahead.noAir).waitFor();
  const without = await halves(page);
  await ahead.getByLabel("°C").fill("23");
  await ahead.getByLabel(words.ahead.percent).fill("40");
  await ahead.getByText(words.ahead.noAir).waitFor({ state: "detached" });
  const known = await halves(page);
  expect(known.length).toBe(47);
  // where the air is known less is left open
  const sum = (all: number[]) => all.reduce((one, other) => one + other, 0);
  expect(sum(known)).toBeLessThan(sum(without));
  const rows = await table(page).locator("tbody tr").all();
  const told = command(diary);
  expect(rows.length).toBe(told.length);
  for (const [place, row] of rows.entries()) {
    const [expected, half, chance] = (await row.locator("td").allInnerTexts()).map((text) => figure(text) ?? NaN);
    const same = told[place];
    expect(expected).toBeCloseTo(Number(same?.expected_cents.toFixed(1)), 6);
    expect(half).toBeCloseTo(Number(same?.u95_cents.toFixed(1)), 6);
    expect(chance).toBe(Math.round(100 * (same?.p_out ?? NaN)));
  }
  const first = (await ahead.locator("strong").innerText()).split(" ");
  expect(first.length).toBe(12);
  // an open bead each: a filled one would say that it was heard in tune
  const picture = ahead.getByRole("img");
  expect(await picture.locator("circle").count()).toBeGreaterThanOrEqual(47);
  expect(await picture.getAttribute("aria-label")).toMatch(/Farthest .*: 3A −/);
  await ahead.getByLabel(words.ahead.why).selectOption({ label: "3A" });
  await ahead.getByText(/^falls back from its last turning: −/).waitFor();
  // the bead of the lowest string, touched
  await picture.click({ position: { x: 3, y: 100 } });
  await ahead.getByRole("heading", { level: 3, name: /^7C: / }).waitFor();
  content(browser);
  await browser.close();
});

test("a diary with nothing in it is said to know little", async () => {
  const browser = await browse();
  const page = await opened(browser, inventedDiary(0));
  const ahead = section(page);
  await ahead.getByText(words.ahead.neverRead(47)).waitFor();
  expect(await ahead.getByText(words.ahead.little).count()).toBe(1);
  expect(await table(page).locator("tbody td:nth-child(2)").first().innerText()).toBe("–");
  content(browser);
  await browser.close();
});

// 1200·log2(442/440) = 7.851 cents, (442/440)² = 1.00911; 440 Hz is ISO 16:1975
test("the harp at another pitch: pull, passes, no overshoot that was not measured, and when a technician is asked", async () => {
  const browser = await browse();
  const page = await opened(browser, inventedDiary());
  const moved = page.getByRole("region", { name: words.ahead.moved.heading, exact: true });
  await press(page, words.ahead.moved.plan);
  await moved.getByText("From 440.0 to 442.0 Hz: 7.9 cents up, 0.91 % more pull on every string.").waitFor();
  // only 4G and 3C have figures
  await moved.getByText(/: 2 pull \d+ N together before, \d+ N after\. Of 45 it is not known\.$/).waitFor();
  expect(await moved.getByText("by 3 Dec 2026", { exact: false }).count()).toBeGreaterThan(0);
  expect(await moved.getByText(/ask your technician first/).count()).toBe(0);
  // the strings of this diary go back where the weather has them, whatever is turned
  expect(await moved.getByText(/more than falling back: .* No overshoot/).count()).toBe(2);
  await moved.getByText(/^Eyes and face away/).waitFor();
  await moved.getByLabel(words.ahead.moved.hertz).fill("448");
  await moved.getByLabel(words.ahead.moved.hertz).press("Enter");
  await press(page, words.ahead.moved.plan);
  await moved.getByText(/31 cents above this harp's usual pitch: ask your technician first/).waitFor();
  content(browser);
  await browser.close();
});

test.each(
  spoken(1, [
    ["en-GB", words],
    ["de-DE", german],
    ["fr-FR", french],
  ]),
)(
  "every state can be read and worked (%s)",
  async (locale, own) => {
    const browser = await browse(locale);
    const page = await opened(browser, inventedDiary(12), own);
    const states = new States(page, tonesIn(locale));
    await section(page, own).getByLabel(own.ahead.why).selectOption({ index: 5 });
    await section(page, own).getByRole("heading", { level: 3 }).waitFor();
    await press(page, own.ahead.moved.plan);
    await page.getByRole("region", { name: own.ahead.moved.moves, exact: true }).waitFor();
    await states.look("tonight, and another pitch");
    await section(page, own).getByRole("combobox").first().selectOption("moment");
    await states.look("at a day and hour");
    await section(page, own).getByRole("combobox").first().selectOption("hours");
    await states.look("in some hours");
    expect(states.troubles).toEqual([]);
    content(browser);
    await browser.close();
  },
  60_000,
);
