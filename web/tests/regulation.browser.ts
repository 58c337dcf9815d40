// Regulation: one letter checked in real time against the truth of its sounds; kept, broken off, taken up, held against another.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as general } from "../src/words/english";
import { french as frenchGeneral } from "../src/words/french";
import { german as germanGeneral } from "../src/words/german";
import { english as words } from "../src/words/regulation";
import { french } from "../src/words/regulation/french";
import { german } from "../src/words/regulation/german";
import { content, visit, type Visit } from "./support/browser";
import { beginCheck, checkedStates, choose, guided, read, regulation, watchGuide } from "./support/regulation";
import { truthOf } from "./support/samples";
import { COMMAND } from "./support/server";
import { called, figure, Plucks, press } from "./support/stand";
import { spoken, States, tonesIn } from "./support/states";

const sounds = inject("sounds");
const quiet = join(sounds, "quiet.wav");
const plucks = new Plucks(sounds);

/** A record of the diary, as far as it is looked at here. */
interface Kept {
  kind: string;
  body: {
    harp: string;
    a4_hz: number;
    strings: { string: string; found: string; positions: { position: string; off_cents: number }[] }[];
    pedals: { letter: string; position: string; off_cents: number }[];
  };
}

/** Every record in the browser's own store. */
async function diary(page: Page): Promise<Kept[]> {
  const lines = await page.evaluate(async () => {
    const opened = indexedDB.open("sevenflats");
    await new Promise((resolve) => (opened.onsuccess = resolve));
    const all = opened.result.transaction("records").objectStore("records").getAll();
    await new Promise((resolve) => (all.onsuccess = resolve));
    opened.result.close();
    return (all.result as { line: string }[]).map(({ line }) => line);
  });
  return lines.map((line) => JSON.parse(line) as Kept);
}

const STRINGS = ["F6", "F5", "F4"];

/** What a step of the sounds is off by, in cents: from their frequencies alone, the open string the mean of both times. */
function truth(): Map<string, { natural: number; sharp: number; sum: number }> {
  const all = (truthOf(sounds, "check") as unknown as { plucks: { string: string; heard_hz: number }[] }).plucks;
  const cents = (hz: number) => 1200 * Math.log2(hz / 440);
  return new Map(
    STRINGS.map((string) => {
      const [open = NaN, natural = NaN, sharp = NaN, again = NaN] = all
        .filter((pluck) => pluck.string === string)
        .map(({ heard_hz }) => cents(heard_hz));
      const from = (open + again) / 2;
      return [string, { natural: natural - from - 100, sharp: sharp - natural - 100, sum: sharp - from - 200 }];
    }),
  );
}

/** A step as it is shown: its error, and the half of its interval. */
function shown(cell: string): { error: number; half: number } {
  const [error = "", half = ""] = cell.replace(/was .*/, "").split("±");
  return { error: figure(error) ?? NaN, half: figure(half) ?? NaN };
}

