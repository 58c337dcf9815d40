// Students' files beside the teacher's own diary, and what a student gives of hers. Students, harps and figures are invented.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, inject, test } from "vitest";
import type { Locator, Page } from "playwright-core";
import { english as general } from "../src/words/english";
import { french as frenchPage } from "../src/words/french";
import { german as germanPage } from "../src/words/german";
import { english as diaryWords } from "../src/words/diary/english";
import { french as frenchDiary } from "../src/words/diary/french";
import { german as germanDiary } from "../src/words/diary/german";
import { english as words } from "../src/words/students/english";
import { french } from "../src/words/students/french";
import { german } from "../src/words/students/german";
import { content, visit, type Visit } from "./support/browser";
import { inventedDiary, layIn } from "./support/invented-diary";
import { press } from "./support/stand";
import { spoken, States, tonesIn } from "./support/states";
import { kept, openFiles, openHuge, student, STUDENTS_HARP, teaching } from "./support/students";

const quiet = join(inject("sounds"), "quiet.wav");
const NOW = "2026-11-26T18:40:00Z";

const browse = (locale = "en-GB") =>
  visit({ microphone: quiet, context: { locale, timezoneId: "Europe/Vienna", acceptDownloads: true } });

/** A page of a teacher with a diary of her own. */
async function teachers(browser: Visit, rounds = 5): Promise<Page> {
  await browser.context.clock.setFixedTime(NOW);
  const page = await browser.open(inject("url"));
  await page.waitForFunction(() => indexedDB.databases().then((all) => all.some((db) => db.name === "sevenflats")));
  await page.waitForTimeout(300);
  await layIn(page, inventedDiary(rounds));
  await page.reload();
  return page;
}

const part = (page: Page, name: string) => page.getByRole("region", { name, exact: true });

test("three students' files are opened and closed, her own diary stays as it was, and nothing is asked of anybody", async () => {
  const browser = await browse();
  const page = await teachers(browser);
  await teaching(page, inject("url"), general);
  // what the page does by itself when it is opened is over: it reads her own diary, and asks for a computer beside it
  await page.waitForFunction(
    async () => "sevenflats strings" in localStorage && (await indexedDB.databases()).length === 2,
  );
  await page.waitForTimeout(500);
  const before = await kept(page);
  expect(before.records).toBeGreaterThan(10);
  const asked: string[] = [];
  page.on("request", (one) => asked.push(`${one.method()} ${one.url()} ${one.postData() ?? ""}`));

  // Bea's file was copied from Ada's browser: it bears the same device
  const files = [student("Ada", "one"), student("Bea", "one", 9), student("Cleo", "two", 3, 9)];
  await openFiles(page, words.open, files);
  for (const name of ["Ada", "Bea", "Cleo"])
    await part(page, name)
      .getByText(/^\d+ records? of 1 device\./)
      .waitFor();
  const rounds = async (name: string) => {
    const table = part(page, name).getByRole("region", {
      name: words.tables(`${words.weeks}, ${words.rounds}, ${STUDENTS_HARP}`, name),
      exact: true,
    });
    const cells = await table.locator("tbody td:nth-child(2)").allInnerTexts();
    return cells.reduce((sum, text) => sum + Number(text || 0), 0);
  };
  expect([await rounds("Ada"), await rounds("Bea"), await rounds("Cleo")]).toEqual([20, 9, 3]);
  // 9 rounds up to Wednesday, 25 November: 3 in the week of the 23rd, 6 before; each of 6.25 minutes and 47 strings
  const bea = part(page, "Bea").locator("tbody").first().locator("tr");
  const texts = async (row: Locator) =>
    (await row.locator("th, td").allInnerTexts()).map((text) => text.replace(/\s/g, " "));
  expect(await texts(bea.nth(0))).toEqual(["23 Nov", "3", "19", "141 of 141"]);
  const practised = part(page, "Bea").locator("tbody").nth(1).locator("tr");
  // she left them 6.5, 6.75 … 8.25 cents off: the middle is 7.375, and of eight the interval goes from end to end
  expect(await texts(practised.nth(0))).toEqual(["23 Nov", "15", "6 of 8", "7.4 (6.5 to 8.3)"]);
  // two of eight were called low and were high
  await part(page, "Bea")
    .getByText(words.guessed("24", "8", "0"))
    .waitFor();
  // Wilson, 24 of 32: 57.9 to 86.7 %, worked apart
  await part(page, "Bea")
    .getByText(words.share("75", "58", "87"))
    .waitFor();
  await part(page, "Ada").getByText("Pedal harp, 47 strings, 7C to 0G").waitFor();
  // its pin was made to slip
  await part(page, "Ada").getByRole("rowheader", { name: "3A", exact: true }).waitFor();

  await part(page, "Ada").getByLabel(words.name).fill("Ada, Thursdays");
  await part(page, "Ada, Thursdays").getByText(words.file("Ada.ndjson")).waitFor();
  await page.getByLabel(words.show).selectOption({ label: "Cleo" });
  await expect.poll(() => page.getByRole("heading", { level: 3 }).allInnerTexts()).toContain("Cleo");
  expect(await page.getByRole("heading", { level: 3 }).allInnerTexts()).not.toContain("Bea");
  await page.getByLabel(words.show).selectOption({ label: words.all("3") });

  await openFiles(page, words.open, [{ name: "again.txt", text: files[2]?.text ?? "" }]);
  await page.getByText(words.twin("again.txt", "Cleo")).waitFor();
  await press(page, words.closeThis("Bea"));
  await part(page, "Bea").waitFor({ state: "detached" });
  await press(page, words.closeAll);
  await part(page, "Cleo").waitFor({ state: "detached" });

  const after = await kept(page);
  expect([after.records, after.stores]).toEqual([before.records, before.stores]);
  expect(before.text).toContain("pedal C1 G7");
  for (const theirs of [STUDENTS_HARP, "Ada", "Bea", "Cleo"]) expect(after.text).not.toContain(theirs);
  // the program's own files, and whether a computer beside it keeps a diary: nothing that could carry anything away
  for (const one of asked)
    expect(one).toMatch(/^(GET (blob:|http:\/\/[^?]*\/(assets|later)\/[^?]*)|HEAD [^?]*\/diary\/have) $/);
  await page.goto(`${inject("url")}#diary`);
  await page.getByRole("heading", { level: 1, name: general.diary.heading }).waitFor();
  expect(await page.locator(".rounds li").count()).toBe(5);
  content(browser);
  await browser.close();
}, 120_000);

