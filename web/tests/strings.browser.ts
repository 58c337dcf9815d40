// The page Strings, with an invented diary: what it knows, what is written there, its plots and their tables.
import { join } from "node:path";
import { expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english } from "../src/words/english";
import { french as frenchPage } from "../src/words/french";
import { german as germanPage } from "../src/words/german";
import { english as words } from "../src/words/strings/english";
import { french } from "../src/words/strings/french";
import { german } from "../src/words/strings/german";
import { content, visit, type Visit } from "./support/browser";
import { figure, press } from "./support/stand";
import { spoken, States, tonesIn } from "./support/states";
import { inventedDiary, layIn } from "./support/invented-diary";

const quiet = join(inject("sounds"), "quiet.wav");
/** The evening on which a string breaks. */
const NOW = "2026-11-26T18:40:00Z";

async function opened(browser: Visit, own = words): Promise<Page> {
  const page = await browser.open(inject("url"));
  await page.waitForFunction(() => indexedDB.databases().then((all) => all.some((db) => db.name === "sevenflats")));
  await page.waitForTimeout(300);
  await layIn(page, inventedDiary());
  await page.goto(`${inject("url")}#strings`);
  await page.reload();
  await page.getByRole("heading", { name: own.needs }).waitFor();
  return page;
}

const browse = (locale = "en-GB") =>
  visit({ microphone: quiet, context: { locale, timezoneId: "UTC", acceptDownloads: true } });

/** The button of a string in the list of all of them. */
const all = (page: Page, own = words) => page.getByRole("region", { name: own.all });
const string = (page: Page, name: string, own = words) =>
  all(page, own).getByRole("button", { name: new RegExp(`^${name}\\b`) });

