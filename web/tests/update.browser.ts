// A new version of the page never interrupts a round.
import { createServer, type Server } from "node:http";
import { readFileSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as words } from "../src/words/english";
import { content, visit, type Visit } from "./support/browser";
import { begin, end, large, pluck, Plucks, press } from "./support/stand";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const TYPES: Record<string, string> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".wasm": "application/wasm",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
  ".png": "image/png",
};

/** The built page, of a version that can be raised: the service worker differs, as after any change. */
let version = 1;
/** Whether the new version has none of the files that the old one loads later. */
let others = false;
let server: Server;
let url: string;
let browser: Visit;

beforeAll(async () => {
  const dist = fileURLToPath(new URL("../dist", import.meta.url));
  server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://localhost");
    const name = pathname === "/" ? "/index.html" : pathname;
    try {
      let file = readFileSync(join(dist, name));
      if (others && name.startsWith("/later/")) throw new Error("gone");
      if (name === "/sw.js") {
        const source = file.toString("utf8").replace(/(const VERSION = ")/, `$1${version}-`);
        file = Buffer.from(others ? source.replace(/"later\/[^"]*",?/g, "") : source);
      }
      response.writeHead(200, {
        "content-type": TYPES[extname(name)] ?? "application/octet-stream",
        "cache-control": "no-cache",
      });
      response.end(file);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "localhost", resolve));
  url = `http://localhost:${(server.address() as AddressInfo).port}/`;
  browser = await visit({ microphone: join(sounds, "quiet.wav") });
});
afterAll(async () => {
  await browser.close();
  server.close();
});

/** A page that the service worker of the first visit looks after. */
async function lookedAfter(): Promise<Page> {
  const page = await browser.open(url);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.reload();
  await page.getByRole("button", { name: words.first.on, exact: true }).waitFor();
  await page.evaluate(() => ((window as { mark?: string }).mark = "the same page"));
  return page;
}

const isTheSame = (page: Page) => page.evaluate(() => (window as { mark?: string }).mark === "the same page");

/** Looks for a new version, and waits until it lies ready. */
async function renewed(page: Page): Promise<void> {
  version += 1;
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    await registration?.update();
    while (!registration?.waiting) await new Promise((resolve) => setTimeout(resolve, 50));
  });
}

test("it waits while a round is under way, and is offered at its end", async () => {
  const page = await lookedAfter();
  await begin(page);
  await pluck(page, plucks, "C3");
  await renewed(page);
  await page.waitForTimeout(500);
  expect(await page.getByText(words.update.ready).count()).toBe(0);
  await page.getByText(words.round.inTuneOf(1, 47)).waitFor();
  await pluck(page, plucks, "D3");
  await page.getByText(words.round.inTuneOf(2, 47)).waitFor();
  expect(await isTheSame(page)).toBe(true);
  await end(page);
  await page.getByText(words.update.ready).waitFor();
  expect(await isTheSame(page)).toBe(true);
  await press(page, words.end.done);
  const loaded = page.waitForEvent("load");
  await press(page, words.update.now);
  await loaded;
  await page.getByRole("button", { name: words.first.on, exact: true }).waitFor();
  expect(await isTheSame(page)).toBe(false);
  expect(await page.getByText(words.update.ready).count()).toBe(0);
  content(browser);
  await page.close();
});

test("taken in another tab, it leaves a round alone, and the round can still be ended", async () => {
  const page = await lookedAfter();
  await begin(page);
  await pluck(page, plucks, "C3");
  const other = await browser.open(url);
  others = true;
  await renewed(other);
  const loaded = other.waitForEvent("load");
  await press(other, words.update.now);
  await loaded;
  await page.waitForTimeout(1_000);
  expect(await isTheSame(page)).toBe(true);
  expect(await large(page)).not.toEqual([]);
  await pluck(page, plucks, "D3");
  await end(page);
  content(browser);
});
