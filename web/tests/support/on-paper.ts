import type { Locator, Page } from "playwright-core";
import { english as general, type Words } from "../../src/words/english";
import { english, type ProgrammeWords } from "../../src/words/programme";
import { programme } from "./evening";
import { press } from "./stand";

/** A part of our own invention. */
export const MEADOW = `opening Bb Eb Ab
7C = C#
exposed 3A
5 F#
9 [A] F | B
9:3 C#
14 [B] A -- wait for the bell
`;

/** The field in which a part is typed. */
export function shorthand(page: Page): Locator {
  return page.locator("#shorthand");
}

/** Begins a part, and types it. */
export async function write(page: Page, title: string, text: string, words: ProgrammeWords = english): Promise<void> {
  await press(page, words.paper.add);
  await page.getByLabel(words.paper.title, { exact: true }).fill(title);
  await shorthand(page).fill(text);
  await page.getByRole("heading", { level: 2, name: title }).waitFor();
}

/** Calls `at` in every state of a part on paper, each reached as a reader reaches it. */
export async function onPaper(
  page: Page,
  at: (state: string) => Promise<void>,
  words: ProgrammeWords = english,
  general_: Words = general,
): Promise<void> {
  await programme(page, general_);
  await press(page, words.paper.add);
  await page.getByText(words.paper.how, { exact: true }).waitFor();
  await page.locator(".beside [role=img]").waitFor();
  await at("paper-empty");
  await page.getByLabel(words.paper.title, { exact: true }).fill("Salt Meadow");
  await shorthand(page).fill(`${MEADOW}15 A\n16 Q\n17 F# G#\n9 [B] E\nmovement II\n7D = Db\nexposed 9A\n3 F+A\n`);
  await page.locator("#remarks li").first().waitFor();
  await at("paper-remarks");
  await shorthand(page).fill(`${MEADOW}movement II\n7D = Db\n3 F#+G# | C\n`);
  await page.getByText(words.paper.allRead).waitFor();
  await page.getByText(words.paper.how, { exact: true }).click();
  await press(page, words.nextMark);
  await page.getByText(words.broken, { exact: true }).click();
  await press(page, `${words.add}: ${words.stuckPedal}`);
  await page.locator("details [role=status]").waitFor();
  await at("paper-broken");
  await write(page, "The Lock Keeper", "opening F#\n7C = Cb\n4 | C#\n", words);
  await page.locator(".between").waitFor();
  await at("paper-evening");
  await page.getByRole("button", { name: words.remove("The Lock Keeper") }).click();
  await page.getByText(words.paper.takenOut("The Lock Keeper")).waitFor();
  await at("paper-taken-out");
}
