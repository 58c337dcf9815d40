// The guide in the page: every chapter has its place, every link and picture is there, and words are found.
import { cpSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { FOLDER, readGuide } from "../guide";
import { Finder, MOST, textOf } from "../src/guide/finder";
import { guideWords } from "../src/words/guide";

const guide = readGuide(FOLDER);
const finder = new Finder(guide.chapters, guide.groups);

describe("the guide beside the code", () => {
  test("every chapter is in a group, every link between chapters and every picture leads somewhere", () =>
    expect(guide.troubles).toEqual([]));

  test("no chapter is left out", () => {
    const files = readdirSync(FOLDER).filter((name) => name.endsWith(".md") && name !== "README.md");
    expect(files.length).toBeGreaterThan(14);
    expect(guide.chapters.map(({ id }) => `${id}.md`)).toEqual(files.sort());
  });

  test("every picture of the folder is shown", () =>
    expect(guide.pictures).toEqual(readdirSync(join(FOLDER, "pictures")).map((name) => `pictures/${name}`)));

  test("addresses need no escape", () => {
    for (const { id, sections } of guide.chapters)
      for (const one of sections) expect(`${id}/${one.id}`).toMatch(/^[a-z0-9-]+\/[a-z0-9-]*$/);
  });

  test.each(["en", "de", "fr"] as const)("every group is named in %s", async (language) => {
    const { groups } = await guideWords(language);
    expect(guide.groups.map(({ id }) => id)).toEqual(Object.keys(groups));
    for (const { id, title, entries } of guide.groups) {
      if (language === "en") expect(groups[id]).toBe(title);
      expect(entries.length).toBeGreaterThan(0);
    }
  });
});

describe("a guide with faults", () => {
  const folder = mkdtempSync(join(tmpdir(), "sevenflats-guide-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
  write("README.md", "# G\n\n## For players\n\n- [A](a.md): one.\n- [Gone](gone.md): two.\n");

  test("each of them is named", () => {
    write("a.md", "# A\n\n[b](b.md#there) [c](c.md) [d](#nowhere) [e](../nothing.md)\n\n![f](pictures/f.webp)\n");
    write("b.md", "# B\n\n## There\n\n[a](a.md)\n\n## There\n");
    write("d.md", "Without a title.\n");
    const { troubles, chapters } = readGuide(folder);
    expect(troubles.sort()).toEqual([
      "README.md leads to gone, which is not there",
      "a.md leads to a/nowhere, which is not there",
      "a.md leads to c, which is not there",
      "a.md names ../nothing.md, which is not there",
      "a.md shows pictures/f.webp, which is not there",
      "b.md stands in no group of docs/guide/README.md",
      "d.md does not begin with its title",
      "d.md stands in no group of docs/guide/README.md",
    ]);
    expect(chapters[1]?.sections.map(({ id }) => id)).toEqual(["", "there", "there-1"]);
  });

  test("a chapter that nobody put into a group is found out", () => {
    const copy = join(folder, "whole");
    cpSync(FOLDER, copy, { recursive: true });
    writeFileSync(join(copy, "new-chapter.md"), "# A new chapter\n");
    const missing = readGuide(copy).troubles.filter((trouble) => !trouble.includes("../"));
    expect(missing).toEqual(["new-chapter.md stands in no group of docs/guide/README.md"]);
  });
});

describe("found by words", () => {
  const found = (words: string) => finder.find(words).map(({ href }) => href);

  test.each([
    ["draught", "#guide/page/the-first-minute"],
    ["draugth", "#guide/page/the-first-minute"],
    ["pencilled", "#guide/programme/reading-it"],
    ["keeps falling", "#guide/first-evening/why-a-string-keeps-falling"],
    ["oboe", "#guide/a-week"],
    ["printing", "#guide/programme/the-evening"],
    ["handout", "#guide/handouts"],
  ])("%s", (words, href) => expect(found(words)).toContain(href));

  test("what is done in the page comes before what is done by command", () => {
    expect(found("draught")).toEqual(["#guide/page/the-first-minute", "#guide/tune/before-you-begin"]);
    expect(guide.groups.at(-1)?.id).toBe("at-the-desk");
  });

  test("a wrong letter or a word's beginning finds what the word finds first", () => {
    const [first] = found("soundboard");
    expect(found("soundbord")).toContain(first);
    expect(found("soundbo")).toContain(first);
  });

  test("words that no section has together find those that have some", () =>
    expect(found("why is my string always falling zzzz").length).toBeGreaterThan(0));

  test("nothing is found for nonsense, and never more than fits", () => {
    expect(found("qqqxyzzy")).toEqual([]);
    expect(finder.find("the").length).toBeLessThanOrEqual(MOST);
  });

  test("what was found is marked in a line that is read at a glance", () => {
    for (const words of ["draught", "draugth", "pin", "string breaks", "♭"])
      for (const { context } of finder.find(words)) {
        const line = context.map(({ text }) => text).join("");
        expect(line.length).toBeLessThan(200);
        if (words.startsWith("dr"))
          expect(context.some(({ text, isFound }) => isFound && /draught/i.test(text))).toBe(true);
      }
  });

  test("the text is that of the HTML", () =>
    expect(textOf('<p>Two <strong>C</strong>s, &lt;a&gt;</p>\n<pre tabindex="0"><code>x &amp; y</code></pre>')).toBe(
      "Two Cs, <a> x & y",
    ));
});
