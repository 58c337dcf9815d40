// Programme: a part on paper, typed, mended, put in the evening, printed, kept.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Page } from "playwright-core";
import { english as general } from "../src/words/english";
import { french as frenchGeneral } from "../src/words/french";
import { german as germanGeneral } from "../src/words/german";
import { english as words } from "../src/words/programme";
import { french } from "../src/words/programme/french";
import { german } from "../src/words/programme/german";
import { content, visit, type Visit } from "./support/browser";
import { give, planned, programme } from "./support/evening";
import { MEADOW, onPaper, shorthand, write } from "./support/on-paper";
import { piece } from "./support/scores";
import { COMMAND, serve } from "./support/server";
import { press } from "./support/stand";
import { spoken, States, tonesIn } from "./support/states";

const microphone = join(inject("sounds"), "quiet.wav");
const folder = mkdtempSync(join(tmpdir(), "sevenflats-paper-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Two bars whose lowest note is a C that only the lowest string has. */
const low = (title: string, alter: number) =>
  piece(2, title).replace(
    /<note><pitch><step>\w<\/step>(<alter>-?\d<\/alter>)?<octave>2/,
    `<note><pitch><step>C</step><alter>${alter}</alter><octave>1`,
  );

interface Piece {
  title: string;
  pedals_before: { pedal: string; from: string | null; to: keyof typeof SIGNS }[];
}
const SIGNS = { flat: "♭", natural: "♮", sharp: "♯" };

/** What the command sets before each piece of the same evening. */
function byTheCommand(): Piece[] {
  const ash = low("Ash", -1);
  writeFileSync(join(folder, "ash.musicxml"), ash);
  writeFileSync(join(folder, "birch.musicxml"), low("Birch", 0));
  writeFileSync(join(folder, "meadow.txt"), MEADOW);
  const pieces = [`score = "ash.musicxml"`, `title = "Salt Meadow"\npaper = "meadow.txt"`, `score = "birch.musicxml"`];
  const file = join(folder, "evening.toml");
  writeFileSync(file, `harp = "pedal47"\n${pieces.map((one) => `[[piece]]\n${one}\n`).join("\n")}`);
  const told = execFileSync(COMMAND, ["programme", file, "--json"], { encoding: "utf8" });
  return (JSON.parse(told) as { pieces: Piece[] }).pieces;
}

describe("one part", () => {
  let browser: Visit;
  let page: Page;
  const remarks = () => page.locator("#remarks li").allInnerTexts();
  const summary = () => page.locator("#remarks .summary").innerText();
  const where = () => page.locator(".where").innerText();

  beforeAll(async () => {
    browser = await visit({ microphone, context: { viewport: { width: 1280, height: 900 } } });
    page = await browser.open(inject("url"));
    await programme(page);
  });
  afterAll(() => browser.close());

  test("what cannot be read is told beside its line as she types, and is gone when it is mended", async () => {
    await press(page, words.paper.add);
    await page.keyboard.type("Salt Meadow");
    await page.getByRole("heading", { level: 2, name: "Salt Meadow" }).waitFor();
    await shorthand(page).click();
    await page.keyboard.type("opening Bb Eb\n12 F# | B\n13 H\n14 F#\n15 F G#");
    await expect.poll(remarks).toHaveLength(3);
    const [first, second, third] = await remarks();
    expect(first).toMatch(/^× Line 3\s+“H” is no pedal: here B is natural and Bb is flat$/);
    expect(second).toMatch(/^\? Line 4\s+it stands at F♯ already/);
    expect(third).toMatch(/^\? Line 5\s+the right foot has F and G at one place/);
    expect(await summary()).toBe(`${words.paper.refused(1)}, ${words.paper.found(2)}`);
    expect(await shorthand(page).getAttribute("aria-invalid")).toBe("true");
    // a remark leads to the sign where reading stopped
    await page.getByRole("button", { name: words.paper.line(3), exact: true }).click();
    await page.keyboard.type("Bb");
    await expect.poll(() => shorthand(page).inputValue()).toContain("\n13 Bb\n");
    await expect.poll(summary).toBe(words.paper.found(2));
    // what comes after a pause is undone by itself
    await page.waitForTimeout(1_300);
    await shorthand(page).fill(MEADOW);
    await expect.poll(summary).toBe(words.paper.allRead);
    expect(await remarks()).toEqual([]);
  });

  test("it is undone and redone, what was typed in one go at once", async () => {
    await press(page, words.undo);
    await expect.poll(() => shorthand(page).inputValue()).toContain("13 Bb");
    await press(page, words.redo);
    await expect.poll(() => shorthand(page).inputValue()).toBe(MEADOW);
  });

  test("opening, changes by bar and mark, and what has no discs stand as they are written", async () => {
    // it is planned again behind what was redone
    await expect.poll(() => page.getByText(`${words.byKey}: ${words.byKeyLine("7C", "C♯")}`).count()).toBe(1);
    const places = page.locator(".below ul").first().locator("li");
    expect(await places.count()).toBe(4);
    expect(await page.locator(".feet .ring").allInnerTexts()).toEqual(["F♯", "F♮", "B♮", "C♯", "A♮"]);
    expect(await where()).toBe(words.before);
    await press(page, words.nextMark);
    expect(await where()).toMatch(/^Bar 9\s*A$/);
    expect(await page.locator(".beside [role=img] ellipse").count()).toBe(2);
    const said = await page.locator(".beside [role=img]").getAttribute("aria-label");
    // by hand: B flat, E flat, A flat; F sharp in bar 5; F and B natural at A
    expect(said?.split(", ").map((one) => one.split(" ")[0])).toEqual(["D", "C", "B", "E♭", "F", "G", "A♭"]);
    await page.locator("h1").click();
    await page.keyboard.press("ArrowRight");
    expect(await where()).toBe("Bar 9, beat 3");
  });

  test("with F stuck it is told where that is wanted otherwise", async () => {
    await page.getByText(words.broken, { exact: true }).click();
    await page.getByLabel(words.stuckPedal, { exact: true }).selectOption({ label: "F" });
    await page.getByLabel(words.stands, { exact: true }).selectOption("natural");
    await press(page, `${words.add}: ${words.stuckPedal}`);
    await page.getByText("F♮ is stuck; it should stand elsewhere from bar 5 to bar 9").waitFor();
    await press(page, words.undo);
    await expect.poll(() => page.getByText("F♮ is stuck").count()).toBe(0);
  });

  test("it is kept in the diary as it was typed", async () => {
    await press(page, words.paper.keep);
    await page.getByText(words.paper.kept).waitFor();
    await page.getByRole("link", { name: general.pages.diary, exact: true }).click();
    const file = page.waitForEvent("download");
    await press(page, general.diary.export);
    const line = readFileSync(await (await file).path(), "utf8").trim();
    const { kind, v, body } = JSON.parse(line) as { kind: string; v: number; body: Record<string, unknown> };
    expect([kind, v, body["source"], body["paper"]]).toEqual(["plan", 1, "Salt Meadow", MEADOW]);
    const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(MEADOW));
    expect(body["sha256"]).toBe(Buffer.from(hash).toString("hex"));
    await programme(page);
    expect(await shorthand(page).inputValue()).toBe(MEADOW);
  });

  test("taken out by mistake it is put back", async () => {
    await page.getByRole("button", { name: words.remove("Salt Meadow") }).click();
    await page.getByText(words.paper.takenOut("Salt Meadow")).waitFor();
    expect(await shorthand(page).count()).toBe(0);
    await press(page, words.paper.putBack);
    expect(await shorthand(page).inputValue()).toBe(MEADOW);
  });

  test("nothing is complained of, or asked of anybody else", () => content(browser));
});

test("between two scores it is set, tuned and printed in its place, and is there when all is begun anew", async () => {
  const kept = mkdtempSync(join(tmpdir(), "sevenflats-browser-"));
  const server = await serve();
  let browser = await visit({ microphone, kept });
  let page = await browser.open(server.url);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await programme(page);
  await give(page, { name: "ash.musicxml", text: low("Ash", -1) }, { name: "birch.musicxml", text: low("Birch", 0) });
  await page.getByRole("heading", { level: 2, name: "Birch" }).waitFor();
  await planned(page);
  await page.getByRole("checkbox", { name: words.keepScore }).check();
  await press(page, "Ash");
  await page.getByRole("checkbox", { name: words.keepScore }).check();
  await write(page, "Salt Meadow", MEADOW);
  await page.getByRole("button", { name: words.earlierPiece("Salt Meadow") }).click();
  const order = () => page.locator("li .title").allInnerTexts();
  await expect.poll(order).toEqual(["Ash", "Salt Meadow", "Birch"]);

  const between = () => page.locator(".between").allInnerTexts();
  const expected = byTheCommand().slice(1);
  const set = (at: number) =>
    words.pedalsBefore((expected[at]?.pedals_before ?? []).map(({ pedal, to }) => pedal + SIGNS[to]).join(" "));
  const turned = ["C♯", "C♮"].map((pitch) => words.between(words.byKeyLine("7C", pitch)));
  const all = () => between().then((lines) => lines.map((line) => line.replace(words.touchUp, "").trim()));
  await expect.poll(all).toEqual([0, 1].map((at) => `${set(at)} ${turned[at]}`));

  // only that string is offered, as the part on paper wants it
  await page.getByRole("button", { name: words.touchUp, exact: true }).first().click();
  await press(page, general.before.allow);
  await press(page, general.before.begin);
  await page.getByRole("button", { name: general.round.pause, exact: true }).waitFor();
  await expect.poll(() => page.locator("main").innerText()).toMatch(/^7C$[\s\S]*a tuner shows C♯$/m);
  await page.reload();
  await programme(page);
  await expect.poll(order).toEqual(["Ash", "Salt Meadow", "Birch"]);
  content(browser);
  await browser.close();
  await server.stop();

  browser = await visit({ microphone, kept });
  page = await browser.open(server.url);
  await programme(page);
  await expect.poll(order).toEqual(["Ash", "Salt Meadow", "Birch"]);
  await expect.poll(all).toHaveLength(2);
  await press(page, "Salt Meadow");
  expect(await shorthand(page).inputValue()).toBe(MEADOW);

  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => void dispatchEvent(new Event("beforeprint")));
  const paper = page.locator(".paper section").nth(1);
  await expect.poll(() => paper.innerText()).toContain(set(0));
  const printed = (await paper.innerText()).replaceAll(/\s+/g, " ");
  for (const there of ["Salt Meadow", turned[0] ?? "", "wait for the bell", "Bar 9"]) expect(printed).toContain(there);
  const changes = await paper.locator(".change").allInnerTexts();
  expect(changes.map((one) => one.trim())).toEqual(["F♯", "F♮", "B♮", "C♯ 3", "A♮"]);
  // the opening, and one at each mark
  expect(await paper.getByRole("img").count()).toBe(3);
  expect(await paper.locator(".mark").first().locator("ellipse").count()).toBe(1);
  content(browser);
  await browser.close();
  rmSync(kept, { recursive: true, force: true });
});

describe.each(
  spoken(2, [
    ["en-GB", words, general],
    ["de-DE", german, germanGeneral],
    ["fr-FR", french, frenchGeneral],
  ]),
)("every state in %s", (locale, own, ownGeneral) => {
  test("has no fault that axe finds, and needs no sideways scrolling", { timeout: 180_000 }, async () => {
    const browser = await visit({ microphone, context: { locale, reducedMotion: "reduce" } });
    const page = await browser.open(inject("url"));
    const states = new States(page, tonesIn(locale));
    await onPaper(page, (state) => states.look(state), own, ownGeneral);
    expect(states.seen).toBe(5);
    expect(states.troubles).toEqual([]);
    content(browser);
    await browser.close();
  });
});