describe("one letter in real time", () => {
  const folder = mkdtempSync(join(tmpdir(), "sevenflats-check-"));
  const { seconds } = truthOf(sounds, "check");
  let led: { wheres: string[]; names: string[] };
  let browser: Visit;
  let page: Page;

  /** The check from its first sound to its last; whether it came to its end by itself. */
  async function played(): Promise<boolean> {
    browser = await visit({ microphone: join(sounds, "check.wav"), once: true });
    page = await browser.open(inject("url"));
    await page.getByRole("button", { name: general.first.on, exact: true }).waitFor();
    await regulation(page);
    await choose(page, [...STRINGS].reverse());
    await beginCheck(page);
    await watchGuide(page);
    const findings = page.getByRole("heading", { level: 1, name: words.findings, exact: true });
    const over = findings.waitFor({ timeout: 1000 * (seconds + 15) });
    const ended = await over.then(
      () => true,
      () => false,
    );
    led = await guided(page);
    return ended;
  }

  // a busy machine may break the sound, and a pluck is then rightly asked for again: it is given another chance
  beforeAll(async () => {
    for (let tries = 1; !(await played()) && tries < 3; tries += 1) await browser.close();
  }, 240_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  test("she is led from position to position, the highest string first, and nothing is touched", () => {
    const { move, stands } = words;
    expect(led.wheres).toEqual([
      move.pedal.open,
      stands.pedal.open,
      move.pedal.natural,
      stands.pedal.natural,
      move.pedal.sharp,
      stands.pedal.sharp,
      move.pedal.open,
      stands.pedal.open,
    ]);
    const order = STRINGS.map(called);
    expect(led.names).toEqual([...order, ...order, ...order, ...order]);
  });

  test("it ends in words, with all pedals up", async () => {
    await page.getByText(words.isUp.pedal).waitFor();
    await page.getByText(`${words.readStrings(3, 12)}.`).waitFor();
    await page.getByText(words.report(4)).waitFor();
  });

  test("every figure holds the truth of its sound, and the fault is the pedal's or the disc's", async () => {
    const misses: string[] = [];
    for (const [string, steps] of truth()) {
      const row = page.getByRole("row").filter({ has: page.getByRole("rowheader", { name: called(string) }) });
      const cells = await row.getByRole("cell").allInnerTexts();
      for (const [at, step] of [
        [1, "natural"],
        [2, "sharp"],
        [3, "sum"],
      ] as const) {
        const { error, half } = shown(cells[at] ?? "");
        const miss = Math.abs(error - steps[step]);
        expect(half, `${string} ${step}`).toBeLessThan(5);
        expect(miss, `${string} ${step}: ${error} ± ${half}, in truth ${steps[step]}`).toBeLessThanOrEqual(3 * half);
        if (miss > half + 0.05) misses.push(`${string} ${step}`);
      }
    }
    // nine intervals of 95 %: three misses would be one chance in a hundred and twenty (binomial)
    expect(misses.length, misses.join()).toBeLessThanOrEqual(2);
    const found = await page.locator(".found").allInnerTexts();
    expect(found.map((text) => /whole letter/.test(text))).toEqual([true, true, true]);
    expect(found.map((text) => /this disc/.test(text))).toEqual([false, true, false]);
    expect(await page.locator(".out").count()).toBe(4);
  });

  test("a record of it is in the diary, pluck by pluck", async () => {
    await page.getByText(words.written).waitFor();
    const kept = (await diary(page)).filter(({ kind }) => kind === "regulation");
    expect(kept.length).toBe(1);
    const { harp, a4_hz, strings, pedals } = kept[0]?.body ?? ({} as Kept["body"]);
    expect([harp, a4_hz]).toEqual(["pedal C1 G7", 440]);
    expect(strings.map(({ string, found }) => [string, found])).toEqual([
      ["F6", "pedal"],
      ["F5", "disc"],
      ["F4", "pedal"],
    ]);
    for (const { positions } of strings)
      expect(positions.map(({ position }) => position)).toEqual(["flat", "natural", "sharp", "flat"]);
    expect(pedals.map(({ letter, position }) => [letter, position])).toEqual([["F", "natural"]]);
    expect(Math.abs((pedals[0]?.off_cents ?? NaN) + 9)).toBeLessThan(2);
  });

  test("the table has the command's columns, and nearly its figures", async () => {
    const csv = join(folder, "command.csv");
    execFileSync(COMMAND, [
      ...["regulation", "--from", join(sounds, "check.wav"), "--strings", STRINGS.join(), "--csv", csv],
    ]);
    const waited = page.waitForEvent("download");
    await press(page, words.csv);
    const file = await (await waited).path();
    const [theirs, ours] = [csv, file].map((path) =>
      readFileSync(path, "utf8")
        .trim()
        .split("\r\n")
        .map((line) => line.split(",").slice(0, 12)),
    );
    expect(ours?.[0]).toEqual(theirs?.[0]);
    expect(ours?.length).toBe(4);
    ours?.slice(1).forEach((line, at) => {
      const other = theirs?.[at + 1] ?? [];
      expect(line[0]).toBe(other[0]);
      // the browser plays the sound at a rate of its own, a little later or earlier
      for (const place of [3, 6, 8])
        expect(Math.abs(Number(line[place]) - Number(other[place])), `${line[0]} ${place}`).toBeLessThan(1);
    });
  });

  test("the report is printed, and the page is not", async () => {
    await page.emulateMedia({ media: "print" });
    const sizes = await page
      .locator(".paper img")
      .evaluateAll((all) => (all as HTMLImageElement[]).map((one) => one.naturalWidth > 0 && one.checkVisibility()));
    expect(sizes).toEqual([true]);
    expect(await page.locator(".reading").isVisible()).toBe(false);
    await page.emulateMedia({ media: "screen" });
  });

  test("nothing was complained of, or asked of anybody else", () => content(browser));
});

describe("a check that is broken off", () => {
  let browser: Visit;
  let page: Page;

  beforeAll(async () => {
    browser = await visit({ microphone: quiet });
    page = await browser.open(inject("url"));
    await page.getByRole("button", { name: general.first.on, exact: true }).waitFor();
    await regulation(page);
    await choose(page, ["C3", "G3"]);
    await beginCheck(page);
    await read(page, plucks, "G3", words.readOf(1, 8));
  });
  afterAll(() => browser.close());

  test("by a microphone that is gone pauses, says so, and goes on with another", async () => {
    await page.evaluate(() => window.stage.unplug());
    await page.getByText(words.gone).waitFor();
    await plucks.play(page, "C3");
    await page.getByText(words.readOf(1, 8), { exact: true }).waitFor();
    await press(page, words.resume);
    await page.getByText(words.gone).waitFor({ state: "detached" });
    await page.waitForTimeout(1_200);
    await read(page, plucks, "C3", words.readOf(2, 8));
  });

  test("what was lost of the sound is told", async () => {
    await page.evaluate(() => (window.stage.cut = { frames: 512, told: true }));
    const told = page.locator(".foot").getByText(/broken/);
    await told.waitFor({ timeout: 5_000 });
    // 512 frames at 48 kHz; a busy machine may lose more
    expect(Number(/, ([\d.]+) s /.exec(await told.innerText())?.[1])).toBeGreaterThanOrEqual(0.01);
  });

  test("by a page that is closed is taken up where it was", async () => {
    await page.reload();
    await page.getByText(words.leftWords(2, 6)).waitFor();
    await press(page, words.goOn);
    await page.getByText(words.readOf(2, 8), { exact: true }).waitFor();
    expect(await page.locator(".where").innerText()).toBe(words.move.pedal.natural);
    await press(page, words.leaveOut(called("G3")));
    await page.getByText(words.readOf(2, 5), { exact: true }).waitFor();
  });

  test("is judged when she ends it, says how much was read, and is in the diary", async () => {
    await press(page, words.endNow);
    await page.getByText(words.notRead(3).trim().replace(/^, /, "")).waitFor();
    await page.getByText("Leave the harp with all pedals up").waitFor();
    await page.getByText(words.written).waitFor();
    const kept = (await diary(page)).filter(({ kind }) => kind === "regulation");
    expect(kept.map(({ body }) => body.strings.map(({ found }) => found))).toEqual([["not_sure", "not_sure"]]);
    await press(page, words.done);
    await page.getByRole("heading", { name: words.earlier }).waitFor();
    expect(await page.getByText(words.wasLeft).count()).toBe(0);
  });

  test("nothing was complained of", () => content(browser));
});

describe("what the diary knows", () => {
  const HARP = "pedal C1 G7";
  const day = (days: number) => new Date(Date.now() - 86_400_000 * days).toISOString();

  /** An earlier check, invented: the F pedal's naturals nine cents short. */
  const position = (position: string, off_cents: number) => ({ position, off_cents, u95_cents: 0.5 });
  const strings = ["F6", "F5", "F4"].map((string) => ({
    string,
    positions: [position("flat", 0), position("natural", -9), position("sharp", -9), position("flat", 0)],
    own_cents: 0,
    found: "pedal",
  }));
  const pedals = [{ letter: "F", position: "natural", off_cents: -9, u95_cents: 0.7 }];
  const after = strings.map((one) => ({
    ...one,
    positions: [position("flat", 0), position("natural", 0.4), position("sharp", 0), position("flat", 0)],
    found: "right",
  }));
  const records = [
    { at: day(60), kind: "regulation", body: { harp: HARP, a4_hz: 440, strings, pedals, note: "" } },
    { at: day(30), kind: "regulation", body: { harp: HARP, a4_hz: 440, strings: after, pedals: [], note: "" } },
    {
      at: day(3),
      kind: "string_fitted",
      body: { harp: HARP, string: "G3", on: null, material: null, gauge_mm: null, used: false, by: "" },
    },
  ];
  const file = records
    .map(({ at, kind, body }, place) => JSON.stringify({ device: "desk", seq: place + 1, at, kind, v: 1, body }))
    .join("\n");
  let browser: Visit;
  let page: Page;

  beforeAll(async () => {
    browser = await visit({ microphone: quiet });
    page = await browser.open(inject("url"));
    await page.getByRole("link", { name: general.pages.diary, exact: true }).click();
    const buffer = Buffer.from(`${file}\n`);
    await page
      .locator("main input[type=file]")
      .setInputFiles({ name: "diary.ndjson", mimeType: "application/x-ndjson", buffer });
    await page.getByText(general.diary.taken(3)).waitFor();
    await regulation(page);
  });
  afterAll(() => browser.close());

  test("a string that is three days old is named before the check", async () => {
    await page.locator("summary").click();
    await page.getByText(words.freshKnown(called("G3"), 3)).waitFor();
  });

  test("two checks stand side by side, and what was mended is said", async () => {
    const show = page.getByRole("button", { name: new RegExp(`^${words.show}: `) });
    expect(await show.count()).toBe(2);
    await show.last().click();
    await page.getByText("The F pedal, natural: −9.0 → +0.4 cents; mended").waitFor();
    const cells = await page.locator("tbody").first().getByRole("cell").allInnerTexts();
    expect(cells[1]?.replace(/\s+/g, " ")).toMatch(/^\+0\.4 ±\s?\d+\.\d was −9\.0$/);
    await page.getByText(words.noneOut).waitFor();
    await page.getByRole("combobox", { name: words.beside }).selectOption({ label: words.noBeside });
    await expect.poll(() => page.locator(".was").count()).toBe(0);
  });

  test("nothing was complained of", () => content(browser));
});

describe.each(
  spoken(2, [
    ["en-GB", words, general],
    ["de-DE", german, germanGeneral],
    ["fr-FR", french, frenchGeneral],
  ]),
)("in %s", (locale, own, ownGeneral) => {
  test("no state has a fault that axe finds, or is too wide for a phone", { timeout: 180_000 }, async () => {
    const browser = await visit({ microphone: quiet, context: { locale } });
    const page = await browser.open(inject("url"));
    const states = new States(page, tonesIn(locale));
    await checkedStates(page, plucks, (state) => states.look(state), ownGeneral, own);
    expect(states.seen).toBe(12);
    expect(states.troubles).toEqual([]);
    content(browser);
    await browser.close();
  });
});
