import type { Page } from "playwright-core";
import { english as general, type Words } from "../../src/words/english";
import { english, type PracticeWords } from "../../src/words/practice";
import { press, type Plucks } from "./stand";

/** Opens the page Practice. */
export async function practice(page: Page, words: Words = general, own: PracticeWords = english): Promise<void> {
  await page.getByRole("link", { name: words.pages.practice, exact: true }).click();
  await page.getByRole("heading", { level: 1, name: own.heading, exact: true }).waitFor();
}

/** Begins with all strings D, from the middle: D4 stays, D5 is tuned. */
export async function beginLetterD(page: Page, words: Words = general, own: PracticeWords = english): Promise<void> {
  await page.getByRole("combobox", { name: own.drill }).selectOption("letter");
  await page.getByRole("combobox", { name: own.letter, exact: true }).selectOption("D");
  await press(page, words.before.allow);
  await press(page, own.begin);
  await stage(page, "before");
}

/** Waits until this is to be done. */
export async function stage(page: Page, of: string): Promise<void> {
  await page.locator(`[data-stage=${of}]`).waitFor({ timeout: 8_000 });
}

/** The string that is asked for. */
export const asked = (page: Page) => page.locator("[data-stage] .name").innerText();

/** Sound whose pitch is so many cents higher, by reading it faster between its samples. */
export function higher(cents: number): (samples: Int16Array) => Int16Array {
  const faster = 2 ** (cents / 1200);
  return (samples) =>
    Int16Array.from({ length: Math.floor((samples.length - 1) / faster) }, (_, at) => {
      const from = Math.floor(at * faster);
      const part = at * faster - from;
      return Math.round((1 - part) * (samples[from] ?? 0) + part * (samples[from + 1] ?? 0));
    });
}

/** Plays a string until something has come of it: a busy machine may break a pluck, and it is then rightly asked for again. */
export async function until(page: Page, plucks: Plucks, string: string, cents: number, there: string): Promise<void> {
  const found = page.locator(there);
  for (let tries = 1; tries < 3; tries += 1) {
    await plucks.play(page, string, higher(cents));
    const seen = await found.waitFor({ timeout: 4_000 }).then(
      () => true,
      () => false,
    );
    if (seen) return;
  }
  await plucks.play(page, string, higher(cents));
  await found.waitFor({ timeout: 4_000 });
}
