// Programme: scores given, planned, changed, printed, kept; long ones and damaged ones.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as general } from "../src/words/english";
import { french as frenchGeneral } from "../src/words/french";
import { german as germanGeneral } from "../src/words/german";
import { english as words } from "../src/words/programme";
import { french } from "../src/words/programme/french";
import { german } from "../src/words/programme/german";
import { content, visit, type Visit } from "./support/browser";
import { changes, drop, engraved, evening, give, planned, programme } from "./support/evening";
import { byCommand, SCORES } from "./support/planned";
import { piece } from "./support/scores";
import { serve } from "./support/server";
import { press } from "./support/stand";
import { cpuOfTasks } from "./support/tasks";
import { spoken, States, tonesIn } from "./support/states";

const microphone = join(inject("sounds"), "quiet.wav");
const folder = mkdtempSync(join(tmpdir(), "sevenflats-scores-"));
const WEIR = piece(24, "A Walk by the Weir");
const weir = join(folder, "weir.musicxml");
writeFileSync(weir, WEIR);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Line {
  bar: string;
  pedal: string;
  to: "flat" | "natural" | "sharp";
}

const SIGNS = { flat: "♭", natural: "♮", sharp: "♯" };
const asListed = (lines: Line[]) => lines.map(({ pedal, to, bar }) => `${pedal}${SIGNS[to]} in bar ${bar}`);
const withoutBeat = (listed: string[]) => listed.map((line) => line.replace(/, beat .*/, ""));

/** What the command plans of the same piece. */
const byTheCommand = (...options: string[]) => asListed(byCommand(weir, options)["changes"] as Line[]);

