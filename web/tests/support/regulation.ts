import type { Page } from "playwright-core";
import { english as general, type Words } from "../../src/words/english";
import { english, type RegulationWords } from "../../src/words/regulation";
import { until } from "./practice";
import { press, type Plucks } from "./stand";

/** Opens the page Regulation. */
export async function regulation(page: Page, words: Words = general): Promise<void> {
  await page.getByRole("link", { name: words.pages.regulation, exact: true }).click();
  await page.getByRole("heading", { level: 1, name: words.pages.regulation, exact: true }).waitFor();
}

/** Chooses only these strings, as files name them. */
export async function choose(page: Page, strings: string[], own: RegulationWords = english): Promise<void> {
  await page.getByRole("combobox", { name: own.time }).selectOption({ label: own.some });
  const all = page.getByRole("group", { name: own.which }).getByRole("checkbox");
  await all.first().waitFor();
  for (const string of strings) await all.nth(placeOf(string)).check();
}

/** The place of a string among those that discs move on a harp from E1 to F7. */
function placeOf(string: string): number {
  const steps = "CDEFGAB".indexOf(string[0] ?? "") + 7 * Number(string.slice(1));
  return steps - ("CDEFGAB".indexOf("E") + 7);
}

/** Lets the page listen and begins. */
export async function beginCheck(page: Page, words: Words = general, own: RegulationWords = english): Promise<void> {
  await press(page, words.before.allow);
  await press(page, own.begin);
  await page.locator(".where").waitFor();
}

/** Plays a pluck and waits until so many were read; a busy machine may break it, and it is then rightly asked for again. */
export async function read(page: Page, plucks: Plucks, string: string, of: string): Promise<void> {
  const far = page.getByText(of, { exact: true });
  for (let tries = 1; tries < 3; tries += 1) {
    await plucks.play(page, string);
    const there = far.waitFor({ timeout: 8_000 });
    if (await there.then(() => true).catch(() => false)) return;
  }
  await plucks.play(page, string);
  await far.waitFor({ timeout: 8_000 });
}

/** What stood large in the guide, one after the other. */
export interface Guided {
  wheres: string[];
  names: string[];
}

/** Notes every change of the guide in the page itself, where none is missed. */
export async function watchGuide(page: Page): Promise<void> {
  await page.evaluate(() => {
    const led: Guided = { wheres: [], names: [] };
    (window as unknown as { led: Guided }).led = led;
    const note = (list: string[], of: string) => {
      const text = document.querySelector<HTMLElement>(of)?.innerText ?? "";
      if (text !== "" && list.at(-1) !== text) list.push(text);
    };
    const look = () => {
      note(led.wheres, ".where");
      note(led.names, ".name");
    };
    look();
    new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
}

export async function guided(page: Page): Promise<Guided> {
  return page.evaluate(() => (window as unknown as { led: Guided }).led);
}

/** Calls `at` in every state of the page, each reached as a reader reaches it. */
export async function checkedStates(
  page: Page,
  plucks: Plucks,
  at: (state: string) => Promise<void>,
  words: Words = general,
  own: RegulationWords = english,
): Promise<void> {
  await page.getByRole("button", { name: words.first.on, exact: true }).waitFor();
  await regulation(page, words);
  await at("regulation");
  await page.locator("summary").click();
  await at("regulation-new");
  await page.locator("summary").click();
  await choose(page, ["G3", "C3"], own);
  await press(page, words.before.allow);
  await page.getByRole("button", { name: own.begin, exact: true }).waitFor();
  await at("regulation-chosen");
  await press(page, own.begin);
  await page.locator(".where").waitFor();
  await at("regulation-guide-move");
  await read(page, plucks, "G3", own.readOf(1, 8));
  await at("regulation-guide-pluck");
  await read(page, plucks, "C3", own.readOf(2, 8));
  await at("regulation-guide-natural");
  // the pedal was not moved
  await until(page, plucks, "G3", 0, ".why");
  await at("regulation-guide-look");
  await press(page, own.pause);
  await page.getByText(own.pausedWord, { exact: true }).first().waitFor();
  await at("regulation-guide-paused");
  await press(page, own.resume);
  await page.evaluate(() => window.stage.unplug());
  await page.getByText(own.gone).waitFor();
  await at("regulation-guide-gone");
  await press(page, own.endNow);
  await page.getByRole("heading", { level: 1, name: own.findings, exact: true }).waitFor();
  await page.getByText(own.written).waitFor();
  await at("regulation-broken-off");
  await press(page, own.done);
  await page.getByRole("heading", { name: own.earlier }).waitFor();
  await at("regulation-again");
  await page.getByRole("button", { name: new RegExp(`^${own.show}: `) }).click();
  await page.getByRole("heading", { level: 1, name: own.findings, exact: true }).waitFor();
  await at("regulation-earlier");
}
