// The page and the server beside it give each other what either lacks; the page Diary, in every state.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as words } from "../src/words/english";
import { english as own } from "../src/words/diary/english";
import { french } from "../src/words/diary/french";
import { german } from "../src/words/diary/german";
import { french as frenchWords } from "../src/words/french";
import { german as germanWords } from "../src/words/german";
import { content, visit } from "./support/browser";
import { COMMAND, serve, type Server } from "./support/server";
import { begin, end, pluck, Plucks, press } from "./support/stand";
import { spoken, States, tonesIn } from "./support/states";
import { weeks, weeksFile } from "./support/weeks";
import { watchTasks, years } from "./support/years";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const microphone = join(sounds, "quiet.wav");
const folder = mkdtempSync(join(tmpdir(), "sevenflats-exchange-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What waits for another thread and another program. */
const PATIENT = { timeout: 20_000 };

/** What lies in the server's file: device, place and kind of each record. */
function held(diary: string): { device: string; seq: number; kind: string }[] {
  const out = execFileSync(COMMAND, ["diary", "--diary", diary, "export"], { encoding: "utf8", maxBuffer: 1 << 28 });
  return out
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as { device: string; seq: number; kind: string });
}

async function toDiary(page: Page, name = words.pages.diary): Promise<void> {
  await page.getByRole("link", { name, exact: true }).click();
  await page.getByRole("heading", { level: 1, name, exact: true }).waitFor();
}

async function aRound(page: Page, string: string): Promise<void> {
  await begin(page);
  await pluck(page, plucks, string);
  await end(page);
  await press(page, words.end.done);
}

const rounds = (page: Page) => page.locator("ul.rounds > li");

describe("two browsers and one server", () => {
  test("each has the other's round, and the server both", async () => {
    const diary = join(folder, "two.sqlite");
    const server = await serve(0, diary);
    const [first, second] = await Promise.all([visit({ microphone }), visit({ microphone })]);
    const one = await first.open(server.url);
    await aRound(one, "C3");
    await expect.poll(() => held(diary).filter(({ kind }) => kind === "round_over").length, PATIENT).toBe(1);
    const other = await second.open(server.url);
    await aRound(other, "D3");
    await toDiary(other);
    await expect.poll(() => rounds(other).count(), PATIENT).toBe(2);
    await toDiary(one);
    await expect.poll(() => rounds(one).count(), PATIENT).toBe(1);
    await press(one, own.exchange.now);
    await expect.poll(() => rounds(one).count(), PATIENT).toBe(2);
    await one.getByText(own.exchange.last("", "").slice(0, 14)).waitFor();
    const there = held(diary);
    expect(new Set(there.map(({ device }) => device)).size, "two browsers and the server itself").toBe(3);
    expect(there.filter(({ kind }) => kind === "met").length).toBe(2);
    // what a round under way writes is not disturbed, and goes when it is over
    await one.getByRole("link", { name: words.pages.tune, exact: true }).click();
    await aRound(one, "F3");
    await expect.poll(() => held(diary).filter(({ kind }) => kind === "round_over").length, PATIENT).toBe(3);
    for (const browser of [first, second]) {
      content(browser);
      await browser.close();
    }
    await server.stop();
  }, 240_000);
});

describe("a server that is gone and comes back", () => {
  test("the page goes on by itself, says so, and sends what was written meanwhile", async () => {
    const diary = join(folder, "gone.sqlite");
    let server: Server = await serve(0, diary);
    const port = Number(new URL(server.url).port);
    const browser = await visit({ microphone });
    const page = await browser.open(server.url);
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await page.reload();
    await toDiary(page);
    await note(page, "before");
    await expect.poll(() => held(diary).filter(({ kind }) => kind === "note").length, PATIENT).toBe(1);
    await server.stop();
    await note(page, "while it was gone");
    await page.getByText(own.exchange.trouble["away"] ?? "").waitFor();
    await page.getByText("while it was gone").waitFor();
    server = await serve(port, diary);
    await press(page, own.exchange.now);
    await expect.poll(() => held(diary).filter(({ kind }) => kind === "note").length, PATIENT).toBe(2);
    await page.getByText(own.exchange.trouble["away"] ?? "").waitFor({ state: "detached" });
    content(browser);
    await browser.close();
    await server.stop();
  });
});

/** Writes a note as a reader does. */
async function note(page: Page, text: string): Promise<void> {
  const box = page.getByRole("textbox", { name: own.note });
  if (!(await box.isVisible())) await page.getByText(own.write, { exact: true }).click();
  await box.fill(text);
  await press(page, own.keepNote);
  await page.getByText(own.kept, { exact: true }).waitFor();
}

test("what is written wrong is put right by another record, and stays", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await toDiary(page);
  await note(page, "a bried note");
  await page.getByRole("button", { name: own.correctThis("a bried note") }).click();
  await page.locator("li form").getByRole("textbox", { name: own.note }).fill("a brief note");
  await press(page, own.keepRight);
  await page.getByText("a brief note").waitFor();
  await page.getByText(`(${own.corrected})`).waitFor();
  await page.getByText(own.write, { exact: true }).click();
  await page.getByText(own.write, { exact: true }).click();
  await page.getByRole("spinbutton", { name: own.humidity }).fill("130");
  await press(page, own.keepAir);
  await page.getByText(own.wrong["humidity"] ?? "").waitFor();
  await page.getByRole("spinbutton", { name: own.humidity }).fill("44");
  await press(page, own.keepAir);
  await page.getByText("44 % humidity").waitFor();
  const file = page.waitForEvent("download");
  await press(page, words.diary.export);
  const stream = await (await file).createReadStream();
  const parts: Buffer[] = [];
  for await (const part of stream) parts.push(part as Buffer);
  const lines = Buffer.concat(parts).toString().trim().split("\n");
  expect(lines.map((line) => (JSON.parse(line) as { kind: string }).kind)).toEqual(["note", "correction", "air"]);
  expect(lines[0]).toContain("a bried note");
  content(browser);
  await browser.close();
});

