// Everybody can read the page and work it: contrast, names, keys, small screens, large letters.
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english } from "../src/words/english";
import { french } from "../src/words/french";
import { german } from "../src/words/german";
import { content, visit, type Visit } from "./support/browser";
import { begin, pluck, Plucks, seen } from "./support/stand";
import { tour } from "./support/tour";

const sounds = inject("sounds");
const plucks = new Plucks(sounds);
const microphone = join(sounds, "quiet.wav");

/** What a machine can find wrong with a page, by WCAG 2.2 A and AA and good practice. */
async function found(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).setLegacyMode(true).analyze();
  return violations.map(
    (one) =>
      `${one.id}: ${one.nodes.map((node) => `${node.html.slice(0, 120)} ${node.any[0]?.message ?? ""}`).join(" | ")}`,
  );
}

/** How far the page is wider than the window, in CSS pixels, and what sticks out. */
async function overhang(page: Page, width: number, height: number): Promise<string[]> {
  const before = page.viewportSize() ?? { width: 390, height: 844 };
  await page.setViewportSize({ width, height });
  await page.waitForTimeout(60);
  const out = await page.evaluate(() => {
    const room = document.documentElement.clientWidth;
    if ((document.scrollingElement?.scrollWidth ?? 0) <= room) return [];
    const scrolls = (one: Element | null): boolean =>
      one !== null && (getComputedStyle(one).overflowX === "auto" || scrolls(one.parentElement));
    const wide = [...document.body.querySelectorAll("*")].filter(
      (one) => one.getBoundingClientRect().right > room + 0.5 && !scrolls(one.parentElement),
    );
    return wide
      .slice(0, 4)
      .map((one) => `${one.outerHTML.slice(0, 100)} to ${one.getBoundingClientRect().right.toFixed(0)} of ${room}`);
  });
  await page.setViewportSize(before);
  return out;
}

describe("every page and state", () => {
  const troubles: string[] = [];
  const wide: string[] = [];
  const moving: string[] = [];
  let states = 0;
  let browser: Visit;

  beforeAll(async () => {
    browser = await visit({ microphone, context: { reducedMotion: "reduce" } });
    const page = await browser.open(inject("url"));
    await tour(page, plucks, async (state) => {
      states += 1;
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        troubles.push(...(await found(page)).map((one) => `${state}, ${colorScheme}: ${one}`));
      }
      // the least that WCAG 2.2, 1.4.10, asks for, and a phone at twice its size
      for (const [width, height] of [
        [320, 640],
        [195, 422],
      ] as const) {
        wide.push(...(await overhang(page, width, height)).map((one) => `${state}, ${width} px: ${one}`));
      }
      const animations = await page.evaluate(() => document.getAnimations().length);
      if (animations > 0) moving.push(`${state}: ${animations}`);
    });
  }, 300_000);
  afterAll(() => browser.close());

  test("was reached", () => expect(states).toBeGreaterThanOrEqual(20));
  test("has no fault that axe finds, light or dark", () => expect(troubles).toEqual([]));
  test("needs no sideways scrolling at 320 px, nor at 200 %", () => expect(wide).toEqual([]));
  test("moves nothing where motion is not wanted", () => expect(moving).toEqual([]));
  test("asks nobody else and breaks no policy", () => content(browser));
});

test("dark for the pit has no fault that axe finds", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await page.getByRole("link", { name: english.pages.settings, exact: true }).click();
  await page.getByRole("combobox", { name: english.settings.tone }).selectOption({ label: english.settings.tones.dim });
  await page.getByRole("link", { name: english.pages.tune, exact: true }).click();
  const troubles: string[] = [];
  const look = async (state: string) => void troubles.push(...(await found(page)).map((one) => `${state}: ${one}`));
  if (process.env["SEVENFLATS_LONG"]) {
    await tour(page, plucks, look);
  } else {
    await page.getByRole("button", { name: english.first.on, exact: true }).waitFor();
    await look("first");
    await begin(page);
    await pluck(page, plucks, "G3");
    await look("round");
  }
  await browser.close();
  expect(troubles).toEqual([]);
}, 180_000);

