import type { Page } from "playwright-core";
import { english, type ProgrammeWords } from "../../src/words/programme";
import { english as general, type Words } from "../../src/words/english";
import { piece } from "./scores";
import { press } from "./stand";

/** Opens the page Programme. */
export async function programme(page: Page, words: Words = general): Promise<void> {
  await page.getByRole("link", { name: words.pages.programme, exact: true }).click();
  await page.getByRole("heading", { level: 1, name: words.pages.programme, exact: true }).waitFor();
}

/** Gives scores by the button. */
export async function give(page: Page, ...files: { name: string; text: string }[]): Promise<void> {
  const chosen = files.map(({ name, text }) => ({ name, mimeType: "application/xml", buffer: Buffer.from(text) }));
  await page.locator("main input[type=file]").setInputFiles(chosen);
}

/** Lets a score fall onto the page. */
export async function drop(page: Page, name: string, text: string, words: ProgrammeWords = english): Promise<void> {
  const data = await page.evaluateHandle(
    ([name, text]) => {
      const data = new DataTransfer();
      data.items.add(new File([text], name));
      return data;
    },
    [name, text] as const,
  );
  await page.getByRole("group", { name: words.put }).dispatchEvent("drop", { dataTransfer: data });
}

/** Waits until a plan and its first system stand. */
export async function planned(page: Page, words: ProgrammeWords = english): Promise<void> {
  await page.getByRole("heading", { name: words.bill }).waitFor({ timeout: 30_000 });
  await page.locator("div.system .drawn svg").first().waitFor({ timeout: 30_000 });
}

/** Waits until every system was set. */
export async function engraved(page: Page, words: ProgrammeWords = english): Promise<void> {
  await planned(page, words);
  await page.getByText(words.engraving, { exact: true }).waitFor({ state: "detached", timeout: 60_000 });
}

/** The changes as they are listed. */
export function changes(page: Page): Promise<string[]> {
  return page.locator(".changes button").allInnerTexts();
}

/** Calls `at` in every state of the page, each reached as a reader reaches it. */
export async function evening(
  page: Page,
  at: (state: string) => Promise<void>,
  words: ProgrammeWords = english,
  general_: Words = general,
): Promise<void> {
  await programme(page, general_);
  await at("programme");
  await give(page, { name: "letter.txt", text: "no score" });
  await page.getByRole("alert").waitFor();
  await at("programme-not-read");
  await give(
    page,
    { name: "weir.musicxml", text: piece(24, "A Walk by the Weir") },
    { name: "ford.musicxml", text: piece(16, "The Ford", [3]) },
  );
  await page.getByRole("heading", { name: "The Ford" }).waitFor();
  await engraved(page, words);
  await at("programme-damaged");
  await page.getByRole("button", { name: "A Walk by the Weir", exact: true }).click();
  await engraved(page, words);
  await at("programme-planned");
  await page.locator(".changes button").first().click();
  await press(page, words.why);
  await page.getByText(words.otherWays).waitFor({ timeout: 30_000 });
  await at("programme-why");
  await press(page, words.hold.not);
  await page.getByRole("heading", { name: words.chosen }).waitFor();
  await page.getByText(words.broken, { exact: true }).click();
  await page.getByText(words.wishes, { exact: true }).click();
  await press(page, `${words.add}: ${words.stuckPedal}`);
  await page.locator("details li").first().waitFor();
  await page.getByRole("progressbar").waitFor({ state: "detached" });
  await at("programme-broken");
}