describe("one piece", () => {
  let browser: Visit;
  let page: Page;
  let before: string[];

  beforeAll(async () => {
    browser = await visit({ microphone, context: { viewport: { width: 1280, height: 900 } } });
    page = await browser.open(inject("url"));
    await programme(page);
  });
  afterAll(() => browser.close());

  test("is dropped, planned as the command plans it, and engraved with a ring for every place", async () => {
    await drop(page, "weir.musicxml", WEIR);
    await engraved(page);
    before = await changes(page);
    expect(before.length).toBeGreaterThan(5);
    expect(withoutBeat(before)).toEqual(byTheCommand());
    const rings = page.locator("[data-mark]");
    await expect.poll(() => rings.count()).toBe(before.length);
    expect(await page.locator(".dir ellipse").count()).toBe(before.length);
    expect(await page.locator('.system [id^="bar-"]').count()).toBe(24);
  });

  test("is walked through by bar and by mark, with buttons and keys", async () => {
    const where = () => page.locator(".where").innerText();
    expect(await where()).toMatch(/^Bar 1\b/);
    await page.getByRole("button", { name: words.nextBar }).click();
    expect(await where()).toBe("Bar 2");
    await page.locator("h1").click();
    await page.keyboard.press("ArrowRight");
    expect(await where()).toBe("Bar 3");
    await page.keyboard.press("Shift+ArrowRight");
    expect(await where()).toMatch(/^Bar 9\s*2$/);
    await page.keyboard.press("Shift+ArrowLeft");
    await page.keyboard.press("ArrowLeft");
    expect(await where()).toMatch(/^Bar 1\b/);
    await page.getByRole("button", { name: words.nextMark }).click();
    await expect.poll(() => page.locator("#bar-9 .ground").count()).toBe(1);
    // the setting of bar 9, as the command has it, read out
    const settings = byCommand(weir, [])["settings"] as { measure: number; setting: Record<string, number> }[];
    const setting = settings.find((line) => line.measure === 9)?.setting ?? {};
    const signs: Record<number, string> = { [-1]: "♭", 0: "", 1: "♯" };
    const said = Object.entries(setting).map(([letter, at]) => `${letter}${signs[at]}`);
    const label = await page.locator(".beside [role=img]").getAttribute("aria-label");
    expect(label?.split(", ").map((one) => one.split(" ")[0])).toEqual(said);
  });

  test("a change is chosen in the score, and its price told", async () => {
    await page.locator(".dir:has([data-mark]) ellipse").first().click({ force: true });
    await page.getByRole("heading", { name: before[0] ?? "" }).waitFor();
    await press(page, words.why);
    await page.getByText(words.otherWays).waitFor({ timeout: 30_000 });
    const ways = await page.locator("section[aria-labelledby=change] ul").last().locator("li").allInnerTexts();
    expect(ways.length).toBe(3);
    // the plan was the best: no other way costs less
    for (const way of ways) expect(way).toMatch(/more|the same/);
  });

  test("forbidden, it goes, and comes back when that is undone", async () => {
    await press(page, words.hold.not);
    await expect.poll(() => changes(page)).not.toEqual(before);
    const forbidden = await changes(page);
    expect(forbidden).not.toContain(before[0]);
    await engraved(page);
    await expect.poll(() => page.locator("[data-mark]").count()).toBeGreaterThan(0);
    await press(page, words.undo);
    await expect.poll(() => changes(page)).toEqual(before);
    await press(page, words.redo);
    await expect.poll(() => changes(page)).toEqual(forbidden);
    await page.locator("h1").click();
    await page.keyboard.press("Control+z");
    await expect.poll(() => changes(page)).toEqual(before);
  });

  test("moved later and pinned, the plan is the command's with the same pins", async () => {
    await page.locator(".changes button").first().click();
    await press(page, words.hold.later);
    await page.getByRole("heading", { name: words.chosen }).waitFor();
    await expect.poll(() => changes(page)).not.toEqual(before);
    const command = byTheCommand("--pin", "5:1:F=natural,5:3/2:F=sharp");
    await expect.poll(async () => withoutBeat(await changes(page))).toEqual(command);
    await page.getByRole("button", { name: /^Take back/ }).click();
    await expect.poll(() => changes(page)).toEqual(before);
  });

  test("another price is followed at once", async () => {
    await page.getByText(words.wishes, { exact: true }).click();
    const moved = page.getByLabel(words.price.moved, { exact: true });
    await moved.fill("4000000");
    await moved.press("Tab");
    await expect.poll(async () => (await changes(page)).length).toBeLessThan(before.length);
    await press(page, words.undo);
    await expect.poll(() => changes(page)).toEqual(before);
  });

  test("with F stuck and 5A gone it is planned round them, and what is lost leads to its bar", async () => {
    await page.getByText(words.broken, { exact: true }).click();
    await page.getByLabel(words.stuckPedal, { exact: true }).selectOption({ label: "F" });
    await press(page, `${words.add}: ${words.stuckPedal}`);
    await page.getByText(words.stuck("F", words.positions.sharp)).first().waitFor();
    await page.getByLabel(words.missingString, { exact: true }).selectOption({ label: "5A" });
    await press(page, `${words.add}: ${words.missingString}`);
    await page.getByText(words.missing("5A")).first().waitFor();
    const command = byTheCommand("--stuck", "F=sharp", "--missing", "5A");
    // of many the first forty are listed
    await expect.poll(async () => withoutBeat(await changes(page))).toEqual(command.slice(0, 40));
    const lost = page.locator("h3", { hasText: words.cannot }).locator("+ ul li").first();
    const bar = /bar (\d+)/.exec(await lost.innerText())?.[1];
    await lost.getByRole("button").click();
    await expect.poll(() => page.locator(".where").innerText()).toMatch(new RegExp(`^Bar ${bar}\\b`));
    await press(page, words.undo);
    await press(page, words.undo);
    await expect.poll(() => changes(page)).toEqual(before);
  });

  test("is printed: opening, a diagram at each mark, the changes by bar, and nothing else", async () => {
    await page.evaluate(() => (window.print = () => ((window as { printed?: boolean }).printed = true)));
    await press(page, words.print);
    await expect.poll(() => page.evaluate(() => (window as { printed?: boolean }).printed)).toBe(true);
    await page.emulateMedia({ media: "print" });
    const paper = page.locator(".paper");
    expect(await paper.isVisible()).toBe(true);
    expect(await page.locator(".page.screen").isVisible()).toBe(false);
    expect(await page.getByRole("navigation").isVisible()).toBe(false);
    // marks at bars 1, 9 and 17, and the opening
    expect(await paper.getByRole("img").count()).toBe(4);
    const printed = await paper.locator(".change").allInnerTexts();
    expect(printed.length).toBe(before.length);
    expect(await page.pdf({ format: "A4" })).not.toHaveLength(0);
    await page.emulateMedia({ media: "screen" });
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  });

  test("its plan is kept in the diary, with its name and hash, and never the score", async () => {
    await press(page, words.keep);
    await page.getByText(words.kept).waitFor();
    await page.getByRole("link", { name: general.pages.diary, exact: true }).click();
    const file = page.waitForEvent("download");
    await press(page, general.diary.export);
    const lines = readFileSync(await (await file).path(), "utf8")
      .trim()
      .split("\n");
    expect(lines.length).toBe(1);
    const { kind, v, body } = JSON.parse(lines[0] ?? "") as { kind: string; v: number; body: Record<string, unknown> };
    expect([kind, v, body["source"], body["total"]]).toEqual(["plan", 1, "weir.musicxml", total()]);
    const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(WEIR));
    expect(body["sha256"]).toBe(Buffer.from(hash).toString("hex"));
    expect(lines[0]).not.toContain("<");
    // the page still has the evening when one comes back to it
    await programme(page);
    await expect.poll(() => changes(page)).toEqual(before);
  });

  test("nothing is complained of, or asked of anybody else", () => content(browser));
});