test("a file that is broken, newer, of two devices, empty, too long or no diary says so, and the page goes on", async () => {
  const browser = await browse();
  const page = await teachers(browser);
  await teaching(page, inject("url"), general);
  const whole = student("Ada", "one", 4);
  const lines = whole.text.split("\n");
  const [cut, first] = [lines[3] ?? "", lines[0] ?? ""];
  const broken = [first, "no record at all", cut.slice(0, 60), ...lines.slice(4)].join("\n");
  const newer = `${whole.text}{"device":"one","seq":900,"at":"2026-11-20T10:00:00Z","kind":"practice","v":7,"body":{"x":1}}\n`;
  const second = student("", "two", 2).text;
  const contrary = whole.text + first.replace('"at":"2026', '"at":"2025').replace(STUDENTS_HARP, "another") + "\n";
  await openFiles(page, words.open, [
    { name: "broken.ndjson", text: broken },
    { name: "newer.ndjson", text: newer },
    { name: "both.ndjson", text: whole.text + second },
    { name: "contrary.ndjson", text: contrary },
    { name: "empty.ndjson", text: "\n\n" },
    { name: "letter.txt", text: "Dear teacher,\nhere is my week.\n" },
    { name: "picture.json", text: '{"not":"a record"}' },
  ]);
  const says = (name: string, text: string | RegExp) => part(page, name).getByText(text).waitFor();
  await says("broken", words.bad("2"));
  await says("broken", /^Line 2: /);
  await says("broken", /^Line 3: .*cut off/);
  await says("newer", words.newer("1", "practice"));
  await says("both", /of 2 devices\./);
  await says("contrary", words.apart("1"));
  await says("empty", words.trouble.empty);
  await says("letter", words.trouble.foreign);
  await says("picture", words.trouble.foreign);
  await openHuge(page, words.open, "huge.ndjson", 64_000_001);
  await says("huge", words.trouble.large("64"));
  // as long as may be, and not one line of it is a record: the page can be worked while it is read
  await openHuge(page, words.open, "blanks.ndjson", 63_000_000);
  await part(page, "blanks").getByLabel(words.name).fill("worked meanwhile");
  await says("worked meanwhile", words.trouble.empty);
  await openFiles(
    page,
    words.open,
    Array.from({ length: 41 }, (_, at) => ({ name: `${at}.txt`, text: "" })),
  );
  await page.getByText(/ were too many: 40 can be open at once\.$/).waitFor();
  content(browser);
  await browser.close();
}, 120_000);

