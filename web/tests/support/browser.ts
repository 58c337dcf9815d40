import { join } from "node:path";
import { chromium, type BrowserContext, type BrowserContextOptions, type Page } from "playwright-core";
import { expect } from "vitest";
import { english } from "../../src/words/english";
import { french } from "../../src/words/french";
import { german } from "../../src/words/german";
import { setStage } from "./in-page";
import { RATE_HZ } from "./samples";

/** Where the browser is; any Chromium will do. */
const CHROMIUM = process.env["CHROMIUM"] ?? "/usr/bin/chromium";
const LIVE = [english, german, french].map((words) => words.round.live);

export interface Wishes {
  /** The sound file that the microphone gives. */
  microphone: string;
  /** Whether it gives it once only, then its last moment for ever, and at the rate that the browser chooses. */
  once?: boolean;
  /** Whether the browser refuses it, as its reader told it to. */
  refuses?: boolean;
  context?: BrowserContextOptions;
  /** A folder in which the browser keeps everything. */
  kept?: string;
}

/** A browser of its own, and a page that is watched. */
export interface Visit {
  context: BrowserContext;
  /** Opens another page in the same browser. */
  open(url: string): Promise<Page>;
  /** What a page complained of, or asked of others: nothing is right. */
  complaints: string[];
  close(): Promise<void>;
}

export async function visit(wishes: Wishes): Promise<Visit> {
  const file = `${wishes.microphone}${wishes.once ? "%noloop" : ""}`;
  const options = {
    executablePath: CHROMIUM,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--use-fake-device-for-media-stream",
      ...(wishes.refuses ? [] : ["--use-fake-ui-for-media-stream"]),
      `--use-file-for-fake-audio-capture=${file}`,
      "--autoplay-policy=no-user-gesture-required",
    ],
  };
  const settings: BrowserContextOptions = { viewport: { width: 390, height: 844 }, locale: "en-GB", ...wishes.context };
  const browser = wishes.kept === undefined ? await chromium.launch(options) : undefined;
  const context = browser
    ? await browser.newContext(settings)
    : await chromium.launchPersistentContext(join(wishes.kept ?? ""), { ...options, ...settings });
  await context.addInitScript(setStage, wishes.once ? { live: LIVE } : { live: LIVE, sampleRate: RATE_HZ });
  if (wishes.refuses) await context.grantPermissions([]);
  const complaints: string[] = [];
  return {
    context,
    complaints,
    async open(url) {
      const page = await context.newPage();
      watch(page, new URL(url).origin, complaints);
      await page.goto(url);
      return page;
    },
    async close() {
      await context.close();
      await browser?.close();
    },
  };
}

/** Errors on the console (a broken policy is one), errors nobody caught, and requests to anywhere else. */
function watch(page: Page, origin: string, complaints: string[]): void {
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) complaints.push(`${message.type()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => complaints.push(`not caught: ${error.message}`));
  page.on("request", (request) => {
    const asked = new URL(request.url());
    if (!["data:", "blob:"].includes(asked.protocol) && asked.origin !== origin)
      complaints.push(`asked for ${request.url()}`);
  });
}

/** Nothing was complained of. */
export function content(visit: Visit): void {
  expect(visit.complaints).toEqual([]);
}