const total = () => (byCommand(weir, [])["cost"] as { total: number }).total;

test("what is set before a second movement is shown, and printed", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await programme(page);
  const name = "two-movements.musicxml";
  await give(page, { name, text: readFileSync(join(SCORES, name), "utf8") });
  await planned(page);
  const set = byCommand(join(SCORES, name), [])["settings"] as { measure: number; setting: Record<string, number> }[];
  const second = set.find(({ measure }) => measure === 5)?.setting ?? {};
  expect(second).toMatchObject({ F: 1, C: 1, E: 0, B: 0 });
  await page.getByRole("heading", { name: words.beforeMovement(2, "1") }).waitFor();
  const shown = page
    .getByRole("heading", { name: words.beforeMovement(2, "1") })
    .locator("xpath=following-sibling::*[1]");
  for (const letter of ["F♯", "C♯"]) expect(await shown.innerText()).toContain(letter);
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => void dispatchEvent(new Event("beforeprint")));
  const paper = page.locator(".paper");
  await paper.getByText(words.movement(2)).waitFor();
  for (const letter of ["F♯", "C♯"]) expect(await paper.innerText()).toContain(letter);
  content(browser);
  await browser.close();
});

test("with the server dead and the browser restarted a kept score is there, planned and engraved", async () => {
  const kept = mkdtempSync(join(tmpdir(), "sevenflats-browser-"));
  const server = await serve();
  let browser = await visit({ microphone, kept });
  let page = await browser.open(server.url);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await programme(page);
  await give(page, { name: "weir.musicxml", text: WEIR }, { name: "ford.musicxml", text: piece(8, "The Ford") });
  await page.getByRole("heading", { level: 2, name: "The Ford" }).waitFor();
  await planned(page);
  // the one that is open is kept, the other is not
  await page.getByRole("checkbox", { name: words.keepScore }).check();
  const before = await changes(page);
  await page.waitForTimeout(300);
  content(browser);
  await browser.close();
  await server.stop();

  browser = await visit({ microphone, kept });
  page = await browser.open(server.url);
  await programme(page);
  await page.getByRole("heading", { level: 2, name: "The Ford" }).waitFor();
  await engraved(page);
  expect(await changes(page)).toEqual(before);
  expect(await page.getByText("A Walk by the Weir").count()).toBe(0);
  content(browser);
  await browser.close();
  rmSync(kept, { recursive: true, force: true });
});

describe("a thousand bars", () => {
  let browser: Visit;
  let page: Page;

  beforeAll(async () => {
    browser = await visit({ microphone, context: { viewport: { width: 1280, height: 900 } } });
    page = await browser.open(inject("url"));
    await programme(page);
  });
  afterAll(() => browser.close());

  test("planning is seen, stopped, and begun again", async () => {
    writeFileSync(join(folder, "longest.musicxml"), piece(2400, "No End"));
    await page.locator("main input[type=file]").setInputFiles(join(folder, "longest.musicxml"));
    await page.getByText(words.planning, { exact: true }).waitFor({ timeout: 30_000 });
    expect(await page.getByRole("progressbar").count()).toBe(1);
    await press(page, words.stop);
    await page.getByText(words.stopped).waitFor();
    expect(await page.getByRole("heading", { name: words.bill }).count()).toBe(0);
    await press(page, words.again);
    await page.getByRole("heading", { name: words.bill }).waitFor({ timeout: 60_000 });
    await page.getByRole("button", { name: words.remove("No End") }).click();
  });

  test(
    "no task holds the page up for more than 200 ms, from the file to the last system",
    { timeout: 180_000 },
    async () => {
      writeFileSync(join(folder, "long.musicxml"), piece(1000, "A Long Way Down"));
      const tasks = await cpuOfTasks(page, async () => {
        await page.locator("main input[type=file]").setInputFiles(join(folder, "long.musicxml"));
        await page.getByRole("heading", { level: 2, name: "A Long Way Down" }).waitFor();
        await planned(page);
        await page.getByText(words.engraving, { exact: true }).waitFor({ state: "detached", timeout: 150_000 });
        await page.locator(".changes button").nth(3).click();
        await press(page, words.hold.not);
        await page.getByRole("heading", { name: words.chosen }).waitFor();
        await page.waitForTimeout(2_000);
      });
      expect(tasks.counted).toBeGreaterThan(100);
      expect(tasks.longestMs).toBeLessThanOrEqual(200);
      const until = await page.locator("div.system").last().getAttribute("data-until");
      expect(until).toBe("1000");
    },
  );

  test("nothing is complained of", () => content(browser));
});