test("it says what is due, what is asked, what lies in the drawer, and tension where figures were given", async () => {
  const browser = await browse();
  await browser.context.clock.setFixedTime(NOW);
  const page = await opened(browser);
  await page.getByText(/60 rounds, 3,\d{3} readings\./).waitFor();
  const needs = page.getByRole("region", { name: words.needs });
  // 2E was put on in 2019, and octaves 0 to 2 are renewed every two years at the latest (several guides)
  await needs.getByText(/^7\.8 years old: due \(as several guides have it\)\.$/).waitFor();
  // its pin was made to slip: a question, never a finding
  const question = needs.getByText(/^3A sank .* does its pin slip\?$/);
  await question.waitFor();
  // 3C was written as 1.20 mm, and the file says 1.05
  await needs.getByText(/^3C was written down as 1\.20 mm, the harp's file says 1\.05 mm: which is right\?$/).waitFor();
  await string(page, "4G").click();
  await page.getByRole("heading", { name: words.open("4G") }).waitFor();
  // T = ρπd²/4·(2Lf)²: 1300 · π · 0.00145² / 4 · (2 · 0.8 · 185.00)² N = 188.1 N, worked apart (G♭3 at 440 Hz is 185.00 Hz)
  await page.getByText(words.tensionTold("188")).waitFor();
  await page.getByText("its own spare; fresh (one author's guess)").waitFor();
  content(browser);
  await browser.close();
});

test("a string that broke at 18:40 is written, put on step by step, and the spares fall", async () => {
  const browser = await browse();
  await browser.context.clock.setFixedTime(NOW);
  const page = await opened(browser);
  const spares = page.getByRole("region", { name: words.spares }).getByRole("listitem").filter({ hasText: "4G" });
  await expect.poll(() => spares.locator(".count").innerText()).toBe("2");
  await page.getByRole("combobox", { name: words.one, exact: true }).selectOption({ label: "4G" });
  await press(page, words.openOne);
  const heading = page.getByRole("heading", { name: words.open("4G") });
  await heading.waitFor();
  const top = async () => (await heading.boundingBox())?.y ?? NaN;
  await expect.poll(async () => (await top()) >= 0 && (await top()) < 200).toBe(true);
  await press(page, words.broken);
  await page.getByLabel(words.place).fill("at the pin");
  await press(page, words.write);
  await string(page, "4G").getByText(words.marks.missing).waitFor();
  await press(page, words.stepByStep);
  let cautions = 0;
  let waits = 0;
  for (let at = 1; at <= 12; at += 1) {
    await page.getByRole("heading", { name: `${words.stepByStep}: ${words.step(at, 12)}` }).waitFor();
    cautions += await page.locator(".cautions li").count();
    waits += await page.getByText(words.wait("2")).count();
    if (await page.getByRole("button", { name: words.write, exact: true }).isVisible()) {
      await page.getByLabel(words.by).fill("herself");
      expect(await page.getByLabel(words.gauge).inputValue()).toBe("1.45");
      await press(page, words.write);
    } else if (at < 12) await press(page, words.next);
  }
  expect(waits).toBe(3);
  expect(cautions).toBeGreaterThan(8);
  await page.getByText(words.ready).waitFor();
  await expect.poll(() => spares.locator(".count").innerText()).toBe("1");
  await string(page, "4G").getByText(words.marks.settles).waitFor();
  await press(page, words.touchUpNew);
  await page.getByRole("heading", { level: 1, name: english.before.heading }).waitFor();
  const lines = await page.evaluate(
    () =>
      new Promise<string[]>((resolve) => {
        const asked = indexedDB.open("sevenflats");
        asked.onsuccess = () => {
          const all = asked.result.transaction("records").objectStore("records").getAll();
          all.onsuccess = () => resolve((all.result as { line: string }[]).map((kept) => kept.line));
        };
      }),
  );
  type Line = { device: string; at: string; kind: string; body: Record<string, unknown> };
  const own = lines.map((line) => JSON.parse(line) as Line).filter((line) => line.device !== "invented");
  expect(own.map((line) => line.kind)).toEqual(["string_broken", "string_fitted", "spares"]);
  expect(own[0]).toMatchObject({ at: NOW, body: { string: "G3", on: null, place: "at the pin" } });
  expect(own[1]?.body).toMatchObject({ material: "gut", gauge_mm: 1.45, used: false, by: "herself", on: null });
  expect(own[2]?.body).toMatchObject({ string: "G3", bought: "2026-09-01", change: -1 });
  content(browser);
  await browser.close();
});

test("a plot and its table agree, and it keeps the policy", async () => {
  const browser = await browse();
  await browser.context.clock.setFixedTime(NOW);
  const page = await opened(browser);
  await string(page, "3A").click();
  const plot = page.getByRole("img", { name: words.plot("3A") });
  await plot.waitFor();
  await page
    .getByRole("region", { name: words.open("3A") })
    .getByText(words.table, { exact: true })
    .click();
  const cells = await page.getByRole("region", { name: words.table }).locator("tbody td:nth-child(2)").allInnerTexts();
  const offs = cells.map(figure).filter((off) => off !== undefined);
  const marks = await plot.locator(".found circle, .left circle, .single path").count();
  const found = await plot.locator(".found circle").count();
  const both = await page.getByRole("region", { name: words.table }).getByText(words.asBoth, { exact: true }).count();
  // a reading at which a string was found and left has both its marks, one in the other
  expect(marks).toBe(offs.length + both);
  expect(found).toBe(60);
  // the lowest and the highest dot are the lowest and the highest figure: places across the height are in one line with cents
  const heights = await plot
    .locator(".found circle, .left circle")
    .evaluateAll((dots) => dots.map((dot) => Number(dot.getAttribute("cy"))));
  const description = await plot.locator("desc").textContent();
  for (const end of [Math.min(...offs), Math.max(...offs)]) expect(description).toContain(Math.abs(end).toFixed(1));
  expect(Math.min(...heights)).toBeLessThan(Math.max(...heights));
  expect(await page.locator("svg style").count()).toBe(0);
  const months = page.getByRole("region", { name: words.months, exact: true });
  await months.getByRole("img", { name: words.months }).waitFor();
  expect(await months.getByRole("img").count()).toBe(1 + 8);
  content(browser);
  await browser.close();
});

test("spares, visits and intervals are hers to write", async () => {
  const browser = await browse();
  await browser.context.clock.setFixedTime(NOW);
  const page = await opened(browser);
  await press(page, words.addSpare);
  await page.getByRole("region", { name: words.spares }).locator("select").first().selectOption({ label: "3B" });
  await page.getByLabel(words.count).fill("3");
  await press(page, words.write);
  const spare = page.getByRole("region", { name: words.spares }).getByRole("listitem").filter({ hasText: /^3B/ });
  await expect.poll(() => spares(spare)).toBe("3");
  await spare.getByRole("button", { name: /^One fewer/ }).click();
  await expect.poll(() => spares(spare)).toBe("2");
  await press(page, words.visit);
  await page.getByLabel(words.done).fill("felts renewed");
  await press(page, words.write);
  await page.getByText("felts renewed").waitFor();
  const needs = page.getByRole("region", { name: words.needs });
  await page.getByLabel(words.toYears).first().fill("9");
  await page.getByLabel(words.toYears).first().press("Enter");
  await needs.getByText(/^7\.8 years old: may be due/).waitFor();
  await page.getByRole("region", { name: words.due }).getByText("(as you set it)").waitFor();
  content(browser);
  await browser.close();
});

const spares = (spare: ReturnType<Page["locator"]>) => spare.locator(".count").innerText();

test.each(
  spoken(1, [
    ["en-GB", words, english],
    ["de-DE", german, germanPage],
    ["fr-FR", french, frenchPage],
  ]),
)(
  "every state can be read and worked (%s)",
  async (locale, own, pageWords) => {
    const browser = await browse(locale);
    await browser.context.clock.setFixedTime(NOW);
    const page = await opened(browser, own);
    expect(await page.getByRole("link", { name: pageWords.pages.strings, exact: true }).count()).toBe(1);
    const states = new States(page, tonesIn(locale));
    await page.getByRole("img", { name: own.months }).waitFor();
    await states.look("all");
    // 4G, whatever its language calls it: the nineteenth from the bass
    await all(page, own).getByRole("button").nth(18).click();
    await page.locator(".detail svg.plot").first().waitFor();
    await states.look("one string");
    await press(page, own.broken);
    await states.look("broken");
    await press(page, own.cancel);
    await press(page, own.stepByStep);
    await press(page, own.next);
    await states.look("a step");
    await press(page, own.cancel);
    await press(page, own.fitted);
    await states.look("put on");
    await press(page, own.cancel);
    await press(page, own.addSpare);
    await press(page, own.visit);
    await states.look("forms");
    for (const table of await page.getByText(own.table, { exact: true }).all()) await table.click();
    await states.look("tables");
    expect(states.troubles).toEqual([]);
    expect(states.seen).toBe(7);
    content(browser);
    await browser.close();
  },
  240_000,
);
