// 'I have five minutes': from an invented diary in which one string is known to fall, with the browser's made-up microphone.
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as words } from "../src/words/english";
import { german } from "../src/words/german";
import { content, visit, type Visit } from "./support/browser";
import { give, planned, programme } from "./support/evening";
import { inventedDiary } from "./support/invented-diary";
import { DOORS, Few, few, foreseen, keptLines, loaded, NOW, opened, playedIn, replayed } from "./support/minutes";
import { loaded as plannerLoaded } from "./support/planned";
import { called, end, listen, pluck, Plucks, press, seen, stands } from "./support/stand";
import { States, tonesIn } from "./support/states";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const quiet = join(sounds, "quiet.wav");
const browse = (locale = "en-GB") => visit({ microphone: quiet, context: { locale, timezoneId: "UTC" } });

/** The string that stands large to be plucked, or the one that comes then. */
async function next(page: Page): Promise<string> {
  const then = page.locator(".next");
  const name = (await then.count()) > 0 ? await then.innerText() : await page.locator(".name").innerText();
  return /\d\p{L}/u.exec(name)?.[0] ?? name;
}

describe("five minutes before the doors open", () => {
  const lines = inventedDiary();
  let browser: Visit;
  let page: Page;
  let states: States;
  let module: Few;

  beforeAll(async () => {
    await Promise.all([loaded(), plannerLoaded()]);
    browser = await browse();
    page = await opened(browser, lines);
    states = new States(page, tonesIn("en-GB"));
    await programme(page);
    await give(page, { name: "doors.musicxml", text: DOORS });
    await planned(page);
    await page.getByRole("link", { name: words.pages.tune, exact: true }).click();
    await few(page);
    await states.look("first-few");
    await listen(page);
    await press(page, words.before.begin);
    await page.getByRole("button", { name: words.round.pause, exact: true }).waitFor();
    module = new Few(foreseen(lines, NOW, [playedIn(DOORS)]), 5, NOW);
  });
  afterAll(async () => {
    module.end();
    await browser.close();
  });

  test("the string that is known to fall is asked for first, and it is said how it stands", async () => {
    await stands(page, called("A4"));
    expect(module.next).toBe("A4");
    for (const line of module.view.lines) await page.getByText(line, { exact: true }).waitFor();
    await page.getByText(/^4 min \d+ s left$|^5 min 0 s left$/).waitFor();
    expect(module.view.rests.join(" ")).toContain("It rests on 59 times");
    for (const line of module.view.rests) expect(await page.getByText(line, { exact: true }).count(), line).toBe(1);
    await states.look("round-few");
  });

  test("after each pluck, also of a string that nobody asked for, the order is the one that Rust has", async () => {
    const seenNext: string[] = [];
    for (const string of ["A4", "C3"]) {
      await pluck(page, plucks, string);
      await stands(page, words.spoken.inTune);
      module.hears(plucks.samples(string));
      await expect.poll(() => next(page)).toBe(called(module.next ?? ""));
      for (const line of module.view.lines) await page.getByText(line, { exact: true }).waitFor();
      seenNext.push(module.next ?? "");
    }
    expect(seenNext).not.toContain("A4");
    expect(module.view.in_tune).toBe(false);
  });

  test("in tune is said, by how much, as soon as it is so", async () => {
    for (let string = module.next; string && !module.view.in_tune; string = module.next) {
      await pluck(page, plucks, string);
      await stands(page, words.spoken.inTune);
      module.hears(plucks.samples(string));
    }
    const [line] = module.view.lines;
    expect(line).toMatch(/^It may be called in tune, 9\d % sure\.$/);
    await page.getByText(line ?? "", { exact: true }).waitFor();
    const said = (await seen(page)).map((one) => one.said);
    expect(said.some((words) => words.includes("It may be called in tune"))).toBe(true);
    await states.look("round-few-in-tune");
  });

  test("the round is kept with its orders, and read again as it was", async () => {
    await end(page);
    const kept = await keptLines(page);
    const given = kept.filter((line) => line.includes('"what":"order"'));
    expect(given.length).toBeGreaterThan(0);
    expect(given.every((line) => line.includes('"kind":"round_events","v":2'))).toBe(true);
    expect(replayed(kept).not_read).toBe(0);
  });

  test("no state has a fault that axe finds, and nothing is complained of", () => {
    expect(states.troubles).toEqual([]);
    expect(states.seen).toBe(3);
    content(browser);
  });
});

test("with an empty diary, in German, it says how little it knows, and begins by no order but its own", async () => {
  const browser = await browse("de-AT");
  const page = await opened(browser, []);
  await few(page, german);
  await listen(page, german);
  await press(page, german.before.begin);
  await page.getByText("Ihr Tagebuch weiß noch nicht", { exact: false }).waitFor();
  await page.getByText("47 Saiten wurden nie gelesen.").waitFor();
  await page.getByText(/^Gestimmt, zu 90 % sicher/).waitFor();
  const states = new States(page, tonesIn("de-AT"));
  await states.look("round-few-german");
  expect(states.troubles).toEqual([]);
  content(browser);
  await browser.close();
});

/** What a page is made to wait for. */
interface Held {
  /** What the diary foresees, once it is known: lets it come. */
  foreseen?: () => void;
  /** Lets the diary be read again. */
  diary?: () => void;
}

test("what is foreseen in the very moment in which she begins reaches the round", async () => {
  const browser = await browse();
  await browser.context.addInitScript(() => {
    const held: Held = {};
    (window as unknown as { held: Held }).held = held;
    const Own = window.Worker;
    window.Worker = class extends Own {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        if (!/foresee/.test(String(url))) return;
        const hold = (event: MessageEvent) => {
          event.stopImmediatePropagation();
          held.foreseen = () => {
            this.removeEventListener("message", hold);
            this.dispatchEvent(new MessageEvent("message", { data: event.data as unknown }));
          };
        };
        this.addEventListener("message", hold);
      }
    };
  });
  const page = await opened(browser, inventedDiary());
  await few(page);
  await listen(page);
  await page.waitForFunction(() => (window as unknown as { held: Held }).held.foreseen);
  // the diary is being written, so that the round waits for its place
  await page.evaluate(async () => {
    const asked = indexedDB.open("sevenflats");
    await new Promise((resolve) => (asked.onsuccess = resolve));
    const store = asked.result.transaction("records", "readwrite").objectStore("records");
    let isHeld = true;
    const hold = () => void (isHeld && (store.count().onsuccess = hold));
    hold();
    (window as unknown as { held: Held }).held.diary = () => (isHeld = false);
  });
  await press(page, words.before.begin);
  await page.waitForTimeout(400);
  expect(await page.getByRole("button", { name: words.round.pause, exact: true }).count()).toBe(0);
  await page.evaluate(() => {
    const { held } = window as unknown as { held: Held };
    held.foreseen?.();
    held.diary?.();
  });
  await stands(page, called("A4"));
  content(browser);
  await browser.close();
});
