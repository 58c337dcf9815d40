// How fast the page is, and whether it loses sound: figures for docs/measured.md, printed as rows of its table.
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { inject, test } from "vitest";
import { english as words } from "../src/words/english";
import { visit } from "./support/browser";
import { RATE_HZ, samplesOf, truthOf } from "./support/samples";
import { heard, loaded } from "./support/module";
import { loaded as plannerLoaded, PEDAL_47, SHOWN } from "./support/planned";
import { piece } from "./support/scores";
import { inventedDiary } from "./support/invented-diary";
import { Few, foreseen, loaded as deskLoaded } from "./support/minutes";
import { begin, press } from "./support/stand";
import { years } from "./support/years";
import { Score, usual_wishes } from "../src/made/programme";

const sounds = inject("sounds");
const truth = truthOf(sounds, "round");
/** Minutes in which no block may be lost. */
const MINUTES = Number(process.env["SEVENFLATS_MINUTES"] ?? 10);

/** A row of the table. */
function tell(name: string, asked: string, value: string, reached: boolean): void {
  console.log(`| ${name} | ${asked} | ${value} | ${reached ? "reached" : "**not reached**"} |`);
}

const median = (values: number[]) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

test("first load", () => {
  const root = fileURLToPath(new URL("../..", import.meta.url));
  const weighed = execFileSync("cargo", ["xtask", "weigh"], { cwd: root, encoding: "utf8" });
  const bytes = Number(/(\d+) {2}of at most/.exec(weighed)?.[1]);
  tell("first load, brotli, fonts included, kB", "≤ 300", (bytes / 1000).toFixed(0), bytes <= 300_000);
});

test("usable", { timeout: 120_000 }, async () => {
  const times: number[] = [];
  for (let visitNumber = 0; visitNumber < 7; visitNumber += 1) {
    const browser = await visit({ microphone: join(sounds, "quiet.wav") });
    const from = performance.now();
    const page = await browser.open(inject("url"));
    await page.getByRole("button", { name: words.first.on, exact: true }).waitFor();
    times.push((performance.now() - from) / 1000);
    await browser.close();
  }
  const value = median(times);
  tell("usable after the first call, nothing kept, s (median of 7)", "≤ 1", value.toFixed(2), value <= 1);
});

test("analysis", { timeout: 120_000 }, async () => {
  await loaded();
  const samples = samplesOf(sounds, "round");
  const shares: number[] = [];
  for (let take = 0; take < 3; take += 1) {
    const from = performance.now();
    heard(samples, truth.a4_hz);
    shares.push((performance.now() - from) / 1000 / (samples.length / RATE_HZ));
  }
  const value = median(shares);
  tell("analysis in WebAssembly ÷ sound, one core (median of 3)", "≤ 0.05", value.toFixed(4), value <= 0.05);
});

test("planning", { timeout: 300_000 }, async () => {
  await plannerLoaded();
  for (const [bars, most] of [
    [300, 400],
    [1000, undefined],
  ] as const) {
    const score = Score.read(new TextEncoder().encode(piece(bars, "A Walk by the Weir")), undefined, true);
    const times: number[] = [];
    for (let take = 0; take < 5; take += 1) {
      const from = performance.now();
      score.plan(PEDAL_47, usual_wishes(), SHOWN);
      times.push(performance.now() - from);
    }
    score.free();
    const value = median(times);
    const asked = most === undefined ? "" : `≤ ${most}`;
    tell(`${bars} bars planned in WebAssembly, ms (median of 5)`, asked, value.toFixed(0), value <= (most ?? Infinity));
  }
});

test("from a pluck to the screen", { timeout: 180_000 }, async () => {
  const browser = await visit({ microphone: join(sounds, "round.wav"), once: true });
  await browser.context.addInitScript(() => {
    const kept: [string, number][] = [];
    Object.assign(window, { kept });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        if (entry.name === "pluck to screen")
          kept.push([String((entry as PerformanceMeasure).detail), entry.duration / 1000]);
      }
    }).observe({ type: "measure" });
  });
  const page = await browser.open(inject("url"));
  await begin(page);
  await page.waitForTimeout(truth.seconds * 1000);
  const kept = await page.evaluate(() => (window as unknown as { kept: [string, number][] }).kept);
  await browser.close();
  // the first word on each pluck; what comes after it for the same string is its last word
  const firsts = kept.filter(([string], place) => string !== "" && kept[place - 1]?.[0] !== string);
  const octave = (string: string) => Number(string.slice(1));
  for (const [name, asked, of] of [
    ["below C4", 0.35, firsts.filter(([string]) => octave(string) < 4)],
    ["from C4 up", 0.2, firsts.filter(([string]) => octave(string) >= 4)],
  ] as const) {
    const seconds = of.map(([, s]) => s);
    const value = median(seconds);
    const all = `${value.toFixed(3)} (${seconds.length} plucks, slowest ${Math.max(...seconds).toFixed(3)})`;
    tell(`pluck to reading on screen, ${name}, s (median)`, `≤ ${asked}`, all, value <= asked);
  }
});

/** How long Strings took: all of it, reading, and knowing, ms. */
interface Took {
  whole: number;
  readMs: number;
  knowMs: number;
}

/** Rounds of ten years, one a day. */
const TEN_YEARS = 3_650;