/** Rounds of half a year, one a day; of ten years in a long run. */
const ROUNDS = process.env["SEVENFLATS_LONG"] ? 3_650 : 180;
/** A page that answers nobody for so long has stopped, milliseconds; on a machine at rest it is never busy for 200. */
const BUSY_MS = 1_000;

test("years are read and exchanged while the page goes on", async () => {
  const diary = join(folder, "years.sqlite");
  const server = await serve(0, diary);
  const browser = await visit({ microphone });
  const page = await browser.open(server.url);
  await page.getByRole("heading", { level: 1 }).waitFor();
  await toDiary(page);
  await page.getByText(own.none).waitFor();
  const { records, bytes } = await years(page, ROUNDS);
  await page.getByRole("link", { name: words.pages.tune, exact: true }).click();
  const opened = Date.now();
  await page.reload();
  const longest = await watchTasks(page);
  let from = Date.now();
  await toDiary(page);
  await page.getByText(own.shown("40", ROUNDS.toLocaleString("en-GB"))).waitFor({ timeout: 60_000 });
  const readMs = Date.now() - from;
  const reading = await longest();
  await page.getByRole("button", { name: own.more, exact: true }).click();
  await page.getByText(own.shown("80", ROUNDS.toLocaleString("en-GB"))).waitFor();
  // it began by itself when the page was opened
  const there = () => held(diary).filter(({ device }) => device === "years").length;
  await expect.poll(there, { timeout: 300_000, interval: 5_000 }).toBe(records);
  await page.getByText(/[1-9][\d,]* records went there/).waitFor({ timeout: 60_000 });
  const sentMs = Date.now() - opened;
  const all = await longest();
  from = Date.now();
  await press(page, own.check.look);
  await page.getByText(own.check.whole).waitFor({ timeout: 60_000 });
  console.log(
    `${records} records, ${(bytes / 1e6).toFixed(0)} MB: read in ${readMs} ms, exchanged in ${sentMs} ms, looked through in ${Date.now() - from} ms; the page busy for ${reading.toFixed(0)} ms at most while it was read, ${all.toFixed(0)} ms in all`,
  );
  expect(all).toBeLessThan(BUSY_MS);
  content(browser);
  await browser.close();
  await server.stop();
}, 500_000);

describe.each(
  spoken(2, [
    ["en-GB", own, words],
    ["de-DE", german, germanWords],
    ["fr-FR", french, frenchWords],
  ]),
)("every state of the Diary in %s", (locale, own, words) => {
  let states: States;
  let complaints: string[] = [];

  beforeAll(async () => {
    const server = await serve(0, join(folder, `${locale}.sqlite`));
    const browser = await visit({ microphone, context: { locale, reducedMotion: "reduce" } });
    const page = await browser.open(server.url);
    states = new States(page, tonesIn(locale));
    await toDiary(page, words.pages.diary);
    await page.getByText(own.none).waitFor();
    await states.look("diary-empty");
    await page.locator("input[type=file]").setInputFiles(weeksFile());
    await page
      .getByText(own.kinds["met"] ?? "")
      .first()
      .waitFor({ state: "attached" });
    await page.getByText(own.corrected).first().waitFor();
    await states.look("diary-leaves");
    await page.getByText(own.write, { exact: true }).click();
    await states.look("diary-writing");
    await page
      .getByRole("button", { name: own.correctThis("").trim() })
      .first()
      .click();
    await page.getByText(own.correctHow).waitFor();
    await states.look("diary-correcting");
    await press(page, own.close);
    const twin = (weeks()[0] ?? "").replace("carpet", "rug");
    await page
      .locator("input[type=file]")
      .setInputFiles(weeksFile([twin, "no record", (weeks()[1] ?? "").replace('"seq":2', '"seq":40')]));
    await page.getByText(words.diary.conflicts(1)).waitFor();
    await press(page, own.check.look);
    await page.getByText(own.check.twin("weeks 1")).waitFor();
    await states.look("diary-check");
    await page.getByRole("combobox").selectOption("note");
    await page
      .getByText(own.kinds["air"] ?? "", { exact: false })
      .first()
      .waitFor({ state: "attached" });
    await page.getByText("441", { exact: false }).waitFor({ state: "detached" });
    await states.look("diary-filtered");
    complaints = browser.complaints;
    await browser.close();
    await server.stop();
  }, 240_000);

  test("was reached, has no fault that axe finds, and is nowhere too wide", () => {
    expect(states.seen).toBe(6);
    expect(states.troubles).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