test("a page that was damaged is found out", async () => {
  const browser = await visit({ microphone });
  const page = await browser.open(inject("url"));
  await page.getByRole("button", { name: english.first.on, exact: true }).waitFor();
  await page.evaluate(() => {
    document.documentElement.removeAttribute("lang");
    document
      .querySelector("main")
      ?.insertAdjacentHTML("beforeend", "<input type=text><p id=faint>hardly to be read</p>");
    document.getElementById("faint")?.style.setProperty("color", "#d8d2c4");
    document.body.style.setProperty("width", "700px");
  });
  const names = (await found(page)).map((one) => one.split(":")[0]);
  expect(names).toEqual(expect.arrayContaining(["html-has-lang", "label", "color-contrast"]));
  expect(await overhang(page, 320, 640)).not.toEqual([]);
  await browser.close();
});

describe("with keys alone", () => {
  let browser: Visit;
  let page: Page;

  beforeAll(async () => {
    browser = await visit({ microphone });
    page = await browser.open(inject("url"));
    await page.getByRole("button", { name: english.first.on, exact: true }).waitFor();
  });
  afterAll(() => browser.close());

  /** What has the focus: its name, and whether that can be seen. */
  const focus = () =>
    page.evaluate(() => {
      const on = document.activeElement as HTMLElement;
      const style = getComputedStyle(on);
      const ring = style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) >= 2;
      const name = on.getAttribute("aria-label") ?? on.textContent?.trim() ?? "";
      return { tag: on.tagName, name, seen: ring };
    });

  /** Tabs until something of this name has the focus. */
  async function tabTo(name: string): Promise<void> {
    for (let step = 0; step < 60; step += 1) {
      await page.keyboard.press("Tab");
      const on = await focus();
      if (on.tag !== "BODY") expect(on.seen, `the focus on ${on.name} can be seen`).toBe(true);
      if (on.name === name) return;
    }
    throw new Error(`${name} was not reached by tabs`);
  }

  test("a round is begun", async () => {
    await tabTo(english.first.on);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: english.before.heading }).waitFor();
    await tabTo(english.before.allow);
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: english.before.begin, exact: true }).waitFor();
    await tabTo(english.before.begin);
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: english.round.pause, exact: true }).waitFor();
  });

  test("every control of the round is reached, in the order in which it is read", async () => {
    await pluck(page, plucks, "G3");
    const controls = await page.evaluate(() => {
      const all = [...document.querySelectorAll<HTMLElement>("main button, main select, main input")];
      return all
        .filter((one) => one.checkVisibility())
        .map((one) => one.getAttribute("aria-label") ?? one.textContent?.trim() ?? "");
    });
    expect(controls.length).toBeGreaterThan(50);
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.getByRole("heading", { level: 1 }).evaluate((one) => getSelection()?.collapse(one, 0));
    const reached: string[] = [];
    for (let step = 0; step < controls.length; step += 1) {
      await page.keyboard.press("Tab");
      const on = await focus();
      expect(on.seen, `the focus on ${on.name} can be seen`).toBe(true);
      reached.push(on.name);
    }
    expect(reached).toEqual(controls);
  });

  test("a page-turning pedal acts: forward is next, back is again, a long press skips", async () => {
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    const said = async () => (await seen(page)).at(-1)?.said ?? "";
    for (const key of ["PageDown", "ArrowRight", "ArrowDown"]) {
      const before = await said();
      await page.keyboard.press(key);
      await expect.poll(said, { message: key }).not.toBe(before);
    }
    for (const key of ["PageUp", "ArrowLeft", "ArrowUp"]) {
      // what was in tune is asked for once more
      await pluck(page, plucks, "C3");
      await page.getByText(english.round.inTuneOf(1, 47)).waitFor();
      await page.keyboard.press(key);
      await page.getByText(english.round.inTuneOf(0, 47)).waitFor({ timeout: 3_000 });
    }
    const before = await said();
    await page.keyboard.down("PageDown");
    await page.waitForTimeout(900);
    await page.keyboard.down("PageDown");
    await expect.poll(said).not.toBe(before);
    await page.keyboard.up("PageDown");
  });

  test("a string's dialog is opened, used and closed, and the focus comes back", async () => {
    const string = page.getByRole("listitem").getByRole("button", { name: "3A", exact: true });
    await string.focus();
    await page.keyboard.press("Enter");
    await page.getByRole("dialog").waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    expect((await focus()).name).toBe("3A");
  });
});

