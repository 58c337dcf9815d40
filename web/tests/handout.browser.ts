// A student's handout on the page: chosen, seen, printed, and read by another reader; the name is not kept unasked.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as general } from "../src/words/english";
import { french as frenchGeneral } from "../src/words/french";
import { german as germanGeneral } from "../src/words/german";
import { english as words } from "../src/words/handout/english";
import { french } from "../src/words/handout/french";
import { german } from "../src/words/handout/german";
import { content, visit, type Visit } from "./support/browser";
import { readPdf, type PrintedPage, type PrintedWord } from "./support/pdf";
import { COMMAND } from "./support/server";
import { spoken, States, tonesIn } from "./support/states";

const microphone = join(inject("sounds"), "quiet.wav");
const folder = mkdtempSync(join(tmpdir(), "sevenflats-handout-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Sizes in points: ISO 216 gives A4 210 × 297 mm, and letter is 8½ × 11 inches. */
const A4 = [(210 / 25.4) * 72, (297 / 25.4) * 72] as const;
const LETTER = [8.5 * 72, 11 * 72] as const;

async function open(page: Page, own = general, ownWords = words): Promise<void> {
  await page.getByRole("link", { name: own.pages.teaching, exact: true }).click();
  await page.getByRole("heading", { level: 2, name: ownWords.heading }).waitFor();
  await ready(page, ownWords);
}

/** The pages of the last choice are there. */
const ready = (page: Page, own = words) =>
  page.getByRole("button", { name: own.print }).and(page.locator(":enabled")).waitFor();

const choose = async (page: Page, name: string, label: string | RegExp, own = words): Promise<void> => {
  const box = page.getByRole("combobox", { name, exact: true });
  const option = box.locator("option").filter({ hasText: label });
  await box.selectOption((await option.first().getAttribute("value")) ?? "");
  await page.waitForTimeout(50);
  await ready(page, own);
};

const name = (page: Page, own = words) => page.getByRole("textbox", { name: own.student });

let printed = 0;
/** On paper, as the browser prints it, on the paper that the page asks for. */
async function paper(page: Page): Promise<PrintedPage[]> {
  const path = join(folder, `${(printed += 1)}.pdf`);
  await page.pdf({ path, preferCSSPageSize: true });
  return readPdf(path);
}

/** Right in size, one or two pages, something on each, and nothing over an edge or on the unprinted rim of 5 mm. */
function fits(pages: PrintedPage[], [wide, high]: readonly [number, number]): void {
  expect(pages.length).toBeGreaterThanOrEqual(1);
  expect(pages.length).toBeLessThanOrEqual(2);
  const rim = (5 / 25.4) * 72;
  for (const { width, height, words: all } of pages) {
    expect(Math.abs(width - wide)).toBeLessThan(1);
    expect(Math.abs(height - high)).toBeLessThan(1);
    expect(all.length).toBeGreaterThan(50);
    const out = all.filter(
      (word) => word.left < rim || word.top < rim || word.right > width - rim || word.bottom > height - rim,
    );
    expect(out.map((word) => word.text)).toEqual([]);
  }
}

/** What the command prints of the same choice. */
function byTheCommand(choice: string[]): PrintedPage[] {
  const path = join(folder, "by-the-command.pdf");
  execFileSync(COMMAND, ["handout", ...choice, "--out", path]);
  return readPdf(path);
}

/** By text, and the same text by its place. */
const sorted = (all: PrintedWord[]) =>
  [...all].sort((one, other) => one.text.localeCompare(other.text) || one.top - other.top || one.left - other.left);

const texts = (pages: PrintedPage[]) => pages.map((one) => one.words.map(({ text }) => text));

describe("chosen and printed", () => {
  let browser: Visit;
  let page: Page;

  beforeAll(async () => {
    browser = await visit({ microphone });
    page = await browser.open(inject("url"));
    await open(page);
  });
  afterAll(() => browser.close());

  test("at first it is the harp under Tune, in the page's language", async () => {
    expect(await page.locator(".pages img").count()).toBe(2);
    const pages = await paper(page);
    fits(pages, A4);
    // what else stands on the page stays off the paper
    expect(texts(pages).flat()).not.toContain(general.pages.settings);
    const [first = []] = texts(pages);
    // 47 strings from 7C to 0G; with all pedals up a tuner shows B for C flat: common practice, no source
    for (const there of ["47", "7C", "0G", "C♭", "440"]) expect(first.join(" ")).toContain(there);
  });

  // German names B flat B, and B natural H: common practice, no source. lever34 in E flat sounds B flat, A flat, E flat.
  test("a lever harp of 34 strings in German has the German names of its notes", async () => {
    await choose(page, words.harp, /^\s*lever harp, 34 strings/);
    await choose(page, general.first.open, "E♭");
    await choose(page, words.language, "Deutsch");
    await name(page).fill("Perpetua Quill");
    await page.waitForTimeout(400);
    await ready(page);
    const pages = await paper(page);
    fits(pages, A4);
    const [first = [], second = []] = texts(pages);
    const all = first.join(" ");
    expect(all).toContain("34 Saiten");
    expect(all).toContain("Perpetua Quill");
    // strings by the harp's numbers, C2 to A6: 6C to 1A; those of B are called H
    const named = first.filter((word) => /^\d[A-H]$/.test(word));
    for (const string of ["6C", "1A", "2H", "3H", "4H", "5H"]) expect(named).toContain(string);
    expect(named.filter((word) => word.endsWith("B"))).toEqual([]);
    // each of the 34 in the table once; the drawing and the order name some again
    expect(new Set(named).size).toBeGreaterThanOrEqual(34);
    // what they sound with the levers off
    for (const sounds of ["Es", "As", "B"]) expect(first).toContain(sounds);
    expect(second.join(" ")).toMatch(/Perpetua Quill/);
    expect(`${all} ${second.join(" ")}`).not.toMatch(/\b(string|lever|the)\b/);
    // it is what the command prints, each word at its place; the browser's pictures are half a millimetre lower than the paper
    const theirs = byTheCommand([
      "--harp",
      "lever34",
      "--open",
      "Eb",
      "--language",
      "de",
      "--student",
      "Perpetua Quill",
    ]);
    expect(pages.length).toBe(theirs.length);
    for (const [nth, { words: ours }] of pages.entries()) {
      const other = theirs[nth]?.words ?? [];
      expect(sorted(ours).map(({ text }) => text)).toEqual(sorted(other).map(({ text }) => text));
      for (const [at, word] of sorted(ours).entries()) {
        const there = sorted(other)[at];
        const off = Math.max(Math.abs(word.left - (there?.left ?? NaN)), Math.abs(word.top - (there?.top ?? NaN)));
        expect(off, word.text).toBeLessThan(3);
      }
    }
  });

  test("it is the same as the preview, and as the words for whoever cannot see it", async () => {
    await page.getByText(words.asText, { exact: true }).click();
    const said = page.locator("section details p");
    expect(await said.first().getAttribute("lang")).toBe("de");
    const pages = texts(await paper(page));
    for (const [nth, all] of pages.entries()) {
      const spoken = (await said.nth(nth).innerText()).split(/\s+/);
      expect([...all].sort()).toEqual([...spoken].sort());
    }
  });

  test("on letter paper it is printed on letter", async () => {
    await choose(page, words.paper, words.papers.letter);
    fits(await paper(page), LETTER);
    await choose(page, words.paper, words.papers.a4);
  });

  test("another pitch and order stand on it; a pitch that cannot be is not taken", async () => {
    const hertz = page.getByRole("spinbutton", { name: words.pitch });
    await hertz.fill("442");
    await hertz.press("Tab");
    await choose(page, general.first.order, general.first.orders.from_bass);
    const [first = []] = texts(await paper(page));
    expect(first.join(" ")).toMatch(/442\sHz/);
    expect(first.join(" ")).toContain("Von der tiefsten Saite");
    await hertz.fill("900");
    await hertz.press("Tab");
    await ready(page);
    expect(
      texts(await paper(page))
        .flat()
        .join(" "),
    ).toMatch(/442\sHz/);
  });

  test("what was chosen is there after the page was closed; the name only if she wishes", async () => {
    await page.reload();
    await open(page);
    expect(await page.getByRole("combobox", { name: words.language }).inputValue()).toBe("de");
    expect(await name(page).inputValue()).toBe("");
    const stored = () =>
      page.evaluate(() => JSON.stringify({ ...localStorage }) + JSON.stringify({ ...sessionStorage }));
    expect(await stored()).not.toContain("Quill");
    await name(page).fill("Perpetua Quill");
    // on another place of the page and back it is still there
    await page.getByRole("link", { name: general.pages.care, exact: true }).click();
    await open(page);
    expect(await name(page).inputValue()).toBe("Perpetua Quill");
    expect(await stored()).not.toContain("Quill");
    await page.getByRole("checkbox", { name: words.keep }).check();
    await page.reload();
    await open(page);
    expect(await name(page).inputValue()).toBe("Perpetua Quill");
    await page.getByRole("checkbox", { name: words.keep }).uncheck();
    expect(await stored()).not.toContain("Quill");
  });

  test("nothing is complained of, or asked of anybody else", () => content(browser));
});

test("every harp on both papers in every language fits its pages", { timeout: 180_000 }, async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await open(page);
  const long = "Wilhelmine-Antoinette Obermooshuber-Castelnaudary";
  await name(page).fill(long);
  const harps = page.getByRole("combobox", { name: words.harp }).locator("option");
  const values = await harps.evaluateAll((all) => all.map((one) => (one as HTMLOptionElement).value));
  expect(values.length).toBeGreaterThan(8);
  // the largest and the smallest; that all fit is held in the room that lays them out
  for (const value of [values[1] ?? "", values.at(-1) ?? ""])
    for (const language of ["English", "Deutsch", "Français"])
      for (const sheet of ["a4", "letter"] as const) {
        await page.getByRole("combobox", { name: words.harp }).selectOption(value);
        await choose(page, words.language, language);
        await choose(page, words.paper, words.papers[sheet]);
        const pages = await paper(page);
        fits(pages, sheet === "a4" ? A4 : LETTER);
        expect(texts(pages).flat().join(" ")).toContain("Obermooshuber");
      }
  content(browser);
  await browser.close();
});

describe.each(
  spoken(1, [
    ["en-GB", words, general],
    ["de-DE", german, germanGeneral],
    ["fr-FR", french, frenchGeneral],
  ]),
)("every state in %s", (locale, own, ownGeneral) => {
  test("has no fault that axe finds, and needs no sideways scrolling", { timeout: 120_000 }, async () => {
    const browser = await visit({ microphone, context: { locale, reducedMotion: "reduce" } });
    const page = await browser.open(inject("url"));
    const states = new States(page, tonesIn(locale));
    await open(page, ownGeneral, own);
    await states.look("the harp under Tune");
    await choose(page, own.harp, new RegExp(own.called.lever("34")), own);
    await name(page, own).fill("Perpetua Quill");
    await page.getByText(own.asText, { exact: true }).click();
    await page.waitForTimeout(400);
    await ready(page, own);
    await states.look("a lever harp, a name, and its text");
    expect(states.seen).toBe(2);
    expect(states.troubles).toEqual([]);
    content(browser);
    await browser.close();
  });
});