test("ten years of diary", { timeout: 600_000 }, async () => {
  const browser = await visit({ microphone: join(sounds, "quiet.wav") });
  const page = await browser.open(inject("url"));
  await page.waitForFunction(() => indexedDB.databases().then((all) => all.some((db) => db.name === "sevenflats")));
  await page.waitForTimeout(300);
  const { bytes } = await years(page, TEN_YEARS);
  const opened = async (from = "#strings"): Promise<{ shown: number | undefined } & Took> => {
    await page.goto(`${inject("url")}${from}`);
    await page.reload();
    if (from === "") {
      await page.waitForFunction(() => performance.getEntriesByName("strings prepared").length > 0, undefined, {
        timeout: 120_000,
      });
      await page.getByRole("link", { name: words.pages.strings }).click();
    }
    await page.waitForFunction(() => performance.getEntriesByName("strings opened").length > 0, undefined, {
      timeout: 120_000,
    });
    return page.evaluate(() => {
      const [whole] = performance.getEntriesByName("strings opened") as PerformanceMeasure[];
      const [shown] = performance.getEntriesByName("strings shown");
      const detail = whole?.detail as { readMs: number; knowMs: number };
      return { shown: shown?.duration, whole: whole?.duration ?? NaN, ...detail };
    });
  };
  const first = await opened();
  const again = [await opened(), await opened(), await opened()];
  const later = [await opened(""), await opened(""), await opened("")];
  await browser.close();
  const s = (of: (one: (typeof again)[0]) => number | undefined) => median(again.map((one) => of(one) ?? NaN)) / 1000;
  const [shown, know, read, whole] = [s((o) => o.shown), s((o) => o.knowMs), s((o) => o.readMs), s((o) => o.whole)];
  const of = `${(bytes / 1e6).toFixed(0)} MB`;
  tell(`ten years of diary replayed in WebAssembly, s (median of 3; ${of})`, "≤ 1.5", know.toFixed(2), know <= 1.5);
  tell("the same, its lines read from the browser's database, s", "", read.toFixed(2), true);
  tell("Strings on it, as it was seen last, s", "≤ 0.5", shown.toFixed(2), shown <= 0.5);
  tell("Strings on it, as it is now, where the page opens with it, s", "≤ 0.5", whole.toFixed(2), whole <= 0.5);
  const led = median(later.map((one) => one.whole)) / 1000;
  tell("Strings on it, as it is now, opened from another page, s", "≤ 0.5", led.toFixed(2), led <= 0.5);
  tell("Strings on it, the first time, s", "≤ 0.5", (first.whole / 1000).toFixed(2), first.whole <= 500);
});

test("some minutes", { timeout: 600_000 }, async () => {
  const browser = await visit({ microphone: join(sounds, "quiet.wav") });
  const page = await browser.open(inject("url"));
  await page.waitForFunction(() => indexedDB.databases().then((all) => all.some((db) => db.name === "sevenflats")));
  await page.waitForTimeout(300);
  await years(page, TEN_YEARS, "pedal C1 G7");
  const foresee = async (): Promise<{ readMs: number; foreseeMs: number }> => {
    await page.goto(`${inject("url")}#`);
    await page.reload();
    await page.getByRole("checkbox", { name: words.first.few }).check();
    await press(page, words.first.on);
    await page.waitForFunction(() => performance.getEntriesByName("foreseen").length > 0, undefined, {
      timeout: 120_000,
    });
    return page.evaluate(() => {
      const [mark] = performance.getEntriesByName("foreseen") as PerformanceMark[];
      return mark?.detail as { readMs: number; foreseeMs: number };
    });
  };
  const all = [await foresee(), await foresee(), await foresee()];
  await browser.close();
  const foreseeMs = median(all.map((one) => one.foreseeMs));
  const readS = median(all.map((one) => one.readMs)) / 1000;
  tell("a forecast from ten years of diary in WebAssembly, ms (median of 3)", "", foreseeMs.toFixed(0), true);
  tell("the same diary read for it, beside the round, s", "", readS.toFixed(2), true);

  await deskLoaded();
  const now = "2026-11-26T18:20:00Z";
  const round = new Few(foreseen(inventedDiary(), now), 10, now);
  const times: number[] = [];
  for (const { string } of round.strings) times.push(round.doneByEar(string));
  round.end();
  const slowest = Math.max(...times);
  tell(
    `the next string in WebAssembly, ms (slowest of ${times.length})`,
    "≤ 30",
    slowest.toFixed(1),
    times.length === 47 && slowest <= 30,
  );
});

test("blocks", { timeout: (MINUTES + 2) * 60_000 }, async () => {
  const browser = await visit({ microphone: join(sounds, "round.wav") });
  const page = await browser.open(inject("url"));
  await begin(page);
  await page.waitForTimeout(MINUTES * 60_000);
  const counts = await page.evaluate(() => {
    const [mark] = performance.getEntriesByName("blocks") as PerformanceMark[];
    return mark?.detail as { taken: number; lost: number; busyMs: number } | undefined;
  });
  await browser.close();
  const { taken = 0, lost = NaN } = counts ?? {};
  tell(
    `blocks lost between worklet and Worker in ${MINUTES} minutes`,
    "0",
    `${lost} of ${taken}`,
    lost === 0 && taken > 0,
  );
});