/** Twelve millimetres on a phone whose CSS pixel is a 160th of an inch. */
const TWELVE_MM = (12 / 25.4) * 160;

describe.each([
  ["English", "en-GB", english],
  ["German", "de-AT", german],
  ["French", "fr-CA", french],
] as const)("in %s", (_, locale, words) => {
  const heights: [string, number][] = [];
  const ways: number[] = [];
  const broken: string[] = [];
  const troubles: string[] = [];
  const wide: string[] = [];
  let lang: string;
  let browser: Visit;

  beforeAll(async () => {
    browser = await visit({ microphone, context: { locale } });
    const page = await browser.open(inject("url"));
    await page.getByRole("button", { name: words.first.on, exact: true }).waitFor();
    lang = await page.evaluate(() => document.documentElement.lang);
    troubles.push(...(await found(page)));
    await begin(page, words);
    for (const string of ["G3", "A3"]) {
      const playing = plucks.play(page, string);
      // the last word comes some three quarters of a second after the pluck
      const from = Date.now();
      let now = await inks(page);
      while ((now.length < 3 || now[0]?.[0] === heights.at(-3)?.[0]) && Date.now() < from + 5_000)
        now = await inks(page);
      ways.push(now.length);
      broken.push(...(await brokenOrCovered(page, words.round.harpLabel)));
      heights.push(...now);
      await playing;
    }
    troubles.push(...(await found(page)));
    wide.push(...(await overhang(page, 320, 640)), ...(await overhang(page, 195, 422)));
  });
  afterAll(() => browser.close());

  test("the page says which language it speaks", () => expect(lang).toBe(locale.slice(0, 2)));
  test("the first page and the round have no fault that axe finds", () => expect(troubles).toEqual([]));
  test("the round needs no sideways scrolling", () => expect(wide).toEqual([]));
  test("name, way up or down, and cents are twelve millimetres high on a phone", () => {
    expect(ways, JSON.stringify(heights)).toEqual([3, 3]);
    for (const [text, px] of heights) expect(px, text).toBeGreaterThanOrEqual(TWELVE_MM);
  });
  test("what stands large stands on one line, and nothing lies on the harp", () => expect(broken).toEqual([]));
  test("nothing is complained of, or asked of anybody else", () => content(browser));
});

/** Words that are broken over two lines, and words that reach into the harp's picture. */
function brokenOrCovered(page: Page, harp: string): Promise<string[]> {
  return page.evaluate((label) => {
    const pictures = [...document.querySelectorAll("[role=img]")];
    const picture = pictures.find((one) => one.getAttribute("aria-label")?.startsWith(label));
    const top = picture?.getBoundingClientRect().top ?? 0;
    const bottom = picture?.getBoundingClientRect().bottom ?? 0;
    const out: string[] = [];
    const walker = document.createTreeWalker(document.querySelector("main") ?? document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const text = node.textContent?.trim() ?? "";
      if (text === "" || !node.parentElement || picture?.contains(node) || node.parentElement.closest(".hidden"))
        continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const lines = new Set([...range.getClientRects()].map((box) => Math.round(box.top)));
      if (Number.parseFloat(getComputedStyle(node.parentElement).fontSize) >= 60 && lines.size > 1)
        out.push(`${text} is broken`);
      const box = range.getBoundingClientRect();
      if (box.top < top && box.bottom > top + 1)
        out.push(`${text} reaches ${(box.bottom - top).toFixed(0)} px into the harp`);
      if (box.top > top && box.top < bottom - 1) out.push(`${text} lies on the harp`);
    }
    return out;
  }, harp);
}

/** What stands large, and how high its ink is: the face's own outlines, as a canvas measures them. */
function inks(page: Page): Promise<[string, number][]> {
  return page.evaluate(async () => {
    await document.fonts.ready;
    const pen = document.createElement("canvas").getContext("2d") as CanvasRenderingContext2D;
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const large: [string, number][] = [];
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const text = node.textContent?.trim() ?? "";
      const style = node.parentElement && getComputedStyle(node.parentElement);
      if (text === "" || !style || Number.parseFloat(style.fontSize) < 40) continue;
      pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const ink = pen.measureText(text);
      large.push([text, ink.actualBoundingBoxAscent + ink.actualBoundingBoxDescent]);
    }
    return large;
  });
}