test("a student gives what she chooses, sees it before, and it is read as she wrote it", async () => {
  const browser = await browse();
  const page = await teachers(browser, 12);
  const note = { harp: null, string: null, text: "my own affair" };
  const secret = { device: "invented", seq: 900, at: "2026-11-20T10:00:00Z", kind: "note", v: 1, body: note };
  await layIn(page, [JSON.stringify(secret)]);
  await page.goto(`${inject("url")}#diary`);
  await page.reload();
  const own = diaryWords.give;
  await page.getByText(own.heading, { exact: true }).click();
  const given = async () => {
    await page.waitForTimeout(400);
    const file = page.waitForEvent("download");
    await press(page, own.save);
    const done = await file;
    const lines = readFileSync(await done.path(), "utf8")
      .trim()
      .split("\n");
    return { name: done.suggestedFilename(), lines };
  };
  await page.getByText(/^\d+ records, \d+ kB\.$/).waitFor();
  expect(await page.getByLabel(own.groups["notes"] ?? "").isChecked()).toBe(false);
  await page.getByLabel(own.name).fill("Ada / Bea");
  const usual = await given();
  expect(usual.name).toBe("Ada Bea-2026-11-26.ndjson");
  const all = new Set([...inventedDiary(12), JSON.stringify(secret)]);
  expect(usual.lines.length).toBe(inventedDiary(12).length);
  expect(usual.lines.every((line) => all.has(line))).toBe(true);
  expect(usual.lines.join()).not.toContain("my own affair");

  await page.getByLabel(own.groups["air"] ?? "").uncheck();
  await page.getByLabel(own.groups["notes"] ?? "").check();
  await page.getByLabel(own.since).fill("2026-11-20");
  await page.getByText(own.says).click();
  await page.locator("details details").getByText("my own affair").waitFor();
  await page.getByText(own.rounds("6", "20 Nov 2026", "25 Nov 2026")).waitFor();
  const some = await given();
  const kinds = some.lines.map((line) => (JSON.parse(line) as { kind: string }).kind).sort();
  expect(kinds).toEqual(["harp", "note", ...Array<string>(6).fill("round"), ...Array<string>(6).fill("round_over")]);

  await teaching(page, inject("url"), general);
  await openFiles(page, words.open, [{ name: some.name, text: some.lines.join("\n") }]);
  await part(page, "Ada Bea-2026-11-26").getByText("14 records of 1 device.").waitFor();
  content(browser);
  await browser.close();
}, 120_000);

test("it is shared by the browser's own share, and only when that is pressed", async () => {
  const browser = await browse();
  await browser.context.addInitScript(() => {
    const shared: string[] = [];
    Object.assign(window, { shared });
    Object.defineProperty(navigator, "canShare", { value: () => true });
    Object.defineProperty(navigator, "share", {
      value: async ({ files }: { files: File[] }) => {
        for (const file of files) shared.push(`${file.name} ${file.type} ${(await file.text()).split("\n").length}`);
      },
    });
  });
  const page = await teachers(browser, 2);
  await page.goto(`${inject("url")}#diary`);
  const own = diaryWords.give;
  await page.getByText(own.heading, { exact: true }).click();
  await page.getByText(/^\d+ records, \d+ kB\.$/).waitFor();
  const shared = () => page.evaluate(() => (window as unknown as { shared: string[] }).shared);
  expect(await shared()).toEqual([]);
  await press(page, own.share);
  await expect.poll(shared).toEqual([`sevenflats-2026-11-26.txt text/plain ${inventedDiary(2).length + 1}`]);
  content(browser);
  await browser.close();
});

test.each(
  spoken(2, [
    ["en-GB", general, words, diaryWords],
    ["de-DE", germanPage, german, germanDiary],
    ["fr-FR", frenchPage, french, frenchDiary],
  ]),
)(
  "every state can be read and worked (%s)",
  async (locale, pageWords, own, ofDiary) => {
    const browser = await browse(locale);
    const page = await teachers(browser);
    const states = new States(page, tonesIn(locale));
    await teaching(page, inject("url"), pageWords);
    await page.getByText(own.how).waitFor();
    await states.look("no file");
    const ada = student("Ada-with-a-name-that-has-no-end-and-no-place-to-break-it", "one", 30, 10);
    await openFiles(page, own.open, [ada]);
    await page.getByText(own.ear, { exact: true }).waitFor();
    await page.getByText(own.meaning, { exact: true }).click();
    await states.look("a student");
    const newer = '{"device":"x","seq":9,"at":"2026-11-20T10:00:00Z","kind":"practice","v":7,"body":{}}';
    await openFiles(page, own.open, [
      { ...ada, name: "twin.txt" },
      { name: "broken.txt", text: `${student("", "one", 2).text}no record\n${newer}` },
      { name: "empty.txt", text: "" },
      { name: "letter.txt", text: "Dear teacher" },
    ]);
    await part(page, "letter").getByText(own.trouble.foreign).waitFor();
    await openHuge(page, own.open, "huge.txt", 64_000_001);
    await part(page, "huge").getByRole("alert").waitFor();
    await states.look("troubles");
    await page.goto(`${inject("url")}#diary`);
    await page.getByText(ofDiary.give.heading, { exact: true }).click();
    await page.getByText(ofDiary.give.says, { exact: true }).click();
    await page.getByText(ofDiary.give.says, { exact: true }).waitFor();
    await states.look("what is given");
    expect(states.troubles).toEqual([]);
    content(browser);
    await browser.close();
  },
  120_000,
);
