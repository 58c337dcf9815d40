import { mkdirSync } from "node:fs";
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { PHONE, SIZES, TONES } from "./sizes";

/** Where pictures of every state are put, to be looked at by people: nowhere, if it is not said. */
const PICTURES = process.env["SEVENFLATS_PICTURES"];

/** A look at each state of a page: what axe finds in the tones asked for, and whether anything is wider than the
 * narrowest phone; a picture in every size and tone where pictures are wanted. */
export class States {
  seen = 0;
  readonly troubles: string[] = [];

  constructor(
    private readonly page: Page,
    private readonly tones: readonly ("light" | "dark")[],
  ) {}

  async look(state: string): Promise<void> {
    this.seen += 1;
    for (const colorScheme of this.tones) {
      await this.page.emulateMedia({ colorScheme });
      const { violations } = await new AxeBuilder({ page: this.page }).setLegacyMode(true).analyze();
      for (const one of violations)
        this.troubles.push(
          `${state}, ${colorScheme}: ${one.id}: ${one.nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`,
        );
    }
    await this.page.setViewportSize({ width: 320, height: 640 });
    const wide = await this.page.evaluate(
      () => (document.scrollingElement?.scrollWidth ?? 0) - document.documentElement.clientWidth,
    );
    if (wide > 0) this.troubles.push(`${state}: ${wide} px too wide`);
    if (PICTURES) await this.#take(PICTURES, state);
    await this.page.setViewportSize(PHONE);
  }

  async #take(folder: string, state: string): Promise<void> {
    mkdirSync(folder, { recursive: true });
    const locale = await this.page.evaluate(() => document.documentElement.lang);
    const { currentTestName = "", testPath = "" } = expect.getState();
    const file = /([^/\\]*)\.browser\.ts$/.exec(testPath)?.[1] ?? "";
    const where = [file, currentTestName, String(this.seen), state].join("-").replace(/[^\p{L}\d]+/gu, "-");
    for (const [size, viewport] of Object.entries(SIZES)) {
      await this.page.setViewportSize(viewport);
      for (const colorScheme of TONES) {
        await this.page.emulateMedia({ colorScheme });
        await this.page.waitForTimeout(80);
        const path = join(folder, `${where}-${locale}-${size}-${colorScheme}.png`);
        await this.page.screenshot({ path, fullPage: true, animations: "disabled" });
      }
    }
    await this.page.emulateMedia({ colorScheme: this.tones.at(-1) ?? "light" });
  }
}

/** Both tones in English, one in the other languages: words do not change the tones. */
export const tonesIn = (locale: string): readonly ("light" | "dark")[] =>
  locale === "en-GB" ? ["light", "dark"] : ["light"];

/**
 * The languages in which every state is looked at, English first: a fixed other one beside it, or all with
 * `SEVENFLATS_LONG`. Which other one differs from file to file, so that each is looked at somewhere.
 */
export function spoken<const Rows extends readonly [unknown, unknown, unknown]>(
  other: 1 | 2,
  rows: Rows,
): Rows[number][] {
  return process.env["SEVENFLATS_LONG"] ? [...rows] : [rows[0], rows[other]];
}
