import type { Page } from "playwright-core";
import { english, type Words } from "../../src/words/english";
import { RATE_HZ, samplesOf, truthOf, type TruePluck } from "./samples";

/** A string as the harp's own octaves call it: `4G` for `G3`, `7C` for `C1`; they go down from F to E (common practice, no source). */
export function called(string: string): string {
  const letter = string[0] ?? "";
  const octave = Number(string.slice(1));
  const number = "FGAB".includes(letter) ? 7 - octave : 8 - octave;
  return `${number}${letter}`;
}

/** Lets the page listen, up to where a round can be begun. */
export async function listen(page: Page, words: Words = english): Promise<void> {
  await page.getByRole("button", { name: words.first.on, exact: true }).click();
  await page.getByRole("button", { name: words.before.allow }).click();
  await page.getByRole("button", { name: words.before.begin, exact: true }).waitFor();
}

/** Begins a round. */
export async function begin(page: Page, words: Words = english): Promise<void> {
  await listen(page, words);
  await page.getByRole("button", { name: words.before.begin, exact: true }).click();
  await page.getByRole("button", { name: words.round.pause, exact: true }).waitFor();
}

export async function press(page: Page, name: string): Promise<void> {
  await page.getByRole("button", { name, exact: true }).click();
}

/** Ends the round and waits for its account. */
export async function end(page: Page, words: Words = english): Promise<void> {
  await press(page, words.round.end);
  await page.getByRole("heading", { name: words.end.heading }).waitFor();
}

/** A row of the account: what was found, what was left, and the half of its interval, in cents. */
export interface Row {
  before: number | undefined;
  after: number | undefined;
  half: number | undefined;
}

/** The table of the account, by the strings' names. */
export async function account(page: Page, words: Words = english): Promise<Map<string, Row>> {
  const head = await page.getByRole("columnheader").allInnerTexts();
  const place = (name: string) => head.indexOf(name) - 1;
  const rows = await page.getByRole("row").all();
  const table = new Map<string, Row>();
  for (const row of rows.slice(1)) {
    const cells = await row.getByRole("cell").allInnerTexts();
    const cents = (name: string) => figure(cells[place(name)] ?? "");
    const name = await row.getByRole("rowheader").innerText();
    table.set(name, { before: cents(words.end.before), after: cents(words.end.after), half: cents("±") });
  }
  return table;
}

/** A figure as it is shown: a true minus, a decimal point or comma; none where there is none. */
export function figure(shown: string): number | undefined {
  const text = shown.trim().replace("−", "-").replace(",", ".");
  return text === "" ? undefined : Number(text);
}

/** Single plucks, each to be played when it is wanted. */
export class Plucks {
  #samples: Int16Array;
  readonly truth: TruePluck[];

  constructor(sounds: string) {
    this.#samples = samplesOf(sounds, "apart");
    this.truth = truthOf(sounds, "apart").plucks;
  }

  of(string: string): TruePluck {
    const found = this.truth.find((pluck) => pluck.string === string);
    if (!found) throw new Error(`${string} is not among the single plucks`);
    return found;
  }

  /** The samples of one, from a little before its onset until it was damped, faded in and out. */
  samples(string: string): Int16Array {
    const from = Math.round((this.of(string).at_s - 0.01) * RATE_HZ);
    const length = 2.2 * RATE_HZ;
    const ramp = 0.005 * RATE_HZ;
    return this.#samples
      .slice(from, from + length)
      .map((step, at) => Math.round(step * Math.min(1, at / ramp, (length - at) / (40 * ramp))));
  }

  /** Plays one, and waits until it has sounded. */
  async play(page: Page, string: string, changed = (samples: Int16Array) => samples): Promise<void> {
    const samples = changed(this.samples(string));
    const bytes = Buffer.from(samples.buffer, samples.byteOffset, 2 * samples.length);
    await page.evaluate((coded) => window.stage.play(coded), bytes.toString("base64"));
  }
}

export interface Seen {
  at: number;
  large: string[];
  said: string;
}

/** Everything that stood large, from the first to the last. */
export async function seen(page: Page): Promise<Seen[]> {
  return page.evaluate(() => window.stage.seen);
}

/** What stands large now: name, way, cents. */
export async function large(page: Page): Promise<string[]> {
  return (await seen(page)).at(-1)?.large ?? [];
}

/** Waits until this stands large. */
export async function stands(page: Page, text: string): Promise<string[]> {
  for (const from = Date.now(); Date.now() < from + 5_000;) {
    const now = await large(page);
    if (now.includes(text)) return now;
    await page.waitForTimeout(40);
  }
  const last = (await seen(page)).slice(-3).map((one) => `${one.large.join(" ")} | ${one.said}`);
  throw new Error(`${text} does not stand large; last: ${last.join("; ")}`);
}

/** Plays a string, to the end, and waits until its name stands large. */
export async function pluck(page: Page, plucks: Plucks, string: string): Promise<string[]> {
  await plucks.play(page, string);
  return stands(page, called(string));
}
