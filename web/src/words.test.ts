import { expect, test } from "vitest";
import doubt from "../../crates/wasm/src/programme/doubt.rs?raw";
import remark from "../../crates/wasm/src/programme/remark.rs?raw";
import { browsers, wordsOf, type Language } from "./words";
import { diaryWords } from "./words/diary";
import { guideWords } from "./words/guide";
import { handoutWords } from "./words/handout";
import { practiceWords } from "./words/practice";
import { practiceDrillsWords } from "./words/practice-drills";
import { programmeWords } from "./words/programme";
import { regulationWords } from "./words/regulation";
import { stringsWords } from "./words/strings";
import { studentsWords } from "./words/students";

/** Every text of a language by its path; functions are called with figures that can be found again. */
function texts(value: unknown, path = ""): [string, string][] {
  if (typeof value === "string") return [[path, value]];
  if (OF_RECORDS.includes(path)) return [];
  if (typeof value === "function")
    return [[path, String(path.startsWith(".diary") ? value("7", "9", "11") : value(7, 9, "11"))]];
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, inner]) => texts(inner, `${path}.${key}`));
}

/** What wants a whole record, or a way of writing figures. */
const OF_RECORDS = [".diary.told", ".diary.long"];
const MAY_BE_EMPTY = [".end.state"];
/** Words that are the same in two languages, or are a name. */
const MAY_BE_SAME =
  /\.(title|round\.(sounds|minutes|questions|pause|paused|stop|a)|settings\.tones|first\.hertz|diary\.persist|programme\.(seconds|licence)|handout\.papers)/;

async function of(language: Language) {
  return new Map([
    ...texts(await wordsOf(language)),
    ...texts(await programmeWords(language), ".programme"),
    ...texts(await regulationWords(language), ".regulation"),
    ...texts(await stringsWords(language), ".strings"),
    ...texts(await diaryWords(language), ".diary"),
    ...texts(await guideWords(language), ".guide"),
    ...texts(await handoutWords(language), ".handout"),
    ...texts(await practiceWords(language), ".practice"),
    ...texts(await practiceDrillsWords(language), ".practice drills"),
    ...texts(await studentsWords(language), ".students"),
  ]);
}

test("no language leaves anything unsaid", async () => {
  const english = await of("en");
  for (const language of ["de", "fr"] as const) {
    const own = await of(language);
    expect([...own.keys()].sort()).toEqual([...english.keys()].sort());
    for (const [path, text] of own) {
      if (!MAY_BE_EMPTY.includes(path)) expect(text, `${language}${path}`).not.toBe("");
      const figures = (s: string) => (s.match(/7|9|11/g) ?? []).sort().join();
      expect(figures(text), `${language}${path}: ${text}`).toBe(figures(english.get(path) ?? ""));
      const long = text.split(" ").length > 2 && !MAY_BE_SAME.test(path);
      if (long) expect(text, `${language}${path}`).not.toBe(english.get(path));
    }
  }
});

test("she is addressed in one way, and a lever stands in one way in a language", async () => {
  const word = (one: string) => new RegExp(`(?<!\\p{L})(${one})(?!\\p{L})`, "iu");
  const NEVER = {
    de: word("du|dich|dir|dein\\p{L}*|Klappen?[^.:;]* (an|aus)(?=[.,]|$)"),
    fr: word("tu|te|toi|tes|leviers? (levé|relâché|dégagé)s?"),
  };
  for (const language of ["de", "fr"] as const) {
    for (const [path, text] of await of(language)) expect(text, `${language}${path}`).not.toMatch(NEVER[language]);
  }
});

test("a direction is never a position of a pedal", async () => {
  for (const language of ["en", "de", "fr"] as const) {
    const { spoken } = await wordsOf(language);
    for (const word of [spoken.up, spoken.down]) expect(word).not.toMatch(/flat|sharp|bémol|dièse|erniedrigt|erhöht/);
  }
});

test("the browser's first language that is spoken is taken", () => {
  expect(browsers(["pt-BR", "de-AT", "en"])).toBe("de");
  expect(browsers(["fr-CA"])).toBe("fr");
  expect(browsers(["ja"])).toBe("en");
  expect(browsers([])).toBe("en");
});

test("every code that Rust may give has its words", async () => {
  const { doubts, paper } = await programmeWords("en");
  for (const [rust, said] of [
    [doubt, doubts.said],
    [remark, paper.remarks],
  ] as const) {
    const given = [...rust.matchAll(/\(\s*"([a-z_]+)"\s*,/g)].map((found) => found[1] ?? "").sort();
    expect(given.length).toBeGreaterThan(20);
    expect(given).toEqual(Object.keys(said).sort());
  }
});