test("of a damaged score what was read is shown, and what was not is named", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await programme(page);
  const text = piece(16, "The Ford", [3]);
  await give(page, { name: "ford.musicxml", text: text.slice(0, text.indexOf('<measure number="13">') + 300) });
  await engraved(page);
  expect(await page.locator("div.system").last().getAttribute("data-until")).toBe("13");
  const doubts = page.locator("h3", { hasText: words.inDoubt }).locator("+ ul li");
  const told = (await doubts.allInnerTexts()).join("\n");
  expect(told).toMatch(/Bar 3\s+part Harp: this bar cannot be read/);
  expect(told).toMatch(/breaks off/);
  await doubts
    .getByRole("button", { name: words.bar("3") })
    .first()
    .click();
  await expect.poll(() => page.locator(".where").innerText()).toMatch(/^Bar [34]\b/);
  await give(page, { name: "letter.txt", text: "Dear harpist" });
  await page.getByRole("alert").getByText("letter.txt").waitFor();
  expect(await page.getByRole("heading", { level: 2, name: "The Ford" }).count()).toBe(1);
  content(browser);
  await browser.close();
});

test("pieces are put in order, and only strings that change between them are offered to be tuned", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await programme(page);
  /** One bar whose lowest note is this. */
  const low = (title: string, alter: number) =>
    piece(2, title).replace(
      /<note><pitch><step>\w<\/step>(<alter>-?\d<\/alter>)?<octave>2/,
      `<note><pitch><step>C</step><alter>${alter}</alter><octave>1`,
    );
  await give(page, { name: "a.musicxml", text: low("Ash", -1) }, { name: "b.musicxml", text: low("Birch", 0) });
  await page.getByRole("heading", { level: 2, name: "Birch" }).waitFor();
  await planned(page);
  const between = page.locator(".between");
  await expect.poll(() => between.innerText()).toContain(words.between(words.byKeyLine("7C", "C♮")));
  await page.getByRole("button", { name: words.earlierPiece("Birch") }).click();
  await expect.poll(() => page.locator("li .title").allInnerTexts()).toEqual(["Birch", "Ash"]);
  await expect.poll(() => between.innerText()).toContain(words.between(words.byKeyLine("7C", "C♭")));
  await page.getByRole("link", { name: general.pages.tune, exact: true }).click();
  await page.getByText(general.first.tonight("Birch", "7C C♮"), { exact: true }).waitFor();
  await programme(page);
  await press(page, words.touchUp);
  await press(page, general.before.allow);
  await press(page, general.before.begin);
  await page.getByRole("button", { name: general.round.pause, exact: true }).waitFor();
  // C flat, which Ash wants of its lowest string, and a chromatic device calls B
  await expect.poll(() => page.locator("main").innerText()).toMatch(/^7C$[\s\S]*a tuner shows B$/m);
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
  test("has no fault that axe finds, and needs no sideways scrolling", { timeout: 300_000 }, async () => {
    const browser = await visit({ microphone, context: { locale, reducedMotion: "reduce" } });
    const page = await browser.open(inject("url"));
    const states = new States(page, tonesIn(locale));
    await evening(page, (state) => states.look(state), own, ownGeneral);
    expect(states.seen).toBe(6);
    expect(states.troubles).toEqual([]);
    content(browser);
    await browser.close();
  });
});
